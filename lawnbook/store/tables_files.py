"""A file of tables as sheets of cells: CSV in any of its usual forms, a zip of them, a workbook.

Nothing in a file from a stranger is reckoned out, fetched or unpacked without a bound. What cannot
be read is an OwnerError that names the file and the mend.
"""

import codecs
import io
import zipfile
import zlib
from collections.abc import Iterator
from datetime import date
from pathlib import Path, PurePosixPath

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.files import opened_to_read
from lawnbook.yard.problems import OwnerError

MOST_BYTES = 64 * 2**20
MOST_UNPACKED = 256 * 2**20
MOST_MEMBERS = 500
MOST_ROWS = 200_000
MOST_COLUMNS = 200
LAST_ROW = 1_048_576
"""The last row that a workbook's sheet can have."""

MOST_RATIO = 200
RATIO_FROM = 16 * 2**20
"""From this size on what is packed more than `MOST_RATIO` times is refused."""

_OLD_OFFICE = b"\xd0\xcf\x11\xe0"
_OPEN_DOCUMENT = b"application/vnd.oasis.opendocument"
_TABLES_IN_ZIP = (".csv", ".tsv")
_BROKEN = (
    zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, OSError,
    ValueError,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Unread:
    """A cell that says nothing by itself, such as a formula, and what to do about it."""

    sentence: str


Raw = str | float | bool | date | Unread | None


@dataclass(frozen=True, slots=True)
class Text:
    """A CSV table: what it is called, and its whole text."""

    name: str
    text: str


@dataclass(frozen=True, slots=True)
class Cells:
    """A sheet of a workbook: what it is called, and its rows that hold anything, by number."""

    name: str
    rows: tuple[tuple[int, tuple[Raw, ...]], ...]


def sheets_of(path: Path) -> tuple[Text | Cells, ...]:
    """The tables of a file as they stand. Raises OwnerError."""
    data = _bytes_of(path)
    if data.startswith(_OLD_OFFICE):
        mend = tr("save it as .xlsx without a password, or as CSV")
        raise OwnerError(
            tr(
                "{name}: an older or protected workbook cannot be read; {mend}.",
                name=path.name,
                mend=mend,
            )
        )
    if not data.startswith(b"PK"):
        return (Text(path.stem, text_of(data, path.name)),)
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            _refuse_bomb(archive, path.name)
            names = set(archive.namelist())
            if "mimetype" in names and archive.read("mimetype").startswith(_OPEN_DOCUMENT):
                raise OwnerError(
                    tr("{name}: save this workbook as .xlsx, then try again.", name=path.name)
                )
            if "xl/workbook.xml" not in names:
                return tuple(_members(archive, path.name))
    except _BROKEN as error:
        raise OwnerError(
            tr("{name}: the file is damaged; save or fetch it again.", name=path.name)
        ) from error
    from lawnbook.store.tables_workbook_in import read_workbook

    return read_workbook(data, path.name)


def is_blank(cell: Raw) -> bool:
    """Whether a cell shows nothing."""
    return cell is None or (isinstance(cell, str) and not cell.strip())


def text_of(data: bytes, name: str) -> str:
    """Text of UTF-8, marked or not, or of marked UTF-16. OwnerError for any other."""
    marked = data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    try:
        text = data.decode("utf-16" if marked else "utf-8-sig")
    except UnicodeDecodeError as error:
        raise OwnerError(_not_utf8(name)) from error
    if "\0" in text:
        raise OwnerError(_not_utf8(name))
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _not_utf8(name: str) -> str:
    # An older alphabet cannot be told from the others, and a wrong guess spoils every name.
    return tr(
        "{name}: the file is not UTF-8 text; save it as CSV UTF-8 or as .xlsx, then try again.",
        name=name,
    )


def _bytes_of(path: Path) -> bytes:
    with opened_to_read(path) as handle:
        data = handle.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        most = MOST_BYTES // 2**20
        raise OwnerError(
            tr(
                "{name}: the file is larger than {most} MB; take it in in parts.",
                name=path.name,
                most=most,
            )
        )
    return data


def _refuse_bomb(archive: zipfile.ZipFile, name: str) -> None:
    infos = archive.infolist()
    unpacked = sum(info.file_size for info in infos)
    packed = sum(info.compress_size for info in infos)
    if len(infos) > MOST_MEMBERS:
        raise OwnerError(
            tr(
                "{name}: more than {most_members} files are packed in it; take some out.",
                name=name,
                most_members=MOST_MEMBERS,
            )
        )
    if unpacked > MOST_UNPACKED or (unpacked > RATIO_FROM and unpacked > packed * MOST_RATIO):
        most = MOST_UNPACKED // 2**20
        told = tr("unpacked it would be {unpacked:,.0f} MB", unpacked=unpacked / 2**20)
        raise OwnerError(
            tr(
                "{name}: {told}, which no table needs (at most {most} MB); split it.",
                name=name,
                told=told,
                most=most,
            )
        )
    if any(info.flag_bits & 1 for info in infos):
        raise OwnerError(tr("{name}: it is locked by a password; save it without one.", name=name))


def _members(archive: zipfile.ZipFile, name: str) -> Iterator[Text]:
    found = False
    for info in archive.infolist():
        member = PurePosixPath(info.filename)
        if member.suffix.lower() in _TABLES_IN_ZIP and member.parts[0] != "__MACOSX":
            found = True
            yield Text(member.stem, text_of(archive.read(info), f"{name}: {member.name}"))
    if not found:
        raise OwnerError(
            tr("{name}: there is no .csv file in it; pack the tables as CSV files.", name=name)
        )
