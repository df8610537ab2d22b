"""The stretch plan as columns of ground: the roots each step needs against the roots there are.

A second small picture shows what one inch does: through the thatch, into the soil, past the roots.
"""

import random

from lawnbook.charts.marks import Frame, Mark, Picture, Polygon, Polyline, Ring, Words, rectangle
from lawnbook.frozen import dataclass
from lawnbook.plan.water_model import Stretch, StretchStep
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import PERCENT, told, trimmed
from lawnbook.yard.numbers import MONTHS

_LEFT_PT, _RIGHT_PT, _TOP_PT, _ROW_PT = 84.0, 6.0, 36.0, 14.0
_FOOT_PT = 3 * _ROW_PT + 6
_LEAST_DEPTH_IN = 2.0
_WHOLE_STRESS = 0.995


@dataclass(frozen=True, slots=True)
class _Ground:
    """Columns side by side to one scale of depth, in points."""

    frame: Frame
    count: int
    deepest_in: float

    @property
    def foot(self) -> float:
        """Where the deepest ground lies."""
        return self.frame.height - _FOOT_PT

    @property
    def slot(self) -> float:
        """The room of one column."""
        return (self.frame.width - _LEFT_PT - _RIGHT_PT) / self.count

    @property
    def width(self) -> float:
        """The width of one column of ground."""
        return min(46.0, self.slot * 0.62)

    def middle(self, place: int) -> float:
        """The middle of a column."""
        return _LEFT_PT + self.slot * (place + 0.5)

    def y(self, depth_in: float) -> float:
        """Where a depth from the crowns lies."""
        return _TOP_PT + (self.foot - _TOP_PT) * depth_in / self.deepest_in


def stretch_marks(stretch: Stretch, root_depth_in: float, frame: Frame) -> Picture:
    """One column for each step: solid down to today's roots, dashed where roots have yet to grow.

    `root_depth_in` is today's, from the crowns. The step that is borne now is outlined.
    """
    steps = stretch.steps
    deepest = max(_LEAST_DEPTH_IN, root_depth_in, *(s.root_depth_needed_in for s in steps)) * 1.08
    ground = _Ground(frame, len(steps), deepest)
    now = step_now(stretch)
    marks: list[Mark] = list(_row_names(ground))
    for place, step in enumerate(steps):
        marks += _column(ground, place, step, root_depth_in)
        marks += _figures(ground, place, step, is_now=step is now)
    marks += _roots_line(ground, root_depth_in)
    if now is not None:
        marks += _lit(ground, steps.index(now), now)
    return Picture(frame, tuple(marks))


def step_now(stretch: Stretch) -> StretchStep | None:
    """The longest step that today's roots bear; None where they bear none."""
    borne = [step for step in stretch.steps if step.borne]
    return borne[-1] if borne else None


def stretch_chart_words(stretch: Stretch, root_depth_in: float) -> str:
    """What the picture shows, in words, step by step."""
    reach = _roots(root_depth_in)
    parts = [tr("Roots now reach {depth} from the crowns.", depth=reach)]
    for step in stretch.steps:
        often = (
            tr("Every day")
            if step.interval_days == 1
            else tr("Every {interval_days} days", interval_days=step.interval_days)
        )
        said = tr(
            "{often}, {water}: roots of {roots}",
            often=often,
            water=_water(step.depth_in),
            roots=_roots(step.root_depth_needed_in),
        )
        if step.borne:
            said += tr(", there now")
        else:
            said += tr(
                "; now it would use up {percent} of their water",
                percent=_percent(step.share_used_now),
            )
        if step.expected is not None and not step.borne:
            said += tr(
                "; could be from {months} {year}",
                months=tr(MONTHS[step.expected.month - 1]),
                year=step.expected.year,
            )
        parts.append(f"{said}.")
    return " ".join(parts)


def _row_names(ground: _Ground) -> list[Mark]:
    tops = [(12.0, tr("water every")), (25.0, tr("at a time"))]
    rows = [
        (ground.foot + 13 + k * _ROW_PT, text)
        for k, text in enumerate((tr("roots needed"), tr("would use up"), tr("could be")))
    ]
    return [
        Words(at=(_LEFT_PT - 8, y), text=text, role="quiet", align="right")
        for y, text in tops + rows
    ]


def _column(ground: _Ground, place: int, step: StretchStep, root_depth_in: float) -> list[Mark]:
    middle, half = ground.middle(place), ground.width / 2
    left, right = middle - half, middle + half
    needed = step.root_depth_needed_in
    thatch = max(0.0, needed - step.rooted_soil_needed_in)
    here = min(needed, root_depth_in)
    top, grown, end = ground.y(0), ground.y(max(here, thatch)), ground.y(needed)
    marks: list[Mark] = [
        Polygon(rings=(rectangle(left, top - 3, right, top),), fill="verdure"),
        Polygon(rings=(rectangle(left, top, right, ground.y(thatch)),), fill="thatch"),
        Polygon(rings=(rectangle(left, ground.y(thatch), right, grown),), fill="soil"),
        Polyline(lines=_strands(left, right, (ground.y(thatch), grown), place), role="root"),
    ]
    if needed > here + 1e-6:
        box = rectangle(left, grown, right, end)
        marks += [
            Polygon(rings=(box,), fill="soil", alpha=0.25),
            Polygon(rings=(box,), edge="quiet", width=0.9, dash=(2.5, 2.0)),
        ]
    return marks


def _strands(left: float, right: float, span: tuple[float, float], seed: int) -> tuple[Ring, ...]:
    """A few roots, standing still from paint to paint: the longest end where the span ends."""
    top, end = span
    if end - top < 2:
        return ()
    chance = random.Random(seed)
    strands = []
    for strand in range(5):
        x = left + (right - left) * (strand + 0.5) / 5
        length = (end - top) * (1.0 if strand in (1, 3) else chance.uniform(0.5, 0.9))
        strands.append(
            tuple((x + chance.uniform(-1.2, 1.2), top + length * k / 5) for k in range(6))
        )
    return tuple(strands)


def _figures(ground: _Ground, place: int, step: StretchStep, *, is_now: bool) -> list[Mark]:
    """The figures above and below a column."""
    x = ground.middle(place)
    days = (
        tr("day")
        if step.interval_days == 1
        else tr("{interval_days} days", interval_days=step.interval_days)
    )
    short = step.stress_now < _WHOLE_STRESS
    could = tr("now") if step.borne else "–"
    if step.expected is not None and not step.borne:
        could = f"{tr(MONTHS[step.expected.month - 1])} {step.expected.year}"
        if ground.slot < 50:
            could = f"{tr(MONTHS[step.expected.month - 1])} ’{step.expected.year % 100:02d}"
    rows = (
        (_roots(step.root_depth_needed_in), "ink"),
        (_percent(step.share_used_now), "bad" if short and not step.borne else "ink"),
        (could, "ink" if could != "–" else "quiet"),
    )
    role = "accent" if is_now else "ink"
    marks: list[Mark] = [
        Words(at=(x, 12), text=days, role=role, face="semibold", align="center"),
        Words(at=(x, 25), text=_water(step.depth_in), role=role, align="center"),
    ]
    for row, (text, colour) in enumerate(rows):
        at = (x, ground.foot + 13 + row * _ROW_PT)
        marks.append(Words(at=at, text=text, role=colour, align="center"))
    return marks


def _roots_line(ground: _Ground, root_depth_in: float) -> list[Mark]:
    y = ground.y(root_depth_in)
    line = ((_LEFT_PT - 4, y), (ground.frame.width - _RIGHT_PT, y))
    return [
        Polyline(lines=(line,), role="ink", width=1.1, dash=(4.0, 2.5)),
        Words(
            at=(_LEFT_PT - 8, y + 3.2),
            text=tr("roots {depth}", depth=_roots(root_depth_in)),
            face="medium",
            align="right",
        ),
    ]


def _lit(ground: _Ground, place: int, step: StretchStep) -> list[Mark]:
    middle, half = ground.middle(place), ground.width / 2 + 3
    end = ground.y(max(step.root_depth_needed_in, 0.3)) + 3
    box = rectangle(middle - half, ground.y(0) - 6, middle + half, end)
    return [Polygon(rings=(box,), edge="accent", width=1.8)]


def inch_marks(stretch: Stretch, ground_in: tuple[float, float], frame: Frame) -> Picture:
    """What one inch (25 mm) does: thatch, how deep it wets the soil, where today's roots end.

    `ground_in` is today's thatch and the rooted soil below it, inches.
    """
    thatch, rooted = ground_in
    wets = thatch + stretch.inch_wets_in
    deepest = max(_LEAST_DEPTH_IN, wets, thatch + rooted) * 1.10
    left, right, top, foot = 4.0, 70.0, 18.0, frame.height - 4

    def y(depth_in: float) -> float:
        return top + (foot - top) * depth_in / deepest

    head = tr("{depth}, net", depth=told(1.0, 0, "in"))
    soil = rectangle(left, y(thatch), right, foot)
    strands = _strands(left, right, (y(thatch), y(thatch + rooted)), 7)
    marks: list[Mark] = [
        Words(at=(left, 10), text=head, role="water", face="semibold"),
        Polygon(rings=(rectangle(left, top - 3, right, top),), fill="verdure"),
        Polygon(rings=(rectangle(left, top, right, y(thatch)),), fill="thatch"),
        Polygon(rings=(soil,), fill="soil"),
        Polygon(rings=(rectangle(left, y(thatch), right, y(wets)),), fill="water", alpha=0.55),
        Polyline(lines=strands, role="root", width=1.0),
    ]
    lines = [
        (y(wets), tr("wet to {depth}", depth=_roots(stretch.inch_wets_in)), "water"),
        (y(thatch + rooted), tr("roots {depth}", depth=_roots(rooted)), "ink"),
    ]
    if thatch > 0:
        lines.append((y(thatch), tr("thatch {thickness}", thickness=_water(thatch)), "quiet"))
    return Picture(frame, (*marks, *_beside(lines, right)))


def _beside(lines: list[tuple[float, str, str]], right: float) -> list[Mark]:
    """Lines across the ground with their names at the right, pushed apart where they touch."""
    marks: list[Mark] = []
    lowest = -1e9
    for y, text, role in sorted(lines):
        place = max(y, lowest + 11.5)
        marks.append(Polyline(lines=(((4.0, y), (right, y), (right + 6, place)),), role=role))
        marks.append(Words(at=(right + 9, place + 3.2), text=text, role=role))
        lowest = place
    return marks


def inch_words(stretch: Stretch, rooted_in: float) -> str:
    """The same in a sentence or two."""
    wets, reach = _roots(stretch.inch_wets_in), _roots(rooted_in)
    inch = tr("One inch") if not is_metric() else told(1.0, 0, "in")
    words = tr(
        "{inch}, put down where the water is used up to the allowance, wets the soil {depth} deep "
        "below the thatch.",
        inch=inch,
        depth=wets,
    )
    past = stretch.inch_past_roots_in
    if past < 0.005:
        return f"{words} {tr('Today’s roots can take all of it.')}"
    rest = tr(
        "Roots reach {depth} into it, so {past} of that inch would drain past them."
        if not is_metric()
        else "Roots reach {depth} into it, so {past} of that water would drain past them.",
        depth=reach,
        past=trimmed(past, 2, "in"),
    )
    return f"{words} {rest}"


def _water(depth_in: float) -> str:
    return told(depth_in, 2, "in")


def _roots(depth_in: float) -> str:
    return told(depth_in, 1, "in")


def _percent(share: float) -> str:
    return f"{100 * share:.0f}{PERCENT}"
