"""The glossary: the trade's terms, each told in two sentences, with its sources and its picture.

Terms are functions of the reader: words and amounts are told in the language and the units in use
when they are asked for. Pictures are drawn by `charts.glossary`, under the name that a term gives.
"""

from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A term: its name, what it is, the sources of its numbers, its picture, what it leads to.

    `sources` are keys of `agronomy.sources`; `picture` is a name of `charts.glossary`, "" for none;
    `see` are keys of other terms.
    """

    key: str
    name: str
    words: str
    sources: tuple[str, ...] = ()
    picture: str = ""
    see: tuple[str, ...] = ()


def glossary() -> tuple[Term, ...]:
    """Every term in the order of its name, as the reader reads."""
    from lawnbook.yard.glossary_care import care_terms
    from lawnbook.yard.glossary_feed import feed_terms
    from lawnbook.yard.glossary_soil import soil_terms
    from lawnbook.yard.glossary_sprinklers import sprinkler_terms
    from lawnbook.yard.glossary_turf import turf_terms
    from lawnbook.yard.glossary_water import water_terms

    groups = (turf_terms, soil_terms, water_terms, sprinkler_terms, feed_terms, care_terms)
    terms = [term for group in groups for term in group()]
    return tuple(sorted(terms, key=lambda term: term.name.casefold()))


def by_key() -> Mapping[str, Term]:
    """The terms by their keys."""
    return MappingProxyType({term.key: term for term in glossary()})
