"""Conversions between the owner's units and the formulas' units.

Each function takes a float or a float64 array and gives the same kind back. The factors are exact
by definition (international yard and pound agreement of 1959; US liquid gallon of 231 cubic inches;
NIST Handbook 44, appendix C) except the two marked as rounded by standard gravity.
"""

from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Value = TypeVar("Value", float, "NDArray[np.float64]")

MM_PER_IN = 25.4
M_PER_FT = 0.3048
M2_PER_SQFT = M_PER_FT**2
CUIN_PER_GAL = 231.0
SQIN_PER_SQFT = 144.0
ML_PER_CUIN = 16.387064
L_PER_GAL = CUIN_PER_GAL * ML_PER_CUIN / 1000.0
FL_OZ_PER_GAL = 128.0
CUPS_PER_GAL = 16.0
TBSP_PER_GAL = 256.0
TSP_PER_GAL = 768.0
"""A US gallon is 16 cups of 8 fluid ounces; a fluid ounce is 2 tablespoons of 3 teaspoons."""

G_PER_LB = 453.59237
OZ_PER_LB = 16.0
M_PER_S_PER_MPH = 0.44704
KPA_PER_PSI = 6.894757293168361
"""Pounds-force take standard gravity, 9.80665 m/s2."""

SQFT_IN_TO_GAL = SQIN_PER_SQFT / CUIN_PER_GAL
"""Gallons in one inch of water over one square foot, 144 / 231 = 0.62338."""

LB_PER_GAL_WATER_PER_MG_PER_L = L_PER_GAL / (G_PER_LB * 1000.0)
"""Pounds of a solute in one gallon of water that holds 1 mg/L: 8.345e-6."""

LB_PER_GAL_PER_KG_PER_L = 1e6 * LB_PER_GAL_WATER_PER_MG_PER_L
"""Pounds in one gallon of a liquid of 1 kg/L, which water at about 40 deg F is: 8.345."""


def in_to_mm(length_in: Value) -> Value:
    """Inches to millimetres."""
    return length_in * MM_PER_IN


def mm_to_in(length_mm: Value) -> Value:
    """Millimetres to inches."""
    return length_mm / MM_PER_IN


def ft_to_m(length_ft: Value) -> Value:
    """Feet to metres."""
    return length_ft * M_PER_FT


def m_to_ft(length_m: Value) -> Value:
    """Metres to feet."""
    return length_m / M_PER_FT


def f_to_c(temperature_f: Value) -> Value:
    """Degrees Fahrenheit to degrees Celsius."""
    return (temperature_f - 32.0) / 1.8


def c_to_f(temperature_c: Value) -> Value:
    """Degrees Celsius to degrees Fahrenheit."""
    return temperature_c * 1.8 + 32.0


def sqft_to_m2(area_sqft: Value) -> Value:
    """Square feet to square metres."""
    return area_sqft * M2_PER_SQFT


def m2_to_sqft(area_m2: Value) -> Value:
    """Square metres to square feet."""
    return area_m2 / M2_PER_SQFT


def gal_to_l(volume_gal: Value) -> Value:
    """US gallons to litres."""
    return volume_gal * L_PER_GAL


def l_to_gal(volume_l: Value) -> Value:
    """Litres to US gallons."""
    return volume_l / L_PER_GAL


def fl_oz_to_gal(volume_fl_oz: Value) -> Value:
    """US fluid ounces to US gallons."""
    return volume_fl_oz / FL_OZ_PER_GAL


def gal_to_fl_oz(volume_gal: Value) -> Value:
    """US gallons to US fluid ounces."""
    return volume_gal * FL_OZ_PER_GAL


def gal_to_tbsp(volume_gal: Value) -> Value:
    """US gallons to US tablespoons."""
    return volume_gal * TBSP_PER_GAL


def ml_to_gal(volume_ml: Value) -> Value:
    """Millilitres to US gallons."""
    return volume_ml / (1000.0 * L_PER_GAL)


def gal_to_ml(volume_gal: Value) -> Value:
    """US gallons to millilitres."""
    return volume_gal * (1000.0 * L_PER_GAL)


def ml_to_cuin(volume_ml: Value) -> Value:
    """Millilitres to cubic inches."""
    return volume_ml / ML_PER_CUIN


def cuin_to_ml(volume_cuin: Value) -> Value:
    """Cubic inches to millilitres."""
    return volume_cuin * ML_PER_CUIN


def lb_to_kg(mass_lb: Value) -> Value:
    """Pounds to kilograms."""
    return mass_lb * (G_PER_LB / 1000.0)


def kg_to_lb(mass_kg: Value) -> Value:
    """Kilograms to pounds."""
    return mass_kg / (G_PER_LB / 1000.0)


def oz_to_lb(mass_oz: Value) -> Value:
    """Ounces by weight (avoirdupois) to pounds."""
    return mass_oz / OZ_PER_LB


def lb_per_1000_to_g_per_m2(rate_lb_per_1000: Value) -> Value:
    """Pounds per 1,000 square feet to grams per square metre (1 lb is 4.88 g/m2)."""
    return rate_lb_per_1000 * (G_PER_LB / (1000.0 * M2_PER_SQFT))


def g_per_m2_to_lb_per_1000(rate_g_per_m2: Value) -> Value:
    """Grams per square metre to pounds per 1,000 square feet."""
    return rate_g_per_m2 * (1000.0 * M2_PER_SQFT / G_PER_LB)


def mph_to_m_per_s(speed_mph: Value) -> Value:
    """Miles per hour to metres per second."""
    return speed_mph * M_PER_S_PER_MPH


def m_per_s_to_mph(speed_m_per_s: Value) -> Value:
    """Metres per second to miles per hour."""
    return speed_m_per_s / M_PER_S_PER_MPH


def psi_to_kpa(pressure_psi: Value) -> Value:
    """Pounds per square inch to kilopascals."""
    return pressure_psi * KPA_PER_PSI


def kpa_to_psi(pressure_kpa: Value) -> Value:
    """Kilopascals to pounds per square inch."""
    return pressure_kpa / KPA_PER_PSI
