"""Tables taken in: what a file adds to a notebook and changes in it, shown before it is done.

The file is what `store.tables_out` writes, edited or not, or a table of one's own with headings
that are known. What is missing from it is left alone.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from lawnbook.plan.workings import and_joined
from lawnbook.reading import tr
from lawnbook.store.steps import Between, Steps, untold
from lawnbook.store.tables_build import column_of, record_of
from lawnbook.store.tables_columns import SETTLED, columns_of
from lawnbook.store.tables_files import sheets_of
from lawnbook.store.tables_grid import cell_of
from lawnbook.store.tables_names import called
from lawnbook.store.tables_refs import AddressBook
from lawnbook.store.tables_result import Counted, Difference, Fault, TablesRead
from lawnbook.store.tables_rows import Draft, SheetRead, cells_of, named_drafts, sheet_read
from lawnbook.store.tables_strangers import (
    Key,
    Strangers,
    is_stranger,
    key_of_row,
    strangers_in,
)
from lawnbook.yard.check import check_all
from lawnbook.yard.notebook import Change, Notebook, apply, put
from lawnbook.yard.numbers import whole
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import TABLES, TITLES, Record

Made = dict[Key, tuple[Draft, Record]]


def read_tables(
    path: Path,
    notebook: Notebook,
    today: date,
    table: str = "",
    *,
    keep_unknown: bool = False,
    between: Between = untold,
) -> TablesRead:
    """What a CSV file, a zip of them or a workbook would change; `table` says which a CSV is.

    Rows with an id that the notebook does not know are new only where `keep_unknown` says so.
    `between` is told the rows that are done, each counted when it is read and when it is joined.
    Raises OwnerError, with the file's name, where it cannot be read as tables at all.
    """
    sheets = [cells_of(each, path.name) for each in sheets_of(path)]
    wanted = table if len(sheets) == 1 else ""
    steps = Steps(between, 2 * sum(len(cells.rows) for cells, _ in sheets))
    read = [sheet_read(cells, word, notebook, wanted, steps) for cells, word in sheets]
    known = [each for each in read if each.matched.table]
    _refuse_unknown(read, known, path.name)
    notes = [
        tr("{name}: no table of a notebook has these headings; it is passed over.", name=each.name)
        for each in read
        if not each.matched.table and len(read) > 1
    ]
    return _Reading(known, notebook, today, notes, steps).result(keep_unknown=keep_unknown)


def _refuse_unknown(read: Sequence[SheetRead], known: Sequence[SheetRead], name: str) -> None:
    if not known:
        may_be = next((each.matched.may_be for each in read if each.matched.may_be), ())
        if may_be:
            titles = tr(" or ").join(tr(TITLES[each]) for each in may_be[:4])
            told = tr("{name}: this may be {titles}", name=name, titles=titles)
            raise OwnerError(tr("{told}; name the file or the sheet after its table.", told=told))
        told = tr("{name}: no heading in the first line is known", name=name)
        raise OwnerError(
            tr("{told}; begin from a table that was saved here, and keep its headings.", told=told)
        )
    twice = [each for each, count in Counter(s.matched.table for s in known).items() if count > 1]
    if twice:
        raise OwnerError(
            tr(
                "{name}: {titles} stands in it twice; keep one of the two.",
                name=name,
                titles=tr(TITLES[twice[0]]),
            )
        )


class _Reading:
    """One reading: drafts become records, which are joined, compared and checked."""

    def __init__(
        self,
        sheets: Sequence[SheetRead],
        notebook: Notebook,
        today: date,
        notes: list[str],
        steps: Steps,
    ) -> None:
        self._sheets = sorted(sheets, key=lambda each: list(TABLES).index(each.matched.table))
        self._notebook = notebook
        self._today = today
        self._steps = steps
        self._notes = [*notes, *(note for sheet in sheets for note in sheet.notes)]
        self._made: Made = {}
        self._held_back: frozenset[Key] = frozenset()
        self._faults = [fault for sheet in sheets for fault in sheet.faults]

    def result(self, *, keep_unknown: bool) -> TablesRead:
        """All of it."""
        drafts = [draft for sheet in self._sheets for draft in sheet.drafts]
        strangers = strangers_in(drafts, self._notebook)
        self._held_back = frozenset() if keep_unknown else strangers.unknown
        self._make(drafts, strangers)
        self._leave_out_same()
        questions = [*strangers.questions, *self._checked()]
        self._faults += [fault for draft in drafts for fault in draft.faults]
        change = self._change(self._made)
        return TablesRead(
            change,
            tuple(self._counted(sheet) for sheet in self._sheets),
            tuple(self._differences(change)),
            tuple(self._in_order(self._faults)),
            tuple(self._in_order(questions)),
            (*self._notes, *_repeat_notes(drafts, strangers), *self._strangers(strangers)),
            self._foreign(strangers),
            len(strangers.unknown),
            len(self._held_back),
        )

    def _make(self, drafts: Sequence[Draft], strangers: Strangers) -> None:
        """Make the records of the rows that are neither repeats nor held back."""
        left = self._held_back | set(strangers.repeats)
        for draft in drafts:
            if draft.table in strangers.foreign and key_of_row(draft) in self._held_back:
                # What is wrong with a row that is not wanted is of no use to know.
                draft.faults.clear()
        coming = [draft for draft in drafts if key_of_row(draft) not in left]
        book = AddressBook(self._notebook, named_drafts(coming), strangers.repeats)
        for draft in self._steps.each(coming):
            record = record_of(draft, book)
            if record is not None:
                self._made[key_of_row(draft)] = (draft, record)

    def _foreign(self, strangers: Strangers) -> str:
        """That the file is of another notebook, and what of it would be written over."""
        told = strangers.sentence
        tables = {table for table, _ in self._made}
        titles = [tr(TITLES[each]) for each in TABLES if each in tables & SETTLED]
        if not titles or strangers.foreign != frozenset(TABLES):
            return told
        return tr(
            "{told} What it says in {titles} would go over what is here.",
            told=told,
            titles=and_joined(titles),
        )

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
        held = sum(
            not draft.faults and key_of_row(draft) in self._held_back for draft in sheet.drafts
        )
        alike = len(sheet.drafts) - len(kept) - faulty - held
        return Counted(table, tr(TITLES[table]), added, len(kept) - added, alike, faulty)

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

    def _strangers(self, strangers: Strangers) -> Iterator[str]:
        """How many rows have an id that is not known, where nothing else is said of them."""
        strange = Counter(
            draft.title
            for key, (draft, _) in self._made.items()
            if is_stranger(draft) and key not in strangers.unknown
        )
        for title, count in strange.items():
            told = (
                tr("1 row has an id")
                if count == 1
                else tr("{whole} rows have ids", whole=whole(count))
            )
            end = tr("it would be new") if count == 1 else tr("they would be new")
            yield tr(
                "{title}: {told} that this notebook does not know; {end}.",
                title=title,
                told=told,
                end=end,
            )

    def _in_order(self, faults: Iterable[Fault]) -> list[Fault]:
        titles = [tr(title) for title in TITLES.values()]
        return sorted(faults, key=lambda each: (titles.index(each.title), each.line))


def _repeat_notes(drafts: Sequence[Draft], strangers: Strangers) -> Iterator[str]:
    """How many rows are left out because the notebook says the same, by table."""
    kinds = Counter(
        (draft.title, draft.had_id)
        for draft in drafts
        if key_of_row(draft) in strangers.repeats
        and not (draft.had_id and strangers.foreign == frozenset(TABLES))
    )
    for (title, had_id), count in kinds.items():
        one, many = (tr("with an unknown id"), tr("with unknown ids")) if had_id else _BARE
        rows = (
            tr("1 row {one} is", one=one)
            if count == 1
            else tr("{whole} rows {many} are", whole=whole(count), many=many)
        )
        yield tr("{title}: {rows} in the notebook already and left out.", title=title, rows=rows)


_BARE = (tr("without an id"), tr("without an id"))


def _words(cell: Any) -> str:
    """A cell as it is shown."""
    if cell is None:
        return ""
    return cell.isoformat() if isinstance(cell, date) else str(cell)
