"""What could not be written waits, is tried again by itself, and the window stays as it was."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QMessageBox, QPushButton
from pytestqt.qtbot import QtBot

from lawnbook.desk import status
from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.sqlite_store import create, load
from lawnbook.yard.notebook import put
from lawnbook.yard.photos import new_photo
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Core
from tests.conftest import TODAY
from tests.small_book import rename, small_notebook

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


@pytest.fixture
def window(
    qtbot: QtBot, tmp_path: Path, settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> Iterator[BookWindow]:
    """The small notebook in a folder of its own, in a window that tries again soon."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setattr(status, "PAUSES_MS", (30, 60, 120))
    (tmp_path / "own").mkdir()
    path = tmp_path / "own" / "small.lawnbook"
    create(path, small_notebook())
    made = BookWindow(OpenNotebook.open(path, TODAY), settings)
    made.resize(1440, 900)
    made.show()
    made.activateWindow()
    # Before the first plan no page takes what is typed.
    qtbot.waitUntil(lambda: made.isActiveWindow() and made.held_plan is not None)
    yield made
    monkeypatch.setattr("lawnbook.desk.closing.close_with_trouble", lambda *_: "abandon")
    made.close()
    made.deleteLater()


def type_name(window: BookWindow, name: str) -> QLineEdit:
    """Type the yard's name into its field, which keeps it."""
    window.turn_to("Yard")
    page = window.page("Yard")
    assert isinstance(page, YardPage)
    page.turn_to("Overview")
    field = window.findChild(QLineEdit, "yard_name")
    assert field is not None
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, name)
    QTest.keyClick(field, Qt.Key.Key_Return)
    return field


def button(window: BookWindow, name: str) -> QPushButton:
    """A button of the status line."""
    found = window.findChild(QPushButton, name)
    assert found is not None
    return found


def said(window: BookWindow) -> str:
    """What the status line says."""
    return window.status.words.text()


def test_it_is_saved_by_itself_when_it_can_be(qtbot: QtBot, window: BookWindow) -> None:
    """The folder comes back, as with a drive; the field that is typed in keeps the keyboard."""
    folder = window.book.path.parent
    folder.rename(folder.with_name("unplugged"))
    field = type_name(window, "Typed while unplugged")
    assert window.book.waiting == 1
    assert said(window).startswith("Not on disk yet (1 change waits).")
    assert f"the folder {folder} is not there" in said(window)
    assert button(window, "status_write_back").isHidden()
    field.setFocus()
    QTest.keyClicks(field, " and on")
    qtbot.wait(200)
    assert window.book.waiting == 1
    folder.with_name("unplugged").rename(folder)
    qtbot.waitUntil(lambda: not window.book.waiting)
    assert said(window) == status.KEPT
    assert QApplication.focusWidget() is field
    assert field.text().endswith(" and on")
    assert load(window.book.path).yard.name == "Typed while unplugged"


def test_pauses_grow_and_begin_anew(
    qtbot: QtBot, window: BookWindow, monkeypatch: pytest.MonkeyPatch
) -> None:
    tried: list[int] = []
    again = window.status.findChild(QTimer)
    assert again is not None
    with monkeypatch.context() as patch:
        patch.setattr("lawnbook.store.sqlite_store.Store.write", refuse)
        window.book.edit(rename(window.book.notebook, "One"), "One")
        for _ in range(5):
            tried.append(again.interval())
            again.stop()
            again.timeout.emit()
        assert tried == [30, 60, 120, 120, 120]
        QTest.mouseClick(button(window, "status_retry"), Qt.MouseButton.LeftButton)
        assert said(window).startswith("Tried again: not on disk yet (1 change waits).")
        assert again.interval() == 30
    window.book.edit(rename(window.book.notebook, "Two"), "Two")
    assert (window.book.waiting, said(window)) == (0, status.KEPT)
    assert not again.isActive()


def test_a_removed_file_is_written_back_with_a_click(qtbot: QtBot, window: BookWindow) -> None:
    window.book.path.unlink()
    type_name(window, "Typed afterwards")
    assert "put it back, write it anew, or save it elsewhere" in said(window)
    shown = button(window, "status_write_back")
    assert shown.isVisible()
    assert not window.book.path.exists(), "nothing is written there unasked"
    qtbot.wait(100)
    assert not window.book.path.exists(), "nor after a while"
    QTest.mouseClick(shown, Qt.MouseButton.LeftButton)
    assert (said(window), shown.isHidden()) == (status.KEPT, True)
    assert load(window.book.path) == window.book.notebook
    assert window.book.notebook.yard.name == "Typed afterwards"


def test_another_file_in_its_place_stays(qtbot: QtBot, window: BookWindow) -> None:
    window.book.path.unlink()
    type_name(window, "Typed afterwards")
    window.book.path.write_bytes(b"theirs")
    QTest.mouseClick(button(window, "status_write_back"), Qt.MouseButton.LeftButton)
    assert "another file lies there now" in said(window)
    assert window.book.path.read_bytes() == b"theirs"
    assert window.book.waiting == 1


def test_keeping_it_elsewhere_tells_of_pictures_that_could_not_come_along(
    window: BookWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("lawnbook.desk.window.choose_elsewhere", lambda *_: tmp_path / "b.lawnbook")
    core = Core(id="plug", spot="elm", date=TODAY, thatch_in=(0.5,))
    window.book.edit(put(window.book.notebook, "cores", core), "Plug")
    photo = new_photo("plug", b"picture", (4, 3))
    lost = replace(photo, data_b64=Picture(photo.sha256, unread))
    window.book.path.unlink()
    window.book.edit(put(window.book.notebook, "photos", lost), "Photo")
    QTest.mouseClick(button(window, "status_elsewhere"), Qt.MouseButton.LeftButton)
    box = window.findChild(QMessageBox, "pictures_lost")
    assert box is not None
    assert box.text().startswith("b.lawnbook holds all entries, but not 1 picture")
    box.close()
    assert said(window) == status.KEPT


def unread() -> bytes:
    """A picture whose drive is gone."""
    raise OwnerError("A picture cannot be read any more.")


def test_closing_asks_while_something_waits_and_tries_no_more(
    qtbot: QtBot, window: BookWindow
) -> None:
    window.book.path.unlink()
    type_name(window, "Lost with consent")
    asked = answer(window, "Stay here")
    assert not window.close()
    assert asked == ["The latest changes are not on disk."]
    assert window.book.waiting == 1
    answer(window, "Close and lose them")
    assert window.close()
    again = window.status.findChild(QTimer)
    assert again is not None
    assert not again.isActive()
    qtbot.wait(100)
    assert not window.book.path.exists()


def answer(window: BookWindow, words: str) -> list[str]:
    """Press a button of the question that closing asks; the list fills with what it said."""
    told: list[str] = []

    def press() -> None:
        box = window.findChild(QMessageBox, "close_with_trouble")
        assert box is not None
        assert box.icon() == QMessageBox.Icon.NoIcon
        told.append(box.text())
        chosen = next(each for each in box.buttons() if each.text() == words)
        QTest.mouseClick(chosen, Qt.MouseButton.LeftButton)

    QTimer.singleShot(0, press)
    return told


def refuse(*_changes: object) -> None:
    """A disk that refuses."""
    raise OwnerError("small.lawnbook: the disk is full; free some space, or save elsewhere.")
