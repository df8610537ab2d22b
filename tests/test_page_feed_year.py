"""Year, on the feed page: zone or lawn, the proposed spread, and nitrogen becoming available."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from types import MappingProxyType

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from lawnbook.charts.palette import DARK, LIGHT
from lawnbook.desk.pages.feed_year import YearSection
from lawnbook.desk.pages.feed_year_words import (
    available_sentence,
    clippings_words,
    figure_rows,
    month_rows,
    with_it_sentence,
    year_chart_words,
)
from lawnbook.desk.theme import apply_theme
from lawnbook.plan.clippings import clippings_of
from lawnbook.plan.feed_ledger import feeds_of
from lawnbook.plan.lawn_feed import lawn_nitrogen
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.plan.release import released_of
from lawnbook.plan.spread import check_spread
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook, as_of, new_notebook, put
from lawnbook.yard.records import Zone
from tests.page_book import (
    FEED_DAY,
    click,
    fed,
    kept_open,
    open_book,
    out_of_reading_order,
    page_notebook,
    part,
    put_away,
    settle,
    text_of,
    unnamed,
)


def plan_of(notebook: Notebook, on: date = FEED_DAY) -> Plan:
    """The plan with released and clippings filled in, whoever fills them."""
    plan, known = make_plan(notebook, on), as_of(notebook, on)
    areas = {each.id: zone_area_sqft(each) for each in known.zones.values()}
    feeds = feeds_of(known, areas, on)
    zones = tuple(
        replace(
            each,
            released=released_of(known, feeds[each.zone_id], on),
            clippings=clippings_of(known.zones[each.zone_id], each.budget_year),
        )
        for each in plan.nitrogen
    )
    return replace(plan, nitrogen=zones, lawn_nitrogen=lawn_nitrogen(zones))


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    yield from kept_open(tmp_path, FEED_DAY)


@pytest.fixture
def section(qapp: QApplication, book: OpenNotebook) -> Iterator[YearSection]:
    apply_theme(qapp, "light")
    book.edit(put(book.notebook, "feedings", fed(2.0, date(2026, 9, 1))), "feed")
    made = YearSection(book)
    made.resize(620, 1500)
    made.show_plan(plan_of(book.notebook), "front")
    made.show()
    settle(400)
    yield made
    put_away(made)


def described(section: QWidget, name: str) -> str:
    """What a chart tells those who cannot see it."""
    settle(100)
    return part(section, QWidget, f"{name}_canvas").accessibleDescription()


def test_the_zones_year_is_drawn_and_told(section: YearSection) -> None:
    """2 lb of 24 % on 1,000 sq ft: 0.48 of the full year's 3.5."""
    assert described(section, "nitrogen_chart") == (
        "Front, 2026: 0.48 of 3.50 lb N per 1,000 sq ft put down. Most in September, 0.48; the "
        "latest in September, 0.48. 3.02 is left in the year."
    )
    assert text_of(section, "nitrogen_chart_words") == (
        "Front, 2026: 0.48 of 3.50 lb N per 1,000 sq ft put down, 0.48 of it in the last 30 days."
    )


def test_the_whole_lawn_is_chosen_by_a_click_or_by_keys(section: YearSection) -> None:
    """0.48 on 1,000 of the 1,500 sq ft is 0.32 of the lawn."""
    click(section, "year_lawn")
    assert described(section, "nitrogen_chart").startswith("Whole lawn, 2026: 0.32 of 3.50")
    section.lawn_button.setFocus()
    QTest.keyClick(section.lawn_button, Qt.Key.Key_Left)
    QTest.keyClick(section.zone_button, Qt.Key.Key_Space)
    assert section.zone_button.isChecked()
    assert described(section, "nitrogen_chart").startswith("Front")


def test_one_zone_alone_has_no_lawn_to_choose(qapp: QApplication, tmp_path: Path) -> None:
    notebook = page_notebook()
    one = replace(notebook, zones=MappingProxyType({"front": notebook.zones["front"]}))
    one = replace(one, heads=MappingProxyType({}), spots=MappingProxyType({}))
    book = open_book(tmp_path, FEED_DAY, one)
    made = YearSection(book)
    made.show_plan(plan_of(one), "front")
    made.show()
    settle()
    assert not made.lawn_button.isVisible()
    put_away(made)
    book.close()


def test_a_proposed_spread_is_a_ghost_of_zone_and_lawn(
    section: YearSection, book: OpenNotebook
) -> None:
    check = check_spread(book.notebook, "blend", {"front": 1.0}, FEED_DAY)
    section.show_check(check)
    assert described(section, "nitrogen_chart").endswith("Proposed for September: 0.24.")
    click(section, "year_lawn")
    assert described(section, "nitrogen_chart").endswith("Proposed for September: 0.16.")
    section.show_check(None)
    assert "Proposed" not in described(section, "nitrogen_chart")


def test_a_spread_of_another_year_is_no_ghost(section: YearSection, book: OpenNotebook) -> None:
    section.show_check(check_spread(book.notebook, "blend", {"front": 1.0}, date(2027, 9, 10)))
    assert "Proposed" not in described(section, "nitrogen_chart")


def test_both_counts_are_explained_and_shown(section: YearSection) -> None:
    assert "Two counts of the same nitrogen" in text_of(section, "two_counts")
    curve = described(section, "release_chart")
    assert curve.startswith("Nitrogen becoming available to Front, 2026: 0.48 lb N per 1,000 sq ft")
    assert "Growth can use 3.50 in the year." in curve
    assert text_of(section, "release_words").startswith("In September")
    assert "Sep, now: Put down 0.48" in section.months.accessibleDescription()
    assert "common practice" in text_of(section, "release_sources")


def test_the_figures_of_zone_and_lawn_stand_side_by_side(section: YearSection) -> None:
    told = section.figures.accessibleDescription()
    assert "Budget of the year: Zone, per 1,000 sq ft 3.50, in all 3.50" in told
    assert "Lawn, per 1,000 sq ft 3.50, in all 5.25" in told


def test_the_working_opens(section: YearSection) -> None:
    link = part(section, QWidget, "feed_working")
    assert link.isVisible()
    click(section, "feed_working")
    settle()
    panel = part(section, QWidget, "working_panel")
    assert panel.isVisible()
    panel.close()


def test_what_changed_while_hidden_is_shown_afterwards(
    section: YearSection, book: OpenNotebook
) -> None:
    section.hide()
    book.edit(put(book.notebook, "feedings", fed(3.0, date(2026, 9, 1))), "more")
    section.show_plan(plan_of(book.notebook), "front")
    assert "0.48" in text_of(section, "nitrogen_chart_words")
    section.show()
    settle(100)
    assert "0.72 of 3.50" in text_of(section, "nitrogen_chart_words")


def test_a_bare_yard_says_what_to_do(qapp: QApplication, tmp_path: Path) -> None:
    book = open_book(tmp_path, FEED_DAY, new_notebook("Bare"))
    made = YearSection(book)
    made.show_plan(make_plan(book.notebook, FEED_DAY), "")
    made.show()
    settle()
    assert part(made, QWidget, "year_empty").isVisible()
    assert not made.columns.isVisible()
    put_away(made)
    book.close()


def test_every_control_has_a_name_and_tab_follows_the_page(section: YearSection) -> None:
    assert unnamed(section) == []
    assert out_of_reading_order(section, least=3) == []


def test_the_charts_follow_the_theme(section: YearSection, qapp: QApplication) -> None:
    for name, palette in (("dark", DARK), ("light", LIGHT)):
        apply_theme(qapp, "dark" if name == "dark" else "light")
        settle(300)
        for chart in ("nitrogen_chart", "release_chart"):
            canvas = part(section, QWidget, f"{chart}_canvas")
            assert canvas.grab().toImage().pixelColor(2, 2).name() == palette.paper


def test_words_of_the_year(book: OpenNotebook) -> None:
    zone = plan_of(book.notebook).nitrogen[0]
    assert "Proposed for May: 0.20." in year_chart_words(zone, 0.2, 5)
    watered = replace(zone, water_by_month=(0.0,) * 11 + (0.1,))
    assert "0.10 of it by irrigation water" in year_chart_words(watered, 0.0, None)
    assert [name for name, _ in figure_rows(watered, None)][2] == "  by irrigation water"
    assert figure_rows(replace(zone, left_this_month=-0.2), None)[-1][1][0] == "−0.20"


def test_phosphate_and_potash_are_told_with_the_nitrogen(book: OpenNotebook) -> None:
    """1 lb per 1,000 sq ft is 4.88 g/m²."""
    zone = replace(plan_of(book.notebook).nitrogen[0], applied_year=1.0)
    assert with_it_sentence(zone) == "The nitrogen put down on this zone is 4.9 g/m²."
    told = with_it_sentence(replace(zone, p2o5_year=0.25, k2o_year=0.5))
    assert "0.25 lb phosphate and 0.50 lb potash per 1,000 sq ft (as P₂O₅ and K₂O)." in told
    alone = with_it_sentence(replace(zone, p2o5_year=0.0, k2o_year=0.5))
    assert alone.endswith("With it came 0.50 lb potash per 1,000 sq ft (as K₂O).")


def test_months_without_temperatures_show_a_dash(book: OpenNotebook) -> None:
    bare = replace(book.notebook, climate=MappingProxyType({}))
    zone = plan_of(bare).nitrogen[0]
    assert month_rows(zone, 9)[0] == ("Jan", ("0.00", "0.00", "–", "–"))
    assert "No temperatures are known" in available_sentence(zone, 9)
    assert "Nothing that is down is still to come." in available_sentence(zone, 9)
    assert month_rows(replace(zone, released=None), 9) == ()
    assert available_sentence(replace(zone, released=None), 9) == ""


def test_clippings_are_a_range_with_its_source(book: OpenNotebook) -> None:
    front = book.notebook.zones["front"]

    def told(zone: Zone) -> str:
        nitrogen = plan_of(book.notebook).nitrogen[0]
        credit = clippings_of(zone, nitrogen.budget_year)
        return clippings_words(zone, replace(nitrogen, clippings=credit))

    assert "0.88 to 1.75 lb" in told(replace(front, clippings="left"))
    assert told(replace(front, clippings="bagged")).startswith("Clippings are bagged and give")
    assert "not entered" in told(front)
    for zone in (front, replace(front, clippings="left")):
        assert "University of Missouri" in told(zone)
