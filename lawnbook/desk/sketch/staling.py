"""A change of heads makes catch tests stale: its day is kept with it, in one Change.

What counts is what changes the water on the ground: flow, radius, arc, profile, and a move by
more than a foot. Where a zone is moved, turned or mirrored as a whole, its heads stay as they were
to it.
"""

import cmath
import math
from collections.abc import Collection, Iterator
from dataclasses import replace
from datetime import date

from lawnbook.reading import tr
from lawnbook.yard.notebook import Change, Key, Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.records import CatchTest, Head, Record, Zone

MOVED_FT = 1.0
"""A head moved by no more than this was only drawn more exactly."""

_WORKS = ("flow_gpm", "radius_ft", "sweep_deg", "profile")
_TURNED_DEG = 0.5
_SAME_FT = 0.05
"""Corners that are rounded to the sketch's grid are no farther than this from where they belong."""

_Placing = tuple[complex, complex, bool]
"""A turn and a step over the page, as complex numbers of right and up, and whether it mirrors."""

_STAYS: _Placing = (1 + 0j, 0j, False)


def with_days(
    notebook: Notebook, change: Change, today: date, left_empty: Collection[str] = ()
) -> Change:
    """The change with `changed_on` of every head whose change makes its zone's test stale.

    A day the owner sets or takes away in the same change stays so. The heads `left_empty`, by
    their ids, stay without a day.
    """
    dated: dict[Key, tuple[Record | None, Record | None]] = dict(change)
    for key, (before, after) in change.items():
        if not isinstance(after, Head) or _left(after, left_empty):
            continue
        if _makes_stale(notebook, change, before, after, today) is not None:
            dated[key] = (before, replace(after, changed_on=today))
    return dated


def stale_words(
    notebook: Notebook, change: Change, today: date, left_empty: Collection[str] = ()
) -> str:
    """What is to be told after such a change, "" where no catch test became stale by it."""
    for before, after in change.values():
        if not isinstance(after, Head):
            continue
        test = _makes_stale(notebook, change, before, after, today)
        if test is not None and _left(after, left_empty):
            return tr(
                "Changed on stays empty, as you left it: enter the day if the head itself was "
                "changed."
            )
        if test is not None:
            return tr(
                "The catch test of {date} is now stale: set out the cans again, or clear "
                "Changed on if only the drawing was mended.",
                date=day(test.date),
            )
    return ""


def emptied(change: Change) -> frozenset[str]:
    """The heads whose day of change the owner takes away by a change, by their ids."""
    return frozenset(
        after.id
        for before, after in change.values()
        if isinstance(before, Head) and isinstance(after, Head)
        if before.changed_on is not None and after.changed_on is None
    )


def newest_test(
    notebook: Notebook, zone_id: str, on: date | None = None, *, placed: bool = False
) -> CatchTest | None:
    """A zone's newest catch test: up to a day where one is given, with `placed` of those that
    have places."""
    tests = [
        test
        for test in notebook.catch_tests.values()
        if test.zone == zone_id
        if on is None or test.date <= on
        if test.at_ft or not placed
    ]
    return max(tests, key=lambda test: (test.date, test.rank), default=None)


def _left(head: Head, left_empty: Collection[str]) -> bool:
    return head.changed_on is None and head.id in left_empty


def _makes_stale(
    notebook: Notebook, change: Change, before: Record | None, after: Head, today: date
) -> CatchTest | None:
    """The test that becomes stale, if the head's water falls elsewhere and it is of before today.

    Only the newest counts: an older one no longer gives the rate.
    """
    if not isinstance(before, Head) or before.changed_on != after.changed_on:
        return None
    placings = list(_placings(change, after.zone)) or [_STAYS]
    works = all(getattr(before, name) == getattr(after, name) for name in _WORKS)
    if works and any(_went_along(before, after, each) for each in placings):
        return None
    test = newest_test(notebook, after.zone)
    return test if test is not None and test.date < today else None


def _placings(change: Change, zone_id: str) -> Iterator[_Placing]:
    """The ways in which a change places a zone elsewhere, its shape kept; none where it does not.

    A square that is mirrored may also have been turned: what stands on it tells which.
    """
    before, after = change.get(("zones", zone_id), (None, None))
    if not isinstance(before, Zone) or not isinstance(after, Zone):
        return
    old = [complex(*corner) for corner in before.outline_ft]
    new = [complex(*corner) for corner in after.outline_ft]
    if len(old) != len(new):
        return
    yield from _way(old, new, flips=False)
    # A mirrored ring is gone round the other way from the same corner on.
    yield from _way(old, [new[0], *new[:0:-1]], flips=True)


def _way(old: list[complex], new: list[complex], *, flips: bool) -> Iterator[_Placing]:
    """The turn and step that take corners to others, by least squares, where they fit."""
    turned = [each.conjugate() for each in old] if flips else old
    middle, there = sum(turned) / len(turned), sum(new) / len(new)
    pull = sum((b - there) * (a - middle).conjugate() for a, b in zip(turned, new, strict=True))
    if abs(pull) == 0:
        return
    turn = pull / abs(pull)
    step = there - turn * middle
    if all(abs(turn * a + step - b) <= _SAME_FT for a, b in zip(turned, new, strict=True)):
        yield turn, step, flips


def _went_along(before: Head, after: Head, placing: _Placing) -> bool:
    """Whether a head stands and wets as it did, seen from its zone."""
    turn, step, flips = placing
    at, angle_deg = complex(*before.at_ft), math.degrees(cmath.phase(turn))
    start_deg = before.start_deg - angle_deg
    if flips:
        # What was its end, clockwise, is its start in the mirror.
        at = at.conjugate()
        start_deg = 180 - angle_deg - before.start_deg - before.sweep_deg
    off_deg = (after.start_deg - start_deg + 180) % 360 - 180
    return abs(turn * at + step - complex(*after.at_ft)) <= MOVED_FT and abs(off_deg) <= _TURNED_DEG
