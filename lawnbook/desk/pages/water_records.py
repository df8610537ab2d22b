"""The waterings an owner notes down for a zone, and what of each is counted."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from lawnbook.desk.pages.entry_panel import Answer, EntrySetting
from lawnbook.desk.pages.record_table import Row
from lawnbook.frozen import dataclass
from lawnbook.plan.root_days import net_depth_in, net_runoff_in
from lawnbook.plan.working_model import Working
from lawnbook.plan.zone_facts import facts_of, setting_of
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import as_of
from lawnbook.yard.numbers import day, inches, minutes
from lawnbook.yard.records import Watering

ZoneId = Callable[[], str]
LEAST_TOLD_IN = 0.005
"""Less than this shows as nothing."""

ONE_OF_BOTH = tr(
    "Minutes run, or the depth a can caught: one of them. Counted is what the "
    "drier half gets, less than the cans show."
)


def watering_setting(book: OpenNotebook, zone_id: ZoneId) -> EntrySetting:
    """The entry of waterings of the zone that `zone_id` names when asked."""

    def rows() -> Sequence[Row]:
        kept = [each for each in book.notebook.waterings.values() if each.zone == zone_id()]
        kept.sort(key=lambda each: each.date, reverse=True)
        counted = _counting(book, zone_id())
        return [_watering_row(each, counted(each)) for each in kept]

    return EntrySetting(
        table="waterings",
        noun="watering",
        names=("date", "minutes", "cycles", "depth_in"),
        heads=(tr("Day"), tr("Run"), tr("Depth in the can"), tr("Counted")),
        rows=rows,
        title=lambda each: tr("watering of {date}", date=day(each.date)),
        given=lambda: {"zone": zone_id(), "date": book.today},
        answer=_one_of_both,
        empty=tr("None yet. Each one kept here moves the next watering."),
        columns=4,
        most_rows=4,
        workings=lambda watering_id: _workings(book, watering_id),
    )


def _workings(book: OpenNotebook, watering_id: str) -> Sequence[Working]:
    from lawnbook.plan.record_workings import of_record

    return of_record(book.notebook, book.today, "waterings", watering_id)


def _one_of_both(values: Mapping[str, Any]) -> Answer:
    if values.get("minutes") is not None and values.get("depth_in") is not None:
        return tr("Minutes or depth, not both: clear one of them."), "ask"
    return ONE_OF_BOTH, "caption"


@dataclass(frozen=True, slots=True)
class Counted:
    """What of a watering the plan counts, in net inches, and what it takes to have run off."""

    net_in: float
    runoff_in: float


def _counting(book: OpenNotebook, zone_id: str) -> Callable[[Watering], Counted | None]:
    """How a zone's waterings are counted; None for one whose rate is not known."""
    notebook = as_of(book.notebook, book.today)
    zone = notebook.zones.get(zone_id)
    if zone is None:
        return lambda _: None
    facts = facts_of(setting_of(notebook, book.today), zone, 1)

    def counted(watering: Watering) -> Counted | None:
        net = net_depth_in(facts, watering)
        if net is None:
            return None
        return Counted(net, net_runoff_in(facts, net, watering.cycles))

    return counted


def _watering_row(each: Watering, counted: Counted | None) -> Row:
    depth = "–" if each.depth_in is None else inches(each.depth_in)
    entered, told = "–", tr("nothing is counted until the rate is known")
    if counted is not None:
        entered = inches(counted.net_in - counted.runoff_in)
        told = tr("{entered} counted, net for the drier half", entered=entered)
        if counted.runoff_in >= LEAST_TOLD_IN:
            told = tr(
                "{told}; {runoff_in} ran off for want of cycles",
                told=told,
                runoff_in=inches(counted.runoff_in),
            )
    run = _run_words(each)
    cells = (day(each.date), run, depth, entered)
    return Row(
        each.id,
        cells,
        tr(
            "Watering of {cells}: {part}; {told}",
            cells=cells[0],
            part=run if run != "–" else depth,
            told=told,
        ),
    )


def _run_words(each: Watering) -> str:
    if each.minutes is None:
        return "–"
    cycles = (
        tr(" in {cycles} cycles", cycles=each.cycles) if each.cycles and each.cycles > 1 else ""
    )
    return f"{minutes(each.minutes)}{cycles}"
