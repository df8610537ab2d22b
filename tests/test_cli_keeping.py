"""The commands about earlier copies, and about what can be read of a damaged notebook."""

import json
from datetime import UTC, datetime
from pathlib import Path

import pytest

from lawnbook.cli import main
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.backups import backups_folder, keep_copy, saving_count
from lawnbook.store.sqlite_store import create, load
from tests.conftest import TODAY
from tests.small_book import rename, small_notebook

MADE = datetime(2026, 6, 15, 12, 0, tzinfo=UTC)


@pytest.fixture
def path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A small notebook with one earlier copy, in a folder of the test's own."""
    monkeypatch.setattr("platformdirs.user_data_path", lambda *_, **__: tmp_path / "data")
    path = tmp_path / "Home.lawnbook"
    create(path, small_notebook())
    keep_copy(path, saving_count(path), MADE, backups_folder())
    return path


def test_copies_are_listed_with_what_they_hold(
    path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["backups", str(path)], TODAY) == 0
    first, second = capsys.readouterr().out.splitlines()
    assert first == ("15 Jun 2026, 12:00  1 zone, 0 plugs, 0 feedings, 0 waterings; no dated entry")
    assert load(Path(second.strip())) == small_notebook()


def test_copies_as_json(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["backups", str(path), "--json"], TODAY) == 0
    told = json.loads(capsys.readouterr().out)
    (copy,) = told["copies"]
    assert Path(copy.pop("path")).is_relative_to(backups_folder())
    assert copy == {
        "made": "2026-06-15T12:00:00+00:00",
        "size_bytes": path.stat().st_size,
        "readable": True,
        "zones": 1,
        "plugs": 0,
        "feedings": 0,
        "waterings": 0,
        "latest": None,
    }


def test_copies_of_a_notebook_that_is_gone_are_still_listed(
    path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path.unlink()
    assert main(["backups", str(path)], TODAY) == 0
    assert "15 Jun 2026" in capsys.readouterr().out
    assert main(["backups", str(path.with_name("Other.lawnbook"))], TODAY) == 0
    assert "no earlier copy of Other.lawnbook" in capsys.readouterr().out


def test_a_salvage_says_what_is_missing_and_how_the_newest_copy_differs(
    path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    book = OpenNotebook.open(path, TODAY)
    book.edit(rename(book.notebook, "Later"), "rename")
    book.close()
    data = path.read_bytes()
    path.write_bytes(bytes(100) + data[100:])
    fresh = tmp_path / "New.lawnbook"
    assert main(["salvage", str(path), "-o", str(fresh)], TODAY) == 0
    told = capsys.readouterr().out
    assert "The beginning of the file is damaged." in told
    assert "Compared with the copy of 15 Jun 2026, 12:00" in told
    assert "  Yard: changed\n" in told
    assert load(fresh).yard.name == "Later"
    assert path.read_bytes() == bytes(100) + data[100:]


def test_a_salvage_with_losses_ends_with_one(
    path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    data = path.read_bytes()
    path.write_bytes(data[: len(data) // 4])
    assert main(["salvage", str(path), "-o", str(tmp_path / "New.lawnbook")], TODAY) == 1
    assert "its end is missing" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("name", "data", "says"),
    [
        ("Gone.lawnbook", None, "no such file"),
        ("Text.lawnbook", b"Dear diary, " * 1000, "nothing of a notebook"),
        ("Empty.lawnbook", b"", "nothing of a notebook"),
    ],
)
def test_what_cannot_be_salvaged_is_told_in_a_line(
    path: Path, name: str, data: bytes | None, says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    file = path.with_name(name)
    if data is not None:
        file.write_bytes(data)
    fresh = path.with_name("New.lawnbook")
    assert main(["salvage", str(file), "-o", str(fresh)], TODAY) == 2
    told = capsys.readouterr().err
    assert says in told
    assert len(told.splitlines()) == 1
    assert not fresh.exists()


def test_a_salvage_writes_over_nothing(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = path.read_bytes()
    assert main(["salvage", str(path), "-o", str(path)], TODAY) == 2
    assert "already there" in capsys.readouterr().err
    assert path.read_bytes() == before
