"""The few plain widgets every page is set from: words, cards, buttons, steps."""

from PySide6.QtCore import QEvent, QPoint, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import (
    QDragEnterEvent,
    QKeyEvent,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import (
    QApplication,
    QComboBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from lawnbook.charts.tokens import RING_PX, SMALL_RADIUS_PX
from lawnbook.desk.clipboard import holds_picture_or_file
from lawnbook.desk.roles import announce
from lawnbook.desk.theme import colour, palette

FOCUS_MARGIN_PX = 28
_INSIDE = (3, 3, -3, -3)
"""From the edge of a filled button to its ring."""
SIGHT_MARGIN_PX = 12
"""What is left above and below a field that was scrolled to: room for its label or sentence."""
HEARD = ("refuse", "ask", "good")
"""The roles of words that a screen reader is told of as they are said."""
SOUGHT_MS = 3000
"""So long a page keeps what was sought in sight while it is laid out anew."""


def mark_role(widget: QWidget, role: str, state: str = "") -> None:
    """Give a widget its role in the style sheet and a state such as "refuse"."""
    if widget.property("role") == role and (widget.property("state") or "") == state:
        return
    widget.setProperty("role", role)
    widget.setProperty("state", state)
    # Before it is first shown a widget takes on all of its properties anyway.
    if widget.testAttribute(Qt.WidgetAttribute.WA_WState_Polished):
        widget.style().unpolish(widget)
        widget.style().polish(widget)


def name_control(widget: QWidget, object_name: str, spoken: str, described: str = "") -> None:
    """Name a control for tests and for a screen reader; a box's list is called as the box."""
    widget.setObjectName(object_name)
    widget.setAccessibleName(spoken)
    if isinstance(widget, QComboBox):
        widget.view().setAccessibleName(spoken)
    if described:
        widget.setAccessibleDescription(described)


def clear_layout(layout: QLayout) -> None:
    """Take everything out of a layout; its widgets are hidden now and deleted later."""
    while (item := layout.takeAt(0)) is not None:
        widget, inner = item.widget(), item.layout()
        if widget is not None:
            widget.hide()
            widget.deleteLater()
        elif inner is not None:
            clear_layout(inner)


class Words(QLabel):
    """Words in one of the style sheet's roles, wrapped and selectable by mouse on request."""

    def __init__(
        self, text: str = "", role: str = "", parent: QWidget | None = None, wrap: bool = True
    ) -> None:
        super().__init__(text, parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setWordWrap(wrap)
        if role:
            self.setProperty("role", role)
        if not text and role in ("refuse", "ask"):
            self.hide()

    def say(self, text: str, role: str | None = None) -> None:
        """Change the words, and the role if one is given. Empty words take no room.

        What is refused, asked or done is heard as well, for nobody may be looking there.
        """
        if role is not None:
            mark_role(self, role)
        news = text and text != self.text()
        self.setText(text)
        self.setVisible(bool(text))
        if news and self.property("role") in HEARD:
            announce(self, text, urgent=self.property("role") == "refuse")


class Caption(Words):
    """Small quiet words: a field's label, a note below a figure."""

    def __init__(self, text: str = "", parent: QWidget | None = None, wrap: bool = False) -> None:
        super().__init__(text, "caption", parent, wrap)


class OneLine(Caption):
    """Small quiet words on one line that lose their middle for lack of room; a tooltip has all."""

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__("", parent)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self._whole = text
        self._shorten()

    def setText(self, text: str) -> None:
        """Change the words."""
        self._whole = text
        self._shorten()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """As much as fits now."""
        super().resizeEvent(event)
        self._shorten()

    def _shorten(self) -> None:
        middle = Qt.TextElideMode.ElideMiddle
        shown = self.fontMetrics().elidedText(self._whole, middle, self.width())
        super().setText(shown)
        self.setAccessibleName(self._whole)
        self.setToolTip(self._whole if shown != self._whole else "")


class Heading(Words):
    """The heading of a part of a page."""

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(text, "heading", parent, wrap=False)


class Verdict(Words):
    """The answer in words, set in the book's serif at the top of a page."""

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(text, "verdict", parent)


class PageTitle(QWidget):
    """A page's title in serif with a quiet subtitle on the same line."""

    def __init__(self, title: str, subtitle: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._title = Words(title, "title", self, wrap=False)
        self._subtitle = Words(subtitle, "subtitle", self, wrap=False)
        self._subtitle.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(14)
        row.addWidget(self._title, 0, Qt.AlignmentFlag.AlignBottom)
        row.addWidget(self._subtitle, 1, Qt.AlignmentFlag.AlignBottom)
        self._subtitle.setContentsMargins(0, 0, 0, 4)

    def set_subtitle(self, text: str) -> None:
        """Change the quiet words beside the title."""
        self._subtitle.setText(text)

    def set_title(self, text: str) -> None:
        """Change the title."""
        self._title.setText(text)


class Card(QFrame):
    """A panel on the page; `body` is its vertical layout."""

    def __init__(
        self, heading: str = "", parent: QWidget | None = None, role: str = "card"
    ) -> None:
        super().__init__(parent)
        self.setProperty("role", role)
        self.body = QVBoxLayout(self)
        self.body.setContentsMargins(14, 12, 14, 12)
        self.body.setSpacing(8)
        if heading:
            self.body.addWidget(Heading(heading, self))


class Aside(Card):
    """A tinted panel for cautions and live answers."""

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__("", parent, role="note")
        self.body.setContentsMargins(12, 8, 12, 8)
        self.body.setSpacing(2)
        self.words = Words(text, "", self)
        self.body.addWidget(self.words)

    def say(self, text: str) -> None:
        """Change the words; with none the panel is not shown."""
        self.words.setText(text)
        self.setVisible(bool(text))


class Hairline(QFrame):
    """A thin rule between two parts of a page."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "hairline")


class _Leaf(QWidget):
    """What scrolls. It grows with its words in the same breath, so nothing is painted squeezed.

    `laid_out` tells that what is inside may stand elsewhere now.
    """

    laid_out = Signal()

    def event(self, event: QEvent) -> bool:
        """Grow before the next paint: the scroll area itself would follow one frame late."""
        done = super().event(event)
        if event.type() == QEvent.Type.LayoutRequest and self.hasHeightForWidth():
            self.resize(self.width(), max(self.height(), self.heightForWidth(self.width())))
        if event.type() in (QEvent.Type.LayoutRequest, QEvent.Type.Resize):
            self.laid_out.emit()
        return done


class PageScroll(QScrollArea):
    """A page that scrolls when it is taller than the book; `body` is its vertical layout.

    What has the keyboard, or was just pressed, stands still while words above it come and go.
    Sideways it scrolls where the words of a language need more than the page: nothing is cut off.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._held: tuple[QWidget, int, int] | None = None
        self._sought: QWidget | None = None
        self._seeking = QTimer(self, singleShot=True, interval=SOUGHT_MS)
        self._seeking.timeout.connect(self._found)
        self._correcting = False
        inside = _Leaf()
        inside.laid_out.connect(self._stand_still)
        self.verticalScrollBar().valueChanged.connect(self._scrolled)
        inside.setProperty("role", "page")
        self.body = QVBoxLayout(inside)
        self.body.setContentsMargins(0, 0, 6, 8)
        self.body.setSpacing(10)
        self.setWidget(inside)
        self.viewport().setAutoFillBackground(False)
        inside.setAutoFillBackground(False)
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._follow)

    def seek(self, widget: QWidget) -> None:
        """Scroll so far that all of a widget can be seen, and on while the page is laid out anew.

        The owner's own scrolling, or another field, ends it, and so does a moment's time.
        """
        self._sought = widget
        self._seeking.start()
        widget.destroyed.connect(self._found)
        QTimer.singleShot(0, widget, self._stand_still)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """The owner scrolls: nothing is sought any more."""
        self._found()
        super().wheelEvent(event)

    def _found(self) -> None:
        self._sought = None
        self._seeking.stop()

    def _follow(self, _before: QWidget | None, now: QWidget | None) -> None:
        """Bring what takes the keyboard into sight; under a pressed mouse it is there already."""
        inside = self.widget()
        pressed = QApplication.mouseButtons() != Qt.MouseButton.NoButton
        if now and inside and not pressed and inside.isAncestorOf(now):
            self.ensureWidgetVisible(now, 0, FOCUS_MARGIN_PX)
        if now is not None and self.isAncestorOf(now):
            self._found()
        self._held = self._at_work()

    def _stand_still(self) -> None:
        """Scroll to what is sought, or what has the keyboard back to where it stood."""
        if self._sought is not None:
            self.ensureWidgetVisible(self._sought, 0, SIGHT_MARGIN_PX)
            return
        held, now = self._held, self._at_work()
        if held is None or now is None or held[0] is not now[0]:
            return
        self._correcting = True
        self.verticalScrollBar().setValue(now[1] - held[2])
        self._correcting = False
        # Where it ought to stand stays the same: a page too short for it now may grow again.
        self._held = (now[0], now[1], held[2])

    def _scrolled(self) -> None:
        """Take the new place for the right one, unless the page is only on its way to a layout."""
        held, now = self._held, self._at_work()
        moved = held is not None and now is not None and held[:2] != now[:2]
        if not self._correcting and not moved:
            self._held = now

    def _at_work(self) -> tuple[QWidget, int, int] | None:
        """What has the keyboard, how far down it stands in the page, and how far in the window."""
        inside, field = self.widget(), QApplication.focusWidget()
        if inside is None or field is None or not inside.isAncestorOf(field):
            return None
        y = field.mapTo(inside, QPoint(0, 0)).y()
        return field, y, y - self.verticalScrollBar().value()


def bring_into_sight(widget: QWidget) -> None:
    """Scroll the page round a widget, once it is laid out, so far that all of it can be seen."""
    page = widget.parentWidget()
    while page is not None and not isinstance(page, PageScroll):
        page = page.parentWidget()
    if page is not None:
        page.seek(widget)


class TextField(QLineEdit):
    """A line to type in that leaves Ctrl+Z to the book once it has nothing of its own to undo.

    A picture or a file in the clipboard is no text: pasting one is left to the page, and so is a
    file that is dropped.
    """

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Words may be dropped here; files are for the page or the window."""
        if event.mimeData().hasUrls():
            event.ignore()
        else:
            super().dragEnterEvent(event)

    def event(self, event: QEvent) -> bool:
        """Let the window's undo and redo through when this field has no typing to take back."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.ShortcutOverride:
            if event.matches(QKeySequence.StandardKey.Paste) and holds_picture_or_file():
                event.ignore()
                return False
            undo = event.matches(QKeySequence.StandardKey.Undo) and not self.isUndoAvailable()
            redo = event.matches(QKeySequence.StandardKey.Redo) and not self.isRedoAvailable()
            if undo or redo:
                event.ignore()
                return False
        return super().event(event)


class QuietButton(QPushButton):
    """An ordinary button. Where it is filled with the accent, the focus shows as a ring inside."""

    def __init__(self, text: str, object_name: str = "", parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self.setAutoDefault(False)
        name_control(self, object_name, text.replace("&", ""))

    def paintEvent(self, event: QPaintEvent) -> None:
        """The button, and its ring where the style sheet's own would not be seen on the accent."""
        super().paintEvent(event)
        if self.hasFocus() and (self.isChecked() or self.property("role") == "primary"):
            painter = QPainter(self)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(colour(palette().on_accent), RING_PX))
            inside = QRectF(self.rect()).adjusted(*_INSIDE)
            painter.drawRoundedRect(inside, SMALL_RADIUS_PX, SMALL_RADIUS_PX)
            painter.end()


class PrimaryButton(QuietButton):
    """The one button of a page that does what the page is for."""

    def __init__(self, text: str, object_name: str = "", parent: QWidget | None = None) -> None:
        super().__init__(text, object_name, parent)
        self.setProperty("role", "primary")


class LinkButton(QuietButton):
    """A button that reads as underlined words."""

    def __init__(self, text: str, object_name: str = "", parent: QWidget | None = None) -> None:
        super().__init__(text, object_name, parent)
        self.setProperty("role", "link")
        self.setCursor(Qt.CursorShape.PointingHandCursor)
