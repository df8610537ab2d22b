"""The rules a feeding must pass on a day, each as a straight line in the nitrogen that is added.

A rule's figure is what already counts against it plus a share of the nitrogen added. A rule that
stops the day leaves no room at all. So the most that passes, the first day on which an amount
passes, and its split into passes follow from the same rules that give the verdict.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from lawnbook.agronomy.nitrogen import n_lb_per_1000sqft, product_lb_for_rate
from lawnbook.agronomy.turf import DORMANT_BELOW_F, growing
from lawnbook.plan.feed_ledger import LEAST_N_PCT, ZoneFeed, quick_share
from lawnbook.plan.model import BindingRule
from lawnbook.plan.season import day_after, month_in_full, span_words, within
from lawnbook.plan.workings import OWN, PERCENT, counted, sources, told, told_room, told_small
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Product

SLACK_LB = 1e-9
"""How far floating point may pass a limit before it counts as passed."""

LEAST_ROOM_LB = 1e-6
"""Less room than this is none."""

LET_GO_DORMANT = "Let go dormant: no feeding until it grows again."

LEAST_GROWTH = 0.10
"""Growth potential below which the grass uses no nitrogen to speak of (source "growth-stop")."""

NEW_TURF_LB = 0.5
"""Most N (lb per 1,000 sq ft) at once on turf that still roots (source "new-turf-feed")."""

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
        most = self.room()
        room = "" if math.isinf(most) else f", up to {told_room(most)} lb N may go down"
        return f"{reached}{room}."


@dataclass(frozen=True, slots=True, kw_only=True)
class Spreadable:
    """What the rules ask of a product: percent of it, the quick share of its nitrogen (0-1).

    The amount that its rules are put to is nitrogen or, where it carries none to speak of, the
    product itself: either way lb per 1,000 sq ft.
    """

    name: str
    n_pct: float
    quick_share: float
    p2o5_pct: float = 0.0
    starter: bool = False

    @property
    def carries_nitrogen(self) -> bool:
        """Whether the rules of nitrogen hold for it."""
        return self.n_pct >= LEAST_N_PCT

    def amount(self, product_lb: float, area_sqft: float) -> float:
        """What pounds of it on an area are for the rules, lb per 1,000 sq ft."""
        return n_lb_per_1000sqft(product_lb, self._counted_pct, area_sqft)

    def pounds(self, amount: float, area_sqft: float) -> float:
        """Pounds of the product that are such an amount on an area."""
        return product_lb_for_rate(amount, self._counted_pct, area_sqft)

    @property
    def _counted_pct(self) -> float:
        return min(100.0, self.n_pct) if self.carries_nitrogen else 100.0


NITROGEN = Spreadable(name="nitrogen", n_pct=100.0, quick_share=0.0)
"""Stands in for a product where the shelf is bare."""


def spreadable_of(product: Product | None) -> Spreadable:
    """What the rules ask of a product on the shelf, or of none."""
    if product is None:
        return NITROGEN
    held = analysis_of(product)
    return Spreadable(
        name=product.name,
        n_pct=held.n_pct,
        quick_share=quick_share(product),
        p2o5_pct=held.p2o5_pct,
        starter=product.starter,
    )


def rules_on(feed: ZoneFeed, on: date, what: Spreadable) -> tuple[FeedRule, ...]:
    """Every rule for adding some of a product to a zone on a day."""
    nitrogen = (
        (
            *_budget_rules(feed, on),
            *_application_rules(feed, on, what),
            *_growth_rules(feed, on),
            *_new_turf_rules(feed, on, what),
            *_own_rules(feed, on, what),
        )
        if what.carries_nitrogen
        else ()
    )
    return (*nitrogen, *_phosphate_rules(feed, on, what), *_blackouts(feed, on))


def tightest(rules: tuple[FeedRule, ...]) -> FeedRule:
    """The rule that leaves the least room."""
    return min(rules, key=FeedRule.room)


def room_lb(rules: tuple[FeedRule, ...]) -> float:
    """The most that passes every rule, lb per 1,000 sq ft: 0 where none does, infinite for all."""
    room = min((rule.room() for rule in rules), default=math.inf)
    return room if room >= LEAST_ROOM_LB else 0.0


def passes(feed: ZoneFeed, on: date, what: Spreadable, amount: float) -> bool:
    """Whether such an amount (see `Spreadable`) passes every rule on a day."""
    return not any(rule.broken(amount) for rule in rules_on(feed, on, what))


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
    if feed.ground.new_turf is not None:
        days.update((feed.ground.new_turf.since, feed.ground.new_turf.until + timedelta(days=1)))
    return tuple(sorted(each for each in days if on <= each <= last))


def _budget_rules(feed: ZoneFeed, on: date) -> Iterator[FeedRule]:
    budget, month = feed.budget, month_in_full(on.month)
    other = feed.other_month_fed(on)
    month_lb = feed.month_lb(on)
    rule = "month budget"
    if other is not None:
        tells = f"{month} takes none, for {month_in_full(other)} was fed (either, not both)"
    elif month_lb == 0:
        rule = "zero month"
        tells = f"{month} is a zero month of the table, however well the grass grows"
    else:
        tells = f"{month} may take {_lb(month_lb)}"
    yield FeedRule(
        rule=rule,
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
            source=feed.limits.own_source,
            tells=f"Your rule allows {_lb(feed.limits.year_lb)} in the year",
        )


def _application_rules(feed: ZoneFeed, on: date, what: Spreadable) -> Iterator[FeedRule]:
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
        per_lb=what.quick_share,
        source=limits.quick_source,
        tells=f"One application may bring {told(limits.max_quick_lb)} lb quick N per 1,000 sq ft",
    )


def _growth_rules(feed: ZoneFeed, on: date) -> Iterator[FeedRule]:
    """That the grass is dormant or hardly grows, by the month's mean temperature."""
    if feed.dormant_on(on):
        yield _stop("let go dormant", 0.0, 0.0, LET_GO_DORMANT, sources("lsu-drought"))
    month, grass = month_in_full(on.month), feed.zone.grass
    tmean_f, growth = feed.ground.tmean_f[on.month - 1], feed.ground.growth[on.month - 1]
    if tmean_f is not None and not growing(tmean_f, grass):
        yield _stop(
            "dormant",
            DORMANT_BELOW_F[grass],
            tmean_f,
            f"Dormant: {month} has a mean of {told(math.floor(tmean_f), 0)} °F, and {grass}-season "
            f"grass grows from {DORMANT_BELOW_F[grass]:g} °F on.",
            sources("dormant-below"),
        )
    if growth is not None and growth < LEAST_GROWTH:
        yield _stop(
            "growth potential",
            100 * LEAST_GROWTH,
            100 * growth,
            f"Growth potential in {month} is {told(math.floor(100 * growth), 0, '%')}, below "
            f"{100 * LEAST_GROWTH:g}{PERCENT}: the grass cannot use nitrogen.",
            sources("growth-potential", "growth-stop"),
        )


def _new_turf_rules(feed: ZoneFeed, on: date, what: Spreadable) -> Iterator[FeedRule]:
    """That turf still rooting gets only a starter, and little of it at once."""
    turf = feed.ground.new_turf_on(on)
    if turf is None:
        return
    cited = sources("new-turf-feed", "establishing-weeks")
    until = f"until {day(turf.until)}"
    if what.starter:
        yield FeedRule(
            rule="most at once on new turf",
            limit=NEW_TURF_LB,
            used=feed.on_day(on).n_lb,
            source=cited,
            tells=f"New {turf.how} may get {_lb(NEW_TURF_LB)} at once {until}",
        )
    else:
        yield _stop(
            "new turf",
            0.0,
            0.0,
            f"New {turf.how} of {day(turf.since)} gets only a starter {until}, at most "
            f"{_lb(NEW_TURF_LB)} at once; {what.name} is not marked as one.",
            cited,
        )


def _own_rules(feed: ZoneFeed, on: date, what: Spreadable) -> Iterator[FeedRule]:
    """The owner's least slow share and days between feedings."""
    limits, slow_pct = feed.limits, 100 * (1 - what.quick_share)
    if limits.min_slow_pct is not None and slow_pct < limits.min_slow_pct - SLACK_LB:
        yield _stop(
            "least slow share",
            limits.min_slow_pct,
            slow_pct,
            f"Your rule asks for {limits.min_slow_pct:g}{PERCENT} of the nitrogen slow; this "
            f"product has {told(math.floor(slow_pct), 0, '%')}.",
            limits.own_source,
        )
    last = feed.last_before(on)
    if limits.min_days is not None and last is not None and (on - last).days < limits.min_days:
        yield _stop(
            "days between feedings",
            limits.min_days,
            (on - last).days,
            f"Your rule asks for {counted(limits.min_days, 'day')} between feedings; the last was "
            f"{counted((on - last).days, 'day')} before, on {day(last)}.",
            limits.own_source,
        )


def _phosphate_rules(feed: ZoneFeed, on: date, what: Spreadable) -> Iterator[FeedRule]:
    """That phosphate waits for a soil test that asks for it."""
    why = feed.ground.why_no_phosphate(on, starter=what.starter)
    if why and what.p2o5_pct >= LEAST_N_PCT:
        soil = feed.ground.soil
        yield _stop(
            "phosphate",
            0.0,
            what.p2o5_pct,
            f"{what.name} holds {told(what.p2o5_pct, 1, '%')} phosphate. {why}",
            soil.phosphate_source if soil is not None else OWN,
        )


def _blackouts(feed: ZoneFeed, on: date) -> Iterator[FeedRule]:
    """The owner's spans in which nothing may be spread, with nitrogen or without."""
    for blackout in feed.limits.blackouts:
        if within(blackout, on):
            yield _stop(
                "blackout",
                0.0,
                0.0,
                f"Your rule allows no feeding from {span_words(blackout)}.",
                feed.limits.own_source,
            )


def _stop(rule: str, limit: float, shown: float, sentence: str, source: str) -> FeedRule:
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
