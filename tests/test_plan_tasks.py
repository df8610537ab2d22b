"""The tasks of a plan: keys, amounts, last days, and the lines of what is due that sum them up."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.agronomy.sources import cite
from lawnbook.plan.checklists import checklist_of, tick
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.plan.render import plan_json, plan_text
from lawnbook.plan.season_model import Task
from lawnbook.plan.spread import check_spread
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook, apply, as_of
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import Care, ChecklistName, Season
from tests.plan_yards import JUNE, climate, core, product, rules, spot, steady, yard, zone

SAMPLES = [load_any(path, date(2026, 11, 25)) for path in sample_yards()]
SEASON = Season(start="04-20", end="10-15")
SEASON_END = date(2026, 10, 15)


def task(plan: Plan, key: str) -> Task:
    """The task of a key."""
    return next(each for each in plan.tasks if each.key == key)


def keys(book: Notebook, on: date = JUNE) -> set[str]:
    """The keys of all that is due."""
    return {each.key for each in make_plan(book, on).tasks}


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(SAMPLES), st.dates(date(2025, 6, 1), date(2026, 12, 31)))
def test_tasks_of_the_samples_hold_together(book: Notebook, on: date) -> None:
    """Unique keys in date order, none in the past, and every one in exactly one line of due."""
    plan = make_plan(book, on)
    listed = [each.key for each in plan.tasks]
    assert len(set(listed)) == len(listed)
    assert sorted(key for due in plan.due for key in due.keys) == sorted(listed)
    assert [each.date for each in plan.tasks] == sorted(each.date for each in plan.tasks)
    for each in plan.tasks:
        assert each.date >= on
        assert each.latest is None or each.latest >= each.date
        assert each.why
        assert each.what
        assert each.workings
    for due in plan.due:
        assert due.date >= on
        assert all(task(plan, key).date == due.date for key in due.keys)
        lasts = [that for key in due.keys if (that := task(plan, key).latest)]
        assert due.latest == min(lasts, default=None)


@pytest.mark.parametrize("book", SAMPLES, ids=lambda book: str(book.yard.name))
def test_a_line_of_one_task_says_what_the_task_says(book: Notebook) -> None:
    plan = make_plan(book, date(2026, 8, 20))
    alone = [due for due in plan.due if len(due.keys) == 1]
    assert [due.what for due in alone] == [task(plan, due.keys[0]).what for due in alone]
    assert [due.why for due in alone] == [task(plan, due.keys[0]).why for due in alone]


def test_a_watering_has_the_minutes_that_the_timer_is_set_to() -> None:
    rated = yard(zone(precipitation_in_per_h=1.6, slope_pct=12.0, soil="clay"))
    plan = make_plan(rated, JUNE)
    found, run = task(plan, "water:z1"), plan.zones[0].next_run
    assert run is not None
    assert run.minutes_per_cycle is not None
    assert run.cycles is not None
    assert run.cycles > 1
    assert found.cycles == run.cycles
    assert found.minutes is not None
    assert found.minutes == run.cycles * -(-run.minutes_per_cycle // 1)
    assert found.depth_in is None
    assert "next_run_depth_in" in {each.figure for each in found.workings}


def test_the_first_workings_of_a_watering_are_those_of_its_line() -> None:
    """The line tells the next run, which may be deeper than the usual depth."""
    days = (date(2026, 6, 15), date(2026, 8, 20))
    plans = [make_plan(as_of(book, on), on) for book in SAMPLES for on in days]
    waterings = [each for plan in plans for each in plan.tasks if each.kind == "water"]
    assert len(waterings) > 4
    for each in waterings:
        first, second = each.workings[:2]
        assert f"Water {first.value}:" in each.what
        assert second.figure == "next_run_minutes"


def test_a_watering_without_a_rate_has_the_depth_that_a_can_catches() -> None:
    """Gross: the multiplier of 0.65 evenness, 1 ÷ (0.4 + 0.6 × 0.65), is 1.27."""
    plan = make_plan(yard(), JUNE)
    found, run = task(plan, "water:z1"), plan.zones[0].next_run
    assert run is not None
    assert (found.minutes, found.cycles) == (None, None)
    assert found.depth_in == pytest.approx(run.depth_in / 0.79)


def fed(**tables: Any) -> Notebook:
    """A zone with a product to be fed in May, June, or later."""
    return yard(zone(budget_level="full"), products=[product()], **tables)


def test_a_feeding_may_wait_to_the_end_of_its_month() -> None:
    found = task(make_plan(fed(), date(2026, 9, 1)), "feed:z1")
    assert (found.date, found.latest) == (date(2026, 9, 1), date(2026, 9, 30))
    assert (found.product_id, found.product) == ("p1", "Half slow")
    assert "next_feeding" in {each.figure for each in found.workings}


def test_a_feeding_may_wait_until_a_blackout_begins() -> None:
    book = fed(n_rules=rules(blackouts=(Season(start="09-20", end="10-05"),)))
    found = task(make_plan(book, date(2026, 9, 1)), "feed:z1")
    assert found.latest == date(2026, 9, 19)


def test_an_early_months_feeding_may_wait_to_its_middle() -> None:
    """The tables of cool-season turf feed early November only."""
    book = fed(climate=steady(0.1))
    found = task(make_plan(book, date(2026, 11, 1)), "feed:z1")
    assert (found.date, found.latest) == (date(2026, 11, 1), date(2026, 11, 15))


@pytest.mark.parametrize("book", SAMPLES, ids=lambda book: str(book.yard.name))
@pytest.mark.parametrize("on", [date(2026, 3, 10), date(2026, 5, 1), date(2026, 9, 1)])
def test_a_feeding_passes_the_check_on_its_first_and_last_day(book: Notebook, on: date) -> None:
    """And not on the day after, where its month goes on."""
    book = as_of(book, on)
    plan = make_plan(book, on)
    for each in (each for each in plan.tasks if each.product_id):
        assert each.latest is not None
        assert each.pounds is not None
        wanted = {each.zone_id: each.pounds}
        for that in (each.date, each.latest):
            assert check_spread(book, each.product_id, wanted, that).within
        after = each.latest + timedelta(days=1)
        if after.month == each.date.month:
            assert not check_spread(book, each.product_id, wanted, after).within


def test_spans_without_feeding_are_told_when_they_hold_or_come_soon() -> None:
    span = Season(start="11-15", end="03-01")
    book = fed(n_rules=rules(blackouts=(span,)))
    what = "Feeding is closed 15 Nov to 1 Mar, by your rule"
    soon = task(make_plan(book, date(2026, 10, 1)), "no feed:1")
    assert (soon.what, soon.date, soon.latest) == (what, date(2026, 11, 15), date(2027, 3, 1))
    now = task(make_plan(book, date(2027, 1, 10)), "no feed:1")
    assert (now.date, now.latest) == (date(2027, 1, 10), date(2027, 3, 1))
    assert now.kind == "feed"
    assert now.pounds is None
    assert "no feed:1" not in keys(book, date(2026, 9, 30))
    last = task(make_plan(book, date(2027, 3, 1)), "no feed:1")
    assert last.date == last.latest == date(2027, 3, 1)


@pytest.mark.parametrize("year", [2026, 2028])
def test_a_span_to_the_leap_day_ends_with_february(year: int) -> None:
    book = fed(n_rules=rules(blackouts=(Season(start="02-29", end="02-29"),)))
    found = task(make_plan(book, date(year, 2, 1)), "no feed:1")
    assert found.latest is not None
    assert found.date <= found.latest


def test_a_plug_may_wait_to_the_end_of_its_season() -> None:
    book = yard(spots=[spot()], cores=[core(date(2026, 3, 1), 0.8)])
    found = task(make_plan(book, date(2026, 8, 20)), "plug:s1")
    assert (found.date, found.latest) == (date(2026, 9, 1), date(2026, 10, 31))
    assert (found.spot_id, found.zone_id) == ("s1", "z1")
    assert found.why.endswith("one plug only: gate.")


def mown(on: date) -> Care:
    """A mowing of the whole yard."""
    return Care(id=f"m{on}", date=on, kind="mowing")


def cut(last: date | None = None, **values: Any) -> Notebook:
    """A lawn at 3 in that grows 1.5 in a week (68 °F all the year), mown on a day."""
    cares = [] if last is None else [mown(last)]
    best = climate((0.1,) * 12, (68.0,) * 12)
    return yard(zone(mow_height_in=3.0, **values), care=cares, climate=best)


def test_grass_is_mown_by_the_day_it_reaches_the_rule() -> None:
    found = task(make_plan(cut(JUNE - timedelta(days=3)), JUNE), "mow:z1")
    assert (found.kind, found.care_kind, found.date) == ("mow", "mowing", JUNE + timedelta(days=4))
    assert found.what == "Mow to 3 in: Front"
    assert "4.5 in" in found.why
    slow = make_plan(cut(JUNE, peak_growth_in_per_week=0.5), JUNE)
    assert slow.mowing[0].next is not None
    assert not any(each.kind == "mow" for each in slow.tasks)


def test_grass_that_has_outgrown_the_rule_comes_down_in_cuts() -> None:
    found = task(make_plan(cut(JUNE - timedelta(days=14)), JUNE), "mow:z1")
    assert found.date == JUNE
    assert found.what == "Mow to 4 in, then to 3 in: Front"
    assert "2 cuts" in found.why


def test_without_a_mowing_on_record_the_owner_is_asked_to_look() -> None:
    found = task(make_plan(cut(), JUNE), "mow:z1")
    assert found.what == "Mow to 3 in when it stands at 4.5 in: Front"
    assert "every 7 days" in found.why
    assert "No mowing is on record yet" in found.why
    assert not any(key.startswith("mow:") for key in keys(yard()))


@pytest.mark.parametrize(
    ("thatch_in", "told"),
    [(None, "No plug tells the thatch yet"), (0.8, "Thatch is over half an inch"), (0.5, "")],
)
def test_aeration_is_proposed_only_where_thatch_may_ask_for_it(
    thatch_in: float | None, told: str
) -> None:
    cores = [] if thatch_in is None else [core(date(2026, 5, 1), thatch_in)]
    plan = make_plan(yard(spots=[spot()], cores=cores), date(2026, 8, 20))
    found = [each for each in plan.tasks if each.key == "aeration:z1"]
    assert [told in each.why for each in found] == ([True] if told else [])
    for each in found:
        assert (each.kind, each.care_kind, each.date) == ("care", "aeration", date(2026, 8, 20))
        assert each.what.startswith("Core aeration, if thatch or compaction asks for it")
        assert "Mark heads and buried lines" in each.why


@pytest.mark.parametrize(
    ("on", "kinds"),
    [
        (date(2026, 6, 30), set()),
        (date(2026, 7, 1), {"aeration", "overseeding"}),
        (date(2026, 9, 15), {"aeration", "overseeding"}),
        (date(2026, 9, 16), {"aeration"}),
        (date(2026, 12, 1), set()),
    ],
)
def test_weeks_for_care_are_told_while_open_and_45_days_before(on: date, kinds: set[str]) -> None:
    found = {each.care_kind for each in make_plan(yard(), on).tasks if each.kind == "care"}
    assert found == kinds


def test_care_done_within_a_year_is_not_proposed_again() -> None:
    on = date(2026, 8, 20)
    cored = Care(id="c", date=date(2026, 4, 1), kind="Coring")
    assert "aeration:z1" not in keys(yard(care=[cored]), on)
    assert "overseeding:z1" in keys(yard(care=[cored]), on)
    long_ago = replace(cored, date=date(2025, 8, 1))
    assert "aeration:z1" in keys(yard(care=[long_ago]), on)


def ticked(book: Notebook, name: ChecklistName, on: date, most: int | None = None) -> Notebook:
    """The book with the first steps of a list ticked, all of them where no number is given."""
    for step in checklist_of(book, name, on).steps[:most]:
        book = apply(book, tick(book, step, on))
    return book


def test_the_blow_out_is_told_until_every_step_is_ticked() -> None:
    on, key = date(2026, 10, 10), "winter blow-out:yard"
    book = yard(season=SEASON)
    found = task(make_plan(book, on), key)
    assert (found.kind, found.care_kind, found.date) == ("check", "winter blow-out", SEASON_END)
    assert found.why.index("Hire it out") < found.why.index("go through the list")
    begun = task(make_plan(ticked(book, "winter blow-out", on, 2), on), key)
    assert "Begun: 2 of " in begun.why
    assert key not in keys(ticked(book, "winter blow-out", on), on)
    # What was ticked last winter is not of this one.
    assert key in keys(ticked(book, "winter blow-out", date(2025, 10, 10)), on)


def test_without_a_season_frost_that_is_near_tells_of_the_blow_out() -> None:
    assert "winter blow-out:yard" in keys(yard(), date(2026, 11, 1))
    assert "winter blow-out:yard" not in keys(yard(), date(2026, 8, 1))
    assert not any("start-up" in key for key in keys(yard(), date(2026, 4, 1)))


@pytest.mark.parametrize(
    ("on", "told"),
    [
        (date(2026, 3, 20), None),
        (date(2026, 3, 21), date(2026, 4, 6)),
        (date(2026, 4, 10), date(2026, 4, 10)),
        (date(2026, 5, 20), date(2026, 5, 20)),
        (date(2026, 5, 21), None),
    ],
)
def test_the_start_up_is_told_around_the_start_of_the_season(on: date, told: date | None) -> None:
    plan = make_plan(yard(season=SEASON), on)
    found = [each for each in plan.tasks if each.key == "spring start-up:yard"]
    assert [each.date for each in found] == ([] if told is None else [told])
    for each in found:
        assert each.latest == (date(2026, 4, 20) if on <= date(2026, 4, 20) else None)
    done = ticked(yard(season=SEASON), "spring start-up", on)
    assert "spring start-up:yard" not in keys(done, on)


def test_no_list_is_told_where_no_line_lies_in_the_ground() -> None:
    hose = yard(zone(sprinklers="hose"), season=SEASON)
    for on in (date(2026, 4, 10), date(2026, 10, 10)):
        assert not any(each.kind == "check" for each in make_plan(hose, on).tasks)


def test_text_tells_the_last_day_and_json_has_the_keys() -> None:
    book = fed()
    plan = make_plan(book, date(2026, 9, 1))
    assert "(feed, to 30 Sep 2026)" in " ".join(plan_text(plan).split())
    told = plan_json(plan)
    due = next(each for each in told["due"] if each["kind"] == "feed")
    assert (due["latest"], due["keys"]) == ("2026-09-30", ["feed:z1"])
    assert {each["key"] for each in told["tasks"]} == {each.key for each in plan.tasks}
    assert told["mowing"][0]["reason"].startswith("No height of cut")


def test_the_plan_cites_what_its_tasks_rest_on() -> None:
    assert cite("mowing-third") in make_plan(cut(JUNE - timedelta(days=3)), JUNE).sources
    assert cite("mowing-third") not in make_plan(yard(), JUNE).sources
    assert cite("sowing-autumn") in make_plan(yard(), date(2026, 8, 20)).sources
