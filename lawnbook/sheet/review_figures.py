"""The figures of a year in review as they are told: headlines, and the rows of its tables.

The printed page and the window both tell them in these words.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date

from lawnbook.charts.review import PairedMonths
from lawnbook.frozen import dataclass
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
from lawnbook.reading import is_metric, tr
from lawnbook.sheet.headlines import Headline
from lawnbook.sheet.placed import key_of
from lawnbook.sheet.then_now_figures import signed_length
from lawnbook.yard.amounts import RATE_UNIT, bare, shown, told, unit_shown
from lawnbook.yard.numbers import counted, day, short_day

NONE = "–"
"""What stands where there is nothing, or nothing known."""

NO_RATE = tr("Waterings in minutes not counted, the rate not known")

MOST_DATES = 2
"""So many dates are told one by one; of more the first and the last."""


@dataclass(frozen=True, slots=True)
class TableRow:
    """A row's cells, and what is said beneath its name; `words` stand in place of the cells.

    `figures` are the keys of the review's workings behind it, one to a line; one that begins with a
    colon stands for all that end so.
    """

    name: str
    cells: tuple[str, ...]
    detail: str = ""
    words: str = ""
    figures: str = ""


REVIEW = "review"
"""The kind of the keys of what is told in a review."""
_HEADLINE_FIGURES = (
    "water_gallons\nwater_depth",
    "nitrogen_lawn\nnitrogen_quick",
    "",
    "cost_total",
)
"""The workings behind the headlines; of the thatch it is a count."""


def headlines(review: YearReview) -> tuple[Headline, ...]:
    """Water, nitrogen, thatch and cost of the year, each beside the year before."""
    made = (_water(review), _nitrogen(review), _thatch(review), _cost(review))
    return tuple(
        replace(each, key=key_of(REVIEW, figures)) if figures else each
        for each, figures in zip(made, _HEADLINE_FIGURES, strict=True)
    )


def water_months(review: YearReview) -> PairedMonths:
    """Gallons or litres by month."""
    water = review.water
    return PairedMonths(
        unit=tr("Water, {unit}", unit=unit_shown("gal")),
        order=review.span.order,
        names=_names(review),
        now=_shown(water.now.gallons_by_month, "gal"),
        before=_shown(water.before.gallons_by_month, "gal"),
        role="water",
    )


def nitrogen_months(review: YearReview) -> PairedMonths:
    """Nitrogen by month as the mean of the lawn, with what the months' budget allows."""
    nitrogen = review.nitrogen
    return PairedMonths(
        unit=tr("N, {unit}", unit=unit_shown(RATE_UNIT)),
        order=review.span.order,
        names=_names(review),
        now=_shown(nitrogen.now.by_month, RATE_UNIT),
        before=_shown(nitrogen.before.by_month, RATE_UNIT),
        role="feed",
        allowed=_shown(nitrogen.now.budget_by_month, RATE_UNIT),
        allowed_name=tr("budget"),
    )


def zone_heads(review: YearReview) -> tuple[tuple[str, str], ...]:
    """The heads of the table of zones, each in two lines."""
    year, before = _names(review)
    depth, volume = unit_shown("in"), unit_shown("gal")
    rate = (tr("N"), unit_shown(RATE_UNIT)) if is_metric() else (tr("N, lb per"), tr("1,000 sq ft"))
    return (
        (tr("Zone"), ""),
        (tr("Water"), depth),
        (year, volume),
        (before, volume),
        (tr("By plan"), volume),
        (tr("Habit"), volume),
        rate,
        (tr("quick"), "%"),
        (before, rate[1] if is_metric() else tr("lb")),
        (tr("budget"), tr("of the year")),
    )


def zone_rows(review: YearReview) -> tuple[TableRow, ...]:
    """Water and nitrogen of every zone."""
    pairs = zip(review.water.zones, review.nitrogen.zones, strict=True)
    return tuple(_zone(water, fed, review) for water, fed in pairs)


def thatch_heads(review: YearReview) -> tuple[tuple[str, str], ...]:
    """The heads of the table of spots, each in two lines."""
    then = tr("then, {unit}", unit=unit_shown("in"))
    return (
        (tr("Spot"), ""),
        (tr("Plugs"), tr("then")),
        ("", tr("now")),
        (tr("Thatch"), then),
        ("", tr("now")),
        ("", tr("change")),
        ("", "±"),
        (tr("Roots"), then),
        ("", tr("now")),
        (review.before.label, tr("change")),
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


def _shown(months: Sequence[float], unit: str) -> tuple[float, ...]:
    """Twelve months' amounts as numbers of the unit that the owner reads."""
    return tuple(shown(each, unit) for each in months)


def _names(review: YearReview) -> tuple[str, str]:
    return review.span.label, review.before.label


def _water(review: YearReview) -> Headline:
    now, before = review.water.now, review.water.before
    if not now.waterings:
        return Headline(NONE, tr("Water"), tr("no watering on record"))
    remark = tr("{depth} over the lawn", depth=told(now.depth_in, 1, "in"))
    earlier = ""
    if before.waterings > before.untold:
        earlier = f"{review.before.label}: {told(before.gallons, 0, 'gal')}"
    return Headline(told(now.gallons, 0, "gal"), tr("Water"), remark, earlier)


def _nitrogen(review: YearReview) -> Headline:
    now, before = review.nitrogen.now, review.nitrogen.before
    if not review.nitrogen.zones:
        return Headline(NONE, tr("Nitrogen"), tr("no grass drawn yet"))
    of = bare(now.budget_lb, 2, RATE_UNIT)
    remark = tr("of {budget}" if is_metric() else "per 1,000 sq ft, of {budget}", budget=of)
    unit = RATE_UNIT if is_metric() else "lb"
    earlier = ""
    if before.applied_lb > 0:
        earlier = f"{review.before.label}: {told(before.applied_lb, 2, unit)}"
    return Headline(told(now.applied_lb, 2, unit), tr("Nitrogen"), remark, earlier)


def _thatch(review: YearReview) -> Headline:
    compared = [each for each in review.spots if each.pair is not None]
    if not compared:
        return Headline(NONE, tr("Thatch"), tr("nothing to compare yet"))
    apart = sum(each.shows for each in compared)
    spots = counted(len(compared), "spot")
    return Headline(
        tr("{apart} of {spots}", apart=apart, spots=spots),
        tr("Thatch"),
        tr("differ by more than"),
        tr("measuring may make"),
    )


def _cost(review: YearReview) -> Headline:
    cost = review.cost
    earlier = ""
    if cost.total_before is not None:
        earlier = f"{review.before.label}: {money(cost.total_before)}"
    return Headline(money(cost.total), tr("Cost"), tr("of what has a price"), earlier)


def _zone(water: ZoneWatered, fed: ZoneFed, review: YearReview) -> TableRow:
    now, before, reckoned = water.now, water.before, water.reckoned
    share = fed.now.quick_share
    put = now.waterings > now.untold
    return TableRow(
        f"{water.number} {water.zone}",
        (
            bare(now.depth_in, 1, "in") if put else NONE,
            _gallons(now.gallons) if put else NONE,
            _gallons(before.gallons) if before.waterings > before.untold else NONE,
            _gallons(reckoned.plan_gallons),
            _gallons(reckoned.habit_gallons),
            bare(fed.now.applied_lb, 2, RATE_UNIT),
            NONE if share is None else told(100 * share, 0),
            bare(fed.before.applied_lb, 2, RATE_UNIT),
            bare(fed.now.budget_lb, 2, RATE_UNIT),
        ),
        detail=_untold(water, review),
        figures=f"water:{water.zone_id}\nnitrogen:{water.zone_id}",
    )


def _untold(water: ZoneWatered, review: YearReview) -> str:
    counts = (water.now.untold, water.before.untold)
    untold = of_each_year(counts, (review.span, review.before))
    return f"{NO_RATE}: {untold}" if untold else ""


def _gallons(value: float | None) -> str:
    return NONE if value is None else bare(value, 0, "gal")


def _spot(spot: SpotReview, span: ReviewSpan) -> TableRow:
    name = tr("{spot} (untreated)", spot=spot.spot) if spot.comparison else spot.spot
    pair, before = spot.pair, spot.before
    earlier = before.thatch_change_in if before is not None else None
    if pair is None:
        return TableRow(
            name, (), detail=tr("Trend: {verdict}", verdict=spot.verdict), words=spot.words
        )
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
        detail=tr("Trend: {verdict}", verdict=spot.verdict),
        figures=f":{spot.spot_id}",
    )


def _when(on: date, span: ReviewSpan) -> str:
    """A day, with its year where that is not the year looked at."""
    return short_day(on) if span.holds(on) else day(on)


def _inches(value: float | None) -> str:
    return NONE if value is None else bare(value, 2, "in")


def _signed(value: float | None) -> str:
    return NONE if value is None else signed_length(value)


def _cost_row(item: CostItem) -> TableRow:
    used = item.used or (tr("none") if item.used_before else "")
    detail = "; ".join(each for each in (used, item.unpriced) if each)
    amounts = (money(item.amount), money(item.amount_before))
    return TableRow(item.name, amounts, detail, figures="cost_total")


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
