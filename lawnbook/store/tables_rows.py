"""The rows of one sheet as drafts of records: every cell read, nothing joined or checked yet."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from lawnbook.reading import tr
from lawnbook.store.cells import TORN, TornError, rows_of, unshielded
from lawnbook.store.steps import Steps
from lawnbook.store.tables_columns import SETTLED, Column, columns_of, settled_by
from lawnbook.store.tables_files import MOST_ROWS, Cells, Raw, Text, Unread
from lawnbook.store.tables_form import by_name_split, names_split
from lawnbook.store.tables_match import Heading, Matched, known_headings, matched
from lawnbook.store.tables_names import NAMED
from lawnbook.store.tables_result import Fault
from lawnbook.store.tables_values import Habit, figure_in, habit_of, value_of
from lawnbook.yard.codec import LONGEST_ID
from lawnbook.yard.fields import is_number_by_zone
from lawnbook.yard.limits import first_unshowable
from lawnbook.yard.notebook import Notebook, new_id
from lawnbook.yard.numbers import whole
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import TITLES, Record

DELIMITERS = (",", ";", "\t", "|")
_HINT = "sep="


@dataclass(slots=True)
class Draft:
    """A row in the making: what its cells say, by the place of the value in the record.

    `unread` are the fields with a cell that says nothing for certain.
    """

    table: str
    line: int
    where: str
    record_id: str
    held: Record | None
    had_id: bool
    values: dict[tuple[str, str], Any] = field(default_factory=dict)
    names: dict[str, tuple[str, ...]] = field(default_factory=dict)
    figures: dict[str, tuple[float, ...]] = field(default_factory=dict)
    ids: dict[str, tuple[str, ...]] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    unread: set[str] = field(default_factory=set)

    @property
    def title(self) -> str:
        """What its table is called."""
        return tr(TITLES[self.table])

    def fault(self, heading: str, sentence: str) -> None:
        """Note what is wrong in a column of the row."""
        sentence = sentence[:1].upper() + sentence[1:]
        self.faults.append(Fault(self.title, self.where, self.line, heading, sentence))


@dataclass(slots=True)
class SheetRead:
    """A sheet as drafts, with what is wrong with its headings, and what was passed over."""

    matched: Matched
    name: str
    drafts: list[Draft] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    columns: frozenset[tuple[str, str, str]] = frozenset()


def cells_of(sheet: Text | Cells, file_name: str) -> tuple[Cells, str]:
    """A sheet as cells, and whether its rows are "line" or "row". OwnerError for torn text."""
    if isinstance(sheet, Cells):
        return sheet, "row"
    text, told = _without_hint(sheet.text)
    try:
        rows = list(rows_of(text, told or _delimiter(text), spaced=False))
    except TornError as torn:
        raise OwnerError(
            tr("{file_name}: line {line}: {mend}", file_name=file_name, line=torn.line, mend=TORN)
        ) from torn
    shift = 1 if told else 0
    return Cells(sheet.name, tuple((number + shift, _unshielded(row)) for number, row in rows)), (
        "line"
    )


def sheet_read(cells: Cells, word: str, notebook: Notebook, wanted: str, steps: Steps) -> SheetRead:
    """The drafts of a sheet, row by row in `steps`; none where its table cannot be told."""
    if not cells.rows:
        return SheetRead(Matched(""), cells.name)
    if len(cells.rows) > MOST_ROWS + 1:
        raise OwnerError(
            tr(
                "{name}: more than {count} rows; take it in in parts.",
                name=cells.name,
                count=whole(MOST_ROWS),
            )
        )
    head_line, head = cells.rows[0]
    words = [each if isinstance(each, str) else "" for each in head]
    found = SheetRead(matched(words, cells.name, wanted), cells.name)
    table = found.matched.table
    if not table:
        return found
    headings = found.matched.headings
    for each in headings:
        if each.fault:
            where = f"{word} {head_line}"
            found.faults.append(Fault(tr(TITLES[table]), where, head_line, "", _upper(each.fault)))
        if each.note:
            found.notes.append(f"{tr(TITLES[table])}: {each.note}")
    body = cells.rows[1:]
    habits = _habits(headings, [row for _, row in body])
    reader = _Reader(table, headings, habits, notebook)
    found.drafts = [reader.draft(line, f"{word} {line}", row) for line, row in steps.each(body)]
    found.columns = frozenset(
        (c.field, c.inner, c.role) for each in headings if (c := each.column) is not None
    )
    return found


class _Reader:
    """Reads the rows of one table; ids that were seen once are known."""

    def __init__(
        self,
        table: str,
        headings: Sequence[Heading],
        habits: Mapping[Column, Habit],
        notebook: Notebook,
    ) -> None:
        self._table = table
        self._headings = headings
        self._habits = habits
        self._held = notebook.table(table)
        self._seen: dict[str, str] = {}

    def draft(self, line: int, where: str, row: Sequence[Raw]) -> Draft:
        """A row as a draft, with the faults of its cells."""
        draft = Draft(self._table, line, where, "", None, had_id=False)
        cells = _joined(self._headings, row)
        for column, raw in cells.items():
            try:
                self._read(draft, column, raw)
            except ValueError as wrong:
                draft.unread.add(column.field)
                draft.fault(column.heading, str(wrong))
        try:
            self._name(draft, cells)
        except ValueError as wrong:
            draft.fault("Id", str(wrong))
        extra = row[len(self._headings) :]
        if any(each not in (None, "") for each in extra):
            draft.fault("", tr("there are more cells than headings; take the extra ones out."))
        return draft

    def _read(self, draft: Draft, column: Column, raw: Raw) -> None:
        habit = self._habits[column]
        if column.role == "value":
            draft.values[(column.field, column.inner)] = value_of(raw, column, habit)
        elif column.role == "names":
            self._read_names(draft, column, raw)
        elif column.role == "ids":
            text = _text(raw)
            is_one = _is_one(column)
            draft.ids[column.field] = ((text,) if text else ()) if is_one else names_split(text)

    def _read_names(self, draft: Draft, column: Column, raw: Raw) -> None:
        text = _text(raw)
        if is_number_by_zone(column.info.type):
            habit = self._habits[column]
            pairs = by_name_split(
                text, column.label, lambda _, part: figure_in(part, column.label, habit)
            )
            draft.names[column.field] = tuple(name for name, _ in pairs)
            draft.figures[column.field] = tuple(figure for _, figure in pairs)
        elif _is_one(column):
            draft.names[column.field] = (text,) if text.strip() else ()
        else:
            draft.names[column.field] = names_split(text)

    def _name(self, draft: Draft, cells: Mapping[Column, Raw]) -> None:
        """Give the draft its id: the one it has, the one its values settle, or a new one."""
        own = next((raw for column, raw in cells.items() if column.role == "id"), None)
        told = _text(own).strip()
        if self._table in SETTLED:
            flat = {name: value for (name, inner), value in draft.values.items() if not inner}
            told = settled_by(self._table, flat)
            if not told and not draft.faults:
                column = columns_of(self._table)[0]
                draft.fault(column.heading, tr("{label} is missing; enter it.", label=column.label))
        elif len(told) > LONGEST_ID or first_unshowable(told):
            draft.fault("Id", tr("this is no id; leave it empty for a new row."))
        if told and told in self._seen:
            before = self._seen[told]
            draft.fault(
                "",
                tr(
                    "the same record stands in {before} already; keep one of the two.",
                    before=before,
                ),
            )
        draft.had_id = bool(told)
        draft.record_id = told or new_id()
        self._seen[draft.record_id] = draft.where
        draft.held = self._held.get(draft.record_id)


def named_drafts(drafts: Sequence[Draft]) -> dict[str, dict[str, str]]:
    """The names that sound rows give, by table and id."""
    found: dict[str, dict[str, str]] = {}
    for draft in drafts:
        name = draft.values.get(("name", ""))
        if draft.faults:
            continue
        if draft.table in NAMED and isinstance(name, str):
            found.setdefault(draft.table, {})[draft.record_id] = name
        elif draft.had_id and draft.held is None:
            found.setdefault(draft.table, {}).setdefault(draft.record_id, "")
    return found


def _is_one(column: Column) -> bool:
    """Whether a reference leads to one record, not to several."""
    return column.kind is str


def _text(raw: Raw) -> str:
    if isinstance(raw, Unread):
        raise ValueError(raw.sentence)
    return "" if raw is None else raw if isinstance(raw, str) else f"{raw}"


def _joined(headings: Sequence[Heading], row: Sequence[Raw]) -> dict[Column, Raw]:
    """The cells of a row by column, those of a column that goes on in others as one."""
    cells: dict[Column, Raw] = {}
    for heading, raw in zip(headings, row, strict=False):
        if heading.column is None:
            continue
        before = cells.get(heading.column)
        goes_on = isinstance(before, str) and isinstance(raw, str | None)
        cells[heading.column] = f"{before}{raw or ''}" if goes_on else raw
    missing = [each.column for each in headings if each.column and each.column not in cells]
    return cells | dict.fromkeys(missing)


def _habits(headings: Sequence[Heading], rows: Sequence[Sequence[Raw]]) -> dict[Column, Habit]:
    habits: dict[Column, Habit] = {}
    for at, heading in enumerate(headings):
        if heading.column is not None:
            cells = [row[at] for row in rows if at < len(row)]
            habits.setdefault(heading.column, habit_of(heading.column, cells))
    marks = {habit.mark for habit in habits.values()}
    if "," in marks:
        # One file has one decimal mark: a column that is open follows those that are sure.
        habits = {
            column: Habit(",", habit.is_month_first) if habit.mark is None else habit
            for column, habit in habits.items()
        }
    return habits


def _without_hint(text: str) -> tuple[str, str]:
    """A text without the line that names its delimiter, and that delimiter."""
    first, _, rest = text.partition("\n")
    if first[: len(_HINT)].casefold() == _HINT and len(first) == len(_HINT) + 1:
        return rest, first[-1]
    return text, ""


def _delimiter(text: str) -> str:
    """What stands between the cells: that by which most headings are known."""

    def known(delimiter: str) -> int:
        try:
            _, row = next(rows_of(text, delimiter, spaced=False), (0, []))
        except TornError:
            return 0
        return known_headings(_words(row))

    return max(DELIMITERS, key=known)


def _words(row: Sequence[str]) -> list[str]:
    return [unshielded(each) for each in row]


def _unshielded(row: Sequence[str]) -> tuple[Raw, ...]:
    return tuple(unshielded(each) for each in row)


def _upper(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]
