"""The water part of a plan as text: each zone's figures, or what comes while none is watered."""

from collections.abc import Iterator, Sequence
from datetime import date

from lawnbook.plan.assumed import usual_rate_in
from lawnbook.plan.model import MonthWater, Plan, ZoneWater
from lawnbook.plan.render_runs import numbered, run_told
from lawnbook.plan.season import month_in_full
from lawnbook.plan.text_table import (
    NONE,
    WIDTH,
    Column,
    column,
    number,
    paragraph,
    table,
)
from lawnbook.plan.water_model import EtoMethod
from lawnbook.reading import tr
from lawnbook.yard.amounts import span_told, unit_shown
from lawnbook.yard.numbers import MONTHS, short_day


def is_resting(plan: Plan) -> bool:
    """Whether no zone is watered on the day, though some are in other months."""
    today = any(zone.interval_days is not None for zone in plan.zones)
    return not today and any(map(any, (zone.interval_days_by_month for zone in plan.zones)))


def water_lines(plan: Plan) -> Iterator[str]:
    """The lines on water of a plan."""
    if not plan.zones:
        yield tr("No zone has been drawn yet.")
    elif is_resting(plan):
        yield from _resting(plan)
    else:
        yield from _water_tables(plan.zones)
    if plan.eto_days:
        methods = ", ".join(f"{each.days} {_method(each.method)}" for each in plan.eto_days)
        yield from paragraph(
            tr("Days of weather by where their ETo is from: {methods}.", methods=methods), WIDTH
        )


def _water_tables(zones: Sequence[ZoneWater]) -> Iterator[str]:
    columns = [
        column(tr("zone"), zones, _marked_name, words=True),
        column(
            unit_shown("in/h"), zones, lambda z: number(z.precipitation_rate_in_per_h, 2, "in/h")
        ),
        column(tr("from"), zones, _rate_source, words=True),
        column(tr("roots"), zones, lambda z: number(z.rooted_soil_in, 1, "in")),
        column(tr("bears"), zones, lambda z: number(z.bearable_depth_in, 2, "in")),
        column(tr("depth"), zones, lambda z: number(z.depth_in, 2, "in")),
        column(tr("every"), zones, lambda z: _days(z.interval_days)),
        column(tr("Run").lower(), zones, run_told),
        column(tr("soak"), zones, lambda z: number(z.soak_minutes or None, 0)),
        column(unit_shown("gal"), zones, lambda z: number(z.gallons, 0, "gal")),
        column(tr("next"), zones, lambda z: _date(z.next_allowed)),
    ]
    yield from table(columns, WIDTH)
    if any(zone.defaults for zone in zones):
        yield tr("* rests on values not yet measured or entered: see the notes")
    yield ""
    columns = [
        column(tr("zone"), zones, numbered, words=True),
        column(tr("use a day"), zones, lambda z: number(z.etc_in_per_day, 3, "in/day")),
        column(tr("limited by"), zones, _limit, words=True),
        column(tr("short a day"), zones, lambda z: number(z.shortfall_in_per_day, 2, "in/day")),
        column(tr("target"), zones, lambda z: number(z.target_depth_in, 2, "in")),
        column(tr("then every"), zones, lambda z: _days(z.target_interval_days)),
        column(tr("roots needed"), zones, lambda z: number(z.roots_needed_in, 1, "in")),
    ]
    yield from table(columns, WIDTH)


def month_lines(zones: Sequence[ZoneWater]) -> Iterator[str]:
    """The days between waterings of each zone, month by month."""
    if not zones:
        return
    columns = [column(tr("zone"), zones, numbered, words=True)]
    for index, name in enumerate(MONTHS):
        cells = [number(zone.interval_days_by_month[index], 0) for zone in zones]
        columns.append(Column(tr(name), cells))
    yield from table(columns, WIDTH)


def _resting(plan: Plan) -> Iterator[str]:
    """That no watering is planned and why, and what the first month with waterings will need."""
    reasons: dict[str, list[str]] = {}
    for zone in plan.zones:
        reasons.setdefault(zone.reason, []).append(zone.zone)
    none = tr("No watering is planned on {on}", on=short_day(plan.on))
    if len(reasons) == 1:
        reason = next(iter(reasons))
        yield from paragraph(f"{none}: {reason[:1].lower()}{reason[1:]}", WIDTH)
    else:
        yield f"{none}."
        for reason, names in reasons.items():
            yield from paragraph(f"{', '.join(names)}: {reason}", WIDTH, "- ")
    first = _first_month(plan)
    months = [zone.months[first - 1] for zone in plan.zones]
    planned = [month for month in months if month.depth_in and month.interval_days]
    if planned:
        yield from paragraph(
            tr(
                "When it starts again: in {month_in_full}, {needs}.",
                month_in_full=month_in_full(first),
                needs=_needs(planned),
            ),
            WIDTH,
        )


def _first_month(plan: Plan) -> int:
    """The month, from that of the day on, in which some zone is watered again.

    The day's own month where its waterings are still to come: where they are over, none follow in
    the next one.
    """
    planned = [any(zone.months[i].interval_days for zone in plan.zones) for i in range(12)]
    now = plan.on.month - 1
    to_come = planned[now] and planned[(now + 1) % 12]
    ahead = ((now + n) % 12 for n in range(0 if to_come else 1, 13))
    return next(i for i in ahead if planned[i]) + 1


def _needs(planned: Sequence[MonthWater]) -> str:
    least, *_, most = sorted(month.depth_in or 0.0 for month in (*planned, planned[-1]))
    days = sorted(month.interval_days or 0 for month in planned)
    every = tr("{span} days", span=_span(str(days[0]), str(days[-1])))
    return tr(
        "{depths}, every {interval}",
        depths=span_told(least, most, 2, "in"),
        interval=tr("day") if days[-1] == 1 else every,
    )


def _span(low: str, high: str) -> str:
    return low if low == high else tr("{low} to {high}", low=low, high=high)


def _marked_name(zone: ZoneWater) -> str:
    # The mark stands before the name, of which a narrow column may cut the end.
    return f"{zone.number}{'*' * bool(zone.defaults)} {zone.zone}"


def _days(value: int | None) -> str:
    return NONE if value is None else f"{value} d"


def _method(method: EtoMethod) -> str:
    return tr("filled with the month's mean") if method == "filled" else method


def _date(value: date | None) -> str:
    return NONE if value is None else short_day(value)


def _rate_told(zone: ZoneWater) -> str:
    return number(zone.precipitation_rate_in_per_h, 2, "in/h")


def _limit(zone: ZoneWater) -> str:
    return NONE if zone.limited_by is None else tr(zone.limited_by)


def _rate_source(zone: ZoneWater) -> str:
    if zone.rate_source is None:
        return NONE
    if usual_rate_in(zone.defaults):
        return tr("assumed")
    return (
        tr("{rate_source}, stale", rate_source=tr(zone.rate_source))
        if zone.rate_stale
        else tr(zone.rate_source)
    )
