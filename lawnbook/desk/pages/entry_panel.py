"""A form for new records of one table, with a button, a live answer, and the list of those kept.

A row of the list opened with Enter or a double-click comes back into the form; Delete takes it
out. Each is one Change and can be undone, by a label that says what was done.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import field
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.figures import let_open
from lawnbook.desk.forms import FormSetting, RecordForm
from lawnbook.desk.pages.record_table import Heads, RecordTable, Row
from lawnbook.desk.roles import hear_as
from lawnbook.desk.telling import Label
from lawnbook.desk.widgets import Caption, LinkButton, QuietButton, Words
from lawnbook.frozen import dataclass
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.check import check
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import Change, apply, put
from lawnbook.yard.problems import OwnerError, Problem
from lawnbook.yard.records import TABLES, TITLES, Record

Answer = tuple[str, str]
"""Words and the role they are set in."""


def same(record: Record) -> Record:
    """A record as it is."""
    return record


def alone(_record: Record) -> Change:
    """A record that is kept by itself."""
    return {}


def no_answer(_values: Mapping[str, Any]) -> Answer:
    """No live answer."""
    return "", "caption"


def no_workings(_record_id: str) -> Sequence[Working]:
    """Rows without a figure to be worked out."""
    return ()


def nothing_answered(_values: Mapping[str, Any]) -> Sequence[Working]:
    """A live answer without a figure to be worked out."""
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class EntrySetting:
    """What an entry panel is about.

    `noun` names one record ("catch test"); `title(record)` names a certain one in the undo label.
    `rows()` are those listed and `heads` their columns; `given()` fills a new form; `answer` says
    something live of the readable values; `complete` adds to the record what the form has no
    field for, and may raise OwnerError; `along` changes what is kept with it. `empty` is said where
    the list is. Controls are named by `prefix`, the table's name where empty; `labels` stand above
    fields in place of their rules'. What `stays` keeps the value of a new record for the next, and
    the first other field has the cursor. `workings` tells how the figures of a kept record's row
    came about, by its id, and `answered` those of the live answer, by the readable values.
    """

    table: str
    noun: str
    names: Sequence[str]
    heads: Heads
    rows: Callable[[], Sequence[Row]]
    title: Callable[[Any], str]
    given: Callable[[], Mapping[str, Any]] = field(default=dict)
    answer: Callable[[Mapping[str, Any]], Answer] = no_answer
    complete: Callable[[Any], Record] = same
    along: Callable[[Any], Change] = alone
    empty: str = ""
    words_columns: Sequence[int] = (0,)
    columns: int = 3
    spans: Mapping[str, int] = field(default_factory=dict)
    most_rows: int = 6
    prefix: str = ""
    labels: Mapping[str, Label] = field(default_factory=dict)
    stays: Sequence[str] = ()
    workings: Callable[[str], Sequence[Working]] = no_workings
    answered: Callable[[Mapping[str, Any]], Sequence[Working]] = nothing_answered

    @property
    def called(self) -> str:
        """What the names of the controls begin with."""
        return self.prefix or self.table


class EntryPanel(QWidget):
    """Entry and list of one table's records.

    `opened` tells the record that came into the form, `kept` the one that was kept, `refused`
    that what is entered could not be kept and now says why.
    """

    opened = Signal(str)
    kept = Signal(str)
    refused = Signal()

    def __init__(
        self, book: OpenNotebook, setting: EntrySetting, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._book = book
        self._set = setting
        self._open: Record | None = None
        # Its controls are called alike on every panel: what they are about tells them apart.
        noun = tr(setting.noun).capitalize()
        hear_as(self, "Grouping")
        self.setAccessibleName(noun if setting.prefix else tr(TITLES[setting.table]))
        self.form = RecordForm(
            TABLES[setting.table],
            setting.names,
            self._check,
            self,
            setting.columns,
            FormSetting(
                today=book.today,
                prefix=f"{setting.called}_",
                spans=setting.spans,
                labels=setting.labels,
            ),
        )
        self._answer = Words("", "caption", self)
        self._answer.setObjectName(f"{setting.called}_answer")
        let_open(lambda: setting.answered(self.form.readable()), self._answer)
        self._trouble = Words("", "refuse", self)
        self._trouble.setObjectName(f"{setting.called}_trouble")
        self.keep_button = QuietButton("", f"{setting.called}_keep", self)
        self.new_button = LinkButton(tr("Leave it as it was"), f"{setting.called}_new", self)
        plural = f"{setting.noun}es" if setting.noun.endswith("x") else f"{setting.noun}s"
        several = tr(plural).capitalize()
        self.table = RecordTable(
            setting.heads,
            (
                f"{setting.called}_list",
                tr("{records} kept", records=several),
            ),
            setting.words_columns,
            setting.most_rows,
            self,
        )
        self.table.explain(setting.workings)
        self._empty = Caption(setting.empty, self, wrap=True)
        self.edit_button = LinkButton(tr("Change it"), f"{setting.called}_edit", self)
        self.remove_button = LinkButton(tr("Take it out"), f"{setting.called}_remove", self)
        self.body = QVBoxLayout(self)
        self._lay_out()
        self._listen()
        # No live answer yet: whoever gives it may still be under construction.
        self.form.load(None, **setting.given())
        self._say_buttons()

    @property
    def is_open(self) -> bool:
        """Whether a kept record is in the form."""
        return self._open is not None

    @property
    def open_id(self) -> str:
        """The id of the kept record in the form, empty for a new one."""
        return self._open.id if self._open is not None else ""

    def clear(self) -> None:
        """An empty form for a new record."""
        self._start({})

    def _start(self, staying: Mapping[str, Any]) -> None:
        """A form for a new record in which some fields are filled already."""
        self._open = None
        self.form.load(None, **{**self._set.given(), **staying})
        self._trouble.say("")
        self._say_buttons()
        self.examine()
        self.opened.emit("")

    def refresh(self) -> None:
        """Show the list as the notebook holds it; the form keeps what is typed."""
        rows = self._set.rows()
        self.table.show_rows(rows)
        self.table.setVisible(bool(rows))
        self._empty.setVisible(not rows and bool(self._set.empty))
        self._show_buttons()
        if self._open is not None:
            held = self._book.notebook.find(self._set.table, self._open.id)
            if held is not self._open:
                self.open_record(self._open.id)
        self.examine()

    def retell(self) -> None:
        """Form, answer and list in the owner's units; what is typed means what it did."""
        self.form.retell()
        self.refresh()

    def summary(self) -> str:
        """What is kept, in short: how many, and the first of the list."""
        rows = self._set.rows()
        if not rows:
            return tr("none yet")
        return (
            tr("{count}, the latest {cells}", count=len(rows), cells=rows[0].cells[0])
            if len(rows) > 1
            else rows[0].cells[0]
        )

    def open_record(self, record_id: str) -> None:
        """Bring a kept record into the form; one that is gone leaves the form empty."""
        held = self._book.notebook.find(self._set.table, record_id)
        if held is None:
            self.clear()
            return
        self._open = held
        self.form.load(held)
        self._trouble.say("")
        self._say_buttons()
        self.examine()
        self.opened.emit(record_id)

    def examine(self) -> None:
        """Say the live answer to what is typed now."""
        self._answer.say(*self._set.answer(self.form.readable()))

    def _check(self, record: Record) -> tuple[Problem, ...]:
        try:
            whole = self._set.complete(record)
        except OwnerError as problem:
            return (Problem(self._set.table, record.id, "", "refuse", str(problem)),)
        change = put(self._book.notebook, self._set.table, whole)
        return check(whole, apply(self._book.notebook, change), self._book.today)

    def _keep(self) -> None:
        try:
            record = self._set.complete(self.form.record())
        except OwnerError:
            # Said by the form already, under the fields it is about.
            self.refused.emit()
            return
        # The listeners of the edit refresh this panel, so the form must be free before.
        opened, self._open = self._open, None
        try:
            change = {
                **put(self._book.notebook, self._set.table, record),
                **self._set.along(record),
            }
            title = self._set.title(record)
            new = opened is None
            label = tr("keep {record}" if new else "change {record}", record=title)
            self._book.edit(change, label)
        except OwnerError as problem:
            self._open = opened
            self._trouble.say(str(problem))
            return
        # A record changed long after its day says nothing of the next new one.
        stays = self._set.stays if opened is None else ()
        self._start({name: getattr(record, name) for name in stays})
        self.form.focus(next(each for each in self._set.names if each not in self._set.stays))
        self.kept.emit(record.id)

    def _remove(self, record_id: str) -> None:
        held = self._book.notebook.find(self._set.table, record_id)
        if held is None:
            return
        try:
            change = remove(self._book.notebook, self._set.table, record_id)
            self._book.edit(change, tr("take out {record}", record=self._set.title(held)))
        except OwnerError as problem:
            self._trouble.say(str(problem))

    def _say_buttons(self) -> None:
        noun = tr(self._set.noun)
        self.keep_button.setText(tr("Keep changes") if self._open else tr("Keep {noun}", noun=noun))
        self.keep_button.setAccessibleName(self.keep_button.text())
        self.new_button.setVisible(self._open is not None)
        self._answer.setVisible(bool(self._answer.text()))

    def _show_buttons(self) -> None:
        picked = bool(self.table.picked_id())
        for button in (self.edit_button, self.remove_button):
            button.setVisible(picked)

    def _changed(self) -> None:
        self._trouble.say("")
        self.examine()

    def _listen(self) -> None:
        self.form.changed.connect(self._changed)
        self.form.entered.connect(self._keep)
        self.keep_button.clicked.connect(self._keep)
        self.new_button.clicked.connect(self.clear)
        self.table.opened.connect(self.open_record)
        self.table.removal_asked.connect(self._remove)
        self.table.picked.connect(lambda _: self._show_buttons())
        self.edit_button.clicked.connect(lambda: self.open_record(self.table.picked_id()))
        self.remove_button.clicked.connect(lambda: self._remove(self.table.picked_id()))

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        # At the top of their row, the buttons stand still while the words beside them grow.
        buttons.addWidget(self._answer, 1, Qt.AlignmentFlag.AlignTop)
        buttons.addStretch(0)
        for button in (self.new_button, self.keep_button):
            buttons.addWidget(button, 0, Qt.AlignmentFlag.AlignTop)
        below = QHBoxLayout()
        below.addStretch(1)
        below.addWidget(self.edit_button)
        below.addWidget(self.remove_button)
        self.body.setContentsMargins(0, 0, 0, 0)
        self.body.setSpacing(6)
        self.body.addWidget(self.form)
        self.body.addLayout(buttons)
        self.body.addWidget(self._trouble)
        self.body.addWidget(self._empty)
        self.body.addWidget(self.table)
        self.body.addLayout(below)
