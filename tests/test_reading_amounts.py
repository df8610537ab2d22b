"""Amounts in either units: held to another library of units, and to what a reader may expect."""

import math
import re

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.reading import Reading, read_as, read_in
from lawnbook.yard import amounts
from lawnbook.yard.amounts import (
    METRIC,
    RATE_UNIT,
    bare,
    between,
    most_told_lb,
    places_shown,
    plainly,
    shown,
    span_told,
    stored,
    told,
    told_exactly,
    told_most,
    told_most_together,
    told_room,
    told_small,
    trimmed,
    unit_shown,
)

# Pint's own definitions (NIST SP 811 and Handbook 44), not ours. Density of water is ours alone:
# "lb/gal" and "kg/L" are plain quotients there.
IN_PINT = {
    "in": ("inch", "mm"),
    "in/h": ("inch / hour", "mm / hour"),
    "in/day": ("inch / day", "mm / day"),
    "in a day": ("inch / day", "mm / day"),
    "in a week": ("inch / week", "mm / week"),
    "in a month": ("inch / month", "mm / month"),
    "in a year": ("inch / year", "mm / year"),
    "ft": ("foot", "m"),
    "miles": ("mile", "km"),
    "sq in": ("inch ** 2", "cm ** 2"),
    "sq ft": ("foot ** 2", "m ** 2"),
    "gal": ("gallon", "liter"),
    "gpm": ("gallon / minute", "liter / minute"),
    "lb": ("pound", "kg"),
    RATE_UNIT: ("pound / (1000 * foot ** 2)", "g / m ** 2"),
    "lb N per 1,000 sq ft": ("pound / (1000 * foot ** 2)", "g / m ** 2"),
    "lb/gal": ("pound / gallon", "kg / liter"),
    "lb/acre": ("pound / (43560 * foot ** 2)", "kg / hectare"),
    "°F": ("degF", "degC"),
    "mph": ("mile / hour", "m / s"),
    "psi": ("psi", "kPa"),
    "fl oz": ("fluid_ounce", "ml"),
    "gal per 1,000 sq ft": ("gallon / (1000 * foot ** 2)", "liter / (100 * m ** 2)"),
    "fl oz per 1,000 sq ft": ("fluid_ounce / (1000 * foot ** 2)", "ml / (100 * m ** 2)"),
    "per kgal": ("1 / (1000 * gallon)", "1 / m ** 3"),
    "per 1,000 gal": ("1 / (1000 * gallon)", "1 / m ** 3"),
    "per lb": ("1 / pound", "1 / kg"),
    "per 1,000 sq ft": ("1 / (1000 * foot ** 2)", "1 / (100 * m ** 2)"),
    "in per in of thatch": ("inch / inch", "mm / mm"),
    "in/in": ("inch / inch", "mm / mm"),
    "ft per pixel": ("foot", "m"),
    "px/in": ("1 / inch", "1 / cm"),
}
UNITS = sorted(METRIC)
VALUES = st.floats(-1e6, 1e6, allow_nan=False).filter(lambda value: value == 0 or abs(value) > 1e-6)


@pytest.fixture(scope="module")
def registry() -> "pint.UnitRegistry[float]":
    """The units of the other library."""
    return pint.UnitRegistry()


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("value", [0.0, 0.41, 7.0, 1204.5, -12.5])
def test_every_unit_is_what_another_library_says(
    registry: "pint.UnitRegistry[float]", unit: str, value: float
) -> None:
    us, metric = IN_PINT[unit]
    read_in("metric")
    if unit == "°F":
        expected = registry.Quantity(value, us).to(metric).magnitude
    else:
        # The units are quotients with factors in them ("pound / (1000 * foot ** 2)").
        expected = (value * registry(us)).to(registry(metric).units).magnitude
        expected /= registry(metric).magnitude
    assert shown(value, unit) == pytest.approx(expected, rel=2e-6, abs=1e-9)


@settings(max_examples=300)
@given(unit=st.sampled_from(UNITS), value=VALUES)
def test_there_and_back_is_the_same_value(unit: str, value: float) -> None:
    read_in("metric")
    assert stored(shown(value, unit), unit) == pytest.approx(value, rel=1e-12, abs=1e-9)


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("places", [0, 1, 2, 3])
def test_the_last_decimal_says_as_much_in_both(unit: str, places: int) -> None:
    """A step of the metric figure is between a quarter and 2.5 steps of the US one."""
    read_in("metric")
    metric_places = places_shown(places, unit)
    step = abs(stored(10.0**-metric_places, unit) - stored(0.0, unit))
    assert step <= 2.5 * 10.0**-places * (1 + 1e-9)
    # Without decimals nothing less can be told: a whole millimetre is less than a whole inch.
    assert metric_places == 0 or step >= 10.0**-places / 4.6


@settings(max_examples=300)
@given(
    unit=st.sampled_from(UNITS),
    value=st.floats(-5000, 5000, allow_nan=False),
    places=st.integers(0, 3),
)
def test_what_is_told_is_the_value_to_its_last_decimal(
    unit: str, value: float, places: int
) -> None:
    for units in ("us", "metric"):
        read_in("metric" if units == "metric" else "us")
        number, _, name = told(value, places, unit).partition(" ")
        assert name == unit_shown(unit)
        half = 0.5 * 10.0 ** -places_shown(places, unit)
        assert abs(float(number.replace(",", "")) - shown(value, unit)) <= half * (1 + 1e-9)


@pytest.mark.parametrize(
    ("words", "us", "metric"),
    [
        (lambda: told(0.41, 2, "in"), "0.41 in", "10.4 mm"),
        (lambda: told(1204.2, 0, "gal"), "1,204 gal", "4,558 L"),
        (lambda: told(1240, 0, "sq ft"), "1,240 sq ft", "115.2 m²"),
        (lambda: told(86, 0, "°F"), "86 °F", "30 °C"),
        (lambda: told(10, 0, "mph"), "10 mph", "4.5 m/s"),
        (lambda: told(0.9, 2, RATE_UNIT), "0.90 lb per 1,000 sq ft", "4.4 g/m²"),
        (lambda: told(50, 1, "%"), "50.0\u00a0%", "50.0\u00a0%"),
        (lambda: told(-0.001, 2, "in"), "0.00 in", "0.0 mm"),
        (lambda: bare(0.41, 2, "in"), "0.41", "10.4"),
        (lambda: trimmed(0.4, 2, "in"), "0.4 in", "10.2 mm"),
        (lambda: trimmed(1250, 2, "lb"), "1,250 lb", "566.99 kg"),
        (lambda: plainly(3, "in"), "3 in", "76 mm"),
        (lambda: plainly(1.875, "in"), "1.88 in", "48 mm"),
        (lambda: plainly(15, "ft"), "15 ft", "4.57 m"),
        (lambda: between(0.41, 0.62, 2, "in"), "0.41 to 0.62 in", "10.4 to 15.7 mm"),
        (lambda: span_told(0.41, 0.412, 2, "in"), "0.41 in", "10.4 to 10.5 mm"),
        (lambda: span_told(0.41, 0.41, 2, "in"), "0.41 in", "10.4 mm"),
        (lambda: told_exactly(1 / 3, 2, "in"), "0.33333", "8.4667"),
        (lambda: told_exactly(2.0, 2), "2.00", "2.00"),
        (lambda: told_small(0.003, 2, "lb"), "0.003 lb", "0.001 kg"),
        (lambda: told_room(0.999, 2, RATE_UNIT), "0.99 " + RATE_UNIT, "4.8 g/m²"),
        (lambda: told_most(12.399), "12.3", "5.6"),
    ],
)
def test_the_ways_of_telling(words: object, us: str, metric: str) -> None:
    assert callable(words)
    assert words() == us
    read_in("metric")
    assert words() == metric


@given(pounds=st.floats(0, 5000, allow_nan=False))
def test_the_most_is_never_told_as_more(pounds: float) -> None:
    for units in ("us", "metric"):
        read_in("metric" if units == "metric" else "us")
        amount = shown(pounds, "lb")
        said = float(told_most(pounds).replace(",", ""))
        assert said <= amount + 2e-6
        assert amount - said <= (0.01 if amount < 1 else 0.1) + 1e-9


@given(pounds=st.lists(st.floats(0, 500, allow_nan=False), min_size=1, max_size=6))
def test_parts_add_up_to_what_is_told_of_them_together(pounds: list[float]) -> None:
    read_in("metric")
    parts = sum(float(told_most(each).replace(",", "")) for each in pounds)
    assert float(told_most_together(pounds).replace(",", "")) == pytest.approx(parts, abs=1e-6)


@given(pounds=st.floats(0, 5000, allow_nan=False))
def test_what_is_reckoned_with_is_the_same_in_both(pounds: float) -> None:
    us = most_told_lb(pounds)
    read_in("metric")
    assert most_told_lb(pounds) == us


@given(value=st.floats(1e-6, 1e6, allow_nan=False), unit=st.sampled_from(["in", "ft", "gal", ""]))
def test_a_number_put_into_a_formula_has_five_digits_that_count(value: float, unit: str) -> None:
    for units in ("us", "metric"):
        read_in("metric" if units == "metric" else "us")
        said = float(told_exactly(value, 2, unit).replace(",", ""))
        assert math.isclose(said, shown(value, unit), rel_tol=5.01e-5)


@pytest.mark.parametrize(
    ("point", "group", "said"),
    [(",", ".", "1.204,50 gal"), (",", "\u202f", "1\u202f204,50 gal"), (".", "’", "1’204.50 gal")],
)
def test_signs_are_the_readers(point: str, group: str, said: str) -> None:
    read_as(Reading(point=point, group=group))
    assert told(1204.5, 2, "gal") == said
    assert told_exactly(0.5) == f"0{point}50"
    assert trimmed(1204.5, 2, "lb") == said.removesuffix("0 gal") + " lb"


def test_a_unit_that_is_the_same_everywhere_stays() -> None:
    read_in("metric")
    for unit in ("min", "mL", "ppm", "dS/m", "days", ""):
        assert told(7.25, 2, unit) == f"7.25 {unit}".rstrip()
        assert (shown(7.25, unit), stored(7.25, unit), unit_shown(unit)) == (7.25, 7.25, unit)


def test_no_metric_name_is_a_us_one() -> None:
    us = re.compile(r"\b(in|ft|gal|lb|psi|mph|gpm|oz)\b|°F")
    assert not [each.name for each in METRIC.values() if us.search(each.name)]
    assert amounts.PERCENT == "\u00a0%"
