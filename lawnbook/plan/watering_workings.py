"""How one watering and one day's rain came about: what of them the ledger counts."""

import math
from collections.abc import Mapping
from dataclasses import replace

from lawnbook.frozen import dataclass
from lawnbook.plan.filled_in import by_function, counted_in, numbered, put_in, reckons
from lawnbook.plan.root_days import net_depth_in, net_runoff_in
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import default, given, sources, told
from lawnbook.plan.zone_facts import ZoneFacts
from lawnbook.reading import tr
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Watering, WeatherDay


def counted_working(facts: ZoneFacts, watering: Watering, net_in: float) -> Working:
    """What of a watering is counted: its net depth, less what of it ran off."""
    lost = net_runoff_in(facts, net_in, watering.cycles)
    inputs = [*_put_down(facts, watering), _multiplier(facts)]
    if watering.depth_in is None:
        formula, words = "{run} × {rate} ÷ 60 ÷ {multiplier}", tr("run × rate ÷ 60 ÷ multiplier")
    else:
        formula, words = "{depth} ÷ {multiplier}", tr("depth in the can ÷ multiplier")
    if lost:
        formula, words = f"{formula} − {{lost}}", tr("{formula} − run off", formula=words)
        ran_off = given(
            tr("Ran off"), told(lost, 2, "in"), tr("cycles against intake, slope and rate, net")
        )
        inputs.append(numbered(ran_off, "lost", lost, "in"))
    filled = put_in(formula, inputs)
    if watering.cycles is not None:
        cycles = given(tr("Cycles"), str(watering.cycles), tr("entered with the watering"))
        inputs.append(counted_in(cycles, "cycles", float(watering.cycles)))
    # What runs off follows from the others: it is reckoned anew with them, and not changed itself.
    shown = tuple(_unnumbered(each) if _is(each, "lost") else each for each in inputs)
    return Working(
        f"watering_counted:{watering.id}",
        tr("Counted of the watering of {date}", date=day(watering.date)),
        told(net_in - lost, 2, "in"),
        words,
        filled,
        shown,
        sources("multiplier", *(["ia-schedule"] if lost else [])),
        by_function(_WateringAnew(facts, watering), "in"),
    )


def _put_down(facts: ZoneFacts, watering: Watering) -> tuple[Input, ...]:
    """What was entered: minutes at the zone's rate, or the depth that a can caught."""
    entered = tr("entered for {date}", date=day(watering.date))
    if watering.depth_in is not None:
        caught = given(tr("Depth in the can"), told(watering.depth_in, 2, "in"), entered)
        return (numbered(caught, "depth", watering.depth_in, "in"),)
    minutes, rate = watering.minutes or 0.0, facts.rate.in_per_h or 0.0
    run = given(tr("Run"), told(minutes, 1, "min"), entered)
    rate_told = given(tr("Precipitation rate"), told(rate, 2, "in/h"), facts.rate.origin)
    return (numbered(run, "run", minutes, "min"), numbered(rate_told, "rate", rate, "in/h"))


def _multiplier(facts: ZoneFacts) -> Input:
    du = facts.rate.du_input
    made = default if du.is_default else given
    origin = tr("worked out, DU_LQ {value}, {origin}", value=du.value, origin=du.origin)
    told_of = made(tr("Run-time multiplier"), told(facts.multiplier), origin)
    return numbered(told_of, "multiplier", facts.multiplier)


def _is(each: Input, symbol: str) -> bool:
    return each.quantity is not None and each.quantity.symbol == symbol


def _unnumbered(each: Input) -> Input:
    return replace(each, quantity=None)


@dataclass(frozen=True, slots=True)
class _WateringAnew:
    """What a watering counts for (in) from another run, rate, depth, multiplier or cycles."""

    facts: ZoneFacts
    watering: Watering

    def __call__(self, numbers: Mapping[str, float]) -> float:
        """Net of what runs off; NaN where no depth follows."""
        held, cycles = self.watering, self.watering.cycles
        facts = replace(
            self.facts,
            rate=replace(self.facts.rate, in_per_h=numbers.get("rate", self.facts.rate.in_per_h)),
            multiplier=numbers["multiplier"],
        )
        other = replace(
            held,
            minutes=numbers.get("run", held.minutes),
            depth_in=numbers.get("depth", held.depth_in),
        )
        net = net_depth_in(facts, other)
        if net is None:
            return math.nan
        runs = cycles if cycles is None else round(numbers.get("cycles", cycles))
        return net - net_runoff_in(facts, net, runs)


def rain_workings_of(held: WeatherDay | None) -> tuple[Working, ...]:
    """The rain that a day is reckoned with: the owner's gauge, or else the station's."""
    rain = None if held is None else held.gauge_in if held.gauge_in is not None else held.rain_in
    if held is None or rain is None:
        return ()
    by_gauge = held.gauge_in is not None
    origin = tr("read in your gauge") if by_gauge else tr("the station's, from a weather table")
    name = tr("In the gauge") if by_gauge else tr("At the station")
    inputs = [numbered(given(name, told(rain, 2, "in"), origin), "rain", rain, "in")]
    if by_gauge and held.rain_in is not None:
        aside = tr("not counted: the gauge goes before it")
        inputs.append(given(tr("At the station"), told(held.rain_in, 2, "in"), aside))
    return (
        Working(
            f"rain:{held.id}",
            tr("Rain of {date}", date=day(held.date)),
            told(rain, 2, "in"),
            tr("the gauge where it was read, else the station"),
            put_in("{rain}", inputs),
            tuple(inputs),
            sources(),
            reckons("{rain}", "in"),
        ),
    )
