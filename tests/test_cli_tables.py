"""Tables on the command line: out for a spreadsheet, and in again."""

import csv
import io
from datetime import date
from pathlib import Path

import pytest

from lawnbook.cli import main
from lawnbook.store.sqlite_store import create
from lawnbook.store.tables_out import write_tables
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import Watering
from tests.conftest import TODAY
from tests.other_ids import with_other_ids

SAMPLE = next(path for path in sample_yards() if path.stem == "larkspur_corner")


def _run(*words: object) -> int:
    return main([str(each) for each in words], TODAY)


@pytest.fixture
def notebook(tmp_path: Path) -> Path:
    path = tmp_path / "yard.lawnbook"
    create(path, load_any(SAMPLE, TODAY))
    return path


def _edited(path: Path, field: str, value: str) -> None:
    """Change a field in the first row of a CSV file."""
    rows = list(csv.DictReader(io.StringIO(path.read_bytes().decode("utf-8-sig"))))
    rows[0][field] = value
    out = io.StringIO(newline="")
    writer = csv.DictWriter(out, rows[0].keys())
    writer.writeheader()
    writer.writerows(rows)
    path.write_text(out.getvalue(), encoding="utf-8", newline="")


@pytest.mark.parametrize("name", ["all.xlsx", "all.zip"])
def test_out_and_in_again_changes_nothing(
    name: str, notebook: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = notebook.read_bytes()
    assert _run("tables", notebook, "-o", tmp_path / name) == 0
    assert _run("take-tables", tmp_path / name, "-o", notebook) == 0
    told = capsys.readouterr()
    assert "rows as in the notebook." in told.out
    assert told.err == ""
    assert notebook.read_bytes() == before


@pytest.mark.parametrize("name", ["feedings.csv", "Catch tests.csv"])
def test_a_csv_that_is_named_like_a_table_holds_it(
    name: str, notebook: Path, tmp_path: Path
) -> None:
    named, asked = tmp_path / name, tmp_path / "mine.csv"
    assert _run("tables", notebook, "-o", named) == 0
    assert _run("tables", notebook, "-o", asked, "--table", named.stem) == 0
    assert named.read_bytes() == asked.read_bytes()
    # What is asked for goes before the name.
    assert _run("tables", notebook, "-o", named, "--table", "zones") == 0
    assert named.read_bytes() != asked.read_bytes()


def test_an_edit_is_listed_in_a_dry_run_and_then_taken_in(
    notebook: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    zones = tmp_path / "zones.csv"
    assert _run("tables", notebook, "-o", zones, "--table", "zones") == 0
    _edited(zones, "Slope, %", "7")
    before = notebook.read_bytes()
    assert _run("take-tables", zones, "-o", notebook, "--dry-run") == 0
    assert "Zones, line 2, Front lawn, Slope, %: 2 → 7" in capsys.readouterr().out
    assert notebook.read_bytes() == before
    assert _run("take-tables", zones, "-o", notebook) == 0
    assert capsys.readouterr().out == "Zones: 0 added, 1 changed\n"
    assert next(iter(load_any(notebook, TODAY).zones.values())).slope_pct == 7


@pytest.mark.parametrize(("value", "told"), [("170", "enter 0 to 100 %"), ("x", "is not a number")])
def test_a_fault_refuses_the_whole_file(
    value: str, told: str, notebook: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    zones = tmp_path / "zones.csv"
    _run("tables", notebook, "-o", zones, "--table", "Zones")
    _edited(zones, "Slope, %", value)
    before = notebook.read_bytes()
    capsys.readouterr()
    assert _run("take-tables", zones, "-o", notebook) == 2
    err = capsys.readouterr().err
    assert err.startswith("zones.csv: Zones, line 2: Slope")
    assert told in err
    assert err.count("\n") == 1
    assert notebook.read_bytes() == before


def test_an_unusual_value_passes_only_when_the_owner_says_so(
    notebook: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    zones = tmp_path / "zones.csv"
    _run("tables", notebook, "-o", zones, "--table", "zones")
    _edited(zones, "Slope, %", "60")
    before = notebook.read_bytes()
    assert _run("take-tables", zones, "-o", notebook) == 2
    assert "--keep-questioned takes them in" in capsys.readouterr().err
    assert notebook.read_bytes() == before
    assert _run("take-tables", zones, "-o", notebook, "--keep-questioned") == 0
    assert next(iter(load_any(notebook, TODAY).zones.values())).slope_pct == 60


def test_rows_of_another_notebook_are_refused_until_the_owner_says_so(
    notebook: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    held = load_any(notebook, TODAY)
    zone = next(iter(held.zones))
    more = Watering(id="mine", date=date(2025, 1, 2), zone=zone, minutes=3.25)
    path = tmp_path / "all.zip"
    write_tables(with_other_ids(held), path, on=TODAY)
    before = notebook.read_bytes()
    assert _run("take-tables", path, "-o", notebook) == 0
    told = capsys.readouterr()
    assert told.out.startswith("Nothing changes: ")
    assert told.err.startswith("note: This file is of another notebook: none of its ")
    write_tables(with_other_ids(apply(held, put(held, "waterings", more))), path, on=TODAY)
    assert _run("take-tables", path, "-o", notebook) == 2
    err = capsys.readouterr().err
    assert err.startswith("all.zip: This file is of another notebook: none of its ")
    assert err.endswith("1 row is not here; --keep-questioned takes it in as new\n")
    assert err.count("\n") == 1
    assert notebook.read_bytes() == before
    assert _run("take-tables", path, "-o", notebook, "--keep-questioned") == 0
    assert capsys.readouterr().out == "Waterings: 1 added, 0 changed\n"
    assert len(load_any(notebook, TODAY).waterings) == len(held.waterings) + 1


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("-o", "all.ods"), "all.ods: tables are written as .xlsx"),
        (("-o", "all.csv"), "all.csv: a .csv holds one table"),
        (("-o", "all.csv", "--table", "gnomes"), '--table: there is no "gnomes"'),
        (("-o", "nowhere/all.zip"), "all.zip: the folder"),
        (("-o", "taken.xlsx"), "taken.xlsx: this file is not a workbook"),
    ],
)
def test_what_cannot_be_written_is_one_line(
    words: tuple[str, ...],
    told: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("taken.xlsx").write_text("a poem")
    assert _run("tables", SAMPLE, *words) == 2
    err = capsys.readouterr().err
    assert err.startswith(told)
    assert err.count("\n") == 1
    assert [each.name for each in tmp_path.iterdir()] == ["taken.xlsx"]
    assert Path("taken.xlsx").read_text() == "a poem"


def test_only_a_notebook_that_is_there_is_changed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "zones.csv").write_text("Name\nFront\n")
    assert _run("take-tables", tmp_path / "zones.csv", "-o", tmp_path / "no.lawnbook") == 2
    assert "begin one in the window, or by lawnbook import." in capsys.readouterr().err
    assert _run("take-tables", tmp_path / "zones.csv", "-o", tmp_path / "no.json") == 2
    assert not (tmp_path / "no.lawnbook").exists()
