"""Another process that has a notebook open, as a second window would, until it is let go."""

import os
import subprocess
import sys
import textwrap
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

_HOLD = """
    import sys
    from datetime import date
    from pathlib import Path
    from lawnbook.session.open_notebook import OpenNotebook
    from tests.small_book import rename

    book = OpenNotebook.open(Path(sys.argv[1]), date(2026, 6, 15))
    print("read only" if book.read_only else "writer", flush=True)
    for line in sys.stdin:
        if line.strip() == "close":
            book.close()
        else:
            book.edit(rename(book.notebook, line.strip()), "rename")
        print(book.trouble or "done", flush=True)
"""


class OtherWindow:
    """A child with a notebook open. `first` tells whether it is the "writer" or "read only"."""

    def __init__(self, path: Path, *, wait: bool = True) -> None:
        """Start it and wait until the notebook is open there, or leave that to `opened`."""
        root = str(Path(__file__).resolve().parent.parent)
        self.child = subprocess.Popen(
            [sys.executable, "-c", textwrap.dedent(_HOLD), str(path)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONPATH": root},
        )
        self.first = self._line() if wait else ""

    def opened(self) -> str:
        """Wait until the notebook is open, and tell whether as its writer."""
        self.first = self.first or self._line()
        return self.first

    def rename(self, name: str) -> str:
        """Give the yard another name there; "done", or what is wrong."""
        return self._tell(name)

    def close(self) -> str:
        """Close the notebook there; the process goes on."""
        return self._tell("close")

    def end(self) -> None:
        """Kill the process."""
        self.child.kill()
        self.child.communicate()

    def _tell(self, line: str) -> str:
        assert self.child.stdin is not None
        self.child.stdin.write(f"{line}\n")
        self.child.stdin.flush()
        return self._line()

    def _line(self) -> str:
        assert self.child.stdout is not None
        return self.child.stdout.readline().strip()


@contextmanager
def other_window(path: Path) -> Iterator[OtherWindow]:
    """A second window on a notebook; it is killed at the end, if it was not before."""
    window = OtherWindow(path)
    try:
        yield window
    finally:
        window.end()
