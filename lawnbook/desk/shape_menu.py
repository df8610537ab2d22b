"""The Shape menu: what can be done with the shapes that are chosen on the sketch."""

from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu

from lawnbook.desk.sketch.control import SketchControl
from lawnbook.reading import tr

if TYPE_CHECKING:
    from lawnbook.desk.sketch.operations import Group, Operation


def fill_shape_menu(menu: QMenu, control: SketchControl) -> None:
    """Put the operations in; what cannot be done now is grey while the menu is open.

    While it is closed the keys reach every operation, which then says itself why it cannot be.
    A menu that is filled already stays as it is.
    """
    if menu.actions():
        return
    actions: dict[str, QAction] = {}
    menu.setToolTipsVisible(True)
    places = QMenu(tr("&Place"), menu)
    places.setToolTipsVisible(True)
    actions |= _add_group(menu, control, "Change")
    menu.addMenu(places)
    actions |= _add_group(places, control, "Place")
    menu.addSeparator()
    actions |= _add_group(menu, control, "Order")
    menu.aboutToShow.connect(lambda: _show_state(actions, control))
    menu.aboutToHide.connect(lambda: _free(actions))


def _add_group(menu: QMenu, control: SketchControl, group: "Group") -> dict[str, QAction]:
    # Imported here, as below: the operations on shapes are loaded after the first paint.
    from lawnbook.desk.sketch.operations import of_group, run_by_name

    actions: dict[str, QAction] = {}
    for operation in of_group(group):
        # A key of the sketch alone is only told: as a shortcut it would take letters from fields.
        told = f"\t{operation.hint}" if operation.hint else ""
        action = QAction(operation.words + told, menu)
        action.setObjectName(f"shape_menu_{operation.name}")
        if operation.key:
            action.setShortcut(QKeySequence(operation.key))
        action.triggered.connect(lambda _=False, name=operation.name: run_by_name(control, name))
        menu.addAction(action)
        actions[operation.name] = action
    return actions


def _show_state(actions: dict[str, QAction], control: SketchControl) -> None:
    from lawnbook.desk.sketch.operations import OPERATIONS

    for operation in OPERATIONS:
        _show_one(actions[operation.name], operation, control)


def _show_one(action: QAction, operation: "Operation", control: SketchControl) -> None:
    why = operation.why_not(control)
    action.setEnabled(not why)
    action.setToolTip(why or operation.tip)
    action.setStatusTip(why or operation.tip)


def _free(actions: dict[str, QAction]) -> None:
    for action in actions.values():
        action.setEnabled(True)
