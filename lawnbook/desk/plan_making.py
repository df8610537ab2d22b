"""The plan of a big yard made beside the window's work, one at a time, the latest asked for."""

from datetime import date

from PySide6.QtCore import QObject, Signal

from lawnbook.desk.beside import Beside
from lawnbook.plan.model import Plan
from lawnbook.session.planning import PlanCache, keep_every_promise
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError


class PlanMaker(QObject):
    """Makes the plan of a notebook on a day; `made` tells that it is remembered now.

    A plan that nobody asks for any more by the time it is made is told to nobody; it is let finish
    all the same, as the next one of the same day then costs only what was edited. `failed` tells in
    a sentence why there is none, "" where the mistake is ours: it is raised then, once.
    """

    made = Signal()
    failed = Signal(str)

    def __init__(self, plans: PlanCache, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._plans = plans
        self._asked: tuple[Notebook, date] | None = None
        self._beside = Beside(self)
        self._beside.failed.connect(self._fail)
        self._keeping = Beside(self)

    @property
    def runs(self) -> bool:
        """Whether a plan is being made."""
        return self._beside.runs

    def ask(self, notebook: Notebook, on: date) -> None:
        """Make this plan, once the one in the making is done."""
        self._asked = (notebook, on)
        self._keeping.let_go()
        if not self._beside.runs:
            self._begin(notebook, on)

    def let_go(self) -> None:
        """No plan is waited for any more."""
        self._asked = None
        self._beside.let_go()
        self._keeping.let_go()

    def keep_promises(self, plan: Plan) -> None:
        """Reckon beside the window, zone by zone, what a plan only promises so far.

        The page that reads it then finds it there; one that comes sooner reckons it itself.
        """
        self._keeping.let_go()
        self._keeping.start(lambda stop: keep_every_promise(plan, stop.step), lambda _: None)

    def _begin(self, notebook: Notebook, on: date) -> None:
        plans = self._plans
        self._beside.start(lambda _: plans.plan_for(notebook, on), self._done)

    def _done(self, outcome: object) -> None:
        asked = self._asked
        if asked is None:
            return
        if self._plans.held(*asked) is None and not isinstance(outcome, OwnerError):
            self._begin(*asked)
            return
        self._asked = None
        if isinstance(outcome, OwnerError):
            self.failed.emit(str(outcome))
        else:
            self.made.emit()

    def _fail(self) -> None:
        self._asked = None
        self.failed.emit("")
