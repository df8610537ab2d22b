"""What is due next, nearest first."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from lawnbook.plan.due import WHY_WATER
from lawnbook.plan.model import Due, Plan
from lawnbook.plan.workings import told
from lawnbook.sheet.ink import CAPTION, CELL, HEADING, STRONG, Ink, Style
from lawnbook.sheet.layout import HEADING_PT, LINE_PT, Box
from lawnbook.sheet.runs import is_timed, next_depth_in
from lawnbook.yard.numbers import short_day

NOTHING = "Nothing is due."
NOTHING_BY_HAND = "Nothing else is due."
TIMED = "what the timer waters stands in the table above"
_WATERINGS = frozenset(WHY_WATER.values())
_ROW_PT = 13.2
_DATE_PT = 44.0


def height_pt(plan: Plan) -> float:
    """The height that shows everything that is due."""
    return HEADING_PT + _ROW_PT * max(1, len(due_by_hand(plan))) + 2


def due_by_hand(plan: Plan) -> tuple[Due, ...]:
    """What is due without the waterings that the timer puts on: their nights are told by zone.

    Depths are those of the next runs, as in the table, not those of the month.
    """
    return tuple(_by_hand(plan))


def _by_hand(plan: Plan) -> Iterator[Due]:
    for item in plan.due:
        if item.why not in _WATERINGS:
            yield item
            continue
        zones = [
            each for each in plan.zones if each.zone in item.zones and not is_timed(plan, each)
        ]
        if zones:
            depths = sorted(told(next_depth_in(zone)) for zone in zones)
            span = depths[0] if depths[0] == depths[-1] else f"{depths[0]} to {depths[-1]}"
            names = tuple(zone.zone for zone in zones)
            yield replace(item, what=f"Water {span} in: {', '.join(names)}", zones=names)


def said(item: Due, plan: Plan) -> str:
    """What is due; the names of zones at its end become their numbers on the sketch."""
    numbers = {zone.zone: zone.number for zone in plan.zones}
    if not item.zones or not all(name in numbers for name in item.zones):
        return item.what
    head, parted, _ = item.what.partition(f": {item.zones[0]}")
    numbered = zones_told(numbers[name] for name in item.zones)
    return f"{head}, {numbered}" if parted else item.what


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
    ink: Ink, shown: Sequence[Due], plan: Plan, box: Box, listed: int
) -> list[tuple[Sequence[str], Style]]:
    """Each item in a line, set smaller where that spares it a cut, or in two if all find room."""
    width = box.width - _DATE_PT
    texts = [said(item, plan) for item in shown]
    styles = [ink.smaller(text, CELL, width) for text in texts]
    pairs = list(zip(texts, styles, strict=True))
    wrapped = [(ink.wrap(text, style, width, most=2), style) for text, style in pairs]
    more = sum(len(lines) - 1 for lines, _ in wrapped)
    spare = box.height - HEADING_PT - _ROW_PT * min(listed, len(shown) + 1)
    if LINE_PT * more <= spare:
        return [*wrapped]
    return [([ink.fit(text, style, width)], style) for text, style in pairs]


def draw_due(ink: Ink, box: Box, plan: Plan) -> None:
    """Dates and what they bring; the last line says how many more there are."""
    ink.text((box.left, box.top + 11), "Due", HEADING)
    ink.rule(box.left, box.right, box.top + HEADING_PT, "ink", 0.8)
    due = due_by_hand(plan)
    if any(is_timed(plan, zone) for zone in plan.zones):
        start = box.left + ink.width("Due", HEADING) + 10
        ink.text((start, box.top + 11), ink.fit(TIMED, CAPTION, box.right - start), CAPTION)
    if not due:
        nothing = NOTHING_BY_HAND if plan.due else NOTHING
        ink.text((box.left, box.top + HEADING_PT + 12), nothing, CAPTION)
        return
    room = max(1, int((box.height - HEADING_PT) / _ROW_PT))
    shown = due if len(due) <= room else due[: room - 1]
    y = box.top + HEADING_PT
    for item, (lines, style) in zip(shown, _told(ink, shown, plan, box, len(due)), strict=True):
        y += _ROW_PT
        ink.text((box.left, y - 2.4), short_day(item.date), STRONG)
        if item.date.year != plan.on.year:
            after = box.left + ink.width(short_day(item.date), STRONG) + 2.5
            ink.text((after, y - 2.4), f"’{item.date.year % 100:02d}", CAPTION)
        for number, line in enumerate(lines):
            ink.text((box.left + _DATE_PT, y - 2.4 + LINE_PT * number), line, style)
        y += LINE_PT * (len(lines) - 1)
    if len(shown) < len(due):
        more = f"and {len(due) - len(shown)} more in the notebook"
        ink.text((box.left + _DATE_PT, y + _ROW_PT - 2), more, CAPTION)
