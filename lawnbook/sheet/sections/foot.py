"""The foot of the sheet: cautions in full, sources as far as there is room, the date."""

from lawnbook.plan.model import Plan
from lawnbook.sheet.ink import FINE, FINE_STRONG, SUBTITLE, Ink, Style
from lawnbook.sheet.layout import LINE_PT, Box
from lawnbook.yard.numbers import day

_MOST_SOURCE_LINES = 2
_COLOPHON = Style(SUBTITLE.face, 8.5, SUBTITLE.role)


def foot_lines(ink: Ink, plan: Plan, width: float) -> tuple[list[str], list[str]]:
    """Cautions and sources in lines; cautions are never cut."""
    cautions = ink.wrap(" ".join(plan.cautions), FINE_STRONG, width)
    told = "; ".join(each.rstrip(". ") for each in plan.sources)
    sources = ink.wrap(f"Sources: {told}.", FINE, width, most=_MOST_SOURCE_LINES) if told else []
    return cautions, sources


def foot_height(ink: Ink, plan: Plan, width: float) -> float:
    """The height that the foot needs."""
    cautions, sources = foot_lines(ink, plan, width)
    return LINE_PT * (len(cautions) + len(sources) + 1) + 12


def draw_foot(ink: Ink, box: Box, plan: Plan) -> None:
    """A rule, the cautions, the sources, and the colophon on the last line."""
    cautions, sources = foot_lines(ink, plan, box.width)
    ink.rule(box.left, box.right, box.top, "ink", 1.0)
    y = box.top + 3
    for line, style in [(line, FINE_STRONG) for line in cautions] + [(s, FINE) for s in sources]:
        y += LINE_PT
        ink.text((box.left, y), line, style)
    ink.text((box.left, box.bottom - 1), f"As the notebook stood on {day(plan.on)}.", _COLOPHON)
    ink.text((box.right, box.bottom - 1), "Lawnbook", _COLOPHON, "right")
