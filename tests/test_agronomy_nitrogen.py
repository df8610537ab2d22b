"""Nitrogen: the arithmetic of a bag, the months' budgets, and the year."""

import math
from collections.abc import Callable, Sequence
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy import nitrogen as n
from lawnbook.agronomy.turf import SPECIES

PCT = st.floats(0.5, 46.0)
AREA = st.floats(50.0, 50_000.0)
LATITUDE = st.sampled_from([-37.0, 0.0, 41.0])
WARM = n.BUDGETS["warm season"]


def test_five_pounds_of_a_fifth() -> None:
    # Country extension example: 1 lb N per 1,000 sq ft with 20 % N is 5 lb; 12,000 sq ft take 60.
    assert n.product_lb_for_rate(1.0, 20.0, 1000.0) == pytest.approx(5.0)
    assert n.product_lb_for_rate(1.0, 20.0, 12_000.0) == pytest.approx(60.0)


def test_a_bag_of_ten_ten_ten() -> None:
    # Michigan State Extension: a 50 lb bag of 10-10-10 holds 5 lb N.
    assert n.n_lb_per_1000sqft(50.0, 10.0, 1000.0) == pytest.approx(5.0)


@given(st.floats(0.0, 3.0), PCT, AREA)
def test_the_pounds_for_a_rate_bring_that_rate(rate: float, n_pct: float, area: float) -> None:
    pounds = n.product_lb_for_rate(rate, n_pct, area)
    assert n.n_lb_per_1000sqft(pounds, n_pct, area) == pytest.approx(rate)


def test_slow_share() -> None:
    # UC IPM: slowly available N % over total N %; 24 % N of which 6 % slow is a quarter.
    assert n.slow_share(6.0, 24.0) == pytest.approx(0.25)
    assert n.quick_n_pct(24.0, 6.0) == pytest.approx(18.0)
    assert n.slow_share(0.0, 0.0) == 0.0


@given(PCT, st.floats(0, 1))
def test_slow_and_quick_make_the_whole(n_pct: float, share: float) -> None:
    slow = n_pct * share
    assert n.slow_share(slow, n_pct) == pytest.approx(share)
    assert n.quick_n_pct(n_pct, slow) + slow == pytest.approx(n_pct)


def test_nitrogen_in_an_inch_of_water() -> None:
    # 1 in at 1 mg/L over 1,000 sq ft: 623.4 gal x 8.345e-6 lb = 0.0052 lb.
    assert n.irrigation_n_lb_per_1000(1.0, 1.0) == pytest.approx(623.4 * 8.345e-6, rel=1e-3)


# Virginia Department of Conservation and Recreation, lb N per 1,000 sq ft, January to December.
# Its page marks the warm season's April and June as optional, so their low is none.
VIRGINIA = [
    ("cool season", "0 0 0 0 0 0 0 0 .5 0 0 0", "0 0 0 0 .5 0 0 0 .9 .9 .9 0", 2.0, 3.5),
    ("cool season, fine fescue", "0 0 0 0 0 0 0 0 .5 0 0 0", "0 0 0 0 .5 0 0 0 .9 .9 .9 0", 1, 2),
    ("warm season", "0 0 0 0 1 0 1 1 0 0 0 0", "0 0 0 1 1 1 1 1 0 0 0 0", 2.0, 4.0),
    (
        "warm season, zoysia or centipede",
        "0 0 0 0 1 0 1 1 0 0 0 0",
        "0 0 0 1 1 1 1 1 0 0 0 0",
        1,
        2,
    ),
]


@pytest.mark.parametrize(("name", "low", "high", "year_low", "year_high"), VIRGINIA)
def test_budget_tables(name: str, low: str, high: str, year_low: float, year_high: float) -> None:
    budget = n.BUDGETS[name]
    assert list(budget.low) == [float(value) for value in low.split()]
    assert list(budget.high) == [float(value) for value in high.split()]
    assert (budget.year_low, budget.year_high) == (year_low, year_high)
    assert budget.name == name


def test_there_is_no_other_table() -> None:
    assert list(n.BUDGETS) == [name for name, *_ in VIRGINIA]


def test_levels_by_month() -> None:
    cool = n.BUDGETS["cool season"]
    # 3.2 lb is the sum of the table's highs, short of its full year of 3.5.
    assert n.budget_by_month(cool, "full", 40.0) == pytest.approx(cool.high)
    # By hand: lows sum to 0.5 and highs to 3.2, so 2.75 lb stands at 2.25 / 2.7 of each range.
    assert n.budget_by_month(cool, "middle", 40.0) == pytest.approx(
        (0, 0, 0, 0, 0.4167, 0, 0, 0, 0.8333, 0.75, 0.75, 0), abs=1e-4
    )


@pytest.mark.parametrize("name", ["cool season", "cool season, fine fescue"])
@pytest.mark.parametrize("level", ["lean", "middle"])
def test_the_months_add_up_to_the_year(name: str, level: str) -> None:
    budget = n.BUDGETS[name]
    months = n.budget_by_month(budget, level, 40.0)
    assert sum(months) == pytest.approx(n.budget_year(budget, level))
    within = zip(budget.low, months, budget.high, strict=True)
    assert all(low <= month <= high + 1e-12 for low, month, high in within)


@pytest.mark.parametrize("level", n.LEVELS)
def test_a_warm_year_is_its_months_of_which_one_of_the_pair_is_fed(level: str) -> None:
    months = n.budget_by_month(WARM, level, 40.0)
    assert sum(months) - months[7] == pytest.approx(n.budget_year(WARM, level))


def test_levels_by_year() -> None:
    cool = n.BUDGETS["cool season"]
    assert [n.budget_year(cool, level) for level in n.LEVELS] == [2.0, 2.75, 3.5]


def test_the_months_may_sum_to_more_than_the_year() -> None:
    # So the year's total has to bind as well.
    for name in ("warm season", "warm season, zoysia or centipede"):
        budget = n.BUDGETS[name]
        by_month = n.budget_by_month(budget, "middle", 40.0)
        assert sum(by_month) > n.budget_year(budget, "middle")


@given(st.sampled_from(sorted(n.BUDGETS)), LATITUDE)
def test_lean_middle_full_never_cross(name: str, latitude_deg: float) -> None:
    budget = n.BUDGETS[name]
    months = [n.budget_by_month(budget, level, latitude_deg) for level in n.LEVELS]
    assert all(lean <= middle <= full for lean, middle, full in zip(*months, strict=True))
    lean, middle, full = (n.budget_year(budget, level) for level in n.LEVELS)
    assert lean < middle < full


def test_no_month_takes_more_than_one_application_may() -> None:
    # Michigan State Extension: never more than 1 lb per application.
    assert all(max(budget.high) <= n.MAX_TOTAL_LB for budget in n.BUDGETS.values())


def test_limits() -> None:
    assert n.MAX_TOTAL_LB == 1.0  # Michigan State Extension
    assert n.MAX_QUICK_LB == 0.5  # Cornell Cooperative Extension of Suffolk County


def test_southern_spring_is_november() -> None:
    cool = n.budget_by_month(n.BUDGETS["cool season"], "full", -37.0)
    # Northern September, October, November fall in March, April and May; May in November.
    assert cool == pytest.approx((0, 0, 0.9, 0.9, 0.9, 0, 0, 0, 0, 0, 0.5, 0))


@pytest.mark.parametrize(
    ("month", "latitude_deg", "partner"),
    [(7, 40.0, 8), (8, 40.0, 7), (6, 40.0, None), (1, -30.0, 2), (2, -30.0, 1), (7, -30.0, None)],
)
def test_july_or_august(month: int, latitude_deg: float, partner: int | None) -> None:
    assert n.either_month(n.BUDGETS["warm season"], month, latitude_deg) == partner


def test_cool_season_months_have_no_partner() -> None:
    cool = n.BUDGETS["cool season"]
    assert [n.either_month(cool, month, 40.0) for month in range(1, 13)] == [None] * 12


@pytest.mark.parametrize(
    ("grass", "species", "expected"),
    [
        ("cool", "Kentucky bluegrass", "cool season"),
        ("cool", "fine fescue", "cool season, fine fescue"),
        ("cool", "", "cool season"),
        ("cool", "a mix of my own", "cool season"),
        ("cool", "zoysiagrass", "cool season"),
        ("warm", "bermudagrass", "warm season"),
        ("warm", "zoysiagrass", "warm season, zoysia or centipede"),
        ("warm", "centipedegrass", "warm season, zoysia or centipede"),
        ("warm", "fine fescue", "warm season"),
        ("cool", " Fine fescue", "cool season, fine fescue"),
        ("warm", "Zoysiagrass", "warm season, zoysia or centipede"),
    ],
)
def test_budget_for(grass: str, species: str, expected: str) -> None:
    assert n.budget_for(grass, species).name == expected


def test_species_and_budgets_name_the_same_year() -> None:
    for species in SPECIES.values():
        budget = n.budget_for(species.grass, species.name)
        assert budget.grass == species.grass
        assert (budget.year_low, budget.year_high) == (species.year_n_low, species.year_n_high)


@pytest.mark.parametrize(
    ("on", "latitude_deg", "label", "start", "end"),
    [
        (date(2026, 1, 1), 40.0, 2026, date(2026, 1, 1), date(2026, 12, 31)),
        (date(2026, 12, 31), 40.0, 2026, date(2026, 1, 1), date(2026, 12, 31)),
        (date(2026, 6, 30), -37.0, 2025, date(2025, 7, 1), date(2026, 6, 30)),
        (date(2026, 7, 1), -37.0, 2026, date(2026, 7, 1), date(2027, 6, 30)),
        (date(2024, 2, 29), -37.0, 2023, date(2023, 7, 1), date(2024, 6, 30)),
    ],
)
def test_nitrogen_year(on: date, latitude_deg: float, label: int, start: date, end: date) -> None:
    assert n.n_year(on, latitude_deg) == (label, start, end)


@given(st.dates(date(1990, 1, 1), date(2090, 1, 1)), LATITUDE)
def test_years_follow_each_other_without_a_gap(on: date, latitude_deg: float) -> None:
    year = n.n_year(on, latitude_deg)
    assert year.start <= on <= year.end
    assert year.end - year.start in (timedelta(364), timedelta(365))
    following = n.n_year(year.end + timedelta(1), latitude_deg)
    assert (following.label, following.start) == (year.label + 1, year.end + timedelta(1))


SHARES = st.lists(st.just(0.0) | st.floats(0.001, 1.0), min_size=12, max_size=12)
TABLE = st.lists(st.sampled_from([0.0, 0.5, 0.9, 1.0]), min_size=12, max_size=12)
PAIRS = st.sampled_from([(), ((7, 8),), ((1, 2), (7, 8)), ((12, 1),)])


def counted(months: Sequence[float], pairs: Sequence[tuple[int, int]], table: list[float]) -> float:
    """The sum of a year in which only one of a pair is fed."""
    both = {b for a, b in pairs if table[a - 1] > 0 and table[b - 1] > 0}
    return math.fsum(lb for month, lb in enumerate(months, start=1) if month not in both)


@given(TABLE, SHARES, st.floats(0.0, 6.0), PAIRS)
def test_growth_shares_out_the_whole_year(
    table: list[float],
    growth: list[float],
    year_lb: float,
    pairs: tuple[tuple[int, int], ...],
) -> None:
    shares = n.growth_shares(table, growth, pairs)
    if shares.counted <= 0:
        with pytest.raises(ValueError, match="counted must be above zero"):
            shares.budget(year_lb)
        return
    months = shares.budget(year_lb)
    assert len(months) == 12
    assert all(lb == 0 for lb, high in zip(months, table, strict=True) if high == 0)
    assert all(lb >= 0 for lb in months)
    assert counted(months, pairs, table) == pytest.approx(year_lb, abs=1e-9)


def test_growth_by_hand() -> None:
    # May, Sep, Oct and Nov are fed; 0.5 + 1 + 0.4 + 0.1 = 2 shares of 3 lb: 1.5 lb a share.
    table = [0, 0, 0, 0, 0.5, 0, 0, 0, 0.9, 0.9, 0.9, 0]
    growth = [0, 0, 0.2, 0.6, 0.5, 0.8, 0.4, 0.5, 1.0, 0.4, 0.1, 0]
    assert n.growth_shares(table, growth).budget(3.0) == pytest.approx(
        (0, 0, 0, 0, 0.75, 0, 0, 0, 1.5, 0.6, 0.15, 0)
    )


def test_a_pair_carries_one_rate_and_counts_once() -> None:
    # April to August of the warm table: 0.2 + 0.6 + 0.8 + 0.9 (July or August) = 2.5 of 2.5 lb.
    growth = [0, 0, 0, 0.2, 0.6, 0.8, 0.7, 0.9, 0.5, 0, 0, 0]
    months = n.growth_shares(WARM.high, growth, WARM.either).budget(2.5)
    assert months == pytest.approx((0, 0, 0, 0.2, 0.6, 0.8, 0.9, 0.9, 0, 0, 0, 0))


def test_half_a_pair_that_is_not_fed_is_no_pair() -> None:
    table = [0.0] * 6 + [1.0] + [0.0] * 5
    assert n.growth_shares(table, [1.0] * 12, ((7, 8),)).budget(2.0)[6:8] == (2.0, 0.0)


def test_growth_need_not_be_known_where_nothing_is_fed() -> None:
    table = [0, 0, 0, 0, 1, 0, 0, 0, 1, 1, 0, 0]
    growth = [None if lb == 0 else 0.4 for lb in table]
    assert n.growth_shares(table, growth).counted == pytest.approx(1.2)


BAD_CALLS: list[tuple[Callable[[], object], str]] = [
    (lambda: n.n_lb_per_1000sqft(5.0, 20.0, 0.0), "area_sqft must be above zero"),
    (lambda: n.n_lb_per_1000sqft(5.0, 101.0, 100.0), "n_pct must lie between"),
    (lambda: n.n_lb_per_1000sqft(math.nan, 20.0, 100.0), "product_lb must be a finite number"),
    (lambda: n.product_lb_for_rate(1.0, 0.0, 100.0), "n_pct must be above zero"),
    (lambda: n.product_lb_for_rate(-1.0, 10.0, 100.0), "n_lb_per_1000 must be zero or more"),
    (lambda: n.quick_n_pct(10.0, 10.5), "slow_n_pct must lie between"),
    (lambda: n.slow_share(-1.0, 10.0), "slow_n_pct must lie between"),
    (lambda: n.irrigation_n_lb_per_1000(1.0, -1.0), "n_mg_per_l must be zero or more"),
    (lambda: n.budget_for("tropical", ""), "grass must be"),
    (lambda: n.budget_year(n.BUDGETS["warm season"], "rich"), "level must be"),
    (lambda: n.budget_by_month(n.BUDGETS["warm season"], "rich", 40.0), "level must be"),
    (lambda: n.n_year(date(2026, 1, 1), 100.0), "latitude_deg must lie between"),
    (lambda: n.growth_shares([1.0] * 11, [1.0] * 12), "table_high must hold 12 values"),
    (lambda: n.growth_shares([1.0] * 12, [1.0] * 13), "growth must hold 12 values"),
    (lambda: n.growth_shares([1.0] * 12, [1.5] * 12), "growth must lie between"),
    (lambda: n.growth_shares([1.0] * 12, [None] * 12), "growth must be known"),
    (lambda: n.growth_shares([-1.0] * 12, [1.0] * 12), "table_high must be zero or more"),
    (lambda: n.growth_shares([1.0] * 12, [1.0] * 12).budget(-2.0), "year_lb must be zero or more"),
    (lambda: n.growth_shares([1.0] * 12, [1.0] * 12, ((0, 8),)), "month must lie between"),
]


@pytest.mark.parametrize(("call", "sentence"), BAD_CALLS)
def test_out_of_domain(call: Callable[[], object], sentence: str) -> None:
    with pytest.raises(ValueError, match=sentence):
        call()
