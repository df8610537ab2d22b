"""What is said of the day of a spread: rain, drought, slow growth, new turf, seed, liquids."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from lawnbook.plan.spread_conditions import Conditions
from lawnbook.plan.spread_notes import spread_notes
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Care, Established, Feature, Product, Season
from tests.plan_yards import product, rules, yard, zone

JUNE = date(2026, 6, 15)


def notes(
    book: Notebook, item: Product | None = None, on: date = JUNE, rain_in: float | None = None
) -> str:
    """All notes on spreading a product on every zone, in one text."""
    zones = tuple(book.zones.values())
    told = spread_notes(book, zones, item or product(), on, Conditions(rain_in=rain_in))
    assert all(each.endswith(".") for each in told)
    return " ".join(told)


def with_yard(book: Notebook, **values: Any) -> Notebook:
    """The notebook with other settings of its yard."""
    return replace(book, yard=replace(book.yard, **values))


def test_a_plain_summer_day_needs_no_words() -> None:
    assert notes(yard()) == ""
    assert notes(yard(), rain_in=0.0) == ""


@pytest.mark.parametrize(
    ("rain_in", "said"),
    [
        (0.1, "0.10 in of rain is too little to water it in: give the other 0.15 in."),
        (0.25, "0.25 in of gentle rain within a day waters it in: leave the sprinklers off."),
        (0.5, "0.50 in of gentle rain within a day waters it in: leave the sprinklers off."),
        (0.6, "do not spread before it, for it may wash the product off"),
        (3.0, "do not spread before it, for it may wash the product off"),
    ],
)
def test_rain_waters_in_or_washes_off(rain_in: float, said: str) -> None:
    """Up to half an inch waters in (common practice)."""
    assert said in notes(yard(), rain_in=rain_in)


def test_water_beside_a_zone_is_told_until_somebody_says_how_wide_a_strip_is() -> None:
    told = "Front: water lies within 10 ft, and no strip is left out beside it."
    for gap_ft, width_ft, said in ((0.0, None, True), (12.0, None, False), (0.0, 0.0, False)):
        pond = Feature(
            id="pond",
            kind="water",
            outline_ft=rectangle_ft((0.0, 20.0 + gap_ft), 50.0, 30.0),
            no_spread_ft=width_ft,
        )
        assert (told in notes(yard(features=[pond]))) is said
        assert told not in notes(yard(features=[pond], n_rules=rules(waterside_ft=15.0)))


def test_a_liquid_is_sprayed_after_rain_and_its_label_says_how_it_is_watered_in() -> None:
    liquid = product(form="liquid", density_lb_per_gal=10.0)
    told = notes(yard(), liquid, rain_in=0.3)
    assert "is sprayed after it" in told
    assert "watered in at once, its label says" in told
    assert "without a density" not in told


def test_a_liquid_without_density_is_explained() -> None:
    told = notes(yard(), product(form="liquid"))
    assert "enter the weight of a gallon from its label (water is 8.345 lb)" in told


def test_a_dry_year_is_told_with_its_reason() -> None:
    assert "uses less nitrogen" in notes(with_yard(yard(), drought="less"))
    book = with_yard(yard(season=Season(start="04-20", end="10-15")), drought="survival")
    assert "let go dormant" in notes(book)
    assert "let go dormant" not in notes(book, on=date(2026, 11, 1)), "only in the season"


def test_what_carries_no_nitrogen_is_not_held_to_growth() -> None:
    gypsum = product(n_pct=0.0, slow_n_pct=0.0)
    assert notes(with_yard(yard(climate=[]), drought="less"), gypsum) == ""


def test_slow_growth_is_told_by_grass() -> None:
    """exp(−½ ((50 − 68) ÷ 10)²) is 20 %: Gelernter and Stowell, widths from memory."""
    book = yard(zone(), zone(id="z2", name="Back", grass="warm"))
    told = notes(book, on=date(2026, 4, 20))
    assert "Front: cool-season grass grows at 20\u00a0% of its best in April (mean 50 °F)" in told
    assert "Back" not in told, "where it hardly grows the rules stop the day"
    assert "of its best" not in notes(book, on=date(2026, 7, 20))


def test_an_unknown_temperature_is_told() -> None:
    assert "No temperature is known for June" in notes(yard(climate=[]))


def test_new_turf_is_told_until_it_has_rooted() -> None:
    sown = zone(established=Established(date=date(2026, 6, 1), how="seed"))
    told = notes(yard(sown))
    assert "Front: seed of 1 Jun 2026 is still rooting, until about 19 Jul 2026" in told
    assert "rooting" not in notes(yard(sown), on=date(2026, 7, 20))
    assert "rooting" not in notes(yard(zone(established=Established(how="unknown"))))


@pytest.mark.parametrize(
    ("care", "starter", "told"),
    [
        ({}, True, True),
        ({}, False, False),
        ({"zones": ("z1",)}, True, True),
        ({"zones": ("z2",)}, True, False),
        ({"no_seed_until": JUNE}, True, False),
        ({"date": date(2026, 6, 16)}, True, False),
    ],
)
def test_a_starter_waits_for_the_end_of_a_pre_emergent(
    care: dict[str, Any], starter: bool, told: bool
) -> None:
    kept = replace(
        Care(id="k1", date=date(2026, 4, 1), kind="pre-emergent", no_seed_until=date(2026, 8, 1)),
        **care,
    )
    said = notes(yard(care=[kept]), product(starter=starter))
    assert ("Front: no seed before 1 Aug 2026" in said) == told


@pytest.mark.parametrize("rain_in", [-0.1, float("nan"), float("inf"), 41.0])
def test_rain_that_cannot_be_is_refused_in_words(rain_in: float) -> None:
    with pytest.raises(OwnerError, match=r"^Rain: .* enter the inches of the next days, 0 to 40\."):
        Conditions(rain_in=rain_in)
