"""Amounts as the owner reads them: every value is held in US customary units and told in either.

`told` writes a number with its unit; `shown`, `stored` and `unit_shown` are for what has a place of
its own for the unit, such as a field, a table's column or an axis. A unit that is the same
everywhere ("min", "%", "mL") stays as it is. Conversions are those of `agronomy.units`, exact by
definition (NIST Handbook 44, appendix C).
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from lawnbook.agronomy.units import (
    L_PER_GAL,
    LB_PER_GAL_PER_KG_PER_L,
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
from lawnbook.reading import is_metric, localised, tr

PERCENT = "\u00a0%"
"""The sign of percent as it follows a number, which no line break may part from it."""

RATE_UNIT = "lb per 1,000 sq ft"
"""What is put down on the ground: pounds on each 1,000 square feet."""


@dataclass(frozen=True, slots=True)
class MetricUnit:
    """The metric unit of a US one: its name, the way there and back, and how many decimals fewer.

    `fewer` is how many decimals less are told than of the US unit: 0.41 in is 10.4 mm.
    """

    name: str
    to: Callable[[float], float]
    back: Callable[[float], float]
    fewer: int = 0


def _per(name: str, unit: MetricUnit) -> MetricUnit:
    return MetricUnit(name, unit.to, unit.back, unit.fewer)


_MM = MetricUnit("mm", in_to_mm, mm_to_in, 1)
_RATE = MetricUnit("g/m²", lb_per_1000_to_g_per_m2, g_per_m2_to_lb_per_1000, 1)

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
        "sq ft": MetricUnit("m²", sqft_to_m2, m2_to_sqft, 0),
        "gal": MetricUnit("L", gal_to_l, l_to_gal, 0),
        "gpm": MetricUnit("L/min", gal_to_l, l_to_gal, 0),
        "lb": MetricUnit("kg", lb_to_kg, kg_to_lb, 0),
        RATE_UNIT: _RATE,
        "lb/gal": MetricUnit(
            "kg/L",
            lambda value: value / LB_PER_GAL_PER_KG_PER_L,
            lambda value: value * LB_PER_GAL_PER_KG_PER_L,
        ),
        "lb/acre": MetricUnit(
            "kg/ha",
            lambda value: lb_per_1000_to_g_per_m2(value / 43.56) * 10,
            lambda value: g_per_m2_to_lb_per_1000(value / 10) * 43.56,
        ),
        "°F": MetricUnit("°C", f_to_c, c_to_f, 0),
        "mph": MetricUnit("m/s", mph_to_m_per_s, m_per_s_to_mph, 0),
        "psi": MetricUnit("kPa", psi_to_kpa, kpa_to_psi, 0),
        "per kgal": MetricUnit(
            "per m³",
            lambda value: value / L_PER_GAL,
            lambda value: value * L_PER_GAL,
        ),
    }
)
"""The metric unit of each US unit that amounts are held in."""


def told(value: float, places: int = 2, unit: str = "") -> str:
    """A number with its unit: "0.41 in", "1,204 gal"; "10.4 mm" and "4,558 L" to a metric reader.

    `value` and `places` are of the US `unit`. What rounds to nothing has no sign.
    """
    metric = METRIC.get(unit) if is_metric() else None
    if metric is not None:
        value, places, unit = metric.to(value), max(0, places - metric.fewer), metric.name
    number = localised(f"{round(value, places) + 0.0:,.{places}f}")
    if not unit:
        return number
    return f"{number}{PERCENT}" if unit == "%" else f"{number} {tr(unit)}".rstrip()


def shown(value: float, unit: str) -> float:
    """A value of a US unit as a number of the unit that the owner reads."""
    metric = METRIC.get(unit) if is_metric() else None
    return value if metric is None else metric.to(value)


def stored(value: float, unit: str) -> float:
    """A number of the unit that the owner reads as a value of the US unit; undoes `shown`."""
    metric = METRIC.get(unit) if is_metric() else None
    return value if metric is None else metric.back(value)


def unit_shown(unit: str) -> str:
    """The name of the unit that the owner reads in place of a US unit."""
    metric = METRIC.get(unit) if is_metric() else None
    return tr(unit if metric is None else metric.name)


def places_shown(places: int, unit: str) -> int:
    """How many decimals are told of the unit that the owner reads."""
    metric = METRIC.get(unit) if is_metric() else None
    return places if metric is None else max(0, places - metric.fewer)
