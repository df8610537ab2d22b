"""The mark at the name of the check: whether anything on the sketch wants a look.

The check is made some time after the page was painted, never while the window starts: it loads a
library of geometry that most days need none of.
"""

from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QWidget

from lawnbook.desk.pages.water_sections import SectionRow
from lawnbook.session.open_notebook import OpenNotebook

SOON_MS = 700
"""How long after the last change the sketch is checked: not within a drag or a held key."""

CHECK = "Check"


class CheckMark(QObject):
    """Keeps the mark of the check's section up to date while its page is in sight."""

    def __init__(self, book: OpenNotebook, row: SectionRow, page: QWidget) -> None:
        super().__init__(page)
        self._book, self._row, self._page = book, row, page
        self._checked: tuple[object, ...] = ()
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(SOON_MS)
        self._timer.timeout.connect(self.renew)

    def soon(self) -> None:
        """Check the sketch in a while, if it has changed by then."""
        self._timer.start()

    def renew(self) -> None:
        """Check the sketch now, where the page is in sight and what is drawn has changed."""
        notebook = self._book.notebook
        drawn = (notebook.zones, notebook.features, notebook.heads, notebook.spots)
        known = len(self._checked) == len(drawn) and all(
            one is other for one, other in zip(drawn, self._checked, strict=True)
        )
        if known or not self._page.isVisible():
            return
        from lawnbook.desk.pages.check_words import mark_words
        from lawnbook.yard.sketch_check import check_sketch

        self._checked = drawn
        self._row.mark(CHECK, mark_words(check_sketch(notebook) if notebook.zones else ()))
