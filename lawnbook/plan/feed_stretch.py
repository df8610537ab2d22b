"""How long a feeding may wait: the last day of the month on which as much still passes."""

from datetime import date, timedelta

from lawnbook.plan.feed_ledger import ZoneFeed
from lawnbook.plan.feed_rule import Spreadable
from lawnbook.plan.feed_rules import candidate_days, passes

ONE_DAY = timedelta(days=1)


def last_day_for(feed: ZoneFeed, on: date, what: Spreadable, amount: float) -> date:
    """The last day in the month, from a day on which an amount passes, before that ends.

    `amount` as `Spreadable` counts it, put down on top of what `feed` holds. Between two days on
    which a rule may begin to allow more every rule stands still or tightens, so that not every day
    has to be asked.
    """
    feed, last = feed.lately(on), on
    for end in _ends(feed, on):
        if not _passes(feed, end, what, amount):
            return _last_passing(feed, (last, end), what, amount)
        last = end
    return last


def _ends(feed: ZoneFeed, on: date) -> list[date]:
    """The last days of the stretches of a month in which no rule loosens, in order."""
    after = (on.replace(day=1) + timedelta(days=32)).replace(day=1)
    loosens = [day for day in candidate_days(feed, on) if on + ONE_DAY < day < after]
    return [*(day - ONE_DAY for day in loosens), after - ONE_DAY]


def _last_passing(
    feed: ZoneFeed, between: tuple[date, date], what: Spreadable, amount: float
) -> date:
    """The last day that passes, between one that does and a later one that does not."""
    passing, failing = between
    while (failing - passing).days > 1:
        middle = passing + (failing - passing) // 2
        if _passes(feed, middle, what, amount):
            passing = middle
        else:
            failing = middle
    return passing


def _passes(feed: ZoneFeed, on: date, what: Spreadable, amount: float) -> bool:
    return not feed.too_late_in_month(on) and passes(feed, on, what, amount)
