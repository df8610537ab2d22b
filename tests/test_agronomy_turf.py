"""Crop coefficients, growth, dormancy and species."""

import math
import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.seasons import by_calendar_month, is_south, table_month
from lawnbook.agronomy.turf import (
    DEPLETION,
    KC,
    SPECIES,
    crop_coefficient,
    growing,
    growth_potential,
)

MONTH = st.integers(1, 12)
LATITUDE = st.floats(-90, 90)


@pytest.mark.parametrize(
    ("grass", "by_month"),
    # University of California, Center for Landscape and Urban Horticulture, Turfgrass Crop
    # Coefficients, from Meyer and others 1985; the copy with 0.61 for warm-season January.
    [
        ("cool", "0.61 0.64 0.75 1.04 0.95 0.88 0.94 0.86 0.74 0.75 0.69 0.60"),
        ("warm", "0.61 0.54 0.76 0.72 0.79 0.68 0.71 0.71 0.62 0.54 0.58 0.55"),
    ],
)
def test_crop_coefficients(grass: str, by_month: str) -> None:
    printed = [float(value) for value in by_month.split()]
    assert [crop_coefficient(month, grass, 40.0) for month in range(1, 13)] == printed


def test_means_of_the_year() -> None:
    # The table prints 0.80 for the cool year, which is its months' mean to within 0.01. The 0.60 it
    # prints for the warm year is not: those months average 0.65.
    assert statistics.mean(KC["cool"]) == pytest.approx(0.80, abs=0.015)
    assert statistics.mean(KC["warm"]) == pytest.approx(0.65, abs=0.005)


@given(MONTH, st.sampled_from(["cool", "warm"]), st.floats(0.001, 90))
def test_the_south_is_six_months_away(month: int, grass: str, latitude_deg: float) -> None:
    half_a_year_on = (month + 5) % 12 + 1
    north = crop_coefficient(month, grass, latitude_deg)
    assert north == crop_coefficient(half_a_year_on, grass, -latitude_deg)


def test_southern_january_is_northern_july() -> None:
    assert crop_coefficient(1, "cool", -35.0) == KC["cool"][6]
    assert crop_coefficient(7, "cool", -35.0) == KC["cool"][0]


@given(MONTH, LATITUDE)
def test_the_shift_undoes_itself(month: int, latitude_deg: float) -> None:
    assert table_month(table_month(month, latitude_deg), latitude_deg) == month


@given(LATITUDE)
def test_a_table_keeps_its_months(latitude_deg: float) -> None:
    table = tuple(float(month) for month in range(1, 13))
    shifted = by_calendar_month(table, latitude_deg)
    assert sorted(shifted) == list(table)
    assert (shifted == table) == (not is_south(latitude_deg))


def test_the_equator_counts_as_north() -> None:
    assert not is_south(0.0)
    assert is_south(-0.01)


def test_allowed_depletion() -> None:
    # FAO-56 table 22: turf, p 0.40 cool season, 0.50 warm season (from memory).
    assert dict(DEPLETION) == {"cool": 0.40, "warm": 0.50}


@pytest.mark.parametrize(
    ("tmean_f", "grass", "expected"),
    # Gelernter and Stowell, Grounds Maintenance 2005 (widths from memory): one width off the
    # optimum leaves exp(-1/2).
    [
        (68.0, "cool", 1.0),
        (58.0, "cool", math.exp(-0.5)),
        (78.0, "cool", math.exp(-0.5)),
        (48.0, "cool", math.exp(-2.0)),
        (88.0, "warm", 1.0),
        (76.0, "warm", math.exp(-0.5)),
        (100.0, "warm", 1.0),
    ],
)
def test_growth_potential(tmean_f: float, grass: str, expected: float) -> None:
    assert growth_potential(tmean_f, grass) == pytest.approx(expected)


@given(st.floats(-40, 130), st.sampled_from(["cool", "warm"]))
def test_growth_is_a_share(tmean_f: float, grass: str) -> None:
    assert 0.0 <= growth_potential(tmean_f, grass) <= 1.0


@given(st.floats(-40, 88), st.floats(0.01, 20))
def test_warmth_never_slows_warm_season_grass(tmean_f: float, warmer_f: float) -> None:
    assert growth_potential(tmean_f + warmer_f, "warm") >= growth_potential(tmean_f, "warm")


@pytest.mark.parametrize(
    ("tmean_f", "grass", "expected"),
    # (common practice)
    [(39.9, "cool", False), (40.0, "cool", True), (49.9, "warm", False), (50.0, "warm", True)],
)
def test_dormancy(tmean_f: float, grass: str, expected: bool) -> None:
    assert growing(tmean_f, grass) is expected


def test_species() -> None:
    # Year's N by species: Virginia Department of Conservation and Recreation.
    needs = {
        each.name: (each.grass, each.year_n_low, each.year_n_high) for each in SPECIES.values()
    }
    assert list(SPECIES) == list(needs)
    assert needs == {
        "Kentucky bluegrass": ("cool", 2.0, 3.5),
        "perennial ryegrass": ("cool", 2.0, 3.5),
        "tall fescue": ("cool", 2.0, 3.5),
        "fine fescue": ("cool", 1.0, 2.0),
        "bermudagrass": ("warm", 2.0, 4.0),
        "zoysiagrass": ("warm", 1.0, 2.0),
        "St. Augustinegrass": ("warm", 2.0, 4.0),
        "centipedegrass": ("warm", 1.0, 2.0),
    }


def test_out_of_domain() -> None:
    with pytest.raises(ValueError, match='grass must be "cool" or "warm"'):
        crop_coefficient(5, "tropical", 40.0)
    with pytest.raises(ValueError, match="month must be 1 to 12"):
        crop_coefficient(13, "cool", 40.0)
    with pytest.raises(ValueError, match="latitude_deg must lie between"):
        crop_coefficient(5, "cool", 95.0)
    with pytest.raises(ValueError, match="tmean_f must be a finite number"):
        growing(math.nan, "cool")
    with pytest.raises(ValueError, match="tmean_f must be a finite number"):
        growth_potential(math.inf, "warm")
    with pytest.raises(ValueError, match="holds 12 values"):
        by_calendar_month([1.0], 40.0)
