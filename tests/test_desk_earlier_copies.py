"""Earlier copies in the window: kept, looked at, opened, taken back; and damaged notebooks."""

import errno
import os
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from threading import Event
from threading import enumerate as enumerate_threads
from typing import TypeVar, cast

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QLabel, QPushButton, QWidget
from pytestqt.qtbot import QtBot
from shiboken6 import isValid

from lawnbook.desk import app as desk_app
from lawnbook.desk import ways_back
from lawnbook.desk.app import Desk
from lawnbook.desk.beside import LOOK_MS
from lawnbook.desk.copy_keeping import CopyKeeper, altered_told
from lawnbook.desk.rescue import DamagedDialog, SalvagedDialog
from lawnbook.desk.restore import EarlierCopies, size_told
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store import salvage as store_salvage
from lawnbook.store.backups import copies_of, keep_copy, saving_count
from lawnbook.store.salvage_told import SalvageTold
from lawnbook.store.sqlite_store import create, load
from tests.desk_sample import DAY
from tests.photo_book import photo, photo_notebook
from tests.small_book import rename, small_notebook

pytest_plugins = ["tests.desk_book"]

W = TypeVar("W", bound=QWidget)
WORK = "lawnbook-work"
"""What the threads are called that work beside a window."""

BEFORE = datetime(2026, 11, 20, 9, 5, tzinfo=UTC)


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """Where copies go."""
    return tmp_path / "data" / "backups"


@pytest.fixture
def path(tmp_path: Path, root: Path) -> Path:
    """A notebook with one copy of how it was before its yard had another name."""
    path = tmp_path / "Home.lawnbook"
    create(path, small_notebook())
    keep_copy(path, saving_count(path), BEFORE, root)
    edit(path, "Later")
    return path


@pytest.fixture
def desk(
    dressed: QApplication,
    settings: Settings,
    tmp_path: Path,
    root: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> Iterator[Desk]:
    """A desk that keeps copies in the test's own folder, at once."""
    monkeypatch.setattr(desk_app, "KEEP_AFTER_MS", 0)
    settings.folder = tmp_path
    held = Desk(dressed, settings, DAY, root)
    yield held
    for each in (held.window, held.welcome):
        if each is not None:
            each.close()
    if held.welcome is not None:
        held.welcome.deleteLater()
    held.finish()
    held.deleteLater()


def edit(path: Path, name: str) -> None:
    book = OpenNotebook.open(path, DAY)
    book.edit(rename(book.notebook, name), "rename")
    book.close()


def window_of(desk: Desk) -> BookWindow:
    assert desk.window is not None
    return desk.window


def dialog_of(parent: QWidget, kind: type[W]) -> W:
    found = parent.findChild(kind)
    assert found is not None
    return found


def press(dialog: QDialog, name: str) -> None:
    button = dialog.findChild(QPushButton, name)
    assert button is not None
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def words(dialog: QDialog, name: str) -> str:
    return cast(QLabel, dialog.findChild(QLabel, name)).text()


def cells(dialog: EarlierCopies) -> list[str]:
    """The first row of what taking back would do."""
    items = [dialog.table.item(0, column) for column in range(dialog.table.columnCount())]
    return [item.text() for item in items if item is not None]


def names(path: Path, root: Path) -> list[str]:
    return [load(copy.path).yard.name for copy in copies_of(path, root)]


def copies_dialog(qtbot: QtBot, desk: Desk) -> EarlierCopies:
    """The dialog from the window's menu, once the newest copy is shown."""
    window = window_of(desk)
    menus = [each.menu() for each in window.menuBar().actions()]
    actions = [action for menu in menus for action in cast(QWidget, menu).actions()]
    next(each for each in actions if each.text().replace("&", "") == "Earlier copies…").trigger()
    dialog = dialog_of(window, EarlierCopies)
    qtbot.waitUntil(dialog.open_button.isEnabled)
    return dialog


def test_what_a_crash_or_another_program_left_is_kept_on_opening(
    qtbot: QtBot, desk: Desk, path: Path, root: Path
) -> None:
    assert desk.open(path)
    qtbot.waitUntil(lambda: names(path, root) == ["Later", "Small"])


def test_a_session_with_an_edit_is_kept_at_its_end_and_one_without_is_not(
    desk: Desk, path: Path, root: Path
) -> None:
    desk.open(path)
    book = window_of(desk).book
    book.edit(rename(book.notebook, "Today"), "rename")
    window_of(desk).close()
    desk.keeper.finish()
    assert names(path, root)[0] == "Today"
    count = len(copies_of(path, root))
    other = CopyKeeper(root, lambda: BEFORE)
    other.begun(path, other.before(path), load(path))
    other.ended(path)
    other.finish()
    assert len(copies_of(path, root)) == count


def test_a_copy_is_looked_at_and_opened_as_a_new_notebook(
    qtbot: QtBot, desk: Desk, path: Path, root: Path, tmp_path: Path
) -> None:
    desk.open(path)
    qtbot.waitUntil(lambda: len(copies_of(path, root)) == 2)
    dialog = copies_dialog(qtbot, desk)
    assert words(dialog, "earlier_words") == "It holds just what the notebook holds now."
    assert not dialog.back_button.isEnabled()
    assert dialog.focusWidget() is dialog.list
    QTest.keyClick(dialog.list, Qt.Key.Key_Down)
    qtbot.waitUntil(lambda: words(dialog, "earlier_words") == "Small")
    assert words(dialog, "earlier_title") == "20 Nov 2026, 09:05"
    assert cells(dialog) == ["Yard", "", "yes", ""]
    QTest.keyClick(dialog.list, Qt.Key.Key_Return)
    assert window_of(desk).book.path == tmp_path / "Home 2026-11-20.lawnbook"
    assert window_of(desk).book.notebook == small_notebook()
    assert load(path).yard.name == "Later"


def test_a_copy_taken_back_is_one_edit_and_the_present_one_is_kept_first(
    qtbot: QtBot, desk: Desk, path: Path, root: Path
) -> None:
    desk.open(path)
    qtbot.waitUntil(lambda: len(copies_of(path, root)) == 2)
    book = window_of(desk).book
    book.edit(rename(book.notebook, "Newest"), "rename")
    dialog = copies_dialog(qtbot, desk)
    QTest.keyClick(dialog.list, Qt.Key.Key_Down)
    qtbot.waitUntil(lambda: words(dialog, "earlier_words") == "Small")
    press(dialog, "earlier_back")
    qtbot.waitUntil(lambda: book.notebook.yard.name == "Small")
    assert load(path) == small_notebook()
    assert names(path, root) == ["Newest", "Later", "Small"]
    assert "taking back the copy of 20 Nov 2026, 09:05" in book.undo_label
    said = "The copy of 20 Nov 2026, 09:05 is taken back. Undo undoes that."
    assert window_of(desk).status.words.text() == said
    window_of(desk).undo()
    assert load(path).yard.name == "Newest"


def test_nothing_is_taken_back_where_the_present_one_cannot_be_kept(
    qtbot: QtBot, desk: Desk, path: Path, root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk.open(path)
    qtbot.waitUntil(lambda: len(copies_of(path, root)) == 2)
    book = window_of(desk).book
    book.edit(rename(book.notebook, "Newest"), "rename")
    dialog = copies_dialog(qtbot, desk)

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    press(dialog, "earlier_back")
    qtbot.waitUntil(lambda: "Nothing was taken back" in words(dialog, "earlier_words"))
    assert book.notebook.yard.name == "Newest"


def test_a_copy_comes_back_with_its_pictures(
    qtbot: QtBot, desk: Desk, tmp_path: Path, root: Path
) -> None:
    path = tmp_path / "Pictures.lawnbook"
    whole = photo_notebook(photo("c1"))
    create(path, whole)
    keep_copy(path, saving_count(path), BEFORE, root)
    book = OpenNotebook.open(path, DAY)
    taken = next(iter(book.notebook.photos.values()))
    book.edit({("photos", taken.id): (taken, None)}, "remove")
    book.close()
    desk.open(path)
    qtbot.waitUntil(lambda: len(copies_of(path, root)) == 2)
    dialog = copies_dialog(qtbot, desk)
    QTest.keyClick(dialog.list, Qt.Key.Key_Down)
    qtbot.waitUntil(dialog.back_button.isEnabled)
    press(dialog, "earlier_back")
    qtbot.waitUntil(lambda: bool(window_of(desk).book.notebook.photos))
    held = load(path).photos[taken.id]
    assert held.data_b64.data() == whole.photos[taken.id].data_b64.data()


def test_without_a_copy_the_dialog_says_when_the_first_is_kept(
    qtbot: QtBot, desk: Desk, tmp_path: Path
) -> None:
    desk.begin("Fresh")
    window_of(desk).copies_asked.emit()
    dialog = dialog_of(window_of(desk), EarlierCopies)
    qtbot.waitUntil(lambda: "no earlier copy" in words(dialog, "earlier_words"))
    assert not dialog.open_button.isEnabled()
    press(dialog, "earlier_close")
    assert not dialog.isVisible()


def test_a_full_disk_is_told_once_at_the_foot_of_the_page(
    qtbot: QtBot, desk: Desk, path: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("in the way")
    desk.keeper.root = tmp_path / "file" / "backups"
    said: list[str] = []
    desk.keeper.told.connect(said.append)
    desk.open(path)
    qtbot.waitUntil(lambda: len(said) == 1)
    assert said[0].startswith("No earlier copy could be kept.")
    assert said[0] in window_of(desk).status.words.text()
    book = window_of(desk).book
    book.edit(rename(book.notebook, "Still kept"), "rename")
    assert book.trouble == ""
    desk.keeper.begun(path, "1-1", book.notebook)
    desk.keeper.finish()
    assert len(said) == 1


def test_values_that_changed_without_an_edit_are_told(path: Path, root: Path) -> None:
    keep_copy(path, saving_count(path), BEFORE.replace(hour=10), root)
    assert altered_told(path, load(path), root) == ""
    data = path.read_bytes()
    assert data.count(b"Later") == 1
    path.write_bytes(data.replace(b"Later", b"Lauer"))
    told = altered_told(path, load(path), root)
    assert told.startswith("1 entry differs from the copy of 20 Nov 2026, 10:05")


def test_a_damaged_notebook_is_saved_as_far_as_it_can_be_read(
    qtbot: QtBot, desk: Desk, path: Path, tmp_path: Path
) -> None:
    data = path.read_bytes()
    harmed = data[:100] + bytes(300) + data[400:]
    path.write_bytes(harmed)
    assert not desk.open(path)
    assert desk.welcome is not None
    dialog = dialog_of(desk.welcome, DamagedDialog)
    assert "damaged" in words(dialog, "damaged_words")
    press(dialog, "damaged_save")
    qtbot.waitUntil(lambda: desk.window is not None)
    assert window_of(desk).book.path == tmp_path / "Home saved.lawnbook"
    assert window_of(desk).book.notebook == replace(
        small_notebook(), yard=replace(small_notebook().yard, name="Later")
    )
    told = dialog_of(window_of(desk), SalvagedDialog)
    assert "The list of the file's tables is damaged" in told.text.toPlainText()
    assert path.read_bytes() == harmed
    press(told, "salvaged_go_on")


def test_a_damaged_notebooks_copies_are_offered(
    qtbot: QtBot, desk: Desk, path: Path, tmp_path: Path
) -> None:
    path.write_bytes(b"SQLite format 3\x00" + path.read_bytes()[16:5000])
    desk.open(path)
    assert desk.welcome is not None
    dialog = dialog_of(desk.welcome, DamagedDialog)
    press(dialog, "damaged_copies")
    copies = dialog_of(dialog, EarlierCopies)
    qtbot.waitUntil(copies.open_button.isEnabled)
    assert not copies.back_button.isEnabled()
    press(copies, "earlier_open")
    assert window_of(desk).book.notebook == small_notebook()


def test_a_dialog_that_is_closed_meanwhile_takes_nothing_back(
    qtbot: QtBot, desk: Desk, path: Path, root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk.open(path)
    qtbot.waitUntil(lambda: len(copies_of(path, root)) == 2)
    dialog = copies_dialog(qtbot, desk)
    QTest.keyClick(dialog.list, Qt.Key.Key_Down)
    qtbot.waitUntil(lambda: words(dialog, "earlier_words") == "Small")
    going_on = Event()
    monkeypatch.setattr(ways_back, "keep_copy", lambda *_, **__: going_on.wait())
    press(dialog, "earlier_back")
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: not isValid(dialog))
    going_on.set()
    qtbot.waitUntil(lambda: all(each.name != WORK for each in enumerate_threads()))
    qtbot.wait(3 * LOOK_MS)
    assert load(path).yard.name == window_of(desk).book.notebook.yard.name == "Later"


def test_a_rescue_whose_dialog_is_closed_meanwhile_leaves_no_file(
    qtbot: QtBot, desk: Desk, path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = path.read_bytes()
    path.write_bytes(data[:100] + bytes(300) + data[400:])
    desk.open(path)
    assert desk.welcome is not None
    dialog = dialog_of(desk.welcome, DamagedDialog)
    going_on, salvage = Event(), store_salvage.salvage

    def slowly(path: Path, target: Path, today: date) -> SalvageTold:
        going_on.wait()
        return salvage(path, target, today)

    monkeypatch.setattr(store_salvage, "salvage", slowly)
    press(dialog, "damaged_save")
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: not isValid(dialog))
    going_on.set()
    qtbot.waitUntil(lambda: all(each.name != WORK for each in enumerate_threads()))
    qtbot.wait(3 * LOOK_MS)
    assert desk.window is None
    assert [each.name for each in tmp_path.glob("*.lawnbook")] == ["Home.lawnbook"]


@pytest.mark.parametrize("data", [b"Dear diary", b"", b"\x89PNG" + bytes(5000)])
def test_what_never_was_a_notebook_is_refused_without_an_offer(
    desk: Desk, tmp_path: Path, data: bytes
) -> None:
    file = tmp_path / "Other.lawnbook"
    file.write_bytes(data)
    assert not desk.open(file)
    assert desk.welcome is not None
    assert desk.welcome.findChild(DamagedDialog) is None


def test_sizes_are_told_in_their_unit() -> None:
    assert [size_told(each) for each in (10, 524_288, 5 * 2**20)] == ["1 KB", "512 KB", "5.0 MB"]
