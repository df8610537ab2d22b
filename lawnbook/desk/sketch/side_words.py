"""What the drawing tools say of lengths that are typed: how they are written, and what is none."""

from lawnbook.desk.telling import either
from lawnbook.reading import tr


def side_example() -> str:
    """A side's length as the owner may type it."""
    return either("32' 6\"", "9.9")


def longer_than_nothing(what: str) -> str:
    """What is wrong with a side of no length, and the mend."""
    us = tr("{what}: a side is longer than nothing; enter feet, such as 20.", what=what)
    metric = tr("{what}: a side is longer than nothing; enter metres, such as 6.", what=what)
    return either(us, metric)


def corners_hint() -> str:
    """How an outline is drawn corner by corner."""
    return tr(
        "Click corner after corner; Enter or the first corner closes. "
        "Or drag a rectangle, or type a side: {side} < 90.",
        side=side_example(),
    )


def circle_hint() -> str:
    """How a circle is drawn."""
    return tr(
        "Drag from the middle outward, or click the middle and type the radius. The curve "
        "is flattened to within {little}.",
        little=flattened_to(),
    )


def next_side_hint() -> str:
    """What may follow a corner."""
    return tr(
        "Type the next side, such as {side} < R90, and Enter. A begins an arc, Q closes square, "
        "Backspace takes a corner back.",
        side=side_example(),
    )


def arc_hint() -> str:
    """How an arc is drawn."""
    return tr(
        "Click a point on the curve, then its end, or type the rise of the last side. The curve is "
        "flattened to within {little}.",
        little=flattened_to(),
    )


def flattened_to() -> str:
    """How far the sides of a round shape are from its curve at most."""
    return either(tr("half an inch"), "13 mm")
