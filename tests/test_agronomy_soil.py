"""Soils, slopes, and runs split so that nothing runs off."""

import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from lawnbook.agronomy.soil import (
    DEFAULT_SOIL,
    SOILS,
    THICK_THATCH_IN,
    WETTING_IN,
    Soil,
    longest_cycle_minutes,
    split_cycles,
    surface_storage_in,
    usda_most_rate_in_per_h,
    wetting_minutes,
)

SOIL = st.sampled_from(sorted(SOILS))
RATE = st.floats(0.05, 8.0)
RUN = st.floats(0.5, 600.0)
SLOPE = st.floats(0.0, 40.0)

# Irrigation Association scheduling table (from memory): intake in/h, available water in/in, surface
# storage in at 0-3 / 4-6 / 7-12 / 13+ % slope.
TABLE = [
    ("clay", 0.10, 0.17, 0.20, 0.15, 0.10, 0.10),
    ("silty clay", 0.15, 0.17, 0.23, 0.19, 0.16, 0.13),
    ("clay loam", 0.20, 0.18, 0.26, 0.22, 0.18, 0.15),
    ("loam", 0.35, 0.17, 0.30, 0.25, 0.21, 0.17),
    ("sandy loam", 0.40, 0.12, 0.33, 0.29, 0.24, 0.20),
    ("loamy sand", 0.50, 0.08, 0.36, 0.30, 0.26, 0.22),
    ("sand", 0.60, 0.06, 0.40, 0.35, 0.30, 0.25),
]


@pytest.mark.parametrize("row", TABLE, ids=[str(row[0]) for row in TABLE])
def test_soil_table(row: tuple[str, float, float, float, float, float, float]) -> None:
    name, intake, held, *storage = row
    soil = SOILS[name]
    assert (soil.name, soil.intake_in_per_h, soil.available_water_in_per_in) == (name, intake, held)
    assert list(soil.surface_storage_in) == storage


def test_seven_soils_and_a_default() -> None:
    assert len(SOILS) == 7
    assert DEFAULT_SOIL in SOILS


@pytest.mark.parametrize(
    ("slope_pct", "band"),
    [(0, 0), (3, 0), (3.01, 1), (6, 1), (6.01, 2), (12, 2), (12.01, 3), (40, 3)],
)
def test_slope_bands(slope_pct: float, band: int) -> None:
    loam = SOILS["loam"]
    assert surface_storage_in(loam, slope_pct) == loam.surface_storage_in[band]


def test_longest_cycle_by_hand() -> None:
    # 60 x 0.30 / (1.55 - 0.35) = 15 min on flat loam.
    assert longest_cycle_minutes(1.55, 0.35, 0.30) == pytest.approx(15.0)


@pytest.mark.parametrize("rate", [0.0, 0.2, 0.35])
def test_a_soil_that_keeps_up_needs_no_second_cycle(rate: float) -> None:
    assert longest_cycle_minutes(rate, 0.35, 0.30) == math.inf
    cycles = split_cycles(300.0, rate, SOILS["loam"], 0.0)
    assert (cycles.count, cycles.minutes_each, cycles.soak_minutes) == (1, 300.0, 0.0)


def test_cycles_by_hand() -> None:
    # 40 min where 15 is the longest: three of 13.33, each soaking 13.33 x (1.55 / 0.35 - 1).
    cycles = split_cycles(40.0, 1.55, SOILS["loam"], 2.0)
    assert cycles.count == 3
    assert cycles.minutes_each == pytest.approx(40.0 / 3.0)
    assert cycles.soak_minutes == pytest.approx(40.0 / 3.0 * (1.55 / 0.35 - 1.0))


@given(st.integers(1, 40), st.floats(0.4, 8.0), SLOPE)
@example(times=3, rate=0.85, slope_pct=0.0)
def test_exact_multiples_of_the_longest_are_not_split_once_more(
    times: int, rate: float, slope_pct: float
) -> None:
    loam = SOILS["loam"]
    longest = longest_cycle_minutes(rate, 0.35, surface_storage_in(loam, slope_pct))
    run = sum([longest] * times)  # adding up leaves the rounding errors of life
    assert split_cycles(run, rate, loam, slope_pct).count == times


def test_no_run_no_cycles() -> None:
    assert split_cycles(0.0, 1.5, SOILS["clay"], 5.0).count == 0


@given(RUN, RATE, SOIL, SLOPE)
def test_no_cycle_overflows_the_surface(
    run: float, rate: float, name: str, slope_pct: float
) -> None:
    soil = SOILS[name]
    cycles = split_cycles(run, rate, soil, slope_pct)
    assert cycles.count * cycles.minutes_each == pytest.approx(run)
    standing_in = cycles.minutes_each / 60.0 * (rate - soil.intake_in_per_h)
    assert standing_in <= surface_storage_in(soil, slope_pct) * (1 + 1e-6)
    # What stands at the end of a cycle has gone in by the end of the soak.
    if cycles.count > 1:
        assert cycles.soak_minutes / 60.0 * soil.intake_in_per_h == pytest.approx(standing_in)


@given(RUN, RATE, SOIL, SLOPE)
def test_no_fewer_cycles_would_do(run: float, rate: float, name: str, slope_pct: float) -> None:
    soil = SOILS[name]
    cycles = split_cycles(run, rate, soil, slope_pct)
    if cycles.count > 1:
        one_fewer = run / (cycles.count - 1) / 60.0 * (rate - soil.intake_in_per_h)
        assert one_fewer > surface_storage_in(soil, slope_pct) * (1 - 1e-6)


@given(RUN, RATE, SOIL, SLOPE, SLOPE)
def test_steeper_ground_never_takes_fewer_cycles(
    run: float, rate: float, name: str, one_pct: float, other_pct: float
) -> None:
    gentle, steep = sorted((one_pct, other_pct))
    soil = SOILS[name]
    assert split_cycles(run, rate, soil, gentle).count <= split_cycles(run, rate, soil, steep).count


@pytest.mark.parametrize(
    ("soil", "slope_pct", "covered", "expected"),
    # USDA table, as reprinted in the trade press 2018.
    [
        ("sand", 5.0, True, 2.0),
        ("sand", 8.0, False, 1.5),
        ("sandy loam", 0.0, True, 1.75),
        ("sandy loam", 12.0, False, 0.6),
        ("loam", 5.0, True, 1.0),
        ("loam", 5.1, True, 0.8),
        ("loam", 12.0, False, 0.3),
        ("clay", 0.0, True, 0.2),
        ("clay loam", 8.0, True, 0.15),
        ("silty clay", 10.0, False, 0.08),
    ],
)
def test_usda_rates(soil: str, slope_pct: float, covered: bool, expected: float) -> None:
    assert usda_most_rate_in_per_h(soil, slope_pct, covered) == expected


def test_usda_table_ends() -> None:
    assert usda_most_rate_in_per_h("loam", 12.1) is None
    assert usda_most_rate_in_per_h("peat", 2.0) is None


@given(SOIL, st.floats(0, 12), st.floats(0, 12))
def test_usda_rates_fall_with_slope_and_on_bare_ground(
    name: str, one_pct: float, other_pct: float
) -> None:
    gentle, steep = sorted((one_pct, other_pct))
    on_gentle, on_steep = (usda_most_rate_in_per_h(name, slope) for slope in (gentle, steep))
    bare = usda_most_rate_in_per_h(name, gentle, covered=False)
    assert on_gentle is not None
    assert on_steep is not None
    assert bare is not None
    assert on_steep <= on_gentle
    assert bare <= on_gentle


def test_every_soil_is_in_the_usda_table() -> None:
    assert all(usda_most_rate_in_per_h(name, 0.0) is not None for name in SOILS)


@pytest.mark.parametrize(
    ("cycle", "rate", "thatch_in", "expected"),
    # A tenth of an inch at 0.6 in/h takes 10 min (common practice); never over half of the cycle.
    [(30.0, 0.6, 0.75, 10.0), (12.0, 0.6, 0.75, 6.0), (30.0, 0.6, 0.5, 0.0), (30.0, 0.6, 0.0, 0.0)],
)
def test_thick_thatch_is_wetted_first(
    cycle: float, rate: float, thatch_in: float, expected: float
) -> None:
    """Half an inch is where harm begins (UC IPM; University of Delaware)."""
    assert wetting_minutes(cycle, rate, thatch_in) == pytest.approx(expected)


@given(RUN, RATE, st.floats(0, 4))
def test_wetting_is_light_and_part_of_the_cycle(cycle: float, rate: float, thatch: float) -> None:
    ahead = wetting_minutes(cycle, rate, thatch)
    assert 0 <= ahead <= cycle / 2
    assert ahead * rate / 60 <= WETTING_IN * (1 + 1e-9)
    assert (ahead > 0) == (thatch > THICK_THATCH_IN)


def test_out_of_domain() -> None:
    with pytest.raises(ValueError, match="thatch_in must be zero or more"):
        wetting_minutes(10.0, 1.0, -0.1)
    with pytest.raises(ValueError, match="slope_pct must be zero or more"):
        surface_storage_in(SOILS["loam"], -1.0)
    with pytest.raises(ValueError, match="run_minutes must be a finite number"):
        split_cycles(math.inf, 1.0, SOILS["loam"], 0.0)
    with pytest.raises(ValueError, match="intake_in_per_h must be above zero"):
        Soil("stone", 0.0, 0.1, (0.1, 0.1, 0.1, 0.1))
    with pytest.raises(ValueError, match="surface_storage_in must be above zero"):
        Soil("glass", 0.1, 0.1, (0.1, 0.1, 0.1, 0.0))
