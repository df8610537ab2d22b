"""The lines under the water table: the local rule, what a night leaves out, what is assumed."""

from collections.abc import Iterator, Sequence

from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.plan.night import missing_for_times
from lawnbook.plan.water_model import ProgramRun
from lawnbook.plan.water_rules import WEEKDAYS
from lawnbook.plan.workings import and_joined
from lawnbook.reading import tr
from lawnbook.sheet.ink import CAPTION, Ink, Style
from lawnbook.sheet.seasons import rule_days_where_fewer
from lawnbook.sheet.sections.due import zones_told
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import minutes
from lawnbook.yard.records import WaterRules

MARK = "*"
_NO_BREAK = "\u00a0"
_MOST_LINES = 2
_MOST_NUMBERS_LETTERS = 24
CUT_SHORT = Style("medium", CAPTION.size)


Line = tuple[str, Style]
"""A line of the notes and how it is set."""


def water_notes(ink: Ink, plan: Plan, notebook: Notebook, width: float) -> tuple[Line, ...]:
    """The lines under the table: the local rule, what nights leave out, what is missing or assumed.

    Two lines, and more only for what does not fit into its night, which is never left out.
    """
    if not plan.zones:
        return ()
    short = " ".join(cut_told(plan.programs))
    rule = rule_told(notebook.water_rules)
    told = (f"{rule} {fewer_told(plan.zones, notebook.water_rules)}", times_told(plan, notebook))
    for assumed in assumed_told(plan.zones):
        parts = " ".join(each.strip() for each in (*told, assumed) if each.strip())
        lines = ink.paragraph(parts, CAPTION, width)
        if len(lines) <= _MOST_LINES:
            break
    cut = ink.paragraph(short, CUT_SHORT, width)
    return (*((line, CUT_SHORT) for line in cut), *((line, CAPTION) for line in lines))


def cut_told(programs: Sequence[ProgramRun]) -> Iterator[str]:
    """That a program's starts are cut short, or that none finds time, and what it would need."""
    for each in programs:
        given = _given_minutes(each)
        if not each.shortfall_minutes or given >= each.elapsed_minutes:
            continue
        name = (
            tr("Program {program}", program=each.program)
            if each.program
            else tr("The next program")
        )
        needs = tr("it needs {elapsed_minutes}", elapsed_minutes=minutes(each.elapsed_minutes))
        if not given:
            yield tr("{name} finds no time: {needs}.", name=name, needs=needs)
        elif each.allowed_minutes is None:
            yield tr(
                "{name} is cut short: {needs}, and a day gives {given}.",
                name=name,
                needs=needs,
                given=minutes(given),
            )
        else:
            yield tr(
                "{name} is cut short: {needs}, and your rule gives {given}.",
                name=name,
                needs=needs,
                given=minutes(given),
            )


def _given_minutes(program: ProgramRun) -> int:
    """From a program's first start to its end; 0 where its timer holds nothing."""
    if not program.timer or program.starts is None or program.ends is None:
        return 0
    return round((program.ends - program.starts).total_seconds() / 60)


def fewer_told(zones: Sequence[ZoneWater], rules: WaterRules) -> str:
    """What the rule's days in place of the plan's mean; empty where it allows enough of them."""
    months = [month for zone in zones for month in zone.months]
    days = [month.interval_days for month in months if month.interval_days is not None]
    fewer = rule_days_where_fewer(days, rules)
    return tr("Where its days are named, water is wanted more often.") if fewer else ""


def times_told(plan: Plan, notebook: Notebook) -> str:
    """What to enter before a timer's starts can be told; empty where they are, or none is due."""
    missing = missing_for_times(notebook.yard)
    if not plan.programs or not missing:
        return ""
    return tr("Enter the yard's {missing} to see when to start.", missing=and_joined(missing))


def rule_told(rules: WaterRules) -> str:
    """The owner's local watering rule in a sentence; empty where all days and hours are allowed."""
    days = [tr(day) for day in WEEKDAYS if day in rules.days]
    allowed = [
        *([tr("on {days} only", days=and_joined(days))] if 0 < len(days) < len(WEEKDAYS) else []),
        *([and_joined([_span_told(span) for span in rules.hours])] if rules.hours else []),
    ]
    return tr("Your rule: {allowed}.", allowed=", ".join(allowed)) if allowed else ""


def _span_told(span: str) -> str:
    opens, closes = span.split("-")
    over_midnight = closes <= opens and closes != "00:00"
    return (
        tr("{opens}–{closes} the morning after", opens=opens, closes=closes)
        if over_midnight
        else f"{opens}–{closes}"
    )


def assumed_told(zones: Sequence[ZoneWater]) -> tuple[str, str]:
    """What the marked zones assume, with its values and zones, and in short; empty where nothing.

    What all marked zones assume is told without their numbers.
    """
    marked = {zone.number: assumed_of(zone) for zone in zones if assumed_of(zone)}
    if not marked:
        return "", ""
    words = dict.fromkeys(word for held in marked.values() for word in held)
    of = {word: [n for n, held in marked.items() if word in held] for word in words}
    common_first = sorted(words, key=lambda word: len(of[word]) < len(marked))
    told = ", ".join(_of_zones(word, of[word], len(marked)) for word in common_first)
    kinds = dict.fromkeys(word.partition(" ")[0] for word in words)
    # The mark stays on one line with the words that it is for.
    begin = tr("{mark}\u00a0Assumed until measured or entered:", mark=MARK)
    return f"{begin} {told}.", tr(
        "{begin} {part}; see the notebook.", begin=begin, part=and_joined([*kinds])
    )


def _of_zones(word: str, numbers: Sequence[int], marked: int) -> str:
    """An assumed value, with its zones where they are not all the marked ones."""
    value = word.replace(" ", _NO_BREAK)
    return value if len(numbers) == marked else f"{value} ({_where(numbers)})"


def _where(numbers: Sequence[int]) -> str:
    told = zones_told(numbers)
    return told if len(told) <= _MOST_NUMBERS_LETTERS else tr("{count} zones", count=len(numbers))


def assumed_of(zone: ZoneWater) -> tuple[str, ...]:
    """What is assumed for a zone's waterings; a zone without sprinklers has none."""
    return zone.defaults if zone.irrigated else ()
