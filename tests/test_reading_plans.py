"""Plans in two readings: made anew when the owner reads otherwise, never told in both at once."""

from dataclasses import replace
from datetime import date
from threading import Thread

import pytest

from lawnbook.plan.lazily import Later
from lawnbook.plan.make import make_plan
from lawnbook.plan.render import plan_text
from lawnbook.reading import Reading, read_as, read_in, reading, reading_as, reading_here
from lawnbook.session.planning import PlanCache, keep_every_promise
from lawnbook.store.yardfile import load_any
from lawnbook.yard.amounts import told
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.places import sample_yards

ON = date(2026, 6, 15)


@pytest.fixture(scope="module")
def book() -> Notebook:
    """A sample yard."""
    return load_any(sample_yards()[0], ON)


def test_a_plan_is_made_anew_in_other_units_and_kept_for_the_old(book: Notebook) -> None:
    cache = PlanCache()
    first = cache.plan_for(book, ON)
    read_in("metric")
    assert cache.held(book, ON) is None
    second = cache.plan_for(book, ON)
    assert cache.plan_for(book, ON) is second
    read_in("us")
    assert cache.plan_for(book, ON) is first


def test_a_plan_of_the_cache_is_the_plan_from_nothing_after_each_switch(book: Notebook) -> None:
    cache = PlanCache(size=1)
    for units in ("us", "metric", "us", "metric"):
        read_in("metric" if units == "metric" else "us")
        cached = plan_text(cache.plan_for(book, ON))
        assert cached == plan_text(make_plan(book, ON))


@pytest.mark.parametrize("wanted", [Reading(point=",", group="."), Reading(month_first=True)])
def test_other_signs_make_a_plan_anew_too(book: Notebook, wanted: Reading) -> None:
    cache = PlanCache()
    plain = cache.plan_for(book, ON)
    read_as(wanted)
    assert cache.plan_for(book, ON) is not plain


def test_what_a_plan_promised_is_told_in_the_units_of_the_plan(book: Notebook) -> None:
    whole = make_plan(book, ON)
    keep_every_promise(whole, lambda done, of: None)
    promised = make_plan(book, ON)
    read_in("metric")
    keep_every_promise(promised, lambda done, of: None)
    assert plan_text(promised) == plan_text(whole)


def test_a_promise_is_kept_in_its_own_reading_and_leaves_the_reading_alone() -> None:
    promise = Later(lambda: told(1.0, 2, "in"))
    read_in("metric")
    assert promise() == "1.00 in"
    assert told(1.0, 2, "in") == "25.4 mm"
    assert Later(lambda: told(1.0, 2, "in"))() == "25.4 mm"


def test_what_is_read_here_is_read_otherwise_in_another_thread() -> None:
    found: list[str] = []
    with reading_here(replace(reading(), units="metric")):
        beside = Thread(target=lambda: found.append(told(1.0, 2, "in")))
        beside.start()
        beside.join()
        found.append(told(1.0, 2, "in"))
    assert found == ["1.00 in", "25.4 mm"]


def test_a_reading_for_a_while_ends_with_an_error_too() -> None:
    with pytest.raises(ValueError, match="stop"), reading_as(Reading(units="metric")):
        raise ValueError("stop")
    assert reading().units == "us"
