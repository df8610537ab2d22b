"""The open book itself: two pages of paper on a desk, and index tabs on the outer edge."""

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QEnterEvent,
    QFocusEvent,
    QFont,
    QLinearGradient,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import (
    QAbstractButton,
    QButtonGroup,
    QHBoxLayout,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from lawnbook.desk.theme import colour, mix, palette, sans
from lawnbook.desk.widgets import name_control

TABS = (
    ("Yard", "tab_yard"),
    ("Plugs", "tab_plugs"),
    ("Water", "tab_water"),
    ("Feed", "tab_feed"),
    ("Season", "tab_season"),
    ("Sheet", "tab_sheet"),
)
"""The pages by their names, with the palette role of their tabs."""

MARGIN_LEFT, MARGIN_TOP, MARGIN_BOTTOM = 14, 4, 14
TAB_WIDTH, TAB_HEIGHT, TAB_GAP = 44, 90, 7
FOLD = 30
CORNER = 9.0
RIGHT_LEAST, RIGHT_MOST, RIGHT_SHARE = 580, 760, 0.455


class IndexTab(QAbstractButton):
    """One index tab: a checkable button whose words run down the page's edge."""

    def __init__(self, text: str, role: str, parent: QWidget) -> None:
        super().__init__(parent)
        self._role = role
        self._by_keys = False
        self.setText(text)
        self.setCheckable(True)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        name_control(self, f"tab_{text.lower()}", f"{text} page")

    def sizeHint(self) -> QSize:
        """Every tab has the same size."""
        return QSize(TAB_WIDTH, TAB_HEIGHT)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A ring marks the focus that came by keys; a click needs none."""
        self._by_keys = event.reason() != Qt.FocusReason.MouseFocusReason
        super().focusInEvent(event)

    def enterEvent(self, event: QEnterEvent) -> None:
        """Repaint lit."""
        self.update()
        super().enterEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """A rounded tab; the chosen one is longer and reaches onto the page."""
        p = palette()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        reach = self.width() - (0.5 if self.isChecked() else 6.5)
        outline = _right_rounded(QRectF(-4.0, 0.5, reach + 4.0, self.height() - 1.0))
        lit = self.underMouse() and not self.isChecked()
        fill = getattr(p, self._role)
        painter.setPen(QPen(colour(mix(fill, p.ink, 0.25 if self.isChecked() else 0.14)), 1))
        painter.setBrush(colour(mix(fill, p.ink, 0.08) if lit else fill))
        painter.drawPath(outline)
        if self.hasFocus() and self._by_keys:
            painter.setPen(QPen(colour(p.ink), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(4, 5, reach - 9, self.height() - 10), 4, 4)
        self._paint_words(painter, reach)

    def _paint_words(self, painter: QPainter, reach: float) -> None:
        weight = QFont.Weight.DemiBold if self.isChecked() else QFont.Weight.Medium
        painter.setFont(sans(10.5, weight))
        painter.setPen(QColor(palette().ink))
        painter.translate(reach / 2 - 1, self.height() / 2)
        painter.rotate(90)
        box = QRectF(-self.height() / 2, -TAB_WIDTH / 2, self.height(), TAB_WIDTH)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, self.text())


class IndexTabs(QWidget):
    """The row of tabs down the outer edge. Up and Down move between them; `turned` tells which."""

    turned = Signal(str)

    def __init__(self, tabs: Sequence[tuple[str, str]], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "index_tabs", "Pages")
        self._group = QButtonGroup(self)
        self._tabs: dict[str, IndexTab] = {}
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 54, 0, 20)
        column.setSpacing(TAB_GAP)
        for text, role in tabs:
            tab = IndexTab(text, role, self)
            self._group.addButton(tab)
            self._tabs[text] = tab
            column.addWidget(tab)
            # Arrow keys click the neighbour too: the group is exclusive.
            tab.clicked.connect(lambda _=False, text=text: self.turned.emit(text))
        column.addStretch(1)
        self.setFixedWidth(TAB_WIDTH + 6)

    def turn_to(self, text: str) -> None:
        """Check a tab without telling; KeyError for a page there is not."""
        tab = self._tabs[text]
        tab.blockSignals(True)
        tab.setChecked(True)
        tab.blockSignals(False)
        self.update()


class BookSpread(QWidget):
    """The desk with the open book: `left` and `right` hold the two pages' content."""

    def __init__(self, tabs: IndexTabs, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("book_spread")
        self._pages = QWidget(self)
        self.left = QVBoxLayout()
        self.left.setContentsMargins(24, 16, FOLD - 4, 14)
        self.left.setSpacing(10)
        self.right = QVBoxLayout()
        self.right.setContentsMargins(FOLD, 16, 18, 10)
        self.right.setSpacing(8)
        self._left_page, self._right_page = QWidget(self._pages), QWidget(self._pages)
        self._left_page.setLayout(self.left)
        self._right_page.setLayout(self.right)
        row = QHBoxLayout(self._pages)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(self._left_page, 1)
        row.addWidget(self._right_page)
        around = QHBoxLayout(self)
        around.setContentsMargins(MARGIN_LEFT, MARGIN_TOP, 4, MARGIN_BOTTOM)
        around.setSpacing(0)
        around.addWidget(self._pages, 1)
        around.addWidget(tabs)

    @property
    def is_whole(self) -> bool:
        """Whether the left page lies over both."""
        return self._right_page.isHidden()

    def lay_whole(self, *, whole: bool) -> None:
        """Let the left page lie over both, or open the right one again."""
        self._right_page.setVisible(not whole)
        self.left.setContentsMargins(24, 16, 20 if whole else FOLD - 4, 14)
        self.update()

    def resizeEvent(self, _event: object) -> None:
        """The right page takes a steady share, within what its forms need and what reads well."""
        wanted = round(self.width() * RIGHT_SHARE)
        self._right_page.setFixedWidth(min(max(wanted, RIGHT_LEAST), RIGHT_MOST))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Desk, paper with a soft shadow, and the fold between the pages."""
        paint_desk(self, self._pages.geometry())
        if not self.is_whole:
            self._paint_fold(QPainter(self), QRectF(self._pages.geometry()))

    def _paint_fold(self, painter: QPainter, book: QRectF) -> None:
        p = palette()
        x = book.left() + self._left_page.width()
        shade = "#000000"
        deep = 0.14 if p.name == "light" else 0.38
        gradient = QLinearGradient(QPointF(x - FOLD, 0), QPointF(x + FOLD, 0))
        stops = ((0.0, 0.0), (0.36, deep * 0.22), (0.5, deep), (0.58, deep * 0.3), (1.0, 0.0))
        for at, alpha in stops:
            gradient.setColorAt(at, colour(shade, alpha))
        painter.fillRect(QRectF(x - FOLD, book.top(), 2 * FOLD, book.height()), gradient)


def paint_desk(widget: QWidget, sheet: QRect) -> None:
    """Paint the desk all over a widget, and a sheet of paper with a soft shadow on it."""
    p = palette()
    painter = QPainter(widget)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.fillRect(widget.rect(), colour(p.desk))
    paper = QRectF(sheet)
    for spread, alpha in ((5.0, 0.03), (3.0, 0.05), (1.0, 0.08)):
        painter.setBrush(colour("#000000", alpha))
        shadow = paper.adjusted(-spread / 2, 0, spread / 2, spread)
        painter.drawRoundedRect(shadow, CORNER + 1, CORNER + 1)
    painter.setBrush(colour(p.paper))
    painter.drawRoundedRect(paper, CORNER, CORNER)


def _right_rounded(box: QRectF) -> QPainterPath:
    """A box whose two right corners are round; its left edge lies outside what is painted."""
    path = QPainterPath()
    path.addRoundedRect(box, 7.0, 7.0)
    return path
