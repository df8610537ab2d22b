"""The names of zones and features over the drawing, and those of pins: no two ever overlap.

A name stands inside its shape, else beside it by a leader, else the number alone stands inside;
what finds no place is left out, counted, and told where the pointer lies. While the sketch is
zoomed, labels keep their places and those that would overlap are hidden; at rest all are placed
anew.
"""

from collections.abc import Iterable, Mapping, Sequence

import numpy as np
from PySide6.QtCore import QRect
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene

from lawnbook.desk import theme
from lawnbook.desk.sketch.can_items import can_radius_px
from lawnbook.desk.sketch.choosing import name_of
from lawnbook.desk.sketch.label_places import (
    Box,
    Flags,
    Rows,
    Seen,
    Taken,
    grown,
    meets,
    no_rows,
    rows_of,
)
from lawnbook.desk.sketch.labels import (
    NUMBERS,
    RIM_PX,
    LabelItem,
    Line,
    Placed,
    Shape,
    feature_lines,
    kept,
    place,
    place_beside,
    zone_lines,
)
from lawnbook.desk.sketch.landmarks import Landmarks
from lawnbook.desk.sketch.lengths import LengthItem
from lawnbook.desk.sketch.outlines import rings_of
from lawnbook.frozen import dataclass
from lawnbook.reading import is_metric
from lawnbook.yard.amounts import told
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import contains, zone_area_sqft
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.records import Feature, Record, Zone

_HANDLE_PX = 8.0
SEEN_PX = 6.0
"""Between a label beside its shape and the edge of the view."""


@dataclass(frozen=True, slots=True)
class Named:
    """A zone or feature that is to have a label: itself, its figure in words, and its colour."""

    record: Zone | Feature
    figure: str
    ground: str


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What labels are placed among besides what was noted: handles, lengths, cans, what is seen."""

    notebook: Notebook
    handles: Sequence[Point]
    lengths: Sequence[LengthItem]
    cans: Sequence[Point]
    seen: Seen
    px_per_ft: float


@dataclass(frozen=True, slots=True)
class _Asked:
    """A label that is sought: its lengths, and its shape as it is drawn."""

    named: Named
    lengths: list[list[Line]]
    shape: Shape

    @property
    def full(self) -> list[list[Line]]:
        """The lengths that bear a name."""
        return self.lengths[:-NUMBERS] if len(self.lengths) > NUMBERS else self.lengths


class LabelLayer:
    """The labels of a scene, one for each zone and feature, where there is a place for it."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._labels: dict[Key, LabelItem] = {}
        self._placed: dict[Key, int] = {}
        self._others: tuple[object, Rows, Rows] = (None, no_rows(), no_rows())
        self._untold: dict[Key, Record] = {}
        self._missing: set[Key] = set()
        self._marks = Landmarks()
        self._cans: Rows = no_rows()
        self.hangs_on_view = False
        """Whether a label was sought beside its shape, where what is seen counts."""
        self._stands: tuple[object, bool] = (None, False)

    def note(self, key: Key, record: Record | None, item: QGraphicsItem | None) -> None:
        """Keep what labels stand clear of up with a record as it is drawn now."""
        self._stands = (None, False)
        self._marks.note(key, record, item)

    def words(self, key: Key) -> str:
        """What a label says now; "" where it has no room."""
        label = self._labels.get(key)
        return label.words() if label is not None and label.isVisible() else ""

    def forget(self, key: Key) -> None:
        """Take the label of a record away."""
        self.note(key, None, None)
        self._others = (None, no_rows(), no_rows())
        self._untold.pop(key, None)
        self._missing.discard(key)
        label = self._labels.pop(key, None)
        if label is not None:
            self._scene.removeItem(label)

    @property
    def left_out(self) -> int:
        """How many names find no place at this zoom."""
        return len(self._missing) + self._marks.unnamed

    def untold_at(self, at: Point, notebook: Notebook) -> str:
        """The words of a label that are not seen whole, of the shape at a place; "" if none is."""
        for (table, record_id), record in self._untold.items():
            rings = rings_of(record)
            if rings and contains(rings[0], at, rings[1:]):
                return _told(notebook, table, record_id, record)
        return ""

    def place(self, named: Mapping[Key, Named], among: Surroundings, *, live: bool = False) -> None:
        """Place these labels; those of other records stay where they stand.

        While a drag is `live`, a label stays where it is as long as it may. Where all is as it was
        at the last placing, as after an edit that the sketch does not show, all stay.
        """
        if live and not named:
            return
        scale = among.px_per_ft
        lengths = _of_lengths(among.lengths, scale)
        state = (
            dict(named),
            *_told_among(among),
            lengths.tobytes(),
            theme.palette(),
            theme.scale(),
        )
        if not live and self._stands[0] == state:
            self.hangs_on_view = self._stands[1]
            return
        self._cans = _about(among.cans, scale, can_radius_px())
        self._place(named, among, lengths, live=live)
        self._stands = (None if live else state, self.hangs_on_view)

    def _place(
        self, named: Mapping[Key, Named], among: Surroundings, lengths: Rows, *, live: bool
    ) -> None:
        scale = among.px_per_ft
        grips = _about(among.handles, scale, _HANDLE_PX)
        self._marks.name_pins(scale, np.concatenate([self._cans, lengths]))
        taken = self._taken([self._cans, lengths], grips, named, scale)
        asked = {key: self._asked(key, each, among) for key, each in named.items()}
        waiting = [
            key
            for key, each in asked.items()
            if not (live and self._kept(key, each, taken, scale))
            and not self._inside(key, each, taken, scale)
        ]
        for key in waiting:
            each = asked[key]
            found = None
            if _has_name(each.named.record):
                walls = self._marks.walls(scale)
                found = place_beside(each.full, each.shape, taken, walls, among.seen)
                self.hangs_on_view = True
            if found is None and each.full is not each.lengths:
                found = place(each.lengths[-NUMBERS:], each.shape, taken)
            self._show(key, each, found, taken, scale)

    def thin(self, px_per_ft: float) -> None:
        """While the zoom changes: labels keep their places, and those that overlap are hidden."""
        self._stands = (None, False)
        self._others = (None, no_rows(), no_rows())
        self._marks.name_pins(px_per_ft, no_rows())
        keys = [key for key in self._labels if key in self._placed]
        labels = [self._labels[key] for key in keys]
        boxes = _boxes_of(labels, px_per_ft)
        bad: Flags = np.any(meets(boxes, self._marks.pin_boxes(px_per_ft)), axis=1)
        met = meets(boxes, boxes)
        np.fill_diagonal(met, val=False)
        for number in np.flatnonzero(met.any(axis=1)).tolist():
            bad[number] = bad[number] or bool((met[number, :number] & ~bad[:number]).any())
        for label, hidden in zip(labels, bad.tolist(), strict=True):
            label.setVisible(not hidden)

    def _kept(self, key: Key, asked: _Asked, taken: Taken, scale: float) -> bool:
        label, number = self._labels.get(key), self._placed.get(key, len(asked.lengths))
        if label is None or number >= len(asked.lengths):
            # What had no place gets none before the drag is over.
            return label is not None and key not in self._placed
        at = asked.shape.middles[-1] if label.led else (label.pos() * scale).toTuple()
        left, top, right, bottom = label.box
        box = (at[0] + left, at[1] + top, at[0] + right, at[1] + bottom)
        now = Placed((), box, at if label.led else None)
        walls = self._marks.walls(scale)
        found = kept(asked.lengths[number], asked.shape, taken, walls, now)
        if found is not None:
            self._show(key, asked, found, taken, scale)
        return found is not None

    def _inside(self, key: Key, asked: _Asked, taken: Taken, scale: float) -> bool:
        found = place(asked.full, asked.shape, taken)
        if found is not None:
            self._show(key, asked, found, taken, scale)
        return found is not None

    def _show(
        self, key: Key, asked: _Asked, found: Placed | None, taken: Taken, scale: float
    ) -> None:
        label = self._labels.get(key)
        if label is None:
            label = self._labels[key] = LabelItem()
            self._scene.addItem(label)
        record = asked.named.record
        label.setVisible(found is not None)
        self._placed.pop(key, None)
        self._missing.discard(key)
        self._untold.pop(key, None)
        if found is None or list(found.lines) not in asked.full[:1]:
            self._untold[key] = record
        if found is None:
            if _has_name(record):
                self._missing.add(key)
            return
        self._placed[key] = asked.lengths.index(list(found.lines))
        led = found.anchor is not None
        label.show_lines(found, scale, theme.palette().paper if led else asked.named.ground)
        taken.claim(found.claims)

    def _asked(self, key: Key, named: Named, among: Surroundings) -> _Asked:
        shape = self._marks.shape(key, among.px_per_ft)
        return _Asked(named, self._lengths(among.notebook, named), shape)

    def _lengths(self, notebook: Notebook, named: Named) -> list[list[Line]]:
        palette, record = theme.palette(), named.record
        if isinstance(record, Feature):
            return feature_lines(name_of(notebook, "features", record.id), palette.quiet)
        title = f"{self._marks.number_of(notebook, record.id)} {record.name}"
        area = told(zone_area_sqft(record), 0, "sq ft")
        return zone_lines(title, area, named.figure, palette.ink)

    def _taken(
        self, worded: list[Rows], plain: Rows, named: Mapping[Key, Named], scale: float
    ) -> Taken:
        """Everything that these labels keep clear of, in pixels; the marks come first."""
        marks, bear_words = self._marks.boxes(scale)
        by = (tuple(named), scale)
        if self._others[0] != by:
            others = [
                label
                for key, label in self._labels.items()
                if key not in named and key in self._placed and label.isVisible()
            ]
            leaders = rows_of([box for each in others for box in _leader_of(each, scale)])
            self._others = (by, _boxes_of(others, scale, rim=2 * RIM_PX), leaders)
        words = np.concatenate([*worded, self._others[1]])
        rest = np.concatenate([plain, self._others[2]])
        flags = (bear_words, np.ones(len(words), dtype=bool), np.zeros(len(rest), dtype=bool))
        return Taken(np.concatenate([marks, words, rest]), np.concatenate(flags))


def _told_among(among: Surroundings) -> tuple[object, ...]:
    """All that counts of the surroundings but the lengths, to be compared; names are of tables."""
    tables = (among.notebook.zones, among.notebook.features)
    points = (tuple(among.handles), tuple(among.cans))
    seen = (among.seen.box, among.seen.covered.tobytes(), among.px_per_ft)
    return (*tables, *points, *seen, is_metric())


def seen_of(scene: QGraphicsScene, covered: Iterable[QRect]) -> Seen:
    """What the first view of a scene shows, less a narrow margin; without a view nothing."""
    views = scene.views()
    if not views:
        return Seen((0.0, 0.0, 0.0, 0.0), no_rows())
    view, scale = views[0], views[0].transform().m11()
    at = view.mapToScene(0, 0) * scale
    size = view.viewport().size()
    x, y = at.x(), at.y()
    box = (x + SEEN_PX, y + SEEN_PX, x + size.width() - SEEN_PX, y + size.height() - SEEN_PX)
    rows = [(x + r.left(), y + r.top(), x + r.right(), y + r.bottom()) for r in covered]
    return Seen(box, rows_of(rows))


def _has_name(record: Record) -> bool:
    """Whether a label bears a name rather than only the kind of a feature."""
    return isinstance(record, Zone) or (isinstance(record, Feature) and bool(record.name))


def _told(notebook: Notebook, table: str, record_id: str, record: Record) -> str:
    name = name_of(notebook, table, record_id)
    return (
        f"{name}, {told(zone_area_sqft(record), 0, 'sq ft')}" if isinstance(record, Zone) else name
    )


def _of_lengths(lengths: Iterable[LengthItem], scale: float) -> Rows:
    """The boxes of the lengths of sides, in pixels, with room for a label's rim and rounding."""
    boxes = [each.turned_rect().translated(each.pos() * scale) for each in lengths]
    rows = rows_of([(each.left(), each.top(), each.right(), each.bottom()) for each in boxes])
    return grown(rows, RIM_PX + 1, RIM_PX + 1)


def _about(places: Sequence[Point], scale: float, reach: float) -> Rows:
    """Boxes about places of the yard, in pixels."""
    at = np.array(places, dtype=np.float64).reshape(-1, 2) * (scale, -scale)
    return np.hstack([at - reach, at + reach])


def _boxes_of(labels: Iterable[LabelItem], scale: float, rim: float = RIM_PX) -> Rows:
    """Where labels stand, in pixels, with a rim."""
    found: list[Box] = []
    for label in labels:
        at, (left, top, right, bottom) = label.pos() * scale, label.box
        found.append((at.x() + left, at.y() + top, at.x() + right, at.y() + bottom))
    return grown(rows_of(found), rim, rim)


def _leader_of(label: LabelItem, scale: float) -> list[Box]:
    at = label.pos() * scale
    return [
        (at.x() + left, at.y() + top, at.x() + right, at.y() + bottom)
        for left, top, right, bottom in label.claims[1:]
    ]
