"""What the plugs page says, as plain words made of plan figures. No Qt."""

from collections.abc import Mapping, Sequence
from typing import Any

from lawnbook.agronomy.trend import summary
from lawnbook.plan.plug_model import PlugColumn, SpotThatch
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day, inches, plain

DIG = "Hand tools only. Before digging deeper, have buried lines marked (811 in the US)."
SCALES = "Sponge: 0 firm to 4 deep give. Soil in the thatch: 0 none to 4 all through."
NO_SPOT = (
    "No spot yet. A spot is a fixed place where you pull a plug now and then, so that this "
    "year's can be laid beside last year's. Put one where the thatch is worst, one where it is not."
)


def shorter(spot: SpotThatch) -> str:
    """The figures behind the verdict in one line; empty before the first reading."""
    if spot.latest_in is None or spot.first_in is None:
        return ""
    if spot.change_in is None:
        return f"Thatch {inches(spot.latest_in)} on the one plug read so far."
    words = f"From {inches(spot.first_in)} to {inches(spot.latest_in)} over {spot.plugs} plugs"
    if spot.half_inch_between is not None and spot.latest_in > 0.5:
        first, last = spot.half_inch_between
        words += f"; half an inch between {day(first)} and {day(last)} at this pace"
    return f"{words}."


def proof(notebook: Notebook) -> str:
    """What these plugs can and cannot prove."""
    if any(spot.comparison for spot in notebook.spots.values()):
        return "Read it beside the untreated comparison spot before you credit the repair."
    return "No comparison spot: this shows the change, not its cause."


def live_answer(values: Mapping[str, Any], spot: SpotThatch | None, core_id: str) -> str:
    """What the readings typed so far come to, and how the last plug compares."""
    readings = values.get("thatch_in") or ()
    if not readings:
        return "Three readings round the plug say more than one."
    read = summary(readings)
    listed = ", ".join(f"{each:.2f}" for each in readings)
    if read.spread is None:
        words = f"Reading {inches(read.mean)}."
    else:
        words = f"Readings {listed} in: mean {read.mean:.2f}, spread {read.spread:.2f}."
    last = _last_before(spot, core_id, values)
    if last is not None and last.thatch_in is not None:
        words += f" {day(last.date)} it was {last.thatch_in:.2f}."
    return words


def described(spot: SpotThatch) -> str:
    """The chart in words, for those who cannot see it."""
    return "; ".join(f"{day(each.date)}: {_column(each)}" for each in spot.columns) or "No plug yet"


def row_cells(column: PlugColumn) -> tuple[str, ...]:
    """A plug as a row: date, thatch, spread, roots, sponge, soil in it, worms, note."""
    pressed = " pressed" if column.pressed else ""
    return (
        day(column.date) + pressed,
        _number(column.thatch_in, 2),
        _number(column.spread_in, 2),
        _number(column.root_depth_in, 1),
        _number(column.sponge, 0),
        _number(column.soil_in_thatch, 0),
        _number(column.worms, 0),
        column.note,
    )


def counted(spots: Sequence[SpotThatch]) -> str:
    """How many plugs there are in the yard."""
    plugs = sum(len(spot.columns) for spot in spots)
    return f"{plugs} plug{'' if plugs == 1 else 's'} on {len(spots)} spots"


def _last_before(
    spot: SpotThatch | None, core_id: str, values: Mapping[str, Any]
) -> PlugColumn | None:
    when = values.get("date")
    if spot is None or when is None:
        return None
    pressed = bool(values.get("pressed"))
    earlier = [
        each
        for each in spot.columns
        if each.core_id != core_id
        and each.date < when
        and each.pressed == pressed
        and each.thatch_in is not None
    ]
    return earlier[-1] if earlier else None


def _column(each: PlugColumn) -> str:
    thatch = "thatch not read" if each.thatch_in is None else f"thatch {inches(each.thatch_in)}"
    pressed = ", pressed" if each.pressed else ""
    roots = "" if each.root_depth_in is None else f", roots to {inches(each.root_depth_in, 1)}"
    return thatch + pressed + roots


def _number(value: float | None, places: int) -> str:
    return "" if value is None else plain(value, places) if places < 2 else f"{value:.2f}"
