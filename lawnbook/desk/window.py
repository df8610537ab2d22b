"""The window of one notebook: the sketch on the left page, one page at a time on the right."""

from collections.abc import Callable
from datetime import date
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QAction, QCloseEvent
from PySide6.QtWidgets import QMainWindow, QMenu, QWidget

from lawnbook.desk.closing import closes
from lawnbook.desk.day_showing import DayShowing
from lawnbook.desk.dialogs import choose_elsewhere
from lawnbook.desk.film import Veil
from lawnbook.desk.leading import lead
from lawnbook.desk.leaves import open_leaf
from lawnbook.desk.menus import build_menus
from lawnbook.desk.motion import FadingStack
from lawnbook.desk.page_homes import PAGE_OF_TABLE, STAYS_ON
from lawnbook.desk.page_making import join_page, make_page, make_sketch_page
from lawnbook.desk.plan_showing import PlanShowing, QuietPage
from lawnbook.desk.reading_only import FileWatch
from lawnbook.desk.recalling import first_page, give_keys, recall
from lawnbook.desk.ribbon import DateRibbon
from lawnbook.desk.settings import Settings
from lawnbook.desk.sketch.choosing import ON_SKETCH
from lawnbook.desk.sketch.panel import SketchPanel
from lawnbook.desk.sketch.tinting import CHOICES
from lawnbook.desk.sketch.toolbox import TOOLS
from lawnbook.desk.spread import TABS, BookSpread, IndexTabs
from lawnbook.desk.status import StatusLine, in_short, redo_words, undo_words
from lawnbook.desk.step_line import with_step_line
from lawnbook.desk.still_writing import may_close
from lawnbook.desk.units_choice import UnitsFollowing, area_words
from lawnbook.desk.wait_line import CALLED_OFF, WaitLine
from lawnbook.desk.widgets import PageTitle
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Change
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.desk.page_making import Page
    from lawnbook.desk.pages.plugs import PlugsPage
    from lawnbook.desk.pages.sheet import SheetPage
    from lawnbook.desk.pages.water import WaterPage
    from lawnbook.desk.pages.yard import YardPage
    from lawnbook.desk.printing import PageOut
    from lawnbook.plan.model import Plan


class BookWindow(QMainWindow):
    """One open notebook. `closed` is told once its file is closed."""

    closed = Signal()
    opened = Signal()
    """The first page is there: what can wait for the first paint comes now."""
    new_asked = Signal()
    open_asked = Signal()
    copies_asked = Signal()
    sample_asked = Signal(object)
    theme_asked = Signal(str)
    help_asked = Signal(str)
    """Help is wanted, at a section by its name or, with "", at the page that is open."""

    def __init__(
        self, book: OpenNotebook, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.book, self.settings = book, settings
        self._on = book.today
        self.units = UnitsFollowing(self)
        self._pages: dict[str, Page] = {}
        self._stale: set[str] = set()
        self._selection = ("", "")
        self._selecting = False
        self._place = first_page(book, settings)
        self.setObjectName("book_window")
        self._title = PageTitle("", "", self)
        self.sketch = SketchPanel(book, self)
        self.sketch.control.habits = settings.habits
        self.sketch.scene.see_through(on=settings.habits.sees_through)
        self.ribbon = DateRibbon(book.notebook, book.today, self)
        self.stack = FadingStack(self)
        quiet = QuietPage(self._place, self.stack)
        self.stack.addWidget(quiet)
        self.veil = Veil(self.stack)
        self.status = StatusLine(book, self)
        self.writing = WaitLine("window_writing", self)
        self.tabs = IndexTabs(TABS, self)
        self.watch = FileWatch(self)
        self._lay_out()
        self._showing = PlanShowing(self, quiet)
        self._days = DayShowing(self)
        self.undo_action, self.redo_action = QAction(tr("Undo"), self), QAction(tr("Redo"), self)
        self.whole_action = QAction(tr("Sketch over &both pages"), self)
        build_menus(self)
        self.watch.refresh()
        self._listen()
        self._refresh_words()
        self.tabs.turn_to(self._place)
        self._showing.soon()

    @property
    def on(self) -> date:
        """The day the book is looked at."""
        return self._on

    @property
    def plan(self) -> "Plan":
        """The plan of that day; waited for where it is still being made."""
        return self._showing.plans.plan_for(self.book.notebook, self._on)

    @property
    def held_plan(self) -> "Plan | None":
        """The plan of that day, where it is made already."""
        return self._showing.plans.held(self.book.notebook, self._on)

    @property
    def waits(self) -> bool:
        """Whether a plan is still to come, or could not be made and waits for the next edit."""
        return self._showing.waits

    @property
    def place(self) -> str:
        """The page the book is open at."""
        return self._place

    def page(self, name: str) -> "Page":
        """A right-hand page, made when it is first asked for; KeyError for an unknown name."""
        if name not in self._pages:
            made = make_page(name, self)
            self._pages[name] = made
            self.stack.addWidget(made)
            self._stale.add(name)
            made.selected.connect(self.select)
            join_page(name, made, self)
        return self._pages[name]

    def turn_to(self, name: str) -> None:
        """Open the book at a page."""
        if not self._selecting:
            self.sketch.settle_words()
        shown = self.page(name)
        self._place = name
        self.tabs.turn_to(name)
        self.stack.setCurrentWidget(shown)
        if name in self._stale and not self._showing.waits:
            self._show_on(name)
        shown.select(*self._selection)

    def open_at(self, name: str) -> None:
        """Open the book at a page that is to be seen: the sketch makes room for it."""
        self.lay_sketch(whole=False)
        self.turn_to(name)

    def look_at(self, on: date) -> None:
        """Look at the book as it stood on another day, or as the plan for a coming one."""
        self._on = on
        self.ribbon.look_at(on)
        self.veil.hide()
        self._days.rest()
        self._stale.update(self._pages)
        self._showing.soon()

    def pass_by(self, on: date) -> None:
        """Colour the sketch by a day that only goes by; the right page waits under a veil.

        Days to come have a plan of their own, and so no film.
        """
        starts, today = self.ribbon.starts, self.book.today
        if not starts <= on <= today:
            self.look_at(on)
            return
        self._days.pass_by(on, (starts, today))

    def back_to_today(self) -> None:
        """Look at the book as it stands today."""
        self.look_at(self.book.today)

    def select(self, table: str, record_id: str) -> None:
        """Light a record on both pages, turning the right one to where it is shown."""
        if self._selecting:
            return
        self._selecting = True
        try:
            self._selection = (table, record_id)
            home = PAGE_OF_TABLE.get(table)
            if home and not self._stays(table, home):
                self.turn_to(home)
            else:
                self.page(self._place).select(table, record_id)
            self.sketch.select(table, record_id)
        finally:
            self._selecting = False

    def _stays(self, table: str, home: str) -> bool:
        """Whether the page the book is open at shows a record of a table itself."""
        if self._place == "Yard" and table in ON_SKETCH:
            return cast("YardPage", self.page("Yard")).draws
        return self._place in STAYS_ON.get(table, (home,))

    def lead_to(self, name: str) -> None:
        """Turn to a page, put a tool of the sketch into the owner's hand, or colour the sketch."""
        if name in TOOLS:
            self._spread.see_left()
            self.sketch.take(name)
        elif name in CHOICES:
            self.sketch.colour_by(name)
        else:
            lead(self, name)

    def with_plan(self, then: "Callable[[Plan], None]") -> None:
        """Do something with the plan of the day once it is made, never with an older one."""
        self._showing.when_made(then)

    def open_sheet(self) -> "SheetPage":
        """Turn to the sheet, as the plan of the day has it now."""
        self.turn_to("Sheet")
        self._show_on("Sheet")
        return cast("SheetPage", self.page("Sheet"))

    def sketch_page(self) -> "PageOut":
        """The sketch as it is seen now, as a page on the paper that is chosen for the sheet."""
        return make_sketch_page(self)

    def open_help(self, section: str = "") -> None:
        """Open Help at a section of the manual or, with "", at the page the book is open at."""
        open_leaf(self, "help", section or self._place)

    def undo(self) -> None:
        """Take the latest edit back."""
        self.settle_field()
        self.book.undo()

    def redo(self) -> None:
        """Do the latest undone edit again."""
        self.settle_field()
        self.book.redo()

    def keep_elsewhere(self) -> bool:
        """Ask for another file, write the whole notebook there and carry on; whether that is so."""
        path = choose_elsewhere(self, self.book.path)
        if path is None:
            return False
        try:
            self.status.keep_in(path)
        except OwnerError as problem:
            self.status.say(str(problem), "refuse")
            return False
        self.settings.remember(path)
        return True

    def move_out(self) -> None:
        """Ask for another file and carry on there; a big notebook is written beside the window."""
        from lawnbook.desk.moving_out import keep_elsewhere

        keep_elsewhere(self)

    def lay_sketch(self, *, whole: bool) -> None:
        """Let the sketch lie over both pages, or open the right one again beside it."""
        self._spread.lay_whole(whole=whole)
        if whole:
            self.sketch.setFocus(Qt.FocusReason.OtherFocusReason)

    def switch_side(self) -> None:
        """Take the keyboard from the sketch to the page, which then is open, or back."""
        focus: QWidget | None = self.focusWidget()
        on_sketch = focus is not None and self.sketch.isAncestorOf(focus)
        self.lay_sketch(whole=self._spread.is_single and not on_sketch)
        side = self.page(self._place) if on_sketch else self.sketch
        start: QWidget | None = side.focusProxy()
        if on_sketch and self._place == "Plugs":
            start = cast("PlugsPage", side).start
        give_keys(side, start)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Keep what is still being typed, then close the file; ask when it cannot be written."""
        self.settle_field()
        if not (may_close(self) and closes(self)):
            event.ignore()
            return
        self.settings.geometry = self.saveGeometry()
        self.settings.habits = self.sketch.control.habits
        self._showing.stop()
        self._days.stop()
        self.ribbon.film.halt()
        self.closed.emit()
        event.accept()

    def createPopupMenu(self) -> QMenu:
        """No menu of docks: there are none to lose."""
        return QMenu(self)

    def settle_field(self) -> None:
        """Leave the field at hand, so that one that keeps its value on being left keeps it now."""
        focus: QWidget | None = self.focusWidget()
        if focus is not None:
            focus.clearFocus()
            focus.setFocus(Qt.FocusReason.OtherFocusReason)

    def _lay_out(self) -> None:
        spread = self._spread = BookSpread(self.tabs, self)
        spread.left.addWidget(self._title)
        spread.left.addWidget(self.sketch, 1)
        spread.left.addWidget(self.ribbon)
        spread.right.addWidget(with_step_line(self), 1)
        spread.right.addWidget(self.writing)
        spread.right.addWidget(self.status)
        self.setCentralWidget(self.watch.over(spread))
        self.setMinimumSize(1220, 700)
        if not self.restoreGeometry(self.settings.geometry):
            room = self.screen().availableSize()
            self.resize(QSize(1440, 900).boundedTo(room).expandedTo(self.minimumSize()))

    def _listen(self) -> None:
        self._stop_listening = self.book.subscribe(self._changed)
        self.sketch.selected.connect(self._chosen_on_sketch)
        self.sketch.cans_placed.connect(self._cans_placed)
        self.sketch.control.form_asked.connect(self._begin_form)
        self.sketch.control.section_asked.connect(self._turn_to_section)
        self.ribbon.moved.connect(self.look_at)
        self.ribbon.passed.connect(self.pass_by)
        self.tabs.turned.connect(self.open_at)
        self._spread.laid.connect(self.whole_action.setChecked)
        self.status.elsewhere_asked.connect(self.move_out)
        self.writing.cancelled.connect(lambda: self.status.say(CALLED_OFF))
        self.closed.connect(self.status.rest)
        self.help_asked.connect(self.open_help)
        recall(self)

    def _chosen_on_sketch(self, table: str, record_id: str) -> None:
        """What was clicked turns the page; what was just drawn leaves the yard page open."""
        if self.sketch.drawing and self._place == "Yard":
            self._selection = (table, record_id)
        else:
            self.select(table, record_id)

    def _turn_to_section(self, name: str) -> None:
        """On to a section of the yard page, with the keyboard."""
        self.open_at("Yard")
        cast("YardPage", self.page("Yard")).turn_to(name)
        self.switch_side()

    def _begin_form(self, name: str) -> None:
        """On to where the figures of an operation on the sketch are typed."""
        self.open_at("Yard")
        cast("YardPage", self.page("Yard")).begin_form(name)

    def begin_plug(self, spot_id: str) -> None:
        """On to the entry of a spot's plug, of the day looked at where that is not to come."""
        self.select("spots", spot_id)
        plugs = cast("PlugsPage", self.page("Plugs"))
        plugs.begin_plug(spot_id, min(self._on, self.book.today))

    def _cans_placed(self) -> None:
        """The cans stand: on to what they caught."""
        self.turn_to("Water")
        cast("WaterPage", self.page("Water")).use_cans(self.sketch.cans)

    def _changed(self, change: Change) -> None:
        self._refresh_words()
        if not change:
            return
        self.units.follow()
        self.ribbon.film.stop()
        if any(table in ("cores", "feedings", "climate", "weather") for table, _ in change):
            self.ribbon.show_notebook(self.book.notebook)
        if self._selection[0] and self.book.notebook.find(*self._selection) is None:
            self._selection = ("", "")
        self._stale.update(self._pages)
        self._showing.soon()

    def show_plan(self, plan: "Plan") -> None:
        """Show the plan of the day on the sketch and the page the book is open at."""
        self.sketch.show_plan(plan)
        self._title.set_subtitle(area_words(plan))
        self._show_on(self._place)

    def show_no_plan(self, why: str) -> None:
        """Say no figure on the sketch, and why, until there is a plan to show."""
        self.sketch.show_no_plan()
        self._title.set_subtitle(why)

    def _show_on(self, name: str) -> None:
        self._stale.discard(name)
        self.page(name).show_plan(self.plan)

    def _refresh_words(self) -> None:
        name = self.book.notebook.yard.name or tr("Unnamed yard")
        self._title.set_title(name)
        self.setWindowTitle(tr("{name} – Lawnbook", name=name))
        self.status.refresh()
        for action, label, words in (
            (self.undo_action, self.book.undo_label, undo_words),
            (self.redo_action, self.book.redo_label, redo_words),
        ):
            action.setText(in_short(words, label))
            action.setEnabled(bool(label))
