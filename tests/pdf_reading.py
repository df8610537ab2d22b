"""Reading a PDF back as a person would: pages, words, where they stand, pixels."""

import importlib
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import islice
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
    downwards = sorted(enumerate(boxes), key=lambda numbered: numbered[1].top)
    found = []
    for place, (number, one) in enumerate(downwards):
        for after, other in islice(downwards, place + 1, None):
            if one.bottom - other.top <= allowed_pt:
                break  # This one and all that follow begin below it.
            first, second = min(number, after), max(number, after)
            if _lie_over(boxes[first], boxes[second], allowed_pt, second - first == 1):
                found.append((first, second))
    return [(boxes[first].text, boxes[second].text) for first, second in sorted(found)]


def _lie_over(one: TextBox, other: TextBox, allowed_pt: float, follows: bool) -> bool:
    across = min(one.right, other.right) - max(one.left, other.left)
    if follows and across < _KERNING_PT and other.left > one.left:
        return False
    along = min(one.bottom, other.bottom) - max(one.top, other.top)
    return across > allowed_pt and along > allowed_pt
