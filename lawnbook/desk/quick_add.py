"""The line for noting something down from anywhere: plain words, and what they would keep.

It lies over the window, not in a dialog of its own. Enter keeps as one undo step, Shift+Enter
keeps and stays, Tab takes a proposal, Esc gives up. What is typed stays while the owner looks
elsewhere.
"""

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QVBoxLayout,
    QWidget,
)
from shiboken6 import isValid

from lawnbook.desk.quick_rows import FieldRows, ProposalRows
from lawnbook.desk.theme import px
from lawnbook.desk.widgets import (
    Caption,
    Heading,
    LinkButton,
    TextField,
    Words,
    mark_role,
    name_control,
)
from lawnbook.plan.quick_model import Quick
from lawnbook.plan.quick_words import LONGEST, help_lines, read_quick
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.desk.window import BookWindow

WIDTH_PX, TOP_PX, SIDE_PX = 640, 84, 60
KEYS_TOLD = tr(
    "Enter keeps it · Shift+Enter keeps it and stays · Tab takes a proposal · Esc gives up"
)
ONCE_MORE = tr("Enter once more keeps it all the same.")
EXAMPLE = tr("watered 30 min front lawn yesterday")


class QuickLine(TextField):
    """The line itself. Its keys are told on: Tab, Up and Down, Enter, Esc and a lone "?"."""

    completed = Signal()
    moved = Signal(int)
    entered = Signal(bool)
    given_up = Signal()
    help_asked = Signal()

    def event(self, event: QEvent) -> bool:
        """Tab takes a proposal before it would leave the line."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            plain = not event.modifiers() & Qt.KeyboardModifier.ControlModifier
            if event.key() == Qt.Key.Key_Tab and plain and self.property("proposes"):
                self.completed.emit()
                return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Tell the keys that are not typing."""
        key = event.key()
        if key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self.moved.emit(1 if key == Qt.Key.Key_Down else -1)
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.entered.emit(bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier))
        elif key == Qt.Key.Key_Escape:
            self.given_up.emit()
        elif event.text() == "?" and not self.text():
            self.help_asked.emit()
        else:
            super().keyPressEvent(event)


class QuickAdd(QFrame):
    """The overlay. `kept` tells the words of what was kept."""

    kept = Signal(str)

    def __init__(self, book: OpenNotebook, parent: QWidget) -> None:
        super().__init__(parent)
        self._book = book
        self._quick = Quick()
        self._asked_for = ""
        self._before: QWidget | None = None
        self.setProperty("role", "popover")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        name_control(self, "quick_add", tr("Note something down"))
        self.line = QuickLine(self)
        name_control(self.line, "quick_line", tr("What was done, in plain words"), KEYS_TOLD)
        self.line.setPlaceholderText(EXAMPLE)
        self.line.setMaxLength(LONGEST)
        self.fields = FieldRows(self)
        self.proposals = ProposalRows(self)
        self._said = Words("", "caption", self)
        self._said.setObjectName("quick_said")
        self._asks = Words("", "ask", self)
        self._asks.setObjectName("quick_asks")
        self._notes = Caption("", self, wrap=True)
        self._notes.setObjectName("quick_notes")
        self._help = _help_table(self)
        self._help_button = LinkButton(tr("What can be written?"), "quick_help_button", self)
        self._lay_out()
        self._listen()
        self._read()
        self.hide()

    def open(self) -> None:
        """Show it over the window, with the keyboard in the line; what was typed is still there."""
        window: QWidget | None = self.parentWidget()
        if self.isHidden() and window is not None:
            self._before = window.focusWidget()
        self.show()
        self.raise_()
        self.line.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.line.selectAll()
        self._read()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Keep its place in a window that changes its size."""
        if watched is self.parent() and event.type() == QEvent.Type.Resize and self.isVisible():
            self._place()
        return super().eventFilter(watched, event)

    def _listen(self) -> None:
        window = self.parent()
        if window is not None:
            window.installEventFilter(self)
        self.line.textChanged.connect(self._read)
        self.line.completed.connect(lambda: self._take(self.proposals.picked))
        self.line.moved.connect(self.proposals.step)
        self.line.entered.connect(self._keep)
        self.line.given_up.connect(self._give_up)
        self.line.help_asked.connect(self._turn_help)
        self.proposals.taken.connect(self._take)
        self._help_button.clicked.connect(self._turn_help)
        stop = self._book.subscribe(lambda _: self._read())
        self.destroyed.connect(stop)
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._follow)

    def _follow(self, _before: QWidget | None, now: QWidget | None) -> None:
        """It goes once the owner turns to something else in the window; the words stay."""
        window = self.parentWidget()
        if now is None or window is None or not self.isVisible():
            return
        if window.isAncestorOf(now) and not self.isAncestorOf(now):
            self.hide()

    def _read(self) -> None:
        """Say what the line comes to."""
        if self.isHidden():
            return
        text = self.line.text()
        self._quick = quick = read_quick(text, self._book.notebook, self._book.today)
        if text != self._asked_for:
            self._asked_for = ""
        self.fields.show_fields(quick.fields)
        # Above the examples the first words that may be typed say nothing more.
        shown = quick.proposals if text or self._help.isHidden() else ()
        self.proposals.show_lines(shown)
        self.line.setProperty("proposes", bool(shown))
        mark_role(self.line, "", "")
        self._said.say("\n".join(quick.faults), "caption")
        self._asks.say("\n".join(quick.questions))
        self._notes.say("\n".join(quick.notes))
        self._place()

    def _take(self, line: str) -> None:
        if line:
            self.line.setText(f"{line} ")
            self.line.setFocus(Qt.FocusReason.OtherFocusReason)

    def _keep(self, stays: bool) -> None:
        """Keep what the line comes to; questions are asked once."""
        quick = self._quick
        text = self.line.text()
        if not quick.is_whole:
            mark_role(self.line, "", "refuse" if quick.faults else "")
            self._said.say("\n".join(quick.faults), "refuse")
            self._place()
            return
        if quick.questions and self._asked_for != text:
            self._asked_for = text
            mark_role(self.line, "", "ask")
            self._asks.say("\n".join((*quick.questions, ONCE_MORE)))
            self._place()
            return
        self._asked_for = ""
        # The line is empty before the edit is told: what is read then is the next thing.
        self.line.clear()
        try:
            self._book.edit(quick.change, quick.label)
        except OwnerError as problem:
            self.line.setText(text)
            self._said.say(str(problem), "refuse")
            self._place()
            return
        if not self._book.waiting:
            self.kept.emit(tr("Kept: {label}.", label=quick.label))
        if not stays:
            self._close()

    def _give_up(self) -> None:
        self.line.clear()
        self._close()

    def _close(self) -> None:
        """Go, and give the keyboard back to where it was."""
        before, self._before = self._before, None
        self.hide()
        if before is not None and isValid(before) and before.isVisible() and before.isEnabled():
            before.setFocus(Qt.FocusReason.OtherFocusReason)

    def _turn_help(self) -> None:
        shows = self._help.isHidden()
        self._help.setVisible(shows)
        self._read()
        self._help_button.setText(tr("Hide the examples") if shows else tr("What can be written?"))
        self._help_button.setAccessibleName(self._help_button.text())
        self._place()
        self.line.setFocus(Qt.FocusReason.OtherFocusReason)

    def _place(self) -> None:
        """In the middle above, as high as its words ask for."""
        window = self.parentWidget()
        layout = self.layout()
        if window is None or layout is None:
            return
        wide = min(px(WIDTH_PX), window.width() - 2 * SIDE_PX)
        layout.activate()
        high = layout.totalHeightForWidth(wide) if layout.hasHeightForWidth() else -1
        high = high if high > 0 else layout.totalSizeHint().height()
        top = min(TOP_PX, max(8, window.height() - high - 8))
        self.setGeometry((window.width() - wide) // 2, top, wide, high)

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(Heading(tr("Note something down"), self), 1)
        head.addWidget(self._help_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 12, 16, 12)
        column.setSpacing(8)
        column.addLayout(head)
        column.addWidget(self.line)
        for part in (self.fields, self._asks, self._notes, self._said, self.proposals, self._help):
            column.addWidget(part)
        column.addWidget(Caption(KEYS_TOLD, self, wrap=True))
        QWidget.setTabOrder(self.line, self._help_button)


def _help_table(parent: QWidget) -> QWidget:
    """The examples, each with what it says."""
    table = QWidget(parent)
    name_control(table, "quick_help", tr("What can be written"))
    grid = QGridLayout(table)
    grid.setContentsMargins(0, 4, 0, 4)
    grid.setHorizontalSpacing(16)
    grid.setVerticalSpacing(3)
    for row, (example, what) in enumerate(help_lines()):
        grid.addWidget(Words(example, "", table), row, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(Caption(what, table, wrap=True), row, 1)
    grid.setColumnStretch(0, 1)
    grid.setColumnStretch(1, 1)
    table.hide()
    return table


def open_quick_add(window: "BookWindow") -> QuickAdd:
    """Open the line over a window, made when it is first asked for."""
    made = window.findChild(QuickAdd, "quick_add", Qt.FindChildOption.FindDirectChildrenOnly)
    if not isinstance(made, QuickAdd):
        made = QuickAdd(window.book, window)
        made.kept.connect(window.status.say)
    made.open()
    return made
