"""The rules of a feeding one by one: growth, dormancy, drought, new turf, phosphate, blackouts."""

import math
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from lawnbook.agronomy.turf import growth_potential
from lawnbook.plan.feed_ledger import feeds_of
from lawnbook.plan.feed_rule import NITROGEN, FeedRule, spreadable_of
from lawnbook.plan.feed_rules import candidate_days, room_lb, rules_on
from lawnbook.plan.model import BindingRule, ZoneSpread
from lawnbook.plan.spread import check_spread
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import (
    Established,
    Ingredient,
    NBudget,
    Product,
    Season,
    SoilTest,
    Zone,
)
from tests.plan_yards import climate, core, feeding, product, rules, spot, yard, zone

APRIL = date(2026, 4, 20)
AUTUMN = date(2026, 9, 20)
EVERY_MONTH = NBudget(id="b", name="Every month", by_month=(1.0,) * 12, year_lb=12.0)


def fed_lawn(**values: Any) -> Zone:
    """A zone whose own table feeds every month."""
    return zone(budget="b", **values)


def even(tmean_f: float) -> list[Any]:
    """A climate of one mean temperature."""
    return climate(tmean_f=(tmean_f,) * 12)


def lawn(item: Product | None = None, **tables: Any) -> Notebook:
    """A yard of that zone with one product, 70 °F all the year unless said otherwise."""
    given = {"climate": even(70.0), "n_budgets": [EVERY_MONTH], **tables}
    zones = given.pop("zones", (fed_lawn(),))
    return yard(*zones, products=[item or product(slow_n_pct=24.0)], **given)


def only(book: Notebook, on: date = AUTUMN, pounds: float = 1.0) -> ZoneSpread:
    """The check of one zone."""
    return check_spread(book, "p1", {"z1": pounds}, on).zones[0]


def binding(book: Notebook, on: date = AUTUMN, pounds: float = 1.0) -> dict[str, BindingRule]:
    """The rules that the check breaks, by name."""
    return {rule.rule: rule for rule in only(book, on, pounds).binding if rule.broken}


@pytest.mark.parametrize(
    ("grass", "tmean_f", "names"),
    [
        ("cool", 70.0, set()),
        # 68 - 10 sqrt(2 ln 10) = 46.54 °F, where exp(-((T - 68) / 10)^2 / 2) is a tenth.
        ("cool", 46.6, set()),
        ("cool", 46.5, {"growth potential"}),
        ("cool", 40.0, {"growth potential"}),
        ("cool", 39.9, {"growth potential", "dormant"}),
        ("cool", 89.4, set()),
        ("cool", 89.5, {"growth potential"}),
        # 88 - 12 sqrt(2 ln 10) = 62.25 °F.
        ("warm", 62.3, set()),
        ("warm", 62.2, {"growth potential"}),
        ("warm", 50.0, {"growth potential"}),
        ("warm", 49.9, {"growth potential", "dormant"}),
        ("warm", 105.0, set()),
    ],
)
def test_grass_that_hardly_grows_is_not_fed(grass: str, tmean_f: float, names: set[str]) -> None:
    """A tenth of the best growth (common practice), by the curve of Gelernter and Stowell."""
    book = lawn(zones=(fed_lawn(grass=grass),), climate=even(tmean_f))
    found = binding(book)
    assert set(found) == names
    if "growth potential" in names:
        rule = found["growth potential"]
        potential = 100 * growth_potential(tmean_f, grass)
        assert rule.value == pytest.approx(potential)
        assert rule.limit == 10
        assert f"is {math.floor(potential)}\u00a0%, below 10\u00a0%" in rule.sentence
        assert "Gelernter" in rule.source
        assert "common practice" in rule.source
    assert only(book).max_lb == pytest.approx(0 if names else 1.0 / 0.24)


def test_dormant_grass_is_told_with_its_limit() -> None:
    rule = binding(lawn(climate=even(36.0)))["dormant"]
    assert rule.sentence == (
        "Dormant: September has a mean of 36 °F, and cool-season grass grows from 40 °F on."
    )
    assert (rule.value, rule.limit) == (36.0, 40.0)
    assert "common practice" in rule.source


def test_a_figure_just_below_its_limit_is_not_told_as_the_limit() -> None:
    cold = binding(lawn(climate=even(39.6)))["dormant"]
    assert "has a mean of 39 °F" in cold.sentence
    quick = lawn(product(slow_n_pct=0.198 * 24.0), n_rules=rules(min_slow_pct=20.0))
    assert "this product has 19" in binding(quick)["least slow share"].sentence


def test_what_is_not_known_of_warmth_stops_nothing() -> None:
    assert only(lawn(climate=[])).within


def test_growth_returns_with_the_month() -> None:
    """March has 42 °F and 3 % of the best growth, April 50 °F and 20 %."""
    check = check_spread(lawn(climate=climate()), "p1", {"z1": 1.0}, date(2026, 1, 10))
    assert check.earliest_date == date(2026, 4, 1)


def test_a_zero_month_binds_however_well_the_grass_grows() -> None:
    summer = date(2026, 7, 4)
    rule = binding(yard(products=[product()], climate=even(68.0)), summer)["zero month"]
    assert rule.limit == 0
    assert "July is a zero month of the table, however well the grass grows" in rule.sentence
    assert "Virginia" in rule.source
    own = NBudget(id="b", name="Mine", by_month=(0.0,) * 8 + (1.0,) * 4)
    book = lawn(n_budgets=[own])
    assert set(binding(book, summer)) == {"zero month"}


def test_grass_let_go_dormant_is_not_fed_in_its_season() -> None:
    book = lawn(season=Season(start="04-20", end="10-15"))
    dry = replace(book, yard=replace(book.yard, drought="survival"))
    assert set(binding(dry)) == {"let go dormant"}
    assert not binding(dry, date(2026, 10, 16))
    check = check_spread(dry, "p1", {"z1": 1.0}, AUTUMN)
    assert check.earliest_date == date(2026, 10, 16)
    less = replace(book, yard=replace(book.yard, drought="less"))
    assert not binding(less)


SEEDED = Established(date=date(2026, 9, 1), how="seed")
SODDED = Established(date=date(2026, 9, 1), how="sod")


@pytest.mark.parametrize(
    ("began", "last"), [(SEEDED, date(2026, 10, 19)), (SODDED, date(2026, 9, 28))]
)
def test_new_turf_gets_only_a_starter_until_it_has_rooted(began: Established, last: date) -> None:
    """Seven weeks from seed and four from sod, the weeks of the light watering rule."""
    book = lawn(zones=(fed_lawn(established=began),))
    rule = binding(book)["new turf"]
    assert f"New {began.how} of 1 Sep 2026 gets only a starter until" in rule.sentence
    assert "Half slow is not marked as one" in rule.sentence
    assert "common practice" in rule.source
    assert binding(book, last)
    assert not binding(book, last + timedelta(days=1))
    check = check_spread(book, "p1", {"z1": 1.0}, AUTUMN)
    assert check.earliest_date == last + timedelta(days=1)


def test_a_starter_may_bring_new_turf_half_a_pound_at_once() -> None:
    starter = product(slow_n_pct=24.0, starter=True)
    book = lawn(starter, zones=(fed_lawn(established=SEEDED),))
    assert only(book).max_lb == pytest.approx(0.5 / 0.24)
    rule = binding(book, pounds=3.0)["most at once on new turf"]
    assert (rule.limit, rule.value) == pytest.approx((0.5, 0.72))
    assert "at once until 19 Oct 2026" in rule.sentence
    again = replace(book, feedings={"f": feeding(AUTUMN, 1.0)})
    assert only(again).max_lb == pytest.approx(0.5 / 0.24 - 1.0)
    assert only(book, date(2026, 10, 20)).max_lb == pytest.approx(1.0 / 0.24)


def test_turf_whose_plug_shows_roots_is_new_no_more() -> None:
    """Two inches of rooted soil end the wait for seed."""
    rooted = core(date(2026, 9, 15), 0.5, root_depth_in=2.6)
    book = lawn(zones=(fed_lawn(established=SEEDED),), spots=[spot()], cores=[rooted])
    assert not binding(book)
    short = replace(book, cores={"c": core(date(2026, 9, 15), 0.5, root_depth_in=1.0)})
    assert set(binding(short)) == {"new turf"}


def test_turf_sown_later_is_new_from_its_day_on() -> None:
    feeds = lawn(zones=(fed_lawn(established=SEEDED),))
    days = candidate_days(feed_of(feeds, date(2026, 8, 1)), date(2026, 8, 1))
    assert {date(2026, 9, 1), date(2026, 10, 20)} <= set(days)
    assert not binding(feeds, date(2026, 8, 31))


def feed_of(book: Notebook, on: date) -> Any:
    """The feed of the plain zone on a day."""
    return feeds_of(book, {"z1": zone_area_sqft(book.zones["z1"])}, on)["z1"]


def soil(on: date, p_ppm: float | None, key: str = "t") -> SoilTest:
    """A soil test of the plain zone."""
    return SoilTest(id=key, date=on, zone="z1", p_ppm=p_ppm)


PHOSPHATE = product(slow_n_pct=24.0, p2o5_pct=20.0)


@pytest.mark.parametrize(
    ("tests", "values", "words"),
    [
        ([], {}, "none with phosphorus is entered"),
        ([soil(date(2026, 3, 1), None)], {}, "none with phosphorus is entered"),
        ([soil(date(2026, 3, 1), 10.0)], {}, ""),
        ([soil(date(2026, 3, 1), 45.0)], {}, "not below"),
        ([soil(date(2026, 3, 1), 45.0)], {"p_enough_ppm": 50.0}, ""),
        ([soil(date(2026, 3, 1), 30.0)], {"p_enough_ppm": 25.0}, "that you entered as enough"),
        ([soil(date(2023, 9, 20), 10.0)], {}, ""),
        ([soil(date(2023, 9, 19), 10.0)], {}, "a new soil test"),
        ([soil(AUTUMN + timedelta(days=1), 10.0)], {}, "none with phosphorus is entered"),
        ([soil(date(2025, 3, 1), 90.0), soil(date(2026, 3, 1), 10.0, "u")], {}, ""),
        ([], {"phosphorus_needs_test": False}, ""),
    ],
)
def test_phosphate_waits_for_a_soil_test_that_asks_for_it(
    tests: list[SoilTest], values: dict[str, Any], words: str
) -> None:
    book = lawn(PHOSPHATE, soil_tests=tests, n_rules=rules(**values))
    found = binding(book)
    assert set(found) == ({"phosphate"} if words else set())
    if words:
        assert words in found["phosphate"].sentence
        assert found["phosphate"].sentence.startswith("Half slow holds 20.0\u00a0% phosphate. ")
        assert found["phosphate"].source
        assert only(book).max_lb == 0
    assert only(book).p2o5_lb_per_1000 == pytest.approx(0.2)


def test_phosphate_without_nitrogen_is_stopped_too() -> None:
    bare = product(n_pct=0.0, slow_n_pct=0.0, p2o5_pct=46.0)
    check = check_spread(lawn(bare), "p1", {"z1": 1.0}, AUTUMN)
    assert not check.within
    assert check.zones[0].max_lb == 0
    assert check.zones[0].over_by_lb_per_1000 == 0
    assert check.verdict == (
        "Not within the rules on 20 Sep 2026: nothing may go on Front that day, because the rule "
        "on phosphate lets none go down. No day within two years passes."
    )
    assert only(lawn(bare), pounds=0.0).within


def test_a_starters_phosphate_needs_no_test_on_new_turf() -> None:
    starter = replace(PHOSPHATE, starter=True)
    book = lawn(starter, zones=(fed_lawn(established=SEEDED),))
    assert not binding(book)
    assert set(binding(book, date(2026, 10, 20))) == {"phosphate"}
    check = check_spread(book, "p1", {"z1": 3.0}, date(2026, 10, 1))
    assert check.earliest_date is None
    plain = lawn(PHOSPHATE, zones=(fed_lawn(established=SEEDED),))
    assert set(binding(plain)) == {"new turf", "phosphate"}


def test_a_test_that_grows_too_old_before_the_day_is_told() -> None:
    book = lawn(PHOSPHATE, soil_tests=[soil(date(2023, 10, 1), 10.0)])
    feed = feed_of(book, AUTUMN)
    what = spreadable_of(book.products["p1"])
    late = [rule.tells for rule in rules_on(feed, date(2026, 10, 2), what) if rule.stops]
    assert not [rule for rule in rules_on(feed, date(2026, 10, 1), what) if rule.stops]
    (told,) = late
    assert told == (
        "Half slow holds 20.0\u00a0% phosphate. Phosphate waits for a new soil test: that of 1 Oct "
        "2023 held until 1 Oct 2026."
    )


def test_a_reason_cites_the_source_it_rests_on() -> None:
    """An age by the extension's, a figure by the laboratory's scale, also on new turf."""
    sown = (fed_lawn(established=SEEDED),)
    enough = [soil(date(2026, 5, 1), 60.0)]
    for zones in ((fed_lawn(),), sown):
        untested = binding(lawn(PHOSPHATE, zones=zones))["phosphate"]
        rich = binding(lawn(PHOSPHATE, zones=zones, soil_tests=enough))["phosphate"]
        assert "none with phosphorus is entered" in untested.sentence
        assert "Virginia Cooperative Extension" in untested.source
        assert "found 60 ppm phosphorus, not below" in rich.sentence
        assert "Pennsylvania State University" in rich.source


def test_a_mix_holds_what_its_recipe_says() -> None:
    """A pound of 24 % N in nine of water and molasses: 2.4 %, whatever is typed above it."""
    parts = (
        Ingredient(name="urea form", pounds=1.0, n_pct=24.0, slow_n_pct=12.0, p2o5_pct=5.0),
        Ingredient(name="water", pounds=9.0),
    )
    book = lawn(product(ingredients=parts), n_rules=rules(phosphorus_needs_test=False))
    spread = only(book, pounds=10.0)
    assert spread.n_lb_per_1000 == pytest.approx(0.24)
    assert spread.quick_lb_per_1000 == pytest.approx(0.12)
    assert spread.p2o5_lb_per_1000 == pytest.approx(0.05)
    assert spread.max_lb == pytest.approx(1.0 / 0.024)
    assert "phosphate" in binding(replace(book, n_rules=rules()[0]))


def test_a_blackout_forbids_whatever_is_spread() -> None:
    span = rules(blackouts=(Season(start="11-15", end="03-01"),))
    potash = product(n_pct=0.0, slow_n_pct=0.0, k2o_pct=50.0)
    winter = date(2026, 12, 24)
    check = check_spread(lawn(potash, n_rules=span), "p1", {"z1": 5.0}, winter)
    assert [rule.rule for rule in check.zones[0].binding] == ["blackout"]
    assert check.earliest_date == date(2027, 3, 2)
    assert set(binding(lawn(n_rules=span), winter)) == {"blackout"}


def test_every_rule_tells_its_figure_and_its_source() -> None:
    wet = rules(
        year_lb=1.0, min_slow_pct=90.0, min_days=60, blackouts=(Season(start="09-01", end="12-31"),)
    )
    book = lawn(
        product(p2o5_pct=10.0),
        zones=(fed_lawn(established=SEEDED),),
        n_rules=wet,
        climate=even(30.0),
        feedings=[feeding(date(2026, 8, 20), 4.0)],
    )
    found = binding(book, pounds=8.0)
    assert set(found) == {
        "month budget",
        "year limit",
        "most at once",
        "most quick nitrogen at once",
        "dormant",
        "growth potential",
        "new turf",
        "least slow share",
        "days between feedings",
        "phosphate",
        "blackout",
    }
    for rule in found.values():
        assert rule.source
        assert rule.sentence.endswith(".")
        assert math.isfinite(rule.value)


def test_the_owners_rule_and_table_are_cited_by_their_names() -> None:
    span = Season(start="09-01", end="12-31")
    owned = rules(name="Ash County", max_total_lb=0.5, min_slow_pct=90.0, blackouts=(span,))
    found = binding(lawn(product(slow_n_pct=12.0), n_rules=owned), pounds=9.0)
    entered = "as entered in this notebook"
    assert {name: rule.source for name, rule in found.items()} == {
        "month budget": f"Every month, {entered}",
        "most at once": f"Ash County, {entered}",
        "most quick nitrogen at once": found["most quick nitrogen at once"].source,
        "least slow share": f"Ash County, {entered}",
        "blackout": f"Ash County, {entered}",
    }
    assert "Cornell" in found["most quick nitrogen at once"].source


def test_nitrogen_itself_stands_in_where_the_shelf_is_bare() -> None:
    assert spreadable_of(None) is NITROGEN
    assert NITROGEN.amount(1.0, 1000.0) == NITROGEN.pounds(1.0, 1000.0) == 1.0
    assert room_lb(rules_on(feed_of(lawn(), AUTUMN), AUTUMN, NITROGEN)) == pytest.approx(1.0)


def test_a_rule_without_a_slope_leaves_all_room() -> None:
    rule = FeedRule(
        rule="quick", limit=0.5, used=0.1, per_lb=0.0, source="", tells="It may", short="full"
    )
    assert math.isinf(rule.room())
    assert rule.told(9.0).sentence == "It may: 0.10 with this."
    assert room_lb(()) == math.inf
