"""The pointer over a chart: what it is on is lit, told in a tooltip, picked by click or by keys.

It lies over the canvas and takes the mouse in its place; the wheel goes on to the page. Places are
shares of the widget, so they are right whatever the screen's pixels.
"""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QToolTip, QWidget

from lawnbook.desk.theme import colour, palette

if TYPE_CHECKING:
    from lawnbook.charts.marks import Frame
    from lawnbook.charts.profile_hits import Hit

_TINT, _EDGE = 0.10, 0.45
_RING_PX = 1.6
_BELOW_POINTER_PX = 18

_STEPS = {
    Qt.Key.Key_Right: 1,
    Qt.Key.Key_Down: 1,
    Qt.Key.Key_Left: -1,
    Qt.Key.Key_Up: -1,
}


class ChartPointer(QWidget):
    """Lies over a chart's canvas. `frame` tells the chart's size in points, `hits` its boxes.

    `picked` tells the key of what was clicked or chosen with Enter, `told` the words of what is
    lit, empty for none.
    """

    picked = Signal(str)
    told = Signal(str)

    def __init__(
        self,
        frame: "Callable[[], Frame]",
        hits: "Callable[[Frame], Sequence[Hit]]",
        parent: QWidget,
    ) -> None:
        super().__init__(parent)
        self._frame = frame
        self._hits = hits
        self._lit: Hit | None = None
        self._part = ""
        self._marked = ""
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def lit(self) -> "Hit | None":
        """What is lit now."""
        return self._lit

    def hits(self) -> "Sequence[Hit]":
        """The boxes that answer to the pointer, as the drawing stands."""
        return self._hits(self._frame())

    def place_of(self, x: float, y: float) -> QPoint:
        """Where a point of the drawing lies here."""
        frame = self._frame()
        return QPoint(
            round(x * self.width() / frame.width), round(y * self.height() / frame.height)
        )

    def lit_key(self) -> str:
        """The key of what is lit, and after a # the name of the part that is pointed at."""
        if self._lit is None:
            return ""
        return f"{self._lit.key}#{self._part}" if self._part else self._lit.key

    def lit_place(self) -> QPoint | None:
        """The foot of what is lit, on the screen; None where nothing is."""
        if self._lit is None:
            return None
        box = self._box(self._lit)
        return self.mapToGlobal(QPoint(round(box.center().x()), round(box.bottom())))

    def show_hits(self, hits: "Callable[[Frame], Sequence[Hit]]") -> None:
        """Point at the boxes of another drawing; what was lit goes out."""
        self._hits = hits
        self._light(None)

    def mark(self, record_id: str) -> None:
        """Ring what stands for a record that is open elsewhere; "" rings nothing."""
        if record_id != self._marked:
            self._marked = record_id
            self.update()

    def marked(self) -> "tuple[Hit, ...]":
        """What is ringed."""
        if not self._marked:
            return ()
        return tuple(each for each in self._hits(self._frame()) if self._marked in each.key.split())

    def key(self, event: QKeyEvent) -> bool:
        """Walk with the arrows, Home and End; Enter picks, Escape puts out. Whether it was one."""
        key = Qt.Key(event.key())
        if event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
            return False
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space) and self._lit:
            self.picked.emit(self._lit.key)
            return True
        if key == Qt.Key.Key_Escape and self._lit:
            self.put_out()
            return True
        hits = self._hits(self._frame())
        if not hits or key not in (*_STEPS, Qt.Key.Key_Home, Qt.Key.Key_End):
            return False
        self._part = ""
        self._walk_to(hits, key)
        return True

    def put_out(self) -> None:
        """Light nothing."""
        QToolTip.hideText()
        self._light(None)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Light what the pointer is on, and say it."""
        hit = self._at(event.position())
        height = event.position().y() * self._frame().height / max(1, self.height())
        self._part = "" if hit is None else hit.part_at(height)
        if hit is None:
            self.put_out()
        elif hit != self._lit:
            self._light(hit)
            self._say(hit, event.position().toPoint() + QPoint(0, _BELOW_POINTER_PX))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A press with the left button picks; any other is the page's."""
        hit = self._at(event.position())
        if event.button() != Qt.MouseButton.LeftButton or hit is None:
            event.ignore()
            return
        QToolTip.hideText()
        self.picked.emit(hit.key)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """The end of a click is taken as its beginning was; it is not the page's."""
        event.accept()

    def leaveEvent(self, event: QEvent) -> None:
        """Away from the chart nothing is lit."""
        super().leaveEvent(event)
        self.put_out()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """A light tint over what is lit, a ring round what is open."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(colour(palette().accent), _RING_PX))
        for hit in self.marked():
            painter.drawRoundedRect(self._box(hit).adjusted(1, 1, -1, -1), 4, 4)
        if self._lit is None:
            painter.end()
            return
        painter.setPen(colour(palette().accent, _EDGE))
        painter.setBrush(colour(palette().accent, _TINT))
        painter.drawRoundedRect(self._box(self._lit).adjusted(0.5, 0.5, -0.5, -0.5), 4, 4)
        painter.end()

    def _walk_to(self, hits: "Sequence[Hit]", key: Qt.Key) -> None:
        """From none the arrows begin at the latest or the first; at the ends they stay."""
        last = len(hits) - 1
        place = hits.index(self._lit) if self._lit in hits else None
        if key == Qt.Key.Key_Home:
            place = 0
        elif key == Qt.Key.Key_End:
            place = last
        elif place is None:
            place = 0 if _STEPS[key] > 0 else last
        else:
            place = min(max(place + _STEPS[key], 0), last)
        hit = hits[place]
        self._light(hit)
        box = self._box(hit)
        self._say(hit, QPoint(round(box.center().x()), round(box.top()) + 2 * _BELOW_POINTER_PX))

    def _at(self, at: QPointF) -> "Hit | None":
        frame = self._frame()
        x = at.x() * frame.width / max(1, self.width())
        y = at.y() * frame.height / max(1, self.height())
        return next((hit for hit in self._hits(frame) if hit.holds(x, y)), None)

    def _box(self, hit: "Hit") -> QRectF:
        frame = self._frame()
        across, down = self.width() / frame.width, self.height() / frame.height
        top_left = QPointF(hit.left * across, hit.top * down)
        return QRectF(top_left, QPointF(hit.right * across, hit.bottom * down))

    def _light(self, hit: "Hit | None") -> None:
        if hit == self._lit:
            return
        self._lit = hit
        cursor = Qt.CursorShape.ArrowCursor if hit is None else Qt.CursorShape.PointingHandCursor
        self.setCursor(cursor)
        self.update()
        self.told.emit("" if hit is None else hit.words)

    def _say(self, hit: "Hit", at: QPoint) -> None:
        QToolTip.showText(self.mapToGlobal(at), hit.words, self, self._box(hit).toRect())
