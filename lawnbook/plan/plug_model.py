"""What plugs show as evidence: trends with their doubt, changes, findings, and what to pull next.

Depths are inches, slopes inches a year with thinning negative; an interval is (low, high) at 95 %
and None where the plugs are too few for one, with the reason in words beside it. Fields that are
`Lazily` are reckoned when they are first read.
"""

from dataclasses import field
from datetime import date
from typing import Literal

from lawnbook.frozen import dataclass
from lawnbook.plan.lazily import Lazily
from lawnbook.plan.working_model import Working
from lawnbook.yard.fields import Point

PlaceKind = Literal["spot", "zone", "yard"]
Interval = tuple[float, float]
Weight = Literal["good", "note", "warn"]
"""How a finding weighs: all is well, worth knowing, worth acting on."""


@dataclass(frozen=True, slots=True)
class Place:
    """What plugs are looked at: a spot or a zone by its id, or the yard (id "")."""

    kind: PlaceKind
    id: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlugColumn:
    """One plug as it is drawn. Depths in inches from the crowns; None where it was not read."""

    core_id: str
    date: date
    thatch_in: float | None
    spread_in: float | None
    readings: int
    pressed: bool
    root_depth_in: float | None
    sponge: int | None
    soil_in_thatch: int | None
    worms: int | None
    note: str
    clock: int | None = None
    core_depth_in: float | None = None
    photo_ids: tuple[str, ...] = ()
    thatch_moisture: str | None = None
    soil_moisture: str | None = None
    ring_in: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlugError:
    """How far one plug's thatch may be off, as standard deviations in inches.

    `readings_in` is between the readings of one plug; `plugs_in` between plugs of one day at one
    spot beyond their readings, None without replicates; `ruler_in` is the ruler's rounding;
    `plug_in` is what the mean of one plug with `readings` readings is off in all.
    """

    readings_in: float
    plugs_in: float | None
    ruler_in: float
    readings: int
    replicates: int
    plug_in: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonEffect:
    """Spring plugs against autumn plugs, the trend taken out (in); the sentence that names it."""

    spring_minus_autumn_in: float | None
    ci95: Interval | None
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TrendPoint:
    """The thatch of one spot on one day, its plugs of that day pooled."""

    spot_id: str
    date: date
    thatch_in: float
    plugs: int


@dataclass(frozen=True, kw_only=True)
class Evidence:
    """Is it working, and how sure are we: one spot, a zone or the yard.

    `spots` and `plugs` (pooled spot-days) count those in the trend, of spots with two dates or
    more; all that are compared while no spot has. `slope_in_per_year` is robust at a spot and the
    mean over the spots elsewhere; `how` says by which method, in words. `line` and `band` are
    the trend and its 95 % band as (date, inches) and (date, low, high), for the picture.
    `detectable_in` is the smallest change between two dates that today's plugs on a date would
    show (80 % power, 5 % level) and `more_for_tenth` how many more plugs a date would need for a
    tenth of an inch (0 for none). `half_inch` is the whole interval of the crossing, which may
    have begun, or None with `half_inch_words` saying "cannot say yet" and why. `reason` says why
    there is no interval. `none_ahead`: half an inch has been passed, or no trend leads to it.
    """

    kind: PlaceKind
    place: str
    place_id: str
    spots: Lazily[int] = field(default=Lazily())
    plugs: Lazily[int] = field(default=Lazily())
    points: Lazily[tuple[TrendPoint, ...]] = field(default=Lazily())
    slope_in_per_year: Lazily[float | None] = field(default=Lazily())
    ci95: Lazily[Interval | None] = field(default=Lazily())
    how: Lazily[str] = field(default=Lazily())
    reason: Lazily[str] = field(default=Lazily())
    verdict: Lazily[str] = field(default=Lazily())
    line: Lazily[tuple[tuple[date, float], ...]] = field(default=Lazily())
    band: Lazily[tuple[tuple[date, float, float], ...]] = field(default=Lazily())
    half_inch: Lazily[tuple[date, date] | None] = field(default=Lazily())
    half_inch_words: Lazily[str] = field(default=Lazily())
    error: Lazily[PlugError | None] = field(default=Lazily())
    plugs_a_date: Lazily[int] = field(default=Lazily())
    detectable_in: Lazily[float | None] = field(default=Lazily())
    more_for_tenth: Lazily[int | None] = field(default=Lazily())
    season: Lazily[SeasonEffect | None] = field(default=Lazily())
    notes: Lazily[tuple[str, ...]] = field(default=Lazily())
    workings: Lazily[tuple[Working, ...]] = field(default=Lazily())
    none_ahead: Lazily[bool] = field(default=Lazily(False))


@dataclass(frozen=True, kw_only=True)
class SpotThatch:
    """What the plugs of one spot show. Slopes in inches a year; thinning is negative.

    `columns` are in date order, pressed ones too, but the figures are of the unpressed ones (or
    of the pressed, where there are no others). `line` is the trend as two points (date, inches).
    `roots_in` is the latest root depth from the crowns. `half_inch_between` ends on the day of
    the plan or later and may have begun before; None where the latest plug has passed half an inch.
    """

    spot: str
    spot_id: str
    zone: str
    plugs: Lazily[int] = field(default=Lazily())
    latest_in: Lazily[float | None] = field(default=Lazily())
    first_in: Lazily[float | None] = field(default=Lazily())
    change_in: Lazily[float | None] = field(default=Lazily())
    slope_in_per_year: Lazily[float | None] = field(default=Lazily())
    ci95: Lazily[tuple[float, float] | None] = field(default=Lazily())
    half_inch_between: Lazily[tuple[date, date] | None] = field(default=Lazily())
    verdict: Lazily[str] = field(default=Lazily())
    line: Lazily[tuple[tuple[date, float], tuple[date, float]] | None] = field(default=Lazily())
    columns: Lazily[tuple[PlugColumn, ...]] = field(default=Lazily())
    workings: Lazily[tuple[Working, ...]] = field(default=Lazily())
    evidence: Lazily[Evidence | None] = field(default=Lazily(None))
    zone_id: str = ""
    roots_in: Lazily[float | None] = field(default=Lazily(None))


@dataclass(frozen=True, slots=True, kw_only=True)
class MeanColumn:
    """The mean of several spots' plugs of one round of plugging, as it is drawn.

    A round is plugs of different spots within 10 days. `spread_in` is between the spots. `spots`
    of `of_spots` were plugged in it. Everything else is as in a PlugColumn.
    """

    core_ids: tuple[str, ...]
    date: date
    spots: int
    of_spots: int
    thatch_in: float | None
    spread_in: float | None
    root_depth_in: float | None
    sponge: float | None
    soil_in_thatch: float | None
    worms: float | None


@dataclass(frozen=True, kw_only=True)
class ZoneThatch:
    """The plugs of a zone, or with `zone_id` "" of the whole yard, comparison spots left out."""

    zone: str
    zone_id: str
    columns: Lazily[tuple[MeanColumn, ...]] = field(default=Lazily())
    evidence: Lazily[Evidence] = field(default=Lazily())


@dataclass(frozen=True, slots=True, kw_only=True)
class CareMark:
    """Something done on a day that the trend is read against; `where` in words."""

    care_id: str
    date: date
    kind: str
    where: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopeChange:
    """The trend before and after a day, and their difference, with the plain words on proof.

    All None with the reason in `words` where the plugs do not allow it.
    """

    on: date
    plugs_before: int
    plugs_after: int
    before_in_per_year: float | None
    before_ci95: Interval | None
    after_in_per_year: float | None
    after_ci95: Interval | None
    difference_in_per_year: float | None
    difference_ci95: Interval | None
    words: str
    proof: str
    working: Working | None


@dataclass(frozen=True, slots=True, kw_only=True)
class StripComparison:
    """The trend of the treated spots against that of the untreated comparison strip.

    `proof` says what such a comparison can show, `notes` what blurs it here.
    """

    treated: tuple[str, ...]
    untreated: tuple[str, ...]
    treated_in_per_year: float | None
    untreated_in_per_year: float | None
    difference_in_per_year: float | None
    ci95: Interval | None
    words: str
    working: Working | None
    proof: str = ""
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class DayPlugs:
    """The plugs of one spot on one day: its columns, and their figures pooled.

    `pressed` where its thatch was read pressed, for want of any unpressed plug.
    """

    date: date
    columns: tuple[PlugColumn, ...]
    thatch_in: float | None
    root_depth_in: float | None
    photo_ids: tuple[str, ...]
    pressed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ThenNow:
    """Two dates of one spot side by side. The difference is now minus then, with its interval.

    `plus_minus_in` is half of the interval's width by the measurement error, None where that is
    not known. `done_between` is the care recorded between the two.
    """

    spot: str
    spot_id: str
    zone: str
    then: DayPlugs
    now: DayPlugs
    thatch_change_in: float | None
    plus_minus_in: float | None
    root_change_in: float | None
    words: tuple[str, ...]
    done_between: tuple[CareMark, ...]
    workings: tuple[Working, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One sentence on what the plugs and records show, with the rule behind it and its source."""

    key: str
    weight: Weight
    zone_id: str
    spot_id: str
    sentence: str
    rule: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlugPlace:
    """A free place for the next plug of a spot: hour of the clock, inches from the mark, and why.

    `at_ft` is where that lies on the sketch, None for a spot without a place.
    """

    clock: int
    ring_in: float
    at_ft: Point | None
    nearest_old_in: float | None
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NextPlug:
    """When and where the next plug of a spot is due, and what speaks for or against the spot.

    `reminder` is set where the spot has one plug only (or none), `concerns` where it lies too
    near to something, `first` where its zone's trend is the least certain.
    """

    spot: str
    spot_id: str
    zone: str
    zone_id: str
    due: date
    plugs: int
    place: PlugPlace | None
    reminder: str
    concerns: tuple[str, ...]
    first: bool
    why_first: str
