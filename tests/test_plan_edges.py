"""The year's edges and the supply's: a dry year, frost, a well's flow, salt, hoses, no water."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from lawnbook.agronomy.precipitation import precipitation_rate_in_per_h
from lawnbook.plan.frost import frost_near
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import ZoneWater
from lawnbook.plan.month_water import cost_of, flow_gpm_of, month_water, water_today
from lawnbook.plan.spread import check_spread
from lawnbook.plan.zone_facts import Setting, ZoneFacts, facts_of, setting_of
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.records import Established, Head, NBudget, Season, WeatherDay
from tests.plan_yards import (
    JUNE,
    climate,
    core,
    product,
    rules,
    spot,
    steady,
    water,
    watering,
    weather_day,
    yard,
    zone,
)


def in_a_yard(book: Notebook, **values: Any) -> Notebook:
    """The notebook with other settings of the yard."""
    return replace(book, yard=replace(book.yard, **values))


def on_day(book: Notebook, on: date = JUNE) -> tuple[Setting, ZoneFacts]:
    """What the first zone of a notebook rests on, on a day."""
    known = as_of(book, on)
    setting = setting_of(known, on)
    return setting, facts_of(setting, next(iter(known.zones.values())), 1)


def noted(figures: ZoneWater, words: str) -> list[str]:
    """The notes of a zone that hold some words."""
    return [note for note in figures.notes if words in note]


# --- a dry year -----------------------------------------------------------------------------


@pytest.mark.parametrize(("share", "given"), [(None, 0.8), (0.5, 0.5), (1.0, 1.0)])
def test_a_dry_year_gives_a_share_at_the_same_interval(share: float | None, given: float) -> None:
    plain = yard(zone(precipitation_in_per_h=1.0), climate=steady(0.2))
    dry = in_a_yard(plain, drought="less", drought_share=share)
    full, less = water(plain), water(dry)
    for name in ("depth_in", "run_minutes", "gallons"):
        assert getattr(less, name) == pytest.approx(given * getattr(full, name))
    assert less.interval_days == full.interval_days
    assert less.interval_days_by_month == full.interval_days_by_month
    assert less.limited_by == full.limited_by
    assert bool(noted(less, "Dry year")) is (given < 1)
    assert [m.depth_in for m in less.months] == [
        None if m.depth_in is None else pytest.approx(given * m.depth_in) for m in full.months
    ]


def test_a_share_typed_while_the_year_is_not_dry_changes_nothing() -> None:
    plain = yard(climate=steady(0.2))
    assert water(in_a_yard(plain, drought_share=0.5)).depth_in == water(plain).depth_in


def test_let_go_dormant_by_species() -> None:
    """University of Nebraska: bluegrass every four weeks; half an inch (common practice)."""
    lawn = zone(species="Kentucky bluegrass", precipitation_in_per_h=1.0)
    dry = in_a_yard(yard(lawn, climate=steady(0.2)), drought="survival")
    figures = water(dry)
    assert (figures.rule, figures.interval_days, figures.depth_in) == ("survival", 28, 0.5)
    assert figures.limited_by is None
    assert figures.shortfall_in_per_day == 0
    assert figures.reason == "Let go dormant: 0.50 in every 28 days keeps the crowns alive."
    assert figures.notes[0].startswith("Kentucky bluegrass let go dormant bears about 5 weeks")
    assert figures.run_minutes == pytest.approx(60 * 0.5 / (0.4 + 0.6 * 0.65))
    assert set(figures.interval_days_by_month) == {28}


def test_let_go_dormant_only_in_the_season_and_while_the_grass_would_grow() -> None:
    season = Season(start="05-01", end="09-30")
    dry = in_a_yard(yard(season=season), drought="survival")
    assert water(dry, date(2026, 4, 10)).depth_in is None
    assert water(dry, date(2026, 5, 10)).depth_in == 0.5
    planned = [m.month for m in water(dry).months if m.depth_in is not None]
    assert planned == [5, 6, 7, 8, 9]
    frozen = in_a_yard(yard(climate=climate((0.1,) * 12, (20.0,) * 12)), drought="survival")
    assert water(frozen).depth_in is None


def test_a_dormant_lawn_is_next_watered_weeks_after_the_last_water() -> None:
    lawn = zone(species="Kentucky bluegrass")
    put_down = [watering(JUNE - timedelta(days=10), minutes=30)]
    dry = in_a_yard(yard(lawn, climate=steady(0.2), waterings=put_down), drought="survival")
    assert water(dry).next_watering == JUNE + timedelta(days=18)
    rain = [weather_day(JUNE - timedelta(days=2), rain_in=0.7)]
    wet = in_a_yard(yard(lawn, climate=steady(0.2), weather=rain), drought="survival")
    assert water(wet).next_watering == JUNE + timedelta(days=26)
    silent = in_a_yard(yard(lawn, climate=steady(0.2)), drought="survival")
    assert water(silent).next_watering == JUNE
    (due,) = [due for due in make_plan(silent, JUNE).due if due.kind == "water"]
    assert "crowns" in due.why


def test_a_dormant_lawn_is_not_watered_once_the_cold_has_it() -> None:
    """Half an inch on 25 October would be due again on 8 November, with a mean of 35 °F."""
    cold = climate((0.1,) * 12, (70.0,) * 10 + (35.0,) * 2)
    put_down = [watering(date(2026, 10, 25), depth_in=0.6)]
    dry = in_a_yard(yard(climate=cold, waterings=put_down), drought="survival")
    figures = water(dry, date(2026, 10, 28))
    assert figures.depth_in == 0.5
    assert figures.next_watering is None
    assert figures.next_run is None
    sooner = replace(put_down[0], date=date(2026, 10, 16))
    earlier = in_a_yard(yard(climate=cold, waterings=[sooner]), drought="survival")
    assert water(earlier, date(2026, 10, 28)).next_watering == date(2026, 10, 30)


def ruled(book: Notebook, *days: Any) -> Notebook:
    """The notebook with a local rule of some weekdays."""
    return replace(book, water_rules=replace(book.water_rules, days=days))


def test_a_local_rule_speaks_of_the_calendar_where_that_is_what_waters() -> None:
    """15 June 2026 is a Monday; half an inch every four weeks fits any rule of a day a week."""
    dormant = in_a_yard(yard(climate=steady(0.2)), drought="survival")
    figures = water(ruled(dormant, "Sun"))
    assert figures.next_allowed == date(2026, 6, 21)
    assert noted(figures, "Your rule allows Sun 21 Jun; water is due on Mon 15 Jun.")
    assert not noted(figures, "at best")
    sown = zone(established=Established(date=date(2026, 6, 12), how="seed"))
    patch = water(ruled(yard(sown, climate=steady(0.2)), "Mon", "Thu"))
    assert noted(patch, "New turf wants water every day, your rule leaves up to 4 days between")
    assert not noted(patch, "at best")
    assert not noted(water(yard(sown, climate=steady(0.2))), "New turf wants")


def test_dormancy_is_a_caution_in_its_season() -> None:
    season = Season(start="05-01", end="09-30")
    dry = in_a_yard(yard(season=season), drought="survival")
    assert "let go dormant" in make_plan(dry, JUNE).cautions[0]
    assert not any("let go dormant" in each for each in make_plan(dry, date(2026, 12, 1)).cautions)


# --- frost ----------------------------------------------------------------------------------


def lows(first: date, *low_f: float) -> list[WeatherDay]:
    """Days in a row with such lows."""
    return [
        weather_day(first + timedelta(days=each), tmin_f=low, tmax_f=low + 25)
        for each, low in enumerate(low_f)
    ]


OCTOBER = date(2026, 10, 5)


@pytest.mark.parametrize(("ago", "told"), [(0, True), (13, True), (14, False)])
def test_frost_of_the_last_two_weeks(ago: int, told: bool) -> None:
    mild = climate(tmean_f=(60.0,) * 12)
    book = yard(climate=mild, weather=lows(OCTOBER - timedelta(days=ago), 30.0))
    near = frost_near(on_day(book, OCTOBER)[0])
    assert (near is not None) is told
    caution = make_plan(book, OCTOBER).cautions[0]
    assert caution.startswith("Frost came on") is told
    if told:
        assert "(30 °F)" in caution
        assert "drained" in caution
        assert "licensed" in caution


def test_frost_that_is_usual_by_the_years_before() -> None:
    """Half of the years on record had a low of 32 °F or less in the coming 30 days."""
    mild = climate(tmean_f=(60.0,) * 12)
    cold, warm = [40.0] * 14 + [31.0], [40.0] * 15
    begins = date(2025, 10, 8), date(2024, 10, 8)
    one_of_two = lows(begins[0], *cold) + lows(begins[1], *warm)
    assert frost_near(on_day(yard(climate=mild, weather=one_of_two), OCTOBER)[0]) is not None
    none = lows(begins[0], *warm) + lows(begins[1], *warm)
    assert frost_near(on_day(yard(climate=mild, weather=none), OCTOBER)[0]) is None
    few = lows(begins[0], *cold[-5:])
    assert frost_near(on_day(yard(climate=mild, weather=few), OCTOBER)[0]) is None


@pytest.mark.parametrize(
    ("on", "latitude_deg", "told"),
    [
        (date(2026, 10, 5), 41.0, True),
        (date(2026, 9, 5), 41.0, False),
        (date(2026, 3, 5), 41.0, False),
        (date(2026, 11, 5), -41.0, False),
    ],
)
def test_frost_by_the_climate_table(on: date, latitude_deg: float, told: bool) -> None:
    """November's mean of 40 °F has frosty nights (common practice); spring drains no lines."""
    cautions = make_plan(yard(latitude_deg=latitude_deg), on).cautions
    assert any("Frost is usual" in each for each in cautions) is told


def test_only_lines_in_the_ground_are_drained() -> None:
    for lawn in (zone(irrigated=False), zone(sprinklers="hose")):
        assert not any("Frost" in each for each in make_plan(yard(lawn), OCTOBER).cautions)


# --- flow, money ----------------------------------------------------------------------------


def test_what_a_zone_draws_is_its_rate_turned_round() -> None:
    """96.25 gpm·sq ft: 1 in/h on 1,000 sq ft draws 10.39 gpm."""
    typed = on_day(yard(zone(precipitation_in_per_h=1.0)))[1]
    flow = flow_gpm_of(typed)
    assert flow == pytest.approx(1000 / 96.25)
    assert flow is not None
    assert precipitation_rate_in_per_h(flow, 1000) == pytest.approx(1.0)
    assert flow_gpm_of(on_day(yard(zone(flow_gpm=7.5)))[1]) == 7.5
    assert flow_gpm_of(on_day(yard())[1]) is None
    heads = [Head(id=f"h{n}", zone="z1", at_ft=(0.0, 0.0), flow_gpm=3.1) for n in range(4)]
    assert flow_gpm_of(on_day(yard(heads=heads))[1]) == pytest.approx(12.4)
    hose = zone(sprinklers="hose", hose_places=4, precipitation_in_per_h=1.0)
    assert flow_gpm_of(on_day(yard(hose))[1]) == pytest.approx(250 / 96.25)


@pytest.mark.parametrize(
    ("most", "told"), [(10.0, True), (14.2, False), (18.0, False), (None, False)]
)
def test_a_zone_that_draws_more_than_the_well_gives(most: float | None, told: bool) -> None:
    book = in_a_yard(yard(zone(flow_gpm=14.2)), max_gpm=most)
    notes = noted(water(book), "your supply gives")
    assert bool(notes) is told
    if told:
        assert notes[0].startswith("Draws 14.2 gpm; your supply gives 10.0: run fewer heads")


def test_gallons_cost_what_the_owner_pays() -> None:
    priced = in_a_yard(yard(zone(precipitation_in_per_h=1.0)), water_price_per_kgal=4.0)
    setting, facts = on_day(priced)
    assert cost_of(setting, 2500) == pytest.approx(10.0)
    today = water_today(setting, facts)
    assert today.gallons is not None
    assert today.cost == pytest.approx(today.gallons * 0.004)
    july = month_water(setting, facts, 7)
    assert july.cost == pytest.approx((july.gallons or 0) * 0.004)
    assert cost_of(on_day(yard())[0], 2500) is None
    assert water_today(*on_day(yard())).cost is None


# --- a hose, salt, reclaimed water ----------------------------------------------------------


def test_a_hose_is_moved_by_hand() -> None:
    hose = zone(sprinklers="hose", hose_places=3, precipitation_in_per_h=1.0)
    (note,) = noted(water(yard(hose, climate=steady(0.2))), "Moved by hand")
    # 2 days × 0.176 in ÷ 0.79 of 1 in/h: 26.7 min, and three times as long in all.
    assert note == "Moved by hand: 3 places, 27 min each, 81 min in all, with no timer to end it."
    one = water(yard(replace(hose, hose_places=None), climate=steady(0.2)))
    assert noted(one, "On a hose: 27 min in one place")
    unknown = zone(sprinklers="hose", hose_places=3)
    assert not noted(water(yard(unknown, climate=steady(0.2))), "hand")


def test_salty_water_by_grass() -> None:
    """FAO Paper 29: 1.5 dS/m is a slight to moderate restriction; LR = 1.5 ÷ (5 × 3.9 − 1.5)."""
    fescue = yard(zone(species="tall fescue"), climate=steady(0.2))
    (note,) = noted(water(in_a_yard(fescue, water_ec_ds_per_m=1.5)), "dS/m")
    assert "slightly to moderately restricted" in note
    assert "tall fescue bears about 3.9" in note
    assert "about 8\u00a0% of the water must drain" in note
    (severe,) = noted(water(in_a_yard(fescue, water_ec_ds_per_m=12.0)), "dS/m")
    assert "severely restricted" in severe
    assert "use other water" in severe
    for fresh in (None, 0.6):
        assert not noted(water(in_a_yard(fescue, water_ec_ds_per_m=fresh)), "dS/m")


@pytest.mark.parametrize(
    ("source", "ec", "told", "test"),
    [
        ("reclaimed, purple pipe", None, True, True),
        ("Recycled", 1.1, True, False),
        ("city", None, False, False),
    ],
)
def test_reclaimed_water_is_a_caution(
    source: str, ec: float | None, told: bool, test: bool
) -> None:
    book = in_a_yard(yard(), water_source=source, water_ec_ds_per_m=ec)
    cautions = " ".join(make_plan(book, JUNE).cautions)
    assert ("label its outlets" in cautions) is told
    assert ("may be salty" in cautions) is test
    dry = in_a_yard(yard(zone(irrigated=False)), water_source=source)
    assert "label its outlets" not in " ".join(make_plan(dry, JUNE).cautions)


# --- a zone without sprinklers --------------------------------------------------------------


def rainless(days: int, eto: float) -> list[WeatherDay]:
    """Days up to mid-June without rain."""
    first = JUNE - timedelta(days=days - 1)
    return [
        weather_day(first + timedelta(days=each), reported_eto_in=eto, rain_in=0.0)
        for each in range(days)
    ]


def test_a_zone_that_is_never_watered_tells_how_dry_it_is() -> None:
    """1.02 in of loam water, 0.408 without stress; 0.1 in × 0.88 a day (FAO-56 chapter 8)."""
    plugs: dict[str, Any] = {
        "spots": [spot()],
        "cores": [core(date(2026, 4, 1), 0.0, root_depth_in=6.0)],
    }
    dry = zone(irrigated=False)
    two = water(yard(dry, climate=steady(0.1), weather=rainless(2, 0.1), **plugs))
    (note,) = noted(two, "used up")
    # 0.176 of 1.02 in are used; three more days of 0.088 pass 0.408.
    assert note.startswith("About 17\u00a0% of the water its roots hold is used up: it runs short")
    assert "from about 18 Jun 2026 unless it rains" in note
    many = water(yard(dry, climate=steady(0.1), weather=rainless(9, 0.1), **plugs))
    (short,) = noted(many, "used up")
    assert "the grass runs short and uses about" in short
    soaked = [*rainless(5, 0.1)[:-1], weather_day(JUNE, reported_eto_in=0.1, rain_in=3.0)]
    assert not noted(water(yard(dry, climate=steady(0.1), weather=soaked, **plugs)), "used up")
    assert not noted(water(yard(zone(), climate=steady(0.1))), "used up")


def test_water_that_brings_more_than_the_year_may_take_leaves_no_feeding_in_it() -> None:
    """By hand: 60 in at 10 mg/L are 3.12 lb per 1,000 sq ft, above the lean table's 2."""
    waterings = [watering(date(2026, 3, 1) + timedelta(days=n), depth_in=1.0) for n in range(60)]
    lean = yard(
        zone(budget_level="lean"), products=[product()], waterings=waterings, climate=steady(0.2)
    )
    reclaimed = in_a_yard(lean, water_n_mg_per_l=10.0)
    figures = make_plan(reclaimed, date(2026, 9, 20)).nitrogen[0]
    assert figures.applied_year == pytest.approx(60 * 0.05202, abs=0.001)
    assert figures.left_this_year == pytest.approx(2.0 - figures.applied_year)
    assert figures.left_this_month < 0
    assert figures.next_feeding is not None
    assert figures.next_feeding.date == date(2027, 5, 1)
    check = check_spread(reclaimed, "p1", {"z1": 1.0}, date(2026, 9, 20))
    assert not check.within
    assert any(rule.rule == "year budget" and rule.broken for rule in check.zones[0].binding)


def test_what_the_water_brings_leaves_one_application_its_whole_limit() -> None:
    """A watering on the day, or the day before, is no feeding: neither limit nor spacing."""
    on = date(2026, 9, 20)
    waterings = [watering(on, depth_in=2.0), watering(on - timedelta(days=1), depth_in=2.0)]
    slow = product(slow_n_pct=24.0)
    table = NBudget(id="b", name="Large", by_month=(4.0,) * 12, year_lb=12.0)
    own = rules(min_days=14)
    plain = yard(
        zone(budget="b"),
        products=[slow],
        waterings=waterings,
        n_budgets=[table],
        n_rules=own,
        climate=steady(0.2),
    )
    check = check_spread(in_a_yard(plain, water_n_mg_per_l=20.0), "p1", {"z1": 1.0}, on)
    assert check.within
    assert check.zones[0].max_lb == pytest.approx(1.0 / 0.24)


def test_a_southern_year_counts_the_water_from_july_to_june() -> None:
    days = (date(2026, 6, 30), date(2026, 7, 1), date(2027, 1, 5))
    south = yard(latitude_deg=-35.0, waterings=[watering(day, depth_in=1.0) for day in days])
    figures = make_plan(in_a_yard(south, water_n_mg_per_l=10.0), date(2027, 1, 10)).nitrogen[0]
    assert [month for month, lb in enumerate(figures.water_by_month, 1) if lb > 0] == [1, 7]
    assert figures.applied_year == pytest.approx(2 * 0.05202, abs=0.0001)
