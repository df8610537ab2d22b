"""The feed page as a whole: the zone picked, the year's chart, the ledger, a bare yard."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QComboBox,
    QLabel,
    QLineEdit,
    QScrollArea,
    QWidget,
)

from lawnbook.desk.pages.feed import SECTIONS, FeedPage
from lawnbook.desk.theme import apply_theme
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import new_notebook, put
from lawnbook.yard.records import Product
from tests.page_book import (
    FEED_DAY,
    click,
    fed,
    follow,
    kept_open,
    kept_shown,
    open_book,
    out_of_reading_order,
    part,
    propose,
    put_away,
    settle,
    text_of,
    type_into,
    unnamed,
)
from tests.small_book import in_child


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    yield from kept_open(tmp_path, FEED_DAY)


@pytest.fixture
def page(qapp: QApplication, book: OpenNotebook) -> Iterator[FeedPage]:
    made = FeedPage(book)
    yield from kept_shown(qapp, made, made.show_plan, book)


def test_the_chart_is_drawn_named_and_shows_the_proposed_spread(page: FeedPage) -> None:
    propose(page, "0.6")
    page.turn_to("Year")
    settle(100)
    canvas = part(page, QWidget, "nitrogen_chart_canvas")
    assert canvas.accessibleName() == "Nitrogen month by month"
    assert canvas.accessibleDescription().endswith("Proposed for September: 0.60.")
    assert canvas.focusPolicy() & Qt.FocusPolicy.TabFocus
    picture = canvas.grab().toImage()
    colours = {picture.pixelColor(x, y).rgb() for x in range(0, 500, 3) for y in range(0, 240, 3)}
    assert len(colours) > 5, "the chart is blank"


def test_a_spread_in_another_year_is_no_ghost(page: FeedPage) -> None:
    type_into(page, "spread_day", "10 Sep 2025")
    propose(page, "0.6")
    page.turn_to("Year")
    settle(100)
    assert "Proposed" not in part(page, QWidget, "nitrogen_chart_canvas").accessibleDescription()


def drawn(page: FeedPage) -> str:
    """What the columns in the check tell those who cannot see them."""
    settle(100)
    return part(page, QWidget, "check_chart_canvas").accessibleDescription()


def test_the_year_stands_below_the_verdict_with_the_spread_on_it(page: FeedPage) -> None:
    assert drawn(page).startswith("Front, 2026: 0.00 of 3.50 lb N per 1,000 sq ft")
    assert "Proposed" not in drawn(page)
    title = "Front, 2026: lb of nitrogen per 1,000 sq ft, by the month"
    assert text_of(page, "check_chart_words") == title
    propose(page, "0.6")
    assert drawn(page).endswith("Proposed for September: 0.60.")
    click(page, "zone_tick_1")
    click(page, "zone_tick_2")
    propose(page, "0.4")
    # Front is picked on the page, but Side alone is fed.
    assert drawn(page).startswith("Side, 2026")
    assert drawn(page).endswith("Proposed for September: 0.40.")


def test_a_spread_in_another_year_stands_on_that_years_columns(
    page: FeedPage, book: OpenNotebook
) -> None:
    book.edit(put(book.notebook, "feedings", fed(2.5)), "feeding")
    type_into(page, "spread_day", "10 May 2027")
    propose(page, "0.3")
    assert drawn(page).startswith("Front, 2027: 0.00 of 3.50")
    assert drawn(page).endswith("Proposed for May: 0.30.")


def test_a_feeding_that_is_changed_is_proposed_and_not_down_as_well(
    page: FeedPage, book: OpenNotebook
) -> None:
    book.edit(put(book.notebook, "feedings", fed(2.5)), "feeding")
    assert drawn(page).startswith("Front, 2026: 0.60 of 3.50")
    page.ledger.edit_asked.emit("f1")
    assert drawn(page).startswith("Front, 2026: 0.00 of 3.50")
    assert drawn(page).endswith("Proposed for September: 0.60.")


def test_matplotlib_waits_until_the_page_is_shown() -> None:
    done = in_child(
        """
        import sys, tempfile
        from datetime import date
        from pathlib import Path
        from PySide6.QtWidgets import QApplication
        from lawnbook.desk.pages.feed import FeedPage
        from lawnbook.plan.make import make_plan
        from tests.page_book import open_book

        app = QApplication([])
        book = open_book(Path(tempfile.mkdtemp()), date(2026, 9, 10))
        page = FeedPage(book)
        page.show_plan(make_plan(book.notebook, date(2026, 9, 10)))
        app.processEvents()
        print("matplotlib" in sys.modules)
        """
    )
    assert done.stdout.strip() == "False", done.stderr


def test_a_recorded_feeding_is_changed_without_counting_itself(
    page: FeedPage, book: OpenNotebook
) -> None:
    book.edit(put(book.notebook, "feedings", fed()), "feeding")
    page.ledger.edit_asked.emit("f1")
    assert text_of(page, "zone_pounds_1") == "2.5"
    # 0.60 counted twice would be 1.20 of September's 0.90.
    assert (
        text_of(page, "spread_verdict") == "Within budget on 10 Sep 2026: up to 3.7 lb may go down."
    )
    type_into(page, "zone_pounds_1", "2.75")
    page.check.spread.examine()
    assert text_of(page, "spread_record") == "Keep the changed feeding"
    click(page, "spread_record")
    assert dict(book.notebook.feedings["f1"].pounds) == {"front": 2.75}
    assert len(book.notebook.feedings) == 1
    assert text_of(page, "spread_record") == "Record this feeding"


def test_a_change_can_be_left(page: FeedPage, book: OpenNotebook) -> None:
    book.edit(put(book.notebook, "feedings", fed()), "feeding")
    page.ledger.edit_asked.emit("f1")
    type_into(page, "zone_pounds_1", "1")
    click(page, "spread_leave")
    assert dict(book.notebook.feedings["f1"].pounds) == {"front": 2.5}
    assert text_of(page, "zone_pounds_1") == ""


def test_a_feeding_taken_out_while_it_is_changed_leaves_the_form_free(
    page: FeedPage, book: OpenNotebook
) -> None:
    book.edit(put(book.notebook, "feedings", fed()), "feeding")
    page.ledger.edit_asked.emit("f1")
    book.undo()
    assert text_of(page, "spread_record") == "Record this feeding"


def test_the_picker_tells_and_select_does_not(page: FeedPage) -> None:
    told = QSignalSpy(page.selected)
    page.select("zones", "side")
    assert told.count() == 0
    page.picker.setFocus()
    QTest.keyClick(page.picker, Qt.Key.Key_Up)
    assert told.at(0) == ["zones", "front"]


def test_a_bare_yard_says_what_comes_first(qapp: QApplication, tmp_path: Path) -> None:
    apply_theme(qapp, "light")
    book = open_book(tmp_path, FEED_DAY, new_notebook("Bare"))
    bare = FeedPage(book)
    follow(book, bare.show_plan, FEED_DAY)
    bare.show()
    settle(200)
    assert "Draw a zone" in text_of(bare, "feed_standing")
    assert not part(bare, QWidget, "spread_record").isEnabled()
    assert not bare.picker.isVisible()
    put_away(bare)
    book.close()


def test_an_empty_shelf_leads_to_the_entry_of_a_product(page: FeedPage, book: OpenNotebook) -> None:
    book.edit(remove(book.notebook, "products", "blend"), "take out Blend")
    assert text_of(page, "feed_standing").startswith("Put a product on the shelf")
    assert not part(page, QWidget, "spread_amount").isVisible()
    # The page does not turn under the owner's hands: a link leads on.
    assert page.section == "Check"
    assert "No product" in part(page, QWidget, "feed_section_shelf").accessibleDescription()
    click(page, "spread_to_shelf")
    settle()
    assert page.section == "Shelf"
    name = part(page, QLineEdit, "products_name")
    assert not name.visibleRegion().isEmpty()
    type_into(page, "products_name", "Blend")
    type_into(page, "products_n_pct", "24")
    click(page, "products_keep")
    settle()
    assert page.section == "Check"
    assert part(page, QWidget, "spread_amount").hasFocus()
    assert not part(page, QWidget, "spread_amount").visibleRegion().isEmpty()
    assert text_of(page, "feed_standing").startswith("Front: September has room")
    assert part(page, QWidget, "feed_section_shelf").accessibleDescription() == ""


def test_the_page_of_a_bare_shelf_is_turned_to_at_the_shelf(
    page: FeedPage, book: OpenNotebook
) -> None:
    assert not part(page, QWidget, "spread_to_shelf").isVisible()
    book.edit(remove(book.notebook, "products", "blend"), "take out Blend")
    page.hide()
    page.show()
    settle()
    assert page.section == "Shelf"


def test_a_second_product_leaves_the_owner_at_the_shelf(page: FeedPage) -> None:
    page.turn_to("Shelf")
    type_into(page, "products_name", "Lean mix")
    type_into(page, "products_n_pct", "10")
    click(page, "products_keep")
    settle()
    assert page.section == "Shelf"


def test_what_is_selected_turns_to_its_section_once(page: FeedPage, book: OpenNotebook) -> None:
    book.edit(put(book.notebook, "feedings", fed()), "feeding")
    page.select("feedings", "f1")
    assert page.section == "Ledger"
    page.select("products", "blend")
    assert page.section == "Shelf"
    page.turn_to("Rules")
    page.select("products", "blend")
    assert page.section == "Rules", "once led to, the owner may turn away"
    page.select("zones", "side")
    assert page.section == "Rules"
    assert page.picker.zone_id() == "side"


def test_a_section_is_reached_by_keys_and_left_as_it_was(page: FeedPage) -> None:
    page.resize(620, 400)
    first = part(page, QWidget, "feed_section_check")
    first.setFocus()
    QTest.keyClick(first, Qt.Key.Key_Right)
    assert page.section == "Year"
    page.turn_to("Rules")
    settle()
    bar = part(page, QScrollArea, "feed_scroll").verticalScrollBar()
    bar.setValue(120)
    page.turn_to("Check")
    settle()
    assert bar.value() == 0
    page.turn_to("Rules")
    settle()
    assert bar.value() == 120


def test_sections_out_of_sight_are_filled_when_they_are_turned_to(
    page: FeedPage, book: OpenNotebook
) -> None:
    limits = replace(book.notebook.n_rules, max_total_lb=0.8)
    book.edit(put(book.notebook, "n_rules", limits), "limit")
    page.turn_to("Rules")
    assert text_of(page, "limit_max_total_lb") == "0.8"


def test_a_product_without_nitrogen_has_no_rate(page: FeedPage, book: OpenNotebook) -> None:
    gypsum = Product(id="gypsum", name="Gypsum")
    book.edit(put(book.notebook, "products", gypsum), "product")
    box = part(page, QComboBox, "spread_product")
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Down)
    assert not part(page, QWidget, "spread_most").isEnabled() or page.check.spread.check is None
    propose(page, "0.5")
    assert "carries no nitrogen" in text_of(page, "spread_note")
    propose(page, "10", "pounds")
    assert "carries no nitrogen" in text_of(page, "spread_verdict")


def test_every_control_has_a_name(page: FeedPage) -> None:
    for section in SECTIONS:
        page.turn_to(section)
    assert unnamed(page) == []
    assert page.findChildren(QLineEdit)
    assert page.findChildren(QCheckBox)


def test_no_part_of_the_page_opens_a_window_of_its_own(
    qapp: QApplication, book: OpenNotebook
) -> None:
    shown = {each for each in qapp.topLevelWidgets() if each.isVisible()}
    host = QWidget()
    host.show()
    host.activateWindow()
    settle()
    made = FeedPage(book, host)
    made.show_plan(make_plan(book.notebook, FEED_DAY))
    for section in SECTIONS:
        made.turn_to(section)
    made.show()
    settle()
    # A part that shows before it has a place is a window for a moment, and takes the keyboard.
    assert qapp.activeWindow() is host
    assert {each for each in qapp.topLevelWidgets() if each.isVisible()} == {*shown, host}
    put_away(host)


def test_nothing_is_empty_or_stale_when_the_page_is_first_shown(
    qapp: QApplication, book: OpenNotebook
) -> None:
    apply_theme(qapp, "light")
    fresh = FeedPage(book)
    fresh.show_plan(make_plan(book.notebook, FEED_DAY))
    fresh.show()
    # Not one event has been processed: this is what the first paint shows.
    assert text_of(fresh, "feed_standing").startswith("Front: September has room")
    assert text_of(fresh, "feed_cautions").startswith("Read the product label first")
    assert not part(fresh, QWidget, "spread_leave").isVisible()
    assert not part(fresh, QWidget, "spread_record").isEnabled()
    assert "3.7 lb" in [
        label.text() for label in fresh.check.spread.entry.shares.findChildren(QLabel)
    ]
    put_away(fresh)


def test_tab_goes_through_the_page_as_it_is_read(page: FeedPage) -> None:
    page.resize(620, 3000)
    propose(page, "0.6")
    for section in SECTIONS:
        page.turn_to(section)
        settle(100)
        least = {"Year": 6, "Ledger": 3}.get(section, 11)
        assert out_of_reading_order(page, least) == [], section


def test_tab_still_goes_in_order_when_a_zone_has_been_drawn(
    page: FeedPage, book: OpenNotebook
) -> None:
    back = replace(book.notebook.zones["side"], id="back", name="Back", rank=2)
    book.edit(put(book.notebook, "zones", back), "back")
    page.resize(620, 3000)
    settle(100)
    assert part(page, QWidget, "zone_tick_3").isVisible()
    assert out_of_reading_order(page) == []
