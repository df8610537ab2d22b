"""Where around its mark the next plug of a spot is pulled, and whether a spot lies fairly.

A hole heals as new turf, so that a plug pulled there again would show young thatch. Places lie at
the twelve hours of a clock's face round the mark, 12 o'clock up on the sketch, on a ring 12 in out
(neighbours 6.2 in apart, every second one 12 in) and then on one 24 in out. Distances are those of
`FROM_EDGE_FT` and its neighbours: common practice, but for buried lines (source "line-tolerance").
"""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from math import dist

from lawnbook.frozen import dataclass
from lawnbook.plan.nearby import Hole, Nearby
from lawnbook.plan.plug_model import PlugPlace
from lawnbook.plan.roots import cores_by_spot, zone_of_spot
from lawnbook.plan.workings import counted
from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import contains, distance_to_edge_ft, label_point_ft, zone_at
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day, feet_inches
from lawnbook.yard.records import Core, Feature, Spot, Zone
from lawnbook.yard.table import until

RINGS_IN = (12.0, 24.0)
"""The rings round a spot's mark, inner first (common practice)."""

CLEAR_IN = 6.0
"""No plug nearer than this to the middle of an old hole: its turf is new (common practice)."""

FAR_IN = 12.0
"""So far from the old holes a place is proposed, where there is one (common practice)."""

FROM_EDGE_FT = 3.0
FROM_HEAD_FT = 3.0
FROM_PET_FT = 3.0
"""A spot nearer than this to an edge, a head or a pet patch shows that, and not the lawn."""

FROM_LINE_FT = 2.0
"""Beside a marked buried line only hand tools may dig (source "line-tolerance")."""

HOLE_FROM_HEAD_FT = 1.0
"""No hole is proposed nearer to a head, whose pipe lies below (common practice)."""

HOLE_FROM_EDGE_FT = 0.25
"""So far from edges and features even a plug of a cup cutter lies whole in the turf."""

_MIDDLE_FT = 0.25
_HOURS = tuple(
    (math.sin(math.radians(30.0 * hour)), math.cos(math.radians(30.0 * hour)))
    for hour in range(1, 13)
)
"""Sine and cosine of the way to each hour, clockwise from up."""

_TINY = 1e-6


@dataclass(frozen=True, slots=True)
class _Seat:
    """One hour on one ring, its middle in inches as a hole's, and the old holes round it."""

    clock: int
    ring_in: float
    at_in: Point
    nearest_in: float
    from_last_in: float


def hole_at(at_ft: Point, clock: int, ring_in: float) -> Point:
    """Where on the sketch (ft) a plug of an hour and a distance from a spot's mark is pulled.

    12 is up on the sketch, 3 to its right. ValueError for an hour that no clock has.
    """
    if not 1 <= clock <= 12:
        raise ValueError(f"A clock has no hour {clock}.")
    sine, cosine = _HOURS[clock - 1]
    reach = ring_in / 12.0
    return at_ft[0] + reach * sine, at_ft[1] + reach * cosine


def next_place(notebook: Notebook, spot_id: str, on: date) -> PlugPlace | None:
    """The free place for the next plug of a spot, from the plugs up to a day, those of it too.

    None for an unknown spot, and where no place round it lies on turf clear of drawn lines.
    """
    spot = notebook.spots.get(spot_id)
    if spot is None:
        return None
    known = replace(notebook, cores=until(notebook.cores, on))
    return place_among(notebook, spot, cores_by_spot(known), Nearby.of(notebook))


def place_among(
    notebook: Notebook, spot: Spot, cores: Mapping[str, Sequence[Core]], nearby: Nearby
) -> PlugPlace | None:
    """As `next_place`, from the plugs by spot, each in date order, that were pulled so far."""
    own = cores.get(spot.id, ())
    holes = [*_holes(nearby, spot, own), *_holes_beside(nearby, spot, cores)]
    last = next((core for core in reversed(own) if core.clock is not None), None)
    unknown = sum(core.clock is None for core in own)
    # The ground is dear to look at: the best places first, and no more of them than it takes.
    on_turf = _ground_test(notebook, spot, nearby)
    seats: list[_Seat] = []
    for ring_in in RINGS_IN:
        ring = list(_seats(spot, ring_in, holes, last))
        free = (each for each in ring if each.nearest_in >= CLEAR_IN - _TINY)
        best = next(filter(on_turf, sorted(free, key=_crowding)), None)
        if best is not None:
            return _proposed(spot, best, last, unknown)
        seats += ring
    return _healed(spot, list(filter(on_turf, seats)), holes, unknown)


def spot_concerns(
    notebook: Notebook, at_ft: Point, zone_id: str | None, nearby: Nearby | None = None
) -> tuple[str, ...]:
    """What speaks against a spot's place, a sentence each; empty where it lies fairly.

    `zone_id` is the zone it is to show, None for the one it lies in. Told, never refused.
    `nearby` is what lies round it, where that was laid out before.
    """
    nearby = nearby or Nearby.of(notebook)
    zone = notebook.zones.get(zone_id) if zone_id else zone_at(notebook, at_ft)
    # What can hurt is told first: the sketch has room for one sentence.
    shapes = nearby.features(at_ft)
    told = [(each, words) for each in shapes if (words := _of_feature(each, at_ft))]
    lines = [words for each, words in told if each.kind == "buried line"]
    return (
        *lines,
        *_of_zone(zone, at_ft),
        *_of_heads(nearby, at_ft),
        *(words for each, words in told if each.kind != "buried line"),
    )


def _holes(nearby: Nearby, spot: Spot, cores: Sequence[Core]) -> tuple[Hole, ...]:
    """The old holes round a spot's mark, laid out once for it and all spots beside it."""
    held = nearby.holes.get(spot.id)
    if held is None:
        mark = spot.at_ft or (0.0, 0.0)
        held = tuple(
            Hole(_inches(hole_at(mark, core.clock, core.ring_in or RINGS_IN[0])), core.date)
            for core in cores
            if core.clock is not None
        )
        nearby.holes[spot.id] = held
    return held


def _holes_beside(
    nearby: Nearby, spot: Spot, cores: Mapping[str, Sequence[Core]]
) -> Iterator[Hole]:
    """The holes of other spots, which matter where two marks lie near each other."""
    if spot.at_ft is None:
        return
    for other in nearby.spots(spot.at_ft):
        if other.id != spot.id:
            yield from _holes(nearby, other, cores.get(other.id, ()))


def _seats(spot: Spot, ring_in: float, holes: Sequence[Hole], last: Core | None) -> Iterator[_Seat]:
    """Every hour of a ring, clockwise from two hours after the last plug's."""
    mark = spot.at_ft or (0.0, 0.0)
    places = [hole.at_in for hole in holes]
    last_at = None
    begin = 12
    if last is not None and last.clock is not None:
        last_at = _inches(hole_at(mark, last.clock, last.ring_in or RINGS_IN[0]))
        begin = last.clock + 2
    for step in range(12):
        clock = (begin + step - 1) % 12 + 1
        at = _inches(hole_at(mark, clock, ring_in))
        nearest = min([dist(at, place) for place in places], default=math.inf)
        from_last = math.inf if last_at is None else math.dist(at, last_at)
        yield _Seat(clock, ring_in, at, nearest, from_last)


def _crowding(seat: _Seat) -> int:
    """0 for a place far from every old hole, 1 for one far from the last, 2 for the rest."""
    if seat.nearest_in >= FAR_IN - _TINY:
        return 0
    return 1 if seat.from_last_in >= FAR_IN - _TINY else 2


def _ground_test(notebook: Notebook, spot: Spot, nearby: Nearby) -> Callable[[_Seat], bool]:
    """Whether a place lies in the spot's zone, on no feature, and clear of heads and lines.

    What lies near the mark is gathered once for all places round it.
    """
    mark = spot.at_ft
    if mark is None:
        return lambda _: True
    zone = _ground(notebook, spot, mark)
    heads, shapes = list(nearby.heads(mark)), nearby.features(mark)

    def on_turf(seat: _Seat) -> bool:
        at_ft = (seat.at_in[0] / 12, seat.at_in[1] / 12)
        if zone is not None and not _well_inside(zone, at_ft):
            return False
        near_head = any(math.dist(head, at_ft) < HOLE_FROM_HEAD_FT for head in heads)
        return not near_head and all(
            _away_ft(each.outline_ft, at_ft) >= _clear_of_ft(each) - _TINY for each in shapes
        )

    return on_turf


def _well_inside(zone: Zone, at_ft: Point) -> bool:
    outline, holes = zone.outline_ft, zone.holes_ft
    away = distance_to_edge_ft(outline, at_ft, holes)
    return contains(outline, at_ft, holes) and away >= HOLE_FROM_EDGE_FT - _TINY


def _clear_of_ft(feature: Feature) -> float:
    return FROM_LINE_FT if feature.kind == "buried line" else HOLE_FROM_EDGE_FT


def _ground(notebook: Notebook, spot: Spot, at_ft: Point) -> Zone | None:
    """The zone on whose ground a spot's mark lies: its own, else another, else None."""
    own = notebook.zones.get(zone_of_spot(notebook, spot))
    if own is not None and contains(own.outline_ft, at_ft, own.holes_ft):
        return own
    return zone_at(notebook, at_ft)


def _proposed(spot: Spot, seat: _Seat, last: Core | None, unknown: int) -> PlugPlace:
    if last is None:
        why = tr("12 o'clock is up on the sketch.")
    else:
        why = tr(
            "It lies {plainly} from the last hole ({clock} o'clock, {date})",
            plainly=plainly(seat.from_last_in, "in", 0),
            clock=last.clock,
            date=day(last.date),
        )
        close = seat.nearest_in < seat.from_last_in - _TINY
        why += (
            tr(", {plainly} from the nearest.", plainly=plainly(seat.nearest_in, "in", 1))
            if close
            else "."
        )
    return _place(spot, seat, f"{_where(seat)}. {why}{_unknown(unknown)}")


def _healed(
    spot: Spot, seats: Sequence[_Seat], holes: Sequence[Hole], unknown: int
) -> PlugPlace | None:
    """The place whose newest hole is the oldest, for a spot without a free one."""
    if not seats:
        return None

    def newest(seat: _Seat) -> date:
        near = (h.date for h in holes if math.dist(h.at_in, seat.at_in) < CLEAR_IN - _TINY)
        return max(near)

    seat = min(seats, key=newest)
    why = tr(
        "No place is free any more. This is where the oldest hole is, of {newest}: it "
        "healed as new turf, so that its thatch may be thinner than the lawn's.",
        newest=day(newest(seat)),
    )
    return _place(spot, seat, f"{_where(seat)}. {why}{_unknown(unknown)}")


def _place(spot: Spot, seat: _Seat, words: str) -> PlugPlace:
    return PlugPlace(
        clock=seat.clock,
        ring_in=seat.ring_in,
        at_ft=None if spot.at_ft is None else hole_at(spot.at_ft, seat.clock, seat.ring_in),
        nearest_old_in=seat.nearest_in if math.isfinite(seat.nearest_in) else None,
        words=words,
    )


def _where(seat: _Seat) -> str:
    return tr(
        "{clock} o'clock, {plainly} from the mark",
        clock=seat.clock,
        plainly=plainly(seat.ring_in, "in"),
    )


def _unknown(plugs: int) -> str:
    """What is said of old plugs whose holes are not known."""
    if not plugs:
        return ""
    return tr(
        " {older_plugs} has no clock position: look for its hole before pulling."
        if plugs == 1
        else " {older_plugs} have no clock position: look for their holes before pulling.",
        older_plugs=counted(plugs, "older plug"),
    )


def _of_zone(zone: Zone | None, at_ft: Point) -> Iterator[str]:
    if zone is None:
        yield tr("It lies outside of every zone.")
        return
    outline, holes = zone.outline_ft, zone.holes_ft
    if not contains(outline, at_ft, holes):
        yield tr("It lies outside of {name}, the zone it is to show.", name=zone.name)
        return
    away = distance_to_edge_ft(outline, at_ft, holes)
    if away >= FROM_EDGE_FT:
        return
    best = distance_to_edge_ft(outline, label_point_ft(outline, holes), holes)
    if best >= FROM_EDGE_FT:
        here = tr("It lies {away} from the edge of {name}", away=feet_inches(away), name=zone.name)
        yield tr("{here}: keep {from_edge_ft}.", here=here, from_edge_ft=_told(FROM_EDGE_FT))
        return
    there = tr(", and it lies there") if away >= best - _MIDDLE_FT else ""
    yield (
        tr(
            "{name} is too narrow for {from_edge_ft} from every edge: the middle is the "
            "best there is{there}.",
            name=zone.name,
            from_edge_ft=_told(FROM_EDGE_FT),
            there=there,
        )
    )


def _of_heads(nearby: Nearby, at_ft: Point) -> Iterator[str]:
    away = min((math.dist(head, at_ft) for head in nearby.heads(at_ft)), default=math.inf)
    if away < FROM_HEAD_FT:
        yield (
            tr(
                "A sprinkler head stands {away} away, with its pipe below: keep {from_head_ft}.",
                away=feet_inches(away),
                from_head_ft=_told(FROM_HEAD_FT),
            )
        )


def _of_feature(feature: Feature, at_ft: Point) -> str:
    """What a feature near or under a spot means for it, empty where nothing."""
    away = _away_ft(feature.outline_ft, at_ft)
    name = feature.name or tr("a {kind}", kind=tr(feature.kind))
    if feature.kind == "buried line":
        if away >= FROM_LINE_FT:
            return ""
        where = (
            tr("It lies over") if away <= 0 else tr("It lies {away} from", away=feet_inches(away))
        )
        return tr(
            "{where} {name}: keep {from_line_ft}, and have buried lines located before "
            "digging (811 in the United States).",
            where=where,
            name=name,
            from_line_ft=_told(FROM_LINE_FT),
        )
    if feature.kind == "pet patch" and away < FROM_PET_FT:
        where = tr("It lies on") if away <= 0 else tr("It lies {away} from", away=feet_inches(away))
        return tr(
            "{where} {name}: keep {from_pet_ft}, for urine changes turf and thatch.",
            where=where,
            name=name,
            from_pet_ft=_told(FROM_PET_FT),
        )
    return tr("It lies on {name}, which is not turf.", name=name) if away <= 0 else ""


def _away_ft(outline: Outline, at_ft: Point) -> float:
    """How far a point lies from a shape, 0 inside and on its edge."""
    if not outline:
        return math.inf
    return 0.0 if contains(outline, at_ft) else distance_to_edge_ft(outline, at_ft)


def _told(feet: float) -> str:
    return plainly(feet, "ft")


def _inches(at_ft: Point) -> Point:
    return at_ft[0] * 12, at_ft[1] * 12
