"""The feed page: one zone picked, and six sections from the check before spreading to the rules."""

from collections.abc import Callable
from functools import cached_property
from typing import TypeVar

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QWidget

from lawnbook.desk.motion import fade_in
from lawnbook.desk.pages.chart_holder import ChartHolder
from lawnbook.desk.pages.feed_check import CheckSection
from lawnbook.desk.pages.feed_ledger import LedgerSection
from lawnbook.desk.pages.feed_rules import RulesSection
from lawnbook.desk.pages.feed_shelf import ShelfSection
from lawnbook.desk.pages.feed_tools import ToolsSection
from lawnbook.desk.pages.feed_words import feed_attention
from lawnbook.desk.pages.feed_year import YearSection
from lawnbook.desk.pages.page import keep_room_for, stack_sections, tab_in_reading_order
from lawnbook.desk.pages.water_sections import SectionRow
from lawnbook.desk.pages.zone_picker import ZonePicker, zone_of
from lawnbook.desk.widgets import PageScroll, PageTitle
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.numbers import day

FeedSection = (
    CheckSection | YearSection | LedgerSection | ShelfSection | ToolsSection | RulesSection
)
SECTIONS = ("Check", "Year", "Ledger", "Shelf", "Tools", "Rules")

Made = TypeVar("Made", bound=FeedSection)


class FeedPage(QWidget):
    """Nitrogen of the yard's zones on the day of the plan; `selected` tells the zone picked here.

    The section stays while zones and days change. Each section but the first is made when it is
    turned to: six at once would keep the page waiting.
    """

    selected = Signal(str, str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("feed_page")
        self._book = book
        self._plan: Plan | None = None
        self._led_by = ("", "")
        self._title = PageTitle(tr("Feed"), "", self)
        self.picker = ZonePicker("feed_zone", self)
        self.sections = SectionRow(SECTIONS, "feed", tr("Sections of the feed page"))
        self._scroll = PageScroll(self)
        self._scrolled: dict[str, int] = {}
        self._stale: set[str] = set()
        self.section = "Check"
        self.sections.turn_to("Check")
        self._lay_out()
        self.check.show()
        self._listen()

    @cached_property
    def check(self) -> CheckSection:
        """The check before spreading."""
        return self._placed(CheckSection(self._book))

    @cached_property
    def year(self) -> YearSection:
        """The year by months, and what is released; what is checked is its ghost."""
        year = self._placed(YearSection(self._book))
        year.show_check(self.check.spread.check)
        self.check.checked.connect(year.show_check)
        return year

    @cached_property
    def ledger(self) -> LedgerSection:
        """All feedings."""
        ledger = self._placed(LedgerSection(self._book))
        ledger.edit_asked.connect(self._edit_feeding)
        return ledger

    @cached_property
    def shelf(self) -> ShelfSection:
        """Products and mixes."""
        shelf = self._placed(ShelfSection(self._book))
        shelf.kept.connect(self._shelf_kept)
        return shelf

    @cached_property
    def tools(self) -> ToolsSection:
        """Spreader, sprayer and conversions."""
        return self._placed(ToolsSection(self._book))

    @cached_property
    def rules(self) -> RulesSection:
        """The local rule, budgets and soil tests."""
        return self._placed(RulesSection(self._book))

    def _section(self, name: str) -> FeedSection:
        """A section by its name, made if need be. KeyError for a name that is none."""
        sections: dict[str, Callable[[], FeedSection]] = {
            "Check": lambda: self.check,
            "Year": lambda: self.year,
            "Ledger": lambda: self.ledger,
            "Shelf": lambda: self.shelf,
            "Tools": lambda: self.tools,
            "Rules": lambda: self.rules,
        }
        return sections[name]()

    def _placed(self, section: Made) -> Made:
        """A section put into the page, out of sight until it is turned to."""
        section.hide()
        # The stretch at the foot stays last.
        self._scroll.body.insertWidget(self._scroll.body.count() - 1, section)
        for chart in section.findChildren(ChartHolder):
            chart.begun.connect(lambda: tab_in_reading_order(self))
        return section

    def show_plan(self, plan: Plan) -> None:
        """Show the plan of a day, the zone staying where it can."""
        self._plan = plan
        self.picker.show_zones(self._book.notebook)
        self._title.set_subtitle(tr("on {on}", on=day(plan.on)))
        self._show_zone()
        tab_in_reading_order(self)

    def select(self, table: str, record_id: str) -> None:
        """Show the zone, feeding or product that is selected elsewhere."""
        zone_id = zone_of(self._book.notebook, table, record_id)
        if zone_id:
            self.picker.show_zones(self._book.notebook)
            self.picker.choose(zone_id)
            self._show_zone()
        # Once led to, the owner may turn away although the record stays selected.
        if (table, record_id) != self._led_by:
            self._lead_to(table, record_id)
        self._led_by = (table, record_id)

    def turn_to(self, section: str) -> None:
        """Show one section, scrolled as it was left. KeyError for a name that is none."""
        if section == self.section:
            return
        bar = self._scroll.verticalScrollBar()
        self._scrolled[self.section] = bar.value()
        self._section(section).show()
        self._section(self.section).hide()
        self._fill(section)
        self.section = section
        self.sections.turn_to(section)
        fade_in(self._scroll.viewport())
        tab_in_reading_order(self)
        # The page has to take its new height first.
        QTimer.singleShot(0, self, lambda: bar.setValue(self._scrolled.get(section, 0)))

    def showEvent(self, event: QShowEvent) -> None:
        """Lead to the shelf as long as it is bare: nothing can be checked before."""
        super().showEvent(event)
        notebook = self._book.notebook
        if notebook.zones and not notebook.products:
            self.turn_to("Shelf")
        tab_in_reading_order(self)

    def _lead_to(self, table: str, record_id: str) -> None:
        if table == "feedings":
            self.turn_to("Ledger")
            self.ledger.pick(record_id)
        elif table == "products":
            self.turn_to("Shelf")
            self.shelf.pick(record_id)

    def _shelf_kept(self, _product_id: str) -> None:
        """After the first product, lead on to what may be done with it."""
        if len(self._book.notebook.products) == 1 and self._book.notebook.zones:
            self.turn_to("Check")
            self.check.spread.entry.amount.setFocus(Qt.FocusReason.OtherFocusReason)

    def _edit_feeding(self, feeding_id: str) -> None:
        if feeding_id in self._book.notebook.feedings:
            self._scrolled["Check"] = 0
            self.turn_to("Check")
            self.check.edit(feeding_id)

    def _picked(self, zone_id: str) -> None:
        self._show_zone()
        self.selected.emit("zones", zone_id)

    def _show_zone(self) -> None:
        """Fill what is about the chosen zone; a section out of sight waits for its turn."""
        plan, zone_id = self._plan, self.picker.zone_id()
        if plan is None:
            return
        self._stale = set(SECTIONS)
        # What is checked is the ghost on the year's chart, wherever the owner is.
        for name in ("Check", self.section):
            self._fill(name)
        zone = next((each for each in plan.nitrogen if each.zone_id == zone_id), None)
        for name, why in feed_attention(self._book.notebook, zone, plan.on).items():
            self.sections.mark(name, why)

    def _fill(self, section: str) -> None:
        if self._plan is not None and section in self._stale:
            self._stale.discard(section)
            self._section(section).show_plan(self._plan, self.picker.zone_id())

    def _lay_out(self) -> None:
        self._scroll.setObjectName("feed_scroll")
        keep_room_for(self._scroll)
        self._scroll.body.addStretch(1)
        stack_sections(self, (self._title, self.picker), self.sections, self._scroll)

    def _listen(self) -> None:
        self.picker.zone_picked.connect(self._picked)
        self.sections.turned.connect(self.turn_to)
        self.check.shelf_wanted.connect(lambda: self.turn_to("Shelf"))
