"""An empty window with settings of its own, for leaves to stand beside."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QApplication

from lawnbook.desk.leaf import Leaf
from lawnbook.desk.looks import Looks
from lawnbook.desk.settings import Settings
from lawnbook.desk.theme import apply_looks
from tests.leaf_hand import Host


@pytest.fixture
def host(qapp: QApplication, settings: Settings) -> Iterator[Host]:
    """An empty window with settings of its own."""
    apply_looks(qapp, Looks(theme="light"))
    made = Host(settings)
    made.show()
    yield made
    for leaf in made.findChildren(Leaf):
        leaf.close()
    made.close()
    made.deleteLater()
    apply_looks(qapp, Looks(theme="light"))
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
