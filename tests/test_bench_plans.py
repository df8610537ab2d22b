"""The floors that the plan is measured against do the plan's own work: they give its figures."""

import importlib
from datetime import date

import pytest

from lawnbook.plan.make import make_plan
from lawnbook.plan.memo import Memo
from lawnbook.plan.weather import weather_of
from lawnbook.yard.notebook import Notebook
from tests.bench.big_yard import TODAY, Size, big_yard
from tests.bench.plans import Bare, after_watering, bare, bare_eto_in, by_pandas, floor, unread


@pytest.fixture(scope="module")
def book() -> Notebook:
    """The big yard made small: of each soil one zone, three years."""
    return big_yard(Size(zones=4, years=3, spots_a_zone=2, feedings_a_zone=4, photos=0))


@pytest.fixture(scope="module")
def given(book: Notebook) -> Bare:
    """What its floor is given."""
    return bare(book, TODAY)


def test_the_bare_loop_gives_the_days_that_the_plan_has(book: Notebook, given: Bare) -> None:
    eto = weather_of(book).eto_in
    assert bare_eto_in(given) == pytest.approx(eto.tolist(), rel=1e-12)
    water = make_plan(book, TODAY).zones
    depletions = floor(given)
    assert {len(days) for days in depletions} == {731}
    assert [days[-1] for days in depletions] == pytest.approx(
        [zone.depletion_in for zone in water], abs=1e-9
    )
    assert any(zone.depletion_in for zone in water)


def test_the_loop_over_all_years_ends_where_that_of_two_does(book: Notebook, given: Bare) -> None:
    every_year = bare(book, TODAY, all_years=True)
    assert {len(zone.months) for zone in every_year.zones} == {len(book.weather)}
    ends = [[days[-1] for days in floor(each)] for each in (every_year, given)]
    assert ends[0] == pytest.approx(ends[1], abs=1e-9)


def test_the_balance_by_rows_of_a_frame_is_the_same(book: Notebook, given: Bare) -> None:
    """pyet lets the latent heat follow the temperature, so that the two differ by a few percent."""
    pytest.importorskip("pyet")
    one = Bare(given.latitude_deg, given.days, given.zones[:1])
    days: list[date] = [day.date for day in book.weather.values()]
    pandas = importlib.import_module("pandas")
    assert pandas.DatetimeIndex(days).is_monotonic_increasing
    (last,) = by_pandas(one, days)
    assert last == pytest.approx(floor(one)[0][-1], rel=0.1)


def test_what_is_measured_starts_from_nothing_and_ends_in_the_same_plan(book: Notebook) -> None:
    fresh = unread(book)
    assert fresh == book
    assert fresh.waterings is not book.waterings
    assert make_plan(fresh, TODAY, Memo()) == make_plan(book, TODAY)
    assert after_watering(book)() > 0
