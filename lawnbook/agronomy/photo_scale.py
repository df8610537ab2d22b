"""Reading a plug from a photograph: a scale of known length, and depths square to the crowns.

Plane geometry of similar figures, and no more: the scale holds where it lies. A ruler that is
nearer to the camera than the cut face of the plug makes everything read too thin, and a slanting
camera makes one end read otherwise than the other. Nothing in the picture can tell; the words
beside it ask for a ruler in the plane of the plug and a camera square to it.

How fine a photograph can be read (our reckoning, source "photo-resolution"): each mark is taken to
be off by one pixel of the picture as it is kept, as a standard deviation, and independently of the
others. A depth of d pixels is the distance of a mark from the crowns' line, whose two ends are
marks as well. At the foot of the mark, a share t along the crowns, the line is off by sqrt((1 - t)²
+ t²) pixels, and the scale of S pixels by sqrt(2) of them, which moves the depth by its share d /
S. So

    sd_px = sqrt(1 + (1 - t)² + t² + 2 (d / S)²).

A ruler with marks r apart is off by r / sqrt(12) for its rounding. The resolution is the r that
would be off as much: sqrt(12) sd_px over the pixels of an inch, at the worst of the marks,
rounded up to hundredths of an inch, and never finer than one.
"""

import math
from typing import Protocol

from lawnbook.frozen import dataclass
from lawnbook.reading import tr

Share = tuple[float, float]
Pixel = tuple[float, float]

LEAST_LINE_PX = 4.0
"""Two ends nearer to each other than this many pixels of the picture are no line (ours)."""
FINEST_IN = 0.01
"""No photograph is trusted finer than this (ours)."""
ROUNDING = math.sqrt(12.0)
"""A reading rounded to marks r apart has a standard deviation of r over this."""


class Marked(Protocol):
    """What was marked on a picture: points as shares of its width and height, upper left first.

    `known_in` is the distance of the two ends of `scale` in inches.
    """

    @property
    def known_in(self) -> float:
        """Inches between the two ends of the scale."""

    @property
    def scale(self) -> tuple[Share, Share]:
        """The two ends of what is known."""

    @property
    def crowns(self) -> tuple[Share, Share] | None:
        """The two ends of the line along the crowns."""

    @property
    def thatch_ends(self) -> tuple[Share, ...]:
        """Where the thatch meets the soil, once or several times."""

    @property
    def roots_end(self) -> Share | None:
        """Where most roots end."""


@dataclass(frozen=True, slots=True)
class PhotoReading:
    """What a picture reads: depths in inches from the crowns, in the order of their marks.

    `resolution_in` is how fine the picture can be read, in inches (see the module's words), and
    `px_per_in` how many pixels of the picture as it is kept are an inch.
    """

    thatch_in: tuple[float, ...]
    root_depth_in: float | None
    resolution_in: float
    px_per_in: float


@dataclass(frozen=True, slots=True)
class _Line:
    """A line through two pixels, with its length."""

    start: Pixel
    end: Pixel
    length_px: float

    def beside_px(self, point: Pixel) -> float:
        """How far a point lies beside the line; the sign tells on which side."""
        (x, y), (ax, ay), (bx, by) = point, self.start, self.end
        return ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / self.length_px

    def along(self, point: Pixel) -> float:
        """Where the foot of a point lies: 0 at the first end, 1 at the second."""
        (x, y), (ax, ay), (bx, by) = point, self.start, self.end
        return ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / self.length_px**2


@dataclass(frozen=True, slots=True)
class Coin:
    """A coin that many a kitchen holds: whose, of what value, its diameter in mm, and its name."""

    land: str
    value: str
    diameter_mm: float
    name: str


COINS = (
    Coin("US", "cent", 19.05, tr("US cent")),
    Coin("US", "nickel", 21.21, tr("US nickel")),
    Coin("US", "dime", 17.91, tr("US dime")),
    Coin("US", "quarter", 24.26, tr("US quarter")),
    Coin("Canada", "5 cents", 21.20, tr("Canada 5 cents")),
    Coin("Canada", "25 cents", 23.88, tr("Canada 25 cents")),
    Coin("Euro", "1 euro", 23.25, tr("1 euro")),
    Coin("Euro", "2 euro", 25.75, tr("2 euro")),
    Coin("UK", "10 pence", 24.50, tr("UK 10 pence")),
    Coin("UK", "2 pence", 25.90, tr("UK 2 pence")),
    Coin("Australia", "10 cents", 23.60, tr("Australia 10 cents")),
)
"""Round coins in use, all from memory, and said so where they are chosen. Two tables of the United
States Mint's specifications at second hand agree with those of the US. Sources: "us-coins",
"other-coins"."""


def px_per_in(marks: Marked, width_px: int, height_px: int) -> float:
    """Pixels of the picture to an inch, from the two ends of the scale.

    ValueError, in words for the owner, where the ends lie on one place or off the picture, or
    the known distance is none.
    """
    scale = _line(marks.scale, (width_px, height_px), "scale")
    if not (math.isfinite(marks.known_in) and marks.known_in > 0):
        raise ValueError("The known distance is missing: enter how far apart the two ends are.")
    return scale.length_px / marks.known_in


def read_plug(marks: Marked, width_px: int, height_px: int) -> PhotoReading:
    """The depths that the marks on a picture of this size in pixels stand for.

    Which side of the crowns is down is told by the roots' end, else by the thatch ends
    themselves, so that a plug may lie any way in the picture. ValueError, in words for the owner,
    where a mark lies off the picture, the ends of the scale or of the crowns lie on one place,
    a depth is marked before the crowns are, or a thatch end lies above the crowns.
    """
    size = (width_px, height_px)
    scale_px_per_in = px_per_in(marks, width_px, height_px)
    ends = [_pixel(each, size, tr("thatch end")) for each in marks.thatch_ends]
    roots = None if marks.roots_end is None else _pixel(marks.roots_end, size, tr("roots' end"))
    if marks.crowns is None:
        if ends or roots is not None:
            raise ValueError("Mark the crowns first: every depth is measured from their line.")
        return PhotoReading((), None, _resolution_in([1.5], scale_px_per_in), scale_px_per_in)
    crowns = _line(marks.crowns, size, "crowns")
    _refuse_both_sides(crowns, ends, roots)
    scale_px = scale_px_per_in * marks.known_in
    off = [_sd_px(crowns, each, scale_px) for each in ends or [roots or crowns.start]]
    return PhotoReading(
        tuple(abs(crowns.beside_px(each)) / scale_px_per_in for each in ends),
        None if roots is None else abs(crowns.beside_px(roots)) / scale_px_per_in,
        _resolution_in([each**2 for each in off], scale_px_per_in),
        scale_px_per_in,
    )


def foot_on_crowns(
    crowns: tuple[Share, Share], mark: Share, width_px: int, height_px: int
) -> tuple[Share, Share]:
    """The ends of the line through a mark that runs beside the crowns, as shares.

    As long as the crowns' line and straight below it. ValueError where the crowns are no line.
    """
    size = (width_px, height_px)
    line = _line(crowns, size, "crowns")
    (ax, ay), (bx, by) = line.start, line.end
    beside = line.beside_px(_pixel(mark, size, "mark"))
    across = (-(by - ay) / line.length_px * beside, (bx - ax) / line.length_px * beside)
    return (
        ((ax + across[0]) / width_px, (ay + across[1]) / height_px),
        ((bx + across[0]) / width_px, (by + across[1]) / height_px),
    )


def too_thin_pct(nearer_in: float, away_in: float) -> float:
    """By how many percent readings come out too small where the ruler is nearer than the plug.

    The plug is `away_in` inches from the lens, the ruler `nearer_in` nearer: by similar triangles
    an inch on the ruler shows away / (away - nearer) as large. ValueError for a ruler at the lens.
    """
    if not 0 <= nearer_in < away_in:
        raise ValueError("the ruler must lie between the lens and the plug")
    return 100.0 * nearer_in / away_in


def _sd_px(crowns: _Line, mark: Pixel, scale_px: float) -> float:
    """How far off a mark's depth is in pixels; see the module's words."""
    t, depth_px = crowns.along(mark), crowns.beside_px(mark)
    return math.sqrt(1 + (1 - t) ** 2 + t**2 + 2 * (depth_px / scale_px) ** 2)


def _resolution_in(variances_px: list[float], scale_px_per_in: float) -> float:
    worst_in = ROUNDING * math.sqrt(max(variances_px)) / scale_px_per_in
    # A hair is taken off, so that 0.0200000001 is not rounded up to 0.03.
    return max(round(math.ceil(worst_in / FINEST_IN - 1e-6) * FINEST_IN, 2), FINEST_IN)


def _refuse_both_sides(crowns: _Line, ends: list[Pixel], roots: Pixel | None) -> None:
    sides = [crowns.beside_px(each) for each in ends]
    down = crowns.beside_px(roots) if roots is not None else max(sides, key=abs, default=0.0)
    if any(side * down < 0 for side in sides):
        raise ValueError(
            "A thatch end lies above the crowns: the crowns are the top of the thatch, and its "
            "ends and the roots' end all lie below them. Move it, or the crowns."
        )


def _line(ends: tuple[Share, Share], size: tuple[int, int], name: str) -> _Line:
    start, end = (_pixel(each, size, tr("end of the {name}", name=name)) for each in ends)
    length_px = math.dist(start, end)
    if length_px < LEAST_LINE_PX:
        raise ValueError(
            f"The two ends of the {name} lie on the same place: drag one of them away."
        )
    return _Line(start, end, length_px)


def _pixel(point: Share, size: tuple[int, int], name: str) -> Pixel:
    """A share of the picture as pixels. ValueError off the picture."""
    if not all(0 <= each <= 1 for each in point):
        raise ValueError(f"A mark lies off the picture ({name}): drag it back onto it.")
    return point[0] * size[0], point[1] * size[1]
