"""Saving what is due and planned as a calendar file: where to, and how it went."""

from PySide6.QtWidgets import QWidget

from lawnbook.desk.dialogs import choose_calendar
from lawnbook.desk.printing import Said
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.problems import OwnerError


def ask_calendar(parent: QWidget, book: OpenNotebook, plan: Plan) -> Said | None:
    """Ask where to, and save the plan's calendar there; None when the owner thinks better of it."""
    from lawnbook.store.calendar_ics import CALENDAR_SUFFIX, write_calendar

    path = choose_calendar(parent, book.path.with_suffix(CALENDAR_SUFFIX))
    if path is None:
        return None
    try:
        write_calendar(book.notebook, plan, path)
    except OwnerError as problem:
        return Said(str(problem), "refuse")
    return Said(tr("Saved: {path}", path=path), "good")
