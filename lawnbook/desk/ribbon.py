"""The date ribbon: the day the book is looked at, in words and on the strip of the years."""

from datetime import date

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.charts.palette import Palette
from lawnbook.desk import entry
from lawnbook.desk.date_strip import Strip, Years, growth_colour, plug_colour, years_of
from lawnbook.desk.film import Film
from lawnbook.desk.line_fields import DayField
from lawnbook.desk.theme import palette, sized
from lawnbook.desk.widgets import Caption, LinkButton, Words, mark_role, name_control
from lawnbook.plan.season import plannable
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError


class DateRibbon(QWidget):
    """The strip with the day in words above it.

    `moved` tells another day to look at; `passed` each day that only goes by, while the marker is
    dragged or the years are played.
    """

    moved = Signal(object)
    passed = Signal(object)

    def __init__(self, notebook: Notebook, today: date, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._today = self._on = today
        self._years = years_of(notebook, today)
        self.field = DayField(today, self)
        sized(self.field, width=112)
        name_control(self.field, "look_at", tr("Look at the book as of"))
        self.today_button = LinkButton(tr("today"), "look_at_today", self)
        self.today_button.setAccessibleName(tr("Back to today"))
        self.today_button.setToolTip(tr("Back to today"))
        self.film = Film(self)
        self.play_button = LinkButton("", "look_at_play", self)
        self._legend = Caption("", self)
        self._legend.setTextFormat(Qt.TextFormat.RichText)
        self._legend.setObjectName("ribbon_legend")
        self._problem = Words("", "refuse", self)
        self.strip = Strip(self._years, today, self)
        self._lay_out()
        self.show_notebook(notebook)
        self._listen()
        self._say_play()
        self.look_at(today)

    @property
    def starts(self) -> date:
        """The first day of the strip."""
        return self._years.start

    def show_notebook(self, notebook: Notebook) -> None:
        """Show the notebook's dates."""
        self._years = years_of(notebook, self._today)
        self.strip.show_years(self._years, self._on)
        self._show_legend()

    def look_at(self, on: date) -> None:
        """Show a day without telling; a film that runs is over."""
        self._halt()
        self._on = on
        self._show_day(on)

    def play(self) -> None:
        """Play the years up to today from the day that is shown, or from the first; or stop."""
        if self.film.runs:
            self.film.stop()
            return
        at_end = self._on >= self._today
        self.film.start(self._years.start if at_end else self._on, self._today)
        self._say_play()

    def _show_day(self, on: date) -> None:
        self.field.setText(entry.format_day(on))
        mark_role(self.field, "", "")
        self._problem.say("")
        self.today_button.setVisible(on != self._today)
        self.strip.show_years(self._years, on)

    def changeEvent(self, event: QEvent) -> None:
        """Another palette: the legend's signs take the colours of the marks in it."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange and hasattr(self, "_legend"):
            self._show_legend()

    def _show_legend(self) -> None:
        parts = _legend(self._years, palette())
        signs = (f'<span style="color:{role}">{sign}</span> {words}' for sign, words, role in parts)
        self._legend.setText("&nbsp;&nbsp; ".join(signs))
        self._legend.setAccessibleName(", ".join(words for _, words, _ in parts))

    def _listen(self) -> None:
        self.strip.moved.connect(self._arrived)
        self.strip.passed.connect(self._pass)
        self.strip.play_asked.connect(self.play)
        self.film.passed.connect(self._pass_film)
        self.film.ended.connect(self._film_ended)
        self.play_button.clicked.connect(self.play)
        self.field.editingFinished.connect(self._typed)
        self.today_button.clicked.connect(lambda: self._go(self._today))

    def _pass(self, on: date) -> None:
        """A day goes by under the owner's hand; a film that runs is over."""
        self._halt()
        self._pass_film(on)

    def _halt(self) -> None:
        self.film.halt()
        self._say_play()

    def _pass_film(self, on: date) -> None:
        self._show_day(on)
        self.passed.emit(on)

    def _film_ended(self, on: date) -> None:
        self._say_play()
        self._arrived(on)

    def _arrived(self, on: date) -> None:
        self._on = on
        self._show_day(on)
        self.moved.emit(on)

    def _say_play(self) -> None:
        runs = self.film.runs
        self.play_button.setText(tr("stop") if runs else tr("play"))
        told = tr("Stop the years") if runs else tr("Play the years up to today")
        self.play_button.setAccessibleName(told)
        self.play_button.setToolTip(tr("{told} (Space on the strip)", told=told))

    def _typed(self) -> None:
        try:
            on = entry.parse_day(self.field.text(), self._today)
            plannable(on)
        except OwnerError as problem:
            self._problem.say(str(problem))
            mark_role(self.field, "", "refuse")
            return
        self._go(on)

    def _go(self, on: date) -> None:
        changed = on != self._on
        self.look_at(on)
        if changed:
            self.moved.emit(on)

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.setSpacing(8)
        top.addWidget(Words(tr("Looking at"), "", self, wrap=False))
        top.addWidget(self.field)
        # First what stands still: the way back to today comes and goes.
        top.addWidget(self.play_button)
        top.addWidget(self.today_button)
        top.addStretch(1)
        top.addWidget(self._legend)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addLayout(top)
        column.addWidget(self._problem)
        column.addWidget(self.strip)


def _legend(years: Years, p: Palette) -> list[tuple[str, str, str]]:
    """The marks that are on the strip: sign, what it means, and its colour."""
    parts = (
        (("●", tr("plug"), plug_colour(p)), years.plugs),
        (("■", tr("feeding"), p.feed), years.feedings),
        (("▅", tr("weather for growth"), growth_colour(p)), years.growth),
    )
    return [part for part, shown in parts if shown]
