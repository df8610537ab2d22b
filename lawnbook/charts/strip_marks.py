"""The strips along water and features as marks: hatched, and dashed where spreading stops."""

from collections.abc import Callable

from lawnbook.charts.marks import Mark, Polyline, Ring, Spot, Words, hatching, rough_width
from lawnbook.plan.strips import strips_of
from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Notebook

KEY_WORDS = tr("no spread")
"""What the printed sketch calls a strip."""

_GAP_PT = 5.0
_KEY_SIZE_PT = 8.5
_SAMPLE_PT = (12.0, 7.0)


def strip_marks(notebook: Notebook, place: Callable[[Point], Spot]) -> list[Mark]:
    """The strips of every zone; `place` leads from feet on the ground to points of the frame."""
    marks: list[Mark] = []
    for zone in notebook.zones.values():
        found = strips_of(notebook, zone)
        rings = [tuple(map(place, ring)) for ring in found.rings_ft]
        borders = [tuple(map(place, border)) for border in found.borders_ft]
        marks += _drawn(hatching(rings, _GAP_PT), tuple(borders))
    return marks


def strip_key(left: float, y: float, right: float) -> list[Mark]:
    """A sample of a strip with its words, on a line about `y`; nothing where it has no room."""
    wide, high = _SAMPLE_PT
    if left + wide + 5 + rough_width(KEY_WORDS, _KEY_SIZE_PT) > right:
        return []
    top, bottom, end = y - high / 2, y + high / 2, left + wide
    ring = ((left, top), (end, top), (end, bottom), (left, bottom))
    words = Words(at=(end + 5, y + 3), text=KEY_WORDS, role="quiet", size=_KEY_SIZE_PT)
    return [*_drawn(hatching([ring], _GAP_PT / 2), (ring[:2],)), words]


def _drawn(hatch: tuple[Ring, ...], borders: tuple[Ring, ...]) -> list[Mark]:
    marks: list[Mark] = []
    if hatch:
        marks.append(Polyline(lines=hatch, role="ink", width=0.35, alpha=0.4))
    if borders:
        marks.append(Polyline(lines=borders, role="ink", width=0.7, alpha=0.75, dash=(3.0, 2.0)))
    return marks
