"""The nitrogen of all zones together: pounds on the whole lawn, and its mean by area."""

from collections.abc import Callable, Sequence
from datetime import date

from lawnbook.plan.feed_model import LawnNitrogen
from lawnbook.plan.model import ZoneNitrogen

WHOLE_LAWN = "Whole lawn"


def lawn_nitrogen(zones: Sequence[ZoneNitrogen], on: date) -> LawnNitrogen | None:
    """All zones of a plan together; None where no zone has an area.

    The zones share the yard's budget year, that of the day `on`.
    """
    area = sum(zone.area_sqft for zone in zones)
    if area <= 0:
        return None

    def mean(figure: Callable[[ZoneNitrogen], float]) -> float:
        return sum(figure(zone) * zone.area_sqft for zone in zones) / area

    def months(figure: Callable[[ZoneNitrogen], Sequence[float]]) -> tuple[float, ...]:
        return tuple(
            sum(figure(zone)[at] * zone.area_sqft for zone in zones) / area for at in range(12)
        )

    applied, budget = mean(lambda zone: zone.applied_year), mean(lambda zone: zone.budget_year)
    return LawnNitrogen(
        zone=WHOLE_LAWN,
        area_sqft=area,
        year=zones[0].year,
        year_label=zones[0].year_label,
        applied_by_month=months(lambda zone: zone.applied_by_month),
        quick_by_month=months(lambda zone: zone.quick_by_month),
        water_by_month=months(lambda zone: zone.water_by_month),
        budget_by_month=months(lambda zone: zone.budget_by_month),
        applied_year=applied,
        budget_year=budget,
        left_this_month=mean(lambda zone: zone.left_this_month),
        left_this_year=mean(lambda zone: zone.left_this_year),
        applied_lb=applied * area / 1000,
        budget_lb=budget * area / 1000,
    )
