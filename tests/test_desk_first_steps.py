"""The first steps of a new notebook: they lead through the book, and go when they are taken."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QPushButton
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.due_list import LineRow, first_steps
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Notebook, apply, new_id, put
from lawnbook.yard.records import ClimateMonth, Core, Product, Spot, Zone
from tests.desk_sample import DAY, sample

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

LEFT = Qt.MouseButton.LeftButton
ZONE = Zone(
    id=new_id(),
    name="Front",
    outline_ft=((0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)),
)
SPOT = Spot(id=new_id(), name="gate", at_ft=(5.0, 5.0), zone=ZONE.id)


@pytest.fixture
def window(empty_book: OpenNotebook, settings: Settings) -> Iterator[BookWindow]:
    held = BookWindow(empty_book, settings)
    held.resize(1280, 800)
    held.show()
    held.activateWindow()
    for _ in range(4):
        QApplication.processEvents()
    yield held
    held.close()
    held.deleteLater()


def row(window: BookWindow, name: str) -> QPushButton:
    found = window.findChildren(QPushButton, f"first_{name}")
    (shown,) = (each for each in found if not each.isHidden())
    return shown


def spoken(window: BookWindow, name: str) -> str:
    found = window.findChildren(QPushButton, f"first_{name}")
    return "".join(each.accessibleName() for each in found if not each.isHidden())


def left_to_do(notebook: Notebook) -> list[str]:
    return [step.name for step in first_steps(notebook, make_plan(notebook, DAY)) if not step.done]


def test_each_step_is_ticked_by_what_it_asks_for(empty_book: OpenNotebook) -> None:
    notebook = empty_book.notebook
    expected = ["zones", "place", "water", "plugs", "product", "sheet"]
    assert left_to_do(notebook) == expected
    month = ClimateMonth(id=new_id(), month=6, eto_in_per_day=0.2)
    product = Product(id=new_id(), name="Meal 8-0-0", n_pct=8.0)
    core = Core(id=new_id(), spot=SPOT.id, date=DAY, thatch_in=(0.7,))
    yard = replace(notebook.yard, latitude_deg=41.0)
    for done, change in (
        ("zones", put(notebook, "zones", ZONE)),
        ("", put(notebook, "climate", month)),
        ("place", put(notebook, "yard", yard)),
        ("water", put(notebook, "zones", replace(ZONE, precipitation_in_per_h=1.0))),
        ("", put(notebook, "spots", SPOT)),
        ("plugs", put(notebook, "cores", core)),
    ):
        notebook = apply(notebook, change)
        if done:
            expected.remove(done)
        assert left_to_do(notebook) == expected
    assert left_to_do(apply(notebook, put(notebook, "products", product))) == []


def test_plugs_of_a_second_day_end_the_steps(empty_book: OpenNotebook) -> None:
    notebook = apply(empty_book.notebook, put(empty_book.notebook, "spots", SPOT))
    cores = [
        Core(id=new_id(), spot=SPOT.id, date=day, thatch_in=(0.7,))
        for day in (DAY, DAY.replace(month=5))
    ]
    notebook = apply(notebook, put(notebook, "cores", cores[0]))
    assert left_to_do(notebook)
    assert left_to_do(apply(notebook, put(notebook, "cores", cores[1]))) == []


@pytest.mark.parametrize("stem", ["larkspur_corner", "hollow_bank", "saltbush_court"])
def test_a_notebook_of_years_has_no_first_steps(stem: str) -> None:
    assert left_to_do(sample(stem)) == []


def test_the_steps_lead_to_tool_field_and_page(qtbot: QtBot, window: BookWindow) -> None:
    assert window.place == "Yard"
    QTest.mouseClick(row(window, "zones"), LEFT)
    assert window.sketch.drawing
    assert window.sketch.view.hasFocus()
    QTest.mouseClick(row(window, "place"), LEFT)
    focus = QApplication.focusWidget()
    assert focus is not None
    assert focus.objectName() == "yard_latitude_deg"
    QTest.mouseClick(row(window, "product"), LEFT)
    assert window.place == "Feed"
    window.turn_to("Yard")
    QTest.mouseClick(row(window, "sheet"), LEFT)
    assert window.place == "Sheet"
    window.turn_to("Yard")
    QTest.mouseClick(row(window, "plugs"), LEFT)
    assert window.place == "Plugs"
    spot = window.sketch.findChild(QPushButton, "sketch_tool_spot")
    assert spot is not None
    assert spot.isChecked()
    qtbot.wait(10)


def test_what_is_drawn_leaves_the_steps_open_and_what_is_clicked_turns_the_page(
    qtbot: QtBot, window: BookWindow
) -> None:
    QTest.mouseClick(row(window, "zones"), LEFT)
    way = window.findChild(QComboBox, "sketch_new_zone_way")
    assert way is not None
    QTest.keyClicks(way, "Rectangle")
    for name, side in (("width", "30"), ("depth", "20")):
        field = window.findChild(QLineEdit, f"sketch_new_zone_{name}")
        assert field is not None
        QTest.keyClicks(field, side)
        QTest.keyClick(field, Qt.Key.Key_Return if name == "depth" else Qt.Key.Key_Tab)
    qtbot.waitUntil(lambda: spoken(window, "zones").endswith(": done"))
    assert window.place == "Yard"
    (zone,) = window.book.notebook.zones
    QTest.mouseClick(row(window, "water"), LEFT)
    assert window.place == "Water"
    window.turn_to("Yard")
    window.sketch.selected.emit("zones", zone)
    assert window.place == "Water"
    qtbot.wait(10)


def test_no_row_cuts_its_words_off(qtbot: QtBot, window: BookWindow) -> None:
    for size in ((1220, 700), (1280, 800), (1440, 900)):
        window.resize(*size)
        qtbot.wait(20)
        rows = [each for each in window.findChildren(LineRow) if not each.isHidden()]
        assert len(rows) == 6
        for each in rows:
            assert each.height() >= each.heightForWidth(each.width()), (size, each.objectName())
