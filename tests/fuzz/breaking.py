"""Ways to break a file: bits, cuts, splices, words of its own kind, numbers that no yard has.

All of it follows from one `random.Random`, so that a case is the same whenever its number is.
"""

import random
import re
from collections.abc import Callable, Sequence

_WORDS = """\
NaN Infinity -Infinity 1e999 -1e999 1e308 1e-320 -0 0 00 9223372036854775808 -1 1_000 0x10 1,5 +1
999999999999999999999999 0.1.2 ٣ null true false [] {} [[ ]] {{ }} "" ' , ; : \\ / ../../x C:\\x CON
\\u0000 \\ud800 \\u202e é ﬀ 庭 \u202e \ufeff 0000-00-00 9999-12-31 2026-02-30 1/2/2026 13.13.2026
2026-W01-1 20260615 T M -9999 =1+1 @SUM(A1) -- OR <!DOCTYPE <!ENTITY &a; <![CDATA[ ]]> <?xml </ > <
coordinates Polygon MultiPolygon GeometryCollection geometries Feature properties outerBoundaryIs
LinearRing Placemark name date tmin tmax rain zone product pounds id weather_csv format version
zones outline_ft data_b64 sha256 marks __class__ .. ~ $HOME"""
WORDS: tuple[bytes, ...] = (
    *(word.encode() for word in _WORDS.split()),
    *(
        b"\0",
        b"\n",
        b"\r\n",
        b"\t",
        b"\xff",
        b"\xff\xfe",
        b"\xc3\x28",
        b"\xed\xa0\x80",
        b"PK\x03\x04",
    ),
)
"""What may stand in any of the files, and means something to one reader or another."""

_NUMBER = re.compile(rb"-?[0-9]+(?:\.[0-9]+)?")
_MOST_TIMES = 6
_LONGEST = 400_000


def broken(seeds: Sequence[bytes], chance: random.Random) -> bytes:
    """One of the seeds, broken in one to six ways."""
    data = bytearray(chance.choice(seeds))
    for _ in range(chance.randint(1, _MOST_TIMES)):
        chance.choice(_WAYS)(data, seeds, chance)
    return bytes(data[:_LONGEST])


def _at(data: bytearray, chance: random.Random) -> int:
    return chance.randint(0, len(data))


def _span(data: bytearray, chance: random.Random) -> slice:
    start = _at(data, chance)
    return slice(start, start + chance.choice((1, 2, 4, 16, 100, 1_000)))


def _bit(data: bytearray, seeds: Sequence[bytes], chance: random.Random) -> None:
    if data:
        data[chance.randrange(len(data))] ^= 1 << chance.randrange(8)


def _byte(data: bytearray, seeds: Sequence[bytes], chance: random.Random) -> None:
    if data:
        data[chance.randrange(len(data))] = chance.choice((0, 1, 0x7F, 0x80, 0xFF, 0x22, 0x2C))


def _cut(data: bytearray, seeds: Sequence[bytes], chance: random.Random) -> None:
    del data[_at(data, chance) :]


def _take_out(data: bytearray, seeds: Sequence[bytes], chance: random.Random) -> None:
    del data[_span(data, chance)]


def _again(data: bytearray, seeds: Sequence[bytes], chance: random.Random) -> None:
    piece = bytes(data[_span(data, chance)]) * chance.choice((1, 1, 2, 50))
    at = _at(data, chance)
    data[at:at] = piece


def _splice(data: bytearray, seeds: Sequence[bytes], chance: random.Random) -> None:
    other = chance.choice(seeds)
    at, start = _at(data, chance), chance.randint(0, len(other))
    data[at:at] = other[start : start + chance.choice((10, 100, 5_000))]


def _word(data: bytearray, seeds: Sequence[bytes], chance: random.Random) -> None:
    at = _at(data, chance)
    data[at:at] = chance.choice(WORDS) * chance.choice((1, 1, 1, 1, 2_000))


def _number(data: bytearray, seeds: Sequence[bytes], chance: random.Random) -> None:
    """A number of the file becomes another one, or a word."""
    found = _NUMBER.search(bytes(data), _at(data, chance))
    if found is not None:
        data[found.start() : found.end()] = chance.choice(WORDS)


def _line(data: bytearray, seeds: Sequence[bytes], chance: random.Random) -> None:
    """Lines change places, come twice or go."""
    lines = bytes(data).split(b"\n")
    first, second = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[first : first + 1] = [lines[second]] * chance.choice((0, 1, 2, 20))
    data[:] = b"\n".join(lines)


_WAYS: tuple[Callable[[bytearray, Sequence[bytes], random.Random], None], ...] = (
    _bit, _byte, _cut, _take_out, _again, _splice, _word, _word, _number, _number, _number, _line,
)  # fmt: skip
