"""The ledger's last days stand where those of the whole ledger do, to the last bit."""

from dataclasses import replace
from datetime import timedelta
from typing import Literal

import numpy as np
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lawnbook.agronomy.checks import Array
from lawnbook.agronomy.root_zone import Days, filled_on, root_zone_levels
from lawnbook.plan.ledger import ledger_of, reckoned_days, stress_from_share
from lawnbook.plan.root_days import LONGEST_LOOK_BACK_DAYS, PastRecord, past_days, recent_days
from lawnbook.plan.roots import readings_of, rooted_and_thatch_on
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Core
from tests.plan_yards import JUNE, core, first_zone, spot, watering, weather_day, yard, zone

Drought = Literal["off", "less", "survival"]


@st.composite
def some_days(draw: st.DrawFn) -> Days:
    """Days with heavy rain and waterings among them, and roots that come and go."""
    count = draw(st.integers(2, 40))

    def column(most: float) -> Array:
        depth = st.one_of(st.just(0.0), st.floats(0.0, most))
        return np.array(draw(st.lists(depth, min_size=count, max_size=count)))

    return Days(
        eto_in=column(0.4),
        etc_in=column(0.4),
        rain_in=column(2.5),
        irrigation_in=column(1.0),
        runoff_in=column(0.3),
        capacity_in=column(1.5),
        thatch_capacity_in=column(0.2),
    )


@settings(deadline=None, max_examples=200, suppress_health_check=list(HealthCheck))
@given(some_days(), st.floats(0.0, 1.0), st.floats(0.0, 3.0), st.floats(0.0, 1.0))
def test_levels_are_the_same_from_a_day_that_fills_the_roots_on(
    days: Days, p: float, depletion_in: float, store_in: float
) -> None:
    place = filled_on(days)
    if place is None:
        return
    assert place < days.eto_in.size - 1
    whole = root_zone_levels(days, p, depletion_in, store_in)
    last = root_zone_levels(days.since(place), p)
    assert whole.depletion_in[place] == 0.0
    assert whole.depletion_in[place:].tolist() == last.depletion_in.tolist()
    assert whole.thatch_store_in[place:].tolist() == last.thatch_store_in.tolist()


def long_yard(depth_in: float, every_days: int, drought: Drought, plugs: list[Core]) -> Notebook:
    """A yard with three years of weather, watered every so many days."""
    days = [JUNE - timedelta(days=each) for each in range(1100)]
    book = yard(
        weather=[
            weather_day(each, reported_eto_in=0.1 + 0.01 * (n % 9), rain_in=0.3 * (n % 11 == 0))
            for n, each in enumerate(days)
        ],
        waterings=[watering(each, depth_in=depth_in) for each in days[::every_days]],
        spots=[spot()],
        cores=plugs,
    )
    return replace(book, yard=replace(book.yard, drought=drought))


@settings(deadline=None, max_examples=12, suppress_health_check=list(HealthCheck))
@given(
    st.floats(0.05, 2.0),
    st.integers(1, 9),
    st.sampled_from(["off", "less", "survival"]),
    st.lists(st.tuples(st.integers(0, 900), st.floats(0.1, 1.5), st.floats(1.0, 9.0)), max_size=4),
)
def test_the_ledger_stands_where_all_its_days_lead(
    depth_in: float,
    every_days: int,
    drought: Drought,
    plugs: list[tuple[int, float, float]],
) -> None:
    cores = [
        core(JUNE - timedelta(days=back), thatch, root_depth_in=root)
        for back, thatch, root in sorted(plugs, reverse=True)
    ]
    setting, facts = first_zone(long_yard(depth_in, every_days, drought, cores))
    found, past = ledger_of(setting, facts), past_days(setting, facts)
    last = found.levels
    count = last.depletion_in.size
    p = stress_from_share(facts)
    whole = root_zone_levels(past.days, p)
    reckoned = root_zone_levels(reckoned_days(setting, past.days), p)
    assert whole.depletion_in.size == LONGEST_LOOK_BACK_DAYS + 1
    assert last.depletion_in.tolist() == whole.depletion_in[-count:].tolist()
    assert last.thatch_store_in.tolist() == whole.thatch_store_in[-count:].tolist()
    assert last.days.capacity_in.tolist() == whole.days.capacity_in[-count:].tolist()
    assert found.reckoned_in[:2].tolist() == reckoned.depletion_in[-2:].tolist()
    assert found.whole.depletion_in.tolist() == reckoned.depletion_in[-count:].tolist()
    assert found.recent.eto_from == past.eto_from[-count:]
    assert found.recent.irrigation_runoff_in.tolist() == past.irrigation_runoff_in[-count:].tolist()
    held = (each for each in setting.waterings["z1"] if each.date >= past.starts)
    assert found.record == PastRecord(past.starts, len(list(held)), 0)


def test_a_well_watered_zone_follows_its_last_days_only() -> None:
    found = ledger_of(*first_zone(long_yard(1.5, 3, "off", [])))
    assert 7 < found.levels.depletion_in.size < 15
    dry = ledger_of(*first_zone(long_yard(0.05, 9, "off", [])))
    assert dry.levels.depletion_in.size == LONGEST_LOOK_BACK_DAYS + 1


def test_days_are_not_cut_where_the_weather_is_short_of_them() -> None:
    setting, facts = first_zone(
        yard(weather=[weather_day(JUNE - timedelta(days=n), rain_in=1.0) for n in range(20)])
    )
    assert recent_days(setting, facts) is None


@given(
    st.lists(
        st.tuples(
            st.integers(0, 5),
            st.lists(st.floats(0.1, 2.0), max_size=2),
            st.booleans(),
            st.none() | st.floats(0.5, 9.0),
        ),
        max_size=7,
    )
)
def test_the_latest_readings_are_the_last_of_all(
    plugs: list[tuple[int, list[float], bool, float | None]],
) -> None:
    cores = [
        core(JUNE + timedelta(days=after), *thatch, pressed=pressed, root_depth_in=root)
        for after, thatch, pressed, root in sorted(plugs, key=lambda each: each[0])
    ]
    read = readings_of([cores, []])
    assert read.latest_roots == tuple(each[-1] for each in read.roots)
    assert read.latest_thatch == tuple(each[-1] for each in read.thatch)


@given(st.lists(st.tuples(st.floats(0.1, 2.0), st.floats(0.5, 9.0)), max_size=12))
def test_roots_that_hold_are_those_of_days_that_are_interpolated(
    plugs: list[tuple[float, float]],
) -> None:
    read = readings_of([[core(JUNE, thatch, root_depth_in=root)] for thatch, root in plugs])
    after = JUNE.toordinal() + np.arange(1, 3)
    # From the day before on the same is interpolated.
    across = JUNE.toordinal() + np.arange(-1, 3)
    held, spanned = (rooted_and_thatch_on(zone(), read, each) for each in (after, across))
    assert [each.tolist() for each in held] == [each[2:].tolist() for each in spanned]
