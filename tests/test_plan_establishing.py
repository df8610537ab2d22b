"""New seed and sod: the light rule in place of the deep one, until it has rooted."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Literal

import pytest

from lawnbook.plan.establishing import establishing_of
from lawnbook.plan.month_water import water_today
from lawnbook.plan.water_model import Establishing
from lawnbook.plan.zone_facts import Setting, ZoneFacts, facts_of, setting_of
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.records import Established, Season, Zone
from tests.plan_yards import JUNE, core, spot, steady, water, watering, weather_day, yard, zone

KC_JUNE_COOL = 0.88  # University of California, turf crop coefficients by month


def on_day(book: Notebook, on: date = JUNE) -> tuple[Setting, ZoneFacts]:
    """What the first zone of a notebook rests on, on a day."""
    known = as_of(book, on)
    setting = setting_of(known, on)
    return setting, facts_of(setting, next(iter(known.zones.values())), 1)


def new_turf(how: Literal["seed", "sod", "unknown"], age_days: int, **values: object) -> Zone:
    """A zone sown or laid so many days before mid-June."""
    since = JUNE - timedelta(days=age_days)
    return zone(established=Established(date=since, how=how), **values)


def rule(book: Notebook, on: date = JUNE) -> Establishing | None:
    """The light rule of the first zone."""
    return establishing_of(*on_day(book, on))


def test_a_seedbed_in_june_by_hand() -> None:
    """0.2 in/day × 0.88 is 0.176 in: dry weather, so three waterings of 0.059 in."""
    book = yard(new_turf("seed", 3, precipitation_in_per_h=1.0), climate=steady(0.2))
    found = rule(book)
    assert found is not None
    assert (found.how, found.since, found.times_a_day) == ("seed", date(2026, 6, 12), 3)
    assert found.every_days == 1
    assert found.depth_in == pytest.approx(0.2 * KC_JUNE_COOL)
    multiplier = 1 / (0.4 + 0.6 * 0.65)
    assert found.run_minutes == pytest.approx(60 * 0.176 * multiplier)
    assert found.until == date(2026, 6, 12) + timedelta(days=48)
    for words in (
        "0.06 in, 5 min each, three times a day",
        "top half inch",
        "30 Jul 2026",
        "2 in of",
    ):
        assert words in found.words


@pytest.mark.parametrize(
    ("how", "age", "every", "times"),
    [
        ("seed", 0, 1, 3),
        ("seed", 20, 1, 1),
        ("seed", 48, 2, 1),
        ("sod", 5, 1, 1),
        ("sod", 27, 3, 1),
    ],
)
def test_the_plan_of_the_day_is_the_light_rule(
    how: Literal["seed", "sod"], age: int, every: int, times: int
) -> None:
    figures = water(yard(new_turf(how, age), climate=steady(0.2)))
    today = water_today(*on_day(yard(new_turf(how, age), climate=steady(0.2))))
    assert (figures.rule, figures.interval_days, today.times_a_day) == ("light", every, times)
    assert figures.depth_in == today.depth_in
    assert figures.limited_by is None
    assert f"New {how} of" in figures.reason


@pytest.mark.parametrize(
    ("how", "age"), [("seed", 49), ("sod", 28), ("seed", -1), ("unknown", 3), ("sod", 3650)]
)
def test_turf_that_is_not_new_is_watered_by_its_roots(
    how: Literal["seed", "sod", "unknown"], age: int
) -> None:
    book = yard(new_turf(how, age), climate=steady(0.2))
    assert rule(book) is None
    assert replace(water(book), months=()) == replace(water(yard(climate=steady(0.2))), months=())


@pytest.mark.parametrize(
    ("how", "root_in", "rooted"),
    [("seed", 2.4, False), ("seed", 2.6, True), ("sod", 1.9, False), ("sod", 2.1, True)],
)
def test_a_plug_with_roots_in_the_soil_ends_it_sooner(
    how: Literal["seed", "sod"], root_in: float, rooted: bool
) -> None:
    """Half an inch of thatch: 2 in of rooted soil end it for seed, 1.5 in for sod."""
    plugs = [core(JUNE - timedelta(days=1), 0.5, root_depth_in=root_in)]
    book = yard(new_turf(how, 10), spots=[spot()], cores=plugs, climate=steady(0.2))
    assert (rule(book) is None) is rooted
    assert (water(book).rule == "deep") is rooted


def test_plugs_of_the_turf_that_was_there_before_say_nothing() -> None:
    plugs = [
        core(JUNE - timedelta(days=10), 0.5, root_depth_in=8.0),
        core(JUNE - timedelta(days=2), 0.5, id="no roots read"),
    ]
    assert rule(yard(new_turf("seed", 10), spots=[spot()], cores=plugs)) is not None


def test_the_mean_of_the_spots_decides() -> None:
    pulled = JUNE - timedelta(days=1)
    spots = [spot(), spot(id="s2", name="oak")]
    plugs = [
        core(pulled, 0.0, root_depth_in=3.5),
        core(pulled, 0.0, id="b", spot="s2", root_depth_in=1.0),
    ]
    assert rule(yard(new_turf("seed", 10), spots=spots, cores=plugs)) is None
    assert rule(yard(new_turf("seed", 10), spots=spots, cores=plugs[1:])) is not None


def test_nothing_is_planned_where_nothing_can_be_watered() -> None:
    season = Season(start="07-01", end="09-30")
    assert rule(yard(new_turf("seed", 3), season=season)) is None
    assert rule(yard(new_turf("seed", 3, irrigated=False))) is None
    assert rule(yard(new_turf("seed", 3), climate=[])) is None
    assert water(yard(new_turf("seed", 3), season=season)).depth_in is None


def test_southern_months_are_as_fine() -> None:
    january = date(2026, 1, 15)
    sown = zone(established=Established(date=date(2026, 1, 10), how="seed"))
    found = rule(yard(sown, latitude_deg=-33.0, climate=steady(0.2)), january)
    assert found is not None
    assert found.until == date(2026, 2, 27)


def test_a_dry_year_waits_for_the_roots_of_new_turf() -> None:
    """Purdue, facts and advice on turf survival in drought: new turf is irrigated."""
    plain = yard(new_turf("sod", 5), climate=steady(0.2))
    for drought in ("less", "survival"):
        dry = replace(plain, yard=replace(plain.yard, drought=drought))
        assert water(dry).depth_in == water(plain).depth_in
        assert any("dry-year setting waits" in note for note in water(dry).notes)


def test_the_next_light_watering_follows_the_last_and_rain_that_brought_as_much() -> None:
    """Sod in its third week: every second day."""
    sod = new_turf("sod", 16)
    book = yard(sod, climate=steady(0.2), waterings=[watering(JUNE - timedelta(days=1), minutes=9)])
    assert water(book).next_watering == JUNE + timedelta(days=1)
    assert water(yard(sod, climate=steady(0.2))).next_watering == JUNE
    rained = yard(sod, climate=steady(0.2), weather=[weather_day(JUNE, rain_in=0.6)])
    assert water(rained).next_watering == JUNE + timedelta(days=2)
    drizzle = yard(sod, climate=steady(0.2), weather=[weather_day(JUNE, rain_in=0.05)])
    assert water(drizzle).next_watering == JUNE


def test_cycles_of_a_light_day_are_those_of_each_part() -> None:
    """A steep clay bank: each of the three parts is cut into cycles by itself."""
    bank = new_turf("seed", 3, soil="clay", slope_pct=14.0, precipitation_in_per_h=6.0)
    today = water_today(*on_day(yard(bank, climate=steady(0.3))))
    assert today.cycles is not None
    assert today.minutes_per_cycle is not None
    assert today.run_minutes == pytest.approx(today.cycles * today.minutes_per_cycle)
    assert today.cycles % 3 == 0
    assert today.minutes_per_cycle <= 60 * 0.10 / (6.0 - 0.10)
