"""What is told anew when the owner's units change: a `Teller` for each text that hangs on them.

What a plan or a record brings is told by `show_plan` and `retell`; a `Teller` is for what was said
once, when a page was made: captions, headings, names for the screen reader.
"""

from collections.abc import Callable, Sequence
from typing import Protocol, runtime_checkable

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QLabel, QTableWidget, QWidget
from shiboken6 import isValid

from lawnbook.desk.widgets import name_control
from lawnbook.reading import is_metric
from lawnbook.yard.amounts import unit_shown

Label = str | Callable[[], str]
"""Words, or what says them where they follow the owner's units."""


@runtime_checkable
class Retells(Protocol):
    """A widget that tells more than fixed texts by the units: what it holds, it tells anew."""

    def retell(self) -> None:
        """Tell what is shown in the owner's units; what is typed and unfinished stays."""


class Teller(QObject):
    """Says something of its owner's now, and again whenever the units change."""

    def __init__(self, owner: QObject, say: Callable[[], None]) -> None:
        super().__init__(owner)
        self.tell = say
        say()


def tell_anew(root: QWidget) -> None:
    """Say a widget and all below it in the units that are read in now: fixed texts first."""
    for teller in root.findChildren(Teller):
        # Telling may take the rows of a list away, and their tellers with them.
        if isValid(teller):
            teller.tell()
    for widget in (root, *root.findChildren(QWidget)):
        if isValid(widget) and isinstance(widget, Retells):
            widget.retell()


def follow(label: QLabel, words: Callable[[], str]) -> None:
    """Give a label words that follow the units."""
    Teller(label, lambda: label.setText(words()))


def follow_unit(label: QLabel, unit: str, before: str = "") -> None:
    """Give a label the name of a unit, after some words where it has some: "Width, ft"."""
    follow(label, lambda: captioned(before, unit))


def follow_name(widget: QWidget, object_name: str, words: Callable[[], str]) -> None:
    """Name a control for tests and for the screen reader, in words that follow the units."""
    Teller(widget, lambda: name_control(widget, object_name, words()))


def follow_heads(table: QTableWidget, heads: Callable[[], Sequence[str]]) -> None:
    """Give a table headings that follow the units."""
    Teller(table, lambda: table.setHorizontalHeaderLabels(list(heads())))


def follow_label(label: QLabel, words: Label) -> None:
    """Give a label words, or words that follow the units."""
    if callable(words):
        follow(label, words)
    else:
        label.setText(words)


def words_of(label: Label) -> str:
    """The words of a label, as they are in the owner's units now."""
    return label() if callable(label) else label


def either(us: str, metric: str) -> str:
    """The words for readers of one system of units or the other."""
    return metric if is_metric() else us


def captioned(words: str, unit: str) -> str:
    """A caption with the unit that the owner reads: "Width, ft", "Width, m"; unit "" for none."""
    shown = unit_shown(unit) if unit else ""
    return f"{words}, {shown}" if words and shown else words or shown
