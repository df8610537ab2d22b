"""Strips without feed on the sketch: drawn, told, kept up with edits and drags, and undone."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from lawnbook.charts.palette import DARK, LIGHT, Palette
from lawnbook.desk.sketch.choosing import Choice
from lawnbook.desk.sketch.colour_scales import SCALES
from lawnbook.desk.sketch.items import OutlineItem
from lawnbook.desk.sketch.labels import LabelItem
from lawnbook.desk.sketch.strip_items import StripItem
from lawnbook.desk.theme import apply_theme, mix
from lawnbook.plan.strips import ZoneStrips, strips_of
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.records import Feature
from tests.sketch_hand import Hand, sketch_yard
from tests.test_sketch_colours import contrast

BROOK = Feature(
    id="brook",
    kind="water",
    name="brook",
    outline_ft=rectangle_ft((-10.0, -12.0), 60.0, 10.0),
    no_spread_ft=8.0,
)
TOLD = "8 ft along brook: nothing is spread"


def brook_yard() -> Notebook:
    """The sketch yard on a brook 2 ft south of it: its strip takes 6 ft of both zones."""
    notebook = sketch_yard()
    return apply(notebook, put(notebook, "features", BROOK))


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    made = Hand.on(brook_yard(), tmp_path)
    yield made
    made.close()


def drawn(hand: Hand) -> list[StripItem]:
    return [each for each in hand.panel.scene.items() if isinstance(each, StripItem)]


def height_ft(hand: Hand) -> float:
    """How far up the strip of the front zone reaches: that zone's strip begins at x = 0."""
    (front,) = [each for each in drawn(hand) if each.path().boundingRect().left() < 1]
    return -front.path().boundingRect().top()


def test_the_strip_is_drawn_in_each_zone_that_it_reaches(hand: Hand) -> None:
    for item, zone in zip(drawn(hand)[::-1], hand.notebook.zones.values(), strict=True):
        (ring,) = strips_of(hand.notebook, zone).rings_ft
        bounds = item.path().boundingRect()
        xs, ys = zip(*ring, strict=True)
        assert (bounds.left(), bounds.right()) == pytest.approx((min(xs), max(xs)))
        assert (-bounds.bottom(), -bounds.top()) == pytest.approx((min(ys), max(ys)))
    assert height_ft(hand) == pytest.approx(6.0)


def test_a_yard_without_strips_has_none(qtbot: QtBot, tmp_path: Path) -> None:
    plain = Hand.on(sketch_yard(), tmp_path)
    assert drawn(plain) == []
    assert "nothing is spread" not in plain.view.accessibleDescription()
    plain.close()


def test_it_lies_over_zones_and_under_labels_and_features(hand: Hand) -> None:
    hand.panel.select("zones", "front")
    strips = drawn(hand)
    items = hand.panel.scene.items()
    labels = [each for each in items if isinstance(each, LabelItem)]
    outlines = [each for each in items if isinstance(each, OutlineItem)]
    zones = [each for each in outlines if each.zValue() < 20]
    features = [each for each in outlines if each.zValue() >= 20]
    assert len(zones) == 2
    assert len(features) == 2
    for strip in strips:
        assert max(each.zValue() for each in zones) < strip.zValue()
        assert strip.zValue() < min(each.zValue() for each in [*features, *labels])


def test_the_pointer_is_told_what_holds_there(hand: Hand) -> None:
    bubble = hand.field("bubble")
    assert isinstance(bubble, QLabel)
    hand.move((20.0, 3.0))
    assert (bubble.text(), bubble.isVisible()) == (TOLD, True)
    hand.move((20.0, 9.0))
    assert not bubble.isVisible()


def test_a_screen_reader_is_told_of_the_chosen_zone_or_of_all(hand: Hand) -> None:
    assert f"{TOLD}. " in hand.view.accessibleDescription()
    far = replace(hand.zone("back"), outline_ft=rectangle_ft((40.0, 20.0), 30.0, 20.0))
    hand.book.edit(put(hand.notebook, "zones", far), "move Back")
    hand.panel.select("zones", "back")
    assert TOLD not in hand.view.accessibleDescription()
    hand.panel.select("zones", "front")
    assert f"{TOLD}. " in hand.view.accessibleDescription()


def test_another_width_is_drawn_at_once_and_undone(hand: Hand) -> None:
    hand.book.edit(
        put(hand.notebook, "features", replace(BROOK, no_spread_ft=12.0)), "widen the strip"
    )
    assert height_ft(hand) == pytest.approx(10.0)
    hand.book.edit(put(hand.notebook, "features", replace(BROOK, no_spread_ft=None)), "no strip")
    assert drawn(hand) == []
    hand.book.undo()
    hand.book.undo()
    assert height_ft(hand) == pytest.approx(6.0)


def test_a_rule_for_all_water_widens_it(hand: Hand) -> None:
    rules = replace(hand.notebook.n_rules, waterside_ft=15.0)
    hand.panel.scene.show_book(replace(hand.notebook, n_rules=rules))
    assert height_ft(hand) == pytest.approx(13.0)


def test_it_follows_what_is_dragged_and_goes_back_with_it(hand: Hand) -> None:
    scene = hand.panel.scene
    nearer = rectangle_ft((-10.0, -11.0), 60.0, 10.0)
    scene.show_draft({("features", "brook"): replace(BROOK, outline_ft=nearer)})
    assert height_ft(hand) == pytest.approx(7.0)
    higher = replace(hand.zone("front"), outline_ft=rectangle_ft((0.0, 4.0), 30.0, 20.0))
    scene.show_draft({("zones", "front"): higher})
    assert height_ft(hand) == pytest.approx(6.0)
    away = replace(higher, outline_ft=rectangle_ft((0.0, 30.0), 30.0, 20.0))
    scene.show_draft({("zones", "front"): away})
    assert len(drawn(hand)) == 1
    scene.show_draft({})
    assert len(drawn(hand)) == 2
    assert height_ft(hand) == pytest.approx(6.0)


def test_a_step_of_a_drag_leaves_the_other_strips_alone(
    hand: Hand, monkeypatch: pytest.MonkeyPatch
) -> None:
    shown: list[StripItem] = []
    show = StripItem.show_strips

    def note(item: StripItem, found: ZoneStrips, palette: Palette) -> None:
        shown.append(item)
        show(item, found, palette)

    monkeypatch.setattr(StripItem, "show_strips", note)
    scene = hand.panel.scene
    scene.show_choice(Choice("zones", "front"))
    assert shown == []
    wider = replace(hand.zone("front"), outline_ft=rectangle_ft((0.0, 0.0), 31.0, 20.0))
    scene.show_draft({("zones", "front"): wider})
    assert len(shown) == 1


def test_the_map_of_the_sprinkler_rate_goes_without(hand: Hand) -> None:
    hand.panel.colour_by("Sprinkler rate")
    assert drawn(hand) == []
    assert "nothing is spread" not in hand.panel.scene.told_at((20.0, 3.0))
    hand.panel.colour_by("Thatch")
    assert len(drawn(hand)) == 2


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda each: each.name)
def test_it_is_drawn_in_the_ink_of_the_palette(hand: Hand, palette: Palette) -> None:
    """Dashed along the border, hatched below it, and plain turf above."""
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    apply_theme(app, "dark" if palette is DARK else "light")
    QApplication.processEvents()
    assert {each.pen().color().name() for each in drawn(hand)} == {palette.ink}
    image = hand.view.viewport().grab().toImage()

    def colours(y_ft: float) -> set[str]:
        at = hand.px((24.5, y_ft))
        return {image.pixelColor(at.x() + dx, at.y()).name() for dx in range(32)}

    (plain,) = colours(17.0)
    assert plain in colours(3.0)
    most = [max(contrast(each, plain) for each in colours(y_ft)) for y_ft in (3.0, 6.0)]
    assert 1.2 < most[0] < most[1]


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda each: each.name)
def test_the_border_is_seen_on_every_colour_of_a_zone(palette: Palette) -> None:
    # WCAG 2.2, success criterion 1.4.11: 3 to 1 for what is needed to understand a picture.
    for scale in SCALES.values():
        for step in scale.colours(palette):
            assert contrast(mix(step, palette.ink, 0.75), step) >= 3.0
