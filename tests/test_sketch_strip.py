"""The fields and the words under the sketch: what is wrong stays, what was said passes."""

from collections.abc import Iterator
from pathlib import Path
from types import MappingProxyType
from typing import cast

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot

from lawnbook.desk.sketch.control import farewell
from lawnbook.yard.edits import remove
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.records import Feeding, Spot, Zone
from tests.conftest import TODAY
from tests.sketch_hand import Hand, sketch_yard

TAB, ENTER, ESC = Qt.Key.Key_Tab, Qt.Key.Key_Return, Qt.Key.Key_Escape


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    made = Hand.on(sketch_yard(), tmp_path)
    yield made
    made.close()


def radius(hand: Hand) -> QLineEdit:
    return cast(QLineEdit, hand.field("head_radius_ft"))


def type_radius(hand: Hand, text: str) -> None:
    hand.panel.select("heads", "head")
    radius(hand).setFocus()
    radius(hand).selectAll()
    hand.type(text)


@pytest.mark.parametrize("key", [ENTER, TAB])
@pytest.mark.parametrize("wrong", ["twelve", "400"])
def test_a_wrong_number_stays_red_and_keeps_the_keyboard(
    hand: Hand, key: Qt.Key, wrong: str
) -> None:
    type_radius(hand, wrong)
    hand.key(key)
    hand.key(key)
    assert hand.focused() is radius(hand)
    assert (radius(hand).text(), radius(hand).property("state")) == (wrong, "refuse")
    assert hand.words()
    assert hand.notebook.heads["head"].radius_ft == 8.0

    radius(hand).selectAll()
    hand.type("9")
    hand.key(key)
    assert hand.focused() is not radius(hand)
    assert radius(hand).property("state") == ""
    assert hand.notebook.heads["head"].radius_ft == 9.0


def test_esc_gives_the_kept_value_back(hand: Hand) -> None:
    type_radius(hand, "twelve")
    hand.key(ENTER)
    hand.key(ESC)
    assert hand.focused() is hand.view
    assert (radius(hand).text(), radius(hand).property("state")) == ("8'", "")


def test_what_is_wrong_outlives_an_edit_elsewhere_but_not_another_choice(hand: Hand) -> None:
    type_radius(hand, "twelve")
    hand.key(ENTER)
    said = hand.words()
    hand.book.edit(put(hand.notebook, "spots", Spot(id="new", name="New")), "add New")
    assert (radius(hand).text(), radius(hand).property("state")) == ("twelve", "refuse")
    hand.panel.settle_words()
    assert hand.words() == said
    hand.panel.select("zones", "front")
    assert hand.words() != said
    hand.panel.select("heads", "head")
    assert (radius(hand).text(), radius(hand).property("state")) == ("8'", "")


def test_a_wrong_side_of_a_rectangle_gets_the_keyboard(hand: Hand) -> None:
    hand.panel.take("Zone")
    hand.draw_by("Rectangle")
    across = cast(QLineEdit, hand.field("new_zone_width"))
    across.setFocus()
    hand.type("12")
    hand.key(ENTER)
    up = cast(QLineEdit, hand.field("new_zone_depth"))
    assert hand.focused() is up
    assert up.property("state") == "refuse"
    hand.type("10")
    hand.key(ENTER)
    assert len(hand.notebook.zones) == 3


def test_deleting_a_zone_says_what_goes_with_it_and_what_stays(hand: Hand) -> None:
    hand.panel.select("zones", "front")
    hand.view.setFocus()
    hand.key(Qt.Key.Key_Delete)
    assert hand.words() == (
        "Front is gone, with 1 head and 1 catch test; spot Elm stays. Undo brings it back."
    )


def test_a_farewell_names_few_spots_and_the_shares_of_feedings() -> None:
    book = sketch_yard()
    assert farewell(remove(book, "zones", "back"), ("zones", "back")) == ""
    for name in ("Oak", "Ash", "Fir"):
        book = apply(book, put(book, "spots", Spot(id=name, name=name, zone="back")))
    fed = Feeding(
        id="f", date=TODAY, product="p", pounds=MappingProxyType({"front": 1.0, "back": 1.0})
    )
    book = apply(book, put(book, "feedings", fed))
    said = farewell(remove(book, "zones", "back"), ("zones", "back"))
    assert said == ", with its share of 1 feeding; spots Oak, Ash and Fir stay"
    book = apply(book, put(book, "spots", Spot(id="Yew", name="Yew", zone="back")))
    assert farewell(remove(book, "zones", "back"), ("zones", "back")).endswith("; 4 spots stay")


@pytest.mark.parametrize("after", ["undo", "choice", "page"])
def test_what_was_said_passes_with_the_next_action(hand: Hand, after: str) -> None:
    before = hand.words()
    hand.panel.select("spots", "elm")
    hand.view.setFocus()
    hand.key(Qt.Key.Key_Delete)
    assert "is gone. Undo brings it back." in hand.words()
    if after == "undo":
        hand.book.undo()
    elif after == "choice":
        hand.panel.select("zones", "back")
    else:
        hand.panel.settle_words()
    assert hand.words() == before


def test_a_zone_over_several_others_names_them_all(hand: Hand) -> None:
    hand.panel.take("Zone")
    hand.drag((20, 5), (50, 15))
    assert "lies partly on Front and Back" in hand.words()
    third = Zone(id="third", name="Third", outline_ft=rectangle_ft((20.0, 14.0), 30.0, 3.0))
    hand.book.edit(put(hand.notebook, "zones", third), "add Third")
    new = next(each for each in hand.notebook.zones.values() if each.name.startswith("Zone"))
    hand.panel.select("zones", new.id)
    hand.view.setFocus()
    hand.key(Qt.Key.Key_Up)
    assert "lies partly on Front, Back and Third" in hand.words()
