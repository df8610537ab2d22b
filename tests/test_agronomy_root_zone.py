"""The root zone day by day: stress, thatch, draining, and that every inch is accounted for."""

import math
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.root_zone import (
    Day,
    Days,
    DayWater,
    Series,
    day_water,
    refilled_series,
    root_zone_series,
    stress_coefficient,
)


def days(count: int, **columns: float | Sequence[float]) -> Days:
    """Days in a row of 0.2 in of use on 1 in of available water, without thatch, unless told."""
    told: dict[str, float | Sequence[float]] = {
        "eto_in": 0.2,
        "etc_in": 0.2,
        "rain_in": 0.0,
        "irrigation_in": 0.0,
        "runoff_in": 0.0,
        "capacity_in": 1.0,
        "thatch_capacity_in": 0.0,
        **columns,
    }
    return Days(**{name: np.array(np.broadcast_to(told[name], count)) for name in Day._fields})


def test_stress_on_tomatoes_over_ten_dry_days() -> None:
    """FAO-56 example 37 (from memory), in mm: TAW 160, p 0.40, ETc 6.0, depletion 55 at first."""
    ten = days(10, eto_in=5.0, etc_in=6.0, capacity_in=160.0)
    series = root_zone_series(ten, 0.40, 55.0)
    assert series.depletion_in == pytest.approx(
        [61.0, 67.0, 72.8, 78.3, 83.4, 88.2, 92.6, 96.8, 100.8, 104.5], abs=0.06
    )
    assert series.stress == pytest.approx(
        [1.00, 1.00, 0.97, 0.91, 0.85, 0.80, 0.75, 0.70, 0.66, 0.62], abs=0.006
    )
    assert series.used_in == pytest.approx(
        [6.0, 6.0, 5.8, 5.4, 5.1, 4.8, 4.5, 4.2, 3.9, 3.7], abs=0.06
    )


@pytest.mark.parametrize(
    ("share_used", "p", "stress"),
    [(0.0, 0.4, 1.0), (0.4, 0.4, 1.0), (0.7, 0.4, 0.5), (1.0, 0.4, 0.0), (1.0, 1.0, 1.0)],
)
def test_the_stress_coefficient(share_used: float, p: float, stress: float) -> None:
    """FAO-56 eq. 84: Ks = (TAW − Dr) ÷ ((1 − p) TAW)."""
    assert stress_coefficient(share_used, p) == pytest.approx(stress)


def test_the_ledger_by_hand() -> None:
    """FAO-56 eq. 85, day by day: use, slight rain, irrigation, a storm past capacity, use."""
    five = days(
        5,
        eto_in=0.25,
        rain_in=[0.0, 0.03, 0.0, 1.5, 0.0],
        irrigation_in=[0.0, 0.0, 0.3, 0.0, 0.0],
    )
    series = root_zone_series(five, 0.40)
    assert series.depletion_in == pytest.approx([0.2, 0.4, 0.3, 0.0, 0.2])
    assert series.ignored_in == pytest.approx([0.0, 0.03, 0.0, 0.0, 0.0])
    # FAO-56 eq. 88: the day's own use is netted before the surplus drains.
    assert series.drained_in == pytest.approx([0.0, 0.0, 0.0, 1.5 - 0.3 - 0.2, 0.0])
    assert series.last.depletion_in == pytest.approx(0.2)


@pytest.mark.parametrize(("rain_in", "ignored_in"), [(0.039, 0.039), (0.041, 0.0)])
def test_slight_rain_is_ignored(rain_in: float, ignored_in: float) -> None:
    """FAO-56 chapter 8: rain under 0.2 ETo is not counted."""
    assert root_zone_series(days(1, rain_in=rain_in), 0.4).ignored_in[0] == ignored_in


def test_stress_goes_by_the_depletion_after_the_water_came() -> None:
    dry = root_zone_series(days(1), 0.4, 0.9)
    watered = root_zone_series(days(1, irrigation_in=0.6), 0.4, 0.9)
    assert dry.stress[0] == pytest.approx(0.1 / 0.6)
    assert watered.stress[0] == 1.0
    assert watered.depletion_in[0] == pytest.approx(0.5)


def test_run_off_never_goes_in() -> None:
    series = root_zone_series(days(1, rain_in=1.0, runoff_in=[0.3]), 0.4, 0.9)
    assert series.into_soil_in[0] == pytest.approx(0.7)
    # More than came cannot run off.
    assert root_zone_series(days(1, runoff_in=[0.3]), 0.4).runoff_in[0] == 0.0


def test_thatch_fills_first_and_gives_first() -> None:
    """0.075 in of the 0.3 in stay in the thatch, and are the first of the day's 0.2 in of use."""
    series = root_zone_series(days(2, irrigation_in=[0.3, 0.0], thatch_capacity_in=0.075), 0.4, 0.5)
    assert series.into_soil_in == pytest.approx([0.225, 0.0])
    assert series.from_thatch_in == pytest.approx([0.075, 0.0])
    assert series.from_soil_in == pytest.approx([0.125, 0.2 * 1.0])
    assert series.depletion_in == pytest.approx([0.4, 0.6])
    assert series.thatch_store_in == pytest.approx([0.0, 0.0])


def test_light_sprinkles_may_never_pass_the_thatch() -> None:
    light = days(30, irrigation_in=0.08, thatch_capacity_in=0.1)
    assert root_zone_series(light, 0.4).into_soil_in.sum() == 0.0


def test_thatch_that_thins_gives_its_water_to_the_soil() -> None:
    thinning = days(2, etc_in=0.0, irrigation_in=[0.2, 0.0], thatch_capacity_in=[0.1, 0.04])
    series = root_zone_series(thinning, 0.4, 0.5)
    assert series.into_soil_in == pytest.approx([0.1, 0.06])
    assert series.thatch_store_in == pytest.approx([0.1, 0.04])


def test_soil_that_roots_leave_takes_its_depletion_along() -> None:
    series = root_zone_series(days(3, etc_in=0.0, capacity_in=[1.0, 0.3, 1.0]), 0.4, 0.5)
    assert series.depletion_in == pytest.approx([0.5, 0.3, 0.3])
    assert series.clipped_in == pytest.approx([0.0, 0.2, 0.0])


def test_roots_that_reach_no_soil_draw_nothing() -> None:
    series = root_zone_series(days(2, capacity_in=0.0, irrigation_in=0.5), 0.4)
    assert series.stress.tolist() == [0.0, 0.0]
    assert series.used_in.sum() == series.depletion_in.sum() == 0.0
    assert series.drained_in.sum() == pytest.approx(1.0)


def test_no_days() -> None:
    assert root_zone_series(days(0), 0.4).depletion_in.size == 0
    assert root_zone_series(days(0), 0.4).used_in.size == 0


DEPTH = st.floats(0, 3)
DAY = st.builds(
    Day,
    eto_in=st.floats(0, 0.5),
    etc_in=st.floats(0, 0.6),
    rain_in=DEPTH,
    irrigation_in=st.floats(0, 2),
    runoff_in=st.floats(0, 1),
    capacity_in=st.one_of(st.just(0.0), st.floats(0.01, 4)),
    thatch_capacity_in=st.floats(0, 0.4),
)
P = st.floats(0.05, 1.0)


def of(rows: list[Day]) -> Days:
    """Some days as columns."""
    table = np.array(rows, dtype=np.float64).reshape(-1, len(Day._fields))
    return Days(**dict(zip(Day._fields, table.T, strict=True)))


def assert_closes(rows: Days, series: Series, start_in: float, thatch_start_in: float) -> None:
    """No inch comes from nowhere or goes missing, in the thatch and in the roots, on any day."""
    store = np.concatenate([[thatch_start_in], series.thatch_store_in])
    came = rows.rain_in + rows.irrigation_in
    went = series.ignored_in + series.runoff_in + series.into_soil_in + series.from_thatch_in
    assert np.abs(came - went - np.diff(store)).max(initial=0.0) < 1e-9
    depletion = np.concatenate([[start_in], series.depletion_in])
    change = series.from_soil_in + series.drained_in - series.into_soil_in - series.clipped_in
    assert np.abs(np.diff(depletion) - change).max(initial=0.0) < 1e-9


@given(st.lists(DAY, max_size=60), P, st.floats(0, 2), st.floats(0, 0.3))
def test_every_inch_is_accounted_for_every_day(
    rows: list[Day], p: float, start_in: float, thatch_start_in: float
) -> None:
    given_days = of(rows)
    series = root_zone_series(given_days, p, start_in, thatch_start_in)
    assert_closes(given_days, series, start_in, thatch_start_in)
    for name in Series.__slots__:
        assert (getattr(series, name) >= 0).all(), name
    assert (series.depletion_in <= given_days.capacity_in + 1e-12).all()
    assert (series.thatch_store_in <= given_days.thatch_capacity_in).all()
    assert (series.used_in <= given_days.etc_in + 1e-12).all()
    assert (series.stress <= 1).all()


def series_of(waters: Sequence[DayWater]) -> Series:
    """Days in a row as columns."""
    table = np.array(waters, dtype=np.float64).reshape(-1, len(DayWater._fields))
    return Series(**dict(zip(DayWater._fields, table.T, strict=True)))


def one_by_one(rows: Sequence[Day], p: float, start_in: float, thatch_start_in: float) -> Series:
    """The slow reference: `day_water`, day after day."""
    depletion, store = start_in, thatch_start_in
    waters = []
    for row in rows:
        water = day_water(depletion, store, row, p)
        depletion, store = water.depletion_in, water.thatch_store_in
        waters.append(water)
    return series_of(waters)


def assert_same_bits(fast: Series, slow: Series) -> None:
    """Every column to the last bit."""
    for name in Series.__slots__:
        assert getattr(fast, name).tolist() == getattr(slow, name).tolist(), name


@given(st.lists(DAY, max_size=40), P, st.floats(0, 2), st.floats(0, 0.3))
def test_the_series_is_its_days_one_by_one_to_the_last_bit(
    rows: list[Day], p: float, start_in: float, thatch_start_in: float
) -> None:
    slow = one_by_one(rows, p, start_in, thatch_start_in)
    assert_same_bits(root_zone_series(of(rows), p, start_in, thatch_start_in), slow)


@given(st.lists(st.tuples(DAY, st.sampled_from((math.inf, 0.0, 0.3))), max_size=40), P)
def test_refills_are_the_days_with_those_waterings(told: list[tuple[Day, float]], p: float) -> None:
    """What is refilled is asked for at the right dawns, and then the days are those of any year."""
    rows, dusk_from = [row for row, _ in told], [each for _, each in told]
    dawns: dict[int, float] = {}

    def refill(place: int, dawn_in: float) -> float:
        dawns[place] = dawn_in
        return dawn_in + 0.1

    irrigation, series = refilled_series(of(rows), p, dusk_from, refill)
    watered = [
        row._replace(irrigation_in=put) for row, put in zip(rows, irrigation.tolist(), strict=True)
    ]
    assert_same_bits(series, one_by_one(watered, p, 0.0, 0.0))
    before = np.concatenate(([0.0], series.depletion_in))
    for place, (row, from_in) in enumerate(told):
        assert (place in dawns) == (before[place] + row.etc_in >= from_in)
        assert dawns.get(place, before[place]) == before[place]


@given(st.lists(DAY, max_size=40), P, st.floats(0.01, 1))
def test_more_water_never_means_more_depletion(rows: list[Day], p: float, more_in: float) -> None:
    steady = [row._replace(capacity_in=1.5, thatch_capacity_in=0.1, runoff_in=0.0) for row in rows]
    wetter = [row._replace(irrigation_in=row.irrigation_in + more_in) for row in steady]
    less = root_zone_series(of(steady), p).depletion_in
    assert (root_zone_series(of(wetter), p).depletion_in <= less + 1e-9).all()


@given(st.lists(DAY, max_size=40), P)
def test_without_stress_and_thatch_it_is_the_plain_balance(rows: list[Day], p: float) -> None:
    """FAO-56 eq. 85 with Ks 1, as long as depletion stays within p × TAW."""
    plain = [row._replace(capacity_in=100.0, thatch_capacity_in=0.0) for row in rows]
    series = root_zone_series(of(plain), max(p, 0.5))
    used = 0.0
    for place, row in enumerate(plain):
        counted = row.rain_in if row.rain_in >= 0.2 * row.eto_in else 0.0
        came = counted + row.irrigation_in
        used = max(0.0, used - came + min(row.runoff_in, came) + row.etc_in)
        assert series.depletion_in[place] == pytest.approx(used, abs=1e-9)


def test_out_of_domain() -> None:
    with pytest.raises(ValueError, match="same length"):
        root_zone_series(Days(**{n: np.zeros(1 + (n == "rain_in")) for n in Day._fields}), 0.4)
    with pytest.raises(ValueError, match="rain_in must be zero or more"):
        root_zone_series(days(1, rain_in=-0.1), 0.4)
    with pytest.raises(ValueError, match="p must lie between"):
        root_zone_series(days(1), 1.1)
    with pytest.raises(ValueError, match="start_in must be zero or more"):
        root_zone_series(days(1), 0.4, -0.1)
    with pytest.raises(ValueError, match="share_used must lie between"):
        stress_coefficient(1.2, 0.4)
