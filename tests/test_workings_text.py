"""A working has the same words in the window, on the sheet and at the command line."""

import importlib
import json
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from lawnbook.cli import main
from lawnbook.plan.filled_in import counted_in, numbered, reckons
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.plan.spreading_plan import spreading_plan
from lawnbook.plan.working_model import DAY, Working
from lawnbook.plan.workings import given
from lawnbook.plan.workings_text import (
    Group,
    groups_of,
    lines_of,
    matching,
    most_heading,
    most_told,
    outcome_told,
    words_of,
)
from lawnbook.reading import Reading, reading_as
from lawnbook.sheet.pdf import sheet_bytes
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.places import sample_yards
from tests.test_plan_workings import worked_out

pytestmark = pytest.mark.usefixtures("qapp")
pdfium: Any = importlib.import_module("pypdfium2")
ON = date(2026, 6, 15)
FILE = next(path for path in sample_yards() if path.stem == "saltbush_court")
METRIC = Reading(units="metric")


@pytest.fixture(scope="module")
def book() -> Notebook:
    """The sample as the command reads it on that day."""
    return load_any(FILE, ON)


@pytest.fixture(scope="module")
def plan(book: Notebook) -> Plan:
    """Its plan, which these tests only read."""
    return make_plan(book, ON)


@pytest.fixture(scope="module")
def groups(book: Notebook, plan: Plan) -> tuple[Group, ...]:
    """Its workings."""
    return groups_of(plan, spreading_plan(book, ON))


def flat(text: str) -> str:
    """Words parted by single blanks, and one kind of apostrophe."""
    return " ".join(text.replace("\u02bc", "’").split())


def command(capsys: pytest.CaptureFixture[str], *more: str) -> tuple[int, str, str]:
    """What `lawnbook plan` says of the sample: its exit, output and errors."""
    code = main(["plan", str(FILE), "--on", ON.isoformat(), *more])
    told = capsys.readouterr()
    return code, told.out, told.err


def test_the_command_says_every_line_that_the_window_copies(
    groups: tuple[Group, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    """All workings, each line as it is, under the headings of the sheet."""
    code, out, _ = command(capsys, "--working")
    assert code == 0
    for group in groups:
        assert group.title in out
        for each in group.workings:
            assert "\n".join(lines_of(each)) in out


def test_the_sheet_has_the_same_words(
    book: Notebook, plan: Plan, groups: tuple[Group, ...]
) -> None:
    """Every part of every working; the source by its number, in full at the end."""
    document = pdfium.PdfDocument(sheet_bytes(book, plan, workings=True))
    pages = [page.get_textpage().get_text_range() for page in document]
    document.close()
    # Heads of pages stand between columns; a column's lines stand one below the other.
    printed = flat("".join(pages)).replace(" ", "")
    for group in groups:
        for each in group.workings:
            words = words_of(each)
            parts = (words.formula, words.filled, *words.inputs, *words.most)
            missing = [part for part in parts if flat(part).replace(" ", "") not in printed]
            # What goes on in another column is parted there by nothing but a page's head.
            assert len(missing) <= 1, missing
            for part in words.source.split(" · "):
                assert flat(part.rstrip(". ")).replace(" ", "") in printed


@pytest.mark.parametrize(
    ("asked", "figures"),
    [
        ("multiplier", {"multiplier"}),
        ("RUN-TIME MULTIPLIER", {"multiplier"}),
        ("roots bear", {"bearable_depth_in", "roots_needed_in"}),
    ],
)
def test_a_figure_is_found_by_key_name_or_a_part_of_it(
    groups: tuple[Group, ...], asked: str, figures: set[str]
) -> None:
    """Upper and lower case are the same; the whole name goes before a part."""
    found = matching(groups, asked)
    assert {each.figure for group in found for each in group.workings} & figures
    assert len(found) >= 1
    if asked != "roots bear":
        assert {each.figure for group in found for each in group.workings} == figures


def test_a_zone_is_found_by_its_name(plan: Plan, groups: tuple[Group, ...]) -> None:
    """With or without its number; only its own groups."""
    zone = plan.zones[0]
    for asked in (zone.zone, f"1 {zone.zone}", zone.zone.upper()):
        found = matching(groups, asked)
        assert found
        assert all(zone.zone in group.title for group in found)
    assert matching(groups, "") == groups
    assert matching(groups, "no such thing") == ()


def test_an_unknown_figure_is_one_line_that_names_what_there_is(
    plan: Plan, capsys: pytest.CaptureFixture[str]
) -> None:
    """On stderr, exit 2, nothing on stdout."""
    code, out, err = command(capsys, "--working", "nonsense")
    assert (code, out) == (2, "")
    assert len(err.strip().splitlines()) == 1
    assert plan.zones[0].zone in err
    assert "Run-time multiplier" in err
    assert "_" not in err


def test_as_json_it_is_a_list(
    groups: tuple[Group, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    """Each with its lines, its inputs with their numbers, and what each changes."""
    code, out, _ = command(capsys, "--working", "multiplier", "--json")
    listed = json.loads(out)
    assert code == 0
    assert isinstance(listed, list)
    for each in listed:
        assert each["figure"] == "multiplier"
        assert each["lines"][0].startswith("Run-time multiplier: ")
        assert 0 < each["inputs"][0]["number"] <= 1
        assert each["sensitivity"][0]["changes"][0]["share"] < 0
    assert len(listed) == sum(
        each.figure == "multiplier" for group in groups for each in group.workings
    )


def test_the_plan_as_json_has_no_more_than_it_had(plan: Plan) -> None:
    """What a working is reckoned anew by is no part of the plan's JSON."""
    from lawnbook.plan.render import plan_json

    told = json.dumps(plan_json(plan))
    assert '"filled"' in told
    for name in ("reckoning", "quantity", "workings_by_month"):
        assert f'"{name}"' not in told


def test_a_metric_reader_can_follow_the_formula(book: Notebook) -> None:
    """Each input has the number that the formula takes, and the outcome both units."""
    with reading_as(METRIC):
        metric = make_plan(book, ON)
        working = next(w for w in metric.zones[0].workings if w.figure == "bearable_depth_in")
        words, outcome = words_of(working), outcome_told(working)
    assert words.figure.endswith(" mm")
    assert outcome.startswith("Reckoned in inches, feet, gallons and pounds: ")
    number = float(outcome.split(": ")[1].split("\u00a0in")[0])
    assert worked_out(words.filled) == pytest.approx(number, rel=3e-4)
    millimetres = float(words.figure.split(": ")[1].split(" ")[0])
    assert number * 25.4 == pytest.approx(millimetres, abs=0.051)
    rooted = next(each for each in words.inputs if each.startswith("Rooted soil"))
    assert "mm" in rooted
    assert "\u00a0in (" in rooted
    assert rooted.split("=\u00a0")[1].split("\u00a0in")[0] in words.filled


def test_in_us_units_nothing_is_said_twice(plan: Plan) -> None:
    """The outcome is the value that stands at the head."""
    working = plan.zones[0].workings[0]
    assert outcome_told(working) == ""
    assert not any(" = " in each for each in words_of(working).inputs)


def test_a_default_is_marked_in_every_place(plan: Plan) -> None:
    """In the words themselves, so that the three have it."""
    working = next(w for w in plan.zones[0].workings if any(each.is_default for each in w.inputs))
    line = next(each for each in lines_of(working) if "(a default: " in each)
    known = replace(working, inputs=tuple(replace(e, is_default=False) for e in working.inputs))
    assert line not in lines_of(known)


def test_whole_days_step_by_one_and_it_is_said(plan: Plan, groups: tuple[Group, ...]) -> None:
    """Not ten percent of a count of days: one day more, one day less; the heading says so too."""
    weather = given("Water use", "0.150 in/day", "worked out")
    between = counted_in(given("Days between waterings", "3", "worked out"), "days", 3.0, DAY)
    formula = "{days:0} × {use}"
    inputs = (between, numbered(weather, "use", 0.15, "in/day"))
    counted = Working("depth", "Depth", "0.45 in", "days × use", "", inputs, "", reckons(formula))
    line = next(each for each in most_told(counted) if each.startswith("Days between waterings"))
    assert "one day more: " in line
    assert "one day less: " in line
    assert "a count by one" in most_heading(counted)
    plain = next(each for each in plan.zones[0].workings if each.figure == "multiplier")
    assert most_heading(plain).endswith("each number 10\u00a0% up and down:")
    for each in (w for group in groups for w in group.workings):
        assert ("one day more" not in "".join(most_told(each))) or ("count" in most_heading(each))
