"""Disks that refuse, in the middle of whatever: nothing entered is lost, and the order is kept."""

import os
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.sqlite_store import create, load
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.photos import new_photo
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Core, Spot
from tests.conftest import TODAY
from tests.crash.kills import refuse_unsound
from tests.crash.recording import Event, Recorder, error_named, standing_in
from tests.small_book import in_child, rename, small_notebook

REFUSALS = {
    "create": "SQLITE_CANTOPEN",
    "truncate": "SQLITE_IOERR_TRUNCATE",
    "sync": "SQLITE_IOERR_FSYNC",
    "delete": "SQLITE_IOERR_DELETE",
}


@pytest.fixture(autouse=True)
def _own_data(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """Locks lie in a data folder of this test's own."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path_factory.mktemp("data")))


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    """The small notebook with a photographed plug, open."""
    notebook = small_notebook()
    core = Core(id="plug", spot="elm", date=TODAY, thatch_in=(0.5,))
    notebook = apply(notebook, put(notebook, "cores", core))
    notebook = apply(notebook, put(notebook, "photos", new_photo("plug", b"picture", (4, 3))))
    opened = OpenNotebook.create(tmp_path / "small.lawnbook", notebook, TODAY)
    yield opened
    opened.close(abandon=True)


def add_spot(book: OpenNotebook, name: str) -> None:
    """Add a spot in the front zone."""
    spot = Spot(id=name, name=name, zone="front" if "front" in book.notebook.zones else None)
    book.edit(put(book.notebook, "spots", spot), f"Add {name}")


def five_edits(book: OpenNotebook) -> None:
    """Edits of which each needs the one before it: a lost one, or another order, would show."""
    add_spot(book, "one")
    book.edit(
        put(book.notebook, "cores", Core(id="c", spot="one", date=TODAY, thatch_in=(0.5,))), "Plug"
    )
    book.undo()
    book.edit(remove(book.notebook, "zones", "front"), "Remove Front")
    book.edit(rename(book.notebook, "Later"), "Rename")


def refuse_from(recorder: Recorder, first: int, last: int, told: str) -> None:
    """Refuse what is done to the disk from a number on, up to another."""
    done = iter(range(10**6))

    def before(event: Event) -> None:
        if first <= next(done) <= last:
            raise error_named(REFUSALS.get(event.kind, told))

    recorder.before = before


@pytest.mark.parametrize(
    ("told", "for_good", "firsts"),
    [("SQLITE_FULL", False, range(0, 96, 3)), ("SQLITE_IOERR_WRITE", True, range(1, 60, 3))],
)
def test_whichever_write_is_refused_nothing_is_lost(
    tmp_path: Path, told: str, *, for_good: bool, firsts: range
) -> None:
    """The n-th write, sync or truncation fails, once or from then on; a commit says so."""
    path, waited = tmp_path / "small.lawnbook", 0
    for first in firsts:
        create(path, small_notebook(), overwrite=True)
        with standing_in() as recorder:
            book = OpenNotebook.open(path, TODAY)
            refuse_from(recorder, first, 10**6 if for_good else first, told)
            five_edits(book)
            waited += book.waiting
            assert bool(book.trouble) == bool(book.waiting)
            refuse_from(recorder, 0, -1, told)
            book.retry()
            assert (book.trouble, book.waiting) == ("", 0), first
            kept = book.notebook
            book.close()
        assert load(path) == kept == wanted(), first
        refuse_unsound(path)
    assert waited > 0


def wanted() -> Notebook:
    """The value that the five edits lead to."""
    notebook = small_notebook()
    notebook = apply(notebook, put(notebook, "spots", Spot(id="one", name="one", zone="front")))
    notebook = apply(notebook, remove(notebook, "zones", "front"))
    return apply(notebook, rename(notebook, "Later"))


def test_a_commit_told_as_failed_that_landed_is_known_as_our_own(tmp_path: Path) -> None:
    """Only the sync of the journal's end fails: the file has the edits, SQLite says it has not.

    What then waits is removed by an edit of its own, so that writing it twice would be refused.
    """
    path = tmp_path / "small.lawnbook"
    create(path, small_notebook())
    with standing_in() as recorder:
        book = OpenNotebook.open(path, TODAY)
        ended: list[Event] = []

        def before(event: Event) -> None:
            if ended and event.kind == "sync":
                raise error_named("SQLITE_IOERR_FSYNC")
            ended.extend([event] if event.kind == "truncate" else [])

        recorder.before = before
        add_spot(book, "one")
        assert "the disk reports an error" in book.trouble
        assert "one" in load(path).spots
        recorder.before = lambda _: None
        book.edit(remove(book.notebook, "zones", "front"), "Remove Front")
        assert (book.trouble, book.waiting) == ("", 0)
        kept = book.notebook
        book.close()
    assert load(path) == kept


def test_what_a_kill_left_of_a_journal_is_no_strangers(book: OpenNotebook) -> None:
    """Killed before the journal counted: SQLite rolls nothing back, and leaves the journal."""
    book.close()
    beside = book.path.with_name("small.lawnbook-journal")
    beside.write_bytes(bytes(700))
    with closing(OpenNotebook.open(book.path, TODAY)) as again:
        add_spot(again, "one")
        assert again.trouble == ""
    assert not beside.exists()


def test_a_file_removed_under_us_is_written_back(book: OpenNotebook) -> None:
    """Pictures too: SQLite still reads the file that has no name any more."""
    book.path.unlink()
    add_spot(book, "one")
    assert (book.waiting, book.can_write_back) == (1, True)
    assert "write it anew" in book.trouble
    book.write_back()
    assert (book.trouble, book.waiting, book.can_write_back) == ("", 0, False)
    assert load(book.path) == book.notebook
    assert [each.data_b64.data() for each in load(book.path).photos.values()] == [b"picture"]
    add_spot(book, "two")
    book.undo()
    book.undo()
    assert load(book.path) == book.notebook
    book.close()
    assert [each.name for each in book.path.parent.iterdir()] == ["small.lawnbook"]


def test_a_picture_that_went_with_its_drive_keeps_its_place_elsewhere(
    book: OpenNotebook, tmp_path: Path
) -> None:
    """What was entered is worth more than a picture that nobody can read any more."""
    os.truncate(book.path, 8192)
    book.path.unlink()
    add_spot(book, "one")
    with pytest.raises(OwnerError, match="picture cannot be read"):
        book.copy_to(tmp_path / "strict.lawnbook")
    new = tmp_path / "new.lawnbook"
    assert book.save_elsewhere(new) == 1
    assert (book.trouble, book.waiting) == ("", 0)
    assert load(new) == book.notebook
    (lost,) = load(new).photos.values()
    with pytest.raises(OwnerError, match="is damaged"):
        lost.data_b64.data()


def links_refused(*_: object) -> None:
    """A file system that knows no second names."""
    raise PermissionError(1, "Operation not permitted")


@pytest.mark.parametrize("has_links", [True, False])
@pytest.mark.parametrize("other", [b"theirs", None])
def test_what_lies_there_by_now_is_never_written_over(
    book: OpenNotebook, monkeypatch: pytest.MonkeyPatch, other: bytes | None, *, has_links: bool
) -> None:
    if not has_links:
        monkeypatch.setattr(Path, "hardlink_to", links_refused)
    book.path.unlink()
    add_spot(book, "one")
    if other is not None:
        book.path.write_bytes(other)
        assert not book.can_write_back
        with pytest.raises(OwnerError, match="another file lies there now"):
            book.write_back()
        assert book.path.read_bytes() == other
        assert book.waiting == 1
        book.path.unlink()
    book.write_back()
    assert load(book.path) == book.notebook
    assert sorted(each.suffix for each in book.path.parent.iterdir() if each.stat().st_size) == [
        ".lawnbook"
    ]


def test_a_folder_that_is_gone_comes_back(book: OpenNotebook) -> None:
    """As with a drive that was pulled: the folder is not there, and later is again."""
    away = book.path.parent.with_name("unplugged")
    book.path.parent.rename(away)
    add_spot(book, "one")
    assert f"the folder {book.path.parent} is not there" in book.trouble
    assert not book.can_write_back
    away.rename(book.path.parent)
    told: list[object] = []
    book.subscribe(told.append)
    book.retry_quietly()
    assert (book.trouble, book.waiting, told) == ("", 0, [{}])
    assert load(book.path) == book.notebook


def test_a_vain_quiet_try_says_nothing_and_waits_for_nobody(book: OpenNotebook) -> None:
    told: list[object] = []
    with closing(sqlite3.connect(book.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        add_spot(book, "one")
        book.subscribe(told.append)
        book.retry_quietly()
        assert (told, book.waiting) == ([], 1)
        other.execute("ROLLBACK")
    book.retry_quietly()
    assert (told, book.waiting) == ([{}], 0)
    book.retry_quietly()
    assert told == [{}]


AS_NOBODY = """
    import os, sys
    from pathlib import Path
    from lawnbook.session.open_notebook import OpenNotebook
    from lawnbook.yard.check import check_all  # loaded while we may read the library
    from lawnbook.yard.notebook import put
    from lawnbook.yard.records import Spot
    from tests.conftest import TODAY

    path = Path(sys.argv[1])
    if os.getuid() == 0:
        os.setgid(65534)
        os.setuid(65534)
    book = OpenNotebook.open(path, TODAY)
    what = path.parent if sys.argv[2] == "folder" else path
    mode = what.stat().st_mode
    what.chmod(0o500 if sys.argv[2] == "folder" else 0o400)
    spot = Spot(id="one", name="one")
    book.edit(put(book.notebook, "spots", spot), "Add")
    print(book.trouble)
    what.chmod(mode)
    book.retry()
    print(book.trouble, book.waiting)
    book.close()
    """


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that any user of this machine finds the way to."""
    with tempfile.TemporaryDirectory() as name:
        yield Path(name)


def owned_by_nobody(folder: Path) -> None:
    """Give a folder and what is in it to the user nobody, if we may."""
    if os.getuid() == 0:
        for each in (folder, *folder.iterdir()):
            os.chown(each, 65534, 65534)


@pytest.mark.parametrize(
    ("what", "part"), [("folder", "the file or its folder is write-protected"), ("file", "")]
)
def test_permission_lost_while_open(open_folder: Path, what: str, part: str) -> None:
    """As a user without root's rights: a read-only folder takes no journal.

    A file that becomes read-only while it is open can still be written on Unix, and is.
    """
    path = open_folder / "small.lawnbook"
    create(path, small_notebook())
    owned_by_nobody(open_folder)
    child = in_child(AS_NOBODY, path, what)
    assert child.returncode == 0, child.stderr
    first, second = child.stdout.splitlines()
    assert part in first
    assert bool(first) == bool(part)
    assert second.strip() == "0"
    assert "one" in load(path).spots


NEAR_FULL = """
    import resource, sys
    from pathlib import Path
    from lawnbook.session.open_notebook import OpenNotebook
    from lawnbook.yard.notebook import put
    from lawnbook.yard.records import Watering
    from tests.conftest import TODAY
    from tests.small_book import rename

    book = OpenNotebook.open(Path(sys.argv[1]), TODAY)
    most = resource.getrlimit(resource.RLIMIT_FSIZE)[1]
    resource.setrlimit(resource.RLIMIT_FSIZE, (book.path.stat().st_size + 8192, most))
    days = [Watering(id=f"{i:04}", date=TODAY, zone="front", minutes=9.0) for i in range(3000)]
    book.edit(put(book.notebook, "waterings", *days), "Take in")
    print(book.trouble)
    book.edit(rename(book.notebook, "After"), "Rename")
    print(book.waiting)
    resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
    book.edit(rename(book.notebook, "Later"), "Rename")
    print(book.trouble, book.waiting)
    book.close()
    """


def test_a_used_up_quota_is_told_and_ends_with_the_next_edit(tmp_path: Path) -> None:
    """The system's own limit on a file's growth stands in for a quota: write() is refused."""
    path = tmp_path / "small.lawnbook"
    create(path, small_notebook())
    child = in_child(NEAR_FULL, path)
    first, second, third = child.stdout.splitlines()
    assert first.startswith("small.lawnbook: the disk takes no more (your space is used up")
    assert (second, third.strip()) == ("2", "0")
    assert (len(load(path).waterings), load(path).yard.name) == (3000, "Later")
