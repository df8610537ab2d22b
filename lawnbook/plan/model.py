"""The shape of a Plan: what the window, the printed sheet and the command line all show.

Everything here is frozen. Field names with units are the keys of the plan's JSON. A figure that
cannot be given is None, and the `reason` beside it says why in a sentence for the owner. Fields
that are `Lazily` are made when they are first read, with the same value as if made at once.
"""

from dataclasses import field
from datetime import date
from typing import Literal

from lawnbook.frozen import dataclass
from lawnbook.plan.feed_model import (
    ClippingsCredit,
    LawnNitrogen,
    Released,
    Shopping,
    SoilState,
    SpreaderAdvice,
    SpreadPass,
    TankPlan,
    WateringIn,
    ZoneLoad,
)
from lawnbook.plan.lazily import Lazily
from lawnbook.plan.plug_model import CareMark, Finding, NextPlug, SpotThatch, ZoneThatch
from lawnbook.plan.season_model import LastDay, Mowing, Task, TaskKind
from lawnbook.plan.water_model import (
    Establishing,
    MethodDays,
    NextRun,
    ProgramRun,
    RainCredit,
    Stretch,
    ZoneCoverage,
    ZoneYear,
)
from lawnbook.plan.working_model import KEPT_OUT, Working

RateSource = Literal["catch test", "meter", "heads", "typed"]
WateringRule = Literal["deep", "light", "survival"]
"""A zone is watered by its roots, as new turf until it has rooted, or to live while dormant."""

Months = tuple[float, ...]
"""Twelve numbers, January to December."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthWater:
    """What a zone's waterings look like in one month; all None where none is planned.

    `reason` says why a figure is missing, or which rule takes the place of the deep one.
    Under the rule "light" depth, run and cycles are a watering day's, in `times_a_day` parts.
    `share_of_etc` is what of the use is given back in a dry year. `cost` is in the owner's money,
    None where the price of water is not known.
    """

    month: int
    etc_in_per_day: float | None = None
    depth_in: float | None = None
    interval_days: int | None = None
    run_minutes: float | None = None
    cycles: int | None = None
    minutes_per_cycle: float | None = None
    soak_minutes: float | None = None
    gallons: float | None = None
    shortfall_in_per_day: float = 0.0
    reason: str = ""
    rule: WateringRule = "deep"
    times_a_day: int = 1
    share_of_etc: float = 1.0
    cost: float | None = None


@dataclass(frozen=True, kw_only=True)
class ZoneWater:
    """Water for one zone on the day of the plan, and month by month.

    Depths are net inches; `run_minutes` and `gallons` are of one watering. `limited_by` is
    "roots" where the roots bear less than the target, "target" where they bear it, "one day"
    where one day's use is more than they bear, and None where no watering is planned or where
    `rule` waters by the calendar: new turf, and turf let go dormant.
    `months` holds twelve entries. `next_watering` is the first day on which the allowance is used
    up; `next_allowed` is the first from then on that the owner's watering rule allows: the same
    day where there is no rule, None where the season ends before. `defaults` are the values taken
    because none was measured or entered, in short words such as "evenness (DU) 0.65".
    `notes` are short sentences shown beside the figures. `depletion_in` stands at the end of the
    day, of the `capacity_in` that the roots can reach. `thatch_in` is None before the first plug.
    `sooner_run` is the last allowed day before `next_run`, where the owner's rule makes that one
    late; `today_run` is what a watering on the day itself would need.
    """

    zone: str
    zone_id: str
    number: int
    area_sqft: float
    irrigated: bool
    precipitation_rate_in_per_h: float | None
    rate_source: RateSource | None
    rate_stale: bool
    du_lq: float | None
    multiplier: float
    etc_in_per_day: float | None
    rooted_soil_in: float
    roots_are_default: bool
    defaults: tuple[str, ...]
    bearable_depth_in: float
    limited_by: Literal["roots", "target", "one day"] | None
    depth_in: float | None
    interval_days: int | None
    months: Lazily[tuple[MonthWater, ...]] = field(default=Lazily())
    shortfall_in_per_day: float | None
    target_depth_in: float
    target_interval_days: int | None
    roots_needed_in: float
    run_minutes: float | None
    cycles: int | None
    minutes_per_cycle: float | None
    soak_minutes: float | None
    next_watering: date | None
    next_allowed: date | None
    gallons: float | None
    reason: str
    notes: Lazily[tuple[str, ...]] = field(default=Lazily())
    workings: Lazily[tuple[Working, ...]] = field(default=Lazily())
    rule: WateringRule = "deep"
    flow_gpm: float | None = None
    cost: float | None = None
    depletion_in: float | None = None
    capacity_in: float | None = None
    thatch_in: float | None = None
    next_run: NextRun | None = None
    sooner_run: Lazily[NextRun | None] = field(default=Lazily(None))
    today_run: Lazily[NextRun | None] = field(default=Lazily(None))
    rain_credit: Lazily[RainCredit | None] = field(default=Lazily(None))
    establishing: Establishing | None = None
    stretch: Lazily[Stretch | None] = field(default=Lazily(None))
    coverage: Lazily[ZoneCoverage | None] = field(default=Lazily(None))
    water_year: Lazily[ZoneYear | None] = field(default=Lazily(None))
    workings_by_month: Lazily[tuple[tuple[Working, ...], ...]] = field(
        default=Lazily(()), compare=False, metadata=KEPT_OUT
    )

    @property
    def interval_days_by_month(self) -> tuple[int | None, ...]:
        """Days between waterings, January to December."""
        return tuple(each.interval_days for each in self.months)


@dataclass(frozen=True, slots=True, kw_only=True)
class NextFeeding:
    """The next day with room in the budget.

    `pounds` is of the product last fed to the zone, or of the first on the shelf; of nitrogen,
    with `product` empty, where the shelf is bare. They go on `area_sqft`: the zone without the
    `strips` along water and features, on which nothing is spread. `latest` is the last day of
    that month before the month's budget or a rule closes to as much; None where nobody asked.
    """

    date: date
    pounds: float
    product: str
    n_lb_per_1000: float
    area_sqft: float = 0.0
    strips: tuple[str, ...] = ()
    latest: LastDay = None
    product_id: str = ""


@dataclass(frozen=True, kw_only=True)
class ZoneNitrogen:
    """Nitrogen of one zone in one budget year, lb per 1,000 sq ft.

    The months run January to December of the calendar in the north; in the south the year is
    July to June and `year` names the year in which it began. `left_this_month` is the lesser of
    the month's and the year's, negative when over. `reason` says why there is no next feeding,
    or why it waits although the month has some left, or what it lacks.

    Nitrogen in the irrigation water (`water_by_month`, from the waterings recorded) is part of the
    applied figures, and of none that limits one application. `p2o5_year` and `k2o_year` are the
    year's phosphate and potash.
    """

    zone: str
    zone_id: str
    number: int
    area_sqft: float
    year: int
    year_label: str
    budget_name: str
    budget_source: str
    applied_by_month: Months
    quick_by_month: Months
    budget_by_month: Months
    applied_year: float
    budget_year: float
    rolling_30_days: float
    left_this_month: float
    left_this_year: float
    next_feeding: NextFeeding | None
    reason: str
    workings: Lazily[tuple[Working, ...]] = field(default=Lazily())
    water_by_month: Months = (0.0,) * 12
    p2o5_year: float = 0.0
    k2o_year: float = 0.0
    released: Lazily[Released | None] = field(default=Lazily(None))
    clippings: ClippingsCredit | None = None
    soil: SoilState | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """One thing that is due, with the reason it is; `spot_ids` names the spots due a plug.

    `latest` is the last day that suits, None where it is open; `keys` are those of the plan's tasks
    that the line sums up.
    """

    date: date
    kind: TaskKind
    what: str
    zones: tuple[str, ...]
    why: str
    spot_ids: tuple[str, ...] = ()
    latest: LastDay = None
    keys: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Plan:
    """The whole plan of a yard on a day. Zones in the owner's order, due dates in date order."""

    on: date
    yard: str
    zones: tuple[ZoneWater, ...]
    nitrogen: tuple[ZoneNitrogen, ...]
    thatch: Lazily[tuple[SpotThatch, ...]] = field(default=Lazily())
    due: tuple[Due, ...]
    cautions: tuple[str, ...]
    sources: Lazily[tuple[str, ...]] = field(default=Lazily())
    programs: Lazily[tuple[ProgramRun, ...]] = field(default=Lazily(()))
    lawn_nitrogen: Lazily[LawnNitrogen | None] = field(default=Lazily(None))
    eto_days: tuple[MethodDays, ...] = ()
    zone_thatch: Lazily[tuple[ZoneThatch, ...]] = field(default=Lazily(()))
    yard_thatch: Lazily[ZoneThatch | None] = field(default=Lazily(None))
    findings: Lazily[tuple[Finding, ...]] = field(default=Lazily(()))
    next_plugs: Lazily[tuple[NextPlug, ...]] = field(default=Lazily(()))
    care: Lazily[tuple[CareMark, ...]] = field(default=Lazily(()))
    tasks: tuple[Task, ...] = ()
    mowing: tuple[Mowing, ...] = ()

    @property
    def area_sqft(self) -> float:
        """The area of all zones."""
        return sum(zone.area_sqft for zone in self.zones)


@dataclass(frozen=True, slots=True, kw_only=True)
class BindingRule:
    """A rule that a proposed feeding meets or breaks: the figure, its source, and the sentence.

    One that `stops` forbids the day whatever the amount.
    """

    rule: str
    limit: float
    value: float
    source: str
    sentence: str
    broken: bool
    stops: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneSpread:
    """The check of one zone. `max_lb` is the most product that may go down that day.

    `binding` holds the rules broken or, where none is, the one that sets `max_lb`.
    `rate` figures are lb per 1,000 sq ft; "after" figures include the proposed spread.
    `over_by_lb_per_1000` is over the rules that set an amount; `why_none` says in short why
    nothing at all may go down, empty where something may.
    """

    zone: str
    zone_id: str
    within: bool
    pounds: float
    area_sqft: float
    n_lb_per_1000: float
    quick_lb_per_1000: float
    month_after: float
    month_budget: float
    year_after: float
    year_budget: float
    over_by_lb_per_1000: float
    max_lb: float
    binding: tuple[BindingRule, ...]
    p2o5_lb_per_1000: float = 0.0
    k2o_lb_per_1000: float = 0.0
    why_none: tuple[str, ...] = ()
    load: ZoneLoad | None = None
    watering_in: WateringIn | None = None
    workings: tuple[Working, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SpreadCheck:
    """The verdict before spreading: every zone, and the first day on which all of it would pass.

    `earliest_date` is None when no day within the next two years passes. `split` holds the days
    on which the wanted amount would pass in parts, empty where it passes whole or no split does.
    `notes` are sentences about the day itself: rain, drought, seedlings, what cannot be told.
    """

    within: bool
    on: date
    product: str
    zones: tuple[ZoneSpread, ...]
    earliest_date: date | None
    verdict: str
    cautions: tuple[str, ...]
    notes: tuple[str, ...] = ()
    split: tuple[SpreadPass, ...] = ()
    shopping: Shopping | None = None
    settings: tuple[SpreaderAdvice, ...] = ()
    tanks: tuple[TankPlan, ...] = ()

    @property
    def passes_some_day(self) -> bool:
        """Whether it passes on the day, on a later one, or in parts: else nothing is to load."""
        return self.within or self.earliest_date is not None or bool(self.split)
