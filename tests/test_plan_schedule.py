"""The night's timetable: valves one at a time, soaks kept, done by sunrise, within the rule."""

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from astral import Observer
from astral.sun import sunrise as reference_sunrise
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.precipitation import run_minutes
from lawnbook.agronomy.soil import split_cycles
from lawnbook.plan.model import ZoneWater
from lawnbook.plan.rotation import Load, Part, Slot, cut_to, elapsed_minutes, rotation
from lawnbook.plan.schedule import programs_of
from lawnbook.plan.water import zone_water
from lawnbook.plan.water_model import Establishing, NextRun, ProgramRun, TimerStart
from lawnbook.plan.zone_facts import Setting, ZoneFacts, facts_of, setting_of
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import WaterRules, Zone
from tests.plan_yards import JUNE, core, spot, steady, yard, zone

MONDAY = JUNE
TUESDAY = date(2026, 6, 16)
"""15 June 2026 is a Monday (from memory)."""

DENVER = ZoneInfo("America/Denver")
PLACE: dict[str, Any] = {
    "latitude_deg": 41.2,
    "longitude_deg": -111.9,
    "time_zone": "America/Denver",
}
MINUTE = timedelta(minutes=1)

# 0.7 in/h on loam: 0.30 in stand after 60 × 0.30 ÷ 0.35 = 51 min; 1.4 in/h after 17 min.
SLOW, FAST = 0.7, 1.4


def placed(*zones: Zone, rules: WaterRules | None = None, **values: Any) -> Notebook:
    """A yard whose place and clock are known, under a watering rule."""
    book = yard(*zones, climate=steady(0.2))
    settings = replace(book.yard, **{**PLACE, **values})
    return replace(book, yard=settings, water_rules=rules or book.water_rules)


def rule(*hours: str, **days: Any) -> WaterRules:
    """A local rule as the owner types it; `days` as in ("Tue", "Sat")."""
    return replace(WaterRules(id="water_rules"), hours=hours, **days)


def lawn(name: str, rate: float | None = FAST, **values: Any) -> Zone:
    """A zone of loam with a typed rate and water spread evenly enough to be told apart."""
    return zone(id=name, name=name, precipitation_in_per_h=rate, **values)


def next_run(facts: ZoneFacts, on: date, depth_in: float) -> NextRun:
    """A watering of some depth by the contract's formulas."""
    rate = facts.rate.in_per_h
    run = run_minutes(depth_in, rate, facts.multiplier) if rate is not None else None
    cycles = None
    if run is not None and rate is not None:
        cycles = split_cycles(run, rate, facts.soil, facts.zone.slope_pct)
    return NextRun(
        date=on,
        depth_in=depth_in,
        share_used=0.4,
        stress=1.0,
        wets_in=6.0,
        past_roots_in=0.0,
        run_minutes=run,
        cycles=None if cycles is None else cycles.count,
        minutes_per_cycle=None if cycles is None else cycles.minutes_each,
        soak_minutes=None if cycles is None else cycles.soak_minutes,
        gallons=100.0,
        cost=None,
    )


def programs(
    book: Notebook, due: Sequence[date | None], depth_in: float = 0.4, on: date = MONDAY
) -> tuple[ProgramRun, ...]:
    """The programs of a yard whose zones are due on given days."""
    setting = setting_of(book, on)
    facts = [facts_of(setting, each, n) for n, each in enumerate(book.zones.values(), 1)]
    zones = [_due(setting, each, when, depth_in) for each, when in zip(facts, due, strict=True)]
    return programs_of(setting, zones, facts)


def _due(setting: Setting, facts: ZoneFacts, on: date | None, depth_in: float) -> ZoneWater:
    water = replace(zone_water(setting, facts), establishing=None, next_allowed=on)
    run = None if on is None else next_run(facts, on, depth_in)
    return replace(water, next_run=run)


def ends(start: TimerStart) -> datetime:
    """When a valve closes, by the yard's clocks."""
    assert start.starts is not None
    return start.starts + start.minutes * MINUTE


def told(program: ProgramRun) -> list[str]:
    """A timer's lines as "Front 04:10 12"."""
    return [f"{each.zone} {each.starts:%H:%M} {each.minutes}" for each in program.timer]


# The rotation


def load(cycles: int, minutes: int, rest: int) -> Load:
    """A zone of equal cycles."""
    return tuple(Part(cycle, minutes, rest) for cycle in range(1, cycles + 1))


def order(slots: Sequence[Slot]) -> list[tuple[int, int]]:
    """Whose part starts when."""
    return [(slot.load, slot.at_minute) for slot in slots]


def test_soaks_are_filled_by_the_other_zones_in_the_owners_order() -> None:
    """By hand: 10 min each, 15 min of soak; two others leave five minutes more than that."""
    slots = rotation([load(2, 10, 15), load(2, 10, 15), load(2, 10, 15)])
    assert order(slots) == [(0, 0), (1, 10), (2, 20), (0, 30), (1, 40), (2, 50)]
    assert elapsed_minutes(slots) == 60


def test_a_soak_that_nobody_fills_is_waited_for() -> None:
    slots = rotation([load(3, 10, 25), load(2, 5, 5)])
    assert order(slots) == [(0, 0), (1, 10), (0, 35), (1, 45), (0, 70)]
    assert elapsed_minutes(slots) == 80


def test_zones_of_one_cycle_fill_the_soaks_of_another_where_that_is_sooner() -> None:
    """By hand: in rounds it takes 10 + 3 × 30, then 10, a wait of 30, 10, 30, 10: 190 min."""
    slots = rotation([load(4, 10, 30), *[load(1, 30, 0)] * 3])
    assert order(slots) == [(0, 0), (1, 10), (0, 40), (2, 50), (0, 80), (3, 90), (0, 120)]
    assert elapsed_minutes(slots) == 130


def test_for_a_few_minutes_the_owners_order_is_not_left() -> None:
    """By hand: 10, 10, a wait of 12, 10; with the second zone first it is 10, 10, 2, 10."""
    slots = rotation([load(1, 10, 0), load(2, 10, 12)])
    assert order(slots) == [(0, 0), (1, 10), (1, 32)]
    assert elapsed_minutes(slots) == 42


LOADS = st.lists(
    st.builds(load, st.integers(1, 5), st.integers(1, 40), st.integers(0, 90)), max_size=6
)


@given(LOADS)
def test_one_valve_at_a_time_and_every_soak_is_kept(loads: list[Load]) -> None:
    slots = rotation(loads)
    for before, after in pairwise(slots):
        assert after.at_minute >= before.ends
    for index, parts in enumerate(loads):
        own = [slot for slot in slots if slot.load == index]
        assert [slot.part for slot in own] == list(parts)
        for before, after in pairwise(own):
            assert after.at_minute >= before.ends + before.part.rest_minutes
    busy = sum(part.minutes for parts in loads for part in parts)
    assert elapsed_minutes(slots) >= busy
    alone = max((elapsed_minutes(rotation([each])) for each in loads), default=0)
    assert elapsed_minutes(slots) >= alone
    assert elapsed_minutes(slots) <= sum(elapsed_minutes(rotation([each])) for each in loads)


@given(LOADS, st.integers(0, 400))
def test_what_is_cut_fits_and_nothing_grows(loads: list[Load], minutes: int) -> None:
    cut = cut_to(loads, minutes)
    assert elapsed_minutes(rotation(cut)) <= minutes
    if elapsed_minutes(rotation(loads)) <= minutes:
        assert cut == tuple(loads)
    for before, after in zip(loads, cut, strict=True):
        assert sum(part.minutes for part in after) <= sum(part.minutes for part in before)


# The night without a rule


def test_a_night_by_hand() -> None:
    """Two zones of 2 cycles, one after the other, the last valve closed at sunrise.

    0.4 in × 1.266 (DU 0.65) at 1.4 in/h takes 21.7 min: two of 10.85, told as 11, soaking
    10.85 × (1.4 ÷ 0.35 − 1) = 32.6, told as 33.
    """
    (program,) = programs(placed(lawn("Front"), lawn("Back")), [TUESDAY, TUESDAY])
    assert program.morning == TUESDAY
    assert program.sunrise is not None
    assert program.ends == program.sunrise
    # Front 11, Back 11, the soak of Front until minute 44, Front 11, Back 11: 66 min.
    assert program.elapsed_minutes == 66
    first = program.sunrise - 66 * MINUTE
    offsets = [(each.zone, each.cycle, each.starts) for each in program.timer]
    assert offsets == [
        ("Front", 1, first),
        ("Back", 1, first + 11 * MINUTE),
        ("Front", 2, first + 44 * MINUTE),
        ("Back", 2, first + 55 * MINUTE),
    ]
    assert {each.minutes for each in program.timer} == {11}
    assert (program.allowed_minutes, program.shortfall_minutes) == (None, 0)
    assert program.words == f"Done by sunrise at {program.sunrise:%H:%M}."


@pytest.mark.parametrize("on", [date(2026, month, 12) for month in range(1, 13)])
def test_sunrise_is_that_of_the_morning_by_the_yards_clocks(on: date) -> None:
    """astral, an independent open-source library, in the yard's own time."""
    (program,) = programs(placed(lawn("Front")), [on + timedelta(days=1)], on=on)
    observer = Observer(PLACE["latitude_deg"], PLACE["longitude_deg"], 0.0)
    expected = reference_sunrise(observer, date=program.morning, tzinfo=DENVER)
    assert program.sunrise is not None
    assert program.sunrise.date() == program.morning == on + timedelta(days=1)
    assert abs(program.sunrise - expected.replace(tzinfo=None)) < 2 * MINUTE


@pytest.mark.parametrize(
    ("place", "name"),
    [
        ((1.9, -157.4), "Pacific/Kiritimati"),
        ((-13.8, -171.8), "Pacific/Apia"),
        ((52.0, 178.0), "America/Adak"),
        ((-31.8, 116.2), "Australia/Perth"),
    ],
)
def test_near_the_date_line_the_calendar_is_the_yards(
    place: tuple[float, float], name: str
) -> None:
    book = placed(lawn("Front"), latitude_deg=place[0], longitude_deg=place[1], time_zone=name)
    (program,) = programs(book, [TUESDAY])
    assert program.sunrise is not None
    assert program.sunrise.date() == TUESDAY
    assert 3 <= program.sunrise.hour <= 9


@pytest.mark.parametrize(
    ("morning", "hours_by_clock"), [(date(2026, 3, 8), 7), (date(2026, 11, 1), 5)]
)
def test_a_night_in_which_the_clocks_change_is_as_long_as_it_is(
    morning: date, hours_by_clock: int
) -> None:
    """United States: on at 2:00 on the second Sunday of March, off on the first of November.

    Some six hours end at sunrise, so that the change lies within; the clocks show one more or
    one less than has passed.
    """
    (program,) = programs(
        placed(lawn("Front", 0.35)), [morning], depth_in=1.66, on=morning - timedelta(days=1)
    )
    assert program.elapsed_minutes == 361
    assert program.starts is not None
    assert program.ends is not None
    assert program.ends - program.starts == hours_by_clock * 60 * MINUTE + MINUTE
    passed = (program.ends.replace(tzinfo=DENVER).astimezone(UTC)) - (
        program.starts.replace(tzinfo=DENVER).astimezone(UTC)
    )
    assert passed == 361 * MINUTE


def test_a_program_longer_than_the_night_starts_before_sunset_and_says_so() -> None:
    """A June night at 41° N has some nine hours."""
    (program,) = programs(placed(lawn("Front", 0.3)), [TUESDAY], depth_in=2.6)
    assert program.allowed_minutes is None
    assert program.elapsed_minutes == 659
    assert program.starts is not None
    assert program.starts.date() == MONDAY
    assert 90 < program.shortfall_minutes < 150
    assert re.search(
        r"It takes 10 h 59 min, \d h \d+ min more than the night leaves. It starts at 18:5\d, "
        r"before sunset \(21:0\d\), when wind and sun take more of the water: half of it on each ",
        program.words,
    )
    assert program.ends == program.sunrise


@pytest.mark.parametrize("on", [date(2026, 6, 15), date(2026, 12, 15)])
def test_where_the_sun_does_not_rise_no_time_is_told(on: date) -> None:
    book = placed(
        lawn("Front"), latitude_deg=78.0, longitude_deg=15.0, time_zone="Arctic/Longyearbyen"
    )
    (program,) = programs(book, [on], on=on)
    assert (program.starts, program.ends, program.sunrise) == (None, None, None)
    assert program.elapsed_minutes > 0
    assert "The sun does not rise here on that day" in program.words


@pytest.mark.parametrize(
    ("missing", "words"),
    [
        (("longitude_deg",), "Enter the yard's longitude to see when it starts."),
        (("longitude_deg", "time_zone"), "the yard's longitude and time zone to see"),
        (tuple(PLACE), "the yard's latitude, longitude and time zone to see"),
    ],
)
def test_what_is_missing_for_times_is_named(missing: tuple[str, ...], words: str) -> None:
    book = placed(lawn("Front"), **dict.fromkeys(missing))
    (program,) = programs(book, [TUESDAY])
    assert (program.starts, program.ends, program.sunrise) == (None, None, None)
    assert [(each.starts, each.minutes) for each in program.timer] == [(None, 11), (None, 11)]
    assert program.elapsed_minutes == 55
    assert program.words.startswith("It takes 55 min. ")
    assert words in program.words


# The owner's rule


def clock_times(program: ProgramRun) -> tuple[str, str]:
    """Start and end as "15 22:30"."""
    assert program.starts is not None
    assert program.ends is not None
    return f"{program.starts:%d %H:%M}", f"{program.ends:%d %H:%M}"


RULES: list[tuple[WaterRules, date, date, str]] = [
    # The span that holds the latest time before sunrise (05:53 on these days).
    (rule("18:00-05:00"), TUESDAY, TUESDAY, "16 05:00"),
    (rule("18:00-22:00", "01:00-03:00"), TUESDAY, TUESDAY, "16 03:00"),
    (rule("18:00-22:00"), TUESDAY, TUESDAY, "15 22:00"),
    (rule("18:00-00:00", "00:00-10:00"), TUESDAY, TUESDAY, "16 05:5"),
    # A span over midnight belongs to the weekday of its evening.
    (rule("18:00-08:00", days=("Tue", "Sat")), TUESDAY, date(2026, 6, 17), "17 05:5"),
    (rule("18:00-08:00", days=("Mon",)), TUESDAY, TUESDAY, "16 05:5"),
    (rule("18:00-04:00", days=("Sat",)), date(2026, 6, 20), date(2026, 6, 21), "21 04:00"),
    # Days alone: every moment lies on an allowed day.
    (rule(days=("Tue",)), TUESDAY, TUESDAY, "16 05:5"),
    (rule(days=("Mon",)), MONDAY, TUESDAY, "16 00:00"),
    # No time between sunset and sunrise: the last span of the first allowed day.
    (rule("06:00-09:00", "11:00-14:00"), TUESDAY, TUESDAY, "16 14:00"),
]


@pytest.mark.parametrize(("rules", "due", "morning", "end"), RULES)
def test_the_span_that_a_night_takes(rules: WaterRules, due: date, morning: date, end: str) -> None:
    (program,) = programs(placed(lawn("Front"), rules=rules), [due])
    assert program.morning == morning
    assert clock_times(program)[1].startswith(end)
    assert program.shortfall_minutes == 0


def test_a_rule_that_leaves_too_little_is_told_with_what_does_not_fit() -> None:
    """Two zones at 0.35 in/h, 0.85 in × 1.266 each: 185 min each, 370 in all, four hours allowed.

    The soil keeps up with 0.35 in/h, so there is one cycle each. 240 min hold
    120 of each 185, so that of 0.85 in 0.85 × 65 ÷ 185 = 0.30 in stay off.
    """
    book = placed(lawn("Front", 0.35), lawn("Back", 0.35), rules=rule("00:00-04:00"))
    (program,) = programs(book, [TUESDAY, TUESDAY], depth_in=0.85)
    assert program.elapsed_minutes == 370
    assert (program.allowed_minutes, program.shortfall_minutes) == (240, 130)
    assert [each.minutes for each in program.timer] == [120, 120]
    assert clock_times(program) == ("16 00:00", "16 04:00")
    assert (
        "It needs 6 h 10 min, your rule leaves 4 h: 2 h 10 min of it, about 0.30 in on each zone, "
        "cannot be given. What would help: its zones split over two allowed nights, fewer zones "
        "in one program or more even sprinklers (runs are up to 1.27 times as long for unevenness)."
    ) in program.words


def test_the_rest_may_run_after_sunrise_where_the_rule_goes_on() -> None:
    book = placed(lawn("Front", 0.35), rules=rule("05:00-10:00"))
    (program,) = programs(book, [TUESDAY], depth_in=0.85)
    assert program.ends == program.sunrise
    assert program.allowed_minutes is not None
    assert 50 <= program.allowed_minutes <= 58
    assert program.shortfall_minutes == program.elapsed_minutes - program.allowed_minutes
    assert "the rest after sunrise, until 10:00 by your rule." in program.words


def test_a_rule_without_a_minute_to_spare_gives_nothing_and_says_all_of_it() -> None:
    book = placed(*[lawn(name, 0.35) for name in "abcdef"], rules=rule("03:00-03:02"))
    (program,) = programs(book, [TUESDAY] * 6, depth_in=0.85)
    assert program.allowed_minutes == 2
    assert program.timer == ()
    assert (program.starts, program.ends) == (None, None)
    assert "about 0.85 in on each zone, cannot be given" in program.words


def test_by_day_is_told_where_the_rule_leaves_nothing_else() -> None:
    book = placed(lawn("Front"), rules=rule("10:00-14:00"))
    (program,) = programs(book, [TUESDAY])
    assert "Your rule leaves no time between sunset and sunrise" in program.words


SPANS = st.tuples(st.integers(0, 23), st.integers(1, 23)).map(
    lambda each: f"{each[0]:02}:00-{(each[0] + each[1]) % 24:02}:00"
)
DAYS = st.sets(st.sampled_from(("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")), max_size=3)


def is_allowed(rules: WaterRules, at: datetime) -> bool:
    """Whether the rule allows a moment: by its day, or by a span of the evening before."""
    hours = rules.hours or ("00:00-00:00",)
    for back in (0, 1):
        begun = at - timedelta(days=back)
        if rules.days and f"{begun:%a}" not in rules.days:
            continue
        for span in hours:
            start, end = (int(part[:2]) * 60 for part in span.split("-"))
            minute = at.hour * 60 + at.minute + back * 24 * 60
            if start <= minute < (end if end > start else end + 24 * 60):
                return True
    return False


@given(st.lists(SPANS, max_size=2), DAYS, st.integers(0, 6), st.floats(0.1, 1.5))
def test_no_valve_is_ever_open_outside_the_rule(
    hours: list[str], days: set[str], ahead: int, depth_in: float
) -> None:
    """Checked minute by minute against the rule read afresh."""
    rules = rule(*hours, days=tuple(sorted(days)))
    book = placed(lawn("Front", SLOW), lawn("Back", FAST), rules=rules)
    due = MONDAY + timedelta(days=ahead)
    (program,) = programs(book, [due, due], depth_in=depth_in)
    by_day = "no time between sunset" in program.words
    assert program.morning > MONDAY or by_day
    given_minutes = sum(each.minutes for each in program.timer)
    for each in program.timer:
        assert each.starts is not None
        if hours or days:
            for minute in range(each.minutes):
                assert is_allowed(rules, each.starts + minute * MINUTE)
        assert program.ends is not None
        assert ends(each) <= program.ends
    if program.shortfall_minutes == 0:
        assert given_minutes > 0
    if program.starts is not None and not by_day:
        assert program.ends is not None
        assert program.sunrise is not None
        assert program.ends <= program.sunrise or "midnight" in program.words


# Programs and their zones


def test_zones_without_a_program_run_together_when_due_for_one_morning() -> None:
    names = [lawn("Front"), lawn("Back"), lawn("Side")]
    due = [TUESDAY, date(2026, 6, 18), MONDAY]
    (program,) = programs(placed(*names), due)
    assert (program.program, program.zones) == ("", ("Front", "Side"))
    assert program.morning == TUESDAY


def test_a_named_program_takes_its_zones_along_for_what_they_have_used() -> None:
    """0.2 in a day × 0.88 (June's Kc of cool-season turf) are left off for each day too early."""
    zones = [lawn(name, 0.35, program="A") for name in ("Front", "Back", "Side")]
    due = [date(2026, 6, 18), TUESDAY, date(2026, 6, 22)]
    (program,) = programs(placed(*zones), due)
    assert (program.program, program.zones) == ("A", ("Front", "Back"))
    assert program.morning == TUESDAY
    minutes = {each.zone: each.minutes for each in program.timer}
    full, early = (60 * depth * 1.2658 / 0.35 for depth in (0.4, 0.4 - 2 * 0.2 * 0.88))
    assert minutes["Back"] == pytest.approx(full, abs=1)
    assert minutes["Front"] == pytest.approx(early, abs=1)
    assert "Front is taken along 2 days early, for what it has used by then." in program.words
    assert "Side has used next to nothing yet and is left out." in program.words


def test_programs_of_one_morning_follow_each_other() -> None:
    zones = [lawn("Front", program="A"), lawn("Back"), lawn("Side", program="A")]
    first, second = programs(placed(*zones), [TUESDAY] * 3)
    assert (first.program, second.program) == ("A", "")
    assert first.zones == ("Front", "Side")
    assert second.ends == second.sunrise
    assert first.ends == second.starts
    assert first.ends is not None
    assert first.words == f"Done by {first.ends:%H:%M}, when the next program starts."


def test_programs_of_one_morning_share_what_the_rule_leaves() -> None:
    zones = [lawn("Front", 0.35, program="A"), lawn("Back", 0.35)]
    book = placed(*zones, rules=rule("00:00-04:00"))
    first, second = programs(book, [TUESDAY] * 2, depth_in=0.85)
    assert second.shortfall_minutes == 0
    assert first.allowed_minutes == 240 - second.elapsed_minutes
    assert first.starts is not None
    assert f"{first.starts:%H:%M}" >= "00:00"
    assert "your rule and the next program leave 55 min" in first.words


def test_who_has_no_place_in_a_program() -> None:
    zones = [
        lawn("Front"),
        lawn("Hose", sprinklers="hose"),
        lawn("Meadow", irrigated=False),
        lawn("Unknown", None),
        lawn("Later"),
    ]
    (program,) = programs(placed(*zones), [TUESDAY, TUESDAY, TUESDAY, TUESDAY, None])
    assert program.zones == ("Front",)
    assert "Unknown has no place in it: the precipitation rate is not known." in program.words
    assert programs(placed(lawn("Unknown", None)), [TUESDAY]) == ()


def test_new_turf_is_not_watered_by_night_programs() -> None:
    book = placed(lawn("Front"), lawn("New"))
    setting = setting_of(book, MONDAY)
    facts = [facts_of(setting, each, n) for n, each in enumerate(book.zones.values(), 1)]
    zones = [_due(setting, each, TUESDAY, 0.4) for each in facts]
    light = Establishing(
        how="seed",
        since=MONDAY,
        until=date(2026, 7, 20),
        times_a_day=3,
        every_days=1,
        depth_in=0.1,
        run_minutes=5.0,
        words="",
    )
    zones[1] = replace(zones[1], establishing=light)
    (program,) = programs_of(setting, zones, facts)
    assert program.zones == ("Front",)


def test_before_the_next_run_is_known_the_days_own_figures_serve() -> None:
    book = placed(lawn("Front"))
    setting = setting_of(book, MONDAY)
    facts = [facts_of(setting, each, n) for n, each in enumerate(book.zones.values(), 1)]
    water = replace(_due(setting, facts[0], TUESDAY, 0.4), next_run=None)
    (program,) = programs_of(setting, [water], facts)
    assert water.cycles is not None
    assert len(program.timer) == water.cycles
    assert program.morning == TUESDAY


# Thatch


def test_thick_dry_thatch_is_wetted_first_and_the_cycles_stay() -> None:
    """A tenth of an inch at 1.4 in/h is 4.3 min, told as 5, and half an hour's rest after it."""
    plugs = [core(date(2026, 6, 1), 0.8, root_depth_in=7.0)]
    book = placed(lawn("Front"))
    thick = replace(
        book,
        spots={"s1": replace(spot(), zone="Front")},
        cores={each.id: each for each in plugs},
    )
    (thin_night,), (night,) = (programs(each, [TUESDAY]) for each in (book, thick))
    assert [(each.cycle, each.minutes) for each in thin_night.timer] == [(1, 11), (2, 11)]
    assert [(each.cycle, each.minutes) for each in night.timer] == [(1, 5), (1, 6), (2, 11)]
    assert night.timer[1].starts is not None
    assert night.timer[1].starts - ends(night.timer[0]) == 30 * MINUTE
    assert "Front starts with a short run that wets its thick dry thatch" in night.words
    assert "wets" not in thin_night.words


def test_words_stand_in_whole_sentences() -> None:
    zones = [lawn("Front", 0.35, program="A"), lawn("Back", 0.35, program="A")]
    for rules in (None, rule("00:00-01:00"), rule("10:00-14:00"), rule(days=("Mon",))):
        for each in programs(placed(*zones, rules=rules), [TUESDAY, TUESDAY]):
            assert re.fullmatch(r"([A-Z][^.]*(\d\.\d[^.]*)*\. ?)+", each.words), each.words
