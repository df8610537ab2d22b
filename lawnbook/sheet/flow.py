"""Blocks that follow each other down a page, and go on with the next where one ends.

A block is never cut: a long table is given in several blocks, each with its heads.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from lawnbook.sheet.ink import Ink
from lawnbook.sheet.layout import Box

Paint = Callable[[Ink, Box], None]


@dataclass(frozen=True, slots=True)
class Block:
    """Something of a height that paints itself into a box of that height.

    `gap_pt` is left above it, but for the first of a page. One that `keeps` stands on the page of
    the block after it.
    """

    height_pt: float
    paint: Paint
    gap_pt: float = 0.0
    keeps: bool = False


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
    box, y = first, first.top
    for number, block in enumerate(blocks):
        top = y + (block.gap_pt if pages[-1] else 0.0)
        if pages[-1] and top + _together(blocks, number) > box.bottom:
            pages.append([])
            box, top = following, following.top
        pages[-1].append(Placed(block, Box(box.left, top, box.width, block.height_pt)))
        y = top + block.height_pt
    return tuple(tuple(page) for page in pages)


def _together(blocks: Sequence[Block], number: int) -> float:
    """The height of a block with those after it that it keeps together with."""
    high = blocks[number].height_pt
    while blocks[number].keeps and number + 1 < len(blocks):
        number += 1
        high += blocks[number].gap_pt + blocks[number].height_pt
    return high
