"""Figures on the pages of a preview open their working, by a click or by F1 under the pointer."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QPointF, QRectF, Qt
from PySide6.QtGui import QCursor, QImage, QMouseEvent, QPainter

from lawnbook.desk.figures import FigureHand
from lawnbook.desk.pages.sheet_preview import PagesPreview
from lawnbook.sheet.layout import paper_size_pt
from lawnbook.sheet.paper import Draw
from lawnbook.sheet.placed import Placed, listening

if TYPE_CHECKING:
    from lawnbook.plan.working_model import Working

AskOf = Callable[[str], "Sequence[Working]"]
"""The workings of a place on a page, by its key."""


class PageFigures(QObject):
    """Finds what stands under the pointer on a preview, and opens how it came about.

    Where figures stand is told by the page itself, drawn once more for that when first pointed at.
    """

    def __init__(self, preview: PagesPreview, ask_of: AskOf) -> None:
        super().__init__(preview)
        self._preview, self._ask_of = preview, ask_of
        self._pages: dict[Draw, tuple[Placed, ...]] = {}
        self._pressed = ""
        self._hand = FigureHand(preview, self.workings, by_click=False)
        preview.setMouseTracking(True)
        preview.installEventFilter(self)

    def workings(self) -> "tuple[Working, ...]":
        """How what lies under the pointer came about."""
        at = self._preview.mapFromGlobal(QCursor.pos())
        key = self.key_at(QPointF(at)) if self._preview.rect().contains(at) else ""
        return tuple(self._ask_of(key)) if key else ()

    def key_at(self, at: QPointF) -> str:
        """The key of what stands at a place of the preview; empty for none."""
        for number, draw in enumerate(self._preview.draws()):
            box = self._preview.page_box(number)
            if box.contains(at):
                x, y = self._on_page(box, at)
                held = reversed(self._placed(draw))
                return next((each.key for each in held if each.holds(x, y)), "")
        return ""

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The pointing hand over a figure; a whole click on one opens it."""
        if event.type() == QEvent.Type.Leave:
            self._preview.unsetCursor()
        if isinstance(event, QMouseEvent):
            return self._follow(event)
        return super().eventFilter(watched, event)

    def _follow(self, event: QMouseEvent) -> bool:
        kind, key = event.type(), self.key_at(event.position())
        if kind == QEvent.Type.MouseMove:
            if key:
                self._preview.setCursor(Qt.CursorShape.PointingHandCursor)
            else:
                self._preview.unsetCursor()
        elif event.button() != Qt.MouseButton.LeftButton:
            return False
        elif kind == QEvent.Type.MouseButtonPress:
            self._pressed = key
            return bool(key)
        elif kind == QEvent.Type.MouseButtonRelease and key and key == self._pressed:
            self._open(key, event)
            return True
        return False

    def _open(self, key: str, event: QMouseEvent) -> None:
        workings = tuple(self._ask_of(key))
        if workings:
            from lawnbook.desk.workings import WorkingPanel

            WorkingPanel.open_below(self._preview, workings, event.globalPosition().toPoint())

    def _on_page(self, box: QRectF, at: QPointF) -> tuple[float, float]:
        """A place of the preview in points of the page that it lies on."""
        wide, high = paper_size_pt(self._preview.paper())
        return (
            (at.x() - box.left()) * wide / box.width(),
            (at.y() - box.top()) * high / box.height(),
        )

    def _placed(self, draw: Draw) -> tuple[Placed, ...]:
        """Where the figures of a page stand; of pages shown before nothing is kept."""
        if draw not in self._pages:
            shown = self._preview.draws()
            self._pages = {each: held for each, held in self._pages.items() if each in shown}
            self._pages[draw] = placed_on(draw)
        return self._pages[draw]


def placed_on(draw: Draw) -> tuple[Placed, ...]:
    """Where the figures of a page stand, in points: drawn on one pixel, for nobody to see."""
    image = QImage(1, 1, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    with listening() as told:
        draw(painter)
    painter.end()
    return tuple(told)
