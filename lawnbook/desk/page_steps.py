"""Pages printed one after the other while the owner waits: how many are done, and a way to stop.

A printer is served in the window's thread. So between two pages of a long document the window is
let paint and hear its Cancel; a box in front keeps everything else from being done.
"""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial

from PySide6.QtCore import QElapsedTimer, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QApplication, QWidget

from lawnbook.desk.wait_dialog import WaitDialog
from lawnbook.desk.wait_line import SHOWN_AFTER_MS
from lawnbook.reading import tr
from lawnbook.sheet.paper import Draw
from lawnbook.yard.problems import GivenUpError

PAINTING = tr("Painting the pages…")


class PageSteps:
    """The wait for one document; see `page_steps`."""

    def __init__(self, parent: QWidget) -> None:
        self._dialog = WaitDialog(PAINTING, parent)
        self._dialog.setWindowModality(Qt.WindowModality.ApplicationModal)
        self._dialog.rejected.connect(self._stop)
        self._is_stopped = False
        self._clock = QElapsedTimer()
        self._clock.start()

    def over(self) -> None:
        """The last page is there, or the owner thought better of it."""
        self._dialog.over()

    def stepped(self, draw: Draw | Sequence[Draw]) -> Draw | Sequence[Draw]:
        """The same pages, each of which first looks whether it is still wanted.

        Painting them raises GivenUpError where it is not.
        """
        if callable(draw):
            return draw
        of = len(draw)
        return [partial(self._painted, each, number, of) for number, each in enumerate(draw)]

    def _painted(self, draw: Callable[[QPainter], None], done: int, of: int, on: QPainter) -> None:
        self._go_on(done, of)
        draw(on)

    def _go_on(self, done: int, of: int) -> None:
        if self._clock.elapsed() < SHOWN_AFTER_MS:
            return
        if not self._dialog.isVisible():
            self._dialog.open()
        self._dialog.went_on(done, of)
        # Only with the box in front: nothing else can be done meanwhile.
        QApplication.processEvents()
        if self._is_stopped:
            raise GivenUpError

    def _stop(self) -> None:
        self._is_stopped = True


@contextmanager
def page_steps(parent: QWidget) -> Iterator[PageSteps]:
    """The wait for one document; its box comes after a moment, and always goes at the end."""
    steps = PageSteps(parent)
    try:
        yield steps
    finally:
        steps.over()
