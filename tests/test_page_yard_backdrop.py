"""The Backdrop section of the yard page beside its sketch, driven by mouse and keys."""

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QSlider, QWidget

from lawnbook.desk.pages import yard_backdrop
from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.pages.yard_backdrop import BackdropSection
from lawnbook.plan.make import make_plan
from lawnbook.yard.backdrops import place_ft
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Notebook, new_notebook, put
from lawnbook.yard.records import Backdrop
from tests.backdrop_pictures import aerial, as_jpeg, with_backdrop
from tests.conftest import TODAY
from tests.page_book import click, part, put_away, settle, text_of, type_into, unnamed
from tests.photo_files import halves, huge_jpeg, written
from tests.sketch_hand import Hand, sketch_yard

LEFT, SHIFT = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ShiftModifier


class Desk:
    """A sketch, and the yard page at Backdrop beside it."""

    def __init__(self, notebook: Notebook, folder: Path) -> None:
        self.hand = Hand.on(notebook, folder)
        self.book = self.hand.book
        self.page = YardPage(self.book, control=self.hand.panel.control)
        self.page.resize(620, 1200)
        self.book.subscribe(lambda _: self.page.show_plan(make_plan(self.book.notebook, TODAY)))
        self.page.show_plan(make_plan(self.book.notebook, TODAY))
        self.page.turn_to("Backdrop")
        self.page.show()
        settle()

    @property
    def section(self) -> BackdropSection:
        """The section itself."""
        return part(self.page, BackdropSection, "yard_backdrop")

    @property
    def held(self) -> Backdrop:
        """The backdrop in hand."""
        backdrop = self.section.hand.backdrop
        assert backdrop is not None
        return backdrop

    def place(self, u: float, v: float) -> Point:
        """Where a place of the picture in hand lies."""
        return place_ft(self.held, (u, v))

    def line(self, a: Point, b: Point) -> None:
        """Answer with two clicks on the sketch."""
        self.hand.panel.activateWindow()
        self.hand.click(a)
        self.hand.click(b)
        self.page.activateWindow()
        settle()

    def said(self) -> str:
        """What became of the last thing done."""
        return text_of(self.page, "backdrop_said")

    def until_read(self) -> None:
        """Until the pictures are read."""
        for _ in range(1000):
            if not self.section.intake.is_reading:
                break
            QTest.qWait(10)
        assert not self.section.intake.is_reading
        settle()

    def close(self) -> None:
        """Put all away."""
        put_away(self.page)
        self.hand.close()


@pytest.fixture
def desk_of(tmp_path: Path) -> Iterator[Callable[[Notebook], Desk]]:
    """Makes a desk of a notebook, and clears it afterwards."""
    made: list[Desk] = []

    def make(notebook: Notebook) -> Desk:
        made.append(Desk(notebook, tmp_path))
        return made[-1]

    yield make
    QApplication.clipboard().clear()
    for each in made:
        each.close()


@pytest.fixture
def desk(desk_of: Callable[[Notebook], Desk]) -> Desk:
    """The sketch yard with a picture of 800 by 600 pixels under it."""
    return desk_of(with_backdrop(sketch_yard(), aerial(800, 600)))


def control(desk: Desk, name: str) -> QWidget:
    """A control of the page."""
    return part(desk.page, QWidget, name)


def test_an_empty_section_asks_for_a_picture_only(desk_of: Callable[[Notebook], Desk]) -> None:
    desk = desk_of(sketch_yard())
    assert control(desk, "backdrop_open").isVisible()
    for name in ("backdrop_list", "backdrop_fade", "backdrop_set_scale", "backdrop_move"):
        assert not control(desk, name).isVisible(), name


def test_a_picture_is_opened_and_set_under_the_yard(
    desk_of: Callable[[Notebook], Desk], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_of(sketch_yard())
    good, bad = tmp_path / "Aerial 2025.jpg", tmp_path / "bomb.jpg"
    good.write_bytes(as_jpeg(aerial(400, 300)))
    bad.write_bytes(huge_jpeg(65_500, 65_500))
    monkeypatch.setattr(yard_backdrop, "choose_backdrop", lambda *_: (good,))
    click(desk.page, "backdrop_open")
    assert text_of(desk.page, "backdrop_busy") == "Reading Aerial 2025.jpg…"
    desk.until_read()
    assert (desk.held.name, desk.held.fade) == ("Aerial 2025", 0.4)
    assert "Set its scale next" in desk.said()
    assert "a guess" in text_of(desk.page, "backdrop_scale_words")
    before = desk.book.notebook
    monkeypatch.setattr(yard_backdrop, "choose_backdrop", lambda *_: (bad,))
    click(desk.page, "backdrop_open")
    desk.until_read()
    assert "megapixels" in desk.said()
    assert desk.book.notebook is before
    desk.book.undo()
    assert desk.book.notebook.backdrops == {}


def test_a_picture_is_pasted_by_key(desk_of: Callable[[Notebook], Desk]) -> None:
    desk = desk_of(new_notebook("Home"))
    control(desk, "backdrop_open").setFocus()
    QTest.keyClick(
        control(desk, "backdrop_open"), Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier
    )
    assert "Nothing to paste" in desk.said()
    image = QImage(64, 48, QImage.Format.Format_RGB32)
    image.fill(QColor("navy"))
    QApplication.clipboard().setImage(image)
    desk.page.activateWindow()
    QTest.keyClick(
        control(desk, "backdrop_open"), Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier
    )
    desk.until_read()
    assert desk.held.name == "Pasted picture"
    assert (desk.held.width_px, desk.held.height_px) == (64, 48)


def test_two_clicks_and_a_tape_set_the_scale(desk: Desk) -> None:
    a, b = desk.place(0.4, 0.35), desk.place(0.6, 0.35)
    click(desk.page, "backdrop_set_scale")
    assert "distance you have measured" in desk.hand.words()
    desk.line(a, b)
    assert control(desk, "backdrop_measure_length").hasFocus()
    before = desk.held
    field = type_into(desk.page, "backdrop_measure_length", "32' 6 quarters")
    assert desk.held == before
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "32' 6\"")
    QTest.keyClick(field, Qt.Key.Key_Return)
    held = desk.held
    assert held.scale_ft == 32.5
    assert held.scale_ends is not None
    # A click is good to a pixel of the screen, here an eighth of a foot, six pixels of the picture.
    assert held.scale_ends[0] == pytest.approx((0.4, 0.35), abs=0.008)
    assert held.ft_per_px * 160 == pytest.approx(32.5, rel=0.03)
    assert math.dist(*(place_ft(held, end) for end in held.scale_ends)) == pytest.approx(32.5)
    words = text_of(desk.page, "backdrop_scale_words")
    assert words.startswith("Scaled by 32' 6\" between two points. A pixel is 2.4 in")
    assert not control(desk, "backdrop_measure_length").isVisible()
    desk.book.undo()
    assert desk.held == before, "one step"


def test_another_distance_is_checked_and_changes_nothing(desk: Desk) -> None:
    assert not control(desk, "backdrop_check_scale").isEnabled()
    type_scale(desk, "40'")
    before = desk.book.notebook
    click(desk.page, "backdrop_check_scale")
    desk.line(desk.place(0.5, 0.2), desk.place(0.5, 0.8))
    type_into(desk.page, "backdrop_measure_length", "18")
    click(desk.page, "backdrop_measure_set")
    told = text_of(desk.page, "backdrop_scale_outcome")
    # 40 ft across 800 pixels are 18 ft for 360.
    assert "agree as well as the clicks allow" in told
    click(desk.page, "backdrop_check_scale")
    desk.line(desk.place(0.5, 0.2), desk.place(0.5, 0.8))
    type_into(desk.page, "backdrop_measure_length", "15")
    click(desk.page, "backdrop_measure_set")
    assert "leans or is stretched" in text_of(desk.page, "backdrop_scale_outcome")
    assert desk.book.notebook is before


def type_scale(desk: Desk, across: str) -> None:
    """Scale by the typed width of the picture."""
    heading = control(desk, "backdrop_typed_fold")
    if not control(desk, "backdrop_across").isVisible():
        QTest.mouseClick(heading, LEFT)
    type_into(desk.page, "backdrop_across", across)


def test_all_of_the_scale_may_be_typed(desk: Desk) -> None:
    type_scale(desk, "36.6 m")
    assert desk.held.width_px * desk.held.ft_per_px == pytest.approx(120.08, abs=0.01)
    type_into(desk.page, "backdrop_print_per_in", "20")
    type_into(desk.page, "backdrop_print_paper", "17")
    click(desk.page, "backdrop_print_scale")
    assert desk.held.width_px * desk.held.ft_per_px == pytest.approx(340.0)
    type_into(desk.page, "backdrop_print_paper", "wide")
    click(desk.page, "backdrop_print_scale")
    assert "is not a length" in text_of(desk.page, "backdrop_print_problem")


def test_clicks_beside_the_picture_are_explained(desk: Desk) -> None:
    click(desk.page, "backdrop_set_scale")
    desk.line((-15.0, -15.0), desk.place(0.5, 0.5))
    assert "Both points must lie on Aerial" in desk.said()
    assert not control(desk, "backdrop_measure_length").isVisible()


def test_the_picture_is_turned_by_clicks_typing_and_to_north(desk: Desk) -> None:
    yard = replace(desk.book.notebook.yard, north_deg=15.0)
    desk.book.edit(put(desk.book.notebook, "yard", yard), "north")
    click(desk.page, "backdrop_north_up")
    assert desk.held.turn_deg == 15.0
    type_into(desk.page, "backdrop_turn_deg", "-12.5°")
    assert desk.held.turn_deg == -12.5
    click(desk.page, "backdrop_level")
    desk.line((10.0, 10.0), (50.0, 20.0))
    wanted = -12.5 + math.degrees(math.atan2(10, 40))
    assert desk.held.turn_deg == pytest.approx(wanted, abs=0.4)
    type_into(desk.page, "backdrop_turn_deg", "a bit")
    assert "is not a number" in text_of(desk.page, "backdrop_turn_problem")


def test_a_place_of_the_picture_goes_to_a_corner(desk: Desk) -> None:
    start = desk.place(0.25, 0.25)
    click(desk.page, "backdrop_move")
    desk.line(start, (30.3, 20.2))
    moved = desk.place(0.25, 0.25)
    assert moved == pytest.approx((30.0, 20.0), abs=0.2), "as near as the first click was"
    assert "on a corner of" in desk.said()


def test_arrows_move_it_and_a_held_key_is_one_step(desk: Desk) -> None:
    pad, before = control(desk, "backdrop_move_pad"), desk.held
    pad.setFocus()
    for _ in range(3):
        QTest.keyPress(pad, Qt.Key.Key_Right)
    assert desk.held == before, "drawn, not kept yet"
    QTest.keyRelease(pad, Qt.Key.Key_Right)
    QTest.keyClick(pad, Qt.Key.Key_Up, SHIFT)
    x, y = before.middle_ft
    assert desk.held.middle_ft == pytest.approx((x + 3.0, y + 0.25))
    desk.book.undo()
    desk.book.undo()
    assert desk.held == before


def test_the_middle_is_typed(desk: Desk) -> None:
    type_into(desk.page, "backdrop_middle_right", "12' 6\"")
    type_into(desk.page, "backdrop_middle_up", "-3")
    assert desk.held.middle_ft == (12.5, -3.0)


def test_fading_is_drawn_at_once_and_kept_as_one_step(desk: Desk) -> None:
    slider = part(desk.page, QSlider, "backdrop_fade")
    item = desk.hand.panel.scene.backdrops.item("aerial")
    assert item is not None
    slider.setSliderDown(True)
    slider.setValue(70)
    assert item.opacity() == pytest.approx(0.3)
    assert desk.held.fade == 0.4
    slider.setSliderDown(False)
    assert desk.held.fade == 0.7
    slider.setFocus()
    QTest.keyClick(slider, Qt.Key.Key_Right)
    assert desk.held.fade == 0.75
    assert text_of(desk.page, "backdrop_faded") == "75 %"


def test_a_locked_picture_says_so_and_only_its_look_changes(desk: Desk) -> None:
    type_scale(desk, "100")
    click(desk.page, "backdrop_locked")
    assert desk.held.locked
    for name in (
        "backdrop_set_scale",
        "backdrop_across",
        "backdrop_print_scale",
        "backdrop_move",
        "backdrop_move_pad",
        "backdrop_level",
        "backdrop_turn_deg",
        "backdrop_north_up",
        "backdrop_remove",
    ):
        each = control(desk, name)
        assert not each.isEnabled(), name
        assert "locked" in each.accessibleDescription(), name
    QTest.keyClick(part(desk.page, QSlider, "backdrop_fade"), Qt.Key.Key_Right)
    assert desk.held.fade == 0.45
    click(desk.page, "backdrop_locked")
    assert control(desk, "backdrop_move").isEnabled()


def test_a_hidden_picture_is_not_clicked_on(desk: Desk) -> None:
    click(desk.page, "backdrop_shown")
    assert desk.hand.panel.scene.backdrops.item("aerial") is None
    click(desk.page, "backdrop_set_scale")
    assert "is not shown; show it first" in desk.said()


def test_it_is_removed_and_undo_brings_it_back(desk: Desk) -> None:
    before = desk.held
    click(desk.page, "backdrop_remove")
    assert desk.book.notebook.backdrops == {}
    assert desk.said() == "Aerial is gone. Undo brings it back."
    assert not control(desk, "backdrop_fade").isVisible()
    desk.book.undo()
    assert desk.held == before
    assert control(desk, "backdrop_fade").isVisible()


def test_several_lie_in_order_and_each_is_worked_on(desk_of: Callable[[Notebook], Desk]) -> None:
    one = with_backdrop(sketch_yard(), halves(), backdrop_id="one")
    desk = desk_of(with_backdrop(one, halves(), backdrop_id="two"))
    assert desk.held.id == "two", "the topmost"
    assert not control(desk, "backdrop_up").isEnabled()
    click(desk.page, "backdrop_down")
    assert [*desk.book.notebook.backdrops] == ["two", "one"]
    QTest.keyClick(control(desk, "backdrop_list"), Qt.Key.Key_Up)
    assert desk.held.id == "one"
    assert desk.held.name == "Aerial"
    type_into(desk.page, "backdrop_name", "Plot plan")
    assert desk.book.notebook.backdrops["one"].name == "Plot plan"


def test_zones_are_seen_through_as_the_owner_likes(desk: Desk) -> None:
    before = desk.book.notebook
    click(desk.page, "backdrop_see_through")
    assert desk.hand.panel.control.habits.sees_through
    assert desk.book.notebook is before, "a habit, not a part of the notebook"


def test_every_control_has_a_name_and_caution_is_shown(desk: Desk) -> None:
    type_scale(desk, "100")
    assert unnamed(desk.page) == []
    words = " ".join(
        str(each.property("text"))
        for each in desk.section.findChildren(QWidget)
        if each.isVisible()
    )
    for told in ("roofs and crowns lean", "licence", "Buried lines are not on it"):
        assert told in words


def test_leaving_the_section_gives_a_measuring_up(desk: Desk) -> None:
    click(desk.page, "backdrop_set_scale")
    desk.line(desk.place(0.4, 0.35), desk.place(0.6, 0.35))
    assert control(desk, "backdrop_measure_length").isVisible()
    desk.page.turn_to("Overview")
    desk.page.turn_to("Backdrop")
    assert not control(desk, "backdrop_measure_length").isVisible()


def test_a_broken_file_dropped_on_the_section_is_explained(desk: Desk, tmp_path: Path) -> None:
    cut = tmp_path / "cut.png"
    cut.write_bytes(written(halves(400, 300), "PNG")[:300])
    before = desk.book.notebook
    desk.section.intake.add_files([cut])
    desk.until_read()
    assert "this picture cannot be read" in desk.said()
    assert desk.book.notebook is before
