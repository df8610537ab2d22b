"""Where a head or a spot that is chosen stands, to be typed over."""

from dataclasses import replace

from PySide6.QtWidgets import QWidget

from lawnbook.desk.entry import fixed_shown
from lawnbook.desk.pages.typed_row import TypedRow
from lawnbook.desk.sketch.choosing import is_locked
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.foreseeing import show_records
from lawnbook.desk.sketch.operating import (
    at_start,
)
from lawnbook.reading import tr
from lawnbook.yard.check import check
from lawnbook.yard.numbers import parse_feet, parse_number
from lawnbook.yard.problems import OwnerError, refused
from lawnbook.yard.records import Head, Record, Spot


class PlacePart(TypedRow):
    """Where a head or a spot stands, and a head's throw and arc."""

    _LENGTHS = (("right", tr("Right")), ("up", tr("Up")), ("radius", tr("Radius")))
    _ANGLES = (("start", tr("Arc starts, °")), ("sweep", tr("Arc, °")))

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__("shapes_place", parent)
        self._control = control
        self._record: Head | Spot | None = None
        for name, caption in self._LENGTHS:
            spoken = (
                tr("{caption}, feet", caption=caption),
                tr("{caption}, metres", caption=caption),
            )
            self.add_length(name, caption, spoken)
        for name, caption in self._ANGLES:
            self.add_line(name, caption, caption)
        self.end()
        self.edited.connect(self._tried)
        self.settled.connect(self._settled)
        self.given_up.connect(lambda: control.scene.show_preview(()))

    def show_record(self, record: Record | None) -> None:
        """Show a head or a spot; anything else hides the part."""
        before = self._record
        self._record = record if isinstance(record, Head | Spot) else None
        self.setVisible(self._record is not None)
        if self._record is None:
            return
        another = before is None or before.id != self._record.id
        if another:
            # What was wrong with the other's figures is no word about these.
            self.refuse("")
        figures = _place_figures(self._record)
        for name, line in self.lines.items():
            line.setEnabled(not is_locked(self._record))
            self.show_control(line, shown=name in figures)
            if name in figures and (another or not line.isModified()):
                line.show_text(figures[name])

    def _as_typed(self) -> Head | Spot | None:
        record = self._record
        if record is None:
            return None
        x, y = record.at_ft or (None, None)
        at = (self._length_ft("right", tr("Right"), x), self._length_ft("up", tr("Up"), y))
        if isinstance(record, Spot):
            return replace(record, at_ft=at)
        return replace(
            record,
            at_ft=at,
            radius_ft=self._length_ft("radius", tr("Radius"), record.radius_ft, places=4),
            start_deg=_degrees(self.text("start"), tr("Arc starts")),
            sweep_deg=_degrees(self.text("sweep"), tr("Arc")),
        )

    def retell(self) -> None:
        """The lengths in the owner's unit, but for what is typed."""
        figures = {} if self._record is None else _place_figures(self._record)
        for name, line in self.lines.items():
            if name in figures and line.text() == line.shown:
                line.show_text(figures[name])

    def _length_ft(self, name: str, what: str, held: float | None, places: int = 2) -> float:
        """A length as typed, to the sketch's hundredth; one that is not touched as it is held."""
        line = self.lines[name]
        if held is not None and line.text() == line.shown:
            return held
        return round(parse_feet(line.text(), what), places)

    def _tried(self) -> None:
        self.refuse("")
        try:
            record = self._as_typed()
        except OwnerError:
            record = None
        show_records(self._control, record)

    def _settled(self, name: str) -> None:
        control, choice = self._control, self._control.choice
        try:
            record = self._as_typed()
        except OwnerError as error:
            self.refuse(str(error), name)
            return
        if record is None or choice is None:
            return
        problems = refused(check(record, control.notebook, control.book.today))
        self.refuse(problems[0].sentence if problems else "", name)
        control.scene.show_preview(())
        if problems:
            return
        for line in self.lines.values():
            line.setModified(False)
        called = control.name(choice.table, choice.record_id)
        if (
            control.keep(choice.table, record, tr("place of {called}", called=called))
            and not control.aftermath
        ):
            control.say(tr("{at_start} changed.", at_start=at_start(called)), "good")


def _place_figures(record: Head | Spot) -> dict[str, str]:
    at = record.at_ft
    figures = {"right": "", "up": ""} if at is None else {
        "right": fixed_shown(at[0], 2, "ft"), "up": fixed_shown(at[1], 2, "ft")
    }  # fmt: skip
    if isinstance(record, Head):
        figures |= {
            "radius": fixed_shown(record.radius_ft, 2, "ft"),
            "start": f"{record.start_deg:g}",
            "sweep": f"{record.sweep_deg:g}",
        }
    return figures


def _degrees(text: str, what: str) -> float:
    return parse_number(text.replace("°", ""), what)
