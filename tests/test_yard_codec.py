"""Records to plain values and back: lossless, and every wrong value named with its mend."""

import json
import math
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings

from lawnbook.yard.check import check_notebook
from lawnbook.yard.codec import from_plain, settled_id, to_plain
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import refused
from lawnbook.yard.records import TABLES, ClimateMonth, Core, Record, WeatherDay, Yard, Zone
from tests.conftest import TODAY
from tests.strategies import notebooks


def _back(record: Record, where: str) -> Record | None:
    text = json.dumps(to_plain(record), allow_nan=False)
    read, problems = from_plain(type(record), json.loads(text), where)
    assert problems == ()
    return read


@settings(deadline=None, max_examples=40)
@given(notebooks())
def test_every_record_comes_back_from_json_as_it_was(notebook: Notebook) -> None:
    """Rank is the place in the list, so it alone is left to the reader."""
    for table in TABLES:
        for record in notebook.table(table).values():
            read = _back(record, table)
            assert read is not None
            plain = to_plain(read)
            assert plain == to_plain(record)
            assert read == replace(record, rank=0)


@settings(deadline=None, max_examples=40)
@given(notebooks())
def test_the_drawn_notebooks_are_valid(notebook: Notebook) -> None:
    """The strategies serve other tests, so they must not draw what would be refused."""
    assert refused(check_notebook(notebook, TODAY)) == ()


def test_defaults_are_left_out_and_whole_numbers_stay_whole() -> None:
    """A file is written as a person would write it."""
    zone = Zone(id="z", name="Front", outline_ft=((0.0, 0.0), (40.0, 0.0), (40.0, 20.5)))
    assert to_plain(zone) == {
        "id": "z",
        "name": "Front",
        "outline_ft": [[0, 0], [40, 0], [40, 20.5]],
    }


ZONE: dict[str, Any] = {"name": "Front", "outline_ft": [[0, 0], [4, 0], [4, 4]]}
CORE: dict[str, Any] = {"spot": "A", "date": "2026-05-01"}


@pytest.mark.parametrize(
    ("kind", "changes", "where", "words"),
    [
        (Zone, {"name": None}, "t[0].name", "Name must be text in quotes, and is null"),
        (Zone, {"name": "a\x00b"}, "t[0].name", "cannot be shown (code 0); take it out"),
        (Zone, {"name": "a\ud800"}, "t[0].name", "cannot be shown (code 55296)"),
        (Zone, {"name": 3}, "t[0].name", "and is a number"),
        (Zone, {"outline_ft": 3}, "t[0].outline_ft", "must be a list in brackets"),
        (Zone, {"outline_ft": [[0]]}, "t[0].outline_ft[0]", "must have 2 entries here, and has 1"),
        (Zone, {"outline_ft": [[0, "a"]]}, "t[0].outline_ft[0][1]", 'is the text "a"'),
        (Zone, {"outline_ft": [[0, True]]}, "t[0].outline_ft[0][1]", "a number, and is true"),
        (Zone, {"slope_pct": False}, "t[0].slope_pct", "a number, and is false"),
        (Zone, {"slope_pct": math.nan}, "t[0].slope_pct", "must be a finite number"),
        (Zone, {"slope_pct": math.inf}, "t[0].slope_pct", "must be a finite number"),
        (Zone, {"slope_pct": 10**400}, "t[0].slope_pct", "must be a finite number"),
        (Zone, {"irrigated": 1}, "t[0].irrigated", "must be true or false, and is a number"),
        (Zone, {"grass": "cooll"}, "t[0].grass", 'and is "cooll"; did you mean "cool"?'),
        (Zone, {"grass": 1}, "t[0].grass", "must be one of cool, warm, and is a number"),
        (Zone, {"slope": 1}, "t[0].slope", 'no field "slope" here; did you mean "slope_pct"?'),
        (Zone, {"qqq": 1}, "t[0].qqq", "known are name, outline_ft"),
        (Zone, {"rank": 1}, "t[0].rank", 'no field "rank" here'),
        (Zone, {"habit": 5}, "t[0].habit", "in braces with minutes, days_per_week"),
        (Zone, {"habit": {"minutes": 5}}, "t[0].habit.days_per_week", "Days a week is missing"),
        (
            Zone,
            {"established": {"how": "seed", "dat": 1}},
            "t[0].established.dat",
            'did you mean "date"?',
        ),
        (Zone, {"id": 5}, "t[0].id", "The id must be text, and is a number"),
        (Zone, {"id": ""}, "t[0].id", "must have 1 to 64 letters"),
        (Core, {"thatch_in": [0.5, "x"]}, "t[0].thatch_in[1]", "Thatch must be a number"),
        (Core, {"worms": 2.5}, "t[0].worms", "must be a whole number, and is 2.5"),
        (Core, {"date": "15.6.2026"}, "t[0].date", "a date such as 2026-06-15"),
        (Core, {"date": "2026-W25-1"}, "t[0].date", "a date such as 2026-06-15"),
        (Core, {"date": "20260615"}, "t[0].date", "a date such as 2026-06-15"),
        (Core, {"date": "2026-02-30"}, "t[0].date", "which no calendar has"),
        (Core, {"date": 20260615}, "t[0].date", "and is a number"),
    ],
)
def test_a_wrong_value_is_named_with_its_path_and_mend(
    kind: type[Record], changes: dict[str, Any], where: str, words: str
) -> None:
    """One value wrong, one problem, at its place."""
    base = ZONE if kind is Zone else CORE
    record, problems = from_plain(kind, {**base, **changes}, "t[0]")
    assert record is None
    assert [problem.where for problem in problems] == [where]
    assert words in problems[0].sentence
    assert problems[0].severity == "refuse"


def test_a_missing_field_says_what_to_add() -> None:
    """Every field without a default is asked for by name."""
    record, problems = from_plain(Core, {}, "cores[2]")
    assert record is None
    assert [(p.where, p.sentence) for p in problems] == [
        ("cores[2].spot", 'Spot is missing: add "spot" to this record.'),
        ("cores[2].date", 'Date is missing: add "date" to this record.'),
    ]


@pytest.mark.parametrize("data", [None, 3, "text", [1], True])
def test_what_is_no_record_is_refused(data: object) -> None:
    """A list or a number where a record belongs."""
    record, problems = from_plain(Zone, data, "zones[0]")
    assert record is None
    assert problems[0].where == "zones[0]"
    assert problems[0].sentence.startswith("This must be a record in braces")


def test_missing_ids_are_made_up_and_settled_ones_cannot_differ() -> None:
    """A day's weather is its date, a climate month its number, a single record its table."""
    one, _ = from_plain(Zone, ZONE, "zones[0]")
    other, _ = from_plain(Zone, ZONE, "zones[1]")
    assert one is not None
    assert other is not None
    assert one.id != other.id
    day, _ = from_plain(WeatherDay, {"date": "2026-05-01"}, "weather[0]")
    assert day is not None
    assert day.id == settled_id(day) == "2026-05-01"
    month, _ = from_plain(ClimateMonth, {"month": 7.0}, "climate[0]")
    assert month is not None
    assert (month.id, month.month) == ("07", 7)
    yard, _ = from_plain(Yard, {"name": "Home"}, "yard")
    assert yard is not None
    assert yard.id == "yard"
    bad, problems = from_plain(WeatherDay, {"date": "2026-05-01", "id": "x"}, "weather[0]")
    assert bad is None
    assert 'must be "2026-05-01", and is "x"; leave it out.' in problems[0].sentence


def test_whole_floats_and_whole_integers_are_each_others_spelling() -> None:
    """JSON does not tell 3 from 3.0; the field does."""
    core, problems = from_plain(Core, {**CORE, "worms": 3.0, "root_depth_in": 4}, "cores[0]")
    assert problems == ()
    assert core is not None
    assert isinstance(core.worms, int)
    assert isinstance(core.root_depth_in, float)
    assert core.date == date(2026, 5, 1)
