"""Shapes that the fit of a walk begins with: triangles laid together, guessed turns, and folds.

Several, for a ring of lengths may close in more than one way, and least squares only finds the
nearest. Feet and radians.
"""

import math
from collections.abc import Iterator, Sequence

import numpy as np

from lawnbook.yard.walk_measures import Array, Measure, Pair, Ring

_SHAKES, _SHAKE_RAD, _FLIPS = 8, 0.5, 24


def starts(ring: Ring, measures: Sequence[Measure]) -> Iterator[Array]:
    """Shapes to begin with: triangles laid one to the other, and walks with guessed turns."""
    laid = _triangles(ring.count, measures)
    if laid is not None:
        yield laid
    inner = _guessed_angles(ring)
    sides = _side_lengths(ring.count, measures)
    yield _walked(sides, inner)
    chance = np.random.default_rng(1)
    for _ in range(_SHAKES):
        shaken = inner + chance.normal(0.0, _SHAKE_RAD, ring.count)
        yield _walked(sides, shaken - (shaken.sum() - inner.sum()) / ring.count)


def _side_lengths(count: int, measures: Sequence[Measure]) -> Array:
    known = {(e.start, e.end): e.length_ft for e in measures if e.kind == "length"}
    sides = [known.get((i, (i + 1) % count), math.nan) for i in range(count)]
    typed = [each for each in sides if not math.isnan(each)] or list(known.values()) or [10.0]
    usual = float(np.median(typed))
    return np.array([usual if math.isnan(each) else each for each in sides])


def _guessed_angles(ring: Ring) -> Array:
    """Inner angles that add up: square ones as said, corners that turn in at 270 degrees."""
    inner = np.full(ring.count, math.nan)
    for corner in ring.turns_in:
        inner[corner] = 1.5 * math.pi
    for corner in ring.square - ring.turns_in:
        inner[corner] = 0.5 * math.pi
    rest = np.isnan(inner)
    left = (ring.count - 2) * math.pi - float(np.nansum(inner))
    if rest.any():
        inner[rest] = min(max(left / int(rest.sum()), 0.2), math.pi - 0.05)
    return inner


def _walked(sides: Array, inner: Array) -> Array:
    """The corners of a walk clockwise, its misclosure shared out along the way."""
    headings = np.concatenate([[0.0], -np.cumsum(math.pi - inner[1:])])
    steps = sides[:, None] * np.column_stack([np.cos(headings), np.sin(headings)])
    steps -= steps.sum(axis=0) * (sides / sides.sum())[:, None]
    return np.concatenate([[[0.0, 0.0]], np.cumsum(steps, axis=0)[:-1]])


def _triangles(count: int, measures: Sequence[Measure]) -> Array | None:
    """All corners by two lengths each from corners that stand already; None where some cannot."""
    spans = {frozenset((e.start, e.end)): e.length_ft for e in measures if e.kind == "length"}
    first = next((pair for pair in spans if len(pair) == 2), None)
    if first is None:
        return None
    one, other = sorted(first)
    placed = {one: np.zeros(2), other: np.array([spans[first], 0.0])}
    while len(placed) < count:
        found = _next_corner(count, spans, placed)
        if found is None:
            return None
        placed[found[0]] = found[1]
    return np.array([placed[corner] for corner in range(count)])


def _next_corner(
    count: int, spans: dict[frozenset[int], float], placed: dict[int, Array]
) -> tuple[int, Array] | None:
    for corner in range(count):
        if corner in placed:
            continue
        near = sorted(each for each in placed if frozenset((each, corner)) in spans)
        for i, one in enumerate(near):
            for other in near[i + 1 :]:
                reach = (spans[frozenset((one, corner))], spans[frozenset((other, corner))])
                # Corners in the order of the walk lie clockwise round a triangle inside the shape.
                left = one < corner < other
                return corner, _meeting(placed[one], placed[other], reach, left=left)
    return None


def _meeting(a: Array, b: Array, reach: tuple[float, float], *, left: bool) -> Array:
    """Where two lengths from two places meet, on the left or right of the way between them."""
    span = max(math.dist(a, b), 1e-6)
    along = (reach[0] ** 2 - reach[1] ** 2 + span**2) / (2 * span)
    aside = math.sqrt(max(reach[0] ** 2 - along**2, 1e-4))
    ahead = (b - a) / span
    normal = np.array([-ahead[1], ahead[0]]) * (1.0 if left else -1.0)
    place: Array = a + along * ahead + aside * normal
    return place


def flips(places: Array, measures: Sequence[Measure]) -> list[Array]:
    """The shape with what lies between two corners folded over the line through them."""
    count = len(places)
    near = [(i, (i + 2) % count) for i in range(count)]
    spans = [
        (e.start, e.end)
        for e in measures
        if e.kind == "length" and abs(e.start - e.end) not in (1, count - 1)
    ]
    pairs = list(dict.fromkeys((*spans, *near)))[:_FLIPS]
    return [_folded(places, pair) for pair in pairs]


def _folded(places: Array, pair: Pair) -> Array:
    start, end = pair
    base = places[end] - places[start]
    ahead = base / max(float(np.linalg.norm(base)), 1e-9)
    folded = places.copy()
    at = (start + 1) % len(places)
    while at != end:
        from_start = places[at] - places[start]
        folded[at] = places[start] + 2 * float(from_start @ ahead) * ahead - from_start
        at = (at + 1) % len(places)
    return folded
