"""The check before spreading: typed amounts, the verdict, and what is recorded."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from types import MappingProxyType

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QComboBox, QLabel, QLineEdit, QWidget

from lawnbook.desk.pages.feed import FeedPage
from lawnbook.plan.make import make_plan
from lawnbook.plan.spread import check_spread, share_by_area
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Product
from tests.page_book import (
    FEED_DAY,
    click,
    fed,
    item_of,
    kept_open,
    kept_shown,
    open_book,
    page_notebook,
    part,
    propose,
    put_away,
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


def test_the_most_that_fits_follows_the_area_treated() -> None:
    half = check_spread(page_notebook(), "blend", {"front": 1.0}, FEED_DAY, {"front": 500.0}).zones[
        0
    ]
    whole = check_spread(page_notebook(), "blend", {"front": 2.0}, FEED_DAY).zones[0]
    assert half.n_lb_per_1000 == pytest.approx(whole.n_lb_per_1000) == pytest.approx(0.48)
    assert half.max_lb == pytest.approx(whole.max_lb / 2) == pytest.approx(0.9 / 0.24 / 2)
    assert share_by_area(page_notebook(), ("front", "side"), 3, {"front": 500.0}) == {
        "front": 1.5,
        "side": 1.5,
    }


@pytest.mark.parametrize("area", [0.0, -5.0, float("nan"), float("inf")])
def test_an_area_that_cannot_be_treated_is_refused(area: float) -> None:
    with pytest.raises(OwnerError, match="Area treated: Front"):
        check_spread(page_notebook(), "blend", {"front": 1.0}, FEED_DAY, {"front": area})


def test_a_rate_becomes_pounds_and_a_verdict(page: FeedPage) -> None:
    propose(page, "0.6")
    # Product needed = 0.6 lb N ÷ 24 % on 1,000 sq ft (country extension's rule) = 2.5 lb.
    assert text_of(page, "zone_pounds_1") == "2.5"
    assert (
        text_of(page, "spread_verdict") == "Within budget on 10 Sep 2026: up to 3.7 lb may go down."
    )
    row = page.check.spread.check
    assert row is not None
    assert row.zones[0].n_lb_per_1000 == pytest.approx(0.6)
    verdicts = page.check.spread.entry.shares.verdicts
    said = [label.text() for label in verdicts.findChildren(QLabel) if label.isVisible()]
    assert len(said) == 1
    assert said[0].startswith("Front, fits: 0.60 lb N per 1,000 sq ft")


def test_a_feeding_is_recorded_with_its_area_and_can_be_undone(
    page: FeedPage, book: OpenNotebook
) -> None:
    propose(page, "0.6")
    click(page, "spread_record")
    (kept,) = book.notebook.feedings.values()
    assert (kept.date, kept.product) == (FEED_DAY, "blend")
    assert dict(kept.pounds) == pytest.approx({"front": 2.5})
    assert dict(kept.treated_area_sqft) == pytest.approx({"front": 1000})
    settle(200)
    assert text_of(page, "spread_done") == "Recorded: 2.5 lb on 10 Sep 2026."
    assert text_of(page, "spread_amount") == ""
    page.turn_to("Ledger")
    assert item_of(page.ledger.table, 0, 1).text() == "Blend"
    book.undo()
    assert not book.notebook.feedings
    assert page.ledger.table.rowCount() == 0


def test_a_feeding_is_checked_and_recorded_by_keys_alone(
    page: FeedPage, book: OpenNotebook
) -> None:
    part(page, QComboBox, "spread_product").setFocus()

    def press(key: Qt.Key) -> None:
        at = page.focusWidget()
        assert at is not None
        QTest.keyClick(at, key)

    press(Qt.Key.Key_Tab)
    press(Qt.Key.Key_Tab)
    amount = part(page, QLineEdit, "spread_amount")
    assert amount.hasFocus()
    QTest.keyClicks(amount, "0.6")
    press(Qt.Key.Key_Return)
    assert text_of(page, "spread_verdict").startswith("Within budget")
    for _ in range(16):
        if part(page, QWidget, "spread_record").hasFocus():
            break
        press(Qt.Key.Key_Tab)
    press(Qt.Key.Key_Space)
    assert len(book.notebook.feedings) == 1


def test_over_the_budget_is_recorded_only_when_asked_twice(
    page: FeedPage, book: OpenNotebook
) -> None:
    propose(page, "0.95")
    assert text_of(page, "spread_verdict").startswith("Not within budget")
    click(page, "spread_record")
    assert not book.notebook.feedings
    assert text_of(page, "spread_record") == "Record it all the same"
    assert "only if it is already down" in text_of(page, "spread_note")
    click(page, "spread_record")
    assert len(book.notebook.feedings) == 1


def test_a_change_after_the_question_asks_again(page: FeedPage, book: OpenNotebook) -> None:
    propose(page, "0.95")
    click(page, "spread_record")
    type_into(page, "spread_amount", "0.98")
    page.check.spread.examine()
    assert text_of(page, "spread_record") == "Record this feeding"
    click(page, "spread_record")
    assert not book.notebook.feedings


def test_the_most_that_fits_is_filled_in_and_passes(page: FeedPage, book: OpenNotebook) -> None:
    click(page, "spread_all_zones")
    page.check.spread.examine()
    click(page, "spread_most")
    # September's 0.9 lb: 3.75 lb on 1,000 sq ft and half of it on 500, both rounded down.
    assert (text_of(page, "zone_pounds_1"), text_of(page, "zone_pounds_2")) == ("3.7", "1.8")
    most = [row.text() for row in page.check.spread.entry.shares.findChildren(QLabel)]
    assert {"3.7 lb", "1.8 lb"} <= set(most)
    assert text_of(page, "spread_verdict").startswith("Within budget")
    click(page, "spread_record")
    (kept,) = book.notebook.feedings.values()
    assert dict(kept.pounds) == {"front": 3.7, "side": 1.8}


def test_pounds_in_all_are_shared_by_area(page: FeedPage) -> None:
    click(page, "spread_all_zones")
    propose(page, "3", "pounds")
    assert (text_of(page, "zone_pounds_1"), text_of(page, "zone_pounds_2")) == ("2", "1")


def test_a_strip_left_out_is_out_of_the_rate(page: FeedPage, book: OpenNotebook) -> None:
    type_into(page, "zone_area_1", "500")
    propose(page, "0.6")
    assert text_of(page, "zone_pounds_1") == "1.25"
    click(page, "spread_record")
    (kept,) = book.notebook.feedings.values()
    assert dict(kept.treated_area_sqft) == {"front": 500}
    assert make_plan(book.notebook, FEED_DAY).nitrogen[0].applied_year == pytest.approx(0.6)


def test_pounds_typed_for_a_zone_put_the_amount_aside(page: FeedPage) -> None:
    propose(page, "0.6")
    type_into(page, "zone_pounds_1", "2")
    page.check.spread.examine()
    assert text_of(page, "spread_amount") == ""
    check = page.check.spread.check
    assert check is not None
    assert check.zones[0].n_lb_per_1000 == pytest.approx(0.48)


def test_another_day_gives_another_verdict(page: FeedPage) -> None:
    propose(page, "0.6")
    type_into(page, "spread_day", "15 Jul 2026")
    page.check.spread.examine()
    assert "It passes from 1 Sep 2026" in text_of(page, "spread_verdict")


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("spread_amount", "lots", "is not a number"),
        ("spread_amount", "-5", "How much: -5 is less than nothing"),
        ("spread_amount", "nan", "is not a number"),
        ("spread_day", "the ides", "is not a date"),
        ("spread_day", "", "Day is missing"),
        ("zone_pounds_1", "1,5", "write it with a point, 1.5"),
        ("zone_pounds_1", "-1", "Pounds on Front: -1 is less than nothing"),
        ("zone_area_1", "-1", "Area treated of Front: -1 is less than nothing"),
        ("zone_area_1", "0", "Area treated of Front: enter square feet above zero"),
    ],
)
def test_what_cannot_be_is_said_marked_kept_and_not_recorded(
    page: FeedPage, book: OpenNotebook, name: str, text: str, said: str
) -> None:
    before = book.notebook
    type_into(page, name, text)
    settle(200)
    assert said in text_of(page, "spread_note")
    assert text_of(page, name) == text
    assert part(page, QWidget, name).property("state") == "refuse"
    assert not part(page, QWidget, "spread_record").isEnabled()
    assert book.notebook is before
    mended = {"spread_day": "10 Sep 2026", "spread_amount": "0.5"}.get(name, "1")
    type_into(page, name, mended)
    settle(200)
    assert text_of(page, "spread_note") == ""
    assert part(page, QWidget, name).property("state") == ""


def test_a_day_beyond_the_calendar_is_refused_in_words(page: FeedPage) -> None:
    propose(page, "0.5")
    type_into(page, "spread_day", "1 Dec 9999")
    page.check.spread.examine()
    assert text_of(page, "spread_note")
    assert not part(page, QWidget, "spread_record").isEnabled()


def test_a_click_beside_the_words_ticks_and_unticks_the_row(page: FeedPage) -> None:
    tick = part(page, QCheckBox, "zone_tick_2")
    beside = QPoint(tick.width() - 6, tick.height() // 2)
    QTest.mouseClick(tick, Qt.MouseButton.LeftButton, pos=beside)
    assert page.check.spread.entry.shares.ticked() == ("front", "side")
    QTest.mouseClick(tick, Qt.MouseButton.LeftButton, pos=beside)
    assert page.check.spread.entry.shares.ticked() == ("front",)


def test_a_click_on_a_field_of_a_row_not_ticked_ticks_it(page: FeedPage) -> None:
    shares = page.check.spread.entry.shares
    field = part(page, QWidget, "zone_pounds_2")
    place = field.mapTo(shares, field.rect().center())
    QTest.mouseClick(page.windowHandle(), Qt.MouseButton.LeftButton, pos=shares.mapTo(page, place))
    assert shares.ticked() == ("front", "side")
    assert field.hasFocus()


def test_what_is_typed_stays_when_a_zone_is_changed_elsewhere(
    page: FeedPage, book: OpenNotebook
) -> None:
    type_into(page, "zone_area_1", "500")
    propose(page, "0.7")
    # 0.7 lb N on 500 sq ft of 24 % N is 1.4583 lb, shown as 1.46.
    book.edit(put(book.notebook, "zones", replace(book.notebook.zones["side"], soil="clay")), "s")
    assert (text_of(page, "zone_area_1"), text_of(page, "spread_amount")) == ("500", "0.7")
    click(page, "spread_record")
    (kept,) = book.notebook.feedings.values()
    assert dict(kept.pounds) == pytest.approx({"front": 0.35 / 0.24})


def test_the_product_last_spread_is_offered_first(qapp: QApplication, tmp_path: Path) -> None:
    notebook = apply(page_notebook(), put(page_notebook(), "feedings", fed()))
    lean = Product(id="lean", name="Lean", n_pct=10, rank=-1)
    notebook = apply(notebook, put(notebook, "products", lean))
    latest = replace(fed(), id="f2", date=date(2026, 9, 11), product="lean")
    for day, wanted in ((date(2026, 9, 1), "Blend"), (date(2026, 9, 11), "Lean")):
        with_it = apply(notebook, put(notebook, "feedings", replace(latest, date=day)))
        (tmp_path / wanted).mkdir()
        book = open_book(tmp_path / wanted, date(2026, 9, 12), with_it)
        page = FeedPage(book)
        page.show_plan(make_plan(book.notebook, date(2026, 9, 12)))
        assert part(page, QComboBox, "spread_product").currentText() == wanted
        put_away(page)
        book.close()


def test_a_feeding_of_the_future_is_checked_and_not_recorded(
    page: FeedPage, book: OpenNotebook
) -> None:
    type_into(page, "spread_day", "1 Oct 2026")
    propose(page, "0.5")
    assert text_of(page, "spread_verdict").startswith("Within budget on 1 Oct 2026")
    assert text_of(page, "spread_note") == "A check only; it can be recorded on the day."
    assert part(page, QWidget, "spread_note").property("role") == "caption"
    assert not part(page, QWidget, "spread_record").isEnabled()
    page.check.spread.record()
    assert text_of(page, "spread_record") == "Record this feeding"
    assert not book.notebook.feedings
    type_into(page, "spread_day", "10 Sep 2026")
    page.check.spread.examine()
    assert text_of(page, "spread_note") == ""
    click(page, "spread_record")
    assert len(book.notebook.feedings) == 1


def test_the_fields_and_the_button_stand_still_while_the_verdict_grows(page: FeedPage) -> None:
    names = ("zone_pounds_2", "spread_all_zones", "spread_record")
    click(page, "spread_all_zones")
    settle(200)
    places = [part(page, QWidget, name).mapTo(page, QPoint(0, 0)) for name in names]
    for amount in ("0.5", "5", "lots"):
        propose(page, amount)
        settle()
        assert [part(page, QWidget, name).mapTo(page, QPoint(0, 0)) for name in names] == places


def test_the_product_advised_for_a_zone_is_offered_with_it(
    page: FeedPage, book: OpenNotebook
) -> None:
    lean = Product(id="lean", name="Lean", n_pct=10, rank=1)
    book.edit(put(book.notebook, "products", lean), "product")
    on_side = replace(fed(0.5), product="lean", pounds=MappingProxyType({"side": 0.5}))
    book.edit(put(book.notebook, "feedings", on_side), "feeding")
    offered = part(page, QComboBox, "spread_product")
    for zone_id, wanted in (("side", "Lean"), ("front", "Blend")):
        page.select("zones", zone_id)
        assert offered.currentText() == wanted
        assert wanted in text_of(page, "feed_standing")
    QTest.keyClick(offered, Qt.Key.Key_Down)
    page.select("zones", "side")
    page.select("zones", "front")
    assert offered.currentText() == "Lean", "a choice by hand stays"


def test_the_zone_picked_is_ticked_until_something_is_typed(page: FeedPage) -> None:
    page.select("zones", "side")
    assert page.check.spread.entry.shares.ticked() == ("side",)
    propose(page, "0.5")
    page.select("zones", "front")
    assert page.check.spread.entry.shares.ticked() == ("side",)


def test_an_amount_that_cannot_be_read_leaves_no_pounds_of_an_earlier_one(page: FeedPage) -> None:
    propose(page, "0.6")
    assert part(page, QLineEdit, "zone_pounds_1").text()
    propose(page, "lots")
    assert part(page, QLineEdit, "zone_pounds_1").text() == ""


def test_what_was_recorded_is_not_said_of_a_feeding_taken_back(
    page: FeedPage, book: OpenNotebook
) -> None:
    propose(page, "0.6")
    click(page, "spread_record")
    settle()
    assert text_of(page, "spread_done").startswith("Recorded: ")
    book.undo()
    settle()
    assert text_of(page, "spread_done") == ""


def test_a_slip_in_the_area_is_asked_about_before_the_day_comes(page: FeedPage) -> None:
    type_into(page, "spread_day", "15 Sep 2027")
    propose(page, "0.3")
    assert text_of(page, "spread_note").startswith("A check only")
    type_into(page, "zone_area_1", "9000")
    page.check.spread.examine()
    assert "more than the zone's" in text_of(page, "spread_note")


def test_nothing_is_told_to_load_of_what_passes_on_no_day(page: FeedPage) -> None:
    propose(page, "0.6")
    assert part(page, QWidget, "spread_load").isVisible()
    propose(page, "30")
    assert "No day within two years passes." in text_of(page, "spread_verdict")
    assert not part(page, QWidget, "spread_load").isVisible()
    assert text_of(page, "spread_shopping") == ""


def test_a_product_that_a_rule_holds_back_is_not_the_one_offered(
    page: FeedPage, book: OpenNotebook
) -> None:
    held = replace(book.notebook.products["blend"], p2o5_pct=10.0)
    book.edit(put(book.notebook, "products", held), "product")
    assert text_of(page, "feed_standing").endswith("put a product without phosphate on the shelf.")
    lean = Product(id="lean", name="Lean", n_pct=10, rank=1)
    book.edit(put(book.notebook, "products", lean), "product")
    assert part(page, QComboBox, "spread_product").currentText() == "Lean"
    assert "Lean" in text_of(page, "feed_standing")


def test_pounds_typed_as_a_rate_are_asked_about(page: FeedPage) -> None:
    propose(page, "40")
    assert "if pounds of product were meant, choose them" in text_of(page, "spread_note")
    propose(page, "40", "pounds")
    assert "if pounds of product" not in text_of(page, "spread_note")
