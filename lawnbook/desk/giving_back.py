"""Memory that is free goes back to the system once a window has come to rest.

Opening a notebook and painting it needs more for a moment than is held afterwards: rows on their
way, pictures of the whole window. The C library keeps some of what is freed, up to twice the
largest piece so far (man 3 mallopt, "M_TRIM_THRESHOLD"): 9 of 193 MB with 40 zones and 20 years
of records. Asking for it back takes under a millisecond.

Python's own garbage is not looked for here: that takes 90 ms and finds next to nothing. Nor is
what is held set aside for good (`gc.freeze`): a closed window could then never be let go of.
"""

import sys
from collections.abc import Callable
from functools import cache

from PySide6.QtCore import QObject, QTimer

REST_MS = 2000
"""How long nothing was shown anew before memory is given back."""


class GivingBack(QTimer):
    """Gives memory back some time after the latest `start`."""

    def __init__(self, parent: QObject) -> None:
        """A child of what rests."""
        super().__init__(parent)
        self.setSingleShot(True)
        self.setInterval(REST_MS)
        self.timeout.connect(give_back)


def give_back() -> None:
    """Have the C library give free memory back to the system, where it can be asked."""
    if (trim := trimmer()) is not None:
        trim(0)


@cache
def trimmer() -> Callable[[int], int] | None:
    """The GNU C library's `malloc_trim`; other systems give memory back by themselves."""
    if sys.platform != "linux":
        return None
    import ctypes

    return getattr(ctypes.CDLL(None), "malloc_trim", None)
