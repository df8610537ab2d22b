"""The plugs page: one place picked, and five sections from the profile columns to what is next."""

from collections.abc import Callable
from datetime import date
from functools import cached_property
from importlib import import_module
from typing import TYPE_CHECKING, Protocol, cast

from PySide6.QtCore import QPoint, QTimer, Signal, SignalInstance
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QWidget

from lawnbook.desk.motion import fade_in
from lawnbook.desk.pages.chart_holder import ChartHolder
from lawnbook.desk.pages.page import keep_room_for, stack_sections, tab_in_reading_order
from lawnbook.desk.pages.place_picker import (
    PlacePicker,
    first_place,
    place_of,
    still_there,
)
from lawnbook.desk.pages.plugs_columns import ColumnsSection
from lawnbook.desk.pages.print_row import PaperOf, PrintRow, letter
from lawnbook.desk.pages.water_sections import SectionRow
from lawnbook.desk.widgets import PageScroll, PageTitle, QuietButton
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import Place
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.numbers import day

if TYPE_CHECKING:
    from lawnbook.desk.pages.plugs_next import NextSection

SECTIONS = ("Columns", "Trend", "Photos", "Then and now", "Next")
LATER = {
    "Trend": ("plugs_trend", "TrendSection"),
    "Photos": ("photo_section", "PhotoSection"),
    "Then and now": ("plugs_then_now", "ThenNowSection"),
}
"""Sections whose module is loaded when the section is first turned to."""


class PlugSection(Protocol):
    """What the page asks of a section, beyond being a widget."""

    @property
    def selected(self) -> SignalInstance:
        """Tells a record the owner turned to."""

    def show_plan(self, plan: Plan, place: Place) -> None:
        """Show a place as the plan of a day holds it."""


class PlugsPage(QWidget):
    """Plugs of a spot, a zone or the yard. `selected` tells what the owner turned to.

    The section stays while places and days change. Each section but the first is made when it is
    turned to: five at once would keep the page waiting.
    """

    selected = Signal(str, str)
    today_asked = Signal()

    def __init__(
        self,
        book: OpenNotebook,
        parent: QWidget | None = None,
        paper: PaperOf = letter,
    ) -> None:
        super().__init__(parent)
        self.setObjectName("plugs_page")
        self._book = book
        self._paper = paper
        self._plan: Plan | None = None
        self._led_by = ("", "")
        self._title = PageTitle(tr("Plugs"), "", self)
        self.picker = PlacePicker("plugs_place", self)
        self.sections = SectionRow(SECTIONS, "plugs", tr("Sections of the plugs page"))
        self._new = QuietButton(tr("New plug"), "plugs_new", self)
        self._scroll = PageScroll(self)
        self._scrolled: dict[str, int] = {}
        self._stale: set[str] = set()
        self._made: dict[str, QWidget] = {}
        self.section = "Columns"
        self.sections.turn_to("Columns")
        self._place = first_place(book.notebook)
        self._lay_out()
        self.columns.show()
        self.picker.place_picked.connect(self._picked)
        self.sections.turned.connect(self.turn_to)
        self._new.clicked.connect(self._begin_plug)

    @property
    def start(self) -> QWidget:
        """Where the keyboard goes when it comes from the sketch: a focus proxy would also catch
        every Tab that enters the page, and no key would reach what stands above the form."""
        return self.columns.entry.panel.form.editor("spot")

    @property
    def place(self) -> Place:
        """What is looked at."""
        return self._place

    @cached_property
    def columns(self) -> ColumnsSection:
        """The profile columns and the entry."""
        columns = ColumnsSection(self._book)
        columns.next_asked.connect(lambda: self.turn_to("Next"))
        columns.today_asked.connect(self.today_asked)
        columns.entry.photo_asked.connect(self._show_photo)
        self._put_in("Columns", columns)
        return columns

    @cached_property
    def next(self) -> "NextSection":
        """Findings, and where to pull next."""
        from lawnbook.desk.pages.plugs_next import NextSection

        section = NextSection(self._book)
        self._put_in("Next", section)
        return section

    def _section(self, name: str) -> QWidget:
        """A section by its name, made if need be. KeyError for a name that is none."""
        ours: dict[str, Callable[[], QWidget]] = {
            "Columns": lambda: self.columns,
            "Next": lambda: self.next,
        }
        if name in ours:
            return ours[name]()
        if name not in self._made:
            module, kind = LATER[name]
            loaded = import_module(f"lawnbook.desk.pages.{module}")
            self._put_in(name, getattr(loaded, kind)(self._book))
        return self._made[name]

    def _put_in(self, name: str, section: QWidget) -> None:
        """A section put into the page, out of sight until it is turned to."""
        self._made[name] = section
        section.hide()
        # The stretch at the foot stays last.
        self._scroll.body.insertWidget(self._scroll.body.count() - 1, section)
        cast(PlugSection, section).selected.connect(self._turned)
        for chart in section.findChildren(ChartHolder):
            chart.begun.connect(lambda: tab_in_reading_order(self))
        for row in section.findChildren(PrintRow):
            row.paper = self._paper

    def show_plan(self, plan: Plan) -> None:
        """Show the plan of a day, the place staying where it can."""
        self._plan = plan
        self._show_place(still_there(self._book.notebook, self._place))
        tab_in_reading_order(self)

    def select(self, table: str, record_id: str) -> None:
        """Turn to the place of what is selected elsewhere; a plug opens in the form."""
        place = place_of(self._book.notebook, table, record_id)
        if place is not None and place != self._place:
            self._show_place(place)
        # Once led to, the owner may turn away although the record stays selected.
        if place is not None and (table, record_id) != self._led_by:
            self._lead_to(table, record_id)
        self._led_by = (table, record_id)

    def begin_plug(self, spot_id: str, on: date) -> None:
        """The form of a new plug of a spot and a day, ready for its first reading."""
        self.select("spots", spot_id)
        self._begin_plug()
        self.columns.entry.begin(spot_id, on)

    def turn_to(self, section: str) -> None:
        """Show one section, scrolled as it was left. KeyError for a name that is none."""
        if section == self.section:
            return
        bar = self._scroll.verticalScrollBar()
        self._scrolled[self.section] = bar.value()
        self._section(section).show()
        self._section(self.section).hide()
        self.section = section
        self._fill(section)
        self.sections.turn_to(section)
        fade_in(self._scroll.viewport())
        tab_in_reading_order(self)
        # The page has to take its new height first.
        QTimer.singleShot(0, self, lambda: bar.setValue(self._scrolled.get(section, 0)))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The chart takes what the words and the form leave of the page."""
        super().resizeEvent(event)
        self._fit()

    def showEvent(self, event: QShowEvent) -> None:
        """Let Tab go through the page as it is read."""
        super().showEvent(event)
        tab_in_reading_order(self)

    def _lead_to(self, table: str, record_id: str) -> None:
        if table == "cores":
            self.turn_to("Columns")
            self.columns.open_plug(record_id)
        elif table == "photos":
            self._show_photo(record_id)

    def _show_photo(self, photo_id: str) -> None:
        """Open a photograph that is kept, large, under Photos."""
        if photo_id not in self._book.notebook.photos:
            return
        self.turn_to("Photos")
        show: Callable[[str], None] | None = getattr(self._made["Photos"], "show_photo", None)
        if show is not None:
            show(photo_id)

    def _begin_plug(self) -> None:
        """The form of a new plug at the top of the page, ready for its first reading."""
        self.turn_to("Columns")
        if self.columns.entry.panel.is_open:
            self.columns.entry.panel.clear()
        # After the section has its height, and the scroll it was left with.
        QTimer.singleShot(0, self, self._reach_form)

    def _reach_form(self) -> None:
        entry = self.columns.entry
        entry.panel.form.focus("thatch_in")
        bar = self._scroll.verticalScrollBar()
        bar.setValue(bar.value() + entry.mapTo(self._scroll.viewport(), QPoint(0, 0)).y())

    def _picked(self, place: Place) -> None:
        self._show_place(place)
        table = {"spot": "spots", "zone": "zones", "yard": ""}[place.kind]
        # A zone of one spot leads to that spot when it is selected elsewhere: not when picked here.
        self._led_by = (table, place.id)
        self.selected.emit(table, place.id)
        self._show_place(place)

    def _turned(self, table: str, record_id: str) -> None:
        """A section turned to a record: shown here at once, and lit wherever else it is."""
        self._led_by = ("", "")
        self.selected.emit(table, record_id)
        self.select(table, record_id)

    def _show_place(self, place: Place) -> None:
        """Fill what shows of a place; a section out of sight waits for its turn."""
        self._place = place
        self.picker.show_places(self._book.notebook)
        self.picker.choose(place)
        self._new.setVisible(bool(self._book.notebook.spots))
        plan = self._plan
        if plan is None:
            return
        self._title.set_subtitle(tr("on {on}", on=day(plan.on)))
        self._stale = set(SECTIONS)
        # The form follows what is selected on the sketch wherever the owner is.
        for name in dict.fromkeys(("Columns", self.section)):
            self._fill(name)
        # Once what was just said has its place: more or fewer lines leave another room.
        QTimer.singleShot(0, self, self._fit)

    def _fill(self, section: str) -> None:
        if self._plan is not None and section in self._stale:
            self._stale.discard(section)
            cast(PlugSection, self._section(section)).show_plan(self._plan, self._place)

    def _fit(self) -> None:
        self.columns.fit_chart(self._scroll.viewport().height())

    def _lay_out(self) -> None:
        # Where every section has it at hand: the form itself stands below the columns.
        self.sections.add_at_end(self._new)
        self._scroll.setObjectName("plugs_scroll")
        keep_room_for(self._scroll)
        self._scroll.body.addStretch(1)
        stack_sections(self, (self._title, self.picker), self.sections, self._scroll)
