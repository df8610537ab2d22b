"""A fresh page: the painter made ready, its unit the point, and white paper laid under it."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from lawnbook.sheet.fonts import ensure_qt
from lawnbook.sheet.ink import Ink
from lawnbook.sheet.layout import PaperName, paper_size_pt

Draw = Callable[[QPainter], None]
"""Paints one page on a painter whose unit is the point."""
Between = Callable[[int, int], None]
"""Told between two pieces of work how many are done, of how many; it may raise to leave off."""


def nothing_between(_done: int, _of: int) -> None:
    """Let the work go on."""


@contextmanager
def on_paper(painter: QPainter, paper: PaperName) -> Iterator[Ink]:
    """The ink of a page whose origin is the paper's upper left corner; the painter is restored."""
    ensure_qt()
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setRenderHint(QPainter.RenderHint.TextAntialiasing)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    ink = Ink(painter)
    ink.tint(QRectF(0, 0, *paper_size_pt(paper)), "paper")
    try:
        yield ink
    finally:
        painter.restore()
