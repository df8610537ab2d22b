"""Photographs for tests, made as a camera's or a stranger's file would be."""

import base64
import io
from typing import Any

import numpy as np
from PIL import Image

EXIF_PART, TAKEN, WRITTEN, TURNED, PLACE = 0x8769, 0x9003, 0x0132, 0x0112, 0x8825

HEIC = base64.b64decode(
    "AAAAHGZ0eXBoZWljAAAAAG1pZjFoZWljbWlhZgAAAeFtZXRhAAAAAAAAACFoZGxyAAAAAAAAAABwaWN0AAAAAAAA"
    "AAAAAAAAAAAAAA5waXRtAAAAAAACAAAAEGlkYXQAAAAAAEAAMAAAAExpbG9jAQAAAERAAAMAAQAAAAAAAAIFAAEA"
    "AAAAAAAAKgACAAEAAAAAAAAAAQAAAAAAAAAIAAMAAAAAAAACLwABAAAAAAAAAFYAAABNaWluZgAAAAAAAwAAABVp"
    "bmZlAgAAAQABAABodmMxAAAAABVpbmZlAgAAAAACAABncmlkAAAAABVpbmZlAgAAAQADAABFeGlmAAAAANVpcHJw"
    "AAAAs2lwY28AAABzaHZjQwEDcAAAAAAAAAAAAB7wAPz9+PgAAA8DIAABABhAAQwB//8DcAAAAwCQAAADAAADAB66"
    "AkAhAAEAJ0IBAQNwAAADAJAAAAMAAAMAHqAggQWW6uSmubAgAAADACAAAAMAISIAAQAGRAHBc8CJAAAAFGlzcGUA"
    "AAAAAAAAQAAAAEAAAAAUaXNwZQAAAAAAAABAAAAAMAAAABBwaXhpAAAAAAMICAgAAAAaaXBtYQAAAAAAAAACAAEC"
    "gQIAAgIDhAAAAChpcmVmAAAAAAAAAA5kaW1nAAIAAQABAAAADmNkc2MAAwABAAIAAACIbWRhdAAAACYoAa8ZgO9J"
    "pb//3Dmf9TYv+F+82tJsrY9Rli1kU39PxwJmA/txgAAAAABNTQAqAAAACAACAQ8AAgAAAAYAAAAmh2kABAAAAAEA"
    "AAAsAAAAAE1ha2VyAAABkAMAAgAAABQAAAA+AAAAADIwMjY6MDU6MDggMDk6MDA6MDAA"
)
"""64 by 48 px, red on the left and green on the right, of 8 May 2026; by libheif's encoder."""


def written(image: Image.Image, kind: str = "JPEG", **how: Any) -> bytes:
    """An image as a file's bytes."""
    out = io.BytesIO()
    image.save(out, kind, **how)
    return out.getvalue()


def halves(width: int = 64, height: int = 48) -> Image.Image:
    """A picture that is red on the left and green on the right."""
    pixels = np.zeros((height, width, 3), np.uint8)
    pixels[:, : width // 2] = (200, 40, 40)
    pixels[:, width // 2 :] = (40, 160, 60)
    return Image.fromarray(pixels)


def camera_data(
    taken: object = None, wrote: object = None, turned: int | None = None, place: bool = False
) -> bytes:
    """What a camera writes beside its picture."""
    exif = Image.Exif()
    exif[0x010F] = "Maker of the camera"
    if taken is not None:
        exif.get_ifd(EXIF_PART)[TAKEN] = taken
    if wrote is not None:
        exif[WRITTEN] = wrote
    if turned is not None:
        exif[TURNED] = turned
    if place:
        exif.get_ifd(PLACE).update({1: "N", 2: (40.0, 1.0, 2.0), 3: "W", 4: (105.0, 3.0, 4.0)})
    return exif.tobytes()


def huge_jpeg(width: int, height: int, *, progressive: bool = False) -> bytes:
    """The beginning of a JPEG that claims a size, with its first scan and no more."""
    kind, parts = (b"\xff\xc2" if progressive else b"\xff\xc0"), (1, 2, 3)
    frame = b"\x08" + height.to_bytes(2, "big") + width.to_bytes(2, "big") + b"\x03"
    frame += b"".join(bytes((part, 0x11, 0)) for part in parts)
    scan = b"\x03" + b"".join(bytes((part, 0)) for part in parts) + b"\x00\x3f\x00"
    return b"\xff\xd8" + _segment(kind, frame) + _segment(b"\xff\xda", scan) + b"\x00" * 64


def _segment(marker: bytes, body: bytes) -> bytes:
    return marker + (len(body) + 2).to_bytes(2, "big") + body
