"""A window of its own for a photograph of a plug that is still being entered."""

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.pages.photo_bench import PhotoBench
from lawnbook.desk.pages.photo_keepers import Keeper
from lawnbook.desk.theme import px
from lawnbook.desk.widgets import LinkButton, PageScroll, QuietButton, name_control
from lawnbook.reading import tr


class PhotoWindow(QDialog):
    """Reads one photograph beside the form, which goes on working behind it.

    `undo_asked` and `remove_asked` tell those who hold it; it closes with Esc.
    """

    undo_asked = Signal()
    remove_asked = Signal()

    def __init__(self, keeper: Keeper, title: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "photo_window", title)
        self.setWindowTitle(title)
        self.setModal(False)
        self.bench = PhotoBench(self)
        self._undo = LinkButton(tr("Undo the last mark"), "photo_undo", self)
        self._remove = LinkButton(tr("Remove photo"), "photo_remove", self)
        self._close = QuietButton(tr("Close"), "photo_close", self)
        row = QHBoxLayout()
        for each in (self._undo, self._remove):
            row.addWidget(each)
        row.addStretch(1)
        row.addWidget(self._close)
        column = QVBoxLayout(self)
        scroll = PageScroll(self)
        scroll.body.addWidget(self.bench, 1)
        column.addWidget(scroll, 1)
        column.addLayout(row)
        undo = QShortcut(QKeySequence(QKeySequence.StandardKey.Undo), self)
        undo.setContext(Qt.ShortcutContext.WindowShortcut)
        undo.activated.connect(self.undo_asked)
        self._undo.clicked.connect(self.undo_asked)
        self._remove.clicked.connect(self.remove_asked)
        self._close.clicked.connect(self.close)
        room = self.screen().availableGeometry().size()
        self.resize(QSize(px(860), px(800)).boundedTo(room))
        self.bench.show_photo(keeper)

    def refresh(self) -> None:
        """Show the photograph as it stands now."""
        self.bench.refresh()
