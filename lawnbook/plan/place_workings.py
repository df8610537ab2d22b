"""How the place of a spot's next plug came about: its hour, its distance, how far from old holes.

A place is an hour of a clock's face round the spot's mark and a distance from it. Which one is
proposed follows from the holes there are (`plug_places`); it is found anew with one of them moved.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date

from lawnbook.frozen import dataclass
from lawnbook.plan.filled_in import by_function, counted_in, numbered, put_in, reckons
from lawnbook.plan.plug_model import PlugPlace
from lawnbook.plan.plug_places import CLEAR_IN, FAR_IN, RINGS_IN, next_place
from lawnbook.plan.roots import cores_by_spot
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import default, given, sources
from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly, told
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Core
from lawnbook.yard.table import until

HOUR_DEG = 30.0
"""From one hour of a clock's face to the next."""
HOURS = 12


def place_workings(notebook: Notebook, spot_id: str, on: date) -> tuple[Working, ...]:
    """How the place proposed for a spot's next plug came about; none where there is none."""
    place = next_place(notebook, spot_id, on)
    if place is None:
        return ()
    own = cores_by_spot(replace(notebook, cores=until(notebook.cores, on))).get(spot_id, ())
    known = [core for core in own if core.clock is not None]
    found = _Found(notebook, spot_id, on, place, known[-1] if known else None)
    return tuple(found.workings(len(known)))


@dataclass(frozen=True, slots=True)
class _Found:
    """A place, and the last plug whose hole is known."""

    notebook: Notebook
    spot_id: str
    on: date
    place: PlugPlace
    last: Core | None

    def workings(self, holes: int) -> Iterator[Working]:
        """The way to the place, then how far it lies from the last hole and from the nearest."""
        yield self._way(holes)
        if self.last is not None and self.last.clock is not None:
            yield self._from_last(self.last, self.last.clock)
        if self.place.nearest_old_in is not None:
            yield self._from_nearest(self.place.nearest_old_in)

    def _way(self, holes: int) -> Working:
        clear, far = (plainly(each, "in") for each in (CLEAR_IN, FAR_IN))
        rings = tr(
            "{inner}, then {outer}",
            inner=plainly(RINGS_IN[0], "in"),
            outer=plainly(RINGS_IN[1], "in"),
        )
        known = given(tr("Old holes known"), str(holes), tr("plugs with a clock position"))
        ring = default(tr("Distance from the mark"), rings, tr("common practice"))
        inputs = [known, ring]
        if self.last is not None and self.last.clock is not None:
            held = given(tr("Hour of the last plug"), str(self.last.clock), _plug(self.last))
            inputs.insert(0, counted_in(held, "last", float(self.last.clock)))
        return Working(
            f"plug_way:{self.spot_id}",
            tr("Way to the next plug"),
            tr(
                "{hour} o'clock, {distance} from the mark",
                hour=self.place.clock,
                distance=plainly(self.place.ring_in, "in"),
            ),
            tr(
                "first free hour clockwise from two hours after the last plug's, on turf: free is "
                "{clear} from every old hole, and {far} where there is such an hour; "
                "the angle is 30° × hour",
                clear=clear,
                far=far,
            ),
            f"30 × {self.place.clock}",
            tuple(inputs),
            sources("hole-clear"),
            by_function(_WayAnew(self), "° clockwise", 0),
        )

    def _from_last(self, last: Core, clock: int) -> Working:
        ring = last.ring_in or RINGS_IN[0]
        hour, held = self.place.clock, tr("the place proposed")
        apart = HOUR_DEG * abs(hour - clock)
        inputs = (
            _reach("new", tr("Distance of the next plug"), self.place.ring_in, held),
            _reach("old", tr("Distance of the last plug"), ring, _plug(last)),
            counted_in(given(tr("Hour of the next plug"), str(hour), held), "hour", float(hour)),
            counted_in(
                given(tr("Hour of the last plug"), str(clock), _plug(last)), "last", float(clock)
            ),
        )
        away = _apart(self.place.ring_in, ring, hour - clock)
        cosine = f"cos {apart:.0f}°"
        return Working(
            f"plug_from_last:{self.spot_id}",
            tr("From the last hole"),
            told(away, 0, "in"),
            tr("√(next² + last² − 2 × next × last × cos(30° × hours between))"),
            put_in("√({new:0}² + {old:0}² − 2 × {new:0} × {old:0} × ", inputs) + f"{cosine})",
            inputs,
            sources("hole-clear"),
            by_function(_from_last_anew, "in", 1),
        )

    def _from_nearest(self, nearest_in: float) -> Working:
        close = given(
            tr("Nearest old hole"), told(nearest_in, 1, "in"), tr("of this spot or one beside it")
        )
        inputs = (numbered(close, "nearest", nearest_in, "in"),)
        return Working(
            f"plug_from_nearest:{self.spot_id}",
            tr("From the nearest old hole"),
            told(nearest_in, 1, "in"),
            tr("least of the distances to all old holes, by their hours and distances"),
            put_in("{nearest}", inputs),
            inputs,
            sources("hole-clear"),
            reckons("{nearest}", "in", 1),
        )


@dataclass(frozen=True, slots=True)
class _WayAnew:
    """The way to the next plug, in degrees clockwise from up, were the last hole elsewhere."""

    found: _Found

    def __call__(self, numbers: Mapping[str, float]) -> float:
        """The place is sought anew; NaN where none is free."""
        found, notebook = self.found, self.found.notebook
        if found.last is not None and "last" in numbers:
            hour = (round(numbers["last"]) - 1) % HOURS + 1
            moved = replace(found.last, clock=hour)
            notebook = apply(notebook, put(notebook, "cores", moved))
        place = next_place(notebook, found.spot_id, found.on)
        return math.nan if place is None else HOUR_DEG * place.clock


def _from_last_anew(numbers: Mapping[str, float]) -> float:
    return _apart(numbers["new"], numbers["old"], numbers["hour"] - numbers["last"])


def _apart(one_in: float, other_in: float, hours: float) -> float:
    """The third side of a triangle at the mark, by the law of cosines."""
    cosine = math.cos(math.radians(HOUR_DEG * hours))
    return math.sqrt(max(0.0, one_in**2 + other_in**2 - 2 * one_in * other_in * cosine))


def _reach(symbol: str, name: str, reach_in: float, origin: str) -> Input:
    return numbered(given(name, plainly(reach_in, "in"), origin), symbol, reach_in, "in")


def _plug(core: Core) -> str:
    return tr("plug of {date}", date=day(core.date))
