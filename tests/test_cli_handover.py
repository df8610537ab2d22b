"""`lawnbook handover`, and a handover wherever a notebook is read: answers, refusals."""

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from lawnbook import cli
from lawnbook.store.sqlite_store import create, load
from lawnbook.yard.notebook import Notebook
from tests.desk_sample import DAY, sample

CHILD = """
import resource, sys
from datetime import date
from pathlib import Path
from lawnbook import cli

most = resource.getrlimit(resource.RLIMIT_FSIZE)[1]
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[3]), most))
sys.exit(cli.main(["handover", sys.argv[1], "-o", sys.argv[2]], date(2026, 11, 25)))
"""


@pytest.fixture
def book(tmp_path: Path) -> Path:
    path = tmp_path / "book.lawnbook"
    create(path, sample("larkspur_corner"))
    return path


def test_it_is_written_and_read_by_every_command(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "over.zip"
    assert cli.main(["handover", str(book), "-o", str(path)], DAY) == 0
    assert capsys.readouterr().out == f"The handover is in {path}\n"
    assert cli.main(["plan", str(book), "--on", "2026-06-15"], DAY) == 0
    plan = capsys.readouterr().out
    assert cli.main(["plan", str(path), "--on", "2026-06-15"], DAY) == 0
    assert capsys.readouterr().out == plan
    assert cli.main(["sheet", str(path), "-o", str(tmp_path / "s.pdf")], DAY) == 0
    assert cli.main(["export", str(path), "-o", str(tmp_path / "s.json")], DAY) == 0
    again = tmp_path / "again.lawnbook"
    assert cli.main(["import", str(path), "-o", str(again)], DAY) == 0
    assert load(again) == load(book)
    assert capsys.readouterr().err == ""


def test_what_is_to_be_left_out_is_left_out(book: Path, tmp_path: Path) -> None:
    path = tmp_path / "bare.zip"
    told = ["handover", str(book), "-o", str(path), "--on", "2026-06-15", "--paper", "a4"]
    assert cli.main([*told, "--without-names", "--without-place", "--without-photos"], DAY) == 0
    with zipfile.ZipFile(path) as held:
        words = held.read("README.txt").decode()
        held.extract("notebook.lawnbook", tmp_path)
    notebook = load(tmp_path / "notebook.lawnbook")
    assert "as of 15 Jun 2026" in words
    assert (notebook.yard.name, notebook.yard.longitude_deg) == ("A yard", None)
    assert not notebook.photos


@pytest.mark.parametrize(
    ("target", "more", "told"),
    [
        ("book.lawnbook", [], "name ends in .zip; name it book.zip"),
        ("nowhere/x.zip", [], "the folder"),
        ("letter.zip", [], "not a zip file"),
        ("folder.zip", [], "this is a folder"),
        ("x.zip", ["--on", "soon"], "--on"),
        ("x.zip", ["--paper", "a3"], "--paper"),
    ],
)
def test_bad_input_is_one_line_and_nothing_is_written(
    target: str,
    more: list[str],
    told: str,
    book: Path,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    (tmp_path / "letter.zip").write_text("hello")
    (tmp_path / "folder.zip").mkdir()
    before = {each.name: each.is_file() and each.read_bytes() for each in tmp_path.iterdir()}
    assert cli.main(["handover", str(book), "-o", str(tmp_path / target), *more], DAY) == 2
    said = capsys.readouterr()
    assert told in said.err
    assert (said.out, said.err.count("\n")) == ("", 1)
    after = {each.name: each.is_file() and each.read_bytes() for each in tmp_path.iterdir()}
    assert after == before


def test_a_handover_is_not_written_over_itself(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "over.zip"
    assert cli.main(["handover", str(book), "-o", str(path)], DAY) == 0
    before = path.read_bytes()
    assert cli.main(["handover", str(path), "-o", str(path)], DAY) == 2
    assert "this is the file that is read" in capsys.readouterr().err
    assert path.read_bytes() == before


def test_a_bad_zip_is_explained_by_the_commands(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "bad.zip").write_text("hello")
    assert cli.main(["plan", str(tmp_path / "bad.zip")], DAY) == 2
    assert capsys.readouterr().err.startswith("bad.zip: this is no zip file")
    assert cli.main(["plan", str(tmp_path / "none.zip")], DAY) == 2
    assert "there is no such file" in capsys.readouterr().err


@pytest.mark.skipif(sys.platform == "win32", reason="no such limit there")
@pytest.mark.parametrize("most_bytes", [100_000, 700_000, 1_500_000])
def test_a_disk_that_fills_half_way_leaves_nothing(
    most_bytes: int, book: Path, tmp_path: Path
) -> None:
    """In the notebook's copy, in the zip's beginning, and late in the zip."""
    path = tmp_path / "over.zip"
    path.write_bytes(b"PK an earlier one")
    done = subprocess.run(
        [sys.executable, "-c", CHILD, str(book), str(path), str(most_bytes)],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert done.returncode == 2, done.stderr
    assert done.stderr.count("\n") == 1
    assert "over.zip: " in done.stderr
    assert path.read_bytes() == b"PK an earlier one"
    assert sorted(each.name for each in tmp_path.iterdir()) == ["book.lawnbook", "over.zip"]


def test_the_notebook_is_not_touched(book: Path, tmp_path: Path) -> None:
    before: tuple[bytes, Notebook] = book.read_bytes(), load(book)
    assert cli.main(["handover", str(book), "-o", str(tmp_path / "o.zip")], DAY) == 0
    assert (book.read_bytes(), load(book)) == before
