"""Salt in the water: classes, tolerance and the share that must drain."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.microclimate import MICROCLIMATES
from lawnbook.agronomy.salinity import (
    SALT_BORNE_DS_PER_M,
    leaching_requirement,
    restriction,
    salt_borne_ds_per_m,
)
from lawnbook.agronomy.turf import SPECIES


@pytest.mark.parametrize(
    ("ecw", "word"),
    [
        (0.0, "none"),
        (0.69, "none"),
        (0.7, "slight to moderate"),
        (3.0, "slight to moderate"),
        (3.01, "severe"),
    ],
)
def test_classes(ecw: float, word: str) -> None:
    """FAO Irrigation and Drainage Paper 29, table 1: < 0.7, 0.7 to 3.0, > 3.0 dS/m."""
    assert restriction(ecw) == word


def test_leaching_requirement_of_the_avocado_growers_example() -> None:
    """University of California, Oster: ECw 0.6 and ECe 0.4 make 0.43; 40 in of use take 70."""
    share = leaching_requirement(0.6, 0.4)
    assert share == pytest.approx(0.43, abs=0.005)
    assert share is not None
    assert 40 / (1 - share) == pytest.approx(70, abs=0.5)


def test_no_leaching_holds_what_the_water_itself_brings() -> None:
    assert leaching_requirement(5.0, 2.0) is None
    assert leaching_requirement(10.0, 2.0) is None
    assert leaching_requirement(0.0, 2.0) == 0.0


@given(st.floats(0.05, 5), st.floats(3, 12))
def test_saltier_water_or_a_weaker_grass_takes_more_leaching(ecw: float, ece: float) -> None:
    share = leaching_requirement(ecw, ece)
    assert share is not None
    saltier, weaker = leaching_requirement(ecw * 1.1, ece), leaching_requirement(ecw, ece * 0.9)
    assert saltier is not None
    assert weaker is not None
    assert share < saltier
    assert share < weaker


def test_what_a_species_bears() -> None:
    """FAO Paper 29, table 4 (from memory); Uddin and Juraimi 2013, table 1, for the others."""
    assert salt_borne_ds_per_m("Tall fescue", "cool") == 3.9
    assert salt_borne_ds_per_m("bermudagrass", "warm") == 6.9
    assert 3 <= salt_borne_ds_per_m("Kentucky bluegrass", "cool") <= 6
    assert salt_borne_ds_per_m("centipedegrass", "warm") < 3
    assert salt_borne_ds_per_m("", "cool") == salt_borne_ds_per_m("moss", "warm") == 3.0
    assert {each.name.lower() for each in SPECIES.values()} <= set(SALT_BORNE_DS_PER_M)


def test_microclimates_stay_within_the_published_ranges() -> None:
    """University of California WUCOLS: 0.5 to 0.9 in shade, 1.0 open, 1.1 to 1.4 (from memory)."""
    assert dict(MICROCLIMATES)["Open ground"] == 1.0
    for words, factor in MICROCLIMATES:
        if "shade" in words.lower():
            assert 0.5 <= factor <= 0.9
        elif words != "Open ground":
            assert 1.1 <= factor <= 1.4
