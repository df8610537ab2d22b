"""Sides typed while drawing: length, direction, turn; an outline by the keyboard alone."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from lawnbook.desk.sketch.typed_side import TypedSide
from lawnbook.yard.geometry import area_sqft
from lawnbook.yard.notebook import new_notebook
from lawnbook.yard.problems import OwnerError
from tests.sketch_hand import Hand

Key = Qt.Key


@pytest.fixture
def blank(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    """A hand on an empty page, with Zone taken up."""
    made = Hand.on(new_notebook("Blank"), tmp_path)
    made.key(Key.Key_Z)
    yield made
    made.close()


def typed(words: str) -> TypedSide:
    """What is typed key by key."""
    side = TypedSide()
    for key in words:
        assert side.takes(key), key
        side = side.with_key(key)
    return side


@pytest.mark.parametrize(
    ("words", "last_deg", "feet", "bearing"),
    [
        ("32' 6\"<90", None, 32.5, 90),
        ("9.9 m<0", None, 9.9 / 0.3048, 0),
        ('390"R90', 10, 32.5, 100),
        ("20L45", 10, 20, 325),
        ("10 1/2", None, 10.5, None),
        ("<270", None, None, 270),
        ("20<-90", None, 20, 270),
        ("12<45.5°", None, 12, 45.5),
        ("R90", 350, None, 80),
    ],
)
def test_a_typed_side(
    words: str, last_deg: float | None, feet: float | None, bearing: float | None
) -> None:
    side = typed(words)
    assert side.length_ft() == (feet and pytest.approx(feet))
    assert side.bearing_deg(last_deg) == (bearing and pytest.approx(bearing)) or bearing == 0


@pytest.mark.parametrize("words", ["20<", "20<R", "20<12L", "20<400", "20R90"])
def test_a_direction_that_cannot_be_read_is_said(words: str) -> None:
    side = typed(words)
    if side.direction:
        with pytest.raises(OwnerError, match="Direction"):
            side.bearing_deg(None)
    else:
        assert side.bearing_deg(None) is None


def test_a_typed_side_is_taken_back_key_by_key() -> None:
    side = typed("12<R4")
    for words in ("12 < R", "12 <", "12", "1", ""):
        side = side.back()
        assert side.words == words
    assert side.is_empty


def test_an_outline_by_typed_sides_alone(blank: Hand) -> None:
    """An L of 40 by 30 ft with a bite of 15 by 10, every side typed; metric among them."""
    for side in ("40<90", "9.144 m L90", "25L90", '120"L90', "15R90"):
        blank.type(side)
        blank.key(Key.Key_Return)
    blank.key(Key.Key_Return)
    (zone,) = blank.notebook.zones.values()
    assert zone.outline_ft[0] == (0.0, 0.0)
    assert area_sqft(zone.outline_ft) == pytest.approx(40 * 30 - 15 * 10, abs=0.5)
    assert blank.book.undo_label == "draw Zone 1"


def test_a_slanted_outline_in_metres_closes_square(blank: Hand) -> None:
    blank.type("12 m<30")
    blank.key(Key.Key_Return)
    blank.type("8.5mR90")
    blank.key(Key.Key_Return)
    blank.key(Key.Key_Q)
    (zone,) = blank.notebook.zones.values()
    assert area_sqft(zone.outline_ft) == pytest.approx(12 * 8.5 / 0.3048**2, rel=0.001)


def test_arrows_lead_the_point_and_insert_puts_it(blank: Hand) -> None:
    blank.key(Key.Key_Insert)
    for _ in range(10):
        blank.key(Key.Key_Right)
    blank.key(Key.Key_Insert)
    for _ in range(6):
        blank.key(Key.Key_Up)
    blank.key(Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    blank.key(Key.Key_Insert)
    blank.key(Key.Key_Q)
    (zone,) = blank.notebook.zones.values()
    assert zone.outline_ft == ((0.0, 0.0), (10.0, 0.0), (10.0, 6.25), (0.0, 6.25))


def test_the_fields_show_and_take_the_same(blank: Hand) -> None:
    blank.click((0, 0))
    blank.move((10, 0))
    blank.type("12' 6\"<90")
    assert blank.said("new_zone_length") == "12' 6\""
    assert blank.said("new_zone_direction") == "90"
    assert blank.said("bubble").startswith("12' 6\" < 90  ·  12' 6\"  ·  90°")
    blank.key(Key.Key_Return)
    assert blank.said("new_zone_length") == ""
    blank.field("new_zone_length").setFocus()
    blank.type("20")
    blank.key(Key.Key_Tab)
    blank.type("L90")
    assert blank.said("bubble").startswith("20 < L90")
    blank.key(Key.Key_Return)
    assert blank.view.hasFocus()
    blank.key(Key.Key_Q)
    (zone,) = blank.notebook.zones.values()
    assert zone.outline_ft == ((0.0, 0.0), (12.5, 0.0), (12.5, 20.0), (0.0, 20.0))


@pytest.mark.parametrize(
    ("words", "said"),
    [("12'6'4", "Length"), ("0", "Length"), ("20<500", "Direction"), ("20R90", "last side")],
)
def test_what_cannot_be_read_is_said_and_stays(blank: Hand, words: str, said: str) -> None:
    blank.click((0, 0))
    blank.move((10, 0))
    blank.type(words)
    blank.key(Key.Key_Return)
    assert said in blank.words()
    assert blank.said("new_zone_length")
    blank.key(Key.Key_Escape)
    assert blank.said("new_zone_length") == ""


def test_the_bubble_tells_length_direction_turn_and_reason(blank: Hand) -> None:
    blank.click((0, 0))
    blank.click((20, 0))
    blank.move((20, 12))
    assert blank.said("bubble").startswith("12'  ·  0°  ·  turns L 90°  ·  120 sq ft")
    assert blank.said("bubble").endswith("square to the last side")


def test_a_space_in_a_typed_length_does_not_take_the_paper(blank: Hand) -> None:
    blank.click((0, 0))
    blank.move((10, 0))
    blank.type("10 1/2")
    blank.key(Key.Key_Return)
    blank.type("5L90")
    blank.key(Key.Key_Return)
    blank.key(Key.Key_Q)
    (zone,) = blank.notebook.zones.values()
    assert area_sqft(zone.outline_ft) == pytest.approx(52.5)


def test_a_pointer_at_rest_does_not_gainsay_the_side_just_typed(blank: Hand) -> None:
    told: list[str] = []
    blank.panel.control.hovered.connect(told.append)
    blank.click((0.0, 0.0))
    blank.move((10.0, 3.0))
    for side in ("40 < 90", "20 < R90"):
        blank.type(side)
        blank.key(Key.Key_Return)
        assert "cross" not in told[-1]
    blank.move((11.0, 3.0))
    assert "cross" in told[-1]
