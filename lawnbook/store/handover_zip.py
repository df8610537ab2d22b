"""The zip of a handover on its way to the disk: one member after another, the same for the same.

Every member bears noon of the day of the handover and the same rights, so that the same notebook
on the same day gives the same file. What is packed already is stored, the rest is deflated.
"""

import shutil
import zipfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.files import refuse_missing_folder, refuse_other_file, unwritable, written_whole
from lawnbook.yard.problems import OwnerError

ZIP_START = b"PK"
_EARLIEST_YEAR, _LATEST_YEAR = 1980, 2107
"""A zip knows no other years (APPNOTE.TXT 4.4.6)."""
_FILE_RIGHTS = 0o100644 << 16
_UNIX = 3


@dataclass(frozen=True, slots=True)
class Member:
    """A file inside the zip: its name, and its size in bytes before it was packed."""

    name: str
    size: int


class HandoverZip:
    """A zip that is being written. `between` is called after each member and may raise."""

    def __init__(self, archive: zipfile.ZipFile, on: date, between: Callable[[str], None]) -> None:
        self._archive = archive
        self._time = (min(max(on.year, _EARLIEST_YEAR), _LATEST_YEAR), on.month, on.day, 12, 0, 0)
        self._between = between
        self.members: list[Member] = []

    def add(self, name: str, data: bytes, *, packed: bool = False) -> None:
        """Add a file of these bytes; `packed` stores them as they are."""
        info = self._info(name, packed=packed)
        self._archive.writestr(info, data, compresslevel=None if packed else 6)
        self._told(name, len(data))

    def add_file(self, name: str, path: Path) -> None:
        """Add a file from the disk, piece by piece."""
        info = self._info(name, packed=False)
        # The size decides whether the member needs the large form, and is known beforehand.
        info.file_size = path.stat().st_size
        with path.open("rb") as source, self._archive.open(info, "w") as target:
            shutil.copyfileobj(source, target, 2**20)
        self._told(name, info.file_size)

    def _info(self, name: str, *, packed: bool) -> zipfile.ZipInfo:
        info = zipfile.ZipInfo(name, self._time)
        info.external_attr = _FILE_RIGHTS
        info.create_system = _UNIX
        info.compress_type = zipfile.ZIP_STORED if packed else zipfile.ZIP_DEFLATED
        return info

    def _told(self, name: str, size: int) -> None:
        self.members.append(Member(name, size))
        self._between(name)


@contextmanager
def handover_zip(
    path: Path,
    on: date,
    between: Callable[[str], None],
    last: Callable[[], None] = lambda: None,
) -> Iterator[HandoverZip]:
    """A zip that takes the place of `path` once it is whole, or never.

    `last` is called just before it does, and may raise. OwnerError where the place cannot be
    written to, or the disk is full.
    """
    refuse_missing_folder(path)
    refuse_other_file(path, ZIP_START, tr("a zip file"))
    with written_whole(path, last) as fresh:
        try:
            with zipfile.ZipFile(fresh, "w", zipfile.ZIP_DEFLATED) as archive:
                yield HandoverZip(archive, on, between)
        except OSError as error:
            raise OwnerError(unwritable(path, error)) from error
