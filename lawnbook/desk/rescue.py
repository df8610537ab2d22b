"""The dialogs of a damaged notebook: save what can be read, or go to an earlier copy."""

from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QDialog, QHBoxLayout, QPlainTextEdit, QVBoxLayout, QWidget

from lawnbook.desk.theme import px, sized
from lawnbook.desk.widgets import PrimaryButton, QuietButton, Words, name_control
from lawnbook.reading import tr
from lawnbook.store.salvage_told import SalvageTold, told_lines

WIDTH = 560
OFFER = tr(
    "What can be read can be saved into a new notebook, and you are told what is "
    "missing. The damaged file stays as it is."
)


class DamagedDialog(QDialog):
    """Says that a notebook is damaged, and offers the two ways on."""

    save_asked = Signal()
    copies_asked = Signal()

    def __init__(self, sentence: str, has_copies: bool, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Lawnbook"))
        name_control(self, "damaged", tr("This notebook cannot be opened as it is"))
        self.words = Words(sentence, "", self)
        self.words.setObjectName("damaged_words")
        save = self.save_button = PrimaryButton(tr("Save what can be read"), "damaged_save", self)
        copies = self.copies_button = QuietButton(tr("Earlier copies…"), "damaged_copies", self)
        close = QuietButton(tr("Close"), "damaged_close", self)
        save.clicked.connect(self.save_asked)
        copies.clicked.connect(self.copies_asked)
        close.clicked.connect(self.reject)
        copies.setEnabled(has_copies)
        if not has_copies:
            copies.setToolTip(tr("There is no earlier copy of this notebook."))
        column = _column(self)
        column.addWidget(Words(tr("This notebook cannot be opened as it is"), "title", self))
        column.addWidget(self.words)
        column.addWidget(Words(OFFER, "", self))
        _buttons(column, [copies], [close, save])
        sized(self, width=WIDTH)
        # A dialog does not follow words that wrap by itself.
        self.resize(self.width(), column.totalHeightForWidth(self.width()))
        save.setDefault(True)
        save.setFocus()

    def wait(self) -> None:
        """Say that the file is being read; it is not asked for twice."""
        self.save_button.setEnabled(False)
        self.words.setText(tr("Reading what can be read…"))

    def fail(self, sentence: str) -> None:
        """Say why nothing could be saved."""
        self.words.say(sentence, "refuse")


class SalvagedDialog(QDialog):
    """Tells what was saved of a damaged notebook, and what is missing."""

    copies_asked = Signal()

    def __init__(self, told: SalvageTold, path: Path, has_copies: bool, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Lawnbook"))
        name_control(self, "salvaged", tr("What was saved of the damaged notebook"))
        self.text = QPlainTextEdit("\n".join(told_lines(told)), self)
        self.text.setReadOnly(True)
        self.text.setTabChangesFocus(True)
        name_control(self.text, "salvaged_text", tr("What was saved, and what is missing"))
        copy = QuietButton(tr("Copy these words"), "salvaged_copy", self)
        copies = QuietButton(tr("Earlier copies…"), "salvaged_copies", self)
        go_on = PrimaryButton(tr("Go on"), "salvaged_go_on", self)
        copy.clicked.connect(lambda: QGuiApplication.clipboard().setText(self.text.toPlainText()))
        copies.clicked.connect(self.copies_asked)
        copies.setEnabled(has_copies)
        go_on.clicked.connect(self.accept)
        column = _column(self)
        column.addWidget(Words(tr("What could be read is saved"), "title", self))
        where = Words(tr("It is in {path}", path=path), "", self)
        where.setObjectName("salvaged_where")
        column.addWidget(where)
        column.addWidget(self.text, 1)
        _buttons(column, [copy, copies], [go_on])
        room = self.screen().availableGeometry().size()
        self.resize(QSize(px(720), px(460)).boundedTo(room))
        go_on.setDefault(True)
        go_on.setFocus()


def _column(dialog: QDialog) -> QVBoxLayout:
    column = QVBoxLayout(dialog)
    column.setContentsMargins(24, 18, 24, 18)
    column.setSpacing(10)
    return column


def _buttons(column: QVBoxLayout, left: list[QuietButton], right: list[QuietButton]) -> None:
    row = QHBoxLayout()
    row.setSpacing(8)
    for each in left:
        row.addWidget(each)
    row.addStretch(1)
    for each in right:
        row.addWidget(each)
    column.addSpacing(6)
    column.addLayout(row)
