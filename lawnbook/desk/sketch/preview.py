"""What an operation would make of the drawing, shown before it is kept: a wash and dashed lines."""

from collections.abc import Sequence

from PySide6.QtWidgets import QGraphicsItemGroup, QGraphicsPathItem

from lawnbook.charts.palette import Palette
from lawnbook.desk.sketch.items import cosmetic, outline_path
from lawnbook.desk.theme import colour
from lawnbook.yard.fields import Outline

ABOVE_SHAPES = 68
"""Over every shape and label, below what is being drawn."""


class PreviewItem(QGraphicsItemGroup):
    """Shapes with a wash of the accent, and open lines, both dashed."""

    def __init__(self) -> None:
        super().__init__()
        self.setZValue(ABOVE_SHAPES)
        self._shapes, self._lines = QGraphicsPathItem(self), QGraphicsPathItem(self)

    def show_shapes(
        self, rings: Sequence[Outline], lines: Sequence[Outline], palette: Palette, *, wrong: bool
    ) -> None:
        """Show these shapes and lines in place of the ones before."""
        edge = palette.bad if wrong else palette.accent
        self._shapes.setPath(outline_path(*rings))
        self._shapes.setBrush(colour(edge, 0.16))
        self._lines.setPath(outline_path(*lines, closed=False))
        for item in (self._shapes, self._lines):
            pen = cosmetic(edge, 1.8)
            pen.setDashPattern([4.0, 3.0])
            item.setPen(pen)
