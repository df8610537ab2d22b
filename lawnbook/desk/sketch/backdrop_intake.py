"""Pictures taken in as backdrops: from files, the clipboard, or dropped on a widget."""

from collections.abc import Sequence
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QMimeData, QObject, Signal
from PySide6.QtGui import QDragEnterEvent, QDragMoveEvent, QDropEvent
from PySide6.QtWidgets import QGraphicsView, QWidget

from lawnbook.desk.clipboard import clipboard_held, files_in, picture_in
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.backdrops import new_backdrop
from lawnbook.yard.notebook import put
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.desk.pages.photo_loading import Outcome, PhotoLoader, Source

PICTURE_SUFFIXES = frozenset(
    {".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif", ".pdf", ".tif", ".tiff", ".gif", ".bmp"}
)
"""Files that are meant as pictures, also those that are then explained rather than read."""


class BackdropIntake(QObject):
    """Reads pictures beside the window's work and keeps each as a backdrop, one undo step each.

    `added` tells a new backdrop's id, `refused` the sentence of a picture that is not taken,
    `busy` what is being read, "" once nothing is.
    """

    added = Signal(str)
    refused = Signal(str)
    busy = Signal(str)

    def __init__(self, book: OpenNotebook, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._targets: list[QWidget] = []
        self._names: list[str] = []

    @cached_property
    def _loader(self) -> "PhotoLoader":
        """What reads pictures; loaded with the first of them."""
        from lawnbook.desk.pages.photo_loading import PhotoLoader
        from lawnbook.store.photo_reading import TO_TRACE_ON

        loader = PhotoLoader(self._book.today, self, TO_TRACE_ON)
        loader.read.connect(self._arrived)
        return loader

    @property
    def is_reading(self) -> bool:
        """Whether a picture is still being read."""
        return bool(self._loader.waiting())

    def take_drops_of(self, widget: QWidget) -> None:
        """Take pictures that are dropped on this widget."""
        widget.setAcceptDrops(True)
        widget.installEventFilter(self)
        self._targets.append(widget)

    def add_files(self, paths: Sequence[Path]) -> None:
        """Read these files."""
        self._read(list(paths), [path.stem for path in paths])

    def paste(self) -> None:
        """Read what is in the clipboard: files, or a picture."""
        if not self._take(clipboard_held(), tr("Pasted picture")):
            self.refused.emit(tr("Nothing to paste: copy a picture or a file first."))

    def stop(self) -> None:
        """Leave off what has not been read."""
        self._loader.stop()
        self._names.clear()
        self._say_busy()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take what is dragged over a widget and let go there, if it is meant as a picture."""
        if watched not in self._targets:
            return False
        if isinstance(event, QDragEnterEvent | QDragMoveEvent | QDropEvent):
            if not _holds_picture(event.mimeData()):
                # The paper would say yes to anything that is dragged over it.
                event.ignore()
                return True
            event.acceptProposedAction()
            if event.type() == QEvent.Type.Drop:
                self._take(event.mimeData(), tr("Dropped picture"))
            return True
        return False

    def _take(self, held: QMimeData, called: str) -> bool:
        if paths := files_in(held):
            self.add_files(paths)
        elif (data := picture_in(held)) is not None:
            self._read([(called, data)], [called])
        else:
            return False
        return True

    def _read(self, sources: "list[Source]", names: list[str]) -> None:
        if sources:
            self._names += names
            self._loader.start(sources)
            self._say_busy()

    def _arrived(self, outcome: "Outcome") -> None:
        name = self._names.pop(0) if self._names else outcome.name
        self._say_busy()
        taken = outcome.taken
        if taken is None:
            self.refused.emit(outcome.refused)
            return
        size_px = (taken.width_px, taken.height_px)
        made = new_backdrop(self._book.notebook, name, taken.data, size_px)
        try:
            self._book.edit(
                put(self._book.notebook, "backdrops", made), tr("add {name}", name=made.name)
            )
        except OwnerError as problem:
            self.refused.emit(str(problem))
            return
        self.added.emit(made.id)

    def _say_busy(self) -> None:
        names = self._loader.waiting()
        more = tr(" and {count} more", count=len(names) - 1) if len(names) > 1 else ""
        self.busy.emit(tr("Reading {names}{more}…", names=names[0], more=more) if names else "")


def lay_pictures_under(book: OpenNotebook, control: SketchControl, view: QGraphicsView) -> None:
    """Let pictures that are dropped on the sketch's paper become backdrops, and say so."""
    intake = BackdropIntake(book, view)
    # What lies over the paper is the view's own child, not its viewport's.
    for each in (view, view.viewport()):
        intake.take_drops_of(each)

    def tell(backdrop_id: str) -> None:
        name = book.notebook.backdrops[backdrop_id].name
        control.say(
            tr("{name} lies under the sketch. Scale it on the Yard page: Backdrop.", name=name),
            "good",
        )

    intake.added.connect(tell)
    intake.busy.connect(control.say)
    intake.refused.connect(lambda sentence: control.say(sentence, "bad"))


def _holds_picture(held: QMimeData) -> bool:
    paths = files_in(held)
    if paths:
        return all(path.suffix.lower() in PICTURE_SUFFIXES for path in paths)
    return held.hasImage()
