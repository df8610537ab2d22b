"""The year's water in words: plan and old habit, and what a dry year saves and costs."""

from collections.abc import Iterator

from lawnbook.plan.month_water import cost_of
from lawnbook.plan.water_model import YearWater
from lawnbook.plan.workings import counted, told
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import is_metric, tr


def year_words(
    setting: Setting,
    basis: str,
    plan: YearWater,
    habit: YearWater | None,
    full: YearWater | None,
    *,
    rooting: bool = False,
) -> str:
    """A few sentences, the saving first; turf that is `rooting` is reckoned as it will be."""
    sentences = [_compared(setting, basis, plan, habit)]
    if habit is not None and habit.gross_in and plan.gross_in:
        sentences.append(_reaches_soil(plan, habit))
    if full is not None:
        sentences += _dry_year(setting, plan, full)
    if setting.rules.hours:
        sentences.append(tr("The days of your rule are kept to here, its hours are not."))
    if rooting:
        sentences.append(tr("New turf is reckoned as if it had rooted."))
    return " ".join(sentences)


def _compared(setting: Setting, basis: str, plan: YearWater, habit: YearWater | None) -> str:
    takes = tr(
        "In {basis}, the plan takes {gal} in {times}",
        basis=basis,
        gal=_gal(plan.gallons),
        times=_times(plan),
    )
    if habit is None:
        return f"{takes}{_money(setting, plan.gallons, ': ')}."
    less = habit.gallons - plan.gallons
    money = _money(setting, abs(less), ", ")
    return tr(
        "{takes}, your old habit {gal} in {times}: {difference} less{money}."
        if less >= 0
        else "{takes}, your old habit {gal} in {times}: {difference} more{money}.",
        takes=takes,
        gal=_gal(habit.gallons),
        times=_times(habit),
        difference=_gal(abs(less)),
        money=money,
    )


def _reaches_soil(plan: YearWater, habit: YearWater) -> str:
    shares = (each.wets_soil_in / each.gross_in for each in (plan, habit))
    if is_metric():
        each, (of_plan, of_habit) = "mm", (told(share, 2) + " mm" for share in shares)
    else:
        each, (of_plan, of_habit) = tr("inch"), (told(share, 2, "in") for share in shares)
    return tr(
        "Of each {each} the habit puts down {of_habit} wets the soil below the thatch, "
        "of the plan's {of_plan}.",
        each=each,
        of_habit=of_habit,
        of_plan=of_plan,
    )


def _dry_year(setting: Setting, plan: YearWater, full: YearWater) -> Iterator[str]:
    days = plan.stress_days - full.stress_days
    saved = full.gallons - plan.gallons
    dormant = setting.notebook.yard.drought == "survival"
    what = tr("Let go dormant, the lawn") if dormant else tr("The dry year")
    more = (
        tr("{more_days} short of water", more_days=counted(days, "more day"))
        if days > 0
        else tr("no more days of stress")
    )
    yield tr(
        "{what} takes {gal} less than the full plan, at {more}.",
        what=what,
        gal=_gal(saved),
        more=more,
    )


def _times(year: YearWater) -> str:
    return counted(year.waterings, "watering")


def _gal(gallons: float) -> str:
    return told(gallons, 0, "gal")


def _money(setting: Setting, gallons: float, before: str) -> str:
    cost = cost_of(setting, gallons)
    return "" if cost is None else before + tr("{money} at your price", money=told(cost))
