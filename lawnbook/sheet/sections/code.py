"""The plan as a QR code for the phone, with its caption."""

from collections.abc import Sequence

from lawnbook.reading import tr
from lawnbook.sheet.ink import CAPTION, Ink
from lawnbook.sheet.layout import Box
from lawnbook.sheet.qr import GOOD_MODULE_PT, Code, code_marks, code_of

CAPTION_TEXT = tr("the plan as plain text")
CAPTION_PT = 11.0
LEAST_SIDE_PT = 90.0
"""As wide as the caption."""
TEXT_BYTES = (660, 450)
"""How long the text may be: as the code is wanted, and where the page is full."""


def least_pt(codes: Sequence[Code]) -> float:
    """The height that the fullest of the codes and its caption take at the least."""
    return max(LEAST_SIDE_PT, codes[0].side_pt()) + CAPTION_PT


def codes_of(texts: Sequence[str]) -> tuple[Code, ...]:
    """The codes of the texts, the fullest first; one where they do not differ."""
    return tuple(code_of(text) for text in dict.fromkeys(texts))


def fitting(codes: Sequence[Code], height_pt: float) -> tuple[Code, float]:
    """The fullest code that a height holds with its caption, else the last, and its side."""
    room = height_pt - CAPTION_PT
    code = next((each for each in codes if each.side_pt() <= room), codes[-1])
    return code, max(code.side_pt(), LEAST_SIDE_PT, min(room, code.side_pt(GOOD_MODULE_PT)))


def draw_code(ink: Ink, box: Box, code: Code) -> None:
    """The code at the top of its box, which is as wide as it, and its caption beneath."""
    ink.picture(code_marks(code, box.width), box.left, box.top)
    base = box.top + box.width + CAPTION_PT - 3
    ink.text((box.left + box.width / 2, base), CAPTION_TEXT, CAPTION, "center")
