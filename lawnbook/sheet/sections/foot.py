"""The foot of the sheet: cautions in full, and sources as far as there is room."""

from collections.abc import Iterable, Sequence
from itertools import chain, zip_longest

from lawnbook.frozen import dataclass
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.sheet.ink import CAUTION, FINE, SUBTITLE, Ink, Style
from lawnbook.sheet.layout import FINE_LINE_PT, Box

LEAST_SOURCE_LINES = 3
MOST_SOURCE_LINES = 5
_COLOPHON = Style(SUBTITLE.face, 8.5, SUBTITLE.role)
_NAME = "Lawnbook"
_NAME_GAP_PT = 16.0
_PARTING_PT = 3.0
# The dot stays with the source before it.
_BETWEEN = "\u00a0· "


@dataclass(frozen=True, slots=True)
class Foot:
    """The lines of the foot; the book's name stands at the end of the last one."""

    cautions: tuple[str, ...]
    sources: tuple[str, ...]
    caution: Style = CAUTION

    @property
    def height_pt(self) -> float:
        """The height that the lines need."""
        cautions_pt = self.caution_line_pt * len(self.cautions)
        return cautions_pt + FINE_LINE_PT * max(1, len(self.sources)) + _PARTING_PT + 8

    @property
    def caution_line_pt(self) -> float:
        """The height of a line of cautions."""
        return FINE_LINE_PT + self.caution.size - FINE.size


def lay_foot(
    ink: Ink, plan: Plan, width: float, most_source_lines: int, caution: Style = CAUTION
) -> Foot:
    """Cautions and sources in lines; cautions are never cut, sources are left out whole."""
    cautions = tuple(ink.paragraph(" ".join(plan.cautions), caution, width))
    room = width - ink.width(_NAME, _COLOPHON) - _NAME_GAP_PT
    told = in_turn(plan)
    for count in range(len(told), 0, -1):
        text = sources_text(told, count)
        lines = ink.wrap(text, FINE, width)
        if len(lines) <= most_source_lines and ink.width(lines[-1], FINE) <= room:
            return Foot(cautions, tuple(ink.paragraph(text, FINE, width)), caution)
    return Foot(cautions, (), caution)


def in_turn(plan: Plan) -> tuple[str, ...]:
    """The plan's sources, those of water, feed and thatch in turn, so that each is told early.

    Of each subject the shortest come first: of more subjects one is told whole.
    """
    parts = (
        _cited(plan, (each.source for zone in plan.zones for each in zone.workings)),
        _cited(plan, (zone.budget_source for zone in plan.nitrogen)),
        _cited(plan, (each.source for spot in plan.thatch for each in spot.workings)),
        _cited(plan, (each.source for zone in plan.nitrogen for each in zone.workings)),
    )
    in_turns = (
        each
        for each in chain.from_iterable(zip_longest(*(sorted(part, key=len) for part in parts)))
        if each is not None
    )
    return tuple(dict.fromkeys((*in_turns, *plan.sources)))


def sources_text(sources: Sequence[str], count: int) -> str:
    """The first `count` sources in one sentence, and how many more there are."""
    told = _BETWEEN.join(each.rstrip(". ") for each in sources[:count])
    more = (
        tr(
            "{between}and {count} more in the notebook",
            between=_BETWEEN,
            count=len(sources) - count,
        )
        if count < len(sources)
        else ""
    )
    return tr("Sources: {told}{more}.", told=told, more=more)


def draw_foot(ink: Ink, box: Box, foot: Foot) -> None:
    """A rule, the cautions, the sources, and the book's name at the end of the last line."""
    ink.rule(box.left, box.right, box.top, "ink", 1.0)
    y = box.top + 3
    parts = (
        (foot.cautions, foot.caution, foot.caution_line_pt),
        (foot.sources, FINE, FINE_LINE_PT),
    )
    for lines, style, line_pt in parts:
        for line in lines:
            y += line_pt
            ink.text((box.left, y), line, style)
        y += _PARTING_PT
    ink.text((box.right, box.bottom - 5), _NAME, _COLOPHON, "right")


def _cited(plan: Plan, told: Iterable[str]) -> list[str]:
    """The plan's sources that are named in what is told beside its figures, in the plan's order."""
    named = " ".join(set(told))
    return [each for each in plan.sources if each in named]
