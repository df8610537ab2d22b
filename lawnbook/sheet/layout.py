"""Paper, margins, and how the page's height is shared out between its parts."""

from typing import Literal

from lawnbook.frozen import dataclass

PaperName = Literal["letter", "a4"]

SIDE_PT = 44.0
TOP_PT = 36.0
FOOT_PT = 36.0
GUTTER_PT = 20.0
GAP_PT = 10.0
HEADING_PT = 17.0
HEAD_ROW_PT = 13.0
TALL_HEAD_PT = 21.5
TALL_ROW_PT = 21.5
TALLER_ROW_PT = 30.5
ROW_PT = 14.0
LINE_PT = 11.0
FINE_LINE_PT = 10.0
SECOND_FEED_LINE_PT = 40.0
"""What a second line in the feed table leaves the pictures over their least height."""
ROWS_PT = {1: ROW_PT, 2: TALL_ROW_PT, 3: TALLER_ROW_PT}
"""The height of a row by how many lines it has."""

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
    """How many zones the two zone tables show, and in how many lines each."""

    shown: int
    water_lines: int
    feed_lines: int

    @property
    def water_pt(self) -> float:
        """The height of a row of the water table."""
        return ROWS_PT[self.water_lines]

    @property
    def feed_pt(self) -> float:
        """The height of a row of the feed table."""
        return ROWS_PT[self.feed_lines]

    @property
    def both_pt(self) -> float:
        """The height of all rows of both tables."""
        return self.shown * (self.water_pt + self.feed_pt)


def plan_rows(zones: int, room_pt: float, good_pt: float, most_water_lines: int) -> RowPlan:
    """The rows of the two zone tables that share `room_pt` points.

    All zones in as many lines as fit into `good_pt`, those of water before those of feed, whose
    second line has to leave the pictures more than their least height; else
    all in single lines, else as many as fit, of two lines where at least six can be.
    """
    for water, feed in ((3, 2), (3, 1), (2, 2), (2, 1)):
        rows = RowPlan(zones, water, feed)
        spared_pt = SECOND_FEED_LINE_PT if feed > 1 else 0.0
        if water <= most_water_lines and rows.both_pt + spared_pt <= good_pt:
            return rows
    if RowPlan(zones, 1, 1).both_pt <= room_pt:
        return RowPlan(zones, 1, 1)
    tall_count = int(room_pt / 2 / TALL_ROW_PT)
    if tall_count >= 6:
        return RowPlan(tall_count, 2, 2)
    return RowPlan(max(1, int(room_pt / 2 / ROW_PT)), 1, 1)
