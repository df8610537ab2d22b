"""What a lock keeps from the owner's hand, and the words for it."""

from collections.abc import Iterable

from lawnbook.desk.sketch.choosing import is_locked, name_of
from lawnbook.reading import tr
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.numbers import and_joined

_MOST_NAMES = 3


def locked_of(notebook: Notebook, keys: Iterable[Key]) -> tuple[Key, ...]:
    """Those of some records that are locked, in order."""
    return tuple(key for key in keys if is_locked(notebook.find(*key)))


def locked_words(notebook: Notebook, keys: Iterable[Key]) -> str:
    """Why nothing happens: "Front is locked; unlock it with K."."""
    locked = tuple(keys)
    return tr(
        "{named} is locked; unlock it with K."
        if len(locked) == 1
        else "{named} are locked; unlock them with K.",
        named=_named(notebook, locked),
    )


def stays_words(notebook: Notebook, keys: Iterable[Key]) -> str:
    """What was left behind: "Front is locked and stays."; "" where nothing was."""
    locked = tuple(keys)
    if not locked:
        return ""
    return tr(
        "{named} is locked and stays." if len(locked) == 1 else "{named} are locked and stay.",
        named=_named(notebook, locked),
    )


def _named(notebook: Notebook, keys: tuple[Key, ...]) -> str:
    if len(keys) > _MOST_NAMES:
        return tr("{count} shapes", count=len(keys))
    words = and_joined([name_of(notebook, *key) for key in keys])
    return words[:1].upper() + words[1:]
