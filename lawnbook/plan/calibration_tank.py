"""What goes into each tank of a sprayer, and how fast to walk, in words."""

from collections.abc import Iterator
from dataclasses import replace

from lawnbook.agronomy.checks import not_negative, positive
from lawnbook.agronomy.spraying import spray_gal_per_1000, tank_covers_sqft, tanks_for
from lawnbook.agronomy.units import (
    FL_OZ_PER_GAL,
    LB_PER_GAL_PER_KG_PER_L,
    fl_oz_to_gal,
    gal_to_fl_oz,
    gal_to_ml,
    gal_to_tbsp,
    m2_to_sqft,
)
from lawnbook.plan.feed_model import TankPlan
from lawnbook.plan.workings import counted
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import shown, told, told_small, trimmed
from lawnbook.yard.numbers import minutes, plain
from lawnbook.yard.records import Product, SprayerRun

ROUNDING = 1e-9

CHECK = tr(
    "If a tank lasts for more or less than its area, walk or pressure have "
    "changed: spray the measured area again with plain water, and enter what it "
    "took."
)


TOLD_IN_TBSP_GAL = 2 / FL_OZ_PER_GAL
"""A smaller volume is told in tablespoons, a larger one in fluid ounces."""


NO_DENSITY = tr(
    "By weight only: what a gallon of this liquid weighs is not entered, so its "
    "volume is not known. Its label tells it, or weigh a gallon."
)


NO_DENSITY_METRIC = tr(
    "By weight only: what a litre of this liquid weighs is not entered, so its "
    "volume is not known. Its label tells it, or weigh a litre."
)


MIX_WITHOUT_DENSITY = tr(
    "By weight only: what a gallon of this mix weighs is not entered, so its "
    "volume is not known. Weigh a gallon of it."
)


MIX_WITHOUT_DENSITY_METRIC = tr(
    "By weight only: what a litre of this mix weighs is not entered, so its volume "
    "is not known. Weigh a litre of it."
)


def tank_plan(run: SprayerRun, product: Product, pounds: float, area_sqft: float) -> TankPlan:
    """How pounds of a product are mixed and sprayed over an area, tank by tank.

    All tanks together hold the pounds exactly. ValueError for an area that is not above zero, or
    pounds below it.
    """
    positive("area_sqft", area_sqft)
    gal_per_1000 = spray_gal_per_1000(run.used_gal, run.area_sqft)
    covers = tank_covers_sqft(run.tank_gal, gal_per_1000)
    tanks = tanks_for(area_sqft, run.tank_gal, gal_per_1000)
    product_lb = not_negative("pounds", pounds) * covers / area_sqft
    last_lb = max(0.0, pounds - tanks.full * product_lb) if tanks.last_gal else 0.0
    density = product.density_lb_per_gal if product.form == "liquid" else None
    # A gallon whose weight is not known stands for one of water: would the tank hold the pounds?
    held_lb = run.tank_gal * (density or LB_PER_GAL_PER_KG_PER_L)
    plan = TankPlan(
        sprayer=run.sprayer,
        covers_sqft=covers,
        gal_per_1000=gal_per_1000,
        full_tanks=tanks.full,
        tank_gal=run.tank_gal,
        product_lb=product_lb,
        product_fl_oz=None if density is None else gal_to_fl_oz(product_lb / density),
        last_spray_gal=tanks.last_gal,
        last_lb=last_lb,
        last_fl_oz=None if density is None else gal_to_fl_oz(last_lb / density),
        walk_seconds_per_1000=None if run.seconds is None else run.seconds * 1000 / run.area_sqft,
        words="",
        too_much=product_lb > held_lb * (1 + ROUNDING),
    )
    covering = tr(
        "{sprayer}: {gal_per_1000}, so a tank of {trimmed} covers {covers}.",
        sprayer=run.sprayer,
        gal_per_1000=told(gal_per_1000, 2, "gal per 1,000 sq ft"),
        trimmed=trimmed(run.tank_gal, 2, "gal"),
        covers=told(covers, 0, "sq ft"),
    )
    if plan.too_much:
        return replace(plan, words=f"{_too_much(plan)} {covering}")
    words = " ".join((covering, *_mixing(plan, product), _walk(plan, area_sqft)))
    return replace(plan, words=words)


def volume_words(volume_gal: float) -> str:
    """A volume as it is measured out, with the metric: "1.25 gal (4.7 L)", "4 fl oz (118 mL)".

    Below two fluid ounces in tablespoons: "1.5 tbsp (22 mL)".
    """
    if volume_gal <= 0:
        return "0 mL" if is_metric() else "0 fl oz"
    ml = gal_to_ml(volume_gal)
    litres = f"{told(ml / 1000, 2 if is_metric() and ml < 10_000 else 1)} L"
    metric = litres if ml >= 1000 else f"{told_small(ml, 0 if ml >= 10 else 1)} mL"
    if is_metric():
        return metric
    if volume_gal >= 1:
        amount = f"{plain(volume_gal)} gal"
    elif volume_gal >= TOLD_IN_TBSP_GAL:
        amount = f"{plain(gal_to_fl_oz(volume_gal), 1)} fl oz"
    else:
        amount = tr("{small} tbsp", small=_small(gal_to_tbsp(volume_gal)))
    return f"{amount} ({metric})"


def _small(value: float) -> str:
    return plain(value, 1) if value >= 0.1 else told_small(value, 1)


def folded(name: str) -> str:
    """An owner's name for a spreader or sprayer, whatever its capitals and spaces."""
    return " ".join(name.split()).casefold()


def _mixing(plan: TankPlan, product: Product) -> Iterator[str]:
    """What goes into each tank."""
    spray = tr("fill up to {trimmed}", trimmed=trimmed(plan.tank_gal, 2, "gal"))
    if plan.full_tanks:
        each = " each" if plan.full_tanks > 1 else ""
        yield (
            f"{counted(plan.full_tanks, 'full tank')}: {_dose(plan.product_lb, plan.product_fl_oz)}"
            f"{each}, {spray}."
        )
    if plan.last_spray_gal:
        name = tr("Last tank") if plan.full_tanks else tr("One tank, not full")
        yield (
            tr(
                "{name}: {dose}, fill up to {volume_words} of spray.",
                name=name,
                dose=_dose(plan.last_lb, plan.last_fl_oz),
                volume_words=volume_words(plan.last_spray_gal),
            )
        )
    if product.form == "liquid" and plan.product_fl_oz is None:
        yield _no_volume(product)
    elif product.form != "liquid":
        yield tr("A dry product is weighed out and dissolved, if its label allows spraying it.")


def _no_volume(product: Product) -> str:
    if is_metric():
        return tr(MIX_WITHOUT_DENSITY_METRIC if product.ingredients else NO_DENSITY_METRIC)
    return tr(MIX_WITHOUT_DENSITY if product.ingredients else NO_DENSITY)


def _too_much(plan: TankPlan) -> str:
    """That a tank cannot hold the product of its area, and what helps."""
    return tr(
        "This cannot be mixed: the area that a tank covers would need {dose} of "
        "product, more than the tank of {trimmed} holds. Spread less, walk slower and "
        "measure the sprayer again, or spray the area several times, some of it each "
        "time.",
        dose=_dose(plan.product_lb, plan.product_fl_oz),
        trimmed=trimmed(plan.tank_gal, 2, "gal"),
    )


def _dose(pounds: float, fl_oz: float | None) -> str:
    weight = told_small(pounds, 2, "lb") if not is_metric() else _metric_weight(pounds)
    return (
        weight
        if fl_oz is None
        else tr(
            "{volume_words}, which is {weight}",
            volume_words=volume_words(fl_oz_to_gal(fl_oz)),
            weight=weight,
        )
    )


def _walk(plan: TankPlan, area_sqft: float) -> str:
    """The walking check: how long the area and a tank should last at the calibration's pace."""
    if plan.walk_seconds_per_1000 is None:
        return tr(
            "The calibration was not timed, so the pace cannot be checked by the clock. {check}",
            check=CHECK,
        )
    pace = plan.walk_seconds_per_1000 / 1000
    return tr(
        "At the pace of the calibration {walked}, a full tank {time}, the whole area "
        "{time_2}. {check}",
        walked=_walked(pace),
        time=_time(plan.covers_sqft * pace),
        time_2=_time(area_sqft * pace),
        check=CHECK,
    )


def _walked(pace: float) -> str:
    if is_metric():
        return tr("100 m² take {time}", time=_time(m2_to_sqft(100.0) * pace))
    return tr("1,000 sq ft take {time}", time=_time(1000 * pace))


def _metric_weight(pounds: float) -> str:
    """A weight that is weighed out: grams below a kilogram."""
    kilograms = shown(pounds, "lb")
    return f"{told_small(1000 * kilograms, 0)} g" if kilograms < 1 else f"{told(kilograms, 2)} kg"


def _time(seconds: float) -> str:
    """Seconds as a watch shows them: "45 s", "3 min 20 s", from ten minutes on whole minutes."""
    whole = round(seconds)
    if whole < 60:
        return f"{whole} s"
    if whole >= 600:
        return minutes(seconds / 60)
    return f"{whole // 60} min {whole % 60} s" if whole % 60 else f"{whole // 60} min"
