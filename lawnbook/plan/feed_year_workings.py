"""How each figure of a zone's year of nitrogen came about: of the year, and month by month.

`FeedYear` holds a zone's feed on a day; each of its figures is worked out when it is asked for.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date

from lawnbook.agronomy.nitrogen import n_year
from lawnbook.agronomy.seasons import by_calendar_month
from lawnbook.frozen import dataclass
from lawnbook.plan.feed_budget import budget_told
from lawnbook.plan.feed_ledger import ZoneFeed, feeds_of
from lawnbook.plan.feed_model import ReleaseCurve, Released
from lawnbook.plan.filled_in import numbered, put_in, reckons
from lawnbook.plan.model import ZoneNitrogen
from lawnbook.plan.nitrogen_workings import (
    budget_month_working,
    growth_working,
    rated,
    rates_of_months,
    sum_of,
    usable_working,
)
from lawnbook.plan.release import release_of, released_of
from lawnbook.plan.season import month_in_full
from lawnbook.plan.warm_days import months_of
from lawnbook.plan.water_nitrogen import WATER
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import given, rate_told, sources, told
from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.numbers import day

_MIDDLE = 15
_PLAN_KEYS = {
    "applied": "applied_year",
    "water": "water_year",
    "left": "left_this_year",
    "left_month": "left_this_month",
}
"""Figures of the year that are among a zone's own workings."""


@dataclass(frozen=True, slots=True, eq=False)
class FeedYear:
    """A zone's feed on a day, with what becomes available of it."""

    feed: ZoneFeed
    zone: ZoneNitrogen
    curve: ReleaseCurve
    released: Released
    on: date

    def rate(self, key: str) -> Working | None:
        """A figure of the year: "budget", "applied", "water", "left" or "left_month"."""
        if key == "budget":
            return self._budget_year()
        return next((w for w in self.zone.workings if w.figure == _PLAN_KEYS[key]), None)

    def in_all(self, key: str) -> Working | None:
        """The same in pounds on the whole zone."""
        rate = self.rate(key)
        return (
            None
            if rate is None
            else pounds_working(
                f"{rate.figure}_lb",
                tr("{figure}, in all", figure=rate.label),
                [(self.zone.zone, _rate_of(self.zone, key), self.zone.area_sqft)],
            )
        )

    def month(self, month: int, column: str) -> Working | None:
        """A month's "applied", "released", "usable", "growth" or "budget"."""
        on = self._day_in(month)
        if column == "growth":
            found = next(growth_working(self.feed, on), None)
            return None if found is None else replace(found, also=(_share(self.released, month),))
        if column == "usable":
            usable = self.released.usable_by_month
            return None if usable is None else usable_working(self.feed, self.released, usable, on)
        made = {"applied": self._put_down, "released": self._available, "budget": self._budget}
        return made[column](month)

    def year(self, column: str) -> Working | None:
        """The year's sum of "applied", "released" or "usable"."""
        usable = self.released.usable_by_month
        if column == "usable":
            return None if usable is None else _sum_of_months(usable)
        wanted = "applied_year" if column == "applied" else "released_year"
        return next((w for w in self.zone.workings if w.figure == wanted), None)

    def to_come(self) -> Working:
        """What is down and not yet available: each feeding's rest."""
        past = (self.on - self.curve.start).days + 1
        rests = [each.after_lb + sum(each.daily_lb[past:]) for each in self.curve.layers]
        return self._of_layers(
            "to_come",
            tr("Down and still to come"),
            rests,
            tr("sum over what is down: put down − what became available of it so far"),
        )

    def told(self) -> tuple[Working, ...]:
        """What the sentence beneath the curve tells of."""
        month = self.on.month
        listed = (self.month(month, "released"), self.month(month, "usable"), self.to_come())
        return tuple(each for each in listed if each is not None)

    def _day_in(self, month: int) -> date:
        """The day that stands for a month of the budget's year."""
        start = n_year(self.on, self.feed.latitude_deg).start
        year = start.year if month >= start.month else start.year + 1
        return date(year, month, _MIDDLE)

    def _budget_year(self) -> Working:
        feed, budget = self.feed, self.feed.budget
        named, table, own = budget_told(budget.name), budget.table, feed.limits.year_lb
        inputs: tuple[Input, ...]
        if table is not None and feed.zone.annual_n_lb_per_1000 is None:
            low = rated("low", tr("Least of the year"), table.year_low, named)
            high = rated("high", tr("Most of the year"), table.year_high, named)
            formula, words, inputs = {
                "lean": ("{low}", tr("the table's least, for a lean year"), (low,)),
                "full": ("{high}", tr("the table's most, for a full year"), (high,)),
            }.get(
                feed.zone.budget_level,
                ("({low} + {high}) ÷ 2", tr("middle of the table's least and most"), (low, high)),
            )
        else:
            formula, words = "{typed}", tr("as entered")
            inputs = (rated("typed", tr("Budget of the year"), budget.year_lb, named),)
        if own is not None:
            formula = f"min({formula}, {{rule}})"
            words = tr("{words}, at most what your rule allows in a year", words=words)
            inputs = (*inputs, rated("rule", tr("Most in a year"), own, tr("by your rule")))
        return Working(
            "budget_year",
            tr("Budget of the year"),
            rate_told(feed.year_lb),
            words,
            put_in(formula, inputs),
            inputs,
            budget.year_source,
            reckons(formula, RATE_UNIT),
        )

    def _budget(self, month: int) -> Working:
        """A month's budget: by growth, by its share of the table's range, or as typed."""
        budget, named = self.feed.budget, budget_told(self.feed.budget.name)
        if budget.growth is not None and budget.growth_sum > 0:
            return budget_month_working(self.feed, budget.growth, self._day_in(month))
        name, lb = month_in_full(month), budget.by_month[month - 1]
        formula, words = "{typed}", tr("as entered in the table of months")
        inputs: tuple[Input, ...] = (rated("typed", name, lb, named),)
        if budget.table is not None:
            latitude = self.feed.latitude_deg
            low = by_calendar_month(budget.table.low, latitude)[month - 1]
            high = by_calendar_month(budget.table.high, latitude)[month - 1]
            share = (lb - low) / (high - low) if high > low else 0.0
            formula, words = (
                "{low} + {share} × ({high} − {low})",
                tr("least of the month + share of its range × (most − least)"),
            )
            of_all = tr("the same for all months: so that they add up to the year's budget")
            inputs = (
                rated("low", tr("Least of {name}", name=name), low, named),
                rated("high", tr("Most of {name}", name=name), high, named),
                numbered(given(tr("Share of the range"), told(share, 2), of_all), "share", share),
            )
        return Working(
            "budget_month",
            tr("Budget of {name}", name=name),
            rate_told(lb),
            words,
            put_in(formula, inputs),
            inputs,
            budget.source,
            reckons(formula, RATE_UNIT),
        )

    def _put_down(self, month: int) -> Working:
        """What was fed in a month, and what the water brought in it."""
        year = n_year(self.on, self.feed.latitude_deg)
        fed = [
            (day(each.date), each.n_lb, tr("feeding of {days}", days=day(each.date)))
            for each in self.feed.applications
            if year.start <= each.date <= year.end and each.date.month == month and each.n_lb > 0
        ]
        water = self.feed.water_by_month(self.on)[month - 1]
        if water > 0:
            fed.append((tr(WATER), water, tr("waterings recorded")))
        inputs = tuple(
            rated(f"p{place}", name, lb, origin) for place, (name, lb, origin) in enumerate(fed)
        )
        formula = sum_of(inputs)
        return Working(
            "applied_month",
            tr("Put down in {name}", name=month_in_full(month)),
            rate_told(self.zone.applied_by_month[month - 1]),
            tr("sum of what was put down in the month"),
            put_in(formula, inputs) if inputs else tr("nothing on record"),
            inputs,
            sources("n-arithmetic"),
            reckons(formula, RATE_UNIT),
        )

    def _available(self, month: int) -> Working:
        """What becomes available in a month: of each feeding the part of its days."""
        months = months_of(self.curve.start, self.curve.days)
        parts = [
            sum(lb for lb, of in zip(each.daily_lb, months.tolist(), strict=True) if of == month)
            for each in self.curve.layers
        ]
        label = tr("Becoming available in {name}", name=month_in_full(month))
        rule = tr("sum over what is down: the part of it that its days of the month free")
        return self._of_layers("released_month", label, parts, rule)

    def _of_layers(self, key: str, label: str, parts: Sequence[float], rule: str) -> Working:
        """A sum over what is down, each with its product and day."""
        inputs = tuple(
            rated(
                f"l{place}",
                tr(
                    "{product}, {date}",
                    product=tr(layer.product) if layer.kind == "water" else layer.product,
                    date=day(layer.date),
                ),
                lb,
                tr("of {rate} put down", rate=rate_told(layer.applied_lb)),
            )
            for place, (layer, lb) in enumerate(zip(self.curve.layers, parts, strict=True))
            if lb > 0
        )
        formula = sum_of(inputs)
        return Working(
            key,
            label,
            rate_told(sum(parts)),
            rule,
            put_in(formula, inputs) if inputs else tr("nothing on record"),
            inputs,
            self.released.source,
            reckons(formula, RATE_UNIT),
        )


def feed_year(notebook: Notebook, zone: ZoneNitrogen, on: date) -> FeedYear:
    """The feed of a zone of a plan on the plan's day."""
    known = as_of(notebook, on)
    areas = {each.id: zone_area_sqft(each) for each in known.zones.values()}
    feed = feeds_of(known, areas, on)[zone.zone_id]
    released = zone.released or released_of(known, feed, on)
    return FeedYear(feed, zone, release_of(notebook, zone.zone_id, on), released, on)


def lawn_working(zones: Iterable[ZoneNitrogen], key: str, *, in_all: bool) -> Working | None:
    """A figure of the year on the whole lawn: the zones' by their areas, or its pounds."""
    parts = [(each.zone, _rate_of(each, key), each.area_sqft) for each in zones]
    labels = {
        "budget": tr("budget of the year"),
        "applied": tr("put down this year"),
        "water": tr("by irrigation water"),
        "left": tr("left this year"),
        "left_month": tr("left this month"),
    }
    label = tr("Whole lawn: {figure}", figure=labels[key])
    if in_all:
        return pounds_working(f"lawn_{key}_lb", tr("{figure}, in all", figure=label), parts)
    inputs = _on_zones(parts)
    formula = f"({_weighed(parts)}) ÷ ({' + '.join(f'{{a{n}:0}}' for n in range(len(parts)))})"
    area = sum(sqft for _, _, sqft in parts)
    mean = sum(lb * sqft for _, lb, sqft in parts) / area
    return Working(
        f"lawn_{key}",
        label,
        rate_told(mean),
        tr("sum of each zone's rate × area ÷ sum of the areas"),
        put_in(formula, inputs),
        inputs,
        sources("n-arithmetic"),
        reckons(formula, RATE_UNIT),
    )


def pounds_working(figure: str, label: str, parts: Sequence[tuple[str, float, float]]) -> Working:
    """Pounds of nitrogen on zones: (name, lb per 1,000 sq ft, sq ft) of each."""
    inputs, formula = _on_zones(parts), f"({_weighed(parts)}) ÷ 1,000"
    pounds = sum(lb * sqft for _, lb, sqft in parts) / 1000
    return Working(
        figure,
        label,
        told(pounds, 2, "lb"),
        tr("sum of each zone's rate × area ÷ 1,000"),
        put_in(formula, inputs),
        inputs,
        sources("n-arithmetic"),
        reckons(formula, "lb"),
    )


def _on_zones(parts: Sequence[tuple[str, float, float]]) -> tuple[Input, ...]:
    """The rate and the area of each zone."""
    listed: list[Input] = []
    for number, (zone, lb, sqft) in enumerate(parts):
        listed.append(rated(f"z{number}", zone, lb, tr("worked out for the zone")))
        area = tr("Area of {zone}", zone=zone)
        of_outline = given(area, told(sqft, 0, "sq ft"), tr("its outline"))
        listed.append(numbered(of_outline, f"a{number}", sqft, "sq ft"))
    return tuple(listed)


def _weighed(parts: Sequence[tuple[str, float, float]]) -> str:
    return " + ".join(f"{{z{n}}} × {{a{n}:0}}" for n in range(len(parts))) or "0"


def _rate_of(zone: ZoneNitrogen, key: str) -> float:
    """A figure of the year, lb per 1,000 sq ft."""
    return {
        "budget": zone.budget_year,
        "applied": zone.applied_year,
        "water": sum(zone.water_by_month),
        "left": zone.left_this_year,
        "left_month": zone.left_this_month,
    }[key]


def _share(released: Released, month: int) -> str:
    return told(100 * (released.growth_by_month[month - 1] or 0.0), 0, "%")


def _sum_of_months(usable: tuple[float, ...]) -> Working:
    months = rates_of_months(usable, lambda _: tr("budget of the year by growth"))
    formula = sum_of(months)
    return Working(
        "usable_year",
        tr("What growth can use in the year"),
        rate_told(sum(usable)),
        tr("sum of the months: the budget of the year, shared out by growth"),
        put_in(formula, months),
        months,
        sources("growth-potential"),
        reckons(formula, RATE_UNIT),
    )
