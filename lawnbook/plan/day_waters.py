"""How long, how often and how deep each zone is watered on a day, as that day's plan has it."""

from collections.abc import Mapping
from dataclasses import field
from datetime import date

from lawnbook.frozen import dataclass
from lawnbook.plan.model import MonthWater, Plan, ZoneWater
from lawnbook.plan.month_water import water_today
from lawnbook.plan.zone_facts import facts_of, setting_of
from lawnbook.yard.notebook import Notebook, as_of


@dataclass(frozen=True, slots=True)
class Waters:
    """By a zone's id: minutes of a run, days between two, and net inches of one.

    Zones for which none is planned, or whose rate is not known, are left out.
    """

    run_minutes: dict[str, float] = field(default_factory=dict)
    interval_days: dict[str, float] = field(default_factory=dict)
    depth_in: dict[str, float] = field(default_factory=dict)


def waters_of(plan: Plan) -> Waters:
    """The waterings of a plan's own day."""
    return _waters({zone.zone_id: zone for zone in plan.zones})


def waters_on(notebook: Notebook, on: date) -> Waters:
    """The waterings of a day as its plan has them, made without the rest of the plan."""
    setting = setting_of(as_of(notebook, on), on)
    zones = setting.notebook.zones.values()
    return _waters(
        {
            zone.id: water_today(setting, facts_of(setting, zone, number))
            for number, zone in enumerate(zones, start=1)
        }
    )


def _waters(made: Mapping[str, ZoneWater | MonthWater]) -> Waters:
    return Waters(
        run_minutes={k: w.run_minutes for k, w in made.items() if w.run_minutes is not None},
        interval_days={k: w.interval_days for k, w in made.items() if w.interval_days is not None},
        depth_in={k: w.depth_in for k, w in made.items() if w.depth_in is not None},
    )
