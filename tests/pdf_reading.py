"""Reading a PDF back as a person would: pages, words, where they stand, pixels."""

import importlib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

_KERNING_PT = 3.5

pdfium: Any = importlib.import_module("pypdfium2")


@dataclass(frozen=True)
class TextBox:
    """A run of text and its tight box in points, y down from the top of the page."""

    text: str
    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True)
class ReadPage:
    """The one page of a PDF."""

    pages: int
    width: float
    height: float
    text: str
    boxes: tuple[TextBox, ...]

    @property
    def flat(self) -> str:
        """All text on one line."""
        return " ".join(self.text.split())


def read_page(source: Path | bytes) -> ReadPage:
    """The first page of a PDF and how many pages there are."""
    document = pdfium.PdfDocument(source)
    try:
        page = document[0]
        width, height = page.get_size()
        words = page.get_textpage()
        boxes = []
        for number in range(words.count_rects()):
            left, bottom, right, top = words.get_rect(number)
            text = words.get_text_bounded(left, bottom, right, top).strip()
            boxes.append(TextBox(text, left, height - top, right, height - bottom))
        text = words.get_text_range()
        return ReadPage(len(document), width, height, text, tuple(boxes))
    finally:
        document.close()


def grey(source: Path | bytes, dots_per_inch: float = 72) -> NDArray[np.uint8]:
    """The first page in shades of grey, as a printer without colour would print it."""
    document = pdfium.PdfDocument(source)
    try:
        bitmap = document[0].render(scale=dots_per_inch / 72, grayscale=True)
        return np.array(bitmap.to_numpy()).reshape(bitmap.height, bitmap.width)
    finally:
        document.close()


def overlapping(boxes: Sequence[TextBox], allowed_pt: float = 0.6) -> list[tuple[str, str]]:
    """Pairs of texts whose boxes overlap by more than allowed in both directions.

    A kerned word is read in pieces that follow each other and overlap a little: no fault.
    """
    found = []
    for number, one in enumerate(boxes):
        for place, other in enumerate(boxes[number + 1 :]):
            across = min(one.right, other.right) - max(one.left, other.left)
            if place == 0 and across < _KERNING_PT and other.left > one.left:
                continue
            along = min(one.bottom, other.bottom) - max(one.top, other.top)
            if across > allowed_pt and along > allowed_pt:
                found.append((one.text, other.text))
    return found
