"""What is heard without being looked at: the sketch in words, the day's plan, the foot, undo."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from lawnbook.desk import plan_showing, status
from lawnbook.desk.settings import Settings
from lawnbook.desk.sketch.describing import description
from lawnbook.desk.status import KEPT, TAKEN_OUT, takes_out
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import apply, put
from tests.access_walk import opened, settle
from tests.desk_sample import DAY, sample
from tests.page_book import put_away
from tests.sketch_hand import sketch_yard


@pytest.fixture
def heard(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What a screen reader would say of itself."""
    told: list[str] = []
    for module in (plan_showing, status):
        monkeypatch.setattr(module, "announce", lambda _, words: told.append(words))
    return told


@pytest.fixture
def window(qapp: QApplication, tmp_path: Path) -> Iterator[BookWindow]:
    made = opened(tmp_path, sample("larkspur_corner"), DAY)
    yield made
    made.close()
    put_away(made)


def test_the_sketch_is_told_with_its_zones_and_their_areas() -> None:
    yard = sketch_yard()
    words = description(yard, None)
    assert "Zone 1 Front, 600 square feet; Zone 2 Back" in words
    zone = next(iter(yard.zones.values()))
    many = yard
    for number in range(40):
        change = put(many, "zones", replace(zone, id=f"z{number}", name=f"Z{number}", rank=number))
        many = apply(many, change)
    told = description(many, None)
    assert told.count("square feet") == 8
    assert f"zones that are not told here: {len(many.zones) - 8}" in told


def test_another_day_and_another_area_are_heard_once(heard: list[str], window: BookWindow) -> None:
    assert heard == ["The plan of 25 Nov 2026: 4,916 sq ft of grass in 4 zones."]
    heard.clear()
    window.look_at(DAY - timedelta(days=1))
    settle()
    window.look_at(DAY - timedelta(days=1))
    settle()
    assert [each.split(":")[0] for each in heard] == ["The plan of 24 Nov 2026"]


def test_what_is_taken_out_is_said_and_undo_stands_beside_it(window: BookWindow) -> None:
    book, foot = window.book, window.status
    watering = next(iter(book.notebook.waterings))
    book.edit(remove(book.notebook, "waterings", watering), "take out a watering")
    assert foot.words.text() == TAKEN_OUT
    assert foot.undo_button.isVisible()
    QTest.mouseClick(foot.undo_button, Qt.MouseButton.LeftButton)
    assert watering in book.notebook.waterings
    assert foot.words.text() == KEPT
    book.redo()
    assert foot.words.text() == TAKEN_OUT


def test_only_what_takes_out_and_no_more_is_taken_out(window: BookWindow) -> None:
    notebook = window.book.notebook
    zone = next(iter(notebook.zones.values()))
    assert not takes_out(put(notebook, "zones", replace(zone, name="Other")))
    assert takes_out(remove(notebook, "waterings", next(iter(notebook.waterings))))
    merged = {("zones", "a"): (zone, None), ("zones", "b"): (zone, zone)}
    assert not takes_out(merged)


def test_windows_are_remembered(qapp: QApplication, tmp_path: Path) -> None:
    """A window comes back as high as it was left; without a screen none is wider than its least."""
    first = opened(tmp_path, sample("larkspur_corner"), DAY)
    first.resize(1300, 745)
    settle()
    first.close()
    put_away(first)
    book = OpenNotebook.open(tmp_path / "walked.lawnbook", DAY)
    second = BookWindow(book, Settings(tmp_path / "desk.ini"))
    second.show()
    settle()
    high = second.height()
    second.close()
    put_away(second)
    assert high == 745
