"""The sections of the water page with every part of the water filled in."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QWidget

from lawnbook.charts.palette import DARK, LIGHT, Palette
from lawnbook.desk.can_draft import CanDraft
from lawnbook.desk.pages.water import WaterPage
from lawnbook.desk.pages.water_ledger import LedgerCache
from lawnbook.desk.theme import apply_theme
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.plan.water_model import ZoneLedger
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Notebook
from tests.page_book import (
    WATER_DAY,
    click,
    item_of,
    kept_open,
    kept_shown,
    part,
    settle,
    text_of,
    type_into,
)
from tests.water_fixture import (
    CREDIT,
    coverage,
    establishing,
    ledger_of,
    next_run,
    program,
    stretch,
    zone_year,
)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    yield from kept_open(tmp_path, WATER_DAY)


@pytest.fixture
def page(qapp: QApplication, book: OpenNotebook) -> Iterator[WaterPage]:
    made = WaterPage(book)
    yield from kept_shown(qapp, made, made.show_plan, book)


def full_plan(book: OpenNotebook, shortfall: int = 0) -> Plan:
    """The plan of the test yard with every part of the front zone's water filled in."""
    plan = make_plan(book.notebook, WATER_DAY)
    front = replace(
        plan.zones[0],
        next_run=next_run(),
        today_run=next_run(WATER_DAY, 0.21),
        rain_credit=CREDIT,
        stretch=stretch(),
        coverage=coverage(),
        water_year=zone_year(full=True),
        establishing=None,
    )
    return replace(plan, zones=(front, *plan.zones[1:]), programs=(program(shortfall=shortfall),))


def shown(page: WaterPage, plan: Plan, section: str) -> None:
    page.show_plan(plan)
    page.turn_to(section)
    page.resize(620, 1500)
    settle(120)


def visible(page: WaterPage, name: str) -> bool:
    return part(page, QWidget, name).isVisible()


def test_now_tells_run_rain_and_night(page: WaterPage, book: OpenNotebook) -> None:
    shown(page, full_plan(book), "Now")
    assert text_of(page, "next_title") == "Next watering: Wed 17 Jun"
    assert page.now.next.figures.figures()[0] == ("0.42 in", "net depth")
    assert "1,290 gal of water" in page.now.next.figures.accessibleDescription()
    assert text_of(page, "next_rain").endswith("moved this by 3 days.")
    assert text_of(page, "next_others").startswith("Today instead: 0.21 in")
    assert text_of(page, "night_title") == "Night of Tue 16 to Wed 17 Jun, program A"
    assert [item_of(page.now.night.table, 0, k).text() for k in range(3)] == [
        "1 Front",
        "03:20, 03:54, 04:38",
        "3 × 10",
    ]
    assert page.now.night.strip.accessibleDescription().startswith("03:20 Front, 10 min;")


def test_a_night_that_is_too_short_is_told_in_the_tone_of_warning(
    page: WaterPage, book: OpenNotebook
) -> None:
    shown(page, full_plan(book, shortfall=28), "Now")
    short = part(page, QLabel, "night_short")
    assert "28 min of it cannot be given" in short.text()
    assert short.property("role") == "warn"
    shown(page, full_plan(book), "Now")
    assert not short.isVisible()


def test_what_is_not_planned_takes_no_room(page: WaterPage, book: OpenNotebook) -> None:
    plan = make_plan(book.notebook, WATER_DAY)
    bare = replace(
        plan.zones[0], next_run=None, stretch=None, coverage=None, water_year=None, notes=()
    )
    plan = replace(plan, zones=(bare, *plan.zones[1:]), programs=())
    shown(page, plan, "Now")
    assert not page.now.next.isVisible()
    assert not page.now.night.isVisible()
    assert not visible(page, "water_notes")
    page.turn_to("Roots")
    assert not page.roots.chart.isVisible()
    page.turn_to("Year")
    assert not page.year.totals.isVisible()
    assert text_of(page, "year_words").startswith("The year can be reckoned once")
    page.turn_to("Sprinklers")
    assert text_of(page, "coverage_words").startswith("No map of this zone yet")
    assert not page.sprinklers.show_link.isVisible()


def test_the_rule_for_new_turf_stands_on_top(page: WaterPage, book: OpenNotebook) -> None:
    plan = full_plan(book)
    seeded = replace(plan.zones[0], establishing=establishing())
    shown(page, replace(plan, zones=(seeded, *plan.zones[1:])), "Now")
    rule = part(page, QLabel, "water_establishing")
    assert rule.isVisible()
    assert rule.text().startswith("New seed until 23 Jul")
    assert (
        rule.mapTo(page, rule.rect().topLeft()).y()
        < page.now.next.mapTo(page, page.now.next.rect().topLeft()).y()
    )


def test_the_ledger_is_reckoned_for_the_zone_on_show_and_only_while_it_is_seen(
    page: WaterPage, book: OpenNotebook, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []

    def told(_cache: LedgerCache, _book: Notebook, _on: date, zone_id: str) -> ZoneLedger:
        asked.append(zone_id)
        return replace(ledger_of(), zone_id=zone_id)

    monkeypatch.setattr(LedgerCache, "ledger", told)
    page.turn_to("Year")
    page.show_plan(full_plan(book))
    page.select("zones", "side")
    assert asked == []
    page.turn_to("Now")
    settle(120)
    assert set(asked) == {"side"}
    canvas = part(page, QWidget, "water_ledger_canvas")
    assert canvas.accessibleDescription().startswith("15 Jun 2026:")
    assert text_of(page, "ledger_words") == canvas.accessibleDescription()


def test_a_ledger_is_remembered_until_the_notebook_or_the_day_is_another(
    book: OpenNotebook,
) -> None:
    cache = LedgerCache()
    first = cache.ledger(book.notebook, WATER_DAY, "front")
    assert first is not None
    assert cache.ledger(book.notebook, WATER_DAY, "front") is first
    assert cache.ledger(book.notebook, WATER_DAY, "side") is not first
    assert cache.ledger(book.notebook, date(2026, 6, 16), "front") is not first
    assert cache.ledger(book.notebook, WATER_DAY, "none") is None


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=lambda each: each.name)
def test_charts_and_strip_are_painted_in_the_theme(
    qapp: QApplication, page: WaterPage, book: OpenNotebook, colours: Palette
) -> None:
    apply_theme(qapp, colours.name)
    plan = full_plan(book)
    seen = {}
    for section, name in (
        ("Now", "night_strip"),
        ("Roots", "water_stretch"),
        ("Roots", "inch_picture"),
        ("Year", "water_year_chart"),
    ):
        shown(page, plan, section)
        picture = part(page, QWidget, name).grab().toImage()
        wanted = QColor(colours.soil if name == "water_stretch" else colours.water)
        if name == "inch_picture":
            wanted = QColor(colours.verdure)
        seen[name] = sum(
            picture.pixelColor(x, y).rgb() == wanted.rgb()
            for x in range(0, picture.width(), 2)
            for y in range(picture.height())
        )
    apply_theme(qapp, "light")
    assert all(count > 40 for count in seen.values()), seen


def test_roots_tell_the_steps_and_the_inch(page: WaterPage, book: OpenNotebook) -> None:
    shown(page, full_plan(book), "Roots")
    canvas = part(page, QWidget, "water_stretch_canvas")
    assert "Every 3 days, 0.63 in: roots of 9.9 in" in canvas.accessibleDescription()
    assert text_of(page, "stretch_words") == stretch().words
    assert text_of(page, "stretch_growth").startswith("At June’s use, 0.21 in a day.")
    assert "0.53 in of that inch would drain past" in text_of(page, "inch_words")
    assert part(page, QWidget, "inch_picture").accessibleDescription() == text_of(
        page, "inch_words"
    )


def test_the_year_is_told_in_chart_and_table(page: WaterPage, book: OpenNotebook) -> None:
    shown(page, full_plan(book), "Year")
    assert text_of(page, "year_words") == zone_year().words
    assert "Old habit 31,000" in page.year.totals.accessibleDescription()
    cells = [label.text() for label in page.year.totals.findChildren(QLabel)]
    assert {"41", "182", "18,400", "110.40"} <= set(cells)
    canvas = part(page, QWidget, "water_year_chart_canvas")
    assert canvas.accessibleDescription().startswith("plan: 18,400 gallons")


def test_a_dry_year_is_set_here_for_the_whole_yard(page: WaterPage, book: OpenNotebook) -> None:
    page.turn_to("Year")
    settle()
    box = part(page, QComboBox, "dry_drought")
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Down)
    QTest.keyClick(box, Qt.Key.Key_Tab)
    type_into(page, "dry_drought_share", "0.7")
    kept = [book.notebook.yard]
    book.undo()
    kept.append(book.notebook.yard)
    assert [each.drought for each in kept] == ["less", "less"]
    assert [each.drought_share for each in kept] == [0.7, None]
    page.show_plan(full_plan(book))
    assert "short of water" in text_of(page, "dry_cost")


def test_the_map_leads_to_the_sketch_and_the_cans_to_its_tool(
    page: WaterPage, book: OpenNotebook
) -> None:
    asked = QSignalSpy(page.asked)
    shown(page, full_plan(book), "Sprinklers")
    assert part(page, QWidget, "coverage_figures").accessibleDescription().startswith("0.86 in/h")
    click(page, "coverage_show")
    page.sprinklers.tests.place_wanted.emit()
    assert [asked.at(k) for k in range(asked.count())] == [["Sprinkler rate"], ["Can"]]


def test_cans_placed_on_the_sketch_open_their_zones_catch_test(page: WaterPage) -> None:
    draft = CanDraft(page)
    page.use_cans(draft)
    assert page.section == "Now", "nothing is placed yet"
    draft.take("front", ((5.0, 5.0), (20.0, 12.0)))
    page.use_cans(draft)
    settle()
    assert page.picker.zone_id() == "front"
    assert page.section == "Sprinklers"
    assert page.sprinklers.tests_fold.is_unfolded
    assert page.sprinklers.tests.rows.places == draft.places
    draft.add((30.0, 20.0))
    assert page.sprinklers.tests.rows.places == draft.places


def test_rain_is_noted_among_the_records(page: WaterPage, book: OpenNotebook) -> None:
    page.turn_to("Records")
    settle()
    type_into(page, "rain_gauge_in", "3/8")
    click(page, "rain_keep")
    kept = book.notebook.weather[WATER_DAY.isoformat()]
    assert kept.gauge_in == 0.375
    assert page.records.rain.table.rowCount() == 1


def test_a_chart_is_drawn_again_in_a_new_theme(
    qapp: QApplication, page: WaterPage, book: OpenNotebook
) -> None:
    shown(page, full_plan(book), "Year")
    canvas = part(page, QWidget, "water_year_chart_canvas")

    def corner() -> str:
        return canvas.grab().toImage().pixelColor(2, 2).name()

    assert corner() == LIGHT.paper
    apply_theme(qapp, "dark")
    QApplication.sendPostedEvents(None, QEvent.Type.StyleChange)
    settle(120)
    assert corner() == DARK.paper
    apply_theme(qapp, "light")
