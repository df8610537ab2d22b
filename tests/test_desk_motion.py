"""Motion: short, in nobody's way, and left out where it is not wanted."""

from collections.abc import Iterator
from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.charts.tokens import CALM_MS, QUICK_MS
from lawnbook.desk.film import DAYS_A_YEAR, SECONDS_A_YEAR, Film
from lawnbook.desk.looks import Looks, Motion, is_still, wear
from lawnbook.desk.motion import FadingStack, Thinning, fade_in, moves
from lawnbook.desk.pages.fold import Fold


@pytest.fixture(autouse=True)
def _as_before() -> Iterator[None]:
    yield
    wear(Looks())


@pytest.fixture
def shown(qtbot: QtBot) -> QWidget:
    """A widget with a field, on the screen."""
    made = QWidget()
    qtbot.addWidget(made)
    column = QVBoxLayout(made)
    column.addWidget(QLineEdit(made))
    made.show()
    return made


def overlay(covered: QWidget) -> Thinning | None:
    return covered.findChild(Thinning)


@pytest.mark.parametrize(("motion", "still"), [("full", False), ("still", True)])
def test_the_owners_choice_is_what_counts(motion: Motion, still: bool) -> None:
    wear(Looks(motion=motion))
    assert is_still() is still
    assert moves() is not still


def test_nothing_moves_where_nobody_looks_on() -> None:
    """Without a screen (so in every other test) motion has to be asked for."""
    wear(Looks(motion="system"))
    assert not moves()


def test_motions_are_short() -> None:
    """The task's own bounds: 120 to 180 ms."""
    assert 120 <= QUICK_MS <= CALM_MS <= 180


def test_what_comes_fades_in_and_takes_keys_meanwhile(shown: QWidget, qtbot: QtBot) -> None:
    wear(Looks(motion="full"))
    fade_in(shown)
    paper = overlay(shown)
    assert paper is not None
    assert paper.runs
    assert paper.size() == shown.size()
    assert paper.testAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
    field = shown.findChild(QLineEdit)
    assert field is not None
    QTest.keyClicks(field, "32 ft")
    assert field.text() == "32 ft"
    qtbot.waitUntil(lambda: not paper.runs)
    assert not paper.isVisible()


def test_left_out_nothing_lies_over_what_comes(shown: QWidget) -> None:
    wear(Looks(motion="still"))
    fade_in(shown)
    assert overlay(shown) is None


def test_it_goes_with_what_it_lies_over(shown: QWidget) -> None:
    wear(Looks(motion="full"))
    fade_in(shown)
    paper = overlay(shown)
    assert paper is not None
    shown.resize(300, 200)
    QApplication.processEvents()
    assert paper.size() == shown.size()
    shown.hide()
    assert not paper.runs
    fade_in(shown)
    assert not paper.runs


def test_a_page_turned_to_fades_in_once(qtbot: QtBot) -> None:
    wear(Looks(motion="full"))
    stack = FadingStack()
    qtbot.addWidget(stack)
    one, other = QLabel("one"), QLabel("other")
    stack.addWidget(one)
    stack.addWidget(other)
    stack.show()
    stack.setCurrentWidget(one)
    assert overlay(one) is None
    stack.setCurrentWidget(other)
    assert overlay(other) is not None


def test_a_part_unfolded_by_hand_fades_in(qtbot: QtBot) -> None:
    wear(Looks(motion="full"))
    fold = Fold("Records", "records")
    qtbot.addWidget(fold)
    fold.show()
    QTest.mouseClick(fold.heading, Qt.MouseButton.LeftButton)
    assert fold.is_unfolded
    assert overlay(fold) is not None


def test_a_still_film_shows_a_picture_of_each_month(qtbot: QtBot) -> None:
    """No day after day; the last day all the same."""
    wear(Looks(motion="still"))
    film, seen = Film(), list[date]()
    film.passed.connect(seen.append)
    starts = date(2024, 1, 10)
    ends = starts + timedelta(days=100)
    film.start(starts, ends)
    for day in range(0, 101, 5):
        film.show_at((day + 0.5) / DAYS_A_YEAR * SECONDS_A_YEAR)
    assert seen == [starts, date(2024, 2, 1), date(2024, 3, 1), date(2024, 4, 1), ends]
    assert not film.runs
