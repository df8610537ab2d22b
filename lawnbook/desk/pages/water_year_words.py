"""A zone's year of water in words and rows: plan beside old habit, and what a dry year costs."""

from collections.abc import Iterable

from lawnbook.desk.pages.water_run_words import UNKNOWN, money
from lawnbook.desk.pages.water_words import volume_words
from lawnbook.desk.telling import captioned, either
from lawnbook.plan.water_model import YearWater, ZoneYear
from lawnbook.plan.workings import PERCENT, counted
from lawnbook.plan.year_keys import YEAR_KEYS, Way
from lawnbook.reading import tr
from lawnbook.yard.amounts import bare

Rows = tuple[tuple[str, tuple[str, ...]], ...]

DRY_HELP = tr(
    "With “less” the grass gets a share of its full use: type 0.6 for 60 % of it. "
    "With “survival” it is let go dormant and only kept alive. Orders of your "
    "water supplier come first."
)
NO_YEAR = tr("The year can be reckoned once there is weather, or a climate table, for its months.")
NOT_IRRIGATED = tr("This zone is not irrigated: its year takes no water.")
NO_HABIT = tr("Enter the old watering under “This zone” in Sprinklers, to see it beside the plan.")


def year_heads(year: ZoneYear) -> tuple[str, ...]:
    """The heads of the table of totals: one for each way of watering that is known."""
    habit = (tr("Old habit"),) if year.habit is not None else ()
    full = (tr("No dry year"),) if year.full is not None else ()
    return ("", tr("Plan"), *habit, *full)


def year_keys(year: ZoneYear) -> tuple[str, ...]:
    """The keys of the rows of `year_rows`, as `plan/year_water_workings.py` knows them."""
    return tuple(key for key in YEAR_KEYS if key != "cost" or year.plan.cost is not None)


def year_ways(year: ZoneYear) -> tuple[Way, ...]:
    """The ways of watering that the columns of `year_rows` stand for."""
    habit: tuple[Way, ...] = ("habit",) if year.habit is not None else ()
    full: tuple[Way, ...] = ("full",) if year.full is not None else ()
    return ("plan", *habit, *full)


def year_rows(year: ZoneYear) -> Rows:
    """The totals of the year, a row each, in the order of `year_heads`."""
    ways = [each for each in (year.plan, year.habit, year.full) if each is not None]
    rows = [
        (tr("Waterings"), tuple(str(each.waterings) for each in ways)),
        (captioned(tr("Water"), "gal"), tuple(bare(each.gallons, 0, "gal") for each in ways)),
    ]
    if year.plan.cost is not None:
        rows.append((tr("At your price"), tuple(_cost(each) for each in ways)))
    rows += [
        _depths(tr("Put down"), (each.gross_in for each in ways)),
        _depths(tr("Wets the soil below the thatch"), (each.wets_soil_in for each in ways)),
        (
            either(tr("  of each inch put down"), tr("  of each mm put down")),
            tuple(_of_each_inch(each) for each in ways),
        ),
        _depths(tr("Kept by the thatch"), (each.kept_by_thatch_in for each in ways)),
        _depths(tr("Run off"), (each.runoff_in for each in ways)),
        _depths(tr("Drained past the roots, rain too"), (each.drained_in for each in ways)),
        (tr("Days short of water"), tuple(str(each.stress_days) for each in ways)),
        (tr("Roots’ water used up, driest day"), tuple(_percent(each) for each in ways)),
    ]
    return tuple(rows)


def _depths(name: str, depths_in: Iterable[float]) -> tuple[str, tuple[str, ...]]:
    return captioned(name, "in"), tuple(bare(each, 1, "in") for each in depths_in)


def dry_year_sentence(year: ZoneYear | None, drought: str) -> str:
    """What the dry year costs in days short of water, and what it spares."""
    if drought == "off" or year is None or year.full is None:
        return ""
    spared = year.full.gallons - year.plan.gallons
    more = year.plan.stress_days - year.full.stress_days
    cost = (
        tr(
            "no more days short of water than without it, {stress_days}",
            stress_days=year.plan.stress_days,
        )
        if more <= 0
        else tr(
            "{more_days} short of water a year, {stress_days} instead of {full_stress_days}",
            more_days=counted(more, "more day", "more days"),
            stress_days=year.plan.stress_days,
            full_stress_days=year.full.stress_days,
        )
    )
    saves = (
        tr("and spares nothing")
        if spared < 0.5
        else tr("and spares {volume_words}", volume_words=volume_words(spared))
    )
    return tr("It costs {cost}, {saves}.", cost=cost, saves=saves)


def year_description(year: ZoneYear) -> str:
    """The table of totals in words, for a screen reader."""
    heads = year_heads(year)[1:]
    parts = []
    for name, cells in year_rows(year):
        told = ", ".join(f"{head} {cell}" for head, cell in zip(heads, cells, strict=True))
        parts.append(f"{name.strip()}: {told}")
    return "; ".join(parts)


def _share(water: YearWater) -> float:
    return water.wets_soil_in / water.gross_in if water.gross_in > 0 else 0.0


def _of_each_inch(water: YearWater) -> str:
    return f"{_share(water):.2f}" if water.gross_in > 0 else UNKNOWN


def _cost(water: YearWater) -> str:
    return UNKNOWN if water.cost is None else money(water.cost)


def _percent(water: YearWater) -> str:
    return f"{100 * water.driest_share_used:.0f}{PERCENT}"
