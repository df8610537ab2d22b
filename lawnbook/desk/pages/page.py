"""What the right-hand pages share: a title that stays, and a body that scrolls below it."""

from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.desk.widgets import PageScroll, PageTitle


def stack_page(page: QWidget, title: PageTitle, scroll: PageScroll) -> QVBoxLayout:
    """Set a page's title above its scrolling body; the column is returned for more."""
    column = QVBoxLayout(page)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(10)
    column.addWidget(title)
    column.addWidget(scroll, 1)
    return column
