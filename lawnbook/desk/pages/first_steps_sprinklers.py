"""The first step of sprinklers: cans, meter, heads, or a usual range and what it does."""

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.agronomy.usual_rates import SprinklerKind
from lawnbook.desk.figures import FigureHand, let_open
from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.first_steps_card import StepCard
from lawnbook.desk.pages.water_figures import FigureTable
from lawnbook.desk.pages.zone_settings import Group, ZoneSettings
from lawnbook.desk.widgets import Caption, QuietButton, name_control
from lawnbook.plan.assumed import kind_told, range_told, with_usual_rate
from lawnbook.plan.model import MonthWater, Plan
from lawnbook.plan.rate_span import RateSpan, rate_span
from lawnbook.plan.workings import run_minutes_told
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.notebook import put
from lawnbook.yard.numbers import MONTHS, minutes

if TYPE_CHECKING:
    from lawnbook.plan.working_model import Working

CANS = "Water: cans"


class SprinklersCard(StepCard):
    """How fast the water falls on a zone; evidence first, a usual range where there is none."""

    STEP = "sprinklers"
    LEAVES_BY_LINK = False

    def title(self) -> str:
        """The name of the step."""
        return tr("Sprinklers")

    def what(self) -> str:
        """What there is to do."""
        return tr(
            "How fast the water falls sets the minutes. Cans set out for a quarter of an hour tell "
            "it best; the water meter is next, then the flows of the heads."
        )

    def lay_out(self) -> None:
        """The three ways to know it, then the range for who does not."""
        column = QVBoxLayout(self.inside)
        column.setContentsMargins(0, 0, 0, 0)
        cans = self.button(tr("Set out cans"), "cans", CANS)
        cans.pressed.connect(lambda: self.selected.emit("zones", self._zone_id))
        heads = self.button(tr("Place the heads"), "heads", "Head")
        column.addLayout(self.row(cans, heads))
        meter = Group("", ("flow_gpm", "precipitation_in_per_h"), columns=2)
        self._meter = ZoneSettings(self._book, (meter,), "first_zone_", self)
        column.addWidget(self._meter)
        self._guess = QWidget(self)
        self._lay_out_guess(QVBoxLayout(self._guess))
        column.addWidget(self._guess)

    def _lay_out_guess(self, column: QVBoxLayout) -> None:
        column.setContentsMargins(0, 4, 0, 0)
        self._span: RateSpan | None = None
        self.kind = ChoiceBox(self)
        name_control(self.kind, "first_kind", tr("I don’t know the rate: what the sprinklers are"))
        self.kind.addItem(tr("Choose what they are"), None)
        for kind, words in _choices():
            self.kind.addItem(words, kind)
        self.kind.setMinimumContentsLength(30)
        self.kind.activated.connect(lambda _: self._show_span())
        label = Caption(tr("I don’t know the rate. The sprinklers are"), self)
        label.setBuddy(self.kind)
        self.table = FigureTable("first_span", tr("What the range does to the minutes"), self)
        self.span_words = Caption("", self, wrap=True)
        self.span_words.setObjectName("first_span_words")
        self.take = QuietButton(tr("Take the middle for now"), "first_take_rate", self)
        self.take.clicked.connect(self._take)
        let_open(self._span_workings, self.table, self.span_words)
        FigureHand(self.take, self._span_workings, by_click=False)
        column.addWidget(label)
        column.addLayout(self.row(self.kind))
        column.addWidget(self.table)
        column.addWidget(self.span_words)
        column.addLayout(self.row(self.take))

    def fill(self, plan: Plan) -> None:
        """The zone's own figures; the range only while nothing was measured."""
        self._meter.show_zone(self._zone_id)
        water = next((each for each in plan.zones if each.zone_id == self._zone_id), None)
        measured = water is not None and water.rate_source not in (None, "typed")
        self._guess.setVisible(not measured)
        self._show_span()

    def _show_span(self) -> None:
        """What the chosen kind's range does to the minutes, by the plan."""
        kind: SprinklerKind | None = self.kind.currentData()
        zone = self.zone
        shown = kind is not None and zone is not None and self.fold.is_unfolded
        for each in (self.table, self.span_words, self.take):
            each.setVisible(shown)
        self._span = None
        if kind is None or zone is None or not shown:
            return
        span = self._span = rate_span(self._book.notebook, zone, kind, self._book.today)
        show_span(self.table, span)
        self.span_words.setText(span_told(span, kind))
        middle = told(span.usual.middle_in_per_h, 2, "in/h")
        words = tr("Take the middle, {rate}, for now", rate=middle)
        self.take.setText(words)
        self.take.setAccessibleName(words)

    def _span_workings(self) -> "tuple[Working, ...]":
        """The chosen kind's range, and the minutes at both its ends."""
        kind: SprinklerKind | None = self.kind.currentData()
        zone, span = self.zone, self._span
        if kind is None or zone is None or span is None:
            return ()
        from lawnbook.plan.assumed_workings import span_workings

        return span_workings(self._book.notebook, zone, kind, span, self._book.today)

    def _take(self) -> None:
        kind: SprinklerKind | None = self.kind.currentData()
        if kind is not None and self.zone is not None:
            zone = with_usual_rate(self.zone, kind)
            label = tr("usual rate of {name}", name=zone.name)
            self.edit(put(self._book.notebook, "zones", zone), label)


def _choices() -> list[tuple[SprinklerKind, str]]:
    """The kinds in the words of who looks at them run."""
    return [
        ("fixed sprays", tr("fixed sprays: a fan of water that stands still")),
        ("rotors", tr("rotors: one stream that sweeps to and fro")),
        ("rotating streams", tr("rotating streams: several thin ones that turn")),
        ("any sprinklers", tr("no idea")),
    ]


def show_span(table: FigureTable, span: RateSpan) -> None:
    """The two ends of a usual range side by side: rate, minutes of a watering, of an inch."""
    low, high = span.usual.low_in_per_h, span.usual.high_in_per_h
    heads = (
        "",
        tr("slowest, {rate}", rate=told(low, 2, "in/h")),
        tr("fastest, {rate}", rate=told(high, 2, "in/h")),
    )
    rows = [
        (
            tr("To store {depth}", depth=told(1.0, 2, "in")),
            (minutes(span.inch_low), minutes(span.inch_high)),
        )
    ]
    if not span.reason:
        month = tr(MONTHS[span.low.month - 1])
        cells = (_run_told(span.low), _run_told(span.high))
        rows.insert(0, (tr("A watering in {month}, by the plan", month=month), cells))
    told_rows = "; ".join(f"{name}: {heads[1]} {a}, {heads[2]} {b}" for name, (a, b) in rows)
    table.show_rows(heads, rows, told_rows)


def span_told(span: RateSpan, kind: SprinklerKind) -> str:
    """What the range means, in a sentence or two."""
    factor = span.usual.high_in_per_h / span.usual.low_in_per_h
    means = tr(
        "{kind} usually put down {range}. Minutes at the slow end are {factor} times those at the "
        "fast end: cans narrow that to a few percent.",
        kind=kind_told(kind).capitalize(),
        range=range_told(span.usual),
        factor=told(factor, 1),
    )
    later = tr("The minutes of a watering follow once the weather is known.")
    return f"{means} {later}" if span.reason else means


def _run_told(month: MonthWater) -> str:
    """Minutes of a run as a timer is set."""
    whole = run_minutes_told(month)
    return "–" if whole is None else minutes(whole)
