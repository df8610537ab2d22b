"""What changed in a year, in a few sentences, each with the figures that it rests on."""

from collections.abc import Iterator, Sequence

from lawnbook.plan.workings import PERCENT, and_joined, counted, rate_told, told
from lawnbook.plan.year_review_model import (
    Against,
    Changed,
    CostReview,
    NitrogenReview,
    ReviewSpan,
    SpotReview,
    Watered,
    WaterReview,
    Weathered,
    ZoneFed,
)
from lawnbook.plan.year_review_water import NO_HABIT, NO_WATERING, left_out_why
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import RATE_UNIT, bare, unit_shown
from lawnbook.yard.numbers import day

MOST_SPOTS = 3
"""So many spots are named in a sentence; the table has them all."""

MOST_NAMES = 3
"""So many zones of one kind, and things without a price, are named."""

THATCH = "Thatch: "
"""What then and now begins its sentence with."""

LEAST_LB = 0.005
"""Less nitrogen (lb per 1,000 sq ft) is told as 0.00."""

SAME_GAL = 0.5
"""Gallons that are told as none."""


def water_changed(water: WaterReview, span: ReviewSpan, before: ReviewSpan) -> Iterator[Changed]:
    """Put down, against the year before, the plan and the old habit; and the weather of both."""
    if not water.now.waterings:
        yield Changed(text=tr("No watering is on record in these days."), figures=())
    else:
        yield _put_down(water, before)
    yield from _weather(water.weather, water.weather_before, before)
    if water.plan is not None:
        yield _beside_plan(water.plan, span)
    if water.habit is not None:
        yield _beside_habit(water.habit)
    yield from _not_compared(water)


def nitrogen_changed(
    nitrogen: NitrogenReview, span: ReviewSpan, before: ReviewSpan
) -> Iterator[Changed]:
    """The mean of the lawn against the budget and the year before, and zones over their budget."""
    now, earlier = nitrogen.now, nitrogen.before
    if now.applied_lb < LEAST_LB:
        yield Changed(
            text=tr("No nitrogen is on record in these days."), figures=("nitrogen_lawn",)
        )
    else:
        share = now.quick_share or 0.0
        text = tr(
            "Nitrogen: {applied_lb} as the mean of the lawn, of a budget of {rate} for the "
            "whole of {label}; {share}{percent} of it quick. In {told} it was {or_none}.",
            applied_lb=rate_told(now.applied_lb),
            rate=_rate(now.budget_lb),
            label=span.label,
            share=told(100 * share, 0),
            percent=PERCENT,
            told=before.told,
            or_none=_or_none(earlier.applied_lb),
        )
        yield Changed(text=text, figures=("nitrogen_lawn", "nitrogen_quick"))
    over = [z for z in nitrogen.zones if _over_lb(z) >= LEAST_LB]
    if over:
        yield _over_budget(sorted(over, key=_over_lb, reverse=True))


def _over_budget(zones: Sequence[ZoneFed]) -> Changed:
    """The zones that are the furthest over their budget, and how many more are."""
    told_of = [
        tr("{zone} by {rate}", zone=each.zone, rate=_rate(_over_lb(each)))
        for each in zones[:MOST_NAMES]
    ]
    if len(zones) > MOST_NAMES:
        told_of.append(tr("{count} more", count=len(zones) - MOST_NAMES))
    return Changed(
        text=tr(
            "Over the year's budget, {unit_shown}: {told_of}.",
            unit_shown=unit_shown(RATE_UNIT),
            told_of=and_joined(told_of),
        ),
        figures=tuple(f"nitrogen:{each.zone_id}" for each in zones[:MOST_NAMES]),
    )


def _over_lb(zone: ZoneFed) -> float:
    return zone.now.applied_lb - zone.now.budget_lb


def thatch_changed(spots: tuple[SpotReview, ...]) -> Iterator[Changed]:
    """Which spots' plugs differ by more than measuring explains, and that the others do not."""
    compared = [each for each in spots if each.pair is not None]
    if not spots:
        return
    if not compared:
        yield Changed(
            text=tr("Thatch: no spot has two days of plugs to compare over the year yet."),
            figures=(),
        )
        return
    shown = [each for each in compared if each.shows]
    for each in shown[:MOST_SPOTS]:
        words = each.pair.words[0] if each.pair is not None else ""
        text = tr(
            "Thatch at {spot}: {removeprefix}",
            spot=each.spot,
            removeprefix=words.removeprefix(THATCH),
        )
        yield Changed(text=text, figures=_figures(each))
    if len(shown) > MOST_SPOTS:
        more = counted(len(shown) - MOST_SPOTS, "more spot")
        yield Changed(text=tr("{more} with a difference: see the table.", more=more), figures=())
    if len(shown) < len(compared):
        yield _unshown(len(compared) - len(shown), len(compared))


def cost_changed(cost: CostReview, before: ReviewSpan) -> Iterator[Changed]:
    """What had a price came to, and how much of it has none."""
    if cost.total is not None:
        earlier = ""
        if cost.total_before is not None:
            earlier = tr(
                " In {told} it was {total_before}.",
                told=before.told,
                total_before=told(cost.total_before),
            )
        yield Changed(
            text=tr(
                "What has a price came to {total}.{earlier}",
                total=told(cost.total),
                earlier=earlier,
            ),
            figures=("cost_total",),
        )
    if cost.unpriced:
        names = [each.name.casefold() for each in cost.items if each.unpriced]
        text = tr(
            "Without a price, or for a part of it, and not counted: {named}.", named=_named(names)
        )
        yield Changed(text=text, figures=())


def _put_down(water: WaterReview, before: ReviewSpan) -> Changed:
    now = water.now
    told_of = tr(
        "Water: {gallons} put down, {depth_in} over the lawn",
        gallons=_gallons(now),
        depth_in=told(now.depth_in, 1, "in"),
    )
    if now.untold:
        one = "watering" if now.untold == 1 else "waterings"
        told_of += tr(
            ", without {untold} {one} that cannot be told in {volumes}",
            untold=now.untold,
            one=one,
            volumes=_volumes(),
        )
    return Changed(
        text=f"{told_of}. {_than_before(now, water.before, before)}",
        figures=("water_gallons", "water_depth"),
    )


def _than_before(now: Watered, earlier: Watered, before: ReviewSpan) -> str:
    if not earlier.waterings:
        return tr("No watering is on record in {told}.", told=before.told)
    if now.untold or earlier.untold:
        return tr(
            "{label} cannot be compared: some waterings cannot be told in {volumes}.",
            label=before.label,
            volumes=_volumes(),
        )
    more = now.gallons - earlier.gallons
    if abs(more) < SAME_GAL:
        return tr("The same as in {label}.", label=before.label)
    apart = f"{told(abs(more), 0, 'gal')}{_share(abs(more), earlier.gallons)}"
    begins = tr(", whose records begin on {begun}", begun=day(before.begun)) if before.begun else ""
    return tr(
        "That is {apart} more than in {told}{begins}."
        if more > 0
        else "That is {apart} less than in {told}{begins}.",
        apart=apart,
        told=before.told,
        begins=begins,
    )


def _share(part: float, of: float) -> str:
    """A part in percent in brackets; nothing where there is nothing to share."""
    if of <= 0:
        return ""
    share = 100 * part / of
    part_told = told(share, 0) if share >= 1 else tr("less than 1")
    return f" ({part_told}{PERCENT})"


def _weather(now: Weathered, earlier: Weathered, before: ReviewSpan) -> Iterator[Changed]:
    parts = []
    if now.rain_in is not None:
        rain = f"{told(now.rain_in, 1, 'in')}{_read(now)}"
        parts.append(
            tr(
                "rain {rain}{of_before}",
                rain=rain,
                of_before=_of_before(earlier.rain_in, _read(earlier)),
            )
        )
    if now.etc_in is not None:
        used = told(now.etc_in, 1, "in")
        parts.append(
            tr(
                "the grass's full use {used}{of_before}",
                used=used,
                of_before=_of_before(earlier.etc_in),
            )
        )
    if parts:
        text = tr(
            "The weather ({label} in brackets): {parts}.",
            label=before.label,
            parts=", ".join(parts),
        )
        yield Changed(text=text, figures=("rain", "etc"))


def _read(weather: Weathered) -> str:
    """On how many days rain was read, where they are not most of them."""
    return "" if weather.rain_whole else tr(" on {days}", days=counted(weather.rain_days, "day"))


def _of_before(value: float | None, note: str = "") -> str:
    return tr(" (not known)") if value is None else f" ({bare(value, 1, 'in')}{note})"


def _beside_plan(plan: Against, span: ReviewSpan) -> Changed:
    less = plan.less_gallons
    text = tr(
        "By the plan {days} would have taken {would_gallons} in {where}; {less} less than that was "
        "put down."
        if less >= 0
        else "By the plan {days} would have taken {would_gallons} in {where}; {less} more than "
        "that was put down.",
        days=_days(span),
        would_gallons=told(plan.would_gallons, 0, "gal"),
        where=_where(plan),
        less=told(abs(less), 0, "gal"),
    )
    return Changed(text=text, figures=("water_plan",))


def _not_compared(water: WaterReview) -> Iterator[Changed]:
    """The zones that are in no comparison, or not in that with the habit, and why."""
    zones: dict[str, list[str]] = {}
    for each in water.zones:
        zones.setdefault(left_out_why(each), []).append(each.zone)
    zones.pop("", None)
    if not water.now.waterings:
        # Said already, of the whole lawn.
        zones.pop(NO_WATERING, None)
    no_habit = zones.pop(NO_HABIT, None)
    told_of = []
    if zones:
        whys = "; ".join(f"{_named(names)} ({why})" for why, names in zones.items())
        told_of.append(tr("Not compared with plan or old habit: {whys}.", whys=whys))
    if no_habit:
        told_of.append(
            tr(
                "Not compared with the old habit: {named} ({no_habit}).",
                named=_named(no_habit),
                no_habit=NO_HABIT,
            )
        )
    if told_of:
        yield Changed(text=" ".join(told_of), figures=())


def _named(names: Sequence[str]) -> str:
    """The first names, and how many more there are."""
    rest = len(names) - MOST_NAMES
    return and_joined([*names[:MOST_NAMES], tr("{rest} more", rest=rest)] if rest > 1 else names)


def _days(span: ReviewSpan) -> str:
    return (
        tr("these days")
        if span.begun is None
        else tr("the days from {begun} on", begun=day(span.begun))
    )


def _beside_habit(habit: Against) -> Changed:
    less = habit.less_gallons
    saved = tr("were saved") if less >= 0 else tr("more were put down")
    text = tr(
        "Against the old habit, which would have taken {would_gallons} in {where}, "
        "{less} {saved}, by what is on record.",
        would_gallons=told(habit.would_gallons, 0, "gal"),
        where=_where(habit),
        less=told(abs(less), 0, "gal"),
        saved=saved,
    )
    return Changed(text=text, figures=("water_habit",))


def _where(against: Against) -> str:
    if len(against.zones) == 1:
        return against.zones[0]
    return counted(len(against.zones), "zone")


def _unshown(count: int, of: int) -> Changed:
    if count == of:
        text = tr("Thatch: no spot's plugs show a difference beyond what measuring may make.")
    else:
        others = (
            tr("The other spot's plugs show") if count == 1 else tr("The other spots' plugs show")
        )
        text = tr("{others} no difference beyond what measuring may make.", others=others)
    return Changed(text=text, figures=())


def _figures(spot: SpotReview) -> tuple[str, ...]:
    return (f"thatch_change_in:{spot.spot_id}", f"plus_minus_in:{spot.spot_id}")


def _gallons(water: Watered) -> str:
    return told(water.gallons, 0, "gal")


def _or_none(n_lb: float) -> str:
    return _rate(n_lb) if n_lb >= LEAST_LB else tr("none on record")


def _rate(lb_per_1000: float) -> str:
    return bare(lb_per_1000, 2, RATE_UNIT)


def _volumes() -> str:
    return tr("litres") if is_metric() else tr("gallons")
