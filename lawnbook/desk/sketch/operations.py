"""What can be done with shapes: one registry for the Shapes section and the menus.

Every operation says why it cannot be done now, keeps one step for undo, and tells what it did.
"""

from collections.abc import Callable
from types import MappingProxyType
from typing import Literal

from lawnbook.desk.sketch import placing_shapes as place
from lawnbook.desk.sketch import shaping as shape
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.operating import lacks_choice, lacks_several, lacks_unlocked
from lawnbook.frozen import dataclass
from lawnbook.reading import tr

Group = Literal["Change", "Place", "Order"]
WhyNot = Callable[[SketchControl], str]
Run = Callable[[SketchControl], None]


@dataclass(frozen=True, slots=True)
class Operation:
    """One thing that can be done with what is chosen.

    `key` works everywhere in the window, "" for none; `hint` is a key that works on the sketch
    alone. `tip` says in a sentence what the operation does.
    """

    name: str
    words: str
    key: str
    group: Group
    why_not: WhyNot
    run: Run
    tip: str = ""
    hint: str = ""


def _change_ops() -> tuple[Operation, ...]:
    return (
        Operation(
            "duplicate", tr("Duplicate"), "Ctrl+J", "Change", lacks_choice, place.duplicate,
            tr("A copy of all that is chosen, beside it; records of water and feed are not "
                "copied."),
        ),
        Operation(
            "merge", tr("Merge zones"), "Ctrl+M", "Change", shape.lacks_zones, shape.merge,
            tr("One zone of those chosen; the first keeps its name and settings."),
        ),
        Operation(
            "subtract", tr("Subtract from the first"), "Ctrl+B", "Change",
            shape.lacks_cutters, shape.subtract,
            tr("The other chosen shapes are cut out of the one that was chosen first."),
        ),
        Operation(
            "cut_out", tr("Cut out what lies on it"), "Ctrl+Shift+B", "Change",
            shape.lacks_lying_on, shape.cut_out,
            tr("House, beds, paving, pool and water are cut out of the zone they lie on."),
        ),
        Operation(
            "split", tr("Split by a line"), "Ctrl+L", "Change",
            shape.lacks_one_shape, shape.split_on_sketch,
            tr("Two points on the sketch give the line; the larger part keeps the name."),
        ),
        Operation(
            "strip", tr("Strip along its edge…"), "", "Change",
            shape.lacks_one_shape, shape.ask_strip,
            tr("Its side and width are typed on the yard page, under Shapes."),
        ),
        Operation(
            "remove", tr("Remove"), "", "Change", lacks_unlocked, shape.remove,
            tr("Takes away what is chosen, with what hangs on it."), "Delete",
        ),
    )  # fmt: skip


def _place_ops() -> tuple[Operation, ...]:
    lined_up = tuple(
        Operation(
            f"align_{edge}", words, "", "Place", lacks_several, place.align_to(edge),
            tr("{tip} of the shape that was chosen first.", tip=tip),
        )
        for edge, words, tip in place.EDGES
    )  # fmt: skip
    gaps = tuple(
        Operation(
            f"gaps_{axis}", words, "", "Place", place.lacks_three, place.even_gaps(axis),
            tr("The outermost two stay where they are."),
        )
        for axis, words in place.GAPS
    )  # fmt: skip
    return (
        Operation(
            "mirror_across", tr("Mirror left to right"), "Ctrl+Shift+L", "Place",
            lacks_unlocked, place.mirror_across, tr("About the middle of what is chosen."),
        ),
        Operation(
            "mirror_upright", tr("Mirror top to bottom"), "Ctrl+Shift+U", "Place",
            lacks_unlocked, place.mirror_upright, tr("About the middle of what is chosen."),
        ),
        Operation(
            "mirror_line", tr("Mirror on a line"), "", "Place",
            lacks_unlocked, place.mirror_on_sketch, tr("Two points on the sketch give the line."),
        ),
        Operation(
            "turn_right", tr("Quarter turn right"), "Ctrl+R", "Place",
            lacks_unlocked, place.quarter_turn(90.0), tr("Clockwise, about the middle."),
        ),
        Operation(
            "turn_left", tr("Quarter turn left"), "Ctrl+Shift+R", "Place",
            lacks_unlocked, place.quarter_turn(-90.0), tr("Counter-clockwise, about the middle."),
        ),
        Operation(
            "turn_by", tr("Turn by…"), "", "Place", lacks_unlocked, place.ask_turn,
            tr("The degrees are typed on the yard page, under Shapes."),
        ),
        *lined_up,
        *gaps,
    )  # fmt: skip


def _order_ops() -> tuple[Operation, ...]:
    steps = tuple(
        Operation(
            f"order_{to}", words, "", "Order", place.lacks_room(to), place.reorder(to),
            tr("The order is that of the zones’ numbers; of two shapes the later lies on "
                "top."), hint,
        )
        for to, words, hint in place.STEPS
    )  # fmt: skip
    return (
        *steps,
        Operation(
            "lock", tr("Lock"), "", "Order", place.lacks_lock(on=True), place.lock(on=True),
            tr("Locked shapes can be chosen and read, but not changed on the sketch."), "K",
        ),
        Operation(
            "unlock", tr("Unlock"), "", "Order", place.lacks_lock(on=False), place.lock(on=False),
            tr("They can be changed again."), "K",
        ),
    )  # fmt: skip


OPERATIONS: tuple[Operation, ...] = (*_change_ops(), *_place_ops(), *_order_ops())
"""Every operation, in the order in which buttons and menus show them."""

BY_NAME: MappingProxyType[str, Operation] = MappingProxyType(
    {each.name: each for each in OPERATIONS}
)


def of_group(group: Group) -> tuple[Operation, ...]:
    """The operations of a group, in order."""
    return tuple(each for each in OPERATIONS if each.group == group)


def run_by_name(control: SketchControl, name: str) -> None:
    """Carry an operation out, or say why it cannot be done now. KeyError for an unknown one."""
    operation = BY_NAME[name]
    why = operation.why_not(control)
    if why:
        control.say(why, "warn")
    else:
        operation.run(control)
