"""The profile columns: every plug of a spot to scale, in date order, on one scale of depth.

Above each column stand its date and thatch, below it what else the plug showed; across all of them
run the half-inch and one-inch lines and, where there is one, the trend.
"""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from typing import Literal

from lawnbook.charts.marks import Frame, Mark, Picture, Polyline, Words, rough_width
from lawnbook.charts.plug import Plug, plug_marks
from lawnbook.plan.plug_model import PlugColumn
from lawnbook.yard.numbers import MONTHS, short_day

Detail = Literal["full", "brief"]
Line = tuple[tuple[date, float], tuple[date, float]]

EMPTY = ("No plug yet.", "The first one stands here, drawn to scale.")
_LEAST_DEPTH_IN = 2.5
_MOST_SLOT_PT = 92.0
_LEAST_SLOT_PT = 15.0
_LABEL_PT = 27.0
_ROW_PT = 13.0
_RIGHT_PT = 28.0
_GRASS_PT: dict[Detail, float] = {"full": 25.0, "brief": 16.0}
_OVER_GRASS_PT: dict[Detail, float] = {"full": 7.0, "brief": 4.0}
_DATE_SIZE: dict[Detail, float] = {"full": 9.0, "brief": 8.0}
_DATE_GAP_PT = 3.0
_BRIEF_PT_PER_IN = 12.5
_LEFT_PT: dict[Detail, float] = {"full": 76.0, "brief": 40.0}


@dataclass(frozen=True, slots=True)
class _Row:
    """A line of figures beneath the columns: its name, and what it says of a plug."""

    name: str
    say: Callable[[PlugColumn], str]


_ROOTS = _Row("roots, in", lambda each: _number(each.root_depth_in, 1))
_WORMS = _Row("worms", lambda each: _number(each.worms, 0))
_SPONGE = _Row("sponge, of 4", lambda each: _number(each.sponge, 0))
_SOIL = _Row("soil in it, of 4", lambda each: _number(each.soil_in_thatch, 0))


@dataclass(frozen=True, slots=True)
class _Layout:
    """Where everything goes, in points."""

    frame: Frame
    detail: Detail
    columns: tuple[PlugColumn, ...]
    left_out: int
    rows: tuple[_Row, ...]
    left: float
    right: float
    head_rows: int
    crowns: float
    bottom: float
    depth_in: float
    slot: float

    @property
    def pt_per_in(self) -> float:
        """Points on the page to an inch of ground."""
        return (self.bottom - self.crowns) / self.depth_in

    def middle(self, number: int) -> float:
        """The middle of a column; the group stands in the middle of its room."""
        spare = self.right - self.left - self.slot * len(self.columns)
        return self.left + spare / 2 + self.slot * (number + 0.5)

    def depth(self, inches: float) -> float:
        """Where a depth below the crowns lies on the page."""
        return self.crowns + inches * self.pt_per_in

    @property
    def labelled(self) -> tuple[int, ...]:
        """The columns that have their figures written."""
        return _labelled(len(self.columns), self.slot)

    @property
    def notes(self) -> tuple[str, ...]:
        """What must be said beneath the columns."""
        return _notes(self.columns, self.left_out)

    def plug(self, number: int) -> Plug:
        """A column with its place."""
        width = min(0.64 * self.slot, self.slot - 6.5)
        return Plug(
            column=self.columns[number],
            middle=self.middle(number),
            width=width,
            crowns=self.crowns,
            bottom=self.bottom,
            pt_per_in=self.pt_per_in,
            grass=_GRASS_PT[self.detail],
        )


def profile_marks(
    columns: Sequence[PlugColumn],
    frame: Frame,
    line: Line | None = None,
    detail: Detail = "full",
) -> Picture:
    """The profile columns of one spot's plugs (in date order) and its trend, on a frame.

    Where the frame is too narrow for all, the first and the latest are shown and it says how many
    were left out. "brief" leaves out what a small printed picture has no room for.
    """
    if not columns:
        return _empty(frame)
    layout = _lay_out(columns, frame, detail)
    marks: list[Mark] = [*_scale(layout)]
    for number in range(len(layout.columns)):
        marks += plug_marks(layout.plug(number))
    marks += [*_levels(layout), *_trend(layout, line), *_captions(layout)]
    return Picture(frame, tuple(marks))


def _empty(frame: Frame) -> Picture:
    joined = " ".join(EMPTY)
    lines = (joined,) if rough_width(joined, 10) < frame.width - 20 else EMPTY
    top = frame.height / 2 - 8 * (len(lines) - 1)
    words = tuple(
        Words(
            at=(frame.width / 2, top + 16 * row),
            text=text,
            role="quiet",
            size=10,
            face="serif italic",
            align="center",
        )
        for row, text in enumerate(lines)
    )
    return Picture(frame, words)


def _lay_out(columns: Sequence[PlugColumn], frame: Frame, detail: Detail) -> _Layout:
    left, right = _LEFT_PT[detail], frame.width - _RIGHT_PT
    shown, left_out = _shown(columns, int((right - left) / _LEAST_SLOT_PT))
    rows = _rows(shown, detail)
    slot = min(_MOST_SLOT_PT, (right - left) / len(shown))
    rows_pt = _ROW_PT * (len(rows) + len(_notes(shown, left_out)))
    head_rows = 2 if detail == "brief" and _dates_fit_one_row(shown, slot) else 3
    crowns = head_rows * _ROW_PT + _GRASS_PT[detail] + _OVER_GRASS_PT[detail]
    bottom = frame.height - rows_pt - 6
    depth_in = _depth_in(shown)
    if detail == "brief":
        # A small picture is of thatch: roots that go deeper are cut, and their figure stands below.
        depth_in = min(depth_in, max(_LEAST_DEPTH_IN, (bottom - crowns) / _BRIEF_PT_PER_IN))
    return _Layout(
        frame=frame,
        detail=detail,
        columns=shown,
        left_out=left_out,
        rows=rows,
        left=left,
        right=right,
        head_rows=head_rows,
        crowns=crowns,
        bottom=bottom,
        depth_in=depth_in,
        slot=slot,
    )


def _labelled(count: int, slot: float) -> tuple[int, ...]:
    """The columns that have their figures written, from 0: the first, and every few to the last."""
    stride = math.ceil(_LABEL_PT / slot)
    rest = (n for n in range(stride, count) if (count - 1 - n) % stride == 0)
    return (0, *rest) if count else ()


def _dates_in_one_row(columns: Sequence[PlugColumn], slot: float) -> list[tuple[int, str]]:
    """The written columns and their dates: the month, with its year over the year's first."""
    told: list[tuple[int, str]] = []
    year = 0
    for number in _labelled(len(columns), slot):
        on = columns[number].date
        month = MONTHS[on.month - 1]
        told.append((number, month if on.year == year else f"{month} ’{on.year % 100:02d}"))
        year = on.year
    return told


def _dates_fit_one_row(columns: Sequence[PlugColumn], slot: float) -> bool:
    size = _DATE_SIZE["brief"]
    told = [(n * slot, rough_width(text, size)) for n, text in _dates_in_one_row(columns, slot)]
    return all(
        other - one >= (width + wide) / 2 + _DATE_GAP_PT
        for (one, width), (other, wide) in pairwise(told)
    )


def _shown(columns: Sequence[PlugColumn], room: int) -> tuple[tuple[PlugColumn, ...], int]:
    room = max(2, room)
    if len(columns) <= room:
        return tuple(columns), 0
    return (columns[0], *columns[-(room - 1) :]), len(columns) - room


def _rows(columns: Iterable[PlugColumn], detail: Detail) -> tuple[_Row, ...]:
    if detail == "brief":
        return (_ROOTS,)
    told = (
        row for row in (_WORMS, _SPONGE, _SOIL) if any(row.say(each) != "–" for each in columns)
    )
    return (_ROOTS, *told)


def _depth_in(columns: Iterable[PlugColumn]) -> float:
    deepest = _LEAST_DEPTH_IN
    for each in columns:
        thatch = (each.thatch_in or 0.0) + (each.spread_in or 0.0)
        deepest = max(deepest, (each.root_depth_in or 0.0) * 1.07, thatch * 1.25)
    return deepest


def _scale(layout: _Layout) -> list[Mark]:
    """The scale of depth at the left, as many inches labelled as there is room for."""
    step = next(each for each in (1, 2, 5, 10, 20) if each * layout.pt_per_in >= 17)
    x = layout.middle(0) - layout.slot / 2 - 4
    marks: list[Mark] = []
    for inches in range(0, int(layout.depth_in) + 1, step):
        y = layout.depth(inches)
        text = "crowns" if inches == 0 and layout.detail == "full" else str(inches)
        marks.append(Words(at=(x - 6, y + 3), text=text, role="quiet", align="right"))
        marks.append(Polyline(lines=(((x - 3, y), (x, y)),), role="quiet", width=0.6))
    unit = "in" if layout.detail == "brief" else "inches"
    last = layout.depth(int(layout.depth_in) // step * step)
    if layout.bottom - last >= 14:
        marks.append(Words(at=(x - 6, last + 14), text=unit, role="quiet", align="right"))
    return marks


def _levels(layout: _Layout) -> list[Mark]:
    """The half-inch and one-inch lines, their names kept apart where the scale is small."""
    start = layout.middle(0) - layout.slot / 2 - 2
    end = layout.middle(len(layout.columns) - 1) + layout.slot / 2 + 1
    marks: list[Mark] = []
    baseline = 0.0
    for inches, text, dash in ((0.5, "½ in", (5.0, 2.6)), (1.0, "1 in", (1.2, 2.4))):
        y = layout.depth(inches)
        baseline = max(y + 3.2, baseline + 10.5)
        marks.append(Polyline(lines=(((start, y), (end, y)),), role="ink", width=0.9, dash=dash))
        marks.append(Words(at=(end + 3, baseline), text=text, face="medium"))
    return marks


def _trend(layout: _Layout, line: Line | None) -> list[Mark]:
    """The trend, at every column it covers: straight in time, so bent where plugs are uneven."""
    if line is None:
        return []
    (first, start), (last, end) = line
    days = (last - first).days
    points = [
        (
            layout.middle(number),
            layout.depth(start + (end - start) * ((each.date - first).days / days)),
        )
        for number, each in enumerate(layout.columns)
        if days > 0 and first <= each.date <= last
    ]
    if len(points) < 2:
        return []
    return [
        Polyline(lines=(tuple(points),), role="paper", width=3.8),
        Polyline(lines=(tuple(points),), role="accent", width=1.7),
    ]


def _captions(layout: _Layout) -> list[Mark]:
    marks = [*_above(layout), *_beneath(layout)]
    for row, text in enumerate(reversed(layout.notes)):
        at = (layout.middle(0) - layout.slot / 2, layout.frame.height - 4 - _ROW_PT * row)
        marks.append(Words(at=at, text=text, role="quiet", face="italic"))
    return marks


def _notes(columns: Sequence[PlugColumn], left_out: int) -> tuple[str, ...]:
    notes = []
    if left_out:
        noun = "plug" if left_out == 1 else "plugs"
        notes.append(f"{left_out} {noun} left out after the first")
    if any(each.pressed for each in columns):
        notes.append("plate and arrows: read pressed")
    return tuple(notes)


def _above(layout: _Layout) -> list[Mark]:
    """Date and thatch over each column; a year is written once, over its first plug."""
    edge = layout.middle(0) - layout.slot / 2 - 10
    base = layout.head_rows * _ROW_PT - 2
    name = "thatch, in" if layout.detail == "full" else "thatch"
    marks: list[Mark] = [Words(at=(edge, base), text=name, role="quiet", align="right")]
    if layout.head_rows == 3:
        marks += _years(layout)
    size = _DATE_SIZE[layout.detail]
    for number, text in _dates(layout):
        x = layout.middle(number)
        thatch = _number(layout.columns[number].thatch_in, 2)
        at = (x, base - _ROW_PT)
        marks += [
            Words(at=at, text=text, role="quiet", size=size, align="center"),
            Words(at=(x, base), text=thatch, face="semibold", align="center"),
        ]
    return marks


def _dates(layout: _Layout) -> list[tuple[int, str]]:
    """The columns that have a date written, and the date."""
    if layout.head_rows == 2:
        return _dates_in_one_row(layout.columns, layout.slot)
    days = [(n, layout.columns[n].date) for n in layout.labelled]
    if layout.slot >= 44:
        return [(n, short_day(on)) for n, on in days]
    return [(n, MONTHS[on.month - 1]) for n, on in days]


def _years(layout: _Layout) -> list[Mark]:
    marks: list[Mark] = []
    year, free = 0, 0.0
    for number, each in enumerate(layout.columns):
        x = layout.middle(number)
        if each.date.year != year and x >= free:
            text = Words(
                at=(x, _ROW_PT - 2), text=str(each.date.year), face="medium", align="center"
            )
            marks.append(text)
            free = x + _LABEL_PT
        year = each.date.year
    return marks


def _beneath(layout: _Layout) -> list[Mark]:
    edge = layout.middle(0) - layout.slot / 2 - 10
    marks: list[Mark] = []
    for place, row in enumerate(layout.rows, start=1):
        y = layout.bottom + _ROW_PT * place
        name = row.name if layout.detail == "full" else row.name.split(",")[0]
        marks.append(Words(at=(edge, y), text=name, role="quiet", align="right"))
        marks += [
            Words(at=(layout.middle(n), y), text=row.say(layout.columns[n]), align="center")
            for n in layout.labelled
        ]
    return marks


def _number(value: float | None, places: int) -> str:
    return "–" if value is None else f"{value:.{places}f}"
