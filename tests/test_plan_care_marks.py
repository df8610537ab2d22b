"""Care entries as marks over the trend: which ones at which place, in words and in date order."""

from datetime import date

import pytest

from lawnbook.plan.care_marks import CARE_KINDS, care_marks
from lawnbook.plan.make import make_plan
from lawnbook.plan.plug_model import Place
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Care
from tests.plan_yards import spot, yard, zone

NOW = date(2026, 6, 15)
SPRING, AUTUMN, LATER = date(2025, 4, 1), date(2025, 9, 1), date(2026, 9, 1)


def care(name: str, on: date, kind: str = "aeration", *zones: str, note: str = "") -> Care:
    """An entry of care."""
    return Care(id=name, date=on, kind=kind, zones=zones, note=note)


def book() -> Notebook:
    """Two zones with a spot each, a spot outside, and care in one zone, the other and all."""
    return yard(
        zone(),
        zone(id="z2", name="Back", outline_ft=((0.0, 50.0), (9.0, 50.0), (9.0, 70.0))),
        spots=[
            spot(),
            spot(id="s2", name="tap", zone="z2"),
            spot(id="s3", name="lane", zone=None, at_ft=(500.0, 500.0)),
        ],
        care=[
            care("all", AUTUMN, "watering habit"),
            care("front", SPRING, "aeration", "z1", note="hollow tines"),
            care("back", SPRING, " topdressing ", "z2"),
            care("both", LATER, "aeration", "z1", "z2"),
            care("mow", AUTUMN, "Mowing", "z1"),
        ],
    )


@pytest.mark.parametrize(
    ("place", "ids"),
    [
        (None, ["front", "back", "all"]),
        (Place("yard", ""), ["front", "back", "all"]),
        (Place("zone", "z1"), ["front", "all"]),
        (Place("spot", "s2"), ["back", "all"]),
        (Place("spot", "s3"), ["all"]),
        (Place("spot", "gone"), ["all"]),
    ],
)
def test_a_place_has_its_own_care_and_the_whole_yards(place: Place | None, ids: list[str]) -> None:
    assert [mark.care_id for mark in care_marks(book(), place, NOW)] == ids


def test_a_mark_tells_what_where_and_the_note() -> None:
    marks = {mark.care_id: mark for mark in care_marks(book(), None, date(2027, 1, 1))}
    assert (marks["front"].kind, marks["front"].where) == ("aeration", "Front")
    assert marks["front"].note == "hollow tines"
    assert (marks["back"].kind, marks["all"].where) == ("topdressing", "whole yard")
    assert marks["both"].where == "Front and Back"
    assert "mow" not in marks


def test_many_zones_are_counted() -> None:
    zones = [zone(id=f"z{n}", name=f"Zone {n}") for n in range(5)]
    everywhere = care("c", SPRING, "aeration", *(each.id for each in zones))
    assert care_marks(yard(*zones, care=[everywhere]), None, NOW)[0].where == (
        "Zone 0, Zone 1 and 3 more"
    )


def test_the_plan_holds_all_marks_up_to_its_day() -> None:
    assert make_plan(book(), NOW).care == care_marks(book(), None, NOW)
    assert make_plan(book(), date(2025, 1, 1)).care == ()


def test_the_kinds_offered_are_told_once_each_in_plain_words() -> None:
    assert len(set(CARE_KINDS)) == len(CARE_KINDS) == 11
    assert all(kind == kind.strip().lower() for kind in CARE_KINDS)
