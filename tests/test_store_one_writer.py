"""One writer for each notebook: other windows, other names of the file, protected files."""

import os
import re
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from itertools import count
from pathlib import Path

import pytest

from lawnbook.cli import main
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store import one_writer
from lawnbook.store.migrations import CURRENT_VERSION
from lawnbook.store.one_writer import HeldElsewhere, Writer, become_writer
from lawnbook.store.sqlite_store import Store, create, load
from lawnbook.store.stamps import stamp_of
from lawnbook.yard.problems import OwnerError
from tests.conftest import TODAY
from tests.other_window import other_window
from tests.small_book import rename, small_notebook


@pytest.fixture(autouse=True)
def locks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The user's data folder of this test alone, for its children too."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    return tmp_path / "data" / "lawnbook" / "open"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """The small notebook as a file."""
    made = tmp_path / "yards" / "small.lawnbook"
    made.parent.mkdir()
    create(made, small_notebook())
    return made


@pytest.fixture
def opened(path: Path) -> Iterator[OpenNotebook]:
    """The notebook, open here first."""
    book = OpenNotebook.open(path, TODAY)
    yield book
    book.close()


def files(path: Path) -> list[str]:
    """What lies in a notebook's folder."""
    return sorted(each.name for each in path.parent.iterdir())


def test_the_second_window_reads_only_and_says_since_when(path: Path) -> None:
    with other_window(path) as other:
        assert other.first == "writer"
        book = OpenNotebook.open(path, TODAY)
        assert re.fullmatch(
            r"small\.lawnbook is open in another window since \d\d:\d\d on \d+ \w+ \d{4}\. "
            r"Here it can only be looked at; close it there and try again, or work on a copy\.",
            book.read_only,
        )
        before = path.read_bytes()
        with pytest.raises(OwnerError) as refused:
            book.edit(rename(book.notebook, "Mine"), "rename")
        assert str(refused.value) == book.read_only
        assert (book.waiting, book.notebook) == (0, small_notebook())
        book.close()
        assert path.read_bytes() == before
        assert other.rename("Theirs") == "done"
    assert load(path).yard.name == "Theirs"


def test_what_the_first_window_does_is_seen_and_its_place_taken(path: Path) -> None:
    with other_window(path) as other, closing(OpenNotebook.open(path, TODAY)) as book:
        told: list[object] = []
        book.subscribe(told.append)
        assert not book.look()
        assert told == []
        assert other.rename("Theirs") == "done"
        assert book.look()
        assert (book.notebook.yard.name, bool(book.read_only)) == ("Theirs", True)
        assert other.rename("Last") == "done"
        assert other.close() == "done"
        assert book.look()
        assert (book.notebook.yard.name, book.read_only) == ("Last", "")
        book.edit(rename(book.notebook, "Mine"), "rename")
        assert (book.trouble, load(path).yard.name) == ("", "Mine")
        assert len(told) == 4, "two changes, that it may be written now, and the edit"


def test_a_killed_window_holds_nothing(path: Path) -> None:
    with other_window(path) as other:
        other.child.kill()
        other.child.wait()
        with closing(OpenNotebook.open(path, TODAY)) as book:
            assert book.read_only == ""


@pytest.mark.parametrize("kind", ["link", "hard link", "link to the folder", "dots"])
def test_other_names_of_the_file_are_the_same_notebook(path: Path, kind: str) -> None:
    named = path.with_name("other.lawnbook")
    if kind == "link":
        named.symlink_to(path)
    elif kind == "hard link":
        named.hardlink_to(path)
    elif kind == "dots":
        named = path.parent / ".." / path.parent.name / path.name
    else:
        (path.parent.parent / "way").symlink_to(path.parent)
        named = path.parent.parent / "way" / path.name
    with other_window(path), closing(OpenNotebook.open(named, TODAY)) as book:
        assert "open in another window" in book.read_only
    # In this process too, where closing a second handle would drop SQLite's locks.
    with closing(Store(path)), pytest.raises(OwnerError, match="already open in this window"):
        Store(named)


def test_no_file_is_left_beside_the_notebook_or_among_the_locks(path: Path, locks: Path) -> None:
    with closing(OpenNotebook.open(path, TODAY)):
        assert len(list(locks.iterdir())) == 2
    assert files(path) == ["small.lawnbook"]
    assert list(locks.iterdir()) == []


def test_what_killed_processes_left_is_taken_away_a_day_later(path: Path, locks: Path) -> None:
    locks.mkdir(parents=True)
    old, young = locks / "old.lock", locks / "young.lock"
    for each in (old, young):
        each.touch()
    with other_window(path):
        for each in locks.iterdir():
            if each != young:
                os.utime(each, (1_000_000_000, 1_000_000_000))
        neighbour = path.with_name("neighbour.lawnbook")
        create(neighbour, small_notebook())
        Store(neighbour).close()
        assert (old.exists(), young.exists()) == (False, True)
        assert len(list(locks.iterdir())) == 3, "what is held stays, however old"


def test_where_the_data_folder_takes_nothing_the_temporary_one_does(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "blocked").touch()
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "blocked"))
    with other_window(path) as other, closing(OpenNotebook.open(path, TODAY)) as book:
        assert other.first == "writer"
        assert "open in another window" in book.read_only
    monkeypatch.setattr(one_writer, "_folders", lambda: iter([tmp_path / "blocked"]))
    writer = become_writer(path)
    assert isinstance(writer, Writer)
    writer.release()


def test_a_lock_that_is_taken_away_by_hand_is_made_anew(path: Path, locks: Path) -> None:
    first, held = become_writer(path), become_writer(path)
    assert isinstance(first, Writer)
    assert isinstance(held, HeldElsewhere)
    assert held.since is not None
    for each in locks.iterdir():
        each.unlink()
    second = become_writer(path)
    assert isinstance(second, Writer)
    first.release()
    second.release()


@pytest.mark.parametrize("what", ["file", "folder"])
def test_what_is_protected_is_looked_at(
    path: Path, what: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    allowed = os.access
    protected = path if what == "file" else path.parent

    def access(place: Path, mode: int) -> bool:
        return allowed(place, mode) and not (Path(place) == protected and mode == os.W_OK)

    with monkeypatch.context() as patch:
        patch.setattr(os, "access", access)
        book = OpenNotebook.open(path, TODAY)
        assert "write-protected" in book.read_only
        assert book.read_only.endswith("or work on a copy.")
        assert ("folder" in book.read_only) == (what == "folder")
        assert not book.look()
        copy = path.with_name("copy.lawnbook")
        book.copy_to(copy)
        assert load(copy) == small_notebook()
    book.look()
    assert book.read_only == ""
    book.edit(rename(book.notebook, "Mine"), "rename")
    book.close()
    assert load(path).yard.name == "Mine"


def test_a_copy_of_what_is_only_looked_at_is_worked_on(path: Path) -> None:
    with other_window(path), closing(OpenNotebook.open(path, TODAY)) as book:
        book.save_elsewhere(path.with_name("copy.lawnbook"))
        assert book.read_only == ""
        book.edit(rename(book.notebook, "Mine"), "rename")
        assert load(path) == small_notebook()
        assert load(book.path).yard.name == "Mine"


def test_a_command_that_writes_says_who_has_it_and_writes_nothing(
    path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    tables = tmp_path / "spots.csv"
    assert main(["tables", str(path), "-o", str(tables), "--table", "spots"], TODAY) == 0
    tables.write_text(tables.read_text(encoding="utf-8").replace("Elm", "Oak"), encoding="utf-8")
    capsys.readouterr()
    take = ["take-tables", str(tables), "-o", str(path), "--table", "spots"]
    with other_window(path):
        before = path.read_bytes()
        assert main(take, TODAY) == 2
        told = capsys.readouterr().err
        assert told.startswith("small.lawnbook is open in another window since ")
        assert told.count("\n") == 1
        assert path.read_bytes() == before
        assert main(["plan", str(path)], TODAY) == 0, "reading needs no writer's place"
    assert main(take, TODAY) == 0
    assert load(path).spots["elm"].name == "Oak"


def newer(path: Path) -> tuple[bytes, int]:
    """Make a notebook one of a newer program; its bytes and time of change."""
    with closing(sqlite3.connect(path)) as raw:
        raw.execute(f"PRAGMA user_version = {CURRENT_VERSION + 1}")
        raw.commit()
    return path.read_bytes(), path.stat().st_mtime_ns


@pytest.mark.parametrize("hot", [False, True])
def test_a_newer_notebook_is_refused_untouched(
    path: Path, hot: bool, capsys: pytest.CaptureFixture[str]
) -> None:
    left = newer(path)
    if hot:
        left = (_killed_in_a_commit(path), path.stat().st_mtime_ns)
    names = files(path)
    journal = path.with_name(f"{path.name}-journal")
    beside = journal.read_bytes() if hot else b""
    for refused in (load, Store, lambda each: OpenNotebook.open(each, TODAY)):
        with pytest.raises(OwnerError, match="a newer Lawnbook wrote this notebook"):
            refused(path)
    assert main(["plan", str(path)], TODAY) == 2
    assert "a newer Lawnbook" in capsys.readouterr().err
    assert (path.read_bytes(), path.stat().st_mtime_ns) == left
    assert files(path) == names
    assert not hot or journal.read_bytes() == beside


def _killed_in_a_commit(path: Path) -> bytes:
    """Leave a file as a killed process would: half written, its journal beside it. Its bytes."""
    copy = path.with_name("held.lawnbook")
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        raw.execute("PRAGMA cache_size = 1")
        raw.execute("CREATE TABLE newer (text TEXT)")
        raw.execute("BEGIN IMMEDIATE")
        for _ in range(200):
            raw.execute("INSERT INTO newer VALUES (?)", ("x" * 4000,))
        shutil.copy(path, copy)
        shutil.copy(f"{path}-journal", f"{copy}-journal")
        raw.execute("ROLLBACK")
    copy.replace(path)
    copy.with_name(f"{copy.name}-journal").replace(f"{path}-journal")
    assert Path(f"{path}-journal").stat().st_size > 0
    return path.read_bytes()


def test_a_file_that_never_rests_is_not_half_read(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with closing(Store(path)) as store:
        moments = count()
        monkeypatch.setattr("lawnbook.store.sqlite_store.stamp_of", lambda _: next(moments))
        with pytest.raises(OwnerError, match="keeps changing this file"):
            store.read()
        monkeypatch.setattr("lawnbook.store.sqlite_store.stamp_of", stamp_of)
        assert store.read() == load(path)
