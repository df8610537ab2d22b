"""The rows at the head of the yard page: what is due."""

from collections.abc import Mapping
from datetime import date
from types import MappingProxyType
from typing import Literal

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QPainter, QPaintEvent, QPen, QTextLayout, QTextOption
from PySide6.QtWidgets import QPushButton, QSizePolicy, QVBoxLayout, QWidget

from lawnbook.desk.theme import CAPTION_POINTS, UI_POINTS, colour, palette, px, sans, scale
from lawnbook.desk.widgets import Caption, clear_layout, name_control
from lawnbook.frozen import dataclass
from lawnbook.plan.model import Due
from lawnbook.plan.season_model import TaskKind
from lawnbook.reading import tr
from lawnbook.yard.numbers import short_day

NOTHING = tr("Nothing is due. The plan looks ahead as soon as there are zones, plugs and weather.")
KIND_ROLES: Mapping[TaskKind, str] = MappingProxyType(
    {
        "water": "water",
        "feed": "feed",
        "plug": "thatch",
        "mow": "verdure",
        "care": "ink",
        "test": "quiet",
        "check": "quiet",
    }
)
"""The colour of each kind's dot, as on the picture of the year."""

LEAD_PX, DOT_PX = 84.0, 25.0
Mark = Literal["dot", "ring", "tick"]


@dataclass(frozen=True, slots=True)
class Line:
    """What a row shows: a mark in a palette role, a word in bold, what it is, and why below."""

    what: str
    why: str
    role: str
    mark: Mark = "dot"
    lead: str = ""


class LineRow(QPushButton):
    """A button that is a row of a list; its words wrap."""

    def __init__(self, line: Line, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._line = line
        self.setProperty("role", "row")
        self.setAutoDefault(False)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        # Not Fixed: that would hold the row to the height it had at a width of old.
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    @property
    def _left(self) -> float:
        """Where the words begin."""
        return px(LEAD_PX - DOT_PX) + DOT_PX if self._line.lead else DOT_PX

    def hasHeightForWidth(self) -> bool:
        """The words wrap."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Room for both texts at this width."""
        return round(sum(self._heights(width)) + 14)

    def sizeHint(self) -> QSize:
        """Room for one line of each text; what wraps asks for more by its width."""
        return QSize(320, self.heightForWidth(4000))

    def minimumSizeHint(self) -> QSize:
        """The same: a button's own words would be wider."""
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the button's ground, then mark, lead, what and why."""
        super().paintEvent(event)
        p = palette()
        done = self._line.mark == "tick"
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_mark(painter)
        painter.setPen(colour(p.ink))
        painter.setFont(sans(UI_POINTS, QFont.Weight.DemiBold))
        # On one baseline with what it is: both stand at the top of their line.
        painter.drawText(QRectF(DOT_PX, 7, self._left - DOT_PX, px(20)), self._line.lead)
        top = 7.0
        inks = (p.quiet if done else p.ink, p.quiet)
        heights = self._heights(self.width())
        for (text, font), ink, high in zip(self._texts(), inks, heights, strict=True):
            painter.setPen(colour(ink))
            painter.setFont(font)
            box = QRectF(self._left, top, self.width() - self._left - 18, high)
            painter.drawText(box, Qt.TextFlag.TextWordWrap, text)
            top += high
        painter.end()

    def _paint_mark(self, painter: QPainter) -> None:
        ink, y = colour(getattr(palette(), self._line.role)), 7 + px(9)
        if self._line.mark == "tick":
            painter.setPen(QPen(ink, 2, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
            ends = ((-4.0, 0.0), (-1.0, 3.5), (4.5, -4.0))
            painter.drawPolyline([QPointF(12, y) + QPointF(*each) * scale() for each in ends])
            return
        filled = self._line.mark == "dot"
        painter.setPen(Qt.PenStyle.NoPen if filled else QPen(ink, 1.6))
        painter.setBrush(ink if filled else Qt.BrushStyle.NoBrush)
        painter.drawEllipse(QPointF(12, y), 4.5 * scale(), 4.5 * scale())
        painter.setBrush(Qt.BrushStyle.NoBrush)

    def _heights(self, width: int) -> list[float]:
        room = width - self._left - 18
        return [_height(text, font, room) if text else 0.0 for text, font in self._texts()]

    def _texts(self) -> tuple[tuple[str, QFont], tuple[str, QFont]]:
        return (self._line.what, sans()), (self._line.why, sans(CAPTION_POINTS))


class DueList(QWidget):
    """All that is due. `picked` tells the Due of the row."""

    picked = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "due_list", tr("What is due"))
        self._column = _column(self)

    def show_due(self, due: tuple[Due, ...], on: date) -> None:
        """Show these things, as seen on a day."""
        clear_layout(self._column)
        for each in due:
            when = tr("now") if each.date <= on else short_day(each.date)
            row = LineRow(Line(each.what, each.why, KIND_ROLES[each.kind], lead=when), self)
            name_control(row, f"due_{each.kind}", f"{when}: {each.what}", each.why)
            row.clicked.connect(lambda _=False, due=each: self.picked.emit(due))
            self._column.addWidget(row)
        if not due:
            self._column.addWidget(Caption(NOTHING, self, wrap=True))


def _column(widget: QWidget) -> QVBoxLayout:
    column = QVBoxLayout(widget)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(0)
    return column


def _height(text: str, font: QFont, width: float) -> float:
    """The height of words wrapped at a width."""
    layout = QTextLayout(text, font)
    layout.setTextOption(QTextOption(Qt.AlignmentFlag.AlignLeft))
    layout.beginLayout()
    total = 0.0
    while (line := layout.createLine()).isValid():
        line.setLineWidth(width)
        total += line.height()
    layout.endLayout()
    return total
