"""A big notebook is kept elsewhere beside the window's work: edits meanwhile go along."""

import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from lawnbook.desk import moving_out, status
from lawnbook.desk.settings import Settings
from lawnbook.desk.wait_line import CALLED_OFF
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.sqlite_store import create, load
from lawnbook.yard.notebook import Notebook, put
from lawnbook.yard.photos import new_photo
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Core
from tests.conftest import TODAY
from tests.small_book import rename, small_notebook
from tests.waiting import until_done

pytest_plugins = ["tests.desk_book"]
LONG_S = 20.0


class Disk:
    """Stands for a slow disk: writes once it is let through."""

    def __init__(self) -> None:
        self.free, self.begun = threading.Event(), threading.Event()
        self.fails = False
        self.threads: set[int] = set()

    def create(self, path: Path, notebook: Notebook, between: Callable[[bool], None]) -> None:
        """Write a new notebook file."""
        self.threads.add(threading.get_ident())
        self.begun.set()
        assert self.free.wait(LONG_S)
        if self.fails:
            raise OwnerError("new.lawnbook: no room.")
        create(path, notebook, between=between)


@pytest.fixture
def disk(monkeypatch: pytest.MonkeyPatch) -> Iterator[Disk]:
    made = Disk()
    monkeypatch.setattr(moving_out, "create", made.create)
    monkeypatch.setattr(moving_out, "takes_long", lambda _: True)
    yield made
    made.free.set()


@pytest.fixture
def new(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where the owner wants it."""
    folder = tmp_path / "elsewhere"
    folder.mkdir()
    monkeypatch.setattr(moving_out, "choose_elsewhere", lambda *_: folder / "new.lawnbook")
    return folder / "new.lawnbook"


@pytest.fixture
def window(qtbot: QtBot, dressed: QApplication, disk: Disk, tmp_path: Path) -> Iterator[BookWindow]:
    book = OpenNotebook.create(tmp_path / "small.lawnbook", small_notebook(), TODAY)
    made = BookWindow(book, Settings(tmp_path / "desk.ini"))
    made.show()
    qtbot.waitUntil(lambda: made.held_plan is not None)
    yield made
    disk.free.set()
    made.writing.cancel()
    made.close()
    made.deleteLater()


def test_edits_made_meanwhile_go_along_and_the_old_file_keeps_them_too(
    window: BookWindow, disk: Disk, new: Path
) -> None:
    book, old = window.book, window.book.path
    book.edit(rename(book.notebook, "Before"), "before")
    window.move_out()
    assert disk.begun.wait(LONG_S)
    book.edit(rename(book.notebook, "Meanwhile"), "meanwhile")
    disk.free.set()
    until_done(window)
    assert threading.main_thread().ident not in disk.threads
    assert book.path == new
    assert window.status.words.text() == status.KEPT
    assert load(new).yard.name == load(old).yard.name == "Meanwhile"
    book.undo()
    book.undo()
    assert load(new) == book.notebook == small_notebook()
    assert load(old).yard.name == "Meanwhile"


def test_stopped_it_stays_where_it_is_and_nothing_is_left(
    window: BookWindow, disk: Disk, new: Path
) -> None:
    old = window.book.path
    window.move_out()
    assert disk.begun.wait(LONG_S)
    window.writing.cancel()
    assert window.status.words.text() == CALLED_OFF
    disk.free.set()
    window.writing.finish()
    assert window.book.path == old
    assert list(new.parent.iterdir()) == []


def test_a_disk_that_refuses_is_told_and_it_stays(
    window: BookWindow, disk: Disk, new: Path
) -> None:
    old, disk.fails = window.book.path, True
    window.move_out()
    disk.free.set()
    until_done(window)
    assert window.status.words.text() == "new.lawnbook: no room."
    assert window.book.path == old
    assert list(new.parent.iterdir()) == []


def test_a_picture_that_undo_may_bring_back_goes_along(
    window: BookWindow, disk: Disk, new: Path
) -> None:
    """Added and undone meanwhile: only the window holds it, which then writes it all itself."""
    book = window.book
    core = Core(id="plug", spot="elm", date=TODAY, thatch_in=(0.5,))
    book.edit(put(book.notebook, "cores", core), "plug")
    window.move_out()
    assert disk.begun.wait(LONG_S)
    book.edit(put(book.notebook, "photos", new_photo("plug", b"picture", (4, 3))), "photo")
    book.undo()
    disk.free.set()
    until_done(window)
    assert book.path == new
    book.redo()
    (photo,) = load(new).photos.values()
    assert photo.data_b64.data() == b"picture"
