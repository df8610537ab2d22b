"""Where a trend's time and thickness lie on the page, and the lane of cares beneath it.

Time runs to scale from left to right, thickness from nothing at the foot upward; all in points.
"""

from collections.abc import Sequence
from dataclasses import field, replace
from datetime import date, timedelta
from math import ceil

from lawnbook.charts.marks import Frame, rough_width
from lawnbook.frozen import dataclass
from lawnbook.plan.plug_model import CareMark, Evidence, SpotThatch, TrendPoint
from lawnbook.reading import tr

LEFT_PT, RIGHT_PT = 44.0, 40.0
KEY_ROW_PT = 14.0
LANE_ROW_PT = 13.0
LANE_ROWS = 2
_TOP_PT, _YEARS_PT, _FOOT_PT = 8.0, 17.0, 4.0
_DAYS_ROW_PT = 13.0
"""Above the plot, for the dates of the days that stand across it."""
_SIGN_PT = 9.0
_LEAST_IN = 1.2
_DAYS_BEFORE = 366
_LEAST_SPAN_DAYS = 300
_MARGIN_SHARE = 0.03
_LABEL_GAP_PT = 7.0
_LABEL_SIZE = 9.0


@dataclass(frozen=True, slots=True)
class Trends:
    """A place's trend, with what is drawn beside it: its spots, and which of them are untreated.

    `comparison` holds the ids of spots left untreated; they are drawn dashed and are no part of
    the place's line.
    """

    place: Evidence
    spots: tuple[SpotThatch, ...] = ()
    comparison: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class CareSign:
    """One sign on the lane: cares that stand too near to each other share it."""

    x: float
    row: int
    label: str
    label_x: float
    cares: tuple[CareMark, ...]


@dataclass(frozen=True, slots=True)
class TrendLayout:
    """The scales of a trend picture; `lane` holds its signs of care, `earlier` those before it."""

    frame: Frame
    first: date
    last: date
    most_in: float
    top: float
    foot: float
    lane: tuple[CareSign, ...]
    earlier: int

    @property
    def right(self) -> float:
        """Where time ends."""
        return self.frame.width - RIGHT_PT

    @property
    def lane_top(self) -> float:
        """Where the signs of care stand."""
        return self.foot + _YEARS_PT + _SIGN_PT / 2

    def x(self, on: date) -> float:
        """Where a day lies."""
        share = (on - self.first).days / (self.last - self.first).days
        return LEFT_PT + share * (self.right - LEFT_PT)

    def y(self, inches: float) -> float:
        """Where a thickness lies."""
        return self.foot - inches / self.most_in * (self.foot - self.top)

    def lane_baseline(self, row: int) -> float:
        """Where the label of a sign in a row is written."""
        return self.lane_top + _SIGN_PT / 2 + LANE_ROW_PT * (row + 1) - 3


def lay_out_trend(
    trends: Trends, care: Sequence[CareMark], frame: Frame, on: date, key_rows: int
) -> TrendLayout:
    """The layout for a place with at least one plug."""
    dates = [point.date for point in all_points(trends)]
    begin = min(dates)
    shown = [each for each in care if begin - timedelta(_DAYS_BEFORE) <= each.date <= on]
    first, last = _span([*dates, on, *(each.date for each in shown)])
    made = TrendLayout(
        frame=frame,
        first=first,
        last=last,
        most_in=_most_in(trends),
        top=_TOP_PT + KEY_ROW_PT * key_rows + _DAYS_ROW_PT,
        foot=frame.height - _FOOT_PT - _YEARS_PT,
        lane=(),
        earlier=sum(1 for each in care if each.date < begin - timedelta(_DAYS_BEFORE)),
    )
    signs = care_signs([(made.x(each.date), each) for each in shown], frame.width)
    # As many rows of labels as are used: what is left belongs to the plot.
    rows = max((sign.row + 1 for sign in signs), default=0)
    lane_pt = _SIGN_PT + LANE_ROW_PT * rows if signs else 0.0
    return replace(made, lane=signs, foot=made.foot - lane_pt)


def spot_of(trends: Trends, spot_id: str) -> SpotThatch | None:
    """A spot of the picture by its id."""
    return next((spot for spot in trends.spots if spot.spot_id == spot_id), None)


def all_points(trends: Trends) -> tuple[TrendPoint, ...]:
    """Every point that is drawn, in date order: the place's, and those of spots beside it."""
    own = {point.spot_id for point in trends.place.points}
    told = list(trends.place.points)
    for spot in trends.spots:
        if spot.evidence is not None and spot.spot_id not in own:
            told += spot.evidence.points
    return tuple(sorted(told, key=lambda point: (point.date, point.spot_id)))


def _span(dates: Sequence[date]) -> tuple[date, date]:
    """From the first day to the last with a margin, and never of a few days only."""
    first, last = min(dates), max(dates)
    days = max((last - first).days, _LEAST_SPAN_DAYS)
    margin = timedelta(max(1, round(days * _MARGIN_SHARE)))
    middle_gap = timedelta(max(0, days - (last - first).days))
    return first - margin - middle_gap, last + margin


def _most_in(trends: Trends) -> float:
    """The top of the scale: a quarter of an inch above whatever is drawn."""
    error = trends.place.error
    bar = error.plug_in if trends.place.kind == "spot" and error is not None else 0.0
    highest = [point.thatch_in + bar for point in all_points(trends)]
    # A band of few plugs may reach far; it is cut rather than let squeeze what was measured.
    return max(_LEAST_IN, ceil(max(highest) * 4 + 0.4) / 4)


@dataclass(slots=True)
class _Cluster:
    """Cares near each other, before they have their label."""

    cares: list[tuple[float, CareMark]] = field(default_factory=list)

    @property
    def x(self) -> float:
        """Their middle."""
        return sum(x for x, _ in self.cares) / len(self.cares)

    @property
    def label(self) -> str:
        """The one kind there is, how often, or how many there are of several kinds."""
        kinds = {care.kind for _, care in self.cares}
        if len(kinds) > 1:
            return tr("{count} cares", count=len(self.cares))
        kind = tr(next(iter(kinds)))
        return kind if len(self.cares) == 1 else f"{len(self.cares)} × {kind}"


def care_signs(cares: Sequence[tuple[float, CareMark]], width: float) -> tuple[CareSign, ...]:
    """Signs with labels in two rows that never overlap; where both are full, neighbours merge."""
    ordered = sorted(cares, key=lambda each: (each[0], each[1].care_id))
    clusters = [_Cluster([each]) for each in ordered]
    while True:
        placed = _placed(clusters, width)
        if not isinstance(placed, int):
            return placed
        clusters[placed - 1].cares += clusters.pop(placed).cares


def _placed(clusters: Sequence[_Cluster], width: float) -> tuple[CareSign, ...] | int:
    """All signs with their labels, or the place of the first that finds none."""
    free = [-1e9] * LANE_ROWS
    signs: list[CareSign] = []
    last_x = -1e9
    for place, cluster in enumerate(clusters):
        half = rough_width(cluster.label, _LABEL_SIZE) / 2
        label_x = min(max(cluster.x, half + 2), width - half - 2)
        rows = [row for row in range(LANE_ROWS) if free[row] <= label_x - half]
        if place and (not rows or cluster.x - last_x < _SIGN_PT):
            return place
        row = rows[0]
        free[row] = label_x + half + _LABEL_GAP_PT
        last_x = cluster.x
        cares = tuple(care for _, care in cluster.cares)
        signs.append(CareSign(cluster.x, row, cluster.label, label_x, cares))
    return tuple(signs)
