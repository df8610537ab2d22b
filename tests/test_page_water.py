"""The water page: what it says, and that what is entered there is kept, one change at a time."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QComboBox, QLabel, QWidget

from lawnbook.charts.palette import DARK, LIGHT, Palette
from lawnbook.desk.pages.water import WaterPage
from lawnbook.desk.pages.water_records import catch_answer
from lawnbook.desk.pages.water_words import (
    answer_sentence,
    month_sentence,
    rate_sentence,
    roots_now_sentence,
    table_row,
    target_sentence,
)
from lawnbook.desk.theme import apply_theme
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import ZoneWater
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import new_notebook
from tests.page_book import (
    click,
    follow,
    item_of,
    open_book,
    page_notebook,
    part,
    put_away,
    settle,
    type_into,
    unnamed,
)

ON = date(2026, 6, 15)
UNKNOWN_RUN = "how long to run is unknown until the precipitation rate is"


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    opened = open_book(tmp_path, ON)
    yield opened
    opened.close()


@pytest.fixture
def page(qapp: QApplication, book: OpenNotebook) -> Iterator[WaterPage]:
    apply_theme(qapp, "light")
    made = WaterPage(book)
    made.resize(620, 820)
    follow(book, made.show_plan, ON)
    made.show()
    settle()
    yield made
    put_away(made)


def zone_water(name: str = "Front") -> ZoneWater:
    plan = make_plan(page_notebook(), ON)
    return next(zone for zone in plan.zones if zone.zone == name)


# Words


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        (
            {"depth_in": 0.41, "interval_days": 2, "run_minutes": 27.0, "cycles": 3,
             "minutes_per_cycle": 9.0, "soak_minutes": 21.0, "gallons": 1260.0},
            "Water 0.41 in every 2 days: 3 cycles of 9 min with 21 min soak, 1,260 gallons.",
        ),
        (
            {"depth_in": 0.2, "interval_days": 1, "run_minutes": 12.4, "cycles": 1,
             "minutes_per_cycle": 12.4, "soak_minutes": 0.0, "gallons": 90.0},
            "Water 0.20 in every day: 12 min in one run, 90 gallons.",
        ),
        (
            {"depth_in": 0.2, "interval_days": 3, "run_minutes": None, "gallons": None},
            f"Water 0.20 in every 3 days: {UNKNOWN_RUN}.",
        ),
    ],
)  # fmt: skip
def test_the_answer_in_words(changes: dict[str, Any], said: str) -> None:
    zone = replace(zone_water(), next_watering=None, **changes)
    assert answer_sentence(zone, ON) == said


@pytest.mark.parametrize(
    ("following", "said"),
    [
        (date(2026, 6, 17), "Next: Wed 17 Jun."),
        (ON, "Next: today."),
        (date(2026, 6, 14), "Next: today."),
    ],
)
def test_when_next_is_said_on_a_line_of_its_own(following: date, said: str) -> None:
    zone = replace(zone_water(), next_watering=following)
    assert answer_sentence(zone, ON).splitlines()[-1] == said


def test_no_watering_is_told_with_its_reason() -> None:
    zone = replace(zone_water(), depth_in=None, reason="Outside the irrigation season.")
    assert answer_sentence(zone, ON) == "No watering is planned: outside the irrigation season."


def test_where_the_rate_comes_from_is_said() -> None:
    # 3.66 × 45 mL ÷ (20 min × 9 sq in) = 0.915 in/h; lowest quarter 40 of 45 (the catch-can
    # method of the Irrigation Association, as in New Mexico State University Guide H-510).
    assert (
        rate_sentence(zone_water())
        == "0.92 in/h from the catch test; lower quarter 0.89 of the mean."
    )
    # 96.25 × 5 gpm ÷ 500 sq ft.
    assert rate_sentence(zone_water("Side")) == (
        "0.96 in/h from the flows of its heads; evenness never measured, 0.65 assumed."
    )
    bare = replace(zone_water(), precipitation_rate_in_per_h=None, rate_source=None)
    assert "set out cans" in rate_sentence(bare)


def test_roots_now_and_the_target() -> None:
    zone = zone_water()
    # 6 in of loam bear 0.40 × 0.17 × 6 = 0.41 in; an inch needs 14.7 in.
    assert "Roots reach 6.0 in into the soil (assumed until the first plug)" in roots_now_sentence(
        zone
    )
    assert "bear 0.41 in" in roots_now_sentence(zone)
    assert "needs roots 14.7 in deep: 8.7 in to go." in target_sentence(zone)
    deep = replace(zone, rooted_soil_in=20.0)
    assert target_sentence(deep).endswith("is within what these roots bear.")


def test_a_row_says_today_and_dashes_what_is_unknown() -> None:
    zone = zone_water()
    assert table_row(replace(zone, next_watering=ON), ON)[-1] == "today"
    bare = replace(
        zone, precipitation_rate_in_per_h=None, rate_source=None, run_minutes=None, cycles=None
    )
    assert table_row(bare, ON)[1] == "–"
    assert table_row(bare, ON)[3:5] == ("–", "–")


def test_a_month_without_watering_says_why() -> None:
    january = zone_water().months[0]
    assert month_sentence(january) == january.reason
    assert january.reason


@pytest.mark.parametrize(
    ("values", "said", "role"),
    [
        ({}, "Type what the cans caught", "caption"),
        ({"volumes_ml": (50.0, 40.0)}, "Still needed", "caption"),
        ({"volumes_ml": (50.0, 40.0), "run_minutes": 20.0}, "Still needed", "caption"),
        (
            {"volumes_ml": (50.0, 40.0, 45.0, 45.0), "run_minutes": 20.0, "can_mouth_sqin": 9.0},
            "4 cans: 0.92 in/h, lower quarter 0.89 of the mean.",
            "good",
        ),
        (
            {"depths_in": (0.25, 0.25, 0.25, 0.25), "run_minutes": 15.0},
            "4 cans: 1.00 in/h, lower quarter 1.00 of the mean.",
            "good",
        ),
        ({"depths_in": (0.25,), "run_minutes": 15.0}, "two cans or more", "refuse"),
    ],
)
def test_the_cans_answer_as_they_are_typed(values: dict[str, object], said: str, role: str) -> None:
    words, told_as = catch_answer(values)
    assert said in words
    assert told_as == role


# The page


def test_the_page_opens_at_the_first_zone_and_follows_the_picker(page: WaterPage) -> None:
    plan = make_plan(page_notebook(), ON)
    assert page.answer.text() == answer_sentence(plan.zones[0], ON)
    told = QSignalSpy(page.selected)
    page.picker.setFocus()
    QTest.keyClick(page.picker, Qt.Key.Key_Down)
    assert page.answer.text() == answer_sentence(plan.zones[1], ON)
    assert told.at(0) == ["zones", "side"]


@pytest.mark.parametrize(
    ("table", "record_id"), [("zones", "side"), ("heads", "h1"), ("spots", "gate")]
)
def test_what_is_selected_elsewhere_turns_the_page_to_its_zone(
    page: WaterPage, table: str, record_id: str
) -> None:
    told = QSignalSpy(page.selected)
    page.select(table, record_id)
    assert page.picker.zone_id() == "side"
    assert page.table.picked_id() == "side"
    assert told.count() == 0, "the page must not send back what it was told"


def test_the_table_holds_every_zone_and_a_row_can_be_picked_by_key(page: WaterPage) -> None:
    assert [item_of(page.table, row, 0).text() for row in range(2)] == ["1 Front", "2 Side"]
    page.table.setFocus()
    QTest.keyClick(page.table, Qt.Key.Key_Down)
    assert page.picker.zone_id() == "side"
    spoken = item_of(page.table, 0, 0).data(Qt.ItemDataRole.AccessibleDescriptionRole)
    assert spoken.startswith("Water 0.21 in")


def test_a_narrow_page_leaves_soak_and_gallons_to_the_answer(page: WaterPage) -> None:
    for width, hidden in ((700, False), (520, True), (700, False)):
        page.resize(width, 820)
        settle()
        assert [page.table.isColumnHidden(column) for column in (5, 7)] == [hidden, hidden]
        assert not any(page.table.isColumnHidden(column) for column in (0, 1, 2, 3, 4, 6, 8))


def test_a_catch_test_selected_elsewhere_is_shown_in_its_list(page: WaterPage) -> None:
    page.select("zones", "side")
    page.select("catch_tests", "c1")
    assert page.picker.zone_id() == "front"
    assert page.tests_fold.is_unfolded
    assert page.tests.table.picked_id() == "c1"


@pytest.mark.parametrize("hours", ["25:00-26:00", "evening"])
def test_hours_that_are_none_are_not_kept(page: WaterPage, book: OpenNotebook, hours: str) -> None:
    page.rules_fold.unfold()
    type_into(page, "rule_hours", hours)
    assert book.notebook.water_rules.hours == ()
    assert part(page, QLabel, "rule_hours_problem").text()


def test_the_months_are_walked_by_arrow_keys(page: WaterPage) -> None:
    words = part(page, QLabel, "month_words")
    assert words.text().startswith("June: ")
    page.strip.setFocus()
    QTest.keyClick(page.strip, Qt.Key.Key_Right)
    assert words.text().startswith("July: ")
    QTest.keyClick(page.strip, Qt.Key.Key_Home)
    assert words.text().startswith("January: ")
    QTest.keyClick(page.strip, Qt.Key.Key_Left)
    assert page.strip.month == 1
    assert page.strip.accessibleDescription().startswith("January: ")


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=lambda each: each.name)
def test_the_strip_has_bars_only_where_water_is_planned(
    qapp: QApplication, page: WaterPage, colours: Palette
) -> None:
    apply_theme(qapp, colours.name)
    picture = page.strip.grab().toImage()
    apply_theme(qapp, "light")
    blue = QColor(colours.water).rgb()
    width = (page.strip.width() - 94) / 12
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
    planned = [bool(month.depth_in) for month in zone_water().months]
    assert [count > 20 for count in wet] == planned


def test_a_month_is_picked_by_the_mouse(page: WaterPage) -> None:
    place = page.strip.rect().center()
    place.setX(page.strip.width() - 10)
    QTest.mouseClick(page.strip, Qt.MouseButton.LeftButton, pos=place)
    assert page.strip.month == 12


def test_a_yard_without_zones_says_what_to_do(qapp: QApplication, tmp_path: Path) -> None:
    apply_theme(qapp, "light")
    book = open_book(tmp_path, ON, new_notebook("Bare"))
    bare = WaterPage(book)
    follow(book, bare.show_plan, ON)
    bare.show()
    settle()
    assert part(bare, QLabel, "water_empty").isVisible()
    assert not bare.table.isVisible()
    put_away(bare)
    book.close()


# What is entered


def test_a_field_is_kept_when_it_is_left_as_one_undoable_change(
    page: WaterPage, book: OpenNotebook
) -> None:
    page.zone_fold.unfold()
    type_into(page, "zone_slope_pct", "4.5")
    assert book.notebook.zones["front"].slope_pct == 4.5
    assert book.undo_label == "slope of Front"
    book.undo()
    assert book.notebook.zones["front"].slope_pct == 0
    assert part(page, QWidget, "zone_slope_pct").property("text") == "0"


def test_fields_of_several_groups_do_not_undo_each_other(
    page: WaterPage, book: OpenNotebook
) -> None:
    page.zone_fold.unfold()
    type_into(page, "zone_slope_pct", "4")
    type_into(page, "zone_target_depth_in", "3/4")
    type_into(page, "zone_microclimate", "0.8")
    zone = book.notebook.zones["front"]
    assert (zone.slope_pct, zone.target_depth_in, zone.microclimate) == (4, 0.75, 0.8)


@pytest.mark.parametrize("text", ["-3", "abc", "101"])
def test_a_refused_field_is_not_kept_and_says_so(
    page: WaterPage, book: OpenNotebook, text: str
) -> None:
    page.zone_fold.unfold()
    type_into(page, "zone_slope_pct", text)
    assert book.notebook.zones["front"].slope_pct == 0
    assert part(page, QLabel, "zone_slope_pct_problem").text()


def test_a_doubtful_field_is_kept_once_confirmed(page: WaterPage, book: OpenNotebook) -> None:
    page.zone_fold.unfold()
    type_into(page, "zone_slope_pct", "50")
    assert book.notebook.zones["front"].slope_pct == 0
    keep = part(page, QCheckBox, "zone_slope_pct_keep")
    assert keep.isVisible()
    keep.setFocus()
    QTest.keyClick(keep, Qt.Key.Key_Space)
    assert book.notebook.zones["front"].slope_pct == 50


def test_the_zone_form_follows_the_picker(page: WaterPage, book: OpenNotebook) -> None:
    page.zone_fold.unfold()
    page.select("zones", "side")
    type_into(page, "zone_name", "Side strip")
    assert book.notebook.zones["side"].name == "Side strip"
    assert page.picker.currentText() == "2 Side strip"


def test_a_catch_test_is_entered_by_keys_and_sets_the_rate(
    page: WaterPage, book: OpenNotebook
) -> None:
    page.select("zones", "side")
    page.tests_fold.unfold()
    for name, text in (("run_minutes", "15"), ("can_mouth_sqin", "9"), ("volumes_ml", "40 50 60")):
        type_into(page, f"catch_tests_{name}", text)
    assert "3 cans: 1.36 in/h" in part(page, QLabel, "catch_tests_answer").text()
    click(page, "catch_tests_keep")
    kept = [each for each in book.notebook.catch_tests.values() if each.zone == "side"]
    assert [each.volumes_ml for each in kept] == [(40.0, 50.0, 60.0)]
    assert "from the catch test" in part(page, QLabel, "water_rate").text()
    table = page.tests.table
    assert table.rowCount() == 1
    table.setFocus()
    table.pick(kept[0].id)
    QTest.keyClick(table, Qt.Key.Key_Delete)
    assert not [each for each in book.notebook.catch_tests.values() if each.zone == "side"]
    book.undo()
    assert kept[0].id in book.notebook.catch_tests


def test_a_watering_takes_minutes_or_depth_and_not_both(
    page: WaterPage, book: OpenNotebook
) -> None:
    type_into(page, "waterings_date", "today")
    type_into(page, "waterings_minutes", "30")
    type_into(page, "waterings_depth_in", "0.5")
    click(page, "waterings_keep")
    assert not book.notebook.waterings
    field = type_into(page, "waterings_depth_in", "")
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_Return)
    kept = list(book.notebook.waterings.values())
    assert [(each.zone, each.date, each.minutes, each.depth_in) for each in kept] == [
        ("front", ON, 30.0, None)
    ]
    assert book.undo_label == "watering of 15 Jun 2026"
    assert part(page, QWidget, "waterings_minutes").property("text") == ""


def test_a_kept_watering_is_changed_in_the_form_and_keeps_its_id(
    page: WaterPage, book: OpenNotebook
) -> None:
    type_into(page, "waterings_minutes", "30")
    click(page, "waterings_keep")
    (before,) = book.notebook.waterings.values()
    page.waterings.table.setFocus()
    page.waterings.table.pick(before.id)
    QTest.keyClick(page.waterings.table, Qt.Key.Key_Return)
    assert part(page, QWidget, "waterings_minutes").property("text") == "30"
    type_into(page, "waterings_minutes", "35")
    click(page, "waterings_keep")
    assert book.notebook.waterings == {before.id: replace(before, minutes=35)}


def test_the_list_shows_only_the_zone_s_own(page: WaterPage, book: OpenNotebook) -> None:
    type_into(page, "waterings_minutes", "30")
    click(page, "waterings_keep")
    assert page.waterings.table.rowCount() == 1
    page.select("zones", "side")
    assert page.waterings.table.rowCount() == 0
    assert book.notebook.waterings


def test_the_local_rule_is_kept(page: WaterPage, book: OpenNotebook) -> None:
    page.rules_fold.unfold()
    click(page, "days_Mon")
    click(page, "days_Thu")
    type_into(page, "rule_hours", "18:00-08:00")
    assert book.notebook.water_rules.days == ("Mon", "Thu")
    assert book.notebook.water_rules.hours == ("18:00-08:00",)


def test_every_control_has_a_name(page: WaterPage) -> None:
    for fold in (page.tests_fold, page.zone_fold, page.rules_fold):
        fold.unfold()
    assert unnamed(page) == []
    assert page.findChildren(QComboBox)


def test_folds_open_and_close_by_key(page: WaterPage) -> None:
    inside = part(page, QWidget, "catch_tests_run_minutes")
    seen = []
    for _ in range(2):
        page.tests_fold.heading.setFocus()
        QTest.keyClick(page.tests_fold.heading, Qt.Key.Key_Space)
        seen.append(inside.isVisible())
    assert seen == [True, False]


@pytest.mark.qt_log_ignore("This plugin does not support")
def test_the_working_of_the_roots_can_be_opened(page: WaterPage) -> None:
    click(page, "roots_working")
    settle()
    panel = QApplication.activePopupWidget()
    assert panel is not None
    said = " ".join(label.text() for label in panel.findChildren(QLabel))
    assert "What the roots bear: 0.41 in" in said
    panel.close()
    settle()
