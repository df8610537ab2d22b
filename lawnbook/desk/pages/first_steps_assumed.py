"""What is assumed now: every default in force, each with a link to where it is told."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from lawnbook.desk.figures import FigureHand
from lawnbook.desk.widgets import Caption, Card, LinkButton, Words, clear_layout
from lawnbook.plan.assumptions import Assumption
from lawnbook.reading import tr
from lawnbook.yard.numbers import and_joined

if TYPE_CHECKING:
    from lawnbook.plan.working_model import Working

AskOf = Callable[[Assumption], "Sequence[Working]"]
MOST_NAMES = 3
"""More zones than this are told by their number."""


class AssumedCard(Card):
    """The defaults as rows. `picked` tells the Assumption that is to be changed.

    `ask` gives the workings of one: a click on its row opens them, and F1 on its link.
    """

    picked = Signal(object)

    def __init__(self, ask: AskOf, parent: QWidget | None = None) -> None:
        super().__init__(tr("What is assumed now"), parent)
        self._ask = ask
        self.setObjectName("first_assumed")
        self._shown: tuple[Assumption, ...] | None = None
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(12)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(1, 1)
        self.body.addLayout(self._grid)

    def show_assumed(self, found: tuple[Assumption, ...]) -> None:
        """Show these defaults."""
        if found == self._shown:
            return
        self._shown = found
        clear_layout(self._grid)
        for line, each in enumerate(found):
            change = LinkButton(tr("Change"), f"first_change_{line}", self)
            change.setAccessibleName(tr("Change: {what}", what=each.what))
            change.clicked.connect(partial(self.picked.emit, each))
            what = Words(each.what, "", self, wrap=False)
            value = Caption(assumed_told(each), self, wrap=True)
            for widget in (what, value, change):
                FigureHand(widget, partial(self._ask, each), by_click=widget is not change)
            self._grid.addWidget(what, line, 0)
            self._grid.addWidget(value, line, 1)
            self._grid.addWidget(change, line, 2)
        if not found:
            nothing = tr("Nothing is assumed: all the plan rests on was measured or entered.")
            self._grid.addWidget(Caption(nothing, self, wrap=True), 0, 0, 1, 3)


def assumed_told(each: Assumption) -> str:
    """A default in words: "0.65 by default, assumed until cans are set out; in Front and Back"."""
    if not each.zones:
        return tr("{value} by default, {why}", value=each.value, why=each.why)
    if len(each.zones) > MOST_NAMES:
        return tr(
            "{value} by default, {why}; in {count} zones",
            value=each.value,
            why=each.why,
            count=len(each.zones),
        )
    names = and_joined(each.zones)
    return tr("{value} by default, {why}; in {names}", value=each.value, why=each.why, names=names)
