"""How a figure came about: a link, and the small panel it opens.

The panel has formula, inputs, what would change the figure most, and the source; it is made when it
is opened. Its words are those of `plan.workings_text`, as on the sheet and at the command line.
"""

from collections.abc import Sequence

from PySide6.QtCore import QPoint, QSize, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QGridLayout,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from lawnbook.desk.figures import FigureHand, let_open
from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import px
from lawnbook.desk.widgets import (
    Caption,
    Hairline,
    LinkButton,
    PageScroll,
    Words,
    name_control,
)
from lawnbook.desk.workings_bars import ChangeBars
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings_text import lines_of, origin_told, value_told, words_of
from lawnbook.reading import tr

PANEL_WIDTH, MOST_HEIGHT = 440, 560
"""Pixels at a text of 100 %; both grow with the text as far as the screen has room."""

MOST_NAME, MOST_VALUE = 26, 18
"""The name and the value of an input with more letters are broken into lines."""


class WorkingPanel(QFrame):
    """One or several workings, one below the other. Esc or a click elsewhere closes it."""

    def __init__(self, workings: Sequence[Working], parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self.setProperty("role", "popover")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        hear_as(self, "Dialog")
        name_control(self, "working_panel", tr("How the figure came about"))
        self._workings = tuple(workings)
        scroll = PageScroll(self)
        scroll.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        hear_as(scroll, "Grouping")
        name_control(scroll, "working_scroll", ", ".join(each.label for each in workings))
        for index, working in enumerate(workings):
            if index:
                scroll.body.addWidget(Hairline())
            scroll.body.addLayout(_one(working))
        scroll.body.addStretch(1)
        self.copy_link = LinkButton(tr("Copy"), "working_copy", self)
        self.copy_link.setAccessibleName(tr("Copy the working as text"))
        self.copy_link.clicked.connect(self._copy)
        around = QVBoxLayout(self)
        around.setContentsMargins(16, 14, 8, 8)
        around.setSpacing(4)
        around.addWidget(scroll, 1)
        around.addWidget(self.copy_link, 0, Qt.AlignmentFlag.AlignRight)
        self._take_size(scroll)

    def _take_size(self, scroll: PageScroll) -> None:
        room = self.screen().availableGeometry()
        width = min(px(PANEL_WIDTH), room.width() - 16)
        self.setFixedWidth(width)
        wanted = scroll.body.totalHeightForWidth(width - 36)
        below = self.copy_link.sizeHint().height() + 30
        self.setFixedHeight(min(wanted + below, px(MOST_HEIGHT), room.height() - 16))

    def _copy(self) -> None:
        """All that the panel says, as text, into the clipboard."""
        text = "\n\n".join("\n".join(lines_of(each)) for each in self._workings)
        QApplication.clipboard().setText(text)
        self.copy_link.setText(tr("Copied"))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """F1 once more puts the panel away."""
        if event.key() == Qt.Key.Key_F1:
            self.close()
        else:
            super().keyPressEvent(event)

    @classmethod
    def open_below(
        cls, link: QWidget, workings: Sequence[Working], at: QPoint | None = None
    ) -> "WorkingPanel":
        """Open the panel below a link, or at a place on the screen, kept inside the screen."""
        panel = cls(workings, link)
        seen = link.visibleRegion().boundingRect()
        below = seen if seen.isValid() else link.rect()
        corner = link.mapToGlobal(QPoint(below.right() - panel.width(), below.bottom() + 5))
        if below.width() > panel.width():
            corner = link.mapToGlobal(QPoint(below.left(), below.bottom() + 5))
        corner = corner if at is None else at + QPoint(8, 12)
        room = link.screen().availableGeometry()
        x = min(max(corner.x(), room.left() + 8), room.right() - panel.width() - 8)
        y = min(corner.y(), room.bottom() - panel.height() - 8)
        panel.move(x, max(y, room.top() + 8))
        panel.show()
        panel.setFocus(Qt.FocusReason.PopupFocusReason)
        return panel


class WorkingLink(LinkButton):
    """A link that opens how figures came about; hidden where there is nothing to show.

    It may stand for words and pictures: each then opens the workings of its own figures.
    """

    def __init__(
        self, text: str = tr("working"), object_name: str = "working", parent: QWidget | None = None
    ) -> None:
        super().__init__(text, object_name, parent)
        self._workings: tuple[Working, ...] = ()
        self.clicked.connect(self._open)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setVisible(False)
        FigureHand(self, self.workings, by_click=False)

    def workings(self) -> tuple[Working, ...]:
        """What the link opens."""
        return self._workings

    def set_workings(self, workings: Sequence[Working]) -> None:
        """Change what the link opens."""
        self._workings = tuple(workings)
        self.setVisible(bool(self._workings))
        names = ", ".join(each.label for each in self._workings)
        self.setAccessibleName(tr("Working: {names}", names=names) if names else tr("Working"))

    def stand_for(self, *widgets: QWidget) -> None:
        """Let words and pictures open what the link opens: of words, the figures told in them."""
        let_open(self.workings, *widgets)

    def _open(self) -> None:
        WorkingPanel.open_below(self, self._workings)

    def sizeHint(self) -> QSize:
        """Room for the words only."""
        words = self.fontMetrics().horizontalAdvance(self.text())
        return QSize(words + 12, self.fontMetrics().height() + 8)


def _one(working: Working) -> QVBoxLayout:
    words = words_of(working)
    column = QVBoxLayout()
    column.setSpacing(4)
    column.addWidget(Words(words.figure, "heading"))
    column.addWidget(Words(words.formula))
    for each in (words.filled, words.outcome):
        if each:
            column.addWidget(Words(each))
    if working.inputs:
        column.addSpacing(4)
        column.addLayout(_inputs(working.inputs))
    if words.most:
        column.addSpacing(6)
        column.addWidget(Caption(words.heading, wrap=True))
        column.addWidget(ChangeBars(working, words.most))
    if words.source:
        column.addSpacing(4)
        column.addWidget(Caption(tr("Source: {source}", source=words.source), wrap=True))
    return column


def _inputs(inputs: Sequence[Input]) -> QGridLayout:
    grid = QGridLayout()
    grid.setHorizontalSpacing(12)
    grid.setVerticalSpacing(3)
    grid.setColumnStretch(2, 1)
    for row, each in enumerate(inputs):
        name = Caption(each.name, wrap=len(each.name) > MOST_NAME)
        grid.addWidget(name, row, 0, Qt.AlignmentFlag.AlignTop)
        told = value_told(each)
        value = Words(told, wrap=len(told) > MOST_VALUE)
        grid.addWidget(value, row, 1, Qt.AlignmentFlag.AlignTop)
        note = Caption(origin_told(each), wrap=True)
        if each.is_default:
            note.setProperty("role", "ask")
        grid.addWidget(note, row, 2, Qt.AlignmentFlag.AlignTop)
    return grid
