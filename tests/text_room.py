"""Whether words have the room they need: what the walk through all pages looks for."""

from collections.abc import Iterator

from PySide6.QtCore import QRect, Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractScrollArea,
    QCheckBox,
    QComboBox,
    QHeaderView,
    QLabel,
    QLineEdit,
    QPushButton,
    QRadioButton,
    QScrollArea,
    QStyle,
    QStyleOptionComboBox,
    QWidget,
)

from lawnbook.desk.pages.water_sections import SectionName
from lawnbook.desk.spread import IndexTab
from lawnbook.desk.widgets import OneLine, PageScroll

SLACK_PX = 2
TOO_WIDE = ", so that it scrolls sideways"
"""How a fault ends that only makes a page scroll; nothing is cut off then."""
SHORT = 12
"""Words so short are to be seen whole; longer ones may scroll in their field."""


def faults(window: QWidget) -> list[str]:
    """What is cut off in a window: a line for each widget, with what it needs and what it has."""
    found = []
    for widget in window.findChildren(QWidget):
        if not widget.isVisible() or widget.window() is not window:
            continue
        found += [f"{_told(widget)}: {fault}" for fault in (*_cramped(widget), *_outside(widget))]
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
            yield from _short_of(widget, wide=True)
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
        longest = max(label.text().split(), key=len, default="")
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
