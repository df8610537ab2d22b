"""A new owner's way from the welcome page to the printed sheet, by mouse and keyboard only."""

import json
import math
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import cast

import pytest
from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QLabel, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.cli import main
from lawnbook.desk.app import Desk
from lawnbook.desk.settings import Settings
from lawnbook.desk.sketch.items import scene_point
from lawnbook.desk.window import BookWindow
from lawnbook.yard.geometry import zone_area_sqft
from tests.pdf_reading import read_page

pytest_plugins = ["tests.desk_book"]

LEFT = Qt.MouseButton.LeftButton
CTRL = Qt.KeyboardModifier.ControlModifier
ON = date(2026, 6, 15)
MEAN_F = (30, 34, 42, 50, 60, 69, 76, 74, 65, 53, 41, 31)
ETO_IN = (0.03, 0.05, 0.09, 0.14, 0.19, 0.24, 0.26, 0.22, 0.16, 0.09, 0.05, 0.03)
ZONE_CORNERS = ((0.0, 0.0), (40.0, 0.0), (40.0, 25.0), (0.0, 25.0))


class Owner:
    """Somebody at the desk: finds what is on the window, clicks it and types."""

    def __init__(self, qtbot: QtBot, window: BookWindow) -> None:
        self.qtbot, self.window = qtbot, window

    def part(self, name: str) -> QWidget:
        """A control by its name, scrolled into sight as a person would."""
        found = self.window.findChild(QWidget, name)
        assert found is not None, name
        return found

    def click(self, name: str) -> None:
        """Click in the middle of a control."""
        QTest.mouseClick(self.part(name), LEFT)
        self.pause()

    def fill(self, name: str, text: str) -> None:
        """Click a field, type, and leave it by Tab."""
        field = self.part(name)
        QTest.mouseClick(field, LEFT)
        if isinstance(field, QLineEdit):
            QTest.keyClick(field, Qt.Key.Key_A, CTRL)
        QTest.keyClicks(field, text)
        QTest.keyClick(field, Qt.Key.Key_Tab)
        self.pause()

    def turn(self, number: int) -> None:
        """Turn to a page by its number."""
        QTest.keyClick(self.window, Qt.Key(Qt.Key.Key_0 + number), CTRL)
        self.pause()

    def words(self, name: str) -> str:
        """What a line of the page says."""
        return cast(QLabel, self.part(name)).text()

    def unfold(self, name: str) -> None:
        """Open a folded part of a page, if it is closed."""
        if self.part(name).isHidden():
            self.click(f"{name}_fold")

    def on_sketch(self, at: tuple[float, float]) -> None:
        """Click a place of the yard, in feet."""
        view = self.window.sketch.view
        place: QPoint = view.mapFromScene(scene_point(at))
        QTest.mouseMove(view.viewport(), place)
        QTest.mouseClick(view.viewport(), LEFT, Qt.KeyboardModifier.NoModifier, place)
        self.pause()

    def bare_places(self) -> list[tuple[float, float]]:
        """A place on each zone with nothing else on it: just inside its last corner."""
        corners = [zone.outline_ft[-1] for zone in self.window.book.notebook.zones.values()]
        return [(x + 3.0, y - 3.0) for x, y in corners]

    def pause(self) -> None:
        """Let the window catch up."""
        self.qtbot.wait(5)


@pytest.fixture
def desk(dressed: QApplication, settings: Settings, tmp_path: Path) -> Iterator[Desk]:
    """A desk whose notebooks go to the test's folder."""
    settings.folder = tmp_path
    held = Desk(dressed, settings, ON)
    yield held
    if held.window is not None:
        held.window.close()
    held.deleteLater()


def begin(qtbot: QtBot, desk: Desk) -> Owner:
    """Begin a yard on the welcome page."""
    desk.show_welcome()
    assert desk.welcome is not None
    QTest.keyClicks(desk.welcome.name_field, "Elm House")
    QTest.keyClick(desk.welcome.name_field, Qt.Key.Key_Return)
    assert desk.window is not None
    desk.window.resize(1440, 900)
    desk.window.activateWindow()
    qtbot.waitUntil(desk.window.isActiveWindow)
    qtbot.wait(20)
    return Owner(qtbot, desk.window)


def say_where_and_when(owner: Owner) -> None:
    """The yard's place, season and usual weather."""
    owner.turn(1)
    owner.click("yard_section_overview")
    owner.fill("yard_latitude_deg", "40.7")
    owner.fill("yard_irrigation_season", "1 May to 30 Sep")
    for month in range(12):
        owner.fill(f"climate_tmean_f_{month + 1}", str(MEAN_F[month]))
        owner.fill(f"climate_eto_in_per_day_{month + 1}", str(ETO_IN[month]))


def draw_the_yard(owner: Owner) -> None:
    """One zone by its corners, one by its sides, a head and a spot."""
    owner.click("sketch_tool_zone")
    for corner in (*ZONE_CORNERS, ZONE_CORNERS[0]):
        owner.on_sketch(corner)
    owner.click("sketch_tool_zone")
    QTest.keyClicks(owner.part("sketch_new_zone_way"), "Rectangle")
    owner.fill("sketch_new_zone_width", "20")
    owner.fill("sketch_new_zone_depth", "30' 6\"")
    owner.click("sketch_new_zone_put_down")
    owner.click("sketch_fit")
    owner.click("sketch_tool_head")
    owner.on_sketch((20.0, 12.0))
    owner.click("sketch_tool_spot")
    owner.on_sketch((8.0, 8.0))
    owner.click("sketch_tool_pick")


def describe_the_sprinklers(owner: Owner) -> None:
    """A typed rate for each zone, picked on the sketch."""
    owner.turn(3)
    owner.click("sketch_tool_pick")
    for place in owner.bare_places():
        owner.on_sketch(place)
        owner.unfold("zone_part")
        owner.fill("zone_precipitation_in_per_h", "1.2")


def pull_a_plug(owner: Owner) -> None:
    """A plug, typed and kept by the keyboard alone."""
    owner.turn(2)
    owner.fill("cores_thatch_in", "7/8 15/16 1")
    owner.fill("cores_root_depth_in", "5 1/2")
    field = owner.part("cores_worms")
    QTest.mouseClick(field, LEFT)
    QTest.keyClicks(field, "2")
    QTest.keyClick(field, Qt.Key.Key_Return)
    owner.pause()


def put_a_bag_on_the_shelf(owner: Owner) -> None:
    """One product by its label."""
    owner.turn(4)
    owner.unfold("product_part")
    owner.fill("products_name", "Coated urea 20-0-5")
    owner.fill("products_n_pct", "20")
    owner.fill("products_slow_n_pct", "12")
    owner.fill("products_bag_lb", "40")
    owner.click("products_keep")


def answer_with_a_file(owner: Owner, button: str, path: Path) -> None:
    """Click a button of the sheet page and type a file's name into the dialog that opens."""

    def answer() -> None:
        dialog = QApplication.activeModalWidget()
        if not isinstance(dialog, QDialog) or not dialog.isActiveWindow():
            # It has not taken the keyboard yet, and a person would wait for it too.
            QTimer.singleShot(50, owner.window, answer)
            return
        field = next(each for each in dialog.findChildren(QLineEdit) if each.isVisible())
        QTest.keyClick(field, Qt.Key.Key_A, CTRL)
        QTest.keyClicks(field, str(path))
        QTest.keyClick(field, Qt.Key.Key_Return)

    QTimer.singleShot(150, owner.window, answer)
    owner.click(button)


def test_from_an_empty_page_to_the_printed_sheet(
    qtbot: QtBot, desk: Desk, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    owner = begin(qtbot, desk)
    say_where_and_when(owner)
    draw_the_yard(owner)
    describe_the_sprinklers(owner)
    pull_a_plug(owner)
    put_a_bag_on_the_shelf(owner)
    notebook = owner.window.book.notebook
    areas = [zone_area_sqft(zone) for zone in notebook.zones.values()]
    assert areas == pytest.approx([1000.0, 610.0])
    assert len(notebook.heads) == len(notebook.spots) == len(notebook.cores) == 1
    (core,) = notebook.cores.values()
    assert core.thatch_in == pytest.approx((0.875, 0.9375, 1.0))
    assert len(notebook.climate) == 12

    # The check before spreading: June is a month of no nitrogen for cool-season grass.
    owner.turn(4)
    QTest.mouseClick(owner.part("zone_tick_1"), LEFT, pos=QPoint(8, 12))
    owner.fill("spread_amount", "0.5")
    qtbot.waitUntil(lambda: "nothing may go on Zone 1" in owner.words("spread_verdict"))

    saved, printed = tmp_path / "elm.pdf", tmp_path / "printed.pdf"
    owner.turn(6)
    answer_with_a_file(owner, "sheet_save", saved)
    answer_with_a_file(owner, "sheet_print", printed)
    page = read_page(saved)
    assert page.pages == 1
    assert "Elm House" in page.text
    assert read_page(printed).flat == page.flat

    # The command line gives the figures of the window, and the sheet prints them.
    path = owner.window.book.path
    answers = []
    owner.turn(3)
    for place in owner.bare_places():
        owner.on_sketch(place)
        answers.append(owner.words("water_answer").replace("\u00a0", " "))
    owner.window.close()
    assert main(["plan", str(path), "--on", ON.isoformat(), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    for zone, answer in zip(told["zones"], answers, strict=True):
        assert answer.startswith(f"Water {zone['depth_in']:.2f} in")
        each = math.ceil(zone["minutes_per_cycle"])
        assert f"{each} min" in answer
        assert f"{zone['gallons']:.0f} gallons" in answer
        assert f"{zone['cycles'] * each}" in page.flat
        assert zone["zone"] in page.flat
    # 40 % of the water in 5.5 - 0.94 in of loam, from the plug just typed: what the roots bear.
    assert told["zones"][0]["bearable_depth_in"] == pytest.approx(0.4 * 0.17 * (5.5 - 0.9375))
    assert told["thatch"][0]["latest_in"] == pytest.approx(0.9375)
    arguments = ["spread-check", str(path), "--zone", "1", "--product", "Coated urea 20-0-5"]
    assert main([*arguments, "--pounds", "2.5", "--on", ON.isoformat()]) == 1
    assert main([*arguments, "--pounds", "2.5", "--on", "2026-09-05"]) == 0


def test_everything_is_taken_back_step_by_step(qtbot: QtBot, desk: Desk) -> None:
    owner = begin(qtbot, desk)
    empty = owner.window.book.notebook
    draw_the_yard(owner)
    full = owner.window.book.notebook
    steps = 0
    while owner.window.book.undo_label:
        QTest.keyClick(owner.window, Qt.Key.Key_Z, CTRL)
        steps += 1
    assert steps == 4
    assert owner.window.book.notebook == empty
    for _ in range(steps):
        QTest.keyClick(owner.window, Qt.Key.Key_Z, CTRL | Qt.KeyboardModifier.ShiftModifier)
    assert owner.window.book.notebook == full
    owner.window.close()
