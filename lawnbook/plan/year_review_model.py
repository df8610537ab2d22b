"""The shape of a year in review: what was put down, spent and done, beside the year before.

Everything here is frozen. Months run January to December of the calendar; `order` tells how they
follow each other in the year, which runs July to June south of the equator. A figure that cannot
be told is None, and words beside it say why. Money is in the owner's currency.
"""

from datetime import date
from typing import Literal

from lawnbook.frozen import dataclass
from lawnbook.plan.plug_model import ThenNow
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr

Months = tuple[float, ...]
"""Twelve numbers, January to December."""

LateStart = date | None

CostKind = Literal["water", "product", "care"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReviewSpan:
    """The days of a year that are looked at: from its first to `until`, both included.

    `ends` is the year's last day, `label` its name as the budget's year has it. `begun` is the day
    of the notebook's first record where that came only after the year's first day.
    """

    year: int
    label: str
    starts: date
    until: date
    ends: date
    begun: LateStart = None

    @property
    def whole(self) -> bool:
        """Whether all of the year is in it."""
        return self.until == self.ends

    @property
    def days(self) -> int:
        """How many days are looked at."""
        return (self.until - self.starts).days + 1

    @property
    def recorded_from(self) -> date:
        """The first of the days that can have been recorded."""
        return self.starts if self.begun is None else self.begun

    @property
    def told(self) -> str:
        """The days as the other year's stand beside them: its name, or "the same days of" it."""
        return self.label if self.whole else tr("the same days of {label}", label=self.label)

    @property
    def order(self) -> tuple[int, ...]:
        """The months, 1 to 12, as they follow each other in the year."""
        return tuple((self.starts.month - 1 + step) % 12 + 1 for step in range(12))

    def holds(self, on: date) -> bool:
        """Whether a day is one of them."""
        return self.starts <= on <= self.until


@dataclass(frozen=True, slots=True, kw_only=True)
class Watered:
    """What the waterings on record put down (gross): how many, inches, gallons.

    `untold` of them were typed in minutes while the zone's rate is not known, so that they are in
    neither depth nor gallons. The depth of several zones is their gallons on their area.
    """

    waterings: int
    untold: int
    depth_in: float
    gallons: float
    gallons_by_month: Months


@dataclass(frozen=True, slots=True, kw_only=True)
class Reckoned:
    """Gallons of the same days as the plan and the old habit would have put down.

    They are reckoned from the notebook's first record on; None where they cannot
    be, with the `reason`.
    """

    plan_gallons: float | None
    habit_gallons: float | None
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneWatered:
    """One zone's water of the year and of the year before."""

    zone: str
    zone_id: str
    number: int
    area_sqft: float
    now: Watered
    before: Watered
    reckoned: Reckoned


@dataclass(frozen=True, slots=True, kw_only=True)
class Weathered:
    """Rain, and the grass's full use (ETc, mean of the zones by area), of the days looked at.

    `rain_in` sums the `rain_days` whose rain was read, None where none was; `rain_whole` tells
    whether they are most of the days. `filled_days` are those whose ETo is their month's mean for
    want of weather; `etc_in` is None where they are too many, or a day's is not known at all.
    """

    rain_in: float | None
    rain_days: int
    rain_whole: bool
    etc_in: float | None
    filled_days: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Against:
    """What was put down against what would have been, of the `zones` in which both are known."""

    zones: tuple[str, ...]
    put_down_gallons: float
    would_gallons: float

    @property
    def less_gallons(self) -> float:
        """How much less was put down; negative where it was more."""
        return self.would_gallons - self.put_down_gallons


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterReview:
    """The year's water: zones in the owner's order, all of them together, weather, and the plan's.

    `plan` and `habit` are None where no zone can be compared; `left_out` says which zones are not
    in them, and why.
    """

    zones: tuple[ZoneWatered, ...]
    now: Watered
    before: Watered
    area_sqft: float
    weather: Weathered
    weather_before: Weathered
    plan: Against | None
    habit: Against | None
    left_out: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fed:
    """Nitrogen put down in the days looked at, lb per 1,000 sq ft, what the water brought included.

    `budget_lb` and `budget_by_month` are of the whole year, whatever part of it is looked at.
    """

    by_month: Months
    quick_by_month: Months
    applied_lb: float
    quick_lb: float
    budget_by_month: Months
    budget_lb: float

    @property
    def quick_share(self) -> float | None:
        """The quick part of the nitrogen, 0 to 1; None where there was none."""
        return min(1.0, self.quick_lb / self.applied_lb) if self.applied_lb > 0 else None


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneFed:
    """One zone's nitrogen of the year and of the year before."""

    zone: str
    zone_id: str
    number: int
    area_sqft: float
    now: Fed
    before: Fed


@dataclass(frozen=True, slots=True, kw_only=True)
class NitrogenReview:
    """The year's nitrogen: zones in the owner's order, and their mean by area."""

    zones: tuple[ZoneFed, ...]
    now: Fed
    before: Fed


@dataclass(frozen=True, slots=True, kw_only=True)
class SpotReview:
    """One spot's thatch over the year: the last plug before it against the latest in it.

    `pair` is None where there are no two days to compare, with the reason in `words`; `before` is
    the same of the year before. `verdict` is that of all its plugs up to the last day looked at.
    """

    spot: str
    spot_id: str
    zone: str
    comparison: bool
    pair: ThenNow | None
    before: ThenNow | None
    words: str
    verdict: str

    @property
    def shows(self) -> bool:
        """Whether the difference is more than measuring alone may make."""
        pair = self.pair
        if pair is None or pair.thatch_change_in is None or pair.plus_minus_in is None:
            return False
        return abs(pair.thatch_change_in) > pair.plus_minus_in


@dataclass(frozen=True, slots=True, kw_only=True)
class CostItem:
    """One thing that costs: what it cost in the year and the year before, and how much it was.

    An amount is None where the thing was not used, or where its price is not known: then
    `unpriced` says what is missing.
    """

    kind: CostKind
    name: str
    amount: float | None
    amount_before: float | None
    used: str
    used_before: str
    unpriced: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CostReview:
    """The year's cost by its items; totals sum what has a price, None where nothing has.

    `unpriced` names what was used in either year and has no price: it is in no total.
    """

    items: tuple[CostItem, ...]
    total: float | None
    total_before: float | None
    unpriced: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkDone:
    """How often a kind of work was done, and on which days of the year."""

    what: str
    count: int
    count_before: int
    dates: tuple[date, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """A sentence on what changed, and the figures of the workings that it rests on."""

    text: str
    figures: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class YearReview:
    """A year in review. `compared` says which days stand beside which.

    `has_before` tells whether anything was recorded in the days of the year before.
    """

    yard: str
    on: date
    span: ReviewSpan
    before: ReviewSpan
    has_before: bool
    compared: str
    water: WaterReview
    nitrogen: NitrogenReview
    spots: tuple[SpotReview, ...]
    cost: CostReview
    work: tuple[WorkDone, ...]
    changed: tuple[Changed, ...]
    workings: tuple[Working, ...]
