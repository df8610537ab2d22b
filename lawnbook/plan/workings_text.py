"""A working in words, the same in the window, on paper and at the command line.

`words_of` has the parts: the figure, its formula, the numbers put in, the inputs with where each
came from, what would change it most, and the source. `lines_of` has them as lines, which are what
"Copy" takes and what the command prints; the sheet sets the same parts in columns and numbers the
sources. Groups are the workings of a plan under their headings.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence

from lawnbook.frozen import dataclass
from lawnbook.plan.model import Plan
from lawnbook.plan.season_model import PlannedSpread
from lawnbook.plan.sensitivity import (
    Changed,
    Sensitivity,
    numbers_of,
    reckoned,
    sensitivities_of,
    stepped,
)
from lawnbook.plan.working_model import DATE, DAY, Input, Reckoning, Working
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import METRIC, told, told_exactly, told_small
from lawnbook.yard.numbers import day

MOST_TOLD = 3
"""So many inputs are told one by one, those that change the figure most."""

_SI_PLACES = 2
_NO_BREAK = "\u00a0"
_PARTING = " · "


@dataclass(frozen=True, slots=True)
class WorkingWords:
    """The parts of a working in words; empty where it has none.

    `outcome` says in which units the numbers of `filled` are and what comes out of them, where
    those are not the reader's own. `most` is what would change the figure most, an input a line,
    and `heading` stands above it.
    """

    figure: str
    formula: str
    filled: str
    outcome: str
    inputs: tuple[str, ...]
    heading: str
    most: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Group:
    """Workings under one heading: those of a zone, of a spot, of a yard."""

    title: str
    workings: tuple[Working, ...]


def words_of(working: Working) -> WorkingWords:
    """A working in words, what would change it most reckoned now."""
    most = most_told(working)
    return WorkingWords(
        tr("{label}: {value}", label=working.label, value=working.value),
        working.formula,
        working.filled,
        outcome_told(working),
        tuple(map(input_told, working.inputs)),
        most_heading(working) if most else "",
        most,
        working.source,
    )


def lines_of(working: Working) -> tuple[str, ...]:
    """A working as lines of text: one to an input, and one to what an input would change."""
    words = words_of(working)
    lines = (
        words.figure,
        words.formula,
        words.filled,
        words.outcome,
        *words.inputs,
        *(("\n".join((words.heading, *words.most)),) if words.most else ()),
        source_told(words.source),
    )
    # Where a number is told as entered, its formula may say no more than itself.
    return tuple(line for part in lines if part for line in part.split("\n"))


def source_told(source: str) -> str:
    """The line of the source; empty without one."""
    return tr("Source: {source}", source=source) if source else ""


def most_heading(working: Working) -> str:
    """The words above what would change a figure most: by how much each kind of input is changed.

    What is counted and what is a class have no ten percent; they are named where they are there.
    """
    kinds = {each.kind for each in sensitivities_of(working)}
    tenth, counted = bool(kinds & {"measured", "factor"}), "counted" in kinds
    if "class" not in kinds:
        if not counted:
            return tr("What would change it most, each number 10\u00a0% up and down:")
        if tenth:
            return tr(
                "What would change it most, each number 10\u00a0% up and down, a count by one:"
            )
        return tr("What would change it most, each count one up and down:")
    if tenth and counted:
        return tr(
            "What would change it most, each number 10\u00a0% up and down, a count by one, "
            "a day or a class to those beside it:"
        )
    if tenth:
        return tr(
            "What would change it most, each number 10\u00a0% up and down, "
            "a day or a class to those beside it:"
        )
    if counted:
        return tr(
            "What would change it most, each count one up and down, "
            "a day or a class to those beside it:"
        )
    return tr("What would change it most, each day or class to those beside it:")


def outcome_told(working: Working) -> str:
    """Where the numbers put in are in other units than the reader's: which, and what comes out."""
    reckoning = working.reckoning
    if reckoning is None or not working.filled:
        return ""
    if reckoning.si_unit:
        return _si_told(reckoning, reckoned(reckoning, numbers_of(working)))
    if not is_metric():
        return ""
    units = {reckoning.unit, *(q.unit for each in working.inputs if (q := each.quantity))}
    if not units & set(METRIC):
        return ""
    if reckoning.unit not in METRIC:
        return tr("Reckoned in inches, feet, gallons and pounds.")
    value = stepped(reckoning, reckoned(reckoning, numbers_of(working)))
    us, metric = _us_told(value, reckoning.unit), told(value, reckoning.places, reckoning.unit)
    return tr(
        "Reckoned in inches, feet, gallons and pounds: {us}, which is {metric}.",
        us=us,
        metric=metric,
    )


def _si_told(reckoning: Reckoning, value: float) -> str:
    """What comes out of numbers that are SI to every reader; to one of US units in both."""
    metric = METRIC[reckoning.unit]
    si = f"{told(metric.to(value), _SI_PLACES)}{_NO_BREAK}{reckoning.si_unit}"
    if is_metric():
        return tr("Reckoned in SI units: {si}.", si=si)
    us = _us_told(value, reckoning.unit)
    return tr("Reckoned in SI units: {si}, which is {us}.", si=si, us=us)


def input_told(each: Input) -> str:
    """An input in words: "Depth 0.55 in (worked out)", its value never parted from its unit.

    To a metric reader also the number that the formula takes: "Depth 14.0 mm = 0.55 in".
    """
    said = f"{each.name} {value_told(each).replace(' ', _NO_BREAK)}"
    origin = origin_told(each)
    return f"{said} ({origin})" if origin else said


def value_told(each: Input) -> str:
    """An input's value; to a metric reader also the number that the formula takes."""
    quantity = each.quantity
    if quantity is None or not is_metric() or quantity.unit not in METRIC:
        return each.value
    return f"{each.value} = {_us_told(quantity.number, quantity.unit)}"


def origin_told(each: Input) -> str:
    """Where an input came from; of what is assumed, that it is a default."""
    return tr("a default: {origin}", origin=each.origin) if each.is_default else each.origin


def most_told(working: Working) -> tuple[str, ...]:
    """What would change a figure most, an input a line; empty where it cannot be told."""
    reckoning = working.reckoning
    listed = sensitivities_of(working)
    if reckoning is None or not listed:
        return ()
    moving = [each for each in listed if each.size > 0]
    lines = [sensitivity_told(reckoning, each) for each in moving[:MOST_TOLD]]
    less = len(moving) - MOST_TOLD
    if less > 0:
        lines.append(
            tr("{count} more change it less.", count=less)
            if less > 1
            else tr("One more changes it less.")
        )
    if reckoning.note and moving:
        lines.append(reckoning.note)
    still = [each.name for each in listed if not each.size]
    if still:
        names = ", ".join(still)
        lines.append(
            tr("No change by: {names}.", names=names)
            if moving
            else tr("None of these changes it: {names}.", names=names)
        )
    return tuple(lines)


def sensitivity_told(reckoning: Reckoning, each: Sensitivity) -> str:
    """What an input does to a figure: "Depth at 0.60 in: 68.5 min, +10.0 %; at 0.49 in: ...".

    Of a count: "Days between waterings one day more: 0.73 in, +33.3 %; one day less: ...".
    """
    parts = "; ".join(
        f"{_at(each, change)}: {change_told(reckoning, change)}" for change in each.changes
    )
    return f"{each.name} {parts}"


def _at(each: Sensitivity, change: Changed) -> str:
    """What an input is changed to: "at 0.60 in", "one day more", "10 % more" of many together."""
    if each.kind in ("factor", "counted"):
        return change.input_told
    return tr("at {input}", input=change.input_told)


def change_told(reckoning: Reckoning, change: Changed) -> str:
    """A changed figure and by how much; of one that goes in steps what it is before the step."""
    if reckoning.step in ("down", "up"):
        raw = told_exactly(round(change.raw, 4))
        return tr("{figure} ({raw} before it is made whole)", figure=change.figure_told, raw=raw)
    if reckoning.unit in (DATE, DAY) or change.share is None:
        return change.figure_told
    return f"{change.figure_told}, {share_told(change.share)}"


def share_told(share: float) -> str:
    """A change as a share of the figure: "+10.0 %", "−9.1 %", "no change"."""
    if not share:
        return tr("no change")
    sign = "+" if share > 0 else "−"
    return f"{sign}{told_small(100 * abs(share), 1, '%')}"


def _us_told(number: float, unit: str) -> str:
    return f"{told_exactly(number)}{_NO_BREAK}{unit}"


def groups_of(plan: Plan, spreads: Sequence[PlannedSpread] = ()) -> tuple[Group, ...]:
    """The groups of a plan in the order of the page: water, feed, thatch, mowing, what is due.

    A working told under one heading is not told again under another; empty groups are left out.
    """
    named = (
        *(
            (tr("{number} {zone}: water", number=z.number, zone=z.zone), z.workings)
            for z in plan.zones
        ),
        *(
            (tr("{number} {zone}: nitrogen", number=z.number, zone=z.zone), z.workings)
            for z in plan.nitrogen
        ),
        *(_spread(each) for each in spreads),
        *((tr("{spot}: thatch", spot=spot.spot), spot.workings) for spot in plan.thatch),
        *((tr("{zone}: mowing", zone=each.zone), each.workings) for each in plan.mowing),
    )
    groups = tuple(_told_once(named))
    told_there = {each for group in groups for each in group.workings}
    tasks = (
        (task.what, [each for each in task.workings if each not in told_there])
        for task in plan.tasks
    )
    return (*groups, *_told_once(tasks))


def matching(groups: Iterable[Group], wanted: str) -> tuple[Group, ...]:
    """What is asked for: the figures with that key or label, else the groups of that name.

    All where nothing is named. Upper and lower case are the same; a part of a label or of a
    heading does where nothing is named so in full.
    """
    listed, asked = tuple(groups), " ".join(wanted.split()).casefold()
    if not asked:
        return listed
    ways: tuple[Callable[[Group, Working], bool], ...] = (
        lambda group, each: asked in (each.figure.casefold(), each.label.casefold()),
        lambda group, each: asked in _names(group.title),
        lambda group, each: asked in each.label.casefold() or asked in group.title.casefold(),
    )
    for fits in ways:
        found = tuple(
            Group(group.title, kept)
            for group in listed
            if (kept := tuple(each for each in group.workings if fits(group, each)))
        )
        if found:
            return found
    return ()


def _names(title: str) -> set[str]:
    """What a group may be called: its heading, its zone or spot, with and without its number."""
    whole = title.casefold()
    of = whole.rpartition(": ")[0] or whole
    return {whole, of, of.lstrip("0123456789").strip()}


def _spread(each: PlannedSpread) -> tuple[str, tuple[Working, ...]]:
    spread = tr("spread of {date}", date=day(each.date))
    return f"{each.number} {each.zone}: {spread}", each.workings


def _told_once(named: Iterable[tuple[str, Sequence[Working]]]) -> Iterator[Group]:
    """The groups without what an earlier one of the same zone, spot or thing has told."""
    told_there: set[tuple[str, Working]] = set()
    for title, workings in named:
        of, _, _ = title.partition(": ")
        fresh = tuple(each for each in dict.fromkeys(workings) if (of, each) not in told_there)
        told_there |= {(of, each) for each in fresh}
        if fresh:
            yield Group(title, fresh)


def sources_of(groups: Iterable[Group]) -> tuple[str, ...]:
    """The sources that workings cite, each once, in the order they are first cited."""
    cited = (part for group in groups for each in group.workings for part in parts_of(each))
    return tuple(dict.fromkeys(cited))


def parts_of(working: Working) -> tuple[str, ...]:
    """The single sources of a working."""
    parts = (part.strip() for part in working.source.split(_PARTING))
    return tuple(part for part in parts if part)


def cited_told(working: Working, sources: Sequence[str]) -> str:
    """The numbers of a working's sources in brackets: "[2, 5]"; empty where it cites none."""
    numbers = sorted({sources.index(part) + 1 for part in parts_of(working) if part in sources})
    parting = f",{_NO_BREAK}"
    return f"[{parting.join(map(str, numbers))}]" if numbers else ""
