"""Pictures to trace on, taken in and kept: size and kind of file, refusals, the notebook's ways."""

import io
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.photo_reading import TO_TRACE_ON, take_in_bytes
from lawnbook.store.sqlite_store import load
from lawnbook.store.yardfile import load_any, write_yard
from lawnbook.yard.backdrops import moved, new_backdrop
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import new_notebook, put
from lawnbook.yard.problems import OwnerError
from tests.backdrop_pictures import aerial, as_jpeg, plan
from tests.conftest import TODAY
from tests.photo_files import HEIC, camera_data, halves, huge_jpeg, written

DATA = as_jpeg(aerial(200, 150))


def taken(data: bytes) -> Image.Image:
    """The picture as it is kept."""
    kept = take_in_bytes(data, "plan", TODAY, TO_TRACE_ON)
    image = Image.open(io.BytesIO(kept.data))
    assert image.size == (kept.width_px, kept.height_px)
    return image


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    """An empty notebook with one backdrop."""
    notebook = new_notebook("Home")
    held = OpenNotebook.create(tmp_path / "home.lawnbook", notebook, TODAY)
    made = replace(new_backdrop(notebook, "Aerial", DATA, (200, 150)), id="aerial")
    held.edit(put(notebook, "backdrops", made), "add Aerial")
    yield held
    held.close()


def test_an_aerial_image_is_kept_as_jpeg_at_most_4000_pixels_wide() -> None:
    image = taken(as_jpeg(aerial(4400, 880)))
    assert (image.format, image.size) == ("JPEG", (4000, 800))
    assert taken(as_jpeg(aerial(200, 150))).format == "JPEG"


def test_a_line_plan_is_kept_without_loss_as_the_smaller_png() -> None:
    scanned = plan()
    image = taken(written(scanned, "PNG"))
    assert image.format == "PNG"
    assert np.array_equal(np.asarray(image.convert("L")), np.asarray(scanned))
    assert image.convert("RGB").getpixel((60, 60)) == (0, 0, 0)


def test_a_plan_in_few_colours_is_a_png_and_a_gray_photograph_is_not() -> None:
    assert taken(written(halves(800, 600), "PNG")).format == "PNG"
    assert taken(written(aerial(400, 300).convert("L"), "PNG")).format == "JPEG"


def test_nothing_but_the_picture_is_kept() -> None:
    data = written(halves(64, 48), exif=camera_data(taken="2026:05:08 09:00:00", place=True))
    image = taken(data)
    assert dict(image.getexif()) == {}
    assert taken(HEIC).size == (64, 48)
    assert taken(written(halves(64, 48), "WEBP")).size == (64, 48)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"%PDF-1.7 a plan", "save the page as a picture"),
        (huge_jpeg(65_500, 65_500), "megapixels"),
        (huge_jpeg(10_500, 10_000, progressive=True), "megapixels"),
        (written(halves(400, 300), "PNG")[:300], "this picture cannot be read"),
        (b"", "is empty"),
        (b"II*\x00 a scan", "choose a JPEG, PNG or HEIC"),
    ],
)
def test_what_is_no_picture_is_explained(data: bytes, words: str) -> None:
    with pytest.raises(OwnerError, match=words):
        take_in_bytes(data, "plan", TODAY, TO_TRACE_ON)


def test_a_backdrop_is_there_when_the_book_is_opened_again(book: OpenNotebook) -> None:
    assert load(book.path).backdrops == book.notebook.backdrops
    assert load(book.path).backdrops["aerial"].data_b64.data() == DATA


def test_a_backdrop_goes_through_a_yard_file(book: OpenNotebook, tmp_path: Path) -> None:
    yard = tmp_path / "home.json"
    write_yard(book.notebook, yard)
    back = load_any(yard, TODAY)
    assert back.backdrops == book.notebook.backdrops
    assert back.backdrops["aerial"].data_b64.data() == DATA


def test_a_removed_backdrop_comes_back_with_its_picture_in_a_new_file_too(
    book: OpenNotebook, tmp_path: Path
) -> None:
    book.edit(remove(book.notebook, "backdrops", "aerial"), "remove Aerial")
    assert load(book.path).backdrops == {}
    book.save_elsewhere(tmp_path / "new.lawnbook")
    (tmp_path / "home.lawnbook").unlink()
    book.undo()
    assert book.notebook.backdrops["aerial"].data_b64.data() == DATA
    assert load(tmp_path / "new.lawnbook").backdrops["aerial"].data_b64.data() == DATA


def test_a_move_is_one_step_and_leaves_the_picture_alone(book: OpenNotebook) -> None:
    held = book.notebook.backdrops["aerial"]
    book.edit(put(book.notebook, "backdrops", moved(held, (3.0, 4.0))), "move Aerial")
    assert load(book.path).backdrops["aerial"].middle_ft == (53.0, 39.0)
    book.undo()
    assert book.notebook.backdrops["aerial"] == held


def test_a_backdrop_whose_picture_was_altered_is_refused(book: OpenNotebook) -> None:
    held = book.notebook.backdrops["aerial"]
    wrong = replace(held, sha256="0" * 64)
    with pytest.raises(OwnerError, match="does not match"):
        book.edit(put(book.notebook, "backdrops", wrong), "alter Aerial")
    assert book.notebook.backdrops["aerial"] == held
