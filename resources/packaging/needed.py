"""What of the libraries that the packager finds is really wanted in the folder, on Linux.

Qt's plugins for screens without a desktop, and the one that borrows GTK's dialogs from the
machine that built the folder, bring some forty libraries along. They are left out, and with them
every library that nothing else asks for.
"""

import re
from collections.abc import Callable, Iterable, Sequence

Entry = tuple[str, str, str]
"""What the packager takes: where it goes, where it is from, and what it is."""

UNUSED = re.compile(
    r"plugins/(egldeviceintegrations|generic|platformthemes/libqgtk3"
    r"|platforms/libq(eglfs|linuxfb|minimal|minimalegl|vkkhrdisplay|vnc))[./]"
)
"""Plugins for a bare screen, touch panels, a remote screen, and GTK's own dialogs."""
WORDS_OF_QT = re.compile(r"PySide6/(?:Qt/)?translations/")
"""Where Qt has its own words, in all languages and of all its parts."""
SHARED = re.compile(r"^(?:PySide6/Qt/lib/)?lib[^/]*\.so[^/]*$")
"""Libraries that are there for others: at the top of the folder, and Qt's own."""


def wanted(found: Iterable[Entry], asked_by: Callable[[str], Iterable[str]]) -> tuple[Entry, ...]:
    """The binaries without those plugins and what was there for them alone.

    `asked_by` tells the names of the libraries that a file asks for. A link stays with its file.
    """
    kept = [each for each in found if not UNUSED.search(each[0])]
    files = [each for each in kept if each[2] != "SYMLINK"]
    needed = _needed(files, asked_by)
    return tuple(each for each in kept if not SHARED.match(each[0]) or _name(each[0]) in needed)


def without_foreign_words(found: Iterable[Entry], languages: Iterable[str]) -> tuple[Entry, ...]:
    """The data without Qt's words in languages that the program does not speak."""
    ours = {f"qtbase_{each}.qm" for each in languages}
    return tuple(
        each for each in found if not WORDS_OF_QT.search(each[0]) or _name(each[0]) in ours
    )


def without_loose_links(found: Iterable[Entry], kept: Iterable[Entry]) -> tuple[Entry, ...]:
    """The data without links to libraries that are not among the binaries that are kept."""
    names = {_name(each[0]) for each in kept}
    return tuple(
        each
        for each in found
        if each[2] != "SYMLINK" or not SHARED.match(each[0]) or _name(each[0]) in names
    )


def _needed(files: Sequence[Entry], asked_by: Callable[[str], Iterable[str]]) -> set[str]:
    """The names of the shared libraries that are asked for, by what is asked for itself too."""
    by_name = {_name(each[0]): each for each in files if SHARED.match(each[0])}
    # Python's own library is asked for by the program that starts it.
    todo = [each for each in files if not SHARED.match(each[0]) or "libpython" in each[0]]
    needed = {_name(each[0]) for each in todo}
    while todo:
        for name in map(_name, asked_by(todo.pop()[1])):
            if name in by_name and name not in needed:
                needed.add(name)
                todo.append(by_name[name])
    return needed


def _name(path: str) -> str:
    return path.rsplit("/", 1)[-1]
