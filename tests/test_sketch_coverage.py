"""The sprinkler rate on the sketch: figures against the plan's map, colours, words, drags."""

import itertools
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QColor, QTransform
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from lawnbook.agronomy.coverage import Grid
from lawnbook.charts.palette import DARK, LIGHT, Palette
from lawnbook.desk.sketch.rate_scale import rate_colours
from lawnbook.desk.sketch.rate_words import figures, label_words, point_words
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.desk.sketch.tinting import rate_legend, tints
from lawnbook.desk.theme import apply_theme
from lawnbook.plan.coverage import coverage_of, map_of_head, rates_at
from lawnbook.plan.day_figures import plan_figures
from lawnbook.plan.make import make_plan
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.records import Head, Record, Zone
from tests.conftest import TODAY
from tests.sketch_hand import Hand, sketch_yard, watered_yard
from tests.test_sketch_colours import contrast, luminance


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    notebook = watered_yard()
    made = Hand.on(notebook, tmp_path)
    made.panel.show_plan(make_plan(notebook, TODAY))
    made.panel.colour_by("Sprinkler rate")
    yield made
    made.close()


def colour_at(hand: Hand, at: Point) -> QColor:
    image = hand.view.viewport().grab().toImage()
    return image.pixelColor(hand.px(at))


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda each: each.name)
def test_steps_run_one_way_and_dry_and_wet_stand_out(palette: Palette) -> None:
    colours = rate_colours(palette)
    lights = [luminance(each) for each in colours.steps]
    runs = [b - a for a, b in itertools.pairwise(lights)]
    assert all(run < -0.05 for run in runs) or all(run > 0.005 for run in runs)
    # Told apart by lightness, and from a blue as light by hue (common practice).
    assert contrast(colours.dry, colours.wet) >= 1.3
    for step in colours.steps:
        for mark in (colours.dry, colours.wet):
            hue = (QColor(mark).hue() - QColor(step).hue()) % 360
            assert contrast(mark, step) >= 1.3 or 60 <= hue <= 300
    # WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for text.
    assert contrast(colours.on_dry, colours.dry) >= 4.5
    assert contrast(colours.on_wet, colours.wet) >= 4.5
    for inside, beyond in zip(colours.inside[1:], colours.beyond[1:], strict=True):
        assert inside.alpha() > beyond.alpha()


def test_the_legend_tells_borders_dry_and_wet() -> None:
    shown = rate_legend((0.2, 0.4, 0.6, 0.8), LIGHT, cans=True)
    assert shown.borders == ("0.2", "0.4", "0.6", "0.8")
    assert len(shown.colours) == 5
    assert [words for _, words in shown.beside] == ["under ½ mean", "over 1½ mean"]
    assert "Cans" in shown.note
    assert rate_legend((0.2, 0.4, 0.6, 0.8), LIGHT, cans=False).note == ""


def with_flows(notebook: Notebook, *flows: float | None) -> Notebook:
    """Heads in the back zone with these flows."""
    heads = [
        Head(id=f"b{i}", zone="back", at_ft=(45.0 + 10 * i, 10.0), flow_gpm=flow)
        for i, flow in enumerate(flows)
    ]
    return apply(notebook, put(notebook, "heads", *heads))


@pytest.mark.parametrize(
    ("flows", "words"),
    [
        ((), "no heads"),
        ((None,), "1 head without flow"),
        ((None, None), "2 heads without flow"),
        ((1.0, None, None), ", 2 heads without flow"),
        ((1.0, 1.0), "% outside"),
    ],
)
def test_a_label_says_evenness_waste_or_what_is_missing(
    flows: tuple[float | None, ...], words: str
) -> None:
    notebook = with_flows(sketch_yard(), *flows)
    said, known = label_words(notebook, notebook.zones["back"])
    assert said.endswith(words)
    assert known == any(flows)
    assert said.startswith("DU 0.") == known
    made = tints(notebook, plan_figures(make_plan(notebook, TODAY)), "Sprinkler rate", LIGHT)[
        "back"
    ]
    assert (made.words, made.unknown) == (said, not known)


@pytest.mark.parametrize(
    ("du", "waste", "words"),
    [
        (0.584, 0.118, "DU 0.58, 12 % outside"),
        (0.6, 0.004, "DU 0.60, <1 % outside"),
        (1.0, 0.0, "DU 1.00, 0 % outside"),
    ],
)
def test_figures_in_few_words(du: float, waste: float, words: str) -> None:
    assert figures(du, waste) == words


def test_words_at_a_point_are_those_of_the_map() -> None:
    notebook = watered_yard()
    at = (14.0, 9.0)
    (rate,) = rates_at(notebook, [at])
    coverage = coverage_of(notebook, notebook.zones["front"])
    assert coverage is not None
    times = rate / coverage.mean_in_per_h
    assert point_words(notebook, at) == f"{rate:.2f} in/h, {times:.1f} × the zone's mean"
    assert point_words(notebook, (32.0, 10.0)).endswith("in/h outside the zones")
    assert point_words(notebook, (60.0, 10.0)) == ""
    assert point_words(notebook, (-18.0, -18.0)) == ""
    long = replace(notebook.zones["front"], outline_ft=rectangle_ft((-18.0, 0.0), 48.0, 20.0))
    longer = apply(notebook, put(notebook, "zones", long))
    assert point_words(longer, (-17.0, 10.0)) == "no water here"
    near = Zone(id="near", name="Near", outline_ft=rectangle_ft((31.0, 0.0), 8.0, 20.0))
    beside = apply(notebook, put(notebook, "zones", near))
    assert point_words(beside, (32.0, 10.0)).endswith("in/h from another zone's heads")


def test_the_map_is_drawn_in_the_zone_and_fainter_beyond_it(hand: Hand) -> None:
    plain = colour_at(hand, (60, 10))
    wet, beyond = colour_at(hand, (14, 10)), colour_at(hand, (33, 10))
    nothing = colour_at(hand, (-10, -12))
    assert len({wet.name(), beyond.name(), nothing.name(), plain.name()}) == 4
    assert wet.lightness() < beyond.lightness() <= nothing.lightness()
    said = hand.field("legend").accessibleDescription()
    assert said.startswith("Sprinkler rate, in/h")
    assert "under ½ mean" in said
    hand.panel.colour_by("Nothing")
    assert colour_at(hand, (33, 10)).lightness() >= beyond.lightness()
    assert not hand.field("legend").isVisible()


def test_a_screen_reader_hears_the_figures_of_the_chosen_zone(hand: Hand) -> None:
    hand.panel.select("zones", "front")
    words, _ = label_words(hand.notebook, hand.zone("front"))
    said = hand.view.accessibleDescription()
    assert said.startswith(f"Zone 1, 600 square feet, {words}: Front is chosen")


def test_a_dry_corner_wears_the_colour_of_dry_ground(hand: Hand) -> None:
    dry = QColor(rate_colours(LIGHT).dry)
    seen = colour_at(hand, (29.0, 1.0))
    assert abs(seen.hue() - dry.hue()) < 8
    assert seen.saturation() > 80


def test_the_bubble_tells_the_rate_under_the_pointer(hand: Hand) -> None:
    hand.move((14, 9))
    assert hand.said("bubble") == point_words(hand.notebook, pointed(hand, (14, 9)))
    assert "the zone's mean" in hand.said("bubble")
    hand.panel.colour_by("Thatch")
    hand.move((14, 10))
    assert not hand.field("bubble").isVisible()


def pointed(hand: Hand, at: Point) -> Point:
    """The place of the pixel that a pointer goes to."""
    seen = hand.view.mapToScene(hand.px(at))
    return (seen.x(), -seen.y())


def test_a_drag_tells_evenness_and_waste_and_the_label_follows(hand: Hand) -> None:
    hand.panel.select("heads", "h3")
    before = hand.panel.scene.label_words("zones", "front")
    hand.press((27, 10))
    hand.move((30, 10))
    hand.move((35, 10))
    said = hand.said("bubble")
    assert "DU 0." in said
    assert "% outside" in said
    hand.release((35, 10))
    told = coverage_of(hand.notebook, hand.zone("front"))
    assert told is not None
    live = dict(part.split(" ", 1) for part in said.split("  ·  ")[1].split(", ") if "DU" in part)
    assert float(live["DU"]) == pytest.approx(told.du_lq, abs=0.02)
    words, _ = label_words(hand.notebook, hand.zone("front"))
    assert hand.panel.scene.label_words("zones", "front") != before or words in before


def test_dragging_recomputes_no_other_head_and_leaves_no_timer(
    hand: Hand, monkeypatch: pytest.MonkeyPatch
) -> None:
    computed: list[str] = []

    def counting(head: Head, grid: Grid) -> object:
        computed.append(head.id)
        return map_of_head(head, grid)

    monkeypatch.setattr("lawnbook.desk.sketch.rate_field.map_of_head", counting)
    timers = len(hand.panel.findChildren(QTimer))
    hand.drag((8, 8), (12, 11))
    assert set(computed) == {"h0"}
    assert len(hand.panel.findChildren(QTimer)) == timers


def test_esc_puts_the_water_back_as_it_was(hand: Hand) -> None:
    before = hand.view.viewport().grab().toImage()
    hand.press((8, 8))
    hand.move((12, 11))
    hand.move((18, 11))
    hand.key(Qt.Key.Key_Escape)
    hand.release((18, 11))
    hand.panel.select("", "")
    hand.move((-15, -15))
    QApplication.processEvents()
    assert hand.view.viewport().grab().toImage() == before


def many_heads() -> Notebook:
    """Four zones with ten heads each."""
    notebook = new_notebook("Forty")
    zones = [
        Zone(
            id=f"z{i}",
            name=f"Zone {i}",
            outline_ft=rectangle_ft((i % 2 * 65.0, i // 2 * 45.0), 60.0, 40.0),
        )
        for i in range(4)
    ]
    heads = [
        Head(
            id=f"h{i}",
            zone=f"z{i % 4}",
            at_ft=(i % 2 * 65.0 + i // 4 % 5 * 15.0, i % 4 // 2 * 45.0 + i // 20 * 20.0 + 10.0),
            radius_ft=15.0,
            flow_gpm=2.0,
        )
        for i in range(40)
    ]
    notebook = apply(notebook, put(notebook, "zones", *zones))
    return apply(notebook, put(notebook, "heads", *heads))


def test_every_step_of_a_drag_among_forty_heads_tells_what_the_zone_gets() -> None:
    """What a step costs is measured by the benchmarks."""
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    apply_theme(app, "light")
    notebook = many_heads()
    scene = SketchScene(notebook)
    scene.show_zoom(QTransform.fromScale(5, 5))
    scene.show_figures(plan_figures(make_plan(notebook, TODAY)))
    scene.colour_by("Sprinkler rate")
    head = notebook.heads["h7"]
    told = set()
    for number in range(15):
        moved: Record = replace(head, at_ft=(head.at_ft[0] + number * 2.0, head.at_ft[1]))
        draft = {("heads", "h7"): moved}
        scene.show_draft(draft)
        told.add(scene.water.live_words(draft))
    assert all(told)
    assert len(told) > 1
