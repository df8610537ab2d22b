"""How the owner draws: steps, grid and snapping, typed in a strip and kept from day to day."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QCheckBox
from pytestqt.qtbot import QtBot

from lawnbook.desk.settings import Settings
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.habit_strip import HabitStrip, parse_grid
from lawnbook.desk.sketch.habits import Habits, length_words
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.numbers import parse_feet
from lawnbook.yard.problems import OwnerError
from tests.conftest import TODAY
from tests.sketch_hand import sketch_yard


@pytest.fixture
def strip(qtbot: QtBot, tmp_path: Path) -> Iterator[HabitStrip]:
    """The strip on the sketch yard."""
    book = OpenNotebook.create(tmp_path / "habits.lawnbook", sketch_yard(), TODAY)
    control = SketchControl(book, SketchScene(book.notebook))
    made = HabitStrip(control)
    qtbot.addWidget(made)
    made.show()
    yield made
    book.close()


def _type(strip: HabitStrip, name: str, text: str) -> None:
    field = strip.fields[name]
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def test_it_shows_what_holds_at_first(strip: HabitStrip) -> None:
    assert [field.text() for field in strip.fields.values()] == ["1'", '3"', "auto"]


@pytest.mark.parametrize(
    ("name", "typed", "feet", "shown"),
    [
        ("step_ft", "2", 2.0, "2'"),
        ("step_ft", "0.5 m", 0.5 / 0.3048, "1.6404 ft"),
        ("fine_ft", '1/2"', 0.5 / 12, '0.5"'),
        ("grid_ft", "1' 6\"", 1.5, "1' 6\""),
        ("grid_ft", "auto", None, "auto"),
    ],
)
def test_a_step_is_typed(
    strip: HabitStrip, name: str, typed: str, feet: float | None, shown: str
) -> None:
    _type(strip, name, typed)
    assert getattr(strip.control.habits, name) == (feet and pytest.approx(feet))
    assert strip.fields[name].text() == shown


@pytest.mark.parametrize("typed", ["0", "-1", "wide", "5000", '0.1"'])
def test_a_step_that_cannot_be_is_refused(strip: HabitStrip, typed: str) -> None:
    said: list[str] = []
    strip.control.said.connect(lambda words, _tone: said.append(words))
    _type(strip, "step_ft", typed)
    assert strip.fields["step_ft"].is_wrong
    assert said[-1].startswith("Arrow step")
    assert strip.control.habits == Habits()


def test_snapping_is_switched_and_told(strip: HabitStrip) -> None:
    told: list[Habits] = []
    strip.changed.connect(told.append)
    box = strip.findChild(QCheckBox, "sketch_habit_snaps")
    assert box is not None
    box.click()
    assert told == [Habits(snaps=False)]
    assert not strip.control.habits.snaps


@given(st.integers(1, 9600).map(lambda eighths: eighths / 96))
def test_a_length_in_words_reads_back(feet: float) -> None:
    assert parse_feet(length_words(feet)) == pytest.approx(feet, abs=1e-4)


def test_a_grid_is_a_length_or_auto() -> None:
    assert parse_grid("") is None
    assert parse_grid("Auto") is None
    assert parse_grid("2") == 2.0
    with pytest.raises(OwnerError, match="Grid"):
        parse_grid("fine")


def test_habits_are_kept(tmp_path: Path) -> None:
    habits = Habits(step_ft=2.5, fine_ft=0.125, grid_ft=3.0, snaps=False)
    Settings(tmp_path / "desk.ini").habits = habits
    assert Settings(tmp_path / "desk.ini").habits == habits
    Settings(tmp_path / "desk.ini").habits = Habits()
    assert Settings(tmp_path / "desk.ini").habits == Habits()


def test_habits_that_cannot_be_read_are_those_of_the_first_day(tmp_path: Path) -> None:
    path = tmp_path / "desk.ini"
    path.write_text("[sketch]\nstep_ft=wide\nfine_ft=-4\ngrid_ft=1e9\nsnaps=perhaps\n")
    assert Settings(path).habits == Habits()
