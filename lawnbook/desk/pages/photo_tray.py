"""The photographs of a plug beside its form: added by hand, by dropping, by pasting."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.clipboard import clipboard_held, files_in, picture_in
from lawnbook.desk.dialogs import choose_photos
from lawnbook.desk.pages import photo_words
from lawnbook.desk.pages.photo_keepers import PendingPhoto, PendingPhotos
from lawnbook.desk.pages.photo_loading import Outcome, PhotoLoader, Source
from lawnbook.desk.pages.photo_thumbs import ThumbRow, Thumbs
from lawnbook.desk.pages.photo_window import PhotoWindow
from lawnbook.desk.widgets import Caption, LinkButton, QuietButton, Words, name_control
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import put
from lawnbook.yard.numbers import day
from lawnbook.yard.photos import new_photo, photos_of
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.record_plug import Photo


class PhotoTray(QWidget):
    """Photographs that wait for a new plug, or those kept with an open one.

    `date_proposed` tells the camera's day (a date) of a photograph added to a new plug;
    `open_asked` the id of a kept photograph that was clicked; one that waits is opened here, in a
    window of its own, and `readings` tells what is taken from it: a mapping of a plug's field
    names to values. `changed` tells that there are more or fewer photographs.
    """

    date_proposed = Signal(object)
    open_asked = Signal(str)
    readings = Signal(object)
    changed = Signal()

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "photo_tray", tr("Photos of the plug"))
        self._book = book
        self._core_id = ""
        self._pending = PendingPhotos()
        self._open: PhotoWindow | None = None
        self._open_id = ""
        self._thumbs = Thumbs("photo_thumbs", tr("Photos of the plug"), self)
        self._add = QuietButton(tr("Add photos…"), "photo_add", self)
        self._paste = LinkButton(tr("Paste"), "photo_paste", self)
        self._stop = LinkButton(tr("Stop"), "photo_stop", self)
        self._busy = Caption("", self)
        self._busy.setObjectName("photo_busy")
        self._noted = Words("", "caption", self)
        self._noted.setObjectName("photo_noted")
        self._refused = Words("", "refuse", self)
        self._refused.setObjectName("photo_refused")
        self._loader = PhotoLoader(book.today, self)
        self._shortcut: QShortcut | None = None
        self.setAcceptDrops(True)
        self._lay_out()
        self._listen()
        self.paste_on(self)
        self._show()

    def photos_for(self, core_id: str) -> tuple[Photo, ...]:
        """The photographs that wait, as records of the plug that is being kept."""
        return tuple(replace(each, core=core_id) for each in self._pending.all())

    def clear(self) -> None:
        """Leave off what waits and what is being read: the plug was kept, or left."""
        self._loader.stop()
        self._pending.clear()
        self._shut()
        self._say()
        self._show()

    def show_core(self, core_id: str) -> None:
        """Show the photographs of a kept plug; with "" those that wait for a new one."""
        if core_id != self._core_id:
            self._loader.stop()
            self._say()
        self._core_id = core_id
        self._show()

    def add_files(self, paths: Sequence[Path]) -> None:
        """Read these files and add what they show."""
        self._read(list(paths))

    def paste(self) -> None:
        """Add what is in the clipboard: files, or a picture."""
        held = clipboard_held()
        if paths := files_in(held):
            self.add_files(paths)
        elif (data := picture_in(held)) is not None:
            self._read([(tr("The pasted picture"), data)])
        else:
            self._say(tr("Nothing to paste: copy a picture or a file first."))

    def paste_on(self, page: QWidget) -> None:
        """Let Ctrl+V paste a photograph while this widget, or one in it, has the keyboard."""
        if self._shortcut is not None:
            self._shortcut.deleteLater()
        self._shortcut = QShortcut(QKeySequence(QKeySequence.StandardKey.Paste), page)
        self._shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        self._shortcut.activated.connect(self.paste)

    def is_reading(self) -> bool:
        """Whether a photograph is still being read."""
        return bool(self._loader.waiting())

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take files or a picture dragged here."""
        if event.mimeData().hasUrls() or event.mimeData().hasImage():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Read what was dropped."""
        event.acceptProposedAction()
        if paths := files_in(event.mimeData()):
            self.add_files(paths)
        elif (data := picture_in(event.mimeData())) is not None:
            self._read([(tr("The dropped picture"), data)])
        else:
            self._say(tr("That is not a file of this computer; save it first, then drop the file."))

    def _ask(self) -> None:
        self.add_files(choose_photos(self, self._book.path.parent))

    def _read(self, sources: list[Source]) -> None:
        if sources:
            self._say()
            self._loader.start(sources)
            self._say_busy()

    def _arrived(self, outcome: Outcome) -> None:
        self._say_busy()
        taken = outcome.taken
        if taken is None:
            self._say(f"{self._refused.text()} {outcome.refused}".strip(), self._noted.text())
            return
        size_px = (taken.width_px, taken.height_px)
        photo = new_photo(self._core_id, taken.data, size_px, taken.taken_on)
        told = " ".join(taken.notes)
        if not self._core_id:
            self._pending.add(photo)
            if taken.taken_on is not None:
                self.date_proposed.emit(taken.taken_on)
        elif (refused := self._keep(photo)) is not None:
            self._say(refused)
            return
        else:
            core = self._book.notebook.cores[self._core_id]
            told = f"{told} {photo_words.other_day_words(core, photo)}".strip()
        self._say(self._refused.text(), f"{self._noted.text()} {told}".strip())
        self._show()
        self.changed.emit()

    def _keep(self, photo: Photo) -> str | None:
        """Put it into the notebook with the open plug; the sentence if that is refused."""
        core = self._book.notebook.cores.get(self._core_id)
        if core is None:
            return tr("The plug has been removed; the photo was not added.")
        try:
            self._book.edit(
                put(self._book.notebook, "photos", photo),
                tr("photo of the plug of {date}", date=day(core.date)),
            )
        except OwnerError as error:
            return str(error)
        return None

    def _picked(self, photo_id: str) -> None:
        if self._pending.get(photo_id) is None:
            self.open_asked.emit(photo_id)
            return
        self._shut()
        self._open_id = photo_id
        keeper = PendingPhoto(self._pending, photo_id, self._show, self.readings.emit)
        self._open = PhotoWindow(keeper, tr("Photo of a new plug"), self)
        self._open.undo_asked.connect(self._undo)
        self._open.remove_asked.connect(self._remove)
        self._open.show()
        self._show()

    def _undo(self) -> None:
        if self._pending.undo(self._open_id) and self._open is not None:
            self._open.refresh()
            self._show()

    def _remove(self) -> None:
        self._pending.remove(self._open_id)
        self._shut()
        self._show()
        self.changed.emit()

    def _shut(self) -> None:
        if self._open is not None:
            self._open.close()
            self._open.deleteLater()
            self._open = None

    def _show(self) -> None:
        kept = photos_of(self._book.notebook, self._core_id)
        photos = kept if self._core_id else self._pending.all()
        self._thumbs.show_rows(
            [thumb_row(each, tr("Photo {n}", n=n)) for n, each in enumerate(photos, 1)]
        )

    def _say(self, refused: str = "", noted: str = "") -> None:
        self._refused.say(refused)
        self._noted.say(noted)

    def _say_busy(self) -> None:
        names = self._loader.waiting()
        more = tr(" and {count} more", count=len(names) - 1) if len(names) > 1 else ""
        self._busy.say(tr("Reading {names}{more}…", names=names[0], more=more) if names else "")
        self._stop.setVisible(bool(names))

    def _stopped(self) -> None:
        self._loader.stop()
        self._say_busy()

    def _listen(self) -> None:
        self._add.clicked.connect(self._ask)
        self._paste.clicked.connect(self.paste)
        self._stop.clicked.connect(self._stopped)
        self._thumbs.picked.connect(self._picked)
        self._loader.read.connect(self._arrived)

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(10)
        row.addWidget(self._add)
        row.addWidget(self._paste)
        row.addWidget(Caption(photo_words.HOW_TO_ADD, self, wrap=True), 1)
        busy = QHBoxLayout()
        busy.addWidget(self._busy)
        busy.addWidget(self._stop)
        busy.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addLayout(row)
        column.addLayout(busy)
        for words in (self._refused, self._noted, self._thumbs):
            column.addWidget(words)
        self._say()
        self._say_busy()


def thumb_row(photo: Photo, words: str, spoken: str = "") -> ThumbRow:
    """A photograph as a thumbnail; a dot says that it has been marked."""
    marked = photo.ruler is not None
    said = f"{spoken or words}{tr(', marked') if marked else ''}"
    return ThumbRow(photo.id, photo.data_b64, words, said, marked)
