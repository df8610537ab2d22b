"""Walk round on the yard page: typed as a list from the yard, and put on the sketch."""

from typing import cast

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QCheckBox, QComboBox, QLineEdit, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.walk_cells import off_words
from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.pages.yard_walk import WalkSection
from lawnbook.desk.sketch.choosing import Choice
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.preview import PreviewItem
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.desk.widgets import Caption
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import area_sqft, lies_inside
from lawnbook.yard.notebook import put
from lawnbook.yard.records import Zone
from tests.desk_hand import child, press, shown, words

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

RETURN, TAB, CONTROL = Qt.Key.Key_Return, Qt.Key.Key_Tab, Qt.KeyboardModifier.ControlModifier


class Hand:
    """The yard page on its section Walk round, with the sketch it works on."""

    def __init__(self, qtbot: QtBot, book: OpenNotebook) -> None:
        self.qtbot, self.book = qtbot, book
        self.scene = SketchScene(book.notebook)
        self.control = SketchControl(book, self.scene, self.scene)
        self.page = YardPage(book, None, self.control)
        shown(qtbot, self.page, book)
        self.page.turn_to("Walk round")
        found = self.page.findChild(WalkSection)
        assert found is not None
        self.section = found

    def lengths(self, *lengths: str) -> None:
        """Type lengths one below the other, from where the keyboard is."""
        for each in lengths:
            press(each, RETURN)

    def start(self) -> None:
        """Take the keyboard to the first side."""
        child(self.page, "walk_side_1").setFocus()

    def wait_for(self, text: str) -> None:
        """Wait until the verdict says so."""
        self.qtbot.waitUntil(lambda: text in words(self.page, "walk_verdict"), timeout=3000)

    def click(self, name: str) -> None:
        """Press a button."""
        QTest.mouseClick(child(self.page, name), Qt.MouseButton.LeftButton)

    def become(self, words_shown: str) -> None:
        """Choose by keys what the walk becomes."""
        box = cast(QComboBox, child(self.page, "walk_into"))
        index = box.findText(words_shown)
        assert index >= 0, words_shown
        box.setFocus()
        QTest.keyClick(box, Qt.Key.Key_Home)
        for _ in range(index):
            QTest.keyClick(box, Qt.Key.Key_Down)
        assert box.currentText() == words_shown

    def ends(self, number: int) -> tuple[str, str]:
        """The corners of a diagonal's row."""
        boxes = (child(self.page, f"walk_{end}_{number}") for end in ("from", "to"))
        start, end = (cast(QComboBox, each).currentText() for each in boxes)
        return start, end

    def preview(self) -> float:
        """How wide what the sketch shows of it is, feet; 0 where it shows nothing."""
        items = [each for each in self.scene.items() if isinstance(each, PreviewItem)]
        return max((each.childrenBoundingRect().width() for each in items), default=0.0)


@pytest.fixture
def hand(qtbot: QtBot, book: OpenNotebook) -> Hand:
    """A hand on the section."""
    return Hand(qtbot, book)


def rectangle(hand: Hand) -> None:
    """40 by 30 ft with both diagonals, all by the keyboard."""
    hand.start()
    hand.lengths("40", "30'", "40 ft", "9.144 m")
    press(RETURN)
    hand.wait_for("A to C")
    hand.lengths("50", "50")
    hand.wait_for("agree")


def test_a_list_from_the_yard_is_typed_by_enter_alone(hand: Hand) -> None:
    rectangle(hand)
    assert words(hand.page, "walk_area").startswith("1,200 ± ")
    assert "140' round" in words(hand.page, "walk_corners")
    assert "1 spare measure" in words(hand.page, "walk_verdict")
    assert words(hand.page, "walk_side_fit_1") == "fits"
    assert hand.ends(2) == ("B", "D")
    assert hand.preview() == pytest.approx(40, abs=2)


def test_measures_that_do_not_agree_are_given_no_sureness(hand: Hand) -> None:
    hand.start()
    hand.lengths("40", "30'", "40 ft", "9.144 m")
    press(RETURN)
    hand.wait_for("A to C")
    hand.lengths("50", "53")
    hand.wait_for("do not agree")
    assert words(hand.page, "walk_area").startswith("about ")
    assert "±" not in words(hand.page, "walk_area")
    assert "within" not in words(hand.page, "walk_corners")


def test_what_is_lacking_is_said_and_proposed(hand: Hand) -> None:
    hand.start()
    hand.lengths("40", "20", "20", "30", "20", "50")
    cast(QCheckBox, child(hand.page, "walk_turn_4")).setFocus()
    press(Qt.Key.Key_Space)
    hand.wait_for("measure 3 more lengths: A to C, D to F and A to D")
    assert not child(hand.page, "walk_put").isEnabled()
    described = child(hand.page, "walk_picture").accessibleDescription()
    assert "6 corners" in described
    assert "to be measured: A to C, D to F, A to D" in described
    assert hand.ends(1) == ("A", "C")


def test_it_becomes_a_zone_in_one_step(hand: Hand) -> None:
    before = hand.book.notebook
    rectangle(hand)
    hand.become("a new zone")
    hand.click("walk_put")
    (fresh,) = [each for key, each in hand.book.notebook.zones.items() if key not in before.zones]
    assert area_sqft(fresh.outline_ft) == pytest.approx(1200, abs=1)
    assert hand.control.choice == Choice("zones", fresh.id)
    assert fresh.name in words(hand.page, "walk_outcome")
    assert hand.control.record() == fresh
    others = [each.outline_ft for each in before.zones.values()]
    assert min(x for x, _ in fresh.outline_ft) > max(x for ring in others for x, _ in ring)
    hand.book.undo()
    assert hand.book.notebook.zones == before.zones


def test_it_becomes_a_feature_where_two_clicks_say(hand: Hand) -> None:
    asked: list[object] = []
    hand.control.line_asked.connect(lambda said, done, snaps: asked.append(done))
    before = set(hand.book.notebook.features)
    rectangle(hand)
    hand.become("paving")
    hand.click("walk_place")
    place = asked[0]
    assert callable(place)
    start: Point = (-60.0, 10.0)
    place(start, (-60.0, 30.0))
    hand.click("walk_put")
    (key,) = set(hand.book.notebook.features) - before
    feature = hand.book.notebook.features[key]
    assert feature.kind == "paving"
    assert feature.outline_ft[0] == start
    assert feature.outline_ft[1] == (-60.0, 50.0)


def test_a_hole_is_cut_out_of_the_chosen_zone(hand: Hand) -> None:
    zone = next(each for each in hand.book.notebook.zones.values() if each.name == "Back lawn")
    hand.control.choose(Choice("zones", zone.id))
    hand.start()
    hand.lengths("5", "4", "5", "4")
    press(RETURN)
    hand.wait_for("A to C")
    hand.lengths("6.4")
    hand.wait_for("Nothing checks")
    hand.become("a hole in Back lawn")
    hand.click("walk_put")
    after = hand.book.notebook.zones[zone.id]
    assert len(after.holes_ft) == len(zone.holes_ft) + 1
    assert lies_inside(after.holes_ft[-1], after.outline_ft)
    assert area_sqft(after.holes_ft[-1]) == pytest.approx(20, abs=0.2)


def test_a_hole_that_is_too_large_is_refused_in_words(hand: Hand) -> None:
    zone = next(each for each in hand.book.notebook.zones.values() if each.name == "West strip")
    hand.control.choose(Choice("zones", zone.id))
    rectangle(hand)
    hand.become("a hole in West strip")
    hand.click("walk_put")
    assert "reaches outside West strip" in words(hand.page, "walk_outcome")
    assert hand.book.notebook.zones[zone.id] == zone


def lone_zone(hand: Hand) -> Zone:
    """A slightly leaning zone drawn by eye, chosen."""
    zone = Zone(id="lone", name="Lone", outline_ft=((200, 0), (240, 0), (243, 30), (203, 30)))
    hand.book.edit(put(hand.book.notebook, "zones", zone), "draw")
    hand.control.choose(Choice("zones", zone.id))
    return zone


def test_a_drawn_shape_is_mended_by_its_taped_diagonals(hand: Hand) -> None:
    zone = lone_zone(hand)
    hand.click("walk_fill")
    assert cast(QLineEdit, child(hand.page, "walk_side_2")).text() == "40'"
    # Its own sides stand; only the diagonals were taped.
    for number, length in ((1, "30"), (3, "30")):
        field = cast(QLineEdit, child(hand.page, f"walk_side_{number}"))
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, length)
    child(hand.page, "walk_diagonal_1").setFocus()
    hand.lengths("50", "50")
    hand.wait_for("agree")
    hand.become(
        "zone Lone, mended" if "zone" in hand.control.name("zones", "lone") else "Lone, mended"
    )
    hand.click("walk_put")
    after = hand.book.notebook.zones[zone.id]
    assert area_sqft(after.outline_ft) == pytest.approx(1200, abs=1)
    assert after.name == zone.name
    for corner in after.outline_ft:
        assert min(abs(corner[0] - x) + abs(corner[1] - y) for x, y in zone.outline_ft) < 3
    hand.book.undo()
    assert hand.book.notebook.zones[zone.id].outline_ft == zone.outline_ft


def test_a_locked_shape_is_not_mended(hand: Hand) -> None:
    zone = lone_zone(hand)
    hand.click("walk_fill")
    child(hand.page, "walk_diagonal_1").setFocus()
    hand.lengths("50")
    hand.wait_for("Nothing checks")
    locked = Zone(id=zone.id, name=zone.name, outline_ft=zone.outline_ft, locked=True)
    hand.book.edit(put(hand.book.notebook, "zones", locked), "lock")
    hand.click("walk_put")
    assert "locked" in words(hand.page, "walk_outcome")
    assert hand.book.notebook.zones[zone.id].outline_ft == zone.outline_ft


def test_a_slip_of_the_tape_is_marked_at_its_row(hand: Hand) -> None:
    rectangle(hand)
    field = cast(QLineEdit, child(hand.page, "walk_diagonal_2"))
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "52")
    hand.wait_for("cannot tell which")
    assert "long" in words(hand.page, "walk_diagonal_fit_2")
    assert child(hand.page, "walk_diagonal_fit_2").property("role") == "refuse"


def test_words_that_are_no_length_are_told_and_marked(hand: Hand) -> None:
    hand.start()
    hand.lengths("40", "thirty", "40")
    hand.wait_for("not a length")
    assert child(hand.page, "walk_side_2").property("state") == "refuse"
    assert hand.preview() == 0


def test_a_triangle_that_cannot_close_is_told(hand: Hand) -> None:
    hand.start()
    hand.lengths("40", "30", "90")
    hand.wait_for("C to A cannot be 90'")


def test_a_corner_is_taken_out_by_keys_and_its_diagonals_follow(hand: Hand) -> None:
    hand.start()
    hand.lengths("40", "20", "20", "30", "20", "50")
    press(RETURN)
    assert hand.ends(1) == ("A", "E")
    hand.lengths("53.8")
    child(hand.page, "walk_side_2").setFocus()
    QTest.keyClick(child(hand.page, "walk_side_2"), Qt.Key.Key_Delete, CONTROL)
    hand.wait_for("1 more length")
    assert hand.section.sides.count == 5
    assert hand.ends(1) == ("A", "D")


def test_the_sketch_shows_it_only_while_the_section_is_open(hand: Hand) -> None:
    rectangle(hand)
    assert hand.preview() > 0
    hand.page.turn_to("Overview")
    assert hand.preview() == 0
    hand.page.turn_to("Walk round")
    assert hand.preview() > 0
    hand.click("walk_clear")
    assert hand.preview() == 0
    assert hand.section.sides.count == 0


def test_every_control_has_a_name_to_speak(hand: Hand) -> None:
    rectangle(hand)
    kinds = (QLineEdit, QComboBox, QCheckBox, QPushButton)
    controls = [each for each in hand.section.findChildren(QWidget) if isinstance(each, kinds)]
    shown_now = [each for each in controls if each.isVisible()]
    assert len(shown_now) > 20
    assert [each for each in shown_now if not each.objectName() or not each.accessibleName()] == []


@pytest.mark.parametrize(
    ("off_in", "said"),
    [(0.04, "fits"), (0.4, "0.4 in long"), (-9.94, "9.9 in short"), (-12.25, "12 in short")],
)
def test_residuals_in_words(off_in: float, said: str) -> None:
    assert off_words(off_in) == said


@pytest.mark.parametrize("way", ["key", "button"])
def test_a_corner_is_put_in_between_and_diagonals_follow(hand: Hand, way: str) -> None:
    """The side B to C was forgotten: what was typed as C becomes D, and so do its diagonals."""
    hand.start()
    hand.lengths("40", "20", "30", "20", "50")
    child(hand.page, "walk_diagonal_1").setFocus()
    before = hand.ends(1)
    press("44")
    field = child(hand.page, "walk_side_2")
    field.setFocus()
    if way == "key":
        press(Qt.Key.Key_Insert)
    else:
        hand.click("walk_side_put_in_2")
    assert hand.section.sides.sides_ft() == (40, None, 20, 30, 20, 50)
    moved = tuple(chr(ord(each) + (each >= "B")) for each in before)
    assert hand.ends(1) == moved
    # The keyboard stands in the new row, so that its length is typed over the question mark.
    press("20")
    assert hand.section.sides.sides_ft() == (40, 20, 20, 30, 20, 50)


def test_a_corner_is_not_put_in_below_the_last_one(hand: Hand) -> None:
    hand.start()
    hand.lengths("40", "30", "50")
    press(Qt.Key.Key_Insert)
    assert hand.section.sides.count == 3
    assert child(hand.page, "walk_side_put_in_4").isHidden()


def test_it_is_said_how_long_what_is_typed_stays(hand: Hand) -> None:
    said = [each.text() for each in hand.section.findChildren(Caption)]
    assert "What is typed stays until the book is closed." in said
    hand.start()
    hand.lengths("40", "30", "50")
    hand.page.turn_to("Overview")
    hand.page.turn_to("Walk round")
    assert hand.section.sides.sides_ft() == (40, 30, 50)
