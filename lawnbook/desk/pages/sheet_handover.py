"""Hand over, on the sheet page: one file for the next owner or an adviser."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QGridLayout,
    QHBoxLayout,
    QVBoxLayout,
    QWidget,
)

from lawnbook.desk.dialogs import choose_handover, file_stem
from lawnbook.desk.handover_run import Ended, HandoverRun
from lawnbook.desk.pages.handover_words import (
    NAMES_HINT,
    PHOTOS_HINT,
    PLACE_HINT,
    Part,
    Sizes,
    ended_told,
    parts_of,
    parts_written,
    progress_told,
    remains_told,
)
from lawnbook.desk.pages.page_section import PageSection
from lawnbook.desk.pages.paper_choice import PaperChoice
from lawnbook.desk.settings import Settings
from lawnbook.desk.wait_dialog import WAITS
from lawnbook.desk.widgets import (
    Caption,
    Card,
    OneLine,
    PrimaryButton,
    QuietButton,
    Words,
    clear_layout,
    name_control,
)
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.sheet.handover import Wants
from lawnbook.store.handover_book import pictures_size

INTRO = tr(
    "One zip for the next owner or an adviser. In it are ordinary files that "
    "anyone can open; Lawnbook opens it again as a notebook."
)
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop


class HandoverSection(PageSection):
    """What will be in the file, what is left out of it, and the way to it."""

    def __init__(
        self, book: OpenNotebook, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("handover_section")
        self._book, self._settings = book, settings
        self._plan: Plan | None = None
        self._run = HandoverRun(self)
        self._list = QGridLayout()
        self._names = _box(tr("Leave names out"), "handover_without_names", NAMES_HINT, self)
        self._place = _box(tr("Leave the place out"), "handover_without_place", PLACE_HINT, self)
        self._photos = _box(tr("Leave pictures out"), "handover_without_photos", PHOTOS_HINT, self)
        self._left = Caption("", self, wrap=True)
        self._left.setObjectName("handover_left_out")
        self._save = PrimaryButton(tr("Save the handover…"), "handover_save", self)
        self._give_up = QuietButton(tr("Give up"), "handover_give_up", self)
        self._progress = OneLine("", self)
        self._progress.setObjectName("handover_progress")
        self._said = Words("", "caption", self)
        self._said.setObjectName("handover_said")
        self._lay_out()
        self._listen()
        self._show_running(is_running=False)
        self._said.say("")

    @property
    def wants(self) -> Wants:
        """What is chosen."""
        return Wants(
            paper=self._settings.paper,
            names=not self._names.isChecked(),
            location=not self._place.isChecked(),
            photos=not self._photos.isChecked(),
        )

    def show_plan(self, plan: Plan) -> None:
        """Show what would be handed over as of the day of a plan."""
        self._plan = plan
        self._refresh()

    def ask_save(self) -> None:
        """Ask where to, and begin to write the handover there."""
        if self._run.is_running:
            return
        # Before the section has seen its first plan too: a press is never without an answer.
        if self.waits():
            self._said.say(WAITS, "caption")
            return
        plan = self._plan
        if plan is None:
            return
        wants = self.wants
        stem = "handover" if not wants.names else f"{file_stem(plan.yard)} handover".strip()
        start = self._book.path.with_name(f"{stem} {plan.on.isoformat()}.zip")
        path = choose_handover(self, start)
        if path is not None:
            self._said.say("")
            self._show_running(is_running=True)
            self._run.start(self._book, plan, path, wants)

    def finish(self) -> None:
        """Leave off what is being written, and wait for its thread."""
        self._run.finish()

    def _lay_out(self) -> None:
        self.body.addWidget(Words(INTRO, "", self))
        inside = Card(tr("What is in it"), self)
        self._list.setHorizontalSpacing(16)
        self._list.setVerticalSpacing(4)
        self._list.setColumnStretch(1, 1)
        inside.body.addLayout(self._list)
        self.body.addWidget(inside)
        choices = Card(tr("What is left out"), self)
        for box, hint in (
            (self._names, NAMES_HINT),
            (self._place, PLACE_HINT),
            (self._photos, PHOTOS_HINT),
        ):
            choices.body.addLayout(_with_hint(box, hint))
        choices.body.addWidget(self._left)
        self.body.addWidget(choices)
        self.body.addLayout(self._paper_row())
        self.body.addLayout(self._progress_row())
        self.body.addWidget(self._said)

    def _paper_row(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(PaperChoice(self._settings, "handover_", tr("Paper of the documents:"), self))
        row.addStretch(1)
        row.addWidget(self._save)
        return row

    def _progress_row(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self._progress, 1)
        row.addWidget(self._give_up)
        return row

    def _listen(self) -> None:
        self._save.clicked.connect(self.ask_save)
        self._give_up.clicked.connect(self._run.give_up)
        self._run.went_on.connect(self._went_on)
        self._run.ended.connect(self._ended)
        for box in (self._names, self._place, self._photos):
            box.toggled.connect(self._refresh)

    def _refresh(self) -> None:
        """List what would be in the file now; what became of an earlier one is old news."""
        if self._plan is None or self._run.is_running:
            return
        path = self._book.path
        book = path.stat().st_size if path.exists() else 0
        sizes = Sizes(book, pictures_size(path))
        self._show_parts(parts_of(self._book.notebook, self._plan, self.wants, sizes))
        self._left.say(remains_told(self.wants))
        self._said.say("")

    def _show_parts(self, parts: Sequence[Part]) -> None:
        clear_layout(self._list)
        for row, part in enumerate(parts):
            what, held = Words(part.what, "", self, wrap=False), Caption(part.held, self, wrap=True)
            self._list.addWidget(what, row, 0, Qt.AlignmentFlag.AlignTop)
            self._list.addWidget(held, row, 1)
            self._list.addWidget(Caption(part.size, self), row, 2, _RIGHT)

    def _show_running(self, *, is_running: bool) -> None:
        self._save.setEnabled(not is_running)
        for each in (self._progress, self._give_up):
            each.setVisible(is_running)

    def _went_on(self, name: str, done: int, of: int) -> None:
        self._progress.setText(progress_told(name, done, of))

    def _ended(self, ended: Ended) -> None:
        self._show_running(is_running=False)
        if not ended.refused:
            self._show_parts(parts_written(ended))
        self._said.say(ended_told(ended), "refuse" if ended.refused else "good")


def _box(words: str, name: str, hint: str, parent: QWidget) -> QCheckBox:
    box = QCheckBox(words, parent)
    name_control(box, name, words, hint)
    return box


def _with_hint(box: QCheckBox, hint: str) -> QVBoxLayout:
    column = QVBoxLayout()
    column.setSpacing(0)
    words = Caption(hint, wrap=True)
    words.setIndent(26)
    column.addWidget(box)
    column.addWidget(words)
    return column
