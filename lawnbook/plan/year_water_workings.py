"""How each figure of a zone's year of water came about: of the plan, the old habit, the full plan.

Each is found by its key (`YEAR_KEYS`, or a month). The formula tells what the ledger of the year
summed up or counted; what would change it is the whole year reckoned anew (`plan/year_anew.py`).
"""

from collections.abc import Callable, Iterable
from datetime import date

from lawnbook.agronomy.units import SQFT_IN_TO_GAL
from lawnbook.frozen import dataclass
from lawnbook.plan.filled_in import by_function, numbered, put_in
from lawnbook.plan.root_days import capacity_in
from lawnbook.plan.run_workings import GALLONS_OF_AN_INCH, Named, cost_workings
from lawnbook.plan.season import month_in_full
from lawnbook.plan.water_model import YearWater
from lawnbook.plan.working_model import DAY, Input, Reckoning, Working
from lawnbook.plan.workings import counted, given, sources, told
from lawnbook.plan.year_anew import YearAnew, year_anew
from lawnbook.plan.year_keys import Way
from lawnbook.plan.zone_facts import facts_of, setting_of
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook, as_of

_BY_LEDGER = tr("by the ledger of the year, day by day")
_SOURCES = ("fao56", "ia-schedule", "thatch-water")


@dataclass(frozen=True, slots=True)
class _Told:
    """A figure of the year: its label and value, the formula in words, the parts put into it."""

    label: str
    value: str
    formula: str
    filled: str
    parts: tuple[Input, ...] = ()
    sources: tuple[str, ...] = _SOURCES


def year_figure_workings(
    notebook: Notebook, on: date, zone_id: str, way: Way, keys: Iterable[str]
) -> tuple[Working, ...]:
    """The workings of some figures of a zone's year; a month's gallons by its number, "4".

    Those that there are not, such as a cost without a price, are left out.
    """
    setting = setting_of(as_of(notebook, on), on)
    zone = setting.notebook.zones.get(zone_id)
    if zone is None:
        return ()
    facts = facts_of(setting, zone, 1 + list(setting.notebook.zones).index(zone_id))
    year = year_anew(setting, facts, way)
    water = None if year is None else year.as_it_is
    if year is None or water is None:
        return ()
    figures = _YearFigures(year, water)
    found = (figures.of(key) for key in keys)
    return tuple(each for each in found if each is not None)


@dataclass(frozen=True, slots=True)
class _YearFigures:
    """The figures of one year under one way of watering."""

    year: YearAnew
    water: YearWater

    def of(self, key: str) -> Working | None:
        """A figure by its key; None of one that there is not."""
        if key.isdigit():
            return self._month(int(key))
        if key == "cost":
            named = Named(
                self._figure("cost"),
                self._label(tr("price of the year's water")),
                tr("worked out: water of the year"),
            )
            found = cost_workings(self.year.setting, named, self.water.gallons, self.water.cost)
            return next(found, None)
        made: Callable[[], Working] = getattr(self, f"_{key}")
        return made()

    def _figure(self, key: str) -> str:
        return f"year_{self.year.way}_{key}"

    def _label(self, label: str) -> str:
        """The figure's name after that of the way of watering."""
        ways = {"plan": tr("Plan"), "habit": tr("Old habit"), "full": tr("No dry year")}
        return f"{ways[self.year.way]}: {label}"

    def _made(self, key: str, said: _Told, reckoning: Reckoning) -> Working:
        return Working(
            self._figure(key),
            self._label(said.label),
            said.value,
            said.formula,
            said.filled,
            (*said.parts, *self.year.inputs()),
            sources(*said.sources),
            reckoning,
        )

    def _waterings(self) -> Working:
        said = _Told(
            tr("waterings of the year"),
            str(self.water.waterings),
            self._rule(),
            tr("{count} counted", count=self.water.waterings),
        )
        anew = self.year.anew(lambda water: float(water.waterings))
        return self._made("waterings", said, by_function(anew, "", 0))

    def _rule(self) -> str:
        """On which days this way waters, and how much."""
        if self.year.way == "habit":
            return tr(
                "days a week ÷ 7 × days of the season, in whole waterings; each puts down "
                "minutes × precipitation rate ÷ 60"
            )
        return tr(
            "days on which the rule lets water begin and the day would use up what may be used up; "
            "each refills what is used up by its dawn"
        )

    def _gallons(self) -> Working:
        return self._water_told(
            "gallons",
            tr("water of the year"),
            self.water.gross_in,
            self.water.gallons,
            self.year.anew(lambda water: water.gallons),
        )

    def _month(self, month: int) -> Working:
        gallons = self.water.gallons_by_month[month - 1]
        area = self.year.facts.area_sqft
        label = tr("water of {month}", month=month_in_full(month))
        return self._water_told(
            f"month_{month}",
            label,
            gallons / (area * SQFT_IN_TO_GAL),
            gallons,
            self.year.anew(lambda water: water.gallons_by_month[month - 1]),
        )

    def _water_told(
        self,
        key: str,
        label: str,
        gross_in: float,
        gallons: float,
        anew: Callable[..., float],
    ) -> Working:
        put = numbered(
            given(tr("Put down"), told(gross_in, 2, "in"), _BY_LEDGER), "gross", gross_in, "in"
        )
        area = next(each for each in self.year.inputs() if _is(each, "area"))
        said = _Told(
            label,
            told(gallons, 0, "gal"),
            tr("put down × area × {constant}", constant=GALLONS_OF_AN_INCH),
            put_in(f"{{gross}} × {{area:0}} × {GALLONS_OF_AN_INCH}", (put, area)),
            (_bare(put),),
            ("fao56", "rate-constant"),
        )
        return self._made(key, said, by_function(anew, "gal", 0))

    def _gross(self) -> Working:
        said = _Told(
            tr("put down in the year"),
            told(self.water.gross_in, 1, "in"),
            tr("sum of the year's waterings, each net depth × run-time multiplier"),
            counted(self.water.waterings, "watering"),
        )
        anew = self.year.anew(lambda water: water.gross_in)
        return self._made("gross", said, by_function(anew, "in", 1))

    def _parts(self) -> tuple[Input, ...]:
        """What was put down, and what of it ran off or stayed in the thatch."""
        return (
            _inches("gross", tr("Put down in the year"), self.water.gross_in),
            _inches("runoff", tr("Runs off"), self.water.runoff_in),
            _inches("kept", tr("Kept by the thatch"), self.water.kept_by_thatch_in),
        )

    def _wets(self) -> Working:
        parts = self._parts()
        said = _Told(
            tr("wets the soil below the thatch"),
            told(self.water.wets_soil_in, 1, "in"),
            tr("put down − run off − kept by the thatch"),
            put_in("{gross} − {runoff} − {kept}", parts),
            tuple(map(_bare, parts)),
        )
        anew = self.year.anew(lambda water: water.wets_soil_in)
        return self._made("wets", said, by_function(anew, "in", 1))

    def _per_inch(self) -> Working | None:
        if self.water.gross_in <= 0:
            return None
        parts = (
            _inches("wets", tr("Wets the soil"), self.water.wets_soil_in),
            self._parts()[0],
        )
        said = _Told(
            tr("wets the soil, of each inch or mm put down"),
            told(_share(self.water), 2),
            tr("what wets the soil below the thatch ÷ put down"),
            put_in("{wets} ÷ {gross}", parts),
            tuple(map(_bare, parts)),
        )
        return self._made("per_inch", said, by_function(self.year.anew(_share), ""))

    def _kept(self) -> Working:
        said = _Told(
            tr("kept by the thatch"),
            told(self.water.kept_by_thatch_in, 1, "in"),
            tr("sum over the days: what the thatch took of what came, the share of the watering"),
            "",
        )
        anew = self.year.anew(lambda water: water.kept_by_thatch_in)
        return self._made("kept", said, by_function(anew, "in", 1))

    def _runoff(self) -> Working:
        said = _Told(
            tr("runs off"),
            told(self.water.runoff_in, 1, "in"),
            tr("sum over the waterings: what intake and surface do not take in the run's time"),
            "",
            (),
            ("ia-schedule",),
        )
        anew = self.year.anew(lambda water: water.runoff_in)
        return self._made("runoff", said, by_function(anew, "in", 1))

    def _drained(self) -> Working:
        said = _Told(
            tr("drained past the roots, rain too"),
            told(self.water.drained_in, 1, "in"),
            tr("sum over the days: what reached the soil beyond what the rooted soil holds"),
            "",
            (),
            ("fao56",),
        )
        anew = self.year.anew(lambda water: water.drained_in)
        return self._made("drained", said, by_function(anew, "in", 1))

    def _stress(self) -> Working:
        said = _Told(
            tr("days short of water"),
            counted(self.water.stress_days, "day"),
            tr("days of growth whose evening has used up more of the roots' water than FAO-56's p"),
            "",
            (),
            ("fao56",),
        )
        anew = self.year.anew(lambda water: float(water.stress_days))
        return self._made("stress", said, by_function(anew, DAY, 0))

    def _driest(self) -> Working:
        held, share = capacity_in(self.year.facts), self.water.driest_share_used
        parts = (
            _inches("most", tr("Used up on the driest day"), share * held),
            _inches("held", tr("Held by the rooted soil"), held),
        )
        said = _Told(
            tr("roots’ water used up, driest day"),
            told(100 * share, 0, "%"),
            tr("most used up on an evening of the year ÷ what the rooted soil holds × 100"),
            put_in("{most} ÷ {held} × 100", parts),
            tuple(map(_bare, parts)),
            ("fao56",),
        )
        anew = self.year.anew(lambda water: 100 * water.driest_share_used)
        return self._made("driest", said, by_function(anew, "%", 0))


def _share(water: YearWater) -> float:
    return water.wets_soil_in / water.gross_in if water.gross_in > 0 else float("nan")


def _inches(symbol: str, name: str, depth_in: float) -> Input:
    return numbered(given(name, told(depth_in, 2, "in"), _BY_LEDGER), symbol, depth_in, "in")


def _bare(each: Input) -> Input:
    """An input that follows from others, which are changed in its stead."""
    return given(each.name, each.value, each.origin)


def _is(each: Input, symbol: str) -> bool:
    return each.quantity is not None and each.quantity.symbol == symbol
