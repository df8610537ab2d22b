"""Tables out and in again: nothing changes, and every edit comes back as it was made."""

import math
import zipfile
from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from lawnbook.store.tables_in import read_tables
from lawnbook.store.tables_out import write_tables
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put, with_tables
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import SINGLES, TABLES, Yard, Zone
from tests.conftest import TODAY
from tests.strategies import notebooks

SUFFIXES = (".xlsx", ".zip")


def _back(notebook: Notebook, against: Notebook, folder: Path, suffix: str) -> Notebook:
    """What a notebook becomes when the tables of another are taken in."""
    path = folder / f"tables{suffix}"
    path.unlink(missing_ok=True)
    write_tables(notebook, path, on=TODAY)
    read = read_tables(path, against, TODAY)
    assert [each.told for each in read.faults] == []
    return apply(against, read.change)


@pytest.mark.parametrize("suffix", SUFFIXES)
@pytest.mark.parametrize("sample", sample_yards(), ids=lambda path: path.stem)
def test_out_and_in_changes_nothing_in_a_sample(sample: Path, suffix: str, tmp_path: Path) -> None:
    notebook = load_any(sample, TODAY)
    path = tmp_path / f"tables{suffix}"
    write_tables(notebook, path, on=TODAY)
    read = read_tables(path, notebook, TODAY)
    assert not read.change
    assert (read.added, read.changed, read.faults, read.questions) == (0, 0, (), ())
    rows = sum(len(notebook.table(table)) for table in TABLES)
    assert read.same in (rows, rows - 1), "rules that say nothing are an empty line of CSV"


@settings(
    max_examples=25,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(notebook=notebooks())
@pytest.mark.parametrize("suffix", SUFFIXES)
def test_out_and_in_changes_nothing_in_any_notebook(
    notebook: Notebook, suffix: str, tmp_path: Path
) -> None:
    path = tmp_path / f"tables{suffix}"
    path.unlink(missing_ok=True)
    write_tables(notebook, path, on=TODAY)
    read = read_tables(path, notebook, TODAY)
    assert [each.told for each in read.faults] == []
    assert dict(read.change) == {}


@settings(
    max_examples=15,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(notebook=notebooks())
@pytest.mark.parametrize("suffix", SUFFIXES)
def test_an_empty_notebook_becomes_the_one_that_was_written(
    notebook: Notebook, suffix: str, tmp_path: Path
) -> None:
    # A picture's bytes are in no table, and what shows one cannot be added without it.
    bare = with_tables(notebook, {"photos": (), "backdrops": ()})
    taken = _back(bare, new_notebook("Blank"), tmp_path, suffix)
    for table in TABLES:
        held, found = bare.table(table), taken.table(table)
        assert list(found) == list(held), table
        for record_id, record in held.items():
            assert _nearly(found[record_id], record), table


def _nearly(found: object, held: object) -> bool:
    """Equal, figures to the 16 digits that a workbook keeps."""
    if isinstance(held, float) and isinstance(found, float):
        return math.isclose(held, found, rel_tol=2e-15)
    if isinstance(held, tuple) and isinstance(found, tuple):
        return len(held) == len(found) and all(map(_nearly, found, held))
    if isinstance(held, Mapping) and isinstance(found, Mapping):
        return list(held) == list(found) and all(_nearly(found[key], held[key]) for key in held)
    if is_dataclass(held):
        names = [each.name for each in fields(held)]
        return all(_nearly(getattr(found, name), getattr(held, name)) for name in names)
    return found == held


@pytest.mark.parametrize("suffix", SUFFIXES)
def test_edits_of_every_table_come_back_as_they_were_made(suffix: str, tmp_path: Path) -> None:
    before = load_any(next(p for p in sample_yards() if p.stem == "larkspur_corner"), TODAY)
    zone = next(iter(before.zones.values()))
    named = replace(zone, name='Front; "shady": 1|2', slope_pct=7.125, soil=None, holes_ft=HOLES)
    core = next(iter(before.cores.values()))
    head = next(iter(before.heads.values()))
    feeding = next(iter(before.feedings.values()))
    care = next(iter(before.care.values()))
    after = before
    for table, record in (
        ("zones", named),
        (
            "cores",
            replace(core, thatch_in=(0.5, 0.75), note="two\nlines; and = signs", sponge=None),
        ),
        ("heads", replace(head, zone=list(before.zones)[1], profile=(1.0, 0.25))),
        ("feedings", replace(feeding, pounds={zone.id: 3.25}, treated_area_sqft={zone.id: 900.5})),
        ("care", replace(care, zones=(zone.id,), cost=12.5, date=date(2026, 1, 2))),
        ("yard", replace(before.yard, irrigation_season=None, latitude_deg=-33.25)),
    ):
        after = apply(after, put(after, table, record))
    assert _back(after, before, tmp_path, suffix) == after


HOLES = (((6.0, 6.0), (8.0, 6.0), (8.0, 8.0)), ((10.0, 10.0), (12.0, 10.5), (11.0, 12.0)))


@pytest.mark.parametrize("suffix", SUFFIXES)
def test_text_longer_than_a_cell_goes_on_in_the_next_column(suffix: str, tmp_path: Path) -> None:
    ring = tuple((float(x), 0.123456789012 + x * 0.001) for x in range(1, 2400))
    zone = Zone(id="z", name="Long", outline_ft=(*ring, (1.0, 50.0)))
    before = with_tables(new_notebook("Home"), {"zones": [zone]})
    after = apply(before, put(before, "zones", replace(zone, grass="warm")))
    assert _back(after, before, tmp_path, suffix) == after
    assert _back(before, before, tmp_path, suffix) == before


def test_a_zip_of_another_folder_is_read_too(tmp_path: Path) -> None:
    notebook = Notebook(yard=Yard(id="yard", name="Home"))
    write_tables(notebook, tmp_path / "out.zip")
    with (
        zipfile.ZipFile(tmp_path / "out.zip") as source,
        zipfile.ZipFile(tmp_path / "packed.zip", "w") as target,
    ):
        for name in source.namelist():
            text = source.read(name).decode("utf-8-sig").replace("Home", "Elsewhere")
            target.writestr(f"handed over/tables/{name}", text)
    read = read_tables(tmp_path / "packed.zip", notebook, TODAY)
    assert [(each.heading, each.before, each.after) for each in read.differences] == [
        ("Name", "Home", "Elsewhere")
    ]


def test_every_table_has_a_title_and_headings_of_its_own() -> None:
    from lawnbook.store.tables_columns import columns_of
    from lawnbook.yard.records import TITLES

    assert list(TITLES) == list(TABLES)
    assert len(set(TITLES.values())) == len(TABLES)
    for table in TABLES:
        headings = [each.heading.casefold() for each in columns_of(table)]
        assert len(set(headings)) == len(headings), table
        assert all(len(title) <= 31 for title in TITLES.values())
    assert set(TITLES) >= SINGLES
