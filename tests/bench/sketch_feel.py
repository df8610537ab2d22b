"""How the sketch feels among 200 zones of 50 corners, beside a bare scene of the same shapes.

    python -m tests.bench.sketch_feel

Prints six numbers: seconds of a frame of panning and of that of the bare scene, of a frame of
zooming and of that of the bare scene, of one step of dragging a corner, and of painting the bare
scene whole. Medians, taken in turn in one process, at 1,600 by 1,000 pixels, offscreen.

A frame is all from the event to the painted viewport: the middle button's move (pan), the wheel
(zoom), or the left button's move through the tool in hand with snapping, live words and labels
(drag), until Qt has nothing left to paint. The bare scene is a QGraphicsScene in a QGraphicsView
with the same polygons, arcs, dots, words, pins and picture as Qt's own items, moved by its own
scroll bars and transform; it has no grid, no handles and no words that keep out of each other's
way. The long rest after zooming, in which labels are placed anew, is not a part of a frame.
"""

import math
import os
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QBuffer, QEvent, QIODevice, QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QImage,
    QImageWriter,
    QMouseEvent,
    QPainter,
    QPainterPath,
    QPen,
    QPixmap,
    QPolygonF,
    QTransform,
    QWheelEvent,
)
from PySide6.QtWidgets import (
    QApplication,
    QGraphicsEllipseItem,
    QGraphicsItem,
    QGraphicsPathItem,
    QGraphicsPixmapItem,
    QGraphicsPolygonItem,
    QGraphicsScene,
    QGraphicsSimpleTextItem,
    QGraphicsView,
)

from lawnbook.desk.sketch.backdrop_item import BackdropItem
from lawnbook.desk.sketch.items import scene_point
from lawnbook.desk.sketch.panel import SketchPanel
from lawnbook.desk.theme import apply_theme, sans
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.backdrops import corners_ft, new_backdrop
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import bounds_ft, yard_bounds_ft, zone_area_sqft
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.records import Head, Spot, Zone

DAY = date(2026, 6, 15)
SIZE_PX = (1600, 1000)
ACROSS, ZONES, CORNERS, HEADS, PINS = 20, 200, 50, 500, 100
APART_FT = 30.0
PICTURE_PX = (4000, 3000)
FADE = 0.4
RUNS, FRAMES, WARM = 6, 24, 4
FIXED = QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations
MIDDLE, LEFT = Qt.MouseButton.MiddleButton, Qt.MouseButton.LeftButton


def round_zone(number: int) -> Outline:
    """A bed of grass with fifty corners, none like the next."""
    x, y = number % ACROSS * APART_FT, number // ACROSS * APART_FT
    return tuple(
        (
            round(x + (12 + 2 * math.sin(3 * a + number)) * math.cos(a), 2),
            round(y + (11 + 2 * math.cos(2 * a + number)) * math.sin(a), 2),
        )
        for a in (2 * math.pi * k / CORNERS for k in range(CORNERS))
    )


def wide_yard(count: int = ZONES) -> Notebook:
    """200 zones of 50 corners, 500 heads and 100 spots, or as many for another count of zones."""
    zones = [
        Zone(id=f"z{i}", name=f"Lawn {i}", outline_ft=round_zone(i), flow_gpm=12.0)
        for i in range(count)
    ]
    heads = [
        Head(
            id=f"h{i}",
            zone=f"z{i % count}",
            at_ft=_on_rim(i % count, i),
            radius_ft=12.0,
            start_deg=float(i * 37 % 360),
            sweep_deg=(90.0, 180.0, 360.0)[i % 3],
        )
        for i in range(HEADS * count // ZONES)
    ]
    pins = range(PINS * count // ZONES)
    spots = [Spot(id=f"s{i}", name=f"spot {i}", zone=f"z{2 * i}", at_ft=_in(2 * i)) for i in pins]
    notebook = new_notebook("Wide")
    for table, rows in (("zones", zones), ("heads", heads), ("spots", spots)):
        notebook = apply(notebook, put(notebook, table, *rows))
    return notebook


def _on_rim(zone: int, number: int) -> Point:
    return round_zone(zone)[number * 17 % CORNERS]


def _in(number: int) -> Point:
    return (number % ACROSS * APART_FT + 5.0, number // ACROSS * APART_FT - 6.0)


def aerial() -> QImage:
    """Twelve megapixels that look like ground from above: patches in patches."""
    image = QImage(*PICTURE_PX, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    for number in range(6000):
        x, y = number * 7919 % PICTURE_PX[0], number * 104729 % PICTURE_PX[1]
        shade = QColor(60 + number % 120, 90 + number * 3 % 110, 50 + number * 7 % 90)
        painter.fillRect(x, y, 30 + number % 90, 30 + number * 5 % 90, shade)
    painter.end()
    return image


def with_picture(notebook: Notebook, image: QImage) -> Notebook:
    """The yard with the picture under it, half faded as pictures are at first."""
    kept = QBuffer()
    kept.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(kept, b"jpeg").write(image)
    data = bytes(kept.data().data())
    made = replace(new_backdrop(notebook, "Aerial", data, PICTURE_PX), fade=FADE)
    return apply(notebook, put(notebook, "backdrops", made))


class Bare:
    """The bare scene and its view."""

    def __init__(self, notebook: Notebook, image: QImage, ground: QRectF) -> None:
        self.scene = QGraphicsScene()
        self.scene.setSceneRect(ground)
        (laid,) = notebook.backdrops.values()
        west, _, _, north = bounds_ft([corners_ft(laid)])
        picture = self._add(QGraphicsPixmapItem(QPixmap.fromImage(image)), QPointF(west, -north))
        picture.setScale(laid.ft_per_px)
        picture.setOpacity(1 - FADE)
        for zone in notebook.zones.values():
            self._add_zone(zone)
        for head in notebook.heads.values():
            self._add_head(head)
        for spot in notebook.spots.values():
            self._add_pin(spot)
        self.view = QGraphicsView(self.scene)
        self.view.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.view.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.view.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.view.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.view.resize(*SIZE_PX)
        self.view.show()

    def pan(self, step: int) -> None:
        """Move the paper a few pixels, to and fro."""
        for bar in (self.view.horizontalScrollBar(), self.view.verticalScrollBar()):
            bar.setValue(bar.value() + (7 if step % 8 < 4 else -7))

    def zoom(self, step: int) -> None:
        """Zoom a little, in and out."""
        factor = 1.08 if step % 8 < 4 else 1 / 1.08
        self.view.setTransform(self.view.transform() * QTransform.fromScale(factor, factor))

    def repaint(self, step: int) -> None:
        """Paint all of it anew."""
        del step
        self.view.viewport().update()

    def _add(self, item: QGraphicsItem, at: QPointF) -> QGraphicsItem:
        self.scene.addItem(item)
        item.setPos(at)
        return item

    def _add_zone(self, zone: Zone) -> None:
        shape = QGraphicsPolygonItem(QPolygonF([scene_point(at) for at in zone.outline_ft]))
        shape.setPen(_pen("#333333", 1.2))
        shape.setBrush(QColor("#c8d8a8"))
        self.scene.addItem(shape)
        place = (
            sum(x for x, _ in zone.outline_ft) / CORNERS,
            sum(y for _, y in zone.outline_ft) / CORNERS,
        )
        words = QGraphicsSimpleTextItem(f"{zone.name}\n{zone_area_sqft(zone):,.0f} sq ft")
        words.setFont(sans(9.0))
        words.setFlag(FIXED)
        self._add(words, scene_point(place))

    def _add_head(self, head: Head) -> None:
        centre, reach = scene_point(head.at_ft), head.radius_ft
        box = QRectF(centre.x() - reach, centre.y() - reach, 2 * reach, 2 * reach)
        path = QPainterPath()
        path.arcMoveTo(box, 90 - head.start_deg)
        path.arcTo(box, 90 - head.start_deg, -head.sweep_deg)
        arc = QGraphicsPathItem(path)
        arc.setPen(_pen("#3a6ea5", 0.9))
        self.scene.addItem(arc)
        dot = QGraphicsEllipseItem(-4.2, -4.2, 8.4, 8.4)
        dot.setPen(QPen(QColor("#ffffff"), 1.5))
        dot.setBrush(QColor("#3a6ea5"))
        dot.setFlag(FIXED)
        self._add(dot, centre)

    def _add_pin(self, spot: Spot) -> None:
        path = QPainterPath(QPointF(0, 0))
        path.cubicTo(-3, -6, -13, -12, -13, -21)
        path.arcTo(QRectF(-13, -34, 26, 26), 180, -180)
        path.cubicTo(13, -12, 3, -6, 0, 0)
        pin = QGraphicsPathItem(path)
        pin.setBrush(QColor("#222222"))
        pin.setFlag(FIXED)
        name = QGraphicsSimpleTextItem(spot.name, pin)
        name.setPos(15, -30)
        self._add(pin, scene_point(spot.at_ft or (0.0, 0.0)))


def _pen(colour: str, width: float) -> QPen:
    pen = QPen(QColor(colour), width)
    pen.setCosmetic(True)
    return pen


class Drawn:
    """The sketch of the window: its panel on a book."""

    def __init__(self, notebook: Notebook, folder: Path) -> None:
        self.book = OpenNotebook.create(folder / "wide.lawnbook", notebook, DAY)
        self.panel = SketchPanel(self.book)
        view = self.panel.view
        self.panel.resize(SIZE_PX[0], SIZE_PX[1] + 200)
        self.panel.show()
        self.panel.resize(
            self.panel.width() + SIZE_PX[0] - view.width(),
            self.panel.height() + SIZE_PX[1] - view.height(),
        )
        settle()
        while not self._has_picture():
            QApplication.processEvents()
        view.fit(yard_bounds_ft(notebook))
        self._at = QPointF(800.0, 500.0)

    def pan(self, step: int) -> None:
        """The middle button held, moved by a few pixels."""
        way = 7.0 if step % 8 < 4 else -7.0
        self._at += QPointF(-way, -way)
        self._mouse(QEvent.Type.MouseMove, self._at, Qt.MouseButton.NoButton, MIDDLE)

    def begin_pan(self) -> None:
        """Press the middle button."""
        self._mouse(QEvent.Type.MouseButtonPress, self._at, MIDDLE, MIDDLE)

    def end_pan(self) -> None:
        """Let the middle button go."""
        self._mouse(QEvent.Type.MouseButtonRelease, self._at, MIDDLE, Qt.MouseButton.NoButton)

    def zoom(self, step: int) -> None:
        """One notch of a fine wheel."""
        turn, at = 51 if step % 8 < 4 else -51, QPointF(800.0, 500.0)
        send = QWheelEvent(
            at,
            QPointF(self._view.mapToGlobal(at.toPoint())),
            QPoint(),
            QPoint(0, turn),
            Qt.MouseButton.NoButton,
            Qt.KeyboardModifier.NoModifier,
            Qt.ScrollPhase.NoScrollPhase,
            False,
        )
        QApplication.sendEvent(self._view.viewport(), send)

    def begin_drag(self) -> None:
        """Choose a zone in the middle and press on one of its corners."""
        zones = self.book.notebook.zones
        chosen = f"z{min(111, len(zones) - 9)}"
        self.panel.select("zones", chosen)
        settle()
        self._corner = self._px(zones[chosen].outline_ft[7])
        self._mouse(QEvent.Type.MouseButtonPress, self._corner, LEFT, LEFT)

    def drag(self, step: int) -> None:
        """Move the corner on by a few pixels."""
        at = self._corner + QPointF(6 + 3 * (step % 7), 5 + 2 * (step % 5))
        self._mouse(QEvent.Type.MouseMove, at, Qt.MouseButton.NoButton, LEFT)

    def end_drag(self) -> None:
        """Give the drag up."""
        self.panel.tool("Pick")

    def _has_picture(self) -> bool:
        items = self.panel.scene.items()
        return any(isinstance(each, BackdropItem) and each.has_picture for each in items)

    @property
    def _view(self) -> QGraphicsView:
        return self.panel.view

    def _px(self, at: Point) -> QPointF:
        return QPointF(self._view.mapFromScene(scene_point(at)))

    def _mouse(
        self, kind: QEvent.Type, at: QPointF, button: Qt.MouseButton, held: Qt.MouseButton
    ) -> None:
        over = self._view.viewport()
        event = QMouseEvent(
            kind, at, over.mapToGlobal(at), button, held, Qt.KeyboardModifier.NoModifier
        )
        QApplication.sendEvent(over, event)


def settle() -> None:
    """Let Qt do and paint everything that waits."""
    for _ in range(3):
        QApplication.processEvents()


def frame(work: Callable[[int], None], step: int) -> float:
    """Seconds from an event until nothing is left to paint."""
    start = time.perf_counter()
    work(step)
    QApplication.processEvents()
    return time.perf_counter() - start


def in_turn(*works: Callable[[int], None]) -> list[float]:
    """The medians of several kinds of frame, measured in turn, a run of frames of each at a time.

    A hand that pans or drags does so frame after frame; the first ones of a run do not count.
    """
    times: list[list[float]] = [[] for _ in works]
    for run in range(RUNS):
        steps = range(run * FRAMES, (run + 1) * FRAMES)
        for kept, work in zip(times, works, strict=True):
            kept.extend([frame(work, step) for step in steps][WARM:])
    return [statistics.median(each) for each in times]


@contextmanager
def stage(count: int = ZONES) -> Iterator[tuple[Drawn, Bare]]:
    """The sketch and the bare scene, showing the same part of a yard of so many zones."""
    app = QApplication.instance() or QApplication([])
    if not isinstance(app, QApplication):
        raise TypeError("A Qt application without widgets is already running.")
    apply_theme(app, "light")
    image = aerial()
    notebook = with_picture(wide_yard(count), image)
    with tempfile.TemporaryDirectory() as folder:
        drawn = Drawn(notebook, Path(folder))
        bare = Bare(notebook, image, drawn.panel.scene.sceneRect())
        view = drawn.panel.view
        bare.view.setTransform(view.transform())
        settle()
        middle = view.mapToScene(view.viewport().rect().center())
        bare.view.centerOn(middle)
        settle()
        yield drawn, bare
        drawn.panel.close()
        drawn.book.close()


def measured() -> Sequence[float]:
    """The six numbers."""
    with stage() as (drawn, bare):
        drawn.begin_pan()
        pan, bare_pan = in_turn(drawn.pan, bare.pan)
        drawn.end_pan()
        zoom, bare_zoom = in_turn(drawn.zoom, bare.zoom)
        time.sleep(0.3)
        settle()
        drawn.begin_drag()
        drag, whole = in_turn(drawn.drag, bare.repaint)
        drawn.end_drag()
    return pan, bare_pan, zoom, bare_zoom, drag, whole


def main() -> None:
    """Print them."""
    sys.stdout.write(" ".join(f"{each:.6f}" for each in measured()) + "\n")


if __name__ == "__main__":
    main()
