"""Pages with the tables of every zone, where the sheet has room for the most pressing only."""

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtGui import QPainter

from lawnbook.frozen import dataclass
from lawnbook.plan.model import Plan
from lawnbook.plan.season_model import PlannedSpread
from lawnbook.reading import tr
from lawnbook.sheet.layout import GAP_PT, Box, PaperName, RowPlan, live_area
from lawnbook.sheet.paper import on_paper
from lawnbook.sheet.running_head import HEAD_PT, draw_running_head
from lawnbook.sheet.seasons import seasons_watered
from lawnbook.sheet.sections.feed import draw_feed, spreads_of
from lawnbook.sheet.sections.water import draw_water
from lawnbook.yard.notebook import Notebook

MOST_ROWS = 36


@dataclass(frozen=True, slots=True)
class ZonesPage:
    """A table of some zones: the plan narrowed to them, their notebook, and which table it is."""

    notebook: Notebook
    plan: Plan
    spreads: tuple[PlannedSpread, ...]
    table: str


def lay_all_zones(
    notebook: Notebook, plan: Plan, spreads: Sequence[PlannedSpread]
) -> tuple[ZonesPage, ...]:
    """The timer's table of all zones, then their spreading plan, so many rows a page."""
    starts = range(0, len(plan.zones), MOST_ROWS)
    water = (
        replace(plan, zones=plan.zones[start : start + MOST_ROWS], nitrogen=()) for start in starts
    )
    feed = (
        replace(plan, nitrogen=plan.nitrogen[start : start + MOST_ROWS], zones=())
        for start in starts
    )
    return (
        *(ZonesPage(notebook, each, (), "water") for each in water),
        *(ZonesPage(notebook, each, tuple(spreads), "feed") for each in feed),
    )


def draw_all_zones(
    painter: QPainter, page: ZonesPage, paper: PaperName, place: tuple[int, int]
) -> None:
    """Draw one page; `place` is its number, and of how many."""
    with on_paper(painter, paper) as ink:
        area = live_area(paper)
        draw_running_head(ink, area, page.plan, place, tr("All zones of the plan"))
        top = area.top + HEAD_PT + GAP_PT
        box = Box(area.left, top, area.width, area.bottom - top)
        if page.table == "feed":
            rows = RowPlan(len(page.plan.nitrogen), 1, 1)
            draw_feed(ink, box, page.plan, page.notebook, spreads_of(page.spreads), rows)
            return
        rows = RowPlan(len(page.plan.zones), 1, 1)
        of_year = seasons_watered(page.plan.zones, page.notebook.yard.latitude_deg)
        draw_water(ink, box, page.plan, page.notebook, rows, of_year)
