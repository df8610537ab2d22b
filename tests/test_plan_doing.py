"""Ticking off: what is recorded of each kind of task, and that the next plan takes it on."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from lawnbook.plan.doing import Done, done, done_together, recorded_words
from lawnbook.plan.season_model import Task, TaskKind
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.check import check
from lawnbook.yard.notebook import Notebook, apply
from lawnbook.yard.problems import OwnerError, refused
from lawnbook.yard.records import Care, Feature, Feeding, SoilTest, Watering
from tests.plan_yards import JUNE, product, yard, zone

SIDE = zone(id="z2", name="Side", outline_ft=((60.0, 0.0), (90.0, 0.0), (90.0, 20.0), (60.0, 20.0)))


def task(kind: TaskKind, **values: Any) -> Task:
    """A task of the plain zone, due on the fifteenth of June."""
    plain = Task(
        key=f"{kind}:z1", kind=kind, what=f"A {kind}", date=JUNE, why="", zone_id="z1", zone="Front"
    )
    return replace(plain, **values)


def feed(zone_id: str = "z1", name: str = "Front", pounds: float | None = 3.7) -> Task:
    """Pounds of "p1" due on a zone."""
    return task(
        "feed",
        key=f"feed:{zone_id}",
        zone_id=zone_id,
        zone=name,
        product_id="p1",
        product="Half slow",
        pounds=pounds,
    )


def after(book: Notebook, finished: Done) -> Notebook:
    """The notebook with what was ticked off, which must stand its checks."""
    then = apply(book, finished.change)
    for _, record in finished.records:
        assert refused(check(record, then, JUNE)) == ()
    return then


def test_a_watering_keeps_its_minutes_and_cycles() -> None:
    finished = done(yard(), task("water", minutes=45.0, cycles=3), JUNE)
    (watering,) = after(yard(), finished).waterings.values()
    assert (watering.date, watering.zone, watering.minutes) == (JUNE, "z1", 45.0)
    assert (watering.cycles, watering.depth_in) == (3, None)
    assert finished.label == "watering of Front, 15 Jun 2026"
    assert finished.records == (("waterings", watering),)


def test_a_watering_without_a_rate_keeps_its_depth() -> None:
    finished = done(yard(), task("water", depth_in=0.5), JUNE, 0.6)
    (watering,) = after(yard(), finished).waterings.values()
    assert (watering.minutes, watering.depth_in) == (None, 0.6)


def test_an_amount_goes_before_the_minutes_asked_for() -> None:
    finished = done(yard(), task("water", minutes=45.0, cycles=3), JUNE, 30.0)
    (watering,) = after(yard(), finished).waterings.values()
    assert watering.minutes == 30.0


def test_a_watering_of_neither_minutes_nor_depth_is_refused_with_the_mend() -> None:
    with pytest.raises(OwnerError, match="inches that a can caught"):
        done(yard(), task("water"), JUNE)


def test_a_feeding_freezes_the_area_that_strips_leave() -> None:
    """Water along the zone's left side keeps a strip of 5 by 20 ft of it from being spread on."""
    pond = Feature(
        id="w1",
        kind="water",
        outline_ft=((-9.0, 0.0), (0.0, 0.0), (0.0, 20.0), (-9.0, 20.0)),
        no_spread_ft=5.0,
    )
    book = yard(products=[product()], features=[pond])
    (feeding,) = after(book, done(book, feed(), JUNE)).feedings.values()
    assert dict(feeding.pounds) == {"z1": 3.7}
    assert feeding.treated_area_sqft["z1"] == pytest.approx(900.0, abs=1.0)


def test_one_product_on_two_zones_is_one_feeding() -> None:
    book = yard(zone(), SIDE, products=[product()])
    tasks = (feed(), feed("z2", "Side", 2.2))
    finished = done_together(book, tasks, JUNE, {"feed:z2": 2.0})
    (feeding,) = after(book, finished).feedings.values()
    assert dict(feeding.pounds) == {"z1": 3.7, "z2": 2.0}
    assert finished.label == "feeding of Front, Side, 15 Jun 2026"
    said = recorded_words(apply(book, finished.change), finished)
    assert said == "Recorded: Half slow, 3.7 lb on Front, 2 lb on Side, 15 Jun 2026."


@pytest.mark.parametrize(
    ("wanted", "words"),
    [
        (replace(feed(), product_id="", product=""), "the shelf is bare"),
        (replace(feed(), product_id="p9", product="Gone"), "Gone is no longer on the shelf"),
        (feed(pounds=None), "that is only told"),
        (feed(pounds=0.0), "enter the pounds of Half slow"),
    ],
)
def test_a_feeding_that_cannot_be_is_refused_with_the_mend(wanted: Task, words: str) -> None:
    with pytest.raises(OwnerError, match=words):
        done(yard(products=[product()]), wanted, JUNE)


@pytest.mark.parametrize(
    ("wanted", "kind"),
    [(task("mow"), "mowing"), (task("care", care_kind="aeration"), "aeration")],
)
def test_mowing_and_care_are_one_entry_for_all_zones(wanted: Task, kind: str) -> None:
    other = replace(wanted, key="other", zone_id="z2", zone="Side")
    book = yard(zone(), SIDE)
    (care,) = after(book, done_together(book, (wanted, other), JUNE)).care.values()
    assert (care.kind, care.zones, care.date) == (kind, ("z1", "z2"), JUNE)


def test_care_of_the_whole_yard_names_no_zone() -> None:
    whole = task("care", care_kind="topdressing", zone_id="", zone="")
    (care,) = after(yard(), done(yard(), whole, JUNE)).care.values()
    assert care.zones == ()


def test_each_zone_has_its_own_soil_test() -> None:
    book = yard(zone(), SIDE)
    other = task("test", key="test:z2", zone_id="z2", zone="Side")
    tests = after(book, done_together(book, (task("test"), other), JUNE)).soil_tests
    assert [each.zone for each in tests.values()] == ["z1", "z2"]


@pytest.mark.parametrize(
    ("wanted", "leads_to"),
    [
        (task("plug", spot_id="s1"), "plug"),
        (task("check", care_kind="winter blow-out"), "winter blow-out"),
    ],
)
def test_what_has_to_be_read_or_gone_through_leads_there(wanted: Task, leads_to: str) -> None:
    finished = done(yard(), wanted, JUNE)
    assert (finished.leads_to, finished.change, finished.records) == (leads_to, {}, ())


def test_a_zone_that_was_removed_is_said_so() -> None:
    with pytest.raises(OwnerError, match="Front is no longer drawn"):
        done(yard(SIDE), task("mow"), JUNE)


@pytest.mark.parametrize("mixed", [(), (task("mow"), task("water", minutes=9.0))])
def test_tasks_of_one_kind_are_wanted(mixed: tuple[Task, ...]) -> None:
    with pytest.raises(ValueError, match="one kind"):
        done_together(yard(), mixed, JUNE)


def test_new_records_stand_last_in_their_tables() -> None:
    earlier = Watering(id="w0", date=JUNE, zone="z1", minutes=5, rank=4)
    book = yard(zone(), SIDE, waterings=[earlier])
    other = task("water", key="water:z2", zone_id="z2", zone="Side", minutes=20.0)
    then = after(book, done_together(book, (task("water", minutes=9.0), other), JUNE))
    assert [each.rank for each in then.waterings.values()] == [4, 5, 6]


def test_it_is_one_step_of_undo(tmp_path: Path) -> None:
    book = OpenNotebook.create(tmp_path / "a.lawnbook", yard(zone(), SIDE), JUNE)
    before = book.notebook
    other = task("water", key="water:z2", zone_id="z2", zone="Side", minutes=20.0)
    finished = done_together(book.notebook, (task("water", minutes=9.0), other), JUNE)
    book.edit(finished.change, finished.label)
    assert len(book.notebook.waterings) == 2
    assert book.undo_label == finished.label
    book.undo()
    assert book.notebook == before
    book.close()


@pytest.mark.parametrize(
    ("record", "words"),
    [
        (Watering(id="a", date=JUNE, zone="z1", depth_in=0.5), "0.5 in on Front"),
        (SoilTest(id="a", date=JUNE, zone="z1"), "soil test of Front"),
        (Care(id="a", date=JUNE, kind="aeration"), "aeration, whole yard"),
        (Feeding(id="a", date=JUNE, product="p9", pounds={"z9": 2.0}), "2 lb on a zone that was"),
    ],
)
def test_what_was_recorded_is_told(record: Any, words: str) -> None:
    finished = Done(change={}, label="", records=(("any", record),))
    assert words in recorded_words(yard(), finished)
