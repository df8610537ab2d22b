"""The first steps of a new notebook: how far each is, in words. Any order, and none blocks another.

A step is open, done, or left at what stands there by default. What follows from the notebook itself
is read from it; only that a step was left, or the sheet printed, is kept (`Yard.steps_left`).
"""

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from lawnbook.agronomy.usual_rates import SprinklerKind
from lawnbook.agronomy.water_balance import DEFAULT_ROOT_DEPTH_IN
from lawnbook.frozen import dataclass
from lawnbook.plan.assumed import assumed_kind, is_assumed_square, kind_told
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.notebook import Change, Notebook, put
from lawnbook.yard.numbers import plain
from lawnbook.yard.record_base import FirstStep
from lawnbook.yard.records import Zone

StepState = Literal["open", "done", "left"]

ORDER: tuple[FirstStep, ...] = (
    "size",
    "place",
    "sprinklers",
    "ground",
    "habit",
    "plug",
    "sheet",
)
"""The steps, in the order in which they are best taken."""

NEEDS_ZONE = ("sprinklers", "ground", "habit")
"""Steps that tell of a zone, and wait for one to be there."""


@dataclass(frozen=True, slots=True)
class StepAt:
    """How far a step is, and what there is of it in words."""

    name: FirstStep
    state: StepState
    told: str


def first_steps(notebook: Notebook, plan: Plan) -> tuple[StepAt, ...]:
    """How far every first step is."""
    return (
        _size(notebook, plan),
        _place(notebook),
        _sprinklers(notebook, plan),
        _ground(notebook),
        _habit(notebook),
        _plug(notebook),
        _sheet(notebook),
    )


def is_under_way(notebook: Notebook, plan: Plan) -> bool:
    """Whether the first steps still lead: one is open, they are not put away, and no second visit.

    Once plugs were pulled on a second day the owner knows the way, and what is left out is left
    out on purpose.
    """
    if "put away" in notebook.yard.steps_left:
        return False
    if len({core.date for core in notebook.cores.values()}) > 1:
        return False
    return any(step.state == "open" for step in first_steps(notebook, plan))


def step_left(notebook: Notebook, step: FirstStep, *, left: bool = True) -> Change:
    """The change that leaves a step at its default, or takes it up again; empty where it is so."""
    held = notebook.yard.steps_left
    if (step in held) == left:
        return {}
    steps = (*held, step) if left else tuple(each for each in held if each != step)
    return put(notebook, "yard", replace(notebook.yard, steps_left=steps))


def _at(notebook: Notebook, name: FirstStep, told_open: str, told_left: str) -> StepAt:
    """A step that is not done: open, or left at a default."""
    if name in notebook.yard.steps_left:
        return StepAt(name, "left", told_left)
    return StepAt(name, "open", told_open)


def _counted(known: int, every: int, none: str) -> str:
    """How many zones have it, or that none has."""
    return none if not known else tr("{count} of {all} zones told", count=known, all=every)


def _size(notebook: Notebook, plan: Plan) -> StepAt:
    zones = notebook.zones
    if not zones:
        return _at(notebook, "size", tr("no zone yet"), tr("no zone, by your choice"))
    area = told(plan.area_sqft, 0, "sq ft")
    if any(is_assumed_square(zone) for zone in zones.values()):
        return StepAt("size", "left", tr("{area} as a square", area=area))
    if len(zones) == 1:
        return StepAt("size", "done", tr("{area} in one zone", area=area))
    return StepAt("size", "done", tr("{area} in {count} zones", area=area, count=len(zones)))


def _place(notebook: Notebook) -> StepAt:
    placed = notebook.yard.latitude_deg is not None
    months = sum(each.eto_in_per_day is not None for each in notebook.climate.values())
    if not notebook.weather and not months:
        without = tr("no weather, so no days and no minutes")
        return _at(notebook, "place", without, without)
    if not placed:
        return _at(notebook, "place", tr("no latitude yet"), tr("north of the equator"))
    if notebook.weather:
        return StepAt("place", "done", tr("{count} days of weather", count=len(notebook.weather)))
    if months < 12:
        return _at(
            notebook,
            "place",
            tr("{count} of 12 months typed", count=months),
            tr("{count} of 12 months typed", count=months),
        )
    return StepAt("place", "done", tr("twelve months typed"))


def _sprinklers(notebook: Notebook, plan: Plan) -> StepAt:
    watered = [each for each in plan.zones if each.irrigated]
    if not plan.zones:
        return _at(notebook, "sprinklers", tr("needs a zone"), tr("no rate, by your choice"))
    if not watered:
        return StepAt("sprinklers", "done", tr("none: no zone is irrigated"))
    known = [each for each in watered if each.precipitation_rate_in_per_h is not None]
    if len(known) < len(watered):
        open_ = _counted(len(known), len(watered), tr("no rate yet"))
        return _at(notebook, "sprinklers", open_, open_)
    kinds = [kind for each in known if (kind := _kind(notebook, each)) is not None]
    if kinds:
        usual = tr("the usual rate of {kind}", kind=kind_told(kinds[0]))
        mixed = tr("usual rates")
        return StepAt("sprinklers", "left", usual if len(set(kinds)) == 1 else mixed)
    return StepAt("sprinklers", "done", _rates_told(known))


def _kind(notebook: Notebook, water: ZoneWater) -> SprinklerKind | None:
    zone = notebook.zones.get(water.zone_id)
    return assumed_kind(zone) if zone is not None and water.rate_source == "typed" else None


def _rates_told(known: Sequence[ZoneWater]) -> str:
    rates = sorted(each.precipitation_rate_in_per_h or 0.0 for each in known)
    if len(rates) == 1:
        return told(rates[0], 2, "in/h")
    low, high = told(rates[0], 2, "in/h"), told(rates[-1], 2, "in/h")
    return tr("{low} to {high}", low=low, high=high)


def _ground(notebook: Notebook) -> StepAt:
    zones = list(notebook.zones.values())
    known = [zone for zone in zones if zone.soil is not None]
    default = tr("loam and cool-season grass")
    if not zones:
        return _at(notebook, "ground", tr("needs a zone"), default)
    if len(known) < len(zones):
        open_ = _counted(len(known), len(zones), tr("no soil yet"))
        return _at(notebook, "ground", open_, tr("loam") if not known else open_)
    soils = list(dict.fromkeys(tr(str(zone.soil)) for zone in zones))
    return StepAt("ground", "done", ", ".join(soils))


def _habit(notebook: Notebook) -> StepAt:
    watered = [zone for zone in notebook.zones.values() if zone.irrigated]
    known = [zone for zone in watered if zone.habit is not None]
    if not notebook.zones:
        return _at(notebook, "habit", tr("needs a zone"), tr("nothing to compare with"))
    if watered and len(known) < len(watered):
        open_ = _counted(len(known), len(watered), tr("not told yet"))
        return _at(notebook, "habit", open_, tr("nothing to compare with"))
    return StepAt("habit", "done", _habits_told(known))


def _habits_told(zones: Sequence[Zone]) -> str:
    if len(zones) != 1 or zones[0].habit is None:
        return tr("told for {count} zones", count=len(zones))
    habit = zones[0].habit
    minutes, days = told(habit.minutes, 0, "min"), plain(habit.days_per_week)
    if days == "1":
        return tr("{minutes}, one day a week", minutes=minutes)
    return tr("{minutes}, {days} days a week", minutes=minutes, days=days)


def _plug(notebook: Notebook) -> StepAt:
    count = len(notebook.cores)
    if count:
        plugs = tr("one plug") if count == 1 else tr("{count} plugs", count=count)
        return StepAt("plug", "done", plugs)
    roots = told(DEFAULT_ROOT_DEPTH_IN, 0, "in")
    default = tr("{depth} of roots", depth=roots)
    return _at(notebook, "plug", tr("no plug yet"), default)


def _sheet(notebook: Notebook) -> StepAt:
    if "sheet" in notebook.yard.steps_left:
        return StepAt("sheet", "done", tr("printed or saved"))
    return StepAt("sheet", "open", tr("not printed yet"))
