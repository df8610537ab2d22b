"""Thatch and roots over a year in review: each spot's last plug before it, its latest in it.

The difference stands with its doubt by measuring, as then and now tells it; a verdict is the
trend's of all plugs, which says "cannot say yet" where they are too few.
"""

from collections.abc import Sequence
from datetime import date

from lawnbook.plan.plug_model import DayPlugs, ThenNow
from lawnbook.plan.thatch import spots_thatch
from lawnbook.plan.then_now import plug_days, then_and_now
from lawnbook.plan.year_review_model import ReviewSpan, SpotReview
from lawnbook.plan.year_review_water import Spans
from lawnbook.plan.zone_facts import Setting
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day


def spots_review(setting: Setting, spans: Spans) -> tuple[SpotReview, ...]:
    """Every spot in the owner's order; `setting` is that of the last day looked at."""
    spots = setting.notebook.spots
    return tuple(
        SpotReview(
            spot=each.spot,
            spot_id=each.spot_id,
            zone=each.zone,
            comparison=spots[each.spot_id].comparison,
            pair=_pair(setting.notebook, each.spot_id, spans.now),
            before=_pair(setting.notebook, each.spot_id, spans.before),
            words=_words(_read(setting.notebook, each.spot_id, spans.now), spans.now),
            verdict=each.verdict,
        )
        for each in spots_thatch(setting)
    )


def _pair(notebook: Notebook, spot_id: str, span: ReviewSpan) -> ThenNow | None:
    """The two days that show a spot's year; None where it has no two."""
    chosen = _two_days(_read(notebook, spot_id, span), span)
    return None if chosen is None else then_and_now(notebook, spot_id, *chosen)


def _read(notebook: Notebook, spot_id: str, span: ReviewSpan) -> tuple[DayPlugs, ...]:
    """The days up to the last one looked at with thatch read."""
    days = plug_days(notebook, spot_id, span.until)
    return tuple(each for each in days if each.thatch_in is not None)


def _two_days(days: Sequence[DayPlugs], span: ReviewSpan) -> tuple[date, date] | None:
    """The last day up to the year's first, or else the first in it; and the latest in it."""
    within = [each.date for each in days if each.date > span.starts]
    earlier = [each.date for each in days if each.date <= span.starts]
    then = earlier[-1] if earlier else within[0] if within else None
    if then is None or not within or within[-1] == then:
        return None
    return then, within[-1]


def _words(days: Sequence[DayPlugs], span: ReviewSpan) -> str:
    """Why a spot has no two days to compare; empty where it has."""
    if _two_days(days, span) is not None:
        return ""
    within = [each.date for each in days if each.date >= span.starts]
    if within:
        return f"One plug with thatch read ({day(within[-1])}): nothing to compare it with yet."
    if days:
        return f"No plug with thatch read since {day(days[-1].date)}."
    return "No plug with thatch read yet."
