"""The next watering at dawn, sooner or today, what it wets, and what the last rain saved."""

import math
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.ledger import Ledger, ledger_of
from lawnbook.plan.month_water import water_today
from lawnbook.plan.next_run import Runs, next_runs, rain_credit, wetting
from lawnbook.plan.water_model import NextRun, RainCredit
from lawnbook.plan.water_rules import first_allowed
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Established, Season, Watering, WaterRules, Zone
from tests.plan_yards import (
    JUNE,
    core,
    first_zone,
    spot,
    steady,
    watering,
    weather_day,
    yard,
    zone,
)

ETC = 0.2 * 0.88  # University of California, turf crop coefficients: June, cool season
MULTIPLIER = 1 / (0.4 + 0.6 * 0.65)
Weekday = Literal["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]


def stands(book: Notebook, on: date = JUNE) -> tuple[Setting, ZoneFacts, Ledger]:
    """What the runs of a notebook's first zone rest on."""
    setting, facts = first_zone(book, on)
    return setting, facts, ledger_of(setting, facts)


def runs(book: Notebook, on: date = JUNE) -> Runs:
    """The runs of a notebook's first zone."""
    setting, facts, ledger = stands(book, on)
    allowed = first_allowed(setting, facts, ledger.next_watering)
    return next_runs(setting, facts, ledger, water_today(setting, facts), allowed)


def next_run(book: Notebook, on: date = JUNE) -> NextRun:
    """The next run, which there must be."""
    found = runs(book, on).next
    assert found is not None
    return found


def credit(book: Notebook) -> RainCredit | None:
    """The rain credit of a notebook's first zone."""
    return rain_credit(*stands(book))


def dry(book: Notebook, how: Literal["less", "survival"], share: float | None = None) -> Notebook:
    """The notebook in a dry year."""
    return replace(book, yard=replace(book.yard, drought=how, drought_share=share))


def test_the_next_watering_by_hand() -> None:
    """Full this morning; two days use 0.352 in, the third passes the 0.408 in that 6 in bear."""
    plain = zone(precipitation_in_per_h=1.2)
    book = yard(plain, climate=steady(0.2))
    priced = replace(book, yard=replace(book.yard, water_price_per_kgal=5.0))
    run = next_run(priced)
    assert run.date == JUNE + timedelta(days=2)
    assert run.depth_in == pytest.approx(2 * ETC)
    assert run.share_used == pytest.approx(2 * ETC / 1.02)
    assert run.stress == 1.0
    assert run.wets_in == pytest.approx(6.0)
    assert run.past_roots_in == 0.0
    assert run.run_minutes == pytest.approx(60 * 2 * ETC * MULTIPLIER / 1.2)
    assert run.run_minutes is not None
    assert run.cycles == math.ceil(run.run_minutes / (60 * 0.30 / (1.2 - 0.35))) == 2
    assert run.minutes_per_cycle == pytest.approx(run.run_minutes / 2)
    assert run.soak_minutes == pytest.approx(run.run_minutes / 2 * (1.2 / 0.35 - 1))
    assert run.gallons == pytest.approx(2 * ETC * MULTIPLIER * 1000 * 0.62338, rel=1e-4)
    assert run.cost == pytest.approx(run.gallons * 0.005)


def test_without_rate_or_price_the_depth_stands() -> None:
    run = next_run(yard(climate=steady(0.2)))
    assert run.run_minutes is run.cycles is run.minutes_per_cycle is run.cost is None
    assert run.depth_in == pytest.approx(2 * ETC)


def test_thatch_keeps_its_part_and_the_rest_wets_less_soil() -> None:
    """An inch of thatch keeps 0.1 in of the 0.352 in, so 0.252 of 0.352 of the soil is refilled."""
    plugs = [core(date(2026, 5, 1), 1.0, root_depth_in=7.0)]
    run = next_run(yard(climate=steady(0.2), spots=[spot()], cores=plugs))
    assert run.depth_in == pytest.approx(2 * ETC)
    assert run.wets_in == pytest.approx(6.0 * (2 * ETC - 0.1) / (2 * ETC))


@pytest.mark.parametrize(
    ("net_in", "in_thatch_in", "kept_in", "wets_in", "past_in"),
    [
        (0.0, 0.0, 0.0, 0.0, 0.0),
        (0.04, 0.0, 0.04, 0.0, 0.0),
        (0.25, 0.0, 0.05, 2.4, 0.0),
        (0.25, 0.03, 0.02, 2.76, 0.0),
        (0.55, 0.0, 0.05, 6.0, 0.0),
        (0.65, 0.0, 0.05, 6.0, 0.0),
        (1.00, 0.0, 0.05, 6.0, 0.25),
    ],
)
def test_what_a_depth_wets(
    net_in: float, in_thatch_in: float, kept_in: float, wets_in: float, past_in: float
) -> None:
    """Half an inch used up in 6 in of soil under half an inch of thatch, 0.2 in more by evening."""
    plugs = [core(date(2026, 5, 1), 0.5, root_depth_in=6.5)]
    _, facts, _ = stands(yard(spots=[spot()], cores=plugs))
    found = wetting(facts, net_in, in_thatch_in, 0.5, 0.7)
    assert found.kept_in == pytest.approx(kept_in)
    assert found.wets_in == pytest.approx(wets_in)
    assert found.past_roots_in == pytest.approx(past_in)


def test_a_day_that_uses_more_than_the_roots_bear_is_met_at_its_dawn() -> None:
    """2 in of loam bear 0.136 in; the ground is full at dawn, the day draws 0.264 in.

    A hose is there on the day; a timer's first night ends at the next dawn, and refills the day.
    """
    by_hand = zone(default_root_depth_in=2.0, sprinklers="hose")
    run = next_run(yard(by_hand, climate=steady(0.3)), JUNE)
    assert run.date == JUNE
    assert run.depth_in == pytest.approx(0.4 * 0.17 * 2)
    assert run.past_roots_in == 0.0
    timed = next_run(yard(replace(by_hand, sprinklers="in-ground"), climate=steady(0.3)), JUNE)
    assert timed.date == JUNE + timedelta(days=1)
    assert timed.depth_in == pytest.approx(0.3 * 0.88)


def test_a_deficit_is_refilled_whole_and_never_beyond_what_the_soil_holds() -> None:
    start = [watering(date(2026, 5, 1), depth_in=0.0)]
    run = next_run(yard(climate=steady(0.2), waterings=start))
    assert run.date == JUNE + timedelta(days=1), "the timer's first night"
    assert 0.9 < run.depth_in <= 6 * 0.17
    assert run.share_used == pytest.approx(run.depth_in / 1.02)
    assert run.stress == pytest.approx((1 - run.share_used) / 0.6, abs=1e-9)


@pytest.mark.parametrize(
    ("days", "late", "sooner", "sooner_in"),
    [
        (("Mon", "Thu"), date(2026, 6, 18), date(2026, 6, 15), ETC),
        (("Tue", "Thu"), date(2026, 6, 18), date(2026, 6, 16), 2 * ETC),
        (("Thu",), date(2026, 6, 18), None, 0.0),
        (("Wed",), date(2026, 6, 17), None, 0.0),
        ((), date(2026, 6, 17), None, 0.0),
    ],
)
def test_where_the_rule_makes_it_late_the_last_allowed_day_before_is_told(
    days: tuple[Weekday, ...], late: date, sooner: date | None, sooner_in: float
) -> None:
    """Due on Wednesday, 17 June: later it takes what is used up by then, sooner by that evening."""
    book = yard(
        climate=steady(0.2),
        water_rules=[replace(WaterRules(id="water_rules"), days=days)],
    )
    found = runs(book)
    assert found.next is not None
    assert found.next.date == late
    assert found.next.depth_in == pytest.approx((late - JUNE).days * ETC)
    assert (found.sooner and found.sooner.date) == sooner
    if found.sooner is not None:
        assert found.sooner.depth_in == pytest.approx(sooner_in)
        assert found.sooner.past_roots_in == pytest.approx(0.0)


def test_a_rule_that_allows_no_day_before_the_season_ends_leaves_the_sooner_one() -> None:
    book = yard(
        climate=steady(0.2),
        season=Season(start="05-01", end="06-17"),
        water_rules=[replace(WaterRules(id="water_rules"), days=("Tue", "Fri"))],
    )
    found = runs(book)
    assert found.next is None
    assert found.sooner is not None
    assert found.sooner.date == date(2026, 6, 16)


def test_a_watering_today_is_told_while_anything_is_used_up() -> None:
    today = runs(yard(climate=steady(0.2))).today
    assert today is not None
    assert today.date == JUNE
    assert today.depth_in == pytest.approx(ETC)
    rain = [weather_day(JUNE, reported_eto_in=0.2, rain_in=1.0)]
    assert runs(yard(climate=steady(0.2), weather=rain)).today is None


def test_no_run_of_nothing_is_told_for_a_day_that_needs_none() -> None:
    """Rain has filled the ground on Monday, which the rule allows, before what Thursday refills.

    In a dry year of half the use 0.2 in net counts as 0.4 in, more than two days have used.
    """
    rule = [replace(WaterRules(id="water_rules"), days=("Mon", "Thu"))]
    rain = [weather_day(JUNE, reported_eto_in=0.2, rain_in=1.0)]
    found = runs(yard(climate=steady(0.2), water_rules=rule, weather=rain))
    assert found.next is not None
    assert found.next.date == date(2026, 6, 18)
    assert found.sooner is found.today is None
    start = [
        watering(JUNE - timedelta(days=1), depth_in=0.0, id="start"),
        watering(JUNE, depth_in=0.2 * MULTIPLIER, id="half"),
    ]
    book = dry(yard(climate=steady(0.2), waterings=start), "less", 0.5)
    assert stands(book)[2].depletion_in > 0.1
    assert runs(book).today is None


def test_a_dry_year_gives_a_share_of_the_same_watering() -> None:
    book = yard(climate=steady(0.2))
    full, less = next_run(book), next_run(dry(book, "less", 0.75))
    assert less.date == full.date
    assert less.depth_in == pytest.approx(0.75 * full.depth_in)
    assert less.wets_in == pytest.approx(0.75 * 6.0)
    assert next_run(dry(book, "less")).depth_in == pytest.approx(0.8 * full.depth_in)


def test_dormant_and_new_turf_takes_its_own_depth() -> None:
    """Half an inch for the crowns (agronomy/dormancy); light and often while seed roots."""
    start = [watering(JUNE - timedelta(days=20), depth_in=0.1)]
    dormant = runs(dry(yard(climate=steady(0.2), waterings=start), "survival"))
    assert dormant.next is not None
    assert dormant.next.date == JUNE + timedelta(days=1)
    assert dormant.next.depth_in == 0.5
    assert dormant.today is not None
    assert (dormant.today.date, dormant.today.depth_in) == (JUNE, 0.5)
    sown = zone(established=Established(date=date(2026, 6, 8), how="seed"))
    book = yard(sown, climate=steady(0.2))
    setting, facts, _ = stands(book)
    light = next_run(book)
    assert light.depth_in == water_today(setting, facts).depth_in
    assert light.depth_in < 2 * ETC


@pytest.mark.parametrize(
    ("rain_in", "counted_in", "days_moved"),
    [
        (0.039, 0.0, 0),
        (0.2, 0.2, 1),
        (0.3, 0.3, 2),
        # The ground takes what three days have used; of 1 in nothing runs off this loam.
        (1.0, 3 * ETC, 3),
        (9.0, 3 * ETC, 3),
    ],
)
def test_rain_is_credited_to_field_capacity(
    rain_in: float, counted_in: float, days_moved: int
) -> None:
    """FAO-56 chapter 8. Without the rain of 15 June the 0.408 in would be used up that day."""
    days = [
        weather_day(date(2026, 6, 13), reported_eto_in=0.2, rain_in=0.0),
        weather_day(date(2026, 6, 14), reported_eto_in=0.2, rain_in=0.0),
        weather_day(JUNE, reported_eto_in=0.2, rain_in=rain_in),
    ]
    found = credit(yard(climate=steady(0.2), weather=days))
    assert found is not None
    assert found.fallen_in == pytest.approx(rain_in)
    assert found.counted_in == pytest.approx(counted_in)
    assert found.days_moved == days_moved


def test_only_the_last_seven_days_are_told_and_none_where_no_rain_fell() -> None:
    days = [
        weather_day(JUNE - timedelta(days=ago), reported_eto_in=0.2, rain_in=rain)
        for ago, rain in ((9, 0.0), (8, 0.0), (7, 0.5), (6, 0.0), (0, 0.0))
    ]
    assert credit(yard(climate=steady(0.2), weather=days)) is None
    assert credit(yard(climate=steady(0.2))) is None
    days[3] = replace(days[3], rain_in=0.25)
    found = credit(yard(climate=steady(0.2), weather=days))
    assert found is not None
    assert found.fallen_in == pytest.approx(0.25)


def test_rain_that_leaves_a_watering_overdue_moves_only_its_own_days() -> None:
    """Dry for weeks, with 0.1 in of rain two days ago: due before it and after it."""
    days = [
        weather_day(JUNE - timedelta(days=ago), reported_eto_in=0.2, rain_in=0.1 * (ago == 2))
        for ago in range(30)
    ]
    found = credit(yard(climate=steady(0.2), weather=days))
    assert found is not None
    assert found.counted_in == pytest.approx(0.1)
    assert found.days_moved == 0


def test_rain_that_ends_a_drought_moves_the_watering_from_its_own_day_on() -> None:
    """Dry and overdue for weeks: soaking rain today moves today's watering, not last week's."""
    days = [
        weather_day(JUNE - timedelta(days=ago), reported_eto_in=0.2, rain_in=3.0 * (ago == 0))
        for ago in range(30)
    ]
    found = credit(yard(climate=steady(0.2), weather=days))
    assert found is not None
    # Full tonight, it bears 0.408 in: two days of 0.176 in, and on the third it is due.
    assert found.days_moved == 3


def test_rain_counts_the_same_in_a_dry_year() -> None:
    days = [
        weather_day(date(2026, 6, n), reported_eto_in=0.2, rain_in=0.3 * (n == 15))
        for n in (13, 14, 15)
    ]
    found = credit(dry(yard(climate=steady(0.2), weather=days), "less"))
    assert found is not None
    assert found.counted_in == pytest.approx(0.3)
    assert found.days_moved == 2


def test_rain_moves_no_date_of_turf_watered_by_the_calendar() -> None:
    days = [
        weather_day(date(2026, 6, n), reported_eto_in=0.2, rain_in=0.3 * (n == 15))
        for n in (13, 14, 15)
    ]
    found = credit(dry(yard(climate=steady(0.2), weather=days), "survival"))
    assert found is not None
    assert found.counted_in == pytest.approx(0.3)
    assert found.days_moved == 0


ZONES = st.builds(
    zone,
    soil=st.sampled_from(["sand", "sandy loam", "loam", "clay"]),
    default_root_depth_in=st.floats(0.5, 20),
    target_depth_in=st.floats(0.1, 2),
    allowed_depletion=st.one_of(st.none(), st.floats(0.1, 1)),
    precipitation_in_per_h=st.floats(0.2, 3),
)
EVENTS = st.lists(st.tuples(st.integers(0, 25), st.floats(0, 1.2)), max_size=8)


def waterings(events: Sequence[tuple[int, float]]) -> list[Watering]:
    """Waterings so many days ago."""
    return [
        watering(JUNE - timedelta(days=ago), depth_in=gross, id=f"w{place}")
        for place, (ago, gross) in enumerate(events)
    ]


@given(ZONES, st.floats(0.05, 0.4), EVENTS)
def test_a_run_put_down_as_told_refills_what_it_says(
    plain: Zone, eto: float, events: list[tuple[int, float]]
) -> None:
    """Recorded on its day, the watering leaves what that day itself used, and nothing drains."""
    book = yard(plain, climate=steady(eto), waterings=waterings(events))
    _, facts, ledger = stands(book)
    run = next_run(book)
    assert 0 <= run.depth_in <= 0.17 * 20
    assert 0 <= run.wets_in <= facts.roots.rooted_soil_in + 1e-9
    assert run.past_roots_in == pytest.approx(0.0, abs=1e-9)
    ahead = (run.date - JUNE).days
    if not ahead or run.date.month != JUNE.month or plain.allowed_depletion is not None:
        return
    start = watering(JUNE, depth_in=0.0, id="start")
    put_down = watering(run.date, depth_in=run.depth_in * facts.multiplier, id="next")
    kept = [start, *book.waterings.values(), put_down]
    _, _, then = stands(yard(plain, climate=steady(eto), waterings=kept), run.date)
    # A day may draw all that the roots hold, and no more.
    if ledger.reckoned_in[ahead + 1] < then.recent.days.capacity_in[-1] - 1e-9:
        assert then.depletion_in == pytest.approx(ledger.reckoned_in[ahead + 1] - run.depth_in)
    assert then.depletion_in <= eto * 0.88 + 1e-9
    assert then.levels.series().drained_in[-1] == pytest.approx(0.0, abs=1e-9)


@given(ZONES, st.floats(0.05, 0.4), EVENTS, st.floats(1.0, 3.0))
def test_a_faster_sprinkler_never_runs_longer_and_one_twice_as_fast_half_as_long(
    plain: Zone, eto: float, events: list[tuple[int, float]], faster: float
) -> None:
    # By depth, so that what was put down before is the same.
    rate = plain.precipitation_in_per_h or 1.0
    minutes = [
        next_run(
            yard(
                replace(plain, precipitation_in_per_h=rate * times),
                climate=steady(eto),
                waterings=waterings(events),
            )
        ).run_minutes
        for times in (1.0, faster, 2.0)
    ]
    assert minutes[0] is not None
    assert minutes[1] is not None
    assert minutes[1] <= minutes[0] + 1e-9
    assert minutes[2] == pytest.approx(minutes[0] / 2)
