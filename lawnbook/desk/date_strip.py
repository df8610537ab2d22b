"""The years of the notebook as a painted strip, with a marker on the day that is looked at."""

import calendar
from datetime import date, timedelta

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from lawnbook.agronomy.turf import growth_potential
from lawnbook.charts.palette import Palette
from lawnbook.desk import entry
from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import CAPTION_POINTS, colour, mix, palette, px, sans
from lawnbook.desk.widgets import name_control
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook

AXIS_Y = 26.0
GROWTH_HEIGHT = 18.0
SIDE = 8.0
LABEL_GAP_PX = 10
YEAR_RISE_PX = 2.0
"""How far the years stand above the strip's foot: clear of the marks of feedings and plugs."""

STEPS = (1, 2, 5, 10, 20, 50, 100)


@dataclass(frozen=True, slots=True)
class Years:
    """What the strip shows: its ends, the days of plugs and feedings, growth by month (0-1)."""

    start: date
    end: date
    plugs: tuple[date, ...] = ()
    feedings: tuple[date, ...] = ()
    growth: tuple[float, ...] = ()


def years_of(notebook: Notebook, today: date) -> Years:
    """The years from the first thing dated to the end of this one, two at the least."""
    plugs = tuple(sorted({core.date for core in notebook.cores.values()}))
    feedings = tuple(sorted({feeding.date for feeding in notebook.feedings.values()}))
    first = min([*plugs[:1], *feedings[:1], date(today.year - 1, 1, 1)])
    grass = next((zone.grass for zone in notebook.zones.values()), "cool")
    means = {m.month: m.tmean_f for m in notebook.climate.values() if m.tmean_f is not None}
    if len(means) < 12:
        means = _measured_means(notebook)
    growth = tuple(growth_potential(means[month], grass) for month in sorted(means))
    return Years(
        date(first.year, 1, 1),
        date(today.year, 12, 31),
        plugs,
        feedings,
        growth if len(growth) == 12 else (),
    )


def label_step(year_px: float, label_px: float) -> int:
    """Every how many years one is named, so that no name lies on the next."""
    return next((step for step in STEPS if step * year_px >= label_px), STEPS[-1])


def _measured_means(notebook: Notebook) -> dict[int, float]:
    """Mean temperature by month from the notebook's own weather."""
    sums: dict[int, tuple[float, int]] = {}
    for day in notebook.weather.values():
        if day.tmin_f is not None and day.tmax_f is not None:
            total, count = sums.get(day.date.month, (0.0, 0))
            sums[day.date.month] = (total + (day.tmin_f + day.tmax_f) / 2, count + 1)
    return {month: total / count for month, (total, count) in sums.items()}


class Strip(QWidget):
    """The painted strip with its marker: drag it, or use the arrow keys.

    `passed` tells each day on the way, `moved` the one where the marker is left.
    """

    moved = Signal(object)
    passed = Signal(object)
    play_asked = Signal()

    def __init__(self, years: Years, on: date, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._years, self._on = years, on
        self._under_way = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        hear_as(self, "Slider")
        name_control(
            self,
            "date_strip",
            tr("Day the book is looked at"),
            tr(
                "Left and Right move a day, Page Up and Page Down a month, Home and End to the "
                "ends; Space plays the years."
            ),
        )

    def sizeHint(self) -> QSize:
        """As wide as there is room, and low."""
        return QSize(400, round(AXIS_Y) + px(24))

    def show_years(self, years: Years, on: date) -> None:
        """Show other years, or another day."""
        self._years, self._on = years, on
        self.setAccessibleName(
            tr("Day the book is looked at: {format_day}", format_day=entry.format_day(on))
        )
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Move the marker by keys."""
        on, key = self._on, event.key()
        days = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        months = {Qt.Key.Key_PageUp: -1, Qt.Key.Key_PageDown: 1}
        ends = {Qt.Key.Key_Home: self._years.start, Qt.Key.Key_End: self._years.end}
        if key in days:
            self._pass(on + timedelta(days=days[Qt.Key(key)]))
        elif key in months:
            self._pass(_months_on(on, months[Qt.Key(key)]))
        elif key in ends:
            self._pass(ends[Qt.Key(key)])
        elif key == Qt.Key.Key_Space and not event.isAutoRepeat():
            self.play_asked.emit()
        else:
            event.ignore()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """A key that was held has taken the marker where it is now."""
        if not event.isAutoRepeat():
            self._arrive()
        super().keyReleaseEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the marker to the pointer."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._pass(self._day_at(event.position().x()))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag the marker."""
        if event.buttons() & Qt.MouseButton.LeftButton:
            self._pass(self._day_at(event.position().x()))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """The marker is left where it is."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._arrive()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """A key or button that is released elsewhere leaves the marker where it is."""
        self._arrive()
        self.update()
        super().focusOutEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Repaint with the focus ring."""
        self.update()
        super().focusInEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Growth, axis with its years, marks of plugs and feedings, marker."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_growth(painter)
        self._paint_axis(painter)
        self._paint_marks(painter)
        self._paint_marker(painter)

    def _paint_growth(self, painter: QPainter) -> None:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(growth_colour(palette())))
        if not self._years.growth:
            return
        for year in range(self._years.start.year, self._years.end.year + 1):
            for month, share in enumerate(self._years.growth, 1):
                left = self._x(date(year, month, 1))
                wide = self._x(_months_on(date(year, month, 1), 1)) - left
                high = share * GROWTH_HEIGHT
                painter.drawRect(QRectF(left + 0.5, AXIS_Y - high, max(wide - 1, 0.5), high))

    def _paint_axis(self, painter: QPainter) -> None:
        p = palette()
        axis = colour(mix(p.rule, p.quiet, 0.6))
        painter.setPen(QPen(axis, 1))
        y = AXIS_Y + 0.5
        painter.drawLine(QPointF(SIDE, y), QPointF(self.width() - SIDE, y))
        painter.setFont(sans(CAPTION_POINTS))
        years = self._years.end.year - self._years.start.year + 1
        room_px = painter.fontMetrics().horizontalAdvance("2000") + LABEL_GAP_PX
        step = label_step((self.width() - 2 * SIDE) / years, room_px)
        for year in range(self._years.start.year, self._years.end.year + 1):
            x = round(self._x(date(year, 1, 1))) + 0.5
            painter.setPen(QPen(axis, 1))
            painter.drawLine(QPointF(x, y - 5), QPointF(x, y + 8))
            if year % step == 0 and x + room_px <= self.width():
                painter.setPen(colour(p.quiet))
                painter.drawText(QPointF(x + 5, self.height() - YEAR_RISE_PX), str(year))

    def _paint_marks(self, painter: QPainter) -> None:
        p = palette()
        painter.setPen(QPen(colour(p.paper), 1))
        painter.setBrush(colour(p.feed))
        for each in self._shown(self._years.feedings):
            painter.drawRect(QRectF(self._x(each) - 3.5, AXIS_Y + 4, 7, 7))
        painter.setBrush(colour(plug_colour(p)))
        for each in self._shown(self._years.plugs):
            painter.drawEllipse(QPointF(self._x(each), AXIS_Y + 7.5), 4.0, 4.0)

    def _shown(self, days: tuple[date, ...]) -> list[date]:
        """The days in view, without those that would lie on one another."""
        kept: list[date] = []
        for each in days:
            if self._years.start <= each <= self._years.end and (
                not kept or self._x(each) - self._x(kept[-1]) > 1.5
            ):
                kept.append(each)
        return kept

    def _paint_marker(self, painter: QPainter) -> None:
        p = palette()
        x = self._x(min(max(self._on, self._years.start), self._years.end))
        painter.setPen(QPen(colour(p.ink if self.hasFocus() else p.paper), 1.5))
        painter.setBrush(colour(p.accent))
        points = [(-5.5, 7.0), (0.0, 1.0), (5.5, 7.0), (5.5, 25.0), (-5.5, 25.0)]
        painter.drawPolygon(QPolygonF([QPointF(x + dx, dy + 5) for dx, dy in points]))

    def _x(self, day: date) -> float:
        span = (self._years.end - self._years.start).days
        return SIDE + (self.width() - 2 * SIDE) * (day - self._years.start).days / span

    def _day_at(self, x: float) -> date:
        span = (self._years.end - self._years.start).days
        share = (x - SIDE) / max(self.width() - 2 * SIDE, 1)
        return self._years.start + timedelta(days=round(min(max(share, 0.0), 1.0) * span))

    def _pass(self, on: date) -> None:
        on = min(max(on, self._years.start), self._years.end)
        if on != self._on:
            self._on = on
            self._under_way = True
            self.update()
            self.passed.emit(on)

    def _arrive(self) -> None:
        if self._under_way:
            self._under_way = False
            self.moved.emit(self._on)


def plug_colour(p: Palette) -> str:
    """The colour of a plug's mark on the strip."""
    return mix(p.thatch, p.ink, 0.15)


def growth_colour(p: Palette) -> str:
    """The colour of the growth that the weather allows."""
    return mix(p.paper, p.turf, 0.75)


def _months_on(day: date, months: int) -> date:
    """The same day some months on, or the month's last where it has no such day."""
    index = day.year * 12 + day.month - 1 + months
    year, month = divmod(index, 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))
