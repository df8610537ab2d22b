"""Long work of the window: it can be stopped, says so, and a failure is told once, not retried."""

import threading
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from functools import partial
from importlib import import_module
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from lawnbook.desk import menus, printing
from lawnbook.desk.pages import yard_exchange
from lawnbook.desk.pages.weather_card import WeatherCard
from lawnbook.desk.pages.yard_exchange import ExchangeSection
from lawnbook.desk.printing import CALLED_OFF_PRINTING, SENT, PageOut, Said
from lawnbook.desk.sketch import backdrop_levels
from lawnbook.desk.sketch.backdrop_levels import LevelShelf
from lawnbook.desk.wait_dialog import WaitDialog
from lawnbook.desk.wait_line import CALLED_OFF, WaitLine
from lawnbook.desk.window import BookWindow
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import OwnerError
from tests.access_walk import opened, settle, turn
from tests.desk_sample import DAY, sample
from tests.page_book import click, part, put_away, text_of
from tests.waiting import until_done

WHY = "There is not enough weather for that."


@pytest.fixture
def window(qapp: QApplication, tmp_path: Path) -> Iterator[BookWindow]:
    made = opened(tmp_path, sample("larkspur_corner"), DAY)
    yield made
    made.close()
    put_away(made)


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> Iterator[threading.Event]:
    """Every yard takes long, and what is written waits until it is let through."""
    gate = threading.Event()
    monkeypatch.setattr("lawnbook.session.planning.takes_long", lambda _: True)
    yield gate
    gate.set()


def test_an_export_that_is_cancelled_says_so_at_the_foot(
    window: BookWindow,
    held: threading.Event,
    qtbot: QtBot,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    target = tmp_path / "out.json"
    monkeypatch.setattr(menus, "choose_export", lambda *_: target)

    def slow(_: Notebook, path: Path, step: Callable[..., None], _last: Callable[[], None]) -> None:
        while not held.wait(0.002):
            step()
        path.write_text("late")

    monkeypatch.setattr("lawnbook.store.yardfile.write_yard", slow)
    menus.export(window)
    qtbot.waitUntil(window.writing.stop_button.isVisible)
    QTest.mouseClick(window.writing.stop_button, Qt.MouseButton.LeftButton)
    assert window.status.words.text() == CALLED_OFF
    window.writing.finish()
    assert not target.exists()


@pytest.mark.parametrize(
    ("button", "made"),
    [("write_geojson", "outlines_written.geojson_of"), ("write_svg", "outlines_svg.svg_of")],
)
def test_the_sketch_is_written_beside_the_window_and_may_be_stopped(
    window: BookWindow,
    held: threading.Event,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    button: str,
    made: str,
) -> None:
    target = tmp_path / "out"
    monkeypatch.setattr(yard_exchange, "takes_long", lambda _: True)
    monkeypatch.setattr(yard_exchange, "choose_outlines_file", lambda *_: target)
    module, name = made.split(".")
    make = getattr(import_module(f"lawnbook.store.{module}"), name)

    def slow(notebook: Notebook) -> object:
        held.wait()
        return make(notebook)

    monkeypatch.setattr(f"lawnbook.store.{made}", slow)
    page = turn(window, "Yard", "In and out")
    section = page.findChild(ExchangeSection)
    assert isinstance(section, ExchangeSection)
    wait = part(section, WaitLine, "outlines_writing")
    click(section, button)
    assert wait.runs
    wait.cancel()
    assert text_of(section, "outlines_written") == CALLED_OFF
    held.set()
    wait.finish()
    assert not target.exists()
    click(section, button)
    until_done(section)
    assert "is written" in text_of(section, "outlines_written")
    assert target.exists()


def test_days_that_cannot_be_reckoned_are_asked_for_once(
    window: BookWindow, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    """They were asked for again and again, for ever, with the veil down and no word."""
    asked: list[date] = []

    def refuse(_: object, starts: date, ends: date) -> object:
        asked.append(ends)
        raise OwnerError(WHY)

    monkeypatch.setattr("lawnbook.session.planning.takes_long", lambda _: True)
    monkeypatch.setattr("lawnbook.plan.day_figures.day_figures", refuse)
    day = DAY - timedelta(days=40)
    window.pass_by(day)
    qtbot.waitUntil(lambda: window.veil.accessibleName() == WHY)
    for _ in range(3):
        window.pass_by(day)
        settle()
    assert window.veil.accessibleName() == WHY
    assert asked == [DAY]
    window.back_to_today()
    settle()
    assert not window.veil.isVisible()


def test_a_backdrop_that_our_mistake_kept_from_being_made_is_waited_for_no_more(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    def slip(*_: object) -> object:
        raise ZeroDivisionError

    monkeypatch.setattr(backdrop_levels, "levels_of", slip)
    shelf = LevelShelf()
    picture = Picture.of(b"no picture")
    with qtbot.captureExceptions() as slips:
        shelf.want({picture.sha256: picture})
        qtbot.waitUntil(lambda: not shelf.is_loading)
        settle()
    assert [kind for kind, *_ in slips] == [ZeroDivisionError]
    assert shelf.levels(picture.sha256) == ()


def test_a_table_that_our_mistake_kept_from_being_read_is_left(
    window: BookWindow, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def slip(*_: object) -> object:
        raise ZeroDivisionError

    monkeypatch.setattr("lawnbook.store.weather_reading.read_weather", slip)
    monkeypatch.setattr("lawnbook.desk.pages.weather_card.is_small", lambda _: False)
    page = turn(window, "Yard", "Overview")
    card = page.findChild(WeatherCard)
    assert isinstance(card, WeatherCard)
    with qtbot.captureExceptions() as slips:
        card.read_weather(tmp_path / "weather.csv")
        qtbot.waitUntil(lambda: bool(slips))
    assert text_of(card, "weather_said") == "Nothing was taken in."


def pages_of(count: int, painted: list[int]) -> PageOut:
    """A document of so many pages, each of which takes a while and is noted."""

    def draw(number: int, _: QPainter) -> None:
        painted.append(number)
        QTest.qSleep(8)

    draws = [partial(draw, number) for number in range(count)]
    return PageOut("Many pages", Path("many.pdf"), "letter", draws)


def cancel_when_asked(window: BookWindow) -> None:
    """Press Cancel in the box as soon as it stands there."""
    box = window.findChild(WaitDialog)
    if box is None or not box.isVisible():
        QTimer.singleShot(2, lambda: cancel_when_asked(window))
        return
    assert box.isModal()
    QTest.mouseClick(box.stop_button, Qt.MouseButton.LeftButton)


class Paper(QPrinter):
    """A printer that writes into a file, and says so to nobody."""

    spool = ""

    def __init__(self, mode: QPrinter.PrinterMode) -> None:
        super().__init__(mode)
        self.setOutputFileName(self.spool)

    def outputFileName(self) -> str:
        """None: a printer of paper."""
        return ""


class Chosen(QPrintDialog):
    """The printer's dialog, in which Print was pressed at once."""

    def exec(self) -> int:
        """As if it was."""
        return 1


@pytest.mark.parametrize("cancels", [True, False])
def test_a_long_document_on_a_printer_tells_how_far_it_is_and_can_be_stopped(
    window: BookWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *, cancels: bool
) -> None:
    monkeypatch.setattr(Paper, "spool", str(tmp_path / "spool.pdf"))
    monkeypatch.setattr(printing, "QPrintDialog", Chosen)
    monkeypatch.setattr(printing, "QPrinter", Paper)
    painted: list[int] = []
    if cancels:
        cancel_when_asked(window)
    said = printing.ask_print(window, pages_of(60, painted))
    settle()
    assert isinstance(said, Said)
    assert said.words == (CALLED_OFF_PRINTING if cancels else SENT)
    assert (len(painted) < 60) == cancels
    assert not any(each.isVisible() for each in window.findChildren(WaitDialog))
