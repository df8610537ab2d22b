"""Where a photograph that is being marked is kept: in the notebook, or with a plug not yet kept."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, Protocol

from lawnbook.agronomy.photo_scale import PhotoReading
from lawnbook.desk.pages import photo_words
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.check import check_all
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import asked, refused
from lawnbook.yard.record_plug import Core, Photo


@dataclass(frozen=True, slots=True)
class Proposal:
    """What taking the readings would do, in words; `role` colours them, `can` allows it."""

    words: str
    role: str
    can: bool


class Keeper(Protocol):
    """One photograph where it is kept, for those who mark it."""

    def photo(self) -> Photo | None:
        """The photograph as it stands, None when it is gone."""

    def keep(self, photo: Photo, label: str) -> None:
        """Keep it with other marks; `label` names the edit for undo."""

    def proposal(self, reading: PhotoReading) -> Proposal:
        """What taking these readings would change."""

    def take(self, reading: PhotoReading) -> str:
        """Take the readings into the plug; what was done, in words."""


class KeptPhoto:
    """A photograph of the notebook: each mark is one Change, and so are the readings."""

    def __init__(self, book: OpenNotebook, photo_id: str) -> None:
        """The photograph of this id, which may go at any time."""
        self._book = book
        self._id = photo_id

    def photo(self) -> Photo | None:
        """The photograph as the notebook holds it now."""
        return self._book.notebook.photos.get(self._id)

    def keep(self, photo: Photo, label: str) -> None:
        """One Change of the photograph's record. Raises OwnerError where it is refused."""
        self._book.edit(put(self._book.notebook, "photos", photo), label)

    def proposal(self, reading: PhotoReading) -> Proposal:
        """Before and after in the plug, with what the plug's own rules say of it."""
        core, fields = self._core(), photo_words.fields_read(reading)
        if core is None or not fields:
            return Proposal(photo_words.NOTHING, "caption", False)
        changed = photo_words.before_after(core, fields)
        if not changed:
            return Proposal(photo_words.taken_words(core, ""), "caption", False)
        words = tr("Plug of {date}: {changed}.", date=day(core.date), changed=changed)
        after = replace(core, **fields)
        notebook = apply(self._book.notebook, put(self._book.notebook, "cores", after))
        problems = check_all([after], notebook, self._book.today)
        if bad := refused(problems):
            return Proposal(f"{words} {bad[0].sentence}", "refuse", False)
        if doubtful := asked(problems):
            return Proposal(f"{words} {doubtful[0].sentence}", "ask", True)
        return Proposal(words, "caption", True)

    def take(self, reading: PhotoReading) -> str:
        """Set thatch, roots and resolution of the plug in one Change."""
        core, fields = self._core(), photo_words.fields_read(reading)
        if core is None or not fields:
            return photo_words.NOTHING
        changed = photo_words.before_after(core, fields)
        after = replace(core, **fields)
        label = tr("photo's readings into the plug of {date}", date=day(core.date))
        self._book.edit(put(self._book.notebook, "cores", after), label)
        return photo_words.taken_words(core, changed)

    def _core(self) -> Core | None:
        photo = self.photo()
        return None if photo is None else self._book.notebook.cores.get(photo.core)


class PendingPhotos:
    """Photographs of a plug that is still being entered, each with the marks it had before."""

    def __init__(self) -> None:
        """None yet."""
        self._photos: dict[str, Photo] = {}
        self._before: list[Photo] = []

    def all(self) -> tuple[Photo, ...]:
        """Those there are, in the order they were added."""
        return tuple(self._photos.values())

    def get(self, photo_id: str) -> Photo | None:
        """One of them, None where it is gone."""
        return self._photos.get(photo_id)

    def add(self, photo: Photo) -> None:
        """One more."""
        self._photos[photo.id] = photo

    def change(self, photo: Photo) -> None:
        """The same photograph with other marks."""
        self._before.append(self._photos[photo.id])
        self._photos[photo.id] = photo

    def undo(self, photo_id: str) -> bool:
        """Take the latest marks of a photograph back; whether there were any."""
        for place in range(len(self._before) - 1, -1, -1):
            if self._before[place].id == photo_id and photo_id in self._photos:
                self._photos[photo_id] = self._before.pop(place)
                return True
        return False

    def remove(self, photo_id: str) -> None:
        """Leave one off."""
        self._photos.pop(photo_id, None)
        self._before = [each for each in self._before if each.id != photo_id]

    def clear(self) -> None:
        """Leave all off."""
        self._photos.clear()
        self._before.clear()


class PendingPhoto:
    """A photograph of a plug still in the form: its readings go into the form's fields."""

    def __init__(
        self,
        pending: PendingPhotos,
        photo_id: str,
        changed: Callable[[], None],
        read: Callable[[Mapping[str, Any]], None],
    ) -> None:
        """One of the pending ones; `changed` is called after a mark, `read` with the readings."""
        self._pending, self._id = pending, photo_id
        self._changed, self._read = changed, read

    def photo(self) -> Photo | None:
        """The photograph as it stands."""
        return self._pending.get(self._id)

    def keep(self, photo: Photo, label: str) -> None:
        """Hold it with other marks until the plug is kept; it is undone in its own window."""
        self._pending.change(photo)
        self._changed()

    def proposal(self, reading: PhotoReading) -> Proposal:
        """What would be filled into the form."""
        fields = photo_words.fields_read(reading)
        if not fields:
            return Proposal(photo_words.NOTHING, "caption", False)
        return Proposal(photo_words.INTO_FORM, "caption", True)

    def take(self, reading: PhotoReading) -> str:
        """Hand the fields to the form."""
        fields = photo_words.fields_read(reading)
        self._read(fields)
        return photo_words.into_form(fields)
