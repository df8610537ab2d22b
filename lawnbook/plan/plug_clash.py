"""Whether a plug's place round its spot falls into an old hole, for the form that asks."""

import math

from lawnbook.plan.plug_places import CLEAR_IN, RINGS_IN, hole_at
from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Core

_ROUNDING_IN = 0.01
_ABOUT = (0.0, 0.0)
_HOURS = range(1, 13)


def clash_words(notebook: Notebook, core: Core) -> str:
    """What is said of a plug too near to an older hole of its spot; empty where none is near.

    Old holes are plugs up to the plug's own day, but not itself; those without an hour are
    unknown. "Near" is under `plug_places.CLEAR_IN` inches between middles. Of an hour that no
    clock has nothing is said: the form refuses it when it is to be kept.
    """
    if core.clock not in _HOURS:
        return ""
    near = [
        (away, old)
        for old in notebook.cores.values()
        if old.spot == core.spot
        and old.id != core.id
        and old.date <= core.date
        and old.clock is not None
        and (away := holes_apart_in(core, old)) < CLEAR_IN - _ROUNDING_IN
    ]
    if not near:
        return ""
    away, old = min(near, key=lambda each: each[0])
    where = (
        tr("That is the hole")
        if away < _ROUNDING_IN
        else tr("That is {plainly} from the hole", plainly=plainly(away, "in", 1))
    )
    return tr(
        "{where} of {date} ({clock} o'clock): it heals as new turf, whose thatch is "
        "younger than the lawn's.",
        where=where,
        date=day(old.date),
        clock=old.clock,
    )


def holes_apart_in(one: Core, other: Core) -> float:
    """Inches between the middles of two holes round one mark; infinite where an hour is unknown."""
    if one.clock is None or other.clock is None:
        return math.inf
    ends = (
        hole_at(_ABOUT, hour, reach or RINGS_IN[0])
        for hour, reach in ((one.clock, one.ring_in), (other.clock, other.ring_in))
    )
    return 12.0 * math.dist(*ends)
