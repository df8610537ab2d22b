"""Writing files whole or not at all, and naming them rightly."""

import os
import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from lawnbook.yard.problems import OwnerError

NOTEBOOK_SUFFIX = ".lawnbook"
YARD_SUFFIX = ".json"


def refuse_wrong_suffix(path: Path, suffix: str, what: str) -> None:
    """Raise OwnerError unless the file's name ends in `suffix`; `what` is "A notebook" or so."""
    if path.suffix.lower() != suffix:
        better = path.with_suffix(suffix).name if path.stem else f"yard{suffix}"
        raise OwnerError(f"{path.name}: {what}'s name ends in {suffix}; name it {better}.")


def refuse_missing_folder(path: Path) -> None:
    """Raise OwnerError unless the folder that the file would go into is there."""
    folder = path.absolute().parent
    if not folder.is_dir():
        raise OwnerError(
            f"{path.name}: the folder {folder} is not there; make it first, or choose another."
        )


@contextmanager
def written_whole(path: Path) -> Iterator[Path]:
    """Give a new file's path beside `path`; on leaving, it takes the place of `path` at once.

    Whatever goes wrong inside, `path` stays as it was and the new file is removed. Raises
    OwnerError where the folder is missing or the system refuses.
    """
    refuse_missing_folder(path)
    fresh = path.absolute().parent / f".{path.name}.{secrets.token_hex(4)}"
    try:
        yield fresh
        _flush(fresh)
        fresh.replace(path)
        _flush_folder(path.absolute().parent)
    except OSError as error:
        raise OwnerError(unwritable(path, error)) from error
    finally:
        fresh.unlink(missing_ok=True)


def write_text_whole(path: Path, text: str) -> None:
    """Write a UTF-8 text file whole or not at all; OwnerError where it cannot be."""
    with written_whole(path) as fresh:
        fresh.write_text(text, encoding="utf-8", newline="\n")


def read_text_bounded(path: Path, most_bytes: int) -> str:
    """The text of a UTF-8 file; OwnerError where it is missing, too large or not UTF-8."""
    try:
        with path.open("rb") as handle:
            data = handle.read(most_bytes + 1)
    except OSError as error:
        raise OwnerError(unreadable(path, error)) from error
    if len(data) > most_bytes:
        most = most_bytes // 2**20
        raise OwnerError(f"{path.name}: the file is larger than {most} MB; choose a smaller one.")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        sentence = f"{path.name}: the file is not UTF-8 text; save it as UTF-8, then try again."
        raise OwnerError(sentence) from error


def unwritable(path: Path, error: OSError) -> str:
    """The sentence for a file that the system will not let us write."""
    why = error.strerror or type(error).__name__
    return (
        f"{path.name}: cannot be written here ({why.lower()}); "
        "check the folder's permissions and free space, or choose another folder."
    )


def unreadable(path: Path, error: OSError) -> str:
    """The sentence for a file that the system will not let us read."""
    if isinstance(error, FileNotFoundError):
        return f"{path.name}: there is no such file in {path.absolute().parent}; check the name."
    if isinstance(error, IsADirectoryError):
        return f"{path.name}: this is a folder; name a file in it."
    why = error.strerror or type(error).__name__
    return f"{path.name}: cannot be read ({why.lower()}); check the file's permissions."


def _flush(path: Path) -> None:
    with path.open("rb+") as handle:
        os.fsync(handle.fileno())


def _flush_folder(folder: Path) -> None:
    # A renamed file survives a power cut only once its folder is on disk; Windows cannot open one.
    if os.name == "nt":
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
