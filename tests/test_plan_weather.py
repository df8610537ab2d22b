"""Monthly ETo and temperature from days and climate, and the daily ledger to the next watering."""

import importlib
import math
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.roots import rooted_by_day
from lawnbook.plan.weather import FEWEST_DAYS, weather_of
from lawnbook.yard.records import Season, WeatherDay
from tests.plan_yards import (
    JUNE,
    climate,
    core,
    spot,
    steady,
    water,
    watering,
    weather_day,
    yard,
    zone,
)

SEATTLE_LATITUDE_DEG = 47.45
KC_JUNE_COOL = 0.88  # University of California, turf crop coefficients by month


def june_days(count: int, **values: float) -> list[WeatherDay]:
    """The first days of June 2026, all alike."""
    return [weather_day(date(2026, 6, 1) + timedelta(days=n), **values) for n in range(count)]


def seattle_days() -> list[WeatherDay]:
    """The daily Seattle series 2012-2015 (NOAA), as packed in vega_datasets; °C and mm turned."""
    frame = importlib.import_module("vega_datasets").local_data.seattle_weather()
    return [
        weather_day(
            row.date.date(),
            tmin_f=row.temp_min * 9 / 5 + 32,
            tmax_f=row.temp_max * 9 / 5 + 32,
            rain_in=row.precipitation / 25.4,
        )
        for row in frame.itertuples()
    ]


def test_the_months_of_seattle_against_pyet() -> None:
    """Monthly means of Hargreaves, against the library pyet on the same days."""
    days = seattle_days()
    book = yard(latitude_deg=SEATTLE_LATITUDE_DEG, weather=days, climate=())
    ours = [month.eto_in_per_day for month in weather_of(book).months]
    pandas, pyet = importlib.import_module("pandas"), importlib.import_module("pyet")
    frame = pandas.DataFrame(
        {
            "low": [((d.tmin_f or 0) - 32) / 1.8 for d in days],
            "high": [((d.tmax_f or 0) - 32) / 1.8 for d in days],
        },
        index=pandas.DatetimeIndex([d.date for d in days]),
    )
    mean = (frame.low + frame.high) / 2
    lat = math.radians(SEATTLE_LATITUDE_DEG)
    daily = pyet.hargreaves(mean, frame.high, frame.low, lat=lat) / 25.4
    theirs = daily.groupby(daily.index.month).mean().tolist()
    # pyet's latent heat follows the temperature, FAO-56 keeps 2.45 MJ/kg: up to 2 % apart.
    assert ours == pytest.approx(theirs, rel=0.025)


def test_a_reported_eto_is_taken_before_a_reckoned_one() -> None:
    days = june_days(15, tmin_f=50.0, tmax_f=80.0, reported_eto_in=0.3)
    month = weather_of(yard(weather=days)).month(6)
    assert month.eto_in_per_day == pytest.approx(0.3)
    assert month.tmean_f == pytest.approx(65.0)


@pytest.mark.parametrize(("count", "eto"), [(FEWEST_DAYS - 1, 0.24), (FEWEST_DAYS, 0.3), (15, 0.3)])
def test_a_handful_of_days_gives_way_to_the_climate(count: int, eto: float) -> None:
    book = yard(weather=june_days(count, reported_eto_in=0.3))
    assert weather_of(book).month(6).eto_in_per_day == pytest.approx(eto)


def test_few_days_are_better_than_nothing() -> None:
    book = yard(weather=june_days(2, reported_eto_in=0.3), climate=())
    assert weather_of(book).month(6).eto_in_per_day == pytest.approx(0.3)
    assert weather_of(book).month(7).eto_in_per_day is None


def test_temperatures_need_the_latitude_and_the_reason_says_so() -> None:
    days = june_days(12, tmin_f=50.0, tmax_f=80.0)
    figures = water(yard(latitude_deg=None, weather=days, climate=()))
    assert figures.depth_in is None
    assert figures.reason.startswith("Latitude is missing")


def test_a_month_is_the_mean_over_all_its_years() -> None:
    days = [
        *(weather_day(date(2024, 6, n), reported_eto_in=0.1) for n in range(1, 21)),
        *(weather_day(date(2025, 6, n), reported_eto_in=0.4) for n in range(1, 11)),
    ]
    assert weather_of(yard(weather=days)).month(6).eto_in_per_day == pytest.approx(0.2)


def test_without_records_the_ledger_is_full_this_morning() -> None:
    """0.408 in at 0.176 in a day is used up on the third day."""
    figures = water(yard(climate=steady(0.2)))
    assert figures.interval_days == 2
    assert figures.next_watering == JUNE + timedelta(days=2)


def test_a_deficit_is_due_today_and_never_before() -> None:
    figures = water(yard(climate=steady(0.2), waterings=[watering(date(2026, 6, 1), depth_in=0.1)]))
    assert figures.next_watering == JUNE


@pytest.mark.parametrize(
    ("rain_in", "days_later"), [(0.0, 0), (0.039, 0), (0.2, 1), (0.3, 2), (0.6, 3), (9.0, 3)]
)
def test_rain_counts_from_a_fifth_of_eto_and_only_to_field_capacity(
    rain_in: float, days_later: int
) -> None:
    """FAO-56 chapter 8. Before the rain of 15 June, 14 June leaves 0.176 × 2 in used up."""
    days = [
        weather_day(date(2026, 6, 13), reported_eto_in=0.2, rain_in=0.0),
        weather_day(date(2026, 6, 14), reported_eto_in=0.2, rain_in=0.0),
        weather_day(JUNE, reported_eto_in=0.2, rain_in=rain_in),
    ]
    figures = water(yard(climate=steady(0.2), weather=days))
    assert figures.next_watering == JUNE + timedelta(days=days_later)


def test_past_days_take_their_own_eto_and_coming_days_the_months() -> None:
    """Three days of 0.05 in, then 0.2 in a day: 0.132 + 0.176 × 2 passes 0.408 on 17 June."""
    days = [weather_day(date(2026, 6, n), reported_eto_in=0.05) for n in (13, 14, 15)]
    figures = water(yard(climate=steady(0.2), weather=days))
    assert figures.next_watering == date(2026, 6, 17)


def test_a_month_nobody_knows_ends_the_forecast() -> None:
    june = [row for row in steady(0.2) if row.month == 6]
    assert water(yard(climate=june), date(2026, 6, 28)).next_watering == date(2026, 6, 30)
    figures = water(yard(climate=june), date(2026, 6, 29))
    assert figures.next_watering is None
    assert any("No weather and no climate for July: import" in note for note in figures.notes)


def test_the_ledger_begins_after_the_last_day_nobody_knows() -> None:
    june = [row for row in steady(0.2) if row.month == 6]
    book = yard(climate=june, waterings=[watering(date(2026, 5, 1), depth_in=0.1)])
    working = next(w for w in water(book, date(2026, 6, 1)).workings if w.figure == "next_watering")
    assert working.inputs[0].value == "full on 1 Jun 2026"
    assert water(book, date(2026, 6, 1)).next_watering == date(2026, 6, 3)


def test_past_days_have_the_roots_between_the_plugs_of_then() -> None:
    """Roots grow from 1 to 6 in over ten dry days, so what they had used up grew with them.

    On 14 June 5.5 in of loam held 0.935 in, all used; 15 June takes 0.176 in and gives 0.5 in net.
    The 6 in of today would have held, and used up, 1.02 in.
    """
    plugs = [core(date(2026, 6, 5), root_depth_in=1.0), core(JUNE, root_depth_in=6.0)]
    drops = [watering(date(2026, 6, 5), depth_in=0.0), watering(JUNE, depth_in=0.5 / 0.79)]
    figures = water(yard(climate=steady(0.2), spots=[spot()], cores=plugs, waterings=drops))
    working = next(w for w in figures.workings if w.figure == "next_watering")
    assert working.filled.startswith("0.61 of 0.41")


def test_the_roots_of_past_days_are_held_before_the_first_plug_and_after_the_last() -> None:
    plugs = [
        core(date(2026, 6, 3), 0.5, root_depth_in=2.5),
        core(date(2026, 6, 5), 1.5, root_depth_in=6.5),
    ]
    rooted = rooted_by_day(zone(), [plugs], date(2026, 6, 2), 5)
    assert rooted.tolist() == [2.0, 2.0, 3.5, 5.0, 5.0]
    assert rooted_by_day(zone(), [], JUNE, 2).tolist() == [6.0, 6.0]
    assert rooted_by_day(zone(default_root_depth_in=4.0), [], JUNE, 1).tolist() == [4.0]


def test_minutes_are_credited_net_of_the_multiplier() -> None:
    """20 min at 1.2 in/h are 0.4 in gross, 0.316 in net at the multiplier 1.266."""
    plain = zone(precipitation_in_per_h=1.2)
    start = watering(date(2026, 6, 13), depth_in=0.0)
    book = yard(
        plain, climate=steady(0.2), waterings=[start, watering(date(2026, 6, 14), minutes=20.0)]
    )
    same = yard(
        plain, climate=steady(0.2), waterings=[start, watering(date(2026, 6, 14), depth_in=0.4)]
    )
    working = next(w for w in water(book).workings if w.figure == "next_watering")
    used = 3 * 0.2 * KC_JUNE_COOL - 0.4 * 0.79
    assert working.filled.startswith(f"{used:.2f} of 0.41")
    assert working == next(w for w in water(same).workings if w.figure == "next_watering")


def test_minutes_without_a_rate_are_told_as_uncounted() -> None:
    figures = water(yard(waterings=[watering(date(2026, 6, 14), minutes=20.0)]))
    assert any("could not be counted" in note for note in figures.notes)


def test_nothing_is_due_after_the_season_ends() -> None:
    season = Season(start="05-01", end="06-16")
    assert water(yard(season=season, climate=steady(0.2))).next_watering is None
    longer = Season(start="05-01", end="06-17")
    assert water(yard(season=longer, climate=steady(0.2))).next_watering == date(2026, 6, 17)


def test_a_long_silence_is_told() -> None:
    figures = water(yard(weather=june_days(15, reported_eto_in=0.3)))
    assert any("No watering is on record" in note for note in figures.notes)


records = st.lists(
    st.tuples(
        st.integers(0, 40),
        st.sampled_from(["rain", "water"]),
        st.floats(0, 1.5, allow_subnormal=False),
    ),
    max_size=25,
)


def reckoned_by_hand(
    events: list[tuple[int, str, float]], eto: float, roots_in: float
) -> date | None:
    """The next watering by a plain loop over FAO-56 eq. 85, for the yard of the test below."""
    if not events:
        return None
    etc, capacity = eto * KC_JUNE_COOL, 0.17 * roots_in
    allowance, used = min(1.0, 0.4 * capacity), 0.0
    for ago in range(max(event[0] for event in events), -1, -1):
        rain = sum(amount for days, kind, amount in events if days == ago and kind == "rain")
        gross = sum(amount for days, kind, amount in events if days == ago and kind == "water")
        counted = rain if rain >= 0.2 * eto else 0.0
        used = min(max(used + etc - counted - gross * 0.79, 0.0), capacity)
    on = JUNE
    while used < allowance - 1e-9:
        on, used = on + timedelta(days=1), used + etc
    return on


@given(records, st.floats(0.05, 0.4), st.floats(2, 25))
def test_the_ledger_against_a_plain_loop(
    events: list[tuple[int, str, float]], eto: float, roots_in: float
) -> None:
    # The months are alike, so that Kc alone would change; a yard of ETo ÷ Kc keeps ETc steady.
    kc = np.array([0.61, 0.64, 0.75, 1.04, 0.95, 0.88, 0.94, 0.86, 0.74, 0.75, 0.69, 0.60])
    months = climate(tuple((eto * KC_JUNE_COOL / kc).tolist()), (70.0,) * 12)
    rain = {ago: amount for ago, kind, amount in events if kind == "rain"}
    once = [e for e in events if e[1] == "water"] + [(a, "rain", r) for a, r in rain.items()]
    days = [
        weather_day(JUNE - timedelta(days=ago), rain_in=amount, reported_eto_in=eto)
        for ago, amount in rain.items()
        if (JUNE - timedelta(days=ago)).month == 6
    ]
    known = [e for e in once if e[1] == "water" or (JUNE - timedelta(days=e[0])).month == 6]
    waterings = [
        watering(JUNE - timedelta(days=ago), depth_in=amount, id=f"w{n}")
        for n, (ago, kind, amount) in enumerate(known)
        if kind == "water"
    ]
    book = yard(
        zone(default_root_depth_in=roots_in), climate=months, weather=days, waterings=waterings
    )
    expected = reckoned_by_hand(known, eto, roots_in)
    if expected is not None:
        assert water(book).next_watering == expected


@given(st.integers(0, 40), st.floats(2, 20), st.floats(0, 10))
def test_from_a_full_start_more_roots_never_bring_the_next_watering_forward(
    days_ago: int, roots_in: float, more_in: float
) -> None:
    start = [watering(JUNE - timedelta(days=days_ago), depth_in=0.0)]
    soon, late = (
        water(
            yard(zone(default_root_depth_in=depth), climate=steady(0.2), waterings=start)
        ).next_watering
        for depth in (roots_in, roots_in + more_in)
    )
    assert soon is not None
    assert late is not None
    assert soon <= late
