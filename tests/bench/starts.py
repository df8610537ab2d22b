"""How long a start takes: to the first painted window, to everything painted, and to a plan told.

`python -m tests.bench.starts [REPEATS]` prints the rows of this part. Each start is a process of
its own, with bytecode kept as an installed program has it.
"""

import sys
import tempfile
from datetime import date
from pathlib import Path

from lawnbook.store.sqlite_store import create
from lawnbook.store.yardfile import load_any
from lawnbook.yard.places import sample_yards
from tests.bench.measure import Bench, Row, child, in_turn

TODAY = date(2026, 11, 25)

BARE_WINDOW = """
from PySide6.QtWidgets import QApplication, QMainWindow
app = QApplication([])
window = QMainWindow()
window.resize(1440, 900)
window.show()
window.grab()
"""
BARE_CANVAS = """
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
"""
BOOK_WINDOW = """
import sys
from lawnbook.cli import as_a_program
as_a_program()
from datetime import date
from pathlib import Path
from lawnbook.desk.settings import Settings
from lawnbook.desk.theme import application, apply_theme
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
app = application("lawnbook")
apply_theme(app, "light")
path = Path(sys.argv[1])
book = OpenNotebook.open(path, date(2026, 11, 25))
window = BookWindow(book, Settings(path.with_suffix(".ini")))
window.resize(1440, 900)
window.show()
window.grab()
"""
ALL_PAINTED = f"""
{BOOK_WINDOW}
from PySide6.QtWidgets import QWidget
def has_chart():
    kinds = [str(type(each).mro()) for each in window.findChildren(QWidget) if each.isVisible()]
    return any("FigureCanvasQTAgg" in kind for kind in kinds)
while not has_chart():
    app.processEvents()
app.processEvents()
window.grab()
"""
BARE_NUMBERS = "import numpy, sqlite3"
PLAN = "import sys; from lawnbook.cli import main; sys.exit(main())"


def rows(bench: Bench) -> list[Row]:
    """The three starts, each beside its floor."""
    sample = str(bench.sample)
    plan = ("plan", sample, "--on", TODAY.isoformat(), "--json")
    starts = (
        ("start to first painted window", "bare QMainWindow", BOOK_WINDOW, BARE_WINDOW, 2.0),
        ("start to all painted, chart too", "bare canvas", ALL_PAINTED, BARE_CANVAS, 1.4),
    )
    made = [
        Row(what, floor, *in_turn(child(work, sample), child(bare), bench.repeats), allowed)
        for what, floor, work, bare, allowed in starts
    ]
    telling = in_turn(child(PLAN, *plan), child(BARE_NUMBERS), bench.repeats)
    return [*made, Row("lawnbook plan --json", "import numpy, sqlite3", *telling, 2.0)]


def main() -> None:
    """Print the rows of this part."""
    repeats = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    with tempfile.TemporaryDirectory() as scratch:
        sample = Path(scratch) / "sample.lawnbook"
        yard = next(path for path in sample_yards() if path.stem == "larkspur_corner")
        create(sample, load_any(yard, TODAY))
        bench = Bench(folder=Path(scratch), sample=sample, big=sample, repeats=repeats)
        for row in rows(bench):
            measured, floor = 1e3 * row.measured, 1e3 * row.floor_measured
            print(
                f"{row.what:34}{measured:8.0f} ms{floor:8.0f} ms{row.ratio:7.2f}{row.allowed:5.1f}"
            )


if __name__ == "__main__":
    main()
