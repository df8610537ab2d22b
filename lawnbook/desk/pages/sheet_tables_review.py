"""Tables of a file before they are taken in: what would change, and what stands against it."""

from collections.abc import Iterator

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.widgets import Caption, PrimaryButton, QuietButton, Words, name_control
from lawnbook.plan.workings import and_joined, counted
from lawnbook.store.tables_result import Difference, TablesRead, few

MOST_ROWS = 500
MOST_TOLD = 6
HEADS = ("Table", "Row", "Field", "Before", "After")
NARROW_PX = 480
EMPTY = "–"


class TablesReview(QWidget):
    """Counts, faults and a table of differences; `taken` and `left` tell what the owner decides.

    `picked` tells the table and id of a row that the owner turned to.
    """

    taken = Signal()
    left = Signal()
    picked = Signal(str, str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "tables_review", "What the tables would change")
        self._differences: tuple[Difference, ...] = ()
        self._told = _words("tables_told", "", self)
        self._faults = _words("tables_faults", "refuse", self)
        self._questions = _words("tables_questions", "ask", self)
        self._notes = _words("tables_notes", "caption", self)
        self._more = Caption("", self, wrap=True)
        names = ("tables_differences", "Differences from the notebook")
        self.table = RecordTable(HEADS, names, range(len(HEADS)), 10, self)
        self.table.stretch(len(HEADS) - 1)
        self.table.spare((0,), NARROW_PX)
        self.take = PrimaryButton("Take these in", "take_tables", self)
        self.leave = QuietButton("Leave it", "leave_tables", self)
        self.take.clicked.connect(self.taken)
        self.leave.clicked.connect(self.left)
        self.table.picked.connect(self._pick)
        self._lay_out()
        self.hide()

    def show_read(self, name: str, read: TablesRead) -> None:
        """Show what a file of this name would change."""
        self._differences = read.differences[:MOST_ROWS]
        self._told.say(counts_told(name, read))
        self._faults.say("\n".join(_faults(read)))
        self._questions.say("\n".join(_questions(read)))
        self._notes.say("\n".join(few(read.notes, MOST_TOLD)))
        self.table.show_rows([_row(n, each) for n, each in enumerate(self._differences)])
        self.table.setVisible(bool(self._differences))
        rest = len(read.differences) - len(self._differences)
        self._more.setText(f"And {counted(rest, 'more difference')}." if rest > 0 else "")
        self._more.setVisible(rest > 0)
        self.take.setVisible(bool(read.change))
        self.leave.setText("Leave it" if read.change else "Close")
        self.leave.setAccessibleName(self.leave.text())
        self.show()

    def take_focus(self) -> None:
        """Give the keyboard to what is decided here."""
        button = self.leave if self.take.isHidden() else self.take
        button.setFocus(Qt.FocusReason.OtherFocusReason)

    def _pick(self, number: str) -> None:
        chosen = self._differences[int(number)]
        self.picked.emit(chosen.table, chosen.record_id)

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        buttons.addWidget(self.take)
        buttons.addWidget(self.leave)
        buttons.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        for each in (self._told, self._faults, self._questions, self.table, self._more):
            column.addWidget(each)
        column.addWidget(self._notes)
        column.addLayout(buttons)


def counts_told(name: str, read: TablesRead) -> str:
    """How many rows of a file are new, different, the same: in all, and by table."""
    if not read.change:
        if read.faults:
            return f"{name}: nothing can be taken in as it is."
        return f"{name}: nothing would change; {_as_is(read.same)}."
    parts = [
        f"{each.title} {_both(each.added, each.changed)}"
        for each in read.tables
        if each.added or each.changed
    ]
    same = f" {_as_is(read.same)}.".replace(" 1 row", " 1 other row") if read.same else ""
    return f"{name}: {'; '.join(parts)}.{same} What is not in the file stays as it is."


def _both(added: int, changed: int) -> str:
    told = [f"{added:,} new"] if added else []
    return and_joined([*told, *([f"{changed:,} changed"] if changed else [])])


def _as_is(same: int) -> str:
    return f"{counted(same, 'row')} {'is' if same == 1 else 'are'} as in the notebook"


def _faults(read: TablesRead) -> Iterator[str]:
    if read.faults and read.change:
        rows = len({(each.title, each.where) for each in read.faults})
        yield f"{counted(rows, 'row')} cannot be kept and would be left out:"
    yield from few([each.told for each in read.faults], MOST_TOLD)


def _questions(read: TablesRead) -> Iterator[str]:
    if read.questions:
        yield "Look at these again before you take them in:"
    yield from few([each.told for each in read.questions], MOST_TOLD)


def _row(number: int, each: Difference) -> Row:
    before = "new" if each.is_new else _cut(each.before)
    cells = (each.title, _cut(each.row, 22), _cut(each.heading, 22), before, _cut(each.after, 40))
    was = "new row" if each.is_new else f"before {each.before or 'empty'}"
    spoken = f"{each.title}, {each.row}, {each.heading}: {was}, after {each.after or 'empty'}"
    return Row(str(number), cells, _cut(spoken, 400))


def _cut(text: str, most: int = 14) -> str:
    told = " ".join(text.split()) or EMPTY
    return told if len(told) <= most else f"{told[: most - 1]}…"


def _words(name: str, role: str, parent: QWidget) -> Words:
    words = Words("", role, parent)
    words.setObjectName(name)
    words.say("")
    return words
