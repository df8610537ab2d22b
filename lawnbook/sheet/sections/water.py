"""The run-time table: when each zone runs next, for how long and in how many parts, how often."""

from collections.abc import Sequence
from typing import Literal

from lawnbook.frozen import dataclass
from lawnbook.plan.assumed import usual_rate_in
from lawnbook.plan.model import MonthWater, Plan, ZoneWater
from lawnbook.plan.water_rules import WEEKDAYS
from lawnbook.plan.workings import run_minutes_told
from lawnbook.reading import is_metric, tr
from lawnbook.sheet.ink import CAPTION, HEADING, Ink
from lawnbook.sheet.layout import HEADING_PT, LINE_PT, Box, RowPlan
from lawnbook.sheet.runs import (
    ZoneRun,
    cycles_told,
    first_start,
    further_starts,
    is_timed,
    run_of,
    starts_told,
)
from lawnbook.sheet.seasons import (
    Season,
    middle_month,
    minutes_told,
    months_of,
    often_told,
    rule_days_where_fewer,
    soak_told,
)
from lawnbook.sheet.sections.next_step import step_tellings
from lawnbook.sheet.sections.water_notes import MARK, assumed_of, water_notes
from lawnbook.sheet.table import Cell, Column, Footing, Row, draw_table, keyed
from lawnbook.yard.amounts import PERCENT, bare, told, unit_shown
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import short_day

CAPTION_TEXT = tr(
    "as deep as the roots bear; before sunrise, not after soaking rain; seasons by "
    "their middle month"
)
RULED_CAPTION = tr(
    "as deep as the roots bear, not after soaking rain; seasons by their middle month"
)
SURVIVAL_CAPTION = tr("let go dormant: so much keeps the crowns alive, and turns nothing green")
NO_ZONES = tr("No zone is drawn yet: draw one, and its water stands here.")
NEXT = "next_watering"
_MOST_LETTERS_BESIDE_A_DAY = 2
_WIDTH_PT = 524.0

ThirdLine = Literal["needed", "wanted", "empty"]


@dataclass(frozen=True, slots=True)
class Telling:
    """How the table is told: its seasons, whether rows have a second line, and a column of starts.

    There is no such column where the start of no zone is known.
    """

    of_year: tuple[Season, ...]
    tall: bool
    timed: bool
    named: bool

    @property
    def figures(self) -> int:
        """How many columns tell of the next run beside its day."""
        return 3 if self.timed else 2

    @property
    def roomy(self) -> bool:
        """Whether a season's column is wide enough for a unit beside its minutes."""
        return self.tall and len(self.of_year) == 3


def telling_of(plan: Plan, of_year: Sequence[Season], tall: bool) -> Telling:
    """How a plan's table is told."""
    timed = any(is_timed(plan, zone) for zone in plan.zones)
    return Telling(tuple(of_year), tall, timed, any(each.program for each in plan.programs))


def most_pressing(zones: Sequence[ZoneWater], count: int) -> tuple[ZoneWater, ...]:
    """The zones due first, then those watered most often; in the order of their numbers."""
    far = 10**9

    def urgency(zone: ZoneWater) -> tuple[int, int, int]:
        due = zone.next_allowed.toordinal() if zone.next_allowed is not None else far
        return due, zone.interval_days or far, zone.number

    chosen = sorted(zones, key=urgency)[:count]
    return tuple(sorted(chosen, key=lambda zone: zone.number))


def left_out(plan: Plan, notebook: Notebook, shown: int) -> str:
    """What the zones that found no room amount to; empty where all are shown."""
    if shown >= len(plan.zones):
        return ""
    parts = [tr("{count} zones; shown: the {shown} due first", count=len(plan.zones), shown=shown)]
    runs = [run for run in map(run_minutes_told, plan.zones) if run is not None]
    days = [zone.interval_days for zone in plan.zones if zone.interval_days is not None]
    if runs:
        parts.append(tr("all run {span}", span=_span(min(runs), max(runs), tr("min"))))
    if days:
        low, high = min(days), max(days)
        often = tr("daily") if high == 1 else tr("every {span}", span=_span(low, high, tr("days")))
        parts.append(rule_days_where_fewer(days, notebook.water_rules) or often)
    return ", ".join(parts) + tr(". The rest is in the notebook.")


def caption(plan: Plan, notebook: Notebook) -> str:
    """What the depths are: by the roots, a dry year's share of it, or what dormant turf lives on.

    New turf's own rule is told in its row.
    """
    rules = {zone.rule for zone in plan.zones if zone.depth_in is not None}
    if "survival" in rules:
        return SURVIVAL_CAPTION
    shares = {zone.months[plan.on.month - 1].share_of_etc for zone in plan.zones}
    if "deep" in rules and min(shares) < 1:
        given = f"{100 * min(shares):.0f}{PERCENT}"
        return tr(
            "dry year: each watering gives back {given} of the use; not after soaking rain",
            given=given,
        )
    return RULED_CAPTION if notebook.water_rules.hours else CAPTION_TEXT


def water_row(plan: Plan, notebook: Notebook, zone: ZoneWater, telling: Telling) -> Row:
    """One zone's row; where no watering is planned, its reason. Flat rows put the soak in line."""
    run = run_of(plan, notebook, zone)
    mark = MARK if assumed_of(zone) else ""
    about = _about(zone, notebook)
    shorter = (about.partition(", ")[0],)
    name = Cell(
        f"{zone.number} {zone.zone}",
        about,
        strong=True,
        mark=mark,
        shorter=shorter,
        key="area_sqft",
    )
    in_seasons = [months_of(zone, season) for season in telling.of_year]
    if zone.run_minutes is None and not any(in_seasons):
        span = telling.figures + 1 + len(in_seasons)
        reason = Cell(zone.reason or tr("no watering"), small=True, span=span)
        return (name, _day(run, telling.tall), reason)
    seasons = (
        _in_season(plan, notebook, zone, (season, months), telling)
        for season, months in zip(telling.of_year, in_seasons, strict=True)
    )
    return (name, _day(run, telling.tall), *_one_run(zone, run, telling), *seasons)


def row_footing(plan: Plan, notebook: Notebook, zone: ZoneWater) -> Footing:
    """A third line: all starts of the timer, and the next step to fewer and deeper waterings."""
    return Footing(starts_told(run_of(plan, notebook, zone)), step_tellings(zone))


def third_line(plan: Plan, notebook: Notebook) -> ThirdLine:
    """Whether a third line is needed, for starts without another place, or has a step to tell."""
    feet = [row_footing(plan, notebook, zone) for zone in plan.zones]
    if any(foot.figures for foot in feet):
        return "needed"
    return "wanted" if any(foot.remarks for foot in feet) else "empty"


def draw_water(
    ink: Ink, box: Box, plan: Plan, notebook: Notebook, rows: RowPlan, of_year: Sequence[Season]
) -> None:
    """Heading, table, a line on the zones left out, and the notes."""
    ink.text((box.left, box.top + 11), tr("Water"), HEADING)
    said = left_out(plan, notebook, rows.shown) or caption(plan, notebook)
    start = box.left + ink.width(tr("Water"), HEADING) + 10
    ink.text((start, box.top + 11), ink.fit(said, CAPTION, box.right - start), CAPTION)
    if not plan.zones:
        ink.text((box.left, box.top + HEADING_PT + 12), NO_ZONES, CAPTION)
        return
    table = Box(box.left, box.top + HEADING_PT, box.width, box.height)
    shown = most_pressing(plan.zones, rows.shown)
    telling = telling_of(plan, of_year, rows.water_lines > 1)
    cells = [
        keyed(water_row(plan, notebook, zone, telling), "water", zone.zone_id) for zone in shown
    ]
    feet = [row_footing(plan, notebook, zone) for zone in shown] if rows.water_lines > 2 else []
    foot = draw_table(ink, table, _columns(telling), cells, rows.water_pt, feet)
    for number, (line, style) in enumerate(water_notes(ink, plan, notebook, box.width)):
        ink.text((box.left, foot + 10.5 + LINE_PT * number), line, style)


def _columns(telling: Telling) -> tuple[Column, ...]:
    """The columns; a yard that is watered in winter too has less room for each season."""
    tall, named = telling.tall, 92.0 if len(telling.of_year) == 3 else 76.0
    # Millimetres are a letter longer than inches: "13.0 mm".
    more = 4 if tall and is_metric() else 0
    start = (Column(tr("starts"), 58 if tall else 34),) if telling.timed else ()
    named += 0.0 if telling.timed else 20.0
    spent = named + (44 + 34 + more + 56 + 44 if tall else 50 + 32 + 84 + 36)
    spent += sum(column.share for column in start)
    season_pt = (_WIDTH_PT - spent) / len(telling.of_year)
    return (
        Column(tr("station, zone"), named, "left"),
        Column(
            tr("next run"),
            44 if tall else 50,
            unit=tr("program") if telling.named else tr("day"),
        ),
        *start,
        Column(tr("run"), 34 + more if tall else 32, unit=tr("min")),
        Column(
            tr("cycles"),
            56 if tall else 60,
            unit=tr("× min") if tall else tr("× min, soak"),
        ),
        Column(tr("rate"), 44 if tall else 36, unit=unit_shown("in/h")),
        *(
            Column(season.name, season_pt, unit=season.span if tall else tr("× min, days"))
            for season in telling.of_year
        ),
    )


def _about(zone: ZoneWater, notebook: Notebook) -> str:
    """Area and soil; of new turf until when it is watered lightly."""
    if zone.establishing is not None:
        return tr(
            "new {how} until {until}",
            how=tr(zone.establishing.how),
            until=short_day(zone.establishing.until),
        )
    record = notebook.zones.get(zone.zone_id)
    soil = record.soil if record is not None and record.soil is not None else ""
    return told(zone.area_sqft, 0, "sq ft") + (f", {tr(soil)}" if soil else "")


def _day(run: ZoneRun, tall: bool) -> Cell:
    """The day of the next run, and beneath it or beside it the program's letter."""
    if run.on is None:
        return Cell("–", strong=True)
    when = short_day(run.on)
    if not tall:
        brief = 0 < len(run.program) <= _MOST_LETTERS_BESIDE_A_DAY
        return Cell(f"{when} {run.program}" if brief else when, strong=True, key=NEXT)
    day = tr(WEEKDAYS[run.on.weekday()])
    return Cell(when, f"{run.program}, {day}" if run.program else day, strong=True, key=NEXT)


def _one_run(zone: ZoneWater, run: ZoneRun, telling: Telling) -> Row:
    """Start, run, cycles and rate of the next run, or over their columns why there is none."""
    if zone.run_minutes is None:
        reason = zone.reason or tr("no watering now")
        return (Cell(reason, small=True, span=telling.figures + 1),)
    begins = Cell(first_start(run), further_starts(run), strong=True, key="night")
    start = (begins,) if telling.timed else ()
    minutes = "–" if run.minutes is None else str(run.minutes)
    soak = _soak(zone, run)
    depth = "" if run.depth_in is None else told(run.depth_in, 2, "in")
    return (
        *start,
        Cell(minutes, depth, strong=True, key="next_run_minutes run_minutes next_run_depth_in"),
        Cell(
            _cycles(run, telling.tall),
            soak,
            strong=True,
            shorter=(soak.removesuffix(tr(" min")),),
            key="cycles soak_minutes",
        ),
        Cell(
            _rate(zone.precipitation_rate_in_per_h),
            _origin(zone),
            shorter=(tr("old") if zone.rate_stale else tr("tested"),),
            key="precipitation_rate_in_per_h",
        ),
    )


def _in_season(
    plan: Plan,
    notebook: Notebook,
    zone: ZoneWater,
    of_season: tuple[Season, Sequence[MonthWater]],
    telling: Telling,
) -> Cell:
    """What the timer is set to in a season; of new turf's own season only once it has rooted."""
    season, months = of_season
    month = middle_month(months)
    if month is None:
        return Cell("–")
    minutes, key = minutes_told(month, run_of(plan, notebook, zone).places), str(month.month)
    often = often_told(month, months, notebook.water_rules)
    if month.run_minutes is None:
        return Cell(often, key=key)
    if not telling.tall:
        return Cell(f"{minutes}, {_brief(often)}", key=key)
    if zone.rule == "light" and plan.on.month in season.months:
        return Cell(minutes, tr("if rooted"), key=key)
    whole = ", ".join(each for each in (often, soak_told(month)) if each)
    shorter = (whole.removeprefix(tr("every ")), _brief(whole), often)
    roomy = tr("{minutes} min", minutes=minutes)
    return Cell(roomy if telling.roomy else minutes, whole, shorter=shorter, key=key)


def _brief(often: str) -> str:
    """How often in fewer letters: "3 d" for "every 3 days"."""
    return often.removeprefix(tr("every ")).replace(tr(" days"), tr(" d"))


def _span(low: int, high: int, unit: str) -> str:
    return f"{low} {unit}" if low == high else f"{low}–{high} {unit}"


def _rate(in_per_h: float | None) -> str:
    return "–" if in_per_h is None else bare(in_per_h, 2, "in/h")


def _origin(zone: ZoneWater) -> str:
    if zone.rate_source is None:
        return ""
    if usual_rate_in(zone.defaults):
        return tr("assumed")
    return (
        tr("old {source}", source=tr(zone.rate_source).split()[-1])
        if zone.rate_stale
        else tr(zone.rate_source)
    )


def _cycles(run: ZoneRun, tall: bool) -> str:
    parts = cycles_told(run)
    soaks = not tall and run.cycles > 1 and run.soak_minutes >= 1
    return f"{parts}, {run.soak_minutes:.0f}" if soaks else parts


def _soak(zone: ZoneWater, run: ZoneRun) -> str:
    """The soak between cycles; of a hose its places, of new turf how often on a day."""
    if run.places > 1:
        return tr("in {places} places", places=run.places)
    if zone.establishing is not None and zone.establishing.times_a_day == run.cycles > 1:
        return tr("times a day")
    if run.cycles == 1 and run.wets_thatch_first:
        return tr("thatch first")
    if run.cycles < 2:
        return tr("no soak")
    if run.soak_minutes < 1:
        return ""
    return tr("soak {soak_minutes:.0f} min", soak_minutes=run.soak_minutes)
