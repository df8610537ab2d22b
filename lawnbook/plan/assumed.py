"""What is assumed of a zone because its owner did not know it: its outline, or its rate.

A mark on a zone counts only while it is true: a square for want of an outline while the outline is
a square, the usual rate of a kind of sprinklers while that very rate is typed. Whoever types a rate
or moves a corner has answered, and need take no mark away.
"""

import math
from collections.abc import Iterable
from dataclasses import replace

from lawnbook.agronomy.units import m2_to_sqft
from lawnbook.agronomy.usual_rates import USUAL_RATES, SprinklerKind, UsualRate
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import told
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import rectangle_ft, side_lengths_ft, zone_area_sqft
from lawnbook.yard.records import Zone

SQUARE_CORNERS = 4
EVEN_FT = 0.02
"""How much the sides of a square may differ by the rounding of its corners."""


def standard_sqft() -> float:
    """The area (sq ft) taken where not even that is known: a round one in the owner's units.

    A thousand square feet, which rates of feeding are told for, or a hundred square metres.
    """
    return m2_to_sqft(100.0) if is_metric() else 1000.0


def square_of(area_sqft: float, corner: Point) -> Outline:
    """The square of an area (sq ft) with its lower left corner there.

    ValueError for an area that is not above zero.
    """
    if not area_sqft > 0 or not math.isfinite(area_sqft):
        raise ValueError("an area must be above zero")
    side = round(math.sqrt(area_sqft), 2)
    return rectangle_ft(corner, side, side)


def is_assumed_square(zone: Zone) -> bool:
    """Whether a zone's outline is a square of its area, for want of a better one."""
    if "square" not in zone.assumed or len(zone.outline_ft) != SQUARE_CORNERS or zone.holes_ft:
        return False
    sides = side_lengths_ft(zone.outline_ft)
    even = max(sides) - min(sides) <= EVEN_FT
    return even and abs(zone_area_sqft(zone) - sides[0] ** 2) <= EVEN_FT * sides[0]


def assumed_kind(zone: Zone) -> SprinklerKind | None:
    """The kind of sprinklers whose usual rate stands for the zone's own; None where none does."""
    for kind, usual in USUAL_RATES.items():
        if kind in zone.assumed and zone.precipitation_in_per_h == usual.middle_in_per_h:
            return kind
    return None


def with_usual_rate(zone: Zone, kind: SprinklerKind) -> Zone:
    """The zone with the middle of a kind's usual rates, marked as assumed."""
    others = tuple(each for each in zone.assumed if each not in USUAL_RATES)
    middle = USUAL_RATES[kind].middle_in_per_h
    return replace(zone, precipitation_in_per_h=middle, assumed=(*others, kind))


def range_told(usual: UsualRate) -> str:
    """A usual rate in words: "1.30 in/h to 2.00 in/h"."""
    return tr(
        "{low} to {high}",
        low=told(usual.low_in_per_h, 2, "in/h"),
        high=told(usual.high_in_per_h, 2, "in/h"),
    )


def kind_told(kind: SprinklerKind) -> str:
    """A kind of sprinklers as it is named on screen."""
    return {
        "fixed sprays": tr("fixed sprays"),
        "rotors": tr("rotors"),
        "rotating streams": tr("rotating streams"),
        "any sprinklers": tr("sprinklers of any kind"),
    }[kind]


def rate_assumed_told(zone: Zone) -> str:
    """What stands in for a zone's rate, "usual rate of rotors"; empty where it was told."""
    kind = assumed_kind(zone)
    return "" if kind is None else usual_told(kind)


def usual_told(kind: SprinklerKind) -> str:
    """What a kind's usual rate is called: "usual rate of rotors"."""
    return tr("usual rate of {kind}", kind=kind_told(kind))


def usual_rate_in(defaults: Iterable[str]) -> str:
    """Which usual rate is among the defaults of a zone's plan; empty where none is."""
    usual = {usual_told(kind) for kind in USUAL_RATES}
    return next((each for each in defaults if each in usual), "")
