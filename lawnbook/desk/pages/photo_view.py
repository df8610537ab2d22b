"""The picture that is read: its marks are drawn, dragged and nudged, what is under them enlarged.

The picture is shown whole, and enlarged by the wheel once it has the keyboard. What is changed is
told when a drag or a nudge ends, so that each is one edit.
"""

import math

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from lawnbook.desk.pages import photo_marks, photo_words
from lawnbook.desk.pages.photo_drawing import paint_marks
from lawnbook.desk.pages.photo_frame import PhotoFrame
from lawnbook.desk.pages.photo_handles import (
    FINGER_PX,
    STEP_COLOURS,
    Handle,
    Loupe,
    arrow_of,
)
from lawnbook.desk.pages.photo_marks import LINES, Step, step_of
from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import mix, palette
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.record_plug import PhotoRuler

LEAST_LINE_PX = 10.0
"""A press that moves no further than this is a first end; the next press is the second."""
ZOOM_STEP = 1.25
PAN_PX = 40
LEAST_ENLARGED = 3.0
"""Pixels of the magnifier to a pixel of the picture, at least."""


class PhotoView(QWidget):
    """Shows a picture with its ruler. `marked` tells the new ruler (or None) and what was done."""

    marked = Signal(object, str)
    said = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        hear_as(self, "Canvas")
        name_control(self, "photo_view", tr("Photo of the plug"), photo_words.keys_told())
        self._pixmap = QPixmap()
        self._fitted = QPixmap()
        self._frame = PhotoFrame((1, 1), (1, 1))
        self._ruler: PhotoRuler | None = None
        self._kept: PhotoRuler | None = None
        self._step: Step = "Scale"
        self._handles: dict[str, Handle] = {}
        self._loupe = Loupe(self)
        self._dragged = ""
        self._grip = QPointF()
        self._first: Point | None = None
        self._pressed_again = False
        self._reach: Point | None = None
        self._panned: QPointF | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumSize(240, 260)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def sizeHint(self) -> QSize:
        """Room to see something in."""
        return QSize(560, 300)

    def size_px(self) -> tuple[int, int]:
        """The picture's width and height in pixels; 1 by 1 without a picture."""
        return self._frame.size_px

    def has_picture(self) -> bool:
        """Whether there is a picture."""
        return not self._pixmap.isNull()

    def show_image(self, image: QImage) -> None:
        """Show another picture, whole; a null image empties the view."""
        self._pixmap = QPixmap.fromImage(image)
        size = (max(image.width(), 1), max(image.height(), 1))
        self._frame = PhotoFrame(size, (max(self.width(), 1), max(self.height(), 1)))
        self._fitted = QPixmap()
        self._let_go()
        self.show_ruler(None)

    def show_ruler(self, ruler: PhotoRuler | None) -> None:
        """Show these marks; what was being dragged is dropped."""
        self._kept = self._ruler = ruler
        self._let_go()
        self._place_handles()

    def set_step(self, step: Step) -> None:
        """What a press on the picture marks."""
        self._step = step
        self._let_go()
        open_here = self.has_picture() and photo_marks.is_open(self._ruler, step)
        self.setCursor(Qt.CursorShape.CrossCursor if open_here else Qt.CursorShape.ArrowCursor)

    def place_mark(self) -> None:
        """Put the step's mark down where it is usual, for a hand that uses keys."""
        if self.has_picture() and photo_marks.is_open(self._ruler, self._step):
            self._place(photo_marks.usual_line(self._ruler, self._step))

    def remove_mark(self, key: str) -> None:
        """Take a point away, with the line that it ends; a scale stays, it can only be moved."""
        if self._ruler is not None and step_of(key) != "Scale":
            words = photo_marks.spoken(key).lower().partition(",")[0]
            self._tell(
                photo_marks.without(self._ruler, key), tr("{words} off the photo", words=words)
            )

    def view_of(self, share: Point) -> QPointF:
        """Where a share of the picture stands in this widget."""
        return self._frame.to_view(share)

    def zoom(self) -> float:
        """How many times larger than whole the picture is shown."""
        return self._frame.zoom

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the nearest mark, put one down, or move the picture."""
        at = event.position()
        if event.button() not in (Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton):
            return
        if event.button() == Qt.MouseButton.MiddleButton or not self.has_picture():
            self._panned = at
            return
        key = self._nearest(at) if self._first is None else ""
        if key:
            self._grip = self.view_of(photo_marks.points_of(self._ruler)[key]) - at
            self._take_hold(key)
        elif photo_marks.is_open(self._ruler, self._step) and self._frame.box().contains(at):
            self._press_new(self._frame.to_share(at))
        else:
            self._panned = at

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag what is held, with the magnifier on it."""
        at = event.position()
        if self._dragged:
            self._drag_to(self._frame.to_share(at + self._grip))
        elif self._first is not None:
            self._reach = photo_marks.on_picture(self._frame.to_share(at))
            self._enlarge(self._reach, self._reach_words())
            self.update()
        elif self._panned is not None:
            self._frame = self._frame.moved(at.x() - self._panned.x(), at.y() - self._panned.y())
            self._panned = at
            self._place_handles()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """A drag ends and is told; a line is told once it has two ends."""
        self._panned = None
        if self._dragged:
            self._end_drag()
        elif self._first is not None and self._reach is not None:
            apart = self.view_of(self._reach) - self.view_of(self._first)
            if math.hypot(apart.x(), apart.y()) >= LEAST_LINE_PX:
                self._place((self._first, self._reach))
            else:
                again = self._pressed_again
                self.said.emit(photo_words.SAME_END if again else photo_words.OTHER_END)
        super().mouseReleaseEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom about the pointer once the picture has the keyboard; else the page scrolls."""
        inside = self.focusWidget() is not None and (
            self.hasFocus() or any(each.hasFocus() for each in self._handles.values())
        )
        turned = event.angleDelta().y()
        if not turned or not (inside or event.modifiers() & Qt.KeyboardModifier.ControlModifier):
            event.ignore()
            return
        self.zoom_by(ZOOM_STEP ** (turned / 120), event.position())
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Plus and minus zoom, 0 shows all, arrows move the picture, Enter marks."""
        key, way = event.key(), arrow_of(event)
        if key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self.zoom_by(ZOOM_STEP)
        elif key == Qt.Key.Key_Minus:
            self.zoom_by(1 / ZOOM_STEP)
        elif key == Qt.Key.Key_0:
            self.show_whole()
        elif way is not None:
            self._frame = self._frame.moved(-way[0] * PAN_PX, -way[1] * PAN_PX)
            self._place_handles()
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.place_mark()
        elif key == Qt.Key.Key_Escape and (self._dragged or self._first is not None):
            self.show_ruler(self._kept)
        else:
            event.ignore()

    def zoom_by(self, factor: float, about: QPointF | None = None) -> None:
        """Enlarge about a place of this widget, its middle where none is given."""
        middle = about if about is not None else QPointF(self.width() / 2, self.height() / 2)
        self._frame = self._frame.zoomed(factor, middle)
        self._place_handles()

    def show_whole(self) -> None:
        """Show the whole picture again."""
        self._frame = PhotoFrame(self._frame.size_px, self._frame.room_px)
        self._place_handles()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the picture anew."""
        super().resizeEvent(event)
        self._frame = self._frame.in_room((self.width(), self.height()))
        self._fitted = QPixmap()
        self._place_handles()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The picture on a quiet ground, and the marks over it."""
        p = palette()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), QColor(mix(p.desk, p.ink, 0.12)))
        if self.has_picture():
            self._paint_picture(painter)
            drafted = (
                None if self._first is None or self._reach is None else (self._first, self._reach)
            )
            paint_marks(painter, self._frame, self._ruler, (self._step, drafted))
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(p.accent), 2))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))
        painter.end()

    def _paint_picture(self, painter: QPainter) -> None:
        box = self._frame.box()
        if self._frame.per_px * self.devicePixelRatioF() < 1 and self._frame.zoom == 1:
            # Made smaller once and well: a photograph drawn at a third is full of specks.
            if self._fitted.isNull():
                self._fitted = self._pixmap.scaled(
                    (box.size() * self.devicePixelRatioF()).toSize(),
                    Qt.AspectRatioMode.IgnoreAspectRatio,
                    Qt.TransformationMode.SmoothTransformation,
                )
            painter.drawPixmap(box, self._fitted, QRectF(self._fitted.rect()))
            return
        smooth = self._frame.per_px < LEAST_ENLARGED
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, smooth)
        painter.drawPixmap(box, self._pixmap, QRectF(self._pixmap.rect()))

    def _nearest(self, at: QPointF) -> str:
        """The mark under a fingertip: of the step that is shown where two are as near."""
        found, least = "", FINGER_PX / 2
        for key, share in photo_marks.points_of(self._ruler).items():
            apart = self.view_of(share) - at
            far = math.hypot(apart.x(), apart.y()) + (0 if step_of(key) == self._step else 6)
            if far <= least:
                found, least = key, far
        return found

    def _take_hold(self, key: str) -> None:
        self._dragged = key
        handle = self._handles.get(key)
        if handle is not None:
            handle.setFocus(Qt.FocusReason.MouseFocusReason)
        share = photo_marks.points_of(self._ruler)[key]
        self._enlarge(share, photo_words.live_words(self._held(), key, self.size_px()))

    def _press_new(self, share: Point) -> None:
        """A line begins or gets its second end; a single point is put down and held at once."""
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        if self._step in LINES:
            self._pressed_again = self._first is not None
            self._first = self._first or share
            self._reach = share
            self._enlarge(share, self._reach_words())
            self.update()
            return
        self._ruler = photo_marks.placed(self._ruler, self._step, (share, share))
        self._grip = QPointF()
        self._place_handles()
        ends = self._ruler.thatch_ends
        self._take_hold(f"thatch_{len(ends) - 1}" if self._step == "Thatch ends" else "roots")

    def _drag_to(self, share: Point) -> None:
        self._ruler = photo_marks.moved(self._held(), self._dragged, share)
        self._place_handles()
        at = photo_marks.points_of(self._ruler)[self._dragged]
        self._enlarge(at, photo_words.live_words(self._ruler, self._dragged, self.size_px()))

    def _end_drag(self) -> None:
        key, self._dragged = self._dragged, ""
        self._loupe.hide()
        if self._ruler != self._kept:
            self._tell(
                self._ruler, tr("{spoken} on the photo", spoken=photo_marks.spoken(key).lower())
            )

    def _place(self, line: tuple[Point, Point]) -> None:
        ruler = photo_marks.placed(self._ruler, self._step, line)
        self._tell(ruler, tr("{step} on the photo", step=tr(self._step).lower()))

    def _tell(self, ruler: PhotoRuler | None, label: str) -> None:
        self._let_go()
        self._ruler = ruler
        self._place_handles()
        self.marked.emit(ruler, label)

    def _nudge(self, key: str, dx: int, dy: int) -> None:
        x, y = photo_marks.points_of(self._ruler)[key]
        wide, high = self.size_px()
        self._dragged = key
        self._frame = self._frame.showing((x + dx / wide, y + dy / high), FINGER_PX)
        self._drag_to((x + dx / wide, y + dy / high))

    def _focused(self, key: str, by_keys: bool) -> None:
        """A mark that keys led to is brought into sight and enlarged."""
        share = photo_marks.points_of(self._ruler).get(key)
        if share is None:
            if not self._dragged and self._first is None:
                self._loupe.hide()
        elif by_keys:
            self._frame = self._frame.showing(share, FINGER_PX)
            self._place_handles()
            self._enlarge(share, photo_words.live_words(self._held(), key, self.size_px()), key)

    def _held(self) -> PhotoRuler:
        if self._ruler is None:
            raise RuntimeError("a mark is held without a ruler")
        return self._ruler

    def _reach_words(self) -> str:
        if self._step == "Scale" and self._first is not None and self._reach is not None:
            (ax, ay), (bx, by) = self._first, self._reach
            wide, high = self.size_px()
            return f"{math.hypot((bx - ax) * wide, (by - ay) * high):.0f} px"
        return tr(self._step).lower()

    def _enlarge(self, share: Point, words: str, key: str = "") -> None:
        at_px = QPointF(share[0] * self.size_px()[0], share[1] * self.size_px()[1])
        step = step_of(key or self._dragged) if key or self._dragged else self._step
        self._loupe.say(words, STEP_COLOURS[step])
        enlarged = max(LEAST_ENLARGED, 2 * self._frame.per_px)
        self._loupe.show_at(self.view_of(share), self._pixmap, at_px, enlarged)

    def _let_go(self) -> None:
        self._dragged = ""
        self._first = self._reach = self._panned = None
        self._loupe.hide()
        self.update()

    def _place_handles(self) -> None:
        """One handle for each mark, at its place, in the order of the steps."""
        points = photo_marks.points_of(self._ruler) if self.has_picture() else {}
        for key in [each for each in self._handles if each not in points]:
            gone = self._handles.pop(key)
            gone.hide()
            gone.deleteLater()
        before: QWidget = self
        for key, share in points.items():
            handle = self._handles.get(key) or self._new_handle(key)
            words = photo_words.live_words(self._held(), key, self.size_px())
            handle.stand_at(self.view_of(share), words)
            QWidget.setTabOrder(before, handle)
            before = handle
        self._loupe.raise_()
        self.update()

    def _new_handle(self, key: str) -> Handle:
        handle = Handle(key, self)
        handle.nudged.connect(self._nudge)
        handle.let_go.connect(lambda _key: self._end_drag())
        handle.removed.connect(self.remove_mark)
        handle.focused.connect(self._focused)
        handle.show()
        self._handles[key] = handle
        return handle
