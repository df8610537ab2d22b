"""A plan and a check before spreading as text for a terminal, at most 100 columns wide."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date
from typing import TypeVar

from lawnbook.plan.model import Plan, SpotThatch, SpreadCheck, ZoneNitrogen, ZoneWater
from lawnbook.plan.text_table import NONE, Column, paragraph, section, table
from lawnbook.plan.workings import told, told_most
from lawnbook.yard.numbers import MONTHS, day, short_day

WIDTH = 100

T = TypeVar("T")


def plan_text(plan: Plan) -> str:
    """The whole plan as aligned tables and short paragraphs, ending in a line break."""
    return _joined(
        [
            f"{plan.yard}: plan for {day(plan.on)}",
            f"{told(plan.area_sqft, 0)} sq ft of turf in {_zones_told(len(plan.zones))}",
            *section("WATER", _water(plan.zones)),
            *section("DAYS BETWEEN WATERINGS BY MONTH", _months(plan.zones)),
            *section("NITROGEN, lb per 1,000 sq ft", _nitrogen(plan.nitrogen)),
            *section("THATCH", _thatch(plan.thatch)),
            *section("DUE", _due(plan)),
            *section("NOTES", _notes(plan)),
            *section("CAUTIONS", _listed(plan.cautions)),
            *section("SOURCES", _listed(plan.sources)),
        ]
    )


def spread_text(check: SpreadCheck) -> str:
    """The check before spreading: verdict, table of zones, the rules that bind, cautions."""
    earliest = check.earliest_date
    first = day(earliest) if earliest is not None else "none within two years"
    return _joined(
        [
            *paragraph(check.verdict, WIDTH),
            "",
            *_spread_table(check),
            "",
            f"First day on which all of it passes: {first}",
            *section("RULES", _binding(check)),
            *section("CAUTIONS", _listed(check.cautions)),
        ]
    )


def _joined(lines: Iterable[str]) -> str:
    return "\n".join(lines) + "\n"


def _zones_told(count: int) -> str:
    return "1 zone" if count == 1 else f"{count} zones"


def _column(
    heading: str, rows: Sequence[T], cell: Callable[[T], str], *, words: bool = False
) -> Column:
    return Column(heading, [cell(row) for row in rows], words)


def _water(zones: Sequence[ZoneWater]) -> Iterator[str]:
    if not zones:
        yield "No zone has been drawn yet."
        return
    columns = [
        _column("zone", zones, lambda z: f"{z.number} {z.zone}", words=True),
        _column("in/h", zones, lambda z: _number(z.precipitation_rate_in_per_h, 2)),
        _column("from", zones, _rate_source, words=True),
        _column("roots", zones, lambda z: _number(z.rooted_soil_in, 1) + "*" * z.roots_are_default),
        _column("bear in", zones, lambda z: _number(z.bearable_depth_in, 2)),
        _column("depth in", zones, lambda z: _number(z.depth_in, 2)),
        _column("every", zones, lambda z: _days(z.interval_days)),
        _column("run", zones, _run),
        _column("soak", zones, lambda z: _number(z.soak_minutes or None, 0)),
        _column("gal", zones, lambda z: _number(z.gallons, 0)),
        _column("next", zones, lambda z: _date(z.next_allowed)),
    ]
    yield from table(columns, WIDTH)
    if any(zone.roots_are_default for zone in zones):
        yield "* not measured yet: pull a plug"
    yield ""
    columns = [
        _column("zone", zones, lambda z: f"{z.number} {z.zone}", words=True),
        _column("use in/day", zones, lambda z: _number(z.etc_in_per_day, 3)),
        _column("limited by", zones, lambda z: z.limited_by or NONE, words=True),
        _column("short in/day", zones, lambda z: _number(z.shortfall_in_per_day, 2)),
        _column("target in", zones, lambda z: _number(z.target_depth_in, 2)),
        _column("then every", zones, lambda z: _days(z.target_interval_days)),
        _column("roots needed in", zones, lambda z: _number(z.roots_needed_in, 1)),
    ]
    yield from table(columns, WIDTH)


def _months(zones: Sequence[ZoneWater]) -> Iterator[str]:
    if not zones:
        return
    columns = [_column("zone", zones, lambda z: f"{z.number} {z.zone}", words=True)]
    for index, name in enumerate(MONTHS):
        cells = [_number(zone.interval_days_by_month[index], 0) for zone in zones]
        columns.append(Column(name, cells))
    yield from table(columns, WIDTH)


def _nitrogen(zones: Sequence[ZoneNitrogen]) -> Iterator[str]:
    if not zones:
        return
    columns = [
        _column("zone", zones, lambda z: f"{z.number} {z.zone}", words=True),
        _column("year", zones, lambda z: z.year_label),
        _column("fed", zones, lambda z: told(z.applied_year)),
        _column("budget", zones, lambda z: told(z.budget_year)),
        _column("left", zones, lambda z: told(z.left_this_year)),
        _column("in month", zones, lambda z: told(z.left_this_month)),
        _column("30 days", zones, lambda z: told(z.rolling_30_days)),
        _column("next", zones, _next_day),
        _column("lb", zones, _next_pounds),
        _column("of", zones, _next_product, words=True),
    ]
    yield from table(columns, WIDTH)


def _thatch(spots: Sequence[SpotThatch]) -> Iterator[str]:
    if not spots:
        return
    columns = [
        _column("spot", spots, lambda s: s.spot, words=True),
        _column("zone", spots, lambda s: s.zone or NONE, words=True),
        _column("plugs", spots, lambda s: str(s.plugs)),
        _column("first in", spots, lambda s: _number(s.first_in, 2)),
        _column("latest in", spots, lambda s: _number(s.latest_in, 2)),
        _column("in/year", spots, lambda s: _number(s.slope_in_per_year, 2)),
    ]
    yield from table(columns, WIDTH)
    for spot in spots:
        half = spot.half_inch_between
        meets = f" Half an inch between {day(half[0])} and {day(half[1])}." if half else ""
        yield from paragraph(f"{spot.spot}: {spot.verdict}{meets}", WIDTH, "- ")


def _due(plan: Plan) -> Iterator[str]:
    for due in plan.due:
        yield from paragraph(f"{due.what} ({due.kind})", WIDTH, f"{day(due.date):>11}  ")


def _notes(plan: Plan) -> Iterator[str]:
    told_by_zones: dict[str, list[str]] = {}
    for zone in plan.zones:
        for note in dict.fromkeys((*([zone.reason] if zone.reason else ()), *zone.notes)):
            told_by_zones.setdefault(note, []).append(zone.zone)
    for feed in plan.nitrogen:
        if feed.reason:
            told_by_zones.setdefault(feed.reason, []).append(feed.zone)
    for note, names in told_by_zones.items():
        who = "All zones" if len(names) == len(plan.zones) > 1 else ", ".join(names)
        yield from paragraph(f"{who}: {note}", WIDTH, "- ")


def _listed(sentences: Iterable[str]) -> Iterator[str]:
    for sentence in sentences:
        yield from paragraph(sentence, WIDTH, "- ")


def _spread_table(check: SpreadCheck) -> Iterator[str]:
    zones = check.zones
    columns = [
        _column("zone", zones, lambda z: z.zone, words=True),
        _column("", zones, lambda z: "within" if z.within else "OVER", words=True),
        _column("lb", zones, lambda z: told(z.pounds, 1)),
        _column("N/1,000", zones, lambda z: told(z.n_lb_per_1000)),
        _column("quick", zones, lambda z: told(z.quick_lb_per_1000)),
        _column("month after", zones, lambda z: f"{told(z.month_after)} of {told(z.month_budget)}"),
        _column("year after", zones, lambda z: f"{told(z.year_after)} of {told(z.year_budget)}"),
        _column("most lb", zones, lambda z: told_most(z.max_lb)),
    ]
    return table(columns, WIDTH)


def _binding(check: SpreadCheck) -> Iterator[str]:
    for zone in check.zones:
        for rule in zone.binding:
            yield from paragraph(f"{zone.zone}: {rule.sentence} [{rule.source}]", WIDTH, "- ")


def _number(value: float | None, places: int) -> str:
    return NONE if value is None else told(value, places)


def _days(value: int | None) -> str:
    return NONE if value is None else f"{value} d"


def _date(value: date | None) -> str:
    return NONE if value is None else short_day(value)


def _rate_source(zone: ZoneWater) -> str:
    if zone.rate_source is None:
        return NONE
    return f"{zone.rate_source}, stale" if zone.rate_stale else zone.rate_source


def _run(zone: ZoneWater) -> str:
    if zone.run_minutes is None or not zone.cycles or zone.minutes_per_cycle is None:
        return NONE
    return f"{zone.cycles}×{zone.minutes_per_cycle:.0f} min"


def _next_day(zone: ZoneNitrogen) -> str:
    return day(zone.next_feeding.date) if zone.next_feeding is not None else NONE


def _next_pounds(zone: ZoneNitrogen) -> str:
    return told_most(zone.next_feeding.pounds) if zone.next_feeding is not None else NONE


def _next_product(zone: ZoneNitrogen) -> str:
    return zone.next_feeding.product or "nitrogen" if zone.next_feeding is not None else NONE
