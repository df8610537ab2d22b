"""The plan of the open notebook, and the figures of its years, made once for each value and day.

A plan tells words and amounts, so it is made for one reading: in other units or signs it is made
anew, from nothing, as what a memo keeps was told in the units of before.
"""

from collections.abc import Callable
from dataclasses import fields
from datetime import date
from threading import Lock
from typing import Any

from lawnbook.plan.day_figures import DayFigures, day_figures
from lawnbook.plan.make import make_plan
from lawnbook.plan.memo import Memo
from lawnbook.plan.model import Plan
from lawnbook.reading import Reading, reading, reading_here
from lawnbook.yard.notebook import Notebook

LONG_MS = 50.0
"""How long a window may stand still."""
_COST_US = {"zones": 1_600.0, "cores": 20.0, "weather": 1.0, "waterings": 0.6}
"""What a plan takes for a record of each table, from nothing and all promises kept.

Fitted to 13 yards of 1 to 40 zones and 1 to 20 years made by tests/bench/big_yard.py (processor
time of one machine: within a fifth of what each took).
"""


def takes_long(notebook: Notebook) -> bool:
    """Whether the plan of a notebook, or much else made of all its records, takes over 50 ms."""
    cost_us = sum(len(notebook.table(name)) * each for name, each in _COST_US.items())
    return cost_us / 1_000 >= LONG_MS


PROMISED = ("thatch", "zone_thatch", "yard_thatch", "findings", "next_plugs")


class PlanCache:
    """Remembers the last few plans. Notebooks are told apart by identity, never by value.

    It may be asked from several threads: one plan is made at a time, and who asks meanwhile waits.
    What a big plan promises is kept before it is handed out: a promise works with what the next
    plan of the day is made from.
    """

    def __init__(self, size: int = 4) -> None:
        """Remember up to `size` plans."""
        self._size = size
        self._plans: tuple[tuple[Notebook, date, Reading, Plan], ...] = ()
        self._memos: dict[date, Memo] = {}
        self._memos_read = reading()
        self._making = Lock()

    def held(self, notebook: Notebook, on: date) -> Plan | None:
        """The plan of a notebook on a day if it is remembered as it is read; never waits."""
        told_as = reading()
        for held, day, told, plan in self._plans:
            if held is notebook and day == on and told == told_as:
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
        told_as = reading()
        if told_as != self._memos_read:
            self._memos, self._memos_read = {}, told_as
        # The owner may choose other units while a plan is made beside the window.
        with reading_here(told_as):
            plan = make_plan(notebook, on, self._memo_of(on))
            if takes_long(notebook):
                keep_promises(plan)
        self._plans = (*self._plans, (notebook, on, told_as, plan))[-self._size :]
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


def keep_promises(plan: Plan) -> None:
    """Reckon all that the pages read of a plan, where it is only promised so far."""
    for name in PROMISED:
        getattr(plan, name)


def keep_every_promise(plan: Plan, between: Callable[[int, int], None]) -> None:
    """Reckon all that a plan and its zones promise, workings and sources too: the sheet reads it.

    `between` is told the zones that are done, and may raise to leave off.
    """
    parts: tuple[Any, ...] = (*plan.zones, *plan.nitrogen, plan)
    for number, part in enumerate(parts):
        between(number, len(parts))
        for each in fields(part):
            getattr(part, each.name)


class FilmCache:
    """Remembers the figures of the last span of days."""

    def __init__(self) -> None:
        """Remember none."""
        self._held: tuple[Notebook, DayFigures] | None = None

    def held(self, notebook: Notebook, starts: date, ends: date) -> DayFigures | None:
        """The figures of every day of a span if they are remembered."""
        if self._held is not None:
            held, days = self._held
            if held is notebook and (days.starts, days.ends) == (starts, ends):
                return days
        return None

    def keep(self, notebook: Notebook, days: DayFigures) -> None:
        """Remember these, and no others."""
        self._held = (notebook, days)

    def figures_for(self, notebook: Notebook, starts: date, ends: date) -> DayFigures:
        """The figures of every day of a span, made only if they are not remembered."""
        days = self.held(notebook, starts, ends)
        if days is None:
            days = day_figures(notebook, starts, ends)
            self.keep(notebook, days)
        return days
