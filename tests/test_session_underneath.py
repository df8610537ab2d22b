"""A notebook that a sync program changes underneath: seen before anything is written over."""

import os
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store import backups
from lawnbook.store.sqlite_store import create, load
from lawnbook.store.stamps import conflict_copies
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Spot
from tests.conftest import TODAY
from tests.other_window import other_window
from tests.small_book import rename, small_notebook

NOW = datetime(2026, 6, 15, 9, 30, tzinfo=UTC)


@pytest.fixture(autouse=True)
def _locks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    """The small notebook, open with one edit made."""
    path = tmp_path / "small.lawnbook"
    create(path, small_notebook())
    held = OpenNotebook.open(path, TODAY)
    held.edit(rename(held.notebook, "Before"), "rename")
    yield held
    held.close(abandon=True)


def elsewhere(book: OpenNotebook, name: str = "Theirs") -> Path:
    """The same notebook as another machine has it, one edit later than the file was opened."""
    path = book.path.with_name("machine.copy")
    shutil.copy(book.path, path)
    with closing(sqlite3.connect(path)) as other, other:
        other.execute("UPDATE yard SET name = ?", (name,))
    return path


def replaced(book: OpenNotebook, theirs: Path) -> None:
    """As most sync programs do: a whole new file takes the old one's place."""
    theirs.replace(book.path)


def rewritten(book: OpenNotebook, theirs: Path) -> None:
    """The same file is written over from its start."""
    data = theirs.read_bytes()
    theirs.unlink()
    with book.path.open("rb+") as handle:
        handle.write(data)
        handle.truncate()
    later(book.path)


def later(path: Path) -> None:
    """Another time of change, whatever the grain of the file system's clock."""
    changed = path.stat().st_mtime_ns + 20_000_000
    os.utime(path, ns=(changed, changed))


def rewritten_in_time(book: OpenNotebook, theirs: Path) -> None:
    """The same file is written over from its start, and its time of change is set back."""
    before = book.path.stat()
    rewritten(book, theirs)
    os.utime(book.path, ns=(before.st_atime_ns, before.st_mtime_ns))


# Windows tells no time that cannot be set back.
WAYS = [replaced, rewritten, *([] if os.name == "nt" else [rewritten_in_time])]
Way = Callable[[OpenNotebook, Path], None]


@pytest.mark.parametrize("way", WAYS)
def test_a_change_underneath_is_seen_by_the_next_edit_and_kept(
    book: OpenNotebook, way: Way
) -> None:
    way(book, elsewhere(book))
    before = book.path.read_bytes()
    book.edit(rename(book.notebook, "Mine"), "rename")
    assert (book.found, book.waiting) == ("changed", 1)
    assert "another program has changed this notebook" in book.trouble
    assert book.path.read_bytes() == before
    assert not book.look()
    book.retry()
    assert (book.found, book.waiting, book.path.read_bytes()) == ("changed", 1, before)
    copy = book.path.with_name("mine.lawnbook")
    book.copy_to(copy)
    assert (load(copy).yard.name, book.waiting) == ("Mine", 1)
    told: list[object] = []
    book.subscribe(told.append)
    book.take_theirs()
    assert (book.notebook.yard.name, book.found, book.waiting, book.trouble) == (
        "Theirs", "same", 0, "",
    )  # fmt: skip
    assert told
    book.edit(rename(book.notebook, "After"), "rename")
    assert (book.trouble, load(book.path).yard.name) == ("", "After")


def header_counter(path: Path) -> bytes:
    """The sixteen bytes by which SQLite tells whether its remembered pages still hold."""
    with path.open("rb") as handle:
        return handle.read(40)[24:]


@pytest.mark.parametrize("way", WAYS)
def test_two_machines_with_one_edit_each_agree_in_sqlites_counter_and_are_told_apart(
    tmp_path: Path, way: Way
) -> None:
    path = tmp_path / "small.lawnbook"
    create(path, small_notebook())
    with closing(OpenNotebook.open(path, TODAY)) as book:
        theirs = elsewhere(book)
        book.edit(rename(book.notebook, "Mine"), "rename")
        assert header_counter(path) == header_counter(theirs), "else this test shows nothing"
        assert path.stat().st_size == theirs.stat().st_size
        way(book, theirs)
        before = path.read_bytes()
        book.edit(put(book.notebook, "spots", Spot(id="oak", name="Oak")), "add Oak")
        assert (book.found, path.read_bytes()) == ("changed", before)
        book.take_theirs()
        assert book.notebook.yard.name == "Theirs"


@pytest.mark.parametrize("way", WAYS)
def test_where_nothing_waits_the_file_is_read_anew_and_told_as_a_change(
    book: OpenNotebook, way: Way
) -> None:
    told: list[object] = []
    spots = book.notebook.spots
    book.subscribe(told.append)
    way(book, elsewhere(book))
    assert book.look()
    assert told == [{("yard", "yard"): (small("Before").yard, small("Theirs").yard)}]
    assert (book.notebook, book.undo_label) == (small("Theirs"), "")
    assert book.notebook.spots is spots, "what is the same stays the same object"
    assert not book.look()


def small(name: str) -> Notebook:
    """The small notebook under another name."""
    notebook = small_notebook()
    return apply(notebook, rename(notebook, name))


def same_again(book: OpenNotebook) -> None:
    """A sync program puts back what it was given: another file of the same bytes."""
    copy = book.path.with_name("copy")
    shutil.copy(book.path, copy)
    copy.replace(book.path)


@pytest.mark.parametrize("touch", [same_again, lambda book: later(book.path)])
def test_a_file_that_is_only_touched_is_no_trouble(
    book: OpenNotebook, touch: Callable[[OpenNotebook], None]
) -> None:
    told: list[object] = []
    book.subscribe(told.append)
    touch(book)
    assert not book.look()
    touch(book)
    assert (told, book.undo_label) == ([], "rename")
    book.edit(rename(book.notebook, "Mine"), "rename again")
    assert (book.trouble, load(book.path).yard.name) == ("", "Mine")
    book.undo()
    assert (book.trouble, load(book.path).yard.name) == ("", "Before")


def test_a_file_taken_away_is_missed_and_goes_on_when_it_is_back(book: OpenNotebook) -> None:
    away = book.path.with_name("away")
    book.path.rename(away)
    book.look()
    assert (book.found, book.waiting) == ("gone", 0)
    assert "put it back" in book.trouble
    book.edit(rename(book.notebook, "Mine"), "rename")
    assert book.waiting == 1
    assert not book.path.exists()
    away.rename(book.path)
    book.look()
    assert (book.found, book.waiting, book.trouble) == ("same", 0, "")
    assert load(book.path).yard.name == "Mine"


def test_half_a_file_is_waited_for(book: OpenNotebook) -> None:
    whole = elsewhere(book).read_bytes()
    book.path.write_bytes(whole[:5000])
    assert not book.look()
    assert book.found == "changed"
    assert book.trouble
    with pytest.raises(OwnerError):
        book.take_theirs()
    book.edit(rename(book.notebook, "Mine"), "rename")
    assert (book.waiting, book.path.read_bytes()) == (1, whole[:5000])
    book.path.write_bytes(whole)
    later(book.path)
    book.take_theirs()
    assert (book.notebook.yard.name, book.waiting, book.found) == ("Theirs", 0, "same")


def test_a_journal_from_elsewhere_is_never_put_into_the_file(book: OpenNotebook) -> None:
    journal = book.path.with_name(f"{book.path.name}-journal")
    before = book.path.read_bytes()
    journal.write_bytes(b"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7" + bytes(2000))
    book.look()
    assert (book.found, "at work on this notebook" in book.trouble) == ("journal", True)
    book.edit(rename(book.notebook, "Mine"), "rename")
    assert (book.waiting, book.path.read_bytes()) == (1, before)
    assert journal.stat().st_size > 0
    journal.unlink()
    book.look()
    assert (book.found, book.waiting, load(book.path).yard.name) == ("same", 0, "Mine")


def test_nothing_is_written_into_a_changed_file_on_closing(book: OpenNotebook) -> None:
    replaced(book, elsewhere(book))
    left = (book.path.read_bytes(), book.path.stat().st_mtime_ns)
    book.close()
    assert (book.path.read_bytes(), book.path.stat().st_mtime_ns) == left


def test_a_change_made_elsewhere_is_written_over_by_no_undo(book: OpenNotebook) -> None:
    rewritten(book, elsewhere(book))
    before = book.path.read_bytes()
    book.undo()
    assert (book.found, book.path.read_bytes()) == ("changed", before)


def test_a_file_that_comes_back_as_a_copy_is_gone_on_with(book: OpenNotebook) -> None:
    away = book.path.with_name("away")
    book.path.rename(away)
    book.edit(rename(book.notebook, "Mine"), "rename")
    shutil.copy(away, book.path)
    with other_window(book.path) as other:
        # The file that is there now is another one, but its path is still ours.
        assert other.first == "read only"
        book.look()
        assert (book.waiting, book.read_only, load(book.path).yard.name) == (0, "", "Mine")


def test_the_place_of_a_writer_may_be_lost_and_what_waits_is_not(
    book: OpenNotebook, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(
            "lawnbook.store.opening.why_protected", lambda path: f"{path.name} is locked."
        )
        later(book.path)
        book.edit(rename(book.notebook, "Mine"), "rename")
        assert (book.waiting, book.read_only) == (1, "small.lawnbook is locked.")
        book.undo()
        book.look()
        assert (book.waiting, load(book.path).yard.name) == (1, "Before")
    book.look()
    assert (book.waiting, book.read_only, load(book.path).yard.name) == (0, "", "Mine")


def test_copies_of_a_conflict_are_found_beside_the_notebook(tmp_path: Path) -> None:
    path = tmp_path / "Home.lawnbook"
    for name in (
        "Home.lawnbook",
        "Home (conflicted copy 2026-06-15).lawnbook",
        "Home.sync-conflict-1.lawnbook",
        "Conflict.lawnbook",
        "Home (conflict).json",
        "Home 2.lawnbook",
    ):
        (tmp_path / name).touch()
    assert [each.name for each in conflict_copies(path)] == [
        "Home (conflicted copy 2026-06-15).lawnbook",
        "Home.sync-conflict-1.lawnbook",
    ]
    assert conflict_copies(tmp_path / "nowhere" / "Home.lawnbook") == ()


def test_no_copy_is_kept_while_another_programs_journal_lies_beside_an_open_book(
    book: OpenNotebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(backups, "_JOURNAL_LOOKS", 2)
    journal = book.path.with_name(f"{book.path.name}-journal")
    journal.write_bytes(b"x" * 5000)
    with pytest.raises(OwnerError, match="wait until it is done"):
        backups.keep_copy(book.path, "", NOW, tmp_path / "copies")
    assert journal.read_bytes() == b"x" * 5000, "reading the notebook would have used it up"
    journal.write_bytes(b"")
    assert backups.keep_copy(book.path, "", NOW, tmp_path / "copies")
