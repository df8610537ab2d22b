"""New seed and sod: light and often, and less and less so."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.establishment import (
    BRISK_USE_IN_PER_DAY,
    ROOTED_SOIL_IN,
    STAGES,
    last_day,
    light_depth_in,
    stage_on,
    times_on_a_day,
)
from lawnbook.agronomy.soil import SOILS


def test_a_seedbed_gets_two_light_waterings_a_day_and_three_when_it_dries_fast() -> None:
    """Iowa State University Extension: two a day are usual, three or four on windy, sunny days."""
    stage = stage_on("seed", 0)
    assert stage is not None
    assert times_on_a_day(stage, 0.10) == 2
    assert times_on_a_day(stage, BRISK_USE_IN_PER_DAY) == 2
    assert times_on_a_day(stage, 0.22) == 3


@pytest.mark.parametrize(
    ("how", "day", "every", "times"),
    [
        ("seed", 13, 1, 2),
        ("seed", 14, 1, 1),
        ("seed", 28, 2, 1),
        ("seed", 48, 2, 1),
        ("sod", 0, 1, 1),
        ("sod", 14, 2, 1),
        ("sod", 27, 3, 1),
    ],
)
def test_the_weeks(how: str, day: int, every: int, times: int) -> None:
    """(common practice) Seed 2, 4 and 7 weeks; sod 2, 3 and 4."""
    stage = stage_on(how, day)
    assert stage is not None
    assert (stage.every_days, stage.times_a_day) == (every, times)


@pytest.mark.parametrize(("how", "weeks"), [("seed", 7), ("sod", 4)])
def test_the_light_rule_ends(how: str, weeks: int) -> None:
    assert last_day(how) == 7 * weeks - 1
    assert stage_on(how, last_day(how)) is not None
    assert stage_on(how, last_day(how) + 1) is None


@pytest.mark.parametrize("how", ["seed", "sod"])
def test_waterings_grow_fewer_and_deeper(how: str) -> None:
    for before, after in pairwise(STAGES[how]):
        assert before.until_day < after.until_day
        assert before.every_days <= after.every_days
        assert before.times_a_day >= after.times_a_day
        assert light_depth_in(before, 0.12) <= light_depth_in(after, 0.12)


def test_one_light_watering_stays_within_what_the_soil_above_the_roots_can_hold() -> None:
    """The top inch of loam holds 0.17 in that roots can take (the table of soils)."""
    stage = stage_on("seed", 3)
    assert stage is not None
    for use in (0.02, 0.10, 0.16, 0.30):
        each = light_depth_in(stage, use) / times_on_a_day(stage, use)
        assert stage.least_in <= each <= SOILS["loam"].available_water_in_per_in


@given(st.sampled_from(["seed", "sod"]), st.integers(0, 27), st.floats(0, 0.5))
def test_the_days_since_the_last_watering_are_given_back(how: str, day: int, use: float) -> None:
    stage = stage_on(how, day)
    assert stage is not None
    assert light_depth_in(stage, use) >= stage.every_days * use
    assert light_depth_in(stage, use) > 0


def test_sod_that_holds_asks_for_less_rooted_soil_than_seed() -> None:
    assert 0 < ROOTED_SOIL_IN["sod"] < ROOTED_SOIL_IN["seed"]


def test_what_cannot_be() -> None:
    with pytest.raises(ValueError, match="day must be 0"):
        stage_on("seed", -1)
    with pytest.raises(KeyError):
        stage_on("sprigs", 1)
