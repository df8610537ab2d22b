"""The year in review against sums by hand: spans, water, nitrogen, cost, work, and what is said.

Gallons are inches × square feet × 0.6234 (144 ÷ 231 gallons in a square foot an inch deep).
"""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.plan.make import make_plan
from lawnbook.plan.year_review import year_review
from lawnbook.plan.year_review_model import YearReview
from lawnbook.plan.year_review_span import review_years, spans_of
from lawnbook.plan.year_water import zone_year
from lawnbook.plan.zone_facts import facts_of, setting_of
from lawnbook.yard.notebook import Notebook, as_of, put
from lawnbook.yard.notebook import apply as applied
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Care, Feeding, Habit, Record, Watering
from tests import plan_yards as yards
from tests.desk_sample import sample

GAL_PER_SQFT_IN = 144 / 231
JULY = date(2026, 7, 15)
SAMPLES = ("hollow_bank", "larkspur_corner", "saltbush_court")
SECOND = yards.zone(
    id="z2", name="Back", outline_ft=((60.0, 0.0), (85.0, 0.0), (85.0, 20.0), (60, 20))
)
"""500 sq ft, without a rate."""


def watered(on: date, **values: Any) -> Watering:
    """A watering of the first zone."""
    return yards.watering(on, **values)


def book(*rows: Record, price: float | None = None, **tables: Any) -> Notebook:
    """Two zones, the first with a typed rate of 1.5 in/h; the rows are waterings."""
    first = yards.zone(precipitation_in_per_h=1.5)
    made = yards.yard(first, SECOND, waterings=rows, **tables)
    return replace(made, yard=replace(made.yard, water_price_per_kgal=price))


WATERINGS = (
    watered(date(2025, 6, 1), depth_in=0.3),
    watered(date(2025, 8, 1), depth_in=1.0),
    watered(date(2026, 6, 1), minutes=20.0),
    watered(date(2026, 7, 1), depth_in=0.4),
    watered(date(2026, 7, 20), depth_in=9.0),
)


def told(review: YearReview) -> str:
    """All sentences on what changed."""
    return " ".join(each.text for each in review.changed)


def test_half_a_year_stands_beside_the_same_half() -> None:
    """20 min at 1.5 in/h are 0.5 in; 0.9 in on 1,000 sq ft are 561 gal; August is not compared."""
    review = year_review(book(*WATERINGS), 2026, JULY)
    assert review.compared.startswith("1 Jan to 15 Jul 2026, beside the same days of 2025.")
    now, before = review.water.now, review.water.before
    assert (now.waterings, before.waterings) == (2, 1)
    assert review.water.zones[0].now.depth_in == pytest.approx(0.9)
    assert now.gallons == pytest.approx(900 * GAL_PER_SQFT_IN) == pytest.approx(561.0, abs=0.1)
    assert before.gallons == pytest.approx(300 * GAL_PER_SQFT_IN)
    assert now.gallons_by_month[5] == pytest.approx(500 * GAL_PER_SQFT_IN)
    assert now.depth_in == pytest.approx(0.6), "over both zones, 1,500 sq ft"
    assert "561 gal put down, 0.6 in over the lawn. That is 374 gal (200\u00a0%) more" in told(
        review
    )


def test_a_whole_year_stands_beside_a_whole_one() -> None:
    review = year_review(book(*WATERINGS), 2025, JULY)
    assert review.span.whole
    assert review.water.now.gallons == pytest.approx(1300 * GAL_PER_SQFT_IN)
    assert "The whole of 2025 beside the whole of 2024." in review.compared
    assert "Nothing was recorded in 2024." in review.compared
    assert not review.has_before
    assert "The notebook begins on 1 Jun 2025" in review.compared


@pytest.mark.parametrize(
    ("latitude", "year", "on", "days", "before"),
    [
        (41.0, 2026, "2026-07-15", ("2026-01-01", "2026-07-15"), ("2025-01-01", "2025-07-15")),
        (41.0, 2028, "2028-02-29", ("2028-01-01", "2028-02-29"), ("2027-01-01", "2027-02-28")),
        (41.0, 2028, "2029-03-01", ("2028-01-01", "2028-12-31"), ("2027-01-01", "2027-12-31")),
        (41.0, 2025, "2025-12-31", ("2025-01-01", "2025-12-31"), ("2024-01-01", "2024-12-31")),
        (-32.0, 2026, "2026-11-15", ("2026-07-01", "2026-11-15"), ("2025-07-01", "2025-11-15")),
        (-32.0, 2025, "2026-05-01", ("2025-07-01", "2026-05-01"), ("2024-07-01", "2025-05-01")),
        (-32.0, 2024, "2026-05-01", ("2024-07-01", "2025-06-30"), ("2023-07-01", "2024-06-30")),
    ],
)
def test_the_days_looked_at(
    latitude: float, year: int, on: str, days: tuple[str, str], before: tuple[str, str]
) -> None:
    """North by the calendar, south from July; a part of a year beside the same part."""
    made = spans_of(yards.yard(latitude_deg=latitude), year, date.fromisoformat(on))
    found = [(each.starts.isoformat(), each.until.isoformat()) for each in made]
    assert found == [days, before]
    assert made[0].whole == made[1].whole
    assert made[0].order[0] == (7 if latitude < 0 else 1)
    assert sorted(made[0].order) == list(range(1, 13))


@pytest.mark.parametrize("year", [2027, 1, -4])
def test_a_year_that_has_not_begun_is_refused_with_those_there_are(year: int) -> None:
    with pytest.raises(OwnerError, match=r"choose one from \d+ to 2026"):
        year_review(book(), year, JULY)


def test_the_years_to_choose_from_begin_with_the_first_record() -> None:
    assert review_years(book(*WATERINGS), JULY) == (2025, 2026)
    assert review_years(book(), JULY) == (2026,)
    south = yards.yard(latitude_deg=-32.0, waterings=WATERINGS)
    assert review_years(south, JULY) == (2024, 2025, 2026)


def test_minutes_without_a_rate_are_counted_said_and_compared_with_nothing() -> None:
    blind = replace(watered(date(2026, 5, 1), minutes=30.0), id="blind", zone="z2")
    review = year_review(book(*WATERINGS, blind), 2026, JULY)
    assert review.water.now.untold == 1
    assert review.water.now.gallons == pytest.approx(900 * GAL_PER_SQFT_IN)
    said = told(review)
    assert "without 1 watering that cannot be told in gallons" in said
    assert "2025 cannot be compared" in said
    assert "more than" not in said.split("The weather")[0]


def test_nothing_dated_later_is_known() -> None:
    """The watering of 20 July is in no figure of 15 July."""
    early = year_review(book(*WATERINGS[:4]), 2026, JULY)
    assert year_review(book(*WATERINGS), 2026, JULY) == early


def test_nitrogen_by_hand() -> None:
    """5 lb of 24 % N, half of it slow, on 1,000 sq ft are 1.2 lb, 0.6 of them quick."""
    fed = (yards.feeding(date(2026, 5, 2), 5.0), yards.feeding(date(2025, 5, 2), 2.5))
    late = yards.feeding(date(2025, 9, 2), 50.0)
    review = year_review(book(products=(yards.product(),), feedings=(*fed, late)), 2026, JULY)
    zone = review.nitrogen.zones[0]
    assert (zone.now.applied_lb, zone.now.quick_lb) == pytest.approx((1.2, 0.6))
    assert zone.now.quick_share == pytest.approx(0.5)
    assert zone.now.by_month[4] == pytest.approx(1.2)
    assert zone.before.applied_lb == pytest.approx(0.6), "September comes after the same day"
    assert review.nitrogen.now.applied_lb == pytest.approx(1.2 * 1000 / 1500)
    assert "0.80 lb per 1,000 sq ft as the mean of the lawn" in told(review)


def test_over_the_budget_is_said_by_zone() -> None:
    fed = yards.feeding(date(2026, 5, 2), 25.0)
    review = year_review(book(products=(yards.product(),), feedings=(fed,)), 2026, JULY)
    over = 6.0 - review.nitrogen.zones[0].now.budget_lb
    assert f"Over the year's budget, lb per 1,000 sq ft: Front by {over:.2f}." in told(review)


def test_costs_by_hand_and_what_has_none_is_named() -> None:
    """561 gal at 3 a thousand are 1.68; 5 lb of a 50-lb bag at 40 are 4; coring cost 45."""
    bagged = yards.product(bag_lb=50.0, price=40.0)
    care = (
        Care(id="k1", date=date(2026, 4, 1), kind="Aeration", cost=45.0),
        Care(id="k2", date=date(2026, 5, 1), kind="topdressing"),
        Care(id="k3", date=date(2026, 7, 16), kind="Aeration", cost=99.0),
    )
    made = book(
        *WATERINGS,
        price=3.0,
        products=(bagged,),
        feedings=(yards.feeding(date(2026, 5, 2), 5.0),),
        care=care,
    )
    cost = year_review(made, 2026, JULY).cost
    amounts = {each.name: each.amount for each in cost.items}
    water = 0.9 * GAL_PER_SQFT_IN * 3.0
    assert amounts["Water"] == pytest.approx(water)
    assert (amounts["Half slow"], amounts["Aeration"]) == pytest.approx((4.0, 45.0))
    assert amounts["Topdressing"] is None
    assert cost.total == pytest.approx(49.0 + water)
    assert cost.unpriced == ("Topdressing: no cost is entered",)
    assert cost.total_before == pytest.approx(0.3 * GAL_PER_SQFT_IN * 3.0)


def test_what_has_no_price_is_none_and_never_nought() -> None:
    made = book(
        *WATERINGS,
        products=(yards.product(),),
        feedings=(yards.feeding(date(2026, 5, 2), 5.0),),
    )
    cost = year_review(made, 2026, JULY).cost
    assert (cost.total, cost.total_before) == (None, None)
    assert [each.amount for each in cost.items] == [None, None]
    assert "Water: no price of water is entered" in cost.unpriced
    assert "Half slow: no price is entered" in cost.unpriced


def test_a_liquid_costs_by_the_jug() -> None:
    """20 lb at 10 lb a gallon are 2 gal, a jug of 2.5 gal costs 30: 24."""
    liquid = yards.product(form="liquid", density_lb_per_gal=10.0, jug_gal=2.5, price=30.0)
    made = book(products=(liquid,), feedings=(yards.feeding(date(2026, 5, 2), 20.0),))
    assert year_review(made, 2026, JULY).cost.total == pytest.approx(24.0)


def test_work_is_counted_by_days_and_kind() -> None:
    care = [
        Care(id=f"m{n}", date=date(2026, 5, 1) + timedelta(days=n), kind=kind)
        for n, kind in enumerate(("mowing", "Mowed", " mown ", "aeration"))
    ]
    same_day = replace(WATERINGS[2], id="again", zone="z2", minutes=None, depth_in=0.1)
    work = {w.what: w for w in year_review(book(*WATERINGS, same_day, care=care), 2026, JULY).work}
    assert (work["Mowing"].count, work["Aeration"].count) == (3, 1)
    assert work["Watering days"].dates == (date(2026, 6, 1), date(2026, 7, 1))
    assert work["Watering days"].count_before == 1


def test_thatch_is_compared_with_the_last_plug_before_the_year() -> None:
    """The plug of September 2025 stands for the start; a verdict needs more than these plugs."""
    plugs = [
        yards.core(date(2025, 5, 1), 0.9, 0.92, 0.88),
        yards.core(date(2025, 9, 1), 0.8, 0.82, 0.78),
        yards.core(date(2026, 5, 1), 0.5, 0.52, 0.48),
        yards.core(date(2026, 9, 1), 0.1),
    ]
    review = year_review(book(spots=(yards.spot(),), cores=plugs), 2026, JULY)
    spot = review.spots[0]
    assert spot.pair is not None
    assert spot.before is None, "the second plug of 2025 comes after the same day"
    assert (spot.pair.then.date, spot.pair.now.date) == (date(2025, 9, 1), date(2026, 5, 1))
    assert spot.pair.thatch_change_in == pytest.approx(-0.3)
    assert spot.verdict.startswith("Cannot say yet")
    assert spot.shows
    assert "Thatch at gate: 0.30 in less" in told(review)


@pytest.mark.parametrize(
    ("plugs", "words"),
    [
        ((), "No plug with thatch read yet."),
        ((date(2024, 5, 1),), "No plug with thatch read since 1 May 2024."),
        ((date(2026, 5, 1),), "One plug with thatch read (1 May 2026): nothing to compare it"),
    ],
)
def test_a_spot_without_two_days_says_why(plugs: tuple[date, ...], words: str) -> None:
    cores = [yards.core(each, 0.6) for each in plugs]
    review = year_review(book(spots=(yards.spot(),), cores=cores), 2026, JULY)
    assert review.spots[0].pair is None
    assert review.spots[0].words.startswith(words)


@pytest.mark.parametrize("stem", SAMPLES)
@pytest.mark.parametrize("year", [2024, 2025, 2026])
def test_every_sentence_of_a_sample_leads_to_its_figures(stem: str, year: int) -> None:
    review = year_review(sample(stem), year, date(2026, 11, 15))
    figures = [each.figure for each in review.workings]
    assert len(figures) == len(set(figures))
    assert {f for each in review.changed for f in each.figures} <= set(figures)
    assert sum(bool(each.figures) for each in review.changed) >= 4
    zones, now = review.water.zones, review.water.now
    assert sum(each.now.gallons for each in zones) == pytest.approx(now.gallons)
    assert sum(now.gallons_by_month) == pytest.approx(now.gallons)


@pytest.mark.parametrize("stem", SAMPLES)
def test_the_plans_year_is_that_of_the_plan_of_its_last_day(stem: str) -> None:
    """Of a whole calendar year the plan of 31 December reckons the very same days."""
    ends = date(2025, 12, 31)
    plan = make_plan(sample(stem), ends)
    setting = setting_of(as_of(sample(stem), ends), ends)
    for number, zone in enumerate(setting.notebook.zones.values(), start=1):
        facts = facts_of(setting, zone, number)
        spanned = zone_year(setting, facts, (date(2025, 1, 1), ends))
        assert spanned == plan.zones[number - 1].water_year


def test_too_little_weather_gives_no_plan_to_compare_with() -> None:
    habit = Habit(minutes=10.0, days_per_week=7.0)
    first = yards.zone(precipitation_in_per_h=1.5, habit=habit)
    review = year_review(yards.yard(first, waterings=WATERINGS), 2026, JULY)
    assert (review.water.plan, review.water.habit) == (None, None)
    assert review.water.left_out == ("Front: too little weather on record",)
    assert review.water.weather.etc_in is None


DAYS = st.dates(date(2024, 1, 1), date(2026, 12, 31))
ZONES = st.sampled_from(("z1", "z2"))


@st.composite
def logs(draw: st.DrawFn) -> tuple[list[Watering], list[Feeding]]:
    """Waterings and feedings of two zones on any days."""
    amounts = st.floats(0.01, 3.0)
    waterings = [
        Watering(id=f"w{n}", date=on, zone=zone, depth_in=amount)
        for n, (on, zone, amount) in enumerate(draw(st.lists(st.tuples(DAYS, ZONES, amounts))))
    ]
    feedings = [
        Feeding(id=f"f{n}", date=on, product="p1", pounds={zone: amount})
        for n, (on, zone, amount) in enumerate(draw(st.lists(st.tuples(DAYS, ZONES, amounts))))
    ]
    return waterings, feedings


@settings(max_examples=40)
@given(logs(), DAYS, st.sampled_from((41.0, -32.0)))
def test_sums_agree_and_a_record_more_never_lowers_one(
    made: tuple[list[Watering], list[Feeding]], on: date, latitude: float
) -> None:
    """Zones add up to the lawn, months to the year; a watering or feeding more adds or does not."""
    waterings, feedings = made
    shelf = (yards.product(bag_lb=50.0, price=40.0),)
    notebook = book(*waterings, price=3.0, products=shelf, feedings=feedings)
    notebook = replace(notebook, yard=replace(notebook.yard, latitude_deg=latitude))
    year = review_years(notebook, on)[-1]
    review = year_review(notebook, year, on)
    _sums_agree(review)
    more = applied(notebook, put(notebook, "waterings", watered(on, depth_in=0.5)))
    more = applied(more, put(more, "feedings", yards.feeding(on, 1.0)))
    later = year_review(more, year, on)
    assert later.water.now.gallons > review.water.now.gallons
    assert later.nitrogen.now.applied_lb > review.nitrogen.now.applied_lb
    assert (later.cost.total or 0.0) > (review.cost.total or 0.0)
    assert later.water.before == review.water.before
    for one, other in zip(review.work, review.work[1:], strict=False):
        assert one.what != other.what


def _sums_agree(review: YearReview) -> None:
    for water in (review.water.now, review.water.before):
        assert sum(water.gallons_by_month) == pytest.approx(water.gallons)
    zones = review.water.zones
    assert sum(zone.now.gallons for zone in zones) == pytest.approx(review.water.now.gallons)
    assert sum(zone.before.gallons for zone in zones) == pytest.approx(review.water.before.gallons)
    fed = review.nitrogen
    area = sum(zone.area_sqft for zone in fed.zones)
    whole = sum(zone.now.applied_lb * zone.area_sqft for zone in fed.zones)
    assert whole / area == pytest.approx(fed.now.applied_lb)
    for each in (fed.now, *(zone.now for zone in fed.zones)):
        assert sum(each.by_month) == pytest.approx(each.applied_lb)
        assert each.quick_lb <= each.applied_lb + 1e-9
    costs = [item.amount for item in review.cost.items if item.amount is not None]
    assert (review.cost.total or 0.0) == pytest.approx(sum(costs))
