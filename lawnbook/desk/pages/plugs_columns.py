"""Columns, on the plugs page: the verdict, the plugs drawn to scale, and the entry of the next."""

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.charts.palette import Palette
from lawnbook.charts.profile_hits import Hit, profile_hits
from lawnbook.charts.told_plugs import profile_summary
from lawnbook.desk.pages import plug_words
from lawnbook.desk.pages.chart_holder import ChartHolder, Export, picture_path
from lawnbook.desk.pages.page import beside
from lawnbook.desk.pages.place_picker import spots_at
from lawnbook.desk.pages.plug_entry import PlugEntry
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.pages.water_sections import Section
from lawnbook.desk.telling import captioned
from lawnbook.desk.theme import px
from lawnbook.desk.widgets import (
    Caption,
    Card,
    LinkButton,
    PrimaryButton,
    Verdict,
    Words,
    name_control,
)
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.core_workings import core_workings
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import Place, SpotThatch, ZoneThatch
from lawnbook.plan.roots import zone_of_spot
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.edits import default_spot_zone, next_name
from lawnbook.yard.notebook import new_id, put
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Spot

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from lawnbook.charts.marks import Frame, Picture

PICTURE_PT = (540.0, 340.0)
"""The size of the columns saved as a picture, in points."""
LEAST_CHART_PX, MOST_CHART_PX = 250, 460
LEAST_WITH_SEVERAL_PX = 284
"""Of several plugs: there is a trend to be read, and the page may scroll."""
MEAN_ROW_PX = 20
PX_PER_ROOT_IN = 16
"""What every inch of roots beyond a shallow profile adds to the least chart; the page scrolls."""
SHALLOW_IN = 4.0
"""How deep a profile the least chart shows well."""
FINDING_ROLE = {"good": "good", "note": "", "warn": "warn"}


def spot_heads() -> tuple[str, ...]:
    """The heads of the table of spots."""
    figures = (captioned(each, "in") for each in (tr("First"), tr("Latest"), tr("In a year")))
    return (tr("Spot"), tr("Plugs"), *figures, tr("What they show"))


class ColumnsSection(Section):
    """The plugs of a place. `selected` tells a spot that is turned to.

    `next_asked` asks for the findings, `today_asked` for today: a plug kept for a day after the one
    looked at does not show, which is said.
    """

    selected = Signal(str, str)
    next_asked = Signal()
    today_asked = Signal()

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._plan: Plan | None = None
        self._place = Place("yard", "")
        self._verdict = Verdict("", self)
        name_control(self._verdict, "plugs_verdict", tr("What the plugs show"))
        self._working = WorkingLink(tr("working"), "plugs_working", self)
        self._figures = Caption("", self, wrap=True)
        self._figures.setObjectName("plugs_figures")
        self._finding = Words("", "", self)
        self._finding.setObjectName("plugs_finding")
        self._more = LinkButton("", "plugs_more", self)
        self._chart = ChartHolder("profile_columns", tr("Profile columns"), self)
        self._later: date | None = None
        self._later_words = Words("", "ask", self)
        self._later_words.setObjectName("plugs_later")
        self._today = LinkButton(tr("Back to today"), "plugs_today", self)
        self._spots = RecordTable(
            spot_heads, ("plug_spots", tr("Spots of this place")), (0, 5), 6, self
        )
        self._spots.stretch(5)
        self._turn = LinkButton(tr("Turn to this spot"), "plug_spots_turn", self)
        self.entry = PlugEntry(book, self)
        self._empty = self._empty_card()
        self._lay_out()
        self._working.stand_for(self._verdict, self._figures, self._finding)
        self._chart.let_hits_open(self._column_workings)
        self._spots.explain(self._spot_workings)
        self._listen()

    def show_plan(self, plan: Plan, place: Place) -> None:
        """Show the plugs of a place as the plan of a day holds them."""
        self._plan, self._place = plan, place
        self._say_later()
        shown = plug_words.shown_of(plan, place)
        spots = spots_at(self._book.notebook, place)
        for widget in (self._verdict, self._figures, self._chart):
            widget.setVisible(bool(spots))
        self.entry.setVisible(bool(self._book.notebook.spots))
        self._show_empty(any_here=bool(spots))
        if not spots:
            shown = None
        self._verdict.setText(plug_words.verdict_of(shown))
        self._working.set_workings(plug_words.workings_of(shown))
        self._figures.say(plug_words.figures_told(shown, self._book.notebook))
        self._show_chart(shown)
        self._show_finding(plan)
        self._show_spots(plan, spots)
        self.entry.show_place(plan, place)

    def _column_workings(self, pointed: str) -> Sequence[Working]:
        """Those of the plugs of a column that is pointed at; of the place where none is.

        The figure beneath the column that lies under the pointer comes first.
        """
        core_ids, _, part = pointed.partition("#")
        if not core_ids:
            return self._working.workings()
        of_plugs = (core_workings(self._book.notebook, each) for each in core_ids.split())
        listed = [working for each in of_plugs for working in each]
        own = f"plug_{part}:"
        return sorted(listed, key=lambda working: not working.figure.startswith(own))

    def _spot_workings(self, spot_id: str) -> Sequence[Working]:
        """Those of a spot."""
        thatch = () if self._plan is None else self._plan.thatch
        found = next((each for each in thatch if each.spot_id == spot_id), None)
        return () if found is None else found.workings

    def open_plug(self, core_id: str) -> None:
        """Bring a kept plug into the form, and the form into sight."""
        self.entry.open_plug(core_id)
        self.entry.panel.form.focus("thatch_in")

    def fit_chart(self, room_px: int) -> None:
        """As tall as lets the form end at the foot of the page, within what reads well."""
        table = self.entry.panel.table
        form = table.mapTo(self.entry, table.rect().topLeft()).y()
        said = [self._verdict, self._figures, self._finding, self._spots, self._turn]
        words = sum(each.height() + self.body.spacing() for each in said if not each.isHidden())
        room = room_px - words - form - 2 * self.body.spacing()
        self._chart.setFixedHeight(min(max(room, px(self._least_chart_px())), px(MOST_CHART_PX)))

    def _least_chart_px(self) -> int:
        """The deeper the roots go, the more room they need to be read."""
        shown = plug_words.shown_of(self._plan, self._place) if self._plan is not None else None
        columns = shown.columns if shown is not None else ()
        deepest = max((each.root_depth_in or 0.0 for each in columns), default=0.0)
        least = LEAST_CHART_PX if len(columns) < 2 else LEAST_WITH_SEVERAL_PX
        means = MEAN_ROW_PX if isinstance(shown, ZoneThatch) else 0
        return least + means + round(max(deepest - SHALLOW_IN, 0.0) * PX_PER_ROOT_IN)

    def _show_chart(self, shown: SpotThatch | ZoneThatch | None) -> None:
        # Where no plug was pulled yet the form is what is looked for.
        self._chart.setVisible(shown is not None and bool(shown.columns))
        if shown is None:
            self._chart.show_chart(None, "")
            return
        described = f"{profile_summary(shown)} {plug_words.described(shown)}"
        self._chart.show_chart(self._draw, described, self._hits, self._export(shown))

    def _shown(self) -> SpotThatch | ZoneThatch:
        shown = plug_words.shown_of(self._plan, self._place) if self._plan is not None else None
        if shown is None:
            raise RuntimeError("a chart was asked for without a plug")
        return shown

    def _draw(self, colours: Palette, figure: "Figure | None") -> "Figure":
        from lawnbook.charts.figures import profile_figure

        return profile_figure(self._shown(), colours, figure)

    def _hits(self, frame: "Frame") -> Sequence[Hit]:
        return profile_hits(self._shown().columns, frame)

    def _export(self, shown: SpotThatch | ZoneThatch) -> Export | None:
        """How the columns are saved as a picture; None before the first."""
        if not shown.columns or self._plan is None:
            return None
        name = shown.spot if isinstance(shown, SpotThatch) else shown.evidence.place

        def drawing(frame: "Frame") -> "Picture":
            from lawnbook.charts.figures import profile_drawing

            return profile_drawing(shown)(frame)

        return Export(drawing, PICTURE_PT, picture_path(self._book.path, self._plan, name, "plugs"))

    def _show_finding(self, plan: Plan) -> None:
        spot = self._book.notebook.spots.get(self._place.id)
        zone_id = zone_of_spot(self._book.notebook, spot) if spot is not None else ""
        found = plug_words.findings_at(plan, self._place, zone_id)
        first = found[0] if found else None
        self._finding.say(
            first.sentence if first is not None else "",
            FINDING_ROLE[first.weight] if first is not None else None,
        )
        self._more.setText(plug_words.more_told(found))
        self._more.setAccessibleName(self._more.text())
        self._more.setVisible(first is not None)

    def _show_spots(self, plan: Plan, spots: tuple[Spot, ...]) -> None:
        """The spots behind a mean, each with what its own plugs show."""
        ids = {each.id: each.comparison for each in spots}
        wanted = self._place.kind != "spot" and bool(spots)
        rows = [
            Row(each.spot_id, cells, f"{cells[0]}: {each.verdict}")
            for each in plan.thatch
            if wanted and each.spot_id in ids
            for cells in (plug_words.spot_cells(each, ids[each.spot_id]),)
        ]
        self._spots.show_rows(rows)
        self._spots.setVisible(bool(rows))
        self._turn.setVisible(bool(rows) and bool(self._spots.picked_id()))

    def _picked(self, core_ids: str) -> None:
        """A plug clicked on the chart opens in the form; a mean leads to its first spot."""
        core = self._book.notebook.cores.get(core_ids.partition(" ")[0])
        if core is None:
            return
        if self._place.kind != "spot":
            self.selected.emit("spots", core.spot)
        if " " not in core_ids:
            self.open_plug(core.id)

    def _turn_to_spot(self, spot_id: str) -> None:
        if spot_id:
            self.selected.emit("spots", spot_id)

    def _kept(self, core_id: str) -> None:
        core = self._book.notebook.cores.get(core_id)
        self._later = core.date if core is not None else None
        self._say_later()

    def _say_later(self) -> None:
        """Say where a plug went that was noted for a day after the one looked at."""
        kept, on = self._later, self._plan.on if self._plan is not None else self._book.today
        hidden = kept is not None and kept > on
        words = (
            tr("Noted: {kept} lies after the day you look at ({on}).", kept=day(kept), on=day(on))
            if kept
            else ""
        )
        self._later_words.say(words if hidden else "")
        self._today.setVisible(hidden)
        if not hidden:
            self._later = None

    def _add_spot(self) -> None:
        notebook = self._book.notebook
        name = next_name(notebook, "spots", tr("Spot"))
        zone_id = default_spot_zone(notebook, None)
        if self._place.kind == "zone":
            zone_id = self._place.id
        spot = Spot(id=new_id(), name=name, zone=zone_id)
        self._book.edit(put(notebook, "spots", spot), tr("new {name}", name=name))
        self.selected.emit("spots", spot.id)

    def _show_empty(self, *, any_here: bool) -> None:
        self._empty.setVisible(not any_here)
        here = bool(self._book.notebook.spots)
        self._empty_words.setText(plug_words.NO_SPOT_HERE if here else plug_words.NO_SPOT)

    def _empty_card(self) -> Card:
        card = Card("", self)
        self._empty_words = Words(plug_words.NO_SPOT, "", card)
        card.body.addWidget(self._empty_words)
        card.body.addWidget(
            Caption(tr("The Spot tool above the sketch puts it in its place."), card)
        )
        add = PrimaryButton(tr("Add a spot"), "add_spot", card)
        add.clicked.connect(self._add_spot)
        row = QHBoxLayout()
        row.addWidget(add)
        row.addStretch(1)
        card.body.addLayout(row)
        return card

    def _lay_out(self) -> None:
        # The verdict has the whole width, so that it seldom needs a second line.
        self.body.addWidget(self._verdict)
        self.body.addLayout(beside(self._figures, self._working))
        self.body.addWidget(self._chart)
        self.body.addLayout(beside(self._finding, self._more))
        self.body.addWidget(self._spots)
        turn = QHBoxLayout()
        turn.addStretch(1)
        turn.addWidget(self._turn)
        self.body.addLayout(turn)
        later = QHBoxLayout()
        later.addWidget(self._later_words)
        later.addWidget(self._today)
        later.addStretch(1)
        self.entry.body.insertLayout(1, later)
        self.body.addWidget(self.entry)
        self.body.addWidget(self._empty)

    def _listen(self) -> None:
        self._more.clicked.connect(self.next_asked)
        self._today.clicked.connect(self.today_asked)
        self._chart.picked.connect(self._picked)
        self.entry.panel.opened.connect(self._chart.mark)
        self._spots.opened.connect(self._turn_to_spot)
        self._spots.picked.connect(lambda _: self._turn.show())
        self._turn.clicked.connect(lambda: self._turn_to_spot(self._spots.picked_id()))
        self.entry.spot_chosen.connect(self._turn_to_spot)
        self.entry.kept.connect(self._kept)
