"""Earlier copies: when one is kept, which stay, whose they are, and what a full disk does."""

import errno
import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import datetime, timedelta, timezone
from pathlib import Path
from typing import NoReturn

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store import backups
from lawnbook.store.backups import (
    EarlierCopy,
    copies_of,
    folder_of,
    has_changed,
    is_of_older_program,
    keep_copy,
    saving_count,
    to_keep,
)
from lawnbook.store.sqlite_store import create, load
from lawnbook.yard.problems import OwnerError
from tests.conftest import TODAY
from tests.small_book import rename, small_notebook

ZONE = timezone(timedelta(hours=-5))
NOON = datetime(2026, 6, 15, 12, 0, tzinfo=ZONE)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A small notebook's file."""
    path = tmp_path / "Home.lawnbook"
    create(path, small_notebook())
    return path


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """Where copies go."""
    return tmp_path / "data" / "backups"


def edit(path: Path, name: str) -> None:
    """A session that gives the yard another name."""
    book = OpenNotebook.open(path, TODAY)
    book.edit(rename(book.notebook, name), "rename")
    book.close()


def keep(path: Path, root: Path, hours: float = 0.0) -> EarlierCopy | None:
    return keep_copy(path, saving_count(path), NOON + timedelta(hours=hours), root)


def names(path: Path, root: Path) -> list[str]:
    """The yards' names in the copies, newest first."""
    return [load(copy.path).yard.name for copy in copies_of(path, root)]


def test_a_copy_is_an_ordinary_notebook_named_by_notebook_and_time(path: Path, root: Path) -> None:
    kept = keep(path, root)
    assert kept is not None
    assert kept.path.name == "Home 2026-06-15 12.00.00 -0500.lawnbook"
    assert (kept.made, kept.size_bytes) == (NOON, path.stat().st_size)
    assert load(kept.path) == load(path)
    assert copies_of(path, root) == (kept,)
    with OpenedToRead(kept.path) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]


class OpenedToRead(closing[sqlite3.Connection]):
    """A bare connection to a file."""

    def __init__(self, path: Path) -> None:
        super().__init__(sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True))


def test_nothing_is_kept_twice(path: Path, root: Path) -> None:
    assert keep(path, root) is not None
    before = sorted(each.name for each in root.rglob("*"))
    assert not has_changed(path, saving_count(path), root)
    assert keep(path, root, hours=1) is None
    # Where nothing tells whether the file was written to, its pages do.
    assert keep_copy(path, "", NOON + timedelta(hours=2), root) is None
    assert sorted(each.name for each in root.rglob("*")) == before


def test_each_session_that_changed_something_is_kept(path: Path, root: Path) -> None:
    keep(path, root)
    for number in range(1, 14):
        edit(path, f"Yard {number}")
        assert keep(path, root, hours=number) is not None
    assert names(path, root) == [f"Yard {number}" for number in range(13, 3, -1)]


def test_sessions_of_the_same_second_are_all_kept(path: Path, root: Path) -> None:
    for name in ("One", "Two", "Three"):
        edit(path, name)
        assert keep_copy(path, "", NOON, root) is not None
    assert names(path, root) == ["Three", "Two", "One"]


def test_a_copy_holds_what_is_on_disk_while_the_book_is_open(path: Path, root: Path) -> None:
    book = OpenNotebook.open(path, TODAY)
    book.edit(rename(book.notebook, "Seen"), "rename")
    assert saving_count(path) == "", "a second handle would drop SQLite's locks"
    assert keep(path, root) is not None
    book.edit(rename(book.notebook, "Later"), "rename")
    assert book.trouble == ""
    book.close()
    assert names(path, root) == ["Seen"]
    assert sorted(each.name for each in path.parent.glob("Home*")) == ["Home.lawnbook"]


def test_two_books_of_one_name_stay_apart_and_a_moved_one_finds_its_own(
    tmp_path: Path, path: Path, root: Path
) -> None:
    other = tmp_path / "other" / "Home.lawnbook"
    other.parent.mkdir()
    create(other, small_notebook())
    edit(other, "Other")
    keep(path, root)
    keep(other, root)
    assert (names(path, root), names(other, root)) == (["Small"], ["Other"])
    moved = tmp_path / "Garden.lawnbook"
    path.rename(moved)
    assert names(moved, root) == ["Small"]
    edit(moved, "Moved")
    keep(moved, root, hours=1)
    assert names(moved, root) == ["Moved", "Small"]
    assert len(list(root.iterdir())) == 2


def test_a_copied_file_is_a_book_of_its_own(tmp_path: Path, path: Path, root: Path) -> None:
    keep(path, root)
    twin = tmp_path / "Twin.lawnbook"
    twin.write_bytes(path.read_bytes())
    edit(twin, "Twin")
    keep(twin, root, hours=1)
    assert (names(path, root), names(twin, root)) == (["Small"], ["Twin"])
    second = tmp_path / "sub" / "Twin.lawnbook"
    second.parent.mkdir()
    second.write_bytes(path.read_bytes())
    keep(second, root, hours=2)
    assert (names(second, root), names(twin, root)) == (["Small"], ["Twin"])


@pytest.mark.parametrize(
    "damage", [b"", b"no notebook at all", b"SQLite format 3\x00" + b"\xff" * 5000]
)
def test_a_file_past_reading_finds_its_copies_by_its_place(
    path: Path, root: Path, damage: bytes
) -> None:
    kept = keep(path, root)
    assert kept is not None
    path.write_bytes(damage)
    assert copies_of(path, root) == (kept,)
    assert folder_of(path, root) == kept.path.parent


def test_a_damaged_file_takes_no_good_copys_place(path: Path, root: Path) -> None:
    keep(path, root)
    edit(path, "Damaged later")
    data = bytearray(path.read_bytes())
    with OpenedToRead(path) as connection:
        page = connection.execute("SELECT rootpage FROM sqlite_schema WHERE name = 'zones'")
        at = (page.fetchone()[0] - 1) * 4096
    data[at] = 0xEE
    path.write_bytes(data)
    with pytest.raises(OwnerError, match="damaged, so no copy"):
        keep(path, root, hours=1)
    assert [copy.made for copy in copies_of(path, root)] == [NOON]
    assert not list(root.rglob(".*"))


def refused(number: int) -> Callable[..., NoReturn]:
    def refuse(*_: object, **__: object) -> NoReturn:
        raise OSError(number, os.strerror(number))

    return refuse


def test_a_full_disk_leaves_the_copies_as_they_were(
    path: Path, root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    keep(path, root)
    edit(path, "Not kept")
    monkeypatch.setattr(os, "fsync", refused(errno.ENOSPC))
    with pytest.raises(OwnerError, match="no space left"):
        keep(path, root, hours=1)
    monkeypatch.undo()
    assert names(path, root) == ["Small"]
    assert keep(path, root, hours=2) is not None


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path, path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(OwnerError, match="no copy can be kept there"):
        keep(path, tmp_path / "file" / "backups")


def test_what_a_cut_short_copy_left_goes_and_strangers_stay(path: Path, root: Path) -> None:
    kept = keep(path, root)
    assert kept is not None
    folder = kept.path.parent
    half = folder / ".Home 2026-06-15 13.00.00 -0500.lawnbook.0badcafe"
    half.write_bytes(b"half")
    stranger = folder / "Home of mine.lawnbook"
    stranger.write_bytes(b"put here by hand")
    edit(path, "Next")
    keep(path, root, hours=1)
    assert not half.exists()
    assert stranger.exists()
    assert names(path, root) == ["Next", "Small"]


def made(*moments: datetime, size_bytes: int = 1000) -> list[EarlierCopy]:
    return [EarlierCopy(Path(f"{each:%Y%m%d%H%M%S%z}"), each, size_bytes) for each in moments]


def test_ten_sessions_twelve_months_and_every_year_stay() -> None:
    days = [NOON - timedelta(days=number) for number in range(1500)]
    kept = to_keep(copies := made(*days))
    stay = sorted((copy.made.date() for copy in copies if copy.path in kept), reverse=True)
    ten = [day.date() for day in days[:10]]
    ends = [(2026, 5, 31), (2026, 4, 30), (2026, 3, 31), (2026, 2, 28), (2026, 1, 31)]
    ends += [(2025, 12, 31), (2025, 11, 30), (2025, 10, 31), (2025, 9, 30), (2025, 8, 31)]
    ends += [(2025, 7, 31), (2024, 12, 31), (2023, 12, 31), (2022, 12, 31)]
    assert [(day.year, day.month, day.day) for day in stay] == [
        *((day.year, day.month, day.day) for day in ten),
        *ends,
    ]


def test_of_large_books_fewer_sessions_stay() -> None:
    hours = [NOON - timedelta(hours=number) for number in range(12)]
    assert len(to_keep(made(*hours, size_bytes=200 * 2**20))) == 5
    assert len(to_keep(made(*hours, size_bytes=4 * 2**30))) == 3


@given(st.sets(st.integers(0, 10 * 365 * 24)))
def test_the_newest_always_stays_and_what_went_is_never_missed_again(hours: set[int]) -> None:
    copies = made(*(NOON - timedelta(hours=each) for each in hours))
    kept = to_keep(copies)
    if copies:
        assert max(copies, key=lambda copy: copy.made).path in kept
    assert to_keep([copy for copy in copies if copy.path in kept]) == kept
    assert {copy.made.year for copy in copies} == {c.made.year for c in copies if c.path in kept}


def test_the_folder_is_in_the_users_data(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    if os.name == "posix" and os.uname().sysname == "Linux":
        assert backups.backups_folder() == tmp_path / "lawnbook" / "backups"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes in folders here")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    pipe = tmp_path / "Pipe.lawnbook"
    os.mkfifo(pipe)
    assert saving_count(pipe) == ""
    assert not is_of_older_program(pipe)
