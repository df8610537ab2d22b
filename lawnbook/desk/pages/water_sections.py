"""The sections of a page: a quiet row of their names, the chosen one underlined, and a body."""

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QFont,
    QFontMetricsF,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import (
    QAbstractButton,
    QButtonGroup,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from lawnbook.charts.tokens import TAB_POINTS
from lawnbook.desk.roles import check_quietly, hear_as, lead_tab_to, one_of_several
from lawnbook.desk.theme import colour, palette, px, sans
from lawnbook.desk.widgets import name_control
from lawnbook.desk.wrapping import WrappingRow
from lawnbook.reading import tr

_PAD_PX, _LEAST_PAD_PX, _HEIGHT_PX = 11, 4, 32
"""Beside a name, where there is room and where there is not; and its height."""
_GAP_PX = 4


class SectionName(QAbstractButton):
    """One name in the row; it is underlined when chosen and ringed when reached by keys."""

    def __init__(self, text: str, object_name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._by_keys = False
        self._attention = ""
        self._pad_px = _PAD_PX
        self.setText(text)
        self.setCheckable(True)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        name_control(self, object_name, tr("{text} section", text=text))

    def mark(self, why: str) -> None:
        """Put a dot beside the name where something in the section wants a look; "" for none."""
        if why == self._attention:
            return
        self._attention = why
        self.setToolTip(why)
        self.setAccessibleDescription(why)
        self.update()

    def sizeHint(self) -> QSize:
        """Room for the name in its heavier weight, so that choosing moves nothing."""
        return QSize(self.words_px() + 2 * self._pad_px, px(_HEIGHT_PX))

    def words_px(self) -> int:
        """The width of the name alone."""
        wide = QFontMetricsF(sans(TAB_POINTS, QFont.Weight.DemiBold)).horizontalAdvance(self.text())
        return int(wide) + 2

    def stand_apart(self, pad_px: int) -> None:
        """Leave so much beside the name."""
        if pad_px != self._pad_px:
            self._pad_px = pad_px
            self.updateGeometry()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A ring marks the focus that came by keys; a click needs none."""
        self._by_keys = event.reason() != Qt.FocusReason.MouseFocusReason
        super().focusInEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The name, its underline, its ring and its dot."""
        p = palette()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        chosen = self.isChecked()
        painter.setFont(sans(TAB_POINTS, QFont.Weight.DemiBold if chosen else QFont.Weight.Medium))
        painter.setPen(QColor(p.ink if chosen or self.underMouse() else p.quiet))
        box = QRectF(self.rect())
        painter.drawText(box.adjusted(0, 0, 0, -3), Qt.AlignmentFlag.AlignCenter, self.text())
        painter.setPen(Qt.PenStyle.NoPen)
        if chosen:
            painter.setBrush(QColor(p.accent))
            under = QRectF(self._pad_px, box.height() - 3.5, box.width() - 2 * self._pad_px, 2.5)
            painter.drawRoundedRect(under, 1.2, 1.2)
        if self._attention:
            painter.setBrush(QColor(p.warn))
            painter.drawEllipse(QRectF(box.width() - max(self._pad_px - 4, 5), 7, 5, 5))
        if self.hasFocus() and self._by_keys:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(p.accent), 2))
            painter.drawRoundedRect(box.adjusted(2, 2, -2, -5), 5, 5)
        painter.end()


class Section(QWidget):
    """What one section of a page shows; `body` is its vertical layout."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.body = QVBoxLayout(self)
        self.body.setContentsMargins(0, 0, 0, 0)
        self.body.setSpacing(10)


class SectionRow(QWidget):
    """The names of a page's sections. Left and Right move between them; `turned` tells which."""

    turned = Signal(str)

    def __init__(
        self, names: Sequence[str], prefix: str, spoken: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        hear_as(self, "PageTabList")
        name_control(self, f"{prefix}_sections", spoken)
        # Not Fixed: that would hold the row to one line.
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self._group = QButtonGroup(self)
        self._names: dict[str, SectionName] = {}
        self._end: QWidget | None = None
        row = self._row = WrappingRow(self)
        row.setContentsMargins(0, 0, 0, 2)
        row.setSpacing(_GAP_PX)
        for text in names:
            button = SectionName(tr(text), f"{prefix}_section_{text.lower()}", self)
            self._group.addButton(button)
            self._names[text] = button
            row.addWidget(button)
            # Arrow keys click the neighbour too: the group is exclusive.
            one_of_several(button, partial(self.turned.emit, text))

    @property
    def names(self) -> tuple[str, ...]:
        """The sections in their order, those included that are not shown now."""
        return tuple(self._names)

    def add_at_end(self, widget: QWidget) -> None:
        """Put a control that serves all sections at the right end of the row."""
        self._row.add_at_end(widget)
        self._end = widget

    def turn_to(self, name: str) -> None:
        """Choose a section. Tells nobody. KeyError for a name that is not in the row."""
        check_quietly(self._names[name])
        lead_tab_to(self._group)

    def show_name(self, name: str, *, shown: bool) -> None:
        """Show a name in the row or leave it out. KeyError for a name that is not in the row."""
        self._names[name].setVisible(shown)
        self._share_out()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Let the names stand closer before they go on in a second line."""
        super().resizeEvent(event)
        self._share_out()

    def changeEvent(self, event: QEvent) -> None:
        """The same for words of another size."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self._share_out()

    def _share_out(self) -> None:
        shown = [each for each in self._names.values() if not each.isHidden()]
        taken = 0 if self._end is None else self._end.sizeHint().width() + _GAP_PX
        taken += sum(each.words_px() for each in shown) + _GAP_PX * max(len(shown) - 1, 0)
        spare = (self.width() - taken) // max(2 * len(shown), 1)
        pad = min(max(spare, _LEAST_PAD_PX), _PAD_PX)
        for each in shown:
            each.stand_apart(pad)

    def mark(self, name: str, why: str) -> None:
        """Mark a section as wanting a look, with the reason; "" takes the mark away."""
        self._names[name].mark(why)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """A hairline below the names, from edge to edge."""
        painter = QPainter(self)
        painter.setPen(QPen(colour(palette().rule), 1))
        y = self.height() - 2.5
        painter.drawLine(
            QRectF(0, y, self.width(), 0).topLeft(), QRectF(0, y, self.width(), 0).topRight()
        )
        painter.end()
