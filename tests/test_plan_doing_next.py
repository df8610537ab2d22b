"""What was ticked off is gone from the next plan, or has moved to a later day, kind by kind."""

from collections.abc import Iterable
from datetime import date, timedelta

import pytest

from lawnbook.plan.doing import done
from lawnbook.plan.make import make_plan
from lawnbook.plan.season_model import Task
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook, apply
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import Care, Core, Record, Season, Watering
from tests.plan_yards import JUNE, core, product, spot, yard, zone

EARLY_SEPTEMBER = date(2026, 9, 1)
SPRING = date(2026, 4, 10)


def tasks(book: Notebook, on: date, kind: str) -> list[Task]:
    """The tasks of one kind in the plan of a day."""
    return [task for task in make_plan(book, on).tasks if task.kind == kind]


def the_one(book: Notebook, on: date, kind: str) -> Task:
    """The only task of a kind."""
    (found,) = tasks(book, on, kind)
    return found


def after(book: Notebook, task: Task, on: date) -> Notebook:
    """The notebook once a task was ticked off."""
    return apply(book, done(book, task, on).change)


def watered_in_may() -> Notebook:
    """A yard whose last watering lies two weeks back, so that the next is due at once."""
    full = Watering(id="w", date=date(2026, 6, 1), zone="z1", depth_in=1.0)
    return yard(zone(precipitation_in_per_h=0.8), waterings=[full])


def test_a_watering_moves_on_by_some_days() -> None:
    book = watered_in_may()
    due = the_one(book, JUNE, "water")
    assert due.date == JUNE
    assert due.minutes is not None
    assert the_one(after(book, due, JUNE), JUNE, "water").date > JUNE


@pytest.mark.parametrize(
    ("on", "name"),
    [(date(2026, 7, 20), "Upper bank"), (date(2025, 8, 1), "Lower bank")],
)
def test_where_a_day_uses_more_than_roots_bear_a_watering_is_done_for_the_day(
    on: date, name: str
) -> None:
    book = load_any(next(each for each in sample_yards() if each.stem == "hollow_bank"), date.max)
    task = next(each for each in tasks(book, on, "water") if each.zone == name)
    assert task.date == on
    again = next(e for e in tasks(after(book, task, on), on, "water") if e.key == task.key)
    assert again.date == on + timedelta(days=1)
    half = apply(book, done(book, task, on, (task.minutes or 0.0) / 2).change)
    assert next(e for e in tasks(half, on, "water") if e.key == task.key).date == on


def test_a_feeding_moves_to_when_the_budget_has_room_again() -> None:
    book = yard(products=[product()])
    due = the_one(book, EARLY_SEPTEMBER, "feed")
    assert due.date == EARLY_SEPTEMBER
    following = tasks(after(book, due, due.date), due.date, "feed")
    assert all(task.date > due.date for task in following)


def test_mowing_moves_on() -> None:
    last = Care(id="m", date=date(2026, 6, 1), kind="mowing", zones=("z1",))
    book = yard(zone(mow_height_in=3.0), care=[last])
    due = the_one(book, JUNE, "mow")
    assert due.date == JUNE
    assert the_one(after(book, due, JUNE), JUNE, "mow").date > JUNE


def test_a_soil_test_is_gone() -> None:
    book = yard()
    due = the_one(book, JUNE, "test")
    assert tasks(after(book, due, JUNE), JUNE, "test") == []


def test_care_is_gone_from_its_weeks() -> None:
    book = yard(spots=[spot()], cores=[core(date(2026, 5, 1), 0.9)])
    found = [task for task in tasks(book, EARLY_SEPTEMBER, "care") if task.date <= EARLY_SEPTEMBER]
    assert found
    for due in found:
        left = tasks(after(book, due, EARLY_SEPTEMBER), EARLY_SEPTEMBER, "care")
        assert due.key not in [task.key for task in left if task.date <= EARLY_SEPTEMBER]


def test_a_plug_leads_to_its_entry_and_is_gone_once_it_is_read() -> None:
    book = yard(spots=[spot()], cores=[core(date(2025, 5, 1), 0.9)])
    due = the_one(book, SPRING, "plug")
    finished = done(book, due, SPRING)
    assert (finished.leads_to, finished.change) == ("plug", {})
    read = Core(id="new", spot="s1", date=SPRING, thatch_in=(0.8,))
    keys = [task.key for task in tasks(_with(book, "cores", read), SPRING, "plug")]
    assert due.key not in keys


@pytest.mark.parametrize(
    ("on", "checklist"),
    [(date(2026, 4, 5), "spring start-up"), (date(2026, 10, 12), "winter blow-out")],
)
def test_a_checklist_leads_to_itself(on: date, checklist: str) -> None:
    season = Season(start="04-15", end="10-15")
    book = yard(zone(sprinklers="in-ground"), season=season)
    finished = [done(book, task, on) for task in tasks(book, on, "check")]
    assert checklist in [each.leads_to for each in finished]
    assert all(each.change == {} for each in finished)


def test_ticking_off_on_an_earlier_day_is_dated_so() -> None:
    book = watered_in_may()
    due = the_one(book, JUNE, "water")
    earlier = date(2026, 6, 14)
    dates = {each.date for each in after(book, due, earlier).waterings.values()}
    assert dates == {date(2026, 6, 1), earlier}


def _with(book: Notebook, table: str, *records: Record) -> Notebook:
    rows: Iterable[Record] = records
    return apply(book, {(table, each.id): (None, each) for each in rows})
