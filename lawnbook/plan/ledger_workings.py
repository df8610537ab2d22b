"""How a day of a zone's ledger came about: its use, what reached the ground, what is used up."""

from collections.abc import Iterator, Mapping
from datetime import date

from lawnbook.agronomy.root_zone import Day, Series, day_water, root_zone_levels
from lawnbook.agronomy.runoff import curve_number, rain_runoff_in
from lawnbook.frozen import dataclass
from lawnbook.plan.filled_in import by_function, numbered, put_in, reckons
from lawnbook.plan.ledger import stress_from_share
from lawnbook.plan.root_days import PastDays, past_days, thatch_holding_input
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import chosen, default, given, sources, told
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr
from lawnbook.yard.numbers import day

BY_LEDGER = tr("by the ledger")


def ledger_day_workings(setting: Setting, facts: ZoneFacts, that: date) -> tuple[Working, ...]:
    """The workings of one day of a zone's ledger; none of a day that it does not hold."""
    past = past_days(setting, facts)
    place = (that - past.starts).days
    if not 0 <= place < past.days.eto_in.size:
        return ()
    series = root_zone_levels(past.days, stress_from_share(facts)).series()
    return tuple(_LedgerDay(facts, past, series, place, that).workings())


@dataclass(frozen=True, slots=True)
class _LedgerDay:
    """A day of a ledger: its place among the days, and what became of their water."""

    facts: ZoneFacts
    past: PastDays
    series: Series
    place: int
    on: date

    @property
    def day(self) -> Day:
        """What came to the root zone, and what was asked of it."""
        days = self.past.days
        return Day(*(float(getattr(days, name)[self.place]) for name in Day._fields))

    @property
    def before(self) -> tuple[float, float]:
        """What was used up, and what the thatch held, the evening before (in)."""
        if not self.place:
            return 0.0, 0.0
        series, place = self.series, self.place - 1
        return float(series.depletion_in[place]), float(series.thatch_store_in[place])

    def workings(self) -> Iterator[Working]:
        """Use, what came, and what is used up by the evening."""
        yield self._use()
        if self.day.rain_in or self.day.irrigation_in:
            yield self._came()
        yield self._used_up()

    def _use(self) -> Working:
        facts, month, held = self.facts, self.on.month, self.day
        kc, micro, dormant = facts.kc_by_month[month - 1], facts.zone.microclimate, False
        dormant = not facts.etc_factors[month - 1] and kc * micro > 0
        inputs = (
            _eto(held.eto_in, self.past.eto_from[self.place], self.on),
            numbered(given("Kc", told(kc), tr("table by month")), "kc", kc),
            numbered(
                chosen(tr("Microclimate factor"), told(micro), micro != 1.0, tr("open ground")),
                "micro",
                micro,
            ),
        )
        formula = "{eto} × {kc} × {micro}"
        filled = put_in(formula, inputs)
        return Working(
            f"ledger_use:{self.on.isoformat()}",
            tr("Water use on {date}", date=day(self.on)),
            told(held.etc_in, 3, "in"),
            tr("ETo × Kc × microclimate, zero while dormant"),
            tr("{filled}, dormant: 0", filled=filled) if dormant else filled,
            inputs,
            sources("fao56", "uc-kc", "wucols", *(["dormancy"] if dormant else [])),
            reckons(f"{formula} × 0" if dormant else formula, "in", 3),
        )

    def _came(self) -> Working:
        held = self.day
        ignored = float(self.series.ignored_in[self.place])
        lost = float(self.series.runoff_in[self.place])
        slight = tr("under a fifth of the day's ETo, which evaporates again")
        inputs = (
            _inches("rain", tr("Rain"), held.rain_in, tr("gauge, or else the station")),
            _inches("water", tr("Watered"), held.irrigation_in, tr("net, for the drier half")),
            _inches("slight", tr("Too slight"), ignored, slight),
            _inches("lost", tr("Ran off"), lost, tr("heavy rain, and cycles too long, by soil")),
        )
        formula = "{rain} + {water} − {slight} − {lost}"
        came = held.rain_in - ignored + held.irrigation_in - lost
        return Working(
            f"ledger_came:{self.on.isoformat()}",
            tr("Reached thatch and soil on {date}", date=day(self.on)),
            told(came, 2, "in"),
            tr("rain + watered − too slight rain − run off"),
            put_in(formula, inputs),
            inputs,
            sources("fao56", "tr55"),
            by_function(_CameAnew(held, curve_number(self.facts.soil.name)), "in"),
        )

    def _used_up(self) -> Working:
        series, place = self.series, self.place
        before, store = self.before
        into, clipped = float(series.into_soil_in[place]), float(series.clipped_in[place])
        drawn, drained = float(series.from_soil_in[place]), float(series.drained_in[place])
        parts = [
            _inches("before", tr("Used up the evening before"), before, BY_LEDGER),
            _inches("into", tr("Into the soil"), into, tr("what came, less what thatch keeps")),
            _inches("drawn", tr("Drawn from the soil"), drawn, tr("use less what thatch gave")),
            _inches("drained", tr("Drained below the roots"), drained, BY_LEDGER),
        ]
        formula, filled = (
            tr("used up the evening before − into the soil + drawn from it + drained"),
            "{before} − {into} + {drawn} + {drained}",
        )
        if clipped:
            parts.append(
                _inches("clipped", tr("In soil the roots have left"), clipped, tr("by the plugs"))
            )
            formula, filled = (
                formula + tr(" − in soil the roots have left"),
                f"{filled} − {{clipped}}",
            )
        asked = _Parts(self.day, store, thatch_holding_input(self.facts.zone))
        # The parts follow from the rest, which is what is changed: they are told, without numbers.
        told_parts = [given(each.name, each.value, each.origin) for each in parts[1:]]
        return Working(
            f"ledger_depletion:{self.on.isoformat()}",
            tr("Used up by the evening of {date}", date=day(self.on)),
            told(float(series.depletion_in[place]), 2, "in"),
            formula,
            put_in(filled, parts),
            (parts[0], *told_parts, *asked.inputs()),
            sources("fao56", "thatch-water", "tr55"),
            by_function(_UsedUpAnew(self.day, store, stress_from_share(self.facts)), "in"),
        )


@dataclass(frozen=True, slots=True)
class _Parts:
    """What a day's line of the ledger is reckoned from besides the day before."""

    day: Day
    store_in: float
    holding: Input

    def inputs(self) -> tuple[Input, ...]:
        """Each with its number, so that the line can be reckoned anew from another."""
        held, thatch = self.day, self.holding
        keeps = default if thatch.is_default else given
        store = numbered(
            keeps(
                tr("Thatch can keep"),
                told(held.thatch_capacity_in, 2, "in"),
                tr("{value}, {origin}", value=thatch.value, origin=thatch.origin),
            ),
            "thatch",
            held.thatch_capacity_in,
            "in",
        )
        return (
            _inches("use", tr("Water use"), held.etc_in, tr("worked out: use of the day")),
            _inches("rain", tr("Rain"), held.rain_in, tr("gauge, or else the station")),
            _inches("water", tr("Watered"), held.irrigation_in, tr("net, for the drier half")),
            _inches("reach", tr("Within reach of the roots"), held.capacity_in, tr("by the plugs")),
            _inches("store", tr("In the thatch the evening before"), self.store_in, BY_LEDGER),
            store,
        )


@dataclass(frozen=True, slots=True)
class _UsedUpAnew:
    """What is used up by a day's evening (in), the day reckoned anew."""

    day: Day
    store_in: float
    p: float

    def __call__(self, numbers: Mapping[str, float]) -> float:
        """By the ledger's own step from one day to the next."""
        changed = self.day._replace(
            etc_in=numbers["use"],
            rain_in=numbers["rain"],
            irrigation_in=numbers["water"],
            capacity_in=numbers["reach"],
            thatch_capacity_in=numbers["thatch"],
        )
        return day_water(numbers["before"], numbers["store"], changed, self.p).depletion_in


@dataclass(frozen=True, slots=True)
class _CameAnew:
    """What reaches thatch and soil (in) of other rain and another watering."""

    day: Day
    curve: float

    def __call__(self, numbers: Mapping[str, float]) -> float:
        """Rain runs off by its curve number; what ran off of the watering stays in proportion."""
        held = self.day
        of_rain = float(rain_runoff_in([held.rain_in], self.curve)[0])
        of_water = max(0.0, held.runoff_in - of_rain)
        share = of_water / held.irrigation_in if held.irrigation_in else 0.0
        rain, water = numbers["rain"], numbers["water"]
        lost = float(rain_runoff_in([rain], self.curve)[0]) + share * water
        changed = held._replace(rain_in=rain, irrigation_in=water, runoff_in=lost)
        found = day_water(0.0, 0.0, changed, 0.5)
        return rain - found.ignored_in + water - found.runoff_in


def _eto(eto_in: float, method: str, on: date) -> Input:
    filled = method == "filled"
    made, origin = (
        (default, tr("the month's mean, where the day has none"))
        if filled
        else (given, tr("{date}, {method}", date=day(on), method=tr(method)))
    )
    return numbered(made("ETo", told(eto_in, 3, "in"), origin), "eto", eto_in, "in")


def _inches(symbol: str, name: str, depth_in: float, origin: str) -> Input:
    return numbered(given(name, told(depth_in, 2, "in"), origin), symbol, depth_in, "in")
