"""The leaves beside the book: Settings, Help, Glossary, Keys, What's new, About; one at a time.

A leaf is loaded when it is first asked for: no start waits for one.
"""

from collections.abc import Mapping
from importlib import import_module
from types import MappingProxyType
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QWidget

from lawnbook.reading import tr

if TYPE_CHECKING:
    from lawnbook.desk.leaf import Leaf

LEAVES: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "help": ("leaf_help", "HelpLeaf"),
        "glossary": ("leaf_glossary", "GlossaryLeaf"),
        "keys": ("leaf_keys", "KeysLeaf"),
        "news": ("leaf_news", "NewsLeaf"),
        "settings": ("leaf_settings", "SettingsLeaf"),
        "about": ("leaf_about", "AboutLeaf"),
    }
)
"""Every kind of leaf, with the module and the class that make it."""

KEYS_OF_LEAVES: Mapping[str, str] = MappingProxyType(
    {"help": "F1", "keys": "Shift+F1", "glossary": "Ctrl+F1", "settings": "Ctrl+,"}
)
"""The key that opens a leaf, of those that have one."""


def leaf_titles() -> Mapping[str, str]:
    """The name of each leaf, as its title and in the menu."""
    return {
        "help": tr("Help"),
        "glossary": tr("Glossary"),
        "keys": tr("Keys"),
        "news": tr("What’s new"),
        "settings": tr("Settings"),
        "about": tr("About Lawnbook"),
    }


def open_leaf(host: QWidget, kind: str, section: str = "") -> "Leaf":
    """Open a leaf beside a window, at a section if one is named; any other there is put away.

    `host` is the window of a book or the welcome page; both have `settings`. KeyError for a kind
    that is none. A section that is not there opens the leaf where it begins.
    """
    from lawnbook.desk.leaf import Leaf

    module, name = LEAVES[kind]
    held: Leaf | None = None
    for each in host.findChildren(Leaf):
        if each.kind == kind:
            held = each
        elif each.isVisible():
            each.close()
    if held is None:
        made: Leaf = getattr(import_module(f"lawnbook.desk.{module}"), name)(host)
        held = made
    held.open_at(section)
    return held


def add_leaf_actions(host: QWidget, menu: QMenu | None, kinds: tuple[str, ...]) -> None:
    """Give a window the actions that open leaves, in a menu or by their keys alone."""
    titles = leaf_titles()
    for kind in kinds:
        words = f"&{titles[kind]}"
        action = QAction(f"{words}…" if kind == "settings" else words, host)
        action.setObjectName(f"open_{kind}")
        if kind in KEYS_OF_LEAVES:
            action.setShortcut(QKeySequence(KEYS_OF_LEAVES[kind]))
        action.triggered.connect(lambda _=False, kind=kind: open_leaf(host, kind))
        if menu is not None:
            menu.addAction(action)
        else:
            host.addAction(action)
