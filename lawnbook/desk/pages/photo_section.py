"""The photographs of a place's plugs: small ones by date, and the open one large, to be read."""

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.dialogs import choose_photo_copy, file_stem
from lawnbook.desk.pages import photo_words
from lawnbook.desk.pages.photo_bench import PhotoBench
from lawnbook.desk.pages.photo_keepers import KeptPhoto
from lawnbook.desk.pages.photo_thumbs import Thumbs
from lawnbook.desk.pages.photo_tray import thumb_row
from lawnbook.desk.pages.place_picker import spots_at
from lawnbook.desk.widgets import Card, LinkButton, Words
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import Place
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.files import written_whole
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.record_plug import Photo


class PhotoSection(QWidget):
    """The section Photos of the plugs page. `selected` tells the plug that the owner turns to."""

    selected = Signal(str, str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("photo_section")
        self._book = book
        self._place = Place("yard", "")
        self._plan: Plan | None = None
        self._open_id = ""
        self._keeper: KeptPhoto | None = None
        self._empty = Words("", "", self)
        self._empty.setObjectName("photos_empty")
        self._thumbs = Thumbs("photos_thumbs", tr("Photos by date"), self)
        self._title = Words("", "heading", self)
        self._title.setObjectName("photos_title")
        self._noted = Words("", "caption", self)
        self._noted.setObjectName("photos_noted")
        self._plug = LinkButton(tr("Open the plug"), "photos_plug", self)
        self._save = LinkButton(tr("Save picture…"), "photos_save", self)
        self._remove = LinkButton(tr("Remove photo"), "photos_remove", self)
        self._card = Card("", self)
        self.bench = PhotoBench(self._card)
        self._lay_out()
        self._thumbs.picked.connect(self._turn)
        self._plug.clicked.connect(self._open_plug)
        self._save.clicked.connect(self._save_as)
        self._remove.clicked.connect(self._take_out)
        self._show()

    def show_plan(self, plan: Plan, place: Place) -> None:
        """Show the photographs of a place up to the plan's day; the open one stays if it is among
        them, else the latest one opens."""
        if place != self._place:
            self._noted.say("")
        self._plan, self._place = plan, place
        self._show()

    def show_photo(self, photo_id: str) -> None:
        """Open a photograph, if it is among those shown."""
        self._turn(photo_id)

    def _turn(self, photo_id: str) -> None:
        if photo_id != self._open_id:
            self._noted.say("")
        self._open_id = photo_id
        self._show()

    def _show(self) -> None:
        photos = photos_at(self._notebook(), self._place)
        if self._open_id not in {each.id for each in photos}:
            self._open_id = photos[-1].id if photos else ""
        notebook = self._book.notebook
        rows = [
            thumb_row(
                each, day(notebook.cores[each.core].date), photo_words.photo_title(notebook, each)
            )
            for each in photos
        ]
        self._thumbs.show_rows(rows, self._open_id)
        self._empty.say("" if photos else photo_words.empty_words(notebook, self._place))
        self._card.setVisible(bool(photos))
        self._show_open(next((each for each in photos if each.id == self._open_id), None))

    def _show_open(self, photo: Photo | None) -> None:
        held = None if self._keeper is None else self._keeper.photo()
        if photo is None:
            self._keeper = None
            self.bench.show_photo(None)
            return
        core = self._book.notebook.cores[photo.core]
        self._title.setText(photo_words.photo_title(self._book.notebook, photo))
        if not self._noted.text():
            self._noted.say(photo_words.other_day_words(core, photo))
        if held is not None and held.id == photo.id:
            self.bench.refresh()
        else:
            self._keeper = KeptPhoto(self._book, photo.id)
            self.bench.show_photo(self._keeper)

    def _notebook(self) -> Notebook:
        notebook = self._book.notebook
        return notebook if self._plan is None else as_of(notebook, self._plan.on)

    def _opened(self) -> Photo | None:
        return self._book.notebook.photos.get(self._open_id)

    def _open_plug(self) -> None:
        photo = self._opened()
        if photo is not None:
            self.selected.emit("cores", photo.core)

    def _take_out(self) -> None:
        """Remove the open photograph; undo brings it back."""
        photo = self._opened()
        if photo is None:
            return
        title = photo_words.photo_title(self._book.notebook, photo)
        self._book.edit(
            remove(self._book.notebook, "photos", photo.id),
            tr("photo of {title} removed", title=title),
        )
        self._show()
        self._noted.say(tr("Removed: photo of {title}. Undo brings it back.", title=title))

    def _save_as(self) -> None:
        photo = self._opened()
        if photo is None:
            return
        stem = file_stem(photo_words.photo_title(self._book.notebook, photo)) or "plug"
        path = choose_photo_copy(self, self._book.path.with_name(f"{stem}.jpg"))
        if path is not None:
            self._noted.say(written_words(photo, path))

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(12)
        head.addWidget(self._title, 1)
        for each in (self._plug, self._save, self._remove):
            head.addWidget(each, 0, Qt.AlignmentFlag.AlignBottom)
        self._card.body.addLayout(head)
        self._card.body.addWidget(self.bench, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(10)
        for widget in (self._empty, self._thumbs, self._noted):
            column.addWidget(widget)
        column.addWidget(self._card, 1)
        column.addStretch(0)
        self._noted.say("")


def photos_at(notebook: Notebook, place: Place) -> tuple[Photo, ...]:
    """The photographs of a place's plugs, in the order of the plugs' days."""
    here = {spot.id for spot in spots_at(notebook, place)}
    cores = {each.id: each for each in notebook.cores.values() if each.spot in here}
    found = [each for each in notebook.photos.values() if each.core in cores]
    return tuple(sorted(found, key=lambda each: cores[each.core].date))


def written_words(photo: Photo, path: Path) -> str:
    """Write a photograph's bytes as they are kept; what was done, or why not, in words."""
    try:
        data = photo.data_b64.data()
        with written_whole(path) as whole:
            whole.write_bytes(data)
    except OwnerError as error:
        return str(error)
    return tr(
        "Saved as {name}, {width_px} × {height_px} pixels.",
        name=path.name,
        width_px=photo.width_px,
        height_px=photo.height_px,
    )
