"""The strip of several chosen shapes, and of an exact move: what is chosen, how far it goes."""

from collections import Counter

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from lawnbook.desk.sketch.choosing import name_of
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.describing import size_words
from lawnbook.desk.sketch.dragging import Outcome
from lawnbook.desk.sketch.inspector import Strip, StripField
from lawnbook.desk.sketch.locking import locked_of, locked_words, stays_words
from lawnbook.desk.sketch.nudging import nudged, side_nudged
from lawnbook.desk.telling import captioned, either, follow_name
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, QuietButton, mark_role
from lawnbook.reading import tr
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.numbers import counted, parse_feet
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Record

_NOUNS = {"zones": "zone", "features": "feature", "heads": "head", "spots": "spot"}


class MoveStrip(Strip):
    """Typed steps to the right and up the page, and of the side after the chosen corner out."""

    kind = "move"

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__(control, parent)
        self._told = Caption("", self)
        self._told.setWordWrap(True)
        sized(self._told, least_width=190)
        sized(self._told, most_width=300)
        self.row.addWidget(self._told, 1, Qt.AlignmentFlag.AlignVCenter)
        self._field("right", tr("Move right"))
        self._field("up", tr("Move up"))
        self._field("out", tr("Side out"))
        self._button = QuietButton(tr("Move"), "sketch_move_go", self)
        self._button.clicked.connect(self.go)
        self.row.addWidget(self._button, 0, Qt.AlignmentFlag.AlignBottom)
        self.row.addStretch(1)

    def show_record(self, record: Record) -> None:
        """Show what is chosen, of which this record was chosen first."""
        del record
        control, choice = self.control, self.control.choice
        self._told.setText(several_words(control.notebook, control.chosen_keys))
        cornered = choice is not None and choice.corner is not None and not control.marked
        out = self.fields["out"]
        out.setEnabled(cornered)
        out.setToolTip(
            "" if cornered else tr("Choose a corner with N: the side after it moves out.")
        )

    def forget(self) -> None:
        """Something else is chosen: steps that were typed are given up."""
        super().forget()
        for field in self.fields.values():
            field.show_text("")

    def go(self) -> None:
        """Move by what was typed; below 0 it goes left, down, or in."""
        steps = [self._parsed(name) for name in ("right", "up", "out")]
        right, up, out = steps
        if right is None or up is None or out is None:
            return
        control = self.control
        stay = locked_of(control.notebook, control.chosen_keys)
        if len(stay) == len(control.chosen_keys):
            control.say(locked_words(control.notebook, stay), "warn")
        elif (right, up, out) == (0.0, 0.0, 0.0):
            us = tr("Type how far: feet, such as 2.5, or below 0 for left, down or in.")
            metric = tr("Type how far: metres, such as 0.8, or below 0 for left, down or in.")
            control.say(either(us, metric))
        else:
            if right or up:
                self._keep(nudged(control, (right, up)), stays_words(control.notebook, stay))
            if out:
                self._keep(side_nudged(control, out), "")

    def _keep(self, made: Outcome | None, stays: str) -> None:
        if made is None or not self.control.keep_draft(made.draft, made.label):
            return
        for field in self.fields.values():
            field.show_text("")
        self.control.say(
            " ".join(filter(None, (tr("Moved: {figures}.", figures=made.figures), stays))), "good"
        )

    def _field(self, name: str, caption: str) -> None:
        field = StripField(f"move_{name}", caption, 84, self)
        field.setPlaceholderText("0")
        field.returnPressed.connect(self.go)
        field.left.connect(self.left)
        field.unit = "ft"
        follow_name(field, field.objectName(), lambda: captioned(caption, "ft"))
        self.fields[name] = field
        self.add(lambda: captioned(caption, "ft"), field)

    def show_again(self) -> None:
        """Tell what is chosen; the fields are of the owner's typing alone."""
        record = self.control.record()
        if record is not None:
            self.show_record(record)

    def _parsed(self, name: str) -> float | None:
        field = self.fields[name]
        if not field.text().strip() or not field.isEnabled():
            return 0.0
        what = {"right": tr("Move right"), "up": tr("Move up"), "out": tr("Side out")}[name]
        try:
            step = parse_feet(field.text(), what)
        except OwnerError as error:
            field.refuse()
            field.setFocus(Qt.FocusReason.OtherFocusReason)
            self.control.say(str(error), "bad")
            return None
        mark_role(field, "", "")
        return step


def several_words(notebook: Notebook, keys: tuple[Key, ...]) -> str:
    """What is chosen: "3 shapes chosen: 2 zones, 1 feature, 3,012 sq ft. First: Front." """
    if not keys:
        return ""
    first = name_of(notebook, *keys[0])
    first = first[:1].upper() + first[1:]
    records = [record for key in keys if (record := notebook.find(*key)) is not None]
    size = size_words(records)
    if len(keys) == 1:
        return ", ".join(filter(None, (first, size)))
    counts = Counter(table for table, _ in keys)
    kinds = [counted(counts[table], word) for table, word in _NOUNS.items() if counts[table]]
    locked = len(locked_of(notebook, keys))
    held = tr("{locked} locked", locked=locked) if locked else ""
    parts = ", ".join(filter(None, (*kinds, size, held)))
    return tr(
        "{count} shapes chosen: {parts}. First: {first}.", count=len(keys), parts=parts, first=first
    )
