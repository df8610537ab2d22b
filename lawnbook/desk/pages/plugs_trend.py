"""Trend, on the plugs page: how sure the plugs are, what changed when, and what was done."""

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QWidget

from lawnbook.charts.palette import Palette
from lawnbook.charts.thatch_trend import trend_hits, trend_marks
from lawnbook.charts.told_plugs import trend_summary
from lawnbook.charts.trend_layout import Trends
from lawnbook.desk.pages.care_entry import CareEntry
from lawnbook.desk.pages.chart_holder import ChartHolder, Export, picture_path
from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.pages.page import beside
from lawnbook.desk.pages.place_picker import spots_at
from lawnbook.desk.pages.slope_panel import SlopePanel, StripPanel
from lawnbook.desk.pages.trend_figures import FigureGrid
from lawnbook.desk.pages.trend_words import (
    FIGURES,
    NO_PLUG,
    described,
    evidence_of,
    how_words,
    notes_told,
    trend_figures,
)
from lawnbook.desk.pages.water_figures import Notes
from lawnbook.desk.pages.water_sections import Section
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, Verdict, name_control
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.care_marks import care_marks
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import CareMark, Evidence, Place
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from matplotlib.figure import Figure

    from lawnbook.charts.marks import Frame, Picture
    from lawnbook.charts.profile_hits import Hit

CHART_HEIGHT_PX = 310
EXPORT_PT = (720.0, 360.0)


class TrendSection(Section):
    """The trend of a place with its doubt. `selected` tells a plug or spot that was clicked."""

    selected = Signal(str, str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._plan: Plan | None = None
        self._place = Place("yard", "")
        self._verdict = Verdict("", self)
        name_control(self._verdict, "trend_verdict", tr("What the plugs show, and how surely"))
        self._working = WorkingLink(tr("working"), "trend_working", self)
        self._how = Caption("", self, wrap=True)
        self._how.setObjectName("trend_how")
        self._chart = ChartHolder("trend_chart", tr("Trend of the thatch"), self)
        sized(self._chart, height=CHART_HEIGHT_PX)
        self._figures = FigureGrid(FIGURES, "trend", tr("How sure the plugs are"), self)
        self._notes = Notes("trend_notes", self)
        self._change_fold = Fold(tr("Before and after"), "change_part", self, unfolded=True)
        self.change = SlopePanel(book)
        self._strip_fold = Fold(tr("Comparison strip"), "strip_part", self, unfolded=True)
        self.strip = StripPanel(book)
        self.care_fold = Fold(tr("What was done"), "care_part", self, unfolded=True)
        self.care = CareEntry(book)
        self._lay_out()
        self._working.stand_for(self._verdict, self._how, self._chart, self._notes)
        self._chart.picked.connect(self._picked)
        self.change.split_moved.connect(self._split_moved)
        self.care.compare_asked.connect(self._compare)

    def show_plan(self, plan: Plan, place: Place) -> None:
        """Show a place as the plan of a day holds it."""
        self._plan, self._place = plan, place
        evidence = evidence_of(plan, place)
        care = care_marks(self._book.notebook, place, plan.on)
        some = evidence is not None and bool(evidence.points)
        for each in (self._chart, self._figures, self._change_fold, self._strip_fold):
            each.setVisible(some)
        if evidence is None or not some:
            self._verdict.setText(evidence.verdict if evidence is not None else NO_PLUG)
            self._working.set_workings(())
            self._how.say(NO_PLUG if evidence is not None else "")
            self._notes.say(evidence.notes if evidence is not None else ())
        else:
            self._show_evidence(evidence)
            self.change.show_place(plan.on, place, evidence, care)
            self.strip.show_place(plan.on, place)
            self._show_chart(plan, evidence, care)
        self.care.refresh()
        self._say_folds()

    def _show_evidence(self, evidence: Evidence) -> None:
        self._verdict.setText(evidence.verdict)
        self._working.set_workings(evidence.workings)
        self._how.say(how_words(evidence))
        self._figures.show_figures(trend_figures(evidence))
        self._notes.say(notes_told(evidence))

    def _show_chart(self, plan: Plan, evidence: Evidence, care: "Sequence[CareMark]") -> None:
        on, split = plan.on, self.change.split
        saved = self.trends(plan, evidence)
        # Why there is no band stands in the verdict above; only a saved picture has to say it.
        place = replace(saved, place=replace(evidence, reason=""))

        def draw(colours: Palette, figure: "Figure | None") -> "Figure":
            from lawnbook.charts.figures import trend_figure

            return trend_figure(place, care, colours, on, split, figure)

        def hits(frame: "Frame") -> "Sequence[Hit]":
            return trend_hits(place, care, frame, on)

        def drawing(frame: "Frame") -> "Picture":
            return trend_marks(saved, care, frame, on, split)

        start = picture_path(self._book.path, plan, evidence.place, "trend")
        said = f"{trend_summary(evidence, care)} {described(evidence, care)}"
        self._chart.show_chart(draw, said, hits, Export(drawing, EXPORT_PT, start))

    def trends(self, plan: Plan, evidence: Evidence) -> Trends:
        """The place's trend with its spots beside it, those left untreated dashed."""
        spots = {each.id: each.comparison for each in spots_at(self._book.notebook, self._place)}
        shown = tuple(each for each in plan.thatch if each.spot_id in spots)
        return Trends(evidence, shown, frozenset(each for each in spots if spots[each]))

    def _picked(self, key: str) -> None:
        """A dot leads to its plug or spot, a care mark to its entry below; of several the first."""
        kind, _, ids = key.partition(":")
        record_id = ids.partition(" ")[0]
        if kind == "care":
            self.care_fold.reveal()
            self.care.open(record_id)
        elif kind == "core":
            self.selected.emit("cores", record_id)
        elif kind == "spot":
            self.selected.emit("spots", record_id)

    def _compare(self, on: "date") -> None:
        """Compare before and after an entry's day, where the comparison stands in sight."""
        self.change.compare(on)
        self._change_fold.unfold()
        QTimer.singleShot(0, self, self._change_fold.reveal)

    def _split_moved(self) -> None:
        """The line of the compared day moves on the chart."""
        plan = self._plan
        evidence = evidence_of(plan, self._place) if plan is not None else None
        if plan is not None and evidence is not None:
            care = care_marks(self._book.notebook, self._place, plan.on)
            self._show_chart(plan, evidence, care)
        self._say_folds()

    def _say_folds(self) -> None:
        self._change_fold.say(self.change.summary())
        self._strip_fold.say(self.strip.summary)
        self.care_fold.say(self.care.panel.summary())

    def _lay_out(self) -> None:
        self._change_fold.body.addWidget(self.change)
        self._strip_fold.body.addWidget(self.strip)
        self.care_fold.body.addWidget(self.care)
        self.body.addWidget(self._verdict)
        self.body.addLayout(beside(self._how, self._working))
        for part in (self._chart, self._figures, self._notes):
            self.body.addWidget(part)
        for fold in (self._change_fold, self._strip_fold, self.care_fold):
            self.body.addWidget(fold)
