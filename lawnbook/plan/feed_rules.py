"""The rules a feeding must pass on a day, each as a straight line in the nitrogen that is added.

A rule's figure is what already counts against it plus a share of the nitrogen added. A rule that
stops the day leaves no room at all. So the most that passes, the first day on which an amount
passes, and its split into passes follow from the same rules that give the verdict.
"""

import math
from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from lawnbook.agronomy.turf import DORMANT_BELOW_F, LEAST_GROWTH, growing
from lawnbook.plan.feed_ledger import LEAST_N_PCT, ZoneFeed
from lawnbook.plan.feed_rule import LEAST_ROOM_LB, SLACK_LB, FeedRule, Spreadable, rate_of_n
from lawnbook.plan.season import day_after, month_in_full, span_words, within
from lawnbook.plan.workings import PERCENT, counted, sources, told
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import RATE_UNIT, bare, shown, trimmed, unit_shown
from lawnbook.yard.numbers import day

LET_GO_DORMANT = tr("Let go dormant: no feeding until it grows again.")

NEW_TURF_LB = 0.5
"""Most N (lb per 1,000 sq ft) at once on turf that still roots (source "new-turf-feed")."""

LOOK_AHEAD_DAYS = 731
"""Two years, in which a first day that passes is looked for."""


def rules_on(feed: ZoneFeed, on: date, what: Spreadable) -> tuple[FeedRule, ...]:
    """Every rule for adding some of a product to a zone on a day."""
    return tuple(each_rule_on(feed, on, what))


def each_rule_on(feed: ZoneFeed, on: date, what: Spreadable) -> Iterator[FeedRule]:
    """The same one after the other, for who needs no more than the first that leaves no room."""
    if what.carries_nitrogen:
        yield from _budget_rules(feed, on)
        yield from _application_rules(feed, on, what)
        yield from _growth_rules(feed, on)
        yield from _new_turf_rules(feed, on, what)
        yield from _own_rules(feed, on, what)
    yield from _phosphate_rules(feed, on, what)
    yield from _blackouts(feed, on)


def tightest(rules: tuple[FeedRule, ...]) -> FeedRule:
    """The rule that leaves the least room."""
    return min(rules, key=FeedRule.room)


def room_lb(rules: Iterable[FeedRule]) -> float:
    """The most that passes every rule, lb per 1,000 sq ft: 0 where none does, infinite for all.

    Rules after the first that leaves no room are not looked at.
    """
    room = math.inf
    for rule in rules:
        room = min(room, rule.room())
        if room < LEAST_ROOM_LB:
            return 0.0
    return room


def passes(feed: ZoneFeed, on: date, what: Spreadable, amount: float) -> bool:
    """Whether such an amount (see `Spreadable`) passes every rule on a day."""
    return not any(rule.broken(amount) for rule in each_rule_on(feed, on, what))


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
    rule, short = tr("month budget"), tr("{month} is full", month=month)
    if other is not None:
        short = tr("{month_in_full} was fed", month_in_full=month_in_full(other))
        tells = tr(
            "{month} takes none, for {month_in_full} was fed (either, not both)",
            month=month,
            month_in_full=month_in_full(other),
        )
    elif month_lb == 0:
        rule, short = tr("zero month"), tr("{month} is a zero month of the table", month=month)
        tells = tr("{short}, however well the grass grows", short=short)
    else:
        tells = tr("{month} may take {lb}", month=month, lb=_lb(month_lb))
    yield FeedRule(
        rule=rule,
        limit=month_lb,
        used=feed.in_month(on),
        source=budget.source,
        tells=tells,
        short=short,
    )
    yield FeedRule(
        rule="year budget",
        limit=budget.year_lb,
        used=feed.in_year(on),
        source=budget.year_source,
        tells=tr("The year may take {lb}", lb=_lb(budget.year_lb)),
        short=tr("the year is full"),
    )
    if feed.limits.year_lb is not None:
        yield FeedRule(
            rule="year limit",
            limit=feed.limits.year_lb,
            used=feed.in_year(on),
            source=feed.limits.own_source,
            tells=tr("Your rule allows {lb} in the year", lb=_lb(feed.limits.year_lb)),
            short=tr("the year of your rule is full"),
        )


def _application_rules(feed: ZoneFeed, on: date, what: Spreadable) -> Iterator[FeedRule]:
    limits, today = feed.limits, feed.on_day(on)
    yield FeedRule(
        rule="most at once",
        limit=limits.max_total_lb,
        used=today.n_lb,
        source=limits.total_source,
        tells=tr("One application may bring {lb}", lb=_lb(limits.max_total_lb)),
        short=tr("that day has had the most of one application"),
    )
    yield FeedRule(
        rule="most quick nitrogen at once",
        limit=limits.max_quick_lb,
        used=today.quick_lb,
        per_lb=what.quick_share,
        source=limits.quick_source,
        tells=tr("One application may bring {quick}", quick=_quick(limits.max_quick_lb)),
        short=tr("that day may take no more quick nitrogen"),
    )


def _growth_rules(feed: ZoneFeed, on: date) -> Iterator[FeedRule]:
    """That the grass is dormant or hardly grows, by the month's mean temperature."""
    if feed.dormant_on(on):
        yield _stop(
            tr("let go dormant"),
            tr("the lawn is let go dormant"),
            (0.0, 0.0),
            LET_GO_DORMANT,
            sources("lsu-drought"),
        )
    month, grass = month_in_full(on.month), feed.zone.grass
    tmean_f, growth = feed.ground.tmean_f[on.month - 1], feed.ground.growth[on.month - 1]
    if tmean_f is not None and not growing(tmean_f, grass):
        yield _stop(
            "dormant",
            tr("the grass is dormant"),
            (DORMANT_BELOW_F[grass], tmean_f),
            tr(
                "Dormant: {month} has a mean of {floor_told}, and {grass}-season grass grows "
                "from {trimmed} on.",
                month=month,
                floor_told=_floor_told(tmean_f),
                grass=tr(grass),
                trimmed=trimmed(DORMANT_BELOW_F[grass], 1, "°F"),
            ),
            sources("dormant-below"),
        )
    if growth is not None and growth < LEAST_GROWTH:
        yield _stop(
            tr("growth potential"),
            tr("the grass hardly grows"),
            (100 * LEAST_GROWTH, 100 * growth),
            tr(
                "Growth potential in {month} is {floor}, below {least_growth:g}{percent}: the "
                "grass cannot use nitrogen.",
                month=month,
                floor=told(math.floor(100 * growth), 0, "%"),
                least_growth=100 * LEAST_GROWTH,
                percent=PERCENT,
            ),
            sources("growth-potential", "growth-stop"),
        )


def _new_turf_rules(feed: ZoneFeed, on: date, what: Spreadable) -> Iterator[FeedRule]:
    """That turf still rooting gets only a starter, and little of it at once."""
    turf = feed.ground.new_turf_on(on)
    if turf is None:
        return
    cited = sources("new-turf-feed", "establishing-weeks")
    until = tr("until {until}", until=day(turf.until))
    if what.starter:
        yield FeedRule(
            rule="most at once on new turf",
            limit=NEW_TURF_LB,
            used=feed.on_day(on).n_lb,
            source=cited,
            tells=tr(
                "New {how} may get {lb} at once {until}",
                how=tr(turf.how),
                lb=_lb(NEW_TURF_LB),
                until=until,
            ),
            short=tr("that day has had the most for new {how}", how=tr(turf.how)),
        )
    else:
        yield _stop(
            tr("new turf"),
            tr("new {how} gets only a starter", how=tr(turf.how)),
            (0.0, 0.0),
            tr(
                "New {how} of {since} gets only a starter {until}, at most {lb} at once; "
                "{name} is not marked as one.",
                how=tr(turf.how),
                since=day(turf.since),
                until=until,
                lb=_lb(NEW_TURF_LB),
                name=what.name,
            ),
            cited,
        )


def _own_rules(feed: ZoneFeed, on: date, what: Spreadable) -> Iterator[FeedRule]:
    """The owner's least slow share and days between feedings."""
    limits, slow_pct = feed.limits, 100 * (1 - what.quick_share)
    if limits.min_slow_pct is not None and slow_pct < limits.min_slow_pct - SLACK_LB:
        yield _stop(
            tr("least slow share"),
            tr("too little of its nitrogen is slow"),
            (limits.min_slow_pct, slow_pct),
            tr(
                "Your rule asks for {min_slow_pct:g}{percent} of the nitrogen slow; this "
                "product has {floor}.",
                min_slow_pct=limits.min_slow_pct,
                percent=PERCENT,
                floor=told(math.floor(slow_pct), 0, "%"),
            ),
            limits.own_source,
        )
    last = feed.last_before(on)
    if limits.min_days is not None and last is not None and (on - last).days < limits.min_days:
        yield _stop(
            tr("days between feedings"),
            tr("it is too soon after the last feeding"),
            (limits.min_days, (on - last).days),
            tr(
                "Your rule asks for {days} between feedings; the last was {days_2} before, on "
                "{last}.",
                days=counted(limits.min_days, "day"),
                days_2=counted((on - last).days, "day"),
                last=day(last),
            ),
            limits.own_source,
        )


def _phosphate_rules(feed: ZoneFeed, on: date, what: Spreadable) -> Iterator[FeedRule]:
    """That phosphate waits for a soil test that asks for it."""
    if what.p2o5_pct < LEAST_N_PCT:
        return
    found = feed.ground.phosphate_on(on, starter=what.starter)
    if not found.allowed:
        yield _stop(
            "phosphate",
            tr("the rule on phosphate lets none go down"),
            (0.0, what.p2o5_pct),
            tr(
                "{name} holds {p2o5_pct} phosphate. {words}",
                name=what.name,
                p2o5_pct=told(what.p2o5_pct, 1, "%"),
                words=found.words,
            ),
            found.source,
        )


def _blackouts(feed: ZoneFeed, on: date) -> Iterator[FeedRule]:
    """The owner's spans in which nothing may be spread, with nitrogen or without."""
    for blackout in feed.limits.blackouts:
        if within(blackout, on):
            yield _stop(
                "blackout",
                tr("your rule allows no feeding then"),
                (0.0, 0.0),
                tr(
                    "Your rule allows no feeding from {span_words}.",
                    span_words=span_words(blackout),
                ),
                feed.limits.own_source,
            )


def _stop(
    rule: str, short: str, figures: tuple[float, float], sentence: str, source: str
) -> FeedRule:
    """A rule that forbids the day; `figures` are its limit and what stands against it."""
    limit, shown = figures
    return FeedRule(
        rule=rule,
        limit=limit,
        shown=shown,
        source=source,
        tells=sentence,
        short=short,
        stops=True,
    )


def _month_starts(on: date, last: date) -> Iterator[date]:
    year, month = on.year, on.month
    while True:
        year, month = (year, month + 1) if month < 12 else (year + 1, 1)
        first = date(year, month, 1)
        if first > last:
            return
        yield first


def _lb(value: float) -> str:
    return rate_of_n(value)


def _quick(value: float) -> str:
    if is_metric():
        return tr("{bare} g/m² quick N", bare=bare(value, 2, RATE_UNIT))
    return tr("{value} lb quick N per 1,000 sq ft", value=told(value))


def _floor_told(temperature_f: float) -> str:
    """A temperature below a limit, rounded down so that it never reads as the limit."""
    degrees = math.floor(shown(temperature_f, "°F"))
    return f"{told(degrees, 0)} {unit_shown('°F')}"
