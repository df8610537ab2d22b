"""The panel's keys that no tool used, and the menu at what is chosen."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QKeyEvent

from lawnbook.desk.figures import hand_on
from lawnbook.desk.sketch.choosing import all_under
from lawnbook.desk.sketch.items import scene_point
from lawnbook.desk.sketch.outlines import bounds_of
from lawnbook.desk.sketch.view import Pointer
from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.records import Spot

if TYPE_CHECKING:
    from lawnbook.desk.sketch.panel import SketchPanel


def use_key(panel: "SketchPanel", event: QKeyEvent, tool_keys: Mapping[str, Qt.Key]) -> bool:
    """Esc, naming, an exact move, zoom, the menu and the tools; False for any other key."""
    key = Qt.Key(event.key())
    plain_key = not event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier
    shift = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
    if panel.drawing and panel.key_pointer.use(event):
        return True
    if key == Qt.Key.Key_Escape:
        panel.escape()
    elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_F2):
        panel.strips.band.to_first_field()
    elif key == Qt.Key.Key_Menu or (key == Qt.Key.Key_F10 and shift):
        open_menu(panel, None)
    elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
        panel.view.zoom_by(1.25)
    elif key == Qt.Key.Key_Minus:
        panel.view.zoom_by(0.8)
    elif key == Qt.Key.Key_0:
        panel.fit()
    elif key == Qt.Key.Key_B and plain_key and not panel.drawing:
        panel.control.move_wanted.emit()
    else:
        named = next((name for name, each in tool_keys.items() if each == key), None)
        if named is None or not plain_key:
            return False
        panel.tool(named)
    return True


def open_menu(panel: "SketchPanel", pointer: Pointer | None) -> None:
    """Open the menu at the pointer, having chosen what is under it; else at what is chosen."""
    # Loaded when first wanted: the first paint of the window does not wait for it.
    from lawnbook.desk.sketch.context_menu import shape_menu

    control, view = panel.control, panel.view
    if panel.drawing:
        return
    if pointer is not None:
        under = all_under(control.notebook, pointer.at_ft, pointer.ft_per_px)
        if not any(each.key in control.chosen_keys for each in under):
            control.choose(under[0] if under else None)
    if control.choice is None:
        control.say(tr("Choose a shape first: then its menu opens."))
        return
    menu = shape_menu(control, panel)
    hand = hand_on(view)
    if hand is not None:
        menu.addSeparator()
        menu.addAction(tr("How its figures came about") + "\tF1", hand.open)
    menu.aboutToHide.connect(menu.deleteLater)
    menu.popup(view.viewport().mapToGlobal(_place(panel, pointer)))


def _place(panel: "SketchPanel", pointer: Pointer | None) -> QPoint:
    """Where the menu opens, on the paper: at the pointer, else in the middle of the shape."""
    view = panel.view
    if pointer is not None:
        return pointer.at_px.toPoint()
    record = panel.control.record()
    placed = record is not None and not (isinstance(record, Spot) and record.at_ft is None)
    if record is None or not placed:
        return view.viewport().rect().center()
    west, south, east, north = bounds_of(record)
    middle: Point = ((west + east) / 2, (south + north) / 2)
    at, paper = view.mapFromScene(scene_point(middle)), view.viewport().rect()
    return at if paper.contains(at) else paper.center()
