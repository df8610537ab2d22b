"""The nitrogen of a year in review: by zone and month, its quick part, against the budget."""

from collections.abc import Mapping, Sequence

from lawnbook.plan.feed_ledger import ZoneFeed, feeds_of
from lawnbook.plan.year_review_model import Fed, Months, NitrogenReview, ReviewSpan, ZoneFed
from lawnbook.plan.year_review_water import Spans
from lawnbook.plan.zone_facts import Setting
from lawnbook.yard.notebook import Notebook, with_tables

NOTHING: Months = (0.0,) * 12


def nitrogen_review(setting: Setting, spans: Spans) -> NitrogenReview:
    """The nitrogen of every zone and its mean; `setting` is that of the day of the review."""
    now = _feeds(setting, spans.now)
    before = _feeds(setting, spans.before)
    zones = tuple(
        ZoneFed(
            zone=zone.name,
            zone_id=zone.id,
            number=number,
            area_sqft=setting.areas[zone.id],
            now=_fed(now[zone.id], spans.now),
            before=_fed(before[zone.id], spans.before),
        )
        for number, zone in enumerate(setting.notebook.zones.values(), start=1)
    )
    areas = [each.area_sqft for each in zones]
    return NitrogenReview(
        zones=zones,
        now=_mean([each.now for each in zones], areas),
        before=_mean([each.before for each in zones], areas),
    )


def _feeds(setting: Setting, span: ReviewSpan) -> Mapping[str, ZoneFeed]:
    """What was fed up to the last day of a span, reckoned with what is known now."""
    return feeds_of(_up_to(setting.notebook, span), setting.areas, span.until)


def _up_to(notebook: Notebook, span: ReviewSpan) -> Notebook:
    """The notebook without the feedings and waterings of later days; all else as known now."""
    later = {
        table: [row for row in getattr(notebook, table).values() if row.date <= span.until]
        for table in ("feedings", "waterings")
    }
    return with_tables(notebook, later)


def _fed(feed: ZoneFeed, span: ReviewSpan) -> Fed:
    by_month = feed.by_month(span.until)
    quick = feed.by_month(span.until, quick=True)
    return Fed(
        by_month=by_month,
        quick_by_month=quick,
        applied_lb=sum(by_month),
        quick_lb=sum(quick),
        budget_by_month=feed.budget.by_month,
        budget_lb=feed.year_lb,
    )


def _mean(parts: Sequence[Fed], areas: Sequence[float]) -> Fed:
    """The mean of the zones by area; nothing where no zone has any."""
    area = sum(areas)

    def mean(values: Sequence[float]) -> float:
        return sum(v * a for v, a in zip(values, areas, strict=True)) / area if area > 0 else 0.0

    def months(held: Sequence[Months]) -> Months:
        return tuple(mean([each[at] for each in held]) for at in range(12)) if held else NOTHING

    return Fed(
        by_month=months([each.by_month for each in parts]),
        quick_by_month=months([each.quick_by_month for each in parts]),
        applied_lb=mean([each.applied_lb for each in parts]),
        quick_lb=mean([each.quick_lb for each in parts]),
        budget_by_month=months([each.budget_by_month for each in parts]),
        budget_lb=mean([each.budget_lb for each in parts]),
    )
