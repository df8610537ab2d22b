"""A photograph taken in: read safely, turned upright, reduced, and freed of all but its picture.

Whatever a file claims is looked at before its picture is decoded, so that neither a huge nor a
hostile one can fill the memory. What is kept is a plain JPEG in sRGB without place, camera, or
words; of the camera's data only the day is read, to be proposed for the plug. A picture to trace
on is kept larger, and one of few tones, such as a scanned plan, as PNG where that is smaller.
"""

import io
import re
import struct
import warnings
import zlib
from datetime import date
from pathlib import Path
from typing import IO, TYPE_CHECKING

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.files import told, unreadable
from lawnbook.store.heic_apart import NO_READER, TOO_LARGE, as_png
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from PIL.Image import Exif, Image
    from PIL.ImageFile import ImageFile

LONGEST_SIDE_PX = 2_000
JPEG_QUALITY = 85
FEW_COLOURS = 4_096
MOST_BYTES = 200 * 2**20
MOST_MEGAPIXELS = 100
MOST_MEGAPIXELS_IN_STRIPES = 400
"""For a JPEG whose rows can be read and reduced one after another, as cameras write them."""
EARLIEST_PHOTO = date(1990, 1, 1)
"""An earlier day is that of a clock that was never set: no camera wrote one then (from memory)."""

_HEIC_BRANDS = frozenset(
    (b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"hevm", b"hevs", b"mif1", b"msf1")
)
_EXIF_PART, _TAKEN, _WRITTEN, _TURNED = 0x8769, 0x9003, 0x0132, 0x0112
_EXIF_DAY = re.compile(r"([0-9]{4})[:/.-]([0-9]{2})[:/.-]([0-9]{2})(?![0-9]).*", re.DOTALL)
_AS_JPEG = tr("save it as a JPEG, then add that")
_CUT_SHORT = tr("it may be cut short or damaged; copy it from the camera once more")
_BROKEN = (
    # What Pillow and the readers beneath it raise for a file that is not what it says.
    OSError, SyntaxError, ValueError, TypeError, LookupError, ArithmeticError, RuntimeError,
    EOFError, AttributeError, AssertionError, struct.error, zlib.error,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Keeping:
    """How a picture is kept: at most so many pixels a side, and as PNG where that is smaller.

    Only a picture of few tones is tried as PNG. `called` is what the owner is told of it.
    """

    longest_side_px: int = LONGEST_SIDE_PX
    png_where_smaller: bool = False
    called: str = "photograph"


AS_PHOTO = Keeping()
TO_TRACE_ON = Keeping(4_000, png_where_smaller=True, called="picture")


@dataclass(frozen=True, slots=True)
class TakenIn:
    """A photograph as it will be kept: its file's bytes, its size, what its camera said of the day.

    `taken_on` is None where the camera wrote no day, or none that can be true; `notes` then says
    which, as a sentence for the owner.
    """

    data: bytes
    width_px: int
    height_px: int
    taken_on: date | None
    notes: tuple[str, ...] = ()


def take_in(path: Path, today: date, keeping: Keeping = AS_PHOTO) -> TakenIn:
    """A photograph's file, read. Raises OwnerError, with the file and the mend, if it cannot be."""
    try:
        if path.exists() and not path.is_file() and not path.is_dir():
            # A device or a pipe would never end.
            raise OwnerError(
                tr(
                    "{path}: this is not a file; choose a {called}.",
                    path=told(path),
                    called=keeping.called,
                )
            )
        with path.open("rb") as handle:
            return _taken_in(handle, told(path), today, keeping)
    except OSError as error:
        raise OwnerError(unreadable(path, error)) from error


def take_in_bytes(data: bytes, name: str, today: date, keeping: Keeping = AS_PHOTO) -> TakenIn:
    """As `take_in`, of bytes that were pasted or dropped; `name` is what they are called."""
    return _taken_in(io.BytesIO(data), name, today, keeping)


def _taken_in(handle: IO[bytes], name: str, today: date, keeping: Keeping) -> TakenIn:
    from PIL.Image import DecompressionBombError

    _refuse_length(handle, name)
    with warnings.catch_warnings():
        # Of sizes and corrupt camera data we judge ourselves.
        warnings.simplefilter("ignore")
        try:
            image = _opened(handle, name)
            _refuse_size(image, handle, name)
            exif = _exif_of(image)
            picture = _plain_picture(image, exif, keeping.longest_side_px)
            data = _as_kept(picture, keeping)
        except MemoryError as error:
            raise OwnerError(
                tr(
                    "{name}: there is not enough memory to read it; close other programs, or add a "
                    "smaller picture.",
                    name=name,
                )
            ) from error
        except DecompressionBombError as error:
            # Some of Pillow's readers look at the size themselves before we can.
            raise OwnerError(_too_large(name, tr("too many"))) from error
        except _BROKEN as error:
            cannot = tr("this {called} cannot be read", called=keeping.called)
            raise OwnerError(f"{name}: {cannot}; {_CUT_SHORT}.") from error
        taken_on, notes = _day_of(exif, name, today)
    return TakenIn(data, picture.width, picture.height, taken_on, notes)


def _refuse_length(handle: IO[bytes], name: str) -> None:
    length = handle.seek(0, io.SEEK_END)
    handle.seek(0)
    if length == 0:
        raise OwnerError(
            tr("{name}: the file is empty; copy it from the camera once more.", name=name)
        )
    if length > MOST_BYTES:
        most = MOST_BYTES // 2**20
        raise OwnerError(
            tr(
                "{name}: the file is larger than {most} MB; save a smaller copy as JPEG.",
                name=name,
                most=most,
            )
        )


def _opened(handle: IO[bytes], name: str) -> "ImageFile":
    """The picture with its header read, by what its first bytes say and not by its name.

    The readers are called by themselves: the general way in would try every kind of file there
    is, and warn of size by a rule of its own.
    """
    start = handle.read(16)
    handle.seek(0)
    if start.startswith(b"\xff\xd8\xff"):
        from PIL.JpegImagePlugin import JpegImageFile

        return JpegImageFile(handle)
    if start.startswith(b"\x89PNG\r\n\x1a\n"):
        from PIL.PngImagePlugin import PngImageFile

        return PngImageFile(handle)
    if start[:4] == b"RIFF" and start[8:12] == b"WEBP":
        from PIL.WebPImagePlugin import WebPImageFile

        return WebPImageFile(handle)
    if start[4:8] == b"ftyp" and start[8:12] in _HEIC_BRANDS:
        return _opened_heic(handle, name)
    if start.startswith(b"%PDF"):
        raise OwnerError(
            tr(
                "{name}: a PDF cannot be read here; open it, save the page as a picture (PNG "
                "or JPEG) and add that.",
                name=name,
            )
        )
    raise OwnerError(
        tr(
            "{name}: this is not a photograph that can be read here; choose a JPEG, PNG or "
            "HEIC file.",
            name=name,
        )
    )


def _opened_heic(handle: IO[bytes], name: str) -> "ImageFile":
    from PIL.PngImagePlugin import PngImageFile

    status, png = as_png(handle.read(), MOST_MEGAPIXELS)
    if status == NO_READER:
        raise OwnerError(
            tr(
                "{name}: HEIC photographs cannot be read on this computer; {as_jpeg}.",
                name=name,
                as_jpeg=_AS_JPEG,
            )
        )
    if status == TOO_LARGE:
        raise OwnerError(_too_large(name, tr("too many")))
    if status:
        raise ValueError("the reader of HEIC gave up")
    return PngImageFile(io.BytesIO(png))


def _refuse_size(image: "ImageFile", handle: IO[bytes], name: str) -> None:
    megapixels = image.width * image.height / 1e6
    most = MOST_MEGAPIXELS
    if image.format == "JPEG" and _reads_in_stripes(handle):
        most = MOST_MEGAPIXELS_IN_STRIPES
    if megapixels > most:
        raise OwnerError(_too_large(name, f"{megapixels:,.0f}", most))


def _too_large(name: str, megapixels: str, most: int = MOST_MEGAPIXELS) -> str:
    told = tr(
        "the picture has {megapixels} megapixels, more than the {most} that can be read",
        megapixels=megapixels,
        most=most,
    )
    return tr("{name}: {told}; save a smaller copy as JPEG.", name=name, told=told)


def _reads_in_stripes(handle: IO[bytes]) -> bool:
    """Whether a JPEG comes in one pass over its rows (ITU-T T.81: sequential, one scan for all).

    Any other has to be held whole in memory before its first row can be seen.
    """
    back = handle.tell()
    handle.seek(2)
    parts_of_frame = 0
    try:
        while (head := handle.read(4)) and len(head) == 4 and head[0] == 0xFF:
            marker, length = head[1], int.from_bytes(head[2:], "big")
            if marker == 0xFF:
                handle.seek(-3, io.SEEK_CUR)
                continue
            body = handle.read(max(length - 2, 0))
            if marker in (0xC0, 0xC1):
                parts_of_frame = body[5] if len(body) > 5 else 0
            if marker == 0xDA:
                return bool(body) and body[0] == parts_of_frame
        return False
    finally:
        handle.seek(back)


def _exif_of(image: "ImageFile") -> "Exif | None":
    """What the camera wrote, None where it cannot be read; it never stops the picture."""
    try:
        return image.getexif()
    except _BROKEN:
        return None


def _plain_picture(image: "ImageFile", exif: "Exif | None", longest_side_px: int) -> "Image":
    """The picture upright, in sRGB, on white, reduced, with nothing else attached."""
    from PIL import Image

    profile = image.info.get("icc_profile")
    scale = min(1.0, longest_side_px / max(image.size))
    size = (max(1, round(image.width * scale)), max(1, round(image.height * scale)))
    if image.format == "JPEG":
        image.draft(None, size)
    image.load()
    small = _in_eight_bits(image)
    if small.size != size:
        small = small.resize(size, Image.Resampling.LANCZOS, reducing_gap=3.0)
    upright = _turned(_in_srgb(_on_white(small), profile), exif)
    plain = Image.new("RGB", upright.size)
    plain.paste(upright)
    return plain


def _in_eight_bits(image: "Image") -> "Image":
    """The picture in a mode that can be reduced; sixteen bits of gray become eight."""
    if image.mode.startswith(("I", "F")):
        import numpy as np
        from PIL import Image

        return Image.fromarray((np.asarray(image).astype(np.uint32) >> 8).astype(np.uint8))
    if image.mode in ("P", "PA", "1") or "transparency" in image.info:
        return image.convert("RGBA")
    return image


def _on_white(image: "Image") -> "Image":
    if image.mode not in ("RGBA", "LA", "RGBa", "La"):
        return image
    from PIL import Image

    full = image.convert("RGBA")
    white = Image.new("RGB", full.size, "white")
    white.paste(full, mask=full.getchannel("A"))
    return white


def _in_srgb(image: "Image", profile: object) -> "Image":
    """The picture in sRGB, by its own colour profile where it has one that fits."""
    from PIL import ImageCms

    if isinstance(profile, bytes) and profile:
        try:
            own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            srgb = ImageCms.createProfile("sRGB")
            shown = ImageCms.profileToProfile(image, own, srgb, outputMode="RGB")
        except (ImageCms.PyCMSError, *_BROKEN):
            return image.convert("RGB")
        if shown is not None:
            return shown
    return image.convert("RGB")


def _turned(image: "Image", exif: "Exif | None") -> "Image":
    """The picture as the camera was held (Exif's Orientation, 2 to 8)."""
    from PIL.Image import Transpose

    turns = {
        2: Transpose.FLIP_LEFT_RIGHT,
        3: Transpose.ROTATE_180,
        4: Transpose.FLIP_TOP_BOTTOM,
        5: Transpose.TRANSPOSE,
        6: Transpose.ROTATE_270,
        7: Transpose.TRANSVERSE,
        8: Transpose.ROTATE_90,
    }
    held = exif.get(_TURNED) if exif is not None else None
    turn = turns.get(held) if isinstance(held, int) else None
    return image if turn is None else image.transpose(turn)


def _as_jpeg(picture: "Image") -> bytes:
    written = io.BytesIO()
    picture.save(written, "JPEG", quality=JPEG_QUALITY, optimize=True)
    return written.getvalue()


def _as_kept(picture: "Image", keeping: Keeping) -> bytes:
    """The picture's bytes: JPEG, or a PNG without loss where that is wanted and no larger."""
    jpeg = _as_jpeg(picture)
    if not keeping.png_where_smaller:
        return jpeg
    red, green, blue = picture.split()
    gray = red.tobytes() == green.tobytes() == blue.tobytes()
    # A photograph has more colours than this, and would take seconds to write for nothing.
    if not gray and picture.getcolors(FEW_COLOURS) is None:
        return jpeg
    written = io.BytesIO()
    (red if gray else picture).save(written, "PNG")
    return min(written.getvalue(), jpeg, key=len)


def _day_of(exif: "Exif | None", name: str, today: date) -> tuple[date | None, tuple[str, ...]]:
    """The day the photograph was taken, and a note where the camera's cannot be true."""
    written = _written_day(exif)
    if not written:
        return None, ()
    match = _EXIF_DAY.fullmatch(written)
    try:
        taken = date(*map(int, match.groups())) if match is not None else None
    except ValueError:
        taken = None
    if taken is None:
        return None, (
            tr("{name}: the camera's date cannot be read; enter the plug's date.", name=name),
        )
    if taken > today:
        why = tr("the camera's date, {taken}, is in the future", taken=day(taken))
    elif taken < EARLIEST_PHOTO:
        why = tr("the camera's date, {taken}, is too long ago to be true", taken=day(taken))
    else:
        return taken, ()
    return None, (tr("{name}: {why}; enter the plug's date.", name=name, why=why),)


def _written_day(exif: "Exif | None") -> str:
    """When it was taken, or else when the file was written, as the camera wrote it; "" if never.

    Exif leaves a day that is not known blank but for its colons.
    """
    if exif is None:
        return ""
    try:
        values = (exif.get_ifd(_EXIF_PART).get(_TAKEN), exif.get(_WRITTEN))
    except _BROKEN:
        return "?"
    for value in values:
        text = value.decode("latin-1") if isinstance(value, bytes) else str(value or "")
        if text.strip(" :\x00"):
            return text.strip(" \x00")
    return ""
