"""The strip of the drawing tools: how an outline is drawn, its typed sides, what a feature is."""

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QWidget

from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.roles import check_quietly
from lawnbook.desk.sketch.draw_shapes import Way, along_way, beside_drawn, round_shape
from lawnbook.desk.sketch.draw_tool import DrawTool
from lawnbook.desk.sketch.drawing import FeatureTool, HoleTool
from lawnbook.desk.sketch.inspector import KindBox, Strip, StripField
from lawnbook.desk.sketch.side_words import longer_than_nothing, side_example
from lawnbook.desk.sketch.tools import Tool
from lawnbook.desk.sketch.typed_side import TypedSide
from lawnbook.desk.telling import Label, Teller, captioned, either, follow_name, words_of
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import QuietButton, mark_role, name_control
from lawnbook.reading import tr
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.numbers import parse_feet, plain
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Record

WAYS: tuple[tuple[str, Way], ...] = (
    (tr("Corners"), "corners"),
    (tr("Rectangle"), "rectangle"),
    (tr("Circle"), "circle"),
)

BOX_PX = 100
ROOMY_PX = 700
"""A band at least as wide has room for all fields of a water feature."""


class DrawStrip(Strip):
    """How to draw, and the fields of that way: a typed side, an arc's rise, two sides, a radius."""

    kind = "draw"
    placed = Signal()

    def __init__(self, tool: DrawTool, parent: QWidget | None = None) -> None:
        super().__init__(tool.control, parent)
        self._tool = tool
        self._of = _stem(tool)
        self._groups: dict[str, QWidget] = {}
        if isinstance(tool, FeatureTool):
            self._add_kind()
        self._way = ChoiceBox(self)
        sized(self._way, most_width=BOX_PX)
        name_control(self._way, f"sketch_{self._of}_way", tr("Draw by"))
        for words, way in WAYS:
            self._way.addItem(words, way)
        self._way.activated.connect(lambda: self.draw_by(self._way.currentData()))
        self.add(tr("Draw by"), self._way)
        self._add_corner_fields()
        self._add_rectangle_fields()
        self._add_circle_fields()
        if isinstance(tool, FeatureTool):
            self._add_no_spread(tool)
        self.row.addStretch(1)
        tool.typed_changed = self.show_typed
        self._show_way()

    def show_record(self, record: Record) -> None:
        """The strip of a tool shows no record."""

    def first(self) -> QWidget:
        """The field that Enter on the sketch leads to."""
        first = {"corners": "length", "rectangle": "width", "circle": "radius"}
        return self.fields[first[self._tool.way]]

    def draw_by(self, way: Way) -> None:
        """Draw in another way."""
        self._tool.draw_by(way)
        self._show_way()

    def show_typed(self) -> None:
        """Show what is typed on the paper, and whether an arc is on."""
        typed, arc = self._tool.typed, self._tool.arc != "off"
        for name, words in (("length", typed.length), ("direction", typed.direction)):
            if self.fields[name].text() != words:
                self.fields[name].setText(words)
            mark_role(self.fields[name], "", "")
        check_quietly(self._arc, on=arc)
        self._shown(("arc",) if arc else ("side",), among=("arc", "side"))

    def put_down(self) -> None:
        """Make the rectangle of the two sides that were typed."""
        across = self._parsed("width", tr("Across"))
        up = self._parsed("depth", tr("Up the page")) if across is not None else None
        if across is not None and up is not None:
            self._finish(self._rectangle(across, up), "width", "depth")

    def put_circle(self) -> None:
        """Make the circle of the radius or the diameter that was typed."""
        by_diameter = bool(self.fields["diameter"].text().strip())
        name, what = ("diameter", tr("Diameter")) if by_diameter else ("radius", tr("Radius"))
        across = self._parsed(name, what)
        if across is None:
            return
        radius = across / 2 if by_diameter else across
        corners = self._tool.corners
        middle = corners[-1] if corners else None
        if middle is None:
            corner = beside_drawn(self.control.notebook)
            middle = (corner[0] + radius, corner[1] + radius)
        try:
            self._finish(round_shape(middle, radius), "radius", "diameter")
        except OwnerError as error:
            self.control.say(str(error), "bad")

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Where the strip is narrow the button that has a key gives way."""
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        water = "water" in self._groups and not self._groups["water"].isHidden()
        band = self.parentWidget()
        self._square.setVisible(not water or band is None or band.width() >= ROOMY_PX)

    def _add_kind(self) -> None:
        box = KindBox("sketch_new_feature_kind", self)
        sized(box, most_width=BOX_PX)
        box.show_kind(self.control.feature_kind)
        box.activated.connect(lambda: self._choose_kind(box))
        self.add(tr("Kind"), box)

    def _add_corner_fields(self) -> None:
        row = self._group("side")
        length = self._field(row, "length", tr("Length"), side_example, self._put_typed)
        way = self._field(
            row, "direction", tr("Direction"), lambda: tr("90 or R45"), self._put_typed
        )
        for field in (length, way):
            field.textEdited.connect(self._typed_in_field)
        length.unit = "ft"
        row = self._group("arc")
        rise = self._length(row, "rise", tr("Rise"), ("2", "0.6"), self._bend)
        spoken = tr("Rise of the last side")
        follow_name(rise, rise.objectName(), lambda: captioned(spoken, "ft"))
        rise.setToolTip(tr("How far the middle of the last side bows out of it"))
        row = self._group("corners")
        self._arc = QuietButton(tr("Arc"), f"sketch_{self._of}_arc", self)
        self._arc.setCheckable(True)
        self._arc.toggled.connect(self._toggle_arc)
        row.row.addWidget(self._arc, 0, Qt.AlignmentFlag.AlignBottom)
        self._arc.setToolTip(tr("A curve over a point to its end (A)"))
        square = self._square = self._button(
            row, tr("Close square"), "close_square", self._tool.close_square
        )
        square.setToolTip(tr("Close the outline by one or two right-angled sides (Q)"))

    def _add_rectangle_fields(self) -> None:
        row = self._group("rectangle")
        self._length(row, "width", tr("Across"), ("32' 6\"", "9.9"), self.put_down)
        times = QLabel("×", row)
        times.setContentsMargins(0, 0, 0, 7)
        row.row.addWidget(times, 0, Qt.AlignmentFlag.AlignBottom)
        self._length(row, "depth", tr("Up the page"), ("20", "6"), self.put_down)
        self._button(row, tr("Put it down"), "put_down", self.put_down)

    def _add_circle_fields(self) -> None:
        row = self._group("circle")
        radius = self._length(row, "radius", tr("Radius"), ("6", "1.8"), self.put_circle)
        diameter = self._length(row, "diameter", tr("or diameter"), ("12", "3.6"), self.put_circle)
        radius.textEdited.connect(lambda _: diameter.show_text(""))
        diameter.textEdited.connect(lambda _: radius.show_text(""))
        self._button(row, tr("Put it down"), "put_circle_down", self.put_circle)

    def _add_no_spread(self, tool: FeatureTool) -> None:
        row = self._group("water")
        rule = self.control.notebook.n_rules.waterside_ft or 0.0
        field = self._length(row, "no_spread", tr("No-spread"), ("", ""), _nothing)
        Teller(field, lambda: field.setPlaceholderText(plain(rule, 2, "ft")))
        spoken = tr("No-spread strip")
        follow_name(field, field.objectName(), lambda: captioned(spoken, "ft"))
        field.setToolTip(
            tr("How wide a strip along it is not fed; empty for that of the yard's rules")
        )
        field.editingFinished.connect(lambda: self._no_spread_typed(tool))
        self._shown(("water",) if self.control.feature_kind == "water" else (), among=("water",))

    def _group(self, name: str) -> "_Group":
        made = _Group(self)
        self._groups[name] = made
        self.row.addWidget(made)
        return made

    def retell(self) -> None:
        """What is typed of a side goes with the tool too."""
        super().retell()
        if not self._tool.typed.is_empty:
            self._typed_in_field()

    def show_again(self) -> None:
        """The fields are of the owner's typing alone."""

    def _length(
        self,
        row: "_Group",
        name: str,
        caption: str,
        hints: tuple[str, str],
        enter: Callable[[], None],
    ) -> StripField:
        """A field of a length; `hints` are examples in feet and in metres."""
        field = self._field(
            row, name, lambda: captioned(caption, "ft"), lambda: either(*hints), enter
        )
        field.unit = "ft"
        return field

    def _field(
        self,
        row: "_Group",
        name: str,
        caption: Label,
        hint: Callable[[], str],
        enter: Callable[[], None],
    ) -> StripField:
        field = StripField(f"{self._of}_{name}", words_of(caption), 84, self)
        follow_name(field, field.objectName(), lambda: words_of(caption))
        Teller(field, lambda: field.setPlaceholderText(hint()))
        field.returnPressed.connect(enter)
        field.left.connect(lambda: None if self.is_wrong else self.left.emit())
        self.fields[name] = field
        row.add(caption, field)
        return field

    def _button(
        self, row: "_Group", words: str, name: str, pressed: Callable[[], None]
    ) -> QuietButton:
        button = QuietButton(words, f"sketch_{self._of}_{name}", self)
        button.clicked.connect(pressed)
        row.row.addWidget(button, 0, Qt.AlignmentFlag.AlignBottom)
        return button

    def _show_way(self) -> None:
        way = self._tool.way
        self._way.setCurrentIndex(self._way.findData(way))
        self._shown((way,), among=("corners", "rectangle", "circle"))
        self.show_typed()
        if way != "corners":
            self._shown((), among=("side", "arc"))

    def _shown(self, names: tuple[str, ...], *, among: tuple[str, ...]) -> None:
        corners = self._tool.way == "corners"
        for name in among:
            of_corners = name in ("side", "arc")
            self._groups[name].setVisible(name in names and (corners or not of_corners))

    def _choose_kind(self, box: KindBox) -> None:
        self.control.feature_kind = box.currentData()
        self._shown(("water",) if box.currentData() == "water" else (), among=("water",))
        self._make_room()

    def _typed_in_field(self) -> None:
        length, direction = (self.fields[name].text() for name in ("length", "direction"))
        self._tool.type_side(TypedSide(length, direction, turning=bool(direction)))

    def _put_typed(self) -> None:
        if self._tool.typed.is_empty:
            return
        self._tool.put_typed()
        if not self._tool.typed.is_empty:
            wrong = "length" if not self.fields["direction"].hasFocus() else "direction"
            self.fields[wrong].refuse()

    def _toggle_arc(self) -> None:
        self._tool.turn_arc(on=self._tool.arc == "off")
        self.left.emit()

    def _bend(self) -> None:
        rise = self._parsed("rise", tr("Rise"), any_sign=True)
        if rise is not None:
            self._tool.bend(rise)
            self.fields["rise"].show_text("")

    def _no_spread_typed(self, tool: FeatureTool) -> None:
        field = self.fields["no_spread"]
        if not field.text().strip():
            tool.no_spread_ft = None
            mark_role(field, "", "")
            return
        wide = self._parsed("no_spread", tr("No-spread strip"))
        if wide is not None:
            tool.no_spread_ft = wide

    def _finish(self, outline: Outline, *names: str) -> None:
        if self._tool.finish(outline):
            for name in names:
                self.fields[name].show_text("")
            self.placed.emit()

    def _rectangle(self, across: float, up: float) -> Outline:
        """From the last corner along the last side's direction; upright where there is none."""
        chain = self._tool.chain
        corner = chain.corners[-1] if chain.corners else beside_drawn(self.control.notebook)
        if chain.last_deg is None:
            return rectangle_ft(corner, across, up)
        return along_way(corner, chain.last_deg, across, up)

    def _parsed(self, name: str, what: str, *, any_sign: bool = False) -> float | None:
        field = self.fields[name]
        try:
            side = parse_feet(field.text(), what)
            if side <= 0 and not any_sign:
                raise OwnerError(longer_than_nothing(what))
        except OwnerError as error:
            field.refuse()
            field.setFocus(Qt.FocusReason.OtherFocusReason)
            self.control.say(str(error), "bad")
            return None
        mark_role(field, "", "")
        return side


class _Group(Strip):
    """Fields that come and go together."""

    def __init__(self, strip: Strip) -> None:
        super().__init__(strip.control, strip)

    def show_record(self, record: Record) -> None:
        """It shows no record."""


def _stem(tool: DrawTool) -> str:
    if isinstance(tool, FeatureTool):
        return "new_feature"
    return "new_hole" if isinstance(tool, HoleTool) else "new_zone"


def _nothing() -> None:
    """Enter on a field that keeps its value on being left."""


def tool_strip(tool: Tool) -> DrawStrip | None:
    """The strip of a tool, None where it has none."""
    return DrawStrip(tool) if isinstance(tool, DrawTool) else None
