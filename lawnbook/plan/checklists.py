"""The checklists of the sprinklers: spring start-up and winter blow-out, ticked step by step.

A list is for twelve months, so that this year's ticks and last year's never mix: spring start-up
from January to December, winter blow-out from July to June, both six months later in the south.
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

from lawnbook.agronomy.seasons import is_south
from lawnbook.agronomy.sources import cite
from lawnbook.plan.checklist_model import Checklist, ListSeason, Step
from lawnbook.plan.checklist_steps import SPRING, SPRING_NOTE, WINTER, WINTER_NOTE, StepWords
from lawnbook.plan.frost import frost_comes
from lawnbook.plan.rates import rate_of
from lawnbook.plan.zone_facts import Setting, setting_of
from lawnbook.reading import tr
from lawnbook.yard.notebook import Change, Key, Notebook, as_of, new_id, put
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Care, ChecklistName, Record, Tick, Zone

CHECKLISTS: tuple[ChecklistName, ...] = ("spring start-up", "winter blow-out")
"""Every checklist, in the order of the year."""

FOUND_KIND = "repair"
"""What a care entry made of something found is called, unless the owner says otherwise."""

NO_LINES = tr("No zone has sprinkler lines in the ground, so there is nothing to {}.")
NO_FROST = tr(
    "Not needed here: no month of this yard’s climate is cold enough for frost. "
    "Where one hard night is still possible, drain or cover what stands above the "
    "ground."
)


def checklist_of(notebook: Notebook, name: ChecklistName, on: date) -> Checklist:
    """The checklist of the season that a day lies in, with what was ticked of it.

    For last year's list give a day of last year; ticks count whatever their day in that season.
    For the book as it stood on a day give it the notebook as of that day.
    """
    season = season_of(name, on, _latitude_deg(notebook))
    setting = setting_of(as_of(notebook, season.ends), season.ends)
    return checklist_in(notebook, name, season, setting)


def checklist_in(
    notebook: Notebook, name: ChecklistName, season: ListSeason, setting: Setting
) -> Checklist:
    """The same where season and setting are there already; the setting is of the season's end."""
    zones = [each for each in notebook.zones.values() if _has_lines(each)]
    is_spring = name == "spring start-up"
    if not zones:
        steps: tuple[Step, ...] = ()
        note = NO_LINES.format(tr("start up") if is_spring else tr("blow out"))
    else:
        words = SPRING if is_spring else WINTER
        steps = tuple(with_tick(notebook, step) for step in _steps(setting, words, name, season))
        note = SPRING_NOTE if is_spring else WINTER_NOTE
    needed = bool(zones) and (is_spring or frost_comes(setting))
    if zones and not needed:
        note = NO_FROST
    return Checklist(name=name, season=season, steps=steps, needed=needed, note=note)


def season_of(name: ChecklistName, on: date, latitude_deg: float) -> ListSeason:
    """The twelve months whose list a day belongs to, and their name, such as "winter 2026–27".

    Spring start-up runs with the calendar year, winter blow-out from July; in the south the other
    way round, since its spring begins in September.
    """
    is_spring = name == "spring start-up"
    if is_spring != is_south(latitude_deg):
        words = tr("spring {first}" if is_spring else "winter {first}", first=on.year)
        return ListSeason(starts=date(on.year, 1, 1), ends=date(on.year, 12, 31), words=words)
    first = on.year if on.month >= 7 else on.year - 1
    words = (
        tr("spring {first}", first=first)
        if is_spring
        else tr("winter {first}–{next_year:02d}", first=first, next_year=(first + 1) % 100)
    )
    return ListSeason(starts=date(first, 7, 1), ends=date(first + 1, 6, 30), words=words)


def step_words(name: ChecklistName, key: str) -> str:
    """What a step of a checklist says; its key where the list no longer has it."""
    written = SPRING if name == "spring start-up" else WINTER
    return next((each.words for each in written if each.key == key), key)


def last_season_day(checklist: Checklist) -> date:
    """The last day of the season before a checklist's own."""
    return checklist.season.starts - timedelta(days=1)


def tick(
    notebook: Notebook,
    step: Step,
    on: date,
    found: str = "",
    kind: str = FOUND_KIND,
    cost: float | None = None,
) -> Change:
    """The change that ticks a step on a day, with the care entry of what was found.

    A step that is ticked already is ticked anew: its care entry takes the words, kind and cost that
    are given now, and goes where nothing is found. OwnerError for a day outside of the step's
    season.
    """
    season = step.season
    if not season.starts <= on <= season.ends:
        raise OwnerError(
            tr(
                "Date: this list is that of {words}; choose a day from {starts} to {ends}, or "
                "turn to another year’s list.",
                words=season.words,
                starts=day(season.starts),
                ends=day(season.ends),
            )
        )
    before = step.tick
    care = None if before is None or before.care is None else notebook.care.get(before.care)
    noted = _care(care, step, on, found.strip(), (kind.strip() or FOUND_KIND, cost))
    ticked = Tick(
        id=new_id() if before is None else before.id,
        rank=0 if before is None else before.rank,
        date=on,
        checklist=step.checklist,
        step=step.key,
        zone=step.zone_id or None,
        found=found.strip(),
        care=None if noted is None else noted.id,
    )
    change = dict(put(notebook, "ticks", ticked))
    if noted is not None:
        change.update(put(notebook, "care", noted))
    elif care is not None:
        change[("care", care.id)] = (care, None)
    return change


def untick(notebook: Notebook, step: Step) -> Change:
    """The change that takes a tick back, with the care entry that was made of what was found."""
    if step.tick is None:
        return {}
    change: dict[Key, tuple[Record | None, Record | None]] = {
        ("ticks", step.tick.id): (step.tick, None)
    }
    care = notebook.care.get(step.tick.care or "")
    if care is not None:
        change[("care", care.id)] = (care, None)
    return change


def _care(
    held: Care | None, step: Step, on: date, found: str, what: tuple[str, float | None]
) -> Care | None:
    """The care entry of what was found: the held one with new words, a fresh one, or none."""
    if not found:
        return None
    kind, cost = what
    if held is not None:
        return replace(held, date=on, kind=kind, cost=cost, note=found)
    zones = (step.zone_id,) if step.zone_id else ()
    return Care(id=new_id(), date=on, kind=kind, zones=zones, cost=cost, note=found)


def _has_lines(zone: Zone) -> bool:
    return zone.irrigated and zone.sprinklers == "in-ground"


def _latitude_deg(notebook: Notebook) -> float:
    latitude = notebook.yard.latitude_deg
    return 0.0 if latitude is None else latitude


def _steps(
    setting: Setting, written: tuple[StepWords, ...], name: ChecklistName, season: ListSeason
) -> Iterator[Step]:
    zones = [each for each in setting.notebook.zones.values() if _has_lines(each)]
    for words in written:
        whole = Step(
            checklist=name,
            season=season,
            key=words.key,
            words=words.words,
            why=words.why,
            source=cite(words.source),
            leads_to=words.leads_to,
        )
        if words.each == "yard":
            yield whole
            continue
        for zone in zones:
            step = replace(whole, zone_id=zone.id, zone=zone.name)
            if words.each == "zone":
                yield step
            elif (untested := _untested(setting, step, zone)) is not None:
                yield untested


def _untested(setting: Setting, step: Step, zone: Zone) -> Step | None:
    """The step of a catch test: done where one stands in this season, None where none is wanted."""
    season = step.season
    tests = setting.notebook.catch_tests.values()
    days = [each.date for each in tests if each.zone == zone.id]
    rate = rate_of(setting.notebook, zone, setting.areas[zone.id], setting.on)
    if rate.source == "catch test" and not rate.stale:
        new = max(days)
        return replace(step, seen=new) if season.starts <= new else None
    why = (
        step.why if not rate.stale else tr("The test on record is stale: {stale}", stale=rate.stale)
    )
    return replace(step, why=why)


def with_tick(notebook: Notebook, step: Step) -> Step:
    """The step with its latest tick of the season, as the notebook holds it."""
    own = [
        each
        for each in notebook.ticks.values()
        if (each.checklist, each.step, each.zone or "") == (step.checklist, step.key, step.zone_id)
        and step.season.starts <= each.date <= step.season.ends
    ]
    return replace(step, tick=max(own, key=lambda each: (each.date, each.rank), default=None))
