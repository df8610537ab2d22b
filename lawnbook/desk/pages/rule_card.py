"""The owner's local rule of feeding: a card to fill in by hand, or from an example."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.agronomy.nitrogen import MAX_QUICK_LB, MAX_TOTAL_LB
from lawnbook.agronomy.rule_cards import CARDS, RuleCard
from lawnbook.agronomy.soil_test import P_ENOUGH_PPM
from lawnbook.agronomy.sources import cite
from lawnbook.desk.forms import FormSetting
from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.feed_rules_words import card_lines, example_name, filled_from, is_example
from lawnbook.desk.pages.live_form import LiveForm
from lawnbook.desk.telling import Label, either, follow
from lawnbook.desk.widgets import Aside, Caption, QuietButton, Words, name_control
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.amounts import RATE_UNIT, bare, told, unit_shown
from lawnbook.yard.notebook import put
from lawnbook.yard.problems import OwnerError

RULE_FIELDS = (
    "name",
    "max_total_lb",
    "max_quick_lb",
    "year_lb",
    "min_slow_pct",
    "min_days",
    "waterside_ft",
    "phosphorus_needs_test",
    "p_enough_ppm",
    "blackouts",
)
COLUMNS = 3
LABELS: dict[str, Label] = {
    "max_total_lb": lambda: _limit(tr("Most at once")),
    "max_quick_lb": lambda: _limit(tr("Most quick at once")),
    "year_lb": lambda: _limit(tr("Most in a year")),
    "min_slow_pct": tr("Least slow share, % of the N"),
    "p_enough_ppm": tr("Phosphorus that is enough, ppm"),
}
HELP = tr(
    "A blackout is a span of days on which nothing may be spread, such as 15 Nov "
    "to 1 Mar; several with semicolons. The strip lies beside water drawn on the "
    "sketch."
)
FROM_EXAMPLE = tr(
    "Filled in from an example that may be out of date, and the rule where you "
    "live may differ: check every figure against the rule itself, then give the "
    "card a name of your own."
)
NO_EXAMPLE = tr("Look at an example…")
EXAMPLES = tr("Examples of local rules, none of them to be relied on")


def _limit(words: str) -> str:
    """A limit of nitrogen with the owner's unit."""
    return f"{words}, {either('lb N', unit_shown('lb N per 1,000 sq ft'))}"


def help_words() -> str:
    """What the figures of the rule mean, and what holds where they are empty."""
    us = tr(
        "Pounds of nitrogen (N) are per 1,000 sq ft. Where a field is empty the usual "
        "limits hold: {max_total_lb:g} lb at once, {max_quick_lb:g} of it quick, and "
        "phosphorus (P) counts as enough from {p_enough_ppm:g} ppm.",
        max_total_lb=MAX_TOTAL_LB,
        max_quick_lb=MAX_QUICK_LB,
        p_enough_ppm=P_ENOUGH_PPM,
    )
    metric = tr(
        "Where a field is empty the usual limits hold: {total} of nitrogen (N) at once, {quick} "
        "of it quick, and phosphorus (P) counts as enough from {enough} ppm.",
        total=told(MAX_TOTAL_LB, 1, RATE_UNIT),
        quick=bare(MAX_QUICK_LB, 1, RATE_UNIT),
        enough=f"{P_ENOUGH_PPM:g}",
    )
    return f"{either(us, metric)} {HELP}"


class RuleCardPanel(QWidget):
    """The owner's rule as a form whose fields are kept one by one, and the examples below it."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._warning = Words("", "warn", self)
        self._warning.setObjectName("rule_warning")
        setting = FormSetting(
            today=book.today,
            prefix="limit_",
            spans={"name": COLUMNS, "blackouts": COLUMNS},
            labels=LABELS,
        )
        self.form = LiveForm(book, "n_rules", RULE_FIELDS, self, COLUMNS, setting)
        self.choice = ChoiceBox(self)
        name_control(self.choice, "rule_example", EXAMPLES)
        self.choice.addItem(NO_EXAMPLE, "")
        for card in CARDS:
            self.choice.addItem(card.name, card.name)
        self.fill_button = QuietButton(tr("Fill in from this example"), "rule_fill", self)
        self._example = Aside("", self)
        self._example.words.setObjectName("rule_example_words")
        self._trouble = Words("", "refuse", self)
        self._trouble.setObjectName("rule_trouble")
        self._lay_out()
        self.choice.activated.connect(lambda _: self._show_example())
        self.fill_button.clicked.connect(self.fill_in)
        self._show_example()

    def retell(self) -> None:
        """The example in the owner's units."""
        self._show_example()

    def refresh(self) -> None:
        """Show the rule as the notebook holds it."""
        self.form.show_record("n_rules")
        self._warning.say(FROM_EXAMPLE if is_example(self._book.notebook.n_rules) else "")
        self._show_button()

    def example(self) -> RuleCard | None:
        """The example that is looked at."""
        return next((card for card in CARDS if card.name == self.choice.currentData()), None)

    def fill_in(self) -> None:
        """Fill the card in from the example that is looked at: one change, to be undone at once."""
        card = self.example()
        if card is None:
            return
        notebook = self._book.notebook
        change = put(notebook, "n_rules", filled_from(card, notebook.n_rules))
        # The button has nothing more to do: without this the keyboard would leave the card with it.
        self.choice.setFocus(Qt.FocusReason.OtherFocusReason)
        try:
            self._book.edit(change, tr("rule from an example"))
        except OwnerError as problem:
            self._trouble.say(str(problem), "refuse")
            return
        self._trouble.say("")

    def _show_example(self) -> None:
        card = self.example()
        words = "" if card is None else _example_words(card)
        self._example.say(words)
        self._show_button()

    def _show_button(self) -> None:
        """An example that the card is filled in from already is not offered again."""
        card = self.example()
        held = self._book.notebook.n_rules
        fresh = card is not None and filled_from(card, held) != held
        self.fill_button.setEnabled(fresh)

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(10)
        row.addWidget(self.choice, 1)
        row.addWidget(self.fill_button)
        label = Caption(EXAMPLES, self)
        label.setBuddy(self.choice)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.form)
        helping = Caption("", self, wrap=True)
        follow(helping, help_words)
        column.addWidget(helping)
        column.addSpacing(6)
        column.addWidget(label, 0, Qt.AlignmentFlag.AlignLeft)
        column.addLayout(row)
        # Below the button that brings them, so that it stands still.
        for each in (self._trouble, self._warning, self._example):
            column.addWidget(each)


def _example_words(card: RuleCard) -> str:
    """All that an example says: its figures, what the card cannot hold, and how old it may be."""
    return "\n".join(
        (
            example_name(card),
            *card_lines(card),
            card.beyond,
            card.note,
            tr("Source: {cite}", cite=cite(card.source_key)),
        )
    )
