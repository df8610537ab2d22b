"""Wrong entries in the first steps: each is marked where it stands, told, and keeps nobody waiting.

Each was met by somebody who began a yard with nothing but the manual's first page.
"""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QLocale
from PySide6.QtWidgets import QLineEdit, QScrollArea, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.reading import Reading, reading_as
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import put
from lawnbook.yard.records import Spot
from tests.test_desk_first_steps import ZONE, Steps, hand_at

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


@pytest.fixture
def steps(qtbot: QtBot, empty_book: OpenNotebook, settings: Settings) -> Iterator[Steps]:
    """A hand at a notebook with one zone."""
    empty_book.edit(put(empty_book.notebook, "zones", ZONE), "zone")
    yield from hand_at(qtbot, empty_book, settings)


def marked(steps: Steps, *names: str) -> list[str]:
    """Those of some lines that are marked as wrong."""
    return [each for each in names if steps.part(each).property("state") == "refuse"]


def retype(steps: Steps, name: str, text: str) -> None:
    """Type into a line in place of what stands there."""
    line = steps.part(name)
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    steps.fill(name, text)


def test_the_line_that_is_wrong_is_marked_and_no_other(steps: Steps) -> None:
    steps.unfold("size")
    steps.fill("first_size_length", "40")
    steps.fill("first_size_width", "wide")
    steps.click("first_put_down")
    sides = ("first_size_length", "first_size_width")
    assert marked(steps, *sides) == ["first_size_width"]
    steps.unfold("ground")
    steps.click("first_jar_fold")
    layers = ("first_jar_sand", "first_jar_silt", "first_jar_clay")
    for name, text in zip(layers, ("4", "60", "1"), strict=True):
        steps.fill(name, text)
    assert marked(steps, *layers) == ["first_jar_silt"]
    assert "60 in" in steps.words("first_jar_problem")
    retype(steps, "first_jar_silt", "60 mm")
    assert marked(steps, *layers) == []
    assert "sand" in steps.words("first_jar_answer")
    steps.click("first_ribbon_fold")
    steps.fill("first_ribbon_length", "38")
    assert marked(steps, "first_ribbon_length")


def test_of_a_habit_the_figure_that_is_wrong_is_marked(steps: Steps) -> None:
    steps.unfold("habit")
    names = ("habit_minutes", "habit_days_per_week")
    steps.fill(names[0], "10")
    steps.fill(names[1], "9")
    assert marked(steps, *names) == [names[1]]
    retype(steps, names[1], "7")
    retype(steps, names[0], "ten")
    assert marked(steps, *names) == [names[0]]
    retype(steps, names[0], "10")
    assert marked(steps, *names) == []
    assert steps.told("habit").startswith("Done")


def test_each_wrong_month_is_told_by_its_name(steps: Steps) -> None:
    steps.unfold("place")
    steps.click("first_months_fold")
    for month, text in ((3, "150"), (1, "cold"), (2, "160"), (4, "hot"), (5, "warm")):
        steps.fill(f"first_climate_tmean_f_{month}", text)
    lines = steps.words("first_climate_problem").splitlines()
    assert [line[:3] for line in lines[:3]] == ["Jan", "Feb", "Mar"]
    assert lines[3].startswith("2 more")
    for month in range(1, 6):
        retype(steps, f"first_climate_tmean_f_{month}", "50")
    assert steps.words("first_climate_problem") == ""


def test_a_season_is_told_by_its_months_and_its_example_turns_with_the_latitude(
    steps: Steps,
) -> None:
    steps.unfold("place")
    season = steps.part("first_yard_irrigation_season")
    assert isinstance(season, QLineEdit)
    assert season.placeholderText() == "15 Apr to 15 Oct"
    steps.fill("first_yard_latitude_deg", "34 S")
    steps.qtbot.waitUntil(lambda: season.placeholderText() == "15 Oct to 15 Apr")
    steps.fill("first_yard_irrigation_season", "September to Apr")
    held = steps.book.notebook.yard.irrigation_season
    assert held is not None
    assert (held.start, held.end) == ("09-01", "04-30")


def test_where_the_form_of_the_first_plug_stands_nothing_is_said_to_wait(steps: Steps) -> None:
    steps.book.edit(
        put(steps.book.notebook, "spots", Spot(id="s", name="first", zone="front")), "s"
    )
    steps.window.turn_to("Plugs")
    steps.qtbot.wait(20)
    assert steps.part("step_line").isHidden()
    assert steps.part("profile_columns").isHidden()
    assert steps.part("cores_thatch_in").isVisible()


def test_the_cards_fit_the_page_in_metric_too(
    qtbot: QtBot, empty_book: OpenNotebook, settings: Settings
) -> None:
    empty_book.edit(put(empty_book.notebook, "zones", ZONE), "zone")
    with reading_as(Reading(units="metric")):
        window = BookWindow(empty_book, settings)
        window.resize(1280, 800)
        window.show()
        qtbot.waitUntil(lambda: window.held_plan is not None)
        qtbot.wait(20)
        around: QWidget | None = window.page("Yard").findChild(QWidget, "first_steps")
        while around is not None and not isinstance(around, QScrollArea):
            around = around.parentWidget()
        assert isinstance(around, QScrollArea)
        assert around.horizontalScrollBar().maximum() == 0
        window.close()
        window.deleteLater()


@pytest.mark.parametrize(
    ("country", "paper"),
    [("de_DE", "a4"), ("en_AU", "a4"), ("en_US", "letter"), ("es_MX", "letter"), ("C", "letter")],
)
def test_the_paper_is_first_that_of_the_country(country: str, paper: str) -> None:
    """US Letter is usual in North and parts of South America, A4 everywhere else (Unicode CLDR)."""
    assert Settings.first_paper(QLocale(country)) == paper
