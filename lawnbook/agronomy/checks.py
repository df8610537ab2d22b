"""Guards for the domain of a formula, and the array types the room's functions take and give.

Every guard returns the value it was given, or raises ValueError with a sentence that names the
quantity. No source: these are plain range checks.
"""

from collections.abc import Sequence
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.guards import (
    COUNTING_SLACK,
    between,
    ceil_count,
    finite,
    floor_count,
    latitude,
    not_negative,
    positive,
)

__all__ = [
    "COUNTING_SLACK",
    "Array",
    "Reals",
    "between",
    "ceil_count",
    "finite",
    "finite_array",
    "floor_count",
    "latitude",
    "not_negative",
    "not_negative_array",
    "positive",
]

Array: TypeAlias = NDArray[np.float64]
"""What array functions return."""

Reals: TypeAlias = NDArray[np.floating[Any] | np.integer[Any]]
"""What array functions accept."""


def finite_array(name: str, values: Sequence[float] | Reals) -> Array:
    """Return `values` as a float64 array; ValueError if any is NaN or infinite."""
    array = np.asarray(values, dtype=np.float64)
    if not np.isfinite(array).all():
        raise ValueError(f"{name} must hold finite numbers only.")
    return array


def not_negative_array(name: str, values: Sequence[float] | Reals) -> Array:
    """Return `values` as a float64 array; ValueError unless all are finite and zero or more."""
    array = finite_array(name, values)
    if (array < 0).any():
        raise ValueError(f"{name} must be zero or more throughout.")
    return array
