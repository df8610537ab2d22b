"""A diagonal that was not taped has no residual, and takes nobody else's."""

from typing import cast

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QLineEdit
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.walk_diagonals import DiagonalRows
from lawnbook.yard.walk_records import Residual
from tests.desk_hand import child

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


def test_a_residual_stands_beside_the_diagonal_it_is_of(qtbot: QtBot) -> None:
    rows = DiagonalRows()
    qtbot.addWidget(rows)
    rows.show()
    for number, text in ((1, "?"), (2, "50")):
        QTest.keyClicks(cast(QLineEdit, child(rows, f"walk_diagonal_{number}")), text)
    assert [each.length_ft for each in rows.diagonals()] == [50.0]
    rows.show_fit((Residual("diagonal", "A to C", 0, 2, 3.0, 0.5, 1.0),), frozenset({0}))
    told = [cast(QLabel, child(rows, f"walk_diagonal_fit_{number}")).text() for number in (1, 2)]
    assert told == ["", "3.0 in long"]
