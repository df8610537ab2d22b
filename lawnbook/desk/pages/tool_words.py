"""What the tools say of a spreader's and a sprayer's calibration, as plain words. No Qt."""

from collections.abc import Mapping
from typing import Any

from lawnbook.agronomy.nitrogen import product_lb_for_rate
from lawnbook.agronomy.spraying import spray_gal_per_1000, tank_covers_sqft
from lawnbook.agronomy.spreading import spreader_rate_lb_per_1000
from lawnbook.agronomy.units import FL_OZ_PER_GAL, fl_oz_to_gal
from lawnbook.desk.pages.entry_panel import Answer
from lawnbook.desk.pages.record_table import Row
from lawnbook.desk.pages.shelf_words import amount, figure
from lawnbook.desk.telling import either
from lawnbook.plan.feed_model import TankPlan
from lawnbook.reading import is_metric, localised, tr
from lawnbook.yard.amounts import (
    PERCENT,
    RATE_UNIT,
    bare,
    small_bare,
    stored,
    told,
    told_small,
    trimmed,
    unit_shown,
)
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.consistency_feed import MOST_N_LB_PER_1000
from lawnbook.yard.numbers import day, plain
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Product, SprayerRun, SpreaderRun

NOT_PORTABLE = tr(
    "A setting is not portable: another spreader, another product, even another "
    "walk throws another rate. Weigh your own."
)
HOW_TO_WEIGH = tr(
    "Weigh the hopper, walk a measured strip with it open, weigh it again. The "
    "width is from the middle of one pass to the middle of the next."
)
HOW_TO_SPRAY = tr(
    "With plain water first: fill to a mark, spray a measured area at your usual "
    "walk, and measure what fills it to the mark again."
)
RINSE = tr(
    "Spray rinse water out over the lawn just treated, never into a drain, a gutter or onto paving."
)
OF_PRODUCT, OF_NITROGEN, OF_VOLUME = "product", "nitrogen", "fl oz"
RATE_UNITS = {
    OF_PRODUCT: (tr("lb of product"), tr("g/m² of product")),
    OF_NITROGEN: (tr("lb of nitrogen"), tr("g/m² of nitrogen")),
    OF_VOLUME: (tr("fl oz of product"), tr("mL of product per 100 m²")),
}
"""What a rate may be told in: per 1,000 sq ft, and to a metric reader."""
UNIT_OF_RATE = {
    OF_PRODUCT: RATE_UNIT,
    OF_NITROGEN: RATE_UNIT,
    OF_VOLUME: "fl oz per 1,000 sq ft",
}
SPRAY = "gal per 1,000 sq ft"


def rate_unit_words(unit: str) -> str:
    """What a rate may be told in, in the owner's units. KeyError for no unit."""
    us, metric = RATE_UNITS[unit]
    return either(us, metric)


def rate_caption() -> str:
    """What stands over the choice of a rate's unit."""
    return either(tr("per 1,000 sq ft, in"), tr("as"))


def spreader_heads() -> tuple[str, ...]:
    """The heads of the list of a spreader's runs."""
    rate = either(tr("lb per\n1,000 sq ft"), tr("g/m²"))
    return (tr("Product"), tr("Spreader"), tr("Setting"), rate, f"N, {rate}", tr("Day"))


def sprayer_heads() -> tuple[str, ...]:
    """The heads of the list of a sprayer's runs."""
    tank, covers = (
        tr("Tank\n{unit}", unit=unit_shown("gal")),
        tr("A tank covers\n{unit}", unit=unit_shown("sq ft")),
    )
    spray = either(tr("Spray, gal per\n1,000 sq ft"), tr("Spray, L per\n100 m²"))
    return (tr("Sprayer"), tank, spray, covers, tr("Day"))


def spreader_answer(values: Mapping[str, Any], product: Product | None) -> Answer:
    """The rate of a strip as typed so far, of the product and of its nitrogen."""
    strip_ft, width_ft = _above_zero(values, "strip_ft"), _above_zero(values, "width_ft")
    used_lb = _above_zero(values, "used_lb")
    if strip_ft is None or width_ft is None or used_lb is None:
        return HOW_TO_WEIGH, "caption"
    rate = spreader_rate_lb_per_1000(used_lb, strip_ft, width_ft)
    lead = tr(
        "{amount} on {strip_ft} × {width}, {area}: {rate}",
        amount=amount(used_lb, "lb"),
        strip_ft=plain(strip_ft, 2, "ft"),
        width=trimmed(width_ft, 2, "ft"),
        area=trimmed(strip_ft * width_ft, 0, "sq ft"),
        rate=told_small(rate, 2, RATE_UNIT),
    )
    if product is None:
        return f"{lead}.", "caption"
    n_lb = rate * analysis_of(product).n_pct / 100
    if n_lb > MOST_N_LB_PER_1000:
        most = either(f"{MOST_N_LB_PER_1000:g} lb", told(MOST_N_LB_PER_1000, 1, RATE_UNIT))
        us = tr("more than {most} is more than a lawn is given at once. Were ounces meant?",
                most=most)  # fmt: skip
        metric = tr("more than {most} is more than a lawn is given at once. Were grams meant?",
                    most=most)  # fmt: skip
        return tr(
            "{lead}, {of_it} of it nitrogen: {either}",
            lead=lead,
            of_it=_of_it(n_lb),
            either=either(us, metric),
        ), "ask"
    return tr("{lead}, {of_it} of it nitrogen.", lead=lead, of_it=_of_it(n_lb)), "caption"


def _of_it(lb_per_1000: float) -> str:
    """A part of a rate that was told before with its whole unit."""
    return either(told_small(lb_per_1000, 2, "lb"), told_small(lb_per_1000, 2, RATE_UNIT))


def sprayer_answer(values: Mapping[str, Any]) -> Answer:
    """What a sprayer puts down as typed so far, and what a tank covers."""
    area_sqft, used_gal = _above_zero(values, "area_sqft"), _above_zero(values, "used_gal")
    if area_sqft is None or used_gal is None:
        return HOW_TO_SPRAY, "caption"
    gal_per_1000 = spray_gal_per_1000(used_gal, area_sqft)
    words = told_small(gal_per_1000, 2, SPRAY)
    tank_gal, seconds = _above_zero(values, "tank_gal"), _above_zero(values, "seconds")
    if tank_gal is not None:
        covers = tank_covers_sqft(tank_gal, gal_per_1000)
        tank = trimmed(tank_gal, 2, "gal")
        words = tr(
            "{words}: a tank of {tank} covers {covers}",
            words=words,
            tank=tank,
            covers=told(covers, 0, "sq ft"),
        )
    if seconds is not None:
        ground_sqft = stored(100.0, "sq ft") if is_metric() else 1000.0
        ground = either(tr("1,000 sq ft"), tr("100 m²"))
        took = localised(f"{seconds * ground_sqft / area_sqft:,.0f} s")
        words = tr(
            "{words}. At that walk {ground} take {took}", words=words, ground=ground, took=took
        )
    return f"{words}.", "caption"


def spreader_row(run: SpreaderRun, product: Product | None) -> Row:
    """A spreader's run as a row under `spreader_heads`."""
    rate = spreader_rate_lb_per_1000(run.used_lb, run.strip_ft, run.width_ft)
    n_lb = None if product is None else rate * analysis_of(product).n_pct / 100
    nitrogen = "–" if n_lb is None else small_bare(n_lb, 2, RATE_UNIT)
    name = product.name if product else "–"
    put_down = small_bare(rate, 2, RATE_UNIT)
    cells = (name, run.spreader, run.setting, put_down, nitrogen, day(run.date))
    strip = f"{plain(run.strip_ft, 2, 'ft')} × {trimmed(run.width_ft, 2, 'ft')}"
    spoken = tr(
        "{name} with {spreader} at {setting}: {amount} on {strip}, {rate}, {cells}",
        name=name,
        spreader=run.spreader,
        setting=run.setting,
        amount=amount(run.used_lb, "lb"),
        strip=strip,
        rate=told_small(rate, 2, RATE_UNIT),
        cells=cells[5],
    )
    return Row(run.id, cells, spoken)


def sprayer_row(run: SprayerRun) -> Row:
    """A sprayer's run as a row under `sprayer_heads`."""
    gal_per_1000 = spray_gal_per_1000(run.used_gal, run.area_sqft)
    covers = tank_covers_sqft(run.tank_gal, gal_per_1000)
    cells = (
        run.sprayer,
        plain(run.tank_gal, 2, "gal"),
        small_bare(gal_per_1000, 2, SPRAY),
        bare(covers, 0, "sq ft"),
        day(run.date),
    )
    timed = "" if run.seconds is None else tr(" in {seconds:,.0f} s", seconds=run.seconds)
    spoken = tr(
        "{sprayer}: {amount} on {trimmed}{timed}, {gal_per_1000}, {cells}",
        sprayer=run.sprayer,
        amount=amount(run.used_gal, "gal"),
        trimmed=trimmed(run.area_sqft, 2, "sq ft"),
        timed=timed,
        gal_per_1000=told_small(gal_per_1000, 2, SPRAY),
        cells=cells[4],
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
                tr(
                    "{name} carries no nitrogen: say how much of the product goes down.",
                    name=product.name,
                )
            )
        return product_lb_for_rate(rate, n_pct, 1000.0)
    if unit != OF_VOLUME:
        raise KeyError(unit)
    if product.density_lb_per_gal is None:
        name = product.name
        us = tr("{name} has no density: enter what a gallon of it weighs on the shelf, or "
                "say the rate in pounds.", name=name)  # fmt: skip
        metric = tr("{name} has no density: enter what a litre of it weighs on the shelf, or "
                    "say the rate by weight.", name=name)  # fmt: skip
        raise OwnerError(either(us, metric))
    return fl_oz_to_gal(rate) * product.density_lb_per_gal


def nitrogen_words(lb_per_1000: float, product: Product) -> Answer:
    """What a rate of a product brings in nitrogen; questioned above `MOST_N_LB_PER_1000`."""
    n_pct = analysis_of(product).n_pct
    n_lb = lb_per_1000 * n_pct / 100
    us = tr(
        "{lb_per_1000} lb of {name} per 1,000 sq ft bring {n_lb} lb of nitrogen "
        "({figure}{percent}).",
        lb_per_1000=told_small(lb_per_1000),
        name=product.name,
        n_lb=told_small(n_lb),
        figure=figure(n_pct),
        percent=PERCENT,
    )
    metric = tr("{rate} of {name} bring {nitrogen} of nitrogen ({share}).",
                rate=told_small(lb_per_1000, 2, RATE_UNIT), name=product.name,
                nitrogen=told_small(n_lb, 2, RATE_UNIT),
                share=f"{figure(n_pct)}{PERCENT}")  # fmt: skip
    words = either(us, metric)
    if n_lb > MOST_N_LB_PER_1000:
        slip = either(tr("were ounces meant?"), tr("were grams meant?"))
        return tr(
            "{words} That is more than a lawn is given at once: {slip}", words=words, slip=slip
        ), "ask"
    return words, "caption"


def tank_figures(plan: TankPlan) -> tuple[tuple[str, str], ...]:
    """The figures of a tank plan at a glance, each with its words."""
    covers = (told(plan.covers_sqft, 0, "sq ft"), tr("a full tank covers"))
    last = (
        _amount(plan.last_lb, plan.last_fl_oz),
        tr("with {gal} of spray", gal=_gal(plan.last_spray_gal)),
    )
    if not plan.full_tanks:
        return (
            covers,
            (tr("1 tank"), tr("not full")),
            (last[0], tr("in it, {last}", last=last[1])),
        )
    tanks = (f"{plan.full_tanks}", tr("full tank") if plan.full_tanks == 1 else tr("full tanks"))
    dose = (
        _amount(plan.product_lb, plan.product_fl_oz),
        tr("in each of {gal}", gal=_gal(plan.tank_gal)),
    )
    if not plan.last_spray_gal:
        return (covers, tanks, dose)
    return (covers, tanks, dose, (last[0], tr("in the last, {last}", last=last[1])))


def _amount(pounds: float, fl_oz: float | None) -> str:
    if fl_oz is None:
        return told_small(pounds, 2, "lb")
    small = told_small(fl_oz, 1, "fl oz")
    return _gal(fl_oz_to_gal(fl_oz)) if fl_oz >= FL_OZ_PER_GAL else small


def _gal(volume_gal: float) -> str:
    return amount(volume_gal, "gal")


def _above_zero(values: Mapping[str, Any], name: str) -> float | None:
    """A number as typed so far; None where it is missing or not above zero."""
    value: float | None = values.get(name)
    return value if value is not None and value > 0 else None
