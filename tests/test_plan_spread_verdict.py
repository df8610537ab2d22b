"""The verdict before spreading names what stands in the way, and the most for every zone."""

from dataclasses import replace
from datetime import date
from typing import Any

from lawnbook.plan.model import SpreadCheck
from lawnbook.plan.spread import check_spread
from lawnbook.plan.workings import told_most_together
from lawnbook.yard.records import NRules, Season
from tests.plan_yards import product, yard, zone

AUTUMN, SUMMER = date(2026, 9, 20), date(2026, 7, 15)
TWO = (zone(), zone(id="z2", name="Side"))


def check(pounds: dict[str, float], on: date = AUTUMN, **rules: Any) -> SpreadCheck:
    """The check of a half slow product on two lawns."""
    book = yard(*TWO, products=[product()])
    book = replace(book, n_rules=replace(NRules(id="n_rules"), **rules))
    return check_spread(book, "p1", pounds, on)


def test_an_amount_too_much_tells_the_most_of_every_zone() -> None:
    found = check({"z1": 30.0, "z2": 40.0})
    assert found.verdict.startswith("Not within budget on 20 Sep 2026: ")
    for each in found.zones:
        assert f"lb may go on {each.zone}" in found.verdict
        assert each.over_by_lb_per_1000 > 0
        assert each.why_none == ()


def test_a_product_that_is_too_quick_is_not_told_as_too_much() -> None:
    found = check({"z1": 1.0}, min_slow_pct=80.0)
    assert found.zones[0].over_by_lb_per_1000 == 0
    assert found.zones[0].why_none == ("too little of its nitrogen is slow",)
    assert "because too little of its nitrogen is slow" in found.verdict
    assert "over by" not in found.verdict
    assert found.verdict.startswith("Not within the rules")


def test_a_zero_month_is_named() -> None:
    found = check({"z1": 1.0}, SUMMER)
    assert "because July is a zero month of the table" in found.verdict
    assert "It passes from 1 Sep 2026." in found.verdict


def test_several_reasons_are_told_once_each() -> None:
    found = check(
        {"z1": 1.0, "z2": 1.0},
        SUMMER,
        min_slow_pct=80.0,
        blackouts=(Season(start="07-01", end="08-31"),),
    )
    told = (
        "nothing may go on Front, Side that day, because July is a zero month of the table, too "
        "little of its nitrogen is slow and your rule allows no feeding then"
    )
    assert told in found.verdict


def test_where_one_zone_has_room_and_another_none() -> None:
    book = yard(TWO[0], replace(TWO[1], annual_n_lb_per_1000=0.0), products=[product()])
    found = check_spread(book, "p1", {"z1": 30.0, "z2": 1.0}, AUTUMN)
    assert "lb may go on Front and nothing may go on Side that day" in found.verdict


def test_no_tons_of_a_weak_mix_are_offered() -> None:
    tea = product(n_pct=0.01, slow_n_pct=0.0)
    weak = check_spread(yard(*TWO, products=[tea]), "p1", {"z1": 10.0}, AUTUMN)
    assert weak.within
    assert weak.verdict == "Within budget on 20 Sep 2026."
    assert ": up to" in check({"z1": 1.0}).verdict


def test_of_many_zones_the_most_is_told_together() -> None:
    zones = [zone(id=f"z{n}", name=f"Lawn {n}") for n in range(1, 6)]
    book = yard(*zones, products=[product()])
    found = check_spread(book, "p1", {each.id: 30.0 for each in zones}, AUTUMN)
    together = told_most_together(each.max_lb for each in found.zones)
    assert "all 5 zones are over by up to" in found.verdict
    assert f"; at most {together} lb in all may go on them that day. " in found.verdict
    little = {each.id: 0.1 for each in zones}
    summer = check_spread(book, "p1", little, SUMMER)
    assert "nothing may go on any of the 5 zones that day, because July is" in summer.verdict
    some = check_spread(book, "p1", {**little, "z1": 30.0}, AUTUMN)
    assert "2026: Lawn 1 is over by" in some.verdict
