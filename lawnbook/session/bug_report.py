"""A report file for our own mistakes: where in the program, and nothing of the notebook.

Messages of exceptions may hold what the owner typed, so only their kinds are written, with the
places in our code.
"""

import platform
import secrets
import sys
import tempfile
import traceback
from collections.abc import Iterator
from pathlib import Path

from lawnbook import __version__
from lawnbook.reading import tr

_MOST_CALLS = 80


def report_of(error: BaseException) -> str:
    """The report's text: versions, then each exception's kind and the calls that led to it."""
    lines = [
        f"Lawnbook {__version__}, Python {platform.python_version()}, {platform.platform()}",
        "This report holds no entries of the notebook.",
    ]
    for each in _chain(error):
        lines += ["", f"{type(each).__module__}.{type(each).__qualname__}"]
        lines += _calls(each)
    return "\n".join(lines) + "\n"


def key_of(error: BaseException) -> str:
    """What tells a mistake from another: its kind and the last place in the program."""
    return "\n".join([type(error).__qualname__, *_calls(error)[-1:]])


def write_report(error: BaseException, folder: Path | None = None) -> Path | None:
    """Write the report into the user's log folder, else a temporary one; None if neither can be.

    Returns the path of the new file.
    """
    return keep_report(report_of(error), folder)


def keep_report(text: str, folder: Path | None = None) -> Path | None:
    """Write a report's text into a new file as `write_report` does."""
    for chosen in [folder] if folder is not None else log_folders():
        path = chosen / f"lawnbook-report-{secrets.token_hex(4)}.txt"
        try:
            chosen.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        except OSError:
            continue
        return path
    return None


def sentence_about(error: BaseException, folder: Path | None = None) -> str:
    """Write the report and say so in a sentence for the owner."""
    path = write_report(error, folder)
    told = tr("Something went wrong in Lawnbook itself, not in your entries.")
    if path is None:
        return tr(
            "{told} A report could not be written ({error}).", told=told, error=type(error).__name__
        )
    return tr("{told} A report without your entries is in {path}", told=told, path=path)


def log_folders() -> Iterator[Path]:
    """Where reports go: the user's log folder, else the temporary one."""
    from platformdirs import user_log_path

    yield user_log_path("lawnbook", appauthor=False)
    yield Path(tempfile.gettempdir())


def _calls(error: BaseException) -> list[str]:
    """The calls that led to an exception, outermost first; of many, the middle is left out."""
    frames = traceback.extract_tb(error.__traceback__)
    told = [f"  {place_of(frame.filename)}:{frame.lineno} {frame.name}" for frame in frames]
    if len(told) <= _MOST_CALLS:
        return told
    head, tail = told[: _MOST_CALLS // 4], told[-_MOST_CALLS * 3 // 4 :]
    return [*head, f"  ({len(told) - len(head) - len(tail)} more calls)", *tail]


def _chain(error: BaseException) -> Iterator[BaseException]:
    seen: set[int] = set()
    each: BaseException | None = error
    while each is not None and id(each) not in seen:
        seen.add(id(each))
        yield each
        if isinstance(each, BaseExceptionGroup):
            for part in each.exceptions:
                yield from _chain(part)
        each = each.__cause__ or each.__context__


def place_of(filename: str) -> str:
    """A file's place inside the program or its libraries, without the user's own folders."""
    path = Path(filename)
    for root in sorted((Path(each) for each in sys.path if each), reverse=True):
        if path.is_relative_to(root):
            return path.relative_to(root).as_posix()
    return path.name
