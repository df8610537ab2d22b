"""The menu at a shape: what can be done with what is chosen, by a right click or the Menu key."""

from collections.abc import Callable
from functools import partial

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr


def shape_menu(control: SketchControl, parent: QWidget) -> QMenu:
    """A menu of every operation, in groups; what cannot be done now is grey and says why.

    It deletes itself once it is closed.
    """
    # Loaded when first wanted: the first paint of the window does not wait for it.
    from lawnbook.desk.sketch.operations import OPERATIONS, run_by_name

    menu = QMenu(parent)
    name_control(menu, "sketch_shape_menu", tr("What can be done with what is chosen"))
    menu.setToolTipsVisible(True)
    _add(menu, tr("Name and fields\tEnter"), control.name_wanted.emit)
    _add(menu, tr("Move by…\tB"), control.move_wanted.emit)
    groups: dict[str, QMenu] = {}
    menu.addSeparator()
    for each in OPERATIONS:
        # What changes shapes stands in the menu itself, the rest in menus of their own.
        held = menu if each.group == "Change" else groups.get(each.group)
        if held is None:
            held = groups[each.group] = menu.addMenu(tr(each.group))
            held.setToolTipsVisible(True)
        key = each.key or each.hint
        words = f"{each.words}\t{key}" if key else each.words
        action = _add(held, words, partial(run_by_name, control, each.name))
        why = each.why_not(control)
        action.setEnabled(not why)
        action.setToolTip(why or each.tip)
        action.setStatusTip(why or each.tip)
    return menu


def _add(menu: QMenu, words: str, run: Callable[[], object]) -> QAction:
    action = QAction(words, menu)
    action.triggered.connect(lambda _=False: run())
    menu.addAction(action)
    return action
