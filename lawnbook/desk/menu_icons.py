"""Which entries of the menus bear an icon; it is painted when the menu is first opened."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu

from lawnbook.desk.icons import icon
from lawnbook.reading import tr

if TYPE_CHECKING:
    from lawnbook.desk.window import BookWindow

ICONS: Mapping[str, str] = MappingProxyType(
    {
        "&New yard…": "new",
        "&Open…": "open",
        "Open a &sample": "sample",
        "&Print the sheet…": "print",
        "&Save the sheet as PDF…": "save",
        "Save the c&alendar…": "calendar",
        "&Export a yard file…": "export",
        "Ea&rlier copies…": "copies",
        "&Close": "close",
        "&Note something down…": "note",
        "Look at another &day": "day",
        "&Units": "units",
        "Loo&k": "look",
        "&High contrast": "contrast",
        "La&rger text": "larger",
        "S&maller text": "smaller",
    }
)
"""The icon of an entry by its English text."""
LEAF_ICONS = ("help", "glossary", "keys", "news", "settings", "about")
"""Leaves whose icon has their own name."""


def dress_menus(window: "BookWindow") -> None:
    """Give the entries of a window's menus their icons whenever a menu opens."""
    for menu in window.menuBar().findChildren(QMenu):
        menu.aboutToShow.connect(lambda menu=menu: _dress(window, menu))


def _dress(window: "BookWindow", menu: QMenu) -> None:
    """The icons in the theme and size of now; a menu without any stays without their column."""
    for action in menu.actions():
        name = _icon_of(window, action)
        if name and not action.isCheckable():
            action.setIcon(icon(name, in_menu=True))


def _icon_of(window: "BookWindow", action: QAction) -> str:
    if action is window.undo_action:
        return "undo"
    if action is window.redo_action:
        return "redo"
    leaf = action.objectName().removeprefix("open_")
    if leaf in LEAF_ICONS and action.objectName() != leaf:
        return leaf
    text = action.text()
    return next((name for words, name in ICONS.items() if text in (words, tr(words))), "")
