"""What every section of the yard page is: it shows the notebook, and tells what was turned to."""

from PySide6.QtCore import Signal

from lawnbook.desk.pages.water_sections import Section
from lawnbook.plan.model import Plan


class YardSection(Section):
    """A section of the yard page. Those of the sketch are made with `(book, control)`."""

    selected = Signal(str, str)
    """A record that the owner turned to."""

    asked = Signal(str)
    """A page or a tool of the sketch that is wanted; "Name: part" wants a part of it."""

    def show_plan(self, plan: Plan) -> None:
        """Show the notebook, and what the plan of a day says of it; called after every edit."""
        raise NotImplementedError

    def select(self, table: str, record_id: str) -> None:
        """Light a record that was selected elsewhere, where the section shows it."""

    def turn_to(self, part: str) -> None:
        """Show a part that was asked for by its name, where the section has parts."""
