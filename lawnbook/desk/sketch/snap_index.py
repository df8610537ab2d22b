"""What points may snap to, in arrays: of ten thousand sides the near ones are found at once."""

import math
from collections.abc import Iterable, Mapping

import numpy as np
from numpy.typing import NDArray

from lawnbook.desk.sketch.choosing import name_of
from lawnbook.desk.sketch.outlines import rings_of, sides
from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.records import Feature, Head, Record, Spot, Zone

_Floats = NDArray[np.float64]
_Indices = NDArray[np.intp]

OUTLINED = ("zones", "features")
PLACED = ("heads", "spots")


@dataclass(frozen=True, slots=True)
class Target:
    """An outline that points may snap to, with the name it is spoken of by."""

    name: str
    outline: Outline


@dataclass(frozen=True, slots=True)
class Side:
    """A side near a point: its ends, the name of its shape, where it is nearest and how near."""

    start: Point
    end: Point
    name: str
    at_ft: Point
    off_ft: float

    @property
    def length_ft(self) -> float:
        """How long it is."""
        return math.dist(self.start, self.end)


@dataclass(frozen=True, slots=True)
class Place:
    """A corner, head or spot near a point, and how near."""

    at_ft: Point
    name: str
    off_ft: float


class SnapIndex:
    """Sides as rows of start x, start y, end x, end y; places as rows of x, y; names beside them.

    An owner is the number of a name; names are asked for only when something is found.
    """

    def __init__(
        self, rows: _Floats, owners: _Indices, places: _Floats, names: "tuple[Named, ...]"
    ) -> None:
        self._rows, self._owners, self._places, self._names = rows, owners, places, names
        self._low = np.minimum(rows[:, :2], rows[:, 2:]).T.copy()
        self._high = np.maximum(rows[:, :2], rows[:, 2:]).T.copy()
        self._corners = rows[:, :2].T.copy()

    @classmethod
    def of(cls, targets: Iterable[Target]) -> "SnapIndex":
        """An index of outlines by their names, without a notebook."""
        held = tuple(targets)
        rows = [_rows((each.outline,)) for each in held]
        named = tuple(Named(each.name) for each in held)
        return cls(_stacked(rows, 4), _owners(rows), np.empty((0, 2)), named)

    def sides_near(self, point: Point, reach_ft: float, most: int = 12) -> tuple[Side, ...]:
        """The sides within reach of a point, the nearest first, so many at most."""
        x, y = point
        in_reach = (self._low[0] <= x + reach_ft) & (self._high[0] >= x - reach_ft)
        in_reach &= (self._low[1] <= y + reach_ft) & (self._high[1] >= y - reach_ft)
        found = np.flatnonzero(in_reach)
        if not found.size:
            return ()
        rows = self._rows[found]
        at = _nearest(rows, point)
        off = np.hypot(at[:, 0] - x, at[:, 1] - y)
        order = np.argsort(off, kind="stable")[:most]
        return tuple(
            Side(
                _point(rows[i, :2]),
                _point(rows[i, 2:]),
                self._name(found[i]),
                _point(at[i]),
                float(off[i]),
            )
            for i in order.tolist()
            if off[i] <= reach_ft
        )

    def corner_near(self, point: Point, reach_ft: float) -> Place | None:
        """The nearest corner within reach of a point."""
        found = _closest(self._corners, point, reach_ft)
        if found is None:
            return None
        at = _point(self._corners[:, found])
        return Place(at, self._name(found), math.dist(at, point))

    def place_near(self, point: Point, reach_ft: float) -> Place | None:
        """The nearest head or spot within reach of a point."""
        found = _closest(self._places.T, point, reach_ft)
        if found is None:
            return None
        at = _point(self._places[found])
        owner = len(self._names) - len(self._places) + found
        return Place(at, self._names[owner].words, math.dist(at, point))

    def _name(self, row: int | np.intp) -> str:
        return self._names[int(self._owners[row])].words


@dataclass(frozen=True, slots=True)
class Named:
    """A name, or a record of a notebook whose name is made when it is asked for."""

    told: str = ""
    notebook: Notebook | None = None
    key: Key = ("", "")

    @property
    def words(self) -> str:
        """What it is called."""
        return self.told if self.notebook is None else name_of(self.notebook, *self.key)


class SnapCache:
    """Keeps the index of a notebook; only records that are others are read anew.

    Tables of a notebook that did not change are the same objects, so identity tells.
    """

    def __init__(self) -> None:
        self._tables: tuple[Mapping[str, Record], ...] = ()
        self._left: frozenset[Key] = frozenset()
        self._index: SnapIndex | None = None
        self._read: dict[Key, tuple[Record, _Floats]] = {}

    def index(self, notebook: Notebook, leave_out: Iterable[Key] = ()) -> SnapIndex:
        """The index of all that is drawn, but of those left out."""
        tables = tuple(notebook.table(table) for table in (*OUTLINED, *PLACED))
        left = frozenset(leave_out)
        same = len(tables) == len(self._tables) and all(
            one is other for one, other in zip(tables, self._tables, strict=True)
        )
        if self._index is None or not same or left != self._left:
            self._tables, self._left = tables, left
            self._index = self._made(notebook, left)
        return self._index

    def _made(self, notebook: Notebook, left: frozenset[Key]) -> SnapIndex:
        read: dict[Key, tuple[Record, _Floats]] = {}
        for table in OUTLINED:
            for record_id, record in notebook.table(table).items():
                key = (table, record_id)
                held = self._read.get(key)
                same = held is not None and held[0] is record
                read[key] = held if held is not None and same else (record, _rows(_rings(record)))
        self._read = read
        shapes = [(key, rows) for key, (_, rows) in read.items() if key not in left]
        placed = [
            ((table, record_id), at)
            for table in PLACED
            for record_id, record in notebook.table(table).items()
            if (table, record_id) not in left and (at := _place(record)) is not None
        ]
        named = [Named("", notebook, key) for key, _ in (*shapes, *placed)]
        rows = [each for _, each in shapes]
        places = np.array([at for _, at in placed], dtype=float).reshape(-1, 2)
        return SnapIndex(_stacked(rows, 4), _owners(rows), places, tuple(named))


def _rings(record: Record) -> tuple[Outline, ...]:
    return rings_of(record) if isinstance(record, Zone | Feature) else ()


def _place(record: Record) -> Point | None:
    return record.at_ft if isinstance(record, Head | Spot) else None


def _rows(rings: Iterable[Outline]) -> _Floats:
    rows = [(*start, *end) for ring in rings for start, end in sides(ring)]
    return np.array(rows, dtype=float).reshape(-1, 4)


def _stacked(rows: list[_Floats], width: int) -> _Floats:
    return np.concatenate(rows) if rows else np.empty((0, width))


def _owners(rows: list[_Floats]) -> _Indices:
    return np.repeat(np.arange(len(rows)), [len(each) for each in rows])


def _closest(columns: _Floats, point: Point, reach_ft: float) -> int | None:
    """The number of the nearest of the points given as a row of x and a row of y."""
    if not columns.size:
        return None
    off = (columns[0] - point[0]) ** 2 + (columns[1] - point[1]) ** 2
    found = int(off.argmin())
    return found if off[found] <= reach_ft**2 else None


def _nearest(rows: _Floats, point: Point) -> _Floats:
    """On each of the sides the place nearest to a point."""
    start, way = rows[:, :2], rows[:, 2:] - rows[:, :2]
    square = np.einsum("ij,ij->i", way, way)
    along = np.einsum("ij,ij->i", np.asarray(point) - start, way)
    share = np.clip(along / np.where(square > 0, square, 1.0), 0.0, 1.0)
    nearest: _Floats = start + share[:, None] * way
    return nearest


def _point(pair: _Floats) -> Point:
    return (float(pair[0]), float(pair[1]))
