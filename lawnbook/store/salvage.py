"""What can be read of a damaged notebook, into a new one, and what is missing.

The damaged file is only read, never by SQLite itself: page by page, so that what is broken takes
nothing else with it (see `damaged_pages`). Rows go into a new database of our own making, records
through the same rules as everywhere, and the new notebook is written whole or not at all.
"""

import contextlib
import re
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import closing
from datetime import date
from functools import partial
from pathlib import Path

from lawnbook.reading import tr
from lawnbook.store.damaged_pages import Pages
from lawnbook.store.damaged_trees import Found, Survey
from lawnbook.store.files import opened_to_read
from lawnbook.store.migrations import CURRENT_VERSION
from lawnbook.store.opening import is_open_here
from lawnbook.store.picture_shelf import PictureShelf, connected
from lawnbook.store.salvage_records import Gathering
from lawnbook.store.salvage_rows import Rows, fits, put_rows, tables_at, take_steps
from lawnbook.store.salvage_told import SalvageTold, TableTold
from lawnbook.store.sqlite_store import create, refuse_taken
from lawnbook.store.wary import refuse_strange_place
from lawnbook.yard.numbers import counted
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import SINGLES, TABLES, TITLES

_OF_CHANCE = re.compile("[a-z2-7]{16}")
_NOT_THE_FILE = (
    "SQLITE_BUSY",
    "SQLITE_LOCKED",
    "SQLITE_FULL",
    "SQLITE_READONLY",
    "SQLITE_PERM",
    "SQLITE_IOERR",
    "SQLITE_CANTOPEN",
    "SQLITE_NOMEM",
)
_NOT_READABLE = tr("nothing of a notebook can be read from it; open an earlier copy.")


def salvage(path: Path, target: Path, today: date) -> SalvageTold:
    """Write what can be read of a damaged notebook into a new one; the damaged one stays as it is.

    Returns what is missing. `today` is the day for the rules of what may be. Raises OwnerError,
    with nothing written, where the file is not there or open, where nothing of a notebook is in
    it, or where the new one cannot be written.
    """
    refuse_taken(target)
    if is_open_here(path):
        raise OwnerError(tr("{name}: this notebook is open; close it first.", name=path.name))
    with tempfile.TemporaryDirectory(prefix="lawnbook-") as folder:
        readable, notes = _settled(path, Path(folder))
        with (
            opened_to_read(readable) as handle,
            closing(sqlite3.connect(Path(folder) / "rows", isolation_level=None)) as connection,
        ):
            pages = Pages(handle)
            version = _version_of(path, pages)
            survey = Survey(pages, tables_at(version), partial(fits, version))
            if not any(found.leaves for found in survey.tables.values()):
                raise OwnerError(f"{path.name}: {_NOT_READABLE}")
            rows = _moved(connection, survey, version)
            gathering = Gathering(connection, PictureShelf(connection).picture)
            given = {
                name: gathering.rename(name, rows[name].renamed) for name in rows if name in TABLES
            }
            known = {name: found.ids.values() for name, found in survey.tables.items()}
            notebook = gathering.notebook(today, {n: frozenset(ids) for n, ids in known.items()})
            create(target, notebook)
    tables = tuple(_told(name, gathering, rows.get(name), survey, given) for name in TABLES)
    return SalvageTold(tables, (*notes, *_file_notes(pages, survey)))


def may_help(path: Path, problem: OwnerError) -> bool:
    """Whether a file that could not be opened for this reason is damaged, and worth a salvage.

    It is not where it cannot be read, another program is at work on it, or a newer one wrote it.
    """
    cause = problem.__cause__
    name = (getattr(cause, "sqlite_errorname", None) or "") if cause is not None else ""
    if name.startswith(_NOT_THE_FILE) or is_open_here(path):
        return False
    try:
        with opened_to_read(path) as handle:
            pages = Pages(handle)
            _version_of(path, pages)
            return pages.looks_like_one
    except OwnerError:
        return False


def _version_of(path: Path, pages: Pages) -> int:
    """The schema's version as the file says it, the current one where that cannot be."""
    if pages.has_header and pages.version > CURRENT_VERSION and pages.is_notebook:
        raise OwnerError(
            tr("{name}: a newer Lawnbook wrote this; update Lawnbook to read it.", name=path.name)
        )
    return pages.version if 1 <= pages.version <= CURRENT_VERSION else CURRENT_VERSION


def _settled(path: Path, folder: Path) -> tuple[Path, tuple[str, ...]]:
    """The file to read: the damaged one itself, or a copy from which SQLite took a half edit back.

    A crash may leave a journal beside the file, which belongs to it; both are copied, and only the
    copy is opened.
    """
    journal = path.with_name(f"{path.name}-journal")
    try:
        refuse_strange_place(path)
        if not journal.stat().st_size:
            return path, ()
    except FileNotFoundError:
        return path, ()
    except (OSError, sqlite3.Error):
        return path, (tr("{name} beside the file was not used.", name=journal.name),)
    copy = folder / "copy"
    for source, target in ((path, copy), (journal, folder / "copy-journal")):
        with opened_to_read(source) as handle, target.open("wb") as written:
            shutil.copyfileobj(handle, written)
    with (
        contextlib.suppress(sqlite3.Error, UnicodeDecodeError),
        closing(connected(copy, "rw")) as c,
    ):
        c.execute("SELECT count(*) FROM sqlite_schema").fetchone()
    return copy, (tr("An edit that a crash had cut short was taken back first."),)


def _moved(connection: sqlite3.Connection, survey: Survey, version: int) -> dict[str, Rows]:
    """All rows in a new database, which is brought up to date then."""
    for pragma in ("journal_mode = OFF", "synchronous = OFF", "foreign_keys = OFF"):
        connection.execute(f"PRAGMA {pragma}")
    take_steps(connection, 0, version)
    connection.execute("BEGIN")
    rows = {table: put_rows(connection, survey, table, version) for table in survey.tables}
    connection.execute("COMMIT")
    take_steps(connection, version, CURRENT_VERSION)
    return rows


def _told(
    name: str, gathering: Gathering, rows: Rows | None, survey: Survey, given: Mapping[str, int]
) -> TableTold:
    kept, toll = gathering.kept(name), gathering.tolls[name]
    rows, found = rows or Rows(), survey.tables.get(name, Found())
    unsettled = len(rows.renamed) - given.get(name, 0)
    # An id that we made up ourselves says nothing to the owner; a day or a word does.
    speaking = [each for each in rows.lost if not _OF_CHANCE.fullmatch(each)]
    details = [tr('"{each}" could not be read', each=each[:40]) for each in speaking]
    if given.get(name):
        ids = counted(given[name], "damaged id")
        details.append(tr("{ids} put right, as other records refer to them", ids=ids))
    if unsettled:
        details.append(
            tr("{ids} not as the file's own index has them", ids=counted(unsettled, "id"))
        )
    if rows.unknown:
        details.append(tr("{rows} not in the file's own index", rows=counted(rows.unknown, "row")))
    # Rows and index lie on pages of their own: where they know the same, nothing is missing.
    agree = bool(found.ids) and not (rows.lost or rows.unknown or unsettled)
    known_lost = toll.garbled + toll.refused + rows.garbled + len(rows.lost)
    # Each of the tables of one record always has it: else the usual settings stand in its place.
    lost = len(rows.lost) + int(name in SINGLES and not kept and not known_lost)
    return TableTold(
        name,
        kept=kept,
        lost=lost,
        garbled=rows.garbled + toll.garbled,
        hanging=toll.hanging,
        refused=toll.refused,
        emptied=toll.emptied,
        stand_ins=gathering.stand_ins(name),
        odd_ids=len(rows.renamed) + rows.unknown,
        may_lack=bool(found.faults and found.index_faults) and not agree,
        doubtful=bool(found.strays and found.index_faults),
        details=(*details, *toll.details),
    )


def _file_notes(pages: Pages, survey: Survey) -> Iterator[str]:
    if not pages.has_header:
        yield tr("The beginning of the file is damaged.")
    if pages.is_cut:
        yield tr("The file is shorter than it was: its end is missing.")
    if survey.schema_faults:
        yield tr("The list of the file's tables is damaged; rows were told apart by their ids.")
    strays = sum(found.strays for found in survey.tables.values())
    if strays:
        yield tr(
            "Found again: {pages} to which nothing led any more.", pages=counted(strays, "page")
        )
    if survey.has_more_strays:
        yield tr("The file is too large to look at every page to which nothing leads.")
    spoilt = [tr(TITLES.get(n, n)) for n, found in survey.tables.items() if found.index_faults]
    if spoilt and not survey.schema_faults:
        yield tr(
            "The file's own index was damaged, and is made anew: {spoilt}.",
            spoilt=", ".join(spoilt),
        )
