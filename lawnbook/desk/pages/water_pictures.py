"""The two pictures of the water page: the year's waterings as a strip, and roots to scale.

Both paint plan figures they are handed and read nothing else. Colours come from the palette of
the theme at each paint, so a change of theme needs no word to them.
"""

import random
from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from lawnbook.desk.pages.water_words import month_sentence
from lawnbook.desk.roles import hear_as
from lawnbook.desk.telling import either
from lawnbook.desk.theme import CAPTION_POINTS, palette, px, scale
from lawnbook.plan.model import MonthWater, ZoneWater
from lawnbook.plan.season import month_in_full, month_name
from lawnbook.plan.workings import run_minutes_told
from lawnbook.reading import tr
from lawnbook.yard.amounts import told, trimmed

LEAST_GUTTER = 92.0
"""Left of the months; more where a language's words are longer."""
HEADER = 20.0
BAR_HEIGHT = 46.0
ROW = 18.0


class MonthStrip(QWidget):
    """Twelve months of one zone: depth as a bar under the target's line, days and minutes below.

    One month is picked, by a click or by the arrow keys; `month_picked` tells its number (1-12).
    """

    month_picked = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        hear_as(self, "Slider")
        self.setObjectName("month_strip")
        self.setAccessibleName(tr("Waterings month by month"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self._months: tuple[MonthWater, ...] = ()
        self._target_in = 1.0
        self._month = 1

    @property
    def month(self) -> int:
        """The picked month, 1-12."""
        return self._month

    def show_months(self, months: Sequence[MonthWater], target_in: float) -> None:
        """Show twelve months, with the target depth as the line across the bars."""
        self._months = tuple(months)
        self._target_in = target_in
        self._describe()
        self.update()

    def pick(self, month: int) -> None:
        """Pick a month and tell it."""
        self._month = max(1, min(12, month))
        self._describe()
        self.update()
        self.month_picked.emit(self._month)

    def sizeHint(self) -> QSize:
        """Room for header, bars and two rows of figures."""
        return QSize(px(520), px(HEADER + BAR_HEIGHT + 2 * ROW + 14))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Left and right walk the months; Home and End go to January and December."""
        steps = {
            Qt.Key.Key_Left: self._month - 1,
            Qt.Key.Key_Right: self._month + 1,
            Qt.Key.Key_Home: 1,
            Qt.Key.Key_End: 12,
        }
        wanted = steps.get(Qt.Key(event.key()))
        if wanted is None:
            super().keyPressEvent(event)
        else:
            self.pick(wanted)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A click picks the month under it."""
        x = event.position().x() / scale()
        if event.button() == Qt.MouseButton.LeftButton and x >= self._gutter():
            self.pick(int((x - self._gutter()) // self._cell_width()) + 1)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the strip in the colours of the theme."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.scale(scale(), scale())
        self._paint_gutter(painter)
        for each in self._months:
            self._paint_month(painter, each)
        self._paint_target(painter)
        painter.end()

    def _cell_width(self) -> float:
        return (self._wide() - self._gutter() - 2) / 12

    def _wide(self) -> float:
        """The width as it is at a text of 100 %: the painter enlarges all of the picture."""
        return self.width() / scale()

    def _gutter(self) -> float:
        """Room for the words at the left, which are not cut off in any language."""
        metrics = QFontMetricsF(_small(self.font()))
        words = (tr("days between"), tr("minutes"))
        return max(LEAST_GUTTER, *(metrics.horizontalAdvance(each) + 10 for each in words))

    def _cell(self, month: int) -> QRectF:
        width = self._cell_width()
        height = HEADER + BAR_HEIGHT + 2 * ROW + 10
        return QRectF(self._gutter() + (month - 1) * width, 1, width, height)

    def _scale_in(self) -> float:
        deepest = max((each.depth_in or 0.0 for each in self._months), default=0.0)
        return max(self._target_in, deepest) * 1.08

    def _describe(self) -> None:
        if self._months:
            words = month_sentence(self._months[self._month - 1])
            self.setAccessibleDescription(f"{month_in_full(self._month)}: {words}")

    def _paint_gutter(self, painter: QPainter) -> None:
        painter.setPen(QColor(palette().quiet))
        painter.setFont(_small(self.font()))
        top = 1 + HEADER + BAR_HEIGHT + 4
        for row, words in enumerate((tr("days between"), tr("minutes"))):
            box = QRectF(0, top + row * ROW, self._gutter() - 8, ROW)
            painter.drawText(
                box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, words
            )

    def _paint_month(self, painter: QPainter, each: MonthWater) -> None:
        colours = palette()
        cell = self._cell(each.month)
        picked = each.month == self._month
        if picked:
            painter.setPen(QPen(QColor(colours.accent), 2 if self.hasFocus() else 1))
            painter.setBrush(QColor(colours.card))
            painter.drawRoundedRect(cell.adjusted(1, 0, -1, 0), 4, 4)
        painter.setFont(_small(self.font(), bold=picked))
        painter.setPen(QColor(colours.ink if picked else colours.quiet))
        name = month_name(each.month)
        painter.drawText(
            QRectF(cell.x(), cell.y(), cell.width(), HEADER), Qt.AlignmentFlag.AlignCenter, name
        )
        self._paint_bar(painter, each, cell)
        self._paint_figures(painter, each, cell)

    def _paint_bar(self, painter: QPainter, each: MonthWater, cell: QRectF) -> None:
        colours = palette()
        floor = cell.y() + HEADER + BAR_HEIGHT
        painter.setPen(QPen(QColor(colours.rule), 1))
        painter.drawLine(QPointF(cell.x() + 6, floor), QPointF(cell.right() - 6, floor))
        if not each.depth_in:
            return
        height = BAR_HEIGHT * each.depth_in / self._scale_in()
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.water))
        width = min(18.0, cell.width() - 14)
        painter.drawRoundedRect(
            QRectF(cell.center().x() - width / 2, floor - height, width, height), 2, 2
        )

    def _paint_figures(self, painter: QPainter, each: MonthWater, cell: QRectF) -> None:
        top = cell.y() + HEADER + BAR_HEIGHT + 4
        colours = palette()
        planned = each.interval_days is not None
        run = run_minutes_told(each)
        figures = (
            str(each.interval_days) if planned else "–",
            "–" if run is None else str(run),
        )
        for row, words in enumerate(figures):
            painter.setPen(QColor(colours.ink if row == 0 and planned else colours.quiet))
            painter.setFont(_small(self.font(), bold=row == 0 and planned))
            box = QRectF(cell.x(), top + row * ROW, cell.width(), ROW)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)

    def _paint_target(self, painter: QPainter) -> None:
        y = 1 + HEADER + BAR_HEIGHT * (1 - self._target_in / self._scale_in())
        painter.setPen(QPen(QColor(palette().accent), 1, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(self._gutter(), y), QPointF(self._wide() - 2, y))
        painter.setFont(_small(self.font()))
        us = tr("target {depth}", depth=f"{self._target_in:.4g} in")
        # On two lines: "target 25.4 mm" is wider than the gutter.
        metric = tr("target\n{depth}", depth=trimmed(self._target_in, 2, "in"))
        words = either(us, metric)
        height = ROW * len(words.split("\n"))
        box = QRectF(0, y - height / 2, self._gutter() - 8, height)
        painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, words)


class RootsPicture(QWidget):
    """Two columns of ground to one scale: roots as they are, and the roots the target needs."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        hear_as(self, "Graphic")
        self.setObjectName("roots_picture")
        self.setAccessibleName(tr("Roots now and roots needed"))
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self._zone: ZoneWater | None = None

    def show_zone(self, zone: ZoneWater) -> None:
        """Show a zone's rooted soil and the rooted soil its target depth needs."""
        self._zone = zone
        self.setAccessibleDescription(
            tr(
                "Rooted soil now {rooted_soil_in}; the target needs {roots_needed_in}.",
                rooted_soil_in=told(zone.rooted_soil_in, 1, "in"),
                roots_needed_in=told(zone.roots_needed_in, 1, "in"),
            )
        )
        self.update()

    def sizeHint(self) -> QSize:
        """A picture of fixed size, so that the words beside it stand still."""
        return QSize(px(212), px(136))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint both columns."""
        if self._zone is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.scale(scale(), scale())
        now, needed = self._zone.rooted_soil_in, self._zone.roots_needed_in
        deepest = max(now, needed, 1.0) * 1.08
        for left, name, depth in ((2.0, tr("now"), now), (106.0, tr("target"), needed)):
            self._paint_column(painter, QRectF(left, 20, 46, 112), name, depth / deepest)
            self._paint_depth(painter, QRectF(left, 20, 46, 112), depth, depth / deepest)
        painter.end()

    def _paint_column(self, painter: QPainter, box: QRectF, name: str, share: float) -> None:
        colours = palette()
        painter.setPen(QColor(colours.quiet))
        painter.setFont(_small(self.font()))
        painter.drawText(
            QRectF(box.x() - 10, 0, box.width() + 20, 17), Qt.AlignmentFlag.AlignCenter, name
        )
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.soil))
        painter.drawRoundedRect(box, 2, 2)
        painter.setBrush(QColor(colours.verdure))
        painter.drawRect(QRectF(box.x(), box.y() - 3, box.width(), 3))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        # Seeded by the column's place, so that the strands stand still between two paints.
        chance = random.Random(box.x())
        painter.setPen(QPen(QColor(colours.root), 1.1))
        for strand in range(9):
            painter.drawPolyline(_strand(box, strand, share, chance))

    def _paint_depth(self, painter: QPainter, box: QRectF, depth_in: float, share: float) -> None:
        colours = palette()
        y = box.y() + box.height() * share
        painter.setPen(QPen(QColor(colours.ink), 1.2))
        painter.drawLine(QPointF(box.x() - 2, y), QPointF(box.right() + 5, y))
        words = told(depth_in, 1, "in")
        height = QFontMetricsF(painter.font()).height()
        painter.setFont(_small(self.font(), bold=True))
        place = QRectF(box.right() + 7, max(18.0, y - height / 2), 54, height)
        painter.drawText(place, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, words)


def _strand(box: QRectF, strand: int, share: float, chance: random.Random) -> QPolygonF:
    """One root from the surface down; the longest strands end exactly at the depth."""
    x = box.x() + box.width() * (strand + 0.5) / 9
    length = box.height() * share * (1.0 if strand in (2, 6) else chance.uniform(0.45, 0.95))
    points = [QPointF(x + chance.uniform(-1.8, 1.8), box.y() + length * k / 6) for k in range(7)]
    return QPolygonF(points)


def _small(font: QFont, *, bold: bool = False) -> QFont:
    """The widget's font in the smallest size in use; the painter enlarges it."""
    small = QFont(font)
    small.setPointSizeF(CAPTION_POINTS)
    small.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
    return small
