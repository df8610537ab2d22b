"""The scene: one item for each record, changed in place, with labels and handles over them."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QObject, QRect, QRectF, Signal
from PySide6.QtGui import QTransform
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene

from lawnbook.charts.palette import Palette
from lawnbook.desk import theme
from lawnbook.desk.can_draft import CanDraft
from lawnbook.desk.sketch.backdrop_item import BackdropLayer
from lawnbook.desk.sketch.choosing import ON_SKETCH, Choice, Handle, handles_of
from lawnbook.desk.sketch.colouring import Colouring
from lawnbook.desk.sketch.grips import GripLayer, Gripped
from lawnbook.desk.sketch.items import HeadItem, Look, OutlineItem, PinItem
from lawnbook.desk.sketch.label_timing import LabelTiming
from lawnbook.desk.sketch.lengths import DrawingItem
from lawnbook.desk.sketch.preview import PreviewItem
from lawnbook.desk.sketch.strip_items import StripLayer
from lawnbook.desk.sketch.tinting import ColourBy, feature_fill
from lawnbook.desk.sketch.water_view import Drawn, WaterView
from lawnbook.yard.backdrops import ground_bounds_ft
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.records import Feature, Head, Record, Spot, Zone

if TYPE_CHECKING:
    from lawnbook.desk.sketch.label_layer import Named, Surroundings
    from lawnbook.plan.day_figures import Figures

Item = TypeVar("Item", bound=QGraphicsItem)
SEEN_THROUGH = 0.35
"""How dense fills are while a backdrop is to be seen through them."""
MANY = 150
"""Of more records than these the labels are not placed in one go with the shapes."""

NO_DRAFT: Mapping[Key, Record] = MappingProxyType({})


class SketchScene(QGraphicsScene):
    """What is drawn of a notebook. Drafts stand in for their records until they are kept."""

    left_out = Signal(int)
    """How many names find no place at this zoom, told when labels were placed."""
    previewed = Signal(bool)
    """What an operation would make is shown now, or no longer."""

    def __init__(self, notebook: Notebook, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._notebook = notebook
        self._colours = Colouring()
        self._choice: Choice | None = None
        self._marked: frozenset[Key] = frozenset()
        self._draft: Mapping[Key, Record] = NO_DRAFT
        self._wrong = False
        self._items: dict[Key, QGraphicsItem] = {}
        self._drawn: dict[Key, tuple[object, ...]] = {}
        self._labels = LabelTiming(self, self, self.left_out.emit)
        self._seen: tuple[object, ...] = ()
        self._grips = GripLayer(self)
        self._handles_shown = True
        self._drawing: DrawingItem | None = None
        self._preview: PreviewItem | None = None
        self._zoom = QTransform()
        self._water, self.strips = WaterView(self), StripLayer(self)
        self.backdrops = BackdropLayer(self)
        self._sees_through = False
        self.show_book(notebook)

    @property
    def notebook(self) -> Notebook:
        """The notebook that is drawn, without drafts."""
        return self._notebook

    @property
    def _rated(self) -> bool:
        return self.by == "Sprinkler rate"

    @property
    def water(self) -> WaterView:
        """The map of the sprinkler rate, and the cans."""
        return self._water

    @property
    def by(self) -> ColourBy:
        """What the zones are coloured by."""
        return self._colours.by

    @property
    def ft_per_px(self) -> float:
        """Feet in one pixel at the present zoom."""
        return 1 / self._zoom.m11()

    def shown(self, table: str, record_id: str) -> Record | None:
        """A record as it is drawn: the draft, where there is one."""
        return self._draft.get((table, record_id)) or self._notebook.find(table, record_id)

    def handles(self) -> tuple[Handle, ...]:
        """The handles of what is chosen, as they are drawn."""
        if self._choice is None or not self._handles_shown:
            return ()
        record = self.shown(self._choice.table, self._choice.record_id)
        return handles_of(record)

    def figure_of(self, zone_id: str) -> str:
        """What the colour of a zone says in words, "" where it says nothing."""
        tint = self._colours.zone(zone_id)
        return tint.words if tint is not None else ""

    def told_at(self, at: Point) -> str:
        """What there is to say of a place: of the water there, else of the strips that cover it,
        else the name of a shape that has no place for it."""
        told = self._water.told_at(at, self.ft_per_px) or self.strips.told_at(at)
        return told or self._labels.untold_at(at, self._notebook)

    def label_words(self, table: str, record_id: str) -> str:
        """What the label of a zone or feature says now; "" where none has room."""
        return self._labels.words((table, record_id))

    def show_book(self, notebook: Notebook) -> None:
        """Draw another notebook value; what did not change is left alone."""
        self._notebook = notebook
        self._draft, self._wrong = NO_DRAFT, False
        self._grow_ground()
        self.refresh()

    def show_figures(self, figures: "Figures | None", *, passing: bool = False) -> None:
        """Colour zones and pins by the figures of another day.

        Of a day that is `passing` by only the labels that say something else are placed anew.
        """
        self._colours.figures = figures
        self.refresh(passing=passing)

    def see_through(self, *, on: bool) -> None:
        """Let a backdrop be seen through zones and features, or not."""
        if on != self._sees_through:
            self._sees_through = on
            self.refresh()

    @property
    def _density(self) -> float:
        """How dense fills are drawn: whole while there is nothing to see through them."""
        shown = any(each.shown for each in self._notebook.backdrops.values())
        return SEEN_THROUGH if shown and self._sees_through else 1.0

    def colour_by(self, by: ColourBy) -> None:
        """Colour the zones by another figure."""
        self._colours.by = by
        self.refresh()

    def show_choice(self, choice: Choice | None, marked: Iterable[Key] = ()) -> None:
        """Light what is chosen and give it its handles; what is `marked` with it is lit too."""
        self._choice, self._marked = choice, frozenset(marked)
        self.refresh()

    def show_handles(self, *, shown: bool) -> None:
        """Give what is chosen its handles, or, while another tool is in hand, none."""
        if shown != self._handles_shown:
            self._handles_shown = shown
            self._place_grips()

    @property
    def handles_shown(self) -> bool:
        """Whether what is chosen has its handles."""
        return self._handles_shown

    def show_cans(self, cans: CanDraft, *, tests: bool) -> None:
        """Draw the cans in the making, and with `tests` those of every zone's latest test."""
        water = self._water
        before, tested = water.can_places(), water.tested_places()
        water.show_cans(cans.places, cans.picked, tests=tests)
        if water.tested_places() != tested or not cans.zone_id:
            self._labels.place_when_seen()
        elif water.can_places() != before:
            self._labels.place([("zones", cans.zone_id)])

    def show_draft(self, draft: Mapping[Key, Record], *, wrong: bool = False) -> None:
        """Draw some records as they would be; `wrong` marks them as not to be kept."""
        touched = dict.fromkeys([*self._draft, *draft])
        self._draft, self._wrong = draft, wrong
        same = len(self._seen) == len(now := self._looks())
        if same and all(a is b for a, b in zip(self._seen, now, strict=True)) and touched:
            palette = theme.palette()
            drawn = [key for key in touched if key in self._items]
            self._show_over([key for key in drawn if self._show(key, palette)])
        else:
            self.refresh()

    def show_zoom(self, zoom: QTransform, *, passing: bool = False) -> None:
        """Fit labels and handles to another zoom.

        While it is `passing` by labels keep their places, and are placed anew when it rests.
        """
        if zoom.m11() == self._zoom.m11():
            return
        self._zoom = QTransform.fromScale(zoom.m11(), zoom.m22())
        self._place_grips()
        self._labels.zoom(zoom.m11(), passing=passing)

    def show_moved(self) -> None:
        """Another part is seen: labels that stand beside their shapes may stand elsewhere."""
        self._labels.moved()

    def show_covered(self, covered: Iterable[QRect]) -> None:
        """Tell what lies over the view, in its pixels: no label is put under it."""
        self._labels.cover(covered)

    def settle_labels(self) -> None:
        """Place all labels now, if that waits for the zoom to rest."""
        self._labels.settle()

    def settle_labels_seen(self) -> None:
        """Place all labels now; the first only once the sketch has been painted without them."""
        self._labels.settle_seen()

    def drawing(self) -> DrawingItem:
        """A fresh item for a shape in the making; the one before goes."""
        self.end_drawing()
        self._drawing = DrawingItem()
        self.addItem(self._drawing)
        return self._drawing

    def show_preview(
        self, rings: Sequence[Outline], lines: Sequence[Outline] = (), *, wrong: bool = False
    ) -> None:
        """Draw what an operation would make: shapes by their rings, and open lines; none ends it.

        Rings that lie in each other are holes. It is nothing that is chosen or kept.
        """
        if self._preview is None and (rings or lines):
            self._preview = PreviewItem()
            self.addItem(self._preview)
        if self._preview is not None:
            self._preview.show_shapes(rings, lines, theme.palette(), wrong=wrong)
            self.previewed.emit(bool(rings or lines))

    def show_mark(self, at_ft: Point) -> None:
        """Draw where a press would put something."""
        self.drawing().show_mark(at_ft, theme.palette())

    def end_drawing(self) -> None:
        """Take away what was in the making."""
        if self._drawing is not None:
            self.removeItem(self._drawing)
            self._drawing = None

    def refresh(self, *, passing: bool = False) -> None:
        """Bring every item up to what is to be shown, in the present palette."""
        palette = theme.palette()
        self._colours.renew(self._notebook, palette)
        keys = self._keys()
        for key in [each for each in self._items if each not in keys]:
            self._forget(key)
        changed = [key for key in keys if self._show(key, palette)]
        self._seen = self._looks()
        self._show_over(changed if self._draft or passing else None)

    def _show_over(self, changed: Iterable[Key] | None) -> None:
        """Bring up what lies over the shapes; of labels those of what changed, None for all."""
        drawn = self._what_is_drawn()
        for layer in (self._water, self.strips, self.backdrops):
            layer.refresh(drawn)
        self._place_grips()
        if changed is not None:
            self._labels.place(changed, live=True)
        else:
            self._labels.place_when_seen(between=len(self._drawn) > MANY)

    def _looks(self) -> tuple[object, ...]:
        """What every record's look hangs on: where it is the same, a draft changes only its own."""
        colours, marked = self._colours, (self._choice, self._marked)
        look = (colours.figures, colours.by, theme.palette(), theme.scale(), self._sees_through)
        return (self._notebook, *look, *marked)

    def _what_is_drawn(self) -> Drawn:
        chosen = self._choice.record_id if self._choice is not None else ""
        on = self._colours.figures.on if self._colours.figures is not None else None
        return Drawn(self._notebook, self._draft, self.by, chosen, on)

    def _keys(self) -> dict[Key, None]:
        return {
            (table, record_id): None
            for table in ON_SKETCH
            for record_id in self._notebook.table(table)
        }

    def _forget(self, key: Key) -> None:
        self.removeItem(self._items.pop(key))
        self._drawn.pop(key, None)
        self._labels.forget(key)

    def _show(self, key: Key, palette: Palette) -> bool:
        """Draw one record; False where nothing about it changed."""
        record = self.shown(*key)
        chosen = key in self._marked
        if self._choice is not None:
            chosen = chosen or key == (self._choice.table, self._choice.record_id)
        wrong = self._wrong and key in self._draft
        look = (self._density, palette, theme.scale())
        state = (record, self._figure(key), chosen, wrong, look)
        if self._drawn.get(key) == state:
            return False
        self._drawn[key] = state
        self._draw(key, record, palette, chosen=chosen, wrong=wrong)
        self._labels.note(key, record, self._items.get(key))
        return True

    def _draw(
        self, key: Key, record: Record | None, palette: Palette, *, chosen: bool, wrong: bool
    ) -> None:
        if isinstance(record, Zone | Feature):
            look = Look(self._fill(record), chosen=chosen, wrong=wrong, opacity=self._density)
            self._show_outline(key, record, look)
        elif isinstance(record, Head):
            head = self._item(key, HeadItem)
            head.show_record(record, palette, chosen=chosen, washed=not self._rated)
        elif isinstance(record, Spot):
            self._show_pin(key, record, chosen=chosen)

    def _show_outline(self, key: Key, record: Zone | Feature, look: Look) -> None:
        tint = self._colours.zone(record.id)
        if isinstance(record, Zone) and tint is not None and tint.unknown:
            look = replace(look, hatched=True)
        self._item(key, OutlineItem).show_record(record, look, theme.palette())

    def _show_pin(self, key: Key, spot: Spot, *, chosen: bool) -> None:
        pin = self._item(key, PinItem)
        pin.setVisible(spot.at_ft is not None)
        if spot.at_ft is not None:
            tint = self._colours.pin(spot.id)
            pin.show_pin(spot.at_ft, spot.name, tint.words if tint is not None else "")
            fill = tint.colour if tint is not None else ""
            pin.dress(theme.palette(), fill, chosen=chosen, comparison=spot.comparison)

    def _item(self, key: Key, kind: type[Item]) -> Item:
        item = self._items.get(key)
        if not isinstance(item, kind):
            item = kind()
            self._items[key] = item
            self.addItem(item)
        return item

    def _figure(self, key: Key) -> object:
        if key[0] == "heads":
            return self._rated
        if key[0] == "spots":
            return self._colours.pin(key[1])
        return self._colours.zone(key[1])

    def _fill(self, record: Zone | Feature) -> str:
        if isinstance(record, Zone):
            tint = self._colours.zone(record.id)
            return tint.colour if tint is not None else ""
        return feature_fill(record, theme.palette())

    def _grow_ground(self) -> None:
        """Room around the yard to pan in; it only grows, so that nothing jumps."""
        west, south, east, north = ground_bounds_ft(self._notebook)
        margin = max(east - west, north - south) + 60
        ground = QRectF(west, -north, east - west, north - south)
        ground.adjust(-margin, -margin, margin, margin)
        self.setSceneRect(ground.united(self.sceneRect()) if self._items else ground)

    def _place_grips(self) -> None:
        choice, gripped = self._choice, None
        if choice is not None and self._handles_shown:
            record = self.shown(choice.table, choice.record_id)
            gripped = Gripped(record, choice, self.ft_per_px)
        self._grips.show(gripped, theme.palette())

    def items_drawn(self) -> Mapping[Key, tuple[Record | None, QGraphicsItem | None]]:
        """Every record as it is drawn, with its item."""
        return {key: (self.shown(*key), self._items.get(key)) for key in self._drawn}

    def to_label(
        self, keys: Iterable[Key] | None, covered: Iterable[QRect]
    ) -> "tuple[dict[Key, Named], Surroundings]":
        """Which of these records, None for all, are to have labels, and among what."""
        from lawnbook.desk.sketch.label_layer import Named, Surroundings, seen_of

        named = {
            key: Named(record, self.figure_of(key[1]), self._fill(record))
            for key in (self._keys() if keys is None else keys)
            if isinstance(record := self.shown(*key), Zone | Feature)
        }
        cans, seen = self._water.can_places(), seen_of(self, covered)
        grips = self._grips.shown
        return named, Surroundings(self._notebook, *grips, cans, seen, self._zoom.m11())
