"""Opening, one edit and memory of the big yard, and how they grow.

`python -m tests.bench.files` prints the rows of this part, and then each figure at 1, 10 and 100
times the years, zones and plugs of a small yard.
"""

import itertools
import sqlite3
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import replace
from pathlib import Path
from shutil import copyfile

from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.columns import column_names, row_of
from lawnbook.store.picture_shelf import connected
from lawnbook.store.sqlite_store import create
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Change, Notebook, new_id, put
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import TABLES, Core, Watering
from tests.bench.big_yard import TODAY, Size, big_yard
from tests.bench.measure import Bench, Row, in_turn, seconds_of, told_by_child

Made = Callable[[Notebook, int], Change]
Clock = Callable[[Callable[[], object]], float]
EDITS_A_REPEAT = 3
SMALL = Size(zones=4, years=1, spots_a_zone=2, plugs_a_spot=2, feedings_a_zone=4, photos=0)
GROWN = {
    "years": [SMALL, replace(SMALL, years=10), replace(SMALL, years=100)],
    "zones": [SMALL, replace(SMALL, zones=40), replace(SMALL, zones=400)],
    "plugs": [SMALL, replace(SMALL, plugs_a_spot=20), replace(SMALL, plugs_a_spot=200)],
}

MEMORY_MB = """
import re
told = open("/proc/self/smaps_rollup").read()
for name in ("Rss", "Private_Dirty"):
    print(int(re.search(name + ": +([0-9]+)", told)[1]) / 1024)
"""
"""Prints what is resident of a process, libraries included, and of it what no other shares."""
CANVAS_MEMORY = f"""
from PySide6.QtWidgets import QApplication, QMainWindow
from matplotlib.backends.backend_qtagg import FigureCanvasQTAgg
from matplotlib.figure import Figure
app = QApplication([])
window = QMainWindow()
canvas = FigureCanvasQTAgg(Figure())
window.setCentralWidget(canvas)
window.resize(1440, 900)
window.show()
canvas.draw()
window.grab()
{MEMORY_MB}
"""
BOOK_MEMORY = f"""
import sys, time
from datetime import date
from pathlib import Path
from PySide6.QtWidgets import QApplication
from lawnbook.desk.settings import Settings
from lawnbook.desk.theme import apply_theme
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
app = QApplication([])
apply_theme(app, "light")
path = Path(sys.argv[1])
book = OpenNotebook.open(path, date.fromisoformat(sys.argv[2]))
window = BookWindow(book, Settings(path.with_suffix(".ini")))
window.resize(1440, 900)
window.show()
window.grab()
quiet = 0
while quiet < 25:  # a little longer than the window rests before it gives memory back
    before = time.process_time()
    for _ in range(20):
        app.processEvents()
        time.sleep(0.005)
    quiet = quiet + 1 if time.process_time() - before < 0.02 else 0
{MEMORY_MB}
"""


def rows(bench: Bench) -> list[Row]:
    """Opening, three edits on each notebook, and memory in all and of its own."""
    notebooks = (("a sample", bench.sample), ("the big yard", bench.big))
    made = [
        opened_row(f"{called}, {by}", path, bench, clock)
        for called, path in notebooks
        for by, clock in CLOCKS.items()
    ]
    for called, path in notebooks:
        for what, edit in EDITS.items():
            made.append(edit_row(f"{what}, {called}", path, edit, bench))
    return made + memory_rows(bench)


def opened_row(called: str, path: Path, bench: Bench, clock: Clock) -> Row:
    """Opening a notebook, checked whole, and reading the same rows, by a clock."""
    took, floor = in_turn(
        lambda: opening_seconds(path, clock), lambda: clock(lambda: bare_rows(path)), bench.repeats
    )
    return Row(f"opening {called}", "its rows by sqlite3", took, floor, 3.0)


def opening_seconds(path: Path, clock: Clock) -> float:
    """Seconds in which a notebook is opened; closing it is not counted."""
    held: list[OpenNotebook] = []
    took = clock(lambda: held.append(OpenNotebook.open(path, TODAY)))
    held.pop().close()
    return took


def reckoned(work: Callable[[], object]) -> float:
    """Seconds of the processor, which a busy machine hardly changes; a disk is not waited for."""
    start = time.process_time()
    work()
    return time.process_time() - start


CLOCKS: dict[str, Clock] = {"processor": reckoned, "wall": seconds_of}
"""By the processor's time, and by the clock on the wall, which counts what else the machine does.

A piece of work that takes longer than a turn of the scheduler is set back on a busy machine, and
its floor may not be.
"""


def bare_rows(path: Path) -> None:
    """Every row of every table but the pictures, by bare sqlite3."""
    with closing(sqlite3.connect(path)) as connection:
        for table in TABLES:
            connection.execute(_select(table)).fetchall()


def edit_row(what: str, path: Path, made: Made, bench: Bench) -> Row:
    """One edit from the notebook's value to the file, and a bare insert and commit."""
    with both(path, bench.folder) as (book, bare):
        count = itertools.count()
        took, floor = in_turn(
            lambda: edited_seconds(book, made, next(count)),
            lambda: seconds_of(lambda: bare_commit(bare, book.notebook)),
            EDITS_A_REPEAT * bench.repeats,
        )
    return Row(what, "bare insert and commit", took, floor, 2.0)


def edited_seconds(book: OpenNotebook, made: Made, number: int) -> float:
    """Seconds of one edit, the making of the Change included."""
    return seconds_of(lambda: book.edit(made(book.notebook, number), "edit"))


@contextmanager
def both(path: Path, folder: Path) -> Iterator[tuple[OpenNotebook, sqlite3.Connection]]:
    """A copy of a notebook open for edits, and another with a bare connection to it."""
    ours, theirs = folder / "edited.lawnbook", folder / "bare.lawnbook"
    for each in (ours, theirs):
        copyfile(path, each)
    book = OpenNotebook.open(ours, TODAY)
    bare = connected(theirs, "rw")
    bare.execute("PRAGMA journal_mode = TRUNCATE")
    try:
        yield book, bare
    finally:
        bare.close()
        book.close()
        for each in (ours, theirs):
            each.unlink()


def bare_commit(connection: sqlite3.Connection, notebook: Notebook) -> None:
    """A watering inserted and committed at the same durability, without anything of ours."""
    zone = next(iter(notebook.zones))
    watering = Watering(id=new_id(), rank=10**6, date=TODAY, zone=zone, minutes=20.0)
    cells = row_of("waterings", watering)
    connection.execute("BEGIN IMMEDIATE")
    connection.execute(_insert("waterings"), cells)
    connection.execute("COMMIT")


def memory_rows(bench: Bench) -> list[Row]:
    """Memory of a process with the big yard open, all painted, and of one with an empty canvas."""
    floors = [_megabytes(CANVAS_MEMORY) for _ in range(3)]
    ours = [_megabytes(BOOK_MEMORY, str(bench.big), TODAY.isoformat()) for _ in range(3)]
    floor = "an empty matplotlib canvas"
    made = []
    for n, what in enumerate(("memory, the big yard open", "its own memory, unshared")):
        held, least = (statistics.median(each[n] for each in runs) for runs in (ours, floors))
        made.append(Row(what, floor, held, least, 1.5, unit="MB"))
    return made


def _megabytes(code: str, *arguments: str) -> tuple[float, float]:
    resident, own = told_by_child(code, *arguments).split()
    return float(resident), float(own)


def growth(folder: Path, repeats: int) -> Iterator[str]:
    """A line for each thing that grows: opening and one edit at 1, 10 and 100 times of it."""
    for what, sizes in GROWN.items():
        openings, edits = zip(*(_grown(size, folder, repeats) for size in sizes), strict=True)
        yield f"{what:8}opening {_times(openings)}    one edit, its reckoning {_times(edits)}"


def _grown(size: Size, folder: Path, repeats: int) -> tuple[float, float]:
    path = folder / "grown.lawnbook"
    create(path, big_yard(size), overwrite=True)
    opening = statistics.median(opening_seconds(path, reckoned) for _ in range(repeats))
    with both(path, folder) as (book, _):
        edits = [_reckoning(book, number) for number in range(EDITS_A_REPEAT * repeats)]
    return opening, statistics.median(edits)


def _reckoning(book: OpenNotebook, number: int) -> float:
    return reckoned(lambda: book.edit(_watered(book.notebook, number), "edit"))


def _times(seconds: tuple[float, ...]) -> str:
    return " → ".join(f"{1e3 * each:.2f} ms" for each in seconds)


def _renamed(notebook: Notebook, number: int) -> Change:
    spot = next(iter(notebook.spots.values()))
    return put(notebook, "spots", replace(spot, name=f"By the gate {number}"))


def _watered(notebook: Notebook, number: int) -> Change:
    zone = next(iter(notebook.zones))
    minutes = 10.0 + number / 100
    return put(notebook, "waterings", Watering(id=new_id(), date=TODAY, zone=zone, minutes=minutes))


def _plugged(notebook: Notebook, number: int) -> Change:
    spot = next(iter(notebook.spots))
    thatch_in = (0.5 + number / 10_000, 0.5)
    return put(notebook, "cores", Core(id=new_id(), date=TODAY, spot=spot, thatch_in=thatch_in))


EDITS: dict[str, Made] = {"a spot renamed": _renamed, "a watering": _watered, "a plug": _plugged}


def _select(table: str) -> str:
    return " ".join(("SELECT", ", ".join(column_names(table)), "FROM", table))


def _insert(table: str) -> str:
    names = column_names(table)
    marks = ", ".join("?" for _ in names)
    return " ".join(("INSERT INTO", table, "(", ", ".join(names), ") VALUES (", marks, ")"))


def main() -> None:
    """Print this part's rows and how they grow."""
    repeats = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        bench = Bench(
            folder=folder,
            sample=folder / "sample.lawnbook",
            big=folder / "big.lawnbook",
            repeats=repeats,
        )
        create(bench.sample, load_any(sample_yards()[0], TODAY))
        create(bench.big, big_yard())
        for row in rows(bench):
            scale = 1e3 if row.unit == "ms" else 1.0
            told = f"{scale * row.measured:9.2f}{scale * row.floor_measured:9.2f} {row.unit}"
            print(f"{row.what:34}{row.floor:28}{told}{row.ratio:7.2f}{row.allowed:5.1f}")
        for line in growth(folder, repeats):
            print(line)


if __name__ == "__main__":
    main()
