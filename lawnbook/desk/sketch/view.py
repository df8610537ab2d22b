"""The view: paper with a grid, moved with wheel, fingers and keys; the pointer goes to the tool."""

import math
from typing import Protocol

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QNativeGestureEvent,
    QPainter,
    QResizeEvent,
    QShowEvent,
    QTransform,
    QWheelEvent,
)
from PySide6.QtWidgets import QGraphicsView, QWidget

from lawnbook.desk import theme
from lawnbook.desk.roles import hear_as
from lawnbook.desk.sketch.grid import draw_grid, grid_steps
from lawnbook.desk.sketch.items import cosmetic, yard_point
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import Bounds

ZOOM_LIMITS = (0.4, 240.0)
"""Fewest and most pixels for a foot."""

MARGINS_PX = (46, 40, 46, 78)
"""What `fit` leaves free: left, top, right, and more below, for the scale bar and legend."""

SMALLEST_FIT_FT = 12.0


@dataclass(frozen=True, slots=True)
class Pointer:
    """Where the pointer is: in the yard, in the view, with how many feet a pixel is."""

    at_ft: Point
    at_px: QPointF
    ft_per_px: float
    shift: bool = False
    alt: bool = False
    ctrl: bool = False
    held: bool = False


class PointerTool(Protocol):
    """What the view needs of a tool."""

    def press(self, pointer: Pointer) -> bool:
        """The left button went down; False where there is only paper to take hold of."""

    def move(self, pointer: Pointer) -> None:
        """The pointer moved."""

    def release(self, pointer: Pointer) -> None:
        """The left button came up."""

    def double(self, pointer: Pointer) -> None:
        """A second press right after a click."""

    def key(self, event: QKeyEvent) -> bool:
        """A key went down; whether it was used."""

    def key_up(self, event: QKeyEvent) -> None:
        """A key came up."""

    def leave(self) -> None:
        """The pointer or the focus left the sketch."""


class SketchView(QGraphicsView):
    """The paper. The wheel zooms to the pointer; two fingers, middle drag, Space drag move it."""

    zoomed = Signal()
    key_unused = Signal(QKeyEvent)
    resized = Signal()
    scrolled = Signal()
    """The paper was moved, and with it all that lies in the viewport."""
    tabbed = Signal(bool)
    menu_wanted = Signal(object)
    """The menu is asked for: at a `Pointer`, or by the keyboard at None."""

    def __init__(
        self, scene: SketchScene, tool: PointerTool, parent: QWidget | None = None
    ) -> None:
        super().__init__(scene, parent)
        # Of ours: asked for its own, Qt's binding would load every kind of widget there is.
        paper = QWidget(self)
        # The keyboard is in there, so that is what is heard.
        hear_as(paper, "Canvas")
        self.setViewport(paper)
        self.sketch = scene
        self.tool = tool
        self._grabbed: QPointF | None = None
        self._panning = False
        self._space = False
        self._fits = True
        self.last_px = QPointF()
        self._stayed = False
        self._shape = Qt.CursorShape.ArrowCursor
        self.setProperty("role", "sketch")
        hear_as(self, "Canvas")
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.MinimalViewportUpdate)
        self.setOptimizationFlag(QGraphicsView.OptimizationFlag.DontSavePainterState)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setResizeAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.viewport().setMouseTracking(True)
        # The paper covers it all, so that moving it paints only what comes into view.
        self.viewport().setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMouseTracking(True)

    @property
    def px_per_ft(self) -> float:
        """Pixels in a foot at the present zoom."""
        return self.transform().m11()

    def fit(self, bounds_ft: Bounds) -> None:
        """Show this part of the yard whole, and keep doing so until it is moved or zoomed."""
        self._fits = True
        west, south, east, north = bounds_ft
        left, top, right, bottom = MARGINS_PX
        width = max(self.viewport().width() - left - right, 40)
        height = max(self.viewport().height() - top - bottom, 40)
        across, up = max(east - west, SMALLEST_FIT_FT), max(north - south, SMALLEST_FIT_FT)
        scale = _within_limits(min(width / across, height / up))
        self._set_zoom(scale, passing=True)
        middle = QPointF((west + east) / 2, -(south + north) / 2)
        # The margins differ, so the yard's middle does not go to the view's.
        self.centerOn(middle + QPointF(right - left, bottom - top) / 2 / scale)
        self.sketch.settle_labels_seen()
        self.zoomed.emit()

    @property
    def fits(self) -> bool:
        """Whether the whole yard has been in view since the last `fit`."""
        return self._fits

    def reveal(self, bounds_ft: Bounds) -> None:
        """Bring a part of the yard into view, if none of it is."""
        west, south, east, north = bounds_ft
        area = QRectF(west, -north, max(east - west, 0.1), max(north - south, 0.1))
        if not self.mapToScene(self.viewport().rect()).boundingRect().intersects(area):
            self._fits = False
            self.centerOn(area.center())

    def zoom_by(self, factor: float, about: QPointF | None = None) -> None:
        """Zoom, keeping what is under a point of the view there; the middle by default."""
        self._fits = False
        anchor = about if about is not None else QRectF(self.viewport().rect()).center()
        before = self.mapToScene(anchor.toPoint())
        self._set_zoom(_within_limits(self.px_per_ft * factor), passing=True)
        after = self.mapToScene(anchor.toPoint())
        self._pan((after - before) * self.px_per_ft)
        self.zoomed.emit()

    def pointer(self, at_px: QPointF, modifiers: Qt.KeyboardModifier, *, held: bool) -> Pointer:
        """A pointer at a place of the view, to a fraction of a pixel."""
        self.last_px = at_px
        at = self.viewportTransform().inverted()[0].map(at_px)
        return Pointer(
            yard_point(at),
            at_px,
            1 / self.px_per_ft,
            shift=bool(modifiers & Qt.KeyboardModifier.ShiftModifier),
            alt=bool(modifiers & Qt.KeyboardModifier.AltModifier),
            ctrl=bool(modifiers & Qt.KeyboardModifier.ControlModifier),
            held=held,
        )

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the paper, or hand the press to the tool."""
        middle = event.button() is Qt.MouseButton.MiddleButton
        if middle or (self._space and event.button() is Qt.MouseButton.LeftButton):
            self._grabbed = event.position()
            self.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)
        elif event.button() is Qt.MouseButton.LeftButton:
            took = self.tool.press(self._from(event, held=True))
            self._grabbed = None if took else event.position()
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Move the paper, or tell the tool."""
        if self._grabbed is not None:
            self._fits = False
            self.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)
            self._pan(event.position() - self._grabbed)
            self._grabbed = event.position()
        else:
            held = bool(event.buttons() & Qt.MouseButton.LeftButton)
            self.tool.move(self._from(event, held=held))
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go of the paper, or hand the release to the tool."""
        if self._grabbed is not None:
            self._grabbed = None
            self.show_cursor()
        elif event.button() is Qt.MouseButton.LeftButton:
            self.tool.release(self._from(event, held=False))
        event.accept()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Hand the double click to the tool."""
        if event.button() is Qt.MouseButton.LeftButton and not self._space:
            self.tool.double(self._from(event, held=True))
        event.accept()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """A right click asks for the menu at its place, the keyboard at what is chosen."""
        by_mouse = event.reason() is QContextMenuEvent.Reason.Mouse
        at = QPointF(event.pos())
        self.menu_wanted.emit(self.pointer(at, event.modifiers(), held=False) if by_mouse else None)
        event.accept()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """A wheel zooms to the pointer; two fingers on a pad move the paper, or zoom with Ctrl."""
        ctrl = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        fingers = event.phase() is not Qt.ScrollPhase.NoScrollPhase
        if fingers and not ctrl and not event.pixelDelta().isNull():
            self._fits = False
            self._pan(QPointF(event.pixelDelta()))
        elif event.angleDelta().y():
            self.zoom_by(math.pow(1.0015, event.angleDelta().y()), event.position())
        event.accept()

    def viewportEvent(self, event: QEvent) -> bool:
        """A pinch zooms about its middle; a pointer that leaves is told to the tool."""
        if isinstance(event, QNativeGestureEvent):
            if event.gestureType() is Qt.NativeGestureType.ZoomNativeGesture:
                self.zoom_by(1 + event.value(), event.position())
            return True
        if event.type() == QEvent.Type.Leave:
            self.tool.leave()
        return super().viewportEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keys go to the tool first; Space then takes hold of the paper, others are the panel's."""
        if self.tool.key(event):
            return
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = True
            self.viewport().setCursor(Qt.CursorShape.OpenHandCursor)
        else:
            event.ignore()
            self.key_unused.emit(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """Let go of the paper, or tell the tool."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = False
            self.show_cursor()
        else:
            self.tool.key_up(event)

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Tab goes from shape to shape first; the panel says when it leaves the sketch."""
        self._stayed = False
        self.tabbed.emit(forward)
        return True if self._stayed else super().focusNextPrevChild(forward)

    def stay(self) -> None:
        """Answer to `tabbed`: another shape was chosen, the focus stays."""
        self._stayed = True

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Without the focus there is no held key."""
        self._space = False
        self.tool.leave()
        super().focusOutEvent(event)

    def showEvent(self, event: QShowEvent) -> None:
        """The first look shows the whole yard."""
        super().showEvent(event)
        self.resized.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The furniture over the paper moves with its edges."""
        super().resizeEvent(event)
        self.resized.emit()

    def scrollContentsBy(self, dx: int, dy: int) -> None:
        """Move the paper, with what lies in the viewport; `scrolled` then tells of it."""
        super().scrollContentsBy(dx, dy)
        self.sketch.show_moved()
        if self.isVisible() and not self._panning:
            self.scrolled.emit()

    def show_cursor(self, shape: Qt.CursorShape | None = None) -> None:
        """Show a cursor, or the tool's own."""
        if shape is not None:
            self._shape = shape
        self.viewport().setCursor(self._shape)

    def drawBackground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        """Paper, and a grid whose lines are never closer than fourteen pixels."""
        palette = theme.palette()
        area = QRectF(rect)
        painter.fillRect(area, theme.colour(theme.mix(palette.paper, palette.card, 0.6)))
        fine, coarse = grid_steps(self.px_per_ft)
        quiet = 0.4 if palette.is_high else 1.0
        line = theme.mix(palette.paper, palette.rule, 0.38 * quiet)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        draw_grid(painter, area, fine, cosmetic(line, 1.0))
        strong = theme.mix(palette.paper, palette.rule, 0.72 * quiet)
        draw_grid(painter, area, coarse, cosmetic(strong, 1.0))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)

    def _from(self, event: QMouseEvent, *, held: bool) -> Pointer:
        return self.pointer(event.position(), event.modifiers(), held=held)

    def _set_zoom(self, px_per_ft: float, *, passing: bool = False) -> None:
        self.setTransform(QTransform.fromScale(px_per_ft, px_per_ft))
        self.sketch.show_zoom(self.transform(), passing=passing)

    def _pan(self, by_px: QPointF) -> None:
        # Told once: between two moves nothing may wait to be painted, or all of it would be.
        self._panning = True
        for bar, step in (
            (self.horizontalScrollBar(), by_px.x()),
            (self.verticalScrollBar(), by_px.y()),
        ):
            bar.setValue(bar.value() - round(step))
        self._panning = False
        self.scrolled.emit()


def _within_limits(px_per_ft: float) -> float:
    return min(max(px_per_ft, ZOOM_LIMITS[0]), ZOOM_LIMITS[1])
