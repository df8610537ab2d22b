"""The pages behind the sheet: every working, whole, with its inputs and sources; numbered pages."""

import importlib
import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from lawnbook.cli import main
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.plan.spreading_plan import spreading_plan
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings_text import (
    Group,
    cited_told,
    groups_of,
    input_told,
    sources_of,
    words_of,
)
from lawnbook.sheet.documents import sheet_document, sheet_title
from lawnbook.sheet.pdf import sheet_bytes
from lawnbook.sheet.workings_page import lay_workings
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.places import sample_yards
from tests.plan_fixture import ON, yard_of

pytestmark = pytest.mark.usefixtures("qapp")
pdfium: Any = importlib.import_module("pypdfium2")
CORNER_FILE = next(path for path in sample_yards() if path.stem == "larkspur_corner")
CORNER = load_any(CORNER_FILE, date.max)


def working(value: str, source: str = "A · B", *, default: bool = False) -> Working:
    """A working with two inputs."""
    inputs = (Input("Depth", "0.55 in", "worked out"), Input("DU", "0.65", "assumed", default))
    return Working("x", "Run time", value, "a × b", "1 × 2", inputs, source)


def pages_of(book: Notebook, plan: Plan) -> list[str]:
    """The text of every page, on one line each."""
    document = pdfium.PdfDocument(sheet_bytes(book, plan, workings=True))
    texts = [page.get_textpage().get_text_range() for page in document]
    document.close()
    return [flat(text) for text in texts]


def flat(text: str) -> str:
    """Words parted by single blanks, and one kind of apostrophe."""
    return " ".join(text.replace("\u02bc", "’").split())


def test_inputs_tell_where_they_come_from() -> None:
    """A value does not break from its unit; what is assumed says so."""
    told = [input_told(each) for each in working("1", default=True).inputs]
    assert told == ["Depth 0.55\u00a0in (worked out)", "DU 0.65 (a default: assumed)"]
    assert "default" not in "".join(words_of(working("1")).inputs)


def test_sources_are_numbered_in_the_order_of_their_first_citing() -> None:
    """Each once; a working names all of its own."""
    groups = (Group("g", (working("1", "B"), working("2", "A · B"), working("3", ""))),)
    sources = sources_of(groups)
    assert sources == ("B", "A")
    told = [cited_told(each, sources).replace("\u00a0", " ") for each in groups[0].workings]
    assert told == ["[1]", "[1, 2]", ""]


def test_what_is_told_of_a_zone_is_not_told_again_of_a_task() -> None:
    """Tasks bring only what is theirs; groups without a working are left out."""
    plan = make_plan(CORNER, ON)
    groups = groups_of(plan, spreading_plan(CORNER, ON))
    assert all(group.workings for group in groups)
    titles = [group.title for group in groups]
    assert titles[0] == "1 Front lawn: water"
    assert {"1 Front lawn: nitrogen", "signpost: thatch"} <= set(titles)
    whats = {task.what for task in plan.tasks}
    of_zones = {each for g in groups if g.title not in whats for each in g.workings}
    for group in groups:
        if group.title in whats:
            assert not of_zones & set(group.workings)


def every_working(groups: Sequence[Group]) -> list[Working]:
    """The workings of all groups."""
    return [each for group in groups for each in group.workings]


@pytest.mark.parametrize("sample", ["larkspur_corner", "saltbush_court"])
def test_every_working_stands_whole_on_the_pages(sample: str) -> None:
    """Name, value, formula, numbers, each input with its origin, and its source; page by page."""
    book = load_any(next(p for p in sample_yards() if p.stem == sample), date.max)
    plan = make_plan(book, ON)
    first, *rest = pages_of(book, plan)
    assert "Yard plan for 15 Jun 2026" in first
    # A working that goes on in another column is parted there by no word of its own.
    told = " ".join(re.sub(r"^.*? \d+ of \d+ ", "", page) for page in rest)
    groups = groups_of(plan, spreading_plan(book, ON))
    for each in every_working(groups):
        said = words_of(each)
        most = (said.heading, *said.most) if said.most else ()
        for words in (each.label, each.value, each.formula, each.filled, *said.inputs, *most):
            assert flat(words) in told, words
    for source in sources_of(groups):
        assert flat(source.rstrip(". ")) in told, source
    assert "…" not in told
    assert [re.findall(r"\b(\d+) of (\d+)\b", page)[0] for page in rest] == [
        (str(number), str(len(rest) + 1)) for number in range(2, len(rest) + 2)
    ]


def test_without_workings_the_plan_is_one_page() -> None:
    """Title and pages as the printer gets them."""
    plan = make_plan(CORNER, ON)
    title, draws = sheet_document(CORNER, plan, "a4", workings=False)
    assert (title, len(draws)) == (sheet_title(plan), 1)
    assert title == "Larkspur Corner: yard plan for 15 Jun 2026"


def test_zones_left_out_have_their_tables_first() -> None:
    """Forty zones: each with its water and its feedings, before the workings begin."""
    book = yard_of(40)
    plan = make_plan(book, ON)
    pages = pages_of(book, plan)
    tables = [page for page in pages if "All zones of the plan" in page]
    assert len(tables) == 4
    assert pages[1:5] == tables
    for number in (1, 7, 20, 36, 37, 40):
        rows = [page for page in tables if re.search(rf"\b{number} Lawn {number}\b", page)]
        assert len(rows) == 2


def test_an_empty_yard_has_no_workings_and_says_nothing_wrong() -> None:
    """One more page, which has its head and its key."""
    book = yard_of(0)
    plan = make_plan(book, ON)
    pages = lay_workings(plan, "letter")
    assert len(pages) == 1
    assert "2 of 2" in pages_of(book, plan)[1]


def test_a_working_longer_than_a_column_goes_on_in_the_next() -> None:
    """Nothing is cut: the lines of all columns are those of the working."""
    many = tuple(Input(f"Reading {n}", f"{n}.00 in", "a plug of that day") for n in range(300))
    long = replace(working("1"), inputs=many)
    plan = make_plan(yard_of(1), ON)
    zone = replace(plan.zones[0], workings=(long,))
    pages = lay_workings(replace(plan, zones=(zone,)), "letter")
    told = " ".join(line.text for page in pages for column in page.columns for line in column)
    # What is not to break is told with blanks that do not.
    assert all(f"Reading {n} {n}.00\u00a0in (a plug of that day)" in told for n in range(300))


def test_the_command_writes_them(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`lawnbook sheet --workings` has the pages that the window shows."""
    target = tmp_path / "plan.pdf"
    arguments = ["sheet", str(CORNER_FILE), "-o", str(target), "--on", ON.isoformat()]
    assert main([*arguments, "--workings"]) == 0
    assert str(target) in capsys.readouterr().out
    document = pdfium.PdfDocument(target)
    _, draws = sheet_document(CORNER, make_plan(CORNER, ON), "letter", workings=True)
    assert len(document) == len(draws)
    document.close()
    assert main(arguments) == 0
    document = pdfium.PdfDocument(target)
    assert len(document) == 1
    document.close()
