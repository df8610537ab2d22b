"""About: the version, our licence, and the licences of all that Lawnbook is made with."""

import re
from html import escape

from PySide6.QtCore import QSize, qVersion
from PySide6.QtWidgets import QWidget

from lawnbook import __version__
from lawnbook.desk.help_text import Passage, key_of
from lawnbook.desk.leaf_text import TextLeaf
from lawnbook.desk.licences import Part, carried, packed_in, parts
from lawnbook.reading import tr
from lawnbook.yard.places import resource

QT_SOURCES = (
    "https://download.qt.io/official_releases/qt/",
    "https://download.qt.io/official_releases/QtForPython/",
)
SYSTEM_SOURCES = "https://snapshot.debian.org/"
PROSE_LETTERS = 45
"""Lines of prose in a licence are longer, but for the last of a paragraph."""
OF_QT = ("pyside6-essentials", "shiboken6")
FONTS = (("Inter", "OFL-Inter.txt"), ("Source Serif 4", "OFL-SourceSerif4.txt"))


class AboutLeaf(TextLeaf):
    """Who made what, and on which terms; every licence in full where it came along."""

    SIZE_PX = QSize(960, 680)

    def __init__(self, host: QWidget) -> None:
        super().__init__("about", host)

    def read_passages(self) -> tuple[Passage, ...]:
        """Lawnbook, Qt and the fonts first, then every other part by name."""
        others = (part for part in parts() if part.name.lower().replace("_", "-") not in OF_QT)
        fonts = (_passage(name, _font(name, text), text) for name, text in _fonts())
        return (_lawnbook(), _qt(), *_carried(), *fonts, *(_of_part(part) for part in others))


def _lawnbook() -> Passage:
    told = (
        tr("Version {version}", version=__version__),
        tr(
            "A notebook for repairing an irrigated lawn: dated plugs, water as deep and as seldom "
            "as the roots can bear, nitrogen little and slowly."
        ),
        tr(
            "Its figures are starting points from published sources, named beside each of them. "
            "Product labels, local codes and licensed practice come first."
        ),
        tr("Lawnbook is free software under the MIT licence:"),
    )
    text = resource("LICENSE.txt").read_text(encoding="utf-8")
    return _passage("Lawnbook", _paragraphs(*told) + _in_full(text), " ".join((*told, text)))


def _qt() -> Passage:
    """The notice that the LGPL asks for: what it is, on which terms, where its source is."""
    told = (
        tr(
            "The window is made with Qt {version} and PySide6, the Python bindings of Qt, by The "
            "Qt Company and contributors, used under the GNU Lesser General Public License, "
            "version 3. Both are separate libraries that you may replace by others of the same "
            "version and interface.",
            version=qVersion(),
        ),
        tr(
            "Their source code is at {qt} and {bindings}.",
            qt=QT_SOURCES[0],
            bindings=QT_SOURCES[1],
        ),
        tr("The texts of the LGPL and of the GPL, which it adds to:"),
    )
    others = tr("What Qt itself has of others, and on which terms:")
    texts = [
        resource(f"licences/{name}").read_text(encoding="utf-8")
        for name in ("LGPL-3.txt", "GPL-3.txt", "Qt-others.txt")
    ]
    html = _paragraphs(*told) + "".join(_in_full(each) for each in texts[:-1])
    html += _paragraphs(others) + _in_full(texts[-1])
    return _passage(tr("Qt and PySide6"), html, " ".join((*told, others, *texts)))


def _carried() -> tuple[Passage, ...]:
    """The libraries of the system that a standalone program carries, and where their terms are."""
    folder = packed_in()
    if folder is None:
        return ()
    told = (
        tr(
            "This program carries Python and libraries of the system that it was made on. The "
            "licence of each stands in full in the folder {folder}.",
            folder=str(folder),
        ),
        tr(
            "Their source code is kept under these names and versions at {archive}.",
            archive=SYSTEM_SOURCES,
        ),
    )
    names = [f"{name} {version}" for name, version in carried(folder)]
    html = _paragraphs(*told) + f"<p>{escape(', '.join(names), quote=False)}</p>"
    return (_passage(tr("Libraries of the system"), html, " ".join((*told, *names))),)


def _fonts() -> list[tuple[str, str]]:
    return [(name, resource(f"fonts/{text}").read_text(encoding="utf-8")) for name, text in FONTS]


def _font(name: str, text: str) -> str:
    told = tr("The typeface {name}, under the SIL Open Font License 1.1:", name=name)
    return _paragraphs(told) + _in_full(text)


def _of_part(part: Part) -> Passage:
    told = (
        tr("{name} {version}", name=part.name, version=part.version),
        tr("Licence: {licence}", licence=part.licence),
    )
    missing = tr("It carries no text of its licence.")
    html = _paragraphs(*told) + (_in_full(part.text) if part.text else _paragraphs(missing))
    return _passage(part.name, html, f"{part.licence} {part.text}")


def _passage(title: str, html: str, plain: str) -> Passage:
    return Passage(key=key_of(title), title=title, html=html, plain=plain)


def _paragraphs(*lines: str) -> str:
    return "".join(f"<p>{escape(line, quote=False)}</p>" for line in lines)


def _in_full(text: str) -> str:
    return f"<pre>{escape(flowing(text), quote=False)}</pre>"


def flowing(text: str) -> str:
    """A licence whose lines are as long as the page: those of one paragraph run on.

    Its own line ends, at some 75 letters, would stand ragged in any other width. A block whose
    lines are short, or stand in differently, is a list or an address and stays as it is.
    """
    blocks = (each.strip("\n") for each in re.split(r"\n\s*\n", text.strip("\n")))
    return "\n\n".join(_run_on(each) for each in blocks if each.strip())


def _run_on(block: str) -> str:
    lines = [each.rstrip() for each in block.splitlines()]
    inner, stands_in = lines[:-1], {len(each) - len(each.lstrip()) for each in lines[1:]}
    if len(stands_in) > 1 or any(len(each.strip()) < PROSE_LETTERS for each in inner):
        return "\n".join(lines)
    return " ".join([lines[0], *(each.strip() for each in lines[1:])])
