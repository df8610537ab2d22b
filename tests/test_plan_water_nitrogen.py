"""Nitrogen in the irrigation water: a published example, gross depths, and rates not known."""

from dataclasses import replace
from datetime import date

import pytest

from lawnbook.agronomy.nitrogen import irrigation_n_lb_per_1000
from lawnbook.plan.make import make_plan
from lawnbook.plan.water_nitrogen import WaterNitrogen, water_nitrogen_of
from lawnbook.yard.notebook import Notebook
from tests.plan_yards import watering, yard, zone

SINCE, ON = date(2026, 1, 1), date(2026, 9, 20)
JULY = date(2026, 7, 4)
LB_PER_ACRE = 43.56
"""Pounds on an acre for each pound on 1,000 sq ft."""


def brought(book: Notebook, mg_per_l: float | None = 10.0) -> dict[str, WaterNitrogen]:
    """What the water of a yard brought, at so much nitrogen in it."""
    well = replace(book, yard=replace(book.yard, water_n_mg_per_l=mg_per_l))
    return water_nitrogen_of(well, {"z1": 1000.0}, SINCE, ON)


def test_the_worked_example_of_the_university_of_california() -> None:
    """UC Cooperative Extension, Ventura: 24 in at 20 mg/L are 109 lb per acre."""
    assert irrigation_n_lb_per_1000(24.0, 20.0) * LB_PER_ACRE == pytest.approx(109, abs=0.5)
    assert irrigation_n_lb_per_1000(1.0, 1.0) == pytest.approx(0.0052, abs=5e-6)


def test_depths_are_gross_by_the_can_or_by_minutes_and_rate() -> None:
    front = zone(precipitation_in_per_h=1.5)
    waterings = [
        watering(JULY, depth_in=0.5),
        watering(JULY, id="again", minutes=20.0),
        watering(date(2026, 7, 6), minutes=40.0),
    ]
    figures = brought(yard(front, waterings=waterings))["z1"]
    assert [each.date for each in figures.days] == [JULY, date(2026, 7, 6)]
    assert [each.depth_in for each in figures.days] == pytest.approx([1.0, 1.0])
    assert figures.days[0].n_lb == pytest.approx(0.0520, abs=0.0001)
    assert figures.reason == ""


def test_minutes_without_a_rate_are_left_out_and_told() -> None:
    waterings = [watering(JULY, minutes=20.0), watering(date(2026, 7, 6), depth_in=1.0)]
    book = yard(waterings=waterings)
    figures = brought(book)["z1"]
    assert len(figures.days) == 1
    assert figures.uncounted == 1
    assert "1 watering in minutes is not counted" in figures.reason
    well = replace(book, yard=replace(book.yard, water_n_mg_per_l=10.0))
    assert figures.reason in make_plan(well, ON).nitrogen[0].reason
    assert "not counted" not in make_plan(book, ON).nitrogen[0].reason


@pytest.mark.parametrize("mg_per_l", [None, 0.0])
def test_water_without_nitrogen_brings_none(mg_per_l: float | None) -> None:
    assert brought(yard(waterings=[watering(JULY, depth_in=1.0)]), mg_per_l) == {}


def test_only_the_waterings_of_the_time_asked_for_count() -> None:
    days = (date(2025, 12, 31), SINCE, ON, date(2026, 9, 21))
    figures = brought(yard(waterings=[watering(day, depth_in=1.0) for day in days]))["z1"]
    assert [each.date for each in figures.days] == [SINCE, ON]


def test_thirty_days_reach_into_the_year_before() -> None:
    book = yard(waterings=[watering(date(2025, 12, 20), depth_in=1.0)])
    well = replace(book, yard=replace(book.yard, water_n_mg_per_l=10.0))
    figures = make_plan(well, date(2026, 1, 10)).nitrogen[0]
    assert figures.rolling_30_days == pytest.approx(0.052, abs=0.0001)
    assert figures.applied_year == 0
    assert sum(figures.water_by_month) == 0
