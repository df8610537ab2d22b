"""One sprinkler's throw in closed form: what its profile puts through any line, without a grid.

Water thrown outward from a head along straight rays crosses a line in an amount that has a closed
form for every profile of straight pieces. What lands within an outline is then the sum over its
sides (Green's theorem; the rays that bound an arc let nothing through), and so are the cells of a
map: nothing is lost or gained between them, however coarse they are.
Lengths are feet, angles degrees clockwise from north, rates in/h. Source: "rate-constant".
"""

import math
from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.checks import (
    Array,
    between,
    finite,
    not_negative,
    not_negative_array,
    positive,
)
from lawnbook.agronomy.precipitation import RATE_CONSTANT
from lawnbook.frozen import dataclass

Point = tuple[float, float]
Ring = tuple[Point, ...]

FULL_CIRCLE_DEG = 360.0
_LEAST_GAP = 1e-12
_QUARTER = math.pi / 2
_TURN = 2 * math.pi


@dataclass(frozen=True, slots=True)
class Sprinkler:
    """A head with its flow: the arc runs clockwise from `start_deg`, the profile outward.

    The profile's depths are relative, at even steps from the head to the radius, straight lines
    between them. ValueError for what no sprinkler can be.
    """

    at_ft: Point
    radius_ft: float
    start_deg: float
    sweep_deg: float
    flow_gpm: float
    profile: tuple[float, ...]

    def __post_init__(self) -> None:
        """Refuse figures that the formulas cannot take."""
        for name, value in zip(("x", "y"), self.at_ft, strict=True):
            finite(name, value)
        positive("radius_ft", self.radius_ft)
        finite("start_deg", self.start_deg)
        positive("sweep_deg", between("sweep_deg", self.sweep_deg, 0.0, FULL_CIRCLE_DEG))
        not_negative("flow_gpm", self.flow_gpm)
        depths = not_negative_array("profile", self.profile)
        if depths.size < 2 or not depths.any():
            raise ValueError("A profile needs two depths or more, not all 0.")

    @property
    def sweep_rad(self) -> float:
        """The width of the arc in radians."""
        return math.radians(self.sweep_deg)

    @property
    def unit_rate_in_per_h(self) -> float:
        """The rate where the profile reads 1: flow = rate x sweep x radius² x moment."""
        ground = self.sweep_rad * self.radius_ft**2 * profile_moment(self.profile)
        return RATE_CONSTANT * self.flow_gpm / ground


def profile_moment(profile: Sequence[float]) -> float:
    """∫ profile(u) u du over u from 0 at the head to 1 at its radius; exact for straight pieces."""
    return _pieces(tuple(profile))[-1].within


def profile_at(profile: Sequence[float], share: Array) -> Array:
    """The relative depth at shares of the radius; 0 beyond it."""
    steps = np.linspace(0.0, 1.0, len(profile))
    depths = np.interp(share, steps, np.asarray(profile, dtype=np.float64))
    return np.where(share <= 1.0, depths, 0.0)


def within_arc(sprinkler: Sprinkler, east_ft: Array, north_ft: Array) -> NDArray[np.bool_]:
    """Whether places, given from the head, lie within its arc; its two edges count."""
    slack_deg = 1e-9
    bearing = np.degrees(np.arctan2(east_ft, north_ft))
    past = np.mod(bearing - sprinkler.start_deg + slack_deg, FULL_CIRCLE_DEG)
    at_head = (east_ft == 0.0) & (north_ft == 0.0)
    inside: NDArray[np.bool_] = (past <= sprinkler.sweep_deg + 2 * slack_deg) | at_head
    return inside


def share_within(sprinkler: Sprinkler, outline: Ring, holes: Sequence[Ring] = ()) -> float:
    """The share, 0 to 1, of a head's water that lands inside an outline and not in its holes.

    Exact. Outlines may run either way round but must not cross themselves; fewer than three
    corners hold nothing.
    """
    inside = _water_in_ring(sprinkler, outline)
    inside -= sum(_water_in_ring(sprinkler, hole) for hole in holes)
    whole = sprinkler.sweep_rad * profile_moment(sprinkler.profile)
    return min(1.0, max(0.0, inside / whole))


def cell_water(sprinkler: Sprinkler, east_ft: Array, north_ft: Array) -> Array:
    """Mean rate (in/h) in each cell between grid lines given from the head, south row first.

    `east_ft` are the places of the n + 1 upright lines, `north_ft` of the m + 1 level ones, both
    rising; the answer has m rows of n cells. Exact.
    """
    x, y = east_ft / sprinkler.radius_ft, north_ft / sprinkler.radius_ft
    eastward = _gathered(sprinkler, x[:, None], 0.0, y[None, :])
    northward = _gathered(sprinkler, y[:, None], _QUARTER, -x[None, :])
    leaving = np.diff(np.diff(eastward, axis=1), axis=0).T
    leaving -= np.diff(np.diff(northward, axis=1), axis=0)
    area = np.diff(y)[:, None] * np.diff(x)[None, :]
    cells: Array = leaving * (sprinkler.unit_rate_in_per_h / area)
    # Beyond the throw only rounding is left.
    cells[cells < 1e-9 * float(cells.max(initial=0.0))] = 0.0
    return cells


@dataclass(frozen=True, slots=True)
class _Piece:
    """A straight piece of a profile, `level + slope * u` from `inner` to `outer`.

    `within` is the moment from the head to its outer end; up to u in it, the moment is
    constant + level u²/2 + slope u³/3.
    """

    inner: float
    outer: float
    level: float
    slope: float
    constant: float
    within: float

    def through(self, gap: Array, along: Array) -> Array:
        """∫ of moment(r)/r² · gap along a line at `gap` from the head, from its nearest point."""
        total = self.level / 2 * gap * along
        if self.constant:
            total = total + self.constant * np.arctan2(along, gap)
        if self.slope:
            bent = along * np.hypot(along, gap) + gap**2 * np.arcsinh(along / gap)
            total = total + self.slope / 6 * gap * bent
        return total


@lru_cache(maxsize=512)
def _pieces(profile: tuple[float, ...]) -> tuple[_Piece, ...]:
    """The pieces of a profile over the radius 1, the last of them all that lies beyond."""
    steps = len(profile) - 1
    within = 0.0
    pieces = []
    for i in range(steps):
        inner, outer = i / steps, (i + 1) / steps
        slope = (profile[i + 1] - profile[i]) * steps
        level = profile[i] - slope * inner
        constant = within - level * inner**2 / 2 - slope * inner**3 / 3
        within = constant + level * outer**2 / 2 + slope * outer**3 / 3
        pieces.append(_Piece(inner, outer, level, slope, constant if i else 0.0, within))
    pieces.append(_Piece(1.0, math.inf, 0.0, 0.0, within, within))
    return tuple(pieces)


def _gathered(sprinkler: Sprinkler, distance: Array, ahead: float | Array, along: Array) -> Array:
    """What crosses a line up to places `along` it, outward along its normal, from a common zero.

    All in radii of the head. `distance` is the head's from the line, positive where the normal,
    at `ahead` radians from east, leads away from the head; `along` counts from the point nearest
    to the head, to the left of the normal.
    """
    gap = np.maximum(np.abs(distance), _LEAST_GAP)
    if sprinkler.sweep_deg >= FULL_CIRCLE_DEG:
        return np.sign(distance) * _through(sprinkler.profile, gap, along)
    total = np.zeros(np.broadcast_shapes(gap.shape, along.shape))
    for low, high in _spans(sprinkler, distance, ahead):
        clipped = np.clip(along, gap * np.tan(low), gap * np.tan(high))
        total += _through(sprinkler.profile, gap, clipped)
    return np.sign(distance) * total


def _spans(
    sprinkler: Sprinkler, distance: Array, ahead: float | Array
) -> list[tuple[Array, Array]]:
    """The arc as spans of the angle, seen from the head, between a line's nearest point and more.

    A line fills at most half the horizon, from -90° to 90°, so that an arc wider than that may
    meet it twice.
    """
    width = sprinkler.sweep_rad
    right = _QUARTER - math.radians(sprinkler.start_deg + sprinkler.sweep_deg)
    turned = np.where(distance < 0, ahead + math.pi - right - width, right - ahead)
    begins = np.mod(turned + _QUARTER, _TURN) - _QUARTER
    if width <= math.pi:
        firsts = [np.where(begins < _QUARTER, begins, begins - _TURN)]
    else:
        firsts = [begins, begins - _TURN]
    return [
        (np.clip(first, -_QUARTER, _QUARTER), np.clip(first + width, -_QUARTER, _QUARTER))
        for first in firsts
    ]


def _through(profile: tuple[float, ...], gap: Array, along: Array) -> Array:
    """The full circle's water through a line from its nearest point to places `along` it."""
    reach = np.abs(along)
    total = np.zeros(np.broadcast_shapes(gap.shape, along.shape))
    for piece in _pieces(profile):
        near = np.sqrt(np.maximum(piece.inner**2 - gap**2, 0.0))
        far = np.sqrt(np.maximum(piece.outer**2 - gap**2, 0.0))
        total += piece.through(gap, np.clip(reach, near, far)) - piece.through(gap, near)
    return np.copysign(total, along)


def _water_in_ring(sprinkler: Sprinkler, ring: Ring) -> float:
    """∫ of the relative depth inside a ring, in radii squared; never negative."""
    if len(ring) < 3:
        return 0.0
    corners = (np.asarray(ring, dtype=np.float64) - sprinkler.at_ft) / sprinkler.radius_ft
    sides = np.roll(corners, -1, axis=0) - corners
    lengths = np.hypot(sides[:, 0], sides[:, 1])
    real = lengths > 0.0
    corners, ways = corners[real], sides[real] / lengths[real, None]
    distance = corners[:, 0] * ways[:, 1] - corners[:, 1] * ways[:, 0]
    ahead = np.arctan2(-ways[:, 0], ways[:, 1])
    start = corners[:, 0] * ways[:, 0] + corners[:, 1] * ways[:, 1]
    # Both ends of all sides at once: most outlines have few.
    along = np.concatenate((start + lengths[real], start))
    both = _gathered(sprinkler, np.tile(distance, 2), np.tile(ahead, 2), along)
    return abs(float((both[: start.size] - both[start.size :]).sum()))
