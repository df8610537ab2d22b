"""Saving what is due and planned as a calendar file: where to, and how it went."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtWidgets import QWidget

from lawnbook.desk.beside import Stop
from lawnbook.desk.dialogs import choose_calendar
from lawnbook.desk.printing import Said
from lawnbook.desk.wait_line import WaitLine
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.session.planning import takes_long
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError


def put_calendar(
    line: WaitLine, book: OpenNotebook, plan: Plan, tell: Callable[[Said], None]
) -> None:
    """Ask where to, and save the plan's calendar there; of a big yard beside the window's work.

    `tell` gets what became of it; that it was stopped the line says itself.
    """
    if line.in_the_way:
        tell(Said(line.in_the_way, "refuse"))
        return
    parent, notebook = line.window(), book.notebook
    if not takes_long(notebook):
        said = ask_calendar(parent, book, plan)
        if said is not None:
            tell(said)
        return
    path = _chosen(parent, book)
    if path is None:
        return

    def make(stop: Stop) -> Said:
        return _written(notebook, plan, path, stop.settle)

    def then(outcome: object) -> None:
        if isinstance(outcome, Said):
            tell(outcome)

    line.write(tr("Writing {name}…", name=path.name), path.name, make, then, at_once=False)


def ask_calendar(parent: QWidget, book: OpenNotebook, plan: Plan) -> Said | None:
    """Ask where to, and save the plan's calendar there; None when the owner thinks better of it."""
    path = _chosen(parent, book)
    return None if path is None else _written(book.notebook, plan, path)


def _chosen(parent: QWidget, book: OpenNotebook) -> Path | None:
    from lawnbook.store.calendar_ics import CALENDAR_SUFFIX

    return choose_calendar(parent, book.path.with_suffix(CALENDAR_SUFFIX))


def _written(
    notebook: Notebook, plan: Plan, path: Path, last: Callable[[], None] = lambda: None
) -> Said:
    """Write a calendar; `last` may raise before it takes its place."""
    from lawnbook.store.calendar_ics import write_calendar

    try:
        write_calendar(notebook, plan, path, last=last)
    except OwnerError as problem:
        return Said(str(problem), "refuse")
    return Said(tr("Saved: {path}", path=path), "good")
