"""The workings of the sheet's figures as words: groups of short blocks, and the sources they cite.

Every block is a figure: its name and value, its formula, the numbers put in, the inputs with their
origins (a mark at those that are assumed), and the numbers of its sources in the list at the end.
"""

from collections.abc import Iterable, Iterator, Sequence

from lawnbook.frozen import dataclass
from lawnbook.plan.model import Plan
from lawnbook.plan.season_model import PlannedSpread
from lawnbook.plan.working_model import Input, Working

ASSUMED = "*"
_NO_BREAK = "\u00a0"
_PARTING = " · "


@dataclass(frozen=True, slots=True)
class Group:
    """Workings under one heading: those of a zone, of a spot, of a yard."""

    title: str
    workings: tuple[Working, ...]


def groups_of(plan: Plan, spreads: Sequence[PlannedSpread] = ()) -> tuple[Group, ...]:
    """The groups of a plan in the order of the page: water, feed, thatch, mowing, what is due.

    A working told under one heading is not told again under another; empty groups are left out.
    """
    named = (
        *((f"{z.number} {z.zone}: water", z.workings) for z in plan.zones),
        *((f"{z.number} {z.zone}: nitrogen", z.workings) for z in plan.nitrogen),
        *(_spread(each) for each in spreads),
        *((f"{spot.spot}: thatch", spot.workings) for spot in plan.thatch),
        *((f"{each.zone}: mowing", each.workings) for each in plan.mowing),
    )
    groups = tuple(_told_once(named))
    told = {each for group in groups for each in group.workings}
    tasks = (
        (task.what, [each for each in task.workings if each not in told]) for task in plan.tasks
    )
    return (*groups, *_told_once(tasks))


def _spread(each: PlannedSpread) -> tuple[str, tuple[Working, ...]]:
    return f"{each.number} {each.zone}: spread of {each.date:%d %b %Y}".replace(" 0", " "), (
        each.workings
    )


def _told_once(named: Iterable[tuple[str, Sequence[Working]]]) -> Iterator[Group]:
    """The groups without what an earlier one of the same zone, spot or thing has told."""
    told: set[tuple[str, Working]] = set()
    for title, workings in named:
        of, _, _ = title.partition(": ")
        fresh = tuple(each for each in dict.fromkeys(workings) if (of, each) not in told)
        told |= {(of, each) for each in fresh}
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


def inputs_told(working: Working) -> str:
    """The inputs in one sentence: "Depth 0.55 in (worked out); evenness 0.65* (assumed)"."""
    return "; ".join(_input_told(each) for each in working.inputs)


def _input_told(each: Input) -> str:
    value = each.value.replace(" ", _NO_BREAK)
    mark = ASSUMED if each.is_default else ""
    origin = f" ({each.origin})" if each.origin else ""
    return f"{each.name} {value}{mark}{origin}"


def cited_told(working: Working, sources: Sequence[str]) -> str:
    """The numbers of a working's sources in brackets: "[2, 5]"; empty where it cites none."""
    numbers = sorted({sources.index(part) + 1 for part in parts_of(working) if part in sources})
    parting = f",{_NO_BREAK}"
    return f"[{parting.join(map(str, numbers))}]" if numbers else ""
