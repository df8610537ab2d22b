"""The one set of plausibility rules: for a form, an import and the command line alike.

`check` looks at one record as it would stand in a notebook, `check_all` at several, and
`check_notebook` at all of them.
"""

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Any, TypeVar

from lawnbook.reading import tr
from lawnbook.yard import numbers
from lawnbook.yard.codec import LONGEST_ID, settled_id
from lawnbook.yard.consistency import celsius_complaints, consistency_complaints
from lawnbook.yard.consistency_feed import long_ago_complaints
from lawnbook.yard.fields import field_of
from lawnbook.yard.limits import Complaint, ask, field_complaints, refuse
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import Problem
from lawnbook.yard.records import TABLES, ClimateMonth, Core, Feeding, Photo, Record, WeatherDay
from lawnbook.yard.references import references_of
from lawnbook.yard.table import grouped

R = TypeVar("R", bound=Record)
_TABLE_OF = {kind: name for name, kind in TABLES.items()}
_NAMED = ("zones", "spots", "products", "n_budgets")


def check(record: Record, notebook: Notebook, today: date) -> tuple[Problem, ...]:
    """What is wrong or doubtful in a record as it would stand in the notebook.

    The record may be new, or replace the one of its id. Refusals come before questions.
    """
    return check_all((record,), notebook, today)


def check_all(records: Iterable[Record], notebook: Notebook, today: date) -> tuple[Problem, ...]:
    """What is wrong or doubtful in each of several records, as `check` of each in turn."""
    checker = _Checker(notebook, today)
    return tuple(
        problem
        for record in records
        for problem in checker.problems(record, _TABLE_OF[type(record)])
    )


def check_notebook(notebook: Notebook, today: date) -> tuple[Problem, ...]:
    """What is wrong or doubtful anywhere in a notebook, in the order of its tables."""
    checker = _Checker(notebook, today, later_only=True)
    found = [
        problem
        for table in TABLES
        for record in notebook.table(table).values()
        for problem in checker.problems(record, table)
    ]
    return (*found, *table_questions(notebook))


def table_questions(notebook: Notebook) -> tuple[Problem, ...]:
    """What is doubtful in a table as a whole, once for the table and so without a record's id."""
    return tuple(
        Problem(table, "", c.field, c.severity, c.sentence, where=f"{table}.{c.place}")
        for table, c in celsius_complaints(notebook)
    )


class _Checker:
    """The rules with what they need to know of the notebook, counted once."""

    def __init__(self, notebook: Notebook, today: date, later_only: bool = False) -> None:
        self._notebook = notebook
        self._today = today
        self._later_only = later_only
        self._places: dict[str, Mapping[str, int]] = {}
        self._ids_by_name: dict[str, Mapping[Hashable, Sequence[str]]] = {}
        self._days: dict[tuple[str, str], Mapping[Hashable, Sequence[Record]]] = {}
        self._alike: dict[tuple[str, str, date | None], Mapping[Hashable, Sequence[str]]] = {}

    def problems(self, record: Record, table: str) -> tuple[Problem, ...]:
        """Every problem of one record of a table, refusals first."""
        complaints = list(self._complaints(record, table))
        if not complaints:
            return ()
        settled = settled_id(record)
        root = table if settled == table else f"{table}[{self._place(record, table)}]"
        found = [
            Problem(
                table=table,
                record_id=record.id,
                field=c.field,
                severity=c.severity,
                sentence=c.sentence,
                where=f"{root}.{self._told(record, c)}",
                name="" if settled == table else _name(record).strip(),
            )
            for c in complaints
        ]
        return tuple(sorted(found, key=lambda problem: problem.severity == "ask"))

    def _place(self, record: Record, table: str) -> int:
        """Where a record stands in its table, a new one behind the last."""
        if table not in self._places:
            self._places[table] = {each: n for n, each in enumerate(self._notebook.table(table))}
        return self._places[table].get(record.id, len(self._places[table]))

    def _told(self, record: Record, complaint: Complaint) -> str:
        """A complaint's place, an entry by zone under the zone's name: ids may be made up."""
        field, _, zone_id = complaint.place.partition(".")
        zone = self._notebook.zones.get(zone_id)
        by_zone = field_of(type(record), complaint.field).rule.refers_to == "zones"
        return f"{field}.{zone.name}" if by_zone and zone is not None else complaint.place

    def _complaints(self, record: Record, table: str) -> Iterator[Complaint]:
        yield from field_complaints(record, self._today)
        yield from self._references(record)
        yield from self._twins(record, table)
        yield from consistency_complaints(record, self._notebook)
        # A notebook kept for decades is not asked about each of its first years again.
        if isinstance(record, Feeding) and not self._later_only:
            yield from long_ago_complaints(record, self._today)

    def _references(self, record: Record) -> Iterator[Complaint]:
        for each in references_of(record):
            if each.target not in self._notebook.table(each.table):
                label = field_of(type(record), each.field).rule.label
                sentence = tr(
                    '{label}: there is no "{target}" in {table}; ',
                    label=label,
                    target=each.target[:LONGEST_ID],
                    table=each.table,
                )
                yield refuse(each.field, sentence + self._mend(each.table), each.place)

    def _mend(self, table: str) -> str:
        names = [_name(row) for row in self._notebook.table(table).values()]
        if not any(names):
            return tr("add it first.")
        few = ", ".join(name for name in names[:6] if name)
        return (
            tr("choose {few}.", few=few)
            if len(names) <= 6
            else tr("choose one, such as {few}.", few=few)
        )

    def _twins(self, record: Record, table: str) -> Iterator[Complaint]:
        settled = settled_id(record)
        if settled is not None and record.id != settled:
            field = "date" if isinstance(record, WeatherDay) else "month"
            yield from self._second(record, field, settled, table)
        if table in _NAMED and self._has_twin(self._names(table), record, _key(record)):
            name = _name(record)
            sentence = tr(
                'Name "{name}" is already in use; choose another, so that it says which.', name=name
            )
            yield refuse("name", sentence)
        if isinstance(record, Feeding) and self._has_twin_beside(record, "product", _spread):
            told = tr(
                "The same feeding of {date} is already entered", date=numbers.day(record.date)
            )
            yield ask("date", tr("{told}; leave one out, or keep both all the same.", told=told))
        if isinstance(record, Core) and self._has_twin_beside(record, "spot", _shown):
            told = tr(
                "A plug of {date} with the same readings is already entered",
                date=numbers.day(record.date),
            )
            yield ask(
                "date",
                tr("{told} at this spot; leave one out, or keep both all the same.", told=told),
            )
        if isinstance(record, Photo) and self._has_twin_beside(record, "core", _pictured):
            told = tr("This photograph is already with the plug")
            yield ask(
                "data_b64", tr("{told}; leave one out, or keep both all the same.", told=told)
            )

    def _has_twin(
        self, alike: Mapping[Hashable, Sequence[str]], record: Record, key: Hashable
    ) -> bool:
        """Whether another record is alike; in a whole notebook only the later of them is named."""
        ids = alike.get(key, ())
        return any(each != record.id for each in (ids[:1] if self._later_only else ids))

    def _has_twin_beside(self, record: R, field: str, key: Callable[[R], Hashable]) -> bool:
        """The same, looked for only among the records of the same day that lead where it leads."""
        table, shared = _TABLE_OF[type(record)], getattr(record, field)
        if (table, shared) not in self._days:
            group = grouped(self._notebook.table(table), field).get(shared, ())
            self._days[(table, shared)] = _by(group, _day)
        day = _day(record)
        if (table, shared, day) not in self._alike:
            beside: Any = self._days[(table, shared)].get(day, ())
            self._alike[(table, shared, day)] = _ids_by(beside, key)
        return self._has_twin(self._alike[(table, shared, day)], record, key(record))

    def _second(self, record: Record, field: str, settled: str, table: str) -> Iterator[Complaint]:
        if isinstance(record, WeatherDay):
            told = tr("Date: {date}", date=numbers.day(record.date))
        elif isinstance(record, ClimateMonth) and 1 <= record.month <= len(numbers.MONTHS):
            told = tr("Month: {tr}", tr=tr(numbers.MONTHS[record.month - 1]))
        else:
            # A month that is none is refused as such, and belongs nowhere.
            return
        if settled in self._notebook.table(table):
            yield refuse(
                field, tr("{told} is already entered; change that record instead.", told=told)
            )
        else:
            yield refuse(
                field,
                tr(
                    '{told} belongs to the record "{settled}"; enter it there.',
                    told=told,
                    settled=settled,
                ),
            )

    def _names(self, table: str) -> Mapping[Hashable, Sequence[str]]:
        if table not in self._ids_by_name:
            self._ids_by_name[table] = _ids_by(self._notebook.table(table).values(), _key)
        return self._ids_by_name[table]


def _ids_by(rows: Iterable[R], key: Callable[[R], Hashable]) -> Mapping[Hashable, Sequence[str]]:
    """The ids of the rows that have each key, in their order."""
    return {each: [row.id for row in alike] for each, alike in _by(rows, key).items()}


def _by(rows: Iterable[R], key: Callable[[R], Hashable]) -> dict[Hashable, list[R]]:
    """The rows that have each key, in their order."""
    found: dict[Hashable, list[R]] = {}
    for row in rows:
        found.setdefault(key(row), []).append(row)
    return found


def _day(record: Any) -> date | None:
    """The day of a record, None where it has none."""
    return getattr(record, "date", None)


def _spread(feeding: Feeding) -> Hashable:
    return (feeding.date, feeding.product, *sorted(feeding.pounds.items()))


def _shown(core: Core) -> Hashable:
    """What a plug showed, when and where: all of it but the words and the ruler."""
    return replace(core, id="", rank=0, note="", resolution_in=None)


def _pictured(photo: Photo) -> Hashable:
    return (photo.core, photo.sha256)


def _name(record: Any) -> str:
    return str(getattr(record, "name", ""))


def _key(record: Record) -> str:
    return _name(record).strip().casefold()
