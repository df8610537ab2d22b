"""A notebook is one ordinary file: copied while it is open, started twice, of a newer program."""

import random
import shutil
import sqlite3
import time
from contextlib import ExitStack, closing
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication, QLabel

from lawnbook.desk.app import Desk
from lawnbook.desk.settings import Settings
from lawnbook.store.migrations import CURRENT_VERSION
from lawnbook.store.sqlite_store import create, load
from tests.conftest import TODAY
from tests.other_window import OtherWindow, other_window
from tests.small_book import small_notebook

pytest_plugins = ["tests.desk_book"]


@pytest.fixture
def path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The small notebook as a file in a folder of its own."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    made = tmp_path / "yards" / "small.lawnbook"
    made.parent.mkdir()
    create(made, small_notebook())
    return made


def test_a_copy_between_two_edits_is_the_notebook_as_it_was_told(path: Path) -> None:
    """SQLite keeps nothing beside the file once a commit is done (sqlite.org/atomiccommit.html)."""
    chance = random.Random(9)
    copy = path.parent.parent / "copy.lawnbook"
    with other_window(path) as other:
        for number in range(12):
            assert other.rename(f"Name {number}") == "done"
            time.sleep(chance.random() / 50)
            shutil.copy(path, copy)
            beside = [each for each in path.parent.iterdir() if each != path]
            assert [each.stat().st_size for each in beside] in ([], [0])
            with closing(sqlite3.connect(copy)) as raw:
                assert raw.execute("PRAGMA integrity_check").fetchone() == ("ok",)
            assert load(copy).yard.name == f"Name {number}"
        assert other.close() == "done"
        assert list(path.parent.iterdir()) == [path]


def test_of_windows_started_at_once_one_writes_and_the_others_look(path: Path) -> None:
    with ExitStack() as all_closed:
        started = [OtherWindow(path, wait=False) for _ in range(4)]
        for each in started:
            all_closed.callback(each.end)
        firsts = sorted(each.opened() for each in started)
    assert firsts == ["read only", "read only", "read only", "writer"]


@pytest.mark.usefixtures("dressed")
def test_the_window_refuses_a_newer_notebook_untouched(
    qapp: QApplication, path: Path, settings: Settings
) -> None:
    with closing(sqlite3.connect(path)) as raw:
        raw.execute(f"PRAGMA user_version = {CURRENT_VERSION + 1}")
        raw.commit()
    left = (path.read_bytes(), path.stat().st_mtime_ns)
    desk = Desk(qapp, settings, TODAY)
    assert not desk.open(path)
    assert desk.welcome is not None
    told = desk.welcome.findChild(QLabel, "welcome_problem")
    assert isinstance(told, QLabel)
    assert "a newer Lawnbook wrote this notebook" in told.text()
    assert (path.read_bytes(), path.stat().st_mtime_ns) == left
    assert list(path.parent.iterdir()) == [path]
    desk.welcome.close()
    desk.welcome.deleteLater()
    desk.deleteLater()
