"""Records of what was salvaged: what a row says, what still has what it refers to, what may be."""

import sqlite3
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from types import MappingProxyType
from typing import Any

from lawnbook.reading import tr
from lawnbook.store.columns import PictureOf, column_names, record_of
from lawnbook.store.salvage_rows import statement
from lawnbook.store.salvage_stand_ins import MENDS, stand_in, wanted
from lawnbook.yard.check import check_notebook
from lawnbook.yard.fields import field_of, fields_of
from lawnbook.yard.limits import first_unshowable
from lawnbook.yard.notebook import Key, Notebook, new_notebook, with_tables
from lawnbook.yard.numbers import whole
from lawnbook.yard.problems import OwnerError, Problem, refused
from lawnbook.yard.records import SINGLES, TABLES, Pictured, Record
from lawnbook.yard.references import references_of

Rows = dict[str, dict[str, Record]]
_ROUNDS = 4


@dataclass(slots=True)
class Toll:
    """What was left out of one table, with sentences about each."""

    garbled: int = 0
    hanging: int = 0
    refused: int = 0
    emptied: int = 0
    details: list[str] = field(default_factory=list)


class Gathering:
    """The records of a new database, made fit for a notebook."""

    def __init__(self, connection: sqlite3.Connection, picture: PictureOf) -> None:
        """Read every row that is a record."""
        self.tolls = {table: Toll() for table in TABLES}
        self._rows: Rows = {table: {} for table in TABLES}
        self._stood_in: set[Key] = set()
        for table in TABLES:
            names = ", ".join(column_names(table))
            select = statement("SELECT", names, "FROM", table, "ORDER BY rank, id")
            for row in connection.execute(select):
                self._take(table, row, picture)

    def rename(self, table: str, names: Mapping[str, str]) -> int:
        """Give records the ids that their index has, where others know them by those.

        Or where a record's own has signs in it that no id has. Returns how many were given.
        """
        referred = {
            each.target
            for rows in self._rows.values()
            for record in rows.values()
            for each in references_of(record)
            if each.table == table
        }
        rows, given = self._rows[table], 0
        for now, told in names.items():
            known = told in referred and now not in referred
            if now in rows and told not in rows and (known or first_unshowable(now)):
                rows[told] = replace(rows.pop(now), id=told)
                given += 1
        return given

    def notebook(self, today: date, known: Mapping[str, Collection[str]]) -> Notebook:
        """The notebook of what can stand together; the tolls say what was left out.

        `known` are the ids that the file's own index has of each table.
        """
        self._drop_pictures()
        self._mend_references(known)
        for number in range(_ROUNDS):
            problems = refused(check_notebook(self._as_it_is(), today))
            if not problems:
                break
            for problem in problems:
                self._refuse(problem, whole=number == _ROUNDS - 1)
            self._mend_references(known)
        return self._as_it_is()

    def kept(self, table: str) -> int:
        """How many of a table's own records are in the notebook."""
        return len(self._rows[table]) - self.stand_ins(table)

    def stand_ins(self, table: str) -> int:
        """How many records of a table stand in for what could not be read."""
        return sum((table, each) in self._stood_in for each in self._rows[table])

    def _as_it_is(self) -> Notebook:
        return with_tables(new_notebook(""), {t: rows.values() for t, rows in self._rows.items()})

    def _take(self, table: str, row: tuple[Any, ...], picture: PictureOf) -> None:
        toll = self.tolls[table]
        try:
            record = record_of(table, row, picture)
        except (ValueError, TypeError, KeyError, OverflowError, RecursionError) as error:
            toll.garbled += 1
            toll.details.append(f"{_called(row[0])}: {str(error)[:120]}")
            return
        if table in SINGLES and record.id != table:
            record = replace(record, id=table)
            toll.details.append(tr("its id was damaged, and is put right"))
        self._rows[table][record.id] = record

    def _drop_pictures(self) -> None:
        for table in ("photos", "backdrops"):
            for record in list(self._rows[table].values()):
                if not isinstance(record, Pictured):
                    continue
                try:
                    record.data_b64.data()
                except OwnerError:
                    del self._rows[table][record.id]
                    self.tolls[table].garbled += 1
                    told = tr("its picture is gone or does not match its SHA-256")
                    self.tolls[table].details.append(f"{_called(record.id)}: {told}")

    def _stand_in(self, known: Mapping[str, Collection[str]]) -> None:
        """Put stand-ins where records lead to what could not be read, each once."""
        for table, target, count in list(wanted(self._rows, known)):
            if (table, target) in self._stood_in:
                continue
            self._stood_in.add((table, target))
            record = stand_in(table, target, self._rows[table].values())
            self._rows[table][target] = record
            told = (
                tr("stands in, as 1 entry leads to it; {mend}", mend=MENDS[table])
                if count == 1
                else tr(
                    "stands in, as {count} entries lead to it; {mend}",
                    count=whole(count),
                    mend=MENDS[table],
                )
            )
            self.tolls[table].details.append(f"{_described(record)}: {told}")

    def _mend_references(self, known: Mapping[str, Collection[str]]) -> None:
        """Take references to what is gone out of records, or the record where it needs them."""
        self._stand_in(known)
        for table, rows in self._rows.items():
            for record in list(rows.values()):
                gone = [r for r in references_of(record) if r.target not in self._rows[r.table]]
                if not gone:
                    continue
                toll = self.tolls[table]
                fields = {each.field for each in gone}
                missing = frozenset(each.target for each in gone)
                told = tr(
                    "{table} {name} is gone",
                    table=gone[0].table,
                    name=_called(gone[0].target),
                )
                also = tr(
                    "{table} {name} is gone, and is left out",
                    table=gone[0].table,
                    name=_called(gone[0].target),
                )
                if any(_is_needed(record, name, missing) for name in fields):
                    del rows[record.id]
                    toll.hanging += 1
                    toll.details.append(f"{_described(record)}: {told}")
                    continue
                rows[record.id] = replace(
                    record, **{name: _without(getattr(record, name), missing) for name in fields}
                )
                toll.emptied += len(gone)
                toll.details.append(f"{_described(record)}: {also}")

    def _refuse(self, problem: Problem, *, whole: bool) -> None:
        """Leave out a value that no rule allows, or the whole record where it needs one."""
        rows, toll = self._rows[problem.table], self.tolls[problem.table]
        record = rows.get(problem.record_id)
        if record is None:
            return
        detail = f"{_described(record)}: {problem.sentence[:160]}"
        infos = {info.name: info for info in fields_of(type(record))}
        info = infos.get(problem.field)
        if not whole and info is not None and not info.required:
            if getattr(record, info.name) != info.default:
                rows[record.id] = replace(record, **{info.name: info.default})
                toll.emptied += 1
                toll.details.append(detail)
            return
        del rows[record.id]
        toll.refused += 1
        toll.details.append(detail)


def _is_needed(record: Record, name: str, missing: frozenset[str]) -> bool:
    """Whether a record cannot be without what a field refers to."""
    value = getattr(record, name)
    if isinstance(value, str):
        return field_of(type(record), name).required
    return not _without(value, missing)


def _without(value: Any, missing: Iterable[str]) -> Any:
    if value is None or isinstance(value, str):
        return None
    if isinstance(value, Mapping):
        return MappingProxyType({k: v for k, v in value.items() if k not in missing})
    return tuple(each for each in value if each not in missing)


def _described(record: Record) -> str:
    """A record by its name or day, else by its id."""
    name, on = getattr(record, "name", ""), getattr(record, "date", None)
    if isinstance(name, str) and name.strip():
        return _called(name)
    return tr("that of {on}", on=on.isoformat()) if isinstance(on, date) else _called(record.id)


def _called(name: object) -> str:
    return f'"{"".join(c if c.isprintable() else "?" for c in str(name)[:40])}"'
