"""Pages as PDF: vector, fonts embedded, text that can be searched."""

from collections.abc import Callable, Sequence
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMarginsF, QSizeF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter, QPdfWriter

from lawnbook.plan.model import Plan
from lawnbook.sheet.documents import sheet_document
from lawnbook.sheet.fonts import ensure_qt
from lawnbook.sheet.layout import PaperName, paper_size_pt
from lawnbook.sheet.paper import Between, Draw, nothing_between
from lawnbook.store.files import written_whole
from lawnbook.yard.notebook import Notebook

FINE = 1200
"""Dots an inch of a page whose every line is drawn in points."""


def write_sheet(
    notebook: Notebook,
    plan: Plan,
    path: Path,
    paper: PaperName = "letter",
    workings: bool = False,
) -> None:
    """Write the yard plan as a PDF; a file already there is replaced only by a whole one.

    The plan is one page; with `workings` further pages follow. Raises OwnerError where the place
    cannot be written to.
    """
    _keep(sheet_bytes(notebook, plan, paper, workings=workings), path)


def write_page(
    title: str,
    draw: Draw | Sequence[Draw],
    path: Path,
    paper: PaperName = "letter",
    dots_per_inch: int = FINE,
    between: Between = nothing_between,
) -> None:
    """Write the page or pages that `draw` paints as a PDF; whole or not at all.

    `between` may raise before each page and, last of all, before the file takes its place: nothing
    is left behind then. Raises OwnerError where the place cannot be written to.
    """
    of = _count(draw)
    data = page_bytes(title, draw, paper, dots_per_inch, between)
    _keep(data, path, lambda: between(of, of))


def sheet_bytes(
    notebook: Notebook, plan: Plan, paper: PaperName = "letter", *, workings: bool = False
) -> bytes:
    """The PDF of the yard plan as bytes; with `workings` their pages follow the first."""
    title, draws = sheet_document(notebook, plan, paper, workings=workings)
    return page_bytes(title, draws, paper)


def page_bytes(
    title: str,
    draw: Draw | Sequence[Draw],
    paper: PaperName = "letter",
    dots_per_inch: int = FINE,
    between: Between = nothing_between,
) -> bytes:
    """The PDF of a page as bytes, or of several; each `draw` paints one in points from its corner.

    Lines of so many pixels, whatever the scale, are as wide as so many dots. In any thread, where
    what `draw` reads is frozen; the bytes are the same.
    """
    draws = [draw] if callable(draw) else list(draw)
    ensure_qt()
    store = QByteArray()
    buffer = QBuffer(store)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setTitle(title)
    writer.setCreator("Lawnbook")
    writer.setResolution(dots_per_inch)
    writer.setPageLayout(page_layout(paper))
    painter = QPainter()
    if not painter.begin(writer):
        raise RuntimeError("Qt would not begin a PDF in memory")
    try:
        for number, each in enumerate(draws):
            between(number, len(draws))
            if number and not writer.newPage():
                raise RuntimeError("Qt would not begin a page of a PDF in memory")
            painter.save()
            painter.scale(dots_per_inch / 72, dots_per_inch / 72)
            try:
                each(painter)
            finally:
                painter.restore()
    finally:
        painter.end()
    buffer.close()
    return bytes(store.data())


def page_layout(paper: PaperName) -> QPageLayout:
    """The paper upright without Qt's margins: the page has its own."""
    size = QPageSize(QSizeF(*paper_size_pt(paper)), QPageSize.Unit.Point)
    return QPageLayout(
        size, QPageLayout.Orientation.Portrait, QMarginsF(0, 0, 0, 0), QPageLayout.Unit.Point
    )


def _count(draw: Draw | Sequence[Draw]) -> int:
    return 1 if callable(draw) else len(draw)


def _keep(data: bytes, path: Path, last: Callable[[], None] = lambda: None) -> None:
    with written_whole(path, last) as fresh:
        fresh.write_bytes(data)
