"""The workings of a figure on the sheet: of a zone's water or feed, of a spot, of what is due.

Each is found in the plan that the sheet shows; a month of a season is worked out when asked for.
"""

from collections.abc import Iterable, Sequence
from datetime import date

from lawnbook.plan.ground_workings import night_working, plug_workings
from lawnbook.plan.model import Plan
from lawnbook.plan.record_names import spot_name
from lawnbook.plan.spreading_plan import spreading_plan
from lawnbook.plan.water_workings import workings_by_month
from lawnbook.plan.working_model import Working
from lawnbook.plan.zone_facts import facts_of, setting_of
from lawnbook.yard.notebook import Notebook, as_of

_OF_SEASON = ("interval_days", "depth_in", "run_minutes", "cycles", "soak_minutes")
NIGHT = "night"


def placed_workings(
    notebook: Notebook, plan: Plan, kind: str, of: str, figures: str
) -> tuple[Working, ...]:
    """The workings of a place on the sheet: its `kind`, whose it is, and which figures."""
    if kind == "due":
        keys = of.split("\n")
        return _once(w for task in plan.tasks if task.key in keys for w in task.workings)
    if kind == "thatch":
        return _thatch(notebook, plan, of)
    if kind == "feed":
        return _feed(notebook, plan, of, figures)
    return _water(notebook, plan, of, figures)


def named_in(workings: Iterable[Working], figures: Sequence[str]) -> tuple[Working, ...]:
    """Those of a review that are named; a name with a colon stands for all that end so."""
    return tuple(
        each
        for each in workings
        if each.figure in figures
        or any(name.startswith(":") and each.figure.endswith(name) for name in figures)
    )


def _water(notebook: Notebook, plan: Plan, zone_id: str, figures: str) -> tuple[Working, ...]:
    """A zone's figures of the next run, the start of its night, or a month of a season."""
    zone = next((each for each in plan.zones if each.zone_id == zone_id), None)
    if zone is None:
        return ()
    if figures.isdigit():
        setting = setting_of(as_of(notebook, plan.on), plan.on)
        facts = facts_of(setting, setting.notebook.zones[zone_id], zone.number)
        listed = workings_by_month(setting, facts)[int(figures) - 1]
        return tuple(each for each in listed if each.figure in _OF_SEASON)
    if figures == NIGHT:
        nights = tuple(night_working(run) for run in plan.programs if zone.zone in run.zones)
        return nights or _named(zone.workings, "next_watering")
    return _named(zone.workings, figures)


def _feed(notebook: Notebook, plan: Plan, zone_id: str, figures: str) -> tuple[Working, ...]:
    """A zone's year, or what it gets on a day."""
    if "-" in figures:
        on = date.fromisoformat(figures)
        coming = spreading_plan(notebook, plan.on)
        return _once(
            w
            for each in coming
            if (each.zone_id, each.date) == (zone_id, on)
            for w in each.workings
        )
    found = (w for each in plan.nitrogen if each.zone_id == zone_id for w in each.workings)
    return _named(found, figures)


def _thatch(notebook: Notebook, plan: Plan, spot_id: str) -> tuple[Working, ...]:
    """A spot's change and trend; of one that shows none yet its latest plug."""
    found = _once(w for spot in plan.thatch if spot.spot_id == spot_id for w in spot.workings)
    cores = (c for c in notebook.cores.values() if c.spot == spot_id and c.date <= plan.on)
    latest = max(cores, key=lambda core: (core.date, core.rank), default=None)
    if found or latest is None:
        return found
    return tuple(plug_workings(latest, spot_name(notebook, spot_id)))


def _named(workings: Iterable[Working], figures: str) -> tuple[Working, ...]:
    """The workings of these figures, in their order."""
    wanted = figures.split()
    found = [each for each in workings if each.figure in wanted]
    return tuple(sorted(found, key=lambda each: wanted.index(each.figure)))


def _once(workings: Iterable[Working]) -> tuple[Working, ...]:
    return tuple(dict.fromkeys(workings))
