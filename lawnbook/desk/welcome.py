"""The first page: begin a yard, go on with one, or look into an invented one."""

import json
from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QHBoxLayout,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from lawnbook.desk.clipboard import one_file_in
from lawnbook.desk.dialogs import choose_folder
from lawnbook.desk.leaf_links import LeafLinks
from lawnbook.desk.roles import hear_as
from lawnbook.desk.settings import Settings
from lawnbook.desk.spread import paint_desk
from lawnbook.desk.theme import px, sized
from lawnbook.desk.turf_strip import TurfStrip
from lawnbook.desk.widgets import (
    Caption,
    Card,
    Heading,
    LinkButton,
    OneLine,
    PageScroll,
    PrimaryButton,
    QuietButton,
    TextField,
    Words,
    clear_layout,
    name_control,
)
from lawnbook.reading import tr
from lawnbook.store.files import NOTEBOOK_SUFFIX, YARD_SUFFIX
from lawnbook.store.handover_names import HANDOVER_SUFFIX
from lawnbook.store.sqlite_store import yard_name
from lawnbook.yard.places import sample_yards

PURPOSE = tr(
    "A notebook for repairing an irrigated lawn. Draw the zones, pull a plug now "
    "and then on fixed spots, and see whether deep, seldom water and slow feeding "
    "work."
)

_OPENED = (NOTEBOOK_SUFFIX, YARD_SUFFIX, HANDOVER_SUFFIX)
"""Files that may be dropped on the page."""

LEAST_RECENT_PX = 104
"""Room for two recent notebooks; more than fit are reached by scrolling."""
PURPOSE_PX = 720
TWO_COLUMNS_PX = 700
"""From this width on, in the owner's size of text, the cards stand in two columns."""
TURF_FROM_PX = 600
"""A page that is lower, in the owner's size of text, has no room to spare for the turf."""


class WelcomeWindow(QWidget):
    """Asks for one of three things and says so by signal; it opens no file itself."""

    new_asked = Signal(str)
    open_asked = Signal()
    path_asked = Signal(object)
    sample_asked = Signal(object)

    def __init__(self, settings: Settings, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.settings = settings
        hear_as(self, "Window")
        self.setObjectName("welcome_window")
        self.setWindowTitle(tr("Lawnbook"))
        self.name_field = TextField(self)
        self._folder_words = OneLine("", self)
        self._problem = Words("", "refuse", self)
        self._problem.setObjectName("welcome_problem")
        self._recent = PageScroll(self)
        self._lay_out()
        self.refresh()
        self._problem.say("")
        room = self.screen().availableGeometry().size()
        self.setMinimumSize(QSize(px(920), 620).boundedTo(room))
        self.resize(QSize(px(1000), px(700)).boundedTo(room))
        self.setAcceptDrops(True)

    def refresh(self) -> None:
        """List the recent notebooks and the folder as they are now."""
        self._folder_words.setText(tr("It will be kept in {folder}", folder=self.settings.folder))
        rows = self._recent.body
        clear_layout(rows)
        paths = self.settings.recent
        listed: list[QWidget] = [self._recent_row(path) for path in paths]
        none = tr("Notebooks you open will stand here.")
        # Once the page is up, what does not show yet would have no height for its layout.
        for row in listed or [Caption(none, self)]:
            rows.addWidget(row)
            row.show()
        whole = rows.sizeHint().height()
        self._recent.setMaximumHeight(whole)
        self._recent.setMinimumHeight(min(whole, px(LEAST_RECENT_PX)))

    def say(self, sentence: str) -> None:
        """Say what went wrong, in place."""
        self._problem.say(sentence)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take one notebook, yard file or handover that is dragged here."""
        if one_file_in(event.mimeData(), _OPENED) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Ask for the file that was dropped to be opened."""
        path = one_file_in(event.mimeData(), _OPENED)
        if path is not None:
            event.acceptProposedAction()
            self.path_asked.emit(path)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """One sheet of paper on the desk."""
        paint_desk(self, self.rect().adjusted(22, 18, -22, -22))

    def _lay_out(self) -> None:
        left, right = QVBoxLayout(), QVBoxLayout()
        for column in (left, right):
            column.setSpacing(12)
        left.addWidget(self._new_card())
        left.addWidget(self._recent_card(), 1)
        left.addStretch(0)
        right.addWidget(self._sample_card())
        right.addStretch(1)
        self._columns = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._columns.setSpacing(22)
        self._columns.addLayout(left, 1)
        self._columns.addLayout(right, 1)
        page = QVBoxLayout(self)
        page.setContentsMargins(66, 50, 66, 46)
        page.setSpacing(8)
        head = QHBoxLayout()
        head.addWidget(Words(tr("Lawnbook"), "title", self), 1)
        head.addWidget(LeafLinks(self))
        page.addLayout(head)
        purpose = Words(PURPOSE, "verdict", self)
        sized(purpose, most_width=PURPOSE_PX)
        scroll = PageScroll(self)
        scroll.body.setSpacing(8)
        # In a row of its own its height follows from the width it really has.
        lead = QHBoxLayout()
        lead.addWidget(purpose)
        scroll.body.addLayout(lead)
        scroll.body.addSpacing(10)
        scroll.body.addWidget(self._problem)
        scroll.body.addLayout(self._columns, 1)
        page.addWidget(scroll, 1)
        self._turf = TurfStrip(self)
        page.addWidget(self._turf)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The cards stand side by side where there is room for two; the turf has what is left."""
        super().resizeEvent(event)
        self._turf.setVisible(self.height() >= px(TURF_FROM_PX))
        two = self.width() >= px(TWO_COLUMNS_PX)
        beside, below = QBoxLayout.Direction.LeftToRight, QBoxLayout.Direction.TopToBottom
        self._columns.setDirection(beside if two else below)

    def _new_card(self) -> Card:
        card = Card(tr("Start a yard"), self)
        label = Caption(tr("Name of the yard"))
        name_control(self.name_field, "new_yard_name", tr("Name of the yard"))
        self.name_field.setPlaceholderText(tr("such as Home"))
        label.setBuddy(self.name_field)
        begin = PrimaryButton(tr("Start a yard"), "new_yard", self)
        row = QHBoxLayout()
        row.addWidget(self.name_field, 1)
        row.addWidget(begin)
        change = LinkButton(tr("Choose another folder"), "choose_folder", self)
        leads = tr(
            "Seven short steps lead from here to a printed sheet, in any order and in some ten "
            "minutes. What you do not know is taken at a default, and marked as one."
        )
        card.body.addWidget(Caption(leads, self, wrap=True))
        card.body.addWidget(label)
        card.body.addLayout(row)
        card.body.addWidget(self._folder_words)
        card.body.addWidget(change, 0, Qt.AlignmentFlag.AlignLeft)
        begin.clicked.connect(self._begin)
        self.name_field.returnPressed.connect(self._begin)
        change.clicked.connect(self._choose_folder)
        return card

    def _recent_card(self) -> Card:
        card = Card("", self)
        head = QHBoxLayout()
        head.addWidget(Heading(tr("Go on with one")))
        head.addStretch(1)
        other = QuietButton(tr("Open another…"), "open_other", self)
        other.clicked.connect(self.open_asked)
        head.addWidget(other)
        card.body.addLayout(head)
        self._recent.body.setSpacing(0)
        self._recent.body.setContentsMargins(0, 0, 0, 0)
        card.body.addWidget(self._recent)
        card.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        return card

    def _sample_card(self) -> Card:
        card = Card(tr("Look into an invented yard"), self)
        card.body.addWidget(
            Caption(tr("A copy is made, so that you can try everything."), wrap=True)
        )
        for path in sample_yards():
            title, line = describe_sample(path)
            row = _Row(title, Caption(line, wrap=True))
            name_control(
                row, f"sample_{path.stem}", tr("Open the sample {title}", title=title), line
            )
            row.clicked.connect(lambda _=False, path=path: self.sample_asked.emit(path))
            card.body.addWidget(row)
        return card

    def _recent_row(self, path: Path) -> QPushButton:
        title = yard_name(path) or path.stem
        row = _Row(title, OneLine(str(path)))
        name_control(row, f"recent_{path.stem}", tr("Open {title}", title=title), str(path))
        row.setToolTip(str(path))
        row.clicked.connect(lambda: self.path_asked.emit(path))
        return row

    def _begin(self) -> None:
        name = self.name_field.text().strip()
        if not name:
            self.say(tr("The yard has no name yet; give it one, such as Home."))
            self.name_field.setFocus()
            return
        self.say("")
        self.new_asked.emit(name)

    def _choose_folder(self) -> None:
        folder = choose_folder(self, self.settings.folder)
        if folder is not None:
            self.settings.folder = folder
            self.refresh()


def describe_sample(path: Path) -> tuple[str, str]:
    """A sample yard's name and a line on what is in it, from the file itself."""
    data = json.loads(path.read_text(encoding="utf-8"))
    zones, plugs = data.get("zones", []), data.get("cores", [])
    grasses = sorted({str(zone.get("grass", "cool")) for zone in zones})
    kinds = tr(" and ").join(tr("{grass}-season", grass=tr(each)) for each in grasses)
    years = sorted({str(each["date"])[:4] for each in plugs})
    span = tr(", {first} to {last}", first=years[0], last=years[-1]) if years else ""
    south = tr(" in the south") if data["yard"].get("latitude_deg", 0) < 0 else ""
    line = tr(
        "{zones} {kinds} zones{south}; {plugs} plugs{span}",
        zones=len(zones),
        kinds=kinds,
        south=south,
        plugs=len(plugs),
        span=span,
    )
    return str(data["yard"]["name"]), line


class _Row(QPushButton):
    """A button that is a row: a name, and a quiet line below it."""

    def __init__(self, title: str, line: Caption) -> None:
        super().__init__()
        self.setProperty("role", "row")
        self.setProperty("lines", "2")
        self.setAutoDefault(False)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self._inside = QVBoxLayout(self)
        self._inside.setContentsMargins(10, 6, 10, 6)
        self._inside.setSpacing(1)
        for words in (Words(title, "", wrap=False), line):
            words.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
            self._inside.addWidget(words)

        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def sizeHint(self) -> QSize:
        """Room for both lines."""
        return self._inside.sizeHint()

    def heightForWidth(self, width: int) -> int:
        """A long line goes on below itself."""
        return self._inside.totalHeightForWidth(width)
