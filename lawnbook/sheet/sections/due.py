"""What is due next, nearest first."""

from lawnbook.plan.model import Plan
from lawnbook.sheet.ink import CAPTION, CELL, HEADING, STRONG, Ink
from lawnbook.sheet.layout import HEADING_PT, Box
from lawnbook.yard.numbers import short_day

NOTHING = "Nothing is due."
_ROW_PT = 14.0
_DATE_PT = 44.0


def draw_due(ink: Ink, box: Box, plan: Plan) -> None:
    """Dates and what they bring; the last line says how many more there are."""
    ink.text((box.left, box.top + 11), "Due", HEADING)
    ink.rule(box.left, box.right, box.top + HEADING_PT, "ink", 0.8)
    if not plan.due:
        ink.text((box.left, box.top + HEADING_PT + 12), NOTHING, CAPTION)
        return
    room = max(1, int((box.height - HEADING_PT) / _ROW_PT))
    shown = plan.due if len(plan.due) <= room else plan.due[: room - 1]
    y = box.top + HEADING_PT
    for item in shown:
        y += _ROW_PT
        ink.text((box.left, y - 2), short_day(item.date), STRONG)
        what = ink.fit(item.what, CELL, box.width - _DATE_PT)
        ink.text((box.left + _DATE_PT, y - 2), what, CELL)
    if len(shown) < len(plan.due):
        more = f"and {len(plan.due) - len(shown)} more in the notebook"
        ink.text((box.left + _DATE_PT, y + _ROW_PT - 2), more, CAPTION)
