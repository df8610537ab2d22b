"""The fields of a head, and the day of change that makes a catch test stale."""

import itertools
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any, cast

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QLineEdit
from pytestqt.qtbot import QtBot

from lawnbook.desk.sketch.head_strip import parse_profile, profile_words
from lawnbook.desk.sketch.outlines import toward
from lawnbook.desk.sketch.staling import with_days
from lawnbook.plan.rates import rate_of
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Head
from tests.conftest import TODAY
from tests.sketch_hand import Hand, sketch_yard

Key = Qt.Key
TESTED = TODAY - timedelta(days=43)


def stale_yard() -> Notebook:
    """The sketch yard, its head with a flow and its zone's cans set out six weeks ago."""
    notebook = sketch_yard()
    head = replace(notebook.heads["head"], flow_gpm=1.0)
    test = replace(notebook.catch_tests["cans"], date=TESTED)
    notebook = apply(notebook, put(notebook, "heads", head))
    return apply(notebook, put(notebook, "catch_tests", test))


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    made = Hand.on(stale_yard(), tmp_path)
    yield made
    made.close()


def head(hand: Hand) -> Head:
    return hand.notebook.heads["head"]


def box(hand: Hand) -> QComboBox:
    return cast(QComboBox, hand.field("head_profile_kind"))


def fill(hand: Hand, name: str, text: str, end: Qt.Key = Key.Key_Return) -> None:
    hand.panel.select("heads", "head")
    field = cast(QLineEdit, hand.field(f"head_{name}"))
    field.setFocus()
    field.selectAll()
    hand.type(text) if text else hand.key(Key.Key_Delete)
    hand.key(end)


def pick_profile(hand: Hand, words: str) -> None:
    hand.panel.select("heads", "head")
    box(hand).setFocus()
    box(hand).setCurrentIndex(box(hand).findText(words))
    box(hand).activated.emit(box(hand).currentIndex())


@pytest.mark.parametrize(
    ("name", "text"),
    [("flow_gpm", "2"), ("radius_ft", "9"), ("start_deg", "10"), ("sweep_deg", "120")],
)
def test_a_change_of_a_head_keeps_its_day_and_undo_takes_both_back(
    hand: Hand, name: str, text: str
) -> None:
    before = head(hand)
    fill(hand, name, text)
    assert head(hand).changed_on == TODAY
    assert getattr(head(hand), name) == float(text)
    assert hand.words() == (
        "The catch test of 3 May 2026 is now stale: set out the cans again, or clear Changed on "
        "if only the drawing was mended."
    )
    assert "15 Jun 2026" in cast(QLineEdit, hand.field("head_changed_on")).text()
    zone = hand.zone("front")
    assert "3 May 2026" in rate_of(hand.notebook, zone, zone_area_sqft(zone), TODAY).stale
    hand.book.undo()
    assert head(hand) == before


def test_a_profile_is_chosen_and_dated_too(hand: Hand) -> None:
    pick_profile(hand, "Doughnut")
    assert (head(hand).profile, head(hand).changed_on) == ("doughnut", TODAY)
    assert "is now stale" in hand.words()
    assert box(hand).currentText() == "Doughnut"
    pick_profile(hand, "Not given")
    assert head(hand).profile is None


def test_a_pull_at_a_handle_counts_as_a_change(hand: Hand) -> None:
    hand.click((15, 10))
    grip = toward((15.0, 10.0), 45.0, 8.0)
    hand.drag(grip, toward((15.0, 10.0), 45.0, 12.0))
    assert head(hand).radius_ft == pytest.approx(12.0, abs=0.2)
    assert head(hand).changed_on == TODAY


@pytest.mark.parametrize(("feet", "day"), [(0.8, None), (3.0, TODAY)])
def test_a_move_counts_once_it_is_more_than_a_foot(
    hand: Hand, feet: float, day: date | None
) -> None:
    changed = replace(head(hand), at_ft=(15.0 + feet, 10.0))
    dated = with_days(hand.notebook, put(hand.notebook, "heads", changed), TODAY)
    assert cast(Head, dated["heads", "head"][1]).changed_on == day
    hand.drag((15, 10), (15 + feet, 10))
    assert head(hand).at_ft[0] > 15.0
    assert head(hand).changed_on == day
    assert ("is now stale" in hand.words()) == (day is not None)


def test_a_zone_moved_with_all_that_stands_on_it_leaves_its_test_good(hand: Hand) -> None:
    hand.drag((27, 17), (27, 24))
    assert head(hand).at_ft == (15.0, 17.0)
    assert head(hand).changed_on is None


def test_a_day_that_is_cleared_stays_cleared(hand: Hand) -> None:
    fill(hand, "radius_ft", "9")
    fill(hand, "changed_on", "")
    assert head(hand).changed_on is None
    fill(hand, "radius_ft", "10")
    assert (head(hand).radius_ft, head(hand).changed_on) == (10.0, None)
    assert hand.words().startswith("Changed on stays empty, as you left it")
    fill(hand, "changed_on", "1 Jun 2026")
    assert head(hand).changed_on == date(2026, 6, 1)
    fill(hand, "radius_ft", "11")
    assert head(hand).changed_on == TODAY


def test_without_an_older_test_no_day_is_kept(hand: Hand) -> None:
    fresh = replace(hand.notebook.catch_tests["cans"], date=TODAY)
    hand.book.edit(put(hand.notebook, "catch_tests", fresh), "test today")
    fill(hand, "radius_ft", "9")
    assert (head(hand).radius_ft, head(hand).changed_on) == (9.0, None)


def test_a_doubt_and_the_stale_test_are_both_told(hand: Hand) -> None:
    fill(hand, "radius_ft", "70")
    assert "It was kept as it is." in hand.words()
    assert "is now stale" in hand.words()


def test_a_table_is_typed_in_place_of_the_list(hand: Hand) -> None:
    pick_profile(hand, "Table…")
    table = cast(QLineEdit, hand.field("head_profile"))
    assert hand.focused() is table
    hand.type("1 0.9 0.6 0.2")
    hand.key(Key.Key_Return)
    assert head(hand).profile == (1.0, 0.9, 0.6, 0.2)
    assert table.isVisible()
    assert table.text() == "1 0.9 0.6 0.2"
    table.setFocus()
    table.selectAll()
    hand.key(Key.Key_Delete)
    hand.key(Key.Key_Return)
    assert head(hand).profile is None
    assert box(hand).isVisible()


@pytest.mark.parametrize("typed", ["round", "1", "0 0 0"])
def test_a_table_that_cannot_be_stays_in_sight(hand: Hand, typed: str) -> None:
    pick_profile(hand, "Table…")
    hand.type(typed)
    hand.key(Key.Key_Return)
    table = cast(QLineEdit, hand.field("head_profile"))
    assert (table.text(), table.property("state")) == (typed, "refuse")
    assert "rofile" in hand.words()
    hand.book.edit(put(hand.notebook, "yard", replace(hand.notebook.yard, name="New")), "rename")
    assert table.isVisible()
    assert table.text() == typed
    hand.key(Key.Key_Escape)
    assert box(hand).isVisible()
    assert head(hand).profile is None


def test_a_table_left_untouched_gives_the_list_back(hand: Hand) -> None:
    pick_profile(hand, "Table…")
    hand.view.setFocus()
    assert box(hand).isVisible()
    assert box(hand).currentText() == "Not given"


@pytest.mark.parametrize(
    ("text", "profile"),
    [("", None), (" Cone ", "cone"), ("flat", "flat"), ("1, .5; 0", (1.0, 0.5, 0.0))],
)
def test_a_profile_is_read_as_typed(text: str, profile: Any) -> None:
    assert parse_profile(text) == profile
    assert parse_profile(profile_words(profile) if profile else "") == profile


def test_a_profile_that_is_neither_name_nor_table_is_refused() -> None:
    with pytest.raises(OwnerError, match="neither a name nor a table"):
        parse_profile("like a fan")


def test_all_fields_of_a_head_stand_in_the_smallest_window(hand: Hand) -> None:
    hand.panel.select("heads", "head")
    hand.panel.setFixedWidth(522)
    rights = [
        hand.field(f"head_{name}").mapTo(hand.panel, hand.field(f"head_{name}").rect().topRight())
        for name in ("radius_ft", "start_deg", "sweep_deg", "flow_gpm", "changed_on", "zone")
    ]
    assert all(a.x() < b.x() for a, b in itertools.pairwise(rights))
    assert rights[-1].x() <= 522


def test_a_head_on_a_corner_is_chosen_by_a_click_and_the_corner_by_a_drag(hand: Hand) -> None:
    corner = replace(head(hand), at_ft=(30.0, 20.0))
    hand.book.edit(put(hand.notebook, "heads", corner), "move")
    hand.panel.select("zones", "front")
    hand.click((30, 20))
    assert "head 1 of Front is chosen" in hand.view.accessibleDescription()
    hand.drag((30, 20), (26, 17))
    assert head(hand).at_ft != (30.0, 20.0)
    assert hand.notebook.zones["front"].outline_ft[2] == (30.0, 20.0)
    hand.book.undo()
    hand.panel.select("zones", "front")
    hand.drag((30, 20), (34, 24))
    assert hand.notebook.zones["front"].outline_ft[2] == (34.0, 24.0)
    assert head(hand).at_ft == (30.0, 20.0)
