"""The list of what is due: a row for each thing, in date order, that leads to its zone."""

from datetime import date

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QPainter, QPaintEvent, QTextLayout, QTextOption
from PySide6.QtWidgets import QPushButton, QSizePolicy, QVBoxLayout, QWidget

from lawnbook.desk.theme import CAPTION_POINTS, UI_POINTS, colour, palette, sans
from lawnbook.desk.widgets import Caption, clear_layout, name_control
from lawnbook.plan.model import Due
from lawnbook.yard.numbers import short_day

NOTHING = "Nothing is due. The plan looks ahead as soon as there are zones, plugs and weather."
KIND_ROLES = {"water": "water", "feed": "feed", "plug": "thatch", "test": "quiet"}
DATE_PX = 84.0


class DueRow(QPushButton):
    """One thing that is due: its day, a dot in its page's colour, what, and why below."""

    def __init__(self, due: Due, on: date, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._due, self._on = due, on
        self.setProperty("role", "row")
        self.setAutoDefault(False)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        when = "now" if due.date <= on else short_day(due.date)
        name_control(self, f"due_{due.kind}", f"{when}: {due.what}", due.why)
        self._when = when

    def hasHeightForWidth(self) -> bool:
        """The words wrap."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Room for both texts at this width."""
        room = width - DATE_PX - 18
        heights = [_height(text, font, room) for text, font in self._texts()]
        return round(sum(heights) + 14)

    def sizeHint(self) -> QSize:
        """The height at the width it has, or at a usual one."""
        width = self.width() if self.width() > DATE_PX * 2 else 520
        return QSize(320, self.heightForWidth(width))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the button's ground, then dot, day, what and why."""
        super().paintEvent(event)
        p = palette()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(getattr(p, KIND_ROLES[self._due.kind])))
        painter.drawEllipse(QPointF(12, 16), 4.5, 4.5)
        painter.setPen(colour(p.ink))
        painter.setFont(sans(UI_POINTS, QFont.Weight.DemiBold))
        painter.drawText(QRectF(25, 7, DATE_PX - 25, 20), _LINE, self._when)
        top = 7.0
        inks = (p.ink, p.quiet)
        for (text, font), ink in zip(self._texts(), inks, strict=True):
            painter.setPen(colour(ink))
            painter.setFont(font)
            high = _height(text, font, self.width() - DATE_PX - 18)
            box = QRectF(DATE_PX, top, self.width() - DATE_PX - 18, high)
            painter.drawText(box, Qt.TextFlag.TextWordWrap, text)
            top += high
        painter.end()

    def _texts(self) -> tuple[tuple[str, QFont], tuple[str, QFont]]:
        return (self._due.what, sans()), (self._due.why, sans(CAPTION_POINTS))


class DueList(QWidget):
    """All that is due. `picked` tells the row's kind and first zone's name."""

    picked = Signal(str, str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "due_list", "What is due")
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)

    def show_due(self, due: tuple[Due, ...], on: date) -> None:
        """Show these things, as seen on a day."""
        clear_layout(self._column)
        for each in due:
            row = DueRow(each, on, self)
            zone = each.zones[0] if each.zones else ""
            row.clicked.connect(
                lambda _=False, kind=each.kind, zone=zone: self.picked.emit(kind, zone)
            )
            self._column.addWidget(row)
        if not due:
            self._column.addWidget(Caption(NOTHING, self, wrap=True))


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


_LINE = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
