"""The dialog of earlier copies: what each holds, how it differs from now, and the ways back."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from PySide6.QtCore import QSize, Qt, QUrl, Signal
from PySide6.QtGui import QDesktopServices, QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QDialog, QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.beside import Beside
from lawnbook.desk.pages.marks_view import MarksView
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.theme import px
from lawnbook.desk.widgets import (
    Caption,
    Heading,
    LinkButton,
    PageScroll,
    PrimaryButton,
    QuietButton,
    Words,
    name_control,
)
from lawnbook.frozen import dataclass
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.store.backups import EarlierCopy, copies_of, made_told
from lawnbook.store.glance import Glance, glance
from lawnbook.store.sqlite_store import load
from lawnbook.yard.compared import TableDifference, differences
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import SINGLES, TITLES

ABOUT = tr(
    "A copy is kept of each of the last ten sessions in which something changed, "
    "of each of the last twelve months, and of every year."
)
NONE_YET = tr(
    "There is no earlier copy of this notebook yet. The first is kept when it is "
    "closed after an edit."
)
SAME = tr("It holds just what the notebook holds now.")
_LIST_HEADS = (
    tr("Kept on"),
    tr("Zones"),
    tr("Plugs"),
    tr("Feedings"),
    tr("Waterings"),
    tr("Latest entry"),
    tr("Size"),
)
_DIFFERENCE_HEADS = (tr("If taken back"), tr("Come back"), tr("Change"), tr("Go"))
_SKETCH_PT = 150.0
_SIZE = (1120, 640)
_TWO_COLUMNS_PX = 900
"""From this width on, in the owner's size of text, what a copy holds stands beside the list."""


@dataclass(frozen=True, slots=True)
class Seen:
    """A copy that was read: its notebook, its plan for the sketch, and how it differs from now."""

    copy: EarlierCopy
    notebook: Notebook
    plan: Plan
    differs: tuple[TableDifference, ...] | None


class EarlierCopies(QDialog):
    """Lists the copies of a notebook. `opened` and `taken_back` carry what was seen of one.

    `now` brings the notebook as it stands; None for one that cannot be opened, which then cannot
    be compared, nor anything be taken back into it.
    """

    opened = Signal(object)
    taken_back = Signal(object)

    def __init__(
        self,
        path: Path,
        root: Path,
        now: Callable[[], Notebook] | None,
        today: date,
        parent: QWidget,
    ) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Earlier copies"))
        name_control(self, "earlier_copies", tr("Earlier copies of {name}", name=path.name))
        self._path, self._root, self._now, self._today = path, root, now, today
        self._copies: dict[str, EarlierCopy] = {}
        self._seen: Seen | None = None
        self._beside = Beside(self)
        self._make_parts()
        self._lay_out()
        self._show_none(tr("Reading…"))
        self._beside.start(lambda _: _listed(path, root), self._fill)

    def done(self, result: int) -> None:
        """Close; what is being read is waited for no more."""
        self._beside.let_go()
        super().done(result)

    def say(self, words: str) -> None:
        """Say how taking back goes, in the place of what the copy holds."""
        self._show_none(words, self.title.text())

    def _make_parts(self) -> None:
        names = ("earlier_list", tr("Earlier copies, the newest first"))
        self.list = RecordTable(_LIST_HEADS, names, (0, 5), 14, self)
        self.list.picked.connect(self._look_at)
        self.list.opened.connect(lambda _: self._open())
        self.sketch = MarksView("earlier_sketch", tr("The sketch in this copy"), self)
        self.title = Heading("")
        self.title.setObjectName("earlier_title")
        self.words = Words("", "", self)
        self.words.setObjectName("earlier_words")
        heads = ("earlier_differences", tr("What taking it back would do, table by table"))
        self.table = RecordTable(_DIFFERENCE_HEADS, heads, (0,), 9, self)
        self.table.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.open_button = PrimaryButton(tr("Open as a new notebook"), "earlier_open", self)
        self.back_button = QuietButton(tr("Take it back here"), "earlier_back", self)
        self.close_button = QuietButton(tr("Close"), "earlier_close", self)
        self.folder_button = LinkButton(tr("Open their folder"), "earlier_folder", self)
        self.open_button.clicked.connect(self._open)
        self.back_button.clicked.connect(self._take_back)
        self.close_button.clicked.connect(self.reject)
        self.folder_button.clicked.connect(self._open_folder)

    def _lay_out(self) -> None:
        left, right = QVBoxLayout(), QVBoxLayout()
        for column in (left, right):
            column.setSpacing(8)
        left.addWidget(Words(tr("Earlier copies of {name}", name=self._path.name), "title", self))
        left.addWidget(Caption(ABOUT, self, wrap=True))
        left.addWidget(self.list)
        left.addWidget(self.folder_button, 0, Qt.AlignmentFlag.AlignLeft)
        left.addStretch(1)
        for each in (self.title, self.words, self.sketch, self.table):
            right.addWidget(each)
        right.addStretch(1)
        columns = self._columns = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        columns.setSpacing(24)
        columns.addLayout(left, 5)
        columns.addLayout(right, 4)
        scroll = PageScroll(self)
        scroll.body.addLayout(columns, 1)
        buttons = QHBoxLayout()
        buttons.setSpacing(8)
        buttons.addWidget(self.back_button)
        buttons.addStretch(1)
        buttons.addWidget(self.close_button)
        buttons.addWidget(self.open_button)
        page = QVBoxLayout(self)
        page.setContentsMargins(24, 18, 24, 18)
        page.setSpacing(14)
        page.addWidget(scroll, 1)
        page.addLayout(buttons)
        room = self.screen().availableGeometry().size()
        self.resize(QSize(px(_SIZE[0]), px(_SIZE[1])).boundedTo(room))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """List and copy stand side by side where there is room for both."""
        super().resizeEvent(event)
        two = self.width() >= px(_TWO_COLUMNS_PX)
        beside, below = QBoxLayout.Direction.LeftToRight, QBoxLayout.Direction.TopToBottom
        self._columns.setDirection(beside if two else below)

    def _fill(self, listed: object) -> None:
        rows = []
        for copy, held in listed if isinstance(listed, list) else ():
            self._copies[str(copy.path)] = copy
            rows.append(
                Row(
                    str(copy.path),
                    _cells(copy, held),
                    tr("Kept on {made_told}", made_told=made_told(copy.made)),
                )
            )
        self.list.show_rows(rows)
        self.folder_button.setEnabled(bool(rows))
        if not rows:
            self._show_none(NONE_YET)
            self.close_button.setFocus()
            return
        self.list.setFocus()
        self.list.pick(rows[0].record_id)
        self._look_at(rows[0].record_id)

    def _look_at(self, record_id: str) -> None:
        copy = self._copies[record_id]
        self._show_none(tr("Reading…"), made_told(copy.made))
        now = self._now() if self._now is not None else None
        today = self._today
        self._beside.let_go()
        self._beside.start(lambda _: _read(copy, now, today), self._show)

    def _show(self, outcome: object) -> None:
        picked = self._copies.get(self.list.picked_id())
        if isinstance(outcome, OwnerError):
            self._show_none(str(outcome))
        elif isinstance(outcome, Seen) and outcome.copy == picked:
            self._show_seen(outcome)

    def _show_none(self, words: str, title: str = "") -> None:
        self._seen = None
        self.title.say(title)
        self.words.say(words)
        self.sketch.hide()
        self.table.hide()
        self.open_button.setEnabled(False)
        self.back_button.setEnabled(False)

    def _show_seen(self, seen: Seen) -> None:
        from lawnbook.charts.sketch_marks import sketch_marks
        from lawnbook.charts.told_sketch import sketch_summary

        self._seen = seen
        notebook, plan = seen.notebook, seen.plan
        name = notebook.yard.name or tr("Unnamed yard")
        self.sketch.show_picture(
            lambda frame: sketch_marks(notebook, plan, frame=frame),
            sketch_summary(notebook),
            _SKETCH_PT,
        )
        self.sketch.show()
        self.words.say(SAME if seen.differs == () else name)
        rows = [Row(each.table, _difference_cells(each)) for each in seen.differs or ()]
        self.table.show_rows(rows)
        self.table.setVisible(bool(rows))
        self.open_button.setEnabled(True)
        self.back_button.setEnabled(bool(seen.differs))

    def _open(self) -> None:
        if self._seen is not None:
            self.opened.emit(self._seen)

    def _take_back(self) -> None:
        """Undo takes it back, and the notebook as it is now becomes a copy: nothing is asked."""
        if self._seen is not None:
            self.taken_back.emit(self._seen)

    def _open_folder(self) -> None:
        for copy in list(self._copies.values())[:1]:
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(copy.path.parent)))


def size_told(size_bytes: int) -> str:
    """A file's size in the unit that suits it."""
    if size_bytes >= 2**20:
        return f"{size_bytes / 2**20:,.1f} MB"
    return f"{max(1, round(size_bytes / 2**10)):,} KB"


def _read(copy: EarlierCopy, now: Notebook | None, today: date) -> Seen:
    notebook = load(copy.path)
    plan = make_plan(notebook, today)
    return Seen(copy, notebook, plan, None if now is None else differences(now, notebook))


def _listed(path: Path, root: Path) -> list[tuple[EarlierCopy, Glance | None]]:
    return [(copy, glance(copy.path)) for copy in copies_of(path, root)]


def _cells(copy: EarlierCopy, held: Glance | None) -> tuple[str, ...]:
    size = size_told(copy.size_bytes)
    if held is None:
        return (made_told(copy.made), "–", "–", "–", "–", tr("cannot be read"), size)
    counts = (held.zones, held.plugs, held.feedings, held.waterings)
    latest = day(held.latest) if held.latest else tr("none")
    return (made_told(copy.made), *(f"{each:,}" for each in counts), latest, size)


def _difference_cells(each: TableDifference) -> tuple[str, ...]:
    if each.table in SINGLES:
        return (tr(TITLES[each.table]), "", tr("yes"), "")
    counts = (each.added, each.changed, each.removed)
    return (tr(TITLES[each.table]), *(f"{count:,}" if count else "" for count in counts))
