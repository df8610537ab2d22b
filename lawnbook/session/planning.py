"""The plan of the open notebook, and the figures of its years, made once for each value and day."""

from datetime import date
from threading import Lock

from lawnbook.plan.day_figures import DayFigures, day_figures
from lawnbook.plan.make import make_plan
from lawnbook.plan.memo import Memo
from lawnbook.plan.model import Plan
from lawnbook.yard.notebook import Notebook

LONG_RECORDS = 6_000
"""Records from which on a plan may take longer than the 50 ms that a window may stand still."""


def takes_long(notebook: Notebook) -> bool:
    """Whether the plan of a notebook is to be made off the window's thread."""
    counted = (notebook.weather, notebook.waterings, notebook.cores, notebook.feedings)
    return sum(map(len, counted)) >= LONG_RECORDS


class PlanCache:
    """Remembers the last few plans. Notebooks are told apart by identity, never by value.

    It may be asked from several threads: one plan is made at a time, and who asks meanwhile waits.
    """

    def __init__(self, size: int = 4) -> None:
        """Remember up to `size` plans."""
        self._size = size
        self._plans: tuple[tuple[Notebook, date, Plan], ...] = ()
        self._memos: dict[date, Memo] = {}
        self._making = Lock()

    def held(self, notebook: Notebook, on: date) -> Plan | None:
        """The plan of a notebook on a day if it is remembered; never waits."""
        for held, day, plan in self._plans:
            if held is notebook and day == on:
                return plan
        return None

    def plan_for(self, notebook: Notebook, on: date) -> Plan:
        """The plan of a notebook on a day, made only if it is not remembered."""
        plan = self.held(notebook, on)
        if plan is None:
            with self._making:
                plan = self.held(notebook, on) or self._make(notebook, on)
        return plan

    def _make(self, notebook: Notebook, on: date) -> Plan:
        plan = make_plan(notebook, on, self._memo_of(on))
        self._plans = (*self._plans, (notebook, on, plan))[-self._size :]
        return plan

    def _memo_of(self, on: date) -> Memo:
        """What is remembered from the last plan of a day.

        Only of two days: the latest, which is today's, and the one that the ribbon looks at.
        """
        kept = {
            day: self._memos[day] for day in {on, max(self._memos, default=on)} & {*self._memos}
        }
        self._memos = kept
        return kept.setdefault(on, Memo())


class FilmCache:
    """Remembers the figures of the last span of days."""

    def __init__(self) -> None:
        """Remember none."""
        self._held: tuple[Notebook, DayFigures] | None = None

    def figures_for(self, notebook: Notebook, starts: date, ends: date) -> DayFigures:
        """The figures of every day of a span, made only if they are not remembered."""
        if self._held is not None:
            held, days = self._held
            if held is notebook and (days.starts, days.ends) == (starts, ends):
                return days
        days = day_figures(notebook, starts, ends)
        self._held = (notebook, days)
        return days
