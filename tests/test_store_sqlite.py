"""The notebook's file: nothing lost, nothing half-written, nothing foreign touched."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from lawnbook.store import migrations
from lawnbook.store.columns import column_names, columns_of
from lawnbook.store.sqlite_store import Store, create, load
from lawnbook.yard.fields import without_none
from lawnbook.yard.notebook import (
    Notebook,
    apply,
    difference,
    inverse,
    put,
)
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import TABLES, Spot
from tests.small_book import rename, small_notebook
from tests.strategies import notebooks

QUICK = settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))


@pytest.fixture
def small() -> Notebook:
    """The small notebook."""
    return small_notebook()


@pytest.fixture
def path(tmp_path: Path, small: Notebook) -> Path:
    """The small notebook as a file."""
    made = tmp_path / "small.lawnbook"
    create(made, small)
    return made


@pytest.fixture
def store(path: Path) -> Iterator[Store]:
    """The file, open and read."""
    opened = Store(path)
    opened.read()
    yield opened
    opened.close()


@QUICK
@given(notebook=notebooks())
def test_a_notebook_comes_back_from_its_file(
    notebook: Notebook, tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.mktemp("book") / "a.lawnbook"
    create(path, notebook)
    assert load(path) == notebook
    assert [list(load(path).table(name)) for name in TABLES] == [
        list(notebook.table(name)) for name in TABLES
    ]


@QUICK
@given(before=notebooks(), after=notebooks())
def test_a_change_leads_from_one_file_to_the_other_and_back(
    before: Notebook, after: Notebook, tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.mktemp("book") / "a.lawnbook"
    create(path, before)
    change = difference(before, after)
    with closing(Store(path)) as store:
        store.read()
        store.write(change)
        assert load(path) == after
        store.write(inverse(change))
    assert load(path) == before


@pytest.mark.parametrize("table", list(TABLES))
def test_the_frozen_schema_fits_the_records(path: Path, table: str) -> None:
    with closing(sqlite3.connect(path)) as raw:
        listed = raw.execute("SELECT strict FROM pragma_table_list WHERE name = ?", (table,))
        assert listed.fetchone() == (1,), "every table is STRICT"
        found = {
            name: (kind, bool(required))
            for name, kind, required in raw.execute(
                'SELECT name, type, "notnull" FROM pragma_table_info(?)', (table,)
            )
        }
        leads = dict(
            raw.execute('SELECT "from", "table" FROM pragma_foreign_key_list(?)', (table,))
        )
    assert sorted(found) == sorted(column_names(table))
    for column in columns_of(table):
        info = column.info
        may_be_null = not info.required and info.default is None
        assert found[column.name] == (column.sql_type, not may_be_null)
        if without_none(info.type) is str and info.rule.refers_to:
            assert leads.pop(column.name) == info.rule.refers_to
    assert not leads


def test_the_header_says_what_it_is(path: Path) -> None:
    header = path.read_bytes()[:100]
    assert header[68:72] == b"LAWN"
    assert int.from_bytes(header[60:64], "big") == migrations.CURRENT_VERSION


def test_no_file_is_left_beside_a_closed_notebook(path: Path, small: Notebook) -> None:
    opened = Store(path)
    opened.read()
    opened.write(rename(small, "Other"))
    opened.close()
    opened.close()
    assert [each.name for each in path.parent.iterdir()] == ["small.lawnbook"]


def test_changes_are_written_all_or_none(store: Store, small: Notebook) -> None:
    dangling = put(small, "spots", Spot(id="oak", name="Oak", zone="nowhere"))
    with pytest.raises(sqlite3.IntegrityError):
        store.write(rename(small, "Other"), dangling)
    assert load(store.path) == small
    store.write(rename(small, "Third"))
    assert load(store.path).yard.name == "Third"


def test_a_zone_and_what_refers_to_it_go_in_any_order(store: Store, small: Notebook) -> None:
    spot = Spot(id="oak", name="Oak", zone="back")
    zone = replace(small.zones["front"], id="back", name="Back")
    change = {**put(small, "spots", spot), **put(small, "zones", zone)}
    store.write(change)
    assert load(store.path) == apply(small, change)


def _text(path: Path) -> None:
    path.write_text("thatch, roots and rain " * 20)


def _foreign(path: Path, pragma: str) -> None:
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("CREATE TABLE plants (name TEXT)")
        raw.execute(pragma)


NOT_OURS: dict[str, Callable[[Path], None]] = {
    "an empty file": Path.touch,
    "text": _text,
    "another database": lambda path: _foreign(path, "PRAGMA application_id = 77"),
    "a database without a name": lambda path: _foreign(path, "PRAGMA user_version = 1"),
}


@pytest.mark.parametrize("what", NOT_OURS)
@pytest.mark.parametrize("opener", [load, Store])
def test_what_is_no_notebook_is_refused_and_untouched(
    tmp_path: Path, what: str, opener: Callable[[Path], object]
) -> None:
    path = tmp_path / "other.lawnbook"
    NOT_OURS[what](path)
    before = path.read_bytes()
    with pytest.raises(OwnerError, match=r"^other\.lawnbook: this is not a Lawnbook notebook"):
        opener(path)
    assert path.read_bytes() == before
    assert [each.name for each in tmp_path.iterdir()] == ["other.lawnbook"]


@pytest.mark.parametrize("opener", [load, Store])
def test_a_newer_notebook_is_refused_and_untouched(
    path: Path, opener: Callable[[Path], object]
) -> None:
    with closing(sqlite3.connect(path)) as raw:
        raw.execute(f"PRAGMA user_version = {migrations.CURRENT_VERSION + 1}")
    before = path.read_bytes()
    with pytest.raises(OwnerError, match="a newer Lawnbook wrote this notebook; update"):
        opener(path)
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("missing.lawnbook", "there is no such file"),
        ("folder.lawnbook", "this is a folder"),
        ("no/such/place.lawnbook", "there is no such file"),
    ],
)
def test_a_path_to_nothing_is_refused(tmp_path: Path, name: str, sentence: str) -> None:
    (tmp_path / "folder.lawnbook").mkdir()
    with pytest.raises(OwnerError, match=sentence):
        load(tmp_path / name)


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("garden.db", r"garden\.db: A notebook's name ends in \.lawnbook; name it garden\.lawnb"),
        ("no/such/a.lawnbook", r"the folder .*such is not there"),
        ("taken.lawnbook", "already there; choose another name"),
    ],
)
def test_a_new_notebook_needs_a_good_place(
    tmp_path: Path, small: Notebook, name: str, sentence: str
) -> None:
    (tmp_path / "taken.lawnbook").write_text("mine")
    with pytest.raises(OwnerError, match=sentence):
        create(tmp_path / name, small)
    assert [each.name for each in tmp_path.iterdir()] == ["taken.lawnbook"]
    assert (tmp_path / "taken.lawnbook").read_text() == "mine"


def test_only_on_demand_is_a_file_replaced(path: Path, small: Notebook) -> None:
    other = apply(small, rename(small, "Other"))
    create(path, other, overwrite=True)
    assert load(path) == other


def test_an_open_notebook_is_neither_replaced_nor_opened_twice(
    store: Store, small: Notebook
) -> None:
    with pytest.raises(OwnerError, match="this notebook is open"):
        create(store.path, small, overwrite=True)
    with pytest.raises(OwnerError, match="already open"):
        Store(store.path)


def test_a_failed_new_notebook_leaves_nothing(tmp_path: Path, small: Notebook) -> None:
    zones = {"front": replace(small.zones["front"], budget="nowhere")}
    with pytest.raises(sqlite3.IntegrityError):
        create(tmp_path / "a.lawnbook", replace(small, zones=zones))
    assert list(tmp_path.iterdir()) == []


DAMAGES = [
    ("UPDATE zones SET outline_ft = 'scribble'", "zones, row front"),
    ("UPDATE zones SET grass = 'moss'", "zones, row front"),
    ("UPDATE zones SET outline_ft = '[[1,2],[3]]'", "zones, row front"),
    ("UPDATE spots SET zone = 'nowhere'", "spots refers to a missing row of zones"),
]


@pytest.mark.parametrize(("damage", "told"), DAMAGES)
def test_a_damaged_file_is_told_from_a_good_one(path: Path, damage: str, told: str) -> None:
    with closing(sqlite3.connect(path)) as raw, raw:
        raw.execute(damage)
    with pytest.raises(OwnerError, match=rf"^small\.lawnbook: the file is damaged \(.*{told}"):
        load(path)


def test_scrambled_pages_are_told_as_damage(path: Path) -> None:
    data = bytearray(path.read_bytes())
    data[4096:] = b"\x55" * (len(data) - 4096)
    path.write_bytes(data)
    with pytest.raises(OwnerError, match=r"small\.lawnbook: the file is damaged"):
        load(path)
