"""The glossary's pictures of sprinklers: cans, evenness, spacing, matched heads."""

from math import cos, pi, sin

from lawnbook.charts.glossary_parts import area, arrow, box, head, line, words
from lawnbook.charts.marks import Disc, Frame, Mark, Picture, Polygon, Spot, rectangle
from lawnbook.reading import tr

CANS = (0.52, 0.60, 0.66, 0.70, 0.74, 0.78, 0.80, 0.84, 0.86, 0.90, 0.94, 1.0)
"""What twelve cans of the picture caught, driest first, as shares of the fullest."""


def cans(frame: Frame) -> Picture:
    """A zone from above: four heads in its corners and a grid of cans between them."""
    left, top, right, low = 24.0, 20.0, 190.0, frame.height - 24
    corners = ((left, top), (right, top), (right, low), (left, low))
    marks: list[Mark] = [
        box(left, top, right, low, "turf"),
        *(Disc(at=corner, radius=4.5, fill="ink") for corner in corners),
    ]
    for row in range(4):
        for column in range(5):
            x = left + (column + 0.5) * (right - left) / 5
            y = top + (row + 0.5) * (low - top) / 4
            marks.append(Disc(at=(x, y), radius=5, fill="card", edge="water", width=1.4))
    marks += [
        Disc(at=(right + 30, top + 20), radius=4.5, fill="ink"),
        words(right + 44, top + 23, tr("a head")),
        Disc(at=(right + 30, top + 44), radius=5, fill="card", edge="water", width=1.4),
        words(right + 44, top + 47, tr("a catch can, upright")),
        words(right + 24, top + 76, tr("Run the zone, then measure"), "quiet"),
        words(right + 24, top + 90, tr("what each can holds."), "quiet"),
    ]
    return Picture(frame, tuple(marks))


def lower_quarter(frame: Frame) -> Picture:
    """Twelve cans in order, the driest quarter marked: its mean beside the mean of all."""
    left, floor = 24.0, frame.height - 30
    high = floor - 30
    wide = (frame.width - 170) / len(CANS)
    quarter = len(CANS) // 4
    mean, low = sum(CANS) / len(CANS), sum(CANS[:quarter]) / quarter
    marks: list[Mark] = []
    for number, caught in enumerate(CANS):
        x = left + wide * number
        fill = "accent" if number < quarter else "water"
        marks.append(box(x + 2, floor - high * caught, x + wide - 2, floor, fill))
    right = left + wide * len(CANS)
    marks += [
        line((left, floor), (right, floor)),
        line((left, floor - high * mean), (right + 10, floor - high * mean), dashed=True),
        line((left, floor - high * low), (right + 10, floor - high * low), role="accent"),
        words(right + 16, floor - high * mean + 3, tr("mean of all")),
        words(right + 16, floor - high * low + 3, tr("mean of the"), "accent"),
        words(right + 16, floor - high * low + 16, tr("lower quarter"), "accent"),
        words(left, frame.height - 12, tr("cans, driest first"), "quiet"),
        words(right + 16, floor, tr("DU = {du}", du=f"{low / mean:.2f}"), face="semibold"),
    ]
    return Picture(frame, tuple(marks))


def spacing(frame: Frame) -> Picture:
    """Two rows of heads: one head to head, one too far apart with a dry stretch between."""
    ground = frame.height / 2 - 22
    marks: list[Mark] = []
    for row, (apart, told) in enumerate(
        ((1.0, tr("head to head: even")), (1.7, tr("too far apart: dry between")))
    ):
        y = ground + row * (frame.height / 2 - 8)
        throw = (frame.width - 60) / 4.4
        places = [30 + throw * apart * number for number in range(4 if apart == 1.0 else 3)]
        for x in places:
            for side in (-1, 1):
                far = x + side * throw
                if 0 <= far <= frame.width:
                    marks.append(area(((x, y - 9), (far, y), (x, y)), "water", 0.35))
            marks.append(head(x, y))
        marks.append(line((14, y), (frame.width - 14, y), role="verdure", width=1.6))
        marks.append(words(14, y - 34, told))
    return Picture(frame, tuple(marks))


def _sector(at: Spot, radius: float, degrees: float) -> tuple[Spot, ...]:
    steps = max(8, int(degrees / 8))
    turn = degrees / steps * pi / 180
    edge = tuple(
        (at[0] + radius * sin(turn * step), at[1] - radius * cos(turn * step))
        for step in range(steps + 1)
    )
    return edge if degrees >= 360 else (at, *edge)


def matched(frame: Frame) -> Picture:
    """A quarter, a half and a full circle: each has flow by its part, so all put down the same."""
    middle = frame.height / 2 - 6
    wide = frame.width / 3
    marks: list[Mark] = []
    parts = (
        (90.0, tr("quarter: flow × 1")),
        (180.0, tr("half: flow × 2")),
        (360.0, tr("full: flow × 4")),
    )
    for number, (degrees, told) in enumerate(parts):
        at = (wide * (number + 0.5), middle)
        ring = _sector(at, 52, degrees)
        marks.append(Polygon(rings=(ring,), fill="water", edge="water", alpha=0.4))
        marks.append(Disc(at=at, radius=4, fill="ink"))
        marks.append(words(at[0], frame.height - 10, told, align="center"))
    return Picture(frame, tuple(marks))


def release(frame: Frame) -> Picture:
    """Nitrogen set free over the weeks: quick within two, slow over ten."""
    left, right, top, floor = 30.0, frame.width - 130, 24.0, frame.height - 32
    week = (right - left) / 12

    def at(weeks: float, share: float) -> Spot:
        return left + week * weeks, floor - (floor - top) * share

    slow = [at(0, 0), at(10, 1), at(12, 1)]
    marks: list[Mark] = [
        line((left, top), (left, floor), (right, floor), role="quiet"),
        line(at(0, 0), at(2, 1), at(12, 1), role="warn", width=1.8, dashed=True),
        line(*slow, role="feed", width=1.8),
        words(right + 10, top + 4, tr("quick (dashed):"), "warn"),
        words(right + 10, top + 17, tr("two weeks"), "warn"),
        words(right + 10, top + 46, tr("slow: some ten"), "feed"),
        words(right + 10, top + 59, tr("weeks"), "feed"),
        words(left, frame.height - 12, tr("spread"), "quiet"),
        words(right, frame.height - 12, tr("12 weeks"), "quiet", "right"),
        words(left + 6, top - 8, tr("all available"), "quiet"),
    ]
    return Picture(frame, tuple(marks))


def bag(frame: Frame) -> Picture:
    """A bag with its three numbers, and what each of them is."""
    left, top, right, low = 40.0, 16.0, 150.0, frame.height - 14
    marks: list[Mark] = [
        box(left, top, right, low, "stone"),
        line((left, top + 12), (right, top + 12), role="quiet"),
    ]
    told = (
        ("20", tr("nitrogen (N), percent of the weight"), "feed"),
        ("0", tr("phosphate (P2O5)"), "ink"),
        ("5", tr("potash (K2O)"), "ink"),
    )
    for row, (number, text, role) in enumerate(told):
        y = top + 42 + 34 * row
        marks.append(area(rectangle(left + 30, y - 15, right - 30, y + 8), "card"))
        marks.append(words((left + right) / 2, y, number, "ink", "center", "semibold"))
        marks += arrow((right + 34, y - 4), (right - 26, y - 4))
        marks.append(words(right + 40, y, text, role))
    return Picture(frame, tuple(marks))


def budget(frame: Frame) -> Picture:
    """A year in twelve columns: what a month may have, what it had, and closed months hatched."""
    left, floor, top = 24.0, frame.height - 30, 30.0
    wide = (frame.width - 48) / 12
    may = (0.0, 0.0, 0.0, 0.5, 0.5, 0.0, 0.0, 0.0, 1.0, 0.8, 0.5, 0.0)
    had = (0.0, 0.0, 0.0, 0.3, 0.5, 0.0, 0.0, 0.0, 0.7, 0.0, 0.0, 0.0)
    marks: list[Mark] = []
    for month in range(12):
        x = left + wide * month
        tall = (floor - top) * may[month]
        if tall:
            marks.append(box(x + 2, floor - tall, x + wide - 2, floor, "card"))
            filled = (floor - top) * had[month]
            marks.append(area(rectangle(x + 3, floor - filled, x + wide - 3, floor), "feed"))
        else:
            marks.append(
                line((x + 3, floor - 3), (x + wide - 3, floor - 3), role="warn", width=2.5)
            )
    marks += [
        line((left, floor), (left + 12 * wide, floor)),
        words(
            left,
            16,
            tr("Outline: the month’s budget. Filled: spread. Thick line: closed."),
            "quiet",
        ),
        words(left, frame.height - 12, tr("January"), "quiet"),
        words(left + 12 * wide, frame.height - 12, tr("December"), "quiet", "right"),
    ]
    return Picture(frame, tuple(marks))
