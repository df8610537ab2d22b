"""Rounds of plugging: the plugs of several spots of one season as one mean column."""

import itertools
from datetime import date, timedelta
from statistics import stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.rounds import ROUND_GAP_DAYS, mean_columns, rounds_of
from lawnbook.yard.records import Core
from tests.plan_yards import core

START = date(2025, 5, 1)


def on(days: int) -> date:
    """A day so long after the start."""
    return START + timedelta(days=days)


def at(spot: str, days: int, *thatch_in: float, **values: object) -> Core:
    """A plug of a spot so many days after the start."""
    return core(on(days), *thatch_in, spot=spot, id=f"{spot}{days}", **values)


def test_one_column_for_each_round() -> None:
    spots = {
        "a": [at("a", 0, 1.0, 1.2, root_depth_in=4.0), at("a", 140, 0.8)],
        "b": [at("b", 3, 0.7, root_depth_in=5.0, worms=3)],
    }
    first, second = mean_columns(spots, 3)
    assert first.core_ids == ("a0", "b3")
    assert (first.spots, first.of_spots) == (2, 3)
    assert first.thatch_in == pytest.approx((1.1 + 0.7) / 2)
    assert first.spread_in == pytest.approx(stdev([1.1, 0.7]))
    assert (first.root_depth_in, first.worms, first.sponge) == (4.5, 3.0, None)
    assert (second.core_ids, second.spots, second.spread_in) == (("a140",), 1, None)
    assert START <= first.date <= on(3)


@pytest.mark.parametrize(("gap", "rounds"), [(ROUND_GAP_DAYS, 1), (ROUND_GAP_DAYS + 1, 2)])
def test_a_gap_of_more_than_ten_days_parts_rounds(gap: int, rounds: int) -> None:
    assert len(rounds_of([at("a", 0, 1.0), at("b", gap, 1.0)])) == rounds


def test_plugs_pulled_every_week_are_no_round_without_end() -> None:
    weekly = [at("a", 7 * week, 1.0) for week in range(6)]
    assert [len(each) for each in rounds_of(weekly)] == [1] * 6


def test_replicates_of_a_spot_count_as_one_spot() -> None:
    other = at("b", 0, 0.6, sponge=3)
    twice = {"a": [at("a", 0, 1.0, sponge=1), core(START, 0.8, spot="a", id="x")], "b": [other]}
    only = mean_columns(twice, 2)[0]
    assert only.spots == 2
    assert only.thatch_in == pytest.approx((0.9 + 0.6) / 2)
    assert only.sponge == pytest.approx(2.0)


def test_pressed_thatch_is_left_out_beside_unpressed() -> None:
    mixed = {"a": [at("a", 0, 1.0)], "b": [at("b", 0, 0.2, pressed=True, root_depth_in=3.0)]}
    column = mean_columns(mixed, 2)[0]
    assert (column.thatch_in, column.root_depth_in, column.spots) == (1.0, 3.0, 2)
    alone = mean_columns({"b": mixed["b"]}, 1)[0]
    assert alone.thatch_in == pytest.approx(0.2)


def test_no_plugs_no_columns_and_no_readings_no_thatch() -> None:
    assert mean_columns({}, 0) == ()
    assert mean_columns({"a": [at("a", 0, worms=2)]}, 1)[0].thatch_in is None


@given(st.lists(st.tuples(st.sampled_from("abc"), st.integers(0, 400)), max_size=25, unique=True))
def test_every_plug_is_in_one_round_in_order(plugs: list[tuple[str, int]]) -> None:
    cores = [at(spot, days, 0.5) for spot, days in plugs]
    rounds = rounds_of(cores)
    assert sorted(c.id for each in rounds for c in each) == sorted(c.id for c in cores)
    dates = [c.date for each in rounds for c in each]
    assert dates == sorted(dates)
    for each in rounds:
        days = [(c.spot, c.date) for c in each]
        assert len(dict(days)) == len(set(days)), "a spot comes on one day of a round only"
        gaps = [b.date - a.date for a, b in itertools.pairwise(each)]
        assert all(gap <= timedelta(days=ROUND_GAP_DAYS) for gap in gaps)
