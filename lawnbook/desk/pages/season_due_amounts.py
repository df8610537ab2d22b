"""The zones of what is ticked off, each with its amount: how long, how deep, how many pounds."""

from collections.abc import Iterator, Sequence
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QHBoxLayout, QWidget

from lawnbook.desk.codecs import kept_amount, parse_amount
from lawnbook.desk.pages.season_due_words import UNITS, prefilled, unit_kind
from lawnbook.desk.telling import either, follow_name, follow_unit
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import (
    Caption,
    LinkButton,
    TextField,
    clear_layout,
    mark_role,
    name_control,
)
from lawnbook.plan.season_model import Task
from lawnbook.reading import tr
from lawnbook.yard.numbers import parse_number
from lawnbook.yard.problems import OwnerError

FIELD_PX = 74
_SPOKEN = {
    "minutes": (tr("Minutes"), tr("Minutes")),
    "depth": (tr("Inches"), tr("Millimetres")),
    "pounds": (tr("Pounds"), tr("Kilograms")),
}
_WITH_AMOUNTS, _TICKS_ALONE, _SHORT_TICKS = 2, 3, 4
"""How many zones stand side by side."""
_SHORT_NAME, _TICK_PX = 10, 120
_MANY = 5
"""From so many zones on, one key ticks all or none; fewer are ticked as quickly one by one."""


class ZoneAmounts(QWidget):
    """A tick and an amount for each task; with one task the amount alone, or nothing.

    `edited` tells every change by the owner's hand.
    """

    edited = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "season_done_zones", tr("Zones and amounts"))
        self._tasks: tuple[Task, ...] = ()
        self._ticks: dict[str, QCheckBox] = {}
        self._fields: dict[str, TextField] = {}
        self._offered: dict[str, str] = {}
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(18)
        self._grid.setVerticalSpacing(4)

    def show_tasks(self, tasks: Sequence[Task]) -> None:
        """Offer these tasks, all of them ticked, with the amounts as they were asked for."""
        clear_layout(self._grid)
        self._tasks = tuple(tasks)
        self._ticks, self._fields = {}, {}
        columns = _columns(self._tasks)
        if len(self._tasks) >= _MANY:
            self._grid.addLayout(self._all_or_none(), 0, 0, 1, _SHORT_TICKS)
        for number, task in enumerate(self._tasks):
            row, column = divmod(number, columns)
            self._grid.addLayout(self._cell(task, number), 1 + row, column)
        for column in range(_SHORT_TICKS + 1):
            self._grid.setColumnStretch(column, int(column == columns))
        self.setVisible(bool(self._ticks or self._fields))

    def retell(self) -> None:
        """Amounts in the owner's units; what is typed means what it did."""
        for task in self._tasks:
            field, kind = self._fields.get(task.key), unit_kind(task)
            if field is None or kind == "minutes":
                continue
            if field.text() == self._offered[task.key]:
                self._offered[task.key] = prefilled(task)
                field.setText(prefilled(task))
            else:
                self._offered[task.key] = ""
                field.setText(kept_amount(field.text(), UNITS[kind]))

    def ticked(self) -> tuple[Task, ...]:
        """The tasks that were done; OwnerError where none is ticked."""
        ticked = tuple(
            task
            for task in self._tasks
            if task.key not in self._ticks or self._ticks[task.key].isChecked()
        )
        if not ticked:
            raise OwnerError(tr("Tick at least one zone, or leave the line as it was."))
        return ticked

    def amounts(self) -> dict[str, float]:
        """What is typed for the ticked tasks, by key; OwnerError for what is no number."""
        return dict(self._typed())

    def first(self) -> TextField | None:
        """The first amount to type, where there is any."""
        return next(iter(self._fields.values()), None)

    def press_link(self) -> bool:
        """Press "all" or "none" where it has the keyboard, and tell whether one had."""
        held = self.focusWidget()
        if not isinstance(held, LinkButton) or not held.hasFocus():
            return False
        held.click()
        return True

    def mark_refused(self, key: str = "") -> None:
        """Mark the amount that is wrong, or none."""
        for each, field in self._fields.items():
            mark_role(field, "", "refuse" if key and each == key else "")

    def _typed(self) -> Iterator[tuple[str, float]]:
        for task in self.ticked():
            field = self._fields.get(task.key)
            if field is None:
                continue
            kind = unit_kind(task)
            what = tr("{spoken} for {zone}", spoken=_spoken(kind), zone=task.zone or "the yard")
            try:
                if kind == "minutes":
                    yield task.key, parse_number(field.text(), what)
                else:
                    yield task.key, parse_amount(field.text(), what, UNITS[kind])
            except OwnerError:
                self.mark_refused(task.key)
                raise

    def _all_or_none(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(10)
        row.addWidget(Caption(tr("Zones"), self))
        for words, ticked in ((tr("all"), True), (tr("none"), False)):
            link = LinkButton(words, f"season_done_{words}", self)
            link.setAccessibleName(tr("Tick {words} of the zones", words=words))
            link.clicked.connect(partial(self._tick_every, ticked))
            row.addWidget(link)
        row.addStretch(1)
        return row

    def _tick_every(self, ticked: bool) -> None:
        for tick in self._ticks.values():
            tick.setChecked(ticked)

    def _cell(self, task: Task, number: int) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(8)
        name = task.zone or task.what
        if len(self._tasks) > 1:
            tick = QCheckBox(name, self)
            tick.setChecked(True)
            name_control(tick, f"season_done_tick_{number}", tr("{name} was done", name=name))
            tick.toggled.connect(lambda _: self.edited.emit())
            if unit_kind(task):
                # The amounts stand in a column.
                sized(tick, least_width=_TICK_PX)
            self._ticks[task.key] = tick
            row.addWidget(tick)
        unit = unit_kind(task)
        if unit:
            if len(self._tasks) == 1:
                row.addWidget(Caption(name, self))
            row.addWidget(self._field(task, unit, number))
            named = Caption("", self)
            follow_unit(named, UNITS[unit])
            row.addWidget(named)
        row.addStretch(1)
        return row

    def _field(self, task: Task, unit: str, number: int) -> TextField:
        field = TextField(self)
        self._offered[task.key] = prefilled(task)
        field.setText(prefilled(task))
        sized(field, width=FIELD_PX)
        field.setAlignment(Qt.AlignmentFlag.AlignRight)
        whose = task.zone or tr("the yard")
        follow_name(
            field,
            f"season_done_amount_{number}",
            lambda: tr("{spoken} for {whose}", spoken=_spoken(unit), whose=whose),
        )
        field.textEdited.connect(lambda _: self.edited.emit())
        self._fields[task.key] = field
        return field


def _spoken(kind: str) -> str:
    """What is typed, in the owner's unit."""
    us, metric = _SPOKEN[kind]
    return either(tr(us), tr(metric))


def _columns(tasks: Sequence[Task]) -> int:
    """So many side by side as there is room for: forty zones are no tower."""
    if any(map(unit_kind, tasks)):
        return _WITH_AMOUNTS
    longest = max((len(task.zone or task.what) for task in tasks), default=0)
    return _SHORT_TICKS if longest <= _SHORT_NAME else _TICKS_ALONE
