"""The years played and dragged: the sketch takes each day's colours, the page waits."""

from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.film import DAYS_A_YEAR, SECONDS_A_YEAR, Film
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import as_of, put
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import Core

TODAY = date(2026, 6, 15)
STARTS = date(2024, 1, 1)


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> Iterator[BookWindow]:
    """The corner yard, open and looked at today."""
    corner = next(path for path in sample_yards() if path.stem == "larkspur_corner")
    notebook = as_of(load_any(corner, date.max), TODAY)
    book = OpenNotebook.create(tmp_path / "corner.lawnbook", notebook, TODAY)
    made = BookWindow(book, Settings(tmp_path / "settings.ini"))
    qtbot.addWidget(made)
    made.resize(1440, 900)
    made.show()
    qtbot.waitUntil(lambda: made.sketch.scene.figure_of(next(iter(notebook.zones))) != "")
    yield made
    made.close()


def test_a_film_goes_by_the_clock_and_ends_at_its_last_day(qtbot: QtBot) -> None:
    """Frames that come late skip days; the last day is shown, and told once."""
    film = Film()
    seen: list[date] = []
    ended: list[date] = []
    film.passed.connect(seen.append)
    film.ended.connect(ended.append)
    film.start(STARTS, STARTS + timedelta(days=800))
    assert film.runs
    film.show_at(SECONDS_A_YEAR)
    film.show_at(SECONDS_A_YEAR)
    film.show_at(9 * SECONDS_A_YEAR)
    year = STARTS + timedelta(days=int(DAYS_A_YEAR))
    assert seen == [STARTS, year, STARTS + timedelta(days=800)]
    assert ended == [STARTS + timedelta(days=800)]
    assert not film.runs


def test_a_film_without_days_does_not_begin(qtbot: QtBot) -> None:
    """Nothing is told, and stopping it tells nothing either."""
    film = Film()
    seen: list[date] = []
    film.passed.connect(seen.append)
    film.ended.connect(seen.append)
    film.start(STARTS, STARTS)
    film.stop()
    assert not film.runs
    assert not seen


def test_playing_colours_the_sketch_day_by_day(window: BookWindow, qtbot: QtBot) -> None:
    """From today it begins with the first day; no plan is made until it stops."""
    ribbon, scene = window.ribbon, window.sketch.scene
    zone = next(iter(window.book.notebook.zones))
    QTest.mouseClick(ribbon.play_button, Qt.MouseButton.LeftButton)
    assert ribbon.film.runs
    assert ribbon.field.text() == "1 Jan 2024"
    assert scene.figure_of(zone) == "no plug yet"
    assert window.on == TODAY
    ribbon.film.show_at(SECONDS_A_YEAR)
    assert scene.figure_of(zone).startswith("thatch 1.")
    QTest.mouseClick(ribbon.play_button, Qt.MouseButton.LeftButton)
    assert ribbon.play_button.text() == "play"
    assert window.on == STARTS + timedelta(days=int(DAYS_A_YEAR))
    qtbot.waitUntil(lambda: "Dec 2024" in ribbon.field.text())


def test_the_page_waits_under_a_veil_until_the_day_is_settled(window: BookWindow) -> None:
    """It shows another day's figures, so it must not look fresh."""
    window.pass_by(date(2025, 6, 1))
    veil = window.findChild(QWidget, "veil")
    assert isinstance(veil, QWidget)
    assert veil.isVisible()
    assert veil.size() == window.stack.size()
    window.look_at(date(2025, 6, 1))
    assert not veil.isVisible()


def test_a_drag_passes_days_and_leaves_the_last(window: BookWindow) -> None:
    """The plan of the day is made when the button is let go."""
    strip = window.ribbon.strip
    passed: list[date] = []
    moved: list[date] = []
    window.ribbon.passed.connect(passed.append)
    window.ribbon.moved.connect(moved.append)
    y = strip.height() // 2
    QTest.mousePress(strip, Qt.MouseButton.LeftButton, pos=QPoint(60, y))
    for x in (80, 120, 160):
        QTest.mouseMove(strip, QPoint(x, y))
    assert len(passed) >= 1
    assert not moved
    QTest.mouseRelease(strip, Qt.MouseButton.LeftButton, pos=QPoint(160, y))
    assert moved == passed[-1:]
    assert window.on == moved[0]


def test_a_day_to_come_has_its_own_plan(window: BookWindow) -> None:
    """No film reaches beyond today."""
    window.pass_by(date(2026, 9, 1))
    assert window.on == date(2026, 9, 1)


def test_space_plays_and_another_day_ends_the_film(window: BookWindow) -> None:
    """Typing a day or clicking the strip is the owner's, and the film gives way."""
    strip = window.ribbon.strip
    strip.setFocus()
    QTest.keyClick(strip, Qt.Key.Key_Space)
    assert window.ribbon.play_button.text() == "stop"
    window.look_at(date(2025, 3, 1))
    assert window.on == date(2025, 3, 1)
    assert window.ribbon.play_button.text() == "play"
    QTest.keyClick(strip, Qt.Key.Key_Space)
    QTest.mouseClick(strip, Qt.MouseButton.LeftButton, pos=QPoint(50, 20))
    assert not window.ribbon.film.runs


def test_an_edit_shows_in_the_next_frame(window: BookWindow) -> None:
    """Figures are of the notebook as it is, not as it was when the film began."""
    notebook = window.book.notebook
    spot = next(iter(notebook.spots.values()))
    window.pass_by(date(2024, 3, 2))
    before = window.sketch.scene.figure_of(str(spot.zone))
    core = Core(id="new", spot=spot.id, date=date(2024, 3, 1), thatch_in=(2.0,))
    window.ribbon.play()
    window.book.edit(put(notebook, "cores", core), "keep a plug")
    assert window.ribbon.play_button.text() == "play"
    window.pass_by(date(2024, 3, 2))
    assert before == "no plug yet"
    assert window.sketch.scene.figure_of(str(spot.zone)) == "thatch 2.00 in"


@pytest.mark.parametrize(
    ("by", "words"),
    [("Rooted soil", "roots"), ("Fed in 30 days", "lb in 30 days"), ("Soil water", "% water")],
)
def test_every_choice_has_its_days(window: BookWindow, by: str, words: str) -> None:
    """Roots, nitrogen and water are coloured on a day that passes by, pins too."""
    window.lead_to(by)
    window.pass_by(date(2025, 8, 1))
    scene = window.sketch.scene
    told = [scene.figure_of(zone) for zone in window.book.notebook.zones]
    assert any(words in each for each in told)
    assert scene.by == by
