"""Plan, on the sheet page: the printed page as it will be, its paper, the way to printer or PDF."""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPixmap
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QSizePolicy, QWidget

from lawnbook.desk import printing
from lawnbook.desk.dialogs import file_stem
from lawnbook.desk.pages.page_section import PageSection
from lawnbook.desk.settings import Paper, Settings
from lawnbook.desk.theme import colour
from lawnbook.desk.widgets import (
    Caption,
    PrimaryButton,
    QuietButton,
    Words,
    name_control,
)
from lawnbook.plan.model import Plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.sheet.documents import sheet_title
from lawnbook.sheet.layout import paper_size_pt
from lawnbook.sheet.page import draw_page
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day

PAPERS: tuple[tuple[Paper, str], ...] = (("letter", "Letter"), ("a4", "A4"))
SHADOW_PX = 6


class SheetPreview(QWidget):
    """The sheet, as large as fits; painted by the same function as the printed one."""

    def __init__(self, paper: Paper, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._paper = paper
        self._drawn: tuple[Notebook, Plan] | None = None
        self._picture: QPixmap | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        name_control(self, "sheet_preview", "Preview of the sheet")

    def sizeHint(self) -> QSize:
        """Room enough to read the headings."""
        return QSize(480, 620)

    def show_sheet(self, notebook: Notebook, plan: Plan, paper: Paper) -> None:
        """Show the sheet of a plan on a paper."""
        self._drawn, self._paper, self._picture = (notebook, plan), paper, None
        self.setAccessibleDescription(
            f"{plan.yard} on {day(plan.on)}: {len(plan.zones)} zones, {len(plan.due)} things due"
        )
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the page with a soft shadow; the drawing is kept until something changes."""
        if self._drawn is None:
            return
        box = self._page_box()
        wanted = (box.size() * self.devicePixelRatioF()).toSize()
        if self._picture is None or self._picture.size() != wanted:
            self._picture = self._draw(wanted, *self._drawn)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        for spread, alpha in ((5.0, 0.04), (2.0, 0.08), (1.0, 0.12)):
            painter.setBrush(colour("#000000", alpha))
            painter.drawRoundedRect(box.adjusted(-spread / 2, 0, spread / 2, spread), 2, 2)
        painter.drawPixmap(box, self._picture, QRectF(self._picture.rect()))

    def _page_box(self) -> QRectF:
        width, height = paper_size_pt(self._paper)
        room = QRectF(self.rect()).adjusted(SHADOW_PX, 2, -SHADOW_PX, -SHADOW_PX)
        scale = min(room.width() / width, room.height() / height)
        size = QRectF(0, 0, int(width * scale), int(height * scale))
        size.moveTo(int(room.center().x() - size.width() / 2), int(room.top()))
        return size

    def _draw(self, size: QSize, notebook: Notebook, plan: Plan) -> QPixmap:
        picture = QPixmap(size)
        painter = QPainter(picture)
        width, height = paper_size_pt(self._paper)
        painter.scale(size.width() / width, size.height() / height)
        draw_page(painter, notebook, plan, self._paper)
        painter.end()
        return picture


class PlanSection(PageSection):
    """Preview, paper, Print and Save as PDF."""

    def __init__(
        self, book: OpenNotebook, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._book, self._settings = book, settings
        self._plan: Plan | None = None
        self._preview = SheetPreview(settings.paper, self)
        self._said = Words("", "caption", self)
        self._said.setObjectName("sheet_said")
        self._print = QuietButton("Print…", "sheet_print", self)
        self._save = PrimaryButton("Save as PDF…", "sheet_save", self)
        self._print.clicked.connect(self.ask_print)
        self._save.clicked.connect(self.ask_save)
        self._lay_out()
        self._said.say("")

    def show_plan(self, plan: Plan) -> None:
        """Show the sheet of this plan."""
        self._plan = plan
        self._preview.show_sheet(self._book.notebook, plan, self._settings.paper)

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(Caption("Paper"))
        group = QButtonGroup(self)
        for paper, words in PAPERS:
            button = QuietButton(words, f"paper_{paper}", self)
            button.setCheckable(True)
            button.setChecked(paper == self._settings.paper)
            button.setAccessibleName(f"Paper {words}")
            button.clicked.connect(lambda _=False, paper=paper: self._use(paper))
            group.addButton(button)
            row.addWidget(button)
        row.addStretch(1)
        row.addWidget(self._print)
        row.addWidget(self._save)
        self.body.addLayout(row)
        self.body.addWidget(self._said)
        self.body.addWidget(self._preview, 1)

    def _use(self, paper: Paper) -> None:
        self._settings.paper = paper
        if self._plan is not None:
            self._preview.show_sheet(self._book.notebook, self._plan, paper)

    def ask_save(self) -> None:
        """Ask where to, and save the sheet there as PDF."""
        if self._plan is not None:
            self._tell(printing.ask_save(self, self._page(self._plan)))

    def ask_print(self) -> None:
        """Ask which printer, and print the sheet."""
        if self._plan is not None:
            self._tell(printing.ask_print(self, self._page(self._plan)))

    def print_on(self, printer: QPrinter) -> bool:
        """Print the sheet; False, said on the page, where the printer does not begin."""
        if self._plan is None:
            return False
        said = printing.print_on(printer, self._page(self._plan))
        self._tell(said)
        return said.words == printing.SENT

    def _page(self, plan: Plan) -> printing.PageOut:
        notebook, paper = self._book.notebook, self._settings.paper
        stem = file_stem(plan.yard) or self._book.path.stem
        return printing.PageOut(
            sheet_title(plan),
            self._book.path.with_name(f"{stem} {plan.on.isoformat()}.pdf"),
            paper,
            lambda painter: draw_page(painter, notebook, plan, paper),
        )

    def _tell(self, said: printing.Said | None) -> None:
        if said is not None:
            self._said.say(said.words, said.role)
