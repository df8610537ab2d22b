"""Qt without the search that PySide makes through the source of every module imported after it.

PySide lets a module ask for other spellings of Qt's names (`from __feature__ import ...`). To learn
which modules might, it puts a way of its own in place of Python's `__import__`, and reads the whole
source of each module that is imported from then on; the lines stay in `linecache`. For this window
and matplotlib these are 690 modules of 330,000 lines: 35 MB, and a sixth of the time of loading.
Nobody here asks for other spellings, so Python's own way is put back.
"""

import builtins
from importlib import import_module

_KEPT = "__orig_import__"
"""The name under which PySide keeps, among the builtins, the way that was there before."""


def import_plainly() -> None:
    """Import as Python does from now on; where this PySide has no such way, nothing changes."""
    # With this module PySide's own way comes in.
    import_module("PySide6.QtCore")
    if hasattr(builtins, _KEPT):
        builtins.__import__ = getattr(builtins, _KEPT)
