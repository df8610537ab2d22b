"""The trend section: what shows of few and many plugs, clicks on the chart, before and after."""

from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QLineEdit, QMenu
from pytestqt.qtbot import QtBot

from lawnbook.charts.marks import Frame
from lawnbook.charts.thatch_trend import trend_hits
from lawnbook.desk.pages import trend_words
from lawnbook.desk.pages.chart_pointer import ChartPointer
from lawnbook.desk.pages.water_figures import FigureTable
from lawnbook.desk.workings import WorkingPanel
from lawnbook.plan.care_marks import care_marks
from lawnbook.plan.make import make_plan
from lawnbook.plan.slope_changes import NO_STRIP, SEE_STRIP, change_at
from lawnbook.yard.notebook import new_notebook
from tests.desk_hand import child, type_in, words
from tests.page_book import click, part, type_into, unnamed
from tests.trend_book import AERATED, FRONT, SHED, TODAY, YARD, Shown, trend_notebook

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")
Open = Callable[..., Shown]


@pytest.fixture
def opened(qtbot: QtBot, tmp_path: Path) -> Iterator[Open]:
    """Opens the trend of a yard with so many plugs at each spot, with or without a strip."""
    made: list[Shown] = []

    def open_with(plugs: int = 7, *, strip: bool = False) -> Shown:
        shown = Shown(qtbot, tmp_path, trend_notebook(plugs, strip=strip))
        made.append(shown)
        return shown

    yield open_with
    for each in made:
        each.book.close()


def hit_at(shown: Shown, key: str) -> None:
    """Click what the chart of the place holds under a key."""
    pointer = part(shown.section, ChartPointer, "trend_chart_pointer")
    notebook = shown.book.notebook
    evidence = trend_words.evidence_of(make_plan(notebook, TODAY), shown.at)
    assert evidence is not None
    care = care_marks(notebook, shown.at, TODAY)
    trends = shown.section.trends(make_plan(notebook, TODAY), evidence)
    scale = 0.72
    frame = Frame(pointer.width() * scale, pointer.height() * scale)
    hit = next(each for each in trend_hits(trends, care, frame, TODAY) if each.key == key)
    spot = QPoint(
        round((hit.left + hit.right) / 2 / scale), round((hit.top + hit.bottom) / 2 / scale)
    )
    QTest.mouseClick(pointer, Qt.MouseButton.LeftButton, pos=spot)


def drawn(qtbot: QtBot, shown: Shown) -> None:
    """Wait until the chart has been drawn."""
    qtbot.waitUntil(lambda: shown.section.findChild(ChartPointer) is not None)


def test_without_a_plug_only_the_care_can_be_entered(qtbot: QtBot, tmp_path: Path) -> None:
    shown = Shown(qtbot, tmp_path, new_notebook("Home"))
    assert "No plug" in words(shown.section, "trend_verdict")
    for name in ("trend_chart", "trend_figures", "change_part", "strip_part"):
        assert not child(shown.section, name).isVisible()
    assert child(shown.section, "care_kind").isVisible()
    shown.book.close()


@pytest.mark.parametrize("plugs", [1, 2, 3, 4])
def test_below_five_plugs_a_spot_cannot_say(opened: Open, plugs: int) -> None:
    shown = opened(plugs)
    shown.look_at(SHED)
    verdict = words(shown.section, "trend_verdict")
    assert verdict.startswith("Cannot say yet")
    assert ("one more date is" if plugs == 4 else f"{5 - plugs} more dates are") in verdict
    assert words(shown.section, "trend_half_inch_value") == trend_words.NOT_YET
    assert "95" not in words(shown.section, "trend_slope_words")
    assert child(shown.section, "trend_chart").isVisible()


@pytest.mark.parametrize("place", [SHED, FRONT, YARD])
def test_what_is_shown_is_the_evidence_of_the_plan(opened: Open, place: object) -> None:
    shown = opened()
    at = next(each for each in (SHED, FRONT, YARD) if each == place)
    shown.look_at(at)
    evidence = trend_words.evidence_of(make_plan(shown.book.notebook, TODAY), at)
    assert evidence is not None
    assert evidence.ci95 is not None
    assert words(shown.section, "trend_verdict") == evidence.verdict
    assert trend_words.between(evidence.ci95) in words(shown.section, "trend_slope_words")
    for figure, name in zip(trend_words.trend_figures(evidence), trend_words.FIGURES, strict=True):
        assert words(shown.section, f"trend_{name}_value") == figure.value
    assert not unnamed(shown.section)


def test_a_figure_opens_its_working(opened: Open) -> None:
    shown = opened()
    click(shown.section, "trend_detectable_working")
    panel = part(shown.section, WorkingPanel, "working_panel")
    said = " ".join(each.text() for each in panel.findChildren(QLabel))
    assert "Smallest change" in said
    panel.close()


def test_a_click_on_a_dot_leads_to_its_plug(qtbot: QtBot, opened: Open) -> None:
    shown = opened()
    drawn(qtbot, shown)
    hit_at(shown, "core:gate3")
    assert shown.turned == [("cores", "gate3")]


def test_a_click_on_a_care_mark_opens_its_entry(qtbot: QtBot, opened: Open) -> None:
    shown = opened()
    drawn(qtbot, shown)
    hit_at(shown, "care:dressed")
    assert part(shown.section, QLineEdit, "care_kind").text() == "topdressing"
    assert part(shown.section, QLineEdit, "care_note").text() == "compost"
    click(shown.section, "care_compare")
    assert part(shown.section, QLineEdit, "split_day").text() == "13 Sep 2025"
    assert words(shown.section, "split_done") == "noted for this day: topdressing"


def test_at_first_the_care_with_most_plugs_around_it_is_compared(opened: Open) -> None:
    shown = opened()
    assert part(shown.section, QLineEdit, "split_day").text() == "14 Sep 2024"
    change = change_at(shown.book.notebook, TODAY, YARD, AERATED)
    assert words(shown.section, "change_words") == change.words
    table = part(shown.section, FigureTable, "change_figures")
    assert table.accessibleDescription() == trend_words.change_described(change)


def test_another_day_is_typed_and_stays_for_the_next_place(opened: Open) -> None:
    shown = opened()
    type_in(shown.section, "split_day", "1 Mar 2025")
    change = change_at(shown.book.notebook, TODAY, YARD, date(2025, 3, 1))
    assert words(shown.section, "change_words") == change.words
    shown.look_at(FRONT)
    assert part(shown.section, QLineEdit, "split_day").text() == "1 Mar 2025"
    front = change_at(shown.book.notebook, TODAY, FRONT, date(2025, 3, 1))
    assert words(shown.section, "change_words") == front.words


def test_a_day_is_picked_from_what_was_done(opened: Open) -> None:
    shown = opened()
    field = part(shown.section, QLineEdit, "split_day")
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)
    menu = part(shown.section, QMenu, "split_day_presets")
    assert [each.text() for each in menu.actions()] == [
        "topdressing, whole yard\t13 Sep 2025",
        "aeration, Front\t14 Sep 2024",
    ]
    QTest.keyClick(menu, Qt.Key.Key_Down)
    QTest.keyClick(menu, Qt.Key.Key_Return)
    assert field.text() == "13 Sep 2025"
    assert "13 Sep 2025" in words(shown.section, "change_words")


def test_what_is_no_day_is_refused_and_the_comparison_kept(opened: Open) -> None:
    shown = opened()
    before = words(shown.section, "change_words")
    type_in(shown.section, "split_day", "someday")
    assert "is not a date" in words(shown.section, "split_trouble")
    assert part(shown.section, QLineEdit, "split_day").text() == "someday"
    assert words(shown.section, "change_words") == before
    shown.look_at(YARD)
    assert part(shown.section, QLineEdit, "split_day").text() == "someday"
    type_in(shown.section, "split_day", "14 Sep 2024")
    assert words(shown.section, "split_trouble") == ""
    assert words(shown.section, "change_words") == before


def test_without_a_day_the_words_on_proof_still_stand(opened: Open) -> None:
    shown = opened()
    type_into(shown.section, "split_day", "")
    shown.look_at(FRONT)
    assert not child(shown.section, "change_figures").isVisible()
    assert words(shown.section, "change_words").startswith("Choose a day")
    assert words(shown.section, "change_proof") == NO_STRIP


def test_the_words_on_proof_stand_beside_every_comparison(opened: Open) -> None:
    shown = opened()
    assert words(shown.section, "change_proof").startswith(NO_STRIP)


def test_without_a_strip_it_is_said_how_one_is_marked(opened: Open) -> None:
    shown = opened()
    assert words(shown.section, "strip_words") == trend_words.MARK_STRIP
    assert not child(shown.section, "strip_figures").isVisible()


def test_a_strip_is_set_against_the_treated_spots(opened: Open) -> None:
    shown = opened(strip=True)
    table = part(shown.section, FigureTable, "strip_figures")
    assert table.isVisible()
    assert "Untreated: Shed" in table.accessibleDescription()
    assert "Treated: Gate, Lilac" in table.accessibleDescription()
    assert words(shown.section, "strip_proof")
    assert words(shown.section, "change_proof").startswith(SEE_STRIP)
