"""The scale bar of a sketch: a round number of feet, or of metres where the owner reads those."""

from lawnbook.charts.marks import Mark, Polyline, Spot, Words, rough_width
from lawnbook.yard.amounts import shown, stored, unit_shown

_SCALES = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)
"""How long the bar may be, in the unit that is shown."""
_SHARE = 0.2
"""How much of the frame's width the bar takes at most."""
_SIZE_PT = 8.5


def scale_bar(at: Spot, pt_per_ft: float, frame_width: float) -> list[Mark]:
    """The bar from `at` to the right, with its middle marked, and what it is."""
    (x, y), (feet, text) = at, _length(pt_per_ft, frame_width)
    length = feet * pt_per_ft
    ends = tuple(((each, y - 2.5), (each, y + 2.5)) for each in (x, x + length / 2, x + length))
    return [
        Polyline(lines=(((x, y), (x + length, y)), *ends), role="ink", width=1.0),
        Words(at=(x + length + 6, y + 3), text=text, size=_SIZE_PT),
    ]


def scale_end(left: float, pt_per_ft: float, frame_width: float) -> float:
    """Where a bar that begins at `left` ends, its words with it."""
    feet, text = _length(pt_per_ft, frame_width)
    return left + feet * pt_per_ft + 6 + rough_width(text, _SIZE_PT)


def _length(pt_per_ft: float, frame_width: float) -> tuple[float, str]:
    """The bar's length in feet, and what it is told as."""
    wanted = shown(frame_width * _SHARE / pt_per_ft, "ft")
    number = max((each for each in _SCALES if each <= wanted), default=_SCALES[0])
    return stored(number, "ft"), f"{number} {unit_shown('ft')}"
