"""The marks of a photo ruler as steps and single points that a hand or a key moves. No Qt.

A point is known by its key: `scale_0`, `scale_1`, `crowns_0`, `crowns_1`, `thatch_0` and on,
`roots`. Every function gives a new ruler; none changes one.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Literal

from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.record_plug import PhotoRuler

Step = Literal["Scale", "Crowns", "Thatch ends", "Deepest roots"]
STEPS: tuple[Step, ...] = ("Scale", "Crowns", "Thatch ends", "Deepest roots")
LINES: tuple[Step, ...] = ("Scale", "Crowns")
"""The steps that mark a line by its two ends."""
_STEP_OF: Mapping[str, Step] = {
    "scale": "Scale",
    "crowns": "Crowns",
    "thatch": "Thatch ends",
    "roots": "Deepest roots",
}


def step_of(key: str) -> Step:
    """The step that a point belongs to. KeyError for a key that is none."""
    return _STEP_OF[key.partition("_")[0]]


def points_of(ruler: PhotoRuler | None) -> dict[str, Point]:
    """Every marked point by its key, in the order of the steps."""
    if ruler is None:
        return {}
    points = {f"scale_{i}": each for i, each in enumerate(ruler.scale)}
    points |= {f"crowns_{i}": each for i, each in enumerate(ruler.crowns or ())}
    points |= {f"thatch_{i}": each for i, each in enumerate(ruler.thatch_ends)}
    return points if ruler.roots_end is None else {**points, "roots": ruler.roots_end}


def spoken(key: str) -> str:
    """What a point is called: "Scale, first end", "Thatch end 2", "Deepest roots"."""
    step, number = step_of(key), key.partition("_")[2]
    if step in LINES:
        return (
            tr("{step}, second end", step=tr(step))
            if int(number)
            else tr("{step}, first end", step=tr(step))
        )
    return tr("Thatch end {number}", number=int(number) + 1) if step == "Thatch ends" else tr(step)


def moved(ruler: PhotoRuler, key: str, to: Point) -> PhotoRuler:
    """The ruler with one point elsewhere, kept on the picture. KeyError without such a point."""
    if key not in points_of(ruler):
        raise KeyError(key)
    at, number = on_picture(to), int(key.partition("_")[2] or 0)
    step = step_of(key)
    if step == "Scale":
        return replace(ruler, scale=_with_end(ruler.scale, number, at))
    if step == "Crowns" and ruler.crowns is not None:
        return replace(ruler, crowns=_with_end(ruler.crowns, number, at))
    if step == "Thatch ends":
        ends = ruler.thatch_ends
        return replace(ruler, thatch_ends=(*ends[:number], at, *ends[number + 1 :]))
    return replace(ruler, roots_end=at)


def without(ruler: PhotoRuler, key: str) -> PhotoRuler | None:
    """The ruler without a point: without its line if it ends one, None without its scale."""
    step = step_of(key)
    if step == "Scale":
        return None
    if step == "Crowns":
        return replace(ruler, crowns=None)
    if step == "Thatch ends":
        number = int(key.partition("_")[2])
        ends = ruler.thatch_ends
        return replace(ruler, thatch_ends=(*ends[:number], *ends[number + 1 :]))
    return replace(ruler, roots_end=None)


def placed(ruler: PhotoRuler | None, step: Step, line: tuple[Point, Point]) -> PhotoRuler:
    """The ruler with a step's mark put down: its line, or its point at the line's second end.

    The first mark makes the ruler, of an inch until the owner says otherwise. ValueError for
    another step before the scale.
    """
    ends = (on_picture(line[0]), on_picture(line[1]))
    if step == "Scale":
        made = PhotoRuler(known_in=1.0, scale=ends)
        return made if ruler is None else replace(ruler, scale=ends)
    if ruler is None:
        raise ValueError("the scale comes first")
    if step == "Crowns":
        return replace(ruler, crowns=ends)
    if step == "Thatch ends":
        return replace(ruler, thatch_ends=(*ruler.thatch_ends, ends[1]))
    return replace(ruler, roots_end=ends[1])


def is_open(ruler: PhotoRuler | None, step: Step) -> bool:
    """Whether a press on the picture puts a mark of this step down: what is there is dragged."""
    if step == "Scale":
        return ruler is None
    if ruler is None:
        return False
    if step == "Crowns":
        return ruler.crowns is None
    return ruler.crowns is not None and (step == "Thatch ends" or ruler.roots_end is None)


def allowed(ruler: PhotoRuler | None, step: Step) -> bool:
    """Whether a step can be gone to: the scale first, then the crowns, then what is below."""
    place = STEPS.index(step)
    return place == 0 or (ruler is not None and (place == 1 or ruler.crowns is not None))


def usual_line(ruler: PhotoRuler | None, step: Step) -> tuple[Point, Point]:
    """Where a mark is put down by a key alone, to be nudged from there to its place."""
    if step == "Scale":
        return (0.35, 0.85), (0.65, 0.85)
    crowns = None if ruler is None else ruler.crowns
    if step == "Crowns" or crowns is None:
        return (0.3, 0.3), (0.7, 0.3)
    (ax, ay), (bx, by) = crowns
    below = (
        0.5 if step == "Deepest roots" else 0.15 + 0.04 * len(ruler.thatch_ends if ruler else ())
    )
    at = ((ax + bx) / 2, (ay + by) / 2 + below * (1 if (ay + by) / 2 < 0.5 else -1))
    return at, at


def on_picture(point: Point) -> Point:
    """A point moved to the nearest place on the picture."""
    return min(max(point[0], 0.0), 1.0), min(max(point[1], 0.0), 1.0)


def _with_end(line: tuple[Point, Point], number: int, at: Point) -> tuple[Point, Point]:
    return (at, line[1]) if number == 0 else (line[0], at)
