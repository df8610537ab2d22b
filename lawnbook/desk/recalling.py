"""Where a notebook was left: page, section and day, found again when it is next opened."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from lawnbook.desk.settings import Settings
from lawnbook.desk.spread import TABS
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.numbers import day

if TYPE_CHECKING:
    from lawnbook.desk.window import BookWindow

FIRST_STEPS = "First steps"
_DIRECT = Qt.FindChildOption.FindDirectChildrenOnly


def first_page(book: OpenNotebook, settings: Settings) -> str:
    """The page a notebook opens at: where it was left, else its plugs, else the yard."""
    page = settings.place_of(book.path)[0]
    if page in (name for name, _ in TABS):
        return page
    return "Plugs" if book.notebook.cores else "Yard"


def recall(window: "BookWindow") -> None:
    """Have a window find its section and day again, and remember them when it is closed.

    Files that are dropped on it are taken once it is there.
    """
    window.opened.connect(lambda: _turn_back(window))
    window.opened.connect(lambda: _take_drops(window))
    window.closed.connect(lambda: _keep(window))


def give_keys(side: QWidget, start: QWidget | None) -> None:
    """Give the keyboard to the first control of a side that takes it, `start` before all."""
    for each in ([start] if start is not None else []) + side.findChildren(QWidget):
        takes_keys = each.focusPolicy() & Qt.FocusPolicy.TabFocus
        if takes_keys and each.isVisible() and each.isEnabled():
            each.setFocus(Qt.FocusReason.ShortcutFocusReason)
            return


def _take_drops(window: "BookWindow") -> None:
    from lawnbook.desk.dropping import WindowDrops

    WindowDrops(window)


def _turn_back(window: "BookWindow") -> None:
    page, section, on = window.settings.place_of(window.book.path)
    if page != window.place:
        return
    shown = window.page(page)
    # First steps lead for as long as they are under way: the yard page sees to that itself.
    if section in shown.sections.names and section != FIRST_STEPS:
        shown.turn_to(section)
    looked_at = _day_of(on)
    if looked_at is not None and looked_at != window.book.today:
        window.look_at(looked_at)
        told = tr(
            "Looking at {day}, as you left it. Ctrl+T leads back to today.", day=day(looked_at)
        )
        window.status.say(told)


def _keep(window: "BookWindow") -> None:
    """Keep page and section; the day only where it is not the day it is. Leaves go along."""
    for beside in window.findChildren(QWidget, options=_DIRECT):
        if beside.isVisible() and beside.objectName().startswith("leaf_"):
            beside.close()
    shown = window.stack.currentWidget()
    section = str(getattr(shown, "section", ""))
    on = "" if window.on == window.book.today else window.on.isoformat()
    window.settings.keep_place(window.book.path, window.place, section, on)


def _day_of(told: str) -> date | None:
    try:
        return date.fromisoformat(told)
    except ValueError:
        return None
