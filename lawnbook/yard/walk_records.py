"""What walking round a yard is made of: what was taped, the closed shape, and what still lacks.

Corners are counted from 0 and called A, B, C. Lengths in feet, residuals in inches.
"""

from collections.abc import Iterable
from dataclasses import field
from typing import Literal

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import area_sqft, perimeter_ft
from lawnbook.yard.walk_measures import Pair

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
MOST_CORNERS = 52
LONGEST_FT = 5000.0


@dataclass(frozen=True, slots=True)
class Diagonal:
    """A length between two corners, counted from 0; neighbours are a side taped again."""

    start: int
    end: int
    length_ft: float


@dataclass(frozen=True, slots=True)
class Walk:
    """What was measured. Side i runs from corner i to the next; None where it was not taped.

    `turns_in` are the corners at which the outline turns inward, `square` those that are square.
    """

    sides_ft: tuple[float | None, ...]
    diagonals: tuple[Diagonal, ...] = ()
    turns_in: frozenset[int] = field(default_factory=frozenset)
    square: frozenset[int] = field(default_factory=frozenset)


@dataclass(frozen=True, slots=True)
class Residual:
    """How one measure agrees with the closed shape.

    `off_in` is the measure less the shape's own, in inches; at a square corner it is how far the
    end of the shorter side stands off square. `checked` is the share of a slip in this measure that
    shows in its residual (its redundancy number), 0 where nothing checks it. `stands_out` is the
    residual in its own standard deviations.
    """

    kind: Literal["side", "diagonal", "square"]
    name: str
    start: int
    end: int
    off_in: float
    checked: float
    stands_out: float


@dataclass(frozen=True, slots=True)
class Closed:
    """The closed walk. The outline runs clockwise, A first, A to B along the page's top.

    `spare` counts the measures beyond those needed; `misclosure_in` is the root mean square of the
    residuals of lengths, None where none is spare. `suspects` are the measures that stand out.
    `corner_sd_in` is the standard deviation of each corner in its worst direction, `tape_sd_in` the
    error of a taped length that it follows from, and whether that is `estimated`. `next_best` is
    the pair that would make the corners surest. `twin`: a different shape fits as well.
    """

    outline: Outline
    residuals: tuple[Residual, ...]
    misclosure_in: float | None
    spare: int
    suspects: tuple[int, ...]
    corner_sd_in: tuple[float, ...]
    area_sd_sqft: float
    tape_sd_in: float
    estimated: bool
    next_best: Pair | None
    twin: bool
    wrong_turns: frozenset[int]

    @property
    def area_sqft(self) -> float:
        """The area inside."""
        return area_sqft(self.outline)

    @property
    def perimeter_ft(self) -> float:
        """The length once round."""
        return perimeter_ft(self.outline)


@dataclass(frozen=True, slots=True)
class Lack:
    """What a walk still lacks: how many measures, which would tell most, and a rough shape."""

    count: int
    pairs: tuple[Pair, ...]
    outline: Outline

    @property
    def words(self) -> str:
        """What is lacking, and what to measure."""
        more = (
            tr("1 more length") if self.count == 1 else tr("{count} more lengths", count=self.count)
        )
        told = [pair_name(pair) for pair in self.pairs]
        best = f": {listed(told)}" if told else ""
        return tr("Not stiff yet: measure {more}{best}.", more=more, best=best)


def corner_name(index: int) -> str:
    """The letter of a corner: A to Z, then A2 to Z2."""
    again, letter = divmod(index, len(LETTERS))
    return LETTERS[letter] + (str(again + 1) if again else "")


def pair_name(pair: Pair) -> str:
    """A pair of corners as it is read: "A to C"."""
    return tr(
        "{corner} to {other_corner}",
        corner=corner_name(pair[0]),
        other_corner=corner_name(pair[1]),
    )


def listed(told: Iterable[str]) -> str:
    """Names in a row: "A, B and C"."""
    names = list(told)
    return (
        names[0]
        if len(names) == 1
        else tr("{names} and {last}", names=", ".join(names[:-1]), last=names[-1])
    )
