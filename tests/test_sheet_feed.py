"""The sheet's spreading plan, its months of nitrogen, and the bags that both are of."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from lawnbook.plan.make import make_plan
from lawnbook.plan.model import ZoneNitrogen
from lawnbook.plan.season_model import PlannedSpread
from lawnbook.plan.spread_shopping import packages_of
from lawnbook.plan.spreading_plan import spreading_plan
from lawnbook.plan.workings import told_most
from lawnbook.sheet.layout import RowPlan
from lawnbook.sheet.sections import feed, feed_months
from lawnbook.sheet.table import Row
from lawnbook.yard.records import Ingredient
from tests.plan_fixture import ON, yard_of

BOOK = yard_of(4)
PLAN = make_plan(BOOK, ON)
COMING = feed.spreads_of(spreading_plan(BOOK, ON))
ZONE = PLAN.nitrogen[0]


def spread(on: date, pounds: float = 12.04, **given: Any) -> PlannedSpread:
    """A feeding of zone 1 from the one bag there is."""
    made = PlannedSpread(
        date=on,
        latest=date(on.year, on.month, 28),
        zone_id=ZONE.zone_id,
        zone=ZONE.zone,
        number=1,
        product_id="bag",
        product=BOOK.products["bag"].name,
        pounds=pounds,
        n_lb_per_1000=0.5,
        area_sqft=1600.0,
        bags=pounds / 50,
    )
    return replace(made, **given)


def row_of(*spreads: PlannedSpread, zone: ZoneNitrogen = ZONE, tall: bool = True) -> Row:
    """The row of zone 1 with these feedings coming."""
    return feed.feed_row(BOOK, zone, feed.spreads_of(spreads), tall)


def test_every_pound_of_the_spreading_plan_has_its_cell() -> None:
    """A column for each date, in order; the pounds are those that the check lets pass."""
    assert list(COMING.dates) == sorted({each.date for each in COMING.spreads})
    for zone in PLAN.nitrogen:
        row = feed.feed_row(BOOK, zone, COMING, tall=True)
        for cell, on in zip(row[1:-1], COMING.dates, strict=True):
            told = [told_most(each.pounds) for each in COMING.at(zone.zone_id, on)]
            assert cell.main == (" + ".join(told) or "–")


def test_pounds_are_rounded_down() -> None:
    """2.259 lb is told as 2.2: the check before spreading would refuse 2.3 lb."""
    assert row_of(spread(ON, 2.259))[1].main == "2.2"


def test_bags_stand_under_the_pounds_or_beside_them() -> None:
    """A small part of a bag is not told as none; single lines of few dates hold both."""
    later = date(2026, 9, 1)
    tall = row_of(spread(ON, 12.04), spread(later, 1.0))
    assert [(cell.main, cell.detail) for cell in tall[1:3]] == [
        ("12.0", "0.2 bag"),
        ("1.0", "under 0.1 bag"),
    ]
    assert row_of(spread(ON, 65.0))[1].detail == "1.3 bags"
    assert row_of(spread(ON, bags=None))[1].detail == ""
    flat = row_of(spread(ON, 12.04), spread(later, 1.0), tall=False)
    assert [cell.main for cell in flat[1:3]] == ["12.0 lb, 0.2 bag", "1.0 lb, under 0.1 bag"]


def test_products_are_named_where_each_zone_gets_one() -> None:
    """A column of its own; on few dates only, as it takes their room."""
    other = spread(ON, 3.0, product_id="x", product="Other", zone_id="zone1")
    coming = feed.spreads_of((spread(ON), other))
    assert coming.named
    assert coming.letters == ()
    row = feed.feed_row(BOOK, ZONE, coming, tall=False)
    assert [cell.main for cell in row[1:3]] == [BOOK.products["bag"].name, "12.0 lb, 0.2 bag"]
    columns = feed.feed_columns(PLAN, coming, "2026")
    assert [each.title for each in columns] == ["zone", "product", "today", "2026"]
    none = replace(ZONE, zone_id="elsewhere", reason="used up")
    assert feed.feed_row(BOOK, none, coming, tall=False)[1].span == 2
    days = [spread(date(2026, 7, day)) for day in range(1, 5)]
    assert not feed.spreads_of((*days, other)).named


def test_two_products_of_a_zone_are_told_apart_by_letters() -> None:
    """In the order of first use; the note explains them. One product needs none."""
    other = spread(date(2026, 9, 1), 3.0, product_id="x", product="Other")
    coming = feed.spreads_of((spread(ON), other))
    assert coming.letters == ((BOOK.products["bag"].name, "a"), ("Other", "b"))
    assert feed.feed_row(BOOK, ZONE, coming, tall=True)[1].main == "12.0 a"
    assert feed.bags(BOOK, coming).startswith("a\u00a0Slow Twenty")
    assert feed.LETTERS_TEXT in feed.caption(PLAN, coming, RowPlan(4, 2, 2))
    assert COMING.letters == ()


def test_dates_say_their_last_day_and_another_year() -> None:
    """The first of the last days that suit; open ends and past ones are left out."""
    first, second = date(2026, 9, 1), date(2027, 5, 1)
    spreads = (
        spread(ON, latest=None),
        spread(first),
        spread(first, latest=date(2026, 9, 20), zone_id="zone1"),
        spread(second),
    )
    columns = feed.feed_columns(PLAN, feed.spreads_of(spreads), "2026")
    assert [(each.title, each.unit) for each in columns[1:4]] == [
        ("today", ""),
        ("1 Sep", "to 20 Sep"),
        ("1 May ’27", "to 28 May"),
    ]


def test_many_dates_are_counted() -> None:
    """The nearest six are shown, and the caption says of how many."""
    spreads = [spread(date(2026, 7, day)) for day in range(1, 10)]
    coming = feed.spreads_of(spreads)
    assert len(coming.dates) == feed.MOST_DATES
    assert "the next 6 of 9 dates" in feed.caption(PLAN, coming, RowPlan(4, 2, 2))


def test_zone_that_gets_nothing_says_why() -> None:
    """The reason stands over all dates."""
    none = replace(ZONE, zone_id="elsewhere", reason="The budget of the year is used up.")
    row = row_of(spread(ON), spread(date(2026, 9, 1)), zone=none)
    assert (row[1].main, row[1].span) == ("The budget of the year is used up.", 2)
    assert len(row) == 3


def test_year_tells_fed_and_left() -> None:
    """Over the budget is a minus sign, not only a colour."""
    over = replace(ZONE, applied_year=3.1, left_this_year=-0.4)
    cell = row_of(spread(ON), zone=over)[-1]
    assert (cell.main, cell.detail, cell.role) == ("3.10 fed", "−.40 left", "bad")
    assert row_of(spread(ON), zone=over, tall=False)[-1].main == "−.40 left"


def test_most_pressing_zones() -> None:
    """A zone over its budget comes before all others; the caption counts them."""
    zones = [*PLAN.nitrogen]
    zones[2] = replace(zones[2], left_this_year=-0.4)
    assert [zone.number for zone in feed.most_pressing(zones, 1)] == [3]
    over = replace(PLAN, nitrogen=tuple(zones))
    assert "4 zones, 1 over budget; the 1 most pressing" in feed.caption(
        over, COMING, RowPlan(1, 1, 1)
    )
    assert feed.caption(PLAN, COMING, RowPlan(4, 2, 2)) == feed.CAPTION_TEXT


def test_bags_are_named_once_with_what_is_needed_in_all() -> None:
    """One bag for all zones; a grade that the name holds is not said twice."""
    pounds = told_most(sum(each.pounds for each in COMING.spreads))
    told = feed.bags(BOOK, COMING)
    assert told.startswith(f"Slow Twenty 20-0-5, 50 lb, 50\u00a0% slow: {pounds} lb, ")
    named = replace(BOOK.products["bag"], name="Slow Twenty 20-0-5")
    book = replace(BOOK, products={"bag": named})
    assert feed.bags(book, feed.spreads_of(spreading_plan(book, ON))).count("20-0-5") == 1


@pytest.mark.parametrize(("density", "told"), [(10.0, "0.5 jug"), (None, "1 bag")])
def test_a_liquid_is_told_in_the_package_it_is_bought_in(density: float | None, told: str) -> None:
    """12.5 lb at 10 lb a gallon are half a jug of 2.5 gal; without a density a bag of 12.5 lb."""
    liquid = replace(
        BOOK.products["bag"], form="liquid", jug_gal=2.5, density_lb_per_gal=density, bag_lb=12.5
    )
    book = replace(BOOK, products={"bag": liquid})
    coming = spread(ON, 12.5, bags=packages_of(liquid, 12.5))
    row = feed.feed_row(book, ZONE, feed.spreads_of((coming,)), tall=True)
    assert row[1].detail.replace(".0", "") == told


def test_bare_shelf_is_said() -> None:
    """Without a bag the pounds are of nitrogen."""
    book = replace(BOOK, products={}, feedings={})
    coming = feed.spreads_of(spreading_plan(book, ON))
    assert feed.bags(book, coming) == feed.NO_BAG
    assert feed.caption(make_plan(book, ON), coming, RowPlan(4, 2, 2)) == feed.BARE_CAPTION


def test_a_mix_is_named_with_what_its_recipe_holds() -> None:
    """By hand: 3 lb of 20 % in 12 lb are 5 %."""
    parts = (
        Ingredient(name="urea", pounds=3.0, n_pct=20.0, slow_n_pct=10.0),
        Ingredient(name="molasses", pounds=9.0),
    )
    mix = replace(BOOK.products["bag"], ingredients=parts)
    book = replace(BOOK, products={"bag": mix})
    told = feed.bags(book, feed.spreads_of(spreading_plan(book, ON)))
    assert "5-0-0" in told
    assert "50\u00a0% slow" in told


def test_month_cells_tell_put_down_and_left() -> None:
    """May: 0.375 lb put down; over budget is a minus sign, not only a colour."""
    zone = replace(
        ZONE,
        applied_by_month=(0.0,) * 4 + (0.375,) + (0.0,) * 7,
        budget_by_month=(0.0,) * 4 + (0.25,) + (0.0,) * 3 + (0.7, 0.4, 0.4, 0.0),
    )
    row = feed_months.month_row(zone, ON, tall=True)
    assert (row[5].main, row[5].detail) == (".38", "−.12")
    assert (row[9].main, row[9].detail) == ("–", ".70")
    flat = feed_months.month_row(zone, ON, tall=False)
    assert flat[13].main.endswith(" left")
    assert [cell.main for cell in flat[1:13]] == [
        "–", "–", "–", "–", ".38", "0", "0", "0", ".70", ".40", ".40", "0",
    ]  # fmt: skip


@pytest.mark.parametrize(("grown", "told"), [((), ""), ((1,), ", zone 2."), ((0, 1, 2, 3), ".")])
def test_a_budget_spread_by_growth_is_named(grown: tuple[int, ...], told: str) -> None:
    """The row keeps the table's name, the line under the months says whose are by growth."""
    name = "cool season, lean, by growth potential"
    zones = [
        replace(zone, budget_name=name) if number in grown else zone
        for number, zone in enumerate(PLAN.nitrogen)
    ]
    assert feed_months.spread_told(zones) == (f"Months by growth potential{told}" if told else "")
    fed = feed.feed_row(BOOK, replace(ZONE, budget_name=name), COMING, tall=True)
    assert fed[0].detail == "cool season, lean"
