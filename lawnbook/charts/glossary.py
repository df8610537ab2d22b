"""The pictures of the glossary, by name: each drawn of marks, described in words.

A picture teaches one thing and is drawn by us; its proportions are shown, not measured. Colours are
the palette's roles, so that the same picture serves light, dark and paper.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from lawnbook.charts import glossary_ground as ground
from lawnbook.charts import glossary_heads as heads
from lawnbook.charts import glossary_waters as waters
from lawnbook.charts.glossary_texture import triangle
from lawnbook.charts.marks import Frame, Picture
from lawnbook.reading import tr

Draw = Callable[[Frame], Picture]
WIDTH_PT = 380.0
"""How wide every picture is laid out."""

PICTURES: Mapping[str, tuple[Draw, float]] = MappingProxyType(
    {
        "profile": (ground.profile, 190.0),
        "thatch": (ground.thatch, 170.0),
        "coring": (ground.coring, 170.0),
        "third": (ground.third, 160.0),
        "jar": (ground.jar, 180.0),
        "ribbon": (ground.ribbon, 160.0),
        "slope": (ground.slope, 130.0),
        "microclimate": (ground.microclimate, 150.0),
        "triangle": (triangle, 300.0),
        "bucket": (waters.bucket, 180.0),
        "depletion": (waters.depletion, 170.0),
        "use": (waters.use, 170.0),
        "cycle": (waters.cycle, 170.0),
        "growth": (waters.growth, 160.0),
        "cans": (heads.cans, 170.0),
        "lower_quarter": (heads.lower_quarter, 170.0),
        "spacing": (heads.spacing, 150.0),
        "matched": (heads.matched, 160.0),
        "release": (heads.release, 160.0),
        "bag": (heads.bag, 150.0),
        "budget": (heads.budget, 160.0),
    }
)
"""How each picture is drawn, and its height in points."""


def picture(name: str) -> Picture:
    """A picture laid out; KeyError for a name that is none."""
    draw, height = PICTURES[name]
    return draw(Frame(WIDTH_PT, height))


def described(name: str) -> str:
    """What a picture shows, in words for those who do not see it; KeyError for an unknown name."""
    return {**_of_ground(), **_of_water()}[name]


def _of_ground() -> Mapping[str, str]:
    return {
        "profile": tr(
            "A plug from the side: blades, crowns, thatch, soil, and roots down to where most end."
        ),
        "thatch": tr(
            "Two plugs: under thin thatch roots reach the soil, in thick thatch they stay."
        ),
        "coring": tr(
            "A lawn cut open: holes through the thatch into the soil, plugs lying on top."
        ),
        "third": tr("Blades before and after mowing: two thirds of their height stay."),
        "jar": tr("A jar from below: sand, silt, clay, then water."),
        "ribbon": tr("Three ribbons: a loam’s breaks before an inch, a clay’s is over two."),
        "slope": tr("Four slopes: the steeper, the less water stands on them before it runs."),
        "microclimate": tr(
            "A house: its sunny side dries faster, the ground in its shade stays moist."
        ),
        "triangle": tr("The texture triangle: clay upwards, sand to the left, silt to the right."),
    }


def _of_water() -> Mapping[str, str]:
    return {
        "bucket": tr(
            "The store: from field capacity a part may be used, the rest down to wilting is kept."
        ),
        "depletion": tr(
            "Depletion by days: use deepens it, rain lifts it, watering fills up at the limit."
        ),
        "use": tr("A year: what the weather asks for, and below it what the grass uses."),
        "cycle": tr(
            "One run stands higher than the ground can hold; three cycles stay below that."
        ),
        "growth": tr("Growth over the year: two peaks for cool-season grass, one for warm-season."),
        "cans": tr("A zone from above: heads in its corners, a grid of cans between them."),
        "lower_quarter": tr(
            "Twelve cans in order: the mean of the driest three beside the mean of all."
        ),
        "spacing": tr(
            "Heads whose water reaches the next one, and heads too far apart, dry between."
        ),
        "matched": tr("A quarter, a half and a full circle whose flows are as 1, 2 and 4."),
        "release": tr(
            "Quick nitrogen is all available after two weeks, slow nitrogen after some ten."
        ),
        "bag": tr("A bag with the numbers 20, 0 and 5: nitrogen, phosphate, potash."),
        "budget": tr("Twelve months: what each may have, what it had, and the closed ones."),
    }
