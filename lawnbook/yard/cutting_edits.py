"""Edits that cut ground out of a shape: other shapes, or a strip along its edge."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Literal

from lawnbook.frozen import dataclass
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import plainly
from lawnbook.yard.ground import Ground, ground_of, shared, side_between, strip_along, without
from lawnbook.yard.notebook import Change, Key, Notebook, apply, new_id, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, FeatureKind, Zone
from lawnbook.yard.shape_records import (
    Shape,
    called,
    free_names,
    held,
    listed,
    refuse_far,
    shape_held,
    with_ground,
)
from lawnbook.yard.zone_edits import Edits, divided, opened

Becomes = FeatureKind | Literal["zone"]
"""What a strip becomes."""

CRUMB_SHARE, CRUMB_SQFT = 0.01, 10.0
"""A piece cut off that is smaller than both, of its shape and at all, is not kept."""

WIDEST_STRIP_FT = 500.0


@dataclass(frozen=True, slots=True)
class Cut:
    """What is left of a shape that was cut: the piece it keeps, the others, and the crumbs."""

    kept: Ground
    others: tuple[Ground, ...]
    crumbs_sqft: float


def subtracted(notebook: Notebook, key: Key, others: Iterable[Key]) -> Change:
    """The change that cuts other zones and features out of a zone or feature.

    They stay as they are. What lies inside becomes a hole, what reaches the edge a bite. Of several
    pieces the largest keeps the record, the others are new ones, and crumbs go (`cut_of` tells).
    OwnerError where it is locked, where they share no ground, or nothing would be left.
    """
    shape = shape_held(notebook, key)
    cut = cut_of(notebook, key, others)
    return divided(notebook, shape, cut.kept, cut.others)


def cut_of(notebook: Notebook, key: Key, others: Iterable[Key]) -> Cut:
    """What would be left of a shape without others: for a preview, and for words."""
    shape = held(notebook, key)
    cutters = [each for each in (held(notebook, other) for other in others) if each is not shape]
    shapes = [each for each in cutters if isinstance(each, Shape)]
    if not isinstance(shape, Shape) or not shapes:
        raise OwnerError(tr("Choose the shape to be cut first, then what is cut out of it."))
    ground, grounds = ground_of(shape), [ground_of(each) for each in shapes]
    names = listed([called(each) for each in shapes])
    if not shared(ground, grounds):
        raise OwnerError(
            tr(
                "{called} shares no ground with {names}; nothing is cut.",
                called=called(shape),
                names=names,
            )
        )
    pieces = without(ground, grounds)
    if not pieces:
        raise OwnerError(
            tr(
                "{called} lies wholly under {names}, so nothing of it would be left; "
                "remove it instead.",
                called=called(shape),
                names=names,
            )
        )
    return _without_crumbs(ground, pieces)


def strip_made(
    notebook: Notebook,
    key: Key,
    side: int | None,
    width_ft: float,
    inward: bool,
    becomes: Becomes,
) -> Change:
    """The change that makes a strip along a side of a shape's outline, or all round (None).

    Inward it is cut out of the shape; a zone's strip that becomes a zone has its share of the past.
    Outward it is new ground with the zone's settings. Water gets no no-spread width of its own:
    the owner's rule beside water holds until one is typed. A ring that becomes a feature is made
    of parts, for a feature has no holes. OwnerError where it is locked or the strip cannot be.
    """
    shape = shape_held(notebook, key)
    strips = strips_of(shape, side, width_ft, inward=inward)
    if not inward:
        change: Edits = dict(_made(notebook, shape, strips, becomes))
    else:
        cut = strip_cut(shape, strips, width_ft)
        if becomes == "zone" and isinstance(shape, Zone):
            change = dict(divided(notebook, shape, cut.kept, (*cut.others, *strips)))
        else:
            change = dict(divided(notebook, shape, cut.kept, cut.others))
            change.update(_made(apply(notebook, change), shape, strips, becomes))
    refuse_far(each.outline_ft for _, each in change.values() if isinstance(each, Zone | Feature))
    return change


def strip_cut(shape: Shape, strips: Sequence[Ground], width_ft: float) -> Cut:
    """What would be left of a shape without strips of it; OwnerError where nothing is."""
    pieces = without(ground_of(shape), strips)
    if not pieces:
        raise OwnerError(
            tr(
                "A strip {plainly} wide takes all of {called}; enter a narrower one.",
                plainly=plainly(width_ft, "ft", 4),
                called=called(shape),
            )
        )
    return _without_crumbs(ground_of(shape), pieces)


def strips_of(
    shape: Shape, side: int | None, width_ft: float, *, inward: bool
) -> tuple[Ground, ...]:
    """The ground of a strip along a shape's edge; OwnerError where there is none to speak of."""
    if not 0 < width_ft <= WIDEST_STRIP_FT:
        lengths = tr("metres") if is_metric() else tr("feet")
        raise OwnerError(
            tr(
                "A strip is up to {plainly} wide; enter its width in {lengths}.",
                plainly=plainly(WIDEST_STRIP_FT, "ft"),
                lengths=lengths,
            )
        )
    ground = ground_of(shape)
    along = side
    if side is not None:
        corners = shape.outline_ft
        if not 0 <= side < len(corners):
            raise OwnerError(
                tr(
                    "{called} has {count} sides; choose one of them.",
                    called=called(shape),
                    count=len(corners),
                )
            )
        # The ground's outline may run the other way round, without corners on straight sides.
        along = side_between(ground, corners[side], corners[(side + 1) % len(corners)])
        if along is None:
            raise OwnerError(tr("That side is too short for a strip; choose another."))
    strips = strip_along(ground, along, width_ft, inward=inward)
    if not strips:
        raise OwnerError(
            tr(
                "A strip {plainly} wide is too little ground; enter a wider one.",
                plainly=plainly(width_ft, "ft", 4),
            )
        )
    return strips


def _made(notebook: Notebook, shape: Shape, grounds: Sequence[Ground], becomes: Becomes) -> Change:
    """New zones like a shape, or new features of a kind, on some ground."""
    if becomes != "zone":
        pieces = [each for ground in grounds for each in opened(ground)]
        return put(
            notebook,
            "features",
            *(Feature(id=new_id(), kind=becomes, outline_ft=each.outline) for each in pieces),
        )
    stem = shape.name if isinstance(shape, Zone) else tr("Zone {count}", count=len(notebook.zones))
    names = free_names(notebook, "zones", stem, len(grounds))
    return put(
        notebook,
        "zones",
        *(_zone_like(shape, name, each) for name, each in zip(names, grounds, strict=True)),
    )


def _zone_like(shape: Shape, name: str, ground: Ground) -> Zone:
    """A new zone with the settings of one, but for the metered flow: it is of other ground."""
    if not isinstance(shape, Zone):
        return Zone(id=new_id(), name=name, outline_ft=ground.outline, holes_ft=ground.holes)
    return replace(with_ground(shape, ground), id=new_id(), name=name, rank=0, flow_gpm=None)


def _without_crumbs(ground: Ground, pieces: Sequence[Ground]) -> Cut:
    """The pieces of a cut, largest first, but for the crumbs among the smaller ones."""
    least = min(CRUMB_SQFT, CRUMB_SHARE * ground.area_sqft)
    others = tuple(each for each in pieces[1:] if each.area_sqft >= least)
    crumbs = sum(each.area_sqft for each in pieces[1:] if each.area_sqft < least)
    return Cut(pieces[0], others, crumbs)
