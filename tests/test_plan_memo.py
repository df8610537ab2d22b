"""A plan that remembers the plan before it is the plan from nothing, whatever was edited."""

from collections.abc import Callable, Hashable
from dataclasses import replace
from datetime import timedelta
from functools import cache
from typing import TypeVar

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.plan.make import make_plan
from lawnbook.plan.memo import MadeFrom, Memo
from lawnbook.plan.model import Plan
from lawnbook.store.yardfile import load_any
from lawnbook.yard.check import check_notebook
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import Change, Notebook, apply, inverse, put
from lawnbook.yard.places import sample_yards
from lawnbook.yard.problems import OwnerError, refused
from lawnbook.yard.records import SINGLES, TABLES, Core, Record, Watering, WeatherDay
from tests.conftest import TODAY
from tests.strategies import notebooks, records_of

T = TypeVar("T")


@cache
def sample() -> Notebook:
    """The smallest of the sample yards."""
    return load_any(next(each for each in sample_yards() if each.stem == "hollow_bank"), TODAY)


@st.composite
def edits(draw: st.DrawFn, notebook: Notebook) -> Change:
    """A record of any table added, changed or taken away, so that the notebook stays valid."""
    table = draw(st.sampled_from(sorted(TABLES)))
    held = notebook.table(table)
    known = draw(st.sampled_from(sorted(held))) if held else None
    if known is not None and table not in SINGLES and draw(st.booleans()):
        try:
            return remove(notebook, table, known)
        except OwnerError:
            return {}
    new = known is None or (table not in SINGLES and draw(st.booleans()))
    refs = {name: list(notebook.table(name)) for name in TABLES if name not in SINGLES}
    drawn: st.SearchStrategy[Record] = records_of(
        TABLES[table], refs, "neworder" if new or known is None else known
    )
    if drawn.is_empty:
        return {}
    record = draw(drawn)
    before = held.get(record.id)
    return put(notebook, table, record if before is None else replace(record, rank=before.rank))


def edited(book: Notebook, change: Change) -> Notebook | None:
    """The notebook after a change, None where it would not be kept."""
    after = apply(book, change)
    return None if refused(check_notebook(after, TODAY)) else after


@given(st.one_of(notebooks(), st.builds(sample)), st.data())
@settings(max_examples=25)
def test_with_a_memo_the_plan_is_the_plan_from_nothing(book: Notebook, data: st.DataObject) -> None:
    """Edits and undo in a row; every field of every plan is read at the end, promises too."""
    memo = Memo()
    made: list[tuple[Notebook, Plan]] = []
    done: list[Change] = []
    for _ in range(data.draw(st.integers(1, 4), label="edits")):
        made.append((book, make_plan(book, TODAY, memo)))
        undo: bool = data.draw(st.booleans(), label="undo")
        if done and undo:
            book = apply(book, inverse(done.pop()))
            continue
        change = data.draw(edits(book))
        after = edited(book, change)
        if after is not None:
            book = after
            done.append(change)
    made.append((book, make_plan(book, TODAY, memo)))
    for each, plan in made:
        assert plan == make_plan(each, TODAY)


class Forgetful(Memo):
    """A memo with a planted fault: of what one part was made from, it leaves one thing out."""

    def __init__(self, part: str, left_out: int) -> None:
        """Leave out a place in what the part of a name, or of each zone under it, is made from."""
        super().__init__()
        self._part, self._left_out = part, left_out

    def part(self, name: Hashable, made_from: MadeFrom, make: Callable[[], T]) -> T:
        """The same with the fault."""
        stem = name[0] if isinstance(name, tuple) else name
        if stem == self._part:
            place = self._left_out
            made_from = (*made_from[:place], *made_from[place + 1 :])
        return super().part(name, made_from, make)


def zone_id() -> str:
    """The first irrigated zone."""
    return next(zone.id for zone in sample().zones.values() if zone.irrigated)


def watered(book: Notebook) -> Change:
    """A watering of today."""
    return put(book, "waterings", Watering(id="w", date=TODAY, zone=zone_id(), depth_in=0.6))


def plugged(book: Notebook) -> Change:
    """A plug with shallow roots, at a spot of the zone."""
    spot = next(each.id for each in book.spots.values() if each.zone == zone_id())
    return put(
        book, "cores", Core(id="c", date=TODAY, spot=spot, thatch_in=(0.3,), root_depth_in=1.0)
    )


def warmed(book: Notebook) -> Change:
    """Today's weather as hot as can be."""
    rest = {day.date: day for day in book.weather.values()}
    hot = WeatherDay(id=TODAY.isoformat(), date=TODAY, tmin_f=80.0, tmax_f=110.0)
    return put(book, "weather", replace(hot, id=rest[TODAY].id if TODAY in rest else hot.id))


def renamed(book: Notebook) -> Change:
    """A zone under another name."""
    return put(book, "zones", replace(book.zones[zone_id()], name="Otherwise"))


def fed_less(book: Notebook) -> Change:
    """An owner's rule on the year's nitrogen."""
    return put(book, "n_rules", replace(book.n_rules, year_lb=0.5))


FAULTS = {
    "a zone's waterings": ("water", 1, watered),
    "a zone's plugs": ("water", 3, plugged),
    "plugs by spot": ("cores", 0, plugged),
    "weather": ("weather", 0, warmed),
    "what all zones share": ("small", 2, renamed),
    "waterings whose water carries nitrogen": ("nitrogen", 1, watered),
    "rules of feeding": ("dry", 2, fed_less),
}


@pytest.mark.parametrize(("part", "left_out", "change"), FAULTS.values(), ids=FAULTS)
def test_a_part_that_leaves_something_out_is_found(
    part: str, left_out: int, change: Callable[[Notebook], Change]
) -> None:
    """Each edit shows in the plan with a memo, and does not where its dependency is left out."""
    book = sample()
    book = replace(book, yard=replace(book.yard, water_n_mg_per_l=10.0))
    after = apply(book, change(book))
    whole = make_plan(after, TODAY)
    assert whole != make_plan(book, TODAY)
    sound, faulty = Memo(), Forgetful(part, left_out)
    for memo in (sound, faulty):
        make_plan(book, TODAY, memo)
    assert make_plan(after, TODAY, sound) == whole
    assert make_plan(after, TODAY, faulty) != whole


def test_a_memo_holds_no_more_than_the_last_plan_used() -> None:
    book, memo = sample(), Memo()
    make_plan(book, TODAY, memo)
    size = memo.size
    for days in range(3):
        that = TODAY - timedelta(days=days)
        book = apply(
            book, put(book, "waterings", Watering(id=f"w{days}", date=that, zone=zone_id()))
        )
        make_plan(book, TODAY, memo)
    assert memo.size == size
    without = remove(book, "zones", zone_id())
    make_plan(apply(book, without), TODAY, memo)
    assert memo.size < size


def test_what_is_told_apart_by_value_and_what_by_identity() -> None:
    memo, rows = Memo(), [1.0]
    made = iter(range(100))

    def at(*made_from: object) -> int:
        memo.begin()
        found = memo.part("part", made_from, lambda: next(made))
        memo.end()
        return found

    assert at(TODAY, rows, (rows, 1)) == 0
    assert at(TODAY + timedelta(days=0), rows, (rows, 1)) == 0
    assert at(TODAY, [1.0], (rows, 1)) == 1
    assert at(TODAY, [1.0]) == 2
    assert at(TODAY, (1,)) == 3
    assert at(TODAY, (True,)) == 4


def test_a_plan_that_fails_leaves_the_memo_as_it_was() -> None:
    book, memo = sample(), Memo()
    plan = make_plan(book, TODAY, memo)

    def fail() -> object:
        raise ValueError("planted")

    memo.begin()
    with pytest.raises(ValueError, match="planted"):
        memo.part("one more", (), fail)
    assert make_plan(book, TODAY, memo) == plan
