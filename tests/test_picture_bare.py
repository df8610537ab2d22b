"""Pictures without what is written beside them: the same pixels, and no place or camera."""

import io
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from PIL import Image, PngImagePlugin

from lawnbook.store.picture_bare import bare_bytes, with_bare_pictures
from lawnbook.yard.backdrops import new_backdrop
from lawnbook.yard.notebook import with_tables
from lawnbook.yard.photos import new_photo
from tests.desk_sample import sample

SECRET = b"Tell Valley 40.48"


def _pixels() -> Image.Image:
    return Image.fromarray(np.random.default_rng(3).integers(0, 255, (40, 60, 3), dtype=np.uint8))


def _exif() -> Image.Exif:
    exif = Image.Exif()
    exif[0x010E] = SECRET.decode()
    exif.get_ifd(0x8825)[2] = (40.0, 28.0, 54.0)
    return exif


def jpeg(**how: object) -> bytes:
    out = io.BytesIO()
    _pixels().save(out, "JPEG", exif=_exif(), comment=SECRET, **how)
    return out.getvalue()


def png() -> bytes:
    out, info = io.BytesIO(), PngImagePlugin.PngInfo()
    info.add_text("Comment", SECRET.decode())
    _pixels().save(out, "PNG", pnginfo=info, exif=_exif())
    return out.getvalue()


@pytest.mark.parametrize(
    "make",
    [jpeg, lambda: jpeg(progressive=True), lambda: jpeg(subsampling=2, optimize=True), png],
)
@pytest.mark.parametrize("tail", [b"", SECRET, b"\xff\xd9" + SECRET])
def test_only_the_picture_is_left(make: Callable[[], bytes], tail: bytes) -> None:
    data = make() + tail
    assert SECRET in data
    bare = bare_bytes(data)
    assert bare is not None
    assert SECRET not in bare
    assert b"Exif" not in bare
    assert bare_bytes(bare) == bare
    before, after = Image.open(io.BytesIO(data)), Image.open(io.BytesIO(bare))
    assert not after.getexif()
    assert np.array_equal(np.asarray(before), np.asarray(after))


def test_colours_and_density_stay() -> None:
    from PIL import ImageCms

    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    bare = bare_bytes(jpeg(icc_profile=profile, dpi=(300, 300)))
    assert bare is not None
    opened = Image.open(io.BytesIO(bare))
    assert opened.info["icc_profile"] == profile
    assert opened.info["dpi"] == (300, 300)


@pytest.mark.parametrize("data", [b"", b"GIF89a", jpeg()[:60], png()[:50], b"\xff\xd8no mark"])
def test_what_cannot_be_known_is_none(data: bytes) -> None:
    assert bare_bytes(data) is None


def test_photos_of_the_notebook_are_bare_already() -> None:
    notebook = sample("larkspur_corner")
    assert notebook.photos
    assert with_bare_pictures(notebook) is notebook


def test_photos_from_elsewhere_are_made_bare_and_unknown_ones_left_out() -> None:
    notebook = sample("larkspur_corner")
    core = next(iter(notebook.cores))
    told = replace(new_photo(core, jpeg(), (60, 40)), id="told", rank=50)
    odd = replace(new_photo(core, b"GIF89a", (60, 40)), id="odd", rank=51)
    photos = [*notebook.photos.values(), told, odd]
    bare = with_bare_pictures(with_tables(notebook, {"photos": photos}))
    assert set(bare.photos) == {*notebook.photos, "told"}
    assert bare.backdrops is notebook.backdrops
    kept = bare.photos["told"]
    assert kept.sha256 == kept.data_b64.sha256 != told.sha256
    assert SECRET not in kept.data_b64.data()


def test_pictures_under_the_sketch_are_made_bare_as_well() -> None:
    notebook = sample("larkspur_corner")
    under = new_backdrop(notebook, "aerial", jpeg(), (60, 40))
    bare = with_bare_pictures(with_tables(notebook, {"backdrops": [under]}))
    kept = bare.backdrops[under.id]
    assert SECRET not in kept.data_b64.data()
    assert kept.sha256 == kept.data_b64.sha256 != under.sha256
    assert bare.photos is notebook.photos
