"""What is due, in date order: waterings and feedings, plugs to pull, soil to test."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from types import MappingProxyType

from lawnbook.agronomy.seasons import table_month
from lawnbook.agronomy.soil_test import SOIL_TEST_YEARS, next_test_due
from lawnbook.plan.frost import frost_comes
from lawnbook.plan.model import Due, WateringRule, ZoneNitrogen, ZoneWater
from lawnbook.plan.roots import zone_of_spot
from lawnbook.plan.season import day_after, within
from lawnbook.plan.workings import told, told_most_together
from lawnbook.plan.zone_facts import Setting
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Spot

PLUG_MONTHS = (4, 5, 9, 10)
"""Spring and autumn in the north, when plugs are pulled (common practice)."""

PLUG_EVERY_DAYS = 180
"""A spot last plugged longer ago is due (common practice)."""

PLUG_NOT_BEFORE_DAYS = 100
"""Where half a year would miss a spring or autumn, its last month will do after so many days."""

HORIZON_DAYS = 60
"""Plugs, tests and the end of a wait for seed are not told yet where they come later than this."""

SHUT_DOWN_WITHIN_DAYS = 30
"""The season's end is told from so many days before."""

PLUGS_WHY = "Plugs are pulled in spring and in autumn, at the same spots (common practice)."
NAMES_TOLD = 4

WHY_WATER: Mapping[WateringRule, str] = MappingProxyType(
    {
        "deep": "What the roots bear, or the target, is used up by then unless it rains.",
        "light": "New seed or sod is kept moist until it has rooted.",
        "survival": "The crowns of dormant grass are kept alive; it does not turn green.",
    }
)

NOTHING = "0.00"
"""A depth that is told so is no watering: roots that do not reach the soil bear none."""


def due_of(
    setting: Setting, water: Sequence[ZoneWater], nitrogen: Sequence[ZoneNitrogen]
) -> tuple[Due, ...]:
    """All that is due from the day of the plan on, in date order."""
    listed = [
        *_waterings(water),
        *_shut_down(setting),
        *_feedings(nitrogen),
        *_plugs(setting),
        *_soil_tests(setting),
        *_seed_again(setting),
    ]
    return tuple(sorted(listed, key=lambda due: due.date))


def names_told(names: Sequence[str]) -> str:
    """Names in a row, the rest counted: "A, B, C, D and 3 more"."""
    if len(names) <= NAMES_TOLD + 1:
        return ", ".join(names)
    return f"{', '.join(names[:NAMES_TOLD])} and {len(names) - NAMES_TOLD} more"


def _waterings(water: Iterable[ZoneWater]) -> Iterator[Due]:
    groups: dict[tuple[date, WateringRule], list[ZoneWater]] = {}
    for zone in water:
        if zone.next_allowed is not None and zone.depth_in and told(zone.depth_in) != NOTHING:
            groups.setdefault((zone.next_allowed, zone.rule), []).append(zone)
    for (on, rule), zones in groups.items():
        names = tuple(zone.zone for zone in zones)
        depths = [_depth_in(zone) for zone in zones]
        yield Due(
            date=on,
            kind="water",
            what=f"Water {_span(depths, 'in')}: {names_told(names)}",
            zones=names,
            why=WHY_WATER[rule],
        )


def _depth_in(zone: ZoneWater) -> float:
    """What a zone's next watering puts down: it may be more or less than the usual depth."""
    run = zone.next_run
    return run.depth_in if run is not None else zone.depth_in or 0.0


def _shut_down(setting: Setting) -> Iterator[Due]:
    """The end of the irrigation season where frost follows it and lines lie in the ground."""
    zones = tuple(
        zone.name
        for zone in setting.notebook.zones.values()
        if zone.irrigated and zone.sprinklers == "in-ground"
    )
    if setting.season is None or not zones or not frost_comes(setting):
        return
    ends = (
        day_after(setting.season, year) - timedelta(days=1)
        for year in (setting.on.year, setting.on.year + 1)
    )
    last = next(each for each in ends if each >= setting.on)
    ends_there = not within(setting.season, last + timedelta(days=1))
    if ends_there and (last - setting.on).days <= SHUT_DOWN_WITHIN_DAYS:
        yield Due(
            date=last,
            kind="water",
            what="Shut down the irrigation before frost",
            zones=zones,
            why="The irrigation season ends; water left in lines, heads and the backflow preventer "
            "bursts them in a hard freeze.",
        )


def _feedings(nitrogen: Iterable[ZoneNitrogen]) -> Iterator[Due]:
    """The next feedings by day and product; without a product nothing can be spread."""
    groups: dict[tuple[date, str], list[tuple[str, float]]] = {}
    for zone in nitrogen:
        upcoming = zone.next_feeding
        if upcoming is not None and upcoming.product:
            group = groups.setdefault((upcoming.date, upcoming.product), [])
            group.append((zone.zone, upcoming.pounds))
    for (on, product), zones in groups.items():
        names = tuple(name for name, _ in zones)
        most = told_most_together(pounds for _, pounds in zones)
        yield Due(
            date=on,
            kind="feed",
            what=f"Up to {most} lb of {product}: {names_told(names)}",
            zones=names,
            why="The first day on which the budget has room and no rule blocks.",
        )


def next_plug_day(setting: Setting, spot_id: str) -> date:
    """The next day on which a spot's plug is due: in season, and half a year after its last."""
    cores = setting.cores.get(spot_id, ())
    since = _half_a_year_after(cores[-1].date, setting.latitude_deg) if cores else setting.on
    return _plug_day(max(setting.on, since), setting.latitude_deg)


def _half_a_year_after(last: date, latitude_deg: float) -> date:
    """Half a year after a plug, or the start of the last plug month that this would miss.

    A plug of late May is followed by one in October, not in the next April.
    """
    due = last + timedelta(days=PLUG_EVERY_DAYS)
    month = due.replace(day=1)
    while table_month(month.month, latitude_deg) not in PLUG_MONTHS:
        month = (month - timedelta(days=1)).replace(day=1)
    missed = month != due.replace(day=1)
    return month if missed and (month - last).days >= PLUG_NOT_BEFORE_DAYS else due


def _plugs(setting: Setting) -> Iterator[Due]:
    by_date: dict[date, list[tuple[Spot, str]]] = {}
    for spot in setting.notebook.spots.values():
        on = next_plug_day(setting, spot.id)
        if on <= setting.on + timedelta(days=HORIZON_DAYS):
            zone = setting.notebook.zones.get(zone_of_spot(setting.notebook, spot))
            by_date.setdefault(on, []).append((spot, zone.name if zone else ""))
    for on, spots in by_date.items():
        once = [spot.name for spot, _ in spots if _plugged_once(setting, spot)]
        yield Due(
            date=on,
            kind="plug",
            what=f"Pull a plug: {names_told([spot.name for spot, _ in spots])}",
            zones=tuple(dict.fromkeys(zone for _, zone in spots if zone)),
            why=f"{PLUGS_WHY}{_once_told(once)}",
            spot_ids=tuple(spot.id for spot, _ in spots),
        )


def _once_told(names: Sequence[str]) -> str:
    return (
        f" No change shows yet where there is one plug only: {names_told(names)}." if names else ""
    )


def _plugged_once(setting: Setting, spot: Spot) -> bool:
    """Whether all plugs of a spot are of one day, so that they can show no change."""
    return len({core.date for core in setting.cores.get(spot.id, ())}) == 1


def _plug_day(earliest: date, latitude_deg: float) -> date:
    """The first day from `earliest` that lies in a month in which plugs are pulled."""
    on = earliest
    while table_month(on.month, latitude_deg) not in PLUG_MONTHS:
        on = (on.replace(day=1) + timedelta(days=32)).replace(day=1)
    return on


def _soil_tests(setting: Setting) -> Iterator[Due]:
    latest: dict[str, date] = {}
    for test in setting.notebook.soil_tests.values():
        latest[test.zone] = max(test.date, latest.get(test.zone, test.date))
    by_date: dict[date, list[str]] = {}
    for zone in setting.notebook.zones.values():
        last = latest.get(zone.id)
        on = max(setting.on, next_test_due(last)) if last else setting.on
        if on <= setting.on + timedelta(days=HORIZON_DAYS):
            by_date.setdefault(on, []).append(zone.name)
    for on, names in by_date.items():
        yield Due(
            date=on,
            kind="test",
            what=f"Have the soil tested: {names_told(names)}",
            zones=tuple(names),
            why=f"A soil test holds for about {SOIL_TEST_YEARS} years; sample to the same depth "
            "each time, thatch off.",
        )


def _seed_again(setting: Setting) -> Iterator[Due]:
    """The days from which seed may be sown again after a pre-emergent herbicide, by its label."""
    until: dict[str, tuple[date, date]] = {}
    for care in setting.notebook.care.values():
        if care.no_seed_until is None:
            continue
        wait = (care.no_seed_until, care.date)
        for zone_id in care.zones or tuple(setting.notebook.zones):
            until[zone_id] = max(wait, until.get(zone_id, wait))
    by_wait: dict[tuple[date, date], list[str]] = {}
    for zone in setting.notebook.zones.values():
        wait = until.get(zone.id, (date.min, date.min))
        if setting.on <= wait[0] <= setting.on + timedelta(days=HORIZON_DAYS):
            by_wait.setdefault(wait, []).append(zone.name)
    for (on, put_down), names in by_wait.items():
        yield Due(
            date=on,
            kind="feed",
            what=f"By the label, seed may be sown again: {names_told(names)}",
            zones=tuple(names),
            why=f"The pre-emergent of {day(put_down)} keeps seed from coming up until then.",
        )


def _span(values: Sequence[float], unit: str) -> str:
    """One figure, or the range of several: "0.41 in", "0.35 to 0.48 in"."""
    if not values:
        return ""
    low, high = told(min(values)), told(max(values))
    return f"{low} {unit}" if low == high else f"{low} to {high} {unit}"
