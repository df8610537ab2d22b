"""Help: the manual, README.md, read inside the program, so that there is one manual only."""

from PySide6.QtWidgets import QWidget

from lawnbook.desk.help_text import Passage, passages_of
from lawnbook.desk.leaf_text import TextLeaf
from lawnbook.reading import reading, tr
from lawnbook.yard.places import manual


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
    return passages_of(text)
