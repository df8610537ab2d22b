"""A change of heads makes catch tests stale: its day is kept with it, in one Change.

What counts is what changes the water on the ground: flow, radius, arc, profile, and a move by
more than a foot. Where a zone moves as a whole, its heads stay as they were to it.
"""

import math
from collections.abc import Collection
from dataclasses import replace
from datetime import date

from lawnbook.yard.notebook import Change, Key, Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.records import CatchTest, Head, Record

MOVED_FT = 1.0
"""A head moved by no more than this was only drawn more exactly."""

_WORKS = ("flow_gpm", "radius_ft", "start_deg", "sweep_deg", "profile")


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
            return (
                "Changed on stays empty, as you left it: enter the day if the head itself was "
                "changed."
            )
        if test is not None:
            return (
                f"The catch test of {day(test.date)} is now stale: set out the cans again, or "
                "clear Changed on if only the drawing was mended."
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
    carried = ("zones", after.zone) in change
    moved = not carried and math.dist(before.at_ft, after.at_ft) > MOVED_FT
    if not moved and all(getattr(before, name) == getattr(after, name) for name in _WORKS):
        return None
    test = newest_test(notebook, after.zone)
    return test if test is not None and test.date < today else None
