"""Thatch and roots over a year in review: each spot's last plug before it, its latest in it.

The difference stands with its doubt by measuring, as then and now tells it; a verdict is the
trend's of all plugs, which says "cannot say yet" where they are too few.
"""

from collections.abc import Sequence
from datetime import date

from lawnbook.plan.plug_model import ThenNow
from lawnbook.plan.thatch import spots_thatch
from lawnbook.plan.then_now import Spreads, read_days, then_and_now
from lawnbook.plan.year_review_model import ReviewSpan, SpotReview
from lawnbook.plan.year_review_water import Spans
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day


def spots_review(setting: Setting, spans: Spans) -> tuple[SpotReview, ...]:
    """Every spot in the owner's order; `setting` is that of the last day looked at."""
    notebook, spots, spreads = setting.notebook, setting.notebook.spots, Spreads(setting.notebook)
    return tuple(
        SpotReview(
            spot=each.spot,
            spot_id=each.spot_id,
            zone=each.zone,
            comparison=spots[each.spot_id].comparison,
            pair=_pair(notebook, each.spot_id, spans.now, spreads),
            before=_pair(notebook, each.spot_id, spans.before, spreads),
            words=_words(read_days(notebook, each.spot_id, spans.now.until), spans.now),
            verdict=each.verdict,
        )
        for each in spots_thatch(setting)
    )


def _pair(notebook: Notebook, spot_id: str, span: ReviewSpan, spreads: Spreads) -> ThenNow | None:
    """The two days that show a spot's year; None where it has no two."""
    chosen = _two_days(read_days(notebook, spot_id, span.until), span)
    return None if chosen is None else then_and_now(notebook, spot_id, *chosen, spreads)


def _two_days(days: Sequence[date], span: ReviewSpan) -> tuple[date, date] | None:
    """The last day up to the year's first, or else the first in it; and the latest in it."""
    within = [each for each in days if each > span.starts]
    earlier = [each for each in days if each <= span.starts]
    then = earlier[-1] if earlier else within[0] if within else None
    if then is None or not within or within[-1] == then:
        return None
    return then, within[-1]


def _words(days: Sequence[date], span: ReviewSpan) -> str:
    """Why a spot has no two days to compare; empty where it has."""
    if _two_days(days, span) is not None:
        return ""
    within = [each for each in days if each >= span.starts]
    if within:
        return tr(
            "One plug with thatch read ({within}): nothing to compare it with yet.",
            within=day(within[-1]),
        )
    if days:
        return tr("No plug with thatch read since {days}.", days=day(days[-1]))
    return tr("No plug with thatch read yet.")
