"""What a screen reader calls the widgets that Qt has no word for: pictures, the sketch, the strip.

Qt knows a widget by the class it stems from; one that paints itself is a "client" to it, which
says nothing. `hear_as` notes a role on the widget, and a factory gives Qt's own interface
(`QAccessibleWidget`) that role. Qt keeps the interface and lets it go with its widget; nobody here
holds one, for an interface that outlives its widget ends the process.
"""

from functools import cache
from typing import Literal

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

Heard = Literal[
    "Canvas", "Chart", "Graphic", "Grip", "Grouping", "ListItem", "PageTabList", "Slider", "SpinBox"
]
"""Roles by their names in `QAccessible.Role`."""

_NOTE = "heard_as"


def hear_as(widget: QWidget, role: Heard) -> None:
    """Have screen readers call a widget by a role; before it is first shown."""
    widget.setProperty(_NOTE, role)


def announce(widget: QWidget, words: str) -> None:
    """Have a screen reader say something, where one listens."""
    # Imported here, Qt's binding loads eight kinds of enums with it.
    from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent

    if QAccessible.isActive():
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(widget, words))


@cache
def give_roles() -> None:
    """Have Qt tell screen readers these roles from now on; once for the program."""
    # Imported here: Qt's binding loads eight kinds of enums with it.
    from PySide6.QtGui import QAccessible, QAccessibleInterface
    from PySide6.QtWidgets import QAccessibleWidget

    def made(_class_name: str, owner: QObject) -> QAccessibleInterface | None:
        role = owner.property(_NOTE) if isinstance(owner, QWidget) else None
        if role is None or not isinstance(owner, QWidget):
            return None
        return QAccessibleWidget(owner, QAccessible.Role[role], "")

    QAccessible.installFactory(made)
