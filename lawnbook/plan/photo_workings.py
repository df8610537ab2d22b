"""How what is read off a photograph of a plug came about: scale, depths, how fine, how alike."""

import math
import statistics
from collections.abc import Iterator, Mapping, Sequence

from lawnbook.agronomy.photo_scale import PhotoReading, read_plug
from lawnbook.frozen import dataclass
from lawnbook.plan.filled_in import by_function, numbered, put_in, readings_in, reckons
from lawnbook.plan.nitrogen_workings import sum_of
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import given, sources, told
from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.record_plug import PhotoRuler

MARKED = tr("marked on the picture")
TWO = 2
"""So many readings at least, that they may agree or not."""


def photo_workings(ruler: PhotoRuler | None, size_px: tuple[int, int]) -> tuple[Working, ...]:
    """Scale, readings, their mean and spread, how fine; none while the marks say nothing."""
    if ruler is None:
        return ()
    try:
        reading = read_plug(ruler, *size_px)
    except ValueError:
        return ()
    return tuple(_Photo(ruler, size_px, reading).workings())


def workings_of_mark(workings: Sequence[Working], key: str) -> tuple[Working, ...]:
    """Those of one mark, by its key: of the scale's ends the scale, of a thatch end its reading."""
    kind, _, number = key.partition("_")
    wanted = {
        "scale": ("photo_scale", "photo_scale_spread"),
        "thatch": (f"photo_thatch:{number}",),
        "roots": ("photo_roots",),
    }.get(kind)
    if wanted is None:
        return tuple(workings)
    return tuple(each for each in workings if each.figure in wanted)


@dataclass(frozen=True, slots=True)
class _Photo:
    """A picture of some size in pixels, its marks, and what they read."""

    ruler: PhotoRuler
    size_px: tuple[int, int]
    reading: PhotoReading

    @property
    def scale_px(self) -> float:
        """How long the known distance is on the picture."""
        return self.reading.px_per_in * self.ruler.known_in

    def workings(self) -> Iterator[Working]:
        """In the order in which one leads to the next."""
        yield self._scale()
        yield self._scale_spread()
        for number, depth_in in enumerate(self.reading.thatch_in):
            name = tr("Thatch, reading {number}", number=number + 1)
            yield self._depth(f"photo_thatch:{number}", name, depth_in, "plug-reading")
        if len(self.reading.thatch_in) >= TWO:
            yield from self._together()
        if self.reading.root_depth_in is not None:
            name = tr("Roots, read off the picture")
            yield self._depth("photo_roots", name, self.reading.root_depth_in, "root-reading")
        yield self._fine()

    def _length(self) -> Input:
        ends = tr("between the two ends of the scale, {marked}", marked=MARKED)
        told_of = given(tr("Scale"), told(self.scale_px, 0, "px"), ends)
        return numbered(told_of, "scale", self.scale_px, "px")

    def _known(self) -> Input:
        typed = tr("typed, or the coin's diameter")
        known = given(tr("Known distance"), told(self.ruler.known_in, 3, "in"), typed)
        return numbered(known, "known", self.ruler.known_in, "in")

    def _scale(self) -> Working:
        inputs = (self._length(), self._known())
        formula = "{scale:1} ÷ {known}"
        return Working(
            "photo_scale",
            tr("Scale of the picture"),
            told(self.reading.px_per_in, 0, "px/in"),
            tr("pixels between the ends ÷ known distance"),
            put_in(formula, inputs),
            inputs,
            sources("photo-resolution"),
            reckons(formula, "px/in", 0),
        )

    def _scale_spread(self) -> Working:
        inputs = (self._length(),)
        formula = "100 × √2 ÷ {scale:1}"
        return Working(
            "photo_scale_spread",
            tr("Spread of the scale"),
            told(100 * math.sqrt(2) / self.scale_px, 2, "%"),
            tr("100 × √2 ÷ pixels between the ends: each end is off by one pixel"),
            put_in(formula, inputs),
            inputs,
            sources("photo-resolution"),
            reckons("100 × √(2) ÷ {scale}", "%"),
        )

    def _depth(self, figure: str, label: str, depth_in: float, source: str) -> Working:
        depth_px = depth_in * self.reading.px_per_in
        square = tr("square to the crowns' line, {marked}", marked=MARKED)
        below = given(tr("Below the crowns"), told(depth_px, 0, "px"), square)
        inputs = (numbered(below, "depth", depth_px, "px"), self._length(), self._known())
        formula = "{depth:1} × {known} ÷ {scale:1}"
        return Working(
            figure,
            label,
            told(depth_in, 2, "in"),
            tr("pixels below the crowns × known distance ÷ pixels of the scale"),
            put_in(formula, inputs),
            inputs,
            sources("photo-resolution", source),
            reckons(formula, "in"),
        )

    def _together(self) -> Iterator[Working]:
        """Mean of the readings, and how far they lie apart."""
        thatch = self.reading.thatch_in
        readings = readings_in(thatch, MARKED)
        formula = f"({sum_of(readings)}) ÷ {len(thatch)}"
        yield Working(
            "photo_thatch_mean",
            tr("Thatch, mean of the readings"),
            told(statistics.fmean(thatch), 2, "in"),
            tr("sum of the readings ÷ how many there are"),
            put_in(formula, readings),
            readings,
            sources("plug-reading"),
            reckons(formula, "in"),
        )
        yield Working(
            "photo_thatch_spread",
            tr("How far the readings lie apart"),
            told(statistics.stdev(thatch), 2, "in"),
            tr("√(sum of (reading − mean)² ÷ (readings − 1)), their standard deviation"),
            "",
            readings,
            sources("plug-reading"),
            by_function(_apart, "in"),
        )

    def _fine(self) -> Working:
        """How fine the picture is read: by the mark that is off the most."""
        foot, depth_px = self._worst()
        t = numbered(
            given(tr("Foot along the crowns"), told(foot, 2), tr("0 at one end, 1 at the other")),
            "t",
            foot,
        )
        below = given(tr("Below the crowns"), told(depth_px, 0, "px"), tr("of the worst mark"))
        inputs = (t, numbered(below, "depth", depth_px, "px"), self._length(), self._known())
        formula = (
            "√(12) × √(1 + (1 − {t})² + {t}² + 2 × ({depth:1} ÷ {scale:1})²) × {known} ÷ {scale:1}"
        )
        return Working(
            "photo_resolution",
            tr("How fine the picture is read"),
            told(self.reading.resolution_in, 2, "in"),
            tr(
                "√12 × √(1 + (1 − t)² + t² + 2 (depth ÷ scale)²) ÷ pixels of an inch, rounded up "
                "to hundredths of an inch"
            ),
            put_in(formula, inputs),
            inputs,
            sources("photo-resolution", "rounding"),
            reckons(formula, "in", 3),
        )

    def _worst(self) -> tuple[float, float]:
        """The mark that is off the most: where its foot lies on the crowns, and its depth in px."""
        crowns, marks = self.ruler.crowns, [*self.ruler.thatch_ends]
        if crowns is None:
            # As where a foot in the middle and no depth would be.
            return 0.5, 0.0
        start, end = (self._px(each) for each in crowns)
        across = (end[0] - start[0], end[1] - start[1])
        length = math.hypot(*across)
        if not marks:
            marks = [self.ruler.roots_end or crowns[0]]

        def seen(mark: Point) -> tuple[float, float]:
            x, y = self._px(mark)
            beside = (x - start[0], y - start[1])
            along = (beside[0] * across[0] + beside[1] * across[1]) / length**2
            return along, abs(across[0] * beside[1] - across[1] * beside[0]) / length

        return max(map(seen, marks), key=self._variance)

    def _variance(self, seen: tuple[float, float]) -> float:
        foot, depth_px = seen
        return 1 + (1 - foot) ** 2 + foot**2 + 2 * (depth_px / self.scale_px) ** 2

    def _px(self, share: Point) -> tuple[float, float]:
        return share[0] * self.size_px[0], share[1] * self.size_px[1]


def _apart(numbers: Mapping[str, float]) -> float:
    """The standard deviation of readings, in."""
    return statistics.stdev(numbers.values())
