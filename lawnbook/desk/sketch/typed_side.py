"""A side typed while drawing: its length, then "<" and its direction, or L or R and a turn."""

import math
from dataclasses import replace

from lawnbook.desk.sketch.outlines import bearing_deg, toward
from lawnbook.desk.sketch.side_words import longer_than_nothing
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import tidy
from lawnbook.yard.numbers import parse_feet, parse_number
from lawnbook.yard.problems import OwnerError

BEGINS = "0123456789.½¼¾<"
IN_LENGTH = BEGINS + "'\"′″’” ,/mcftin-"
IN_DIRECTION = "0123456789.,-°lLrR "
TURNS = "lLrR"
WAYS_TO_SAY_IT = tr(
    "enter degrees clockwise from the top of the page, such as 90, or a turn from "
    "the last side, such as L90 or R45"
)


@dataclass(frozen=True, slots=True)
class TypedSide:
    """What is typed so far; the same words stand in the fields Length and Direction."""

    length: str = ""
    direction: str = ""
    turning: bool = False
    """Whether the next key goes to the direction."""

    @property
    def is_empty(self) -> bool:
        """Whether nothing is typed."""
        return not (self.length or self.direction or self.turning)

    @property
    def words(self) -> str:
        """Both as one: `12' 6" < R45`."""
        if not (self.turning or self.direction):
            return self.length
        return f"{self.length} < {self.direction}".strip()

    def takes(self, key: str) -> bool:
        """Whether a typed character belongs to it."""
        if len(key) != 1:
            return False
        if self.is_empty:
            return key in BEGINS or key in TURNS
        return key in (IN_DIRECTION if self.turning else IN_LENGTH + TURNS)

    def with_key(self, key: str) -> "TypedSide":
        """What is typed with one more character."""
        if not self.turning and key == "<":
            return replace(self, turning=True)
        if not self.turning and key in TURNS:
            return replace(self, turning=True, direction=key.upper())
        if self.turning:
            return replace(self, direction=self.direction + key.upper())
        return replace(self, length=self.length + key)

    def back(self) -> "TypedSide":
        """What is typed without the last character."""
        if self.direction:
            return replace(self, direction=self.direction[:-1])
        if self.turning:
            return replace(self, turning=False)
        return replace(self, length=self.length[:-1])

    def length_ft(self) -> float | None:
        """The length in feet, None where none is typed; OwnerError where it is none."""
        if not self.length.strip():
            return None
        length = parse_feet(self.length, tr("Length"))
        if length <= 0:
            raise OwnerError(longer_than_nothing(tr("Length")))
        return length

    def bearing_deg(self, last_deg: float | None) -> float | None:
        """The direction in degrees clockwise from the top, None where none is typed.

        `last_deg` is that of the last side, from which L and R turn. OwnerError where it cannot be
        read, or where there is no side to turn from.
        """
        told = self.direction.replace("°", "").strip().upper()
        if not told:
            return None
        turn = {"L": -1, "R": 1}.get(told[0])
        try:
            degrees = parse_number(told[1:] if turn else told, tr("Direction"))
        except OwnerError as error:
            words = tr(
                'Direction "{direction}" cannot be read: {ways_to_say_it}.',
                direction=self.direction.strip(),
                ways_to_say_it=WAYS_TO_SAY_IT,
            )
            raise OwnerError(words) from error
        if not -360 <= degrees <= 360:
            raise OwnerError(
                tr(
                    "Direction {degrees:g}° is more than a full turn: {ways_to_say_it}.",
                    degrees=degrees,
                    ways_to_say_it=WAYS_TO_SAY_IT,
                )
            )
        if turn is None:
            return degrees % 360
        if last_deg is None:
            raise OwnerError(
                tr(
                    "Direction: there is no last side to turn from yet; enter degrees clockwise "
                    "from the top of the page, such as 90."
                )
            )
        return (last_deg + turn * degrees) % 360


def side_end(start: Point, at: Point, length_ft: float | None, bearing: float | None) -> Point:
    """Where a side ends whose length or direction, where not typed, is that to the pointer.

    `bearing` is in degrees clockwise from the top. OwnerError where the pointer cannot tell it.
    """
    if bearing is None:
        if math.dist(start, at) < 0.02:
            raise OwnerError(
                tr(
                    "Move the pointer the way the side should run, or type its "
                    "direction, such as < 90."
                )
            )
        bearing = bearing_deg(start, at)
    if length_ft is None:
        turn = math.radians(bearing_deg(start, at) - bearing)
        length_ft = math.dist(start, at) * math.cos(turn)
        if length_ft < 0.05:
            raise OwnerError(tr("Length: type how long the side is, before its direction."))
    return tidy(toward(start, bearing, length_ft))
