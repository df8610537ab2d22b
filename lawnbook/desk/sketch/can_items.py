"""Cans on the sketch: those in the making, and those of each zone's latest catch test."""

import math
from collections.abc import Callable, Iterable, Sequence
from datetime import date
from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPen
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene, QStyleOptionGraphicsItem, QWidget

from lawnbook.charts.palette import Palette
from lawnbook.desk.sketch.items import IGNORES_ZOOM, scene_point
from lawnbook.desk.sketch.rate_scale import rate_colours
from lawnbook.desk.sketch.staling import newest_test
from lawnbook.desk.theme import CAPTION_POINTS, mix, sans, scale
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.amounts import bare, told
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import CatchTest, Head, Record

_RADIUS_PX = 8.5
LESS, MORE = 0.75, 4 / 3
"""Of the map's rate: a can that caught less, or more, is coloured (common practice)."""

TEST_Z, COLOURED_Z, DRAFT_Z = 40.0, 66.0, 70.0
"""Cans of tests lie below the pins, but above them where they are coloured: then all count."""


@dataclass(frozen=True, slots=True)
class Can:
    """One can as it is drawn; the rates in in/h, None where there is none."""

    number: int
    at_ft: Point
    caught_in_per_h: float | None = None
    map_in_per_h: float | None = None

    @property
    def ratio(self) -> float | None:
        """Caught over the map's rate; None where one of them is missing."""
        if self.caught_in_per_h is None or not self.map_in_per_h:
            return None
        return self.caught_in_per_h / self.map_in_per_h

    def words(self) -> str:
        """What the bubble says: "can 4: 0.31 in/h caught, map 0.52"."""
        said = tr("can {number}", number=self.number)
        if self.caught_in_per_h is not None:
            said += tr(
                ": {caught_in_per_h} caught", caught_in_per_h=told(self.caught_in_per_h, 2, "in/h")
            )
        if self.map_in_per_h is not None:
            said += tr(", map {bare}", bare=bare(self.map_in_per_h, 2, "in/h"))
        return said


def latest_cans(
    notebook: Notebook, zone_id: str, on: date | None, shown: Callable[[str, str], Record | None]
) -> tuple[Can, ...]:
    """The cans of a zone's latest test with places, up to a day; none where there is no such.

    `shown` gives a record as it is drawn, so that cans move with a zone that is dragged.
    """
    test = newest_test(notebook, zone_id, on, placed=True)
    drawn = shown("catch_tests", test.id) if test is not None else None
    return cans_of(notebook, drawn) if isinstance(drawn, CatchTest) else ()


def cans_of(notebook: Notebook, test: CatchTest) -> tuple[Can, ...]:
    """The cans of a test that has places, with what each caught and what the map gives there."""
    return _cans(test, tuple(h for h in notebook.heads.values() if h.zone == test.zone))


@lru_cache(maxsize=64)
def _cans(test: CatchTest, heads: tuple[Head, ...]) -> tuple[Can, ...]:
    # Imported here: cans with figures are in arrays, which the first paint does without.
    from lawnbook.agronomy.coverage import rate_at
    from lawnbook.plan.coverage import sprinklers_of

    caught, sprinklers = caught_rates(test), sprinklers_of(heads)
    mapped = rate_at(sprinklers, test.at_ft).tolist() if sprinklers else ()
    return tuple(
        Can(
            number,
            at,
            caught[number - 1] if number <= len(caught) else None,
            mapped[number - 1] if mapped else None,
        )
        for number, at in enumerate(test.at_ft, 1)
    )


def caught_rates(test: CatchTest) -> tuple[float, ...]:
    """What each can caught, as a rate in in/h; empty where it cannot be told."""
    from lawnbook.agronomy.precipitation import catch_can_rate_in_per_h, depth_rate_in_per_h

    if test.can_mouth_sqin is not None and test.volumes_ml:
        mouth = test.can_mouth_sqin
        return tuple(
            catch_can_rate_in_per_h([volume], test.run_minutes, mouth) for volume in test.volumes_ml
        )
    return tuple(depth_rate_in_per_h([depth], test.run_minutes) for depth in test.depths_in)


def can_radius_px() -> float:
    """How large a can is drawn: round the number in it."""
    return _RADIUS_PX * scale()


class CanItem(QGraphicsItem):
    """A small numbered disc that keeps its size."""

    def __init__(self, can: Can, fill: str, rim: str, ink: str) -> None:
        super().__init__()
        self.setFlag(IGNORES_ZOOM)
        self.setPos(scene_point(can.at_ft))
        self._number = str(can.number)
        self._fill, self._rim, self._ink = QColor(fill), QColor(rim), QColor(ink)

    def boundingRect(self) -> QRectF:
        """The disc and its rim."""
        reach = can_radius_px() + 1.5
        return QRectF(-reach, -reach, 2 * reach, 2 * reach)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """Disc, rim and number."""
        painter.setPen(QPen(self._rim, 1.5))
        painter.setBrush(self._fill)
        painter.drawEllipse(QPointF(0, 0), can_radius_px(), can_radius_px())
        painter.setFont(sans(CAPTION_POINTS, QFont.Weight.DemiBold))
        painter.setPen(self._ink)
        box = QRectF(-12 * scale(), -can_radius_px(), 24 * scale(), 2 * can_radius_px())
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, self._number)


class CanLayer:
    """All cans on the sketch; drawn anew when one of them changes."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._items: list[CanItem] = []
        self._drawn: tuple[object, ...] = ()
        self._tested: tuple[Can, ...] = ()

    @property
    def tested(self) -> tuple[Can, ...]:
        """The cans of tests that are shown."""
        return self._tested

    def show(
        self,
        tested: Iterable[Can],
        placed: Sequence[Point],
        picked: int | None,
        palette: Palette,
        *,
        coloured: bool,
    ) -> None:
        """Draw cans of tests, quiet or coloured by their ratio, and those in the making."""
        self._tested = tuple(tested)
        drawn = (self._tested, tuple(placed), picked, palette, coloured, scale())
        if drawn == self._drawn:
            return
        self._drawn = drawn
        for item in self._items:
            self._scene.removeItem(item)
        self._items = [_tested_item(can, palette, coloured=coloured) for can in self._tested]
        for index, at in enumerate(placed):
            self._items.append(_draft_item(index, at, palette, picked=index == picked))
        for item in self._items:
            self._scene.addItem(item)

    def under(self, at: Point, ft_per_px: float) -> Can | None:
        """The can of a test under a point."""
        reach = can_radius_px() * ft_per_px
        near = [can for can in self._tested if math.dist(can.at_ft, at) <= reach]
        return min(near, key=lambda can: math.dist(can.at_ft, at), default=None)


def _tested_item(can: Can, palette: Palette, *, coloured: bool) -> CanItem:
    fill, ink = palette.card, palette.ink
    colours = rate_colours(palette)
    if coloured and can.ratio is not None and can.ratio < LESS:
        fill, ink = colours.dry, colours.on_dry
    elif coloured and can.ratio is not None and can.ratio > MORE:
        fill, ink = colours.wet, colours.on_wet
    item = CanItem(can, fill, mix(palette.ink, palette.card, 0.25), ink)
    item.setZValue(COLOURED_Z if coloured else TEST_Z)
    return item


def _draft_item(index: int, at: Point, palette: Palette, *, picked: bool) -> CanItem:
    fill, ink = (palette.accent, palette.on_accent) if picked else (palette.card, palette.ink)
    item = CanItem(Can(index + 1, at), fill, palette.accent, ink)
    item.setZValue(DRAFT_Z + (1 if picked else 0))
    return item
