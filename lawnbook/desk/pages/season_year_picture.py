"""The picture of the year with its steps from one year to the next."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.charts.marks import Frame, Picture
from lawnbook.charts.palette import Palette
from lawnbook.charts.season import season_marks
from lawnbook.charts.season_hits import key_of, part_of, record_of, season_hits
from lawnbook.charts.season_layout import season_height_pt
from lawnbook.charts.told_year import season_summary
from lawnbook.desk.pages.chart_holder import ChartHolder, Export, picture_path
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, Heading, LinkButton, QuietButton
from lawnbook.plan.model import Plan
from lawnbook.plan.season_year import season_year, year_of
from lawnbook.plan.season_year_model import SeasonMonth, SeasonSpan, SeasonYear
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.limits import EARLIEST, LATEST

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from lawnbook.plan.working_model import Working

POINTS_PER_INCH = 72.0
PRINTED_WIDTH_PT = 468.0
STEP_PX = 34


class YearPicture(QWidget):
    """One year at one look. `picked` tells the table and id of a record whose mark was chosen."""

    picked = Signal(str, str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("season_picture")
        self._book = book
        self._plan: Plan | None = None
        self._shown = 0
        self._year: SeasonYear | None = None
        self._back = QuietButton("«", "season_year_before", self)
        self._back.setAccessibleName(tr("The year before"))
        self._on = QuietButton("»", "season_year_after", self)
        self._on.setAccessibleName(tr("The year after"))
        self._label = Heading("", self)
        self._label.setObjectName("season_year_label")
        self._home = LinkButton(tr("back to this year"), "season_year_home", self)
        self._reasons = Caption("", self, wrap=True)
        self._reasons.setObjectName("season_reasons")
        self.chart = ChartHolder("season_chart", tr("The year at one look"), self)
        self._lay_out()
        self._back.clicked.connect(lambda: self.step(-1))
        self._on.clicked.connect(lambda: self.step(1))
        self._home.clicked.connect(self.go_home)
        self.chart.picked.connect(self._pick)
        self.chart.let_hits_open(self._workings_of)

    @property
    def year(self) -> int:
        """The year shown, by the calendar year it begins in."""
        return self._shown

    def show_plan(self, plan: Plan) -> None:
        """Show the year of the plan's day, or the one stepped to where the day stays the same."""
        if self._plan is None or self._plan.on != plan.on:
            self._shown = self._year_of(plan.on)
        self._plan = plan
        self._show()

    def step(self, years: int) -> None:
        """On to another year, as far as a notebook may reach."""
        wanted = self._shown + years
        if EARLIEST.year < wanted < LATEST.year and self._plan is not None:
            self._shown = wanted
            self._show()

    def go_home(self) -> None:
        """Back to the year of the plan's day."""
        if self._plan is not None:
            self._shown = self._year_of(self._plan.on)
            self._show()

    def ring(self, table: str, record_id: str) -> None:
        """Ring the mark of a record; "" rings none."""
        self.chart.mark(key_of(table, record_id) if record_id else "")

    def _show(self) -> None:
        if self._plan is None:
            return
        year = self._year = season_year(self._book.notebook, self._plan, self._shown)
        self._label.say(year.label)
        self._home.setVisible(self._shown != self._year_of(self._plan.on))
        self._reasons.say(" ".join(year.reasons))
        self._draw(year, self._plan)

    def _draw(self, year: SeasonYear, plan: Plan) -> None:
        def draw(colours: Palette, figure: "Figure | None") -> "Figure":
            from lawnbook.charts.figures import season_figure

            return season_figure(year, colours, figure)

        def drawing(frame: Frame) -> Picture:
            return season_marks(year, frame)

        height_pt = season_height_pt(year)
        sized(self.chart, height=round(height_pt * self.logicalDpiX() / POINTS_PER_INCH) + 26)
        start = picture_path(self._book.path, plan, "", tr("season {label}", label=year.label))
        self.chart.show_chart(
            draw,
            season_summary(year),
            lambda frame: season_hits(year, frame),
            Export(drawing, (PRINTED_WIDTH_PT, height_pt), start),
        )

    def _year_of(self, on: date) -> int:
        return year_of(self._book.notebook, on)

    def _pick(self, key: str) -> None:
        """On to a mark's record; what leads nowhere opens how it came about."""
        found = record_of(key)
        if found is not None:
            self.picked.emit(*found)
        else:
            self.chart.open_lit()

    def _workings_of(self, key: str) -> "tuple[Working, ...]":
        """How a month, span or mark came about; of nothing lit the month that needs most water."""
        plan, year = self._plan, self._year
        if plan is None or year is None:
            return ()
        from lawnbook.plan.season_year_workings import (
            mark_workings,
            month_workings,
            span_workings,
        )

        notebook = self._book.notebook
        part = part_of(year, key) or max(year.months, key=lambda each: each.need_in_per_day or 0.0)
        if isinstance(part, SeasonMonth):
            return month_workings(notebook, plan, year, part)
        if isinstance(part, SeasonSpan):
            return span_workings(notebook, plan, part)
        return mark_workings(notebook, plan, part)

    def _lay_out(self) -> None:
        steps = QHBoxLayout()
        steps.setSpacing(8)
        for button in (self._back, self._on):
            sized(button, width=STEP_PX)
        steps.addWidget(self._back)
        steps.addWidget(self._label, 0, Qt.AlignmentFlag.AlignVCenter)
        steps.addWidget(self._on)
        steps.addWidget(self._home, 0, Qt.AlignmentFlag.AlignVCenter)
        steps.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addLayout(steps)
        column.addWidget(self.chart)
        column.addWidget(self._reasons)
