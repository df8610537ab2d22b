"""A leaf beside the book: a small window of ours on paper, with contents, a search, and Esc."""

from functools import partial

from PySide6.QtCore import (
    QEvent,
    QModelIndex,
    QPersistentModelIndex,
    QPoint,
    QRect,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QCloseEvent, QKeySequence, QPaintEvent, QResizeEvent, QShortcut
from PySide6.QtWidgets import (
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QSizePolicy,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from lawnbook.desk.leaves import KEYS_OF_LEAVES, leaf_titles, open_leaf
from lawnbook.desk.pages.page import tab_in_reading_order
from lawnbook.desk.roles import hear_as
from lawnbook.desk.settings import Settings
from lawnbook.desk.spread import paint_desk
from lawnbook.desk.theme import px, sized
from lawnbook.desk.widgets import Caption, LinkButton, TextField, Words, name_control
from lawnbook.reading import tr

CONTENTS_PX, SEARCH_PX, LEAST_SEARCH_PX = 210, 230, 110
ENTRY_PAD_PX = 6
"""What the style sheet leaves at either side of an entry of the contents."""
AnyIndex = QModelIndex | QPersistentModelIndex
MOST_CONTENTS_SHARE = 0.3
OVER_PX = 60
"""How far from the host's top right corner a leaf stands when it is first opened."""


class _Entry(QStyledItemDelegate):
    """Measures an entry by the room inside its padding, which Qt forgets where words wrap."""

    def sizeHint(self, option: QStyleOptionViewItem, index: AnyIndex) -> QSize:
        """As high as its lines are in the width that the list has now."""
        inner = QStyleOptionViewItem(option)
        view = self.parent()
        wide = view.viewport().width() if isinstance(view, QListWidget) else 0
        # Only a rectangle that has a height is taken for one.
        inner.rect = QRect(0, 0, max(1, wide - 2 * ENTRY_PAD_PX), 1)
        return super().sizeHint(inner, index)


class Contents(QListWidget):
    """What is in a leaf, down its left side. `turned` tells the key of what is picked."""

    turned = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)
        self.setWordWrap(True)
        self.setItemDelegate(_Entry(self))
        self.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.setProperty("role", "contents")
        self.currentItemChanged.connect(self._picked)

    def show_entries(self, entries: list[tuple[str, str, int]]) -> None:
        """List these: a key, the words, and how far the entry stands in (0 for a heading)."""
        kept = self.picked
        self.blockSignals(True)
        self.clear()
        for key, words, depth in entries:
            item = QListWidgetItem("    " * depth + words, self)
            item.setData(Qt.ItemDataRole.UserRole, key)
            item.setData(Qt.ItemDataRole.AccessibleTextRole, words)
            item.setToolTip(words)
            if key == kept:
                self.setCurrentItem(item)
        self.blockSignals(False)

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys of what is listed."""
        return tuple(self._key(self.item(row)) for row in range(self.count()))

    @property
    def picked(self) -> str:
        """The key of what is picked, "" for nothing."""
        item: QListWidgetItem | None = self.currentItem()
        return self._key(item) if item is not None else ""

    def pick(self, key: str) -> bool:
        """Pick an entry and tell it; whether it is there."""
        if key not in self.keys:
            return False
        row = self.keys.index(key)
        if row == self.currentRow():
            self.turned.emit(key)
        self.setCurrentRow(row)
        return True

    @staticmethod
    def _key(item: QListWidgetItem) -> str:
        return str(item.data(Qt.ItemDataRole.UserRole))

    def _picked(self) -> None:
        if self.picked:
            self.turned.emit(self.picked)


class Leaf(QWidget):
    """The window itself; a kind of leaf fills `body` and, where it is long, `contents`.

    It stands beside its host and goes with it. Esc closes it; its size and place are remembered.
    """

    SEARCHES = False
    HAS_CONTENTS = False
    SIZE_PX = QSize(860, 680)
    LEAST_PX = QSize(600, 420)
    BESIDE: tuple[str, ...] = ("help", "glossary", "keys", "settings")

    def __init__(self, kind: str, host: QWidget) -> None:
        super().__init__(host, Qt.WindowType.Window)
        self.kind, self.host = kind, host
        title = leaf_titles()[kind]
        hear_as(self, "Dialog")
        name_control(self, f"leaf_{kind}", title)
        self.setWindowTitle(tr("{title} – Lawnbook", title=title))
        self.title = Words(title, "title", self, wrap=False)
        self.search = TextField(self)
        self.contents = Contents(self)
        self.foot = Caption("", self, wrap=True)
        self.body = QVBoxLayout()
        self._lay_out(title)
        QShortcut(QKeySequence("Esc"), self, self._give_up)
        QShortcut(QKeySequence("Ctrl+W"), self, self.close)
        if self.SEARCHES:
            QShortcut(QKeySequence("Ctrl+F"), self, self._to_search)
        for other, key in KEYS_OF_LEAVES.items():
            # The book's own keys do not reach into another window.
            QShortcut(QKeySequence(key), self, partial(open_leaf, host, other))

    @property
    def settings(self) -> Settings:
        """The preferences of the window this leaf stands beside."""
        held: object = getattr(self.host, "settings", None)
        if not isinstance(held, Settings):
            raise TypeError(f"{self.host.objectName()} has no settings")
        return held

    def open_at(self, section: str = "") -> None:
        """Show the leaf, at a section if it has one of that name."""
        first = not self.isVisible()
        if first:
            self._take_place()
        self.show()
        self.raise_()
        self.activateWindow()
        if first:
            tab_in_reading_order(self)
            self.begin()
        if section:
            self.turn_to(section)

    def begin(self) -> None:
        """The leaf has just been opened: let the keyboard start where reading starts."""

    def turn_to(self, section: str) -> None:
        """Show a section by its key or name; one that is not there changes nothing."""
        self.contents.pick(section)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The contents grow with the text, but leave most of the leaf to what is read."""
        super().resizeEvent(event)
        self._fit_contents()

    def changeEvent(self, event: QEvent) -> None:
        """Another size of text: the contents take their part anew."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self._take_least()
            self._fit_contents()

    def _fit_contents(self) -> None:
        most = round(MOST_CONTENTS_SHARE * self.width())
        self.contents.setFixedWidth(min(px(CONTENTS_PX), most))
        # Entries that wrap were measured in the width before.
        self.contents.scheduleDelayedItemsLayout()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Keep size and place, and give the keyboard back to the book."""
        self.settings.keep_leaf_geometry(self.kind, self.saveGeometry())
        super().closeEvent(event)
        self.host.activateWindow()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """One sheet of paper on the desk."""
        paint_desk(self, self.rect().adjusted(10, 8, -10, -12))

    def _give_up(self) -> None:
        """Esc takes the search back first, then the leaf."""
        if self.SEARCHES and self.search.text():
            self.search.clear()
            self.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        else:
            self.close()

    def _to_search(self) -> None:
        self.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.search.selectAll()

    def _take_place(self) -> None:
        """As it was left; at first to the right over its host. A screen that is gone is left."""
        if self.restoreGeometry(self.settings.leaf_geometry(self.kind)):
            return
        room = self.host.screen().availableGeometry()
        wanted = QSize(px(self.SIZE_PX.width()), px(self.SIZE_PX.height()))
        self.resize(wanted.boundedTo(room.size()))
        corner = self.host.mapToGlobal(QPoint(self.host.width() - self.width() - OVER_PX, OVER_PX))
        x = min(max(corner.x(), room.left()), room.right() - self.width())
        y = min(max(corner.y(), room.top()), room.bottom() - self.height())
        self.move(x, y)

    def _lay_out(self, title: str) -> None:
        name_control(self.search, f"{self.kind}_search", tr("Search in {leaf}", leaf=title))
        self.search.setPlaceholderText(tr("Search"))
        self.search.setClearButtonEnabled(True)
        sized(self.search, least_width=LEAST_SEARCH_PX, most_width=SEARCH_PX)
        self.search.setVisible(self.SEARCHES)
        name_control(self.contents, f"{self.kind}_contents", tr("Contents of {leaf}", leaf=title))
        self.contents.setVisible(self.HAS_CONTENTS)
        head = QHBoxLayout()
        head.setSpacing(14)
        head.addWidget(self.title, 1, Qt.AlignmentFlag.AlignBottom)
        head.addWidget(self.search, 2, Qt.AlignmentFlag.AlignBottom)
        pages = QHBoxLayout()
        pages.setSpacing(16)
        pages.addWidget(self.contents)
        pages.addLayout(self.body, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(34, 24, 34, 24)
        column.setSpacing(10)
        column.addLayout(head)
        column.addLayout(pages, 1)
        column.addLayout(self._foot_row())
        self._take_least()

    def _take_least(self) -> None:
        """As wide as its words need in this size of text, and never more than the screen."""
        least = QSize(px(self.LEAST_PX.width()), self.LEAST_PX.height())
        self.setMinimumSize(least.boundedTo(self.screen().availableGeometry().size()))

    def _foot_row(self) -> QHBoxLayout:
        """What the leaf says at its foot, and the way to the other leaves."""
        row = QHBoxLayout()
        row.setSpacing(12)
        self.foot.setObjectName(f"{self.kind}_said")
        policy = self.foot.sizePolicy()
        # Where it says nothing the ways to the other leaves stay at the right.
        policy.setRetainSizeWhenHidden(True)
        self.foot.setSizePolicy(policy)
        row.addWidget(self.foot, 1)
        titles = leaf_titles()
        for kind in self.BESIDE:
            if kind != self.kind:
                link = LinkButton(titles[kind], f"{self.kind}_to_{kind}", self)
                link.clicked.connect(lambda _=False, kind=kind: open_leaf(self.host, kind))
                row.addWidget(link)
        close = LinkButton(tr("Close (Esc)"), f"{self.kind}_close", self)
        close.clicked.connect(self.close)
        row.addWidget(close)
        return row
