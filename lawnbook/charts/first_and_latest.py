"""A spot's first and latest plug large, with their thatch in large figures, the rest between them.

All columns stand on one scale of depth, so that their heights compare; the small ones are only
narrower. Across all of them run the half-inch and one-inch lines. Days with several plugs are
drawn as their mean; where some were pressed and some not, the day's last plug stands for it.
"""

from collections.abc import Sequence
from itertools import groupby
from typing import Literal

from lawnbook.charts.marks import Frame, Mark, Picture, Polyline, Words, in_the_middle, rough_width
from lawnbook.charts.plug import Column, Plug, plug_marks
from lawnbook.charts.profile import EMPTY
from lawnbook.charts.profile_layout import day_mean, roots_words, thatch_words
from lawnbook.charts.scales import levels, levels_room, round_step, tick_told, ticks
from lawnbook.frozen import dataclass
from lawnbook.plan.plug_model import PlugColumn
from lawnbook.reading import tr
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.numbers import MONTHS

_LEFT_PT = 24.0
_RIGHT_PT = 30.0
_TICK_SIZE = 8.0
_LARGE_PT = 46.0
_SMALL_PT = 13.0
_GAP_PT = 9.0
_MOST_GAP_PT = 26.0
_HEAD_PT = 34.0
_FOOT_PT = 14.0
_GRASS_PT = 17.0
_LABELLED_PT = 25.0
_HEAD_LETTER_PT, _MONTH_LETTER_PT = 4.3, 5.0
_LEAST_DEPTH_IN = 2.5
_PT_PER_IN = 14.0
_STEP_PT = 15.0
Size = Literal["large", "small"]


@dataclass(frozen=True, slots=True)
class _Placed:
    """A column, the middle of its place, and whether it stands large."""

    column: Column
    middle: float
    size: Size

    @property
    def width(self) -> float:
        """How wide it is drawn."""
        return _LARGE_PT if self.size == "large" else _SMALL_PT


def first_and_latest_marks(columns: Sequence[PlugColumn], frame: Frame) -> Picture:
    """The picture of a spot's plugs, in date order; how to begin where there is none."""
    days = [_of_day(tuple(plugs)) for _, plugs in groupby(columns, key=lambda each: each.date)]
    if not days:
        return in_the_middle(EMPTY, frame)
    placed = _placed(days, frame)
    top, bottom = _HEAD_PT + _GRASS_PT + 3, frame.height - _FOOT_PT
    deepest = max([each.root_depth_in or 0.0 for each in days] + [_LEAST_DEPTH_IN])
    depth_in = min(deepest * 1.06, max(_LEAST_DEPTH_IN, (bottom - top) / _PT_PER_IN))
    pt_per_in = (bottom - top) / depth_in
    end = placed[-1].middle + placed[-1].width / 2
    marks: list[Mark] = [*_scale(depth_in, top, pt_per_in)]
    for each in placed:
        plug = Plug(each.column, each.middle, each.width, top, bottom, pt_per_in, _GRASS_PT)
        marks += plug_marks(plug)
    marks += _levels(top, pt_per_in, end)
    for place, each in enumerate(placed):
        marks += (
            _words(placed, place, frame) if each.size == "large" else _small_words(placed, each)
        )
    return Picture(frame, tuple(marks))


def _of_day(plugs: Sequence[PlugColumn]) -> Column:
    """A day's plugs as one column."""
    alike = len({each.pressed for each in plugs}) == 1
    return day_mean(plugs) if alike else plugs[-1]


def _placed(days: Sequence[Column], frame: Frame) -> list[_Placed]:
    """First and latest at the ends, of those between the latest that find room."""
    if len(days) == 1:
        return [_Placed(days[0], _left_pt() + _LARGE_PT, "large")]
    room = frame.width - _left_pt() - _right_pt() - 2 * _LARGE_PT
    most = max(0, int((room - _GAP_PT) / (_SMALL_PT + _GAP_PT)))
    between = days[1:-1][-most:] if most else []
    gap = min(_MOST_GAP_PT, (room - _SMALL_PT * len(between)) / (len(between) + 1))
    x = _left_pt() + _LARGE_PT / 2
    placed = [_Placed(days[0], x, "large")]
    x += _LARGE_PT / 2 + gap
    for day in between:
        placed.append(_Placed(day, x + _SMALL_PT / 2, "small"))
        x += _SMALL_PT + gap
    return [*placed, _Placed(days[-1], x + _LARGE_PT / 2, "large")]


def _left_pt() -> float:
    """The room for the numbers of the scale."""
    return max(_LEFT_PT, 7.0 + rough_width(f"0 {unit_shown('in')}", 8))


def _right_pt() -> float:
    """The room for the names of the lines."""
    return levels_room(8.0, _RIGHT_PT, 9.0)


def _scale(depth_in: float, top: float, pt_per_in: float) -> list[Mark]:
    """Depths at the left, as many as there is room for."""
    left = _left_pt()
    step = round_step("in", (1, 2, 5, 10, 20), lambda each: each * pt_per_in >= _STEP_PT)
    marks: list[Mark] = []
    for inches, number in ticks("in", step, depth_in):
        y = top + inches * pt_per_in
        text = tick_told(number) if number else f"0 {unit_shown('in')}"
        marks.append(Words(at=(left - 6, y + 3), text=text, role="quiet", size=8, align="right"))
        marks.append(Polyline(lines=(((left - 4, y), (left - 1, y)),), role="quiet", width=0.6))
    return marks


def _levels(top: float, pt_per_in: float, end: float) -> list[Mark]:
    """The half-inch and one-inch lines across all columns, their names kept apart."""
    marks: list[Mark] = []
    baseline = 0.0
    for inches, text, dash in levels():
        y = top + inches * pt_per_in
        baseline = max(y + 3.0, baseline + 9.5)
        line = ((_left_pt(), y), (end + 6, y))
        marks.append(Polyline(lines=(line,), role="ink", width=0.9, dash=dash))
        marks.append(Words(at=(end + 9, baseline), text=text, size=8, face="medium"))
    return marks


def _words(placed: Sequence[_Placed], place: int, frame: Frame) -> list[Mark]:
    """Over a large column which it is, its month and its thatch in large figures; below, roots."""
    each = placed[place]
    x = each.middle
    return [
        Words(at=(x, 10), text=_head(placed, place), size=8.5, role="quiet", align="center"),
        Words(
            at=(x, 27),
            text=thatch_words(each.column),
            size=16,
            face="serif semibold",
            align="center",
        ),
        Words(
            at=(x, frame.height - 3),
            text=tr("roots {roots_words}", roots_words=roots_words(each.column)),
            size=8,
            role="quiet",
            align="center",
        ),
    ]


def _head(placed: Sequence[_Placed], place: int) -> str:
    on = placed[place].column.date
    name = "" if len(placed) == 1 else tr("then") if place == 0 else tr("now")
    when = f"{tr(MONTHS[on.month - 1])} ’{on.year % 100:02d}"
    return f"{name}, {when}" if name else when


def _clear_of_heads(placed: Sequence[_Placed], each: _Placed, month: str) -> bool:
    """Whether a small column's month has room beside the heads of the first and the latest."""
    return all(
        abs(placed[place].middle - each.middle)
        > (_HEAD_LETTER_PT * len(_head(placed, place)) + _MONTH_LETTER_PT * len(month)) / 2 + 3
        for place in (0, len(placed) - 1)
    )


def _small_words(placed: Sequence[_Placed], each: _Placed) -> list[Mark]:
    """The thatch over a small column, where its neighbours leave room for it."""
    apart = min(abs(each.middle - other.middle) for other in placed if other is not each)
    if apart < _LABELLED_PT:
        return []
    marks: list[Mark] = [
        Words(at=(each.middle, 27), text=thatch_words(each.column), size=8, align="center")
    ]
    month = tr(MONTHS[each.column.date.month - 1])
    if _clear_of_heads(placed, each, month):
        words = Words(at=(each.middle, 10), text=month, size=8, role="quiet", align="center")
        marks.append(words)
    return marks
