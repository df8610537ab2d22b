"""The Can tool and the cans on the sketch: placing, moving, taking away, by mouse and keys."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from lawnbook.charts.palette import LIGHT
from lawnbook.desk.can_draft import CanDraft
from lawnbook.desk.sketch.can_items import (
    Can,
    CanItem,
    can_radius_px,
    cans_of,
    caught_rates,
    latest_cans,
)
from lawnbook.desk.sketch.canning import ENOUGH, placed_words
from lawnbook.desk.sketch.rate_scale import rate_colours
from lawnbook.plan.coverage import rates_at
from lawnbook.yard.edits import remove
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.records import CatchTest, Head
from tests.conftest import TODAY
from tests.sketch_hand import Hand, sketch_yard

Key = Qt.Key


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    made = Hand.on(sketch_yard(), tmp_path)
    yield made
    made.close()


def items(hand: Hand) -> list[CanItem]:
    return [each for each in hand.panel.scene.items() if isinstance(each, CanItem)]


def near(at: Point, other: Point) -> bool:
    return at == pytest.approx(other, abs=0.1)


def place(hand: Hand, *places: Point) -> CanDraft:
    hand.panel.take("Can")
    for at in places:
        hand.click(at)
    return hand.panel.cans


def test_a_draft_numbers_moves_and_forgets_its_cans() -> None:
    draft, told = CanDraft(), []
    draft.changed.connect(lambda: told.append(draft.places))
    with pytest.raises(ValueError, match="zone"):
        draft.add((1.0, 1.0))
    draft.take("front", [(1.0, 1.0)])
    draft.add((2.0, 2.0))
    draft.move(0, (1.5, 1.0))
    assert (draft.zone_id, draft.places, draft.picked) == ("front", ((1.5, 1.0), (2.0, 2.0)), 0)
    draft.move(0, (1.5, 1.0))
    assert len(told) == 3
    draft.pick(1)
    draft.pick(1)
    assert len(told) == 4
    draft.remove(0)
    assert (draft.places, draft.picked) == (((2.0, 2.0),), 0)
    draft.remove_last()
    draft.remove_last()
    assert (draft.zone_id, draft.places, draft.picked) == ("front", (), None)
    draft.clear()
    draft.clear()
    assert draft.zone_id == ""
    assert len(told) == 7
    with pytest.raises(IndexError):
        draft.pick(0)
    with pytest.raises(IndexError):
        draft.move(0, (0.0, 0.0))
    with pytest.raises(IndexError):
        draft.remove(0)


def test_the_first_click_names_the_zone_and_others_outside_are_told(hand: Hand) -> None:
    draft = place(hand, (35, 10))
    assert (draft.zone_id, draft.places) == ("", ())
    assert hand.words() == "Cans stand in a zone: click inside the one that is tested."
    hand.click((10, 5))
    hand.click((20, 15))
    assert draft.zone_id == "front"
    assert near(draft.places[0], (10, 5))
    assert near(draft.places[1], (20, 15))
    assert hand.words() == (
        "Can 2 placed. Two dozen well spread beat six; go on, then type what they caught on the "
        "Water page."
    )
    hand.click((60, 10))
    assert len(draft.places) == 2
    assert hand.words() == "No can was placed: a test's cans stand in one zone, here in Front."
    assert hand.book.undo_label == ""


def test_after_two_dozen_the_words_say_that_it_is_enough() -> None:
    assert "Two dozen well spread beat six" in placed_words(ENOUGH - 1)
    assert placed_words(ENOUGH).startswith("Can 24 placed. That is enough")


def test_a_can_is_dragged_and_goes_back_where_it_may_not_stand(hand: Hand) -> None:
    draft = place(hand, (10, 5), (20, 15))
    hand.drag((10, 5), (14, 9))
    assert near(draft.places[0], (14, 9))
    assert draft.picked == 0
    assert near(draft.places[1], (20, 15))
    hand.drag((14, 9), (35, 9))
    assert near(draft.places[0], (14, 9))
    assert hand.words().startswith("Can 1 was put back")
    hand.press((14, 9))
    hand.move((18, 12))
    hand.key(Key.Key_Escape)
    assert near(draft.places[0], (14, 9))
    hand.release((18, 12))
    assert len(draft.places) == 2


def test_a_click_on_a_can_takes_it_in_hand_and_places_no_other(hand: Hand) -> None:
    draft = place(hand, (10, 5), (20, 15))
    hand.double((10, 5))
    assert len(draft.places) == 2
    assert draft.picked == 0


@pytest.mark.parametrize("key", [Key.Key_Backspace, Key.Key_Delete])
def test_the_can_in_hand_or_the_last_is_taken_away(hand: Hand, key: Qt.Key) -> None:
    draft = place(hand, (5, 5), (10, 5), (15, 5))
    hand.click((5, 5))
    hand.key(key)
    assert hand.words() == "Can 1 is gone; 2 left."
    assert near(draft.places[0], (10, 5))
    hand.key(key)
    assert near(draft.places[-1], (10, 5))
    hand.key(key)
    assert hand.words() == "Can 1 is gone; none left."
    assert (draft.zone_id, draft.places) == ("", ())
    hand.key(key)
    assert draft.places == ()


def test_cans_are_placed_and_moved_by_the_keyboard(hand: Hand) -> None:
    hand.view.setFocus()
    hand.key(Key.Key_Tab)
    hand.key(Key.Key_C)
    hand.key(Key.Key_Insert)
    draft = hand.panel.cans
    assert draft.zone_id == "front"
    first = draft.places[0]
    hand.key(Key.Key_Insert)
    assert draft.places[1] == (first[0] + 4, first[1])
    hand.key(Key.Key_Up)
    hand.key(Key.Key_Left, Qt.KeyboardModifier.ShiftModifier)
    assert draft.places[1] == (first[0] + 3.75, first[1] + 1)
    hand.key(Key.Key_Backtab)
    assert draft.picked == 0
    assert hand.words() == "Can 1 of 2. Arrows move it, Delete takes it away."
    hand.key(Key.Key_Tab)
    assert draft.picked == 1
    assert hand.view.hasFocus()
    for _ in range(30):
        hand.key(Key.Key_Up)
    assert draft.places[1][1] <= 20
    assert hand.words().startswith("Can 2 stays")
    hand.key(Key.Key_Tab)
    assert not hand.view.hasFocus()


def test_insert_without_a_zone_says_what_it_needs(hand: Hand) -> None:
    hand.panel.take("Can")
    hand.key(Key.Key_Insert)
    assert hand.words() == "Choose a zone first, then Insert places a can in it."


def test_laying_the_tool_down_tells_that_cans_were_placed(hand: Hand) -> None:
    told: list[int] = []
    hand.panel.cans_placed.connect(lambda: told.append(len(hand.panel.cans.places)))
    hand.panel.take("Can")
    hand.key(Key.Key_Escape)
    assert told == []
    draft = place(hand, (10, 5), (20, 15))
    hand.key(Key.Key_Escape)
    assert told == [2]
    assert draft.picked is None
    assert len(draft.places) == 2
    hand.panel.take("Spot")
    hand.key(Key.Key_Escape)
    assert told == [2]


def test_cans_in_the_making_are_drawn_and_told_to_a_screen_reader(hand: Hand) -> None:
    place(hand, (10, 5), (20, 15))
    drawn = [each for each in items(hand) if each.zValue() >= 70]
    assert len(drawn) == 2
    assert "2 cans of a test in the making" in hand.view.accessibleDescription()
    hand.move((10, 5))
    assert hand.said("bubble") == "can 1"
    hand.panel.cans.clear()
    assert not [each for each in items(hand) if each.zValue() >= 70]


def test_a_label_makes_room_for_the_cans(hand: Hand) -> None:
    hand.panel.fit()

    def box(kind: str) -> list[QRectF]:
        seen = [i for i in hand.panel.scene.items() if type(i).__name__ == kind and i.isVisible()]
        turn = hand.view.viewportTransform()
        return [i.deviceTransform(turn).mapRect(i.boundingRect()) for i in seen]

    before = box("LabelItem")
    place(hand, *[(4.0 + 7 * across, 4.0 + 6 * up) for across in range(4) for up in range(3)])
    assert box("LabelItem") != before
    discs = [each.adjusted(2, 2, -2, -2) for each in box("CanItem")]
    assert len(discs) >= 12
    assert not [1 for label in box("LabelItem") for disc in discs if label.intersects(disc)]
    hand.panel.cans.clear()
    hand.key(Key.Key_Escape)
    assert box("LabelItem") == before


def test_cans_go_with_their_zone(hand: Hand) -> None:
    draft = place(hand, (10, 5))
    hand.book.edit(remove(hand.notebook, "zones", "back"), "remove Back")
    assert draft.zone_id == "front"
    hand.book.edit(remove(hand.notebook, "zones", "front"), "remove Front")
    assert (draft.zone_id, draft.places) == ("", ())


PLACED = CatchTest(
    id="placed",
    zone="front",
    date=TODAY - timedelta(days=3),
    run_minutes=20.0,
    at_ft=((12.0, 8.0), (18.0, 8.0), (26.0, 8.0)),
)
"""A test with places; what its cans caught is for each check to say."""


def watered(test: CatchTest) -> Notebook:
    """The sketch yard with a test, and one head whose flow is known."""
    notebook = sketch_yard()
    head = Head(id="h", zone="front", at_ft=(15.0, 8.0), radius_ft=12.0, flow_gpm=3.0)
    notebook = apply(notebook, put(notebook, "heads", head))
    notebook = apply(notebook, remove(notebook, "catch_tests", "cans"))
    return apply(notebook, put(notebook, "catch_tests", test))


def caught_like_map(*shares: float) -> Notebook:
    """A yard whose cans caught these shares of what the map gives where they stood."""
    notebook = watered(PLACED)
    rates = rates_at(notebook, PLACED.at_ft, "front")
    depths = tuple(r / 3 * share for r, share in zip(rates, shares, strict=True))
    return watered(replace(PLACED, depths_in=depths))


def test_cans_are_set_beside_the_map() -> None:
    notebook = caught_like_map(1.0, 0.5, 2.0)
    cans = cans_of(notebook, notebook.catch_tests["placed"])
    assert [can.number for can in cans] == [1, 2, 3]
    assert [can.ratio for can in cans] == pytest.approx([1.0, 0.5, 2.0])
    second = cans[1]
    assert second.words() == (
        f"can 2: {second.caught_in_per_h:.2f} in/h caught, map {second.map_in_per_h:.2f}"
    )


def test_volumes_give_the_same_rates_as_depths() -> None:
    """1 mL is 0.061024 cu in (exact by definition of the inch)."""
    volumes = replace(PLACED, can_mouth_sqin=12.0, volumes_ml=(60.0, 30.0, 0.0))
    depths = tuple(ml * 0.0610237441 / 12.0 for ml in volumes.volumes_ml)
    as_depths = replace(PLACED, depths_in=depths)
    assert caught_rates(volumes) == pytest.approx(caught_rates(as_depths), rel=1e-6)
    assert caught_rates(PLACED) == ()


def test_without_map_or_catch_a_can_says_only_what_it_knows() -> None:
    assert Can(4, (0, 0)).words() == "can 4"
    assert Can(4, (0, 0), 0.31).words() == "can 4: 0.31 in/h caught"
    assert Can(4, (0, 0), 0.31).ratio is None
    assert Can(4, (0, 0), 0.31, 0.0).ratio is None
    bare = sketch_yard()
    (can,) = cans_of(bare, bare.catch_tests["cans"])
    assert can.map_in_per_h is None


def test_only_the_latest_test_with_places_up_to_the_day_is_shown() -> None:
    notebook = caught_like_map(1.0, 1.0, 1.0)
    bare = replace(PLACED, id="bare", date=TODAY, at_ft=(), depths_in=(0.2, 0.3))
    older = replace(PLACED, id="older", date=TODAY - timedelta(days=9), at_ft=((9.0, 9.0),))
    notebook = apply(notebook, put(notebook, "catch_tests", bare, older))
    assert len(latest_cans(notebook, "front", TODAY, notebook.find)) == 3
    assert len(latest_cans(notebook, "front", PLACED.date, notebook.find)) == 3
    before = PLACED.date - timedelta(days=1)
    assert [can.at_ft for can in latest_cans(notebook, "front", before, notebook.find)] == [(9, 9)]
    assert latest_cans(notebook, "back", TODAY, notebook.find) == ()


@pytest.fixture
def tested(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    """A hand on a yard whose cans caught as the map says, half of it, and twice."""
    made = Hand.on(caught_like_map(1.0, 0.5, 2.0), tmp_path)
    yield made
    made.close()


def test_cans_of_a_test_are_shown_where_they_are_of_use(tested: Hand) -> None:
    assert items(tested) == []
    tested.panel.select("zones", "front")
    assert len(items(tested)) == 3
    tested.panel.select("zones", "back")
    assert items(tested) == []
    tested.panel.take("Can")
    assert len(items(tested)) == 3
    tested.panel.tool("Pick")
    assert items(tested) == []
    tested.panel.colour_by("Sprinkler rate")
    assert len(items(tested)) == 3
    tested.panel.colour_by("Thatch")
    assert items(tested) == []


def test_over_the_map_a_can_wears_what_it_caught_of_it(tested: Hand) -> None:
    tested.panel.colour_by("Sprinkler rate")
    QApplication.processEvents()
    image = tested.view.viewport().grab().toImage()
    colours = rate_colours(LIGHT)
    for at, fill in zip(PLACED.at_ft, (LIGHT.card, colours.dry, colours.wet), strict=True):
        spot = tested.px(at)
        # Beside the number, inside the rim.
        seen = image.pixelColor(spot.x() - round(can_radius_px()) + 3, spot.y())
        assert seen.name() == QColor(fill).name(), at
    assert "Cans" in tested.field("legend").accessibleDescription()
    tested.move((18, 8))
    assert tested.said("bubble").startswith("can 2: ")
    assert ", map " in tested.said("bubble")


def test_cans_of_a_test_move_with_their_zone_while_it_is_dragged(tested: Hand) -> None:
    tested.panel.colour_by("Sprinkler rate")
    before = sorted(each.pos().toTuple() for each in items(tested))
    tested.press((3, 17))
    tested.move((3, 22))
    tested.move((3, 27))
    during = sorted(each.pos().toTuple() for each in items(tested))
    assert [(x, y - 10) for x, y in before] == during
    tested.key(Key.Key_Escape)
    tested.release((3, 27))
    assert sorted(each.pos().toTuple() for each in items(tested)) == before
