"""The dialog about a mistake of our own: what is in the report, and what may be added to it."""

from pathlib import Path
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QDesktopServices, QGuiApplication
from PySide6.QtWidgets import QCheckBox, QDialog, QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.theme import px
from lawnbook.desk.widgets import Caption, PrimaryButton, QuietButton, Words, name_control
from lawnbook.reading import tr
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.desk.window import BookWindow

ADD = tr("Add the notebook’s entries")
ADDED = tr(
    "Written beside the report: {name}. It holds all of this notebook: names, "
    "notes, places and photos. Look through it before you give it to anyone."
)
NOT_ADDED = tr("The report names places in the program and nothing that you entered.")
MOST_IN_ONE = 20
"""Different mistakes of which one report file tells."""
WIDTH = 520


class MishapDialog(QDialog):
    """Told of one mistake, and counts the later ones while it stands."""

    def __init__(self, key: str, report: str, path: Path | None, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Lawnbook"))
        name_control(self, "mishap", tr("Lawnbook made a mistake"))
        self._keys, self._report, self._path, self._more = {key}, report, path, 0
        self.words = Words("", "", self)
        self.words.setObjectName("mishap_words")
        self.counted = Words("", "ask", self)
        self.counted.setObjectName("mishap_counted")
        self.adding = QCheckBox(ADD, self)
        name_control(self.adding, "mishap_add", ADD)
        self.adding.toggled.connect(self._add)
        self.about = Caption(NOT_ADDED, self, wrap=True)
        self.about.setObjectName("mishap_about")
        where = (
            tr("A report is in {path}", path=path)
            if path
            else tr("The report could not be written to a file.")
        )
        self.words.setText(
            tr(
                "Something went wrong in Lawnbook itself, not in your entries. What was on "
                "disk is as it was, and you can go on.\n\n{where}",
                where=where,
            )
        )
        self._lay_out()
        self._fit()

    def count(self, key: str, report: str) -> None:
        """One more mistake happened meanwhile; another kind is added to the report."""
        self._more += 1
        times = tr("once more") if self._more == 1 else tr("{more} more times", more=self._more)
        self.counted.say(tr("Since then something went wrong {times}.", times=times))
        self._fit()
        if key in self._keys or len(self._keys) >= MOST_IN_ONE:
            return
        self._keys.add(key)
        self._report = f"{self._report}\n{report}"
        if self._path is not None:
            try:
                self._path.write_text(self._report, encoding="utf-8")
            except OSError:
                # What can be copied is complete; the file tells of the first.
                return

    def _lay_out(self) -> None:
        title = Words(tr("Lawnbook made a mistake"), "title", self)
        column = QVBoxLayout(self)
        column.setContentsMargins(24, 18, 24, 18)
        column.setSpacing(10)
        for each in (title, self.words, self.counted, self.adding, self.about):
            column.addWidget(each)
        column.addSpacing(6)
        row = QHBoxLayout()
        row.setSpacing(8)
        folder = QuietButton(tr("Open the folder"), "mishap_folder", self)
        folder.clicked.connect(self._open_folder)
        folder.setEnabled(self._path is not None)
        copy = QuietButton(tr("Copy the report"), "mishap_copy", self)
        copy.clicked.connect(lambda: QGuiApplication.clipboard().setText(self._report))
        go_on = PrimaryButton(tr("Go on"), "mishap_go_on", self)
        go_on.clicked.connect(self.accept)
        go_on.setDefault(True)
        row.addWidget(folder)
        row.addWidget(copy)
        row.addStretch(1)
        row.addWidget(go_on)
        column.addLayout(row)
        self.adding.setVisible(self._path is not None and self._book_window() is not None)
        go_on.setFocus()

    def _fit(self) -> None:
        """As high as the words are now: a window does not follow words that wrap by itself."""
        column = self.layout()
        if column is not None:
            column.activate()
            wide = min(px(WIDTH), self.screen().availableGeometry().width())
            self.setFixedSize(wide, column.heightForWidth(wide))

    def _open_folder(self) -> None:
        if self._path is not None:
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(self._path.parent)))

    def _add(self, wanted: bool) -> None:
        """Write the entries beside the report, or take them away again."""
        window = self._book_window()
        if self._path is None or window is None:
            return
        entries = self._path.with_name(f"{self._path.stem}-entries.json")
        try:
            if wanted:
                from lawnbook.store.yardfile import write_yard

                write_yard(window.book.notebook, entries)
            else:
                entries.unlink(missing_ok=True)
        except (OwnerError, OSError) as problem:
            self.about.setText(str(problem))
        else:
            self.about.setText(ADDED.format(name=entries.name) if wanted else NOT_ADDED)
        self._fit()

    def _book_window(self) -> "BookWindow | None":
        """The open book behind this dialog, or behind the one it stands before."""
        each: QWidget | None = self.parentWidget()
        while each is not None and each.objectName() != "book_window":
            each = each.parentWidget()
        return cast("BookWindow", each) if each is not None else None
