"""The figures of a span of days: on every day those of that day's own plan."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from lawnbook.plan.day_figures import DayFigures, Figures, day_figures, plan_figures
from lawnbook.plan.make import make_plan
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Core
from tests.desk_sample import samples

STARTS, ENDS = date(2024, 1, 1), date(2026, 11, 27)
SAMPLES = samples()
EXACT = (
    "thatch_in",
    "rooted_soil_in",
    "n_left_this_year",
    "n_last_30_days",
    "spot_thatch_in",
    "spot_rooted_soil_in",
)


@pytest.fixture(scope="module", params=sorted(SAMPLES))
def notebook(request: pytest.FixtureRequest) -> Notebook:
    """Each sample yard."""
    return SAMPLES[request.param]


def test_each_day_is_that_of_its_plan(notebook: Notebook) -> None:
    """Days of plugs and the days around them, new years, and every 23rd day.

    Nitrogen in the water goes by the latest catch test, so it is compared from then on.
    """
    tests = [test.date for test in notebook.catch_tests.values()]
    rated = max(tests, default=STARTS) if notebook.yard.water_n_mg_per_l else STARTS
    span = day_figures(notebook, STARTS, ENDS)
    days = {core.date + timedelta(days=off) for core in notebook.cores.values() for off in (-1, 0)}
    days |= {STARTS + timedelta(days=each) for each in range(0, span.length, 23)}
    days |= {date(2025, 12, 31), date(2026, 1, 1), date(2026, 6, 30), date(2026, 7, 1)}
    for on in sorted(days):
        left_out = () if on >= rated else ("n_left_this_year", "n_last_30_days")
        _same(span.figures(on), plan_figures(make_plan(notebook, on)), left_out)


def test_each_days_waterings_are_those_of_its_plan(notebook: Notebook) -> None:
    """Minutes, days between and depth, through the year and over catch tests and plugs."""
    span = day_figures(notebook, STARTS, ENDS)
    told = 0
    for each in range(0, span.length, 31):
        on = STARTS + timedelta(days=each)
        ours, theirs = span.figures(on).waters(), plan_figures(make_plan(notebook, on)).waters()
        assert ours.run_minutes == pytest.approx(theirs.run_minutes)
        assert ours.interval_days == theirs.interval_days
        assert ours.depth_in == pytest.approx(theirs.depth_in)
        told += len(ours.run_minutes)
    assert told > 10


def _same(one: Figures, other: Figures, left_out: tuple[str, ...] = ()) -> None:
    assert one.on == other.on
    for name in set(EXACT) - set(left_out):
        ours, theirs = getattr(one, name), getattr(other, name)
        assert ours.keys() == theirs.keys(), (one.on, name)
        assert ours == pytest.approx(dict(theirs), abs=1e-9), (one.on, name)


def test_the_soils_water_on_the_last_day_is_the_plans(notebook: Notebook) -> None:
    """On earlier days roots are interpolated between plugs, so only near to each day's plan."""
    span = day_figures(notebook, STARTS, ENDS)
    plan = plan_figures(make_plan(notebook, ENDS))
    assert plan.soil_water
    assert span.figures(ENDS).soil_water == pytest.approx(dict(plan.soil_water), abs=1e-9)
    for series in span.soil_water.values():
        known = series[~np.isnan(series)]
        assert known.size > 300
        assert known.min() >= -1e-9
        assert known.max() <= 1 + 1e-9


def test_water_with_nitrogen_counts_day_by_day() -> None:
    """The irrigation water's nitrogen is in both figures, as in the plan of each day."""
    held = SAMPLES["larkspur_corner"]
    notebook = apply(held, put(held, "yard", replace(held.yard, water_n_mg_per_l=6.0)))
    span = day_figures(notebook, date(2026, 1, 1), ENDS)
    on = date(2026, 8, 1)
    ours, theirs = span.figures(on), plan_figures(make_plan(notebook, on))
    assert ours.n_left_this_year == pytest.approx(dict(theirs.n_left_this_year))
    assert ours.n_last_30_days == pytest.approx(dict(theirs.n_last_30_days))
    plain = day_figures(held, date(2026, 1, 1), ENDS).figures(on)
    assert all(
        ours.n_left_this_year[zone] < plain.n_left_this_year[zone]
        for zone in plain.n_left_this_year
    )


def test_pressed_plugs_count_until_the_first_unpressed_one() -> None:
    """As in the plan of each day, for which only the plugs up to then exist."""
    held = SAMPLES["larkspur_corner"]
    spot = next(iter(held.spots))
    pressed = Core(id="p", spot=spot, date=date(2024, 2, 1), thatch_in=(0.5,), pressed=True)
    notebook = apply(held, put(held, "cores", pressed))
    span = day_figures(notebook, STARTS, ENDS)
    for on in (date(2024, 2, 1), date(2024, 5, 10), date(2024, 5, 11)):
        _same(span.figures(on), plan_figures(make_plan(notebook, on)))
    assert span.figures(date(2024, 3, 1)).spot_thatch_in[spot] == 0.5


def test_an_empty_notebook_has_no_figures() -> None:
    """And a span of one day is a span."""
    span = day_figures(new_notebook("Bare"), STARTS, STARTS)
    assert span.length == 1
    assert span.ends == STARTS
    assert not any(getattr(span.figures(STARTS), name) for name in EXACT)


@pytest.mark.parametrize("on", [STARTS - timedelta(days=1), ENDS + timedelta(days=1)])
def test_days_outside_of_the_span_are_unknown(on: date) -> None:
    """Nothing is guessed beyond the ends."""
    span: DayFigures = day_figures(SAMPLES["hollow_bank"], STARTS, ENDS)
    with pytest.raises(KeyError):
        span.figures(on)


def test_a_span_must_not_end_before_it_starts() -> None:
    """That is a slip of ours; a day beyond any notebook is the owner's."""
    with pytest.raises(ValueError, match="cannot end"):
        day_figures(new_notebook("Bare"), ENDS, STARTS)
    with pytest.raises(OwnerError):
        day_figures(new_notebook("Bare"), STARTS, date(9999, 1, 1))
