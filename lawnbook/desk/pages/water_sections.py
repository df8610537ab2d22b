"""The sections of a page: a quiet row of their names, the chosen one underlined, and a body."""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QFont, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QAbstractButton,
    QButtonGroup,
    QHBoxLayout,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from lawnbook.charts.tokens import TAB_POINTS
from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import colour, palette, px, sans
from lawnbook.desk.widgets import lead_tab_to, name_control

_PAD_PX, _HEIGHT_PX = 11, 32


class SectionName(QAbstractButton):
    """One name in the row; it is underlined when chosen and ringed when reached by keys."""

    def __init__(self, text: str, object_name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._by_keys = False
        self._attention = ""
        self.setText(text)
        self.setCheckable(True)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        name_control(self, object_name, f"{text} section")

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
        wide = QFontMetricsF(sans(TAB_POINTS, QFont.Weight.DemiBold)).horizontalAdvance(self.text())
        return QSize(int(wide) + 2 * _PAD_PX + 2, px(_HEIGHT_PX))

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
            under = QRectF(_PAD_PX, box.height() - 3.5, box.width() - 2 * _PAD_PX, 2.5)
            painter.drawRoundedRect(under, 1.2, 1.2)
        if self._attention:
            painter.setBrush(QColor(p.warn))
            painter.drawEllipse(QRectF(box.width() - _PAD_PX + 4, 7, 5, 5))
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
        name_control(self, f"{prefix}_sections", spoken)
        hear_as(self, "PageTabList")
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self._group = QButtonGroup(self)
        self._names: dict[str, SectionName] = {}
        row = self._row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 2)
        row.setSpacing(4)
        for text in names:
            button = SectionName(text, f"{prefix}_section_{text.lower()}", self)
            self._group.addButton(button)
            self._names[text] = button
            row.addWidget(button)
            # Arrow keys click the neighbour too: the group is exclusive.
            button.clicked.connect(lambda _=False, text=text: self.turned.emit(text))
        row.addStretch(1)

    @property
    def names(self) -> tuple[str, ...]:
        """The sections in their order, those included that are not shown now."""
        return tuple(self._names)

    def add_at_end(self, widget: QWidget) -> None:
        """Put a control that serves all sections at the right end of the row."""
        # Above the hairline.
        self._row.addWidget(widget, 0, Qt.AlignmentFlag.AlignTop)

    def turn_to(self, name: str) -> None:
        """Choose a section. Tells nobody. KeyError for a name that is not in the row."""
        self._names[name].setChecked(True)
        lead_tab_to(self._group)

    def show_name(self, name: str, *, shown: bool) -> None:
        """Show a name in the row or leave it out. KeyError for a name that is not in the row."""
        self._names[name].setVisible(shown)

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
