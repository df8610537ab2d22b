"""The coming feedings: each allowed after those before it, in the pounds that are told."""

import itertools
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings

from lawnbook.agronomy.nitrogen import n_year
from lawnbook.plan.make import make_plan
from lawnbook.plan.nitrogen import nitrogen_on
from lawnbook.plan.season_model import PlannedSpread
from lawnbook.plan.spread import check_spread
from lawnbook.plan.spread_shopping import packages_of
from lawnbook.plan.spreading_plan import (
    a_year_on,
    bags_to_buy,
    spreading_ends,
    spreading_plan,
)
from lawnbook.plan.workings import most_told_lb
from lawnbook.yard.notebook import Notebook, as_of, put
from lawnbook.yard.notebook import apply as applied
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, Feeding, Product, Season
from tests.desk_sample import sample
from tests.plan_fixture import yard_of
from tests.plan_yards import TMEAN_F, climate, product, rules, yard, zone
from tests.test_plan_spread_property import DAYS, books, known_by

SPRING = date(2026, 3, 1)
SAMPLES = ("hollow_bank", "larkspur_corner", "saltbush_court")
SAMPLE_DAYS = (SPRING, date(2026, 6, 15), date(2026, 9, 20), date(2026, 11, 25))


def recorded(book: Notebook, spread: PlannedSpread) -> Notebook:
    """The notebook in which a planned spread has been done as told."""
    done = Feeding(
        id=f"{spread.zone_id} {spread.date}",
        date=spread.date,
        product=spread.product_id,
        pounds={spread.zone_id: spread.pounds},
        treated_area_sqft={spread.zone_id: spread.area_sqft},
    )
    return applied(book, put(book, "feedings", done))


def passes_all(book: Notebook, spreads: Sequence[PlannedSpread]) -> None:
    """Every spread passes, on its first day and its last, when those before it are recorded."""
    for each in spreads:
        pounds = {each.zone_id: each.pounds}
        for on in (each.date, each.latest or each.date):
            check = check_spread(book, each.product_id, pounds, on)
            assert check.within, (each.date, on, check.verdict)
        book = recorded(book, each)


@settings(deadline=None, max_examples=100)
@given(books(), DAYS)
def test_every_planned_spread_passes_when_those_before_it_are_recorded(
    book: Notebook, on: date
) -> None:
    book = known_by(book, on)
    spreads = spreading_plan(book, on)
    passes_all(book, spreads)
    ends = spreading_ends(book, on)
    assert all(on <= each.date <= ends for each in spreads)
    days = [each.date for each in spreads]
    least = 14 if book.n_rules.min_days is None else max(1, book.n_rules.min_days)
    assert all((b - a).days >= least for a, b in itertools.pairwise(days))


@settings(deadline=None, max_examples=60)
@given(books(), DAYS)
def test_each_is_the_next_feeding_of_the_plan_made_after_those_before_it(
    book: Notebook, on: date
) -> None:
    book, day = known_by(book, on), on
    for each in spreading_plan(book, on):
        upcoming = nitrogen_on(book, "z1", day).next_feeding
        assert upcoming is not None
        assert (upcoming.date, most_told_lb(upcoming.pounds)) == (each.date, each.pounds)
        book, day = recorded(book, each), each.date + timedelta(days=1)
    after = nitrogen_on(book, "z1", day).next_feeding if day <= spreading_ends(book, on) else None
    assert after is None or after.date > spreading_ends(book, on) or not most_told_lb(after.pounds)


@pytest.mark.parametrize("stem", SAMPLES)
@pytest.mark.parametrize("on", SAMPLE_DAYS)
def test_the_sample_yards_stay_within_every_budget(stem: str, on: date) -> None:
    book = as_of(sample(stem), on)
    spreads = spreading_plan(book, on)
    passes_all(book, spreads)
    for zone_now in make_plan(book, on).nitrogen:
        end = n_year(on, book.yard.latitude_deg or 0.0).end
        coming = [s.n_lb_per_1000 for s in spreads if s.zone_id == zone_now.zone_id]
        this_year = sum(
            s.n_lb_per_1000 for s in spreads if s.zone_id == zone_now.zone_id and s.date <= end
        )
        assert this_year <= max(0.0, zone_now.left_this_year) + 1e-9
        assert sum(coming) <= max(0.0, zone_now.left_this_year) + zone_now.budget_year + 1e-9


@pytest.mark.parametrize("stem", SAMPLES)
def test_the_first_of_each_zone_is_the_next_feeding_that_the_plan_tells(stem: str) -> None:
    book, on = sample(stem), date(2026, 6, 15)
    spreads = spreading_plan(book, on)
    first = {each.zone_id: each for each in reversed(spreads)}
    for each in make_plan(book, on).nitrogen:
        if each.next_feeding is not None and each.next_feeding.date <= spreading_ends(book, on):
            found = first[each.zone_id]
            assert found.date == each.next_feeding.date
            assert found.product == each.next_feeding.product
            assert found.pounds == most_told_lb(each.next_feeding.pounds) > 0


def test_a_cool_season_lawn_is_fed_in_may_september_october_and_early_november() -> None:
    # Virginia Department of Conservation and Recreation ("va-dcr-n"): May, September, October,
    # early November; the table's high year of 3.5 lb is not passed.
    book = yard(
        zone(budget_level="full"),
        products=[product(slow_n_pct=24.0)],
        climate=climate(tmean_f=(*TMEAN_F[:10], 48.0, 36.0)),
    )
    spreads = spreading_plan(book, SPRING)
    assert [(s.date.month, s.date.day) for s in spreads] == [(5, 1), (9, 1), (10, 1), (11, 1)]
    assert [s.latest for s in spreads] == [
        date(2026, 5, 31),
        date(2026, 9, 30),
        date(2026, 10, 31),
        date(2026, 11, 15),
    ]
    assert sum(s.n_lb_per_1000 for s in spreads) <= 3.5
    assert sum(s.n_lb_per_1000 for s in spreads) == pytest.approx(3.2, abs=0.1)
    # 0.9 lb N on 1,000 sq ft are 3.75 lb of 24 %, told as 3.7: never more than fits.
    assert spreads[1].pounds == 3.7


def test_quick_nitrogen_is_spread_in_two_passes_a_fortnight_apart() -> None:
    # Cornell University ("cornell-quick"): at most 0.5 lb of quick nitrogen at once.
    book = yard(zone(budget_level="full"), products=[product(slow_n_pct=0.0)])
    autumn = [s for s in spreading_plan(book, SPRING) if s.date.month == 9]
    assert [s.date for s in autumn] == [date(2026, 9, 1), date(2026, 9, 15)]
    assert all(s.n_lb_per_1000 <= 0.5 for s in autumn)


def test_a_blackout_ends_the_days_that_suit() -> None:
    book = yard(
        products=[product()], n_rules=rules(blackouts=(Season(start="09-10", end="09-25"),))
    )
    first = next(s for s in spreading_plan(book, date(2026, 8, 1)) if s.date.month == 9)
    assert (first.date, first.latest) == (date(2026, 9, 1), date(2026, 9, 9))


@pytest.mark.parametrize(
    ("latitude_deg", "on", "ends"),
    [
        (41.0, date(2026, 6, 15), date(2026, 12, 31)),
        (41.0, date(2026, 10, 31), date(2026, 12, 31)),
        (41.0, date(2026, 11, 1), date(2027, 10, 31)),
        (-33.0, date(2026, 3, 1), date(2026, 6, 30)),
        (-33.0, date(2026, 5, 2), date(2027, 5, 1)),
        (-33.0, date(2026, 7, 1), date(2027, 6, 30)),
    ],
)
def test_the_plan_ends_with_the_budget_year_or_a_year_on(
    latitude_deg: float, on: date, ends: date
) -> None:
    assert spreading_ends(yard(latitude_deg=latitude_deg), on) == ends


def test_a_year_on_from_a_leap_day() -> None:
    assert a_year_on(date(2028, 2, 29)) == date(2029, 2, 28)
    assert a_year_on(date(2027, 3, 1)) == date(2028, 2, 29)


def test_zones_with_one_product_on_one_day_stand_together() -> None:
    other = Product(id="p2", name="A slow one", n_pct=10.0, slow_n_pct=10.0)
    zones = [zone(id=f"z{n}", rank=n, name=name) for n, name in enumerate("ABCD", start=1)]
    fed = [
        Feeding(id=f"f{n}", date=date(2025, 9, 5), product=key, pounds={f"z{n}": 1.0})
        for n, key in enumerate(("p1", "p2", "p1", "p2"), start=1)
    ]
    book = yard(*zones, products=[product(), replace(other, rank=1)], feedings=fed)
    first = [s for s in spreading_plan(book, SPRING) if s.date == date(2026, 5, 1)]
    assert [(s.product, s.zone) for s in first] == [
        ("A slow one", "B"),
        ("A slow one", "D"),
        ("Half slow", "A"),
        ("Half slow", "C"),
    ]


def test_bags_and_cost_are_parts_and_what_is_bought_is_whole() -> None:
    book = yard(products=[product(slow_n_pct=24.0, bag_lb=5.0, price=20.0)])
    spreads = spreading_plan(book, SPRING)
    for each in spreads:
        assert each.bags == pytest.approx(each.pounds / 5.0)
        assert each.cost == pytest.approx(each.pounds / 5.0 * 20.0)
    needed = sum(s.pounds for s in spreads)
    bought = bags_to_buy(spreads, book)["p1"]
    assert 5.0 * (bought.count - 1) < needed <= 5.0 * bought.count
    assert bought.cost == 20.0 * bought.count
    assert bought.left_over == pytest.approx(5.0 * bought.count - needed)


def test_a_liquid_is_counted_in_jugs_and_an_unknown_bag_not_at_all() -> None:
    jug = product(form="liquid", jug_gal=2.5, density_lb_per_gal=10.0)
    assert packages_of(jug, 50.0) == pytest.approx(2.0)
    assert packages_of(product(), 50.0) is None
    spreads = spreading_plan(yard(products=[product(price=20.0)]), SPRING)
    assert {(s.bags, s.cost) for s in spreads} == {(None, None)}
    assert not bags_to_buy(spreads, yard(products=[product()]))


def test_a_bare_shelf_is_told_in_nitrogen() -> None:
    spreads = spreading_plan(yard(zone(budget_level="full")), SPRING)
    assert spreads
    for each in spreads:
        assert (each.product_id, each.product, each.bags) == ("", "", None)
        assert each.pounds == pytest.approx(each.n_lb_per_1000)


def test_the_strip_beside_water_is_left_out_of_area_and_pounds() -> None:
    pond = Feature(
        id="pond", kind="water", outline_ft=((50.0, 0.0), (60.0, 0.0), (60.0, 20.0), (50.0, 20.0))
    )
    near = yard(products=[product()], features=[pond], n_rules=rules(waterside_ft=10.0))
    far = yard(products=[product()])
    for beside, whole in zip(
        spreading_plan(near, SPRING), spreading_plan(far, SPRING), strict=True
    ):
        assert beside.area_sqft == pytest.approx(800.0)
        assert beside.pounds == pytest.approx(0.8 * whole.pounds, abs=0.1)
    passes_all(near, spreading_plan(near, SPRING))


def test_workings_give_the_pounds_the_bags_and_the_cost() -> None:
    book = yard(products=[product(bag_lb=40.0, price=31.0)])
    first = spreading_plan(book, SPRING)[0]
    assert [each.figure for each in first.workings] == ["next_feeding", "bags", "cost"]
    pounds, bags, cost = first.workings
    assert f"{first.pounds:.1f} lb of Half slow" in pounds.value
    top, bottom = (float(part) for part in bags.filled.split(" ÷ "))
    assert top / bottom == pytest.approx(first.bags)
    count, price = (float(part) for part in cost.filled.split(" × "))
    assert count * price == pytest.approx(first.cost, rel=1e-4)


def test_no_zone_none_without_area_and_a_day_beyond_any_notebook() -> None:
    assert spreading_plan(yard_of(0), SPRING) == ()
    empty = yard(zone(outline_ft=()), products=[product()])
    assert spreading_plan(empty, SPRING) == ()
    with pytest.raises(OwnerError):
        spreading_plan(yard(), date(1700, 1, 1))


def test_the_same_notebook_and_day_give_the_same_plan() -> None:
    book = yard_of(3)
    assert spreading_plan(book, SPRING) == spreading_plan(book, SPRING)
