"""The catch test of a zone: where the cans stood, the run, and what each caught, with live answers.

The cans may be placed on the sketch (a `CanDraft`) or be a plain list. Kept tests stand below;
the one picked shows its cans one by one beside the computed map.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, cast

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.agronomy.cans import ENOUGH
from lawnbook.desk.can_draft import CanDraft
from lawnbook.desk.figures import FigureHand, let_open
from lawnbook.desk.pages.cans_figures import (
    CanFigures,
    Reading,
    bare_cans,
    figures_of,
    figures_of_test,
    map_rates,
)
from lawnbook.desk.pages.cans_kept import RATE_COLUMN, KeptCans, kept_rows, test_heads
from lawnbook.desk.pages.cans_mouth import MOUTH, MouthFields
from lawnbook.desk.pages.cans_rows import CanRows, Unit
from lawnbook.desk.pages.cans_words import (
    TYPE_THEM,
    WRONG_CANS,
    clogged_words,
    enough_words,
    evenness_words,
    needed_words,
    rate_words,
    where_words,
)
from lawnbook.desk.pages.entry_panel import Answer, EntryPanel, EntrySetting
from lawnbook.desk.pages.water_records import ZoneId
from lawnbook.desk.row_figures import RowFigures
from lawnbook.desk.theme import UI_POINTS, sans
from lawnbook.desk.widgets import LinkButton, QuietButton, Words
from lawnbook.plan.map_workings import can_workings, one_can_workings
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.fields import Point
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import CatchTest, Record

FIELDS = ("date", "run_minutes", "pressure_psi", MOUTH)
STEPS = (tr("1   Where the cans stand"), tr("2   The run"), tr("3   What each can caught"))
STEP_GAP_PX = 8
PREFIX = "catch_tests_"


class CansPanel(EntryPanel):
    """Entry and list of one zone's catch tests. `place_wanted` asks for the sketch's Can tool."""

    place_wanted = Signal()

    def __init__(self, book: OpenNotebook, zone_id: ZoneId, parent: QWidget | None = None) -> None:
        setting = EntrySetting(
            table="catch_tests",
            noun="catch test",
            names=FIELDS,
            heads=test_heads,
            rows=lambda: kept_rows(book, zone_id()),
            title=lambda each: tr("catch test of {date}", date=day(each.date)),
            given=lambda: _given(book, zone_id()),
            answer=self._answer_to,
            complete=self._with_cans,
            empty=tr("No cans set out here yet. Until then the evenness is assumed."),
            most_rows=4,
            workings=self._workings_of,
            answered=lambda _: self._workings(),
        )
        super().__init__(book, setting, parent)
        self._notes, self._zone_id = book, zone_id
        self._draft: CanDraft | None = None
        self._placing = ""
        self.rows = CanRows(self)
        self.mouth = MouthFields(self.form, PREFIX)
        self.kept_cans = KeptCans(self)
        self.unplace_button = LinkButton(tr("Without places"), f"{PREFIX}unplace", self)
        self.place_button = QuietButton(tr("Place them on the sketch"), f"{PREFIX}place", self)
        self._where = self._words("where", "caption")
        self._evenness = self._words("evenness", "")
        self._flags = self._words("flags", "warn")
        self._enough = self._words("enough", "caption")
        self._told: CanFigures | None = None
        let_open(self._workings, self._evenness, self._enough)
        FigureHand(self.rows, self._workings, by_click=False)
        self.rows.let_cans_open(self._workings_of_typed)
        RowFigures(self.kept_cans.table, self._workings_of_kept, lambda at: at == RATE_COLUMN)
        let_open(lambda: self._workings_of(self.table.picked_id()), self.kept_cans)
        self._set_in()
        self._hear()
        self._load_cans("")

    def use_draft(self, draft: CanDraft) -> None:
        """Follow the cans placed on the sketch, whenever they stand in this panel's zone."""
        self._draft = draft
        draft.changed.connect(self._follow_draft)
        self._follow_draft()

    def refresh(self) -> None:
        """Show the list as the notebook holds it, and the map as the heads stand now."""
        super().refresh()
        self._say_where()
        self._show_kept()

    def examine(self) -> None:
        """Say everything that follows from what is typed now."""
        places = self.rows.places
        maps = map_rates(self._notes.notebook, self._zone_id(), places)
        cans = bare_cans(self.rows.readable(), places, maps)
        reading = self._reading()
        told = None
        if isinstance(reading, Reading):
            told = _figures_or_none(cans, reading)
        self.rows.show_figures(told, cans)
        self._say_figures(told)
        super().examine()

    def _answer_to(self, _values: Mapping[str, Any]) -> Answer:
        """The headline below the rows: the rate, or what it still needs."""
        typed = [each for each in self.rows.readable() if each is not None]
        if not typed:
            return TYPE_THEM, "caption"
        reading = self._reading()
        if isinstance(reading, str):
            return reading, "caption"
        told = _figures_or_none(bare_cans(typed, (), ()), reading)
        if told is None:
            return WRONG_CANS, "refuse"
        return rate_words(told), "caption" if told.low is None else "good"

    def _reading(self) -> Reading | str:
        """How the cans are read, or what is still needed for it."""
        values = self.form.readable()
        run, mouth = values.get("run_minutes") or 0.0, values.get(MOUTH) or 0.0
        by_volume = self.mouth.unit == "mL"
        if run <= 0 or (by_volume and mouth <= 0):
            return needed_words(run=run <= 0, mouth=by_volume and mouth <= 0)
        return Reading(run_minutes=run, can_mouth_sqin=mouth if by_volume else None)

    def _say_figures(self, told: CanFigures | None) -> None:
        notebook, zone_id = self._notes.notebook, self._zone_id()
        self._told = told
        self._evenness.say("" if told is None else evenness_words(told))
        self._flags.say("" if told is None else clogged_words(notebook, zone_id, told))
        zone = notebook.zones.get(zone_id)
        study = "" if zone is None else ENOUGH[zone.sprinklers]
        enough = "" if told is None else enough_words(told)
        self._enough.say(f"{enough} {study}" if enough else "")

    def _with_cans(self, record: Any) -> Record:
        """The test with its cans. OwnerError where what one caught cannot be read."""
        caught, places = self.rows.values(), self.rows.places
        if self.mouth.unit == "mL":
            whole = replace(record, volumes_ml=caught, depths_in=(), at_ft=places)
        else:
            whole = replace(
                record, volumes_ml=(), depths_in=caught, at_ft=places, can_mouth_sqin=None
            )
        return cast(Record, whole)

    def _load_cans(self, record_id: str) -> None:
        """Show the cans of the test in the form, or rows for a new one."""
        test = self._notes.notebook.catch_tests.get(record_id)
        self._placing = ""
        if test is not None:
            self._show_unit("in" if test.depths_in else "mL")
            self.rows.load(test.volumes_ml or test.depths_in, test.at_ft)
        else:
            before = _latest(self._notes, self._zone_id())
            self._show_unit("in" if before is not None and before.depths_in else "mL")
            self.rows.load((), self._placed())
        self._say_where()
        self.examine()
        self._show_kept()

    def _show_unit(self, unit: Unit) -> None:
        self.mouth.show_unit(unit)
        self.rows.set_unit(unit)

    def _read_otherwise(self) -> None:
        self.rows.set_unit(self.mouth.unit)
        self.form.changed.emit()

    def _placed(self) -> tuple[Point, ...]:
        """The cans on the sketch that stand in this panel's zone."""
        draft = self._draft
        return draft.places if draft is not None and draft.zone_id == self._zone_id() else ()

    def _follow_draft(self) -> None:
        """Take over the cans on the sketch; a kept test's only while its own are being placed."""
        follows = not self.is_open or self._placing == self.open_id
        if follows and self._placed() != self.rows.places:
            self.rows.set_places(self._placed())
            self.examine()
        self._say_where()

    def _place(self) -> None:
        """Ask for the sketch's tool, with the cans of a kept test in it where one is open."""
        self._placing = self.open_id
        if self._draft is not None and self.rows.places and self._placed() != self.rows.places:
            self._draft.take(self._zone_id(), self.rows.places)
        self._follow_draft()
        self.place_wanted.emit()

    def _unplace(self) -> None:
        if self._draft is not None and self._placed():
            self._draft.clear()
        self.rows.set_places(())
        self._say_where()
        self.examine()

    def _light(self, row: int) -> None:
        """Light the can that is typed into on the sketch."""
        if self._draft is not None and self._placed() == self.rows.places and self.rows.places:
            self._draft.pick(row)

    def _forget_draft(self, record_id: str) -> None:
        """What was placed for a test is in the test now."""
        test = self._notes.notebook.catch_tests.get(record_id)
        if self._draft is not None and test and test.at_ft and test.at_ft == self._placed():
            self._draft.clear()

    def _point_at_wrong_can(self) -> None:
        """Take the keyboard to the can that kept the test from being kept."""
        try:
            self.rows.values()
        except OwnerError as problem:
            if str(problem) == self._whole.sentence.text():
                self.rows.mark_wrong()

    def _say_where(self) -> None:
        zones, draft = self._notes.notebook.zones, self._draft
        there = zones.get(draft.zone_id) if draft is not None else None
        elsewhere = there if there is not None and there.id != self._zone_id() else None
        count = len(draft.places) if draft is not None and elsewhere is not None else 0
        name = elsewhere.name if elsewhere is not None and count else ""
        self._where.say(where_words(self.rows.places, name, count))
        self.unplace_button.setVisible(bool(self.rows.places))

    def _workings(self) -> tuple[Working, ...]:
        """How the figures of the cans typed so far came about."""
        reading = self._reading()
        if self._told is None or not isinstance(reading, Reading):
            return ()
        caught = [each.caught for each in self._told.cans if each.caught is not None]
        origin = tr("typed here, not kept yet")
        return can_workings(caught, reading.run_minutes, reading.can_mouth_sqin, origin)

    def _workings_of(self, test_id: str) -> tuple[Working, ...]:
        """The same of a kept test."""
        test = self._notes.notebook.catch_tests.get(test_id)
        if test is None:
            return ()
        mouth = test.can_mouth_sqin if test.volumes_ml else None
        origin = tr("catch test of {day}", day=day(test.date))
        return can_workings(test.volumes_ml or test.depths_in, test.run_minutes, mouth, origin)

    def _workings_of_typed(self, row: int) -> tuple[Working, ...]:
        """How the rate of one can came about that is typed."""
        reading = self._reading()
        cans = () if self._told is None else self._told.cans
        if row >= len(cans) or cans[row].caught is None or not isinstance(reading, Reading):
            return ()
        caught, mouth = cans[row].caught or 0.0, reading.can_mouth_sqin
        origin = tr("typed here, not kept yet")
        return one_can_workings(row + 1, caught, reading.run_minutes, mouth, origin)

    def _workings_of_kept(self) -> tuple[Working, ...]:
        """The same of the can picked of a kept test."""
        test = self._notes.notebook.catch_tests.get(self.table.picked_id())
        number = int(self.kept_cans.table.picked_id() or 0)
        caught = () if test is None else test.volumes_ml or test.depths_in
        if test is None or not 0 < number <= len(caught):
            return ()
        mouth = test.can_mouth_sqin if test.volumes_ml else None
        origin = tr("catch test of {day}", day=day(test.date))
        return one_can_workings(number, caught[number - 1], test.run_minutes, mouth, origin)

    def _show_kept(self) -> None:
        """Show the picked test's cans, unless it is in the form."""
        self._show_buttons()
        test = self._notes.notebook.catch_tests.get(self.table.picked_id())
        told = figures_of_test(self._notes.notebook, test) if test is not None else None
        if test is None or told is None or test.id == self.open_id:
            self.kept_cans.hide()
            return
        flags = clogged_words(self._notes.notebook, test.zone, told)
        parts = (
            tr("{date}, can by can.", date=day(test.date)),
            rate_words(told),
            evenness_words(told),
        )
        title = " ".join(part for part in parts if part)
        self.kept_cans.show_test(title, told, "in" if test.depths_in else "mL", flags)

    def _words(self, name: str, role: str) -> Words:
        made = Words("", role, self)
        made.setObjectName(f"{PREFIX}{name}")
        made.hide()
        return made

    def _set_in(self) -> None:
        """Put the three steps around the form of the plain entry."""
        steps = [Words(each, "", self, wrap=False) for each in STEPS]
        for step in steps:
            step.setFont(sans(UI_POINTS, QFont.Weight.DemiBold))
        for step in steps[1:]:
            step.setContentsMargins(0, STEP_GAP_PX, 0, 0)
        where = QHBoxLayout()
        where.setSpacing(10)
        where.addWidget(self._where, 1)
        for button in (self.unplace_button, self.place_button):
            where.addWidget(button, 0, Qt.AlignmentFlag.AlignTop)
        self._whole = self.form.lift_trouble()
        self.body.insertWidget(0, steps[0])
        self.body.insertLayout(1, where)
        self.body.insertWidget(2, steps[1])
        for place, part in enumerate((steps[2], self.rows, self._whole), 4):
            self.body.insertWidget(place, part)
        for place, part in enumerate((self._evenness, self._flags, self._enough), 8):
            self.body.insertWidget(place, part)
        self.body.addWidget(self.kept_cans)

    def _hear(self) -> None:
        self.rows.changed.connect(self.form.changed)
        self.rows.entered.connect(self.form.entered)
        self.rows.reached.connect(self._light)
        self.rows.told.connect(self._trouble.say)
        self.mouth.changed.connect(self._read_otherwise)
        self.place_button.clicked.connect(self._place)
        self.unplace_button.clicked.connect(self._unplace)
        self.opened.connect(self._load_cans)
        self.kept.connect(self._forget_draft)
        self.refused.connect(self._point_at_wrong_can)
        self.table.selectionModel().selectionChanged.connect(lambda *_: self._show_kept())


def _figures_or_none(cans: Any, reading: Reading) -> CanFigures | None:
    """The figures, None where these readings give none."""
    try:
        return figures_of(cans, reading)
    except ValueError:
        return None


def _latest(book: OpenNotebook, zone_id: str) -> CatchTest | None:
    """The newest test, of this zone where it has one: the next is likely read alike."""
    tests = sorted(book.notebook.catch_tests.values(), key=lambda t: (t.zone == zone_id, t.date))
    return tests[-1] if tests else None


def _given(book: OpenNotebook, zone_id: str) -> dict[str, Any]:
    before = _latest(book, zone_id)
    mouth = None if before is None else before.can_mouth_sqin
    return {"zone": zone_id, "date": book.today, MOUTH: mouth}
