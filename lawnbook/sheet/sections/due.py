"""What is due next, nearest first."""

from lawnbook.plan.model import Due, Plan
from lawnbook.sheet.ink import CAPTION, CELL, HEADING, STRONG, Ink
from lawnbook.sheet.layout import HEADING_PT, Box
from lawnbook.yard.numbers import short_day

NOTHING = "Nothing is due."
_ROW_PT = 13.2
_DATE_PT = 44.0


def height_pt(plan: Plan) -> float:
    """The height that shows everything that is due."""
    return HEADING_PT + _ROW_PT * max(1, len(plan.due)) + 2


def said(item: Due, plan: Plan) -> str:
    """What is due, the zones by their numbers on the sketch where the text ends in their names."""
    names = ", ".join(item.zones)
    if not names or not item.what.endswith(f": {names}"):
        return item.what
    numbers = {zone.zone: zone.number for zone in plan.zones}
    if not all(name in numbers for name in item.zones):
        return item.what
    told = ", ".join(str(numbers[name]) for name in item.zones)
    noun = "zone" if len(item.zones) == 1 else "zones"
    return f"{item.what[: -len(names) - 2]}, {noun} {told}"


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
        ink.text((box.left, y - 2.4), short_day(item.date), STRONG)
        what = ink.fit(said(item, plan), CELL, box.width - _DATE_PT)
        ink.text((box.left + _DATE_PT, y - 2.4), what, CELL)
    if len(shown) < len(plan.due):
        more = f"and {len(plan.due) - len(shown)} more in the notebook"
        ink.text((box.left + _DATE_PT, y + _ROW_PT - 2), more, CAPTION)
