"""One page on its way out of the window: to a printer, or into a PDF; what became of it, in words.

The question of the file or the printer is asked here; the page is painted by the sheet.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtGui import QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QWidget

from lawnbook.desk.dialogs import choose_pdf
from lawnbook.sheet.layout import PaperName
from lawnbook.sheet.paper import Draw
from lawnbook.sheet.pdf import FINE, page_layout, write_page
from lawnbook.yard.problems import OwnerError

POINTS_PER_INCH = 72.0
SENT = "Sent to the printer."
NO_PRINTER = "The printer does not answer; check it, or save a PDF."


@dataclass(frozen=True, slots=True)
class PageOut:
    """A page to be printed: its title, the file proposed for it, its paper, who paints it.

    `draw` paints in points from the upper left corner of the paper; several paint a page each. A
    page with `dots_per_inch` has lines of a width in dots, as the screen has.
    """

    title: str
    start: Path
    paper: PaperName
    draw: Draw | Sequence[Draw]
    dots_per_inch: int | None = None


@dataclass(frozen=True, slots=True)
class Said:
    """What became of a page, and the role of the words."""

    words: str
    role: str


def ask_save(parent: QWidget, page: PageOut) -> Said | None:
    """Ask where to, and save the page there as PDF; None when the owner thinks better of it."""
    path = choose_pdf(parent, page.start)
    if path is None:
        return None
    try:
        write_page(page.title, page.draw, path, page.paper, page.dots_per_inch or FINE)
    except OwnerError as problem:
        return Said(str(problem), "refuse")
    return Said(f"Saved: {path}", "good")


def ask_print(parent: QWidget, page: PageOut) -> Said | None:
    """Ask which printer, and print the page; None when the owner thinks better of it."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setDocName(page.title)
    printer.setFullPage(True)
    if page.dots_per_inch:
        printer.setResolution(page.dots_per_inch)
    printer.setPageLayout(page_layout(page.paper))
    dialog = QPrintDialog(printer, parent)
    chosen = dialog.exec()
    dialog.deleteLater()
    return print_on(printer, page) if chosen else None


def print_on(printer: QPrinter, page: PageOut) -> Said:
    """Print the page; says so where the printer does not begin."""
    painter = QPainter()
    if not painter.begin(printer):
        return Said(NO_PRINTER, "refuse")
    scale = printer.resolution() / POINTS_PER_INCH
    for number, draw in enumerate([page.draw] if callable(page.draw) else page.draw):
        if number and not printer.newPage():
            painter.end()
            return Said(NO_PRINTER, "refuse")
        painter.save()
        painter.scale(scale, scale)
        draw(painter)
        painter.restore()
    painter.end()
    return Said(SENT, "good")
