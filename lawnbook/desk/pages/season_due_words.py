"""The words of what is due: when, under which head, and what is missing where nothing is."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta

from lawnbook.frozen import dataclass
from lawnbook.plan.model import Due, Plan
from lawnbook.plan.season import span_words, within
from lawnbook.plan.season_model import Task
from lawnbook.plan.workings import told_most
from lawnbook.reading import reading, tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day, plain, short_day

NOW, SOON, LATER = tr("Now"), tr("Next two weeks"), tr("Later")
SOON_DAYS = 14

NOTHING = tr("Nothing is due.")

UNITS: Mapping[str, str] = {"minutes": "min", "depth": "in", "pounds": "lb"}

CAUTION = tr(
    "Days and weeks are proposals from the usual year; what you see on the lawn "
    "goes before them. Mark heads and have buried lines located before you aerate "
    "or pull a plug."
)


@dataclass(frozen=True, slots=True)
class Missing:
    """A sentence on what is missing, and the page on which it is entered, "" for none."""

    sentence: str
    page: str = ""


def grouped(due: Iterable[Due], on: date) -> tuple[tuple[str, tuple[Due, ...]], ...]:
    """What is due under its heads, those without anything left out."""
    heads: dict[str, list[Due]] = {NOW: [], SOON: [], LATER: []}
    for each in due:
        heads[head_of(each.date, on)].append(each)
    return tuple((head, tuple(rows)) for head, rows in heads.items() if rows)


def head_of(due_on: date, on: date) -> str:
    """The head under which a day stands, as seen from another."""
    if due_on <= on:
        return NOW
    return SOON if due_on <= on + timedelta(days=SOON_DAYS) else LATER


def when(due: Due, on: date) -> tuple[str, str]:
    """The first day, and "to" the last one that suits, "" where that is open or the same."""
    first = tr("now") if due.date <= on else short_day(due.date)
    if due.latest is None or due.latest == due.date:
        return first, ""
    return first, tr("to {latest}", latest=short_day(due.latest))


def spoken(due: Due, on: date) -> str:
    """A line as a screen reader says it."""
    first, last = when(due, on)
    return f"{first} {last}".strip() + f": {due.what}"


def button_words(due: Due) -> str:
    """What the button of a line says: what has to be read or gone through is opened."""
    return {"plug": tr("Enter plug"), "check": tr("Open checklist")}.get(due.kind, tr("Done"))


def unit_kind(task: Task) -> str:
    """What is typed for a task: "minutes", "depth", "pounds", or "" for nothing."""
    if task.kind == "feed":
        return "pounds"
    if task.kind != "water":
        return ""
    return "minutes" if task.minutes is not None else "depth"


def prefilled(task: Task) -> str:
    """The amount that is proposed for a task, as it is typed; "" where none is known."""
    if task.kind == "feed":
        return "" if task.pounds is None else _typed(told_most(task.pounds))
    if task.minutes is not None:
        return _typed(plain(task.minutes, 0))
    return "" if task.depth_in is None else _typed(plain(task.depth_in, 2, "in"))


def _typed(number: str) -> str:
    """A number as it is typed, its thousands not parted."""
    group = reading().group
    return number.replace(group, "") if group else number


def missing(notebook: Notebook, plan: Plan) -> tuple[Missing, ...]:
    """What to enter, and where, so that more can be told."""
    return tuple(_missing(notebook, plan))


def _missing(notebook: Notebook, plan: Plan) -> Iterator[Missing]:
    if not notebook.zones:
        yield Missing(tr("No zone is drawn yet: what is due is told zone by zone."), "Yard")
        return
    has_eto = any(each.eto_in_per_day is not None for each in notebook.climate.values())
    if not notebook.weather and not has_eto:
        yield Missing(
            tr(
                "No weather is known yet, so that waterings and growth cannot be told: import "
                "daily weather, or fill in the usual months."
            ),
            "Yard",
        )
    if not notebook.products:
        yield Missing(tr("No product is on the shelf yet, so that no feeding falls due."), "Feed")
    yield from _resting(notebook, plan)


def _resting(notebook: Notebook, plan: Plan) -> Iterator[Missing]:
    season = notebook.yard.irrigation_season
    if season is None or within(season, plan.on):
        return
    if any(zone.irrigated for zone in plan.zones):
        yield Missing(
            tr(
                "The irrigation season is {span_words}: no watering is planned for {on}.",
                span_words=span_words(season),
                on=day(plan.on),
            )
        )
