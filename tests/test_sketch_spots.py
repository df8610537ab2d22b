"""Putting down and moving plug spots: what speaks against a place is told, never refused."""

from collections.abc import Iterator
from itertools import combinations
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QComboBox

from lawnbook.charts.marks import Polygon
from lawnbook.charts.palette import PALETTES
from lawnbook.charts.sketch_marks import sketch_marks
from lawnbook.desk.looks import Looks
from lawnbook.desk.sketch.inspector import ZONE_LETTERS
from lawnbook.desk.sketch.items import PinItem
from lawnbook.desk.sketch.tinting import feature_fill
from lawnbook.desk.theme import apply_looks
from lawnbook.plan.make import make_plan
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.records import Feature, FeatureKind, Spot
from tests.conftest import TODAY
from tests.sketch_hand import Hand, sketch_yard


def spots_yard() -> Notebook:
    """The sketch yard with a pet patch and a buried line in its back zone."""
    notebook = sketch_yard()
    patch = Feature(id="dog", kind="pet patch", outline_ft=rectangle_ft((45.0, 12.0), 4.0, 4.0))
    line = Feature(
        id="gas", kind="buried line", name="Gas line", outline_ft=rectangle_ft((60.5, 0.0), 1.0, 20)
    )
    return apply(notebook, put(notebook, "features", patch, line))


@pytest.fixture
def hand(tmp_path: Path) -> Iterator[Hand]:
    """A panel on the yard with what plugs keep away from."""
    panel = Hand.on(spots_yard(), tmp_path)
    yield panel
    panel.close()


def new_spots(hand: Hand) -> list[Spot]:
    """The spots that were put down."""
    return [spot for spot in hand.notebook.spots.values() if spot.id != "elm"]


def test_the_tool_tells_to_have_lines_located(hand: Hand) -> None:
    hand.panel.take("Spot")
    assert "Have buried lines located before you dig (811 in the US)" in hand.words()


@pytest.mark.parametrize(
    ("at_ft", "told"),
    [
        ((54.0, 10.0), "Spot 2, in Back. Enter names it."),
        ((42.0, 10.0), "Spot 2: It lies 2' from the edge of Back: keep 3 ft."),
        ((51.0, 14.0), "Spot 2: It lies 2' from a pet patch: keep 3 ft, for urine changes"),
        ((59.0, 10.0), "Spot 2: It lies 1' 6\" from Gas line: keep 2 ft, and have buried lines"),
        ((17.0, 10.0), "Spot 2: A sprinkler head stands 2' away, with its pipe below"),
        ((80.0, 60.0), "Spot 2: It lies outside of every zone."),
    ],
)
def test_a_spot_is_put_down_wherever_and_what_speaks_against_it_is_told(
    hand: Hand, at_ft: tuple[float, float], told: str
) -> None:
    hand.panel.take("Spot")
    hand.click(at_ft)
    assert [spot.at_ft for spot in new_spots(hand)] == [at_ft]
    assert hand.words().startswith(told)


def test_a_line_goes_before_an_edge_and_the_rest_is_counted(hand: Hand) -> None:
    hand.panel.take("Spot")
    hand.click((63.0, 2.0))
    assert hand.words().startswith("Spot 2: It lies 1' 6\" from Gas line")
    assert "(811 in the United States). 1 more under Next on the Plugs page." in hand.words()
    role = hand.field("words").property("role")
    assert role == "ask"


def test_moving_a_spot_by_mouse_and_by_keys_tells_too(hand: Hand) -> None:
    hand.drag((5, 4), (59.0, 8), off=(0, -15))
    assert hand.notebook.spots["elm"].at_ft == (59.0, 8.0)
    assert hand.words().startswith("Elm: It lies 1' 6\" from Gas line")
    hand.view.setFocus()
    for _ in range(3):
        hand.key(Qt.Key.Key_Left)
    assert hand.notebook.spots["elm"].at_ft == (56.0, 8.0)
    hand.panel.take("Spot")
    hand.panel.take("Pick")
    hand.panel.select("spots", "elm")
    hand.view.setFocus()
    hand.key(Qt.Key.Key_Right)
    hand.key(Qt.Key.Key_Right)
    assert "Gas line" not in hand.words()
    hand.key(Qt.Key.Key_Right)
    assert hand.words().startswith("Elm: It lies 1' 6\" from Gas line")


@pytest.mark.parametrize("name", sorted(PALETTES))
def test_each_kind_that_matters_to_plugs_has_its_own_colour(name: str) -> None:
    kinds: tuple[FeatureKind, ...] = ("house", "bed", "tree", "water", "pet patch", "buried line")
    outline = rectangle_ft((0.0, 0.0), 1.0, 1.0)
    fills = [
        feature_fill(Feature(id=kind, kind=kind, outline_ft=outline), PALETTES[name])
        for kind in kinds
    ]
    assert all(one != other for one, other in combinations(fills, 2))


def test_the_printed_sketch_shows_a_buried_line_in_the_colour_of_warning() -> None:
    notebook = spots_yard()
    marks = sketch_marks(notebook, make_plan(notebook, TODAY)).marks
    lines = [each for each in marks if isinstance(each, Polygon) and each.edge == "bad"]
    assert [bool(each.dash) for each in lines] == [True]


def test_both_kinds_can_be_chosen(hand: Hand) -> None:
    hand.panel.take("Feature")
    box = hand.field("new_feature_kind")
    assert isinstance(box, QComboBox)
    listed = {box.itemText(n) for n in range(box.count())}
    assert {"Pet patch", "Buried line"} <= listed


def test_the_zone_of_a_spot_is_read_whole(hand: Hand) -> None:
    """ "1 Front lawn" once stood as "1 Front law"."""
    hand.panel.take("Spot")
    hand.click((54.0, 10.0))
    box = hand.panel.findChild(QComboBox, "sketch_spot_zone")
    assert box is not None
    # The arrow and the frame take what the box is wider than its letters.
    frame = box.sizeHint().width() - box.fontMetrics().averageCharWidth() * ZONE_LETTERS
    assert box.width() - max(frame, 0) >= box.fontMetrics().horizontalAdvance("1 Front lawn")


def test_every_pin_grows_and_shrinks_with_the_text(hand: Hand, qapp: QApplication) -> None:
    def heights() -> set[int]:
        pins = [each for each in hand.panel.scene.items() if isinstance(each, PinItem)]
        return {each.pixmap().height() for each in pins}

    apply_looks(qapp, Looks(theme="light"))
    before = heights()
    apply_looks(qapp, Looks(theme="light", scale_percent=200))
    assert before
    assert min(heights()) > 1.5 * max(before)
    apply_looks(qapp, Looks(theme="light"))
    assert heights() == before
