"""Forms made from the rules: entry by keys, sentences in place, questions to be confirmed."""

from dataclasses import replace
from datetime import date
from typing import cast

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QComboBox, QLabel, QLineEdit, QPushButton
from pytestqt.qtbot import QtBot

from lawnbook.desk.editors import editor_for
from lawnbook.desk.forms import FormSetting, RecordForm
from lawnbook.desk.steps import Steps
from lawnbook.desk.widgets import TextField
from lawnbook.yard.check import check
from lawnbook.yard.fields import fields_of
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.problems import OwnerError, Problem
from lawnbook.yard.records import (
    CatchTest,
    Core,
    Established,
    Habit,
    NRules,
    Product,
    Record,
    Season,
    WaterRules,
    Yard,
    Zone,
)
from tests.desk_sample import DAY, sample

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

CORE_FIELDS = ("spot", "date", "thatch_in", "root_depth_in", "sponge", "worms", "pressed", "note")


def judged(record: Record) -> tuple[Problem, ...]:
    """The rules' word on a plug in a sample yard."""
    notebook = sample("larkspur_corner")
    return check(record, apply(notebook, put(notebook, "cores", record)), DAY)


def plug_form(qtbot: QtBot) -> RecordForm:
    form = RecordForm(Core, CORE_FIELDS, judged, None, 3, FormSetting(today=DAY))
    qtbot.addWidget(form)
    spots = sample("larkspur_corner").spots.values()
    form.offer("spot", [(each.id, each.name) for each in spots])
    form.load(None, spot=next(iter(spots)).id, date=DAY)
    form.show()
    form.activateWindow()
    qtbot.waitUntil(form.isActiveWindow)
    return form


def line(form: RecordForm, name: str) -> QLineEdit:
    return cast(QLineEdit, form.editor(name))


def type_in(form: RecordForm, name: str, text: str) -> None:
    field = line(form, name)
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)


def sentence(form: RecordForm, name: str) -> str:
    label = form.findChild(QLabel, f"{name}_problem")
    assert isinstance(label, QLabel)
    return label.text() if not label.isHidden() else ""


def test_a_plug_is_entered_by_keys_alone(qtbot: QtBot) -> None:
    form = plug_form(qtbot)
    form.focus("thatch_in")
    typed: tuple[str | Qt.Key, ...] = ("5/8 11/16 3/4", Qt.Key.Key_Tab, "6 1/2", Qt.Key.Key_Tab)
    for each in (*typed, "1", Qt.Key.Key_Tab, "2"):
        focus = QApplication.focusWidget()
        assert focus is not None
        if isinstance(each, str):
            QTest.keyClicks(focus, each)
        else:
            QTest.keyClick(focus, each)
    core = form.record()
    assert isinstance(core, Core)
    assert core.thatch_in == (0.625, 0.6875, 0.75)
    assert (core.root_depth_in, core.sponge, core.worms) == (6.5, 1, 2)
    assert (core.date, core.pressed, core.note) == (DAY, False, "")
    assert len(core.id) == 16


def test_what_cannot_be_read_is_said_below_its_field_and_has_the_focus(qtbot: QtBot) -> None:
    form = plug_form(qtbot)
    type_in(form, "root_depth_in", "deep")
    with pytest.raises(OwnerError, match="not a length"):
        form.record()
    assert "7/8" in sentence(form, "root_depth_in")
    assert QApplication.focusWidget() is form.editor("root_depth_in")
    type_in(form, "root_depth_in", "6")
    assert sentence(form, "root_depth_in") == ""
    assert isinstance(form.record(), Core)


def test_an_unreadable_day_does_not_hide_what_else_is_wrong(qtbot: QtBot) -> None:
    form = plug_form(qtbot)
    for name, text in (("date", "35 foo"), ("thatch_in", "25"), ("root_depth_in", "-3")):
        type_in(form, name, text)
        QTest.keyClick(form.editor(name), Qt.Key.Key_Tab)
    assert "not a date" in sentence(form, "date")
    assert "0.98" in sentence(form, "thatch_in"), "25 mm typed as inches"
    assert sentence(form, "root_depth_in")
    with pytest.raises(OwnerError, match="not a date"):
        form.record()
    assert [line(form, name).text() for name in ("date", "thatch_in")] == ["35 foo", "25"]


def test_a_refusal_of_the_rules_stands_below_its_field(qtbot: QtBot) -> None:
    form = plug_form(qtbot)
    type_in(form, "date", "3 Aug 2027")
    QTest.keyClick(form.editor("date"), Qt.Key.Key_Tab)
    assert "future" in sentence(form, "date")


def test_a_question_is_kept_only_once_it_is_confirmed(qtbot: QtBot) -> None:
    form = plug_form(qtbot)
    type_in(form, "thatch_in", "5")
    with pytest.raises(OwnerError):
        form.record()
    keep = form.findChild(QCheckBox, "thatch_in_keep")
    assert isinstance(keep, QCheckBox)
    assert keep.isVisible()
    assert QApplication.focusWidget() is keep
    QTest.keyClick(keep, Qt.Key.Key_Space)
    held = form.record()
    assert isinstance(held, Core)
    assert held.thatch_in == (5.0,)
    type_in(form, "thatch_in", "5.5")
    assert not keep.isChecked(), "another value is another question"


def test_a_question_does_not_come_between_two_fields(qtbot: QtBot) -> None:
    """Who types blind goes on in the next field; the box waits behind the last, Enter at it."""
    form = plug_form(qtbot)
    form.focus("thatch_in")
    names = []
    for text in ("5", "6", "", "", "", ""):
        focus = QApplication.focusWidget()
        assert focus is not None
        QTest.keyClicks(focus, text)
        QTest.keyClick(focus, Qt.Key.Key_Tab)
        names.append(str(getattr(QApplication.focusWidget(), "objectName", str)()))
    assert line(form, "root_depth_in").text() == "6"
    assert sentence(form, "thatch_in")
    assert names[0] == "root_depth_in"
    assert names[-2:] == ["note", "thatch_in_keep"]
    with pytest.raises(OwnerError):
        form.record()


def test_what_hangs_on_another_field_is_judged_anew(qtbot: QtBot) -> None:
    """The same plug again is asked about under its day: no more once it is of another spot."""
    form = plug_form(qtbot)
    held = next(each for each in sample("larkspur_corner").cores.values() if each.thatch_in)
    other = next(i for i in sample("larkspur_corner").spots if i != held.spot)
    form.load(replace(held, id="b" * 16))
    with pytest.raises(OwnerError, match="already entered"):
        form.record()
    keep = form.findChild(QCheckBox, "date_keep")
    assert isinstance(keep, QCheckBox)
    QTest.keyClick(keep, Qt.Key.Key_Space)
    form.set_value("spot", other)
    assert sentence(form, "date") == ""
    form.set_value("spot", held.spot)
    with pytest.raises(OwnerError, match="already entered"):
        form.record()
    assert not keep.isChecked()
    type_in(form, "thatch_in", "0.43")
    assert sentence(form, "date") == ""


def test_untouched_text_gives_back_the_last_digit(qtbot: QtBot) -> None:
    form = plug_form(qtbot)
    core = replace(
        next(iter(sample("larkspur_corner").cores.values())), root_depth_in=6.123456789, id="a" * 16
    )
    form.load(core)
    assert line(form, "root_depth_in").text() == "6.1235"
    assert form.record() == core
    type_in(form, "root_depth_in", "6.2")
    assert form.record() == replace(core, root_depth_in=6.2)


def test_leaving_a_changed_field_tells_its_name_once(qtbot: QtBot) -> None:
    form = plug_form(qtbot)
    told: list[str] = []
    form.left.connect(told.append)
    form.focus("note")
    QTest.keyClick(form.editor("note"), Qt.Key.Key_Tab)
    assert told == []
    type_in(form, "note", "springy")
    QTest.keyClick(form.editor("note"), Qt.Key.Key_Tab)
    assert told == ["note"]


def test_enter_is_told(qtbot: QtBot) -> None:
    form = plug_form(qtbot)
    with qtbot.waitSignal(form.entered, timeout=1000):
        QTest.keyClick(form.editor("note"), Qt.Key.Key_Return)


def test_arrow_keys_change_the_day(qtbot: QtBot) -> None:
    form = plug_form(qtbot)
    QTest.keyClick(form.editor("date"), Qt.Key.Key_Down)
    assert line(form, "date").text() == "24 Nov 2026"
    QTest.keyClick(form.editor("date"), Qt.Key.Key_PageDown)
    assert form.values()["date"] == date(2026, 11, 17)
    type_in(form, "date", "nonsense")
    QTest.keyClick(form.editor("date"), Qt.Key.Key_Up)
    assert form.values()["date"] == DAY


FULL: tuple[Record, ...] = (
    Yard(
        id="yard",
        name="Home",
        latitude_deg=41.2,
        irrigation_season=Season(start="04-15", end="10-15"),
    ),
    Zone(
        id="z" * 16,
        name="Front",
        outline_ft=((0, 0), (10, 0), (10, 10)),
        soil="loam",
        slope_pct=4.0,
        established=Established(date=date(2019, 5, 1), how="sod", sod_soil="peat"),
        habit=Habit(minutes=10.0, days_per_week=7.0),
        clippings="left",
    ),
    WaterRules(id="water_rules", days=("Tue", "Sat"), hours=("18:00-08:00", "05:00-06:00")),
    NRules(id="n_rules", min_days=21, blackouts=(Season(start="11-15", end="03-01"),)),
    Product(id="p" * 16, name="Blend", n_pct=24.0, slow_n_pct=14.4),
    CatchTest(
        id="c" * 16,
        zone="z",
        date=DAY,
        run_minutes=15.0,
        can_mouth_sqin=12.0,
        volumes_ml=(10.0, 12.0),
    ),
)


@pytest.mark.parametrize("record", FULL, ids=lambda each: type(each).__name__)
def test_every_field_with_an_editor_comes_back_as_it_was(qtbot: QtBot, record: Record) -> None:
    names = []
    for info in fields_of(type(record)):
        try:
            editor_for(info).widget.deleteLater()
        except TypeError:
            continue
        names.append(info.name)
    assert len(names) >= 2
    form = RecordForm(type(record), names, lambda _: (), None, 3, FormSetting(today=DAY))
    qtbot.addWidget(form)
    if "zone" in names:
        form.offer("zone", [("z", "Front")])
    form.load(record)
    assert form.record() == record


def test_a_nested_record_left_blank_is_none(qtbot: QtBot) -> None:
    form = RecordForm(Zone, ("name", "habit", "established"), lambda _: ())
    qtbot.addWidget(form)
    form.load(None, outline_ft=())
    type_in(form, "name", "Front")
    zone = form.record()
    assert isinstance(zone, Zone)
    assert zone.habit is None
    assert zone.established is None


def test_a_missing_name_is_said(qtbot: QtBot) -> None:
    form = RecordForm(Zone, ("name",), lambda _: ())
    qtbot.addWidget(form)
    form.load(None, outline_ft=())
    with pytest.raises(OwnerError, match="Name is missing"):
        form.record()


def test_a_choice_may_be_taken_back(qtbot: QtBot) -> None:
    form = RecordForm(Zone, ("soil", "grass"), lambda _: ())
    qtbot.addWidget(form)
    form.load(FULL[1])
    soil = cast(QComboBox, form.editor("soil"))
    soil.setFocus()
    QTest.keyClick(soil, Qt.Key.Key_Home)
    assert form.values() == {"soil": None, "grass": "cool"}


def test_steps_answer_keys_and_clicks(qtbot: QtBot) -> None:
    steps = Steps("Sponge")
    qtbot.addWidget(steps)
    steps.show()
    QTest.keyClick(steps, Qt.Key.Key_3)
    assert steps.value() == 3
    assert steps.accessibleDescription().startswith("3")
    QTest.keyClick(steps, Qt.Key.Key_Right)
    QTest.keyClick(steps, Qt.Key.Key_Right)
    assert steps.value() == 4
    QTest.keyClick(steps, Qt.Key.Key_Delete)
    assert steps.value() is None
    button = steps.findChild(QPushButton, "step_2")
    assert isinstance(button, QPushButton)
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    assert steps.value() == 2
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    assert steps.value() is None
    with pytest.raises(ValueError, match="not a step"):
        steps.set_value(5)


def test_a_field_leaves_undo_to_the_book_once_it_has_none_of_its_own(qtbot: QtBot) -> None:
    from PySide6.QtGui import QAction
    from PySide6.QtWidgets import QMainWindow

    window = QMainWindow()
    qtbot.addWidget(window)
    field = TextField()
    window.setCentralWidget(field)
    undone: list[int] = []
    action = QAction("Undo", window)
    action.setShortcut("Ctrl+Z")
    action.triggered.connect(lambda: undone.append(1))
    window.addAction(action)
    window.show()
    window.activateWindow()
    field.setFocus()
    qtbot.waitUntil(field.hasFocus)
    QTest.keyClicks(field, "ab")
    QTest.keyClick(field, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert (field.text(), undone) == ("", [])
    QTest.keyClick(field, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert undone == [1]
