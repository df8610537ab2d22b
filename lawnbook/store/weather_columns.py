"""Which measurement a column of a weather table holds, by its name, and in which unit.

Our own names are those of the yard file (``tmin_f``, ``rain_in``), their metric twins (``tmin_c``,
``rain_mm``) and bare ones (``tmin``, ``rain``), whose unit the name does not say.
"""

import difflib
from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

import numpy as np

from lawnbook.agronomy.units import c_to_f, m_per_s_to_mph, mm_to_in
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.weather_table import Array
from lawnbook.yard.fields import field_of
from lawnbook.yard.records import WeatherDay

Kind = Literal["temperature", "depth", "wind", "sun", "share", "time"]
SECONDS_OF_A_DAY_IN_MJ = 0.0864
"""MJ/m² in a day of one W/m²: 86,400 s."""

DECIMALS = 4
"""What is kept of a turned value: a ten-thousandth of an inch or a degree."""

UNITS: Mapping[Kind, tuple[str, ...]] = MappingProxyType(
    {
        "temperature": ("f", "c", "tenths_c"),
        "depth": ("in", "mm", "tenths_mm"),
        "wind": ("mph", "m_s", "km_h", "tenths_m_s"),
        "sun": ("mj_m2", "w_m2"),
        "share": ("pct",),
        "time": ("min",),
    }
)
"""The units of each kind, the notebook's own first."""

UNIT_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "f": "°F", "c": "°C", "tenths_c": tr("°C in tenths"), "in": "in", "mm": "mm",
        "tenths_mm": tr("mm in tenths"), "mph": "mph", "m_s": "m/s", "km_h": "km/h",
        "tenths_m_s": tr("m/s in "
            "tenths"), "mj_m2": "MJ/m²", "w_m2": "W/m²", "pct": "%", "min": "min",
    }
)  # fmt: skip

_SLICE = MappingProxyType({"tenths_c": 10.0, "tenths_mm": 10.0, "tenths_m_s": 10.0, "km_h": 3.6})
"""What a unit is divided by before it is a plain metric one."""

FIELDS: Mapping[str, str] = MappingProxyType(
    {
        "tmin": "tmin_f", "tmax": "tmax_f", "tdew": "tdew_f", "rain": "rain_in",
        "gauge": "gauge_in", "eto": "reported_eto_in", "wind": "wind_mph", "sun": "solar_mj_m2",
    }
)  # fmt: skip
"""The notebook's field of each measurement that has one."""

_KINDS: Mapping[str, Kind] = MappingProxyType(
    {
        "tmin": "temperature", "tmax": "temperature", "tdew": "temperature", "rain": "depth",
        "gauge": "depth", "eto": "depth", "wind": "wind", "sun": "sun", "rh": "share",
        "rh_max": "share", "rh_min": "share", "sunshine": "time",
    }
)  # fmt: skip

_STEMS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "tmin": ("tmin", "temp_min", "min_temp", "low"),
        "tmax": ("tmax", "temp_max", "max_temp", "high"),
        "tdew": ("tdew", "dew_point"),
        "rain": ("rain", "precip", "precipitation"),
        "gauge": ("gauge",),
        "eto": ("eto", "reported_eto"),
        "wind": ("wind",),
        "sun": ("solar",),
        "rh": ("rh",),
        "rh_max": ("rh_max",),
        "rh_min": ("rh_min",),
    }
)
_ASKED = ("tmin", "tmax", "tdew", "rain", "wind")
"""Measurements whose bare name is understood; the unit of the others has to stand in the name."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its name in the table, what it measures, and its unit, empty where unsaid."""

    name: str
    measures: str
    unit: str = ""

    @property
    def kind(self) -> Kind:
        """What sort of quantity it is."""
        return _KINDS[self.measures]

    @property
    def label(self) -> str:
        """What it is called in a sentence."""
        field = FIELDS.get(self.measures)
        return tr("Humidity") if field is None else field_of(WeatherDay, field).rule.label


def column_of(name: str) -> Column | None:
    """The column of a name in a table of our own sort, in whatever case; None for no such name."""
    found = _KNOWN.get(_tidy(name))
    return None if found is None else Column(name, *found)


def near_name(name: str) -> str:
    """A known name that this one may stand for, or nothing."""
    near = difflib.get_close_matches(_tidy(name), (*_KNOWN, "date"), n=1)
    return near[0] if near else ""


def in_own_unit(values: Array, unit: str) -> Array:
    """Values turned into the notebook's unit of their kind; NaN stays."""
    metric = values / _SLICE.get(unit, 1.0)
    if unit in ("c", "tenths_c"):
        turned = c_to_f(metric)
    elif unit in ("mm", "tenths_mm"):
        turned = mm_to_in(metric)
    elif unit in ("m_s", "km_h", "tenths_m_s"):
        turned = m_per_s_to_mph(metric)
    elif unit == "w_m2":
        turned = metric * SECONDS_OF_A_DAY_IN_MJ
    else:
        return values
    return np.round(turned, DECIMALS)


def _tidy(name: str) -> str:
    return name.strip().casefold().replace(" ", "_")


def _known() -> dict[str, tuple[str, str]]:
    known = {}
    for measures, stems in _STEMS.items():
        for stem in stems:
            for unit in UNITS[_KINDS[measures]]:
                if not unit.startswith("tenths"):
                    known[f"{stem}_{unit}"] = (measures, unit)
            if measures in _ASKED:
                known[stem] = (measures, "")
    return known


_KNOWN: Mapping[str, tuple[str, str]] = MappingProxyType(_known())
