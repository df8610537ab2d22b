"""Our own mistakes, wherever they happen: one dialog with a report, and the window goes on.

An exception that nobody caught in the window's thread, in another one, or where Python cannot
raise it, is told here. While a dialog stands, later ones are counted in it; the same one is told
once a minute at most, so that a mistake in painting or in a timer is no endless row of dialogs.
"""

import contextlib
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer, Signal
from PySide6.QtWidgets import QApplication, QWidget

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.session.crash_log import CrashLog

LOG_AFTER_MS = 1_500
AGAIN_AFTER_S = 60.0
"""How long the same mistake is not told again, in seconds."""


@dataclass(frozen=True, slots=True)
class Mishap:
    """What happened: what tells it from others, its report, and the sentence if it is no bug."""

    key: str
    report: str
    sentence: str = ""


class Mishaps(QObject):
    """Takes the place of Python's own hooks for exceptions between `start` and `end`."""

    happened = Signal(object)

    def __init__(
        self,
        parent: QObject | None = None,
        seconds: Callable[[], float] = time.monotonic,
        folder: Path | None = None,
    ) -> None:
        """`seconds` is a clock that only goes forward; reports go to `folder` if it is given."""
        super().__init__(parent)
        self._seconds, self._folder = seconds, folder
        self._told_at: dict[str, float] = {}
        self._dialog: QWidget | None = None
        self._log: CrashLog | None = None
        # Queued always: it may happen in another thread, or in the middle of painting.
        self.happened.connect(self._tell, Qt.ConnectionType.QueuedConnection)
        self._before = (sys.excepthook, threading.excepthook, sys.unraisablehook)

    def start(self) -> None:
        """Hear of every exception that nobody catches from now on."""
        self._before = (sys.excepthook, threading.excepthook, sys.unraisablehook)
        sys.excepthook = self._uncaught
        threading.excepthook = lambda told: self.note(told.exc_value)
        sys.unraisablehook = lambda told: self.note(told.exc_value)
        # Once the first window stands: it must not wait for a file of the log folder.
        QTimer.singleShot(LOG_AFTER_MS, self, self._begin_log)

    def end(self) -> None:
        """Leave the hooks as they were."""
        sys.excepthook, threading.excepthook, sys.unraisablehook = self._before
        if self._log is not None:
            self._log.end()

    def note(self, error: BaseException | None) -> None:
        """Take note of an exception, in any thread. Nothing is raised, whatever goes wrong here."""
        if error is None or isinstance(error, SystemExit):
            return
        from lawnbook.session.bug_report import key_of, report_of

        sentence = str(error) if isinstance(error, OwnerError) else ""
        # The window may be gone already when the program ends.
        with contextlib.suppress(Exception):
            self.happened.emit(Mishap(key_of(error), report_of(error), sentence))

    def _uncaught(
        self, kind: type[BaseException], error: BaseException, trace: TracebackType | None
    ) -> None:
        if isinstance(error, KeyboardInterrupt):
            self._before[0](kind, error, trace)
        else:
            self.note(error)

    def _tell(self, mishap: Mishap) -> None:
        # What goes wrong in telling must not be told in turn.
        with contextlib.suppress(Exception):
            self._told(mishap)

    def _told(self, mishap: Mishap) -> None:
        parent = _in_front()
        if mishap.sentence and parent is not None:
            from lawnbook.desk.dialogs import tell

            tell(parent, tr("Lawnbook"), mishap.sentence)
            return
        from lawnbook.desk.mishap_dialog import MishapDialog

        if isinstance(self._dialog, MishapDialog):
            self._dialog.count(mishap.key, mishap.report)
            return
        now = self._seconds()
        told_at = self._told_at.get(mishap.key)
        if told_at is not None and now - told_at < AGAIN_AFTER_S:
            return
        self._told_at[mishap.key] = now
        from lawnbook.session.bug_report import keep_report

        path = keep_report(mishap.report, self._folder)
        if parent is None:
            sys.stderr.write(tr("Lawnbook made a mistake. The report is in {path}\n", path=path))
            return
        self._dialog = MishapDialog(mishap.key, mishap.report, path, parent)
        self._dialog.finished.connect(self._forget)
        self._dialog.open()

    def _begin_log(self) -> None:
        """From now on a fault that ends the process is noted down, too."""
        from lawnbook.session.crash_log import begin_log

        self._log = begin_log()

    def _forget(self) -> None:
        self._dialog = None


def _in_front() -> QWidget | None:
    """The window that a dialog can stand before: a dialog that waits for an answer goes first."""
    modal = QApplication.activeModalWidget()
    if modal is not None:
        return modal
    named = ("book_window", "welcome_window")
    held = [each for each in QApplication.topLevelWidgets() if each.isVisible()]
    return next((each for each in held if each.objectName() in named), None)
