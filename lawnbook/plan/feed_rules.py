"""The rules a feeding must pass on a day, each as a straight line in the nitrogen that is added.

A rule's figure is what already counts against it plus a share of the nitrogen added. A rule that
stops the day leaves no room at all. So the most that passes, and the first day on which an amount
passes, follow from the same rules that give the verdict.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from lawnbook.plan.feed_ledger import ZoneFeed
from lawnbook.plan.model import BindingRule
from lawnbook.plan.season import day_after, month_in_full, span_words, within
from lawnbook.plan.workings import OWN, PERCENT, counted, sources, told, told_small
from lawnbook.yard.numbers import day

SLACK_LB = 1e-9
"""How far floating point may pass a limit before it counts as passed."""

LEAST_ROOM_LB = 1e-6
"""Less room than this is none."""

LET_GO_DORMANT = "Let go dormant: no feeding until it grows again."

LOOK_AHEAD_DAYS = 731
"""Two years, in which a first day that passes is looked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedRule:
    """One rule on one day, lb per 1,000 sq ft unless `stops` says that it forbids the day.

    `tells` is the sentence's beginning; `shown` the figure of a rule that stops, in its own unit.
    """

    rule: str
    limit: float
    used: float = 0.0
    per_lb: float = 1.0
    source: str
    tells: str
    stops: bool = False
    shown: float = 0.0

    def value(self, n_lb: float) -> float:
        """The rule's figure with so much nitrogen added."""
        return self.shown if self.stops else self.used + self.per_lb * n_lb

    def room(self) -> float:
        """The most nitrogen that may be added; infinite where the rule does not bound it."""
        if self.stops:
            return 0.0
        if self.per_lb <= 0:
            return math.inf
        return max(0.0, (self.limit - self.used) / self.per_lb)

    def broken(self, n_lb: float) -> bool:
        """Whether adding so much nitrogen breaks the rule; adding nothing breaks none."""
        return n_lb > 0 and (self.stops or self.value(n_lb) > self.limit + SLACK_LB)

    def told(self, n_lb: float) -> BindingRule:
        """The rule as it is shown for so much nitrogen."""
        broken = self.broken(n_lb)
        return BindingRule(
            rule=self.rule,
            limit=self.limit,
            value=self.value(n_lb),
            source=self.source,
            sentence=self.tells if self.stops else self._sentence(n_lb, broken),
            broken=broken,
        )

    def _sentence(self, n_lb: float, broken: bool) -> str:
        if self.limit == 0:
            stands = f": it would stand at {told_small(self.value(n_lb))} lb" if broken else ""
            return f"{self.tells}{stands}."
        reached = f"{self.tells}: {told_small(self.value(n_lb))} with this"
        if broken:
            return f"{reached}, {told_small(self.value(n_lb) - self.limit)} too much."
        room = "" if math.isinf(self.room()) else f", up to {told(self.room())} may go down"
        return f"{reached}{room}."


def rules_on(feed: ZoneFeed, on: date, quick_share: float) -> tuple[FeedRule, ...]:
    """Every rule for adding nitrogen of a quick share (0-1) to a zone on a day."""
    return (
        *_budget_rules(feed, on),
        *_application_rules(feed, on, quick_share),
        *_stopping_rules(feed, on, quick_share),
    )


def tightest(rules: tuple[FeedRule, ...]) -> FeedRule:
    """The rule that leaves the least room."""
    return min(rules, key=FeedRule.room)


def room_lb(rules: tuple[FeedRule, ...]) -> float:
    """The most nitrogen that passes every rule, lb per 1,000 sq ft; 0 where none does."""
    room = tightest(rules).room()
    return room if room >= LEAST_ROOM_LB else 0.0


def passes(feed: ZoneFeed, on: date, quick_share: float, n_lb: float) -> bool:
    """Whether so much nitrogen passes every rule on a day."""
    return not any(rule.broken(n_lb) for rule in rules_on(feed, on, quick_share))


def candidate_days(feed: ZoneFeed, on: date) -> tuple[date, ...]:
    """The days from `on`, within two years, on which some rule may begin to allow more.

    Between two of them every rule stands still or tightens, so the first day that passes is one.
    """
    last = on + timedelta(days=LOOK_AHEAD_DAYS)
    days = {on, on + timedelta(days=1), *_month_starts(on, last)}
    dormancy = [feed.season] if feed.let_go_dormant and feed.season is not None else []
    for span in (*feed.limits.blackouts, *dormancy):
        days.update(day_after(span, year) for year in range(on.year - 1, last.year + 1))
    if feed.limits.min_days is not None:
        fed = [each.date for each in feed.fed[-2:]]
        days.update(each + timedelta(days=feed.limits.min_days) for each in fed)
    return tuple(sorted(each for each in days if on <= each <= last))


def _budget_rules(feed: ZoneFeed, on: date) -> Iterator[FeedRule]:
    budget, month = feed.budget, month_in_full(on.month)
    other = feed.other_month_fed(on)
    month_lb = feed.month_lb(on)
    if other is not None:
        tells = f"{month} takes none, for {month_in_full(other)} was fed (either, not both)"
    elif month_lb == 0:
        tells = f"{month} takes no nitrogen in this table"
    else:
        tells = f"{month} may take {_lb(month_lb)}"
    yield FeedRule(
        rule="month budget",
        limit=month_lb,
        used=feed.in_month(on),
        source=budget.source,
        tells=tells,
    )
    yield FeedRule(
        rule="year budget",
        limit=budget.year_lb,
        used=feed.in_year(on),
        source=budget.year_source,
        tells=f"The year may take {_lb(budget.year_lb)}",
    )
    if feed.limits.year_lb is not None:
        yield FeedRule(
            rule="year limit",
            limit=feed.limits.year_lb,
            used=feed.in_year(on),
            source=OWN,
            tells=f"Your rule allows {_lb(feed.limits.year_lb)} in the year",
        )


def _application_rules(feed: ZoneFeed, on: date, quick_share: float) -> Iterator[FeedRule]:
    limits, today = feed.limits, feed.on_day(on)
    yield FeedRule(
        rule="most at once",
        limit=limits.max_total_lb,
        used=today.n_lb,
        source=limits.total_source,
        tells=f"One application may bring {_lb(limits.max_total_lb)}",
    )
    yield FeedRule(
        rule="most quick nitrogen at once",
        limit=limits.max_quick_lb,
        used=today.quick_lb,
        per_lb=quick_share,
        source=limits.quick_source,
        tells=f"One application may bring {told(limits.max_quick_lb)} lb quick N per 1,000 sq ft",
    )


def _stopping_rules(feed: ZoneFeed, on: date, quick_share: float) -> Iterator[FeedRule]:
    limits = feed.limits
    if feed.dormant_on(on):
        yield _stop("let go dormant", 0.0, 0.0, LET_GO_DORMANT, sources("lsu-drought"))
    slow_pct = 100 * (1 - quick_share)
    if limits.min_slow_pct is not None and slow_pct < limits.min_slow_pct - SLACK_LB:
        yield _stop(
            "least slow share",
            limits.min_slow_pct,
            slow_pct,
            f"Your rule asks for {limits.min_slow_pct:g}{PERCENT} of the nitrogen slow; this "
            f"product has {told(slow_pct, 0, '%')}.",
        )
    last = feed.last_before(on)
    if limits.min_days is not None and last is not None and (on - last).days < limits.min_days:
        yield _stop(
            "days between feedings",
            limits.min_days,
            (on - last).days,
            f"Your rule asks for {counted(limits.min_days, 'day')} between feedings; the last was "
            f"{counted((on - last).days, 'day')} before, on {day(last)}.",
        )
    for blackout in limits.blackouts:
        if within(blackout, on):
            yield _stop(
                "blackout", 0.0, 0.0, f"Your rule allows no feeding from {span_words(blackout)}."
            )


def _stop(rule: str, limit: float, shown: float, sentence: str, source: str = OWN) -> FeedRule:
    return FeedRule(rule=rule, limit=limit, shown=shown, source=source, tells=sentence, stops=True)


def _month_starts(on: date, last: date) -> Iterator[date]:
    year, month = on.year, on.month
    while True:
        year, month = (year, month + 1) if month < 12 else (year + 1, 1)
        first = date(year, month, 1)
        if first > last:
            return
        yield first


def _lb(value: float) -> str:
    return f"{told(value)} lb N per 1,000 sq ft"
