"""Operations that put shapes elsewhere, or elsewhere in their order, and that lock them."""

from collections.abc import Callable

from lawnbook.desk.sketch.choosing import is_locked, number_of
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.operating import (
    NOTHING,
    at_start,
    carry_out,
    chosen_records,
    is_gone,
    lacks_several,
    lacks_unlocked,
    middle_of,
    names_of,
)
from lawnbook.reading import tr
from lawnbook.yard.amounts import trimmed
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Change, Key
from lawnbook.yard.numbers import counted, plain
from lawnbook.yard.records import Zone
from lawnbook.yard.shape_edits import (
    Axis,
    Edge,
    Order,
    aligned,
    duplicated,
    locked,
    mirrored,
    moved,
    reordered,
    spread_out,
    turned,
)

Run = Callable[[SketchControl], None]
WhyNot = Callable[[SketchControl], str]

BESIDE_FT = 3.0
"""How far right and down the page a duplicate is put, so that both can be seen."""

EDGES: tuple[tuple[Edge, str, str], ...] = (
    ("left", tr("Align left"), tr("Left edges on the left edge")),
    ("right", tr("Align right"), tr("Right edges on the right edge")),
    ("centre", tr("Centre across"), tr("Middles, left to right, on the middle")),
    ("top", tr("Align top"), tr("Upper edges on the upper edge")),
    ("bottom", tr("Align bottom"), tr("Lower edges on the lower edge")),
    ("middle", tr("Centre up and down"), tr("Middles, up and down, on the middle")),
)
GAPS: tuple[tuple[Axis, str], ...] = (
    ("across", tr("Even gaps across")),
    ("up", tr("Even gaps up")),
)
STEPS: tuple[tuple[Order, str, str], ...] = (
    ("first", tr("Make it first"), ""),
    ("up", tr("Earlier by one"), tr("Page Up")),
    ("down", tr("Later by one"), tr("Page Down")),
    ("last", tr("Make it last"), ""),
)
_THREE = 3


def duplicate(control: SketchControl) -> None:
    """Put a copy of all that is chosen beside it, and choose the copy."""
    keys = tuple(chosen_records(control))
    made: list[Key] = []

    def copied() -> Change:
        change, copies = duplicated(control.notebook, keys, (BESIDE_FT, -BESIDE_FT))
        made[:] = copies
        return change

    def told(_change: Change) -> str:
        control.choose_all(made)
        by = trimmed(BESIDE_FT, 2, "ft")
        return tr(
            "{named} put down, {by} right and {by} down the page.", named=_named(control), by=by
        )

    carry_out(
        control, copied, tr("duplicate {names_of}", names_of=names_of(control.notebook, keys)), told
    )


def mirror(control: SketchControl, keys: tuple[Key, ...], a: Point, b: Point) -> bool:
    """Mirror shapes on the endless line through two points; whether it was done."""
    notebook, names = control.notebook, names_of(control.notebook, keys)
    return carry_out(
        control,
        lambda: mirrored(notebook, keys, a, b),
        tr("mirror {names}", names=names),
        lambda _: tr("{at_start} mirrored.", at_start=at_start(names)),
    )


def mirror_across(control: SketchControl) -> None:
    """Mirror left to right, about the middle of all that is chosen."""
    records = chosen_records(control)
    x, y = middle_of(records.values())
    mirror(control, tuple(records), (x, y), (x, y + 1))


def mirror_upright(control: SketchControl) -> None:
    """Mirror top to bottom, about the middle of all that is chosen."""
    records = chosen_records(control)
    x, y = middle_of(records.values())
    mirror(control, tuple(records), (x, y), (x + 1, y))


def mirror_on_sketch(control: SketchControl) -> None:
    """Ask for a line on the sketch and mirror what is chosen on it."""
    keys = tuple(chosen_records(control))
    words = tr("Mirror: press and drag along the line to mirror on, or click its two ends.")

    def done(a: Point, b: Point) -> None:
        if not is_gone(control, keys):
            mirror(control, keys, a, b)

    control.ask_line(words, done)


def turn(control: SketchControl, deg: float) -> bool:
    """Turn all that is chosen clockwise about its middle; whether it was done."""
    records = chosen_records(control)
    notebook, keys = control.notebook, tuple(records)
    names, about = names_of(notebook, keys), middle_of(records.values())
    return carry_out(
        control,
        lambda: turned(notebook, keys, deg, about),
        tr("turn {names}", names=names),
        lambda _: tr(
            "{names} turned {deg}° clockwise."
            if deg > 0
            else "{names} turned {deg}° counter-clockwise.",
            names=at_start(names),
            deg=plain(abs(deg)),
        ),
    )


def ask_turn(control: SketchControl) -> None:
    """Ask for the degrees of a turn where they are typed."""
    control.form_asked.emit("turn")


def quarter_turn(deg: float) -> Run:
    """The operation that turns by a quarter: 90 clockwise, -90 the other way."""

    def run(control: SketchControl) -> None:
        turn(control, deg)

    return run


def move(control: SketchControl, by: Point) -> bool:
    """Move all that is chosen by a step right and up the page; whether it was done."""
    notebook, keys = control.notebook, tuple(chosen_records(control))
    names = names_of(notebook, keys)
    right, up = (trimmed(each, 2, "ft") for each in by)
    return carry_out(
        control,
        lambda: moved(notebook, keys, by),
        tr("move {names}", names=names),
        lambda _: tr(
            "{at_start} moved by {right} right, {up} up.",
            at_start=at_start(names),
            right=right,
            up=up,
        ),
    )


def align_to(edge: Edge) -> Run:
    """The operation that lines the chosen up with the one that was chosen first."""

    def run(control: SketchControl) -> None:
        notebook, keys = control.notebook, tuple(chosen_records(control))
        first, rest = names_of(notebook, keys[:1]), names_of(notebook, keys[1:])
        carry_out(
            control,
            lambda: aligned(notebook, keys, edge),
            tr("align {names_of}", names_of=names_of(notebook, keys)),
            lambda _: tr("{at_start} aligned with {first}.", at_start=at_start(rest), first=first),
        )

    return run


def lacks_three(control: SketchControl) -> str:
    """Even gaps need three shapes, none of them locked."""
    return lacks_several(control, _THREE)


def even_gaps(axis: Axis) -> Run:
    """The operation that makes the gaps between the chosen shapes even."""

    def run(control: SketchControl) -> None:
        notebook, keys = control.notebook, tuple(chosen_records(control))
        names = names_of(notebook, keys)
        carry_out(
            control,
            lambda: spread_out(notebook, keys, axis),
            tr("even gaps between {names}", names=names),
            lambda _: tr("{at_start} stand with even gaps.", at_start=at_start(names)),
        )

    return run


def lacks_room(to: Order) -> WhyNot:
    """What keeps the one that is chosen from going there in its order."""

    def why_not(control: SketchControl) -> str:
        keys = tuple(chosen_records(control))
        if len(keys) != 1:
            return tr("Choose one shape: order goes one at a time.") if keys else NOTHING
        order = list(control.notebook.table(keys[0][0]))
        ends = {"first": 0, "up": 0, "last": len(order) - 1, "down": len(order) - 1}
        if order.index(keys[0][1]) == ends[to]:
            first = ends[to] == 0
            return tr("It is the first already." if first else "It is the last already.")
        return lacks_unlocked(control)

    return why_not


def reorder(to: Order) -> Run:
    """The operation that gives what is chosen another place in the order of its kind."""

    def run(control: SketchControl) -> None:
        notebook, key = control.notebook, next(iter(chosen_records(control)))
        name = names_of(notebook, (key,))
        carry_out(
            control,
            lambda: reordered(notebook, key, to),
            tr("order of {name}", name=name),
            lambda _: _order_words(control, key, name),
        )

    return run


def _order_words(control: SketchControl, key: Key, name: str) -> str:
    if isinstance(control.notebook.find(*key), Zone):
        return tr(
            "{name} is zone {number_of} now.",
            name=name,
            number_of=number_of(control.notebook, key[1]),
        )
    order = list(control.notebook.table(key[0]))
    return tr(
        "{at_start} is number {index} of {ones}.",
        at_start=at_start(name),
        index=order.index(key[1]) + 1,
        ones=counted(len(order), "one"),
    )


def lacks_lock(*, on: bool) -> WhyNot:
    """Nothing is chosen, or all of it is locked or free already."""

    def why_not(control: SketchControl) -> str:
        records = chosen_records(control)
        if records and all(is_locked(each) is on for each in records.values()):
            return tr("It is locked already.") if on else tr("It is not locked.")
        return "" if records else NOTHING

    return why_not


def lock(*, on: bool) -> Run:
    """The operation that locks what is chosen, or lets it go."""

    def run(control: SketchControl) -> None:
        notebook, keys = control.notebook, tuple(chosen_records(control))
        names = names_of(notebook, keys)
        carry_out(
            control,
            lambda: locked(notebook, keys, on),
            tr("lock {names}" if on else "unlock {names}", names=names),
            lambda _: tr("{names} locked." if on else "{names} unlocked.", names=at_start(names)),
        )

    return run


def _named(control: SketchControl) -> str:
    return at_start(names_of(control.notebook, control.chosen_keys))
