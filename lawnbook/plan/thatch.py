"""Thatch at one spot: each plug as a column, and the trend that the plugs allow.

Pressed and unpressed readings never share a trend. All readings of one day are pooled. A slope
needs plugs of three different dates, an interval and a verdict of five.
"""

from collections.abc import Sequence
from datetime import date, timedelta

from lawnbook.agronomy.trend import (
    FEWEST_FOR_INTERVAL,
    Line,
    crossing_interval,
    summary,
    theil_sen,
    theil_sen_interval,
    theil_sen_line,
)
from lawnbook.plan.plug_model import PlugColumn, SpotThatch
from lawnbook.plan.roots import Reading, root_readings, thatch_readings, unpressed_or_pressed
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import PERCENT, given, sources, told, told_exactly, told_small
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Core, Spot

HALF_INCH = 0.5
DAYS_PER_YEAR = 365.25
FARTHEST_YEARS = 30.0
"""Beyond this many years after the last plug a crossing is not worth telling (common practice)."""


def spot_thatch(spot: Spot, zone: str, cores: Sequence[Core], on: date) -> SpotThatch:
    """What the plugs of one spot show on a day, from its plugs up to then in date order.

    `zone` is the zone's name.
    """
    compared = unpressed_or_pressed(cores)
    readings = thatch_readings(compared)
    years, values = _years(readings), [each.value_in for each in readings]
    slope = theil_sen(years, values)
    ci95 = theil_sen_interval(years, values)
    first, latest = (readings[0], readings[-1]) if readings else (None, None)
    return SpotThatch(
        spot=spot.name,
        spot_id=spot.id,
        zone=zone,
        plugs=len(compared),
        latest_in=latest.value_in if latest else None,
        first_in=first.value_in if first else None,
        change_in=values[-1] - values[0] if len(values) > 1 else None,
        slope_in_per_year=slope,
        ci95=ci95,
        half_inch_between=_half_inch_between(readings, on),
        verdict=_verdict(readings, slope, ci95),
        line=_line(readings, theil_sen_line(years, values)),
        columns=tuple(_column(core) for core in cores),
        roots_in=roots[-1].value_in if (roots := root_readings(cores)) else None,
        workings=_workings(readings, slope, ci95, pressed=any(c.pressed for c in compared)),
    )


def _column(core: Core) -> PlugColumn:
    read = summary(core.thatch_in) if core.thatch_in else None
    return PlugColumn(
        core_id=core.id,
        date=core.date,
        thatch_in=read.mean if read else None,
        spread_in=read.spread if read else None,
        readings=read.n if read else 0,
        pressed=core.pressed,
        root_depth_in=core.root_depth_in,
        sponge=core.sponge,
        soil_in_thatch=core.soil_in_thatch,
        worms=core.worms,
        note=core.note,
    )


def _years(readings: Sequence[Reading]) -> list[float]:
    """Years since the first plug."""
    return [(each.date - readings[0].date).days / DAYS_PER_YEAR for each in readings]


def _verdict(
    readings: Sequence[Reading], slope: float | None, ci95: tuple[float, float] | None
) -> str:
    if not readings:
        return "Cannot say yet: no plug with a thatch reading has been pulled here."
    if slope is None or ci95 is None:
        return _not_yet(len(readings))
    low, high = ci95
    if high < 0:
        return (
            f"Thinning: {_rate(-slope)} in a year (95{PERCENT}: {_rate(-high)} to {_rate(-low)})."
        )
    if low > 0:
        return f"Thickening: {_rate(slope)} in a year (95{PERCENT}: {_rate(low)} to {_rate(high)})."
    return (
        f"No change that these plugs can show (95{PERCENT}: {_signed(low)} to {_signed(high)} in a "
        "year)."
    )


def _not_yet(dates: int) -> str:
    more = FEWEST_FOR_INTERVAL - dates
    had = "1 plug" if dates == 1 else f"plugs of {dates} dates"
    wanted = "one more date is" if more == 1 else f"{more} more dates are"
    return f"Cannot say yet: {had} so far; {wanted} needed before a verdict."


def _rate(value: float) -> str:
    return told_small(value)


def _signed(value: float) -> str:
    number = told(value).replace("-", "−")
    return f"+{number}" if round(value, 2) > 0 else number


def _line(
    readings: Sequence[Reading], line: Line | None
) -> tuple[tuple[date, float], tuple[date, float]] | None:
    if line is None:
        return None
    first, last = readings[0].date, readings[-1].date
    return (first, line.at(0.0)), (last, line.at((last - first).days / DAYS_PER_YEAR))


def _half_inch_between(readings: Sequence[Reading], on: date) -> tuple[date, date] | None:
    """Between which days to come the trend meets half an inch.

    None where the plugs cannot say, where it lies far off, and where the latest plug is past it.
    """
    years, values = _years(readings), [each.value_in for each in readings]
    crossing = crossing_interval(years, values, HALF_INCH)
    ci95 = theil_sen_interval(years, values)
    if crossing is None or ci95 is None:
        return None
    first, last = crossing
    start, thinning = readings[0].date, ci95[1] < 0
    today = (on - start).days / DAYS_PER_YEAR
    passed = values[-1] <= HALF_INCH if thinning else values[-1] >= HALF_INCH
    if passed or not today <= last <= years[-1] + FARTHEST_YEARS:
        return None
    return _after(start, max(first, today)), _after(start, last)


def _after(start: date, years: float) -> date:
    return start + timedelta(days=round(years * DAYS_PER_YEAR))


def _workings(
    readings: Sequence[Reading],
    slope: float | None,
    ci95: tuple[float, float] | None,
    *,
    pressed: bool,
) -> tuple[Working, ...]:
    kind = "pressed" if pressed else "unpressed"
    inputs = tuple(
        given(day(each.date), told(each.value_in, 2, "in"), f"mean of the readings, {kind}")
        for each in readings
    )
    listed = []
    if len(readings) > 1:
        first, last = readings[0].value_in, readings[-1].value_in
        listed.append(
            Working(
                "change_in",
                "Change in thatch",
                told(last - first, 2, "in"),
                "latest − first",
                f"{told_exactly(last)} − {told_exactly(first)}",
                (inputs[0], inputs[-1]),
                sources("thatch-half-inch"),
            )
        )
    if slope is not None:
        pairs = len(readings) * (len(readings) - 1) // 2
        interval = f", 95{PERCENT}: {told(ci95[0])} to {told(ci95[1])}" if ci95 else ""
        listed.append(
            Working(
                "slope_in_per_year",
                "Trend of thatch",
                f"{told(slope, 2, 'in a year')}{interval}",
                "median of the slopes between every two plugs; interval by ranks",
                f"median of {pairs} slopes",
                inputs,
                sources("theil-sen"),
            )
        )
    return tuple(listed)
