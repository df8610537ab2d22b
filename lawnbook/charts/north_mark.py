"""The arrow to the north, drawn into a corner of a sketch."""

import math

from lawnbook.charts.marks import Mark, Polygon, Words

_REACH_PT = 8.0


def north_marks(at: tuple[float, float], north_deg: float) -> list[Mark]:
    """An arrow to the north around a place, turned clockwise from up, and its letter beside it."""
    x, y = at
    angle = math.radians(north_deg)
    across, along = (math.cos(angle), math.sin(angle)), (math.sin(angle), -math.cos(angle))

    def place(right: float, ahead: float) -> tuple[float, float]:
        return (
            x + _REACH_PT * (right * across[0] + ahead * along[0]),
            y + _REACH_PT * (right * across[1] + ahead * along[1]),
        )

    whole = (place(0, 1), place(0.55, -0.9), place(0, -0.45), place(-0.55, -0.9))
    half = (place(0, 1), place(0, -0.45), place(-0.55, -0.9))
    return [
        Polygon(rings=(whole,), fill="paper", edge="ink", width=0.8),
        Polygon(rings=(half,), fill="ink"),
        Words(at=(x + 10, y + 3), text="N", size=9, face="semibold"),
    ]
