"""Dormant lawns: what keeps the crowns alive, by species."""

import pytest

from lawnbook.agronomy.dormancy import BY_SPECIES, survival_watering
from lawnbook.agronomy.sources import SOURCES
from lawnbook.agronomy.turf import SPECIES


def test_bluegrass_every_four_weeks_and_tall_fescue_every_two_or_three() -> None:
    """University of Nebraska, Reicher 2012: every four weeks; every two to three weeks."""
    assert survival_watering("Kentucky bluegrass", "cool").every_days == 28
    assert 14 <= survival_watering("tall fescue", "cool").every_days <= 21


def test_weeks_without_water() -> None:
    """Purdue: 5 to 8 weeks. Texas A&M: 60 days. Louisiana State: at least 3 to 4 weeks."""
    assert 5 <= survival_watering("Kentucky bluegrass", "cool").weeks_borne <= 8
    for name in ("bermudagrass", "zoysiagrass", "buffalograss"):
        assert survival_watering(name, "warm").weeks_borne * 7 <= 60
    for name in ("St. Augustinegrass", "centipedegrass"):
        assert survival_watering(name, "warm").weeks_borne <= 4


def test_half_an_inch_comes_well_before_the_grass_is_lost() -> None:
    for survival in BY_SPECIES.values():
        assert survival.depth_in == 0.5  # (common practice)
        assert survival.every_days < 7 * survival.weeks_borne
        assert survival.source in SOURCES
        assert survival.risk.endswith(".")


def test_every_known_species_is_told_by_its_name_however_it_is_written() -> None:
    for species in SPECIES.values():
        assert species.name.lower() in BY_SPECIES
        told = survival_watering(f" {species.name.upper()} ", species.grass)
        assert told is BY_SPECIES[species.name.lower()]


@pytest.mark.parametrize("grass", ["cool", "warm"])
def test_an_unknown_species_counts_as_one_of_the_weaker(grass: str) -> None:
    weakest = min(each.every_days for each in BY_SPECIES.values())
    assert survival_watering("", grass).every_days == weakest
    with pytest.raises(ValueError, match="cool"):
        survival_watering("", "moss")
