"""The foot of the sheet: cautions in full, sources as far as there is room, the date."""

from collections.abc import Sequence

from lawnbook.plan.model import Plan
from lawnbook.sheet.ink import CAUTION, FINE, SUBTITLE, Ink, Style
from lawnbook.sheet.layout import FINE_LINE_PT, Box
from lawnbook.yard.numbers import day

_MOST_SOURCE_LINES = 2
_COLOPHON = Style(SUBTITLE.face, 8.5, SUBTITLE.role)


def foot_lines(ink: Ink, plan: Plan, width: float) -> tuple[list[str], list[str]]:
    """Cautions and sources in lines; cautions are never cut, sources are left out whole."""
    cautions = ink.wrap(" ".join(plan.cautions), CAUTION, width)
    for count in range(len(plan.sources), 0, -1):
        sources = ink.wrap(sources_text(plan.sources, count), FINE, width)
        if len(sources) <= _MOST_SOURCE_LINES:
            return cautions, sources
    return cautions, []


def sources_text(sources: Sequence[str], count: int) -> str:
    """The first `count` sources in one sentence, and how many more there are."""
    told = "; ".join(each.rstrip(". ") for each in sources[:count])
    more = f"; and {len(sources) - count} more in the notebook" if count < len(sources) else ""
    return f"Sources: {told}{more}."


def foot_height(ink: Ink, plan: Plan, width: float) -> float:
    """The height that the foot needs."""
    cautions, sources = foot_lines(ink, plan, width)
    return FINE_LINE_PT * (len(cautions) + len(sources) + 1) + 12


def draw_foot(ink: Ink, box: Box, plan: Plan) -> None:
    """A rule, the cautions, the sources, and the colophon on the last line."""
    cautions, sources = foot_lines(ink, plan, box.width)
    ink.rule(box.left, box.right, box.top, "ink", 1.0)
    y = box.top + 3
    for line, style in [(line, CAUTION) for line in cautions] + [(s, FINE) for s in sources]:
        y += FINE_LINE_PT
        ink.text((box.left, y), line, style)
    ink.text((box.left, box.bottom - 1), f"As the notebook stood on {day(plan.on)}.", _COLOPHON)
    ink.text((box.right, box.bottom - 1), "Lawnbook", _COLOPHON, "right")
