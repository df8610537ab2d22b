"""A picture's bytes without what is written beside the picture: place, camera, comments.

The notebook takes pictures in without any of it. A yard file from elsewhere may bring some along,
and a picture that is handed over without the place must not tell it. JPEG (ITU-T T.81, annex B)
and PNG (ISO/IEC 15948) are taken apart by their marks, so that the picture itself stays as it is.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from types import MappingProxyType

from lawnbook.yard.notebook import Notebook, with_tables
from lawnbook.yard.pictures import Picture, sha256_of
from lawnbook.yard.records import Pictured

_JPEG, _PNG = b"\xff\xd8", b"\x89PNG\r\n\x1a\n"
_START_OF_SCAN, _END, _COMMENT = 0xDA, 0xD9, 0xFE
_APP_FIRST, _APP_LAST = 0xE0, 0xEF
_APPS_KEPT = MappingProxyType({0xE0: b"JFIF\0", 0xE2: b"ICC_PROFILE\0", 0xEE: b"Adobe"})
"""What a JPEG needs to be shown rightly: its density, its colours."""
_CHUNKS_KEPT = frozenset(
    {b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"gAMA", b"cHRM", b"sRGB", b"iCCP", b"pHYs"}
)
_HEAD = 8
_MARK_AFTER_SCAN = re.compile(rb"\xff[^\x00\xd0-\xd7\xff]", re.DOTALL)
"""Inside a scan a byte of all ones is followed by a zero, or by a mark to begin anew."""


def bare_bytes(data: bytes) -> bytes | None:
    """The picture without metadata; equal bytes where it has none.

    None for a JPEG or PNG that is not made as the standards say, and for any other kind: what is
    written in it cannot be known.
    """
    try:
        if data.startswith(_JPEG):
            return b"".join(_jpeg_pieces(data))
        if data.startswith(_PNG):
            return b"".join(_png_pieces(data))
    except (IndexError, ValueError):
        return None
    return None


def with_bare_pictures(notebook: Notebook) -> Notebook:
    """The notebook with pictures that tell nothing but what is to be seen on them.

    Those of plugs and those under the sketch. Each is read once, one after another. One that is no
    sound JPEG or PNG is left out.
    """
    tables = {
        "photos": [_bare(each) for each in notebook.photos.values()],
        "backdrops": [_bare(each) for each in notebook.backdrops.values()],
    }
    changed = {
        name: [each for each in bare if each is not None]
        for name, bare in tables.items()
        if any(
            one is not other for one, other in zip(notebook.table(name).values(), bare, strict=True)
        )
    }
    return with_tables(notebook, changed) if changed else notebook


def _bare(picture: Pictured) -> Pictured | None:
    whole = picture.data_b64
    data = whole.data()
    bare = bare_bytes(data)
    if bare is None:
        return None
    if bare == data:
        return picture
    sha256 = sha256_of(bare)
    held = Picture(sha256, lambda: bare_bytes(whole.data()) or b"")
    return replace(picture, sha256=sha256, data_b64=held)


def _jpeg_pieces(data: bytes) -> Iterator[bytes]:
    yield _JPEG
    at = len(_JPEG)
    while True:
        if data[at] != 0xFF:
            raise ValueError("no mark where one must stand")
        mark = data[at + 1]
        if mark == 0xFF:
            # Marks may be filled up by any number of these.
            at += 1
            continue
        if mark == _END:
            yield data[at : at + 2]
            return
        long = int.from_bytes(data[at + 2 : at + 4], "big")
        if long < 2 or at + 2 + long > len(data):
            raise ValueError("a segment that goes beyond the file")
        whole = data[at : at + 2 + long]
        if _is_kept(mark, whole[4:]):
            yield whole
        at += 2 + long
        if mark == _START_OF_SCAN:
            scanned = _MARK_AFTER_SCAN.search(data, at)
            if scanned is None:
                raise ValueError("a scan without an end")
            yield data[at : scanned.start()]
            at = scanned.start()


def _is_kept(mark: int, inside: bytes) -> bool:
    if mark == _COMMENT:
        return False
    if not _APP_FIRST <= mark <= _APP_LAST:
        return True
    start = _APPS_KEPT.get(mark)
    return start is not None and inside.startswith(start)


def _png_pieces(data: bytes) -> Iterator[bytes]:
    yield _PNG
    at = len(_PNG)
    while at < len(data):
        long = int.from_bytes(data[at : at + 4], "big")
        kind = data[at + 4 : at + _HEAD]
        whole = data[at : at + _HEAD + long + 4]
        if len(whole) < _HEAD + long + 4:
            raise ValueError("a chunk that goes beyond the file")
        if kind in _CHUNKS_KEPT:
            yield whole
        if kind == b"IEND":
            return
        at += _HEAD + long + 4
