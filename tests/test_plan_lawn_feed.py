"""The whole lawn's nitrogen: means by area, and pounds that add up."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lawnbook.plan.lawn_feed import lawn_nitrogen, lawn_workings
from lawnbook.plan.make import make_plan
from lawnbook.yard.notebook import Notebook
from tests.plan_yards import feeding, product, watering, yard, zone
from tests.strategies import notebooks
from tests.test_plan_workings import assert_comes_out

ON = date(2026, 9, 20)


def test_figures_are_means_by_area_and_pounds_are_sums() -> None:
    """By hand: 0.48 on 1,000 sq ft and nothing on 3,000 are 0.12 on the whole, 0.48 lb."""
    large = ((0.0, 0.0), (100.0, 0.0), (100.0, 30.0), (0.0, 30.0))
    back = zone(id="z2", name="Back", rank=1, outline_ft=large, annual_n_lb_per_1000=1.0)
    fed = [feeding(date(2026, 9, 1), 2.0)]
    lawn = make_plan(yard(zone(), back, products=[product()], feedings=fed), ON).lawn_nitrogen
    assert lawn is not None
    assert (lawn.zone, lawn.area_sqft, lawn.year_label) == ("Whole lawn", 4000.0, "2026")
    assert lawn.applied_year == pytest.approx(0.12)
    assert lawn.applied_by_month[8] == pytest.approx(0.12)
    assert lawn.quick_by_month[8] == pytest.approx(0.06)
    assert lawn.applied_lb == pytest.approx(0.48)
    assert lawn.budget_year == pytest.approx((2.75 + 3 * 1.0) / 4)
    assert lawn.budget_lb == pytest.approx(2.75 + 3.0)
    assert lawn.left_this_year == pytest.approx(lawn.budget_year - 0.12)


def test_the_lawns_figures_have_their_workings() -> None:
    back = zone(id="z2", name="Back", rank=1, annual_n_lb_per_1000=1.0)
    fed = [feeding(date(2026, 9, 1), 2.0)]
    lawn = make_plan(yard(zone(), back, products=[product()], feedings=fed), ON).lawn_nitrogen
    assert lawn is not None
    by_figure = {working.figure: working for working in lawn_workings(lawn)}
    assert by_figure["applied_year"].value == "0.24 lb per 1,000 sq ft"
    assert by_figure["applied_year"].filled == "0.48 × 1,000 ÷ 2,000"
    for working in by_figure.values():
        assert_comes_out(working)


def test_water_is_the_mean_too() -> None:
    back = zone(id="z2", name="Back", rank=1)
    book = yard(zone(), back, waterings=[watering(date(2026, 9, 1), depth_in=1.0)])
    well = replace(book, yard=replace(book.yard, water_n_mg_per_l=10.0))
    lawn = make_plan(well, ON).lawn_nitrogen
    assert lawn is not None
    assert lawn.water_by_month[8] == pytest.approx(0.026, abs=0.0001)


def test_a_yard_without_an_area_has_no_lawn() -> None:
    assert lawn_nitrogen(()) is None
    flat = zone(outline_ft=((0.0, 0.0), (10.0, 0.0), (20.0, 0.0)))
    assert make_plan(yard(flat), ON).lawn_nitrogen is None


@settings(deadline=None, max_examples=40, suppress_health_check=list(HealthCheck))
@given(notebooks(), st.dates(date(1995, 1, 1), date(2028, 1, 1)))
def test_the_lawns_pounds_are_the_zones(book: Notebook, on: date) -> None:
    plan = make_plan(book, on)
    lawn = plan.lawn_nitrogen
    if lawn is None:
        return
    zones = plan.nitrogen
    applied = sum(each.applied_year * each.area_sqft / 1000 for each in zones)
    assert lawn.applied_lb == pytest.approx(applied)
    assert sum(lawn.applied_by_month) == pytest.approx(lawn.applied_year)
    assert lawn.area_sqft == pytest.approx(plan.area_sqft)
