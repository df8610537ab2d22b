"""The names of zones and features over the drawing: where they stand, and clear of what."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QTransform
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene

from lawnbook.desk import theme
from lawnbook.desk.sketch.can_items import CAN_RADIUS_PX
from lawnbook.desk.sketch.choosing import name_of, number_of
from lawnbook.desk.sketch.items import (
    HandleItem,
    OutlineItem,
    PinItem,
    outline_path,
    scene_point,
)
from lawnbook.desk.sketch.labels import LabelItem, Line, feature_lines, place, zone_lines
from lawnbook.desk.sketch.lengths import LengthItem
from lawnbook.desk.sketch.outlines import rings_of
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import centroid_ft, label_point_ft, zone_area_sqft
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.records import Feature, Head, Record, Zone


@dataclass(frozen=True, slots=True)
class Named:
    """A zone or feature that is to have a label: itself, its figure in words, and its colour."""

    record: Zone | Feature
    figure: str
    ground: str


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What labels are placed among: the items and records as drawn, grips, cans, and the zoom."""

    notebook: Notebook
    items: Mapping[Key, QGraphicsItem]
    records: Mapping[Key, Record]
    grips: Sequence[QGraphicsItem]
    cans: Sequence[Point]
    zoom: QTransform


class LabelLayer:
    """The labels of a scene, one for each zone and feature that has room for one."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._labels: dict[Key, LabelItem] = {}

    def words(self, key: Key) -> str:
        """What a label says now; "" where it has no room."""
        label = self._labels.get(key)
        return label.words() if label is not None and label.isVisible() else ""

    def forget(self, key: Key) -> None:
        """Take the label of a record away."""
        label = self._labels.pop(key, None)
        if label is not None:
            self._scene.removeItem(label)

    def place(self, named: Mapping[Key, Named], among: Surroundings) -> None:
        """Place these labels; those of other records stay where they stand."""
        cans = [_about(among.zoom.map(scene_point(at)), CAN_RADIUS_PX) for at in among.cans]
        _name_pins(among, cans)
        obstacles = _obstacles(among)
        obstacles |= {("cans", str(index)): box for index, box in enumerate(cans)}
        for key, label in self._labels.items():
            if key not in named:
                obstacles[_label_of(key)] = _box_of(label, among.zoom)
        for key, each in named.items():
            self._place(key, each, among, obstacles)
            obstacles[_label_of(key)] = _box_of(self._labels[key], among.zoom)

    def _place(
        self, key: Key, named: Named, among: Surroundings, obstacles: Mapping[Key, QRectF]
    ) -> None:
        rings = rings_of(named.record)
        zoom = among.zoom
        middles = [zoom.map(scene_point(at)) for at in _middles(rings[0], rings[1:])]
        own = (key, _label_of(key))
        others = [rect for other, rect in obstacles.items() if other not in own]
        lengths = _lengths(among.notebook, named)
        placed = place(lengths, zoom.map(outline_path(*rings)), middles, others)
        label = self._labels.get(key)
        if label is None:
            label = self._labels[key] = LabelItem()
            self._scene.addItem(label)
        label.setVisible(placed is not None)
        if placed is not None:
            corner = zoom.inverted()[0].map(placed.box.topLeft())
            label.show_lines(placed.lines, corner, named.ground)


def _name_pins(among: Surroundings, cans: Sequence[QRectF]) -> None:
    """Give the pins their names, but for those that would run through a can's number."""
    for item in among.items.values():
        if isinstance(item, PinItem):
            name = item.name_rect().translated(among.zoom.map(item.pos()))
            item.show_name(shown=not any(name.intersects(can) for can in cans))


def _lengths(notebook: Notebook, named: Named) -> list[list[Line]]:
    palette, record = theme.palette(), named.record
    if isinstance(record, Feature):
        return feature_lines(name_of(notebook, "features", record.id), palette.quiet)
    title = f"{number_of(notebook, record.id)} {record.name}"
    area = f"{zone_area_sqft(record):,.0f} sq ft"
    return zone_lines(title, area, named.figure, palette.ink)


def _obstacles(among: Surroundings) -> dict[Key, QRectF]:
    """What labels keep clear of, in pixels: pins, heads, features, handles and lengths."""
    found: dict[Key, QRectF] = {}
    for key, item in among.items.items():
        record = among.records.get(key)
        if isinstance(item, PinItem) and item.isVisible():
            found[key] = item.boundingRect().translated(among.zoom.map(item.pos()))
        elif isinstance(record, Head):
            found[key] = _about(among.zoom.map(scene_point(record.at_ft)), 7)
        elif isinstance(record, Feature) and isinstance(item, OutlineItem):
            found[key] = among.zoom.mapRect(item.path().boundingRect())
    return found | _of_grips(among.grips, among.zoom)


def _of_grips(grips: Iterable[QGraphicsItem], zoom: QTransform) -> dict[Key, QRectF]:
    found: dict[Key, QRectF] = {}
    for index, grip in enumerate(grips):
        if isinstance(grip, HandleItem):
            found[("grips", str(index))] = _about(zoom.map(grip.pos()), 8)
        elif isinstance(grip, LengthItem):
            found[("grips", str(index))] = grip.turned_rect().translated(zoom.map(grip.pos()))
    return found


def _box_of(label: LabelItem, zoom: QTransform) -> QRectF:
    """Where a label stands, in pixels; nowhere where it has no room."""
    if not label.isVisible():
        return QRectF()
    return label.boundingRect().translated(zoom.map(label.pos()))


@lru_cache(maxsize=512)
def _middles(outline: Outline, holes: tuple[Outline, ...]) -> tuple[Point, Point]:
    """Where a label looks best: the centre of gravity, else the point farthest from the edges."""
    return (centroid_ft(outline), label_point_ft(outline, holes))


def _label_of(key: Key) -> Key:
    """The key of a record's label among the obstacles."""
    return (f"label of {key[0]}", key[1])


def _about(at: QPointF, reach: float) -> QRectF:
    return QRectF(at.x() - reach, at.y() - reach, 2 * reach, 2 * reach)
