"""The trend of a place: its plugs over time, its line with the band of doubt, what was done when.

Thickness stands upward from nothing. Of a spot each day's plugs are a dot with the error of one
plug; of a zone or the yard every spot is a quiet line and the mean over the spots the bold one.
"""

import math
from collections.abc import Iterable, Sequence
from datetime import date
from itertools import groupby

from lawnbook.charts.marks import (
    Disc,
    Frame,
    Mark,
    Picture,
    Polygon,
    Polyline,
    Spot,
    Words,
    in_the_middle,
)
from lawnbook.charts.profile_hits import Hit, shown_note
from lawnbook.charts.profile_layout import UNSURE_DASH, UNSURE_PT
from lawnbook.charts.trend_axes import axis_marks, day_lines
from lawnbook.charts.trend_key import (
    COMPARISON_DASH,
    error_bar,
    key_marks,
    key_names,
    placed_names,
    said_lines,
)
from lawnbook.charts.trend_layout import (
    CareSign,
    TrendLayout,
    Trends,
    all_points,
    lay_out_trend,
    spot_of,
)
from lawnbook.plan.plug_model import CareMark, Evidence, SpotThatch, TrendPoint
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.numbers import counted, day

EMPTY = tr("No plug with its thatch read yet. The trend begins with the third day of plugs.")
_DOT_PT = 6.0
_BESIDE_PT, _MOST_BESIDE = 4.4, 12
_SIGN_HALF_PT = 3.6


def trend_marks(
    evidence: Evidence | Trends,
    care: Sequence[CareMark],
    frame: Frame,
    on: date,
    split: date | None = None,
) -> Picture:
    """A place's trend up to the day `on`, with cares beneath it and a chosen day across it.

    With `Trends` the spots of the place are drawn with their own trends, comparison spots dashed;
    of bare evidence only their points are known.
    """
    trends = _trends(evidence)
    if not all_points(trends):
        return in_the_middle(said_lines(EMPTY, frame.width), frame)
    placed = placed_names(key_names(trends), frame.width)
    layout = _layout(trends, care, frame, on)
    said = _said(trends, frame)
    key_rows = 1 + max(row for _, _, row in placed)
    marks: list[Mark] = [*axis_marks(layout), *_care_lines(layout), *_band(layout, trends.place)]
    lines, dots = _spots(layout, trends)
    marks += [*lines, *_line(layout, trends.place), *dots]
    if trends.place.kind == "spot":
        marks += _own_points(layout, trends.place)
    shown = split is not None and layout.first < split < layout.last
    marks += day_lines(layout, on, split if shown else None)
    marks += [*_care_signs(layout), *key_marks(placed, said, key_rows)]
    return Picture(frame, tuple(marks))


def trend_hits(
    evidence: Evidence | Trends, care: Sequence[CareMark], frame: Frame, on: date
) -> tuple[Hit, ...]:
    """Boxes of the dots in date order, then of the signs of care.

    Keys: "core:" with the ids of a day's plugs where they are known, else "spot:" with the spot's
    id; "care:" with the ids of the cares of a sign. Several ids are joined by spaces.
    """
    trends = _trends(evidence)
    if not all_points(trends):
        return ()
    layout = _layout(trends, care, frame, on)
    places = _dot_places(layout, trends)
    dots = [_dot_hit(places[_of(point)], trends, point) for point in all_points(trends)]
    return (*dots, *(_care_hit(layout, sign) for sign in layout.lane))


def _trends(evidence: Evidence | Trends) -> Trends:
    return evidence if isinstance(evidence, Trends) else Trends(evidence)


def _layout(trends: Trends, care: Sequence[CareMark], frame: Frame, on: date) -> TrendLayout:
    placed = placed_names(key_names(trends), frame.width)
    rows = 1 + max(row for _, _, row in placed) + len(_said(trends, frame))
    return lay_out_trend(trends, care, frame, on, rows)


def _said(trends: Trends, frame: Frame) -> tuple[str, ...]:
    """Why there is no band, where there is none."""
    return () if trends.place.band else said_lines(trends.place.reason, frame.width)


def _at(layout: TrendLayout, on: date, value: float) -> Spot:
    return layout.x(on), layout.y(min(max(value, 0.0), layout.most_in))


def _band(layout: TrendLayout, place: Evidence) -> list[Mark]:
    """The band of 95 %, cut where it leaves the scale."""
    if len(place.band) < 2:
        return []
    upper = [_at(layout, on, high) for on, _, high in place.band]
    lower = [_at(layout, on, low) for on, low, _ in place.band]
    ring = (*upper, *reversed(lower))
    return [Polygon(rings=(ring,), fill="accent", alpha=0.18)]


def _line(layout: TrendLayout, place: Evidence) -> list[Mark]:
    """The trend, bold with an interval; without one thin and dashed, as it may well be none."""
    if len(place.line) < 2:
        return []
    points = tuple(_at(layout, on, value) for on, value in place.line)
    if place.ci95 is None:
        return [Polyline(lines=(points,), role="accent", width=UNSURE_PT, dash=UNSURE_DASH)]
    return [
        Polyline(lines=(points,), role="paper", width=4.4),
        Polyline(lines=(points,), role="accent", width=2.4),
    ]


def _own_points(layout: TrendLayout, place: Evidence) -> list[Mark]:
    """A spot's days as dots with the error of one plug, one standard deviation each way."""
    marks: list[Mark] = []
    for point in place.points:
        x, y = _at(layout, point.date, point.thatch_in)
        if place.error is not None:
            # The error of one plug, less where the plugs of a day are pooled.
            half = place.error.plug_in / max(1, point.plugs) ** 0.5
            _, top = _at(layout, point.date, point.thatch_in + half)
            _, foot = _at(layout, point.date, point.thatch_in - half)
            marks.append(error_bar(x, top, foot))
        marks.append(Disc(at=(x, y), radius=3.0, fill="ink", edge="paper", width=0.8))
    return marks


def _spots(layout: TrendLayout, trends: Trends) -> tuple[list[Mark], list[Mark]]:
    """The lines and the dots of every spot but a place's own; untreated ones dashed, hollow."""
    own = trends.place.place_id if trends.place.kind == "spot" else None
    by_spot = groupby(sorted(all_points(trends), key=_by_spot), key=lambda point: point.spot_id)
    lines: list[Mark] = []
    dots: list[Mark] = []
    places = _dot_places(layout, trends)
    for spot_id, group in by_spot:
        if spot_id == own:
            continue
        points = tuple(group)
        run = tuple(_at(layout, point.date, point.thatch_in) for point in points)
        at = [places[_of(point)] for point in points]
        told = _trend_of(spot_of(trends, spot_id))
        trend = tuple(_at(layout, on, value) for on, value in told)
        if spot_id in trends.comparison:
            dash = COMPARISON_DASH
            lines.append(Polyline(lines=(trend or run,), role="water", width=1.2, dash=dash))
            dots += [
                Disc(at=each, radius=2.3, fill="paper", edge="water", width=1.1) for each in at
            ]
            continue
        lines.append(Polyline(lines=(run,), role="quiet", width=0.7, alpha=0.38))
        if trend:
            lines.append(Polyline(lines=(trend,), role="quiet", width=0.9, alpha=0.75))
        dots += [Disc(at=each, radius=2.1, fill="quiet", edge="paper", width=0.5) for each in at]
    return lines, dots


def _of(point: TrendPoint) -> tuple[str, date]:
    return point.spot_id, point.date


def _dot_places(layout: TrendLayout, trends: Trends) -> dict[tuple[str, date], Spot]:
    """Where every dot stands: equal ones of a day side by side, so that each is seen."""
    places: dict[tuple[str, date], Spot] = {}
    for on, points in groupby(all_points(trends), key=lambda point: point.date):
        taken: list[Spot] = []
        for point in points:
            places[_of(point)] = _beside(_at(layout, on, point.thatch_in), taken)
            taken.append(places[_of(point)])
    return places


def _beside(at: Spot, taken: Sequence[Spot]) -> Spot:
    """A place, or the nearest free one: a step further to the right and to the left in turn."""
    for step in range(_MOST_BESIDE):
        for way in (1, -1):
            x = at[0] + _BESIDE_PT * way * step
            if all(math.hypot(x - ox, at[1] - oy) >= _BESIDE_PT - 0.1 for ox, oy in taken):
                return x, at[1]
    return at


def _by_spot(point: TrendPoint) -> tuple[str, date]:
    return point.spot_id, point.date


def _trend_of(spot: SpotThatch | None) -> tuple[tuple[date, float], ...]:
    if spot is None:
        return ()
    if spot.evidence is not None and spot.evidence.line:
        return spot.evidence.line
    return spot.line or ()


def _care_lines(layout: TrendLayout) -> list[Mark]:
    """A hairline from every care up through the plot."""
    days = {care.date for sign in layout.lane for care in sign.cares}
    lines = tuple(((layout.x(on), layout.top), (layout.x(on), layout.foot)) for on in sorted(days))
    return [Polyline(lines=lines, role="quiet", width=0.6, alpha=0.5, dash=(1.0, 2.6))]


def _care_signs(layout: TrendLayout) -> list[Mark]:
    if not layout.lane:
        return []
    y, half = layout.lane_top, _SIGN_HALF_PT
    marks: list[Mark] = [Words(at=(2, y + 3.2), text=tr("care"), role="quiet")]
    for sign in layout.lane:
        x = sign.x
        diamond = ((x, y - half), (x + half, y), (x, y + half), (x - half, y))
        marks.append(Polygon(rings=(diamond,), fill="good", edge="paper", width=0.5))
        at = (sign.label_x, layout.lane_baseline(sign.row))
        marks.append(Words(at=at, text=sign.label, align="center"))
    return marks


def _dot_hit(at: Spot, trends: Trends, point: TrendPoint) -> Hit:
    x, y = at
    spot = spot_of(trends, point.spot_id)
    columns = [
        each
        for each in (spot.columns if spot is not None else ())
        if each.date == point.date and each.thatch_in is not None
    ]
    ids = " ".join(each.core_id for each in columns)
    key = f"core:{ids}" if ids else f"spot:{point.spot_id}"
    name = spot.spot if spot is not None else ""
    if trends.place.kind == "spot" and point.spot_id == trends.place.place_id:
        name = trends.place.place
    roots = [each.root_depth_in for each in columns if each.root_depth_in is not None]
    lines = [
        f"{name}, {day(point.date)}" if name else day(point.date),
        _thatch_words(point, sum(each.readings for each in columns)),
        tr("roots {depth}", depth=told(sum(roots) / len(roots), 1, "in")) if roots else "",
        *(shown_note(each.note) for each in columns),
    ]
    words = "\n".join(line for line in lines if line)
    return Hit(x - _DOT_PT, y - _DOT_PT, x + _DOT_PT, y + _DOT_PT, key, words)


def _thatch_words(point: TrendPoint, readings: int) -> str:
    words = tr("thatch {thickness}", thickness=told(point.thatch_in, 2, "in"))
    if point.plugs > 1:
        words += tr(", mean of {plugs} plugs", plugs=point.plugs)
    if readings:
        words += f", {counted(readings, 'reading')}"
    return words


def _care_hit(layout: TrendLayout, sign: CareSign) -> Hit:
    ids = " ".join(care.care_id for care in sign.cares)
    half = max(_DOT_PT, _SIGN_HALF_PT + 2)
    return Hit(
        sign.x - half,
        layout.lane_top - half,
        sign.x + half,
        layout.lane_top + half,
        f"care:{ids}",
        "\n".join(_care_words(sign.cares)),
    )


def _care_words(cares: Iterable[CareMark]) -> list[str]:
    lines = []
    for care in cares:
        where = f", {care.where}" if care.where else ""
        note = f": {shown_note(care.note)}" if care.note else ""
        lines.append(f"{day(care.date)}: {care.kind}{where}{note}")
    return lines
