"""How the figures of the tools came about: a spreader weighed, a sprayer measured, a tank mixed."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace

from lawnbook.frozen import dataclass
from lawnbook.plan.calibration import setting_number, spreader_advice
from lawnbook.plan.calibration_tank import folded
from lawnbook.plan.feed_model import SpreaderAdvice, TankPlan
from lawnbook.plan.filled_in import by_function, numbered, put_in, reckons
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import given, sources
from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT, told, told_small
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.numbers import day
from lawnbook.yard.records import SprayerRun, SpreaderRun


def spreader_run_workings(run: SpreaderRun) -> tuple[Working, ...]:
    """The rate of a spreader at the setting of a run; none where nothing was measured."""
    if not run.strip_ft or not run.width_ft:
        return ()
    origin = tr("run of {spreader}, {day}", spreader=run.spreader, day=day(run.date))
    inputs = (
        _amount("used", tr("Product lost"), (run.used_lb, 2, "lb"), origin),
        _amount("strip", tr("Length of the strip"), (run.strip_ft, 2, "ft"), origin),
        _amount("width", tr("From pass to pass"), (run.width_ft, 2, "ft"), origin),
    )
    formula = "{used} × 1,000 ÷ ({strip} × {width})"
    rate = run.used_lb * 1000 / (run.strip_ft * run.width_ft)
    return (
        Working(
            f"spreader_rate:{run.id}",
            tr("Product put down at setting {setting}", setting=run.setting),
            told_small(rate, 2, RATE_UNIT),
            tr("pounds lost × 1,000 ÷ (length × width of the strip)"),
            put_in(formula, inputs),
            inputs,
            sources("spreader-strip"),
            reckons(formula, RATE_UNIT),
        ),
    )


def setting_workings(notebook: Notebook, product_id: str, lb_per_1000: float) -> list[Working]:
    """The setting of each spreader that was weighed around a rate, on a line between two runs."""
    return [
        _setting(notebook, product_id, advice)
        for advice in spreader_advice(notebook, product_id, lb_per_1000)
        if advice.basis == "between"
    ]


def _setting(notebook: Notebook, product_id: str, advice: SpreaderAdvice) -> Working:
    runs = [
        each
        for each in notebook.spreader_runs.values()
        if each.product == product_id and folded(each.spreader) == folded(advice.spreader)
    ]
    wanted = advice.wanted_lb_per_1000
    typed = given(tr("Rate"), told_small(wanted, 2, RATE_UNIT), tr("typed above"))
    weighed = tuple(
        _amount(
            f"used{n}",
            tr("Product lost at setting {setting}", setting=each.setting),
            (each.used_lb, 2, "lb"),
            tr("run of {spreader}, {day}", spreader=each.spreader, day=day(each.date)),
        )
        for n, each in enumerate(runs)
    )
    return Working(
        f"spreader_setting:{folded(advice.spreader)}",
        tr("Setting of {spreader}", spreader=advice.spreader),
        advice.setting,
        tr(
            "lower setting + (rate − what it gave) × (higher − lower setting) ÷ "
            "(what the higher gave − what the lower gave)"
        ),
        "",
        (numbered(typed, "rate", wanted, RATE_UNIT), *weighed),
        sources("spreader-strip"),
        by_function(_SettingAnew(notebook, product_id, advice.spreader, tuple(runs)), ""),
    )


@dataclass(frozen=True, slots=True)
class _SettingAnew:
    """The setting for another rate, or from runs of which one lost more or less product."""

    notebook: Notebook
    product_id: str
    spreader: str
    runs: tuple[SpreaderRun, ...]

    def __call__(self, numbers: Mapping[str, float]) -> float:
        """As it is proposed; NaN where it is no number, or nothing lies around the rate."""
        changed = [replace(each, used_lb=numbers[f"used{n}"]) for n, each in enumerate(self.runs)]
        notebook = apply(self.notebook, put(self.notebook, "spreader_runs", *changed))
        found = spreader_advice(notebook, self.product_id, numbers["rate"], self.spreader)
        number = setting_number(found[0].setting) if found and found[0].fits else None
        return math.nan if number is None else number


def sprayer_run_workings(run: SprayerRun) -> tuple[Working, ...]:
    """What a tank of a sprayer covers; none where nothing was measured."""
    if not run.area_sqft or not run.used_gal or not run.tank_gal:
        return ()
    origin = tr("run of {sprayer}, {day}", sprayer=run.sprayer, day=day(run.date))
    inputs = (
        _amount("tank", tr("Tank"), (run.tank_gal, 2, "gal"), origin),
        _amount("used", tr("Water used"), (run.used_gal, 2, "gal"), origin),
        _amount("area", tr("Area sprayed"), (run.area_sqft, 0, "sq ft"), origin),
    )
    formula = "{tank} ÷ ({used} ÷ {area:0})"
    return (
        *_timed(run, run.tank_gal * run.area_sqft / run.used_gal, tr("A full tank lasts")),
        Working(
            f"tank_covers:{run.id}",
            tr("A full tank covers"),
            told(run.tank_gal * run.area_sqft / run.used_gal, 0, "sq ft"),
            tr("tank ÷ (water used ÷ area sprayed)"),
            put_in(formula, inputs),
            inputs,
            sources("sprayer-area"),
            reckons(formula, "sq ft", 0),
        ),
    )


def _timed(run: SprayerRun, ground_sqft: float, label: str) -> Iterator[Working]:
    """How long some ground takes at the walk of a run; nothing where that was not timed."""
    if run.seconds is None:
        return
    origin = tr("run of {sprayer}, {day}", sprayer=run.sprayer, day=day(run.date))
    inputs = (
        _amount("seconds", tr("Time it took"), (run.seconds, 0, "s"), origin),
        _amount("ground", tr("Ground to spray"), (ground_sqft, 0, "sq ft"), label),
        _amount("area", tr("Area sprayed"), (run.area_sqft, 0, "sq ft"), origin),
    )
    formula = "{seconds:0} × {ground:0} ÷ {area:0} ÷ 60"
    yield Working(
        f"spray_time:{label}",
        label,
        told(run.seconds * ground_sqft / run.area_sqft / 60, 1, "min"),
        tr("seconds of the run × ground ÷ area sprayed ÷ 60"),
        put_in(formula, inputs),
        inputs,
        sources("sprayer-area"),
        reckons(formula, "min", 1),
    )


def tank_workings(
    plan: TankPlan, run: SprayerRun, lb_per_1000: float, whole_sqft: float
) -> tuple[Working, ...]:
    """What a tank covers, how much of a product goes into a full one, how long the area takes."""
    area = tr("worked out: what a full tank covers")
    inputs = (
        _amount("rate", tr("Rate"), (lb_per_1000, 2, RATE_UNIT), tr("typed above")),
        _amount("covers", tr("A full tank covers"), (plan.covers_sqft, 0, "sq ft"), area),
    )
    formula = "{rate} × {covers:0} ÷ 1,000"
    dose = lb_per_1000 * plan.covers_sqft / 1000
    return (
        *sprayer_run_workings(run),
        *_timed(run, whole_sqft, tr("Time for the whole area")),
        Working(
            "tank_dose",
            tr("Product in a full tank"),
            told_small(dose, 2, "lb"),
            tr("rate × area that a tank covers ÷ 1,000"),
            put_in(formula, inputs),
            inputs,
            sources("sprayer-area"),
            reckons(formula, "lb"),
        ),
    )


def _amount(symbol: str, name: str, amount: tuple[float, int, str], origin: str) -> Input:
    value, places, unit = amount
    return numbered(given(name, told_small(value, places, unit), origin), symbol, value, unit)
