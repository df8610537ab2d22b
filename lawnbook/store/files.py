"""Writing files whole or not at all, and naming them rightly."""

import os
import stat
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO

from lawnbook.reading import tr
from lawnbook.yard.problems import OwnerError

if sys.platform == "darwin":
    import fcntl

NOTEBOOK_SUFFIX = ".lawnbook"
YARD_SUFFIX = ".json"


def refuse_wrong_suffix(path: Path, suffix: str, what: str) -> None:
    """Raise OwnerError unless the file's name ends in `suffix`; `what` is "A notebook" or so."""
    if path.suffix.lower() != suffix:
        stem = "yard" if path.name.startswith(".") else path.stem or "yard"
        raise OwnerError(
            tr(
                "{path}: {what}'s name ends in {suffix}; name it {stem}{suffix}.",
                path=told(path),
                what=what,
                suffix=suffix,
                stem=stem,
            )
        )


def refuse_same_file(source: Path, target: Path) -> None:
    """Raise OwnerError where what is written would take the place of what it is made from."""
    if source.exists() and target.exists() and source.samefile(target):
        raise OwnerError(
            tr("{name}: this is the file that is read; name another to write.", name=target.name)
        )


def refuse_other_file(target: Path, start: bytes, kind: str) -> None:
    """Raise OwnerError where a file stands already that does not begin as its kind does.

    An earlier one of the same kind is replaced; an empty file too.
    """
    try:
        if target.exists() and not target.is_file() and not target.is_dir():
            raise OwnerError(
                tr("{target}: this is not a file; choose another name.", target=told(target))
            )
        with target.open("rb") as handle:
            found = handle.read(len(start))
    except OSError:
        # Nothing is there, or writing will say what is in the way.
        return
    if found not in (b"", start):
        raise OwnerError(
            tr("{name}: this file is not {kind}; choose another name.", name=target.name, kind=kind)
        )


@contextmanager
def opened_to_read(path: Path) -> Iterator[IO[bytes]]:
    """A file's bytes to be read; OwnerError where it is missing, out of reach, or no file.

    A pipe or a device is refused before it is opened: reading it might never end.
    """
    try:
        if not path.is_dir() and not stat.S_ISREG(path.stat().st_mode):
            raise OwnerError(tr("{path}: this is not a file; choose one.", path=told(path)))
        handle = path.open("rb")
    except OSError as error:
        raise OwnerError(unreadable(path, error)) from error
    with handle:
        try:
            yield handle
        except OSError as error:
            raise OwnerError(unreadable(path, error)) from error


def told(path: Path) -> str:
    """How a file is called in a sentence: its bare name, or the whole path where it has none."""
    return path.name or str(path)


def refuse_missing_folder(path: Path) -> None:
    """Raise OwnerError unless the folder that the file would go into is there."""
    folder = path.absolute().parent
    if not folder.is_dir():
        raise OwnerError(
            tr(
                "{name}: the folder {folder} is not there; make it first, or choose another.",
                name=path.name,
                folder=folder,
            )
        )


@contextmanager
def written_whole(path: Path, last: Callable[[], None] = lambda: None) -> Iterator[Path]:
    """Give a new file's path beside `path`; on leaving, it takes the place of `path` at once.

    Where `path` is a link, what it leads to is replaced and the link stays.
    `last` is called just before that and may raise. Whatever goes wrong until then, `path` stays
    as it was and the new file is removed. Raises OwnerError where the folder is missing or the
    system refuses.
    """
    import secrets

    refuse_missing_folder(path)
    target = Path(os.path.realpath(path))
    fresh = target.parent / f".{target.name}.{secrets.token_hex(4)}"
    try:
        yield fresh
        _flush(fresh)
        last()
        fresh.replace(target)
        _flush_folder(target.parent)
    except OSError as error:
        raise OwnerError(unwritable(path, error)) from error
    finally:
        fresh.unlink(missing_ok=True)


def is_free_place(path: Path) -> bool:
    """Whether nothing lies at a path, not even a link that leads nowhere, in a folder there is."""
    return not os.path.lexists(path) and path.absolute().parent.is_dir()


def put_where_nothing_is(fresh: Path, path: Path) -> None:
    """Give a file that was just written its name beside it; never over another file.

    Raises OwnerError, and removes `fresh`, where something lies at `path` or the system refuses.
    """
    try:
        _linked(fresh, path)
        _flush_folder(path.absolute().parent)
    except FileExistsError as error:
        raise OwnerError(
            tr("{name}: another file lies there now; choose another name.", name=path.name)
        ) from error
    except OSError as error:
        raise OwnerError(unwritable(path, error)) from error
    finally:
        fresh.unlink(missing_ok=True)


def _linked(fresh: Path, path: Path) -> None:
    """A second name for a file, which the system refuses where there is one already."""
    try:
        path.hardlink_to(fresh)
    except FileExistsError:
        raise
    except OSError:
        # Some file systems know no second names (exFAT): looked at first, then renamed.
        if os.path.lexists(path):
            raise FileExistsError(path) from None
        fresh.rename(path)


def write_text_whole(path: Path, text: str) -> None:
    """Write a UTF-8 text file whole or not at all; OwnerError where it cannot be."""
    with written_whole(path) as fresh:
        fresh.write_text(text, encoding="utf-8", newline="\n")


def read_text_bounded(path: Path, most_bytes: int) -> str:
    """The text of a UTF-8 file; OwnerError where it is missing, too large or not UTF-8."""
    with opened_to_read(path) as handle:
        data = handle.read(most_bytes + 1)
    if len(data) > most_bytes:
        most = most_bytes // 2**20
        raise OwnerError(
            tr(
                "{name}: the file is larger than {most} MB; choose a smaller one.",
                name=path.name,
                most=most,
            )
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise OwnerError(_not_utf8(path)) from error
    if "\0" in text:
        # UTF-16 without a mark at its start decodes, and has one of these beside each letter.
        raise OwnerError(_not_utf8(path))
    return text


def _not_utf8(path: Path) -> str:
    return tr(
        "{name}: the file is not UTF-8 text; save it as UTF-8, then try again.", name=path.name
    )


def unwritable(path: Path, error: OSError) -> str:
    """The sentence for a file that the system will not let us write."""
    if path.is_dir():
        return tr("{path}: this is a folder; choose another name.", path=told(path))
    why = error.strerror or type(error).__name__
    return tr(
        "{name}: cannot be written here ({why}); check the folder's permissions and "
        "free space, or choose another folder.",
        name=path.name,
        why=why.lower(),
    )


def unreadable(path: Path, error: OSError) -> str:
    """The sentence for a file that the system will not let us read."""
    if isinstance(error, FileNotFoundError):
        return tr(
            "{name}: there is no such file in {parent}; check the name.",
            name=path.name,
            parent=path.absolute().parent,
        )
    if isinstance(error, IsADirectoryError):
        return tr("{path}: this is a folder; name a file in it.", path=told(path))
    why = error.strerror or type(error).__name__
    return tr(
        "{name}: cannot be read ({why}); check the file's permissions.",
        name=path.name,
        why=why.lower(),
    )


def _flush(path: Path) -> None:
    with path.open("rb+") as handle:
        _sync(handle.fileno())


def _sync(descriptor: int) -> None:
    if sys.platform == "darwin":
        # A plain fsync leaves the drive's own cache as it is there.
        with suppress(OSError):
            fcntl.fcntl(descriptor, fcntl.F_FULLFSYNC)
            return
    os.fsync(descriptor)


def _flush_folder(folder: Path) -> None:
    # A renamed file survives a power cut only once its folder is on disk; Windows cannot open one.
    if os.name == "nt":
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        _sync(descriptor)
    finally:
        os.close(descriptor)
