"""A row of large figures at the head of a page: what each is, the figure, two lines about it."""

from collections.abc import Sequence
from dataclasses import replace

from lawnbook.frozen import dataclass
from lawnbook.sheet import placed
from lawnbook.sheet.ink import CAPTION, DETAIL, Ink, Style
from lawnbook.sheet.layout import GUTTER_PT, Box

HEADLINES_PT = 52.0
_FIGURE = Style("serif semibold", 18)
_SIZES = (_FIGURE.size, 16.0, 14.0, 12.0)


@dataclass(frozen=True, slots=True)
class Headline:
    """A large figure, what it is, a remark below it, and one more below that.

    `key` names the figures, see `sheet.placed`.
    """

    figure: str
    name: str
    remark: str
    before: str = ""
    key: str = ""


def draw_headlines(ink: Ink, box: Box, shown: Sequence[Headline], columns: int = 4) -> None:
    """The figures from the left, each in one of so many columns; the box's height is not used."""
    wide = (box.width - GUTTER_PT * (columns - 1)) / columns
    for number, each in enumerate(shown):
        left = box.left + number * (wide + GUTTER_PT)
        placed.place((left, box.top, left + wide, box.bottom), each.key)
        ink.text((left, box.top + 8), ink.fit(each.name, CAPTION, wide), CAPTION)
        style = _fitting(ink, each.figure, wide)
        ink.text((left, box.top + 27), ink.fit(each.figure, style, wide), style)
        for line, text in enumerate((each.remark, each.before)):
            ink.text((left, box.top + 38 + 9.5 * line), ink.fit(text, DETAIL, wide), DETAIL)


def _fitting(ink: Ink, text: str, width: float) -> Style:
    tried = [replace(_FIGURE, size=size) for size in _SIZES]
    return next((each for each in tried if ink.width(text, each) <= width), tried[-1])
