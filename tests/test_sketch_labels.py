"""Names of zones on the sketch: their lengths, and where they stand among cans and pins."""

from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from lawnbook.desk.sketch.can_items import CanItem, can_radius_px
from lawnbook.desk.sketch.items import PinItem
from lawnbook.desk.sketch.label_places import Rows, Taken, rows_of, sides_ft
from lawnbook.desk.sketch.labels import Placed, Shape, place, zone_lines
from tests.sketch_hand import Hand, sketch_yard


def words(placed: Placed | None) -> list[str]:
    """The lines of a label."""
    assert placed is not None
    return [line.words for line in placed.lines]


def box(width: float, height: float) -> Rows:
    """The sides of a rectangle, its corner at the origin."""
    return sides_ft((((0.0, 0.0), (width, 0.0), (width, -height), (0.0, -height)),))


def placed_in(title: str, size: tuple[float, float], *cans: tuple[float, float]) -> Placed | None:
    """A title's label in a rectangle, among cans."""
    reach = can_radius_px()
    discs = rows_of([(x - reach, y - reach, x + reach, y + reach) for x, y in cans])
    taken = Taken(discs, np.ones(len(discs), dtype=np.bool_))
    shape = Shape(box(*size), [(size[0] / 2, size[1] / 2)])
    return place(zone_lines(title, "999 sq ft", "", "#000000"), shape, taken)


def test_a_long_name_breaks_in_two_before_it_goes(qapp: QApplication) -> None:
    assert words(placed_in("5 Orchard grass", (300, 90))) == ["5 Orchard grass", "999 sq ft"]
    assert words(placed_in("5 Orchard grass", (90, 90))) == ["5 Orchard", "grass", "999 sq ft"]
    assert words(placed_in("5 Orchard grass", (62, 90))) == ["zone 5"]
    assert words(placed_in("5 Orchard grass", (30, 90))) == ["5"]
    assert words(placed_in("5 Orchardgrass", (62, 90))) == ["zone 5"]


def test_among_cans_a_number_says_that_it_is_a_zone_s(qapp: QApplication) -> None:
    """Cans stand so close that no line fits between two rows without touching their room."""
    cans = [(x * 40.0 + 20, y * 36.0 + 6) for x in range(5) for y in range(4)]
    placed = placed_in("2 Corner lawn by the gate", (200, 120), *cans)
    assert words(placed) == ["zone 2"]
    assert placed is not None
    reach = can_radius_px() - 1.5
    for x, y in cans:
        can = QRectF(x - reach, y - reach, 2 * reach, 2 * reach)
        assert not QRectF(QPointF(*placed.box[:2]), QPointF(*placed.box[2:])).intersects(can)


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    made = Hand.on(sketch_yard(), tmp_path)
    yield made
    made.close()


def test_a_pin_s_name_gives_way_to_a_can_and_comes_back(hand: Hand) -> None:
    (pin,) = (each for each in hand.panel.scene.items() if isinstance(each, PinItem))
    whole = pin.boundingRect()
    assert whole.right() >= pin.name_rect().right()
    hand.panel.take("Can")
    hand.click((8.0, 6.0))
    assert pin.boundingRect().right() < pin.name_rect().right()
    hand.panel.cans.clear()
    assert pin.boundingRect() == whole


def test_cans_coloured_by_what_they_caught_lie_above_the_pins(hand: Hand) -> None:
    (pin,) = (each for each in hand.panel.scene.items() if isinstance(each, PinItem))
    hand.panel.select("zones", "front")
    assert _can(hand).zValue() < pin.zValue()
    hand.panel.colour_by("Sprinkler rate")
    assert _can(hand).zValue() > pin.zValue()


def _can(hand: Hand) -> CanItem:
    (can,) = (each for each in hand.panel.scene.items() if isinstance(each, CanItem))
    return can
