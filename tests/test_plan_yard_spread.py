"""The spread of a yard's plugs up to any day is that of those plugs alone."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.plug_error import plug_spread
from lawnbook.plan.plug_series import compared_plugs, resolution_in
from lawnbook.plan.yard_spread import YardSpread
from lawnbook.yard.records import Core
from tests.plan_yards import spot

FIRST = date(2020, 5, 1)
READINGS = st.lists(st.sampled_from([0.25, 0.5, 0.625, 0.875]), max_size=3).map(tuple)
CORES = st.lists(
    st.tuples(
        st.integers(0, 5), st.sampled_from("ab"), READINGS, st.booleans(),
        st.sampled_from([None, 1 / 16, 1 / 25.4]),
    ),
    max_size=14,
)  # fmt: skip


def cores_of(
    drawn: list[tuple[int, str, tuple[float, ...], bool, float | None]],
) -> list[Core]:
    """Plugs of two spots on six days."""
    return [
        Core(
            id=f"c{n}", rank=n, spot=spot_id, date=FIRST + timedelta(days=day), thatch_in=thatch,
            pressed=pressed, resolution_in=mark,
        )
        for n, (day, spot_id, thatch, pressed, mark) in enumerate(drawn)
    ]  # fmt: skip


@given(CORES, st.booleans(), st.integers(-1, 7))
def test_the_spread_up_to_a_day_is_that_of_its_plugs(
    drawn: list[tuple[int, str, tuple[float, ...], bool, float | None]], pressed: bool, day: int
) -> None:
    on, cores = FIRST + timedelta(days=day), cores_of(drawn)
    found = YardSpread(cores, pressed=pressed).until(on)
    read = [c for c in cores if c.date <= on and c.pressed == pressed and c.thatch_in]
    by_spot_and_day: dict[tuple[str, date], list[tuple[float, ...]]] = {}
    for core in read:
        by_spot_and_day.setdefault((core.spot, core.date), []).append(core.thatch_in)
    alone = plug_spread(list(by_spot_and_day.values()), resolution_in(read)[0])
    assert (alone is None) == (found is None)
    if alone is None or found is None:
        return
    spread, within = found
    assert spread.readings_in == pytest.approx(alone.readings_in, rel=1e-12)
    assert (spread.plugs_in is None) == (alone.plugs_in is None)
    assert (spread.plugs_in or 0.0) == pytest.approx(alone.plugs_in or 0.0, abs=1e-7)
    assert spread.ruler_in == pytest.approx(alone.ruler_in, rel=1e-12)
    assert (spread.readings, spread.replicates) == (alone.readings, alone.replicates)
    assert within == sum(len(core.thatch_in) - 1 for core in read)


def test_plugs_of_several_spots_on_a_day_are_no_replicates() -> None:
    cores = cores_of([(0, "a", (0.5,), False, None), (0, "b", (0.9,), False, None)])
    found = YardSpread(cores, pressed=False).until(FIRST)
    assert found is not None
    assert found[0].plugs_in is None
    assert compared_plugs([(spot(id="a"), cores[:1]), (spot(id="b"), cores[1:])]).spot_days == 2
