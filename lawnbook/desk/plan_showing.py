"""When a window's plan is made and shown: after the first paint, and never an older one as fresh.

A small yard's plan is made at once; that of a big one off the window's thread. Until it is there,
what the page shows stands back under a veil, and the sketch says no figure at all.
"""

from collections.abc import Callable
from contextlib import ExitStack
from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.desk.giving_back import GivingBack
from lawnbook.desk.roles import announce
from lawnbook.desk.units_choice import area_words
from lawnbook.desk.widgets import PageTitle
from lawnbook.reading import tr
from lawnbook.yard.numbers import day

if TYPE_CHECKING:
    from lawnbook.desk.plan_making import PlanMaker
    from lawnbook.desk.wait_dialog import WaitDialog
    from lawnbook.desk.window import BookWindow
    from lawnbook.plan.model import Plan
    from lawnbook.session.planning import PlanCache

VEIL_MS = 150
"""How long what is shown may be of an older plan before it is set back: small waits never flash."""
PAINT_MS = 300
"""How long the first paint is waited for at most."""
IN_THE_MAKING = tr("Being reckoned…")
FAILED = tr("There is no plan: something went wrong in Lawnbook itself. The next edit tries again.")


class QuietPage(QWidget):
    """What stands on the right until the first page is there: its title, on empty paper."""

    painted = Signal()
    """Told once, when the owner has seen the window."""

    def __init__(self, title: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("quiet_page")
        self.is_painted = False
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(PageTitle(title, "", self))
        column.addStretch(1)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Let what waits for the first paint go on after it."""
        super().paintEvent(event)
        if not self.is_painted:
            self.is_painted = True
            QTimer.singleShot(0, self, self.painted.emit)


class PlanShowing(QObject):
    """Has the plan of a window made, and shows it on sketch and page."""

    def __init__(self, window: "BookWindow", quiet: QuietPage) -> None:
        super().__init__(window)
        self._window = window
        self._quiet: QuietPage | None = quiet
        quiet.painted.connect(self.soon)
        self._soon, self._veiled = QTimer(self), QTimer(self)
        for timer, then in ((self._soon, self._begin), (self._veiled, self._set_back)):
            timer.setSingleShot(True)
            timer.timeout.connect(then)
        self._resting = GivingBack(self)
        self._maker: PlanMaker | None = None
        self._then: list[Callable[[Plan], None]] = []
        self._waiting: WaitDialog | None = None
        self._has_failed = False
        self._told = ""

    @cached_property
    def plans(self) -> "PlanCache":
        """The plans that are remembered; loaded after the first paint, like all of planning."""
        from lawnbook.session.planning import PlanCache

        return PlanCache()

    @property
    def waits(self) -> bool:
        """Whether a plan is still to come, or could not be made and waits for the next edit."""
        makes = self._maker is not None and self._maker.runs
        comes = makes or self._soon.isActive() or self._quiet is not None
        return comes or self._has_failed

    def soon(self) -> None:
        """Show the plan once the window has done what it is at."""
        self._has_failed = False
        self._soon.start(0)

    def when_made(self, then: "Callable[[Plan], None]") -> None:
        """Do something with the plan of what is shown, once it is made; at once for a small yard.

        While the owner waits a small box says so and may be given up; nothing is done then, nor
        where the plan cannot be made.
        """
        if self._window.held_plan is not None or not self._takes_long():
            if self.waits and self._quiet is None:
                # It is made, but not shown yet: what is done with it must find it on the page.
                self._soon.stop()
                self._begin()
            then(self._window.plan)
            return
        from lawnbook.desk.wait_dialog import WaitDialog

        self.forget_then()
        self._then.append(then)
        self._waiting = WaitDialog(IN_THE_MAKING, self._window)
        self._waiting.rejected.connect(self.forget_then)
        self.soon()

    def forget_then(self) -> None:
        """Do nothing any more with the plan in the making but show it."""
        self._then.clear()
        if self._waiting is not None:
            self._waiting.over()
            self._waiting = None

    def stop(self) -> None:
        """The window closes: nothing is shown any more, and nothing waited for."""
        self.forget_then()
        self._soon.stop()
        self._veiled.stop()
        self._resting.stop()
        if self._maker is not None:
            self._maker.let_go()

    def _begin(self) -> None:
        if self._quiet is not None and not self._is_opened(self._quiet):
            return
        window = self._window
        if window.held_plan is None and self._takes_long():
            if not self._veiled.isActive():
                self._veiled.start(VEIL_MS)
            self._made_by().ask(window.book.notebook, window.on)
            return
        if self._maker is not None:
            self._maker.let_go()
        with ExitStack() as unless_shown:
            unless_shown.callback(self._say_none, FAILED)
            plan = window.plan
            unless_shown.pop_all()
        self._show(plan)

    def _takes_long(self) -> bool:
        from lawnbook.session.planning import takes_long

        return takes_long(self._window.book.notebook)

    def _is_opened(self, quiet: QuietPage) -> bool:
        """Whether the first page is there; it is made once the window has been painted."""
        window, waited = self._window, self._soon.interval() == PAINT_MS
        if quiet.isVisible() and not (quiet.is_painted or waited):
            self._soon.start(PAINT_MS)
            return False
        if window.stack.currentWidget() is quiet:
            window.turn_to(window.place)
        quiet.deleteLater()
        self._quiet = None
        window.opened.emit()
        return True

    def _made_by(self) -> "PlanMaker":
        if self._maker is None:
            from lawnbook.desk.plan_making import PlanMaker

            self._maker = PlanMaker(self.plans, self)
            self._maker.made.connect(self._begin)
            self._maker.failed.connect(lambda why: self._say_none(why or FAILED))
        return self._maker

    def _show(self, plan: "Plan") -> None:
        self._veiled.stop()
        self._window.veil.hide()
        self._window.show_plan(plan)
        self._tell(plan)
        self._resting.start()
        self._do_then(plan)
        if self._takes_long():
            self._made_by().keep_promises(plan)

    def _tell(self, plan: "Plan") -> None:
        """Have it heard which day's plan is seen now; the same again is no news."""
        words = tr("The plan of {day}: {area}.", day=day(plan.on), area=area_words(plan))
        if words != self._told:
            self._told = words
            announce(self._window.sketch.view, words)

    def _do_then(self, plan: "Plan") -> None:
        waiting = tuple(self._then)
        self.forget_then()
        for each in waiting:
            each(plan)

    def _set_back(self) -> None:
        """What is shown is of an older plan: it must not look fresh."""
        self._window.veil.lower_over(IN_THE_MAKING)
        self._window.show_no_plan(IN_THE_MAKING)

    def _say_none(self, why: str) -> None:
        """There is no plan of what the book holds now, and what is shown is not one of it."""
        self._veiled.stop()
        self.forget_then()
        self._has_failed = True
        self._window.veil.lower_over(why)
        self._window.show_no_plan(tr("No plan"))
