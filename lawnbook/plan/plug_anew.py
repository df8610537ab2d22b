"""The figures of the evidence from other plugs: the same reckoning, with some readings changed.

The numbers are by symbol: "d0", "d1" are the thatch of a single spot's days, "s0", "s1" factors of
all the plugs of a spot. What is not named stays as it is.
"""

import math
from collections.abc import Mapping
from dataclasses import replace

from lawnbook.agronomy.detectable import plugs_for
from lawnbook.plan.evidence_figures import WANTED_CHANGE_IN, EvidenceFigures
from lawnbook.plan.plug_series import SpotDays
from lawnbook.plan.roots import Reading

Numbers = Mapping[str, float]


def slope_anew(figures: EvidenceFigures, numbers: Numbers) -> float:
    """The trend, in/year; NaN without one."""
    trend = _changed(figures, numbers).trend
    return math.nan if trend is None else trend.slope


def width_anew(figures: EvidenceFigures, numbers: Numbers) -> float:
    """How wide the trend's interval is, in/year; NaN without one."""
    trend = _changed(figures, numbers).trend
    if trend is None or trend.ci95 is None:
        return math.nan
    low, high = trend.ci95
    return high - low


def season_anew(figures: EvidenceFigures, numbers: Numbers) -> float:
    """Spring less autumn, in; NaN where it cannot be told."""
    season = _changed(figures, numbers).season
    return math.nan if season is None else season.value


def half_inch_anew(figures: EvidenceFigures, numbers: Numbers) -> float:
    """The first day of those between which half an inch is met, as an ordinal; NaN without one."""
    between = _changed(figures, numbers).crossing
    return math.nan if between is None else float(between[0].toordinal())


def more_anew(freedom: int, numbers: Numbers) -> float:
    """How many plugs a date are to be added, "scatter" (in) and "plugs" a date being given."""
    return max(0.0, plugs_for(WANTED_CHANGE_IN, numbers["scatter"], freedom) - numbers["plugs"])


def _changed(figures: EvidenceFigures, numbers: Numbers) -> EvidenceFigures:
    compared = figures.compared
    single = len(compared.spots) == 1
    spots = tuple(
        _spot_changed(each, numbers, number, single=single)
        for number, each in enumerate(compared.spots)
    )
    return EvidenceFigures(replace(compared, spots=spots), figures.latitude_deg)


def _spot_changed(spot: SpotDays, numbers: Numbers, number: int, *, single: bool) -> SpotDays:
    factor, own = numbers.get(f"s{number}", 1.0), numbers if single else {}
    days = tuple(
        Reading(each.date, own.get(f"d{at}", each.value_in) * factor)
        for at, each in enumerate(spot.days)
    )
    return replace(spot, days=days)
