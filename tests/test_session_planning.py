"""Plans are made once for each value and day, and told apart by identity."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.session.planning import PlanCache
from lawnbook.yard.notebook import Notebook, apply
from tests.conftest import TODAY
from tests.small_book import rename, small_notebook


def test_a_plan_is_made_once_for_a_value_and_a_day() -> None:
    cache, notebook = PlanCache(), small_notebook()
    plan = cache.plan_for(notebook, TODAY)
    assert plan.on == TODAY
    assert cache.plan_for(notebook, TODAY) is plan
    assert cache.plan_for(notebook, TODAY + timedelta(days=1)) is not plan
    edited = apply(notebook, rename(notebook, "Other"))
    assert cache.plan_for(edited, TODAY).yard == "Other"
    assert cache.plan_for(notebook, TODAY) is plan, "undo finds its plan again"


def test_an_equal_but_other_value_is_planned_anew() -> None:
    cache, notebook = PlanCache(), small_notebook()
    assert cache.plan_for(replace(notebook), TODAY) is not cache.plan_for(notebook, TODAY)


def test_only_the_last_few_are_remembered(monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[date] = []

    def counted(notebook: Notebook, on: date) -> Plan:
        made.append(on)
        return make_plan(notebook, on)

    monkeypatch.setattr("lawnbook.session.planning.make_plan", counted)
    cache, notebook = PlanCache(size=2), small_notebook()
    for days in (0, 1, 2, 1, 2, 0):
        cache.plan_for(notebook, TODAY + timedelta(days=days))
    assert len(made) == 4
