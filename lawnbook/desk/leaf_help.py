"""Help: the manual, README.md, read inside the program, so that there is one manual only."""

import re
from dataclasses import replace
from html import escape

from PySide6.QtWidgets import QWidget

from lawnbook.desk.help_text import Passage, passages_of
from lawnbook.desk.leaf_text import TextLeaf
from lawnbook.reading import reading, tr
from lawnbook.yard.glossary import glossary
from lawnbook.yard.places import manual

MOST_TERMS = 8
"""How many terms of the glossary a passage leads to at most."""
_BETWEEN = re.compile(r"[^\w-]+")
"""What parts words in any language."""


class HelpLeaf(TextLeaf):
    """The sections of the manual by name; the list of First steps in a passage for each page."""

    def __init__(self, host: QWidget) -> None:
        super().__init__("help", host)

    def read_passages(self) -> tuple[Passage, ...]:
        """The manual in the owner's language where it is written in it, else in English."""
        return help_passages(reading().language)


def help_passages(language: str) -> tuple[Passage, ...]:
    """The passages of the manual; one that says so where there is none."""
    try:
        text = manual(language).read_text(encoding="utf-8")
    except OSError:
        told = tr("The manual is missing from this installation; it is README.md of the project.")
        return (Passage(key="missing", title=tr("Help"), html=f"<p>{told}</p>", plain=told),)
    return tuple(_with_terms(each) for each in passages_of(text))


def _with_terms(passage: Passage) -> Passage:
    """A passage with links to the terms of the glossary that it uses, in the order of their names.

    Only the words before a bracket count: "Plug (core)" is found as "plug".
    """
    words = f" {_BETWEEN.sub(' ', passage.plain.casefold())} "
    used = [
        term
        for term in glossary()
        if re.search(rf" {re.escape(term.name.partition(' (')[0].casefold())}s? ", words)
    ]
    if not used:
        return passage
    links = [f'<a href="glossary:{term.key}">{escape(term.name)}</a>' for term in used[:MOST_TERMS]]
    told = f'<p class="quiet">{escape(tr("In the glossary:"))} {", ".join(links)}</p>'
    return replace(passage, html=passage.html + told)
