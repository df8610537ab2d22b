"""The weeks of a year that suit coring and overseeding, zone by zone, by growth in the usual year.

Both are optional: a window says when the grass would heal or come up, never that it must be done.
A pre-emergent keeps seed out until the day of its label, and new turf is not cored in its first
year.
"""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta
from functools import lru_cache
from types import MappingProxyType

from lawnbook.agronomy.seasons import is_south
from lawnbook.plan.care_marks import care_kind, done_in
from lawnbook.plan.growth import why_no_growth
from lawnbook.plan.season_model import CareWindow
from lawnbook.plan.warm_days import warm_days
from lawnbook.plan.window_workings import (
    AERATION,
    OVERSEEDING,
    Weeks,
    day_in_year,
    usual_spans,
    window_workings,
)
from lawnbook.plan.working_model import Working
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.record_base import Grass
from lawnbook.yard.records import Care, Zone

SAME_CARE: Mapping[str, frozenset[str]] = MappingProxyType(
    {
        AERATION: frozenset({AERATION, "coring", "core aeration", "aerated", "cored"}),
        OVERSEEDING: frozenset({OVERSEEDING, "overseeded", "reseeding"}),
    }
)
"""What else owners call the same."""

NEW_TURF_DAYS = 365
"""New turf is not cored for so long (source "care-weeks")."""

NEW_SEED_DAYS = 180
"""New turf fills in by itself for so long before it is sown again (common practice)."""

NEW_NOT_CORED = tr("New turf is not cored in its first year.")
NEW_NOT_SOWN = tr("New turf is left half a year to fill in.")

LAID_ONLY = frozenset({"st. augustinegrass"})
"""Species that are laid or planted; no seed of them is sown (common practice)."""

_WHY: Mapping[tuple[str, Grass, bool], str] = MappingProxyType(
    {
        (AERATION, "cool", True): tr(
            "Summer’s heat is over and the grass grows fast: holes close before growth ends."
        ),
        (AERATION, "cool", False): tr(
            "The grass grows fast before summer’s heat, so that holes close; late summer "
            "suits it better."
        ),
        (AERATION, "warm", False): tr("The grass comes to its best growth, so that holes close."),
        (OVERSEEDING, "cool", True): tr(
            "The ground is warm and summer’s heat is over; seed has weeks to root before "
            "growth ends."
        ),
        (OVERSEEDING, "warm", False): tr(
            "It is warm enough for seed of its own kind, with weeks to root before growth ends."
        ),
    }
)
"""Why the weeks suit a kind of care and a grass, after midsummer or before."""


def care_windows(setting: Setting, year: int) -> tuple[CareWindow, ...]:
    """The windows that open in a calendar year, in date order; one may end in the next.

    None where a month has no temperature: `why_no_windows` says so. Source: "care-weeks".
    """
    return _in_order(setting, _of_grasses(setting, year))


def windows_between(setting: Setting, first: date, last: date) -> tuple[CareWindow, ...]:
    """The windows of any year that hold a day from `first` to `last`, in date order."""
    weeks = (
        each
        for year in range(first.year - 1, last.year + 1)
        for each in _of_grasses(setting, year)
        if each.starts <= last and each.ends >= first
    )
    return tuple(
        each for each in _in_order(setting, weeks) if each.starts <= last and each.ends >= first
    )


def why_no_windows(setting: Setting) -> str:
    """Why no weeks can be told, in a sentence; empty where they can."""
    growth = tuple(None if each is None else 1.0 for each in warm_days(setting.notebook).month_f)
    return why_no_growth(growth)


def last_care(notebook: Notebook, kind: str, zone_id: str) -> Care | None:
    """The last care of a kind (or what else it is called) that covers a zone."""
    names = SAME_CARE.get(kind, frozenset({kind}))
    done = (
        care
        for care in notebook.care.values()
        if care_kind(care) in names and done_in(care, zone_id)
    )
    return max(done, key=lambda care: (care.date, care.rank), default=None)


def _in_order(setting: Setting, weeks: Iterable[Weeks]) -> tuple[CareWindow, ...]:
    windows = (window for each in weeks for window in _of_zones(setting, each))
    return tuple(sorted(windows, key=lambda each: (each.starts, each.kind, each.ends)))


def _of_grasses(setting: Setting, year: int) -> Iterator[Weeks]:
    for grass in dict.fromkeys(zone.grass for zone in setting.notebook.zones.values()):
        yield from _weeks(setting, grass, year)


def _weeks(setting: Setting, grass: Grass, year: int) -> Iterator[Weeks]:
    month_f = warm_days(setting.notebook).month_f
    if any(each is None for each in month_f):
        return
    south = is_south(setting.latitude_deg)
    spans, hottest = _usual_spans(month_f, grass, south)
    for start_year in (year - 1, year) if south else (year,):
        for kind, listed in ((AERATION, spans.coring), (OVERSEEDING, spans.sowing)):
            for span in listed:
                starts, ends = (
                    day_in_year(each, start_year, south) for each in (span.first, span.last)
                )
                if starts.year == year:
                    late = grass == "cool" and span.first >= hottest
                    yield Weeks(kind, grass, starts, ends, late, start_year)


_usual_spans = lru_cache(maxsize=8)(usual_spans)


def _of_zones(setting: Setting, weeks: Weeks) -> Iterator[CareWindow]:
    """The weeks of the zones of a grass, parted where some zones have to wait."""
    groups: dict[tuple[date, str], list[Zone]] = {}
    for zone in setting.notebook.zones.values():
        if zone.grass != weeks.grass or not _suits(zone, weeks.kind):
            continue
        starts, waits = _waits(setting, zone, weeks)
        if starts <= weeks.ends:
            groups.setdefault((starts, waits), []).append(zone)
    workings = tuple(_workings(setting, weeks)) if groups else ()
    for (starts, waits), zones in groups.items():
        why = _WHY[(weeks.kind, weeks.grass, weeks.late)]
        yield CareWindow(
            kind=weeks.kind,
            starts=starts,
            ends=weeks.ends,
            zone_ids=tuple(zone.id for zone in zones),
            zones=tuple(zone.name for zone in zones),
            why=f"{why} {waits}".strip(),
            workings=workings,
        )


def _workings(setting: Setting, weeks: Weeks) -> Iterator[Working]:
    month_f = warm_days(setting.notebook).month_f
    return window_workings(month_f, weeks, is_south(setting.latitude_deg))


def _suits(zone: Zone, kind: str) -> bool:
    return kind != OVERSEEDING or zone.species.strip().lower() not in LAID_ONLY


def _waits(setting: Setting, zone: Zone, weeks: Weeks) -> tuple[date, str]:
    """The first day for a zone, and what it waits for where that is later than the weeks begin."""
    began = zone.established.date if zone.established is not None else None
    coring = weeks.kind == AERATION
    held: list[tuple[date, str]] = [(weeks.starts, "")]
    if began is not None and began <= weeks.ends:
        until = began + timedelta(days=NEW_TURF_DAYS if coring else NEW_SEED_DAYS)
        held.append((until, NEW_NOT_CORED if coring else NEW_NOT_SOWN))
    label = None if coring else _no_seed_until(setting, zone, weeks.ends)
    if label is not None:
        held.append((label, tr("The pre-emergent keeps seed out until {label}.", label=day(label))))
    return max(held, key=lambda each: each[0])


def _no_seed_until(setting: Setting, zone: Zone, ends: date) -> date | None:
    """The latest day of a label before which no seed comes up, of what was put down by then."""
    days = [
        care.no_seed_until
        for care in setting.notebook.care.values()
        if care.no_seed_until is not None and care.date <= ends and done_in(care, zone.id)
    ]
    return max(days, default=None)
