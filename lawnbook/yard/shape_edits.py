"""What is done to shapes in the notebook: a Change from each function, or an OwnerError.

The functions stand in `zone_edits`, `cutting_edits`, `placing_edits` and `order_edits`; everybody
imports them from here. Locked records are refused. Every Change is one step of undo.
"""

from lawnbook.yard.cutting_edits import (
    Becomes,
    Cut,
    cut_of,
    strip_cut,
    strip_made,
    strips_of,
    subtracted,
)
from lawnbook.yard.edit_words import crumbs_told, told
from lawnbook.yard.order_edits import Order, locked, reordered
from lawnbook.yard.placing_edits import (
    Axis,
    Edge,
    aligned,
    duplicated,
    followed_by,
    mirrored,
    moved,
    spread_out,
    turned,
)
from lawnbook.yard.zone_edits import divided, merged, split

__all__ = [
    "Axis",
    "Becomes",
    "Cut",
    "Edge",
    "Order",
    "aligned",
    "crumbs_told",
    "cut_of",
    "divided",
    "duplicated",
    "followed_by",
    "locked",
    "merged",
    "mirrored",
    "moved",
    "reordered",
    "split",
    "spread_out",
    "strip_cut",
    "strip_made",
    "strips_of",
    "subtracted",
    "told",
    "turned",
]
