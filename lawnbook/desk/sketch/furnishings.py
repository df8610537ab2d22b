"""Where scale bar, north arrow, legend and words stand over the paper, and when they are seen."""

from PySide6.QtCore import QMargins, QPointF
from PySide6.QtWidgets import QGraphicsView

from lawnbook.desk.sketch.empty_page import EmptyPage
from lawnbook.desk.sketch.furniture import (
    Bubble,
    Furniture,
    LeftOut,
    LegendBox,
    NorthArrow,
    ScaleBar,
)
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.desk.sketch.tinting import Legend
from lawnbook.desk.sketch.view import SketchView
from lawnbook.yard.notebook import Notebook

NEAR_LEGEND = QMargins(40, 40, 40, 40)
"""How near a drawing hand comes to the legend, in pixels, before it makes way."""


class Furnishings:
    """All that lies over the paper of one sketch and does not move with it."""

    def __init__(self, view: QGraphicsView) -> None:
        # In the viewport, not over it: what lies over it would have all painted anew as it moves.
        self._paper = paper = view.viewport()
        self.scale, self.north = ScaleBar(paper), NorthArrow(paper)
        self.legend, self.bubble = LegendBox(paper), Bubble(paper)
        self.empty = EmptyPage(paper)
        self._is_empty = self._previewing = self._has_legend = False
        self._picking = True
        self.left_out = LeftOut(paper)
        scene = view.scene()
        self._scene = scene if isinstance(scene, SketchScene) else None
        if isinstance(scene, SketchScene):
            scene.previewed.connect(self.make_way)
            scene.left_out.connect(self._show_left_out)
        if isinstance(view, SketchView):
            view.scrolled.connect(self.place)

    @property
    def printed(self) -> tuple[Furniture, ...]:
        """What goes to a printer with the paper, where it is seen."""
        every: tuple[Furniture, ...] = (self.scale, self.north, self.legend)
        return tuple(each for each in every if each.isVisibleTo(self._paper))

    @property
    def says_empty(self) -> bool:
        """Whether the words of an empty page are shown."""
        return self.empty.isVisibleTo(self._paper)

    def show_book(self, notebook: Notebook, legend: Legend | None, *, picking: bool) -> None:
        """Show what belongs to a notebook: its north, a legend, and words where it is empty."""
        self.north.show_north(notebook.yard.north_deg)
        self._picking = picking
        self._has_legend = legend is not None and bool(notebook.zones)
        self.legend.show_legend(legend if notebook.zones else None)
        pictures = any(each.shown for each in notebook.backdrops.values())
        drawn = bool(notebook.zones or notebook.features or pictures)
        self._is_empty = not drawn and picking
        self.empty.setVisible(self._is_empty and not self._previewing)
        self.place()

    def make_way(self, previewing: bool) -> None:
        """Take the words of an empty page away while something is shown that is not kept yet."""
        self._previewing = previewing
        self.empty.setVisible(self._is_empty and not previewing)

    def place(self) -> None:
        """Move everything to its place on the paper's edges."""
        width, height = self._paper.width(), self._paper.height()
        self.scale.move(14, height - self.scale.height() - 12)
        self.left_out.move(8, height - self.scale.height() - self.left_out.height() - 14)
        self.north.move(width - self.north.width() - 8, 8)
        self.legend.move(width - self.legend.width() - 8, height - self.legend.height() - 8)
        if self._scene is not None:
            self._scene.show_covered(each.geometry() for each in self.printed)
        if not self.says_empty:
            return
        self.empty.adjustSize()
        self.empty.move((width - self.empty.width()) // 2, (height - self.empty.height()) // 2)

    def _show_left_out(self, count: int) -> None:
        if self.left_out.show_count(count):
            self.place()

    def say(self, words: str, at: QPointF) -> None:
        """Say words beside the pointer; none says nothing.

        What is being drawn is not hidden by the legend: it goes while the hand is near.
        """
        self.bubble.show_words(words, at)
        near = self.legend.geometry().marginsAdded(NEAR_LEGEND).contains(at.toPoint())
        in_the_way = bool(words) and near and not self._picking
        self.legend.setVisible(self._has_legend and not in_the_way)
