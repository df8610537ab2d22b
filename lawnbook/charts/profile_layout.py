"""Where profile columns stand: one scale of depth, plugs of a day side by side, figures apart.

All in points from the upper left corner. Painting and pointing both ask the same layout, so what
is lit under the pointer is what was drawn there.
"""

import math
from collections.abc import Callable, Iterable, Sequence
from datetime import date
from itertools import groupby, pairwise
from statistics import fmean
from typing import Literal

from lawnbook.charts.marks import Frame, rough_width
from lawnbook.charts.plug import Column, Plug
from lawnbook.charts.scales import levels_room
from lawnbook.frozen import dataclass
from lawnbook.plan.plug_model import MeanColumn, PlugColumn
from lawnbook.reading import tr
from lawnbook.yard.amounts import bare, told, unit_shown
from lawnbook.yard.numbers import MONTHS, counted

Detail = Literal["full", "brief"]

ROW_PT = 13.0
LABEL_PT = 27.0
DATE_SIZE: dict[Detail, float] = {"full": 9.0, "brief": 8.0}
UNSURE_PT, UNSURE_DASH = 0.9, (2.6, 2.6)
"""How a trend without an interval is drawn."""
_LEAST_DEPTH_IN = 2.5
_MOST_SLOT_PT = 92.0
_LEAST_SLOT_PT = 15.0
_RIGHT_PT = 28.0
_GRASS_PT: dict[Detail, float] = {"full": 25.0, "brief": 16.0}
_OVER_GRASS_PT: dict[Detail, float] = {"full": 7.0, "brief": 4.0}
_DATE_GAP_PT = 3.0
_BRIEF_PT_PER_IN = 12.5
_LEFT_PT: dict[Detail, float] = {"full": 76.0, "brief": 40.0}
_SAME_DAY_SLOTS = 0.80
"""Plugs of one day stand nearer to each other than days do."""
_BESIDE_PT = 6.5
"""Room beside a column for the bar of its spread."""


@dataclass(frozen=True, slots=True)
class FigureRow:
    """A line of figures beneath the columns: its name, what it says of a plug, and its key."""

    name: str
    say: Callable[[Column], str]
    key: str


@dataclass(frozen=True, slots=True)
class Layout:
    """Where everything goes, in points. `days` are the places of the plugs of each day."""

    frame: Frame
    detail: Detail
    columns: tuple[Column, ...]
    left_out: int
    rows: tuple[FigureRow, ...]
    head_rows: int
    crowns: float
    bottom: float
    depth_in: float
    slot: float
    middles: tuple[float, ...]
    days: tuple[tuple[int, ...], ...]
    by_day: bool = False

    @property
    def pt_per_in(self) -> float:
        """Points on the page to an inch of ground."""
        return (self.bottom - self.crowns) / self.depth_in

    @property
    def start(self) -> float:
        """Where the room of the first column begins."""
        return self.middles[0] - self.slot / 2

    @property
    def end(self) -> float:
        """Where the room of the last column ends."""
        return self.middles[-1] + self.slot / 2

    @property
    def figured(self) -> tuple[tuple[float, Column], ...]:
        """Where figures are written, and what of: plugs, or days where plugs have no room."""
        if not self.by_day:
            return tuple((self.middles[n], self.columns[n]) for n in spaced(self.middles, LABEL_PT))
        xs = [self.day_middle(place) for place in range(len(self.days))]
        return tuple(
            (xs[place], day_mean([self.columns[n] for n in self.days[place]]))
            for place in spaced(xs, LABEL_PT)
        )

    @property
    def notes(self) -> tuple[str, ...]:
        """What must be said beneath the columns."""
        return notes(self.columns, self.left_out, by_day=self.by_day)

    def day_middle(self, place: int) -> float:
        """The middle of a day's columns."""
        day = self.days[place]
        return (self.middles[day[0]] + self.middles[day[-1]]) / 2

    def depth(self, inches: float) -> float:
        """Where a depth below the crowns lies on the page."""
        return self.crowns + inches * self.pt_per_in

    def plug(self, number: int) -> Plug:
        """A column with its place."""
        narrow = self.slot * (_SAME_DAY_SLOTS if len(self.days) < len(self.columns) else 1.0)
        return Plug(
            column=self.columns[number],
            middle=self.middles[number],
            width=min(0.64 * self.slot, narrow - _BESIDE_PT),
            crowns=self.crowns,
            bottom=self.bottom,
            pt_per_in=self.pt_per_in,
            grass=_GRASS_PT[self.detail],
        )


def lay_out(
    columns: Sequence[Column],
    frame: Frame,
    detail: Detail = "full",
    most_slot_pt: float = _MOST_SLOT_PT,
) -> Layout:
    """The layout of at least one column, in date order.

    Of too many the first and the latest are shown; few do not stand wider than `most_slot_pt`.
    """
    left, right = _LEFT_PT[detail], frame.width - levels_room(9.0, _RIGHT_PT, 4.0)
    shown = shown_columns(columns, (right - left) / _LEAST_SLOT_PT)
    days = _days(shown)
    slot = min(most_slot_pt, (right - left) / _slots(shown))
    middles = _middles(days, slot, (left, right))
    rows = _rows(shown, detail)
    by_day = _told_by_day(shown, days, middles)
    said = len(notes(shown, len(columns) - len(shown), by_day=by_day))
    one_row = detail == "brief" and _dates_fit_one_row(shown, days, middles)
    head_rows = (2 if one_row else 3) + (1 if _of_means(shown) else 0)
    crowns = head_rows * ROW_PT + _GRASS_PT[detail] + _OVER_GRASS_PT[detail]
    bottom = frame.height - ROW_PT * (len(rows) + said) - 6
    depth_in = _depth_in(shown)
    if detail == "brief":
        # A small picture is of thatch: roots that go deeper are cut, and their figure stands below.
        depth_in = min(depth_in, max(_LEAST_DEPTH_IN, (bottom - crowns) / _BRIEF_PT_PER_IN))
    return Layout(
        frame=frame,
        detail=detail,
        columns=shown,
        left_out=len(columns) - len(shown),
        rows=rows,
        head_rows=head_rows,
        crowns=crowns,
        bottom=bottom,
        depth_in=depth_in,
        slot=slot,
        middles=middles,
        days=days,
        by_day=by_day,
    )


def spaced(xs: Sequence[float], least: float) -> tuple[int, ...]:
    """Of ascending places the first, and from the last backward those at least so far apart."""
    if not xs:
        return ()
    kept: list[int] = []
    limit = math.inf
    for number in range(len(xs) - 1, 0, -1):
        if xs[number] <= limit + 1e-6 and xs[number] - xs[0] >= least - 1e-6:
            kept.append(number)
            limit = xs[number] - least
    return (0, *reversed(kept))


def dates_in_one_row(
    columns: Sequence[Column], days: Sequence[tuple[int, ...]], middles: Sequence[float]
) -> list[tuple[float, str]]:
    """Places and dates in one row: the month, with its year over the year's first."""
    told: list[tuple[float, str]] = []
    year = 0
    xs = [(middles[day[0]] + middles[day[-1]]) / 2 for day in days]
    for place in spaced(xs, LABEL_PT):
        on = columns[days[place][0]].date
        month = tr(MONTHS[on.month - 1])
        text = month if on.year == year else f"{month} ’{on.year % 100:02d}"
        told.append((xs[place], text))
        year = on.year
    return told


def shown_columns(columns: Sequence[Column], room_slots: float) -> tuple[Column, ...]:
    """All that find room, else the first and as many of the latest as do; at least two."""
    if len(columns) <= 2 or _slots(columns) <= room_slots:
        return tuple(columns)
    low, high = 1, len(columns) - 1
    while low < high:
        kept = (low + high + 1) // 2
        fits = _slots((columns[0], *columns[-kept:])) <= room_slots
        low, high = (kept, high) if fits else (low, kept - 1)
    return (columns[0], *columns[-low:])


def day_mean(columns: Sequence[Column]) -> Column:
    """The plugs of one day as one column of figures; a single plug as it is."""
    if len(columns) == 1:
        return columns[0]
    return MeanColumn(
        core_ids=tuple(each.core_id for each in columns if isinstance(each, PlugColumn)),
        date=columns[0].date,
        spots=1,
        of_spots=1,
        thatch_in=_mean(each.thatch_in for each in columns),
        spread_in=None,
        root_depth_in=_mean(each.root_depth_in for each in columns),
        sponge=_mean(each.sponge for each in columns),
        soil_in_thatch=_mean(each.soil_in_thatch for each in columns),
        worms=_mean(each.worms for each in columns),
    )


def _mean(values: Iterable[float | None]) -> float | None:
    read = [each for each in values if each is not None]
    return fmean(read) if read else None


def _told_by_day(
    columns: Sequence[Column], days: Sequence[tuple[int, ...]], middles: Sequence[float]
) -> bool:
    """Whether figures are of days: not every plug has room for its own, and their means are fair.

    Plugs read pressed and not are never averaged, nor roots of which some reach the cut end.
    """
    if len(spaced(middles, LABEL_PT)) == len(columns) or len(days) == len(columns):
        return False
    for plugs in days:
        same = [columns[n] for n in plugs]
        pressed = {isinstance(each, PlugColumn) and each.pressed for each in same}
        if len(pressed) > 1 or (len(same) > 1 and any(reaches_cut(each) for each in same)):
            return False
    return True


def notes(columns: Iterable[Column], left_out: int, *, by_day: bool = False) -> tuple[str, ...]:
    """What a picture of these columns has to explain beneath them."""
    shown = tuple(columns)
    said = []
    if left_out:
        count = counted(left_out, "round" if _of_means(shown) else "plug")
        said.append(tr("{count} left out after the first", count=count))
    if by_day:
        said.append(tr("figures: means of a day's plugs"))
    if any(isinstance(each, PlugColumn) and each.pressed for each in shown):
        said.append(tr("plate and arrows: read pressed"))
    if any(reaches_cut(each) for each in shown):
        said.append(tr("+: roots reach the cut end of the plug"))
    return tuple(said)


def reaches_cut(column: Column) -> bool:
    """Whether the roots go as deep as the plug was cut, so that they may go on below it."""
    if isinstance(column, MeanColumn) or column.core_depth_in is None:
        return False
    return (column.root_depth_in or 0.0) >= column.core_depth_in - 1e-9


def roots_words(column: Column) -> str:
    """The roots to a tenth of an inch or a millimetre, with a plus where the plug was cut there."""
    return _length(column.root_depth_in, 1) + ("+" if reaches_cut(column) else "")


def thatch_words(column: Column) -> str:
    """The thatch to the hundredth of an inch or a tenth of a millimetre, or a dash."""
    return _length(column.thatch_in, 2)


def _of_means(columns: Iterable[Column]) -> bool:
    return any(isinstance(each, MeanColumn) for each in columns)


def _length(value_in: float | None, places: int) -> str:
    return "–" if value_in is None else bare(value_in, places, "in")


def _number(value: float | None, places: int) -> str:
    return "–" if value is None else told(value, places)


def _count(column: Column, value: float | None) -> str:
    """A count as it was read, or a mean of counts to one decimal."""
    return _number(value, 1 if isinstance(column, MeanColumn) else 0)


def _worms(column: Column) -> str:
    return _count(column, column.worms)


def _sponge(column: Column) -> str:
    return _count(column, column.sponge)


def _soil(column: Column) -> str:
    return _count(column, column.soil_in_thatch)


_OTHERS = (
    FigureRow(tr("worms"), _worms, "worms"),
    FigureRow(tr("sponge, of 4"), _sponge, "sponge"),
    FigureRow(tr("soil in it, of 4"), _soil, "soil"),
)


def _days(columns: Sequence[Column]) -> tuple[tuple[int, ...], ...]:
    def on(number: int) -> date:
        return columns[number].date

    return tuple(tuple(same) for _, same in groupby(range(len(columns)), key=on))


def _slots(columns: Sequence[Column]) -> float:
    """How many slots wide the columns are together."""
    days = len(_days(columns))
    return days + _SAME_DAY_SLOTS * (len(columns) - days)


def _middles(
    days: Sequence[tuple[int, ...]], slot: float, room: tuple[float, float]
) -> tuple[float, ...]:
    """The middle of each column; the group stands in the middle of its room."""
    columns = sum(len(day) for day in days)
    spare = room[1] - room[0] - slot * (len(days) + _SAME_DAY_SLOTS * (columns - len(days)))
    x = room[0] + spare / 2 - slot / 2
    middles: list[float] = []
    for day in days:
        for turn in range(len(day)):
            x += slot * (_SAME_DAY_SLOTS if turn else 1.0)
            middles.append(x)
    return tuple(middles)


def _dates_fit_one_row(
    columns: Sequence[Column], days: Sequence[tuple[int, ...]], middles: Sequence[float]
) -> bool:
    told = dates_in_one_row(columns, days, middles)
    placed = [(x, rough_width(text, DATE_SIZE["brief"])) for x, text in told]
    return all(
        other - one >= (width + wide) / 2 + _DATE_GAP_PT
        for (one, width), (other, wide) in pairwise(placed)
    )


def _rows(columns: Iterable[Column], detail: Detail) -> tuple[FigureRow, ...]:
    roots = FigureRow(tr("roots, {unit}", unit=unit_shown("in")), roots_words, "roots")
    if detail == "brief":
        return (roots,)
    shown = tuple(columns)
    others = (row for row in _OTHERS if any(row.say(each) != "–" for each in shown))
    return (roots, *others)


def _depth_in(columns: Iterable[Column]) -> float:
    deepest = _LEAST_DEPTH_IN
    for each in columns:
        thatch = (each.thatch_in or 0.0) + (each.spread_in or 0.0)
        deepest = max(deepest, (each.root_depth_in or 0.0) * 1.07, thatch * 1.25)
    return deepest
