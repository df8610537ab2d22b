"""A small notebook whose plug has photographs, for tests of what is kept of them."""

from datetime import date

from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.photos import new_photo
from lawnbook.yard.pictures import Picture
from lawnbook.yard.record_plug import PhotoRuler
from lawnbook.yard.records import Core, Photo
from tests.photo_files import halves, written
from tests.small_book import small_notebook

PLUG = Core(id="plug", spot="elm", date=date(2026, 5, 9), thatch_in=(0.75,))
RULER = PhotoRuler(known_in=1.0, scale=((0.1, 0.9), (0.6, 0.9)), crowns=((0.1, 0.2), (0.9, 0.2)))


def picture_bytes(number: int) -> bytes:
    """The bytes of a picture, another one for each number."""
    return written(halves(32 + number, 24))


def photo(number: int) -> Photo:
    """A photograph of the plug, with an id by its number."""
    made = new_photo("plug", picture_bytes(number), (32 + number, 24), PLUG.date)
    return Photo(
        id=f"photo {number}",
        core=made.core,
        sha256=made.sha256,
        data_b64=made.data_b64,
        width_px=made.width_px,
        height_px=made.height_px,
        ruler=RULER if number == 1 else None,
    )


def photo_notebook(count: int = 2) -> Notebook:
    """The small notebook with a plug and this many photographs of it."""
    notebook = small_notebook()
    notebook = apply(notebook, put(notebook, "cores", PLUG))
    return apply(notebook, put(notebook, "photos", *map(photo, range(1, count + 1))))


def unreadable(picture: Picture) -> Picture:
    """The same picture where a look at its bytes fails the test."""

    def refuse() -> bytes:
        raise AssertionError("the picture was read")

    return Picture(picture.sha256, refuse)
