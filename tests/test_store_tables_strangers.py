"""Tables of another notebook, or with a wrong id: told first, and never taken in twice."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from lawnbook.store.tables_in import read_tables
from lawnbook.store.tables_out import write_tables
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook, apply, put, with_tables
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import TABLES, Watering
from tests.conftest import TODAY
from tests.other_ids import with_other_ids

SUFFIXES = (".xlsx", ".zip")
QUIET = date(2025, 1, 2)
"""A winter day on which nothing was watered."""


def _larkspur() -> Notebook:
    return load_any(next(p for p in sample_yards() if p.stem == "larkspur_corner"), TODAY)


def _counts(notebook: Notebook) -> dict[str, int]:
    return {table: len(notebook.table(table)) for table in TABLES}


@pytest.mark.parametrize("suffix", SUFFIXES)
@pytest.mark.parametrize("sample", sample_yards(), ids=lambda path: path.stem)
def test_another_copy_of_a_yard_changes_nothing(sample: Path, suffix: str, tmp_path: Path) -> None:
    held = load_any(sample, TODAY)
    path = tmp_path / f"tables{suffix}"
    write_tables(with_other_ids(held), path, on=TODAY)
    for keep in (False, True):
        read = read_tables(path, held, TODAY, keep_unknown=keep)
        assert read.foreign.startswith("This file is of another notebook: none of its ")
        assert "say what is here already and are left out" in read.foreign
        assert [each.told for each in (*read.faults, *read.questions)] == []
        assert not read.change
        assert (read.unknown, read.held_back) == (0, 0)


@pytest.mark.parametrize("suffix", SUFFIXES)
def test_what_another_copy_has_more_is_new_only_if_the_owner_says_so(
    suffix: str, tmp_path: Path
) -> None:
    held = _larkspur()
    zone, *others = held.zones.values()
    more = Watering(id="mine", date=QUIET, zone=zone.id, minutes=3.25)
    other = with_tables(
        held,
        {
            "zones": [replace(zone, slope_pct=9.5), *others],
            "waterings": [*held.waterings.values(), more],
        },
    )
    path = tmp_path / f"tables{suffix}"
    write_tables(with_other_ids(other), path, on=TODAY)
    read = read_tables(path, held, TODAY)
    assert not read.change
    assert not read.faults
    assert (read.unknown, read.held_back) == (2, 2)
    wanted = read_tables(path, held, TODAY, keep_unknown=True)
    assert (wanted.unknown, wanted.held_back) == (2, 0)
    # The zone is called as one that is there, and what leads to it goes with it.
    assert any(zone.name in each.sentence for each in wanted.faults)
    assert _counts(apply(held, wanted.change)) == _counts(held)


def test_a_row_of_another_copy_leads_to_the_records_of_this_one(tmp_path: Path) -> None:
    held = _larkspur()
    zone = next(iter(held.zones.values()))
    more = Watering(id="mine", date=QUIET, zone=zone.id, minutes=3.25)
    other = apply(held, put(held, "waterings", more))
    write_tables(with_other_ids(other), tmp_path / "all.xlsx", on=TODAY)
    after = apply(held, read_tables(tmp_path / "all.xlsx", held, TODAY, keep_unknown=True).change)
    (fresh,) = [each for key, each in after.waterings.items() if key not in held.waterings]
    assert (fresh.zone, fresh.minutes) == (zone.id, 3.25)
    again = read_tables(tmp_path / "all.xlsx", after, TODAY, keep_unknown=True)
    assert not again.change, "taken in twice, it stands once"


def test_the_yard_of_another_notebook_is_told_before_it_goes_over_this_one(tmp_path: Path) -> None:
    held = _larkspur()
    other = apply(held, put(held, "yard", replace(held.yard, name="Elsewhere")))
    write_tables(with_other_ids(other), tmp_path / "all.zip", on=TODAY)
    read = read_tables(tmp_path / "all.zip", held, TODAY)
    assert [each.after for each in read.differences] == ["Elsewhere"]
    assert read.foreign.endswith("What it says in Yard would go over what is here.")


def test_one_table_of_which_no_id_is_known_is_told_by_its_name(tmp_path: Path) -> None:
    held = _larkspur()
    strange = with_other_ids(held).care
    other = with_tables(held, {"care": [replace(each, note="x") for each in strange.values()]})
    zones = {key: record.zones for key, record in held.care.items()}
    care = [
        replace(each, zones=known)
        for each, known in zip(other.care.values(), zones.values(), strict=True)
    ]
    other = with_tables(held, {"care": care, "ticks": ()})
    write_tables(other, tmp_path / "all.xlsx", on=TODAY)
    read = read_tables(tmp_path / "all.xlsx", held, TODAY)
    assert not read.change
    assert read.held_back == len(held.care)
    assert read.foreign == (
        "Part of this file is of another notebook, or was removed from this one: Care. "
        f"None of the {len(held.care):,} ids there is known here."
    )


def test_one_wrong_id_is_a_question_and_no_new_row(tmp_path: Path) -> None:
    held = _larkspur()
    path = tmp_path / "waterings.csv"
    write_tables(held, path, "waterings")
    first = next(iter(held.waterings.values()))
    text = path.read_text(encoding="utf-8-sig")
    line = next(each for each in text.splitlines() if each.endswith(f",{first.id}"))
    wrong = line.replace(f",{first.id}", ",wrng").replace(first.date.isoformat(), "2026-05-01")
    path.write_text(text.replace(line, wrong), encoding="utf-8", newline="")
    read = read_tables(path, held, TODAY)
    assert not read.change
    assert (read.foreign, read.held_back, read.faults) == ("", 1, ())
    assert read.questions[0].told == (
        'Waterings, line 2, column "Id": No record has the id "wrng"; '
        "if the row is new, clear the id."
    )
    kept = read_tables(path, held, TODAY, keep_unknown=True)
    assert kept.added == 1
    assert kept.questions == read.questions
    path.write_text(text.replace(line, wrong.replace(",wrng", ",")), encoding="utf-8", newline="")
    cleared = read_tables(path, held, TODAY)
    assert (cleared.added, cleared.questions, cleared.unknown) == (1, (), 0)


def test_a_wrong_id_on_a_row_that_says_the_same_is_a_repeat_once(tmp_path: Path) -> None:
    held = _larkspur()
    zone = next(iter(held.zones.values()))
    twins = [Watering(id=each, date=QUIET, zone=zone.id, minutes=7.5) for each in "ab"]
    book = with_tables(held, {"waterings": twins})
    path = tmp_path / "waterings.csv"
    row = f"{QUIET.isoformat()},{zone.name},7.5"
    path.write_text(f"Date,Zone,Minutes,Id\n{row},a\n{row},x\n{row},\n")
    read = read_tables(path, book, TODAY)
    # The held "a" is in the file and "b" is repeated once: the second repeat is a row of its own.
    assert read.added == 1
    assert not read.questions
    assert read.notes == (
        "Waterings: 1 row with an unknown id is in the notebook already and left out.",
    )
