"""The plan of the big yard against the bare arithmetic that it cannot do without.

The floor is FAO-56's ETo of every day on record and the daily balance of two years of every zone,
in one loop of plain numbers: two years are all that a plan follows. Beside it the same loop over
all years on record, as a plan would have to run that looked back without end; and the same by pyet
and pandas, as one would write it first.
Measured in processor time, of notebooks whose tables remember nothing yet.

    python -m tests.bench.plans     how the cost grows with years, zones and plugs
"""

import gc
import importlib
import statistics
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from math import acos, cos, pi, radians, sin, sqrt, tan
from typing import Any

from lawnbook.agronomy.runoff import curve_number
from lawnbook.plan.coverage import _figures
from lawnbook.plan.ledger import stress_from_share
from lawnbook.plan.make import make_plan
from lawnbook.plan.memo import Memo
from lawnbook.plan.model import Plan
from lawnbook.plan.render import plan_json
from lawnbook.plan.root_days import days_from, etc_factors, month_indices, past_days
from lawnbook.plan.zone_facts import Setting, facts_of, setting_of
from lawnbook.yard.notebook import Notebook, apply, as_of, put, with_tables
from lawnbook.yard.records import TABLES, Watering
from tests.bench.big_yard import TODAY, Size, big_yard
from tests.bench.measure import Bench, Row, in_turn

FLOOR = "ETo and balance, bare loop"
WHOLE_FLOOR = "the same loop over all years on record"
SLOW_REPEATS = 3
WATERINGS = 7


@dataclass(frozen=True, slots=True)
class BareZone:
    """What a zone's balance needs, as plain lists: day by day, and the twelve months' factors."""

    p: float
    storage_in: float
    factors: list[float]
    months: list[int]
    rain_in: list[float]
    irrigation_in: list[float]
    capacity_in: list[float]
    thatch_in: list[float]


@dataclass(frozen=True, slots=True)
class Bare:
    """All that the floor is given: days as (day of the year, low, high), and the zones."""

    latitude_deg: float
    days: list[tuple[float, float, float]]
    zones: list[BareZone]


def bare(notebook: Notebook, on: date, *, all_years: bool = False) -> Bare:
    """What the plan of a day would hand to the floor; only Hargreaves days are told.

    The balance's days are those that the plan follows, or all of the weather.
    """
    known = as_of(notebook, on)
    setting = setting_of(known, on)
    return Bare(
        known.yard.latitude_deg or 0.0,
        [
            (float(day.date.timetuple().tm_yday), day.tmin_f or 0.0, day.tmax_f or 0.0)
            for day in known.weather.values()
        ],
        [_bare_zone(setting, number, all_years) for number in range(len(known.zones))],
    )


def _bare_zone(setting: Setting, number: int, all_years: bool) -> BareZone:
    zone = list(setting.notebook.zones.values())[number]
    facts = facts_of(setting, zone, number + 1)
    first = setting.weather.first
    if all_years and first is not None:
        past = days_from(setting, facts, first)
    else:
        past = past_days(setting, facts)
    return BareZone(
        p=stress_from_share(facts),
        storage_in=1000.0 / curve_number(facts.soil.name) - 10.0,
        factors=etc_factors(facts).tolist(),
        months=month_indices(past.starts, len(past.eto_from)).tolist(),
        rain_in=past.days.rain_in.tolist(),
        irrigation_in=past.days.irrigation_in.tolist(),
        capacity_in=past.days.capacity_in.tolist(),
        thatch_in=past.days.thatch_capacity_in.tolist(),
    )


def floor(given: Bare) -> list[list[float]]:
    """The depletion (in) of every zone at the end of each of its days."""
    eto = bare_eto_in(given)
    return [bare_depletion_in(zone, eto) for zone in given.zones]


def bare_eto_in(given: Bare) -> list[float]:
    """ETo (in) of every day, FAO-56 eq. 21 to 25 and 52; the yard knows no polar night."""
    phi = radians(given.latitude_deg)
    tan_phi, sin_phi, cos_phi = tan(phi), sin(phi), cos(phi)
    eto = []
    for day_of_year, low_f, high_f in given.days:
        angle = 2.0 * pi / 365.0 * day_of_year
        declination = 0.409 * sin(angle - 1.39)
        sunset = acos(-tan_phi * tan(declination))
        radiation = (
            24.0
            * 60.0
            / pi
            * 0.0820
            * (1.0 + 0.033 * cos(angle))
            * (sunset * sin_phi * sin(declination) + cos_phi * cos(declination) * sin(sunset))
        )
        low, high = (low_f - 32.0) / 1.8, (high_f - 32.0) / 1.8
        mm = 0.0023 * ((low + high) / 2.0 + 17.8) * sqrt(high - low) * 0.408 * radiation
        eto.append(mm / 25.4)
    return eto


def bare_depletion_in(zone: BareZone, eto_in: list[float]) -> list[float]:
    """The balance of one zone's last days, FAO-56 eq. 84, 85 and 88 under a store of thatch."""
    depletions: list[float] = []
    depletion = store = 0.0
    p, storage, factors = zone.p, zone.storage_in, zone.factors
    taken, ready_share = 0.2 * storage, 1.0 - p
    for eto, month, rain, irrigation, capacity, holds in zip(
        eto_in[-len(zone.months) :],
        zone.months,
        zone.rain_in,
        zone.irrigation_in,
        zone.capacity_in,
        zone.thatch_in,
        strict=True,
    ):
        etc = eto * factors[month]
        wet = store + irrigation
        if rain >= 0.2 * eto:
            wet += rain
        if rain > taken:
            beyond = rain - taken
            wet -= beyond * beyond / (beyond + storage)
        into_soil = wet - holds
        if into_soil > 0.0:
            store = holds
        else:
            store, into_soil = wet, 0.0
        level = capacity - into_soil if depletion > capacity else depletion - into_soil
        if store > etc:
            store -= etc
        else:
            wanted = etc - store
            store = 0.0
            if level > p * capacity:
                wanted *= (capacity - level) / (ready_share * capacity)
            room = capacity - level
            level = level + wanted if wanted < room else level + room
        if level > 0.0:
            depletion = level
            depletions.append(level)
        else:
            depletion = 0.0
            depletions.append(0.0)
    return depletions


def by_pandas(given: Bare, days: Sequence[date]) -> list[float]:
    """The last depletion of every zone by pyet's ETo on a frame, and a loop over a frame's rows."""
    pandas: Any = importlib.import_module("pandas")
    pyet: Any = importlib.import_module("pyet")
    _, low_f, high_f = zip(*given.days, strict=True)
    frame = pandas.DataFrame({"low": low_f, "high": high_f}, index=pandas.DatetimeIndex(days))
    low, high = (frame["low"] - 32.0) / 1.8, (frame["high"] - 32.0) / 1.8
    mean = (low + high) / 2.0
    eto = pyet.hargreaves(mean, high, low, radians(given.latitude_deg)) / 25.4
    return [_zone_by_pandas(pandas, zone, eto) for zone in given.zones]


def _zone_by_pandas(pandas: Any, zone: BareZone, eto: Any) -> float:
    last = len(zone.months)
    rows = pandas.DataFrame(
        {
            "eto": eto.to_numpy()[-last:],
            "month": zone.months,
            "rain": zone.rain_in,
            "irrigation": zone.irrigation_in,
            "capacity": zone.capacity_in,
            "thatch": zone.thatch_in,
        }
    )
    rows["etc"] = rows["eto"] * rows["month"].map(dict(enumerate(zone.factors)))
    beyond = (rows["rain"] - 0.2 * zone.storage_in).clip(lower=0.0)
    rows["runoff"] = beyond**2 / (beyond + zone.storage_in)
    depletion = store = 0.0
    for _, day in rows.iterrows():
        rain = day["rain"] if day["rain"] >= 0.2 * day["eto"] else 0.0
        wet = store + rain + day["irrigation"] - day["runoff"]
        held = min(wet, day["thatch"])
        from_thatch = min(held, day["etc"])
        store = held - from_thatch
        level = min(depletion, day["capacity"]) - (wet - held)
        used, stress = max(level, 0.0), 1.0
        if used > zone.p * day["capacity"]:
            stress = (day["capacity"] - used) / ((1.0 - zone.p) * day["capacity"])
        wanted = (day["etc"] - from_thatch) * stress
        depletion = max(0.0, level + min(wanted, day["capacity"] - level))
    return float(depletion)


def unread(notebook: Notebook) -> Notebook:
    """The same notebook in new tables, which remember no groups and no last day."""
    return with_tables(notebook, {name: notebook.table(name).values() for name in TABLES})


def rows(bench: Bench) -> list[Row]:
    """The plan of the big yard, from nothing and after an edit, against its floors."""
    book = big_yard()
    given = bare(book, TODAY)
    bare_loop = timed(lambda: floor(given))
    plain, loop = in_turn(from_nothing(book, lambda plan: None), bare_loop, bench.repeats)
    every_year = bare(book, TODAY, all_years=True)
    beside, whole_loop = in_turn(
        from_nothing(book, lambda plan: None), timed(lambda: floor(every_year)), bench.repeats
    )
    whole, loop_beside = in_turn(from_nothing(book, hash), bare_loop, bench.repeats)
    told, loop_by_json = in_turn(from_nothing(book, plan_json), bare_loop, bench.repeats)
    days = [day.date for day in book.weather.values()]
    slow = statistics.median(timed(lambda: by_pandas(given, days))() for _ in range(SLOW_REPEATS))
    edit, nothing = in_turn(
        after_watering(book), from_nothing(book, lambda plan: None), bench.repeats
    )
    return [
        Row("plan of the big yard", FLOOR, plain, loop, 2.0),
        Row("plan of the big yard", WHOLE_FLOOR, beside, whole_loop, 2.0),
        Row("the same, all promises kept", FLOOR, whole, loop_beside, 2.0),
        Row("the same, as JSON", FLOOR, told, loop_by_json, 2.0),
        Row("plan of the big yard", "by pyet and pandas", plain, slow, 1 / 20),
        Row("plan after one watering", "from nothing", edit, nothing, 1 / 20),
    ]


def timed(work: Callable[[], object]) -> Callable[[], float]:
    """A measurement of a piece of work in seconds of the processor."""

    def run() -> float:
        gc.collect()
        start = time.process_time()
        work()
        return time.process_time() - start

    return run


def from_nothing(book: Notebook, read: Callable[[Plan], object]) -> Callable[[], float]:
    """A measurement of a plan of tables not looked at before, and of what is read of it."""

    def run() -> float:
        fresh = unread(book)
        _figures.cache_clear()
        return timed(lambda: read(make_plan(fresh, TODAY)))()

    return run


def after_watering(book: Notebook) -> Callable[[], float]:
    """A measurement of the plan after one more watering: the median of some, zone after zone."""
    memo, counter = Memo(), iter(range(10**6))
    make_plan(book, TODAY, memo)

    def once() -> float:
        turn = next(counter)
        zone = f"z{turn % len(book.zones)}"
        watering = Watering(id=f"new{turn}", date=TODAY, zone=zone, minutes=20.0)
        edited = apply(book, put(book, "waterings", watering))
        start = time.process_time()
        make_plan(edited, TODAY, memo)
        return time.process_time() - start

    return lambda: statistics.median(once() for _ in range(WATERINGS))


GROWTH = {
    "years": [Size(zones=4, years=years, spots_a_zone=2, photos=0) for years in (1, 10, 100)],
    "zones": [Size(zones=zones, years=2, spots_a_zone=2, photos=0) for zones in (1, 10, 100)],
    "plugs": [
        Size(zones=4, years=20, spots_a_zone=2, plugs_a_spot=plugs, photos=0)
        for plugs in (1, 10, 100)
    ],
}
"""What is multiplied by 1, 10 and 100, and the yards."""


def growth(repeats: int = 5) -> Iterator[tuple[str, list[float], list[float]]]:
    """Seconds of a plan, and of one with its promises kept, of yards 1, 10 and 100 times as big."""
    for what, sizes in GROWTH.items():
        books = [big_yard(size) for size in sizes]
        yield (
            what,
            [_median_of(from_nothing(book, lambda plan: None), repeats) for book in books],
            [_median_of(from_nothing(book, hash), repeats) for book in books],
        )


def _median_of(measure: Callable[[], float], repeats: int) -> float:
    measure()
    return statistics.median(measure() for _ in range(repeats))


def main() -> None:
    """Print how the cost grows."""
    print(f"{'ms of a plan, times':24}{'1':>9}{'10':>9}{'100':>9}   all promises kept")
    for what, plain, whole in growth():
        told = "".join(f"{1e3 * each:9.1f}" for each in plain)
        print(f"{what:24}{told}   {''.join(f'{1e3 * each:9.1f}' for each in whole)}")


if __name__ == "__main__":
    main()
