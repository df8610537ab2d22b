"""Water of a zone: depth, interval, run, cycles, months, reasons and notes."""

import math
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.make import make_plan
from lawnbook.yard.records import CatchTest, Season
from tests.plan_yards import (
    JUNE,
    TMEAN_F,
    climate,
    core,
    spot,
    steady,
    water,
    yard,
    zone,
)

KC_JUNE_COOL = 0.88  # University of California, turf crop coefficients by month
KC_DECEMBER_COOL = 0.60


def test_six_inches_of_loam_bear_041_in() -> None:
    """FAO-56 chapter 8: 0.40 × 0.17 in/in × 6 in, with the default depletion of table 22."""
    figures = water(yard())
    assert figures.bearable_depth_in == pytest.approx(0.408)
    assert figures.roots_are_default
    assert figures.limited_by == "roots"


def test_every_figure_of_a_watering_by_hand() -> None:
    """Definitions of the plan, with 96.25 gpm·sq ft and 0.6234 gal as their exact constants."""
    plain = zone(flow_gpm=10.0, target_depth_in=0.5)
    plugs = [core(date(2026, 5, 1), 0.7, 0.8, 0.9, root_depth_in=8.8)]
    figures = water(yard(plain, climate=steady(0.2), spots=[spot()], cores=plugs))
    etc = 0.2 * KC_JUNE_COOL
    multiplier = 1 / (0.4 + 0.6 * 0.65)
    assert figures.rooted_soil_in == pytest.approx(8.0)
    assert figures.bearable_depth_in == pytest.approx(0.4 * 0.17 * 8)
    assert figures.etc_in_per_day == pytest.approx(etc)
    assert figures.interval_days == math.floor(0.5 / etc) == 2
    assert figures.depth_in == pytest.approx(2 * etc)
    assert figures.limited_by == "target"
    assert figures.precipitation_rate_in_per_h == pytest.approx(96.25 * 10 / 1000)
    run = 60 * 2 * etc * multiplier / 0.9625
    assert figures.run_minutes == pytest.approx(run)
    longest = 60 * 0.30 / (0.9625 - 0.35)
    assert figures.cycles == math.ceil(run / longest) == 1
    assert figures.minutes_per_cycle == pytest.approx(run)
    assert figures.soak_minutes == 0
    assert figures.gallons == pytest.approx(2 * etc * multiplier * 1000 * 0.62338, rel=1e-4)
    assert figures.roots_needed_in == pytest.approx(0.5 / (0.4 * 0.17))
    assert figures.reason == ""


def test_cycles_and_soak_on_a_clay_slope() -> None:
    """Irrigation Association scheduling: longest = 60 × ASA ÷ (PR − IR), clay at 12 %: 0.10 in."""
    steep = zone(soil="clay", slope_pct=12, precipitation_in_per_h=1.6, default_root_depth_in=12)
    figures = water(yard(steep, climate=steady(0.25)))
    assert figures.run_minutes is not None
    assert figures.cycles is not None
    assert figures.cycles == math.ceil(figures.run_minutes / (60 * 0.10 / 1.5))
    assert figures.minutes_per_cycle == pytest.approx(figures.run_minutes / figures.cycles)
    assert figures.soak_minutes == pytest.approx(figures.run_minutes / figures.cycles * 15)


def test_an_inch_lasts_four_or_five_days_in_summer_and_nine_in_spring_and_autumn() -> None:
    """(common practice) With roots that bear an inch, in the climate of our choice."""
    deep = zone(default_root_depth_in=15)
    months = water(yard(deep)).interval_days_by_month
    assert all(days in (4, 5) for days in months[5:8])
    assert months[2] is not None
    assert 8 <= months[2] <= 15
    assert months[8] is not None
    assert 8 <= months[8] <= 9


def test_the_crop_coefficient_shifts_six_months_south_of_the_equator() -> None:
    south = water(yard(latitude_deg=-33.0, climate=steady(0.2)))
    assert south.etc_in_per_day == pytest.approx(0.2 * KC_DECEMBER_COOL)


@pytest.mark.parametrize(
    ("roots_in", "eto", "limited_by"),
    [(6.0, 0.2, "roots"), (20.0, 0.2, "target"), (2.0, 0.3, "one day"), (6.0, 0.408, "roots")],
)
def test_what_limits_a_watering(roots_in: float, eto: float, limited_by: str) -> None:
    book = yard(zone(default_root_depth_in=roots_in), climate=steady(eto))
    assert water(book).limited_by == limited_by


def test_a_day_that_uses_more_than_the_roots_bear_shows_its_shortfall() -> None:
    figures = water(yard(zone(default_root_depth_in=2.0), climate=steady(0.3)))
    assert figures.interval_days == 1
    assert figures.depth_in == pytest.approx(0.4 * 0.17 * 2)
    assert figures.shortfall_in_per_day == pytest.approx(0.3 * KC_JUNE_COOL - 0.136)
    assert any("more than the roots bear" in note for note in figures.notes)


def test_roots_that_end_in_the_thatch_bear_nothing() -> None:
    plugs = [core(date(2026, 5, 1), 2.0, root_depth_in=1.5)]
    figures = water(yard(zone(flow_gpm=10.0), spots=[spot()], cores=plugs))
    assert figures.rooted_soil_in == figures.bearable_depth_in == figures.depth_in == 0
    assert figures.cycles == 0
    assert any("No roots reach the soil" in note for note in figures.notes)


def test_roots_are_the_mean_over_spots_of_each_ones_latest_plug() -> None:
    plugs = [
        core(date(2025, 5, 1), 1.0, root_depth_in=3.0),
        core(date(2026, 5, 1), 0.8, root_depth_in=5.0),
        core(date(2026, 6, 1), 0.6, id="later"),
        core(date(2026, 5, 2), 0.4, id="other", spot="s2", root_depth_in=9.0),
        core(date(2026, 7, 1), 0.0, id="future", root_depth_in=20.0),
    ]
    spots = [spot(), spot(id="s2", name="oak", zone=None, at_ft=(10.0, 10.0))]
    figures = water(yard(spots=spots, cores=plugs))
    assert not figures.roots_are_default
    assert figures.rooted_soil_in == pytest.approx((5 + 9) / 2 - (0.6 + 0.4) / 2)


def test_thatch_never_adds_to_what_roots_bear_and_is_taken_from_the_default_depth() -> None:
    plugs = [core(date(2026, 5, 1), 1.5)]
    figures = water(yard(spots=[spot()], cores=plugs))
    assert figures.rooted_soil_in == pytest.approx(4.5)
    assert figures.roots_are_default


SPRING_TO_AUTUMN = Season(start="04-20", end="10-15")


@pytest.mark.parametrize(
    ("on", "planned"),
    [
        (date(2026, 4, 19), False),
        (date(2026, 4, 20), True),
        (date(2026, 10, 15), True),
        (date(2026, 10, 16), False),
    ],
)
def test_today_keeps_to_the_days_of_the_season_and_a_month_counts_whole(
    on: date, planned: bool
) -> None:
    figures = water(yard(season=SPRING_TO_AUTUMN), on)
    assert (figures.interval_days is not None) is planned
    assert [days is not None for days in figures.interval_days_by_month] == [
        4 <= month <= 10 for month in range(1, 13)
    ]
    if not planned:
        assert "20 Apr to 15 Oct" in figures.reason
        assert figures.next_watering is None
        assert figures.etc_in_per_day is not None


def test_a_season_may_run_over_new_year() -> None:
    book = yard(season=Season(start="10-01", end="03-31"), climate=steady(0.2), latitude_deg=-30)
    assert water(book, date(2026, 1, 10)).interval_days is not None
    assert water(book, JUNE).interval_days is None


@pytest.mark.parametrize(
    ("tmean_f", "word"), [(28.0, "frozen"), (39.9, "dormant"), (40.0, ""), (70.0, "")]
)
def test_no_watering_while_dormant_or_frozen(tmean_f: float, word: str) -> None:
    """Dormant below 40 °F for cool-season turf (common practice)."""
    figures = water(yard(climate=climate(tmean_f=(tmean_f,) * 12)))
    assert (word in figures.reason) if word else figures.reason.startswith("Precipitation rate")
    assert (figures.etc_in_per_day == 0) is bool(word)
    assert (figures.interval_days is None) is bool(word)


def test_warm_season_turf_is_dormant_below_fifty() -> None:
    figures = water(yard(zone(grass="warm")))
    assert [m.interval_days is None for m in figures.months] == [t < 50 for t in TMEAN_F]


def test_a_zone_that_is_not_irrigated_says_so() -> None:
    figures = water(yard(zone(irrigated=False)))
    assert figures.depth_in is figures.interval_days is None
    assert figures.next_watering is None
    assert figures.reason.startswith("Not irrigated")


def test_without_weather_and_climate_the_reason_names_the_mend() -> None:
    figures = water(yard(climate=()))
    assert figures.etc_in_per_day is figures.depth_in is figures.target_interval_days is None
    assert "import daily weather" in figures.reason
    assert figures.bearable_depth_in == pytest.approx(0.408)


def test_without_a_rate_the_depth_stands_and_the_run_does_not() -> None:
    figures = water(yard())
    assert figures.depth_in is not None
    assert figures.gallons is not None
    assert figures.run_minutes is figures.cycles is figures.soak_minutes is None
    assert "set out cans" in figures.reason


@pytest.mark.parametrize(("eto", "told"), [(0.467, False), (0.48, True)])
def test_a_shortfall_that_rounds_to_nothing_is_not_told(eto: float, told: bool) -> None:
    """Six inches of loam bear 0.408 in; June's use is 0.411 in, and 0.422 in."""
    figures = water(yard(climate=steady(eto)))
    assert figures.limited_by == "one day"
    assert any("more than the roots bear" in note for note in figures.notes) is told


def test_more_depletion_than_the_grass_likes_shows_the_stress() -> None:
    """FAO-56 eq. 84: Ks = (1 − 0.6) / (1 − 0.4) = 67 % where 0.6 of the water is used."""
    figures = water(yard(zone(allowed_depletion=0.6)))
    assert figures.bearable_depth_in == pytest.approx(0.6 * 0.17 * 6)
    assert any("67\u00a0%" in note for note in figures.notes)


def test_a_rate_above_the_soils_warns_and_leaves_the_cycles_alone() -> None:
    """USDA table: 1.0 in/h on covered silt loam up to 5 %."""
    slow, fast = (water(yard(zone(precipitation_in_per_h=rate))) for rate in (1.0, 1.1))
    steep = zone(soil="clay", slope_pct=12, precipitation_in_per_h=0.5, default_root_depth_in=4)
    split = water(yard(steep, climate=steady(0.2)))
    assert not any("run-off" in note for note in slow.notes)
    assert any("1.00 in/h that loam" in note for note in fast.notes)
    assert (fast.cycles, split.cycles) == (1, 2)
    assert any(note.endswith("without run-off: watch for run-off.") for note in fast.notes)
    assert any(note.endswith("keep to the cycles, and watch for run-off.") for note in split.notes)


def test_the_microclimate_multiplies_the_use() -> None:
    """University of California WUCOLS method: 0.5–0.9 in shade (from memory)."""
    shade = water(yard(zone(microclimate=0.6), climate=steady(0.2)))
    assert shade.etc_in_per_day == pytest.approx(0.2 * KC_JUNE_COOL * 0.6)


def test_next_to_no_use_needs_no_watering() -> None:
    assert "Next to no water" in water(yard(climate=steady(0.0003))).reason
    assert water(yard(climate=steady(0.001))).interval_days == 463


def test_defaults_are_told_and_marked() -> None:
    figures = water(yard(zone(soil=None)))
    note = next(note for note in figures.notes if note.startswith("Assumed"))
    assert figures.defaults == ("soil loam", "roots 6 in", "evenness (DU) 0.65")
    assert all(word in note for word in (*figures.defaults, "all the year"))
    marked = {i.name for w in figures.workings for i in w.inputs if i.is_default}
    assert {"Root depth", "Soil", "DU_LQ", "Allowed depletion", "Thatch"} <= marked


def test_what_was_measured_or_entered_is_no_default() -> None:
    cans = CatchTest(id="t", zone="z1", date=JUNE, run_minutes=10, depths_in=(0.2, 0.3))
    book = replace(yard(zone(soil="clay"), spots=[spot()]), catch_tests={"t": cans})
    assert water(book).defaults == ("roots 6 in",)
    assert water(replace(book, cores={"c": core(JUNE, 0.5, root_depth_in=4.0)})).defaults == ()
    dry = yard(zone(irrigated=False))
    assert water(dry).defaults == ("roots 6 in",)


def test_every_figure_has_its_working_with_a_source() -> None:
    figures = water(yard(zone(precipitation_in_per_h=1.2)))
    by_figure = {working.figure: working for working in figures.workings}
    for name in (
        "area_sqft", "precipitation_rate_in_per_h", "multiplier", "etc_in_per_day",
        "rooted_soil_in", "bearable_depth_in", "interval_days", "depth_in",
        "shortfall_in_per_day", "target_interval_days", "roots_needed_in", "run_minutes",
        "cycles", "gallons", "next_watering",
    ):  # fmt: skip
        assert by_figure[name].inputs
        assert by_figure[name].source
        assert by_figure[name].filled


@given(
    st.floats(0.5, 30), st.floats(0.01, 0.5), st.floats(0.1, 3.0), st.sampled_from(["cool", "warm"])
)
def test_a_watering_is_never_more_than_the_roots_bear(
    roots_in: float, eto: float, target_in: float, grass: str
) -> None:
    plain = zone(default_root_depth_in=roots_in, target_depth_in=target_in, grass=grass)
    for month in water(yard(plain, climate=steady(eto))).months:
        assert month.depth_in is not None
        assert month.etc_in_per_day is not None
        assert month.interval_days is not None
        bearable = {"cool": 0.4, "warm": 0.5}[grass] * 0.17 * roots_in
        assert month.depth_in <= bearable + 1e-9
        assert month.depth_in <= month.interval_days * month.etc_in_per_day + 1e-9
        if month.interval_days > 1:
            assert month.interval_days * month.etc_in_per_day <= min(bearable, target_in) + 1e-6


@given(st.floats(0.5, 15), st.floats(0.0, 15))
def test_more_roots_never_shorten_the_interval(roots_in: float, more_in: float) -> None:
    less, more = (
        water(yard(zone(default_root_depth_in=depth))).interval_days_by_month
        for depth in (roots_in, roots_in + more_in)
    )
    for a, b in zip(less, more, strict=True):
        assert (a is None and b is None) or (a is not None and b is not None and a <= b)


@given(st.floats(0.1, 4), st.floats(1, 4), st.floats(0.05, 0.3))
def test_a_higher_rate_never_lengthens_the_run(rate: float, faster: float, eto: float) -> None:
    slow, fast = (
        water(yard(zone(precipitation_in_per_h=each), climate=steady(eto))).run_minutes
        for each in (rate, rate * faster)
    )
    assert slow is not None
    assert fast is not None
    assert fast <= slow


@given(st.floats(0.5, 20), st.floats(0.05, 0.3))
def test_twice_the_flow_halves_the_run(flow_gpm: float, eto: float) -> None:
    once, twice = (
        water(yard(zone(flow_gpm=each), climate=steady(eto))).run_minutes
        for each in (flow_gpm, 2 * flow_gpm)
    )
    assert once is not None
    assert twice == pytest.approx(once / 2)


@given(st.floats(0.5, 15), st.floats(0.0, 2), st.floats(0.0, 2))
def test_more_thatch_above_the_same_roots_never_lengthens_the_interval_of_any_month(
    roots_in: float, thatch_in: float, more_in: float
) -> None:
    thin, thick = (
        water(
            yard(spots=[spot()], cores=[core(date(2026, 5, 1), thatch, root_depth_in=roots_in)])
        ).interval_days_by_month
        for thatch in (thatch_in, thatch_in + more_in)
    )
    for a, b in zip(thin, thick, strict=True):
        assert (a is None and b is None) or (a is not None and b is not None and b <= a)


def test_the_plan_knows_only_what_is_dated_up_to_its_day() -> None:
    plugs = [core(date(2026, 7, 1), 0.5, root_depth_in=12.0)]
    book = yard(spots=[spot()], cores=plugs)
    assert water(book).roots_are_default
    assert not water(book, date(2026, 7, 1)).roots_are_default
    assert make_plan(book, JUNE) == make_plan(yard(spots=[spot()]), JUNE)
