"""The ledger of a zone: what each application brought, and edits that undo cleanly."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.agronomy.nitrogen import irrigation_n_lb_per_1000
from lawnbook.plan.feed_ledger import (
    ZoneFeed,
    carries_nitrogen,
    feeds_of,
    quick_share,
)
from lawnbook.plan.release import released_of
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook, apply, as_of, inverse, put
from lawnbook.yard.records import Feeding, Ingredient
from tests.plan_yards import feeding, product, rules, watering, yard, zone

ON = date(2026, 9, 20)
FED = date(2026, 9, 1)


def feed(book: Notebook, on: date = ON) -> ZoneFeed:
    """The nitrogen of a yard's first zone."""
    known = as_of(book, on)
    areas = {each.id: zone_area_sqft(each) for each in known.zones.values()}
    return feeds_of(known, areas, on)["z1"]


def well(book: Notebook, mg_per_l: float = 10.0) -> Notebook:
    """The notebook with nitrogen in its water."""
    return replace(book, yard=replace(book.yard, water_n_mg_per_l=mg_per_l))


def test_an_application_holds_phosphate_and_potash_as_labels_state_them() -> None:
    """2 lb of 24-6-12 on 1,000 sq ft."""
    shelf = [product(p2o5_pct=6.0, k2o_pct=12.0)]
    (only,) = feed(yard(products=shelf, feedings=[feeding(FED, 2.0)])).applications
    assert (only.n_lb, only.quick_lb) == pytest.approx((0.48, 0.24))
    assert (only.p2o5_lb, only.k2o_lb) == pytest.approx((0.12, 0.24))
    assert [part.feeding_id for part in only.parts] == [f"f{FED}"]


def test_phosphate_alone_is_in_the_ledger_and_no_feeding_of_nitrogen() -> None:
    shelf = [product(n_pct=0.0, slow_n_pct=0.0, p2o5_pct=46.0)]
    fed = feed(yard(products=shelf, feedings=[feeding(FED, 1.0)], n_rules=rules(min_days=30)))
    assert fed.p2o5_in_year(ON) == pytest.approx(0.46)
    assert fed.last_before(ON) is None
    assert fed.fed == ()
    assert fed.in_year(ON) == 0


def test_a_trace_of_nitrogen_counts_and_puts_no_feeding_off() -> None:
    shelf = [product(n_pct=0.005, slow_n_pct=0.0)]
    fed = feed(yard(products=shelf, feedings=[feeding(FED, 100.0)]))
    assert fed.in_year(ON) == pytest.approx(0.005)
    assert fed.last_before(ON) is None


def test_a_mix_counts_with_what_its_recipe_holds_zero_included() -> None:
    """By hand: 1 lb of 46-0-0 in 100 lb of mix is 0.46 % nitrogen, all quick."""
    parts = (
        Ingredient(name="urea", pounds=1.0, n_pct=46.0),
        Ingredient(name="molasses", pounds=4.0, k2o_pct=5.0),
        Ingredient(name="tank water", pounds=95.0),
    )
    mix = product(n_pct=20.0, slow_n_pct=20.0, ingredients=parts)
    assert quick_share(mix) == pytest.approx(1.0)
    (only,) = feed(yard(products=[mix], feedings=[feeding(FED, 100.0)])).applications
    assert only.n_lb == pytest.approx(0.46)
    assert only.k2o_lb == pytest.approx(0.2)
    tea = replace(mix, ingredients=(Ingredient(name="compost tea", pounds=8.0),))
    assert not carries_nitrogen(tea)
    assert feed(yard(products=[tea], feedings=[feeding(FED, 100.0)])).applications == ()


def test_water_counts_in_month_year_and_thirty_days_and_in_no_limit_of_an_application() -> None:
    """10 mg/L in one inch: 0.052 lb per 1,000 sq ft."""
    waterings = [watering(date(2026, 9, day), depth_in=1.0) for day in (2, 12, 20)]
    fed = feed(well(yard(products=[product()], feedings=[feeding(FED, 1.0)], waterings=waterings)))
    three = 3 * 10 * irrigation_n_lb_per_1000(1.0, 1.0)
    assert fed.in_month(ON) == pytest.approx(0.24 + three)
    assert fed.in_year(ON) == pytest.approx(0.24 + three)
    assert fed.rolling(ON) == pytest.approx(0.24 + three)
    assert fed.water_by_month(ON)[8] == pytest.approx(three)
    assert fed.by_month(ON, quick=True)[8] == pytest.approx(0.12 + three)
    assert fed.left_this_year(ON) == pytest.approx(2.75 - 0.24 - three)
    assert fed.on_day(ON).n_lb == 0
    assert fed.last_before(ON) == FED


def test_water_feeds_neither_of_two_months_that_share_a_feeding() -> None:
    """Virginia DCR, warm season: July or August; a watering in July is no feeding."""
    warm = zone(grass="warm", budget_level="full")
    book = well(yard(warm, waterings=[watering(date(2026, 7, 5), depth_in=1.0)]))
    august = feed(book, date(2026, 8, 10))
    assert august.other_month_fed(date(2026, 8, 10)) is None
    assert august.month_lb(date(2026, 8, 10)) == pytest.approx(1.0)


def sums(book: Notebook) -> list[float]:
    """What must not change where a feeding is only written down otherwise."""
    fed = feed(book)
    released = released_of(as_of(book, ON), fed, ON)
    year = (fed.in_year(ON), fed.p2o5_in_year(ON), fed.k2o_in_year(ON), released.to_come_lb)
    return [*year, *fed.by_month(ON), *fed.by_month(ON, quick=True), *released.by_month]


@settings(deadline=None, max_examples=60)
@given(
    days=st.lists(st.integers(0, 400), min_size=1, max_size=6, unique=True),
    pounds=st.lists(st.floats(0.01, 500), min_size=6, max_size=6),
    share=st.floats(0.01, 0.99),
    n_pct=st.floats(0, 46),
    slow=st.floats(0, 1),
)
def test_splitting_a_feeding_changes_no_sum_and_taking_it_out_leaves_no_trace(
    days: list[int], pounds: list[float], share: float, n_pct: float, slow: float
) -> None:
    shelf = [product(n_pct=n_pct, slow_n_pct=slow * n_pct, p2o5_pct=5.0, k2o_pct=9.0)]
    fed = [feeding(ON - timedelta(days=back), lb) for back, lb in zip(days, pounds, strict=False)]
    book = yard(products=shelf, feedings=fed)
    first: Feeding = fed[0]
    whole = first.pounds["z1"]
    one = replace(first, pounds={"z1": whole * share})
    other = replace(first, id="other", pounds={"z1": whole * (1 - share)})
    split = put(book, "feedings", one, other)
    assert sums(apply(book, split)) == pytest.approx(sums(book), rel=1e-9, abs=1e-9)
    taken_out = apply(book, {("feedings", first.id): (first, None)})
    never = yard(products=shelf, feedings=fed[1:])
    assert sums(taken_out) == sums(never)
    again = apply(taken_out, inverse({("feedings", first.id): (first, None)}))
    assert sums(again) == pytest.approx(sums(book), rel=1e-12, abs=1e-12)


@settings(deadline=None, max_examples=30)
@given(st.floats(10, 5000), st.floats(1, 100))
def test_the_area_treated_stays_as_it_was_frozen(area: float, side: float) -> None:
    square = ((0.0, 0.0), (side, 0.0), (side, side), (0.0, side))
    frozen = [feeding(FED, 2.0, treated_area_sqft={"z1": area})]
    (only,) = feed(
        yard(zone(outline_ft=square), products=[product()], feedings=frozen)
    ).applications
    assert only.n_lb == pytest.approx(0.48 * 1000 / area)
    assert only.parts[0].area_sqft == area


def test_several_zones_are_fed_in_one_go() -> None:
    two = zone(id="z2", name="Back", rank=1)
    go = replace(feeding(FED, 2.0), pounds={"z1": 2.0, "z2": 1.0})
    known = yard(zone(), two, products=[product()], feedings=[go])
    feeds = feeds_of(known, {"z1": 1000.0, "z2": 1000.0}, ON)
    assert feeds["z1"].in_year(ON) == pytest.approx(0.48)
    assert feeds["z2"].in_year(ON) == pytest.approx(0.24)


def test_what_counts_from_a_day_on_is_all_that_a_later_day_asks() -> None:
    """Of feedings of many years a day to come asks for its budget years', and the last before."""
    days = [date(year, month, 5) for year in range(2019, 2027) for month in (4, 6, 9)]
    book = yard(zone(), products=[product()], feedings=[feeding(each, 1.0) for each in days])
    on = date(2027, 1, 10)
    feed = feeds_of(book, {"z1": 1000.0}, on)["z1"]
    short = feed.lately(on)
    assert len(short.applications) == 2
    for ahead in (on, date(2027, 3, 1), date(2028, 5, 5)):
        assert short.in_month(ahead) == feed.in_month(ahead)
        assert short.in_year(ahead) == feed.in_year(ahead)
        assert short.last_before(ahead) == feed.last_before(ahead) == days[-1]
        assert short.by_month(ahead) == feed.by_month(ahead)
        assert short.on_day(ahead) == feed.on_day(ahead)
    assert len(feed.lately(date(2026, 7, 1)).applications) == 5
