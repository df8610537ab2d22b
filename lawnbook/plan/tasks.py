"""What is due for each zone and spot, one task each: the list that every page and command shows."""

from collections.abc import Iterable, Sequence
from functools import partial
from operator import attrgetter

from lawnbook.frozen import dataclass
from lawnbook.plan.due import WHY_WATER, due_depth_in
from lawnbook.plan.lazily import Later
from lawnbook.plan.memo import Memo
from lawnbook.plan.model import ZoneNitrogen, ZoneWater
from lawnbook.plan.season_model import Mowing, Task
from lawnbook.plan.tasks_care import care_tasks, mowing_tasks
from lawnbook.plan.tasks_lines import closed_tasks, line_tasks
from lawnbook.plan.tasks_records import plug_tasks, seed_tasks, soil_tasks
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import most_told_lb, run_minutes_told, told, told_most
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import tr
from lawnbook.yard.amounts import unit_shown

FEED_WHY = tr("The first day on which the budget has room and no rule blocks.")

_WATER_FIGURES = (
    "next_run_depth_in",
    "next_run_minutes",
    "next_watering",
    "depletion_in",
    "depth_in",
    "cycles",
    "soak_minutes",
)
"""The workings that tell how a zone's next watering came about, what its line says first."""


_DATE = attrgetter("date")

_FEED_FIGURES = ("next_feeding", "next_feeding_until", "left_this_month", "left_this_year")
"""The workings that tell how a zone's next feeding came about."""


@dataclass(frozen=True, slots=True)
class DryTasks:
    """All that is due but waterings and feedings: what is listed before feedings, and after them.

    No watering on record changes any of it.
    """

    before: tuple[Task, ...]
    after: tuple[Task, ...]


def dry_tasks(setting: Setting, water: Sequence[ZoneWater], mowing: Sequence[Mowing]) -> DryTasks:
    """What is due besides waterings and feedings; of `water` only the zones' thatch is read."""
    return DryTasks(
        before=(*line_tasks(setting), *mowing_tasks(setting, mowing)),
        after=(
            *closed_tasks(setting),
            *plug_tasks(setting),
            *soil_tasks(setting),
            *seed_tasks(setting),
            *care_tasks(setting, water),
        ),
    )


def tasks_with(
    water: Iterable[ZoneWater],
    nitrogen: Iterable[ZoneNitrogen],
    dry: DryTasks,
    memo: Memo | None = None,
) -> tuple[Task, ...]:
    """All that is due, waterings and feedings too, in date order; what can wait comes last.

    A `memo` remembers those of the zones whose figures are the same.
    """
    kept = Memo() if memo is None else memo
    waterings = [kept.part(("watering", z.zone_id), (z,), partial(_watering, z)) for z in water]
    feedings = [kept.part(("feeding", z.zone_id), (z,), partial(_feeding, z)) for z in nitrogen]
    listed = [*waterings, *dry.before, *feedings, *dry.after]
    return tuple(sorted((each for each in listed if each is not None), key=_DATE))


def _watering(zone: ZoneWater) -> Task | None:
    """A zone's next watering, None where nothing is due.

    A depth that is told as 0.00 is none: roots that do not reach the soil bear none.
    """
    if zone.next_allowed is None or not zone.depth_in or round(zone.depth_in, 2) == 0:
        return None
    run = zone.next_run or zone
    depth, minutes = due_depth_in(zone), run_minutes_told(run)
    return Task(
        key=f"water:{zone.zone_id}",
        kind="water",
        what=f"{tr('Water {depth}', depth=told(depth, 2, 'in'))}: {zone.zone}",
        date=zone.next_allowed,
        why=WHY_WATER[zone.rule],
        zone_id=zone.zone_id,
        zone=zone.zone,
        workings=Later(partial(_water_workings, zone)),
        minutes=None if minutes is None else float(minutes),
        cycles=None if minutes is None else run.cycles,
        depth_in=depth * zone.multiplier if minutes is None else None,
    )


def _water_workings(zone: ZoneWater) -> tuple[Working, ...]:
    """Depth and minutes of the next run first: the usual depth may be another one."""
    held = [each for each in zone.workings if each.figure in _WATER_FIGURES]
    order: tuple[str, ...] = _WATER_FIGURES
    if all(each.figure != order[0] for each in held):
        # New or dormant turf: its depth is the day's own, and no run has another.
        order = ("depth_in", *order)
    return tuple(sorted(held, key=lambda each: order.index(each.figure)))


def _feeding(zone: ZoneNitrogen) -> Task | None:
    """A zone's next feeding; without a product nothing can be spread."""
    upcoming = zone.next_feeding
    if upcoming is None or not upcoming.product:
        return None
    asked = tr("Up to {most} of {product}", most=_most(upcoming.pounds), product=upcoming.product)
    return Task(
        key=f"feed:{zone.zone_id}",
        kind="feed",
        what=f"{asked}: {zone.zone}",
        date=upcoming.date,
        latest=upcoming.latest,
        why=FEED_WHY,
        zone_id=zone.zone_id,
        zone=zone.zone,
        workings=Later(partial(_feed_workings, zone)),
        product_id=upcoming.product_id,
        product=upcoming.product,
        pounds=most_told_lb(upcoming.pounds),
    )


def _most(pounds: float) -> str:
    return f"{told_most(pounds)} {unit_shown('lb')}"


def _feed_workings(zone: ZoneNitrogen) -> tuple[Working, ...]:
    return tuple(each for each in zone.workings if each.figure in _FEED_FIGURES)
