"""The workings of single waterings and their sums: today's depletion, the next run, the year."""

from collections.abc import Iterator

from lawnbook.agronomy.units import SQFT_IN_TO_GAL
from lawnbook.agronomy.water_balance import watering_depth_in
from lawnbook.frozen import dataclass
from lawnbook.plan.ledger import Ledger
from lawnbook.plan.month_water import etc_in_per_day, water_today
from lawnbook.plan.next_run import dawn_and_dusk_in
from lawnbook.plan.root_days import capacity_in, thatch_holding_input
from lawnbook.plan.water_model import NextRun, ZoneYear
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import chosen, given, sources, told, told_exactly
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.yard.numbers import day, short_day


@dataclass(frozen=True, slots=True)
class Named:
    """The key and the label of a figure that is worked out the same way in several places."""

    figure: str
    label: str


RUN = Named("run_minutes", "Run time")
GALLONS = Named("gallons", "Water of one watering")
COST = Named("cost", "Price of one watering")
NEXT_MINUTES = Named("next_run_minutes", "Run time of the next watering")
NEXT_GALLONS = Named("next_run_gallons", "Water of the next watering")
NEXT_COST = Named("next_run_cost", "Price of the next watering")
YEAR_COST = Named("year_cost", "Price of the year's water")


def minutes_working(facts: ZoneFacts, named: Named, depth: float, run: float) -> Working:
    """The run time of a net depth."""
    rate = facts.rate.in_per_h or 0.0
    return Working(
        named.figure,
        named.label,
        told(run, 1, "min"),
        "60 × depth × multiplier ÷ precipitation rate",
        f"60 × {told_exactly(depth)} × {told_exactly(facts.multiplier)} ÷ {told_exactly(rate)}",
        (
            given("Depth", told(depth, 2, "in"), "worked out"),
            given("Run-time multiplier", told(facts.multiplier), "worked out"),
            given("Precipitation rate", told(rate, 2, "in/h"), facts.rate.origin),
        ),
        sources("multiplier"),
    )


def gallons_working(facts: ZoneFacts, named: Named, depth: float, gallons: float) -> Working:
    """The water of a net depth."""
    area = told_exactly(facts.area_sqft, 0)
    constant = f"{SQFT_IN_TO_GAL:.4f}"
    return Working(
        named.figure,
        named.label,
        told(gallons, 0, "gal"),
        f"depth × multiplier × area × {constant}",
        f"{told_exactly(depth)} × {told_exactly(facts.multiplier)} × {area} × {constant}",
        (
            given("Depth", told(depth, 2, "in"), "worked out"),
            given("Run-time multiplier", told(facts.multiplier), "worked out"),
            given("Area", told(facts.area_sqft, 0, "sq ft"), "outline"),
        ),
        sources("rate-constant"),
    )


def cost_workings(
    setting: Setting, named: Named, gallons: float, cost: float | None
) -> Iterator[Working]:
    """What so many gallons cost; nothing where no price is entered."""
    price = setting.notebook.yard.water_price_per_kgal
    if cost is None or price is None:
        return
    yield Working(
        named.figure,
        named.label,
        told(cost),
        "gallons × price of 1,000 gallons ÷ 1,000",
        f"{told_exactly(gallons)} × {told_exactly(price)} ÷ 1,000",
        (
            given("Water", told(gallons, 0, "gal"), "worked out"),
            given("Price of 1,000 gal", told(price), "entered"),
        ),
        sources(),
    )


def depletion_workings(setting: Setting, facts: ZoneFacts, ledger: Ledger) -> Iterator[Working]:
    """The ledger's line of today; nothing where the day has no ETo."""
    days = ledger.levels.series()
    if not days.depletion_in.size:
        return
    before = float(days.depletion_in[-2]) if days.depletion_in.size > 1 else 0.0
    clipped, into = float(days.clipped_in[-1]), float(days.into_soil_in[-1])
    drawn = float(days.used_in[-1] - days.from_thatch_in[-1])
    drained = float(days.drained_in[-1])
    formula = "used up yesterday − into the soil + drawn from it + drained"
    filled = (
        f"{told_exactly(before)} − {told_exactly(into)} + {told_exactly(drawn)}"
        f" + {told_exactly(drained)}"
    )
    if clipped:
        formula += " − in soil the roots have left"
        filled += f" − {told_exactly(clipped)}"
    yield Working(
        "depletion_in",
        "Used up by this evening",
        told(ledger.depletion_in, 2, "in"),
        formula,
        filled,
        _of_today(facts, ledger, float(days.from_thatch_in[-1]), float(days.stress[-1])),
        sources("fao56", "thatch-water", *(["tr55"] if days.runoff_in[-1] else [])),
    )


def next_run_workings(
    setting: Setting, facts: ZoneFacts, ledger: Ledger, run: NextRun
) -> Iterator[Working]:
    """Depth, minutes, gallons and price of the next watering.

    The depth of new or dormant turf is the day's own, and has its working there.
    """
    if water_today(setting, facts).rule == "deep":
        yield _next_depth(setting, facts, ledger, run)
    if run.run_minutes is not None:
        yield minutes_working(facts, NEXT_MINUTES, run.depth_in, run.run_minutes)
    yield gallons_working(facts, NEXT_GALLONS, run.depth_in, run.gallons)
    yield from cost_workings(setting, NEXT_COST, run.gallons, run.cost)


def year_workings(setting: Setting, facts: ZoneFacts, year: ZoneYear) -> Iterator[Working]:
    """Gallons, price, what wets the soil, and what is saved against the old habit."""
    plan, constant = year.plan, f"{SQFT_IN_TO_GAL:.4f}"
    put_down = given("Put down in the year", told(plan.gross_in, 2, "in"), year.basis)
    yield Working(
        "year_gallons",
        "Water of the year as planned",
        told(plan.gallons, 0, "gal"),
        f"put down × area × {constant}",
        f"{told_exactly(plan.gross_in)} × {told_exactly(facts.area_sqft, 0)} × {constant}",
        (
            put_down,
            given("Waterings", str(plan.waterings), "ledger of the year, day by day"),
            given("Area", told(facts.area_sqft, 0, "sq ft"), "outline"),
        ),
        sources("fao56", "rate-constant"),
    )
    yield from cost_workings(setting, YEAR_COST, plan.gallons, plan.cost)
    yield Working(
        "year_wets_soil_in",
        "Wets the soil below the thatch",
        told(plan.wets_soil_in, 2, "in"),
        "put down − run off − kept by the thatch",
        f"{told_exactly(plan.gross_in)} − {told_exactly(plan.runoff_in)} − "
        f"{told_exactly(plan.kept_by_thatch_in)}",
        (put_down, thatch_holding_input(facts.zone)),
        sources("fao56", "ia-schedule", "thatch-water"),
    )
    habit = facts.zone.habit
    if year.habit is None or year.saved_gallons is None or habit is None:
        return
    yield Working(
        "year_saved_gallons",
        "Saved against the old habit",
        told(year.saved_gallons, 0, "gal"),
        "water under the old habit − water as planned",
        f"{told_exactly(year.habit.gallons)} − {told_exactly(plan.gallons)}",
        (
            given(
                "Old habit",
                f"{habit.minutes:g} min on {habit.days_per_week:g} days a week",
                "entered",
            ),
            given(
                "Precipitation rate", told(facts.rate.in_per_h or 0, 2, "in/h"), facts.rate.origin
            ),
        ),
        sources("ia-schedule"),
    )


def _of_today(
    facts: ZoneFacts, ledger: Ledger, from_thatch_in: float, stress: float
) -> tuple[Input, ...]:
    """What came and was used today, and where the ledger began."""
    days, eto_from = ledger.recent.days, ledger.recent.eto_from[-1]
    rain = "as recorded, less slight rain and run-off"
    return (
        given("Ledger", f"full on {day(ledger.record.starts)}", "first record"),
        given("Water use", told(float(days.etc_in[-1]), 3, "in"), f"ETo {eto_from}"),
        given("Rain", told(float(days.rain_in[-1]), 2, "in"), rain),
        given("Watering, net", told(float(days.irrigation_in[-1]), 2, "in"), "recorded"),
        given("From the thatch", told(from_thatch_in, 2, "in"), "worked out"),
        thatch_holding_input(facts.zone),
        given("Stress (Ks)", told(stress), "1 where the grass is not short"),
    )


def _next_depth(setting: Setting, facts: ZoneFacts, ledger: Ledger, run: NextRun) -> Working:
    dawn, dusk = dawn_and_dusk_in(setting, ledger.reckoned_in, run.date)
    etc = etc_in_per_day(setting, facts, run.date.month) or 0.0
    planned = watering_depth_in(facts.target_in, facts.bearable_in, etc) if etc > 0 else 0.0
    share, capacity = setting.share_of_etc, capacity_in(facts)
    formula = "the greater of used up by dawn and the month's depth, as far as the day needs it"
    filled = (
        f"min(max({told_exactly(dawn)}, min({told_exactly(planned)}, {told_exactly(dusk)})), "
        f"{told_exactly(capacity)})"
    )
    inputs = [
        given("Used up by dawn", told(dawn, 2, "in"), short_day(run.date)),
        given("Used up by that evening", told(dusk, 2, "in"), "without water"),
        given("Depth by the month", told(planned, 2, "in"), "worked out"),
        given("Held by the rooted soil", told(capacity, 2, "in"), "at most"),
    ]
    if share != 1.0:
        formula = f"share given in a dry year × ({formula})"
        filled = f"{told_exactly(share)} × {filled}"
        typed = setting.notebook.yard.drought_share is not None
        inputs.append(chosen("Share given", told(share), typed, "common practice"))
    return Working(
        "next_run_depth_in",
        "Depth of the next watering",
        told(run.depth_in, 2, "in"),
        formula,
        filled,
        tuple(inputs),
        sources("fao56"),
    )
