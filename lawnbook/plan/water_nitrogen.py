"""Nitrogen that the irrigation water brought: the depth of each watering recorded × mg/L.

The depth is gross: minutes × the zone's rate, or what a can caught. All of it counts, also what
the grass does not get of an uneven sprinkler, since it is spread over the zone's whole area.
"""

from collections.abc import Mapping, Sequence
from datetime import date

from lawnbook.agronomy.nitrogen import irrigation_n_lb_per_1000
from lawnbook.frozen import dataclass
from lawnbook.plan.rates import rate_of
from lawnbook.plan.workings import counted
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Watering, Zone
from lawnbook.yard.table import grouped

MINUTES_PER_H = 60.0

WATER = tr("Irrigation water")
"""What stands for its product among those that were put down."""


@dataclass(frozen=True, slots=True)
class WaterN:
    """What the waterings of one day brought: gross depth, in, and lb N per 1,000 sq ft."""

    date: date
    depth_in: float
    n_lb: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterNitrogen:
    """A zone's nitrogen from water by day, in date order, at `mg_per_l`.

    `uncounted` waterings were typed in minutes while the zone's rate is not known; the `reason`
    then says so.
    """

    mg_per_l: float = 0.0
    days: tuple[WaterN, ...] = ()
    uncounted: int = 0

    @property
    def reason(self) -> str:
        """Why some waterings are left out; empty where none is."""
        if not self.uncounted:
            return ""
        left_out = counted(self.uncounted, "watering")
        return tr(
            "Nitrogen in the water: {left_out} in minutes is not counted, for the zone's "
            "precipitation rate is not known."
            if self.uncounted == 1
            else "Nitrogen in the water: {left_out} in minutes are not counted, for the zone's "
            "precipitation rate is not known.",
            left_out=left_out,
        )


NO_WATER_N = WaterNitrogen()
"""What water without nitrogen brings."""


def water_nitrogen_of(
    notebook: Notebook, areas: Mapping[str, float], since: date, on: date
) -> dict[str, WaterNitrogen]:
    """The nitrogen of the waterings from `since` to `on`, by the id of the zones that have any.

    Empty where the owner has entered no nitrogen in the water.
    """
    if not notebook.yard.water_n_mg_per_l:
        return {}
    by_zone = grouped(notebook.waterings, "zone")
    return {
        zone_id: zone_water_nitrogen(notebook, zone, areas.get(zone_id, 0.0), those, on)
        for zone_id, waterings in by_zone.items()
        if (zone := notebook.zones.get(zone_id)) is not None
        and (those := [each for each in waterings if since <= each.date <= on])
    }


def zone_water_nitrogen(
    notebook: Notebook, zone: Zone, area_sqft: float, waterings: Sequence[Watering], on: date
) -> WaterNitrogen:
    """The nitrogen of some waterings of a zone; none where the owner has entered none.

    Minutes count at the zone's rate on the day `on`.
    """
    mg_per_l = notebook.yard.water_n_mg_per_l
    if not mg_per_l or not waterings:
        return NO_WATER_N
    return _of_zone(waterings, rate_of(notebook, zone, area_sqft, on).in_per_h, mg_per_l)


def _of_zone(waterings: Sequence[Watering], rate: float | None, mg_per_l: float) -> WaterNitrogen:
    depths: dict[date, float] = {}
    uncounted = 0
    for each in waterings:
        depth = _gross_in(each, rate)
        if depth is None:
            uncounted += 1
        elif depth > 0:
            depths[each.date] = depths.get(each.date, 0.0) + depth
    days = tuple(
        WaterN(on, depth, irrigation_n_lb_per_1000(depth, mg_per_l))
        for on, depth in sorted(depths.items())
    )
    return WaterNitrogen(mg_per_l=mg_per_l, days=days, uncounted=uncounted)


def _gross_in(watering: Watering, rate_in_per_h: float | None) -> float | None:
    """The gross depth of a watering, in; None where its minutes tell nothing without a rate."""
    if watering.depth_in is not None:
        return watering.depth_in
    minutes = watering.minutes or 0.0
    if minutes <= 0:
        return 0.0
    return None if rate_in_per_h is None else minutes * rate_in_per_h / MINUTES_PER_H
