"""A laboratory's soil test of turf: how old it may be, and what its pH and phosphorus decide here.

Nothing else is read from a test: what to add, and how much, is for the laboratory to say. Sources:
"psu-p", "soil-sample", "soil-test-age", "thatch-ph". ValueError outside a formula's domain.
"""

import calendar
from datetime import date

from lawnbook.agronomy.checks import not_negative, positive

P_ENOUGH_PPM = 45.0
"""Mehlich-3 phosphorus at which a home lawn needs no phosphate, in Pennsylvania.

A laboratory that uses another method has another scale, and its own goes first. Source: "psu-p".
"""

PH_SLOWS_THATCH = 6.0
"""Below it thatch decays more slowly. Source: "thatch-ph"."""

SOIL_TEST_YEARS = 3
"""A test holds so long, and then the next is due. Source: "soil-test-age"."""

SAMPLE_DEPTH_IN = 4.0
"""How deep cores of established turf are taken, thatch taken off. Source: "soil-sample"."""


def next_test_due(tested: date, years: int = SOIL_TEST_YEARS) -> date:
    """The day on which the next test is due: the same day of the year, 1 March for a 29 February.

    Source: "soil-test-age".
    """
    year = tested.year + years
    if (tested.month, tested.day) == (2, 29) and not calendar.isleap(year):
        return date(year, 3, 1)
    return tested.replace(year=year)


def still_holds(tested: date, on: date) -> bool:
    """Whether a test still counts on a day: from its own day to the day the next is due."""
    return tested <= on <= next_test_due(tested)


def phosphorus_enough(p_ppm: float, enough_ppm: float = P_ENOUGH_PPM) -> bool:
    """Whether the soil holds as much phosphorus as turf needs, so that phosphate stays off.

    Source: "psu-p".
    """
    return not_negative("p_ppm", p_ppm) >= positive("enough_ppm", enough_ppm)


def slows_thatch(ph: float) -> bool:
    """Whether the soil is so acid that thatch decays more slowly. Source: "thatch-ph"."""
    return positive("ph", ph) < PH_SLOWS_THATCH
