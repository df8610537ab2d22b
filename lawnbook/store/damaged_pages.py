"""The pages of a database file that may be damaged, read without SQLite and without trust.

By SQLite's own description of its file (sqlite.org/fileformat2.html: 1.3 the header, 1.6 B-tree
pages, 1.6.3 overflow pages, 2.1 records). Every number from the file is checked against the page
or the file before it is used; what does not fit is a DamagedError. Nothing of the file is executed.
"""

import errno
import os
import struct
from collections.abc import Iterator
from typing import IO

from lawnbook.frozen import dataclass
from lawnbook.store.migrations import APPLICATION_ID

LEAF, INTERIOR, INDEX_LEAF, INDEX_INTERIOR = 0x0D, 0x05, 0x0A, 0x02
"""The kinds of B-tree pages, by their first byte."""

Cell = str | int | float | bytes | None

_KINDS = frozenset((LEAF, INTERIOR, INDEX_LEAF, INDEX_INTERIOR))
_MAGIC = b"SQLite format 3\x00"
_USUAL_SIZE = 4096
_SIZES = tuple(2**power for power in range(9, 17))
_SAMPLED = 64
_LEAST_FITTING = 0.2
_LARGEST_CELL = 128 * 2**20
_FIRST_SKIPS = 100
_PIECE = 2**20
_INTEGER_BYTES = (0, 1, 2, 3, 4, 6, 8)
_REAL, _ZERO, _ONE, _FIRST_BLOB = 7, 8, 9, 12


class DamagedError(ValueError):
    """A page, cell or record that cannot be what it says."""


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a table: its number in SQLite's own order, and its cells."""

    rowid: int
    cells: tuple[Cell, ...]


class Pages:
    """A file's pages, by number from 1."""

    def __init__(self, handle: IO[bytes]) -> None:
        """Take an open file and find its page size."""
        self._handle = handle
        self._bytes = handle.seek(0, 2)
        header = self._at(0, _FIRST_SKIPS).ljust(_FIRST_SKIPS, b"\x00")
        self.size = self._likely_size(header)
        # What is past the last whole page is part of a page that was cut.
        self.count = -(-self._bytes // self.size)
        self.told_count = int.from_bytes(header[28:32], "big")
        self.has_header = header.startswith(_MAGIC)
        trusted = self.has_header or self.told_count == self.count
        self.version = int.from_bytes(header[60:64], "big") if trusted else 0
        self.is_notebook = int.from_bytes(header[68:72], "big") == APPLICATION_ID
        self.first_free = int.from_bytes(header[32:36], "big") if trusted else 0

    @property
    def looks_like_one(self) -> bool:
        """Whether this can have been a notebook: its mark, or pages as a database has them."""
        return self.is_notebook or self._fitting(self.size) >= _LEAST_FITTING

    @property
    def is_cut(self) -> bool:
        """Whether the file is shorter than it says, or ends within a page."""
        return self._bytes % self.size != 0 or (self.has_header and self.count < self.told_count)

    def page(self, number: int) -> bytes:
        """A page's bytes, shorter where the file was cut; DamagedError where there is none."""
        if not 1 <= number <= self.count:
            raise DamagedError(f"page {number}")
        return self._at((number - 1) * self.size, self.size)

    def kind(self, number: int) -> int:
        """A page's first byte, which says what kind it is; -1 where there is none."""
        try:
            page = self.page(number)
        except DamagedError:
            return -1
        at = _start(number)
        return page[at] if len(page) > at else -1

    def trees(self) -> Iterator[tuple[int, int]]:
        """Number and kind of every page that begins as one of a B-tree does, but the first.

        The file is read in large pieces, and its holes are passed over: a file may be far larger
        than what is in it.
        """
        start = 0
        while (start := self._written_from(start)) < self._bytes:
            piece = self._at(start, _PIECE)
            if not piece:
                return
            first = start // self.size + 1
            for number, kind in enumerate(piece[:: self.size], first):
                if kind in _KINDS and number > 1:
                    yield number, kind
            start += _PIECE

    def free(self) -> frozenset[int]:
        """The pages that hold nothing any more, as far as their list can be followed."""
        found: set[int] = set()
        trunk = self.first_free
        while trunk and trunk not in found and 1 <= trunk <= self.count:
            page = self.page(trunk)
            if len(page) < self.size:
                break
            found.add(trunk)
            count = min(int.from_bytes(page[4:8], "big"), self.size // 4 - 2)
            found.update(struct.unpack_from(f">{count}I", page, 8))
            trunk = int.from_bytes(page[:4], "big")
        return frozenset(found)

    def payload(self, page: bytes, at: int, length: int, in_index: bool) -> bytes:
        """The bytes of a cell that begins at a place of a page, with those on overflow pages."""
        if not 0 <= length <= min(_LARGEST_CELL, self._bytes):
            raise DamagedError("length")
        local = self._local(length, in_index)
        end = at + local + (4 if local < length else 0)
        if end > len(page):
            raise DamagedError("cell")
        if local == length:
            return page[at:end]
        held = bytearray(page[at : at + local])
        following = int.from_bytes(page[end - 4 : end], "big")
        seen: set[int] = set()
        while len(held) < length:
            if following in seen:
                raise DamagedError("overflow")
            seen.add(following)
            piece = self.page(following)
            if len(piece) < 5 or following == 1:
                raise DamagedError("overflow")
            following = int.from_bytes(piece[:4], "big")
            held += piece[4 : 4 + min(self.size - 4, length - len(held))]
            if len(piece) < self.size and len(held) < length:
                raise DamagedError("overflow")
        return bytes(held)

    def _local(self, length: int, in_index: bool) -> int:
        """How many bytes of a payload lie on its own page (fileformat2, 1.6)."""
        usable = self.size
        most = (usable - 12) * 64 // 255 - 23 if in_index else usable - 35
        if length <= most:
            return length
        least = (usable - 12) * 32 // 255 - 23
        rest = least + (length - least) % (usable - 4)
        return rest if rest <= most else least

    def _written_from(self, start: int) -> int:
        """Where the piece begins that has the next bytes ever written, as far as that is known."""
        if not hasattr(os, "SEEK_DATA"):
            return start
        try:
            found = self._handle.seek(start, os.SEEK_DATA)
        except OSError as error:
            # No such bytes are left; any other answer means that the file system cannot say.
            return self._bytes if error.errno == errno.ENXIO else start
        return found - found % _PIECE

    def _at(self, start: int, length: int) -> bytes:
        self._handle.seek(start)
        return self._handle.read(length)

    def _likely_size(self, header: bytes) -> int:
        """The header's page size if pages begin where it says, else the usual one, else the best.

        Larger sizes fit too, as every fourth page is where one of four times the size begins.
        """
        told = int.from_bytes(header[16:18], "big")
        told = 65536 if told == 1 else told
        for size in (told, _USUAL_SIZE):
            if size in _SIZES and self._fitting(size) >= _LEAST_FITTING:
                return size
        best: int = max((_USUAL_SIZE, *_SIZES), key=self._fitting)
        return best

    def _fitting(self, size: int) -> float:
        """The share of pages of this size that begin as B-tree pages do, and are no blanks."""
        count = min(_SAMPLED, self._bytes // size)
        starts = [self._at(_start(n + 1) + n * size, 8) for n in range(count)]
        fits = [len(each) == 8 and each[0] in _KINDS and each[7] <= 60 for each in starts]
        return sum(fits) / count if count else -1.0


def cells_of(number: int, page: bytes) -> list[int]:
    """Where the cells of a B-tree page begin; DamagedError where its head cannot be."""
    at = _start(number)
    head = 12 if page[at : at + 1] and page[at] in (INTERIOR, INDEX_INTERIOR) else 8
    if len(page) < at + head:
        raise DamagedError("page")
    count = int.from_bytes(page[at + 3 : at + 5], "big")
    if at + head + 2 * count > len(page):
        raise DamagedError("cells")
    return list(struct.unpack_from(f">{count}H", page, at + head))


def children_of(number: int, page: bytes) -> list[int]:
    """The pages below an interior one, in order."""
    at = _start(number)
    places = cells_of(number, page)
    below = [int.from_bytes(page[each : each + 4], "big") for each in places]
    return [*below, int.from_bytes(page[at + 8 : at + 12], "big")]


def row_at(pages: Pages, page: bytes, at: int) -> Row:
    """The row of a cell on a table's leaf."""
    length, at = _varint(page, at)
    rowid, at = _varint(page, at)
    return Row(_signed(rowid), record(pages.payload(page, at, length, in_index=False)))


def entry_at(pages: Pages, page: bytes, at: int, kind: int) -> tuple[Cell, ...]:
    """The record of a cell on a page of an index."""
    length, at = _varint(page, at + (4 if kind == INDEX_INTERIOR else 0))
    return record(pages.payload(page, at, length, in_index=True))


def record(payload: bytes) -> tuple[Cell, ...]:
    """The cells of a record; DamagedError where its lengths do not fit each other."""
    head, at = _varint(payload, 0)
    kinds = []
    while at < head:
        kind, at = _varint(payload, at)
        kinds.append(kind)
    if at != head:
        raise DamagedError("record")
    return tuple(_values(payload, at, kinds))


def _values(payload: bytes, at: int, kinds: list[int]) -> Iterator[Cell]:
    for kind in kinds:
        if kind in (10, 11):
            raise DamagedError("type")
        length = (kind - _FIRST_BLOB) // 2 if kind >= _FIRST_BLOB else _fixed(kind)
        piece = payload[at : at + length]
        if len(piece) != length:
            raise DamagedError("record")
        yield _value(kind, piece)
        at += length
    if at != len(payload):
        raise DamagedError("record")


def _fixed(kind: int) -> int:
    return 8 if kind == _REAL else 0 if kind in (_ZERO, _ONE) else _INTEGER_BYTES[kind]


def _value(kind: int, piece: bytes) -> Cell:
    if kind == 0:
        return None
    if kind in (_ZERO, _ONE):
        return kind - _ZERO
    if kind == _REAL:
        return float(struct.unpack(">d", piece)[0])
    if kind < _REAL:
        return int.from_bytes(piece, "big", signed=True)
    if kind % 2 == 0:
        return piece
    try:
        return piece.decode("utf-8")
    except UnicodeDecodeError as error:
        raise DamagedError("text") from error


def _varint(data: bytes, at: int) -> tuple[int, int]:
    """SQLite's integer of one to nine bytes, and where the next one begins."""
    value = 0
    for n in range(9):
        if not 0 <= at + n < len(data):
            raise DamagedError("integer")
        byte = data[at + n]
        if n == 8:
            return value << 8 | byte, at + 9
        value = value << 7 | byte & 0x7F
        if byte < 0x80:
            return value, at + n + 1
    raise DamagedError("integer")


def _signed(value: int) -> int:
    return value - 2**64 if value >= 2**63 else value


def _start(number: int) -> int:
    """Where a page's head begins: the first page has the file's header before it."""
    return _FIRST_SKIPS if number == 1 else 0
