"""The scales of a trend picture: thickness upward, years along, lines at half an inch and one."""

from collections.abc import Sequence
from datetime import date

from lawnbook.charts.marks import Face, Mark, Polyline, Words, rough_width
from lawnbook.charts.scales import levels, round_step, tick_told, ticks
from lawnbook.charts.trend_layout import LEFT_PT, TrendLayout
from lawnbook.reading import tr
from lawnbook.yard.numbers import MONTHS, counted, day

_STEPS = (0.25, 0.5, 1.0, 2.0)
_LEAST_STEP_PT = 20.0
_LEAST_STEP_MM = 1.0
_YEAR_PT, _MONTH_PT = 34.0, 26.0
_QUARTERS = (1, 4, 7, 10)
_SIZE = 9.0
_APART_PT, _TICKS_APART_PT = 7.0, 9.0


def axis_marks(layout: TrendLayout) -> list[Mark]:
    """All that stands behind the plugs."""
    return [*_inches(layout), *_levels(layout), *_time(layout), *_earlier(layout)]


def day_lines(layout: TrendLayout, on: date, split: date | None) -> list[Mark]:
    """Upright lines at the day looked at and at a split, their dates above the plot.

    The split's date gives way to the other and to what is said of earlier cares.
    """
    half = rough_width(day(on), _SIZE) / 2
    middle = min(layout.x(on), layout.frame.width - 2 - half)
    marks = [_upright(layout, on, "quiet", 0.8, ())]
    marks.append(Words(at=(middle, _days_y(layout)), text=day(on), role="quiet", align="center"))
    if split is None:
        return marks
    wide = rough_width(day(split), _SIZE) / 2
    least = LEFT_PT + rough_width(_earlier_words(layout), _SIZE) + _APART_PT + wide
    at = max(min(layout.x(split), middle - half - _APART_PT - wide), least)
    marks.append(_upright(layout, split, "accent", 1.3, (6.0, 2.0, 1.0, 2.0)))
    marks.append(
        Words(
            at=(at, _days_y(layout)),
            text=day(split),
            role="accent",
            face="medium",
            align="center",
        )
    )
    return marks


def _upright(
    layout: TrendLayout, on: date, role: str, width: float, dash: tuple[float, ...]
) -> Mark:
    x = layout.x(on)
    line = ((x, layout.top - 2), (x, layout.foot))
    return Polyline(lines=(line,), role=role, width=width, dash=dash)


def _days_y(layout: TrendLayout) -> float:
    """The baseline of the dates above the plot."""
    return layout.top - 5.5


def _inches(layout: TrendLayout) -> list[Mark]:
    per_in = (layout.foot - layout.top) / layout.most_in
    step = round_step("in", _STEPS, lambda each: each * per_in >= _LEAST_STEP_PT, _LEAST_STEP_MM)
    marks: list[Mark] = []
    for inches, number in ticks("in", step, layout.most_in):
        y = layout.y(inches)
        text = tick_told(number)
        marks.append(Words(at=(LEFT_PT - 7, y + 3.2), text=text, role="quiet", align="right"))
        if number:
            line = ((LEFT_PT, y), (layout.right, y))
            marks.append(Polyline(lines=(line,), role="rule", width=0.6))
    foot = ((LEFT_PT, layout.foot), (layout.right, layout.foot))
    return [*marks, Polyline(lines=(foot,), role="ink", width=0.9)]


def _levels(layout: TrendLayout) -> list[Mark]:
    marks: list[Mark] = []
    above = layout.frame.height
    for inches, text, dash in levels():
        if inches > layout.most_in:
            continue
        y = layout.y(inches)
        above = min(y + 3.2, above - 11.0)
        line = ((LEFT_PT, y), (layout.right, y))
        marks.append(Polyline(lines=(line,), role="ink", width=0.9, dash=dash))
        marks.append(Words(at=(layout.right + 5, above), text=text, face="medium"))
    return marks


def _time(layout: TrendLayout) -> list[Mark]:
    """Years at their first days; quarters too where few years leave room for them."""
    years = range(layout.first.year, layout.last.year + 1)
    starts = [date(year, 1, 1) for year in years if layout.first <= date(year, 1, 1) <= layout.last]
    months = [date(year, month, 1) for year in years for month in _QUARTERS]
    quarters = [on for on in months if layout.first <= on <= layout.last]
    if len(starts) <= 2 and quarters and _gap(layout) / 4 >= _MONTH_PT:
        told = _quarters_told(layout, quarters)
        return [mark for on in quarters for mark in _tick(layout, on, told.get(on, ""))]
    stride = next(each for each in (1, 2, 5, 10, 20, 50) if _gap(layout) * each >= _YEAR_PT)
    named = {on: str(on.year) for on in starts if on.year % stride == 0}
    return [mark for on in starts for mark in _tick(layout, on, named.get(on, ""))]


def _quarters_told(layout: TrendLayout, quarters: Sequence[date]) -> dict[date, str]:
    """What is written at the first days of quarters; a month that finds no room is left out."""
    told = {on: tr(MONTHS[on.month - 1]) if on.month > 1 else str(on.year) for on in quarters}
    first = quarters[0]
    # October's neighbour is the year itself.
    if first.month in (4, 7) or len(quarters) == 1:
        told[first] = (
            f"{tr(MONTHS[first.month - 1])} {first.year}" if first.month > 1 else told[first]
        )
    kept: dict[date, str] = {}
    free = 0.0
    for on, text in told.items():
        half = rough_width(text, _SIZE) / 2
        if layout.x(on) - half >= free:
            kept[on] = text
            free = layout.x(on) + half + _TICKS_APART_PT
    return kept


def _gap(layout: TrendLayout) -> float:
    """The points of a year."""
    return 365.25 * (layout.right - LEFT_PT) / (layout.last - layout.first).days


def _tick(layout: TrendLayout, on: date, text: str) -> list[Mark]:
    x = layout.x(on)
    line = ((x, layout.foot), (x, layout.foot + 3.5))
    marks: list[Mark] = [Polyline(lines=(line,), role="ink", width=0.8)]
    if text:
        at = (x, layout.foot + 13)
        face: Face = "medium" if on.month == 1 else "regular"
        marks.append(Words(at=at, text=text, role="quiet", face=face, align="center"))
    return marks


def _earlier(layout: TrendLayout) -> list[Mark]:
    """How many cares lie before the picture."""
    if not layout.earlier:
        return []
    at = (LEFT_PT, _days_y(layout))
    return [Words(at=at, text=_earlier_words(layout), role="quiet", face="italic")]


def _earlier_words(layout: TrendLayout) -> str:
    if not layout.earlier:
        return ""
    return tr("{cares} earlier", cares=counted(layout.earlier, "care"))
