"""Everything recorded, and what is planned, as marks of the year: by day and by kind."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import TypeVar

from lawnbook.plan.care_marks import MOWING, care_kind
from lawnbook.plan.due import names_told
from lawnbook.plan.model import Plan
from lawnbook.plan.record_names import product_name, spot_name, zone_name
from lawnbook.plan.season_model import PlannedSpread, TaskKind
from lawnbook.plan.season_year_model import RecordKey, SeasonMark, SeasonRow
from lawnbook.plan.workings import counted, told_most
from lawnbook.reading import tr
from lawnbook.yard.amounts import trimmed, unit_shown
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import inches, minutes
from lawnbook.yard.records import Care, CatchTest, Core, Feeding, SoilTest, Tick, Watering

ROWS: tuple[SeasonRow, ...] = ("water", "feed", "mow", "plug", "care", "check")
"""The rows from top to bottom."""

MOST_LINES = 6
"""So many things done on one day are told one by one."""

ROW_OF_TASK: Mapping[TaskKind, SeasonRow] = {
    "water": "water",
    "mow": "mow",
    "plug": "plug",
    "test": "check",
    "check": "check",
}
"""Feedings are planned further ahead than the tasks go, and care that is due has its weeks."""

D = TypeVar("D", Care, CatchTest, Core, Feeding, SoilTest, Tick, Watering)
"""A dated record that has its mark."""

_Entry = tuple[date, SeasonRow, str, RecordKey]


def recorded_marks(known: Notebook, starts: date, ends: date) -> tuple[SeasonMark, ...]:
    """What was done from one day to another, both included: a mark for each day and row."""
    by_place: dict[tuple[date, SeasonRow], list[tuple[str, RecordKey]]] = {}
    for on, row, words, key in _entries(known, starts, ends):
        by_place.setdefault((on, row), []).append((words, key))
    marks = [
        SeasonMark(
            date=on,
            row=row,
            words=_lines([words for words, _ in entries if words]),
            records=tuple(key for _, key in entries),
        )
        for (on, row), entries in by_place.items()
    ]
    return tuple(sorted(marks, key=_place))


def planned_marks(
    plan: Plan, spreads: Iterable[PlannedSpread], starts: date, ends: date
) -> tuple[SeasonMark, ...]:
    """What is to come in those days: the feedings planned, and what else is due."""
    by_place: dict[tuple[date, SeasonRow], list[str]] = {}
    for spread in spreads:
        by_place.setdefault((spread.date, "feed"), []).append(_spread_told(spread))
    for task in plan.tasks:
        if task.kind in ROW_OF_TASK:
            by_place.setdefault((task.date, ROW_OF_TASK[task.kind]), []).append(task.what)
    marks = [
        SeasonMark(date=on, row=row, words=_lines(list(dict.fromkeys(told))), planned=True)
        for (on, row), told in by_place.items()
        if starts <= on <= ends
    ]
    return tuple(sorted(marks, key=_place))


def _place(mark: SeasonMark) -> tuple[int, date]:
    return ROWS.index(mark.row), mark.date


def _lines(told: list[str]) -> tuple[str, ...]:
    if len(told) <= MOST_LINES + 1:
        return tuple(told)
    return (*told[:MOST_LINES], tr("and {count} more", count=len(told) - MOST_LINES))


def _spread_told(spread: PlannedSpread) -> str:
    what = spread.product or "nitrogen"
    return tr(
        "Up to {pounds} {unit_shown} of {what}: {zone}",
        pounds=told_most(spread.pounds),
        unit_shown=unit_shown("lb"),
        what=what,
        zone=spread.zone,
    )


def _entries(known: Notebook, starts: date, ends: date) -> Iterator[_Entry]:
    """Every record of those days; words are made only for them, of decades of waterings."""

    def held(rows: Mapping[str, D]) -> list[D]:
        return [each for each in rows.values() if starts <= each.date <= ends]

    for watering in held(known.waterings):
        yield watering.date, "water", _watering(known, watering), ("waterings", watering.id)
    for feeding in held(known.feedings):
        yield feeding.date, "feed", _feeding(known, feeding), ("feedings", feeding.id)
    for core in held(known.cores):
        yield core.date, "plug", _plug(known, core), ("cores", core.id)
    for care in held(known.care):
        row: SeasonRow = "mow" if care_kind(care) == MOWING else "care"
        yield care.date, row, _care(known, care), ("care", care.id)
    for soil in held(known.soil_tests):
        yield (
            soil.date,
            "check",
            tr("Soil test: {zone_name}", zone_name=zone_name(known, soil.zone)),
            ("soil_tests", soil.id),
        )
    for cans in held(known.catch_tests):
        yield (
            cans.date,
            "check",
            tr("Catch test: {zone_name}", zone_name=zone_name(known, cans.zone)),
            ("catch_tests", cans.id),
        )
    yield from _ticks(held(known.ticks))


def _ticks(ticks: Sequence[Tick]) -> Iterator[_Entry]:
    """The ticks of one list on one day are told once, with all of their records."""
    numbers: dict[tuple[date, str], int] = {}
    for tick in ticks:
        place = (tick.date, tick.checklist)
        numbers[place] = numbers.get(place, 0) + 1
    told: set[tuple[date, str]] = set()
    for tick in ticks:
        place = (tick.date, tick.checklist)
        words = tr(
            "{checklist}: {steps} ticked",
            checklist=tr(tick.checklist).capitalize(),
            steps=counted(numbers[place], "step"),
        )
        yield tick.date, "check", "" if place in told else words, ("ticks", tick.id)
        told.add(place)


def _watering(known: Notebook, watering: Watering) -> str:
    put_down = "" if watering.minutes is None else minutes(watering.minutes)
    if not put_down:
        put_down = "" if watering.depth_in is None else inches(watering.depth_in)
    watered = tr("Watered {zone}", zone=zone_name(known, watering.zone))
    return f"{watered}: {put_down}" if put_down else watered


def _feeding(known: Notebook, feeding: Feeding) -> str:
    name = product_name(known, feeding.product)
    shares = [
        f"{zone_name(known, zone_id)} {trimmed(lb, 2, 'lb')}"
        for zone_id, lb in feeding.pounds.items()
    ]
    return f"{name}: {names_told(shares)}"


def _plug(known: Notebook, core: Core) -> str:
    name = spot_name(known, core.spot)
    if not core.thatch_in:
        return tr("Plug at {name}, thatch not read", name=name)
    return tr(
        "Plug at {name}: thatch {thatch_in}",
        name=name,
        thatch_in=inches(sum(core.thatch_in) / len(core.thatch_in)),
    )


def _care(known: Notebook, care: Care) -> str:
    names = names_told([zone_name(known, zone_id) for zone_id in care.zones])
    kind = care.kind.strip()
    return f"{kind[:1].upper()}{kind[1:]}: {names or 'whole yard'}"
