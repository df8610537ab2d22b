"""A can's rate as a bar on the scale of all, and a tick where the computed map stands."""

from collections.abc import Sequence

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, QSize
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QStyledItemDelegate, QStyleOptionViewItem, QWidget

from lawnbook.desk.pages.cans_figures import Can
from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import palette, px, sized
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr
from lawnbook.yard.amounts import told

BAR_PX, ROW_PX, INSET_PX = 60, 24, 2.0
BAR_HIGH_PX, TICK_HIGH_PX, TICK_WIDE_PX = 6.0, 16.0, 2.0


def full_scale(cans: Sequence[Can]) -> float:
    """The rate (in/h) that fills the bar: the largest caught or computed, 0 where none is known."""
    known = [rate for can in cans for rate in (can.in_per_h, can.map_in_per_h) if rate is not None]
    return max(known, default=0.0)


def paint_rate(painter: QPainter, room: QRectF, can: Can, full_in_per_h: float) -> None:
    """Paint a can's bar and tick into some room; nothing where its rate is not known."""
    if can.in_per_h is None or full_in_per_h <= 0:
        return
    colours, middle = palette(), float(round(room.center().y()))
    left, wide = room.left() + INSET_PX, room.width() - 2 * INSET_PX
    bar = QRectF(left, middle - BAR_HIGH_PX / 2, wide * can.in_per_h / full_in_per_h, BAR_HIGH_PX)
    painter.fillRect(bar, QColor(colours.warn if can.clogged else colours.accent))
    if can.map_in_per_h is not None:
        at = round(left + wide * can.map_in_per_h / full_in_per_h - TICK_WIDE_PX / 2)
        tick = QRectF(at, middle - TICK_HIGH_PX / 2, TICK_WIDE_PX, TICK_HIGH_PX)
        painter.fillRect(tick, QColor(colours.ink))


def bar_words(can: Can | None, full_in_per_h: float) -> str:
    """A can's bar and tick in words."""
    if can is None or can.in_per_h is None or full_in_per_h <= 0:
        return tr("Nothing is caught yet.")
    caught, most = told(can.in_per_h, 2, "in/h"), told(full_in_per_h, 2, "in/h")
    if can.map_in_per_h is None:
        return tr("{caught}; the scale ends at {most}.", caught=caught, most=most)
    computed = told(can.map_in_per_h, 2, "in/h")
    return tr(
        "{caught}, the map {computed}; the scale ends at {most}.",
        caught=caught,
        computed=computed,
        most=most,
    )


class RateBar(QWidget):
    """The bar of one can."""

    def __init__(self, number: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        spoken = tr("Rate of can {number} beside the others", number=number)
        hear_as(self, "Graphic")
        name_control(self, f"cans_{number}_bar", spoken, bar_words(None, 0))
        self._can: Can | None = None
        self._full = 0.0
        sized(self, least_width=BAR_PX)

    def sizeHint(self) -> QSize:
        """One line, as wide as there is room."""
        return QSize(px(2 * BAR_PX), px(ROW_PX))

    def show_can(self, can: Can | None, full_in_per_h: float) -> None:
        """Show a can against the rate that fills the bar, or nothing."""
        self._can, self._full = can, full_in_per_h
        self.setAccessibleDescription(bar_words(can, full_in_per_h))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint bar and tick."""
        super().paintEvent(event)
        if self._can is not None:
            painter = QPainter(self)
            paint_rate(painter, QRectF(self.rect()), self._can, self._full)
            painter.end()


class RateBars(QStyledItemDelegate):
    """The bars of a table's column, a can for each row."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._cans: tuple[Can, ...] = ()

    def show_cans(self, cans: Sequence[Can]) -> None:
        """Paint these from now on."""
        self._cans = tuple(cans)

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        """Paint the cell as ever, and the bar over it."""
        super().paint(painter, option, index)
        if index.row() < len(self._cans):
            room = QRectF(option.rect)
            paint_rate(painter, room, self._cans[index.row()], full_scale(self._cans))
