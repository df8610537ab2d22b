"""The year in review, and then and now as of a day, from the command line."""

from datetime import date
from pathlib import Path

import pytest

from lawnbook import cli
from lawnbook.store.yardfile import write_yard
from tests.desk_sample import sample
from tests.pdf_reading import read_page
from tests.then_now_book import two_days

TODAY = date(2026, 11, 15)
LINE = "year-review book.json -o review.pdf"
PAIR = "then-now plugs.json --spot gate -o page.pdf"
BAD = [
    ("year-review", "required: NOTEBOOK"),
    ("year-review book.json", "required: -o/--output"),
    ("year-review book.json -o review.txt", "review.txt"),
    ("year-review book.json -o book.json", "book.json"),
    ("year-review book.json -o gone/review.pdf", "gone"),
    ("year-review nowhere.json -o review.pdf", "nowhere.json: there is no such file"),
    (f"{LINE} --year soon", '--year: "soon" is no year; enter one such as 2026'),
    (f"{LINE} --year 20261", '--year: "20261" is no year'),
    (f"{LINE} --year ²026", '--year: "²026" is no year'),
    (f"{LINE} --year 2027", "--year: 2027 has not begun by 15 Nov 2026; choose one from"),
    (f"{LINE} --year 0001", "--year: 1 is too far from 15 Nov 2026"),
    (f"{LINE} --on soon", "--on"),
    (f"{LINE} --on 2025-06-01 --year 2026", "2026 has not begun by 1 Jun 2025"),
    (f"{LINE} --paper a5", "--paper"),
    (f"{PAIR} --on 2020-01-01", "plugs.json: --spot: Gate has no plug yet"),
    (f"{PAIR} --on 2025-12-01 --now 2026-05-09", "--now: there is no plug of 9 May 2026"),
    (f"{PAIR} --on soon", "--on"),
]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A working folder with a sample yard and a yard of plugs."""
    monkeypatch.chdir(tmp_path)
    write_yard(sample("larkspur_corner"), tmp_path / "book.json")
    write_yard(two_days(), tmp_path / "plugs.json")
    return tmp_path


@pytest.mark.parametrize(("year", "note"), [(1990, True), (2025, False)])
def test_a_year_without_records_is_written_with_a_note(
    folder: Path, capsys: pytest.CaptureFixture[str], year: int, note: bool
) -> None:
    assert cli.main(f"{LINE} --year {year}".split(), TODAY) == 0
    assert (folder / "review.pdf").exists()
    assert (f"Nothing is recorded in {year}" in capsys.readouterr().out) == note


@pytest.mark.parametrize(("line", "said"), BAD)
def test_bad_input_is_one_line_and_nothing_is_written(
    folder: Path, capsys: pytest.CaptureFixture[str], line: str, said: str
) -> None:
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    assert cli.main(line.split(), TODAY) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert said in err
    assert err.count("\n") == 1
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before


@pytest.mark.parametrize(
    ("more", "year", "compared"),
    [
        ("", "2026", "1 Jan to 15 Nov 2026, beside the same days of 2025."),
        ("--year 2025", "2025", "The whole of 2025 beside the whole of 2024."),
        ("--on 2025-07-01", "2025", "1 Jan to 1 Jul 2025, beside the same days of 2024."),
    ],
)
def test_the_review_is_written(
    folder: Path, capsys: pytest.CaptureFixture[str], more: str, year: str, compared: str
) -> None:
    assert cli.main([*LINE.split(), *more.split(), "--paper", "a4"], TODAY) == 0
    assert "The year in review is in review.pdf" in capsys.readouterr().out
    page = read_page(folder / "review.pdf")
    assert page.height == pytest.approx(842, abs=1)
    assert f"Year in review: {year}" in page.flat
    assert compared in page.flat


def test_then_and_now_knows_only_what_is_dated_up_to_the_day(folder: Path) -> None:
    """Without a day it is the latest plug; on a day between, the one before that day."""
    assert cli.main(PAIR.split(), TODAY) == 0
    assert "11 May 2024 and 9 May 2026" in read_page(folder / "page.pdf").flat
    assert cli.main([*PAIR.split(), "--on", "2025-12-01"], TODAY) == 0
    assert "11 May 2024 and 10 May 2025" in read_page(folder / "page.pdf").flat
