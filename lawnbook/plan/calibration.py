"""From the owner's calibrations: the spreader's setting for a rate, and how a spray is mixed.

A spreader's settings are weighed for each product. Between two of them a straight line is taken;
beyond them nothing is worked out: the nearest is told instead, and whether it will do.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

from lawnbook.agronomy.spreading import setting_between, spreader_rate_lb_per_1000
from lawnbook.frozen import dataclass
from lawnbook.plan.calibration_tank import folded
from lawnbook.plan.feed_model import SpreaderAdvice
from lawnbook.plan.feed_rule import small_rate
from lawnbook.plan.workings import PERCENT
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import RATE_UNIT, told, told_small
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day, parse_number, plain
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import SpreaderRun

SAME_WITHIN = 0.01
"""A rate so near to the wanted one, as a share of it, is the same (common practice)."""

FITS_WITHIN = 0.25
"""A setting whose rate is farther off by this share is not proposed (common practice)."""


WEIGH_AGAIN = tr(
    "A starting point: weigh again over a strip, since walk, weather and wear "
    "change what a setting gives."
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
            "Setting {setting} lies between {lower}, which gave {lower_rate}, and "
            "{higher}, which gave {higher_rate}: about {expected} is to be expected of it.",
            setting=plain(setting, 3),
            lower=plain(low.setting, 3),
            lower_rate=_rate(low.rate),
            higher=plain(high.setting, 3),
            higher_rate=_rate(high.rate),
            expected=_rate(rate),
        )
        return plain(setting, 3), rate, words
    return None


def _rounded(setting: float, low: float, high: float) -> float:
    """A setting with as few decimals as keep it between two others, and one at least."""
    tries = (round(setting, places) for places in ((1, 2, 3) if high - low >= 0.5 else (2, 3)))
    return next((each for each in tries if low < each < high), setting)


def _off(setting: str, rate: float, wanted: float, fits: bool) -> str:
    """The nearest setting, by how much it misses, and what to weigh next."""
    gap = abs(rate - wanted)
    share = f"{told(100 * gap / wanted, 0)}{PERCENT}"
    off = tr(
        "{gap} ({share}) more than wanted" if rate > wanted else "{gap} ({share}) less than wanted",
        gap=told_small(gap, 2, _own_weight()),
        share=share,
    )
    if fits:
        return tr(
            "The nearest of your settings, {setting}, gives {rate}, {off}. To come nearer, "
            "weigh a run at a smaller setting."
            if rate > wanted
            else "The nearest of your settings, {setting}, gives {rate}, {off}. To come nearer, "
            "weigh a run at a larger setting.",
            setting=setting,
            rate=_rate(rate),
            off=off,
        )
    return tr(
        "None of your settings gives {rate}: the nearest, {setting}, gives "
        "{small_rate}, that is {off}. Weigh a run at a smaller setting."
        if rate > wanted
        else "None of your settings gives {rate}: the nearest, {setting}, gives "
        "{small_rate}, that is {off}. Weigh a run at a larger setting.",
        rate=_rate(wanted),
        setting=setting,
        small_rate=small_rate(rate),
        off=off,
    )


def _contradictions(dial: Sequence[_Stop]) -> Iterator[str]:
    """Neighbours of which the larger setting gave no more: one of them was not weighed well."""
    for low, high in pairwise(dial):
        if high.rate <= low.rate:
            yield (
                tr(
                    "Setting {setting} should give more than {lower}, and by your runs it does "
                    "not: weigh both again.",
                    setting=plain(high.setting, 3),
                    lower=plain(low.setting, 3),
                )
            )


def _rate(lb_per_1000: float) -> str:
    return told_small(lb_per_1000, 2, RATE_UNIT)


def _own_weight() -> str:
    """What a gap between rates is told in: the pounds alone, or grams on a square metre."""
    return RATE_UNIT if is_metric() else "lb"
