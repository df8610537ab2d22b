"""What a start does without: libraries that the plan and the first paint must not wait for.

No clock here; `tests.bench.starts` has the times.
"""

from pathlib import Path

import pytest

from lawnbook import cli
from lawnbook.store.sqlite_store import create
from tests.conftest import TODAY
from tests.small_book import in_child, small_notebook

HEAVY = ("matplotlib", "PIL", "shapely", "pandas", "scipy", "sqlite_utils", "openpyxl", "icalendar")
NOT_FOR_A_PLAN = (
    *HEAVY,
    *("PySide6", "http.client", "urllib.request", "xml", "zipfile", "defusedxml", "numpy.ma"),
    *("numpy.polynomial", "lawnbook.store.yardfile", "lawnbook.store.handover_file"),
    *("lawnbook.store.weather_csv", "lawnbook.sheet", "lawnbook.charts", "lawnbook.session"),
)
NOT_BEFORE_THE_FIRST_PAINT = (
    *HEAVY,
    *("numpy", "difflib", "subprocess", "html", "PySide6.QtSvg", "PySide6.QtPrintSupport"),
    *("PySide6.QtNetwork", "lawnbook.plan.model", "lawnbook.yard.check"),
    *("lawnbook.agronomy.checks", "lawnbook.desk.sketch.label_layer"),
    *("lawnbook.desk.sketch.operations", "lawnbook.desk.sketch.toolstrip"),
    *("http.client", "urllib.request", "xml", "lawnbook.sheet", "lawnbook.desk.pages.plugs"),
    *("lawnbook.store.yardfile", "lawnbook.store.handover_file", "lawnbook.plan.make"),
)
PRINT_LOADED = "print(sorted(sys.modules.keys() & set(sys.argv[2:])))"


@pytest.fixture
def book(tmp_path: Path) -> Path:
    path = tmp_path / "small.lawnbook"
    create(path, small_notebook())
    return path


def test_a_plan_is_told_without_what_it_does_not_need(book: Path) -> None:
    child = in_child(
        f"""
        import sys
        from lawnbook.cli import main
        assert main(["plan", sys.argv[1], "--on", "{TODAY}", "--json"]) == 0
        {PRINT_LOADED}
        """,
        book,
        *NOT_FOR_A_PLAN,
    )
    assert child.returncode == 0, child.stderr
    assert child.stdout.splitlines()[-1] == "[]"


def test_the_first_paint_waits_for_no_library_and_no_plan(book: Path) -> None:
    child = in_child(
        f"""
        import sys
        from datetime import date
        from pathlib import Path
        from lawnbook.desk.settings import Settings
        from lawnbook.desk.window import BookWindow
        from lawnbook.session.open_notebook import OpenNotebook
        from PySide6.QtWidgets import QApplication
        app = QApplication([])
        path = Path(sys.argv[1])
        window = BookWindow(
            OpenNotebook.open(path, date.fromisoformat("{TODAY}")), Settings(path.with_name("ini"))
        )
        window.show()
        window.grab()
        {PRINT_LOADED}
        print(window.stack.currentWidget().objectName(), window.held_plan)
        while window.held_plan is None:
            app.processEvents()
        print(window.stack.currentWidget().objectName(), window.plan.yard != "")
        window.close()
        """,
        book,
        *NOT_BEFORE_THE_FIRST_PAINT,
    )
    assert child.returncode == 0, child.stderr
    loaded, before, after = child.stdout.splitlines()[-3:]
    assert loaded == "[]"
    assert before == "quiet_page None"
    assert after == "yard_page True"


@pytest.mark.parametrize("name", cli.COMMANDS)
def test_every_command_is_where_the_table_says(name: str) -> None:
    command = cli.command_named(name)
    assert command.help.endswith(".")


def test_every_command_there_is_stands_in_the_table() -> None:
    folder = Path(cli.__file__).parent
    modules = {path.stem for path in folder.glob("*_commands.py")}
    assert modules == set(cli.COMMANDS.values())
