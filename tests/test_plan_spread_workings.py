"""The workings of a check before spreading: each comes out, and says where its numbers are from."""

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lawnbook.plan.model import SpreadCheck
from lawnbook.plan.spread import check_spread
from lawnbook.plan.working_model import Working
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.places import sample_yards
from lawnbook.yard.problems import OwnerError
from tests.plan_yards import climate, feeding, product, rules, yard, zone
from tests.strategies import notebooks
from tests.test_plan_workings import assert_comes_out

ON = date(2026, 9, 20)


def by_figure(check: SpreadCheck, place: int = 0) -> dict[str, Working]:
    """The workings of one zone of a check."""
    return {each.figure: each for each in check.zones[place].workings}


def lawn(**tables: Any) -> Notebook:
    """One zone and one product of 24 % N, half of it slow."""
    given_ = {"climate": climate(tmean_f=(58.0,) * 12), **tables}
    return yard(zone(), products=[product(slow_n_pct=12.0, k2o_pct=8.0)], **given_)


def checked(book: Notebook, pounds: float = 2.0, on: date = ON) -> dict[str, Working]:
    """The workings of the one zone's check."""
    return by_figure(check_spread(book, "p1", {"z1": pounds}, on))


def test_every_figure_of_a_check_has_its_working() -> None:
    found = checked(lawn(feedings=[feeding(date(2026, 9, 2), 1.0)]))
    assert {
        "n_lb_per_1000",
        "quick_lb_per_1000",
        "k2o_lb_per_1000",
        "month_after",
        "year_after",
        "growth_potential",
        "max_lb",
    } <= set(found)
    assert "p2o5_lb_per_1000" not in found
    for each in found.values():
        assert_comes_out(each)
        assert each.source
        assert each.inputs


def test_growth_potential_is_worked_out_from_its_temperature() -> None:
    """Gelernter and Stowell 2005: exp(-1/2) = 0.61 one width (10 °F) below 68 °F."""
    growth = checked(lawn())["growth_potential"]
    assert (growth.value, growth.filled) == ("0.61", "exp(−½ × ((58.00 − 68) ÷ 10)²)")
    assert "Gelernter" in growth.source


def test_heat_does_not_slow_warm_season_grass() -> None:
    hot = yard(zone(grass="warm"), products=[product()], climate=climate(tmean_f=(95.0,) * 12))
    growth = checked(hot, on=date(2026, 6, 2))["growth_potential"]
    assert (growth.value, growth.filled) == ("1.00", "1")
    assert_comes_out(growth)


def test_the_most_names_the_tightest_rule_or_the_one_that_stops_the_day() -> None:
    quick = yard(zone(), products=[product(slow_n_pct=0.0)])
    most = checked(quick)["max_lb"]
    assert most.inputs[0].origin == "the tightest rule: most quick nitrogen at once"
    assert "Cornell" in most.source
    stopped = checked(lawn(n_rules=rules(name="Ash County", min_slow_pct=90.0)))["max_lb"]
    assert (stopped.value, stopped.inputs[0].value) == ("0 lb", "least slow share")
    assert stopped.source.startswith("Ash County")


def test_a_lower_year_of_the_owners_rule_is_told_as_such() -> None:
    year = checked(lawn(n_rules=rules(name="Ash County", year_lb=1.0)))["year_after"]
    assert year.value.endswith("of 1.00 lb per 1,000 sq ft")
    assert (year.inputs[-1].origin, year.source) == (
        "your rule",
        "Ash County, as entered in this notebook",
    )


def test_the_area_says_whether_it_was_drawn_or_entered() -> None:
    book = lawn()
    drawn = checked(book)["n_lb_per_1000"].inputs[-1]
    typed = check_spread(book, "p1", {"z1": 2.0}, ON, {"z1": 500.0})
    assert drawn.origin == "outline"
    assert by_figure(typed)["n_lb_per_1000"].inputs[-1].origin == "entered"


def test_nothing_to_put_down_has_no_working_and_no_nitrogen_has_no_most() -> None:
    assert checked(lawn(), pounds=0.0) == {}
    book = lawn()
    potash = replace(book.products["p1"], n_pct=0.0, slow_n_pct=0.0, k2o_pct=50.0)
    found = checked(replace(book, products={"p1": potash}))
    assert "k2o_lb_per_1000" in found
    assert not {"n_lb_per_1000", "month_after", "growth_potential", "max_lb"} & set(found)


@pytest.mark.parametrize("path", sample_yards(), ids=lambda path: path.stem)
def test_every_working_of_the_samples_checks_comes_out(path: Path) -> None:
    book = load_any(path, date.max)
    seen = set()
    for product_id in book.products:
        for month in (3, 5, 7, 9, 11):
            wanted = dict.fromkeys(book.zones, 1.5)
            check = check_spread(book, product_id, wanted, date(2026, month, 10))
            for each in (w for spread in check.zones for w in spread.workings):
                assert_comes_out(each)
                seen.add(each.figure)
    assert {"n_lb_per_1000", "year_after", "max_lb", "watering_in_minutes"} <= seen


@settings(deadline=None, max_examples=40, suppress_health_check=list(HealthCheck))
@given(notebooks(), st.dates(date(1995, 1, 1), date(2028, 1, 1)), st.floats(0.05, 60.0))
def test_every_working_of_any_check_comes_out(book: Notebook, on: date, pounds: float) -> None:
    for product_id in book.products:
        for zone_id in book.zones:
            try:
                check = check_spread(book, product_id, {zone_id: pounds}, on)
            except OwnerError:
                continue
            for each in check.zones[0].workings:
                assert_comes_out(each)
