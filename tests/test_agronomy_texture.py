"""Texture classes: by the jar, against the published definitions; by the ribbon, by its chart."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.jar_test import (
    SOIL_OF_TEXTURE,
    TEXTURES,
    Shares,
    Texture,
    jar_shares,
    texture_of,
    textures_near,
    whole_percents,
)
from lawnbook.agronomy.ribbon_test import Feel, ribbon_texture
from lawnbook.agronomy.soil import SOILS
from lawnbook.agronomy.usual_rates import USUAL_RATES, SprinklerKind


def published(sand: float, silt: float, clay: float) -> list[str]:
    """Every class whose definition a soil meets, each written out on its own.

    USDA Soil Survey Manual (2017), chapter 3, and in part the Soil Science Society of America's
    glossary, which gives the same limits. Nothing here is taken from the program.
    """
    light = silt + 2 * clay
    is_of = {
        "sand": silt + 1.5 * clay < 15,
        "loamy sand": silt + 1.5 * clay >= 15 and light < 30,
        "sandy loam": (7 <= clay < 20 and sand > 52 and light >= 30)
        or (clay < 7 and silt < 50 and light >= 30),
        "loam": 7 <= clay < 27 and 28 <= silt < 50 and sand <= 52,
        "silt loam": (silt >= 50 and 12 <= clay < 27) or (50 <= silt < 80 and clay < 12),
        "silt": silt >= 80 and clay < 12,
        "sandy clay loam": 20 <= clay < 35 and silt < 28 and sand > 45,
        "clay loam": 27 <= clay < 40 and 20 < sand <= 45,
        "silty clay loam": 27 <= clay < 40 and sand <= 20,
        "sandy clay": clay >= 35 and sand > 45,
        "silty clay": clay >= 40 and silt >= 40,
        "clay": clay >= 40 and sand <= 45 and silt < 40,
    }
    return [name for name, holds in is_of.items() if holds]


def test_every_whole_percent_has_the_one_class_of_its_definition() -> None:
    seen = set()
    for sand in range(101):
        for clay in range(101 - sand):
            silt = 100 - sand - clay
            found = texture_of(Shares(sand, silt, clay))
            assert [found] == published(sand, silt, clay), (sand, silt, clay)
            seen.add(found)
    assert seen == set(TEXTURES)


@given(st.floats(0, 1), st.floats(0, 1))
def test_any_shares_have_the_one_class_of_their_definition(first: float, second: float) -> None:
    low, high = sorted((round(first, 4), round(second, 4)))
    sand, silt, clay = 100 * low, 100 * (high - low), 100 * (1 - high)
    found = published(sand, silt, clay)
    # The lines meet within a rounding of each other: a soil there may be given to either.
    assert texture_of(Shares(sand, silt, clay)) in found or len(found) != 1


# Middles of the twelve fields of the triangle, as the manual's figure shows them.
@pytest.mark.parametrize(
    ("sand", "silt", "clay", "texture"),
    [
        (92, 5, 3, "sand"),
        (82, 12, 6, "loamy sand"),
        (65, 25, 10, "sandy loam"),
        (41, 41, 18, "loam"),
        (20, 65, 15, "silt loam"),
        (7, 87, 6, "silt"),
        (60, 13, 27, "sandy clay loam"),
        (33, 33, 34, "clay loam"),
        (10, 56, 34, "silty clay loam"),
        (52, 6, 42, "sandy clay"),
        (6, 47, 47, "silty clay"),
        (20, 20, 60, "clay"),
        (40, 35, 25, "loam"),
    ],
)
def test_twelve_soils_and_the_worked_loam(
    sand: float, silt: float, clay: float, texture: Texture
) -> None:
    assert texture_of(Shares(sand, silt, clay)) == texture


def test_a_jar_is_read_by_its_depths_in_any_unit() -> None:
    inches, millimetres = jar_shares(2, 1.5, 0.5), jar_shares(50.8, 38.1, 12.7)
    assert (inches.sand_pct, inches.silt_pct, inches.clay_pct) == (50.0, 37.5, 12.5)
    assert millimetres.clay_pct == pytest.approx(inches.clay_pct)
    assert texture_of(inches) == "loam"


@pytest.mark.parametrize("layers", [(0, 0, 0), (-1, 2, 1), (1, float("nan"), 1)])
def test_a_jar_without_layers_or_with_one_below_zero_is_refused(
    layers: tuple[float, float, float],
) -> None:
    with pytest.raises(ValueError, match=r"layer|_in"):
        jar_shares(*layers)


def test_shares_that_are_not_a_whole_are_refused() -> None:
    with pytest.raises(ValueError, match="100"):
        texture_of(Shares(50, 50, 50))


def test_a_jar_near_a_line_names_the_neighbours_and_one_far_off_none() -> None:
    assert textures_near(jar_shares(35, 40, 25)) == ("clay loam",)
    assert textures_near(jar_shares(20, 15, 65)) == ()
    assert textures_near(jar_shares(35, 40, 25), 0.0) == ()


# Thien 1979, the chart's branches one by one.
@pytest.mark.parametrize(
    ("ribbon_in", "feel", "texture"),
    [
        (0.0, "gritty", "loamy sand"),
        (0.5, "gritty", "sandy loam"),
        (0.9, "smooth", "silt loam"),
        (0.75, "neither", "loam"),
        (1.0, "gritty", "sandy clay loam"),
        (1.5, "smooth", "silty clay loam"),
        (1.9, "neither", "clay loam"),
        (2.0, "gritty", "sandy clay"),
        (3.0, "smooth", "silty clay"),
        (2.5, "neither", "clay"),
    ],
)
def test_the_ribbon_follows_the_flow_chart(ribbon_in: float, feel: Feel, texture: Texture) -> None:
    assert ribbon_texture(ribbon_in, feel) == texture


def test_soil_that_holds_no_ball_is_sand_however_it_feels() -> None:
    assert ribbon_texture(0.0, "smooth", holds_as_ball=False) == "sand"


@pytest.mark.parametrize("ribbon_in", [-0.5, float("nan")])
def test_a_ribbon_below_zero_is_refused(ribbon_in: float) -> None:
    with pytest.raises(ValueError, match="ribbon_in"):
        ribbon_texture(ribbon_in, "gritty")


def test_every_class_is_taken_over_as_a_soil_that_the_program_knows() -> None:
    assert set(SOIL_OF_TEXTURE) == set(TEXTURES)
    assert set(SOIL_OF_TEXTURE.values()) == set(SOILS)
    assert all(SOIL_OF_TEXTURE[each] == each for each in TEXTURES if each in SOILS)


@pytest.mark.parametrize(
    ("kind", "low", "high"),
    # University of Florida IFAS for rotors; the others from memory, as their sources say.
    [("rotors", 0.2, 0.8), ("fixed sprays", 1.3, 2.0), ("rotating streams", 0.4, 0.6)],
)
def test_a_usual_rate_is_as_far_from_both_ends(
    kind: SprinklerKind, low: float, high: float
) -> None:
    usual = USUAL_RATES[kind]
    assert (usual.low_in_per_h, usual.high_in_per_h) == (low, high)
    middle = usual.middle_in_per_h
    assert middle / low == pytest.approx(high / middle, rel=0.02)
    whole = USUAL_RATES["any sprinklers"]
    assert whole.low_in_per_h <= low < high <= whole.high_in_per_h


@given(st.tuples(*[st.floats(0.01, 20)] * 3))
def test_whole_percents_sum_to_a_hundred_and_are_less_than_one_off(
    layers: tuple[float, float, float],
) -> None:
    shares = jar_shares(*layers)
    whole = whole_percents(shares)
    exact = (shares.sand_pct, shares.silt_pct, shares.clay_pct)
    assert sum(whole) == 100
    assert all(abs(a - b) < 1 for a, b in zip(whole, exact, strict=True))


def test_three_equal_layers_are_a_hundred_together() -> None:
    assert whole_percents(jar_shares(1, 1, 1)) == (34, 33, 33)
