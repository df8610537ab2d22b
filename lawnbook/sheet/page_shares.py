"""How the sheet's height is shared out between its bands: which rows, how large the cautions."""

from lawnbook.frozen import dataclass
from lawnbook.plan.model import Plan
from lawnbook.sheet.ink import CAUTION, SMALLER_CAUTIONS, Ink, Style
from lawnbook.sheet.layout import (
    GAP_PT,
    GUTTER_PT,
    HEADING_PT,
    LINE_PT,
    TALL_HEAD_PT,
    Box,
    RowPlan,
    plan_rows,
)
from lawnbook.sheet.qr import Code
from lawnbook.sheet.sections.code import least_pt as code_height_pt
from lawnbook.sheet.sections.due import height_pt as due_height_pt
from lawnbook.sheet.sections.foot import LEAST_SOURCE_LINES, MOST_SOURCE_LINES, Foot, lay_foot
from lawnbook.sheet.sections.masthead import HEIGHT_PT as MASTHEAD_PT
from lawnbook.sheet.sections.thatch import WIDTH_PT as THATCH_PT
from lawnbook.sheet.sections.thatch import height_pt as thatch_height_pt
from lawnbook.sheet.sections.water import ThirdLine

_PICTURES_LEAST_PT = 134.0
_PICTURES_GOOD_PT = 190.0
_PICTURES_MOST_PT = 330.0
_PICTURES_EMPTY_PT = 200.0
_LAST_LEAST_PT = 98.0
_LAST_SHARE = 0.42
_LAST_WHOLE_PT = 150.0
_NO_ZONES_PT = 12.0
_NEEDED: dict[ThirdLine, int] = {"needed": 3, "wanted": 2, "empty": 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """What the bands are to hold: a plan, lines of notes under its tables, its text as codes.

    `third` is what a third line of the rows of the water table is for.
    """

    plan: Plan
    water_notes: int
    feed_notes: int
    third: ThirdLine
    has_spreads: bool
    codes: tuple[Code, ...]


@dataclass(frozen=True, slots=True)
class Shares:
    """The six bands of the page, the rows of the two zone tables, and the foot's lines."""

    boxes: tuple[Box, ...]
    rows: RowPlan
    foot: Foot

    @property
    def pictures_pt(self) -> float:
        """The height of the pictures."""
        return self.boxes[1].height

    @property
    def lists_pt(self) -> float:
        """The height of what is due, of the spots and of the code."""
        return self.boxes[4].height


@dataclass(frozen=True, slots=True)
class _Lists:
    """The height of the lists with the months of the plugs, and without."""

    whole_pt: float
    lines_pt: float


def best_shares(ink: Ink, area: Box, content: Content) -> Shares:
    """Cautions as large as fit, then as many lines of sources as leave the pictures a good height.

    Neither takes a line of the rows. Cautions fit where they cost tables and lists no row and the
    pictures not their least height. A third line in the water table that is wanted only comes
    last, and takes nothing from feed.
    """
    lists = _lists(ink, area, content)

    def shared(caution: Style, lines: int, most_rows: int = _NEEDED[content.third]) -> Shares:
        foot = lay_foot(ink, content.plan, area.width, lines, caution)
        return _share_out(area, content, lists, foot, most_rows)

    *larger, smallest = (CAUTION, *SMALLER_CAUTIONS)
    tight = shared(smallest, LEAST_SOURCE_LINES)
    least = min(_PICTURES_LEAST_PT, tight.pictures_pt)
    least_lists = min(tight.lists_pt, max(_LAST_LEAST_PT, lists.whole_pt))
    tried = ((caution, shared(caution, LEAST_SOURCE_LINES)) for caution in larger)
    fitting = (
        (caution, shares)
        for caution, shares in tried
        if shares.rows == tight.rows
        and shares.lists_pt >= least_lists
        and shares.pictures_pt >= least
    )
    caution, best = next(fitting, (smallest, tight))
    if content.third == "wanted":
        longer = shared(caution, LEAST_SOURCE_LINES, 3)
        as_much = (longer.rows.shown, longer.rows.feed_lines) == (
            best.rows.shown,
            best.rows.feed_lines,
        )
        if as_much and longer.pictures_pt >= least:
            best = longer
    for lines in range(MOST_SOURCE_LINES, LEAST_SOURCE_LINES, -1):
        shares = shared(caution, lines, best.rows.water_lines)
        if shares.rows == best.rows and shares.pictures_pt >= _PICTURES_GOOD_PT:
            return shares
    return best


def _share_out(area: Box, content: Content, lists: _Lists, foot: Foot, most_rows: int) -> Shares:
    """The bands from the top down.

    The tables take what they need as long as pictures and lists keep their least height, and more
    lines a row only where the lists are whole (unless they are endless); the lists then take
    theirs, and the pictures grow into what is left.
    """
    plan = content.plan
    water_head = HEADING_PT + TALL_HEAD_PT + LINE_PT * content.water_notes
    feed_head = HEADING_PT + TALL_HEAD_PT + LINE_PT * content.feed_notes
    fixed = MASTHEAD_PT + foot.height_pt + water_head + feed_head + 4 * GAP_PT
    room = area.height - fixed - _PICTURES_LEAST_PT
    whole = min(_LAST_WHOLE_PT, max(_LAST_LEAST_PT, lists.lines_pt))
    rows = plan_rows(len(plan.zones), room - _LAST_LEAST_PT, room - whole, most_rows)
    water_table = max(_NO_ZONES_PT, rows.shown * rows.water_pt)
    feed_table = max(_NO_ZONES_PT, rows.shown * rows.feed_pt)
    spare = area.height - fixed - water_table - feed_table
    most = _PICTURES_MOST_PT if plan.zones else _PICTURES_EMPTY_PT
    pictures = min(most, spare - _last_pt(lists, spare))
    heights = (
        MASTHEAD_PT,
        pictures,
        water_head + water_table,
        feed_head + feed_table,
        spare - pictures,
        foot.height_pt,
    )
    return Shares(_stack(area, heights), rows, foot)


def _last_pt(lists: _Lists, spare: float) -> float:
    """The height of the lists: all of them where the pictures stay good, else in single lines.

    Where even the lines would squeeze the pictures, a share of what is there.
    """
    if lists.whole_pt <= spare - _PICTURES_GOOD_PT:
        return max(_LAST_LEAST_PT, lists.whole_pt)
    if lists.lines_pt <= spare - _PICTURES_LEAST_PT:
        return max(_LAST_LEAST_PT, lists.lines_pt)
    return max(_LAST_LEAST_PT, spare * _LAST_SHARE)


def _lists(ink: Ink, area: Box, content: Content) -> _Lists:
    code = code_height_pt(content.codes)
    due_width = area.width - code - THATCH_PT - 2 * GUTTER_PT
    due = due_height_pt(ink, content.plan, due_width, spread=content.has_spreads)
    whole, lines = (thatch_height_pt(content.plan, tall=tall) for tall in (True, False))
    return _Lists(max(due, whole, code), max(due, lines, code))


def _stack(area: Box, heights: tuple[float, ...]) -> tuple[Box, ...]:
    """Boxes one under another; the masthead's own rule parts it, gaps part the rest."""
    boxes = []
    top = area.top
    for number, height in enumerate(heights):
        boxes.append(Box(area.left, top, area.width, height))
        top += height + (GAP_PT if number else 0.0)
    return tuple(boxes)
