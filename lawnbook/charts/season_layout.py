"""Where everything of the year stands, in points: curves, lanes of spans, rows of marks, months."""

from collections.abc import Iterable
from datetime import date
from math import ceil

from lawnbook.charts.marks import Frame
from lawnbook.frozen import dataclass
from lawnbook.plan.season_year_marks import ROWS
from lawnbook.plan.season_year_model import SeasonRow, SeasonSpan, SeasonYear
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import shown, stored

LEFT_PT, RIGHT_PT = 56.0, 37.0
KEY_PT, CURVES_PT, LANE_PT, ROW_PT, FOOT_PT = 31.0, 78.0, 13.0, 14.5, 18.0
GAP_PT = 7.0
LEAST_SCALE_IN = 0.1
SCALE_STEP_IN, SCALE_STEP_MM = 0.1, 2.0
"""The scale of water ends on a whole step, of the unit that is shown."""

ROW_NAMES: dict[SeasonRow, str] = {
    "water": tr("Watering"),
    "feed": tr("Feeding"),
    "mow": tr("Mowing"),
    "plug": tr("Plugs"),
    "care": tr("Care"),
    "check": tr("Checks"),
}
"""What the rows are called."""


@dataclass(frozen=True, slots=True)
class SeasonLayout:
    """The year on a frame. `lanes` are the spans line by line, those of one name on one line."""

    frame: Frame
    year: SeasonYear
    lanes: tuple[tuple[SeasonSpan, ...], ...]
    most_in: float

    @property
    def right(self) -> float:
        """Where the year ends."""
        return self.frame.width - RIGHT_PT

    @property
    def top(self) -> float:
        """The upper edge of the curves."""
        return KEY_PT

    @property
    def base(self) -> float:
        """The foot of the curves, whatever room the frame leaves them."""
        below = GAP_PT + LANE_PT * len(self.lanes) + GAP_PT + ROW_PT * len(ROWS) + FOOT_PT
        return max(self.top + 20.0, self.frame.height - below)

    @property
    def rows_top(self) -> float:
        """The upper edge of the rows of marks."""
        return self.base + GAP_PT + LANE_PT * len(self.lanes) + GAP_PT / 2

    @property
    def foot(self) -> float:
        """The lower edge of the rows of marks, above the names of the months."""
        return self.rows_top + ROW_PT * len(ROWS)

    @property
    def day_pt(self) -> float:
        """The width of a day."""
        return (self.right - LEFT_PT) / self.year.length

    def x(self, on: date, share: float = 0.5) -> float:
        """Where a day stands: its morning at a share of 0, its end at 1."""
        return LEFT_PT + ((on - self.year.starts).days + share) * self.day_pt

    def growth_y(self, share: float) -> float:
        """The height of a growth potential, 0 to 1."""
        return self.base - share * (self.base - self.top)

    def water_y(self, in_per_day: float) -> float:
        """The height of so much water a day."""
        return self.base - in_per_day / self.most_in * (self.base - self.top)

    def lane_y(self, lane: int) -> float:
        """The middle of a line of spans."""
        return self.base + GAP_PT + LANE_PT * (lane + 0.5)

    def row_y(self, row: SeasonRow) -> float:
        """The middle of a row of marks."""
        return self.rows_top + ROW_PT * (ROWS.index(row) + 0.5)


def lay_out_season(year: SeasonYear, frame: Frame) -> SeasonLayout:
    """The layout of a year on a frame."""
    return SeasonLayout(frame, year, _lanes(year.spans), _most_in(year))


def season_height_pt(year: SeasonYear) -> float:
    """How high a picture of this year is best, in points: each line of spans asks for more."""
    lanes = len(_lanes(year.spans))
    fixed = KEY_PT + CURVES_PT + 1.5 * GAP_PT + ROW_PT * len(ROWS) + FOOT_PT
    return fixed + LANE_PT * lanes


def _lanes(spans: Iterable[SeasonSpan]) -> tuple[tuple[SeasonSpan, ...], ...]:
    lanes: dict[tuple[str, str], list[SeasonSpan]] = {}
    for span in spans:
        lanes.setdefault((span.kind, span.name), []).append(span)
    return tuple(tuple(each) for each in lanes.values())


def _most_in(year: SeasonYear) -> float:
    """The top of the scale of water, on a whole step."""
    needs = [each for each in year.need_in_per_day if each is not None]
    watered = [m.watered_in_per_day for m in year.months if m.watered_in_per_day is not None]
    most = max([LEAST_SCALE_IN, *needs, *watered])
    if is_metric():
        steps = ceil(shown(most, "in/day") / SCALE_STEP_MM - 1e-9)
        return stored(steps * SCALE_STEP_MM, "in/day")
    return ceil(most / SCALE_STEP_IN - 1e-9) * SCALE_STEP_IN
