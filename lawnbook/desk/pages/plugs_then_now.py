"""Then and now, on the plugs page: two days of one spot, in photographs, columns and figures."""

from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.charts.pair import pair_marks
from lawnbook.desk.dialogs import file_stem
from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages import then_now_words
from lawnbook.desk.pages.marks_view import MarksView
from lawnbook.desk.pages.page import beside
from lawnbook.desk.pages.photo_pair_view import PhotoPairView
from lawnbook.desk.pages.place_picker import spots_at
from lawnbook.desk.pages.print_row import PrintRow
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.pages.water_sections import Section
from lawnbook.desk.printing import PageOut
from lawnbook.desk.widgets import (
    Caption,
    LinkButton,
    Verdict,
    Words,
    clear_layout,
    name_control,
)
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import DayPlugs, Place, ThenNow
from lawnbook.plan.then_now import plug_days, then_and_now, usual_then
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.sheet.documents import then_now_document
from lawnbook.sheet.layout import PaperName
from lawnbook.sheet.photo_pair import best_photo, pair_of
from lawnbook.sheet.then_now_figures import figure_lines
from lawnbook.sheet.then_now_page import day_photos
from lawnbook.yard.numbers import day
from lawnbook.yard.record_plug import Photo

COLUMNS_PT = 250.0
LEFT = Qt.AlignmentFlag.AlignLeft
HEADS = ("", tr("Then"), tr("Now"), tr("Change"))
OUT = (tr("Print this page…"), tr("Save it as PDF…"))


class DayChoice(ChoiceBox):
    """One of the days with plugs; `day` is the chosen one."""

    def __init__(self, object_name: str, spoken: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, object_name, spoken)
        self.setMinimumContentsLength(12)
        self._days: tuple[date, ...] = ()

    @property
    def day(self) -> date:
        """The chosen day. IndexError before any was offered."""
        return self._days[max(self.currentIndex(), 0)]

    def offer(self, days: tuple[date, ...], chosen: date) -> None:
        """Offer days, one of them chosen. Tells nobody."""
        if days != self._days:
            self._days = days
            self.clear()
            self.addItems([day(each) for each in days])
        self.setCurrentIndex(days.index(chosen))


class ThenNowSection(Section):
    """Two days of a spot side by side. `selected` tells the spot that the owner turned to."""

    selected = Signal(str, str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._spot_id = ""
        self._plan: Plan | None = None
        self._days: tuple[DayPlugs, ...] = ()
        self._chosen: dict[str, tuple[date, date]] = {}
        self._photos_shown: tuple[Photo | None, Photo | None] | None = None
        self._said_of_scale = ""
        self._offered: tuple[tuple[str, str], ...] = ()
        self._empty = Words("", "", self)
        self._empty.setObjectName("then_now_empty")
        self._links = QVBoxLayout()
        self._links.setSpacing(2)
        self._pair = QWidget(self)
        self.then = DayChoice("then_day", tr("Then: the earlier day"), self._pair)
        self.now = DayChoice("now_day", tr("Now: the later day"), self._pair)
        self._verdict = Verdict("", self._pair)
        name_control(self._verdict, "then_now_verdict", tr("The difference, and how sure it is"))
        self._working = WorkingLink(tr("working"), "then_now_working", self._pair)
        self._more = Words("", "", self._pair)
        self._more.setObjectName("then_now_words")
        self._photos = PhotoPairView("then_now_photos", self._pair)
        self._photo_words = Caption("", self._pair, wrap=True)
        self._photo_words.setObjectName("then_now_photo_words")
        self._columns = MarksView("then_now_columns", tr("Columns of then and now"), self._pair)
        self._table = RecordTable(
            HEADS, ("then_now_figures", tr("Figures of then and now")), (0,), 12, self._pair
        )
        self._done = Words("", "", self._pair)
        self._done.setObjectName("then_now_done")
        self.out = PrintRow("then_now", OUT, tr("then and now of this spot"), self._pair)
        self._lay_out()
        self._working.stand_for(self._verdict, self._more, self._columns, self._table)
        self.then.activated.connect(lambda _: self._choose(self.then.day, self.now.day))
        self.now.activated.connect(lambda _: self._choose(self.then.day, self.now.day))

    def show_plan(self, plan: Plan, place: Place) -> None:
        """Show a spot's two days; a zone or the yard offers its spots."""
        self._plan = plan
        spot_id = place.id if place.kind == "spot" else ""
        if spot_id != self._spot_id:
            self.out.forget()
        self._spot_id = spot_id
        self._days = plug_days(self._book.notebook, spot_id, plan.on) if spot_id else ()
        several = len(self._days) > 1
        self._pair.setVisible(several)
        if several or spot_id:
            self._offer(())
        if several:
            self._empty.say("")
            self._show_pair(*self._days_chosen())
        elif spot_id:
            self._empty.say(then_now_words.too_few(self._days))
        else:
            self._offer_spots(plan, place)

    def _offer_spots(self, plan: Plan, place: Place) -> None:
        notebook = self._book.notebook
        spots = spots_at(notebook, place)
        self._empty.say(then_now_words.pick_words(notebook, place, len(spots)))
        days = {each.id: len(plug_days(notebook, each.id, plan.on)) for each in spots}
        self._offer(
            tuple(
                (each.id, then_now_words.link_words(notebook, each.id, days[each.id], place))
                for each in spots
            )
        )

    def _offer(self, links: tuple[tuple[str, str], ...]) -> None:
        """Links to spots; those that stand already keep the keyboard."""
        if links == self._offered:
            return
        self._offered = links
        clear_layout(self._links)
        for spot_id, words in links:
            link = LinkButton(words, f"then_now_to_{spot_id}", self)
            link.clicked.connect(lambda _=False, to=spot_id: self.selected.emit("spots", to))
            self._links.addWidget(link, 0, LEFT)

    def _days_chosen(self) -> tuple[date, date]:
        """The two days the owner chose for this spot, the first read and the latest else."""
        there = [each.date for each in self._days]
        usual = usual_then(self._days), there[-1]
        then, now = self._chosen.get(self._spot_id, usual)
        return (then, now) if then in there and now in there and then < now else usual

    def _choose(self, then: date, now: date) -> None:
        """Show two days; a later "then" takes the latest day as its "now"."""
        now = now if now > then else self._days[-1].date
        self._chosen[self._spot_id] = then, now
        self.out.forget()
        self._show_pair(then, now)

    def _show_pair(self, then: date, now: date) -> None:
        there = tuple(each.date for each in self._days)
        self.then.offer(there[:-1], then)
        self.now.offer(tuple(each for each in there if each > then), now)
        pair = then_and_now(self._book.notebook, self._spot_id, then, now)
        self._say(pair)
        self._show_photos(pair)
        self._show_figures(pair)
        self.out.show_page(lambda paper: self._page(pair, paper))

    def _say(self, pair: ThenNow) -> None:
        first, *rest = pair.words or ("",)
        self._verdict.setText(first)
        self._working.set_workings(pair.workings)
        self._more.say("\n".join(rest))
        done = [then_now_words.care_line(each) for each in pair.done_between]
        self._done.say("\n".join(done) or then_now_words.NOTHING_DONE)

    def _show_photos(self, pair: ThenNow) -> None:
        """The photographs are read anew only where they are others: it takes a while."""
        notebook = self._book.notebook
        of_days = [day_photos(notebook, each) for each in (pair.then, pair.now)]
        then, now = (best_photo(each) for each in of_days)
        some = then is not None or now is not None
        self._photos.setVisible(some)
        if not some:
            self._photos_shown = None
            self._photo_words.say(then_now_words.NO_PHOTO)
            return
        if (then, now) != self._photos_shown:
            self._photos_shown = then, now
            shown = pair_of(then, now)
            self._said_of_scale = shown.words
            self._photos.show_pair(shown, shown.words)
        more = then_now_words.photo_words(len(of_days[0]), len(of_days[1]))
        self._photo_words.say(f"{self._said_of_scale} {more}".strip())

    def _show_figures(self, pair: ThenNow) -> None:
        lines = figure_lines(self._book.notebook, pair)
        self._columns.show_picture(
            lambda frame: pair_marks(pair.then.columns, pair.now.columns, frame),
            then_now_words.described(pair, lines),
            COLUMNS_PT,
        )
        rows = [
            Row(each.name, cells, ", ".join(cell for cell in cells if cell))
            for each in lines
            for cells in ((each.name, each.then, each.now, each.change),)
        ]
        self._table.show_rows(rows)
        self._table.updateGeometry()

    def _page(self, pair: ThenNow, paper: PaperName) -> PageOut:
        title, draw = then_now_document(self._book.notebook, pair, paper)
        days = tr(
            "{then} and {now}",
            then=pair.then.date.isoformat(),
            now=pair.now.date.isoformat(),
        )
        start = self._book.path.with_name(f"{file_stem(pair.spot) or 'spot'} {days}.pdf")
        # Its photographs are read anew, as fine as paper needs them.
        return PageOut(title, start, paper, draw, is_long=True)

    def _lay_out(self) -> None:
        days = QHBoxLayout()
        days.setSpacing(8)
        for name, box in ((tr("Then"), self.then), (tr("Now"), self.now)):
            days.addWidget(Caption(name))
            days.addWidget(box)
            days.addSpacing(8)
        days.addStretch(1)
        column = QVBoxLayout(self._pair)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(10)
        column.addLayout(days)
        column.addLayout(beside(self._verdict, self._working))
        column.addWidget(self._more)
        for part in (self._photos, self._photo_words, self._columns, self._table):
            column.addWidget(part)
        column.addWidget(Words(tr("Done between"), "heading", self._pair, wrap=False))
        column.addWidget(self._done)
        column.addWidget(self.out)
        self.body.addWidget(self._empty)
        self.body.addLayout(self._links)
        self.body.addWidget(self._pair)
