"""Blocks that follow each other down a page, and go on with the next where one ends.

A block is cut only where it knows how: a long table gives its first rows, and the rest with its
heads again.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

from lawnbook.frozen import dataclass
from lawnbook.sheet.ink import Ink
from lawnbook.sheet.layout import Box

Paint = Callable[[Ink, Box], None]


@dataclass(frozen=True, slots=True)
class Block:
    """Something of a height that paints itself into a box of that height.

    `gap_pt` is left above it, but for the first of a page. One that `keeps` stands on the page of
    the block after it. `split` gives, for a room in points, what of it fits in there and the rest,
    None where nothing does; `least_pt` is then the least room that is of use.
    """

    height_pt: float
    paint: Paint
    gap_pt: float = 0.0
    keeps: bool = False
    split: "Split | None" = None
    least_pt: float = 0.0

    @property
    def needed_pt(self) -> float:
        """The room that it cannot do without."""
        return self.height_pt if self.split is None else min(self.least_pt, self.height_pt)


Split = Callable[[float], tuple[Block, Block] | None]


@dataclass(frozen=True, slots=True)
class Placed:
    """A block, and where it stands on its page."""

    block: Block
    box: Box


def flowed(blocks: Sequence[Block], first: Box, following: Box) -> tuple[tuple[Placed, ...], ...]:
    """The blocks of each page: as many as the first page's box holds, the rest in the following.

    One page at least, even without a block; a block too high for any page has a page to itself.
    """
    pages: list[list[Placed]] = [[]]
    box, y, queue = first, first.top, list(blocks)
    while queue:
        block = queue.pop(0)
        top = y + (block.gap_pt if pages[-1] else 0.0)
        if top + _needed(block, queue) > box.bottom and pages[-1]:
            pages.append([])
            box, y = following, following.top
            queue.insert(0, block)
            continue
        parts = None
        if block.split is not None and top + block.height_pt > box.bottom:
            parts = block.split(box.bottom - top)
        if parts is not None:
            block, rest = parts
            queue.insert(0, replace(rest, gap_pt=0.0))
        pages[-1].append(Placed(block, Box(box.left, top, box.width, block.height_pt)))
        y = top + block.height_pt
        if parts is not None:
            pages.append([])
            box, y = following, following.top
    return tuple(tuple(page) for page in pages)


def _needed(block: Block, following: Sequence[Block]) -> float:
    """The room of a block with what it needs of those after it that it keeps together with."""
    high = block.needed_pt
    for each in following:
        if not block.keeps:
            break
        high += each.gap_pt + each.needed_pt
        block = each
    return high
