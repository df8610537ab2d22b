"""Year, on the water page: month by month, plan beside old habit, and the dry year."""

from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.charts.palette import Palette
from lawnbook.charts.told_water import year_summary
from lawnbook.desk.figures import FigureHand, let_open
from lawnbook.desk.forms import FormSetting
from lawnbook.desk.pages.chart_holder import ChartHolder
from lawnbook.desk.pages.live_form import LiveForm
from lawnbook.desk.pages.water_figures import FigureTable, paper_part
from lawnbook.desk.pages.water_pictures import MonthStrip
from lawnbook.desk.pages.water_sections import Section
from lawnbook.desk.pages.water_words import month_sentence, rooting_reminder
from lawnbook.desk.pages.water_year_words import (
    DRY_HELP,
    NO_HABIT,
    NO_YEAR,
    NOT_IRRIGATED,
    dry_year_sentence,
    year_description,
    year_heads,
    year_keys,
    year_rows,
    year_ways,
)
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, Card, Words
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.plan.season import month_in_full
from lawnbook.plan.water_model import ZoneYear
from lawnbook.plan.working_model import Working
from lawnbook.plan.year_keys import YEAR_KEYS, Way
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from lawnbook.charts.marks import Frame
    from lawnbook.charts.profile_hits import Hit

YEAR_FIGURES = ("year",)
CHART_HEIGHT_PX = 226
PLANNED: Mapping[str, str] = MappingProxyType(
    {"gallons": "year_gallons", "cost": "year_cost", "wets": "year_wets_soil_in"}
)
"""The plan's figures that are among its workings, by the keys of the table's rows."""


class YearSection(Section):
    """Twelve months of a zone, the year under the plan and the old habit, the dry year."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._zone: ZoneWater | None = None
        self._on = book.today
        self._month_shown = 0
        self._year_shown: ZoneYear | None = None
        self.strip = MonthStrip()
        self._month = Caption("", wrap=True)
        self._month.setObjectName("month_words")
        self.chart = ChartHolder("water_year_chart", tr("Water by month, plan and old habit"))
        sized(self.chart, height=CHART_HEIGHT_PX)
        self._words = Words()
        self._words.setObjectName("year_words")
        self._basis = Caption("", wrap=True)
        self._basis.setObjectName("year_basis")
        self.totals = FigureTable("year_totals", tr("The year's water"))
        self._working = WorkingLink(tr("working"), "year_working")
        setting = FormSetting(today=book.today, prefix="dry_")
        names = ("drought", "drought_share")
        self.dry_form = LiveForm(book, "yard", names, None, 2, setting)
        self._cost = Words()
        self._cost.setObjectName("dry_cost")
        self._lay_out()
        let_open(self._all_workings, self._words, self._basis, self._cost)
        self.totals.open_cells_with(self._cell_workings)
        self.chart.let_hits_open(self._bar_workings)
        self.chart.picked.connect(lambda _: self.chart.open_lit())
        let_open(self._month_workings, self._month)
        FigureHand(self.strip, self._month_workings, by_click=False)
        self.strip.month_picked.connect(self._say_month)

    def show_zone(self, zone: ZoneWater, plan: Plan) -> None:
        """Show a zone's year; another month of the plan picks its month in the strip."""
        self._zone, self._on = zone, plan.on
        if self._month_shown != plan.on.month:
            self._month_shown = plan.on.month
            self.strip.pick(plan.on.month)
        self.strip.show_months(zone.months, zone.target_depth_in)
        self._say_month(self.strip.month)
        self._working.set_workings([w for w in zone.workings if w.figure.startswith(YEAR_FIGURES)])
        self._show_year(zone.water_year)
        yard = self._book.notebook.yard
        self.dry_form.show_record(yard.id)
        self._cost.say(dry_year_sentence(zone.water_year, yard.drought), "warn")

    def _show_year(self, year: ZoneYear | None) -> None:
        for each in (self.chart, self.totals):
            each.setVisible(year is not None)
        if year is None:
            irrigated = self._zone is None or self._zone.irrigated
            self._words.say(NO_YEAR if irrigated else NOT_IRRIGATED)
            self._basis.say("")
            self._year_shown = None
            return
        if year == self._year_shown:
            return
        self._year_shown = year
        self._words.say(year.words)
        self._basis.say(NO_HABIT if year.habit is None else "")
        self.totals.show_rows(year_heads(year), year_rows(year), year_description(year))

        def draw(colours: Palette, figure: "Figure | None") -> "Figure":
            from lawnbook.charts.figures import year_figure

            return year_figure(year, colours, figure)

        def hits(frame: "Frame") -> "Sequence[Hit]":
            from lawnbook.charts.year_water import year_hits

            return year_hits(year, frame)

        # Asked for at every move of the pointer, for the same frame.
        self.chart.show_chart(draw, year_summary(year), cache(hits))

    def _figures(self, way: Way, keys: Iterable[str]) -> tuple[Working, ...]:
        """How figures of the year under one way of watering came about."""
        from lawnbook.plan.year_water_workings import year_figure_workings

        if self._zone is None:
            return ()
        notebook = self._book.notebook
        return year_figure_workings(notebook, self._on, self._zone.zone_id, way, keys)

    def _cell_workings(self, row: int, column: int) -> Sequence[Working]:
        """That of a figure of the table; the plan's own where it is the plan's."""
        year = self._year_shown
        if year is None:
            return ()
        key, way = year_keys(year)[row], year_ways(year)[column]
        named = PLANNED.get(key) if way == "plan" else None
        own = [each for each in self._working.workings() if each.figure == named]
        return own or self._figures(way, (key,))

    def _bar_workings(self, key: str) -> Sequence[Working]:
        """That of the month's bar that is pointed at; of the year where none is."""
        way, _, month = key.partition(":")
        if not key:
            return self._working.workings()
        return self._figures("habit" if way == "habit" else "plan", (month,))

    def _all_workings(self) -> Sequence[Working]:
        """All figures of the year that its sentences may tell."""
        year = self._year_shown
        if year is None:
            return self._working.workings()
        listed = [each for way in year_ways(year) for each in self._figures(way, YEAR_KEYS)]
        return (*self._working.workings(), *listed)

    def _say_month(self, month: int) -> None:
        if self._zone is not None:
            words = month_sentence(self._zone.months[month - 1])
            reminder = rooting_reminder(self._zone)
            self._month.say(f"{month_in_full(month)}: {words} {reminder}".strip())

    def _month_workings(self) -> Sequence[Working]:
        """How the figures of the month that is picked came about."""
        return () if self._zone is None else self._zone.workings_by_month[self.strip.month - 1]

    def _lay_out(self) -> None:
        months = Card(tr("Month by month"))
        months.body.addWidget(self.strip)
        months.body.addWidget(self._month)
        year = paper_part(tr("The year: plan and old habit"))
        head = QHBoxLayout()
        head.addWidget(self._words, 1)
        head.addWidget(self._working, 0, Qt.AlignmentFlag.AlignBottom)
        year.body.addLayout(head)
        for each in (self.chart, self.totals, self._basis):
            year.body.addWidget(each)
        dry = Card(tr("A dry year"))
        dry.body.addWidget(Caption(DRY_HELP, wrap=True))
        dry.body.addWidget(self.dry_form)
        dry.body.addWidget(self._cost)
        for card in (months, year, dry):
            self.body.addWidget(card)
