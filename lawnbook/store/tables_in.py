"""Tables taken in: what a file adds to a notebook and changes in it, shown before it is done.

The file is what `store.tables_out` writes, edited or not, or a table of one's own with headings
that are known. What is missing from it is left alone.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

from lawnbook.store.tables_build import column_of, record_of
from lawnbook.store.tables_columns import SETTLED, TITLES, columns_of
from lawnbook.store.tables_files import sheets_of
from lawnbook.store.tables_grid import cell_of
from lawnbook.store.tables_names import called
from lawnbook.store.tables_refs import AddressBook
from lawnbook.store.tables_result import Counted, Difference, Fault, TablesRead
from lawnbook.store.tables_rows import Draft, SheetRead, cells_of, named_drafts, sheet_read
from lawnbook.yard.check import check_all
from lawnbook.yard.fields import fields_of
from lawnbook.yard.notebook import Change, Notebook, apply, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import TABLES, Record

Made = dict[tuple[str, str], tuple[Draft, Record]]


def read_tables(path: Path, notebook: Notebook, today: date, table: str = "") -> TablesRead:
    """What a CSV file, a zip of them or a workbook would change; `table` says which a CSV is.

    Raises OwnerError, with the file's name, where it cannot be read as tables at all.
    """
    sheets = [cells_of(each, path.name) for each in sheets_of(path)]
    wanted = table if len(sheets) == 1 else ""
    read = [sheet_read(cells, word, notebook, wanted) for cells, word in sheets]
    known = [each for each in read if each.matched.table]
    _refuse_unknown(read, known, path.name)
    notes = [
        f"{each.name}: no table of a notebook has these headings; it is passed over."
        for each in read
        if not each.matched.table and len(read) > 1
    ]
    return _Reading(known, notebook, today, notes).result()


def _refuse_unknown(read: Sequence[SheetRead], known: Sequence[SheetRead], name: str) -> None:
    if not known:
        may_be = next((each.matched.may_be for each in read if each.matched.may_be), ())
        if may_be:
            titles = " or ".join(TITLES[each] for each in may_be[:4])
            told = f"{name}: this may be {titles}"
            raise OwnerError(f"{told}; name the file or the sheet after its table.")
        told = f"{name}: no heading in the first line is known"
        raise OwnerError(f"{told}; begin from a table that was saved here, and keep its headings.")
    twice = [each for each, count in Counter(s.matched.table for s in known).items() if count > 1]
    if twice:
        raise OwnerError(f"{name}: {TITLES[twice[0]]} stands in it twice; keep one of the two.")


class _Reading:
    """One reading: drafts become records, which are joined, compared and checked."""

    def __init__(
        self, sheets: Sequence[SheetRead], notebook: Notebook, today: date, notes: list[str]
    ) -> None:
        self._sheets = sorted(sheets, key=lambda each: list(TABLES).index(each.matched.table))
        self._notebook = notebook
        self._today = today
        self._notes = [*notes, *(note for sheet in sheets for note in sheet.notes)]
        self._made: Made = {}
        self._faults = [fault for sheet in sheets for fault in sheet.faults]

    def result(self) -> TablesRead:
        """All of it."""
        drafts = [draft for sheet in self._sheets for draft in sheet.drafts]
        book = AddressBook(self._notebook, named_drafts(drafts))
        for draft in drafts:
            record = record_of(draft, book)
            if record is not None:
                self._made[(draft.table, draft.record_id)] = (draft, record)
        repeats = self._without_repeats()
        self._leave_out_same()
        questions = self._checked()
        self._faults += [fault for draft in drafts for fault in draft.faults]
        change = self._change(self._made)
        return TablesRead(
            change,
            tuple(self._counted(sheet) for sheet in self._sheets),
            tuple(self._differences(change)),
            tuple(self._in_order(self._faults)),
            tuple(self._in_order(questions)),
            (*self._notes, *_repeat_notes(repeats), *self._strangers()),
        )

    def _without_repeats(self) -> Counter[str]:
        """Leave out rows without an id that the notebook has already, each once."""
        repeats: Counter[str] = Counter()
        fresh = [key for key, (draft, _) in self._made.items() if _is_bare(draft)]
        for table in {table for table, _ in fresh}:
            there = Counter(
                _shown(row)
                for record_id, row in self._notebook.table(table).items()
                if (table, record_id) not in self._made
            )
            for key in fresh:
                shown = _shown(self._made[key][1])
                if key[0] == table and there[shown]:
                    there[shown] -= 1
                    repeats[table] += 1
                    del self._made[key]
        return repeats

    def _leave_out_same(self) -> None:
        """Leave out rows that say what the notebook says."""
        same = [key for key, (draft, record) in self._made.items() if draft.held == record]
        for key in same:
            del self._made[key]

    def _checked(self) -> list[Fault]:
        """Leave out what the notebook's rules refuse, and what leads to it; the questions."""
        while True:
            after = apply(self._notebook, self._change(self._made))
            kept = [after.table(table)[record_id] for table, record_id in self._made]
            problems = check_all(kept, after, self._today)
            refused = [each for each in problems if each.severity == "refuse"]
            if not refused:
                return [self._fault(each.table, each.record_id, each) for each in problems]
            for each in refused:
                draft, _ = self._made[(each.table, each.record_id)]
                draft.faults.append(self._fault(each.table, each.record_id, each))
            for key in {(each.table, each.record_id) for each in refused}:
                del self._made[key]

    def _fault(self, table: str, record_id: str, problem: Any) -> Fault:
        draft, _ = self._made[(table, record_id)]
        column = column_of(table, problem.field)
        heading = column.heading if column is not None else ""
        return Fault(draft.title, draft.where, draft.line, heading, problem.sentence)

    def _change(self, made: Made) -> Change:
        by_table: dict[str, list[Record]] = {}
        for (table, _), (_, record) in made.items():
            by_table.setdefault(table, []).append(record)
        change: dict[Any, Any] = {}
        for table, records in by_table.items():
            change |= put(self._notebook, table, *records)
        return change

    def _counted(self, sheet: SheetRead) -> Counted:
        table = sheet.matched.table
        kept = [draft for (name, _), (draft, _) in self._made.items() if name == table]
        added = sum(draft.held is None for draft in kept)
        faulty = sum(bool(draft.faults) for draft in sheet.drafts)
        alike = len(sheet.drafts) - len(kept) - faulty
        return Counted(table, TITLES[table], added, len(kept) - added, alike, faulty)

    def _differences(self, change: Change) -> Iterator[Difference]:
        after = apply(self._notebook, change)
        for key, (before, record) in change.items():
            draft = self._made[key][0]
            if record is None:
                continue
            row = called(record if before is None else before, after)
            for column in columns_of(draft.table):
                if column.role in ("id", "ids"):
                    continue
                was = "" if before is None else _words(cell_of(before, column, self._notebook))
                now = _words(cell_of(record, column, after))
                held = None if before is None else getattr(before, column.field)
                if was == now and (before is None or held == getattr(record, column.field)):
                    continue
                if before is None and getattr(record, column.field) == column.info.default:
                    continue
                yield Difference(
                    draft.table,
                    draft.title,
                    draft.record_id,
                    row,
                    draft.where,
                    column.heading,
                    was,
                    now,
                    is_new=before is None,
                )

    def _strangers(self) -> Iterator[str]:
        """How many rows have an id that the notebook does not know."""
        strange = Counter(
            draft.title
            for draft, _ in self._made.values()
            if draft.had_id and draft.held is None and draft.table not in SETTLED
        )
        for title, count in strange.items():
            told = "1 row has an id" if count == 1 else f"{count:,} rows have ids"
            end = "it would be new" if count == 1 else "they would be new"
            yield f"{title}: {told} that this notebook does not know; {end}."

    def _in_order(self, faults: Iterable[Fault]) -> list[Fault]:
        titles = list(TITLES.values())
        return sorted(faults, key=lambda each: (titles.index(each.title), each.line))


def _is_bare(draft: Draft) -> bool:
    return draft.held is None and not draft.had_id


def _shown(record: Record) -> tuple[Any, ...]:
    """What a record says, whatever its id and place."""
    bare = replace(record, id="", rank=0)
    values = (getattr(bare, info.name) for info in fields_of(type(record)))
    return tuple(tuple(each.items()) if isinstance(each, Mapping) else each for each in values)


def _repeat_notes(repeats: Mapping[str, int]) -> Iterator[str]:
    for table, count in repeats.items():
        rows = "1 row without an id is" if count == 1 else f"{count:,} rows without an id are"
        yield f"{TITLES[table]}: {rows} in the notebook already and left out."


def _words(cell: Any) -> str:
    """A cell as it is shown."""
    if cell is None:
        return ""
    return cell.isoformat() if isinstance(cell, date) else str(cell)
