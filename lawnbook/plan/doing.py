"""What is put into the notebook when something due is ticked off as done.

A watering, a feeding, mowing or other care and a soil test are recorded as they were asked for, on
the day they were done. A plug has to be read and a checklist gone through: they lead elsewhere.
What happened is recorded whether or not it was wise; the page asks before that.
"""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from types import MappingProxyType

from lawnbook.frozen import dataclass
from lawnbook.plan.care_marks import MOWING
from lawnbook.plan.due import names_told
from lawnbook.plan.record_names import product_name, zone_name
from lawnbook.plan.season_model import Task, TaskKind
from lawnbook.plan.spread_conditions import Conditions
from lawnbook.plan.spread_loads import treated_of
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import trimmed
from lawnbook.yard.notebook import Change, Key, Notebook, apply, new_id, put
from lawnbook.yard.numbers import day, minutes
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import NOTHING_BY_ZONE, Care, Feeding, Record, SoilTest, Watering

LEADS_TO_PLUG = "plug"
"""What a plug leads to: its entry, since it has to be pulled and read."""

Amounts = Mapping[str, float]
"""Minutes, inches or pounds by the key of a task, where they differ from what was asked for."""

AS_ASKED: Amounts = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """What ticking off leads to: a change of the notebook, its name for undo, and what is new.

    `leads_to` is "plug" or a checklist's name where nothing can be recorded without the owner;
    the change is empty then.
    """

    change: Change
    label: str
    records: tuple[tuple[str, Record], ...]
    leads_to: str = ""


def can_be_done(task: Task) -> bool:
    """Whether a task can be ticked off: days closed to feeding or seed are only told."""
    return task.kind != "feed" or task.pounds is not None


def done(notebook: Notebook, task: Task, on: date, amount: float | None = None) -> Done:
    """What to record where a task was done on a day.

    `amount` replaces the minutes of a watering (or its depth in inches, where no rate is known) or
    the pounds of a feeding. Raises OwnerError with the mend where it cannot be recorded.
    """
    return done_together(notebook, (task,), on, AS_ASKED if amount is None else {task.key: amount})


def done_together(
    notebook: Notebook, tasks: Sequence[Task], on: date, amounts: Amounts = AS_ASKED
) -> Done:
    """What to record where several tasks of one kind were done on a day, as one change.

    One product on several zones is one feeding, and one kind of care one entry; each zone has its
    own watering and soil test. Raises OwnerError like `done`, ValueError for none or mixed kinds.
    """
    kinds = {task.kind for task in tasks}
    if len(kinds) != 1:
        raise ValueError(f"tasks of one kind are wanted, not of {len(kinds)}.")
    kind = tasks[0].kind
    if kind in ("plug", "check"):
        leads_to = LEADS_TO_PLUG if kind == "plug" else tasks[0].care_kind
        return Done(change={}, label="", records=(), leads_to=leads_to)
    _refuse_gone(notebook, tasks)
    made = tuple(_MAKERS[kind](notebook, tasks, on, amounts))
    change, records = _put_all(notebook, made)
    return Done(change=change, label=_label(tasks, on), records=records)


def recorded_words(notebook: Notebook, finished: Done) -> str:
    """What was recorded, in a sentence: "Recorded: 45 min on Front, 15 Jun 2026."."""
    parts: list[str] = []
    on = ""
    for _, record in finished.records:
        what, when = _told(notebook, record)
        parts.append(what)
        on = day(when)
    return tr("Recorded: {parts}, {on}.", parts="; ".join(parts), on=on) if parts else ""


def _waterings(
    _notebook: Notebook, tasks: Sequence[Task], on: date, amounts: Amounts
) -> Sequence[tuple[str, Record]]:
    return [("waterings", _watering(task, on, amounts.get(task.key))) for task in tasks]


def _watering(task: Task, on: date, amount: float | None) -> Watering:
    if task.minutes is not None:
        ran = task.minutes if amount is None else amount
        return Watering(id=new_id(), date=on, zone=task.zone_id, minutes=ran, cycles=task.cycles)
    depth = task.depth_in if amount is None else amount
    if depth is None:
        raise OwnerError(
            tr(
                "Watering of {zone}: neither minutes nor a depth are known; type {amount} that a "
                "can caught, or tell how fast the zone is watered on the Water page.",
                zone=task.zone,
                amount=tr("the millimetres") if is_metric() else tr("the inches"),
            )
        )
    return Watering(id=new_id(), date=on, zone=task.zone_id, depth_in=depth)


def _feedings(
    notebook: Notebook, tasks: Sequence[Task], on: date, amounts: Amounts
) -> Sequence[tuple[str, Record]]:
    pounds: dict[str, dict[str, float]] = {}
    for task in tasks:
        shares = pounds.setdefault(_product_of(notebook, task), {})
        amount = amounts.get(task.key, task.pounds)
        if amount is None or amount <= 0:
            raise OwnerError(
                tr(
                    "{weight} for {zone}: enter the {weight_2} of {product} that were spread.",
                    weight=_weight(),
                    zone=task.zone,
                    weight_2=_weight().lower(),
                    product=task.product,
                )
            )
        shares[task.zone_id] = shares.get(task.zone_id, 0.0) + amount
    return [("feedings", _feeding(notebook, *each, on)) for each in pounds.items()]


def _product_of(notebook: Notebook, task: Task) -> str:
    if not can_be_done(task):
        raise OwnerError(
            tr("{what}: that is only told, and nothing is recorded of it.", what=task.what)
        )
    if not task.product_id:
        raise OwnerError(
            tr(
                "Product: the shelf is bare. Put what was spread on the shelf on the Feed "
                "page, then record the feeding."
            )
        )
    if task.product_id not in notebook.products:
        raise OwnerError(
            tr(
                "Product: {product} is no longer on the shelf; add it on the Feed page first.",
                product=task.product,
            )
        )
    return task.product_id


def _feeding(notebook: Notebook, product_id: str, pounds: Mapping[str, float], on: date) -> Feeding:
    # Frozen with the feeding is the area that the check before spreading goes by: less its strips.
    treated = treated_of(notebook, pounds, NOTHING_BY_ZONE, Conditions())
    areas = {zone_id: each.area_sqft for zone_id, each in treated.items()}
    return Feeding(
        id=new_id(),
        date=on,
        product=product_id,
        pounds=MappingProxyType(dict(pounds)),
        treated_area_sqft=MappingProxyType(areas),
    )


def _cares(
    _notebook: Notebook, tasks: Sequence[Task], on: date, _amounts: Amounts
) -> Sequence[tuple[str, Record]]:
    zones: dict[str, list[str]] = {}
    for task in tasks:
        where = zones.setdefault(_care_kind(task), [])
        where += [task.zone_id] if task.zone_id and task.zone_id not in where else []
    # A task of the whole yard names no zone, and so does care that was done everywhere.
    yard = {_care_kind(task) for task in tasks if not task.zone_id}
    return [
        (
            "care",
            Care(id=new_id(), date=on, kind=kind, zones=() if kind in yard else tuple(where)),
        )
        for kind, where in zones.items()
    ]


def _care_kind(task: Task) -> str:
    kind = task.care_kind or (MOWING if task.kind == "mow" else "")
    if not kind:
        raise OwnerError(
            tr("{what}: note on the Plugs page, under care, what was done.", what=task.what)
        )
    return kind


def _soil_tests(
    _notebook: Notebook, tasks: Sequence[Task], on: date, _amounts: Amounts
) -> Sequence[tuple[str, Record]]:
    if any(not task.zone_id for task in tasks):
        raise OwnerError(tr("Soil test: draw a zone first; a test is kept with the zone it is of."))
    return [("soil_tests", SoilTest(id=new_id(), date=on, zone=task.zone_id)) for task in tasks]


_Maker = Callable[[Notebook, Sequence[Task], date, Amounts], Sequence[tuple[str, Record]]]
_MAKERS: Mapping[TaskKind, _Maker] = MappingProxyType(
    {
        "water": _waterings,
        "feed": _feedings,
        "mow": _cares,
        "care": _cares,
        "test": _soil_tests,
    }
)

_NOUNS: Mapping[TaskKind, str] = MappingProxyType(
    {"water": "watering", "feed": "feeding", "mow": MOWING, "test": "soil test"}
)


def _label(tasks: Sequence[Task], on: date) -> str:
    """What undo calls it: "watering of Front, 15 Jun 2026"."""
    first = tasks[0]
    noun = tr(_NOUNS.get(first.kind) or first.care_kind)
    names = names_told(tuple(dict.fromkeys(task.zone for task in tasks if task.zone)))
    return (
        tr("{noun} of {names}, {on}", noun=noun, names=names, on=day(on))
        if names
        else tr("{noun} of {on}", noun=noun, on=day(on))
    )


def _refuse_gone(notebook: Notebook, tasks: Sequence[Task]) -> None:
    for task in tasks:
        if task.zone_id and task.zone_id not in notebook.zones:
            raise OwnerError(
                tr(
                    "{zone} is no longer drawn; nothing was recorded.",
                    zone=task.zone or tr("The zone"),
                )
            )


def _put_all(
    notebook: Notebook, made: Sequence[tuple[str, Record]]
) -> tuple[Change, tuple[tuple[str, Record], ...]]:
    """All records in one change, each ranked after the one before it."""
    change: dict[Key, tuple[Record | None, Record | None]] = {}
    kept: list[tuple[str, Record]] = []
    for table, record in made:
        step = put(notebook, table, record)
        notebook = apply(notebook, step)
        change.update(step)
        kept.append((table, notebook.table(table)[record.id]))
    return change, tuple(kept)


def _weight() -> str:
    return tr("Kilograms") if is_metric() else tr("Pounds")


def _told(notebook: Notebook, record: Record) -> tuple[str, date]:
    """A record in words, and its day."""
    match record:
        case Watering():
            ran = minutes(record.minutes) if record.minutes is not None else ""
            put_down = ran or trimmed(record.depth_in or 0.0, 2, "in")
            zone = zone_name(notebook, record.zone)
            return tr("{amount} on {zone}", amount=put_down, zone=zone), record.date
        case Feeding():
            shares = [
                tr(
                    "{amount} on {zone}",
                    amount=trimmed(lb, 2, "lb"),
                    zone=zone_name(notebook, zone_id),
                )
                for zone_id, lb in record.pounds.items()
            ]
            product = product_name(notebook, record.product)
            return f"{product}, {names_told(shares)}", record.date
        case Care():
            where = names_told([zone_name(notebook, each) for each in record.zones])
            return f"{tr(record.kind)}, {where or tr('whole yard')}", record.date
        case SoilTest():
            zone = zone_name(notebook, record.zone)
            return tr("soil test of {zone}", zone=zone), record.date
    raise TypeError(f"{type(record).__name__} is not recorded by a tick")
