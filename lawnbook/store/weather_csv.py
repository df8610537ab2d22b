"""Daily weather as a table of comma-separated values, with the columns of the yard file.

The first line names the columns: ``date`` and any of the weather fields, such as
``date,tmin_f,tmax_f,rain_in``. An empty cell stands for "not measured".
"""

import csv
import difflib
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

from lawnbook.store.files import read_text_bounded
from lawnbook.yard.codec import from_plain
from lawnbook.yard.fields import fields_of
from lawnbook.yard.problems import OwnerError, in_one_line
from lawnbook.yard.records import WeatherDay

MOST_BYTES = 16 * 2**20
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
    for number, row in enumerate(rows[1:], start=2):
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
