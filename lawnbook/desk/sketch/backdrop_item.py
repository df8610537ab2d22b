"""Backdrops on the sketch: pictures under everything, with the paper's grid faintly over them.

They take no press and no key: whoever traces works on the shapes above them.
"""

import math

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPen, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene, QStyleOptionGraphicsItem, QWidget

from lawnbook.charts.palette import Palette
from lawnbook.desk import theme
from lawnbook.desk.sketch.backdrop_levels import Levels, LevelShelf
from lawnbook.desk.sketch.grid import draw_grid, grid_steps
from lawnbook.desk.sketch.items import cosmetic, scene_point
from lawnbook.desk.sketch.water_view import Drawn
from lawnbook.yard.backdrops import corners_ft
from lawnbook.yard.records import Backdrop

LOWEST_Z, GRID_Z = -1000.0, -500.0
"""Backdrops from the lowest up, and the grid over them; both under every shape."""

PIXELS_SHOW = 3.0
"""Enlarged more than this a picture shows its pixels as they are: so fine is what it knows."""


class BackdropItem(QGraphicsItem):
    """One picture, drawn from the half that is nearest above what the zoom needs."""

    def __init__(self) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemUsesExtendedStyleOption)
        self._box = QRectF()
        self._levels: Levels | None = None
        self._edge = QPen()

    def show_backdrop(self, backdrop: Backdrop, palette: Palette) -> None:
        """Lay the picture where the record says."""
        wide, high = (each * backdrop.ft_per_px for each in (backdrop.width_px, backdrop.height_px))
        box = QRectF(-wide / 2, -high / 2, wide, high)
        if box != self._box:
            self.prepareGeometryChange()
            self._box = box
        self._edge = cosmetic(palette.quiet, 1.0, Qt.PenStyle.DashLine)
        self.setPos(scene_point(backdrop.middle_ft))
        self.setRotation(backdrop.turn_deg)
        self.setOpacity(1 - backdrop.fade)

    def show_levels(self, levels: Levels | None) -> None:
        """Take the picture that is to be drawn; None while it is on its way."""
        if levels is not self._levels:
            self._levels = levels
            self.update()

    @property
    def has_picture(self) -> bool:
        """Whether there is a picture to draw, and not only its frame."""
        return bool(self._levels)

    def boundingRect(self) -> QRectF:
        """The whole picture, in feet about its middle."""
        return self._box

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """The part that has to be drawn; a dashed frame where there is no picture."""
        if not self._levels:
            painter.setPen(self._edge)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(self._box)
            return
        seen = self._box.intersected(option.exposedRect)
        if seen.isEmpty():
            return
        per_px = math.sqrt(abs(painter.worldTransform().determinant()))
        shown = per_px * self._box.width() / self._levels[0].width()
        image = self._levels[_level(shown, len(self._levels))]
        smooth = shown < PIXELS_SHOW
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, on=smooth)
        across, down = image.width() / self._box.width(), image.height() / self._box.height()
        # Whole pixels and two more: else the edges of what is drawn anew would show.
        left = max(0, math.floor((seen.left() - self._box.left()) * across) - 2)
        top = max(0, math.floor((seen.top() - self._box.top()) * down) - 2)
        right = min(image.width(), math.ceil((seen.right() - self._box.left()) * across) + 2)
        bottom = min(image.height(), math.ceil((seen.bottom() - self._box.top()) * down) + 2)
        source = QRectF(left, top, right - left, bottom - top)
        target = QRectF(
            self._box.left() + left / across,
            self._box.top() + top / down,
            source.width() / across,
            source.height() / down,
        )
        painter.drawImage(target, image, source)


class GridOver(QGraphicsItem):
    """The paper's grid over the pictures, where they hide it."""

    def __init__(self) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemUsesExtendedStyleOption)
        self.setZValue(GRID_Z)
        self._ground = QPainterPath()
        self._palette = theme.palette()

    def show_over(self, ground: QPainterPath, palette: Palette) -> None:
        """Draw the grid over this ground."""
        if ground != self._ground:
            self.prepareGeometryChange()
            self._ground = ground
        self._palette = palette
        self.update()

    def boundingRect(self) -> QRectF:
        """The box round the pictures."""
        return self._ground.boundingRect()

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """Both sorts of lines, clipped to the pictures."""
        area = self.boundingRect().intersected(option.exposedRect)
        if area.isEmpty():
            return
        painter.save()
        painter.setClipPath(self._ground, Qt.ClipOperation.IntersectClip)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        fine, coarse = grid_steps(math.sqrt(abs(painter.worldTransform().determinant())))
        for step, strength in ((fine, 0.1), (coarse, 0.22)):
            pen = cosmetic(self._palette.quiet, 1.0)
            pen.setColor(theme.colour(self._palette.quiet, strength))
            draw_grid(painter, area, step, pen)
        painter.restore()


class BackdropLayer:
    """Keeps the backdrops up with what the scene draws, drafts too; hidden ones hold no memory."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._items: dict[str, BackdropItem] = {}
        self._shas: dict[str, str] = {}
        self._drawn: object = None
        self._grid: GridOver | None = None
        self.shelf = LevelShelf(scene)
        self.shelf.arrived.connect(self._arrived)

    def refresh(self, drawn: Drawn) -> None:
        """Draw the backdrops anew that are others."""
        found = drawn.all_of("backdrops", Backdrop)
        palette = theme.palette()
        shown = {key: each for key, each in found.items() if each.shown}
        state = (tuple(shown.values()), palette)
        if state == self._drawn:
            return
        self._drawn = state
        for key in [each for each in self._items if each not in shown]:
            self._scene.removeItem(self._items.pop(key))
        self._shas = {key: each.sha256 for key, each in shown.items()}
        self.shelf.want({each.sha256: each.data_b64 for each in shown.values()})
        for place, (key, backdrop) in enumerate(shown.items()):
            if key not in self._items:
                self._items[key] = BackdropItem()
                self._scene.addItem(self._items[key])
            item = self._items[key]
            item.setZValue(LOWEST_Z + place)
            item.show_backdrop(backdrop, palette)
            item.show_levels(self.shelf.levels(backdrop.sha256))
        self._show_grid(tuple(shown.values()), palette)

    def item(self, record_id: str) -> BackdropItem | None:
        """What draws a backdrop, None where it is not shown."""
        return self._items.get(record_id)

    def cannot_be_read(self, sha256: str) -> bool:
        """Whether a shown picture's bytes are lost, or no picture."""
        return self.shelf.levels(sha256) == ()

    def _arrived(self, sha256: str) -> None:
        for key, item in self._items.items():
            if self._shas[key] == sha256:
                item.show_levels(self.shelf.levels(sha256))

    def _show_grid(self, shown: tuple[Backdrop, ...], palette: Palette) -> None:
        if not shown:
            if self._grid is not None:
                self._scene.removeItem(self._grid)
                self._grid = None
            return
        if self._grid is None:
            self._grid = GridOver()
            self._scene.addItem(self._grid)
        ground = QPainterPath()
        ground.setFillRule(Qt.FillRule.WindingFill)
        for each in shown:
            ground.addPolygon(QPolygonF([scene_point(at) for at in corners_ft(each)]))
            ground.closeSubpath()
        self._grid.show_over(ground, palette)


def _level(shown: float, count: int) -> int:
    """Which half to draw from, so that it is drawn at a half of its size or larger."""
    if shown >= 1:
        return 0
    return min(count - 1, int(math.log2(1 / max(shown, 1e-9))))
