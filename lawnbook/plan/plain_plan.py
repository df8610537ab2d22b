"""The plan as short plain text, for a phone that reads it from the code on the sheet.

Lines are shorter than 40 letters and the whole has at most 1,200 bytes, so that the code stays
coarse enough to be read from paper. Where a yard's zones do not fit, the text tells less of each,
and then says how many are left out. It names the yard and its zones, and no place.
"""

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from lawnbook.agronomy.seasons import table_month
from lawnbook.frozen import dataclass
from lawnbook.plan.model import MonthWater, Plan, ZoneNitrogen, ZoneWater
from lawnbook.plan.water_model import NextRun, TimerStart
from lawnbook.plan.water_rules import WEEKDAYS
from lawnbook.plan.workings import (
    counted,
    cycle_minutes_told,
    run_minutes_told,
    told,
    told_most,
)
from lawnbook.reading import tr
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day, short_day

MOST_BYTES = 1200
"""Most bytes of the text in UTF-8."""

MOST_LETTERS = 39
"""Most letters of a line."""

_LEAST_OF_A_NAME = 8
CAUTION = tr("Label and local rules come first.")
_SEASON_NAMES = ("Winter", "Spring", "Summer", "Autumn")
_ORDER = ("Spring", "Summer", "Autumn", "Winter")
_WRITTEN_OTHERWISE = str.maketrans(
    {
        "–": "-", "—": "-", "−": "-", "×": "x", "’": "'", "\u2018": "'",
        "“": '"', "”": '"', "…": "...",
        "ß": "ss", "æ": "ae", "Æ": "Ae", "ø": "o", "Ø": "O", "ł": "l", "Ł": "L", "đ": "d", "ð": "d",
        "·": "-", "½": "1/2", "¼": "1/4", "¾": "3/4", "°": " deg",
    }
)  # fmt: skip


def plain_plan(notebook: Notebook, plan: Plan, most_bytes: int = MOST_BYTES) -> str:
    """The plan of its day in lines: yard, day, each zone's water and next feeding, the caution.

    ASCII but for letters that have no likeness in it. The same notebook and plan give the same
    text. A code with less room asks for fewer bytes than `MOST_BYTES`, though for 250 at least.
    """
    head = _head(notebook, plan)
    parts = [_part(notebook, plan, zone) for zone in plan.zones]
    for way in (_with_seasons, _with_days, _with_next):
        blocks = [("", _name(part.water), *way(part)) for part in parts]
        text = _text(head, (line for block in blocks for line in block))
        if _fits(text, most_bytes):
            return text
    return _shortest(head, [_brief(part) for part in parts], most_bytes)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """One zone of the plan with all that its lines are made of; `due` is its next run."""

    water: ZoneWater
    due: NextRun | ZoneWater
    nitrogen: ZoneNitrogen | None
    program: str
    starts: tuple[TimerStart, ...]
    hose_places: int
    latitude_deg: float


def _part(notebook: Notebook, plan: Plan, water: ZoneWater) -> _Part:
    record = notebook.zones.get(water.zone_id)
    is_hose = record is not None and record.sprinklers == "hose"
    nights = (
        (each.program, tuple(s for s in each.timer if s.zone_id == water.zone_id))
        for each in plan.programs
    )
    timed = next(((program, starts) for program, starts in nights if starts), None)
    program, starts = timed or ("" if record is None or is_hose else record.program, ())
    return _Part(
        water=water,
        due=water if water.next_run is None else water.next_run,
        nitrogen=next((n for n in plan.nitrogen if n.zone_id == water.zone_id), None),
        program=program.strip(),
        starts=starts,
        hose_places=(record.hose_places or 1) if record is not None and is_hose else 1,
        latitude_deg=notebook.yard.latitude_deg or 0.0,
    )


def _head(notebook: Notebook, plan: Plan) -> tuple[str, ...]:
    """Yard and day, and the days of the week on which the owner's rule lets water run."""
    days = [each for each in WEEKDAYS if each in notebook.water_rules.days]
    ruled = tr("Watering days: {days}", days=", ".join(map(tr, days)))
    title = tr("Yard plan of {day}", day=day(plan.on))
    return (plan.yard or tr("Lawn"), title, *((ruled,) if days else ()))


def _text(head: Sequence[str], lines: Iterable[str]) -> str:
    body = tuple(lines) or ("", tr("No zone is drawn yet."))
    return "\n".join(_cut(_ascii(line)) for line in (*head, *body, "", CAUTION))


def _shortest(head: Sequence[str], lines: Sequence[str], most_bytes: int) -> str:
    """A line for each zone, and of so many that they do not fit, the count of the rest."""
    shown = len(lines)
    text = _text(head, ("", *lines))
    while shown and not _fits(text, most_bytes):
        shown -= 1
        rest = counted(len(lines) - shown, "zone")
        more = tr("and {zones} more in the notebook", zones=rest)
        text = _text(head, ("", *lines[:shown], more))
    return text


def _with_seasons(part: _Part) -> Iterator[str]:
    """All of it: the next run, minutes and days of each season, the next feeding."""
    yield from _watering(part)
    for name, months in _by_season(part):
        yield f"{tr(name)} {_minutes_told(months)}{_every(months)}"
    yield from _feeding(part)


def _with_days(part: _Part) -> Iterator[str]:
    """The next run, the days between waterings of the seasons in a row, the next feeding."""
    yield from _watering(part)
    days = [f"{tr(name).lower()} {_span(_days(months))}" for name, months in _by_season(part)]
    yield from _filled(tr("Days: {days}", days=", ".join(days)) if days else "")
    yield from _feeding(part)


def _with_next(part: _Part) -> Iterator[str]:
    """The next run and the next feeding."""
    yield from _watering(part)
    yield from _feeding(part)


def _brief(part: _Part) -> str:
    """One line: the zone, its run, the day of its feeding."""
    upcoming = None if part.nitrogen is None else part.nitrogen.next_feeding
    run = _parts_told(part) if part.due.run_minutes is not None or part.starts else ""
    fed = "" if upcoming is None else tr("feed {day}", day=short_day(upcoming.date))
    told_of_it = ", ".join(each for each in (run, fed) if each) or tr("nothing due")
    room = max(_LEAST_OF_A_NAME, MOST_LETTERS - len(told_of_it) - 2)
    return f"{_cut(_ascii(_name(part.water)), room)}: {told_of_it}"


def _name(zone: ZoneWater) -> str:
    return f"{zone.number} {zone.zone}"


def _watering(part: _Part) -> Iterator[str]:
    zone = part.water
    if not zone.irrigated:
        yield tr("No irrigation")
    elif zone.establishing is not None:
        new = zone.establishing
        run = ""
        if new.run_minutes is not None:
            run = tr(", {minutes} in all", minutes=told(new.run_minutes, 0, "min"))
        often = tr("a day") if new.every_days == 1 else tr("every {days} days", days=new.every_days)
        yield tr("New {how} until {day}:", how=tr(new.how), day=short_day(new.until))
        yield tr("water {times} x {often}{run}", times=new.times_a_day, often=often, run=run)
    elif zone.next_allowed is None:
        yield tr("No watering planned now")
    else:
        yield from _run(part, zone)


def _run(part: _Part, zone: ZoneWater) -> Iterator[str]:
    times = [each.starts for each in part.starts if each.starts is not None]
    on = times[0].date() if times else zone.next_allowed
    named = tr(", program {program}", program=part.program) if part.program else ""
    yield (
        tr("Water {day}{program}", day=short_day(on), program=named)
        if on is not None
        else tr("Water{program}", program=named)
    )
    if times:
        yield from _filled(tr("Start {times}", times=", ".join(f"{each:%H:%M}" for each in times)))
    if part.due.run_minutes is None:
        depth = part.due.depth_in
        yield (
            tr("{depth}, minutes not known", depth=told(depth, 2, "in"))
            if depth
            else tr("Minutes not known")
        )
        return
    parts, soak = _parts_told(part), part.due.soak_minutes or 0.0
    soaks = ""
    if soak >= 1 and "x" in parts:
        soaks = tr(", soak {minutes}", minutes=told(soak, 0, "min"))
    places = tr(" at {count} places", count=part.hose_places) if part.hose_places > 1 else ""
    yield f"{parts}{soaks}{places}"


def _parts_told(part: _Part) -> str:
    """Cycles and minutes as a timer is set: "3 x 8 min", "8 + 12 min", "24 min"."""
    minutes = [each.minutes for each in part.starts] or _even(part.due)
    if len(set(minutes)) == 1:
        times = f"{len(minutes)} x " if len(minutes) > 1 else ""
        return f"{times}{minutes[0]} min"
    runs = [(length, len(list(alike))) for length, alike in groupby(minutes)]
    return f"{' + '.join(f'{n} x {m}' if n > 1 else f'{m}' for m, n in runs)} min"


def _even(due: NextRun | ZoneWater) -> list[int]:
    each, whole = cycle_minutes_told(due), run_minutes_told(due)
    if each is not None and due.cycles:
        return [each] * due.cycles
    return [whole or 0]


def _feeding(part: _Part) -> Iterator[str]:
    upcoming = None if part.nitrogen is None else part.nitrogen.next_feeding
    if upcoming is None:
        yield tr("No feeding planned")
        return
    most = f"{told_most(upcoming.pounds)} {unit_shown('lb')}"
    yield tr("Feed {day}: up to {most}", day=day(upcoming.date), most=most)
    yield tr("of {product}", product=upcoming.product or tr("nitrogen"))


def _by_season(part: _Part) -> Iterator[tuple[str, list[MonthWater]]]:
    """The seasons in which the zone is watered, spring first, each with its months."""
    for name in _ORDER:
        months = [
            month
            for month in part.water.months
            if _SEASON_NAMES[table_month(month.month, part.latitude_deg) % 12 // 3] == name
            and month.interval_days is not None
        ]
        if months:
            yield name, months


def _minutes_told(months: Sequence[MonthWater]) -> str:
    runs = [run for run in map(run_minutes_told, months) if run is not None]
    return f"{_span(runs)} min " if runs else ""


def _every(months: Sequence[MonthWater]) -> str:
    days = _days(months)
    return tr("daily") if set(days) == {1} else tr("every {days} days", days=_span(days))


def _days(months: Sequence[MonthWater]) -> list[int]:
    return [month.interval_days for month in months if month.interval_days is not None]


def _span(values: Sequence[int]) -> str:
    low, high = min(values), max(values)
    return f"{low}" if low == high else f"{low}-{high}"


def _filled(line: str) -> Iterator[str]:
    """A line broken at its blanks where it is too long."""
    current = ""
    for word in line.split():
        if current and len(current) + 1 + len(word) > MOST_LETTERS:
            yield current
            current = word
        else:
            current = f"{current} {word}".strip()
    if current:
        yield current


def _ascii(line: str) -> str:
    """A line in ASCII as far as its letters have a likeness there; others are kept."""
    if line.isascii() and line.isprintable():
        return line.strip()
    shown = "".join(
        " " if unicodedata.category(each) in ("Cc", "Zl", "Zp", "Zs") else each for each in line
    )
    return "".join(_likeness(each) for each in shown.translate(_WRITTEN_OTHERWISE)).strip()


def _likeness(letter: str) -> str:
    if letter.isascii():
        return letter
    taken_apart = unicodedata.normalize("NFKD", letter)
    plain = "".join(each for each in taken_apart if not unicodedata.combining(each))
    return plain if plain.isascii() else letter


def _cut(line: str, most: int = MOST_LETTERS) -> str:
    return line if len(line) <= most else f"{line[: most - 3].rstrip()}..."


def _fits(text: str, most_bytes: int) -> bool:
    return len(text.encode("utf-8")) <= most_bytes
