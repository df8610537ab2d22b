"""The numbers behind walking round: least squares on a ring of corners, and how stiff it is.

Gauss-Newton steps, damped, on the places of all corners at once; what the tape cannot see (where
the ring lies and how it is turned) is left free, as in a free network adjustment (Mikhail and
Gracie, Analysis and Adjustment of Survey Measurements, from memory). Feet and radians.
"""

import math
from collections.abc import Sequence

import numpy as np

from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import crosses_itself
from lawnbook.yard.walk_measures import (
    TAPE_SD_FT,
    Array,
    Measure,
    Packed,
    Pair,
    Ring,
    jacobian,
    length_rows,
    packed,
)
from lawnbook.yard.walk_starts import flips, starts

_ROUNDS, _FALL, _LOOSE, _FLIP_ROUNDS = 60, 1e-10, 1e-5, 3
_STRAIGHT_SINE = math.sin(math.radians(5))
_TWIN_FT, _TWIN_COST, _SAME_COST = 1.0, 9.0, 1e-3
_OUTSIDE_WORTH, _CROSSING_WORTH = 0.1, 0.3

_WRONG_TURN_COST = 400.0
"""What a corner that turns the other way than was said counts: as much as a tape 20 in off."""


@dataclass(frozen=True, slots=True)
class Fit:
    """A shape that fits: places [corner, (x, y)], clockwise, and the sum of squared residuals.

    `twin` tells that a quite different shape fits as well; `wrong_turns` the corners that turn the
    other way than was said.
    """

    places: Array
    cost: float
    simple: bool
    wrong_turns: frozenset[int]
    twin: bool = False


def fit(ring: Ring, measures: Sequence[Measure]) -> Fit:
    """The shape that fits the measures best, of those that do not cross and turn as was said."""
    table = packed(measures)
    tried = [_settled(ring, table, start) for start in starts(ring, measures)]
    best = min(tried, key=_rank)
    for _ in range(_FLIP_ROUNDS):
        folds = [_settled(ring, table, each) for each in flips(best.places, measures)]
        tried += folds
        before, best = best, min((best, *folds), key=_rank)
        # The same shape, only settled a little more closely, has the same folds.
        if best.simple == before.simple and _worth(before) - _worth(best) < _SAME_COST:
            break
    twin = any(_is_twin(best, each) for each in tried)
    return Fit(best.places, best.cost, best.simple, best.wrong_turns, twin)


def freedom(places: Array, measures: Sequence[Measure]) -> Array:
    """The ways in which the shape can still bend, as columns; none where it is stiff.

    They are the directions that no measure sees, beside moving and turning the whole.
    """
    rows = np.vstack([_unit_rows(jacobian(places, measures)), _unit_rows(_rigid(places))])
    _, sizes, turns = np.linalg.svd(rows)
    stiff = int(np.sum(sizes > _LOOSE * sizes[0]))
    loose: Array = turns[stiff:].T
    return loose


def cofactors(places: Array, measures: Sequence[Measure]) -> Array:
    """The covariance of all x and y at the tape's own error, of the least trace there is, sq ft."""
    rows = jacobian(places, measures)
    covariance: Array = np.asarray(
        np.linalg.pinv(rows.T @ rows, rcond=_LOOSE**2, hermitian=True), dtype=np.float64
    )
    return covariance


def bracing(places: Array, measures: Sequence[Measure]) -> tuple[Pair, ...]:
    """The pairs of corners to measure until the shape is stiff, the most telling first."""
    known, chosen = list(measures), []
    left = _unmeasured(len(places), known)
    ease: dict[Pair, float] = {}
    while left and (loose := freedom(places, known)).shape[1]:
        moved = np.linalg.norm(length_rows(places, left) @ loose, axis=1)
        if moved.max() < _LOOSE:
            break
        # Diagonals that cross no other part the yard into triangles, which close in one way only.
        most = [float(each) * _parting(pair, known) for pair, each in zip(left, moved, strict=True)]
        pair = _best_pair(places, left, most, ease)
        left.remove(pair)
        chosen.append(pair)
        known.append(Measure("length", *pair))
    return tuple(chosen)


def _best_pair(
    places: Array, pairs: Sequence[Pair], most: Sequence[float], ease: dict[Pair, float]
) -> Pair:
    """The pair that is worth most by what it may be worth `most` and its ease, once known kept."""
    best, worth = pairs[0], -1.0
    for index in sorted(range(len(pairs)), key=lambda each: (-most[each], each)):
        # Whether the tape runs inside is long to find out, and only asked of what may be best.
        if round(most[index], 6) < worth:
            break
        pair = pairs[index]
        if pair not in ease:
            ease[pair] = _ease(places, pair)
        found = round(most[index] * ease[pair], 6)
        if found > worth or (found == worth and pair < best):
            best, worth = pair, found
    return best


def most_telling(places: Array, measures: Sequence[Measure]) -> Pair | None:
    """The pair whose length would make the corners surest; None where all are measured."""
    spread = cofactors(places, measures)
    best, most, pairs = None, 0.0, _unmeasured(len(places), measures)
    rows = length_rows(places, pairs) / TAPE_SD_FT
    moved = rows @ spread
    gains = (moved**2).sum(axis=1) / (1.0 + (rows * moved).sum(axis=1))
    for pair, found in zip(pairs, gains, strict=True):
        gain = float(found)
        # Whether the tape runs inside is long to find out, and only asked of what would be best.
        if gain > most * (1 + 1e-6):
            gain *= _ease(places, pair)
        if gain > most * (1 + 1e-6):
            best, most = pair, gain
    return best


def outline_of(places: Array) -> Outline:
    """The corners as an outline."""
    return tuple((float(x), float(y)) for x, y in places)


def _settled(ring: Ring, table: Packed, start: Array) -> Fit:
    """The shape that damped Gauss-Newton steps come to from a start."""
    places, damping = start.copy(), 1e-3
    missed = table.residuals(places)
    cost = float(missed @ missed)
    # Places of which the rows are known already: a step that is not taken leaves them.
    known: Array | None = None
    still = np.eye(places.size)
    for _ in range(_ROUNDS):
        if known is not places:
            rows = table.jacobian(places)
            normal, slope = rows.T @ rows, rows.T @ missed
            known = places
        scale = damping * (np.trace(normal) / len(normal) + 1e-12)
        step = np.linalg.solve(normal + scale * still, slope)
        tried = places - step.reshape(places.shape)
        missed_then = table.residuals(tried)
        cost_then = float(missed_then @ missed_then)
        if cost_then > cost:
            damping = min(damping * 8, 1e8)
            if damping >= 1e8:
                break
            continue
        done = cost - cost_then <= _FALL * (1e-3 + cost)
        places, missed, cost, damping = tried, missed_then, cost_then, max(damping / 10, 1e-12)
        if done:
            break
    return _judged(ring, places, cost)


def _judged(ring: Ring, places: Array, cost: float) -> Fit:
    """A shape the right way round, and whether it is one."""
    turned = places * (1.0, -1.0) if _signed_area(places) > 0 else places
    turns = turn_sines(turned)
    wrong = frozenset(
        corner
        for corner, sine in enumerate(turns)
        if abs(sine) > _STRAIGHT_SINE and (sine > 0) != (corner in ring.turns_in)
    )
    return Fit(turned, cost, not crosses_itself(outline_of(turned)), wrong)


def _rank(each: Fit) -> tuple[bool, float]:
    return (not each.simple, round(_worth(each), 9))


def _worth(each: Fit) -> float:
    # The tape may tell a forgotten tick, but a small slip of it must not turn a corner round.
    return each.cost + _WRONG_TURN_COST * len(each.wrong_turns)


def _is_twin(best: Fit, other: Fit) -> bool:
    good = other.simple and not other.wrong_turns and other.cost < best.cost + _TWIN_COST
    if not good:
        return False
    return bool(np.abs(_spans(best.places) - _spans(other.places)).max() > _TWIN_FT)


def _spans(places: Array) -> Array:
    spans: Array = np.linalg.norm(places[:, None, :] - places[None, :, :], axis=2)
    return spans


def turn_sines(places: Array) -> Array:
    """The sine of the turn at each corner: positive to the left."""
    into, out = places - np.roll(places, 1, axis=0), np.roll(places, -1, axis=0) - places
    cross = into[:, 0] * out[:, 1] - into[:, 1] * out[:, 0]
    sines: Array = cross / np.maximum(
        np.linalg.norm(into, axis=1) * np.linalg.norm(out, axis=1), 1e-12
    )
    return sines


def _signed_area(places: Array) -> float:
    x, y = places.T
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2


def _unit_rows(rows: Array) -> Array:
    sizes = np.linalg.norm(rows, axis=1, keepdims=True)
    scaled: Array = rows / np.maximum(sizes, 1e-12)
    return scaled


def _rigid(places: Array) -> Array:
    """Moving the whole right and up, and turning it, as three rows."""
    x, y = (places - places.mean(axis=0)).T
    flat = np.ones(len(places))
    still = np.zeros(len(places))
    pairs = ((flat, still), (still, flat), (-y, x))
    return np.array([np.column_stack(each).ravel() for each in pairs])


def _unmeasured(count: int, measures: Sequence[Measure]) -> list[Pair]:
    known = {frozenset((each.start, each.end)) for each in measures if each.kind == "length"}
    pairs = ((i, j) for i in range(count) for j in range(i + 1, count))
    return [pair for pair in pairs if frozenset(pair) not in known]


def _parting(pair: Pair, measures: Sequence[Measure]) -> float:
    """What a diagonal is worth: less where it crosses one that is measured."""
    low, high = pair
    inner = ((low < e.start < high, low < e.end < high, e.start, e.end) for e in measures)
    crossed = any(a != b and not {start, end} & {low, high} for a, b, start, end in inner)
    return _CROSSING_WORTH if crossed else 1.0


def _ease(places: Array, pair: Pair) -> float:
    """What a pair is worth: less where the tape would have to run outside of the shape."""
    shape, (start, end) = outline_of(places), pair
    if abs(start - end) in (1, len(places) - 1):
        return 1.0
    # Both halves that the diagonal makes are shapes only if it runs inside.
    halves = shape[start : end + 1], (*shape[end:], *shape[: start + 1])
    whole = abs(_signed_area(places))
    parts = [abs(_signed_area(np.array(half))) for half in halves]
    inside = sum(parts) <= whole * (1 + 1e-9) and not any(crosses_itself(half) for half in halves)
    return 1.0 if inside else _OUTSIDE_WORTH
