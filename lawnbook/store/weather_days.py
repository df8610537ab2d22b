"""From a table's measurements in the notebook's units to its days, with a fault for each bad line.

Humidity becomes the dew point (FAO-56 eq. 17 to 19), hours of sunshine become radiation (eq. 35),
wind measured elsewhere is brought to 2 m (eq. 47). Source: "fao56".
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from datetime import date
from typing import Any

import numpy as np

from lawnbook.agronomy.evapotranspiration import (
    daylight_hours,
    dew_point_c,
    extraterrestrial_radiation_mj,
    vapour_pressure_from_humidity_kpa,
    vapour_pressure_from_mean_humidity_kpa,
)
from lawnbook.agronomy.penman_monteith import radiation_from_sunshine_mj, wind_at_2_m
from lawnbook.agronomy.units import c_to_f, f_to_c, m_per_s_to_mph, mph_to_m_per_s
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.weather_columns import DECIMALS, FIELDS
from lawnbook.store.weather_result import Fault
from lawnbook.store.weather_table import Array, Lines
from lawnbook.yard.fields import field_of
from lawnbook.yard.limits import EARLIEST, amount, field_complaints
from lawnbook.yard.records import WeatherDay

FEWEST_SWAPPED = 3
MOST_HUMIDITY_PCT = 100.0


@dataclass(frozen=True, slots=True)
class Place:
    """Where the measurements were made: how high the wind, and at which latitude, if known."""

    wind_height_m: float = 2.0
    latitude_deg: float | None = None


@dataclass(frozen=True, slots=True)
class Days:
    """The good days, the faults of the others, and how many lines only said a day again."""

    days: tuple[WeatherDay, ...]
    faults: tuple[Fault, ...]
    repeated: int


def looks_swapped(values: Mapping[str, Array]) -> bool:
    """Whether the lows are above the highs on most days that have both, three or more."""
    low, high = values.get("tmin"), values.get("tmax")
    if low is None or high is None:
        return False
    above, both = int((low > high).sum()), int((~np.isnan(low) & ~np.isnan(high)).sum())
    return above >= FEWEST_SWAPPED and above * 2 > both


def humidity_faults(values: Mapping[str, Array], lines: Lines) -> list[Fault]:
    """A fault for each line whose humidity cannot be; such values become NaN."""
    faults = []
    for name in ("rh", "rh_max", "rh_min"):
        if name in values:
            wrong = (values[name] <= 0) | (values[name] > MOST_HUMIDITY_PCT)
            for row in np.flatnonzero(wrong):
                told = amount(float(values[name][row]), "%")
                faults.append(
                    Fault(
                        int(lines[row]),
                        tr("Humidity of {told} cannot be; enter 1 to 100 %.", told=told),
                    )
                )
            values[name][wrong] = np.nan
    return faults


def with_derived(
    values: Mapping[str, Array], days: Sequence[date], place: Place
) -> dict[str, Array]:
    """The measurements with what follows from others: dew point, radiation, wind at 2 m."""
    derived = dict(values)
    if "tdew" not in values and (dew := _dew_point_f(values)) is not None:
        derived["tdew"] = dew
    if "sunshine" in values and "sun" not in values and place.latitude_deg is not None:
        derived["sun"] = _radiation_mj(values["sunshine"], days, place.latitude_deg)
    if "wind" in values and place.wind_height_m != 2.0:
        derived["wind"] = _wind_at_2_m_mph(values["wind"], place.wind_height_m)
    return derived


def days_from(
    values: Mapping[str, Array], days: Sequence[date], lines: Lines, skip: Collection[int]
) -> Days:
    """The days of a table, each once; a line whose figures cannot be is a fault.

    Of two lines of a day that differ, the first is taken and the later is a fault. The lines to
    `skip` are at fault already.
    """
    columns = {FIELDS[name]: column for name, column in values.items() if name in FIELDS}
    bad = {
        fault.line: fault
        for fault in _out_of_limits(columns, days, lines)
        if fault.line not in skip
    }
    kept: dict[date, WeatherDay] = {}
    line_of: dict[date, int] = {}
    repeated = 0
    for row, (day, line) in enumerate(zip(days, lines.tolist(), strict=True)):
        if line in bad or line in skip:
            continue
        record = _record(columns, row, day, len(kept))
        if day not in kept:
            kept[day], line_of[day] = record, line
        elif _same(kept[day], record):
            repeated += 1
        else:
            told = tr(
                "{isoformat} stands twice, with other figures in line {line_of}; ",
                isoformat=day.isoformat(),
                line_of=line_of[day],
            )
            bad[line] = Fault(line, told + tr("keep one line of it."))
    return Days(tuple(kept.values()), tuple(bad.values()), repeated)


def _record(columns: Mapping[str, Array], row: int, day: date, rank: int) -> WeatherDay:
    measured: dict[str, Any] = {
        field: float(column[row]) for field, column in columns.items() if not np.isnan(column[row])
    }
    return WeatherDay(id=day.isoformat(), date=day, rank=rank, **measured)


def _same(one: WeatherDay, other: WeatherDay) -> bool:
    return all(getattr(one, field) == getattr(other, field) for field in FIELDS.values())


def _out_of_limits(
    columns: Mapping[str, Array], days: Sequence[date], lines: Lines
) -> Iterator[Fault]:
    """The first thing that cannot be in each line: a figure beyond its limits, a low above a high.

    Whether a day lies in the future is not judged here.
    """
    doubtful = np.zeros(len(days), dtype=bool)
    for field, column in columns.items():
        rule = field_of(WeatherDay, field).rule
        doubtful |= (column < (rule.low or 0.0)) | (column > (rule.high or np.inf))
    low, high = columns.get("tmin_f"), columns.get("tmax_f")
    if low is not None and high is not None:
        doubtful |= low > high
    doubtful |= np.array([day < EARLIEST for day in days], dtype=bool)
    for row in np.flatnonzero(doubtful).tolist():
        record = _record(columns, row, days[row], 0)
        line = int(lines[row])
        refused = [c for c in field_complaints(record, date.max) if c.severity == "refuse"]
        if refused:
            yield Fault(line, refused[0].sentence, refused[0].field)
        elif record.tmin_f is not None and record.tmax_f is not None:
            told = tr("{amount} is above the highest, ", amount=amount(record.tmin_f, "°F"))
            mend = tr(
                "{amount}; exchange them, or leave the line out.",
                amount=amount(record.tmax_f, "°F"),
            )
            yield Fault(
                line, tr("Lowest temperature of {told}{mend}", told=told, mend=mend), "tmin_f"
            )


def _dew_point_f(values: Mapping[str, Array]) -> Array | None:
    """The dew point from humidity, NaN where there is none; None where the table has no such."""
    low, high = values.get("tmin"), values.get("tmax")
    mean = values.get("rh")
    most, least = values.get("rh_max"), values.get("rh_min")
    if low is None or high is None or (mean is None and (most is None or least is None)):
        return None
    unknown = np.full(low.size, np.nan)
    mean = unknown if mean is None else mean
    most, least = (unknown, unknown) if most is None or least is None else (most, least)
    dew_f = unknown.copy()
    usable = low <= high
    for mask, by_extremes in (
        (usable & ~np.isnan(mean), False),
        (usable & (least <= most), True),
    ):
        high_c, low_c = f_to_c(high[mask]), f_to_c(low[mask])
        if by_extremes:
            ea = vapour_pressure_from_humidity_kpa(high_c, low_c, most[mask], least[mask])
        else:
            ea = vapour_pressure_from_mean_humidity_kpa(high_c, low_c, mean[mask])
        dew_f[mask] = np.round(c_to_f(dew_point_c(ea)), DECIMALS)
    return dew_f


def _radiation_mj(minutes: Array, days: Sequence[date], latitude_deg: float) -> Array:
    day_of_year = np.array([day.timetuple().tm_yday for day in days], dtype=np.float64)
    ra = extraterrestrial_radiation_mj(latitude_deg, day_of_year)
    daylight = daylight_hours(latitude_deg, day_of_year)
    known = ~np.isnan(minutes) & (minutes >= 0)
    radiation = np.full(minutes.size, np.nan)
    radiation[known] = radiation_from_sunshine_mj(minutes[known] / 60, daylight[known], ra[known])
    return np.round(radiation, DECIMALS)


def _wind_at_2_m_mph(wind_mph: Array, height_m: float) -> Array:
    known = wind_mph >= 0
    low = wind_mph.copy()
    low[known] = m_per_s_to_mph(wind_at_2_m(mph_to_m_per_s(wind_mph[known]), height_m))
    return np.round(low, DECIMALS)
