"""Every figure that a page shows opens how it came about.

With all folds open, of a sample with something on every page. What is no figure of ours is allowed
by its words, with the reason.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path
from types import MappingProxyType

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QScrollArea, QWidget

from lawnbook.desk.pages.chart_holder import ChartHolder
from lawnbook.desk.pages.chart_pointer import ChartPointer
from lawnbook.desk.pages.record_table import RecordTable
from lawnbook.desk.pages.water_figures import FigureTable
from lawnbook.desk.theme import apply_theme
from lawnbook.desk.window import BookWindow
from lawnbook.plan.working_model import Working
from lawnbook.yard.notebook import as_of
from tests.access_walk import PLACES, opened, settle, turn
from tests.desk_sample import samples
from tests.figure_walk import (
    Allowed,
    closed_of,
    opening,
    panel_heads,
    shown_figures,
    strange_of,
    tells,
    unopened,
)

NOTHING = Working("", "nothing", "", "", "", (), "")
ON, METRIC_ON = date(2026, 6, 15), date(2026, 7, 20)
LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
PAGES = ("Yard", "Plugs", "Water", "Feed", "Season", "Sheet")
WALKED = [(page, section) for page in PAGES for section in PLACES[page]]
AT_LEAST: Mapping[str, int] = MappingProxyType(
    {"Yard: First steps": 2, "Yard: Overview": 6, "Yard: Check": 3, "Season: Year": 4,
     "Season: Log": 3, "Sheet: Year in review": 8}
)  # fmt: skip
"""So many figures are found at least, or one: a walk that finds none would prove nothing."""
OF_COUNTS = ("Yard", "Season", "Sheet")
"""Sections of these pages that are not named above may hold counts, dates and names alone."""
SAYS_LESS = [
    ("Water", "Roots"),
    ("Water", "Records"),
    ("Feed", "Ledger"),
    ("Feed", "Rules"),
    ("Plugs", "Trend"),
    ("Plugs", "Next"),
]
"""What is told otherwise of a lawn of few plugs and no feeding, to a metric reader."""
ALLOWED: Allowed = {
    r"^Caption: With “less” the grass gets": "an example of what to type",
    r"^Caption: Empty: the yard's target": "what holds where a field is left empty",
    r"^Caption: Inches such as": "how to type",
    r"^release_sources: Sources": "the citations of published figures",
    r"^Caption: (lb )?per 1,000 sq ft(, in)?$": "the unit of a field",
    r"^Caption: Pounds of nitrogen \(N\)": "what the rule's fields mean",
    r"^Caption: (Nitrogen for|Budget of) the year, lb": "the caption of a field",
    r"^Caption: Sample to the same depth": "how to take a sample",
    r"^Caption: lb N per 1,000 sq ft, month": "the unit of twelve fields",
    r"^n_budgets_answer: The months sum to 0 ": "nothing is typed yet",
    r"^Caption: Have buried lines located": "a telephone number",
    r"^Caption: Where a field is empty the usual limits": "what holds where a field is left empty",
    r"_words: Cannot say yet: ": "counts of plugs, and what is still wanted",
    r"^trend_half_inch_words: when .* is reached: a day needs": "what is still wanted",
    r"^Caption: 95.% between$": "the head of a column",
    r"^Caption: (Zone|Lawn), per 1,000 sq ft$": "the head of a column",
    r"^Caption: lb per 1,000 sq ft$": "the head of a column",
    r"^Heading: What 25 mm do here": "the inch that the section is about",
    "^weather_words: ": "days of weather on record are a count",
    "^weather_methods: ": "days by each method are a count",
    "Read the product label first": "cautions name published distances and what was entered",
    "Water price, per 1,000 gal": "the head of a field that is typed in",
    "Type a length as 32' 6": "an example of how to type a length",
    "^review_preview: ": "each opens where it is pointed at: tests/test_page_sheet_figures.py",
    r"^Caption: Lay the ruler in the plane": "how to hold the camera, an example",
}


OWN_FIRST = ("Plugs", "Water", "Feed")
"""On these pages a figure opens its own working first, not its neighbour's."""
LEADS: Allowed = {
    r"^waterings_list: .* min opens Counted": "minutes that were typed lead to what they put down",
    r"^rain_list: .* opens Rain of": "the gauge goes before the station, whose rain stands beside",
    r"^catch_tests_list: .* min opens": "minutes that were typed lead to the rate by the cans",
    r"^feedings_list: .*Product": "pounds that were typed lead to the nitrogen in them",
    r"^products_list: .* lb opens N of the product": "the bag as typed leads to what it holds",
    r"^soil_tests_list: .* in opens pH": "the sample's depth as typed leads to the test",
    r"^year_with_it: ": "the year's nitrogen once more, in grams",
    r"^Words: (Quick nitrogen|Feather meal)": "weeks of release lead to the nitrogen they free",
    r"^Words: The soil test of": "phosphorus found and wanted lead to what is lacking",
    r"^plugs_f(igures|inding): ": "first and latest thatch lead to the change between them",
    r"^finding_\d_words: ": "what is found leads to the plugs it is said of",
    r"^photo_change: ": "readings and rulers lead to the scale they were read at",
    r"^Words: [−-].* opens Change of the trend": "the two trends lead to their difference",
    r"^Caption: 95.% between ": "the head of a column",
    r"^Words: No effect of the season": "an interval round nothing leads to the plugs' change",
    r"^Words: Allowed depletion of": "a note's inputs lead to the figures of the zone",
    r"^(Caption: cycles|Words: 5.8 in|next_along|next_used)": "parts of the run that is worked out",
    r"^stretch_growth: ": "roots by the plugs lead to the steps they ask for",
}
"""What leads first to what it went into, or to what it is a part of, each with the reason."""


@pytest.fixture(scope="module")
def window(qapp: QApplication, tmp_path_factory: pytest.TempPathFactory) -> Iterator[BookWindow]:
    """A window on a sample, which these tests only read."""
    apply_theme(qapp, "light")
    notebook = as_of(samples()["larkspur_corner"], ON)
    made = opened(tmp_path_factory.mktemp("everywhere"), notebook, ON)
    yield made
    made.close()
    made.deleteLater()
    settle()


@pytest.mark.parametrize(("page", "section"), WALKED)
def test_every_figure_opens(window: BookWindow, page: str, section: str) -> None:
    """In words, in tables and in the words of pictures."""
    found = list(shown_figures(turn(window, page, section)))
    assert closed_of(found, ALLOWED) == []
    if page in OWN_FIRST:
        assert strange_of(found, LEADS) == []
    assert len(found) >= AT_LEAST.get(f"{page}: {section}", int(page not in OF_COUNTS))


def test_every_figure_opens_to_a_metric_reader_of_a_lawn_that_says_less(
    qapp: QApplication, tmp_path: Path
) -> None:
    """Where plugs are few, the map has no cans, and the year of feeding has just begun."""
    bank = as_of(samples()["hollow_bank"], METRIC_ON)
    notebook = replace(bank, yard=replace(bank.yard, units="metric"))
    made = opened(tmp_path, notebook, METRIC_ON)
    left = [
        f"{page} {section}: {each}"
        for page, section in SAYS_LESS
        for each in unopened(turn(made, page, section), ALLOWED)
    ]
    made.close()
    made.deleteLater()
    settle()
    assert left == []


@pytest.mark.parametrize(
    ("page", "name", "least"),
    [("Water", "year_totals", 20), ("Feed", "year_figures", 16), ("Feed", "release_months", 40)],
)
def test_each_figure_of_a_year_opens_its_own_working(
    window: BookWindow, page: str, name: str, least: int
) -> None:
    """Of every row and column: that figure, and not its neighbour's."""
    table = turn(window, page, "Year").findChild(FigureTable, name)
    assert isinstance(table, FigureTable)
    shown = (each for each in table.findChildren(QLabel) if each.isVisible())
    cells = [each for each in shown if re.fullmatch(r"[−-]?[\d,.]+.?%?", each.text())]
    assert len(cells) >= least
    strange = [
        f"{each.text()}: {first.label}, {first.value}"
        for each in cells
        for first in [*opening(each)[:1]] or [NOTHING]
        if not tells(first, each.text())
    ]
    assert strange == []


@pytest.mark.parametrize(
    ("page", "section", "name", "key", "begins"),
    [
        ("Water", "Year", "water_year_chart", "habit:5", "Old habit: water of May"),
        ("Feed", "Year", "nitrogen_chart", "5", "Put down in May"),
        ("Plugs", "Columns", "profile_columns", "", "Root depth of the plug"),
    ],
)
def test_what_is_pointed_at_in_a_picture_opens_its_own_working(
    window: BookWindow, page: str, section: str, name: str, key: str, begins: str
) -> None:
    """A month's bar, and the figure beneath a plug's column, before all others of it."""
    chart, pointer = pointer_of(turn(window, page, section), name)
    box = next(each for each in pointer.hits() if key in ("", each.key))
    top, bottom = box.parts[0][:2] if box.parts else (box.top, box.bottom)
    QTest.mouseMove(pointer, pointer.place_of((box.left + box.right) / 2, (top + bottom) / 2))
    settle()
    assert chart.workings()[0].label.startswith(begins)


def pointer_of(page: QWidget, name: str) -> tuple[ChartHolder, ChartPointer]:
    """A chart with what lies over it."""
    chart = page.findChild(ChartHolder, name)
    assert isinstance(chart, ChartHolder)
    settle(12)
    above = chart.parentWidget()
    while above is not None and not isinstance(above, QScrollArea):
        above = above.parentWidget()
    if isinstance(above, QScrollArea):
        above.ensureWidgetVisible(chart)
        settle()
    pointer = page.findChild(ChartPointer, f"{name}_pointer")
    assert isinstance(pointer, ChartPointer)
    return chart, pointer


def test_a_day_of_the_ledger_opens_by_a_click_and_by_keys(window: BookWindow) -> None:
    """The day that is pointed at, or gone to with the arrows."""
    page = turn(window, "Water", "Now")
    chart, pointer = pointer_of(page, "water_ledger")
    at = QPoint(round(pointer.width() * 0.5), round(pointer.height() * 0.5))
    QTest.mouseMove(pointer, at)
    settle()
    lit = pointer.lit()
    assert lit is not None
    QTest.mouseClick(pointer, LEFT, NONE, at)
    settle()
    day = lit.words.split("\n")[0]
    told = panel_heads()
    assert told
    assert all(day in each for each in told)
    pointer.put_out()
    canvas = chart.findChild(QWidget, "water_ledger_canvas")
    assert isinstance(canvas, QWidget)
    canvas.setFocus()
    QTest.keyClick(canvas, Qt.Key.Key_End)
    QTest.keyClick(canvas, Qt.Key.Key_F1)
    settle()
    assert any("15 Jun 2026" in each for each in panel_heads())


def test_a_column_that_is_gone_to_by_keys_opens_its_plug(window: BookWindow) -> None:
    """A click brings the plug into the form, as before."""
    page = turn(window, "Plugs", "Columns")
    chart, pointer = pointer_of(page, "profile_columns")
    canvas = chart.findChild(QWidget, "profile_columns_canvas")
    assert isinstance(canvas, QWidget)
    canvas.setFocus()
    QTest.keyClick(canvas, Qt.Key.Key_End)
    assert pointer.lit() is not None
    QTest.keyClick(canvas, Qt.Key.Key_F1)
    settle()
    assert any(each.startswith("Thatch of the plug") for each in panel_heads())


@pytest.mark.parametrize(
    ("page", "section", "name", "begins"),
    [
        ("Water", "Records", "waterings_list", "Counted of the watering of"),
        ("Water", "Records", "rain_list", "Rain of"),
        ("Feed", "Ledger", "feedings_list", "Front lawn: nitrogen fed"),
        ("Feed", "Shelf", "products_list", "Slow share of the nitrogen"),
        ("Yard", "Overview", "weather_days", "ETo of"),
    ],
)
def test_f1_on_a_picked_row_opens_its_own_working(
    window: BookWindow, page: str, section: str, name: str, begins: str
) -> None:
    """By the keys alone."""
    shown = turn(window, page, section)
    table = shown.findChild(RecordTable, name)
    assert isinstance(table, RecordTable)
    window.activateWindow()
    table.setFocus()
    QTest.keyClick(table, Qt.Key.Key_Home)
    table.selectRow(0)
    QTest.keyClick(table, Qt.Key.Key_F1)
    settle()
    assert any(each.startswith(begins) for each in panel_heads())
