"""Notebooks made by hand to do harm: nothing is run or written, each is refused in a sentence."""

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest

from lawnbook.store import wary
from lawnbook.store.files import refuse_other_file
from lawnbook.store.outlines_reading import read_outlines
from lawnbook.store.photo_reading import take_in
from lawnbook.store.picture_shelf import connected
from lawnbook.store.sqlite_store import Store, create, load, yard_name
from lawnbook.store.tables_in import read_tables
from lawnbook.store.weather_reading import read_weather
from lawnbook.store.yardfile import load_any
from lawnbook.yard.problems import OwnerError
from tests.conftest import TODAY
from tests.hostile_books import (
    ENDLESS,
    STRANGE_PLACES,
    STRANGE_SCHEMA,
    WRONG_ROWS,
    Harm,
    by_sql,
    lax,
)
from tests.small_book import in_child, small_notebook


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The bytes of a sound notebook."""
    path = tmp_path_factory.mktemp("sound") / "sound.lawnbook"
    create(path, small_notebook())
    return path.read_bytes()


@pytest.fixture
def path(tmp_path: Path, sound: bytes) -> Path:
    """A sound notebook, to be spoilt."""
    made = tmp_path / "theirs.lawnbook"
    made.write_bytes(sound)
    return made


def state(folder: Path) -> dict[str, object]:
    """All that lies in a folder, with its bytes."""
    return {
        each.name: each.read_bytes()
        if each.is_file() and not each.is_symlink()
        else each.lstat()[0]
        for each in folder.iterdir()
    }


def refusals(path: Path) -> Iterator[str]:
    """What is said where a file is read, and where it is opened to be written."""
    for attempt in (load, _opened_to_write):
        before = state(path.parent)
        with pytest.raises(OwnerError) as refused:
            attempt(path)
        assert state(path.parent) == before
        yield str(refused.value)


def _opened_to_write(path: Path) -> None:
    with closing(Store(path)) as store:
        store.read()


def must_be_one_sentence(told: str) -> None:
    """A refusal names the file, is one line, short and printable, and ends as a sentence does."""
    assert told.startswith("theirs.lawnbook: ")
    assert told.endswith(".")
    assert told.isprintable()
    assert len(told) < 300


@pytest.mark.parametrize("harm", STRANGE_SCHEMA.values(), ids=STRANGE_SCHEMA)
def test_a_schema_that_is_not_ours_is_refused_before_a_row_is_read(path: Path, harm: Harm) -> None:
    harm(path)
    for told in refusals(path):
        must_be_one_sentence(told)
    assert yard_name(path) == ""


@pytest.mark.parametrize("harm", WRONG_ROWS.values(), ids=WRONG_ROWS)
def test_rows_that_no_lawnbook_wrote_are_refused(path: Path, harm: Harm) -> None:
    harm(path)
    for told in refusals(path):
        must_be_one_sentence(told)


@pytest.mark.parametrize("harm", STRANGE_PLACES.values(), ids=STRANGE_PLACES)
def test_what_is_no_notebook_is_refused_without_waiting_or_following(
    path: Path, harm: Harm
) -> None:
    harm(path)
    for told in refusals(path):
        must_be_one_sentence(told)
    assert yard_name(path) == ""


def test_a_sound_file_is_read_also_after_it_went_through_the_same_hands(
    path: Path, sound: bytes
) -> None:
    """What the tests above find is the harm itself, and not how it was done."""
    assert load(path) == small_notebook()
    lax(path, "UPDATE zones SET slope_pct = 0.0")
    by_sql("UPDATE yard SET name = name", path=path)
    assert path.read_bytes() != sound
    assert load(path) == small_notebook()


def test_a_cell_beyond_the_limit_is_refused_within_bounded_memory(path: Path) -> None:
    most = wary.LIMITS[sqlite3.SQLITE_LIMIT_LENGTH]
    huge = "UPDATE spots SET name = CAST(zeroblob(@) AS TEXT)".replace("@", str(most + 1))
    by_sql(huge, path=path)
    child = in_child(
        """
        import resource, sys
        from pathlib import Path
        from lawnbook.store.sqlite_store import load
        from lawnbook.yard.problems import OwnerError

        most = resource.getrlimit(resource.RLIMIT_AS)[1]
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        resource.setrlimit(resource.RLIMIT_AS, (2**30, most))
        try:
            load(Path(sys.argv[1]))
        except OwnerError as error:
            print(error)
        print((resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) < 2**16, "KiB")
        """,
        path,
    )
    assert child.stdout.splitlines() == [
        "theirs.lawnbook: an entry is too large for the notebook; use a smaller picture.",
        "True KiB",
    ], child.stderr


def test_more_rows_than_any_yard_are_refused_before_they_are_read(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(wary, "MOST_ROWS", 1_000)
    many = (
        "INSERT INTO waterings (id, rank, date, zone) @ "
        "SELECT 'w' || i, i, '2026-05-01', 'front' FROM n LIMIT 1001"
    )
    by_sql(many.replace("@", ENDLESS), path=path)
    with pytest.raises(OwnerError, match="waterings has more than 1,000 rows"):
        load(path)


def test_a_connection_is_set_as_sqlite_advises_for_files_of_strangers(path: Path) -> None:
    with closing(connected(path, "ro")) as connection:
        for pragma, value in (("trusted_schema", 0), ("cell_size_check", 1)):
            assert connection.execute(f"PRAGMA {pragma}").fetchone() == (value,), pragma
        assert connection.execute("PRAGMA mmap_size").fetchone() in {(0,), None}
        assert {each: connection.getlimit(each) for each in wary.LIMITS} == dict(wary.LIMITS)
        with pytest.raises(sqlite3.OperationalError, match="not authorized"):
            connection.execute("SELECT load_extension('evil')")


@pytest.mark.parametrize("make", [os.mkfifo, lambda path: path.symlink_to("/dev/zero")])
@pytest.mark.parametrize(
    "name", ["x.lawnbook", "x.json", "x.zip", "x.csv", "x.xlsx", "x.kml", "x.geojson", "x.jpg"]
)
def test_no_reader_waits_for_a_pipe_or_reads_a_device(
    tmp_path: Path, name: str, make: Callable[[Path], None]
) -> None:
    path = tmp_path / name
    make(path)
    for read in (
        lambda: load_any(path, TODAY),
        lambda: read_tables(path, small_notebook(), TODAY),
        lambda: read_outlines(path),
        lambda: read_weather(path),
        lambda: take_in(path, TODAY),
        lambda: refuse_other_file(path, b"%PDF-", "a PDF"),
    ):
        with pytest.raises(OwnerError, match="this is not a file"):
            read()
