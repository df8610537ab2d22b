"""A check before spreading as text for a terminal, at most 100 columns wide."""

from collections.abc import Iterator, Sequence

from lawnbook.plan.feed_model import PassZone, SpreadPass, ZoneLoad
from lawnbook.plan.model import SpreadCheck, ZoneSpread
from lawnbook.plan.text_table import (
    NONE,
    WIDTH,
    Column,
    column,
    joined,
    listed,
    number,
    paragraph,
    section,
    table,
    told_once,
)
from lawnbook.plan.workings import told_most, told_most_together
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import RATE_UNIT, bare, unit_shown
from lawnbook.yard.numbers import day

MOST_PLACES_FROM_LB = 10
"""From so many pounds a weight is told to a tenth, below it to a hundredth."""


def spread_text(check: SpreadCheck) -> str:
    """The check before spreading: the verdict, what binds, then what to load, buy and water."""
    return joined(
        [
            *paragraph(check.verdict, WIDTH),
            "",
            *_zones(check.zones),
            "",
            *_amounts(check),
            *section(tr("RULES"), _binding(check)),
            *section(tr("IN PASSES"), _passes(check.split)),
            *(_to_do(check) if check.passes_some_day else ()),
            *section(tr("NOTES"), listed(check.notes)),
            *section(tr("CAUTIONS"), listed(check.cautions)),
        ]
    )


def _to_do(check: SpreadCheck) -> Iterator[str]:
    """What to load, buy, set and water in; only of an amount that may go down some day."""
    yield from section(
        tr("TO LOAD{once_it_passes}", once_it_passes=_once_it_passes(check)), _loads(check)
    )
    yield from section(tr("TO BUY"), _shopping(check))
    yield from section(tr("SPREADER"), listed(f"{s.spreader}: {s.words}" for s in check.settings))
    yield from section(tr("TANKS"), listed(each.words for each in check.tanks))
    yield from section(tr("WATERING IN"), _watering_in(check.zones))


def _zones(zones: Sequence[ZoneSpread]) -> Iterator[str]:
    def after(value: float, budget: float) -> str:
        return tr("{rate} of {rate_2}", rate=_rate(value), rate_2=_rate(budget))

    columns = [
        column(tr("zone"), zones, lambda z: z.zone, words=True),
        column("", zones, lambda z: tr("within") if z.within else tr("OVER"), words=True),
        column(unit_shown("lb"), zones, lambda z: _pounds(z.pounds)),
        column(_per_area("N"), zones, lambda z: _rate(z.n_lb_per_1000)),
        column(tr("quick"), zones, lambda z: _rate(z.quick_lb_per_1000)),
        *_phosphate_and_potash(zones),
        column(tr("month after"), zones, lambda z: after(z.month_after, z.month_budget)),
        column(tr("year after"), zones, lambda z: after(z.year_after, z.year_budget)),
        column(
            tr("most {unit_shown}", unit_shown=unit_shown("lb")),
            zones,
            lambda z: told_most(z.max_lb),
        ),
    ]
    return table(columns, WIDTH)


def _phosphate_and_potash(zones: Sequence[ZoneSpread]) -> Iterator[Column]:
    if any(zone.p2o5_lb_per_1000 for zone in zones):
        yield column("P2O5", zones, lambda z: _rate(z.p2o5_lb_per_1000))
    if any(zone.k2o_lb_per_1000 for zone in zones):
        yield column("K2O", zones, lambda z: _rate(z.k2o_lb_per_1000))


def _amounts(check: SpreadCheck) -> Iterator[str]:
    most = told_most_together(zone.max_lb for zone in check.zones)
    earliest = check.earliest_date
    first = day(earliest) if earliest is not None else tr("none within two years")
    yield tr(
        "Most that passes on {on}: {most} {unit_shown} of {product}",
        on=day(check.on),
        most=most,
        unit_shown=unit_shown("lb"),
        product=check.product,
    )
    yield tr("First day on which all of it passes: {first}", first=first)


def _binding(check: SpreadCheck) -> Iterator[str]:
    told_of = (
        (zone.zone, f"{rule.sentence} [{rule.source}]")
        for zone in check.zones
        for rule in zone.binding
    )
    return told_once(told_of, len(check.zones))


def _passes(split: Sequence[SpreadPass]) -> Iterator[str]:
    """A line for each zone of a pass; the day stands with the first of them."""
    rows: list[tuple[str, PassZone]] = [
        (day(each.date) if zone is each.zones[0] else "", zone)
        for each in split
        for zone in each.zones
    ]
    if rows:
        yield from table(
            [
                column(tr("day"), rows, lambda row: row[0]),
                column(tr("zone"), rows, lambda row: row[1].zone, words=True),
                column(unit_shown("lb"), rows, lambda row: told_most(row[1].pounds)),
                column(_per_area("N"), rows, lambda row: _rate(row[1].n_lb_per_1000)),
            ],
            WIDTH,
        )


def _once_it_passes(check: SpreadCheck) -> str:
    return "" if check.within else tr(", once it passes")


def _loads(check: SpreadCheck) -> Iterator[str]:
    rows = [(zone.zone, zone.load) for zone in check.zones if zone.load is not None]
    if not rows:
        return
    yield from table(
        [
            column(tr("zone"), rows, lambda row: row[0], words=True),
            column(unit_shown("lb"), rows, lambda row: _pounds(row[1].spread_lb)),
            *_gallons(rows),
            column(
                tr("on {unit_shown}", unit_shown=unit_shown("sq ft")),
                rows,
                lambda row: bare(row[1].area_sqft, 0, "sq ft"),
            ),
            column(_per_area("lb"), rows, lambda row: _rate(row[1].lb_per_1000)),
            *_kept_out(rows),
        ],
        WIDTH,
    )
    if len(rows) > 1:
        together = _pounds(sum(load.spread_lb for _, load in rows))
        yield tr(
            "Together {together} {unit_shown} of {product}",
            together=together,
            unit_shown=unit_shown("lb"),
            product=check.product,
        )


def _gallons(rows: Sequence[tuple[str, ZoneLoad]]) -> Iterator[Column]:
    if any(load.volume_gal is not None for _, load in rows):
        yield column(unit_shown("gal"), rows, lambda row: number(row[1].volume_gal, 2, "gal"))


def _kept_out(rows: Sequence[tuple[str, ZoneLoad]]) -> Iterator[Column]:
    """The strips: their area, what would have gone on them and is kept back, and along what."""
    if any(load.strip_sqft for _, load in rows):
        yield column(
            tr("strip {unit_shown}", unit_shown=unit_shown("sq ft")),
            rows,
            lambda row: bare(row[1].strip_sqft, 0, "sq ft"),
        )
        yield column(
            tr("kept out {unit_shown}", unit_shown=unit_shown("lb")),
            rows,
            lambda row: _pounds(row[1].kept_out_lb),
        )
        yield column(tr("along"), rows, lambda row: ", ".join(row[1].strips) or NONE, words=True)


def _shopping(check: SpreadCheck) -> Iterator[str]:
    if check.shopping is not None:
        yield from listed([check.shopping.words])


def _watering_in(zones: Sequence[ZoneSpread]) -> Iterator[str]:
    wet = [(zone.zone, zone.watering_in) for zone in zones if zone.watering_in is not None]
    yield from told_once(((name, each.words) for name, each in wet), len(zones))
    for source in dict.fromkeys(each.source for _, each in wet if each.source):
        yield from paragraph(f"[{source}]", WIDTH, "  ")


def _pounds(value: float) -> str:
    return bare(value, 1 if value >= MOST_PLACES_FROM_LB else 2, "lb")


def _area(area_sqft: float) -> str:
    return bare(area_sqft, 0, "sq ft")


def _rate(lb_per_1000: float) -> str:
    return bare(lb_per_1000, 2, RATE_UNIT)


def _per_area(what: str) -> str:
    """The heading of what is put down on an area: "N/1,000", "lb/1,000"; "N g/m²", "g/m²"."""
    if is_metric():
        return unit_shown(RATE_UNIT) if what == "lb" else f"{what} {unit_shown(RATE_UNIT)}"
    return f"{what}/1,000"
