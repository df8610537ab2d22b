"""The first step of size: draw, trace, or type a rectangle, a circle, or an area alone."""

from functools import partial

from PySide6.QtWidgets import QVBoxLayout

from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.first_steps_card import StepCard
from lawnbook.desk.pages.typed_row import TypedRow
from lawnbook.desk.sketch.draw_shapes import beside_drawn
from lawnbook.desk.widgets import Caption, PrimaryButton, name_control
from lawnbook.plan.assumed import square_of, standard_sqft
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.yard.amounts import told, unit_shown
from lawnbook.yard.curves import circle
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.notebook import new_id, put
from lawnbook.yard.numbers import parse_feet
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.record_base import Assumed
from lawnbook.yard.records import Zone
from lawnbook.yard.shape_records import free_names

LINES = {
    "rectangle": ("length", "width"),
    "circle": ("across",),
    "area": ("area",),
}
"""The lines to type for each way of telling a size."""

LINE_WORDS = {"length": "Length", "width": "Width", "across": "Across", "area": "Area"}


class SizeCard(StepCard):
    """Zones, one for each valve: drawn on the sketch, or put down from typed figures."""

    STEP = "size"

    def title(self) -> str:
        """The name of the step."""
        return tr("Size")

    def what(self) -> str:
        """What there is to do."""
        return tr(
            "Tell how large the lawn is, zone by zone: a zone is what one valve, or one sprinkler, "
            "waters. Draw it, trace it, or type what you know; a corner can be moved later."
        )

    def leaving(self) -> str:
        """The words of the link that leaves the step at its default."""
        area = told(standard_sqft(), 0, "sq ft")
        return tr("I don’t know: take {area} for now", area=area)

    def lay_out(self) -> None:
        """Two buttons to the sketch; below them the figures to type."""
        column = QVBoxLayout(self.inside)
        column.setContentsMargins(0, 0, 0, 0)
        draw = self.button(tr("Draw it on the sketch"), "draw", "Zone")
        trace = self.button(tr("Trace it over a picture"), "trace", "Backdrop")
        column.addLayout(self.row(draw, trace))
        self.typed = TypedRow("first_size", self)
        self.way = ChoiceBox(self)
        name_control(self.way, "first_size_way", tr("What you know of the size"))
        self.way.addItem(tr("Length and width"), "rectangle")
        self.way.addItem(tr("A circle"), "circle")
        self.way.addItem(tr("Only the area"), "area")
        self.way.setMinimumContentsLength(16)
        self.way.activated.connect(lambda _: self._show_way())
        self.typed.add(tr("Or type it"), self.way)
        for name, spoken in LINE_WORDS.items():
            self.typed.add_line(name, tr(spoken), tr(spoken))
        self.typed.add_line("name", tr("Its name"), tr("Name of the zone"), 150)
        put_down = PrimaryButton(tr("Put it down"), "first_put_down", self)
        put_down.clicked.connect(self.put_down)
        self.typed.add("", put_down)
        self.typed.end()
        self._hint = Caption("", self, wrap=True)
        column.addWidget(self.typed)
        column.addWidget(self._hint)
        for line in self.typed.lines.values():
            line.returnPressed.connect(self.put_down)
        self._show_way()

    def fill(self, plan: Plan) -> None:
        """Captions in the owner's units, and a name that is free."""
        feet, area = unit_shown("ft"), unit_shown("sq ft")
        for name, words, unit in (
            ("length", tr("Length"), feet),
            ("width", tr("Width"), feet),
            ("across", tr("Across"), feet),
            ("area", tr("Area"), area),
        ):
            self.typed.caption(name, f"{words}, {unit}")
        self.typed.lines["name"].setPlaceholderText(self._free_name())
        self.leave.setVisible(not plan.zones)

    def put_down(self) -> None:
        """Make a zone of what is typed; what is wrong with it is said below."""
        way = str(self.way.currentData())
        for name in LINES[way]:
            if not self.typed.text(name).strip():
                self.typed.refuse(tr("Enter what is missing here."), name)
                self.typed.lines[name].setFocus()
                return
        try:
            outline = self._outline(way)
        except OwnerError as problem:
            self.typed.refuse_what(problem, LINES[way][0])
            return
        if self._keep(outline, ("square",) if way == "area" else ()):
            self.typed.refuse("")
            for line in self.typed.lines.values():
                line.show_text("")

    def _leave(self) -> None:
        """Without anything known: the square of the area that rates are told for."""
        self._keep(square_of(standard_sqft(), beside_drawn(self._book.notebook)), ("square",))

    def _keep(self, outline: Outline, assumed: tuple[Assumed, ...]) -> bool:
        name = self.typed.text("name").strip() or self._free_name()
        zone = Zone(id=new_id(), name=name, outline_ft=outline, assumed=assumed)
        return self.edit(put(self._book.notebook, "zones", zone), tr("new zone: {name}", name=name))

    def _free_name(self) -> str:
        held = {zone.name for zone in self._book.notebook.zones.values()}
        name = tr("Lawn")
        return name if name not in held else free_names(self._book.notebook, "zones", name, 1)[0]

    def _outline(self, way: str) -> Outline:
        """The outline that is typed, beside what is drawn. OwnerError where it cannot be read."""
        corner = beside_drawn(self._book.notebook)
        if way == "area":
            return square_of(self.typed.read("area", _area), corner)
        sides = [self.typed.read(name, partial(_side, tr(LINE_WORDS[name]))) for name in LINES[way]]
        if way == "circle":
            radius = sides[0] / 2
            return circle((corner[0] + radius, corner[1] + radius), radius)
        return rectangle_ft(corner, sides[0], sides[1])

    def _show_way(self) -> None:
        way = str(self.way.currentData())
        for name in ("length", "width", "across", "area"):
            self.typed.show_control(self.typed.lines[name], shown=name in LINES[way])
        self.typed.refuse("")
        square = tr(
            "It is put down as a square of that area, marked so: minutes and weights need no more; "
            "edges, heads and strips do."
        )
        self._hint.setText(square if way == "area" else "")
        self._hint.setVisible(way == "area")


def _side(words: str, text: str) -> float:
    return _something(parse_feet(text, words))


def _area(text: str) -> float:
    return _something(parse_measure(text, tr("Area"), "sq ft"))


def _something(size: float) -> float:
    if size <= 0:
        raise OwnerError(tr("A zone is larger than nothing; enter what you measured."))
    return size
