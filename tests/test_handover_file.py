"""Handovers from strangers: what is refused, with which words, and that nothing is written."""

import json
import random
import sqlite3
import stat
import tempfile
import zipfile
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from lawnbook.plan.make import make_plan
from lawnbook.sheet.handover import Wants, write_handover
from lawnbook.store import handover_file
from lawnbook.store.handover_names import Names, is_safe_member, safe_stem
from lawnbook.store.yardfile import load_any, load_checked
from lawnbook.yard.problems import OwnerError
from tests.desk_sample import DAY, sample

BOOK = "notebook.lawnbook"


@pytest.fixture(scope="module")
def good(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A sound handover."""
    notebook = sample("saltbush_court")
    path = tmp_path_factory.mktemp("good") / "good.zip"
    write_handover(notebook, make_plan(notebook, DAY), path, Wants())
    return path


@pytest.fixture
def passing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder for passing files, for this test alone."""
    folder = tmp_path / "passing"
    folder.mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(folder))
    return folder


@pytest.fixture(autouse=True)
def _nothing_is_left(passing: Path) -> Iterator[None]:
    yield
    assert list(passing.iterdir()) == []


def members_of(path: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(path) as held:
        return {name: held.read(name) for name in held.namelist()}


def zipped(path: Path, members: dict[str, bytes]) -> Path:
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as out:
        for name, data in members.items():
            out.writestr(name, data)
    return path


def refusal(path: Path) -> str:
    before = path.read_bytes()
    with pytest.raises(OwnerError) as caught:
        load_any(path, DAY)
    assert path.read_bytes() == before
    told = str(caught.value)
    assert told.startswith(f"{path.name}: ")
    assert "\n" not in told
    return told


def test_a_sound_one_is_read_and_its_copy_goes_with_it(good: Path, passing: Path) -> None:
    notebook = load_checked(good, DAY).notebook
    assert notebook == sample("saltbush_court")
    del notebook
    assert list(passing.iterdir()) == []


def test_pictures_are_read_after_the_zip_is_gone(tmp_path: Path, passing: Path) -> None:
    true = sample("larkspur_corner")
    path = tmp_path / "photos.zip"
    write_handover(true, make_plan(true, DAY), path, Wants())
    notebook = load_any(path, DAY)
    path.unlink()
    assert len(list(passing.iterdir())) == 1
    photo = next(iter(notebook.photos.values()))
    assert photo.data_b64.data() == true.photos[photo.id].data_b64.data()
    del notebook, photo
    assert list(passing.iterdir()) == []


def test_one_packed_anew_in_a_folder_is_read_too(good: Path, tmp_path: Path) -> None:
    again = {f"Handover/{name}": data for name, data in members_of(good).items()}
    again["__MACOSX/Handover/notebook.lawnbook"] = b"not one"
    assert load_any(zipped(tmp_path / "again.zip", again), DAY) == sample("saltbush_court")


def test_the_notebook_counts_where_the_yard_file_says_otherwise(good: Path, tmp_path: Path) -> None:
    members = members_of(good)
    yard = json.loads(members["yard.json"])
    yard["yard"]["name"] = "Another yard"
    members["yard.json"] = json.dumps(yard).encode()
    read = load_any(zipped(tmp_path / "two.zip", members), DAY)
    assert read.yard.name == sample("saltbush_court").yard.name


@pytest.mark.parametrize(
    ("members", "told"),
    [
        ({"letter.txt": b"hello"}, "no notebook.lawnbook in it; it is no handover"),
        ({"yard.json": b"{}"}, "unpack it and open its yard.json"),
        ({"a/notebook.lawnbook": b"1", "b/notebook.lawnbook": b"2"}, "2 notebooks"),
        ({BOOK: b"1", "../up.txt": b"2"}, "leads outside"),
        ({BOOK: b"1", "/etc/x": b"2"}, "leads outside"),
        ({BOOK: b"1", "..\\up.txt": b"2"}, "leads outside"),
        ({BOOK: b"1", "C:\\x.txt": b"2"}, "leads outside"),
        ({BOOK: b"1", "Notebook.Lawnbook": b"2"}, "one name"),
        ({BOOK: b"not a database"}, "not a Lawnbook notebook"),
        ({BOOK: b""}, "not a Lawnbook notebook"),
    ],
)
def test_what_is_no_handover_is_refused(
    members: dict[str, bytes], told: str, tmp_path: Path
) -> None:
    assert told in refusal(zipped(tmp_path / "bad.zip", members))


def test_two_files_of_one_name_are_refused(good: Path, tmp_path: Path) -> None:
    path = tmp_path / "twice.zip"
    with zipfile.ZipFile(path, "w") as out:
        out.writestr(BOOK, b"1")
        with pytest.warns(UserWarning, match="Duplicate"):
            out.writestr(BOOK, members_of(good)[BOOK])
    assert "one name" in refusal(path)


def test_a_link_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "link.zip"
    info = zipfile.ZipInfo(BOOK)
    info.external_attr = (stat.S_IFLNK | 0o777) << 16
    with zipfile.ZipFile(path, "w") as out:
        out.writestr(info, "/etc/passwd")
    assert "only a link" in refusal(path)


def test_a_locked_one_is_refused(good: Path, tmp_path: Path) -> None:
    path = tmp_path / "locked.zip"
    data = bytearray(good.read_bytes())
    at = data.index(b"PK\x01\x02")
    data[at + 8] |= 1
    path.write_bytes(data)
    assert "password" in refusal(path)


def test_another_way_of_packing_is_refused(good: Path, tmp_path: Path) -> None:
    path = tmp_path / "other.zip"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_LZMA) as out:
        out.writestr(BOOK, members_of(good)[BOOK])
    assert "packed in a way" in refusal(path)


def test_one_that_would_grow_beyond_measure_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(handover_file, "ALWAYS_BYTES", 2**20)
    path = zipped(tmp_path / "bomb.zip", {BOOK: bytes(8 * 2**20)})
    assert "200 times" in refusal(path)
    monkeypatch.setattr(handover_file, "MOST_BYTES", 2**20)
    assert "larger than" in refusal(path)


def test_too_many_files_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(handover_file, "MOST_MEMBERS", 3)
    path = zipped(tmp_path / "many.zip", {f"{n}.txt": b"" for n in range(4)})
    assert "there are 4 files" in refusal(path)


def test_one_that_lies_about_its_size_is_refused(good: Path, tmp_path: Path) -> None:
    path = tmp_path / "lie.zip"
    data = bytearray(good.read_bytes())
    at = data.index(b"PK\x01\x02")
    data[at + 24 : at + 28] = (512).to_bytes(4, "little")
    path.write_bytes(data)
    refusal(path)


def test_a_newer_program_s_is_refused_untouched(good: Path, tmp_path: Path) -> None:
    members = members_of(good)
    book = tmp_path / BOOK
    book.write_bytes(members[BOOK])
    with closing(sqlite3.connect(book)) as connection:
        connection.execute("PRAGMA user_version = 999")
    told = refusal(zipped(tmp_path / "newer.zip", {**members, BOOK: book.read_bytes()}))
    assert "newer Lawnbook" in told


def test_no_zip_at_all_is_told(tmp_path: Path) -> None:
    path = tmp_path / "letter.zip"
    path.write_text("hello")
    assert "no zip file" in refusal(path)
    path.write_bytes(b"")
    assert "no zip file" in refusal(path)
    with pytest.raises(OwnerError, match="no such file"):
        load_any(tmp_path / "missing.zip", DAY)


def outcome_of(path: Path) -> str:
    try:
        load_any(path, DAY)
    except OwnerError as problem:
        return str(problem)
    return ""


def test_damage_anywhere_is_explained_or_harmless(good: Path, tmp_path: Path) -> None:
    whole, path, dice = good.read_bytes(), tmp_path / "hurt.zip", random.Random(7)
    refused = 0
    for _ in range(60):
        data = bytearray(whole)
        start = dice.choice((0, len(data) - 3000, dice.randrange(len(data))))
        for _ in range(dice.choice((1, 4, 40))):
            data[min(len(data) - 1, start + dice.randrange(3000))] = dice.randrange(256)
        path.write_bytes(data[: dice.choice((len(data), len(data), dice.randrange(len(data))))])
        told = outcome_of(path)
        assert not told or told.startswith("hurt.zip: ")
        refused += bool(told)
    assert refused > 20


@pytest.mark.parametrize(
    ("words", "stem"),
    [
        ("con", "_con"),
        ("NUL.txt", "_NUL.txt"),
        ("COM1 ", "_COM1"),
        ("a/b\\c:d", "a-b-c-d"),
        ("..", "unnamed"),
        ("", "unnamed"),
        ("  two   words. ", "two words"),
        ("e\u0301", "é"),
    ],
)
def test_names_are_fit_for_every_system(words: str, stem: str) -> None:
    assert safe_stem(words) == stem


def test_names_alike_get_numbers_and_stay_short() -> None:
    names = Names()
    taken = [names.take("photos", words, ".jpg") for words in ("Oak", "oak", "OAK", "字" * 90)]
    assert taken[:3] == ["photos/Oak.jpg", "photos/oak (2).jpg", "photos/OAK (3).jpg"]
    assert all(len(each.encode()) < 255 and is_safe_member(each) for each in taken)
