"""The mean temperatures of days, known or by their month's mean: how warm it was, and will be.

A day with both temperatures on record has its own mean. Any other day has its month's: the mean
over the days of that month in all years, or else the climate table's (the rule of `weather`).
"""

from collections.abc import Mapping
from datetime import date
from functools import lru_cache

import numpy as np

from lawnbook.agronomy.checks import Array
from lawnbook.frozen import dataclass
from lawnbook.plan.weather import FEWEST_DAYS
from lawnbook.plan.weather_columns import weather_columns
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import ClimateMonth, WeatherDay

KEPT = 4
"""How many notebooks' temperatures are kept; all zones of a plan read the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WarmDays:
    """Mean temperatures (°F): of days from `first` on, NaN where unknown, and of twelve months."""

    first: date | None
    day_f: Array
    month_f: tuple[float | None, ...]

    @property
    def known_months(self) -> int:
        """Months with a mean temperature."""
        return sum(each is not None for each in self.month_f)

    def of_days(self, start: date, count: int, until: date) -> Array:
        """The temperature of so many days: their own up to `until`, their month's mean after it.

        NaN where neither is known.
        """
        months = np.array([np.nan if f is None else f for f in self.month_f])
        temperatures: Array = months[months_of(start, count) - 1]
        if self.first is None:
            return temperatures
        place = (start - self.first).days
        begin, end = max(0, -place), min(count, self.day_f.size - place, (until - start).days + 1)
        if begin < end:
            own = self.day_f[place + begin : place + end]
            temperatures[begin:end] = np.where(np.isnan(own), temperatures[begin:end], own)
        return temperatures


def warm_days(notebook: Notebook) -> WarmDays:
    """The temperatures of a notebook; give it the notebook as of the day of the plan."""
    return _of_tables(_Tables(notebook.weather, notebook.climate))


class _Tables:
    """Two tables told apart from others by identity, as tables of notebooks are."""

    __slots__ = ("climate", "weather")

    def __init__(
        self, weather: Mapping[str, WeatherDay], climate: Mapping[str, ClimateMonth]
    ) -> None:
        self.weather, self.climate = weather, climate

    def __eq__(self, other: object) -> bool:
        return (
            isinstance(other, _Tables)
            and self.weather is other.weather
            and self.climate is other.climate
        )

    def __hash__(self) -> int:
        return hash((id(self.weather), id(self.climate)))


@lru_cache(maxsize=KEPT)
def _of_tables(tables: _Tables) -> WarmDays:
    days = weather_columns(tables.weather)
    warm = ~np.isnan(days.tmean_f)
    ordinals, months, means = days.ordinals[warm], days.months[warm], days.tmean_f[warm]
    usual = {row.month: row.tmean_f for row in tables.climate.values()}
    first = int(ordinals.min()) if ordinals.size else 0
    by_day = np.full(int(ordinals.max()) - first + 1 if ordinals.size else 0, np.nan)
    by_day[ordinals - first] = means
    return WarmDays(
        first=date.fromordinal(first) if ordinals.size else None,
        day_f=by_day,
        month_f=tuple(_month_f(means[months == month], usual.get(month)) for month in range(1, 13)),
    )


def _month_f(known: Array, usual: float | None) -> float | None:
    """A month's mean; a handful of days gives way to the climate table."""
    if known.size and (usual is None or known.size >= FEWEST_DAYS):
        return float(known.mean())
    return usual


def months_of(start: date, count: int) -> "np.ndarray[tuple[int], np.dtype[np.int64]]":
    """The months, 1-12, of so many days from a day on."""
    days = np.datetime64(start) + np.arange(count)
    return days.astype("datetime64[M]").astype(np.int64) % 12 + 1
