"""What the plan and the check before spreading say about nitrogen beyond the month's budget.

Frozen, as everything in a Plan. Rates are lb per 1,000 sq ft; phosphate and potash as P2O5 and
K2O, as labels state them. Fields of a day or a month that cannot be given are None, and a
`reason` beside them says why.
"""

from datetime import date
from typing import Literal

from lawnbook.frozen import dataclass

PerMonth = tuple[float, ...]
"""Twelve numbers, January to December."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FedRow:
    """A line of the ledger: one feeding on one zone, or a month's irrigation water on it.

    `feeding_id`, `product_id` and `pounds` are empty (None) for water. `area_sqft` is the area
    treated, frozen at the feeding.
    """

    date: date
    zone: str
    zone_id: str
    feeding_id: str
    product: str
    product_id: str
    pounds: float | None
    area_sqft: float
    n_lb_per_1000: float
    quick_lb_per_1000: float
    p2o5_lb_per_1000: float
    k2o_lb_per_1000: float
    kind: Literal["feeding", "water"] = "feeding"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseLayer:
    """One application's nitrogen becoming available, lb per 1,000 sq ft on each day of a curve.

    `applied_lb` is all that was put down; `before_lb` became available before the curve begins
    and `after_lb` will after it ends: before + sum(daily_lb) + after = applied.
    """

    date: date
    product: str
    daily_lb: tuple[float, ...]
    applied_lb: float
    before_lb: float
    after_lb: float
    kind: Literal["feeding", "water"] = "feeding"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseCurve:
    """Nitrogen becoming available to one zone, day by day, stacked by application.

    `start` is the first of the days, one entry of `daily_lb` each. `usable_daily_lb` is what the
    growth of the month can use in a day; None, with the `reason`, where no temperatures are
    known. `notes` are sentences on what is assumed (soil temperature, release weeks).
    """

    zone: str
    zone_id: str
    start: date
    days: int
    layers: tuple[ReleaseLayer, ...]
    usable_daily_lb: tuple[float, ...] | None
    reason: str
    notes: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Released:
    """A zone's budget year counted by the month released, beside what growth can use.

    `by_month` January to December of the budget year, from every application that still feeds in
    it, also one of the year before; days after the plan's are a forecast. `usable_by_month` is the
    year's budget shared out by growth potential, None with the `reason` where no temperatures are
    known. `to_come_lb` is what was put down up to the day of the plan and is not yet available.
    """

    by_month: PerMonth
    usable_by_month: PerMonth | None
    growth_by_month: tuple[float | None, ...]
    to_come_lb: float
    reason: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ClippingsCredit:
    """What clippings left on the lawn give back in a year: a range, never subtracted."""

    low_lb: float
    high_lb: float
    words: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LawnNitrogen:
    """All zones together, as twelve columns: lb per 1,000 sq ft of the whole lawn.

    Each figure is the zones' mean weighted by area. `applied_lb` and `budget_lb` are pounds of
    nitrogen on the whole lawn in the year.
    """

    zone: str
    area_sqft: float
    year: int
    year_label: str
    applied_by_month: PerMonth
    quick_by_month: PerMonth
    water_by_month: PerMonth
    budget_by_month: PerMonth
    applied_year: float
    budget_year: float
    left_this_month: float
    left_this_year: float
    applied_lb: float
    budget_lb: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilState:
    """What a zone's latest soil test says, and what it changes here.

    `due` is the day the next one is due. `phosphate_allowed` tells whether the rule of phosphate
    by soil test lets a product with phosphate onto the zone on the day, and `phosphate_words` why
    (not). `notes` are on pH and thatch, on the depth and the thatch of the sample, on age.
    """

    zone: str
    zone_id: str
    tested: date | None
    due: date
    ph: float | None
    om_pct: float | None
    p_ppm: float | None
    k_ppm: float | None
    phosphate_allowed: bool
    phosphate_words: str
    phosphate_source: str
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneLoad:
    """What to weigh out for one zone.

    `area_sqft` is the area treated; `strip_sqft` lies in the zone beside water, or along a
    feature with a no-spread strip, and gets nothing: `kept_out_lb` is what the same rate would
    have put there, weighed apart and kept. `volume_gal` is a liquid's, None without its density.
    """

    spread_lb: float
    area_sqft: float
    lb_per_1000: float
    strip_sqft: float = 0.0
    kept_out_lb: float = 0.0
    strips: tuple[str, ...] = ()
    volume_gal: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WateringIn:
    """The run that washes a product off the blades: gross depth and what it takes on the zone.

    None where the zone has no sprinklers or its rate is not known; `words` says all.
    """

    depth_in: float
    run_minutes: float | None
    cycles: int | None
    minutes_per_cycle: float | None
    words: str
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shopping:
    """What to buy for the whole spread, from nothing on hand.

    `size` is pounds of a bag or gallons of a jug, `unit` says which; `left_over` in the same unit.
    """

    count: int
    package: Literal["bag", "jug"]
    size: float
    unit: Literal["lb", "gal"]
    needed: float
    left_over: float
    cost: float | None
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PassZone:
    """One zone's part of a pass: pounds of product and the nitrogen they bring."""

    zone: str
    zone_id: str
    pounds: float
    n_lb_per_1000: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SpreadPass:
    """One of the days on which a part of the wanted amount would pass every rule."""

    date: date
    zones: tuple[PassZone, ...]
    pounds: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SpreaderAdvice:
    """The setting proposed for a rate, from the owner's own calibrations of product and spreader.

    `basis` is "same" where a run gave that rate, "between" where two settings enclose it,
    "nearest" where none does. `lb_per_1000` is what the setting is known or expected to give.
    `fits` is false where that is too far from the wanted rate for the setting to be put in.
    """

    spreader: str
    setting: str
    lb_per_1000: float
    wanted_lb_per_1000: float
    basis: Literal["same", "between", "nearest"]
    runs: int
    words: str
    fits: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class TankPlan:
    """How a spread is mixed and sprayed, from a sprayer's calibration with plain water.

    `full_tanks` of `product_fl_oz` each in `tank_gal` of spray, and a last one of
    `last_spray_gal` with `last_fl_oz` (0 where none is left). `walk_seconds_per_1000` is the pace
    of the calibration, None where it was not timed. Pounds stand beside the volumes; volumes are
    None for a product without a density. `too_much` tells that a tank cannot hold its share.
    """

    sprayer: str
    covers_sqft: float
    gal_per_1000: float
    full_tanks: int
    tank_gal: float
    product_lb: float
    product_fl_oz: float | None
    last_spray_gal: float
    last_lb: float
    last_fl_oz: float | None
    walk_seconds_per_1000: float | None
    words: str
    too_much: bool = False
