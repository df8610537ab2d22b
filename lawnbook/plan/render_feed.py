"""The nitrogen of a plan as text: the table of zones, what stands behind it, and the whole lawn."""

from collections.abc import Iterator, Sequence
from datetime import date

from lawnbook.plan.feed_budget import budget_told
from lawnbook.plan.feed_model import LawnNitrogen
from lawnbook.plan.model import Plan, ZoneNitrogen
from lawnbook.plan.nitrogen import WORTH_FEEDING_LB
from lawnbook.plan.season import month_name
from lawnbook.plan.text_table import NONE, WIDTH, Column, column, paragraph, table, told_once
from lawnbook.plan.workings import LEAST_TOLD_LB, told, told_most
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import RATE_UNIT, bare, unit_shown
from lawnbook.yard.numbers import day


def nitrogen_lines(plan: Plan) -> Iterator[str]:
    """The table of zones, what stands behind it zone by zone, and all zones together."""
    zones = plan.nitrogen
    if not zones:
        return
    waits = {zone.zone_id for zone in zones if _waits(zone, plan.on)}
    columns = [
        column(tr("zone"), zones, lambda z: f"{z.number} {z.zone}", words=True),
        column(tr("year"), zones, lambda z: z.year_label),
        column(tr("fed"), zones, lambda z: _rate(z.applied_year)),
        column(tr("budget"), zones, lambda z: _rate(z.budget_year)),
        column(tr("unspent"), zones, lambda z: _rate(z.left_this_year)),
        column(
            tr("in month"), zones, lambda z: _rate(z.left_this_month) + "*" * (z.zone_id in waits)
        ),
        column(tr("30 days"), zones, lambda z: _rate(z.rolling_30_days)),
        column(tr("next"), zones, _next_day),
        column(unit_shown("lb"), zones, _next_pounds),
        column(tr("of"), zones, _next_product, words=True),
    ]
    yield from table(columns, WIDTH)
    if waits:
        yield tr("* not to be put down today: see the notes")
    yield from told_once(
        [
            (z.zone, tr("budget {budget_name}.", budget_name=budget_told(z.budget_name)))
            for z in zones
        ],
        len(zones),
    )
    if plan.lawn_nitrogen is not None:
        yield from paragraph(_lawn(plan.lawn_nitrogen), WIDTH, "- ")
    yield from _behind(zones, plan.on)


def _behind(zones: Sequence[ZoneNitrogen], on: date) -> Iterator[str]:
    """What stands behind the zones' rows, as far as any zone has it; nothing where none has."""
    month = month_name(on.month)
    released = tr("released {month}", month=month)
    usable, clippings = tr("usable {month}", month=month), tr("clippings")
    told_of = [
        (tr("of it water"), [_some(sum(zone.water_by_month)) for zone in zones]),
        ("P2O5", [_some(zone.p2o5_year) for zone in zones]),
        ("K2O", [_some(zone.k2o_year) for zone in zones]),
        (released, [_released(zone, on) for zone in zones]),
        (usable, [_usable(zone, on) for zone in zones]),
        (tr("to come"), [_to_come(zone) for zone in zones]),
        (clippings, [_clippings(zone) for zone in zones]),
    ]
    shown = {head: cells for head, cells in told_of if set(cells) != {NONE}}
    if not shown:
        return
    names = Column(tr("zone"), [f"{zone.number} {zone.zone}" for zone in zones], words=True)
    yield ""
    yield from table([names, *(Column(head, cells) for head, cells in shown.items())], WIDTH)
    if released in shown:
        yield tr("released: becoming available by the month, of what is down; to come: after today")
    if usable in shown:
        yield tr(
            "usable: what growth can use of the year's budget, by the month's mean temperature"
        )
    if clippings in shown:
        yield tr(
            "clippings: what those left on the lawn give back in a year; nothing is subtracted"
        )


def _rate(lb_per_1000: float) -> str:
    return bare(lb_per_1000, 2, RATE_UNIT)


def _some(lb: float) -> str:
    return _rate(lb) if lb >= LEAST_TOLD_LB else NONE


def _released(zone: ZoneNitrogen, on: date) -> str:
    return NONE if zone.released is None else _some(zone.released.by_month[on.month - 1])


def _usable(zone: ZoneNitrogen, on: date) -> str:
    usable = zone.released.usable_by_month if zone.released is not None else None
    return NONE if usable is None else _rate(usable[on.month - 1])


def _to_come(zone: ZoneNitrogen) -> str:
    return NONE if zone.released is None else _some(zone.released.to_come_lb)


def _clippings(zone: ZoneNitrogen) -> str:
    credit = zone.clippings
    if credit is None or credit.high_lb < LEAST_TOLD_LB:
        return NONE
    return f"{_rate(credit.low_lb)}–{_rate(credit.high_lb)}"


def _lawn(lawn: LawnNitrogen) -> str:
    """All zones together, in pounds and for 1,000 sq ft; in kilograms and for a square metre."""
    each = tr("for 1 m², in g,") if is_metric() else tr("for 1,000 sq ft")
    left = told(lawn.left_this_year * lawn.area_sqft / 1000, 1, "lb")
    return tr(
        "{zone}, {area_sqft}: {bare} of {budget_lb} nitrogen in {year_label}, {left} "
        "left; {each} {rate} of {rate_2}, {rate_3} left.",
        zone=tr(lawn.zone),
        area_sqft=told(lawn.area_sqft, 0, "sq ft"),
        bare=bare(lawn.applied_lb, 1, "lb"),
        budget_lb=told(lawn.budget_lb, 1, "lb"),
        year_label=lawn.year_label,
        left=left,
        each=each,
        rate=_rate(lawn.applied_year),
        rate_2=_rate(lawn.budget_year),
        rate_3=_rate(lawn.left_this_year),
    )


def _waits(zone: ZoneNitrogen, on: date) -> bool:
    """Whether the month has a feeding left and the next one comes later, for a reason told."""
    upcoming = zone.next_feeding
    later = upcoming is not None and upcoming.date > on
    return later and zone.left_this_month > WORTH_FEEDING_LB and bool(zone.reason)


def _next_day(zone: ZoneNitrogen) -> str:
    return day(zone.next_feeding.date) if zone.next_feeding is not None else NONE


def _next_pounds(zone: ZoneNitrogen) -> str:
    return told_most(zone.next_feeding.pounds) if zone.next_feeding is not None else NONE


def _next_product(zone: ZoneNitrogen) -> str:
    return zone.next_feeding.product or "nitrogen" if zone.next_feeding is not None else NONE
