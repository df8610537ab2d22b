"""The next watering on the water page: its figures, other days for it, and the night it runs in."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.charts.marks import Frame, Picture
from lawnbook.charts.night import night_height_pt, night_marks, night_words
from lawnbook.desk.figures import let_open
from lawnbook.desk.pages.marks_view import MarksView
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.pages.water_figures import FigureRow
from lawnbook.desk.pages.water_run_words import (
    PROGRAM_HEADS,
    along_sentence,
    next_title,
    night_rows,
    night_sentence,
    night_title,
    other_days,
    other_nights,
    program_of,
    rain_sentence,
    run_figures,
    unusual_sentence,
    used_sentence,
)
from lawnbook.desk.pages.water_words import times_a_day
from lawnbook.desk.widgets import Caption, Card, Heading, Words
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.ground_workings import night_working, rain_workings
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.plan.water_model import ProgramRun, RainCredit
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr

RUN_FIGURES = ("next_run", "gallons", "cost", "depletion_in")
MOST_ROWS = 6


class NextCard(Card):
    """The next watering of one zone; hidden where none is planned."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("", parent)
        self._title = Heading("", self)
        self._title.setObjectName("next_title")
        self._working = WorkingLink(tr("working"), "next_working", self)
        self.figures = FigureRow("next_figures", tr("Next watering"), self)
        self._along = Words("", "", self)
        self._along.setObjectName("next_along")
        self._unusual = Words("", "", self)
        self._unusual.setObjectName("next_unusual")
        self._used = Words("", "", self)
        self._used.setObjectName("next_used")
        self._rain = Words("", "", self)
        self._rain.setObjectName("next_rain")
        self._credit: RainCredit | None = None
        self._dated: tuple[Working, ...] = ()
        self._others = Words("", "caption", self)
        self._others.setObjectName("next_others")
        top = QHBoxLayout()
        top.addWidget(self._title, 1)
        top.addWidget(self._working, 0, Qt.AlignmentFlag.AlignTop)
        self.body.addLayout(top)
        for each in (
            self.figures,
            self._along,
            self._unusual,
            self._used,
            self._rain,
            self._others,
        ):
            self.body.addWidget(each)
        let_open(lambda: rain_workings(self._credit), self._rain)
        let_open(self._title_workings, self._title)
        self._working.stand_for(self.figures, self._along, self._unusual, self._used, self._others)

    def _title_workings(self) -> Sequence[Working]:
        """Why the next watering is on its day: those of the run where no date is worked out."""
        return self._dated or self._working.workings()

    def show_zone(self, zone: ZoneWater, plan: Plan, places: int = 1) -> None:
        """Show a zone's next watering, what the timer does of it, and a hose's `places`."""
        run, on = zone.next_run, plan.on
        self.setVisible(run is not None)
        if run is None:
            return
        night = program_of(plan, zone)
        along = along_sentence(zone, night, on)
        self._title.say(next_title(run, on, night))
        self._dated = tuple(w for w in zone.workings if w.figure == "next_watering")
        self._along.say(along)
        self._unusual.say(unusual_sentence(zone))
        self._working.set_workings([w for w in zone.workings if w.figure.startswith(RUN_FIGURES)])
        self.figures.show_figures(run_figures(run, times_a_day(zone), places))
        words, short = used_sentence(run)
        self._used.say(words, "warn" if short else "")
        self._credit = zone.rain_credit
        self._rain.say(rain_sentence(self._credit))
        # The run that the timer does early is the other day.
        self._others.say("" if along else "\n".join(other_days(zone, on)))


class NightCard(Card):
    """The night in which a zone runs: the strip, and when each valve opens."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("", parent)
        self._title = Heading("", self)
        self._title.setObjectName("night_title")
        self._run: ProgramRun | None = None
        self._words = Words("", "", self)
        self._words.setObjectName("night_words")
        self._short = Words("", "warn", self)
        self._short.setObjectName("night_short")
        self.strip = MarksView("night_strip", tr("Program of the night"), self)
        names = ("night_table", tr("Start times"))
        self.table = RecordTable(PROGRAM_HEADS, names, (0, 1), MOST_ROWS, self)
        self.table.stretch(1)
        self._others = Caption("", self, wrap=True)
        self._others.setObjectName("night_others")
        for each in (self._title, self._words, self._short, self.strip, self.table, self._others):
            self.body.addWidget(each)

    def open_with(self, workings_of: Callable[[str], Sequence[Working]]) -> None:
        """Let the night's words open its start, and each row its zone's runs, by the zone's id."""
        let_open(self._workings, self._title, self._words, self._short, self.strip, self._others)
        self.table.explain(workings_of)

    def _workings(self) -> tuple[Working, ...]:
        return () if self._run is None else (night_working(self._run),)

    def show_zone(self, zone: ZoneWater, plan: Plan) -> None:
        """Show the night of the program that waters a zone; the other programs in one line."""
        run = program_of(plan, zone)
        others = other_nights(plan.programs, run, plan.on)
        self.setVisible(run is not None)
        self._run = run
        if run is None:
            return
        self._others.say(others)
        self._title.say(night_title(run, plan.on))
        self._words.say(night_sentence(run))
        self._short.say(run.words, "warn" if run.shortfall_minutes else "caption")
        self._show_strip(run, zone.zone_id)
        rows = [Row(zone_id, cells, ", ".join(cells)) for zone_id, cells in night_rows(run)]
        self.table.show_rows(rows, keep=zone.zone_id)

    def _show_strip(self, run: ProgramRun, zone_id: str) -> None:
        def draw(frame: Frame) -> Picture:
            return night_marks(run, zone_id, frame)

        self.strip.setVisible(run.starts is not None)
        self.strip.show_picture(draw, night_words(run), night_height_pt(run, zone_id))
