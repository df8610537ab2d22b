"""The shelf, on the feed page: every product and mix in one list, and the entry of either."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from lawnbook.desk.pages.feed_records import ProductPanel
from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.pages.mix_panel import MixPanel
from lawnbook.desk.pages.page import tab_in_reading_order
from lawnbook.desk.pages.water_sections import Section
from lawnbook.desk.widgets import Card
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook

KIND_COLUMN, NARROW_PX = 1, 540
"""A narrow page leaves the kind out of the list, so that names are read whole."""
SHELF_HELP = tr(
    "Copy the numbers from the bag's label; name and total nitrogen will do to begin with."
)


class ShelfSection(Section):
    """What there is to spread; `kept` tells the product that was put on the shelf or changed."""

    kept = Signal(str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self.products = ProductPanel(book)
        self.mixes = MixPanel(book)
        shelf = Card(tr("On the shelf"))
        self.products.list_into(shelf.body)
        self.products.table.spare((KIND_COLUMN,), NARROW_PX)
        self.label_fold = Fold(tr("A product by its label"), "product_part", unfolded=True)
        self.label_fold.body.addWidget(self.products)
        self.mix_fold = Fold(tr("A mix of your own"), "mix_part")
        self.mix_fold.body.addWidget(self.mixes)
        for each in (shelf, self.label_fold, self.mix_fold):
            self.body.addWidget(each)
        self._listen()

    def show_plan(self, _plan: Plan, _zone_id: str) -> None:
        """Show the shelf as the notebook holds it; forms keep what is typed."""
        products = self._book.notebook.products
        self.products.refresh()
        self.mixes.refresh()
        self.label_fold.need("" if products else SHELF_HELP)
        mixes = sum(bool(each.ingredients) for each in products.values())
        self.label_fold.say(_count(len(products) - mixes))
        self.mix_fold.say(_count(mixes))
        tab_in_reading_order(self)

    def pick(self, product_id: str) -> None:
        """Pick a product in the list; one that is gone picks none."""
        self.products.table.pick(product_id)

    def _open_mix(self, product_id: str) -> None:
        self.mix_fold.reveal()
        self.mixes.open_record(product_id)
        self.mixes.form.focus()

    def _open_product(self, product_id: str) -> None:
        if product_id:
            self.label_fold.reveal()

    def _listen(self) -> None:
        self.products.mix_asked.connect(self._open_mix)
        self.products.opened.connect(self._open_product)
        self.products.kept.connect(self.kept)
        self.mixes.kept.connect(self.kept)


def _count(number: int) -> str:
    return f"{number}" if number else tr("none yet")
