"""A row of widgets that goes on in another line where there is no room for it."""

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget, QWidgetItem


class WrappingRow(QLayout):
    """Sets widgets side by side in as many lines as they need, each in the size it asks for.

    What was added with `add_at_end` stands at the right end of the first line.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self._end: QLayoutItem | None = None

    def add_at_end(self, widget: QWidget) -> None:
        """Put a widget at the right end of the first line."""
        self.addChildWidget(widget)
        self._end = QWidgetItem(widget)
        self._items.append(self._end)

    def addItem(self, item: QLayoutItem, /) -> None:
        """Take another one in."""
        place = len(self._items) - (self._end is not None)
        self._items.insert(place, item)

    def count(self) -> int:
        """How many there are."""
        return len(self._items)

    def itemAt(self, index: int, /) -> QLayoutItem | None:
        """One of them."""
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int, /) -> QLayoutItem | None:
        """Take one out."""
        if not 0 <= index < len(self._items):
            return None
        taken = self._items.pop(index)
        self._end = None if taken is self._end else self._end
        return taken

    def expandingDirections(self) -> Qt.Orientation:
        """It needs no more than it asks for."""
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        """Fewer pixels across, more lines."""
        return True

    def heightForWidth(self, width: int, /) -> int:
        """How high it is at a width."""
        return self._set(QRect(0, 0, width, 0), really=False)

    def sizeHint(self) -> QSize:
        """All in one line."""
        shown = [item.sizeHint() for item in self._items if not item.isEmpty()]
        wide = sum(each.width() for each in shown) + self.spacing() * max(len(shown) - 1, 0)
        high = max((each.height() for each in shown), default=0)
        return QSize(wide, high) + self._around()

    def minimumSize(self) -> QSize:
        """Room for the widest of them."""
        least = QSize()
        for item in self._items:
            if not item.isEmpty():
                least = least.expandedTo(item.minimumSize())
        return least + self._around()

    def setGeometry(self, box: QRect, /) -> None:
        """Set them all."""
        super().setGeometry(box)
        self._set(box, really=True)

    def _around(self) -> QSize:
        margins = self.contentsMargins()
        return QSize(margins.left() + margins.right(), margins.top() + margins.bottom())

    def _set(self, box: QRect, *, really: bool) -> int:
        """Set them into a box, or only reckon; the height they take."""
        inside = box.marginsRemoved(self.contentsMargins())
        right = inside.left() + inside.width()
        end = QSize() if self._end is None or self._end.isEmpty() else self._end.sizeHint()
        first = right - (end.width() + self.spacing() if end.width() > 0 else 0)
        x, y, high = inside.left(), inside.top(), max(end.height(), 0)
        limit = first
        for item in self._items:
            if item is self._end or item.isEmpty():
                continue
            size = item.sizeHint()
            if x > inside.left() and x + size.width() > limit:
                x, y, high, limit = inside.left(), y + high + self.spacing(), 0, right
            if really:
                item.setGeometry(QRect(QPoint(x, y), size))
            x, high = x + size.width() + self.spacing(), max(high, size.height())
        if really and self._end is not None and end.width() > 0:
            self._end.setGeometry(QRect(QPoint(right - end.width(), inside.top()), end))
        return y + high - box.top() + self.contentsMargins().bottom()
