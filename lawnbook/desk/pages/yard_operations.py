"""The operations as groups of buttons; one that cannot be used now says why."""

from PySide6.QtCore import QEvent, QObject, Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.foreseeing import foresee_operation
from lawnbook.desk.sketch.operations import Group, Operation, of_group, run_by_name
from lawnbook.desk.theme import UI_POINTS, sans
from lawnbook.desk.widgets import QuietButton, Words
from lawnbook.reading import tr

COLUMNS = 3
STARTS_ROW = ("turn_right", "align_left", "gaps_across")
"""Operations that begin a row, so that what belongs together stands together."""

GROUPS: tuple[Group, ...] = ("Change", "Place", "Order")
_SHOWS = (QEvent.Type.Enter, QEvent.Type.FocusIn)
_HIDES = (QEvent.Type.Leave, QEvent.Type.FocusOut)


class OperationButtons(QWidget):
    """A button for each operation. What it would make is drawn while the pointer is over it.

    `stranded` is told when the button with the keyboard is about to be disabled: Qt would hand the
    keyboard on to the next one, and after *Merge* that is *Remove*.
    """

    stranded = Signal()

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._control = control
        self._buttons: dict[QObject, Operation] = {}
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        for group in GROUPS:
            heading = Words(tr(group), wrap=False)
            heading.setFont(sans(UI_POINTS, QFont.Weight.DemiBold))
            column.addWidget(heading)
            column.addLayout(self._grid(group))

    def refresh(self) -> None:
        """Enable what can be done with what is chosen now, and say of the rest why not."""
        for each, operation in self._buttons.items():
            if isinstance(each, QuietButton):
                why = operation.why_not(self._control)
                if why and each.hasFocus():
                    self.stranded.emit()
                each.setEnabled(not why)
                each.setToolTip(why or _tip(operation))
                each.setAccessibleDescription(why or operation.tip)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Draw what the button under the pointer, or with the keyboard, would make."""
        if watched in self._buttons:
            if event.type() in _HIDES:
                self._control.scene.show_preview(())
            elif event.type() in _SHOWS and not self._buttons[watched].why_not(self._control):
                foresee_operation(self._control, self._buttons[watched].name)
        return super().eventFilter(watched, event)

    def _grid(self, group: Group) -> QGridLayout:
        grid = QGridLayout()
        grid.setSpacing(6)
        row = across = 0
        for operation in of_group(group):
            if across == COLUMNS or (across and operation.name in STARTS_ROW):
                row, across = row + 1, 0
            button = QuietButton(operation.words, f"shapes_{operation.name}", self)
            button.clicked.connect(
                lambda _=False, name=operation.name: run_by_name(self._control, name)
            )
            button.installEventFilter(self)
            self._buttons[button] = operation
            grid.addWidget(button, row, across)
            across += 1
        for column in range(COLUMNS):
            grid.setColumnStretch(column, 1)
        return grid


def _tip(operation: Operation) -> str:
    key = operation.key or operation.hint
    return f"{operation.tip} ({key})" if key else operation.tip
