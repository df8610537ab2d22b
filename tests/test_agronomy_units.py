"""Conversions, against the pint library and the trade's round figures."""

from collections.abc import Callable

import numpy as np
import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy import units

Convert = Callable[[float], float]

PAIRS: list[tuple[Convert, Convert, str, str]] = [
    (units.in_to_mm, units.mm_to_in, "inch", "millimeter"),
    (units.ft_to_m, units.m_to_ft, "foot", "meter"),
    (units.f_to_c, units.c_to_f, "degF", "degC"),
    (units.sqft_to_m2, units.m2_to_sqft, "foot**2", "meter**2"),
    (units.gal_to_l, units.l_to_gal, "gallon", "liter"),
    (units.fl_oz_to_gal, units.gal_to_fl_oz, "fluid_ounce", "gallon"),
    (units.ml_to_gal, units.gal_to_ml, "milliliter", "gallon"),
    (units.ml_to_cuin, units.cuin_to_ml, "milliliter", "inch**3"),
    (units.lb_to_kg, units.kg_to_lb, "pound", "kilogram"),
    (
        units.lb_per_1000_to_g_per_m2,
        units.g_per_m2_to_lb_per_1000,
        "pound / (1000 * foot**2)",
        "gram / meter**2",
    ),
    (units.mph_to_m_per_s, units.m_per_s_to_mph, "mile / hour", "meter / second"),
    (units.psi_to_kpa, units.kpa_to_psi, "psi", "kilopascal"),
]


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry[float]:
    """pint's own definitions, the reference here."""
    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


def factor_in(registry: pint.UnitRegistry[float], value: float, unit: str, other: str) -> float:
    """`value` of `unit` in `other`, by pint; temperatures are no plain multiples."""
    parsed = registry.parse_expression(unit)
    target = registry.parse_units(other)
    if unit.startswith("deg"):
        return float(registry.Quantity(value, unit).to(target).magnitude)
    return float((value * parsed).to(target).magnitude)


@pytest.mark.parametrize(("there", "back", "unit", "other"), PAIRS)
@pytest.mark.parametrize("value", [1.0, 37.25, 1000.0])
def test_conversions_agree_with_pint(
    registry: pint.UnitRegistry[float],
    there: Convert,
    back: Convert,
    unit: str,
    other: str,
    value: float,
) -> None:
    converted = there(value)
    assert converted == pytest.approx(factor_in(registry, value, unit, other), rel=1e-9)
    assert back(converted) == pytest.approx(value, rel=1e-12)


@given(st.floats(-1e6, 1e6), st.sampled_from(PAIRS))
def test_there_and_back_again(value: float, pair: tuple[Convert, Convert, str, str]) -> None:
    there, back, _, _ = pair
    assert back(there(value)) == pytest.approx(value, rel=1e-9, abs=1e-9)


def test_arrays_convert_like_floats() -> None:
    inches = np.array([0.0, 0.5, 1.0])
    assert units.in_to_mm(inches).tolist() == [0.0, 12.7, 25.4]
    assert units.f_to_c(np.array([32.0, 212.0])) == pytest.approx([0.0, 100.0])


def test_an_inch_on_a_square_foot() -> None:
    # 1 cu ft is 7.48052 gal (NIST Handbook 44, appendix C), so an inch of it is a twelfth.
    assert pytest.approx(7.48052 / 12, rel=1e-6) == units.SQFT_IN_TO_GAL


def test_a_pound_on_a_thousand_square_feet() -> None:
    # 1 lb per 1,000 sq ft is 4.88 g/m2 (common practice)
    assert units.lb_per_1000_to_g_per_m2(1.0) == pytest.approx(4.88, abs=0.005)


def test_a_milligram_in_a_litre() -> None:
    # Water of 1 mg/L holds 8.345 lb in a million gallons (a waterworks constant, common practice).
    assert pytest.approx(8.345e-6, rel=1e-4) == units.LB_PER_GAL_WATER_PER_MG_PER_L


def test_a_tablespoon_and_a_fluid_ounce() -> None:
    # NIST Handbook 44, appendix C: a fluid ounce is 29.5735 mL, 2 tablespoons, 6 teaspoons.
    ounce_gal = units.fl_oz_to_gal(1.0)
    assert units.gal_to_ml(ounce_gal) == pytest.approx(29.5735, rel=1e-5)
    assert units.gal_to_tbsp(ounce_gal) == pytest.approx(2.0)
    assert ounce_gal * units.TSP_PER_GAL == pytest.approx(6.0)
    assert units.oz_to_lb(16.0) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("per_gal", "unit"),
    [
        (units.CUPS_PER_GAL, "cup"),
        (units.FL_OZ_PER_GAL, "fluid_ounce"),
        (units.TBSP_PER_GAL, "tablespoon"),
        (units.TSP_PER_GAL, "teaspoon"),
    ],
)
def test_measures_of_a_kitchen_in_a_gallon(
    registry: pint.UnitRegistry[float], per_gal: float, unit: str
) -> None:
    assert per_gal == pytest.approx(factor_in(registry, 1.0, "gallon", unit))
