"""The head of the pages that follow the sheet: whose yard, which day, which page of how many."""

from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.sheet.ink import CAPTION, SUBTITLE, Ink, Style
from lawnbook.sheet.layout import Box
from lawnbook.yard.numbers import day

HEAD_PT = 32.0
_TITLE = Style("serif semibold", 13.5)


def draw_running_head(ink: Ink, area: Box, plan: Plan, page: tuple[int, int], says: str) -> None:
    """Name, what the page is, and `page` as number and count, over a double rule."""
    told = tr("{page} of {pages}", page=page[0], pages=page[1])
    ink.text((area.right, area.top + 12), told, CAPTION, "right")
    told_day = tr("{says} for {on}", says=says, on=day(plan.on))
    room = area.width - ink.width(told, CAPTION) - ink.width(told_day, SUBTITLE) - 24
    name = ink.fit(plan.yard or tr("The yard"), _TITLE, room)
    ink.text((area.left, area.top + 12), name, _TITLE)
    ink.text((area.left + ink.width(name, _TITLE) + 10, area.top + 12), told_day, SUBTITLE)
    ink.rule(area.left, area.right, area.top + 20, "ink", 1.0)
    ink.rule(area.left, area.right, area.top + 22.2, "ink", 0.4)
