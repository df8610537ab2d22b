"""Files of older versions: brought up to date whole, or left exactly as they were."""

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import date
from pathlib import Path
from types import MappingProxyType

import pytest
from sqlite_utils import Database

from lawnbook.store import migrations, opening
from lawnbook.store.columns import column_names, row_of
from lawnbook.store.schema_steps import STEPS
from lawnbook.store.sqlite_store import Store, create, load
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import (
    TABLES,
    Care,
    Feeding,
    Ingredient,
    NRules,
    Photo,
    Product,
    Record,
    Season,
    SoilTest,
)
from tests.kept_photos import PLUG, photo_notebook, picture_bytes
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
    grown = (*STEPS, *steps)
    monkeypatch.setattr(migrations, "STEPS", grown)
    monkeypatch.setattr(migrations, "CURRENT_VERSION", len(grown))
    monkeypatch.setattr(opening, "CURRENT_VERSION", len(grown))


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


FED: dict[str, Record] = {
    "n_rules": NRules(id="n_rules", min_days=21, blackouts=(Season(start="12-01", end="03-01"),)),
    "products": Product(id="p", name="Tea", n_pct=1, ingredients=(Ingredient(name="W", pounds=9),)),
    "feedings": Feeding(
        id="f", date=date(2026, 5, 4), product="p", pounds=MappingProxyType({"front": 2.0})
    ),
    "soil_tests": SoilTest(id="t", date=date(2024, 4, 13), zone="front", ph=7.4, p_ppm=31),
    "care": Care(id="k", date=date(2025, 4, 1), kind="pre-emergent"),
}
"""Records that the second version could hold as well."""


def test_a_notebook_of_version_two_gets_the_defaults_of_feeding_in_full(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    notebook = small_notebook()
    for table, record in FED.items():
        notebook = apply(notebook, put(notebook, table, record))
    path = tmp_path / "two.lawnbook"
    written_by_version(path, 2, monkeypatch, notebook)
    assert "spreader_runs" not in tables_and_version(path)[0]
    with closing(Store(path)) as store:
        held = store.read()
        assert held == notebook
    assert {"spreader_runs", "sprayer_runs"} <= tables_and_version(path)[0]
    assert held.n_rules.phosphorus_needs_test
    assert (held.n_rules.name, held.n_rules.waterside_ft, held.n_rules.p_enough_ppm) == (
        "",
        None,
        None,
    )
    assert (held.products["p"].starter, held.products["p"].slow_kind) == (False, None)
    assert held.products["p"].ingredients[0].slow_n_pct == 0.0
    assert (held.feedings["f"].spreader, held.feedings["f"].setting) == ("", "")
    assert (held.soil_tests["t"].depth_in, held.soil_tests["t"].thatch) == (None, None)
    assert held.care["k"].no_seed_until is None
    assert held.zones["front"].budget_spread == "table"


def test_photographs_of_version_three_are_read_in_place_and_brought_up(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two plugs show one picture: it lies twice in the old file, and once in the new."""
    notebook = photo_notebook()
    plain = replace(notebook.photos["photo 1"], ruler=None, width_px=None, height_px=None)
    second = replace(PLUG, id="second", date=date(2025, 5, 10))
    notebook = apply(notebook, put(notebook, "cores", second))
    notebook = apply(notebook, remove(notebook, "photos", "photo 2"))
    again = replace(plain, id="again", core="second")
    notebook = apply(notebook, put(notebook, "photos", plain, again))
    path = tmp_path / "three.lawnbook"
    written_by_version(path, 3, monkeypatch, notebook)
    assert "pictures" not in tables_and_version(path)[0]
    data = path.read_bytes()
    held = load(path)
    assert held == notebook
    assert held.photos["photo 1"].data_b64.data() == picture_bytes(1)
    assert path.read_bytes() == data
    with closing(Store(path)) as store:
        assert store.read() == notebook
        assert store.read().photos["again"].data_b64.data() == picture_bytes(1)
    assert held.photos["again"].data_b64.data() == picture_bytes(1), "read before, looked at after"
    with closing(sqlite3.connect(path)) as raw:
        assert raw.execute("SELECT count(*) FROM pictures").fetchone() == (1,)
        columns = {row[1] for row in raw.execute("PRAGMA table_info(photos)")}
    assert {"ruler", "taken_on", "width_px", "height_px"} <= columns
    assert "data" not in columns


def test_a_picture_of_version_three_that_was_altered_is_damage(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "three.lawnbook"
    written_by_version(path, 3, monkeypatch, photo_notebook())
    with closing(sqlite3.connect(path)) as raw, raw:
        raw.execute("UPDATE photos SET data = x'00' WHERE id = 'photo 1'")
    held = load(path)
    with closing(Store(path)) as store:
        for notebook in (held, store.read()):
            with pytest.raises(OwnerError, match="is damaged"):
                notebook.photos["photo 1"].data_b64.data()


def written_by_version(
    path: Path, version: int, monkeypatch: pytest.MonkeyPatch, held: Notebook | None = None
) -> None:
    """A notebook, the small one by itself, as an older version's program would have written it."""
    notebook = held or small_notebook()
    with closing(sqlite3.connect(path, isolation_level=None)) as raw, monkeypatch.context() as then:
        then.setattr(migrations, "STEPS", STEPS[:version])
        then.setattr(migrations, "CURRENT_VERSION", version)
        migrations.bring_up_to_date(raw)
        database = Database(raw, execute_plugins=False)
        for table in TABLES:
            columns = {column.name for column in database.table(table).columns}
            for record in notebook.table(table).values():
                cells: dict[str, object] = dict(
                    zip(column_names(table), row_of(table, record), strict=True)
                )
                if isinstance(record, Photo) and "data" in columns:
                    cells["data"] = record.data_b64.data()
                database.table(table).insert({k: v for k, v in cells.items() if k in columns})
