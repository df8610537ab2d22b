"""Walk round, on the yard page: sides and diagonals from the tape become a shape on the sketch."""

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QTimer
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.desk.figures import let_open
from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.marks_view import MarksView
from lawnbook.desk.pages.walk_diagonals import DiagonalRows
from lawnbook.desk.pages.walk_picture import PICTURE_PT, described, walk_picture
from lawnbook.desk.pages.walk_placing import (
    HOLE,
    MEND,
    ZONE,
    Filled,
    filled_from,
    made,
    mends,
    placed,
)
from lawnbook.desk.pages.walk_sides import SideRows
from lawnbook.desk.pages.walk_words import (
    AS_DRAWN,
    KEPT,
    area_words,
    caution_words,
    corner_words,
    how_words,
    kept_words,
)
from lawnbook.desk.pages.yard_section import YardSection
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.inspector import KINDS
from lawnbook.desk.sketch.view import SketchView
from lawnbook.desk.telling import follow
from lawnbook.desk.widgets import (
    Caption,
    Card,
    Heading,
    LinkButton,
    PrimaryButton,
    QuietButton,
    Words,
    name_control,
)
from lawnbook.plan.ground_workings import shape_workings
from lawnbook.plan.model import Plan
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import bounds_ft, yard_bounds_ft
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Zone
from lawnbook.yard.walk_measures import Pair
from lawnbook.yard.walk_records import Closed, Lack, Walk
from lawnbook.yard.walk_round import close_or_lack, sure_words, walk_of

SOON_MS = 120
"""How long after a key the shape is fitted anew: fitting many corners takes as long as typing."""

_TAKE_LINE = tr("Click where corner A is, then which way side A to B runs.")


class WalkSection(YardSection):
    """The rows to type into, the shape live beside them, and how it goes on the sketch."""

    def __init__(
        self, book: OpenNotebook, control: SketchControl, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("yard_walk")
        self._book, self._control = book, control
        self._closed: Closed | None = None
        self._filled: Filled | None = None
        self._line: tuple[Point, Point] | None = None
        self._shown = False
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(SOON_MS)
        self._soon.timeout.connect(self._fit)
        self.sides, self.diagonals = SideRows(), DiagonalRows()
        self._make_words()
        self._make_placing()
        self._lay_out()
        self._listen()
        self._fit()

    def show_plan(self, plan: Plan) -> None:
        """Follow the notebook: what is chosen may be gone, and a new shape lies beside more."""
        del plan
        self._follow()

    def showEvent(self, event: QShowEvent) -> None:
        """The shape is shown on the sketch while the section is open."""
        super().showEvent(event)
        self._follow()

    def hideEvent(self, event: QHideEvent) -> None:
        """What is only shown goes from the sketch."""
        super().hideEvent(event)
        self._shown = False
        self._control.scene.show_preview(())

    def _make_words(self) -> None:
        self._verdict, self._area = Words("", "", self), Words("", "figure", self)
        self._corners, self._caution = Caption("", self, wrap=True), Words("", "warn", self)
        for each, name in (
            (self._verdict, "walk_verdict"),
            (self._area, "walk_area"),
            (self._corners, "walk_corners"),
            (self._caution, "walk_caution"),
        ):
            each.setObjectName(name)
        self._picture = MarksView("walk_picture", tr("The shape that was walked"), self)
        self._outcome = Words("", "good", self)
        self._outcome.setObjectName("walk_outcome")
        self._outcome.hide()
        let_open(self._workings, self._area)

    def _workings(self) -> tuple[Working, ...]:
        """How the area of the walked shape came about."""
        closed = self._closed
        return () if closed is None else shape_workings(closed.outline, ())

    def _make_placing(self) -> None:
        self._into = ChoiceBox(self)
        self._into.setMinimumContentsLength(9)
        name_control(self._into, "walk_into", tr("What it becomes on the sketch"))
        self._put = PrimaryButton(tr("Put it on the sketch"), "walk_put", self)
        self._place = QuietButton(tr("Place by two clicks"), "walk_place", self)
        self._place.setToolTip(_TAKE_LINE)
        self._fill = LinkButton(tr("Fill from the chosen shape"), "walk_fill", self)
        self._fill.setToolTip(tr("Its sides are filled in as drawn, to be mended by tape."))
        self._clear = LinkButton(tr("Start again"), "walk_clear", self)

    def _lay_out(self) -> None:
        how = Words("", "caption", self)
        follow(how, how_words)
        self.body.addWidget(how)
        links = QHBoxLayout()
        links.setSpacing(16)
        for link in (self._fill, self._clear):
            links.addWidget(link)
        links.addWidget(Caption(KEPT, self), 1)
        self.body.addLayout(links)
        across = QHBoxLayout()
        across.setSpacing(10)
        taped = Card(tr("Taped"))
        for part in (self.sides, Heading(tr("Diagonals")), self.diagonals):
            taped.body.addWidget(part)
        taped.body.addStretch(1)
        across.addWidget(taped, 3)
        shape = Card(tr("Shape"))
        for each in (self._picture, self._area, self._verdict, self._corners, self._caution):
            shape.body.addWidget(each)
        shape.body.addStretch(1)
        across.addWidget(shape, 2)
        self.body.addLayout(across)
        self.body.addWidget(self._placing_card())

    def _placing_card(self) -> Card:
        placing = Card(tr("On the sketch"))
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self._into, 1)
        for button in (self._place, self._put):
            row.addWidget(button)
        placing.body.addLayout(row)
        placing.body.addWidget(self._outcome)
        return placing

    def _listen(self) -> None:
        for rows in (self.sides, self.diagonals):
            rows.changed.connect(self._edited)
            rows.entered.connect(self._fit)
        self.sides.taken_out.connect(self.diagonals.without_corner)
        self.sides.put_in.connect(self.diagonals.with_corner)
        self.sides.left_below.connect(self.diagonals.start)
        self._into.activated.connect(lambda _: self._preview())
        self._put.clicked.connect(self._put_down)
        self._place.clicked.connect(self._ask_place)
        self._fill.clicked.connect(self._fill_in)
        self._clear.clicked.connect(self._start_again)
        self._control.chosen.connect(self._choice_changed)

    def _choice_changed(self, _by_owner: bool) -> None:
        """While another section is open the sketch is its own; showing follows the choice too."""
        if self.isVisible():
            self._follow()

    def _edited(self) -> None:
        self._outcome.say("")
        self.diagonals.offer(self.sides.count)
        self._soon.start()

    def _walk(self) -> Walk:
        """What is typed. OwnerError about the first length that is none."""
        count = self.sides.count
        spans = tuple(
            each for each in self.diagonals.diagonals() if max(each.start, each.end) < count
        )
        turns_in, square = self.sides.ticked("turns_in"), self.sides.ticked("square")
        return Walk(self.sides.sides_ft(), spans, turns_in, square)

    def _fit(self) -> None:
        """Fit the shape to what is typed, and show it."""
        self._soon.stop()
        self._closed = None
        self._show_fit()
        try:
            walk = self._walk()
            if len(walk.sides_ft) < 3:
                self._show_shape((), walk, ())
                self._say(tr("Three sides at least make a shape."))
            else:
                self._show(walk, close_or_lack(walk))
        except OwnerError as problem:
            self._show_shape((), Walk(()), ())
            self._say(str(problem), "refuse")
        self._follow()

    def _show(self, walk: Walk, found: Closed | Lack) -> None:
        if isinstance(found, Lack):
            self._show_shape(found.outline, walk, found.pairs)
            self.diagonals.propose(found.pairs[0] if found.pairs else None)
            self._say(found.words, "warn")
            return
        self._closed = found
        self._show_shape(found.outline, walk, ())
        self.diagonals.propose(found.next_best)
        self._say(sure_words(found), "refuse" if found.suspects else "good" if found.spare else "")
        self._area.say(area_words(found))
        self._corners.say(corner_words(found))
        self._caution.say(caution_words(found))
        self._show_fit(walk)

    def _say(self, words: str, role: str = "") -> None:
        """What can be said of the walk; the figures of a closed shape follow it."""
        self._verdict.say(words, role)
        for each in (self._area, self._corners, self._caution):
            each.say("")

    def _show_fit(self, walk: Walk | None = None) -> None:
        """The residual of each row; none where nothing is spare to tell them."""
        closed = self._closed
        if closed is None or walk is None or not closed.spare:
            self.sides.show_fit({}, frozenset())
            self.diagonals.show_fit((), frozenset())
            return
        told, suspects = closed.residuals, set(closed.suspects)
        sides = [i for i, each in enumerate(told) if each.kind == "side"]
        spans = [i for i, each in enumerate(told) if each.kind == "diagonal"]
        suspect_sides = frozenset(told[i].start for i in sides if i in suspects)
        self.sides.show_fit({told[i].start: told[i] for i in sides}, suspect_sides)
        off = frozenset(place for place, i in enumerate(spans) if i in suspects)
        self.diagonals.show_fit(tuple(told[i] for i in spans), off)

    def _show_shape(self, outline: Outline, walk: Walk, proposed: Sequence[Pair]) -> None:
        taped = tuple((each.start, each.end) for each in walk.diagonals)
        draw = partial(walk_picture, outline=outline, taped=taped, proposed=tuple(proposed))
        self._picture.show_picture(draw, described(outline, len(taped), proposed), PICTURE_PT)

    def _follow(self) -> None:
        """Follow what is chosen: what the walk can become, and what it can be filled from."""
        choice, record = self._control.choice, self._control.record()
        self._fill.setEnabled(choice is not None and choice.table in ("zones", "features"))
        filled = self._filled
        target = self._book.notebook.find(*filled.key) if filled is not None else None
        offers = [(ZONE, tr("a new zone"))]
        if mends(target, filled, self.sides.count) and filled is not None:
            offers.insert(0, (MEND, tr("{name}, mended", name=self._control.name(*filled.key))))
        if isinstance(record, Zone):
            offers.append((HOLE, tr("a hole in {name}", name=record.name)))
        offers += [(kind, tr(kind)) for kind in KINDS]
        self._offer(offers)
        self._put.setEnabled(self._closed is not None)
        self._place.setEnabled(self._closed is not None)
        self._preview()

    def _offer(self, offers: Sequence[tuple[str, str]]) -> None:
        """Offer what the walk can become; what was chosen stays while it is there."""
        held = self._into.currentData()
        self._into.clear()
        for data, words in offers:
            self._into.addItem(words, data)
        self._into.setCurrentIndex(max(self._into.findData(held), 0))

    def _over(self) -> Filled | Zone | None:
        """What the walk mends, or is cut from."""
        if self._into.currentData() == MEND:
            return self._filled
        record = self._control.record()
        return record if isinstance(record, Zone) else None

    def _outline(self) -> Outline:
        """The closed shape where it would lie; empty without one."""
        if self._closed is None:
            return ()
        into = str(self._into.currentData())
        return placed(self._book.notebook, self._closed.outline, self._line, into, self._over())

    def _preview(self) -> None:
        self._place.setVisible(self._into.currentData() != MEND)
        if not self.isVisible():
            return
        outline = self._outline()
        self._control.scene.show_preview((outline,) if outline else ())
        if outline and not self._shown:
            self._reveal(outline)
        self._shown = bool(outline)

    def _reveal(self, outline: Outline) -> None:
        """Bring what has just appeared into sight; a view that shows all goes on doing so."""
        yard, shape = yard_bounds_ft(self._book.notebook), bounds_ft((outline,))
        corners = ((yard[0], yard[1]), (yard[2], yard[3]))
        for view in self._control.scene.views():
            if isinstance(view, SketchView) and view.fits:
                view.fit(bounds_ft((outline, corners)))
            elif isinstance(view, SketchView):
                view.reveal(shape)

    def _put_down(self) -> None:
        """Keep the shape as one step, and choose it."""
        self._fit()
        if self._closed is None:
            return
        closed, outline, into = self._closed, self._outline(), str(self._into.currentData())
        try:
            kept = made(self._book.notebook, outline, into, self._over())
        except OwnerError as problem:
            self._outcome.say(str(problem), "refuse")
            return
        label = (
            tr("mend {name} by tape", name=kept.name)
            if into == MEND
            else tr("draw {name} by tape", name=kept.name)
        )
        if not self._control.edit(kept.change, label):
            self._outcome.say(tr("It was not kept: the line under the sketch says why."), "refuse")
            return
        self._line = None
        self._control.choose(kept.choice)
        words = kept_words(kept.name, closed)
        self._outcome.say(words, "good")
        self._control.say(words, "good")

    def _ask_place(self) -> None:
        self._control.ask_line(_TAKE_LINE, self._take_line)

    def _take_line(self, start: Point, toward: Point) -> None:
        self._line = (start, toward)
        self._preview()

    def _fill_in(self) -> None:
        """Fill the sides from the chosen shape."""
        try:
            self._filled = filled_from(self._book.notebook, self._control.choice)
        except OwnerError as problem:
            self._outcome.say(str(problem), "refuse")
            return
        self._load(walk_of(self._filled.outline))
        self._into.setCurrentIndex(max(self._into.findData(MEND), 0))
        self._preview()
        self._outcome.say(AS_DRAWN, "caption")

    def _start_again(self) -> None:
        self._filled = None
        self._load(Walk(()))

    def _load(self, walk: Walk) -> None:
        self._line = None
        self.sides.load(walk)
        self.diagonals.clear()
        self.diagonals.offer(self.sides.count)
        self._outcome.say("")
        self._fit()
        self.sides.start()
