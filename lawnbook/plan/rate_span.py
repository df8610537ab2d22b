"""What it does to the minutes that a rate is not known: the plan at both ends of its usual range.

Each end is a plan of its own, of the zone alone, so that cycles, evenness and the owner's dry year
count as they will.
"""

from dataclasses import replace
from datetime import date

from lawnbook.agronomy.precipitation import run_minutes
from lawnbook.agronomy.usual_rates import USUAL_RATES, SprinklerKind, UsualRate
from lawnbook.frozen import dataclass
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import MonthWater, ZoneWater
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Zone
from lawnbook.yard.table import Table


@dataclass(frozen=True, slots=True)
class RateSpan:
    """What the plan says at the low and the high end of a usual rate.

    `low` and `high` are of the month that needs most water; their minutes are None where the plan
    has none, and `reason` says why. `inch_low` and `inch_high` are the minutes that store an inch.
    """

    usual: UsualRate
    low: MonthWater
    high: MonthWater
    inch_low: float
    inch_high: float

    @property
    def reason(self) -> str:
        """Why there are no minutes; empty where there are."""
        return self.low.reason if self.low.run_minutes is None else ""


def rate_span(notebook: Notebook, zone: Zone, kind: SprinklerKind, on: date) -> RateSpan:
    """What a kind's usual range does to a zone's minutes, in the month that needs most water."""
    usual = USUAL_RATES[kind]
    low = _planned(notebook, zone, usual.low_in_per_h, on)
    high = _planned(notebook, zone, usual.high_in_per_h, on)
    at = max(range(12), key=lambda month: low.months[month].etc_in_per_day or 0.0)
    return RateSpan(
        usual,
        low.months[at],
        high.months[at],
        run_minutes(1.0, usual.low_in_per_h, low.multiplier),
        run_minutes(1.0, usual.high_in_per_h, high.multiplier),
    )


def alone_at(notebook: Notebook, zone: Zone, rate_in_per_h: float) -> Notebook:
    """The notebook with this zone alone, watered at a typed rate, without better evidence."""
    tried = replace(
        zone, precipitation_in_per_h=rate_in_per_h, flow_gpm=None, irrigated=True, assumed=()
    )
    return replace(notebook, zones=Table({zone.id: tried}), heads=Table({}), catch_tests=Table({}))


def _planned(notebook: Notebook, zone: Zone, rate_in_per_h: float, on: date) -> ZoneWater:
    """A zone's water as it would be planned at a typed rate."""
    return make_plan(alone_at(notebook, zone, rate_in_per_h), on).zones[0]
