"""How what the picture of the year shows came about: its months, its spans of days and its marks.

Made for one month, span or mark, when it is asked for.
"""

from collections.abc import Iterator, Mapping
from datetime import date
from functools import partial

import numpy as np

from lawnbook.agronomy.care_windows import growth_of_days
from lawnbook.agronomy.turf import GROWTH_OPTIMUM_F, GROWTH_SPREAD_F
from lawnbook.plan.care_windows import windows_between
from lawnbook.plan.filled_in import by_function, counted_in, numbered, put_in, reckons
from lawnbook.plan.growth_days import Months, usual_tmean_f, year_places
from lawnbook.plan.model import Plan
from lawnbook.plan.record_workings import of_record
from lawnbook.plan.root_days import etc_factors, net_depth_in
from lawnbook.plan.season import month_in_full
from lawnbook.plan.season_year import irrigated
from lawnbook.plan.season_year_marks import ROW_OF_TASK
from lawnbook.plan.season_year_model import SeasonMark, SeasonMonth, SeasonSpan, SeasonYear
from lawnbook.plan.spreading_plan import spreading_plan
from lawnbook.plan.warm_days import warm_days
from lawnbook.plan.working_model import DAY, Input, Working
from lawnbook.plan.workings import OWN, given, owned, sources, told
from lawnbook.plan.zone_facts import Setting, setting_of
from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.numbers import day
from lawnbook.yard.record_base import Grass

MOST_RECORDS = 8
"""The workings of so many records of one mark are told."""


def month_workings(
    notebook: Notebook, plan: Plan, year: SeasonYear, month: SeasonMonth
) -> tuple[Working, ...]:
    """Growth of each grass, need of water, and what was watered, in one month of the year."""
    setting = setting_of(as_of(notebook, plan.on), plan.on)
    return tuple(_of_month(setting, year, month))


def span_workings(notebook: Notebook, plan: Plan, span: SeasonSpan) -> tuple[Working, ...]:
    """How a span of days came about: by growth, or as the owner entered it."""
    known = as_of(notebook, plan.on)
    if span.kind == "window":
        setting = setting_of(known, plan.on)
        windows = windows_between(setting, span.starts, span.ends)
        return next(
            (w.workings for w in windows if w.kind == span.name and w.why in span.words), ()
        )
    of_season = span.kind == "season"
    days = tr("{starts} to {ends}", starts=day(span.starts), ends=day(span.ends))
    entered = tr("entered under Yard") if of_season else tr("entered under Feed")
    return (
        Working(
            "irrigation_season" if of_season else "no_feed",
            tr("Irrigation season") if of_season else tr("Closed to feeding"),
            days,
            tr("as entered, cut to this year"),
            "",
            (given(tr("Days of the year"), days, entered),),
            OWN if of_season else owned(known.n_rules.name),
        ),
    )


def mark_workings(notebook: Notebook, plan: Plan, mark: SeasonMark) -> tuple[Working, ...]:
    """The workings of the records that a mark stands for, or of what is planned for its day."""
    if not mark.planned:
        return tuple(
            each
            for table, record_id in mark.records[:MOST_RECORDS]
            for each in of_record(notebook, plan.on, table, record_id)
        )
    found = [
        each
        for task in plan.tasks
        if task.date == mark.date and ROW_OF_TASK.get(task.kind) == mark.row
        for each in task.workings
    ]
    if mark.row == "feed":
        for spread in spreading_plan(notebook, plan.on):
            if spread.date == mark.date:
                found += spread.workings
    return tuple(dict.fromkeys(found))


def _of_month(setting: Setting, year: SeasonYear, month: SeasonMonth) -> Iterator[Working]:
    month_f = warm_days(setting.notebook).month_f
    for curve, growth in zip(year.growth, month.growth, strict=True):
        if growth is not None:
            grass: Grass = "warm" if curve.grass == "warm" else "cool"
            yield _growth(month_f, grass, month, growth)
    if month.need_in_per_day is not None:
        yield from _need(setting, month, month.need_in_per_day)
    if month.watered_in_per_day:
        yield _watered(setting, month, month.watered_in_per_day)


def _growth(month_f: Months, grass: Grass, month: SeasonMonth, growth: float) -> Working:
    """The mean of the days' growth potential, between the middles of the months."""
    of_grass = tr("{grass}-season grass", grass=tr(grass))
    best, width = GROWTH_OPTIMUM_F[grass], GROWTH_SPREAD_F[grass]
    around = [(month.starts.month + step - 1) % 12 + 1 for step in (-1, 0, 1)]
    means = tuple(
        numbered(
            given(
                tr("Mean of {month}", month=month_in_full(each)),
                told(month_f[each - 1] or 0.0, 1, "°F"),
                tr("temperatures of this notebook"),
            ),
            f"m{each}",
            month_f[each - 1] or 0.0,
            "°F",
        )
        for each in around
        if month_f[each - 1] is not None
    )
    days = (month.ends - month.starts).days + 1
    return Working(
        "growth_of_month",
        tr("Growth in {month}", month=month_in_full(month.starts.month)),
        told(100 * growth, 0, "%"),
        tr("mean of its days of exp(−½ × ((mean of the day − best) ÷ width)²)"),
        tr("over {days} days, each between the means of the months beside it", days=days),
        (
            *means,
            numbered(given(tr("Best"), plainly(best, "°F", 4), of_grass), "best", best, "°F"),
            # A width is a difference of temperatures: told as it is.
            numbered(given(tr("Width"), f"{width:g} °F", of_grass), "width", width),
        ),
        sources("growth-potential"),
        by_function(partial(growth_anew, month_f, grass, month), "%", 0),
    )


def growth_anew(
    month_f: Months, grass: Grass, month: SeasonMonth, numbers: Mapping[str, float]
) -> float:
    """Growth of a month, percent, with other means of months, optimum and width."""
    means = tuple(numbers.get(f"m{n}", known) for n, known in enumerate(month_f, start=1))
    by_day = growth_of_days(usual_tmean_f(means), grass, numbers["best"], numbers["width"])
    days = (month.ends - month.starts).days + 1
    return 100 * float(np.nanmean(by_day[year_places(month.starts, days)]))


def _need(setting: Setting, month: SeasonMonth, need: float) -> Iterator[Working]:
    """The month's ETo × the zones' Kc × microclimate, by their area."""
    weather, zones = setting.weather.month(month.starts.month), irrigated(setting)
    eto = weather.eto_in_per_day
    if eto is None or weather.eto_input is None or not zones:
        return
    area = sum(facts.area_sqft for _, facts in zones)
    place = month.starts.month - 1
    factor = sum(f.area_sqft * etc_factors(f)[place] for _, f in zones) / area
    shown = given(
        tr("Kc × microclimate"), told(factor), tr("mean of the irrigated zones by their area")
    )
    formula = "{eto} × {factor}"
    inputs = (
        numbered(weather.eto_input, "eto", eto, "in/day"),
        numbered(shown, "factor", float(factor)),
    )
    yield Working(
        "need_of_month",
        tr("Water need in {month}", month=month_in_full(month.starts.month)),
        told(need, 2, "in a day"),
        "ETo × Kc × microclimate",
        put_in(formula, inputs),
        inputs,
        sources("uc-kc", "wucols"),
        reckons(formula, "in a day"),
    )


def _watered(setting: Setting, month: SeasonMonth, watered: float) -> Working:
    """What waterings on record put down, net, by the zones' area and the days that have come."""
    zones, last = irrigated(setting), min(month.ends, setting.on)
    area = sum(facts.area_sqft for _, facts in zones)
    days = (last - month.starts).days + 1
    parts: list[Input] = []
    for number, (zone, facts) in enumerate(zones):
        net = sum(
            net_depth_in(facts, each) or 0.0
            for each in setting.waterings.get(zone.id, ())
            if month.starts <= each.date <= last
        )
        if net:
            share = told(100 * facts.area_sqft / area, 0, "%")
            origin = tr("waterings recorded, net; {share} of the area", share=share)
            parts.append(
                numbered(given(zone.name, told(net, 2, "in"), origin), f"z{number}", net, "in")
            )
    weighed = " + ".join(
        f"{{z{number}}} × {facts.area_sqft / area!r}"
        for number, (_, facts) in enumerate(zones)
        if any(q.symbol == f"z{number}" for each in parts if (q := each.quantity))
    )
    come = counted_in(given(tr("Days"), str(days), _days_told(month, last)), "days", days, DAY)
    return Working(
        "watered_of_month",
        tr("Watered in {month}, net", month=month_in_full(month.starts.month)),
        told(watered, 2, "in a day"),
        tr("net depth of each zone × its share of the area, ÷ days"),
        "",
        (*parts, come),
        sources("multiplier"),
        reckons(f"({weighed}) ÷ {{days}}", "in a day"),
    )


def _days_told(month: SeasonMonth, last: date) -> str:
    return tr("{starts} to {ends}", starts=day(month.starts), ends=day(last))
