"""A notebook that the system hands over: on a Mac a double click is an event, not an argument."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QFileOpenEvent
from PySide6.QtWidgets import QApplication


class FileOpens(QObject):
    """Has the files opened that the system asks this program to open."""

    def __init__(self, app: QApplication, opens: Callable[[Path], object]) -> None:
        super().__init__(app)
        self._opens = opens
        app.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Open a file that is handed over; all else goes on as it would."""
        if isinstance(event, QFileOpenEvent) and event.file():
            self._opens(Path(event.file()))
            return True
        return super().eventFilter(watched, event)
