"""Runs commands or the window in a process that writes down what they reach for: files and network.

`python -m tests.hostile_reach FOLDER` reads command lines as JSON and runs one after another; the
line `window` with a notebook opens it and turns every page. Python's audit events (PEP 578) tell of
each file that is opened, moved, made or removed by Python, each database, process and socket. What
neither lies in the folder nor is needed to run at all is printed, a line for each.
"""

import json
import os
import socket
import sys
import sysconfig
from datetime import date
from pathlib import Path
from typing import Any

TODAY = date(2026, 11, 25)
WRITES = ("os.rename", "os.remove", "os.mkdir", "os.rmdir", "os.link", "os.symlink", "os.truncate",
          "os.chmod", "os.chown", "os.utime", "shutil.rmtree", "shutil.move")  # fmt: skip
"""Events that change something at the path, or the paths, that they begin with."""

NEVER = ("subprocess.Popen", "os.system", "os.exec", "os.posix_spawn", "os.spawn", "os.fork",
         "urllib.Request", "http.client.connect", "ftplib.connect", "smtplib.connect",
         "socket.connect", "socket.bind", "socket.getaddrinfo", "socket.gethostbyname",
         "socket.sendto", "webbrowser.open", "os.startfile")  # fmt: skip
"""Events that no command and no page has any need of."""

PAGES = ("Yard", "Plugs", "Water", "Feed", "Season", "Sheet")
_WRITING = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
_ROOT = Path(__file__).resolve().parent.parent


class Reach:
    """What was reached for beyond what may be; `hook` is for `sys.addaudithook`."""

    def __init__(self, folder: Path) -> None:
        self._own = (os.path.realpath(folder),)
        system = (
            "/usr",
            "/lib",
            "/lib64",
            "/etc",
            "/proc",
            "/sys",
            "/dev",
            "/var/cache/fontconfig",
        )
        pythons = (sys.prefix, sys.base_prefix, sysconfig.get_paths()["stdlib"])
        self._readable = tuple(map(os.path.realpath, (*system, *pythons, str(_ROOT))))
        self.beyond: set[str] = set()

    def hook(self, event: str, arguments: tuple[Any, ...]) -> None:
        """Note an event if it is one that must not be."""
        if event == "subprocess.Popen" and arguments[0] == "fc-list":
            # matplotlib asks the system once which fonts there are, and keeps the answer.
            return
        if event in NEVER or event.startswith(("ctypes.cdata", "winreg.")):
            self.beyond.add(f"{event} {arguments!r:.200}")
        elif event == "socket.__new__":
            # Two ends within the process wake Qt for Ctrl+C; any other family could go out.
            if arguments[1] != socket.AF_UNIX:
                self.beyond.add(f"{event} {arguments!r:.200}")
        elif event == "open":
            self._look(event, arguments[0], writes=_is_writing(arguments[1], arguments[2]))
        elif event == "sqlite3.connect":
            self._look(event, str(arguments[0]).removeprefix("file://").partition("?")[0])
        elif event in ("os.remove", "os.rmdir") and arguments[1] not in (-1, None):
            # Within a folder that is held open, as when a whole one is removed: that is told too.
            return
        elif event in WRITES:
            for each in arguments[:2] if event in ("os.rename", "os.link") else arguments[:1]:
                self._look(event, each, writes=True)

    def _look(self, event: str, path: object, *, writes: bool = True) -> None:
        if not isinstance(path, str | bytes | os.PathLike) or path == ":memory:":
            return
        told = os.path.realpath(os.fsdecode(path))
        allowed = self._own if writes else (*self._own, *self._readable)
        if (
            not told.startswith(tuple(f"{each}{os.sep}" for each in allowed))
            and told not in allowed
        ):
            self.beyond.add(f"{event} {told}")


def _is_writing(mode: object, flags: object) -> bool:
    if isinstance(mode, str):
        return any(sign in mode for sign in "wax+")
    return isinstance(flags, int) and bool(flags & _WRITING)


def _window(path: Path) -> int:
    """Open a notebook as the program does, turn every page, look at a day of the past, close."""
    from PySide6.QtWidgets import QApplication

    from lawnbook.desk.app import Desk
    from lawnbook.desk.settings import Settings

    app = QApplication.instance() or QApplication([])
    assert isinstance(app, QApplication)
    desk = Desk(app, Settings(path.with_name("desk.ini")), TODAY, path.with_name("copies"))
    desk.open(path)
    window = desk.window
    assert window is not None
    window.show()
    for name in PAGES:
        window.turn_to(name)
        for _ in range(30):
            app.processEvents()
    window.close()
    app.processEvents()
    return 0


def _commands(lines: list[list[str]]) -> int:
    """Run command lines one after another; the first status that is not 0, and 0 for none."""
    from lawnbook.cli import main as run

    for line in lines:
        status = _window(Path(line[1])) if line[0] == "window" else run(line, TODAY)
        # One is the answer of a check that says no.
        if status > (line[0] == "spread-check"):
            print(f"BEYOND {line} ended with {status}")
            return status
    return 0


def main(given: list[str]) -> int:
    """Run the command lines of standard input, and print what was reached for beyond the folder."""
    reach = Reach(Path(given[0]))
    sys.addaudithook(reach.hook)
    lines: list[list[str]] = json.load(sys.stdin)
    status = _commands(lines)
    for each in sorted(reach.beyond):
        print(f"BEYOND {each}")
    for name in ("PySide6.QtNetwork", "PySide6.QtWebEngineCore"):
        if name in sys.modules:
            print(f"LOADED {name}")
    print(f"STATUS {status}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
