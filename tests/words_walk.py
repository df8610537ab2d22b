"""Every word that a window says, tab by tab and section by section, for tests of how it reads."""

import re
from collections.abc import Iterator
from typing import Any, cast

from PySide6.QtCore import QAbstractItemModel, QCoreApplication, QEvent, QModelIndex, Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QTableWidget,
    QWidget,
)

from lawnbook.desk.pages import feed, plugs, season, sheet, water, yard
from lawnbook.desk.spread import TABS
from lawnbook.desk.window import BookWindow

SECTIONS = {
    "Yard": yard.SECTIONS,
    "Plugs": plugs.SECTIONS,
    "Water": water.SECTIONS,
    "Feed": feed.SECTIONS,
    "Season": season.SECTIONS,
    "Sheet": sheet.SECTIONS,
}
_TAGS = re.compile(r"<[^>]*>")
US_UNITS = re.compile(
    r"""
    \bsq\.?\ ft\b | \bsquare\ f(?:ee|oo)t\b | \bft\b | \bfeet\b | \bfoot\b
    | \blbs?\b | \bpounds?\b | \bgal\b | \bgallons?\b | \bgpm\b | \bpsi\b | \bmph\b | °F
    | \binch(?:es)?\b | \bin/(?:h|day|week)\b | \bacres?\b | \boz\b | per\ 1,000 | \bkgal\b
    | [\d½¼¾⅛⅜⅝⅞]\s?in\b(?!\ (?:a|the|all|shade|brackets)\b)
    | ,\s?in$ | ^in$ | \d\s?["″](?!;) | \d\s?['′](?!\w)
    """,
    re.VERBOSE | re.IGNORECASE,
)


def settle() -> None:
    """Let everything that was put off happen: plans, charts, deletions."""
    for _ in range(4):
        QApplication.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def places(window: BookWindow) -> Iterator[str]:
    """Turn to every section of every tab; tells its name once it is shown."""
    for tab, _ in TABS:
        window.turn_to(tab)
        settle()
        page = cast(Any, window.page(tab))
        for name in SECTIONS[tab]:
            page.turn_to(name)
            settle()
            yield f"{tab}/{name}"


def words_of(root: QWidget, *, shown: bool = False) -> Iterator[tuple[str, str]]:
    """Where a text stands below a widget, and the text: seen, spoken, or in a tooltip.

    Of the widgets that are `shown` now, or of all.
    """
    for widget in (root, *root.findChildren(QWidget)):
        if shown and not widget.isVisible():
            continue
        path = _path(widget)
        for sort, text in _texts(widget):
            if text:
                yield f"{path} {sort}", _TAGS.sub("", text)


def _texts(widget: QWidget) -> Iterator[tuple[str, str]]:
    yield "tip", widget.toolTip()
    yield "name", widget.accessibleName()
    yield "said", widget.accessibleDescription()
    if isinstance(widget, QLabel | QAbstractButton):
        yield "text", widget.text()
    elif isinstance(widget, QLineEdit):
        yield "typed", widget.text()
        yield "hint", widget.placeholderText()
    elif isinstance(widget, QComboBox):
        for row in range(widget.count()):
            yield f"item {row}", widget.itemText(row)
    elif isinstance(widget, QTableWidget):
        yield from _cells(widget.model())


def _cells(model: QAbstractItemModel) -> Iterator[tuple[str, str]]:
    for column in range(model.columnCount(QModelIndex())):
        head = model.headerData(column, Qt.Orientation.Horizontal)
        yield f"head {column}", str(head or "")
        for row in range(min(model.rowCount(QModelIndex()), 40)):
            index = model.index(row, column)
            yield f"cell {row},{column}", str(index.data() or "")
            yield f"tip {row},{column}", str(index.data(Qt.ItemDataRole.ToolTipRole) or "")


def _path(widget: QWidget) -> str:
    names: list[str] = []
    each: QWidget | None = widget
    while each is not None and len(names) < 3:
        if each.objectName() and not each.objectName().startswith("qt_"):
            names.append(each.objectName())
        each = each.parentWidget()
    return f"{type(widget).__name__} {'<'.join(names)}"
