"""A zone's year of water from other numbers: the same days, with one of their inputs changed.

The year is reckoned anew by the functions that gave it (`plan/year_water.py`), day by day, so that
what an input does to a figure is a true re-reckoning. Nothing is reckoned before it is asked for.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial

from lawnbook.agronomy.runoff import curve_number, rain_runoff_in
from lawnbook.agronomy.water_balance import bearable_depth_in
from lawnbook.frozen import dataclass
from lawnbook.plan.filled_in import class_in, counted_in, numbered, together
from lawnbook.plan.root_days import capacity_in, thatch_capacity_in
from lawnbook.plan.run_workings import area_input
from lawnbook.plan.water_model import YearWater
from lawnbook.plan.water_workings import textures_beside
from lawnbook.plan.working_model import DAY, Anew, Input
from lawnbook.plan.workings import given, told
from lawnbook.plan.year_days import YearDays, year_days
from lawnbook.plan.year_keys import Way
from lawnbook.plan.year_water import DAYS_A_WEEK, water_of_way
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr
from lawnbook.yard.numbers import plain


@dataclass(frozen=True, slots=True, eq=False)
class YearAnew:
    """The year of a zone under one way of watering, and what it rests on."""

    setting: Setting
    facts: ZoneFacts
    way: Way
    year: YearDays

    @property
    def as_it_is(self) -> YearWater | None:
        """The year from the numbers as they are; None where this way is not known."""
        return water_of_way(self.setting, self.facts, self.year, self.way)

    def inputs(self) -> tuple[Input, ...]:
        """What the year rests on: roots, soil, sprinklers, use and rain; of a habit its minutes."""
        facts, listed = self.facts, list(self._of_the_ground())
        if self.way == "habit":
            listed = [*self._of_the_habit(), *listed]
        else:
            bears = facts.depletion_input
            listed += [
                numbered(bears, "depletion", facts.depletion),
                numbered(facts.target_input, "target", facts.target_in, "in"),
            ]
        return tuple(listed)

    def anew(self, figure: Callable[[YearWater], float]) -> Anew:
        """The function that reckons a figure of the year from other numbers of its inputs."""
        return partial(self._from, figure)

    def _from(self, figure: Callable[[YearWater], float], numbers: Mapping[str, float]) -> float:
        if numbers.get("times", 0.0) > DAYS_A_WEEK:
            return math.nan
        facts = _facts_from(self.facts, numbers)
        water = water_of_way(self.setting, facts, self._year_from(facts, numbers), self.way)
        return math.nan if water is None else figure(water)

    def _year_from(self, facts: ZoneFacts, numbers: Mapping[str, float]) -> YearDays:
        """The same days with other use, rain and room in the root zone."""
        year, days, use = self.year, self.year.days, numbers["use"]
        rain, length = days.rain_in * numbers["rain"], days.rain_in.size
        held, thatch = capacity_in(facts), thatch_capacity_in(facts)
        return replace(
            year,
            days=replace(
                days,
                etc_in=days.etc_in * use,
                rain_in=rain,
                runoff_in=rain_runoff_in(rain, curve_number(facts.soil.name)),
                capacity_in=days.capacity_in * 0.0 + held,
                thatch_capacity_in=days.thatch_capacity_in * 0.0 + thatch,
            ),
            month_etc_in=tuple(each * use for each in year.month_etc_in),
            capacity_in=held if length else year.capacity_in,
        )

    def _of_the_habit(self) -> tuple[Input, ...]:
        habit, rate = self.facts.zone.habit, self.facts.rate
        if habit is None:
            return ()
        typed = tr("the old watering, as entered")
        minutes = given(tr("Minutes of a run"), told(habit.minutes, 0, "min"), typed)
        times = given(tr("Days a week"), plain(habit.days_per_week), typed)
        shown = told(rate.in_per_h or 0.0, 2, "in/h")
        put = given(tr("Precipitation rate"), shown, rate.origin)
        return (
            numbered(minutes, "minutes", habit.minutes, "min"),
            counted_in(times, "times", habit.days_per_week, DAY),
            numbered(put, "rate", rate.in_per_h or 0.0, "in/h"),
        )

    def _of_the_ground(self) -> tuple[Input, ...]:
        facts, basis = self.facts, self.year.basis
        multiplier = given(tr("Run-time multiplier"), told(facts.multiplier), tr("worked out"))
        held = facts.soil.available_water_in_per_in
        texture = tr("table, {name}", name=tr(facts.soil.name))
        water = given(tr("Available water"), told(held, 2, "in/in"), texture)
        use = given(
            tr("Water use of all days"), told(1.0), tr("1 is as reckoned: {basis}", basis=basis)
        )
        rain = given(
            tr("Rain of all days"), told(1.0), tr("1 is as reckoned: {basis}", basis=basis)
        )
        return (
            numbered(multiplier, "multiplier", facts.multiplier),
            area_input(facts.area_sqft, len(facts.zone.outline_ft)),
            numbered(facts.roots.root_input, "roots", facts.roots.root_depth_in, "in"),
            numbered(facts.roots.thatch_input, "thatch", facts.roots.thatch_in, "in"),
            class_in(water, "aw", held, textures_beside(facts.soil)),
            together(use, "use"),
            together(rain, "rain"),
        )


def year_anew(setting: Setting, facts: ZoneFacts, way: Way) -> YearAnew | None:
    """The year of a zone under a way of watering; None where there is no such year."""
    if not facts.zone.irrigated or facts.allowance_in <= 0:
        return None
    year = year_days(setting, facts)
    return None if year is None else YearAnew(setting, facts, way, year)


def _facts_from(facts: ZoneFacts, numbers: Mapping[str, float]) -> ZoneFacts:
    """A zone's facts from other numbers, what follows from them reckoned along."""
    roots, thatch = numbers["roots"], numbers["thatch"]
    rooted = max(0.0, roots - thatch)
    soil = replace(facts.soil, available_water_in_per_in=numbers["aw"])
    depletion = numbers.get("depletion", facts.depletion)
    habit, rate = facts.zone.habit, numbers.get("rate", facts.rate.in_per_h)
    if habit is not None and "minutes" in numbers:
        habit = replace(habit, minutes=numbers["minutes"], days_per_week=numbers["times"])
    return replace(
        facts,
        zone=replace(facts.zone, habit=habit),
        area_sqft=numbers["area"],
        rate=replace(facts.rate, in_per_h=rate),
        multiplier=numbers["multiplier"],
        soil=soil,
        depletion=depletion,
        roots=replace(facts.roots, root_depth_in=roots, thatch_in=thatch, rooted_soil_in=rooted),
        bearable_in=bearable_depth_in(depletion, numbers["aw"], rooted),
        target_in=numbers.get("target", facts.target_in),
    )
