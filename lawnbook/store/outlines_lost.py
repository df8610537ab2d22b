"""What taking outlines in loses or leaves behind, in sentences: holes, and heads left outside."""

from collections.abc import Iterator, Sequence

from lawnbook.plan.workings import and_joined, counted
from lawnbook.reading import tr
from lawnbook.store.outlines_laid import LaidOutlines
from lawnbook.store.outlines_taken import Becomes, file_name
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import contains, distance_to_edge_ft
from lawnbook.yard.notebook import Change, Notebook
from lawnbook.yard.records import Zone

ON_EDGE_FT = 0.5
"""What stands this near to an outline stands on its edge, as heads do."""


def lost_of(
    notebook: Notebook, laid: LaidOutlines, becomes: Sequence[Becomes], change: Change
) -> str:
    """What is lost by taking outlines in, or left outside of its zone; "" where nothing is."""
    return " ".join((*_holes(laid, becomes), *_left_outside(notebook, change)))


def _holes(laid: LaidOutlines, becomes: Sequence[Becomes]) -> Iterator[str]:
    for place, (shape, each) in enumerate(zip(laid.shapes, becomes, strict=True)):
        holes = shape.ground.holes
        if holes and each.what in ("feature", "shape"):
            count = counted(len(holes), "hole")
            yield tr(
                "{file_name} loses its {count}, for a feature has none.",
                file_name=file_name(shape, place),
                count=count,
            )


def _left_outside(notebook: Notebook, change: Change) -> Iterator[str]:
    for before, after in change.values():
        if not isinstance(before, Zone) or not isinstance(after, Zone):
            continue
        outside = [
            (what, len(found))
            for what, places in _standing(notebook, after.id)
            if (found := [at for at in places if _on(before, at) and not _on(after, at)])
        ]
        if outside:
            left = and_joined([counted(count, what) for what, count in outside])
            yield (
                tr(
                    "{left} of {name} now lies outside it; move it where it belongs.",
                    left=left,
                    name=after.name,
                )
                if sum(count for _, count in outside) == 1
                else tr(
                    "{left} of {name} now lie outside it; move them where they belong.",
                    left=left,
                    name=after.name,
                )
            )


def _standing(notebook: Notebook, zone_id: str) -> tuple[tuple[str, list[Point]], ...]:
    """Where the heads and spots of a zone stand."""
    heads = [each.at_ft for each in notebook.heads.values() if each.zone == zone_id]
    spots = [each.at_ft for each in notebook.spots.values() if each.zone == zone_id]
    return ("head", heads), ("spot", [at for at in spots if at is not None])


def _on(zone: Zone, at: Point) -> bool:
    inside = contains(zone.outline_ft, at, zone.holes_ft)
    return inside or distance_to_edge_ft(zone.outline_ft, at, zone.holes_ft) <= ON_EDGE_FT
