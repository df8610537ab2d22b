"""What stays down or is ticked follows whoever switches it, with a click or without one.

A screen reader's own way of pressing switches a box or a button and clicks nothing; what the
program shows by itself tells nobody. `access_walk.faults_of` holds that nothing on a page waits
for clicks alone.
"""

from collections.abc import Callable

import pytest
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QApplication, QCheckBox, QPushButton

from lawnbook.desk.editors import Editor, editor_for
from lawnbook.desk.pages.photo_thumbs import Thumb, ThumbRow, Thumbs
from lawnbook.desk.pages.water_figures import FigureTable
from lawnbook.desk.roles import check_quietly, give_roles, grouping
from lawnbook.desk.steps import Steps
from lawnbook.desk.widgets import name_control
from lawnbook.yard.fields import field_of
from lawnbook.yard.pictures import Picture
from lawnbook.yard.records import Spot
from tests.access_walk import role_of, waits_for_clicks
from tests.page_book import put_away


@pytest.fixture(autouse=True, scope="module")
def _roles(qapp: QApplication) -> None:
    give_roles()


def heard_of(editor: Editor) -> list[str]:
    """What an editor tells its form from now on."""
    told: list[str] = []
    editor.edited = lambda: told.append("edited")
    editor.left = lambda: told.append("left")
    return told


def switch(button: QCheckBox | QPushButton | Thumb) -> None:
    """As a screen reader does."""
    button.toggle()


def click(button: QCheckBox | QPushButton | Thumb) -> None:
    """As a hand does."""
    button.click()


BOTH = pytest.mark.parametrize("press", [switch, click])
Press = Callable[[QCheckBox | QPushButton | Thumb], None]


@BOTH
def test_a_box_of_a_form_is_kept_whoever_ticks_it(press: Press) -> None:
    editor = editor_for(field_of(Spot, "comparison"), "trial_")
    told = heard_of(editor)
    editor.write(True)
    assert told == []
    assert isinstance(editor.widget, QCheckBox)
    press(editor.widget)
    assert told == ["edited", "left"]
    assert editor.read() is False
    put_away(editor.widget)


@BOTH
def test_a_step_of_a_scale_is_chosen_and_taken_back_whoever_presses_it(press: Press) -> None:
    steps = Steps("Sponge", 0, 4)
    changes: list[int | None] = []
    steps.changed.connect(lambda: changes.append(steps.value()))
    steps.set_value(1)
    three = steps.findChild(QPushButton, "step_3")
    assert three is not None
    press(three)
    press(three)
    assert changes == [1, 3, None]
    put_away(steps)


@BOTH
def test_a_photograph_is_picked_and_stays_so_whoever_presses_it(press: Press) -> None:
    thumbs = Thumbs("trial", "Photographs")
    rows = [ThumbRow(key, Picture.of(b"none"), key, f"Photograph {key}") for key in ("a", "b")]
    picked: list[str] = []
    thumbs.picked.connect(picked.append)
    thumbs.show_rows(rows, "a")
    first, second = thumbs.findChildren(Thumb)
    press(second)
    press(first)
    assert picked == ["b", "a"]
    assert first.isChecked()
    assert not second.isChecked()
    put_away(thumbs)


def test_what_the_program_checks_tells_nobody() -> None:
    box = QCheckBox()
    told: list[bool] = []
    box.toggled.connect(told.append)
    check_quietly(box)
    assert box.isChecked()
    assert told == []
    put_away(box)


def test_what_waits_for_clicks_alone_is_found() -> None:
    deaf, heeding = QCheckBox(), QCheckBox()
    deaf.clicked.connect(lambda: None)
    heeding.toggled.connect(lambda: None)
    assert waits_for_clicks(deaf)
    assert not waits_for_clicks(heeding)
    for each in (deaf, heeding):
        put_away(each)


def test_what_holds_several_is_heard_as_their_group() -> None:
    table = FigureTable("trial", "Rates")
    holder = grouping()
    name_control(holder, "trial_ticks", "Ticks")
    for each in (table, holder):
        assert role_of(each) == QAccessible.Role.Grouping
    for each in (table, holder):
        put_away(each)
