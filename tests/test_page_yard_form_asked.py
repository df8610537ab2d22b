"""Operations with typed figures are asked for in a menu, and begin on the yard page's Shapes."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QApplication

from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.settings import Settings
from lawnbook.desk.sketch.context_menu import shape_menu
from lawnbook.desk.sketch.operations import run_by_name
from lawnbook.desk.theme import apply_theme
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from tests.conftest import TODAY
from tests.page_book import put_away, settle
from tests.sketch_hand import sketch_yard

FRONT = ("zones", "front")


@pytest.fixture
def window(tmp_path: Path, qapp: QApplication) -> Iterator[BookWindow]:
    """The sketch yard, the book open at another page."""
    apply_theme(qapp, "light")
    book = OpenNotebook.create(tmp_path / "forms.lawnbook", sketch_yard(), TODAY)
    made = BookWindow(book, Settings(tmp_path / "desk.ini"))
    made.resize(1440, 900)
    made.show()
    made.activateWindow()
    made.turn_to("Water")
    settle()
    yield made
    put_away(made)


ASKED = [("turn_by", "shapes_turn_deg"), ("strip", "shapes_strip_side")]


@pytest.mark.parametrize(("name", "field"), ASKED)
@pytest.mark.parametrize("whole", [False, True])
def test_the_menu_leads_to_the_first_field(
    window: BookWindow, name: str, field: str, whole: bool
) -> None:
    control = window.sketch.control
    control.choose_all((FRONT,))
    window.lay_sketch(whole=whole)
    before = window.book.notebook
    action = window.findChild(QAction, f"shape_menu_{name}")
    assert action is not None
    action.trigger()
    settle()
    assert window.place == "Yard"
    page = window.page("Yard")
    assert isinstance(page, YardPage)
    assert page.section == "Shapes"
    focus = QApplication.focusWidget()
    assert focus is not None
    assert focus.objectName() == field
    # In sight: the page has scrolled down to it.
    assert not focus.visibleRegion().isEmpty()
    assert window.book.notebook is before


@pytest.mark.parametrize(("name", "field"), ASKED)
def test_nothing_is_asked_where_it_cannot_be_done(
    window: BookWindow, name: str, field: str
) -> None:
    run_by_name(window.sketch.control, name)
    settle()
    assert window.place == "Water", field


def test_the_menu_at_a_shape_has_both(window: BookWindow) -> None:
    window.sketch.control.choose_all((FRONT,))
    menu = shape_menu(window.sketch.control, window)
    words = {each.text() for each in menu.findChildren(QAction)}
    assert {"Turn by…", "Strip along its edge…"} <= words
    menu.deleteLater()
