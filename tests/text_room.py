"""Whether words have the room they need: what the walk through all pages looks for."""

import re
from collections.abc import Iterator

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QFont, QFontMetrics
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractScrollArea,
    QCheckBox,
    QComboBox,
    QHeaderView,
    QLabel,
    QLineEdit,
    QListView,
    QPushButton,
    QRadioButton,
    QScrollArea,
    QStackedLayout,
    QStackedWidget,
    QStyle,
    QStyleOptionComboBox,
    QTableView,
    QWidget,
)

from lawnbook.desk.pages.water_sections import SectionName
from lawnbook.desk.spread import IndexTab
from lawnbook.desk.widgets import OneLine, PageScroll

SLACK_PX = 2
CELL_PX = 12
"""What a cell keeps free at both sides of its words."""
MOST_ROWS = 60
"""Rows of a table that are looked at."""
TOO_WIDE = ", so that it scrolls sideways"
"""How a fault ends that only makes a page scroll; nothing is cut off then."""
SHORT = 12
"""Words so short are to be seen whole; longer ones may scroll in their field."""


def faults(window: QWidget) -> list[str]:
    """What is cut off in a window: a line for each widget, with what it needs and what it has."""
    found = [f"{_told(window)}: {fault}" for fault in _over_each_other(window)]
    for widget in window.findChildren(QWidget):
        if not widget.isVisible() or widget.window() is not window:
            continue
        found += [f"{_told(widget)}: {fault}" for fault in (*_cramped(widget), *_outside(widget))]
        if isinstance(widget, QAbstractItemView):
            found += [f"{_told(widget)}: {fault}" for fault in elided(widget)]
        found += [f"{_told(widget)}: {fault}" for fault in _over_each_other(widget)]
    return found


def _told(widget: QWidget) -> str:
    words = ""
    if isinstance(widget, QLabel | QAbstractButton | QLineEdit):
        words = widget.text()
    names: list[str] = []
    at: QWidget | None = widget
    while at is not None and len(names) < 3:
        names.append(at.objectName() or type(at).__name__)
        at = at.parentWidget()
    return f"{' < '.join(names)} {words[:40]!r}"


def _cramped(widget: QWidget) -> Iterator[str]:
    """Words in a widget that is too small for them."""
    if isinstance(widget, OneLine):
        return
    if isinstance(widget, QLabel):
        yield from _label(widget)
    elif isinstance(widget, IndexTab | SectionName | QPushButton | QCheckBox | QRadioButton):
        if widget.text():
            told = isinstance(widget, QCheckBox) and bool(widget.toolTip())
            yield from _short_of(widget, wide=not told)
    elif isinstance(widget, QLineEdit | QComboBox):
        yield from _short_of(widget, wide=False)
        yield from _line(widget) if isinstance(widget, QLineEdit) else _box(widget)
    elif isinstance(widget, QHeaderView):
        yield from _heads(widget)


def _short_of(widget: QWidget, *, wide: bool) -> Iterator[str]:
    need, has = widget.sizeHint(), widget.size()
    if isinstance(widget, IndexTab):
        need = widget.minimumSizeHint()
    if need.height() > has.height() + SLACK_PX:
        yield f"needs {need.height()} px of height, has {has.height()}"
    if wide and need.width() > has.width() + SLACK_PX:
        yield f"needs {need.width()} px of width, has {has.width()}"


def _label(label: QLabel) -> Iterator[str]:
    if not label.text() or not label.pixmap().isNull():
        return
    inside = label.contentsRect()
    if label.textFormat() == Qt.TextFormat.RichText:
        yield from _short_of(label, wide=True)
        return
    if label.wordWrap():
        # Lines break after a slash too: where a path stands in words.
        longest = max(re.findall(r"[^\s/]+/?", label.text()), key=len, default="")
        wide = label.fontMetrics().horizontalAdvance(longest)
        high = label.heightForWidth(label.width())
        if high > label.height() + SLACK_PX and not label.toolTip():
            yield f"needs {high} px of height, has {label.height()}"
    else:
        wide, high = _size_of(label, label.text())
        if high > label.height() + SLACK_PX:
            yield f"needs {high} px of height, has {label.height()}"
    if wide > inside.width() + SLACK_PX and not label.toolTip():
        yield f"needs {wide} px of width, has {inside.width()}"


def _line(line: QLineEdit) -> Iterator[str]:
    """Typed words may be longer than their line; a figure, a date and a hint may not."""
    words = line.text() or line.placeholderText()
    if not words or len(words) > SHORT:
        return
    room = line.contentsRect().width()
    wide = line.fontMetrics().horizontalAdvance(words)
    if wide > room + SLACK_PX and not line.toolTip():
        yield f"needs {wide} px of width for its words, has {room}"


def _box(box: QComboBox) -> Iterator[str]:
    """The words of a choice, which may be long, beside its mark."""
    option = QStyleOptionComboBox()
    box.initStyleOption(option)
    part = QStyle.SubControl.SC_ComboBoxEditField
    room = box.style().subControlRect(QStyle.ComplexControl.CC_ComboBox, option, part, box).width()
    wide = box.fontMetrics().horizontalAdvance(box.currentText())
    if wide > room + SLACK_PX and len(box.currentText()) <= SHORT and not box.toolTip():
        yield f"needs {wide} px of width for {box.currentText()!r}, has {room}"


def _heads(header: QHeaderView) -> Iterator[str]:
    if header.orientation() != Qt.Orientation.Horizontal:
        return
    table = header.parentWidget()
    never = Qt.ScrollBarPolicy.ScrollBarAlwaysOff
    if isinstance(table, QTableView) and table.horizontalScrollBarPolicy() == never:
        wide, has = header.length(), table.viewport().width()
        if wide > has + SLACK_PX:
            yield f"columns are {wide} px wide in a table of {has}"
    for section in range(header.count()):
        if header.isSectionHidden(section):
            continue
        words = str(header.model().headerData(section, Qt.Orientation.Horizontal) or "")
        wide, high = _size_of(header, words)
        if wide > header.sectionSize(section) + SLACK_PX:
            yield f"head {words!r} needs {wide} px, has {header.sectionSize(section)}"
        if high > header.height() + SLACK_PX:
            yield f"head {words!r} needs {high} px of height, has {header.height()}"


def _size_of(widget: QWidget, words: str) -> tuple[int, int]:
    """The width of the longest line of some words, and the height of all."""
    metrics, lines = widget.fontMetrics(), words.split("\n")
    wide = max(metrics.horizontalAdvance(each) for each in lines)
    return wide, metrics.lineSpacing() * len(lines)


def elided(view: QAbstractItemView) -> Iterator[str]:
    """The cells in view of a table or list whose words end in dots and are told nowhere else."""
    model, room = view.model(), view.viewport().rect()
    wraps = isinstance(view, QListView | QTableView) and view.wordWrap()
    if wraps or view.textElideMode() == Qt.TextElideMode.ElideNone:
        return
    top = view.rootIndex()
    columns = model.columnCount(top) if isinstance(view, QTableView) else 1
    for row in range(min(model.rowCount(top), MOST_ROWS)):
        for column in range(columns):
            index = model.index(row, column)
            box, words = view.visualRect(index), str(index.data() or "")
            if not words or box.isEmpty() or not room.intersects(box):
                continue
            font = index.data(Qt.ItemDataRole.FontRole)
            metrics = QFontMetrics(font) if isinstance(font, QFont) else view.fontMetrics()
            wide = max(metrics.horizontalAdvance(each) for each in words.split("\n"))
            told = len(words) > SHORT and index.data(Qt.ItemDataRole.ToolTipRole)
            if wide + CELL_PX > box.width() + SLACK_PX and not told:
                yield f"cell {words!r} needs {wide} px, has {box.width()}"


def _over_each_other(parent: QWidget) -> Iterator[str]:
    """Two worded or pictured widgets of one layout, one on the other."""
    if parent.layout() is None:
        return
    shown = [
        each
        for each in parent.children()
        if isinstance(each, QWidget)
        and each.isVisible()
        and not each.isWindow()
        and not isinstance(each, QStackedWidget)
        and _is_laid_in(parent, each)
    ]
    for number, first in enumerate(shown):
        for second in shown[number + 1 :]:
            both = first.geometry().intersected(second.geometry())
            if both.width() > SLACK_PX and both.height() > SLACK_PX:
                yield f"{_told(first)} lies on {_told(second)} by {both.size().toTuple()}"


def _is_laid_in(parent: QWidget, widget: QWidget) -> bool:
    """Whether a widget has its place from its parent's layout, or from one in that."""
    layouts = [parent.layout()]
    while layouts:
        layout = layouts.pop()
        if layout is None:
            continue
        if isinstance(layout, QStackedLayout):
            continue
        if layout.indexOf(widget) >= 0:
            return True
        items = (layout.itemAt(each) for each in range(layout.count()))
        layouts += [each.layout() for each in items if each is not None]
    return False


def _outside(widget: QWidget) -> Iterator[str]:
    """What lies beyond its parent's edge, where no scrolling leads to it."""
    parent = widget.parentWidget()
    if parent is None or isinstance(parent, QAbstractItemView | QHeaderView | QLineEdit):
        return
    if _scrolls(widget):
        yield from _beyond_scrolling(widget)
        return
    box = QRect(widget.pos(), widget.size())
    over = parent.rect().adjusted(-SLACK_PX, -SLACK_PX, SLACK_PX, SLACK_PX)
    layout = parent.layout()
    placed = layout is not None and layout.indexOf(widget) >= 0
    worded = isinstance(widget, QLabel | QAbstractButton | QLineEdit | QComboBox | QScrollArea)
    if not over.contains(box) and (placed or worded):
        yield f"lies at {box.getRect()}, beyond its parent's {parent.size().toTuple()}"


def _scrolls(widget: QWidget) -> bool:
    parent = widget.parentWidget()
    area = parent.parentWidget() if parent is not None else None
    return isinstance(area, QAbstractScrollArea) and area.viewport() is parent


def _beyond_scrolling(widget: QWidget) -> Iterator[str]:
    viewport = widget.parentWidget()
    area = viewport.parentWidget() if viewport is not None else None
    if isinstance(area, PageScroll):
        wide, has = widget.width(), area.viewport().width()
        if wide > has + SLACK_PX:
            yield f"is {wide} px wide in a page of {has}{TOO_WIDE}"
