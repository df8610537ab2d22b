"""Tables: in the order of ranks, and groups that follow every edit as if reckoned anew."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.yard.notebook import apply, as_of, new_notebook, put, with_tables
from lawnbook.yard.records import Feeding, Watering
from lawnbook.yard.table import Table, grouped, latest, table_of, until

START = date(2026, 1, 1)
waterings = st.builds(
    Watering,
    id=st.sampled_from("abcdefgh"),
    rank=st.integers(0, 4),
    date=st.integers(0, 5).map(lambda n: START + timedelta(days=n)),
    zone=st.sampled_from(("z1", "z2", "z3")),
    minutes=st.just(10.0),
)
deltas = st.lists(st.one_of(waterings, st.sampled_from("abcdefgh")), max_size=4).map(
    lambda each: {row if isinstance(row, str) else row.id: _or_none(row) for row in each}
)


def _or_none(row: Watering | str) -> Watering | None:
    return None if isinstance(row, str) else row


def _anew(table: Table[Watering]) -> Table[Watering]:
    return table_of(table.values())


@given(st.lists(waterings, max_size=8), st.lists(deltas, max_size=4))
def test_what_is_remembered_follows_every_edit(
    rows: list[Watering], edits: list[dict[str, Watering | None]]
) -> None:
    table = table_of(rows)
    grouped(table, "zone")
    latest(table)
    held = dict(table)
    for delta in edits:
        for key, after in delta.items():
            if after is None:
                held.pop(key, None)
            else:
                held[key] = after
        held = dict(sorted(held.items(), key=lambda item: item[1].rank))
        table = table.changed(delta)
        assert list(table.items()) == list(held.items())
        assert table.grouped("zone") == _anew(table).grouped("zone")
        assert table.latest == _anew(table).latest


def test_a_group_that_an_edit_does_not_touch_is_the_same_tuple() -> None:
    book = with_tables(
        new_notebook("Home"),
        {
            "waterings": [
                Watering(id=f"w{n}", rank=n, date=START, zone=f"z{n % 3}", minutes=5.0)
                for n in range(9)
            ]
        },
    )
    before = grouped(book.waterings, "zone")
    new = Watering(id="new", date=START, zone="z1", minutes=7.0)
    after = grouped(apply(book, put(book, "waterings", new)).waterings, "zone")
    assert after["z0"] is before["z0"]
    assert after["z2"] is before["z2"]
    assert [each.id for each in after["z1"]] == ["w1", "w4", "w7", "new"]
    moved = grouped(
        apply(book, put(book, "waterings", replace(book.waterings["w1"], zone="z2"))).waterings,
        "zone",
    )
    assert [each.id for each in moved["z2"]] == ["w1", "w2", "w5", "w8"]
    assert [each.id for each in moved["z1"]] == ["w4", "w7"]


def test_a_feeding_is_in_the_group_of_each_of_its_zones() -> None:
    feeding = Feeding(id="f", date=START, product="p", pounds={"z1": 2.0, "z2": 3.0})
    assert grouped(table_of([feeding]), "pounds") == {"z1": (feeding,), "z2": (feeding,)}


@pytest.mark.parametrize("days", [0, 1, 2, 3])
def test_until_keeps_the_table_itself_where_nothing_is_later(days: int) -> None:
    rows = [
        Watering(id=f"w{n}", date=START + timedelta(days=n), zone="z", minutes=1.0)
        for n in range(3)
    ]
    table = table_of(rows)
    on = START + timedelta(days=days)
    assert list(until(table, on)) == [each.id for each in rows if each.date <= on]
    assert (until(table, on) is table) == (days >= 2)


def test_a_notebook_made_of_plain_mappings_holds_tables() -> None:
    book = new_notebook("Home")
    row = Watering(id="w", date=START, zone="z", minutes=1.0)
    held = replace(book, waterings={"w": row})
    assert isinstance(held.waterings, Table)
    assert held.waterings == {"w": row}
    assert as_of(held, START).waterings is held.waterings
