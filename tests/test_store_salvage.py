"""What can be read of a damaged notebook: nothing raised from the dead, nothing executed."""

import io
import json
import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import asdict, replace
from datetime import date, timedelta
from pathlib import Path
from types import MappingProxyType

import pytest

from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.damaged_pages import Pages
from lawnbook.store.migrations import APPLICATION_ID, CURRENT_VERSION
from lawnbook.store.salvage import may_help, salvage
from lawnbook.store.salvage_rows import statement, take_steps
from lawnbook.store.salvage_stand_ins import stand_in
from lawnbook.store.salvage_told import SalvageTold, TableTold, told_lines
from lawnbook.store.sqlite_store import create, load
from lawnbook.yard.notebook import Notebook, apply, difference, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Core, Feeding, Product, Watering, Zone
from tests.conftest import TODAY
from tests.photo_book import photo, photo_notebook
from tests.small_book import small_notebook

PAGE = 4096


def watered(count: int = 300) -> Notebook:
    """The small notebook with waterings day by day, which take several pages."""
    start = date(2025, 1, 1)
    rows = {
        f"watering{n:08d}": Watering(
            id=f"watering{n:08d}",
            date=start + timedelta(days=n),
            zone="front",
            minutes=10.0 + n / 8,
            rank=n,
        )
        for n in range(count)
    }
    return replace(small_notebook(), waterings=MappingProxyType(rows))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A notebook of several pages a table."""
    path = tmp_path / "Home.lawnbook"
    create(path, watered())
    return path


def saved(path: Path) -> tuple[SalvageTold, Notebook]:
    """What a salvage tells, and the notebook it wrote; the damaged file is as it was."""
    before, when = path.read_bytes(), path.stat().st_mtime_ns
    fresh = path.with_name("Saved.lawnbook")
    fresh.unlink(missing_ok=True)
    told = salvage(path, fresh, TODAY)
    assert (path.read_bytes(), path.stat().st_mtime_ns) == (before, when)
    return told, load(fresh)


def table(told: SalvageTold, name: str) -> TableTold:
    return next(each for each in told.tables if each.table == name)


def pages_of(path: Path, name: str) -> list[int]:
    """The numbers of a table's or an index's pages, the root first, by SQLite's own account."""
    data = path.read_bytes()
    with closing(sqlite3.connect(path)) as connection:
        found = "SELECT rootpage FROM sqlite_schema WHERE name = ?"
        root = int(connection.execute(found, (name,)).fetchone()[0])
    at = (root - 1) * PAGE
    if data[at] not in (0x02, 0x05):
        return [root]
    count = int.from_bytes(data[at + 3 : at + 5], "big")
    cells = [int.from_bytes(data[at + 12 + 2 * n :][:2], "big") for n in range(count)]
    below = [int.from_bytes(data[at + cell :][:4], "big") for cell in cells]
    return [root, *below, int.from_bytes(data[at + 8 :][:4], "big")]


def overwrite(path: Path, page: int, over: bytes, within: int = 0) -> None:
    data = bytearray(path.read_bytes())
    at = (page - 1) * PAGE + within
    data[at : at + len(over)] = over
    path.write_bytes(data)


def test_of_a_sound_notebook_everything_is_saved(path: Path) -> None:
    told, notebook = saved(path)
    assert notebook == load(path)
    assert told.is_whole
    assert "Every record that the file knows of was read." in told_lines(told)


def test_rows_on_a_lost_page_are_counted_by_the_index(path: Path) -> None:
    leaf = pages_of(path, "waterings")[2]
    overwrite(path, leaf, bytes(PAGE))
    told, notebook = saved(path)
    lost = table(told, "waterings").lost
    assert lost == 300 - len(notebook.waterings)
    assert 20 < lost < 150
    assert not table(told, "waterings").may_lack
    assert table(told, "zones").is_whole


def test_where_the_inner_page_is_lost_its_leaves_are_found_again(path: Path) -> None:
    overwrite(path, pages_of(path, "waterings")[0], bytes(PAGE))
    told, notebook = saved(path)
    assert notebook == watered()
    assert any(line.startswith("Found again: ") for line in told.notes)


def test_a_lost_index_loses_no_row(path: Path) -> None:
    for page in pages_of(path, "sqlite_autoindex_waterings_1"):
        overwrite(path, page, os.urandom(PAGE))
    told, notebook = saved(path)
    assert notebook == watered()
    assert "Waterings" in " ".join(told.notes)


def test_without_its_list_of_tables_a_file_is_still_told_apart(path: Path) -> None:
    overwrite(path, 1, bytes(PAGE))
    told, notebook = saved(path)
    assert not difference(watered(), notebook)
    assert not told.is_whole


def test_what_was_removed_long_ago_stays_removed(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("PRAGMA secure_delete = OFF")
        connection.execute("DELETE FROM waterings WHERE rank < 200")
    assert path.read_bytes().count(b"watering00000") > 300, "the rows' bytes are still there"
    overwrite(path, pages_of(path, "waterings")[0], bytes(PAGE))
    _, notebook = saved(path)
    assert set(notebook.waterings) <= set(list(watered().waterings)[200:])


def test_a_damaged_id_that_others_refer_to_is_put_right(path: Path) -> None:
    data = path.read_bytes()
    page = pages_of(path, "zones")[0]
    at = data.index(b"front", (page - 1) * PAGE)
    overwrite(path, page, b"fxont", at - (page - 1) * PAGE)
    with pytest.raises(OwnerError, match="damaged"):
        load(path)
    told, notebook = saved(path)
    assert notebook == watered()
    assert "1 damaged id put right" in " ".join(table(told, "zones").details)


def test_a_zone_that_is_lost_has_a_stand_in_and_loses_no_entry(path: Path) -> None:
    overwrite(path, pages_of(path, "zones")[0], bytes(PAGE))
    told, notebook = saved(path)
    whole = watered()
    assert (notebook.waterings, notebook.spots) == (whole.waterings, whole.spots)
    assert notebook.zones["front"].name == "Zone that could not be read"
    assert not notebook.zones["front"].irrigated
    zones = table(told, "zones")
    assert (zones.kept, zones.lost, zones.stand_ins) == (0, 1, 1)
    assert "as 301 entries lead to it; draw it anew" in " ".join(told_lines(told))
    assert not told.is_whole


def test_two_stand_ins_have_names_of_their_own() -> None:
    first = stand_in("zones", "a", ())
    second = stand_in("zones", "b", (first,))
    assert isinstance(first, Zone)
    assert isinstance(second, Zone)
    assert second.name == "Zone that could not be read 2"
    assert max(x for x, _ in second.outline_ft) < min(x for x, _ in first.outline_ft)


def test_plugs_and_feedings_stay_without_their_spot_and_product(tmp_path: Path) -> None:
    path = tmp_path / "Home.lawnbook"
    whole = small_notebook()
    plug = Core(id="c1", spot="elm", date=date(2026, 5, 1), thatch_in=(0.5,))
    product = Product(id="feed", name="Feed", n_pct=10)
    feeding = Feeding(
        id="f1", date=date(2026, 5, 2), product="feed", pounds=MappingProxyType({"front": 2.0})
    )
    for name, record in (("cores", plug), ("products", product), ("feedings", feeding)):
        whole = apply(whole, put(whole, name, record))
    create(path, whole)
    for name in ("spots", "products"):
        overwrite(path, pages_of(path, name)[0], bytes(PAGE))
    told, notebook = saved(path)
    assert notebook.cores == whole.cores
    assert notebook.feedings["f1"].pounds == feeding.pounds
    assert notebook.spots["elm"].name == "Spot that could not be read"
    assert notebook.products["feed"].name == "Product that could not be read"
    assert "it counts no nitrogen" in " ".join(told_lines(told))


def test_what_refers_to_a_record_of_which_nothing_is_known_is_left_out(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("UPDATE waterings SET zone = 'gone' WHERE id = 'watering00000007'")
    told, notebook = saved(path)
    assert (len(notebook.waterings), table(told, "waterings").hanging) == (299, 1)
    assert list(notebook.zones) == ["front"]


def test_a_value_that_no_lawn_has_is_left_out_and_told(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("UPDATE zones SET slope_pct = -3, name = 'Front' WHERE id = 'front'")
        connection.execute("UPDATE waterings SET minutes = -1 WHERE id = 'watering00000007'")
    told, notebook = saved(path)
    assert notebook.zones["front"].slope_pct == watered().zones["front"].slope_pct
    assert table(told, "zones").emptied == 1
    assert "watering00000007" not in notebook.waterings
    assert table(told, "waterings").missing == 1


def test_a_picture_whose_bytes_do_not_match_goes_and_is_told(tmp_path: Path) -> None:
    path = tmp_path / "Pictures.lawnbook"
    whole = photo_notebook(photo("c1"), photo("c2", colour="olive"))
    create(path, whole)
    first, second = whole.photos.values()
    data = bytearray(path.read_bytes())
    at = data.index(second.data_b64.data()[:200])
    data[at + 100] ^= 1
    path.write_bytes(data)
    told, notebook = saved(path)
    assert list(notebook.photos) == [first.id]
    assert notebook.photos[first.id].data_b64.data() == first.data_b64.data()
    assert "SHA-256" in " ".join(table(told, "photos").details)


def test_an_edit_cut_short_by_a_crash_is_taken_back_first(path: Path) -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode = TRUNCATE")
        connection.execute("PRAGMA cache_size = 1")
        connection.execute("PRAGMA cache_spill = 1")
        connection.execute("BEGIN IMMEDIATE")
        connection.execute("UPDATE waterings SET minutes = 99")
        data, journal = path.read_bytes(), path.with_name(f"{path.name}-journal").read_bytes()
        connection.rollback()
    assert journal, "there is something to take back"
    path.write_bytes(data)
    beside = path.with_name(f"{path.name}-journal")
    beside.write_bytes(journal)
    told, notebook = saved(path)
    assert beside.read_bytes() == journal
    assert notebook == watered()
    assert any("taken back first" in each for each in told.notes)


@pytest.mark.parametrize(
    "statement",
    [
        "CREATE TRIGGER t AFTER INSERT ON waterings BEGIN DELETE FROM zones; END",
        "CREATE VIEW v AS SELECT * FROM zones",
        "CREATE TABLE others (id TEXT PRIMARY KEY)",
    ],
)
def test_nothing_of_a_strangers_is_taken_over(path: Path, statement: str) -> None:
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute(statement)
    with pytest.raises(OwnerError):
        load(path)
    told, notebook = saved(path)
    assert notebook == watered()
    assert told.is_whole


def _put_row(connection: sqlite3.Connection, name: str, values: dict[str, object]) -> None:
    """Put a row called "Old" into a table of any version, with what its columns need."""
    columns = [each[1] for each in connection.execute(f"PRAGMA table_info({name})")]
    given = {**values, "name": "Old"}
    held = [
        json.dumps(cell) if isinstance(cell := given.get(each), tuple) else cell for each in columns
    ]
    marks = ", ".join("?" for _ in columns)
    connection.execute(statement("INSERT INTO", name, "VALUES (", marks, ")"), held)


@pytest.mark.parametrize("version", range(1, CURRENT_VERSION + 1))
def test_a_damaged_file_of_every_version_is_read(tmp_path: Path, version: int) -> None:
    path = tmp_path / "Old.lawnbook"
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        take_steps(connection, 0, version)
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.execute(f"PRAGMA user_version = {version}")
        _put_row(connection, "yard", asdict(small_notebook().yard))
        _put_row(connection, "spots", {"id": "spots", "rank": 0, "comparison": 0, "locked": 0})
    overwrite(path, 1, b"\x00", 20)
    told, notebook = saved(path)
    assert notebook.yard.name == "Old"
    assert notebook.spots["spots"].name == "Old"
    assert table(told, "spots").is_whole


def newer(path: Path) -> None:
    data = bytearray(path.read_bytes())
    data[60:64] = (CURRENT_VERSION + 1).to_bytes(4, "big")
    path.write_bytes(data)


def no_notebook(path: Path) -> None:
    path.write_bytes(b"Dear diary, " * 2000)


def nothing(path: Path) -> None:
    path.write_bytes(b"")


@pytest.mark.parametrize(
    ("harm", "says"),
    [(newer, "newer"), (no_notebook, "nothing of a notebook"), (nothing, "nothing of a notebook")],
)
def test_what_is_refused_leaves_nothing_behind(
    path: Path, harm: Callable[[Path], None], says: str
) -> None:
    harm(path)
    with pytest.raises(OwnerError, match=says) as refused:
        salvage(path, path.with_name("Saved.lawnbook"), TODAY)
    assert not may_help(path, refused.value)
    assert sorted(each.name for each in path.parent.iterdir()) == ["Home.lawnbook"]


def test_an_open_notebook_and_a_pipe_are_refused(path: Path) -> None:
    book = OpenNotebook.open(path, TODAY)
    with pytest.raises(OwnerError, match="is open"):
        salvage(path, path.with_name("Saved.lawnbook"), TODAY)
    book.close()
    if hasattr(os, "mkfifo"):
        pipe = path.with_name("Pipe.lawnbook")
        os.mkfifo(pipe)
        with pytest.raises(OwnerError, match="not a file"):
            salvage(pipe, path.with_name("Saved.lawnbook"), TODAY)


def test_a_record_added_after_a_salvage_is_kept_like_any_other(path: Path) -> None:
    overwrite(path, 1, bytes(100))
    saved(path)
    book = OpenNotebook.open(path.with_name("Saved.lawnbook"), TODAY)
    notebook = book.notebook
    fresh = replace(notebook.spots["elm"], id="oak", name="Oak")
    book.edit(put(notebook, "spots", fresh), "Add a spot")
    book.close()
    assert load(book.path) == apply(notebook, put(notebook, "spots", fresh))


def test_what_was_never_written_of_a_huge_file_is_passed_over(tmp_path: Path) -> None:
    path = tmp_path / "Huge.lawnbook"
    create(path, watered())
    overwrite(path, pages_of(path, "waterings")[0], bytes(PAGE))
    pages = 2**19 if hasattr(os, "SEEK_DATA") else 2**11
    with path.open("rb+") as handle:
        handle.truncate(pages * PAGE)
        handle.seek((pages - 3) * PAGE)
        handle.write(b"\x0d")
    with Counted(path) as counted:
        found = dict(Pages(counted).trees())
    assert found[pages - 2] == 0x0D
    assert counted.read_bytes < 2**23
    told, notebook = saved_beside(path)
    assert notebook == watered()
    assert not table(told, "waterings").missing


class Counted(io.FileIO):
    """A file that counts what is read of it."""

    read_bytes = 0

    def read(self, size: int | None = -1, /) -> bytes:
        data = super().read(-1 if size is None else size) or b""
        self.read_bytes += len(data)
        return data


def saved_beside(path: Path) -> tuple[SalvageTold, Notebook]:
    """What a salvage tells, and the notebook it wrote, of a file too large to be held."""
    fresh = path.with_name("Saved.lawnbook")
    return salvage(path, fresh, TODAY), load(fresh)
