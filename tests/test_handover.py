"""A handover as it is written: what is in it, byte by byte, and what is not."""

import csv
import io
import re
import sqlite3
import struct
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from lawnbook.plan.make import make_plan
from lawnbook.sheet.handover import Wants, documents_of, prepared, write_handover
from lawnbook.sheet.handover_readme import left_out, size_told
from lawnbook.store.handover_names import LONGEST_NAME, is_safe_member
from lawnbook.store.handover_zip import handover_zip
from lawnbook.store.sqlite_store import create, load
from lawnbook.store.yardfile import load_any, read_yard_text
from lawnbook.yard.notebook import Notebook, as_of, new_notebook, with_tables
from lawnbook.yard.problems import GivenUpError, OwnerError
from tests.desk_sample import DAY, sample
from tests.pdf_reading import pdfium
from tests.secret_book import (
    COORDINATES,
    ELEVATION,
    LATITUDE,
    LONGITUDE,
    ORIGIN,
    SECRET,
    secret_book,
)

NOTHING = Wants(names=False, location=False)
_STREAM = re.compile(rb"stream\r?\n(.*?)endstream", re.DOTALL)


def written(notebook: Notebook, path: Path, wants: Wants, on: date = DAY) -> zipfile.ZipFile:
    write_handover(notebook, make_plan(notebook, on), path, wants)
    return zipfile.ZipFile(path)


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Iterator[zipfile.ZipFile]:
    """All of Larkspur Corner."""
    path = tmp_path_factory.mktemp("whole") / "larkspur.zip"
    with written(sample("larkspur_corner"), path, Wants()) as held:
        yield held


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Iterator[zipfile.ZipFile]:
    """A yard full of secrets without names and place."""
    path = tmp_path_factory.mktemp("bare") / "bare.zip"
    with written(secret_book(), path, NOTHING) as held:
        yield held


def test_everything_is_in_it_once_and_named_for_every_system(whole: zipfile.ZipFile) -> None:
    names = whole.namelist()
    assert len({each.casefold() for each in names}) == len(names)
    assert {"README.txt", "notebook.lawnbook", "yard.json", "calendar.ics"} < set(names)
    assert "documents/sheet.pdf" in names
    assert sum(each.startswith("documents/year-review 20") for each in names) == 2
    assert "documents/then-and-now letterbox.pdf" in names
    assert "photos/2024-05-11 letterbox 1.jpg" in names
    assert "tables/zones.csv" in names
    for name in names:
        assert is_safe_member(name)
        assert len(name.rpartition("/")[2]) <= LONGEST_NAME
    assert whole.testzip() is None


def test_members_bear_the_day_and_pictures_are_stored(whole: zipfile.ZipFile) -> None:
    for info in whole.infolist():
        assert info.date_time == (DAY.year, DAY.month, DAY.day, 12, 0, 0)
        stored = info.filename.startswith("photos/")
        assert info.compress_type == (zipfile.ZIP_STORED if stored else zipfile.ZIP_DEFLATED)
    assert whole.comment == b""


def test_the_notebook_in_it_is_the_notebook(whole: zipfile.ZipFile, tmp_path: Path) -> None:
    whole.extract("notebook.lawnbook", tmp_path)
    true = sample("larkspur_corner")
    assert load(tmp_path / "notebook.lawnbook") == true
    with sqlite3.connect(tmp_path / "notebook.lawnbook") as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("delete",)
        assert connection.execute("PRAGMA freelist_count").fetchone() == (0,)
        moments = connection.execute("SELECT applied_at FROM _sqlite_migrations").fetchall()
        assert {each[0][:10] for each in moments} == {DAY.isoformat()}
    connection.close()
    text = whole.read("yard.json").decode()
    assert read_yard_text(text, DAY, None) == with_tables(true, {"photos": [], "backdrops": []})


def test_photographs_documents_and_tables_can_be_read_by_others(whole: zipfile.ZipFile) -> None:
    from icalendar import Calendar
    from PIL import Image

    for name in whole.namelist():
        data = whole.read(name)
        if name.startswith("photos/"):
            Image.open(io.BytesIO(data)).verify()
        elif name.endswith(".pdf"):
            assert len(pdfium.PdfDocument(data)) >= 1
        elif name.endswith(".csv"):
            rows = list(csv.reader(io.StringIO(data.decode("utf-8-sig"))))
            assert len(rows) > 1
            assert {len(row) for row in rows} == {len(rows[0])}
        elif name.endswith(".ics"):
            assert Calendar.from_ical(data.decode()).walk("VEVENT")


def test_the_same_notebook_and_day_give_the_same_bytes(tmp_path: Path) -> None:
    notebook = sample("saltbush_court")
    for wants in (Wants(), replace(NOTHING, paper="a4")):
        first, second = tmp_path / "1.zip", tmp_path / "2.zip"
        written(notebook, first, wants).close()
        written(notebook, second, wants).close()
        assert first.read_bytes() == second.read_bytes()


def test_the_readme_tells_what_a_stranger_needs(
    whole: zipfile.ZipFile, bare: zipfile.ZipFile
) -> None:
    words = " ".join(whole.read("README.txt").decode().split())
    for told in (
        "Handover of Larkspur Corner",
        "as of 25 Nov 2026",
        "notebook.lawnbook counts",
        "UNITS",
        "pounds of nitrogen per 1,000 square feet",
        "WHAT WAS LEFT OUT - Nothing.",
        "Before you dig",
        "FAO Irrigation and Drainage Paper 56",
        "SQLite 3",
    ):
        assert told in words
    assert max(map(len, whole.read("README.txt").decode().splitlines())) <= 80
    other = " ".join(bare.read("README.txt").decode().split())
    for told in ("Handover of A yard", "rounded to 5 degrees", "can be reckoned back", "labels"):
        assert told in other


def all_bytes(held: zipfile.ZipFile) -> Iterator[tuple[str, bytes]]:
    """Each member, its name, the streams of PDFs unpacked and their words, and the raw zip."""
    assert isinstance(held.filename, str)
    yield "the zip", Path(held.filename).read_bytes()
    for name in held.namelist():
        data = held.read(name)
        yield name, name.encode() + b"\n" + data
        if name.endswith(".pdf"):
            yield name, b"\n".join(_unpacked(data))
            document = pdfium.PdfDocument(data)
            words = [page.get_textpage().get_text_range() for page in document]
            yield name, "\n".join([*words, str(document.get_metadata_dict())]).encode()


def _unpacked(data: bytes) -> Iterator[bytes]:
    for found in _STREAM.finditer(data):
        try:
            yield zlib.decompress(found[1])
        except zlib.error:
            yield found[1]


def spellings(word: str) -> tuple[bytes, ...]:
    """A word as text files, PDFs' titles and their metadata spell it."""
    return tuple(word.encode(coding) for coding in ("utf-8", "utf-16-le", "utf-16-be"))


def test_the_search_for_secrets_finds_them_where_they_are_kept(tmp_path: Path) -> None:
    with written(secret_book(), tmp_path / "kept.zip", Wants()) as held:
        kinds = {
            name.rpartition(".")[2]
            for name, data in all_bytes(held)
            if any(each in data for each in spellings(SECRET))
        }
        books = held.read("notebook.lawnbook")
    assert {"pdf", "csv", "json", "lawnbook", "ics", "txt"} <= kinds
    assert struct.pack(">d", LATITUDE) in books


def test_no_secret_is_left_in_any_byte(bare: zipfile.ZipFile) -> None:
    places = (LATITUDE, LONGITUDE, ELEVATION, *ORIGIN)
    for name, data in all_bytes(bare):
        small = data.lower()
        for word in (SECRET, "Larkspur"):
            assert not any(each in small for each in spellings(word.lower())), name
        for place in places:
            assert struct.pack(">d", place) not in data, name
            assert struct.pack("<d", place) not in data, name
            assert repr(place).encode() not in data, name
        if not name.endswith((".csv", ".json", ".lawnbook")) and name != "the zip":
            for told in COORDINATES:
                assert not any(each in _texts(data) for each in spellings(told)), (name, told)


def _texts(data: bytes) -> bytes:
    """Of binary data nothing: four letters stand in it by chance."""
    try:
        data.decode()
    except UnicodeDecodeError:
        return b""
    return data


def test_without_pictures_there_are_none_anywhere(tmp_path: Path) -> None:
    with written(secret_book(), tmp_path / "small.zip", Wants(photos=False)) as held:
        assert not any(each.startswith("photos/") for each in held.namelist())
        held.extract("notebook.lawnbook", tmp_path)
    book = load(tmp_path / "notebook.lawnbook")
    assert not book.photos
    assert not book.backdrops
    assert b"\xff\xd8\xff" not in (tmp_path / "notebook.lawnbook").read_bytes()


def test_a_handover_opens_as_the_notebook_it_was_made_of(tmp_path: Path) -> None:
    notebook = sample("larkspur_corner")
    written(notebook, tmp_path / "a.zip", Wants()).close()
    again = load_any(tmp_path / "a.zip", DAY)
    assert again == notebook
    photo = next(iter(again.photos.values()))
    assert photo.data_b64.data().startswith(b"\xff\xd8")


def test_an_empty_yard_is_handed_over_without_what_it_lacks(tmp_path: Path) -> None:
    with written(new_notebook("Home"), tmp_path / "home.zip", Wants()) as held:
        names = held.namelist()
    assert "calendar.ics" not in names
    assert "documents/sheet.pdf" in names
    assert load_any(tmp_path / "home.zip", DAY) == new_notebook("Home")


def test_records_after_the_day_are_in_the_notebook_and_told(tmp_path: Path) -> None:
    notebook, on = sample("saltbush_court"), date(2026, 6, 15)
    assert as_of(notebook, on) is not notebook
    with written(notebook, tmp_path / "past.zip", Wants(), on) as held:
        assert "later than that day" in " ".join(held.read("README.txt").decode().split())
    assert load_any(tmp_path / "past.zip", DAY) == notebook


def test_odd_names_of_spots_become_files_of_their_own(tmp_path: Path) -> None:
    notebook = sample("larkspur_corner")
    odd = ("../../up", "CON", "a/b", "A\\B", "  ", "é" * 90)
    spots = [
        replace(spot, name=odd[n] if n < len(odd) else spot.name)
        for n, spot in enumerate(notebook.spots.values())
    ]
    handover = prepared(with_tables(notebook, {"spots": spots}), make_plan(notebook, DAY), Wants())
    names = [each.name for each in documents_of(handover)]
    assert len({each.casefold() for each in names}) == len(names)
    assert all(is_safe_member(each) and each.count("/") == 1 for each in names)


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("plan.pdf", "name it plan.zip"),
        ("nowhere/a.zip", "is not there"),
        ("other.zip", "not a zip"),
    ],
)
def test_a_place_that_will_not_do_is_explained(name: str, told: str, tmp_path: Path) -> None:
    (tmp_path / "other.zip").write_text("a letter to the neighbours")
    notebook = sample("saltbush_court")
    with pytest.raises(OwnerError, match=told):
        write_handover(notebook, make_plan(notebook, DAY), tmp_path / name, Wants())
    assert [each.name for each in tmp_path.iterdir()] == ["other.zip"]
    assert (tmp_path / "other.zip").read_text() == "a letter to the neighbours"


def test_one_that_is_given_up_leaves_the_earlier_one(tmp_path: Path) -> None:
    path = tmp_path / "a.zip"
    path.write_bytes(b"PK the earlier one")

    def given_up(_name: str) -> None:
        raise GivenUpError

    with pytest.raises(GivenUpError), handover_zip(path, DAY, given_up) as into:
        into.add("a.txt", b"a")
    assert path.read_bytes() == b"PK the earlier one"
    assert len(list(tmp_path.iterdir())) == 1


def test_a_picture_that_is_gone_stops_it_with_nothing_written(tmp_path: Path) -> None:
    create(tmp_path / "book.lawnbook", sample("larkspur_corner"))
    notebook = load(tmp_path / "book.lawnbook")
    plan = make_plan(notebook, DAY)
    (tmp_path / "book.lawnbook").unlink()
    with pytest.raises(OwnerError):
        write_handover(notebook, plan, tmp_path / "a.zip", Wants())
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("size", "told"), [(1, "1 KB"), (999_499, "999 KB"), (1_440_000, "1.4 MB"), (2e9, "2,000.0 MB")]
)
def test_sizes_are_told_as_people_read_them(size: int, told: str) -> None:
    assert size_told(size) == told


def test_what_is_left_out_is_told_for_what_it_is() -> None:
    assert left_out(Wants().kept) == ()
    assert len(left_out(NOTHING.kept)) == 4
    assert "may name the place" in " ".join(left_out(Wants(location=False).kept))
