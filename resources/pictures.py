"""Make the README's pictures from a sample yard: the window at two pages, and the printed sheet.

    .venv/bin/python resources/pictures.py [FOLDER] [--all]

Writes `window.png`, `season.png` and `sheet.png` into `resources/pictures/`, or into the folder
given. With `--all` it draws every page of every sample instead, in light and dark and in two
sizes, to be looked at. The sheet's picture needs pdftoppm (Debian: poppler-utils).
"""

import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from datetime import date
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QApplication

from lawnbook.desk.looks import ThemeName
from lawnbook.desk.pages.feed import SECTIONS as FEED_SECTIONS
from lawnbook.desk.pages.feed import FeedPage
from lawnbook.desk.pages.plugs import SECTIONS as PLUG_SECTIONS
from lawnbook.desk.pages.plugs import PlugsPage
from lawnbook.desk.pages.season import SECTIONS as SEASON_SECTIONS
from lawnbook.desk.pages.season import SeasonPage
from lawnbook.desk.pages.sheet import SECTIONS as SHEET_SECTIONS
from lawnbook.desk.pages.sheet import SheetPage
from lawnbook.desk.pages.water import SECTIONS as WATER_SECTIONS
from lawnbook.desk.pages.water import WaterPage
from lawnbook.desk.pages.yard import SECTIONS as YARD_SECTIONS
from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.settings import Settings
from lawnbook.desk.spread import TABS
from lawnbook.desk.theme import apply_theme
from lawnbook.desk.window import BookWindow
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.sheet.pdf import write_sheet
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.places import resource, sample_yards

ON = date(2026, 6, 15)
PICTURE_DPI = 110
SECTIONS = {
    "Yard": YARD_SECTIONS,
    "Plugs": PLUG_SECTIONS,
    "Water": WATER_SECTIONS,
    "Feed": FEED_SECTIONS,
    "Season": SEASON_SECTIONS,
    "Sheet": SHEET_SECTIONS,
}


def settle(app: QApplication) -> None:
    """Let everything that was put off happen: plans, charts, deletions."""
    for _ in range(12):
        app.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def draw_window(app: QApplication, window: BookWindow, size: tuple[int, int], to: Path) -> None:
    """One picture of the window at a size in pixels."""
    window.resize(*size)
    settle(app)
    if not window.grab().save(str(to)):
        raise OSError(f"{to} could not be written.")


def draw_sheet(notebook: Notebook, to: Path) -> None:
    """The printed page as a picture."""
    with tempfile.TemporaryDirectory() as folder:
        pdf = Path(folder) / "plan.pdf"
        write_sheet(notebook, make_plan(notebook, ON), pdf, "letter")
        command = ["pdftoppm", "-r", str(PICTURE_DPI), "-png", "-singlefile", str(pdf)]
        subprocess.run([*command, str(to.with_suffix(""))], check=True)


def open_window(notebook: Notebook, folder: Path) -> BookWindow:
    """A window on a fresh copy of the notebook, looked at on the day of the pictures."""
    path = folder / f"{notebook.yard.name}.lawnbook"
    window = BookWindow(OpenNotebook.create(path, notebook, ON), Settings(folder / "settings.ini"))
    window.show()
    return window


def readme_pictures(app: QApplication, out: Path) -> None:
    """The pictures of the README."""
    corner = next(path for path in sample_yards() if path.stem == "larkspur_corner")
    notebook = as_of(load_any(corner, date.max), ON)
    apply_theme(app, "light")
    with tempfile.TemporaryDirectory() as folder:
        window = open_window(notebook, Path(folder))
        spot = next(each for each in notebook.spots.values() if each.name == "letterbox")
        window.select("spots", spot.id)
        draw_window(app, window, (1440, 900), out / "window.png")
        window.turn_to("Season")
        draw_window(app, window, (1440, 900), out / "season.png")
        window.close()
    draw_sheet(notebook, out / "sheet.png")


def every_page(app: QApplication, out: Path) -> None:
    """Every page of every sample, to be looked at."""
    themes: tuple[ThemeName, ...] = ("light", "dark")
    for path in sample_yards():
        notebook = as_of(load_any(path, date.max), ON)
        draw_sheet(notebook, out / f"{path.stem}_sheet.png")
        for theme in themes:
            apply_theme(app, theme)
            with tempfile.TemporaryDirectory() as folder:
                window = open_window(notebook, Path(folder))
                for stem, size in pages_and_sizes(window):
                    draw_window(
                        app, window, size, out / f"{path.stem}_{stem}_{theme}_{size[0]}.png"
                    )
                window.close()
                settle(app)


def pages_and_sizes(window: BookWindow) -> Iterator[tuple[str, tuple[int, int]]]:
    """Every page in turn, those with sections in each of them, in both sizes."""
    for name, _ in TABS:
        window.turn_to(name)
        for section in turned_sections(window, name):
            for size in ((1440, 900), (1280, 800)):
                yield f"{name}_{section}".lower().replace(" ", "_").rstrip("_"), size


def turned_sections(window: BookWindow, name: str) -> Iterator[str]:
    """The sections of a page, each when it has been turned to."""
    page = window.page(name)
    if not isinstance(page, YardPage | PlugsPage | WaterPage | FeedPage | SeasonPage | SheetPage):
        raise TypeError(f"The page {name} has no sections.")
    for section in SECTIONS[name]:
        page.turn_to(section)
        yield section


def main(arguments: list[str]) -> None:
    """Draw what is asked for."""
    folders = [each for each in arguments if not each.startswith("--")]
    out = Path(folders[0]) if folders else resource("pictures")
    out.mkdir(parents=True, exist_ok=True)
    app = QApplication.instance() or QApplication([])
    if not isinstance(app, QApplication):
        raise TypeError("A Qt application without widgets is already running.")
    (every_page if "--all" in arguments else readme_pictures)(app, out)


if __name__ == "__main__":
    main(sys.argv[1:])
