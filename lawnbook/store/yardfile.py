"""The yard file: a whole notebook as one JSON text, both ways without loss.

A reference is an id or a unique name; the writer writes ids, one record a line. A record without
an id gets one. The daily weather may come as a table of its own instead (``weather_csv``).
"""

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from lawnbook.reading import tr
from lawnbook.store.checked import Checked, checked, load_notebook, named
from lawnbook.store.files import YARD_SUFFIX, read_text_bounded, written_whole
from lawnbook.store.handover_file import load_handover
from lawnbook.store.handover_names import HANDOVER_SUFFIX
from lawnbook.store.steps import Between, Steps, untold
from lawnbook.store.strict_json import parse_json
from lawnbook.store.weather_csv import parse_weather, read_weather_file
from lawnbook.yard.codec import from_plain, settled_id, to_plain
from lawnbook.yard.notebook import Notebook, as_of, new_notebook, with_tables
from lawnbook.yard.places import is_sample
from lawnbook.yard.problems import OwnerError, in_one_line
from lawnbook.yard.records import SINGLES, TABLES, Record, WeatherDay
from lawnbook.yard.references import Reference, references_of, with_references
from lawnbook.yard.schema import FORMAT, VERSION

MOST_BYTES = 512 * 2**20
_KEYS = ("format", "version", *TABLES, "weather_csv")
_SHOWN = 40


def read_yard_text(text: str, today: date, folder: Path | None) -> Notebook:
    """The notebook of a yard file's text; questionable values pass.

    `folder` is where a ``weather_csv`` named in it lies. Raises OwnerError with the path, what is
    wrong and the mend, for the first thing that cannot be kept.
    """
    return read_yard_checked(text, today, folder).notebook


def read_yard_checked(text: str, today: date, folder: Path | None) -> Checked:
    """As `read_yard_text`, with the questions."""
    data = parse_json(text, tr("yard file"))
    _refuse_other_formats(data)
    rows = {table: list(_records(data, table)) for table in TABLES if table in data}
    table = data.get("weather_csv")
    if "weather_csv" in data:
        rows["weather"] = list(_weather_of(data, folder))
    return checked(with_tables(new_notebook(""), _resolved(rows)), today, _source(table))


def write_yard_text(notebook: Notebook) -> str:
    """The notebook as a yard file's text, the same for equal notebooks.

    The order of records is kept; their ranks become 0, 1, 2 and so on when read again.
    """
    return "".join(_pieces(notebook))


def write_yard(
    notebook: Notebook,
    path: Path,
    between: Between = untold,
    last: Callable[[], None] = lambda: None,
) -> None:
    """Write `write_yard_text` to a file, whole or not at all, one record after another.

    So a book full of photographs is never held in memory as text. `between` is told the records
    that are done, `last` is called just before the file takes its place; nothing is written where
    one of them raises. Raises OwnerError where the file cannot be written, or would be too large to
    be read again.
    """
    steps = Steps(between, sum(len(notebook.table(each)) for each in TABLES))
    with (
        written_whole(path, last) as fresh,
        fresh.open("w", encoding="utf-8", newline="\n") as handle,
    ):
        written = 0
        for piece in steps.each(_pieces(notebook)):
            written += len(piece) if piece.isascii() else len(piece.encode())
            if written > MOST_BYTES:
                raise OwnerError(
                    tr(
                        "{name}: with its photographs this yard file would be larger than "
                        "{most_bytes} "
                        "MB, which cannot be read again; copy the notebook's own file instead.",
                        name=path.name,
                        most_bytes=MOST_BYTES // 2**20,
                    )
                )
            handle.write(piece)


def _pieces(notebook: Notebook) -> Iterator[str]:
    """The text of a yard file in pieces of a record at most."""
    yield tr('{{\n  "format": {dump},\n  "version": {version}', dump=_dump(FORMAT), version=VERSION)
    for table in TABLES:
        records = notebook.table(table).values()
        if table in SINGLES:
            line = _dump(_plain(next(iter(records))))
            if table == "yard" or line != "{}":
                yield f',\n  "{table}": {line}'
        elif records:
            before = f',\n  "{table}": ['
            for record in records:
                yield f"{before}\n    {_dump(_plain(record))}"
                before = ","
            yield "\n  ]"
    yield "\n}\n"


def load_any(path: Path, today: date) -> Notebook:
    """The notebook of a yard file (.json), a handover (.zip) or a notebook file.

    OwnerError names the file.
    """
    return load_checked(path, today).notebook


def load_checked(path: Path, today: date) -> Checked:
    """As `load_any`, with the questions.

    An invented yard that comes with the program is read as it stands on the day, so that a clock
    behind its records does not refuse it.
    """
    if path.suffix.lower() == YARD_SUFFIX:
        text = read_text_bounded(path, MOST_BYTES)
        day = date.max if is_sample(path) else today
        with named(path.name):
            read = read_yard_checked(text, day, path.absolute().parent)
        return replace(read, notebook=as_of(read.notebook, today))
    if path.suffix.lower() != HANDOVER_SUFFIX:
        return load_notebook(path, today)
    notebook = load_handover(path)
    with named(path.name):
        return checked(notebook, today)


def _source(weather_csv: object) -> str:
    """What a ``weather_csv`` is called: its file, or just the field where it is the table."""
    if not isinstance(weather_csv, str):
        return ""
    return (
        "weather_csv"
        if "\n" in weather_csv
        else tr("weather_csv: {weather_csv}", weather_csv=weather_csv)
    )


def _refuse_other_formats(data: Any) -> None:
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        raise OwnerError(
            tr(
                'format: a yard file is {{"format": "{format}", …}}; this one is not.',
                format=FORMAT,
            )
        )
    version = data.get("version")
    if version != VERSION or isinstance(version, bool):
        mend = (
            tr("update Lawnbook to read it")
            if _is_newer(version)
            else tr("enter {version}", version=VERSION)
        )
        raise OwnerError(
            tr("version: only version {version} is known here; {mend}.", version=VERSION, mend=mend)
        )
    for key in data:
        if key not in _KEYS:
            near = get_close_matches(key[:_SHOWN], _KEYS, n=1)
            mend = (
                tr('did you mean "{near}"?', near=near[0])
                if near
                else tr("known are {keys}.", keys=", ".join(_KEYS))
            )
            shown = key[:_SHOWN]
            raise OwnerError(
                tr('{shown}: there is no field "{shown}" here; {mend}', shown=shown, mend=mend)
            )
    if "yard" not in data:
        raise OwnerError(tr('yard: the yard is missing; add "yard": {"name": …}.'))


def _is_newer(version: object) -> bool:
    return isinstance(version, int) and version > VERSION


def _records(data: Mapping[str, Any], table: str) -> Iterator[Record]:
    """The records of a table as they stand, in order, each id once."""
    listed = [data[table]] if table in SINGLES else data[table]
    if not isinstance(listed, list):
        raise OwnerError(
            tr("{table}: this must be a list of records in brackets; put them in [ ].", table=table)
        )
    seen: dict[str, int] = {}
    for rank, plain in enumerate(listed):
        where = table if table in SINGLES else f"{table}[{rank}]"
        record, problems = from_plain(TABLES[table], plain, where)
        if record is None:
            raise OwnerError(in_one_line(problems[0]))
        if record.id in seen:
            first = f"{table}[{seen[record.id]}]"
            mend = tr(
                '"{id}" is the id of {first} too; give each its own, or keep one.',
                id=record.id,
                first=first,
            )
            raise OwnerError(tr("{where}.id: {mend}", where=where, mend=mend))
        seen[record.id] = rank
        yield replace(record, rank=rank)


def _weather_of(data: Mapping[str, Any], folder: Path | None) -> tuple[WeatherDay, ...]:
    """The days of ``weather_csv``: a table in the text itself, or a file beside the yard file."""
    given = data["weather_csv"]
    if "weather" in data:
        raise OwnerError(tr("weather_csv: weather is given twice; take one of the two out."))
    if not isinstance(given, str):
        raise OwnerError(
            tr("weather_csv: this must be text; enter a file's name or the table itself.")
        )
    if "\n" in given:
        return parse_weather(given, "weather_csv")
    if given in ("", ".", "..") or any(sign in given for sign in "/\\:\x00"):
        mend = tr("enter the bare name of a file in the yard file's own folder.")
        raise OwnerError(tr("weather_csv: this is no file's name; {mend}", mend=mend))
    if folder is None:
        raise OwnerError(
            tr("weather_csv: there is no folder to look in; put the table itself here.")
        )
    with named("weather_csv"):
        return read_weather_file(folder / given)


def _resolved(rows: Mapping[str, list[Record]]) -> dict[str, list[Record]]:
    """The rows with every reference by name turned into one by id."""
    books = {table: _AddressBook(listed) for table, listed in rows.items()}

    def id_of(reference: Reference) -> str:
        book = books.get(reference.table)
        return book.id_of(reference.target) if book is not None else reference.target

    return {
        table: [_with_ids(record, f"{table}[{i}]", id_of) for i, record in enumerate(listed)]
        for table, listed in rows.items()
    }


def _with_ids(record: Record, where: str, id_of: Callable[[Reference], str]) -> Record:
    after = with_references(record, id_of)
    if after is not record and len(references_of(after)) < len(references_of(record)):
        raise OwnerError(
            tr("{where}: one zone stands twice, by name and by id; keep one of them.", where=where)
        )
    return after


class _AddressBook:
    """The ids of a table, and its names where only one record bears them."""

    def __init__(self, records: Sequence[Record]) -> None:
        self._ids = {record.id for record in records}
        self._by_name: dict[str, list[str]] = {}
        for record in records:
            name = str(getattr(record, "name", "")).strip().casefold()
            self._by_name.setdefault(name, []).append(record.id)

    def id_of(self, target: str) -> str:
        """The id meant; what is neither an id nor a unique name stays, for the check to refuse."""
        if target in self._ids:
            return target
        named = self._by_name.get(target.strip().casefold(), [])
        return named[0] if len(named) == 1 else target


def _plain(record: Record) -> dict[str, Any]:
    plain = to_plain(record)
    if settled_id(record) == record.id:
        del plain["id"]
    return plain


def _dump(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)
