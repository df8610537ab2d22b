"""The two pictures: the sketch with its numbers, and the plugs of the worst spot, then and now."""

from lawnbook.charts.marks import Frame
from lawnbook.charts.profile import profile_marks
from lawnbook.charts.sketch_marks import sketch_marks
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import SpotThatch
from lawnbook.sheet.ink import CAPTION, HEADING, Ink
from lawnbook.sheet.layout import Box
from lawnbook.sheet.sections.thatch import short_verdict
from lawnbook.yard.notebook import Notebook

_TITLE_PT = 16.0
_VERDICT_LINE_PT = 11.0


def worst_spot(plan: Plan) -> SpotThatch | None:
    """The spot with the thickest thatch now; the first with a plug where none was measured."""
    plugged = [spot for spot in plan.thatch if spot.columns]
    return max(plugged, key=lambda spot: spot.latest_in or -1.0, default=None)


def draw_sketch(ink: Ink, box: Box, notebook: Notebook, plan: Plan) -> None:
    """The sketch, filling its box."""
    ink.picture(sketch_marks(notebook, plan, frame=Frame(box.width, box.height)), box.left, box.top)


def draw_worst_spot(ink: Ink, box: Box, plan: Plan) -> None:
    """The profile columns of the worst spot with its verdict; how to begin where there is none."""
    spot = worst_spot(plan)
    title = "Plugs" if spot is None else f"Plugs at {spot.spot}"
    ink.text((box.left, box.top + 11), ink.fit(title, HEADING, box.width), HEADING)
    lines = [] if spot is None else _verdict_lines(ink, spot.verdict, box.width)
    foot = len(lines) * _VERDICT_LINE_PT
    frame = Frame(box.width, box.height - _TITLE_PT - foot - 2)
    columns, trend = ((), None) if spot is None else (spot.columns, spot.line)
    sure = spot is not None and spot.ci95 is not None
    picture = profile_marks(columns, frame, trend, detail="brief", sure=sure)
    ink.picture(picture, box.left, box.top + _TITLE_PT)
    for row, line in enumerate(lines):
        y = box.bottom - foot + _VERDICT_LINE_PT * (row + 1) - 3
        ink.text((box.left, y), line, CAPTION)


def _verdict_lines(ink: Ink, verdict: str, width: float) -> list[str]:
    """The whole verdict where it takes one line, else its first half: the picture needs room."""
    if ink.width(verdict, CAPTION) <= width:
        return [verdict]
    return ink.wrap(short_verdict(verdict), CAPTION, width, most=2)
