"""Soil tests: what the laboratory found in which zone, and what the latest of a zone changes."""

from collections.abc import Mapping, Sequence
from typing import Any

from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.agronomy.soil_test import SAMPLE_DEPTH_IN, SOIL_TEST_YEARS
from lawnbook.desk.figures import let_open
from lawnbook.desk.pages.entry_panel import Answer, EntryPanel, EntrySetting
from lawnbook.desk.pages.feed_rules_words import soil_lines
from lawnbook.desk.pages.record_table import Row
from lawnbook.desk.pages.water_figures import Notes
from lawnbook.desk.telling import follow
from lawnbook.desk.widgets import Caption
from lawnbook.plan.feed_model import SoilState
from lawnbook.plan.record_workings import of_record
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.amounts import trimmed
from lawnbook.yard.numbers import day, plain
from lawnbook.yard.records import SoilTest

THATCH = {"off": tr("taken off"), "on": tr("left on")}
"""What was done with the thatch of a sample, in words."""
MEASURED = ("ph", "om_pct", "p_ppm", "k_ppm")
NOTHING_MEASURED = tr("Enter at least one figure that the laboratory reports.")


def help_words() -> str:
    """How a sample is taken."""
    return tr(
        "Sample to the same depth each time, such as {trimmed} below the thatch, with "
        "the thatch taken off, and again every {soil_test_years} years. Leave empty "
        "what the laboratory did not report.",
        trimmed=trimmed(SAMPLE_DEPTH_IN, 1, "in"),
        soil_test_years=SOIL_TEST_YEARS,
    )


class SoilPanel(QWidget):
    """Entry and list of soil tests, and what the latest one of the picked zone means here."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._zone_id = ""
        self.state = Notes("soil_state", self)
        let_open(self._workings, self.state)
        self.panel = EntryPanel(book, self._setting(), self)
        self.panel.form.offer("thatch", list(THATCH.items()))
        self.panel.table.stretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(self.state)
        helping = Caption("", self, wrap=True)
        follow(helping, help_words)
        column.addWidget(helping)
        column.addWidget(self.panel)

    def show_zone(self, zone_id: str, soil: SoilState | None) -> None:
        """Show what is known of a zone's soil; a new test is of that zone."""
        self.state.say(() if soil is None else soil_lines(soil))
        zones = self._book.notebook.zones.values()
        self.panel.form.offer("zone", [(each.id, each.name) for each in zones])
        if zone_id != self._zone_id:
            self._zone_id = zone_id
            if not self.panel.is_open:
                self.panel.form.set_value("zone", zone_id)
        self.panel.refresh()

    def _workings(self) -> Sequence[Working]:
        """What decides on phosphate in the zone on show: its latest test, and what is enough."""
        from lawnbook.plan.fed_workings import phosphorus_workings

        return phosphorus_workings(self._book.notebook, self._zone_id)

    def _setting(self) -> EntrySetting:
        return EntrySetting(
            table="soil_tests",
            noun="soil test",
            names=("date", "zone", "depth_in", "thatch", *MEASURED),
            heads=(
                tr("Date"),
                tr("Zone"),
                tr("pH"),
                tr("Organic\nmatter %"),
                "P\nppm",
                "K\nppm",
                tr("Sampled to"),
            ),
            rows=self._rows,
            title=lambda each: tr("soil test of {date}", date=day(each.date)),
            given=lambda: {"date": self._book.today, "zone": self._zone_id},
            answer=_answer,
            empty=tr("None yet."),
            words_columns=(0, 1),
            columns=4,
            labels={"thatch": tr("Thatch on the sample")},
            workings=lambda test_id: of_record(
                self._book.notebook, self._book.today, "soil_tests", test_id
            ),
        )

    def _rows(self) -> Sequence[Row]:
        kept = sorted(
            self._book.notebook.soil_tests.values(), key=lambda each: each.date, reverse=True
        )
        return [self._row(each) for each in kept]

    def _row(self, test: SoilTest) -> Row:
        zone = self._book.notebook.zones.get(test.zone)
        depth = "–" if test.depth_in is None else trimmed(test.depth_in, 2, "in")
        thatch = tr(", thatch {thatch}", thatch=THATCH[test.thatch]) if test.thatch else ""
        figures = ("–" if value is None else plain(value) for value in _measured(test))
        cells = (day(test.date), zone.name if zone else "", *figures, depth)
        return Row(
            test.id,
            cells,
            tr("Soil test of {cells}{thatch}", cells=", ".join(cells), thatch=thatch),
        )


def _measured(test: SoilTest) -> tuple[float | None, ...]:
    return (test.ph, test.om_pct, test.p_ppm, test.k_ppm)


def _answer(values: Mapping[str, Any]) -> Answer:
    known = any(values.get(name) is not None for name in MEASURED)
    return ("", "caption") if known else (NOTHING_MEASURED, "caption")
