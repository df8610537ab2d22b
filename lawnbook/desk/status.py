"""The line at the foot of the page: whether all is on disk, and what undo would take back."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.desk.widgets import Caption, LinkButton, mark_role
from lawnbook.session.open_notebook import OpenNotebook

LONGEST_NAME, NAME_HEAD = 36, 21
"""Letters of an edit's name that are shown, and how many of them before its cut."""
KEPT = "Kept: all you enter is on disk."


class StatusLine(QWidget):
    """Says "Kept", or why not with a way out; offers undo and redo by their names."""

    elsewhere_asked = Signal()

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self.words = Caption("", self, wrap=True)
        self.words.setObjectName("status_words")
        self.retry_button = LinkButton("Try again", "status_retry", self)
        self.elsewhere_button = LinkButton("Keep it elsewhere…", "status_elsewhere", self)
        self.undo_button = LinkButton("Undo", "status_undo", self)
        self.redo_button = LinkButton("Redo", "status_redo", self)
        self.retry_button.clicked.connect(book.retry)
        self.elsewhere_button.clicked.connect(self.elsewhere_asked)
        self.undo_button.clicked.connect(book.undo)
        self.redo_button.clicked.connect(book.redo)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(6)
        row.addWidget(self.words, 1)
        buttons = (self.retry_button, self.elsewhere_button, self.undo_button, self.redo_button)
        for button in buttons:
            row.addWidget(button)
        self.refresh()

    def refresh(self) -> None:
        """Show how things stand."""
        trouble, waiting = self._book.trouble, self._book.waiting
        if trouble:
            count = "1 change waits" if waiting == 1 else f"{waiting} changes wait"
            self.say(f"Not on disk yet ({count}). {trouble}", "refuse")
        else:
            self.say(KEPT)
        for button in (self.retry_button, self.elsewhere_button):
            button.setVisible(bool(trouble))
        _name(self.undo_button, "Undo", self._book.undo_label)
        _name(self.redo_button, "Redo", self._book.redo_label)

    def say(self, sentence: str, role: str = "caption") -> None:
        """Say something else for now; the next change says how things stand again."""
        mark_role(self.words, role)
        self.words.setText(sentence)


def _name(button: LinkButton, verb: str, label: str) -> None:
    button.setVisible(bool(label))
    button.setText(f"{verb} {_shortened(label)}")
    button.setAccessibleName(f"{verb} {label}")
    button.setToolTip(f"{verb} {label}")


def _shortened(label: str) -> str:
    """A long name loses its middle: what was done stands first in it and the day last."""
    if len(label) <= LONGEST_NAME:
        return label
    return f"{label[:NAME_HEAD].rstrip()}…{label[NAME_HEAD + 1 - LONGEST_NAME :].lstrip()}"
