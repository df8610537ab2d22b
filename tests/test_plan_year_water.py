"""A year's water as planned and under the old habit, in a dry year too."""

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.plan.water_model import YearWater, ZoneYear
from lawnbook.plan.year_water import zone_year
from lawnbook.plan.zone_facts import facts_of, setting_of
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import (
    ClimateMonth,
    Established,
    Habit,
    Season,
    WaterRules,
    WeatherDay,
    Zone,
)
from tests.plan_yards import JUNE, climate, core, first_zone, spot, steady, weather_day, yard, zone

KC = (0.61, 0.64, 0.75, 1.04, 0.95, 0.88, 0.94, 0.86, 0.74, 0.75, 0.69, 0.60)
"""University of California, turf crop coefficients by month, cool season."""

MULTIPLIER = 1 / (0.4 + 0.6 * 0.65)
GAL_PER_IN = 1000 * 144 / 231
"""Gallons of an inch over the 1,000 sq ft of the zone."""

SUMMER = Season(start="05-01", end="09-30")


def found_of(book: Notebook, on: date = JUNE) -> ZoneYear | None:
    """The year of a notebook's first zone."""
    return zone_year(*first_zone(book, on))


def year_of(book: Notebook, on: date = JUNE) -> ZoneYear:
    """The year of a notebook's first zone, which there must be."""
    found = found_of(book, on)
    assert found is not None
    return found


def habit_of(book: Notebook) -> YearWater:
    """The year of the first zone under its old habit, which there must be."""
    found = year_of(book).habit
    assert found is not None
    return found


def dry(
    book: Notebook, how: Literal["off", "less", "survival"], share: float | None = None
) -> Notebook:
    """The notebook in a dry year."""
    return replace(book, yard=replace(book.yard, drought=how, drought_share=share))


def last_year(eto: float = 0.2, rain_in: float = 0.0, every: int = 1) -> list[WeatherDay]:
    """A day's weather, every so many days, for the year up to the day of the plan."""
    return [
        weather_day(JUNE - timedelta(days=ago), reported_eto_in=eto, rain_in=rain_in)
        for ago in range(0, 365, every)
    ]


def by_a_plain_loop(eto: float, roots_in: float, share: float = 1.0) -> tuple[int, float, int]:
    """Waterings, net inches and stressed days of a dry calendar year without thatch, day by day.

    FAO-56 eq. 84 and 85. The full plan's waterings are found first, at Ks of 1, then a share of
    each is given.
    """
    capacity = 0.17 * roots_in
    bearable, used, given_in, stressed, waterings = 0.4 * capacity, 0.0, 0.0, 0, 0
    allowance, drier = min(1.0, bearable), 0.0
    for place in range(365):
        etc = eto * KC[(date(2026, 1, 1) + timedelta(days=place)).month - 1]
        depth = 0.0
        if used + etc >= allowance - 1e-9:
            days = max(1, int(allowance / etc + 1e-9))
            depth = max(used, min(days * etc, bearable, used + etc))
            waterings += 1
        given_in += share * depth
        kept = max(0.0, used - depth)
        surplus = max(0.0, depth - used)
        used = max(0.0, kept + etc * min(1.0, (1 - kept / capacity) / 0.6) - surplus)
        kept = max(0.0, drier - share * depth)
        surplus = max(0.0, share * depth - drier)
        drier = max(0.0, kept + etc * min(1.0, (1 - kept / capacity) / 0.6) - surplus)
        stressed += drier > bearable + 1e-9
    return waterings, given_in, stressed


@pytest.mark.parametrize("roots_in", [1.5, 4.0, 6.0, 16.0])
@pytest.mark.parametrize("share", [1.0, 0.7])
def test_a_dry_year_against_a_plain_loop(roots_in: float, share: float) -> None:
    book = yard(zone(default_root_depth_in=roots_in), climate=steady(0.2))
    plan = year_of(dry(book, "off" if share == 1 else "less", share)).plan
    waterings, net_in, stressed = by_a_plain_loop(0.2, roots_in, share)
    assert plan.waterings == waterings
    assert plan.gross_in == pytest.approx(net_in * MULTIPLIER)
    assert plan.gallons == pytest.approx(net_in * MULTIPLIER * GAL_PER_IN)
    assert plan.stress_days == stressed
    assert plan.wets_soil_in == pytest.approx(plan.gross_in)


def test_the_old_habit_by_hand() -> None:
    """10 min at 1.2 in/h are 0.2 in, on 3.5 days of each week from May to September."""
    plain = zone(precipitation_in_per_h=1.2, habit=Habit(minutes=10, days_per_week=3.5))
    book = yard(plain, climate=steady(0.2), season=SUMMER)
    habit = habit_of(replace(book, yard=replace(book.yard, water_price_per_kgal=5.0)))
    days = 31 + 30 + 31 + 31 + 30
    assert habit.waterings == pytest.approx(days / 2, abs=1)
    assert habit.gross_in == pytest.approx(0.2 * habit.waterings)
    assert habit.gallons == pytest.approx(0.2 * habit.waterings * GAL_PER_IN)
    assert habit.cost == pytest.approx(habit.gallons * 0.005)
    assert [gallons > 0 for gallons in habit.gallons_by_month] == [
        5 <= month <= 9 for month in range(1, 13)
    ]
    assert sum(habit.gallons_by_month) == pytest.approx(habit.gallons)


@pytest.mark.parametrize(
    ("days", "waterings"), [(7, 365), (0, 0), (1, 52), (2, 104), (3, 156), (6, 312), (0.5, 26)]
)
def test_the_habits_days_are_spread_evenly(days: float, waterings: int) -> None:
    plain = zone(precipitation_in_per_h=1.2, habit=Habit(minutes=10, days_per_week=days))
    assert habit_of(yard(plain, climate=steady(0.2))).waterings == waterings


def test_daily_sprinkles_stay_in_the_thatch() -> None:
    """0.1 in gross are 0.079 in in the drier half: an inch of thatch keeps 0.1 in."""
    plugs = [core(date(2026, 5, 1), 1.0, root_depth_in=7.0)]
    plain = zone(precipitation_in_per_h=1.2, habit=Habit(minutes=5, days_per_week=7))
    book = yard(plain, climate=steady(0.2), season=SUMMER, spots=[spot()], cores=plugs)
    found = year_of(book)
    assert found.habit is not None
    assert found.habit.kept_by_thatch_in == pytest.approx(0.079 * 153)
    # What the evenness adds goes below the thatch of the wetter half.
    assert found.habit.wets_soil_in == pytest.approx(0.021 * 153)
    assert found.plan.wets_soil_in / found.plan.gross_in > 0.75
    assert found.plan.wets_soil_in > 5 * found.habit.wets_soil_in


def test_the_old_habit_runs_at_a_stretch_and_the_plan_in_its_cycles() -> None:
    """Irrigation Association: clay at 12 % takes 0.10 in/h and holds 0.10 in (from memory)."""
    steep = zone(
        soil="clay",
        slope_pct=12,
        precipitation_in_per_h=1.6,
        habit=Habit(minutes=30, days_per_week=3),
    )
    found = year_of(yard(steep, climate=steady(0.2), season=SUMMER))
    assert found.habit is not None
    assert found.habit.runoff_in == pytest.approx(0.65 * found.habit.waterings)
    assert found.plan.runoff_in == 0.0


def test_the_weather_of_the_last_year_where_most_of_it_is_known() -> None:
    book = yard(climate=steady(0.1), weather=last_year(0.2))
    assert year_of(book).basis == "the weather of 16 Jun 2025 to 15 Jun 2026"
    usual = year_of(yard(climate=steady(0.1)))
    assert usual.basis == "a usual year by the months' means, without rain"
    assert year_of(book).plan.gallons == pytest.approx(2 * usual.plan.gallons, rel=0.05)
    half = yard(climate=steady(0.1), weather=last_year(0.2, every=2))
    assert year_of(half).basis.startswith("a usual year")


def test_the_rain_of_a_usual_year_is_the_climates() -> None:
    wet = [replace(row, rain_in=3.5) for row in steady(0.2)]
    found, without = year_of(yard(climate=wet)), year_of(yard(climate=steady(0.2)))
    assert found.basis == "a usual year by the months' means, rain every 4th day"
    # 42 in of rain on 58 in of use: roots of 6 in cannot keep all of the half inch at a time.
    assert 0.5 < found.plan.gallons / without.plan.gallons < 0.7
    assert found.plan.drained_in > 0


def test_rain_in_last_years_weather_saves_water_and_runs_off_no_irrigation() -> None:
    wet = year_of(yard(zone(soil="clay"), weather=last_year(0.2, 2.0), climate=())).plan
    assert wet.waterings == 0
    assert wet.gross_in == wet.runoff_in == 0.0
    # Curve number 80: 0.5625 in of each 2 in run off, and the day's use is netted.
    assert wet.drained_in == pytest.approx(365 * (2 - 0.5625) - 0.2 * _kc_days(), rel=1e-6)


def _kc_days() -> float:
    return sum(KC[(JUNE - timedelta(days=ago)).month - 1] for ago in range(365))


@pytest.mark.parametrize(
    "book",
    [
        yard(zone(irrigated=False)),
        yard(climate=()),
        yard(climate=[row for row in steady(0.2) if row.month != 2]),
        yard(spots=[spot()], cores=[core(date(2026, 5, 1), 2.0, root_depth_in=1.0)]),
    ],
    ids=["not irrigated", "no weather", "a month unknown", "no roots in the soil"],
)
def test_no_year_where_nothing_can_be_reckoned(book: Notebook) -> None:
    assert found_of(book) is None


@pytest.mark.parametrize(
    "plain",
    [
        zone(precipitation_in_per_h=1.2),
        zone(habit=Habit(minutes=10, days_per_week=3)),
    ],
    ids=["no habit", "no rate"],
)
def test_without_habit_or_rate_the_plan_stands_alone(plain: Zone) -> None:
    found = year_of(yard(plain, climate=steady(0.2)))
    assert (found.habit, found.saved_gallons, found.full) == (None, None, None)
    assert found.plan.gallons > 0
    assert "habit" not in found.words


def test_dormant_months_are_neither_watered_nor_stressed() -> None:
    plain = zone(precipitation_in_per_h=1.2, habit=Habit(minutes=10, days_per_week=3))
    found = year_of(yard(plain, climate=climate()))
    assert found.habit is not None
    for year in (found.plan, found.habit):
        # 28, 34 °F in January and February, 40 and 30 in November and December.
        assert [gallons > 0 for gallons in year.gallons_by_month][:2] == [False, False]
        assert year.gallons_by_month[11] == 0
    idle = year_of(yard(zone(), climate=climate(), season=Season(start="07-01", end="07-02")))
    assert 200 < idle.plan.stress_days < 275


def test_the_plan_waters_on_the_days_of_the_rule_only() -> None:
    free = yard(climate=steady(0.2))
    rule = replace(WaterRules(id="water_rules"), days=("Mon",))
    held = year_of(yard(climate=steady(0.2), water_rules=[rule])).plan
    assert held.waterings <= 53
    assert year_of(free).plan.waterings > 2 * held.waterings
    assert held.stress_days > year_of(free).plan.stress_days


def test_what_the_year_does_not_know_is_said() -> None:
    """The hours of a rule are the night's matter, and new turf has no year of its own yet."""
    book = yard(zone(), climate=steady(0.2))
    assert year_of(book).words.endswith(" waterings.")
    rule = WaterRules(id="water_rules", hours=("22:00-05:00",))
    assert year_of(replace(book, water_rules=rule)).words.endswith("its hours are not.")
    seeded = zone(established=Established(date=JUNE - timedelta(days=5), how="seed"))
    told = year_of(yard(seeded, climate=steady(0.2))).words
    assert told.endswith("New turf is reckoned as if it had rooted.")


def test_dormant_turf_gets_half_an_inch_now_and_then() -> None:
    """Every four weeks for Kentucky bluegrass (agronomy/dormancy), not after such a rain."""
    blue = yard(zone(species="Kentucky bluegrass"), climate=steady(0.2), season=SUMMER)
    found = year_of(dry(blue, "survival"))
    assert found.plan.waterings == 6
    assert found.plan.gross_in == pytest.approx(6 * 0.5 * MULTIPLIER)
    assert found.full == year_of(blue).plan
    assert found.plan.stress_days > found.full.stress_days + 100
    assert "Let go dormant, the lawn takes" in found.words
    rain = [
        replace(day, rain_in=0.5 * (place % 20 == 0)) for place, day in enumerate(last_year(0.2))
    ]
    rained = yard(zone(species="Kentucky bluegrass"), weather=rain, season=SUMMER)
    assert year_of(dry(rained, "survival")).plan.waterings == 0


def test_the_words_tell_what_is_saved_and_what_it_costs() -> None:
    plain = zone(precipitation_in_per_h=1.2, habit=Habit(minutes=20, days_per_week=7))
    book = yard(plain, climate=steady(0.2), season=SUMMER)
    priced = replace(book, yard=replace(book.yard, water_price_per_kgal=6.0))
    found = year_of(dry(priced, "less", 0.8))
    assert found.habit is not None
    assert found.full is not None
    assert found.saved_gallons is not None
    assert found.saved_gallons == pytest.approx(found.habit.gallons - found.plan.gallons)
    less, more_days = found.saved_gallons, found.plan.stress_days - found.full.stress_days
    assert found.words == (
        "In a usual year by the months' means, without rain, the plan takes "
        f"{found.plan.gallons:,.0f} gal in {found.plan.waterings} waterings, your old habit "
        f"{found.habit.gallons:,.0f} gal in 153 waterings: {less:,.0f} gal less, "
        f"{less * 0.006:,.2f} at your price. Of each inch the habit puts down 1.00 in "
        "wets the soil below the thatch, of the plan's 1.00 in. The dry year takes "
        f"{found.full.gallons - found.plan.gallons:,.0f} gal less than the full plan, at "
        f"{more_days} more days short of water."
    )
    little = zone(precipitation_in_per_h=1.2, habit=Habit(minutes=2, days_per_week=1))
    words = year_of(yard(little, climate=steady(0.2))).words
    assert " gal more." in words


CLIMATES = st.lists(st.floats(0.02, 0.3), min_size=12, max_size=12)


@settings(deadline=None, max_examples=40)
@given(
    CLIMATES,
    st.floats(0, 6),
    st.floats(1, 16),
    st.floats(0, 1.5),
    st.sampled_from(["sand", "loam", "clay"]),
    st.sampled_from(["off", "less", "survival"]),
)
def test_the_years_water_is_all_accounted_for(
    eto: list[float],
    rain_in: float,
    roots_in: float,
    thatch_in: float,
    soil: str,
    drought: Literal["off", "less", "survival"],
) -> None:
    months = [
        ClimateMonth(id=f"{m}", month=m, tmean_f=60.0, eto_in_per_day=eto[m - 1], rain_in=rain_in)
        for m in range(1, 13)
    ]
    plain = zone(soil=soil, precipitation_in_per_h=1.5, habit=Habit(minutes=12, days_per_week=4))
    plugs = [core(date(2026, 5, 1), thatch_in, root_depth_in=roots_in + thatch_in)]
    book = dry(yard(plain, climate=months, spots=[spot()], cores=plugs), drought)
    found = year_of(book)
    assert found.habit is not None
    for year in (found.plan, found.habit, *([found.full] if found.full else [])):
        parts = year.wets_soil_in + year.kept_by_thatch_in + year.runoff_in
        assert parts == pytest.approx(year.gross_in, abs=1e-9)
        assert sum(year.gallons_by_month) == pytest.approx(year.gallons)
        assert year.gallons == pytest.approx(year.gross_in * GAL_PER_IN)
        assert 0 <= year.stress_days <= 365
        assert 0 <= year.driest_share_used <= 1 + 1e-9
    assert (found.full is None) == (drought == "off")
    if found.full is not None and drought == "less":
        assert found.plan.gallons == pytest.approx(0.8 * found.full.gallons, rel=0.01)
        assert found.plan.stress_days >= found.full.stress_days
        assert found.plan.driest_share_used >= found.full.driest_share_used - 1e-9


@pytest.mark.parametrize("sample", sample_yards(), ids=lambda path: path.stem)
def test_the_plan_of_the_samples_sends_more_of_each_inch_below_the_thatch(sample: Path) -> None:
    setting = setting_of(as_of(load_any(sample, JUNE), JUNE), JUNE)
    years = [
        zone_year(setting, facts_of(setting, each, number))
        for number, each in enumerate(setting.notebook.zones.values(), 1)
    ]
    compared = [(year.plan, year.habit) for year in years if year is not None and year.habit]
    assert compared
    for plan, habit in compared:
        assert plan.wets_soil_in / plan.gross_in > habit.wets_soil_in / habit.gross_in
        assert plan.waterings < habit.waterings or plan.stress_days < habit.stress_days
