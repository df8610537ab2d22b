"""In and out, on the yard page: outlines of a map taken in, and the sketch written for others."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtGui import QDragEnterEvent, QDropEvent, QHideEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.desk.clipboard import one_file_in
from lawnbook.desk.dialogs import choose_outlines, choose_outlines_file, file_stem
from lawnbook.desk.pages.exchange_review import ExchangeReview, rings_shown
from lawnbook.desk.pages.print_row import PrintRow
from lawnbook.desk.pages.yard_section import YardSection
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.view import SketchView
from lawnbook.desk.wait_line import CALLED_OFF, WaitLine, is_small
from lawnbook.desk.widgets import Caption, Card, LinkButton, QuietButton, Words
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.session.planning import takes_long
from lawnbook.store.map_shapes import MapOutlines
from lawnbook.store.outlines_laid import LaidOutlines, is_drawn, lay_out
from lawnbook.store.outlines_lost import lost_of
from lawnbook.store.outlines_reading import SUFFIXES, read_outlines
from lawnbook.store.outlines_svg import SVG, write_svg
from lawnbook.store.outlines_taken import taken_in, told_of
from lawnbook.store.outlines_written import GEOJSON, write_geojson
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import bounds_ft, yard_bounds_ft
from lawnbook.yard.notebook import Notebook, put
from lawnbook.yard.problems import OwnerError

TAKE_IN = tr(
    "Outlines of a map, as GeoJSON or KML; a file may be dropped here. They are "
    "looked over before anything is kept."
)
AS_GOOD = tr(
    "An outline is as good as the map it was traced on: check one side with a tape "
    "before you trust its area. Mind the map's licence before you pass outlines "
    "on. No map shows every buried line: have them marked before you dig."
)
WRITE = tr(
    "GeoJSON holds the ground, heads and spots in longitude and latitude for other "
    "programs; SVG is a drawing true to scale, to print or to hand on."
)

ON_PAPER = tr(
    "The part of the sketch that is in view, its colours and legend, as it is "
    "seen. Zoom and colour it first."
)


Write = Callable[[Notebook, Path, Callable[[], None]], str]
"""Writes the sketch of a notebook to a file, calling back before it does; what is to be told."""


class ExchangeSection(YardSection):
    """A file of outlines is read, laid out to be looked over, and taken in as one step."""

    def __init__(
        self, book: OpenNotebook, control: SketchControl, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("yard_exchange")
        self._book, self._control = book, control
        self._read: MapOutlines | None = None
        self._laid: LaidOutlines | None = None
        self._looked_at: Notebook | None = None
        self._followed: set[SketchView] = set()
        self._choose = QuietButton(tr("Take in outlines…"), "read_outlines", self)
        self._said = _said("outlines_said", self)
        self._wait = WaitLine("outlines_reading", self)
        self._review = ExchangeReview(self)
        self._geojson = QuietButton(tr("Save as GeoJSON…"), "write_geojson", self)
        self._svg = QuietButton(tr("Save as SVG…"), "write_svg", self)
        self._wrote = _said("outlines_written", self)
        self._writing = WaitLine("outlines_writing", self)
        self._paper = PrintRow(
            "sketch", (tr("Print as seen…"), tr("Save as PDF…")), tr("the sketch"), self
        )
        self._place = Words("", "", self)
        self._place.setObjectName("outlines_place")
        self._forget = LinkButton(tr("Forget this place"), "forget_place", self)
        self._lay_out()
        self._listen()
        self.setAcceptDrops(True)

    def show_plan(self, plan: Plan) -> None:
        """Show the notebook; a file that is being looked over is laid out anew on it."""
        now = self._book.notebook
        self._say_place()
        before, self._looked_at = self._looked_at, now
        changed = before is None or any(
            getattr(before, name) is not getattr(now, name)
            for name in ("yard", "zones", "features", "heads", "spots", "backdrops")
        )
        if changed and self._read is not None:
            self._consider(keep=True)

    def read_outlines(self, path: Path) -> None:
        """Read a file of outlines and show what it holds; nothing is changed yet."""
        self._leave()
        self._wait.do(
            tr("Reading {name}…", name=path.name),
            lambda _: read_outlines(path),
            self._arrived,
            at_once=is_small(path),
        )

    def _arrived(self, outcome: object) -> None:
        if isinstance(outcome, OwnerError):
            self._said.say(str(outcome), "refuse")
        elif isinstance(outcome, MapOutlines):
            self._read = outcome
            self._consider()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take one file of outlines that is dragged here."""
        if one_file_in(event.mimeData(), SUFFIXES) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Read the file that was dropped."""
        path = one_file_in(event.mimeData(), SUFFIXES)
        if path is not None:
            event.acceptProposedAction()
            self.read_outlines(path)

    def hideEvent(self, event: QHideEvent) -> None:
        """What is not looked over is not drawn either."""
        super().hideEvent(event)
        self._control.scene.show_preview(())

    def showEvent(self, event: QShowEvent) -> None:
        """Draw again what is looked over."""
        super().showEvent(event)
        self._preview()

    def _consider(self, *, keep: bool = False) -> None:
        """Lay the file on the sketch as it stands, and show what would become of it."""
        if self._read is None:
            return
        notebook = self._book.notebook
        try:
            self._laid = lay_out(self._read, notebook)
        except OwnerError as problem:
            self._leave()
            sentence = str(problem)
            self._said.say(f"{sentence[:1].upper()}{sentence[1:]}", "refuse")
            return
        self._looked_at = notebook
        self._review.show_laid(self._laid, notebook, keep=keep)
        self._said.say("")
        self._preview(reveal=not keep)

    def _preview(self, *, reveal: bool = False) -> None:
        if self._laid is None:
            self._control.scene.show_preview(())
            return
        rings = rings_shown(self._laid, self._review.becomes)
        self._control.scene.show_preview(rings)
        if reveal and rings:
            self._bring_into_sight(rings)

    def _resized(self) -> None:
        """A view that shows all goes on showing what is looked over as well."""
        views = self._control.scene.views()
        fits = any(isinstance(view, SketchView) and view.fits for view in views)
        if self._laid is not None and self.isVisible() and fits:
            self._preview(reveal=True)

    def _bring_into_sight(self, rings: list[Outline]) -> None:
        """Zoom the sketch so that the new outlines and what is drawn are all in view."""
        notebook = self._book.notebook
        boxes = [bounds_ft(rings)]
        boxes += [yard_bounds_ft(notebook)] if is_drawn(notebook) else []
        wests, souths, easts, norths = zip(*boxes, strict=True)
        for view in self._control.scene.views():
            if isinstance(view, SketchView):
                if view not in self._followed:
                    # After the panel's own answer, which fits the yard alone.
                    self._followed.add(view)
                    view.resized.connect(self._resized)
                view.fit((min(wests), min(souths), max(easts), max(norths)))

    def _take(self) -> None:
        if self._laid is None:
            return
        try:
            notebook, becomes = self._book.notebook, list(self._review.becomes)
            change = taken_in(notebook, self._laid, becomes)
            lost = lost_of(notebook, self._laid, becomes, change)
        except OwnerError as problem:
            self._said.say(str(problem), "refuse")
            return
        # The file is done with before the edit is told, or it would be laid out once more.
        read, laid = self._read, self._laid
        self._leave()
        try:
            self._book.edit(change, tr("take in outlines"))
        except OwnerError as problem:
            self._read, self._laid = read, laid
            self._review.show_laid(laid, self._book.notebook)
            self._review.becomes = becomes
            self._said.say(str(problem), "refuse")
            return
        told = told_of(change)
        words = f"{told[:1].upper()}{told[1:]} {lost}".strip()
        self._said.say(
            tr("{words} Undo takes all of it back.", words=words), "warn" if lost else "good"
        )

    def _give_up(self) -> None:
        self._leave()
        self._said.say(tr("Nothing was taken in."), "caption")

    def _leave(self) -> None:
        self._wait.drop()
        self._read = self._laid = None
        self._review.hide()
        self._said.say("")
        self._control.scene.show_preview(())

    def _ask_file(self) -> None:
        path = choose_outlines(self, self._book.path.parent)
        if path is not None:
            self.read_outlines(path)

    def _write(self, suffix: str, write: Write) -> None:
        if self._writing.in_the_way:
            self._wrote.say(self._writing.in_the_way, "refuse")
            return
        notebook = self._book.notebook
        stem = file_stem(notebook.yard.name) or "yard"
        path = choose_outlines_file(self, self._book.path.parent / f"{stem}{suffix}")
        if path is None:
            return
        self._wrote.say("")
        self._writing.write(
            tr("Writing {name}…", name=path.name),
            path.name,
            lambda stop: write(notebook, path, stop.settle),
            lambda outcome: self._written(path, outcome),
            at_once=not takes_long(notebook),
        )

    def _written(self, path: Path, outcome: object) -> None:
        if isinstance(outcome, OwnerError):
            sentence = str(outcome)
            self._wrote.say(f"{sentence[:1].upper()}{sentence[1:]}", "refuse")
            return
        words = tr("{name} is written. {told}", name=path.name, told=outcome)
        self._wrote.say(words.strip(), "good")

    def _say_place(self) -> None:
        yard = self._book.notebook.yard
        known = yard.origin_latitude_deg is not None and yard.origin_longitude_deg is not None
        self._forget.setVisible(known)
        if known:
            at = f"{yard.origin_latitude_deg:.6f}°, {yard.origin_longitude_deg:.6f}°"
            told = tr(
                "The sketch's zero point lies at {at}; outlines of maps are laid out by it.", at=at
            )
        else:
            told = tr(
                "The sketch has no place on earth yet; the first outlines taken in give it one."
            )
        self._place.setText(told)

    def _forget_place(self) -> None:
        notebook = self._book.notebook
        yard = replace(notebook.yard, origin_latitude_deg=None, origin_longitude_deg=None)
        self._book.edit(put(notebook, "yard", yard), tr("forget the sketch's place"))

    def _listen(self) -> None:
        self._choose.clicked.connect(self._ask_file)
        self._wait.cancelled.connect(self._give_up)
        self._wait.failed.connect(self._give_up)
        self._review.taken.connect(self._take)
        self._review.left.connect(self._give_up)
        self._review.changed.connect(self._preview)
        self._writing.cancelled.connect(lambda: self._wrote.say(CALLED_OFF))
        self._writing.failed.connect(lambda: self._wrote.say(""))
        self._geojson.clicked.connect(lambda: self._write(GEOJSON, write_geojson))
        self._svg.clicked.connect(lambda: self._write(SVG, write_svg))
        self._forget.clicked.connect(self._forget_place)

    def _lay_out(self) -> None:
        take = Card(tr("Take in outlines"), self)
        take.body.addWidget(Caption(TAKE_IN, self, wrap=True))
        take.body.addLayout(_row(self._choose))
        take.body.addWidget(self._wait)
        take.body.addWidget(self._review)
        take.body.addWidget(self._said)
        take.body.addWidget(Caption(AS_GOOD, self, wrap=True))
        write = Card(tr("Write the sketch"), self)
        write.body.addWidget(Caption(WRITE, self, wrap=True))
        write.body.addLayout(_row(self._geojson, self._svg))
        write.body.addWidget(self._writing)
        write.body.addWidget(self._wrote)
        paper = Card(tr("On paper"), self)
        paper.body.addWidget(Caption(ON_PAPER, self, wrap=True))
        paper.body.addWidget(self._paper)
        place = Card(tr("Its place on earth"), self)
        place.body.addWidget(self._place)
        place.body.addLayout(_row(self._forget))
        for card in (take, write, paper, place):
            self.body.addWidget(card)


def _said(name: str, parent: QWidget) -> Words:
    words = Words("", "caption", parent)
    words.setObjectName(name)
    words.say("")
    return words


def _row(*widgets: QWidget) -> QHBoxLayout:
    row = QHBoxLayout()
    for each in widgets:
        row.addWidget(each)
    row.addStretch(1)
    return row
