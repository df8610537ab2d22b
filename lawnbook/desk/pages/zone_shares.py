"""What goes down on which zone: a tick, pounds and the area treated for each, and its verdict."""

from collections.abc import Iterable, Mapping

from PySide6.QtCore import QObject, QPoint, Qt, Signal
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QCheckBox, QGridLayout, QSizePolicy, QVBoxLayout, QWidget

from lawnbook.desk.codecs import kept_amount
from lawnbook.desk.pages.feed_words import most_words, zone_sentence
from lawnbook.desk.roles import hear_as
from lawnbook.desk.telling import Label, captioned, either, follow_label, follow_name
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, TextField, Words, clear_layout, mark_role, name_control
from lawnbook.plan.due import names_told
from lawnbook.plan.model import SpreadCheck
from lawnbook.plan.strips import ZoneStrips, strips_of
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import plain
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Zone

FIELD_PX = 92
POUNDS_PLACES, SQFT_PLACES = 2, 0


def exact_shown(value: float, places: int, unit: str) -> str:
    """A number of a US unit as a field shows it: to some places, below one to four."""
    return plain(value, places if value >= 1 else 4, unit)


class ExactField(TextField):
    """A number that is shown rounded but kept exactly until a hand edits it."""

    def __init__(self, places: int, unit: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._places = places
        self._unit = unit
        self._exact: float | None = None
        self.setAlignment(Qt.AlignmentFlag.AlignRight)
        sized(self, width=FIELD_PX)
        self.textEdited.connect(self._forget)

    def put_value(self, value: float | None) -> None:
        """Show a number, or nothing; tells nobody."""
        self._exact = value
        self.setText("" if value is None else exact_shown(value, self._places, self._unit))

    def value(self, what: str) -> float | None:
        """The number, None where nothing is typed.

        OwnerError for words and for less than nothing; the field is then marked.
        """
        mark_role(self, "")
        if self._exact is not None or not self.text().strip():
            return self._exact
        try:
            return self._typed(what)
        except OwnerError:
            mark_role(self, "", "refuse")
            raise

    def _typed(self, what: str) -> float:
        value = parse_measure(self.text(), what, self._unit)
        if value < 0:
            raise OwnerError(
                tr(
                    "{what}: {text} is less than nothing; enter 0 or more.",
                    what=what,
                    text=self.text().strip(),
                )
            )
        return value

    def retell(self) -> None:
        """The number in the owner's unit; what is typed means what it did."""
        if self._exact is not None:
            self.put_value(self._exact)
        else:
            self.setText(kept_amount(self.text(), self._unit))

    @property
    def exact(self) -> float | None:
        """The number put in, None once a hand has edited it."""
        return self._exact

    def take_over(self, other: "ExactField") -> None:
        """Show what another field shows, and keep it as exactly; tells nobody."""
        self._exact = other.exact
        self.setText(other.text())

    def _forget(self) -> None:
        self._exact = None


class RowTick(QCheckBox):
    """A tick box that takes a click anywhere in its cell, beside its words too."""

    def hitButton(self, pos: QPoint) -> bool:
        """The whole cell is the button."""
        return self.rect().contains(pos)


class ZoneShare(QObject):
    """The row of one zone in the grid of `ZoneShares`."""

    ticked = Signal()
    typed = Signal()

    def __init__(self, zone: Zone, number: int, parent: QWidget) -> None:
        super().__init__(parent)
        self.zone_id = zone.id
        self.name = zone.name
        self.drawn_sqft = self.usual_sqft = zone_area_sqft(zone)
        self._area_given = False
        self.tick = RowTick(f"{number} {zone.name}", parent)
        # A long name may be cut off by the row; the tooltip holds it whole.
        self.tick.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.tick.setToolTip(zone.name)
        self.pounds = ExactField(POUNDS_PLACES, "lb", parent)
        self.area = ExactField(SQFT_PLACES, "sq ft", parent)
        self.most = Caption("", parent)
        name_control(self.tick, f"zone_tick_{number}", tr("Feed {name}", name=zone.name))
        pounds = (tr("Pounds on {name}", name=zone.name), tr("Kilograms on {zone}", zone=zone.name))
        area = (
            tr("Square feet treated of {name}", name=zone.name),
            tr("Square metres treated of {zone}", zone=zone.name),
        )
        follow_name(self.pounds, f"zone_pounds_{number}", lambda: either(*pounds))
        follow_name(self.area, f"zone_area_{number}", lambda: either(*area))
        self.put_area(None)
        self.tick.toggled.connect(self._toggled)
        self.area.textEdited.connect(self._area_typed)
        for field in (self.pounds, self.area):
            field.setEnabled(False)
            field.textEdited.connect(self.typed)

    def add_to(self, grid: QGridLayout, row: int) -> None:
        """Lay the row out in a line of a grid."""
        grid.addWidget(self.tick, row, 0)
        grid.addWidget(self.pounds, row, 1)
        grid.addWidget(self.area, row, 2)
        grid.addWidget(self.most, row, 3, Qt.AlignmentFlag.AlignRight)

    def leave_out(self, strips: ZoneStrips) -> None:
        """Treat the zone without its strips, unless a hand says how much of it is treated."""
        self.usual_sqft = self.drawn_sqft - strips.area_sqft
        where = names_told(strips.names)
        self.area.setToolTip(
            tr(
                "{area_sqft} along {where} get nothing.",
                area_sqft=told(strips.area_sqft, 0, "sq ft"),
                where=where,
            )
            if where
            else ""
        )
        if not self._area_given:
            self.area.put_value(self.usual_sqft)

    def put_area(self, area_sqft: float | None) -> None:
        """Show the area treated; with None it is the usual one."""
        self._area_given = area_sqft is not None
        self.area.put_value(self.usual_sqft if area_sqft is None else area_sqft)

    def given_area(self) -> float | None:
        """The area that a hand or a record gives, None for the usual. OwnerError with the mend."""
        value = self.area.value(f"Area treated of {self.name}") if self._area_given else None
        if value is not None and value <= 0:
            mark_role(self.area, "", "refuse")
            us = tr("Area treated of {zone}: enter square feet above zero.", zone=self.name)
            metric = tr("Area treated of {zone}: enter square metres above zero.", zone=self.name)
            raise OwnerError(either(us, metric))
        return value

    def take_over(self, before: "ZoneShare") -> None:
        """Keep what was entered in the row that stood for the same zone."""
        self.pounds.take_over(before.pounds)
        if before.has_given_area:
            self._area_given = True
            self.area.take_over(before.area)

    @property
    def has_given_area(self) -> bool:
        """Whether the area stands as a hand or a record gave it."""
        return self._area_given

    def _area_typed(self, text: str) -> None:
        self._area_given = bool(text.strip())

    def holds(self, y: int) -> bool:
        """Whether a height in the grid is within the row."""
        return self.pounds.geometry().top() <= y <= self.pounds.geometry().bottom()

    def say_most(self, most: str) -> None:
        """Show the most that fits."""
        self.most.setText(most)

    def _toggled(self, on: bool) -> None:
        for field in (self.pounds, self.area):
            field.setEnabled(on)
        if not on:
            self.pounds.put_value(None)
            self.say_most("")
        self.ticked.emit()


class ZoneShares(QWidget):
    """The zones of the yard with what each gets.

    `zones_changed` when a zone is ticked or unticked, `typed` when a hand edits pounds or area.
    `verdicts` holds what the check says of each zone. It is laid out by the owner of the page,
    below all that is clicked, so that the rows stand still while it grows.
    """

    zones_changed = Signal()
    typed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        hear_as(self, "Grouping")
        name_control(self, "zone_shares", tr("Zones to feed"))
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(10)
        self._grid.setVerticalSpacing(2)
        self._grid.setColumnStretch(0, 1)
        self._grid.setColumnMinimumWidth(3, 84)
        self.verdicts = QWidget()
        self._over, self._fitting = Words("", "refuse"), Caption("", wrap=True)
        column = QVBoxLayout(self.verdicts)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        for words in (self._over, self._fitting):
            column.addWidget(words)
            words.hide()
        self._zones: tuple[Zone, ...] = ()
        self._grounds: tuple[object, ...] = (None, None, None)
        self._rows: dict[str, ZoneShare] = {}

    def show_zones(self, notebook: Notebook) -> None:
        """Show the notebook's zones, the ticked ones staying ticked. Tells nobody."""
        self._show_rows(notebook)
        grounds = (notebook.zones, notebook.features, notebook.n_rules)
        if any(a is not b for a, b in zip(grounds, self._grounds, strict=True)):
            self._grounds = grounds
            for zone_id, row in self._rows.items():
                row.leave_out(strips_of(notebook, notebook.zones[zone_id]))

    def _show_rows(self, notebook: Notebook) -> None:
        zones = tuple(notebook.zones.values())
        if len(zones) == len(self._zones) and all(
            a is b for a, b in zip(zones, self._zones, strict=True)
        ):
            return
        before = {zone_id: self._rows[zone_id] for zone_id in self.ticked()}
        self._build(zones)
        for zone_id, row in before.items():
            if zone_id in self._rows:
                self._tick_quietly(zone_id, True)
                self._rows[zone_id].take_over(row)

    def ticked(self) -> tuple[str, ...]:
        """The ids of the ticked zones, in the owner's order."""
        return tuple(zone_id for zone_id, row in self._rows.items() if row.tick.isChecked())

    def tick_only(self, zone_ids: tuple[str, ...]) -> None:
        """Tick exactly these zones. Tells nobody."""
        for zone_id in self._rows:
            self._tick_quietly(zone_id, zone_id in zone_ids)

    def put_pounds(self, pounds_by_zone: Mapping[str, float]) -> None:
        """Fill in pounds for the ticked zones; zones not named get none. Tells nobody."""
        for zone_id in self.ticked():
            self._rows[zone_id].pounds.put_value(pounds_by_zone.get(zone_id))

    def put_areas(self, area_by_zone: Mapping[str, float]) -> None:
        """Fill in the areas treated; zones not named are treated as usual. Tells nobody."""
        for zone_id, row in self._rows.items():
            row.put_area(area_by_zone.get(zone_id))

    def pounds(self) -> dict[str, float]:
        """Pounds of each ticked zone that gets any. OwnerError names the zone and the mend."""
        held = {}
        for zone_id in self.ticked():
            row = self._rows[zone_id]
            value = row.pounds.value(f"Pounds on {row.name}")
            if value is not None:
                held[zone_id] = value
        return held

    def given_areas(self) -> dict[str, float]:
        """Square feet treated of each ticked zone where they are given, others as usual.

        OwnerError names the zone and the mend.
        """
        given = {zone_id: self._rows[zone_id].given_area() for zone_id in self.ticked()}
        return {zone_id: area for zone_id, area in given.items() if area is not None}

    def areas(self) -> dict[str, float]:
        """Square feet treated of each ticked zone. OwnerError names the zone and the mend."""
        given = self.given_areas()
        return {
            zone_id: given.get(zone_id, self._rows[zone_id].usual_sqft) for zone_id in self.ticked()
        }

    def drawn_areas(self, zone_ids: Iterable[str]) -> dict[str, float]:
        """Square feet of some zones as drawn, of those that there are."""
        return {each: self._rows[each].drawn_sqft for each in zone_ids if each in self._rows}

    def any_typed(self) -> bool:
        """Whether pounds stand in any zone's row."""
        return any(row.pounds.text() for row in self._rows.values())

    def show_check(self, check: SpreadCheck | None, most: SpreadCheck | None) -> None:
        """Write each zone's verdict, and from `most` what fits on that day into its row."""
        fed = () if check is None else tuple(each for each in check.zones if each.pounds > 0)
        on = None if check is None else check.on
        # A label for each of forty zones would take a second to lay out.
        for words, within in ((self._over, False), (self._fitting, True)):
            told = [zone_sentence(each, on) for each in fed if on and each.within is within]
            words.say("\n".join(told))
        self.verdicts.setVisible(bool(fed))
        fits = {} if most is None else {each.zone_id: each for each in most.zones}
        for zone_id, row in self._rows.items():
            row.say_most(most_words(fits[zone_id]) if zone_id in fits else "")

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A press on a row that is not ticked ticks it; its fields are not open before."""
        y = round(event.position().y())
        row = next((each for each in self._rows.values() if each.holds(y)), None)
        if row is not None and not row.tick.isChecked():
            row.tick.setChecked(True)
            row.pounds.setFocus(Qt.FocusReason.MouseFocusReason)
        else:
            super().mousePressEvent(event)

    def _tick_quietly(self, zone_id: str, on: bool) -> None:
        blocked = self.blockSignals(True)
        self._rows[zone_id].tick.setChecked(on)
        self.blockSignals(blocked)

    def _build(self, zones: tuple[Zone, ...]) -> None:
        clear_layout(self._grid)
        self._zones = zones
        self._rows = {}
        heads: tuple[Label, ...] = (
            tr("Zone"),
            lambda: either(tr("Pounds"), "kg"),
            lambda: captioned(tr("Treated"), "sq ft"),
            tr("Most that day"),
        )
        for column, words in enumerate(heads):
            side = Qt.AlignmentFlag.AlignLeft if column == 0 else Qt.AlignmentFlag.AlignRight
            head = Caption("", self)
            follow_label(head, words)
            self._grid.addWidget(head, 0, column, side)
        for number, zone in enumerate(zones, 1):
            row = ZoneShare(zone, number, self)
            row.add_to(self._grid, number)
            row.ticked.connect(self.zones_changed)
            row.typed.connect(self.typed)
            self._rows[zone.id] = row
