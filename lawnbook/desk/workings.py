"""How a figure came about: a link, and the small panel it opens with formula, inputs, source."""

from collections.abc import Sequence

from PySide6.QtCore import QPoint, QSize, Qt
from PySide6.QtWidgets import QFrame, QGridLayout, QSizePolicy, QVBoxLayout, QWidget

from lawnbook.desk.roles import hear_as
from lawnbook.desk.widgets import (
    Caption,
    Hairline,
    LinkButton,
    PageScroll,
    Words,
    name_control,
)
from lawnbook.plan.working_model import Input, Working

PANEL_WIDTH = 420
MOST_HEIGHT = 520


class WorkingPanel(QFrame):
    """One or several workings, one below the other. Esc or a click elsewhere closes it."""

    def __init__(self, workings: Sequence[Working], parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self.setProperty("role", "popover")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        name_control(self, "working_panel", "How the figure came about")
        scroll = PageScroll(self)
        scroll.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        name_control(scroll, "working_scroll", ", ".join(each.label for each in workings))
        hear_as(scroll, "Grouping")
        for index, working in enumerate(workings):
            if index:
                scroll.body.addWidget(Hairline())
            scroll.body.addLayout(_one(working))
        scroll.body.addStretch(1)
        around = QVBoxLayout(self)
        around.setContentsMargins(16, 14, 8, 12)
        around.addWidget(scroll)
        self.setFixedWidth(PANEL_WIDTH)
        wanted = scroll.body.totalHeightForWidth(PANEL_WIDTH - 36)
        self.setFixedHeight(min(wanted + 30, MOST_HEIGHT))

    @classmethod
    def open_below(cls, link: QWidget, workings: Sequence[Working]) -> "WorkingPanel":
        """Open the panel below a link, kept inside the window's screen."""
        panel = cls(workings, link)
        corner = link.mapToGlobal(QPoint(link.width() - PANEL_WIDTH, link.height() + 4))
        room = link.screen().availableGeometry()
        x = min(max(corner.x(), room.left() + 8), room.right() - PANEL_WIDTH - 8)
        y = min(corner.y(), room.bottom() - panel.height() - 8)
        panel.move(x, max(y, room.top() + 8))
        panel.show()
        panel.setFocus(Qt.FocusReason.PopupFocusReason)
        return panel


class WorkingLink(LinkButton):
    """A link that opens how a figure came about; hidden where there is nothing to show."""

    def __init__(
        self, text: str = "working", object_name: str = "working", parent: QWidget | None = None
    ) -> None:
        super().__init__(text, object_name, parent)
        self._workings: tuple[Working, ...] = ()
        self.clicked.connect(self._open)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setVisible(False)

    def set_workings(self, workings: Sequence[Working]) -> None:
        """Change what the link opens."""
        self._workings = tuple(workings)
        self.setVisible(bool(self._workings))
        names = ", ".join(each.label for each in self._workings)
        self.setAccessibleName(f"Working: {names}" if names else "Working")

    def _open(self) -> None:
        WorkingPanel.open_below(self, self._workings)

    def sizeHint(self) -> QSize:
        """Room for the words only."""
        words = self.fontMetrics().horizontalAdvance(self.text())
        return QSize(words + 12, self.fontMetrics().height() + 8)


def _one(working: Working) -> QVBoxLayout:
    column = QVBoxLayout()
    column.setSpacing(4)
    column.addWidget(Words(f"{working.label}: {working.value}", "heading"))
    column.addWidget(Words(working.formula))
    if working.filled:
        column.addWidget(Words(working.filled))
    if working.inputs:
        column.addSpacing(4)
        column.addLayout(_inputs(working.inputs))
    if working.source:
        column.addSpacing(4)
        column.addWidget(Caption(f"Source: {working.source}", wrap=True))
    return column


def _inputs(inputs: Sequence[Input]) -> QGridLayout:
    grid = QGridLayout()
    grid.setHorizontalSpacing(12)
    grid.setVerticalSpacing(3)
    grid.setColumnStretch(2, 1)
    for row, each in enumerate(inputs):
        grid.addWidget(Caption(each.name), row, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(Words(each.value, wrap=False), row, 1, Qt.AlignmentFlag.AlignTop)
        origin = f"{each.origin} (a default)" if each.is_default else each.origin
        note = Caption(origin, wrap=True)
        if each.is_default:
            note.setProperty("role", "ask")
        grid.addWidget(note, row, 2, Qt.AlignmentFlag.AlignTop)
    return grid
