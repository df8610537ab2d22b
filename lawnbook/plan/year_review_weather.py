"""How the rain and the grass's full use of a year in review came about, month by month."""

from collections.abc import Iterator, Sequence

import numpy as np

from lawnbook.plan.filled_in import numbered, put_in, reckons, together
from lawnbook.plan.nitrogen_workings import sum_of
from lawnbook.plan.root_days import etc_factors, month_indices, weather_days
from lawnbook.plan.season import month_in_full
from lawnbook.plan.water_model import Array
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import given, sources, told
from lawnbook.plan.year_review_model import ReviewSpan, Weathered
from lawnbook.plan.zone_facts import Setting, facts_of
from lawnbook.reading import tr


def weather_workings(setting: Setting, weather: Weathered, span: ReviewSpan) -> Iterator[Working]:
    """Rain and full use (ETc) of the days looked at, as sums of their months."""
    days = tr("{days} days", days=span.days)
    if weather.rain_in is not None:
        fallen = weather_days(setting, span.starts, span.days).rain_in
        parts = _months(fallen, span, tr("days on record, your gauge first"))
        formula = sum_of(parts)
        read = given(
            tr("Days read"),
            str(weather.rain_days),
            tr("of {days}; your gauge goes first", days=days),
        )
        yield Working(
            "rain",
            tr("Rain"),
            told(weather.rain_in, 1, "in"),
            tr("sum of the days on record"),
            put_in(formula, parts),
            (*parts, read),
            sources(),
            reckons(formula, "in", 1),
        )
    if weather.etc_in is not None:
        yield _etc(setting, weather, span, weather.etc_in)


def _etc(setting: Setting, weather: Weathered, span: ReviewSpan, etc_in: float) -> Working:
    parts = _months(_used_in(setting, span), span, tr("ETo × Kc × microclimate of its days"))
    formula = sum_of(parts)
    days = tr("{days} days", days=span.days)
    filled = tr("of {days}, for want of weather", days=days)
    inputs = (
        *parts,
        together(given(tr("ETo of all days"), told(1.0), tr("1 is as known")), "eto"),
        together(given(tr("Kc × microclimate"), told(1.0), tr("1 is each zone’s own")), "kc"),
        given(tr("Days by their month's mean"), str(weather.filled_days), filled),
    )
    return Working(
        "etc",
        tr("The grass's full use (ETc)"),
        told(etc_in, 1, "in"),
        tr("sum of each day's ETo × Kc × microclimate, mean of the zones by area"),
        put_in(formula, parts),
        inputs,
        sources("fao56"),
        reckons(f"({formula}) × {{eto}} × {{kc}}", "in", 1),
    )


def _used_in(setting: Setting, span: ReviewSpan) -> Array:
    """The use of each day, the mean of the zones by their area."""
    eto = weather_days(setting, span.starts, span.days).eto_in
    months = month_indices(span.starts, span.days)
    facts = [
        facts_of(setting, zone, number)
        for number, zone in enumerate(setting.notebook.zones.values(), start=1)
    ]
    area = sum(each.area_sqft for each in facts)
    used: Array = sum(
        (eto * etc_factors(each)[months] * each.area_sqft for each in facts), np.zeros(span.days)
    )
    return used / area


def _months(by_day: Array, span: ReviewSpan, origin: str) -> tuple[Input, ...]:
    """The sums of the months that have any, in the order of the year."""
    months: Sequence[int] = month_indices(span.starts, span.days).tolist()
    held = [month for month in span.order if month - 1 in set(months)]
    sums = {month: float(by_day[np.array(months) == month - 1].sum()) for month in held}
    return tuple(
        numbered(
            given(month_in_full(month), told(inches, 2, "in"), origin), f"m{month}", inches, "in"
        )
        for month, inches in sums.items()
        if inches > 0
    )
