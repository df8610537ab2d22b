"""The glossary's pictures of water: the store, its use, the runs."""

from math import exp, pi, sin

from lawnbook.charts.glossary_parts import area, arrow, box, bracket, line, words
from lawnbook.charts.marks import Frame, Mark, Picture, Spot, rectangle
from lawnbook.reading import tr


def bucket(frame: Frame) -> Picture:
    """The store in the rooted soil: field capacity, what may be used, wilting."""
    left, right, top, floor = 40.0, 150.0, 24.0, frame.height - 20
    full, wilted = top + 22, floor - 34
    allowed = full + 0.4 * (wilted - full)
    marks: list[Mark] = [
        area(rectangle(left, full, right, allowed), "water", 0.45),
        area(rectangle(left, allowed, right, wilted), "water", 0.8),
        area(rectangle(left, wilted, right, floor), "soil"),
        line((left, top), (left, floor), (right, floor), (right, top), width=1.6),
        line((left - 10, full), (right + 8, full), role="accent"),
        line((left - 10, wilted), (right + 8, wilted), role="accent"),
        bracket(right + 24, full, allowed),
        bracket(right + 24, allowed, wilted),
        words(right + 14, full - 6, tr("Field capacity: full")),
        words(right + 32, (full + allowed) / 2 + 3, tr("may be used: allowed depletion")),
        words(right + 32, (allowed + wilted) / 2 + 3, tr("kept in reserve against stress")),
        words(right + 14, wilted + 14, tr("Wilting: roots can take no more")),
    ]
    return Picture(frame, tuple(marks))


def depletion(frame: Frame) -> Picture:
    """Depletion day by day: it grows by use, falls by rain, and watering fills the store."""
    left, right, top, floor = 34.0, frame.width - 16, 34.0, frame.height - 34
    limit = top + 0.72 * (floor - top)
    used = (0.0, 0.14, 0.28, 0.42, 0.3, 0.44, 0.58, 0.72, 0.0, 0.14, 0.28, 0.42)
    step = (right - left) / (len(used) - 1)
    points = [(left + step * day, top + share * (floor - top)) for day, share in enumerate(used)]
    below = [*points, (right, top), (left, top)]
    rain, watered = points[4], points[8]
    marks: list[Mark] = [
        area(below, "water", 0.25),
        line((left, top), (right, top), role="quiet"),
        line((left, limit), (right, limit), role="warn", dashed=True),
        line(*points, role="water", width=1.8),
        line((left, top), (left, floor), role="quiet"),
        words(left, top - 10, tr("full")),
        words(right, limit + 13, tr("allowed depletion"), "warn", "right"),
        words(rain[0], rain[1] + 30, tr("rain"), "water", "center"),
        *arrow((rain[0], rain[1] + 20), (rain[0], rain[1] + 4), "water"),
        words(watered[0], top - 10, tr("watered"), "water", "center"),
        words(right, frame.height - 10, tr("days"), "quiet", "right"),
        *arrow((left, floor + 14), (right - 34, floor + 14)),
    ]
    return Picture(frame, tuple(marks))


def use(frame: Frame) -> Picture:
    """A year's ETo, and below it the use of the grass: ETo times Kc."""
    left, right, top, floor = 30.0, frame.width - 130, 24.0, frame.height - 30
    high = floor - top
    months = [month / 2 for month in range(23)]

    def at(month: float, share: float) -> Spot:
        return left + (right - left) * month / 11, floor - high * share

    bell = {month: 0.18 + 0.76 * sin(pi * month / 11) ** 2 for month in months}
    eto = [at(month, bell[month]) for month in months]
    etc = [at(month, bell[month] * (0.55 + 0.25 * sin(pi * month / 11))) for month in months]
    marks: list[Mark] = [
        area([*etc, (right, floor), (left, floor)], "water", 0.3),
        line((left, top), (left, floor), (right, floor), role="quiet"),
        line(*eto, role="warn", width=1.6, dashed=True),
        line(*etc, role="water", width=1.8),
        words(right + 8, eto[-1][1] - 44, tr("ETo: the weather")),
        words(right + 8, eto[-1][1] - 30, tr("(dashed)"), "quiet"),
        words(right + 8, etc[-1][1] + 2, tr("ETc = ETo × Kc:")),
        words(right + 8, etc[-1][1] + 16, tr("your grass")),
        words(left, frame.height - 12, tr("January"), "quiet"),
        words(right, frame.height - 12, tr("December"), "quiet", "right"),
    ]
    return Picture(frame, tuple(marks))


def cycle(frame: Frame) -> Picture:
    """One run beside the same run in cycles: what stands on the ground stays below the edge."""
    left, right = 20.0, frame.width - 20
    middle = frame.width / 2
    marks: list[Mark] = []
    for start, end, runs, told in (
        (left, middle - 16, ((0.0, 1.0),), tr("in one run: it runs off")),
        (
            middle + 16,
            right,
            ((0.0, 0.26), (0.38, 0.64), (0.76, 1.0)),
            tr("three cycles: none does"),
        ),
    ):
        marks += _run(frame, (start, end), runs)
        marks.append(words((start + end) / 2, frame.height - 8, told, align="center"))
    marks.append(words(left, 14, tr("Water on the ground, by time"), "quiet"))
    marks.append(words(right, 48, tr("run-off above"), "warn", "right"))
    return Picture(frame, tuple(marks))


def _run(
    frame: Frame, across: tuple[float, float], runs: tuple[tuple[float, float], ...]
) -> list[Mark]:
    """What stands on the ground while valves are open and shut, and the bars of the runs."""
    left, right = across
    ground, edge = frame.height - 44, 54.0
    wide = (right - left) * (0.62 if len(runs) == 1 else 1.0)
    points: list[Spot] = [(left, ground)]
    marks: list[Mark] = []
    for index, (start, end) in enumerate(runs):
        x, till = left + wide * start, left + wide * end
        high = (ground - edge) * (1.25 if len(runs) == 1 else 0.8)
        dry = left + wide * (runs[index + 1][0] if index + 1 < len(runs) else end + 0.2)
        points += [(x, ground), (till, ground - high), (min(dry, right), ground)]
        marks.append(box(x, ground + 8, till, ground + 18, "accent"))
    marks += [
        area(points, "water", 0.6),
        line((left, ground), (right, ground), role="soil", width=2.0),
        line((left, edge), (right, edge), role="warn", dashed=True),
    ]
    return marks


def growth(frame: Frame) -> Picture:
    """Growth over the year: two peaks of cool-season grass, one of warm-season grass."""
    left, right, top, floor = 30.0, frame.width - 20, 40.0, frame.height - 30
    months = [month / 3 for month in range(34)]

    def potential(month: float, best_f: float, width_f: float) -> float:
        warm = 30 + 54 * sin(pi * (month + 0.5) / 12) ** 2
        return exp(-0.5 * ((warm - best_f) / width_f) ** 2)

    def curve(best_f: float, width_f: float) -> list[Spot]:
        return [
            (
                left + (right - left) * month / 11,
                floor - (floor - top) * potential(month, best_f, width_f),
            )
            for month in months
        ]

    marks: list[Mark] = [
        line((left, top), (left, floor), (right, floor), role="quiet"),
        line(*curve(68, 10), role="verdure", width=1.8),
        line(*curve(88, 12), role="warn", width=1.8, dashed=True),
        words(left, 16, tr("Growth potential: cool-season (solid), warm-season (dashed)"), "quiet"),
        words(left, frame.height - 12, tr("January"), "quiet"),
        words(right, frame.height - 12, tr("December"), "quiet", "right"),
        words(left + 4, top - 6, tr("100 %"), "quiet"),
    ]
    return Picture(frame, tuple(marks))
