"""The profile columns: every plug of a spot to scale, in date order, on one scale of depth.

Above each column stand its date and thatch, below it what else the plug showed; across all of them
run the half-inch and one-inch lines and, where there is one, the trend. The means of a zone are
drawn alike, with the number of their spots.
"""

from collections.abc import Sequence
from datetime import date
from math import ceil

import numpy as np

from lawnbook.charts.marks import Frame, Mark, Picture, Polyline, Words, in_the_middle, rough_width
from lawnbook.charts.plug import Column, plug_marks
from lawnbook.charts.profile_layout import (
    DATE_SIZE,
    LABEL_PT,
    ROW_PT,
    UNSURE_DASH,
    UNSURE_PT,
    Detail,
    Layout,
    dates_in_one_row,
    lay_out,
    spaced,
    thatch_words,
)
from lawnbook.charts.scales import levels, round_step, tick_told, ticks
from lawnbook.plan.plug_model import MeanColumn
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.numbers import MONTHS, short_day

Line = Sequence[tuple[date, float]]
"""A trend as dates and inches, in date order: straight between them."""

EMPTY = (tr("No plug yet."), tr("The first one stands here, drawn to scale."))
_DAY_AND_MONTH_PT = 44.0
_STEP_PT, _LEAST_STEP_MM = 17.0, 10.0
"""How far apart the numbers of the scale stand at the least."""


def profile_marks(
    columns: Sequence[Column],
    frame: Frame,
    line: Line | None = None,
    detail: Detail = "full",
    *,
    sure: bool = True,
) -> Picture:
    """The profile columns of plugs or of means (in date order) and their trend, on a frame.

    Plugs of one day stand side by side under one date. Where the frame is too narrow for all, the
    first and the latest are shown and it says how many were left out. "brief" leaves out what a
    small printed picture has no room for. A trend that is not `sure`, having no interval, is thin
    and dashed.
    """
    if not columns:
        return _empty(frame)
    layout = lay_out(columns, frame, detail)
    body = column_marks(layout)
    marks = [*body, *_trend(layout, line, sure=sure), *_above(layout), *beneath(layout)]
    return Picture(frame, tuple(marks))


def column_marks(layout: Layout) -> list[Mark]:
    """The scale of depth, the columns, and the half-inch and one-inch lines over them."""
    marks: list[Mark] = [*_scale(layout)]
    for number in range(len(layout.columns)):
        marks += plug_marks(layout.plug(number))
    return [*marks, *_levels(layout)]


def _empty(frame: Frame) -> Picture:
    joined = " ".join(EMPTY)
    lines = (joined,) if rough_width(joined, 10) < frame.width - 20 else EMPTY
    return in_the_middle(lines, frame)


def _scale(layout: Layout) -> list[Mark]:
    """The scale of depth at the left, with as many numbers as there is room for."""
    least = ceil(_STEP_PT / layout.pt_per_in)
    step = round_step(
        "in",
        (1, 2, 5, 10, 20, least),
        lambda each: each * layout.pt_per_in >= _STEP_PT,
        _LEAST_STEP_MM,
    )
    scale = ticks("in", step, layout.depth_in)
    if not scale:
        return []
    x = layout.start - 4
    marks: list[Mark] = []
    for inches, number in scale:
        y = layout.depth(inches)
        text = tr("crowns") if not number and layout.detail == "full" else tick_told(number)
        marks.append(Words(at=(x - 6, y + 3), text=text, role="quiet", align="right"))
        marks.append(Polyline(lines=(((x - 3, y), (x, y)),), role="quiet", width=0.6))
    unit = tr("inches") if layout.detail == "full" and not is_metric() else unit_shown("in")
    last = layout.depth(scale[-1][0])
    if layout.bottom - last >= 14:
        marks.append(Words(at=(x - 6, last + 14), text=unit, role="quiet", align="right"))
    return marks


def _levels(layout: Layout) -> list[Mark]:
    """The half-inch and one-inch lines, their names kept apart where the scale is small."""
    start, end = layout.start - 2, layout.end + 1
    marks: list[Mark] = []
    baseline = 0.0
    for inches, text, dash in levels():
        y = layout.depth(inches)
        baseline = max(y + 3.2, baseline + 10.5)
        marks.append(Polyline(lines=(((start, y), (end, y)),), role="ink", width=0.9, dash=dash))
        marks.append(Words(at=(end + 3, baseline), text=text, face="medium"))
    return marks


def _trend(layout: Layout, line: Line | None, *, sure: bool) -> list[Mark]:
    """The trend, at every day it covers: straight in time, so bent where days are uneven."""
    if line is None or len(line) < 2 or line[0][0] >= line[-1][0]:
        return []
    days, depths = zip(*((on.toordinal(), inches) for on, inches in line), strict=True)
    points: list[tuple[float, float]] = []
    for place, day in enumerate(layout.days):
        on = layout.columns[day[0]].date
        if line[0][0] <= on <= line[-1][0]:
            inches = float(np.interp(on.toordinal(), days, depths))
            points.append((layout.day_middle(place), layout.depth(inches)))
    if len(points) < 2:
        return []
    run = (tuple(points),)
    if not sure:
        return [Polyline(lines=run, role="accent", width=UNSURE_PT, dash=UNSURE_DASH)]
    return [
        # Thin: it runs where thatch meets soil, which has to be seen beneath it.
        Polyline(lines=run, role="paper", width=2.8),
        Polyline(lines=run, role="accent", width=1.4),
    ]


def _above(layout: Layout) -> list[Mark]:
    """Date and thatch over each column; a year is written once, over its first plug."""
    means = [each for each in layout.columns if isinstance(each, MeanColumn)]
    base = layout.head_rows * ROW_PT - 2
    marks = thatch_row(layout, base)
    dates_base = base - ROW_PT
    if means:
        marks += _spots_row(layout, dates_base, max(each.of_spots for each in means))
        dates_base -= ROW_PT
    if dates_base > ROW_PT:
        marks += _years(layout)
    size = DATE_SIZE[layout.detail]
    for x, text in _dates(layout, in_one_row=dates_base < ROW_PT):
        marks.append(Words(at=(x, dates_base), text=text, role="quiet", size=size, align="center"))
    return marks


def thatch_row(layout: Layout, baseline: float) -> list[Mark]:
    """The thatch over each column that has its figures written, and the row's name."""
    unit = unit_shown("in")
    name = tr("thatch, {unit}", unit=unit) if layout.detail == "full" else tr("thatch")
    edge = layout.start - 10
    marks: list[Mark] = [Words(at=(edge, baseline), text=name, role="quiet", align="right")]
    for x, column in layout.figured:
        text = thatch_words(column)
        marks.append(Words(at=(x, baseline), text=text, face="semibold", align="center"))
    return marks


def _spots_row(layout: Layout, baseline: float, of_spots: int) -> list[Mark]:
    """How many spots each mean is of."""
    name = tr("spots, of {of_spots}", of_spots=of_spots) if layout.detail == "full" else "spots"
    edge = layout.start - 10
    marks: list[Mark] = [Words(at=(edge, baseline), text=name, role="quiet", align="right")]
    for x, column in layout.figured:
        if isinstance(column, MeanColumn):
            at = (x, baseline)
            marks.append(Words(at=at, text=str(column.spots), role="quiet", align="center"))
    return marks


def _dates(layout: Layout, *, in_one_row: bool) -> list[tuple[float, str]]:
    """Where dates are written, and the dates."""
    if in_one_row:
        return dates_in_one_row(layout.columns, layout.days, layout.middles)
    xs = [layout.day_middle(place) for place in range(len(layout.days))]
    written = [(xs[place], _day_of(layout, place)) for place in spaced(xs, LABEL_PT)]
    if layout.slot >= _DAY_AND_MONTH_PT:
        return [(x, short_day(on)) for x, on in written]
    return [(x, tr(MONTHS[on.month - 1])) for x, on in written]


def _day_of(layout: Layout, place: int) -> date:
    return layout.columns[layout.days[place][0]].date


def _years(layout: Layout) -> list[Mark]:
    marks: list[Mark] = []
    year, free = 0, 0.0
    for place in range(len(layout.days)):
        x, on = layout.day_middle(place), _day_of(layout, place)
        if on.year != year and x >= free:
            at = (x, ROW_PT - 2)
            marks.append(Words(at=at, text=str(on.year), face="medium", align="center"))
            free = x + LABEL_PT
        year = on.year
    return marks


def beneath(layout: Layout) -> list[Mark]:
    """What else the plugs showed, and what must be said of the picture."""
    edge = layout.start - 10
    marks: list[Mark] = []
    for place, row in enumerate(layout.rows, start=1):
        y = layout.bottom + ROW_PT * place
        name = row.name if layout.detail == "full" else row.name.split(",")[0]
        marks.append(Words(at=(edge, y), text=name, role="quiet", align="right"))
        marks += [
            Words(at=(x, y), text=row.say(column), align="center") for x, column in layout.figured
        ]
    for row_up, text in enumerate(reversed(layout.notes)):
        at = (layout.start, layout.frame.height - 4 - ROW_PT * row_up)
        marks.append(Words(at=at, text=text, role="quiet", face="italic"))
    return marks
