"""Enter keeps a plug from every field of its entry, as the card's heading promises, and once."""

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.plugs import PlugsPage
from lawnbook.session.open_notebook import OpenNotebook
from tests.desk_hand import child, press, shown, type_in

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

ENTER = Qt.Key.Key_Return
SPACE = Qt.Key.Key_Space
FIELDS = (
    "spot",
    "date",
    "thatch_in",
    "resolution_in",
    "root_depth_in",
    "core_depth_in",
    "sponge",
    "soil_in_thatch",
    "worms",
    "pressed",
    "thatch_moisture",
    "soil_moisture",
    "clock",
    "ring_in",
    "note",
)


@pytest.fixture
def page(qtbot: QtBot, book: OpenNotebook) -> PlugsPage:
    """The plugs page of Larkspur Corner."""
    made = PlugsPage(book)
    shown(qtbot, made, book)
    return made


@pytest.mark.parametrize("name", FIELDS)
def test_enter_in_any_field_keeps_the_plug_once(
    page: PlugsPage, book: OpenNotebook, name: str
) -> None:
    before = len(book.notebook.cores)
    type_in(page, "cores_thatch_in", "3/4")
    child(page, f"cores_{name}").setFocus()
    press(ENTER)
    assert len(book.notebook.cores) == before + 1


def test_enter_keeps_from_the_box_that_confirms_a_question(
    page: PlugsPage, book: OpenNotebook
) -> None:
    before = len(book.notebook.cores)
    type_in(page, "cores_thatch_in", "0.3 1.6", ENTER)
    assert len(book.notebook.cores) == before
    child(page, "cores_thatch_in_keep").setFocus()
    press(ENTER)
    assert len(book.notebook.cores) == before
    press(SPACE, ENTER)
    assert len(book.notebook.cores) == before + 1
