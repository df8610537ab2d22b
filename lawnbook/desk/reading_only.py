"""The quiet banner over the pages: why nothing can be entered, or that the file was changed.

It looks at the file when the window comes to the front and now and then: whether the notebook may
be written again, and whether another program has changed it underneath.
"""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Literal, cast

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtGui import QAction, QGuiApplication, QWindow
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QHBoxLayout,
    QMenu,
    QMenuBar,
    QVBoxLayout,
    QWidget,
)

from lawnbook.desk.dialogs import WayOn, ask, choose_elsewhere
from lawnbook.desk.widgets import LinkButton, Words, clear_layout, mark_role, name_control
from lawnbook.reading import tr
from lawnbook.session.held_pictures import unreadable_in
from lawnbook.store.sqlite_store import create
from lawnbook.store.stamps import conflict_copies
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.desk.window import BookWindow
    from lawnbook.session.open_notebook import OpenNotebook
    from lawnbook.yard.notebook import Notebook

EVERY_MS = 5_000
"""How often the file is looked at while its window is open: two questions to the system."""

EDITING = ("Shape", tr("Note something down…"))
"""Menus, and lines of menus, that are of no use where nothing can be entered."""

Way = tuple[str, str, Callable[[], object]]
"""A button of the banner: its words, its object name, and what it does."""
Taking = Literal["copy", "without", "stay"]


class Banner(QFrame):
    """One sentence across the window with its ways out; takes no room while there is none."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "file_banner", tr("About the notebook's file"))
        self.setProperty("role", "banner")
        self.words = Words("", "", self)
        self.words.setObjectName("file_banner_words")
        row = QHBoxLayout(self)
        row.setContentsMargins(24, 6, 20, 6)
        row.setSpacing(10)
        row.addWidget(self.words, 1)
        self._buttons = QHBoxLayout()
        self._buttons.setSpacing(6)
        row.addLayout(self._buttons)
        self._ways: tuple[str, ...] = ()
        self.hide()

    def say(self, sentence: str, ways: tuple[Way, ...] = ()) -> None:
        """Show a sentence and its buttons; none hides the banner."""
        self.words.setText(sentence)
        self.words.setAccessibleName(sentence)
        names = tuple(name for _, name, _ in ways)
        if names != self._ways:
            # Made anew only when they are others: a button that has the keyboard keeps it.
            self._ways = names
            clear_layout(self._buttons)
            for text, name, act in ways:
                button = LinkButton(text, name, self)
                button.clicked.connect(act)
                self._buttons.addWidget(button)
        self.setVisible(bool(sentence))


class FileWatch(QObject):
    """Looks after the file of an open book, and says in the banner what it found."""

    path_asked = Signal(object)

    def __init__(self, window: "BookWindow") -> None:
        super().__init__(window)
        self._window, self._book = window, window.book
        self.banner = Banner(window)
        self.rests = False  # while the owner is asked about the file
        self._note = ""
        self._before: Notebook | None = None
        self._copies: tuple[Path, ...] = ()
        self._put_by: frozenset[Path] = frozenset()
        self._said: tuple[object, ...] = ("", "same", "", 0, "", (), 0)
        self._refused = 0
        self._timer = QTimer(self)
        self._timer.setInterval(EVERY_MS)
        self._timer.timeout.connect(self.look)
        self._timer.start()
        self._book.subscribe(lambda _: self.refresh())
        app = QApplication.instance()
        if isinstance(app, QGuiApplication):
            app.focusWindowChanged.connect(self._came_to_front)

    def over(self, spread: QWidget) -> QWidget:
        """The banner and the book below it, as one."""
        both = QWidget(self._window)
        column = QVBoxLayout(both)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.banner)
        column.addWidget(spread, 1)
        return both

    def look(self) -> None:
        """See how the file is found, unless the owner is in the middle of something."""
        pressed = QApplication.mouseButtons().value
        in_between = self.rests or pressed or QApplication.activeModalWidget()
        if in_between or not self._window.isVisible():
            return
        was_read_only, before = bool(self._book.read_only), self._book.notebook
        self._copies = tuple(
            each for each in conflict_copies(self._book.path) if each not in self._put_by
        )
        if self._book.look() and not was_read_only:
            self._before = before
            self._note = tr(
                "Another program has changed {name}: this is what it holds now. What was done "
                "before cannot be undone.",
                name=self._book.path.name,
            )
        self.refresh()

    def refresh(self) -> None:
        """Say how things stand, where that is not said already."""
        book = self._book
        stands = (book.read_only, book.found, book.trouble, book.waiting, self._note, self._copies)
        if (*stands, book.refused) == self._said:
            return
        self._said = (*stands, book.refused)
        sentence, ways = self._told()
        is_refused = bool(book.read_only) and book.refused > self._refused
        self.banner.say(
            tr("Nothing was kept. {sentence}", sentence=sentence) if is_refused else sentence, ways
        )
        mark_role(self.banner.words, "strong" if is_refused else "")
        if not book.read_only:
            self._refused = book.refused
        for action in actions_of(self._window.menuBar(), EDITING):
            action.setEnabled(not book.read_only)

    def _told(self) -> tuple[str, tuple[Way, ...]]:
        again: Way = (tr("Try again"), "file_again", self.look)
        elsewhere: Way = (tr("Keep mine elsewhere…"), "file_elsewhere", self._window.move_out)
        copy: Way = (tr("Work on a copy…"), "file_copy", self._window.move_out)
        if self._book.read_only:
            return self._book.read_only, (again, copy)
        if self._book.found == "changed":
            if not self._book.waiting:
                return unreadable_told(self._book), (again, elsewhere)
            take: Way = (tr("Take the file’s version…"), "file_theirs", self.ask_theirs)
            return changed_told(self._book), (take, elsewhere)
        if self._note:
            old: Way = (tr("Keep what was here before…"), "file_before", self._keep_before)
            return self._note, (old, (tr("Hide"), "file_hide", self._hide_note))
        if self._copies:
            first = self._copies[0]
            return copies_told(self._copies), (
                (tr("Open it"), "file_open_copy", lambda: self.path_asked.emit(first)),
                (tr("Hide"), "file_hide_copies", self._hide_copies),
            )
        return "", ()

    def ask_theirs(self) -> None:
        """Take the file's version, once what is not in it is in a copy if the owner wants that."""
        taking = ask_taking(self._window, self._book.waiting)
        try:
            if taking == "copy":
                path = choose_elsewhere(self._window, self._book.path)
                if path is None:
                    return
                self._book.copy_to(path)
            if taking != "stay":
                self._book.take_theirs()
        except OwnerError as problem:
            self._window.status.say(str(problem), "refuse")

    def _keep_before(self) -> None:
        """Write what this window held before the other program's version to a file of its own."""
        path = choose_elsewhere(self._window, self._book.path)
        if path is None or self._before is None:
            return
        try:
            create(path, self._before, also=unreadable_in(self._before))
        except OwnerError as problem:
            self._window.status.say(str(problem), "refuse")
            return
        self._hide_note()
        self._window.status.say(tr("Written: {path}", path=path))

    def _hide_note(self) -> None:
        self._note, self._before = "", None
        self.refresh()

    def _hide_copies(self) -> None:
        self._put_by |= frozenset(self._copies)
        self._copies = ()
        self.refresh()

    def _came_to_front(self, front: QWindow | None) -> None:
        if front is not None and front is self._window.windowHandle():
            self.look()


def actions_of(bar: QMenuBar, names: tuple[str, ...]) -> list[QAction]:
    """The menus, and the lines in them, of these names."""
    held = bar.actions()
    for menu in bar.findChildren(QMenu):
        held += menu.actions()
    return [each for each in dict.fromkeys(held) if each.text().replace("&", "") in names]


def changed_told(book: "OpenNotebook") -> str:
    """That the file and what was entered here went different ways."""
    waits = (
        tr("1 change made here is")
        if book.waiting == 1
        else tr("{waiting} changes made here are", waiting=book.waiting)
    )
    return tr(
        "Another program has changed {name}, and {waits} not in it. Nothing was written over.",
        name=book.path.name,
        waits=waits,
    )


def unreadable_told(book: "OpenNotebook") -> str:
    """That the file cannot be read as another program has left it, while all is here still."""
    why = book.trouble.removeprefix(f"{book.path.name}: ").split(";")[0].rstrip(".")
    return tr(
        "Another program has changed {name}, which cannot be read now ({why}). This "
        "window still holds all that was in it.",
        name=book.path.name,
        why=why,
    )


def copies_told(copies: tuple[Path, ...]) -> str:
    """That a sync program has laid a copy beside the notebook."""
    more = tr(" and {count} more", count=len(copies) - 1) if len(copies) > 1 else ""
    return tr(
        "Beside this notebook lies {name}{more}: two machines changed it at the same "
        "time. Look at what it holds before you delete it.",
        name=copies[0].name,
        more=more,
    )


def ask_taking(parent: QWidget, waiting: int) -> Taking:
    """Ask whether what is not in the file goes into a copy before the file's version is taken.

    Asked, not done and offered back: what waits lies on no disk, and once the file's version is
    taken a crash would take it for good.
    """
    one = waiting == 1
    missing = (
        tr("1 change is not in the file.")
        if one
        else tr("{count} changes are not in the file.", count=waiting)
    )
    lost = (
        tr(
            "The file’s version knows nothing of it. A copy keeps the notebook as it is here, so "
            "that you can look things up in it."
        )
        if one
        else tr(
            "The file’s version knows nothing of them. A copy keeps the notebook as it is here, so "
            "that you can look things up in it."
        )
    )
    ways = (
        WayOn("copy", tr("Keep a copy first…"), "go"),
        WayOn("without", tr("Take it without a copy"), "lose"),
        WayOn("stay", tr("Stay here"), "stay"),
    )
    return cast(Taking, ask(parent, "taking_theirs", (missing, lost), ways, "copy"))
