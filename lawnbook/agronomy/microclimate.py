"""Shade, walls and wind: by how much a place uses more or less water than open lawn.

Source: "wucols" (from memory): about 0.5 to 0.9 in shade, 1.0 in the open, 1.1 to 1.4 beside hot
walls, paving and in wind. The factors stand within those ranges and are starting points, to be
moved by what the grass shows.
"""

MICROCLIMATES: tuple[tuple[str, float], ...] = (
    ("Open ground", 1.0),
    ("Light shade, a few hours a day", 0.8),
    ("Shade most of the day", 0.65),
    ("Deep shade", 0.5),
    ("Beside paving", 1.1),
    ("Beside a hot wall", 1.2),
    ("Hot wall and paving around it", 1.3),
    ("Windy corner", 1.15),
)
"""Words for the owner and the factor on the water use of open lawn."""
