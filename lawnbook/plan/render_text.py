"""A plan as text for a terminal, at most 100 columns wide."""

from collections.abc import Iterator

from lawnbook.plan.model import Plan
from lawnbook.plan.render_ahead import coverage_lines, stretch_lines, year_lines
from lawnbook.plan.render_feed import nitrogen_lines
from lawnbook.plan.render_runs import establishing_lines, next_run_lines, program_lines
from lawnbook.plan.render_thatch import finding_lines, mean_lines, next_lines, spot_lines
from lawnbook.plan.render_water import is_resting, month_lines, water_lines
from lawnbook.plan.text_table import (
    WIDTH,
    day_head,
    joined,
    listed,
    paragraph,
    section,
    told_once,
)
from lawnbook.plan.workings import told
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import RATE_UNIT, unit_shown
from lawnbook.yard.numbers import day


def plan_text(plan: Plan) -> str:
    """The whole plan as aligned tables and short paragraphs, ending in a line break."""
    lengths = tr("mm") if is_metric() else tr("inches")
    roots = tr("mm of roots") if is_metric() else tr("inches of roots")
    volumes = tr("litres") if is_metric() else tr("gallons")
    return joined(
        [
            tr("{yard}: plan for {on}", yard=plan.yard, on=day(plan.on)),
            tr(
                "{area_sqft} of turf in {zones_told}",
                area_sqft=told(plan.area_sqft, 0, "sq ft"),
                zones_told=_zones_told(len(plan.zones)),
            ),
            *section(tr("WATER, depths in {lengths}", lengths=lengths), water_lines(plan)),
            *section(tr("NEXT WATERING"), next_run_lines(plan.zones)),
            *section(tr("TIMER"), program_lines(plan.programs)),
            *section(tr("NEW TURF"), establishing_lines(plan.zones)),
            *section(tr("DAYS BETWEEN WATERINGS BY MONTH"), month_lines(plan.zones)),
            *section(
                tr("STRETCHING THE INTERVAL, {roots}", roots=roots),
                stretch_lines(plan.zones),
            ),
            *section(tr("WATER OF A YEAR, {volumes}", volumes=volumes), year_lines(plan.zones)),
            *section(tr("COVERAGE, from the heads drawn"), coverage_lines(plan.zones)),
            *section(
                tr("NITROGEN, {unit_shown}", unit_shown=unit_shown(RATE_UNIT)), nitrogen_lines(plan)
            ),
            *section(tr("THATCH, {lengths}", lengths=lengths), spot_lines(plan.thatch)),
            *section(tr("THATCH IN THE MEAN, {lengths}", lengths=lengths), mean_lines(plan)),
            *section(tr("WHAT THE PLUGS SAY"), finding_lines(plan.findings)),
            *section(tr("WHERE TO PULL NEXT"), next_lines(plan)),
            *section(tr("DUE"), _due(plan)),
            *section(tr("NOTES"), _notes(plan)),
            *section(tr("CAUTIONS"), listed(plan.cautions)),
            *section(tr("SOURCES"), listed(plan.sources)),
        ]
    )


def _zones_told(count: int) -> str:
    return tr("1 zone") if count == 1 else tr("{count} zones", count=count)


def _due(plan: Plan) -> Iterator[str]:
    for due in plan.due:
        until = due.latest is not None and due.latest > due.date
        last = (
            tr(", to {latest}", latest=day(due.latest)) if due.latest is not None and until else ""
        )
        yield from paragraph(f"{due.what} ({tr(due.kind)}{last})", WIDTH, day_head(due.date))


def _notes(plan: Plan) -> Iterator[str]:
    resting = is_resting(plan)
    notes = [
        (zone.zone, note)
        for zone in plan.zones
        for note in dict.fromkeys((*([] if resting else [zone.reason]), *zone.notes))
        if note
    ]
    notes += [(feed.zone, feed.reason) for feed in plan.nitrogen if feed.reason]
    yield from told_once(notes, len(plan.zones))
