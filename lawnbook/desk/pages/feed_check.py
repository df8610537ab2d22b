"""Check, on the feed page: where the zone stands, the spread to be checked, and the cautions."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QScrollArea, QWidget

from lawnbook.agronomy.nitrogen import n_year
from lawnbook.desk.pages.feed_words import standing_sentence
from lawnbook.desk.pages.feed_year_words import proposed
from lawnbook.desk.pages.spread_panel import SpreadPanel
from lawnbook.desk.pages.water_sections import Section
from lawnbook.desk.widgets import Aside, LinkButton, mark_role
from lawnbook.plan.cautions import LABEL, LOCAL_FEEDING
from lawnbook.plan.model import Plan, SpreadCheck, ZoneNitrogen
from lawnbook.plan.nitrogen import nitrogen_on, product_for
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.records import Product


class CheckSection(Section):
    """The check before spreading; `checked` carries the latest `SpreadCheck` or None.

    `shelf_wanted` asks for the shelf while there is nothing on it.
    """

    checked = Signal(object)
    shelf_wanted = Signal()

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._plan: Plan | None = None
        self._zone_id = ""
        self.spread = SpreadPanel(book, self)
        self.shelf_link = LinkButton(tr("Go to the shelf"), "spread_to_shelf", self)
        self._cautions = Aside("", self)
        self._cautions.words.setObjectName("feed_cautions")
        mark_role(self._cautions.words, "caption")
        self.body.addWidget(self.spread)
        self.body.addWidget(self.shelf_link, 0, Qt.AlignmentFlag.AlignLeft)
        self.body.addWidget(self._cautions)
        self.spread.stand_with(self._workings)
        self.spread.checked.connect(self._checked)
        self.shelf_link.clicked.connect(self.shelf_wanted)

    def show_plan(self, plan: Plan, zone_id: str) -> None:
        """Show where a zone stands, and check what is entered on the plan's day."""
        self._plan, self._zone_id = plan, zone_id
        notebook = self._book.notebook
        zone = next((each for each in plan.nitrogen if each.zone_id == zone_id), None)
        self.shelf_link.setVisible(bool(notebook.zones) and not notebook.products)
        standing = standing_sentence(zone, plan.on) if zone else ""
        advised = _advised(as_of(notebook, plan.on), zone) if zone else None
        self.spread.show_plan(plan.on, standing, zone_id, advised.id if advised else "")

    def _workings(self) -> Sequence[Working]:
        """Those of the nitrogen of the zone that is picked."""
        zones = () if self._plan is None else self._plan.nitrogen
        found = next((each for each in zones if each.zone_id == self._zone_id), None)
        return () if found is None else found.workings

    def edit(self, feeding_id: str) -> None:
        """Bring a recorded feeding back to be changed; KeyError for an unknown one."""
        self.spread.edit(feeding_id)
        self.spread.entry.product.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show_year(self, plan: Plan, check: SpreadCheck | None) -> None:
        """The twelve columns of the zone picked, or of the first that is fed, with the spread."""
        fed = [each.zone_id for each in check.zones if each.pounds > 0] if check else []
        zone_id = fed[0] if fed and self._zone_id not in fed else self._zone_id
        shown = next((each for each in plan.nitrogen if each.zone_id == zone_id), None)
        self.spread.columns.setVisible(shown is not None)
        if shown is None:
            return
        latitude = self._book.notebook.yard.latitude_deg or 0.0
        same_year = check is None or n_year(check.on, latitude).label == shown.year
        # A feeding that is being changed is the proposed one, and not down as well.
        if check is not None and (self.spread.changes_record or not same_year):
            on = plan.on if same_year else check.on
            shown = nitrogen_on(self.spread.basis(), zone_id, on)
        self.spread.columns.show_year(shown, *proposed(shown, (), check, latitude))

    def _checked(self, check: SpreadCheck | None) -> None:
        # With a verdict its cautions stand beside it.
        self._cautions.say("" if check else f"{LABEL}\n{LOCAL_FEEDING}")
        if self._plan is not None:
            self._show_year(self._plan, check)
        for part in (self.spread.entry.shares.verdicts, self.spread.outcome.cautions):
            _grow_at_once(part)
        self.checked.emit(check)


def _advised(notebook: Notebook, zone: ZoneNitrogen) -> Product | None:
    """The product of a zone's next feeding; without one, what it is fed with otherwise."""
    named = zone.next_feeding.product if zone.next_feeding is not None else ""
    by_name = (each for each in notebook.products.values() if each.name == named)
    return next(by_name, None) or product_for(notebook, zone.zone_id)


def _grow_at_once(part: QWidget) -> None:
    """Let all that holds a part take its new height together.

    Left alone, each level learns of it one event later, and what stands above is squeezed until
    the page knows.
    """
    held: QWidget | None = part
    while held is not None and not isinstance(held, QScrollArea):
        held.updateGeometry()
        held = held.parentWidget()
