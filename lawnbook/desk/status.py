"""The line at the foot of the page: whether all is on disk, and what undo would take back."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QWidget

from lawnbook.desk.dialogs import pictures_lost_told, tell
from lawnbook.desk.motion import fade_in
from lawnbook.desk.roles import announce
from lawnbook.desk.theme import px
from lawnbook.desk.widgets import Caption, LinkButton, mark_role
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Change
from lawnbook.yard.problems import OwnerError

LONGEST_NAME, NAME_HEAD = 36, 21
"""Letters of an edit's name that are shown, and how many of them before its cut."""
LEAST_WORDS_PX = 60
"""What the words beside the links have at least."""
PAUSES_MS = (2_000, 4_000, 8_000, 15_000, 30_000, 60_000)
"""After each vain try a longer pause, the last one for good."""

KEPT = tr("Kept: all you enter is on disk.")
TAKEN_OUT = tr("Taken out. Undo brings it back.")
LOOKING = tr("Only to be looked at: nothing is entered here.")


class StatusLine(QWidget):
    """Says "Kept", or why not with a way out; offers undo and redo by their names.

    What could not be written is tried again by itself, quietly, and at every next edit.
    """

    elsewhere_asked = Signal()

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book, self._tries = book, 0
        self._book_is_open = True
        self._took_out = False
        self._stop_listening = book.subscribe(self._heard)
        self._again = QTimer(self)
        self._again.setSingleShot(True)
        self._again.timeout.connect(self._try_quietly)
        self.words = Caption("", self, wrap=True)
        self.words.setObjectName("status_words")
        self.retry_button = LinkButton(tr("Try again"), "status_retry", self)
        self.back_button = LinkButton(tr("Write it anew"), "status_write_back", self)
        self.back_button.setToolTip(
            tr("Writes the whole notebook to the place its file was taken from")
        )
        self.elsewhere_button = LinkButton(tr("Keep it elsewhere…"), "status_elsewhere", self)
        self.undo_button = LinkButton(tr("Undo"), "status_undo", self)
        self.redo_button = LinkButton(tr("Redo"), "status_redo", self)
        self.retry_button.clicked.connect(self._try_now)
        self.back_button.clicked.connect(self._write_back)
        self.elsewhere_button.clicked.connect(self.elsewhere_asked)
        self.undo_button.clicked.connect(book.undo)
        self.redo_button.clicked.connect(book.redo)
        self._line = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._line.setContentsMargins(0, 0, 0, 0)
        self._line.setSpacing(6)
        self._line.addWidget(self.words, 1)
        self._line.addLayout(self._buttons())
        self.refresh()

    def _buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(6)
        for mend in (self.retry_button, self.back_button, self.elsewhere_button):
            row.addWidget(mend)
        row.addStretch(1)
        row.addWidget(self.undo_button)
        row.addWidget(self.redo_button)
        self._row = row
        return row

    def offer(self, link: QWidget) -> None:
        """Put a quiet link before the undo, as long as the window is open."""
        self._row.insertWidget(self._row.indexOf(self.undo_button), link)

    def refresh(self) -> None:
        """Show how things stand."""
        trouble, waiting = self._book.trouble, self._book.waiting
        torn = self._book.found == "changed"
        if torn and waiting:
            # The banner over the pages says why and has the ways out.
            self._show(tr("Not on disk yet ({waits}): see above.", waits=waits(waiting)), "refuse")
        elif torn:
            self._show(tr("The file was changed: see above."), "refuse")
        elif trouble:
            self._show(f"{not_yet(waiting)} {trouble}".strip(), "refuse")
        else:
            kept = TAKEN_OUT if self._took_out else KEPT
            self._show(LOOKING if self._book.read_only else kept, "caption")
        for button in (self.retry_button, self.elsewhere_button):
            button.setVisible(bool(trouble) and not torn)
        self.back_button.setVisible(bool(trouble) and self._book.can_write_back)
        self._plan_next_try()
        _name(self.undo_button, undo_words, self._book.undo_label)
        _name(self.redo_button, redo_words, self._book.redo_label)
        self._turn_line()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Words and links side by side, or below each other where the line is short."""
        super().resizeEvent(event)
        self._turn_line()

    def _turn_line(self) -> None:
        """A sentence with its ways out needs the whole width; so do two links of long names."""
        trouble = bool(self._book.trouble) and self._book.found != "changed"
        crowded = self._row.sizeHint().width() + px(LEAST_WORDS_PX) > self.width()
        across, below = QBoxLayout.Direction.LeftToRight, QBoxLayout.Direction.TopToBottom
        self._line.setDirection(below if trouble or crowded else across)

    def keep_in(self, path: Path) -> None:
        """Keep the notebook in a new file; tells where pictures could not come along.

        Raises OwnerError where the new file cannot be written.
        """
        lost = self._book.save_elsewhere(path)
        if lost:
            tell(self.window(), tr("Lawnbook"), pictures_lost_told(lost, path), "pictures_lost")

    def rest(self) -> None:
        """Try no more: the book is closed."""
        self._stop_listening()
        self._book_is_open = False
        self._again.stop()

    def _plan_next_try(self) -> None:
        # A file that another program has changed is for the owner to decide about.
        may_help = self._book.waiting and self._book.found != "changed"
        if not may_help or not self._book_is_open:
            self._again.stop()
            self._tries = 0
        elif not self._again.isActive():
            self._again.start(PAUSES_MS[min(self._tries, len(PAUSES_MS) - 1)])

    def _try_quietly(self) -> None:
        self._tries += 1
        self._book.retry_quietly()
        self._plan_next_try()

    def _try_now(self) -> None:
        self._tries = 0
        self._again.stop()
        self._book.retry()
        if self._book.trouble:
            head = tr("Tried again: not on disk yet ({waits}).", waits=waits(self._book.waiting))
            self._show(f"{head} {self._book.trouble}", "refuse")

    def _write_back(self) -> None:
        try:
            self._book.write_back()
        except OwnerError as problem:
            self.say(str(problem), "refuse")

    def say(self, sentence: str, role: str = "caption") -> None:
        """Say something else for now; the next change says how things stand again.

        While changes wait, that is said with it: no other word may hide it.
        """
        missing = not_yet(self._book.waiting)
        said = f"{sentence} {missing}".strip()
        self._show(said, "refuse" if missing else role, aloud=True)

    def _heard(self, change: Change) -> None:
        """Note whether the latest edit took something out, before how things stand is said."""
        if change:
            # After an undo there is something to do again: nothing is offered back then.
            self._took_out = takes_out(change) and not self._book.redo_label

    def _show(self, sentence: str, role: str, *, aloud: bool = False) -> None:
        """Show a sentence; another one is heard too, where nobody looks at the foot of the page."""
        before = self.words.text()
        mark_role(self.words, role)
        self.words.setText(sentence)
        if sentence != before:
            fade_in(self.words)
        if aloud or (before and sentence != before):
            announce(self, sentence, urgent=role == "refuse")


def takes_out(change: Change) -> bool:
    """Whether a change takes records out, and at most alters what hung on them elsewhere."""
    gone = {table for (table, _), (_, after) in change.items() if after is None}
    others = [table for (table, _), (_, after) in change.items() if after is not None]
    return bool(gone) and not gone & set(others)


def waits(waiting: int) -> str:
    """How many changes wait, in words."""
    return tr("1 change waits") if waiting == 1 else tr("{waiting} changes wait", waiting=waiting)


def not_yet(waiting: int) -> str:
    """That changes are not on disk, as a sentence; empty where all of them are."""
    return tr("Not on disk yet ({waits}).", waits=waits(waiting)) if waiting else ""


def undo_words(label: str) -> str:
    """The words of undo, with the edit that it takes back where there is one."""
    return tr("Undo {edit}", edit=label) if label else tr("Undo")


def redo_words(label: str) -> str:
    """The words of redo, with the edit that it brings back where there is one."""
    return tr("Redo {edit}", edit=label) if label else tr("Redo")


def _name(button: LinkButton, words: Callable[[str], str], label: str) -> None:
    button.setVisible(bool(label))
    button.setText(in_short(words, label))
    button.setAccessibleName(words(label))
    button.setToolTip(words(label))


def in_short(words: Callable[[str], str], label: str) -> str:
    """Words of undo or redo for a button or a menu, which is as wide as its longest line.

    Both take "&" for the letter of a key where it is not doubled.
    """
    return words(_shortened(label)).replace("&", "&&")


def _shortened(label: str) -> str:
    """A long name loses its middle: what was done stands first in it and the day last."""
    if len(label) <= LONGEST_NAME:
        return label
    return f"{label[:NAME_HEAD].rstrip()}…{label[NAME_HEAD + 1 - LONGEST_NAME :].lstrip()}"
