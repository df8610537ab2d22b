"""The application: which windows are open, and how a notebook comes into one."""

import importlib
import os
import signal
import socket
import sys
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, QSocketNotifier, QTimer
from PySide6.QtWidgets import QApplication

from lawnbook.desk.beside import Beside
from lawnbook.desk.copy_keeping import CopyKeeper
from lawnbook.desk.dialogs import choose_open, file_stem, tell
from lawnbook.desk.icons import window_icon
from lawnbook.desk.looks import Looks, ThemeName
from lawnbook.desk.mishap import Mishaps
from lawnbook.desk.reader import follow_system
from lawnbook.desk.roles import give_roles
from lawnbook.desk.settings import Settings
from lawnbook.desk.theme import application, apply_looks
from lawnbook.desk.ways_back import WaysBack
from lawnbook.desk.welcome import WelcomeWindow
from lawnbook.desk.window import BookWindow
from lawnbook.reading import ENGLISH, reading, tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.backups import backups_folder
from lawnbook.store.files import NOTEBOOK_SUFFIX, YARD_SUFFIX
from lawnbook.store.handover_names import HANDOVER_SUFFIX
from lawnbook.yard.notebook import Notebook, new_notebook
from lawnbook.yard.places import is_sample
from lawnbook.yard.problems import OwnerError, Problem, in_one_line

_MOST_QUESTIONS = 5
KEEP_AFTER_MS = 2000
"""When an opened book is looked at for a copy: once it has been painted whole."""


class Desk(QObject):
    """What lies on the desk: the welcome page or one book, and the way from one to the other."""

    def __init__(
        self, app: QApplication, settings: Settings, today: date, copies: Path | None = None
    ) -> None:
        """A desk without anything on it; earlier copies are kept in `copies`, if it is given."""
        super().__init__(app)
        self._app, self._settings, self._today = app, settings, today
        self.keeper = CopyKeeper(copies, _now, self)
        self.keeper.told.connect(self._say)
        self._ways_back = WaysBack(self, copies, _now, self)
        self._ways_back.told.connect(self._say)
        self._loading = Beside(self)
        self._welcome: WelcomeWindow | None = None
        self._window: BookWindow | None = None

    @property
    def window(self) -> BookWindow | None:
        """The book that is open, or None."""
        return self._window

    @property
    def welcome(self) -> WelcomeWindow | None:
        """The welcome page where it is shown, or None."""
        return self._welcome

    def show_welcome(self, sentence: str = "") -> None:
        """Show the first page, with a sentence about what went wrong if there is one."""
        if self._welcome is None:
            page = WelcomeWindow(self._settings)
            page.new_asked.connect(self.begin)
            page.open_asked.connect(self.ask_open)
            page.path_asked.connect(self.open)
            page.sample_asked.connect(self.open_sample)
            self._welcome = page
        self._welcome.refresh()
        self._welcome.say(sentence)
        self._welcome.show()

    def begin(self, name: str) -> None:
        """Begin a yard of this name in the chosen folder."""
        self.create(new_notebook(name, reading().units), name, self._settings.folder)

    def open(self, path: Path) -> bool:
        """Open a notebook; a yard file becomes a new notebook beside it. Whether it is open now.

        A sample, a handover, and a yard file in a folder that may not be written to, becomes one
        in the owner's own folder.
        """
        if path.suffix.lower() == HANDOVER_SUFFIX:
            return self._copy(path, self._settings.folder)
        if path.suffix.lower() == YARD_SUFFIX:
            beside = path.absolute().parent
            own = is_sample(path) or not os.access(beside, os.W_OK)
            return self._copy(path, self._settings.folder if own else beside)
        if self._window is not None and path.absolute() == self._window.book.path.absolute():
            self._window.activateWindow()
            return True
        stamp = self.keeper.before(path)
        try:
            book = OpenNotebook.open(path, self._today)
        except OwnerError as problem:
            self._trouble(str(problem))
            front = self._window or self._welcome
            if front is not None:
                self._ways_back.offer_rescue(path, problem, front)
            return False
        shown = self._show(book)
        if shown and self._window is not None and not book.read_only:
            held = book.notebook
            later = partial(self.keeper.begun, path, stamp, held)
            QTimer.singleShot(KEEP_AFTER_MS, self._window, later)
        return shown

    def open_sample(self, path: Path) -> None:
        """Open a copy of an invented yard, as it stands today whatever the clock says."""
        self._copy(path, self._settings.folder)

    def ask_open(self) -> None:
        """Ask for a file and open it."""
        parent = self._window or self._welcome
        path = choose_open(parent, self._settings.folder) if parent else None
        if path is not None and self.open(path):
            self._settings.folder = path.parent

    def set_theme(self, name: ThemeName) -> None:
        """Dress every window anew in a theme, and remember it."""
        self.set_looks(replace(self._settings.looks, theme=name))

    def set_looks(self, looks: Looks) -> None:
        """Dress every window anew, and remember it."""
        self._settings.looks = looks
        apply_looks(self._app, looks)

    def _copy(self, path: Path, folder: Path) -> bool:
        from lawnbook.store.yardfile import load_checked

        try:
            checked = load_checked(path, self._today)
        except OwnerError as problem:
            self._trouble(str(problem))
            return False
        shown = self.create(checked.notebook, checked.notebook.yard.name, folder)
        if shown and self._window is not None:
            if path.suffix.lower() == HANDOVER_SUFFIX:
                tell(self._window, tr("Lawnbook"), copy_told(path, self._window.book.path))
            elif checked.questions:
                tell(self._window, tr("Lawnbook"), questions_told(path, checked.questions))
        return shown

    def create(self, notebook: Notebook, name: str, folder: Path) -> bool:
        """Write a notebook into a folder, under a name that is free, and open it."""
        try:
            folder.mkdir(parents=True, exist_ok=True)
            path = free_path(folder, name)
            book = OpenNotebook.create(path, notebook, self._today)
        except OSError as error:
            self._trouble(
                tr(
                    "{folder} cannot be used ({strerror}); choose another folder.",
                    folder=folder,
                    strerror=error.strerror,
                )
            )
        except OwnerError as problem:
            self._trouble(str(problem))
        else:
            return self._show(book)
        return False

    def _show(self, book: OpenNotebook) -> bool:
        """Open the book in a window; the one that was open closes first, or nothing happens."""
        if not self._close_window():
            book.close()
            return False
        self._settings.remember(book.path)
        window = BookWindow(book, self._settings)
        window.closed.connect(self._forget)
        window.new_asked.connect(self.show_welcome)
        window.open_asked.connect(self.ask_open)
        window.sample_asked.connect(self.open_sample)
        window.watch.path_asked.connect(self.open)
        window.theme_asked.connect(self.set_theme)
        window.copies_asked.connect(self._show_copies)
        self._window = window
        window.show()
        if self._welcome is not None:
            self._welcome.close()
            self._welcome.deleteLater()
            self._welcome = None
        QTimer.singleShot(0, window, self._load_charts)
        return True

    def _load_charts(self) -> None:
        self._loading.start(lambda _: load_charts(), lambda _: None)

    def _close_window(self) -> bool:
        """Close the open book, if it lets itself be closed, without ending the program."""
        if self._window is None:
            return True
        self._app.setQuitOnLastWindowClosed(False)
        try:
            return self._window.close()
        finally:
            self._app.setQuitOnLastWindowClosed(True)

    def finish(self) -> None:
        """Wait until the last copy is written."""
        self.keeper.finish()
        self._ways_back.finish()
        self._loading.finish()

    def _show_copies(self) -> None:
        if self._window is not None:
            book = self._window.book
            self._ways_back.show_copies(book.path, self._window, book)

    def _say(self, sentence: str) -> None:
        """Say something at the foot of the page, where it is in nobody's way."""
        if self._window is not None:
            self._window.status.say(sentence, "ask")
        elif self._welcome is not None:
            self._welcome.say(sentence)

    def _forget(self) -> None:
        if self._window is not None:
            if not self._window.book.read_only:
                self.keeper.ended(self._window.book.path)
            self._window.deleteLater()
            self._window = None

    def _trouble(self, sentence: str) -> None:
        if self._window is not None:
            tell(self._window, tr("Lawnbook"), sentence)
        else:
            self.show_welcome(sentence)


class Interrupts(QObject):
    """Ctrl+C in the terminal closes the windows as their own buttons would.

    Python runs its signal handlers only between two of its own steps, and Qt waits outside of
    them: the byte that the signal puts into a socket is what wakes Qt.
    """

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self._read, self._write = socket.socketpair()
        for end in (self._read, self._write):
            end.setblocking(False)
        self._notifier = QSocketNotifier(self._read.fileno(), QSocketNotifier.Type.Read, self)
        self._notifier.activated.connect(self._woken)
        self._before = signal.signal(signal.SIGINT, lambda *_: None)
        signal.set_wakeup_fd(self._write.fileno())

    def end(self) -> None:
        """Leave the signal as it was."""
        self._notifier.setEnabled(False)
        signal.set_wakeup_fd(-1)
        signal.signal(signal.SIGINT, self._before)
        self._read.close()
        self._write.close()

    def _woken(self) -> None:
        if signal.SIGINT in self._read.recv(64):
            QApplication.closeAllWindows()


def run(path: Path | None) -> int:
    """Open the window on a notebook or, without one, the welcome page; the exit status."""
    app = _application()
    follow_system()
    settings = Settings()
    apply_looks(app, settings.looks)
    give_roles()
    follow = partial(_follow_system, app, settings)
    app.styleHints().colorSchemeChanged.connect(lambda _: follow())
    app.styleHints().accessibility().contrastPreferenceChanged.connect(lambda _: follow())
    mishaps = Mishaps(app)
    mishaps.start()
    interrupts = Interrupts(app)
    desk = Desk(app, settings, _now().date(), backups_folder())
    if sys.platform == "darwin":
        from lawnbook.desk.file_opens import FileOpens

        FileOpens(app, desk.open)
    if path is None:
        desk.show_welcome()
    else:
        desk.open(path)
    status = app.exec()
    desk.finish()
    mishaps.end()
    interrupts.end()
    return status


def free_path(folder: Path, name: str) -> Path:
    """A notebook's path of this name that does not exist yet; letters no system refuses."""
    stem = file_stem(name) or "Yard"
    path = folder / f"{stem}{NOTEBOOK_SUFFIX}"
    number = 2
    while path.exists():
        path = folder / f"{stem} {number}{NOTEBOOK_SUFFIX}"
        number += 1
    return path


def copy_told(path: Path, copy: Path) -> str:
    """That a handover was read into a notebook of the owner's own, and where it is."""
    return tr(
        "This is a copy of your own: {copy}\n\n{name} stays as it is.", copy=copy, name=path.name
    )


def questions_told(path: Path, questions: Sequence[Problem]) -> str:
    """What a yard file holds that looks like a slip: it was kept, and can be mended in the book."""
    shown = [in_one_line(each) for each in questions[:_MOST_QUESTIONS]]
    more = len(questions) - len(shown)
    shown += (
        [tr("And {more} more like these.", more=more) if more > 1 else tr("And one more.")]
        if more
        else []
    )
    return "\n\n".join([tr("{name} was read. Please look at this again:", name=path.name), *shown])


def load_charts() -> None:
    """Load matplotlib now that the window has been painted, so that the first chart is quick."""
    importlib.import_module("lawnbook.charts.figures")


def _now() -> datetime:
    return datetime.now().astimezone()


def _application() -> QApplication:
    held = QApplication.instance()
    app = held if isinstance(held, QApplication) else application("lawnbook")
    app.setApplicationName("lawnbook")
    app.setApplicationDisplayName("Lawnbook")
    app.setDesktopFileName("lawnbook")
    app.setWindowIcon(window_icon())
    if reading().language != ENGLISH and held is None:
        from lawnbook.desk.qt_words import translate_qt

        translate_qt(app)
    return app


def _follow_system(app: QApplication, settings: Settings) -> None:
    if settings.theme == "system":
        apply_looks(app, settings.looks)
