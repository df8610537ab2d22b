"""What a screen reader calls the widgets that Qt has no word for: pictures, the sketch, the strip.

Qt knows a widget by the class it stems from; one that paints itself is a "client" to it, which
says nothing. `hear_as` notes a role on the widget, and a factory gives Qt's own interface
(`QAccessibleWidget`) that role. Qt keeps the interface and lets it go with its widget; nobody here
holds one, for an interface that outlives its widget ends the process.

While a screen reader listens, Qt asks for the interface as soon as a widget is named: a role that
is noted later is never heard.
"""

from collections.abc import Callable
from functools import cache, partial
from typing import Literal

from PySide6.QtCore import QObject, Qt, QTimer
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QComboBox, QLabel, QWidget

Heard = Literal[
    "Canvas",
    "Chart",
    "Dialog",
    "Graphic",
    "Grouping",
    "ListItem",
    "PageTabList",
    "Slider",
    "SpinBox",
    "Window",
]
"""Roles by their names in `QAccessible.Role`."""

_NOTE = "heard_as"


def hear_as(widget: QWidget, role: Heard) -> None:
    """Have screen readers call a widget by a role; before it is named."""
    widget.setProperty(_NOTE, role)


def grouping(parent: QWidget | None = None) -> QWidget:
    """A plain widget that is heard as the group of what stands in it, once it is named."""
    made = QWidget(parent)
    hear_as(made, "Grouping")
    return made


def one_of_several(button: QAbstractButton, choose: Callable[[], object]) -> None:
    """Make a button one of an exclusive group: heard as such, and chosen by whoever presses it.

    A screen reader's own way of pressing switches the button without a click. What the program
    checks by itself is to be done with the button's signals blocked.
    """
    button.setCheckable(True)
    # In a group of buttons it changes nothing but what a screen reader calls the button.
    button.setAutoExclusive(True)
    switched = False

    def pressed() -> None:
        nonlocal switched
        switched = False

    def toggled(on: bool) -> None:
        nonlocal switched
        if on:
            switched = True
            choose()

    def clicked() -> None:
        if not switched:
            choose()

    button.pressed.connect(pressed)
    button.toggled.connect(toggled)
    button.clicked.connect(clicked)


def check_quietly(button: QAbstractButton, *, on: bool = True) -> None:
    """Check a button, or not, by the program: nobody is told."""
    held = button.blockSignals(True)
    button.setChecked(on)
    button.blockSignals(held)


def lead_tab_to(group: QButtonGroup) -> None:
    """Let Tab lead to the chosen button of an exclusive group; arrows lead from there.

    Qt leads it to the one that had the keyboard last, which may be hidden by now.
    """
    chosen = group.checkedButton()
    for button in group.buttons():
        by_tab = button is chosen or chosen is None
        button.setFocusPolicy(Qt.FocusPolicy.StrongFocus if by_tab else Qt.FocusPolicy.ClickFocus)


def label_unseen(box: QComboBox) -> None:
    """Give a box the label that it is called by, where none stands beside it.

    On Linux a screen reader hears a box by its value, and its name by its label alone.
    """
    labels = box.window().findChildren(QLabel)
    if box.accessibleName() and not any(each.buddy() is box for each in labels):
        label = QLabel(box)
        label.setObjectName("unseen_label")
        label.setAccessibleName(box.accessibleName())
        label.setBuddy(box)
        label.hide()


def announce(widget: QWidget, words: str, *, urgent: bool = False) -> None:
    """Have a screen reader say something, where one listens; at once where it is urgent."""
    # Imported here, Qt's binding loads eight kinds of enums with it.
    from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent

    if QAccessible.isActive():
        event = QAccessibleAnnouncementEvent(widget, words)
        if urgent:
            event.setPoliteness(QAccessible.AnnouncementPoliteness.Assertive)
        QAccessible.updateAccessibility(event)


@cache
def give_roles() -> None:
    """Have Qt tell screen readers these roles from now on; once for the program."""
    # Imported here: Qt's binding loads eight kinds of enums with it.
    from PySide6.QtGui import QAccessible, QAccessibleInterface
    from PySide6.QtWidgets import QAccessibleWidget

    def made(_class_name: str, owner: QObject) -> QAccessibleInterface | None:
        if isinstance(owner, QComboBox):
            # Not at once: it may not have its label or its place in the window yet.
            QTimer.singleShot(0, owner, partial(label_unseen, owner))
        role = owner.property(_NOTE) if isinstance(owner, QWidget) else None
        if role is None or not isinstance(owner, QWidget):
            return None
        return QAccessibleWidget(owner, QAccessible.Role[role], "")

    QAccessible.installFactory(made)
