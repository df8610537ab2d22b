"""Where a backdrop lies and how it is turned: by two clicks, typed, or by the arrow keys."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QWidget

from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.backdrop_hand import LOCKED, BackdropHand
from lawnbook.desk.pages.typed_row import TypedRow
from lawnbook.desk.sketch.habits import steps_of
from lawnbook.desk.telling import either
from lawnbook.desk.widgets import Card, QuietButton, name_control
from lawnbook.reading import tr
from lawnbook.yard.backdrops import Along, levelled, moved, turned_to
from lawnbook.yard.fields import Point
from lawnbook.yard.numbers import feet_inches, parse_feet, parse_number, plain
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Backdrop

ALONG: tuple[tuple[Along, str], ...] = (
    ("across", tr("across the page")),
    ("up", tr("up the page")),
    ("north", tr("to the north")),
)
CLICKS: dict[Along, str] = {
    "across": tr(
        "Click two points along something that is to run across the page, such as a wall."
    ),
    "up": tr("Click two points along something that is to run up the page, such as a fence."),
    "north": tr("Click the south end, then the north end of something that runs due north."),
}
CLICK_MOVE = tr(
    "Click a place of the picture, then where it belongs; the second click goes to "
    "a corner or an edge that is near."
)
_ARROWS: dict[int, Point] = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}


class MovePad(QuietButton):
    """Moved by the arrow keys while it has the keyboard; a held key is one step of undo.

    `nudged` tells an arrow as steps to the right and up, and whether they are fine ones;
    `let_go` that no arrow is held any more.
    """

    nudged = Signal(float, float, bool)
    let_go = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(tr("Arrow keys move it"), "backdrop_move_pad", parent)
        self.setToolTip(tr("Click here, then press the arrow keys; with Shift in fine steps."))
        self.setAccessibleDescription(self.toolTip())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """An arrow moves the picture."""
        step = _ARROWS.get(event.key())
        if step is None:
            super().keyPressEvent(event)
            return
        fine = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        self.nudged.emit(*step, fine)
        event.accept()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """The arrow came up."""
        if event.key() in _ARROWS and not event.isAutoRepeat():
            self.let_go.emit()
            event.accept()
        else:
            super().keyReleaseEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Without the keyboard no arrow is held."""
        self.let_go.emit()
        super().focusOutEvent(event)


class PlacePanel(Card):
    """Moves and turns the backdrop in hand."""

    def __init__(self, hand: BackdropHand, parent: QWidget | None = None) -> None:
        super().__init__(tr("Place and turn"), parent)
        self._hand = hand
        self._shown: Backdrop | None = None
        self._north_deg: float | None = None
        self._drafted: Backdrop | None = None
        self._move = QuietButton(tr("Move it…"), "backdrop_move", self)
        self._pad = MovePad(self)
        self._middle = TypedRow("backdrop_middle", self)
        self._turn = TypedRow("backdrop_turn", self)
        self._along = ChoiceBox(self)
        self._level = QuietButton(tr("Level it…"), "backdrop_level", self)
        self._north = QuietButton(tr("Its top is north"), "backdrop_north_up", self)
        self._lay_out()
        self._listen()

    def refresh(self) -> None:
        """Show the backdrop in hand."""
        held, north_deg = self._hand.backdrop, self._hand.book.notebook.yard.north_deg
        if held is None or (held is self._shown and north_deg == self._north_deg):
            return
        self._shown, self._north_deg = held, north_deg
        for name, feet in zip(("right", "up"), held.middle_ft, strict=True):
            self._middle.lines[name].show_text(feet_inches(feet))
        self._turn.lines["deg"].show_text(plain(held.turn_deg, 2))
        why = LOCKED if held.locked else ""
        for each, tip in self._tips.items():
            each.setEnabled(not why)
            each.setToolTip(why or tip)
            each.setAccessibleDescription(why or tip)

    def retell(self) -> None:
        """The picture's place in the owner's unit."""
        self._shown = None
        self.refresh()

    def _ask_move(self) -> None:
        # The first point is one of the picture; a corner of the drawing would pull it away.
        self._hand.ask(CLICK_MOVE, self._moved)

    def _moved(self, a: Point, b: Point) -> None:
        control = self._hand.control
        snap = control.snapper(control.scene.ft_per_px).snap(b)
        end = snap.at_ft if snap.kind in ("corner", "middle", "crossing", "edge") else b
        told = (
            tr("That place of the picture lies {reason} now.", reason=snap.reason)
            if end != b
            else ""
        )
        self._hand.edit(lambda held: moved(held, (end[0] - a[0], end[1] - a[1])), "move", told)

    def _ask_level(self) -> None:
        along: Along = self._along.currentData()
        self._hand.ask(CLICKS[along], lambda a, b: self._levelled(a, b, along))

    def _levelled(self, a: Point, b: Point, along: Along) -> None:
        north_deg = self._hand.book.notebook.yard.north_deg
        self._hand.edit(lambda held: levelled(held, a, b, along, north_deg), "level")

    def _north_up(self) -> None:
        north_deg = self._hand.book.notebook.yard.north_deg
        told = tr("The top of the picture points to the north of the sketch.")
        self._hand.edit(lambda held: turned_to(held, north_deg), "turn", told)

    def _typed_middle(self, name: str) -> None:
        held = self._hand.backdrop
        if held is None:
            return
        self._middle.refuse("")
        try:
            feet = parse_feet(self._middle.text(name), tr("The middle"))
        except OwnerError as problem:
            self._middle.refuse(str(problem), name)
            return
        x, y = held.middle_ft
        by = (feet - x, 0.0) if name == "right" else (0.0, feet - y)
        self._hand.edit(lambda held: moved(held, by), "move")

    def _typed_turn(self, _name: str) -> None:
        self._turn.refuse("")
        try:
            deg = parse_number(self._turn.text("deg").replace("°", ""), tr("Turned by"))
        except OwnerError as problem:
            self._turn.refuse(str(problem), "deg")
            return
        self._hand.edit(lambda held: turned_to(held, deg), "turn")

    def _nudge(self, right: float, up: float, fine: bool) -> None:
        habits = self._hand.control.habits
        step_ft = steps_of(habits)[fine]
        held = self._drafted or self._hand.backdrop
        if held is None:
            return
        self._drafted = moved(held, (right * step_ft, up * step_ft))
        self._hand.show_draft(self._drafted)

    def _let_go(self) -> None:
        drafted, self._drafted = self._drafted, None
        if drafted is not None:
            self._hand.edit(lambda _: drafted, "move")

    def _listen(self) -> None:
        self._move.clicked.connect(self._ask_move)
        self._level.clicked.connect(self._ask_level)
        self._north.clicked.connect(self._north_up)
        self._middle.settled.connect(self._typed_middle)
        self._turn.settled.connect(self._typed_turn)
        self._pad.nudged.connect(self._nudge)
        self._pad.let_go.connect(self._let_go)

    def _lay_out(self) -> None:
        name_control(self._along, "backdrop_along", tr("What the two clicks run along"))
        self._along.setMinimumContentsLength(11)
        for each, words in ALONG:
            self._along.addItem(words, each)
        to_right = (tr("Its middle, feet to the right"), tr("Its middle, metres to the right"))
        up_page = (tr("Its middle, feet up the page"), tr("Its middle, metres up the page"))
        right = self._middle.add_line("right", tr("Middle: right"), lambda: either(*to_right), 90)
        up = self._middle.add_line("up", "up", lambda: either(*up_page), 90)
        right.unit = up.unit = "ft"
        self._middle.add(" ", self._move)
        self._middle.add(" ", self._pad)
        self._middle.end()
        deg = self._turn.add_line("deg", tr("Turned by, °"), tr("Turned by, degrees clockwise"), 90)
        self._turn.add(tr("Two points that run"), self._along)
        self._turn.add(" ", self._level)
        self._turn.add(" ", self._north)
        self._turn.end()
        self._tips: dict[QWidget, str] = {
            right: tr("How far right of the sketch's zero point; a minus is to the left."),
            up: tr("How far up the page from the sketch's zero point; a minus is down."),
            self._move: CLICK_MOVE,
            self._pad: self._pad.toolTip(),
            deg: tr("Clockwise on the page; a minus turns the other way."),
            self._along: tr("What the two points you click lie along."),
            self._level: tr("Turns the picture by two clicks on it."),
            self._north: tr("Turns the picture so that its top points to the sketch's north."),
        }
        self.body.addWidget(self._middle)
        self.body.addWidget(self._turn)
