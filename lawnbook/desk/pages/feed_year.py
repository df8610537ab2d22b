"""Year, on the feed page: twelve columns of zone or lawn, and nitrogen as it becomes available."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QWidget

from lawnbook.charts.nitrogen import Nitrogen, months_in_order
from lawnbook.charts.palette import Palette
from lawnbook.charts.release import release_chart_words
from lawnbook.charts.told_feed import release_summary
from lawnbook.desk.figures import let_open
from lawnbook.desk.pages.chart_holder import ChartHolder, Draw
from lawnbook.desk.pages.feed_year_words import (
    NO_ZONE,
    TWO_COUNTS,
    available_sentence,
    clippings_words,
    figure_heads,
    figure_keys,
    figure_rows,
    month_heads,
    month_rows,
    proposed,
    sources_words,
    with_it_sentence,
)
from lawnbook.desk.pages.water_figures import FigureTable, Notes, paper_part
from lawnbook.desk.pages.water_sections import Section
from lawnbook.desk.pages.year_columns import YearColumns
from lawnbook.desk.roles import check_quietly, one_of_several
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, QuietButton, Words
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.feed_model import LawnNitrogen, ReleaseCurve
from lawnbook.plan.lawn_feed import lawn_workings
from lawnbook.plan.model import Plan, SpreadCheck, ZoneNitrogen
from lawnbook.plan.release import release_of
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from lawnbook.plan.feed_year_workings import FeedYear

MONTH_COLUMNS = ("applied", "released", "usable", "growth")
"""What the columns of the months are called in `plan/feed_year_workings.py`."""
COLUMNS_PX, CURVE_PX = 262, 240


class YearSection(Section):
    """A zone's year of nitrogen by the month put down and as it becomes available."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._plan: Plan | None = None
        self._zone_id = ""
        self._check: SpreadCheck | None = None
        self._stale = False
        self._held: tuple[ZoneNitrogen, FeedYear] | None = None
        self._nothing = Words(NO_ZONE)
        self._nothing.setObjectName("year_empty")
        self._make_columns()
        self._make_curve()
        self._lay_out()
        figures = (self.columns.words, self._with_it, self._clippings, self._notes)
        self._working.stand_for(*figures, self.curve)
        let_open(self._told_workings, self._available)
        self.figures.open_cells_with(self._figure_workings)
        self.months.open_cells_with(self._month_workings)
        self.columns.open_hits_with(self._column_workings)

    def _make_columns(self) -> None:
        self.zone_button = QuietButton(tr("This zone"), "year_zone", self)
        self.lawn_button = QuietButton(tr("Whole lawn"), "year_lawn", self)
        self._choice = QButtonGroup(self)
        for button in (self.zone_button, self.lawn_button):
            button.setAccessibleName(tr("{text}: nitrogen month by month", text=button.text()))
            self._choice.addButton(button)
            one_of_several(button, self._draw_columns)
        check_quietly(self.zone_button)
        self._working = WorkingLink(tr("working"), "feed_working", self)
        self.columns = YearColumns("nitrogen_chart", COLUMNS_PX, self)
        self.figures = FigureTable("year_figures", tr("Budget, put down and left"), self)
        self._with_it = Caption("", self, wrap=True)
        self._with_it.setObjectName("year_with_it")

    def _make_curve(self) -> None:
        self._available = Words()
        self._available.setObjectName("release_words")
        self.curve = ChartHolder(
            "release_chart", tr("Nitrogen becoming available day by day"), self
        )
        sized(self.curve, height=CURVE_PX)
        self.months = FigureTable(
            "release_months", tr("Put down and available, month by month"), self
        )
        self._notes = Notes("release_notes", self)
        self._sources = Caption("", self, wrap=True)
        self._sources.setObjectName("release_sources")
        self._clippings = Caption("", self, wrap=True)
        self._clippings.setObjectName("year_clippings")

    def show_plan(self, plan: Plan, zone_id: str) -> None:
        """Show a zone's year on the day of a plan; once the section is to be seen."""
        self._plan, self._zone_id = plan, zone_id
        self._stale = True
        if self.isVisible():
            self._fill()

    def show_check(self, check: SpreadCheck | None) -> None:
        """Draw what a check proposes into the columns, or nothing."""
        self._check = check
        if self.isVisible() and not self._stale:
            self._draw_columns()

    def showEvent(self, event: QShowEvent) -> None:
        """Fill in what changed while another section was shown."""
        super().showEvent(event)
        if self._stale:
            self._fill()
        else:
            self._draw_columns()

    def _feed(self) -> "FeedYear | None":
        """The feed of the zone on show, worked out once for each plan."""
        from lawnbook.plan.feed_year_workings import feed_year

        zone, plan = self._zone(), self._plan
        if zone is None or plan is None:
            return None
        if self._held is None or self._held[0] is not zone:
            self._held = (zone, feed_year(self._book.notebook, zone, plan.on))
        return self._held[1]

    def _figure_workings(self, row: int, column: int) -> Sequence[Working]:
        """That of a figure of the year's table: of the zone, or of the whole lawn."""
        from lawnbook.plan.feed_year_workings import lawn_working

        zone, feed = self._zone(), self._feed()
        if zone is None or feed is None or self._plan is None:
            return ()
        key, in_all = figure_keys(zone, self._lawn())[row], column % 2 == 1
        if column > 1:
            found = lawn_working(self._plan.nitrogen, key, in_all=in_all)
        else:
            found = feed.in_all(key) if in_all else feed.rate(key)
        return () if found is None else (found,)

    def _month_workings(self, row: int, column: int) -> Sequence[Working]:
        """That of a month's figure, or of the year's sum in the last row."""
        zone, feed = self._zone(), self._feed()
        if zone is None or feed is None:
            return ()
        months, name = months_in_order(zone), MONTH_COLUMNS[column]
        if row < len(months):
            found = feed.month(months[row] + 1, name)
        else:
            found = None if name == "growth" else feed.year(name)
        return () if found is None else (found,)

    def _column_workings(self, month: str) -> Sequence[Working]:
        """Put down and budget of a month's column that is pointed at; of the year where none is."""
        feed = self._feed()
        if feed is None or not month or self.lawn_button.isChecked():
            return self._working.workings()
        found = (feed.month(int(month), name) for name in ("applied", "budget"))
        return tuple(each for each in found if each is not None)

    def _told_workings(self) -> Sequence[Working]:
        """What the sentence beneath the curve tells of."""
        feed = self._feed()
        return () if feed is None else (*feed.told(), *self._working.workings())

    def _zone(self) -> ZoneNitrogen | None:
        zones = self._plan.nitrogen if self._plan is not None else ()
        return next((each for each in zones if each.zone_id == self._zone_id), None)

    def _lawn(self) -> LawnNitrogen | None:
        """The whole lawn, where it is more than the one zone."""
        if self._plan is None or len(self._plan.nitrogen) < 2:
            return None
        return self._plan.lawn_nitrogen

    def _fill(self) -> None:
        """Everything about the chosen zone and the lawn."""
        self._stale = False
        zone, lawn, plan = self._zone(), self._lawn(), self._plan
        self._nothing.setVisible(zone is None)
        for each in (self._by_month, self._by_day, self._clippings):
            each.setVisible(zone is not None)
        if zone is None or plan is None:
            return
        for button in (self.zone_button, self.lawn_button):
            button.setVisible(lawn is not None)
        if lawn is None:
            check_quietly(self.zone_button)
        of_lawn = () if lawn is None else tuple(lawn_workings(lawn))
        self._working.set_workings((*zone.workings, *of_lawn))
        rows = figure_rows(zone, lawn)
        self.figures.show_rows(figure_heads(lawn), rows, _spoken(figure_heads(lawn), rows))
        self._with_it.say(with_it_sentence(zone))
        self._clippings.say(clippings_words(self._book.notebook.zones[zone.zone_id], zone))
        self._draw_columns()
        self._show_curve(zone, plan)

    def _draw_columns(self) -> None:
        zone = self._zone()
        if zone is None:
            return
        lawn = self._lawn() if self.lawn_button.isChecked() else None
        shown: Nitrogen = zone if lawn is None else lawn
        zones = self._plan.nitrogen if self._plan is not None else ()
        latitude = self._book.notebook.yard.latitude_deg or 0.0
        self.columns.show_year(shown, *proposed(shown, zones, self._check, latitude))

    def _show_curve(self, zone: ZoneNitrogen, plan: Plan) -> None:
        curve = release_of(self._book.notebook, zone.zone_id, plan.on)
        self._available.say(available_sentence(zone, plan.on.month))
        rows = month_rows(zone, plan.on.month)
        self.months.setVisible(bool(rows))
        self.months.show_rows(month_heads(), rows, _spoken(month_heads(), rows))
        self._notes.say(curve.notes)
        self._sources.say(sources_words(curve))
        said = f"{release_summary(curve, plan.on)} {release_chart_words(curve, plan.on)}"
        self.curve.show_chart(_drawing(curve, plan), said)

    def _lay_out(self) -> None:
        self._by_month = paper_part(tr("Nitrogen month by month"))
        head = QHBoxLayout()
        head.setSpacing(6)
        head.addWidget(self.zone_button)
        head.addWidget(self.lawn_button)
        head.addStretch(1)
        head.addWidget(self._working, 0, Qt.AlignmentFlag.AlignBottom)
        self._by_month.body.addLayout(head)
        columns: tuple[QWidget, ...] = (self.columns, self.figures, self._with_it)
        for each in columns:
            self._by_month.body.addWidget(each)
        self._by_day = paper_part(tr("Nitrogen becoming available"))
        two = Caption(TWO_COUNTS, self, wrap=True)
        two.setObjectName("two_counts")
        days: tuple[QWidget, ...] = (
            self._available,
            self.curve,
            two,
            self.months,
            self._notes,
            self._sources,
        )
        for each in days:
            self._by_day.body.addWidget(each)
        parts: tuple[QWidget, ...] = (
            self._nothing,
            self._by_month,
            self._by_day,
            self._clippings,
        )
        for part in parts:
            self.body.addWidget(part)


def _drawing(curve: ReleaseCurve, plan: Plan) -> Draw:
    def draw(colours: Palette, figure: "Figure | None") -> "Figure":
        from lawnbook.charts.figures import release_figure

        return release_figure(curve, colours, figure, plan.on)

    return draw


def _spoken(heads: tuple[str, ...], rows: tuple[tuple[str, tuple[str, ...]], ...]) -> str:
    """A table as it is spoken: each row's figures with their heads."""
    lines = []
    for name, cells in rows:
        told = ", ".join(f"{head} {cell}" for head, cell in zip(heads[1:], cells, strict=True))
        lines.append(f"{name.strip()}: {told}")
    return "; ".join(lines)
