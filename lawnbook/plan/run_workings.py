"""The workings of single waterings and their sums: today's depletion, the next run, the year."""

from collections.abc import Iterator
from dataclasses import replace

from lawnbook.agronomy.units import SQFT_IN_TO_GAL
from lawnbook.agronomy.water_balance import watering_depth_in
from lawnbook.frozen import dataclass
from lawnbook.plan.filled_in import numbered, put_in, reckons
from lawnbook.plan.ledger import Ledger
from lawnbook.plan.model import MonthWater
from lawnbook.plan.month_water import etc_in_per_day, water_today
from lawnbook.plan.next_run import dawn_and_dusk_in
from lawnbook.plan.root_days import capacity_in, thatch_holding_input
from lawnbook.plan.water_model import NextRun, ZoneYear
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import (
    chosen,
    cycle_minutes_told,
    given,
    run_minutes_told,
    sources,
    told,
)
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr
from lawnbook.yard.numbers import day, short_day


@dataclass(frozen=True, slots=True)
class Named:
    """A figure that is worked out the same way in several places: its key and its label.

    `rests_on` says where its depth or its water comes from.
    """

    figure: str
    label: str
    rests_on: str


GALLONS_OF_AN_INCH = f"{SQFT_IN_TO_GAL:.4f}"
"""The gallons of an inch on a square foot, as they are told in a formula."""

_DEPTH = tr("worked out: depth of a watering")
_NEXT_DEPTH = tr("worked out: depth of the next watering")
RUN = Named("run_minutes", tr("Run time"), _DEPTH)
GALLONS = Named("gallons", tr("Water of one watering"), _DEPTH)
COST = Named("cost", tr("Price of one watering"), tr("worked out: water of one watering"))
NEXT_MINUTES = Named("next_run_minutes", tr("Run time of the next watering"), _NEXT_DEPTH)
NEXT_GALLONS = Named("next_run_gallons", tr("Water of the next watering"), _NEXT_DEPTH)
NEXT_COST = Named("next_run_cost", tr("Price of the next watering"), tr("worked out: its water"))
YEAR_COST = Named(
    "year_cost", tr("Price of the year's water"), tr("worked out: the year as planned")
)


def set_minutes_working(
    facts: ZoneFacts, named: Named, depth: float, run: MonthWater | NextRun
) -> Working:
    """The run time of a watering, with the whole minutes that a timer is set to."""
    working = minutes_working(facts, named, depth, run.run_minutes or 0.0)
    whole, each = run_minutes_told(run), cycle_minutes_told(run)
    if whole is None or each is None or working.reckoning is None:
        return working
    cycles = run.cycles or 1
    apart = (f"{cycles} × {each} min", f"{each} min") if cycles > 1 else ()
    minutes = " × ".join((str(cycles), str(each))) if cycles > 1 else str(each)
    note = tr("Set on the timer as {minutes} min: whole minutes, rounded up.", minutes=minutes)
    reckoning = replace(working.reckoning, note=note)
    return replace(working, reckoning=reckoning, also=(f"{whole} min", *apart))


def minutes_working(facts: ZoneFacts, named: Named, depth: float, run: float) -> Working:
    """The run time of a net depth."""
    rate = facts.rate.in_per_h or 0.0
    formula = "60 × {depth} × {multiplier} ÷ {rate}"
    inputs = (
        _depth(named, depth),
        _multiplier(facts),
        numbered(
            given(tr("Precipitation rate"), told(rate, 2, "in/h"), facts.rate.origin),
            "rate",
            rate,
            "in/h",
        ),
    )
    return Working(
        named.figure,
        named.label,
        told(run, 1, "min"),
        tr("60 × depth × multiplier ÷ precipitation rate"),
        put_in(formula, inputs),
        inputs,
        sources("multiplier"),
        reckons(formula, "min", 1),
    )


def _depth(named: Named, depth: float) -> Input:
    return numbered(given(tr("Depth"), told(depth, 2, "in"), named.rests_on), "depth", depth, "in")


def _multiplier(facts: ZoneFacts) -> Input:
    told_of = given(
        tr("Run-time multiplier"),
        told(facts.multiplier),
        tr("worked out, {du_from}", du_from=_du_from(facts)),
    )
    return numbered(told_of, "multiplier", facts.multiplier)


def _du_from(facts: ZoneFacts) -> str:
    """Where the evenness is from that the multiplier follows from."""
    du = facts.rate.du_input
    return tr("DU_LQ {value}, {origin}", value=du.value, origin=du.origin)


def area_input(area_sqft: float, corners: int) -> Input:
    """A zone's area, with what it was measured on."""
    told_of = given(
        tr("Area"),
        told(area_sqft, 0, "sq ft"),
        tr("its outline, {corners} corners", corners=corners),
    )
    return numbered(told_of, "area", area_sqft, "sq ft")


def gallons_working(facts: ZoneFacts, named: Named, depth: float, gallons: float) -> Working:
    """The water of a net depth."""
    constant = GALLONS_OF_AN_INCH
    formula = tr("{{depth}} × {{multiplier}} × {{area:0}} × {constant}", constant=constant)
    inputs = (
        _depth(named, depth),
        _multiplier(facts),
        area_input(facts.area_sqft, len(facts.zone.outline_ft)),
    )
    return Working(
        named.figure,
        named.label,
        told(gallons, 0, "gal"),
        tr("depth × multiplier × area × {constant}", constant=constant),
        put_in(formula, inputs),
        inputs,
        sources("rate-constant"),
        reckons(exact_gallons(formula), "gal", 0),
    )


def exact_gallons(formula: str) -> str:
    """A formula with the gallons of an inch on a square foot in full, told with four digits."""
    return formula.replace(GALLONS_OF_AN_INCH, repr(SQFT_IN_TO_GAL))


def cost_workings(
    setting: Setting, named: Named, gallons: float, cost: float | None
) -> Iterator[Working]:
    """What so many gallons cost; nothing where no price is entered."""
    price = setting.notebook.yard.water_price_per_kgal
    if cost is None or price is None:
        return
    formula = "{gallons} × {price} ÷ 1,000"
    paid = given(tr("Price of 1,000 gal"), told(price), tr("entered under Yard"))
    water = given(tr("Water"), told(gallons, 0, "gal"), named.rests_on)
    inputs = (numbered(water, "gallons", gallons, "gal"), numbered(paid, "price", price))
    yield Working(
        named.figure,
        named.label,
        told(cost),
        tr("gallons × price of 1,000 gallons ÷ 1,000"),
        put_in(formula, inputs),
        inputs,
        sources(),
        reckons(formula),
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
    moved: tuple[Input, ...] = (
        _moved(
            "before", tr("Used up yesterday"), before, tr("by yesterday evening, by the ledger")
        ),
        _moved("into", tr("Into the soil"), into, tr("rain that counts and waterings, net")),
        _moved(
            "drawn", tr("Drawn from the soil"), drawn, tr("use of the day less what thatch gave")
        ),
        _moved("drained", tr("Drained below the roots"), drained, tr("more than the soil holds")),
    )
    formula = tr("used up yesterday − into the soil + drawn from it + drained")
    anew = "{before} − {into} + {drawn} + {drained}"
    if clipped:
        formula += tr(" − in soil the roots have left")
        anew += " − {clipped}"
        moved += (
            _moved("clipped", tr("In soil the roots have left"), clipped, tr("by the plugs")),
        )
    inputs = _of_today(facts, ledger, float(days.from_thatch_in[-1]), float(days.stress[-1]))
    yield Working(
        "depletion_in",
        tr("Used up by this evening"),
        told(ledger.depletion_in, 2, "in"),
        formula,
        put_in(anew, moved),
        (*moved, *inputs),
        sources("fao56", "thatch-water", *(["tr55"] if days.runoff_in[-1] else [])),
        reckons(anew, "in"),
    )


def _moved(symbol: str, name: str, inches: float, origin: str) -> Input:
    """A part of the ledger's line of a day."""
    return numbered(given(name, told(inches, 2, "in"), origin), symbol, inches, "in")


def next_run_workings(
    setting: Setting, facts: ZoneFacts, ledger: Ledger, run: NextRun
) -> Iterator[Working]:
    """Depth, minutes, gallons and price of the next watering.

    The depth of new or dormant turf is the day's own, and has its working there.
    """
    if water_today(setting, facts).rule == "deep":
        yield _next_depth(setting, facts, ledger, run)
    if run.run_minutes is not None:
        yield set_minutes_working(facts, NEXT_MINUTES, run.depth_in, run)
    yield gallons_working(facts, NEXT_GALLONS, run.depth_in, run.gallons)
    yield from cost_workings(setting, NEXT_COST, run.gallons, run.cost)


def year_workings(setting: Setting, facts: ZoneFacts, year: ZoneYear) -> Iterator[Working]:
    """Gallons, price, what wets the soil, and what is saved against the old habit."""
    plan, constant = year.plan, GALLONS_OF_AN_INCH
    put_down = _moved("gross", tr("Put down in the year"), plan.gross_in, year.basis)
    waterings = given(tr("Waterings"), str(plan.waterings), tr("ledger of the year, day by day"))
    area = area_input(facts.area_sqft, len(facts.zone.outline_ft))
    formula = tr("{{gross}} × {{area:0}} × {constant}", constant=constant)
    yield Working(
        "year_gallons",
        tr("Water of the year as planned"),
        told(plan.gallons, 0, "gal"),
        tr("put down × area × {constant}", constant=constant),
        put_in(formula, (put_down, area)),
        (put_down, waterings, area),
        sources("fao56", "rate-constant"),
        reckons(exact_gallons(formula), "gal", 0),
    )
    yield from cost_workings(setting, YEAR_COST, plan.gallons, plan.cost)
    yield _wets_soil(facts, year, put_down)
    yield from _saved(facts, year)


def _wets_soil(facts: ZoneFacts, year: ZoneYear, put_down: Input) -> Working:
    plan, formula = year.plan, "{gross} − {runoff} − {kept}"
    inputs = (
        put_down,
        _moved(
            "runoff", tr("Runs off"), plan.runoff_in, tr("cycles, intake and slope, by the ledger")
        ),
        _moved("kept", tr("Kept by the thatch"), plan.kept_by_thatch_in, tr("by the ledger")),
        thatch_holding_input(facts.zone),
    )
    return Working(
        "year_wets_soil_in",
        tr("Wets the soil below the thatch"),
        told(plan.wets_soil_in, 2, "in"),
        tr("put down − run off − kept by the thatch"),
        put_in(formula, inputs),
        inputs,
        sources("fao56", "ia-schedule", "thatch-water"),
        reckons(formula, "in"),
    )


def _saved(facts: ZoneFacts, year: ZoneYear) -> Iterator[Working]:
    habit = facts.zone.habit
    if year.habit is None or year.saved_gallons is None or habit is None:
        return
    before, after, formula = year.habit.gallons, year.plan.gallons, "{habit} − {plan}"
    of_habit = tr(
        "{minutes:g} min on {days_per_week:g} days a week, as entered",
        minutes=habit.minutes,
        days_per_week=habit.days_per_week,
    )
    would = given(tr("Under the old habit"), told(before, 0, "gal"), of_habit)
    planned = given(
        tr("As planned"), told(after, 0, "gal"), tr("worked out: water of the year as planned")
    )
    rate = facts.rate.in_per_h or 0.0
    inputs = (
        numbered(would, "habit", before, "gal"),
        numbered(planned, "plan", after, "gal"),
        given(tr("Precipitation rate"), told(rate, 2, "in/h"), facts.rate.origin),
    )
    yield Working(
        "year_saved_gallons",
        tr("Saved against the old habit"),
        told(year.saved_gallons, 0, "gal"),
        tr("water under the old habit − water as planned"),
        put_in(formula, inputs),
        inputs,
        sources("ia-schedule"),
        reckons(formula, "gal", 0),
    )


def _of_today(
    facts: ZoneFacts, ledger: Ledger, from_thatch_in: float, stress: float
) -> tuple[Input, ...]:
    """What came and was used today, and where the ledger began."""
    days, eto_from = ledger.recent.days, ledger.recent.eto_from[-1]
    rain = tr("as recorded, less slight rain and run-off")
    return (
        given(
            tr("Ledger"),
            tr("full on {starts}", starts=day(ledger.record.starts)),
            tr("first record"),
        ),
        given(
            tr("Water use"),
            told(float(days.etc_in[-1]), 3, "in"),
            tr("ETo {eto_from}", eto_from=eto_from),
        ),
        given(tr("Rain"), told(float(days.rain_in[-1]), 2, "in"), rain),
        given(
            tr("Watering, net"),
            told(float(days.irrigation_in[-1]), 2, "in"),
            tr("recorded, ÷ multiplier"),
        ),
        given(
            tr("From the thatch"),
            told(from_thatch_in, 2, "in"),
            tr("what it held of the day’s use"),
        ),
        thatch_holding_input(facts.zone),
        given(tr("Stress (Ks)"), told(stress), tr("1 where the grass is not short")),
    )


def _next_depth(setting: Setting, facts: ZoneFacts, ledger: Ledger, run: NextRun) -> Working:
    dawn, dusk = dawn_and_dusk_in(setting, ledger.reckoned_in, run.date)
    etc = etc_in_per_day(setting, facts, run.date.month) or 0.0
    planned = watering_depth_in(facts.target_in, facts.bearable_in, etc) if etc > 0 else 0.0
    share, capacity = setting.share_of_etc, capacity_in(facts)
    formula = tr("the greater of used up by dawn and the month's depth, as far as the day needs it")
    anew = "min(max({dawn}, min({planned}, {dusk})), {capacity})"
    inputs = [
        _moved(
            "dawn",
            tr("Used up by dawn"),
            dawn,
            tr("{date}, by the ledger", date=short_day(run.date)),
        ),
        _moved("dusk", tr("Used up by that evening"), dusk, tr("by the ledger, without water")),
        _moved(
            "planned", tr("Depth by the month"), planned, tr("days between waterings × water use")
        ),
        _moved(
            "capacity", tr("Held by the rooted soil"), capacity, tr("available water × rooted soil")
        ),
    ]
    if share != 1.0:
        formula = tr("share given in a dry year × ({formula})", formula=formula)
        anew = tr("{{share}} × {anew}", anew=anew)
        typed = setting.notebook.yard.drought_share is not None
        given_back = chosen(tr("Share given"), told(share), typed, tr("common practice"), "yard")
        inputs.append(numbered(given_back, "share", share))
    return Working(
        "next_run_depth_in",
        tr("Depth of the next watering"),
        told(run.depth_in, 2, "in"),
        formula,
        put_in(anew, inputs),
        tuple(inputs),
        sources("fao56"),
        reckons(anew, "in"),
    )
