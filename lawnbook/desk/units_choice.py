"""The owner's choice of units: an ordinary edit of the yard, and what follows from it."""

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu

from lawnbook.desk.telling import tell_anew
from lawnbook.reading import Units, read_in, reading, tr
from lawnbook.yard.amounts import told
from lawnbook.yard.notebook import Change, put
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.desk.window import BookWindow
    from lawnbook.plan.model import Plan

NAMES: tuple[tuple[Units, str], ...] = (("us", tr("&US customary")), ("metric", tr("&Metric")))


class UnitsFollowing:
    """Reads amounts in the units of a window's notebook, and has the window told anew in them.

    It listens to the book before anybody in the window does, so that what they tell after a
    change is told in the units the change brought.
    """

    def __init__(self, window: "BookWindow") -> None:
        self._window = window
        self._read()
        self._told = reading().units
        self._stop_listening: Callable[[], None] = window.book.subscribe(self._changed)

    def follow(self) -> bool:
        """Tell all that stands in the window in the units read now; whether they are others."""
        if self._told == reading().units:
            return False
        self._told = reading().units
        tell_anew(self._window)
        return True

    def choose(self, units: Units) -> None:
        """Have amounts told in these units from now on; the notebook remembers it.

        A notebook that is only looked at remembers nothing, and is told in them all the same.
        """
        window = self._window
        yard = window.book.notebook.yard
        if window.book.read_only:
            read_in(units)
            self.follow()
            window.look_at(window.on)
        elif yard.units != units:
            window.settle_field()
            try:
                made = put(window.book.notebook, "yard", replace(yard, units=units))
                window.book.edit(made, tr("units"))
            except OwnerError as problem:
                window.status.say(str(problem), "refuse")

    def _changed(self, change: Change) -> None:
        if change:
            self._read()

    def _read(self) -> None:
        read_in(self._window.book.notebook.yard.units)


def fill_units_menu(window: "BookWindow", menu: QMenu) -> None:
    """The two systems of units, the notebook's own checked."""
    group = QActionGroup(menu)
    actions: dict[Units, QAction] = {}
    for units, words in NAMES:
        action = QAction(tr(words), menu)
        action.setCheckable(True)
        action.triggered.connect(lambda _=False, units=units: window.units.choose(units))
        group.addAction(action)
        menu.addAction(action)
        actions[units] = action

    def check() -> None:
        actions[reading().units].setChecked(True)

    menu.aboutToShow.connect(check)
    check()


def area_words(plan: "Plan") -> str:
    """How much grass there is, beside the yard's name."""
    count, area = len(plan.zones), told(plan.area_sqft, 0, "sq ft")
    if not count:
        return tr("No zone drawn yet")
    if count == 1:
        return tr("{area} of grass in 1 zone", area=area)
    return tr("{area} of grass in {count} zones", area=area, count=count)
