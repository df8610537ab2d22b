"""Operations that need typed figures: a strip, a turn, a move, and a line to split or mirror on.

Each draws what it would make while it is typed; all of it can be done without a mouse.
"""

import math
from collections.abc import Callable, Mapping
from types import MappingProxyType

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.typed_row import TypedRow
from lawnbook.desk.sketch.choosing import Choice
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.foreseeing import foresee
from lawnbook.desk.sketch.inspector import KINDS
from lawnbook.desk.sketch.operating import chosen_records, lacks_unlocked, middle_of
from lawnbook.desk.sketch.outlines import sides
from lawnbook.desk.sketch.placing_shapes import mirror, move, turn
from lawnbook.desk.sketch.shaping import (
    Strip,
    lacks_one_shape,
    make_strip,
    split_by_line,
    strip_change,
)
from lawnbook.desk.widgets import QuietButton, name_control
from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Change, Key
from lawnbook.yard.numbers import feet_inches, parse_feet, parse_number
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, Zone
from lawnbook.yard.shape_edits import mirrored, moved, split, turned


class TypedOperation(TypedRow):
    """A row of fields with its button; `why_not` says what keeps it from being done now."""

    def __init__(self, name: str, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__(f"shapes_{name}", parent)
        self._name = name
        self.control = control
        self.buttons: list[QuietButton] = []
        self.edited.connect(self._foresee)
        self.given_up.connect(lambda: control.scene.show_preview(()))

    def refresh(self) -> None:
        """Follow what is chosen."""
        why = self.why_not()
        for each in self.buttons:
            each.setEnabled(not why)
            each.setToolTip(why)
            each.setAccessibleDescription(why)

    def why_not(self) -> str:
        """What speaks against it now, "" where nothing does."""
        return lacks_unlocked(self.control)

    def change(self) -> Change:
        """The change as typed. OwnerError with the mend."""
        raise NotImplementedError

    def add_button(self, words: str, name: str, press: Callable[[], bool]) -> None:
        """The button that does it; what is wrong is said below the fields."""
        button = QuietButton(words, f"shapes_{self._name}_{name}", self)
        button.clicked.connect(lambda: self._press(press))
        self.add(" ", button)
        self.buttons.append(button)

    def begin(self) -> QWidget:
        """Take the keyboard to the first field, which is given."""
        first = next(iter(self._captions))
        first.setFocus(Qt.FocusReason.ShortcutFocusReason)
        return first

    def keys(self) -> tuple[Key, ...]:
        """All that is chosen."""
        return tuple(chosen_records(self.control))

    def _press(self, press: Callable[[], bool]) -> None:
        self.refuse(self.why_not())
        if self.why_not():
            return
        try:
            press()
        except OwnerError as error:
            self.refuse(str(error))

    def _foresee(self) -> None:
        self.refuse("")
        if not self.why_not():
            foresee(self.control, self.change)


class TurnForm(TypedOperation):
    """Turn what is chosen about its middle by typed degrees."""

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__("turn", control, parent)
        line = self.add_line("deg", tr("Turn by, °"), tr("Turn by, degrees clockwise"))
        line.setToolTip(tr("Clockwise; a minus turns the other way."))
        self.add_button(tr("Turn"), "do", lambda: turn(self.control, self._deg()))
        self.end()

    def change(self) -> Change:
        """What is chosen, turned."""
        about = middle_of(chosen_records(self.control).values())
        return turned(self.control.notebook, self.keys(), self._deg(), about)

    def _deg(self) -> float:
        return parse_number(self.text("deg").replace("°", ""), tr("Turn by"))


class MoveForm(TypedOperation):
    """Move what is chosen by typed feet."""

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__("move", control, parent)
        right = (tr("Move right, feet; a minus moves left"),
                 tr("Move right, metres; a minus moves left"))  # fmt: skip
        up = (tr("Move up the page, feet; a minus moves down"),
              tr("Move up the page, metres; a minus moves down"))  # fmt: skip
        self.add_length("right", tr("Move right"), right)
        self.add_length(tr("up"), tr("Up"), up)
        self.add_button(tr("Move"), "do", lambda: move(self.control, self._by()))
        self.end()

    def change(self) -> Change:
        """What is chosen, moved."""
        return moved(self.control.notebook, self.keys(), self._by())

    def _by(self) -> Point:
        return _feet(self.text("right"), tr("Right")), _feet(self.text(tr("up")), tr("Up"))


class LineForm(TypedOperation):
    """Split or mirror on a line through two typed points, without the sketch."""

    _LINES = (("from_right", tr("Line: right")), ("from_up", tr("up")),
              ("to_right", tr("to right")), ("to_up", tr("up")))  # fmt: skip
    _SPOKEN: Mapping[str, str] = MappingProxyType(
        {
            "from_right": tr("Line from, right"),
            "from_up": tr("Line from, up"),
            "to_right": tr("Line to, right"),
            "to_up": tr("Line to, up"),
        }
    )

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__("line", control, parent)
        for name, caption in self._LINES:
            line = self._SPOKEN[name]
            self.add_length(
                name, caption, (tr("{line}, feet", line=line), tr("{line}, metres", line=line)), 78
            )
        self.add_button(tr("Split"), "split", self._split)
        self.add_button(tr("Mirror"), "mirror", lambda: mirror(control, self.keys(), *self._ends()))
        self.end()

    def refresh(self) -> None:
        """Splitting takes one zone or feature, mirroring anything."""
        super().refresh()
        why = lacks_one_shape(self.control)
        self.buttons[0].setEnabled(not why)
        self.buttons[0].setToolTip(why)
        self.buttons[0].setAccessibleDescription(why)

    def change(self) -> Change:
        """The parts where one shape is chosen, else the mirror image."""
        if lacks_one_shape(self.control):
            return mirrored(self.control.notebook, self.keys(), *self._ends())
        return split(self.control.notebook, self.keys()[0], *self._ends())

    def _split(self) -> bool:
        return split_by_line(self.control, self.keys()[0], *self._ends())

    def _ends(self) -> tuple[Point, Point]:
        x, y, to_x, to_y = (parse_feet(self.text(each), tr("Line")) for each, _ in self._LINES)
        return (x, y), (to_x, to_y)


class StripForm(TypedOperation):
    """A strip along one side of the outline, or all round it."""

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__("strip", control, parent)
        self._sides: tuple[str, ...] = ()
        self._side = self._box("side", tr("Strip along"), tr("Side that the strip lies along"))
        spoken = (tr("Width of the strip, feet"), tr("Width of the strip, metres"))
        self.add_length("width", tr("Width"), spoken, 72)
        self._inward = self._box("inward", tr("Lies"), tr("Inside or outside of the edge"))
        self._inward.addItem(tr("inside"), True)
        self._inward.addItem(tr("outside"), False)
        self._becomes = self._box("becomes", tr("Becomes"), tr("What the strip becomes"))
        for kind in ("zone", *KINDS):
            self._becomes.addItem(tr(kind), kind)
        self._becomes.setCurrentIndex(self._becomes.findData("bed"))
        self.add_button(tr("Make it"), "do", self._make)
        for box in (self._side, self._inward, self._becomes):
            box.activated.connect(self._foresee_typed)

    def refresh(self) -> None:
        """List the sides of what is chosen."""
        super().refresh()
        record = self.control.record()
        outline = record.outline_ft if isinstance(record, Zone | Feature) else ()
        words = tuple(
            tr("Side {n}, {length}", n=n, length=feet_inches(_length(side)))
            for n, side in enumerate(sides(outline), 1)
        )
        if words == self._sides and self._side.count():
            return
        self._sides = words
        chosen = self._side.currentData()
        self._side.clear()
        self._side.addItem(tr("All round"), None)
        for number, each in enumerate(words):
            self._side.addItem(each, number)
        self._side.setCurrentIndex(max(self._side.findData(chosen), 0))

    def why_not(self) -> str:
        """It takes one zone or feature."""
        return lacks_one_shape(self.control)

    def change(self) -> Change:
        """The strip, and what is left of the shape where it lies inside."""
        return strip_change(self.control.notebook, self.keys()[0], self._typed())

    def _box(self, name: str, caption: str, spoken: str) -> ChoiceBox:
        box = ChoiceBox(self)
        name_control(box, f"shapes_strip_{name}", spoken)
        self.add(caption, box, 1)
        return box

    def _typed(self) -> Strip:
        width_ft = parse_feet(self.text("width"), tr("Width of the strip"))
        return Strip(
            self._side.currentData(),
            width_ft,
            bool(self._inward.currentData()),
            self._becomes.currentData(),
        )

    def _make(self) -> bool:
        return make_strip(self.control, self.keys()[0], self._typed())

    def _foresee_typed(self) -> None:
        choice, side = self.control.choice, self._side.currentData()
        if choice is not None and side is not None:
            # The corner where the side begins is lit on the sketch.
            self.control.choose(Choice(choice.table, choice.record_id, 0, side))
        if self.text("width").strip():
            self._foresee()


def _feet(text: str, what: str) -> float:
    return parse_feet(text, what) if text.strip() else 0.0


def _length(side: tuple[Point, Point]) -> float:
    (ax, ay), (bx, by) = side
    return math.hypot(bx - ax, by - ay)
