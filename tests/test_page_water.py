"""The water page as a whole: the zone picked, the table, the months, the folds."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QWidget

from lawnbook.charts.palette import DARK, LIGHT, Palette
from lawnbook.desk.pages.water import WaterPage
from lawnbook.desk.pages.water_words import answer_sentence, table_heads
from lawnbook.desk.theme import apply_theme
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import new_notebook, put
from tests.page_book import (
    WATER_DAY,
    click,
    follow,
    item_of,
    kept_open,
    kept_shown,
    open_book,
    out_of_reading_order,
    page_notebook,
    part,
    put_away,
    settle,
    text_of,
    type_into,
    unnamed,
)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    yield from kept_open(tmp_path, WATER_DAY)


@pytest.fixture
def page(qapp: QApplication, book: OpenNotebook) -> Iterator[WaterPage]:
    made = WaterPage(book)
    yield from kept_shown(qapp, made, made.show_plan, book)


def said(page: WaterPage) -> str:
    """The answer on top, with the line on the next watering below it."""
    told = "\n".join(filter(None, (page.answer.text(), page.following.text())))
    return told.replace("\u00a0gallons", " gallons")


def test_the_page_opens_at_the_first_zone_and_follows_the_picker(page: WaterPage) -> None:
    plan = make_plan(page_notebook(), WATER_DAY)
    assert said(page) == answer_sentence(plan.zones[0], WATER_DAY)
    told = QSignalSpy(page.selected)
    page.picker.setFocus()
    QTest.keyClick(page.picker, Qt.Key.Key_Down)
    assert said(page) == answer_sentence(plan.zones[1], WATER_DAY)
    assert told.at(0) == ["zones", "side"]


def test_the_link_to_the_working_ends_the_last_line_of_the_answer(
    page: WaterPage, book: OpenNotebook
) -> None:
    def beside(words: QWidget) -> bool:
        link = part(page, QWidget, "water_working")
        at = link.mapTo(page, link.rect().center())
        top = words.mapTo(page, words.rect().topLeft()).y()
        return link.isVisible() and top <= at.y() <= top + words.height()

    settle()
    assert beside(page.following)
    side = replace(book.notebook.zones["side"], irrigated=False)
    book.edit(put(book.notebook, "zones", side), "side")
    page.select("zones", "side")
    settle()
    assert not page.following.isVisible()
    assert beside(page.answer)
    page.select("zones", "front")
    settle()
    assert beside(page.following)


@pytest.mark.parametrize(
    ("table", "record_id"), [("zones", "side"), ("heads", "h1"), ("spots", "gate")]
)
def test_what_is_selected_elsewhere_turns_the_page_to_its_zone(
    page: WaterPage, table: str, record_id: str
) -> None:
    told = QSignalSpy(page.selected)
    page.select(table, record_id)
    assert page.picker.zone_id() == "side"
    assert page.now.table.picked_id() == "side"
    assert told.count() == 0, "the page must not send back what it was told"


def test_the_table_holds_every_zone_and_a_row_can_be_picked_by_key(page: WaterPage) -> None:
    assert [item_of(page.now.table, row, 0).text() for row in range(2)] == [
        "1 Front *",
        "2 Side *",
    ]
    assert "roots 6 in (Front)" in text_of(page, "assumed_words")
    page.now.table.setFocus()
    QTest.keyClick(page.now.table, Qt.Key.Key_Down)
    assert page.picker.zone_id() == "side"
    spoken = item_of(page.now.table, 0, 0).data(Qt.ItemDataRole.AccessibleDescriptionRole)
    assert spoken.startswith("Water 0.21 in")


def test_a_narrow_page_tells_the_run_time_by_its_cycles(page: WaterPage) -> None:
    for width, hidden in ((700, False), (520, True), (700, False)):
        page.resize(width, 820)
        settle()
        shown = [
            head for k, head in enumerate(table_heads()) if not page.now.table.isColumnHidden(k)
        ]
        assert shown == [head for head in table_heads() if not hidden or head != "Run\nmin"]


def test_why_zones_are_not_watered_is_said_below_the_table(
    page: WaterPage, book: OpenNotebook
) -> None:
    words = part(page, QLabel, "unwatered_words")
    assert not words.isVisible()
    side = replace(book.notebook.zones["side"], irrigated=False)
    book.edit(put(book.notebook, "zones", side), "side")
    plan = make_plan(book.notebook, WATER_DAY)
    assert plan.zones[1].reason == "Not irrigated: no watering is planned."
    assert words.text() == "Side not watered: not irrigated."
    assert words.isVisible()


SECTIONS = ("Now", "Roots", "Year", "Sprinklers", "Records")


@pytest.mark.parametrize("section", SECTIONS)
def test_tab_goes_through_the_page_as_it_is_read(page: WaterPage, section: str) -> None:
    page.turn_to(section)
    for fold in (page.sprinklers.tests_fold, page.sprinklers.zone_fold):
        fold.unfold()
    page.resize(620, 3000)
    settle(60)
    assert out_of_reading_order(page, least=4) == []


def test_a_catch_test_selected_elsewhere_is_shown_in_its_list(page: WaterPage) -> None:
    page.select("zones", "side")
    assert page.section == "Now"
    page.select("catch_tests", "c1")
    assert page.picker.zone_id() == "front"
    assert page.section == "Sprinklers"
    assert page.sprinklers.tests_fold.is_unfolded
    assert page.sprinklers.tests.table.isVisible()
    assert page.sprinklers.tests.table.picked_id() == "c1"


def test_a_selected_head_leads_to_the_sprinklers_once(page: WaterPage) -> None:
    page.select("heads", "h1")
    assert page.section == "Sprinklers"
    page.turn_to("Year")
    page.select("heads", "h1")
    assert page.section == "Year", "turned away, the owner is not led back by the same head"


def test_the_sections_are_walked_by_arrow_keys_and_the_answer_stays(page: WaterPage) -> None:
    answer = page.answer.text()
    seen = [page.section]
    part(page, QAbstractButton, "water_section_now").setFocus()
    for _ in SECTIONS[1:]:
        focus = QApplication.focusWidget()
        assert focus is not None
        QTest.keyClick(focus, Qt.Key.Key_Right)
        seen.append(page.section)
        assert page.answer.isVisible()
        assert page.answer.text() == answer
    assert tuple(seen) == SECTIONS
    assert page.records.waterings.isVisible()
    assert not page.now.table.isVisible()


def test_a_section_stays_while_zones_and_days_change(page: WaterPage, book: OpenNotebook) -> None:
    click(page, "water_section_year")
    page.select("zones", "side")
    page.show_plan(make_plan(book.notebook, date(2026, 8, 1)))
    assert page.section == "Year"
    assert page.year.strip.isVisible()
    assert page.year.strip.month == 8


@pytest.mark.parametrize("hours", ["25:00-26:00", "evening"])
def test_hours_that_are_none_are_not_kept(page: WaterPage, book: OpenNotebook, hours: str) -> None:
    page.turn_to("Records")
    type_into(page, "rule_hours", hours)
    assert book.notebook.water_rules.hours == ()
    assert part(page, QLabel, "rule_hours_problem").text()


def test_the_months_are_walked_by_arrow_keys(page: WaterPage) -> None:
    page.turn_to("Year")
    words = part(page, QLabel, "month_words")
    assert words.text().startswith("June: ")
    page.year.strip.setFocus()
    QTest.keyClick(page.year.strip, Qt.Key.Key_Right)
    assert words.text().startswith("July: ")
    QTest.keyClick(page.year.strip, Qt.Key.Key_Home)
    assert words.text().startswith("January: ")
    QTest.keyClick(page.year.strip, Qt.Key.Key_Left)
    assert page.year.strip.month == 1
    assert page.year.strip.accessibleDescription().startswith("January: ")


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=lambda each: each.name)
def test_the_strip_has_bars_only_where_water_is_planned(
    qapp: QApplication, page: WaterPage, colours: Palette
) -> None:
    page.turn_to("Year")
    settle()
    apply_theme(qapp, colours.name)
    picture = page.year.strip.grab().toImage()
    apply_theme(qapp, "light")
    blue = QColor(colours.water).rgb()
    width = (page.year.strip.width() - 94) / 12
    wet = []
    for month in range(12):
        columns = range(int(92 + month * width), int(92 + (month + 1) * width))
        wet.append(
            sum(
                picture.pixelColor(x, y).rgb() == blue
                for x in columns
                for y in range(picture.height())
            )
        )
    planned = [
        bool(month.depth_in) for month in make_plan(page_notebook(), WATER_DAY).zones[0].months
    ]
    assert [count > 20 for count in wet] == planned


def test_a_month_is_picked_by_the_mouse(page: WaterPage) -> None:
    page.turn_to("Year")
    settle()
    place = page.year.strip.rect().center()
    place.setX(page.year.strip.width() - 10)
    QTest.mouseClick(page.year.strip, Qt.MouseButton.LeftButton, pos=place)
    assert page.year.strip.month == 12


def test_a_yard_without_zones_says_what_to_do(qapp: QApplication, tmp_path: Path) -> None:
    apply_theme(qapp, "light")
    book = open_book(tmp_path, WATER_DAY, new_notebook("Bare"))
    bare = WaterPage(book)
    follow(book, bare.show_plan, WATER_DAY)
    bare.show()
    settle()
    assert part(bare, QLabel, "water_empty").isVisible()
    assert not bare.now.table.isVisible()
    assert not bare.sections.isVisible()
    put_away(bare)
    book.close()


def test_every_control_has_a_name(page: WaterPage) -> None:
    for section in SECTIONS:
        page.turn_to(section)
        settle(20)
    for fold in (page.sprinklers.tests_fold, page.sprinklers.zone_fold):
        fold.unfold()
    assert unnamed(page) == []
    assert page.findChildren(QComboBox)


def test_folds_open_and_close_by_key(page: WaterPage) -> None:
    page.turn_to("Sprinklers")
    heading = page.sprinklers.tests_fold.heading
    inside = part(page, QWidget, "tests_part")
    seen = []
    for _ in range(2):
        heading.setFocus()
        QTest.keyClick(heading, Qt.Key.Key_Space)
        seen.append(inside.isVisible())
    assert seen == [True, False]


@pytest.mark.qt_log_ignore("This plugin does not support")
def test_the_working_of_the_roots_can_be_opened(page: WaterPage) -> None:
    page.turn_to("Roots")
    settle()
    click(page, "roots_working")
    settle()
    panel = QApplication.activePopupWidget()
    assert panel is not None
    said = " ".join(label.text() for label in panel.findChildren(QLabel))
    assert "What the roots bear: 0.41 in" in said
    panel.close()
    settle()


def test_what_a_zone_needs_first_is_open_on_top_until_the_page_is_left(
    page: WaterPage, book: OpenNotebook
) -> None:
    bare = replace(book.notebook.zones["front"], id="back", name="Back", soil=None, rank=2)
    book.edit(put(book.notebook, "zones", bare), "back")
    assert not page.sprinklers.zone_fold.is_unfolded
    page.select("zones", "back")
    settle()
    ground, tests = page.sprinklers.zone_fold, page.sprinklers.tests_fold
    inside = part(page, QWidget, "zone_part")
    assert inside.isVisible()
    assert part(page, QWidget, "tests_part").isVisible()
    assert ground.y() < tests.y() < page.now.table.y()
    assert text_of(page, "zone_part_need").startswith("Say first what ground this is")
    soil = part(page, QComboBox, "zone_soil")
    soil.setFocus()
    QTest.keyClick(soil, Qt.Key.Key_Down)
    QTest.keyClick(soil, Qt.Key.Key_Tab)
    settle()
    assert book.notebook.zones["back"].soil
    assert text_of(page, "zone_part_need") == ""
    assert inside.isVisible(), "it must not close under the hand"
    assert ground.y() < page.now.table.y()
    page.hide()
    page.show()
    settle()
    assert page.now.isAncestorOf(tests)
    assert page.sprinklers.isAncestorOf(ground), "no longer needed first, it is back in its place"
    page.turn_to("Sprinklers")
    settle()
    assert not inside.isVisible()
    page.turn_to("Now")
    page.resize(620, 3000)
    settle(50)
    assert out_of_reading_order(page) == []


def test_a_fold_that_is_opened_comes_into_sight(page: WaterPage) -> None:
    page.turn_to("Sprinklers")
    page.resize(620, 420)
    heading = page.sprinklers.tests_fold.heading
    heading.setFocus()
    settle()
    QTest.keyClick(heading, Qt.Key.Key_Space)
    settle(20)
    inside = part(page, QWidget, "tests_part")
    assert not inside.visibleRegion().isEmpty()
    QTest.keyClick(heading, Qt.Key.Key_Space)
    assert not inside.isVisible()


@pytest.mark.parametrize(
    ("changes", "marked"),
    [
        ({}, ""),
        ({"rate_stale": True}, "The catch test is older than a change of heads or pressure."),
        ({"precipitation_rate_in_per_h": None}, "How fast the water falls is not known yet."),
    ],
)
def test_a_section_that_wants_a_look_is_marked_in_words_and_with_a_dot(
    page: WaterPage, changes: dict[str, Any], marked: str
) -> None:
    name = part(page, QAbstractButton, "water_section_sprinklers")
    plain = name.grab().toImage()
    plan = make_plan(page_notebook(), WATER_DAY)
    zones = (replace(plan.zones[0], **changes), *plan.zones[1:])
    page.show_plan(replace(plan, zones=zones))
    assert name.accessibleDescription() == marked
    assert (name.grab().toImage() == plain) == (not marked)
