"""The plan as a calendar file (iCalendar, RFC 5545): what is due and every coming feeding.

Each entry is a whole day or a span of days, with no time zone and no alarm. What it is has the same
UID in every export, and its SEQUENCE rises with the day of the plan, so that a calendar that takes
the file in again moves the entries it has instead of doubling them (RFC 5545 3.8.4.7 and 3.8.7.4).
A feeding is known by its zone, its month and how many have been before it in that month: once
spread it stays where it was, and the next one is another entry. What a later plan no longer holds
is not taken out of the owner's calendar: a file cannot tell what was taken in before, and each
entry names the day of its plan.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING
from unicodedata import category
from urllib.parse import quote

from lawnbook.frozen import dataclass
from lawnbook.plan.cautions import BACKFLOW, DIGGING, DRAIN, LABEL, LOCAL_FEEDING, LOCAL_WATER
from lawnbook.plan.model import Plan
from lawnbook.plan.season_model import PlannedSpread, Task, TaskKind
from lawnbook.plan.spreading_plan import a_year_on, spreading_plan
from lawnbook.plan.water_model import TimerStart
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import told_most
from lawnbook.reading import tr
from lawnbook.store.files import (
    refuse_missing_folder,
    refuse_other_file,
    refuse_wrong_suffix,
    written_whole,
)
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day, short_day
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from icalendar import Event

CALENDAR_SUFFIX = ".ics"
UID_DOMAIN = "lawnbook.invalid"
"""The right side of a UID: a name that no one can own (RFC 2606)."""

PRODUCT_ID = "-//Lawnbook//Season//EN"
FIRST_BYTES = b"BEGIN:VCALENDAR"

CATEGORY: Mapping[TaskKind, str] = MappingProxyType(
    {
        "water": "Watering",
        "feed": "Feeding",
        "plug": "Plugs",
        "test": tr("Soil test"),
        "mow": "Mowing",
        "care": tr("Lawn care"),
        "check": "Checklists",
    }
)
"""What a kind of entry is called in the calendar."""

SPANS: tuple[TaskKind, ...] = ("care", "check")
"""Kinds that fill all the days that suit; the others stand on the first of them."""

FEED_CAUTION = f"{LABEL} {LOCAL_FEEDING}"
CAUTIONS: Mapping[TaskKind, str] = MappingProxyType(
    {"water": LOCAL_WATER, "feed": FEED_CAUTION, "plug": DIGGING, "test": DIGGING}
)
"""The caution of each kind; that of care and checklists is told by what they are."""

OWN_IDS: Mapping[str, str] = MappingProxyType({})
"""Zones and spots go by the ids that they have."""

WHY_FEED = tr(
    "The first day on which the budget has room and no rule blocks, if the "
    "feedings before it are spread as planned."
)
ONE_DAY = timedelta(days=1)


class NothingDue(OwnerError):
    """No entry falls into the twelve months, so that there is no calendar to write."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One entry of the calendar; `ends` is the first day after it, as iCalendar tells it."""

    uid: str
    starts: date
    ends: date
    summary: str
    description: str
    category: str


def write_calendar(
    notebook: Notebook,
    plan: Plan,
    path: Path,
    ids: Mapping[str, str] = OWN_IDS,
    last: Callable[[], None] = lambda: None,
) -> None:
    """Write the calendar of a plan to a file, whole or not at all; `ids` as for `calendar_bytes`.

    `last` may raise just before the file takes its place: nothing is left behind then.
    OwnerError for a name that does not end in .ics, a file of another kind in the way, a folder
    that is not there or cannot be written, and a plan in which nothing is due.
    """
    refuse_unfit(path)
    data = calendar_bytes(notebook, plan, spreading_plan(notebook, plan.on), ids)
    with written_whole(path, last) as fresh:
        fresh.write_bytes(data)


def refuse_unfit(path: Path) -> None:
    """Raise OwnerError where a calendar cannot be put under this name; see `write_calendar`."""
    refuse_wrong_suffix(path, CALENDAR_SUFFIX, tr("A calendar"))
    refuse_missing_folder(path)
    refuse_other_file(path, FIRST_BYTES, tr("a calendar"))


def calendar_bytes(
    notebook: Notebook,
    plan: Plan,
    spreads: Sequence[PlannedSpread],
    ids: Mapping[str, str] = OWN_IDS,
) -> bytes:
    """The calendar as the bytes of its file. NothingDue where nothing is due within a year.

    `ids` are what zones and spots go by in the UIDs in place of their own ids.
    """
    from icalendar import Calendar, vText

    entries = calendar_entries(notebook, plan, spreads, ids)
    if not entries:
        raise NothingDue(
            tr(
                "Calendar: nothing is due in the twelve months from {on}; draw a zone and "
                "enter its climate first.",
                on=day(plan.on),
            )
        )
    calendar = Calendar()
    calendar.add("prodid", PRODUCT_ID)
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    for name in ("name", "x-wr-calname"):
        # The library knows neither as text, and would write commas and semicolons bare.
        calendar.add(name, vText(_shown(plan.yard) or tr("Lawn")))
    for entry in entries:
        calendar.add_component(_event(entry, plan.on))
    data: bytes = calendar.to_ical()
    return data


def calendar_entries(
    notebook: Notebook,
    plan: Plan,
    spreads: Sequence[PlannedSpread],
    ids: Mapping[str, str] = OWN_IDS,
) -> tuple[Entry, ...]:
    """All that is due within twelve months, by first day; each coming feeding once.

    The next feeding of a zone is its task's entry where the plan has one.
    """
    uid_of, last = _uids(notebook, plan, spreads, ids), a_year_on(plan.on)
    told = {(each.zone_id, each.date) for each in plan.tasks if _is_feeding(each)}
    later = (each for each in spreads if (each.zone_id, each.date) not in told)
    entries = [
        *(_of_task(notebook, plan, task, uid_of(task)) for task in plan.tasks),
        *(_of_spread(notebook, plan, spread, uid_of(spread)) for spread in later),
    ]
    within = (each for each in entries if each.starts <= last)
    return tuple(sorted(within, key=lambda each: (each.starts, each.uid)))


def _uids(
    notebook: Notebook, plan: Plan, spreads: Sequence[PlannedSpread], ids: Mapping[str, str]
) -> Callable[[Task | PlannedSpread], str]:
    """What tells the UID of a task or spread: its key, for a feeding with its place in its month.

    What belongs to no zone or spot has the first zone's id, since two notebooks share no id.
    """
    first_zone = next(iter(notebook.zones), "yard")
    days = {(each.zone_id, each.date) for each in spreads}
    days |= {(each.zone_id, each.date) for each in plan.tasks if _is_feeding(each)}
    days |= {
        (zone_id, each.date)
        for each in notebook.feedings.values()
        for zone_id in each.pounds
        if each.date <= plan.on
    }

    def place(zone_id: str, on: date) -> int:
        month = (on.year, on.month)
        return sum(
            key == zone_id and (that.year, that.month) == month and that <= on for key, that in days
        )

    def uid(of: Task | PlannedSpread) -> str:
        if isinstance(of, PlannedSpread) or _is_feeding(of):
            on, zone_id = of.date, ids.get(of.zone_id, of.zone_id)
            key = f"feed:{zone_id}:{on.year}-{on.month:02}:{place(of.zone_id, on)}"
        elif of.zone_id or of.spot_id:
            key = of.key
            for own in filter(None, (of.zone_id, of.spot_id)):
                key = key.replace(own, ids.get(own, own))
        else:
            key = f"{of.key}:{ids.get(first_zone, first_zone)}"
        return f"{quote(key, safe=':')}@{UID_DOMAIN}"

    return uid


def _is_feeding(task: Task) -> bool:
    """Whether a task is something to spread on a zone, and not a word on feeding."""
    return task.kind == "feed" and bool(task.zone_id) and task.pounds is not None


def _of_task(notebook: Notebook, plan: Plan, task: Task, uid: str) -> Entry:
    last = task.latest if task.kind in SPANS and task.latest is not None else task.date
    last = max(task.date, min(last, a_year_on(plan.on)))
    return Entry(
        uid=uid,
        starts=task.date,
        ends=last + ONE_DAY,
        summary=_shown(_task_summary(task)),
        description=_described(
            (
                task.why,
                _latest_told(task.latest),
                *(_timer_told(plan, task.zone_id) if task.kind == "water" else ()),
                _caution(task),
                *_workings_told(task.workings),
                _origin(notebook, plan),
            )
        ),
        category=CATEGORY[task.kind],
    )


def _of_spread(notebook: Notebook, plan: Plan, spread: PlannedSpread, uid: str) -> Entry:
    return Entry(
        uid=uid,
        starts=spread.date,
        ends=spread.date + ONE_DAY,
        summary=_shown(_feed_summary(spread.zone, spread.pounds, spread.product)),
        description=_described(
            (
                WHY_FEED,
                _latest_told(spread.latest),
                FEED_CAUTION,
                *_workings_told(spread.workings),
                _origin(notebook, plan),
            )
        ),
        category=CATEGORY["feed"],
    )


def _task_summary(task: Task) -> str:
    """What is to be done, and where unless its words tell that already."""
    if _is_feeding(task):
        return _feed_summary(task.zone, task.pounds or 0.0, task.product)
    where = task.spot or task.zone
    return task.what if where in task.what else f"{task.what}: {where}"


def _feed_summary(zone: str, pounds: float, product: str) -> str:
    return tr(
        "Feed {zone}: up to {pounds} {unit_shown} of {product}",
        zone=zone,
        pounds=told_most(pounds),
        unit_shown=unit_shown("lb"),
        product=product or "nitrogen",
    )


def _latest_told(latest: date | None) -> str:
    return "" if latest is None else tr("Last day that suits: {latest}.", latest=day(latest))


def _workings_told(workings: Sequence[Working]) -> Iterator[str]:
    """Each working's figure, and its formula with the numbers put in."""
    for each in workings:
        yield f"{each.label}: {each.value}\n{each.formula}: {each.filled}"


def _timer_told(plan: Plan, zone_id: str) -> Iterator[str]:
    """The timer's program and starts of a zone's next run, where they are known."""
    for night in plan.programs:
        starts = [each for each in night.timer if each.zone_id == zone_id]
        if starts and all(each.starts is not None for each in starts):
            program = tr(", program {program}", program=night.program) if night.program else ""
            yield tr(
                "Timer{program}: {map}.", program=program, map="; ".join(map(_start_told, starts))
            )


def _start_told(start: TimerStart) -> str:
    if start.starts is None:
        return f"{start.minutes} min"
    return tr(
        "{date} {starts:%H:%M} for {minutes} min",
        date=short_day(start.starts.date()),
        starts=start.starts,
        minutes=start.minutes,
    )


def _caution(task: Task) -> str:
    kind = task.care_kind.lower()
    if task.kind == "check":
        return f"{BACKFLOW} {DRAIN}" if "winter" in kind else f"{BACKFLOW} {DIGGING}"
    if task.kind == "care":
        return DIGGING if "aerat" in kind or "coring" in kind else ""
    return CAUTIONS.get(task.kind, "")


def _origin(notebook: Notebook, plan: Plan) -> str:
    """Which plan it is from: what the calendar shows may be older than the notebook."""
    return tr(
        "From the plan of {on} for {name}.",
        on=day(plan.on),
        name=notebook.yard.name or tr("the lawn"),
    )


def _described(parts: Sequence[str]) -> str:
    return "\n\n".join(_shown(part) for part in parts if part)


def _shown(text: str) -> str:
    """Text without the control characters that iCalendar forbids in it; line ends stay."""
    return "".join(each for each in text if each == "\n" or category(each) != "Cc")


def _event(entry: Entry, on: date) -> "Event":
    from icalendar import Event

    event = Event()
    event.add("uid", entry.uid)
    event.add("dtstamp", datetime.combine(on, time(), tzinfo=UTC))
    event.add("sequence", on.toordinal())
    event.add("dtstart", entry.starts)
    event.add("dtend", entry.ends)
    event.add("summary", entry.summary)
    event.add("description", entry.description)
    event.add("categories", [entry.category])
    event.add("transp", "TRANSPARENT")
    return event
