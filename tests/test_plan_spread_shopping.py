"""What to buy for a spread: whole packages that are enough and not one too many."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.feed_model import Shopping
from lawnbook.plan.spread_shopping import shopping_of
from lawnbook.yard.records import Product
from tests.plan_yards import product


def bought(item: Product, pounds: float) -> Shopping:
    """What is bought of a product whose package is known."""
    shopping = shopping_of(item, pounds)
    assert shopping is not None
    return shopping


def test_a_lawn_of_12000_sq_ft_takes_two_bags() -> None:
    """A county extension's example: 60 lb of 20 % N bring 1 lb per 1,000 sq ft to 12,000 sq ft."""
    shopping = bought(product(n_pct=20.0, bag_lb=50.0, price=31.5), 60.0)
    assert (shopping.count, shopping.package, shopping.unit) == (2, "bag", "lb")
    assert (shopping.needed, shopping.left_over, shopping.cost) == (60.0, 40.0, 63.0)
    assert shopping.words == (
        "To buy, if you have none: 2 bags of 50 lb for 63.00, of which 40.0 lb is left over."
    )


def test_a_jug_is_reckoned_by_the_weight_of_a_gallon() -> None:
    shopping = bought(product(form="liquid", density_lb_per_gal=10.0, jug_gal=2.5), 30.0)
    assert (shopping.count, shopping.package, shopping.unit) == (2, "jug", "gal")
    assert shopping.needed == pytest.approx(3.0)
    assert shopping.left_over == pytest.approx(2.0)
    assert shopping.cost is None
    assert "2 jugs of 2.5 gal, of which 2.00 gal" in shopping.words


def test_what_just_fits_takes_no_further_bag() -> None:
    shopping = bought(product(bag_lb=0.1), 0.3)
    assert shopping.count == 3
    assert shopping.left_over == pytest.approx(0.0)
    assert "of which nothing is left over" in shopping.words


@pytest.mark.parametrize(
    ("item", "pounds"),
    [
        (product(), 10.0),
        (product(form="liquid", jug_gal=2.5), 10.0),
        (product(form="granular", jug_gal=2.5, density_lb_per_gal=10.0), 10.0),
        (product(bag_lb=50.0), 0.0),
    ],
    ids=["no package", "no density", "no bag", "nothing needed"],
)
def test_nothing_is_told_where_no_package_is_known(item: Product, pounds: float) -> None:
    assert shopping_of(item, pounds) is None


def test_a_liquid_sold_by_weight_is_bought_by_weight() -> None:
    assert bought(product(form="liquid", jug_gal=2.5, bag_lb=20.0), 30.0).package == "bag"


@given(st.floats(0.1, 2500), st.floats(0.01, 20000), st.floats(1, 30), st.booleans())
def test_packages_hold_what_is_needed_and_less_than_one_is_left(
    size: float, pounds: float, density: float, liquid: bool
) -> None:
    item = (
        product(form="liquid", jug_gal=size, density_lb_per_gal=density)
        if liquid
        else product(bag_lb=size)
    )
    shopping = bought(item, pounds)
    needed = pounds / density if liquid else pounds
    assert shopping.needed == pytest.approx(needed)
    assert shopping.count * size - shopping.needed == pytest.approx(
        shopping.left_over, abs=1e-6 * max(size, needed)
    )
    assert 0 <= shopping.left_over < size
