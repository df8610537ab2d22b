"""The rows of the check of the sketch: a sentence, what shows it, and what mends it."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.figures import FigureHand, let_open
from lawnbook.desk.widgets import LinkButton, QuietButton, Words, name_control
from lawnbook.reading import tr
from lawnbook.yard.faults import Fault, Mend

if TYPE_CHECKING:
    from lawnbook.plan.working_model import Working


class FaultRow(QWidget):
    """One thing found. `wanted` gives a mend that was pressed, `shown` asks to see it."""

    wanted = Signal(object, object)
    shown = Signal(object)

    def __init__(self, fault: Fault, number: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.fault = fault
        name_control(self, f"check_row_{number}", fault.sentence)
        words = Words(fault.sentence, "", self)
        words.setObjectName(f"check_words_{number}")
        let_open(self._workings, words)
        self.show_link = LinkButton(tr("Show"), f"check_show_{number}", self)
        self.show_link.setAccessibleName(tr("Show: {sentence}", sentence=fault.sentence))
        self.show_link.clicked.connect(lambda: self.shown.emit(self.fault))
        FigureHand(self.show_link, self._workings, by_click=False)
        top = QHBoxLayout()
        top.setSpacing(12)
        top.addWidget(words, 1)
        top.addWidget(self.show_link, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 2, 0, 2)
        column.setSpacing(6)
        column.addLayout(top)
        self.buttons: list[QuietButton] = []
        mends = [each for each in (fault.mend, fault.other_mend) if each is not None]
        if mends:
            row = QHBoxLayout()
            row.setSpacing(8)
            for way, mend in zip(("mend", "other"), mends, strict=False):
                row.addWidget(self._button(mend, f"check_{way}_{number}"))
            row.addStretch(1)
            column.addLayout(row)

    def _workings(self) -> "tuple[Working, ...]":
        """How the ground that is told of came about."""
        from lawnbook.plan.fault_workings import fault_workings

        return fault_workings(self.fault)

    def _button(self, mend: Mend, object_name: str) -> QuietButton:
        button = QuietButton(mend.words, object_name, self)
        button.setAccessibleDescription(self.fault.sentence)
        button.clicked.connect(lambda: self.wanted.emit(self.fault, mend))
        self.buttons.append(button)
        return button
