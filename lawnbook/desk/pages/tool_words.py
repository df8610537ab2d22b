"""What the tools say of a spreader's and a sprayer's calibration, as plain words. No Qt."""

from collections.abc import Mapping
from typing import Any

from lawnbook.agronomy.nitrogen import product_lb_for_rate
from lawnbook.agronomy.spraying import spray_gal_per_1000, tank_covers_sqft
from lawnbook.agronomy.spreading import spreader_rate_lb_per_1000
from lawnbook.agronomy.units import FL_OZ_PER_GAL, fl_oz_to_gal
from lawnbook.desk.pages.entry_panel import Answer
from lawnbook.desk.pages.record_table import Row
from lawnbook.desk.pages.shelf_words import figure
from lawnbook.plan.feed_model import TankPlan
from lawnbook.plan.workings import PERCENT, told, told_small
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.consistency_feed import MOST_N_LB_PER_1000
from lawnbook.yard.numbers import day, plain
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Product, SprayerRun, SpreaderRun

SPREADER_HEADS = (
    "Product",
    "Spreader",
    "Setting",
    "lb per\n1,000 sq ft",
    "N, lb per\n1,000 sq ft",
    "Day",
)
SPRAYER_HEADS = (
    "Sprayer",
    "Tank\ngal",
    "Spray, gal per\n1,000 sq ft",
    "A tank covers\nsq ft",
    "Day",
)
NOT_PORTABLE = (
    "A setting is not portable: another spreader, another product, even another walk throws "
    "another rate. Weigh your own."
)
HOW_TO_WEIGH = (
    "Weigh the hopper, walk a measured strip with it open, weigh it again. The width is from the "
    "middle of one pass to the middle of the next."
)
HOW_TO_SPRAY = (
    "With plain water first: fill to a mark, spray a measured area at your usual walk, and measure "
    "what fills it to the mark again."
)
RINSE = (
    "Spray rinse water out over the lawn just treated, never into a drain, a gutter or onto paving."
)
OF_PRODUCT, OF_NITROGEN, OF_VOLUME = "product", "nitrogen", "fl oz"
RATE_UNITS = {
    OF_PRODUCT: "lb of product",
    OF_NITROGEN: "lb of nitrogen",
    OF_VOLUME: "fl oz of product",
}
"""What a rate per 1,000 sq ft may be told in."""


def spreader_answer(values: Mapping[str, Any], product: Product | None) -> Answer:
    """The rate of a strip as typed so far, of the product and of its nitrogen."""
    strip_ft, width_ft = _above_zero(values, "strip_ft"), _above_zero(values, "width_ft")
    used_lb = _above_zero(values, "used_lb")
    if strip_ft is None or width_ft is None or used_lb is None:
        return HOW_TO_WEIGH, "caption"
    rate = spreader_rate_lb_per_1000(used_lb, strip_ft, width_ft)
    lead = (
        f"{figure(used_lb)} lb on {plain(strip_ft)} × {plain(width_ft)} ft, "
        f"{plain(strip_ft * width_ft, 0)} sq ft: {told_small(rate)} lb per 1,000 sq ft"
    )
    if product is None:
        return f"{lead}.", "caption"
    n_lb = rate * analysis_of(product).n_pct / 100
    if n_lb > MOST_N_LB_PER_1000:
        return (
            f"{lead}, {told_small(n_lb)} lb of it nitrogen: more than {MOST_N_LB_PER_1000:g} lb is "
            "more than a lawn is given at once. Were ounces meant?"
        ), "ask"
    return f"{lead}, {told_small(n_lb)} lb of it nitrogen.", "caption"


def sprayer_answer(values: Mapping[str, Any]) -> Answer:
    """What a sprayer puts down as typed so far, and what a tank covers."""
    area_sqft, used_gal = _above_zero(values, "area_sqft"), _above_zero(values, "used_gal")
    if area_sqft is None or used_gal is None:
        return HOW_TO_SPRAY, "caption"
    gal_per_1000 = spray_gal_per_1000(used_gal, area_sqft)
    words = f"{told_small(gal_per_1000)} gal per 1,000 sq ft"
    tank_gal, seconds = _above_zero(values, "tank_gal"), _above_zero(values, "seconds")
    if tank_gal is not None:
        covers = tank_covers_sqft(tank_gal, gal_per_1000)
        words = f"{words}: a tank of {plain(tank_gal)} gal covers {told(covers, 0)} sq ft"
    if seconds is not None:
        words = f"{words}. At that walk 1,000 sq ft take {seconds * 1000 / area_sqft:,.0f} s"
    return f"{words}.", "caption"


def spreader_row(run: SpreaderRun, product: Product | None) -> Row:
    """A spreader's run as a row under `SPREADER_HEADS`."""
    rate = spreader_rate_lb_per_1000(run.used_lb, run.strip_ft, run.width_ft)
    n_lb = "–" if product is None else told_small(rate * analysis_of(product).n_pct / 100)
    name = product.name if product else "–"
    cells = (name, run.spreader, run.setting, told_small(rate), n_lb, day(run.date))
    spoken = (
        f"{name} with {run.spreader} at {run.setting}: {figure(run.used_lb)} lb on "
        f"{plain(run.strip_ft)} × {plain(run.width_ft)} ft, {cells[3]} lb per 1,000 sq ft, "
        f"{cells[5]}"
    )
    return Row(run.id, cells, spoken)


def sprayer_row(run: SprayerRun) -> Row:
    """A sprayer's run as a row under `SPRAYER_HEADS`."""
    gal_per_1000 = spray_gal_per_1000(run.used_gal, run.area_sqft)
    covers = tank_covers_sqft(run.tank_gal, gal_per_1000)
    cells = (
        run.sprayer,
        plain(run.tank_gal),
        told_small(gal_per_1000),
        told(covers, 0),
        day(run.date),
    )
    timed = "" if run.seconds is None else f" in {run.seconds:,.0f} s"
    spoken = (
        f"{run.sprayer}: {figure(run.used_gal)} gal on {plain(run.area_sqft)} sq ft{timed}, "
        f"{cells[2]} gal per 1,000 sq ft, {cells[4]}"
    )
    return Row(run.id, cells, spoken)


def product_lb_per_1000(rate: float, unit: str, product: Product) -> float:
    """Pounds of product per 1,000 sq ft of a rate in one of `RATE_UNITS`.

    OwnerError where the product lacks what the unit needs; KeyError for no unit.
    """
    if unit == OF_PRODUCT:
        return rate
    if unit == OF_NITROGEN:
        n_pct = analysis_of(product).n_pct
        if n_pct <= 0:
            raise OwnerError(
                f"{product.name} carries no nitrogen: say how much of the product goes down."
            )
        return product_lb_for_rate(rate, n_pct, 1000.0)
    if unit != OF_VOLUME:
        raise KeyError(unit)
    if product.density_lb_per_gal is None:
        raise OwnerError(
            f"{product.name} has no density: enter what a gallon of it weighs on the shelf, or "
            "say the rate in pounds."
        )
    return fl_oz_to_gal(rate) * product.density_lb_per_gal


def nitrogen_words(lb_per_1000: float, product: Product) -> Answer:
    """What a rate of a product brings in nitrogen; questioned above `MOST_N_LB_PER_1000`."""
    n_pct = analysis_of(product).n_pct
    n_lb = lb_per_1000 * n_pct / 100
    words = (
        f"{told_small(lb_per_1000)} lb of {product.name} per 1,000 sq ft bring "
        f"{told_small(n_lb)} lb of nitrogen ({figure(n_pct)}{PERCENT})."
    )
    if n_lb > MOST_N_LB_PER_1000:
        return f"{words} That is more than a lawn is given at once: were ounces meant?", "ask"
    return words, "caption"


def tank_figures(plan: TankPlan) -> tuple[tuple[str, str], ...]:
    """The figures of a tank plan at a glance, each with its words."""
    covers = (f"{plan.covers_sqft:,.0f} sq ft", "a full tank covers")
    last = (_amount(plan.last_lb, plan.last_fl_oz), f"with {_gal(plan.last_spray_gal)} of spray")
    if not plan.full_tanks:
        return (covers, ("1 tank", "not full"), (last[0], f"in it, {last[1]}"))
    tanks = (f"{plan.full_tanks}", "full tank" if plan.full_tanks == 1 else "full tanks")
    dose = (_amount(plan.product_lb, plan.product_fl_oz), f"in each of {_gal(plan.tank_gal)}")
    if not plan.last_spray_gal:
        return (covers, tanks, dose)
    return (covers, tanks, dose, (last[0], f"in the last, {last[1]}"))


def _amount(pounds: float, fl_oz: float | None) -> str:
    if fl_oz is None:
        return f"{told_small(pounds)} lb"
    return _gal(fl_oz_to_gal(fl_oz)) if fl_oz >= FL_OZ_PER_GAL else f"{told_small(fl_oz, 1)} fl oz"


def _gal(volume_gal: float) -> str:
    return f"{figure(volume_gal)} gal"


def _above_zero(values: Mapping[str, Any], name: str) -> float | None:
    """A number as typed so far; None where it is missing or not above zero."""
    value: float | None = values.get(name)
    return value if value is not None and value > 0 else None
