"""The sketch panel: tools above, the paper, and below it the fields of what is chosen."""

from collections.abc import Callable
from functools import cached_property
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import QEvent, QPointF, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.desk.can_draft import CanDraft
from lawnbook.desk.sketch.backdrop_intake import lay_pictures_under
from lawnbook.desk.sketch.choosing import ON_SKETCH, Choice
from lawnbook.desk.sketch.control import LineDone, SketchControl
from lawnbook.desk.sketch.describing import description
from lawnbook.desk.sketch.furnishings import Furnishings
from lawnbook.desk.sketch.outlines import bounds_of
from lawnbook.desk.sketch.panel_keys import open_menu, use_key
from lawnbook.desk.sketch.reading_aloud import ReadingAloud
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.desk.sketch.strips import Strips
from lawnbook.desk.sketch.tinting import ColourBy
from lawnbook.desk.sketch.toolbar import Toolbar
from lawnbook.desk.sketch.toolbox import LINE, TOOLS, make_tool
from lawnbook.desk.sketch.tools import Tool
from lawnbook.desk.sketch.view import Pointer, SketchView
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.backdrops import seen_bounds_ft
from lawnbook.yard.notebook import Change
from lawnbook.yard.records import Spot

if TYPE_CHECKING:
    from lawnbook.desk.sketch.key_pointer import KeyPointer
    from lawnbook.desk.sketch.line_tool import LineTool
    from lawnbook.plan.day_figures import Figures
    from lawnbook.plan.model import Plan


class SketchPanel(QWidget):
    """The yard sketch. It edits the book itself and says what is chosen on it."""

    selected = Signal(str, str)
    """Table and id of what the owner chose; both "" for nothing."""
    cans_placed = Signal()
    """The Can tool was laid down, and there are cans whose catch is to be typed."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "sketch", tr("Yard sketch with its tools"))
        self._scene = SketchScene(book.notebook, self)
        self._control = SketchControl(book, self._scene, self)
        self._tools: dict[str, Tool] = {}
        self._tool_name, self._tool = "Pick", self._made_tool("Pick")
        self._view = SketchView(self._scene, self._tool, self)
        name_control(self._view, "sketch_view", tr("Yard sketch"))
        name_control(self._view.viewport(), "sketch_paper", tr("Yard sketch"))
        self.setFocusProxy(self._view)
        self._over = Furnishings(self._view)
        self._aloud = ReadingAloud(self._control, self._view)
        self._bar = Toolbar(TOOLS, self)
        self._told = ("", "")
        self._build()
        self._connect()
        self._stop_listening: Callable[[], None] = book.subscribe(self._book_changed)
        self.destroyed.connect(self._stop_listening)
        lay_pictures_under(book, self._control, self._view)
        self.tool("Pick")

    @property
    def control(self) -> SketchControl:
        """What is chosen and drawn, for the pages that work on the sketch."""
        return self._control

    @property
    def view(self) -> SketchView:
        """The paper, for what drives it from outside."""
        return self._view

    @property
    def over(self) -> Furnishings:
        """What lies over the paper: scale bar, north arrow, legend."""
        return self._over

    @property
    def scene(self) -> SketchScene:
        """What is drawn on the paper."""
        return self._scene

    @cached_property
    def key_pointer(self) -> "KeyPointer":
        """The pointer of the keyboard, made when it is first wanted."""
        from lawnbook.desk.sketch.key_pointer import KeyPointer

        return KeyPointer(self._view)

    @property
    def cans(self) -> CanDraft:
        """The cans of a catch test in the making."""
        return self._control.cans

    def colour_by(self, by: ColourBy) -> None:
        """Colour the zones by a figure, as from the list above the paper."""
        self._bar.show_colour(by)
        self._colour_by(by)

    def select(self, table: str, record_id: str) -> None:
        """Light a record from another page; a table that is not drawn leads to its spot or zone."""
        choice, now = self._drawn_choice(table, record_id), self._control.choice
        if choice is None or now is None or choice.record_id != now.record_id:
            self._control.choose(choice, by_owner=False)

    def show_plan(self, plan: "Plan") -> None:
        """Colour zones and fill pins from a plan."""
        from lawnbook.plan.day_figures import plan_figures

        self._scene.show_figures(plan_figures(plan))
        self._show_furniture()

    def show_no_plan(self) -> None:
        """Say no figure: the plan is still being made."""
        self._scene.show_figures(None)
        self._show_furniture()

    def show_day(self, figures: "Figures") -> None:
        """Colour zones and pins by the figures of a day that passes by."""
        self._scene.show_figures(figures, passing=True)

    def tool(self, name: str) -> None:
        """Take up a tool by its name. KeyError for an unknown one."""
        tool = self._made_tool(name)
        before, name_before = self._tool, self._tool_name
        if tool is not before:
            before.lay_down()
        self._tool_name, self._tool = name, tool
        self._view.tool = tool
        if "key_pointer" in self.__dict__:
            self.key_pointer.hide()
        self._bar.show_tool(name)
        self._view.show_cursor(tool.cursor)
        self._scene.show_handles(shown=name == "Pick")
        self._over.say("", QPointF())
        self._show_strip()
        self._show_furniture()
        self._say(self._hint(), "")
        self._show_cans()
        if name_before == "Can" and tool is not before and self.cans.places:
            self.cans_placed.emit()

    def take(self, name: str) -> None:
        """Take up a tool and bring the keyboard to the paper. KeyError for an unknown one."""
        self.tool(name)
        self._view.setFocus()

    @property
    def drawing(self) -> bool:
        """Whether the tool in hand makes something new."""
        return self._tool_name != "Pick"

    def settle_words(self) -> None:
        """Say again what to do, unless a field below the paper still waits for its mend."""
        if not self._band.is_wrong:
            self._say(self._hint(), "")

    def fit(self) -> None:
        """Show the whole yard."""
        self._view.fit(seen_bounds_ft(self._scene.notebook))

    def changeEvent(self, event: QEvent) -> None:
        """Another palette: draw everything in it."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange and hasattr(self, "_over"):
            self._scene.refresh()
            self._show_furniture()
            self._view.viewport().update()

    def retell(self) -> None:
        """Everything that is drawn and said, in the owner's units."""
        self._scene.refresh()
        self._show_furniture()
        self._over.say("", QPointF())
        self.settle_words()
        self._view.viewport().update()

    def _build(self) -> None:
        self.strips = Strips(self._control, self._view.setFocus, self)
        self._band = self.strips.band
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self._bar)
        column.addWidget(self._view, 1)
        column.addWidget(self._band)

    def _connect(self) -> None:
        control = self._control
        control.said.connect(self._say)
        control.cans.changed.connect(self._show_cans)
        control.hovered.connect(self._hover)
        control.pointed.connect(self._view.show_cursor)
        control.chosen.connect(self._show_choice)
        control.finished.connect(self._back_to_pick)
        control.line_asked.connect(self._ask_line)
        control.name_wanted.connect(self._band.to_first_field)
        control.move_wanted.connect(self.strips.ask_move)
        self._bar.took.connect(self.take)
        self._bar.coloured.connect(self._colour_by)
        self._bar.fit_wanted.connect(self.fit)
        self._over.empty.begin.clicked.connect(lambda: self.take("Zone"))
        self._over.empty.asked.connect(control.section_asked)
        self._view.zoomed.connect(lambda: self._over.scale.show_scale(self._view.px_per_ft))
        self._view.resized.connect(self._resized)
        self._view.key_unused.connect(self._key)
        self._view.tabbed.connect(self._tabbed)
        self._view.menu_wanted.connect(self._open_menu)

    def _ask_line(self, words: str, done: LineDone, snaps: bool) -> None:
        line = cast("LineTool", self._made_tool(LINE))
        if self._tool is line:
            line.cancel()
        line.ask(words, done, snaps)
        self.take(LINE)

    def _back_to_pick(self) -> None:
        words, role = self._band.said()
        self.tool("Pick")
        self._say(words, role)
        self._view.setFocus()

    def _book_changed(self, change: Change) -> None:
        if not change:
            return
        control = self._control
        notebook = control.notebook
        before = self._scene.notebook
        was_empty = not (before.zones or before.features or before.backdrops)
        self._scene.show_book(notebook)
        if control.cans.zone_id and control.cans.zone_id not in notebook.zones:
            control.cans.clear()
        control.let_go_of_lost()
        self._show_strip()
        self._show_furniture()
        self.settle_words()
        if self._view.fits and (was_empty or not self._all_in_view()):
            self.fit()

    def _all_in_view(self) -> bool:
        west, south, east, north = seen_bounds_ft(self._scene.notebook)
        seen = self._view.mapToScene(self._view.viewport().rect()).boundingRect()
        return seen.contains(QPointF(west, -north)) and seen.contains(QPointF(east, -south))

    def _show_choice(self, by_owner: bool) -> None:
        choice = self._control.choice
        self._show_strip()
        self._describe()
        self.settle_words()
        keys = self._control.chosen_keys
        # Of several the one that was chosen last is looked at.
        record = self._control.notebook.find(*keys[-1]) if keys else None
        if isinstance(record, Spot) and record.at_ft is None:
            self._say(
                tr(
                    "{name} has no place yet: take up Spot and click where it is.", name=record.name
                ),
                "",
            )
        elif record is not None:
            self._view.reveal(bounds_of(record))
        told = (choice.table, choice.record_id) if choice is not None else ("", "")
        if told != self._told:
            self._told = told
            if by_owner:
                self.selected.emit(*told)

    def _show_strip(self) -> None:
        self.strips.show(self._tool)

    def _made_tool(self, name: str) -> Tool:
        if name not in self._tools:
            self._tools[name] = make_tool(name, self._control)
        return self._tools[name]

    def _show_cans(self) -> None:
        self._scene.show_cans(self._control.cans, tests=self._tool_name == "Can")
        self._describe()

    def _say(self, words: str, tone: str) -> None:
        self._band.say(words, tone)

    def _hint(self) -> str:
        """What to do next with the tool in hand."""
        if self._over.says_empty:
            return tr("Nothing is drawn yet. Take up Zone, or press Z, to begin.")
        return self._tool.hint_now()

    def _hover(self, words: str) -> None:
        self._over.say(words, self._view.last_px)

    def _colour_by(self, by: ColourBy) -> None:
        self._scene.colour_by(by)
        self._show_furniture()

    def _show_furniture(self) -> None:
        notebook = self._scene.notebook
        picking = self._tool_name == "Pick"
        self._over.show_book(notebook, self._scene.water.legend(), picking=picking)
        self._describe()

    def _resized(self) -> None:
        self._over.place()
        if self._view.fits:
            self.fit()

    def _describe(self) -> None:
        """Tell a screen reader what is drawn and what is chosen."""
        choice, placed = self._control.choice, len(self.cans.places)
        rated = choice is not None and self._scene.by == "Sprinkler rate"
        figure = self._scene.figure_of(choice.record_id) if choice is not None and rated else ""
        of_zone = choice is not None and choice.table == "zones"
        strips = self._scene.strips.told(choice.record_id if choice and of_zone else "")
        marked = self._control.marked
        words = description(self._scene.notebook, choice, placed, figure, strips, marked)
        self._view.setAccessibleDescription(words)

    def escape(self) -> None:
        """Give up what is under way, let go of what is chosen, or lay the tool down."""
        if self._tool.cancel():
            self._say(self._hint(), "")
        elif self._tool_name != "Pick":
            self.tool("Pick")

    def _key(self, event: QKeyEvent) -> None:
        if use_key(self, event, TOOLS):
            event.accept()

    def _open_menu(self, pointer: object) -> None:
        open_menu(self, pointer if isinstance(pointer, Pointer) else None)

    def _tabbed(self, forward: bool) -> None:
        """Choose the next shape; past the last one the focus goes on."""
        if self._tool.step(forward):
            self._view.stay()

    def _drawn_choice(self, table: str, record_id: str) -> Choice | None:
        record = self._scene.notebook.find(table, record_id) if table else None
        if record is None:
            return None
        if table in ON_SKETCH:
            return Choice(table, record_id)
        for reference, held in (("spots", "spot"), ("zones", "zone")):
            led_to = getattr(record, held, None)
            if isinstance(led_to, str):
                return Choice(reference, led_to)
        return None
