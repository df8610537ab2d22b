"""Check, on the yard page: what overlaps on the sketch, lies bare or stands astray, with mends."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QHideEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.desk.figures import let_open
from lawnbook.desk.pages import check_words
from lawnbook.desk.pages.check_rows import FaultRow
from lawnbook.desk.pages.water_figures import FigureRow
from lawnbook.desk.pages.yard_section import YardSection
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.view import SketchView
from lawnbook.desk.widgets import Caption, Card, Hairline, QuietButton, Verdict, Words, clear_layout
from lawnbook.plan.ground_workings import sum_working
from lawnbook.plan.model import Plan
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.faults import Fault, Mend
from lawnbook.yard.geometry import bounds_ft, zone_area_sqft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.shape_edits import told
from lawnbook.yard.sketch_check import check_sketch, ground_sums, mend_all, mend_change

MOST_ROWS = 30
"""So many are shown at once, the largest; the others come up as these are mended."""


def drawn_of(notebook: Notebook) -> tuple[object, ...]:
    """What the check looks at, to be compared by identity."""
    return (notebook.zones, notebook.features, notebook.heads, notebook.spots)


class CheckSection(YardSection):
    """What the check of the sketch finds, largest first, each with what shows and mends it."""

    def __init__(
        self, book: OpenNotebook, control: SketchControl, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("yard_check")
        self._book, self._control = book, control
        self._checked: tuple[object, ...] | None = None
        self.faults: tuple[Fault, ...] = ()
        self.rows: list[FaultRow] = []
        self._verdict = Verdict("", self)
        self._verdict.setObjectName("check_verdict")
        self._sums = FigureRow("check_sums", tr("Areas of the sketch"))
        self._found = Card(tr("What was found"), self)
        self._list = QVBoxLayout()
        self._list.setSpacing(8)
        self._more = Caption("", self._found, wrap=True)
        self._more.setObjectName("check_more")
        self.all_button = QuietButton(tr("Mend all that is safe"), "check_mend_all", self._found)
        self.all_button.setAccessibleDescription(check_words.SAFE)
        self._said = Words("", "", self)
        self._said.setObjectName("check_said")
        self._lay_out()
        let_open(self._sum_workings, self._sums)
        self.all_button.clicked.connect(self._mend_all)

    def _sum_workings(self) -> tuple[Working, ...]:
        """How the areas of the sketch add up."""
        zones = self._book.notebook.zones.values()
        areas = [(each.name, zone_area_sqft(each)) for each in zones]
        return (sum_working(tr("Areas of all zones"), areas, tr("its outline, on the sketch")),)

    def show_plan(self, plan: Plan) -> None:
        """Check the sketch anew where what is drawn has changed."""
        now = drawn_of(self._book.notebook)
        if self._checked is not None and all(
            one is other for one, other in zip(now, self._checked, strict=True)
        ):
            return
        self._checked = now
        self._show()

    def retell(self) -> None:
        """Areas and faults in the owner's units."""
        if self._checked is not None:
            self._show()

    def hideEvent(self, event: QHideEvent) -> None:
        """What was shown on the sketch goes with the section."""
        super().hideEvent(event)
        self._end_preview()

    def _show(self) -> None:
        notebook = self._book.notebook
        drawn = bool(notebook.zones)
        self.faults = check_sketch(notebook)
        self._verdict.setText(
            check_words.verdict(self.faults) if drawn else check_words.NOTHING_DRAWN
        )
        self._areas.setVisible(drawn)
        if drawn:
            sums = ground_sums(notebook)
            self._sums.show_figures(check_words.sum_figures(sums, len(notebook.zones)))
        self._fill()

    def _fill(self) -> None:
        clear_layout(self._list)
        self.rows = []
        for number, fault in enumerate(self.faults[:MOST_ROWS]):
            if number:
                self._list.addWidget(Hairline(self._found))
            row = FaultRow(fault, number, self._found)
            row.shown.connect(self._reveal)
            row.wanted.connect(self._mend)
            self._list.addWidget(row)
            self.rows.append(row)
        left = len(self.faults) - len(self.rows)
        self._more.say(
            tr("{left:,} smaller ones come up as these are mended.", left=left) if left else ""
        )
        self._found.setVisible(bool(self.faults))
        safe = [each for each in self.faults if each.mend is not None and each.mend.safe]
        for each in (self.all_button, self._safe_words):
            each.setVisible(len(safe) > 1)

    def _reveal(self, fault: Fault) -> None:
        """Choose what a fault is about, and draw its ground on the sketch, in view."""
        on_sketch = [key for key in fault.keys if self._book.notebook.find(*key) is not None]
        self._control.choose_all(on_sketch)
        self._control.scene.show_preview(fault.rings, wrong=True)
        self._control.say(fault.sentence, "warn")
        for view in self._control.scene.views():
            if isinstance(view, SketchView) and fault.rings:
                view.reveal(bounds_ft(fault.rings))

    def _end_preview(self) -> None:
        self._control.scene.show_preview(())

    def _mend(self, fault: Fault, mend: Mend) -> None:
        at = next((i for i, row in enumerate(self.rows) if row.fault is fault), 0)
        self._end_preview()
        try:
            change = mend_change(self._book.notebook, fault, mend)
        except OwnerError as error:
            self._said.say(str(error), "refuse")
            return
        if self._control.edit(change, mend.words[:1].lower() + mend.words[1:]):
            words = told(change) or tr("Done; undo brings it back.")
            self._said.say(words, "good")
            self._control.say(words, "good")
            self._focus_near(at)

    def _mend_all(self) -> None:
        self._end_preview()
        change, count = mend_all(self._book.notebook)
        if not change or self._control.edit(change, tr("mend the sketch")):
            left = sum(not each.only_told for each in check_sketch(self._book.notebook))
            self._said.say(check_words.mended_words(count, left), "good" if count else "warn")
            self._focus_near(0)

    def _focus_near(self, at: int) -> None:
        """The keyboard goes on where it was: to the row that took the mended one's place."""
        row = self.rows[min(at, len(self.rows) - 1)] if self.rows else None
        if row is not None:
            target = row.buttons[0] if row.buttons else row.show_link
            target.setFocus(Qt.FocusReason.OtherFocusReason)

    def _lay_out(self) -> None:
        self._safe_words = Caption(check_words.SAFE, self._found, wrap=True)
        self._safe_words.setObjectName("check_safe")
        self._found.body.addLayout(self._list)
        self._found.body.addWidget(self._more)
        self._found.body.addWidget(Hairline(self._found))
        self._found.body.addWidget(self.all_button, 0, Qt.AlignmentFlag.AlignLeft)
        self._found.body.addWidget(self._safe_words)
        self._found.body.addWidget(Caption(check_words.HELP, self._found, wrap=True))
        areas = Card(tr("Ground"), self)
        areas.body.addWidget(self._sums)
        self._areas = areas
        for each in (self._verdict, self._said, areas, self._found):
            self.body.addWidget(each)
        self._said.hide()
