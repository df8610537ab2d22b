"""The sheet page: the plan as it prints, the year in review, tables, and the handover."""

from typing import cast

from PySide6.QtPrintSupport import QPrinter

from lawnbook.desk.pages.sectioned_page import SectionedPage
from lawnbook.desk.pages.sheet_plan import PlanSection

LATER: dict[str, tuple[str, str]] = {
    "Plan": ("sheet_plan", "PlanSection"),
    "Year in review": ("sheet_review", "ReviewSection"),
    "Tables": ("sheet_tables", "TablesSection"),
    "Hand over": ("sheet_handover", "HandoverSection"),
}
"""The sections in order: the module that is loaded when one is first turned to, and its class."""

SECTIONS = tuple(LATER)


class SheetPage(SectionedPage):
    """What leaves the book: on paper, as tables, as one file for others."""

    NAME = "Sheet"
    LATER = LATER

    def ask_save(self) -> None:
        """Turn to the plan, ask where to, and save it there as PDF."""
        self._of_plan().ask_save()

    def ask_print(self) -> None:
        """Turn to the plan, ask which printer, and print it."""
        self._of_plan().ask_print()

    def print_on(self, printer: QPrinter) -> bool:
        """Print the plan; False, said on the page, where the printer does not begin."""
        return self._of_plan().print_on(printer)

    def _of_plan(self) -> PlanSection:
        self.turn_to("Plan")
        return cast(PlanSection, self.made("Plan"))
