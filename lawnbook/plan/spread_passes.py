"""When a wanted amount passes: the first day for all of it, and the passes that would bring it."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

from lawnbook.frozen import dataclass
from lawnbook.plan.feed_ledger import Application, ZoneFeed
from lawnbook.plan.feed_model import PassZone, SpreadPass
from lawnbook.plan.feed_rule import LEAST_ROOM_LB, Spreadable
from lawnbook.plan.feed_rules import LOOK_AHEAD_DAYS, candidate_days, each_rule_on, passes, room_lb
from lawnbook.plan.nitrogen import PASS_DAYS, WORTH_FEEDING_LB
from lawnbook.plan.workings import counted
from lawnbook.reading import tr


@dataclass(frozen=True, slots=True)
class Wanted:
    """Pounds of a product that are wanted on one zone; `amount` as its rules count them."""

    feed: ZoneFeed
    pounds: float
    amount: float


def first_day(wanted: Sequence[Wanted], what: Spreadable, on: date) -> date | None:
    """The first day within two years on which all of it passes on every zone."""
    return next(
        (
            each
            for each in _candidates((want.feed for want in wanted), on)
            if all(passes(want.feed, each, what, want.amount) for want in wanted)
        ),
        None,
    )


def split_of(wanted: Sequence[Wanted], what: Spreadable, on: date) -> tuple[SpreadPass, ...]:
    """The passes that bring the wanted amount from a day on, each as much as passes by then.

    Each one counts those before it as put down. Empty where all passes at once on the day, or on
    a single later one, where two years do not hold it, and for a product without nitrogen.
    """
    if not what.carries_nitrogen or all(passes(w.feed, on, what, w.amount) for w in wanted):
        return ()
    open_ = {w.feed.zone.id: w for w in wanted if w.amount > 0}
    found: list[SpreadPass] = []
    start, last = on, on + timedelta(days=LOOK_AHEAD_DAYS)
    while open_:
        upcoming = _next_pass(open_, what, start, last)
        if upcoming is None:
            return ()
        that, amounts = upcoming
        found.append(_pass_of(open_, amounts, that))
        open_ = _still_open(open_, amounts, what, that)
        start = that + timedelta(days=_gap_days(wanted))
    return tuple(found) if len(found) > 1 else ()


def gap_words(wanted: Sequence[Wanted], split: Sequence[SpreadPass]) -> Iterator[str]:
    """How far apart the passes of a split are at the least, and whose rule that is."""
    if split:
        limits, days = wanted[0].feed.limits, counted(_gap_days(wanted), "day")
        whose = tr("common practice") if limits.min_days is None else limits.own_source
        yield tr("The passes are at least {days} apart ({whose}).", days=days, whose=whose)


def _gap_days(wanted: Sequence[Wanted]) -> int:
    own = wanted[0].feed.limits.min_days
    return PASS_DAYS if own is None else max(1, own)


def _candidates(feeds: Iterable[ZoneFeed], on: date) -> list[date]:
    return sorted({each for feed in feeds for each in candidate_days(feed, on)})


def _next_pass(
    open_: Mapping[str, Wanted], what: Spreadable, start: date, last: date
) -> tuple[date, dict[str, float]] | None:
    """The first day from `start` with room worth a pass, and how much of each zone's it takes."""
    for that in _candidates((want.feed for want in open_.values()), start):
        if that > last:
            break
        amounts = {
            zone_id: part
            for zone_id, want in open_.items()
            if (part := _part(want, what, that)) >= min(want.amount, WORTH_FEEDING_LB)
        }
        if amounts:
            return that, amounts
    return None


def _part(want: Wanted, what: Spreadable, that: date) -> float:
    """As much of what is wanted as passes on a day; none late in a month that is fed early.

    Where next to nothing would be left over, as much is left as is worth a pass of its own.
    """
    if want.feed.too_late_in_month(that):
        return 0.0
    part = min(want.amount, room_lb(each_rule_on(want.feed, that, what)))
    crumb = LEAST_ROOM_LB < want.amount - part < WORTH_FEEDING_LB
    return want.amount - WORTH_FEEDING_LB if crumb and part >= 2 * WORTH_FEEDING_LB else part


def _pass_of(open_: Mapping[str, Wanted], amounts: Mapping[str, float], that: date) -> SpreadPass:
    zones = tuple(
        PassZone(
            zone=open_[zone_id].feed.zone.name,
            zone_id=zone_id,
            pounds=open_[zone_id].pounds * part / open_[zone_id].amount,
            n_lb_per_1000=part,
        )
        for zone_id, part in amounts.items()
    )
    return SpreadPass(date=that, zones=zones, pounds=sum(zone.pounds for zone in zones))


def _still_open(
    open_: Mapping[str, Wanted], amounts: Mapping[str, float], what: Spreadable, that: date
) -> dict[str, Wanted]:
    """What is wanted still when a pass has been put down."""
    rest = {}
    for zone_id, want in open_.items():
        part = amounts.get(zone_id, 0.0)
        left = want.amount - part
        if left > LEAST_ROOM_LB:
            rest[zone_id] = Wanted(
                feed=fed_with(want.feed, that, part, what),
                pounds=want.pounds * left / want.amount,
                amount=left,
            )
    return rest


def fed_with(feed: ZoneFeed, that: date, n_lb: float, what: Spreadable) -> ZoneFeed:
    """The zone's feed with a pass put down on a day, on top of what was put down that day."""
    if n_lb <= 0:
        return feed
    today = feed.on_day(that)
    whole = Application(
        that,
        today.n_lb + n_lb,
        today.quick_lb + n_lb * what.quick_share,
        today.p2o5_lb,
        today.k2o_lb,
        today.parts,
    )
    others = [each for each in feed.applications if each.date != that]
    listed = sorted([*others, whole], key=lambda each: each.date)
    return replace(feed, applications=tuple(listed))
