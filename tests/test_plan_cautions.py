"""The cautions before spreading: label and law first, water and children, phosphate, strips."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from lawnbook.plan.cautions import (
    CHILDREN_PETS,
    DIGGING,
    DORMANT,
    LABEL,
    LOCAL_FEEDING,
    WATERSIDE,
    spread_cautions,
)
from lawnbook.plan.make import make_plan
from lawnbook.yard.records import Established, Feature, Product, Zone
from tests.plan_yards import core, feeding, product, rules, spot, yard, zone

JUNE = date(2026, 6, 15)
POND = ((50.0, 0.0), (70.0, 0.0), (70.0, 20.0), (50.0, 20.0))
"""It lies along the plain zone's east side."""

BACK = zone(
    id="z2", name="Back", outline_ft=((0.0, 100.0), (50.0, 100.0), (50.0, 120.0), (0.0, 120.0))
)


def water(**values: Any) -> Feature:
    """The pond, without a strip of its own."""
    return replace(Feature(id="x", kind="water", name="pond", outline_ft=POND), **values)


def test_the_usual_cautions_stand_beside_every_plan_and_every_check() -> None:
    book = yard(products=[product()])
    for cautions in (make_plan(book, JUNE).cautions, spread_cautions(book, product(), JUNE)):
        assert {LABEL, LOCAL_FEEDING, WATERSIDE, CHILDREN_PETS} <= set(cautions)


def test_the_caution_before_digging_is_as_wide_beside_the_plan_as_beside_a_plug() -> None:
    """The form for a plug makes no exception for hand tools, so the plan makes none either."""
    assert DIGGING in make_plan(yard(), JUNE).cautions
    assert DIGGING.startswith("Before you dig, even for a plug, have buried lines located")
    assert "811" in DIGGING


@pytest.mark.parametrize(
    "words",
    [
        "the label is the law",
        "local rules come first",
        "off hard surfaces and out of water",
        "sweep up",
        "children and pets off until the product is watered in and the grass is dry",
        "gloves",
        "heavy rain",
    ],
)
def test_they_say_it_in_full(words: str) -> None:
    assert words in " ".join(spread_cautions(yard(), product(), JUNE)).lower()


def test_a_strip_is_told_with_its_width_and_the_zones_it_reaches() -> None:
    book = yard(zone(), BACK, features=[water(no_spread_ft=10.0)])
    told = "Leave 10 ft beside the pond unfed: the strip reaches into Front."
    assert told in spread_cautions(book, product(), JUNE)
    assert told in spread_cautions(book, product(), JUNE, [book.zones["z1"]])


def test_a_strip_that_reaches_no_zone_fed_is_not_told() -> None:
    book = yard(zone(), BACK, features=[water(no_spread_ft=10.0)])
    assert not any("Leave" in each for each in spread_cautions(book, product(), JUNE, [BACK]))


def test_beside_water_the_owners_rule_counts_where_it_is_wider() -> None:
    book = yard(features=[water(no_spread_ft=3.0)], n_rules=rules(waterside_ft=25.0))
    assert any("Leave 25 ft beside the pond" in s for s in spread_cautions(book, product(), JUNE))


NEW = zone(established=Established(date=date(2026, 6, 1), how="seed"))
BY_TEST = "many places allow it only where a soil test asks for it"
BY_LAW = "on new turf (Front) a starter needs no soil test here, but local law decides"


@pytest.mark.parametrize(
    ("item", "zones", "said"),
    [
        (product(), [zone()], set()),
        (product(p2o5_pct=5.0), [zone()], {BY_TEST}),
        (product(p2o5_pct=5.0), [NEW], {BY_TEST}),
        (product(p2o5_pct=5.0, starter=True), [zone()], {BY_TEST}),
        (product(p2o5_pct=5.0, starter=True), [NEW], {BY_LAW}),
        (product(p2o5_pct=5.0, starter=True), [NEW, BACK], {BY_LAW, BY_TEST}),
    ],
)
def test_phosphate_defers_to_a_soil_test_and_on_new_turf_to_the_law(
    item: Product, zones: list[Zone], said: set[str]
) -> None:
    told = " ".join(spread_cautions(yard(*zones), item, JUNE))
    assert {each for each in (BY_TEST, BY_LAW) if each in told} == said


@pytest.mark.parametrize(
    "began",
    [
        Established(date=date(2026, 6, 1), how="unknown"),
        Established(date=date(2025, 6, 1), how="seed"),
        Established(date=date(2026, 7, 1), how="sod"),
        Established(how="sod"),
    ],
)
def test_turf_that_is_not_new_has_no_law_of_its_own(began: Established) -> None:
    item = product(p2o5_pct=5.0, starter=True)
    told = " ".join(spread_cautions(yard(zone(established=began)), item, JUNE))
    assert "on new turf" not in told


def test_turf_whose_plug_shows_roots_has_no_law_of_its_own() -> None:
    """Two inches of rooted soil end the wait for seed, for the rule and for what is said of it."""
    rooted = core(date(2026, 6, 10), 0.5, root_depth_in=2.6)
    book = yard(NEW, spots=[spot()], cores=[rooted])
    told = " ".join(spread_cautions(book, product(p2o5_pct=5.0, starter=True), JUNE))
    assert BY_LAW not in told
    assert BY_TEST in told


def test_what_is_recorded_later_is_told_as_not_counted() -> None:
    later = [feeding(date(2026, 9, 1), 1.0), feeding(date(2027, 9, 1), 1.0)]
    told = " ".join(spread_cautions(yard(products=[product()], feedings=later), product(), JUNE))
    assert "1 feeding of the same year, recorded after 15 Jun 2026, is not counted here." in told


def test_a_product_without_nitrogen_and_a_dormant_lawn_are_told() -> None:
    book = yard()
    dormant = replace(book, yard=replace(book.yard, drought="survival"))
    told = spread_cautions(dormant, product(name="Gypsum", n_pct=0.0, slow_n_pct=0.0), JUNE)
    assert told[0] == DORMANT
    assert "Gypsum carries no nitrogen; its rate is the label's alone." in told
