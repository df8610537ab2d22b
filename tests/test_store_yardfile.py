"""The yard file: lossless both ways, and strict with a sentence for whatever cannot be kept."""

import copy
import json
import math
import os
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from lawnbook.store.files import write_text_whole
from lawnbook.store.sqlite_store import create
from lawnbook.store.weather_csv import read_weather_file
from lawnbook.store.yardfile import (
    load_any,
    load_checked,
    read_yard_checked,
    read_yard_text,
    write_yard_text,
)
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.places import sample_yards
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import TABLES
from tests.conftest import TODAY
from tests.small_book import small_notebook
from tests.strategies import notebooks

QUICK = settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
SQUARE = [[0, 0], [10, 0], [10, 10], [0, 10]]


def yard_file(**tables: Any) -> dict[str, Any]:
    """A small yard file as plain values, with other tables put in."""
    plain: dict[str, Any] = {
        "format": "lawnbook-yard",
        "version": 1,
        "yard": {"name": "Home"},
        "zones": [{"name": "Front", "outline_ft": SQUARE}, {"name": "Back", "outline_ft": SQUARE}],
        "spots": [{"name": "Elm", "zone": "front"}],
        "products": [{"name": "Ten", "n_pct": 10}],
    }
    return plain | tables


def read(plain: dict[str, Any], folder: Path | None = None) -> Notebook:
    """The notebook of plain values."""
    return read_yard_text(json.dumps(plain), TODAY, folder)


def refusal(plain: dict[str, Any] | str, folder: Path | None = None) -> str:
    """The sentence with which a yard file is refused."""
    text = plain if isinstance(plain, str) else json.dumps(plain)
    with pytest.raises(OwnerError) as caught:
        read_yard_text(text, TODAY, folder)
    return str(caught.value)


@QUICK
@given(notebook=notebooks())
def test_a_notebook_comes_back_from_its_text(notebook: Notebook) -> None:
    text = write_yard_text(notebook)
    again = read_yard_text(text, TODAY, None)
    assert again == notebook
    assert write_yard_text(again) == text
    for name in TABLES:
        assert list(again.table(name)) == list(notebook.table(name))


@QUICK
@given(notebook=notebooks())
def test_text_to_notebook_file_to_text_is_the_same(
    notebook: Notebook, tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.mktemp("book") / "a.lawnbook"
    text = write_yard_text(notebook)
    create(path, read_yard_text(text, TODAY, None))
    assert write_yard_text(load_any(path, TODAY)) == text


@pytest.mark.parametrize("path", sample_yards(), ids=lambda path: path.stem)
def test_the_sample_yards_are_read_without_a_question(path: Path) -> None:
    checked = load_checked(path, date(2026, 11, 25))
    assert checked.questions == ()
    assert len(checked.notebook.weather) > 300, "their weather lies in a file beside them"
    text = write_yard_text(checked.notebook)
    assert read_yard_text(text, date(2026, 11, 25), None) == checked.notebook


def test_the_text_has_one_record_a_line() -> None:
    lines = write_yard_text(small_notebook()).splitlines()
    assert lines == [
        "{",
        '  "format": "lawnbook-yard",',
        '  "version": 1,',
        '  "yard": {"name": "Small"},',
        '  "zones": [',
        '    {"id": "front", "name": "Front", "outline_ft": [[0, 0], [30, 0], [30, 20]]}',
        "  ],",
        '  "spots": [',
        '    {"id": "elm", "name": "Elm", "zone": "front"}',
        "  ]",
        "}",
    ]


def test_references_are_ids_or_unique_names_in_any_case() -> None:
    plain = yard_file(
        feedings=[{"date": "2026-05-01", "product": " TEN ", "pounds": {"Front": 1, "back": 2}}],
        care=[{"date": "2026-05-01", "kind": "core", "zones": ["FRONT"]}],
    )
    notebook = read(plain)
    ids = {zone.name: zone.id for zone in notebook.zones.values()}
    (feeding,) = notebook.feedings.values()
    assert dict(feeding.pounds) == {ids["Front"]: 1.0, ids["Back"]: 2.0}
    assert feeding.product in notebook.products
    assert [care.zones for care in notebook.care.values()] == [(ids["Front"],)]
    assert [spot.zone for spot in notebook.spots.values()] == [ids["Front"]]


def test_an_id_goes_before_a_name() -> None:
    plain = yard_file()
    plain["zones"][0]["id"] = "Back"
    plain["spots"][0]["zone"] = "Back"
    notebook = read(plain)
    (spot,) = notebook.spots.values()
    assert spot.zone is not None
    assert notebook.zones[spot.zone].name == "Front"


def test_records_without_an_id_get_one_of_their_own() -> None:
    first, second = read(yard_file()), read(yard_file())
    assert len({*first.zones, *second.zones}) == 4
    days = read(yard_file(weather=[{"date": "2026-05-01", "rain_in": 0.2}], climate=[{"month": 3}]))
    assert list(days.weather) == ["2026-05-01"]
    assert list(days.climate) == ["03"]


def without(plain: dict[str, Any], key: str) -> dict[str, Any]:
    """The plain values without one of them."""
    return {name: value for name, value in plain.items() if name != key}


FINITE = ("yard.elevation_ft:", "finite number; enter the figure or leave the field out")
REFUSED: dict[str, tuple[dict[str, Any] | str, tuple[str, ...]]] = {
    "no JSON": ('{"format": "lawnbook-yard",\n', ("line 2, column 1", "mend it there")),
    "a list": ("[]", ("format:",)),
    "NaN": (yard_file(yard={"name": "H", "elevation_ft": math.nan}), FINITE),
    "infinity": (yard_file(yard={"name": "H", "elevation_ft": -math.inf}), FINITE),
    "NaN in a list": (
        yard_file(cores=[{"spot": "Elm", "date": "2026-05-01", "thatch_in": [0.5, math.nan]}]),
        ("cores[0].thatch_in[1]:", "finite number"),
    ),
    "NaN for a version": (yard_file(version=math.nan), ("version:", "enter 1")),
    "nothing": (" \n", ("the file is empty", "choose another")),
    "a key twice": ('{"format": 1, "format": 2}', ('"format" stands twice', "keep one")),
    "bottomless": ("[" * 100_000, ("nested too deeply; this is no yard file",)),
    "endless digits": (
        '{"format": "lawnbook-yard", "version": 1, "yard": {"name": "H", "elevation_ft": '
        + "9" * 5000
        + "}}",
        FINITE,
    ),
    "a long unknown field": (
        yard_file(yard={"name": "H", "k" * 5000: 1}),
        (f"yard.{'k' * 40}: There is no field",),
    ),
    "a long unknown word": (
        yard_file(yard={"name": "H", "units": "k" * 5000}),
        ("yard.units:", f'and is "{"k" * 40}".'),
    ),
    "pounds below nothing": (
        yard_file(feedings=[{"date": "2026-05-01", "product": "Ten", "pounds": {"front": -1}}]),
        ("feedings[0].pounds.Front:", "enter more than 0 lb"),
    ),
    "weather of the future in a table": (
        yard_file(weather_csv="date,rain_in\n\n2031-05-01,1\n"),
        ("weather_csv 2031-05-01.date:", "is in the future"),
    ),
    "another format": (yard_file(format="plan"), ("format:", "lawnbook-yard")),
    "a newer version": (yard_file(version=2), ("version:", "update Lawnbook")),
    "no version": (without(yard_file(), "version"), ("version:", "enter 1")),
    "true as version": (yard_file(version=True), ("version:",)),
    "no yard": (without(yard_file(), "yard"), ("yard:", '"yard": {"name"')),
    "an unknown table": (yard_file(zone=[]), ("zone:", 'did you mean "zones"?')),
    "a table that is none": (yard_file(zones={}), ("zones:", "in brackets")),
    "an unknown field": (
        yard_file(spots=[{"name": "Elm", "zoen": "Front"}]),
        ("spots[0].zoen (Elm):", 'did you mean "zone"?'),
    ),
    "a missing field": (
        yard_file(zones=[{"name": "Front"}]),
        ("zones[0].outline_ft (Front):", "missing"),
    ),
    "a number out of limits": (
        yard_file(products=[{"name": "Ten", "n_pct": 110}]),
        ("products[0].n_pct (Ten):", "Nitrogen"),
    ),
    "a number too large for a float": (
        '{"format": "lawnbook-yard", "version": 1, "yard": {"name": "H", "latitude_deg": 1e999}}',
        ("yard.latitude_deg:", "finite"),
    ),
    "an unknown reference": (
        yard_file(spots=[{"name": "Elm", "zone": "Side"}]),
        ("spots[0].zone (Elm):", '"Side"', "choose Front, Back"),
    ),
    "an id twice": (
        yard_file(spots=[{"id": "a", "name": "Elm"}, {"id": "a", "name": "Oak"}]),
        ("spots[1].id:", "spots[0]"),
    ),
    "a zone by name and by id": (
        yard_file(
            zones=[{"id": "f", "name": "Front", "outline_ft": SQUARE}],
            spots=[],
            feedings=[{"date": "2026-05-01", "product": "Ten", "pounds": {"f": 1, "Front": 1}}],
        ),
        ("feedings[0]:", "stands twice"),
    ),
    "the future": (
        yard_file(care=[{"date": "2031-05-01", "kind": "core"}]),
        ("care[0].date:", "future"),
    ),
    "weather twice": (
        yard_file(weather=[], weather_csv="date\n"),
        ("weather_csv:", "given twice"),
    ),
    "weather as a number": (yard_file(weather_csv=3), ("weather_csv:", "must be text")),
    "weather from another folder": (
        yard_file(weather_csv="../rain.csv"),
        ("weather_csv:", "bare name"),
    ),
    "weather without a folder": (yard_file(weather_csv="rain.csv"), ("weather_csv:", "no folder")),
    "a lone surrogate": (
        '{"format": "lawnbook-yard", "version": 1, "yard": {"name": "\\ud800"}}',
        ("yard.name:", "cannot be shown"),
    ),
}


@pytest.mark.parametrize("what", REFUSED)
def test_what_cannot_be_kept_is_refused_with_its_place_and_mend(what: str) -> None:
    plain, parts = REFUSED[what]
    sentence = refusal(plain)
    assert sentence.startswith(parts[0]) or parts[0] in sentence
    for part in parts:
        assert part in sentence


CSV_REFUSED = [
    ("date,rian\n2026-05-01,1\n", ("rain.csv line 1", 'no column "rian"', "did you mean rain?")),
    ("date,rain\n2026-05-01,1\n", ("rain.csv line 1.rain", "name it rain_in or rain_mm")),
    ("rain_in\n1\n", ("rain.csv line 1", "column date is missing")),
    ("date,rain_in,rain_in\n", ("rain.csv line 1", "stands twice")),
    ("date,rain_in\n2026-05-01,lots\n", ("rain.csv line 2.rain_in", "must be a number")),
    ("date,rain_in\n2026-05-01,nan\n", ("rain.csv line 2.rain_in", "must be a number")),
    ("date,rain_in\n2026-05-01,٣\n", ("rain.csv line 2.rain_in", "must be a number")),
    ("date,rain_in\n2026-05-01,-1\n", ("rain.csv line 2.rain_in", "enter 0 in or more")),
    ("date,rain_in\n2026-05-01,1_0\n", ("rain.csv line 2.rain_in", "must be a number")),
    (
        "date,rain_in\n05/01/2026,1\n5/12/2026,1\n",
        ("rain.csv line 2.date", '"05/01/2026" may be month/day or day/month', "2026-11-16"),
    ),
    ("date\n5/16/2026\n\n16/5/2026\n", ("line 4.date", '"16/5/2026" is no day as month/day/year')),
    ("date\n5/16/2026\n2026-05-17\n", ("rain.csv line 2.date", "such as 2026-06-15")),
    ("date\n5/16/26\n", ("rain.csv line 2.date", "such as 2026-06-15")),
    (
        "date,rain_in\n05/16/2026,1\n5/16/2026,2\n",
        ("rain.csv line 3", "2026-05-16 stands twice"),
    ),
    (
        "date,tmin_f,tmax_f\n2026-05-01,60,50\n",
        ("rain.csv line 2.tmin_f", "is above the highest"),
    ),
    ("date,rain_in\n,1\n", ("rain.csv line 2.date", "missing")),
    ("date,rain_in\n2026-05-01,1,2\n", ("rain.csv line 2", "more cells than columns")),
    (
        "date,rain_in\n2026-05-01,1\n2026-05-01,\n",
        ("rain.csv line 3", "2026-05-01 stands twice"),
    ),
    ("", ("rain.csv line 1", "date is missing")),
]


@pytest.mark.parametrize(("table", "parts"), CSV_REFUSED)
def test_a_weather_table_is_refused_with_its_line(
    tmp_path: Path, table: str, parts: tuple[str, ...]
) -> None:
    (tmp_path / "rain.csv").write_text(table, encoding="utf-8")
    sentence = refusal(yard_file(weather_csv="rain.csv"), tmp_path)
    assert sentence.startswith("weather_csv: ")
    for part in parts:
        assert part in sentence


def test_a_weather_table_is_read_from_a_file_or_the_text_alike(tmp_path: Path) -> None:
    table = "date, tmin_f,rain_in\n2026-05-01,40.5,\n\n2026-04-30,,.25\n"
    (tmp_path / "rain.csv").write_text("\ufeff" + table.replace("\n", "\r\n"), encoding="utf-8")
    by_file = read(yard_file(weather_csv="rain.csv"), tmp_path).weather
    by_text = read(yard_file(weather_csv=table)).weather
    assert by_file == by_text
    assert [(day.id, day.tmin_f, day.rain_in) for day in by_file.values()] == [
        ("2026-05-01", 40.5, None),
        ("2026-04-30", None, 0.25),
    ]


def test_days_may_be_written_otherwise_where_that_leaves_no_doubt(tmp_path: Path) -> None:
    days = {}
    written = {
        "us": ("5/2/2026", "05/16/2026"),
        "others": ("2/5/2026", "16/05/2026"),
        "run on": ("20260502", "20260516"),
        "iso": ("2026-05-02", "2026-05-16"),
    }
    for name, dates in written.items():
        table = "rain_in,date\n" + "".join(f"0.2,{each}\n\n" for each in dates)
        (tmp_path / name).write_text(table, encoding="utf-8")
        days[name] = read_weather_file(tmp_path / name)
    assert days["us"] == days["others"] == days["run on"] == days["iso"]
    assert [day.id for day in days["us"]] == ["2026-05-02", "2026-05-16"]


def test_a_missing_weather_file_is_named(tmp_path: Path) -> None:
    sentence = refusal(yard_file(weather_csv="rain.csv"), tmp_path)
    assert sentence.startswith("weather_csv: rain.csv: there is no such file")


def test_a_value_like_a_slip_is_a_question_not_a_refusal() -> None:
    plain = yard_file(cores=[{"spot": "Elm", "date": "2026-05-01", "thatch_in": [7.5]}])
    checked = read_yard_checked(json.dumps(plain), TODAY, None)
    (question,) = checked.questions
    assert question.where == "cores[0].thatch_in[0]"
    assert [core.thatch_in for core in checked.notebook.cores.values()] == [(7.5,)]


@pytest.mark.parametrize(
    ("spoil", "part"),
    [
        (lambda path: path.write_bytes(b"\xff\xfe{\x00}\x00"), "not UTF-8 text"),
        (lambda path: path.write_bytes("{}".encode("utf-16-le")), "not UTF-8 text"),
        (lambda path: path.write_text("{"), "line 1, column 2"),
        (lambda path: path.unlink(), "there is no such file"),
    ],
)
def test_a_file_is_named_before_what_is_wrong_in_it(
    tmp_path: Path, spoil: Callable[[Path], object], part: str
) -> None:
    path = tmp_path / "home.json"
    path.write_text(json.dumps(yard_file()))
    spoil(path)
    with pytest.raises(OwnerError) as caught:
        load_any(path, TODAY)
    assert str(caught.value).startswith("home.json: ")
    assert part in str(caught.value)


def test_a_file_too_large_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "rain.csv"
    with path.open("wb") as handle:
        handle.truncate(17 * 2**20)
    sentence = refusal(yard_file(weather_csv="rain.csv"), tmp_path)
    assert "larger than 16 MB" in sentence


def test_a_failed_write_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "home.json"
    path.write_text("old")

    def no_space(_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", no_space)
    with pytest.raises(OwnerError, match=r"home\.json: cannot be written here \(no space left"):
        write_text_whole(path, "new")
    assert path.read_text() == "old"
    assert [each.name for each in tmp_path.iterdir()] == ["home.json"]


def test_every_table_of_the_contract_is_known() -> None:
    plain = copy.deepcopy(yard_file())
    for table in TABLES:
        plain.setdefault(table, {} if table in {"n_rules", "water_rules"} else [])
    assert len(read(plain).zones) == 2
