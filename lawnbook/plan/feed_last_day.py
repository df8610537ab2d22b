"""How the last day for a zone's next feeding came about: the last on which as much still passes."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from datetime import date
from functools import partial

from lawnbook.plan.feed_budget import budget_told
from lawnbook.plan.feed_ledger import ZoneFeed
from lawnbook.plan.filled_in import by_function, counted_in
from lawnbook.plan.lazily import with_unread
from lawnbook.plan.model import NextFeeding
from lawnbook.plan.nitrogen_workings import rated
from lawnbook.plan.season import month_in_full, span_words
from lawnbook.plan.working_model import DATE, DAY, Input, Working
from lawnbook.plan.workings import given, sources
from lawnbook.reading import tr
from lawnbook.yard.numbers import day

Again = Callable[[ZoneFeed], NextFeeding | None]
"""A zone's next feeding, found again with other budgets and limits."""


def last_day_workings(
    feed: ZoneFeed, upcoming: NextFeeding | None, again: Again
) -> Iterator[Working]:
    """The last day of a feeding that is due; nothing where none is told."""
    if upcoming is None or upcoming.latest is None or upcoming.area_sqft <= 0:
        return
    month = upcoming.date.month
    yield Working(
        "next_feeding_until",
        tr("Last day for the next feeding"),
        day(upcoming.latest),
        tr("the last day of the month, from the first on, on which so much still passes each rule"),
        "",
        tuple(_inputs(feed, upcoming.date)),
        sources("n-arithmetic"),
        by_function(partial(last_day_anew, feed, month, again), DATE, 0),
    )


def _inputs(feed: ZoneFeed, first: date) -> Iterator[Input]:
    """Budgets, the limits of one application, how far apart feedings stand, and closed days."""
    budget, limits, month = feed.budget, feed.limits, first.month
    yield given(tr("First day"), day(first), tr("worked out: next feeding"))
    name = tr("Budget of {name}", name=month_in_full(month))
    yield rated("month", name, budget.by_month[month - 1], budget_told(budget.name))
    yield rated("year", tr("Budget of the year"), feed.year_lb, budget_told(budget.name))
    yield rated("total", tr("Most at once"), limits.max_total_lb, limits.total_source)
    yield rated(
        "quick", tr("Most quick nitrogen at once"), limits.max_quick_lb, limits.quick_source
    )
    if limits.min_days is not None:
        apart = given(tr("Days between feedings"), str(limits.min_days), tr("by your rule"))
        yield counted_in(apart, "apart", limits.min_days, DAY)
    for each in limits.blackouts:
        yield given(tr("Days without feeding"), span_words(each), tr("by your rule"))


def last_day_anew(feed: ZoneFeed, month: int, again: Again, numbers: Mapping[str, float]) -> float:
    """The last day, as `date.toordinal`, with other budgets and limits; NaN where none is left."""
    months = list(feed.budget.by_month)
    months[month - 1] = numbers["month"]
    budget = replace(feed.budget, by_month=tuple(months), year_lb=numbers["year"])
    limits = replace(
        feed.limits,
        max_total_lb=numbers["total"],
        max_quick_lb=numbers["quick"],
        year_lb=None if feed.limits.year_lb is None else numbers["year"],
        min_days=round(numbers["apart"]) if "apart" in numbers else None,
    )
    found = again(with_unread(feed, budget=budget, limits=limits))
    if found is None or found.latest is None:
        return float("nan")
    return float(found.latest.toordinal())
