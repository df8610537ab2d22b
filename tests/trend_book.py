"""A yard of two zones with plugs and care, and its trend shown as the plugs page shows it."""

from collections.abc import Sequence
from datetime import date, timedelta
from pathlib import Path

from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.plugs_trend import TrendSection
from lawnbook.desk.widgets import PageScroll
from lawnbook.plan.make import make_plan
from lawnbook.plan.plug_model import Place
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, new_notebook, with_tables
from lawnbook.yard.records import Care, Core, Record, Spot, Zone

TODAY = date(2026, 11, 25)
FIRST = date(2023, 5, 6)
FRONT, YARD, SHED = Place("zone", "front"), Place("yard", ""), Place("spot", "shed")
AERATED = date(2024, 9, 14)


def cores_of(spot_id: str, count: int, slope_in: float) -> list[Core]:
    """Plugs half a year apart from 2023 on, three readings each, that thin by a slope."""
    made = []
    for turn in range(count):
        depth = 1.0 + slope_in * turn / 2 + (0.03 if turn % 3 else -0.02)
        made.append(
            Core(
                id=f"{spot_id}{turn}",
                spot=spot_id,
                date=FIRST + timedelta(days=182 * turn),
                thatch_in=(depth - 0.05, depth, depth + 0.05),
                resolution_in=0.0625,
            )
        )
    return made


def trend_notebook(plugs: int = 7, *, strip: bool = False) -> Notebook:
    """Gate and lilac in front with so many plugs each, shed at the side, aeration in 2024."""
    rows: dict[str, Sequence[Record]] = {
        "zones": [
            Zone(id="front", name="Front", outline_ft=rectangle_ft((0, 0), 40, 25)),
            Zone(id="side", name="Side", outline_ft=rectangle_ft((50, 0), 20, 25), rank=1),
        ],
        "spots": [
            Spot(id="gate", name="Gate", zone="front"),
            Spot(id="lilac", name="Lilac", zone="front", rank=1),
            Spot(id="shed", name="Shed", zone="side", comparison=strip, rank=2),
        ],
        "cores": [
            *cores_of("gate", plugs, -0.16),
            *cores_of("lilac", plugs, -0.12),
            *cores_of("shed", plugs, 0.02),
        ],
        "care": [
            Care(id="aerated", date=AERATED, kind="aeration", zones=("front",)),
            Care(id="dressed", date=date(2025, 9, 13), kind="topdressing", note="compost"),
        ],
    }
    return with_tables(new_notebook("Test yard"), rows)


class Shown:
    """The section in a page that scrolls, told of every change; `at` is the place looked at."""

    def __init__(self, qtbot: QtBot, folder: Path, notebook: Notebook) -> None:
        self.book = OpenNotebook.create(folder / "trend.lawnbook", notebook, TODAY)
        self.section = TrendSection(self.book)
        self.turned: list[tuple[str, str]] = []
        self.section.selected.connect(lambda table, which: self.turned.append((table, which)))
        self.at = YARD
        self.page = PageScroll()
        self.page.body.addWidget(self.section)
        self.page.body.addStretch(1)
        qtbot.addWidget(self.page)
        self.page.resize(600, 800)
        self.look_at(YARD)
        self.page.show()
        self.page.activateWindow()
        qtbot.waitUntil(self.page.isActiveWindow)
        self.book.subscribe(lambda _: self.look_at(self.at))

    def look_at(self, place: Place) -> None:
        """Show another place, or the same one anew."""
        self.at = place
        self.section.show_plan(make_plan(self.book.notebook, TODAY), place)
        QApplication.processEvents()
