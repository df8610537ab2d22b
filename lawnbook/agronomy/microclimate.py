"""Shade, walls and wind: by how much a place uses more or less water than open lawn.

Source: "wucols" (from memory): about 0.5 to 0.9 in shade, 1.0 in the open, 1.1 to 1.4 beside hot
walls, paving and in wind. The factors stand within those ranges and are starting points, to be
moved by what the grass shows.
"""

from lawnbook.reading import tr

MICROCLIMATES: tuple[tuple[str, float], ...] = (
    (tr("Open ground"), 1.0),
    (tr("Light shade, a few hours a day"), 0.8),
    (tr("Shade most of the day"), 0.65),
    (tr("Deep shade"), 0.5),
    (tr("Beside paving"), 1.1),
    (tr("Beside a hot wall"), 1.2),
    (tr("Hot wall and paving around it"), 1.3),
    (tr("Windy corner"), 1.15),
)
"""Words for the owner and the factor on the water use of open lawn."""
