"""Past feedings when zones are merged or divided: what the plan says went down stays true.

The plan counts nitrogen per 1,000 sq ft, as pounds over the area treated. A divided zone's parts
each keep its rate; a merged zone gets the mean of its parts' rates, weighed by their areas. The
pounds that were spread never change in sum.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import ByZone, Feeding

LEAST_TREATED_SQFT, MOST_TREATED_SQFT = 0.01, 5_000_000.0
"""What an area treated may be, as the record's own rule has it."""


def feedings_shared(
    notebook: Notebook, zone_id: str, shares: Mapping[str, float]
) -> Iterator[Feeding]:
    """The feedings of a zone with its pounds and area shared out, by zone id; shares sum to 1.

    Each part keeps the rate of the whole. The areas are frozen with the feeding.
    """
    for feeding in notebook.feedings.values():
        if zone_id not in feeding.pounds:
            continue
        pounds, area = feeding.pounds[zone_id], _treated_sqft(notebook, feeding, zone_id)
        parts = {each: pounds * share for each, share in shares.items()}
        areas = {each: _within_rule(area * share) for each, share in shares.items()}
        yield replace(
            feeding,
            pounds=_placed(feeding.pounds, (zone_id,), parts),
            treated_area_sqft=_placed(feeding.treated_area_sqft, (zone_id,), areas),
        )


def feedings_joined(notebook: Notebook, zone_ids: tuple[str, ...]) -> Iterator[Feeding]:
    """The feedings of any of some zones, as feedings of the first of them, which takes them all in.

    Pounds are summed. The area is the ground of all the zones, unfed ones too, less what was left
    out in proportion: so the rate is the zones' mean, weighed by their areas.
    """
    grounds = {each: zone_area_sqft(notebook.zones[each]) for each in zone_ids}
    whole = sum(grounds.values())
    for feeding in notebook.feedings.values():
        fed = [each for each in zone_ids if each in feeding.pounds]
        if not fed:
            continue
        pounds = sum(feeding.pounds[each] for each in fed)
        held = sum(
            feeding.pounds[each] / _treated_sqft(notebook, feeding, each) * grounds[each]
            for each in fed
        )
        area = pounds * whole / held if held > 0 else whole
        yield replace(
            feeding,
            pounds=_placed(feeding.pounds, zone_ids, {zone_ids[0]: pounds}),
            treated_area_sqft=_placed(
                feeding.treated_area_sqft, zone_ids, {zone_ids[0]: _within_rule(area)}
            ),
        )


def _treated_sqft(notebook: Notebook, feeding: Feeding, zone_id: str) -> float:
    frozen = feeding.treated_area_sqft.get(zone_id, 0.0)
    ground = zone_area_sqft(notebook.zones[zone_id])
    return max(LEAST_TREATED_SQFT, frozen if frozen >= LEAST_TREATED_SQFT else ground)


def _within_rule(area_sqft: float) -> float:
    return min(MOST_TREATED_SQFT, max(LEAST_TREATED_SQFT, area_sqft))


def _placed(held: ByZone, gone: tuple[str, ...], new: Mapping[str, float]) -> ByZone:
    """A table by zone with some entries replaced, the new ones where the first of them stood."""
    parts: dict[str, float] = {}
    for key, value in held.items():
        if key not in gone:
            parts[key] = value
        elif not parts.keys() & new.keys():
            parts.update(new)
    return MappingProxyType({**parts, **new})
