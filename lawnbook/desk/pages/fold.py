"""A part of a page that folds away under its heading; the heading says in short what is inside."""

from collections.abc import Sequence

from PySide6.QtCore import QPoint, QPointF, QRectF, QSize, Qt, QTimer
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QFont,
    QFontMetricsF,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
    QResizeEvent,
)
from PySide6.QtWidgets import QPushButton, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from lawnbook.charts.tokens import HEADING_POINTS, QUICK_MS
from lawnbook.desk.motion import fade_in
from lawnbook.desk.theme import CAPTION_POINTS, palette, px, sans, scale
from lawnbook.desk.widgets import Words, mark_role, name_control
from lawnbook.reading import tr

MARK_PX = 22.0
MARGIN_PX = 8


class FoldHeading(QPushButton):
    """The heading: a mark that turns, the title, and the short summary at the right end."""

    def __init__(self, title: str, object_name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._title = title
        self._summary = ""
        self._unfolded = False
        name_control(self, object_name, title)
        self.setProperty("role", "row")
        self.setAutoDefault(False)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A ring marks the focus that came by keys; a click needs none."""
        clicked = event.reason() == Qt.FocusReason.MouseFocusReason
        mark_role(self, "row", "clicked" if clicked else "")
        super().focusInEvent(event)

    def say(self, summary: str, *, unfolded: bool) -> None:
        """Show the summary, and which way the mark points."""
        self._summary, self._unfolded = summary, unfolded
        state = tr("open") if unfolded else tr("folded away")
        self.setAccessibleDescription(f"{summary}; {state}" if summary else f"; {state}")
        self._tell_whole()
        self.update()

    def sizeHint(self) -> QSize:
        """One line of heading."""
        return QSize(200, px(36))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """What finds no room is told whole as the tooltip."""
        super().resizeEvent(event)
        self._tell_whole()

    def _tell_whole(self) -> None:
        """The summary as a tooltip where it is shown shortened."""
        self.setToolTip("" if self._shown() == self._summary else self._summary)

    def _rest(self) -> QRectF:
        """The room that the title leaves to the summary."""
        title = QFontMetricsF(sans(HEADING_POINTS, QFont.Weight.DemiBold))
        used = title.horizontalAdvance(self._title) + 18
        return self._room().adjusted(used, 0, 0, 0)

    def _room(self) -> QRectF:
        return QRectF(self.rect()).adjusted(px(MARK_PX) + 4, 0, -10, 0)

    def _shown(self) -> str:
        """As much of the summary as has room."""
        metrics = QFontMetricsF(sans(CAPTION_POINTS))
        return metrics.elidedText(self._summary, Qt.TextElideMode.ElideRight, self._rest().width())

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the button's ground, then mark, title and summary."""
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_mark(painter)
        colours = palette()
        painter.setFont(sans(HEADING_POINTS, QFont.Weight.DemiBold))
        painter.setPen(QColor(colours.ink))
        painter.drawText(self._room(), _LEFT, self._title)
        painter.setFont(sans(CAPTION_POINTS))
        painter.setPen(QColor(colours.quiet))
        painter.drawText(self._rest(), _RIGHT, self._shown())
        painter.end()

    def _paint_mark(self, painter: QPainter) -> None:
        middle = QPointF(px(MARK_PX) / 2 + 3, self.height() / 2)
        points = ((-2.5, -4.5), (2.5, 0.0), (-2.5, 4.5))
        if self._unfolded:
            points = ((-4.5, -2.5), (0.0, 2.5), (4.5, -2.5))
        pen = QPen(QColor(palette().accent), 1.8 * scale())
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        ends = [middle + QPointF(x, y) * scale() for x, y in points]
        painter.drawPolyline(QPolygonF(ends))


class Fold(QWidget):
    """A heading with `body`, a vertical layout, that opens below it."""

    def __init__(
        self, title: str, object_name: str, parent: QWidget | None = None, *, unfolded: bool = False
    ) -> None:
        super().__init__(parent)
        self._summary = ""
        self.heading = FoldHeading(title, f"{object_name}_fold", self)
        self._inside = QWidget(self)
        self._inside.setObjectName(object_name)
        self.body = QVBoxLayout(self._inside)
        self.body.setContentsMargins(8, 4, 0, 12)
        self.body.setSpacing(8)
        self._need = Words("", "", self._inside)
        self._need.setObjectName(f"{object_name}_need")
        self._need.hide()
        self.body.addWidget(self._need)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.heading)
        column.addWidget(self._inside)
        self.heading.clicked.connect(self._turn)
        self.unfold(unfolded)

    @property
    def is_unfolded(self) -> bool:
        """Whether the body shows."""
        return not self._inside.isHidden()

    def unfold(self, wanted: bool = True) -> None:
        """Open the part, or fold it away."""
        self._inside.setVisible(wanted)
        self.heading.say(self._summary, unfolded=wanted)

    def reveal(self) -> None:
        """Open the part and scroll the page until it is in sight, its heading at the least."""
        self.unfold()
        # The page has to grow first.
        QTimer.singleShot(0, self, self._scroll_to)

    def need(self, sentence: str) -> None:
        """Say on top of the part what is needed here first; empty where nothing is."""
        self._need.say(sentence)

    @property
    def is_needed(self) -> bool:
        """Whether something in here is needed first."""
        return bool(self._need.text())

    def _turn(self) -> None:
        if self.is_unfolded:
            self.unfold(False)
        else:
            self.reveal()
            fade_in(self._inside, QUICK_MS)

    def _scroll_to(self) -> None:
        page = self.parentWidget()
        while page is not None and not isinstance(page, QScrollArea):
            page = page.parentWidget()
        inside = page.widget() if isinstance(page, QScrollArea) else None
        if inside is None or not isinstance(page, QScrollArea):
            return
        top = self.mapTo(inside, QPoint(0, 0)).y()
        bar, height = page.verticalScrollBar(), page.viewport().height()
        at_least = top + self.height() + MARGIN_PX - height
        bar.setValue(min(max(bar.value(), at_least), top - MARGIN_PX))

    def say(self, summary: str) -> None:
        """Change the short summary in the heading."""
        self._summary = summary
        self.heading.say(summary, unfolded=self.is_unfolded)


class FoldOrder:
    """Where the folds of a page stand: those that are needed first open on top, the others below.

    `arrange` is for moments when the owner is not at work in one of them.
    """

    def __init__(self, folds: Sequence[Fold]) -> None:
        self.top, self.rest = QVBoxLayout(), QVBoxLayout()
        for layout in (self.top, self.rest):
            layout.setSpacing(10)
        self._folds = tuple(folds)
        self._raised: tuple[Fold, ...] = ()
        for fold in folds:
            self.rest.addWidget(fold)

    def arrange(self) -> None:
        """Put every fold where it belongs; one that was raised before folds away again."""
        raised = tuple(fold for fold in self._folds if fold.is_needed)
        if raised == self._raised:
            return
        for fold in self._raised:
            if fold not in raised:
                fold.unfold(False)
        for fold in self._folds:
            for layout in (self.top, self.rest):
                layout.removeWidget(fold)
            (self.top if fold in raised else self.rest).addWidget(fold)
        for fold in raised:
            fold.unfold()
        self._raised = raised


_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
