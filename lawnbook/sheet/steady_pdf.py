"""A PDF that is the same for the same page, whenever and wherever it is made.

Qt writes the moment, the offset of the machine's clock and a random id into each; the offset would
tell the place besides. All are overwritten by others of the same length, so that the table of
places at the end of the file stays right. In what order the fonts stand hangs on a seed that Qt
draws when it starts; a settled one is lent to it while a document is painted.
"""

import hashlib
import re
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date

from PySide6.QtCore import QHashSeed

_HEAD_BYTES, _TAIL_BYTES = 16_384, 1024
"""Where Qt writes them: the document's information, its metadata, and the trailer."""
_INFO_DAY = re.compile(rb"(/(?:Creation|Mod)Date \(D:)(\d{14})([^)]*)\)")
_METADATA_DAY = re.compile(
    rb'(xmp:(?:Create|Modify|Metadata)Date=")(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d)([^"]*)"'
)
_UUID = re.compile(rb"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")
_ID = re.compile(rb"/ID \[ <[0-9a-f]+> <[0-9a-f]+> \]")
_DIGIT = re.compile(rb"[0-9]")


@contextmanager
def settled_order() -> Iterator[None]:
    """Let Qt put what it paints in here in the same order each time."""
    QHashSeed.setDeterministicGlobalSeed()
    try:
        yield
    finally:
        QHashSeed.resetRandomGlobalSeed()


def steady_pdf(data: bytes, on: date) -> bytes:
    """The PDF as of noon of a day, with an id made of its title and pages."""
    moment = f"{on:%Y%m%d}120000".encode()
    spelt = f"{on:%Y-%m-%d}T12:00:00".encode()

    def info(found: re.Match[bytes]) -> bytes:
        return found[1] + moment + _as_utc(found[3]) + b")"

    def metadata(found: re.Match[bytes]) -> bytes:
        return found[1] + spelt + _as_utc(found[3]) + b'"'

    head, middle, tail = _parts(data)
    head = _METADATA_DAY.sub(metadata, _INFO_DAY.sub(info, head))
    anonymous = _UUID.sub(_no_uuid, head)
    name = hashlib.sha256(anonymous + middle).hexdigest()
    uuid = f"{name[:8]}-{name[8:12]}-{name[12:16]}-{name[16:20]}-{name[20:32]}".encode()
    head = _UUID.sub(lambda _: uuid, head)
    tail = _ID.sub(lambda found: _id_of(uuid, found[0]), tail)
    return head + middle + tail


def _parts(data: bytes) -> tuple[bytes, bytes, bytes]:
    end = max(_HEAD_BYTES, len(data) - _TAIL_BYTES)
    return data[:_HEAD_BYTES], data[_HEAD_BYTES:end], data[end:]


def _as_utc(offset: bytes) -> bytes:
    return _DIGIT.sub(b"0", offset.replace(b"-", b"+"))


def _no_uuid(found: re.Match[bytes]) -> bytes:
    return b"0" * len(found[0])


def _id_of(uuid: bytes, before: bytes) -> bytes:
    made = b"/ID [ <" + uuid.hex().encode() + b"> <" + uuid.hex().encode() + b"> ]"
    return made if len(made) == len(before) else before
