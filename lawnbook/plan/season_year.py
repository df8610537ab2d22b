"""The year at one look: growth, need of water, spans of days, and all that was done or is to come.

Growth and need of water are those of the usual year, so that any year can be laid beside another;
what was watered is what the notebook holds. Each year is that of the nitrogen budgets: July to
June south of the equator.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from itertools import groupby

import numpy as np

from lawnbook.agronomy.nitrogen import NitrogenYear, n_year
from lawnbook.plan.care_windows import windows_between
from lawnbook.plan.due import names_told
from lawnbook.plan.growth import growth_by_month, why_no_growth
from lawnbook.plan.growth_days import growth_on_days
from lawnbook.plan.model import Plan
from lawnbook.plan.root_days import etc_factors, eto_by_month, net_depth_in
from lawnbook.plan.season import span_words, within
from lawnbook.plan.season_year_marks import planned_marks, recorded_marks
from lawnbook.plan.season_year_model import (
    GrowthCurve,
    SeasonMonth,
    SeasonSpan,
    SeasonYear,
    SpanKind,
)
from lawnbook.plan.spreading_plan import spreading_plan
from lawnbook.plan.water_model import Array
from lawnbook.plan.workings import counted
from lawnbook.plan.zone_facts import Setting, ZoneFacts, facts_of, setting_of
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.records import Season, Zone

NO_WATER_NEED = tr(
    "How much water the grass needs is not known yet: import daily weather, or "
    "fill in the climate table under Yard."
)
ONE_DAY = timedelta(days=1)

_Watered = tuple[Zone, ZoneFacts]


def season_year(notebook: Notebook, plan: Plan, year: int) -> SeasonYear:
    """The year that is labelled by `year`, as it stands on the day of the plan.

    What is dated later than that day is not shown. Raises OwnerError for a plan beyond any
    notebook.
    """
    known = as_of(notebook, plan.on)
    setting = setting_of(known, plan.on)
    span = year_named(known, year)
    growth = tuple(_growth(known, span))
    zones = irrigated(setting)
    need = _need_by_month(setting, zones)
    spreads = spreading_plan(notebook, plan.on) if span.end >= plan.on else ()
    return SeasonYear(
        year=year,
        label=span.words,
        starts=span.start,
        ends=span.end,
        on=plan.on,
        growth=growth,
        need_in_per_day=_between_months(need, span),
        months=tuple(_months(setting, zones, span, growth, need)),
        spans=tuple(_spans(setting, span)),
        marks=(
            *recorded_marks(known, span.start, span.end),
            *planned_marks(plan, spreads, span.start, span.end),
        ),
        reasons=tuple(_reasons(setting, zones, span, need)),
    )


def year_named(notebook: Notebook, year: int) -> NitrogenYear:
    """The year by the calendar year it begins in; July to June south of the equator."""
    return n_year(date(year, 12, 31), notebook.yard.latitude_deg or 0.0)


def year_of(notebook: Notebook, on: date) -> int:
    """The label of the year that a day lies in."""
    return n_year(on, notebook.yard.latitude_deg or 0.0).label


def _growth(known: Notebook, span: NitrogenYear) -> Iterator[GrowthCurve]:
    for grass in dict.fromkeys(zone.grass for zone in known.zones.values()):
        values = growth_on_days(known, grass, span.start, span.end)
        if any(each is not None for each in values):
            yield GrowthCurve(grass=grass, values=values)


def irrigated(setting: Setting) -> list[_Watered]:
    """The irrigated zones with their facts, in the owner's order."""
    return [
        (zone, facts_of(setting, zone, number))
        for number, zone in enumerate(setting.notebook.zones.values(), start=1)
        if zone.irrigated
    ]


def _need_by_month(setting: Setting, zones: Sequence[_Watered]) -> list[float | None]:
    """Expected use (in/day) of January to December, the mean of the zones by their area."""
    area = sum(facts.area_sqft for _, facts in zones)
    if area <= 0:
        return [None] * 12
    weighed = sum((facts.area_sqft * etc_factors(facts) for _, facts in zones), np.zeros(12))
    need: Array = eto_by_month(setting) * weighed / area
    return [None if np.isnan(each) else float(each) for each in need]


def _between_months(
    by_month: Sequence[float | None], span: NitrogenYear
) -> tuple[float | None, ...]:
    """A value for each day: straight lines between the middles of the months."""
    return tuple(_on_day(by_month, each) for each in _days(span.start, span.end))


def _on_day(by_month: Sequence[float | None], on: date) -> float | None:
    here = by_month[on.month - 1]
    first, last = on.replace(day=1), _month_end(on)
    place = (on - first).days + 0.5
    length = (last - first).days + 1
    other_day = last + ONE_DAY if place > length / 2 else first - ONE_DAY
    other = by_month[other_day.month - 1]
    if here is None or other is None:
        return here
    other_length = _month_end(other_day).day
    share = abs(place - length / 2) / ((length + other_length) / 2)
    return here + (other - here) * share


def _months(
    setting: Setting,
    zones: Sequence[_Watered],
    span: NitrogenYear,
    growth: Sequence[GrowthCurve],
    need: Sequence[float | None],
) -> Iterator[SeasonMonth]:
    first = span.start
    while first <= span.end:
        last = _month_end(first)
        places = slice((first - span.start).days, (last - span.start).days + 1)
        yield SeasonMonth(
            starts=first,
            ends=last,
            growth=tuple(_mean(curve.values[places]) for curve in growth),
            need_in_per_day=need[first.month - 1],
            watered_in_per_day=_watered(setting, zones, first, min(last, setting.on)),
        )
        first = last + ONE_DAY


def _watered(setting: Setting, zones: Sequence[_Watered], first: date, last: date) -> float | None:
    """Net inches a day that waterings on record put down, the mean of the zones by their area."""
    area = sum(facts.area_sqft for _, facts in zones)
    if last < first or area <= 0:
        return None
    total = sum(
        facts.area_sqft * (net_depth_in(facts, each) or 0.0)
        for zone, facts in zones
        for each in setting.waterings.get(zone.id, ())
        if first <= each.date <= last
    )
    return total / area / ((last - first).days + 1)


def _spans(setting: Setting, span: NitrogenYear) -> Iterator[SeasonSpan]:
    if setting.season is not None:
        told = tr("Irrigation season, {span_words}", span_words=span_words(setting.season))
        yield from _spans_of("season", tr("irrigation season"), setting.season, told, span)
    for window in windows_between(setting, span.start, span.end):
        kind = tr(window.kind)
        name = f"{kind}: {names_told(window.zones)}" if window.zones else kind
        yield SeasonSpan(
            kind="window",
            name=window.kind,
            starts=max(window.starts, span.start),
            ends=min(window.ends, span.end),
            words=f"{name[:1].upper()}{name[1:]}. {window.why}",
        )
    for blackout in setting.notebook.n_rules.blackouts:
        told = tr(
            "Nothing is spread, {span_words}, by the rule entered under Feed",
            span_words=span_words(blackout),
        )
        yield from _spans_of("blackout", tr("no spreading"), blackout, told, span)


def _spans_of(
    kind: SpanKind, name: str, season: Season, words: str, span: NitrogenYear
) -> Iterator[SeasonSpan]:
    """The runs of days of a year that lie in a season, which may go over New Year."""
    days = _days(span.start, span.end)
    for inside, run in groupby(days, key=lambda each: within(season, each)):
        if inside:
            held = list(run)
            yield SeasonSpan(kind=kind, name=name, starts=held[0], ends=held[-1], words=words)


def _reasons(
    setting: Setting,
    zones: Sequence[_Watered],
    span: NitrogenYear,
    need: Sequence[float | None],
) -> Iterator[str]:
    for grass in dict.fromkeys(zone.grass for zone in setting.notebook.zones.values()):
        why = why_no_growth(growth_by_month(setting.notebook, grass))
        if why:
            yield why
            break
    if zones and all(each is None for each in need):
        yield NO_WATER_NEED
    uncounted = sum(
        net_depth_in(facts, each) is None
        for zone, facts in zones
        for each in setting.waterings.get(zone.id, ())
        if span.start <= each.date <= span.end
    )
    if uncounted:
        yield (
            tr(
                "{waterings} noted in minutes cannot be counted as depth: tell how fast those "
                "zones are watered on the Water page.",
                waterings=counted(uncounted, "watering"),
            )
        )


def _mean(values: Iterable[float | None]) -> float | None:
    known = [each for each in values if each is not None]
    return sum(known) / len(known) if known else None


def _month_end(on: date) -> date:
    return (on.replace(day=1) + timedelta(days=31)).replace(day=1) - ONE_DAY


def _days(starts: date, ends: date) -> list[date]:
    return [starts + timedelta(days=place) for place in range((ends - starts).days + 1)]
