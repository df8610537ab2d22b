"""The days that pass by on the sketch: their figures made once, those of a big yard beside it."""

from datetime import date
from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from lawnbook.desk.beside import Beside, Stop
from lawnbook.desk.plan_showing import FAILED, IN_THE_MAKING
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.desk.window import BookWindow
    from lawnbook.plan.day_figures import DayFigures
    from lawnbook.session.planning import FilmCache
    from lawnbook.yard.notebook import Notebook


class DayShowing(QObject):
    """Colours the sketch by a day, once the figures of all the days are there."""

    def __init__(self, window: "BookWindow") -> None:
        super().__init__(window)
        self._window = window
        self._span: tuple[date, date] | None = None
        self._on: date | None = None
        self._refused: tuple[Notebook, tuple[date, date], str] | None = None
        self._beside = Beside(self)
        self._beside.failed.connect(self._fail)

    @cached_property
    def films(self) -> "FilmCache":
        """The figures of the days that pass by."""
        from lawnbook.session.planning import FilmCache

        return FilmCache()

    def pass_by(self, on: date, span: tuple[date, date]) -> None:
        """Colour the sketch by a day of a span, as soon as its figures are there."""
        from lawnbook.session.planning import takes_long

        notebook = self._window.book.notebook
        self._on, self._span = on, span
        why = self._why_not(notebook, span)
        if why:
            self._say(why)
            return
        if self.films.held(notebook, *span) is None and takes_long(notebook):
            if not self._beside.runs:
                self._begin(span)
            self._say(IN_THE_MAKING)
            return
        self._window.veil.lower_over()
        self._window.sketch.show_day(self.films.figures_for(notebook, *span).figures(on))

    def rest(self) -> None:
        """No day passes by any more; figures in the making are kept for the next one."""
        self._on = None

    def stop(self) -> None:
        """The window closes."""
        self.rest()
        self._beside.let_go()

    def _why_not(self, notebook: "Notebook", span: tuple[date, date]) -> str:
        """Why there are no figures of these days, where they were asked for before; else empty."""
        if self._refused is None:
            return ""
        refused, days, why = self._refused
        return why if refused is notebook and days == span else ""

    def _say(self, why: str) -> None:
        self._window.veil.lower_over(why)
        self._window.show_no_plan(why)

    def _fail(self) -> None:
        """A mistake of ours is about to be told: no day is waited for any more."""
        if self._span is not None:
            self._refused = (self._window.book.notebook, self._span, FAILED)
        if self._on is not None:
            self._say(FAILED)

    def _begin(self, span: tuple[date, date]) -> None:
        notebook = self._window.book.notebook

        def make(_: Stop) -> "DayFigures":
            from lawnbook.plan.day_figures import day_figures

            return day_figures(notebook, *span)

        def then(days: object) -> None:
            from lawnbook.plan.day_figures import DayFigures

            if isinstance(days, DayFigures):
                self.films.keep(notebook, days)
            elif isinstance(days, OwnerError):
                # Said where the days would stand, and not tried again with the same notebook.
                self._refused = (notebook, span, str(days))
            if self._on is not None and self._span is not None:
                self._window.pass_by(self._on)

        self._beside.start(make, then)
