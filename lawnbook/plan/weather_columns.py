"""The days of weather on record as columns, read once for all that a plan reckons from them."""

from collections.abc import Mapping, Sequence
from datetime import date
from functools import lru_cache
from operator import attrgetter
from typing import Any

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.checks import Array
from lawnbook.frozen import dataclass
from lawnbook.yard.records import WeatherDay

Whole = NDArray[np.int64]

KEPT = 4
"""How many tables' columns are kept; all that is reckoned of a plan reads the same."""

_EPOCH = date(1970, 1, 1).toordinal()
_date_of = attrgetter("date")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WeatherColumns:
    """Measurements of days in the order of their records, NaN where none was made.

    `ordinals` are the days as `date.toordinal` counts them; `months` run 1 to 12. `rain_in` is the
    owner's gauge's, else the station's. `tmean_f` is the middle of lowest and highest.
    """

    ordinals: Whole
    months: Whole
    days_of_year: Whole
    tmin_f: Array
    tmax_f: Array
    tmean_f: Array
    tdew_f: Array
    wind_mph: Array
    solar_mj_m2: Array
    reported_eto_in: Array
    rain_in: Array


def weather_columns(weather: Mapping[str, WeatherDay]) -> WeatherColumns:
    """The columns of a table of weather, remembered by the table's identity. Not to be written."""
    return _kept(_Rows(weather))


def columns_of(days: Sequence[WeatherDay]) -> WeatherColumns:
    """The columns of some days of weather."""
    ordinals = np.fromiter(map(date.toordinal, map(_date_of, days)), np.int64, len(days))
    dates = (ordinals - _EPOCH).astype("datetime64[D]")
    low, high = _column(days, "tmin_f"), _column(days, "tmax_f")
    gauge = _column(days, "gauge_in")
    years = dates.astype("datetime64[Y]").astype("datetime64[D]")
    return WeatherColumns(
        ordinals=ordinals,
        months=dates.astype("datetime64[M]").astype(np.int64) % 12 + 1,
        days_of_year=(dates - years).astype(np.int64) + 1,
        tmin_f=low,
        tmax_f=high,
        tmean_f=(low + high) / 2,
        tdew_f=_column(days, "tdew_f"),
        wind_mph=_column(days, "wind_mph"),
        solar_mj_m2=_column(days, "solar_mj_m2"),
        reported_eto_in=_column(days, "reported_eto_in"),
        rain_in=np.where(np.isnan(gauge), _column(days, "rain_in"), gauge),
    )


def _column(days: Sequence[WeatherDay], field: str) -> Array:
    values: list[Any] = list(map(attrgetter(field), days))
    if values.count(None) == len(values):
        return np.full(len(values), np.nan)
    return np.array(values, dtype=np.float64)


class _Rows:
    """A table told apart from others by identity, as tables of notebooks are."""

    __slots__ = ("rows",)

    def __init__(self, rows: Mapping[str, WeatherDay]) -> None:
        self.rows = rows

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Rows) and self.rows is other.rows

    def __hash__(self) -> int:
        return id(self.rows)


@lru_cache(maxsize=KEPT)
def _kept(rows: _Rows) -> WeatherColumns:
    return columns_of(list(rows.rows.values()))
