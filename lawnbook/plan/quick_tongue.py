"""The words of a line in the owner's language; the English ones are understood beside them.

Each list is one text of the languages' files, its words parted by commas, the plainest first: a
translator gives as many as people say. Words with accents are understood without them too.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Literal
from unicodedata import combining, normalize

from lawnbook.plan.quick_model import QuickKind
from lawnbook.reading import reading, tr

Of = Literal["min", "in", "lb", "bag"]

UNIT_WORDS: Mapping[tuple[Of, str], str] = MappingProxyType(
    {
        ("min", "min"): "min, mins, minute, minutes",
        ("min", "h"): "h, hr, hrs, hour, hours",
        ("in", "in"): "in, inch, inches",
        ("in", "mm"): "mm, millimeters, millimetres",
        ("in", "cm"): "cm, centimeters, centimetres",
        ("lb", "lb"): "lb, lbs, pound, pounds",
        ("lb", "kg"): "kg, kilos, kilograms",
        ("lb", "g"): "g, grams",
        ("lb", "oz"): "oz, ounces",
        ("bag", "bag"): "bag, bags",
    }
)
"""How units are written, by what they measure and the sign that is read for them."""

COUNT_WORDS: Mapping[int, str] = MappingProxyType(
    {1: "a, one", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven"}
)
MONTH_WORDS = (
    "january, jan", "february, feb", "march, mar", "april, apr", "may", "june, jun", "july, jul",
    "august, aug", "september, sept, sep", "october, oct", "november, nov", "december, dec",
)  # fmt: skip
WEEKDAY_WORDS = (
    "monday, mon", "tuesday, tues, tue", "wednesday, wed", "thursday, thurs, thur, thu",
    "friday, fri", "saturday, sat", "sunday, sun",
)  # fmt: skip
"""From Monday on, as `date.weekday` counts."""

BACK_WORDS: Mapping[int, str] = MappingProxyType(
    {
        2: "day before yesterday, the day before yesterday",
        1: "yesterday, last night",
        0: "today, this morning",
        -1: "tomorrow",
    }
)
"""Days by how far they lie back."""

FIGURE_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "cost": "cost, costs",
        "ph": "ph",
        "om_pct": "organic matter, om",
        "p_ppm": "phosphorus, p",
        "k_ppm": "potassium, k",
        "depth_in": "sampled to, depth",
        "thatch_in": "thatch, thatch layer",
        "root_depth_in": "roots, root",
        "sponge": "sponge, sponginess",
        "worms": "worms, worm",
        "clock": "clock, clock position",
        "cycles": "cycles, cycle",
    }
)
"""Figures that have a word of their own, by their fields."""

VERB_WORDS: Mapping[QuickKind, str] = MappingProxyType(
    {
        "water": "watered, watering, water, irrigated, irrigation, ran",
        "feed": "fed, feeding, feed, fertilized, fertilised, spread",
        "mow": "mowed, mowing, mown, mow, cut the grass, cut",
        "rain": "rain, rained, rain gauge, gauge",
        "soil": "soil test, soil tested, tested soil",
        "plug": "plug, pulled a plug, core",
        "cans": "catch test, can test, catch cans, cans",
    }
)
"""What says a kind of line."""

CARE_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "aeration": "aerated, aerating, cored, coring",
        "topdressing": "topdressed, top dressed, top dressing",
        "dethatching": "dethatched, power raked, power raking",
        "overseeding": "overseeded, reseeded",
        "repair": "repair, repaired, fixed, mended",
    }
)
"""What says a kind of care, beside its own name."""

FREE_WORDS, NOTE_WORDS = "care, care of", "note, noted"
EACH_WORDS, PRESSED_WORDS = "each, to each", "pressed, compressed"
ZONE_WORDS = "zone, zones"
ALL_WORDS = (
    "everywhere, whole yard, the whole yard, whole lawn, the whole lawn, all, all zones, every zone"
)
"""All zones at once."""
LARGE_WORDS = "lawn, grass, yard"
"""Words for all there is, which by themselves name no zone."""
AND_WORDS, OF_WORDS, IN_WORDS, LAST_WORDS = "and, plus", "of, at", "in, by", "last, past"
DAYS_WORDS, WEEKS_WORDS = "days, day", "weeks, week"
AGO_WORDS = "{count} {unit} ago"
"""In which order a language says how far back a day lies: no list, but one text."""
FILLER_WORDS = (
    "a, an, and, at, by, did, do, for, from, had, i, in, it, my, of, on, the, to, was, we, were, "
    "with, each"
)
"""Words that mean nothing by themselves."""
OTHER_WORDS = (
    "all, everywhere, every, whole, yard, ago, day, days, week, weeks, last, before, o'clock"
)
"""Words that mean something only beside others, so that no name is of them alone."""


class _Reserved:
    """The reserved words of the language that was read last: a thousand names ask for them."""

    of: Mapping[str, str] | None = None
    words: frozenset[str] = frozenset()


def spoken(words: str) -> tuple[str, ...]:
    """The words of a list: the owner's first, as they are written, then the English ones."""
    return _split(words, tr(words))


def first_of(words: str) -> str:
    """The word of a list that a proposed line is written with."""
    return spoken(words)[0]


def any_of(*lists: str) -> str:
    """A pattern for any word of some lists, the longest first, with its accents or without."""
    return _any(tuple(word for words in lists for word in spoken(words)))


def whole(*lists: str) -> str:
    """The same, where it stands as a word of its own."""
    return rf"(?<!\w){any_of(*lists)}(?!\w)"


def without_accents(word: str) -> str:
    """A word as it is typed in haste: "miércoles" as "miercoles"."""
    return "".join(each for each in normalize("NFD", word) if not combining(each))


def reserved() -> frozenset[str]:
    """Every word by itself that a line reads as something else than a name, accents or not."""
    words = reading().words
    if _Reserved.of is not words:
        parts = {part for each in _all_lists() for word in spoken(each) for part in word.split()}
        _Reserved.words = frozenset(parts | {without_accents(each) for each in parts})
        _Reserved.of = words
    return _Reserved.words


def fillers() -> frozenset[str]:
    """The words that mean nothing by themselves."""
    return frozenset(spoken(FILLER_WORDS))


def number_of(typed: str, lists: Iterable[str]) -> int:
    """Which of several lists a word is of, from 0; ValueError for none."""
    word = without_accents(" ".join(typed.casefold().split()))
    for number, words in enumerate(lists):
        if word in map(without_accents, spoken(words)):
            return number
    raise ValueError(typed)


@lru_cache(maxsize=256)
def _split(words: str, told: str) -> tuple[str, ...]:
    # The made-up language puts brackets about a list and points behind it, which nobody types.
    own = re.sub("[«»·]", "", told)
    listed = [" ".join(each.casefold().split()) for each in (*own.split(","), *words.split(","))]
    return tuple(dict.fromkeys(each for each in listed if each))


@lru_cache(maxsize=256)
def _any(words: tuple[str, ...]) -> str:
    both = {each for word in words for each in (word, without_accents(word))}
    ordered = sorted(both, key=lambda word: (-len(word), word))
    return "(?:" + "|".join(r"\s+".join(map(re.escape, each.split())) for each in ordered) + ")"


def _all_lists() -> Iterator[str]:
    for table in (UNIT_WORDS, BACK_WORDS, FIGURE_WORDS, VERB_WORDS):
        yield from table.values()
    yield from (*MONTH_WORDS, *WEEKDAY_WORDS)
    yield from (FREE_WORDS, NOTE_WORDS, EACH_WORDS, PRESSED_WORDS, FILLER_WORDS, OTHER_WORDS)
