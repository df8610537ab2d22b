"""Daily weather as a table of comma-separated values, with the columns of the yard file.

The first line names the columns: ``date`` and any of the weather fields, such as
``date,tmin_f,tmax_f,rain_in``. An empty cell stands for "not measured". Days are written year,
month, day (2026-11-16), or all as month/day/year (11/16/2026) where some day after the twelfth
shows that they are not day/month/year.
"""

import csv
import difflib
import re
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

from lawnbook.store.files import read_text_bounded
from lawnbook.yard.codec import from_plain
from lawnbook.yard.fields import fields_of
from lawnbook.yard.problems import OwnerError, in_one_line
from lawnbook.yard.records import WeatherDay

MOST_BYTES = 16 * 2**20
_SLASHED = re.compile(r"(\d{1,2})/(\d{1,2})/(\d{4})", re.ASCII)
_LAST_MONTH = 12
_ISO_MEND = "write every date as 2026-11-16, year, month and day."
_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?", re.ASCII)


def read_weather_file(path: Path) -> tuple[WeatherDay, ...]:
    """The days of a weather file; OwnerError names the file, the line and the mend."""
    return parse_weather(read_text_bounded(path, MOST_BYTES), path.name)


def parse_weather(text: str, where: str) -> tuple[WeatherDay, ...]:
    """The days of a weather table in its own order; OwnerError says where in it, and the mend.

    Values are not judged here (see `lawnbook.yard.check`), but each must be a number, and no day
    may stand twice.
    """
    try:
        rows = list(csv.reader(text.splitlines(), strict=True))
    except csv.Error as error:
        sentence = f"{where}: this is no table of comma-separated values ({error})."
        raise OwnerError(sentence) from error
    columns = _columns(rows[0] if rows else [], f"{where} line 1")
    days: dict[str, WeatherDay] = {}
    for number, row in enumerate(_dated(rows[1:], columns.index("date"), where), start=2):
        if not any(cell.strip() for cell in row):
            continue
        day = _day(columns, row, f"{where} line {number}", rank=len(days))
        if day.id in days:
            raise OwnerError(f"{where} line {number}: {day.id} stands twice; keep one line of it.")
        days[day.id] = day
    return tuple(days.values())


def _columns(header: list[str], where: str) -> list[str]:
    known = [info.name for info in fields_of(WeatherDay)]
    columns = [cell.strip() for cell in header]
    for name in columns:
        if name not in known:
            near = difflib.get_close_matches(name, known, n=1)
            mend = f"did you mean {near[0]}?" if near else f"known are {', '.join(known)}."
            raise OwnerError(f'{where}: there is no column "{name}"; {mend}')
        if columns.count(name) > 1:
            raise OwnerError(f"{where}: the column {name} stands twice; keep one of them.")
    if "date" not in columns:
        raise OwnerError(f"{where}: the column date is missing; name the columns in this line.")
    return columns


def _dated(rows: list[list[str]], place: int, where: str) -> list[list[str]]:
    """The rows with days as ISO dates, where every day of the column is month/day/year.

    OwnerError where a column of such days does not show which of its numbers is the month.
    """
    told = {i: row[place].strip() for i, row in enumerate(rows) if len(row) > place}
    slashed = {i: _SLASHED.fullmatch(cell) for i, cell in told.items() if cell}
    parts = {i: tuple(map(int, match.groups())) for i, match in slashed.items() if match}
    if not parts or len(parts) < len(slashed):
        return rows
    dated = [list(row) for row in rows]
    for i, (month, day, year) in parts.items():
        try:
            dated[i][place] = date(year, month, day).isoformat()
        except ValueError as error:
            sentence = f'"{told[i]}" is no day as month/day/year; {_ISO_MEND}'
            raise OwnerError(f"{where} line {i + 2}.date: {sentence}") from error
    first = min(parts)
    if all(day <= _LAST_MONTH for _, day, _ in parts.values()):
        sentence = f'"{told[first]}" may be month/day or day/month; {_ISO_MEND}'
        raise OwnerError(f"{where} line {first + 2}.date: {sentence}")
    return dated


def _day(columns: list[str], row: list[str], where: str, rank: int) -> WeatherDay:
    if len(row) > len(columns):
        raise OwnerError(f"{where}: there are more cells than columns; take the extra ones out.")
    cells = {name: cell.strip() for name, cell in zip(columns, row, strict=False)}
    data = {name: _value(name, cell) for name, cell in cells.items() if cell}
    day, problems = from_plain(WeatherDay, data, where)
    if day is None:
        raise OwnerError(in_one_line(problems[0]))
    return replace(day, rank=rank)


def _value(name: str, cell: str) -> Any:
    # What is no plain number stays text, and is refused as such with its own sentence.
    return float(cell) if name != "date" and _NUMBER.fullmatch(cell) else cell
