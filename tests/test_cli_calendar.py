"""The calendar from the command line: written whole and again, or one line and nothing."""

import json
from datetime import date
from pathlib import Path

import pytest

from lawnbook import cli
from lawnbook.plan.make import make_plan
from lawnbook.plan.spreading_plan import spreading_plan
from lawnbook.store.calendar_ics import calendar_bytes
from lawnbook.store.yardfile import load_any, write_yard
from lawnbook.yard.notebook import new_notebook
from lawnbook.yard.places import sample_yards
from tests.ics_reading import read_events

TODAY = date(2026, 11, 25)
LARKSPUR = next(path for path in sample_yards() if path.stem == "larkspur_corner")
BAD = [
    ("calendar", "required: NOTEBOOK"),
    ("calendar book.lawnbook", "required: -o/--output"),
    ("calendar book.lawnbook -o plan.txt", "plan.txt: A calendar's name ends in .ics; name it"),
    ("calendar book.lawnbook -o book.lawnbook", "book.lawnbook: this is the file that is read"),
    ("calendar book.lawnbook -o letter.ics", "letter.ics: this file is not a calendar"),
    ("calendar book.lawnbook -o gone/plan.ics", "plan.ics: the folder"),
    ("calendar book.lawnbook -o plan.ics --on soon", "--on: The day must be a date such as"),
    ("calendar nowhere.json -o plan.ics", "nowhere.json: there is no such file"),
    ("calendar empty.json -o plan.ics", "empty.json: Calendar: nothing is due in the twelve"),
]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A working folder with a notebook, an empty yard, and someone's letter."""
    monkeypatch.chdir(tmp_path)
    assert cli.main(["import", str(LARKSPUR), "-o", "book.lawnbook"], TODAY) == 0
    write_yard(new_notebook("Nothing yet"), tmp_path / "empty.json")
    (tmp_path / "letter.ics").write_text("Dear neighbour")
    return tmp_path


@pytest.mark.parametrize(("line", "said"), BAD)
def test_bad_input_is_one_line_and_nothing_is_written(
    folder: Path, capsys: pytest.CaptureFixture[str], line: str, said: str
) -> None:
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    capsys.readouterr()
    assert cli.main(line.split(), TODAY) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert said in err
    assert err.count("\n") == 1
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before


def test_a_calendar_is_written_and_replaced_by_a_later_one(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    line = "calendar book.lawnbook -o plan.ics --on"
    assert cli.main([*line.split(), "2026-06-15"], TODAY) == 0
    assert "The calendar is in plan.ics" in capsys.readouterr().out
    head, first = read_events((folder / "plan.ics").read_bytes())
    assert head["NAME"] == "Larkspur Corner"
    assert cli.main([*line.split(), "2026-06-16"], TODAY) == 0
    _, second = read_events((folder / "plan.ics").read_bytes())
    assert {each.sequence + 1 for each in first} == {each.sequence for each in second}
    assert {each.uid for each in first} & {each.uid for each in second}


@pytest.mark.parametrize("path", sample_yards(), ids=lambda path: path.stem)
def test_a_yard_file_without_ids_gives_the_same_uids_each_time(folder: Path, path: Path) -> None:
    line = ["calendar", str(path), "--on", "2026-09-20", "-o"]
    assert cli.main([*line, "first.ics"], TODAY) == 0
    assert cli.main([*line, "second.ics"], TODAY) == 0
    assert (folder / "first.ics").read_bytes() == (folder / "second.ics").read_bytes()


def test_a_yard_file_with_ids_has_the_uids_of_its_notebook(folder: Path) -> None:
    assert cli.main(["export", "book.lawnbook", "-o", "book.json"], TODAY) == 0
    for name in ("book.lawnbook", "book.json"):
        line = ["calendar", name, "--on", "2026-09-20", "-o", f"{name}.ics"]
        assert cli.main(line, TODAY) == 0
    of_notebook, of_file = (folder / f"book.{each}.ics" for each in ("lawnbook", "json"))
    assert of_notebook.read_bytes() == of_file.read_bytes()


def test_a_yard_file_that_grows_keeps_the_uids_it_had(folder: Path) -> None:
    data = json.loads(LARKSPUR.read_text())
    data = {key: data[key] for key in ("format", "version", "yard", "zones", "products")}
    more = {**data, "zones": [{**data["zones"][0], "name": "Island"}, *data["zones"]]}
    uids = []
    for name, each in (("few", data), ("more", more)):
        Path(f"{name}.json").write_text(json.dumps(each))
        line = ["calendar", f"{name}.json", "--on", "2026-03-01", "-o", f"{name}.ics"]
        assert cli.main(line, TODAY) == 0
        _, events = read_events((folder / f"{name}.ics").read_bytes())
        uids.append({each.uid for each in events if each.summary.startswith("Feed ")})
    assert uids[0] < uids[1]


def test_without_a_day_it_is_todays(folder: Path) -> None:
    assert cli.main(["calendar", "book.lawnbook", "-o", "plan.ics"], TODAY) == 0
    book = load_any(folder / "book.lawnbook", TODAY)
    expected = calendar_bytes(book, make_plan(book, TODAY), spreading_plan(book, TODAY))
    assert (folder / "plan.ics").read_bytes() == expected
