"""How sure a catch-can test is: the interval of its mean, and how many cans would be enough.

Student's t on the cans' mean, which takes them as placed at random and as alike in error. Readings
may be in any unit. ValueError outside a formula's domain. Sources: "student-t", "can-count".
"""

import math
import statistics
from collections.abc import Mapping, Sequence
from types import MappingProxyType

from lawnbook.agronomy.checks import not_negative_array, positive
from lawnbook.agronomy.student import share, student_t
from lawnbook.reading import tr

DEFAULT_CONFIDENCE = 0.95
FEWEST_CANS = 2
"""One can shows no spread, and so no interval."""

MOST_CANS = 10_000
"""Where even so many were too few, the count stops."""

ENOUGH: Mapping[str, str] = MappingProxyType(
    {
        "in-ground": (
            tr(
                "Of sprinklers in the ground, 2 to 8 cans set out at random gave the rate "
                "within 25 % in 90 of 100 tests of a published study."
            )
        ),
        "hose": (
            tr(
                "Of sprinklers moved by hand, it took 6 to over 50 cans set out at random to "
                "give the rate within 25 % in 90 of 100 tests of a published study."
            )
        ),
    }
)
"""What the study says, by the kind of sprinklers a zone has. Source: "can-count"."""


def rate_interval(
    readings: Sequence[float], confidence: float = DEFAULT_CONFIDENCE
) -> tuple[float, float, float]:
    """Low, mean and high of what the cans' mean may truly be, in the readings' unit.

    mean ± t s / √n, the low end not below 0. ValueError under two cans. Source: "student-t".
    """
    cans = _cans(readings)
    mean = statistics.fmean(cans)
    error = statistics.stdev(cans) / math.sqrt(len(cans))
    reach = student_t(confidence, len(cans) - 1) * error
    return max(0.0, mean - reach), mean, mean + reach


def cans_for(readings: Sequence[float], within: float = 0.10, confidence: float = 0.90) -> int:
    """How many cans would give the mean to `within` of itself, as unevenly as these are filled.

    The least n of two or more with t s / (mean √n) ≤ within, at most `MOST_CANS`. ValueError under
    two cans, or where all are empty. Source: "student-t".
    """
    cans = _cans(readings)
    mean = statistics.fmean(cans)
    if mean <= 0.0:
        raise ValueError("How many cans are enough needs water in at least one.")
    spread = statistics.stdev(cans) / mean / positive("within", within)
    # No fewer than with the normal's smaller quantile, and from there up.
    z = statistics.NormalDist().inv_cdf(0.5 + share("confidence", confidence) / 2)
    count = max(FEWEST_CANS, math.ceil(min(MOST_CANS, (z * spread) ** 2)))
    while count < MOST_CANS and student_t(confidence, count - 1) * spread > math.sqrt(count):
        count += 1
    return count


def _cans(readings: Sequence[float]) -> list[float]:
    cans = not_negative_array("readings", readings)
    if cans.ndim != 1 or cans.size < FEWEST_CANS:
        raise ValueError("The spread of cans needs two of them or more.")
    return [float(each) for each in cans]
