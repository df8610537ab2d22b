"""The paper form and then and now from the command line: written whole, or one line and nothing."""

import json
from pathlib import Path

import pytest

from lawnbook import cli
from lawnbook.store.yardfile import write_yard
from tests.pdf_reading import read_page
from tests.then_now_book import TODAY, drawn_photo, two_days

PAIR = "then-now book.json --spot gate -o page.pdf"
BAD = [
    ("plug-form", "required: NOTEBOOK"),
    ("plug-form book.json", "required: -o/--output"),
    ("plug-form book.json -o form.txt", "form.txt"),
    ("plug-form book.json -o book.json", "book.json"),
    ("plug-form book.json -o letter.pdf", "letter.pdf"),
    ("plug-form book.json -o gone/form.pdf", "gone"),
    ("plug-form book.json -o form.pdf --on soon", "--on"),
    ("plug-form book.json -o form.pdf --paper a5", "--paper"),
    ("plug-form nowhere.json -o form.pdf", "nowhere.json: there is no such file"),
    ("then-now book.json -o page.pdf", "required: --spot"),
    (
        "then-now book.json --spot moon -o page.pdf",
        'book.json: --spot: there is no "moon"; choose from Gate, Shed, Oak',
    ),
    (
        "then-now book.json --spot Shed -o page.pdf",
        "book.json: --spot: Shed has plugs of 9 May 2026 only; then and now need two days",
    ),
    ("then-now book.json --spot oak -o page.pdf", "book.json: --spot: Oak has no plug yet"),
    (
        f"{PAIR} --then 2024-05-12",
        "--then: there is no plug of 12 May 2024; choose from 2024-",
    ),
    (f"{PAIR} --now 2020-01-01", "--now: there is no plug of 1 Jan 2020"),
    (f"{PAIR} --now tomorrow", "--now"),
    (f"{PAIR} --then 2025-05-10 --now 2024-05-11", "10 May 2025 is not before 11 May 2024"),
    (f"{PAIR} --now 2024-05-11", "11 May 2024 is not before 11 May 2024"),
]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A working folder with a yard file of plugs and photographs, and someone's letter."""
    monkeypatch.chdir(tmp_path)
    write_yard(two_days(drawn_photo("c1"), drawn_photo("c3", 60)), tmp_path / "book.json")
    (tmp_path / "letter.pdf").write_text("Dear neighbour")
    return tmp_path


def state(folder: Path) -> dict[str, bytes]:
    """Every file of a folder with its content."""
    return {path.name: path.read_bytes() for path in folder.iterdir()}


@pytest.mark.parametrize(("line", "said"), BAD)
def test_bad_input_is_one_line_and_nothing_is_written(
    folder: Path, capsys: pytest.CaptureFixture[str], line: str, said: str
) -> None:
    before = state(folder)
    assert cli.main(line.split(), TODAY) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert said in err
    assert err.count("\n") == 1
    assert state(folder) == before


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_form_is_written(folder: Path, capsys: pytest.CaptureFixture[str], paper: str) -> None:
    line = f"plug-form book.json -o form.pdf --on 2027-04-15 --paper {paper}"
    assert cli.main(line.split(), TODAY) == 0
    assert "The form is in form.pdf" in capsys.readouterr().out
    page = read_page(folder / "form.pdf")
    assert page.pages == 1
    assert page.width == pytest.approx(612 if paper == "letter" else 595, abs=1)
    assert "as of 15 Apr 2027" in page.flat


def test_the_form_is_for_the_spots_that_are_asked_for(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Due or not; an unknown one is refused, and the form stays as it was."""
    line = "plug-form book.json -o form.pdf --on 2024-06-01"
    assert cli.main([*line.split(), "--spot", "Gate"], TODAY) == 0
    page = read_page(folder / "form.pdf").flat
    assert "Gate" in page
    names = [each["name"] for each in json.loads((folder / "book.json").read_text())["spots"]]
    assert len(names) > 1
    assert not any(name in page for name in names if name != "Gate")
    before = state(folder)
    assert cli.main([*line.split(), "--spot", "Nowhere"], TODAY) == 2
    assert "--spot" in capsys.readouterr().err
    assert state(folder) == before


def test_then_and_now_is_of_the_first_and_the_latest_day_unless_told(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(PAIR.split(), TODAY) == 0
    assert "The page is in page.pdf" in capsys.readouterr().out
    assert "Then and now: 11 May 2024 and 9 May 2026" in read_page(folder / "page.pdf").flat
    told = f"{PAIR} --then 2024-05-11 --now 2025-05-10 --paper a4"
    assert cli.main(told.split(), TODAY) == 0
    page = read_page(folder / "page.pdf")
    assert "Then and now: 11 May 2024 and 10 May 2025" in page.flat
    assert page.height == pytest.approx(842, abs=1)


def test_a_notebook_is_read_as_a_yard_file_is(folder: Path) -> None:
    assert cli.main(["import", "book.json", "-o", "book.lawnbook"], TODAY) == 0
    line = "then-now book.lawnbook --spot Gate -o page.pdf"
    assert cli.main(line.split(), TODAY) == 0
    assert b"/Subtype /Image" in (folder / "page.pdf").read_bytes()


def test_the_yard_file_holds_the_photographs_that_the_page_shows(folder: Path) -> None:
    """Without them in the file the page says that there are none."""
    yard = json.loads((folder / "book.json").read_text())
    (folder / "bare.json").write_text(json.dumps({**yard, "photos": []}))
    line = "then-now bare.json --spot gate -o page.pdf"
    assert cli.main(line.split(), TODAY) == 0
    assert b"/Subtype /Image" not in (folder / "page.pdf").read_bytes()


@pytest.mark.parametrize("slip", ["plug-from", "then_now"])
def test_a_slip_of_a_command_is_seen(capsys: pytest.CaptureFixture[str], slip: str) -> None:
    assert cli.main([slip, "book.json"], TODAY) == 2
    assert "did you mean" in capsys.readouterr().err
