"""The order of valves: one at a time, every soak kept and filled by the other zones."""

from collections.abc import Sequence
from itertools import pairwise

from hypothesis import example, given
from hypothesis import strategies as st

from lawnbook.plan.rotation import Load, Part, Slot, cut_to, elapsed_minutes, rotation


def load(cycles: int, minutes: int, rest: int) -> Load:
    """A zone of equal cycles."""
    return tuple(Part(cycle, minutes, rest) for cycle in range(1, cycles + 1))


def order(slots: Sequence[Slot]) -> list[tuple[int, int]]:
    """Whose part starts when."""
    return [(slot.load, slot.at_minute) for slot in slots]


def test_soaks_are_filled_by_the_other_zones_in_the_owners_order() -> None:
    """By hand: 10 min each, 15 min of soak; two others leave five minutes more than that."""
    slots = rotation([load(2, 10, 15), load(2, 10, 15), load(2, 10, 15)])
    assert order(slots) == [(0, 0), (1, 10), (2, 20), (0, 30), (1, 40), (2, 50)]
    assert elapsed_minutes(slots) == 60


def test_a_soak_that_nobody_fills_is_waited_for() -> None:
    slots = rotation([load(3, 10, 25), load(2, 5, 5)])
    assert order(slots) == [(0, 0), (1, 10), (0, 35), (1, 45), (0, 70)]
    assert elapsed_minutes(slots) == 80


def test_zones_of_one_cycle_fill_the_soaks_of_another_where_that_is_sooner() -> None:
    """By hand: in rounds it takes 10 + 3 × 30, then 10, a wait of 30, 10, 30, 10: 190 min."""
    slots = rotation([load(4, 10, 30), *[load(1, 30, 0)] * 3])
    assert order(slots) == [(0, 0), (1, 10), (0, 40), (2, 50), (0, 80), (3, 90), (0, 120)]
    assert elapsed_minutes(slots) == 130


def test_for_a_few_minutes_the_owners_order_is_not_left() -> None:
    """By hand: 10, 10, a wait of 12, 10; with the second zone first it is 10, 10, 2, 10."""
    slots = rotation([load(1, 10, 0), load(2, 10, 12)])
    assert order(slots) == [(0, 0), (1, 10), (1, 32)]
    assert elapsed_minutes(slots) == 42


LOADS = st.lists(
    st.builds(load, st.integers(1, 5), st.integers(1, 40), st.integers(0, 90)), max_size=6
)


@given(LOADS)
def test_one_valve_at_a_time_and_every_soak_is_kept(loads: list[Load]) -> None:
    slots = rotation(loads)
    for before, after in pairwise(slots):
        assert after.at_minute >= before.ends
    for index, parts in enumerate(loads):
        own = [slot for slot in slots if slot.load == index]
        assert [slot.part for slot in own] == list(parts)
        for before, after in pairwise(own):
            assert after.at_minute >= before.ends + before.part.rest_minutes
    busy = sum(part.minutes for parts in loads for part in parts)
    assert elapsed_minutes(slots) >= busy
    alone = max((elapsed_minutes(rotation([each])) for each in loads), default=0)
    assert elapsed_minutes(slots) >= alone
    assert elapsed_minutes(slots) <= sum(elapsed_minutes(rotation([each])) for each in loads)


@given(LOADS, st.integers(0, 400))
@example([load(1, 9, 0), load(1, 22, 0), load(2, 10, 0), load(4, 2, 42)], 134)
def test_what_is_cut_fits_and_nothing_grows(loads: list[Load], minutes: int) -> None:
    cut = cut_to(loads, minutes)
    assert elapsed_minutes(rotation(cut)) <= minutes
    if elapsed_minutes(rotation(loads)) <= minutes:
        assert cut == tuple(loads)
    for before, after in zip(loads, cut, strict=True):
        assert sum(part.minutes for part in after) <= sum(part.minutes for part in before)
