"""Free places for the labels of a picture: clear of other labels, and of lines if it can be."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from lawnbook.charts.marks import Align, Spot, rough_width

Box = tuple[float, float, float, float]
"""Left, top, right and bottom in points, y down."""

_MOST_CROSSINGS = 3
_LIKELY, _AT_ONCE = 2, 32


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
        """How many drawn sides enter a box."""
        return int(np.count_nonzero(self._entered(np.array([box]))))

    def claim_first(
        self,
        places: Sequence[Spot],
        half: tuple[float, float],
        is_wanted: Callable[[int], bool],
        *,
        over_lines: bool = False,
    ) -> Spot | None:
        """Claim the box of half sizes on the first free place that is wanted, and tell the place.

        `is_wanted` is asked by a place's number. A box crosses no line unless it may. None where
        no place will do.
        """
        for start, end in _stretches(len(places)):
            boxes = [(n, _box(places[n], half)) for n in range(start, end)]
            free = [(number, box) for number, box in boxes if self.is_free(box)]
            for number, box in free if over_lines else self._clear_of_lines(free):
                if is_wanted(number):
                    self.claim(box)
                    return places[number]
        return None

    def _clear_of_lines(self, boxes: list[tuple[int, Box]]) -> list[tuple[int, Box]]:
        """Those of the numbered boxes that no drawn side enters; all are asked about at once."""
        if not boxes:
            return []
        asked = np.array([box for _, box in boxes])
        entered = np.count_nonzero(self._entered(asked), axis=1).tolist()
        return [each for each, sides in zip(boxes, entered, strict=True) if not sides]

    def _entered(self, boxes: NDArray[np.float64]) -> NDArray[np.bool_]:
        """By box and side, whether it enters: each is clipped against the box's sides in turn."""
        shape = (len(boxes), len(self.edges))
        enters, leaves = np.zeros(shape), np.ones(shape)
        for along in (0, 1):
            start = self.edges[:, 0, along]
            run = self.edges[:, 1, along] - start
            run = np.where(np.abs(run) < 1e-9, 1e-9, run)
            one = (boxes[:, along, None] - start) / run
            other = (boxes[:, along + 2, None] - start) / run
            np.maximum(enters, np.minimum(one, other), out=enters)
            np.minimum(leaves, np.maximum(one, other), out=leaves)
        return enters <= leaves


def _stretches(count: int) -> Iterator[tuple[int, int]]:
    """Numbers in stretches: one of the first two mostly will do, of many later ones hardly one."""
    starts = [0, *range(_LIKELY, count, _AT_ONCE)]
    return zip(starts, [*starts[1:], count], strict=True)


def _box(middle: Spot, half: tuple[float, float]) -> Box:
    (x, y), (across, down) = middle, half
    return (x - across, y - down, x + across, y + down)
