"""What is due next, nearest first."""

from collections.abc import Iterable, Sequence

from lawnbook.plan.model import Due, Plan
from lawnbook.sheet.ink import CAPTION, CELL, HEADING, STRONG, Ink, Style
from lawnbook.sheet.layout import HEADING_PT, LINE_PT, Box
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
    told = zones_told(numbers[name] for name in item.zones)
    return f"{head}, {told}" if parted else item.what


def zones_told(numbers: Iterable[int]) -> str:
    """Zones by their numbers: "zone 3", "zones 1–3, 5"."""
    held = set(numbers)
    return f"{'zone' if len(held) == 1 else 'zones'} {in_runs(held)}"


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


def _told(
    ink: Ink, shown: Sequence[Due], plan: Plan, box: Box
) -> list[tuple[Sequence[str], Style]]:
    """Each item in a line, set smaller where that spares it a cut, or in two if all find room."""
    width = box.width - _DATE_PT
    texts = [said(item, plan) for item in shown]
    styles = [ink.smaller(text, CELL, width) for text in texts]
    pairs = list(zip(texts, styles, strict=True))
    wrapped = [(ink.wrap(text, style, width, most=2), style) for text, style in pairs]
    more = sum(len(lines) - 1 for lines, _ in wrapped)
    spare = box.height - HEADING_PT - _ROW_PT * min(len(plan.due), len(shown) + 1)
    if LINE_PT * more <= spare:
        return [*wrapped]
    return [([ink.fit(text, style, width)], style) for text, style in pairs]


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
    for item, (lines, style) in zip(shown, _told(ink, shown, plan, box), strict=True):
        y += _ROW_PT
        ink.text((box.left, y - 2.4), short_day(item.date), STRONG)
        for number, line in enumerate(lines):
            ink.text((box.left + _DATE_PT, y - 2.4 + LINE_PT * number), line, style)
        y += LINE_PT * (len(lines) - 1)
    if len(shown) < len(plan.due):
        more = f"and {len(plan.due) - len(shown)} more in the notebook"
        ink.text((box.left + _DATE_PT, y + _ROW_PT - 2), more, CAPTION)
