"""What every section of the season and sheet pages is: it shows the plan of a day when asked to."""

from collections.abc import Callable

from PySide6.QtCore import Signal

from lawnbook.desk.pages.water_sections import Section
from lawnbook.plan.model import Plan


class PageSection(Section):
    """A section of a page, made with `(book, settings)` when it is first turned to."""

    FILLS = False
    """Whether it takes the height that the page has to spare."""

    selected = Signal(str, str)
    """A record that the owner turned to: its table and id."""

    asked = Signal(str)
    """A page, or a tool of the sketch, that is wanted by its name.

    "Name: part" wants a section of the same page at one of its parts.
    """

    plug_asked = Signal(str)
    """A spot of which a plug is to be entered, by its id."""

    waits: Callable[[], bool] = staticmethod(lambda: False)
    """Whether the plan shown is of an older notebook or day: nothing is printed or handed over."""

    def show_plan(self, plan: Plan) -> None:
        """Show the notebook, and what the plan of a day says of it; called after every edit."""
        raise NotImplementedError

    def select(self, table: str, record_id: str) -> None:
        """Light a record that was selected elsewhere, where the section shows it."""

    def turn_to(self, part: str) -> None:
        """Show a part that was asked for by its name, where the section has parts."""
