"""What the figures of a zone's year of water are called where they are asked for one by one."""

from typing import Literal

Way = Literal["plan", "habit", "full"]
"""A way of watering: as planned, the old habit, the plan without its dry year."""
YEAR_KEYS = (
    "waterings",
    "gallons",
    "cost",
    "gross",
    "wets",
    "per_inch",
    "kept",
    "runoff",
    "drained",
    "stress",
    "driest",
)
"""The figures of a year under one way of watering, in the order of their table."""
