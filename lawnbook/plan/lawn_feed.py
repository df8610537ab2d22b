"""The nitrogen of all zones together: pounds on the whole lawn, and its mean by area."""

from collections.abc import Callable, Iterator, Sequence

from lawnbook.plan.feed_model import LawnNitrogen
from lawnbook.plan.filled_in import numbered, put_in, reckons
from lawnbook.plan.model import ZoneNitrogen
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import given, rate_told, sources, told
from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT

WHOLE_LAWN = "Whole lawn"
"""What stands in the place of a zone's name; it is looked up where it is shown."""


def lawn_nitrogen(zones: Sequence[ZoneNitrogen]) -> LawnNitrogen | None:
    """All zones of a plan together, in the budget year that they share; None without any area."""
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


def lawn_workings(lawn: LawnNitrogen) -> Iterator[Working]:
    """How the figures of the year's table came about for the whole lawn."""
    area = lawn.area_sqft
    for figure, label, rate in (
        ("budget_year", tr("budget of the year"), lawn.budget_year),
        ("applied_year", tr("put down this year"), lawn.applied_year),
        ("left_this_year", tr("left this year"), lawn.left_this_year),
        ("left_this_month", tr("left this month"), lawn.left_this_month),
    ):
        pounds, formula = rate * area / 1000, "{pounds} × 1,000 ÷ {area:0}"
        on_all = given(
            tr("On all zones"), told(pounds, 2, "lb"), tr("each zone's rate × area ÷ 1,000")
        )
        whole = given(tr("Area"), told(area, 0, "sq ft"), tr("the zones' outlines"))
        inputs = (
            numbered(on_all, "pounds", pounds, "lb"),
            numbered(whole, "area", area, "sq ft"),
        )
        yield Working(
            figure,
            f"{tr(lawn.zone)}: {label}",
            rate_told(rate),
            tr("pounds of nitrogen on all zones × 1,000 ÷ area of the lawn"),
            put_in(formula, inputs),
            inputs,
            sources("n-arithmetic"),
            reckons(formula, RATE_UNIT),
        )
