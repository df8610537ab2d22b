"""The colours of the sprinkler rate: steps of blue in in/h, and dry and wet by the zone's mean.

Blue tells how much falls; ochre and violet stand out from it in hue and lightness, also for
colour-blind eyes: less than half of the zone's mean, and more than one and a half times.
"""

from PySide6.QtGui import QColor

from lawnbook.charts.palette import Palette
from lawnbook.charts.tokens import SHADE
from lawnbook.desk.theme import colour, mix
from lawnbook.frozen import dataclass

INSIDE_ALPHA, BEYOND_ALPHA = 0.92, 0.5
"""How far the map covers the paper: in the zones, and paler outside."""

BLUES_ON_LIGHT = (0.12, 0.25, 0.38, 0.53, 0.72)
BLUES_ON_DARK = (0.25, 0.343, 0.428, 0.512, 0.599)
"""Shares of the water's blue in paper, or on dark paper in black, from little to much."""


@dataclass(frozen=True, slots=True)
class RateColours:
    """The steps, dry and wet with the ink on each, and as tables: none, steps, dry, wet."""

    steps: tuple[str, ...]
    dry: str
    on_dry: str
    wet: str
    on_wet: str
    inside: tuple[QColor, ...]
    beyond: tuple[QColor, ...]


def rate_colours(palette: Palette) -> RateColours:
    """The colours in a palette."""
    dark = palette.is_dark
    base, shares = (SHADE, BLUES_ON_DARK) if dark else (palette.paper, BLUES_ON_LIGHT)
    steps = tuple(mix(base, palette.water, share) for share in shares)
    dry = palette.thatch
    wet = palette.feed
    none = colour(palette.paper, 0.0)
    table = (*steps, dry, wet)
    return RateColours(
        steps,
        dry,
        palette.paper if dark else palette.ink,
        wet,
        palette.paper,
        (none, *(colour(each, INSIDE_ALPHA) for each in table)),
        (none, *(colour(each, BEYOND_ALPHA) for each in table)),
    )
