"""The sketch printed as it is seen: read back from the PDF, in light and in dark."""

import re
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtGui import QAction
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QAbstractButton, QApplication, QFileDialog
from pytestqt.qtbot import QtBot

from lawnbook.charts.palette import DARK, LIGHT, PRINT
from lawnbook.desk import printing, theme
from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.settings import Settings
from lawnbook.desk.sketch.colour_scales import SCALES
from lawnbook.desk.theme import apply_theme
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.sheet.pdf import page_bytes
from tests.pdf_reading import pdfium, read_page

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


@pytest.fixture
def window(qtbot: QtBot, book: OpenNotebook, settings: Settings) -> BookWindow:
    """A sample in the window, its zones coloured by the days between waterings."""
    made = BookWindow(book, settings)
    qtbot.addWidget(made)
    made.resize(1440, 900)
    made.show()
    qtbot.waitExposed(made)
    qtbot.wait(30)
    made.sketch.colour_by("Thatch")
    return made


def pdf_of(window: BookWindow) -> bytes:
    """The page as it would be saved."""
    page = window.sketch_page()
    return page_bytes(page.title, page.draw, page.paper, page.dots_per_inch or 0)


def colours_of(pdf: bytes) -> set[str]:
    """Every colour that covers a good part of the page."""
    document = pdfium.PdfDocument(pdf)
    pixels = np.array(document[0].render(scale=1).to_numpy())[:, :, :3].reshape(-1, 3)
    document.close()
    found, counts = np.unique(pixels, axis=0, return_counts=True)
    return {f"#{r:02x}{g:02x}{b:02x}" for b, g, r in found[counts > 150]}


def test_the_page_says_what_the_window_shows(window: BookWindow) -> None:
    page = read_page(pdf_of(window))
    assert page.pages == 1
    notebook = window.book.notebook
    for words in (
        notebook.yard.name,
        "coloured by thatch",
        "¼ ½ ¾",
        *(zone.name for zone in notebook.zones.values()),
        *(spot.name for spot in notebook.spots.values() if spot.at_ft is not None),
    ):
        assert words in page.flat, words
    inside = [b for b in page.boxes if b.left >= 0 and b.right <= page.width]
    assert len(inside) == len(page.boxes)


def test_it_is_true_to_the_scale_it_tells(window: BookWindow) -> None:
    """The sketch's width in feet, as seen, is its width on the page by the scale."""
    page = read_page(pdf_of(window))
    told = re.search(r"1 inch on this page is ([\d.]+) ft", page.flat)
    assert told is not None
    view = window.sketch.view
    wide_ft = view.viewport().width() / view.px_per_ft
    live_in = (page.width - 2 * 44) / 72
    assert float(told[1]) == pytest.approx(wide_ft / live_in, rel=0.02)


@pytest.mark.parametrize("name", ["light", "dark"])
def test_whatever_the_theme_it_is_ink_on_white(window: BookWindow, name: str, qtbot: QtBot) -> None:
    """Zones and legend have the colours of print, and the window keeps its own."""
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    apply_theme(app, name)
    qtbot.wait(20)
    before = window.sketch.view.grab().toImage()
    colours = colours_of(pdf_of(window))
    steps = SCALES["Thatch"].colours(PRINT)
    assert "#ffffff" in colours
    assert len(colours & set(steps)) >= 1
    assert not colours & set(SCALES["Thatch"].colours(DARK))
    assert theme.palette() is (LIGHT if name == "light" else DARK)
    qtbot.wait(20)
    assert window.sketch.view.grab().toImage() == before


def test_handles_stay_off_the_page_and_on_the_screen(window: BookWindow) -> None:
    zone = next(iter(window.book.notebook.zones))
    window.sketch.select("zones", zone)
    assert window.sketch.scene.handles()
    lengths = read_page(pdf_of(window)).flat.count("'")
    assert lengths == 0
    assert window.sketch.scene.handles()


def test_only_the_part_in_view_is_printed(window: BookWindow) -> None:
    """As seen: what was zoomed away is not on the page."""
    name = next(iter(window.book.notebook.spots.values())).name
    assert name in read_page(pdf_of(window)).flat
    view = window.sketch.view
    view.fit((2000.0, 2000.0, 2010.0, 2010.0))
    assert name not in read_page(pdf_of(window)).flat


def test_it_is_drawn_with_lines(window: BookWindow) -> None:
    """No picture of dots is in the file."""
    assert b"/Subtype /Image" not in pdf_of(window)


def test_the_menu_saves_it_and_says_where(
    window: BookWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "sketch.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    action(window, "Save the sketch as PDF…").trigger()
    assert window.book.notebook.yard.name in read_page(path).flat
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "no" / "x"), ""))
    action(window, "Save the sketch as PDF…").trigger()
    assert not (tmp_path / "no").exists()


def test_the_yard_page_offers_it_too(
    window: BookWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window.turn_to("Yard")
    page = window.page("Yard")
    assert isinstance(page, YardPage)
    page.turn_to("In and out")
    path = tmp_path / "seen.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    save = page.findChild(QAbstractButton, "sketch_save")
    assert save is not None
    save.click()
    assert "coloured by thatch" in read_page(path).flat


def test_it_goes_to_a_printer(window: BookWindow, tmp_path: Path) -> None:
    """At the screen's resolution, whatever the printer's own, so that all keeps its size."""
    page = window.sketch_page()
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    printer.setResolution(page.dots_per_inch or 0)
    assert printing.print_on(printer, page).words == printing.SENT
    assert "¼ ½ ¾" in read_page(tmp_path / "printed.pdf").flat


def action(window: BookWindow, text: str) -> QAction:
    """A menu's action by its words."""
    return next(
        each for each in window.findChildren(QAction) if each.text().replace("&", "") == text
    )
