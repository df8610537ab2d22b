"""Photographs of plugs as records: one made from a picture's bytes, and those of a plug."""

from datetime import date

from lawnbook.yard.notebook import Notebook, new_id
from lawnbook.yard.pictures import Picture
from lawnbook.yard.records import Photo
from lawnbook.yard.table import grouped


def new_photo(
    core_id: str, data: bytes, size_px: tuple[int, int], taken_on: date | None = None
) -> Photo:
    """A new photograph of a plug, of a picture's bytes and its width and height in pixels."""
    picture = Picture.of(data)
    width_px, height_px = size_px
    return Photo(
        id=new_id(),
        core=core_id,
        sha256=picture.sha256,
        data_b64=picture,
        taken_on=taken_on,
        width_px=width_px,
        height_px=height_px,
    )


def photos_of(notebook: Notebook, core_id: str) -> tuple[Photo, ...]:
    """The photographs of a plug in their order; their pictures are not read by this."""
    return grouped(notebook.photos, "core").get(core_id, ())
