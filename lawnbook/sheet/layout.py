"""Paper, margins, and how the page's height is shared out between its parts."""

from dataclasses import dataclass
from typing import Literal

PaperName = Literal["letter", "a4"]

SIDE_PT = 44.0
TOP_PT = 36.0
FOOT_PT = 36.0
GUTTER_PT = 20.0
GAP_PT = 11.0
HEADING_PT = 17.0
HEAD_ROW_PT = 13.0
TALL_HEAD_PT = 21.5
TALL_ROW_PT = 21.5
TALLER_ROW_PT = 30.5
ROW_PT = 14.0
LINE_PT = 11.0
FINE_LINE_PT = 10.0

_SIZES: dict[PaperName, tuple[float, float]] = {"letter": (612.0, 792.0), "a4": (595.0, 842.0)}


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on the page, in points."""

    left: float
    top: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """The right side."""
        return self.left + self.width

    @property
    def bottom(self) -> float:
        """The lower side."""
        return self.top + self.height

    def columns(self, first_share: float) -> tuple["Box", "Box"]:
        """Two boxes side by side with a gutter, the first with its share of the width."""
        room = self.width - GUTTER_PT
        first = room * first_share
        rest = Box(self.left + first + GUTTER_PT, self.top, room - first, self.height)
        return Box(self.left, self.top, first, self.height), rest


def paper_size_pt(paper: PaperName) -> tuple[float, float]:
    """Width and height of a paper in points; KeyError for an unknown paper."""
    return _SIZES[paper]


def live_area(paper: PaperName) -> Box:
    """The page within its margins."""
    width, height = paper_size_pt(paper)
    return Box(SIDE_PT, TOP_PT, width - 2 * SIDE_PT, height - TOP_PT - FOOT_PT)


@dataclass(frozen=True, slots=True)
class RowPlan:
    """How many zones a table shows, and whether each has a second line."""

    shown: int
    tall: bool

    @property
    def row_pt(self) -> float:
        """The height of one row."""
        return TALL_ROW_PT if self.tall else ROW_PT


def plan_rows(zones: int, room_pt: float) -> RowPlan:
    """The rows of each of the two zone tables that share `room_pt` points.

    All zones in tall rows if they fit, else all in single lines, else as many as fit, tall where
    at least six can be.
    """
    for tall in (True, False):
        if 2 * zones * RowPlan(zones, tall).row_pt <= room_pt:
            return RowPlan(zones, tall)
    tall_count = int(room_pt / 2 / TALL_ROW_PT)
    if tall_count >= 6:
        return RowPlan(tall_count, tall=True)
    return RowPlan(max(1, int(room_pt / 2 / ROW_PT)), tall=False)
