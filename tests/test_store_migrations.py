"""Files of older versions: brought up to date whole, or left exactly as they were."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from lawnbook.store import migrations, sqlite_store
from lawnbook.store.sqlite_store import Store, create, load
from lawnbook.yard.problems import OwnerError
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
