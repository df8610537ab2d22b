"""A walk through all that can be reached on the desk, for the tests of access."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Protocol, cast

from PySide6.QtCore import QCoreApplication, QEvent, QMetaMethod, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractScrollArea,
    QApplication,
    QComboBox,
    QHeaderView,
    QScrollBar,
    QWidget,
)

from lawnbook.desk.pages.feed import SECTIONS as FEED
from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.pages.plugs import SECTIONS as PLUGS
from lawnbook.desk.pages.season import SECTIONS as SEASON
from lawnbook.desk.pages.sheet import SECTIONS as SHEET
from lawnbook.desk.pages.water import SECTIONS as WATER
from lawnbook.desk.pages.yard import SECTIONS as YARD
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Notebook

PLACES = {
    "Yard": YARD,
    "Plugs": PLUGS,
    "Water": WATER,
    "Feed": FEED,
    "Season": SEASON,
    "Sheet": SHEET,
}
"""The pages with their sections."""
SHORT_NAME = 2
"""A name of fewer letters says too little by itself."""
SENTENCE = 24
"""A picture's name of so many letters is its description too."""
SAYS_NOTHING = frozenset(
    {
        QAccessible.Role.NoRole,
        QAccessible.Role.Client,
        QAccessible.Role.Border,
        QAccessible.Role.Pane,
        QAccessible.Role.Whitespace,
    }
)
"""Roles that do not say what a control is."""
DECOR = frozenset({"BookSpread", "TurfStrip", "MovingLine", "Veil", "QuietPage", "WelcomeWindow"})
"""Classes whose painting says nothing that words do not say: paper, desk, fold, a running line."""


class Sectioned(Protocol):
    """A page with sections."""

    def turn_to(self, section: str) -> None:
        """Show one of them."""


def settle(rounds: int = 6) -> None:
    """Let everything that was put off happen: plans, charts, deletions."""
    for _ in range(rounds):
        QApplication.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def opened(folder: Path, notebook: Notebook, today: date) -> BookWindow:
    """A notebook in a window of the usual size, shown."""
    book = OpenNotebook.create(folder / "walked.lawnbook", notebook, today)
    window = BookWindow(book, Settings(folder / "desk.ini"))
    window.resize(1440, 900)
    window.show()
    window.activateWindow()
    settle()
    return window


def turn(window: BookWindow, page: str, section: str) -> QWidget:
    """Turn to a section of a page and open all its folds; the page."""
    window.turn_to(page)
    shown: QWidget = window.page(page)
    cast(Sectioned, shown).turn_to(section)
    settle()
    for fold in shown.findChildren(Fold):
        if fold.isVisible():
            fold.unfold()
    settle()
    return shown


def places(window: BookWindow) -> Iterator[tuple[str, QWidget]]:
    """Every section of every page in turn, with all its folds open."""
    for page, sections in PLACES.items():
        for section in sections:
            yield f"{page}: {section}", turn(window, page, section)


def is_part(widget: QWidget) -> bool:
    """Whether a widget is a part that Qt makes of a control of ours: its viewport, list, bars."""
    above = widget.parentWidget()
    if isinstance(widget, QScrollBar | QHeaderView) or widget.objectName().startswith("qt_"):
        return True
    if isinstance(above, QAbstractScrollArea) and above.viewport() is widget:
        return True
    while above is not None and not above.isWindow():
        if isinstance(above, QAbstractItemView | QComboBox):
            return True
        above = above.parentWidget()
    return False


def has_of_ours(widget: QWidget, method: str) -> bool:
    """Whether a class of ours has a method of its own in the place of Qt's."""
    return any(
        method in each.__dict__
        for each in type(widget).__mro__
        if each.__module__.startswith("lawnbook")
    )


def is_control(widget: QWidget) -> bool:
    """Whether a widget is something the owner works with, by keys or by the mouse."""
    reached = bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus)
    pressed = has_of_ours(widget, "mousePressEvent") and not widget.testAttribute(
        Qt.WidgetAttribute.WA_TransparentForMouseEvents
    )
    return reached or isinstance(widget, QAbstractButton) or pressed


def shown_in(root: QWidget) -> list[QWidget]:
    """What is shown in a widget, with itself, without the parts that Qt makes."""
    all_in = [root, *root.findChildren(QWidget)]
    return [each for each in all_in if each.isVisible() and not is_part(each)]


def controls(root: QWidget) -> list[QWidget]:
    """What can be worked with now in a widget."""
    return [each for each in shown_in(root) if is_control(each)]


def is_picture(widget: QWidget) -> bool:
    """Whether what is seen is painted: without words it says nothing to who cannot see it.

    A frame round other controls is none: those speak for themselves.
    """
    if type(widget).__name__ == "FigureCanvasQTAgg":
        return True
    if isinstance(widget, QAbstractButton) or type(widget).__name__ in DECOR:
        return False
    if not has_of_ours(widget, "paintEvent"):
        return False
    return is_control(widget) or not any(is_control(each) for each in widget.findChildren(QWidget))


def told(widget: QWidget) -> str:
    """A widget as a failing test names it."""
    return f"{type(widget).__name__} {widget.objectName()!r}"


def role_of(widget: QWidget) -> QAccessible.Role:
    """What a screen reader calls a widget; the interface is let go at once."""
    return QAccessible.queryAccessibleInterface(widget).role()


def waits_for_clicks(widget: QWidget) -> bool:
    """Whether something stays down or is ticked, but is heeded at a click only.

    A screen reader switches it and clicks nothing. `one_of_several` heeds both.
    """
    if not isinstance(widget, QAbstractButton) or not widget.isCheckable():
        return False
    clicked, toggled = (QMetaMethod.fromSignal(each) for each in (widget.clicked, widget.toggled))
    return widget.isSignalConnected(clicked) and not widget.isSignalConnected(toggled)


def faults_of(widget: QWidget) -> Iterator[str]:
    """What keeps one control or picture from being understood without seeing it."""
    name, words = widget.accessibleName(), widget.accessibleDescription()
    if not widget.objectName():
        yield "has no object name"
    if not name:
        yield "has no accessible name"
    elif len(name) < SHORT_NAME and not words:
        yield f"says no more than {name!r}"
    if role_of(widget) in SAYS_NOTHING:
        yield f"has the role {role_of(widget).name}"
    if waits_for_clicks(widget):
        yield "is switched by clicks alone"
    if is_picture(widget) and not words and len(name) < SENTENCE:
        yield "is a picture without a description"


def group_of(widget: QWidget) -> str:
    """The name of the nearest group round a control, which a screen reader tells on entering."""
    above = widget.parentWidget()
    while above is not None and not above.isWindow():
        if above.accessibleName() and role_of(above) == QAccessible.Role.Grouping:
            return above.accessibleName()
        above = above.parentWidget()
    return ""


def twins(found: list[QWidget]) -> Iterator[str]:
    """Controls of one name in one group, where nothing tells the one from the other."""
    seen: dict[tuple[str, ...], QWidget] = {}
    for each in found:
        key = (
            type(each).__name__,
            each.accessibleName(),
            each.accessibleDescription(),
            group_of(each),
        )
        if key in seen:
            yield f"{told(each)} is called {key[1]!r} like {told(seen[key])}"
        seen.setdefault(key, each)


def faults(root: QWidget) -> list[str]:
    """All that is wrong with the controls in a widget, and with its pictures.

    A screen reader says that another window has come by its role.
    """
    found = controls(root)
    spoken = [each for each in shown_in(root) if each in found or is_picture(each)]
    wrong = [f"{told(each)} {fault}" for each in spoken for fault in faults_of(each)]
    ours = type(root).__module__.startswith("lawnbook") and root.isWindow()
    if ours and role_of(root) in SAYS_NOTHING:
        wrong.append(f"{told(root)} is a window with the role {role_of(root).name}")
    return [*wrong, *twins(found)]
