"""How long the window's thread is held by what an owner does: the longest silence of its events.

    python -m tests.bench.holds [--where] [--sample STEM] [STEP ...]

A timer of the window beats every few milliseconds; where it is late, the window was held. With the
yard of `big_yard` or a sample, each step is done once as an owner would, and waited for until
nothing is made beside the window any more. `--where` tells what was at work in the longest silence.
"""

import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from types import FrameType

from PySide6.QtCore import QCoreApplication, QEventLoop, Qt, QTimer
from PySide6.QtWidgets import QApplication

from lawnbook.desk.beside import Beside
from lawnbook.desk.theme import apply_theme
from lawnbook.store.sqlite_store import create
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.places import sample_yards
from tests.bench.big_yard import TODAY, big_yard
from tests.bench.holds_steps import STEPS, Walk

BEAT_MS = 4
QUIET_MS = 350
"""So long nothing may have run for a step to be over: lines and veils come after 150 ms."""
LOOK_S = 0.01
TOLD_OVER_MS = 100
"""A silence over this is one in which an owner notices that the window does not answer."""


class Pulse:
    """Beats in the window's thread; a clock's signal looks what is at work in a silence.

    No thread may look: it would keep the frames that it sees, and let go of widgets in their place.
    """

    def __init__(self) -> None:
        self.longest_s = self.worked_s = 0.0
        self._last, self._cpu = time.perf_counter(), time.thread_time()
        self._seen: Counter[str] = Counter()
        self.where: Counter[str] = Counter()
        self._timer = QTimer()
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self.beat)
        self._timer.start(BEAT_MS)

    def watch(self) -> None:
        """Look what the window's thread does, until `end`; not on Windows."""
        signal.signal(signal.SIGALRM, self._look)
        signal.setitimer(signal.ITIMER_REAL, LOOK_S, LOOK_S)

    def end(self) -> None:
        """Look no more."""
        signal.setitimer(signal.ITIMER_REAL, 0)
        self._timer.stop()

    def anew(self) -> None:
        """Measure from here on."""
        self.longest_s = self.worked_s = 0.0
        self._last, self._cpu = time.perf_counter(), time.thread_time()
        self.where, self._seen = Counter(), Counter()

    def beat(self) -> None:
        """The window answers now."""
        now, cpu = time.perf_counter(), time.thread_time()
        self.worked_s, self._cpu = max(self.worked_s, cpu - self._cpu), cpu
        if now - self._last > self.longest_s:
            self.longest_s, self.where = now - self._last, self._seen
        self._last, self._seen = now, Counter()

    def _look(self, _signal: int, frame: FrameType | None) -> None:
        self._seen[_told(frame)] += 1


def _told(frame: FrameType | None) -> str:
    """The functions of ours at work, the outermost first."""
    names: list[str] = []
    while frame is not None:
        name = frame.f_code.co_filename
        if "/lawnbook/" in name:
            names.append(f"{Path(name).stem}.{frame.f_code.co_name}")
        frame = frame.f_back
    return " > ".join(reversed(names)) or "Qt itself"


def settle(walk: Walk, quiet_ms: int = QUIET_MS) -> None:
    """Run the window until nothing has been made beside it for a while."""
    since = time.perf_counter()
    while time.perf_counter() - since < quiet_ms / 1e3:
        QApplication.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)
        if any(each.runs for each in _besides(walk)):
            since = time.perf_counter()


def _besides(walk: Walk) -> Iterable[Beside]:
    return (*walk.window.findChildren(Beside), *walk.desk.findChildren(Beside))


def measured(walk: Walk, names: Iterable[str], *, where: bool) -> None:
    """Walk the steps and print for each the longest silence, and how long all of it took.

    On a busy machine the silence is longer than it is elsewhere: the most that the thread itself
    worked in one silence stands beside it.
    """
    pulse = Pulse()
    if where:
        pulse.watch()
    for name in names:
        step = STEPS[name]
        pulse.anew()
        began = time.perf_counter()
        step(walk)
        settle(walk)
        took_ms = 1e3 * (time.perf_counter() - began) - QUIET_MS
        pulse.beat()
        held_ms, worked_ms = 1e3 * pulse.longest_s, 1e3 * pulse.worked_s
        mark = "*" if held_ms > TOLD_OVER_MS else " "
        held = f"{held_ms:9.0f} ms held {mark}{worked_ms:7.0f} ms of work"
        print(f"{name:30}{held}{took_ms:9.0f} ms in all", flush=True)
        if where and held_ms > TOLD_OVER_MS:
            for told, count in _summed(pulse.where):
                print(f"      {count * LOOK_S * 1e3:6.0f} ms  {told}", flush=True)
    pulse.end()


def _summed(seen: Counter[str]) -> Iterable[tuple[str, int]]:
    """How often each function was at work, with all that it called, the callers indented."""
    sums: Counter[str] = Counter()
    for told, times in seen.items():
        names = told.split(" > ")
        for depth in range(len(names)):
            sums[" > ".join(names[: depth + 1])] += times
    least = max(2, sum(seen.values()) // 8)
    for path in sorted(sums):
        if sums[path] >= least:
            depth = path.count(" > ")
            yield "  " * depth + path.rsplit(" > ", 1)[-1], sums[path]


def _notebook(stem: str) -> Notebook:
    if not stem:
        return big_yard()
    return load_any(next(path for path in sample_yards() if path.stem == stem), TODAY)


def main(arguments: list[str]) -> None:
    """Measure the steps that are named, all of them where none is."""
    stem = arguments[arguments.index("--sample") + 1] if "--sample" in arguments else ""
    named = [each for each in arguments if each in STEPS]
    app = QApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(app, QApplication)
    apply_theme(app, "light")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "held.lawnbook"
        create(path, _notebook(stem))
        walk = Walk(app, Path(folder), path, TODAY)
        walk.settle = lambda: settle(walk)
        # A window to do anything with is opened first, measured too.
        measured(
            walk,
            ["open", *(each for each in named or STEPS if each != "open")],
            where="--where" in arguments,
        )
        walk.close()
        QCoreApplication.sendPostedEvents()


if __name__ == "__main__":
    main(sys.argv[1:])
