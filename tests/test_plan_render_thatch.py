"""What the plugs show as text and JSON: means, findings, next plugs; many spots, or none."""

import json
import re
from collections.abc import Iterator
from datetime import date, timedelta

from lawnbook.plan.make import make_plan
from lawnbook.plan.render import plan_json, plan_text
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Core, Spot
from tests.plan_yards import SQUARE_1000, core, spot, yard, zone

NOW = date(2026, 6, 15)
DATES = tuple(date(2023, 4, 10) + timedelta(days=182 * n) for n in range(6))


def book(spots: int, zones: int = 1, dates: int = 6) -> Notebook:
    """So many spots, thinning side by side, parted among zones that lie in a row."""
    lawns = [
        zone(
            id=f"z{n}", name=f"Lawn {n}", outline_ft=tuple((x + 60 * n, y) for x, y in SQUARE_1000)
        )
        for n in range(zones)
    ]
    marks = [_spot(n, f"z{n % zones}") for n in range(spots)]
    return yard(*lawns, spots=marks, cores=[c for n in range(spots) for c in _cores(n, dates)])


def _spot(number: int, zone_id: str) -> Spot:
    return spot(id=f"s{number}", name=f"peg {number}", zone=zone_id, rank=number)


def _cores(number: int, dates: int) -> Iterator[Core]:
    for turn, on in enumerate(DATES[:dates]):
        thatch = 1.2 - 0.08 * turn + 0.01 * ((3 * number + 2 * turn) % 5)
        yield core(on, thatch, id=f"c{number}-{turn}", spot=f"s{number}", rank=6 * number + turn)


def flat(text: str) -> str:
    """The text in one line."""
    return re.sub(r"[ \n]+", " ", text)


def section(text: str, heading: str) -> str:
    """The lines below a heading; empty where there is no such heading."""
    parts = re.split(r"\n\n(?=[A-Z ]{3,})", text)
    found = [each for each in parts if each.startswith(heading)]
    assert len(found) < 2
    return found[0] if found else ""


def test_the_mean_of_zones_and_yard_is_told_with_its_interval() -> None:
    plan = make_plan(book(4, zones=2), NOW)
    means = section(plan_text(plan), "THATCH IN THE MEAN")
    assert all(len(line) <= 100 for line in means.splitlines())
    shown = [each.evidence for each in plan.zone_thatch]
    assert plan.yard_thatch is not None
    for evidence in (*shown, plan.yard_thatch.evidence):
        assert evidence.verdict in flat(means)
        assert evidence.detectable_in is not None
        assert f"{evidence.detectable_in:.2f}" in means
    assert "\nwhole yard " in means


def test_a_single_spot_is_not_told_again_as_a_mean() -> None:
    assert section(plan_text(make_plan(book(1), NOW)), "THATCH IN THE MEAN") == ""


def test_where_to_pull_next_names_day_spot_hour_and_reminder() -> None:
    due = section(plan_text(make_plan(book(2, dates=1), date(2026, 9, 1))), "WHERE TO PULL NEXT")
    assert "1 Sep 2026 peg 0 (Lawn 0): " in flat(due)
    assert "One plug only" in flat(due)
    assert "o'clock, 12 in out" in flat(due)


def test_findings_are_told_once_the_warnings_first() -> None:
    plan = make_plan(book(2), NOW)
    said = section(plan_text(plan), "WHAT THE PLUGS SAY")
    assert plan.findings
    assert plan.findings[0].sentence in flat(said)
    marks = [line[0] for line in said.splitlines()[1:] if line[0] in "!-"]
    assert marks == sorted(marks)


def test_four_hundred_spots_keep_the_text_short_and_within_its_columns() -> None:
    plan = make_plan(book(400, zones=4, dates=3), NOW)
    text = plan_text(plan)
    assert all(len(line) <= 100 for line in text.splitlines())
    due = section(text, "WHERE TO PULL NEXT")
    assert "and 388 more spots" in due
    assert len(section(text, "WHAT THE PLUGS SAY").splitlines()) < 40
    assert len(plan.thatch) == 400


def test_without_plugs_nothing_of_them_is_told() -> None:
    text = plan_text(make_plan(yard(), NOW))
    for heading in ("THATCH", "WHAT THE PLUGS SAY", "WHERE TO PULL NEXT"):
        assert section(text, heading) == ""
    waiting = plan_text(make_plan(yard(spots=[spot()]), NOW))
    assert "gate: Cannot say yet: no plug with a thatch reading" in flat(waiting)
    assert "nan" not in waiting.lower().split()


def test_json_holds_the_evidence_in_plain_values() -> None:
    plan = make_plan(book(3), NOW)
    told = json.loads(json.dumps(plan_json(plan), allow_nan=False))
    evidence = told["zone_thatch"][0]["evidence"]
    assert evidence["ci95"] == list(plan.zone_thatch[0].evidence.ci95 or ())
    assert evidence["points"][0]["date"] == DATES[0].isoformat()
    assert told["thatch"][0]["evidence"]["kind"] == "spot"
    assert {"yard_thatch", "findings", "next_plugs", "care"} <= told.keys()
    assert told["next_plugs"][0]["place"]["ring_in"] == 12
