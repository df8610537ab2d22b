"""The days of the ledger, one by one, and every inch of them accounted for."""

from datetime import date, timedelta
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lawnbook.plan.ledger import zone_ledger
from lawnbook.plan.roots import readings_of, rooted_and_thatch_on
from lawnbook.plan.water_model import ZoneLedger
from lawnbook.plan.zone_facts import facts_of, setting_of
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import WeatherDay
from tests.plan_yards import (
    JUNE,
    climate,
    core,
    first_zone,
    spot,
    steady,
    watering,
    weather_day,
    yard,
    zone,
)
from tests.strategies import notebooks

KC_JUNE_COOL = 0.88  # University of California, turf crop coefficients by month


def june_days(count: int, **values: float) -> list[WeatherDay]:
    """The first days of June 2026, all alike."""
    return [weather_day(date(2026, 6, 1) + timedelta(days=n), **values) for n in range(count)]


def ledger(book: Notebook, on: date = JUNE) -> ZoneLedger:
    """The days of a notebook's first zone."""
    return zone_ledger(*first_zone(book, on))


def test_the_days_of_the_ledger_by_hand() -> None:
    """Loam, 6 in of roots of which 0.5 in in thatch that keeps a tenth: 0.05 in."""
    plugs = [core(date(2026, 6, 1), 0.5, root_depth_in=6.5)]
    days = [
        weather_day(date(2026, 6, 13), reported_eto_in=0.25, rain_in=0.04),
        weather_day(date(2026, 6, 14), tmin_f=50.0, tmax_f=80.0),
        weather_day(JUNE, reported_eto_in=0.25, rain_in=0.1),
    ]
    drops = [watering(date(2026, 6, 14), depth_in=0.3 / 0.79)]
    found = ledger(
        yard(climate=steady(0.2), spots=[spot()], cores=plugs, weather=days, waterings=drops)
    )
    assert found.starts == date(2026, 6, 13)
    assert found.eto_from == ("reported", "Hargreaves", "reported")
    assert found.etc_in == pytest.approx(KC_JUNE_COOL * found.eto_in)
    assert found.ignored_in == pytest.approx([0.04, 0.0, 0.0])
    assert found.irrigation_in == pytest.approx([0.0, 0.3, 0.0])
    assert found.into_soil_in == pytest.approx([0.0, 0.25, 0.05])
    assert found.from_thatch_in == pytest.approx([0.0, 0.05, 0.05])
    assert found.capacity_in == pytest.approx([1.02] * 3)
    assert found.stress_from_in == pytest.approx([0.408] * 3)
    first = 0.22
    second = max(0.0, first - 0.25 + KC_JUNE_COOL * found.eto_in[1] - 0.05)
    assert found.depletion_in == pytest.approx([first, second, second - 0.05 + 0.22 - 0.05])
    ahead = found.depletion_in[-1] + 0.2 * KC_JUNE_COOL * np.arange(1, 4)
    assert found.ahead_in[:3] == pytest.approx(ahead)
    assert found.ahead_in.max() == pytest.approx(1.02)


def test_days_without_eto_are_marked_as_filled() -> None:
    days = [
        weather_day(date(2026, 6, 12), reported_eto_in=0.25),
        weather_day(date(2026, 6, 14), rain_in=0.3),
    ]
    found = ledger(yard(climate=steady(0.2), weather=days))
    assert found.eto_from == ("reported", "filled", "filled", "filled")
    assert found.eto_in == pytest.approx([0.25, 0.2, 0.2, 0.2])


@pytest.mark.parametrize(("holding", "kept_in"), [(None, 0.1), (0.0, 0.0), (0.25, 0.25)])
def test_what_thatch_keeps_is_the_owners_to_say(holding: float | None, kept_in: float) -> None:
    """An inch of thatch keeps a tenth of an inch until told otherwise: an assumption."""
    plain = zone(thatch_water_in_per_in=holding)
    plugs = [core(JUNE, 1.0, root_depth_in=7.0)]
    drops = [watering(JUNE, depth_in=0.5 / 0.79)]
    found = ledger(yard(plain, climate=steady(0.2), spots=[spot()], cores=plugs, waterings=drops))
    assert found.into_soil_in[0] == pytest.approx(0.5 - kept_in)


@pytest.mark.parametrize(
    ("cycles", "gross_runoff_in"), [(None, 0.0), (1, 0.65), (3, 0.45), (8, 0.0)]
)
def test_a_watering_in_too_few_cycles_runs_off(cycles: int | None, gross_runoff_in: float) -> None:
    """Irrigation Association: clay at 12 % takes 0.10 in/h and holds 0.10 in (from memory)."""
    steep = zone(soil="clay", slope_pct=12, precipitation_in_per_h=1.6)
    drops = [watering(JUNE, minutes=30.0, cycles=cycles)]
    found = ledger(yard(steep, climate=steady(0.2), waterings=drops))
    assert found.irrigation_in[0] == pytest.approx(0.8 * 0.79)
    assert found.runoff_in[0] == pytest.approx(gross_runoff_in * 0.79)


def test_heavy_rain_runs_off_clay() -> None:
    """TR-55 with curve number 80 (from memory): (2 − 0.5)² ÷ (2 + 2) = 0.5625 in of 2 in."""
    days = [weather_day(JUNE, reported_eto_in=0.2, rain_in=2.0)]
    assert ledger(yard(zone(soil="clay"), weather=days)).runoff_in[0] == pytest.approx(0.5625)


def test_a_zone_that_is_not_irrigated_and_a_dormant_one_have_their_days() -> None:
    days = june_days(15, reported_eto_in=0.2, rain_in=0.0)
    dry = ledger(yard(zone(irrigated=False), weather=days))
    assert dry.depletion_in.size == 15
    assert dry.depletion_in[-1] > dry.stress_from_in[-1]
    assert dry.stress[-1] < 1
    frozen = ledger(yard(climate=climate(tmean_f=(20.0,) * 12), weather=days))
    assert frozen.etc_in.sum() == frozen.depletion_in.sum() == 0.0


def test_a_day_nobody_knows_has_no_ledger() -> None:
    found = ledger(yard(climate=()))
    assert found.depletion_in.size == found.ahead_in.size == 0
    assert found.eto_from == ()


def assert_closes(found: ZoneLedger) -> None:
    """No inch comes from nowhere or goes missing, on any day, in the thatch and in the roots."""
    store = np.concatenate([[0.0], found.thatch_store_in])
    went = found.ignored_in + found.runoff_in + found.into_soil_in + found.from_thatch_in
    missing = found.rain_in + found.irrigation_in - went - np.diff(store)
    assert np.abs(missing).max(initial=0.0) < 1e-9
    depletion = np.concatenate([[0.0], found.depletion_in])
    drawn = found.used_in - found.from_thatch_in
    change = drawn + found.drained_in - found.into_soil_in - found.clipped_in
    assert np.abs(np.diff(depletion) - change).max(initial=0.0) < 1e-9
    assert (found.depletion_in <= found.capacity_in + 1e-9).all()
    assert (found.used_in <= found.etc_in + 1e-9).all()


@pytest.mark.parametrize("sample", sample_yards(), ids=lambda path: path.stem)
def test_every_inch_of_the_samples_is_accounted_for(sample: Path) -> None:
    on = date(2026, 11, 15)
    setting = setting_of(as_of(load_any(sample, on), on), on)
    for number, each in enumerate(setting.notebook.zones.values(), 1):
        found = zone_ledger(setting, facts_of(setting, each, number))
        assert found.depletion_in.size > 300
        assert_closes(found)


@settings(deadline=None, max_examples=40, suppress_health_check=list(HealthCheck))
@given(notebooks(), st.dates(date(1995, 1, 1), date(2028, 1, 1)))
def test_every_inch_of_any_notebook_is_accounted_for(book: Notebook, on: date) -> None:
    setting = setting_of(as_of(book, on), on)
    for number, each in enumerate(setting.notebook.zones.values(), 1):
        assert_closes(zone_ledger(setting, facts_of(setting, each, number)))


def test_the_roots_of_past_days_are_held_before_the_first_plug_and_after_the_last() -> None:
    plugs = [
        core(date(2026, 6, 3), 0.5, root_depth_in=2.5),
        core(date(2026, 6, 5), 1.5, root_depth_in=6.5),
    ]
    read, none = readings_of([plugs]), readings_of([])
    rooted, thatch = rooted_and_thatch_on(zone(), read, date(2026, 6, 2).toordinal() + np.arange(5))
    assert rooted.tolist() == [2.0, 2.0, 3.5, 5.0, 5.0]
    assert thatch.tolist() == [0.5, 0.5, 1.0, 1.5, 1.5]
    rooted, thatch = rooted_and_thatch_on(zone(), none, JUNE.toordinal() + np.arange(2))
    assert (rooted.tolist(), thatch.tolist()) == ([6.0, 6.0], [0.0, 0.0])
    rooted, _ = rooted_and_thatch_on(
        zone(default_root_depth_in=4.0), none, JUNE.toordinal() + np.arange(1)
    )
    assert rooted.tolist() == [4.0]
