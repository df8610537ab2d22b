"""Nitrogen becoming available day by day over a budget year, stacked by application.

Each application is a layer, dense and striped in turn, so that neighbours are told apart without
colour; irrigation water lies below them all, spread over its month. What is drawn is the week up to
each day: it stands beside the amounts of a feeding better than a day's, and one frosty day in it
is no notch. Months run as the year does.
"""

from datetime import date, timedelta
from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.nitrogen import NitrogenYear
from lawnbook.charts.marks import Frame, Mark, Picture, Polygon, Polyline, Spot, Words, rough_width
from lawnbook.charts.release_key import WATER, WATER_GAP_PT, key_marks, key_rows, striped
from lawnbook.charts.scales import round_step, tick_told, ticks
from lawnbook.frozen import dataclass
from lawnbook.plan.feed_model import ReleaseCurve, ReleaseLayer
from lawnbook.plan.workings import LEAST_TOLD_LB
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import RATE_UNIT, bare
from lawnbook.yard.numbers import MONTHS, counted, day, short_day

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]

_LEFT_PT, _RIGHT_PT, _FOOT_PT = 34.0, 8.0, 20.0
_HEAD_PT, _ROW_PT, _LABELS_PT = 20.0, 13.0, 16.0
_LEAST_SCALE_LB = 0.05
_WEEK = 7
_STEPS = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
_MOST_TICKS = 4
_STRIPE_PT = 3.0
_NEAR_LB = 1e-9
_MOST_TOLD = 6
_HEAD = (
    tr("lb of nitrogen per 1,000 sq ft becoming available in a week"),
    tr("lb N per 1,000 sq ft a week"),
    tr("{amount} lb in {year}"),
)
_HEAD_METRIC = (
    tr("g of nitrogen per m² becoming available in a week"),
    tr("g N per m² a week"),
    tr("{amount} g in {year}"),
)
"""What is drawn, at length and short, and the sum of the year."""


@dataclass(frozen=True, slots=True)
class _Year:
    """Where days and a week's pounds stand, in points. `tops` are the layers' upper lines."""

    frame: Frame
    curve: ReleaseCurve
    top: float
    most_lb: float
    tops: Array

    @property
    def base(self) -> float:
        """The line of no nitrogen."""
        return self.frame.height - _FOOT_PT

    @property
    def right(self) -> float:
        """Where the last day ends."""
        return self.frame.width - _RIGHT_PT

    def x(self, place: float) -> float:
        """Where a day begins, by its place from 0."""
        return _LEFT_PT + (self.right - _LEFT_PT) * place / self.curve.days

    def y(self, pounds: float) -> float:
        """Where a week's pounds lie on the page."""
        return self.base - pounds / self.most_lb * (self.base - self.top)


def release_marks(curve: ReleaseCurve, frame: Frame, today: date | None = None) -> Picture:
    """A zone's nitrogen becoming available, by the ground in a week, layer on layer.

    The dashed line is what the month's growth can use. What lies after `today` is paler: it is
    what is already down.
    """
    rows = key_rows(_names(curve), frame.width - _RIGHT_PT)
    weekly = np.array([_weekly(each, curve.start) for each in curve.layers]).reshape(-1, curve.days)
    tops = np.cumsum(weekly, axis=0)
    highest = float(tops[-1].max()) if curve.layers else 0.0
    usable = _WEEK * max(curve.usable_daily_lb or (0.0,))
    top = _HEAD_PT + _ROW_PT * len(rows) + _LABELS_PT
    year = _Year(frame, curve, top, 1.06 * max(_LEAST_SCALE_LB, highest, usable), tops)
    marks: list[Mark] = [*_heads(year), *key_marks(rows, _HEAD_PT), *_scale(year)]
    for place in range(len(curve.layers)):
        marks += _layer(year, place)
    marks += [*_after(year, today), *_usable(year)]
    base = (((_LEFT_PT - 4, year.base), (year.right + 4, year.base)),)
    marks += [Polyline(lines=base, role="ink", width=0.9), *_months(year)]
    marks += [*_today(year, today), *_dates(year, today), *_empty(year)]
    return Picture(frame, tuple(marks))


def release_chart_words(curve: ReleaseCurve, today: date | None = None) -> str:
    """What the picture shows, in words: the year's sum, its layers, and what growth can use."""
    if not curve.layers:
        return nothing_words(curve)
    total = sum(sum(each.daily_lb) for each in curve.layers)
    lead = tr(
        "{zone}, {year}: {amount} becomes available, from {layers}.",
        zone=curve.zone,
        year=year_words(curve),
        amount=nitrogen_told(total),
        layers=counted(len(curve.layers), "layer"),
    )
    parts = [lead, *(_told(each) for each in curve.layers[:_MOST_TOLD])]
    if len(curve.layers) > _MOST_TOLD:
        parts.append(tr("And {count} more.", count=len(curve.layers) - _MOST_TOLD))
    if today is not None and curve.start <= today:
        place = min(curve.days, (today - curve.start).days + 1)
        so_far = sum(sum(each.daily_lb[:place]) for each in curve.layers)
        parts.append(tr("Up to {today}: {number}.", today=day(today), number=_number(so_far)))
    if curve.usable_daily_lb is not None:
        parts.append(
            tr("Growth can use {number} in the year.", number=_number(sum(curve.usable_daily_lb)))
        )
    return " ".join(parts)


def nothing_words(curve: ReleaseCurve) -> str:
    """What is said where no layer has anything to give."""
    return tr(
        "Nothing that is down becomes available in {year_words}.", year_words=year_words(curve)
    )


def year_words(curve: ReleaseCurve) -> str:
    """The budget year in short: "2026", or "2026–27" where it runs over New Year."""
    end = curve.start + timedelta(days=curve.days - 1)
    return NitrogenYear(curve.start.year, curve.start, end).words


def _told(layer: ReleaseLayer) -> str:
    given = sum(layer.daily_lb)
    whole = (
        tr(" of {number}", number=_number(layer.applied_lb))
        if layer.applied_lb - given > LEAST_TOLD_LB
        else ""
    )
    when = tr("by day of watering") if layer.kind == "water" else day(layer.date)
    return f"{layer.product}, {when}: {_number(given)}{whole}."


def nitrogen_told(lb_per_1000: float) -> str:
    """A rate of nitrogen: "0.90 lb N per 1,000 sq ft", "4.4 g N/m²"."""
    number = bare(lb_per_1000, 2, RATE_UNIT)
    if is_metric():
        return tr("{amount} g N/m²", amount=number)
    return tr("{amount} lb N per 1,000 sq ft", amount=number)


def _number(lb_per_1000: float) -> str:
    return bare(lb_per_1000, 2, RATE_UNIT)


def _names(curve: ReleaseCurve) -> list[str]:
    fed = [each for each in curve.layers if each.kind == "feeding"]
    names = [tr("one feeding")] if len(fed) == 1 else [tr("feedings, each a layer")] if fed else []
    names += [WATER] if len(fed) < len(curve.layers) else []
    return [*names, *([tr("growth can use")] if curve.usable_daily_lb is not None else [])]


def _weekly(layer: ReleaseLayer, start: date) -> Array:
    """What a layer gave in the week up to each day; water's of a month is spread over it."""
    daily = np.array(layer.daily_lb)
    if layer.kind == "water":
        days = np.datetime64(start) + np.arange(daily.size)
        months = days.astype("datetime64[M]").astype(np.int64)
        months -= months[0]
        each: Array = _WEEK * (np.bincount(months, daily) / np.bincount(months))[months]
        return each
    weekly = np.convolve(daily, np.ones(_WEEK))[: daily.size]
    if layer.before_lb > 0:
        # The first week of the year knows only its own days of what was put down before it.
        known = np.minimum(np.arange(daily.size) + 1, _WEEK)
        weekly *= _WEEK / known
    return weekly


def _heads(year: _Year) -> list[Mark]:
    long, short, whole = _HEAD_METRIC if is_metric() else _HEAD
    title = tr(long)
    total = sum(sum(each.daily_lb) for each in year.curve.layers)
    in_year = tr(whole, amount=bare(total, 2, RATE_UNIT), year=year_words(year.curve))
    room = year.right - 2 - rough_width(in_year, 9.0) - 10
    if rough_width(title, 9.0) > room:
        title = tr(short)
    marks: list[Mark] = [Words(at=(2, 12), text=title, role="quiet")]
    if year.curve.layers and rough_width(title, 9.0) <= room:
        marks.append(Words(at=(year.right, 12), text=in_year, face="medium", align="right"))
    return marks


def _scale(year: _Year) -> list[Mark]:
    step = round_step(RATE_UNIT, _STEPS, lambda each: year.most_lb / each <= _MOST_TICKS)
    marks: list[Mark] = []
    for pounds, number in ticks(RATE_UNIT, step, year.most_lb):
        y, text = year.y(pounds), tick_told(number)
        marks.append(Words(at=(_LEFT_PT - 8, y + 3.2), text=text, role="quiet", align="right"))
        if number:
            line = ((_LEFT_PT - 4, y), (year.right + 4, y))
            marks.append(Polyline(lines=(line,), role="rule", width=0.6))
    return marks


def _layer(year: _Year, place: int) -> list[Mark]:
    """One layer: between the line of all below it and its own."""
    layer, upper = year.curve.layers[place], year.tops[place]
    lower = year.tops[place - 1] if place else np.zeros(year.curve.days)
    given = np.flatnonzero(upper - lower > _NEAR_LB)
    if not given.size:
        return []
    marks: list[Mark] = []
    # What waits out a winter gives in two stretches of days.
    breaks = np.flatnonzero(np.diff(given) > 1) + 1
    for span in np.split(given, breaks):
        first, last = int(span[0]), int(span[-1]) + 1
        above = [point for k in range(first, last) for point in _step(year, k, float(upper[k]))]
        below = [point for k in range(first, last) for point in _step(year, k, float(lower[k]))]
        ring = (*above, *reversed(below))
        lines = _levels if layer.kind == "water" else _strokes
        marks += striped(ring, _kind(year, place), lines(year, (first, last), lower, upper))
    if layer.kind == "feeding":
        marks.append(_pin(year, layer))
    return marks


def _kind(year: _Year, place: int) -> str:
    """The look of a layer: water's, or dense and striped in turn."""
    if year.curve.layers[place].kind == "water":
        return WATER
    before = sum(each.kind == "feeding" for each in year.curve.layers[:place])
    return "striped" if before % 2 else "dense"


def _step(year: _Year, place: int, pounds: float) -> tuple[Spot, Spot]:
    y = year.y(pounds)
    return (year.x(place), y), (year.x(place + 1), y)


def _strokes(
    year: _Year, span: tuple[int, int], lower: Array, upper: Array
) -> tuple[tuple[Spot, Spot], ...]:
    """Upright strokes through a layer, on one grid for the whole page."""
    strokes = []
    first = int(np.ceil((year.x(span[0]) - _LEFT_PT) / _STRIPE_PT))
    for number in range(first, int((year.x(span[1]) - _LEFT_PT) / _STRIPE_PT) + 1):
        x = _LEFT_PT + number * _STRIPE_PT
        place = min(span[1] - 1, int(number * _STRIPE_PT / (year.x(1) - _LEFT_PT)))
        if place >= span[0]:
            ends = year.y(float(lower[place])), year.y(float(upper[place]))
            strokes.append(((x, ends[0]), (x, ends[1])))
    return tuple(strokes)


def _levels(
    year: _Year, span: tuple[int, int], lower: Array, upper: Array
) -> tuple[tuple[Spot, Spot], ...]:
    """Level lines through a layer, on one grid for the whole page."""
    lines: list[tuple[Spot, Spot]] = []
    days = range(*span)
    highest = (year.base - year.y(float(upper[span[0] : span[1]].max()))) / WATER_GAP_PT
    for number in range(1, int(highest) + 1):
        y = year.base - number * WATER_GAP_PT
        inside = [year.y(float(upper[day])) < y < year.y(float(lower[day])) for day in days]
        for held, group in groupby(zip(days, inside, strict=True), lambda each: each[1]):
            places = [place for place, _ in group]
            if held:
                lines.append(((year.x(places[0]), y), (year.x(places[-1] + 1), y)))
    return tuple(lines)


def _pin(year: _Year, layer: ReleaseLayer) -> Mark:
    """A mark on the base line where a feeding was put down; at the edge for one of before."""
    x, y = year.x(max(0, (layer.date - year.curve.start).days)), year.base
    return Polygon(rings=(((x, y), (x - 3, y + 5), (x + 3, y + 5)),), fill="feed")


def _after(year: _Year, today: date | None) -> list[Mark]:
    """Paper laid over the days to come, so that they stand back."""
    place = _place(year, today)
    if place is None or not year.curve.layers:
        return []
    left, right, top = year.x(place), year.right + 4, year.top
    ring = ((left, top), (right, top), (right, year.base), (left, year.base))
    return [Polygon(rings=(ring,), fill="paper", alpha=0.45)]


def _place(year: _Year, today: date | None) -> int | None:
    """Where today ends; None outside the year."""
    place = None if today is None else (today - year.curve.start).days + 1
    return place if place is not None and 1 <= place <= year.curve.days else None


def _usable(year: _Year) -> list[Mark]:
    if year.curve.usable_daily_lb is None:
        return []
    points: list[Spot] = []
    for pounds, days in groupby(enumerate(year.curve.usable_daily_lb), lambda each: each[1]):
        places = [place for place, _ in days]
        y = year.y(_WEEK * pounds)
        points += [(year.x(places[0]), y), (year.x(places[-1] + 1), y)]
    line = (tuple(points),)
    return [
        Polyline(lines=line, role="paper", width=3.4),
        Polyline(lines=line, role="good", width=1.6, dash=(5.0, 2.0)),
    ]


def _months(year: _Year) -> list[Mark]:
    marks: list[Mark] = []
    days = [year.curve.start + timedelta(days=place) for place in range(year.curve.days)]
    for month, held in groupby(enumerate(days), lambda each: each[1].month):
        places = [place for place, _ in held]
        left, right = year.x(places[0]), year.x(places[-1] + 1)
        name = tr(MONTHS[month - 1]) if right - left >= 22 else tr(MONTHS[month - 1])[0]
        at = ((left + right) / 2, year.base + 15)
        marks.append(Words(at=at, text=name, role="quiet", align="center"))
        if places[0]:
            tick = ((left, year.base), (left, year.base + 4))
            marks.append(Polyline(lines=(tick,), role="quiet", width=0.6))
    return marks


def _today(year: _Year, today: date | None) -> list[Mark]:
    place = _place(year, today)
    if place is None:
        return []
    x = year.x(place)
    line = ((x, year.top - 2), (x, year.base))
    return [
        Polyline(lines=(line,), role="accent", width=1.1),
        Words(at=(x, year.top - 5), text=tr("today"), role="accent", face="medium", align="center"),
    ]


def _dates(year: _Year, today: date | None) -> list[Mark]:
    """The days of the feedings above what they give, as far as they find room."""
    place = _place(year, today)
    taken: list[Box] = []
    if place is not None:
        half = rough_width(tr("today"), 9.0) / 2
        x = year.x(place)
        taken.append((x - half, year.top - 13, x + half, year.top - 2))
    marks: list[Mark] = []
    for layer in year.curve.layers:
        found = _free(year, layer, taken) if layer.kind == "feeding" else None
        if found is not None:
            taken.append(found)
            marks.append(
                Words(
                    at=(found[0], found[3] - 2.5),
                    text=_date(year, layer),
                    role="ink",
                    halo="paper",
                )
            )
    return marks


def _date(year: _Year, layer: ReleaseLayer) -> str:
    return day(layer.date) if layer.date < year.curve.start else short_day(layer.date)


def _free(year: _Year, layer: ReleaseLayer, taken: list[Box]) -> Box | None:
    """A box for a label over a layer's first days, clear of other labels; None without room."""
    first = max(0, (layer.date - year.curve.start).days)
    width = rough_width(_date(year, layer), 9.0)
    left = min(year.x(first), year.right - width)
    last = min(year.curve.days, first + max(1, round(width / (year.x(1) - year.x(0)))))
    foot = year.y(float(year.tops[-1][first:last].max())) - 1
    while foot - 11 >= year.top - 14:
        box = (left, foot - 11, left + width, foot)
        if not any(_overlap(box, other) for other in taken):
            return box
        foot -= 6
    return None


def _overlap(one: Box, other: Box) -> bool:
    across = one[0] < other[2] + 3 and one[2] + 3 > other[0]
    return across and one[1] < other[3] and one[3] > other[1]


def _empty(year: _Year) -> list[Mark]:
    if year.curve.layers:
        return []
    at = ((_LEFT_PT + year.right) / 2, (year.top + year.base) / 2)
    return [Words(at=at, text=nothing_words(year.curve), role="ink", align="center", halo="paper")]
