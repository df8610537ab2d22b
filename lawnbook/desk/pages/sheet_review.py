"""Year in review, on the sheet page: water, nitrogen, thatch and cost beside the year before."""

from PySide6.QtWidgets import QWidget

from lawnbook.desk.pages.page_section import PageSection
from lawnbook.desk.settings import Settings
from lawnbook.plan.model import Plan
from lawnbook.session.open_notebook import OpenNotebook


class ReviewSection(PageSection):
    """Water, nitrogen, thatch and cost of a year beside the year before."""

    def __init__(
        self, book: OpenNotebook, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._book, self._settings = book, settings

    def show_plan(self, plan: Plan) -> None:
        """Show the plan of a day."""
