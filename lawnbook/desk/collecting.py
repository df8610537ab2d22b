"""Python collects no garbage, and gives way quickly, while a thread of ours runs."""

import gc
import sys
from threading import Lock
from typing import Self

GIVING_WAY_S = 0.0005
"""After so long a thread gives way to the window's, which is painted in many small steps; Python's
own 5 ms for each of them would be seen."""


class _CollectingLater:
    """No collecting of garbage while any thread of ours runs, and short turns.

    Python collects in whichever thread happens to run, and a widget that nobody holds any more is
    then deleted there: its timers are not stopped, and a window that was shown hangs the program
    (tried with PySide6 6.11.3).
    """

    def __init__(self) -> None:
        """None runs yet."""
        self._lock = Lock()
        self._threads = 0
        self._was_on = False
        self._turn_s = sys.getswitchinterval()

    def __enter__(self) -> Self:
        """One more thread."""
        with self._lock:
            if self._threads == 0:
                self._was_on, self._turn_s = gc.isenabled(), sys.getswitchinterval()
                gc.disable()
                sys.setswitchinterval(GIVING_WAY_S)
            self._threads += 1
        return self

    def __exit__(self, *_: object) -> None:
        """One thread less; the last one lets collecting go on."""
        with self._lock:
            self._threads -= 1
            if self._threads == 0:
                sys.setswitchinterval(self._turn_s)
                if self._was_on:
                    gc.enable()


COLLECTING_LATER = _CollectingLater()
"""Held by every thread of ours for as long as it runs Python."""
