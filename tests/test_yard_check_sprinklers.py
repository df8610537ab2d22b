"""Heads and cans that cannot be, or do not fit the yard as drawn: refused or asked about."""

from dataclasses import replace
from typing import Any

import pytest

from lawnbook.agronomy.coverage import PROFILES
from lawnbook.yard import consistency_sprinklers
from lawnbook.yard.check import check
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, new_notebook, with_tables
from lawnbook.yard.problems import asked, refused
from lawnbook.yard.records import CatchTest, Feature, Head, Record, Zone
from tests.conftest import TODAY

FRONT = Zone(
    id="z",
    name="Front",
    outline_ft=rectangle_ft((0, 0), 50, 20),
    holes_ft=(rectangle_ft((20, 5), 8, 8),),
)
HOUSE = Feature(id="house", kind="house", outline_ft=rectangle_ft((0, 25), 50, 30))
NOTEBOOK = with_tables(new_notebook("Home"), {"zones": [FRONT], "features": [HOUSE]})


def head(at_ft: tuple[float, float], **values: Any) -> Head:
    """A head of the front that throws 12 ft all round unless told otherwise."""
    return Head(id="h", zone="z", at_ft=at_ft, **values)


def questions(record: Record, notebook: Notebook = NOTEBOOK) -> list[str]:
    """What is asked about a record; nothing may be refused."""
    problems = check(record, notebook, TODAY)
    assert refused(problems) == ()
    return [problem.sentence for problem in asked(problems)]


@pytest.mark.parametrize(
    ("record", "words"),
    [
        (head((90, 10)), "stands 40 ft outside the yard as drawn, farther than it throws; move it"),
        (head((-40, -30)), "stands 50 ft outside the yard"),
        (
            head((55, -3), start_deg=90, sweep_deg=90),
            "throw does not reach Front; move it, turn its arc or choose another zone",
        ),
        (head((0, 10), start_deg=180, sweep_deg=180), "throw does not reach Front"),
        (head((24, 9), radius_ft=3), "throw does not reach Front"),
        (head((25, 40)), "throw does not reach Front"),
    ],
)
def test_a_head_that_misses_is_asked_about(record: Head, words: str) -> None:
    """Once, beside its place: beyond the yard, turned away, within a hole, behind the house."""
    (sentence,) = questions(record)
    assert words in sentence
    assert sentence.endswith("or keep it all the same.")
    (problem,) = check(record, NOTEBOOK, TODAY)
    assert problem.field == "at_ft"


@pytest.mark.parametrize(
    "record",
    [
        head((25, 10)),
        head((0, 0), start_deg=0, sweep_deg=90),
        head((0, 10), start_deg=0, sweep_deg=180),
        head((61, 10)),
        head((-5, -5), start_deg=0, sweep_deg=90),
        head((24, 9), radius_ft=5),
        head((25, 25), start_deg=90, sweep_deg=180),
    ],
)
def test_a_head_that_reaches_its_zone_passes(record: Head) -> None:
    """From outside too, as far as it throws."""
    assert questions(record) == []


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({"flow_gpm": 0.0}, "Flow of 0 gpm is too little; enter 0.01 gpm or more."),
        ({"radius_ft": 0.0}, "Radius of 0 ft is too little; enter 0.5 ft or more."),
        ({"radius_ft": -3.0}, "Radius of -3 ft is too little; enter 0.5 ft or more."),
        ({"radius_ft": float("nan")}, "Radius must be a finite number; enter the figure again."),
        ({"sweep_deg": 0.0}, "Arc of 0° is too little; enter 1° or more."),
        ({"sweep_deg": 400.0}, "Arc of 400° is more than it can be; enter 1 to 360°."),
        ({"start_deg": float("inf")}, "Arc start must be a finite number; enter the figure again."),
    ],
)
def test_what_no_head_can_be_is_refused_with_one_sentence(
    values: dict[str, Any], words: str
) -> None:
    """And nothing else is said of a head whose throw cannot be reckoned."""
    problems = check(head((25, 10), **values), NOTEBOOK, TODAY)
    assert [problem.severity for problem in problems] == ["refuse"]
    assert problems[0].sentence == words


def test_a_head_in_a_yard_that_is_not_drawn_passes_as_far_as_can_be_told() -> None:
    """A zone that does not exist, or whose outline is refused itself, is told of on its own."""
    lost = replace(head((500, 500)), zone="q")
    assert [p.field for p in check(lost, NOTEBOOK, TODAY)] == ["zone"]
    nan: Outline = ((0.0, 0.0), (float("nan"), 0.0), (0.0, 9.0))
    broken = with_tables(new_notebook("Home"), {"zones": [replace(FRONT, outline_ft=nan)]})
    assert questions(head((500, 500)), broken) == []


def cans(*places: tuple[float, float], depths: int | None = None) -> CatchTest:
    """A test with cans at places."""
    count = len(places) if depths is None else depths
    return CatchTest(
        id="t", zone="z", date=TODAY, run_minutes=20, depths_in=(0.2,) * count, at_ft=places
    )


@pytest.mark.parametrize(
    ("record", "words"),
    [
        (cans((5, 5), (60, 5)), "Can 2 stands outside Front; move what is misplaced"),
        (cans((24, 9), (5, 5)), "Can 1 stands outside Front"),
        (cans((5, 5), (60, 5), (70, 5)), "Cans 2, 3 stand outside Front"),
        (cans(*[(99.0, float(i)) for i in range(9)]), "Cans 1, 2, 3, 4, 5, 6 and more stand"),
    ],
)
def test_cans_outside_their_zone_are_asked_about(record: CatchTest, words: str) -> None:
    (sentence,) = questions(record)
    assert words in sentence
    assert "all the same" in sentence
    assert check(record, NOTEBOOK, TODAY)[0].field == "at_ft"


def test_cans_inside_or_by_the_edge_pass() -> None:
    """A can is some inches wide and is put down by hand; without places none can be astray."""
    assert questions(cans((0, 0), (50.3, 10), (20, 5), (27.8, 12.8))) == []
    assert questions(cans(depths=4)) == []


def test_one_can_is_asked_about_and_places_must_match() -> None:
    assert any("One can shows no evenness" in each for each in questions(cans((5, 5))))
    problems = check(cans((5, 5), (6, 6), depths=3), NOTEBOOK, TODAY)
    assert "Places are given for 2 of 3 cans" in problems[0].sentence


def test_the_profiles_that_may_be_named_are_those_of_the_map() -> None:
    assert set(consistency_sprinklers.PROFILES) == set(PROFILES) == {"cone", "flat", "doughnut"}
