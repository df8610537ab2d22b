"""Hand over, on the sheet page: the list, the choices, saving beside the window's work, opening."""

import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QLabel, QMessageBox, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk import still_writing
from lawnbook.desk.app import Desk
from lawnbook.desk.pages import sheet_handover
from lawnbook.desk.pages.sheet_handover import HandoverSection
from lawnbook.desk.settings import Settings
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.sheet.handover import Wants, write_handover
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import as_of
from tests.desk_sample import DAY, sample

pytest_plugins = ["tests.desk_book"]

LEFT = Qt.MouseButton.LeftButton
LONG_MS = 60_000


@pytest.fixture
def section(
    dressed: QApplication, book: OpenNotebook, settings: Settings
) -> Iterator[HandoverSection]:
    made = HandoverSection(book, settings)
    made.resize(640, 760)
    made.show_plan(make_plan(book.notebook, DAY))
    made.show()
    QTest.qWaitForWindowExposed(made)
    yield made
    made.finish()
    made.close()
    made.deleteLater()


@pytest.fixture
def to(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where the owner says that the handover goes."""
    path = tmp_path / "out" / "over.zip"
    path.parent.mkdir()
    monkeypatch.setattr(sheet_handover, "choose_handover", lambda *_: path)
    return path


def words(section: QWidget, name: str) -> str:
    label = section.findChild(QLabel, name)
    assert label is not None
    return label.text()


def listed(section: QWidget) -> str:
    return "\n".join(each.text() for each in section.findChildren(QLabel) if each.isVisible())


def press(section: QWidget, name: str) -> None:
    button = section.findChild(QPushButton, name)
    assert button is not None
    assert button.isEnabled()
    QTest.mouseClick(button, LEFT)


def tick(section: QWidget, name: str) -> None:
    box = section.findChild(QCheckBox, name)
    assert box is not None
    QTest.mouseClick(box, LEFT, pos=QPoint(12, box.height() // 2))


def said(section: QWidget) -> str:
    return words(section, "handover_said")


def ended(section: QWidget) -> Callable[[], bool]:
    return lambda: bool(said(section))


def test_what_will_be_in_it_is_listed_with_sizes(section: HandoverSection) -> None:
    told = listed(section)
    for part in ("Notebook", "Documents", "Tables", "Calendar", "Photographs", "README"):
        assert part in told
    assert "5 of plugs" in told
    assert "about" in told
    assert "then and now of 4 spots" in told
    tick(section, "handover_without_photos")
    assert "5 of plugs" not in listed(section)


def test_what_may_still_tell_something_is_told_with_the_choice(section: HandoverSection) -> None:
    assert words(section, "handover_left_out") == ""
    tick(section, "handover_without_place")
    assert "can be reckoned back" in words(section, "handover_left_out")
    assert "may name the place" in words(section, "handover_left_out")
    tick(section, "handover_without_names")
    assert "may name the place" not in words(section, "handover_left_out")
    assert "look at them" in words(section, "handover_left_out")


def test_every_control_has_a_name(section: HandoverSection) -> None:
    for kind in (QPushButton, QCheckBox):
        for each in section.findChildren(kind):
            assert each.objectName()
            assert each.accessibleName() or each.text()


def test_it_is_saved_and_the_window_goes_on_meanwhile(
    qtbot: QtBot, section: HandoverSection, book: OpenNotebook, to: Path
) -> None:
    tick(section, "handover_without_names")
    tick(section, "handover_without_place")
    press(section, "handover_save")
    assert words(section, "handover_progress") == "Preparing…"
    save = section.findChild(QPushButton, "handover_save")
    assert save is not None
    assert not save.isEnabled()
    qtbot.waitUntil(ended(section), timeout=LONG_MS)
    assert said(section).startswith(f"Saved: {to}")
    assert "Left out: names and notes, the place." in said(section)
    # What was just laid on the page is seen once the page has been laid out.
    qtbot.waitUntil(lambda: "Records as text" in listed(section))
    again = load_any(to, DAY)
    assert again.yard.name == "A yard"
    assert len(again.cores) == len(book.notebook.cores)
    assert len(again.photos) == len(book.notebook.photos)


def test_it_is_the_same_as_the_command_s(
    qtbot: QtBot, section: HandoverSection, book: OpenNotebook, to: Path, tmp_path: Path
) -> None:
    press(section, "handover_save")
    qtbot.waitUntil(ended(section), timeout=LONG_MS)
    other = tmp_path / "command.zip"
    write_handover(book.notebook, make_plan(book.notebook, DAY), other, Wants())
    assert to.read_bytes() == other.read_bytes()


def test_one_that_is_given_up_leaves_nothing(
    qtbot: QtBot, section: HandoverSection, to: Path
) -> None:
    for wait_ms in (0, 300, 1500):
        press(section, "handover_save")
        QTest.qWait(wait_ms)
        press(section, "handover_give_up")
        assert said(section) == "Given up; nothing was written."
        section.finish()
        QApplication.processEvents()
        assert list(to.parent.iterdir()) == []
    press(section, "handover_save")
    qtbot.waitUntil(ended(section), timeout=LONG_MS)
    assert to.exists()


def test_a_window_that_closes_meanwhile_asks_and_what_is_given_up_leaves_nothing(
    section: HandoverSection, to: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []

    def agree(_: QWidget, names: str) -> bool:
        asked.append(names)
        return True

    monkeypatch.setattr(still_writing, "sure_of_giving_up", agree)
    press(section, "handover_save")
    assert still_writing.may_close(section)
    assert still_writing.may_close(section), "nothing is left to be asked about"
    assert asked == ["over.zip"]
    assert said(section) == "Given up; nothing was written."
    assert list(to.parent.iterdir()) == []


def test_closing_while_it_is_written_leaves_nothing(
    dressed: QApplication, book: OpenNotebook, settings: Settings, to: Path
) -> None:
    made = HandoverSection(book, settings)
    made.show_plan(make_plan(book.notebook, DAY))
    made.ask_save()
    QTest.qWait(200)
    made.deleteLater()
    QApplication.processEvents()
    deadline = time.monotonic() + 20
    while list(to.parent.iterdir()) and time.monotonic() < deadline:
        QTest.qWait(50)
    assert list(to.parent.iterdir()) == []


def test_a_place_that_will_not_do_is_explained(
    qtbot: QtBot, section: HandoverSection, to: Path
) -> None:
    to.write_text("a letter")
    press(section, "handover_save")
    qtbot.waitUntil(ended(section), timeout=LONG_MS)
    assert "not a zip file" in said(section)
    assert to.read_text() == "a letter"


def test_who_thinks_better_of_it_hears_nothing(
    section: HandoverSection, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sheet_handover, "choose_handover", lambda *_: None)
    press(section, "handover_save")
    assert said(section) == ""


def test_an_empty_yard_can_be_handed_over(
    qtbot: QtBot, dressed: QApplication, empty_book: OpenNotebook, settings: Settings, to: Path
) -> None:
    made = HandoverSection(empty_book, settings)
    made.show_plan(make_plan(empty_book.notebook, DAY))
    made.ask_save()
    qtbot.waitUntil(ended(made), timeout=LONG_MS)
    assert said(made).startswith("Saved: ")
    assert load_any(to, DAY) == empty_book.notebook
    made.finish()
    made.deleteLater()


@pytest.fixture
def zipped(tmp_path: Path) -> Path:
    """A handover of Saltbush Court, in a folder of somebody's."""
    path = tmp_path / "from elsewhere" / "theirs.zip"
    path.parent.mkdir()
    notebook = sample("saltbush_court")
    write_handover(notebook, make_plan(notebook, DAY), path, Wants())
    return path


@pytest.fixture
def desk(dressed: QApplication, settings: Settings, tmp_path: Path) -> Iterator[Desk]:
    own = tmp_path / "documents"
    own.mkdir()
    settings.folder = own
    held = Desk(dressed, settings, DAY)
    yield held
    if held.window is not None:
        held.window.close()
    if held.welcome is not None:
        held.welcome.close()
        held.welcome.deleteLater()
    held.deleteLater()


def test_a_handover_is_opened_as_a_copy_of_one_s_own(
    desk: Desk, zipped: Path, tmp_path: Path
) -> None:
    before = zipped.read_bytes()
    assert desk.open(zipped)
    assert desk.window is not None
    copy = tmp_path / "documents" / "Saltbush Court.lawnbook"
    assert desk.window.book.path == copy
    assert desk.window.book.notebook == as_of(sample("saltbush_court"), DAY)
    box = desk.window.findChild(QMessageBox, "told")
    assert box is not None
    assert str(copy) in box.text()
    assert zipped.read_bytes() == before
    box.close()


def test_a_handover_is_dropped_on_the_first_page(
    qtbot: QtBot, desk: Desk, zipped: Path, tmp_path: Path
) -> None:
    desk.show_welcome()
    assert desk.welcome is not None
    for path, taken in ((tmp_path / "letter.txt", False), (zipped, True)):
        held = QMimeData()
        held.setUrls([QUrl.fromLocalFile(str(path))])
        action, buttons = Qt.DropAction.CopyAction, LEFT
        none = Qt.KeyboardModifier.NoModifier
        enters = QDragEnterEvent(QPoint(40, 40), action, held, buttons, none)
        enters.ignore()
        QApplication.sendEvent(desk.welcome, enters)
        assert enters.isAccepted() == taken
    drops = QDropEvent(QPointF(40, 40), action, held, buttons, none)
    QApplication.sendEvent(desk.welcome, drops)
    assert desk.window is not None
    assert desk.window.book.path.parent == tmp_path / "documents"
    for box in desk.window.findChildren(QMessageBox):
        box.close()


def test_a_bad_one_is_explained_and_nothing_is_made(desk: Desk, tmp_path: Path) -> None:
    bad = tmp_path / "bad.zip"
    bad.write_text("hello")
    assert not desk.open(bad)
    assert desk.welcome is not None
    assert "no zip file" in words(desk.welcome, "welcome_problem")
    assert list((tmp_path / "documents").iterdir()) == []
