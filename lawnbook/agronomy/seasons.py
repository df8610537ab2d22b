"""Months north and south of the equator: a northern table is shifted six months.

The shift is this project's convention for tables that were published for northern places.
"""

from collections.abc import Sequence
from functools import lru_cache

from lawnbook.agronomy.guards import latitude

MONTHS = 12


# A yard has one latitude, and every month and year of its plan asks.
@lru_cache(maxsize=16)
def is_south(latitude_deg: float) -> bool:
    """True south of the equator; the equator itself counts as north.

    ValueError beyond 90 degrees.
    """
    return latitude(latitude_deg) < 0


def table_month(month: int, latitude_deg: float) -> int:
    """The month (1-12) of a northern table that stands for calendar `month` at this latitude.

    Its own inverse: applied twice it gives the month back.  ValueError for a month outside 1-12.
    """
    if not 1 <= month <= MONTHS:
        raise ValueError(f"month must be 1 to 12, not {month}.")
    return (month + 5) % MONTHS + 1 if is_south(latitude_deg) else month


def by_calendar_month(table: Sequence[float], latitude_deg: float) -> tuple[float, ...]:
    """A northern January-December table in calendar order for this latitude (12 values)."""
    if len(table) != MONTHS:
        raise ValueError(f"A monthly table holds 12 values, not {len(table)}.")
    return tuple(table[table_month(month, latitude_deg) - 1] for month in range(1, MONTHS + 1))
