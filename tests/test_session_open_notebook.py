"""The open notebook: what is seen, what is on disk and what can be undone agree at every moment."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.sqlite_store import load
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import Change, Notebook, apply, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Core, Feeding, Product, Spot, Watering, Zone
from tests.conftest import TODAY
from tests.small_book import in_child, rename, small_notebook


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    """The small notebook, open."""
    opened = OpenNotebook.create(tmp_path / "small.lawnbook", small_notebook(), TODAY)
    yield opened
    opened.close(abandon=True)


def named(book: OpenNotebook, name: str) -> Change:
    """The change that renames the yard of an open notebook."""
    return rename(book.notebook, name)


def test_an_edit_is_seen_told_and_on_disk_at_once(book: OpenNotebook) -> None:
    told: list[Change] = []
    stop = book.subscribe(told.append)
    change = named(book, "Other")
    book.edit(change, "Rename the yard")
    assert book.notebook.yard.name == "Other"
    assert load(book.path) == book.notebook
    assert told == [change]
    assert (book.undo_label, book.redo_label) == ("Rename the yard", "")
    stop()
    stop()
    book.undo()
    assert len(told) == 1


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(moves=st.lists(st.sampled_from(["name", "spot", "zone", "water", "drop", "undo", "redo"])))
def test_undo_and_redo_walk_through_the_same_values(
    moves: list[str], tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.mktemp("book") / "a.lawnbook"
    book = OpenNotebook.create(path, small_notebook(), TODAY)
    past, future = [book.notebook], list[Notebook]()
    for number, move in enumerate(moves):
        if move == "undo":
            book.undo()
            if len(past) > 1:
                future.append(past.pop())
        elif move == "redo":
            book.redo()
            if future:
                past.append(future.pop())
        else:
            change = some_edit(move, number, book.notebook)
            if change:
                past.append(apply(book.notebook, change))
                future.clear()
                book.edit(change, move)
        assert book.notebook == past[-1]
        assert bool(book.undo_label) == (len(past) > 1)
        assert bool(book.redo_label) == bool(future)
    assert book.waiting == 0
    book.close()
    assert load(path) == past[-1]


def some_edit(move: str, number: int, notebook: Notebook) -> Change:
    """An edit of a kind; each number makes other records."""
    name = f"{move} {number}"
    zone = next(iter(notebook.zones), None)
    if move == "name":
        return rename(notebook, name)
    if move == "spot":
        return put(notebook, "spots", Spot(id=name, name=name, zone=zone))
    if move == "zone":
        square = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0))
        return put(notebook, "zones", Zone(id=name, name=name, outline_ft=square))
    if move == "water" and zone is not None:
        watering = Watering(id=name, date=TODAY, zone=zone, minutes=20.0)
        return put(notebook, "waterings", watering)
    return remove(notebook, "zones", zone) if zone is not None else {}


def test_what_alters_nothing_is_no_edit(book: OpenNotebook) -> None:
    told: list[Change] = []
    book.subscribe(told.append)
    book.edit(named(book, "Small"), "Rename the yard")
    book.edit({}, "Nothing")
    book.undo()
    book.redo()
    assert told == []
    assert book.undo_label == ""


def test_undo_returns_to_what_was_held_not_to_what_the_change_claims(book: OpenNotebook) -> None:
    stale = named(book, "Second")
    book.edit(named(book, "First"), "Rename the yard")
    book.edit(stale, "Rename the yard")
    book.undo()
    assert book.notebook.yard.name == "First"


REFUSED = [
    (Core(id="c", spot="elm", date=date(2027, 1, 1)), "cores", "future"),
    (Core(id="c", spot="nowhere", date=TODAY), "cores", "nowhere"),
    (Spot(id="oak", name="Elm"), "spots", "already in use"),
]


@pytest.mark.parametrize(("record", "table", "part"), REFUSED)
def test_a_refused_record_changes_nothing(
    book: OpenNotebook, record: Core | Spot, table: str, part: str
) -> None:
    with pytest.raises(OwnerError, match=part):
        book.edit(put(book.notebook, table, record), "Add")
    assert book.notebook == small_notebook() == load(book.path)
    assert book.undo_label == ""


def test_removing_what_others_refer_to_is_refused(book: OpenNotebook) -> None:
    zone = book.notebook.zones["front"]
    with pytest.raises(OwnerError, match=r"spots\.zone still refers to what would be removed"):
        book.edit({("zones", "front"): (zone, None)}, "Remove Front")
    book.edit(remove(book.notebook, "zones", "front"), "Remove Front")
    assert book.notebook.spots["elm"].zone is None
    book.undo()
    assert book.notebook == small_notebook() == load(book.path)


def test_a_questionable_value_may_be_kept(book: OpenNotebook) -> None:
    core = Core(id="c", spot="elm", date=TODAY, thatch_in=(7.5,))
    book.edit(put(book.notebook, "cores", core), "Keep plug")
    assert load(book.path).cores["c"].thatch_in == (7.5,)


def test_edits_wait_in_order_while_another_program_holds_the_file(
    book: OpenNotebook, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[Change] = []
    book.subscribe(told.append)
    with closing(sqlite3.connect(book.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        book.edit(named(book, "First"), "Rename the yard")
        assert "another program is using this notebook" in book.trouble
        book.edit(named(book, "Second"), "Rename the yard")
        book.undo()
        assert (book.waiting, book.notebook.yard.name) == (3, "First")
        assert load(book.path) == small_notebook()
        with pytest.raises(OwnerError, match="another program"):
            book.close()
        other.execute("ROLLBACK")
    told.clear()
    book.retry()
    assert told == [{}]
    assert (book.waiting, book.trouble) == (0, "")
    assert load(book.path) == book.notebook
    book.retry()
    assert told == [{}], "nothing waits, so nothing is told"


def test_the_next_edit_writes_what_waited(book: OpenNotebook) -> None:
    moved = book.path.with_name("away.lawnbook")
    book.path.rename(moved)
    book.edit(named(book, "First"), "Rename the yard")
    assert "moved or replaced" in book.trouble
    moved.rename(book.path)
    book.edit(put(book.notebook, "spots", Spot(id="oak", name="Oak")), "Add Oak")
    assert (book.waiting, book.trouble) == (0, "")
    assert load(book.path) == book.notebook


def test_saving_elsewhere_ends_the_trouble_and_keeps_undo(
    book: OpenNotebook, tmp_path: Path
) -> None:
    old = book.path
    with closing(sqlite3.connect(old)) as other, other:
        other.execute("UPDATE yard SET name = 'Theirs'")
    book.edit(named(book, "Ours"), "Rename the yard")
    assert "another program has changed this notebook" in book.trouble
    with pytest.raises(OwnerError, match="already there"):
        book.save_elsewhere(old)
    book.save_elsewhere(tmp_path / "new.lawnbook")
    assert (book.path.name, book.waiting, book.trouble) == ("new.lawnbook", 0, "")
    assert load(old).yard.name == "Theirs"
    book.undo()
    assert load(book.path) == small_notebook()
    book.edit(named(book, "Again"), "Rename the yard")
    assert load(book.path).yard.name == "Again"


def test_a_bug_in_writing_leaves_value_and_file_together(
    book: OpenNotebook, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> None:
        raise RuntimeError("ours")

    with monkeypatch.context() as patch:
        patch.setattr("lawnbook.store.sqlite_store.Store.write", broken)
        with pytest.raises(RuntimeError):
            book.edit(named(book, "Other"), "Rename the yard")
    assert book.notebook == small_notebook()
    assert (book.waiting, book.undo_label) == (0, "")
    book.edit(named(book, "Other"), "Rename the yard")
    assert load(book.path) == book.notebook


@pytest.mark.parametrize("name", ["missing.lawnbook", "small.json"])
def test_what_cannot_be_opened_is_told_and_can_be_tried_again(tmp_path: Path, name: str) -> None:
    for _ in range(2):
        with pytest.raises(OwnerError, match=name):
            OpenNotebook.open(tmp_path / name, TODAY)


def test_a_damaged_notebook_is_let_go_again(tmp_path: Path) -> None:
    path = tmp_path / "a.lawnbook"
    OpenNotebook.create(path, small_notebook(), TODAY).close()
    with closing(sqlite3.connect(path)) as raw, raw:
        raw.execute("UPDATE zones SET outline_ft = 'scribble'")
    with pytest.raises(OwnerError, match="damaged"):
        OpenNotebook.open(path, TODAY)
    with closing(sqlite3.connect(path)) as raw, raw:
        raw.execute("UPDATE zones SET outline_ft = '[[0,0],[9,0],[9,9]]'")
    OpenNotebook.open(path, TODAY).close()
    assert [each.name for each in tmp_path.iterdir()] == ["a.lawnbook"]


def test_redrawing_a_zone_leaves_what_was_fed_as_it_was(book: OpenNotebook) -> None:
    zone = book.notebook.zones["front"]
    product = Product(id="urea", name="Urea", n_pct=46.0)
    feeding = Feeding(id="fed", date=TODAY, product="urea", pounds={"front": 0.3})
    book.edit(put(book.notebook, "products", product), "Product")
    book.edit(put(book.notebook, "feedings", feeding), "Feeding")
    before = make_plan(book.notebook, TODAY).nitrogen[0].applied_year
    full = book.notebook
    grown = replace(zone, outline_ft=((0.0, 0.0), (60.0, 0.0), (60.0, 40.0)))
    book.edit(put(book.notebook, "zones", grown), "Redraw")
    assert make_plan(book.notebook, TODAY).nitrogen[0].applied_year == pytest.approx(before)
    assert book.notebook.feedings["fed"].treated_area_sqft == {"front": 300.0}
    assert load(book.path) == book.notebook
    book.undo()
    assert book.notebook == full
    # A new name is no new outline.
    book.edit(put(book.notebook, "zones", replace(zone, name="Fore")), "Rename")
    assert book.notebook.feedings["fed"].treated_area_sqft == {}


def test_the_session_needs_no_qt() -> None:
    child = in_child(
        """
        import sys
        import lawnbook.session.open_notebook
        print("PySide6" in sys.modules)
        """
    )
    assert child.stdout.strip() == "False", child.stderr
