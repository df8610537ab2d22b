"""The strip under the sketch: the fields of what is chosen, or those of the tool in hand."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, ClassVar, get_args

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCheckBox, QComboBox, QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.codecs import kept_amount, parse_amount
from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.roles import check_quietly
from lawnbook.desk.sketch.choosing import is_locked
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.locking import locked_words
from lawnbook.desk.telling import Label, captioned, follow_label, follow_name
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, TextField, mark_role, name_control
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import counted, parse_feet, parse_number, plain
from lawnbook.yard.problems import OwnerError, asked
from lawnbook.yard.records import Feature, FeatureKind, Record, Spot, Zone

KINDS: tuple[FeatureKind, ...] = get_args(FeatureKind)
ZONE_LETTERS = 14
"""How much of a zone's name a spot's strip shows at least."""
DRAWN = ("radius_ft", "start_deg", "sweep_deg")
"""What a lock keeps as it is drawn; names, kinds and settings may change."""
Parse = Callable[[str], Any]


class StripField(TextField):
    """A field that keeps its value on leaving, and gives it back on Esc.

    What cannot be kept stays as typed, in red; neither Enter nor Tab leads away from it.
    """

    left = Signal()

    def __init__(self, name: str, spoken: str, width: int, parent: QWidget) -> None:
        super().__init__(parent)
        name_control(self, f"sketch_{name}", spoken)
        sized(self, least_width=min(width, 64))
        sized(self, most_width=width)
        self.shown = self.tried = self.unit = ""
        self.textEdited.connect(lambda _: mark_role(self, "", ""))

    @property
    def is_wrong(self) -> bool:
        """Whether what is typed cannot be kept."""
        return bool(self.property("state") == "refuse")

    def refuse(self) -> None:
        """Mark what is typed as not to be kept."""
        mark_role(self, "", "refuse")

    def show_text(self, text: str) -> None:
        """Show a kept value."""
        self.shown = self.tried = text
        self.setText(text)
        # What does not fit is read from its beginning.
        self.setCursorPosition(0)
        mark_role(self, "", "")

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Tab settles the field first, and stays where that fails."""
        self.editingFinished.emit()
        return self.is_wrong or super().focusNextPrevChild(forward)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter keeps and Esc gives up; both go back to the sketch."""
        if event.key() == Qt.Key.Key_Escape:
            self.show_text(self.shown)
            self.left.emit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
            if not self.is_wrong:
                self.left.emit()
            event.accept()
        else:
            super().keyPressEvent(event)


class Strip(QWidget):
    """A row of captioned fields for one kind of record."""

    kind: ClassVar[str] = ""
    left = Signal()

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.control = control
        self.row = QHBoxLayout(self)
        self.row.setContentsMargins(0, 0, 0, 0)
        self.row.setSpacing(10)
        self.fields: dict[str, StripField] = {}
        self._shown_id = ""

    @property
    def is_wrong(self) -> bool:
        """Whether a field holds what cannot be kept."""
        return any(field.is_wrong for field in self.fields.values())

    def turn_to(self, record: Record) -> None:
        """Show a record; of the one shown already, what cannot be kept stays as typed."""
        same = record.id == self._shown_id
        typed = {n: f.text() for n, f in self.fields.items() if same and f.is_wrong}
        self._shown_id = record.id
        self.show_record(record)
        for name, text in typed.items():
            field = self.fields[name]
            field.setText(text)
            field.tried = text
            field.refuse()

    def forget(self) -> None:
        """Something else is chosen: what could not be kept is given up."""
        self._shown_id = ""

    def show_record(self, record: Record) -> None:
        """Show a record's values."""
        raise NotImplementedError

    def retell(self) -> None:
        """Show the values in the owner's units; what is typed and not kept means what it did."""
        typed = {n: (f.text(), f.is_wrong) for n, f in self.fields.items() if f.text() != f.shown}
        self.show_again()
        for name, (text, wrong) in typed.items():
            field = self.fields[name]
            field.setText(kept_amount(text, field.unit))
            if wrong:
                field.tried = field.text()
                field.refuse()

    def show_again(self) -> None:
        """Show the values of the record that is shown."""
        record = self.control.record()
        if record is not None and record.id == self._shown_id:
            self.show_record(record)

    def first(self) -> QWidget:
        """The field that Enter on the sketch leads to."""
        return next(iter(self.fields.values()))

    def add(self, caption: Label, widget: QWidget, stretch: int = 0) -> None:
        """Put a control under its caption."""
        column = QVBoxLayout()
        column.setSpacing(2)
        label = Caption("", self)
        follow_label(label, caption)
        label.setBuddy(widget)
        column.addWidget(label)
        column.addWidget(widget)
        self.row.addLayout(column, stretch)

    def add_field(
        self, name: str, caption: str, parse: Parse, width: int = 90, unit: str = ""
    ) -> StripField:
        """A field of the record by its name under its caption, parsed by `parse`.

        The caption and the field's name tell the `unit` that the owner reads, where it has one.
        """
        field = self.make_field(name, caption, parse, width)
        field.unit = unit
        if unit:
            called = field.objectName()
            follow_name(
                field,
                called,
                lambda: tr(
                    "{captioned} of the {kind}",
                    captioned=captioned(caption, unit),
                    kind=tr(self.kind),
                ),
            )
        self.add((lambda: captioned(caption, unit)) if unit else caption, field)
        return field

    def make_field(self, name: str, caption: str, parse: Parse, width: int = 90) -> StripField:
        """A field that keeps what is typed, not yet put anywhere."""
        field = StripField(
            f"{self.kind}_{name}",
            tr("{caption} of the {kind}", caption=caption, kind=tr(self.kind)),
            width,
            self,
        )
        self.fields[name] = field
        field.editingFinished.connect(lambda: self._typed(name, caption, parse))
        field.left.connect(self.left)
        return field

    def keep(self, name: str, value: object, caption: str) -> bool:
        """Keep one field of what is chosen."""
        record, choice = self.control.record(), self.control.choice
        if record is None or choice is None or getattr(record, name) == value:
            return True
        if name in DRAWN and is_locked(record):
            self.control.say(locked_words(self.control.notebook, (choice.key,)), "warn")
            return False
        called = self.control.name(choice.table, choice.record_id)
        values: Mapping[str, Any] = {name: value}
        changed = replace(record, **values)
        label = tr(
            "change {field} of {called}",
            field=caption.split(",", maxsplit=1)[0].lower(),
            called=called,
        )
        if not self.control.keep(choice.table, changed, label):
            return False
        from lawnbook.yard.check import check

        doubts = asked(check(changed, self.control.notebook, self.control.book.today))
        sentences = [each.sentence for each in doubts if each.field == name]
        if sentences:
            said = (
                tr("{sentences} It was kept as it is.", sentences=sentences[0]),
                self.control.aftermath,
            )
            self.control.say(" ".join(filter(None, said)), "warn")
        return True

    def _typed(self, name: str, caption: str, parse: Parse) -> None:
        field = self.fields[name]
        if field.text() == field.shown:
            field.show_text(field.shown)
            return
        if field.is_wrong and field.text() == field.tried:
            return
        field.tried = field.text()
        mark_role(field, "", "")
        try:
            value = parse(field.text())
        except OwnerError as error:
            field.refuse()
            self.control.say(str(error), "bad")
            return
        if not self.keep(name, value, caption):
            field.refuse()


class ZoneStrip(Strip):
    """Name of a zone, and what else it is by."""

    kind = "zone"

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__(control, parent)
        self.add_field("name", tr("Name"), _name, 220)
        self._about = Caption("", self)
        self.row.addWidget(self._about, 1, Qt.AlignmentFlag.AlignBottom)
        self._about.setContentsMargins(0, 0, 0, 9)

    def show_record(self, record: Record) -> None:
        """Show the zone."""
        if isinstance(record, Zone):
            self.fields["name"].show_text(record.name)
            self._about.setText(_about_zone(self.control.notebook, record))


class FeatureStrip(Strip):
    """Kind, name and no-spread strip of a feature."""

    kind = "feature"

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__(control, parent)
        self._kind = KindBox("sketch_feature_kind", self)
        self._kind.activated.connect(
            lambda: self.keep("kind", self._kind.currentData(), tr("Kind"))
        )
        self.add_field("name", tr("Name"), str.strip, 180)
        self.add(tr("Kind"), self._kind)
        feet = _feet_or_none(tr("No-spread strip"))
        self.add_field("no_spread_ft", tr("No-spread strip"), feet, 110, "ft")
        self.row.addStretch(1)

    def show_record(self, record: Record) -> None:
        """Show the feature."""
        if isinstance(record, Feature):
            self.fields["name"].show_text(record.name)
            self._kind.show_kind(record.kind)
            strip = record.no_spread_ft
            self.fields["no_spread_ft"].show_text("" if strip is None else plain(strip, 2, "ft"))


class SpotStrip(Strip):
    """Name and zone of a spot, and whether it is an untreated comparison."""

    kind = "spot"

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__(control, parent)
        self.add_field("name", tr("Name"), _name, 180)
        self._zone = ChoiceBox(self)
        self._zone.setMinimumContentsLength(ZONE_LETTERS)
        name_control(self._zone, "sketch_spot_zone", tr("Zone of the spot"))
        self._zone.activated.connect(
            lambda: self.keep("zone", self._zone.currentData(), tr("Zone"))
        )
        self.add(tr("Zone"), self._zone)
        self._comparison = QCheckBox(tr("Untreated comparison"), self)
        name_control(self._comparison, "sketch_spot_comparison", tr("Untreated comparison"))
        self._comparison.toggled.connect(
            lambda on: self.keep("comparison", on, tr("Untreated comparison"))
        )
        self.row.addWidget(self._comparison, 0, Qt.AlignmentFlag.AlignBottom)
        self.row.addStretch(1)

    def show_record(self, record: Record) -> None:
        """Show the spot."""
        if isinstance(record, Spot):
            self.fields["name"].show_text(record.name)
            check_quietly(self._comparison, on=record.comparison)
            fill_zones(self._zone, self.control.notebook, record.zone, none=tr("No zone"))


class KindBox(ChoiceBox):
    """The kinds of features."""

    def __init__(self, name: str, parent: QWidget) -> None:
        super().__init__(parent)
        name_control(self, name, tr("Kind of feature"))
        for kind in KINDS:
            self.addItem(tr(kind).capitalize(), kind)

    def show_kind(self, kind: str) -> None:
        """Show a kind as the present one."""
        self.setCurrentIndex(self.findData(kind))


def fill_zones(box: QComboBox, notebook: Notebook, chosen: str | None, none: str = "") -> None:
    """List the zones in a box, after "none" where that is a choice, and show the chosen one."""
    box.clear()
    if none:
        box.addItem(none, None)
    for number, zone in enumerate(notebook.zones.values(), 1):
        box.addItem(f"{number} {zone.name}", zone.id)
    box.setCurrentIndex(box.findData(chosen))


def _about_zone(notebook: Notebook, zone: Zone) -> str:
    heads = sum(head.zone == zone.id for head in notebook.heads.values())
    spots = sum(spot.zone == zone.id for spot in notebook.spots.values())
    parts = [counted(heads, "head") if heads else tr("no heads")]
    parts += [counted(spots, "plug spot") if spots else tr("no plug spots")]
    parts += [counted(len(zone.holes_ft), "hole")] if zone.holes_ft else []
    return ", ".join(parts)


def _name(text: str) -> str:
    if not text.strip():
        raise OwnerError(tr('Name: a name is needed; type one, such as "North lawn".'))
    return text.strip()


def number(what: str) -> Parse:
    """A parser of a number that must be there; `what` names it where it cannot be read."""
    return lambda text: parse_number(text.replace("°", ""), what)


def amount_or_none(what: str, unit: str) -> Parse:
    """A parser of an amount of a US unit that may be left out."""
    return lambda text: parse_amount(text, what, unit) if text.strip() else None


def _feet_or_none(what: str) -> Parse:
    return lambda text: parse_feet(text, what) if text.strip() else None
