"""One page on its way out of the window: to a printer, or into a PDF; what became of it, in words.

The question of the file or the printer is asked here; the page is painted by the sheet. A PDF is
painted beside the window's work, with a line that tells how far it is and can stop it; a printer
has its own place in Qt, so pages for it are painted by the window, which looks up after each.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

from PySide6.QtGui import QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrinterInfo
from PySide6.QtWidgets import QWidget

from lawnbook.desk.beside import Stop
from lawnbook.desk.dialogs import choose_pdf
from lawnbook.desk.page_steps import PAINTING, page_steps
from lawnbook.desk.wait_line import WaitLine
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.sheet.layout import PaperName, paper_size_pt
from lawnbook.sheet.paper import Draw
from lawnbook.sheet.pdf import FINE, page_layout, write_page
from lawnbook.yard.problems import GivenUpError, OwnerError

POINTS_PER_INCH = 72.0
_AS_GOOD_AS_WHOLE = 0.995
_STOPPED = (QPrinter.PrinterState.Error, QPrinter.PrinterState.Aborted)
CALLED_OFF_PRINTING = tr("Cancelled: pages that are with the printer already may still come.")
SENT = tr("Sent to the printer.")
NO_PRINTER = tr("The printer does not answer; check it, or save a PDF.")
NONE_SET_UP = tr(
    "No printer is set up on this computer, so nothing was printed. Save a PDF: it "
    "prints alike anywhere else."
)


@dataclass(frozen=True, slots=True)
class PageOut:
    """A page to be printed: its title, the file proposed for it, its paper, who paints it.

    `draw` paints in points from the upper left corner of the paper; several paint a page each. A
    page with `dots_per_inch` has lines of a width in dots, as the screen has. What `is_long` takes
    more than a moment to paint, and reads frozen values only, so that any thread may paint it.
    """

    title: str
    start: Path
    paper: PaperName
    draw: Draw | Sequence[Draw]
    dots_per_inch: int | None = None
    is_long: bool = False


@dataclass(frozen=True, slots=True)
class Said:
    """What became of a page, and the role of the words."""

    words: str
    role: str


Ask = Callable[[QWidget, PageOut], Said | Path | None]
"""Asks where a page is to go. Says what became of it, or gives the path of the PDF that is wanted;
None for neither."""
Tell = Callable[[Said], None]


def put_out(ask: Ask, line: WaitLine, page: PageOut, tell: Tell) -> None:
    """Ask where a page is to go, and bring it there; `tell` gets what became of it.

    A PDF is written by the line, which says itself that it was stopped (`cancelled`).
    """
    if line.in_the_way:
        tell(Said(line.in_the_way, "refuse"))
        return
    outcome = ask(line.window(), page)
    if isinstance(outcome, Path):
        save(page, outcome, line, tell)
    elif outcome is not None:
        tell(outcome)


def save(page: PageOut, path: Path, line: WaitLine, tell: Tell) -> None:
    """Save a page as PDF, whole or not at all; a long one beside the window's work."""

    def make(stop: Stop) -> Path:
        def between(done: int, of: int) -> None:
            stop.step(done, of)
            if done == of:
                stop.settle()

        write_page(page.title, page.draw, path, page.paper, page.dots_per_inch or FINE, between)
        return path

    def then(outcome: object) -> None:
        if isinstance(outcome, OwnerError):
            tell(Said(str(outcome), "refuse"))
        else:
            tell(Said(tr("Saved: {path}", path=path), "good"))

    line.write(PAINTING, path.name, make, then, at_once=not page.is_long)


def ask_save(parent: QWidget, page: PageOut) -> Path | None:
    """Ask where to save a page as PDF; None when the owner thinks better of it."""
    return choose_pdf(parent, page.start)


def ask_print(parent: QWidget, page: PageOut) -> Said | Path | None:
    """Ask which printer, and print the page; None when the owner thinks better of it.

    Where a file is chosen in the printer's dialog, its path: ours is there whole or not at all,
    while a printer writes into it as it goes.
    """
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setDocName(page.title)
    printer.setFullPage(True)
    if page.dots_per_inch:
        printer.setResolution(page.dots_per_inch)
    printer.setPageLayout(page_layout(page.paper))
    dialog = QPrintDialog(printer, parent)
    chosen = dialog.exec()
    dialog.deleteLater()
    if not chosen:
        return None if QPrinterInfo.availablePrinterNames() else Said(NONE_SET_UP, "refuse")
    if printer.outputFileName():
        return Path(printer.outputFileName())
    with page_steps(parent) as steps:
        return print_on(printer, replace(page, draw=steps.stepped(page.draw)))


def print_on(printer: QPrinter, page: PageOut) -> Said:
    """Print the pages asked for; says so where the printer does not begin, or stops.

    A page that is no longer wanted calls the printing off.
    """
    painter = QPainter()
    if not painter.begin(printer):
        return Said(NO_PRINTER, "refuse")
    scale = printer.resolution() / POINTS_PER_INCH * _fit(printer, page.paper)
    try:
        whole = _paint_all(painter, printer, _asked_for(printer, page), scale)
    except GivenUpError:
        printer.abort()
        painter.end()
        return Said(CALLED_OFF_PRINTING, "caption")
    ended = painter.end() and whole
    stopped = printer.printerState() in _STOPPED
    return Said(SENT, "good") if ended and not stopped else Said(NO_PRINTER, "refuse")


def _paint_all(painter: QPainter, printer: QPrinter, draws: Sequence[Draw], scale: float) -> bool:
    """Paint page after page; whether the printer took them all."""
    for number, draw in enumerate(draws):
        if number and not printer.newPage():
            return False
        painter.save()
        painter.scale(scale, scale)
        try:
            draw(painter)
        finally:
            painter.restore()
    return True


def _asked_for(printer: QPrinter, page: PageOut) -> Sequence[Draw]:
    """The pages of the range chosen in the printer's dialog; all where none was."""
    draws = [page.draw] if callable(page.draw) else list(page.draw)
    first, last = printer.fromPage(), printer.toPage()
    chosen = draws[max(0, first - 1) : last or len(draws)] if first or last else draws
    return chosen or draws


def _fit(printer: QPrinter, paper: PaperName) -> float:
    """How much smaller a page is printed that is larger than the paper chosen in the dialog."""
    held = printer.pageLayout().fullRectPoints()
    width, height = paper_size_pt(paper)
    fit = min(held.width() / width, held.height() / height)
    # Papers of one name differ by a point from system to system.
    return 1.0 if fit > _AS_GOOD_AS_WHOLE else fit
