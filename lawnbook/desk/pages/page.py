"""What the right-hand pages share: a title that stays, and a body that scrolls below it."""

from collections.abc import Iterator
from itertools import pairwise
from typing import cast

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QGridLayout,
    QHBoxLayout,
    QLayout,
    QLayoutItem,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from lawnbook.desk.widgets import PageScroll


def stack_sections(
    page: QWidget, head: tuple[QWidget, ...], sections: QWidget, scroll: PageScroll
) -> None:
    """Set a page's title, and its picker where there is one, over its sections and their body."""
    title, *pickers = head
    top = QHBoxLayout()
    top.addWidget(title, 1)
    for picker in pickers:
        top.addWidget(picker)
    column = QVBoxLayout(page)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(6)
    column.addLayout(top)
    column.addWidget(sections)
    column.addWidget(scroll, 1)
    # Heard in the order in which it is seen: what was made last is read last.
    scroll.raise_()


def beside(words: QWidget, link: QWidget) -> QHBoxLayout:
    """Words with a link at the end of their last line."""
    row = QHBoxLayout()
    row.setSpacing(10)
    row.addWidget(words, 1)
    # To the right, where the words may be hidden too.
    row.addWidget(link, 0, Qt.AlignmentFlag.AlignBottom | Qt.AlignmentFlag.AlignRight)
    return row


def keep_room_for(scroll: PageScroll) -> None:
    """Keep the room of a page's scroll bar, which shows only while there is something to scroll.

    One that came and went would move every field at the right end of the page.
    """
    bar = scroll.verticalScrollBar()
    bar.setStyleSheet("QScrollBar::handle:disabled { background: transparent; }")
    bar.setEnabled(bar.maximum() > bar.minimum())
    bar.rangeChanged.connect(lambda least, most: bar.setEnabled(most > least))
    scroll.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)


def tab_in_reading_order(page: QWidget) -> None:
    """Let Tab go through a page as it is read, whatever the order its parts were made in."""
    for before, after in pairwise(_stops(page)):
        QWidget.setTabOrder(before, after)


def _stops(widget: QWidget) -> Iterator[QWidget]:
    """The controls in and below a widget that Tab reaches, row by row."""
    if widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
        yield widget
    inside = widget.widget() if isinstance(widget, QScrollArea) else None
    if inside is not None:
        yield from _stops(inside)
    layout = widget.layout()
    if layout is not None and not isinstance(widget, QAbstractItemView):
        yield from _stops_of(layout)


def _stops_of(layout: QLayout) -> Iterator[QWidget]:
    for item in _items(layout):
        widget, inner = item.widget(), item.layout()
        if widget is not None:
            yield from _stops(widget)
        elif inner is not None:
            yield from _stops_of(inner)


def _items(layout: QLayout) -> list[QLayoutItem]:
    """The items of a layout, those of a grid by row and column."""
    places = range(layout.count())
    if isinstance(layout, QGridLayout):
        at = {place: _row_and_column(layout, place) for place in places}
        places_read = sorted(places, key=lambda place: at[place])
    else:
        places_read = list(places)
    return [item for place in places_read if (item := layout.itemAt(place)) is not None]


def _row_and_column(grid: QGridLayout, place: int) -> tuple[int, int]:
    return cast(tuple[int, int, int, int], grid.getItemPosition(place))[:2]
