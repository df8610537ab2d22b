"""What is due as people read it: the plan's tasks in date order, alike ones in one line.

The tasks themselves, one for each zone and spot, are found in `tasks`.
"""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from functools import lru_cache, partial
from types import MappingProxyType

from lawnbook.agronomy.seasons import table_month
from lawnbook.plan.memo import MadeFrom, Memo
from lawnbook.plan.model import Due, WateringRule, ZoneWater
from lawnbook.plan.season_model import Task
from lawnbook.plan.workings import told_most_together
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import tr
from lawnbook.yard.amounts import span_told, unit_shown

PLUG_MONTHS = (4, 5, 9, 10)
"""Spring and autumn in the north, when plugs are pulled (common practice)."""

PLUG_EVERY_DAYS = 180
"""A spot last plugged longer ago is due (common practice)."""

PLUG_NOT_BEFORE_DAYS = 100
"""Where half a year would miss a spring or autumn, its last month will do after so many days."""

PLUGS_WHY = tr("Plugs are pulled in spring and in autumn, at the same spots (common practice).")
ONE_PLUG = tr(" No change shows yet where there is one plug only: ")
NAMES_TOLD = 4

DAYS_KEPT = 64
"""How many answers about the months of plugs are kept: hundreds of spots ask for the same few."""

WHY_WATER: Mapping[WateringRule, str] = MappingProxyType(
    {
        "deep": tr("What the roots bear, or the target, is used up by then unless it rains."),
        "light": tr("New seed or sod is kept moist until it has rooted."),
        "survival": tr("The crowns of dormant grass are kept alive; it does not turn green."),
    }
)


def due_of(
    tasks: Sequence[Task], water: Sequence[ZoneWater], memo: Memo | None = None
) -> tuple[Due, ...]:
    """The tasks gathered into lines, in date order; `water` tells how deep each zone is watered.

    A `memo` remembers lines of the same tasks.

    Gathered are waterings of one day and reason, feedings of one day and product, plugs of one day,
    and what else is the same work in the same days. `latest` suits all that a line sums up.
    """
    depths = {zone.zone_id: due_depth_in(zone) for zone in water}
    groups: dict[tuple[object, ...], list[Task]] = {}
    for task in tasks:
        groups.setdefault(_alike(task), []).append(task)
    kept = Memo() if memo is None else memo
    listed = [
        kept.part(("due", alike), _made_from(group, depths), partial(_line, group, depths))
        for alike, group in groups.items()
    ]
    return tuple(sorted(listed, key=lambda due: due.date))


def names_told(names: Sequence[str]) -> str:
    """Names in a row, the rest counted: "A, B, C, D and 3 more"."""
    if len(names) <= NAMES_TOLD + 1:
        return ", ".join(names)
    return tr(
        "{names} and {count} more",
        names=", ".join(names[:NAMES_TOLD]),
        count=len(names) - NAMES_TOLD,
    )


def due_depth_in(zone: ZoneWater) -> float:
    """What a zone's next watering puts down: it may be more or less than the usual depth."""
    run = zone.next_run
    return run.depth_in if run is not None else zone.depth_in or 0.0


def stem_of(task: Task) -> str:
    """What a task asks for without the place that stands at its end."""
    return task.what.removesuffix(f": {task.spot or task.zone}")


def _alike(task: Task) -> tuple[object, ...]:
    """What tasks of one line share."""
    if task.kind == "water":
        return task.kind, task.date, task.why
    if task.kind == "feed" and task.product_id:
        return task.kind, task.date, task.product_id
    if task.kind == "plug":
        return task.kind, task.date
    return task.kind, task.date, task.latest, stem_of(task), task.why


def _made_from(tasks: Sequence[Task], depths_in: Mapping[str, float]) -> MadeFrom:
    """What a line is made from; of the depths only waterings read any."""
    watered = tasks[0].kind == "water"
    depths = tuple(depths_in[task.zone_id] for task in tasks) if watered else ()
    return tuple(tasks), depths


def _line(tasks: Sequence[Task], depths_in: Mapping[str, float]) -> Due:
    first = tasks[0]
    named = [task.spot or task.zone for task in tasks if task.spot or task.zone]
    lasts = [task.latest for task in tasks if task.latest is not None]
    return Due(
        date=first.date,
        kind=first.kind,
        what=f"{_stem(tasks, depths_in)}: {names_told(named)}" if named else first.what,
        zones=tuple(dict.fromkeys(task.zone for task in tasks if task.zone)),
        why=_why(tasks),
        spot_ids=tuple(task.spot_id for task in tasks if task.spot_id),
        latest=min(lasts, default=None),
        keys=tuple(task.key for task in tasks),
    )


def _stem(tasks: Sequence[Task], depths_in: Mapping[str, float]) -> str:
    """What the tasks ask for together: the range of depths, the sum of pounds."""
    first = tasks[0]
    if first.kind == "water":
        depths = [depths_in[task.zone_id] for task in tasks]
        return tr("Water {span_told}", span_told=span_told(min(depths), max(depths), 2, "in"))
    if first.kind == "feed" and first.product_id:
        most = told_most_together(task.pounds or 0.0 for task in tasks)
        return tr(
            "Up to {most} {unit_shown} of {product}",
            most=most,
            unit_shown=unit_shown("lb"),
            product=first.product,
        )
    return stem_of(first)


def _why(tasks: Sequence[Task]) -> str:
    """The reason of the first; of plugs, with all the spots that have been plugged once."""
    if tasks[0].kind != "plug":
        return tasks[0].why
    once = [task.spot for task in tasks if task.why != PLUGS_WHY]
    return f"{PLUGS_WHY}{once_told(once)}"


def once_told(names: Sequence[str]) -> str:
    """That spots with a single plug show no change yet; empty where there are none."""
    return f"{ONE_PLUG}{names_told(names)}." if names else ""


def next_plug_day(setting: Setting, spot_id: str) -> date:
    """The next day on which a spot's plug is due: in season, and half a year after its last."""
    cores = setting.cores.get(spot_id, ())
    return plug_day_after(cores[-1].date if cores else None, setting.on, setting.latitude_deg)


def plug_day_after(
    last: date | None, on: date, latitude_deg: float, every_days: int = PLUG_EVERY_DAYS
) -> date:
    """The day for the plug after the last one (None where there is none), seen from a day."""
    since = on if last is None else _half_a_year_after(last, latitude_deg, every_days)
    return _plug_day(max(on, since), latitude_deg)


@lru_cache(maxsize=DAYS_KEPT)
def _half_a_year_after(last: date, latitude_deg: float, every_days: int) -> date:
    """Half a year after a plug, or the start of the last plug month that this would miss.

    A plug of late May is followed by one in October, not in the next April.
    """
    due = last + timedelta(days=every_days)
    month = due.replace(day=1)
    while table_month(month.month, latitude_deg) not in PLUG_MONTHS:
        month = (month - timedelta(days=1)).replace(day=1)
    missed = month != due.replace(day=1)
    return month if missed and (month - last).days >= PLUG_NOT_BEFORE_DAYS else due


@lru_cache(maxsize=DAYS_KEPT)
def _plug_day(earliest: date, latitude_deg: float) -> date:
    """The first day from `earliest` that lies in a month in which plugs are pulled."""
    on = earliest
    while table_month(on.month, latitude_deg) not in PLUG_MONTHS:
        on = (on.replace(day=1) + timedelta(days=32)).replace(day=1)
    return on


@lru_cache(maxsize=DAYS_KEPT)
def last_plug_day(on: date, latitude_deg: float) -> date:
    """The last day of the spring or autumn in which a plug that is due on a day is pulled."""
    month = on.replace(day=1)
    while table_month(month.month, latitude_deg) in PLUG_MONTHS:
        month = (month + timedelta(days=32)).replace(day=1)
    return month - timedelta(days=1)
