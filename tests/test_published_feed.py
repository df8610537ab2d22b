"""Feeding against worked examples that others have published, each with its source."""

import pytest

from lawnbook.agronomy import nitrogen as n
from lawnbook.agronomy.rule_cards import CARDS
from lawnbook.agronomy.spraying import spray_gal_per_1000, tank_covers_sqft
from lawnbook.agronomy.spreading import spreader_rate_lb_per_1000
from lawnbook.agronomy.units import fl_oz_to_gal

BAGS = [
    # University of Nebraska-Lincoln, Backyard Farmer: 28-3-6 on 6,000 sq ft.
    (1.0, 28.0, 6000.0, 3.57, 21.42),
    # University of Maryland, Bay-Wise: 24-2-12 on 4,550 sq ft.
    (1.0, 24.0, 4550.0, 1 / 0.24, 18.96),
    # County extension example: 20 % on 12,000 sq ft.
    (1.0, 20.0, 12_000.0, 5.0, 60.0),
]


@pytest.mark.parametrize(("rate", "n_pct", "area", "per_1000", "pounds"), BAGS)
def test_pounds_of_a_bag(
    rate: float, n_pct: float, area: float, per_1000: float, pounds: float
) -> None:
    assert n.product_lb_for_rate(rate, n_pct, 1000.0) == pytest.approx(per_1000, abs=0.01)
    assert n.product_lb_for_rate(rate, n_pct, area) == pytest.approx(pounds, abs=0.02)
    assert n.n_lb_per_1000sqft(pounds, n_pct, area) == pytest.approx(rate, rel=2e-3)


def test_what_a_bag_holds() -> None:
    # Cornell Cooperative Extension of Suffolk County: 30 lb of 24-2-8 hold 7.2, 0.6 and 2.4 lb,
    # enough for about 7,000 sq ft at 1 lb N.
    held = [n.n_lb_per_1000sqft(30.0, pct, 1000.0) for pct in (24.0, 2.0, 8.0)]
    assert held == pytest.approx([7.2, 0.6, 2.4])
    assert n.n_lb_per_1000sqft(30.0, 24.0, 7000.0) == pytest.approx(1.0, abs=0.03)
    # Virginia Cooperative Extension: a 50 lb bag of 10-10-10 holds 5 lb of each.
    assert n.n_lb_per_1000sqft(50.0, 10.0, 1000.0) == pytest.approx(5.0)


def test_potash_by_the_same_rule() -> None:
    # Schlossberg 2022, Pennsylvania Turfgrass: 2 lb K2O of 0-0-22 are 9.1 lb.
    assert n.product_lb_for_rate(2.0, 22.0, 1000.0) == pytest.approx(9.1, abs=0.01)


@pytest.mark.parametrize(
    ("slow_pct", "n_pct", "share"),
    [
        (15.0, 30.0, 0.50),  # Suffolk County, New York, Healthy Lawns: 30-5-10 with 15 % insoluble
        (5.0, 10.0, 0.50),  # Tampa Bay Estuary Program, example A
        (8.0, 24.0, 1 / 3),  # by hand: "8 % slowly available" of 24 %
    ],
)
def test_slow_share_from_a_label(slow_pct: float, n_pct: float, share: float) -> None:
    assert n.slow_share(slow_pct, n_pct) == pytest.approx(share)


def test_a_liquid_by_its_density() -> None:
    # Woods, Asian Turfgrass Center 2015: 6 fl oz of 10.68 lb a gallon are 0.5 lb, with 4 % N 0.02.
    pounds = fl_oz_to_gal(6.0) * 10.68
    assert pounds == pytest.approx(0.50, abs=0.005)
    assert n.n_lb_per_1000sqft(pounds, 4.0, 1000.0) == pytest.approx(0.02, abs=0.0005)


@pytest.mark.parametrize(
    ("used_lb", "strip_ft", "width_ft", "rate"),
    [
        # Reeves, University of Georgia: walk 1,000 / width, and the weight used is the rate.
        (3.0, 125.0, 8.0, 3.0),
        (2.5, 250.0, 4.0, 2.5),
    ],
)
def test_a_spreader_over_a_strip(
    used_lb: float, strip_ft: float, width_ft: float, rate: float
) -> None:
    assert spreader_rate_lb_per_1000(used_lb, strip_ft, width_ft) == pytest.approx(rate)


@pytest.mark.parametrize(
    ("used_gal", "area_sqft", "per_1000", "gal_per_acre"),
    [
        # The Pesticide Stewardship Partnership, spray gun: 5 ft by 200 ft took 5.25 gal.
        (5.25, 5.0 * 200.0, 5.25, 228.7),
        # The same, hose end: 1.25 gal on 250 sq ft.
        (1.25, 250.0, 5.0, 217.8),
        # North American Fruit Explorers 2009: 1.5 gal on 1,000 sq ft are 65 gal an acre.
        (1.5, 1000.0, 1.5, 65.0),
    ],
)
def test_a_sprayer_on_a_measured_area(
    used_gal: float, area_sqft: float, per_1000: float, gal_per_acre: float
) -> None:
    assert spray_gal_per_1000(used_gal, area_sqft) == pytest.approx(per_1000)
    assert 43.56 * per_1000 == pytest.approx(gal_per_acre, rel=6e-3)


def test_ounces_for_a_tank() -> None:
    # The reference example: 1 gal on 200 sq ft, so 10 gal cover 2,000; 2 oz per 1,000 are 4 oz.
    covers = tank_covers_sqft(10.0, spray_gal_per_1000(1.0, 200.0))
    assert covers == pytest.approx(2000.0)
    assert 2.0 * covers / 1000.0 == pytest.approx(4.0)


def test_nitrogen_by_month_in_virginia() -> None:
    # Virginia Department of Conservation and Recreation: September 0.5 to 0.9, October and early
    # November 0 to 0.9, May 0 to 0.5; warm season April 0 to 1, May 1, June optional, July or
    # August 1; 2 to 3.5 and 2 to 4 lb in a year, 1 to 2 for the sparing species.
    cool, warm = n.BUDGETS["cool season"], n.BUDGETS["warm season"]
    fed = {m: (cool.low[m - 1], cool.high[m - 1]) for m in range(1, 13) if cool.high[m - 1]}
    assert fed == {5: (0, 0.5), 9: (0.5, 0.9), 10: (0, 0.9), 11: (0, 0.9)}
    fed = {m: (warm.low[m - 1], warm.high[m - 1]) for m in range(1, 13) if warm.high[m - 1]}
    assert fed == {4: (0, 1), 5: (1, 1), 6: (0, 1), 7: (1, 1), 8: (1, 1)}
    assert cool.early == (11,)
    assert warm.either == ((7, 8),)
    for name in ("cool season, fine fescue", "warm season, zoysia or centipede"):
        assert (n.BUDGETS[name].year_low, n.BUDGETS[name].year_high) == (1, 2)


def test_the_least_slow_share_of_new_jersey_does_not_reach_its_quick_limit() -> None:
    # Rutgers: 0.9 lb in all, 0.7 lb quick. With just 20 % slow, 0.9 lb hold 0.72 lb quick.
    figures = CARDS[0].figures
    quick = figures["max_total_lb"] * (1 - figures["min_slow_pct"] / 100)
    assert quick == pytest.approx(0.72)
    assert quick > figures["max_quick_lb"]
