"""Earlier copies of a notebook, kept beside the user's data: the last ten sessions, months, years.

A copy is an ordinary notebook, written whole or not at all, checked before any older one goes. It
is kept at the end of a session that changed the file, and at the beginning of one that finds the
file different from the newest copy (after a crash, or when a sync program brought another).
Copies lie in a folder for each notebook, named by its file and the moment it was first made, so
that notebooks of the same name stay apart and one that was moved finds its own again.
"""

import contextlib
import hashlib
import json
import sqlite3
import time
from collections.abc import Iterator, Sequence
from contextlib import closing
from datetime import datetime, timedelta
from pathlib import Path

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.files import NOTEBOOK_SUFFIX, opened_to_read, write_text_whole, written_whole
from lawnbook.store.migrations import CURRENT_VERSION
from lawnbook.store.opening import explained, is_open_here
from lawnbook.store.picture_shelf import connected_to_read
from lawnbook.store.stamps import journal_bytes, told_of
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError

SESSIONS, MONTHS = 10, 12
"""How many of the newest copies stay, and of how many months the newest one stays."""
MOST_SESSION_BYTES = 2**30
LEAST_SESSIONS = 3
"""Copies beyond the newest three go earlier where the ten together are larger than 1 GiB."""

_WHERE = "where.json"
_PAGES, _PAUSE_SECONDS = 256, 0.02
_MOST_ROUNDS = 20
_JOURNAL_LOOKS = 100


@dataclass(frozen=True, slots=True)
class EarlierCopy:
    """A copy: its file, when it was made, and its size."""

    path: Path
    made: datetime
    size_bytes: int


def backups_folder() -> Path:
    """Where the copies of all notebooks of this user lie."""
    from platformdirs import user_data_path

    return user_data_path("lawnbook", appauthor=False) / "backups"


def copies_of(path: Path, root: Path) -> tuple[EarlierCopy, ...]:
    """The copies of a notebook, newest first; of one too damaged to say which it is, by its place.

    Where none knows the place either, those of a notebook of the same name.
    """
    key = key_of(path)
    folder = _folder_of(path, key, root) if key else None
    folders = [folder] if folder is not None else _folders_by_place(path, root)
    if not folders and not key:
        folders = [each for each in _folders(root) if each.name[:-9] == path.stem]
    found = [copy for each in folders for copy in _copies_in(each)]
    return tuple(sorted(found, key=lambda copy: copy.made, reverse=True))


def folder_of(path: Path, root: Path) -> Path | None:
    """The folder that holds a notebook's copies, None where there is none yet."""
    key = key_of(path)
    return _folder_of(path, key, root) if key else next(iter(_folders_by_place(path, root)), None)


def saving_count(path: Path) -> str:
    """What tells whether a closed file was written to: SQLite's change counter, and its size.

    Empty where it cannot be told, as of a file that is open here: closing a second handle on it
    would drop SQLite's locks ("How To Corrupt An SQLite Database File", section 2.2).
    """
    if is_open_here(path):
        return ""
    try:
        with opened_to_read(path) as handle:
            header = handle.read(28)
        return f"{int.from_bytes(header[24:28], 'big')}-{path.stat().st_size}"
    except (OSError, OwnerError):
        return ""


def is_of_older_program(path: Path) -> bool:
    """Whether opening a closed notebook to write will bring its tables up to date."""
    try:
        with opened_to_read(path) as handle:
            header = handle.read(64)
    except OwnerError:
        return False
    return 0 < int.from_bytes(header[60:64], "big") < CURRENT_VERSION


def has_changed(path: Path, stamp: str, root: Path) -> bool:
    """Whether a notebook of this stamp is not what its newest copy was made from."""
    folder = folder_of(path, root)
    if not stamp or folder is None or not _copies_in(folder):
        return True
    return _where(folder).get("stamp") != stamp


def keep_copy(
    path: Path, stamp: str, now: datetime, root: Path, *, spared: Path | None = None
) -> EarlierCopy | None:
    """Keep a copy of a notebook as it stands on disk, and let the oldest ones go.

    None where the newest copy was made from just this. `stamp` is the closed file's
    `saving_count`; `now` tells its time zone. The file may be open and be written to meanwhile:
    SQLite copies it some pages at a time, and begins again after an edit. Raises OwnerError, with
    all copies as they were, where the disk refuses or the file is damaged: a damaged copy takes
    no good one's place. `spared` is a copy that stays this time however old it is.
    """
    _refuse_strange_journal(path)
    if not has_changed(path, stamp, root):
        return None
    folder = _folder_to_keep(path, root)
    target = _free_target(folder, path.stem, now)
    with written_whole(target) as fresh, explained(path):
        _copy_pages(path, fresh)
        _refuse_damaged(path, fresh)
    before = [copy for copy in _copies_in(folder) if copy.path != target][:1]
    if before and _same_content(target, before[0].path):
        target.unlink()
        _note_where(folder, path, stamp)
        return None
    _note_where(folder, path, stamp)
    _let_go(folder, spared)
    return next(each for each in _copies_in(folder) if each.path == target)


def to_keep(copies: Sequence[EarlierCopy]) -> frozenset[Path]:
    """Which copies stay: ten newest, the newest of each of twelve months, and of every year.

    Of large ones fewer than ten, but never fewer than three. The newest always stays.
    """
    newest = sorted(copies, key=lambda copy: copy.made, reverse=True)
    kept: set[Path] = set()
    together = 0
    for number, copy in enumerate(newest[:SESSIONS]):
        together += copy.size_bytes
        if number < LEAST_SESSIONS or together <= MOST_SESSION_BYTES:
            kept.add(copy.path)
    months: dict[tuple[int, int], Path] = {}
    years: dict[int, Path] = {}
    for copy in newest:
        months.setdefault((copy.made.year, copy.made.month), copy.path)
        years.setdefault(copy.made.year, copy.path)
    return frozenset({*kept, *list(months.values())[:MONTHS], *years.values()})


def made_told(made: datetime) -> str:
    """When a copy was made, in the words of a list: day and time as the clock there showed it."""
    return f"{day(made.date())}, {made:%H:%M}"


def key_of(path: Path) -> str:
    """Eight digits that stay with a notebook wherever it is moved; empty where it is unreadable.

    They are made of the moment when the notebook was first made, which stands in the file.
    """
    try:
        with closing(connected_to_read(path)) as connection:
            kind = "SELECT type FROM sqlite_schema WHERE name = '_sqlite_migrations'"
            if connection.execute(kind).fetchone() != ("table",):
                return ""
            first = "SELECT applied_at FROM _sqlite_migrations ORDER BY rowid LIMIT 1"
            row = connection.execute(first).fetchone()
    except (sqlite3.Error, UnicodeDecodeError):
        return ""
    return _digits(str(row[0])) if row is not None else ""


def _digits(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "replace")).hexdigest()[:8]


def _folders(root: Path) -> list[Path]:
    try:
        return sorted(each for each in root.iterdir() if each.is_dir())
    except OSError:
        return []


def _folders_by_place(path: Path, root: Path) -> list[Path]:
    place = _place(path)
    return [each for each in _folders(root) if _where(each).get("path") == place]


def _folder_of(path: Path, key: str, root: Path) -> Path | None:
    """The folder of this key that knows this place, or one whose notebook is no longer there."""
    found = [each for each in _folders(root) if each.name.endswith(f"-{key}")]
    found += [each for each in _folders(root) if f"-{key} " in each.name]
    here = [each for each in found if _where(each).get("path") == _place(path)]
    left = [each for each in found if not Path(_where(each).get("path", "")).is_file()]
    return next(iter([*here, *left]), None)


def _folder_to_keep(path: Path, root: Path) -> Path:
    key = key_of(path) or _digits(_place(path))
    folder = _folder_of(path, key, root)
    if folder is None:
        names = (f"{path.stem}-{key}{f' {n}' if n > 1 else ''}" for n in range(1, 1000))
        folder = next(root / each for each in names if not (root / each).exists())
    try:
        folder.mkdir(parents=True, exist_ok=True)
        # What a copy that was cut short left behind.
        for left in folder.glob(f".*{NOTEBOOK_SUFFIX}.*"):
            left.unlink(missing_ok=True)
    except OSError as error:
        why = (error.strerror or type(error).__name__).lower()
        raise OwnerError(
            tr(
                "{folder}: no copy can be kept there ({why}); check its permissions and free "
                "space.",
                folder=folder,
                why=why,
            )
        ) from error
    return folder


def _free_target(folder: Path, stem: str, now: datetime) -> Path:
    """The path of a copy made now, a second later for each that was made in the same one."""
    for number in range(1000):
        at = (now + timedelta(seconds=number)).strftime("%Y-%m-%d %H.%M.%S %z")
        target = folder / f"{stem} {at}{NOTEBOOK_SUFFIX}"
        if not target.exists():
            return target
    raise OwnerError(
        tr("{folder}: there are too many copies of one minute; take some away.", folder=folder)
    )


def _copies_in(folder: Path) -> list[EarlierCopy]:
    return sorted(_listed(folder), key=lambda copy: (copy.made, copy.path.name), reverse=True)


def _listed(folder: Path) -> Iterator[EarlierCopy]:
    with contextlib.suppress(OSError):
        for path in folder.glob(f"*{NOTEBOOK_SUFFIX}"):
            made = _made(path)
            if made is not None and not path.name.startswith("."):
                with contextlib.suppress(OSError):
                    yield EarlierCopy(path, made, path.stat().st_size)


def _made(path: Path) -> datetime | None:
    """When a copy was made, by its name; None for a file that is none of ours."""
    try:
        return datetime.strptime(" ".join(path.stem.split(" ")[-3:]), "%Y-%m-%d %H.%M.%S %z")
    except ValueError:
        return None


def _refuse_strange_journal(path: Path) -> None:
    """Raise OwnerError where another program's journal lies beside a notebook that is open here.

    Whoever read the notebook then would put what is in it into the file. Ours is there for a
    moment only, while an edit is written.
    """
    if is_open_here(path):
        for _ in range(_JOURNAL_LOOKS):
            if not journal_bytes(path):
                return
            time.sleep(_PAUSE_SECONDS)
        raise OwnerError(told_of(path, "journal"))


def _copy_pages(path: Path, fresh: Path) -> None:
    with closing(connected_to_read(path)) as source, closing(sqlite3.connect(fresh)) as target:
        # The new file is synced and renamed when it is whole: until then it needs no journal.
        target.execute("PRAGMA journal_mode = OFF")
        target.execute("PRAGMA synchronous = OFF")
        rounds = 0

        def went_on(_status: int, _left: int, total: int) -> None:
            nonlocal rounds
            rounds += 1
            if rounds > _MOST_ROUNDS * (total // _PAGES + 10):
                raise OwnerError(
                    tr("{name}: is being written to all the time; no copy yet.", name=path.name)
                )

        source.backup(target, pages=_PAGES, progress=went_on, sleep=_PAUSE_SECONDS)


def _refuse_damaged(path: Path, fresh: Path) -> None:
    with closing(sqlite3.connect(fresh)) as connection:
        found = connection.execute("PRAGMA integrity_check(1)").fetchone()
    if found != ("ok",):
        raise OwnerError(
            tr(
                "{name}: the file is damaged, so no copy of it is kept; the earlier copies stay.",
                name=path.name,
            )
        )


def _same_content(one: Path, other: Path) -> bool:
    """Whether two copies hold the same pages; the header counts how often each was written."""
    if one.stat().st_size != other.stat().st_size:
        return False
    with one.open("rb") as first, other.open("rb") as second:
        first.seek(100), second.seek(100)
        while (piece := first.read(2**20)) == second.read(2**20):
            if not piece:
                return True
    return False


def _let_go(folder: Path, spared: Path | None) -> None:
    copies = _copies_in(folder)
    kept = to_keep(copies)
    for copy in copies:
        if copy.path not in kept and copy.path != spared:
            with contextlib.suppress(OSError):
                copy.path.unlink()


def _where(folder: Path) -> dict[str, str]:
    """What a folder knows of its notebook: where it was last, and the newest copy's stamp."""
    try:
        held = json.loads((folder / _WHERE).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return {str(k): str(v) for k, v in held.items()} if isinstance(held, dict) else {}


def _note_where(folder: Path, path: Path, stamp: str) -> None:
    text = json.dumps({"path": _place(path), "stamp": stamp}, ensure_ascii=False)
    write_text_whole(folder / _WHERE, text)


def _place(path: Path) -> str:
    return str(path.resolve())
