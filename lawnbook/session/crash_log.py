"""A file that Python itself writes into when the process dies of a fault in a library.

It holds which functions ran, never a value of theirs. Python writes whole paths; when the program
is started the next time, they are cut to places inside the program, so that nobody's name is left
in them, and the file becomes a report like any other.
"""

import contextlib
import faulthandler
import re
import secrets
from pathlib import Path
from typing import TextIO

from lawnbook.session.bug_report import log_folders, place_of

_NAME = "lawnbook-running-*.txt"
_OLD_S = 7 * 86_400.0
_FRAME = re.compile(r'File "([^"]*)", line (\d+)')


class CrashLog:
    """The file of this process, open while it runs."""

    def __init__(self, folder: Path) -> None:
        """Open it in a folder; where that cannot be, nothing is noted down."""
        self._file: TextIO | None = None
        self.path = folder / _NAME.replace("*", secrets.token_hex(4))
        with contextlib.suppress(OSError):
            folder.mkdir(parents=True, exist_ok=True)
            self._file = self.path.open("w", encoding="utf-8")
            faulthandler.enable(self._file)

    def end(self) -> None:
        """The process ends as it should: the file goes. Ending twice does no harm."""
        if self._file is not None:
            faulthandler.disable()
            self._file.close()
            self._file = None
            with contextlib.suppress(OSError):
                self.path.unlink()


def begin_log() -> CrashLog:
    """Begin this process's file in the user's log folder, and see to what others left there."""
    folder = next(log_folders())
    log = CrashLog(folder)
    reports_of_crashes(folder, log.path)
    return log


def reports_of_crashes(folder: Path, running: Path) -> tuple[Path, ...]:
    """Make reports of what crashed processes left in a folder.

    `running` is the file of this process. Empty ones, of processes that still run or were killed,
    are taken away once they are `_OLD_S` older than that.
    """
    made = []
    for path in sorted(folder.glob(_NAME)):
        with contextlib.suppress(OSError):
            text = path.read_text(encoding="utf-8", errors="replace")
            if not text and running.stat().st_mtime - path.stat().st_mtime < _OLD_S:
                continue
            if text:
                report = path.with_name(f"lawnbook-report-{secrets.token_hex(4)}.txt")
                report.write_text(without_paths(text), encoding="utf-8")
                made.append(report)
            path.unlink()
    return tuple(made)


def without_paths(text: str) -> str:
    """Python's account of a crash with the places inside the program instead of whole paths."""
    return _FRAME.sub(lambda found: f"{place_of(found[1])}:{found[2]}", text)
