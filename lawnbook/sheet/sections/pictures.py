"""The two pictures: the sketch with its numbers, and the plugs of the worst spot, then and now."""

from lawnbook.charts.first_and_latest import first_and_latest_marks
from lawnbook.charts.marks import Frame, told_apart
from lawnbook.charts.sketch_marks import sketch_marks
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import SpotThatch
from lawnbook.reading import tr
from lawnbook.sheet import placed
from lawnbook.sheet.ink import CAPTION, HEADING, Ink
from lawnbook.sheet.layout import Box
from lawnbook.sheet.sections.thatch import short_verdict, worst_spot
from lawnbook.yard.notebook import Notebook

TITLE = tr("Thatch at ")
NO_SPOT = tr("Thatch")
_TITLE_PT = 18.0
_VERDICT_LINE_PT = 11.0
_MOST_VERDICT_LINES = 3


def draw_sketch(ink: Ink, box: Box, notebook: Notebook, plan: Plan) -> None:
    """The sketch, filling its box."""
    frame = Frame(box.width, box.height)
    ink.picture(sketch_marks(notebook, plan, frame=frame, tufted=True), box.left, box.top)


def draw_worst_spot(ink: Ink, box: Box, plan: Plan) -> None:
    """The plugs of the worst spot with its verdict; how to begin where there is none."""
    spot = worst_spot(plan)
    title = NO_SPOT if spot is None else f"{TITLE}{_told(ink, plan, spot, box.width)}"
    ink.text((box.left, box.top + 11), ink.fit(title, HEADING, box.width), HEADING)
    lines = [] if spot is None else _verdict_lines(ink, spot.verdict, box)
    foot = len(lines) * _VERDICT_LINE_PT
    frame = Frame(box.width, box.height - _TITLE_PT - foot - 4)
    picture = first_and_latest_marks(() if spot is None else spot.columns, frame)
    ink.picture(picture, box.left, box.top + _TITLE_PT)
    if spot is not None:
        placed.place(
            (box.left, box.top, box.right, box.bottom), placed.key_of("thatch", spot.spot_id)
        )
    for row, line in enumerate(lines):
        y = box.bottom - foot + _VERDICT_LINE_PT * (row + 1) - 3
        ink.text((box.left, y), line, CAPTION)


def _told(ink: Ink, plan: Plan, spot: SpotThatch, width: float) -> str:
    """The spot's name, cut where it must be so that it is told apart from the others."""
    names = tuple(each.spot for each in plan.thatch)

    def fits(name: str) -> bool:
        return ink.width(f"{TITLE}{name}", HEADING) <= width

    return told_apart(names, (fits,) * len(names))[names.index(spot.spot)]


def _verdict_lines(ink: Ink, verdict: str, box: Box) -> list[str]:
    """The whole verdict where it takes few lines, else its first half: the picture needs room."""
    whole = ink.paragraph(verdict, CAPTION, box.width)
    if len(whole) <= (_MOST_VERDICT_LINES if box.height > 180 else 2):
        return whole
    return ink.wrap(short_verdict(verdict), CAPTION, box.width, most=2)
