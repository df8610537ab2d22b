"""The fields of a sprinkler head: throw, arc, flow, radial profile, zone, and its last change."""

from datetime import date

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtWidgets import QStackedWidget, QWidget

from lawnbook.desk import entry
from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.inspector import (
    Parse,
    Strip,
    StripField,
    amount_or_none,
    fill_zones,
    number,
)
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr
from lawnbook.yard.numbers import feet_inches, parse_feet, plain
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Head, Record

Profile = str | tuple[float, ...] | None

NAMED: tuple[tuple[str, Profile], ...] = (
    (tr("Not given"), None),
    (tr("Cone"), "cone"),
    (tr("Flat"), "flat"),
    (tr("Doughnut"), "doughnut"),
)
"""The profiles that have a name, as they are offered."""

A_TABLE = "a table"
"""What the list holds for a profile that is to be typed."""

TABLE_LIKE = "1 0.9 0.6 0.2"
SPACING_PX = 6
LEAST_PX, DAY_PX, LEAST_LETTERS = 48, 92, 3
"""The least widths of a number, a day and a list, so that all stand in the smallest window."""


class HeadStrip(Strip):
    """The numbers of a head. Its fields stand close: there are seven of them."""

    kind = "head"

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__(control, parent)
        self.row.setSpacing(SPACING_PX)
        self.add_field(
            "radius_ft", tr("Radius"), lambda text: parse_feet(text, tr("Radius")), 76, "ft"
        )
        start = self.make_field("start_deg", tr("Arc starts, °"), number(tr("Arc start")), 60)
        start.setToolTip(tr("Where its arc starts, clockwise from the top of the page."))
        self.add(tr("From, °"), start)
        self.add_field("sweep_deg", tr("Arc, °"), number(tr("Arc")), 60)
        self.add_field("flow_gpm", tr("Flow"), amount_or_none(tr("Flow"), "gpm"), 72, "gpm")
        self._profile = self._profile_choice()
        self.add(tr("Profile"), self._profile, 1)
        changed = self.add_field("changed_on", tr("Changed on"), self._day, 106)
        sized(changed, least_width=DAY_PX)
        changed.setToolTip(
            tr(
                "When nozzle, arc or place was last changed: older catch tests are then stale. "
                "Empty it if only the drawing was mended."
            )
        )
        self._zone = ChoiceBox(self)
        self._zone.setMinimumContentsLength(LEAST_LETTERS)
        name_control(self._zone, "sketch_head_zone", tr("Zone of the head"))
        self._zone.activated.connect(
            lambda: self.keep("zone", self._zone.currentData(), tr("Zone"))
        )
        self.add(tr("Zone"), self._zone, 3)

    def turn_to(self, record: Record) -> None:
        """Show a head; a table that cannot be kept stays in sight as typed."""
        super().turn_to(record)
        if self.fields["profile"].is_wrong:
            self._profile.show_table()

    def make_field(self, name: str, caption: str, parse: Parse, width: int = 90) -> StripField:
        """A field that may grow narrower than others."""
        field = super().make_field(name, caption, parse, width)
        sized(field, least_width=LEAST_PX)
        return field

    def show_record(self, record: Record) -> None:
        """Show the head."""
        if not isinstance(record, Head):
            return
        self.fields["radius_ft"].show_text(feet_inches(record.radius_ft))
        self.fields["start_deg"].show_text(plain(record.start_deg))
        self.fields["sweep_deg"].show_text(plain(record.sweep_deg))
        flow = record.flow_gpm
        self.fields["flow_gpm"].show_text("" if flow is None else plain(flow, 2, "gpm"))
        self._profile.show_profile(record.profile)
        changed = record.changed_on
        self.fields["changed_on"].show_text("" if changed is None else entry.format_day(changed))
        fill_zones(self._zone, self.control.notebook, record.zone)
        self._zone.setToolTip(self._zone.currentText())

    def _profile_choice(self) -> "ProfileChoice":
        table = self.make_field("profile", tr("Profile"), parse_profile, 200)
        choice = ProfileChoice(table, self)
        choice.picked.connect(lambda profile: self.keep("profile", profile, tr("Profile")))
        return choice

    def _day(self, text: str) -> date | None:
        return entry.parse_day(text, self.control.book.today) if text.strip() else None


class ProfileChoice(QStackedWidget):
    """A list of named profiles; "Table…" puts a field in its place, which empties back to it."""

    picked = Signal(object)

    def __init__(self, table: StripField, parent: QWidget) -> None:
        super().__init__(parent)
        self._table = table
        self._kept: Profile = None
        table.setPlaceholderText(TABLE_LIKE)
        table.setToolTip(
            tr(
                "Depths at even steps from the head out to its radius, such as {table_like}. "
                "Empty it for the list of profiles.",
                table_like=TABLE_LIKE,
            )
        )
        table.left.connect(self._show_kept)
        table.installEventFilter(self)
        self._box = ChoiceBox(self)
        self._box.setMinimumContentsLength(LEAST_LETTERS)
        name_control(self._box, "sketch_head_profile_kind", tr("Profile of the head"))
        self._box.setToolTip(tr("How its water lessens from the head outward. Not given: a cone."))
        for words, profile in NAMED:
            self._box.addItem(words, profile)
        self._box.addItem(tr("Table…"), A_TABLE)
        self._box.activated.connect(self._chosen)
        self.addWidget(self._box)
        self.addWidget(table)
        self.setFocusProxy(self._box)

    def show_profile(self, profile: Profile) -> None:
        """Show a kept profile; a name the list does not have is shown as it is."""
        self._kept = profile
        words = "" if profile is None else profile_words(profile)
        self._table.show_text(words)
        self._show_kept()

    def show_table(self) -> None:
        """Put the field up for a table."""
        self._put_up(self._table)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """A field that is left without anything new in it makes room for the list again."""
        left = event.type() == QEvent.Type.FocusOut and not self._table.is_wrong
        if left and self._table.text() == self._table.shown:
            self._show_kept()
        return super().eventFilter(watched, event)

    def _show_kept(self) -> None:
        named = [profile for _, profile in NAMED]
        if self._kept in named:
            self._box.setCurrentIndex(named.index(self._kept))
            self._put_up(self._box)
        else:
            self.show_table()

    def _chosen(self) -> None:
        chosen = self._box.currentData()
        if chosen == A_TABLE:
            self._table.show_text("")
            self.show_table()
            self._table.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.picked.emit(chosen)

    def _put_up(self, widget: QWidget) -> None:
        if self.currentWidget() is not widget:
            self.setCurrentWidget(widget)
            self.setFocusProxy(widget)


def parse_profile(text: str) -> Profile:
    """A profile as typed: its name, or depths at even steps; None where it is left empty.

    Raises OwnerError with the mend.
    """
    words = text.strip().lower()
    if not words or words == "not given":
        return None
    if words in [profile for _, profile in NAMED]:
        return words
    try:
        depths = entry.parse_list(text, tr("Profile"))
    except OwnerError:
        raise OwnerError(
            tr(
                "Profile: “{text}” is neither a name nor a table; type depths at even steps "
                "from the head to its radius, such as {table_like}.",
                text=text.strip(),
                table_like=TABLE_LIKE,
            )
        ) from None
    return depths


def profile_words(profile: Profile) -> str:
    """A profile as the field shows it."""
    if isinstance(profile, tuple):
        return entry.plain_list(profile)
    return profile or ""
