"""Tables of a file before they are taken in: what would change, and what stands against it."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.roles import check_quietly
from lawnbook.desk.widgets import (
    Caption,
    PrimaryButton,
    QuietButton,
    Words,
    bring_into_sight,
    name_control,
)
from lawnbook.reading import tr
from lawnbook.store.tables_result import Difference, TablesRead, few
from lawnbook.yard.numbers import and_joined, counted

MOST_ROWS = 500
MOST_TOLD = 6
HEADS = (tr("Table"), tr("Row"), tr("Field"), tr("Before"), tr("After"))
NARROW_PX = 480
EMPTY = "–"


class TablesReview(QWidget):
    """Counts, faults and a table of differences; `taken` and `left` tell what the owner decides.

    `kept` tells whether rows with unknown ids are to be new, `picked` the table and id of a row
    that the owner turned to.
    """

    taken = Signal()
    left = Signal()
    kept = Signal(bool)
    picked = Signal(str, str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "tables_review", tr("What the tables would change"))
        self._lines: tuple[tuple[Difference, ...], ...] = ()
        self._foreign = _words("tables_foreign", "refuse", self)
        self.keep = QCheckBox(self)
        name_control(self.keep, "keep_unknown_rows", tr("Take rows with unknown ids in as new"))
        self._told = _words("tables_told", "", self)
        self._faults = _words("tables_faults", "refuse", self)
        self._questions = _words("tables_questions", "ask", self)
        self._notes = _words("tables_notes", "caption", self)
        self._more = Caption("", self, wrap=True)
        names = ("tables_differences", tr("Differences from the notebook"))
        self.table = RecordTable(HEADS, names, range(len(HEADS)), 10, self)
        self.table.stretch(len(HEADS) - 1)
        self.table.spare((0,), NARROW_PX)
        self.take = PrimaryButton(tr("Take these in"), "take_tables", self)
        self.leave = QuietButton(tr("Leave it"), "leave_tables", self)
        # Only a hand on it asks: what is shown again is no wish.
        self.keep.toggled.connect(self.kept)
        self.take.clicked.connect(self.taken)
        self.leave.clicked.connect(self.left)
        self.table.picked.connect(self._pick)
        self._lay_out()
        self.hide()

    def show_read(self, name: str, read: TablesRead, *, keeps: bool = False) -> None:
        """Show what a file of this name would change; `keeps` that unknown rows are new."""
        self._foreign.say(read.foreign)
        self.keep.setText(_keep_told(read.unknown))
        self.keep.setAccessibleName(self.keep.text())
        check_quietly(self.keep, on=keeps)
        self.keep.setVisible(bool(read.unknown))
        lines = _lines(read.differences)
        self._lines = lines[:MOST_ROWS]
        self._told.say(counts_told(name, read))
        self._faults.say("\n".join(_faults(read)))
        self._questions.say("\n".join(_questions(read)))
        self._notes.say("\n".join(few(read.notes, MOST_TOLD)))
        self.table.show_rows([_row(number, each) for number, each in enumerate(self._lines)])
        self.table.setVisible(bool(self._lines))
        rest = len(lines) - len(self._lines)
        self._more.setText(
            tr("And {more_differences}.", more_differences=counted(rest, "more difference"))
            if rest > 0
            else ""
        )
        self._more.setVisible(rest > 0)
        self.take.setVisible(bool(read.change))
        self.leave.setText(tr("Leave it") if read.change else tr("Close"))
        self.leave.setAccessibleName(self.leave.text())
        self.show()

    def take_focus(self) -> None:
        """Give the keyboard to what is decided here."""
        button = self.leave if self.take.isHidden() else self.take
        button.setFocus(Qt.FocusReason.OtherFocusReason)
        bring_into_sight(self)

    def _pick(self, number: str) -> None:
        chosen = self._lines[int(number)][0]
        self.picked.emit(chosen.table, chosen.record_id)

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        buttons.addWidget(self.take)
        buttons.addWidget(self.leave)
        buttons.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        for each in (self._foreign, self._told, self._faults, self._questions):
            column.addWidget(each)
        column.addWidget(self.keep)
        column.addWidget(self.table)
        column.addWidget(self._more)
        column.addWidget(self._notes)
        column.addLayout(buttons)


def counts_told(name: str, read: TablesRead) -> str:
    """How many rows of a file are new, different, the same: in all, and by table."""
    if not read.change:
        if read.faults:
            return tr("{name}: nothing can be taken in as it is.", name=name)
        return tr("{name}: nothing would change; {as_is}.", name=name, as_is=_as_is(read.same))
    parts = [
        tr("{rows} in {table}", rows=_both(each.added, each.changed), table=each.title)
        for each in read.tables
        if each.added or each.changed
    ]
    same = f" {_others_as_is(read.same)}" if read.same else ""
    return tr(
        "{name}: {parts}.{same} What is not in the file stays as it is.",
        name=name,
        parts="; ".join(parts),
        same=same,
    )


def _both(added: int, changed: int) -> str:
    told = [tr("{added:,} new", added=added)] if added else []
    return and_joined([*told, *([tr("{changed:,} changed", changed=changed)] if changed else [])])


def _as_is(same: int) -> str:
    if same == 1:
        return tr("1 row is as in the notebook")
    return tr("{rows} are as in the notebook", rows=counted(same, "row"))


def _others_as_is(same: int) -> str:
    if same == 1:
        return tr("1 other row is as in the notebook.")
    return tr("{rows} are as in the notebook.", rows=counted(same, "row"))


def _keep_told(unknown: int) -> str:
    rows = (
        tr("the row with an unknown id")
        if unknown == 1
        else tr("{unknown:,} rows with unknown ids", unknown=unknown)
    )
    return tr("Take {rows} in as new all the same", rows=rows)


def _faults(read: TablesRead) -> Iterator[str]:
    if read.faults and read.change:
        rows = len({(each.title, each.where) for each in read.faults})
        yield tr("{rows} cannot be kept and would be left out:", rows=counted(rows, "row"))
    yield from few([each.told for each in read.faults], MOST_TOLD)


def _questions(read: TablesRead) -> Iterator[str]:
    if read.questions:
        yield tr("Look at these again before you take them in:")
    yield from few([each.told for each in read.questions], MOST_TOLD)


def _lines(differences: Sequence[Difference]) -> tuple[tuple[Difference, ...], ...]:
    """The differences as they are listed: each field by itself, a new record in one line."""
    groups = groupby(enumerate(differences), lambda item: _group(*item))
    return tuple(tuple(each for _, each in group) for _, group in groups)


def _group(number: int, each: Difference) -> tuple[str, ...]:
    return (each.table, each.record_id) if each.is_new else (str(number),)


def _row(number: int, line: Sequence[Difference]) -> Row:
    each = line[0]
    heading, before, after = each.heading, each.before or tr("empty"), each.after or tr("empty")
    if each.is_new:
        heading, before = tr("new row"), EMPTY
        # What the row is called by need not be said once more.
        more = [field for field in line if field.after not in each.row] or line
        after = "; ".join(f"{_label(field)} {field.after}" for field in more)
    cells = (each.title, _cut(each.row, 24), _cut(heading, 22), _cut(before), _cut(after, 40))
    was = "" if each.is_new else tr(" before {before}, after", before=before)
    return Row(str(number), cells, _cut(f"{each.title}, {each.row}, {heading}:{was} {after}", 400))


def _label(each: Difference) -> str:
    return each.heading.split(",", maxsplit=1)[0].lower()


def _cut(text: str, most: int = 14) -> str:
    told = " ".join(text.split()) or EMPTY
    return told if len(told) <= most else f"{told[: most - 1]}…"


def _words(name: str, role: str, parent: QWidget) -> Words:
    words = Words("", role, parent)
    words.setObjectName(name)
    words.say("")
    return words
