"""What a page is painted with, written down: every text's box, every picture's, every rule."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from lawnbook.charts.marks import Align, Picture, Spot
from lawnbook.sheet.fonts import ensure_qt
from lawnbook.sheet.ink import Ink, Style
from lawnbook.sheet.paper import Draw

# The parts of a size above and below the baseline that letters, digits and brackets take.
ASCENT, DESCENT = 0.74, 0.21


@dataclass(frozen=True)
class Inked:
    """Something painted: what it is in words, and its box in points."""

    what: str
    box: QRectF
    size: float = 0.0


@dataclass
class InkBook:
    """What was painted on a page: texts and pictures (not what is inside pictures), and rules."""

    texts: list[Inked] = field(default_factory=list)
    pictures: list[Inked] = field(default_factory=list)
    rules: list[QRectF] = field(default_factory=list)
    sizes: list[float] = field(default_factory=list)
    roles: set[str] = field(default_factory=set)
    depth: int = 0

    @property
    def boxes(self) -> list[Inked]:
        """Texts and pictures."""
        return [*self.texts, *self.pictures]

    def overlapping(self, allowed_pt: float = 0.6) -> list[tuple[str, str]]:
        """Pairs of texts or pictures of which one lies on the other."""
        found = []
        boxes = self.boxes
        for number, one in enumerate(boxes):
            for other in boxes[number + 1 :]:
                shared = one.box.intersected(other.box)
                if shared.width() > allowed_pt and shared.height() > allowed_pt:
                    found.append((one.what, other.what))
        return found


@contextmanager
def inked(monkeypatch: pytest.MonkeyPatch) -> Iterator[InkBook]:
    """Write down what is painted meanwhile."""
    book = InkBook()
    write, paint, rule = Ink.text, Ink.picture, Ink.rule

    def text(self: Ink, at: Spot, text: str, style: Style, align: Align = "left") -> None:
        book.sizes += [style.size] if text else []
        if text and not book.depth:
            wide = self.width(text, style)
            left = at[0] - {"left": 0.0, "center": 0.5, "right": 1.0}[align] * wide
            top, high = at[1] - ASCENT * style.size, (ASCENT + DESCENT) * style.size
            book.texts.append(Inked(text, QRectF(left, top, wide, high), style.size))
            book.roles.add(style.role)
        write(self, at, text, style, align)

    def picture(self: Ink, picture: Picture, left: float, top: float) -> None:
        box = QRectF(left, top, picture.frame.width, picture.frame.height)
        book.pictures.append(Inked("picture", box))
        book.depth += 1
        paint(self, picture, left, top)
        book.depth -= 1

    def ruled(
        self: Ink, left: float, right: float, y: float, role: str = "rule", width: float = 0.6
    ) -> None:
        book.rules.append(QRectF(left, y - width / 2, right - left, width))
        rule(self, left, right, y, role, width)

    with monkeypatch.context() as patched:
        patched.setattr(Ink, "text", text)
        patched.setattr(Ink, "picture", picture)
        patched.setattr(Ink, "rule", ruled)
        yield book


def ink_of(draw: Draw, monkeypatch: pytest.MonkeyPatch) -> InkBook:
    """What a page is painted with."""
    ensure_qt()
    image = QImage(64, 64, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    with inked(monkeypatch) as book:
        draw(painter)
    painter.end()
    return book
