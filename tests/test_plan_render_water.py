"""The further parts of the water as text: next watering, timer, stretch, year, coverage."""

import json
import re
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any

from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.plan.render import plan_json, plan_text
from lawnbook.plan.water_model import (
    Establishing,
    MethodDays,
    NextRun,
    ProgramRun,
    RainCredit,
    Stretch,
    StretchStep,
    TimerStart,
    YearWater,
    ZoneCoverage,
    ZoneYear,
)
from lawnbook.yard.notebook import Notebook
from tests.plan_yards import JUNE, yard, zone


def two_zones() -> Notebook:
    """A yard of two zones, the second with a long name."""
    return yard(
        zone(precipitation_in_per_h=1.2),
        zone(id="z2", name="A strip with a name that goes on and on beside the long drive"),
    )


def next_run(**values: Any) -> NextRun:
    """A next watering of two cycles."""
    run = NextRun(
        date=date(2026, 6, 17),
        depth_in=0.41,
        share_used=0.4,
        stress=0.97,
        wets_in=5.2,
        past_roots_in=0.03,
        run_minutes=21.4,
        cycles=2,
        minutes_per_cycle=10.7,
        soak_minutes=32.0,
        gallons=312.4,
        cost=1.25,
    )
    return replace(run, **values)


def with_water(plan: Plan, *changes: dict[str, Any], programs: tuple[ProgramRun, ...] = ()) -> Plan:
    """The plan whose zones have further parts of their water, by hand."""
    zones = tuple(replace(z, **c) for z, c in zip(plan.zones, changes, strict=True))
    return replace(plan, zones=zones, programs=programs)


def bare(zone: ZoneWater) -> dict[str, Any]:
    """No parts beyond the contract's."""
    parts = (
        *("next_run", "sooner_run", "today_run", "rain_credit"),
        *("establishing", "stretch", "coverage", "water_year"),
    )
    return dict.fromkeys(parts)


def lines_under(text: str, heading: str) -> list[str]:
    """The lines of a section, unwrapped: a sentence is one line."""
    body = text.split(f"\n{heading}", 1)[1].split("\n\n", 1)[0].split("\n", 1)[1]
    return body.replace("\n  ", " ").splitlines()


FURTHER = ("NEXT WATERING", "TIMER", "NEW TURF", "STRETCHING", "WATER OF A YEAR", "COVERAGE")


def test_parts_that_are_not_known_leave_no_heading() -> None:
    plan = make_plan(two_zones(), JUNE)
    text = plan_text(with_water(plan, *map(bare, plan.zones)))
    assert [words for words in FURTHER if words in text] == []
    assert "cost" not in text


def test_the_next_watering_is_told_with_a_sooner_day_and_the_rain() -> None:
    plan = make_plan(two_zones(), JUNE)
    first, second = map(bare, plan.zones)
    sooner = next_run(date=JUNE, depth_in=0.2, minutes_per_cycle=5.0)
    rain = RainCredit(fallen_in=0.62, counted_in=0.5, days_moved=3)
    first |= {"next_run": next_run(), "sooner_run": sooner, "rain_credit": rain}
    second |= {"next_run": next_run(run_minutes=None, cost=None), "rain_credit": rain}
    lines = lines_under(plan_text(with_water(plan, first, second)), "NEXT WATERING")
    assert re.split(r"\s{2,}", lines[0]) == [
        *("zone", "day", "depth", "run", "soak", "gal", "cost"),
        *("used up", "of full use", "wets", "past roots"),
    ]
    assert re.split(r"\s{2,}", lines[1].strip()) == [
        *("1 Front", "17 Jun", "0.41", "2×11 min", "32", "312", "1.25"),
        *("40\u00a0%", "97\u00a0%", "5.2", "0.03"),
    ]
    assert re.search(r" 17 Jun +0.41 +– +32 +312 +– ", lines[2])
    assert lines[3:] == [
        "- Front: or sooner, on 15 Jun: 0.20 in, 2×5 min.",
        (
            "- All zones: rain of the last seven days, 0.62 in, of which 0.50 in counted; it moved "
            "the next watering by 3 days."
        ),
    ]


def program(name: str, *starts: tuple[str, str | None, int]) -> ProgramRun:
    """A program by hand: zone, clock time and minutes of each start."""
    timer = tuple(
        TimerStart(
            zone=who,
            zone_id=who,
            number=ord(who[0]) - 64,
            cycle=place + 1,
            starts=None if at is None else datetime.fromisoformat(f"2026-06-16 {at}"),
            minutes=minutes,
        )
        for place, (who, at, minutes) in enumerate(starts)
    )
    return ProgramRun(
        program=name,
        zones=tuple(dict.fromkeys(who for who, _, _ in starts)),
        morning=date(2026, 6, 16),
        starts=timer[0].starts,
        ends=None,
        sunrise=None,
        elapsed_minutes=66,
        allowed_minutes=None,
        shortfall_minutes=0,
        timer=timer,
        words="Done by sunrise at 05:53.",
    )


def test_the_timer_has_a_line_for_each_zone_and_length() -> None:
    plan = make_plan(two_zones(), JUNE)
    many = [("Burrow", f"{hour:02}:{half}0", 9) for hour in range(4) for half in (0, 3)]
    runs = (
        program("A", ("Alder", "04:00", 5), *many, ("Alder", "04:40", 11), ("Alder", "05:30", 11)),
        program("", ("Cedar", None, 7), ("Cedar", None, 7)),
    )
    text = plan_text(with_water(plan, *map(bare, plan.zones), programs=runs))
    lines = [re.split(r"\s{2,}", line) for line in lines_under(text, "TIMER")]
    assert lines == [
        ["program", "night to", "zone", "run", "starts"],
        ["A", "16 Jun", "1 Alder", "1×5 min", "04:00"],
        ["A", "16 Jun", "1 Alder", "2×11 min", "04:40, 05:30"],
        ["A", "16 Jun", "2 Burrow", "6×9 min", "00:00, 00:30, 01:00, 01:30, 02:00, 02:30"],
        ["A", "16 Jun", "2 Burrow", "2×9 min", "03:00, 03:30"],
        ["–", "16 Jun", "3 Cedar", "2×7 min", "–"],
        ["- Program A: Done by sunrise at 05:53."],
        ["- Done by sunrise at 05:53."],
    ]


def test_new_turf_is_told_by_its_rule() -> None:
    plan = make_plan(two_zones(), JUNE)
    first, second = map(bare, plan.zones)
    first["establishing"] = Establishing(
        how="sod",
        since=JUNE,
        until=JUNE + timedelta(days=28),
        times_a_day=1,
        every_days=1,
        depth_in=0.15,
        run_minutes=9.0,
        words="New sod: 0.15 in every day until 13 Jul.",
    )
    lines = lines_under(plan_text(with_water(plan, first, second)), "NEW TURF")
    assert lines == ["- Front: New sod: 0.15 in every day until 13 Jul."]


def test_the_stretch_tells_the_step_borne_the_next_and_the_last() -> None:
    plan = make_plan(two_zones(), JUNE)
    first, second = map(bare, plan.zones)
    steps = [
        StretchStep(
            interval_days=days,
            depth_in=0.18 * days,
            rooted_soil_needed_in=2.6 * days,
            root_depth_needed_in=2.6 * days + 0.7,
            borne=days <= 2,
            share_used_now=0.2 * days,
            stress_now=1.0 - 0.1 * days,
            expected=None if days <= 2 or days == 5 else date(2027, 1, 7),
        )
        for days in range(1, 6)
    ]
    first["stretch"] = Stretch(
        month=6,
        etc_in_per_day=0.18,
        steps=tuple(steps),
        growth_in_per_year=1.1,
        plug_due=date(2026, 10, 1),
        inch_wets_in=6.0,
        inch_past_roots_in=0.5,
        words="",
    )
    lines = lines_under(plan_text(with_water(plan, first, second)), "STRETCHING")
    assert [re.split(r"\s{2,}", line)[1:] for line in lines[1:4]] == [
        ["2 d", "0.36", "5.9", "borne now", "40\u00a0%", "80\u00a0%", "–"],
        ["3 d", "0.54", "8.5", "60\u00a0%", "70\u00a0%", "7 Jan 2027"],
        ["5 d", "0.90", "13.7", "100\u00a0%", "50\u00a0%", "–"],
    ]
    assert lines[4:] == ["- Front: the next plugs, on 1 Oct 2026, may allow the next step."]


def year(gallons: float, **values: Any) -> YearWater:
    """A year's water."""
    told = YearWater(
        waterings=48,
        gallons=gallons,
        gallons_by_month=(gallons / 12,) * 12,
        cost=None,
        gross_in=20.0,
        wets_soil_in=17.6,
        kept_by_thatch_in=2.4,
        runoff_in=0.0,
        drained_in=0.4,
        stress_days=9,
        driest_share_used=0.6,
    )
    return replace(told, **values)


def test_the_year_stands_beside_the_habit_where_one_is_known() -> None:
    plan = make_plan(two_zones(), JUNE)
    first, second = map(bare, plan.zones)
    alone = ZoneYear(
        basis="the weather of the year to 15 Jun 2026",
        plan=year(12000.0),
        habit=None,
        full=None,
        saved_gallons=None,
        words="",
    )
    first["water_year"] = replace(
        alone,
        plan=year(12000.0, cost=37.2),
        habit=year(15000.4, wets_soil_in=10.0),
        full=year(14000.0),
        saved_gallons=3000.4,
    )
    second["water_year"] = alone
    lines = lines_under(plan_text(with_water(plan, first, second)), "WATER OF A YEAR")
    assert re.split(r"\s{2,}", lines[0]) == [
        *("zone", "waterings", "gal", "cost", "into soil", "dry days", "not dry year"),
        *("habit", "into soil", "saved"),
    ]
    assert re.split(r"\s{2,}", lines[1])[1:] == [
        *("48", "12,000", "37.20", "88\u00a0%", "9", "14,000", "15,000", "50\u00a0%", "3,000")
    ]
    assert re.split(r"\s{2,}", lines[2].strip())[-8:] == [
        *("12,000", "–", "88\u00a0%", "9", "–", "–", "–", "–")
    ]
    assert lines[3:] == ["- All zones: reckoned with the weather of the year to 15 Jun 2026."]
    second["water_year"] = None
    first["water_year"] = replace(alone, basis="a usual year by the months' means")
    lines = lines_under(plan_text(with_water(plan, first, second)), "WATER OF A YEAR")
    assert "habit" not in lines[0]
    assert lines[2:] == ["- Front: reckoned with a usual year by the months' means."]


def test_coverage_has_a_line_for_each_zone_with_heads() -> None:
    plan = make_plan(two_zones(), JUNE)
    first, second = map(bare, plan.zones)
    first["coverage"] = ZoneCoverage(
        heads=6,
        neighbours=2,
        without_flow=1,
        mean_in_per_h=1.124,
        du_lq=0.712,
        du_lh=0.801,
        cu=0.795,
        wasted_share=0.14,
        dry_share=0.05,
        wet_share=0.0,
        driest_at_ft=(1.0, 2.0),
        wettest_at_ft=(3.0, 4.0),
    )
    lines = lines_under(plan_text(with_water(plan, first, second)), "COVERAGE")
    assert [re.split(r"\s{2,}", line) for line in lines[1:]] == [
        [
            *("1 Front", "5 of 6", "1.12", "0.71", "0.80", "0.80"),
            *("14\u00a0%", "5\u00a0%", "0\u00a0%"),
        ]
    ]


def test_where_the_days_eto_is_from_is_counted() -> None:
    plan = make_plan(two_zones(), JUNE)
    days = (MethodDays(method="Hargreaves", days=300), MethodDays(method="filled", days=12))
    assert (
        "Days of weather by where their ETo is from: 300 Hargreaves, 12 filled with the month's "
        "mean."
    ) in re.sub(r"\s+", " ", plan_text(replace(plan, eto_days=days)))


def test_every_further_part_fits_a_terminal_and_is_plain_json() -> None:
    plan = make_plan(two_zones(), JUNE)
    first, second = map(bare, plan.zones)
    large = next_run(depth_in=12.34, gallons=1234567.0, cost=12345.67, minutes_per_cycle=123.0)
    second |= {"next_run": large, "sooner_run": large}
    first |= {"water_year": None}
    long = "A program whose name its owner has written out in full for all to read"
    full = with_water(plan, first, second, programs=(program(long, ("A" * 60, "04:00", 5)),))
    assert all(len(line) <= 100 for line in plan_text(full).splitlines())
    told = json.loads(json.dumps(plan_json(full), allow_nan=False))
    assert told["programs"][0]["timer"][0]["starts"] == "2026-06-16T04:00:00"
    assert told["zones"][1]["next_run"]["date"] == "2026-06-17"
