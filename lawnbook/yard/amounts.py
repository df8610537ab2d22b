"""Amounts as the owner reads them: every value is held in US customary units and told in either.

`told` writes a number with its unit; `shown`, `stored` and `unit_shown` are for what has a place of
its own for the unit, such as a field, a table's column or an axis. A unit that is the same
everywhere ("min", "%", "mL") stays as it is. Conversions are those of `agronomy.units`, exact by
definition (NIST Handbook 44, appendix C).

Decimals follow from the size of the metric unit: as few as tell in steps of at most 2.5 steps of
the US figure (see `MetricUnit.fewer`), so that nothing is lost on the way and none is made up.
"""

import math
from collections.abc import Callable, Iterable, Mapping
from decimal import Decimal
from types import MappingProxyType

from lawnbook.agronomy.units import (
    FL_OZ_PER_GAL,
    G_PER_LB,
    L_PER_GAL,
    LB_PER_GAL_PER_KG_PER_L,
    M2_PER_SQFT,
    M_PER_FT,
    MM_PER_IN,
    c_to_f,
    f_to_c,
    ft_to_m,
    g_per_m2_to_lb_per_1000,
    gal_to_l,
    in_to_mm,
    kg_to_lb,
    kpa_to_psi,
    l_to_gal,
    lb_per_1000_to_g_per_m2,
    lb_to_kg,
    m2_to_sqft,
    m_per_s_to_mph,
    m_to_ft,
    mm_to_in,
    mph_to_m_per_s,
    psi_to_kpa,
    sqft_to_m2,
)
from lawnbook.frozen import dataclass
from lawnbook.reading import is_metric, localised, reading, tr

PERCENT = "\u00a0%"
"""The sign of percent as it follows a number, which no line break may part from it."""

RATE_UNIT = "lb per 1,000 sq ft"
"""What is put down on the ground: pounds on each 1,000 square feet."""


@dataclass(frozen=True, slots=True)
class MetricUnit:
    """The metric unit of a US one: its name, the way there and back, and how many decimals fewer.

    `fewer` is how many decimals less are told than of the US unit (0.41 in is 10.4 mm): the most
    that keep a step of the last decimal within 2.5 steps of the US figure.
    """

    name: str
    to: Callable[[float], float]
    back: Callable[[float], float]
    fewer: int = 0


def _per(name: str, unit: MetricUnit) -> MetricUnit:
    return MetricUnit(name, unit.to, unit.back, unit.fewer)


def _by(name: str, factor: float, fewer: int) -> MetricUnit:
    """A metric unit of which `factor` are in one US unit."""
    return MetricUnit(name, lambda value: value * factor, lambda value: value / factor, fewer)


_MM = MetricUnit("mm", in_to_mm, mm_to_in, 1)
ML_PER_FL_OZ = 1000 * L_PER_GAL / FL_OZ_PER_GAL

_RATE = MetricUnit("g/m²", lb_per_1000_to_g_per_m2, g_per_m2_to_lb_per_1000, 1)
_PER_M3 = _by("per m³", 1 / L_PER_GAL, -1)

METRIC: Mapping[str, MetricUnit] = MappingProxyType(
    {
        "in": _MM,
        "in/h": _per("mm/h", _MM),
        "in/day": _per("mm/day", _MM),
        "in a day": _per("mm a day", _MM),
        "in a week": _per("mm a week", _MM),
        "in a month": _per("mm a month", _MM),
        "in a year": _per("mm a year", _MM),
        "ft": MetricUnit("m", ft_to_m, m_to_ft, -1),
        "sq in": _by("cm²", MM_PER_IN**2 / 100, 1),
        "miles": _by("km", M_PER_FT * 5.28, 0),
        "sq ft": MetricUnit("m²", sqft_to_m2, m2_to_sqft, -1),
        "gal": MetricUnit("L", gal_to_l, l_to_gal, 0),
        "gpm": MetricUnit("L/min", gal_to_l, l_to_gal, 0),
        "lb": MetricUnit("kg", lb_to_kg, kg_to_lb, 0),
        RATE_UNIT: _RATE,
        "lb/gal": _by("kg/L", 1 / LB_PER_GAL_PER_KG_PER_L, -1),
        "lb/acre": _by("kg/ha", G_PER_LB / (4.356 * 1000 * M2_PER_SQFT), 0),
        "°F": MetricUnit("°C", f_to_c, c_to_f, 0),
        "mph": MetricUnit("m/s", mph_to_m_per_s, m_per_s_to_mph, -1),
        "psi": MetricUnit("kPa", psi_to_kpa, kpa_to_psi, 1),
        "lb N per 1,000 sq ft": _per("g N/m²", _RATE),
        "fl oz": _by("mL", ML_PER_FL_OZ, 1),
        "gal per 1,000 sq ft": _by("L per 100 m²", L_PER_GAL / M2_PER_SQFT / 10, 1),
        "fl oz per 1,000 sq ft": _by("mL per 100 m²", ML_PER_FL_OZ / M2_PER_SQFT / 10, 1),
        "per kgal": _PER_M3,
        "per 1,000 gal": _PER_M3,
        "per lb": _by("per kg", 1000 / G_PER_LB, 0),
        "per 1,000 sq ft": _by("per 100 m²", 0.1 / M2_PER_SQFT, 0),
        "in per in of thatch": _by("mm per mm of thatch", 1.0, 0),
        "in/in": _by("mm/mm", 1.0, 0),
        "px/in": _by("px/cm", 10 / MM_PER_IN, -1),
        "ft per pixel": _by("m per pixel", M_PER_FT, -1),
    }
)
"""The metric unit of each US unit that amounts are held in."""


_DIGITS = 5
_MOST_PLACES = 12


def _read(value: float, places: int, unit: str) -> tuple[float, int, str]:
    """A value of a US unit, its decimals and its unit, as the owner reads them."""
    metric = METRIC.get(unit) if is_metric() else None
    if metric is None:
        return value, places, unit
    return metric.to(value), max(0, places - metric.fewer), metric.name


def _written(value: float, places: int, unit: str) -> str:
    """A number with its unit, in the reader's signs and words; nothing has no sign."""
    number = localised(f"{round(value, places) + 0.0:,.{places}f}")
    if not unit:
        return number
    return f"{number}{PERCENT}" if unit == "%" else f"{number} {tr(unit)}".rstrip()


def told(value: float, places: int = 2, unit: str = "") -> str:
    """A number with its unit: "0.41 in", "1,204 gal"; "10.4 mm" and "4,558 L" to a metric reader.

    `value` and `places` are of the US `unit`. What rounds to nothing has no sign.
    """
    # Written out, for a plan tells thousands: one look at the reading, and no further call.
    held = reading()
    if held.units == "metric" and unit in METRIC:
        value, places, unit = _read(value, places, unit)
    number = f"{round(value, places) + 0.0:,.{places}f}"
    if held.point != "." or held.group != ",":
        number = localised(number)
    if not unit:
        return number
    return f"{number}{PERCENT}" if unit == "%" else f"{number} {held.words.get(unit, unit)}"


def bare(value: float, places: int = 2, unit: str = "") -> str:
    """Like `told`, without the name of the unit: for ranges, columns and sums of one unit."""
    value, places, _ = _read(value, places, unit)
    return _written(value, places, "")


def trimmed(value: float, places: int = 2, unit: str = "") -> str:
    """A number without needless zeros, with its unit: "0.4 in", "1,250 lb"."""
    number = trimmed_bare(value, places, unit)
    if not unit:
        return number
    return f"{number}{PERCENT}" if unit == "%" else f"{number} {unit_shown(unit)}"


def trimmed_bare(value: float, places: int = 2, unit: str = "") -> str:
    """Like `trimmed`, without the name of the unit: what a field holds."""
    value, places, _ = _read(value, places, unit)
    return _kept(_written(value, places, ""), 0)


def plainly(value: float, unit: str, places: int = 2) -> str:
    """A round amount as people say it: "3 in", "1.88 in", "15 ft"; "76 mm", "4.57 m".

    `places` are those of the US number at most; lengths in metric go to whole mm and to cm.
    """
    return trimmed(value, 1 if is_metric() and unit in {"in", "ft"} else places, unit)


def between(low: float, high: float, places: int = 2, unit: str = "") -> str:
    """Two numbers of one unit: "0.41 to 0.62 in"."""
    return tr("{low} to {high}", low=bare(low, places, unit), high=told(high, places, unit))


def span_told(low: float, high: float, places: int = 2, unit: str = "") -> str:
    """One figure, or the range of several: "0.41 in", "0.35 to 0.48 in"."""
    first, last = bare(low, places, unit), told(high, places, unit)
    return (
        last if first == bare(high, places, unit) else tr("{low} to {high}", low=first, high=last)
    )


def rate_told(lb_per_1000: float) -> str:
    """A rate of what is put down: "0.90 lb per 1,000 sq ft", "4.4 g/m²"."""
    return told(lb_per_1000, 2, RATE_UNIT)


def told_exactly(value: float, places: int = 2, unit: str = "") -> str:
    """A number as it is put into a formula: five digits that count, `places` decimals at least.

    So many that the formula, worked out by hand, gives the figure that is shown. The number is of
    the unit that the owner reads, and is told without its name.
    """
    value, places, _ = _read(value, places, unit)
    size = math.floor(math.log10(abs(value))) if value else 0
    digits = max(0, min(_MOST_PLACES, _DIGITS - 1 - size))
    return _kept(_written(value, max(places, digits), ""), places)


def _kept(number: str, places: int) -> str:
    """A written number without the zeros at its end, but for `places` of them."""
    whole, point, decimals = number.partition(reading().point)
    kept = decimals.rstrip("0").ljust(places, "0")
    return f"{whole}{point}{kept}" if kept else whole


def told_small(value: float, places: int = 2, unit: str = "") -> str:
    """Like `told`, but an amount that would round to nothing keeps its first digit: "0.003"."""
    value, places, unit = _read(value, places, unit)
    if value and not round(value, places):
        places = _first_place(value, places)
    return _written(value, places, unit)


def small_bare(value: float, places: int = 2, unit: str = "") -> str:
    """Like `told_small`, without the name of the unit: for columns."""
    value, places, _ = _read(value, places, unit)
    return told_small(value, places)


def told_room(value: float, places: int = 2, unit: str = "") -> str:
    """Like `told_small`, but rounded down: the most that fits would not fit rounded up."""
    value, places, unit = _read(value, places, unit)
    if 0 < value < 10.0**-places:
        places = _first_place(value, places)
    return _written(math.floor(value * 10**places + 1e-7) / 10**places, places, unit)


def told_not_below_zero(value: float, less: float, unit: str = "") -> str:
    """A difference put into a formula, with the floor of zero where it bites."""
    difference = f"{told_exactly(value, 2, unit)} − {told_exactly(less, 2, unit)}"
    return f"max(0, {difference})" if less > value else difference


def told_most(pounds: float) -> str:
    """The most of a product, in pounds or kilograms: one decimal, two under one, rounded down.

    Rounded up, the most that fits would no longer fit. The name of the unit is left to the caller.
    """
    return localised(f"{_most(shown(pounds, 'lb')):,}")


def told_most_together(pounds: Iterable[float]) -> str:
    """The sum of several amounts as each is told by `told_most`, so that the parts add up to it."""
    parts = (_most(shown(each, "lb")) for each in pounds)
    return localised(f"{sum(parts, Decimal(0)):,}")


def most_told_lb(pounds: float) -> float:
    """The most pounds of a product, just as `told_most` tells them to a reader of pounds.

    It is what is reckoned with, and so the same in every reading.
    """
    return float(_most(pounds))


def _most(amount: float) -> Decimal:
    places = 2 if amount < 1 else 1
    return Decimal(math.floor(amount * 10**places + 1e-6)).scaleb(-places)


def _first_place(value: float, places: int) -> int:
    """The decimal place of an amount's first digit; `places` where that is next to nothing."""
    first = -math.floor(math.log10(abs(value)))
    return first if first <= _MOST_PLACES else places


def shown(value: float, unit: str) -> float:
    """A value of a US unit as a number of the unit that the owner reads."""
    return _read(value, 0, unit)[0]


def stored(value: float, unit: str) -> float:
    """A number of the unit that the owner reads as a value of the US unit; undoes `shown`."""
    metric = METRIC.get(unit) if is_metric() else None
    return value if metric is None else metric.back(value)


def unit_shown(unit: str) -> str:
    """The name of the unit that the owner reads in place of a US unit."""
    return tr(_read(0.0, 0, unit)[2])


def places_shown(places: int, unit: str) -> int:
    """How many decimals are told of the unit that the owner reads."""
    return _read(0.0, places, unit)[1]
