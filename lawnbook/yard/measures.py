"""A number with a unit behind it, as people type it into a field that has a unit of its own.

A bare number is of the unit that the owner reads in its place (`yard.amounts`). Another unit of the
same kind is turned into the field's ("20 kg" where pounds are meant), its own is passed over
("20 %"), and any other is refused with the unit that is meant.
"""

import re
from collections.abc import Callable, Mapping

from lawnbook.agronomy.units import (
    LB_PER_GAL_PER_KG_PER_L,
    c_to_f,
    fl_oz_to_gal,
    g_per_m2_to_lb_per_1000,
    kg_to_lb,
    kpa_to_psi,
    l_to_gal,
    m2_to_sqft,
    m_per_s_to_mph,
    ml_to_gal,
    oz_to_lb,
)
from lawnbook.reading import tr
from lawnbook.yard.amounts import METRIC, stored, unit_shown
from lawnbook.yard.numbers import parse_number
from lawnbook.yard.problems import OwnerError

Convert = Callable[[float], float]

KM_PER_H_PER_M_PER_S = 3.6
KPA_PER_BAR = 100.0
_NUMBER_AND_UNIT = re.compile(
    r"(?P<number>[^a-zA-Z%°#]*[\d¼-¾⅐-⅞][^a-zA-Z%°#]*)(?P<unit>[a-zA-Z%°#].*)"
)


def _same(value: float) -> float:
    return value


def _minus(value: float) -> float:
    return -value


_OTHERS: Mapping[str, Mapping[str, Convert]] = {
    "lb": {
        "kg": kg_to_lb,
        "g": lambda value: kg_to_lb(value / 1000),
        "oz": oz_to_lb,
        **dict.fromkeys(("lbs", "#", "pound", "pounds"), _same),
    },
    "gal": {
        **dict.fromkeys(("l", "litre", "litres", "liter", "liters"), l_to_gal),
        "ml": ml_to_gal,
        "fl oz": fl_oz_to_gal,
        **dict.fromkeys(("gallon", "gallons"), _same),
    },
    "mL": {"l": lambda value: 1000 * value},
    "gpm": {**dict.fromkeys(("l/min", "lpm"), l_to_gal), "gal/min": _same},
    "lb/gal": dict.fromkeys(("kg/l", "g/ml"), lambda value: value * LB_PER_GAL_PER_KG_PER_L),
    "sq ft": {
        **dict.fromkeys(("m2", "m²", "sq m"), m2_to_sqft),
        **dict.fromkeys(("sqft", "ft2", "ft²"), _same),
    },
    "°F": {**dict.fromkeys(("c", "°c"), c_to_f), "f": _same, "°": _same},
    "psi": {"kpa": kpa_to_psi, "bar": lambda value: kpa_to_psi(value * KPA_PER_BAR)},
    "mph": {
        "m/s": m_per_s_to_mph,
        "km/h": lambda value: m_per_s_to_mph(value / KM_PER_H_PER_M_PER_S),
    },
    "min": {
        **dict.fromkeys(("h", "hour", "hours"), lambda value: 60 * value),
        **dict.fromkeys(("minute", "minutes"), _same),
    },
    "s": {"min": lambda value: 60 * value, **dict.fromkeys(("sec", "seconds"), _same)},
    "ppm": {"mg/kg": _same},
    "%": {"percent": _same},
    "days": {"day": _same},
    "weeks": {"week": _same},
    "lb per 1,000 sq ft": {
        **dict.fromkeys(("g/m2", "g/m²"), g_per_m2_to_lb_per_1000),
        **dict.fromkeys(("lb", "lbs", "lb n"), _same),
    },
}
"""By a field's unit, the others that are understood there, in small letters."""

_HEMISPHERES: Mapping[str, Mapping[str, Convert]] = {
    "Latitude": {"n": _same, "s": _minus},
    "Longitude": {"e": _same, "w": _minus},
}


def parse_measure(text: str, what: str, unit: str) -> float:
    """A number in a unit, typed alone or with a unit behind it. Raises OwnerError with the mend.

    Typed alone it is of the unit that the owner reads; what is given back is in `unit`. `what` is
    the field's label: south of the equator and west of Greenwich a "S" or "W" says minus.
    """
    try:
        return stored(parse_number(text, what), unit)
    except OwnerError:
        found = _NUMBER_AND_UNIT.fullmatch(text)
        if found is None or not unit:
            raise
        value = parse_number(found["number"], what)
    typed = " ".join(found["unit"].casefold().rstrip(". ").split())
    own = "%" if unit.startswith("%") else "°" if unit.startswith("° ") else unit
    if typed == own.casefold():
        return value
    metric = METRIC.get(unit)
    if metric is not None and typed == metric.name.casefold():
        return metric.back(value)
    side = _HEMISPHERES.get(what, {}).get(typed.removeprefix("°").strip())
    convert = side or _OTHERS.get(own, {}).get(typed)
    if convert is None:
        raise OwnerError(
            tr(
                '{what} "{text}": a number in {unit} is meant; turn it into that, and enter it'
                " alone.",
                what=what,
                text=text.strip(),
                unit=_named(own),
            )
        )
    if side is not None and value < 0:
        raise OwnerError(
            tr(
                '{what} "{text}" says its side of the earth twice; leave out the minus or the'
                " letter.",
                what=what,
                text=text.strip(),
            )
        )
    return convert(value)


def _named(unit: str) -> str:
    if unit in {"%", "°"}:
        return tr("percent") if unit == "%" else tr("degrees")
    return unit_shown(unit)
