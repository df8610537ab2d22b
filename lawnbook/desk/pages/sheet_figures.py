"""Figures on the pages of a preview open their working: by a click, by F1, or chosen by keys."""

from collections.abc import Callable, Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QCursor, QFocusEvent, QImage, QKeyEvent, QMouseEvent, QPainter

from lawnbook.desk.figures import FigureHand
from lawnbook.desk.focus_ring import FocusRing
from lawnbook.desk.pages.page_light import PageLight
from lawnbook.desk.pages.sheet_preview import PagesPreview
from lawnbook.desk.widgets import bring_into_sight
from lawnbook.frozen import dataclass
from lawnbook.sheet.layout import paper_size_pt
from lawnbook.sheet.paper import Draw
from lawnbook.sheet.placed import Placed, listening

if TYPE_CHECKING:
    from lawnbook.plan.working_model import Working

AskOf = Callable[[str], "Sequence[Working]"]
"""The workings of a place on a page, by its key."""


_STEPS = {Qt.Key.Key_Right: 1, Qt.Key.Key_Left: -1}
_OPENING = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
_STAYS = (Qt.FocusReason.PopupFocusReason, Qt.FocusReason.ActiveWindowFocusReason)
"""The keyboard is away for a moment only: what was chosen stays so."""
MOST_BLANK = 8
"""So many pages without a figure are gone past in search of the next one."""


@dataclass(frozen=True, slots=True)
class Stop:
    """A figure that the keys come to: the page's number, its place in the row, and its box."""

    page: int
    index: int
    placed: Placed


class PageFigures(QObject):
    """Finds what is pointed at or chosen on a preview, and opens how it came about.

    Where figures stand is told by the page itself, drawn once more for that when first asked for.
    Left and Right choose, Enter and the space bar open, Escape lets go.
    """

    def __init__(self, preview: PagesPreview, ask_of: AskOf) -> None:
        super().__init__(preview)
        self._preview, self._ask_of = preview, ask_of
        self._pages: dict[Draw, tuple[Placed, ...]] = {}
        self._pressed = ""
        self._stop: Stop | None = None
        self._light = PageLight(preview)
        self._hand = FigureHand(preview, self.workings, by_click=False, place=self._chosen_place)
        FocusRing(preview)
        preview.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        preview.turned.connect(self.let_go)
        preview.setMouseTracking(True)
        preview.installEventFilter(self)

    def workings(self) -> "tuple[Working, ...]":
        """How what was chosen came about, or else what lies under the pointer."""
        if self._stop is not None:
            return tuple(self._ask_of(self._stop.placed.key))
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

    def let_go(self) -> None:
        """Choose nothing."""
        self._stop = None
        self._light.hide()
        self._preview.speak("")

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The pointing hand over a figure; a whole click on one opens it, and keys choose one."""
        kind = event.type()
        if kind == QEvent.Type.Leave:
            self._preview.unsetCursor()
        elif kind == QEvent.Type.Resize and self._stop is not None:
            self._light.lie_over(self._on_preview(self._stop))
        elif isinstance(event, QFocusEvent) and event.lostFocus() and event.reason() not in _STAYS:
            self.let_go()
        elif isinstance(event, QKeyEvent) and kind == QEvent.Type.KeyPress:
            return self._key(event)
        elif isinstance(event, QMouseEvent):
            return self._follow(event)
        return super().eventFilter(watched, event)

    def _key(self, event: QKeyEvent) -> bool:
        """Choose, open or let go; whether the key was one of these."""
        key = Qt.Key(event.key())
        if event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
            return False
        if key in _STEPS:
            self._choose(self._beside(_STEPS[key]))
            return True
        if self._stop is None or key not in (*_OPENING, Qt.Key.Key_Escape):
            return False
        if key == Qt.Key.Key_Escape:
            self.let_go()
            return True
        return self._hand.open()

    def _beside(self, step: int) -> Stop | None:
        """The stop before or after the one chosen; from none the first that can be seen."""
        if self._stop is not None:
            return self._from(self._stop.page, self._stop.index + step, step)
        seen = self._preview.visibleRegion().boundingRect()
        for page in range(len(self._preview.draws())):
            if not self._preview.page_box(page).intersects(QRectF(seen)):
                continue
            for stop in self._stops(page):
                if seen.contains(self._on_preview(stop).toRect()):
                    return stop
        return self._from(0, 0, 1)

    def _from(self, page: int, index: int, step: int) -> Stop | None:
        """The stop at a place of a page, or the nearest on the pages that way; None for none."""
        stops = self._stops(page)
        for _ in range(MOST_BLANK):
            if 0 <= index < len(stops):
                return stops[index]
            page += step
            if not 0 <= page < len(self._preview.draws()):
                break
            stops = self._stops(page)
            index = 0 if step > 0 else len(stops) - 1
        return None

    def _stops(self, page: int) -> tuple[Stop, ...]:
        """What the keys come to on a page: cells of a row that open the same are one."""
        if not 0 <= page < len(self._preview.draws()):
            return ()
        rows = groupby(self._placed(self._preview.draws()[page]), key=lambda each: each.key)
        return tuple(Stop(page, index, around(tuple(row))) for index, (_, row) in enumerate(rows))

    def _choose(self, stop: Stop | None) -> None:
        """Light a stop, say it, and bring it into sight; at either end all stays as it is."""
        if stop is None:
            return
        self._stop = stop
        self._light.lie_over(self._on_preview(stop))
        told = (f"{each.label}: {each.value}" for each in self._ask_of(stop.placed.key))
        self._preview.speak("; ".join(told))
        bring_into_sight(self._light)

    def _on_preview(self, stop: Stop) -> QRectF:
        """Where a stop stands on the preview, in its pixels."""
        box = self._preview.page_box(stop.page)
        scale, held = box.width() / paper_size_pt(self._preview.paper())[0], stop.placed
        left_top = box.topLeft() + QPointF(held.left, held.top) * scale
        return QRectF(left_top, box.topLeft() + QPointF(held.right, held.bottom) * scale)

    def _chosen_place(self) -> QPoint | None:
        """The foot of what was chosen, on the screen."""
        if self._stop is None:
            return None
        return self._preview.mapToGlobal(self._on_preview(self._stop).bottomLeft().toPoint())

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


def around(held: Sequence[Placed]) -> Placed:
    """One box round several of the same key."""
    return Placed(
        min(each.left for each in held),
        min(each.top for each in held),
        max(each.right for each in held),
        max(each.bottom for each in held),
        held[0].key,
    )


def placed_on(draw: Draw) -> tuple[Placed, ...]:
    """Where the figures of a page stand, in points: drawn on one pixel, for nobody to see."""
    image = QImage(1, 1, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    with listening() as told:
        draw(painter)
    painter.end()
    return tuple(told)
