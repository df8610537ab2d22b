"""Whoever cannot see the window: every control has a name, a role that says what it is, and words.

The walk goes through every section of every page with all folds open, every tool's fields, every
menu, the welcome page and every dialog. What it means by a control, a picture and a fault stands
in `tests/access_walk.py`.
"""

from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QMouseEvent, QPaintEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu, QMessageBox, QVBoxLayout, QWidget

from lawnbook.desk import dialogs
from lawnbook.desk.leaves import leaf_titles, open_leaf
from lawnbook.desk.mishap_dialog import MishapDialog
from lawnbook.desk.quick_add import open_quick_add
from lawnbook.desk.reading_only import Banner
from lawnbook.desk.rescue import DamagedDialog, SalvagedDialog
from lawnbook.desk.restore import EarlierCopies
from lawnbook.desk.roles import give_roles, hear_as
from lawnbook.desk.settings import Settings
from lawnbook.desk.sketch.panel_keys import open_menu
from lawnbook.desk.sketch.toolbox import TOOLS
from lawnbook.desk.theme import apply_theme
from lawnbook.desk.wait_dialog import WaitDialog
from lawnbook.desk.welcome import WelcomeWindow
from lawnbook.desk.widgets import QuietButton, name_control
from lawnbook.desk.window import BookWindow
from lawnbook.desk.workings import WorkingLink
from lawnbook.store.salvage_told import SalvageTold
from lawnbook.yard.notebook import new_notebook
from tests.access_keys import faults_by_keys, unseen_in
from tests.access_walk import faults, opened, places, settle, turn
from tests.desk_sample import DAY, sample
from tests.page_book import put_away

TODAY = date(2026, 11, 25)
TOLD = SalvageTold(tables=(), notes=("Two pages could not be read.",))


@pytest.fixture(autouse=True, scope="module")
def _heard() -> Iterator[None]:
    """The roles that the program gives as it starts, with somebody listening.

    Only then does Qt ask for a role as soon as a widget is named: one that is given later is lost.
    """
    give_roles()
    QAccessible.setActive(True)
    yield
    QAccessible.setActive(False)


@pytest.fixture(scope="module")
def full(
    qapp: QApplication, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[tuple[BookWindow, Path]]:
    """A window on a sample that has something on every page."""
    apply_theme(qapp, "light")
    folder = tmp_path_factory.mktemp("full")
    window = opened(folder, sample("larkspur_corner"), DAY)
    yield window, folder
    window.book.close()
    put_away(window)


@pytest.mark.parametrize("yard", ["larkspur_corner", ""])
def test_every_section_speaks_and_is_walked_by_keys(
    qapp: QApplication, tmp_path: Path, yard: str
) -> None:
    """With all folds open, of a sample and of a yard with nothing in it.

    Each control has a name, a role and words; Tab reaches it as it is read, on the way forth and
    back, and goes on past the last; and it looks otherwise with the keyboard than without.
    """
    apply_theme(qapp, "light")
    window = opened(tmp_path, sample(yard) if yard else new_notebook("Home"), DAY)
    wrong: dict[str, list[str]] = {}
    told: set[str] = set()
    for name, page in places(window):
        found = [*faults(window), *faults_by_keys(page), *unseen_in(page)]
        wrong[name] = [each for each in found if each not in told]
        told.update(found)
    window.book.close()
    put_away(window)
    assert {name: found for name, found in wrong.items() if found} == {}


class Blot(QWidget):
    """Painted by a class of its own, which answers to a click."""

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A click."""

    def paintEvent(self, event: QPaintEvent) -> None:
        """A picture."""


Blot.__module__ = "lawnbook.desk.blot"


def test_the_walk_finds_what_is_wrong(qapp: QApplication) -> None:
    """No name, a role that says nothing, a picture without words, and two of one name."""
    page = QWidget()
    row = QVBoxLayout(page)
    parts = (Blot(), QuietButton("Keep it", "first", page), QuietButton("Keep it", "second", page))
    for each in parts:
        row.addWidget(each)
    page.show()
    assert faults(page) == [
        "Blot '' has no object name",
        "Blot '' has no accessible name",
        "Blot '' has the role Client",
        "Blot '' is a picture without a description",
        "QuietButton 'second' is called 'Keep it' like QuietButton 'first'",
    ]
    name_control(parts[0], "blot", "A blot", "What it shows")
    hear_as(parts[0], "Graphic")
    parts[2].setAccessibleName("Keep the other")
    # The role is asked for once and then held by Qt: only a widget not heard before takes it.
    assert faults(page) == ["Blot 'blot' has the role Client"]
    put_away(page)


def test_what_the_sketch_offers_for_each_tool_speaks(full: tuple[BookWindow, Path]) -> None:
    window, _ = full
    window.turn_to("Yard")
    control = window.sketch.control
    notebook = window.book.notebook
    wrong = {}
    for name in TOOLS:
        window.sketch.take(name)
        settle()
        wrong[name] = faults(window.sketch)
    window.sketch.tool("Pick")
    for table in ("zones", "features", "heads", "spots"):
        key = (table, next(iter(notebook.table(table))))
        control.choose_all((key,))
        settle()
        wrong[table] = faults(window.sketch)
        control.move_wanted.emit()
        settle()
        wrong[f"{table} moved"] = faults(window.sketch)
    control.choose_all(())
    assert {key: found for key, found in wrong.items() if found} == {}


def menus_of(window: BookWindow) -> list[QMenu]:
    """All menus that can be opened without more ado, those in menus too."""
    for each in window.menuBar().actions():
        menu = each.menu()
        assert isinstance(menu, QMenu)
        menu.aboutToShow.emit()
    control = window.sketch.control
    zone = next(iter(window.book.notebook.zones))
    control.choose_all((("zones", zone),))
    open_menu(window.sketch, None)
    settle()
    return window.findChildren(QMenu)


def test_every_line_of_every_menu_has_words_and_no_two_the_same(
    full: tuple[BookWindow, Path],
) -> None:
    window, _ = full
    menus = menus_of(window)
    assert len(menus) >= 8
    for menu in menus:
        words = [each.text().replace("&", "") for each in menu.actions() if not each.isSeparator()]
        assert all(words), f"a line without words in {menu.title() or menu.objectName()}"
        shown = [each.split("\t")[0] for each in words]
        assert len(set(shown)) == len(shown), f"twins in {menu.title() or menu.objectName()}"
        menu.close()
    window.sketch.control.choose_all(())


def asked(name: str) -> Callable[[BookWindow, Path], QWidget]:
    """The box of a question that something is lost by."""
    ways = (dialogs.WayOn("stay", "Stay here", "stay"), dialogs.WayOn("lose", "Close", "lose"))
    texts = ("Not all is on disk.", "The disk is full.")
    return lambda window, _: dialogs.question(window, name, texts, ways, "stay")


def told(window: BookWindow, _: Path) -> QWidget:
    dialogs.tell(window, "Lawnbook", "Something to be told.")
    box = window.findChild(QMessageBox, "told")
    assert box is not None
    return box


def banner(window: BookWindow, _: Path) -> QWidget:
    made = Banner(window)
    made.say("Another program has changed it.", (("Try again", "file_again", int),))
    return made


def working(window: BookWindow, _: Path) -> QWidget:
    """A figure's working, as its link opens it."""
    page = turn(window, "Water", "Now")
    link = next(each for each in page.findChildren(WorkingLink) if each.isVisible())
    QTest.mouseClick(link, Qt.MouseButton.LeftButton)
    panel = QApplication.activePopupWidget()
    assert panel is not None
    return panel


def quick(window: BookWindow, _: Path) -> QWidget:
    made = open_quick_add(window)
    QTest.keyClicks(made.line, "water")
    return made


OTHERS: dict[str, Callable[[BookWindow, Path], QWidget]] = {
    "question": asked("close_with_trouble"),
    "told": told,
    "banner": banner,
    "working": working,
    "quick add": quick,
    "earlier copies": lambda window, folder: EarlierCopies(
        window.book.path, folder, lambda: window.book.notebook, TODAY, window
    ),
    "damaged": lambda window, _: DamagedDialog("It is damaged.", True, window),
    "salvaged": lambda window, folder: SalvagedDialog(TOLD, folder / "a", True, window),
    "mishap": lambda window, folder: MishapDialog("key", "report", folder / "r.txt", window),
    "waiting": lambda window, _: WaitDialog("Being reckoned…", window),
}
"""What opens over the window, and how it comes up."""


@pytest.mark.parametrize("kind", leaf_titles())
def test_the_leaves_beside_the_book_speak(full: tuple[BookWindow, Path], kind: str) -> None:
    leaf = open_leaf(full[0], kind)
    settle()
    found = faults(leaf)
    leaf.close()
    assert found == []


@pytest.mark.parametrize("name", OTHERS)
def test_what_opens_over_the_window_speaks(full: tuple[BookWindow, Path], name: str) -> None:
    window, folder = full
    shown = OTHERS[name](window, folder)
    shown.show()
    settle()
    found = faults(shown)
    shown.close()
    shown.deleteLater()
    settle()
    assert found == []
    assert shown is not None


def test_the_welcome_page_speaks(qapp: QApplication, tmp_path: Path) -> None:
    settings = Settings(tmp_path / "desk.ini")
    for name in ("first", "second"):
        settings.remember(tmp_path / f"{name}.lawnbook")
    page = WelcomeWindow(settings)
    page.show()
    settle()
    found = faults(page)
    put_away(page)
    assert found == []


def test_every_dialog_of_the_desk_is_walked() -> None:
    """A new dialog is to be added here: it is found by the class it stems from."""
    source = Path(dialogs.__file__).parent
    kinds = {
        line.removeprefix("class ").split("(")[0]
        for each in source.rglob("*.py")
        for line in each.read_text(encoding="utf-8").splitlines()
        if line.startswith("class ") and line.endswith("(QDialog):")
    }
    walked = {"EarlierCopies", "DamagedDialog", "SalvagedDialog", "MishapDialog", "WaitDialog"}
    # The window of a photograph has the bench of the Photos section, which is walked there.
    assert kinds == walked | {"PhotoWindow"}
