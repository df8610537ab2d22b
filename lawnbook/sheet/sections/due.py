"""What is due next, nearest first."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from lawnbook.plan.due import WHY_WATER
from lawnbook.plan.model import Due, Plan
from lawnbook.reading import tr
from lawnbook.sheet import placed
from lawnbook.sheet.ink import CAPTION, CELL, HEADING, STRONG, Ink
from lawnbook.sheet.layout import HEADING_PT, LINE_PT, Box
from lawnbook.sheet.runs import is_timed, next_depth_in
from lawnbook.yard.amounts import between, told
from lawnbook.yard.numbers import short_day

NOTHING = tr("Nothing is due.")
NOTHING_BY_HAND = tr("Nothing else is due.")
BY_HAND = tr("besides the tables above")
_WATERINGS = frozenset(WHY_WATER.values())
_ROW_PT = 13.2
_DATE_PT = 44.0


def height_pt(ink: Ink, plan: Plan, width: float, *, spread: bool) -> float:
    """The height that shows everything that is due, in as many lines as it takes."""
    due = due_by_hand(plan, spread=spread)
    lines = sum(len(ink.wrap(said(item, plan), CELL, width - _DATE_PT)) for item in due)
    return HEADING_PT + _ROW_PT * max(1, len(due)) + LINE_PT * max(0, lines - len(due)) + 2


def due_by_hand(plan: Plan, *, spread: bool = False) -> tuple[Due, ...]:
    """What is due without the waterings that the timer puts on: their nights are told by zone.

    Without the feedings too where the plan to `spread` is told beside it. Depths are those of the
    next runs, as in the table, not those of the month.
    """
    return tuple(each for each in _by_hand(plan) if not (spread and each.kind == "feed"))


def _by_hand(plan: Plan) -> Iterator[Due]:
    for item in plan.due:
        if item.why not in _WATERINGS:
            yield item
            continue
        zones = [
            each for each in plan.zones if each.zone in item.zones and not is_timed(plan, each)
        ]
        if zones:
            depths = sorted(next_depth_in(zone) for zone in zones)
            span = _span(depths[0], depths[-1])
            names = tuple(zone.zone for zone in zones)
            yield replace(
                item,
                what=tr("Water {depth}: {zones}", depth=span, zones=", ".join(names)),
                zones=names,
            )


def _span(low_in: float, high_in: float) -> str:
    """Depths from the least to the most: "0.41 in", "0.41 to 0.55 in"."""
    least, most = (told(each, 2, "in") for each in (low_in, high_in))
    return least if least == most else between(low_in, high_in, 2, "in")


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
    if len(held) == 1:
        return tr("zone {number}", number=in_runs(held))
    return tr("zones {numbers}", numbers=in_runs(held))


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


def _shown(ink: Ink, due: Sequence[Due], plan: Plan, box: Box) -> Sequence[tuple[Due, list[str]]]:
    """The items that find room, each in as many lines as it takes; a line is kept for the rest."""
    width, room = box.width - _DATE_PT, box.height - HEADING_PT
    told = [(item, ink.wrap(said(item, plan), CELL, width)) for item in due]
    heights = [_ROW_PT + LINE_PT * (len(lines) - 1) for _, lines in told]
    if sum(heights) <= room:
        return told
    shown: list[tuple[Due, list[str]]] = []
    used = _ROW_PT
    for each, height in zip(told, heights, strict=True):
        used += height
        if used > room:
            break
        shown.append(each)
    return shown


def draw_due(ink: Ink, box: Box, plan: Plan, *, spread: bool) -> None:
    """Dates and what they bring; the last line says how many more there are."""
    ink.text((box.left, box.top + 11), tr("Due"), HEADING)
    ink.rule(box.left, box.right, box.top + HEADING_PT, "ink", 0.8)
    due = due_by_hand(plan, spread=spread)
    if spread or any(is_timed(plan, zone) for zone in plan.zones):
        start = box.left + ink.width(tr("Due"), HEADING) + 10
        ink.text((start, box.top + 11), ink.fit(BY_HAND, CAPTION, box.right - start), CAPTION)
    if not due:
        nothing = NOTHING_BY_HAND if plan.due else NOTHING
        ink.text((box.left, box.top + HEADING_PT + 12), nothing, CAPTION)
        return
    shown = _shown(ink, due, plan, box)
    y = box.top + HEADING_PT
    for item, lines in shown:
        y += _ROW_PT
        ink.text((box.left, y - 2.4), short_day(item.date), STRONG)
        if item.date.year != plan.on.year:
            after = box.left + ink.width(short_day(item.date), STRONG) + 2.5
            ink.text((after, y - 2.4), f"’{item.date.year % 100:02d}", CAPTION)
        for number, line in enumerate(lines):
            ink.text((box.left + _DATE_PT, y - 2.4 + LINE_PT * number), line, CELL)
        foot = y + LINE_PT * (len(lines) - 1)
        placed.place(
            (box.left, y - _ROW_PT, box.right, foot), placed.key_of("due", "\n".join(item.keys))
        )
        y = foot
    if len(shown) < len(due):
        more = tr("and {count} more in the notebook", count=len(due) - len(shown))
        ink.text((box.left + _DATE_PT, y + _ROW_PT - 2), more, CAPTION)
