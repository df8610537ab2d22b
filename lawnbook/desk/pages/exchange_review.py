"""Outlines of a file before they are taken in: what becomes of each, and what they were told."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import (
    Caption,
    OneLine,
    PrimaryButton,
    QuietButton,
    Words,
    clear_layout,
    name_control,
)
from lawnbook.reading import tr
from lawnbook.store.outlines_laid import LaidOutlines, LaidShape
from lawnbook.store.outlines_taken import LEAVE, Becomes, choices, usual
from lawnbook.yard.amounts import told
from lawnbook.yard.fields import Outline
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import counted

MOST_ROWS = 60
"""Shapes that are asked about one by one; those after them go where they usually would."""
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_SIDES = (_LEFT, _RIGHT, _RIGHT, _LEFT)


class ExchangeReview(QWidget):
    """The shapes of a file, one a row; `taken` and `left` tell what the owner does with them.

    `changed` tells that something else is to become of one.
    """

    taken = Signal()
    left = Signal()
    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "outlines_review", tr("Outlines of the file"))
        self.becomes: list[Becomes] = []
        self._offered: list[tuple[tuple[str, Becomes], ...]] = []
        self._told = Words("", "ask", self)
        self._told.setObjectName("outlines_told")
        self._rows = QGridLayout()
        self._rows.setHorizontalSpacing(12)
        self._rows.setVerticalSpacing(6)
        self._rows.setColumnStretch(0, 2)
        self._rows.setColumnStretch(3, 5)
        self._more = Caption("", self, wrap=True)
        self._take = PrimaryButton(tr("Take in"), "take_outlines", self)
        self._leave = QuietButton(tr("Leave them"), "leave_outlines", self)
        self._take.clicked.connect(self.taken)
        self._leave.clicked.connect(self.left)
        self._lay_out()
        self.hide()

    def show_laid(self, laid: LaidOutlines, notebook: Notebook, *, keep: bool = False) -> None:
        """Show the shapes of a file; with `keep`, what was chosen stays where it still can be."""
        before = self.becomes if keep and len(self.becomes) == len(laid.shapes) else []
        self.becomes = [usual(each, notebook) for each in laid.shapes]
        self._offered = [choices(each, notebook, laid.shapes) for each in laid.shapes[:MOST_ROWS]]
        for index, held in enumerate(before[:MOST_ROWS]):
            if held in [each for _, each in self._offered[index]]:
                self.becomes[index] = held
        self._told.say("\n".join(laid.told))
        clear_layout(self._rows)
        for column, head in enumerate((tr("Shape"), tr("Area"), tr("Corners"), tr("Becomes"))):
            self._rows.addWidget(Caption(head, self), 0, column, _SIDES[column])
        for index, shape in enumerate(laid.shapes[:MOST_ROWS]):
            self._add_row(index, shape)
        rest = len(laid.shapes) - MOST_ROWS
        self._more.setText(
            tr("And {more_shapes}, by their names.", more_shapes=counted(rest, "more shape"))
            if rest > 0
            else ""
        )
        self._more.setVisible(rest > 0)
        self._say_count()
        self.show()

    @property
    def count(self) -> int:
        """How many shapes would be taken in."""
        return sum(each != LEAVE for each in self.becomes)

    def _add_row(self, index: int, shape: LaidShape) -> None:
        name = shape.name or tr("Shape {index}", index=index + 1)
        title = OneLine(name, self)
        title.setProperty("role", "")
        sized(title, least_width=90)
        area = Words(told(shape.ground.area_sqft, 0, "sq ft"), "", self, wrap=False)
        corners = Words(f"{shape.corners:,}", "", self, wrap=False)
        box = ChoiceBox(self)
        name_control(box, f"becomes_{index}", tr("What becomes of {name}", name=name))
        box.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        box.setMinimumContentsLength(12)
        for words, _ in self._offered[index]:
            box.addItem(words)
        offered = [each for _, each in self._offered[index]]
        box.setCurrentIndex(offered.index(self.becomes[index]))
        box.currentIndexChanged.connect(lambda chosen: self._choose(index, offered[chosen]))
        self._rows.addWidget(title, index + 1, 0)
        self._rows.addWidget(area, index + 1, 1, _SIDES[1])
        self._rows.addWidget(corners, index + 1, 2, _SIDES[2])
        self._rows.addWidget(box, index + 1, 3)

    def _choose(self, index: int, becomes: Becomes) -> None:
        self.becomes[index] = becomes
        self._say_count()
        self.changed.emit()

    def _say_count(self) -> None:
        self._take.setText(tr("Take in {shapes}", shapes=counted(self.count, "shape")))
        self._take.setAccessibleName(self._take.text())
        self._take.setEnabled(self.count > 0)

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        buttons.addWidget(self._take)
        buttons.addWidget(self._leave)
        buttons.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(10)
        column.addWidget(self._told)
        column.addLayout(self._rows)
        column.addWidget(self._more)
        column.addLayout(buttons)


def rings_shown(laid: LaidOutlines, becomes: Sequence[Becomes]) -> list[Outline]:
    """The rings of the shapes that would be taken in."""
    pairs = zip(laid.shapes, becomes, strict=True)
    return [ring for shape, each in pairs if each != LEAVE for ring in shape.ground.rings]
