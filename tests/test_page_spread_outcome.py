"""What a check leads to: volumes, passes, first days, rain, settings, strips left out."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QWidget

from lawnbook.desk.entry import format_day
from lawnbook.desk.pages.feed import FeedPage
from lawnbook.desk.pages.feed_words import binding_lines
from lawnbook.desk.pages.spread_entry import known_spreaders
from lawnbook.desk.pages.spread_outcome import (
    RULES_TOLD,
    ZONES_WORKED_OUT,
    Paragraphs,
    check_workings,
)
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.records import Feature, Product, SpreaderRun
from tests.page_book import (
    FEED_DAY,
    click,
    fed,
    kept_open,
    kept_shown,
    page_notebook,
    part,
    propose,
    settle,
    text_of,
    type_into,
)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    yield from kept_open(tmp_path, FEED_DAY)


@pytest.fixture
def page(qapp: QApplication, book: OpenNotebook) -> Iterator[FeedPage]:
    made = FeedPage(book)
    yield from kept_shown(qapp, made, made.show_plan, book)


def liquid(**values: Any) -> Product:
    """A liquid of 10 % N, by default of 10 lb in a gallon."""
    return Product(
        id="fish", name="Fish", form="liquid", n_pct=10, **{"density_lb_per_gal": 10.0, **values}
    )


def choose(page: FeedPage, name: str, data: str) -> None:
    """Choose in a list by keys."""
    box = part(page, QComboBox, name)
    box.setFocus()
    wanted = box.findData(data)
    assert wanted >= 0, f"{data} is not offered"
    while box.currentIndex() != wanted:
        step = Qt.Key.Key_Down if box.currentIndex() < wanted else Qt.Key.Key_Up
        QTest.keyClick(box, step)


def test_a_liquid_is_counted_by_volume_too(page: FeedPage, book: OpenNotebook) -> None:
    assert part(page, QComboBox, "spread_mode").findData("fl_oz") < 0
    book.edit(put(book.notebook, "products", liquid()), "product")
    choose(page, "spread_product", "fish")
    click(page, "spread_all_zones")
    # 12.8 fl oz are a tenth of a gallon, 1 lb, for every 1,000 sq ft; Side has 500.
    propose(page, "12.8", "fl_oz")
    assert (text_of(page, "zone_pounds_1"), text_of(page, "zone_pounds_2")) == ("1", "0.5")
    # 0.3 gal of 10 lb/gal are 3 lb, shared out two to one.
    propose(page, "0.3", "gallons")
    assert (text_of(page, "zone_pounds_1"), text_of(page, "zone_pounds_2")) == ("2", "1")
    choose(page, "spread_product", "blend")
    assert part(page, QComboBox, "spread_mode").currentData() == "rate"


def test_a_liquid_without_its_density_cannot_be_weighed(page: FeedPage, book: OpenNotebook) -> None:
    book.edit(put(book.notebook, "products", liquid(density_lb_per_gal=None)), "product")
    choose(page, "spread_product", "fish")
    propose(page, "12", "fl_oz")
    assert "cannot be weighed without its density" in text_of(page, "spread_note")
    assert part(page, QWidget, "spread_amount").property("state") == "refuse"
    assert not part(page, QWidget, "spread_record").isEnabled()
    propose(page, "0.3")
    assert "density" not in text_of(page, "spread_note")


def test_ounces_for_pounds_are_asked_about_at_once(page: FeedPage, book: OpenNotebook) -> None:
    propose(page, "40", "pounds")
    # 40 lb of 24 % N on 1,000 sq ft are 9.6 lb N; 40 oz would be 2.5 lb, 0.6 lb N.
    assert "oz" in text_of(page, "spread_note")
    assert part(page, QWidget, "spread_note").property("role") == "ask"
    click(page, "spread_record")
    assert not book.notebook.feedings


def test_one_click_goes_to_the_first_day_that_passes(page: FeedPage) -> None:
    button = part(page, QWidget, "spread_first_day")
    assert not button.isEnabled()
    type_into(page, "spread_day", "15 Jul 2026")
    propose(page, "0.6")
    assert text_of(page, "spread_first_day") == "Go to 1 Sep 2026"
    settle()
    before = button.mapTo(page, QPoint(0, 0))
    click(page, "spread_first_day")
    settle(50)
    assert text_of(page, "spread_day") == "1 Sep 2026"
    assert text_of(page, "spread_verdict").startswith("Within budget on 1 Sep 2026")
    assert not button.isEnabled()
    assert button.mapTo(page, QPoint(0, 0)) == before


def test_a_pass_is_put_in_by_one_click_and_the_next_is_told(
    page: FeedPage, book: OpenNotebook
) -> None:
    propose(page, "1.2")
    check = page.check.spread.check
    assert check is not None
    first, second = check.split[:2]
    assert first.date == FEED_DAY
    click(page, "spread_passes_1")
    settle(50)
    assert page.check.spread.check is not None
    assert page.check.spread.check.within
    assert part(page, QWidget, "spread_passes_2").isVisible(), "the other passes stay on offer"
    assert not part(page, QWidget, "spread_passes_1").isEnabled()
    click(page, "spread_passes_2")
    assert text_of(page, "spread_day") == format_day(second.date)
    click(page, "spread_passes_1")
    click(page, "spread_record")
    (kept,) = book.notebook.feedings.values()
    assert dict(kept.pounds) == pytest.approx({"front": first.zones[0].pounds})
    assert f"The next pass is for {format_day(second.date)}." in text_of(page, "spread_done")


def test_a_hand_at_the_entry_ends_the_offer_of_passes(page: FeedPage) -> None:
    propose(page, "1.2")
    click(page, "spread_passes_1")
    propose(page, "0.3")
    assert not part(page, QWidget, "spread_passes").isVisible()


@pytest.mark.parametrize("text", ["2", "50.8 mm"])
def test_rain_that_is_typed_in_is_heard(page: FeedPage, text: str) -> None:
    propose(page, "0.5")
    type_into(page, "spread_rain", text)
    page.check.spread.examine()
    check = page.check.spread.check
    assert check is not None
    assert any(note.startswith("2.00 in of rain is expected") for note in check.notes)
    notes = part(page, QWidget, "spread_notes")
    assert set(check.notes) <= {label.text() for label in notes.findChildren(QLabel)}


@pytest.mark.parametrize("text", ["lots", "-1", "400"])
def test_rain_that_cannot_be_is_marked_and_stays(
    page: FeedPage, book: OpenNotebook, text: str
) -> None:
    propose(page, "0.5")
    type_into(page, "spread_rain", text)
    settle(200)
    assert part(page, QWidget, "spread_rain").property("state") == "refuse"
    assert "Rain" in text_of(page, "spread_note")
    assert text_of(page, "spread_rain") == text
    assert not part(page, QWidget, "spread_record").isEnabled()
    assert not book.notebook.feedings


def test_the_setting_that_was_weighed_is_proposed_and_recorded(
    page: FeedPage, book: OpenNotebook
) -> None:
    # 1.25 lb on 50 ft by 10 ft are 2.5 lb per 1,000 sq ft: 0.6 lb N of 24 %.
    run = SpreaderRun(
        id="r1",
        date=date(2026, 9, 1),
        product="blend",
        spreader="Green drop",
        setting="5 1/2",
        strip_ft=50,
        width_ft=10,
        used_lb=1.25,
    )
    book.edit(put(book.notebook, "spreader_runs", run), "run")
    propose(page, "0.6")
    assert text_of(page, "spread_setting") == "", "nothing is taken as set unasked"
    click(page, "spread_settings_1")
    assert (text_of(page, "spread_spreader"), text_of(page, "spread_setting")) == (
        "Green drop",
        "5 1/2",
    )
    click(page, "spread_record")
    (kept,) = book.notebook.feedings.values()
    assert (kept.spreader, kept.setting) == ("Green drop", "5 1/2")
    # The spreader stays for the next one; its setting belongs to the product and the rate.
    assert (text_of(page, "spread_spreader"), text_of(page, "spread_setting")) == ("Green drop", "")
    page.ledger.edit_asked.emit(kept.id)
    assert text_of(page, "spread_setting") == "5 1/2"
    type_into(page, "spread_setting", "6")
    page.check.spread.examine()
    click(page, "spread_record")
    assert book.notebook.feedings[kept.id].setting == "6"
    book.undo()
    assert book.notebook.feedings[kept.id].setting == "5 1/2"


def test_known_spreaders_are_proposed_once_each() -> None:
    notebook = page_notebook()
    for number, name in enumerate(("Green drop", " green drop ", "Barrow")):
        feeding = replace(fed(), id=f"f{number}", spreader=name)
        notebook = apply(notebook, put(notebook, "feedings", feeding))
    assert known_spreaders(notebook) == ["Barrow", "Green drop"]


def test_a_strip_beside_water_is_out_of_the_area_until_a_hand_says_otherwise(
    page: FeedPage, book: OpenNotebook
) -> None:
    # A pond along the 40 ft of Front's south side: 5 ft of strip take 200 of 1,000 sq ft.
    pond = Feature(
        id="pond", kind="water", name="Pond", outline_ft=rectangle_ft((-50, -20), 200, 20)
    )
    rules = replace(book.notebook.n_rules, waterside_ft=5.0)
    book.edit({**put(book.notebook, "features", pond), **put(book.notebook, "n_rules", rules)}, "p")
    assert text_of(page, "zone_area_1") == "800"
    propose(page, "0.6")
    assert text_of(page, "zone_pounds_1") == "2"
    assert "200 sq ft along Pond get nothing" in text_of(page, "spread_strips")
    type_into(page, "zone_area_1", "900")
    propose(page, "0.6")
    assert text_of(page, "zone_pounds_1") == "2.25"
    type_into(page, "zone_area_1", "")
    propose(page, "0.6")
    assert text_of(page, "zone_pounds_1") == "2"
    click(page, "spread_record")
    (kept,) = book.notebook.feedings.values()
    assert dict(kept.treated_area_sqft) == pytest.approx({"front": 800})
    assert text_of(page, "zone_area_1") == "800"


def test_the_figures_of_a_check_open_their_working(page: FeedPage) -> None:
    link = part(page, QWidget, "spread_working")
    assert not link.isVisible()
    propose(page, "0.6")
    assert link.isVisible()
    click(page, "spread_working")
    panel = part(page, QWidget, "working_panel")
    said = [each.text() for each in panel.findChildren(QLabel)]
    assert "Nitrogen of this feeding: 0.60 lb per 1,000 sq ft" in said
    assert "2.50 × 24.00 ÷ 100 × 1,000 ÷ 1,000" in said
    panel.close()


def test_the_workings_of_many_zones_are_those_over_the_budget_first(
    page: FeedPage,
) -> None:
    click(page, "spread_all_zones")
    propose(page, "0.6")
    check = page.check.spread.check
    assert check is not None
    fit, over = check.zones[0], replace(check.zones[1], within=False)
    many = (*(replace(fit, zone=f"Fit {n}") for n in range(ZONES_WORKED_OUT)), over)
    workings, left_out = check_workings(replace(check, zones=many))
    assert workings[0].label == "Side: Nitrogen of this feeding"
    assert left_out == 1


def test_the_cautions_stand_beside_the_verdict_before_what_to_load(page: FeedPage) -> None:
    before = part(page, QWidget, "feed_cautions")
    assert before.isVisible()
    propose(page, "0.6")
    check = page.check.spread.check
    assert check is not None
    assert part(page, Paragraphs, "spread_cautions").text() == "\n".join(check.cautions)
    assert not before.isVisible()
    verdict, cautions, load = (
        part(page, QWidget, name).mapTo(page, QPoint(0, 0)).y()
        for name in ("spread_verdict", "spread_cautions", "spread_load")
    )
    assert verdict < cautions < load


def test_the_verdict_has_the_colour_of_its_words(page: FeedPage) -> None:
    verdict = part(page, QLabel, "spread_verdict")
    for amount, words, state in (("0.6", "Within", "good"), ("3", "Not within", "refuse")):
        propose(page, amount)
        assert verdict.text().startswith(words)
        assert verdict.property("state") == state
    page.check.spread.start_anew()
    assert verdict.property("state") == ""


def test_each_rule_is_a_paragraph_of_its_own(page: FeedPage) -> None:
    propose(page, "3")
    check = page.check.spread.check
    assert check is not None
    rules = part(page, Paragraphs, "spread_rules")
    many = binding_lines(check, RULES_TOLD)
    assert tuple(each.text() for each in rules.findChildren(QLabel)) == many
    propose(page, "0.6")
    check = page.check.spread.check
    assert check is not None
    few = binding_lines(check, RULES_TOLD)
    assert rules.text() == "\n".join(few)
    assert sum(each.isVisible() for each in rules.findChildren(QLabel)) == len(few) < len(many)


def test_the_most_that_fits_says_why_it_is_nothing(page: FeedPage) -> None:
    type_into(page, "spread_day", "4 Jul 2026")
    propose(page, "0.5")
    click(page, "spread_most")
    assert text_of(page, "spread_amount") == text_of(page, "zone_pounds_1") == ""
    said = text_of(page, "spread_note")
    assert said == "Nothing fits on 4 Jul 2026, because July is a zero month of the table."
    type_into(page, "spread_day", "10 Sep 2026")
    click(page, "spread_most")
    assert float(text_of(page, "zone_pounds_1")) > 0
    assert text_of(page, "spread_note") == ""
