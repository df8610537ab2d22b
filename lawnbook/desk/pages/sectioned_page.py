"""A page of sections that are loaded when they are first turned to: one name chosen in a row."""

from collections.abc import Callable, Mapping
from importlib import import_module

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QWidget

from lawnbook.desk.motion import fade_in
from lawnbook.desk.pages.page import keep_room_for, stack_sections, tab_in_reading_order
from lawnbook.desk.pages.page_section import PageSection
from lawnbook.desk.pages.water_sections import SectionRow
from lawnbook.desk.settings import Settings
from lawnbook.desk.widgets import PageScroll, PageTitle
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook

FILLING = 100


class SectionedPage(QWidget):
    """A page whose sections stand in `LATER`: each name with the module and class that makes it.

    `selected` tells a record the owner turned to, `asked` a page that is wanted, `plug_asked` a
    spot of which a plug is to be entered; a section asks for another one of the same page in the
    same way. A section is made with `(book, settings)`.
    """

    selected = Signal(str, str)
    asked = Signal(str)
    plug_asked = Signal(str)

    NAME = ""
    LATER: Mapping[str, tuple[str, str]] = {}

    def __init__(
        self, book: OpenNotebook, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._book, self._settings = book, settings
        stem = self.NAME.lower()
        self.setObjectName(f"{stem}_page")
        self._plan: Plan | None = None
        self._selection = ("", "")
        self.title = PageTitle(tr(self.NAME), "", self)
        self.sections = SectionRow(
            tuple(self.LATER), stem, tr("Sections of the {stem} page", stem=tr(self.NAME).lower())
        )
        self._scroll = PageScroll(self)
        self._scrolled: dict[str, int] = {}
        self._stale: set[str] = set()
        self._made: dict[str, PageSection] = {}
        self._waits: Callable[[], bool] = lambda: False
        self.section = next(iter(self.LATER))
        keep_room_for(self._scroll)
        self._scroll.body.addStretch(1)
        self.sections.turn_to(self.section)
        self.sections.turned.connect(self.turn_to)
        stack_sections(self, (self.title,), self.sections, self._scroll)
        self.made(self.section).show()

    def show_plan(self, plan: Plan) -> None:
        """Show the plan of a day in the section that is open, in the others when turned to."""
        self._plan = plan
        self._stale = set(self.LATER)
        self._fill(self.section)

    def select(self, table: str, record_id: str) -> None:
        """Light a record in the section that is open."""
        self._selection = (table, record_id)
        self.made(self.section).select(table, record_id)

    def turn_to(self, name: str) -> None:
        """Show one section, scrolled as it was left. KeyError for a name that is none."""
        if name == self.section:
            return
        bar = self._scroll.verticalScrollBar()
        self._scrolled[self.section] = bar.value()
        coming = self.made(name)
        self.made(self.section).hide()
        coming.show()
        self._fill(name)
        self.section = name
        self.sections.turn_to(name)
        coming.select(*self._selection)
        fade_in(self._scroll.viewport())
        tab_in_reading_order(self)
        # The page has to take its new height first.
        QTimer.singleShot(0, self, lambda: bar.setValue(self._scrolled.get(name, 0)))

    def use_waits(self, waits: Callable[[], bool]) -> None:
        """What tells the sections whether their plan is of an older notebook or day."""
        self._waits = waits
        for each in self._made.values():
            each.waits = waits

    def made(self, name: str) -> PageSection:
        """A section by its name, made if need be. KeyError for a name that is none."""
        if name not in self._made:
            module, kind = self.LATER[name]
            loaded = import_module(f"lawnbook.desk.pages.{module}")
            made: PageSection = getattr(loaded, kind)(self._book, self._settings)
            made.waits = self._waits
            made.hide()
            made.selected.connect(self.selected)
            made.asked.connect(self._lead)
            made.plug_asked.connect(self.plug_asked)
            # The stretch at the foot stays last, and leaves all it can to a section that fills.
            stretch = FILLING if made.FILLS else 0
            self._scroll.body.insertWidget(self._scroll.body.count() - 1, made, stretch)
            self._made[name] = made
        return self._made[name]

    def _lead(self, name: str) -> None:
        """On to another section of this page, or to what only the window can turn to."""
        section, _, part = name.partition(": ")
        if section in self.LATER:
            self.turn_to(section)
            if part:
                self.made(section).turn_to(part)
        else:
            self.asked.emit(name)

    def _fill(self, name: str) -> None:
        if self._plan is not None and name in self._stale:
            self._stale.discard(name)
            self.made(name).show_plan(self._plan)
            tab_in_reading_order(self)
