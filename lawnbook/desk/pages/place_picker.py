"""The choice of what plugs are looked at: the yard, a zone's mean, or one spot under its zone."""

from collections.abc import Iterator

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStyleOptionComboBox, QWidget

from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.widgets import name_control
from lawnbook.plan.plug_model import Place
from lawnbook.plan.roots import zone_of_spot
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Spot

YARD = Place("yard", "")
INDENT = "\u00a0" * 4
"""Sets a spot off from its zone in the list (no-break spaces, which a list does not swallow)."""


class PlacePicker(ChoiceBox):
    """The yard, its zones and their spots. `place_picked` tells the Place chosen by the owner."""

    place_picked = Signal(object)

    def __init__(self, object_name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, object_name, tr("Plugs of"))
        self.setMinimumContentsLength(24)
        self._places: tuple[Place, ...] = ()
        self.activated.connect(lambda _: self.place_picked.emit(self.place()))

    def place(self) -> Place:
        """The chosen place, the yard as long as there is nothing to choose."""
        at = self.currentIndex()
        return self._places[at] if 0 <= at < len(self._places) else YARD

    def initStyleOption(self, option: QStyleOptionComboBox) -> None:
        """Closed, the box shows a spot without the indent of the list."""
        super().initStyleOption(option)
        option.currentText = option.currentText.strip()

    def show_places(self, notebook: Notebook) -> None:
        """Fill in the notebook's places; the choice stays where it can. Tells nobody.

        Without a spot there is nothing to choose, and nothing is shown.
        """
        offered = tuple(offers(notebook))
        self.setVisible(bool(notebook.spots))
        places = tuple(place for place, _ in offered)
        held = [self.itemText(k) for k in range(self.count())]
        if places == self._places and held == [words for _, words in offered]:
            return
        chosen = self.place()
        self.clear()
        self._places = places
        self.addItems([words for _, words in offered])
        self.choose(chosen)

    def choose(self, place: Place) -> bool:
        """Choose a place; False where it is not in the list. Tells nobody."""
        if place not in self._places:
            return False
        self.setCurrentIndex(self._places.index(place))
        return True


def offers(notebook: Notebook) -> Iterator[tuple[Place, str]]:
    """Every place with its words, in the order of the list."""
    spots = list(notebook.spots.values())
    yield YARD, tr("The yard, {mean}", mean=_mean(spots))
    for zone in notebook.zones.values():
        here = list(spots_at(notebook, Place("zone", zone.id)))
        yield Place("zone", zone.id), f"{zone.name}, {_mean(here)}"
        yield from ((Place("spot", each.id), INDENT + called(each)) for each in here)
    loose = [each for each in spots if zone_of_spot(notebook, each) not in notebook.zones]
    yield from (
        (Place("spot", each.id), tr("{called}, in no zone", called=called(each))) for each in loose
    )


def place_of(notebook: Notebook, table: str, record_id: str) -> Place | None:
    """The place that a selected record leads to, None where it leads to none.

    A zone with one spot leads to that spot: its mean would be the same plugs over again.
    """
    record = notebook.find(table, record_id) if record_id else None
    if table == "spots" and record is not None:
        return Place("spot", record_id)
    if table == "cores" and record is not None:
        return Place("spot", notebook.cores[record_id].spot)
    if table == "photos" and record is not None:
        return Place("spot", notebook.cores[notebook.photos[record_id].core].spot)
    if table == "zones" and record is not None:
        here = spots_at(notebook, Place("zone", record_id))
        return Place("spot", here[0].id) if len(here) == 1 else Place("zone", record_id)
    return None


def spots_at(notebook: Notebook, place: Place) -> tuple[Spot, ...]:
    """The spots of a place in the owner's order."""
    spots = notebook.spots.values()
    if place.kind == "spot":
        return tuple(each for each in spots if each.id == place.id)
    if place.kind == "zone":
        return tuple(each for each in spots if zone_of_spot(notebook, each) == place.id)
    return tuple(spots)


def still_there(notebook: Notebook, place: Place) -> Place:
    """The place, or the first spot where it is gone; the yard where there is none."""
    table = {"spot": notebook.spots, "zone": notebook.zones}.get(place.kind)
    if table is None or place.id in table:
        return place
    return first_place(notebook)


def first_place(notebook: Notebook) -> Place:
    """Where the page opens: at the first spot."""
    spot_id = next(iter(notebook.spots), "")
    return Place("spot", spot_id) if spot_id else YARD


def called(spot: Spot) -> str:
    """A spot's name, and that it is left untreated where it is."""
    return tr("{name}, untreated", name=spot.name) if spot.comparison else spot.name


def _mean(spots: list[Spot]) -> str:
    count = sum(not each.comparison for each in spots)
    if not count:
        return tr("no spot yet") if not spots else tr("untreated spots only")
    return tr("mean of {count} spots", count=count) if count > 1 else tr("1 spot")
