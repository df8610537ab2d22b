"""Student's t: the quantile that intervals are built on, and the power of a two-sided test.

Pure numbers, no units. ValueError outside the domain. Sources: "student-t", "noncentral-t".
"""

import math
from functools import lru_cache

import numpy as np

from lawnbook.agronomy.checks import Array, finite

NODES = 200
"""Points of the quadrature over the estimated spread; 1e-9 in the power for any freedom."""


@lru_cache(maxsize=4096)
def student_t(confidence: float, freedom: int) -> float:
    """The t that Student's distribution keeps within ±t with a probability; `freedom` from 1.

    The distribution is a finite sum in the angle atan(t / √freedom), inverted by halving.
    Source: "student-t".
    """
    share("confidence", confidence)
    _freedom(freedom)
    low, high = 0.0, math.pi / 2
    while (middle := (low + high) / 2) not in (low, high):
        if _within(middle, freedom) < confidence:
            low = middle
        else:
            high = middle
    return math.sqrt(freedom) * math.tan(low)


def two_sided_power(shift_in_se: float, freedom: int, level: float = 0.05) -> float:
    """How often a two-sided t test at `level` finds a true shift of so many standard errors.

    P(|T| > t) of the noncentral t: the normal's two tails, averaged over how the standard error
    is estimated from `freedom` degrees. Source: "noncentral-t".
    """
    finite("shift_in_se", shift_in_se)
    t = student_t(1.0 - share("level", level), freedom)
    ratios, weights = _estimated_spread(freedom)
    half, tail = math.sqrt(0.5), math.erfc
    # The normal's lower tail at -z is erfc(z / √2) / 2.
    beyond, shift = (t * half * ratios).tolist(), shift_in_se * half
    found = [tail(each - shift) + tail(each + shift) for each in beyond]
    return 0.5 * float(np.dot(weights, found))


def share(name: str, value: float) -> float:
    """Return `value`; ValueError unless it lies between 0 and 1, both left out."""
    if not 0.0 < finite(name, value) < 1.0:
        raise ValueError(f"{name} must lie between 0 and 1, not {value}.")
    return value


def _freedom(freedom: int) -> int:
    if freedom < 1:
        raise ValueError(f"freedom must be 1 or more, not {freedom}.")
    return freedom


def _within(angle: float, freedom: int) -> float:
    """P(|t| ≤ √freedom · tan(angle)). Source: "student-t"."""
    sine, cosine = math.sin(angle), math.cos(angle)
    odd = freedom % 2
    term = cosine if odd else 1.0
    total = term if freedom > 1 else 0.0
    for k in range(2 + odd, freedom - 1, 2):
        term *= (k - 1) / k * cosine * cosine
        total += term
    return 2 / math.pi * (angle + sine * total) if odd else sine * total


@lru_cache(maxsize=64)
def _estimated_spread(freedom: int) -> tuple[Array, Array]:
    """Estimated over true standard deviation as points and weights that sum to 1.

    √(chi² / freedom), whose density goes as s^(freedom−1) exp(−freedom s² / 2).
    """
    half_width = 9.0 / math.sqrt(2.0 * _freedom(freedom))
    low, high = max(0.0, 1.0 - half_width), 1.0 + half_width
    points, weights = _nodes()
    ratios = low + (high - low) * (points + 1.0) / 2.0
    log_density = (freedom - 1) * np.log(ratios) - freedom * ratios**2 / 2.0
    weights = weights * np.exp(log_density - log_density.max())
    return ratios, weights / weights.sum()


@lru_cache(maxsize=1)
def _nodes() -> tuple[Array, Array]:
    """Points and weights of Gauss and Legendre between -1 and 1, found by Newton's steps.

    The library finds them as eigenvalues, which takes ten times as long, and all cores.
    """
    points = -np.cos(math.pi * (np.arange(1, NODES + 1) - 0.25) / (NODES + 0.5))
    for _ in range(4):
        value, slope = _legendre(points)
        points = points - value / slope
    _, slope = _legendre(points)
    return points, 2.0 / ((1.0 - points**2) * slope**2)


def _legendre(points: Array) -> tuple[Array, Array]:
    """Legendre's polynomial of degree `NODES` at some points, and its derivative."""
    before, value = np.ones(points.size), points
    for degree in range(2, NODES + 1):
        before, value = value, ((2 * degree - 1) * points * value - (degree - 1) * before) / degree
    return value, NODES * (points * value - before) / (points**2 - 1.0)
