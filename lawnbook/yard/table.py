"""A table of a notebook: an immutable mapping from id to record, which remembers its own order.

What is often asked of a table, its records by zone or spot and its last date, is reckoned when it
is first asked for, and carried over to the table that an edit makes of it: a group that the edit
does not touch stays the same tuple. So two groups are compared by identity, like whole tables.
"""

from collections import defaultdict
from collections.abc import Callable, ItemsView, Iterable, Iterator, KeysView, Mapping, ValuesView
from datetime import date
from operator import attrgetter
from typing import Any, Protocol, TypeVar


class Ranked(Protocol):
    """What a row has to have: an id, and its place in the owner's order."""

    @property
    def id(self) -> str:
        """The row's own key."""

    @property
    def rank(self) -> int:
        """The row's place; rows of equal rank keep the order in which they came."""


R = TypeVar("R", bound=Ranked)
Groups = Mapping[str, tuple[R, ...]]
_RANK = attrgetter("rank")


class Table(Mapping[str, R]):
    """Records by id, in the order of their ranks. Equal where all ids and records are."""

    __slots__ = ("_groups", "_latest", "_rows")

    def __init__(self, rows: Mapping[str, R]) -> None:
        """Take over rows that are in order already; see `table_of`. `rows` is never changed."""
        self._rows = rows if isinstance(rows, dict) else dict(rows)
        self._groups: dict[str, dict[str, tuple[R, ...]]] = {}
        self._latest: date | None = None

    def __getitem__(self, key: str) -> R:
        """The record of an id; KeyError where there is none."""
        return self._rows[key]

    def __iter__(self) -> Iterator[str]:
        """The ids in order."""
        return iter(self._rows)

    def __len__(self) -> int:
        """How many records."""
        return len(self._rows)

    def __contains__(self, key: object) -> bool:
        """Whether there is a record of an id."""
        return key in self._rows

    def keys(self) -> KeysView[str]:
        """The ids in order."""
        return self._rows.keys()

    def values(self) -> ValuesView[R]:
        """The records in order."""
        return self._rows.values()

    def items(self) -> ItemsView[str, R]:
        """Ids and records in order."""
        return self._rows.items()

    def __eq__(self, other: object) -> bool:
        """Whether ids and records are the same, whatever kind of mapping holds them."""
        if self is other:
            return True
        if isinstance(other, Table):
            return self._rows == other._rows
        return self._rows == dict(other) if isinstance(other, Mapping) else NotImplemented

    def __hash__(self) -> int:
        """Of the ids."""
        return hash(frozenset(self._rows))

    def __repr__(self) -> str:
        """The rows as a dict shows them."""
        return f"Table({self._rows!r})"

    @property
    def latest(self) -> date | None:
        """The last date of dated records; None where there are none."""
        if self._latest is None and self._rows:
            self._latest = max(map(_date_of, self._rows.values()))
        return self._latest

    @property
    def highest_rank(self) -> int:
        """The rank of the last record; −1 where there is none."""
        return self._rows[next(reversed(self._rows))].rank if self._rows else -1

    def grouped(self, field: str) -> Groups[R]:
        """The records by what a field holds, each group in the table's order, in no order of keys.

        A record whose field holds a mapping or tuple is in the group of each of its keys; one whose
        field is None or empty is in none.
        """
        if field not in self._groups:
            groups: defaultdict[str, list[R]] = defaultdict(list)
            rows = self._rows.values()
            keys = list(map(attrgetter(field), rows))
            alone = all(keys) and set(map(type, keys)) == {str}
            for held, row in zip(keys, rows, strict=True):
                if alone:
                    # Of most tables each row is in one group.
                    groups[held].append(row)
                    continue
                for key in (held,) if isinstance(held, str) and held else held or ():
                    groups[key].append(row)
            self._groups[field] = {key: tuple(rows) for key, rows in groups.items()}
        return self._groups[field]

    def changed(self, delta: Mapping[str, R | None]) -> "Table[R]":
        """The table with records put in by id, or taken out where None stands for them."""
        rows = dict(self._rows)
        in_order = True
        highest = self._rows[next(reversed(self._rows))].rank if self._rows else None
        for key, after in delta.items():
            before = rows.get(key)
            if after is None:
                rows.pop(key, None)
                continue
            if before is None:
                in_order = in_order and (highest is None or after.rank >= highest)
                highest = after.rank if highest is None else max(highest, after.rank)
            else:
                in_order = in_order and after.rank == before.rank
            rows[key] = after
        made: Table[R] = Table(rows if in_order else _in_order(rows))
        if in_order:
            made._groups = {field: self._followed(field, delta, rows) for field in self._groups}
        made._latest = self._latest_after(delta)
        return made

    def _followed(
        self, field: str, delta: Mapping[str, R | None], after: Mapping[str, R]
    ) -> dict[str, tuple[R, ...]]:
        """The groups of a field after a change that keeps the order of ranks."""
        touched: dict[str, None] = {}
        places: dict[str, int] = {}
        for key in delta:
            old, new = (_names(rows.get(key), field) for rows in (self._rows, after))
            touched |= dict.fromkeys((*old, *new))
            if key in self._rows and not set(new) <= set(old) and not places:
                # A record that moves to another group stands where it did in the table.
                places = {each: n for n, each in enumerate(after)}
        groups = dict(self._groups[field])
        if self._rows.keys().isdisjoint(delta):
            # New records come last, as in the table.
            for row in (after[key] for key in delta if key in after):
                for name in dict.fromkeys(_names(row, field)):
                    groups[name] = (*groups.get(name, ()), row)
            return groups
        for name in touched:
            ids = dict.fromkeys([*(row.id for row in groups.get(name, ())), *delta])
            rows = [after[key] for key in ids if key in after]
            members = [row for row in rows if name in _names(row, field)]
            if places:
                members.sort(key=lambda row: places[row.id])
            groups[name] = tuple(members)
        return {name: rows for name, rows in groups.items() if rows}

    def _latest_after(self, delta: Mapping[str, R | None]) -> date | None:
        """The last date after a change, None where it is not known without looking."""
        latest = self._latest
        if latest is None:
            return None
        for key, after in delta.items():
            before = self._rows.get(key)
            if before is not None and _date_of(before) == latest:
                return None
            if after is not None:
                latest = max(latest, _date_of(after))
        return latest


def table_of(rows: Iterable[R]) -> Table[R]:
    """A table of records; of two with the same id the later one counts."""
    return Table(_in_order({row.id: row for row in rows}))


def as_table(rows: Mapping[str, R]) -> Table[R]:
    """The same table, or one of a mapping whose rows are in order."""
    return rows if isinstance(rows, Table) else Table(rows)


def grouped(rows: Mapping[str, R], field: str) -> Groups[R]:
    """The records of a notebook's table by what a field holds; see `Table.grouped`."""
    return as_table(rows).grouped(field)


def latest(rows: Mapping[str, R]) -> date | None:
    """The last date of a notebook's table of dated records; None where it is empty."""
    return as_table(rows).latest


def until(rows: Mapping[str, R], on: date) -> Mapping[str, R]:
    """The records of a dated table up to a day, itself where there are no later ones."""
    last = latest(rows)
    if last is None or last <= on:
        return rows
    return Table({key: row for key, row in rows.items() if _date_of(row) <= on})


_date_of: Callable[[Any], date] = attrgetter("date")


def _names(row: Any, field: str) -> tuple[str, ...]:
    """The groups that a record is in, none for no record."""
    held = getattr(row, field) if row is not None else None
    if not held:
        return ()
    return (held,) if isinstance(held, str) else tuple(held)


def _in_order(rows: dict[str, R]) -> dict[str, R]:
    ranks = list(map(_RANK, rows.values()))
    # Sorting what is in order already is one quick pass, far quicker than looking pair by pair.
    if sorted(ranks) == ranks:
        return rows
    return dict(sorted(rows.items(), key=lambda item: item[1].rank))
