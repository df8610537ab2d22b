"""One writer for each notebook: a lock that the system frees when the process that holds it dies.

The lock is on small files in the user's own data folder, so that none lies beside the notebook and
the notebook is never opened a second time (closing it would drop SQLite's own locks, see
sqlite.org/howtocorrupt.html, "Posix advisory locks canceled by a separate thread doing close()").
One file is named by a hash of the resolved path, one by what the system calls the file itself:
links and different spellings lead to the same notebook, and so does a hard link.

Another user of the machine, or another machine, has a folder of its own: there the changed file is
what is noticed (see `stamps`).
"""

import contextlib
import hashlib
import os
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from lawnbook.frozen import dataclass
from lawnbook.reading import tr

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

_FLAGS = os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_BINARY", 0)
_TRIES = 20
_DAY_S = 86_400.0


@dataclass(frozen=True, slots=True)
class HeldElsewhere:
    """Another process is the notebook's writer, since a moment of local time if that is known."""

    since: datetime | None


class Writer:
    """The right to write into one notebook, held until `release` or the end of the process."""

    def __init__(self, held: tuple[tuple[Path, int], ...]) -> None:
        """Lock files and their descriptors; none where no folder would take one."""
        self._held = held

    def release(self) -> None:
        """Let another process write. Releasing twice does no harm."""
        held, self._held = self._held, ()
        for lock, _ in held[:1]:
            _sweep(lock)
        for lock, descriptor in held:
            # Unlinked while it is still held: who waits for it sees that its file is gone.
            # Windows keeps an open file; it stays behind there, empty.
            with contextlib.suppress(OSError):
                lock.unlink()
            os.close(descriptor)


def become_writer(path: Path) -> Writer | HeldElsewhere:
    """Become the writer of the notebook at a path, or learn who is.

    Where no folder takes a lock, the caller becomes the writer all the same: that the file is
    changed by another is noticed before it is written.
    """
    names = _names(path)
    for folder in _folders():
        try:
            return _taken(folder, names)
        except OSError:
            continue
    return Writer(())


def _names(path: Path) -> tuple[str, ...]:
    """The names of a notebook's lock files: by its path and, where it is there, by its identity."""
    told = [tr("path {normcase}", normcase=os.path.normcase(path.resolve()))]
    with contextlib.suppress(OSError):
        found = path.stat()
        if found.st_ino:
            told.append(tr("file {st_dev} {st_ino}", st_dev=found.st_dev, st_ino=found.st_ino))
    return tuple(hashlib.sha256(os.fsencode(each)).hexdigest()[:32] for each in told)


def _folders() -> Iterator[Path]:
    """Where the locks lie: the data folder, the same however the program was started; else temp.

    The runtime folder would not do: it is not told to a process that began without a desktop.
    """
    import tempfile

    from platformdirs import user_data_path

    yield user_data_path("lawnbook", appauthor=False) / "open"
    # Whose folder it is must be part of its name: the temporary folder is everybody's.
    owner = os.getuid() if sys.platform != "win32" else os.environ.get("USERNAME", "")
    yield Path(tempfile.gettempdir()) / f"lawnbook-open-{owner}"


def _taken(folder: Path, names: tuple[str, ...]) -> Writer | HeldElsewhere:
    """All locks of a notebook in a folder, or none. OSError where the folder will not take one."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    if sys.platform != "win32" and folder.lstat().st_uid != os.getuid():
        raise PermissionError(folder)
    held: list[tuple[Path, int]] = []
    try:
        for name in names:
            lock = folder / f"{name}.lock"
            descriptor = _locked(lock)
            if descriptor is None:
                Writer(tuple(held)).release()
                return HeldElsewhere(_since(lock))
            held.append((lock, descriptor))
    except OSError:
        Writer(tuple(held)).release()
        raise
    return Writer(tuple(held))


def _locked(lock: Path) -> int | None:
    """A descriptor that holds the lock, or None where another process does."""
    for _ in range(_TRIES):
        descriptor = os.open(lock, _FLAGS, 0o600)
        try:
            if not _lock(descriptor):
                os.close(descriptor)
                return None
            if _is_there(lock, descriptor):
                # Written so that its time of change tells since when it is held.
                os.truncate(descriptor, 0)
                os.write(descriptor, b"\n")
                return descriptor
        except OSError:
            os.close(descriptor)
            raise
        # Who held it took the file away between our opening and our locking it.
        os.close(descriptor)
    return None


def _lock(descriptor: int) -> bool:
    """Lock a file without waiting; False where another process holds it. OSError for the rest."""
    try:
        if sys.platform == "win32":
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        return False
    return True


def _is_there(lock: Path, descriptor: int) -> bool:
    try:
        found = lock.stat()
    except OSError:
        return False
    held = os.fstat(descriptor)
    return (found.st_dev, found.st_ino) == (held.st_dev, held.st_ino)


def _sweep(own: Path) -> None:
    """Take away what processes that were killed have left beside a lock of ours.

    A file that can be locked is nobody's; those of a day before ours are tried.
    """
    with contextlib.suppress(OSError):
        before = own.stat().st_mtime - _DAY_S
        for lock in own.parent.glob("*.lock"):
            if lock.stat().st_mtime < before and (descriptor := _locked(lock)) is not None:
                lock.unlink()
                os.close(descriptor)


def _since(lock: Path) -> datetime | None:
    """Since when a lock is held, in local time."""
    try:
        return datetime.fromtimestamp(lock.stat().st_mtime, UTC).astimezone()
    except OSError:
        return None
