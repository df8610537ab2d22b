"""Walking round a yard with a tape: sides and diagonals become one outline, and how sure it is.

The owner walks clockwise from corner A. With n corners 2n - 3 measures are needed; whatever is
measured beyond that checks the rest. Lengths in feet, residuals in inches.
"""

import math
from collections.abc import Sequence
from typing import Literal

import numpy as np

from lawnbook.reading import tr
from lawnbook.yard import walk_fit
from lawnbook.yard.amounts import told
from lawnbook.yard.fields import Outline
from lawnbook.yard.numbers import feet_inches
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.walk_fit import Fit
from lawnbook.yard.walk_laying import clockwise, laid
from lawnbook.yard.walk_measures import (
    SQUARE_SD_DEG,
    TAPE_SD_FT,
    Array,
    Measure,
    Ring,
    jacobian,
    residuals,
)
from lawnbook.yard.walk_records import (
    LONGEST_FT,
    MOST_CORNERS,
    Closed,
    Lack,
    Residual,
    Walk,
    corner_name,
    listed,
    pair_name,
)

STANDS_OUT = 3.29
"""A residual of more standard deviations of its own is a blunder, at 1 in 1,000 (Baarda, A testing
procedure for use in geodetic networks, 1968, from memory)."""

ENOUGH_SPARE = 6
"""With so many spare measures the tape's error is estimated from them, not assumed."""

_ALIKE = 0.98
_SAME_REDUNDANCY = 1e-6
_SLACK_SD = 3.0
_LEAST_TAPE_SD_FT = 0.25 / 12


def close_walk(walk: Walk) -> Closed:
    """The outline that fits a walk best. OwnerError with the mend where there is none."""
    found = close_or_lack(walk)
    if isinstance(found, Lack):
        raise OwnerError(found.words)
    return found


def close_or_lack(walk: Walk) -> Closed | Lack:
    """The outline that fits a walk best, or what the walk lacks where it is not stiff.

    OwnerError for measures that cannot be, or that no shape without crossing sides fits.
    """
    _refuse_impossible(walk)
    measures, ring = _measures(walk), Ring(len(walk.sides_ft), walk.turns_in, walk.square)
    shape = walk_fit.fit(ring, measures)
    loose = walk_fit.freedom(shape.places, measures).shape[1]
    if loose:
        pairs = walk_fit.bracing(shape.places, measures)
        return Lack(loose, pairs, _on_page(shape.places))
    if not shape.simple:
        raise OwnerError(
            tr(
                "No shape without crossing sides fits these measures. Look at which corners "
                "turn in, and at the longest diagonal."
            )
        )
    return _closed(walk, shape)


def sure_words(closed: Closed) -> str:
    """How sure the shape is, in words; plain where nothing checks it."""
    if not closed.spare:
        more = (
            tr(" One more, such as {pair_name}, would.", pair_name=pair_name(closed.next_best))
            if closed.next_best
            else ""
        )
        # Lengths alone leave open to which side of a diagonal a part lies: only a triangle is sure.
        other = tr(", and a different shape may fit them too") if len(closed.outline) > 3 else ""
        return tr(
            "Nothing checks these measures: there are just as many as are needed{other}.{more}",
            other=other,
            more=more,
        )
    spare = (
        tr("1 spare measure")
        if closed.spare == 1
        else tr("{spare} spare measures", spare=closed.spare)
    )
    if not closed.suspects:
        return tr(
            "The measures agree to {misclosure_in}, with {spare}.",
            misclosure_in=told(closed.misclosure_in or 0.0, 1, "in"),
            spare=spare,
        )
    named = [_measure_words(closed.residuals[each]) for each in closed.suspects]
    if len(named) == 1:
        return tr(
            "{measure} does not fit the others; measure it again.",
            measure=named[0][:1].upper() + named[0][1:],
        )
    if len(named) == len([each for each in closed.residuals if _is_checked(each)]):
        return tr(
            "The measures do not agree, and {spare} cannot tell which is wrong; tape "
            "again, or measure one more.",
            spare=spare,
        )
    names = listed(closed.residuals[each].name for each in closed.suspects)
    return tr("One of these does not fit: {names}. Measure them again.", names=names)


def walk_of(outline: Outline) -> Walk:
    """The walk of an outline that is there: clockwise, all sides as drawn, no diagonals yet."""
    ring = clockwise(outline)
    pairs = list(zip(ring, (*ring[1:], *ring[:1]), strict=True))
    places = np.array(ring)
    sines = walk_fit.turn_sines(places)
    turned = frozenset(i for i, sine in enumerate(sines) if sine > 1e-9)
    return Walk(tuple(math.dist(a, b) for a, b in pairs), turns_in=turned)


def _measures(walk: Walk) -> tuple[Measure, ...]:
    count = len(walk.sides_ft)
    sides = [
        Measure("length", i, (i + 1) % count, length)
        for i, length in enumerate(walk.sides_ft)
        if length is not None
    ]
    spans = [Measure("length", each.start, each.end, each.length_ft) for each in walk.diagonals]
    squares = [Measure("square", corner, corner) for corner in sorted(walk.square)]
    return (*sides, *spans, *squares)


def _refuse_impossible(walk: Walk) -> None:
    count = len(walk.sides_ft)
    if not 3 <= count <= MOST_CORNERS:
        raise OwnerError(
            tr(
                "Walk round 3 to {most_corners} corners; there are {count}.",
                most_corners=MOST_CORNERS,
                count=count,
            )
        )
    for each in _measures(walk):
        name = pair_name((each.start, each.end))
        if not (0 <= each.start < count and 0 <= each.end < count):
            raise OwnerError(tr("{name}: there is no such corner; choose another.", name=name))
        if each.kind == "square":
            continue
        if each.start == each.end:
            raise OwnerError(tr("{name} leads back to the same corner; choose two.", name=name))
        if not 0 < each.length_ft <= LONGEST_FT:
            raise OwnerError(
                tr(
                    "{name} must be more than 0 and at most {longest_ft}; enter it again.",
                    name=name,
                    longest_ft=told(LONGEST_FT, 0, "ft"),
                )
            )
    _refuse_too_long(count, [each for each in _measures(walk) if each.kind == "length"])


def _refuse_too_long(count: int, lengths: Sequence[Measure]) -> None:
    """No measure may be longer than another way between its ends, but for the tape's error."""
    shortest = np.full((count, count), math.inf)
    np.fill_diagonal(shortest, 0.0)
    for each in lengths:
        for i, j in ((each.start, each.end), (each.end, each.start)):
            shortest[i, j] = min(shortest[i, j], each.length_ft)
    for middle in range(count):
        np.minimum(shortest, shortest[:, [middle]] + shortest[[middle], :], out=shortest)
    worst = max(lengths, key=lambda e: e.length_ft - float(shortest[e.start, e.end]), default=None)
    if worst is None:
        return
    way_ft = float(shortest[worst.start, worst.end])
    if worst.length_ft - way_ft <= _SLACK_SD * TAPE_SD_FT * math.sqrt(count):
        return
    way = _way(worst, lengths, shortest)
    raise OwnerError(
        tr(
            "{pair_name} cannot be {length_ft}: by way of {way} it is only {way_ft}. "
            "Measure again.",
            pair_name=pair_name((worst.start, worst.end)),
            length_ft=feet_inches(worst.length_ft),
            way=way,
            way_ft=feet_inches(way_ft),
        )
    )


def _way(far: Measure, lengths: Sequence[Measure], shortest: Array) -> str:
    """The corners of the shorter way between the ends of a measure."""
    at, passed = far.start, [far.start]
    while at != far.end and len(passed) <= len(shortest):
        rest = float(shortest[at, far.end])
        at = next(
            other
            for each in lengths
            for one, other in ((each.start, each.end), (each.end, each.start))
            if one == at and abs(each.length_ft + float(shortest[other, far.end]) - rest) < 1e-6
        )
        passed.append(at)
    inner = [corner_name(each) for each in passed[1:-1]]
    return listed(inner) if inner else tr("the other measure of it")


def _closed(walk: Walk, shape: Fit) -> Closed:
    measures = _measures(walk)
    rows = jacobian(shape.places, measures)
    missed = residuals(shape.places, measures)
    spread = walk_fit.cofactors(shape.places, measures)
    spare = len(measures) - (2 * len(walk.sides_ft) - 3)
    checked = np.clip(1.0 - np.einsum("ij,jk,ik->i", rows, spread, rows), 0.0, 1.0)
    told = _residuals(walk, shape.places, missed, checked)
    estimated = spare >= ENOUGH_SPARE
    factor = math.sqrt(float(missed @ missed) / spare) if estimated else 1.0
    factor = max(factor, _LEAST_TAPE_SD_FT / TAPE_SD_FT)
    lengths = [each.off_in for each in told if each.kind != "square"]
    return Closed(
        outline=_on_page(shape.places),
        residuals=told,
        misclosure_in=_root_mean_square(lengths) if spare else None,
        spare=spare,
        suspects=_suspects(told),
        corner_sd_in=_corner_sds_in(spread, factor),
        area_sd_sqft=_area_sd_sqft(shape.places, spread) * factor,
        tape_sd_in=12 * TAPE_SD_FT * factor,
        estimated=estimated,
        next_best=walk_fit.most_telling(shape.places, measures),
        twin=shape.twin,
        wrong_turns=shape.wrong_turns,
    )


def _residuals(walk: Walk, places: Array, missed: Array, checked: Array) -> tuple[Residual, ...]:
    """Each measure's residual: in inches, how well it is checked, and how far it stands out."""
    sides = sum(length is not None for length in walk.sides_ft)
    told = []
    for index, each in enumerate(_measures(walk)):
        kind: Literal["side", "diagonal", "square"] = "side" if index < sides else "diagonal"
        inches = -12 * TAPE_SD_FT * float(missed[index])
        name = pair_name((each.start, each.end))
        if each.kind == "square":
            kind, name = (
                "square",
                tr("square corner {corner_name}", corner_name=corner_name(each.start)),
            )
            lean = -float(missed[index]) * math.radians(SQUARE_SD_DEG)
            inches = 12 * lean * _shorter_arm_ft(places, each.start)
        share = float(checked[index])
        seen = share > _SAME_REDUNDANCY
        out = abs(float(missed[index])) / math.sqrt(share) if seen else 0.0
        told.append(Residual(kind, name, each.start, each.end, inches, share if seen else 0.0, out))
    return tuple(told)


def _shorter_arm_ft(places: Array, corner: int) -> float:
    here = places[corner]
    return min(
        math.dist(here, places[corner - 1]), math.dist(here, places[(corner + 1) % len(places)])
    )


def _suspects(told: Sequence[Residual]) -> tuple[int, ...]:
    """The measures that stand out most, several where the figures cannot tell them apart."""
    most = max((each.stands_out for each in told), default=0.0)
    if most < STANDS_OUT:
        return ()
    return tuple(i for i, each in enumerate(told) if each.stands_out >= _ALIKE * most)


def _corner_sds_in(spread: Array, factor: float) -> tuple[float, ...]:
    blocks = (spread[i : i + 2, i : i + 2] for i in range(0, len(spread), 2))
    worst = (float(np.linalg.eigvalsh(block)[-1]) for block in blocks)
    return tuple(12 * factor * math.sqrt(max(each, 0.0)) for each in worst)


def _area_sd_sqft(places: Array, spread: Array) -> float:
    """The standard deviation of the area, from how it changes with each corner."""
    ahead, back = np.roll(places, -1, axis=0), np.roll(places, 1, axis=0)
    by_x, by_y = (ahead - back)[:, 1] / 2, (back - ahead)[:, 0] / 2
    slope = np.column_stack([by_x, by_y]).ravel()
    return math.sqrt(max(float(slope @ spread @ slope), 0.0))


def _root_mean_square(figures: Sequence[float]) -> float:
    return math.sqrt(sum(each * each for each in figures) / max(len(figures), 1))


def _on_page(places: Array) -> Outline:
    """The shape with A to B along the top of the page, its lowest and leftmost corner at 0."""
    flat = laid(walk_fit.outline_of(places), (0.0, 0.0), (1.0, 0.0))
    west, south = min(x for x, _ in flat), min(y for _, y in flat)
    return tuple((round(x - west, 2) + 0.0, round(y - south, 2) + 0.0) for x, y in flat)


def _is_checked(each: Residual) -> bool:
    return each.checked > 0


def _measure_words(each: Residual) -> str:
    way = tr("too long") if each.off_in > 0 else tr("too short")
    if each.kind == "square":
        return tr("{name}, {off_in} off", name=each.name, off_in=told(abs(each.off_in), 0, "in"))
    return f"{each.name}, {told(abs(each.off_in), 0, 'in')} {way}"
