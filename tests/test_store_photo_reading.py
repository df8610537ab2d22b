"""Photographs taken in: any kind, any way up, nothing kept but the picture, and nothing trusted."""

import io
import os
import struct
import sys
import threading
import zlib
from datetime import date
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageCms

from lawnbook.store import photo_reading
from lawnbook.store.photo_reading import TakenIn, take_in, take_in_bytes
from lawnbook.yard.problems import OwnerError
from tests.conftest import TODAY
from tests.photo_files import HEIC, camera_data, halves, huge_jpeg, written
from tests.small_book import in_child

RED, GREEN = (200, 40, 40), (40, 160, 60)


def seen(taken: TakenIn) -> Image.Image:
    """The picture that is kept, whose size is what was said."""
    image = Image.open(io.BytesIO(taken.data))
    image.load()
    assert image.size == (taken.width_px, taken.height_px)
    assert (image.format, image.mode) == ("JPEG", "RGB")
    return image


def near(image: Image.Image, x: int, y: int, color: tuple[int, int, int]) -> bool:
    """Whether a pixel is of a colour, as nearly as a JPEG keeps it."""
    pixel = np.asarray(image)[y, x].astype(int)
    return bool(np.abs(pixel - color).max() <= 12)


def refusal(data: bytes, name: str = "plug.jpg") -> str:
    """The words with which bytes are refused; they name the file and end as a sentence does."""
    with pytest.raises(OwnerError) as caught:
        take_in_bytes(data, name, TODAY)
    sentence = str(caught.value)
    assert sentence.startswith(f"{name}: ")
    assert sentence.endswith(".")
    return sentence


@pytest.mark.parametrize(
    "data",
    [
        written(halves(), "JPEG", quality=95),
        written(halves(), "JPEG", quality=95, progressive=True),
        written(halves(), "PNG"),
        written(halves().quantize(8), "PNG"),
        written(halves().convert("RGBA"), "PNG"),
        written(halves(), "WEBP", lossless=True),
        written(halves().convert("CMYK"), "JPEG", quality=95),
        HEIC,
    ],
    ids=["jpeg", "progressive", "png", "palette", "alpha", "webp", "cmyk", "heic"],
)
def test_each_kind_is_seen_in_its_colours_whatever_its_name(data: bytes) -> None:
    image = seen(take_in_bytes(data, "without.suffix", TODAY))
    assert image.size == (64, 48)
    assert near(image, 8, 24, RED)
    assert near(image, 56, 24, GREEN)


def test_a_heic_photograph_tells_its_day() -> None:
    assert take_in_bytes(HEIC, "a.heic", TODAY).taken_on == date(2026, 5, 8)


def test_heic_is_explained_where_its_reader_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pi_heif", None)
    assert "HEIC photographs cannot be read on this computer; save it as a JPEG" in refusal(HEIC)


def test_what_is_transparent_is_white() -> None:
    clear = Image.new("RGBA", (40, 40), (0, 0, 0, 0))
    assert near(seen(take_in_bytes(written(clear, "PNG"), "a.png", TODAY)), 20, 20, (255, 255, 255))
    gray = Image.new("LA", (40, 40), (0, 0))
    assert near(seen(take_in_bytes(written(gray, "PNG"), "a.png", TODAY)), 20, 20, (255, 255, 255))


def test_sixteen_bits_of_gray_keep_their_light() -> None:
    gray = Image.fromarray(np.full((40, 40), 200 * 256, np.uint16))
    assert near(seen(take_in_bytes(written(gray, "PNG"), "a.png", TODAY)), 20, 20, (200, 200, 200))


TURNS = {1: "LU", 2: "RU", 3: "RD", 4: "LD", 5: "UL", 6: "UR", 7: "DR", 8: "DL"}
"""Where the sensor's first row and column lie for each way a camera is held (Exif 2.32, 4.6.4)."""


@pytest.mark.parametrize("turned", TURNS)
def test_every_way_of_holding_a_camera_is_turned_upright(turned: int) -> None:
    pixels = np.zeros((48, 64, 3), np.uint8)
    pixels[:16, :20] = (230, 20, 20)
    data = written(Image.fromarray(pixels), quality=95, exif=camera_data(turned=turned))
    image = seen(take_in_bytes(data, "a.jpg", TODAY))
    assert image.size == ((64, 48) if turned < 5 else (48, 64))
    across, down = image.width // 8, image.height // 8
    sides = TURNS[turned]
    x = across if "L" in sides else image.width - across
    y = down if "U" in sides else image.height - down
    assert near(image, x, y, (230, 20, 20))
    assert near(image, image.width - x, image.height - y, (0, 0, 0))


def test_a_colour_profile_is_carried_over_and_dropped() -> None:
    """The middle gray of a linear profile is 188 in sRGB (IEC 61966-2-1: 0.5 -> 0.735)."""
    gray = Image.new("RGB", (40, 40), (128, 128, 128))
    data = written(gray, "PNG", icc_profile=linear_profile())
    assert near(seen(take_in_bytes(data, "a.png", TODAY)), 20, 20, (188, 188, 188))
    broken = written(gray, "PNG", icc_profile=b"no profile at all")
    assert near(seen(take_in_bytes(broken, "a.png", TODAY)), 20, 20, (128, 128, 128))


def linear_profile() -> bytes:
    """An sRGB profile with its three curves straightened, by giving them a gamma of 1."""
    data = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    count = int.from_bytes(data[128:132], "big")
    for at in range(132, 132 + 12 * count, 12):
        if bytes(data[at : at + 4]) in (b"rTRC", b"gTRC", b"bTRC"):
            place = int.from_bytes(data[at + 4 : at + 8], "big")
            data[place : place + 12] = b"curv" + bytes(8)
    return bytes(data)


def test_nothing_but_the_picture_is_kept() -> None:
    secret = b"<x:xmpmeta>my own garden</x:xmpmeta>"
    data = written(
        halves(),
        exif=camera_data("2026:05:08 09:00:00", place=True),
        comment=b"my own garden",
        icc_profile=ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes(),
        xmp=secret,
        dpi=(300, 300),
    )
    assert b"my own garden" in data
    taken = take_in_bytes(data, "a.jpg", TODAY)
    assert taken.taken_on == date(2026, 5, 8)
    image = seen(taken)
    assert set(image.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    assert not image.getexif()
    for trace in (b"garden", b"Maker", b"Exif", b"ICC_PROFILE", b"xmp", b"http"):
        assert trace not in taken.data
    assert segments(taken.data) <= {0xE0, 0xDB, 0xC0, 0xC4, 0xDA}


def segments(data: bytes) -> set[int]:
    """The markers of a JPEG up to its picture (ITU-T T.81, B.1.1)."""
    found, at = set[int](), 2
    while data[at + 1] != 0xDA:
        found.add(data[at + 1])
        at += 2 + int.from_bytes(data[at + 2 : at + 4], "big")
    return found | {0xDA}


@pytest.mark.parametrize(
    ("size", "kept"),
    [((4000, 3000), (2000, 1500)), ((1200, 5001), (480, 2000)), ((2000, 10), (2000, 10)),
     ((9000, 2), (2000, 1)), ((1, 1), (1, 1))],
)  # fmt: skip
@pytest.mark.parametrize("kind", ["JPEG", "PNG"])
def test_a_large_picture_is_reduced_and_a_small_one_is_not_blown_up(
    kind: str, size: tuple[int, int], kept: tuple[int, int]
) -> None:
    assert seen(take_in_bytes(written(halves(*size), kind), "a", TODAY)).size == kept


def test_the_same_photograph_is_the_same_picture_each_time() -> None:
    data = written(halves(3000, 200))
    assert take_in_bytes(data, "a", TODAY).data == take_in_bytes(data, "b", TODAY).data


@pytest.mark.parametrize(
    ("taken", "wrote", "found", "word"),
    [
        ("2026:05:08 09:00:00", "2020:01:02 00:00:00", date(2026, 5, 8), ""),
        (None, "2020:01:02 00:00:00", date(2020, 1, 2), ""),
        ("    :  :     :  :  ", "2020:01:02 00:00:00", date(2020, 1, 2), ""),
        ("2026-05-08T09:00:00", None, date(2026, 5, 8), ""),
        ("2026:06:15 23:59:59", None, TODAY, ""),
        (None, None, None, ""),
        ("0000:00:00 00:00:00", "2020:01:02 00:00:00", None, "cannot be read"),
        ("2026:02:30 09:00:00", None, None, "cannot be read"),
        ("2026:05:0899", None, None, "cannot be read"),
        ("yesterday", None, None, "cannot be read"),
        ("2026:06:16 00:00:00", None, None, "16 Jun 2026, is in the future"),
        ("1980:01:01 00:00:00", None, None, "1 Jan 1980, is too long ago"),
    ],
)
def test_the_cameras_day_is_proposed_or_doubted_in_words(
    taken: str | None, wrote: str | None, found: date | None, word: str
) -> None:
    data = written(halves(), exif=camera_data(taken, wrote))
    result = take_in_bytes(data, "a.jpg", TODAY)
    assert result.taken_on == found
    assert len(result.notes) == bool(word)
    for note in result.notes:
        assert note.startswith("a.jpg: the camera's date")
        assert word in note
        assert note.endswith("enter the plug's date.")


@given(exif=st.binary(max_size=80))
def test_no_camera_data_however_corrupt_stops_the_picture(exif: bytes) -> None:
    data = written(halves(), exif=b"Exif\x00\x00" + exif)
    assert seen(take_in_bytes(data, "a.jpg", TODAY)).size == (64, 48)


@given(at=st.integers(20, 160), byte=st.integers(0, 255))
def test_a_damaged_heic_is_read_or_refused_in_words(at: int, byte: int) -> None:
    data = bytearray(HEIC)
    data[at] = byte
    told = "a.heic: "
    try:
        seen(take_in_bytes(bytes(data), "a.heic", TODAY))
    except OwnerError as problem:
        told = str(problem)
    assert told.startswith("a.heic: ")


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@given(share=st.floats(0, 0.95))
def test_a_file_cut_short_is_refused(kind: str, share: float) -> None:
    rough = Image.fromarray(np.random.default_rng(7).integers(0, 255, (60, 80, 3), np.uint8))
    whole = written(rough, kind)
    refusal(whole[: int(len(whole) * share)])


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "the file is empty"),
        (b"Just a letter to the neighbors, renamed.", "choose a JPEG, PNG or HEIC file"),
        (b"%PDF-1.7 and so on and so forth", "save the page as a picture"),
        (written(halves(), "GIF"), "choose a JPEG, PNG or HEIC file"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "choose a JPEG, PNG or HEIC file"),
        (b"\xff\xd8\xff", "cannot be read; it may be cut short"),
        (b"\x89PNG\r\n\x1a\n" + bytes(40), "cannot be read; it may be cut short"),
        (b"\x00\x00\x00\x18ftypheic" + bytes(40), "cannot be read; it may be cut short"),
        (huge_jpeg(20_500, 20_500), "has 420 megapixels, more than the 400"),
        (huge_jpeg(65_500, 65_500), "has 4,290 megapixels"),
        (huge_jpeg(10_500, 10_000, progressive=True), "has 105 megapixels, more than the 100"),
        (huge_jpeg(15_000, 10_000), "cut short"),
    ],
)  # fmt: skip
def test_what_is_no_photograph_is_refused_with_the_mend(data: bytes, words: str) -> None:
    assert words in refusal(data)


def test_a_small_file_that_claims_a_huge_picture_is_refused_before_it_is_decoded() -> None:
    """A PNG of 2,500 megapixels whose header alone is whole (PNG, 11.2.2: 13 bytes of IHDR)."""
    header = struct.pack(">IIBBBBB", 50_000, 50_000, 8, 6, 0, 0, 0)
    part = b"IHDR" + header
    bomb = b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 13) + part
    bomb += struct.pack(">I", zlib.crc32(part)) + struct.pack(">I", 0) + b"IDAT" + bytes(4)
    assert "has 2,500 megapixels, more than the 100" in refusal(bomb)


def test_a_jpeg_in_several_passes_counts_as_one_that_fills_the_memory() -> None:
    scan_of_one = huge_jpeg(15_000, 10_000).replace(
        b"\xff\xda\x00\x0c\x03\x01\x00\x02\x00\x03\x00", b"\xff\xda\x00\x08\x01\x01\x00"
    )
    assert "has 150 megapixels, more than the 100" in refusal(scan_of_one)


def test_a_file_that_is_too_long_is_refused_unread(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "long.jpg"
    with path.open("wb") as handle:
        handle.truncate(photo_reading.MOST_BYTES + 1)
    monkeypatch.setattr(photo_reading, "_opened", None)
    with pytest.raises(OwnerError, match=r"^long.jpg: the file is larger than 200 MB; save"):
        take_in(path, TODAY)


def test_a_file_is_read_and_left_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "IMG 1.JPG"
    path.write_bytes(written(halves(), exif=camera_data("2026:05:08 09:00:00")))
    before = path.read_bytes()
    taken = take_in(path, TODAY)
    assert taken == take_in_bytes(before, path.name, TODAY)
    assert path.read_bytes() == before


def test_what_is_no_file_is_told(tmp_path: Path) -> None:
    with pytest.raises(OwnerError, match=r"^none.jpg: there is no such file in"):
        take_in(tmp_path / "none.jpg", TODAY)
    with pytest.raises(OwnerError, match="this is a folder"):
        take_in(tmp_path, TODAY)


@pytest.mark.skipif(os.name == "nt", reason="There are no named pipes among its files.")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe.jpg"
    os.mkfifo(pipe)
    with pytest.raises(OwnerError, match="this is not a file; choose a photograph"):
        take_in(pipe, TODAY)


def test_too_little_memory_is_the_owners_situation(monkeypatch: pytest.MonkeyPatch) -> None:
    def none_left(*_: object) -> Image.Image:
        raise MemoryError

    monkeypatch.setattr(photo_reading, "_plain_picture", none_left)
    assert "not enough memory" in refusal(written(halves()))


PEAK = """
import resource, sys
from datetime import date
from pathlib import Path
from lawnbook.store.photo_reading import take_in
import PIL.JpegImagePlugin, PIL.ImageCms
before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
taken = take_in(Path(sys.argv[1]), date(2026, 6, 15))
after = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
print(taken.width_px, taken.height_px, (after - before) // 1024)
"""


@pytest.mark.skipif(sys.platform != "linux", reason="Memory is counted otherwise elsewhere.")
def test_a_picture_of_200_megapixels_takes_a_small_part_of_its_memory(tmp_path: Path) -> None:
    """As red, green and blue it would fill 600 MB."""
    path = tmp_path / "large.jpg"
    Image.new("L", (16_384, 12_288), 90).save(path, quality=60)
    done = in_child(PEAK, path)
    assert done.returncode == 0, done.stderr
    width, height, megabytes = map(int, done.stdout.split())
    assert (width, height) == (2000, 1500)
    assert megabytes < 100


def test_it_may_be_done_beside_the_window() -> None:
    results: list[TakenIn] = []
    worker = threading.Thread(
        target=lambda: results.append(take_in_bytes(written(halves()), "a.jpg", TODAY))
    )
    worker.start()
    worker.join()
    assert results == [take_in_bytes(written(halves()), "a.jpg", TODAY)]
