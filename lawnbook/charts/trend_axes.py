"""The scales of a trend picture: inches upward, years along, the half-inch and one-inch lines."""

from datetime import date

from lawnbook.charts.marks import Align, Face, Mark, Polyline, Words, rough_width
from lawnbook.charts.trend_layout import LEFT_PT, TrendLayout
from lawnbook.yard.numbers import MONTHS

_STEPS = (0.25, 0.5, 1.0, 2.0)
_LEAST_STEP_PT = 20.0
_YEAR_PT, _MONTH_PT = 34.0, 26.0
_QUARTERS = (1, 4, 7, 10)


def axis_marks(layout: TrendLayout) -> list[Mark]:
    """All that stands behind the plugs."""
    return [*_inches(layout), *_levels(layout), *_time(layout), *_earlier(layout)]


def day_line(layout: TrendLayout, on: date, text: str, row: int) -> list[Mark]:
    """An upright line at a day with its date at the top, in one of two rows: today's, a split's."""
    x = layout.x(on)
    split = row > 0
    line = ((x, layout.top - 2), (x, layout.foot))
    right = x + 5 + rough_width(text, 9.0) > layout.frame.width - 2
    align: Align = "right" if right else "left"
    at = (x - 4 if right else x + 4, layout.top + 7 + 12 * row)
    return [
        Polyline(
            lines=(line,),
            role="accent" if split else "quiet",
            width=1.3 if split else 0.8,
            dash=(6.0, 2.0, 1.0, 2.0) if split else (),
        ),
        Words(
            at=at,
            text=text,
            role="accent" if split else "quiet",
            face="medium" if split else "regular",
            align=align,
            halo="paper",
        ),
    ]


def _inches(layout: TrendLayout) -> list[Mark]:
    per_in = (layout.foot - layout.top) / layout.most_in
    step = next((each for each in _STEPS if each * per_in >= _LEAST_STEP_PT), _STEPS[-1])
    marks: list[Mark] = []
    for number in range(int(layout.most_in / step + 1e-9) + 1):
        y = layout.y(number * step)
        text = f"{number * step:.2f}".rstrip("0").rstrip(".") if number else "0"
        marks.append(Words(at=(LEFT_PT - 7, y + 3.2), text=text, role="quiet", align="right"))
        if number:
            line = ((LEFT_PT, y), (layout.right, y))
            marks.append(Polyline(lines=(line,), role="rule", width=0.6))
    foot = ((LEFT_PT, layout.foot), (layout.right, layout.foot))
    return [*marks, Polyline(lines=(foot,), role="ink", width=0.9)]


def _levels(layout: TrendLayout) -> list[Mark]:
    marks: list[Mark] = []
    above = layout.frame.height
    for inches, text, dash in ((0.5, "½ in", (5.0, 2.6)), (1.0, "1 in", (1.2, 2.4))):
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
        told = {on: MONTHS[on.month - 1] if on.month > 1 else str(on.year) for on in quarters}
        if quarters[0].month > 1:
            told[quarters[0]] += f" {quarters[0].year}"
        return [mark for on in quarters for mark in _tick(layout, on, told[on])]
    stride = next(each for each in (1, 2, 5, 10, 20, 50) if _gap(layout) * each >= _YEAR_PT)
    named = {on: str(on.year) for on in starts if on.year % stride == 0}
    return [mark for on in starts for mark in _tick(layout, on, named.get(on, ""))]


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
    noun = "care" if layout.earlier == 1 else "cares"
    text = f"{layout.earlier} {noun} earlier"
    at = (layout.frame.width - 2, 11.0)
    return [Words(at=at, text=text, role="quiet", face="italic", align="right")]
