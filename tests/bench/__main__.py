"""Measure what an owner waits for against the least it could cost here, and print a table.

    python -m tests.bench [REPEATS]

Each row is a median over the repeats of what Lawnbook does, of its floor, and their ratio. Figures
depend on the machine; the ratios hardly do.
"""

import os
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.sqlite_store import create, load
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook, put
from lawnbook.yard.places import sample_yards
from tests.bench.big_yard import TODAY as BIG_DAY
from tests.bench.big_yard import big_yard

TODAY = date(2026, 11, 25)
SAMPLE = next(path for path in sample_yards() if path.stem == "larkspur_corner")

BARE_WINDOW = """
from PySide6.QtWidgets import QApplication, QMainWindow
app = QApplication([])
window = QMainWindow()
window.resize(1440, 900)
window.show()
window.grab()
"""
BOOK_WINDOW = """
import sys
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
book = OpenNotebook.open(path, date(2026, 11, 25))
window = BookWindow(book, Settings(path.with_suffix(".ini")))
window.resize(1440, 900)
window.show()
window.grab()
"""
LARGE_TABLES = (
    "SELECT * FROM weather",
    "SELECT * FROM waterings",
    "SELECT * FROM cores",
    "SELECT * FROM heads",
    "SELECT * FROM feedings",
)
SKETCH_PARTS = """
import statistics, sys, time
from dataclasses import replace
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter, QTransform
from PySide6.QtWidgets import QApplication
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.desk.theme import apply_theme
from lawnbook.yard.geometry import rectangle_ft, yard_bounds_ft
from lawnbook.yard.records import Zone
app = QApplication([])
apply_theme(app, "light")
picture = QImage(1600, 1000, QImage.Format.Format_RGB32)
def fitted(notebook):
    west, south, east, north = yard_bounds_ft(notebook)
    px_per_ft = min(1600 / (east - west), 1000 / (north - south))
    made = SketchScene(notebook)
    made.show_zoom(QTransform.fromScale(px_per_ft, px_per_ft))
    return made, QRectF(west, -north, 1600 / px_per_ft, 1000 / px_per_ft)
def repaint(number):
    painter = QPainter(picture)
    scene.render(painter, QRectF(picture.rect()), seen)
    painter.end()
def median(work):
    times = []
    for number in range(21):
        start = time.perf_counter()
        work(number)
        times.append(time.perf_counter() - start)
    return statistics.median(times)
"""
BIG_SKETCH = f"""
{SKETCH_PARTS}
from tests.sketch_hand import big_yard
scene, seen = fitted(big_yard())
def step(number):
    outline = rectangle_ft((110.0, number * 0.1), 20.0, 20.0)
    scene.show_draft({{("zones", "z5"): Zone(id="z5", name="Zone", outline_ft=outline)}})
print(median(step), median(repaint))
"""
RATE_SKETCH = f"""
{SKETCH_PARTS}
from tests.bench.big_yard import big_yard
notebook = big_yard()
scene, seen = fitted(notebook)
scene.colour_by("Sprinkler rate")
head = notebook.heads["h5"]
def step(number):
    moved = replace(head, at_ft=(head.at_ft[0] + number * 0.3, head.at_ft[1]))
    scene.show_draft({{("heads", "h5"): moved}})
print(median(step), median(repaint))
"""
FILM_SKETCH = f"""
{SKETCH_PARTS}
from datetime import date, timedelta
from lawnbook.plan.day_figures import day_figures
from tests.bench.big_yard import TODAY, big_yard
notebook = big_yard()
scene, seen = fitted(notebook)
scene.colour_by("Soil water")
days = day_figures(notebook, date(TODAY.year - 1, 1, 1), TODAY)
def step(number):
    scene.show_figures(days.figures(days.starts + timedelta(days=6 * number)), passing=True)
print(median(step), median(repaint))
"""
BARE_NUMBERS = "import numpy, sqlite3"
PLAN = "import sys; from lawnbook.cli import main; sys.exit(main(sys.argv[1:]))"


@dataclass(frozen=True)
class Row:
    """One line of the table: seconds of what is measured and of its floor, and what is allowed."""

    what: str
    floor: str
    seconds: float
    floor_seconds: float
    allowed: float


def median(measure: Callable[[], float], repeats: int) -> float:
    """The median of several measurements, after one that does not count."""
    measure()
    return statistics.median(measure() for _ in range(repeats))


def timed(work: Callable[[], object]) -> float:
    """Seconds that a piece of work takes."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def child(code: str, *arguments: str) -> Callable[[], float]:
    """A measurement of a fresh Python process that runs some code."""
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    command = [sys.executable, "-c", code, *arguments]

    def run() -> float:
        return timed(
            lambda: subprocess.run(command, check=True, capture_output=True, env=environment)
        )

    return run


def dragged(sketch: str) -> tuple[float, float]:
    """Seconds of one step of a change in a sketch, and of painting all of it once."""
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    command = [sys.executable, "-c", sketch]
    done = subprocess.run(command, check=True, capture_output=True, text=True, env=environment)
    step, whole = done.stdout.split()
    return float(step), float(whole)


def felt() -> list[float]:
    """The six numbers of `tests.bench.sketch_feel`, from a process of its own."""
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    command = [sys.executable, "-m", "tests.bench.sketch_feel"]
    done = subprocess.run(command, check=True, capture_output=True, text=True, env=environment)
    return [float(each) for each in done.stdout.split()]


def one_edit(book: OpenNotebook) -> Callable[[], float]:
    """A measurement of one edit, from the notebook's value to the synced file."""
    counter = iter(range(10**9))

    def run() -> float:
        spot = next(iter(book.notebook.spots.values()))
        change = put(book.notebook, "spots", replace(spot, name=f"spot {next(counter)}"))
        return timed(lambda: book.edit(change, "rename"))

    return run


def bare_commit(path: Path) -> Callable[[], float]:
    """A measurement of one insert and commit by bare sqlite3 at the same durability."""
    connection = sqlite3.connect(path, isolation_level=None)
    connection.execute("PRAGMA journal_mode=TRUNCATE")
    connection.execute("PRAGMA synchronous=FULL")
    connection.execute("CREATE TABLE spots (id INTEGER PRIMARY KEY, name TEXT) STRICT")

    def write() -> None:
        connection.execute("BEGIN IMMEDIATE")
        connection.execute("INSERT INTO spots (name) VALUES ('spot')")
        connection.execute("COMMIT")

    return lambda: timed(write)


def bare_rows(path: Path) -> None:
    """Read the rows of a notebook's large tables by bare sqlite3."""
    connection = sqlite3.connect(path)
    for query in LARGE_TABLES:
        connection.execute(query).fetchall()
    connection.close()


def rows(folder: Path, repeats: int) -> list[Row]:
    """Measure everything in a scratch folder."""
    path = folder / "bench.lawnbook"
    notebook: Notebook = load_any(SAMPLE, TODAY)
    create(path, notebook)
    start_window = median(child(BOOK_WINDOW, str(path)), repeats)
    start_bare = median(child(BARE_WINDOW), repeats)
    start_plan = median(child(PLAN, "plan", str(path), "--json"), repeats)
    start_numbers = median(child(BARE_NUMBERS), repeats)
    opening = median(lambda: timed(lambda: load(path)), repeats)
    reading = median(lambda: timed(lambda: bare_rows(path)), repeats)
    planning = median(lambda: timed(lambda: make_plan(notebook, TODAY)), repeats)
    book = OpenNotebook.open(path, TODAY)
    edit = median(one_edit(book), 5 * repeats)
    book.close()
    commit = median(bare_commit(folder / "floor.db"), 5 * repeats)
    drag, repaint = dragged(BIG_SKETCH)
    head_drag, rate_repaint = dragged(RATE_SKETCH)
    frame, film_repaint = dragged(FILM_SKETCH)
    feel = felt()
    big = folder / "big.lawnbook"
    create(big, big_yard())
    big_opening = median(lambda: timed(lambda: load(big)), repeats)
    big_planning = median(lambda: timed(lambda: make_plan(big_yard(), BIG_DAY)), repeats)
    return [
        Row("start to first painted window", "bare QMainWindow", start_window, start_bare, 2.0),
        Row("lawnbook plan --json", "import numpy, sqlite3", start_plan, start_numbers, 2.0),
        Row("open a sample notebook", "its rows by sqlite3", opening, reading, 3.0),
        Row("plan of a sample", "opening it", planning, opening, 2.0),
        Row("one edit, on disk", "bare insert and commit", edit, commit, 2.0),
        Row("drag step, 200 zones", "painting all of them", drag, repaint, 1.0),
        Row("pan of the sketch, 200 zones", "bare scene, as much", feel[0], feel[1], 1.5),
        Row("zoom of the sketch, 200 zones", "bare scene, as much", feel[2], feel[3], 1.5),
        Row("drag a corner, 200 zones", "bare scene, painted whole", feel[4], feel[5], 0.1),
        Row("drag a head, rates shown", "painting all 40 heads", head_drag, rate_repaint, 1.0),
        Row("a day of the film, 40 zones", "painting all of them", frame, film_repaint, 1.0),
        Row("plan of 40 zones, 20 years", "opening them", big_planning, big_opening, 2.0),
    ]


def main() -> None:
    """Print the table."""
    repeats = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    with tempfile.TemporaryDirectory() as folder:
        table = rows(Path(folder), repeats)
    print(f"{'what':32}{'floor':26}{'ms':>9}{'floor ms':>10}{'ratio':>8}{'aim':>6}")
    for row in table:
        ratio = row.seconds / row.floor_seconds
        print(
            f"{row.what:32}{row.floor:26}{1e3 * row.seconds:9.1f}{1e3 * row.floor_seconds:10.1f}"
            f"{ratio:8.2f}{row.allowed:6.1f}"
        )


if __name__ == "__main__":
    main()
