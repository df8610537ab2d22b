"""The check before spreading: verdict, the rule that binds, the most that passes, the first day."""

import math
from datetime import date, timedelta

import pytest

from lawnbook.plan.make import make_plan
from lawnbook.plan.model import SpreadCheck
from lawnbook.plan.spread import check_spread, pounds_for_rate, share_by_area
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, Season
from tests.plan_yards import feeding, product, rules, yard, zone

AUTUMN = date(2026, 9, 20)


def checked(book: Notebook, pounds: float, on: date = AUTUMN) -> SpreadCheck:
    """The check of pounds of "p1" on the plain zone."""
    return check_spread(book, "p1", {"z1": pounds}, on)


def test_within_the_month() -> None:
    check = checked(yard(zone(budget_level="full"), products=[product()]), 2.0)
    only = check.zones[0]
    assert check.within
    assert only.n_lb_per_1000 == pytest.approx(0.48)
    assert only.quick_lb_per_1000 == pytest.approx(0.24)
    assert (only.month_after, only.year_after) == pytest.approx((0.48, 0.48))
    assert only.max_lb == pytest.approx(0.9 / 0.24)
    assert [rule.rule for rule in only.binding] == ["month budget"]
    assert not only.binding[0].broken
    assert check.earliest_date == AUTUMN


@pytest.mark.parametrize(
    ("values", "fed", "rule"),
    [
        ({}, 0.0, "month budget"),
        ({"year_lb": 0.4}, 0.0, "year limit"),
        ({"max_total_lb": 0.4}, 0.0, "most at once"),
        ({"max_quick_lb": 0.2}, 0.0, "most quick nitrogen at once"),
        ({"min_slow_pct": 60.0}, 0.0, "least slow share"),
        ({"min_days": 30}, 0.1, "days between feedings"),
        ({"blackouts": (Season(start="09-15", end="03-01"),)}, 0.0, "blackout"),
    ],
)
def test_each_rule_can_break(values: dict[str, object], fed: float, rule: str) -> None:
    feedings = [feeding(date(2026, 9, 10), fed)] if fed else []
    book = yard(products=[product()], feedings=feedings, n_rules=rules(**values))
    check = checked(book, 3.9)
    broken = {binding.rule: binding for binding in check.zones[0].binding}
    assert not check.within
    assert rule in broken
    assert all(binding.broken for binding in broken.values())
    assert broken[rule].sentence.endswith(".")
    assert check.zones[0].over_by_lb_per_1000 > 0


def test_the_year_binds_too() -> None:
    book = yard(zone(annual_n_lb_per_1000=0.5), products=[product()])
    assert "year budget" in {rule.rule for rule in checked(book, 2.5).zones[0].binding}


def test_one_pound_at_once_is_the_most() -> None:
    """Michigan State University Extension: never more than 1 lb per application."""
    slow = product(n_pct=40.0, slow_n_pct=40.0)
    roomy = zone(grass="warm", budget_level="full")
    book = yard(roomy, products=[slow])
    on = date(2026, 6, 1)
    assert checked(book, 2.5, on).within
    assert "most at once" in {r.rule for r in checked(book, 2.6, on).zones[0].binding}


def test_all_of_a_day_is_one_application() -> None:
    book = yard(products=[product(slow_n_pct=0.0)], feedings=[feeding(AUTUMN, 1.5)])
    only = checked(book, 1.0).zones[0]
    assert only.max_lb == pytest.approx((0.5 - 0.36) / 0.24)
    assert "most quick nitrogen at once" in {rule.rule for rule in only.binding}


def test_what_was_fed_that_day_counts_towards_the_most_at_once() -> None:
    book = yard(
        products=[product()], feedings=[feeding(AUTUMN, 1.0)], n_rules=rules(max_total_lb=0.3)
    )
    assert checked(book, 1.0).zones[0].max_lb == pytest.approx(0.06 / 0.24)


def test_the_least_slow_share_itself_passes() -> None:
    assert checked(yard(products=[product()], n_rules=rules(min_slow_pct=50.0)), 1.0).within


def test_how_much_is_over_is_told_against_the_most_that_passes() -> None:
    only = checked(yard(zone(budget_level="full"), products=[product()]), 4.0).zones[0]
    assert only.over_by_lb_per_1000 == pytest.approx(0.06)
    assert "0.06 too much" in only.binding[0].sentence


def test_a_hair_over_is_not_told_as_nothing() -> None:
    check = checked(yard(zone(budget_level="full"), products=[product()]), 0.9015 / 0.24)
    assert "0.002 too much" in check.zones[0].binding[0].sentence
    assert "Front is over by 0.002 lb N per 1,000 sq ft; at most 3.7 lb" in check.verdict


def test_one_day_is_told_in_the_singular() -> None:
    book = yard(products=[product()], feedings=[feeding(AUTUMN, 0.5)], n_rules=rules(min_days=2))
    binding = checked(book, 0.1, AUTUMN + timedelta(days=1)).zones[0].binding
    assert any("2 days between feedings; the last was 1 day before" in r.sentence for r in binding)


@pytest.mark.parametrize("on", [date(1, 1, 1), date(1799, 12, 31), date(9999, 12, 31)])
def test_days_beyond_any_notebook_are_refused_in_words(on: date) -> None:
    with pytest.raises(OwnerError, match="choose a day between 1 Jan 1800"):
        make_plan(yard(), on)
    with pytest.raises(OwnerError, match="choose a day between 1 Jan 1800"):
        checked(yard(products=[product()]), 1.0, on)


def test_days_between_feedings_leave_the_same_day_free() -> None:
    book = yard(products=[product()], feedings=[feeding(AUTUMN, 0.5)], n_rules=rules(min_days=30))
    assert checked(book, 0.5).within
    assert not checked(book, 0.5, AUTUMN + timedelta(days=29)).within
    assert checked(book, 0.5, AUTUMN + timedelta(days=30)).within


def test_a_zero_month_binds_though_the_grass_may_grow() -> None:
    check = checked(yard(products=[product()]), 0.1, date(2026, 6, 15))
    assert not check.within
    assert check.zones[0].max_lb == 0
    (binding,) = check.zones[0].binding
    assert binding.rule == "zero month"
    assert binding.sentence == (
        "June is a zero month of the table, however well the grass grows: it would stand at 0.02 "
        "lb."
    )
    assert check.earliest_date == date(2026, 9, 1)
    assert "1 Sep 2026" in check.verdict


def test_nothing_passes_always_and_a_product_without_nitrogen_too() -> None:
    book = yard(products=[product(n_pct=0.0, slow_n_pct=0.0, k2o_pct=20.0)])
    check = checked(book, 50.0, date(2026, 6, 15))
    assert check.within
    assert "carries no nitrogen" in check.verdict
    assert check.zones[0].max_lb == 50.0
    assert check.zones[0].k2o_lb_per_1000 == pytest.approx(10.0)
    assert not check.zones[0].binding
    assert not check.split
    assert checked(yard(products=[product()]), 0.0, date(2026, 6, 15)).within


def test_feedings_after_the_day_are_not_counted_and_said_so() -> None:
    book = yard(products=[product()], feedings=[feeding(date(2026, 9, 25), 2.0)])
    check = checked(book, 2.0)
    assert check.within
    assert (
        "1 feeding of the same year, recorded after 20 Sep 2026, is not counted here."
        in check.cautions
    )


def test_a_strip_beside_water_is_named_and_taken_out() -> None:
    """A shore along the side of 50 ft: 10 ft of it are 500 of the 1,000 sq ft."""
    shore = rectangle_ft((-10.0, -30.0), 70.0, 30.0)
    pond = Feature(id="x", kind="water", name="pond", outline_ft=shore, no_spread_ft=10)
    check = checked(yard(products=[product()], features=[pond]), 1.0)
    assert any("Leave 10 ft beside the pond" in caution for caution in check.cautions)
    assert any("label" in caution for caution in check.cautions)
    (only,) = check.zones
    assert only.area_sqft == pytest.approx(500)
    assert only.n_lb_per_1000 == pytest.approx(0.48)
    assert only.load is not None
    assert only.load.strips == ("pond",)
    assert only.load.strip_sqft == pytest.approx(500)
    assert only.load.kept_out_lb == pytest.approx(1.0)


def test_several_zones_pass_together_or_not_at_all() -> None:
    spent = zone(id="z2", name="Side", annual_n_lb_per_1000=0.3)
    book = yard(zone(), spent, products=[product()])
    check = check_spread(book, "p1", {"z1": 2.0, "z2": 2.0}, AUTUMN)
    assert [each.within for each in check.zones] == [True, False]
    assert not check.within
    assert "Side" in check.verdict


def test_pounds_for_a_rate_and_shares_by_area() -> None:
    side = zone(id="z2", name="Side", outline_ft=((0.0, 0.0), (50.0, 0.0), (50.0, 60.0)))
    book = yard(zone(), side, products=[product()])
    pounds = pounds_for_rate(book, "p1", ["z1", "z2"], 0.48)
    assert pounds == pytest.approx({"z1": 2.0, "z2": 3.0})
    shares = share_by_area(book, ["z1", "z2"], 10.0)
    assert shares == pytest.approx({"z1": 4.0, "z2": 6.0})


@pytest.mark.parametrize("pounds", [-1.0, math.nan, math.inf])
def test_pounds_that_are_no_weight_are_refused(pounds: float) -> None:
    book = yard(products=[product()])
    with pytest.raises(OwnerError, match="Pounds"):
        checked(book, pounds)
    with pytest.raises(OwnerError, match="Pounds"):
        share_by_area(book, ["z1"], pounds)
    with pytest.raises(OwnerError, match="Rate"):
        pounds_for_rate(book, "p1", ["z1"], pounds)


def test_unknown_names_are_refused() -> None:
    book = yard(products=[product(), product(id="p0", n_pct=0.0, slow_n_pct=0.0)])
    with pytest.raises(OwnerError, match="Product"):
        check_spread(book, "none", {"z1": 1.0}, AUTUMN)
    with pytest.raises(OwnerError, match="Zone"):
        check_spread(book, "p1", {"none": 1.0}, AUTUMN)
    with pytest.raises(OwnerError, match="Zone"):
        check_spread(book, "p1", {}, AUTUMN)
    with pytest.raises(OwnerError, match="no nitrogen"):
        pounds_for_rate(book, "p0", ["z1"], 0.5)
