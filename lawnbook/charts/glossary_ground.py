"""The glossary's pictures of grass, plugs and soil."""

from lawnbook.charts.glossary_parts import (
    area,
    arrow,
    blades,
    box,
    bracket,
    line,
    lines,
    roots,
    words,
)
from lawnbook.charts.marks import Disc, Frame, Mark, Picture, hatching, rectangle
from lawnbook.reading import tr
from lawnbook.yard.amounts import told as told_amount


def profile(frame: Frame) -> Picture:
    """A plug to scale: verdure, crowns, thatch, soil, and how deep the roots go."""
    left, right, crown = 40.0, 130.0, 48.0
    soil, end, floor = crown + 26, 150.0, frame.height - 8
    marks: list[Mark] = [
        box(left, crown, right, soil, "thatch"),
        box(left, soil, right, floor, "soil"),
        blades(left, right, crown, 30),
        roots(left + 4, right - 4, crown, end - crown),
        line((left - 8, crown), (right + 8, crown), role="accent", width=1.2),
        bracket(right + 26, crown, end),
    ]
    told = (
        (30.0, tr("Verdure: the blades")),
        (crown + 3, tr("Crowns: from here all depths are read")),
        ((crown + soil) / 2 + 7, tr("Thatch")),
        (soil + 26, tr("Soil")),
        (end + 3, tr("Root depth: where most roots end")),
    )
    marks += [words(right + 36, y, text) for y, text in told]
    return Picture(frame, tuple(marks))


def thatch(frame: Frame) -> Picture:
    """Two plugs: thin thatch with roots in the soil, thick thatch with roots in the thatch."""
    ground, floor, wide = 40.0, frame.height - 24, 90.0
    marks: list[Mark] = []
    for left, deep, rooted, told in (
        (30.0, 16.0, 90.0, tr("Thin: roots reach the soil")),
        (frame.width / 2 + 10, 54.0, 60.0, tr("Thick: roots stay in it")),
    ):
        right = left + wide
        marks += [
            box(left, ground, right, ground + deep, "thatch"),
            box(left, ground + deep, right, floor, "soil"),
            blades(left, right, ground, 26),
            roots(left + 4, right - 4, ground, rooted),
            words(left, frame.height - 6, told),
        ]
    marks.append(bracket(30 + wide + 12, ground, ground + 16))
    marks.append(words(30 + wide + 18, ground + 12, tr("thatch")))
    return Picture(frame, tuple(marks))


def coring(frame: Frame) -> Picture:
    """A lawn in section with holes at even distances, and the plugs that lie on it."""
    ground, low = 70.0, 96.0
    right = frame.width - 20
    marks: list[Mark] = [
        box(20, ground, right, low, "thatch"),
        box(20, low, right, frame.height - 26, "soil"),
        blades(20, right, ground, 18),
    ]
    step = 58.0
    holes = [44.0 + step * n for n in range(int((right - 60) / step) + 1)]
    for x in holes:
        marks.append(box(x - 6, ground, x + 6, ground + 60, "paper"))
        marks.append(box(x + 12, ground - 42, x + 24, ground - 16, "soil"))
        marks.append(box(x + 12, ground - 52, x + 24, ground - 42, "thatch"))
    if len(holes) > 1:
        y, half = frame.height - 14, (holes[0] + holes[1]) / 2
        marks += [*arrow((half, y), (holes[0], y)), *arrow((half, y), (holes[1], y))]
        marks.append(words(holes[1] + 12, y + 4, tr("the same distance throughout, both ways")))
    return Picture(frame, tuple(marks))


def third(frame: Frame) -> Picture:
    """Blades before and after mowing: two thirds stay."""
    ground, tall = frame.height - 34, 108.0
    kept = tall * 2 / 3
    marks: list[Mark] = [
        area(rectangle(20, ground, frame.width - 20, ground + 8), "soil"),
        blades(40, 150, ground, tall),
        blades(frame.width / 2 + 30, frame.width - 50, ground, kept),
        line((20, ground - kept), (frame.width - 20, ground - kept), role="accent", dashed=True),
        bracket(172, ground - tall, ground - kept),
        words(178, ground - tall + 22, tr("at most a third goes")),
        words(frame.width - 20, ground - kept - 5, tr("height of cut"), "accent", "right"),
        words(40, frame.height - 8, tr("mow at this height or before")),
        words(frame.width / 2 + 30, frame.height - 8, tr("after mowing")),
    ]
    return Picture(frame, tuple(marks))


def jar(frame: Frame) -> Picture:
    """A jar with settled layers of sand, silt and clay, and water above them."""
    left, right, top, floor = 60.0, 150.0, 24.0, frame.height - 14
    sand, silt, clay = floor - 46, floor - 46 - 40, floor - 46 - 40 - 22
    marks: list[Mark] = [
        area(rectangle(left, 44, right, clay), "water", 0.35),
        box(left, clay, right, silt, "soil"),
        box(left, silt, right, sand, "stone"),
        box(left, sand, right, floor, "thatch"),
        lines(hatching((rectangle(left, silt, right, sand),), 7), "quiet", 0.5),
        line((left, top), (left, floor), (right, floor), (right, top), width=1.6),
        bracket(right + 14, clay, silt),
        bracket(right + 14, silt, sand),
        bracket(right + 14, sand, floor),
    ]
    for y, text in (
        ((clay + silt) / 2 + 3, tr("Clay: settles last, within a day")),
        ((silt + sand) / 2 + 3, tr("Silt: settles within hours")),
        ((sand + floor) / 2 + 3, tr("Sand: settles within a minute")),
    ):
        marks.append(words(right + 22, y, text))
    marks.append(words(right + 22, 48, tr("Water")))
    return Picture(frame, tuple(marks))


def ribbon(frame: Frame) -> Picture:
    """Three ribbons by their length: a loam's is short, a clay loam's longer, a clay's longest."""
    marks: list[Mark] = []
    unit = min(90.0, (frame.width - 200) / 2.4)
    for row, (inches, told) in enumerate(
        ((0.6, tr("short: a loam")), (1.5, tr("longer: a clay loam")), (2.3, tr("longest: a clay")))
    ):
        y = 34.0 + 44 * row
        marks.append(Disc(at=(34, y), radius=14, fill="soil", edge="quiet"))
        end = 46 + inches * unit
        bend = 5.0 * inches
        marks.append(
            area(((44, y - 6), (end, y - 4 + bend), (end, y + 4 + bend), (44, y + 6)), "soil")
        )
        marks.append(words(46 + 2.4 * unit + 16, y + 4, told))
    for inches in (1.0, 2.0):
        x = 46 + inches * unit
        marks.append(line((x, 14), (x, frame.height - 20), role="accent", dashed=True))
    y = frame.height - 8
    marks.append(words(46 + unit, y, told_amount(1, 0, "in"), "accent", "center"))
    marks.append(words(46 + 2 * unit, y, told_amount(2, 0, "in"), "accent", "center"))
    return Picture(frame, tuple(marks))


def slope(frame: Frame) -> Picture:
    """Four wedges of the slope bands, each with the water that stands on it before it runs."""
    marks: list[Mark] = []
    wide = (frame.width - 40) / 4
    ground = frame.height - 34
    bands = (
        (3.0, tr("up to 3 %")),
        (6.0, tr("up to 6 %")),
        (12.0, tr("up to 12 %")),
        (20.0, tr("steeper")),
    )
    for number, (percent, told) in enumerate(bands):
        left = 14 + number * (wide + 4)
        right = left + wide - 8
        # Some four times as steep as true, so that the bands can be told apart.
        rise = (right - left) * percent / 100 * 4.5
        marks.append(area(((left, ground), (right, ground), (right, ground - rise)), "soil"))
        deep = 16.0 - 3.2 * number
        x = left + min(right - left, deep * (right - left) / max(rise, 1e-9))
        level = ground - deep
        shore = (x, ground - min(rise, deep))
        marks.append(area(((left, ground), (left, level), (x, level), shore), "water", 0.7))
        marks.append(line((left, ground), (right, ground - rise), role="verdure", width=2.0))
        marks.append(words((left + right) / 2, ground + 14, told, align="center"))
    marks.append(words(14, 16, tr("The steeper, the less water stands before it runs"), "quiet"))
    marks.append(words(14, frame.height - 6, tr("(drawn steeper than true)"), "quiet"))
    return Picture(frame, tuple(marks))


def microclimate(frame: Frame) -> Picture:
    """A house between sun and shade: its sunny side dries faster, the shaded one stays moist."""
    ground, middle = frame.height - 36, frame.width / 2
    marks: list[Mark] = [
        area(rectangle(16, ground, frame.width - 16, ground + 8), "soil"),
        box(middle - 46, ground - 64, middle + 46, ground, "stone"),
        area(
            ((middle - 56, ground - 64), (middle, ground - 98), (middle + 56, ground - 64)), "quiet"
        ),
        Disc(at=(44, 30), radius=15, fill="thatch", edge="warn"),
        area(
            ((middle + 46, ground - 64), (middle + 46, ground), (frame.width - 40, ground)),
            "shade",
            0.25,
        ),
        blades(24, middle - 50, ground, 14),
        blades(middle + 50, frame.width - 20, ground, 22),
        words(20, ground + 24, tr("sun and a warm wall: dries faster"), "warn"),
        words(frame.width - 16, ground + 24, tr("shade: stays moist"), "water", "right"),
    ]
    return Picture(frame, tuple(marks))
