"""What would change a figure most, drawn: for each input a bar to either side of no change."""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QGridLayout, QSizePolicy, QWidget

from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import colour, palette, px
from lawnbook.desk.widgets import Caption, name_control
from lawnbook.frozen import dataclass
from lawnbook.plan.sensitivity import Sensitivity, sensitivities_of
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings_text import MOST_TOLD
from lawnbook.reading import tr

MOST_BARS = MOST_TOLD
BAR_WIDTH_PX, BAR_HEIGHT_PX = 84, 15
_THICK = 0.34
_AXIS = 0.6


@dataclass(frozen=True, slots=True)
class Reach:
    """How far a bar reaches to either side of no change, as shares of the longest of all."""

    upper: float
    lower: float


def reaches_of(listed: Sequence[Sensitivity]) -> tuple[Reach, ...]:
    """The bars of some inputs: of each the change by its first and its second other number."""
    longest = max((each.size for each in listed), default=0.0) or 1.0
    made = []
    for each in listed:
        changes = [change.change / longest for change in each.changes][:2]
        first, second = (*changes, 0.0, 0.0)[:2]
        made.append(Reach(first, second))
    return tuple(made)


class ChangeBars(QWidget):
    """The lines of what would change a figure, the first with a bar beside each."""

    def __init__(
        self, working: Working, lines: Sequence[str], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        hear_as(self, "Grouping")
        name_control(self, "working_changes", tr("What would change it most"), "; ".join(lines))
        moving = [each for each in sensitivities_of(working) if each.size > 0][:MOST_TOLD]
        bars = reaches_of(moving[:MOST_BARS])
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(1, 1)
        for row, line in enumerate(lines):
            if row < len(bars):
                bar = ChangeBar(bars[row], self)
                spoken = tr("What {input} changes", input=moving[row].name)
                name_control(bar, f"working_bar_{row}", spoken, line)
                grid.addWidget(bar, row, 0, Qt.AlignmentFlag.AlignTop)
                grid.addWidget(Caption(line, wrap=True), row, 1)
            else:
                grid.addWidget(Caption(line, wrap=True), row, 0, 1, 2)


class ChangeBar(QWidget):
    """Two bars from the middle, one above the other: more of the input, and less of it.

    More is filled and less is an outline, so that the two differ without their colours.
    """

    def __init__(self, reach: Reach, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._reach = reach
        hear_as(self, "Graphic")
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """A small bar, larger with the text."""
        return QSize(px(BAR_WIDTH_PX), px(BAR_HEIGHT_PX))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The line of no change, and the bars from there."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        width, height = float(self.width()), float(self.height())
        middle, thick = width / 2, height * _THICK
        accent = colour(palette().accent)
        for number, share in enumerate((self._reach.upper, self._reach.lower)):
            length = share * (middle - 1)
            top = height * (0.12 + 0.44 * number)
            box = QRectF(min(middle, middle + length), top, abs(length), thick)
            painter.setPen(accent)
            painter.setBrush(accent if number == 0 else Qt.BrushStyle.NoBrush)
            if abs(length) >= 1:
                painter.drawRect(box)
        painter.fillRect(QRectF(middle - _AXIS, 0, 2 * _AXIS, height), colour(palette().ink))
        painter.end()
