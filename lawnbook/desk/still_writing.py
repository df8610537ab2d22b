"""Closing a window while a file is still being written from it: the owner is asked once."""

from PySide6.QtWidgets import QMessageBox, QWidget

from lawnbook.desk.beside import Beside


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
    """Ask whether what is being written is to be given up."""
    box = QMessageBox(parent)
    box.setObjectName("still_writing")
    box.setWindowTitle("Lawnbook")
    box.setText(f"{names} is still being written.")
    box.setInformativeText("Given up, nothing of it is left behind.")
    stay = box.addButton("Stay until it is written", QMessageBox.ButtonRole.RejectRole)
    give_up = box.addButton("Give it up and close", QMessageBox.ButtonRole.DestructiveRole)
    box.setDefaultButton(stay)
    box.setEscapeButton(stay)
    box.exec()
    given_up = box.clickedButton() is give_up
    box.deleteLater()
    return given_up
