"""The daily ledger to the next watering: rain, waterings, roots, dry years."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.soil import SOILS
from lawnbook.plan.ledger import ledger_of
from lawnbook.yard.records import Season, WeatherDay
from tests.plan_yards import (
    JUNE,
    climate,
    core,
    first_zone,
    spot,
    steady,
    water,
    watering,
    weather_day,
    yard,
    zone,
)

KC_JUNE_COOL = 0.88  # University of California, turf crop coefficients by month


def june_days(count: int, **values: float) -> list[WeatherDay]:
    """The first days of June 2026, all alike."""
    return [weather_day(date(2026, 6, 1) + timedelta(days=n), **values) for n in range(count)]


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
    """Roots grow from 1 to 6 in over ten dry days, short of water on all of them but the first.

    By hand: FAO-56 eq. 84 and 85 with 0.17 in of water in each inch that the roots of the day
    fill, 0.40 of it without stress. The 6 in of today would have fed them better.
    """
    plugs = [core(date(2026, 6, 5), root_depth_in=1.0), core(JUNE, root_depth_in=6.0)]
    drops = [watering(date(2026, 6, 5), depth_in=0.0), watering(JUNE, depth_in=0.5 / 0.79)]
    figures = water(yard(climate=steady(0.2), spots=[spot()], cores=plugs, waterings=drops))
    working = next(w for w in figures.workings if w.figure == "next_watering")
    used = 0.0
    for day in range(11):
        capacity = 0.17 * (1 + day / 2)
        used = max(0.0, used - (0.5 if day == 10 else 0.0))
        used += 0.2 * KC_JUNE_COOL * min(1.0, (1 - used / capacity) / 0.6)
    assert used == pytest.approx(0.47, abs=0.005)
    assert working.filled.startswith(f"{used:.2f} of 0.41")


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
    """The next watering by a plain loop over FAO-56 eq. 84, 85 and 88, for the yard of the test
    below: loam without thatch, whose run-off starts beyond 1.279 in (TR-55, curve number 61).
    """
    if not events:
        return None
    etc, capacity = eto * KC_JUNE_COOL, 0.17 * roots_in
    allowance, used = min(1.0, 0.4 * capacity), 0.0
    storage = 1000 / 61 - 10
    for ago in range(max(event[0] for event in events), -1, -1):
        rain = sum(amount for days, kind, amount in events if days == ago and kind == "rain")
        gross = sum(amount for days, kind, amount in events if days == ago and kind == "water")
        counted = rain if rain >= 0.2 * eto else 0.0
        beyond = max(0.0, counted - 0.2 * storage)
        used -= counted - beyond**2 / (beyond + storage) + gross * 0.79
        stress = min(1.0, (capacity - max(0.0, used)) / (0.6 * capacity))
        used = min(max(0.0, used + etc * stress), capacity)
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


def test_less_in_a_dry_year_leaves_the_dates_and_lets_depletion_creep() -> None:
    """Each watering gives back 0.8 of what was used; the next date counts it as a whole one."""
    start = [watering(date(2026, 6, 4), depth_in=0.0)]
    given_in = 0.176 * 2
    full = yard(
        climate=steady(0.2),
        waterings=[
            *start,
            *(watering(date(2026, 6, n), depth_in=given_in / 0.79) for n in (6, 8, 10, 12, 14)),
        ],
    )
    less = yard(
        climate=steady(0.2),
        waterings=[
            *start,
            *(
                watering(date(2026, 6, n), depth_in=0.8 * given_in / 0.79)
                for n in (6, 8, 10, 12, 14)
            ),
        ],
    )
    dry = replace(less, yard=replace(less.yard, drought="less"))
    whole, part = ledger_of(*first_zone(full)), ledger_of(*first_zone(dry))
    assert part.next_watering == whole.next_watering == date(2026, 6, 16)
    assert part.reckoned_in[:9] == pytest.approx(whole.reckoned_in[:9])
    assert part.depletion_in > whole.depletion_in + 0.2
    assert ledger_of(*first_zone(less)).next_watering == JUNE


@pytest.mark.parametrize(
    ("species", "days_on"), [("Kentucky bluegrass", 28), ("tall fescue", 14), ("", 14)]
)
def test_a_lawn_let_go_dormant_is_watered_only_to_keep_its_crowns(
    species: str, days_on: int
) -> None:
    """University of Nebraska: every four weeks, or every two to three (agronomy/dormancy)."""
    drops = [watering(date(2026, 6, 5), depth_in=0.5 / 0.79)]
    book = yard(zone(species=species), climate=steady(0.2), waterings=drops)
    dormant = replace(book, yard=replace(book.yard, drought="survival"))
    found = ledger_of(*first_zone(dormant))
    assert found.next_watering == date(2026, 6, 5) + timedelta(days=days_on)


@given(st.floats(0, 2), st.floats(0, 2), st.sampled_from(sorted(SOILS)), st.floats(0.1, 0.4))
def test_more_thatch_above_the_same_roots_never_lengthens_the_interval(
    thatch_in: float, more_in: float, soil: str, eto: float
) -> None:
    """Roots are read from the crowns: what is thatch is no soil."""
    thin, thick = (
        water(
            yard(
                zone(soil=soil),
                climate=steady(eto),
                spots=[spot()],
                cores=[core(JUNE, depth, root_depth_in=8.0)],
            )
        )
        for depth in (thatch_in, thatch_in + more_in)
    )
    assert thin.interval_days is not None
    assert thick.interval_days is not None
    assert thick.interval_days <= thin.interval_days
    assert thin.next_watering is not None
    assert thick.next_watering is not None
    assert thick.next_watering <= thin.next_watering
