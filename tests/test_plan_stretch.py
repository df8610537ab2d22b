"""From shallow to deep by steps: what each asks of the roots, costs on today's, and when."""

import math
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.agronomy.soil import SOILS
from lawnbook.agronomy.turf import DEPLETION
from lawnbook.agronomy.water_balance import roots_needed_in
from lawnbook.plan.season import month_name
from lawnbook.plan.stretch import MOST_STEPS, stretch_of
from lawnbook.plan.water_model import Stretch
from lawnbook.plan.zone_facts import facts_of, setting_of
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.records import Core, Established, Season
from tests.plan_yards import ETO_IN, JUNE, climate, core, spot, steady, water, yard, zone

KC_JUNE_COOL = 0.88  # University of California, turf crop coefficients by month
KC_JULY_COOL = 0.94


def found(book: Notebook, on: date = JUNE) -> Stretch | None:
    """The stretch of a notebook's first zone."""
    known = as_of(book, on)
    setting = setting_of(known, on)
    return stretch_of(setting, facts_of(setting, next(iter(known.zones.values())), 1))


def stretch(book: Notebook, on: date = JUNE) -> Stretch:
    """The same where there is one."""
    steps = found(book, on)
    assert steps is not None
    return steps


def rooted(root_in: float, thatch_in: float = 0.5, on: date = date(2026, 4, 20)) -> list[Core]:
    """One plug with such roots."""
    return [core(on, thatch_in, root_depth_in=root_in)]


def test_the_steps_of_six_inches_of_loam_by_hand() -> None:
    """FAO-56 eq. 82, 83, 84 with p 0.40 and 0.17 in/in: 0.408 in are borne, TAW is 1.02 in.

    At 0.176 in a day: 2 days now, and the inch would last 5, which would use 0.88 of 1.02 in.
    """
    book = yard(climate=steady(0.2), spots=[spot()], cores=rooted(6.5))
    steps = stretch(book)
    use = 0.2 * KC_JUNE_COOL
    assert [each.interval_days for each in steps.steps] == [2, 3, 4, 5]
    for each in steps.steps:
        depth = each.interval_days * use
        assert each.depth_in == pytest.approx(depth)
        assert each.rooted_soil_needed_in == pytest.approx(depth / (0.4 * 0.17))
        assert each.root_depth_needed_in == pytest.approx(depth / (0.4 * 0.17) + 0.5)
        assert each.share_used_now == pytest.approx(depth / 1.02)
        assert each.stress_now == pytest.approx(min(1.0, (1 - depth / 1.02) / 0.6))
    assert [each.borne for each in steps.steps] == [True, False, False, False]
    assert steps.month == 6
    assert steps.etc_in_per_day == pytest.approx(use)


def test_what_an_inch_does_in_depth_by_hand() -> None:
    """Half an inch of thatch keeps 0.05 in; loam used up to 0.40 takes 0.068 in per in."""
    steps = stretch(yard(climate=steady(0.2), spots=[spot()], cores=rooted(6.5)))
    assert steps.inch_wets_in == pytest.approx(0.95 / 0.068)
    assert steps.inch_past_roots_in == pytest.approx(0.95 - 0.408)
    sponge = zone(thatch_water_in_per_in=0.3)
    held = stretch(yard(sponge, climate=steady(0.2), spots=[spot()], cores=rooted(6.5)))
    assert held.inch_wets_in == pytest.approx(0.85 / 0.068)
    dry = zone(thatch_water_in_per_in=0.0)
    none = stretch(yard(dry, climate=steady(0.2), spots=[spot()], cores=rooted(6.5)))
    assert none.inch_wets_in == pytest.approx(1 / 0.068)
    deep = stretch(yard(climate=steady(0.2), spots=[spot()], cores=rooted(20.0)))
    assert deep.inch_past_roots_in == 0


def test_the_owners_allowance_is_what_counts_as_borne_and_fao_what_counts_as_stress() -> None:
    bold = zone(allowed_depletion=0.6)
    steps = stretch(yard(bold, climate=steady(0.2), spots=[spot()], cores=rooted(6.5))).steps
    assert steps[0].interval_days == 3
    assert steps[0].borne
    assert steps[0].stress_now == pytest.approx((1 - 0.528 / 1.02) / (1 - DEPLETION["cool"]))


def test_the_words_say_what_to_see_and_what_it_would_cost() -> None:
    words = stretch(yard(climate=steady(0.2), spots=[spot()], cores=rooted(6.5))).words
    assert words.startswith(
        "Now 0.35 in every 2 days. When plugs show 8.3 in of roots (6.5 in now)"
    )
    assert "go to 3 days; next plug in October." in words
    assert "Going to 0.88 in every 5 days at once would use 86\u00a0%" in words
    assert "the grass would run short" in words
    assert "feeds the thatch" in words


def test_roots_that_bear_the_target_have_one_step() -> None:
    steps = stretch(yard(climate=steady(0.2), spots=[spot()], cores=rooted(20.0)))
    assert [each.borne for each in steps.steps] == [True]
    assert steps.words == "Now 0.88 in every 5 days: these roots bear the target."


def test_a_day_that_uses_more_than_the_roots_bear_is_a_step_not_borne() -> None:
    steps = stretch(yard(climate=steady(0.3), spots=[spot()], cores=rooted(3.0)))
    assert steps.steps[0].interval_days == 1
    assert not steps.steps[0].borne
    assert "Now one day uses 0.26 in, more than the 0.17 in that these roots bear" in steps.words
    assert "When plugs show 4.4 in of roots (3.0 in now), they bear a day" in steps.words


def test_roots_that_end_in_the_thatch() -> None:
    steps = stretch(yard(climate=steady(0.2), spots=[spot()], cores=rooted(0.4)))
    assert all(each.share_used_now == 1 and each.stress_now == 0 for each in steps.steps)
    assert steps.inch_past_roots_in == pytest.approx(0.95)
    assert steps.words.startswith("No roots reach the soil below the thatch")


def test_in_winter_it_tells_of_the_thirstiest_month() -> None:
    """July: 0.26 × 0.94 is the most of the climate of our choice."""
    winter = stretch(yard(spots=[spot()], cores=rooted(6.5, on=date(2025, 9, 9))), date(2026, 1, 9))
    assert winter.month == 7
    assert winter.etc_in_per_day == pytest.approx(0.26 * KC_JULY_COOL)
    assert winter.words.startswith("In July ")
    spring = Season(start="04-01", end="05-31")
    assert stretch(yard(season=spring), date(2026, 1, 9)).month == 5


def test_there_is_none_without_weather_irrigation_or_roots_to_speak_of() -> None:
    sown = zone(established=Established(date=date(2026, 6, 10), how="seed"))
    assert found(yard(climate=[])) is None
    assert found(yard(zone(irrigated=False))) is None
    assert found(yard(sown)) is None
    frozen = climate(ETO_IN, (20.0,) * 12)
    assert found(yard(climate=frozen)) is None


def grown(*inches: float, first: date = date(2024, 10, 1), apart_days: int = 182) -> list[Core]:
    """Plugs with roots of so many inches and no thatch, so many days apart."""
    days = (first + timedelta(days=apart_days * turn) for turn in range(len(inches)))
    return [core(on, 0.0, root_depth_in=depth) for on, depth in zip(days, inches, strict=True)]


def test_growth_carries_on_from_the_latest_plug() -> None:
    """2 in a year from 6 in on 30 Sep 2025: three days of 0.528 in need 7.76 in of loam."""
    plugs = grown(4.0, 5.0, 6.0)
    steps = stretch(yard(climate=steady(0.2), spots=[spot()], cores=plugs))
    per_year = 2 / (364 / 365.25)
    assert steps.growth_in_per_year == pytest.approx(per_year)
    needed = 3 * 0.2 * KC_JUNE_COOL / (0.4 * 0.17)
    days = (needed - 6.0) / per_year * 365.25
    assert steps.steps[1].expected == plugs[-1].date + timedelta(days=round(days))
    assert steps.steps[0].expected is None
    when = steps.steps[1].expected
    assert when is not None
    assert f"about {month_name(when.month)} {when.year}" in steps.words


def test_growth_that_should_have_been_enough_already_is_told_as_such() -> None:
    steps = stretch(yard(climate=steady(0.2), spots=[spot()], cores=grown(3.0, 5.0, 7.0)))
    assert steps.steps[1].expected == JUNE
    assert "they may be there already" in steps.words


@pytest.mark.parametrize(
    "plugs",
    [
        grown(4.0, 6.0),
        grown(4.0, 5.0, 6.0, apart_days=60),
        grown(6.0, 5.0, 4.0),
        grown(5.0, 5.0, 5.0),
        grown(5.0, 5.01, 5.02),
    ],
    ids=["two plugs", "under half a year", "shrinking", "standing", "over five years"],
)
def test_no_date_is_told_where_growth_does_not_show_one(plugs: list[Core]) -> None:
    steps = stretch(yard(climate=steady(0.2), spots=[spot()], cores=plugs))
    assert all(each.expected is None for each in steps.steps)
    assert "pace" not in steps.words


def test_no_date_lies_more_than_five_years_ahead() -> None:
    steps = stretch(yard(climate=steady(0.1), spots=[spot()], cores=grown(3.0, 3.4, 3.8)))
    told = [each.expected for each in steps.steps if each.expected is not None]
    assert told
    assert max(told) <= JUNE + timedelta(days=round(5 * 365.25) + 1)
    assert steps.steps[-1].expected is None


def test_the_next_plug_is_the_earliest_of_the_zones_spots_however_far_off() -> None:
    """Half a year after the latest, in spring or autumn (common practice)."""
    spots = [spot(), spot(id="s2", name="oak"), spot(id="s3", name="far", zone="z2")]
    plugs = [
        core(date(2026, 4, 20), 0.5, root_depth_in=6.5),
        core(date(2026, 4, 1), 0.5, id="b", spot="s2", root_depth_in=6.5),
    ]
    book = yard(zone(), zone(id="z2", name="Side"), spots=spots, cores=plugs)
    assert stretch(book).plug_due == date(2026, 9, 28)
    bare = stretch(yard())
    assert bare.plug_due is None
    assert "mark a spot and pull plugs" in bare.words
    assert "assumed" in bare.words
    due = stretch(yard(spots=[spot()], cores=[]), date(2026, 9, 5))
    assert "a plug is due now" in due.words


def test_many_steps_are_thinned_and_keep_the_first_the_next_and_the_last() -> None:
    whole = yard(zone(target_depth_in=2.0), climate=steady(0.1), spots=[spot()], cores=rooted(3.5))
    steps = stretch(whole).steps
    days = [each.interval_days for each in steps]
    assert len(days) == MOST_STEPS
    assert days[:2] == [2, 3]
    assert days[-1] == math.floor(2.0 / (0.1 * KC_JUNE_COOL))
    gaps = {after - before for before, after in pairwise(days[1:])}
    assert max(gaps) - min(gaps) <= 1


def test_a_dry_year_tells_the_steps_of_full_water() -> None:
    plain = yard(climate=steady(0.2), spots=[spot()], cores=rooted(6.5))
    dry = replace(plain, yard=replace(plain.yard, drought="less"))
    assert stretch(dry).steps == stretch(plain).steps
    assert stretch(dry).words.startswith("With full water in June 0.35 in every 2 days")


@settings(max_examples=60, deadline=None)
@given(
    st.floats(0.5, 24),
    st.floats(0, 2),
    st.floats(0.02, 0.35),
    st.sampled_from(sorted(SOILS)),
    st.floats(0.2, 0.8),
)
def test_the_way_leads_from_today_to_the_target(
    root_in: float, thatch_in: float, eto: float, soil: str, allowed: float
) -> None:
    lawn = zone(soil=soil, allowed_depletion=allowed)
    book = yard(lawn, climate=steady(eto), spots=[spot()], cores=rooted(root_in, thatch_in))
    figures, steps = water(book), stretch(book)
    first, last = steps.steps[0], steps.steps[-1]
    assert first.interval_days == figures.interval_days
    assert last.interval_days == figures.target_interval_days
    assert last.depth_in <= figures.target_depth_in + 1e-9
    available = SOILS[soil].available_water_in_per_in
    assert last.rooted_soil_needed_in <= roots_needed_in(1.0, allowed, available) + 1e-9
    for before, after in pairwise(steps.steps):
        assert before.interval_days < after.interval_days
        assert before.rooted_soil_needed_in <= after.rooted_soil_needed_in
        assert before.share_used_now <= after.share_used_now
        assert before.stress_now >= after.stress_now
        assert before.borne or not after.borne
    for each in steps.steps:
        assert each.borne == (each.depth_in <= figures.bearable_depth_in + 1e-9)
        assert 0 <= each.share_used_now <= 1
    into_soil = 1 - 0.1 * thatch_in
    assert 0 <= steps.inch_past_roots_in <= into_soil + 1e-9
    assert steps.words.endswith(".")
