"""Then and now: the plugs of two days of one spot, side by side on one scale of depth.

A fine line runs across each day's columns at their mean thatch and from day to day between them,
so the eye reads the change where it happened.
"""

from collections.abc import Sequence
from itertools import pairwise
from statistics import fmean

from lawnbook.charts.marks import Frame, Mark, Picture, Polyline, Words, in_the_middle, rough_width
from lawnbook.charts.profile import beneath, column_marks, thatch_row
from lawnbook.charts.profile_layout import ROW_PT, Layout, lay_out
from lawnbook.plan.plug_model import PlugColumn
from lawnbook.reading import tr
from lawnbook.yard.numbers import day

EMPTY = tr("Two days of plugs at this spot are needed: then and now.")
_MOST_SLOT_PT = 132.0


def pair_marks(then: Sequence[PlugColumn], now: Sequence[PlugColumn], frame: Frame) -> Picture:
    """The columns of two days, the earlier ones first; replicates of a day stand together."""
    columns = (*then, *now)
    if not columns:
        return in_the_middle((EMPTY,), frame)
    layout = lay_out(columns, frame, most_slot_pt=_MOST_SLOT_PT)
    base = layout.head_rows * ROW_PT - 2
    marks = [
        *column_marks(layout),
        *_change(layout),
        *_headings(layout, base - ROW_PT),
        *thatch_row(layout, base),
        *beneath(layout),
    ]
    return Picture(frame, tuple(marks))


def _headings(layout: Layout, baseline: float) -> list[Mark]:
    """The date over each day's columns, and over it which of the two it is."""
    marks: list[Mark] = []
    names = (tr("then"), tr("now")) if len(layout.days) == 2 else ("",) * len(layout.days)
    dates = [day(layout.columns[plugs[0]].date) for plugs in layout.days]
    xs = [layout.day_middle(place) for place in range(len(layout.days))]
    widest = max(rough_width(text, 9.0) for text in dates)
    apart = min((b - a for a, b in pairwise(xs)), default=widest + 4)
    for x, name, text in zip(xs, names, dates, strict=True):
        told = text if apart > widest + 3 else text.rpartition(" ")[2]
        marks += [
            Words(at=(x, baseline - ROW_PT), text=name, face="serif semibold", align="center"),
            Words(at=(x, baseline), text=told, role="quiet", align="center"),
        ]
    return [mark for mark in marks if not (isinstance(mark, Words) and not mark.text)]


def _change(layout: Layout) -> list[Mark]:
    """From then's mean thatch to now's; none where one was read pressed and the other was not."""
    runs: list[tuple[float, float]] = []
    pressed: set[bool] = set()
    for plugs in layout.days:
        read = [layout.columns[n] for n in plugs if layout.columns[n].thatch_in is not None]
        if not read:
            return []
        pressed |= {isinstance(each, PlugColumn) and each.pressed for each in read}
        y = layout.depth(fmean(each.thatch_in or 0.0 for each in read))
        half = layout.plug(plugs[0]).width / 2
        runs += [(layout.middles[plugs[0]] - half, y), (layout.middles[plugs[-1]] + half, y)]
    if len(layout.days) != 2 or len(pressed) > 1:
        return []
    return [
        Polyline(lines=(tuple(runs),), role="paper", width=2.8),
        Polyline(lines=(tuple(runs),), role="accent", width=1.4),
    ]
