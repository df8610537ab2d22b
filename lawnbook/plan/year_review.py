"""The year in review: water, nitrogen, thatch, cost and work of a year beside the year before.

A pure function of notebook, year and day. It knows only what is dated up to the day, as it is known
then: sprinklers and roots of that day measure both years. A year that is not over stands beside the
same days of the year before, never beside a whole one.
"""

from datetime import date

from lawnbook.plan.year_review_cost import cost_review
from lawnbook.plan.year_review_feed import nitrogen_review
from lawnbook.plan.year_review_model import (
    Changed,
    CostReview,
    NitrogenReview,
    SpotReview,
    WaterReview,
    YearReview,
)
from lawnbook.plan.year_review_span import compared_words, spans_of
from lawnbook.plan.year_review_thatch import spots_review
from lawnbook.plan.year_review_water import Spans, water_review
from lawnbook.plan.year_review_words import (
    cost_changed,
    nitrogen_changed,
    thatch_changed,
    water_changed,
)
from lawnbook.plan.year_review_work import work_done
from lawnbook.plan.year_review_workings import (
    cost_workings,
    nitrogen_workings,
    thatch_workings,
    water_workings,
)
from lawnbook.plan.zone_facts import setting_of
from lawnbook.yard.notebook import Notebook, as_of


def year_review(notebook: Notebook, year: int, on: date) -> YearReview:
    """A year up to a day, beside the year before up to the same day of the year.

    `year` is the budget's: the calendar year, or that of its July south of the equator. OwnerError
    for a year that has not begun, or a day beyond any notebook.
    """
    spans = Spans(*spans_of(notebook, year, on))
    known = as_of(notebook, on)
    setting = setting_of(known, on)
    until = spans.now.until
    of_spots = setting if until == on else setting_of(as_of(known, until), until)
    water = water_review(setting, spans)
    nitrogen = nitrogen_review(setting, spans)
    spots = spots_review(of_spots, spans)
    cost = cost_review(setting, water, spans)
    work = work_done(known, spans)
    has_before = any(each.count_before for each in work)
    return YearReview(
        yard=known.yard.name,
        on=on,
        span=spans.now,
        before=spans.before,
        has_before=has_before,
        compared=compared_words(*spans, has_before),
        water=water,
        nitrogen=nitrogen,
        spots=spots,
        cost=cost,
        work=work,
        changed=_changed(water, nitrogen, spots, cost, spans),
        workings=(
            *water_workings(setting, water, spans.now),
            *nitrogen_workings(nitrogen, spans.now),
            *thatch_workings(spots),
            *cost_workings(setting, cost),
        ),
    )


def _changed(
    water: WaterReview,
    nitrogen: NitrogenReview,
    spots: tuple[SpotReview, ...],
    cost: CostReview,
    spans: Spans,
) -> tuple[Changed, ...]:
    return (
        *water_changed(water, *spans),
        *nitrogen_changed(nitrogen, spans.now, spans.before),
        *thatch_changed(spots),
        *cost_changed(cost, spans.before),
    )
