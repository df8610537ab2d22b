"""What the sheet says of feeding besides its months: the budget's spread, and what a mix holds."""

from dataclasses import replace

from lawnbook.plan.make import make_plan
from lawnbook.sheet.sections import feed
from lawnbook.yard.records import Ingredient
from tests.plan_fixture import ON, yard_of

BOOK = yard_of(4)
PLAN = make_plan(BOOK, ON)


def test_a_budget_spread_by_growth_is_named_where_there_is_room() -> None:
    """The row keeps the table's name, the line under it the spread, and the bag goes first."""
    zones = [*PLAN.nitrogen]
    zones[1] = replace(zones[1], budget_name="cool season, lean, by growth potential")
    grown = replace(PLAN, nitrogen=tuple(zones))
    assert feed.spread_told(PLAN) == ""
    assert feed.spread_told(grown) == "Months by growth potential, zone 2."
    assert feed.feed_row(zones[1], ON, tall=True)[0].detail == "cool season, lean"
    bag = feed.bags(PLAN, BOOK)
    both = f"Months by growth potential, zone 2. {bag}"
    assert feed.foot_notes(grown, BOOK, lambda told: True) == both
    assert feed.foot_notes(grown, BOOK, lambda told: len(told) <= len(bag)) == bag
    every = tuple(replace(each, budget_name=zones[1].budget_name) for each in zones)
    assert feed.spread_told(replace(PLAN, nitrogen=every)) == "Months by growth potential."


def test_a_mix_is_named_with_what_its_recipe_holds() -> None:
    """By hand: 3 lb of 20 % in 12 lb are 5 %."""
    parts = (
        Ingredient(name="urea", pounds=3.0, n_pct=20.0, slow_n_pct=10.0),
        Ingredient(name="molasses", pounds=9.0),
    )
    mix = replace(BOOK.products["bag"], ingredients=parts)
    book = replace(BOOK, products={"bag": mix})
    told = feed.bags(make_plan(book, ON), book)
    assert "5-0-0" in told
    assert "50\u00a0% of its nitrogen slow" in told
