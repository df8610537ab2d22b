"""When a zone's nitrogen becomes available, day by day over its budget year, by application.

What was put down on one zone on one day of one product is one layer; what irrigation water
brought in the year is another, available on the day of the watering. Nothing is foretold but what
is down: feedings to come are in no layer.
"""

from collections.abc import Iterable
from datetime import date, timedelta

import numpy as np

from lawnbook.agronomy.checks import Array
from lawnbook.agronomy.nitrogen import NitrogenYear, n_year
from lawnbook.agronomy.release import (
    QUICK_WEEKS,
    UNKNOWN_WEEKS,
    SlowSource,
    microbial_pace,
    quick_share,
    release_weeks,
    released_share,
    slow_source_of,
)
from lawnbook.frozen import dataclass
from lawnbook.plan.feed_ledger import ZoneFeed, feeds_of
from lawnbook.plan.feed_model import ReleaseCurve, Released, ReleaseLayer
from lawnbook.plan.growth import growth_by_month, shared_by_growth, why_no_growth
from lawnbook.plan.season import month_in_full
from lawnbook.plan.warm_days import WarmDays, months_of, warm_days
from lawnbook.plan.water_nitrogen import WATER
from lawnbook.plan.workings import counted, sources
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Product

LOOK_BACK_DAYS = 3 * 366
"""A feeding longer ago than this before the year has nothing left to give in it."""

FORECAST = tr("Only what is down is shown: feedings to come are not.")
ALWAYS_WARM = tr(
    "No temperatures are known: what microbes free is spread evenly over its "
    "weeks, as if the soil were warm all the time."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Portion:
    """All of one product on one zone on one day, lb N per 1,000 sq ft of what was treated."""

    date: date
    product: Product
    quick_lb: float
    slow_lb: float

    @property
    def weeks(self) -> float:
        """How long its slow part feeds."""
        product = self.product
        return release_weeks(product.slow_kind, product.slow_sources, product.release_weeks)

    @property
    def source(self) -> SlowSource | None:
        """What its slow part is, where the product says so."""
        return slow_source_of(self.product.slow_kind, self.product.slow_sources)

    @property
    def microbial(self) -> bool:
        """Whether warmth drives its slow part."""
        return self.slow_lb > 0 and self.source is not None and self.source.microbial


def release_of(notebook: Notebook, zone_id: str, on: date) -> ReleaseCurve:
    """The curve of one zone over the budget year of a day. KeyError for an unknown zone."""
    known = as_of(notebook, on)
    zone = known.zones[zone_id]
    areas = {each.id: zone_area_sqft(each) for each in known.zones.values()}
    feed = feeds_of(known, areas, on)[zone_id]
    warm, year = warm_days(known), n_year(on, feed.latitude_deg)
    layers, portions = _layers(portions_of(known, feed, year), feed, year, warm, on)
    growth = growth_by_month(known, zone.grass)
    usable = shared_by_growth(growth, feed.year_lb)
    return ReleaseCurve(
        zone=zone.name,
        zone_id=zone_id,
        start=year.start,
        days=_length(year),
        layers=layers,
        usable_daily_lb=None if usable is None else _by_day(year, usable),
        reason=why_no_growth(growth),
        notes=_notes(portions, warm, on),
        source=_source(portions),
    )


def released_of(notebook: Notebook, feed: ZoneFeed, on: date) -> Released:
    """A zone's budget year by the month released; `notebook` is the one as of the day."""
    year = n_year(on, feed.latitude_deg)
    held = portions_of(notebook, feed, year)
    layers, portions = _layers(held, feed, year, warm_days(notebook), on)
    growth = growth_by_month(notebook, feed.zone.grass)
    usable = shared_by_growth(growth, feed.year_lb)
    by_day = np.sum([each.daily_lb for each in layers], axis=0) if layers else None
    months = months_of(year.start, _length(year))
    past = (on - year.start).days + 1
    to_come = sum(each.after_lb + sum(each.daily_lb[past:]) for each in layers)
    return Released(
        by_month=tuple(
            0.0 if by_day is None else float(by_day[months == month].sum())
            for month in range(1, 13)
        ),
        usable_by_month=usable,
        growth_by_month=growth,
        to_come_lb=to_come,
        reason=why_no_growth(growth),
        source=_source(portions),
    )


def portions_of(notebook: Notebook, feed: ZoneFeed, year: NitrogenYear) -> tuple[Portion, ...]:
    """What was put down on a zone in its year and so long before that it may still feed in it."""
    since = year.start - timedelta(days=LOOK_BACK_DAYS)
    sums: dict[tuple[date, str], tuple[float, float]] = {}
    for each in (each for each in feed.applications if since <= each.date <= year.end):
        for part in each.parts:
            quick, slow = sums.get((each.date, part.product_id), (0.0, 0.0))
            sums[each.date, part.product_id] = quick + part.quick_lb, slow + part.slow_lb
    return tuple(
        Portion(date=on, product=notebook.products[product], quick_lb=quick, slow_lb=slow)
        for (on, product), (quick, slow) in sorted(sums.items())
        if quick + slow > 0
    )


def _layers(
    portions: Iterable[Portion], feed: ZoneFeed, year: NitrogenYear, warm: WarmDays, on: date
) -> tuple[tuple[ReleaseLayer, ...], tuple[Portion, ...]]:
    """The layers with anything left to give when the year begins, water's first; their portions."""
    held = (each for each in portions if _may_give(each, year))
    layers = [(_layer(each, year, warm, on), each) for each in held]
    giving = [(layer, each) for layer, each in layers if sum(layer.daily_lb) + layer.after_lb > 0]
    water = _water(feed, year)
    return (
        (*([] if water is None else [water]), *(layer for layer, _ in giving)),
        tuple(each for _, each in giving),
    )


def _may_give(portion: Portion, year: NitrogenYear) -> bool:
    """Whether it may feed in a year: what the calendar frees is spent after its weeks."""
    spent = portion.date + timedelta(weeks=max(QUICK_WEEKS, portion.weeks))
    return portion.microbial or spent >= year.start


def _layer(portion: Portion, year: NitrogenYear, warm: WarmDays, on: date) -> ReleaseLayer:
    """One portion over the year: what came before it is what the days before it gave."""
    count = (year.end - portion.date).days + 1
    pace = np.ones(count)
    if portion.microbial:
        pace = microbial_pace(warm.of_days(portion.date, count, on))
    down = portion.quick_lb * quick_share(count)
    down += portion.slow_lb * released_share(portion.weeks, pace)
    by_day = np.diff(down, prepend=0.0)
    skipped = max(0, (year.start - portion.date).days)
    daily = np.zeros(_length(year))
    first = max(0, (portion.date - year.start).days)
    daily[first:] = by_day[skipped:]
    applied = portion.quick_lb + portion.slow_lb
    return ReleaseLayer(
        date=portion.date,
        product=portion.product.name,
        daily_lb=tuple(daily.tolist()),
        applied_lb=applied,
        before_lb=float(down[skipped - 1]) if skipped else 0.0,
        after_lb=max(0.0, applied - float(down[-1])),
    )


def _water(feed: ZoneFeed, year: NitrogenYear) -> ReleaseLayer | None:
    """What the year's irrigation water brought, available on the day; None for nothing."""
    daily = np.zeros(_length(year))
    inside = [each for each in feed.water.days if year.start <= each.date <= year.end]
    for each in inside:
        daily[(each.date - year.start).days] += each.n_lb
    if not daily.any():
        return None
    return ReleaseLayer(
        date=inside[0].date,
        product=WATER,
        daily_lb=tuple(daily.tolist()),
        applied_lb=float(daily.sum()),
        before_lb=0.0,
        after_lb=0.0,
        kind="water",
    )


def _length(year: NitrogenYear) -> int:
    return (year.end - year.start).days + 1


def _by_day(year: NitrogenYear, by_month: tuple[float, ...]) -> tuple[float, ...]:
    """Each month's amount spread evenly over its days."""
    months = months_of(year.start, _length(year))
    lengths = np.bincount(months, minlength=13)[1:]
    each: Array = (np.array(by_month) / lengths)[months - 1]
    return tuple(each.tolist())


def _source(portions: Iterable[Portion]) -> str:
    keys = ["quick-weeks"]
    for each in portions:
        if each.slow_lb > 0 and each.product.release_weeks is None:
            keys.append("uc-slow" if each.source is None else each.source.source_key)
        if each.microbial:
            keys.append("microbes-q10")
    return sources(*dict.fromkeys(keys), "growth-potential")


def _notes(portions: tuple[Portion, ...], warm: WarmDays, on: date) -> tuple[str, ...]:
    """What is assumed of the portions that are shown, each in a sentence."""
    notes = [FORECAST]
    if any(each.quick_lb > 0 for each in portions):
        weeks = counted(QUICK_WEEKS, "week")
        notes.append(
            tr("Quick nitrogen is taken to become available evenly over {weeks}.", weeks=weeks)
        )
    slow = {each.product.id: each for each in portions if each.slow_lb > 0}
    notes += [_slow_note(each) for each in slow.values()]
    if any(each.microbial for each in slow.values()):
        notes += _warmth_notes(warm, on)
    return tuple(notes)


def _slow_note(portion: Portion) -> str:
    """How long a product's slow part feeds, by whom, and by what."""
    weeks, source = tr("{weeks:g} weeks", weeks=portion.weeks), portion.source
    kind = tr("slow part") if source is None else tr("slow part ({name})", name=tr(source.name))
    if portion.product.release_weeks is not None:
        whence = tr("as entered")
    elif source is None:
        low, high = UNKNOWN_WEEKS
        whence = tr(
            "the middle of {low:g} to {high:g}, for its kind is not entered", low=low, high=high
        )
    else:
        whence = tr(
            "the middle of {weeks_low:g} to {weeks_high:g}",
            weeks_low=source.weeks_low,
            weeks_high=source.weeks_high,
        )
    driven = tr("by warmth") if portion.microbial else tr("evenly by the calendar")
    if portion.microbial:
        weeks = tr("{weeks} of warm soil ({part})", weeks=weeks, part=told(68, 0, "°F"))
    return tr(
        "{name}: its {kind} feeds {driven} over {weeks}, {whence}.",
        name=portion.product.name,
        kind=kind,
        driven=driven,
        weeks=weeks,
        whence=whence,
    )


def _warmth_notes(warm: WarmDays, on: date) -> list[str]:
    if not warm.known_months:
        return [ALWAYS_WARM]
    stands_in = tr(
        "The air’s mean temperature stands in for the soil’s: each day’s own up to "
        "{on} where it is on record, the month’s mean otherwise.",
        on=day(on),
    )
    notes = [stands_in]
    unknown = [month for month, mean in enumerate(warm.month_f, start=1) if mean is None]
    if unknown:
        months = ", ".join(month_in_full(month) for month in unknown)
        notes.append(
            tr("No temperature is known for {months}: it counts as warm soil.", months=months)
        )
    return notes
