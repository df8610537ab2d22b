"""Plans are made once for each value and day, and told apart by identity."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from lawnbook.plan.make import make_plan
from lawnbook.plan.memo import Memo
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

    def counted(notebook: Notebook, on: date, memo: Memo) -> Plan:
        made.append(on)
        return make_plan(notebook, on, memo)

    monkeypatch.setattr("lawnbook.session.planning.make_plan", counted)
    cache, notebook = PlanCache(size=2), small_notebook()
    for days in (0, 1, 2, 1, 2, 0):
        cache.plan_for(notebook, TODAY + timedelta(days=days))
    assert len(made) == 4


def test_the_latest_day_and_the_one_looked_at_are_remembered_part_by_part(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    used: list[Memo] = []

    def noted(notebook: Notebook, on: date, memo: Memo) -> Plan:
        used.append(memo)
        return make_plan(notebook, on, memo)

    monkeypatch.setattr("lawnbook.session.planning.make_plan", noted)
    cache, notebook = PlanCache(size=1), small_notebook()
    for days in (0, -3, -2, 0, -2, -3):
        cache.plan_for(notebook, TODAY + timedelta(days=days))
    today, third, second, today_again, second_again, third_again = used
    assert today_again is today
    assert second_again is not third
    assert second_again is not second, "only today and one other day"
    assert third_again is not third
