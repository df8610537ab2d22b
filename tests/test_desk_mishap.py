"""Our own mistakes in the window: one dialog, one report without entries, and it goes on."""

import signal
import sys
import threading
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QThread, QTimer, QUrl
from PySide6.QtGui import QDesktopServices, QGuiApplication, QPaintEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.mishap import AGAIN_AFTER_S, Mishaps
from lawnbook.desk.mishap_dialog import MishapDialog
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.session.crash_log import reports_of_crashes, without_paths
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.sqlite_store import create
from lawnbook.store.yardfile import load_any
from lawnbook.yard.problems import OwnerError
from tests.conftest import TODAY
from tests.small_book import in_child, rename, small_notebook

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")
SECRET = "Grandmother's lilac"


@dataclass
class Clock:
    """Seconds that go on only when they are told to."""

    now: float = 0.0

    def __call__(self) -> float:
        """The seconds now."""
        return self.now


@pytest.fixture
def clock() -> Clock:
    """The clock of the mishaps."""
    return Clock()


@pytest.fixture
def logs(tmp_path: Path) -> Path:
    """Where reports go."""
    return tmp_path / "logs"


@pytest.fixture
def window(
    tmp_path: Path, settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> Iterator[BookWindow]:
    """The small notebook in its window."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    create(tmp_path / "small.lawnbook", small_notebook())
    held = BookWindow(OpenNotebook.open(tmp_path / "small.lawnbook", TODAY), settings)
    held.show()
    yield held
    held.close()
    held.deleteLater()


@pytest.fixture
def mishaps(window: BookWindow, clock: Clock, logs: Path) -> Iterator[Mishaps]:
    """Python's hooks as the program sets them."""
    held = Mishaps(window, clock, logs)
    held.start()
    yield held
    held.end()


def dialogs(window: BookWindow) -> list[MishapDialog]:
    """The dialogs that stand."""
    for _ in range(3):
        QApplication.processEvents()
    return [each for each in window.findChildren(MishapDialog) if each.isVisible()]


def press(dialog: MishapDialog, name: str) -> None:
    """Click a button or tick a box of the dialog."""
    found = dialog.findChild(QWidget, name)
    assert isinstance(found, QPushButton | QCheckBox), name
    where = found.rect().center()
    if isinstance(found, QCheckBox):
        where.setX(8)
    QTest.mouseClick(found, Qt.MouseButton.LeftButton, pos=where)
    QApplication.processEvents()


def fail() -> None:
    """A mistake with a secret in its message and in its locals."""
    entered = SECRET
    raise ValueError(f"{entered} is not a number")


def caught(what: type[Exception] = ValueError) -> Exception:
    """A mistake of a kind, raised here."""
    try:
        raise what(SECRET)
    except what as error:
        return error


def test_a_mistake_in_a_slot_is_told_with_a_report_and_the_program_goes_on(
    window: BookWindow, mishaps: Mishaps, logs: Path
) -> None:
    QTimer.singleShot(0, window, fail)
    (dialog,) = dialogs(window)
    (report,) = logs.iterdir()
    text = report.read_text(encoding="utf-8")
    assert "builtins.ValueError" in text
    assert "tests/test_desk_mishap.py" in text
    assert "lilac" not in text
    assert str(Path.home()) not in text
    assert str(report) in dialog.words.text()
    press(dialog, "mishap_copy")
    assert QGuiApplication.clipboard().text() == text
    press(dialog, "mishap_go_on")
    assert dialogs(window) == []
    window.book.edit(rename(window.book.notebook, "After"), "rename")
    assert (window.book.trouble, window.windowTitle()) == ("", "After – Lawnbook")


def test_later_ones_are_counted_and_another_kind_goes_into_the_same_report(
    window: BookWindow, mishaps: Mishaps, logs: Path
) -> None:
    for kind in (ValueError, ValueError, KeyError):
        mishaps.note(caught(kind))
    (dialog,) = dialogs(window)
    assert dialog.counted.text() == "Since then something went wrong 2 more times."
    for words in (dialog.words, dialog.counted, dialog.about):
        assert words.height() >= words.heightForWidth(words.width()), "words are cut off"
    (report,) = logs.iterdir()
    text = report.read_text(encoding="utf-8")
    assert (text.count("builtins.ValueError"), text.count("builtins.KeyError")) == (1, 1)
    press(dialog, "mishap_go_on")


def test_the_same_is_told_once_a_minute_at_most(
    window: BookWindow, mishaps: Mishaps, clock: Clock
) -> None:
    mishaps.note(caught())
    press(dialogs(window)[0], "mishap_go_on")
    clock.now += AGAIN_AFTER_S - 1
    mishaps.note(caught())
    assert dialogs(window) == []
    mishaps.note(caught(KeyError))
    press(dialogs(window)[0], "mishap_go_on")
    clock.now += 2
    mishaps.note(caught())
    press(dialogs(window)[0], "mishap_go_on")


class Spoilt(QWidget):
    """A widget that cannot paint itself."""

    painted = 0

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Fail."""
        Spoilt.painted += 1
        fail()


def test_a_mistake_in_painting_does_not_go_round_for_ever(
    qtbot: QtBot, window: BookWindow, mishaps: Mishaps, logs: Path
) -> None:
    Spoilt.painted = 0
    spoilt = Spoilt(window)
    spoilt.setGeometry(0, 0, 50, 50)
    spoilt.show()
    qtbot.wait(50)
    (dialog,) = dialogs(window)
    before = Spoilt.painted
    assert before >= 1
    for _ in range(20):
        QApplication.processEvents()
    assert Spoilt.painted - before <= 1
    press(dialog, "mishap_go_on")
    spoilt.update()
    assert dialogs(window) == []
    assert len(list(logs.iterdir())) == 1
    spoilt.hide()


def test_other_threads_and_what_cannot_be_raised_are_heard(
    qtbot: QtBot, window: BookWindow, mishaps: Mishaps
) -> None:
    class Run(QThread):
        def run(self) -> None:
            fail()

    class Unraisable:
        def __del__(self) -> None:
            raise KeyError(SECRET)

    thread = threading.Thread(target=fail)
    thread.start()
    thread.join()
    (dialog,) = dialogs(window)
    run = Run()
    run.start()
    run.wait()
    held = [Unraisable()]
    held.clear()
    qtbot.waitUntil(lambda: dialog.counted.text().endswith("2 more times."))
    press(dialog, "mishap_go_on")


def test_an_owners_sentence_that_nobody_caught_is_only_said(
    window: BookWindow, mishaps: Mishaps, logs: Path
) -> None:
    mishaps.note(OwnerError("small.lawnbook is open in another window."))
    assert dialogs(window) == []
    box = window.findChild(QWidget, "told")
    assert box is not None
    assert not logs.exists()
    box.close()


def test_the_entries_are_added_only_where_the_owner_ticks_it(
    window: BookWindow, mishaps: Mishaps, logs: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window.book.edit(rename(window.book.notebook, SECRET), "rename")
    opened: list[str] = []

    def open_url(url: QUrl) -> bool:
        opened.append(url.toLocalFile())
        return True

    monkeypatch.setattr(QDesktopServices, "openUrl", open_url)
    mishaps.note(caught())
    (dialog,) = dialogs(window)
    assert SECRET not in "".join(each.read_text(encoding="utf-8") for each in logs.iterdir())
    press(dialog, "mishap_add")
    (entries,) = logs.glob("*-entries.json")
    assert load_any(entries, TODAY).yard.name == SECRET
    assert "names, notes, places and photos" in dialog.about.text()
    press(dialog, "mishap_add")
    assert list(logs.glob("*-entries.json")) == []
    press(dialog, "mishap_folder")
    assert opened == [str(logs)]
    press(dialog, "mishap_go_on")


def test_a_page_that_fails_keeps_the_edit_and_the_other_pages_are_told(
    window: BookWindow, mishaps: Mishaps
) -> None:
    told: list[object] = []
    window.book.subscribe(lambda _: fail())
    window.book.subscribe(told.append)
    with pytest.raises(ValueError, match="lilac"):
        window.book.edit(rename(window.book.notebook, "After"), "rename")
    assert len(told) == 1
    assert (window.book.notebook.yard.name, window.book.waiting) == ("After", 0)


def test_where_no_report_can_be_written_it_can_still_be_copied(
    window: BookWindow, clock: Clock, tmp_path: Path
) -> None:
    (tmp_path / "blocked").touch()
    held = Mishaps(window, clock, tmp_path / "blocked")
    held.note(caught())
    (dialog,) = dialogs(window)
    assert "could not be written" in dialog.words.text()
    assert not dialog.adding.isVisible()
    press(dialog, "mishap_copy")
    assert "builtins.ValueError" in QGuiApplication.clipboard().text()
    press(dialog, "mishap_go_on")


def test_the_hooks_are_left_as_they_were(window: BookWindow) -> None:
    before = (sys.excepthook, threading.excepthook, sys.unraisablehook)
    held = Mishaps(window)
    held.start()
    assert sys.excepthook != before[0]
    held.end()
    assert (sys.excepthook, threading.excepthook, sys.unraisablehook) == before


def test_a_fault_that_ends_the_process_leaves_a_report_of_places(tmp_path: Path) -> None:
    child = in_child(
        """
        import os, signal, sys
        from pathlib import Path
        from lawnbook.session.crash_log import CrashLog

        CrashLog(Path(sys.argv[1])).end()
        assert not list(Path(sys.argv[1]).iterdir())
        log = CrashLog(Path(sys.argv[1]))
        secret = "Grandmother's lilac"
        os.kill(os.getpid(), signal.SIGSEGV)
        """,
        tmp_path,
    )
    assert child.returncode == -signal.SIGSEGV
    running = tmp_path / "running"
    running.touch()
    (report,) = reports_of_crashes(tmp_path, running)
    text = report.read_text(encoding="utf-8")
    assert "Segmentation fault" in text
    assert "lilac" not in text
    assert [each.name for each in tmp_path.glob("lawnbook-running-*")] == []


def test_whole_paths_become_places_in_the_program() -> None:
    home = Path(__file__).resolve().parent.parent / "lawnbook" / "desk" / "window.py"
    told = without_paths(f'  File "{home}", line 12 in show\n  File "/home/anna/x.py", line 3 in y')
    assert told == "  lawnbook/desk/window.py:12 in show\n  x.py:3 in y"
