"""Ticks and figures in the units that the owner reads: round numbers of the unit that is shown.

A scale is laid out in US customary units, as everything is held. Its ticks are round numbers of
the shown unit, placed at what they are in the held one: 10, 20, 30 mm, and never 25.4.
"""

from collections.abc import Callable, Sequence

from lawnbook.charts.marks import rough_width
from lawnbook.reading import is_metric, localised, tr
from lawnbook.yard.amounts import shown, stored, told

HALF_INCH_IN, INCH_IN = 0.5, 1.0
"""The thicknesses of thatch that have a line of their own."""

_HALF_DASH, _INCH_DASH = (5.0, 2.6), (1.2, 2.4)
_MEDIUM_PT = 4.0
"""What a name in the medium face is wider than it is guessed."""
_ROUND = tuple(first * 10.0**zeros for zeros in range(-3, 13) for first in (1.0, 2.0, 5.0))
"""Steps of a metric scale, in the shown unit."""

Level = tuple[float, str, tuple[float, ...]]
"""Thatch in inches, what its line is called, and the dashes of it."""


def round_step(
    unit: str, us_steps: Sequence[float], fits: Callable[[float], bool], least: float = 0.0
) -> float:
    """The first step that fits, in the shown unit; the last one where none does.

    `us_steps` ascend and are of the US unit, and of its scale only; a metric scale goes by ones,
    twos and fives, by `least` of its unit at the least. `fits` is asked in the US unit.
    """
    steps = [each for each in _ROUND if each >= least] if is_metric() else list(us_steps)
    return next((each for each in steps if fits(stored(each, unit))), steps[-1])


def ticks(unit: str, step: float, most: float) -> list[tuple[float, float]]:
    """Every tick from nothing up to `most` (US unit): its place (US unit), its number as shown."""
    count = int(shown(most, unit) / step + 1e-9)
    numbers = [number * step for number in range(count + 1)]
    return [(stored(each, unit), each) for each in numbers]


def tick_told(number: float) -> str:
    """A tick's number without needless digits: "0", "0.25", "20"."""
    return localised(f"{number:g}")


def levels() -> tuple[Level, Level]:
    """The lines of half an inch and of an inch; a metric reader finds them at 13 and 25 mm."""
    if not is_metric():
        names = (tr("½ in"), tr("1 in"))
    else:
        names = (told(HALF_INCH_IN, 1, "in"), told(INCH_IN, 1, "in"))
    return (HALF_INCH_IN, names[0], _HALF_DASH), (INCH_IN, names[1], _INCH_DASH)


def levels_room(size_pt: float, least: float, gap_pt: float) -> float:
    """The room in points for the names of both lines at this size, `gap_pt` before them."""
    wide = max(rough_width(name, size_pt) for _, name, _ in levels())
    return max(least, gap_pt + wide + _MEDIUM_PT)


def reach_told(distance_in: float) -> str:
    """A distance from a spot's mark: "12 in", whole millimetres to a metric reader."""
    if is_metric():
        return told(distance_in, 0, "in")
    return f"{localised(f'{distance_in:g}')} {tr('in')}"
