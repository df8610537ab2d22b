"""Python collects no garbage while a thread of ours runs beside the window's own."""

import gc
from threading import Lock
from typing import Self


class _CollectingLater:
    """No collecting of garbage while any thread of ours runs.

    Python collects in whichever thread happens to run, and a widget that nobody holds any more is
    then deleted there: its timers are not stopped, and a window that was shown hangs the program
    (tried with PySide6 6.11.3).
    """

    def __init__(self) -> None:
        """None runs yet."""
        self._lock = Lock()
        self._threads = 0
        self._was_on = False

    def __enter__(self) -> Self:
        """One more thread."""
        with self._lock:
            if self._threads == 0:
                self._was_on = gc.isenabled()
                gc.disable()
            self._threads += 1
        return self

    def __exit__(self, *_: object) -> None:
        """One thread less; the last one lets collecting go on."""
        with self._lock:
            self._threads -= 1
            if self._threads == 0 and self._was_on:
                gc.enable()


COLLECTING_LATER = _CollectingLater()
"""Held by every thread of ours for as long as it runs Python."""
