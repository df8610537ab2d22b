"""The glossary's picture of the texture triangle: the twelve classes of the USDA."""

from lawnbook.charts.glossary_parts import SMALL_PT, line, lines, words
from lawnbook.charts.marks import Frame, Mark, Picture, Polygon, Ring, Spot, Words
from lawnbook.reading import tr

LINES: tuple[tuple[Spot, ...], ...] = (
    ((45, 40), (20, 40), (0, 40)),
    ((20, 40), (0, 60)),
    ((45, 55), (45, 27)),
    ((65, 35), (45, 35)),
    ((45, 27), (23, 27), (0, 27)),
    ((20, 40), (20, 27)),
    ((45, 27), (52, 20)),
    ((80, 20), (52, 20)),
    ((52, 20), (52, 7), (43, 7)),
    ((23, 27), (43, 7), (50, 0)),
    ((20, 0), (8, 12), (0, 12)),
    ((85, 15), (70, 0)),
    ((90, 10), (85, 0)),
)
"""Where classes meet, as percent of sand and of clay; silt is the rest (source "usda-texture")."""

CLASS_WORDS_TO_TELL: tuple[tuple[float, float, tuple[str, ...]], ...] = (
    (22, 62, ("clay",)),
    (6, 46, ("silty", "clay")),
    (52, 41, ("sandy", "clay")),
    (33, 33, ("clay loam",)),
    (9, 33, ("silty clay", "loam")),
    (60, 27, ("sandy clay", "loam")),
    (40, 18, ("loam",)),
    (20, 14, ("silt loam",)),
    (64, 11, ("sandy loam",)),
    (5, 5, ("silt",)),
    (82, 7, ("loamy", "sand")),
    (93, 3, ("sand",)),
)
"""Where each class's name stands, as percent of sand and of clay."""


def triangle(frame: Frame) -> Picture:
    """The triangle: clay upwards, sand to the left, silt to the right."""
    high = frame.height - 42
    side = min(frame.width - 60, high / 0.866)
    left, floor = (frame.width - side) / 2, frame.height - 22

    def at(sand: float, clay: float) -> Spot:
        # Half of the clay's share leans over, as in every such triangle.
        silt = 100 - sand - clay
        return left + (silt + clay / 2) / 100 * side, floor - clay / 100 * side * 0.866

    corners = (at(100, 0), at(0, 0), at(0, 100))
    grid: list[Ring] = []
    for step in (20, 40, 60, 80):
        grid += [
            (at(100 - step, step), at(0, step)),
            (at(step, 0), at(step, 100 - step)),
            (at(100 - step, 0), at(0, 100 - step)),
        ]
    marks: list[Mark] = [
        Polygon(rings=(corners,), fill="card", edge="ink", width=1.2),
        lines(grid, "rule", 0.5),
        *(line(*(at(*point) for point in each), role="quiet", width=1.3) for each in LINES),
        words(corners[0][0], floor + 15, tr("100 % sand"), "quiet", "center"),
        words(corners[1][0], floor + 15, tr("100 % silt"), "quiet", "center"),
        words(corners[2][0], corners[2][1] - 6, tr("100 % clay"), "quiet", "center"),
    ]
    for sand, clay, told in CLASS_WORDS_TO_TELL:
        x, y = at(sand, clay)
        top = y + 3 - 5 * (len(told) - 1)
        for row, each in enumerate(told):
            mark = Words(
                at=(x, top + 10 * row), text=tr(each), size=SMALL_PT, align="center", halo="card"
            )
            marks.append(mark)
    return Picture(frame, tuple(marks))
