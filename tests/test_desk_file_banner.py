"""The banner over the pages: only to be looked at, changed underneath, a copy beside it."""

import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMessageBox, QPushButton
from pytestqt.qtbot import QtBot

from lawnbook.desk import reading_only
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.sqlite_store import create, load
from lawnbook.yard.problems import OwnerError
from tests.conftest import TODAY
from tests.other_window import other_window
from tests.small_book import rename, small_notebook

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


@pytest.fixture
def path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The small notebook as a file."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    made = tmp_path / "small.lawnbook"
    create(made, small_notebook())
    return made


@pytest.fixture
def show(path: Path, settings: Settings) -> Iterator[Callable[[], BookWindow]]:
    """Opens the window on it, which is closed at the end."""
    made: list[BookWindow] = []

    def shown() -> BookWindow:
        window = BookWindow(OpenNotebook.open(path, TODAY), settings)
        window.show()
        made.append(window)
        return window

    yield shown
    for window in made:
        window.book.close(abandon=True)
        window.close()
        window.deleteLater()


def said(window: BookWindow) -> str:
    """What the banner says, empty where it is not shown."""
    return window.watch.banner.words.text() if window.watch.banner.isVisible() else ""


def press(window: BookWindow, name: str) -> None:
    """Click a button of the banner."""
    button = window.watch.banner.findChild(QPushButton, name)
    assert isinstance(button, QPushButton), name
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    QApplication.processEvents()


def theirs(path: Path) -> None:
    """A sync program puts the file of another machine there."""
    copy = path.with_name("copy")
    shutil.copy(path, copy)
    with closing(sqlite3.connect(copy)) as other, other:
        other.execute("UPDATE yard SET name = 'Theirs'")
    copy.replace(path)


def answer(name: str) -> None:
    """Press a button of the question that comes up next."""

    def answered() -> None:
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        button = next(each for each in box.buttons() if each.text() == name)
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)

    QTimer.singleShot(50, answered)


def test_a_second_window_only_looks_and_takes_the_first_ones_place(
    qtbot: QtBot, path: Path, show: Callable[[], BookWindow]
) -> None:
    with other_window(path) as other:
        window = show()
        assert "open in another window since" in said(window)
        assert window.status.words.text() == "Only to be looked at: nothing is entered here."
        editing = reading_only.actions_of(window.menuBar(), reading_only.EDITING)
        assert [each.text() for each in editing if not each.isEnabled()] == [
            "&Shape",
            "&Note something down…",
        ]
        press(window, "file_again")
        assert said(window).startswith("small.lawnbook is open in another window since")
        with pytest.raises(OwnerError):
            window.book.edit(rename(window.book.notebook, "Mine"), "rename")
        assert said(window).startswith("Nothing was kept. small.lawnbook is open in another")
        assert other.rename("Theirs") == "done"
        assert other.close() == "done"
        press(window, "file_again")
        assert (said(window), window.book.read_only) == ("", "")
        assert all(each.isEnabled() for each in editing)
        qtbot.waitUntil(lambda: window.windowTitle().startswith("Theirs"))


def test_a_copy_is_worked_on(
    path: Path, show: Callable[[], BookWindow], monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = path.with_name("mine.lawnbook")
    monkeypatch.setattr("lawnbook.desk.window.choose_elsewhere", lambda *_: copy)
    with other_window(path):
        window = show()
        press(window, "file_copy")
        assert (said(window), window.book.path) == ("", copy)
        window.book.edit(rename(window.book.notebook, "Mine"), "rename")
        assert load(copy).yard.name == "Mine"


def test_a_change_underneath_is_read_when_the_window_comes_to_the_front(
    qapp: QApplication, path: Path, show: Callable[[], BookWindow]
) -> None:
    window = show()
    theirs(path)
    qapp.focusWindowChanged.emit(window.windowHandle())
    assert window.windowTitle().startswith("Theirs")
    assert "this is what it holds now" in said(window)
    press(window, "file_hide")
    assert said(window) == ""


def test_what_waits_is_offered_as_a_copy_before_the_files_version_is_taken(
    path: Path, show: Callable[[], BookWindow], monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = path.with_name("mine.lawnbook")
    monkeypatch.setattr(reading_only, "choose_elsewhere", lambda *_: copy)
    window = show()
    theirs(path)
    window.book.edit(rename(window.book.notebook, "Mine"), "rename")
    assert "1 change made here is not in it" in said(window)
    assert window.status.words.text() == "Not on disk yet (1 change waits): see above."
    answer("Stay here")
    press(window, "file_theirs")
    assert window.book.waiting == 1
    answer("Keep a copy first…")
    press(window, "file_theirs")
    assert (load(copy).yard.name, window.book.notebook.yard.name) == ("Mine", "Theirs")
    assert (said(window), window.book.waiting, window.book.path) == ("", 0, path)


def test_mine_goes_on_elsewhere_and_the_files_version_stays(
    path: Path, show: Callable[[], BookWindow], monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = path.with_name("mine.lawnbook")
    monkeypatch.setattr("lawnbook.desk.window.choose_elsewhere", lambda *_: copy)
    window = show()
    theirs(path)
    window.book.edit(rename(window.book.notebook, "Mine"), "rename")
    press(window, "file_elsewhere")
    assert (load(copy).yard.name, load(path).yard.name) == ("Mine", "Theirs")
    assert (said(window), window.book.waiting) == ("", 0)


def test_a_copy_laid_beside_it_is_told_and_can_be_opened(
    path: Path, show: Callable[[], BookWindow]
) -> None:
    window = show()
    beside = path.with_name("small (conflicted copy).lawnbook")
    beside.touch()
    window.watch.look()
    assert "small (conflicted copy).lawnbook" in said(window)
    asked: list[Path] = []
    window.watch.path_asked.connect(asked.append)
    press(window, "file_open_copy")
    assert asked == [beside]
    press(window, "file_hide_copies")
    window.watch.look()
    assert said(window) == ""


def test_nothing_is_read_anew_under_a_pressed_mouse(
    path: Path, show: Callable[[], BookWindow]
) -> None:
    window = show()
    theirs(path)
    QTest.mousePress(window.sketch, Qt.MouseButton.LeftButton)
    if QApplication.mouseButtons() != Qt.MouseButton.NoButton:
        window.watch.look()
        assert window.book.notebook.yard.name == "Small"
    QTest.mouseRelease(window.sketch, Qt.MouseButton.LeftButton)
    window.watch.look()
    assert window.book.notebook.yard.name == "Theirs"


def put_away(path: Path) -> None:
    """The file is deleted."""
    path.unlink()


@pytest.mark.parametrize("happens", [theirs, put_away])
@pytest.mark.parametrize("words", ["Stay here", "Keep it elsewhere…", "Close all the same"])
def test_a_window_whose_file_lost_what_it_held_is_not_closed_without_a_word(
    path: Path,
    show: Callable[[], BookWindow],
    monkeypatch: pytest.MonkeyPatch,
    happens: Callable[[Path], None],
    words: str,
) -> None:
    window = show()
    window.book.edit(rename(window.book.notebook, "Mine"), "rename")
    mine = path.with_name("mine.lawnbook")
    monkeypatch.setattr("lawnbook.desk.window.choose_elsewhere", lambda *_: mine)
    happens(path)
    answer(words)
    assert window.close() is (words != "Stay here")
    if words == "Keep it elsewhere…":
        assert load(mine).yard.name == "Mine"
    left = {each.name for each in path.parent.glob("*-journal")}
    assert left <= ({"small.lawnbook-journal"} if words == "Stay here" else set())


def test_an_untouched_file_is_closed_without_a_question(
    path: Path, show: Callable[[], BookWindow]
) -> None:
    window = show()
    window.book.edit(rename(window.book.notebook, "Mine"), "rename")
    path.touch()
    assert window.close()
    assert load(path).yard.name == "Mine"


def test_what_was_here_before_a_change_underneath_can_be_kept(
    path: Path, show: Callable[[], BookWindow], monkeypatch: pytest.MonkeyPatch
) -> None:
    window = show()
    window.book.edit(rename(window.book.notebook, "Mine"), "rename")
    mine = path.with_name("mine.lawnbook")
    monkeypatch.setattr(reading_only, "choose_elsewhere", lambda *_: mine)
    theirs(path)
    window.watch.look()
    press(window, "file_before")
    assert (load(mine).yard.name, load(path).yard.name) == ("Mine", "Theirs")
    assert (said(window), window.status.words.text()) == ("", f"Written: {mine}")


def test_a_file_that_another_program_spoiled_is_told_as_such(
    path: Path, show: Callable[[], BookWindow]
) -> None:
    window = show()
    path.write_bytes(b"")
    window.watch.look()
    assert said(window).startswith(
        "Another program has changed small.lawnbook, which cannot be read now (this is not a "
    )
    assert window.status.words.text() == "The file was changed: see above."
