"""The run-time table: what each zone gets, how it is split, and how often by season."""

from collections.abc import Sequence

from lawnbook.plan.model import MonthWater, Plan, ZoneWater
from lawnbook.plan.workings import cycle_minutes_told, run_minutes_told
from lawnbook.sheet.ink import CAPTION, HEADING, Ink
from lawnbook.sheet.layout import HEADING_PT, LINE_PT, Box, RowPlan
from lawnbook.sheet.seasons import Season, days_between, months_of, run_where_it_differs
from lawnbook.sheet.sections.due import zones_told
from lawnbook.sheet.table import Cell, Column, Row, draw_table
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import short_day
from lawnbook.yard.records import WaterRules

CAPTION_TEXT = "as deep as the roots bear now; before sunrise, and not after soaking rain"
RULED_CAPTION = "as deep as the roots bear now, and not after soaking rain"
MARK = "*"
_WEEK = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_NO_BREAK = "\u00a0"
_MOST_NOTE_LINES = 2
_MOST_NUMBERS_LETTERS = 24
NO_ZONES = "No zone is drawn yet: draw one, and its water stands here."


def most_pressing(zones: Sequence[ZoneWater], count: int) -> tuple[ZoneWater, ...]:
    """The zones due first, then those watered most often; in the order of their numbers."""
    far = 10**9

    def urgency(zone: ZoneWater) -> tuple[int, int, int]:
        due = zone.next_allowed.toordinal() if zone.next_allowed is not None else far
        return due, zone.interval_days or far, zone.number

    chosen = sorted(zones, key=urgency)[:count]
    return tuple(sorted(chosen, key=lambda zone: zone.number))


def left_out(plan: Plan, shown: int) -> str:
    """What the zones that found no room amount to; empty where all are shown."""
    if shown >= len(plan.zones):
        return ""
    parts = [f"{len(plan.zones)} zones; shown: the {shown} due first"]
    runs = [run for run in map(run_minutes_told, plan.zones) if run is not None]
    days = [zone.interval_days for zone in plan.zones if zone.interval_days is not None]
    if runs:
        parts.append(f"all run {_span(min(runs), max(runs), 'min')}")
    if days:
        low, high = min(days), max(days)
        parts.append("daily" if high == 1 else f"every {_span(low, high, 'days')}")
    return ", ".join(parts) + ". The rest is in the notebook."


def water_row(
    zone: ZoneWater, notebook: Notebook, of_year: Sequence[Season], tall: bool = True
) -> Row:
    """One zone's row; where no watering is planned, its reason. Flat rows put the soak in line."""
    record = notebook.zones.get(zone.zone_id)
    soil = record.soil if record is not None and record.soil is not None else ""
    area = f"{zone.area_sqft:,.0f} sq ft" + (f", {soil}" if soil else "")
    mark = MARK if _assumed(zone) else ""
    name = Cell(f"{zone.number} {zone.zone}", area, strong=True, mark=mark)
    rate = Cell(_figure(zone.precipitation_rate_in_per_h, 2), _origin(zone))
    return (
        name,
        rate,
        *_waterings(zone, [months_of(zone, season) for season in of_year], tall),
        Cell(short_day(zone.next_allowed) if zone.next_allowed is not None else "–", strong=True),
    )


def water_notes(ink: Ink, plan: Plan, notebook: Notebook, width: float) -> tuple[str, ...]:
    """The lines under the table: the local rule, and which figures rest on assumed values."""
    if not plan.zones:
        return ()
    rule = rule_told(notebook.water_rules)
    for assumed in assumed_told(plan.zones):
        lines = ink.paragraph(f"{rule} {assumed}".strip(), CAPTION, width)
        if len(lines) <= _MOST_NOTE_LINES:
            break
    return tuple(lines)


def rule_told(rules: WaterRules) -> str:
    """The owner's local watering rule in a sentence; empty where all days and hours are allowed."""
    days = [day for day in _WEEK if day in rules.days]
    allowed = [
        *([f"on {listed(days)} only"] if 0 < len(days) < len(_WEEK) else []),
        *([listed([span.replace("-", "–") for span in rules.hours])] if rules.hours else []),
    ]
    return f"Your rule: {', '.join(allowed)}." if allowed else ""


def assumed_told(zones: Sequence[ZoneWater]) -> tuple[str, str]:
    """What the marked zones assume, with its values and zones, and in short; empty where nothing.

    What all marked zones assume is told without their numbers.
    """
    marked = {zone.number: _assumed(zone) for zone in zones if _assumed(zone)}
    if not marked:
        return "", ""
    words = dict.fromkeys(word for held in marked.values() for word in held)
    of = {word: [n for n, held in marked.items() if word in held] for word in words}
    common_first = sorted(words, key=lambda word: len(of[word]) < len(marked))
    told = ", ".join(_of_zones(word, of[word], len(marked)) for word in common_first)
    kinds = dict.fromkeys(word.partition(" ")[0] for word in words)
    return (
        f"{MARK} Assumed until measured or entered: {told}.",
        f"{MARK} Assumed until measured or entered: {listed([*kinds])}; see the notebook.",
    )


def _of_zones(word: str, numbers: Sequence[int], marked: int) -> str:
    """An assumed value, with its zones where they are not all the marked ones."""
    value = word.replace(" ", _NO_BREAK)
    return value if len(numbers) == marked else f"{value} ({_where(numbers)})"


def _where(numbers: Sequence[int]) -> str:
    told = zones_told(numbers)
    return told if len(told) <= _MOST_NUMBERS_LETTERS else f"{len(numbers)} zones"


def listed(words: Sequence[str]) -> str:
    """Words in a row: "Mon", "Mon and Fri", "Mon, Wed and Fri"."""
    *head, last = words
    return f"{', '.join(head)} and {last}" if head else last


def _assumed(zone: ZoneWater) -> tuple[str, ...]:
    """What is assumed for a zone's waterings; a zone without sprinklers has none."""
    return zone.defaults if zone.irrigated else ()


def _waterings(zone: ZoneWater, in_seasons: Sequence[Sequence[MonthWater]], tall: bool) -> Row:
    """The next watering and the seasons; over all of them why, where there is none in the year."""
    if zone.run_minutes is None and not any(in_seasons):
        return (Cell(zone.reason or "no watering", small=True, span=3 + len(in_seasons)),)
    told = (
        Cell(days_between(months), run_where_it_differs(months, run_minutes_told(zone)))
        for months in in_seasons
    )
    return (*_one_watering(zone, tall), *told)


def _one_watering(zone: ZoneWater, tall: bool) -> Row:
    """Depth, run and cycles of the next watering, or over their columns why there is none."""
    if zone.run_minutes is None:
        return (Cell(zone.reason or "no watering now", small=True, span=3),)
    return (
        Cell(_figure(zone.depth_in, 2), f"aim {zone.target_depth_in:.2f}"),
        Cell(str(run_minutes_told(zone)), _gallons(zone), strong=True),
        Cell(_cycles(zone, tall), _soak(zone), strong=True),
    )


def draw_water(
    ink: Ink, box: Box, plan: Plan, notebook: Notebook, rows: RowPlan, of_year: Sequence[Season]
) -> None:
    """Heading, table, a line on the zones left out, and the notes."""
    ink.text((box.left, box.top + 11), "Water", HEADING)
    usual = RULED_CAPTION if notebook.water_rules.hours else CAPTION_TEXT
    caption = left_out(plan, rows.shown) or usual
    start = box.left + ink.width("Water", HEADING) + 10
    ink.text((start, box.top + 11), ink.fit(caption, CAPTION, box.right - start), CAPTION)
    if not plan.zones:
        ink.text((box.left, box.top + HEADING_PT + 12), NO_ZONES, CAPTION)
        return
    table = Box(box.left, box.top + HEADING_PT, box.width, box.height)
    shown = most_pressing(plan.zones, rows.shown)
    cells = [water_row(zone, notebook, of_year, rows.tall) for zone in shown]
    foot = draw_table(ink, table, _columns(rows, of_year), cells, rows.row_pt)
    for number, line in enumerate(water_notes(ink, plan, notebook, box.width)):
        ink.text((box.left, foot + 10.5 + LINE_PT * number), line, CAPTION)


def _columns(rows: RowPlan, of_year: Sequence[Season]) -> tuple[Column, ...]:
    """The columns; a yard that is watered in winter too has less room for names."""
    wide = len(of_year) == 3
    return (
        Column("zone", 100 if wide else 72, "left"),
        Column("rate", 62.5, unit="in/h"),
        Column("depth", 40, unit="in"),
        Column("run", 48.5, unit="min"),
        Column("cycles", 62, unit="× min" if rows.tall else "× min, soak"),
        *(Column(season.name, 56 if wide else 59.5, unit=season.span) for season in of_year),
        Column("next", 43, unit="watering"),
    )


def _span(low: int, high: int, unit: str) -> str:
    return f"{low} {unit}" if low == high else f"{low}–{high} {unit}"


def _figure(value: float | None, places: int) -> str:
    return "–" if value is None else f"{value:.{places}f}"


def _origin(zone: ZoneWater) -> str:
    if zone.rate_source is None:
        return ""
    return f"old {zone.rate_source}" if zone.rate_stale else zone.rate_source


def _gallons(zone: ZoneWater) -> str:
    return "" if zone.gallons is None else f"{zone.gallons:,.0f} gal"


def _cycles(zone: ZoneWater, tall: bool) -> str:
    each = cycle_minutes_told(zone)
    if zone.cycles is None or each is None:
        return "–"
    text = f"{zone.cycles} × {each}"
    soaks = not tall and zone.cycles > 1 and zone.soak_minutes is not None
    return f"{text}, {zone.soak_minutes:.0f}" if soaks else text


def _soak(zone: ZoneWater) -> str:
    if not zone.cycles or zone.cycles < 2 or zone.soak_minutes is None:
        return "no soak"
    return f"soak {zone.soak_minutes:.0f} min"
