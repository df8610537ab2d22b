"""The figures of a year in review as they are told: headlines, and the rows of its tables.

The printed page and the window both tell them in these words.
"""

from collections.abc import Iterator
from datetime import date

from lawnbook.charts.review import PairedMonths
from lawnbook.frozen import dataclass
from lawnbook.plan.evidence_words import signed
from lawnbook.plan.workings import counted, told
from lawnbook.plan.year_review_model import (
    CostItem,
    ReviewSpan,
    SpotReview,
    WorkDone,
    YearReview,
    ZoneFed,
    ZoneWatered,
)
from lawnbook.plan.year_review_span import of_each_year
from lawnbook.sheet.headlines import Headline
from lawnbook.yard.numbers import day, short_day

NONE = "–"
"""What stands where there is nothing, or nothing known."""

NO_RATE = "Waterings in minutes not counted, the rate not known"

MOST_DATES = 2
"""So many dates are told one by one; of more the first and the last."""


@dataclass(frozen=True, slots=True)
class TableRow:
    """A row's cells, and what is said beneath its name; `words` stand in place of the cells."""

    name: str
    cells: tuple[str, ...]
    detail: str = ""
    words: str = ""


def headlines(review: YearReview) -> tuple[Headline, ...]:
    """Water, nitrogen, thatch and cost of the year, each beside the year before."""
    return (_water(review), _nitrogen(review), _thatch(review), _cost(review))


def water_months(review: YearReview) -> PairedMonths:
    """Gallons by month."""
    water = review.water
    return PairedMonths(
        unit="Water, gal",
        order=review.span.order,
        names=_names(review),
        now=water.now.gallons_by_month,
        before=water.before.gallons_by_month,
        role="water",
    )


def nitrogen_months(review: YearReview) -> PairedMonths:
    """Nitrogen by month as the mean of the lawn, with what the months' budget allows."""
    nitrogen = review.nitrogen
    return PairedMonths(
        unit="N, lb per 1,000 sq ft",
        order=review.span.order,
        names=_names(review),
        now=nitrogen.now.by_month,
        before=nitrogen.before.by_month,
        role="feed",
        allowed=nitrogen.now.budget_by_month,
        allowed_name="budget",
    )


def zone_heads(review: YearReview) -> tuple[tuple[str, str], ...]:
    """The heads of the table of zones, each in two lines."""
    year, before = _names(review)
    return (
        ("Zone", ""),
        ("Water", "in"),
        (year, "gal"),
        (before, "gal"),
        ("By plan", "gal"),
        ("Habit", "gal"),
        ("N, lb per", "1,000 sq ft"),
        ("quick", "%"),
        (before, "lb"),
        ("budget", "of the year"),
    )


def zone_rows(review: YearReview) -> tuple[TableRow, ...]:
    """Water and nitrogen of every zone."""
    pairs = zip(review.water.zones, review.nitrogen.zones, strict=True)
    return tuple(_zone(water, fed, review) for water, fed in pairs)


def thatch_heads(review: YearReview) -> tuple[tuple[str, str], ...]:
    """The heads of the table of spots, each in two lines."""
    return (
        ("Spot", ""),
        ("Plugs", "then"),
        ("", "now"),
        ("Thatch", "then, in"),
        ("", "now"),
        ("", "change"),
        ("", "±"),
        ("Roots", "then, in"),
        ("", "now"),
        (review.before.label, "change"),
    )


def thatch_rows(review: YearReview) -> tuple[TableRow, ...]:
    """Thatch and roots of every spot, and its verdict beneath."""
    return tuple(_spot(each, review.span) for each in review.spots)


def cost_rows(review: YearReview) -> tuple[TableRow, ...]:
    """What each thing cost, the year before beside it, and what has no price."""
    return tuple(_cost_row(each) for each in review.cost.items)


def work_rows(review: YearReview) -> tuple[TableRow, ...]:
    """How often each kind of work was done, on which days, and how often the year before."""
    return tuple(_work(each, review) for each in review.work)


def money(value: float | None) -> str:
    """An amount in the owner's currency, without a sign."""
    return NONE if value is None else told(value)


def _names(review: YearReview) -> tuple[str, str]:
    return review.span.label, review.before.label


def _water(review: YearReview) -> Headline:
    now, before = review.water.now, review.water.before
    if not now.waterings:
        return Headline(NONE, "Water", "no watering on record")
    remark = f"{told(now.depth_in, 1, 'in')} over the lawn"
    earlier = ""
    if before.waterings > before.untold:
        earlier = f"{review.before.label}: {told(before.gallons, 0, 'gal')}"
    return Headline(told(now.gallons, 0, "gal"), "Water", remark, earlier)


def _nitrogen(review: YearReview) -> Headline:
    now, before = review.nitrogen.now, review.nitrogen.before
    if not review.nitrogen.zones:
        return Headline(NONE, "Nitrogen", "no grass drawn yet")
    remark = f"per 1,000 sq ft, of {told(now.budget_lb)}"
    earlier = ""
    if before.applied_lb > 0:
        earlier = f"{review.before.label}: {told(before.applied_lb, 2, 'lb')}"
    return Headline(told(now.applied_lb, 2, "lb"), "Nitrogen", remark, earlier)


def _thatch(review: YearReview) -> Headline:
    compared = [each for each in review.spots if each.pair is not None]
    if not compared:
        return Headline(NONE, "Thatch", "nothing to compare yet")
    shown = sum(each.shows for each in compared)
    spots = counted(len(compared), "spot")
    return Headline(f"{shown} of {spots}", "Thatch", "differ by more than", "measuring may make")


def _cost(review: YearReview) -> Headline:
    cost = review.cost
    earlier = ""
    if cost.total_before is not None:
        earlier = f"{review.before.label}: {money(cost.total_before)}"
    return Headline(money(cost.total), "Cost", "of what has a price", earlier)


def _zone(water: ZoneWatered, fed: ZoneFed, review: YearReview) -> TableRow:
    now, before, reckoned = water.now, water.before, water.reckoned
    share = fed.now.quick_share
    put = now.waterings > now.untold
    return TableRow(
        f"{water.number} {water.zone}",
        (
            told(now.depth_in, 1) if put else NONE,
            told(now.gallons, 0) if put else NONE,
            told(before.gallons, 0) if before.waterings > before.untold else NONE,
            _gallons(reckoned.plan_gallons),
            _gallons(reckoned.habit_gallons),
            told(fed.now.applied_lb),
            NONE if share is None else told(100 * share, 0),
            told(fed.before.applied_lb),
            told(fed.now.budget_lb),
        ),
        detail=_untold(water, review),
    )


def _untold(water: ZoneWatered, review: YearReview) -> str:
    counts = (water.now.untold, water.before.untold)
    untold = of_each_year(counts, (review.span, review.before))
    return f"{NO_RATE}: {untold}" if untold else ""


def _gallons(value: float | None) -> str:
    return NONE if value is None else told(value, 0)


def _spot(spot: SpotReview, span: ReviewSpan) -> TableRow:
    name = f"{spot.spot} (untreated)" if spot.comparison else spot.spot
    pair, before = spot.pair, spot.before
    earlier = before.thatch_change_in if before is not None else None
    if pair is None:
        return TableRow(name, (), detail=f"Trend: {spot.verdict}", words=spot.words)
    reach = pair.plus_minus_in
    return TableRow(
        name,
        (
            _when(pair.then.date, span),
            _when(pair.now.date, span),
            _inches(pair.then.thatch_in),
            _inches(pair.now.thatch_in),
            _signed(pair.thatch_change_in),
            _inches(reach),
            _inches(pair.then.root_depth_in),
            _inches(pair.now.root_depth_in),
            _signed(earlier),
        ),
        detail=f"Trend: {spot.verdict}",
    )


def _when(on: date, span: ReviewSpan) -> str:
    """A day, with its year where that is not the year looked at."""
    return short_day(on) if span.holds(on) else day(on)


def _inches(value: float | None) -> str:
    return NONE if value is None else told(value)


def _signed(value: float | None) -> str:
    return NONE if value is None else signed(value)


def _cost_row(item: CostItem) -> TableRow:
    used = item.used or ("none" if item.used_before else "")
    detail = "; ".join(each for each in (used, item.unpriced) if each)
    return TableRow(item.name, (money(item.amount), money(item.amount_before)), detail)


def _work(work: WorkDone, review: YearReview) -> TableRow:
    return TableRow(
        work.what,
        (str(work.count), str(work.count_before) if review.has_before else NONE),
        ", ".join(_dates(work)),
    )


def _dates(work: WorkDone) -> Iterator[str]:
    days = dict.fromkeys(work.dates)
    if len(days) <= MOST_DATES:
        yield from map(short_day, days)
    else:
        yield f"{short_day(work.dates[0])}–{short_day(work.dates[-1])}"
