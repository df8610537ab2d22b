"""How deep a zone's roots go: the latest plug of each of its spots, then the mean of the spots."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date
from operator import attrgetter, le, lt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.water_balance import DEFAULT_ROOT_DEPTH_IN, rooted_soil_in
from lawnbook.frozen import dataclass
from lawnbook.kept import Kept
from lawnbook.plan.working_model import Input
from lawnbook.plan.workings import chosen, default, given, told
from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import bounds_ft, contains, zone_at
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Core, Spot, Zone
from lawnbook.yard.table import grouped

_DATE = attrgetter("date")
_EDGE_FT = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Roots:
    """Root depth from the crowns, thatch, and the soil between (in), with where they are from."""

    root_depth_in: float
    thatch_in: float
    rooted_soil_in: float
    is_default: bool
    thatch_is_default: bool
    root_input: Input
    thatch_input: Input


class Reading(NamedTuple):
    """A figure of one spot on one day, the plugs of that day taken together."""

    date: date
    value_in: float


@dataclass(frozen=True)
class ZoneReadings:
    """The readings of a zone, from the plugs of each of its spots in date order.

    Root depth and the thatch compared: all of each spot that has any, and the latest of each.
    """

    plugs: tuple[tuple[Core, ...], ...]

    @Kept
    def roots(self) -> tuple[tuple[Reading, ...], ...]:
        """The root depths of each spot that has any, in date order."""
        return tuple(read for each in self.plugs if (read := root_readings(each)))

    @Kept
    def thatch(self) -> tuple[tuple[Reading, ...], ...]:
        """The thatch compared of each spot that has any, in date order."""
        return tuple(read for each in self.plugs if (read := _compared_thatch(each)))

    @Kept
    def latest_roots(self) -> tuple[Reading, ...]:
        """The latest root depth of each spot that has any."""
        return tuple(root_readings(each)[-1] for each in self._latest_rooted() if each)

    @Kept
    def latest_thatch(self) -> tuple[Reading, ...]:
        """The latest thatch compared of each spot that has any."""
        return tuple(_compared_thatch(each)[-1] for each in self._latest_measured() if each)

    @Kept
    def spots_of_roots(self) -> tuple[str, ...]:
        """The ids of the spots that `latest_roots` are of, in the same order."""
        return tuple(each[0].spot for each in self._latest_rooted() if each)

    @Kept
    def spots_of_thatch(self) -> tuple[str, ...]:
        """The ids of the spots that `latest_thatch` are of, in the same order."""
        return tuple(each[0].spot for each in self._latest_measured() if each)

    def _latest_rooted(self) -> Iterator[tuple[Core, ...]]:
        return (_latest(c for c in reversed(each) if _has_root(c)) for each in self.plugs)

    def _latest_measured(self) -> Iterator[tuple[Core, ...]]:
        for plugs in self.plugs:
            read = [each for each in plugs if each.thatch_in]
            unpressed = [each for each in read if not each.pressed]
            yield _latest(reversed(unpressed or read))


def readings_of(plugs_of_spots: Iterable[Sequence[Core]]) -> ZoneReadings:
    """The readings of a zone from the plugs of each of its spots, given in date order."""
    return ZoneReadings(tuple(map(tuple, plugs_of_spots)))


def _has_root(core: Core) -> bool:
    return core.root_depth_in is not None


def _latest(backwards: Iterable[Core]) -> tuple[Core, ...]:
    """The plugs of the latest day, in their order, of plugs that come the latest first."""
    found: list[Core] = []
    for core in backwards:
        if found and core.date != found[0].date:
            break
        found.append(core)
    return tuple(reversed(found))


def spots_by_zone(notebook: Notebook) -> dict[str, tuple[Spot, ...]]:
    """The spots of each zone by its id; a spot without a zone belongs to the one it lies in."""
    spots: dict[str, list[Spot]] = {}
    lies_in = _lies_in(notebook)
    for spot in notebook.spots.values():
        zone_id = lies_in(spot.at_ft) if spot.zone is None else spot.zone
        if zone_id:
            spots.setdefault(zone_id, []).append(spot)
    return {zone_id: tuple(each) for zone_id, each in spots.items()}


def zones_by_spot(spots: Mapping[str, Iterable[str]]) -> dict[str, str]:
    """The zone's id by the spot's, from the spots of each zone; spots without a zone are not in."""
    return {spot_id: zone_id for zone_id, ids in spots.items() for spot_id in ids}


def zone_of_spot(notebook: Notebook, spot: Spot) -> str:
    """The id of the zone a spot belongs to, empty where it has none."""
    if spot.zone is not None:
        return spot.zone
    zone = zone_at(notebook, spot.at_ft) if spot.at_ft is not None else None
    return zone.id if zone is not None else ""


def _lies_in(notebook: Notebook) -> Callable[[Point | None], str]:
    """The id of the zone at a place, as `zone_at` finds it; the boxes are laid out once for all."""
    drawn = [each for each in notebook.zones.values() if each.outline_ft]
    boxes = [(each, bounds_ft([each.outline_ft])) for each in reversed(drawn)]

    def lies_in(at_ft: Point | None) -> str:
        if at_ft is None:
            return ""
        x, y = at_ft
        for zone, (west, south, east, north) in boxes:
            near = west - _EDGE_FT <= x <= east + _EDGE_FT and south - _EDGE_FT <= y
            if near and y <= north + _EDGE_FT and contains(zone.outline_ft, at_ft, zone.holes_ft):
                return zone.id
        return ""

    return lies_in


def cores_by_spot(notebook: Notebook) -> dict[str, tuple[Core, ...]]:
    """The plugs of each spot by its id, in date order.

    Plugs that stand in date order already are the group of the table itself, so that those of a
    spot that an edit does not touch stay the same tuple.
    """
    return {spot: _in_date_order(cores) for spot, cores in grouped(notebook.cores, "spot").items()}


def cores_of_spot(notebook: Notebook, spot_id: str) -> tuple[Core, ...]:
    """The plugs of one spot in date order."""
    return _in_date_order(grouped(notebook.cores, "spot").get(spot_id, ()))


def _in_date_order(cores: tuple[Core, ...]) -> tuple[Core, ...]:
    dates = [core.date for core in cores]
    # Of a table's group the ranks are in order, so that the dates alone tell.
    if all(map(le, dates, dates[1:])):
        return cores
    return tuple(sorted(cores, key=_DATE))


def roots_of(zone: Zone, readings: ZoneReadings, names: Mapping[str, str] | None = None) -> Roots:
    """The roots of a zone from the latest reading of each of its spots; `names` are the spots'."""
    depths, thatches = readings.latest_roots, readings.latest_thatch
    of_roots = _named(readings.spots_of_roots, names)
    root, root_input = _root_depth(zone, depths, of_roots)
    thatch, thatch_input = _thatch(thatches, _named(readings.spots_of_thatch, names))
    return Roots(
        root_depth_in=root,
        thatch_in=thatch,
        rooted_soil_in=rooted_soil_in(root, thatch),
        is_default=not depths,
        thatch_is_default=not thatches,
        root_input=root_input,
        thatch_input=thatch_input,
    )


def rooted_and_thatch_on(
    zone: Zone, readings: ZoneReadings, ordinals: NDArray[np.int64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Rooted soil and thatch (in) on some days, told by `date.toordinal`, as we know it now.

    Between two plugs of a spot they are interpolated, before the first and after the last held.
    Thatch is 0 where no plug was read.
    """
    typed = zone.default_root_depth_in
    assumed = DEFAULT_ROOT_DEPTH_IN if typed is None else typed
    first = int(ordinals[0]) if ordinals.size else 0
    held_root = _held_from(first, readings.latest_roots, assumed)
    held_thatch = _held_from(first, readings.latest_thatch, 0.0)
    if held_root is not None and held_thatch is not None:
        rooted = np.maximum(0.0, held_root - held_thatch)
        return np.full(ordinals.size, rooted), np.full(ordinals.size, held_thatch)
    root = _mean_on(readings.roots, ordinals, assumed)
    thatch = _mean_on(readings.thatch, ordinals, 0.0)
    return np.maximum(0.0, root - thatch), thatch


def _held_from(first: int, latest: Sequence[Reading], assumed: float) -> float | None:
    """The mean over the spots where all were read by a day and hold since; None else."""
    if any(each.date.toordinal() > first for each in latest):
        return None
    total = 0.0
    for each in latest:
        # One after the other, as arrays of days are added up.
        total += each.value_in
    return total / len(latest) if latest else assumed


def _mean_on(
    readings_of_spots: Iterable[Sequence[Reading]], ordinals: NDArray[np.int64], assumed: float
) -> NDArray[np.float64]:
    """The mean over the spots that have readings on each day, else what is assumed."""
    read = [_interpolated(ordinals, each) for each in readings_of_spots]
    return np.mean(read, axis=0) if read else np.full(ordinals.size, assumed)


def _interpolated(ordinals: NDArray[np.int64], readings: Sequence[Reading]) -> NDArray[np.float64]:
    dates, values = zip(*readings, strict=True)
    found: NDArray[np.float64] = np.interp(ordinals, [on.toordinal() for on in dates], values)
    return found


def thatch_readings(cores: Iterable[Core]) -> tuple[Reading, ...]:
    """The mean thatch of each date, all readings of the day pooled, in date order."""
    read = [core for core in cores if core.thatch_in]
    if _on_days_apart(read):
        return tuple(Reading(core.date, _mean(core.thatch_in)) for core in read)
    pooled: dict[date, tuple[float, ...]] = {}
    for core in read:
        pooled[core.date] = pooled.get(core.date, ()) + core.thatch_in
    return tuple(Reading(on, _mean(values)) for on, values in sorted(pooled.items()))


def unpressed_or_pressed(cores: Sequence[Core]) -> tuple[Core, ...]:
    """The plugs whose thatch is compared: the unpressed, or the pressed if there are no others."""
    read = [core for core in cores if core.thatch_in]
    unpressed = tuple(core for core in read if not core.pressed)
    return unpressed or tuple(read)


def root_readings(cores: Iterable[Core]) -> tuple[Reading, ...]:
    """The mean root depth of each date, in date order."""
    read = [core for core in cores if core.root_depth_in is not None]
    if _on_days_apart(read):
        return tuple(Reading(core.date, core.root_depth_in or 0.0) for core in read)
    depths: dict[date, list[float]] = {}
    for core in read:
        depths.setdefault(core.date, []).append(core.root_depth_in or 0.0)
    return tuple(Reading(on, _mean(values)) for on, values in sorted(depths.items()))


def _on_days_apart(cores: Sequence[Core]) -> bool:
    """Whether plugs stand in date order with no two of a day: then nothing is to be pooled."""
    dates = [core.date for core in cores]
    return all(map(lt, dates, dates[1:]))


def _compared_thatch(cores: Sequence[Core]) -> tuple[Reading, ...]:
    return thatch_readings(unpressed_or_pressed(cores))


def _root_depth(zone: Zone, depths: Sequence[Reading], spots: Sequence[str]) -> tuple[float, Input]:
    if depths:
        mean = _mean([each.value_in for each in depths])
        return mean, given(tr("Root depth"), told(mean, 2, "in"), _plug_words(depths, spots))
    typed = zone.default_root_depth_in
    assumed = DEFAULT_ROOT_DEPTH_IN if typed is None else typed
    value = told(assumed, 2, "in")
    return assumed, chosen(tr("Root depth"), value, typed is not None, tr("before the first plug"))


def _thatch(thatches: Sequence[Reading], spots: Sequence[str]) -> tuple[float, Input]:
    if thatches:
        mean = _mean([each.value_in for each in thatches])
        return mean, given(tr("Thatch"), told(mean, 2, "in"), _plug_words(thatches, spots))
    return 0.0, default(tr("Thatch"), told(0.0, 2, "in"), tr("before the first plug"))


MOST_NAMED = 3
"""So many plugs are named one by one; of more spots the latest plug."""


def _named(spots: Sequence[str], names: Mapping[str, str] | None) -> Sequence[str]:
    return [names.get(spot, "") for spot in spots] if names else [""] * len(spots)


def _plug_words(readings: Sequence[Reading], spots: Sequence[str]) -> str:
    """Which plugs a figure is from: "plug of 14 May 2026 at gate"."""
    plugs = [_plug(each.date, spot) for each, spot in zip(readings, spots, strict=True)]
    if len(plugs) == 1:
        return tr("plug of {plug}", plug=plugs[0])
    if len(plugs) <= MOST_NAMED:
        return tr("mean of the plugs of {plugs}", plugs=", ".join(plugs))
    newest = max(range(len(plugs)), key=lambda number: readings[number].date)
    return tr("mean of {count} spots, latest plug {plug}", count=len(plugs), plug=plugs[newest])


def _plug(on: date, spot: str) -> str:
    return tr("{day} at {spot}", day=day(on), spot=spot) if spot else day(on)


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)
