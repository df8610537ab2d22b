"""The plan as plain text in a QR code, drawn in squares of ink.

The code is a QR code after ISO/IEC 18004 (from memory): error correction level M, four modules of
quiet ground around it. A module is at least a third of a millimetre wide, which a phone's camera
tells apart on paper from a hand's breadth (common practice).
"""

from functools import lru_cache

from lawnbook.charts.marks import Frame, Picture, Polygon, Ring, rectangle
from lawnbook.frozen import dataclass

LEAST_MODULE_PT = 0.33 / 25.4 * 72
"""0.33 mm."""
GOOD_MODULE_PT = 0.42 / 25.4 * 72
QUIET_MODULES = 4
_LEVEL = "m"


@dataclass(frozen=True, slots=True)
class Code:
    """A QR code: the text it holds, and its dark modules row by row, without quiet ground."""

    text: str
    rows: tuple[tuple[bool, ...], ...]

    @property
    def modules(self) -> int:
        """Modules along a side, the quiet ground with them."""
        return len(self.rows) + 2 * QUIET_MODULES

    def side_pt(self, module_pt: float = LEAST_MODULE_PT) -> float:
        """The side in points with modules of a size."""
        return self.modules * module_pt


@lru_cache(maxsize=8)
def code_of(text: str) -> Code:
    """The code of a text, of the smallest size that holds it at level M.

    Remembered: preview, printer and PDF paint the same page.
    """
    import segno

    made = segno.make_qr(text, error=_LEVEL, boost_error=False, encoding="utf-8", eci=False)
    return Code(text, tuple(tuple(bool(module) for module in row) for row in made.matrix))


@lru_cache(maxsize=8)
def code_marks(code: Code, side_pt: float) -> Picture:
    """The code as one mark on a square of this side, quiet ground around it."""
    module_pt = side_pt / code.modules
    rings: list[Ring] = []
    for place, row in enumerate(code.rows):
        top = (place + QUIET_MODULES) * module_pt
        for start, end in _runs(row):
            left, right = (QUIET_MODULES + each for each in (start, end))
            rings.append(rectangle(left * module_pt, top, right * module_pt, top + module_pt))
    return Picture(Frame(side_pt, side_pt), (Polygon(rings=tuple(rings), fill="ink"),))


def _runs(row: tuple[bool, ...]) -> list[tuple[int, int]]:
    """Where dark modules that stand side by side begin and end."""
    edges = [n for n in range(len(row) + 1) if _dark(row, n) != _dark(row, n - 1)]
    return list(zip(edges[::2], edges[1::2], strict=True))


def _dark(row: tuple[bool, ...], place: int) -> bool:
    return 0 <= place < len(row) and row[place]
