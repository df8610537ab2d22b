"""Roots, on the water page: what they bear, the steps to the target, what an inch does."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.charts.marks import Frame, Picture
from lawnbook.charts.palette import Palette
from lawnbook.charts.stretch import inch_marks, inch_words, stretch_chart_words
from lawnbook.charts.told_water import stretch_summary
from lawnbook.desk.pages.chart_holder import ChartHolder
from lawnbook.desk.pages.marks_view import MarksView
from lawnbook.desk.pages.water_figures import paper_part
from lawnbook.desk.pages.water_pictures import RootsPicture
from lawnbook.desk.pages.water_sections import Section
from lawnbook.desk.pages.water_words import (
    crowns_sentence,
    growth_sentence,
    roots_now_sentence,
    target_sentence,
    thatch_over_roots_in,
)
from lawnbook.desk.telling import either, follow, follow_name
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, Card, Heading, Words
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.plan.season import month_in_full
from lawnbook.plan.water_model import Stretch
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import told

if TYPE_CHECKING:
    from matplotlib.figure import Figure

ROOT_FIGURES = ("rooted_soil_in", "bearable_depth_in", "roots_needed_in", "target_interval_days")
NO_STRETCH = tr("No steps to show while this zone is not watered by its roots.")
INCH_PT = (178.0, 138.0)
CHART_HEIGHT_PX = 306


class RootsSection(Section):
    """Roots now and roots needed, and the way between."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shown: tuple[Stretch, float, bool] | None = None
        self._roots = RootsPicture()
        self._now = Words()
        self._now.setObjectName("roots_now_words")
        self._target = Words()
        self._target.setObjectName("roots_target_words")
        self._working = WorkingLink(tr("working"), "roots_working")
        self.chart = ChartHolder("water_stretch", tr("Steps from today's roots to the target"))
        sized(self.chart, height=CHART_HEIGHT_PX)
        self._steps = Words()
        self._steps.setObjectName("stretch_words")
        self._growth = Caption("", wrap=True)
        self._growth.setObjectName("stretch_growth")
        self._inch = MarksView("inch_picture", tr("What one inch does"))
        us, metric = tr("What one inch does"), tr("What 25 mm do")
        follow_name(self._inch, "inch_picture", lambda: either(us, metric))
        self._inch_words = Words()
        self._inch_words.setObjectName("inch_words")
        self._none = Caption(NO_STRETCH, wrap=True)
        self._lay_out()
        words = (self._now, self._target, self._steps, self._growth, self._inch_words)
        self._working.stand_for(*words, self._roots, self.chart, self._inch)

    def show_zone(self, zone: ZoneWater, _plan: Plan) -> None:
        """Show a zone's roots."""
        self._roots.show_zone(zone)
        self._now.say(roots_now_sentence(zone))
        self._target.say(target_sentence(zone))
        self._working.set_workings([w for w in zone.workings if w.figure in ROOT_FIGURES])
        stretch = zone.stretch
        some = stretch is not None and bool(stretch.steps)
        self._way.setVisible(some)
        self._one_inch.setVisible(some)
        self._none.setVisible(not some)
        if stretch is not None and some:
            self._show_stretch(stretch, zone.rooted_soil_in)

    def _show_stretch(self, stretch: Stretch, rooted_in: float) -> None:
        if self._shown == (stretch, rooted_in, is_metric()):
            return
        self._shown = (stretch, rooted_in, is_metric())
        thatch = thatch_over_roots_in(stretch)
        depth = rooted_in + thatch
        self._steps.say(stretch.words)
        self._growth.say(
            tr(
                "At {month_in_full}’s use, {etc_in_per_day}. {growth_sentence} {crowns_sentence}",
                month_in_full=month_in_full(stretch.month),
                etc_in_per_day=told(stretch.etc_in_per_day, 2, "in a day"),
                growth_sentence=growth_sentence(stretch),
                crowns_sentence=crowns_sentence(thatch),
            )
        )

        def draw(colours: Palette, figure: "Figure | None") -> "Figure":
            from lawnbook.charts.figures import stretch_figure

            return stretch_figure(stretch, depth, colours, figure)

        def draw_inch(frame: Frame) -> Picture:
            return inch_marks(stretch, (thatch, rooted_in), frame)

        said = f"{stretch_summary(stretch, depth)} {stretch_chart_words(stretch, depth)}"
        self.chart.show_chart(draw, said)
        words = inch_words(stretch, rooted_in)
        self._inch.show_picture(draw_inch, words, INCH_PT[1], INCH_PT[0])
        self._inch_words.say(words)

    def _lay_out(self) -> None:
        self.body.addWidget(self._roots_card())
        self._way = paper_part(tr("Step by step to the target"))
        for each in (self._steps, self.chart, self._growth):
            self._way.body.addWidget(each)
        self._one_inch = Card()
        head = Heading("", self)
        us, metric = tr("What an inch does here"), tr("What 25 mm do here")
        follow(head, lambda: either(us, metric))
        self._one_inch.body.addWidget(head)
        self._one_inch.body.addLayout(_beside(self._inch, [self._inch_words]))
        for part in (self._way, self._one_inch, self._none):
            self.body.addWidget(part)

    def _roots_card(self) -> Card:
        card = Card()
        card.body.addLayout(_beside(self._roots, [self._now, self._target], self._working))
        return card


def _beside(picture: QWidget, words: list[Words], link: QWidget | None = None) -> QHBoxLayout:
    """A picture of fixed size with words in the middle of its height."""
    column = QVBoxLayout()
    column.setSpacing(8)
    column.addStretch(1)
    for each in words:
        column.addWidget(each)
    if link is not None:
        column.addWidget(link, 0, Qt.AlignmentFlag.AlignRight)
    column.addStretch(1)
    row = QHBoxLayout()
    row.setSpacing(16)
    row.addWidget(picture)
    row.addLayout(column, 1)
    return row
