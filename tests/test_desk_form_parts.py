"""Forms beyond their fields: guests, fields left out, questions about what is not shown."""

from typing import cast

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QLabel, QLineEdit
from pytestqt.qtbot import QtBot

from lawnbook.desk.forms import FormSetting, RecordForm
from lawnbook.desk.widgets import TextField
from lawnbook.yard.problems import OwnerError, Problem
from lawnbook.yard.records import NBudget, Yard, Zone

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

FRONT = Zone(
    id="z" * 16, name="Front", outline_ft=((0, 0), (10, 0), (10, 10)), soil="loam", slope_pct=4.0
)


def type_in(form: RecordForm, name: str, text: str) -> None:
    field = cast(QLineEdit, form.editor(name))
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)


def budget_form(qtbot: QtBot) -> RecordForm:
    """A form that does not show the months its records are asked about."""
    form = RecordForm(
        NBudget,
        ("name", "year_lb"),
        lambda each: (Problem("n_budgets", each.id, "by_month", "ask", "Odd months"),),
        None,
        2,
        FormSetting(prefix="b_"),
    )
    qtbot.addWidget(form)
    form.load(None, by_month=(0.0,) * 12)
    form.show()
    form.activateWindow()
    qtbot.waitUntil(form.isActiveWindow)
    type_in(form, "name", "Mine")
    return form


def test_a_question_about_what_is_not_shown_is_put_once_the_record_is_asked_for(
    qtbot: QtBot,
) -> None:
    form = budget_form(qtbot)
    QTest.keyClick(form.editor("name"), Qt.Key.Key_Tab)
    said = form.findChild(QLabel, "b_form_problem")
    keep = form.findChild(QCheckBox, "b_form_keep")
    assert isinstance(said, QLabel)
    assert isinstance(keep, QCheckBox)
    assert said.isHidden(), "nobody has asked for the record yet"
    with pytest.raises(OwnerError, match="Odd months"):
        form.record()
    assert said.isVisible()
    assert QApplication.focusWidget() is keep
    QTest.keyClick(keep, Qt.Key.Key_Space)
    assert isinstance(form.record(), NBudget)
    form.load(None, by_month=(0.0,) * 12)
    type_in(form, "name", "Other")
    with pytest.raises(OwnerError, match="Odd months"):
        form.record()


def test_a_field_left_out_keeps_its_value_and_what_it_cannot_read_stops_nothing(
    qtbot: QtBot,
) -> None:
    form = RecordForm(Zone, ("name", "slope_pct", "soil"), lambda _: (), None, 3)
    qtbot.addWidget(form)
    form.load(FRONT)
    form.show()
    form.show_fields(("slope_pct",), False)
    assert not form.editor("slope_pct").isVisible()
    soil = form.editor("soil")
    QApplication.processEvents()
    assert soil.mapTo(form, soil.rect().topLeft()).x() < form.width() / 2, "the gap is closed"
    assert form.record() == FRONT
    type_in(form, "slope_pct", "steep")
    assert cast(Zone, form.record()).slope_pct == 0
    form.show_fields(("slope_pct",), True)
    assert form.editor("slope_pct").isVisible()
    with pytest.raises(OwnerError, match="number"):
        form.record()


def test_a_guest_stands_among_the_fields_under_its_label(qtbot: QtBot) -> None:
    form = RecordForm(Zone, ("name", "soil"), lambda _: (), None, 3)
    qtbot.addWidget(form)
    guest = TextField()
    form.insert("soil", "guest", "Anything", guest)
    form.show()
    QApplication.processEvents()
    places = [each.mapTo(form, each.rect().topLeft()) for each in (form.editor("name"), guest)]
    places.append(form.editor("soil").mapTo(form, QPoint(0, 0)))
    assert [each.y() for each in places] == [places[0].y()] * 3
    assert places[0].x() < places[1].x() < places[2].x()
    form.show_fields(("guest",), False)
    assert not guest.isVisible()


def test_a_time_zone_is_proposed_by_any_part_of_its_name(qtbot: QtBot) -> None:
    form = RecordForm(Yard, ("time_zone",), lambda _: (), None, 1)
    qtbot.addWidget(form)
    form.load(Yard(id="yard", name="Home"))
    form.show()
    form.activateWindow()
    qtbot.waitUntil(form.isActiveWindow)
    field = cast(QLineEdit, form.editor("time_zone"))
    field.setFocus()
    QTest.keyClicks(field, "denv")
    completer = field.completer()
    assert completer is not None
    assert completer.currentCompletion() == "America/Denver"
    popup = completer.popup()
    assert popup is not None
    popup.hide()
