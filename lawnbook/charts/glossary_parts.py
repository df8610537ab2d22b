"""The few marks that the glossary's pictures are made of."""

from collections.abc import Iterable

from lawnbook.charts.marks import Align, Face, Mark, Polygon, Polyline, Ring, Spot, Words, rectangle

SMALL_PT = 9.0
DASH = (3.0, 2.0)


def box(left: float, top: float, right: float, bottom: float, fill: str) -> Mark:
    """A filled rectangle with a thin edge."""
    return Polygon(rings=(rectangle(left, top, right, bottom),), fill=fill, edge="quiet", width=0.7)


def area(points: Iterable[Spot], fill: str, alpha: float = 1.0) -> Mark:
    """A filled shape without an edge."""
    return Polygon(rings=(tuple(points),), fill=fill, alpha=alpha)


def line(*points: Spot, role: str = "ink", width: float = 1.0, dashed: bool = False) -> Mark:
    """An open line."""
    return Polyline(lines=(points,), role=role, width=width, dash=DASH if dashed else ())


def lines(rings: Iterable[Ring], role: str = "quiet", width: float = 0.7) -> Mark:
    """Several open lines in one style."""
    return Polyline(lines=tuple(rings), role=role, width=width)


def words(
    x: float, y: float, text: str, role: str = "ink", align: Align = "left", face: Face = "regular"
) -> Mark:
    """A line of words on its baseline."""
    return Words(at=(x, y), text=text, role=role, size=SMALL_PT, face=face, align=align)


def arrow(start: Spot, end: Spot, role: str = "quiet") -> tuple[Mark, ...]:
    """A thin arrow with a filled head."""
    (ax, ay), (bx, by) = start, end
    length = max(1e-9, ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5)
    ux, uy = (bx - ax) / length, (by - ay) / length
    foot = (bx - 6 * ux, by - 6 * uy)
    head = (
        (bx, by),
        (foot[0] - 2.5 * uy, foot[1] + 2.5 * ux),
        (foot[0] + 2.5 * uy, foot[1] - 2.5 * ux),
    )
    return (line(start, foot, role=role), area(head, role))


def bracket(x: float, top: float, bottom: float) -> Mark:
    """A bracket open to the left, from top to bottom."""
    return line((x - 4, top), (x, top), (x, bottom), (x - 4, bottom), role="quiet")


def blades(left: float, right: float, ground: float, height: float) -> Mark:
    """Grass: slanting blades that stand on the ground."""
    count = max(2, int((right - left) / 5))
    step = (right - left) / count
    made: list[Ring] = []
    for number in range(count):
        x = left + (number + 0.5) * step
        lean = (number % 3 - 1) * 2.0
        made.append(((x, ground), (x + lean, ground - height * (0.75 + 0.25 * (number % 2)))))
    return Polyline(lines=tuple(made), role="verdure", width=1.6)


def roots(left: float, right: float, top: float, depth: float) -> Mark:
    """Roots: crooked lines down from a level."""
    count = max(2, int((right - left) / 9))
    step = (right - left) / count
    made: list[Ring] = []
    for number in range(count):
        x = left + (number + 0.5) * step
        down = depth * (1.0 - 0.12 * (number % 3))
        side = 2.0 if number % 2 else -2.0
        made.append(((x, top), (x + side, top + 0.4 * down), (x - side / 2, top + down)))
    return Polyline(lines=tuple(made), role="root", width=1.1)


def head(x: float, ground: float) -> Mark:
    """A sprinkler head that stands in the ground, seen from the side."""
    return Polygon(
        rings=(
            (
                (x - 3, ground + 12),
                (x - 3, ground - 6),
                (x - 4, ground - 9),
                (x + 4, ground - 9),
                (x + 3, ground - 6),
                (x + 3, ground + 12),
            ),
        ),
        fill="ink",
    )
