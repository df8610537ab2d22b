"""All that a plan takes at a default, each told once: what, its value, why, and who can tell."""

from collections.abc import Iterator

from lawnbook.frozen import dataclass
from lawnbook.plan.assumed import is_assumed_square
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.fields import field_of
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Yard, Zone

DU = "DU_LQ"
GROUND, ZONE_SETTINGS = "First steps: ground", "Water: zone"
LEAD_OF_INPUT = {
    tr("Precipitation rate"): "First steps: sprinklers",
    DU: "Water: cans",
    tr("Soil"): GROUND,
    tr("Root depth"): "First steps: plug",
    tr("Thatch"): "First steps: plug",
}
"""Where an input that stands at a default is told, by its name; else among the zone's settings."""


@dataclass(frozen=True, slots=True)
class Assumption:
    """One thing that is assumed: what, its value, why, and of which zones where there are several.

    `lead` names the page, and the part of it, where it is told: "First steps: ground".
    """

    what: str
    value: str
    why: str
    lead: str
    zones: tuple[str, ...] = ()


def assumptions(notebook: Notebook, plan: Plan) -> tuple[Assumption, ...]:
    """All that the plan of a day takes at a default, each once with the zones that it is of."""
    zones: dict[Assumption, list[str]] = {}
    several = len(notebook.zones) > 1
    for found, zone in (*_of_yard(notebook), *_of_zones(notebook, plan)):
        of = zones.setdefault(found, [])
        if zone and several and zone not in of:
            of.append(zone)
    return tuple(
        Assumption(each.what, each.value, each.why, each.lead, tuple(of))
        for each, of in zones.items()
    )


def _of_yard(notebook: Notebook) -> Iterator[tuple[Assumption, str]]:
    yard, place = notebook.yard, "First steps: place"
    if yard.latitude_deg is None:
        why = tr("until the latitude is entered")
        yield Assumption(tr("Hemisphere"), tr("north"), why, place), ""
    if yard.irrigation_season is None:
        why = tr("as growth allows, until a season is entered")
        yield Assumption(tr("Irrigation season"), tr("all the year"), why, place), ""
    if yard.target_depth_in == field_of(Yard, "target_depth_in").default:
        depth = told(yard.target_depth_in, 2, "in")
        why = tr("unless you chose it yourself")
        yield Assumption(tr("Target depth"), depth, why, "Overview: target_depth_in"), ""


def _of_zones(notebook: Notebook, plan: Plan) -> Iterator[tuple[Assumption, str]]:
    for water in plan.zones:
        zone = notebook.zones.get(water.zone_id)
        if zone is None:
            continue
        yield from ((each, zone.name) for each in _of_zone(zone, water))


def _of_zone(zone: Zone, water: ZoneWater) -> Iterator[Assumption]:
    if is_assumed_square(zone):
        area = told(water.area_sqft, 0, "sq ft")
        why = tr("a square of that area, until its outline is drawn")
        yield Assumption(tr("Outline"), area, why, "First steps: size")
    if zone.soil is None:
        grass = tr("cool-season") if zone.grass == "cool" else tr("warm-season")
        yield Assumption(tr("Grass"), grass, tr("unless you chose it yourself"), GROUND)
    seen: set[str] = set()
    for each in (each for working in water.workings for each in working.inputs):
        if each.is_default and each.name not in seen:
            seen.add(each.name)
            what = tr("Evenness (DU)") if each.name == DU else each.name
            lead = LEAD_OF_INPUT.get(each.name, ZONE_SETTINGS)
            yield Assumption(what, each.value, each.origin, lead)
