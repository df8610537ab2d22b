"""How a shape in the making is shown: its lines and lengths, and the words beside the pointer."""

import math
from collections.abc import Iterable, Sequence

from lawnbook.desk import theme
from lawnbook.desk.sketch.chain import CROSSES, Chain, arc_length_ft, radius_ft, turn_words
from lawnbook.desk.sketch.lengths import DOTTED_CORNERS, DrawingItem, length_items
from lawnbook.desk.sketch.outlines import bearing_deg, last_side_crosses
from lawnbook.desk.sketch.snapping import Snap
from lawnbook.desk.sketch.strip_items import StripItem
from lawnbook.plan.strips import strip_width_ft, strips_along
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.curves import arc_through
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import area_sqft, crosses_itself
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import feet_inches
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature

APART = "  ·  "


def show_closed(
    drawing: DrawingItem, outline: Outline, snap: Snap | None, ft_per_px: float
) -> None:
    """Draw a closed shape; a round one bears no lengths, its words have the radius."""
    palette = theme.palette()
    drawing.show_outline(outline, palette, closed=True, wrong=crosses_itself(outline))
    if snap is not None:
        drawing.show_snap(snap, palette)
    if len(outline) <= DOTTED_CORNERS:
        for item in length_items(outline, palette, ft_per_px):
            item.setParentItem(drawing)


def show_chain(
    drawing: DrawingItem, chain: Chain, ahead: Outline, snap: Snap, ft_per_px: float
) -> bool:
    """Draw the corners put and what is ahead of them to the pointer; whether it would cross."""
    palette = theme.palette()
    corners = (*chain.corners, *ahead)
    put = len(chain.corners)
    wrong = any(last_side_crosses(corners[:end]) for end in range(put + 1, len(corners) + 1))
    drawing.show_outline(corners, palette, closed=False, wrong=wrong, dots=chain.ends)
    drawing.show_snap(snap, palette)
    for item in length_items(corners, palette, ft_per_px, closed=False):
        item.setParentItem(drawing)
    return wrong


def show_strips(drawing: DrawingItem, notebook: Notebook, feature: Feature) -> None:
    """Hatch what the strip of a feature in the making would take of the zones."""
    if len(feature.outline_ft) < 3 or crosses_itself(feature.outline_ft):
        return
    if strip_width_ft(feature, notebook.n_rules) <= 0:
        return
    for zone in notebook.zones.values():
        found = strips_along([feature], notebook.n_rules, zone)
        if found.names:
            item = StripItem()
            item.show_strips(found, theme.palette())
            item.setParentItem(drawing)


def side_words(chain: Chain, to: Point, reason: str, *, wrong: bool) -> str:
    """A straight side to a point: length, direction, turn, the area so far, and the reason."""
    if wrong:
        return CROSSES
    corners = chain.corners
    start = corners[-1]
    words = [feet_inches(math.dist(start, to))]
    if math.dist(start, to) > 0.02:
        way = bearing_deg(start, to)
        words.append(f"{round(way) % 360}°")
        if chain.last_deg is not None:
            words.append(turn_words(way - chain.last_deg))
    return APART.join([*words, *_area((*corners, to)), *_said(reason)])


def arc_words(chain: Chain, via: Point, to: Point, reason: str, *, wrong: bool) -> str:
    """An arc to a point: its radius, how long it is, and the reason."""
    if wrong:
        return CROSSES
    start = chain.corners[-1]
    radius, length = radius_ft(start, via, to), arc_length_ft(start, via, to)
    first = (
        tr("radius {radius}", radius=feet_inches(radius))
        if radius is not None
        else tr("a straight side")
    )
    return APART.join([first, tr("{length} along", length=feet_inches(length)), *_said(reason)])


def arc_ahead(chain: Chain, via: Point, to: Point) -> Outline:
    """The corners of an arc after the last corner put; none where there is no such arc."""
    try:
        return arc_through(chain.corners[-1], via, to)[1:]
    except OwnerError:
        return ()


def closed_words(outline: Outline, reason: str, radius: float | None = None) -> str:
    """A closed shape: its sides or its radius, its area, and the reason."""
    first: list[str] = []
    if radius is not None:
        first = [tr("radius {radius}", radius=feet_inches(radius))]
    elif len(outline) == 4:
        across, up = math.dist(*outline[:2]), math.dist(*outline[1:3])
        first = [f"{feet_inches(across)} × {feet_inches(up)}"]
    return APART.join([*first, told(area_sqft(outline), 0, "sq ft"), *_said(reason)])


def _area(corners: Sequence[Point]) -> Iterable[str]:
    if len(corners) > 2 and not crosses_itself(tuple(corners)):
        yield told(area_sqft(tuple(corners)), 0, "sq ft")


def _said(reason: str) -> list[str]:
    return [reason] if reason else []
