"""The check before spreading: what, how much, where and when; and the verdict as it is typed."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from types import MappingProxyType

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.figures import Ask, let_open
from lawnbook.desk.pages.feed_words import idle_sentence
from lawnbook.desk.pages.spread_entry import SpreadEntry
from lawnbook.desk.pages.spread_modes import BY_RATE, Proposal
from lawnbook.desk.pages.spread_outcome import SpreadOutcome
from lawnbook.desk.pages.year_columns import YearColumns
from lawnbook.desk.roles import announce
from lawnbook.desk.telling import either
from lawnbook.desk.widgets import Card, LinkButton, PrimaryButton, Verdict, Words, mark_role
from lawnbook.plan.feed_model import SpreadPass
from lawnbook.plan.model import SpreadCheck
from lawnbook.plan.spread import check_spread
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.amounts import trimmed
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.check import check
from lawnbook.yard.notebook import Notebook, apply, new_id, put
from lawnbook.yard.numbers import and_joined, day
from lawnbook.yard.problems import OwnerError, Problem, asked, refused
from lawnbook.yard.records import Feeding

PAUSE_MS = 120
COLUMNS_PX = 172
WAS_IT_POUNDS = tr(
    "That is a rate of nitrogen; if pounds of product were meant, choose them under “of”."
)
WAS_IT_KG = tr(
    "That is a rate of nitrogen; if kilograms of product were meant, choose them under “of”."
)
STILL_TO_COME = tr("A check only; it can be recorded on the day.")


class SpreadPanel(QWidget):
    """Entry, verdict and record of one feeding; also where a recorded feeding is changed.

    `checked` carries the latest `SpreadCheck`, or None while there is nothing to check. `columns`
    is the place of the year below the verdict, filled by whoever holds the plan.
    """

    checked = Signal(object)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._editing: Feeding | None = None
        self._asked = False
        self._refused = False
        self._passes: tuple[SpreadPass, ...] = ()
        self._pass_in: int | None = None
        self._recorded = ""
        self.check: SpreadCheck | None = None
        self.entry = SpreadEntry(book, self)
        self.outcome = SpreadOutcome(self)
        self.columns = YearColumns("check_chart", COLUMNS_PX, self, on_card=True)
        self._make_words()
        self._lay_out()
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._listen()

    def show_plan(self, on: date, standing: str, zone_id: str, product_id: str) -> None:
        """Take on the notebook and the plan's day, and check again at once.

        `standing` says where the zone picked on the page stands; that zone is proposed, with the
        product advised for it, as long as nothing has been typed.
        """
        notebook = self._book.notebook
        self.entry.show_notebook()
        self.entry.show_day(on)
        self._standing.say(idle_sentence(notebook, standing))
        if self._recorded not in notebook.feedings:
            self._done.say("")
        self._card.setVisible(bool(notebook.zones and notebook.products))
        if self._editing is not None:
            held = notebook.feedings.get(self._editing.id)
            if held is None:
                self.start_anew()
            elif held is not self._editing:
                self.edit(held.id)
        elif zone_id:
            self.entry.propose(zone_id, product_id)
        self.examine()

    def edit(self, feeding_id: str) -> None:
        """Bring a recorded feeding back to be changed; KeyError for an unknown one."""
        self._pass_in = None
        self._done.say("")
        feeding = self._book.notebook.feedings[feeding_id]
        self._editing = feeding
        self.entry.load(feeding)
        self.examine()

    def start_anew(self) -> None:
        """Leave a feeding that was being changed; the form is for a new one again."""
        self._editing, self._pass_in = None, None
        self.entry.clear()
        self.examine()

    @property
    def changes_record(self) -> bool:
        """Whether a recorded feeding is being changed."""
        return self._editing is not None

    def examine(self) -> None:
        """Check what is entered now and say what comes of it."""
        self._asked = False
        self._note.say("", "refuse")
        self._examine()

    def fill_most(self) -> None:
        """Put in the most product that fits on each ticked zone that day; say why if it is none."""
        proposal = self._readable_proposal()
        most = self._check_of(proposal, {}) if proposal else None
        if most is not None:
            self.entry.put_most(most)
            self.examine()
            if not self.entry.shares.any_typed():
                why = dict.fromkeys(each for zone in most.zones for each in zone.why_none)
                because = tr(", because {tuple}", tuple=and_joined(tuple(why))) if why else ""
                self._note.say(
                    tr("Nothing fits on {on}{because}.", on=day(most.on), because=because), "ask"
                )

    def go_to_first_day(self) -> None:
        """Put in the first day on which all of it passes."""
        if self.check is not None and self.check.earliest_date is not None:
            self._pass_in = None
            self.entry.put_day(self.check.earliest_date)
            self.examine()

    def take_pass(self, place: int) -> None:
        """Put one pass of the split into the entry; the others stay on offer."""
        self._pass_in = place
        self.entry.put_pass(self._passes[place])
        self.examine()

    def take_setting(self, place: int) -> None:
        """Put in one of the settings that the check proposes."""
        if self.check is not None:
            self.entry.put_setting(self.check.settings[place])
            self.examine()

    def record(self) -> None:
        """Write the feeding into the notebook; over the budget or doubtful only if asked twice."""
        self._examine()
        proposal = self._readable_proposal()
        if proposal is None or self.check is None or self._refused:
            return
        feeding = self._feeding(proposal)
        doubts = self._doubts(feeding)
        if doubts and not self._asked:
            self._asked = True
            self._note.say(" ".join(doubts), "ask")
            self._say_buttons()
            return
        self._keep(feeding)

    def _keep(self, feeding: Feeding) -> None:
        change = put(self._book.notebook, "feedings", feeding)
        try:
            self._book.edit(change, tr("feeding of {date}", date=day(feeding.date)))
        except OwnerError as problem:
            self._note.say(str(problem), "refuse")
            return
        self._recorded = feeding.id
        following = self._passes[self._pass_in + 1 :] if self._pass_in is not None else ()
        self.start_anew()
        weight = trimmed(sum(feeding.pounds.values()), 2, "lb")
        coming = (
            tr(" The next pass is for {date}.", date=day(following[0].date)) if following else ""
        )
        self._done.say(
            tr(
                "Recorded: {weight} on {date}.{coming}",
                weight=weight,
                date=day(feeding.date),
                coming=coming,
            )
        )

    def _examine(self) -> None:
        self._pause.stop()
        proposal = self._readable_proposal()
        self.check = None
        most: SpreadCheck | None = None
        if proposal is not None:
            self.check = self._check_of(proposal, proposal.pounds) if proposal.pounds else None
            if self._feeds(proposal.product_id):
                # What fits on a day does not hang on the pounds that are asked about.
                most = self.check or self._check_of(proposal, {})
        known = proposal if self.check is not None else None
        self._refused = known is not None and self._say_refusals(known)
        self.entry.shares.show_check(self.check, most)
        self._say_verdict()
        self._show_outcome()
        self._say_buttons()
        self.checked.emit(self.check)

    def _say_verdict(self) -> None:
        """The verdict in the colour of yes or no, which its first words say as well."""
        check = self.check
        said = "" if check is None else check.verdict
        news = said and said != self.verdict.text()
        self.verdict.say(said)
        state = "" if check is None else "good" if check.within else "refuse"
        mark_role(self.verdict, "verdict", state)
        if news:
            announce(self.verdict, said)

    def _check_of(self, proposal: Proposal, pounds: Mapping[str, float]) -> SpreadCheck | None:
        """The check of pounds on the ticked zones, of none where none are given."""
        wanted = {zone_id: pounds.get(zone_id, 0.0) for zone_id in proposal.zone_ids}
        on, areas, conditions = proposal.on, proposal.areas, proposal.conditions
        try:
            return check_spread(self.basis(), proposal.product_id, wanted, on, areas, conditions)
        except OwnerError as problem:
            self._note.say(str(problem), "refuse")
            return None

    def _feeds(self, product_id: str) -> bool:
        """Whether a product carries nitrogen, so that a most that fits can be told."""
        product = self._book.notebook.products.get(product_id)
        return product is not None and analysis_of(product).n_pct > 0

    def basis(self) -> Notebook:
        """The notebook to check against: without the feeding that is being changed."""
        notebook = self._book.notebook
        if self._editing is None:
            return notebook
        return apply(notebook, {("feedings", self._editing.id): (self._editing, None)})

    def _readable_proposal(self) -> Proposal | None:
        """What is entered; None where something is missing, or wrong and said so."""
        try:
            return self.entry.proposal()
        except OwnerError as problem:
            self._note.say(str(problem), "refuse")
            return None

    def _feeding(self, proposal: Proposal) -> Feeding:
        base = self._editing or Feeding(
            id=new_id(), date=proposal.on, product=proposal.product_id, pounds={}
        )
        # Frozen with the feeding is the area that the check went by, less what the strips take.
        checked = () if self.check is None else self.check.zones
        areas = {
            each.zone_id: each.area_sqft for each in checked if each.zone_id in proposal.pounds
        }
        return replace(
            base,
            date=proposal.on,
            product=proposal.product_id,
            pounds=MappingProxyType(dict(proposal.pounds)),
            treated_area_sqft=MappingProxyType(areas),
            spreader=proposal.conditions.spreader,
            setting=proposal.setting,
        )

    def _problems(self, feeding: Feeding) -> tuple[Problem, ...]:
        change = put(self._book.notebook, "feedings", feeding)
        return check(feeding, apply(self._book.notebook, change), self._book.today)

    def _say_refusals(self, proposal: Proposal) -> bool:
        """Say why what is entered may be checked but not recorded; whether there is a reason.

        That the day is still to come is no mistake: it is said quietly, and only by itself.
        """
        all_problems = self._problems(self._feeding(proposal))
        problems = refused(all_problems)
        ahead = proposal.on > self._book.today
        wrong = [each.sentence for each in problems if not (ahead and each.field == "date")]
        slips = [each.sentence for each in asked(all_problems) if _is_a_slip(each)]
        if slips and self.entry.mode.currentData() == BY_RATE:
            slips.insert(0, either(tr(WAS_IT_POUNDS), tr(WAS_IT_KG)))
        if wrong:
            self._note.say(" ".join(wrong), "refuse")
        elif slips:
            self._note.say(" ".join(slips), "ask")
        else:
            self._note.say(STILL_TO_COME if problems else "", "caption")
        return bool(problems)

    def _doubts(self, feeding: Feeding) -> list[str]:
        doubts = [each.sentence for each in asked(self._problems(feeding))]
        if self.check is not None and not self.check.within:
            doubts.append(tr("This is more than fits; record it only if it is already down."))
        return doubts

    def _changed(self) -> None:
        self._pass_in = None
        self._done.say("")
        self._pause.start()

    def _show_outcome(self) -> None:
        """What the check says, with the passes of the amount that was wanted first."""
        if self._pass_in is None:
            self._passes = () if self.check is None else self.check.split
        self.outcome.show_check(self.check, self._passes, self._pass_in)

    def _say_buttons(self) -> None:
        self.entry.tell_ticks()
        product_id = self.entry.product_id
        ready = bool(product_id) and bool(self.entry.shares.ticked())
        self.entry.most_button.setEnabled(ready and self._feeds(product_id))
        check = self.check
        if check is None:
            self.entry.show_first_day(None, None)
        else:
            self.entry.show_first_day(check.earliest_date, check.on)
        self.record_button.setEnabled(self.check is not None and not self._refused)
        words = tr("Keep the changed feeding") if self._editing else tr("Record this feeding")
        words = tr("Record it all the same") if self._asked else words
        self.record_button.setText(words)
        self.record_button.setAccessibleName(words)
        self.leave_button.setVisible(self._editing is not None)

    def _make_words(self) -> None:
        self._standing = Verdict("", self)
        self._standing.setObjectName("feed_standing")
        self.verdict = Verdict("", self)
        self.verdict.setObjectName("spread_verdict")
        self._note = Words("", "refuse", self)
        self._note.setObjectName("spread_note")
        self._done = Words("", "good", self)
        self._done.setObjectName("spread_done")
        self._done.hide()
        self.leave_button = LinkButton(tr("Leave it as it was"), "spread_leave", self)
        self.record_button = PrimaryButton(tr("Record this feeding"), "spread_record", self)
        self.outcome.working.stand_for(self.verdict)

    def stand_with(self, ask: Ask) -> None:
        """Let the sentence on where the zone stands open how its figures came about."""
        let_open(ask, self._standing, self.columns)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(self._standing)
        self._card = Card("", self)
        self._card.body.addWidget(self.entry)
        # All that is said comes beside and below what is clicked, which stands still meanwhile.
        buttons = QHBoxLayout()
        buttons.setSpacing(10)
        buttons.addWidget(self.verdict, 1, Qt.AlignmentFlag.AlignTop)
        buttons.addStretch(0)
        for widget in (self.leave_button, self.record_button):
            buttons.addWidget(widget, 0, Qt.AlignmentFlag.AlignTop)
        self._card.body.addLayout(buttons)
        said = (self._note, self._done, self.columns, self.entry.shares.verdicts, self.outcome)
        for each in said:
            self._card.body.addWidget(each)
        column.addWidget(self._card)
        # Room that words left behind stays at the foot until the page has taken it back.
        for layout in (self._card.body, column):
            layout.addStretch(1)

    def _listen(self) -> None:
        self._pause.timeout.connect(self.examine)
        self.entry.changed.connect(self._changed)
        self.entry.entered.connect(self.examine)
        self.entry.most_asked.connect(self.fill_most)
        self.entry.first_day.clicked.connect(self.go_to_first_day)
        self.outcome.pass_taken.connect(self.take_pass)
        self.outcome.setting_taken.connect(self.take_setting)
        self.leave_button.clicked.connect(self.start_anew)
        self.record_button.clicked.connect(self.record)


def _is_a_slip(problem: Problem) -> bool:
    """Whether a question is about pounds or area: a slip there is better told at once."""
    return problem.field.startswith(("pounds", "treated_area_sqft"))
