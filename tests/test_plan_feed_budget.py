"""The budget of a zone: its table or a spread by growth, and the limits that stand beside it."""

from dataclasses import replace
from datetime import date
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.agronomy.turf import growth_potential
from lawnbook.plan.feed_budget import Budget, budget_of, limits_of
from lawnbook.plan.make import make_plan
from lawnbook.plan.workings import OWN
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import NBudget, NRules, WeatherDay, Zone
from tests.plan_yards import TMEAN_F, climate, yard, zone

GRASSES: tuple[Literal["cool", "warm"], ...] = ("cool", "warm")
GROWING = zone(budget_spread="growth", budget_level="full")


def budget(book: Notebook) -> Budget:
    """The budget of a yard's first zone."""
    return budget_of(book, next(iter(book.zones.values())))


def test_by_growth_the_year_is_shared_out_over_the_months_that_the_table_feeds() -> None:
    """By hand: 3.5 lb over May, September, October and November of the test's climate."""
    shares = {month: growth_potential(TMEAN_F[month - 1], "cool") for month in (5, 9, 10, 11)}
    figures = budget(yard(GROWING))
    expected = [3.5 * shares.get(month, 0.0) / sum(shares.values()) for month in range(1, 13)]
    assert figures.by_month == pytest.approx(expected)
    assert figures.year_lb == pytest.approx(3.5)
    assert figures.name == "cool season, full, by growth potential"
    assert "Gelernter" in figures.source
    assert "Virginia" in figures.source
    assert figures.reason == ""


def test_zero_months_of_the_table_stay_zero_however_warm() -> None:
    warm_all_year = yard(GROWING, climate=climate(tmean_f=(68.0,) * 12))
    figures = budget(warm_all_year)
    assert figures.by_month[5:8] == (0.0, 0.0, 0.0)
    assert figures.by_month[8] == pytest.approx(3.5 / 4)


def test_a_year_of_ones_own_scales_the_spread() -> None:
    half = replace(GROWING, annual_n_lb_per_1000=1.75)
    whole, scaled = budget(yard(GROWING)).by_month, budget(yard(half)).by_month
    assert scaled == pytest.approx([each / 2 for each in whole])


def test_an_own_table_is_spread_over_the_months_that_it_feeds() -> None:
    own = NBudget(id="b", name="Mine", by_month=(0.0,) * 3 + (0.5, 0.5) + (0.0,) * 7, year_lb=0.8)
    figures = budget(yard(replace(GROWING, budget="b"), n_budgets=[own]))
    assert sum(figures.by_month) == pytest.approx(0.8)
    assert [month for month, lb in enumerate(figures.by_month, 1) if lb > 0] == [4, 5]
    assert figures.by_month[4] > figures.by_month[3]
    assert figures.name == "Mine, by growth potential"


def test_of_july_or_august_one_counts_and_both_take_the_same() -> None:
    """Virginia DCR, warm season: the year is the months' sum with one of the two."""
    warm = replace(GROWING, grass="warm")
    months = budget(yard(warm)).by_month
    assert months[6] == months[7] > 0
    assert sum(months) - months[7] == pytest.approx(4.0)


def test_south_of_the_equator_the_months_fed_are_shifted() -> None:
    months = budget(yard(GROWING, latitude_deg=-35.0)).by_month
    assert [month for month, lb in enumerate(months, 1) if lb > 0] == [3, 4, 5, 11]
    assert sum(months) == pytest.approx(3.5)


def test_without_temperatures_the_table_stands_and_the_reason_is_told() -> None:
    book = yard(GROWING, climate=())
    figures, table = budget(book), budget(yard(zone(budget_level="full")))
    assert figures.by_month == table.by_month
    assert figures.name == "cool season, full"
    assert "No temperatures are known yet" in figures.reason
    shown = make_plan(book, date(2026, 9, 20)).nitrogen[0]
    assert figures.reason in shown.reason
    some = yard(GROWING, climate=[row for row in climate() if row.month not in (5, 7)])
    assert "No temperature is known for May: " in budget(some).reason
    unfed = yard(GROWING, climate=[row for row in climate() if row.month != 7])
    assert budget(unfed).reason == ""


def test_where_nothing_grows_the_table_stands() -> None:
    cold = yard(GROWING, climate=climate(tmean_f=(-60.0,) * 12))
    assert "warm enough" in budget(cold).reason
    assert sum(budget(cold).by_month) > 0


def test_a_table_that_feeds_no_month_needs_no_growth() -> None:
    own = NBudget(id="b", name="None", by_month=(0.0,) * 12)
    figures = budget(yard(replace(GROWING, budget="b"), n_budgets=[own], climate=()))
    assert (figures.by_month, figures.reason) == ((0.0,) * 12, "")


@settings(deadline=None, max_examples=60)
@given(
    temperatures=st.lists(st.floats(-40, 120), min_size=12, max_size=12),
    grass=st.sampled_from(GRASSES),
    latitude=st.sampled_from([-40.0, 0.0, 40.0]),
    year=st.none() | st.floats(0, 12),
)
def test_a_spread_always_comes_to_the_year(
    temperatures: list[float],
    grass: Literal["cool", "warm"],
    latitude: float,
    year: float | None,
) -> None:
    grown: Zone = replace(GROWING, grass=grass, annual_n_lb_per_1000=year)
    book = yard(grown, latitude_deg=latitude, climate=climate(tmean_f=tuple(temperatures)))
    figures = budget(book)
    table = budget(yard(replace(grown, budget_spread="table"), latitude_deg=latitude))
    if figures.growth is None:
        assert figures.reason
        assert figures.by_month == table.by_month
        return
    counted = zip(figures.by_month, figures.growth, strict=True)
    assert all(
        lb == pytest.approx(figures.year_lb * share / figures.growth_sum) for lb, share in counted
    )
    twice = 0.0 if grass == "cool" else figures.by_month[7 if latitude >= 0 else 1]
    assert sum(figures.by_month) - twice == pytest.approx(figures.year_lb)


def test_measured_days_outweigh_the_climate_table() -> None:
    days = [
        WeatherDay(id=f"2026-09-{n:02}", date=date(2026, 9, n), tmin_f=60.0, tmax_f=76.0)
        for n in range(1, 21)
    ]
    warmer = budget(yard(GROWING, weather=days)).by_month[8]
    assert warmer > budget(yard(GROWING)).by_month[8]


def test_limits_are_the_published_ones_until_the_owner_enters_others() -> None:
    """Michigan State: 1 lb at once; Cornell: 0.5 lb quick."""
    plain = limits_of(NRules(id="n_rules"))
    assert (plain.max_total_lb, plain.max_quick_lb) == (1.0, 0.5)
    assert "Michigan" in plain.total_source
    own = limits_of(NRules(id="n_rules", max_total_lb=0.7, max_quick_lb=0.3))
    assert (own.max_total_lb, own.total_source) == (0.7, OWN)
    assert (own.max_quick_lb, own.quick_source) == (0.3, OWN)


def test_what_the_owner_entered_is_cited_by_the_name_it_bears() -> None:
    own = limits_of(NRules(id="n_rules", name="Ash County (an example)", max_total_lb=0.7))
    assert own.total_source == own.own_source == f"Ash County (an example), {OWN}"
    assert limits_of(NRules(id="n_rules")).own_source == OWN
