"""Files of older versions: brought up to date whole, or left exactly as they were."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from sqlite_utils import Database

from lawnbook.store import migrations, sqlite_store
from lawnbook.store.columns import column_names, row_of
from lawnbook.store.sqlite_store import Store, create, load
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import TABLES
from tests.small_book import small_notebook

GOOD = ("keep a diary", ("CREATE TABLE diary (id TEXT PRIMARY KEY) STRICT",))
HALF = (
    "fail half-way",
    ("CREATE TABLE tools (id TEXT PRIMARY KEY) STRICT", "CREATE TABLE tools (id TEXT) STRICT"),
)
LOOSE = ("lose a zone", ("DELETE FROM zones",))


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """A file of today's version, which the tests below make an old one by adding steps."""
    path = tmp_path / "old.lawnbook"
    create(path, small_notebook())
    return path


def add_steps(monkeypatch: pytest.MonkeyPatch, *steps: tuple[str, tuple[str, ...]]) -> None:
    """Pretend that Lawnbook has grown by these steps."""
    grown = (*migrations.STEPS, *steps)
    monkeypatch.setattr(migrations, "STEPS", grown)
    monkeypatch.setattr(migrations, "CURRENT_VERSION", len(grown))
    monkeypatch.setattr(sqlite_store, "CURRENT_VERSION", len(grown))


def tables_and_version(path: Path) -> tuple[set[str], int]:
    """What a file holds by its own account."""
    with closing(sqlite3.connect(path)) as raw:
        names = {row[0] for row in raw.execute("SELECT name FROM pragma_table_list")}
        return names, raw.execute("PRAGMA user_version").fetchone()[0]


def test_opening_for_edits_brings_a_file_up_to_date(
    old: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = migrations.CURRENT_VERSION
    add_steps(monkeypatch, GOOD)
    with closing(Store(old)) as store:
        assert store.read() == small_notebook()
    names, version = tables_and_version(old)
    assert "diary" in names
    assert version == before + 1


def test_reading_an_old_file_leaves_it_as_it_is(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    data = old.read_bytes()
    add_steps(monkeypatch, GOOD)
    assert load(old) == small_notebook()
    assert old.read_bytes() == data


@pytest.mark.parametrize("broken", [HALF, LOOSE])
def test_a_failing_step_takes_all_others_back(
    old: Path, monkeypatch: pytest.MonkeyPatch, broken: tuple[str, tuple[str, ...]]
) -> None:
    before = tables_and_version(old)
    add_steps(monkeypatch, GOOD, broken)
    with pytest.raises((sqlite3.Error, OwnerError)):
        Store(old)
    assert tables_and_version(old) == before
    monkeypatch.undo()
    assert load(old) == small_notebook()


def test_each_step_runs_once(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    add_steps(monkeypatch, GOOD)
    for _ in range(2):
        with closing(Store(old)) as store:
            assert store.read() == small_notebook()


@pytest.mark.parametrize("version", range(1, migrations.CURRENT_VERSION))
def test_a_file_of_every_version_that_was_ever_written_is_read_and_brought_up(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, version: int
) -> None:
    path = tmp_path / "old.lawnbook"
    written_by_version(path, version, monkeypatch)
    data = path.read_bytes()
    assert load(path) == small_notebook()
    assert path.read_bytes() == data
    with closing(Store(path)) as store:
        assert store.read() == small_notebook()
    assert tables_and_version(path)[1] == migrations.CURRENT_VERSION


def written_by_version(path: Path, version: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """The small notebook as the program of an older version would have written it."""
    notebook = small_notebook()
    with closing(sqlite3.connect(path, isolation_level=None)) as raw, monkeypatch.context() as then:
        then.setattr(migrations, "STEPS", migrations.STEPS[:version])
        then.setattr(migrations, "CURRENT_VERSION", version)
        migrations.bring_up_to_date(raw)
        database = Database(raw, execute_plugins=False)
        for table in TABLES:
            held = {column.name for column in database.table(table).columns}
            for record in notebook.table(table).values():
                cells = dict(zip(column_names(table), row_of(table, record), strict=True))
                database.table(table).insert({k: v for k, v in cells.items() if k in held})
