"""The open book itself: two pages of paper on a desk, and index tabs on the outer edge.

Where text is so large that the two pages have no room side by side, one lies over both, and a
tab of the sketch's own leads back to it.
"""

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import (
    QColor,
    QEnterEvent,
    QFocusEvent,
    QFont,
    QFontMetricsF,
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

from lawnbook.charts.tokens import SHADE, TAB_POINTS
from lawnbook.desk.roles import check_quietly, hear_as, lead_tab_to, one_of_several
from lawnbook.desk.theme import colour, mix, palette, px, sans
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr

TABS = (
    ("Yard", "tab_yard"),
    ("Plugs", "tab_plugs"),
    ("Water", "tab_water"),
    ("Feed", "tab_feed"),
    ("Season", "tab_season"),
    ("Sheet", "tab_sheet"),
)
"""The pages by their names, with the palette role of their tabs."""
SKETCH_WORDS = "Sketch"
SKETCH = (SKETCH_WORDS, "stone")
"""The tab of the left page, there only where one page lies over both."""

MARGIN_LEFT, MARGIN_TOP, MARGIN_BOTTOM, RIGHT_EDGE = 14, 4, 14, 4
TAB_OVER = 6
"""How far the tabs' column is wider than they are."""
QWIDGETSIZE_MAX = 16_777_215
"""Qt's own word for no limit, which PySide does not tell."""
TAB_WIDTH, TAB_HEIGHT, TAB_GAP = 44, 90, 7
TAB_PAD, LEAST_TAB_POINTS = 12, 9.0
"""Beside a tab's words, and the size that they are set down to where the window is low."""
FOLD = 30
CORNER = 9.0
TAB_LINE, TAB_LINE_PAD = 18, 8
RIGHT_LEAST, RIGHT_MOST, RIGHT_SHARE = 583, 760, 0.455
LEFT_LEAST = 470
"""The narrowest sketch that still shows a yard beside a page."""


class IndexTab(QAbstractButton):
    """One index tab: a checkable button whose words run down the page's edge."""

    def __init__(self, text: str, role: str, parent: QWidget) -> None:
        super().__init__(parent)
        self._role = role
        self._by_keys = False
        self.setText(tr(text))
        self.setCheckable(True)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Maximum)
        name_control(self, f"tab_{text.lower()}", tr("{text} page", text=tr(text)))

    def sizeHint(self) -> QSize:
        """Every tab has the same size, unless its words need more."""
        font = sans(TAB_POINTS, QFont.Weight.DemiBold)
        words = QFontMetricsF(font).horizontalAdvance(self.text())
        return QSize(tab_width(), max(TAB_HEIGHT, round(words) + 2 * TAB_PAD))

    def minimumSizeHint(self) -> QSize:
        """In a low window tabs are shorter, and their words smaller."""
        return QSize(tab_width(), px(TAB_HEIGHT) // 2)

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
        painter.setFont(self._fitting(weight))
        painter.setPen(QColor(palette().ink))
        painter.translate(reach / 2 - 1, self.height() / 2)
        painter.rotate(90)
        box = QRectF(-self.height() / 2, -self.width() / 2, self.height(), self.width())
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, self.text())

    def _fitting(self, weight: QFont.Weight) -> QFont:
        """The font, set smaller where the tab is too short for its words."""
        size, room = TAB_POINTS, self.height() - TAB_PAD
        font = sans(size, weight)
        while size > LEAST_TAB_POINTS and QFontMetricsF(font).horizontalAdvance(self.text()) > room:
            size -= 0.5
            font = sans(size, weight)
        return font


class IndexTabs(QWidget):
    """The row of tabs down the outer edge. Up and Down move between them; `turned` tells which."""

    turned = Signal(str)
    sketch_asked = Signal()

    def __init__(self, tabs: Sequence[tuple[str, str]], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        hear_as(self, "PageTabList")
        name_control(self, "index_tabs", tr("Pages"))
        self._group = QButtonGroup(self)
        self._tabs: dict[str, IndexTab] = {}
        column = self._column = QVBoxLayout(self)
        self._sketch: IndexTab | None = None
        self._place = ""
        self._set_margins()
        for text, role in tabs:
            tab = IndexTab(text, role, self)
            self._group.addButton(tab)
            self._tabs[text] = tab
            column.addWidget(tab)
            # Arrow keys click the neighbour too: the group is exclusive.
            one_of_several(tab, partial(self.turned.emit, text))
        column.addStretch(1)
        self.setFixedWidth(tab_width() + TAB_OVER)

    def turn_to(self, text: str) -> None:
        """Check a tab without telling; KeyError for a page there is not."""
        self._place = text
        self._check(self._tabs[text])

    def show_sketch(self, *, offered: bool, open_now: bool) -> None:
        """Offer the sketch by a tab of its own, or not; checked while it lies open."""
        if self._sketch is None and not offered:
            return
        if self._sketch is None:
            self._sketch = IndexTab(*SKETCH, self)
            self._group.addButton(self._sketch)
            self._column.insertWidget(0, self._sketch)
            one_of_several(self._sketch, self.sketch_asked.emit)
        self._sketch.setVisible(offered)
        self._set_margins()
        shown = self._sketch if offered and open_now else self._tabs.get(self._place)
        if shown is not None:
            self._check(shown)

    def changeEvent(self, event: QEvent) -> None:
        """Take the width of a new size of text."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self.setFixedWidth(tab_width() + TAB_OVER)

    def _set_margins(self) -> None:
        crowded = self._sketch is not None and not self._sketch.isHidden()
        self._column.setContentsMargins(0, 8 if crowded else 54, 0, 4 if crowded else 20)
        self._column.setSpacing(3 if crowded else TAB_GAP)

    def _check(self, tab: IndexTab) -> None:
        check_quietly(tab)
        lead_tab_to(self._group)
        self.update()


class BookSpread(QWidget):
    """The desk with the open book: `left` and `right` hold the two pages' content.

    `laid` tells whether the left page lies over both.
    """

    laid = Signal(bool)

    def __init__(self, tabs: IndexTabs, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("book_spread")
        self._pages = QWidget(self)
        self.left = QVBoxLayout()
        self.left.setContentsMargins(24, 16, FOLD - 4, 14)
        self.left.setSpacing(10)
        self.right = QVBoxLayout()
        self.right.setContentsMargins(FOLD, 16, 14, 10)
        self.right.setSpacing(8)
        self._left_page, self._right_page = QWidget(self._pages), QWidget(self._pages)
        self._whole = self._single = False
        self._tabs = tabs
        tabs.sketch_asked.connect(self.see_left)
        self._left_page.setLayout(self.left)
        self._right_page.setLayout(self.right)
        row = self._row = QHBoxLayout(self._pages)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(self._left_page, 1)
        row.addWidget(self._right_page)
        around = QHBoxLayout(self)
        around.setContentsMargins(MARGIN_LEFT, MARGIN_TOP, RIGHT_EDGE, MARGIN_BOTTOM)
        around.setSpacing(0)
        around.addWidget(self._pages, 1)
        around.addWidget(tabs)

    @property
    def is_whole(self) -> bool:
        """Whether the left page lies over both."""
        return self._whole

    @property
    def is_single(self) -> bool:
        """Whether the two pages have no room side by side, so that one lies over both."""
        return self._single

    def lay_whole(self, *, whole: bool) -> None:
        """Let the left page lie over both, or open the right one again."""
        self._whole = whole
        self._share_out()
        self._row.activate()
        self.laid.emit(whole)

    def see_left(self) -> None:
        """Bring the left page to sight where the right one lies over it."""
        if self._single:
            self.lay_whole(whole=True)

    def resizeEvent(self, _event: object) -> None:
        """The right page takes a steady share, within what its forms need and what reads well."""
        self._share_out()

    def changeEvent(self, event: QEvent) -> None:
        """Share the room anew among words of another size."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self._share_out()
            # What stands on the pages has its new size only after this.
            QTimer.singleShot(0, self, self._share_out)

    def _share_out(self) -> None:
        """Give each page its width, or one of them all."""
        room = self.width() - MARGIN_LEFT - RIGHT_EDGE - tab_width() - TAB_OVER
        least = px(RIGHT_LEAST) + max(px(LEFT_LEAST), self.left.minimumSize().width())
        self._single = room < least and px(RIGHT_LEAST) > RIGHT_LEAST
        alone = self._single or self._whole
        wanted = round(self.width() * RIGHT_SHARE)
        if self._single:
            self._right_page.setMinimumWidth(0)
            self._right_page.setMaximumWidth(QWIDGETSIZE_MAX)
        else:
            self._right_page.setFixedWidth(min(max(wanted, px(RIGHT_LEAST)), px(RIGHT_MOST)))
        self._left_page.setVisible(self._whole or not self._single)
        self._right_page.setVisible(not self._whole)
        self.left.setContentsMargins(24, 16, 20 if alone else FOLD - 4, 14)
        self.right.setContentsMargins(24 if self._single else FOLD, 16, 14, 10)
        self._row.setStretch(1, 1 if self._single else 0)
        self._tabs.show_sketch(offered=self._single, open_now=self._whole)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Desk, paper with a soft shadow, and the fold between the pages."""
        paint_desk(self, self._pages.geometry())
        if not (self._whole or self._single):
            self._paint_fold(QPainter(self), QRectF(self._pages.geometry()))

    def _paint_fold(self, painter: QPainter, book: QRectF) -> None:
        p = palette()
        x = book.left() + self._left_page.width()
        deep = 0.38 if p.is_dark else 0.14
        gradient = QLinearGradient(QPointF(x - FOLD, 0), QPointF(x + FOLD, 0))
        stops = ((0.0, 0.0), (0.36, deep * 0.22), (0.5, deep), (0.58, deep * 0.3), (1.0, 0.0))
        for at, alpha in stops:
            gradient.setColorAt(at, colour(SHADE, alpha))
        painter.fillRect(QRectF(x - FOLD, book.top(), 2 * FOLD, book.height()), gradient)


def tab_width() -> int:
    """A tab's width: it holds one line of its words."""
    return max(TAB_WIDTH, px(TAB_LINE) + 2 * TAB_LINE_PAD)


def paint_desk(widget: QWidget, sheet: QRect) -> None:
    """Paint the desk all over a widget, and a sheet of paper with a soft shadow on it."""
    p = palette()
    painter = QPainter(widget)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.fillRect(widget.rect(), colour(p.desk))
    paper = QRectF(sheet)
    for spread, alpha in ((5.0, 0.03), (3.0, 0.05), (1.0, 0.08)):
        painter.setBrush(colour(SHADE, alpha))
        shadow = paper.adjusted(-spread / 2, 0, spread / 2, spread)
        painter.drawRoundedRect(shadow, CORNER + 1, CORNER + 1)
    painter.setBrush(colour(p.paper))
    painter.drawRoundedRect(paper, CORNER, CORNER)


def _right_rounded(box: QRectF) -> QPainterPath:
    """A box whose two right corners are round; its left edge lies outside what is painted."""
    path = QPainterPath()
    path.addRoundedRect(box, 7.0, 7.0)
    return path
