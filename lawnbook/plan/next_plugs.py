"""Where to pull next: when each spot is due, the free place, and which zone says least."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from lawnbook.agronomy.trend import FEWEST_FOR_INTERVAL
from lawnbook.plan.due import next_plug_day
from lawnbook.plan.nearby import Nearby
from lawnbook.plan.plug_model import Evidence, NextPlug, ZoneThatch
from lawnbook.plan.plug_places import place_among, spot_concerns
from lawnbook.plan.roots import zones_by_spot
from lawnbook.plan.workings import PERCENT, counted, told
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import tr
from lawnbook.yard.records import Spot

NO_PLUG = tr("No plug yet: the first shows where the repair begins.")
ONE_PLUG = tr("One plug only: it shows a state, and no change before a second is pulled.")
NOT_PLACED = tr("It has no place on the sketch: what lies near it cannot be told.")
NO_ROOM = tr("No place round its mark lies on turf, clear of features, heads and drawn lines.")


def next_plugs_of(setting: Setting, zone_thatch: Sequence[ZoneThatch]) -> tuple[NextPlug, ...]:
    """The next plug of every spot in order of the days, the least certain zone first on a day.

    `zone_thatch` is the evidence by zone; a zone that is not in it counts as one without plugs.
    """
    in_zones = zones_by_spot(setting.spots)
    zones = {each.id: in_zones.get(each.id, "") for each in _spots(setting)}
    first, why = _least_certain(setting, zones, zone_thatch)
    nearby = Nearby.of(setting.notebook)
    listed = []
    for spot in _spots(setting):
        zone_id = zones[spot.id]
        leads = zone_id == first and bool(first) and not spot.comparison
        due = _next_plug(setting, spot, zone_id, nearby)
        listed.append(replace(due, first=True, why_first=why) if leads else due)
    return tuple(sorted(listed, key=lambda each: (each.due, not each.first)))


def reminder(plugs: int) -> str:
    """What is said of a spot with no plug or one only, empty for more."""
    return {0: NO_PLUG, 1: ONE_PLUG}.get(plugs, "")


def _next_plug(setting: Setting, spot: Spot, zone_id: str, nearby: Nearby) -> NextPlug:
    zone = setting.notebook.zones.get(zone_id)
    cores = setting.cores.get(spot.id, ())
    place = place_among(setting.notebook, spot, setting.cores, nearby)
    no_room = (NO_ROOM,) if place is None and spot.at_ft is not None else ()
    # Replicates of one day show no change: days count, not plugs.
    days = len({core.date for core in cores})
    return NextPlug(
        spot=spot.name,
        spot_id=spot.id,
        zone=zone.name if zone else "",
        zone_id=zone_id,
        due=next_plug_day(setting, spot.id),
        plugs=len(cores),
        place=place,
        reminder=reminder(days),
        concerns=(*_concerns(setting, spot, zone_id, nearby), *no_room),
        first=False,
        why_first="",
    )


def _concerns(setting: Setting, spot: Spot, zone_id: str, nearby: Nearby) -> tuple[str, ...]:
    if spot.at_ft is None:
        return (NOT_PLACED,)
    return spot_concerns(setting.notebook, spot.at_ft, zone_id or None, nearby)


def _spots(setting: Setting) -> Collection[Spot]:
    return setting.notebook.spots.values()


def _least_certain(
    setting: Setting, zone_of: Mapping[str, str], zone_thatch: Sequence[ZoneThatch]
) -> tuple[str, str]:
    """The zone whose trend is the least certain, and why; empty where there is no choice.

    A zone without an interval goes before every other, the fewest plugs first. `zone_of` tells
    each spot's zone.
    """
    known = {each.zone_id: each.evidence for each in zone_thatch}
    pulled = {zone_of[spot.id] for spot in _spots(setting) if not spot.comparison}
    zones = [zone for zone in setting.notebook.zones.values() if zone.id in pulled]
    if len(zones) < 2:
        return "", ""
    worst = max(zones, key=lambda zone: _doubt(known.get(zone.id)))
    return worst.id, _why(worst.name, known.get(worst.id))


def _doubt(evidence: Evidence | None) -> tuple[bool, float]:
    """Grows with how little is known: without an interval by the plugs, else by its width."""
    if evidence is None:
        return True, 0.0
    if evidence.ci95 is None:
        return True, -float(evidence.plugs)
    return False, evidence.ci95[1] - evidence.ci95[0]


def _why(zone: str, evidence: Evidence | None) -> str:
    plugs = 0 if evidence is None else evidence.plugs
    if evidence is None or evidence.ci95 is None:
        had = counted(plugs, "plug") if plugs else tr("no plug")
        least = (
            tr(", of at least {fewest_for_interval}", fewest_for_interval=FEWEST_FOR_INTERVAL)
            if plugs < FEWEST_FOR_INTERVAL
            else ""
        )
        return tr(
            "{zone} has no interval yet: {had}{least}. A plug here tells the most.",
            zone=zone,
            had=had,
            least=least,
        )
    low, high = evidence.ci95
    return tr(
        "{zone} is the least certain: the 95{percent} interval of its trend is {high} "
        "wide. A plug here tells the most.",
        zone=zone,
        percent=PERCENT,
        high=told(high - low, 2, "in a year"),
    )
