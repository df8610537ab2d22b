"""The panel as a whole: colours, labels, furniture, names for a screen reader, leaving."""

import gc
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.charts.palette import DARK, LIGHT
from lawnbook.desk.sketch.items import OutlineItem, scene_point
from lawnbook.desk.sketch.labels import LabelItem
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.desk.sketch.tinting import CHOICES
from lawnbook.desk.sketch.toolbox import TOOLS
from lawnbook.desk.theme import apply_theme
from lawnbook.plan.make import make_plan
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.records import Core, Spot, Zone
from tests.conftest import TODAY
from tests.sketch_hand import Hand, big_yard, sketch_yard, with_north

Key = Qt.Key


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    """A hand on the sketch yard, with its plan shown."""
    core = Core(id="c", spot="elm", date=TODAY, thatch_in=(0.8,), root_depth_in=5.0)
    notebook = sketch_yard()
    notebook = apply(notebook, put(notebook, "cores", core))
    made = Hand.on(notebook, tmp_path)
    made.panel.show_plan(make_plan(notebook, TODAY))
    yield made
    made.close()


def colour_at(hand: Hand, at: Point) -> QColor:
    """The colour of a place on the screen."""
    image = hand.view.viewport().grab().toImage()
    return image.pixelColor(hand.px(at))


def test_zones_wear_the_chosen_colour_and_the_legend_follows(hand: Hand) -> None:
    box = hand.field("colour_by")
    assert isinstance(box, QComboBox)
    seen = set()
    for _ in CHOICES:
        seen.add(colour_at(hand, (27, 17)).name())
        box.setFocus()
        hand.key(Key.Key_Down)
    # Without weather and without a flow all five figures of water are unknown.
    assert len(seen) == len(CHOICES) - 4
    assert box.currentText() == "Nothing"
    assert not hand.field("legend").isVisible()
    hand.key(Key.Key_Home)
    assert hand.field("legend").isVisible()
    assert "Thatch" in hand.field("legend").accessibleDescription()


def test_labels_say_number_name_area_and_figure(hand: Hand) -> None:
    hand.panel.fit()
    words = hand.panel.scene.label_words("zones", "front")
    assert words.startswith("1 Front")
    assert "600 sq ft" in words
    assert "0.80 in" in words
    assert hand.panel.scene.label_words("features", "house") == "house"


def test_labels_keep_clear_of_pins_and_stand_beside_what_is_too_small_for_them(hand: Hand) -> None:
    scene = hand.panel.scene
    hand.panel.fit()
    labels = [i for i in scene.items() if type(i).__name__ == "LabelItem" and i.isVisible()]
    pins = [i for i in scene.items() if type(i).__name__ == "PinItem"]
    assert labels
    assert pins
    for label in labels:
        box = label.deviceTransform(hand.view.viewportTransform()).mapRect(label.boundingRect())
        for pin in pins:
            other = pin.deviceTransform(hand.view.viewportTransform()).mapRect(pin.boundingRect())
            assert not box.intersects(other)
    for _ in range(9):
        hand.view.zoom_by(0.8)
    assert scene.label_words("zones", "back").startswith("2 Back")
    (beside,) = [i for i in scene.items() if isinstance(i, LabelItem) and "2 Back" in i.words()]
    turn = hand.view.viewportTransform()
    zone = turn.mapRect(QRectF(40.0, -20.0, 30.0, 20.0))
    assert not beside.deviceTransform(turn).mapRect(beside.boundingRect()).intersects(zone)


def test_the_theme_can_change_while_it_is_open(hand: Hand) -> None:
    light = colour_at(hand, (-5, -5))
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    apply_theme(app, "dark")
    QApplication.processEvents()
    dark = colour_at(hand, (-5, -5))
    apply_theme(app, "light")
    assert light.lightness() > 230
    assert dark.lightness() < 60
    assert QColor(LIGHT.paper).lightness() > QColor(DARK.paper).lightness()


def test_every_control_has_a_name(hand: Hand) -> None:
    # Fields below the paper are made when they are first shown.
    for tool in TOOLS:
        hand.panel.tool(tool)
    hand.panel.tool("Pick")
    for table in ("zones", "features", "heads", "spots"):
        for record_id in hand.book.notebook.table(table):
            hand.panel.select(table, record_id)
    hand.panel.control.move_wanted.emit()
    kinds = (QAbstractButton, QComboBox, QLineEdit)
    controls = [w for w in hand.panel.findChildren(QWidget) if isinstance(w, kinds)]
    assert len(controls) > 60
    names = [w.objectName() for w in controls]
    assert len(set(names)) == len(names)
    assert all(w.objectName().startswith("sketch_") and w.accessibleName() for w in controls)
    assert hand.view.accessibleName() == "Yard sketch"


def test_the_description_follows_what_is_chosen(hand: Hand) -> None:
    assert hand.view.accessibleDescription().startswith("2 zones, 1 features")
    hand.click((60, 10))
    assert "Zone 2, 600 square feet: Back is chosen" in hand.view.accessibleDescription()


@pytest.mark.parametrize("letter", "zofhst")
def test_a_letter_takes_up_a_tool_and_escape_lays_it_down(hand: Hand, letter: str) -> None:
    hand.type(letter)
    buttons = hand.panel.findChildren(QAbstractButton)
    checked = [b for b in buttons if b.isChecked() and "_tool_" in b.objectName()]
    assert len(checked) == 1
    assert checked[0].objectName() != "sketch_tool_pick"
    assert hand.view.viewport().cursor().shape() == Qt.CursorShape.CrossCursor
    hand.key(Key.Key_Escape)
    pick = hand.field("tool_pick")
    assert isinstance(pick, QAbstractButton)
    assert pick.isChecked()


def test_the_cursor_says_what_a_press_would_do(hand: Hand) -> None:
    cursor = hand.view.viewport().cursor
    hand.move((-10, -10))
    assert cursor().shape() == Qt.CursorShape.ArrowCursor
    hand.move((60, 10))
    assert cursor().shape() == Qt.CursorShape.PointingHandCursor
    hand.click((60, 10))
    hand.move((70, 20))
    assert cursor().shape() == Qt.CursorShape.SizeAllCursor


def test_the_scale_bar_is_as_long_as_it_says(hand: Hand) -> None:
    words = hand.field("scale").accessibleDescription().split()
    assert float(words[3]) == pytest.approx(float(words[0]) * hand.view.px_per_ft, abs=0.6)


def test_north_turns_the_arrow_and_nothing_else(hand: Hand) -> None:
    before = hand.px((30, 20))
    turned = with_north(hand.notebook, 30.0)
    hand.book.edit(put(hand.notebook, "yard", turned.yard), "turn north")
    assert "30°" in hand.field("north").accessibleDescription()
    assert hand.px((30, 20)) == before


def test_undo_redraws_only_what_changed(hand: Hand) -> None:
    def item(record_id: str) -> OutlineItem:
        at = hand.notebook.zones[record_id].outline_ft[0]
        middle = scene_point((at[0] + 12, at[1] + 12))
        return next(i for i in hand.panel.scene.items(middle) if isinstance(i, OutlineItem))

    front, back = item("front"), item("back")
    hand.drag((60, 10), (60, 15))
    assert item("back") is back
    assert item("front") is front
    hand.book.undo()
    assert back.path().boundingRect().bottom() == pytest.approx(0.0)


def test_a_closed_panel_is_told_nothing_more(qtbot: QtBot, tmp_path: Path) -> None:
    hand = Hand.on(sketch_yard(), tmp_path)
    hand.panel.close()
    hand.panel.deleteLater()
    QApplication.sendPostedEvents(None, 52)
    QApplication.processEvents()
    gc.collect()
    hand.book.edit(put(hand.notebook, "spots", Spot(id="new", name="New")), "add New")
    assert "new" in hand.notebook.spots
    hand.book.close()


def test_a_drag_in_a_big_yard_draws_anew_only_what_moves() -> None:
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    apply_theme(app, "light")
    scene = SketchScene(big_yard())
    drawn: list[QRectF] = []
    scene.changed.connect(drawn.extend)
    for step in range(6):
        moved = rectangle_ft((110.0, float(step) * 0.1), 20.0, 20.0)
        scene.show_draft({("zones", "z5"): Zone(id="z5", name="Zone", outline_ft=moved)})
        QApplication.processEvents()
        if step < 2:
            # With the first steps comes out what was put down with the scene itself.
            drawn.clear()
    about = QRectF(110.0, -20.4, 20.0, 20.4).adjusted(-3, -3, 3, 3)
    assert drawn
    assert [each.getRect() for each in drawn if not about.contains(each)] == []


LONGEST = (
    "Sprinkler radius is 400 ft: the most that can be kept is 120 ft; correct it here.",
    "North side lawn lies partly on South side lawn: the ground they share is counted in both.",
    "Call before you dig: lines may be buried. Click the fixed spot where plugs are pulled.",
)


@pytest.mark.parametrize("width", [520, 580, 660])
def test_the_band_below_holds_fields_and_words_and_the_paper_keeps_its_place(
    hand: Hand, width: int
) -> None:
    hand.panel.setFixedWidth(width)
    words = hand.panel.findChild(QLabel, "sketch_words")
    assert words is not None
    seen = set()
    for table, chosen in (
        ("", ""),
        ("zones", "front"),
        ("heads", "head"),
        ("spots", "elm"),
        ("features", "house"),
    ):
        hand.panel.tool("Pick")
        hand.panel.select(table, chosen)
        for tool in ("Pick", "Feature", "Zone"):
            hand.panel.tool(tool)
            for sentence in LONGEST:
                words.setText(sentence)
                QApplication.processEvents()
                assert words.heightForWidth(words.width()) <= words.height(), (table, tool)
            seen.add(hand.view.geometry().getRect())
    assert len(seen) == 1


def test_the_paper_shows_by_its_edge_that_it_has_the_keyboard(hand: Hand) -> None:
    def edge() -> str:
        QApplication.processEvents()
        return hand.view.grab().toImage().pixelColor(hand.view.width() // 2, 0).name()

    hand.view.setFocus()
    assert edge() == LIGHT.accent.lower()
    hand.field("colour_by").setFocus()
    assert edge() == LIGHT.rule.lower()


def test_the_legend_makes_way_for_what_is_drawn_near_it(hand: Hand) -> None:
    corner = hand.field("legend").geometry().center()
    under = hand.view.mapToScene(corner)
    beneath, far = (under.x(), -under.y()), (-10.0, 60.0)
    hand.move(beneath)
    assert hand.field("legend").isVisible(), "a hand that picks hides nothing"
    hand.key(Key.Key_Z)
    hand.click(far)
    hand.move(beneath)
    assert not hand.field("legend").isVisible()
    hand.move(far, (20, 20))
    assert hand.field("legend").isVisible()
    hand.move(beneath)
    hand.key(Key.Key_Escape)
    hand.key(Key.Key_Escape)
    assert hand.field("legend").isVisible()
