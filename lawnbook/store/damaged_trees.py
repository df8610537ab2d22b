"""Which rows of which table can still be read from a damaged file, and which must be missing.

Every table of a notebook has an index of its ids, kept by SQLite itself. So what each table held
is written down twice, on different pages: rows whose page is lost are known by their ids, and
rows on pages that nothing leads to any more are taken for what they are if the index knows them.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import islice

from lawnbook.store.damaged_pages import (
    INDEX_INTERIOR,
    INDEX_LEAF,
    INTERIOR,
    LEAF,
    DamagedError,
    Pages,
    Row,
    cells_of,
    children_of,
    entry_at,
    row_at,
)

Fits = Callable[[str, Row], bool]

_MOST_ROWS = 1_000_000
_MOST_STRAYS = 500_000
_SCHEMA_CELLS = 5


@dataclass(slots=True)
class Tree:
    """What was met on the way through the pages of one table or index.

    `faults` counts pages and cells that could not be read: there may be rows that nobody knows of.
    """

    seen: set[int] = field(default_factory=set)
    faults: int = 0


@dataclass(slots=True)
class Found:
    """One table as found: the leaves that hold its rows, and the ids its index knows by row."""

    leaves: list[int] = field(default_factory=list)
    ids: dict[int, str] = field(default_factory=dict)
    faults: int = 0
    index_faults: int = 0
    strays: int = 0


class Survey:
    """The tables of a damaged file."""

    def __init__(self, pages: Pages, tables: Iterable[str], fits: Fits) -> None:
        """Look through all pages for these tables; `fits` says whether a row can be of one."""
        self._pages = pages
        self._fits = fits
        self._taken: set[int] = {1}
        self.tables: dict[str, Found] = {name: Found() for name in tables}
        self.schema_faults = 0
        self.has_more_strays = False
        roots = self._roots()
        for name in self.tables:
            self._index(name, roots.get(f"sqlite_autoindex_{name}_1", 0))
        for name in self.tables:
            self._table(name, roots.get(name, 0))
        if any(each.faults or each.index_faults for each in self.tables.values()):
            self._strays(pages.free())

    def rows(self, name: str) -> Iterator[Row]:
        """The rows of a table that can be read, one at a time."""
        given = 0
        for number in self.tables[name].leaves:
            for row in self._rows_on(number):
                given += 1
                if given > _MOST_ROWS:
                    return
                yield row

    def _roots(self) -> dict[str, int]:
        """The first page of every table and index, as far as the file's schema can be read."""
        tree, roots = Tree({1}), {}
        for number in self._leaves(1, (INTERIOR, LEAF), tree):
            self._taken.add(number)
            for row in self._rows_on(number):
                if len(row.cells) == _SCHEMA_CELLS and isinstance(row.cells[3], int):
                    roots[str(row.cells[1])] = row.cells[3]
        self._taken |= tree.seen
        missing = [name for name in self.tables if name not in roots]
        self.schema_faults = tree.faults + len(missing)
        return roots

    def _index(self, name: str, root: int) -> None:
        found, tree = self.tables[name], Tree()
        if not self._is(root, (INDEX_INTERIOR, INDEX_LEAF)):
            found.index_faults += 1
            return
        found.ids = dict(self._entries(root, tree))
        found.index_faults += tree.faults
        self._taken |= tree.seen

    def _table(self, name: str, root: int) -> None:
        found, tree = self.tables[name], Tree()
        if not self._is(root, (INTERIOR, LEAF)):
            found.faults += 1
            return
        found.leaves = list(self._leaves(root, (INTERIOR, LEAF), tree))
        found.faults += tree.faults
        self._taken |= tree.seen

    def _is(self, root: int, kinds: tuple[int, int]) -> bool:
        return root > 1 and root not in self._taken and self._pages.kind(root) in kinds

    def _leaves(self, root: int, kinds: tuple[int, int], tree: Tree) -> Iterator[int]:
        """The leaves below a page in order; every page is gone through once."""
        interior, leaf = kinds
        waiting = [root]
        tree.seen.add(root)
        while waiting:
            number = waiting.pop()
            kind = self._pages.kind(number)
            if kind == leaf:
                tree.faults += self._faults_on(number, kind)
                yield number
                continue
            below = self._below(number) if kind == interior else []
            if not below:
                tree.faults += 1
            for each in reversed(below):
                # A page that two lead to, or that belongs to another, was led to wrongly.
                if each in tree.seen or each in self._taken:
                    tree.faults += 1
                    continue
                tree.seen.add(each)
                waiting.append(each)

    def _below(self, number: int) -> list[int]:
        try:
            return children_of(number, self._pages.page(number))
        except DamagedError:
            return []

    def _faults_on(self, number: int, kind: int) -> int:
        """How many cells of a leaf cannot be read, 1 for a page whose head cannot."""
        try:
            page = self._pages.page(number)
            places = cells_of(number, page)
        except DamagedError:
            return 1
        faults = int(len(page) < self._pages.size)
        for at in places:
            try:
                if kind == LEAF:
                    row_at(self._pages, page, at)
                else:
                    entry_at(self._pages, page, at, kind)
            except DamagedError:
                faults += 1
        return faults

    def _rows_on(self, number: int) -> Iterator[Row]:
        try:
            page = self._pages.page(number)
            places = cells_of(number, page)
        except DamagedError:
            return
        for at in places:
            try:
                yield row_at(self._pages, page, at)
            except DamagedError:
                continue

    def _entries(self, root: int, tree: Tree) -> Iterator[tuple[int, str]]:
        """Row number and id of every entry of an index; its inner pages hold entries too."""
        waiting = [root]
        tree.seen.add(root)
        while waiting:
            number = waiting.pop()
            kind = self._pages.kind(number)
            if kind not in (INDEX_INTERIOR, INDEX_LEAF):
                tree.faults += 1
                continue
            yield from self._entries_on(number, kind, tree)
            for each in self._below(number) if kind == INDEX_INTERIOR else ():
                if each in tree.seen or each in self._taken:
                    tree.faults += 1
                    continue
                tree.seen.add(each)
                waiting.append(each)

    def _entries_on(self, number: int, kind: int, tree: Tree) -> Iterator[tuple[int, str]]:
        try:
            page = self._pages.page(number)
            places = cells_of(number, page)
        except DamagedError:
            tree.faults += 1
            return
        for at in places:
            try:
                cells = entry_at(self._pages, page, at, kind)
            except DamagedError:
                tree.faults += 1
                continue
            if len(cells) == 2 and isinstance(cells[0], str) and isinstance(cells[1], int):
                yield cells[1], cells[0]
            else:
                tree.faults += 1

    def _strays(self, free: frozenset[int]) -> None:
        """Give the pages that nothing leads to any more to the tables they must be of."""
        known = self._taken | free
        left = (each for each in self._pages.trees() if each[0] not in known)
        kinds = dict(islice(left, _MOST_STRAYS))
        self.has_more_strays = next(left, None) is not None
        entries = {
            number: dict(self._entries_on(number, kind, Tree()))
            for number, kind in kinds.items()
            if kind in (INDEX_INTERIOR, INDEX_LEAF)
        }
        self._give_entries(entries)
        names = {(r, i): name for name, found in self.tables.items() for r, i in found.ids.items()}
        spoken_of = {pair for each in entries.values() for pair in each.items()}
        for number in (number for number, kind in kinds.items() if kind == LEAF):
            rows = list(self._rows_on(number))
            name = _known_table(rows, names) or self._shaped_table(rows, spoken_of)
            if name:
                self.tables[name].leaves.append(number)
                self.tables[name].strays += 1
                self.tables[name].faults += self._faults_on(number, LEAF)
        self._give_entries(entries)

    def _give_entries(self, entries: dict[int, dict[int, str]]) -> None:
        """Entries of a lost part of an index go where the rows of one table know them."""
        for found in self.tables.values():
            if not found.index_faults:
                continue
            rows = {(row.rowid, _head(row)) for n in found.leaves for row in self._rows_on(n)}
            for number in [n for n, each in entries.items() if rows & each.items()]:
                found.ids.update(entries.pop(number))

    def _shaped_table(self, rows: list[Row], spoken_of: set[tuple[int, str]]) -> str:
        """The one table that lacks pages and could hold these rows; "" where that is not sure.

        An entry of some index must speak of them: rows that were removed long ago stay on pages
        that are not used any more.
        """
        if not rows or (spoken_of and not any((r.rowid, _head(r)) in spoken_of for r in rows)):
            return ""
        lacking = (name for name, each in self.tables.items() if each.faults)
        shaped = [name for name in lacking if all(self._fits(name, row) for row in rows)]
        return shaped[0] if len(shaped) == 1 else ""


def _known_table(rows: list[Row], known: Mapping[tuple[int, str], str]) -> str:
    """The table whose index knows most of the rows; "" where none does."""
    keys = [(row.rowid, head) for row in rows if isinstance(head := _head(row), str)]
    named = [known[key] for key in keys if key in known]
    return max(sorted(set(named)), key=named.count) if named else ""


def _head(row: Row) -> object:
    return row.cells[0] if row.cells else None


def lost_ids(found: Found, read: Iterable[tuple[int, str]]) -> tuple[str, ...]:
    """The ids that the index knows, and of which no row was read: neither its number nor its id."""
    rowids, ids = set(), set()
    for rowid, each in read:
        rowids.add(rowid)
        ids.add(each)
    return tuple(
        each for rowid, each in found.ids.items() if rowid not in rowids and each not in ids
    )
