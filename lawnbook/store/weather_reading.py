"""Reading a weather table of any sort known here, with nothing lost and nothing guessed.

Known are the columns of the yard file and their metric twins, bare names (``tmin``, ``rain``), and
NOAA's daily station tables. What a table does not say, and its figures do not show, is asked: see
`weather_units` for what they show.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

import numpy as np

from lawnbook.reading import tr
from lawnbook.store import ghcn
from lawnbook.store.files import read_text_bounded
from lawnbook.store.weather_ask import (
    NOAA,
    SWAP,
    TEMPERATURE,
    ask_habit,
    ask_named,
    ask_swap,
    ask_unit,
)
from lawnbook.store.weather_columns import (
    UNIT_WORDS,
    Column,
    column_of,
    in_own_unit,
    near_name,
)
from lawnbook.store.weather_days import (
    Place,
    days_from,
    humidity_faults,
    looks_swapped,
    with_derived,
)
from lawnbook.store.weather_result import Fault, Question, UnitChoice, WeatherReading
from lawnbook.store.weather_table import Array, Table, days_of, numbers_of, table_of
from lawnbook.store.weather_units import (
    looks_like_celsius,
    looks_like_fahrenheit,
    rain_fits,
    temperature_fits,
)
from lawnbook.yard.numbers import counted, whole
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import WeatherDay

MOST_BYTES = 16 * 2**20
ALWAYS_TENTHS = "tenths"
_WINDS = ("mph", "m_s", "km_h")


@dataclass(slots=True)
class _Work:
    """One reading under way: the table, what its columns are, and what came up so far.

    `about` says what sort of table it is and `notes` what else was understood; `habit` is the set
    of units of a NOAA table where its sort says it.
    """

    table: Table
    columns: list[Column]
    date_column: str
    about: str
    choice: UnitChoice
    place: Place = field(default_factory=Place)
    is_noaa: bool = False
    habit: str = ""
    questions: list[Question] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def note(self, count: int, one: str, many: str) -> None:
        """Say what happened so many times, if at all."""
        if count:
            self.notes.append(f"{whole(count)} {one if count == 1 else many}")


def read_weather(path: Path, choice: UnitChoice | None = None) -> WeatherReading:
    """What a weather file holds; OwnerError where it cannot be read at all, with its name."""
    text = read_text_bounded(path, MOST_BYTES)
    try:
        return weather_from_text(text, choice)
    except OwnerError as error:
        raise OwnerError(f"{path.name} {error}") from error


def weather_from_text(text: str, choice: UnitChoice | None = None) -> WeatherReading:
    """What a table's text holds, with the owner's answers so far.

    OwnerError where it is no table, or has no column ``date``: nothing of it can be read.
    """
    choice = choice or UnitChoice()
    work = _noaa(text, choice) or _own(table_of(text), choice)
    if work.questions:
        return _result(work, ())
    days, question = days_of(work.table, work.date_column, choice)
    work.questions += [question] if question is not None else []
    raw = {each.measures: numbers_of(work.table, each.name, each.label) for each in work.columns}
    work.note(work.table.missing, tr("reading marked as missing"), tr("readings marked as missing"))
    work.columns = _noaa_units(work, raw, days) if work.is_noaa else _own_units(work, raw, days)
    values = {each.measures: in_own_unit(raw[each.measures], each.unit) for each in work.columns}
    _mind_swap(work, values)
    if any(each.needed for each in work.questions):
        return _result(work, ())
    work.table.faults += humidity_faults(values, work.table.lines)
    skip = {fault.line for fault in work.table.faults}
    found = days_from(with_derived(values, days, work.place), days, work.table.lines, skip)
    work.table.faults += found.faults
    work.note(found.repeated, tr("line that says a day again"), tr("lines that say a day again"))
    return _result(work, found.days)


def _noaa(text: str, choice: UnitChoice) -> _Work | None:
    """A table of NOAA's, one station of it; None for any other table."""
    flagged, is_long = 0, ghcn.is_long(text)
    if is_long:
        table, flagged = ghcn.wide_from_long(text)
    elif ghcn.is_wide([name.strip(' "\r') for name in text.partition("\n")[0].split(",")]):
        table = table_of(text)
    else:
        return None
    question = ghcn.one_station(table, choice)
    flagged += ghcn.left_out_by_quality(table)
    work = _Work(
        table=table,
        columns=ghcn.columns_of(table),
        date_column=ghcn.DATE,
        about=tr("NOAA daily table of one station"),
        choice=choice,
        place=Place(ghcn.WIND_HEIGHT_M, ghcn.latitude_of(table)),
        is_noaa=True,
        habit=ALWAYS_TENTHS if is_long else "",
        questions=[question] if question is not None else [],
    )
    told = tr("flagged by quality control left out")
    work.note(flagged, tr("value {told}", told=told), tr("values {told}", told=told))
    return work


def _own(table: Table, choice: UnitChoice) -> _Work:
    """A table whose columns have our names; a name that is none of them is a fault."""
    columns: list[Column] = []
    date_column = ""
    for name in table.names:
        known = column_of(name)
        if name.casefold() == "date":
            date_column = name
        elif known is None:
            table.faults.append(_unknown(name))
        elif twin := next((each for each in columns if each.measures == known.measures), None):
            told = tr(
                "the columns {name} and {other} measure the same; keep one of them.",
                name=twin.name,
                other=name,
            )
            table.faults.append(Fault(1, told))
        else:
            columns.append(known)
    if not date_column and any(";" in name for name in table.names):
        raise OwnerError(
            tr(
                "line 1: semicolons stand between the columns; save the table with commas "
                "between them, and with points in its figures."
            )
        )
    if not date_column:
        raise OwnerError(tr("line 1: the column date is missing; name the columns in this line."))
    return _Work(table, columns, date_column, tr("Daily table"), choice)


def _unknown(name: str) -> Fault:
    near = near_name(name)
    mend = tr("did you mean {near}?", near=near) if near else tr("take it out, or leave it aside.")
    return Fault(1, tr('there is no column "{name}"; {mend}', name=name, mend=mend))


def _noaa_units(work: _Work, raw: Mapping[str, Array], days: Sequence[date]) -> list[Column]:
    """Columns with the units of the one set that the owner says, or that fits."""
    chosen = work.habit or work.choice.get(NOAA)
    found = [each for each in ghcn.HABITS if each.key == chosen] or ghcn.fitting(raw, days)
    if len(found) != 1 and work.columns:
        work.questions.append(ask_habit(found, work.columns, raw))
    elif found:
        work.about += f", {found[0].words}"
    habit = (found or ghcn.HABITS)[0]
    return [Column(each.name, each.measures, habit.unit(each)) for each in work.columns]


def _own_units(work: _Work, raw: Mapping[str, Array], days: Sequence[date]) -> list[Column]:
    """Columns with their unit: the named one, the only one that fits, or the owner's answer."""
    _mind_names(work, raw, days)
    unknown = np.full(len(days), np.nan)
    low, high, rain = (raw.get(name, unknown) for name in ("tmin", "tmax", "rain"))
    fitting: dict[str, Sequence[str]] = {
        "temperature": [unit for unit in ("f", "c") if temperature_fits(unit, low, high, days)],
        "depth": [unit for unit in ("in", "mm") if rain_fits(unit, rain)],
        "wind": _WINDS,
    }
    settled: dict[str, str] = {}
    for each in work.columns:
        if each.unit or each.kind in settled:
            continue
        units = fitting[each.kind]
        settled[each.kind] = work.choice.get(each.kind) or (units[0] if len(units) == 1 else "")
        if not settled[each.kind]:
            work.questions.append(ask_unit(each, units, raw[each.measures]))
    columns = [
        Column(each.name, each.measures, each.unit or settled[each.kind]) for each in work.columns
    ]
    told = dict.fromkeys(UNIT_WORDS[each.unit] for each in columns if each.unit)
    work.about += f" in {', '.join(told)}" if told else ""
    return columns


def _mind_names(work: _Work, raw: Mapping[str, Array], days: Sequence[date]) -> None:
    """Where columns name °F or °C and look like the other, ask, or take the owner's answer."""
    named = [each for each in work.columns if each.kind == "temperature" and each.unit]
    shown = [each for each in named if each.measures in ("tmin", "tmax")]
    if not shown or len({each.unit for each in named}) != 1:
        return
    unknown = np.full(len(days), np.nan)
    low, high = raw.get("tmin", unknown), raw.get("tmax", unknown)
    unit = named[0].unit
    if not (
        looks_like_fahrenheit(low, high, days) if unit == "c" else looks_like_celsius(high, days)
    ):
        return
    chosen = work.choice.get(TEMPERATURE)
    if not chosen:
        work.questions.append(ask_named(shown, unit, raw))
    else:
        work.columns = [
            Column(each.name, each.measures, chosen) if each in named else each
            for each in work.columns
        ]


def _mind_swap(work: _Work, values: dict[str, Array]) -> None:
    """Where lows and highs look exchanged, ask, or exchange them as the owner wishes."""
    chosen = work.choice.get(SWAP)
    if not looks_swapped(values):
        return
    if not chosen:
        work.questions.append(ask_swap(work.columns))
    elif chosen == "yes":
        values["tmin"], values["tmax"] = values["tmax"], values["tmin"]
        work.notes.append(tr("lowest and highest exchanged"))


def _result(work: _Work, days: tuple[WeatherDay, ...]) -> WeatherReading:
    count = counted(len(days), "day")
    pending = any(each.needed for each in work.questions)
    told = work.about if pending else f"{work.about}; {', '.join([count, *work.notes])}"
    return WeatherReading(
        days=days,
        faults=tuple(sorted(work.table.faults, key=lambda fault: fault.line)),
        questions=tuple(work.questions),
        told=f"{told}.",
    )
