"""What is due next, nearest first."""

from collections.abc import Iterable

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
    """What is due; the names of zones at its end become their numbers on the sketch."""
    numbers = {zone.zone: zone.number for zone in plan.zones}
    if not item.zones or not all(name in numbers for name in item.zones):
        return item.what
    head, parted, _ = item.what.partition(f": {item.zones[0]}")
    noun = "zone" if len(item.zones) == 1 else "zones"
    told = in_runs(numbers[name] for name in item.zones)
    return f"{head}, {noun} {told}" if parted else item.what


def in_runs(numbers: Iterable[int]) -> str:
    """Whole numbers with runs drawn together: 1, 2, 3, 5 is "1–3, 5"."""
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    return ", ".join(_run(first, last) for first, last in runs)


def _run(first: int, last: int) -> str:
    if first == last:
        return str(first)
    return f"{first}, {last}" if last == first + 1 else f"{first}–{last}"


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
