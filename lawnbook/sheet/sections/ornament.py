"""The ornament under the sheet's title: a double rule that parts for a tuft and its roots.

Drawn here, in marks, from a few curves: what a plug shows, which the whole plan is made from.
"""

from lawnbook.charts.marks import Disc, Frame, Mark, Picture, Polyline, Ring

HEIGHT_PT = 25.0
_GROUND_PT = 12.5
_HALF_GAP_PT = 21.0
_STEPS = 7
_BLADES = ((-1.2, -9.5, 8.0), (-0.7, -6.0, 10.5), (-0.3, -2.4, 11.8), (0.2, 1.6, 12.2))
"""Foot, tip to the side and up, in points; each has its likeness on the other side."""
_ROOTS = ((-1.0, -6.5, 6.5), (-0.5, -2.8, 9.5), (0.1, 0.8, 11.0))


def ornament(width: float) -> Picture:
    """The rule with its tuft in the middle, over the whole width."""
    middle = width / 2
    blades = [_curve(middle, foot, tip, -up) for foot, tip, up in (*_BLADES, *_mirrored(_BLADES))]
    roots = [_curve(middle, foot, tip, down) for foot, tip, down in (*_ROOTS, *_mirrored(_ROOTS))]
    ends = ((0.0, middle - _HALF_GAP_PT), (middle + _HALF_GAP_PT, width))
    marks: list[Mark] = []
    for y, pen_pt in ((_GROUND_PT - 1.1, 1.2), (_GROUND_PT + 1.3, 0.4)):
        rules = tuple(((start, y), (end, y)) for start, end in ends)
        marks.append(Polyline(lines=rules, role="ink", width=pen_pt))
    ground = ((middle - 9.0, _GROUND_PT), (middle + 9.0, _GROUND_PT))
    marks += [
        Polyline(lines=(ground,), role="ink", width=0.5),
        Polyline(lines=tuple(roots), role="ink", width=0.45),
        Polyline(lines=tuple(blades), role="verdure", width=0.9),
    ]
    for x in (middle - _HALF_GAP_PT + 5.5, middle + _HALF_GAP_PT - 5.5):
        marks.append(Disc(at=(x, _GROUND_PT), radius=1.1, fill="ink"))
    return Picture(Frame(width, HEIGHT_PT), tuple(marks))


def _mirrored(
    curves: tuple[tuple[float, float, float], ...],
) -> tuple[tuple[float, float, float], ...]:
    return tuple((-foot, -tip, reach) for foot, tip, reach in curves)


def _curve(middle: float, foot: float, tip: float, reach: float) -> Ring:
    """From the ground straight up or down first, then bending out to the tip."""
    steps = [step / _STEPS for step in range(_STEPS + 1)]
    return tuple(
        (middle + foot + (tip - foot) * t * t, _GROUND_PT + reach * (2 * t - t * t)) for t in steps
    )
