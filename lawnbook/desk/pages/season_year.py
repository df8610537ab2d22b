"""The year at one look, on the season page: bands, marks, and what is due."""

from PySide6.QtWidgets import QWidget

from lawnbook.desk.pages.page_section import PageSection
from lawnbook.desk.settings import Settings
from lawnbook.plan.model import Plan
from lawnbook.session.open_notebook import OpenNotebook


class YearSection(PageSection):
    """The year at one look, on the season page: bands, marks, and what is due."""

    def __init__(
        self, book: OpenNotebook, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._book, self._settings = book, settings

    def show_plan(self, plan: Plan) -> None:
        """Show the plan of a day."""
