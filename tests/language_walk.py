"""A walk through the whole window in another language: `python -m tests.language_walk LANGUAGE`.

Prints as JSON what is not told in that language (`untold`, for the made-up language only) and what
is cut off in a window of 1280 × 800 (`cut`), each with the place where it was met. A program of its
own, since a language is chosen before anything else of Lawnbook is loaded. `--beside` walks what
stands beside and over the pages in their place: what `tests.beside_walk` opens, folds and all.
"""

import ast
import json
import re
import sys
import tempfile
from collections.abc import Iterator, Sequence
from datetime import date
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from lawnbook.languages import LANGUAGES, PSEUDO, words_of
from lawnbook.start import choose_language

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from lawnbook.desk.window import BookWindow

ROOT = Path(__file__).resolve().parent.parent
SAMPLE = ROOT / "sample_yards" / "larkspur_corner.json"
DAY = date(2026, 6, 15)
WORD = re.compile(r"[^\W\d_]{3,}")
Seen = tuple[str, "QWidget", list[str]]
"""A place, what is shown there, and what is cut off in it."""
PLAIN = re.compile(r"[aeiou]", re.IGNORECASE)
"""What no told word has: in the made-up language every vowel bears an accent."""
SAME = re.compile(
    r"""\b(?:Lawnbook|lawnbook|FAO-56|FAO|USDA|NRCS|NOAA|GHCN-Daily|GHCN|PDF|PNG|SVG|CSV|GeoJSON|KML|HEIC|JPEG|xlsx|csv|zip
    |geojson|kml|Ctrl|Shift|Alt|Enter|Esc|Tab|Space|Delete|Insert|Backspace|Home|End|Page|Up|Down|ETo|ETc
    |P₂O₅|K₂O|max|exp|ppm|min|mph|psi|gpm|gal|sqft|kPa|America/Denver|Denver|Larkspur|Corner|Letter|Hargreaves|README|nbsp|UTC|MST|MDT)\b""",
    re.VERBOSE,
)


def owners_words(*, typed: bool = False) -> list[str]:
    """What no language changes, longest first: the owner's own words, and the names of sources.

    What the program has words for is not the owner's, though a record may hold it: "aeration". But
    in a field it stands as it was `typed`.
    """
    from lawnbook.agronomy.sources import SOURCES
    from lawnbook.desk.menus import title_of_sample
    from lawnbook.yard.places import sample_yards

    found: set[str] = set()
    names: set[str] = set()

    def gather(held: object) -> None:
        if isinstance(held, str):
            found.add(held)
        elif isinstance(held, dict):
            names.add(str(held.get("name")))
            for value in held.values():
                gather(value)
        elif isinstance(held, list):
            for value in held:
                gather(value)

    gather(json.loads(SAMPLE.read_text(encoding="utf-8")))
    if not typed:
        found -= set(words_of("es", ROOT / "resources" / "languages")) - names
    found |= set(LANGUAGES.values()) | {str(Path.home()), "FRONT LAWN", "name of"}
    found |= {source.citation for source in SOURCES.values()}
    found |= {title_of_sample(path.stem) for path in sample_yards()}
    return sorted((each for each in found if WORD.search(each)), key=len, reverse=True)


def is_untold(text: str, own: Sequence[str]) -> bool:
    """Whether words of a text are neither told in the made-up language nor the owner's."""
    return bool(untold_words(text, tuple(own)))


@cache
def in_all_cases(own: tuple[str, ...]) -> tuple[str, ...]:
    """The owner's words as they are, in small letters, and as a sentence begins with them."""
    forms = (form for each in own for form in (each, each.lower(), each.capitalize()))
    return tuple(dict.fromkeys(forms))


# A page's words are met again on each of its sections.
@cache
def untold_words(text: str, own: tuple[str, ...]) -> list[str]:
    """Its words that have a vowel without an accent, within told texts and between them."""
    # What stands behind a tab is what an entry types: kinds of care are stored in English.
    text = text.partition("\t")[0]
    for each in in_all_cases(own):
        text = text.replace(each, " ")
    return [word for word in WORD.findall(SAME.sub(" ", text)) if PLAIN.search(word)]


def is_slight(fault: str) -> bool:
    """Whether words want no more than a tenth of their room: no language is as long as this one."""
    found = re.search(r"needs (\d+) px.*has (\d+)", fault)
    return found is not None and int(found[1]) <= 1.1 * int(found[2])


def walked(window: "BookWindow") -> Iterator[str]:
    """Turn to every section, and wait until its figures are there."""
    from PySide6.QtTest import QTest

    from tests.words_walk import places

    for place in places(window):
        QTest.qWait(250)
        yield place


def painted_words() -> Iterator[str]:
    """The words of every picture that is held: charts and sketches paint them, no widget has them.

    Looked for among all objects, since a picture is kept wherever it is painted.
    """
    import gc

    from lawnbook.charts.marks import Words

    for held in gc.get_objects():
        if isinstance(held, Words):
            yield held.text


def menu_words(window: "QWidget") -> Iterator[str]:
    """The entries of the menus."""
    from PySide6.QtGui import QAction

    for action in window.findChildren(QAction):
        if action.text() and not action.isSeparator():
            yield action.text().replace("&", "")


def open_sample(folder: Path) -> "BookWindow":
    """The sample open in a window at the least size that is served, its plan made."""
    from lawnbook.desk.app import _application
    from lawnbook.desk.settings import Settings
    from lawnbook.desk.theme import apply_theme
    from lawnbook.desk.window import BookWindow
    from lawnbook.session.open_notebook import OpenNotebook
    from lawnbook.store.yardfile import load_checked

    apply_theme(_application(), "light")
    book = OpenNotebook.create(folder / "a.lawnbook", load_checked(SAMPLE, DAY).notebook, DAY)
    window = BookWindow(book, Settings(folder / "desk.ini"))
    window.resize(1280, 800)
    window.show()
    return window


def words_of_walk() -> list[str]:
    """What the walk itself puts into dialogs, in whole sentences."""
    tree = ast.parse((ROOT / "tests" / "beside_walk.py").read_text(encoding="utf-8"))
    held = (node.value for node in ast.walk(tree) if isinstance(node, ast.Constant))
    return [text for text in held if isinstance(text, str) and len(text.split()) > 2]


def beside(window: "BookWindow", folder: Path) -> Iterator[Seen]:
    """All that is opened beside and over the pages, and every section with its folds open."""
    from tests import beside_walk as walks

    yield from walks.welcome(folder)
    yield from walks.leaves(window)
    yield from walks.over(window, folder)
    yield from walks.quick(window)
    yield from walks.sketch(window)
    yield from walks.menus(window)
    yield from walks.foot(window)
    yield from walks.sections(window)


def on_pages(window: "BookWindow") -> Iterator[Seen]:
    """Every section as it is turned to."""
    from tests.text_room import faults

    for place in walked(window):
        yield place, window, faults(window)


class Walk:
    """What is found on the way."""

    def __init__(self, language: str) -> None:
        self.language = language
        self.untold: dict[str, str] = {}
        self.cut: dict[str, str] = {}
        walk = (tempfile.gettempdir(), "Stay here", *words_of_walk())
        self.own = (*walk, *owners_words())
        self.typed = (*walk, *owners_words(typed=True))

    def look(self, place: str, shown: "QWidget", found: list[str]) -> None:
        """Note what is cut off and what is untold in one place."""
        from tests.text_room import TOO_WIDE

        for fault in found:
            passed = self.language == PSEUDO and is_slight(fault)
            if not passed and not fault.endswith(TOO_WIDE):
                self.cut.setdefault(fault, place)
        if self.language == PSEUDO:
            self._read(place, shown)

    def _read(self, place: str, shown: "QWidget") -> None:
        from tests.words_walk import words_of as words_in

        told = [*words_in(shown), *(("painted", text) for text in painted_words())]
        told += (("menu", text) for text in menu_words(shown))
        for path, text in told:
            if is_untold(text, self.typed if path.startswith("TextField") else self.own):
                self.untold.setdefault(text, f"{place} {path}")


def main() -> None:
    """Walk and print."""
    language, *more = sys.argv[1:]
    choose_language(Path("/nowhere/desk.ini"), {"LANGUAGE": language})
    walk = Walk(language)
    with tempfile.TemporaryDirectory() as folder:
        window = open_sample(Path(folder))
        steps = beside(window, Path(folder)) if "--beside" in more else on_pages(window)
        for place, shown, found in steps:
            walk.look(place, shown, found)
        window.close()
    sys.stdout.write(json.dumps({"untold": walk.untold, "cut": walk.cut}))


if __name__ == "__main__":
    main()
