"""Plugs to pull, soil to test, and the days from which seed may be sown again."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import partial

from lawnbook.agronomy.soil_test import SOIL_TEST_YEARS, next_test_due
from lawnbook.plan.due import (
    PLUG_EVERY_DAYS,
    PLUGS_WHY,
    last_plug_day,
    next_plug_day,
    once_told,
    plug_day_after,
)
from lawnbook.plan.filled_in import by_function, counted_in, day_in, numbered, seen_from
from lawnbook.plan.lazily import Later
from lawnbook.plan.season_model import Task
from lawnbook.plan.working_model import DATE, YEAR, Working
from lawnbook.plan.workings import OWN, given, sources
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import tr
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Core, Spot

HORIZON_DAYS = 60
"""Plugs, tests and the end of a wait for seed are not told yet where they come later than this."""

SOIL_WHY = tr(
    "A soil test holds for about {soil_test_years} years; sample to the same depth "
    "each time, thatch off.",
    soil_test_years=SOIL_TEST_YEARS,
)


def plug_tasks(setting: Setting) -> Iterator[Task]:
    """The spots that are due a plug within the horizon; the last day is the end of that season."""
    zones = {spot: zone for zone, spots in setting.spots.items() for spot in spots}
    for spot in setting.notebook.spots.values():
        on = next_plug_day(setting, spot.id)
        if on > setting.on + timedelta(days=HORIZON_DAYS):
            continue
        zone = setting.notebook.zones.get(zones.get(spot.id, ""))
        once = [spot.name] if _plugged_once(setting, spot) else []
        yield Task(
            key=f"plug:{spot.id}",
            kind="plug",
            what=f"{tr('Pull a plug')}: {spot.name}",
            date=on,
            latest=last_plug_day(on, setting.latitude_deg),
            why=f"{PLUGS_WHY}{once_told(once)}",
            zone_id=zone.id if zone else "",
            zone=zone.name if zone else "",
            spot_id=spot.id,
            spot=spot.name,
            workings=Later(
                partial(
                    _plug_workings,
                    setting.on,
                    setting.latitude_deg,
                    setting.cores.get(spot.id, ()),
                    on,
                )
            ),
        )


def plug_day_workings(setting: Setting, spot_id: str) -> tuple[Working, ...]:
    """How the day of a spot's next plug came about."""
    cores, on = setting.cores.get(spot_id, ()), next_plug_day(setting, spot_id)
    return _plug_workings(setting.on, setting.latitude_deg, cores, on)


def soil_tasks(setting: Setting) -> Iterator[Task]:
    """The zones whose soil is to be tested within the horizon."""
    latest: dict[str, date] = {}
    for test in setting.notebook.soil_tests.values():
        latest[test.zone] = max(test.date, latest.get(test.zone, test.date))
    for zone in setting.notebook.zones.values():
        last = latest.get(zone.id)
        on = max(setting.on, next_test_due(last)) if last else setting.on
        if on <= setting.on + timedelta(days=HORIZON_DAYS):
            yield Task(
                key=f"soil test:{zone.id}",
                kind="test",
                what=f"{tr('Have the soil tested')}: {zone.name}",
                date=on,
                why=SOIL_WHY,
                zone_id=zone.id,
                zone=zone.name,
                workings=(_soil_working(setting.on, last, on),),
            )


def seed_tasks(setting: Setting) -> Iterator[Task]:
    """The days from which seed may be sown again after a pre-emergent herbicide, by its label."""
    until: dict[str, tuple[date, date]] = {}
    for care in setting.notebook.care.values():
        if care.no_seed_until is None:
            continue
        wait = (care.no_seed_until, care.date)
        for zone_id in care.zones or tuple(setting.notebook.zones):
            until[zone_id] = max(wait, until.get(zone_id, wait))
    for zone in setting.notebook.zones.values():
        on, put_down = until.get(zone.id, (date.min, date.min))
        if setting.on <= on <= setting.on + timedelta(days=HORIZON_DAYS):
            yield Task(
                key=f"seed again:{zone.id}",
                kind="feed",
                what=f"{tr('By the label, seed may be sown again')}: {zone.name}",
                date=on,
                why=tr(
                    "The pre-emergent of {put_down} keeps seed from coming up until then.",
                    put_down=day(put_down),
                ),
                zone_id=zone.id,
                zone=zone.name,
                workings=(_seed_working(on, put_down),),
            )


def _seed_working(on: date, put_down: date) -> Working:
    return Working(
        "seed_again",
        tr("Seed again from"),
        day(on),
        tr("the first day for seed by the label of what was put down last"),
        tr(
            "put down {put_down}, by its label no seed before {on}",
            put_down=day(put_down),
            on=day(on),
        ),
        (
            given(
                tr("No seed before"),
                day(on),
                tr("care entry of {put_down}", put_down=day(put_down)),
            ),
        ),
        OWN,
    )


def _plugged_once(setting: Setting, spot: Spot) -> bool:
    """Whether all plugs of a spot are of one day, so that they can show no change."""
    cores = setting.cores.get(spot.id, ())
    return bool(cores) and cores[0].date == cores[-1].date


def _plug_workings(
    today: date, latitude_deg: float, cores: Sequence[Core], on: date
) -> tuple[Working, ...]:
    pulled = cores[-1].date if cores else None
    last = day(pulled) if pulled is not None else tr("none")
    latest = given(tr("Last plug"), last, tr("plugs recorded"))
    between = given(tr("Days between plugs"), str(PLUG_EVERY_DAYS), tr("common practice"))
    working = Working(
        "plug_due",
        tr("Next plug"),
        day(on),
        tr(
            "half a year after the last plug, in spring or autumn, and not before the day of "
            "the plan"
        ),
        tr("after {last}, from {today}", last=last, today=day(today)),
        (
            latest if pulled is None else day_in(latest, "last", pulled),
            numbered(between, "every", PLUG_EVERY_DAYS),
            seen_from(today),
        ),
        tr("Plugs in spring and autumn, half a year apart (common practice)"),
        by_function(partial(_plug_day_anew, pulled, latitude_deg), DATE, 0),
    )
    return (working,)


def _plug_day_anew(pulled: date | None, latitude_deg: float, numbers: Mapping[str, float]) -> float:
    last = None if pulled is None else date.fromordinal(round(numbers["last"]))
    on, every = date.fromordinal(round(numbers["on"])), round(numbers["every"])
    return float(plug_day_after(last, on, latitude_deg, every).toordinal())


def _soil_working(today: date, last: date | None, on: date) -> Working:
    years = given(tr("Years a test holds"), str(SOIL_TEST_YEARS), tr("published, named below"))
    tested_on = day(last) if last else tr("none")
    tested = given(tr("Last soil test"), tested_on, tr("soil tests recorded"))
    return Working(
        "soil_test_due",
        tr("Next soil test"),
        day(on),
        tr(
            "last soil test + {soil_test_years} years, and not before the day of the plan",
            soil_test_years=SOIL_TEST_YEARS,
        ),
        tr("{last} + {soil_test_years} years", last=day(last), soil_test_years=SOIL_TEST_YEARS)
        if last
        else tr("none on record"),
        (
            tested if last is None else day_in(tested, "last", last),
            counted_in(years, "years", SOIL_TEST_YEARS, YEAR),
            seen_from(today),
        ),
        sources("soil-test-age"),
        by_function(partial(_soil_test_anew, last), DATE, 0),
    )


def _soil_test_anew(last: date | None, numbers: Mapping[str, float]) -> float:
    """The day of the next test from another last one, other years and another day of the plan."""
    if last is None:
        return numbers["on"]
    tested = date.fromordinal(round(numbers["last"]))
    due = next_test_due(tested, round(numbers["years"]))
    return max(numbers["on"], float(due.toordinal()))
