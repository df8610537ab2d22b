"""The choice of a zone on top of a page, by number and name."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QWidget

from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook


class ZonePicker(QComboBox):
    """All zones in the owner's order. `zone_picked` tells the id when the owner's hand chooses."""

    zone_picked = Signal(str)

    def __init__(self, object_name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, object_name, tr("Zone"))
        self.setMinimumContentsLength(14)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMaxVisibleItems(20)
        self.activated.connect(lambda _: self.zone_picked.emit(self.zone_id()))

    def zone_id(self) -> str:
        """The id of the chosen zone, empty in a yard without zones."""
        return str(self.currentData() or "")

    def show_zones(self, notebook: Notebook) -> None:
        """Fill in the notebook's zones; the choice stays where it can. Tells nobody.

        Without zones there is nothing to choose, and nothing is shown.
        """
        wanted = [
            (f"{n} {zone.name}", zone.id) for n, zone in enumerate(notebook.zones.values(), 1)
        ]
        self.setVisible(bool(wanted))
        held = [(self.itemText(k), str(self.itemData(k))) for k in range(self.count())]
        if wanted == held:
            return
        chosen = self.zone_id()
        self.clear()
        for words, zone_id in wanted:
            self.addItem(words, zone_id)
        self.choose(chosen)

    def choose(self, zone_id: str) -> bool:
        """Choose a zone; False when there is none of that id. Tells nobody."""
        index = self.findData(zone_id)
        if index >= 0:
            self.setCurrentIndex(index)
        return index >= 0


def zone_of(notebook: Notebook, table: str, record_id: str) -> str:
    """The zone that a selected record belongs to, empty where it belongs to none."""
    if table == "zones":
        return record_id if record_id in notebook.zones else ""
    record = notebook.find(table, record_id) if table in ("heads", "spots", "catch_tests") else None
    return str(getattr(record, "zone", None) or "")
