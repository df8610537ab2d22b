"""Photographs in the notebook's file: read only when looked at, never lost, never written twice."""

import json
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from lawnbook import cli
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store import yardfile
from lawnbook.store.picture_shelf import PictureShelf
from lawnbook.store.sqlite_store import Store, create, load
from lawnbook.store.yardfile import load_any, write_yard, write_yard_text
from lawnbook.yard.check import check_notebook
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import Notebook, put
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import OwnerError
from tests.conftest import TODAY
from tests.kept_photos import RULER, photo, photo_notebook, picture_bytes, unreadable
from tests.small_book import in_child, small_notebook


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A file with two photographs of one plug."""
    made = tmp_path / "small.lawnbook"
    create(made, photo_notebook())
    return made


@pytest.fixture
def book(path: Path) -> Iterator[OpenNotebook]:
    """That file, open."""
    opened = OpenNotebook.open(path, TODAY)
    yield opened
    opened.close(abandon=True)


def held(path: Path) -> set[str]:
    """The pictures that lie in a file."""
    with closing(sqlite3.connect(path)) as raw:
        return {row[0] for row in raw.execute("SELECT sha256 FROM pictures")}


def picture_of(path: Path, number: int) -> Picture:
    """A photograph's picture, as a file that is read once gives it."""
    return load(path).photos[f"photo {number}"].data_b64


def test_the_yard_of_these_tests_raises_no_question() -> None:
    assert check_notebook(photo_notebook(), TODAY) == ()


def test_pictures_are_brought_when_they_are_asked_for(path: Path, book: OpenNotebook) -> None:
    for notebook in (load(path), book.notebook):
        assert notebook == photo_notebook()
        for number in (1, 2):
            assert notebook.photos[f"photo {number}"].data_b64.data() == picture_bytes(number)


def test_a_plan_does_not_read_a_picture(
    path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    said: list[str] = []
    real: Callable[..., sqlite3.Connection] = sqlite3.connect

    def watched(*how: object, **more: object) -> sqlite3.Connection:
        connection = real(*how, **more)
        connection.set_trace_callback(said.append)
        return connection

    monkeypatch.setattr(sqlite3, "connect", watched)
    assert cli.main(["plan", str(path), "--json"], TODAY) == 0
    assert json.loads(capsys.readouterr().out)["thatch"]
    assert any("FROM photos" in each for each in said)
    assert not any("SELECT data" in each for each in said)
    picture_of(path, 1).data()
    assert any("SELECT data FROM pictures" in each for each in said)


def test_a_file_that_is_read_once_stays_free(path: Path) -> None:
    """Its pictures are read through a connection of that moment: the file can be moved away."""
    picture = picture_of(path, 1)
    moved = path.rename(path.with_name("moved.lawnbook"))
    with pytest.raises(OwnerError, match=r"small.lawnbook: the file cannot be opened here"):
        picture.data()
    moved.rename(path)
    assert picture.data() == picture_bytes(1)


def test_a_file_that_must_not_be_written_gives_its_pictures(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path.chmod(0o444)
    monkeypatch.setattr("os.access", lambda *_: False)
    assert picture_of(path, 2).data() == picture_bytes(2)


def test_marks_are_written_without_the_picture(path: Path) -> None:
    with closing(Store(path)) as store:
        notebook = store.read()
        before = notebook.photos["photo 2"]
        marked = replace(before, ruler=RULER, data_b64=unreadable(before.data_b64))
        said: list[str] = []
        store.shelf.connection.set_trace_callback(said.append)
        store.write(put(notebook, "photos", marked))
        store.shelf.connection.set_trace_callback(None)
    assert any("INTO photos" in each for each in said)
    assert not any("pictures" in each for each in said)
    assert load(path).photos["photo 2"].ruler == RULER
    assert picture_of(path, 2).data() == picture_bytes(2)


def test_one_picture_of_two_plugs_lies_there_once(path: Path, book: OpenNotebook) -> None:
    again = replace(photo(1), id="again", ruler=None)
    book.edit(put(book.notebook, "photos", again), "Add a photograph")
    book.edit(remove(book.notebook, "photos", "photo 1"), "Remove it")
    book.close()
    assert len(held(path)) == 2
    assert load(path).photos["again"].data_b64.data() == picture_bytes(1)


def test_a_plug_that_is_taken_out_and_put_back_has_its_photographs(
    path: Path, book: OpenNotebook
) -> None:
    book.edit(remove(book.notebook, "cores", "plug"), "Remove a plug")
    assert not load(path).photos
    book.undo()
    assert load(path) == photo_notebook()
    assert picture_of(path, 1).data() == picture_bytes(1)
    book.redo()
    book.close()
    assert not held(path), "what undo can no longer bring back is gone for good"


def test_undo_in_a_new_file_brings_back_what_lay_in_the_old_one(
    path: Path, book: OpenNotebook, tmp_path: Path
) -> None:
    book.edit(put(book.notebook, "photos", photo(3)), "Add a photograph")
    book.edit(remove(book.notebook, "photos", "photo 1"), "Remove a photograph")
    book.undo()
    book.edit(remove(book.notebook, "cores", "plug"), "Remove a plug")
    new = tmp_path / "new.lawnbook"
    book.save_elsewhere(new)
    path.unlink()
    book.undo()
    assert (book.trouble, book.waiting) == ("", 0)
    assert load(new) == book.notebook
    for number in (1, 2, 3):
        assert book.notebook.photos[f"photo {number}"].data_b64.data() == picture_bytes(number)
        assert picture_of(new, number).data() == picture_bytes(number)
    book.undo()
    assert set(load(new).photos) == {"photo 1", "photo 2"}
    book.close()
    assert len(held(new)) == 2


def test_a_damaged_picture_that_was_taken_out_does_not_keep_a_book_where_it_is(
    path: Path, book: OpenNotebook, tmp_path: Path
) -> None:
    damage(path, "UPDATE pictures SET data = x'00' WHERE sha256 = ?", photo(1).sha256)
    again = OpenNotebook.open(copied(path), TODAY)
    again.edit(remove(again.notebook, "photos", "photo 1"), "Remove a photograph")
    again.save_elsewhere(tmp_path / "new.lawnbook")
    again.close()
    assert set(load(tmp_path / "new.lawnbook").photos) == {"photo 2"}


def test_undo_brings_a_plug_back_beside_its_damaged_picture(path: Path, tmp_path: Path) -> None:
    damage(path, "UPDATE pictures SET data = x'00' WHERE sha256 = ?", photo(1).sha256)
    with closing(OpenNotebook.open(path, TODAY)) as book:
        book.edit(remove(book.notebook, "cores", "plug"), "Remove a plug")
        book.save_elsewhere(tmp_path / "new.lawnbook")
        book.undo()
        assert (book.trouble, book.waiting) == ("", 0)
        with pytest.raises(OwnerError, match="is damaged"):
            book.notebook.photos["photo 1"].data_b64.data()
        assert book.notebook.photos["photo 2"].data_b64.data() == picture_bytes(2)
    assert set(load(tmp_path / "new.lawnbook").photos) == {"photo 1", "photo 2"}


def test_a_damaged_picture_is_mended_by_adding_it_again(path: Path) -> None:
    damage(path, "UPDATE pictures SET data = x'00' WHERE sha256 = ?", photo(1).sha256)
    with closing(OpenNotebook.open(path, TODAY)) as book:
        book.edit(remove(book.notebook, "photos", "photo 1"), "Remove a photograph")
        book.edit(put(book.notebook, "photos", photo(1)), "Add it again")
    assert picture_of(path, 1).data() == picture_bytes(1)


def test_a_new_file_that_cannot_be_read_leaves_the_pictures_in_the_old_one(
    book: OpenNotebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(_: Store) -> Notebook:
        raise OwnerError("the disk reports an error")

    monkeypatch.setattr(Store, "read", refused)
    with pytest.raises(OwnerError, match="reports an error"):
        book.save_elsewhere(tmp_path / "new.lawnbook")
    assert book.notebook.photos["photo 1"].data_b64.data() == picture_bytes(1)


def copied(path: Path) -> Path:
    """A copy of a file beside it."""
    copy = path.with_name("copy.lawnbook")
    copy.write_bytes(path.read_bytes())
    return copy


def damage(path: Path, statement: str, *values: str) -> None:
    """Change a file as no Lawnbook would."""
    with closing(sqlite3.connect(path)) as raw, raw:
        assert raw.execute(statement, values).rowcount == 1


def test_a_missing_picture_is_damage(path: Path) -> None:
    damage(path, "DELETE FROM pictures WHERE sha256 = ?", photo(1).sha256)
    with pytest.raises(OwnerError, match=r"small.lawnbook: the file is damaged \(the picture"):
        load(path)
    with closing(Store(path)) as store, pytest.raises(OwnerError, match="the file is damaged"):
        store.read()


def test_an_altered_picture_is_damage_once_it_is_looked_at(path: Path) -> None:
    damage(path, "UPDATE pictures SET data = x'ffd8ff' WHERE sha256 = ?", photo(1).sha256)
    with closing(Store(path)) as store:
        for notebook in (load(path), store.read()):
            with pytest.raises(OwnerError, match="is damaged; go to an earlier copy"):
                notebook.photos["photo 1"].data_b64.data()
            assert notebook.photos["photo 2"].data_b64.data() == picture_bytes(2)


def test_a_picture_of_a_closed_book_is_told_to_be_gone(path: Path) -> None:
    with closing(Store(path)) as store:
        picture = store.read().photos["photo 1"].data_b64
        assert picture.data() == picture_bytes(1)
    with pytest.raises(OwnerError, match="cannot be read from the notebook's file any more"):
        picture.data()


def test_a_shelf_says_what_it_does_not_hold(path: Path) -> None:
    with closing(sqlite3.connect(path)) as raw, pytest.raises(OwnerError, match="add it again"):
        PictureShelf(raw).picture("0" * 64).data()


def test_photographs_wait_while_the_file_is_held(path: Path, book: OpenNotebook) -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        book.edit(put(book.notebook, "photos", photo(3)), "Add a photograph")
        book.edit(remove(book.notebook, "photos", "photo 1"), "Remove a photograph")
        assert book.waiting == 2
        assert book.notebook.photos["photo 3"].data_b64.data() == picture_bytes(3)
        other.execute("ROLLBACK")
    book.retry()
    assert (book.trouble, book.waiting) == ("", 0)
    assert load(path) == book.notebook
    book.undo()
    assert picture_of(path, 1).data() == picture_bytes(1)
    assert picture_of(path, 3).data() == picture_bytes(3)


def test_a_photograph_waits_for_room_on_a_full_disk(path: Path) -> None:
    child = in_child(
        """
        import resource, sys
        from datetime import date
        from pathlib import Path
        from lawnbook.session.open_notebook import OpenNotebook
        from lawnbook.store.sqlite_store import load
        from lawnbook.yard.notebook import Notebook, put
        from lawnbook.yard.photos import new_photo

        book = OpenNotebook.open(Path(sys.argv[1]), date(2026, 6, 15))
        data = bytes(range(256)) * 4000
        photo = new_photo("plug", data, (10, 10))
        most = resource.getrlimit(resource.RLIMIT_FSIZE)[1]
        size = Path(sys.argv[1]).stat().st_size
        resource.setrlimit(resource.RLIMIT_FSIZE, (size + 8192, most))
        book.edit(put(book.notebook, "photos", photo), "Add a photograph")
        print(book.trouble)
        assert book.waiting == 1 and photo.id in book.notebook.photos
        resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
        book.retry()
        assert book.waiting == 0, book.trouble
        book.close()
        assert load(book.path).photos[photo.id].data_b64.data() == data
        """,
        path,
    )
    assert child.returncode == 0, child.stderr
    assert child.stdout.startswith("small.lawnbook: the disk ")


def test_a_yard_file_holds_the_photographs_and_gives_them_back(path: Path, tmp_path: Path) -> None:
    yard, back = tmp_path / "yard.json", tmp_path / "back.lawnbook"
    assert cli.main(["export", str(path), "-o", str(yard)], TODAY) == 0
    assert yard.read_text(encoding="utf-8") == write_yard_text(photo_notebook())
    assert cli.main(["import", str(yard), "-o", str(back)], TODAY) == 0
    assert load(back) == load_any(yard, TODAY) == photo_notebook()
    assert picture_of(back, 1).data() == picture_bytes(1)


def test_an_export_stops_with_words_at_a_picture_that_is_damaged(
    path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    damage(path, "UPDATE pictures SET data = x'00' WHERE sha256 = ?", photo(1).sha256)
    yard = tmp_path / "yard.json"
    assert cli.main(["export", str(path), "-o", str(yard)], TODAY) == 2
    assert "is damaged" in capsys.readouterr().err
    assert not yard.exists()


def test_a_yard_file_that_could_not_be_read_again_is_not_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    yard = tmp_path / "yard.json"
    size = len(write_yard_text(photo_notebook()).encode())
    monkeypatch.setattr(yardfile, "MOST_BYTES", size)
    write_yard(photo_notebook(), yard)
    assert load_any(yard, TODAY) == photo_notebook()
    monkeypatch.setattr(yardfile, "MOST_BYTES", size - 1)
    with pytest.raises(OwnerError, match="copy the notebook's own file instead"):
        write_yard(photo_notebook(), tmp_path / "other.json")
    assert [each.name for each in tmp_path.iterdir()] == ["yard.json"]


def test_two_hundred_photographs_are_exported_one_after_another(tmp_path: Path) -> None:
    """A book of 200 pictures of half a megabyte: never more than a few of them in memory."""
    path, yard = tmp_path / "many.lawnbook", tmp_path / "many.json"
    create(path, small_notebook())
    child = in_child(
        """
        import resource, sys
        from dataclasses import replace
        from datetime import date
        from pathlib import Path
        from lawnbook import cli
        from lawnbook.store.sqlite_store import Store
        from lawnbook.yard.notebook import apply, put
        from lawnbook.yard.photos import new_photo
        from lawnbook.yard.records import Core

        store = Store(Path(sys.argv[1]))
        notebook = store.read()
        plug = Core(id="plug", spot="elm", date=date(2026, 5, 9), thatch_in=(0.75,))
        store.write(put(notebook, "cores", plug))
        for number in range(200):
            data = number.to_bytes(4, "big") * 125_000
            store.write(put(notebook, "photos", new_photo("plug", data, (1000, 500))))
        store.close()
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        assert cli.main(["export", *sys.argv[1:2], "-o", sys.argv[2]], date(2026, 6, 15)) == 0
        print((resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) // 1024)
        """,
        path,
        yard,
    )
    assert child.returncode == 0, child.stderr
    assert int(child.stdout.splitlines()[-1]) < 50, "megabytes"
    assert yard.stat().st_size > 130_000_000
