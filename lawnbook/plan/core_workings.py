"""How each figure beneath a plug's column came about: thatch, its spread, roots, and what is told.

What was counted or judged by eye, worms and sponge, is told as typed, with its day and place.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from functools import partial

from lawnbook.plan.filled_in import by_function, readings_in
from lawnbook.plan.ground_workings import plug_workings
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import given, sources, told, told_exactly
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Core


def core_workings(notebook: Notebook, core_id: str) -> tuple[Working, ...]:
    """Those of a kept plug, as its column tells them; none of one that is gone."""
    core = notebook.cores.get(core_id)
    spot = None if core is None else notebook.spots.get(core.spot)
    if core is None or spot is None:
        return ()
    origin = tr("plug of {day} at {spot}", day=day(core.date), spot=spot.name)
    return (*plug_workings(core, spot.name), *_spread(core, origin), *_typed(core, origin))


def _spread(core: Core, origin: str) -> Iterator[Working]:
    """The standard deviation of a plug's readings; none of fewer than two."""
    count = len(core.thatch_in)
    if count < 2:
        return
    mean = sum(core.thatch_in) / count
    readings = readings_in(core.thatch_in, origin)
    squares = " + ".join(
        f"({told_exactly(each)} − {told_exactly(mean)})²" for each in core.thatch_in
    )
    yield Working(
        f"plug_spread:{core.id}",
        tr("Spread of the plug's readings"),
        told(deviation(core.thatch_in), 2, "in"),
        tr("√(sum of (reading − mean)² ÷ (readings − 1)), the standard deviation"),
        f"√(({squares}) ÷ {count - 1})",
        readings,
        sources("one-way-anova"),
        by_function(partial(_spread_anew, count), "in"),
    )


def deviation(readings: Sequence[float]) -> float:
    """The standard deviation of at least two readings."""
    mean = sum(readings) / len(readings)
    return math.sqrt(sum((each - mean) ** 2 for each in readings) / (len(readings) - 1))


def _spread_anew(count: int, numbers: Mapping[str, float]) -> float:
    return deviation([numbers[f"r{n}"] for n in range(1, count + 1)])


def _typed(core: Core, origin: str) -> Iterator[Working]:
    """Worms, sponge and soil in the thatch: what was counted or judged by eye."""
    scale = tr("judged by eye, 0 to 4")
    listed = (
        ("worms", tr("Worms in the plug"), core.worms, "{number}", tr("counted in the plug")),
        ("sponge", tr("Sponge of the plug"), core.sponge, "{number} of 4", scale),
        ("soil", tr("Soil in the thatch"), core.soil_in_thatch, "{number} of 4", scale),
    )
    for key, label, number, shown, how in listed:
        if number is not None:
            value = str(number) if shown == "{number}" else tr("{number} of 4", number=number)
            yield _as_typed(f"plug_{key}:{core.id}", label, value, (how, origin))


def _as_typed(figure: str, label: str, value: str, said: tuple[str, str]) -> Working:
    how, origin = said
    typed: tuple[Input, ...] = (given(label, value, origin),)
    return Working(figure, label, value, how, "", typed, sources())
