"""How each figure of the evidence came about: trend, error, smallest change, half inch, season."""

import math
from collections.abc import Sequence

from lawnbook.agronomy.plug_error import PlugSpread
from lawnbook.agronomy.spots_trend import Fit, MeanTrend
from lawnbook.plan.evidence_figures import WANTED_CHANGE_IN, EvidenceFigures, Scatter
from lawnbook.plan.evidence_words import METHODS
from lawnbook.plan.plug_model import Interval
from lawnbook.plan.plug_series import ASSUMED_RESOLUTION_IN, Compared, SpotDays
from lawnbook.plan.roots import Reading
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import PERCENT, counted, default, given, sources, told, told_exactly
from lawnbook.yard.numbers import day

_METHOD_SOURCES = {
    "ranks": ("theil-sen", "kendall"),
    "permutation": ("theil-sen", "regional-kendall", "student-t"),
    "spots": ("paule-mandel", "hartung-knapp", "student-t"),
}
MOST_INPUTS = 40
"""A working lists so many plugs, and counts the rest."""


def change_working(readings: Sequence[Reading], *, pressed: bool) -> Working | None:
    """Latest less first thatch of a spot; None under two days."""
    if len(readings) < 2:
        return None
    first, last = readings[0].value_in, readings[-1].value_in
    inputs = _plug_inputs((readings[0], readings[-1]), pressed=pressed)
    return Working(
        "change_in",
        "Change in thatch",
        told(last - first, 2, "in"),
        "latest − first",
        f"{told_exactly(last)} − {told_exactly(first)}",
        inputs,
        sources("thatch-half-inch"),
    )


def slope_working(compared: Compared, trend: MeanTrend) -> Working:
    """The trend: of the plugs of one spot, or of the slopes of several."""
    interval = f", 95{PERCENT}: {_from_to(trend.ci95)}" if trend.ci95 else ""
    if len(compared.spots) == 1:
        readings = compared.spots[0].days
        pairs = len(readings) * (len(readings) - 1) // 2
        filled = f"median of {pairs} slopes"
        listed = _plug_inputs(readings[:MOST_INPUTS], pressed=compared.pressed)
        inputs = _shortened(listed, len(readings))
    else:
        filled = f"{counted(trend.plugs, 'plug')} of {counted(trend.spots, 'spot')}"
        inputs = _spots_inputs(compared, trend)
    return Working(
        "slope_in_per_year",
        "Trend of thatch",
        f"{told(trend.slope, 2, 'in a year')}{interval}",
        METHODS[trend.method],
        filled,
        inputs,
        sources(*_METHOD_SOURCES[trend.method]),
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


def half_inch_working(between: tuple[str, str], slope: MeanTrend) -> Working:
    """Between which days the trend meets half an inch."""
    first, last = between
    return Working(
        "half_inch",
        "Half an inch",
        f"{first} to {last}",
        f"all days on which the 95{PERCENT} band of the trend line, drawn on, holds 0.50 in",
        f"{first} to {last}",
        (given("Trend", told(slope.slope, 2, "in a year"), "from these plugs"),),
        sources("fieller", "thatch-half-inch"),
    )


def season_working(compared: Compared, season: Fit) -> Working:
    """Spring plugs less autumn plugs, each spot's trend taken out."""
    interval = f", 95{PERCENT}: {_from_to(season.ci95)}" if season.ci95 else ""
    plugs = counted(compared.spot_days, "plug")
    return Working(
        "season_in",
        "Spring less autumn",
        f"{told(season.value, 2, 'in')}{interval}",
        "least squares: a line for each spot, and one step between the seasons for all",
        f"{plugs} of {counted(len(compared.spots), 'spot')}",
        tuple(map(_spot_input, compared.spots[:MOST_INPUTS])),
        sources("least-squares", "student-t"),
    )


def difference_working(
    figure: str, label: str, parts: tuple[str, float, str, float], ci95: Interval | None
) -> Working:
    """One slope less another: (name, slope, name of what is taken off, its slope)."""
    name, value, less, taken = parts
    interval = f", 95{PERCENT}: {_from_to(ci95)}" if ci95 else ""
    return Working(
        figure,
        label,
        f"{told(value - taken, 2, 'in a year')}{interval}",
        f"{name} − {less}",
        f"{told_exactly(value)} − {_bracketed(taken)}",
        (
            given(name.capitalize(), told(value, 2, "in a year"), "from the plugs"),
            given(less.capitalize(), told(taken, 2, "in a year"), "from the plugs"),
        ),
        sources("least-squares", "mover"),
    )


def _bracketed(value: float) -> str:
    return f"({told_exactly(value)})" if value < 0 else told_exactly(value)


def _error(compared: Compared, spread: PlugSpread, *, assumed: bool) -> Working:
    """The error of one plug with the usual number of readings."""
    readings = told_exactly(spread.readings_in, 4)
    ruler = told_exactly(spread.ruler_in, 4)
    by_readings = f"max({readings}² ÷ {spread.readings}, {ruler}²)"
    plugs = f"{told_exactly(spread.plugs_in, 4)}² + " if spread.plugs_in is not None else ""
    return Working(
        "plug_in",
        "Error of one plug",
        told(spread.day_in(1, spread.readings), 3, "in"),
        f"√({'between plugs² + ' if plugs else ''}max(between readings² ÷ readings, rounding²))",
        f"√({plugs}{by_readings})",
        tuple(_error_inputs(compared, spread, assumed=assumed)),
        sources("one-way-anova", "rounding"),
    )


def _error_inputs(compared: Compared, spread: PlugSpread, *, assumed: bool) -> list[Input]:
    plugs = counted(len(compared.cores), "plug")
    rounding = told(spread.ruler_in, 3, "in")
    step = "the finest mark of the ruler ÷ √12"
    inputs = [
        given("Between readings", told(spread.readings_in, 3, "in"), f"within {plugs}"),
        given("Readings a plug", told(spread.readings, 0), "the usual number"),
        default("Rounding", rounding, f"{step}, {told(ASSUMED_RESOLUTION_IN, 4)} in where not told")
        if assumed
        else given("Rounding", rounding, step),
    ]
    if spread.plugs_in is not None:
        more = counted(spread.replicates, "further plug")
        value = told(spread.plugs_in, 3, "in")
        return [given("Between plugs", value, f"{more} of the same spot and day"), *inputs]
    unknown = "not known: no two plugs of one spot and day"
    return [default("Between plugs", told(0.0, 3, "in"), unknown), *inputs]


def _detectable(scatter: Scatter, detectable_in: float, plugs: int) -> Working:
    one = scatter.sd_in * math.sqrt(2 / plugs)
    factor = detectable_in / one if one else 0.0
    return Working(
        "detectable_in",
        "Smallest change between two dates",
        told(detectable_in, 2, "in"),
        "factor × scatter of one plug × √(2 ÷ plugs a date)",
        f"{told_exactly(factor, 3)} × {told_exactly(scatter.sd_in, 4)} × √(2 ÷ {plugs})",
        (
            _factor_input(factor, scatter),
            _scatter_input(scatter),
            given("Plugs a date", told(plugs, 0), "the usual number of a round"),
        ),
        sources("noncentral-t"),
    )


def _more(scatter: Scatter, needed: int, plugs: int) -> Working:
    tenth = told(WANTED_CHANGE_IN, 1, "in")
    return Working(
        "more_for_tenth",
        f"Plugs to add for {tenth}",
        told(max(0, needed - plugs), 0),
        f"fewest plugs a date whose smallest change is {tenth} − plugs a date so far, at least 0",
        f"max(0, {needed} − {plugs})",
        (
            given(
                "Fewest plugs", told(needed, 0), f"2 × (factor × scatter ÷ {tenth})², rounded up"
            ),
            _scatter_input(scatter),
            given("Plugs a date", told(plugs, 0), "the usual number of a round"),
        ),
        sources("noncentral-t"),
    )


def _factor_input(factor: float, scatter: Scatter) -> Input:
    return given(
        "Factor",
        told(factor),
        f"power 80{PERCENT}, level 5{PERCENT}, {counted(scatter.freedom, 'degree')} of freedom",
    )


def _scatter_input(scatter: Scatter) -> Input:
    origin = "about the spots' lines" if scatter.is_residual else "plugs of one spot and day"
    return given("Scatter of one plug", told(scatter.sd_in, 3, "in"), origin)


def _plug_inputs(readings: Sequence[Reading], *, pressed: bool) -> tuple[Input, ...]:
    kind = "pressed" if pressed else "unpressed"
    return tuple(
        given(day(each.date), told(each.value_in, 2, "in"), f"mean of the readings, {kind}")
        for each in readings
    )


def _spot_input(each: SpotDays) -> Input:
    first, last = each.days[0], each.days[-1]
    if first is last:
        return given(each.spot.name, told(first.value_in, 2, "in"), f"one date, {day(first.date)}")
    thatch = f"{told(first.value_in)} to {told(last.value_in, 2, 'in')}"
    span = f"{day(first.date)} to {day(last.date)}"
    return given(each.spot.name, thatch, f"plugs of {len(each.days)} dates, {span}")


def _spots_inputs(compared: Compared, trend: MeanTrend) -> tuple[Input, ...]:
    """The spots of a mean trend, and how far their slopes lie apart."""
    inputs = tuple(map(_spot_input, compared.spots[:MOST_INPUTS]))
    count = len(compared.spots)
    if trend.between_sd is not None:
        apart = told(trend.between_sd, 3, "in a year")
        inputs += (given("Spots' slopes differ by", apart, "beyond their plugs' scatter"),)
        count += 1
    return _shortened(inputs, count)


def _shortened(inputs: tuple[Input, ...], count: int) -> tuple[Input, ...]:
    """The first of so many inputs, the others counted."""
    if count <= MOST_INPUTS:
        return inputs
    return (*inputs[:MOST_INPUTS], given("And", f"{count - MOST_INPUTS} more", "not listed"))


def _from_to(interval: Interval) -> str:
    return f"{told(interval[0])} to {told(interval[1])}"
