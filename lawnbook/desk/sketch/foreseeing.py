"""What an operation or a typed figure would make, drawn on the sketch before it is kept."""

from collections.abc import Callable
from types import MappingProxyType

from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.operating import chosen_records, middle_of
from lawnbook.desk.sketch.outlines import rings_of, round_outline
from lawnbook.desk.sketch.placing_shapes import BESIDE_FT
from lawnbook.desk.sketch.shaping import ids_of, lying_on
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.notebook import Change, Key
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Head, Record, Spot, Zone
from lawnbook.yard.shape_edits import (
    Axis,
    Edge,
    aligned,
    duplicated,
    merged,
    mirrored,
    spread_out,
    subtracted,
    turned,
)

Make = Callable[[SketchControl], Change]
SPOT_FT = 1.0
"""Radius of the ring that stands for a spot."""


def foresee(control: SketchControl, make: Callable[[], Change]) -> str:
    """Draw what a change would make, nothing where it cannot be; what speaks against it."""
    try:
        change = make()
    except OwnerError as error:
        control.scene.show_preview(())
        return str(error)
    show_records(control, *(after for _, after in change.values()))
    return ""


def show_records(control: SketchControl, *records: Record | None, wrong: bool = False) -> None:
    """Draw records as they would be."""
    rings = [ring for record in records for ring in _rings(record)]
    control.scene.show_preview(rings, wrong=wrong)


def foresee_operation(control: SketchControl, name: str) -> None:
    """Draw what an operation would make of what is chosen, where it shows at once."""
    make = _MAKES.get(name)
    if make is not None and chosen_records(control):
        foresee(control, lambda: make(control))


def _rings(record: Record | None) -> tuple[Outline, ...]:
    if isinstance(record, Head):
        return (round_outline(record.at_ft, record.radius_ft, 48),)
    if isinstance(record, Spot) and record.at_ft is not None:
        return (round_outline(record.at_ft, SPOT_FT),)
    return rings_of(record)


def _keys(control: SketchControl) -> tuple[Key, ...]:
    return tuple(chosen_records(control))


def _mirrored(step: Point) -> Make:
    def make(control: SketchControl) -> Change:
        x, y = middle_of(chosen_records(control).values())
        return mirrored(control.notebook, _keys(control), (x, y), (x + step[0], y + step[1]))

    return make


def _turned(deg: float) -> Make:
    def make(control: SketchControl) -> Change:
        about = middle_of(chosen_records(control).values())
        return turned(control.notebook, _keys(control), deg, about)

    return make


def _aligned(edge: Edge) -> Make:
    return lambda control: aligned(control.notebook, _keys(control), edge)


def _spread(axis: Axis) -> Make:
    return lambda control: spread_out(control.notebook, _keys(control), axis)


def _cut_out(control: SketchControl) -> Change:
    key = _keys(control)[0]
    zone = control.notebook.find(*key)
    others = lying_on(control.notebook, zone) if isinstance(zone, Zone) else ()
    return subtracted(control.notebook, key, others)


_EDGES: tuple[Edge, ...] = ("left", "right", "top", "bottom", "centre", "middle")
_AXES: tuple[Axis, ...] = ("across", "up")
_MAKES: MappingProxyType[str, Make] = MappingProxyType(
    {
        "duplicate": lambda c: duplicated(c.notebook, _keys(c), (BESIDE_FT, -BESIDE_FT))[0],
        "merge": lambda c: merged(c.notebook, ids_of(_keys(c))),
        "subtract": lambda c: subtracted(c.notebook, _keys(c)[0], _keys(c)[1:]),
        "cut_out": _cut_out,
        "mirror_across": _mirrored((0.0, 1.0)),
        "mirror_upright": _mirrored((1.0, 0.0)),
        "turn_right": _turned(90.0),
        "turn_left": _turned(-90.0),
        **{f"align_{edge}": _aligned(edge) for edge in _EDGES},
        **{f"gaps_{axis}": _spread(axis) for axis in _AXES},
    }
)
