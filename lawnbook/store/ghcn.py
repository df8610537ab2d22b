"""NOAA's daily station tables (GHCN-Daily): the wide daily summaries and the long by-station lists.

The wide table names its columns: STATION, DATE, elements such as TMAX, and beside each, if asked
for, its attributes ("measurement flag,quality flag,source"). The long one has a line for each
element of each day, below a line of names or without one: station, YYYYMMDD, element, value,
measurement flag, quality flag, source flag, time. As stored, temperatures are tenths of °C, rain
tenths of mm, wind tenths of m/s; the wide one also comes in °C, mm, m/s or in °F, inches, mph and
does not say which. A value with a quality flag failed a check and is left out.
Source: "ghcn-daily".
"""

import re
from collections.abc import Mapping, Sequence
from datetime import date
from types import MappingProxyType

import numpy as np

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.weather_columns import Column, Kind
from lawnbook.store.weather_result import Option, Question, UnitChoice
from lawnbook.store.weather_table import TRACE, Array, Table, table_of
from lawnbook.store.weather_units import is_whole, rain_fits, temperature_fits
from lawnbook.yard.numbers import whole

ELEMENTS: Mapping[str, str] = MappingProxyType(
    {
        "TMIN": "tmin", "TMAX": "tmax", "ADPT": "tdew", "PRCP": "rain", "AWND": "wind",
        "RHAV": "rh", "RHMX": "rh_max", "RHMN": "rh_min", "TSUN": "sunshine",
    }
)  # fmt: skip
"""The elements that are of use here; the others are passed over."""

WIND_HEIGHT_M = 10.0
"""Where weather stations measure wind (common practice); it is brought to 2 m."""

STATION, DATE, LATITUDE, TRACE_FLAG = "STATION", "DATE", "LATITUDE", "T"
_LONG_HEADER = ("STATION", "DATE", "ELEMENT", "VALUE", "M", "Q", "S", "TIME")
_LONG_LINE = re.compile(r'"?[A-Z]{2}[A-Z0-9_-]{9}"?,"?\d{8}"?,"?[A-Z][A-Z0-9]{3}"?,', re.ASCII)
_LONG_NAMES = re.compile(r"[^\n]*\bELEMENT\b[^\n]*\n")
_ATTRIBUTES = "_ATTRIBUTES"
_FIXED: Mapping[Kind, str] = MappingProxyType({"share": "pct", "time": "min"})


@dataclass(frozen=True, slots=True)
class Habit:
    """One of the three sets of units the wide table comes in."""

    key: str
    words: str
    units: Mapping[Kind, str]

    def unit(self, column: Column) -> str:
        """The unit of a column in this habit."""
        return _FIXED.get(column.kind) or self.units[column.kind]


HABITS: tuple[Habit, ...] = (
    Habit(
        "tenths",
        "°C in tenths",
        {"temperature": "tenths_c", "depth": "tenths_mm", "wind": "tenths_m_s"},
    ),
    Habit("metric", "°C and mm", {"temperature": "c", "depth": "mm", "wind": "m_s"}),
    Habit("us", "°F and inches", {"temperature": "f", "depth": "in", "wind": "mph"}),
)


def is_long(text: str) -> bool:
    """Whether a text begins as a long list does, below a line of names or without one."""
    return _LONG_LINE.match(_nameless(text).lstrip("\n")) is not None


def _nameless(text: str) -> str:
    """A long list without its line of names, which stays as an empty line for the count."""
    return _LONG_NAMES.sub("\n", text, count=1) if _LONG_NAMES.match(text) else text


def is_wide(names: Sequence[str]) -> bool:
    """Whether a table's columns are those of the wide daily summaries."""
    return STATION in names and DATE in names and any(name in ELEMENTS for name in names)


def wide_from_long(text: str) -> tuple[Table, int]:
    """A long list as a wide table, and how many values were left out for their quality flag."""
    import pandas as pd

    long = table_of(_nameless(text), _LONG_HEADER)
    cells = long.cells[long.cells["ELEMENT"].isin(list(ELEMENTS))].copy()
    cells["LINE"] = long.lines[cells.index.to_numpy()]
    flagged = cells["Q"] != ""
    cells.loc[flagged, "VALUE"] = ""
    cells.loc[~flagged & (cells["M"] == TRACE_FLAG), "VALUE"] = TRACE[0]
    cells["TURN"] = cells.groupby([STATION, DATE, "ELEMENT"]).cumcount()
    # A day's elements told twice make a second row of that day, which is judged as such.
    keys = [STATION, DATE, "TURN"]
    wide = cells.pivot_table("VALUE", keys, "ELEMENT", aggfunc="first", fill_value="")
    first = cells.groupby(keys)["LINE"].min()
    wide = wide.join(pd.DataFrame({"LINE": first})).sort_values("LINE").reset_index()
    names = [STATION, DATE, *(name for name in ELEMENTS if name in wide.columns)]
    lines = wide["LINE"].to_numpy(dtype=np.int64)
    table = Table(names, wide[names].reset_index(drop=True), lines, list(long.faults))
    return table, int(flagged.sum())


def left_out_by_quality(table: Table) -> int:
    """Empty the values of a wide table whose attributes hold a quality flag; how many those are."""
    count = 0
    for name in table.names:
        beside = name + _ATTRIBUTES
        if name not in ELEMENTS or beside not in table.names:
            continue
        parts = table.cells[beside].str.split(",")
        flagged = (parts.str[1].fillna("").str.strip() != "") & (table.cells[name] != "")
        trace = (parts.str[0].fillna("").str.strip() == TRACE_FLAG) & ~flagged
        table.cells[name] = table.cells[name].where(~flagged, "").where(~trace, TRACE[0])
        count += int(flagged.sum())
    return count


def one_station(table: Table, choice: UnitChoice) -> Question | None:
    """Keep one station's rows: the chosen one's, or the question which, with the fullest ahead."""
    counts = table.cells[STATION].value_counts()
    stations = [str(each) for each in counts.index]
    if len(stations) < 2:
        return None
    chosen = choice.get("station")
    if chosen in stations:
        table.drop((table.cells[STATION] != chosen).to_numpy(dtype=bool))
        return None
    options = tuple(
        Option(each, tr("{station} ({count} days)", station=each, count=whole(counts[each])))
        for each in stations
    )
    return Question(
        key="station",
        sentence=tr(
            "The table holds {count} stations: which is nearest to the yard?", count=len(stations)
        ),
        options=options,
        proposed=stations[0],
        mend=tr("the table holds {count} stations; keep the lines of one.", count=len(stations)),
        column=STATION,
    )


def columns_of(table: Table) -> list[Column]:
    """The columns that are of use, their units still open; sunshine only where it can be used."""
    return [
        Column(name, ELEMENTS[name])
        for name in table.names
        if name in ELEMENTS and (name != "TSUN" or latitude_of(table) is not None)
    ]


def latitude_of(table: Table) -> float | None:
    """The station's latitude in degrees, where the table says it."""
    if LATITUDE not in table.names or not len(table.cells):
        return None
    try:
        latitude = float(table.cells[LATITUDE].iloc[0])
    except ValueError:
        return None
    return latitude if -90.0 <= latitude <= 90.0 else None


def fitting(values: Mapping[str, Array], days: Sequence[date]) -> list[Habit]:
    """The habits that a wide table's values, by what they measure, can be written in.

    °F are whole degrees there, and mm have one decimal at most: those are turned from tenths.
    """
    unknown = np.full(len(days), np.nan)
    low, high, rain = (values.get(name, unknown) for name in ("tmin", "tmax", "rain"))
    found = []
    for habit in HABITS:
        heat, depth = habit.units["temperature"], habit.units["depth"]
        written = (heat != "f" or (is_whole(low) and is_whole(high))) and (
            depth != "mm" or is_whole(rain, parts=10)
        )
        if written and temperature_fits(heat, low, high, days) and rain_fits(depth, rain):
            found.append(habit)
    return found
