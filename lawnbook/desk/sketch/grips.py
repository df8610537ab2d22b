"""The handles of what is chosen as items of the scene, with the lengths of its sides."""

from PySide6.QtWidgets import QGraphicsItem

from lawnbook.charts.palette import Palette
from lawnbook.desk.sketch.choosing import Choice, Handle, handles_of
from lawnbook.desk.sketch.items import HandleItem, scene_point
from lawnbook.desk.sketch.lengths import ROOM_PX, length_items
from lawnbook.desk.sketch.outlines import rings_of
from lawnbook.yard.records import Record


def grips_of(
    record: Record | None, choice: Choice, palette: Palette, ft_per_px: float
) -> list[QGraphicsItem]:
    """Handles where they have room, then the lengths of the sides; the chosen corner is filled."""
    grips: list[QGraphicsItem] = []
    for handle in handles_of(record):
        if handle.kind == "middle" and not _has_room(record, handle, ft_per_px):
            continue
        corner = (handle.ring, handle.index)
        chosen = handle.kind == "corner" and corner == (choice.ring, choice.corner)
        grip = HandleItem(handle.kind, palette, chosen=chosen)
        grip.setPos(scene_point(handle.at_ft))
        grips.append(grip)
    for ring in rings_of(record):
        grips += length_items(ring, palette, ft_per_px)
    return grips


def _has_room(record: Record | None, handle: Handle, ft_per_px: float) -> bool:
    corner = rings_of(record)[handle.ring][handle.index]
    across = abs(corner[0] - handle.at_ft[0]) + abs(corner[1] - handle.at_ft[1])
    return across > ROOM_PX / 2.5 * ft_per_px
