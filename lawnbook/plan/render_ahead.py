"""What lies ahead of the water, as text: the stretch plan, the year's gallons, the coverage."""

from collections.abc import Iterator, Sequence

from lawnbook.plan.model import ZoneWater
from lawnbook.plan.render_runs import numbered
from lawnbook.plan.text_table import (
    NONE,
    WIDTH,
    Column,
    column,
    number,
    share,
    table,
    told_once,
)
from lawnbook.plan.water_model import Stretch, StretchStep, YearWater, ZoneCoverage, ZoneYear
from lawnbook.reading import tr
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.numbers import day


def stretch_lines(zones: Sequence[ZoneWater]) -> Iterator[str]:
    """Each zone's way to its target: the step borne now, the next, the last; and the next plug."""
    found = [(zone, zone.stretch) for zone in zones if zone.stretch is not None]
    rows = [(zone, step) for zone, stretch in found for step in _telling_steps(stretch)]
    if rows:
        columns = [
            column(tr("zone"), rows, lambda row: numbered(row[0]), words=True),
            column(tr("every"), rows, lambda row: f"{row[1].interval_days} d"),
            column(tr("depth"), rows, lambda row: number(row[1].depth_in, 2, "in")),
            column(
                tr("roots needed"), rows, lambda row: number(row[1].root_depth_needed_in, 1, "in")
            ),
            column("", rows, lambda row: tr("borne now") if row[1].borne else "", words=True),
            column(tr("would use up"), rows, lambda row: share(row[1].share_used_now)),
            column(tr("of full use"), rows, lambda row: share(row[1].stress_now)),
            column(tr("by"), rows, _expected),
        ]
        yield from table(columns, WIDTH)
    plugs = (
        (
            zone.zone,
            tr(
                "the next plugs, on {plug_due}, may allow the next step.",
                plug_due=day(stretch.plug_due),
            ),
        )
        for zone, stretch in found
        if stretch.plug_due is not None
    )
    yield from told_once(plugs, len(zones))


def year_lines(zones: Sequence[ZoneWater]) -> Iterator[str]:
    """The year's water of each zone as planned, beside the old habit where one is known.

    "Dry days" are those on which the grass runs short of water.
    """
    found = [(zone, zone.water_year) for zone in zones if zone.water_year is not None]
    if not found:
        return
    yield from table(list(_year_columns(found)), WIDTH)
    yield from told_once(((zone.zone, _basis(year)) for zone, year in found), len(zones))


def coverage_lines(zones: Sequence[ZoneWater]) -> Iterator[str]:
    """How the heads cover each zone by the computed map."""
    found = [(zone, zone.coverage) for zone in zones if zone.coverage is not None]
    if found:
        yield from table(list(_coverage_columns(found)), WIDTH)


def _telling_steps(stretch: Stretch) -> Sequence[StretchStep]:
    """The last step that is borne, the first that is not, and the last of all."""
    borne = [step for step in stretch.steps if step.borne]
    ahead = [step for step in stretch.steps if not step.borne]
    telling = [*borne[-1:], *ahead[:1], *stretch.steps[-1:]]
    return [step for step in stretch.steps if step in telling]


def _expected(row: tuple[ZoneWater, StretchStep]) -> str:
    expected = row[1].expected
    return NONE if expected is None else day(expected)


def _year_columns(found: Sequence[tuple[ZoneWater, ZoneYear]]) -> Iterator[Column]:
    yield column(tr("zone"), found, lambda row: numbered(row[0]), words=True)
    yield column(tr("waterings"), found, lambda row: number(row[1].plan.waterings, 0))
    yield column(unit_shown("gal"), found, lambda row: number(row[1].plan.gallons, 0, "gal"))
    if any(year.plan.cost is not None for _, year in found):
        yield column(tr("cost"), found, lambda row: number(row[1].plan.cost, 2))
    yield column(tr("into soil"), found, lambda row: _into_soil(row[1].plan))
    yield column(tr("dry days"), found, lambda row: number(row[1].plan.stress_days, 0))
    if any(year.full is not None for _, year in found):
        yield column(tr("not dry year"), found, lambda row: _gallons(row[1].full))
    if any(year.habit is not None for _, year in found):
        yield column(tr("habit"), found, lambda row: _gallons(row[1].habit))
        yield column(tr("into soil"), found, lambda row: _into_soil(row[1].habit))
        yield column(tr("saved"), found, lambda row: number(row[1].saved_gallons, 0, "gal"))


def _basis(year: ZoneYear) -> str:
    return tr("reckoned with {basis}.", basis=year.basis)


def _gallons(year: YearWater | None) -> str:
    return number(None if year is None else year.gallons, 0, "gal")


def _into_soil(year: YearWater | None) -> str:
    """What of the water put down goes on below the thatch."""
    return NONE if year is None or year.gross_in <= 0 else share(year.wets_soil_in / year.gross_in)


def _coverage_columns(found: Sequence[tuple[ZoneWater, ZoneCoverage]]) -> Iterator[Column]:
    yield column(tr("zone"), found, lambda row: numbered(row[0]), words=True)
    yield column(tr("heads"), found, lambda row: _heads(row[1]))
    yield column(unit_shown("in/h"), found, lambda row: number(row[1].mean_in_per_h, 2, "in/h"))
    yield column("DU_LQ", found, lambda row: number(row[1].du_lq, 2))
    yield column("DU_LH", found, lambda row: number(row[1].du_lh, 2))
    yield column("CU", found, lambda row: number(row[1].cu, 2))
    yield column(tr("outside"), found, lambda row: share(row[1].wasted_share))
    yield column(tr("too dry"), found, lambda row: share(row[1].dry_share))
    yield column(tr("too wet"), found, lambda row: share(row[1].wet_share))


def _heads(coverage: ZoneCoverage) -> str:
    """The heads that the map counts, of how many there are where some have no flow."""
    mapped = coverage.heads - coverage.without_flow
    return (
        f"{mapped}"
        if mapped == coverage.heads
        else tr("{mapped} of {heads}", mapped=mapped, heads=coverage.heads)
    )
