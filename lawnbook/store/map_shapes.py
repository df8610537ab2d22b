"""Outlines as a map gives them, in degrees, and what every reader of such files shares.

Rings are closed in the file and open here. What a file holds beside good outlines is told, shape by
shape, in `told`; OwnerError is for a file that cannot be taken in at all.
"""

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field, replace

from lawnbook.frozen import dataclass
from lawnbook.plan.workings import and_joined, counted
from lawnbook.reading import tr
from lawnbook.yard.fields import Outline
from lawnbook.yard.numbers import whole
from lawnbook.yard.problems import OwnerError

MOST_BYTES = 20 * 2**20
"""No file of outlines that a yard needs is larger."""
MOST_SHAPES = 500
MOST_CORNERS = 100_000
"""Of all shapes of a file together; more would not fit in a sketch, nor be of use in it."""
MOST_MARKS = 400_000
"""Brackets or tags in a file: more than the most corners can need, so that memory stays bounded."""
MOST_TOLD = 12
LONGEST_NAME = 60
FEWEST_CORNERS = 3
POLE_DEG, ROUND_DEG = 90.0, 180.0
SWAPPED = tr(
    "latitude and longitude are the wrong way round here; these files give "
    "longitude first. Swap them where the file was made, and write it again."
)


@dataclass(frozen=True, slots=True)
class MapShape:
    """One polygon: rings of (longitude, latitude) in degrees, and what the file says of it.

    `table`, `kind` and `record_id` are those of a file that a notebook wrote: "zones", or
    "features" of a kind.
    """

    name: str
    outline: Outline
    holes: tuple[Outline, ...] = ()
    table: str = ""
    kind: str = ""
    record_id: str = ""

    @property
    def corners(self) -> int:
        """How many corners all of its rings have."""
        return len(self.outline) + sum(map(len, self.holes))


@dataclass(frozen=True, slots=True)
class MapOutlines:
    """What a file holds: its polygons in order, and what was left out or mended, in sentences."""

    shapes: tuple[MapShape, ...]
    told: tuple[str, ...] = ()


@dataclass(slots=True)
class Tally:
    """A file being read: its good shapes, what is wrong with others, what is passed over."""

    shapes: list[MapShape] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)
    passed: Counter[str] = field(default_factory=Counter)
    corners: int = 0
    seen: int = 0
    swapped: int = 0

    def add(self, shape: MapShape, rings: Sequence[Iterable[object]]) -> None:
        """Take a polygon in whose rings are still lists of positions; a bad one is told.

        OwnerError where shapes or corners become too many.
        """
        self.seen += 1
        title = tr("Shape {seen}", seen=self.seen) + (f" ({shape.name})" if shape.name else "")
        try:
            outlines = [self._ring(ring) for ring in rings]
            if not outlines:
                raise ValueError(tr("it has no outline"))
        except ValueError as wrong:
            self.wrong.append(tr("{title} is left out: {wrong}.", title=title, wrong=wrong))
            return
        self.shapes.append(replace(shape, outline=outlines[0], holes=tuple(outlines[1:])))
        if len(self.shapes) > MOST_SHAPES:
            raise OwnerError(
                tr(
                    "there are more than {most_shapes} shapes; {fewer}",
                    most_shapes=MOST_SHAPES,
                    fewer=_FEWER,
                )
            )

    def pass_over(self, what: str) -> None:
        """Note something that is no outline, such as a "point"."""
        self.passed[what] += 1

    def result(self) -> MapOutlines:
        """All of it. OwnerError where no outline is left."""
        told = list(self.wrong[:MOST_TOLD])
        if len(self.wrong) > MOST_TOLD:
            told.append(
                tr(
                    "{more_shapes} left out likewise.",
                    more_shapes=counted(len(self.wrong) - MOST_TOLD, "more shape"),
                )
            )
        if self.passed:
            counts = [counted(count, what) for what, count in self.passed.items()]
            told.append(
                tr("{counts} is left out: only closed outlines are taken in.", counts=counts[0])
                if self.passed.total() == 1
                else tr(
                    "{counts} are left out: only closed outlines are taken in.",
                    counts=and_joined(counts),
                )
            )
        if self.swapped and self.swapped == self.seen:
            raise OwnerError(SWAPPED)
        if not self.shapes:
            why = told[0] if told else tr("it holds no polygon.")
            raise OwnerError(tr("no outline can be taken in; {why}", why=why[:1].lower() + why[1:]))
        return MapOutlines(tuple(self.shapes), tuple(told))

    def _ring(self, positions: Iterable[object]) -> Outline:
        """A ring without its closing position and repeats; ValueError with what is wrong."""
        corners: list[tuple[float, float]] = []
        try:
            for position in positions:
                self.corners += 1
                if self.corners > MOST_CORNERS:
                    raise OwnerError(
                        tr(
                            "there are more than {whole} corners; {fewer}",
                            whole=whole(MOST_CORNERS),
                            fewer=_FEWER,
                        )
                    )
                corner = degrees(position)
                if not corners or corner != corners[-1]:
                    corners.append(corner)
        except SwappedError:
            self.swapped += 1
            raise
        if len(corners) > 1 and corners[0] == corners[-1]:
            corners.pop()
        if len(set(corners)) < FEWEST_CORNERS:
            raise ValueError(
                tr(
                    "a ring has {corners}, and needs 3",
                    corners=counted(len(set(corners)), "corner"),
                )
            )
        return tuple(corners)


_FEWER = tr("take only the yard's own outlines into the file, and write it again.")


class SwappedError(ValueError):
    """A latitude that none can be, beside a longitude that could be one."""


def degrees(position: object) -> tuple[float, float]:
    """Longitude and latitude of a position; ValueError with what is wrong. Heights are ignored."""
    if not isinstance(position, Sequence) or isinstance(position, str) or len(position) < 2:
        raise ValueError(tr("a corner is not written as longitude and latitude"))
    lon, lat = (_number(each) for each in position[:2])
    if abs(lat) > POLE_DEG and abs(lon) <= POLE_DEG and abs(lat) <= ROUND_DEG:
        raise SwappedError(
            tr("a corner's latitude is {lat:.6g}°; latitude and longitude look swapped", lat=lat)
        )
    if abs(lat) > POLE_DEG or abs(lon) > 2 * ROUND_DEG:
        raise ValueError(
            tr(
                "a corner lies at {lon:.6g}, {lat:.6g}, which are no degrees; write the "
                "file in longitude and latitude (WGS 84)",
                lon=lon,
                lat=lat,
            )
        )
    return (lon, lat)


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError(tr("a corner has something other than numbers"))
    try:
        number = float(value)
    except OverflowError:
        number = math.inf
    if not math.isfinite(number):
        raise ValueError(tr("a corner has a number that is none (NaN or without end)"))
    return number


def clean_name(text: object) -> str:
    """A name on one line that can be shown, shortened where it is very long; "" for none."""
    if isinstance(text, bool) or not isinstance(text, str | int):
        return ""
    words = " ".join("".join(c if c.isprintable() else " " for c in str(text)[:1000]).split())
    return words if len(words) <= LONGEST_NAME else f"{words[: LONGEST_NAME - 1].rstrip()}…"


def name_among(fields: Mapping[str, object]) -> str:
    """The name in a shape's properties: name, title or label, in large or small letters."""
    low = {str(key).casefold(): value for key, value in reversed(list(fields.items()))}
    names = (clean_name(low.get(key)) for key in ("name", "title", "label"))
    return next((each for each in names if each), "")


def parts_named(name: str, index: int, count: int) -> str:
    """The name of one of the several pieces of a shape: "Lawn", "Lawn, part 2"."""
    return (
        tr("{name}, part {index}", name=name, index=index + 1)
        if name and count > 1 and index
        else name
    )
