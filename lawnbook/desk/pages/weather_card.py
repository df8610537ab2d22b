"""The card of the days of weather: what there is, how ETo is known, and taking in more."""

from collections.abc import Sequence
from datetime import date, timedelta
from pathlib import Path

from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.desk.beside import Stop
from lawnbook.desk.clipboard import one_file_in
from lawnbook.desk.dialogs import choose_weather
from lawnbook.desk.pages.reading_panel import Pending, ReadingPanel
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.telling import captioned
from lawnbook.desk.wait_line import WaitLine, is_small
from lawnbook.desk.widgets import Caption, Card, QuietButton, Words, bring_into_sight
from lawnbook.frozen import dataclass
from lawnbook.plan.weather import Weather, weather_of
from lawnbook.plan.working_model import Working
from lawnbook.reading import is_metric, tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.weather_columns import FIELDS
from lawnbook.store.weather_result import UnitChoice, WeatherReading
from lawnbook.yard.consistency import consistency_complaints
from lawnbook.yard.limits import Complaint, field_complaints
from lawnbook.yard.notebook import Notebook, apply, as_of
from lawnbook.yard.numbers import counted, day, whole
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import WeatherDay
from lawnbook.yard.weather_merge import weather_taken_in

COLUMNS = tr(
    "A table with a line for each day; the first line names its columns: date and "
    "any of tmin, tmax, rain, tdew, rh_pct, wind, solar, eto with their unit "
    "behind them, such as tmin_f or rain_mm. NOAA's daily station tables are read "
    "as they come. A file may be dropped here."
)
LATEST_DAYS = 14
SHOWN_DAYS = 7
MONTHS_OF_A_YEAR = 12
TABLES = (".csv", ".txt")
_HOW = {
    "reported": tr("as reported"),
    "Penman–Monteith": tr("by Penman–Monteith"),
    "Penman–Monteith, gaps estimated": tr("by Penman–Monteith with gaps estimated"),
    "Hargreaves": tr("by Hargreaves"),
    "filled": tr("filled with the month's mean"),
}


@dataclass(frozen=True, slots=True)
class Considered:
    """What a table holds, as the owner is asked about it, and its days that can be taken in."""

    pending: Pending
    days: tuple[WeatherDay, ...]


class WeatherCard(Card):
    """Days of weather; a table is read here, shown in place where it raises something, and kept."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(tr("Weather"), parent)
        self._book = book
        self._path: Path | None = None
        self._choice = UnitChoice()
        self._days: tuple[WeatherDay, ...] = ()
        self._told = ""
        self._shown: tuple[object, ...] = ()
        self._on: date | None = None
        self._words = Words("", "", self)
        self._words.setObjectName("weather_words")
        self._methods = Words("", "caption", self)
        self._methods.setObjectName("weather_methods")
        self._said = Words("", "caption", self)
        self._said.setObjectName("weather_said")
        self._read = QuietButton(tr("Read a weather table…"), "read_weather", self)
        self._reading = WaitLine("weather_reading", self)
        self._panel = ReadingPanel(self)
        self._table = RecordTable(
            lambda: (
                tr("Day"),
                captioned(tr("Low / high"), "°F"),
                captioned(tr("Rain"), "in"),
                captioned(tr("ETo"), "in"),
                tr("ETo is"),
            ),
            ("weather_days", tr("Latest days of weather")),
            (0, 4),
            SHOWN_DAYS,
            self,
        )
        self._table.stretch(4)
        self._table.explain(self._workings)
        self._lay_out()
        self.setAcceptDrops(True)
        self._read.clicked.connect(self.ask_file)
        self._reading.cancelled.connect(self._leave)
        self._reading.failed.connect(self._leave)
        self._panel.answered.connect(self._answer)
        self._panel.taken.connect(self._take_in)
        self._panel.left.connect(self._leave)
        self._said.say("")

    def refresh(self, on: date) -> None:
        """Show the weather that the notebook holds up to a day."""
        held, self._on = self._book.notebook, on
        shown = (held.weather, held.climate, held.yard, on, is_metric())
        if len(self._shown) == len(shown) and all(
            old is new for old, new in zip(self._shown, shown, strict=True)
        ):
            return
        self._shown = shown
        notebook = as_of(held, on)
        weather = weather_of(notebook)
        self._words.setText(weather_words(notebook))
        self._methods.say(f"{method_words(weather)} {lacking(notebook)}".strip())
        rows = latest_rows(notebook, weather)
        self._table.show_rows(rows)
        self._table.setVisible(bool(rows))

    def _workings(self, that: str) -> Sequence[Working]:
        """How ETo and rain of a day that is shown came about."""
        from lawnbook.plan.weather_workings import weather_day_workings

        on = self._on or self._book.today
        return (
            weather_day_workings(self._book.notebook, on, date.fromisoformat(that)) if that else ()
        )

    def read_weather(self, path: Path) -> None:
        """Read a table; taken in at once where it raises nothing, else shown and asked about."""
        self._path, self._choice = path, UnitChoice()
        self._consider()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take one table that is dragged here."""
        if one_file_in(event.mimeData(), TABLES) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Read the table that was dropped."""
        path = one_file_in(event.mimeData(), TABLES)
        if path is not None:
            event.acceptProposedAction()
            self.read_weather(path)

    def ask_file(self) -> None:
        """Ask for a table, and read it."""
        path = choose_weather(self, self._book.path.parent)
        if path is not None:
            self.read_weather(path)

    def _answer(self, key: str, value: str) -> None:
        self._choice = self._choice.answered(key, value)
        self._consider()

    def _consider(self) -> None:
        """Read the table with the answers so far, and take it in or show what stands against it."""
        from lawnbook.store.weather_reading import read_weather

        path, choice = self._path, self._choice
        if path is None:
            return
        self._panel.hide()
        notebook, today = self._book.notebook, self._book.today

        def make(_: Stop) -> Considered:
            return considered(read_weather(path, choice), choice, notebook, today)

        line = tr("Reading {name}…", name=path.name)
        self._reading.do(line, make, self._considered, at_once=is_small(path))

    def _considered(self, outcome: object) -> None:
        if isinstance(outcome, OwnerError):
            self._say(str(outcome), "refuse")
        elif isinstance(outcome, Considered):
            self._show(outcome)

    def _show(self, found: "Considered") -> None:
        pending, self._days, self._told = found.pending, found.days, found.pending.told
        if self._days and not (pending.questions or pending.faults or pending.doubts):
            self._take_in()
            return
        nothing = not (self._days or pending.open)
        self._say(tr("Nothing of it can be taken in.") if nothing else "", "refuse")
        self._panel.show_pending(pending)

    def _take_in(self) -> None:
        count = _days_of_weather(len(self._days))
        change = weather_taken_in(self._book.notebook, self._days)
        try:
            self._book.edit(change, count)
        except OwnerError as problem:
            self._say(str(problem), "refuse")
            return
        here = tr("read: all of it is here already.")
        told = (
            tr("{count} taken in. {told}", count=count, told=self._told)
            if change
            else f"{count} {here}"
        )
        self._done()
        self._say(told, "good")

    def _leave(self) -> None:
        self._done()
        self._say(tr("Nothing was taken in."), "caption")

    def _done(self) -> None:
        self._path, self._days = None, ()
        self._panel.hide()

    def _say(self, sentence: str, role: str) -> None:
        self._said.say(sentence, role)
        if sentence:
            # A file that is dropped on the window leads here: what came of it stands far below.
            bring_into_sight(self._said)

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.addWidget(self._read)
        row.addStretch(1)
        for part in (self._words, self._methods, self._table, Caption(COLUMNS, self, wrap=True)):
            self.body.addWidget(part)
        self.body.addLayout(row)
        self.body.addWidget(self._reading)
        self.body.addWidget(self._panel)
        self.body.addWidget(self._said)


def considered(
    reading: WeatherReading, choice: UnitChoice, notebook: Notebook, today: date
) -> Considered:
    """A reading as the owner is asked about it, with its days that can be taken in."""
    faults = [
        tr("Line {line}: {sentence}", line=each.line, sentence=each.sentence)
        for each in reading.faults
    ]
    found = _complaints(reading.days, notebook, today)
    bad = {key: each.sentence for key, each in found if each.severity == "refuse"}
    faults += [_told(key, sentence) for key, sentence in bad.items()]
    good = tuple(day for day in reading.days if day.id not in bad)
    days = good if any(_measured(day) for day in good) else ()
    doubts = [_told(key, each.sentence) for key, each in found if key not in bad]
    asked = any(each.key == "temperature" for each in reading.questions)
    if not asked and not choice.get("temperature"):
        doubts += _table_doubts(days, notebook)
    pending = Pending(
        told=reading.told,
        days=len(days),
        open=reading.open,
        questions=reading.questions,
        faults=faults,
        doubts=doubts,
    )
    return Considered(pending, days)


def _complaints(
    days: Sequence[WeatherDay], notebook: Notebook, today: date
) -> list[tuple[str, Complaint]]:
    """What is wrong or doubtful in days as they would stand in the notebook, by their id."""
    return [
        (record.id, each)
        for _, record in weather_taken_in(notebook, days).values()
        if isinstance(record, WeatherDay)
        for each in (
            *field_complaints(record, today),
            *consistency_complaints(record, notebook),
        )
    ]


def _table_doubts(days: Sequence[WeatherDay], notebook: Notebook) -> list[str]:
    """What looks unlikely in all the weather, as it would stand with the new days."""
    from lawnbook.yard.check import table_questions

    after = apply(notebook, weather_taken_in(notebook, days))
    return [each.sentence for each in table_questions(after) if each.table == "weather"]


def _days_of_weather(count: int) -> str:
    return tr("1 day of weather") if count == 1 else tr("{count:,} days of weather", count=count)


def weather_words(notebook: Notebook) -> str:
    """What weather the notebook holds, in a sentence."""
    dates = [each.date for each in notebook.weather.values()]
    if dates:
        return tr(
            "{count}, {first} to {last}.",
            count=_days_of_weather(len(dates)),
            first=day(min(dates)),
            last=day(max(dates)),
        )
    told = sum(each.eto_in_per_day is not None for each in notebook.climate.values())
    if told == MONTHS_OF_A_YEAR:
        return tr("No days of weather: the plan goes by the usual weather of the months below.")
    if told:
        missing = MONTHS_OF_A_YEAR - told
        count = tr("1 month has") if missing == 1 else tr("{missing} months have", missing=missing)
        return tr(
            "No days of weather, and {count} no usual ETo below: without it no water is told.",
            count=count,
        )
    return tr("No weather yet. With days of weather, or the months below, the plan can tell water.")


def method_words(weather: Weather) -> str:
    """How ETo is known: "ETo: 1,204 days by Hargreaves, 37 filled with the month's mean."."""
    parts = [(each.days, _HOW[each.method]) for each in weather.eto_days]
    unknown = weather.methods.count(None)
    parts += [(unknown, tr("unknown"))] if unknown else []
    if not parts:
        return ""
    (days, how), *rest = parts
    told = [f"{counted(days, 'day')} {how}", *(f"{whole(n)} {words}" for n, words in rest)]
    return tr("ETo: {methods}.", methods=", ".join(told))


def lacking(notebook: Notebook) -> str:
    """What keeps the temperatures held from giving ETo; empty where nothing does."""
    held = any(each.tmin_f is not None for each in notebook.weather.values())
    if notebook.yard.latitude_deg is None and held:
        return tr("Temperatures give ETo once the yard's latitude is entered.")
    return ""


def latest_rows(notebook: Notebook, weather: Weather) -> Sequence[Row]:
    """The latest days of weather, the last first, gaps included."""
    if weather.first is None:
        return ()
    count = len(weather.methods)
    return [
        _row(notebook, weather, place)
        for place in range(count - 1, max(count - LATEST_DAYS, 0) - 1, -1)
    ]


def _row(notebook: Notebook, weather: Weather, place: int) -> Row:
    first = weather.first or date.min
    on = first + timedelta(days=place)
    held = notebook.weather.get(on.isoformat())
    low, high = (None, None) if held is None else (held.tmin_f, held.tmax_f)
    eto, method = float(weather.filled_eto_in[place]), weather.methods[place]
    cells = (
        day(on),
        f"{_degrees(low)} / {_degrees(high)}",
        _rain(held),
        "–" if method is None else f"{eto:.2f}",
        tr("unknown") if method is None else _HOW[method],
    )
    return Row(
        on.isoformat(),
        cells,
        tr(
            "{day}: rain {rain}, ETo {eto} {method}",
            day=cells[0],
            rain=cells[2],
            eto=cells[3],
            method=cells[4],
        ),
    )


def _told(key: str, sentence: str) -> str:
    """A sentence about a day of weather with its day in front, unless it names the day itself."""
    told = day(date.fromisoformat(key))
    return sentence if told in sentence else f"{told}: {sentence}"


def _measured(held: WeatherDay) -> bool:
    """Whether anything was measured on a day."""
    return any(getattr(held, name) is not None for name in FIELDS.values())


def _degrees(value: float | None) -> str:
    return "–" if value is None else f"{value:.0f}"


def _rain(held: WeatherDay | None) -> str:
    """A day's rain; the owner's own gauge is marked."""
    if held is None or (held.gauge_in is None and held.rain_in is None):
        return "–"
    if held.gauge_in is not None:
        return tr("{gauge_in:.2f} gauge", gauge_in=held.gauge_in)
    return f"{held.rain_in:.2f}"
