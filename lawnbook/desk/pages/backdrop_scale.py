"""How large a backdrop is: by two clicks and a tape, checked by another distance, or typed."""

import math
from collections.abc import Callable

from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.desk.pages.backdrop_hand import LOCKED, BackdropHand
from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.pages.typed_row import TypedRow
from lawnbook.desk.telling import Teller, captioned, either
from lawnbook.desk.widgets import Caption, Card, LinkButton, QuietButton, Words
from lawnbook.reading import is_metric, tr
from lawnbook.yard.backdrops import (
    checked,
    checked_words,
    refuse_if_locked,
    scale_words,
    scaled,
    scaled_by_print,
)
from lawnbook.yard.fields import Point
from lawnbook.yard.numbers import feet_inches, parse_feet, parse_inches
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Backdrop

CLICK_SCALE = tr(
    "Click both ends of a distance you have measured: the longer, the better. Zoom in."
)
CLICK_CHECK = tr("Click both ends of another known distance, best square to the first.")
TRUE_LENGTH = tr("True distance")
TO_CHECK = tr("A second distance, square to the first, tells whether the picture leans.")
CM_PER_IN = 2.54
NOT_SCALED = tr("Set the scale first.")


class MeasureRow(TypedRow):
    """Asks how far apart two clicked points really are; `done` gets the answer in feet."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("backdrop_measure", parent)
        self._done: Callable[[float], bool] = _nothing
        self._apart_ft = 0.0
        spoken = (tr("Their true distance, feet"), tr("Their true distance, metres"))
        length = self.add_line("length", TRUE_LENGTH, lambda: either(*spoken), 170)
        length.unit = "ft"
        like = (tr("Such as 32' 6\" or 9.9 m"), tr("Such as 9.9 or 990 cm"))
        Teller(length, lambda: length.setToolTip(either(*like)))
        self.button = QuietButton(tr("Set"), "backdrop_measure_set", self)
        self.leave = LinkButton(tr("Leave it"), "backdrop_measure_leave", self)
        self.add(" ", self.button)
        self.add(" ", self.leave)
        self.end()
        self.button.clicked.connect(self._press)
        self.lines["length"].returnPressed.connect(self._press)
        self.lines["length"].textEdited.connect(lambda _: self.refuse(""))
        self.hide()

    def ask(self, apart_ft: float, verb: str, done: Callable[[float], bool]) -> None:
        """Show the row for two points so far apart as they are drawn."""
        self._done, self._apart_ft = done, apart_ft
        self._say_drawn()
        self.button.setText(verb)
        self.button.setAccessibleName(tr("{verb}: the distance between the two points", verb=verb))
        self.refuse("")
        self.lines["length"].show_text("")
        self.show()
        self.lines["length"].setFocus()

    def retell(self) -> None:
        """How far apart the points are drawn, in the owner's unit."""
        if not self.isHidden():
            self._say_drawn()

    def _say_drawn(self) -> None:
        drawn = feet_inches(self._apart_ft)
        self.caption(
            "length", tr("{true_length} (drawn: {drawn})", true_length=TRUE_LENGTH, drawn=drawn)
        )
        self.lines["length"].setAccessibleDescription(
            tr("The two points are drawn {drawn} apart.", drawn=drawn)
        )

    def _press(self) -> None:
        if self.isHidden():
            return
        try:
            length_ft = parse_feet(self.text("length"), tr("The distance"))
        except OwnerError as problem:
            self.refuse(str(problem), "length")
            return
        if self._done(length_ft):
            self.hide()


class ScalePanel(Card):
    """The scale of the backdrop in hand."""

    def __init__(self, hand: BackdropHand, parent: QWidget | None = None) -> None:
        super().__init__(tr("Scale"), parent)
        self._hand = hand
        self._words = Words("", "", self)
        self._words.setObjectName("backdrop_scale_words")
        self._set = QuietButton(tr("Set the scale…"), "backdrop_set_scale", self)
        self._check = QuietButton(tr("Check another distance…"), "backdrop_check_scale", self)
        self._measure = MeasureRow(self)
        self._outcome = Words("", "good", self)
        self._outcome.setObjectName("backdrop_scale_outcome")
        self._shown: Backdrop | None = None
        self._lay_out()
        self._listen()
        self._outcome.say("")

    def refresh(self) -> None:
        """Show the backdrop in hand; a measuring under way is given up where it is another."""
        held, before = self._hand.backdrop, self._shown
        if held is before or held is None:
            return
        if before is None or _lies(before) != _lies(held):
            # The two points were clicked on the picture as it lay then.
            self._leave()
        if before is None or before.id != held.id:
            self._outcome.say("")
        self._shown = held
        self._words.say(scale_words(held), "warn" if held.scale_ends is None else "")
        locked = LOCKED if held.locked else ""
        unscaled = NOT_SCALED if held.scale_ends is None else ""
        _enable(self._set, locked, CLICK_SCALE)
        _enable(self._check, unscaled, TO_CHECK)
        across = self._across.lines["across"]
        across.show_text(feet_inches(held.width_px * held.ft_per_px))
        for each in (*self._across.lines.values(), *self._print.lines.values(), self._apply):
            _enable(each, locked)

    def retell(self) -> None:
        """The scale in the owner's units; a measuring under way goes on."""
        held = self._shown
        if held is not None:
            self._words.say(scale_words(held), "warn" if held.scale_ends is None else "")
            self._across.lines["across"].show_text(feet_inches(held.width_px * held.ft_per_px))

    def _ask_scale(self) -> None:
        self._leave()
        self._hand.ask(CLICK_SCALE, self._clicked)

    def _clicked(self, a: Point, b: Point) -> None:
        apart_ft = math.dist(a, b)
        if self._fits(lambda held: scaled(held, a, b, 10.0)):
            self._show_line(a, b)
            self._measure.ask(apart_ft, tr("Set"), lambda feet: self._scale(a, b, feet))

    def _scale(self, a: Point, b: Point, length_ft: float) -> bool:
        self._hand.control.scene.show_preview(())
        self._outcome.say("")
        told = tr(
            "Scaled by {length_ft} between two points. {to_check}",
            length_ft=feet_inches(length_ft),
            to_check=TO_CHECK,
        )
        return self._hand.edit(lambda held: scaled(held, a, b, length_ft), "scale", told)

    def _ask_check(self) -> None:
        self._leave()
        self._hand.ask(CLICK_CHECK, self._clicked_check)

    def _clicked_check(self, a: Point, b: Point) -> None:
        if self._fits(lambda held: checked(held, a, b, 10.0)):
            self._show_line(a, b)
            self._measure.ask(math.dist(a, b), "Check", lambda feet: self._say_checked(a, b, feet))

    def _say_checked(self, a: Point, b: Point, length_ft: float) -> bool:
        held = self._hand.backdrop
        if held is None:
            return True
        try:
            found = checked(held, a, b, length_ft)
        except OwnerError as problem:
            self._measure.refuse(str(problem), "length")
            return False
        self._hand.control.scene.show_preview(())
        self._outcome.say(checked_words(found), "good" if found.agrees else "warn")
        return True

    def _fits(self, attempt: Callable[[Backdrop], object]) -> bool:
        """Whether two clicks can be used at all, before a distance is asked for."""
        held = self._hand.backdrop
        if held is None:
            return False
        try:
            attempt(held)
        except OwnerError as problem:
            self._hand.said.emit(str(problem), "refuse")
            return False
        return True

    def _show_line(self, a: Point, b: Point) -> None:
        self._hand.control.scene.show_preview((), ((a, b),))

    def _leave(self) -> None:
        if not self._measure.isHidden():
            self._measure.hide()
            self._hand.control.scene.show_preview(())

    def hide_line(self) -> None:
        """Take the line between two clicks off the sketch; what was asked is given up."""
        self._leave()

    def _typed_across(self, _name: str) -> None:
        def make(held: Backdrop) -> Backdrop:
            refuse_if_locked(held)
            wide_ft = parse_feet(self._across.text("across"), tr("Across the picture"))
            return scaled_by_print(held, wide_ft, 1.0)

        self._type(self._across, make)

    def _by_print(self) -> None:
        def make(held: Backdrop) -> Backdrop:
            per_in = self._feet_to_an_inch()
            paper_in = parse_inches(self._print.text("paper"), tr("Paper across"))
            return scaled_by_print(held, per_in, paper_in)

        self._type(self._print, make)

    def _feet_to_an_inch(self) -> float:
        """The printed scale: feet to an inch, or to a metric reader metres to a centimetre."""
        what = either(tr("Feet to an inch"), tr("Metres to a centimetre"))
        typed = parse_feet(self._print.text("per_in"), what)
        return typed * CM_PER_IN if is_metric() else typed

    def _type(self, row: TypedRow, make: Callable[[Backdrop], Backdrop]) -> None:
        """Scale by typed figures; what is wrong is said below them."""
        row.refuse("")
        held = self._hand.backdrop
        if held is None:
            return
        try:
            made = make(held)
        except OwnerError as problem:
            row.refuse(str(problem))
            return
        wide = feet_inches(made.width_px * made.ft_per_px)
        self._hand.edit(lambda _: made, "scale", tr("The picture is {wide} across.", wide=wide))

    def _listen(self) -> None:
        self._set.clicked.connect(self._ask_scale)
        self._check.clicked.connect(self._ask_check)
        self._measure.leave.clicked.connect(self._leave)
        self._across.settled.connect(self._typed_across)
        self._apply.clicked.connect(self._by_print)
        self._print.lines["paper"].returnPressed.connect(self._by_print)

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        for each in (self._set, self._check):
            buttons.addWidget(each)
        buttons.addStretch(1)
        self.body.addWidget(self._words)
        self.body.addLayout(buttons)
        self.body.addWidget(self._measure)
        self.body.addWidget(self._outcome)
        typed = Fold(tr("Scale without clicking"), "backdrop_typed", self)
        self._across = TypedRow("backdrop", typed)
        spoken = (tr("Across the picture, feet"), tr("Across the picture, metres"))
        across = self._across.add_line(
            "across", tr("Across the picture"), lambda: either(*spoken), 110
        )
        across.unit = "ft"
        self._across.end()
        self._print = TypedRow("backdrop_print", typed)
        printed = (tr("Printed: 1 in is, ft"), tr("Printed: 1 cm is, m"))
        per = (tr("Feet to an inch on the plan"), tr("Metres to a centimetre on the plan"))
        self._print.add_line("per_in", lambda: either(*printed), lambda: either(*per), 110)
        wide = (
            tr("The scanned paper's width, inches"),
            tr("The scanned paper's width, millimetres"),
        )
        paper = self._print.add_line(
            "paper", lambda: captioned(tr("Paper across"), "in"), lambda: either(*wide), 110
        )
        paper.unit = "in"
        self._apply = QuietButton(tr("Scale"), "backdrop_print_scale", self)
        self._apply.setAccessibleName(tr("Scale by the printed scale"))
        self._print.add(" ", self._apply)
        self._print.end()
        typed.body.addWidget(self._across)
        typed.body.addWidget(self._print)
        typed.body.addWidget(
            Caption(
                tr(
                    "A plan's printed scale holds for the whole sheet, scanned edge to edge; a "
                    "copy is often enlarged or reduced, so check a distance."
                ),
                self,
                wrap=True,
            )
        )
        self.body.addWidget(typed)


def _enable(control: QWidget, why_not: str, tip: str = "") -> None:
    """Let a control be used, or say why it cannot be."""
    control.setEnabled(not why_not)
    control.setToolTip(why_not or tip)
    control.setAccessibleDescription(why_not or tip)


def _lies(held: Backdrop) -> tuple[str, Point, float, float]:
    """Which picture it is, and where it lies."""
    return (held.id, held.middle_ft, held.ft_per_px, held.turn_deg)


def _nothing(_length_ft: float) -> bool:
    return True
