"""The plugs page: the verdict in words, the profile columns, and the entry of a plug by keys."""

from collections.abc import Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.charts.palette import Palette
from lawnbook.desk.pages import plug_words
from lawnbook.desk.pages.chart_holder import ChartHolder
from lawnbook.desk.pages.entry_panel import Answer, EntryPanel, EntrySetting
from lawnbook.desk.pages.page import stack_page
from lawnbook.desk.pages.record_table import Row
from lawnbook.desk.widgets import (
    Caption,
    Card,
    LinkButton,
    PageScroll,
    PageTitle,
    PrimaryButton,
    Verdict,
    Words,
    mark_role,
    name_control,
)
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import SpotThatch
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.edits import default_spot_zone, next_name
from lawnbook.yard.notebook import new_id, put
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Core, Spot

if TYPE_CHECKING:
    from matplotlib.figure import Figure

NAMES = (
    "spot",
    "date",
    "thatch_in",
    "root_depth_in",
    "sponge",
    "soil_in_thatch",
    "worms",
    "pressed",
    "thatch_moisture",
    "soil_moisture",
    "clock",
    "note",
)
SPANS = {
    "spot": 3,
    "date": 3,
    "thatch_in": 6,
    "root_depth_in": 3,
    "sponge": 3,
    "soil_in_thatch": 3,
    "worms": 3,
    "pressed": 3,
    "thatch_moisture": 2,
    "soil_moisture": 2,
    "clock": 2,
    "note": 3,
}
HEADS = ("Date", "Thatch", "Spread", "Roots", "Sponge", "Soil", "Worms", "Note")
LEAST_CHART_PX, MOST_CHART_PX = 250, 460
PX_PER_ROOT_IN = 16
"""What every inch of roots beyond a shallow profile adds to the least chart; the page scrolls."""
SHALLOW_IN = 4.0
"""How deep a profile the least chart shows well."""


class PlugsPage(QWidget):
    """Plugs of one spot at a time. `selected` tells the spot that the owner turned to.

    A plug kept for a day after the one looked at does not show; it is said, and `today_asked`
    tells when the owner follows it.
    """

    selected = Signal(str, str)
    today_asked = Signal()

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("plugs_page")
        self._book = book
        self._plan: Plan | None = None
        self._spot_id = next(iter(book.notebook.spots), "")
        self._title = PageTitle("Plugs", "", self)
        self._verdict = Verdict("", self)
        name_control(self._verdict, "plugs_verdict", "What the plugs show")
        self._working = WorkingLink("working", "plugs_working", self)
        self._figures = Caption("", self, wrap=True)
        self._figures.setObjectName("plugs_figures")
        self._chart = ChartHolder("profile_columns", "Profile columns", self)
        self._scroll = PageScroll(self)
        self._panel = EntryPanel(book, self._setting(), self)
        self._heading = Words("New plug", "heading", self)
        self._later: date | None = None
        self._later_words = Words("", "ask", self)
        self._later_words.setObjectName("plugs_later")
        self._today = LinkButton("Back to today", "plugs_today", self)
        self._entry = self._entry_card()
        self._empty = self._empty_card()
        self._lay_out()
        self.setFocusProxy(self._panel.form.editor("spot"))
        self._panel.opened.connect(self._opened)
        self._panel.kept.connect(self._kept)
        self._today.clicked.connect(self.today_asked)
        self._panel.form.changed.connect(self._changed)
        self._offer_spots()

    def show_plan(self, plan: Plan) -> None:
        """Show the plugs as the plan of a day holds them."""
        self._plan = plan
        self._say_later()
        spots = self._book.notebook.spots
        if self._spot_id not in spots:
            self._spot_id = next(iter(spots), "")
            self._panel.clear()
        self._offer_spots()
        self._show()

    def select(self, table: str, record_id: str) -> None:
        """Turn to a spot, to a plug's spot, or to the first spot of a zone."""
        notebook = self._book.notebook
        wanted = self._spot_id
        if table == "spots":
            wanted = record_id
        elif table == "cores" and record_id in notebook.cores:
            wanted = notebook.cores[record_id].spot
        elif table == "zones":
            inside = [each.id for each in notebook.spots.values() if each.zone == record_id]
            wanted = self._spot_id if self._spot_id in inside else (inside or [wanted])[0]
        if wanted in notebook.spots and wanted != self._spot_id:
            self._turn(wanted)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The chart takes what the words and the form leave of the page."""
        super().resizeEvent(event)
        self._fit_chart()

    def _turn(self, spot_id: str) -> None:
        self._spot_id = spot_id
        if not self._panel.is_open:
            self._panel.form.set_value("spot", spot_id)
        self._show()

    def _spot(self) -> SpotThatch | None:
        spots = self._plan.thatch if self._plan is not None else ()
        return next((each for each in spots if each.spot_id == self._spot_id), None)

    def _show(self) -> None:
        spot = self._spot()
        any_spot = bool(self._book.notebook.spots)
        for widget in (self._verdict, self._figures, self._chart, self._entry):
            widget.setVisible(any_spot)
        self._empty.setVisible(not any_spot)
        if spot is None:
            self._title.set_subtitle("")
            self._working.set_workings(())
            return
        self._title.set_subtitle(f"{spot.spot}, {spot.zone}" if spot.zone else spot.spot)
        self._verdict.setText(spot.verdict)
        self._working.set_workings(spot.workings)
        proof = plug_words.proof(self._book.notebook) if spot.ci95 is not None else ""
        self._figures.say(f"{plug_words.shorter(spot)} {proof}".strip())
        self._chart.show_chart(self._draw, plug_words.described(spot))
        self._panel.refresh()
        self._panel.examine()
        # Once what was just said has its place: more or fewer lines leave another room.
        QTimer.singleShot(0, self, self._fit_chart)

    def _draw(self, colours: Palette, figure: "Figure | None") -> "Figure":
        from lawnbook.charts.figures import profile_figure

        spot = self._spot()
        if spot is None:
            raise RuntimeError("a chart was asked for without a spot")
        return profile_figure(spot, colours, figure)

    def _setting(self) -> EntrySetting:
        return EntrySetting(
            table="cores",
            noun="plug",
            names=NAMES,
            heads=HEADS,
            rows=self._rows,
            title=self._undo_words,
            given=lambda: {"spot": self._spot_id, "date": self._book.today},
            answer=self._answer,
            empty="No plug of this spot yet.",
            words_columns=(0, 7),
            columns=12,
            spans=SPANS,
            most_rows=8,
        )

    def _rows(self) -> Sequence[Row]:
        spot = self._spot()
        columns = reversed(spot.columns) if spot is not None else ()
        return [
            Row(each.core_id, cells, ", ".join(cell for cell in cells if cell))
            for each in columns
            for cells in (plug_words.row_cells(each),)
        ]

    def _undo_words(self, core: Core) -> str:
        spot = self._book.notebook.spots.get(core.spot)
        return f"plug of {day(core.date)}" + (f" at {spot.name}" if spot is not None else "")

    def _answer(self, values: Mapping[str, Any]) -> Answer:
        return plug_words.live_answer(values, self._spot(), self._panel.open_id), ""

    def _changed(self) -> None:
        """A spot chosen for a new plug turns the page to it."""
        chosen = self._panel.form.readable().get("spot")
        if not self._panel.is_open and chosen and chosen != self._spot_id:
            self._turn(str(chosen))
            self.selected.emit("spots", self._spot_id)

    def _opened(self, core_id: str) -> None:
        core = self._book.notebook.cores.get(core_id)
        self._heading.setText("New plug" if core is None else f"Plug of {day(core.date)}")

    def _kept(self, core_id: str) -> None:
        core = self._book.notebook.cores.get(core_id)
        self._later = core.date if core is not None else None
        self._say_later()

    def _say_later(self) -> None:
        """Say where a plug went that was kept for a day after the one looked at."""
        kept, on = self._later, self._plan.on if self._plan is not None else self._book.today
        hidden = kept is not None and kept > on
        words = f"Kept: {day(kept)} lies after the day you look at ({day(on)})." if kept else ""
        self._later_words.say(words if hidden else "")
        self._today.setVisible(hidden)
        if not hidden:
            self._later = None

    def _offer_spots(self) -> None:
        spots = self._book.notebook.spots.values()
        self._panel.form.offer("spot", [(each.id, each.name) for each in spots])

    def _add_spot(self) -> None:
        notebook = self._book.notebook
        name = next_name(notebook, "spots", "Spot")
        spot = Spot(id=new_id(), name=name, zone=default_spot_zone(notebook, None))
        self._book.edit(put(notebook, "spots", spot), f"new {name}")
        self._spot_id = spot.id
        self.selected.emit("spots", spot.id)

    def _entry_card(self) -> Card:
        card = Card("", self)
        head = QHBoxLayout()
        head.addWidget(self._heading)
        head.addWidget(Caption("keys only: Tab through, Enter keeps it"))
        head.addStretch(1)
        card.body.addLayout(head)
        card.body.addWidget(Caption(f"{plug_words.DIG} {plug_words.SCALES}", wrap=True))
        later = QHBoxLayout()
        later.addWidget(self._later_words)
        later.addWidget(self._today)
        later.addStretch(1)
        card.body.addLayout(later)
        card.body.addWidget(self._panel)
        mark_role(self._panel.keep_button, "primary")
        self._panel.table.stretch(7)
        return card

    def _empty_card(self) -> Card:
        card = Card("", self)
        card.body.addWidget(Words(plug_words.NO_SPOT))
        card.body.addWidget(Caption("The Spot tool above the sketch puts it in its place."))
        add = PrimaryButton("Add a spot", "add_spot", self)
        add.clicked.connect(self._add_spot)
        row = QHBoxLayout()
        row.addWidget(add)
        row.addStretch(1)
        card.body.addLayout(row)
        return card

    def _lay_out(self) -> None:
        words = QHBoxLayout()
        words.setSpacing(10)
        words.addWidget(self._verdict, 1)
        words.addWidget(self._working, 0, Qt.AlignmentFlag.AlignBottom)
        body = self._scroll.body
        body.addLayout(words)
        body.addWidget(self._figures)
        body.addWidget(self._chart)
        body.addWidget(self._entry)
        body.addWidget(self._empty)
        body.addStretch(1)
        stack_page(self, self._title, self._scroll)

    def _fit_chart(self) -> None:
        """As tall as lets the form end at the foot of the page, within what reads well."""
        form = self._panel.table.mapTo(self._entry, self._panel.table.rect().topLeft()).y()
        words = self._verdict.height() + self._figures.height() + 3 * self._scroll.body.spacing()
        room = self._scroll.viewport().height() - words - form - 8
        self._chart.setFixedHeight(min(max(room, self._least_chart_px()), MOST_CHART_PX))

    def _least_chart_px(self) -> int:
        """The deeper the roots go, the more room they need to be read."""
        spot = self._spot()
        roots = [each.root_depth_in or 0.0 for each in spot.columns] if spot is not None else []
        deeper = max(max(roots, default=0.0) - SHALLOW_IN, 0.0)
        return LEAST_CHART_PX + round(deeper * PX_PER_ROOT_IN)
