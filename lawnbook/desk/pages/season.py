"""The season page: the year at one look with what is due, the log of what was done, checklists."""

from lawnbook.desk.pages.sectioned_page import SectionedPage
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.yard.numbers import day

LATER: dict[str, tuple[str, str]] = {
    "Year": ("season_year", "YearSection"),
    "Log": ("season_log", "LogSection"),
    "Checklists": ("season_checklists", "ChecklistsSection"),
}
"""The sections in order: the module that is loaded when one is first turned to, and its class."""

SECTIONS = tuple(LATER)


class SeasonPage(SectionedPage):
    """What is due and what was done, in the year's course."""

    NAME = "Season"
    LATER = LATER

    def show_plan(self, plan: Plan) -> None:
        """Show the year of the plan's day."""
        self.title.set_subtitle(tr("on {on}", on=day(plan.on)))
        super().show_plan(plan)
