"""What comes of a check, in the order it is used: rules, cautions, load, passes."""

from collections.abc import Collection, Sequence
from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.figures import Ask, let_open
from lawnbook.desk.pages.feed_words import (
    binding_lines,
    load_table,
    pass_words,
    strip_lines,
    water_lines,
)
from lawnbook.desk.pages.water_figures import FigureTable, Notes
from lawnbook.desk.widgets import Caption, Card, Heading, LinkButton, Words
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.feed_model import SpreadPass
from lawnbook.plan.model import SpreadCheck
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.yard.numbers import day

RULES_TOLD = 8
ZONES_WORKED_OUT = 8
"""Of so many zones at the most the workings open at once; those over the budget come first."""


class Offers(QWidget):
    """Lines of words, each with a link at its end that takes the line up; `taken` tells which.

    The lines are kept from one showing to the next, so that a link that is clicked stays.
    """

    taken = Signal(int)

    def __init__(self, object_name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(object_name)
        self._lines: list[tuple[Words, LinkButton]] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(12)
        self._grid.setVerticalSpacing(3)
        self._grid.setColumnStretch(0, 1)

    def show_lines(
        self,
        lines: Sequence[str],
        link: str,
        taken: int | None = None,
        unfit: Collection[int] = (),
    ) -> None:
        """Show other lines; the one that is taken up already says so in place of its link.

        Those that are `unfit` are told and not offered.
        """
        while len(self._lines) < len(lines):
            self._add_line()
        for place, (words, button) in enumerate(self._lines):
            shows = place < len(lines)
            words.say(lines[place] if shows else "")
            button.setVisible(shows and place not in unfit)
            button.setEnabled(place != taken)
            button.setText(link if place != taken else tr("Put in"))
            button.setAccessibleName(f"{link}: {lines[place]}" if shows else link)
        self.setVisible(bool(lines))

    def _add_line(self) -> None:
        place = len(self._lines)
        words = Words("", "", self)
        button = LinkButton("", f"{self.objectName()}_{place + 1}", self)
        button.clicked.connect(lambda: self.taken.emit(place))
        self._grid.addWidget(words, place, 0)
        self._grid.addWidget(button, place, 1, Qt.AlignmentFlag.AlignTop)
        self._lines.append((words, button))


class Paragraphs(QWidget):
    """Small quiet sentences, each a paragraph of its own, kept from one showing to the next."""

    def __init__(self, object_name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(object_name)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(5)
        self._lines: list[Caption] = []
        self._ask: Ask | None = None

    def say(self, sentences: Sequence[str]) -> None:
        """Change the sentences."""
        while len(self._lines) < len(sentences):
            self._lines.append(Caption("", self, wrap=True))
            self._column.addWidget(self._lines[-1])
            if self._ask is not None:
                let_open(self._ask, self._lines[-1])
        for place, line in enumerate(self._lines):
            line.say(sentences[place] if place < len(sentences) else "")

    def open_with(self, ask: Ask) -> None:
        """Let each sentence open the workings of the figures in it."""
        self._ask = ask
        let_open(ask, *self._lines)

    def text(self) -> str:
        """What is said, a line for each sentence."""
        return "\n".join(each.text() for each in self._lines if each.text())


class SpreadOutcome(QWidget):
    """Everything a check says below its verdict and those of the zones.

    `pass_taken` tells the place of a pass that shall be put in, `setting_taken` that of a setting.
    """

    pass_taken = Signal(int)
    setting_taken = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._make_parts()
        self._lay_out()
        self.passes.taken.connect(self.pass_taken)
        self.settings.taken.connect(self.setting_taken)
        self.show_check(None, (), None)

    def show_check(
        self, check: SpreadCheck | None, passes: Sequence[SpreadPass], taken: int | None
    ) -> None:
        """Show what a check says, and the passes on offer with the one that is put in."""
        self._rules.say(() if check is None else binding_lines(check, RULES_TOLD))
        self._show_workings(check)
        self.cautions.say(() if check is None else check.cautions)
        # Of an amount that passes on no day nothing is told to load.
        to_do = check if check is not None and check.passes_some_day else None
        self._show_load(to_do)
        self._show_passes(check, passes, taken)
        settings = () if to_do is None else to_do.settings
        unfit = [place for place, each in enumerate(settings) if not each.fits]
        self.settings.show_lines([each.words for each in settings], tr("Put it in"), unfit=unfit)
        self._tanks.say("" if to_do is None else "\n".join(each.words for each in to_do.tanks))
        self._spreader_head.setVisible(bool(settings or self._tanks.text()))
        self.notes.say(() if check is None else check.notes)
        # What leaves room behind leaves it at the foot of the page, not between the parts.
        self.setVisible(check is not None)

    def _show_workings(self, check: SpreadCheck | None) -> None:
        workings, left_out = ((), 0) if check is None else check_workings(check)
        self.working.set_workings(workings)
        self.working.setText(
            tr("working of {zones_worked_out} zones", zones_worked_out=ZONES_WORKED_OUT)
            if left_out
            else tr("working")
        )
        self.working.setAccessibleName(tr("Working of the check"))

    def _show_load(self, check: SpreadCheck | None) -> None:
        heads, lines = ((), ()) if check is None else load_table(check)
        # Out of sight while it is filled: each of its cells would have the page laid out anew.
        self._load.hide()
        if lines:
            spoken = "; ".join(f"{name}: {', '.join(cells)}" for name, cells in lines)
            self._load.show_rows(heads, lines, spoken)
        self._load.setVisible(bool(lines))
        self._load_head.setVisible(bool(lines))
        self._strips.say("" if check is None else "\n".join(strip_lines(check)))
        water = () if check is None else water_lines(check)
        self._water_head.setVisible(bool(water))
        self._water.say("\n".join(water))
        bought = None if check is None else check.shopping
        self._shopping.say("" if bought is None else bought.words)

    def _show_passes(
        self, check: SpreadCheck | None, passes: Sequence[SpreadPass], taken: int | None
    ) -> None:
        words = [pass_words(each) for each in passes]
        self._passes_head.setVisible(bool(words))
        self.passes.show_lines(words, tr("Put it in"), taken)
        earliest = None if check is None else check.earliest_date
        later = (
            ""
            if earliest is None
            else tr("All of it at once passes from {earliest}.", earliest=day(earliest))
        )
        today = check is not None and earliest == check.on
        self._earliest.say("" if today else later)

    def _make_parts(self) -> None:
        self._rules = Paragraphs("spread_rules", self)
        self.working = WorkingLink(tr("working"), "spread_working", self)
        self._load_head = Heading(tr("Load and water in"), self)
        self._load = FigureTable("spread_load", tr("What to load"), self)
        self._strips, self._water, self._shopping = (Words("", "", self) for _ in range(3))
        self._strips.setObjectName("spread_strips")
        self._water.setObjectName("spread_water")
        self._shopping.setObjectName("spread_shopping")
        self._water_head = Caption(tr("Watering in, once it is down"), self)
        self._spreader_head = Heading(tr("Setting and mixing"), self)
        self.settings = Offers("spread_settings", self)
        self._tanks = Words("", "", self)
        self._tanks.setObjectName("spread_tanks")
        self._passes_head = Heading(tr("In passes that fit"), self)
        self.passes = Offers("spread_passes", self)
        self._earliest = Caption("", self, wrap=True)
        self._earliest.setObjectName("spread_earliest")
        self.notes = Notes("spread_notes", self)
        self.cautions = Paragraphs("spread_cautions", self)
        self._beside = Card("", self, role="note")
        self._beside.body.setContentsMargins(12, 8, 12, 8)
        self._beside.body.addWidget(self.cautions)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        ruled = QHBoxLayout()
        ruled.addWidget(self._rules, 1)
        ruled.addWidget(self.working, 0, Qt.AlignmentFlag.AlignTop)
        column.addLayout(ruled)
        # What may do harm stands by the verdict, in sight while it is read.
        for part in (
            self.notes,
            self._beside,
            self._load_head,
            self._load,
            self._strips,
            self._shopping,
            self._water_head,
            self._water,
            self._spreader_head,
            self.settings,
            self._tanks,
            self._passes_head,
            self.passes,
            self._earliest,
        ):
            column.addWidget(part)
        told = (self._load, self._strips, self._water, self._shopping, self.notes, self._earliest)
        self.working.stand_for(*told, self._rules, self._tanks, self.settings, self.passes)


def check_workings(check: SpreadCheck) -> tuple[tuple[Working, ...], int]:
    """The workings of a check under their zones' names, and of how many zones none are told."""
    fed = sorted((each for each in check.zones if each.workings), key=lambda each: each.within)
    told = fed[:ZONES_WORKED_OUT]
    workings = (
        replace(working, label=f"{each.zone}: {working.label}") if len(fed) > 1 else working
        for each in told
        for working in each.workings
    )
    return tuple(workings), len(fed) - len(told)
