"""The ledger as rows: newest first, every feeding on every zone, and water by month and year."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lawnbook.plan.fed_rows import fed_rows
from lawnbook.plan.make import make_plan
from lawnbook.yard.notebook import Notebook, as_of
from tests.plan_yards import feeding, product, watering, yard, zone
from tests.strategies import notebooks

ON = date(2026, 9, 20)
BACK = zone(id="z2", name="Back", rank=1)


def two_zones() -> Notebook:
    """Two zones fed in one go, one of them again, with a product of nothing, and watered."""
    shelf = [
        product(p2o5_pct=6.0, k2o_pct=12.0),
        product(id="p2", name="Tea", n_pct=0.0, slow_n_pct=0.0, rank=1),
    ]
    fed = [
        replace(feeding(date(2026, 5, 1), 2.0), pounds={"z2": 1.0, "z1": 2.0}),
        feeding(date(2026, 9, 1), 5.0, product="p2", rank=1),
        feeding(date(2026, 9, 1), 1.0, id="later", rank=2),
        feeding(date(2026, 10, 1), 1.0, rank=3),
    ]
    waterings = [
        watering(date(2024, 7, 1), depth_in=1.0),
        watering(date(2024, 8, 1), depth_in=1.0),
        watering(date(2026, 6, 1), depth_in=1.0),
        watering(date(2026, 6, 9), depth_in=0.5),
        watering(date(2026, 7, 2), depth_in=1.0),
    ]
    book = yard(zone(), BACK, products=shelf, feedings=fed, waterings=waterings)
    return replace(book, yard=replace(book.yard, water_n_mg_per_l=10.0))


def test_rows_stand_newest_first_with_water_by_month_and_earlier_by_year() -> None:
    rows = fed_rows(two_zones(), ON)
    assert [(row.date, row.zone, row.product) for row in rows] == [
        (date(2026, 9, 1), "Front", "Half slow"),
        (date(2026, 9, 1), "Front", "Tea"),
        (date(2026, 7, 2), "Front", "Irrigation water, July"),
        (date(2026, 6, 9), "Front", "Irrigation water, June"),
        (date(2026, 5, 1), "Front", "Half slow"),
        (date(2026, 5, 1), "Back", "Half slow"),
        (date(2024, 8, 1), "Front", "Irrigation water, 2024"),
    ]
    assert [row.kind for row in rows].count("water") == 3


def test_an_earlier_years_water_bears_both_years_in_the_south() -> None:
    book = two_zones()
    south = replace(book, yard=replace(book.yard, latitude_deg=-35.0))
    names = [row.product for row in fed_rows(south, ON) if row.kind == "water"]
    assert names == [
        "Irrigation water, July",
        "Irrigation water, 2025–26",
        "Irrigation water, 2024–25",
    ]


def test_a_row_holds_what_was_put_down_and_what_it_held() -> None:
    row = next(each for each in fed_rows(two_zones(), ON, "z2"))
    assert (row.pounds, row.area_sqft, row.feeding_id) == (1.0, 1000.0, "f2026-05-01")
    assert row.n_lb_per_1000 == pytest.approx(0.24)
    assert row.quick_lb_per_1000 == pytest.approx(0.12)
    assert (row.p2o5_lb_per_1000, row.k2o_lb_per_1000) == pytest.approx((0.06, 0.12))
    june = next(each for each in fed_rows(two_zones(), ON) if each.product.endswith("June"))
    assert (june.pounds, june.feeding_id, june.product_id) == (None, "", "")
    assert june.n_lb_per_1000 == pytest.approx(1.5 * 0.05202, abs=1e-5)


def test_one_zone_has_its_own_rows_only() -> None:
    assert {row.zone_id for row in fed_rows(two_zones(), ON, "z2")} == {"z2"}
    assert fed_rows(two_zones(), ON, "none") == ()


@settings(deadline=None, max_examples=40, suppress_health_check=list(HealthCheck))
@given(notebooks(), st.dates(date(1995, 1, 1), date(2028, 1, 1)))
def test_the_rows_of_a_year_add_up_to_what_the_plan_says_was_applied(
    book: Notebook, on: date
) -> None:
    plan = make_plan(book, on)
    rows = fed_rows(book, on)
    known = as_of(book, on)
    assert len([row for row in rows if row.kind == "feeding"]) == sum(
        len(each.pounds) for each in known.feedings.values()
    )
    assert list(rows) == sorted(rows, key=lambda row: row.date, reverse=True)
    for zone_n in plan.nitrogen:
        south = (book.yard.latitude_deg or 0.0) < 0
        start = date(zone_n.year, 7 if south else 1, 1)
        put = sum(
            row.n_lb_per_1000
            for row in rows
            if row.zone_id == zone_n.zone_id and row.date >= start and row.area_sqft > 0
        )
        assert put == pytest.approx(zone_n.applied_year, rel=1e-9, abs=1e-9)
