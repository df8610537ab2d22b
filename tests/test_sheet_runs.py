"""The sheet's next runs: the timer's starts, hoses, new turf, dry years, the rule's days, steps."""

import re
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Literal

import pytest

from lawnbook.plan.make import make_plan
from lawnbook.plan.model import MonthWater, Plan, ZoneWater
from lawnbook.plan.water_model import Establishing, ProgramRun, TimerStart
from lawnbook.plan.workings import run_minutes_told
from lawnbook.sheet.pdf import sheet_bytes
from lawnbook.sheet.runs import (
    ZoneRun,
    cycles_told,
    first_start,
    further_starts,
    is_timed,
    next_depth_in,
    run_of,
    starts_told,
)
from lawnbook.sheet.seasons import often_told, seasons
from lawnbook.sheet.sections import water
from lawnbook.sheet.sections.due import due_by_hand
from lawnbook.sheet.sections.next_step import step_tellings
from lawnbook.sheet.sections.water_notes import cut_told
from lawnbook.sheet.table import Row
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import WaterRules
from tests.desk_sample import samples
from tests.pdf_reading import overlapping, read_page
from tests.plan_fixture import ON, yard_of

Weekday = Literal["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]
pytestmark = pytest.mark.usefixtures("qapp")
SAMPLES = samples()
CORNER = SAMPLES["larkspur_corner"]
BANK = SAMPLES["hollow_bank"]
TUE_SAT = WaterRules(id="water_rules", days=("Tue", "Sat"))
HALF_INCH_PT = 36.0
MIDNIGHT = datetime.fromisoformat("2026-06-17T00:00")


def clocked(book: Notebook) -> Notebook:
    """A notebook whose yard has all that clock times ask for."""
    return replace(book, yard=replace(book.yard, longitude_deg=-74.0, time_zone="America/New_York"))


def drying(book: Notebook, how: str) -> Notebook:
    """A notebook in a dry year: less water, or survival."""
    told = replace(book.yard, drought="less" if how == "less" else "survival", drought_share=0.7)
    return replace(book, yard=told)


def on_a_hose(book: Notebook, name: str, places: int) -> Notebook:
    """A notebook with one zone's sprinkler moved by hand."""
    key = next(key for key, zone in book.zones.items() if zone.name == name)
    moved = replace(book.zones[key], sprinklers="hose", hose_places=places)
    return replace(book, zones={**book.zones, key: moved})


def row_of(plan: Plan, book: Notebook, number: int) -> Row:
    """The tall row of a zone by its number."""
    telling = water.telling_of(plan, seasons(book.yard.latitude_deg), tall=True)
    return water.water_row(plan, book, plan.zones[number - 1], telling)


def timer(*minutes: int, cycles: int, at_hour: int | None = 3) -> tuple[TimerStart, ...]:
    """Starts of zone 1, half an hour apart."""
    return tuple(
        TimerStart(
            zone="Lawn 1",
            zone_id="zone0",
            number=1,
            cycle=min(place + 1, cycles),
            starts=None
            if at_hour is None
            else MIDNIGHT + timedelta(hours=at_hour, minutes=30 * place),
            minutes=each,
        )
        for place, each in enumerate(minutes)
    )


def told_run(
    *minutes: int,
    cycles: int = 1,
    places: int = 1,
    at_hour: int | None = 3,
    by_cycle: tuple[int, ...] = (),
) -> ZoneRun:
    """A run of so many parts."""
    return ZoneRun(
        on=ON,
        program="A",
        starts=timer(*minutes, cycles=cycles, at_hour=at_hour),
        parts=minutes,
        by_cycle=by_cycle or minutes[-cycles:],
        soak_minutes=30.0,
        depth_in=0.4,
        gallons=100.0,
        places=places,
    )


@pytest.mark.parametrize(
    ("run", "told"),
    [
        (told_run(20, 20, cycles=2), "2 × 20"),
        (told_run(46, cycles=1), "1 × 46"),
        (told_run(8, 12, 20, cycles=2), "8 + 12 + 20"),
        (told_run(3, 4, 7, 7, 7, by_cycle=(7, 7, 7, 7)), "4 × 7"),
        (told_run(9, 8, 8, 8, cycles=4), "4 × 8–9"),
        (told_run(38, cycles=1, places=4), "4 × 38"),
        (told_run(19, 19, cycles=2, places=4), "4 × (2 × 19)"),
        (told_run(), "–"),
    ],
)
def test_cycles_as_a_timer_is_set(run: ZoneRun, told: str) -> None:
    """Each opening of the valve has its minutes; a hose's places stand before them."""
    assert cycles_told(run) == told
    assert run.minutes == (run.places * sum(run.parts) or None)


def test_starts_stand_in_the_cell_or_under_the_row() -> None:
    """Three starts find room beside the figures; more are told in a line of their own."""
    three, four = told_run(8, 12, 20, cycles=2), told_run(8, 12, 20, 20, cycles=3)
    assert (first_start(three), further_starts(three)) == ("03:00", "03:30, 04:00")
    assert starts_told(three) == ""
    assert (first_start(four), further_starts(four)) == ("03:00", "and 3 more")
    assert starts_told(four) == "03:00 for 8 min; 03:30 for 12 min; 04:00, 04:30 for 20 min"
    unknown = told_run(8, 12, cycles=1, at_hour=None)
    assert (first_start(unknown), further_starts(unknown), starts_told(unknown)) == ("–", "", "")


@pytest.mark.parametrize("sample", SAMPLES)
@pytest.mark.parametrize("on", [ON, date(2026, 1, 10), date(2026, 9, 10), date(2026, 9, 20)])
def test_every_start_of_the_timer_stands_on_the_sheet(sample: str, on: date) -> None:
    """Zone by zone: the day, the clock time of the first start at least, and the minutes of all."""
    book = SAMPLES[sample]
    plan = make_plan(book, on)
    for paper in ("letter", "a4"):
        page = read_page(sheet_bytes(book, plan, "a4" if paper == "a4" else "letter"))
        assert page.pages == 1
        assert "…" not in page.flat
        assert overlapping(page.boxes) == []
        for program in plan.programs:
            for start in program.timer:
                assert start.starts is not None
                assert f"{start.starts:%H:%M}" in page.flat or start.cycle > 1
            for zone in (each for each in plan.zones if each.zone in program.zones):
                run = run_of(plan, book, zone)
                assert run.parts == tuple(
                    each.minutes for each in program.timer if each.zone_id == zone.zone_id
                )
                assert run.on == min(each.starts.date() for each in run.starts if each.starts)
                lines = (
                    f"{run.minutes} {cycles_told(run)}",
                    f"{run.depth_in:.2f} in {cycles_told(run)}",
                )
                assert any(line in page.flat for line in lines)


def test_zone_taken_along_early_is_told_with_what_it_gets_then() -> None:
    """Fewer minutes than its own next run, and so less depth and water, on the program's day."""
    plan = make_plan(CORNER, ON)
    front = plan.zones[0]
    run, own = run_of(plan, CORNER, front), front.next_run
    assert own is not None
    assert own.run_minutes is not None
    assert run.minutes is not None
    assert run.depth_in is not None
    assert run.gallons is not None
    assert run.on == date(2026, 6, 16) < own.date
    assert run.minutes < (run_minutes_told(own) or 0)
    assert run.depth_in / own.depth_in == pytest.approx(run.minutes / own.run_minutes)
    assert run.gallons / own.gallons == pytest.approx(run.minutes / own.run_minutes)
    row = row_of(plan, CORNER, 1)
    assert [cell.main for cell in row[1:5]] == ["16 Jun", first_start(run), "31", "8 + 23"]
    assert (row[1].detail, row[4].detail) == ("A, Tue", "thatch first")


def test_hose_is_told_by_places_and_stays_among_what_is_due() -> None:
    """No timer moves it, so its watering is a thing to do."""
    book = on_a_hose(BANK, "Seeded strip", 4)
    plan = make_plan(book, ON)
    row = row_of(plan, book, 4)
    run = plan.zones[3].next_run
    assert run is not None
    each = math_ceil(run.minutes_per_cycle)
    assert row[4].main == f"4 × ({run.cycles} × {each})"
    assert row[4].detail == "in 4 places"
    assert row[3].main == str(4 * (run.cycles or 0) * each)
    assert (row[2].main, row[2].detail) == ("–", "by hand")
    waterings = [item for item in due_by_hand(plan) if item.kind == "water"]
    assert next(item.zones for item in waterings if "Water" in item.what) == ("Seeded strip",)


def math_ceil(value: float | None) -> int:
    """A number of whole minutes, rounded up; 0 for none."""
    return 0 if value is None else -int(-value // 1)


def test_due_leaves_out_what_the_timer_waters_and_keeps_all_else() -> None:
    """With clock times the waterings stand in the table; without them they stay due."""
    book = clocked(yard_of(3))
    plan, blind = make_plan(book, ON), make_plan(yard_of(3), ON)
    assert all(is_timed(plan, zone) for zone in plan.zones)
    assert "water" not in {item.kind for item in due_by_hand(plan)}
    assert {"feed", "test"} <= {item.kind for item in due_by_hand(plan)}
    assert "feed" not in {item.kind for item in due_by_hand(plan, spread=True)}
    assert len(due_by_hand(blind)) == len(blind.due)
    autumn = make_plan(CORNER, date(2026, 9, 20))
    kept = [item.what for item in due_by_hand(autumn)]
    assert "Shut down the irrigation before frost" in kept


def test_depth_of_what_is_due_is_that_of_the_table() -> None:
    """Where the rule makes a watering late it is more than the month's usual depth."""
    book = replace(yard_of(2), water_rules=WaterRules(id="water_rules", days=("Sun",)))
    plan = make_plan(book, ON)
    (due,) = [item for item in due_by_hand(plan) if item.kind == "water"]
    depths = {f"{next_depth_in(zone):.2f}" for zone in plan.zones}
    assert len(depths) == 1
    assert due.what == f"Water {depths.pop()} in: Lawn 1, Lawn 2"
    assert {f"{zone.depth_in or 0:.2f}" for zone in plan.zones} != depths


def months(*days: int) -> tuple[MonthWater, ...]:
    """Months with these days between waterings."""
    return tuple(MonthWater(month=4 + n, interval_days=each) for n, each in enumerate(days))


@pytest.mark.parametrize(
    ("days", "rule", "told"),
    [
        ((2, 3), ("Tue", "Sat"), "Tue, Sat"),
        ((1,), ("Mon", "Wed", "Fri"), "3 a week"),
        ((4, 5), ("Tue", "Sat"), "every 4 days"),
        ((3, 9), ("Tue", "Sat"), "Tue, Sat"),
        ((1,), ("Mon", "Tue", "Wed", "Thu"), "4 a week"),
        ((1,), (), "daily"),
    ],
)
def test_seasons_say_what_the_rule_allows(
    days: tuple[int, ...], rule: tuple[Weekday, ...], told: str
) -> None:
    """Its days where its longest gap is longer than an interval, else the month's own."""
    rules = replace(TUE_SAT, days=rule)
    assert often_told(months(*days)[0], months(*days), rules) == told


def test_dry_year_and_survival_are_said_over_the_table() -> None:
    """In place of what the roots bear; dormant turf's depth has no target."""
    less, let_go = drying(CORNER, "less"), drying(CORNER, "survival")
    plan = make_plan(less, ON)
    assert water.caption(plan, less).startswith("dry year: each watering gives back 70\u00a0%")
    plan = make_plan(let_go, ON)
    assert water.caption(plan, let_go) == water.SURVIVAL_CAPTION
    assert step_tellings(plan.zones[0]) == ()
    assert water.caption(make_plan(CORNER, ON), CORNER) == water.CAPTION_TEXT


def test_new_turf_shows_the_light_rule() -> None:
    """Until when, how often on a day, and that its season's days come once it has rooted."""
    plan = make_plan(BANK, date(2026, 9, 20))
    strip = plan.zones[3]
    assert isinstance(strip.establishing, Establishing)
    row = row_of(plan, BANK, 4)
    assert row[0].detail == "new seed until 28 Oct"
    assert (row[4].main, row[4].detail) == ("2 × 6", "times a day")
    assert [cell.detail == "if rooted" for cell in row[-3:]] == [False, False, True]


def test_next_step_tells_what_plugs_must_show() -> None:
    """The first step that is not borne; roots needed and there are never told alike."""
    plan = make_plan(CORNER, ON)
    front = plan.zones[0]
    assert front.stretch is not None
    step = next(each for each in front.stretch.steps if not each.borne)
    told = step_tellings(front)
    assert told == (
        "next step: every 4 days when plugs show 8.0 in of roots (6.5 now)",
        "next: every 4 days at 8.0 in of roots (6.5 now)",
    )
    assert "(6.5 in now)" in front.stretch.words
    near = replace(front, rooted_soil_in=step.rooted_soil_needed_in - 0.02)
    seen = re.findall(r"\d+\.\d+", step_tellings(near)[0])
    assert len(set(seen)) == 2
    bearing = tuple(replace(each, borne=True) for each in front.stretch.steps)
    assert step_tellings(replace(front, stretch=replace(front.stretch, steps=bearing))) == ()


def night(given: int, needed: int, allowed: int | None) -> ProgramRun:
    """A program of which so many minutes find time."""
    opens = MIDNIGHT + timedelta(hours=4)
    return ProgramRun(
        program="A",
        zones=("Lawn 1",),
        morning=date(2026, 6, 16),
        starts=opens if given else None,
        ends=opens + timedelta(minutes=given) if given else None,
        sunrise=None,
        elapsed_minutes=needed,
        allowed_minutes=allowed,
        shortfall_minutes=max(0, needed - (allowed or 0)),
        timer=timer(20, cycles=1) if given else (),
        words="",
    )


@pytest.mark.parametrize(
    ("program", "told"),
    [
        (night(80, 120, 83), ["Program A is cut short: it needs 2 h, and your rule gives 80 min."]),
        (night(0, 760, 83), ["Program A finds no time: it needs 12 h 40 min."]),
        (night(80, 120, None), ["Program A is cut short: it needs 2 h, and a day gives 80 min."]),
        (night(60, 60, 90), []),
        (night(120, 120, None), []),
    ],
)
def test_program_that_is_cut_short_says_so(program: ProgramRun, told: list[str]) -> None:
    """Never where all of it runs, be it from before sunset."""
    assert list(cut_told([program])) == told


def ruled_nights() -> Notebook:
    """The corner's yard under a rule of two evenings, a hose among its zones."""
    book = on_a_hose(CORNER, "West strip", 3)
    hours = ("18:00-09:00",)
    return replace(book, water_rules=replace(TUE_SAT, hours=hours))


LOADED = {
    "rule and hose": (ruled_nights(), ON),
    "rule in autumn": (ruled_nights(), date(2026, 9, 20)),
    "dry year": (drying(CORNER, "less"), ON),
    "survival before frost": (drying(CORNER, "survival"), date(2026, 9, 20)),
    "many starts": (
        replace(
            clocked(yard_of(3)),
            zones={
                key: replace(zone, soil="clay", slope_pct=15.0, precipitation_in_per_h=1.5)
                for key, zone in yard_of(3).zones.items()
            },
        ),
        ON,
    ),
    "eleven with times": (clocked(yard_of(11)), ON),
    "forty with times": (clocked(yard_of(40)), ON),
}


@pytest.mark.parametrize("case", LOADED)
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_loaded_sheets_stay_whole(case: str, paper: str) -> None:
    """One page within its margins, nothing over anything or cut, every caution to its end."""
    book, on = LOADED[case]
    plan = make_plan(book, on)
    page = read_page(sheet_bytes(book, plan, "a4" if paper == "a4" else "letter"))
    assert page.pages == 1
    assert overlapping(page.boxes) == []
    assert "…" not in page.flat
    assert max(box.bottom for box in page.boxes) <= page.height - HALF_INCH_PT + 0.5
    for caution in plan.cautions:
        assert " ".join(caution.split()) in page.flat


def test_many_starts_are_all_on_the_page() -> None:
    """Six starts of each zone, in a line under its row."""
    book, on = LOADED["many starts"]
    plan = make_plan(book, on)
    flat = read_page(sheet_bytes(book, plan)).flat
    runs = [run_of(plan, book, zone) for zone in plan.zones]
    assert all(len(run.starts) > 3 for run in runs)
    assert all(starts_told(run) in flat for run in runs)


def zone_by_name(plan: Plan, name: str) -> ZoneWater:
    """A zone of a plan."""
    return next(zone for zone in plan.zones if zone.zone == name)


def test_zone_that_its_program_leaves_out_keeps_its_own_day() -> None:
    """It has used too little yet: its day and its program's letter stand, no start."""
    plan = make_plan(CORNER, ON)
    strip = zone_by_name(plan, "West strip")
    run = run_of(plan, CORNER, strip)
    assert not is_timed(plan, strip)
    assert (run.on, run.program, first_start(run)) == (strip.next_allowed, "B", "–")
    row = row_of(plan, CORNER, 4)
    assert [row[2].main, row[2].detail] == ["–", "skips 16 Jun"]
