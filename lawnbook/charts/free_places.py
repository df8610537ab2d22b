"""Free places for the labels of a picture: clear of other labels, and of lines if it can be."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from lawnbook.charts.marks import Align, Spot, rough_width

Box = tuple[float, float, float, float]
"""Left, top, right and bottom in points, y down."""

_MOST_CROSSINGS = 3


@dataclass(slots=True)
class Labels:
    """Boxes already written on, so that the next label finds a free place.

    `width` and `height` bound where labels may stand, in points; `edges` are the drawn sides as
    (sides, 2 ends, 2 coordinates).
    """

    width: float
    height: float
    edges: NDArray[np.float64]
    taken: list[Box] = field(default_factory=list)

    def is_free(self, box: Box) -> bool:
        """Whether a box lies within bounds, clear of what is written."""
        left, top, right, bottom = box
        if left < 0 or top < 0 or right > self.width or bottom > self.height:
            return False
        # A plain loop: a map of names asks this some two thousand times.
        for x0, y0, x1, y1 in self.taken:
            if left < x1 and right > x0 and top < y1 and bottom > y0:
                return False
        return True

    def claim(self, box: Box) -> None:
        """Take a box, free or not."""
        self.taken.append(box)

    def beside(self, at: Spot, text: str, size: float) -> tuple[Spot, Align, str] | None:
        """Baseline, alignment and halo of a label beside a dot; clear of lines if it can be."""
        width, (x, y) = rough_width(text, size), at
        places: tuple[tuple[Spot, Align, float], ...] = (
            ((x + 5, y + 3), "left", x + 5),
            ((x - 5, y + 3), "right", x - 5 - width),
            ((x, y + 12), "center", x - width / 2),
            ((x, y - 6), "center", x - width / 2),
        )
        free: list[tuple[int, int, Box, Spot, Align]] = []
        for base, align, left in places:
            box = (left, base[1] - size * 0.8, left + width, base[1] + size * 0.25)
            if self.is_free(box):
                free.append((self.crossings(box), len(free), box, base, align))
        if not free or min(free)[0] > _MOST_CROSSINGS:
            return None
        crossed, _, box, base, align = min(free)
        self.claim(box)
        return base, align, "paper" if crossed else "turf"

    def crossings(self, box: Box) -> int:
        """How many drawn sides enter a box: each is clipped against the box's sides in turn."""
        start, run = self.edges[:, 0], self.edges[:, 1] - self.edges[:, 0]
        run = np.where(np.abs(run) < 1e-9, 1e-9, run)
        one, other = (np.array(box[:2]) - start) / run, (np.array(box[2:]) - start) / run
        enters = np.minimum(one, other).max(axis=1, initial=0.0)
        leaves = np.maximum(one, other).min(axis=1, initial=1.0)
        return int(np.count_nonzero(enters <= leaves))
