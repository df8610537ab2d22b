"""What every section of the yard page is: it shows the notebook, and tells what was turned to."""

from PySide6.QtCore import Signal

from lawnbook.desk.pages.water_sections import Section
from lawnbook.plan.model import Plan


class YardSection(Section):
    """A section of the yard page. Those of the sketch are made with `(book, control)`."""

    selected = Signal(str, str)
    """A record that the owner turned to."""

    def show_plan(self, plan: Plan) -> None:
        """Show the notebook, and what the plan of a day says of it; called after every edit."""
        raise NotImplementedError
