"""Ways to damage a copy of a file, each with what was done so that it can be had again."""

import random
from dataclasses import dataclass

PAGE = 4096
_SECTOR = 512


@dataclass(frozen=True, slots=True)
class Harm:
    """Bytes that were put over others, by their place, and where the file was cut, if it was."""

    kind: str
    flips: tuple[tuple[int, bytes], ...] = ()
    cut_at: int | None = None

    def done_to(self, data: bytes) -> bytes:
        """The damaged file."""
        harmed = bytearray(data)
        for at, over in self.flips:
            harmed[at : at + len(over)] = over
        return bytes(harmed[: self.cut_at])


def random_harm(data: bytes, chance: random.Random) -> Harm:
    """One kind of damage: some bytes, the heads of pages, a sector, a page, or the end cut off."""
    kinds = ("bytes", "bytes", "bytes", "bits", "heads", "heads", "sector", "page", "cut")
    kind = chance.choice(kinds)
    if kind == "cut":
        return Harm(kind, cut_at=chance.randrange(len(data)))
    if kind in ("sector", "page"):
        size = _SECTOR if kind == "sector" else PAGE
        at = chance.randrange(len(data) // size) * size
        over = bytes(size) if chance.random() < 0.5 else chance.randbytes(size)
        return Harm(kind, ((at, over),))
    places = (_place(data, kind, chance) for _ in range(chance.randint(1, 8)))
    return Harm(kind, tuple((at, _other(data[at], kind, chance)) for at in dict.fromkeys(places)))


def _place(data: bytes, kind: str, chance: random.Random) -> int:
    if kind != "heads":
        return chance.randrange(len(data))
    page = chance.randrange(len(data) // PAGE)
    return page * PAGE + (100 if page == 0 else 0) + chance.randrange(16)


def _other(byte: int, kind: str, chance: random.Random) -> bytes:
    if kind == "bits":
        return bytes((byte ^ (1 << chance.randrange(8)),))
    return bytes((byte ^ chance.randint(1, 255),))
