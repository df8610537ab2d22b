"""Year in review, on the sheet page: water, nitrogen, thatch and cost beside the year before."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.dialogs import file_stem
from lawnbook.desk.film import Veil
from lawnbook.desk.pages.page import beside
from lawnbook.desk.pages.page_section import PageSection
from lawnbook.desk.pages.paper_choice import PaperChoice
from lawnbook.desk.pages.print_row import PrintRow
from lawnbook.desk.pages.sheet_figures import PageFigures
from lawnbook.desk.pages.sheet_preview import PagesPreview
from lawnbook.desk.pages.sheet_review_list import ChangedList
from lawnbook.desk.pages.sheet_review_words import described, figures_shown, year_spoken
from lawnbook.desk.pages.water_figures import FigureRow
from lawnbook.desk.plan_showing import IN_THE_MAKING
from lawnbook.desk.printing import PageOut
from lawnbook.desk.settings import Settings
from lawnbook.desk.wait_line import WaitLine
from lawnbook.desk.widgets import QuietButton, Words, name_control
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.model import Plan
from lawnbook.plan.working_model import Working
from lawnbook.plan.year_review import year_review
from lawnbook.plan.year_review_model import YearReview
from lawnbook.plan.year_review_span import review_years
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.session.planning import takes_long
from lawnbook.sheet.layout import PaperName
from lawnbook.sheet.placed import parts_of
from lawnbook.sheet.review_documents import review_document
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError

STOPPED = tr("Not gone through. Choose the year again.")
OUT = (tr("Print the review…"), tr("Save it as PDF…"))


class ReviewSection(PageSection):
    """A year, chosen by stepping, as it prints; the same in words, and the way to paper."""

    def __init__(
        self, book: OpenNotebook, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._book, self._settings = book, settings
        self._plan: Plan | None = None
        self._year: int | None = None
        self._asked: tuple[Notebook, int, date] | None = None
        self._review: YearReview | None = None
        self.earlier = QuietButton(tr("Year before"), "review_earlier", self)
        self.later = QuietButton(tr("Year after"), "review_later", self)
        self._label = Words("", "figure", self, wrap=False)
        name_control(self._label, "review_year", tr("The year looked at"))
        self._papers = PaperChoice(settings, "review_", tr("Paper"), self)
        self._papers.chosen.connect(self._paint)
        self._compared = Words("", "", self)
        self._compared.setObjectName("review_compared")
        self._working = WorkingLink(tr("all workings"), "review_working", self)
        self._figures = FigureRow("review_figures", tr("The year in a few figures"), self)
        self.changed = ChangedList(self)
        self.preview = PagesPreview("review_preview", tr("The year in review as it prints"), self)
        self.figures = PageFigures(self.preview, self._workings_of)
        self.out = PrintRow("review", OUT, tr("the year in review"), self)
        self.out.paper = lambda: self._settings.paper
        self._line = WaitLine("review_wait", self)
        self._line.shown.connect(lambda: self._set_back(IN_THE_MAKING))
        self._line.cancelled.connect(self._stopped)
        self._line.failed.connect(self._stopped)
        self._lay_out()
        self._working.stand_for(self._compared, self._figures)
        self.earlier.clicked.connect(lambda: self._step(-1))
        self.later.clicked.connect(lambda: self._step(1))

    @property
    def review(self) -> YearReview | None:
        """What is shown."""
        return self._review

    def show_plan(self, plan: Plan) -> None:
        """Show the review as of a plan's day: of the year that was chosen, or the day's own."""
        self._plan = plan
        self._show()

    def _step(self, by: int) -> None:
        years = self._years()
        if self._asked is None or not years:
            return
        wanted = self._asked[1] + by
        # The day's own year is followed as the day moves on; another one stays.
        self._year = None if wanted >= years[-1] else max(wanted, years[0])
        self.out.forget()
        self._show()

    def _years(self) -> tuple[int, ...]:
        return () if self._plan is None else review_years(self._book.notebook, self._plan.on)

    def _show(self) -> None:
        if self._plan is None:
            return
        years, on, notebook = self._years(), self._plan.on, self._book.notebook
        year = years[-1] if self._year is None else min(max(self._year, years[0]), years[-1])
        self.earlier.setEnabled(year > years[0])
        self.later.setEnabled(year < years[-1])
        asked, held = (notebook, year, on), self._asked
        # By identity: a notebook of decades is not compared value by value.
        if held is not None and held[0] is notebook and held[1:] == asked[1:]:
            if not self._line.runs:
                self._paint()
            return
        self._asked = asked
        self.out.setEnabled(False)
        self._line.do(
            tr("Going through the year…"),
            lambda _: year_review(notebook, year, on),
            self._made,
            at_once=not takes_long(notebook),
        )

    def _made(self, outcome: object) -> None:
        if isinstance(outcome, OwnerError):
            self._set_back(str(outcome))
        elif isinstance(outcome, YearReview):
            self._review = outcome
            self.veil.hide()
            self.out.setEnabled(True)
            self._show_review(outcome)

    def _workings_of(self, key: str) -> tuple[Working, ...]:
        """How the figures of a place on the pages came about."""
        if self._review is None:
            return ()
        from lawnbook.plan.placed_workings import named_in

        _, of, _ = parts_of(key)
        return named_in(self._review.workings, of.split("\n"))

    def _set_back(self, words: str) -> None:
        """What is shown is of another year or notebook: it must not look fresh."""
        self._label.setText("…")
        self.veil.lower_over(words)

    def _stopped(self) -> None:
        self._asked = None
        self._set_back(STOPPED)

    def _show_review(self, review: YearReview) -> None:
        self._label.setText(review.span.label)
        self._label.setAccessibleDescription(year_spoken(review))
        self._compared.say(review.compared)
        self._working.set_workings(review.workings)
        self._figures.show_figures(figures_shown(review))
        self.changed.show_sentences(review.changed, review.workings)
        self._paint()

    def _paint(self) -> None:
        if self._review is None:
            return
        paper = self._settings.paper
        notebook = self._book.notebook
        _, draws = review_document(notebook, self._review, paper)
        told, is_long = described(self._review), takes_long(notebook)
        self.preview.show_pages(draws, paper, told, is_long=is_long)
        self.out.show_page(self._page)

    def _page(self, paper: PaperName) -> PageOut:
        review = self._review
        if review is None:
            raise RuntimeError("a year in review is printed before one is shown")
        title, draws = review_document(self._book.notebook, review, paper)
        stem = file_stem(review.yard) or self._book.path.stem
        start = self._book.path.with_name(f"{stem} {review.span.label} in review.pdf")
        is_long = takes_long(self._book.notebook)
        return PageOut(title, start, paper, draws, is_long=is_long)

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(8)
        for each in (self.earlier, self._label, self.later):
            row.addWidget(each, 0, Qt.AlignmentFlag.AlignVCenter)
        row.addStretch(1)
        row.addWidget(self._papers)
        self.body.addLayout(row)
        self.body.addWidget(self._line)
        shown = QWidget(self)
        column = QVBoxLayout(shown)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(self.body.spacing())
        column.addLayout(beside(self._compared, self._working))
        for part in (self._figures, self.changed, self.out, self.preview):
            column.addWidget(part)
        self.veil = Veil(shown)
        self.body.addWidget(shown)
