"""The entry of care: kinds listed and kinds typed, zones, undo, and what cannot be kept."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QMenu, QPushButton
from pytestqt.qtbot import QtBot

from lawnbook.desk.editors import TICK_EDGES, TICK_ROW
from lawnbook.desk.pages.care_entry import CareEntry
from lawnbook.desk.pages.record_table import RecordTable
from lawnbook.desk.pages.trend_words import care_cells, care_spoken
from lawnbook.plan.care_marks import CARE_KINDS
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import put
from lawnbook.yard.records import Care, Zone
from tests.desk_hand import child, type_in, words
from tests.page_book import click, item_of, part, unnamed
from tests.trend_book import FRONT, Shown, trend_notebook

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


@pytest.fixture
def shown(qtbot: QtBot, tmp_path: Path) -> Iterator[Shown]:
    """The trend of two zones."""
    made = Shown(qtbot, tmp_path, trend_notebook())
    yield made
    made.book.close()


def listed(shown: Shown) -> list[tuple[str, ...]]:
    """The entries as listed."""
    table = part(shown.section, RecordTable, "care_list")
    return [
        tuple(item_of(table, row, column).text() for column in range(4))
        for row in range(table.rowCount())
    ]


def kept(shown: Shown) -> Care:
    """The one entry that was not there at first."""
    care = shown.book.notebook.care
    return next(each for key, each in care.items() if key not in ("aerated", "dressed"))


def test_entries_are_listed_newest_first_mowing_too(shown: Shown) -> None:
    mown = Care(id="mown", date=date(2026, 7, 1), kind="mowing")
    shown.book.edit(put(shown.book.notebook, "care", mown), "mowing")
    assert listed(shown) == [
        ("1 Jul 2026", "mowing", "whole yard", ""),
        ("13 Sep 2025", "topdressing", "whole yard", "compost"),
        ("14 Sep 2024", "aeration", "Front", ""),
    ]


def test_every_usual_kind_is_in_the_fields_menu(shown: Shown) -> None:
    field = part(shown.section, QLineEdit, "care_kind")
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)
    menu = part(shown.section, QMenu, "care_kind_presets")
    assert tuple(each.text() for each in menu.actions()) == CARE_KINDS
    for _ in range(CARE_KINDS.index("overseeding") + 1):
        QTest.keyClick(menu, Qt.Key.Key_Down)
    QTest.keyClick(menu, Qt.Key.Key_Return)
    assert field.text() == "overseeding"


def test_a_kind_of_ones_own_is_kept_as_typed_with_its_zone(shown: Shown) -> None:
    type_in(shown.section, "care_date", "3 May 2026")
    type_in(shown.section, "care_kind", "Rolled in June's Mix")
    click(shown.section, "zones_side")
    type_in(shown.section, "care_note", "half the bag", Qt.Key.Key_Return)
    care = kept(shown)
    assert (care.date, care.kind) == (date(2026, 5, 3), "Rolled in June's Mix")
    assert (care.zones, care.note) == (("side",), "half the bag")
    assert listed(shown)[0] == ("3 May 2026", "Rolled in June's Mix", "Side", "half the bag")
    shown.book.undo()
    assert len(listed(shown)) == 2


def test_a_new_entry_is_at_once_in_the_list_of_days_compared(shown: Shown) -> None:
    type_in(shown.section, "care_date", "3 May 2026")
    type_in(shown.section, "care_kind", "wetting agent")
    click(shown.section, "care_keep")
    menu = part(shown.section, QMenu, "split_day_presets")
    assert menu.actions()[0].text() == "wetting agent, whole yard\t3 May 2026"
    chart = child(shown.section, "trend_chart_canvas")
    shown.section.repaint()
    QTest.qWait(20)
    assert "3 May 2026: wetting agent" in chart.accessibleDescription()


def test_without_a_kind_it_is_not_kept_and_what_was_typed_stays(shown: Shown) -> None:
    type_in(shown.section, "care_note", "who knows")
    click(shown.section, "care_keep")
    assert len(shown.book.notebook.care) == 2
    assert "missing" in words(shown.section, "care_kind_problem")
    assert part(shown.section, QLineEdit, "care_note").text() == "who knows"


def test_a_day_to_come_is_refused_and_seed_before_the_day_too(shown: Shown) -> None:
    type_in(shown.section, "care_kind", "herbicide")
    type_in(shown.section, "care_date", "1 Dec 2026")
    click(shown.section, "care_keep")
    assert words(shown.section, "care_date_problem")
    type_in(shown.section, "care_date", "1 Sep 2026")
    type_in(shown.section, "care_no_seed_until", "1 Aug 2026")
    click(shown.section, "care_keep")
    assert "before the day itself" in words(shown.section, "care_no_seed_until_problem")
    type_in(shown.section, "care_no_seed_until", "1 Dec 2026", Qt.Key.Key_Return)
    assert kept(shown).no_seed_until == date(2026, 12, 1)


def test_an_entry_is_changed_and_taken_out_by_keys(shown: Shown) -> None:
    table = part(shown.section, RecordTable, "care_list")
    table.pick("aerated")
    QTest.keyClick(table, Qt.Key.Key_Return)
    assert part(shown.section, QPushButton, "zones_front").isChecked()
    type_in(shown.section, "care_kind", "coring", Qt.Key.Key_Return)
    assert shown.book.notebook.care["aerated"].kind == "coring"
    assert shown.book.undo_label == "change coring of 14 Sep 2024"
    table.pick("aerated")
    QTest.keyClick(table, Qt.Key.Key_Delete)
    assert "aerated" not in shown.book.notebook.care
    shown.book.undo()
    shown.book.undo()
    assert shown.book.notebook.care["aerated"].kind == "aeration"


def test_what_is_typed_stays_when_the_place_changes(shown: Shown) -> None:
    type_in(shown.section, "care_kind", "fungicide")
    click(shown.section, "zones_side")
    shown.look_at(FRONT)
    assert part(shown.section, QLineEdit, "care_kind").text() == "fungicide"
    assert part(shown.section, QPushButton, "zones_side").isChecked()


def test_ticks_stay_when_a_zone_is_added_elsewhere(shown: Shown) -> None:
    click(shown.section, "zones_side")
    back = Zone(id="back", name="Back", outline_ft=rectangle_ft((0, 40), 20, 20))
    shown.book.edit(put(shown.book.notebook, "zones", back), "new zone")
    assert part(shown.section, QPushButton, "zones_side").isChecked()
    assert not part(shown.section, QPushButton, "zones_back").isChecked()


def test_many_zones_take_as_many_rows_as_they_need(shown: Shown) -> None:
    zones = [
        Zone(id=f"z{n}", name=f"Long strip {n}", outline_ft=rectangle_ft((0, 100 + 30 * n), 20, 20))
        for n in range(20)
    ]
    shown.book.edit(put(shown.book.notebook, "zones", *zones), "zones")
    QTest.qWait(20)
    buttons = [part(shown.section, QPushButton, f"zones_z{n}") for n in range(20)]
    rows: dict[int, int] = {}
    for each in buttons:
        rows[each.y()] = rows.get(each.y(), 0) + len(each.text()) + TICK_EDGES
        assert each.geometry().right() <= child(shown.section, "care_zones").width()
    assert len(rows) >= 4
    assert max(rows.values()) <= TICK_ROW


def test_no_promise_is_made_and_labels_come_first(shown: Shown) -> None:
    caution = words(shown.section, "care_caution")
    assert "without a promise" in caution
    assert "label" in caution
    assert "local rules" in caution


def test_every_control_has_its_name(shown: Shown) -> None:
    part(shown.section, RecordTable, "care_list").pick("aerated")
    entry = shown.section.findChild(CareEntry)
    assert entry is not None
    assert not unnamed(entry)


def test_a_row_names_one_zone_and_its_words_say_all(book: OpenNotebook) -> None:
    """So that the note has room; nothing is lost to who points at the row or cannot see it."""
    zones = tuple(book.notebook.zones)[:3]
    names = [book.notebook.zones[each].name for each in zones]
    care = Care(id="c", date=date(2025, 9, 13), kind="aeration", zones=zones, note="two passes")
    assert care_cells(book.notebook, care)[2] == f"{names[0]} and 2 more"
    spoken = care_spoken(book.notebook, care)
    assert spoken == f"13 Sep 2025, aeration, {names[0]}, {names[1]} and {names[2]}, two passes"
    one = replace(care, zones=zones[:1])
    assert care_cells(book.notebook, one)[2] == names[0]


def test_what_it_cost_is_kept_with_it(shown: Shown) -> None:
    type_in(shown.section, "care_kind", "aeration")
    type_in(shown.section, "care_cost", "85.50", Qt.Key.Key_Return)
    assert kept(shown).cost == 85.5
