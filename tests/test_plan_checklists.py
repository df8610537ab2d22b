"""Checklists of spring and winter: their seasons north and south, ticks, and what was found."""

from dataclasses import replace
from datetime import date

import pytest

from lawnbook.agronomy.blow_out import MOST_AIR_PSI, most_air_psi
from lawnbook.agronomy.sources import SOURCES
from lawnbook.plan.checklist_model import Step
from lawnbook.plan.checklist_steps import SPRING, WINTER
from lawnbook.plan.checklists import (
    CHECKLISTS,
    checklist_of,
    last_season_day,
    season_of,
    tick,
    untick,
)
from lawnbook.yard.check import check_notebook
from lawnbook.yard.notebook import Notebook, apply, inverse, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import CatchTest, ChecklistName, ClimateMonth, Head, Zone
from tests.small_book import small_notebook

SPRING_DAY = date(2026, 4, 18)
BACK = Zone(id="back", name="Back", outline_ft=((30.0, 0.0), (60.0, 0.0), (30.0, 20.0)))


@pytest.fixture
def notebook() -> Notebook:
    """Two zones with lines in the ground, no test, no climate."""
    held = small_notebook()
    return apply(held, put(held, "zones", BACK))


def step_of(notebook: Notebook, key: str, zone_id: str = "", on: date = SPRING_DAY) -> Step:
    """A step of the spring's list."""
    steps = checklist_of(notebook, "spring start-up", on).steps
    return next(each for each in steps if (each.key, each.zone_id) == (key, zone_id))


@pytest.mark.parametrize(
    ("name", "on", "latitude", "words", "starts", "ends"),
    [
        ("spring start-up", "2026-04-18", 45, "spring 2026", "2026-01-01", "2026-12-31"),
        ("spring start-up", "2026-12-31", 45, "spring 2026", "2026-01-01", "2026-12-31"),
        ("winter blow-out", "2026-10-10", 45, "winter 2026–27", "2026-07-01", "2027-06-30"),
        ("winter blow-out", "2027-01-03", 45, "winter 2026–27", "2026-07-01", "2027-06-30"),
        ("winter blow-out", "1999-11-01", 0, "winter 1999–00", "1999-07-01", "2000-06-30"),
        ("spring start-up", "2026-09-20", -38, "spring 2026", "2026-07-01", "2027-06-30"),
        ("spring start-up", "2027-02-01", -38, "spring 2026", "2026-07-01", "2027-06-30"),
        ("winter blow-out", "2026-05-20", -38, "winter 2026", "2026-01-01", "2026-12-31"),
    ],
)
def test_a_list_is_for_twelve_months_six_months_later_in_the_south(
    name: ChecklistName, on: str, latitude: float, words: str, starts: str, ends: str
) -> None:
    season = season_of(name, date.fromisoformat(on), latitude)
    assert season.words == words
    assert (season.starts.isoformat(), season.ends.isoformat()) == (starts, ends)


def test_pressure_limits_are_those_of_the_source() -> None:
    citation = SOURCES["blowout-pressure"].citation
    for pipe, psi in MOST_AIR_PSI.items():
        assert f"{psi:.0f} psi in {pipe}" in citation
    assert most_air_psi(frozenset({"rigid PVC"})) == 80
    assert most_air_psi(frozenset({"rigid PVC", "polyethylene"})) == 50
    assert most_air_psi(frozenset()) == 50


@pytest.mark.parametrize("written", [SPRING, WINTER], ids=["spring", "winter"])
def test_every_step_has_a_key_of_its_own_a_why_and_a_source(written: tuple[object, ...]) -> None:
    words = SPRING if written is SPRING else WINTER
    assert len({each.key for each in words}) == len(words)
    for each in words:
        assert each.source in SOURCES
        assert each.why.endswith(".")
        assert not each.words.endswith(".")
        assert "!" not in each.words + each.why


def test_winter_says_first_to_hire_it_out_and_tells_of_eyes_and_pressure(
    notebook: Notebook,
) -> None:
    winter = checklist_of(notebook, "winter blow-out", date(2026, 10, 10))
    assert winter.note.startswith("Hire it out")
    assert "eye and ear protection" in winter.note
    assert "never stand over heads" in winter.note
    assert winter.steps[0].key == "hire"
    pressure = next(each for each in winter.steps if each.key == "pressure")
    assert "50 psi for polyethylene" in pressure.words
    assert "80 psi for rigid PVC" in pressure.words
    assert "Colorado State University" in pressure.source


def test_heads_are_seen_zone_by_zone_and_cans_set_out_where_no_test_stands(
    notebook: Notebook,
) -> None:
    test = CatchTest(
        id="t", date=date(2025, 6, 1), zone="front", run_minutes=20.0, depths_in=(0.2, 0.3)
    )
    notebook = apply(notebook, put(notebook, "catch_tests", test))
    listed = checklist_of(notebook, "spring start-up", SPRING_DAY)
    by_zone = [(each.key, each.zone) for each in listed.steps if each.zone]
    assert by_zone == [("heads", "Front"), ("heads", "Back"), ("catch test", "Back")]
    assert step_of(notebook, "catch test", "back").leads_to == "Can"
    # A head that was changed after it makes the old test stale.
    head = Head(id="h", zone="front", at_ft=(5.0, 5.0), changed_on=date(2026, 3, 1))
    stale = apply(notebook, put(notebook, "heads", head))
    assert "stale" in step_of(stale, "catch test", "front").why
    # A test of this spring is seen to be done without a tick.
    fresh = replace(test, id="t2", zone="back", date=date(2026, 4, 2))
    done = apply(notebook, put(notebook, "catch_tests", fresh))
    assert step_of(done, "catch test", "back").seen == date(2026, 4, 2)
    assert checklist_of(done, "spring start-up", SPRING_DAY).done == 1


def test_hose_zones_and_zones_that_are_not_irrigated_have_no_lines(notebook: Notebook) -> None:
    rows = [
        replace(notebook.zones["front"], sprinklers="hose"),
        replace(notebook.zones["back"], irrigated=False),
    ]
    bare = apply(notebook, put(notebook, "zones", *rows))
    for name in CHECKLISTS:
        listed = checklist_of(bare, name, SPRING_DAY)
        assert not listed.needed
        assert not listed.steps
        assert "no zone has sprinkler lines in the ground" in listed.note.lower()


def test_without_frost_the_blow_out_is_not_needed_but_spring_is(notebook: Notebook) -> None:
    months = [ClimateMonth(id=f"{m:02d}", month=m, tmean_f=65.0) for m in range(1, 13)]
    mild = apply(notebook, put(notebook, "climate", *months))
    winter = checklist_of(mild, "winter blow-out", date(2026, 10, 10))
    assert not winter.needed
    assert winter.note.startswith("Not needed here")
    assert checklist_of(mild, "spring start-up", SPRING_DAY).needed
    assert checklist_of(notebook, "winter blow-out", date(2026, 10, 10)).needed


def test_a_tick_is_dated_and_found_again_in_its_own_season_only(notebook: Notebook) -> None:
    step = step_of(notebook, "heads", "back")
    assert not step.is_done
    change = tick(notebook, step, date(2026, 4, 17))
    after = apply(notebook, change)
    again = step_of(after, "heads", "back")
    assert again.tick is not None
    assert (again.tick.date, again.tick.zone, again.tick.found) == (date(2026, 4, 17), "back", "")
    assert not step_of(after, "heads", "front").is_done
    assert not step_of(after, "heads", "back", date(2027, 4, 1)).is_done
    this = checklist_of(after, "spring start-up", date(2027, 4, 1))
    assert checklist_of(after, "spring start-up", last_season_day(this)).done == 1
    assert apply(after, inverse(change)).ticks == notebook.ticks


def test_what_was_found_becomes_a_care_entry_in_the_same_step(notebook: Notebook) -> None:
    step = step_of(notebook, "heads", "back")
    change = tick(notebook, step, SPRING_DAY, " two heads lean ", "head straightened", 12.5)
    assert {table for table, _ in change} == {"ticks", "care"}
    after = apply(notebook, change)
    assert not check_notebook(after, SPRING_DAY)
    ticked = step_of(after, "heads", "back").tick
    assert ticked is not None
    care = after.care[ticked.care or ""]
    assert (care.kind, care.zones, care.cost) == ("head straightened", ("back",), 12.5)
    assert care.note == ticked.found == "two heads lean"
    assert apply(after, inverse(change)) == notebook


def test_ticking_anew_keeps_the_care_entry_and_clearing_what_was_found_takes_it_out(
    notebook: Notebook,
) -> None:
    first = apply(
        notebook,
        tick(notebook, step_of(notebook, "leaks"), SPRING_DAY, "joint drips", "plumbing", 8.0),
    )
    step = step_of(first, "leaks")
    moved = apply(first, tick(first, step, date(2026, 4, 20), "joint dripped", "repair", None))
    care = next(iter(moved.care.values()))
    assert len(moved.care) == len(moved.ticks) == 1
    assert (care.date, care.kind, care.note) == (date(2026, 4, 20), "repair", "joint dripped")
    assert care.cost is None, "a cost that was emptied is gone"
    cleared = apply(moved, tick(moved, step_of(moved, "leaks"), date(2026, 4, 20)))
    assert not cleared.care
    assert len(cleared.ticks) == 1


def test_unticking_takes_tick_and_care_back_and_undo_brings_both(notebook: Notebook) -> None:
    ticked = apply(notebook, tick(notebook, step_of(notebook, "leaks"), SPRING_DAY, "joint drips"))
    change = untick(ticked, step_of(ticked, "leaks"))
    assert apply(ticked, change) == notebook
    assert apply(apply(ticked, change), inverse(change)) == ticked
    assert not untick(notebook, step_of(notebook, "leaks"))


def test_a_day_of_another_season_is_refused_with_the_mend(notebook: Notebook) -> None:
    with pytest.raises(OwnerError, match=r"spring 2026; choose a day from 1 Jan 2026 to 31 Dec"):
        tick(notebook, step_of(notebook, "leaks"), date(2025, 4, 1))
