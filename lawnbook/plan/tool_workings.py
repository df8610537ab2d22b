"""How the figures of the tools came about: a spreader weighed, a sprayer measured, a tank mixed."""

from lawnbook.plan.feed_model import TankPlan
from lawnbook.plan.filled_in import numbered, put_in, reckons
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import given, sources
from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT, told, told_small
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


def tank_workings(plan: TankPlan, run: SprayerRun, lb_per_1000: float) -> tuple[Working, ...]:
    """What a tank covers and how much of a product goes into a full one."""
    area = tr("worked out: what a full tank covers")
    inputs = (
        _amount("rate", tr("Rate"), (lb_per_1000, 2, RATE_UNIT), tr("typed above")),
        _amount("covers", tr("A full tank covers"), (plan.covers_sqft, 0, "sq ft"), area),
    )
    formula = "{rate} × {covers:0} ÷ 1,000"
    dose = lb_per_1000 * plan.covers_sqft / 1000
    return (
        *sprayer_run_workings(run),
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
