"""Plan, on the sheet page: the pages as they will be printed, their paper, the way out."""

from typing import TYPE_CHECKING

from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QWidget

from lawnbook.desk import printing
from lawnbook.desk.beside import Stop
from lawnbook.desk.dialogs import file_stem
from lawnbook.desk.film import Veil
from lawnbook.desk.pages.page_section import PageSection
from lawnbook.desk.pages.paper_choice import PaperChoice
from lawnbook.desk.pages.sheet_figures import PageFigures
from lawnbook.desk.pages.sheet_preview import PagesPreview
from lawnbook.desk.plan_showing import IN_THE_MAKING
from lawnbook.desk.settings import Settings
from lawnbook.desk.wait_dialog import WAITS
from lawnbook.desk.wait_line import CALLED_OFF, WaitLine
from lawnbook.desk.widgets import PrimaryButton, QuietButton, Words, name_control
from lawnbook.desk.wrapping import WrappingRow
from lawnbook.frozen import dataclass
from lawnbook.plan.first_steps import is_under_way, step_left
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.session.planning import keep_every_promise, takes_long
from lawnbook.sheet.documents import sheet_document
from lawnbook.sheet.layout import PaperName
from lawnbook.sheet.paper import Draw
from lawnbook.sheet.placed import parts_of
from lawnbook.yard.numbers import counted, day

if TYPE_CHECKING:
    from lawnbook.plan.working_model import Working

STOPPED = tr("Stopped. Turn to another page and back to see the sheet.")
WITH_WORKINGS = tr("With the workings")
FEW_PAGES = 1
"""So many pages of a small yard are painted in a moment."""
WORKINGS_HINT = tr(
    "Pages behind the plan: each figure with its formula, its inputs and its source."
)

LAYING_OUT = tr("Laying out the pages…")


@dataclass(frozen=True, slots=True)
class Laid:
    """The sheet as it is laid out for a paper, with its workings or without."""

    plan: Plan
    paper: PaperName
    workings: bool
    title: str
    draws: tuple[Draw, ...]

    def is_of(self, plan: Plan, settings: Settings) -> bool:
        """Whether it is the sheet of this very plan, as it is wanted now."""
        wanted = (settings.paper, settings.workings)
        return self.plan is plan and (self.paper, self.workings) == wanted


class PlanSection(PageSection):
    """Preview, paper, workings, Print and Save as PDF."""

    def __init__(
        self, book: OpenNotebook, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._book, self._settings = book, settings
        self._plan: Plan | None = None
        self._asked: printing.Ask | None = None
        self._laid: Laid | None = None
        self._preview = PagesPreview("sheet_preview", tr("Preview of the sheet"), self)
        self.figures = PageFigures(self._preview, self._workings_of)
        self._workings = QCheckBox(WITH_WORKINGS, self)
        name_control(self._workings, "sheet_workings", WITH_WORKINGS, WORKINGS_HINT)
        self._workings.setToolTip(WORKINGS_HINT)
        self._workings.setChecked(settings.workings)
        self._workings.toggled.connect(self._use_workings)
        settings.changed.connect(self._follow)
        self._papers = PaperChoice(settings, "", tr("Paper"), self)
        self._papers.chosen.connect(self._lay)
        self._said = Words("", "caption", self)
        self._said.setObjectName("sheet_said")
        self._print = QuietButton(tr("Print…"), "sheet_print", self)
        self._save = PrimaryButton(tr("Save as PDF…"), "sheet_save", self)
        self._print.clicked.connect(self.ask_print)
        self._save.clicked.connect(self.ask_save)
        self._line = WaitLine("sheet_wait", self)
        self.veil = Veil(self._preview)
        self._line.shown.connect(lambda: self.veil.lower_over(IN_THE_MAKING))
        self._line.cancelled.connect(self._stopped)
        self._line.failed.connect(self._stopped)
        self._writing = WaitLine("sheet_writing", self)
        self._writing.cancelled.connect(lambda: self._said.say(CALLED_OFF, "caption"))
        self._lay_out()
        self._said.say("")

    def show_plan(self, plan: Plan) -> None:
        """Show the sheet of this plan; what it reads of a big one is reckoned beside the window."""
        is_new, self._plan = plan is not self._plan, plan
        if not (self._line.runs and not is_new):
            self._lay()

    def _workings_of(self, key: str) -> "tuple[Working, ...]":
        """How a figure of the sheet that is shown came about."""
        if self._laid is None:
            return ()
        from lawnbook.plan.placed_workings import placed_workings

        return placed_workings(self._book.notebook, self._laid.plan, *parts_of(key))

    def _lay(self) -> None:
        """Lay out the sheet as it is wanted now; of a big yard beside the window's work."""
        plan, notebook, settings = self._plan, self._book.notebook, self._settings
        if plan is None:
            return
        if self._laid is not None and self._laid.is_of(plan, settings) and not self._line.runs:
            self._lay_down(self._laid)
            return
        paper, workings = settings.paper, settings.workings

        def make(stop: Stop) -> Laid:
            keep_every_promise(plan, stop.step)

            def between(done: int, of: int) -> None:
                stop.step(done, of, LAYING_OUT)

            made = sheet_document(notebook, plan, paper, workings=workings, between=between)
            return Laid(plan, paper, workings, *made)

        self._line.do(
            tr("Reckoning what is on the sheet…"),
            make,
            self._lay_down,
            at_once=not takes_long(notebook),
        )

    def _lay_down(self, laid: object) -> None:
        if not isinstance(laid, Laid):
            return
        self._laid = laid
        self.veil.hide()
        self._show(laid)
        asked, self._asked = self._asked, None
        if asked is not None:
            self._put_out(asked)

    def _lay_out(self) -> None:
        out = QWidget(self)
        ways = QHBoxLayout(out)
        ways.setContentsMargins(0, 0, 0, 0)
        ways.setSpacing(8)
        ways.addWidget(self._print)
        ways.addWidget(self._save)
        # Other languages need more room than the page may have.
        row = WrappingRow()
        row.setSpacing(8)
        row.addWidget(self._papers)
        row.addWidget(self._workings)
        row.add_at_end(out)
        self.body.addLayout(row)
        self.body.addWidget(self._line)
        self.body.addWidget(self._writing)
        self.body.addWidget(self._said)
        self.body.addWidget(self._preview)

    def _stopped(self) -> None:
        self._plan = self._asked = self._laid = None
        self.veil.lower_over(STOPPED)

    def _follow(self, _name: str) -> None:
        """The workings were chosen, or left out, on the Settings page."""
        self._workings.setChecked(self._settings.workings)

    def _use_workings(self, wanted: bool) -> None:
        if wanted != self._settings.workings:
            self._settings.workings = wanted
        self._lay()

    def _show(self, laid: Laid) -> None:
        plan = laid.plan
        told = tr(
            "{yard} on {on}: {pages}, {zones}, {things} due",
            yard=plan.yard,
            on=day(plan.on),
            pages=counted(len(laid.draws), "page"),
            zones=counted(len(plan.zones), "zone"),
            things=counted(len(plan.due), "thing"),
        )
        is_long = takes_long(self._book.notebook)
        self._preview.show_pages(laid.draws, laid.paper, told, is_long=is_long)

    def ask_save(self) -> None:
        """Ask where to, and save the sheet there as PDF, once it is laid down."""
        self._put_out(printing.ask_save)

    def ask_print(self) -> None:
        """Ask which printer, and print the sheet, once it is laid down."""
        self._put_out(printing.ask_print)

    def _put_out(self, ask: printing.Ask) -> None:
        if self.waits():
            self._tell(printing.Said(WAITS, "caption"))
        elif self._line.runs:
            self._asked = ask
        elif self._laid is not None:
            printing.put_out(ask, self._writing, self._page(self._laid), self._tell)

    def print_on(self, printer: QPrinter) -> bool:
        """Print the sheet; False, said on the page, where the printer does not begin."""
        if self._laid is None:
            return False
        said = printing.print_on(printer, self._page(self._laid))
        self._tell(said)
        return said.words == printing.SENT

    def _page(self, laid: Laid) -> printing.PageOut:
        stem = file_stem(laid.plan.yard) or self._book.path.stem
        start = self._book.path.with_name(f"{stem} {laid.plan.on.isoformat()}.pdf")
        is_long = takes_long(self._book.notebook) or len(laid.draws) > FEW_PAGES
        return printing.PageOut(laid.title, start, laid.paper, laid.draws, is_long=is_long)

    def _tell(self, said: printing.Said) -> None:
        self._said.say(said.words, said.role)
        if said.role == "good":
            self._step_done()

    def _step_done(self) -> None:
        """The sheet is out: the first step that asks for it is done, where they still lead."""
        book, plan = self._book, self._plan
        if plan is None or book.read_only or not is_under_way(book.notebook, plan):
            return
        book.edit(step_left(book.notebook, "sheet"), tr("first step: {name}", name=tr("the sheet")))
