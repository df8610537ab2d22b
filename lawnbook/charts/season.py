"""The year at one look: growth as a soft band, need of water as a line, spans, rows of marks.

What was done is drawn solid and what is planned hollow, each row in a shape of its own, so that the
picture can be read in grey.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import groupby

from lawnbook.charts.marks import (
    Disc,
    Frame,
    Mark,
    Picture,
    Polygon,
    Polyline,
    Ring,
    Words,
    diagonals,
    rectangle,
    rough_width,
    shortened,
)
from lawnbook.charts.season_layout import (
    LEFT_PT,
    ROW_NAMES,
    ROW_PT,
    SCALE_STEP_IN,
    SCALE_STEP_MM,
    SeasonLayout,
    lay_out_season,
)
from lawnbook.plan.season_year_marks import ROWS
from lawnbook.plan.season_year_model import SeasonMark, SeasonRow, SeasonSpan, SeasonYear
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import PERCENT, shown, stored, told, unit_shown
from lawnbook.yard.numbers import MONTHS, short_day

ROLE_OF_ROW: dict[SeasonRow, str] = {
    "water": "water",
    "feed": "feed",
    "mow": "verdure",
    "plug": "thatch",
    "care": "ink",
    "check": "quiet",
}
"""The colour of each row's marks."""

GROWTH, NEED, WATERED, PLANNED = tr("growth"), tr("water need"), tr("watered"), tr("still to come")
"""What the key calls them."""

NO_CURVES = tr("growth and water need: not known yet")
"""What is said in place of the curves."""

_TEXT_PT = 9.0
_NARROW_PT, _SHORTEST_MONTH = 20.0, 28
_MOST_SCALE_LINES = 4
_CLEAR_PT = 5.0
"""How far words stand from the line of today."""
_TALL = 4.2
"""Half the height of a mark."""


def season_marks(year: SeasonYear, frame: Frame) -> Picture:
    """The picture of a year on a frame."""
    page = lay_out_season(year, frame)
    marks: list[Mark] = [
        *_months(page),
        *_growth(page),
        *_scales(page),
        *_water(page),
        *_nothing_known(page),
        *_spans(page),
        *_rows(page),
        *_today(page),
        *_key(page),
    ]
    return Picture(frame, tuple(marks))


def _months(page: SeasonLayout) -> Iterator[Mark]:
    """Hairlines between the months from top to foot, and their names below."""
    edges = [page.x(month.starts, 0) for month in page.year.months] + [page.right]
    lines = tuple(((x, page.top), (x, page.foot)) for x in edges)
    yield Polyline(lines=lines, role="rule", width=0.5)
    # February is the narrowest: where its name has no room, all of them are one letter.
    whole = page.day_pt * _SHORTEST_MONTH >= _NARROW_PT
    for month, left, right in zip(page.year.months, edges[:-1], edges[1:], strict=True):
        name = tr(MONTHS[month.starts.month - 1])
        yield Words(
            at=((left + right) / 2, page.foot + 12.5),
            text=name if whole else name[0],
            role="quiet",
            size=_TEXT_PT,
            align="center",
        )


def _growth(page: SeasonLayout) -> Iterator[Mark]:
    """The band of the first grass, and the outline of a second one in dashes."""
    for number, curve in enumerate(page.year.growth):
        for line in _lines(page, curve.values, page.growth_y):
            if not number:
                band = (*line, (line[-1][0], page.base), (line[0][0], page.base))
                yield Polygon(rings=(band,), fill="verdure", alpha=0.32)
            dash = (3.0, 2.0) if number else ()
            yield Polyline(lines=(line,), role="verdure", width=1.1, dash=dash)


def _water(page: SeasonLayout) -> Iterator[Mark]:
    """What is needed as a line, what was watered as a stroke across each month."""
    strokes: list[Ring] = []
    for month in page.year.months:
        if month.watered_in_per_day:
            y = page.water_y(month.watered_in_per_day)
            strokes.append(((page.x(month.starts, 0) + 1.5, y), (page.x(month.ends, 1) - 1.5, y)))
    if strokes:
        yield Polyline(lines=tuple(strokes), role="water", width=3.0, alpha=0.55)
    lines = tuple(_lines(page, page.year.need_in_per_day, page.water_y))
    if lines:
        yield Polyline(lines=lines, role="water", width=1.6)


def _nothing_known(page: SeasonLayout) -> Iterator[Mark]:
    """What stands in the place of the curves where there is neither of them."""
    if page.year.growth or any(each is not None for each in page.year.need_in_per_day):
        return
    yield Words(
        at=((LEFT_PT + page.right) / 2, (page.top + page.base) / 2 + 4),
        text=NO_CURVES,
        role="quiet",
        size=10.0,
        face="serif italic",
        align="center",
        halo="paper",
    )


def _lines(
    page: SeasonLayout, values: Sequence[float | None], height: Callable[[float], float]
) -> Iterator[Ring]:
    """A curve of days, in pieces where some days are not known."""
    numbered = list(enumerate(values))
    for known, run in groupby(numbered, key=lambda each: each[1] is not None):
        if known:
            line = tuple(
                (page.x(page.year.day_at(place)), height(value))
                for place, value in run
                if value is not None
            )
            if len(line) > 1:
                yield line


def _scales(page: SeasonLayout) -> Iterator[Mark]:
    """Growth in percent at the left, water a day at the right."""
    yield Polyline(lines=(((LEFT_PT, page.base), (page.right, page.base)),), role="ink", width=0.8)
    if page.year.growth:
        for share, text in ((1.0, f"100{PERCENT}"), (0.5, f"50{PERCENT}")):
            at = (LEFT_PT - 5, page.growth_y(share) + 3.2)
            yield Words(at=at, text=text, role="quiet", size=_TEXT_PT, align="right")
    if all(each is None for each in page.year.need_in_per_day):
        return
    step_shown, places = (SCALE_STEP_MM, 0) if is_metric() else (SCALE_STEP_IN, 1)
    steps = round(shown(page.most_in, "in/day") / step_shown)
    every = -(-steps // _MOST_SCALE_LINES)
    for step in range(every, steps + 1, every):
        y = page.water_y(stored(step * step_shown, "in/day"))
        number = told(step * step_shown, places)
        yield Words(at=(page.right + 5, y + 3.2), text=number, role="water", size=_TEXT_PT)
    unit = unit_shown("in/day")
    room = page.frame.width - rough_width(unit, _TEXT_PT)
    at = (min(page.right + 5, room), page.top - 8.0)
    yield Words(at=at, text=unit, role="water", size=_TEXT_PT)


def _spans(page: SeasonLayout) -> Iterator[Mark]:
    for number, lane in enumerate(page.lanes):
        for span in lane:
            yield from _span(page, span, number)


def _span(page: SeasonLayout, span: SeasonSpan, lane: int) -> Iterator[Mark]:
    """A quiet bar with its name in it, or beside it where it finds no room there."""
    left, top, right, bottom = span_box(page, span, lane)
    box = rectangle(left, top, right, bottom)
    if span.kind == "season":
        yield Polygon(rings=(box,), fill="water", alpha=0.22)
    elif span.kind == "window":
        yield Polygon(rings=(box,), fill="verdure", alpha=0.22)
        yield Polygon(rings=(box,), edge="verdure", width=0.8)
    else:
        yield Polyline(lines=diagonals(left, top, right, bottom, 3.6), role="quiet", width=0.6)
        yield Polygon(rings=(box,), edge="quiet", width=0.8)
    y = (top + bottom) / 2 + 3.2
    middle = _clear_of_today(page, left + 4, right - 4, rough_width(_called(span), _TEXT_PT))
    if middle is not None:
        halo = "paper" if span.kind == "blackout" else ""
        yield Words(at=(middle, y), text=_called(span), size=_TEXT_PT, align="center", halo=halo)
    elif _first_of_lane(page, span, lane):
        yield from _beside(page, span, (left, right), y)


def _beside(
    page: SeasonLayout, span: SeasonSpan, edges: tuple[float, float], y: float
) -> Iterator[Mark]:
    """The name after the bar, further on where the line of today runs there, else before it."""
    left, right = edges
    wide = rough_width(_called(span), _TEXT_PT)
    start, today = right + 5, _today_x(page)
    if today is not None and start - _CLEAR_PT < today < start + wide + _CLEAR_PT:
        start = today + _CLEAR_PT
    if start + wide <= page.right:
        yield Words(at=(start, y), text=_called(span), role="quiet", size=_TEXT_PT, halo="paper")
        return
    end = left - 5
    if today is not None and end - wide - _CLEAR_PT < today < end + _CLEAR_PT:
        end = today - _CLEAR_PT
    room = end - LEFT_PT
    name = shortened(_called(span), lambda text: rough_width(text, _TEXT_PT) <= room)
    yield Words(at=(end, y), text=name, role="quiet", size=_TEXT_PT, align="right")


def _called(span: SeasonSpan) -> str:
    """A span's name as it is read; a window's is a word of the program's own."""
    return tr(span.name) if span.kind == "window" else span.name


def _clear_of_today(page: SeasonLayout, left: float, right: float, wide: float) -> float | None:
    """The middle for words in a bar, beside the line of today where need be; None without room."""
    middle, today = (left + right) / 2, _today_x(page)
    reach = wide / 2 + _CLEAR_PT
    places = [middle]
    if today is not None and abs(today - middle) < reach:
        places = [today - reach, today + reach]
    fitting = [each for each in places if _fits(each, left, right, wide)]
    return min(fitting, key=lambda each: abs(each - middle), default=None)


def _fits(middle: float, left: float, right: float, wide: float) -> bool:
    return left <= middle - wide / 2 and middle + wide / 2 <= right


def _today_x(page: SeasonLayout) -> float | None:
    """Where the line of today runs; None in another year."""
    return page.x(page.year.on) if page.year.holds(page.year.on) else None


def span_box(page: SeasonLayout, span: SeasonSpan, lane: int) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a span's bar."""
    y = page.lane_y(lane)
    return page.x(span.starts, 0), y - 5.2, page.x(span.ends, 1), y + 5.2


def _first_of_lane(page: SeasonLayout, span: SeasonSpan, lane: int) -> bool:
    """Spans of one line share one name: it is written once where it stands beside the bars."""
    return page.lanes[lane][-1] is span


def _rows(page: SeasonLayout) -> Iterator[Mark]:
    for row in ROWS:
        y = page.row_y(row)
        foot = y + ROW_PT / 2
        yield Words(
            at=(LEFT_PT - 6, y + 3.2),
            text=ROW_NAMES[row],
            role="quiet",
            size=_TEXT_PT,
            align="right",
        )
        yield Polyline(lines=(((LEFT_PT, foot), (page.right, foot)),), role="rule", width=0.5)
    for mark in sorted(page.year.marks, key=lambda each: each.planned):
        yield _mark(page.x(mark.date), page.row_y(mark.row), mark)


def _mark(x: float, y: float, mark: SeasonMark) -> Mark:
    """One mark in its row's shape: solid where done, hollow where still to come."""
    role = ROLE_OF_ROW[mark.row]
    fill, edge = ("paper", role) if mark.planned else (role, role)
    if mark.row == "feed":
        return Disc(at=(x, y), radius=3.4, fill=fill, edge=edge, width=1.2)
    half = _HALF[mark.row] if not mark.planned else max(_HALF[mark.row], 1.6)
    tall = _TALL if mark.row in ("water", "plug") else 2.8
    ring: Ring
    if mark.row == "care":
        ring = ((x, y - 4.0), (x + 3.6, y), (x, y + 4.0), (x - 3.6, y))
    else:
        ring = rectangle(x - half, y - tall, x + half, y + tall)
    outlined = mark.row == "plug" and not mark.planned
    return Polygon(rings=(ring,), fill=fill, edge="ink" if outlined else edge, width=0.8)


_HALF: dict[SeasonRow, float] = {
    "water": 0.35,
    "feed": 3.4,
    "mow": 0.35,
    "plug": 1.7,
    "care": 3.6,
    "check": 2.8,
}
"""Half the width of a mark; waterings and mowings come often and are strokes."""


def _today(page: SeasonLayout) -> Iterator[Mark]:
    x = _today_x(page)
    if x is None:
        return
    yield Polyline(lines=(((x, page.top - 4), (x, page.foot)),), role="accent", width=1.3)
    day_now = short_day(page.year.on)
    half = rough_width(day_now, _TEXT_PT) / 2
    middle = min(max(x, LEFT_PT + half), page.right - half)
    at = (middle, page.top - 6)
    yield Words(
        at=at,
        text=day_now,
        role="accent",
        size=_TEXT_PT,
        face="semibold",
        align="center",
        halo="paper",
    )


def _key(page: SeasonLayout) -> Iterator[Mark]:
    """What the curves are, on the uppermost line."""
    left = 2.0
    for name in _key_names(page.year):
        yield from _swatch(name, left)
        text = left + 16
        yield Words(at=(text, 9.5), text=name, role="quiet", size=_TEXT_PT)
        left = text + rough_width(name, _TEXT_PT) + 12


def _key_names(year: SeasonYear) -> list[str]:
    names = [
        tr("{growth}, {grass} season", growth=GROWTH, grass=curve.grass) for curve in year.growth
    ]
    if len(names) == 1:
        names = [GROWTH]
    if any(each is not None for each in year.need_in_per_day):
        names.append(NEED)
    if any(month.watered_in_per_day for month in year.months):
        names.append(WATERED)
    if any(mark.planned for mark in year.marks):
        names.append(PLANNED)
    return names


def _swatch(name: str, left: float) -> Iterator[Mark]:
    middle, right = 6.5, left + 12
    line = ((left, middle), (right, middle))
    if name == NEED:
        yield Polyline(lines=(line,), role="water", width=1.6)
    elif name == WATERED:
        yield Polyline(lines=(line,), role="water", width=3.0, alpha=0.55)
    elif name == PLANNED:
        # Feedings to come are open rounds, all else open boxes: the key shows one of each.
        yield Disc(at=(left + 3.4, middle), radius=3.4, fill="paper", edge="feed", width=1.2)
        box = rectangle(left + 9.4, middle - _TALL, left + 12.6, middle + _TALL)
        yield Polygon(rings=(box,), fill="paper", edge="water", width=0.8)
    else:
        yield Polygon(rings=(rectangle(left, 2.0, right, 11.0),), fill="verdure", alpha=0.32)
        yield Polyline(lines=(((left, 2.0), (right, 2.0)),), role="verdure", width=1.1)
