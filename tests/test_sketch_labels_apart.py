"""No two words on the sketch ever overlap: random yards at random zooms, on screen and on paper."""

import itertools
import math
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QTransform
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from lawnbook.charts.marks import Disc, Frame, Words, rough_width
from lawnbook.charts.sketch_marks import sketch_marks
from lawnbook.desk.sketch.choosing import Choice
from lawnbook.desk.sketch.items import PinItem
from lawnbook.desk.sketch.labels import LabelItem
from lawnbook.desk.sketch.lengths import LengthItem
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.desk.theme import apply_theme
from lawnbook.plan.make import make_plan
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import contains, rectangle_ft
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.records import Feature, Head, Spot, Zone
from tests.conftest import TODAY
from tests.sketch_hand import Hand, big_yard

NAMES = ("Front", "Back lawn", "Strip along the drive", "Ny", "Croquet ground by the old beech")


@st.composite
def outlines(draw: st.DrawFn) -> Outline:
    """A rectangle, or a ring of up to nine corners about a point."""
    at = (draw(st.floats(-150, 150)), draw(st.floats(-150, 150)))
    if draw(st.booleans()):
        return rectangle_ft(at, draw(st.floats(1, 80)), draw(st.floats(1, 80)))
    reach, corners = draw(st.floats(1, 40)), draw(st.integers(3, 9))
    turns = [2 * math.pi * each / corners for each in range(corners)]
    return tuple((at[0] + reach * math.cos(a), at[1] + reach * math.sin(a)) for a in turns)


@st.composite
def yards(draw: st.DrawFn) -> Notebook:
    """Up to fifteen zones, which may overlap, and some features, heads and spots."""
    zones = [
        Zone(id=f"z{i}", name=f"{draw(st.sampled_from(NAMES))} {i}", outline_ft=each)
        for i, each in enumerate(draw(st.lists(outlines(), min_size=1, max_size=15)))
    ]
    features = [
        Feature(id=f"f{i}", kind="bed", name=draw(st.sampled_from(("", *NAMES))), outline_ft=each)
        for i, each in enumerate(draw(st.lists(outlines(), max_size=4)))
    ]
    places = st.tuples(st.floats(-150, 150), st.floats(-150, 150))
    heads = [
        Head(id=f"h{i}", zone="z0", at_ft=at)
        for i, at in enumerate(draw(st.lists(places, max_size=8)))
    ]
    spots = [
        Spot(id=f"s{i}", name=f"spot {i}", zone="z0", at_ft=at)
        for i, at in enumerate(draw(st.lists(places, max_size=12)))
    ]
    notebook = new_notebook("Random")
    rows = (("zones", zones), ("features", features), ("heads", heads), ("spots", spots))
    for table, records in rows:
        notebook = apply(notebook, put(notebook, table, *records))
    return notebook


def boxes(scene: SketchScene, zoom: float) -> list[tuple[str, QRectF]]:
    """Where words stand, in pixels: labels, names of pins, and lengths that stand level."""
    found: list[tuple[str, QRectF]] = []
    for item in scene.items():
        at = item.pos() * zoom
        if isinstance(item, LabelItem) and item.isVisible():
            found.append((item.words(), item.boundingRect().translated(at)))
        elif isinstance(item, PinItem) and item.isVisible() and item.named:
            found.append((item.name, item.name_rect().translated(at)))
        elif isinstance(item, LengthItem) and item.isVisible() and not item.rotation() % 90:
            found.append(("length", item.turned_rect().translated(at)))
    return found


def overlaps(scene: SketchScene, zoom: float) -> list[tuple[str, str]]:
    """The words that overlap each other, and those that lie on a pin that is not their own."""
    placed = boxes(scene, zoom)
    found = [
        (one, other)
        for (one, a), (other, b) in itertools.combinations(placed, 2)
        if a.intersects(b) and {one, other} != {"length"}
    ]
    pins = [each for each in scene.items() if isinstance(each, PinItem)]
    bodies = [(pin.name, pin.body_rect().translated(pin.pos() * zoom)) for pin in pins]
    for words, box in placed:
        if words != "length":
            found += [(words, pin) for pin, body in bodies if pin != words and box.intersects(body)]
    return found


ZOOMS = st.floats(0.4, 40.0)


@settings(deadline=None, max_examples=40)
@given(notebook=yards(), zoom=ZOOMS, step=st.floats(0.5, 2.0))
def test_no_two_words_overlap_at_rest_or_while_zooming(
    qapp: QApplication, notebook: Notebook, zoom: float, step: float
) -> None:
    apply_theme(qapp, "light")
    scene = SketchScene(notebook)
    scene.show_zoom(QTransform.fromScale(zoom, zoom))
    scene.settle_labels()
    assert overlaps(scene, zoom) == []
    scene.show_choice(Choice("zones", "z0"))
    assert overlaps(scene, zoom) == []
    passing = min(max(zoom * step, 0.4), 240.0)
    scene.show_zoom(QTransform.fromScale(passing, passing), passing=True)
    moving = [each for each in boxes(scene, passing) if each[0] != "length"]
    assert [
        (one, other)
        for (one, a), (other, b) in itertools.combinations(moving, 2)
        if a.intersects(b)
    ] == []
    scene.settle_labels()
    assert overlaps(scene, passing) == []
    scene.deleteLater()


@pytest.mark.parametrize("zoom", [0.6, 2.5, 8.0, 20.0])
def test_not_among_two_hundred_zones(qapp: QApplication, zoom: float) -> None:
    apply_theme(qapp, "light")
    scene = SketchScene(big_yard())
    scene.show_zoom(QTransform.fromScale(zoom, zoom))
    assert overlaps(scene, zoom) == []
    assert len(boxes(scene, zoom)) >= 5
    scene.deleteLater()


@settings(deadline=None, max_examples=40)
@given(notebook=yards(), width=st.floats(160, 500))
def test_nor_on_paper(notebook: Notebook, width: float) -> None:
    picture = sketch_marks(notebook, make_plan(notebook, TODAY), frame=Frame(width, 220.0))
    words = [each for each in picture.marks if isinstance(each, Words)]
    placed = [(each.text, _printed(each)) for each in words]
    crossed = [
        (one, other)
        for (one, a), (other, b) in itertools.combinations(placed, 2)
        if a.intersects(b)
    ]
    assert crossed == []
    dots = [each for each in picture.marks if isinstance(each, Disc) and each.radius == 2.5]
    for text, box in placed:
        assert not [dot for dot in dots if box.contains(QPointF(*dot.at))], text


def _printed(words: Words) -> QRectF:
    """The box of printed words, by the rough width that also places them."""
    wide, (x, base) = rough_width(words.text, words.size) - 0.5, words.at
    left = x - {"left": 0.0, "center": wide / 2, "right": wide}[words.align]
    return QRectF(left, base - words.size * 0.7, wide, words.size * 0.7)


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    made = Hand.on(slim_yard(), tmp_path)
    yield made
    made.close()


def slim_yard() -> Notebook:
    """Strips 2 ft wide: three lie alone, two between broad zones with no paper beside."""
    alone = [
        Zone(id=f"a{i}", name=f"Alone {i}", outline_ft=rectangle_ft((0.0, i * 25.0), 30.0, 2.0))
        for i in range(3)
    ]
    broad = [
        Zone(
            id=f"b{i}",
            name=f"Broad {i}",
            outline_ft=rectangle_ft((120.0 + i * 62, -150.0), 60.0, 350.0),
        )
        for i in range(3)
    ]
    between = [
        Zone(
            id=f"c{i}",
            name=f"Lost {i}",
            outline_ft=rectangle_ft((180.0 + i * 62, 0.0), 2.0, 40.0),
        )
        for i in range(2)
    ]
    notebook = new_notebook("Slim")
    return apply(notebook, put(notebook, "zones", *alone, *broad, *between))


def test_a_name_that_does_not_fit_stands_beside_its_zone_by_a_leader(hand: Hand) -> None:
    hand.panel.fit()
    zone = hand.zone("a1")
    (label,) = [
        each
        for each in hand.panel.scene.items()
        if isinstance(each, LabelItem) and "Alone 1" in each.words()
    ]
    assert label.led
    anchor: Point = (label.pos().x(), -label.pos().y())
    assert contains(zone.outline_ft, anchor)
    turn = hand.view.viewportTransform()
    box = label.deviceTransform(turn).mapRect(label.boundingRect())
    drawn = [
        QRectF(turn.mapRect(_scene_box(each.outline_ft))) for each in hand.notebook.zones.values()
    ]
    assert not [each for each in drawn if each.intersects(box)]
    assert hand.view.viewport().rect().contains(box.toAlignedRect())


def test_what_finds_no_place_is_counted_and_told_where_the_pointer_lies(hand: Hand) -> None:
    hand.panel.fit()
    assert hand.panel.scene.label_words("zones", "c0") == ""
    left_out = hand.field("left_out")
    assert left_out.isVisible()
    assert left_out.accessibleDescription() == "2 names left out; zoom in"
    hand.move((181.0, 20.0))
    assert hand.said("bubble") == "Lost 0, 80 sq ft"
    hand.view.fit((175.0, 0.0, 190.0, 12.0))
    assert "Lost 0" in hand.panel.scene.label_words("zones", "c0")
    assert not left_out.isVisible()


def test_labels_are_placed_anew_when_the_zoom_rests(hand: Hand, qtbot: QtBot) -> None:
    hand.panel.fit()
    placed: list[int] = []
    hand.panel.scene.left_out.connect(placed.append)
    hand.view.zoom_by(1.3)
    hand.view.zoom_by(1.3)
    assert placed == []
    qtbot.waitUntil(lambda: bool(placed))
    assert len(placed) == 1


def _scene_box(outline: Outline) -> QRectF:
    xs, ys = [x for x, _ in outline], [-y for _, y in outline]
    return QRectF(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))
