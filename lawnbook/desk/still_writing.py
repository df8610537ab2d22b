"""Closing a window while a file is still being written from it: the owner is asked once."""

from PySide6.QtWidgets import QWidget

from lawnbook.desk.beside import Beside
from lawnbook.desk.dialogs import WayOn, ask
from lawnbook.reading import tr


def may_close(window: QWidget) -> bool:
    """Whether nothing is being written any more: given up, whole or not at all, if so wished."""
    writers = [each for each in window.findChildren(Beside) if each.writes]
    if not writers:
        return True
    if not sure_of_giving_up(window, ", ".join(each.writes for each in writers)):
        return False
    for each in writers:
        each.call_off()
    return True


def sure_of_giving_up(parent: QWidget, names: str) -> bool:
    """Ask whether what is being written is to be given up.

    Asked, not done: with its window gone nothing could be undone, and nobody told that a file which
    was written on all the same did not come about.
    """
    texts = (
        tr("{name} is still being written.", name=names),
        tr("Given up, nothing of it is left behind."),
    )
    ways = (
        WayOn("stay", tr("Stay until it is written"), "stay"),
        WayOn("give_up", tr("Give it up and close"), "lose"),
    )
    return ask(parent, "still_writing", texts, ways, "stay") == "give_up"
