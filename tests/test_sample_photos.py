"""The drawn photographs of a sample yard: small, plain, and read back as what was entered."""

import io
from datetime import date

import numpy as np
import pytest
from PIL import Image

from lawnbook.agronomy.photo_scale import read_plug
from lawnbook.store.photo_reading import take_in_bytes
from lawnbook.store.yardfile import load_any
from lawnbook.yard.places import sample_yards
from lawnbook.yard.record_plug import PhotoRuler
from lawnbook.yard.records import Core, Photo

TODAY = date(2026, 11, 25)
PATH = next(path for path in sample_yards() if path.stem == "larkspur_corner")
NOTEBOOK = load_any(PATH, TODAY)
PHOTOS = tuple(NOTEBOOK.photos.values())
IDS = [photo.id for photo in PHOTOS]


def parts(photo: Photo) -> tuple[Core, PhotoRuler, int, int]:
    """A photograph's plug, its marks and its size."""
    assert photo.ruler is not None
    assert photo.width_px is not None
    assert photo.height_px is not None
    return NOTEBOOK.cores[photo.core], photo.ruler, photo.width_px, photo.height_px


def gray(photo: Photo) -> np.ndarray:
    """The picture's light."""
    return np.asarray(Image.open(io.BytesIO(photo.data_b64.data())).convert("L"), float)


def test_two_spots_show_their_first_plug_and_their_latest() -> None:
    assert len(PHOTOS) == 5
    for name in ("letterbox", "signpost"):
        spot = next(each.id for each in NOTEBOOK.spots.values() if each.name == name)
        days = sorted(core.date for core in NOTEBOOK.cores.values() if core.spot == spot)
        shown = {
            NOTEBOOK.cores[photo.core].date
            for photo in PHOTOS
            if NOTEBOOK.cores[photo.core].spot == spot
        }
        assert {days[0], days[-1]} <= shown


@pytest.mark.parametrize("photo", PHOTOS, ids=IDS)
def test_each_is_small_plain_and_of_its_plugs_day(photo: Photo) -> None:
    core, _, width, height = parts(photo)
    data = photo.data_b64.data()
    assert len(data) <= 60_000
    assert photo.taken_on == core.date
    image = Image.open(io.BytesIO(data))
    assert image.size == (width, height)
    assert not image.getexif()
    taken = take_in_bytes(data, photo.id, TODAY)
    assert (taken.width_px, taken.height_px, taken.notes) == (width, height, ())


@pytest.mark.parametrize("photo", PHOTOS, ids=IDS)
def test_the_photo_ruler_reads_what_was_entered(photo: Photo) -> None:
    core, marks, width, height = parts(photo)
    reading = read_plug(marks, width, height)
    assert reading.thatch_in == pytest.approx(core.thatch_in, abs=0.005)
    assert reading.root_depth_in == pytest.approx(core.root_depth_in, abs=0.01)
    assert core.resolution_in is not None
    assert reading.resolution_in <= core.resolution_in


@pytest.mark.parametrize("photo", PHOTOS, ids=IDS)
def test_the_marks_lie_where_the_picture_shows_them(photo: Photo) -> None:
    """Thatch is lighter than the soil right below each mark; the ruler is dark at each eighth."""
    _, marks, width, height = parts(photo)
    light, per_in = gray(photo), read_plug(marks, width, height).px_per_in
    step, half = round(0.12 * per_in), round(0.2 * per_in)
    above, below = [], []
    for x, y in marks.thatch_ends:
        across = slice(round(x * width) - half, round(x * width) + half)
        row = round(y * height)
        above.append(light[row - step : row - 3, across].mean())
        below.append(np.median(light[row + 3 : row + step, across]))
    assert np.mean(above) > np.mean(below) + 10
    (x, top), _ = marks.scale
    edge = round(x * width) + round(0.08 * per_in)
    for eighth in range(1, 8 * round(marks.known_in)):
        row = round(top * height + eighth * per_in / 8)
        beside = row + round(per_in / 16)
        assert light[row - 1 : row + 2, edge].min() < light[beside, edge] - 40, eighth
