"""The notebook's file among other programs, full disks and killed processes."""

import random
import signal
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date
from pathlib import Path
from typing import Any, ClassVar

import pytest

from lawnbook.store.sqlite_store import Store, create, load
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Watering
from tests.small_book import Watched, in_child, rename, small_notebook


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


def test_a_notebook_held_by_another_program_is_not_written(store: Store, small: Notebook) -> None:
    with closing(sqlite3.connect(store.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(OwnerError, match="another program is using this notebook"):
            store.write(rename(small, "Other"))
        other.execute("ROLLBACK")
    assert load(store.path) == small


def test_a_notebook_changed_by_another_program_is_not_overwritten(
    store: Store, small: Notebook
) -> None:
    with closing(sqlite3.connect(store.path)) as other, other:
        other.execute("UPDATE yard SET name = 'Theirs'")
    with pytest.raises(OwnerError, match="another program has changed this notebook"):
        store.write(rename(small, "Ours"))
    assert load(store.path).yard.name == "Theirs"


def test_a_notebook_moved_away_while_open_is_not_written(store: Store, small: Notebook) -> None:
    moved = store.path.with_name("moved.lawnbook")
    store.path.rename(moved)
    with pytest.raises(OwnerError, match="moved or replaced while it was open"):
        store.write(rename(small, "Other"))
    moved.rename(store.path)
    # A file that was away may have been changed there: an open book looks at it before it goes on.
    store.reconnect()
    store.write(rename(small, "Other"))
    assert load(store.path).yard.name == "Other"


def test_reading_a_connected_notebook_keeps_its_locks(store: Store, small: Notebook) -> None:
    """Closing a second handle of the file would drop SQLite's locks (sqlite.org/howtocorrupt)."""
    seen: list[str] = []

    def look() -> None:
        load(store.path)
        seen.append(in_child(LOCK, store.path).stdout.strip())

    store.write(Watched(rename(small, "Other"), look))
    assert seen == ["database is locked"]


def spoil(path: Path, number: int) -> None:
    """Do to a file what failing disks do: cut it, flip bits, wipe or scribble over a stretch."""
    chance = random.Random(number)
    data = bytearray(path.read_bytes())
    at, end = chance.randrange(len(data)), len(data)
    if number % 4 == 0:
        del data[at:]
    elif number % 4 == 1:
        for _ in range(20):
            data[chance.randrange(end)] ^= 1 << chance.randrange(8)
    elif number % 4 == 2:
        data[at : at + 4096] = bytes(min(4096, end - at))
    else:
        data[at : at + 200] = chance.randbytes(min(200, end - at))
    path.write_bytes(data)


def test_a_damaged_file_is_told_and_left_as_it_is(path: Path, small: Notebook) -> None:
    days = [Watering(id=f"{i:04}", date=date(2026, 5, 1), zone="front") for i in range(400)]
    create(path, apply(small, put(small, "waterings", *days)), overwrite=True)
    sound = path.read_bytes()
    told: list[str] = []
    for number in range(400):
        path.write_bytes(sound)
        spoil(path, number)
        spoilt = path.read_bytes()
        try:
            load(path)
        except OwnerError as error:
            told.append(str(error))
        assert path.read_bytes() == spoilt, number
    assert [each.name for each in path.parent.iterdir()] == [path.name]
    assert len(told) > 200
    assert all(each.startswith("small.lawnbook: ") and each.endswith(".") for each in told)


LOCK = """
    import sqlite3, sys
    raw = sqlite3.connect(sys.argv[1], timeout=0, isolation_level=None)
    try:
        raw.execute("BEGIN IMMEDIATE")
    except sqlite3.OperationalError as error:
        print(error)
    raw.close()
    """


def test_a_process_killed_while_writing_leaves_the_last_good_notebook(
    path: Path, small: Notebook
) -> None:
    killed = in_child(
        """
        import os, signal, sys
        from dataclasses import replace
        from datetime import date
        from pathlib import Path
        from lawnbook.store.sqlite_store import Store
        from lawnbook.yard.notebook import put
        from lawnbook.yard.records import Watering
        from tests.small_book import Watched

        store = Store(Path(sys.argv[1]))
        notebook = store.read()
        days = [Watering(id=f"{i:05}", date=date(2026, 5, 1), zone="front") for i in range(20000)]
        spill = put(notebook, "waterings", *days)
        last = {("yard", "yard"): (None, replace(notebook.yard, name="Half"))}
        store.write(spill, Watched(last, lambda: os.kill(os.getpid(), signal.SIGKILL)))
        """,
        path,
    )
    assert killed.returncode == -signal.SIGKILL, killed.stderr
    journal = path.with_name("small.lawnbook-journal")
    assert journal.stat().st_size > 0, "the kill came before anything was under way"
    assert load(path) == small
    with closing(Store(path)) as store:
        assert store.read() == small
        store.write(rename(small, "After"))
    assert load(path).yard.name == "After"
    assert not journal.exists()


def test_a_full_disk_refuses_and_leaves_the_last_good_notebook(path: Path, small: Notebook) -> None:
    refused = in_child(
        """
        import resource, sys
        from datetime import date
        from pathlib import Path
        from lawnbook.store.sqlite_store import Store
        from lawnbook.yard.notebook import put
        from lawnbook.yard.problems import OwnerError
        from lawnbook.yard.records import Watering

        store = Store(Path(sys.argv[1]))
        notebook = store.read()
        most = resource.getrlimit(resource.RLIMIT_FSIZE)[1]
        size = Path(sys.argv[1]).stat().st_size
        days = [Watering(id=f"{i:05}", date=date(2026, 5, 1), zone="front") for i in range(20000)]
        change = put(notebook, "waterings", *days)
        resource.setrlimit(resource.RLIMIT_FSIZE, (size + 8192, most))
        try:
            store.write(change)
        except OwnerError as error:
            print(error)
        resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
        assert store.read() == notebook
        store.write(change)
        store.close()
        """,
        path,
    )
    assert refused.returncode == 0, refused.stderr
    assert refused.stdout.startswith("small.lawnbook: the disk ")
    assert len(load(path).waterings) == 20000


def test_opening_and_editing_needs_sqlite_alone(path: Path) -> None:
    child = in_child(
        """
        import sys
        from dataclasses import replace
        from pathlib import Path
        from lawnbook.store.sqlite_store import Store
        from lawnbook.yard.notebook import put

        store = Store(Path(sys.argv[1]))
        notebook = store.read()
        store.write(put(notebook, "yard", replace(notebook.yard, name="Other")))
        store.close()
        heavy = {"sqlite_utils", "pandas", "matplotlib", "scipy", "PySide6", "click"}
        print(sorted(heavy.intersection(sys.modules)))
        """,
        path,
    )
    assert child.stdout.strip() == "[]", child.stderr
    assert load(path).yard.name == "Other"


class Recording(sqlite3.Connection):
    """A connection that can be asked for its settings after it was handed over."""

    made: ClassVar[list["Recording"]] = []

    def __init__(self, *arguments: Any, **named: Any) -> None:
        super().__init__(*arguments, **named)
        self.made.append(self)


def test_the_connection_is_set_for_safety(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    plain = sqlite3.connect
    monkeypatch.setattr(
        sqlite3, "connect", lambda *a, **named: plain(*a, **named, factory=Recording)
    )
    Recording.made.clear()
    with closing(Store(path)):
        (connection,) = Recording.made
        found = {
            name: connection.execute(f"PRAGMA {name}").fetchone()[0]
            for name in ("foreign_keys", "journal_mode", "synchronous", "trusted_schema")
        }
    assert found == {
        "foreign_keys": 1,
        "journal_mode": "truncate",
        "synchronous": 2,
        "trusted_schema": 0,
    }
