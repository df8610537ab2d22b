"""Every version's own notebook, kept as it was written: read to the last value, and brought up."""

import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from lawnbook.store import migrations, wary
from lawnbook.store.sqlite_store import Store, create, load
from lawnbook.yard.codec import to_plain
from lawnbook.yard.fields import fields_of
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.pictures import Picture
from lawnbook.yard.records import SINGLES, TABLES, Pictured
from tests.kept_versions import FOLDER, VERSIONS, number_of, told, told_text, unpacked
from tests.small_book import in_child

each_version = pytest.mark.parametrize("version", VERSIONS)


def test_a_file_is_kept_of_every_version_that_there_is() -> None:
    assert [*range(1, migrations.CURRENT_VERSION + 1)] == sorted({*map(number_of, VERSIONS)})
    assert {each.name.partition(".")[0] for each in FOLDER.iterdir()} == set(VERSIONS)
    assert all(each.stat().st_size < 100_000 for each in FOLDER.iterdir())


@each_version
def test_a_kept_file_is_of_its_version_and_its_schema_is_known(
    tmp_path: Path, version: str
) -> None:
    with closing(sqlite3.connect(unpacked(version, tmp_path))) as raw:
        assert raw.execute("PRAGMA user_version").fetchone() == (number_of(version),)
        assert raw.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        texts = wary.schema_texts(row[0] for row in raw.execute("SELECT sql FROM sqlite_master"))
    assert wary.KNOWN[number_of(version)] == wary.schema_mark(texts)


@each_version
def test_a_kept_file_is_read_to_the_last_value_and_left_as_it_was(
    tmp_path: Path, version: str
) -> None:
    path = unpacked(version, tmp_path)
    before = path.read_bytes()
    notebook = load(path)
    assert notebook == told(version)
    assert [*_lost(version, notebook)] == []
    assert all(len(each.data()) > 600 for each in _pictures(notebook))
    assert path.read_bytes() == before
    assert [each.name for each in tmp_path.iterdir()] == [path.name]


@each_version
def test_a_kept_file_is_brought_up_to_date_when_it_is_edited(tmp_path: Path, version: str) -> None:
    path, new = unpacked(version, tmp_path), tmp_path / "new.lawnbook"
    with closing(Store(path)) as store:
        assert store.read() == told(version)
    assert load(path) == told(version)
    create(new, told(version))
    assert _schema(path) == _schema(new)
    assert sorted(each.name for each in tmp_path.iterdir()) == sorted([path.name, new.name])


@pytest.mark.parametrize("version", ["v1", "v3", "v5"])
def test_a_step_interrupted_half_way_leaves_the_file_as_before(
    tmp_path: Path, version: str
) -> None:
    """The process is killed once all steps are done and nothing is committed yet."""
    path = unpacked(version, tmp_path)
    killed = in_child(
        """
        import os, signal, sqlite3, sys
        from lawnbook.store import migrations

        def kill(connection):
            os.kill(os.getpid(), signal.SIGKILL)

        migrations.refuse_loose_references = kill
        connection = sqlite3.connect(sys.argv[1], isolation_level=None)
        # So small a memory that the half-made tables are in the file already.
        connection.execute("PRAGMA cache_size = 1")
        migrations.bring_up_to_date(connection)
        """,
        path,
    )
    assert killed.returncode == -9, killed.stderr
    assert path.with_name(f"{path.name}-journal").stat().st_size > 0
    assert load(path) == told(version)
    with closing(sqlite3.connect(path)) as raw:
        assert raw.execute("PRAGMA user_version").fetchone() == (number_of(version),)


def test_the_newest_kept_file_tells_every_field_there_is() -> None:
    held = told(VERSIONS[-1])
    usual = [
        f"{table}.{info.name}"
        for table, kind in TABLES.items()
        for info in fields_of(kind)
        if all(getattr(each, info.name) == info.default for each in held.table(table).values())
    ]
    assert usual == []


def _lost(version: str, notebook: Notebook) -> Iterator[str]:
    """What a kept text tells and the notebook does not, value by value."""
    plain = json.loads(told_text(version))
    for table in TABLES:
        rows = plain.get(table, [])
        found = [to_plain(each) for each in notebook.table(table).values()]
        for told_row, row in zip([rows] if table in SINGLES else rows, found, strict=False):
            yield from (
                f"{table}.{name}: {value!r}, and {row.get(name)!r} was read"
                for name, value in told_row.items()
                if not _same(value, row.get(name))
            )
        if table not in SINGLES and len(rows) != len(found):
            yield f"{table}: {len(rows)} records, and {len(found)} were read"


def _same(told_value: Any, read: Any) -> bool:
    """Whether a value is read as it was told; what was told of a part is among what is read."""
    if isinstance(told_value, dict) and isinstance(read, dict):
        return all(_same(value, read.get(name)) for name, value in told_value.items())
    if isinstance(told_value, list) and isinstance(read, list):
        return len(told_value) == len(read) and all(map(_same, told_value, read))
    return bool(told_value == read)


def _pictures(notebook: Notebook) -> Iterator[Picture]:
    pictured: tuple[Pictured, ...] = (*notebook.photos.values(), *notebook.backdrops.values())
    yield from (each.data_b64 for each in pictured)


def _schema(path: Path) -> tuple[str, ...]:
    with closing(sqlite3.connect(path)) as raw:
        return wary.schema_texts(row[0] for row in raw.execute("SELECT sql FROM sqlite_master"))
