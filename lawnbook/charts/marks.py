"""Marks: what a picture is made of, before anybody paints it.

A picture is a list of marks on a frame measured in points (1/72 in), x to the right and y down.
Marks name the palette's roles, never colours, so that one picture serves the window, the dark
window and the printed page. `charts.paint` draws them with matplotlib, the sheet with Qt.
"""

from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from itertools import takewhile
from math import ceil, floor
from typing import Literal

from lawnbook.frozen import dataclass

Spot = tuple[float, float]
Ring = tuple[Spot, ...]
Face = Literal["regular", "medium", "semibold", "italic", "serif", "serif semibold", "serif italic"]
Align = Literal["left", "center", "right"]

ELLIPSIS = "…"
_LEAST_START = 3
_LETTERS_BEFORE = 3

FONT_FILES: dict[Face, str] = {
    "regular": "Inter-Regular.ttf",
    "medium": "Inter-Medium.ttf",
    "semibold": "Inter-SemiBold.ttf",
    "italic": "Inter-Italic.ttf",
    "serif": "SourceSerif4-Regular.ttf",
    "serif semibold": "SourceSerif4-SemiBold.ttf",
    "serif italic": "SourceSerif4-Italic.ttf",
}
"""The font file of each face, in resources/fonts."""


@dataclass(frozen=True, slots=True)
class Frame:
    """The size of a picture in points."""

    width: float
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Polygon:
    """Closed rings in one style; a ring running against the others cuts a hole (non-zero rule).

    `fill` and `edge` are roles, empty for none; `width` is the edge's, in points.
    """

    rings: tuple[Ring, ...]
    fill: str = ""
    edge: str = ""
    width: float = 0.7
    alpha: float = 1.0
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Polyline:
    """Open lines in one style. `dash` is in points, on and off in turn."""

    lines: tuple[Ring, ...]
    role: str
    width: float = 0.7
    alpha: float = 1.0
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Disc:
    """A filled circle."""

    at: Spot
    radius: float
    fill: str
    edge: str = ""
    width: float = 0.7


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """One line of text; `at` is on its baseline. `halo` is the role of an outline behind it."""

    at: Spot
    text: str
    role: str = "ink"
    size: float = 9.0
    face: Face = "regular"
    align: Align = "left"
    halo: str = ""


Mark = Polygon | Polyline | Disc | Words


@dataclass(frozen=True, slots=True)
class Picture:
    """Marks on a frame, painted in their order."""

    frame: Frame
    marks: tuple[Mark, ...]

    def words(self) -> tuple[str, ...]:
        """All that can be read in the picture, in painting order."""
        return tuple(mark.text for mark in self.marks if isinstance(mark, Words))


def rectangle(left: float, top: float, right: float, bottom: float) -> Ring:
    """A rectangle's ring, always run the same way round."""
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def in_the_middle(lines: Sequence[str], frame: Frame) -> Picture:
    """A picture of nothing but words, which say what is missing."""
    top = frame.height / 2 - 8 * (len(lines) - 1)
    words = (
        Words(
            at=(frame.width / 2, top + 16 * row),
            text=text,
            role="quiet",
            size=10,
            face="serif italic",
            align="center",
        )
        for row, text in enumerate(lines)
    )
    return Picture(frame, tuple(words))


def rough_width(text: str, size: float) -> float:
    """A generous guess of a text's width in points, for keeping labels apart without a font.

    Inter's digits are 0.62 em, its lower-case letters 0.56 em on average (measured on the font).
    """
    narrow = sum(text.count(each) for each in " .,:;'’|ilj()")
    wide = sum(text.count(each) for each in "MWmw")
    return size * (0.60 * len(text) - 0.28 * narrow + 0.25 * wide)


def shortened(text: str, fits: Callable[[str], bool]) -> str:
    """The text, or the longest beginning of it with an ellipsis that fits.

    Cut between words, unless that would lose more than half of the letters that find room.
    """
    if fits(text):
        return text
    lengths = range(1, len(text))
    letters = bisect_left(lengths, True, key=lambda length: not fits(_cut(text[:length])))
    whole_words = text[: letters + 1].rpartition(" ")[0]
    return _cut(whole_words if len(whole_words) >= letters / 2 else text[:letters])


def _cut(beginning: str) -> str:
    return beginning.rstrip(" ,;:·(–") + ELLIPSIS


def told_apart(names: Sequence[str], fits: Sequence[Callable[[str], bool]]) -> tuple[str, ...]:
    """Names shortened to fit, in the middle where cut ends would leave different names alike.

    `fits` tells of each name what finds room. Of alike names, the start that they share gives way
    to what tells them apart.
    """
    told = [shortened(name, fit) for name, fit in zip(names, fits, strict=True)]
    # Each round parts the names that the one before still left alike; one each is more than enough.
    for _ in names:
        for group in _alike(names, told):
            same = _shared([names[place] for place in group])
            for place in group:
                told[place] = _parted(names[place], same, fits[place])
    return tuple(told)


def _alike(names: Sequence[str], told: Sequence[str]) -> list[list[int]]:
    """Groups of places whose different names are told alike."""
    places: dict[str, list[int]] = {}
    for place, text in enumerate(told):
        places.setdefault(text, []).append(place)
    return [group for group in places.values() if len({names[place] for place in group}) > 1]


def _shared(names: Sequence[str]) -> int:
    """How many letters the names have in common from their start."""
    columns = zip(*names, strict=False)
    return sum(1 for _ in takewhile(lambda letters: len(set(letters)) == 1, columns))


def _parted(name: str, same: int, fits: Callable[[str], bool]) -> str:
    """As much of a name's start as leaves room for its rest, from where the others differ."""
    word = name.rfind(" ", 0, same) + 1
    near = max(word, same - _LETTERS_BEFORE)
    for rest in (name[word:], name[near:]):
        room = partial(_fits_before, rest, fits)
        head = shortened(name.removesuffix(rest), room)
        if len(head) > _LEAST_START:
            return head + rest
    return shortened(_cut(name[: min(near, _LEAST_START)]) + name[near:], fits)


def _fits_before(rest: str, fits: Callable[[str], bool], head: str) -> bool:
    return fits(head + rest)


def diagonals(left: float, top: float, right: float, bottom: float, gap: float) -> tuple[Ring, ...]:
    """Hatching of a rectangle: rising lines `gap` apart along x, clipped to the rectangle."""
    lines: list[Ring] = []
    height = bottom - top
    start = left - height
    for step in range(1, int((right - start) / gap) + 1):
        foot = start + step * gap
        low_x, high_x = max(foot, left), min(foot + height, right)
        if low_x < high_x:
            lines.append(((low_x, bottom - (low_x - foot)), (high_x, bottom - (high_x - foot))))
    return tuple(lines)


def level_strokes(
    left: float, top: float, right: float, bottom: float, gap: float
) -> tuple[Ring, ...]:
    """Level lines across a rectangle, `gap` apart from its foot upward."""
    count = int((bottom - top) / gap - 1e-9)
    heights = (bottom - gap * number for number in range(1, count + 1))
    return tuple(((left, y), (right, y)) for y in heights)


def hatching(rings: Sequence[Ring], gap: float) -> tuple[Ring, ...]:
    """Hatching of any surface: falling lines `gap` apart along x, inside of an odd number of rings.

    The lines stand at multiples of the gap from the frame's corner, so neighbours' run on.
    """
    sides = [side for ring in rings for side in zip(ring, (*ring[1:], *ring[:1]), strict=True)]
    starts = [x - y for ring in rings for x, y in ring]
    if not starts:
        return ()
    lines: list[Ring] = []
    for step in range(ceil(min(starts) / gap), floor(max(starts) / gap) + 1):
        crossed = sorted(_crossings(sides, step * gap))
        # Along a falling line x and y grow together, so every other stretch lies inside.
        lines += list(zip(crossed[::2], crossed[1::2], strict=False))
    return tuple(lines)


def _crossings(sides: Sequence[tuple[Spot, Spot]], start: float) -> Iterator[Spot]:
    """Where sides cross the falling line that meets the frame's top at `start`."""
    for (ax, ay), (bx, by) in sides:
        before, after = ax - ay - start, bx - by - start
        if (before < 0.0) != (after < 0.0):
            share = before / (before - after)
            yield (ax + (bx - ax) * share, ay + (by - ay) * share)
