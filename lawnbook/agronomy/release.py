"""When nitrogen that is down becomes available: quick sources, coated ones, and those of microbes.

Shares of what was put down, counted from the day of the application, which is day 0. Release weeks
are those of warm soil (68 deg F). Sources: "quick-weeks", "uc-slow", "sportsturf-slow",
"pcu-weeks", "ureaform-weeks", "microbes-q10". ValueError outside a formula's domain.
"""

import re
from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from lawnbook.agronomy.checks import Array, finite, not_negative
from lawnbook.frozen import dataclass
from lawnbook.reading import tr

QUICK_WEEKS = 2
"""Quick nitrogen becomes available evenly over so many weeks (source "quick-weeks")."""

REFERENCE_F = 68.0
"""Mean temperature (20 deg C) at which microbes take a source's stated weeks ("microbes-q10")."""

COLDEST_F = 40.0
"""At or below this mean temperature microbes release nothing ("microbes-q10")."""

WARMEST_F = 86.0
"""Above this mean temperature (30 deg C) they work no faster ("microbes-q10")."""

Q10 = 2.0
"""By how much they work faster for each 10 deg C, that is 18 deg F ("microbes-q10")."""

_F_PER_10_C = 18.0
_WEEK_DAYS = 7
_AT_ONCE_DAYS = 1e-6


@dataclass(frozen=True, slots=True)
class SlowSource:
    """A kind of slow nitrogen: how many weeks it feeds in warm soil, and whether microbes free it.

    What is not freed by microbes comes evenly by the calendar, through a coating or by water.
    """

    name: str
    weeks_low: float
    weeks_high: float
    microbial: bool
    source_key: str
    note: str

    @property
    def weeks(self) -> float:
        """The middle of the range, which stands in where the label states no weeks."""
        return (self.weeks_low + self.weeks_high) / 2


def _by_name(*sources: SlowSource) -> Mapping[str, SlowSource]:
    return MappingProxyType({each.name: each for each in sources})


SLOW_SOURCES: Mapping[str, SlowSource] = _by_name(
    SlowSource(
        "sulfur-coated urea",
        8,
        10,
        False,
        "uc-slow",
        tr("Water enters through pores and cracks of the coating; a broken coating feeds at once."),
    ),
    SlowSource(
        "polymer-coated urea",
        8,
        16,
        False,
        "pcu-weeks",
        tr("Water passes the coating, whose thickness sets the weeks: the label states them."),
    ),
    SlowSource(
        "methylene urea",
        8,
        12,
        True,
        "sportsturf-slow",
        tr("Microbes free it: it waits while the soil is cold."),
    ),
    SlowSource(
        "ureaform",
        10,
        30,
        True,
        "ureaform-weeks",
        tr("Microbes free it slowly: its last part may come in the next year."),
    ),
    SlowSource(
        "isobutylidene diurea",
        8,
        10,
        False,
        "uc-slow",
        tr("Water frees it, not microbes: it feeds in cool soil too, and waits in dry soil."),
    ),
    SlowSource(
        "natural organic",
        8,
        10,
        True,
        "uc-slow",
        tr("Microbes free it: it waits while the soil is cold, and some of it stays in the soil."),
    ),
)
"""By the kinds that a product may name (`yard.records.SlowKind`)."""

UNKNOWN_WEEKS = (8.0, 10.0)
"""Weeks of a slow source that nobody knows more of (source "uc-slow")."""

_WORDS: tuple[tuple[str, str], ...] = (
    (r"sul(f|ph)ur[\s-]*coat|\bp?c?scu\b", "sulfur-coated urea"),
    (r"(polymer|plastic|resin|poly)[\s-]*coat|\bpcu\b|\bcru\b", "polymer-coated urea"),
    (r"methylene|\bmu\b|\bmdu\b", "methylene urea"),
    (r"urea[\s-]*form|\buf\b", "ureaform"),
    (r"isobutylidene|\bibdu\b", "isobutylidene diurea"),
    (
        r"organic|compost|manure|biosolid|sludge|feather|blood|bone|fish|meal\b|litter|kelp|yeast",
        "natural organic",
    ),
)


def slow_source_of(kind: str | None, words: str) -> SlowSource | None:
    """The slow source that a product names as its kind, or else in its label's words.

    None where neither names one that is known. Of several in the words, coatings come first.
    """
    if kind is not None and kind in SLOW_SOURCES:
        return SLOW_SOURCES[kind]
    label = words.lower()
    found = (name for pattern, name in _WORDS if re.search(pattern, label))
    name = next(found, None)
    return None if name is None else SLOW_SOURCES[name]


def release_weeks(kind: str | None, words: str, typed_weeks: float | None) -> float:
    """Weeks over which the slow part feeds: as typed from the label, else those of its source.

    The middle of the source's range, or of `UNKNOWN_WEEKS` for a source nobody knows.
    """
    if typed_weeks is not None:
        return not_negative("typed_weeks", typed_weeks)
    source = slow_source_of(kind, words)
    return sum(UNKNOWN_WEEKS) / 2 if source is None else source.weeks


def microbial_pace(tmean_f: Array) -> Array:
    """How fast microbes free nitrogen on days of these mean temperatures, against 68 deg F.

    Q10 of 2: 1 at 68, half at 50, nothing at or below 40, at most 2 above 86 deg F. A day whose
    temperature is not known (NaN) counts as one of 68, which is evenly by the calendar. Source:
    "microbes-q10".
    """
    known = np.where(np.isnan(tmean_f), REFERENCE_F, np.minimum(tmean_f, WARMEST_F))
    pace: Array = np.where(known <= COLDEST_F, 0.0, Q10 ** ((known - REFERENCE_F) / _F_PER_10_C))
    return pace


def released_share(weeks: float, pace: Array) -> Array:
    """Share of a part, 0-1, that has become available by the end of each day, from day 0 on.

    `pace` is each day's, 1 for one day of the release weeks: all 1 gives it evenly by the calendar
    over `weeks`. With no weeks all is available at once, on day 0.
    """
    days = not_negative("weeks", finite("weeks", weeks)) * _WEEK_DAYS
    if days < _AT_ONCE_DAYS:
        return np.ones(pace.size)
    share: Array = np.minimum(1.0, np.cumsum(pace) / days)
    # Fifty-odd sevenths add up to just less than 1: what misses it by rounding is all there is.
    share[share > 1.0 - 1e-12] = 1.0
    return share


def quick_share(days: int) -> Array:
    """Share of quick nitrogen available by the end of each of so many days, from day 0 on.

    Evenly over 2 weeks. Source: "quick-weeks".
    """
    return released_share(QUICK_WEEKS, np.ones(days))
