"""The twelve columns of a year of nitrogen with a proposed spread on them, and both in words."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.charts.nitrogen import Nitrogen, nitrogen_hits
from lawnbook.charts.palette import Palette
from lawnbook.charts.told_feed import nitrogen_summary
from lawnbook.desk.pages.chart_holder import ChartHolder
from lawnbook.desk.pages.feed_year_words import columns_title, year_chart_words
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption
from lawnbook.reading import tr

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from lawnbook.charts.marks import Frame
    from lawnbook.charts.profile_hits import Hit
    from lawnbook.plan.working_model import Working


class YearColumns(QWidget):
    """Nitrogen month by month of a zone or the lawn; `words` say what the chart shows.

    The chart has the name given, its words the same with `_words` at the end. `on_card` sets it on
    a card, low, under a title in place of its words: there the verdict has said them.
    """

    def __init__(
        self, name: str, height_px: int, parent: QWidget | None = None, on_card: bool = False
    ) -> None:
        super().__init__(parent)
        self._on_card = on_card
        self._answers = False
        self.chart = ChartHolder(name, tr("Nitrogen month by month"), self)
        sized(self.chart, height=height_px)
        self.words = Caption("", self, wrap=True)
        self.words.setObjectName(f"{name}_words")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        parts = (self.words, self.chart) if on_card else (self.chart, self.words)
        for part in parts:
            column.addWidget(part)

    def open_hits_with(self, workings_of: Callable[[str], "Sequence[Working]"]) -> None:
        """Let a month's column open its workings, by its number; "" asks for those of the year."""
        self._answers = True
        self.chart.let_hits_open(workings_of)
        self.chart.picked.connect(lambda _: self.chart.open_lit())

    def show_year(self, shown: Nitrogen, ghost: float, month: int | None) -> None:
        """Draw a year with a proposed spread (lb N per 1,000 sq ft) on its month, if there is one.

        Months are counted from 1.
        """
        words = year_chart_words(shown, ghost, month)
        self.words.say(columns_title(shown) if self._on_card else words)

        def draw(colours: Palette, figure: "Figure | None") -> "Figure":
            from lawnbook.charts.figures import nitrogen_figure

            ground = replace(colours, paper=colours.card) if self._on_card else colours
            return nitrogen_figure(shown, ground, ghost, month, figure)

        def hits(frame: "Frame") -> "Sequence[Hit]":
            return nitrogen_hits(shown, frame)

        described = nitrogen_summary(shown, ghost, month)
        # Asked for at every move of the pointer, for the same frame.
        self.chart.show_chart(draw, described, cache(hits) if self._answers else None)
