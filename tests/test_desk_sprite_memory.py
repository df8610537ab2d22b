"""What the sketch keeps of its names: their pixels, and not what they were painted with."""

import ctypes
import ctypes.util

import pytest
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from lawnbook.desk.sketch.sprites import Sprite
from lawnbook.desk.theme import sans

BOX = QRectF(0, 0, 80, 36)
COUNT = 60


class _Heap(ctypes.Structure):
    """What glibc tells of its heap (mallinfo2(3)); `uordblks` are the bytes in use."""

    _fields_ = [
        (name, ctypes.c_size_t)
        for name in (
            "arena",
            "ordblks",
            "smblks",
            "hblks",
            "hblkhd",
            "usmblks",
            "fsmblks",
            "uordblks",
            "fordblks",
            "keepcost",
        )
    ]


def _bytes_in_use() -> int:
    libc = ctypes.CDLL(ctypes.util.find_library("c"))
    if not hasattr(libc, "mallinfo2"):
        pytest.skip("this machine's C library does not tell what is in use")
    libc.mallinfo2.restype = _Heap
    return int(libc.mallinfo2().uordblks)


class _Named(Sprite):
    """A word with a rim, as names on the sketch have."""

    def draw(self, painter: QPainter) -> None:
        """Paint it about the origin."""
        letters = QPainterPath()
        letters.addText(QPointF(4, 20), sans(9.0), "By the gate")
        painter.strokePath(letters, QPen(QColor("white"), 3.0))


def _named(number: int) -> _Named:
    made = _Named()
    made.show_drawn(("a name kept", number), BOX)
    return made


def test_a_kept_picture_costs_its_pixels_and_little_more() -> None:
    _named(-1)
    before = _bytes_in_use()
    kept = [_named(n).pixmap() for n in range(COUNT)]
    pixels = sum(each.width() * each.height() * each.depth() // 8 for each in kept)
    assert _bytes_in_use() - before < 2 * pixels
