"""From the owner's calibrations: the spreader's setting for a rate, and how a spray is mixed.

A spreader's settings are weighed for each product. Between two of them a straight line is taken;
beyond them nothing is worked out: the nearest is told instead, and whether it will do.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Literal, NamedTuple

from lawnbook.agronomy.checks import not_negative, positive
from lawnbook.agronomy.spraying import spray_gal_per_1000, tank_covers_sqft, tanks_for
from lawnbook.agronomy.spreading import setting_between, spreader_rate_lb_per_1000
from lawnbook.agronomy.units import (
    FL_OZ_PER_GAL,
    LB_PER_GAL_PER_KG_PER_L,
    fl_oz_to_gal,
    gal_to_fl_oz,
    gal_to_ml,
    gal_to_tbsp,
    m2_to_sqft,
)
from lawnbook.frozen import dataclass
from lawnbook.plan.feed_model import SpreaderAdvice, TankPlan
from lawnbook.plan.feed_rule import small_rate
from lawnbook.plan.workings import PERCENT, counted
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import RATE_UNIT, shown, told, told_small, trimmed
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day, minutes, parse_number, plain
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Product, SprayerRun, SpreaderRun

SAME_WITHIN = 0.01
"""A rate so near to the wanted one, as a share of it, is the same (common practice)."""

FITS_WITHIN = 0.25
"""A setting whose rate is farther off by this share is not proposed (common practice)."""

ROUNDING = 1e-9

TOLD_IN_TBSP_GAL = 2 / FL_OZ_PER_GAL
"""A smaller volume is told in tablespoons, a larger one in fluid ounces."""

WEIGH_AGAIN = tr(
    "A starting point: weigh again over a strip, since walk, weather and wear "
    "change what a setting gives."
)

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

CHECK = tr(
    "If a tank lasts for more or less than its area, walk or pressure have "
    "changed: spray the measured area again with plain water, and enter what it "
    "took."
)


class _Stop(NamedTuple):
    """A setting that is a number, and what it gave in lb per 1,000 sq ft."""

    setting: float
    rate: float


@dataclass(frozen=True, slots=True)
class _Weighed:
    """The latest run at one setting: what it gave, and the setting as a number if it is one."""

    run: SpreaderRun
    number: float | None
    rate: float


def spreader_advice(
    notebook: Notebook, product_id: str, lb_per_1000: float, spreader: str = ""
) -> tuple[SpreaderAdvice, ...]:
    """The setting for a rate of a product, one for each spreader it was weighed with, latest first.

    Only the named spreader's if one is named (capitals and spaces do not matter). The latest run
    counts for its setting. Empty where there is no run, or no rate above zero.
    """
    if lb_per_1000 <= 0:
        return ()
    by_spreader: dict[str, list[SpreaderRun]] = {}
    runs = [each for each in notebook.spreader_runs.values() if each.product == product_id]
    for run in sorted(runs, key=lambda each: each.date):
        by_spreader.setdefault(folded(run.spreader), []).append(run)
    chosen = [
        runs for name, runs in by_spreader.items() if not spreader or name == folded(spreader)
    ]
    chosen.sort(key=lambda runs: runs[-1].date, reverse=True)
    return tuple(_advice(runs, lb_per_1000) for runs in chosen)


def setting_number(setting: str) -> float | None:
    """A setting as a number: "5", "7.5", "4 1/2", "4-1/2"; None for letters and the like."""
    try:
        return parse_number(re.sub(r"(\d)\s*-\s*(\d+\s*/)", r"\1 \2", setting))
    except OwnerError:
        return None


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


def _advice(runs: Sequence[SpreaderRun], wanted: float) -> SpreaderAdvice:
    """The advice from one spreader's runs in date order."""
    weighed = _latest_by_setting(runs)
    dial = sorted(
        (_Stop(each.number, each.rate) for each in weighed if each.number is not None),
        key=lambda stop: stop.setting,
    )
    nearest = min(weighed, key=lambda each: abs(each.rate - wanted))
    setting, rate = nearest.run.setting, nearest.rate
    basis: Literal["same", "between", "nearest"]
    fits = True
    between = _between(dial, wanted)
    if abs(rate - wanted) <= SAME_WITHIN * wanted:
        basis = "same"
        words = tr(
            "Setting {setting} gave {rate} on {date}.",
            setting=setting,
            rate=_rate(rate),
            date=day(nearest.run.date),
        )
    elif between is not None:
        basis = "between"
        setting, rate, words = between
    else:
        basis = "nearest"
        fits = abs(rate - wanted) <= FITS_WITHIN * wanted
        words = _off(setting, rate, wanted, fits)
    return SpreaderAdvice(
        spreader=runs[-1].spreader,
        setting=setting,
        lb_per_1000=rate,
        wanted_lb_per_1000=wanted,
        basis=basis,
        runs=len(runs),
        words=" ".join((words, *_contradictions(dial), *([WEIGH_AGAIN] if fits else []))),
        fits=fits,
    )


def _latest_by_setting(runs: Iterable[SpreaderRun]) -> list[_Weighed]:
    """One entry for each setting, from its latest run; "4 1/2" and "4.5" are one setting."""
    latest: dict[float | str, _Weighed] = {}
    for run in runs:
        number = setting_number(run.setting)
        rate = spreader_rate_lb_per_1000(run.used_lb, run.strip_ft, run.width_ft)
        key = folded(run.setting) if number is None else number
        latest[key] = _Weighed(run, number, rate)
    return list(latest.values())


def _between(dial: Sequence[_Stop], wanted: float) -> tuple[str, float, str] | None:
    """Setting, what the line gives there, and words; None where no two neighbours lie around it."""
    for low, high in pairwise(dial):
        if not low.rate < wanted < high.rate:
            continue
        exact = setting_between(wanted, low, high)
        setting = _rounded(exact, low.setting, high.setting)
        rate = low.rate + (high.rate - low.rate) * (setting - low.setting) / (
            high.setting - low.setting
        )
        words = tr(
            "Setting {setting} lies between {setting_2}, which gave {rate}, and "
            "{setting_3}, which gave {rate_2}: about {rate_3} is to be expected of it.",
            setting=plain(setting, 3),
            setting_2=plain(low.setting, 3),
            rate=_rate(low.rate),
            setting_3=plain(high.setting, 3),
            rate_2=_rate(high.rate),
            rate_3=_rate(rate),
        )
        return plain(setting, 3), rate, words
    return None


def _rounded(setting: float, low: float, high: float) -> float:
    """A setting with as few decimals as keep it between two others, and one at least."""
    tries = (round(setting, places) for places in ((1, 2, 3) if high - low >= 0.5 else (2, 3)))
    return next((each for each in tries if low < each < high), setting)


def _off(setting: str, rate: float, wanted: float, fits: bool) -> str:
    """The nearest setting, by how much it misses, and what to weigh next."""
    side, next_one = ("more", "smaller") if rate > wanted else ("less", "larger")
    gap = abs(rate - wanted)
    share = f"{told(100 * gap / wanted, 0)}{PERCENT}"
    off = tr(
        "{gap} ({share}) {side} than wanted",
        gap=told_small(gap, 2, _own_weight()),
        share=share,
        side=side,
    )
    if fits:
        return tr(
            "The nearest of your settings, {setting}, gives {rate}, {off}. To come nearer, "
            "weigh a run at a {next_one} setting.",
            setting=setting,
            rate=_rate(rate),
            off=off,
            next_one=next_one,
        )
    return tr(
        "None of your settings gives {rate}: the nearest, {setting}, gives "
        "{small_rate}, that is {off}. Weigh a run at a {next_one} setting.",
        rate=_rate(wanted),
        setting=setting,
        small_rate=small_rate(rate),
        off=off,
        next_one=next_one,
    )


def _contradictions(dial: Sequence[_Stop]) -> Iterator[str]:
    """Neighbours of which the larger setting gave no more: one of them was not weighed well."""
    for low, high in pairwise(dial):
        if high.rate <= low.rate:
            yield (
                tr(
                    "Setting {setting} should give more than {setting_2}, and by your runs it does "
                    "not: weigh both again.",
                    setting=plain(high.setting, 3),
                    setting_2=plain(low.setting, 3),
                )
            )


def _rate(lb_per_1000: float) -> str:
    return told_small(lb_per_1000, 2, RATE_UNIT)


def _own_weight() -> str:
    """What a gap between rates is told in: the pounds alone, or grams on a square metre."""
    return RATE_UNIT if is_metric() else "lb"


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
