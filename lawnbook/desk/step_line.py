"""What a page still waits for: one line below it while the first steps lead, with a way there."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.leading import FIRST_STEPS, lead
from lawnbook.desk.widgets import Card, LinkButton, Words
from lawnbook.reading import tr

if TYPE_CHECKING:
    from lawnbook.desk.window import BookWindow
    from lawnbook.yard.record_base import FirstStep

STEPS_OF_PAGE: dict[str, "tuple[FirstStep, ...]"] = {
    "Plugs": ("size", "plug"),
    "Water": ("size", "place", "sprinklers", "ground"),
    "Feed": ("size", "ground"),
    "Season": ("size", "place"),
    "Sheet": ("size", "place", "sprinklers"),
}
"""What each page needs, in order; the yard page has the steps themselves."""


class StepLine(Card):
    """Names the first open step that the page shown waits for; hidden where there is none."""

    def __init__(self, window: "BookWindow") -> None:
        super().__init__("", window, role="note")
        self._window = window
        self._step = ""
        self.setObjectName("step_line")
        self.body.setContentsMargins(12, 5, 12, 5)
        self._words = Words("", "", self)
        self._words.setObjectName("step_line_words")
        self.link = LinkButton(tr("Go to it"), "step_line_go", self)
        row = QHBoxLayout()
        row.addWidget(self._words, 1)
        row.addWidget(self.link)
        self.body.addLayout(row)
        self.link.clicked.connect(lambda: lead(window, f"{FIRST_STEPS}: {self._step}"))
        window.stack.currentChanged.connect(lambda _: self._soon())
        window.closed.connect(window.book.subscribe(lambda _: self._soon()))
        self.hide()

    def _soon(self) -> None:
        """Once the page has been turned, or the edit is through."""
        QTimer.singleShot(0, self, self.renew)

    def renew(self) -> None:
        """Name what the page that is open waits for."""
        step = self._missing()
        self._step = step or ""
        if step is not None:
            self._words.setText(missing_told(step))
            self.link.setAccessibleName(tr("Go to the first step: {step}", step=step))
        self.setVisible(step is not None)

    def _missing(self) -> "FirstStep | None":
        """The first open step that the page needs; none where they no longer lead."""
        from lawnbook.plan.first_steps import first_steps, is_under_way
        from lawnbook.session.planning import takes_long

        notebook, wanted = self._window.book.notebook, STEPS_OF_PAGE.get(self._window.place, ())
        # A yard that takes long to plan is no new one, and is not planned for a line of words.
        if not wanted or takes_long(notebook) or not is_under_way(notebook, self._window.plan):
            return None
        still_open = [
            each.name
            for each in first_steps(notebook, self._window.plan)
            if each.state == "open" and each.name in wanted
        ]
        if not still_open or (still_open[0] == "plug" and notebook.spots):
            # Where a spot is marked, the form of the first plug stands on the page itself.
            return None
        return still_open[0]


def missing_told(step: "FirstStep") -> str:
    """What a page waits for, in a sentence."""
    return {
        "size": tr("This page waits for the first zone and its size."),
        "place": tr("This page waits for the yard’s latitude and its weather."),
        "sprinklers": tr("This page waits for how fast the water falls."),
        "ground": tr("This page reckons with a default soil until yours is told."),
        "habit": tr("How you watered so far is not told yet."),
        "plug": tr("This page waits for the first plug."),
        "sheet": tr("The sheet is not printed yet."),
    }[step]


def with_step_line(window: "BookWindow") -> QWidget:
    """The pages of a window over the line of what they wait for."""
    holder = QWidget(window)
    column = QVBoxLayout(holder)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(6)
    column.addWidget(window.stack, 1)
    column.addWidget(StepLine(window))
    return holder
