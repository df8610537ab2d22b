"""A quiet row of links to the leaves, with their keys, for a window without menus."""

from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.desk.leaves import LEAVES, add_leaf_actions, leaf_titles, open_leaf
from lawnbook.desk.widgets import LinkButton

SHOWN = ("help", "glossary", "settings", "about")


class LeafLinks(QWidget):
    """The links; every leaf that has a key opens by it in the whole window."""

    def __init__(self, host: QWidget) -> None:
        super().__init__(host)
        self.setObjectName("leaf_links")
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        titles = leaf_titles()
        for kind in SHOWN:
            link = LinkButton(titles[kind], f"link_{kind}", self)
            link.clicked.connect(lambda _=False, kind=kind: open_leaf(host, kind))
            row.addWidget(link)
        add_leaf_actions(host, None, tuple(LEAVES))
