"""Work off the window's thread: the window stays awake, and nothing waits for it on closing.

The thread touches nothing of Qt. It works on frozen values and lays down what it made, which the
window's own thread looks for on a timer; what nobody waits for any more is let finish unseen.
"""

import threading
from collections.abc import Callable
from datetime import date
from types import TracebackType
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from lawnbook.desk.collecting import COLLECTING_LATER
from lawnbook.plan.model import Plan
from lawnbook.session.planning import PlanCache
from lawnbook.yard.notebook import Notebook

LOOK_MS = 15
"""How often a running piece of work is looked at."""


class _Run:
    """One piece of work on a thread of its own, which never holds the program's end up."""

    def __init__(self, make: Callable[[], Any]) -> None:
        self._make = make
        self.made: Any = None
        self.error: BaseException | None = None
        self._thread = threading.Thread(target=self._work, name="lawnbook-work", daemon=True)
        self._thread.start()

    @property
    def is_over(self) -> bool:
        return not self._thread.is_alive()

    def _work(self) -> None:
        with COLLECTING_LATER, self:
            self.made = self._make()

    def __enter__(self) -> None:
        """Nothing to begin."""

    def __exit__(
        self, _kind: object, error: BaseException | None, _trace: TracebackType | None
    ) -> bool:
        """What went wrong is laid down too, to be raised again in the window's thread."""
        self.error = error
        return True


class Work(QObject):
    """One piece of work at a time; `done` tells what it made, in the window's thread.

    An exception is raised there too, so that it reaches the owner as any other would; `failed` is
    told just before.
    """

    done = Signal(object)
    failed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._run: _Run | None = None
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_MS)
        self._timer.timeout.connect(self._look)

    @property
    def runs(self) -> bool:
        """Whether something is being made that is waited for."""
        return self._run is not None

    def begin(self, make: Callable[[], Any]) -> None:
        """Begin; what was begun before is let finish unseen."""
        self._run = _Run(make)
        self._timer.start()

    def let_go(self) -> None:
        """Wait for nothing any more."""
        self._run = None
        self._timer.stop()

    def _look(self) -> None:
        run = self._run
        if run is None or not run.is_over:
            return
        self.let_go()
        if run.error is not None:
            self.failed.emit()
            raise run.error
        self.done.emit(run.made)


class PlanMaker(QObject):
    """Makes the plan of a notebook on a day off the window's thread, one at a time.

    `made` tells that the plan asked for last is remembered now. A plan that nobody asks for any
    more by the time it is made is told to nobody.
    """

    made = Signal()

    def __init__(self, plans: PlanCache, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._plans = plans
        self._asked: tuple[Notebook, date] | None = None
        self._makes: tuple[Notebook, date] | None = None
        self._work = Work(self)
        self._work.done.connect(self._done)
        self._work.failed.connect(self.let_go)

    @property
    def runs(self) -> bool:
        """Whether a plan is being made."""
        return self._work.runs

    def ask(self, notebook: Notebook, on: date) -> None:
        """Make this plan, once the one in the making is done."""
        self._asked = (notebook, on)
        if not self._work.runs:
            self._begin(notebook, on)

    def let_go(self) -> None:
        """No plan is waited for any more."""
        self._asked = None
        self._work.let_go()

    def _begin(self, notebook: Notebook, on: date) -> None:
        self._makes = (notebook, on)
        plans = self._plans
        self._work.begin(lambda: _whole(plans.plan_for(notebook, on)))

    def _done(self, _: object) -> None:
        asked, makes = self._asked, self._makes
        if asked is None or makes is None:
            return
        if asked[0] is makes[0] and asked[1] == makes[1]:
            self._asked = None
            self.made.emit()
        else:
            self._begin(*asked)


def _whole(plan: Plan) -> Plan:
    """A plan with all that the pages read of it reckoned, where it is only promised so far."""
    for name in ("thatch", "zone_thatch", "yard_thatch", "findings", "next_plugs"):
        getattr(plan, name)
    return plan
