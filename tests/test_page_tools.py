"""Tools of feeding: spreader and sprayer calibrated and kept, settings, tanks, conversions."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QLineEdit, QWidget

from lawnbook.desk.pages.convert_tool import digits
from lawnbook.desk.pages.feed_tools import ToolsSection
from lawnbook.desk.pages.tool_words import (
    OF_NITROGEN,
    OF_PRODUCT,
    OF_VOLUME,
    nitrogen_words,
    product_lb_per_1000,
    sprayer_answer,
    spreader_answer,
    tank_figures,
)
from lawnbook.plan.calibration_tank import tank_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Product, SprayerRun, SpreaderRun
from tests.page_book import (
    FEED_DAY,
    click,
    item_of,
    kept_open,
    kept_shown,
    out_of_reading_order,
    part,
    text_of,
    type_into,
    unnamed,
)

LIQUID = Product(id="liquid", name="Liquid", form="liquid", n_pct=20, density_lb_per_gal=10, rank=1)
SPRAYER = SprayerRun(
    id="s1", date=date(2026, 9, 1), sprayer="Backpack", area_sqft=200, used_gal=1, tank_gal=4
)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    yield from kept_open(tmp_path, FEED_DAY)


@pytest.fixture
def tools(qapp: QApplication, book: OpenNotebook) -> Iterator[ToolsSection]:
    made = ToolsSection(book)
    for fold in (made.sprayer_fold, made.tank_fold, made.convert_fold):
        fold.unfold()
    yield from kept_shown(qapp, made, lambda plan: made.show_plan(plan, "front"), book)


def weigh(tools: ToolsSection, setting: str, used_lb: str) -> None:
    """Type a run of the blend over 50 × 4 ft."""
    type_into(tools, "spreader_runs_spreader", "Two-wheel")
    type_into(tools, "spreader_runs_setting", setting)
    type_into(tools, "spreader_runs_strip_ft", "50")
    type_into(tools, "spreader_runs_width_ft", "4")
    type_into(tools, "spreader_runs_used_lb", used_lb)


def choose(page: QWidget, name: str, wanted: str) -> None:
    """Choose in a box by what it holds, as keys do."""
    box = part(page, QComboBox, name)
    box.setFocus()
    while box.currentData() != wanted:
        down = box.currentIndex() < box.findData(wanted)
        QTest.keyClick(box, Qt.Key.Key_Down if down else Qt.Key.Key_Up)


def test_a_spreader_is_weighed_and_the_run_is_kept(tools: ToolsSection, book: OpenNotebook) -> None:
    weigh(tools, "5", "0.6")
    # 0.6 lb on 200 sq ft are 3 lb on 1,000; 24 % of them 0.72 lb of nitrogen.
    said = text_of(tools, "spreader_runs_answer")
    assert "3.00 lb per 1,000 sq ft, 0.72 lb of it nitrogen" in said
    click(tools, "spreader_runs_keep")
    (run,) = book.notebook.spreader_runs.values()
    assert (run.product, run.spreader, run.setting, run.used_lb) == ("blend", "Two-wheel", "5", 0.6)
    assert book.undo_label == "keep calibration of Two-wheel at 5"
    table = tools.spreader.panel.table
    row = [item_of(table, 0, column).text() for column in range(6)]
    assert row == ["Blend", "Two-wheel", "5", "3.00", "0.72", "10 Sep 2026"]
    completer = part(tools, QLineEdit, "spreader_runs_spreader").completer()
    assert completer is not None
    assert completer.model().data(completer.model().index(0, 0)) == "Two-wheel"
    table.pick(run.id)
    QTest.keyClick(table, Qt.Key.Key_Delete)
    assert not book.notebook.spreader_runs
    book.undo()
    assert book.notebook.spreader_runs == {run.id: run}


def test_ounces_meant_for_pounds_are_questioned(tools: ToolsSection) -> None:
    weigh(tools, "5", "9.6")
    assert "Were ounces meant?" in text_of(tools, "spreader_runs_answer")


def test_wrong_figures_of_a_run_are_refused_in_place(
    tools: ToolsSection, book: OpenNotebook
) -> None:
    weigh(tools, "5", "-1")
    click(tools, "spreader_runs_keep")
    assert text_of(tools, "spreader_runs_used_lb_problem")
    assert not book.notebook.spreader_runs


def test_the_setting_for_a_rate_comes_from_the_owner_s_runs(tools: ToolsSection) -> None:
    rate = part(tools, QLineEdit, "setting_rate")
    assert not rate.isVisible()
    for setting, used_lb in (("4", "0.4"), ("6", "0.8")):
        weigh(tools, setting, used_lb)
        click(tools, "spreader_runs_keep")
    type_into(tools, "setting_rate", "3")
    # 2 lb at 4 and 4 lb at 6: 3 lb lies half way.
    assert text_of(tools, "setting_words").startswith("Two-wheel: set it to 5. ")
    assert "0.72 lb of nitrogen (24\u00a0%)" in text_of(tools, "setting_nitrogen")
    type_into(tools, "setting_rate", "3 lb")
    assert text_of(tools, "setting_words").startswith("Two-wheel: set it to 5. ")
    choose(tools, "setting_unit", OF_NITROGEN)
    type_into(tools, "setting_rate", "0.48")
    assert "Two-wheel: set it to 4." in text_of(tools, "setting_words")
    type_into(tools, "setting_rate", "x")
    assert "not a number" in text_of(tools, "setting_words")
    type_into(tools, "setting_rate", "0")
    assert "puts nothing down" in text_of(tools, "setting_words")
    assert text_of(tools, "setting_nitrogen") == ""


def test_a_product_never_weighed_has_no_setting(tools: ToolsSection, book: OpenNotebook) -> None:
    weigh(tools, "5", "0.6")
    click(tools, "spreader_runs_keep")
    other = Product(id="other", name="Other", n_pct=10, rank=1)
    book.edit(put(book.notebook, "products", other), "other")
    choose(tools, "setting_product", "other")
    type_into(tools, "setting_rate", "3")
    assert "Not weighed with this product yet" in text_of(tools, "setting_words")


def test_the_next_run_is_weighed_on_the_same_strip(tools: ToolsSection, book: OpenNotebook) -> None:
    """Setting and weight are what changes from run to run."""
    weigh(tools, "5", "0.6")
    click(tools, "spreader_runs_keep")
    held = [
        text_of(tools, f"spreader_runs_{name}") for name in ("spreader", "strip_ft", "width_ft")
    ]
    assert held == ["Two-wheel", "50", "4"]
    assert text_of(tools, "spreader_runs_setting") == text_of(tools, "spreader_runs_used_lb") == ""
    assert part(tools, QLineEdit, "spreader_runs_setting").hasFocus()
    type_into(tools, "spreader_runs_setting", "7")
    type_into(tools, "spreader_runs_used_lb", "0.9")
    click(tools, "spreader_runs_keep")
    assert [each.setting for each in book.notebook.spreader_runs.values()] == ["5", "7"]
    assert {each.strip_ft for each in book.notebook.spreader_runs.values()} == {50.0}


def test_only_what_a_spreader_throws_is_offered(tools: ToolsSection, book: OpenNotebook) -> None:
    book.edit(put(book.notebook, "products", LIQUID), "liquid")
    for name in ("spreader_runs_product", "setting_product"):
        assert part(tools, QComboBox, name).findData("blend") >= 0
        assert part(tools, QComboBox, name).findData("liquid") == -1
    wet = replace(book.notebook.products["blend"], form="liquid")
    book.edit(put(book.notebook, "products", wet), "wet")
    assert "granular product on the shelf first" in text_of(tools, "spreader_none")
    assert tools.spreader.panel.isHidden()


def test_a_setting_far_off_is_not_to_be_put_in(tools: ToolsSection) -> None:
    weigh(tools, "4", "0.4")
    click(tools, "spreader_runs_keep")
    type_into(tools, "setting_rate", "0.5")
    words = text_of(tools, "setting_words")
    assert words.startswith("Two-wheel: None of your settings gives 0.50 lb per 1,000 sq ft")
    assert "set it to" not in words


def test_a_tank_that_cannot_hold_the_product_warns(tools: ToolsSection, book: OpenNotebook) -> None:
    """5 gal of spray per 1,000 sq ft hold no 60 lb of a product of 10 lb/gal."""
    book.edit(put(book.notebook, "sprayer_runs", SPRAYER), "sprayer")
    book.edit(put(book.notebook, "products", LIQUID), "liquid")
    choose(tools, "tank_product", "liquid")
    type_into(tools, "tank_rate", "60")
    words = part(tools, QLabel, "tank_words")
    assert words.text().startswith("This cannot be mixed")
    assert words.property("role") == "warn"
    assert part(tools, QWidget, "tank_figures").isHidden()
    type_into(tools, "tank_rate", "2")
    assert words.property("role") == ""
    assert not part(tools, QWidget, "tank_figures").isHidden()


def test_a_sprayer_is_measured_with_water(tools: ToolsSection, book: OpenNotebook) -> None:
    assert "plain water first" in text_of(tools, "sprayer_runs_answer")
    type_into(tools, "sprayer_runs_sprayer", "Backpack")
    type_into(tools, "sprayer_runs_area_sqft", "200")
    type_into(tools, "sprayer_runs_used_gal", "1")
    type_into(tools, "sprayer_runs_tank_gal", "10")
    type_into(tools, "sprayer_runs_seconds", "60")
    # 1 gal on 200 sq ft: a 10 gal tank covers 2,000 sq ft.
    said = text_of(tools, "sprayer_runs_answer")
    assert "5.00 gal per 1,000 sq ft: a tank of 10 gal covers 2,000 sq ft" in said
    assert "1,000 sq ft take 300 s" in said
    click(tools, "sprayer_runs_keep")
    (run,) = book.notebook.sprayer_runs.values()
    assert (run.area_sqft, run.used_gal, run.tank_gal, run.seconds) == (200, 1, 10, 60)
    table = tools.sprayer.panel.table
    row = [item_of(table, 0, column).text() for column in range(4)]
    assert row == ["Backpack", "10", "5.00", "2,000"]


def test_tanks_follow_area_product_and_rate(tools: ToolsSection, book: OpenNotebook) -> None:
    assert "Measure the sprayer" in text_of(tools, "tank_nothing")
    book.edit(put(book.notebook, "sprayer_runs", SPRAYER), "sprayer")
    book.edit(put(book.notebook, "products", LIQUID), "liquid")
    choose(tools, "tank_product", "liquid")
    choose(tools, "tank_unit", OF_VOLUME)
    assert text_of(tools, "tank_area") == "1000"
    type_into(tools, "tank_rate", "6")
    # 5 gal per 1,000 sq ft: a tank of 4 gal covers 800 sq ft and takes 4.8 of 6 fl oz; 1.2 stay.
    words = text_of(tools, "tank_words")
    assert "covers 800 sq ft" in words
    assert "1 full tank: 4.8 fl oz" in words
    assert "Last tank: 2.4 tbsp" in words
    choose(tools, "tank_zone", "side")
    assert text_of(tools, "tank_area") == "500"
    type_into(tools, "tank_area", "2000")
    assert part(tools, QComboBox, "tank_zone").currentText() == "another area"
    assert "2 full tanks" in text_of(tools, "tank_words")
    type_into(tools, "tank_area", "-5")
    assert "leaves nothing to spray" in text_of(tools, "tank_words")
    assert part(tools, QLineEdit, "tank_area").property("state") == "refuse"
    type_into(tools, "tank_area", "")
    assert "Say the area and the rate" in text_of(tools, "tank_words")


def test_tank_figures_add_up() -> None:
    plan = tank_plan(SPRAYER, LIQUID, 2.0, 2000)
    # 800 sq ft a tank: two full ones and 400 sq ft, of 2 lb, 25.6 fl oz at 10 lb/gal.
    assert tank_figures(plan) == (
        ("800 sq ft", "a full tank covers"),
        ("2", "full tanks"),
        ("10.2 fl oz", "in each of 4 gal"),
        ("5.1 fl oz", "in the last, with 2 gal of spray"),
    )
    assert tank_figures(tank_plan(SPRAYER, LIQUID, 2.0, 1600))[2:] == (
        ("12.8 fl oz", "in each of 4 gal"),
    )
    dry = replace(LIQUID, form="granular")
    assert tank_figures(tank_plan(SPRAYER, dry, 1.0, 400))[1:] == (
        ("1 tank", "not full"),
        ("1.00 lb", "in it, with 2 gal of spray"),
    )


def test_rates_turn_into_pounds_of_product() -> None:
    assert product_lb_per_1000(3, OF_PRODUCT, LIQUID) == 3
    assert product_lb_per_1000(0.5, OF_NITROGEN, LIQUID) == pytest.approx(2.5)
    # 128 fl oz are a gallon, 10 lb of it.
    assert product_lb_per_1000(12.8, OF_VOLUME, LIQUID) == pytest.approx(1)
    with pytest.raises(OwnerError, match="no density"):
        product_lb_per_1000(1, OF_VOLUME, replace(LIQUID, density_lb_per_gal=None))
    with pytest.raises(OwnerError, match="no nitrogen"):
        product_lb_per_1000(1, OF_NITROGEN, replace(LIQUID, n_pct=0))
    with pytest.raises(KeyError):
        product_lb_per_1000(1, "pinch", LIQUID)
    assert nitrogen_words(11, LIQUID)[1] == "ask"
    assert nitrogen_words(2, LIQUID)[1] == "caption"


def test_answers_wait_for_their_figures() -> None:
    assert "Weigh the hopper" in spreader_answer({"strip_ft": 50.0, "width_ft": 0.0}, None)[0]
    assert "plain water first" in sprayer_answer({"area_sqft": 100.0})[0]
    bare = spreader_answer({"strip_ft": 50.0, "width_ft": 4.0, "used_lb": 0.6}, None)[0]
    assert bare.endswith("3.00 lb per 1,000 sq ft.")


@pytest.mark.parametrize(
    ("field", "typed", "others"),
    [
        # NIST Handbook 44, appendix C.
        ("fl_oz", "8", {"cup": "1", "tbsp": "16", "tsp": "48", "ml": "236.6", "gal": "0.0625"}),
        ("gal", "1", {"fl_oz": "128", "l": "3.785", "cup": "16"}),
        ("ml", "15", {"tbsp": "1.014"}),
        ("lb", "1", {"oz": "16", "g": "453.6", "kg": "0.4536"}),
        ("oz", "1/2", {"g": "14.17"}),
        # 1 lb on 1,000 sq ft is 453.59237 g on 92.90304 m².
        ("rate_us", "1", {"rate_metric": "4.882"}),
        ("ml", "0", {"gal": "0"}),
    ],
)
def test_a_measure_typed_anywhere_fills_its_row(
    tools: ToolsSection, field: str, typed: str, others: dict[str, str]
) -> None:
    type_into(tools, f"convert_{field}", typed)
    assert {each: text_of(tools, f"convert_{each}") for each in others} == others


def test_a_measure_that_is_none_empties_the_others(tools: ToolsSection) -> None:
    type_into(tools, "convert_cup", "1")
    type_into(tools, "convert_fl_oz", "some")
    assert "not a number" in text_of(tools, "convert_volume_problem")
    assert text_of(tools, "convert_cup") == ""
    type_into(tools, "convert_fl_oz", "-1")
    assert "below zero" in text_of(tools, "convert_volume_problem")
    type_into(tools, "convert_fl_oz", "")
    assert text_of(tools, "convert_volume_problem") == ""
    type_into(tools, "convert_gal", "2")
    assert text_of(tools, "convert_fl_oz") == "256"
    assert part(tools, QLineEdit, "convert_fl_oz").property("state") != "refuse"


def test_figures_keep_four_digits_that_count() -> None:
    told = [digits(each) for each in (0, 1234567.0, 0.00026042, 2.5, 1e-15)]
    assert told == ["0", "1235000", "0.0002604", "2.5", "1e-15"]


def test_cautions_stand_below_the_tools(tools: ToolsSection) -> None:
    said = " ".join(str(each.property("text")) for each in tools.cautions.findChildren(QWidget))
    for word in ("label", "gloves", "rinse water", "Local"):
        assert word in said


def test_tools_of_a_bare_shelf_say_what_is_lacking(tools: ToolsSection, book: OpenNotebook) -> None:
    book.edit(remove(book.notebook, "products", "blend"), "out")
    assert "Put a granular product on the shelf first" in text_of(tools, "spreader_none")
    assert not tools.spreader.panel.isVisible()
    book.undo()
    assert tools.spreader.panel.isVisible()


def test_runs_of_a_product_go_with_it(tools: ToolsSection, book: OpenNotebook) -> None:
    run = SpreaderRun(
        id="r", date=FEED_DAY, product="blend", spreader="Two-wheel", setting="5",
        strip_ft=50, width_ft=4, used_lb=0.6,
    )  # fmt: skip
    book.edit(put(book.notebook, "spreader_runs", run), "run")
    assert tools.spreader.panel.table.rowCount() == 1
    book.edit(remove(book.notebook, "products", "blend"), "out")
    assert tools.spreader.panel.table.rowCount() == 0


def test_tab_goes_through_the_tools_as_they_are_read(
    tools: ToolsSection, book: OpenNotebook
) -> None:
    book.edit(put(book.notebook, "sprayer_runs", SPRAYER), "sprayer")
    tools.resize(620, 1700)
    QApplication.processEvents()
    assert unnamed(tools) == []
    assert out_of_reading_order(tools, 25) == []
