"""What a source is: its key, how it is cited, and what it rests on."""

from typing import Literal

from lawnbook.frozen import dataclass

Basis = Literal["published", "practice", "memory"]


@dataclass(frozen=True, slots=True)
class Source:
    """A source: its key, how it is cited, and what it rests on.

    "memory" means a published work whose values were recalled without the page at hand; its
    citation says "(from memory)", as that of "practice" says "(common practice)".
    """

    key: str
    citation: str
    basis: Basis
