"""The calendar file: read back by its library and by a strict reader, and taken in again."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from icalendar import Calendar

from lawnbook.plan.cautions import DIGGING, LABEL
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.plan.season_model import Task, TaskKind
from lawnbook.plan.spreading_plan import a_year_on, spreading_plan
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import told_most
from lawnbook.store.calendar_ics import CATEGORY, calendar_bytes, write_calendar
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feeding
from tests.desk_sample import sample
from tests.ics_reading import ReadEvent, read_events
from tests.plan_fixture import yard_of
from tests.plan_yards import product, yard, zone

SAMPLES = ("hollow_bank", "larkspur_corner", "saltbush_court")
DAYS = (date(2026, 5, 5), date(2026, 6, 15), date(2026, 9, 20), date(2026, 11, 25))
SPRING = date(2026, 3, 1)
WORKING = Working("next", "Next", "1 May 2026", "a ÷ b", "3.7 ÷ 2", (), "common practice")
NASTY = 'Süd, "Hof"; C:\\yard 🌱👩\u200d🌾 ' + "x" * 150


def task(key: str, on: date, kind: TaskKind = "mow", **values: Any) -> Task:
    """A task of a key, mowing unless told otherwise."""
    made = Task(key=key, kind=kind, what=f"Do {key}", date=on, why="It is time.")
    return replace(made, **values)


def plan_with(book: Notebook, on: date, *tasks: Task) -> Plan:
    """The plan of a day with just these tasks."""
    return replace(make_plan(book, on), tasks=tasks)


def events_of(book: Notebook, plan: Plan) -> dict[str, ReadEvent]:
    """The events of a plan and its spreads by UID, which no two share."""
    _, events = read_events(calendar_bytes(book, plan, spreading_plan(book, plan.on)))
    by_uid = {each.uid: each for each in events}
    assert len(by_uid) == len(events)
    return by_uid


def taken_in(held: dict[str, ReadEvent], coming: Iterable[ReadEvent]) -> dict[str, ReadEvent]:
    """A calendar after a file is taken in: of one UID, the higher SEQUENCE (RFC 5546 2.1.5)."""
    merged = dict(held)
    for each in coming:
        if each.uid not in merged or each.sequence >= merged[each.uid].sequence:
            merged[each.uid] = each
    return merged


@pytest.mark.parametrize("stem", SAMPLES)
@pytest.mark.parametrize("on", DAYS)
def test_the_samples_are_read_back_by_library_and_by_rule(stem: str, on: date) -> None:
    book = sample(stem)
    plan = make_plan(book, on)
    spreads = spreading_plan(book, on)
    data = calendar_bytes(book, plan, spreads)
    head, events = read_events(data)
    assert head["NAME"] == head["X-WR-CALNAME"] == plan.yard
    assert all(
        each.starts <= a_year_on(on) and each.ends <= a_year_on(on) + timedelta(1)
        for each in events
    )
    read = Calendar.from_ical(data)
    assert isinstance(read, Calendar)
    found = {str(each["uid"]): each for each in read.events}
    assert found.keys() == {each.uid for each in events}
    for each in events:
        by_library = found[each.uid]
        assert (by_library.start, by_library.end) == (each.starts, each.ends)
        assert str(by_library["summary"]) == each.summary
        assert str(by_library["description"]) == each.description
        assert datetime(on.year, on.month, on.day, tzinfo=UTC) == by_library.DTSTAMP
    fed = {(each.summary, each.starts) for each in events if each.summary.startswith("Feed ")}
    for spread in spreads:
        most = told_most(spread.pounds)
        assert (f"Feed {spread.zone}: up to {most} lb of {spread.product}", spread.date) in fed


@pytest.mark.parametrize("stem", SAMPLES)
def test_every_task_of_the_year_has_one_event(stem: str) -> None:
    book, on = sample(stem), date(2026, 9, 20)
    plan = make_plan(book, on)
    events = list(events_of(book, plan).values())
    near = [each for each in plan.tasks if each.date <= a_year_on(on)]
    assert near
    for each in near:
        what = f"Feed {each.zone}" if each.kind == "feed" else each.what
        same = [
            event
            for event in events
            if event.starts == each.date
            and event.summary.startswith(what)
            and event.description.startswith(each.why)
        ]
        assert len(same) == 1, each.key


def test_an_event_tells_why_the_working_the_last_day_and_the_caution() -> None:
    book = yard(products=[product()])
    plug = task(
        "plug:s1", date(2026, 4, 1), "plug", spot_id="s1", spot="gate", what="Pull a plug",
        latest=date(2026, 5, 31), workings=(WORKING,),
    )  # fmt: skip
    event = events_of(book, plan_with(book, SPRING, plug))["plug:s1@lawnbook.invalid"]
    assert event.summary == "Pull a plug: gate"
    assert event.categories == ("Plugs",)
    assert (event.starts, event.ends) == (date(2026, 4, 1), date(2026, 4, 2))
    for part in (
        "It is time.",
        "Last day that suits: 31 May 2026.",
        "a ÷ b: 3.7 ÷ 2",
        DIGGING,
        "811",
        "From the plan of 1 Mar 2026 for Test yard.",
    ):
        assert part in event.description


def test_care_and_checklists_fill_their_days_and_end_on_the_day_after() -> None:
    book = yard()
    care = task(
        "aeration:z1",
        date(2026, 9, 1),
        "care",
        zone_id="z1",
        zone="Front",
        latest=date(2026, 9, 28),
        care_kind="aeration",
    )
    check = task(
        "winter blow-out:yard", date(2026, 10, 1), "check", latest=date(2026, 10, 20),
        care_kind="winter blow-out",
    )  # fmt: skip
    events = events_of(book, plan_with(book, SPRING, care, check))
    aeration = events["aeration:z1@lawnbook.invalid"]
    assert (aeration.starts, aeration.ends) == (date(2026, 9, 1), date(2026, 9, 29))
    assert DIGGING in aeration.description
    blow_out = events["winter%20blow-out:yard:z1@lawnbook.invalid"]
    assert (blow_out.starts, blow_out.ends) == (date(2026, 10, 1), date(2026, 10, 21))
    assert "licensed" in blow_out.description


def test_nothing_comes_later_than_twelve_months() -> None:
    book = yard()
    last = date(2027, 2, 28)
    tasks = (
        task(
            "aeration:z1",
            date(2027, 2, 1),
            "care",
            zone_id="z1",
            zone="Front",
            latest=date(2027, 3, 20),
        ),
        task("soil test:z1", last, "test", zone_id="z1", zone="Front"),
        task("mow:z1", last + timedelta(1), zone_id="z1", zone="Front"),
    )
    events = events_of(book, plan_with(book, SPRING, *tasks))
    assert "mow:z1@lawnbook.invalid" not in events
    assert "soil%20test:z1@lawnbook.invalid" in events
    assert events["aeration:z1@lawnbook.invalid"].ends == last + timedelta(1)


def test_start_times_of_the_timer_stand_in_the_description() -> None:
    book, on = sample("larkspur_corner"), date(2026, 6, 15)
    plan = make_plan(book, on)
    night = next(each for each in plan.programs if each.timer and each.timer[0].starts)
    first = night.timer[0]
    water = task("water:z", on, "water", zone_id=first.zone_id, zone=first.zone)
    event = events_of(book, replace(plan, tasks=(water,)))["water:z@lawnbook.invalid"]
    assert f"Timer, program {night.program}: " in event.description
    assert first.starts is not None
    assert f"{first.starts:%H:%M} for {first.minutes} min" in event.description


def test_the_next_feeding_stands_once_whether_or_not_it_is_a_task() -> None:
    book = yard(products=[product()])
    spreads = spreading_plan(book, SPRING)
    first = spreads[0]
    feed = task(
        "feed:z1", first.date, "feed", zone_id="z1", zone="Front", pounds=first.pounds,
        product="Half slow", product_id="p1", latest=first.latest,
    )  # fmt: skip
    bare = events_of(book, plan_with(book, SPRING))
    with_task = events_of(book, plan_with(book, SPRING, feed))
    assert bare.keys() == with_task.keys()
    assert len(bare) == len(spreads)
    assert {e.summary for e in bare.values()} == {e.summary for e in with_task.values()}
    assert all(LABEL in each.description for each in with_task.values())


def test_a_word_on_feeding_is_no_feeding() -> None:
    book = yard()
    closed = task("no feed:1", date(2026, 11, 15), "feed", what="Feeding is closed")
    events = events_of(book, plan_with(book, SPRING, closed))
    assert events["no%20feed:1:z1@lawnbook.invalid"].summary == "Feeding is closed"


def test_taken_in_again_it_moves_what_it_has_and_doubles_nothing() -> None:
    book = yard(products=[product()])
    early = plan_with(
        book, SPRING, task("water:z1", date(2026, 5, 2), "water", zone_id="z1", zone="Front")
    )
    later_day = date(2026, 5, 3)
    later = plan_with(
        book, later_day, task("water:z1", date(2026, 5, 9), "water", zone_id="z1", zone="Front")
    )
    first, second = events_of(book, early), events_of(book, later)
    held = taken_in(taken_in({}, first.values()), second.values())
    assert held.keys() == first.keys() | second.keys()
    assert held["water:z1@lawnbook.invalid"].starts == date(2026, 5, 9)
    # An older file does not take back what a newer one has told.
    assert taken_in(held, first.values()) == held
    assert {e.sequence for e in second.values()} == {later_day.toordinal()}
    assert later_day.toordinal() > SPRING.toordinal() > 0


def test_a_feeding_done_stays_where_it_was_and_the_next_ones_keep_their_entries() -> None:
    book = yard(zone(budget_level="full"), products=[product(slow_n_pct=0.0)])
    spreads = spreading_plan(book, SPRING)
    before = events_of(book, plan_with(book, SPRING))
    held = taken_in({}, before.values())
    for done, each in enumerate(spreads, start=1):
        fed = Feeding(id=f"f{done}", date=each.date, product="p1", pounds={"z1": each.pounds})
        book = apply(book, put(book, "feedings", fed))
        on = each.date + timedelta(1)
        coming = [s for s in spreading_plan(book, on) if s.date.year == 2026]
        if not coming:
            break
        _, events = read_events(calendar_bytes(book, plan_with(book, on), coming))
        held = taken_in(held, events)
        assert held.keys() == before.keys()
    assert sorted(e.starts for e in held.values()) == [s.date for s in spreads]


def test_two_notebooks_share_no_uid() -> None:
    on = date(2026, 6, 15)
    uids = [uid for stem in SAMPLES for uid in events_of(sample(stem), make_plan(sample(stem), on))]
    assert len(uids) == len(set(uids))


@pytest.mark.parametrize("stem", SAMPLES)
def test_the_same_plan_gives_the_same_bytes(stem: str) -> None:
    book = sample(stem)
    plan = make_plan(book, DAYS[1])
    spreads = spreading_plan(book, DAYS[1])
    assert calendar_bytes(book, plan, spreads) == calendar_bytes(book, plan, spreads)


ANY_TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=200)


@settings(deadline=None, max_examples=60)
@given(ANY_TEXT, ANY_TEXT)
def test_names_of_any_letters_are_escaped_and_folded(name: str, why: str) -> None:
    book = replace(yard(zone(name=name), products=[product(name=name)]))
    book = replace(book, yard=replace(book.yard, name=name))
    mow = replace(task("mow:z1", date(2026, 5, 1), zone_id="z1", zone=name), why=why)
    data = calendar_bytes(book, plan_with(book, SPRING, mow), spreading_plan(book, SPRING))
    read_events(data)
    Calendar.from_ical(data)


def test_nasty_names_come_back_as_they_were() -> None:
    book = yard(zone(name=NASTY), products=[product(name=NASTY)])
    book = replace(book, yard=replace(book.yard, name=NASTY))
    head, events = read_events(
        calendar_bytes(book, plan_with(book, SPRING), spreading_plan(book, SPRING))
    )
    assert head["NAME"] == NASTY
    assert events[0].summary.startswith(f"Feed {NASTY}: up to ")
    assert events[0].summary.endswith(f"lb of {NASTY}")


def test_no_place_and_no_alarm() -> None:
    book = sample("larkspur_corner")
    data = calendar_bytes(book, make_plan(book, SPRING), spreading_plan(book, SPRING))
    assert not any(each in data for each in (b"VALARM", b"\r\nGEO", b"\r\nLOCATION", b"METHOD"))


def test_every_kind_has_a_category() -> None:
    book = yard()
    tasks = [task(f"{kind}:z1", SPRING, kind, zone_id="z1", zone="Front") for kind in CATEGORY]
    events = events_of(book, plan_with(book, SPRING, *tasks))
    assert {each.categories for each in events.values()} >= {(word,) for word in CATEGORY.values()}


def test_nothing_due_is_explained() -> None:
    book = yard_of(0)
    with pytest.raises(OwnerError, match=r"nothing is due .* 1 Mar 2026; draw a zone"):
        calendar_bytes(book, replace(make_plan(book, SPRING), tasks=()), ())


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("plan.txt", r"A calendar's name ends in \.ics"),
        ("gone/plan.ics", "is not there"),
        ("letter.ics", "is not a calendar"),
        ("folder.ics", "folder"),
    ],
)
def test_a_target_that_will_not_do_is_explained_and_kept(
    tmp_path: Path, name: str, said: str
) -> None:
    (tmp_path / "letter.ics").write_text("Dear neighbour")
    (tmp_path / "folder.ics").mkdir()
    book = yard(products=[product()])
    with pytest.raises(OwnerError, match=said):
        write_calendar(book, make_plan(book, SPRING), tmp_path / name)
    assert sorted(each.name for each in tmp_path.iterdir()) == ["folder.ics", "letter.ics"]
    assert (tmp_path / "letter.ics").read_text() == "Dear neighbour"


def test_a_disk_that_fills_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book, target = yard(products=[product()]), tmp_path / "plan.ics"
    write_calendar(book, make_plan(book, SPRING), target)
    before = target.read_bytes()

    def full(path: Path, data: bytes) -> int:
        path.open("wb").close()
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(OwnerError, match="no space left on device"):
        write_calendar(book, make_plan(book, date(2026, 4, 1)), target)
    assert [each.name for each in tmp_path.iterdir()] == ["plan.ics"]
    assert target.read_bytes() == before
