"""Watering in: minutes by the zone's rate, cycles by its soil, and what stands in the way."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.feed_model import WateringIn
from lawnbook.plan.spread_water import watering_in_of
from lawnbook.yard.records import CatchTest, Record, Season, WaterRules, Zone
from tests.plan_yards import yard, zone

SATURDAY = date(2026, 9, 12)
SLOW = zone(precipitation_in_per_h=0.3)


def watered(only: Zone, on: date = SATURDAY, **tables: Any) -> WateringIn:
    """The watering-in of a yard's one zone."""
    book = yard(only, **tables)
    return watering_in_of(book, book.zones["z1"], on)


def rule(**values: Any) -> Iterable[Record]:
    """The owner's watering rule."""
    return (WaterRules(id="water_rules", **values),)


def test_a_quarter_inch_takes_sixty_times_its_depth_over_the_rate() -> None:
    wet = watered(SLOW)
    assert wet.depth_in == 0.25
    assert wet.run_minutes == pytest.approx(60 * 0.25 / 0.3)
    assert wet.cycles == 1
    assert wet.minutes_per_cycle == pytest.approx(50.0)
    assert wet.words == "50 min for 0.25 in."
    assert wet.source.endswith("(common practice)")


def test_a_fast_rate_on_clay_is_split_with_soaks_between() -> None:
    """Intake 0.10 in/h, storage 0.10 in on a steep slope (from memory): 60 × 0.1 ÷ 1.9 min."""
    wet = watered(zone(precipitation_in_per_h=2.0, soil="clay", slope_pct=15.0))
    assert wet.run_minutes == pytest.approx(7.5)
    assert wet.cycles == 3
    assert wet.minutes_per_cycle == pytest.approx(2.5)
    assert wet.words == "9 min for 0.25 in, in 3 cycles of 3 min with 48 min between."


def test_a_hose_sprinkler_runs_at_each_of_its_places() -> None:
    hose = zone(precipitation_in_per_h=0.5, sprinklers="hose", hose_places=4)
    assert watered(hose).words == "30 min at each of its 4 places for 0.25 in."


def test_without_sprinklers_hose_or_rain_does_it() -> None:
    wet = watered(zone(irrigated=False, precipitation_in_per_h=0.5))
    assert (wet.run_minutes, wet.cycles, wet.minutes_per_cycle) == (None, None, None)
    assert "by hose" in wet.words
    assert "rain" in wet.words


def test_an_unknown_rate_is_told_with_its_mend() -> None:
    wet = watered(zone())
    assert wet.run_minutes is None
    assert "can set out" in wet.words
    assert "Precipitation rate is not known: set out cans" in wet.words


def test_only_cans_set_out_up_to_the_day_count() -> None:
    later = CatchTest(
        id="t1", zone="z1", date=date(2026, 10, 1), run_minutes=30.0, depths_in=(0.5, 0.5)
    )
    assert watered(SLOW, catch_tests=[later]).run_minutes == pytest.approx(50.0)
    assert watered(SLOW, date(2026, 10, 1), catch_tests=[later]).run_minutes == pytest.approx(15.0)


def test_a_stale_catch_test_is_told() -> None:
    test = CatchTest(
        id="t1", zone="z1", date=date(2026, 5, 1), run_minutes=30.0, depths_in=(0.5, 0.5)
    )
    book = yard(zone(), catch_tests=[test])
    changed = replace(book, yard=replace(book.yard, pressure_changed_on=date(2026, 6, 1)))
    assert "set out the cans again" in watering_in_of(changed, changed.zones["z1"], SATURDAY).words


def test_a_day_that_the_rule_forbids_is_told_with_the_next_one() -> None:
    words = watered(SLOW, water_rules=rule(days=("Tue", "Fri"))).words
    assert "allows none on Sat 12 Sep: spread on Tue 15 Sep" in words
    assert "allows" not in watered(SLOW, water_rules=rule(days=("Sat",))).words


def test_a_rule_of_one_day_a_week_names_the_next_week() -> None:
    words = watered(SLOW, date(2026, 9, 13), water_rules=rule(days=("Sat",))).words
    assert "spread on Sat 19 Sep" in words


def test_hours_of_the_rule_are_told() -> None:
    words = watered(SLOW, water_rules=rule(hours=("18:00-08:00",))).words
    assert "allows it 18:00-08:00 only" in words


def test_outside_the_season_the_lines_may_be_drained() -> None:
    season = Season(start="04-20", end="09-01")
    assert "outside the irrigation season (20 Apr to 1 Sep)" in watered(SLOW, season=season).words
    dry = watered(zone(irrigated=False), season=season)
    assert "season" not in dry.words, "a zone without sprinklers has none"


@given(st.floats(0.01, 12), st.floats(0, 40))
def test_the_cycles_together_put_down_the_quarter_inch(rate: float, slope: float) -> None:
    wet = watered(zone(precipitation_in_per_h=rate, slope_pct=slope))
    assert wet.run_minutes is not None
    assert wet.cycles is not None
    assert wet.minutes_per_cycle is not None
    assert wet.cycles * wet.minutes_per_cycle == pytest.approx(wet.run_minutes)
    assert wet.run_minutes / 60 * rate == pytest.approx(wet.depth_in)
