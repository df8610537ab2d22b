"""How each figure of the evidence came about: trend, error, smallest change, half inch, season."""

import math
from dataclasses import replace
from datetime import date
from functools import partial

from lawnbook.agronomy.plug_error import PlugSpread
from lawnbook.agronomy.spots_trend import Fit, MeanTrend
from lawnbook.plan.evidence_figures import WANTED_CHANGE_IN, EvidenceFigures, Scatter
from lawnbook.plan.evidence_words import METHODS
from lawnbook.plan.filled_in import (
    by_function,
    counted_in,
    numbered,
    put_in,
    reckons,
    together,
)
from lawnbook.plan.limit_words import half_inch_first
from lawnbook.plan.plug_anew import (
    half_inch_anew,
    more_anew,
    season_anew,
    slope_anew,
    width_anew,
)
from lawnbook.plan.plug_model import Interval
from lawnbook.plan.plug_series import ASSUMED_RESOLUTION_IN, Compared, SpotDays
from lawnbook.plan.working_model import DATE, Input, Working
from lawnbook.plan.workings import PERCENT, counted, default, given, sources, told
from lawnbook.reading import tr
from lawnbook.yard.amounts import between
from lawnbook.yard.numbers import day

_METHOD_SOURCES = {
    "ranks": ("theil-sen", "kendall"),
    "permutation": ("theil-sen", "regional-kendall", "student-t"),
    "spots": ("paule-mandel", "hartung-knapp", "student-t"),
}
MOST_INPUTS = 40
"""A working lists so many plugs, and counts the rest."""


def change_working(spot: SpotDays, *, pressed: bool) -> Working | None:
    """Latest less first thatch of a spot; None under two days."""
    if len(spot.days) < 2:
        return None
    first, last = spot.days[0].value_in, spot.days[-1].value_in
    ends = replace(spot, days=(spot.days[0], spot.days[-1]))
    inputs = plug_inputs(ends, pressed=pressed)
    formula = "{d1} − {d0}"
    return Working(
        "change_in",
        tr("Change in thatch"),
        told(last - first, 2, "in"),
        tr("latest − first"),
        put_in(formula, inputs),
        inputs,
        sources("thatch-half-inch"),
        reckons(formula, "in"),
    )


def slope_working(figures: EvidenceFigures, trend: MeanTrend) -> Working:
    """The trend: of the plugs of one spot, or of the slopes of several."""
    compared = figures.compared
    interval = f", 95{PERCENT}: {_from_to(trend.ci95)}" if trend.ci95 else ""
    if len(compared.spots) == 1:
        readings = compared.spots[0].days
        pairs = len(readings) * (len(readings) - 1) // 2
        filled = tr("median of {pairs} slopes", pairs=pairs)
        shown = replace(compared.spots[0], days=readings[:MOST_INPUTS])
        listed = plug_inputs(shown, pressed=compared.pressed)
        inputs = _shortened(listed, len(readings))
    else:
        filled = tr(
            "{plugs} of {spots}",
            plugs=counted(trend.plugs, "plug"),
            spots=counted(trend.spots, "spot"),
        )
        inputs = _spots_inputs(compared, trend)
    return Working(
        "slope_in_per_year",
        tr("Trend of thatch"),
        f"{told(trend.slope, 2, 'in a year')}{interval}",
        METHODS[trend.method],
        filled,
        inputs,
        sources(*_METHOD_SOURCES[trend.method]),
        by_function(partial(slope_anew, figures), "in a year"),
    )


def interval_working(figures: EvidenceFigures, trend: MeanTrend, slope: Working) -> Working:
    """How wide the trend's interval is, and what would make it wider; `slope` is the trend's."""
    low, high = trend.ci95 or (trend.slope, trend.slope)
    ends = (
        numbered(given("", "", ""), "high", high, "in a year"),
        numbered(given("", "", ""), "low", low, "in a year"),
    )
    return Working(
        "slope_ci95",
        tr("Width of the trend's 95{percent} interval", percent=PERCENT),
        told(high - low, 2, "in a year"),
        tr("upper − lower end: {method}", method=METHODS[trend.method]),
        put_in("{high} − {low}", ends),
        slope.inputs,
        sources(*_METHOD_SOURCES[trend.method]),
        by_function(partial(width_anew, figures), "in a year"),
    )


def figure_workings(compared: Compared, figures: EvidenceFigures) -> tuple[Working, ...]:
    """The workings of error, smallest change and plugs to add, as far as there are such figures."""
    listed = []
    spread, scatter = figures.spread, figures.scatter
    if spread is not None:
        listed.append(_error(compared, spread, assumed=figures.assumed_ruler))
    if scatter is not None and figures.detectable_in is not None:
        listed.append(_detectable(scatter, figures.detectable_in, figures.plugs_a_date))
        if figures.plugs_for_tenth is not None:
            listed.append(_more(scatter, figures.plugs_for_tenth, figures.plugs_a_date))
    return tuple(listed)


def half_inch_working(
    days: tuple[date, date], figures: EvidenceFigures, slope: MeanTrend
) -> Working:
    """Between which days the trend meets half an inch."""
    first, last = map(day, days)
    spots = figures.compared.spots[:MOST_INPUTS]
    return Working(
        "half_inch",
        half_inch_first(),
        tr("{first} to {last}", first=first, last=last),
        tr(
            "all days on which the 95{percent} band of the trend line, drawn on, holds {part}",
            percent=PERCENT,
            part=told(0.5, 2, "in"),
        ),
        tr("{first} to {last}", first=first, last=last),
        (
            given(
                tr("Trend"), told(slope.slope, 2, "in a year"), tr("worked out: trend of thatch")
            ),
            *(_spot_input(each, number) for number, each in enumerate(spots)),
        ),
        sources("fieller", "thatch-half-inch"),
        replace(
            by_function(partial(half_inch_anew, figures), DATE),
            note=tr("Told is the first of these days, all plugs of a spot changed together."),
        ),
    )


def season_working(figures: EvidenceFigures, season: Fit) -> Working:
    """Spring plugs less autumn plugs, each spot's trend taken out."""
    compared = figures.compared
    interval = f", 95{PERCENT}: {_from_to(season.ci95)}" if season.ci95 else ""
    plugs = counted(compared.spot_days, "plug")
    return Working(
        "season_in",
        tr("Spring less autumn"),
        f"{told(season.value, 2, 'in')}{interval}",
        tr("least squares: a line for each spot, and one step between the seasons for all"),
        tr("{plugs} of {spots}", plugs=plugs, spots=counted(len(compared.spots), "spot")),
        tuple(
            _spot_input(each, number) for number, each in enumerate(compared.spots[:MOST_INPUTS])
        ),
        sources("least-squares", "student-t"),
        by_function(partial(season_anew, figures), "in"),
    )


def difference_working(
    figure: str, label: str, parts: tuple[str, float, str, float], ci95: Interval | None
) -> Working:
    """One slope less another: (name, slope, name of what is taken off, its slope)."""
    name, value, less, taken = parts
    interval = f", 95{PERCENT}: {_from_to(ci95)}" if ci95 else ""
    formula = "{value} − {taken}"
    inputs = (
        _slope_input("value", name, value),
        _slope_input("taken", less, taken),
    )
    return Working(
        figure,
        label,
        f"{told(value - taken, 2, 'in a year')}{interval}",
        f"{name} − {less}",
        put_in(formula, inputs),
        inputs,
        sources("least-squares", "mover"),
        reckons(formula, "in a year"),
    )


def _slope_input(symbol: str, name: str, slope: float) -> Input:
    told_of = given(
        name.capitalize(), told(slope, 2, "in a year"), tr("worked out from those plugs")
    )
    return numbered(told_of, symbol, slope, "in a year")


def _error(compared: Compared, spread: PlugSpread, *, assumed: bool) -> Working:
    """The error of one plug with the usual number of readings."""
    plugs = "{plugs:4}² + " if spread.plugs_in is not None else ""
    formula = f"√({plugs}max({{readings:4}}² ÷ {{count:0}}, {{ruler:4}}²))"
    inputs = tuple(_error_inputs(compared, spread, assumed=assumed))
    return Working(
        "plug_in",
        tr("Error of one plug"),
        told(spread.day_in(1, spread.readings), 3, "in"),
        tr("√(between plugs² + max(between readings² ÷ readings, rounding²))")
        if plugs
        else tr("√(max(between readings² ÷ readings, rounding²))"),
        put_in(formula, inputs),
        inputs,
        sources("one-way-anova", "rounding"),
        reckons(formula, "in", 3),
    )


def _error_inputs(compared: Compared, spread: PlugSpread, *, assumed: bool) -> list[Input]:
    plugs = counted(len(compared.cores), "plug")
    rounding = told(spread.ruler_in, 3, "in")
    step = tr("the finest mark of the ruler ÷ √12")
    within = given(
        tr("Between readings"), told(spread.readings_in, 3, "in"), tr("within {plugs}", plugs=plugs)
    )
    count = given(
        tr("Readings a plug"), told(spread.readings, 0), tr("the usual number of these plugs")
    )
    finest = told(ASSUMED_RESOLUTION_IN, 4, "in")
    by_ruler = (
        default(
            tr("Rounding"),
            rounding,
            tr("{step}, {finest} where not told", step=step, finest=finest),
        )
        if assumed
        else given(tr("Rounding"), rounding, step)
    )
    inputs = [
        numbered(within, "readings", spread.readings_in, "in"),
        counted_in(count, "count", float(spread.readings)),
        numbered(by_ruler, "ruler", spread.ruler_in, "in"),
    ]
    if spread.plugs_in is not None:
        more = counted(spread.replicates, "further plug")
        value = told(spread.plugs_in, 3, "in")
        apart = given(tr("Between plugs"), value, tr("{more} of the same spot and day", more=more))
        return [numbered(apart, "plugs", spread.plugs_in, "in"), *inputs]
    unknown = tr("not known: no two plugs of one spot and day")
    return [default(tr("Between plugs"), told(0.0, 3, "in"), unknown), *inputs]


def _detectable(scatter: Scatter, detectable_in: float, plugs: int) -> Working:
    one = scatter.sd_in * math.sqrt(2 / plugs)
    factor = detectable_in / one if one else 0.0
    formula = "{factor:3} × {scatter:4} × √(2 ÷ {plugs:0})"
    inputs = (
        numbered(_factor_input(factor, scatter), "factor", factor),
        _scatter_input(scatter),
        _plugs_input(plugs),
    )
    return Working(
        "detectable_in",
        tr("Smallest change between two dates"),
        told(detectable_in, 2, "in"),
        tr("factor × scatter of one plug × √(2 ÷ plugs a date)"),
        put_in(formula, inputs),
        inputs,
        sources("noncentral-t"),
        reckons(formula, "in"),
    )


def _plugs_input(plugs: int) -> Input:
    told_of = given(tr("Plugs a date"), told(plugs, 0), tr("the usual number of a round"))
    return counted_in(told_of, "plugs", float(plugs))


def _more(scatter: Scatter, needed: int, plugs: int) -> Working:
    tenth = told(WANTED_CHANGE_IN, 1, "in")
    return Working(
        "more_for_tenth",
        tr("Plugs to add for {tenth}", tenth=tenth),
        told(max(0, needed - plugs), 0),
        tr(
            "fewest plugs a date whose smallest change is {tenth} − plugs a date so far, "
            "at least 0",
            tenth=tenth,
        ),
        tr("max(0, {needed} − {plugs})", needed=needed, plugs=plugs),
        (
            given(
                tr("Fewest plugs"),
                told(needed, 0),
                tr("2 × (factor × scatter ÷ {tenth})², rounded up", tenth=tenth),
            ),
            _scatter_input(scatter),
            _plugs_input(plugs),
        ),
        sources("noncentral-t"),
        replace(by_function(partial(more_anew, scatter.freedom), "", 0, step="up"), least=0),
    )


def _factor_input(factor: float, scatter: Scatter) -> Input:
    return given(
        tr("Factor"),
        told(factor),
        tr(
            "power 80{percent}, level 5{percent}, {degrees} of freedom",
            percent=PERCENT,
            degrees=counted(scatter.freedom, "degree"),
        ),
    )


def _scatter_input(scatter: Scatter) -> Input:
    origin = (
        tr("about the spots' lines") if scatter.is_residual else tr("plugs of one spot and day")
    )
    told_of = given(tr("Scatter of one plug"), told(scatter.sd_in, 3, "in"), origin)
    return numbered(told_of, "scatter", scatter.sd_in, "in")


def plug_inputs(spot: SpotDays, *, pressed: bool) -> tuple[Input, ...]:
    """The plugs of a spot by their days, each named by its record: d0, d1 and so on."""
    return tuple(
        numbered(
            given(
                day(each.date),
                told(each.value_in, 2, "in"),
                tr(
                    "plug of {date} at {name}, mean of its readings, pressed"
                    if pressed
                    else "plug of {date} at {name}, mean of its readings, unpressed",
                    date=day(each.date),
                    name=spot.spot.name,
                ),
            ),
            f"d{number}",
            each.value_in,
            "in",
        )
        for number, each in enumerate(spot.days)
    )


def _spot_input(each: SpotDays, number: int) -> Input:
    first, last, name = each.days[0], each.days[-1], each.spot.name
    if first is last:
        thatch, origin = told(first.value_in, 2, "in"), tr("plug of {date}", date=day(first.date))
    else:
        thatch = between(first.value_in, last.value_in, 2, "in")
        origin = tr(
            "plugs of {count} dates, {first} to {last}",
            count=len(each.days),
            first=day(first.date),
            last=day(last.date),
        )
    return together(given(name, thatch, origin), f"s{number}")


def _spots_inputs(compared: Compared, trend: MeanTrend) -> tuple[Input, ...]:
    """The spots of a mean trend, and how far their slopes lie apart."""
    listed = enumerate(compared.spots[:MOST_INPUTS])
    inputs = tuple(_spot_input(each, number) for number, each in listed)
    count = len(compared.spots)
    if trend.between_sd is not None:
        apart = told(trend.between_sd, 3, "in a year")
        inputs += (given(tr("Spots' slopes differ by"), apart, tr("beyond their plugs' scatter")),)
        count += 1
    return _shortened(inputs, count)


def _shortened(inputs: tuple[Input, ...], count: int) -> tuple[Input, ...]:
    """The first of so many inputs, the others counted."""
    if count <= MOST_INPUTS:
        return inputs
    return (
        *inputs[:MOST_INPUTS],
        given(tr("And"), tr("{count} more", count=count - MOST_INPUTS), tr("not listed")),
    )


def _from_to(interval: Interval) -> str:
    return tr("{low} to {high}", low=told(interval[0]), high=told(interval[1]))
