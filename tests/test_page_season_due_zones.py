"""Ticking off for forty zones: all and none by one key, Enter from anywhere, no tower of zones."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QPushButton

from lawnbook.desk.pages.season_due_form import DoneForm
from lawnbook.desk.pages.season_year import YearSection
from lawnbook.session.open_notebook import OpenNotebook
from tests.page_book import click, part, text_of
from tests.plan_yards import yard, zone
from tests.season_book import key, rows_of, shown_section, tick

ZONES = 40
Shown = tuple[YearSection, OpenNotebook]


@pytest.fixture
def shown(qapp: QApplication, tmp_path: Path) -> Iterator[Shown]:
    """A yard of forty zones whose soil was never tested."""
    zones = [zone(id=f"z{n}", name=f"Zone {n + 1}", rank=n) for n in range(ZONES)]
    yield from shown_section(qapp, tmp_path, yard(*zones))


def ticks(section: YearSection) -> list[QCheckBox]:
    """The zones' boxes."""
    return [part(section, QCheckBox, f"season_done_tick_{n}") for n in range(ZONES)]


@pytest.mark.parametrize("by_mouse", [True, False])
def test_none_then_one_records_that_one(shown: Shown, by_mouse: bool) -> None:
    section, book = shown
    tick(rows_of(section, "test")[0])
    if by_mouse:
        click(section, "season_done_none")
    else:
        part(section, QPushButton, "season_done_none").setFocus(Qt.FocusReason.TabFocusReason)
        key(Qt.Key.Key_Return)
    assert not any(box.isChecked() for box in ticks(section))
    assert not book.undo_label
    box = ticks(section)[7]
    box.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(box, Qt.Key.Key_Space)
    key(Qt.Key.Key_Return)
    key(Qt.Key.Key_Return)
    assert [each.zone for each in book.notebook.soil_tests.values()] == ["z7"]


def test_all_ticks_them_again_and_keeps_nothing_yet(shown: Shown) -> None:
    section, book = shown
    tick(rows_of(section, "test")[0])
    click(section, "season_done_none")
    part(section, QPushButton, "season_done_all").setFocus(Qt.FocusReason.TabFocusReason)
    key(Qt.Key.Key_Enter)
    assert all(box.isChecked() for box in ticks(section))
    assert text_of(section, "season_done_record") == "Record it"
    assert not book.undo_label


def test_forty_zones_are_not_twenty_rows(shown: Shown) -> None:
    section, _ = shown
    tick(rows_of(section, "test")[0])
    form = part(section, DoneForm, "season_done")
    tops = {box.mapTo(form, box.rect().topLeft()).y() for box in ticks(section)}
    assert len(tops) <= 10
    assert form.minimumSizeHint().width() <= 500
