"""Commands and pages touch what they are given and the program's own folders, and no net."""

import json
import os
import shutil
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from lawnbook.cli import COMMANDS
from lawnbook.yard.places import sample_yards
from tests.fuzz.seeds import KML
from tests.hostile_reach import Reach

ROOT = Path(__file__).resolve().parent.parent
LARKSPUR = next(path for path in sample_yards() if path.stem == "larkspur_corner")


def reached(folder: Path, lines: list[list[str]]) -> list[str]:
    """What a process printed that ran command lines in a folder that holds its home as well."""
    own = {"HOME": "home", "TMPDIR": "tmp", "MPLCONFIGDIR": "home/mpl"}
    for each in own.values():
        (folder / each).mkdir(parents=True, exist_ok=True)
    told = {name: str(folder / each) for name, each in own.items()}
    kept = {name: value for name, value in os.environ.items() if not name.startswith("XDG_")}
    child = subprocess.run(
        [sys.executable, "-m", "tests.hostile_reach", str(folder)],
        input=json.dumps(lines),
        capture_output=True,
        text=True,
        check=False,
        timeout=240,
        cwd=ROOT,
        env={**kept, **told, "QT_QPA_PLATFORM": "offscreen", "PYTHONDONTWRITEBYTECODE": "1"},
    )
    assert child.returncode == 0, child.stderr
    return [
        each
        for each in child.stdout.splitlines()
        if each.startswith(("BEYOND", "LOADED", "STATUS"))
    ]


def there(kml: bytes) -> bytes:
    """A map's outlines moved to where the sample yard lies."""
    north = kml.replace(b"40.25", b"41.20").replace(b"40.26", b"41.21")
    return north.replace(b"-93.4", b"-111.8").replace(b"-93.5", b"-111.9")


def command_lines(folder: Path) -> list[list[str]]:
    """A line for every command, each with outputs in the folder."""
    book, other = str(folder / "home.lawnbook"), str(folder / "map.kml")
    (folder / "map.kml").write_bytes(there(KML))
    damaged = folder / "damaged.lawnbook"
    return [
        ["import", str(folder / LARKSPUR.name), "-o", book],
        ["plan", book, "--json"],
        ["sheet", book, "-o", str(folder / "sheet.pdf")],
        ["plug-form", book, "-o", str(folder / "form.pdf")],
        ["then-now", book, "--spot", SPOT, "-o", str(folder / "then.pdf")],
        ["spread-check", book, "--zone", "1", "--product", FEED, "--rate", "0.1"],
        ["export", book, "-o", str(folder / "out.json")],
        ["outlines", book, "-o", str(folder / "out.svg")],
        ["take-outlines", other, "-o", book],
        ["calendar", book, "-o", str(folder / "out.ics")],
        ["year-review", book, "-o", str(folder / "year.pdf")],
        ["tables", book, "-o", str(folder / "out.xlsx")],
        ["take-tables", str(folder / "out.xlsx"), "-o", book, "--dry-run"],
        ["handover", book, "-o", str(folder / "out.zip")],
        ["backups", book],
        ["salvage", book, "-o", str(damaged)],
    ]


def _held() -> tuple[str, str]:
    plain = json.loads(LARKSPUR.read_text(encoding="utf-8"))
    return plain["spots"][0]["name"], plain["products"][0]["name"]


SPOT, FEED = _held()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a sample yard and its weather."""
    for each in LARKSPUR.parent.glob(f"{LARKSPUR.stem}*"):
        shutil.copy(each, tmp_path)
    return tmp_path


def test_every_command_stays_within_its_files_and_off_the_net(folder: Path) -> None:
    lines = command_lines(folder)
    assert {each[0] for each in lines} == set(COMMANDS)
    assert reached(folder, lines) == ["STATUS 0"]


def test_the_window_and_its_pages_stay_within_their_files_and_off_the_net(folder: Path) -> None:
    book = str(folder / "home.lawnbook")
    lines = [["import", str(folder / LARKSPUR.name), "-o", book], ["window", book]]
    assert reached(folder, lines) == ["STATUS 0"]


@pytest.mark.parametrize(
    ("event", "arguments"),
    [
        ("open", ("/elsewhere.txt", "w", 0)),
        ("open", ("/usr/share/elsewhere.txt", None, os.O_RDWR)),
        ("open", ("/root/.ssh/id", "r", 0)),
        ("os.rename", ("@/within.txt", "/without.txt", -1, -1)),
        ("os.remove", ("@/../without.txt", -1)),
        ("sqlite3.connect", ("file:///other.lawnbook?mode=rw",)),
        ("socket.connect", (None, ("192.0.2.1", 80))),
        ("socket.__new__", (None, socket.AF_INET, socket.SOCK_STREAM, 0)),
        ("subprocess.Popen", ("sh", ["sh"], None, None)),
    ],
)
def test_what_reaches_out_is_found(
    tmp_path: Path, event: str, arguments: tuple[object, ...]
) -> None:
    """The watch itself is tried: on what must be told, and on its like that must not."""
    reach = Reach(tmp_path)
    for within in (
        ("open", (str(tmp_path / "in.txt"), "w", 0)),
        ("open", ("/usr/share/x", "r", 0)),
        ("os.rename", (f"{tmp_path}/a", f"{tmp_path}/b", -1, -1)),
        ("sqlite3.connect", (f"file://{tmp_path}/a.lawnbook?mode=rw",)),
        ("socket.__new__", (None, socket.AF_UNIX, socket.SOCK_STREAM, 0)),
    ):
        reach.hook(*within)
    assert not reach.beyond
    placed = (
        each.replace("@", str(tmp_path)) if isinstance(each, str) else each for each in arguments
    )
    reach.hook(event, tuple(placed))
    assert len(reach.beyond) == 1
