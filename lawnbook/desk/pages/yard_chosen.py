"""What is chosen, in figures: size, corners, place. Each can be typed over, one step each."""

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.chosen_place import PlacePart
from lawnbook.desk.pages.yard_corners import CornerTable
from lawnbook.desk.sketch.choosing import Choice, is_locked
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.corner_edits import Carries, Figure, retyped
from lawnbook.desk.sketch.foreseeing import show_records
from lawnbook.desk.sketch.operating import (
    at_start,
    chosen_records,
    shape_area_sqft,
    sized,
)
from lawnbook.desk.sketch.outlines import (
    Shape,
    midpoint,
    rings_of,
    sides,
    with_new_corner,
    with_ring,
    without_corner,
    without_hole,
)
from lawnbook.desk.telling import either, follow
from lawnbook.desk.widgets import Caption, Card, QuietButton, Words, name_control
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.check import check
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import perimeter_ft
from lawnbook.yard.numbers import and_joined, counted, feet_inches
from lawnbook.yard.problems import OwnerError, refused
from lawnbook.yard.records import Feature, Record, Spot, Zone

CARRIES: tuple[tuple[str, Carries], ...] = (
    (tr("the next side too"), "next"),
    (tr("its end corner alone"), "end"),
    (tr("all corners after it"), "rest"),
)
CARRIES_LETTERS = 19
HOW = tr(
    "Type over any figure: 32.5, 32' 6\" or 9.9 m. A side keeps its start and its "
    "direction; Insert and Delete add a corner and take it out."
)
HOW_METRIC = tr(
    "Type over any figure: 9.9 or 990 cm. A side keeps its start and its "
    "direction; Insert and Delete add a corner and take it out."
)
HOW_TO_CHOOSE = tr("Choose from the list, or click on the sketch; Shift and click for more.")
KIND_NOUNS = {"zones": "zone", "features": "feature", "heads": "head", "spots": "spot"}


class ChosenCard(Card):
    """The figures of what was chosen first, and how many are chosen with it."""

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__("", parent)
        self._control = control
        self._name = Words("", "heading", self, wrap=True)
        name_control(self._name, "shapes_chosen", tr("What is chosen"))
        self.facts = Caption("", self, wrap=True)
        self.facts.setObjectName("shapes_facts")
        self.corners = CornersPart(control, self)
        self.place = PlacePart(control, self)
        for each in (self._name, self.facts, self.corners, self.place):
            self.body.addWidget(each)

    def refresh(self) -> None:
        """Show what is chosen now."""
        records = chosen_records(self._control)
        record, choice = self._control.record(), self._control.choice
        self._name.setText(_title(self._control))
        self.facts.setText(_facts(record) if record is not None else HOW_TO_CHOOSE)
        if len(records) > 1:
            self.facts.setText(
                tr(
                    "{several}. Figures of the first: {facts}",
                    several=_several(records),
                    facts=_facts(record),
                )
            )
        ring = choice.ring if choice is not None else 0
        corner = choice.corner if choice is not None else None
        self.corners.show_shape(record, ring, corner)
        self.place.show_record(record)


class CornersPart(QWidget):
    """The rings of a zone or feature, corner by corner."""

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._control = control
        self._shape: Shape | None = None
        self._ring = 0
        self._corner: int | None = None
        self.table = CornerTable(self._judge, self)
        self._rings = ChoiceBox(self)
        name_control(self._rings, "shapes_ring", tr("Outline or hole"))
        self._carries = ChoiceBox(self)
        name_control(self._carries, "shapes_carries", tr("What moves with a side"))
        self._carries.setMinimumContentsLength(CARRIES_LETTERS)
        for words, carries in CARRIES:
            self._carries.addItem(words, carries)
        self._trouble = Words("", "refuse", self)
        self._trouble.setObjectName("shapes_corner_problem")
        self._more = QuietButton(tr("Add a corner"), "shapes_corner_add", self)
        self._less = QuietButton(tr("Take it out"), "shapes_corner_remove", self)
        self._fill = QuietButton(tr("Fill this hole"), "shapes_hole_fill", self)
        self._lay_out()
        self._listen()

    def show_shape(self, record: Record | None, ring: int, corner: int | None) -> None:
        """Show a ring of a shape; anything without an outline hides the part."""
        self._shape = record if isinstance(record, Zone | Feature) else None
        self.setVisible(self._shape is not None)
        if self._shape is None:
            return
        rings = rings_of(self._shape)
        self._ring = ring if ring < len(rings) else 0
        self._corner = corner
        self._show_rings(len(rings))
        self.table.show_outline(rings[self._ring], corner)
        free = not self._shape.locked
        for button in (self._more, self._less, self._fill):
            button.setEnabled(free)
        self._less.setEnabled(free and corner is not None and len(rings[self._ring]) > 3)
        self._fill.setVisible(self._ring > 0)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self._rings)
        column.addWidget(self.table)
        column.addWidget(self._trouble)
        row = QHBoxLayout()
        row.setSpacing(8)
        for each in (self._more, self._less, self._fill):
            row.addWidget(each)
        row.addStretch(1)
        column.addLayout(row)
        column.addLayout(self._carries_row())
        how = Caption("", self, wrap=True)
        follow(how, lambda: either(tr(HOW), tr(HOW_METRIC)))
        column.addWidget(how)

    def _carries_row(self) -> QHBoxLayout:
        """On a line of its own, so that its words stand whole in the smallest window."""
        row = QHBoxLayout()
        row.setSpacing(8)
        caption = Caption(tr("When a side is typed over, what moves is"), self)
        caption.setBuddy(self._carries)
        row.addWidget(caption)
        row.addWidget(self._carries)
        row.addStretch(1)
        return row

    def _listen(self) -> None:
        self._rings.activated.connect(self._ring_chosen)
        self.table.trying.connect(self._tried)
        self.table.ended.connect(lambda: self._control.scene.show_preview(()))
        self.table.typed.connect(self._typed)
        self.table.picked.connect(self._choose_corner)
        self.table.more_asked.connect(self._add)
        self.table.less_asked.connect(self._remove)
        self._more.clicked.connect(lambda: self._add(self._corner or 0))
        self._less.clicked.connect(lambda: self._remove(self._corner))
        self._fill.clicked.connect(self._fill_hole)

    def _show_rings(self, count: int) -> None:
        if self._rings.count() != count:
            self._rings.clear()
            self._rings.addItem(tr("Outline"))
            for number in range(1, count):
                self._rings.addItem(tr("Hole {number}", number=number))
        self._rings.setCurrentIndex(self._ring)
        self._rings.setVisible(count > 1)

    def _with(self, row: int, figure: Figure, text: str) -> Shape:
        """The shape with a figure as typed; OwnerError with the mend."""
        assert self._shape is not None
        outline = rings_of(self._shape)[self._ring]
        carries: Carries = self._carries.currentData()
        return with_ring(self._shape, self._ring, retyped(outline, row, figure, text, carries))

    def _wrong(self, shape: Shape) -> str:
        if shape.locked:
            return tr("It is locked; unlock it first.")
        book = self._control.book
        return next((p.sentence for p in refused(check(shape, book.notebook, book.today))), "")

    def _judge(self, row: int, figure: Figure, text: str) -> str:
        try:
            wrong = self._wrong(self._with(row, figure, text))
        except OwnerError as error:
            wrong = str(error)
        self._trouble.say(wrong)
        return wrong

    def _tried(self, row: int, figure: Figure, text: str) -> None:
        self._trouble.say("")
        try:
            shape = self._with(row, figure, text)
        except OwnerError:
            self._control.scene.show_preview(())
            return
        show_records(self._control, shape, wrong=bool(self._wrong(shape)))

    def _typed(self, row: int, figure: Figure, text: str) -> None:
        of_side = figure in ("side", "direction")
        doing = tr("change side {number}" if of_side else "change corner {number}", number=row + 1)
        self._keep(self._with(row, figure, text), doing, tr("changed"))

    def _keep(self, shape: Shape, doing: str, done: str) -> bool:
        choice = self._control.choice
        if choice is None:
            return False
        wrong = self._wrong(shape)
        self._trouble.say(wrong)
        name = self._control.name(choice.table, choice.record_id)
        if wrong or not self._control.keep(
            choice.table, shape, tr("{doing} of {name}", doing=doing, name=name)
        ):
            return False
        if not (isinstance(shape, Zone) and self._control.warn_of_overlap(shape)):
            self._control.say(
                tr(
                    "{at_start} {done}: {sized} now.",
                    at_start=at_start(name),
                    done=done,
                    sized=sized(shape),
                ),
                "good",
            )
        return True

    def _choose_corner(self, corner: int | None) -> None:
        choice = self._control.choice
        if choice is not None and self._shape is not None:
            self._control.choose(Choice(choice.table, choice.record_id, self._ring, corner))

    def _ring_chosen(self) -> None:
        self._ring = self._rings.currentIndex()
        self._choose_corner(0)

    def _outline(self) -> Outline:
        return rings_of(self._shape)[self._ring]

    def _add(self, after: int) -> None:
        if self._shape is not None:
            new = with_new_corner(self._outline(), after, midpoint(*sides(self._outline())[after]))
            if self._keep(
                with_ring(self._shape, self._ring, new), tr("add a corner"), tr("has one more")
            ):
                self._choose_corner(after + 1)

    def _remove(self, corner: int | None) -> None:
        if self._shape is None or corner is None:
            return
        if len(self._outline()) <= 3:
            self._trouble.say(
                tr("An outline has three corners at least; remove the shape instead.")
            )
            return
        less = with_ring(self._shape, self._ring, without_corner(self._outline(), corner))
        if self._keep(less, tr("take out a corner"), tr("has one corner less")):
            self._choose_corner(min(corner, len(self._outline()) - 1))

    def _fill_hole(self) -> None:
        if isinstance(self._shape, Zone) and self._ring:
            self._keep(
                without_hole(self._shape, self._ring), tr("fill a hole"), tr("has one hole less")
            )


def _title(control: SketchControl) -> str:
    choice = control.choice
    if choice is None or control.record() is None:
        return tr("Nothing is chosen")
    name = at_start(control.name(choice.table, choice.record_id))
    rest = len(control.chosen_keys) - 1
    return tr("{name}, and {others}", name=name, others=counted(rest, "other")) if rest else name


def _facts(record: Record | None) -> str:
    if isinstance(record, Zone | Feature):
        round_ft = sum(perimeter_ft(ring) for ring in rings_of(record))
        holes = len(rings_of(record)) - 1
        facts = [sized(record), tr("{round_ft} of edge", round_ft=feet_inches(round_ft))]
        facts += [counted(len(record.outline_ft), "corner")]
        facts += [counted(holes, "hole")] if holes else []
    else:
        facts = [tr("no place yet")] if isinstance(record, Spot) and record.at_ft is None else []
        us = tr("Feet right and up the page from the sketch’s zero; a clockwise arc")
        metric = tr("Metres right and up the page from the sketch’s zero; a clockwise arc")
        facts = facts or [either(us, metric)]
    return ", ".join([*facts, tr("locked")] if record is not None and is_locked(record) else facts)


def _several(records: dict[tuple[str, str], Record]) -> str:
    tables = [table for table, _ in records]
    counts = [counted(tables.count(t), one) for t, one in KIND_NOUNS.items() if t in tables]
    area = sum(shape_area_sqft(r) for r in records.values() if isinstance(r, Zone | Feature))
    return tr(
        "{count} chosen: {counts}, {area} together",
        count=len(records),
        counts=and_joined(counts),
        area=told(area, 0, "sq ft"),
    )
