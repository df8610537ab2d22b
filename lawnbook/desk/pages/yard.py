"""The yard page: first steps, an overview, and the sections in which the sketch is worked on."""

from importlib import import_module
from pathlib import Path

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QWidget

from lawnbook.desk.motion import fade_in
from lawnbook.desk.pages.check_mark import CheckMark
from lawnbook.desk.pages.page import keep_room_for, stack_sections, tab_in_reading_order
from lawnbook.desk.pages.print_row import MakePage, PrintRow
from lawnbook.desk.pages.water_sections import SectionRow
from lawnbook.desk.pages.yard_overview import OverviewSection
from lawnbook.desk.pages.yard_section import YardSection
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.desk.widgets import PageScroll, PageTitle
from lawnbook.plan.first_steps import is_under_way, step_left
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook

OVERVIEW, FIRST_STEPS = "Overview", "First steps"
WEATHER = "weather"
"""The part of the overview where a weather table is read."""

LATER: dict[str, tuple[str, str]] = {
    FIRST_STEPS: ("first_steps", "FirstStepsSection"),
    "Shapes": ("yard_shapes", "ShapesSection"),
    "Walk round": ("yard_walk", "WalkSection"),
    "Backdrop": ("yard_backdrop", "BackdropSection"),
    "Check": ("yard_check", "CheckSection"),
    "In and out": ("yard_exchange", "ExchangeSection"),
}
"""Sections but the overview, in order: the module that is loaded when one is first turned to."""

SECTIONS = (FIRST_STEPS, OVERVIEW, *(each for each in LATER if each != FIRST_STEPS))


class YardPage(QWidget):
    """An overview, and the sections of the sketch; `selected` tells what the owner turned to.

    `asked` tells a page or a tool that is wanted. Each section but the overview is made when it is
    turned to, with what is chosen on the sketch: `(book, control)`. `printed` makes the page of the
    sketch as it is seen. A new notebook opens at its first steps; once they are taken, or put away,
    their name leaves the row.
    """

    selected = Signal(str, str)
    asked = Signal(str)

    def __init__(
        self,
        book: OpenNotebook,
        parent: QWidget | None = None,
        control: SketchControl | None = None,
        printed: MakePage | None = None,
    ) -> None:
        super().__init__(parent)
        self.setObjectName("yard_page")
        self._book = book
        self._control = control or SketchControl(book, SketchScene(book.notebook, self), self)
        self._printed = printed
        self._plan: Plan | None = None
        self._title = PageTitle(tr("Yard"), "", self)
        self.sections = SectionRow(SECTIONS, "yard", tr("Sections of the yard page"))
        self._scroll = PageScroll(self)
        self._scrolled: dict[str, int] = {}
        self._stale: set[str] = set()
        self._made: dict[str, YardSection] = {}
        self.overview = OverviewSection(book)
        self._mark = CheckMark(book, self.sections, self)
        self._first_asked = False
        self._leads: bool | None = None
        self.section = OVERVIEW
        self._lay_out()
        self._listen()

    @property
    def draws(self) -> bool:
        """Whether the section that is shown works on the sketch, so that the book stays here."""
        return self.section != OVERVIEW

    def show_plan(self, plan: Plan) -> None:
        """Show what the plan says is due, and the yard as the notebook holds it."""
        self._plan = plan
        self._title.set_subtitle(str(self._book.path.name))
        self._stale = set(SECTIONS)
        if "put away" in self._book.notebook.yard.steps_left:
            self._first_asked = False
        under_way = is_under_way(self._book.notebook, plan)
        leads = self._leads is None and under_way and self.section == OVERVIEW
        self._leads = under_way
        if leads:
            self.turn_to(FIRST_STEPS)
        self._show_first_name()
        self._fill(self.section)
        self._mark.soon()

    def showEvent(self, event: QShowEvent) -> None:
        """What the sketch wants looked at is found out in a while."""
        super().showEvent(event)
        tab_in_reading_order(self)
        self._mark.soon()

    def select(self, table: str, record_id: str) -> None:
        """The first steps are of one zone; other sections follow the sketch themselves."""
        if FIRST_STEPS in self._made:
            self._made[FIRST_STEPS].select(table, record_id)

    def turn_to(self, name: str) -> None:
        """Show one section, scrolled as it was left. KeyError for a name that is none."""
        if name == self.section:
            return
        bar = self._scroll.verticalScrollBar()
        self._scrolled[self.section] = bar.value()
        # What goes takes its lines off the sketch before the other draws its own.
        coming = self._section(name)
        self._section(self.section).hide()
        coming.show()
        self._fill(name)
        self.section = name
        self.sections.turn_to(name)
        self._show_first_name()
        fade_in(self._scroll.viewport())
        tab_in_reading_order(self)
        # The page has to take its new height first.
        QTimer.singleShot(0, self, lambda: bar.setValue(self._scrolled.get(name, 0)))

    def begin_form(self, name: str) -> None:
        """Turn to Shapes, to the first field of an operation's typed figures.

        KeyError for a name that has none.
        """
        from lawnbook.desk.pages.yard_shapes import ShapesSection

        self.turn_to("Shapes")
        section = self._section("Shapes")
        if isinstance(section, ShapesSection):
            field = section.begin_form(name)
            # The page takes its new height, and the place where it was left, first.
            QTimer.singleShot(0, field, lambda: self._scroll.ensureWidgetVisible(field, 0, 120))

    def begin_first_steps(self, step: str = "") -> None:
        """Turn to the first steps, at one by its name; they are taken out where they were put away.

        KeyError for a step that is none.
        """
        self._first_asked = True
        change = step_left(self._book.notebook, "put away", left=False)
        if change and not self._book.read_only:
            self._book.edit(change, tr("first steps taken out"))
        self.turn_to(FIRST_STEPS)
        section = self._section(FIRST_STEPS)
        if step:
            section.turn_to(step)

    def read_weather(self, path: Path) -> None:
        """Take the days of a weather table in; what it leaves open is asked about first."""
        self.turn_to(OVERVIEW)
        self.overview.read_weather(path)

    def _section(self, name: str) -> YardSection:
        """A section by its name, made if need be. KeyError for a name that is none."""
        if name == OVERVIEW:
            return self.overview
        if name not in self._made:
            module, kind = LATER[name]
            loaded = import_module(f"lawnbook.desk.pages.{module}")
            made: YardSection = getattr(loaded, kind)(self._book, self._control)
            made.hide()
            made.selected.connect(self.selected)
            made.asked.connect(self._lead)
            for row in made.findChildren(PrintRow):
                row.show_page(self._printed)
            # The stretch at the foot stays last.
            self._scroll.body.insertWidget(self._scroll.body.count() - 1, made)
            self._made[name] = made
        return self._made[name]

    def _lead(self, name: str) -> None:
        """On to another section of this page, or to what only the window can turn to."""
        section, _, part = name.partition(": ")
        if section not in SECTIONS:
            self.asked.emit(name)
            return
        self.turn_to(section)
        if part == WEATHER:
            self.overview.ask_weather()
        elif part:
            self.overview.lead_to_field(part)

    def _show_first_name(self) -> None:
        """The name of the first steps stands in the row while they lead, are asked for, or open."""
        shown = bool(self._leads) or self._first_asked or self.section == FIRST_STEPS
        self.sections.show_name(FIRST_STEPS, shown=shown)

    def _fill(self, name: str) -> None:
        if self._plan is not None and name in self._stale:
            self._stale.discard(name)
            self._section(name).show_plan(self._plan)
            tab_in_reading_order(self)

    def _lay_out(self) -> None:
        keep_room_for(self._scroll)
        self._scroll.body.addWidget(self.overview)
        self._scroll.body.addStretch(1)
        self.sections.turn_to(OVERVIEW)
        stack_sections(self, (self._title,), self.sections, self._scroll)
        # Not before it stands in the page: it would be shown as a window of its own.
        self.sections.setVisible(bool(LATER))

    def _listen(self) -> None:
        self.sections.turned.connect(self.turn_to)
        self.overview.selected.connect(self.selected)
        self.overview.asked.connect(self._lead)
        self.overview.wanted.connect(lambda field: self._scroll.ensureWidgetVisible(field, 0, 120))
