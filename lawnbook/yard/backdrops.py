"""Laying a picture under the sketch: first placing, scaling, turning and moving, as pure sums.

A place of a picture is told as shares of its width and height from its upper left corner, so that
it means the same however large the picture is kept. The sums are those of a similarity: one scale
for both directions, a turn and a shift. An upright aerial image or a plan needs no more; a
photograph that leans or a creased plan does not fit everywhere, which a second known distance
tells.
"""

import math
from collections.abc import Iterable
from dataclasses import replace
from typing import Literal

from lawnbook.frozen import dataclass
from lawnbook.reading import is_metric, tr
from lawnbook.yard import amounts
from lawnbook.yard.amounts import trimmed
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import EMPTY_YARD_FT, Bounds, bounds_ft, yard_bounds_ft
from lawnbook.yard.notebook import Change, Notebook, new_id, next_rank, put
from lawnbook.yard.numbers import feet_inches
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Backdrop

Along = Literal["across", "up", "north"]
"""What two points lie along: a line across the page, one up it, or from south to north."""

FIRST_ACROSS_FT = 100.0
"""How wide a picture is laid down where nothing is drawn yet (common practice: a small lot)."""

PLACED_WITHIN_PX = 2.0
"""How well a place of a picture is hit by a click on it (common practice)."""

LEAST_APART_PX = 20.0
"""Two ends nearer than this in the picture make no scale: two pixels would be a tenth of it."""

PARTED_BY_PCT = 2.0
"""Two distances that part by more than their ends explain, and by this, tell a picture that leans
(common practice)."""

_WHOLE_WIDTH = ((0.0, 0.5), (1.0, 0.5))


@dataclass(frozen=True, slots=True)
class Checked:
    """A second distance beside the picture's scale, in feet.

    `off_pct` is by how much the picture shows it too long, `from_clicks_pct` how much of that the
    clicks at both distances' ends explain.
    """

    in_picture_ft: float
    taped_ft: float
    from_clicks_pct: float

    @property
    def off_pct(self) -> float:
        """By how many percent the picture shows it too long; below zero, too short."""
        return (self.in_picture_ft / self.taped_ft - 1) * 100

    @property
    def agrees(self) -> bool:
        """Whether the clicks alone explain the difference, or it is too small to matter."""
        return abs(self.off_pct) <= max(self.from_clicks_pct, PARTED_BY_PCT)


def new_backdrop(notebook: Notebook, name: str, data: bytes, size_px: tuple[int, int]) -> Backdrop:
    """A picture's bytes as a new backdrop over the middle of what is drawn, as wide as that.

    Where nothing is drawn it is `FIRST_ACROSS_FT` across. It lies on top of other backdrops.
    """
    width_px, height_px = size_px
    picture = Picture.of(data)
    box = yard_bounds_ft(notebook)
    west, south, east, north = box
    if box == EMPTY_YARD_FT:
        ft_per_px = FIRST_ACROSS_FT / width_px
    else:
        ft_per_px = max((east - west) / width_px, (north - south) / height_px, 1e-3)
    return Backdrop(
        id=new_id(),
        rank=next_rank(notebook, "backdrops"),
        name=_free_name(notebook, name),
        sha256=picture.sha256,
        data_b64=picture,
        width_px=width_px,
        height_px=height_px,
        middle_ft=_tidy(((west + east) / 2, (south + north) / 2)),
        ft_per_px=min(ft_per_px, 100.0),
    )


def place_ft(backdrop: Backdrop, share: Point) -> Point:
    """Where a place of the picture lies on the sketch, in feet."""
    right = (share[0] - 0.5) * backdrop.width_px * backdrop.ft_per_px
    up = (0.5 - share[1]) * backdrop.height_px * backdrop.ft_per_px
    x, y = _turned((right, up), backdrop.turn_deg)
    return (backdrop.middle_ft[0] + x, backdrop.middle_ft[1] + y)


def share_at(backdrop: Backdrop, at_ft: Point) -> Point:
    """Which place of the picture lies there, beyond 0 to 1 off the picture."""
    x, y = at_ft[0] - backdrop.middle_ft[0], at_ft[1] - backdrop.middle_ft[1]
    right, up = _turned((x, y), -backdrop.turn_deg)
    return (
        0.5 + right / (backdrop.width_px * backdrop.ft_per_px),
        0.5 - up / (backdrop.height_px * backdrop.ft_per_px),
    )


def corners_ft(backdrop: Backdrop) -> tuple[Point, ...]:
    """Its four corners on the sketch, from the upper left one clockwise in the picture."""
    return tuple(place_ft(backdrop, share) for share in ((0, 0), (1, 0), (1, 1), (0, 1)))


def seen_bounds_ft(notebook: Notebook) -> Bounds:
    """The box round all that is drawn, or round the shown backdrops while nothing is."""
    drawn = yard_bounds_ft(notebook)
    if drawn != EMPTY_YARD_FT or notebook.zones or notebook.features:
        return drawn
    shown = [corners_ft(each) for each in notebook.backdrops.values() if each.shown]
    return bounds_ft(shown) if shown else drawn


def ground_bounds_ft(notebook: Notebook) -> Bounds:
    """The box round all that is drawn and every shown backdrop."""
    shown = [corners_ft(each) for each in notebook.backdrops.values() if each.shown]
    west, south, east, north = seen_bounds_ft(notebook)
    return bounds_ft([((west, south), (east, north)), *shown])


def scaled(backdrop: Backdrop, a: Point, b: Point, length_ft: float) -> Backdrop:
    """The picture so large that the places now at `a` and `b` are `length_ft` apart.

    `a` keeps its place. The two ends and the length are kept as what the scale rests on.
    OwnerError where it is locked, an end is off the picture, or they are too near each other.
    """
    refuse_if_locked(backdrop)
    ends = (share_at(backdrop, a), share_at(backdrop, b))
    apart_px = _ends_apart_px(backdrop, ends)
    _refuse_length(length_ft)
    after = replace(backdrop, ft_per_px=length_ft / apart_px)
    kept = replace(after, scale_ends=(_share(ends[0]), _share(ends[1])), scale_ft=length_ft)
    return _with_place_at(kept, ends[0], a)


def scaled_by_print(backdrop: Backdrop, ft_per_in: float, paper_in: float) -> Backdrop:
    """The picture by a plan's printed scale: feet to an inch, and how wide the scanned paper is.

    Its middle keeps its place; what the scale rests on is the distance across the whole picture.
    OwnerError where it is locked, or a number is not above zero.
    """
    refuse_if_locked(backdrop)
    for value, what in (
        (ft_per_in, tr("The scale") if is_metric() else tr("Feet to an inch")),
        (paper_in, tr("The paper's width")),
    ):
        if value <= 0:
            raise OwnerError(tr("{what} must be above zero.", what=what))
    across_ft = ft_per_in * paper_in
    _refuse_length(across_ft)
    return replace(
        backdrop,
        ft_per_px=across_ft / backdrop.width_px,
        scale_ends=_WHOLE_WIDTH,
        scale_ft=across_ft,
    )


def checked(backdrop: Backdrop, a: Point, b: Point, length_ft: float) -> Checked:
    """A second distance, from `a` to `b` on the sketch, beside the one typed. Changes nothing.

    OwnerError where the picture has no scale yet, an end is off it, or they are too near.
    """
    if backdrop.scale_ends is None:
        raise OwnerError(tr("Set the scale by a first distance; then check it with another."))
    _refuse_length(length_ft)
    apart_px = _ends_apart_px(backdrop, (share_at(backdrop, a), share_at(backdrop, b)))
    clicks = math.hypot(_click_share(apart_px), _scale_error(backdrop))
    return Checked(apart_px * backdrop.ft_per_px, length_ft, clicks * 100)


def levelled(backdrop: Backdrop, a: Point, b: Point, along: Along, north_deg: float) -> Backdrop:
    """The picture turned about `a` until the line to `b` runs as told.

    A line across or up the page may have been clicked from either end: the smaller turn is taken.
    One to the north is clicked from its south end. `north_deg` is where the sketch's north is.
    OwnerError where it is locked.
    """
    refuse_if_locked(backdrop)
    runs = math.degrees(math.atan2(b[0] - a[0], b[1] - a[1]))
    if along == "north":
        by = _least_turn(north_deg - runs, 360)
    else:
        by = _least_turn((90.0 if along == "across" else 0.0) - runs, 180)
    return turned_to(backdrop, backdrop.turn_deg + by, about=a)


def turned_to(backdrop: Backdrop, turn_deg: float, about: Point | None = None) -> Backdrop:
    """The picture turned so far clockwise, about a place of the sketch or its own middle."""
    refuse_if_locked(backdrop)
    after = replace(backdrop, turn_deg=round(_least_turn(turn_deg, 360), 3))
    return after if about is None else _with_place_at(after, share_at(backdrop, about), about)


def moved(backdrop: Backdrop, by: Point) -> Backdrop:
    """The picture so far to the right and up the page, in feet."""
    refuse_if_locked(backdrop)
    x, y = backdrop.middle_ft
    return replace(backdrop, middle_ft=_tidy((x + by[0], y + by[1])))


def laid(notebook: Notebook, backdrop_id: str, *, higher: bool) -> Change:
    """The change that lays a backdrop over the next one above it, or under the next below.

    It is empty where there is none. OwnerError where it is locked.
    """
    rows = list(notebook.backdrops.values())
    at = next(place for place, row in enumerate(rows) if row.id == backdrop_id)
    refuse_if_locked(rows[at])
    to = min(max(at + (1 if higher else -1), 0), len(rows) - 1)
    rows.insert(to, rows.pop(at))
    ranked = [replace(row, rank=rank) for rank, row in enumerate(rows)]
    return put(notebook, "backdrops", *ranked) if to != at else {}


def refuse_if_locked(backdrop: Backdrop) -> None:
    """OwnerError where the backdrop is locked."""
    if backdrop.locked:
        raise OwnerError(tr("{name} is locked; unlock it first.", name=backdrop.name))


def scale_words(backdrop: Backdrop) -> str:
    """What its scale rests on, and how well a corner can be placed by it."""
    pixel_in = backdrop.ft_per_px * 12
    if backdrop.scale_ends is None or backdrop.scale_ft is None:
        return tr(
            "Not scaled yet: its size is a guess. Set the scale by two points whose "
            "distance you know."
        )
    near_in = PLACED_WITHIN_PX * pixel_in
    by = tr("by {scale_ft} between two points", scale_ft=feet_inches(backdrop.scale_ft))
    if backdrop.scale_ends == _WHOLE_WIDTH:
        by = tr(
            "by its printed scale: {scale_ft} across the picture",
            scale_ft=feet_inches(backdrop.scale_ft),
        )
    off_in = _scale_error(backdrop) * 100 * 12
    clicks = tr("The two clicks alone may put 100' off by {short}.", short=_short(off_in))
    if not off_in:
        clicks = tr("Check one distance with a tape.")
    return tr(
        "Scaled {by}. A pixel is {pixel}, so a corner can be placed to about {near} "
        "(two pixels). {clicks}",
        by=by,
        pixel=_short(pixel_in),
        near=_short(near_in),
        clicks=clicks,
    )


def checked_words(found: Checked) -> str:
    """What a second distance says of the scale."""
    much = f"{amounts.told(abs(found.off_pct), 1)} %"
    longer = "longer" if found.off_pct > 0 else "shorter"
    told = tr(
        "The picture shows {in_picture_ft} where you measured {taped_ft}: {much} {longer}.",
        in_picture_ft=feet_inches(found.in_picture_ft),
        taped_ft=feet_inches(found.taped_ft),
        much=much,
        longer=longer,
    )
    if abs(found.off_pct) <= found.from_clicks_pct:
        return tr("{told} The two distances agree as well as the clicks allow.", told=told)
    if found.agrees:
        return tr(
            "{told} That is more than the clicks explain, yet too little to show a picture "
            "that leans. An area traced on it may be {off_pct:.0f} % off.",
            told=told,
            off_pct=2 * abs(found.off_pct),
        )
    return tr(
        "{told} That is more than the clicks explain. Check both distances; if they "
        "are right, the picture leans or is stretched: trace only near the first one, "
        "and tape the rest.",
        told=told,
    )


def _scale_error(backdrop: Backdrop) -> float:
    """How far the scale may be off from the clicks at its ends, as a share of it."""
    if backdrop.scale_ends is None or backdrop.scale_ends == _WHOLE_WIDTH:
        return 0.0
    return _click_share(_apart_px(backdrop, backdrop.scale_ends))


def _click_share(apart_px: float) -> float:
    """Two clicks are each off by `PLACED_WITHIN_PX`; independent errors add as squares."""
    return math.sqrt(2) * PLACED_WITHIN_PX / apart_px


def _ends_apart_px(backdrop: Backdrop, ends: tuple[Point, Point]) -> float:
    if not all(_on_picture(each) for each in ends):
        raise OwnerError(
            tr("Both points must lie on {name}; click on the picture.", name=backdrop.name)
        )
    apart_px = _apart_px(backdrop, ends)
    if apart_px < LEAST_APART_PX:
        raise OwnerError(
            tr(
                "The two points are only {apart_px:.0f} pixels of the picture apart; choose a "
                "longer distance, such as a side of the house.",
                apart_px=apart_px,
            )
        )
    return apart_px


def _apart_px(backdrop: Backdrop, ends: tuple[Point, Point]) -> float:
    (ua, va), (ub, vb) = ends
    return math.hypot((ub - ua) * backdrop.width_px, (vb - va) * backdrop.height_px)


def _on_picture(share: Point) -> bool:
    return all(-1e-9 <= each <= 1 + 1e-9 for each in share)


def _share(share: Point) -> Point:
    """A place of the picture to less than a hundredth of a pixel, never off it."""
    return (min(max(round(share[0], 7), 0.0), 1.0), min(max(round(share[1], 7), 0.0), 1.0))


def _refuse_length(length_ft: float) -> None:
    if not 0.1 <= length_ft <= 5000:
        raise OwnerError(
            tr(
                "{length_ft} is no distance for a yard's picture; enter one between {reach}.",
                length_ft=feet_inches(length_ft),
                reach=_reach(),
            )
        )


def _with_place_at(backdrop: Backdrop, share: Point, at_ft: Point) -> Backdrop:
    """The backdrop moved until one place of the picture lies there."""
    lies = place_ft(backdrop, share)
    x, y = backdrop.middle_ft
    return replace(backdrop, middle_ft=_tidy((x + at_ft[0] - lies[0], y + at_ft[1] - lies[1])))


def _turned(at: Point, clockwise_deg: float) -> Point:
    angle = math.radians(clockwise_deg)
    cos, sin = math.cos(angle), math.sin(angle)
    return (at[0] * cos + at[1] * sin, at[1] * cos - at[0] * sin)


def _least_turn(deg: float, whole: float) -> float:
    """The same turn between minus and plus a half of `whole`."""
    left = deg % whole
    return left - whole if left > whole / 2 else left


def _tidy(at: Point) -> Point:
    """To a thousandth of a foot: a picture is not drawn to corners."""
    return (round(at[0], 3) + 0.0, round(at[1], 3) + 0.0)


def _short(inches: float) -> str:
    """A short length: inches with one place, from a foot and a half on feet and inches."""
    if inches >= 18:
        return feet_inches(inches / 12)
    return trimmed(inches, 1 if inches >= 0.1 else 2, "in")


def _free_name(notebook: Notebook, name: str) -> str:
    """The name, numbered where another backdrop has it already."""
    taken = {each.name.casefold() for each in notebook.backdrops.values()}
    return next(
        each
        for each in _numbered(name.strip()[:60] or tr("Picture"))
        if each.casefold() not in taken
    )


def _numbered(name: str) -> Iterable[str]:
    yield name
    number = 2
    while True:
        yield f"{name} {number}"
        number += 1


def _reach() -> str:
    return tr("50 mm and 1,500 m") if is_metric() else tr("2 inches and 5,000 feet")
