"""Glossary: the trade's terms, each with a picture of our own where one teaches more than words."""

from html import escape

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtGui import QPainter, QPixmap
from PySide6.QtWidgets import QWidget

from lawnbook.agronomy.sources import cite
from lawnbook.charts.glossary import PICTURES, WIDTH_PT, described, picture
from lawnbook.desk.help_text import PICTURES as PICTURE_AT
from lawnbook.desk.help_text import Passage
from lawnbook.desk.leaf_text import TextLeaf
from lawnbook.desk.pages.marks_view import POINTS_PER_INCH
from lawnbook.desk.theme import palette, scale
from lawnbook.reading import reading, tr
from lawnbook.sheet.ink import Ink
from lawnbook.yard.glossary import Term, by_key, glossary


class GlossaryLeaf(TextLeaf):
    """The terms by name; words and amounts follow the units of the notebook."""

    SIZE_PX = QSize(900, 660)
    LEAST_PX = QSize(880, 420)
    """Room for a picture in its full size."""

    def __init__(self, host: QWidget) -> None:
        self._told = reading()
        super().__init__("glossary", host)

    def read_passages(self) -> tuple[Passage, ...]:
        """A passage for each term."""
        self._told = reading()
        names = {key: term.name for key, term in by_key().items()}
        return tuple(_passage(term, names) for term in glossary())

    def open_at(self, section: str = "") -> None:
        """Show the leaf; the terms are told anew where the units have changed meanwhile."""
        self._follow_units()
        super().open_at(section)

    def changeEvent(self, event: QEvent) -> None:
        """Back from the book, where the units may have changed."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            self._follow_units()

    def _follow_units(self) -> None:
        if reading() != self._told:
            self.anew()

    def draw(self, name: str, width_px: int) -> QPixmap:
        """A picture of a term, painted in the theme's colours; the manual's as they are."""
        if name not in PICTURES:
            return super().draw(name, width_px)
        return painted(name, width_px, self.devicePixelRatioF(), self.logicalDpiX())


def painted(name: str, width_px: int, ratio: float, dpi: int) -> QPixmap:
    """A picture in the colours of the theme, in the size of the text, as wide as there is room."""
    made = picture(name)
    px_per_pt = min(dpi / POINTS_PER_INCH * scale(), width_px / WIDTH_PT)
    size = (made.frame.width * px_per_pt, made.frame.height * px_per_pt)
    pixmap = QPixmap(round(size[0] * ratio), round(size[1] * ratio))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(px_per_pt, px_per_pt)
    Ink(painter, palette()).picture(made, 0, 0)
    painter.end()
    return pixmap


def _passage(term: Term, names: dict[str, str]) -> Passage:
    html = f"<p>{escape(term.words, quote=False)}</p>"
    if term.picture:
        said = escape(described(term.picture))
        html += f'<p class="picture"><img src="{PICTURE_AT}{term.picture}" alt="{said}"></p>'
        html += f'<p class="quiet">{said}</p>'
    sources = [cite(key) for key in term.sources]
    for each in sources:
        html += f'<p class="quiet">{escape(tr("Source: {source}", source=each))}</p>'
    if term.see:
        links = (f'<a href="section:{key}">{escape(names[key])}</a>' for key in term.see)
        html += f"<p>{escape(tr('See also:'))} {', '.join(links)}</p>"
    plain = " ".join((term.words, *sources))
    return Passage(key=term.key, title=term.name, html=html, plain=plain)
