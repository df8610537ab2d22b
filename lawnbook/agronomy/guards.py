"""Guards for the domain of a formula in plain numbers; `checks` has those for arrays, and these.

Apart, so that what works with single numbers does not wait for numpy. Every guard returns the
value it was given, or raises ValueError with a sentence that names the quantity. No source: these
are plain range checks.
"""

import math

COUNTING_SLACK = 1e-9
"""How far floating point may miss a whole number before it counts as another one."""


def finite(name: str, value: float) -> float:
    """Return `value`; ValueError if it is NaN or infinite."""
    if not math.isfinite(value):
        raise ValueError(f"{name} must be a finite number, not {value}.")
    return value


def not_negative(name: str, value: float) -> float:
    """Return `value`; ValueError unless it is finite and zero or more."""
    if finite(name, value) < 0:
        raise ValueError(f"{name} must be zero or more, not {value}.")
    return value


def positive(name: str, value: float) -> float:
    """Return `value`; ValueError unless it is finite and above zero."""
    if finite(name, value) <= 0:
        raise ValueError(f"{name} must be above zero, not {value}.")
    return value


def between(name: str, value: float, low: float, high: float) -> float:
    """Return `value`; ValueError unless it is finite and within `low` to `high`, both included."""
    if not low <= finite(name, value) <= high:
        raise ValueError(f"{name} must lie between {low} and {high}, not {value}.")
    return value


def latitude(latitude_deg: float) -> float:
    """Return `latitude_deg`; ValueError unless it lies within -90 to 90 degrees."""
    return between("latitude_deg", latitude_deg, -90.0, 90.0)


def floor_count(ratio: float) -> int:
    """Whole times something fits, forgiving `COUNTING_SLACK` so that 0.6 / 0.2 counts as 3."""
    return math.floor(ratio + COUNTING_SLACK)


def ceil_count(ratio: float) -> int:
    """Whole pieces something needs, forgiving `COUNTING_SLACK` so that 0.3 / 0.1 counts as 3."""
    return math.ceil(ratio - COUNTING_SLACK)
