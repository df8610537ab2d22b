"""Ticks of checklists stay true to zones, care and days: removed, filtered, kept and read again."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

import pytest

from lawnbook.store.sqlite_store import Store, create, load
from lawnbook.store.yardfile import read_yard_text, write_yard_text
from lawnbook.yard.check import check_notebook
from lawnbook.yard.edit_words import told
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import Notebook, apply, as_of, inverse, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Care, Record, Tick, Zone
from lawnbook.yard.zone_edits import merged, split
from tests.small_book import small_notebook

TODAY = date(2026, 5, 1)
BACK = Zone(id="back", name="Back", outline_ft=((30.0, 0.0), (60.0, 0.0), (30.0, 20.0)))
MENDED = Care(id="mended", date=date(2026, 4, 20), kind="repair", zones=("front",), cost=12.5)
FOUND = Tick(
    id="heads-front",
    date=date(2026, 4, 18),
    checklist="spring start-up",
    step="heads",
    zone="front",
    found="one head leans",
    care="mended",
)
VALVES = Tick(id="valves", date=date(2026, 4, 12), checklist="spring start-up", step="slow fill")


@pytest.fixture
def notebook() -> Notebook:
    """Two zones, a mended head, and the ticks of a spring."""
    rows: Sequence[tuple[str, Record]] = (
        ("zones", BACK),
        ("care", MENDED),
        ("ticks", FOUND),
        ("ticks", VALVES),
    )
    notebook = small_notebook()
    for table, record in rows:
        notebook = apply(notebook, put(notebook, table, record))
    return notebook


def test_a_zone_takes_its_ticks_along_and_undo_brings_them_back(notebook: Notebook) -> None:
    change = remove(notebook, "zones", "front")
    without = apply(notebook, change)
    assert list(without.ticks) == ["valves"]
    assert apply(without, inverse(change)).ticks == notebook.ticks


def test_a_tick_outlives_the_care_entry_that_was_made_of_it(notebook: Notebook) -> None:
    without = apply(notebook, remove(notebook, "care", "mended"))
    assert without.ticks["heads-front"].care is None
    assert without.ticks["heads-front"].found == "one head leans"
    assert without.ticks["valves"] is notebook.ticks["valves"]


def test_ticks_that_go_with_a_zone_are_told(notebook: Notebook) -> None:
    assert "1 checklist tick went; undo" in told(remove(notebook, "zones", "front"))


@pytest.mark.parametrize(
    ("on", "there", "care"),
    [
        (date(2026, 4, 30), ["heads-front", "valves"], "mended"),
        (date(2026, 4, 19), ["heads-front", "valves"], None),
        (date(2026, 4, 15), ["valves"], None),
    ],
)
def test_the_book_of_an_earlier_day_knows_no_later_tick_or_mending(
    notebook: Notebook, on: date, there: list[str], care: str | None
) -> None:
    then = as_of(notebook, on)
    assert sorted(then.ticks) == there
    if "heads-front" in there:
        assert then.ticks["heads-front"].care == care
    assert then.ticks["valves"] is notebook.ticks["valves"]
    assert not [each for each in check_notebook(then, TODAY) if each.severity == "refuse"]


def test_ticks_are_kept_in_the_file_and_in_the_yard_file(
    notebook: Notebook, tmp_path: Path
) -> None:
    path = tmp_path / "kept.lawnbook"
    create(path, notebook)
    kept = load(path)
    assert (kept.ticks, kept.care) == (notebook.ticks, notebook.care)
    again = read_yard_text(write_yard_text(notebook), TODAY, None)
    assert list(again.ticks) == list(notebook.ticks)
    assert again.ticks["heads-front"].care == "mended"
    assert again.care["mended"].cost == 12.5


def test_removing_a_zone_with_ticks_can_be_written(notebook: Notebook, tmp_path: Path) -> None:
    path = tmp_path / "kept.lawnbook"
    create(path, notebook)
    store = Store(path)
    store.write(remove(notebook, "zones", "front"))
    store.close()
    assert list(load(path).ticks) == ["valves"]


def test_a_tick_that_leads_nowhere_is_refused(notebook: Notebook) -> None:
    text = write_yard_text(notebook).replace('"care": "mended"', '"care": "none such"')
    assert "none such" in text
    with pytest.raises(OwnerError, match="none such"):
        read_yard_text(text, TODAY, None)


def test_split_zones_keep_the_ticks_and_merged_ones_those_of_the_first(notebook: Notebook) -> None:
    parted = apply(notebook, split(notebook, ("zones", "front"), (0.0, 5.0), (30.0, 5.0)))
    assert parted.ticks["heads-front"].zone == "front"
    joined = apply(notebook, merged(notebook, ("back", "front")))
    assert "heads-front" not in joined.ticks
    assert "valves" in joined.ticks
