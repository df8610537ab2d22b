"""Work beside the window: piece after piece, told in the window's thread, stopped, given up."""

import gc
import threading
from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest
from PySide6.QtCore import QObject, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMessageBox, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.beside import Beside, Stop
from lawnbook.desk.still_writing import may_close
from lawnbook.desk.wait_line import WaitLine, is_small
from lawnbook.yard.problems import OwnerError

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")
LEFT = Qt.MouseButton.LeftButton
HELD_S = 20.0


class Gate:
    """Work that waits until it is let through; notes what came of it."""

    def __init__(self) -> None:
        self.open = threading.Event()
        self.begun = threading.Event()
        self.left_off = threading.Event()
        self.told: list[object] = []

    def work(self, stop: Stop) -> str:
        """Wait, asking between steps whether anybody waits."""
        self.begun.set()
        step = 0
        while not self.open.wait(0.002):
            step += 1
            try:
                stop.step(step, 50_000, "row")
            except BaseException:
                self.left_off.set()
                raise
        return threading.current_thread().name

    def tell(self, outcome: object) -> None:
        """What came of it, and in which thread it is told."""
        assert threading.current_thread() is threading.main_thread()
        self.told.append(outcome)


@pytest.fixture
def gate() -> Iterator[Gate]:
    made = Gate()
    yield made
    made.open.set()


@pytest.fixture
def beside() -> Iterator[Beside]:
    made = Beside()
    yield made
    made.let_go()
    made.finish()
    made.deleteLater()


@pytest.fixture
def line(gate: Gate) -> Iterator[WaitLine]:
    page = QWidget()
    page.resize(400, 80)
    made = WaitLine("wait", page)
    made.resize(400, 40)
    page.show()
    yield made
    made.cancel()
    made.finish()
    page.deleteLater()


def test_pieces_are_done_in_their_order_and_told_here(
    qtbot: QtBot, beside: Beside, gate: Gate
) -> None:
    beside.start(gate.work, gate.tell)
    beside.start(lambda _: 2, gate.tell)
    assert beside.runs
    assert gate.begun.wait(HELD_S)
    assert not gc.isenabled(), "no garbage is collected in a thread"
    gate.open.set()
    qtbot.waitUntil(lambda: not beside.runs)
    assert gate.told == ["lawnbook-work", 2]
    assert gc.isenabled()


def test_the_owners_situation_is_an_outcome_and_our_mistake_is_raised_here(
    qtbot: QtBot, beside: Beside, gate: Gate
) -> None:
    def refused(_: Stop) -> object:
        raise OwnerError("No.")

    beside.start(refused, gate.tell)
    beside.start(lambda _: 1 // 0, gate.tell)
    beside.start(lambda _: "after it", gate.tell)
    with qtbot.captureExceptions() as raised:
        qtbot.waitUntil(lambda: len(gate.told) == 2)
    assert [str(each) for each in gate.told] == ["No.", "after it"]
    assert [each[0] for each in raised] == [ZeroDivisionError]


def test_what_is_let_go_leaves_off_and_the_next_begins_after_it(
    qtbot: QtBot, beside: Beside, gate: Gate
) -> None:
    beside.start(gate.work, gate.tell)
    assert gate.begun.wait(HELD_S)
    beside.let_go()
    assert not beside.runs
    beside.start(lambda _: gate.left_off.is_set(), gate.tell)
    qtbot.waitUntil(lambda: bool(gate.told))
    assert gate.told == [True]


def test_at_the_end_all_is_done_and_nothing_told(beside: Beside, gate: Gate) -> None:
    done: list[int] = []

    def note(number: int, _: Stop) -> None:
        done.append(number)

    for number in range(3):
        beside.start(partial(note, number), gate.tell)
    beside.finish()
    QApplication.processEvents()
    assert done == [0, 1, 2]
    assert gate.told == []


def test_deleting_it_calls_the_work_off(gate: Gate) -> None:
    owner = QObject()
    Beside(owner).start(gate.work, gate.tell)
    assert gate.begun.wait(HELD_S)
    owner.deleteLater()
    QTest.qWait(1)
    assert gate.left_off.wait(HELD_S)
    assert gate.told == []


def test_the_line_comes_after_a_moment_counts_and_can_be_cancelled(
    qtbot: QtBot, line: WaitLine, gate: Gate
) -> None:
    cancelled: list[bool] = []
    line.cancelled.connect(lambda: cancelled.append(True))
    line.do("Reading a.csv…", gate.work, gate.tell)
    assert line.isHidden(), "small work never flashes"
    with qtbot.waitSignal(line.shown):
        pass
    qtbot.waitUntil(lambda: " of 50,000" in line.accessibleDescription())
    QTest.mouseClick(line.stop_button, LEFT)
    assert cancelled == [True]
    assert line.isHidden()
    assert gate.left_off.wait(HELD_S)
    assert gate.told == []


def test_what_takes_a_moment_is_there_at_once(line: WaitLine, gate: Gate) -> None:
    def refused(_: Stop) -> object:
        raise OwnerError("No.")

    line.do("", lambda _: 7, gate.tell, at_once=True)
    line.do("", refused, gate.tell, at_once=True)
    assert [str(each) for each in gate.told] == ["7", "No."]


def test_a_newer_wish_takes_the_place_of_an_older(qtbot: QtBot, line: WaitLine, gate: Gate) -> None:
    line.do("", gate.work, gate.tell)
    line.do("", lambda _: "newer", gate.tell)
    qtbot.waitUntil(lambda: bool(gate.told))
    assert gate.told == ["newer"]


@pytest.mark.parametrize("gives_up", [False, True])
def test_closing_asks_once_while_a_file_is_being_written(
    line: WaitLine, gate: Gate, monkeypatch: pytest.MonkeyPatch, *, gives_up: bool
) -> None:
    asked: list[str] = []

    def answer(box: QMessageBox) -> int:
        asked.append(box.text())
        words = "Give it up and close" if gives_up else "Stay until it is written"
        button = next(each for each in box.findChildren(QPushButton) if each.text() == words)
        button.click()
        return 0

    monkeypatch.setattr(QMessageBox, "exec", answer)
    window = line.parentWidget()
    assert window is not None
    assert may_close(window), "nothing is being written yet"
    line.write("Writing…", "all.xlsx", gate.work, gate.tell, at_once=False)
    assert gate.begun.wait(HELD_S)
    assert may_close(window) is gives_up
    assert asked == ["all.xlsx is still being written."]
    assert gate.left_off.is_set() is gives_up
    assert line.runs is not gives_up


def test_only_a_big_file_is_read_beside_the_window(tmp_path: Path) -> None:
    small, big = tmp_path / "small.csv", tmp_path / "big.csv"
    small.write_bytes(b"a" * 1_000)
    big.write_bytes(b"a" * 100_000)
    assert [is_small(each) for each in (small, big, tmp_path / "none")] == [True, False, True]
