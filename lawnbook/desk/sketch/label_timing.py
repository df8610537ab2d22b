"""When the labels of a scene are placed: once it was painted, when the zoom rests, on a change.

Their places are reckoned in arrays, so that the labels are loaded after the first paint.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QRect, QTimer
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene

from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.records import Record

if TYPE_CHECKING:
    from lawnbook.desk.sketch.label_layer import LabelLayer, Named, Surroundings

REST_MS = 150
"""So long after the last step of zooming, labels are placed anew."""


class Labelled(Protocol):
    """What a scene tells its labels."""

    def items_drawn(self) -> Mapping[Key, tuple[Record | None, QGraphicsItem | None]]:
        """Every record as it is drawn, with its item."""

    def to_label(
        self, keys: Iterable[Key] | None, covered: Iterable[QRect]
    ) -> "tuple[dict[Key, Named], Surroundings]":
        """Which of these records, None for all, are to have labels, and among what."""


class LabelTiming:
    """The labels of one scene: made when they are first placed, and placed when it is time."""

    def __init__(
        self, scene: QGraphicsScene, labelled: Labelled, told: Callable[[int], None]
    ) -> None:
        """`told` is called with how many names find no place, when labels were placed."""
        self._scene, self._labelled, self._told = scene, labelled, told
        self._layer: LabelLayer | None = None
        self._covered: tuple[QRect, ...] = ()
        self._rest = QTimer(scene, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self.place_all)

    def layer(self) -> "LabelLayer":
        """The labels themselves."""
        if self._layer is None:
            from lawnbook.desk.sketch.label_layer import LabelLayer

            self._layer = LabelLayer(self._scene)
            for key, (record, item) in self._labelled.items_drawn().items():
                self._layer.note(key, record, item)
        return self._layer

    def note(self, key: Key, record: Record | None, item: QGraphicsItem | None) -> None:
        """Keep what labels stand clear of up with a record as it is drawn now."""
        if self._layer is not None:
            self._layer.note(key, record, item)

    def forget(self, key: Key) -> None:
        """Take the label of a record away."""
        if self._layer is not None:
            self._layer.forget(key)

    def cover(self, covered: Iterable[QRect]) -> None:
        """Tell what lies over the view, in its pixels: no label is put under it."""
        self._covered = tuple(covered)

    def words(self, key: Key) -> str:
        """What a label says now; "" where it has no room."""
        self.settle()
        return self.layer().words(key)

    def untold_at(self, at: Point, notebook: Notebook) -> str:
        """The words of a label that are not seen whole, of the shape at a place; "" if none is."""
        return self.layer().untold_at(at, notebook)

    def zoom(self, px_per_ft: float, *, passing: bool) -> None:
        """Fit labels to another zoom; while it is `passing` by they only make way."""
        if not passing and self._is_seen():
            self.place_all()
            return
        if self._layer is not None:
            self._layer.thin(px_per_ft)
        self._rest.start(REST_MS)

    def moved(self) -> None:
        """Another part is seen: labels that stand beside their shapes may stand elsewhere."""
        if self._layer is not None and self._layer.hangs_on_view:
            self._rest.start(REST_MS)

    def settle(self) -> None:
        """Place all labels now, if that waits for the zoom to rest."""
        if self._rest.isActive():
            self.place_all()

    def settle_seen(self) -> None:
        """The same, but the first labels wait until the sketch has been painted without them.

        They come with the plan's figures, or without them where the plan is long in the making.
        """
        if self._layer is None:
            self._rest.start(REST_MS)
        else:
            self.settle()

    def place_when_seen(self, *, between: bool = False) -> None:
        """Place all labels, or, while nobody sees them, a little later.

        `between` two events where there are many: no key waits for both shapes and labels, and what
        is shown twice in a row is labelled once.
        """
        views = self._scene.views()
        if self._is_seen() and (views or self._layer is not None):
            if between and views:
                self._rest.start(0)
            else:
                self.place_all()
        elif not self._rest.isActive():
            self._rest.start(REST_MS)

    def place_all(self) -> None:
        """Place all labels."""
        self._rest.stop()
        self.layer().hangs_on_view = False
        self.place(None)

    def place(self, keys: Iterable[Key] | None, *, live: bool = False) -> None:
        """Place the labels of these records anew, None for all; others stay where they stand."""
        if self._rest.isActive():
            keys = None
            self._rest.stop()
        named, among = self._labelled.to_label(keys, self._covered)
        layer = self.layer()
        layer.place(named, among, live=live)
        self._told(layer.left_out)

    def _is_seen(self) -> bool:
        """Whether a view is shown, or there is none: before it is, labels need no places."""
        views = self._scene.views()
        return not views or any(each.isVisible() for each in views)
